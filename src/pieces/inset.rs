//! Moving an outline inwards or outwards all round: the piece that is left beside a kerf, the piece that fits more snugly.

use i_overlay::mesh::float::outline::offset::OutlineOffset;
use i_overlay::mesh::float::style::{LineJoin, OutlineStyle};

use super::shift::shifted;
use crate::inmost::thinned;
use crate::shape::{Extent, Face, Point, Ring, signed_area_mm2};

/// Longest chord of the round corners, in radii: 4° a step keeps a corner's area within 0.1 % of a full round.
const ROUND_STEP: f64 = 0.07;
/// The same on lines that are cut, not only measured.
const CUT_ROUND_STEP: f64 = 0.05;
/// Outlines of more points than this are thinned where they are not plain, and by how much at most, mm.
const MANY: usize = 20_000;
const THINNING_MM: f64 = 0.0005;
/// Largest piece that is worked out on the coarser grid, mm.
const FINE_ENOUGH_MM: f64 = 300.0;

/// What is left of a face, mm, when `by_mm` is taken off all round, with round corners where it was hollow.
///
/// Usually one part; several where a waist gives way; none where nothing is left. Handbook, figures, item 5.
pub fn inset(face: &Face, by_mm: f64) -> Vec<Face> {
    if by_mm <= 0.0 {
        return vec![face.clone()];
    }
    if let Some(one) = shifted(face, by_mm, ROUND_STEP) {
        return vec![one];
    }
    if face.rings().all(|r| r.len() <= MANY) {
        return general(face, by_mm);
    }
    // Lines drawn as dust: their noise is all that there is in the way.
    let thin = |r: &Ring| thinned(r, THINNING_MM);
    let face = Face { outer: thin(&face.outer), holes: face.holes.iter().map(thin).collect() };
    shifted(&face, by_mm, ROUND_STEP).map_or_else(|| general(&face, by_mm), |one| vec![one])
}

/// A face grown by `by_mm` all round, mm, with round corners; openings shrink.
pub fn outset(face: &Face, by_mm: f64) -> Vec<Face> {
    if by_mm <= 0.0 { vec![face.clone()] } else { moved(face, by_mm, CUT_ROUND_STEP, false) }
}

/// The same as [`inset`] for any face, by overlay: where edges are used up and parts meet.
pub(super) fn general(face: &Face, by_mm: f64) -> Vec<Face> {
    // Whole numbers of 32 bits are a grid of millionths over any common piece, and much the faster.
    let small = Extent::of(&face.outer).is_some_and(|e| e.width_mm().max(e.height_mm()) <= FINE_ENOUGH_MM);
    moved(face, -by_mm, ROUND_STEP, small)
}

/// Outwards by `by_mm`, or inwards where that is negative; on the coarser grid for a `small` face.
fn moved(face: &Face, by_mm: f64, round_step: f64, small: bool) -> Vec<Face> {
    // The overlay works about the origin of its own grid, so drawings far out lose nothing.
    let shape: Vec<Vec<[f64; 2]>> = face.rings().map(|r| r.iter().map(|p| [p.x, p.y]).collect()).collect();
    let style = OutlineStyle::new(by_mm).line_join(LineJoin::Round(round_step));
    let ring = |contour: &Vec<[f64; 2]>, positive: bool| -> Ring {
        let mut ring: Ring = contour.iter().map(|p| Point::new(p[0], p[1])).collect();
        if (signed_area_mm2(&ring) > 0.0) != positive {
            ring.reverse();
        }
        ring
    };
    let parts = if small { shape.outline_as::<i32>(&style) } else { shape.outline_as::<i64>(&style) };
    parts
        .iter()
        .filter_map(|s| s.split_first())
        .map(|(outer, holes)| Face { outer: ring(outer, true), holes: holes.iter().map(|h| ring(h, false)).collect() })
        .filter(|f| f.area_mm2() > 0.0)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rectangle(w: f64, h: f64) -> Face {
        Face {
            outer: vec![Point::new(0.0, 0.0), Point::new(w, 0.0), Point::new(w, h), Point::new(0.0, h)],
            holes: vec![],
        }
    }

    #[test]
    fn a_rectangle_loses_a_strip_on_each_side() {
        let left = inset(&rectangle(30.0, 20.0), 0.1);
        assert_eq!(left.len(), 1);
        assert!((left[0].area_mm2() - 29.8 * 19.8).abs() < 1e-6, "{}", left[0].area_mm2());
    }

    #[test]
    fn a_strip_thinner_than_the_kerf_is_gone() {
        assert!(inset(&rectangle(30.0, 0.19), 0.1).is_empty());
    }

    /// Steiner's formula for a convex hole grown by d: area + d · perimeter + π d².
    #[test]
    fn a_square_hole_grows_round_corners() {
        let mut face = rectangle(30.0, 20.0);
        face.holes.push(vec![
            Point::new(10.0, 5.0),
            Point::new(10.0, 15.0),
            Point::new(20.0, 15.0),
            Point::new(20.0, 5.0),
        ]);
        let d = 1.0;
        let left = inset(&face, d);
        let hole = 100.0 + 40.0 * d + std::f64::consts::PI * d * d;
        assert_eq!(left.len(), 1);
        assert!((left[0].area_mm2() - (28.0 * 18.0 - hole)).abs() < 0.01, "{}", left[0].area_mm2());
    }

    #[test]
    fn a_waist_gives_way() {
        let waist = [
            (0., 0.),
            (10., 0.),
            (10., 4.),
            (14., 4.),
            (14., 0.),
            (24., 0.),
            (24., 10.),
            (14., 10.),
            (14., 5.5),
            (10., 5.5),
            (10., 10.),
            (0., 10.),
        ];
        let face = Face { outer: waist.map(|(x, y)| Point::new(x, y)).to_vec(), holes: vec![] };
        assert!(face.area_mm2() > 0.0);
        assert_eq!(inset(&face, 0.7).len(), 1);
        assert_eq!(inset(&face, 0.8).len(), 2);
    }
}
