//! Taking a width off the plain way: every edge moved inwards by it.
//!
//! In: a face. Out: the face within it, if nothing comes to touch and edges are used up at corners alone (`trim`): then it is the whole
//! answer. Hollow corners are rounded. `None` leaves the case to the general method of `inset`.
//! Whether parts meet is decided exactly.
//! Rule: handbook, figures, item 5.

use kurbo::Vec2;

use super::exact::orient;
use super::trim::trimmed;
use crate::shape::{Face, Point, Ring};

/// Hollow corners that turn by less than this keep one point, radians: a flattened curve stays as fine as it was.
const SMOOTH: f64 = 0.15;

/// The face with every edge moved inwards by `by_mm`, corners rounded in steps of at most `step` radians.
pub(super) fn shifted(face: &Face, by_mm: f64, step: f64) -> Option<Face> {
    let ring = |ring: &Ring| shifted_ring(ring, by_mm, step);
    let face = Face { outer: ring(&face.outer)?, holes: face.holes.iter().map(ring).collect::<Option<Vec<Ring>>>()? };
    // A hole that has grown past the outer ring without meeting it leaves less than nothing.
    (face.area_mm2() > 0.0 && is_simple(&face)).then_some(face)
}

fn shifted_ring(ring: &[Point], by_mm: f64, step: f64) -> Option<Ring> {
    let ways = ways(ring)?;
    let mut points = plain(ring, &ways, by_mm, step).or_else(|| trimmed(ring, &ways, by_mm, step))?;
    // Outlines are kept: what they do not use is given back while it still lies at the end of the memory in use.
    points.shrink_to_fit();
    Some(points)
}

/// Directions of all edges, each from its point to the next; `None` where there is no edge.
fn ways(ring: &[Point]) -> Option<Vec<Vec2>> {
    let ends = ring.iter().skip(1).chain(ring.first());
    let way = |(from, to): (&Point, &Point)| {
        let d = *to - *from;
        let length = d.hypot2().sqrt();
        (length > 0.0).then(|| d / length)
    };
    ring.iter().zip(ends).map(way).collect::<Option<Vec<Vec2>>>().filter(|ways| ways.len() >= 3)
}

/// The ring moved inwards if the corners leave every edge some length.
fn plain(ring: &[Point], ways: &[Vec2], by_mm: f64, step: f64) -> Option<Ring> {
    let mut points: Ring = Vec::with_capacity(ring.len() + ring.len() / 2 + 64);
    let mut before = *ways.last()?;
    for (corner, after) in ring.iter().zip(ways) {
        let first = points.len();
        if !turn_corner(&mut points, *corner, before, *after, by_mm, step) {
            return None;
        }
        if first > 0 && (points[first] - points[first - 1]).dot(before) <= 0.0 {
            return None;
        }
        before = *after;
    }
    ((points[0] - *points.last()?).dot(before) > 0.0).then_some(points)
}

/// Appends what a corner between edges of these directions becomes. False for one so sharp that its tip runs away.
pub(super) fn turn_corner(points: &mut Ring, corner: Point, before: Vec2, after: Vec2, by_mm: f64, step: f64) -> bool {
    let (cross, dot) = (before.cross(after), before.dot(after));
    let (from, to) = (inward(before), inward(after));
    if cross >= 0.0 || dot >= 1.0 - SMOOTH * SMOOTH / 2.0 {
        points.push(corner + (from + to) * (by_mm / (1.0 + dot)));
        return dot >= -0.999;
    }
    let turn = libm::atan2(-cross, dot);
    let steps = (turn / step).ceil().max(1.0);
    points.push(corner + from * by_mm);
    for k in 1..steps as usize {
        let (sin, cos) = libm::sincos(-turn * k as f64 / steps);
        points.push(corner + Vec2::new(from.x * cos - from.y * sin, from.x * sin + from.y * cos) * by_mm);
    }
    points.push(corner + to * by_mm);
    true
}

/// To the left.
pub(super) fn inward(way: Vec2) -> Vec2 {
    Vec2::new(-way.y, way.x)
}

/// A run of points that only rises or only falls in x and in y.
#[derive(Clone, Copy)]
struct Run {
    /// First and last place of it among all points; a ring's last segment leads back to its first.
    from: usize,
    to: usize,
    least: Point,
    most: Point,
}

/// All points of a face in a row, each ring followed by its first point again.
struct Row {
    points: Vec<Point>,
    /// Where the ring of each point starts and how many points it has.
    rings: Vec<(usize, usize)>,
}

impl Row {
    fn run(&self, from: usize, to: usize) -> Run {
        let (a, b) = (self.points[from], self.points[to]);
        Run { from, to, least: Point::new(a.x.min(b.x), a.y.min(b.y)), most: Point::new(a.x.max(b.x), a.y.max(b.y)) }
    }

    /// Whether two segments, by the places where they start, share an end because they follow each other.
    fn follow(&self, i: usize, j: usize) -> bool {
        let (i, j) = (i.min(j), i.max(j));
        j == i + 1 || self.rings.iter().any(|&(start, count)| i == start && j + 1 == start + count)
    }

    fn meet(&self, a: Run, b: Run) -> bool {
        if a.most.x < b.least.x || b.most.x < a.least.x || a.most.y < b.least.y || b.most.y < a.least.y {
            return false;
        }
        let (n, m) = (a.to - a.from, b.to - b.from);
        if n == 1 && m == 1 {
            return !self.follow(a.from, b.from)
                && segments_meet(self.points[a.from], self.points[a.to], self.points[b.from], self.points[b.to]);
        }
        let (long, other) = if n >= m { (a, b) } else { (b, a) };
        let middle = (long.from + long.to) / 2;
        self.meet(self.run(long.from, middle), other) || self.meet(self.run(middle, long.to), other)
    }
}

fn segments_meet(a: Point, b: Point, c: Point, d: Point) -> bool {
    let sides = |a, b, c, d| {
        let (s, t) = (orient(a, b, c), orient(a, b, d));
        (s <= 0.0 && t >= 0.0) || (s >= 0.0 && t <= 0.0)
    };
    sides(a, b, c, d) && sides(c, d, a, b)
}

/// Whether no two segments of a face's rings meet, but for those that follow each other.
fn is_simple(face: &Face) -> bool {
    let count: usize = face.rings().map(|r| r.len() + 1).sum();
    let mut row = Row { points: Vec::with_capacity(count), rings: Vec::with_capacity(1 + face.holes.len()) };
    let mut runs: Vec<Run> = Vec::new();
    for ring in face.rings() {
        let start = row.points.len();
        row.points.extend_from_slice(ring);
        row.points.push(ring[0]);
        row.rings.push((start, ring.len()));
        let (mut from, mut x, mut y) = (start, 0.0_f64, 0.0_f64);
        for i in start..start + ring.len() {
            let step = row.points[i + 1] - row.points[i];
            if step.x * x < 0.0 || step.y * y < 0.0 {
                runs.push(row.run(from, i));
                (from, x, y) = (i, 0.0, 0.0);
            }
            if step.x != 0.0 {
                x = step.x;
            }
            if step.y != 0.0 {
                y = step.y;
            }
        }
        runs.push(row.run(from, start + ring.len()));
    }
    runs.sort_by(|a, b| a.least.x.total_cmp(&b.least.x).then(a.from.cmp(&b.from)));
    runs.iter()
        .enumerate()
        .all(|(i, a)| runs[i + 1..].iter().take_while(|b| b.least.x <= a.most.x).all(|b| !row.meet(*a, *b)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pieces::inset::general;

    fn ring(points: &[(f64, f64)]) -> Ring {
        points.iter().map(|p| Point::from(*p)).collect()
    }

    #[test]
    fn what_collapses_or_meets_is_left_to_the_general_method() {
        let strip = Face { outer: ring(&[(0., 0.), (30., 0.), (30., 0.19), (0., 0.19)]), holes: vec![] };
        assert!(shifted(&strip, 0.1, 0.07).is_none());
        let waist = ring(&[
            (0., 0.),
            (10., 0.),
            (15., 4.9),
            (20., 0.),
            (30., 0.),
            (30., 10.),
            (20., 10.),
            (15., 5.1),
            (10., 10.),
            (0., 10.),
        ]);
        assert!(shifted(&Face { outer: waist.clone(), holes: vec![] }, 0.05, 0.07).is_some());
        assert!(shifted(&Face { outer: waist, holes: vec![] }, 0.11, 0.07).is_none());
        let outer = ring(&[(0., 0.), (30., 0.), (30., 30.), (0., 30.)]);
        let hole = ring(&[(0.15, 0.15), (0.15, 29.85), (29.85, 29.85), (29.85, 0.15)]);
        assert!(shifted(&Face { outer, holes: vec![hole] }, 0.1, 0.07).is_none());
    }

    /// Outlines with bumps and bays against the general method, at depths where some collapse.
    #[test]
    fn areas_are_those_of_the_general_method() {
        let mut plain = 0;
        for seed in 0..400_u32 {
            let f = |k: u32| {
                f64::from((seed.wrapping_mul(2_654_435_761).wrapping_add(k.wrapping_mul(40_503))) % 1000) / 1000.0
            };
            let n = 12 + seed % 150;
            let outer: Ring = (0..n)
                .map(|i| {
                    let t = f64::from(i) * std::f64::consts::TAU / f64::from(n);
                    let r = 10.0 + 3.0 * libm::sin(3.0 * t + f(1)) * f(2) + 2.0 * libm::sin(7.0 * t) * f(3);
                    Point::new(r * libm::cos(t), r * libm::sin(t))
                })
                .collect();
            let face = Face { outer, holes: vec![ring(&[(-1., -1.), (-1., 1.), (1., 1.), (1., -1.)])] };
            let by = 0.05 + f(4) * 1.2;
            if let Some(quick) = shifted(&face, by, 0.07) {
                plain += 1;
                let slow: f64 = general(&face, by).iter().map(Face::area_mm2).sum();
                assert!((quick.area_mm2() - slow).abs() < 0.0004 * slow, "{seed}: {} {slow}", quick.area_mm2());
            }
        }
        assert!(plain > 250, "{plain}");
    }
}
