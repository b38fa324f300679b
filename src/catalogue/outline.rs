//! The board's outline with few points, for a drawing of its size.
//!
//! In: faces in mm. Out: rings in mm from the top left of their common box, to a tenth, no point farther than 0.3 mm from the drawn line.
//! Never here: cut lines inside the board. Rule: handbook, "Privacy".

use crate::shape::{Extent, Face, Point, length_mm};

/// Farthest that a point left out may lie from the line kept, mm.
const NEAR_MM: f64 = 0.3;

/// All rings of the boards, simplified.
pub fn simple(boards: &[&Face]) -> Vec<Vec<[f64; 2]>> {
    let Some(extent) = Extent::of(boards.iter().flat_map(|face| face.rings()).flatten()) else {
        return Vec::new();
    };
    let tenth = |mm: f64| libm::round(mm * 10.0) / 10.0;
    let shifted = |p: &Point| [tenth(p.x - extent.min.x), tenth(p.y - extent.min.y)];
    let ring = |ring: &Vec<Point>| kept(ring).iter().map(shifted).collect::<Vec<_>>();
    boards.iter().flat_map(|face| face.rings()).map(ring).filter(|ring| ring.len() >= 3).collect()
}

/// Ramer, Douglas and Peucker's way, from the first point and the one farthest from it.
fn kept(ring: &[Point]) -> Vec<Point> {
    let (Some(&first), true) = (ring.first(), ring.len() > 3) else {
        return ring.to_vec();
    };
    let distances = ring.iter().map(|p| length_mm(first, *p)).enumerate();
    let (half, _) = distances.fold((0, 0.0), |best, next| if next.1 > best.1 { next } else { best });
    let closed: Vec<Point> = ring.iter().copied().chain([first]).collect();
    let mut keep = vec![false; closed.len()];
    for at in [0, half] {
        if let Some(flag) = keep.get_mut(at) {
            *flag = true;
        }
    }
    let mut stretches = vec![(0, half), (half, closed.len() - 1)];
    while let Some((from, to)) = stretches.pop() {
        let Some((&a, &b)) = closed.get(from).zip(closed.get(to)) else { continue };
        let inner = closed.iter().enumerate().take(to).skip(from + 1);
        let (far, distance) = inner
            .map(|(at, p)| (at, from_chord_mm(*p, a, b)))
            .fold((from, 0.0), |best, next| if next.1 > best.1 { next } else { best });
        if distance > NEAR_MM {
            if let Some(flag) = keep.get_mut(far) {
                *flag = true;
            }
            stretches.extend([(from, far), (far, to)]);
        }
    }
    ring.iter().zip(keep).filter(|(_, keep)| *keep).map(|(p, _)| *p).collect()
}

fn from_chord_mm(p: Point, a: Point, b: Point) -> f64 {
    let chord = b - a;
    let square = chord.x * chord.x + chord.y * chord.y;
    let along = if square > 0.0 { ((p - a).dot(chord) / square).clamp(0.0, 1.0) } else { 0.0 };
    length_mm(p, a + chord * along)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rectangle_keeps_its_corners_alone() {
        let side = |from: Point, to: Point| (0..50).map(move |i| from.lerp(to, f64::from(i) / 50.0));
        let corners = [(10.0, 20.0), (110.0, 20.0), (110.0, 90.0), (10.0, 90.0)].map(Point::from);
        let ring = (0..4).flat_map(|i| side(corners[i], corners[(i + 1) % 4])).collect();
        let face = Face { outer: ring, holes: Vec::new() };
        assert_eq!(simple(&[&face]), [[[0.0, 0.0], [100.0, 0.0], [100.0, 70.0], [0.0, 70.0]]]);
    }

    /// A chord of a circle of radius r over the angle a lies r(1 − cos(a/2)) inside it.
    #[test]
    fn a_circle_stays_round_within_the_bound() {
        let at = |i: i32| Point::new(50.0, 50.0) + kurbo::Vec2::from_angle(f64::from(i).to_radians()) * 50.0;
        let face = Face { outer: (0..360).map(at).collect(), holes: Vec::new() };
        let rings = simple(&[&face]);
        assert!(rings[0].len() < 60 && rings[0].len() > 20, "{}", rings[0].len());
        for [x, y] in &rings[0] {
            assert!((length_mm(Point::new(*x, *y), Point::new(50.0, 50.0)) - 50.0).abs() < 0.1);
        }
    }
}
