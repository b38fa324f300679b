//! Regions with union, difference and intersection, on one integer grid for a whole design.
//!
//! All operations of a plan share the grid, so that a border computed for one cell is the same border, to the last bit,
//! for its neighbour. The overlay itself is `i_overlay` on 64-bit integers.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::{IntOverlayOptions, Overlay, ShapeType};
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::i_float::int::point::IntPoint;

use crate::shape::{Extent, Face, Point, Ring, signed_area_mm2};

/// Grid steps to the millimetre: a power of two, so that the way there and back is exact. 2^20 is a millionth of a
/// millimetre, and leaves room for boards of a thousand kilometres in 62 bits.
const STEPS_PER_MM: f64 = (1u64 << 20) as f64;

type Contour = Vec<IntPoint<i64>>;

/// A region of the plane on the grid, of any number of parts with holes.
#[derive(Clone, Debug, Default)]
pub struct Region {
    shapes: Vec<Vec<Contour>>,
}

fn on_grid(ring: &[Point]) -> Contour {
    ring.iter()
        .map(|p| IntPoint::new((p.x * STEPS_PER_MM).round() as i64, (p.y * STEPS_PER_MM).round() as i64))
        .collect()
}

fn off_grid(contour: &[IntPoint<i64>]) -> Ring {
    contour.iter().map(|p| Point::new(p.x as f64 / STEPS_PER_MM, p.y as f64 / STEPS_PER_MM)).collect()
}

fn overlay(subject: &[&Region], clip: &[&Region], rule: OverlayRule) -> Region {
    // Strict topology: parts that share only a corner come out as parts of their own.
    let mut work = Overlay::new_custom(64, IntOverlayOptions::ogc(), Default::default());
    for (regions, side) in [(subject, ShapeType::Subject), (clip, ShapeType::Clip)] {
        for shape in regions.iter().flat_map(|r| &r.shapes) {
            work.add_source(shape, side);
        }
    }
    Region { shapes: work.overlay(rule, FillRule::NonZero) }
}

impl Region {
    /// What rings fill by the SVG rule `evenodd` or `nonzero`; mm.
    pub fn filled(rings: &[Ring], even_odd: bool) -> Region {
        let mut work = Overlay::new_custom(64, IntOverlayOptions::ogc(), Default::default());
        for ring in rings {
            work.add_contour(&on_grid(ring), ShapeType::Subject);
        }
        let rule = if even_odd { FillRule::EvenOdd } else { FillRule::NonZero };
        Region { shapes: work.overlay(OverlayRule::Subject, rule) }
    }

    /// What faces cover together, mm.
    pub fn of_faces<'a>(faces: impl IntoIterator<Item = &'a Face>) -> Region {
        let rings: Vec<Ring> = faces.into_iter().flat_map(|f| f.rings().cloned()).collect();
        Region::filled(&rings, false)
    }

    /// Everything that is in one of the regions.
    pub fn union(regions: &[&Region]) -> Region {
        overlay(regions, &[], OverlayRule::Subject)
    }

    /// What is left when all of `others` are taken off.
    pub fn minus(&self, others: &[&Region]) -> Region {
        if others.is_empty() { self.clone() } else { overlay(&[self], others, OverlayRule::Difference) }
    }

    /// What is in both.
    pub fn within(&self, other: &Region) -> Region {
        overlay(&[self], &[other], OverlayRule::Intersect)
    }

    /// Box around it, mm; `None` when empty.
    pub fn extent(&self) -> Option<Extent> {
        let points: Ring = self.shapes.iter().filter_map(|s| s.first()).flat_map(|c| off_grid(c)).collect();
        Extent::of(&points)
    }

    /// Its connected parts, mm; parts and holes smaller than `dust_mm2` are left out.
    pub fn faces(&self, dust_mm2: f64) -> Vec<Face> {
        let turned = |contour: &Contour, positive: bool| {
            let mut ring = off_grid(contour);
            if (signed_area_mm2(&ring) > 0.0) != positive {
                ring.reverse();
            }
            ring
        };
        let face = |shape: &Vec<Contour>| {
            let (outer, holes) = shape.split_first()?;
            let holes = holes.iter().map(|h| turned(h, false)).filter(|h| -signed_area_mm2(h) >= dust_mm2);
            Some(Face { outer: turned(outer, true), holes: holes.collect() })
        };
        self.shapes.iter().filter_map(face).filter(|f| f.area_mm2() >= dust_mm2).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64, side: f64) -> Face {
        let corner = |dx: f64, dy: f64| Point::new(x + dx, y + dy);
        Face { outer: vec![corner(0.0, 0.0), corner(side, 0.0), corner(side, side), corner(0.0, side)], holes: vec![] }
    }

    #[test]
    fn squares_that_share_a_corner_stay_two_parts() {
        let both = Region::of_faces([&square(0.0, 0.0, 10.0), &square(10.0, 10.0, 10.0)]);
        assert_eq!(both.faces(0.01).len(), 2);
    }

    #[test]
    fn squares_left_by_a_covered_cross_touch_nowhere_else() {
        // Four squares of a board of 2 × 2 whose diagonal two are covered: the other two share one corner.
        let board = Region::of_faces([&square(0.0, 0.0, 20.0)]);
        let left = board
            .minus(&[&Region::of_faces([&square(0.0, 0.0, 10.0)]), &Region::of_faces([&square(10.0, 10.0, 10.0)])]);
        assert_eq!(left.faces(0.01).len(), 2);
    }

    #[test]
    fn squares_that_share_a_side_become_one() {
        let row = Region::of_faces([&square(0.0, 0.0, 10.0), &square(10.0, 0.0, 10.0)]);
        let faces = row.faces(0.01);
        assert_eq!(faces.len(), 1);
        assert!((faces[0].area_mm2() - 200.0).abs() < 1e-9);
    }

    #[test]
    fn a_hole_keeps_its_turn() {
        let ring = Region::of_faces([&square(0.0, 0.0, 10.0)]).minus(&[&Region::of_faces([&square(2.0, 2.0, 3.0)])]);
        let faces = ring.faces(0.01);
        assert_eq!((faces.len(), faces[0].holes.len()), (1, 1));
        assert!(signed_area_mm2(&faces[0].outer) > 0.0 && signed_area_mm2(&faces[0].holes[0]) < 0.0);
        assert!((faces[0].area_mm2() - 91.0).abs() < 1e-9);
    }
}
