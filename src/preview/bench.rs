//! What the workbench answers: its first page, the bench view of a design with its data and sheets, and the catalogue with drafts.
//!
//! Pages and script stand in `content/preview/`; numbers come from `figures` and `inspect`, as everywhere.

use std::fmt::Write;
use std::sync::Arc;
use std::time::Duration;

use serde_json::{Value, json};

use super::server::Answer;
use super::stock_room::{Kept, Snapshot, StockRoom};
use crate::drawing::Layer;
use crate::figures::{self, Measured};
use crate::findings::Severity;
use crate::inspect;
use crate::shape::{Extent, Point};
#[cfg(feature = "sheets")]
use crate::shop::Paper;
use crate::shop::{Design, Mistake, Status};

/// How long a page waits for news before it asks again.
const WAIT: Duration = Duration::from_secs(20);
/// Points nearer than this to the one before are left out of the drawing on the screen, mm.
const THIN_MM: f64 = 0.06;

const NOT_FOUND: &str = "404 Not Found";

/// The answer to a path behind the token; `base` is the way from the root of the server to that place.
pub(super) fn answer(room: &StockRoom, path: &str, base: &str) -> Answer {
    let (path, query) = path.split_once('?').unwrap_or((path, ""));
    match path {
        "" => Answer::page(home(&room.now(), base)),
        "news" => {
            let since = value(query, "since").and_then(|v| v.parse().ok()).unwrap_or(0);
            json_answer(&json!({"version": room.wait(since, WAIT)}))
        }
        "bench/preview.css" => text("text/css; charset=utf-8", include_str!("../../content/preview/preview.css")),
        "bench/preview.js" => text("text/javascript; charset=utf-8", include_str!("../../content/preview/preview.js")),
        "bench/bench.js" => text("text/javascript; charset=utf-8", include_str!("../../content/preview/bench.js")),
        _ => match (path.strip_prefix("bench/"), path.strip_prefix("catalogue/")) {
            (Some(rest), _) => of_design(room, rest, query, base),
            (_, Some(address)) => of_catalogue(room, address, base),
            _ => Answer::nothing(NOT_FOUND),
        },
    }
}

fn text(kind: &'static str, text: &str) -> Answer {
    Answer::ok(kind, text.as_bytes().to_vec())
}

fn json_answer(value: &Value) -> Answer {
    Answer::ok("application/json", value.to_string().into_bytes())
}

fn value<'a>(query: &'a str, key: &str) -> Option<&'a str> {
    query.split('&').filter_map(|pair| pair.split_once('=')).find(|(name, _)| *name == key).map(|(_, value)| value)
}

/// Text for HTML.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

fn frame(title: &str, base: &str, version: u64, script: &str, body: &str) -> String {
    format!(
        "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\
         <title>{}</title><link rel=\"stylesheet\" href=\"{base}bench/preview.css\"><link rel=\"icon\" href=\"data:,\">\
         <script src=\"{base}bench/{script}\" defer></script></head>\n<body class=\"workbench\" data-base=\"{base}\" data-version=\"{version}\">{body}</body></html>\n",
        escaped(title)
    )
}

/// All designs with their figures, and every mistake there is.
fn home(now: &Snapshot, base: &str) -> String {
    let mut body = String::from("<main><h1>Workbench</h1>\n");
    let title = match &now.shop {
        None => {
            body.push_str("<p role=\"status\">The shop is being read and measured.</p>\n");
            "Workbench".to_owned()
        }
        Some(Err(why)) => {
            let _ = writeln!(body, "<p role=\"alert\">{}</p>", escaped(why));
            "Workbench".to_owned()
        }
        Some(Ok(shop)) => {
            let _ = writeln!(
                body,
                "<p class=\"lead\">{} · <a href=\"{base}catalogue/index.html\">the catalogue, drafts included</a></p>",
                escaped(&shop.settings.name)
            );
            mistakes(&mut body, &shop.mistakes);
            body.push_str("<table><caption class=\"unseen\">Designs and their figures</caption><thead><tr><th scope=\"col\">Design<th scope=\"col\">Status<th scope=\"col\" class=\"n\">Pieces<th scope=\"col\" class=\"n\">Edge holds<th scope=\"col\" class=\"n\">Size, mm<th scope=\"col\" class=\"n\">Board, g<th scope=\"col\">Difficulty<th scope=\"col\">To look at</thead>\n<tbody>\n");
            for entry in &shop.entries {
                row(&mut body, now, &entry.slug, entry.status, &entry.mistakes, base);
            }
            body.push_str("</tbody></table>\n");
            format!("Workbench: {}", shop.settings.name)
        }
    };
    body.push_str("</main>");
    frame(&title, base, now.version, "preview.js", &body)
}

fn row(out: &mut String, now: &Snapshot, slug: &str, status: Option<Status>, wrong: &[Mistake], base: &str) {
    let status = match status {
        Some(Status::Draft) => "draft",
        Some(Status::Published) => "published",
        None => "–",
    };
    let kept = now.kept.get(slug);
    let title = kept.map_or(slug, |kept| kept.design.title.as_str());
    let _ = write!(
        out,
        "<tr><th scope=\"row\"><a href=\"{base}bench/{slug}/\">{}</a> <span class=\"slug\">{}</span><td>{status}",
        escaped(title),
        escaped(slug)
    );
    match kept.map(|kept| &kept.measured) {
        Some(Ok(measured)) => {
            let f = &measured.figures;
            let problems = measured.findings.iter().filter(|f| f.severity == Severity::Problem).count();
            let notes = measured.findings.len() - problems;
            let told = if problems > 0 {
                format!("<strong>{problems} to mend</strong>, {notes} notes")
            } else {
                format!("{notes} notes")
            };
            let _ = writeln!(
                out,
                "<td class=\"n\">{}<td class=\"n\">{} of {}<td class=\"n\">{:.1} × {:.1}<td class=\"n\">{:.0}<td>{:.0} {}<td>{told}",
                f.pieces.count,
                f.joints.edge_hold,
                f.joints.edge,
                f.size.width_mm,
                f.size.height_mm,
                f.weight.board_g,
                f.difficulty.score,
                f.difficulty.word.name()
            );
        }
        failed => {
            out.push_str("<td colspan=\"6\">");
            let failed: Vec<Mistake> =
                failed.and_then(|f| f.as_ref().err()).map(|m| (**m).clone()).into_iter().collect();
            mistakes(out, wrong);
            mistakes(out, &failed);
            out.push('\n');
        }
    }
}

fn mistakes(out: &mut String, mistakes: &[Mistake]) {
    for mistake in mistakes {
        let _ = writeln!(out, "<pre class=\"mistake\">{}</pre>", escaped(&mistake.render()));
    }
}

/// `<slug>/`, `<slug>/data.json`, `<slug>/painting-a4.pdf`.
fn of_design(room: &StockRoom, path: &str, query: &str, base: &str) -> Answer {
    let now = room.now();
    let Some((slug, what)) = path.split_once('/') else { return Answer::nothing(NOT_FOUND) };
    let known = now.shop().is_some_and(|shop| shop.entries.iter().any(|entry| entry.slug == slug));
    if !known && now.shop.is_some() {
        return Answer::nothing(NOT_FOUND);
    }
    match what {
        "" => {
            let title = now.kept.get(slug).map_or(slug, |kept| kept.design.title.as_str());
            let body = include_str!("../../content/preview/bench.html")
                .replace("{title}", &escaped(title))
                .replace("{base}", base)
                .replace("{slug}", &escaped(slug));
            Answer::page(frame(&format!("{title}: bench"), base, now.version, "bench.js", &body))
        }
        "data.json" => {
            let kerf_mm = value(query, "kerf").and_then(|v| v.parse::<f64>().ok()).filter(|k| (0.0..=2.0).contains(k));
            json_answer(&data(&now, slug, kerf_mm))
        }
        _ => sheet(&now, slug, what),
    }
}

/// All that the bench view shows of a design.
fn data(now: &Snapshot, slug: &str, kerf_mm: Option<f64>) -> Value {
    let broken = |mistakes: &[Mistake]| json!({"version": now.version, "mistakes": mistakes.iter().map(Mistake::render).collect::<Vec<_>>()});
    let Some(shop) = now.shop() else {
        return json!({"version": now.version, "mistakes": ["The shop is being read."]});
    };
    let Some(kept) = now.kept.get(slug) else {
        let entry = shop.entries.iter().find(|entry| entry.slug == slug);
        return broken(entry.map(|entry| entry.mistakes.as_slice()).unwrap_or_default());
    };
    let Kept { design, measured, .. } = &**kept;
    let measured = match measured {
        Ok(measured) => measured,
        Err(mistake) => return broken(std::slice::from_ref(mistake)),
    };
    match kerf_mm.filter(|kerf| *kerf != design.board.kerf_mm) {
        None => shown(now, design, measured),
        Some(kerf_mm) => {
            let mut tried = design.clone();
            tried.board.kerf_mm = kerf_mm;
            match figures::measure(&tried, &shop.settings) {
                Ok(measured) => shown(now, &tried, &measured),
                Err(why) => broken(&[why.mistake(design)]),
            }
        }
    }
}

fn shown(now: &Snapshot, design: &Design, measured: &Measured) -> Value {
    let pieces: Vec<Value> = measured
        .board
        .pieces
        .iter()
        .enumerate()
        .map(|(i, piece)| {
            let cut: String = piece.cut.iter().flat_map(|face| face.rings()).map(|ring| path(ring, true)).collect();
            let twins = measured.twins.iter().position(|class| class.contains(&i)).map(|class| class + 1);
            let middle = Extent::of(&piece.face.outer).map(|e| e.min.midpoint(e.max)).unwrap_or_default();
            json!({
                "number": i + 1, "cut": cut, "area_mm2": piece.net_mm2, "edge": piece.edge,
                "novelty": piece.novelty.is_some(), "twins": twins, "at_mm": [middle.x, middle.y],
            })
        })
        .collect();
    let score: String =
        measured.drawing.lines.iter().filter(|l| l.layer == Layer::Score).map(|l| path(&l.points, l.closed)).collect();
    let joints: Vec<Value> = measured.joints.iter().map(|j| json!({"pieces": [j.a + 1, j.b + 1], "at_mm": [j.at_mm.x, j.at_mm.y], "edge": j.edge, "holds": j.holds})).collect();
    let extent = Extent::of(measured.board.parts.iter().flat_map(|part| &part.outline.outer)).map(|e| e.inflate(4.0));
    let view = extent.map_or([0.0, 0.0, 1.0, 1.0], |e| [e.min.x, e.min.y, e.width_mm(), e.height_mm()]);
    json!({
        "version": now.version, "title": design.title, "status": design.status, "kerf_mm": design.board.kerf_mm, "view": view,
        "figures": measured.figures, "inspection": inspect::inspect(design, measured), "pieces": pieces, "score": score, "joints": joints,
        "sheets": sheets(now, measured.plan.is_some()),
    })
}

/// One line as path data, mm, thinned to what a screen shows.
fn path(points: &[Point], closed: bool) -> String {
    let mut out = String::new();
    let mut last: Option<Point> = None;
    for (i, at) in points.iter().enumerate() {
        let far = last.is_none_or(|l| (*at - l).hypot2() > THIN_MM * THIN_MM);
        if far || i + 1 == points.len() {
            let _ = write!(out, "{}{:.2} {:.2}", if last.is_none() { 'M' } else { 'L' }, at.x, at.y);
            last = Some(*at);
        }
    }
    if closed {
        out.push('Z');
    }
    out
}

/// Sheets that can be shown: name in addresses, name for people, whether they need a paint plan.
const SHEETS: [(&str, &str, bool); 3] =
    [("painting", "Painting guide", true), ("count", "Piece count", false), ("bench", "Bench sheet", false)];

/// Names and addresses of a design's sheets on the shop's first paper.
fn sheets(now: &Snapshot, planned: bool) -> Vec<Value> {
    let paper = now.shop().and_then(|shop| shop.settings.paper.first().copied()).filter(|_| cfg!(feature = "sheets"));
    let Some(paper) = paper else { return Vec::new() };
    let wanted = SHEETS.iter().filter(|(_, _, plan)| planned || !plan);
    wanted.map(|(name, words, _)| json!({"name": words, "address": format!("{name}-{}.pdf", paper.name())})).collect()
}

#[cfg(feature = "sheets")]
fn sheet(now: &Snapshot, slug: &str, what: &str) -> Answer {
    use crate::sheets::{Order, bench_sheet, count_sheet, painting_guide};
    let found = what.strip_suffix(".pdf").and_then(|what| what.rsplit_once('-'));
    let paper = match found {
        Some((_, "a4")) => Paper::A4,
        Some((_, "letter")) => Paper::Letter,
        _ => return Answer::nothing(NOT_FOUND),
    };
    let (Some(shop), Some(kept)) = (now.shop(), now.kept.get(slug)) else { return Answer::nothing(NOT_FOUND) };
    let Ok(measured) = &kept.measured else { return Answer::nothing(NOT_FOUND) };
    let cover = crate::catalogue::cover(shop, &kept.design, measured);
    let order = Order {
        design: &kept.design,
        measured,
        settings: &shop.settings,
        paper,
        language: shop.settings.languages.first().map_or("en", String::as_str),
        cover_jpeg: cover.as_deref(),
        theme: &shop.theme,
    };
    let made = match found.map(|(name, _)| name) {
        Some("painting") => painting_guide(&order),
        Some("count") => count_sheet(&order, false),
        Some("bench") => bench_sheet(&order, false),
        _ => return Answer::nothing(NOT_FOUND),
    };
    match made {
        Ok(sheet) => Answer::ok("application/pdf", sheet.bytes),
        Err(why) => {
            let body = Arc::new(why.to_string().into_bytes());
            Answer { status: "500 Internal Server Error", kind: "text/plain; charset=utf-8", body }
        }
    }
}

#[cfg(not(feature = "sheets"))]
fn sheet(_: &Snapshot, _: &str, _: &str) -> Answer {
    Answer::nothing(NOT_FOUND)
}

/// A page, picture or file of the catalogue.
fn of_catalogue(room: &StockRoom, address: &str, base: &str) -> Answer {
    let now = room.now();
    let address = decoded(address);
    let address = if address.is_empty() || address.ends_with('/') { format!("{address}index.html") } else { address };
    let kind = kind(&address);
    if let Some(slug) = picture_of(&now, &address) {
        return match room.picture(&now, &slug, &address) {
            Some(body) => Answer { status: "200 OK", kind, body },
            None => Answer::nothing(NOT_FOUND),
        };
    }
    match now.page(&address) {
        Err(why) => {
            let body = format!(
                "<main><h1>The catalogue cannot be made</h1><pre class=\"mistake\">{}</pre><p><a href=\"{base}\">Workbench</a></p></main>",
                escaped(&why)
            );
            Answer::page(frame("The catalogue cannot be made", base, now.version, "preview.js", &body))
        }
        Ok(None) => Answer::nothing(NOT_FOUND),
        Ok(Some(bytes)) if kind.starts_with("text/html") => {
            Answer::page(with_bar(&now, &String::from_utf8_lossy(&bytes), &address, base))
        }
        Ok(Some(body)) => Answer { status: "200 OK", kind, body },
    }
}

/// The design whose picture lies at an address.
fn picture_of(now: &Snapshot, address: &str) -> Option<String> {
    let main = address.strip_prefix("designs/").and_then(|rest| rest.strip_suffix("/picture.jpg"));
    if let Some(slug) = main {
        return Some(slug.to_owned());
    }
    if !address.starts_with("made/") {
        return None;
    }
    let has = |kept: &&Arc<Kept>| {
        kept.known_card()
            .into_iter()
            .flat_map(|card| &card.pictures)
            .any(|set| set.sources.iter().any(|s| s.address == address))
    };
    now.kept.values().find(has).map(|kept| kept.design.slug.clone())
}

/// RFC 3986, 2.1.
fn decoded(text: &str) -> String {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.as_bytes();
    while let Some((first, tail)) = rest.split_first() {
        let hex = (*first == b'%')
            .then(|| tail.get(..2))
            .flatten()
            .and_then(|hex| u8::from_str_radix(std::str::from_utf8(hex).ok()?, 16).ok());
        bytes.push(hex.unwrap_or(*first));
        rest = if hex.is_some() { &tail[2..] } else { tail };
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

fn kind(address: &str) -> &'static str {
    match address.rsplit_once('.').map(|(_, ending)| ending) {
        Some("html") => "text/html; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("json") => "application/json",
        Some("svg") => "image/svg+xml",
        Some("webp") => "image/webp",
        Some("jpg") => "image/jpeg",
        Some("png") => "image/png",
        Some("xml") => "application/xml",
        Some("csv") => "text/csv; charset=utf-8",
        _ => "text/plain; charset=utf-8",
    }
}

/// The page with a bar that says what it is and leads to the workbench.
fn with_bar(now: &Snapshot, html: &str, address: &str, base: &str) -> String {
    let slug = address.split("designs/").nth(1).and_then(|rest| rest.split('/').next());
    let design = slug.and_then(|slug| now.kept.get(slug)).map(|kept| &kept.design);
    let mut bar =
        format!("<aside class=\"kerfleaf-bar\" aria-label=\"Preview\">Preview · <a href=\"{base}\">workbench</a>");
    if let Some(design) = design {
        let _ = write!(bar, " · <a href=\"{base}bench/{}/\">bench view of this design</a>", escaped(&design.slug));
        if design.status == Status::Draft {
            bar.push_str(" · <strong>a draft: nobody else sees this page</strong>");
        }
    }
    bar.push_str("</aside>");
    let head = format!(
        "<link rel=\"stylesheet\" href=\"{base}bench/preview.css\"><script src=\"{base}bench/preview.js\" defer></script></head>"
    );
    let body = format!("{bar}<span hidden data-base=\"{base}\" data-version=\"{}\"></span></body>", now.version);
    without_policy(html).replacen("</head>", &head, 1).replacen("</body>", &body, 1)
}

/// The page without the policy that it states itself: published pages may ask for nothing, and this one asks for news. The server's
/// header states the preview's own.
fn without_policy(html: &str) -> String {
    let Some(at) = html.find("http-equiv=\"Content-Security-Policy\"") else { return html.to_owned() };
    let (Some(from), Some(to)) = (html[..at].rfind('<'), html[at..].find('>')) else { return html.to_owned() };
    format!("{}{}", &html[..from], &html[at + to + 1..])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_keeps_all_but_its_policy() {
        let page = "<head><meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'\">\n<title>x</title>";
        assert_eq!(without_policy(page), "<head><meta charset=\"utf-8\">\n\n<title>x</title>");
        assert_eq!(without_policy("<p>x"), "<p>x");
    }

    #[test]
    fn addresses_are_decoded_byte_by_byte() {
        assert_eq!(decoded("a%20b/%C3%BC%2"), "a b/ü%2");
        assert_eq!(decoded("%2e%2e/x"), "../x");
    }
}
