//! A drawing with its findings marked: the maker's own view, flat and exact, cut lines and all.
//!
//! In: a [`Subject`] and [`Mark`]s. Out: SVG text ([`overview`], [`cut_out`]), or one PNG of both ([`png`]).
//! Steps: `art` draws wood, paint, kerf and lines of a window; here they get rings, numbers and a scale bar (`digits`).
//! Never here: what a finding means, text beyond numbers, a page. Private: nothing of it is ever published.

mod art;
mod digits;

use resvg::{tiny_skia, usvg};

use super::Subject;
use crate::shape::{Extent, Point};
use art::{Window, drawing};

/// A numbered place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// Its number.
    pub number: usize,
    /// Where, mm.
    pub at_mm: Point,
    /// Filled where it is a problem, outlined where not: told apart without colour too.
    pub problem: bool,
    /// How much of the drawing shows it, mm across.
    pub span_mm: f64,
}

const PROBLEM: &str = "#b3261e";
const NOTE: &str = "#1f5a8c";
/// Largest picture of the whole, pixels.
const WIDEST_PX: f64 = 1480.0;
const HIGHEST_PX: f64 = 1100.0;
/// Closest look at the whole, pixels to the millimetre.
const CLOSEST_PX_PER_MM: f64 = 12.0;
/// Room around the drawing for numbers, pixels.
const MARGIN_PX: f64 = 60.0;
/// Side of a cut-out, pixels.
pub const CUT_OUT_PX: f64 = 240.0;
/// Numbers in a picture of the whole; with more, nothing could be told apart. The first problems get them.
const MOST_NUMBERS: usize = 400;
/// Cut-outs in one PNG.
pub const MOST_CUT_OUTS: usize = 36;
const IN_A_ROW: usize = 6;
const GAP_PX: f64 = 20.0;

/// A rectangle in pixels.
#[derive(Clone, Copy)]
struct Spot {
    x: f64,
    y: f64,
    width: f64,
    height: f64,
}

impl Spot {
    fn meets(&self, other: &Spot) -> bool {
        self.x < other.x + other.width
            && other.x < self.x + self.width
            && self.y < other.y + other.height
            && other.y < self.y + self.height
    }
}

/// An SVG element with its size, pixels.
#[derive(Clone, Debug)]
pub struct Drawn {
    /// `<svg …>…</svg>`.
    pub svg: String,
    /// Across.
    pub width_px: f64,
    /// Down.
    pub height_px: f64,
}

fn svg(width: f64, height: f64, content: &str) -> Drawn {
    let svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.0}\" height=\"{height:.0}\" viewBox=\"0 0 {width:.0} {height:.0}\">{content}</svg>"
    );
    Drawn { svg, width_px: width, height_px: height }
}

/// The whole drawing with every mark. `link` gives the address that a number leads to, if any; it is put in as it is.
pub fn overview(subject: &Subject, marks: &[Mark], link: impl Fn(&Mark) -> Option<String>) -> Drawn {
    let chains = subject.board.net.chains.iter().flat_map(|c| subject.board.net.points(c));
    let extent = Extent::of(chains.chain(marks.iter().map(|m| &m.at_mm)));
    let extent = extent.unwrap_or(Extent { min: Point::ZERO, max: Point::new(1.0, 1.0) });
    let (wide, high) = (extent.width_mm().max(1.0), extent.height_mm().max(1.0));
    let scale = (WIDEST_PX / wide).min(HIGHEST_PX / high).min(CLOSEST_PX_PER_MM);
    let (width, height) = (wide * scale + 2.0 * MARGIN_PX, high * scale + 2.0 * MARGIN_PX);
    let origin = extent.min - kurbo::Vec2::new(MARGIN_PX, MARGIN_PX) / scale;
    let window = Window { origin, scale, width, height };

    let mut content = drawing(subject, &window, false);
    content.push_str(&scale_bar(&window, MARGIN_PX, height - 24.0));
    let order = first_problems(marks);
    for mark in &order {
        let at = window.place(mark.at_mm);
        content.push_str(&ring(at, 7.0, mark.problem, 2.0));
    }
    let mut taken: Vec<Spot> =
        order.iter().map(|m| window.place(m.at_mm)).map(|p| around(p, 9.0)).take(MOST_NUMBERS).collect();
    for mark in order.iter().take(MOST_NUMBERS) {
        let at = window.place(mark.at_mm);
        let spot = free_spot(at, mark.number, &taken, width, height);
        taken.push(spot);
        let badge = leader(at, &spot, mark.problem) + &badge(&spot, mark.number, mark.problem);
        match link(mark) {
            Some(href) => content.push_str(&format!(
                "<a href=\"{href}\" id=\"m{0}\" aria-label=\"finding {0}\">{badge}</a>",
                mark.number
            )),
            None => content.push_str(&badge),
        }
    }
    svg(width, height, &content)
}

/// One mark near, with its number and a scale bar.
pub fn cut_out(subject: &Subject, mark: &Mark) -> Drawn {
    let scale = CUT_OUT_PX / mark.span_mm.max(1.0);
    let half = kurbo::Vec2::new(CUT_OUT_PX, CUT_OUT_PX) / (2.0 * scale);
    let window = Window { origin: mark.at_mm - half, scale, width: CUT_OUT_PX, height: CUT_OUT_PX };
    let mut content = drawing(subject, &window, true);
    let middle = Point::new(CUT_OUT_PX / 2.0, CUT_OUT_PX / 2.0);
    content.push_str(&ring(middle, 24.0, mark.problem, 2.5));
    content.push_str(&scale_bar(&window, 12.0, CUT_OUT_PX - 12.0));
    let badge_at = Spot { x: 10.0, y: 10.0, width: badge_width(mark.number), height: BADGE_PX };
    content.push_str(&badge(&badge_at, mark.number, mark.problem));
    content.push_str(&format!(
        "<rect x=\"0.5\" y=\"0.5\" width=\"{0}\" height=\"{0}\" fill=\"none\" stroke=\"#8a8178\"/>",
        CUT_OUT_PX - 1.0
    ));
    svg(CUT_OUT_PX, CUT_OUT_PX, &content)
}

/// The whole drawing, and below it the first [`MOST_CUT_OUTS`] marks near, problems first, as PNG.
///
/// `None` where the picture would be too large for memory.
pub fn png(subject: &Subject, marks: &[Mark]) -> Option<Vec<u8>> {
    let whole = overview(subject, marks, |_| None);
    let near: Vec<Drawn> =
        first_problems(marks).iter().take(MOST_CUT_OUTS).map(|mark| cut_out(subject, mark)).collect();
    let in_a_row = near.len().clamp(1, IN_A_ROW);
    let row = in_a_row as f64 * (CUT_OUT_PX + GAP_PX) - GAP_PX;
    let width = (row + 2.0 * GAP_PX).max(whole.width_px);
    let rows = near.len().div_ceil(in_a_row) as f64;
    let height = whole.height_px + rows * (CUT_OUT_PX + GAP_PX) + if near.is_empty() { 0.0 } else { GAP_PX };
    let mut content = format!("<rect width=\"{width:.0}\" height=\"{height:.0}\" fill=\"{}\"/>", art::PAPER);
    content.push_str(&moved(&whole, (width - whole.width_px) / 2.0, 0.0));
    for (i, drawn) in near.iter().enumerate() {
        let x = (width - row) / 2.0 + (i % in_a_row) as f64 * (CUT_OUT_PX + GAP_PX);
        let y = whole.height_px + (i / in_a_row) as f64 * (CUT_OUT_PX + GAP_PX);
        content.push_str(&moved(drawn, x, y));
    }
    rastered(&svg(width, height, &content).svg)
}

/// Our own SVG as PNG; `None` where it would be too large for memory.
pub fn rastered(svg: &str) -> Option<Vec<u8>> {
    let tree = usvg::Tree::from_str(svg, &usvg::Options::default()).ok()?;
    let size = tree.size().to_int_size();
    let mut pixels = tiny_skia::Pixmap::new(size.width(), size.height())?;
    resvg::render(&tree, tiny_skia::Transform::identity(), &mut pixels.as_mut());
    pixels.encode_png().ok()
}

fn moved(drawn: &Drawn, x: f64, y: f64) -> String {
    drawn.svg.replacen("<svg ", &format!("<svg x=\"{x:.0}\" y=\"{y:.0}\" "), 1)
}

/// Problems, then notes, each in their own order.
fn first_problems(marks: &[Mark]) -> Vec<Mark> {
    let mut order = marks.to_vec();
    order.sort_by_key(|m| !m.problem);
    order
}

fn colour(problem: bool) -> &'static str {
    if problem { PROBLEM } else { NOTE }
}

fn around(at: Point, half: f64) -> Spot {
    Spot { x: at.x - half, y: at.y - half, width: 2.0 * half, height: 2.0 * half }
}

fn ring(at: Point, radius: f64, problem: bool, line: f64) -> String {
    let circle = |colour: &str, line: f64| {
        format!(
            "<circle cx=\"{:.1}\" cy=\"{:.1}\" r=\"{radius}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{line}\"/>",
            at.x, at.y
        )
    };
    // A light rim keeps it apart from dark lines.
    circle("#ffffff", line + 2.0) + &circle(colour(problem), line)
}

/// Height of a number with its ground, pixels.
const BADGE_PX: f64 = 20.0;

fn badge_width(number: usize) -> f64 {
    digits::width(&number.to_string(), 10.0) + 12.0
}

fn badge(spot: &Spot, number: usize, problem: bool) -> String {
    let (ground, ink) = if problem { (PROBLEM, "#ffffff") } else { ("#ffffff", NOTE) };
    let Spot { x, y, width, height } = *spot;
    let rim = colour(problem);
    format!(
        "<rect x=\"{x:.1}\" y=\"{y:.1}\" width=\"{width:.1}\" height=\"{height}\" rx=\"{}\" fill=\"{ground}\" stroke=\"{rim}\" stroke-width=\"1.6\"/>{}",
        height / 2.0,
        digits::text(&number.to_string(), x + 6.0, y + 5.0, 10.0, ink)
    )
}

fn leader(at: Point, spot: &Spot, problem: bool) -> String {
    let to = Point::new(spot.x + spot.width / 2.0, spot.y + spot.height / 2.0);
    let way = to - at;
    let length = libm::hypot(way.x, way.y);
    if length <= 7.0 {
        return String::new();
    }
    let from = at + way * (7.0 / length);
    format!(
        "<path d=\"M{:.1} {:.1}L{:.1} {:.1}\" stroke=\"{}\" stroke-width=\"1.3\"/>",
        from.x,
        from.y,
        to.x,
        to.y,
        colour(problem)
    )
}

/// The nearest place for a number around its mark that is free; the first one where none is.
fn free_spot(at: Point, number: usize, taken: &[Spot], width: f64, height: f64) -> Spot {
    let wide = badge_width(number);
    let spot = |distance: f64, turn: u32| {
        // From the upper right round to the left, by sixteenths.
        let angle = -std::f64::consts::FRAC_PI_4 - f64::from(turn) * std::f64::consts::PI / 8.0;
        let (x, y) = (at.x + distance * libm::cos(angle), at.y + distance * libm::sin(angle));
        Spot { x: x - wide / 2.0, y: y - BADGE_PX / 2.0, width: wide, height: BADGE_PX }
    };
    let inside = |s: &Spot| s.x >= 2.0 && s.y >= 2.0 && s.x + s.width <= width - 2.0 && s.y + s.height <= height - 2.0;
    [26.0, 38.0, 54.0, 74.0, 98.0, 130.0]
        .into_iter()
        .flat_map(|distance| (0..16).map(move |turn| (distance, turn)))
        .map(|(distance, turn)| spot(distance, turn))
        .find(|s| inside(s) && !taken.iter().any(|t| t.meets(s)))
        .unwrap_or_else(|| spot(26.0, 0))
}

/// A rule of a round length with its number of millimetres; its left end and its line at the place given, pixels.
fn scale_bar(window: &Window, x: f64, y: f64) -> String {
    let longest = window.width / 4.0 / window.scale;
    let rounds = [0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0];
    let length = rounds.into_iter().rfind(|l| *l <= longest).unwrap_or(0.5);
    let end = x + length * window.scale;
    let words = format!("{length} mm");
    let line = |colour: &str, wide: f64| {
        format!(
            "<path d=\"M{x:.1} {:.1}V{y:.1}H{end:.1}V{:.1}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{wide}\"/>",
            y - 5.0,
            y - 5.0
        )
    };
    let ground = format!(
        "<rect x=\"{:.1}\" y=\"{:.1}\" width=\"{:.1}\" height=\"18\" rx=\"3\" fill=\"{}\" fill-opacity=\"0.85\"/>",
        x - 5.0,
        y - 12.0,
        end - x + digits::width(&words, 9.0) + 18.0,
        art::PAPER
    );
    ground + &line("#1d1a17", 1.4) + &digits::text(&words, end + 7.0, y - 8.0, 9.0, "#1d1a17")
}

#[cfg(test)]
mod tests;
