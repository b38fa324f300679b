//! The few questions about points and segments on which everything else rests.
//!
//! Which side of a line a point lies on is decided by exact arithmetic ([`orient`]), never by a tolerance; distances
//! and nearest points are plain floating point, and wherever one of them decides something, the caller states how near.

use crate::shape::Point;
use robust::{Coord, orient2d};
use std::cmp::Ordering;

/// Positive where `c` lies on the side of positive turning from `a` to `b`, negative on the other, 0 exactly on the line.
pub(super) fn orient(a: Point, b: Point, c: Point) -> f64 {
    let coord = |p: Point| Coord { x: p.x, y: p.y };
    orient2d(coord(a), coord(b), coord(c))
}

/// Order of reading: top to bottom, then left to right.
pub(super) fn reading_order(a: Point, b: Point) -> Ordering {
    a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x))
}

/// Square of the distance of two points.
pub(super) fn square(a: Point, b: Point) -> f64 {
    let d = b - a;
    d.x * d.x + d.y * d.y
}

/// The point of the segment `a` to `b` nearest to `p`, and where it lies: 0 at `a`, 1 at `b`.
pub(super) fn nearest(a: Point, b: Point, p: Point) -> (Point, f64) {
    let (along, from) = (b - a, p - a);
    let length2 = along.x * along.x + along.y * along.y;
    if length2 <= 0.0 {
        return (a, 0.0);
    }
    let t = (along.x * from.x + along.y * from.y) / length2;
    if t <= 0.0 {
        (a, 0.0)
    } else if t >= 1.0 {
        (b, 1.0)
    } else {
        (Point::new(a.x + along.x * t, a.y + along.y * t), t)
    }
}

/// Where two segments cross that are known to do so; the same to the last bit however their ends are given.
pub(super) fn crossing(a: Point, b: Point, c: Point, d: Point) -> Point {
    let ordered = |a, b| if reading_order(a, b) == Ordering::Greater { (b, a) } else { (a, b) };
    let (s, t) = (ordered(a, b), ordered(c, d));
    let later = reading_order(s.0, t.0).then(reading_order(s.1, t.1)) == Ordering::Greater;
    let ((a, b), (c, d)) = if later { (t, s) } else { (s, t) };
    let (from, to) = (orient(c, d, a), orient(c, d, b));
    let share = (from / (from - to)).clamp(0.0, 1.0);
    // From the nearer end, so that the error is that of the shorter way.
    if share <= 0.5 {
        Point::new(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share)
    } else {
        let rest = (to / (to - from)).clamp(0.0, 1.0);
        Point::new(b.x + (a.x - b.x) * rest, b.y + (a.y - b.y) * rest)
    }
}

/// The part of the segment `p` to `q` that lies within `reach` of the segment `c` to `d`, as shares of its length.
///
/// The distance from a segment is convex along a line, so the part is one stretch.
pub(super) fn part_within(p: Point, q: Point, c: Point, d: Point, reach: f64) -> Option<(f64, f64)> {
    let mut part: Option<(f64, f64)> = None;
    let mut add = |low: f64, high: f64| {
        let (low, high) = (low.max(0.0), high.min(1.0));
        if low <= high {
            part = Some(part.map_or((low, high), |(l, h)| (l.min(low), h.max(high))));
        }
    };
    let go = q - p;
    let go2 = go.x * go.x + go.y * go.y;
    for centre in [c, d] {
        let off = p - centre;
        let (half_b, gap) = (go.x * off.x + go.y * off.y, off.x * off.x + off.y * off.y - reach * reach);
        let under = half_b * half_b - go2 * gap;
        if go2 > 0.0 && under >= 0.0 {
            let root = under.sqrt();
            add((-half_b - root) / go2, (-half_b + root) / go2);
        }
    }
    let along = d - c;
    let length = (along.x * along.x + along.y * along.y).sqrt();
    if length > 0.0 {
        let (ux, uy) = (along.x / length, along.y / length);
        let off = p - c;
        // Shares between which `start + share * step` stays within `low..=high`.
        let between = |start: f64, step: f64, low: f64, high: f64| {
            if step == 0.0 {
                return if (low..=high).contains(&start) { (0.0, 1.0) } else { (1.0, 0.0) };
            }
            let (s, e) = ((low - start) / step, (high - start) / step);
            (s.min(e), s.max(e))
        };
        let (a, b) = between(ux * off.x + uy * off.y, ux * go.x + uy * go.y, 0.0, length);
        let (s, e) = between(ux * off.y - uy * off.x, ux * go.y - uy * go.x, -reach, reach);
        add(a.max(s), b.min(e));
    }
    part
}
