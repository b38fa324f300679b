//! Convex hulls and what they tell: width, extent, the circle round them.
//!
//! In: points, mm. Out: the corners of their hull in order, as vectors, and measures of it.
//! Never here: what a hull must fit into.

use kurbo::Vec2;

use crate::shape::{Point, ring_sides};

/// Convex hull (Andrew 1979) as vectors.
pub(super) fn hull(outline: impl IntoIterator<Item = Point>) -> Vec<Vec2> {
    let mut points: Vec<Vec2> = outline.into_iter().map(|p| p.to_vec2()).collect();
    drop_inner(&mut points);
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    points.dedup();
    let half = |points: &mut dyn Iterator<Item = Vec2>| {
        let mut side: Vec<Vec2> = Vec::new();
        for p in points {
            while side.len() > 1 && (side[side.len() - 1] - side[side.len() - 2]).cross(p - side[side.len() - 1]) <= 0.0
            {
                side.pop();
            }
            side.push(p);
        }
        side.pop();
        side
    };
    let mut all = half(&mut points.iter().copied());
    all.extend(half(&mut points.iter().rev().copied()));
    all
}

/// Leaves out points inside the octagon of those that lie farthest in eight directions (Akl and Toussaint 1978).
fn drop_inner(points: &mut Vec<Vec2>) {
    const WAYS: [Vec2; 8] = [
        Vec2::new(1.0, 0.0),
        Vec2::new(1.0, 1.0),
        Vec2::new(0.0, 1.0),
        Vec2::new(-1.0, 1.0),
        Vec2::new(-1.0, 0.0),
        Vec2::new(-1.0, -1.0),
        Vec2::new(0.0, -1.0),
        Vec2::new(1.0, -1.0),
    ];
    let Some(&first) = points.first() else { return };
    let mut farthest = [first; 8];
    for p in points.iter() {
        for (far, way) in farthest.iter_mut().zip(WAYS) {
            if p.dot(way) > far.dot(way) {
                *far = *p;
            }
        }
    }
    let mut sides = [(first, Vec2::ZERO); 8];
    for (i, side) in sides.iter_mut().enumerate() {
        *side = (farthest[i], farthest[(i + 1) % 8] - farthest[i]);
    }
    // A side of no length, where one point is farthest twice, rules nothing in or out.
    points.retain(|p| sides.iter().any(|(from, along)| *along != Vec2::ZERO && along.cross(*p - *from) <= 0.0));
}

/// At most so many corners of a hull, without those whose loss changes least.
pub(super) fn thinned(mut all: Vec<Vec2>, most: usize) -> Vec<Vec2> {
    while all.len() > most {
        let n = all.len();
        let loss = |i: usize| (all[i] - all[(i + n - 1) % n]).cross(all[(i + 1) % n] - all[i]).abs();
        let least = (0..n).min_by(|a, b| loss(*a).total_cmp(&loss(*b))).unwrap_or(0);
        all.remove(least);
    }
    all
}

pub(super) fn farthest(hull: &[Vec2]) -> f64 {
    let pairs = hull.iter().enumerate().flat_map(|(i, a)| hull[i + 1..].iter().map(move |b| (*a - *b).hypot2()));
    pairs.fold(0.0, f64::max).sqrt()
}

/// Extent of the hull along a unit direction.
pub(super) fn extent(hull: &[Vec2], along: Vec2) -> f64 {
    let (lo, hi) =
        hull.iter().map(|v| v.dot(along)).fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), d| (l.min(d), h.max(d)));
    hi - lo
}

pub(super) fn edge_normals(hull: &[Vec2]) -> impl Iterator<Item = Vec2> + '_ {
    ring_sides(hull).filter_map(|(a, b)| {
        let d = *b - *a;
        let length = d.hypot2().sqrt();
        (length > 0.0).then(|| Vec2::new(-d.y, d.x) / length)
    })
}

/// The least distance of parallel lines that enclose the hull: reached on one of its edges.
pub(super) fn least_width(hull: &[Vec2]) -> f64 {
    edge_normals(hull).map(|n| extent(hull, n)).fold(f64::INFINITY, f64::min)
}

/// Radius of the smallest circle round the corners of a hull (Welzl 1991, one corner after the other).
pub(super) fn circle_radius(points: &[Vec2]) -> f64 {
    // A hair of room, so that the corners which make the circle lie inside it.
    let inside = |c: &(Vec2, f64), p: &Vec2| (*p - c.0).hypot2() <= c.1 * (1.0 + 1e-12);
    let of_two = |a: Vec2, b: Vec2| ((a + b) / 2.0, (a - b).hypot2() / 4.0);
    // Out of their order along the hull, in which each would lie outside the circle of those before.
    let n = points.len();
    let stride = (0..).map(|k| (n * 5 / 8).max(1) + k).find(|s| gcd(*s, n) == 1).unwrap_or(1);
    let points: Vec<Vec2> = (0..n).map(|i| points[i * stride % n]).collect();
    let mut circle = (points[0], 0.0);
    for (i, a) in points.iter().enumerate() {
        if inside(&circle, a) {
            continue;
        }
        circle = (*a, 0.0);
        for (j, b) in points[..i].iter().enumerate() {
            if inside(&circle, b) {
                continue;
            }
            circle = of_two(*a, *b);
            for c in &points[..j] {
                if !inside(&circle, c) {
                    circle = of_three(*a, *b, *c);
                }
            }
        }
    }
    circle.1.sqrt()
}

fn gcd(a: usize, b: usize) -> usize {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// Centre and squared radius of the circle through three points.
fn of_three(a: Vec2, b: Vec2, c: Vec2) -> (Vec2, f64) {
    let (u, v) = (b - a, c - a);
    let twice = 2.0 * u.cross(v);
    if twice == 0.0 {
        return (a, f64::INFINITY);
    }
    let off = Vec2::new(v.y * u.hypot2() - u.y * v.hypot2(), u.x * v.hypot2() - v.x * u.hypot2()) / twice;
    (a + off, off.hypot2())
}
