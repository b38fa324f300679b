//! The outline of a piece, turned onto another: whether every place of either lies within reach of the other.
//!
//! In: two outlines and turns that are about right. Each turn is made better by least squares and judged by the farthest place.

use kurbo::Vec2;

use super::APART_MM;
use super::print::DIRECTIONS;
use crate::inmost::thinned;
use crate::shape::{Face, Point, ring_sides};

/// Samples along the outer ring by which a turn is made better, and along each hole.
const SAMPLES: usize = 128;
const HOLE_SAMPLES: usize = 24;
/// Outlines of more points than this are thinned, and by how much at most, mm.
const MANY: usize = 2000;
const THINNING_MM: f64 = 0.002;

/// The outline of a piece about the centre of area of its outer ring; made for those alone that may have a twin.
pub(super) struct Outline {
    rings: Vec<Vec<Vec2>>,
    /// Points at equal steps along the outer ring, and some on each hole.
    samples: Vec<Vec2>,
}

impl Outline {
    /// Of a face.
    pub fn of(face: &Face) -> Outline {
        let rings = about_centre(face);
        let mut samples = sampled(&rings[0], SAMPLES);
        rings[1..].iter().for_each(|hole| samples.extend(sampled(hole, HOLE_SAMPLES)));
        Outline { rings, samples }
    }
}

/// All rings about the centre of area of the outer one.
pub(super) fn about_centre(face: &Face) -> Vec<Vec<Vec2>> {
    let middle = centre(&face.outer);
    let about = |ring: &[Point]| ring.iter().map(|p| *p - middle).collect::<Vec<Vec2>>();
    let thin = |r: &[Point]| if r.len() > MANY { about(&thinned(r, THINNING_MM)) } else { about(r) };
    face.rings().map(|r| thin(r)).collect()
}

pub(super) fn centre(ring: &[Point]) -> Point {
    let origin = ring[0];
    let (mut sum, mut twice) = (Vec2::ZERO, 0.0);
    for (a, b) in ring_sides(ring) {
        let (a, b) = (*a - origin, *b - origin);
        let cross = a.cross(b);
        sum += (a + b) * cross;
        twice += cross;
    }
    if twice == 0.0 { origin } else { origin + sum / (3.0 * twice) }
}

/// Points at equal steps along a ring.
fn sampled(ring: &[Vec2], count: usize) -> Vec<Vec2> {
    let ends = || ring_sides(ring);
    let length_mm: f64 = ends().map(|(a, b)| (*b - *a).hypot2().sqrt()).sum();
    let step = length_mm / count as f64;
    let mut samples = Vec::with_capacity(count);
    let (mut next, mut gone) = (0.0, 0.0);
    for (a, b) in ends() {
        let d = (*b - *a).hypot2().sqrt();
        while samples.len() < count && next <= gone + d && d > 0.0 {
            samples.push(*a + (*b - *a) * ((next - gone) / d));
            next += step;
        }
        gone += d;
    }
    samples
}

/// The turn made better: steps by Gauss and Newton on the distances of the turned samples of `b` from the nearest edge of `a`.
/// Only every `stride`th sample is looked at.
fn refined(a: &Outline, b: &Outline, mut turn: Vec2, stride: usize) -> Vec2 {
    for _ in 0..8 {
        let (mut with, mut against) = (0.0, 0.0);
        for v in b.samples.iter().step_by(stride) {
            let p = turned(*v, turn);
            let foot = nearest_on(&a.rings, p);
            let off = p - foot.at;
            // How a small turn moves the sample across that edge.
            let across = foot.normal.dot(Vec2::new(-p.y, p.x));
            with += foot.normal.dot(off) * across;
            against += across * across;
        }
        if against == 0.0 {
            break;
        }
        let step = -with / against;
        turn = turned(turn, Vec2::new(libm::cos(step), libm::sin(step)));
        if step.abs() < 1e-9 {
            break;
        }
    }
    turn
}

/// The nearest place on an outline and the direction square to its edge there.
struct Foot {
    at: Vec2,
    normal: Vec2,
}

fn nearest_on(rings: &[Vec<Vec2>], p: Vec2) -> Foot {
    let (mut best, mut foot) = (f64::INFINITY, Foot { at: p, normal: Vec2::ZERO });
    for (a, b) in rings.iter().flat_map(|ring| ring_sides(ring)) {
        let (along, to) = (*b - *a, p - *a);
        let length_sq = along.hypot2();
        if length_sq == 0.0 {
            continue;
        }
        let at = *a + along * (to.dot(along) / length_sq).clamp(0.0, 1.0);
        let off_sq = (p - at).hypot2();
        if off_sq < best {
            (best, foot) = (off_sq, Foot { at, normal: Vec2::new(-along.y, along.x) / length_sq.sqrt() });
        }
    }
    foot
}

pub(super) fn turned(v: Vec2, turn: Vec2) -> Vec2 {
    Vec2::new(v.x * turn.x - v.y * turn.y, v.x * turn.y + v.y * turn.x)
}

/// Whether every point of `b`, turned, lies within the limit of an outline of `a`.
fn covered(a: &[Vec<Vec2>], b: &[Vec<Vec2>], turn: Vec2) -> bool {
    // Both outlines run the same way, so the nearest edge is sought from the last one on.
    b.iter().all(|ring| {
        let mut last = (0usize, 0usize);
        ring.iter().all(|v| {
            let p = turned(*v, turn);
            let near =
                |r: usize, i: usize| off_segment_sq(p, a[r][i], a[r][(i + 1) % a[r].len()]) <= APART_MM * APART_MM;
            let n = a[last.0].len();
            let onward = (0..n.min(24)).map(|k| (last.0, (last.1 + k) % n)).find(|&(r, i)| near(r, i));
            let found = onward.or_else(|| {
                a.iter()
                    .enumerate()
                    .flat_map(|(r, ring)| (0..ring.len()).map(move |i| (r, i)))
                    .find(|&(r, i)| near(r, i))
            });
            if let Some(place) = found {
                last = place;
            }
            found.is_some()
        })
    })
}

pub(super) fn off_segment_sq(p: Vec2, a: Vec2, b: Vec2) -> f64 {
    let (along, to) = (b - a, p - a);
    let t = if along.hypot2() > 0.0 { (to.dot(along) / along.hypot2()).clamp(0.0, 1.0) } else { 0.0 };
    (to - along * t).hypot2()
}

/// Whether points here and there of `b`, turned, lie within `room` mm of an outline of `a`.
fn roughly_covered(a: &Outline, b: &Outline, turn: Vec2, room: f64) -> bool {
    b.samples.iter().step_by(5).all(|v| {
        let p = turned(*v, turn);
        let mut edges = a.rings.iter().flat_map(|ring| ring_sides(ring));
        edges.any(|(s, e)| off_segment_sq(p, *s, *e) <= room * room)
    })
}

/// Whether a piece is the other one turned, by about one of some turns; `reach_mm` is the other's.
pub(super) fn alike(a: &Outline, b: &Outline, reach_mm: f64, mut turns: impl Iterator<Item = Vec2>) -> bool {
    // What a turn by whole degrees may be off, and what one made better by a few samples may.
    let degree_mm = reach_mm * (std::f64::consts::TAU / DIRECTIONS as f64);
    turns.any(|turn| {
        roughly_covered(a, b, turn, APART_MM + degree_mm) && {
            let turn = refined(a, b, turn, 7);
            roughly_covered(a, b, turn, APART_MM + 0.3 * degree_mm) && {
                let lies_on = |turn: Vec2| covered(&a.rings, &b.rings, turn) && covered(&b.rings, &a.rings, back(turn));
                // The best turn of the one onto the other is not quite that of the other onto the one.
                let turn = refined(a, b, turn, 1);
                lies_on(turn) || lies_on(back(refined(b, a, back(turn), 1)))
            }
        }
    })
}

/// The same turn the other way.
fn back(turn: Vec2) -> Vec2 {
    Vec2::new(turn.x, -turn.y)
}
