//! Which corner the close-up shows.
//!
//! In: a [`Subject`]. Out: a window of the table, mm, whose whole area is at most a sixth of the board's, with at most one novelty shape in it.
//! Of the windows along the board's rim it takes the one with the most to see: cuts, borders of paint, and a stretch of the rim itself.

use super::loosen::overlap;
use super::{CLOSE_UP_SHARE, Subject};
use crate::shape::{Extent, Face, Point, ring_sides, signed_area_mm2};

/// Width over height.
const ASPECT: f64 = 4.0 / 3.0;
/// Places tried along each side.
const TRIES: usize = 9;

/// The window; `None` where there is no board, or every window shows several novelty shapes.
pub fn window(subject: &Subject) -> Option<Extent> {
    let board = subject.extent()?;
    let area: f64 = subject.board.parts.iter().map(|p| p.outline.area_mm2()).sum();
    let mut share = CLOSE_UP_SHARE * 0.995;
    for _ in 0..6 {
        let high = (area * share / ASPECT).sqrt();
        if let Some(found) = best(subject, &board, high * ASPECT, high) {
            return Some(found);
        }
        share *= 0.6;
    }
    None
}

fn best(subject: &Subject, board: &Extent, wide: f64, high: f64) -> Option<Extent> {
    let novelty: Vec<Face> = subject
        .board
        .novelty
        .iter()
        .map(|ring| {
            let mut outer = ring.clone();
            if signed_area_mm2(&outer) < 0.0 {
                outer.reverse();
            }
            Face { outer, holes: Vec::new() }
        })
        .collect();
    // A little of the table is seen beyond the rim.
    let beyond = 0.10 * high;
    let (left, top) = (board.min.x - beyond, board.min.y - beyond);
    let (right, bottom) = ((board.max.x + beyond - wide).max(left), (board.max.y + beyond - high).max(top));
    let mut found: Option<(f64, Extent)> = None;
    for k in 0..TRIES * TRIES {
        let (i, j) = (k % TRIES, k / TRIES);
        let at = |from: f64, to: f64, n: usize| from + (to - from) * n as f64 / (TRIES - 1) as f64;
        let min = Point::new(at(left, right, i), at(top, bottom, j));
        let window = Extent { min, max: min + kurbo::Vec2::new(wide, high) };
        let frame = [Face { outer: corners(&window), holes: Vec::new() }];
        let shapes = novelty.iter().filter(|n| overlap(std::slice::from_ref(*n), &frame)).count();
        if shapes > 1 {
            continue;
        }
        let worth = interest(subject, &window) * (1.0 + 0.35 * shapes as f64);
        if found.is_none_or(|(best, _)| worth > best) {
            found = Some((worth, window));
        }
    }
    found.map(|(_, window)| window)
}

fn corners(e: &Extent) -> Vec<Point> {
    vec![e.min, Point::new(e.max.x, e.min.y), e.max, Point::new(e.min.x, e.max.y)]
}

/// Lengths of what is seen, each with diminishing worth.
fn interest(subject: &Subject, window: &Extent) -> f64 {
    let size = window.width_mm();
    let within = |faces: &mut dyn Iterator<Item = &Face>| -> f64 {
        let mut length = 0.0;
        for face in faces {
            for ring in face.rings() {
                for (a, b) in ring_sides(ring) {
                    let m = a.midpoint(*b);
                    if m.x > window.min.x && m.x < window.max.x && m.y > window.min.y && m.y < window.max.y {
                        length += (*b - *a).hypot2().sqrt();
                    }
                }
            }
        }
        length / size
    };
    // Hidden cuts do not even choose the window.
    let shown = if subject.show_cuts { subject.board.pieces.as_slice() } else { &[] };
    let cuts = within(&mut shown.iter().map(|p| &p.face));
    let rim = within(&mut subject.board.parts.iter().map(|p| &p.outline));
    let paint = within(&mut subject.plan.into_iter().flat_map(|p| &p.cells).map(|c| &c.face));
    let paints = subject.plan.map_or(0, |plan| {
        let mut kinds: Vec<usize> = plan
            .cells
            .iter()
            .filter(|c| {
                let p = c.label.at_mm;
                p.x > window.min.x && p.x < window.max.x && p.y > window.min.y && p.y < window.max.y
            })
            .filter_map(|c| c.paint)
            .collect();
        kinds.sort_unstable();
        kinds.dedup();
        kinds.len()
    });
    // A corner shows two sides of the rim; without any it is a picture of nothing in particular.
    let edge = (rim / 0.8).min(1.0);
    let cover = cuts.sqrt() + 0.6 * paint.sqrt() + 0.5 * (paints as f64).sqrt();
    cover * (0.35 + 0.65 * edge)
}
