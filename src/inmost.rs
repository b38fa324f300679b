//! The place in a face where a number fits best: the centre of the largest circle inside it.
//!
//! Known as the pole of inaccessibility. Squares that cover the face are halved, most promising first, until none can
//! hold a circle larger than the best by more than the tolerance. The outline is thinned first: a number's place
//! needs no thousandths.

use std::collections::BinaryHeap;
use std::rc::Rc;

use crate::shape::{Extent, Face, Point, Ring, ring_sides};

/// The place inside a face with the most room around it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inmost {
    /// Centre of the largest circle that fits, mm.
    pub at_mm: Point,
    /// Radius of that circle, mm: the room a number has.
    pub room_mm: f64,
}

/// How much larger another circle may still be, mm.
const TOLERANCE_MM: f64 = 0.05;
/// Farthest that a thinned outline may lie from the true one, mm.
const THINNING_MM: f64 = 0.02;

/// Distance of a point from a segment, squared, mm².
pub(crate) fn distance_sq(p: Point, a: Point, b: Point) -> f64 {
    let (along, to) = (b - a, p - a);
    let length_sq = along.dot(along);
    let t = if length_sq > 0.0 { (to.dot(along) / length_sq).clamp(0.0, 1.0) } else { 0.0 };
    let off = to - along * t;
    off.dot(off)
}

fn segments<'a>(rings: impl IntoIterator<Item = &'a Ring>) -> impl Iterator<Item = (Point, Point)> {
    rings.into_iter().flat_map(|r| ring_sides(r).map(|(a, b)| (*a, *b)))
}

/// Whether a side crosses the ray from a point to the right.
fn passes(p: Point, a: Point, b: Point) -> bool {
    (a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x
}

/// Whether a point lies inside of an outline, by the even-odd rule.
pub(crate) fn is_inside<'a>(p: Point, rings: impl IntoIterator<Item = &'a Ring>) -> bool {
    segments(rings).filter(|(a, b)| passes(p, *a, *b)).count() % 2 == 1
}

/// Distance to the outline, mm, positive inside.
pub(crate) fn depth_mm(p: Point, rings: &[Ring]) -> f64 {
    let (mut inside, mut least) = (false, f64::INFINITY);
    for (a, b) in segments(rings) {
        inside ^= passes(p, a, b);
        least = least.min(distance_sq(p, a, b));
    }
    if inside { least.sqrt() } else { -least.sqrt() }
}

/// Drops points that lie nearer than `within_mm` to the line past them (Douglas and Peucker 1973).
pub(crate) fn thinned(ring: &[Point], within_mm: f64) -> Ring {
    if ring.len() < 8 {
        return ring.to_vec();
    }
    let mut keep = vec![false; ring.len()];
    let far = (0..ring.len()).max_by(|a, b| {
        let d = |i: usize| (ring[i] - ring[0]).hypot2();
        d(*a).total_cmp(&d(*b))
    });
    let far = far.unwrap_or(0);
    keep[0] = true;
    keep[far] = true;
    let mut open = vec![(0, far), (far, ring.len())];
    while let Some((from, to)) = open.pop() {
        let end = ring[to % ring.len()];
        let worst =
            (from + 1..to).map(|i| (distance_sq(ring[i], ring[from], end), i)).max_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((off_sq, i)) = worst
            && off_sq > within_mm * within_mm
        {
            keep[i] = true;
            open.extend([(from, i), (i, to)]);
        }
    }
    ring.iter().zip(&keep).filter(|(_, keep)| **keep).map(|(p, _)| *p).collect()
}

/// Sides of an outline that can matter to the points of one square, so that fewer are looked at the smaller it is.
struct Sides {
    /// Some point of the square may have one of these as its nearest.
    near: Vec<(Point, Point)>,
    /// Those as high as some point of the square: they tell inside from outside.
    level: Vec<(Point, Point)>,
}

impl Sides {
    /// All sides of some rings.
    fn of(rings: &[Ring]) -> Sides {
        let all: Vec<(Point, Point)> = segments(rings).collect();
        Sides { near: all.clone(), level: all }
    }

    /// Distance to the outline from a point of the square, mm, positive inside: the same to the last bit as [`depth_mm`] of all sides.
    fn depth_mm(&self, p: Point) -> f64 {
        let inside = self.level.iter().filter(|(a, b)| passes(p, *a, *b)).count() % 2 == 1;
        let least = self.near.iter().fold(f64::INFINITY, |least, (a, b)| least.min(distance_sq(p, *a, *b)));
        if inside { least.sqrt() } else { -least.sqrt() }
    }

    /// Those that matter to a square inside this one's; its centre lies `depth_mm` from the outline.
    fn within(&self, at: Point, half: f64, depth_mm: f64) -> Sides {
        // From any of its points the outline is at most half a diagonal farther than from the centre, and so is any side nearer.
        let most = depth_mm.abs() + 2.0 * half * std::f64::consts::SQRT_2 + SPARE_MM;
        let (high, low) = (at.y - half - SPARE_MM, at.y + half + SPARE_MM);
        let near = |(a, b): &&(Point, Point)| distance_sq(at, *a, *b) <= most * most;
        let level = |(a, b): &&(Point, Point)| a.y.min(b.y) <= low && a.y.max(b.y) >= high;
        Sides {
            near: self.near.iter().filter(near).copied().collect(),
            level: self.level.iter().filter(level).copied().collect(),
        }
    }
}

/// What rounding cannot reach, mm.
const SPARE_MM: f64 = 1e-6;

struct Square {
    at: Point,
    half: f64,
    /// To the outline.
    outline: f64,
    /// To the outline and to the lines kept clear of.
    depth: f64,
    reach: f64,
    /// Of a square around it.
    sides: Rc<Sides>,
}

impl Square {
    fn new(at: Point, half: f64, sides: Rc<Sides>, lines: &[[Point; 2]]) -> Square {
        let outline = sides.depth_mm(at);
        let depth = lines.iter().fold(outline, |d, [a, b]| {
            if d * d > distance_sq(at, *a, *b) && d > 0.0 { distance_sq(at, *a, *b).sqrt() } else { d }
        });
        Square { at, half, outline, depth, reach: depth + half * std::f64::consts::SQRT_2, sides }
    }
}

impl PartialEq for Square {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Square {}

impl Ord for Square {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        let place = |s: &Square| (s.at.y, s.at.x);
        let ((ay, ax), (by, bx)) = (place(self), place(other));
        self.reach.total_cmp(&other.reach).then(by.total_cmp(&ay)).then(bx.total_cmp(&ax))
    }
}

impl PartialOrd for Square {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

/// Where a face has the most room, in mm. A face without area gives its first point and no room.
pub fn place(face: &Face) -> Inmost {
    found(face, &[], TOLERANCE_MM, THINNING_MM)
}

/// The same with lines inside the face that are to be kept clear of as well; mm.
pub fn place_among(face: &Face, lines: &[[Point; 2]]) -> Inmost {
    found(face, lines, TOLERANCE_MM, THINNING_MM)
}

/// The same to within `tolerance_mm`, for where the room itself is the question.
pub fn place_within(face: &Face, tolerance_mm: f64) -> Inmost {
    found(face, &[], tolerance_mm / 2.0, tolerance_mm / 2.0)
}

fn found(face: &Face, lines: &[[Point; 2]], tolerance_mm: f64, thinning_mm: f64) -> Inmost {
    let rings: Vec<Ring> = face.rings().map(|r| thinned(r, thinning_mm)).collect();
    let nowhere = Inmost { at_mm: face.outer.first().copied().unwrap_or_default(), room_mm: 0.0 };
    let Some(extent) = Extent::of(&rings[0]) else { return nowhere };
    let side = extent.width_mm().min(extent.height_mm());
    if !(side > 0.0 && side.is_finite()) {
        return nowhere;
    }
    let mut open = BinaryHeap::new();
    let all = Rc::new(Sides::of(&rings));
    let half = side / 2.0;
    let count = |length: f64| ((length / side).ceil() as usize).clamp(1, 4096);
    for row in 0..count(extent.height_mm()) {
        for column in 0..count(extent.width_mm()) {
            let at = extent.min + kurbo::Vec2::new(half + column as f64 * side, half + row as f64 * side);
            open.push(Square::new(at, half, Rc::clone(&all), lines));
        }
    }
    let mut best = Inmost { room_mm: f64::NEG_INFINITY, ..nowhere };
    while let Some(square) = open.pop() {
        if square.depth > best.room_mm {
            best = Inmost { at_mm: square.at, room_mm: square.depth };
        }
        // Small cells want a finer place than large ones.
        if square.reach - best.room_mm <= tolerance_mm.min(0.02 * side) {
            break;
        }
        let half = square.half / 2.0;
        let sides = Rc::new(square.sides.within(square.at, square.half, square.outline));
        for (x, y) in [(-half, -half), (half, -half), (-half, half), (half, half)] {
            open.push(Square::new(square.at + kurbo::Vec2::new(x, y), half, Rc::clone(&sides), lines));
        }
    }
    if best.room_mm > 0.0 { best } else { nowhere }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(points: &[(f64, f64)]) -> Ring {
        points.iter().map(|p| Point::from(*p)).collect()
    }

    /// The incircle of a right triangle with legs a, b and hypotenuse c has radius (a + b − c) ÷ 2, centre (r, r): Euclid IV.4.
    #[test]
    fn the_number_of_a_triangle_stands_at_its_incentre() {
        let label = place(&Face { outer: ring(&[(0.0, 0.0), (30.0, 0.0), (0.0, 40.0)]), holes: vec![] });
        assert!((label.room_mm - 10.0).abs() < 0.06, "{label:?}");
        assert!((label.at_mm - Point::new(10.0, 10.0)).hypot() < 0.3, "{label:?}");
    }

    #[test]
    fn a_number_keeps_out_of_holes() {
        let face = Face {
            outer: ring(&[(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0)]),
            holes: vec![ring(&[(5.0, 5.0), (5.0, 15.0), (15.0, 15.0), (15.0, 5.0)])],
        };
        let label = place(&face);
        assert!(label.at_mm.x > 20.0 && label.room_mm > 9.9, "{label:?}");
    }

    /// A square of 40 with a line down its middle: the largest circle left has radius 10 and its centre 10 from the line.
    #[test]
    fn a_number_keeps_clear_of_lines_inside() {
        let face = Face { outer: ring(&[(0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0)]), holes: vec![] };
        let label = place_among(&face, &[[Point::new(20.0, -1.0), Point::new(20.0, 41.0)]]);
        assert!((label.room_mm - 10.0).abs() < 0.06, "{label:?}");
        assert!(((label.at_mm.x - 20.0).abs() - 10.0).abs() < 0.1, "{label:?}");
    }

    /// Against a look at every side, for points all over squares of all sizes.
    #[test]
    fn the_sides_that_are_left_out_would_change_no_distance() {
        let star: Vec<(f64, f64)> = (0..90)
            .map(|i| {
                let (t, r) = (std::f64::consts::PI * f64::from(i) / 45.0, if i % 2 == 0 { 30.0 } else { 11.0 });
                (r * libm::cos(t), r * libm::sin(t))
            })
            .collect();
        let rings = [ring(&star), ring(&[(-4.0, -4.0), (-4.0, 3.0), (3.0, 4.0)])];
        let mut open = vec![(Point::new(1.0, -2.0), 32.0, Rc::new(Sides::of(&rings)))];
        let mut looked = 0;
        while let Some((at, half, sides)) = open.pop() {
            assert_eq!(sides.depth_mm(at), depth_mm(at, &rings), "{at}");
            looked += 1;
            if half > 0.6 {
                let fewer = Rc::new(sides.within(at, half, depth_mm(at, &rings)));
                for (x, y) in [(-0.5, -0.5), (0.5, -0.5), (-0.5, 0.5), (0.5, 0.5)] {
                    open.push((at + kurbo::Vec2::new(x, y) * half, half / 2.0, Rc::clone(&fewer)));
                }
            }
        }
        assert_eq!(looked, 1 + 4 + 16 + 64 + 256 + 1024 + 4096);
    }

    #[test]
    fn a_crescent_has_its_number_inside() {
        // The mean of its points would lie outside.
        let arc = |r: f64, n: i32| {
            (0..=n).map(move |i| {
                let t = std::f64::consts::PI * f64::from(i) / f64::from(n);
                (r * libm::cos(t), r * libm::sin(t))
            })
        };
        let points: Vec<(f64, f64)> =
            arc(20.0, 200).chain(arc(16.0, 200).collect::<Vec<_>>().into_iter().rev()).collect();
        let face = Face { outer: ring(&points), holes: vec![] };
        let label = place(&face);
        assert!(depth_mm(label.at_mm, std::slice::from_ref(&face.outer)) > 1.9, "{label:?}");
    }
}
