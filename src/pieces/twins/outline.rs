//! The outline of a piece, turned onto another: whether every place of either lies within reach of the other.
//!
//! In: two outlines and turns that are about right. Each turn is made better by least squares and judged by the farthest place;
//! where that is too far, the turn at which it is nearest is sought nearby.

use kurbo::Vec2;

use super::APART_MM;
use super::print::DIRECTIONS;
use crate::inmost::{distance_sq, thinned};
use crate::shape::{Face, Point, ring_sides};

/// Samples along the outer ring by which a turn is made better, and along each hole.
const SAMPLES: usize = 128;
const HOLE_SAMPLES: usize = 24;
/// Sides looked at together; runs of them that are too far off are passed over.
const RUN: usize = 8;
/// Steps to either side in the search for the turn at which the farthest place is nearest.
const STEPS: i32 = 12;
/// The golden section of a length of 1.
const GOLDEN: f64 = 0.618_033_988_749_894_9;
/// Outlines of more points than this are thinned, and by how much at most, mm.
const MANY: usize = 2000;
const THINNING_MM: f64 = 0.002;

/// The outline of a piece about the centre of area of its outer ring; made for those alone that may have a twin.
pub(super) struct Outline {
    rings: Vec<Vec<Vec2>>,
    /// Runs of those sides that have any length, in order.
    runs: Vec<Run>,
    /// Points at equal steps along the outer ring, and some on each hole.
    samples: Vec<Vec2>,
}

impl Outline {
    /// Of a face.
    pub fn of(face: &Face) -> Outline {
        let rings = about_centre(face);
        let mut samples = sampled(&rings[0], SAMPLES);
        rings[1..].iter().for_each(|hole| samples.extend(sampled(hole, HOLE_SAMPLES)));
        let sides = rings.iter().flat_map(|ring| ring_sides(ring)).filter_map(|(a, b)| Side::of(*a, *b));
        let sides: Vec<Side> = sides.collect();
        Outline { rings, runs: sides.chunks(RUN).map(Run::of).collect(), samples }
    }
}

/// A few sides that follow each other, in their box.
struct Run {
    middle: Vec2,
    half: Vec2,
    sides: Vec<Side>,
}

impl Run {
    fn of(sides: &[Side]) -> Run {
        let ends = sides.iter().flat_map(|s| [s.from, s.from + s.along]);
        let nothing = (Vec2::new(f64::INFINITY, f64::INFINITY), Vec2::new(f64::NEG_INFINITY, f64::NEG_INFINITY));
        let (least, most) = ends.fold(nothing, |(least, most), p| {
            (Vec2::new(least.x.min(p.x), least.y.min(p.y)), Vec2::new(most.x.max(p.x), most.y.max(p.y)))
        });
        Run { middle: (least + most) / 2.0, half: (most - least) / 2.0, sides: sides.to_vec() }
    }

    /// Square of the distance of its box from `p`, a hair less for rounding.
    fn square_off(&self, p: Vec2) -> f64 {
        let off = p - self.middle;
        let (x, y) = ((off.x.abs() - self.half.x).max(0.0), (off.y.abs() - self.half.y).max(0.0));
        (x * x + y * y) * (1.0 - 1e-9)
    }
}

/// A side of a ring, made ready for the many places whose distance from it is asked.
#[derive(Clone, Copy)]
struct Side {
    from: Vec2,
    along: Vec2,
    /// One over the square of its length.
    per_square: f64,
}

impl Side {
    /// `None` without length.
    fn of(a: Vec2, b: Vec2) -> Option<Side> {
        let along = b - a;
        let square = along.hypot2();
        (square > 0.0).then(|| Side { from: a, along, per_square: 1.0 / square })
    }

    /// From the nearest place on it to `p`.
    fn off(&self, p: Vec2) -> Vec2 {
        let to = p - self.from;
        to - self.along * (to.dot(self.along) * self.per_square).clamp(0.0, 1.0)
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

/// The turn made better: steps by Gauss and Newton on the distances of the turned samples of `b` from the nearest side of `a`,
/// until one is less than `enough`, radians. Only every `stride`th sample is looked at.
fn refined(a: &Outline, b: &Outline, mut turn: Vec2, stride: usize, enough: f64) -> Vec2 {
    for _ in 0..8 {
        let (mut with, mut against) = (0.0, 0.0);
        for v in b.samples.iter().step_by(stride) {
            let p = turned(*v, turn);
            let (off, normal) = off_outline(&a.runs, p);
            // How a small turn moves the sample across that side.
            let across = normal.dot(Vec2::new(-p.y, p.x));
            with += normal.dot(off) * across;
            against += across * across;
        }
        if against == 0.0 {
            break;
        }
        let step = -with / against;
        turn = turned(turn, Vec2::new(libm::cos(step), libm::sin(step)));
        if step.abs() < enough {
            break;
        }
    }
    turn
}

/// Square of the farthest that a corner of either outline lies from the other, mm².
fn farthest_sq(a: &Outline, b: &Outline, turn: Vec2) -> f64 {
    let most = |a: &Outline, b: &Outline, turn: Vec2| {
        let corners = b.rings.iter().flatten();
        corners.map(|v| off_outline(&a.runs, turned(*v, turn)).0.hypot2()).fold(0.0, f64::max)
    };
    most(a, b, turn).max(most(b, a, back(turn)))
}

/// The turn near another at which the farthest place is nearest, if it may be near enough there. It is sought as far to either
/// side as would move the outermost corner by twice the limit: first in steps, then by the golden section.
fn nearly_on(a: &Outline, b: &Outline, turn: Vec2, reach_mm: f64) -> Option<Vec2> {
    if reach_mm <= 0.0 {
        return None;
    }
    let at = |angle: f64| turned(turn, Vec2::new(libm::cos(angle), libm::sin(angle)));
    let far_at = |angle: f64| farthest_sq(a, b, at(angle));
    let mut step = (2.0 * APART_MM / reach_mm).min(std::f64::consts::PI) / f64::from(STEPS);
    // Most are done here: no turn half a step away could bring all samples within the limit.
    let room = APART_MM + reach_mm * step / 2.0;
    let near = |a: &Outline, b: &Outline, turn: Vec2| {
        let mut samples = b.samples.iter().step_by(5);
        samples.all(|v| off_outline(&a.runs, turned(*v, turn)).0.hypot2() <= room * room)
    };
    let steps = (-STEPS..=STEPS).map(|k| f64::from(k) * step);
    let near = steps.filter(|angle| near(a, b, at(*angle)) && near(b, a, back(at(*angle))));
    let (_, middle) = near.map(|angle| (far_at(angle), angle)).min_by(|a, b| a.0.total_cmp(&b.0))?;
    let (mut low, mut high) = (middle - step, middle + step);
    let inner = |low: f64, high: f64| (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
    let (mut one, mut two) = inner(low, high);
    let (mut far_one, mut far_two) = (far_at(one), far_at(two));
    // Down to a thousandth of the limit at the outermost corner.
    while step * reach_mm > 1e-3 * APART_MM {
        step *= GOLDEN;
        if far_one <= far_two {
            (high, two, far_two) = (two, one, far_one);
            one = inner(low, high).0;
            far_one = far_at(one);
        } else {
            (low, one, far_one) = (one, two, far_two);
            two = inner(low, high).1;
            far_two = far_at(two);
        }
    }
    Some(at((low + high) / 2.0))
}

/// From the nearest place on an outline to `p`, and the direction square to the side there.
fn off_outline(runs: &[Run], p: Vec2) -> (Vec2, Vec2) {
    let (mut least, mut nearest) = (f64::INFINITY, None);
    for run in runs {
        if run.square_off(p) >= least {
            continue;
        }
        for side in &run.sides {
            let square = side.off(p).hypot2();
            if square < least {
                (least, nearest) = (square, Some(side));
            }
        }
    }
    nearest.map_or((Vec2::ZERO, Vec2::ZERO), |side| {
        let along = side.along * side.per_square.sqrt();
        (side.off(p), Vec2::new(-along.y, along.x))
    })
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
    distance_sq(p.to_point(), a.to_point(), b.to_point())
}

/// Whether points here and there of `a`, turned, lie within `room` mm of other rings.
fn roughly_on(a: &Outline, rings: &[Vec<Vec2>], turn: Vec2, room: f64) -> bool {
    a.samples.iter().step_by(5).all(|v| {
        let p = turned(*v, turn);
        let mut sides = rings.iter().flat_map(|ring| ring_sides(ring));
        sides.any(|(s, e)| off_segment_sq(p, *s, *e) <= room * room)
    })
}

/// Whether a piece, whose outline is given, is that of `face` turned, by about one of some turns; `reach_mm` is the other's.
pub(super) fn alike(a: &Outline, face: &Face, reach_mm: f64, turns: impl Iterator<Item = Vec2>) -> bool {
    // What a turn by whole degrees may be off, and what one made better by a few samples may.
    let degree = std::f64::consts::TAU / DIRECTIONS as f64;
    let (degree_mm, rings) = (reach_mm * degree, about_centre(face));
    // Most are done here, before more is worked out about the other.
    let mut turns = turns.filter(|turn| roughly_on(a, &rings, back(*turn), APART_MM + degree_mm)).peekable();
    if turns.peek().is_none() {
        return false;
    }
    let b = &Outline::of(face);
    let lies_on = |turn: Vec2| covered(&a.rings, &b.rings, turn) && covered(&b.rings, &a.rings, back(turn));
    turns.any(|turn| {
        let turn = refined(a, b, turn, 7, 0.05 * degree);
        let by_squares = roughly_on(b, &a.rings, turn, APART_MM + 0.3 * degree_mm) && {
            // The best turn of the one onto the other is not quite that of the other onto the one.
            let turn = refined(a, b, turn, 1, 1e-9);
            lies_on(turn) || lies_on(back(refined(b, a, back(turn), 1, 1e-9)))
        };
        by_squares || nearly_on(a, b, turn, reach_mm).is_some_and(lies_on)
    })
}

/// The same turn the other way.
fn back(turn: Vec2) -> Vec2 {
    Vec2::new(turn.x, -turn.y)
}
