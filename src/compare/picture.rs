//! A comparison as a drawing: what stayed is pale, what changed is hatched, what is new is filled and crossed, what is gone is dashed.
//!
//! Told apart without colour as well. Private: it shows cut lines.

use std::fmt::Write;

use kurbo::Vec2;

use super::{Comparison, moved};
use crate::figures::Measured;
use crate::shape::{Extent, Face, Point};

/// Largest picture, pixels.
const LONGEST_PX: f64 = 1400.0;
/// Closest look, pixels to the millimetre.
const CLOSEST_PX_PER_MM: f64 = 10.0;
const MARGIN_PX: f64 = 30.0;

const PATTERNS: &str = "<defs>\
<pattern id=\"changed\" width=\"8\" height=\"8\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\">\
<rect width=\"8\" height=\"8\" fill=\"#dbe7f0\"/><rect width=\"3\" height=\"8\" fill=\"#7fa8c9\"/></pattern>\
<pattern id=\"come\" width=\"10\" height=\"10\" patternUnits=\"userSpaceOnUse\">\
<rect width=\"10\" height=\"10\" fill=\"#cfe3bd\"/><path d=\"M5 2V8M2 5H8\" stroke=\"#3f6b1f\" stroke-width=\"1.4\"/></pattern></defs>";

/// The comparison as one SVG.
pub fn picture(c: &Comparison, old: &Measured, new: &Measured) -> String {
    let way = Vec2::new(c.moved_mm[0], c.moved_mm[1]);
    let news: Vec<&Face> = new.board.pieces.iter().map(|p| &p.face).collect();
    let olds: Vec<Face> = old.board.pieces.iter().map(|p| moved(&p.face, way)).collect();
    let all = Extent::of(news.iter().copied().chain(&olds).flat_map(|f| &f.outer));
    let all = all.unwrap_or(Extent { min: Point::ZERO, max: Point::new(1.0, 1.0) });
    let scale = (LONGEST_PX / all.width_mm().max(all.height_mm()).max(1.0)).min(CLOSEST_PX_PER_MM);
    let (width, height) = (all.width_mm() * scale + 2.0 * MARGIN_PX, all.height_mm() * scale + 2.0 * MARGIN_PX);
    let place = |p: Point| ((p - all.min) * scale).to_point() + Vec2::new(MARGIN_PX, MARGIN_PX);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.0}\" height=\"{height:.0}\" viewBox=\"0 0 {width:.0} {height:.0}\" \
         role=\"img\" aria-label=\"{}\">{PATTERNS}<rect width=\"100%\" height=\"100%\" fill=\"#fbf8f2\"/>",
        format_args!(
            "{} pieces stayed, {} changed, {} new, {} gone",
            c.same.len(),
            c.changed.len(),
            c.come.len(),
            c.gone.len()
        )
    );
    let mut draw = |face: &Face, fill: &str, stroke: &str| {
        let _ = write!(out, "<path d=\"{}\" fill=\"{fill}\" fill-rule=\"evenodd\" {stroke}/>", path(face, place));
    };
    const CUT: &str = "stroke=\"#1d1a17\" stroke-width=\"1.2\"";
    for (i, face) in news.iter().enumerate() {
        let number = i + 1;
        let fill = if c.come.contains(&number) {
            "url(#come)"
        } else if c.changed.iter().any(|(_, n)| *n == number) {
            "url(#changed)"
        } else {
            "#f1e6d0"
        };
        draw(face, fill, CUT);
    }
    const GONE: &str = "stroke=\"#b3261e\" stroke-width=\"2\" stroke-dasharray=\"7 5\"";
    for (i, face) in olds.iter().enumerate() {
        let number = i + 1;
        if c.gone.contains(&number) || c.changed.iter().any(|(o, _)| *o == number) {
            draw(face, "none", GONE);
        }
    }
    out.push_str("</svg>");
    out
}

const STYLE: &str = "body{margin:0 auto;max-width:90rem;padding:2rem 1.5rem;background:#fbf8f2;color:#1d1a17;font:1rem/1.5 system-ui,sans-serif}\
svg{max-width:100%;height:auto;display:block}pre{font:0.95rem/1.45 ui-monospace,monospace;white-space:pre-wrap}";

/// The picture with the table, as a page that stands alone.
pub fn page(c: &Comparison, svg: &str) -> String {
    let table = super::text(c).replace('&', "&amp;").replace('<', "&lt;");
    format!(
        "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\">\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\
         <title>{slug}: what changed</title><style>{STYLE}</style></head>\n<body><h1>{slug}: what changed</h1>\n{svg}\n\
         <p>Pale: stayed. Hatched: changed. Crossed: new. Dashed: as it was. It shows cut lines: keep it at the bench.</p>\n<pre>{table}</pre>\n</body></html>\n",
        slug = c.new.slug,
    )
}

fn path(face: &Face, place: impl Fn(Point) -> Point) -> String {
    let mut out = String::new();
    for ring in face.rings() {
        for (i, point) in ring.iter().enumerate() {
            let at = place(*point);
            let _ = write!(out, "{}{:.2} {:.2}", if i == 0 { 'M' } else { 'L' }, at.x, at.y);
        }
        out.push('Z');
    }
    out
}
