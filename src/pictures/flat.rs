//! A scene drawn plainly: each thing in its place, its cells in their colours, kerf and score lines as lines; no light, no grain.
//!
//! In: a [`Scene`] and a width. Out: SVG text ([`svg`]), or the same in pixels by the drawers of the lit pictures ([`draw`]), so that another
//! program's drawing of the SVG tells whether things, cells and lines stand where they should.
//! Never here: anything for the published folder: it holds cut lines as vectors.

use std::fmt::Write;

use super::fields::{Coverage, Nearest};
use super::frame::{Frame, Outline, Side, thinned};
use super::{Finish, GROUND, Picture, Scene, linear};
use crate::shape::{Extent, Rgb};

/// Warm white of a primed board. Own choice.
const PRIMED: Rgb = Rgb::new(0xf9, 0xf6, 0xed);
const KERF: Rgb = Rgb::new(0x2a, 0x1c, 0x12);
const SCORE: Rgb = Rgb::new(0x8a, 0x5a, 0x34);
/// Width of a score line, mm. Common practice, no source.
const SCORE_MM: f64 = 0.2;

/// One thing: its outline, and what is painted on it.
struct Sheet {
    outline: Outline,
    base: Rgb,
    cells: Vec<(Outline, Rgb)>,
}

/// Lines of one width, px.
struct Strokes {
    /// Points, and whether the line closes.
    lines: Vec<(Vec<[f32; 2]>, bool)>,
    width: f32,
    colour: Rgb,
}

struct Flat {
    frame: Frame,
    sheets: Vec<Sheet>,
    strokes: Vec<Strokes>,
}

impl Flat {
    fn new(scene: &Scene, width_px: u32) -> Flat {
        let frame = Frame::around(scene.window, width_px);
        let subject = &scene.subject;
        let wood = linear::mix(linear::of(subject.wood.tones[0]), linear::of(subject.wood.tones[1]), 0.3);
        let base = if matches!(scene.finish, Finish::Oiled | Finish::Bare) { linear::to_rgb(wood) } else { PRIMED };
        let cells = subject.plan.filter(|_| scene.finish == Finish::Painted).map_or(&[][..], |plan| &plan.cells);
        let boxes: Vec<Option<Extent>> = cells.iter().map(|cell| Extent::of(&cell.face.outer)).collect();
        let sheets = scene.things.iter().map(|thing| {
            let own = Extent::of(thing.faces.iter().flat_map(|face| &face.outer));
            let meets = |other: &Option<Extent>| own.zip(*other).is_some_and(|(a, b)| a.meets(&b));
            let painted = cells.iter().zip(&boxes).filter(|(_, around)| meets(around)).filter_map(|(cell, _)| {
                let colour = subject.paints.get(cell.paint?)?;
                Some((Outline::new(&frame, [&cell.face], |p| thing.place.of(p)), *colour))
            });
            Sheet { outline: Outline::new(&frame, thing.faces, |p| thing.place.of(p)), base, cells: painted.collect() }
        });
        let sheets: Vec<Sheet> = sheets.collect();
        let mut strokes = Vec::new();
        if !scene.apart {
            let close = 0.03 / frame.px_per_mm;
            let thin = |line: &&crate::drawing::Line| {
                let points = thinned(&line.points, line.closed, close);
                (points.iter().map(|p| frame.to_px(*p)).collect(), line.closed)
            };
            let px = |mm: f64| (mm * frame.px_per_mm) as f32;
            if scene.finish != Finish::Oiled {
                let lines = subject.score.iter().map(thin).collect();
                strokes.push(Strokes { lines, width: px(SCORE_MM), colour: SCORE });
            }
            let kerf = sheets.iter().flat_map(|s| &s.outline.rings).map(|ring| (ring.clone(), true)).collect();
            strokes.push(Strokes { lines: kerf, width: px(subject.board.kerf_mm), colour: KERF });
        }
        Flat { frame, sheets, strokes }
    }
}

fn path(lines: impl IntoIterator<Item = (Vec<[f32; 2]>, bool)>) -> String {
    let mut d = String::new();
    for (points, closed) in lines {
        for (n, [x, y]) in points.iter().enumerate() {
            let _ = write!(d, "{}{x:.3} {y:.3}", if n == 0 { 'M' } else { 'L' });
        }
        d.push_str(if closed { "Z" } else { "" });
    }
    d
}

fn rings(outline: &Outline) -> impl Iterator<Item = (Vec<[f32; 2]>, bool)> + '_ {
    outline.rings.iter().map(|ring| (ring.clone(), true))
}

/// The scene as SVG, so many pixels wide. Not for publication.
pub fn svg(scene: &Scene, width_px: u32) -> String {
    let flat = Flat::new(scene, width_px);
    let (w, h) = (flat.frame.width, flat.frame.height);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}\" height=\"{h}\" viewBox=\"0 0 {w} {h}\"><rect width=\"{w}\" height=\"{h}\" fill=\"{GROUND}\"/>"
    );
    for (n, sheet) in flat.sheets.iter().enumerate() {
        let outline = path(rings(&sheet.outline));
        let _ = write!(out, "<path d=\"{outline}\" fill=\"{}\"/>", sheet.base);
        if !sheet.cells.is_empty() {
            let _ = write!(out, "<clipPath id=\"t{n}\"><path d=\"{outline}\"/></clipPath><g clip-path=\"url(#t{n})\">");
            for (cell, colour) in &sheet.cells {
                let _ = write!(out, "<path d=\"{}\" fill=\"{colour}\"/>", path(rings(cell)));
            }
            out.push_str("</g>");
        }
    }
    for strokes in &flat.strokes {
        let d = path(strokes.lines.iter().cloned());
        let _ = write!(
            out,
            "<path d=\"{d}\" fill=\"none\" stroke=\"{}\" stroke-width=\"{:.3}\" stroke-linecap=\"round\" stroke-linejoin=\"round\"/>",
            strokes.colour, strokes.width
        );
    }
    out + "</svg>\n"
}

/// The same in pixels.
pub fn draw(scene: &Scene, width_px: u32) -> Picture {
    let flat = Flat::new(scene, width_px);
    let (width, height) = (flat.frame.width, flat.frame.height);
    let mut pixels = vec![channels(GROUND); width * height];
    for sheet in &flat.sheets {
        lay_sheet(sheet, &mut pixels, width, height);
    }
    for strokes in &flat.strokes {
        let sides: Vec<Side> = strokes
            .lines
            .iter()
            .flat_map(|(points, closed)| {
                let count = if *closed { points.len() } else { points.len().saturating_sub(1) };
                (0..count).map(|k| [points[k], points[(k + 1) % points.len()]])
            })
            .collect();
        let half = 0.5 * strokes.width;
        let near = Nearest::new(&sides, 0..height, width, half + 1.0);
        for (pixel, square) in pixels.iter_mut().zip(&near.square) {
            // The share of a pixel that a straight stroke covers, by the distance of its centre.
            let d = square.sqrt();
            let share = ((d + half).min(0.5) - (d - half).max(-0.5)).clamp(0.0, 1.0);
            blend(pixel, strokes.colour, share);
        }
    }
    let rgb = pixels.iter().flatten().map(|v| (v + 0.5) as u8).collect();
    Picture { width: width as u32, height: height as u32, rgb }
}

fn channels(colour: Rgb) -> [f32; 3] {
    [colour.r, colour.g, colour.b].map(f32::from)
}

fn blend(pixel: &mut [f32; 3], colour: Rgb, share: f32) {
    if share > 0.0 {
        let colour = channels(colour);
        *pixel = std::array::from_fn(|c| pixel[c] + (colour[c] - pixel[c]) * share);
    }
}

fn lay_sheet(sheet: &Sheet, pixels: &mut [[f32; 3]], width: usize, height: usize) {
    let mut cover = Coverage::default();
    if !cover.take(&sheet.outline, 0..height, width) {
        return;
    }
    cover.each(|column, row, share| blend(&mut pixels[row * width + column], sheet.base, share));
    let (columns, rows) = (cover.columns.clone(), cover.rows.clone());
    let mut own = Coverage::default();
    for (outline, colour) in &sheet.cells {
        if own.take(outline, rows.clone(), width) {
            own.each(|column, row, share| {
                if columns.contains(&column) {
                    let inside = cover.values[(row - rows.start) * columns.len() + column - columns.start];
                    blend(&mut pixels[row * width + column], *colour, share * inside);
                }
            });
        }
    }
}
