//! Wood, paint, kerf and lines of one window of a drawing, as SVG in pixels.

use std::fmt::Write;

use super::super::Subject;
use crate::shape::{Extent, Face, Point, ring_sides};

/// The ground that everything lies on.
pub const PAPER: &str = "#fbf8f2";
const WOOD: &str = "#efe0c4";
const KERF: &str = "#8a5a2e";
const CUT: &str = "#1d1a17";
const SCORE: &str = "#a3542a";
/// Farthest that a thinned line may lie from the true one, pixels.
const THIN_PX: f64 = 0.3;

/// A part of the drawing and how large it is shown.
#[derive(Clone, Copy, Debug)]
pub struct Window {
    /// Its upper left corner in the drawing, mm.
    pub origin: Point,
    /// Pixels to the millimetre.
    pub scale: f64,
    /// Across, pixels.
    pub width: f64,
    /// Down, pixels.
    pub height: f64,
}

impl Window {
    /// Where a place of the drawing is shown, pixels.
    pub fn place(&self, at: Point) -> Point {
        ((at - self.origin) * self.scale).to_point()
    }

    /// What is seen, with room for thick lines, mm.
    fn seen(&self) -> Extent {
        let room = kurbo::Vec2::new(4.0, 4.0) / self.scale;
        let size = kurbo::Vec2::new(self.width, self.height) / self.scale;
        Extent { min: self.origin - room, max: self.origin + size + room }
    }
}

fn meets(a: &Extent, b: &Extent) -> bool {
    a.min.x <= b.max.x && b.min.x <= a.max.x && a.min.y <= b.max.y && b.min.y <= a.max.y
}

/// The window's content; `near` shows the kerf at its true width and single pieces.
pub fn drawing(subject: &Subject, window: &Window, near: bool) -> String {
    let seen = window.seen();
    let mut out = format!("<rect width=\"{:.0}\" height=\"{:.0}\" fill=\"{PAPER}\"/>", window.width, window.height);
    let visible = |f: &&Face| Extent::of(&f.outer).is_some_and(|e| meets(&e, &seen));
    let wood: Vec<&Face> = if near {
        subject.board.pieces.iter().map(|p| &p.face).filter(visible).collect()
    } else {
        subject.board.parts.iter().map(|p| &p.outline).filter(visible).collect()
    };
    filled(&mut out, &wood, window, WOOD, 1.0);
    for cell in subject.plan.iter().flat_map(|p| &p.cells) {
        if let Some(colour) = cell.paint.and_then(|p| subject.paints.get(p))
            && visible(&&cell.face)
        {
            filled(&mut out, &[&cell.face], window, &colour.to_string(), 0.5);
        }
    }
    let score: Vec<&[Point]> = subject.score.iter().map(|l| l.points.as_slice()).collect();
    let cut: Vec<&[Point]> = subject.board.net.chains.iter().map(|c| subject.board.net.points(c)).collect();
    let score = lines(&score, window, &seen);
    let cut = lines(&cut, window, &seen);
    let mut stroke = |path: &str, colour: &str, width: f64, opacity: f64| {
        if !path.is_empty() {
            let _ = write!(
                out,
                "<path d=\"{path}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{width:.2}\" stroke-opacity=\"{opacity}\" stroke-linejoin=\"round\"/>"
            );
        }
    };
    if near {
        stroke(&cut, KERF, (subject.board.kerf_mm * window.scale).max(1.0), 0.45);
        stroke(&score, SCORE, 1.6, 0.9);
        stroke(&cut, CUT, 1.3, 1.0);
    } else {
        stroke(&score, SCORE, 0.8, 0.7);
        stroke(&cut, CUT, 1.0, 0.9);
    }
    out
}

fn filled(out: &mut String, faces: &[&Face], window: &Window, colour: &str, opacity: f64) {
    let mut path = String::new();
    for ring in faces.iter().flat_map(|f| f.rings()) {
        let ring = clipped(ring, &window.seen());
        if ring.len() > 2 {
            run(&mut path, &ring, window);
            path.push('Z');
        }
    }
    if !path.is_empty() {
        let _ = write!(out, "<path d=\"{path}\" fill=\"{colour}\" fill-opacity=\"{opacity}\" fill-rule=\"evenodd\"/>");
    }
}

/// What of a ring lies in a box, side by side (Sutherland and Hodgman 1974). Parts that come apart stay joined along the
/// box's sides, out of sight.
fn clipped(ring: &[Point], to: &Extent) -> Vec<Point> {
    let side = |ring: Vec<Point>, inside: &dyn Fn(Point) -> f64| {
        let mut kept = Vec::with_capacity(ring.len());
        for (a, b) in ring_sides(&ring) {
            let (at, next) = (inside(*a), inside(*b));
            if at >= 0.0 {
                kept.push(*a);
            }
            if (at >= 0.0) != (next >= 0.0) {
                kept.push(a.lerp(*b, at / (at - next)));
            }
        }
        kept
    };
    let ring = side(ring.to_vec(), &|p| p.x - to.min.x);
    let ring = side(ring, &|p| to.max.x - p.x);
    let ring = side(ring, &|p| p.y - to.min.y);
    side(ring, &|p| to.max.y - p.y)
}

/// Path data of those stretches of the lines that are seen.
fn lines(all: &[&[Point]], window: &Window, seen: &Extent) -> String {
    let mut path = String::new();
    for points in all {
        if !Extent::of(*points).is_some_and(|e| meets(&e, seen)) {
            continue;
        }
        let crosses = |w: &[Point]| Extent::of(w).is_some_and(|e| meets(&e, seen));
        let mut from = 0;
        while from + 1 < points.len() {
            if !crosses(&points[from..from + 2]) {
                from += 1;
                continue;
            }
            let mut to = from + 1;
            while to + 1 < points.len() && crosses(&points[to..to + 2]) {
                to += 1;
            }
            run(&mut path, &points[from..=to], window);
            from = to;
        }
    }
    path
}

/// Adds one line, thinned to what the eye can see; its first and last point stay.
fn run(path: &mut String, points: &[Point], window: &Window) {
    let mut last: Option<Point> = None;
    for (i, point) in points.iter().enumerate() {
        let at = window.place(*point);
        let (letter, shown) = match last {
            None => ('M', true),
            Some(l) => ('L', (at - l).hypot2() > THIN_PX * THIN_PX || i + 1 == points.len()),
        };
        if shown {
            let _ = write!(path, "{letter}{:.2} {:.2}", at.x, at.y);
            last = Some(at);
        }
    }
}
