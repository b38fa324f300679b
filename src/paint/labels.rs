//! Where a cell's number goes on the scored board: in the middle of the widest place that the score lines leave.
//!
//! In: a plan, the score lines in mm, their width. Out: the same plan with its label places moved.
//! A score line takes half its width from the cells on both its sides, and all of it from a cell that it only runs into.
//! Never here: the size of a number, a leader line: those are the sheet's.

use rayon::prelude::*;
use rstar::{AABB, RTree, primitives::GeomWithData, primitives::Line};

use super::Plan;
use crate::drawing;
use crate::inmost;
use crate::shape::{Extent, Face, Point, Ring, ring_sides};

/// A score line this near to a cell's border is that border, mm: the join of most drawings and a little more.
const BORDER_MM: f64 = 0.15;

/// Moves every label clear of the score lines, each `width_mm` wide.
pub fn keep_clear(plan: &mut Plan, score: &[&drawing::Line], width_mm: f64) {
    let sides = score.iter().flat_map(|line| {
        let closing = line.closed.then(|| [line.points.last(), line.points.first()]);
        let inner = line.points.windows(2).map(|w| [w[0], w[1]]);
        inner.chain(closing.and_then(|[a, b]| Some([*a?, *b?])))
    });
    let tree = tree_of(sides);
    plan.cells.par_iter_mut().for_each(|cell| {
        let Some(around) = Extent::of(&cell.face.outer) else { return };
        let border = Border::of(&cell.face);
        let around = AABB::from_corners([around.min.x, around.min.y], [around.max.x, around.max.y]);
        let mut inner: Vec<[Point; 2]> = tree
            .locate_in_envelope_intersecting(around)
            .map(|side| side.data)
            .filter(|[a, b]| [0.0, 0.25, 0.5, 0.75, 1.0].iter().any(|t| border.far_inside(a.lerp(*b, *t))))
            .collect();
        if !inner.is_empty() {
            // The tree's order is nobody's business.
            inner.sort_by(|s, t| {
                let key = |s: &[Point; 2]| [s[0].x, s[0].y, s[1].x, s[1].y];
                key(s)
                    .iter()
                    .zip(key(t))
                    .map(|(a, b)| a.total_cmp(&b))
                    .find(|o| o.is_ne())
                    .unwrap_or(std::cmp::Ordering::Equal)
            });
            cell.label = inmost::place_among(&cell.face, &inner);
        }
        cell.label.room_mm = (cell.label.room_mm - width_mm / 2.0).max(0.0);
    });
}

type Sides = RTree<GeomWithData<Line<[f64; 2]>, [Point; 2]>>;

fn tree_of(sides: impl Iterator<Item = [Point; 2]>) -> Sides {
    let line = |s: [Point; 2]| GeomWithData::new(Line::new([s[0].x, s[0].y], [s[1].x, s[1].y]), s);
    RTree::bulk_load(sides.map(line).collect())
}

/// A cell's outline, ready to be asked by many points: most score lines run along it.
struct Border {
    rings: Vec<Ring>,
    sides: Sides,
}

impl Border {
    fn of(face: &Face) -> Border {
        let rings: Vec<Ring> = face.rings().cloned().collect();
        let sides = tree_of(rings.iter().flat_map(|ring| ring_sides(ring).map(|(a, b)| [*a, *b])));
        Border { rings, sides }
    }

    /// Whether a point lies inside, farther than `BORDER_MM` from the outline.
    fn far_inside(&self, p: Point) -> bool {
        let reach = 1.01 * BORDER_MM;
        let around = AABB::from_corners([p.x - reach, p.y - reach], [p.x + reach, p.y + reach]);
        let close = |s: &[Point; 2]| inmost::distance_sq(p, s[0], s[1]).sqrt() <= BORDER_MM;
        !self.sides.locate_in_envelope_intersecting(around).any(|side| close(&side.data))
            && inmost::is_inside(p, &self.rings)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{Layer, Line};
    use crate::paint::Cell;
    use crate::shape::Face;

    fn plan() -> Plan {
        let ring = |points: &[(f64, f64)]| points.iter().map(|p| Point::from(*p)).collect();
        let face = Face { outer: ring(&[(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0)]), holes: vec![] };
        Plan { cells: vec![Cell::new(Some(0), face)] }
    }

    fn scored(points: &[(f64, f64)]) -> Line {
        let points = points.iter().map(|p| Point::from(*p)).collect();
        Line { layer: Layer::Score, points, closed: false }
    }

    #[test]
    fn a_border_takes_half_its_width() {
        let mut plan = plan();
        keep_clear(&mut plan, &[&scored(&[(0.0, 0.05), (40.0, 0.0)])], 0.3);
        assert!((plan.cells[0].label.room_mm - 9.85).abs() < 0.06, "{:?}", plan.cells[0].label);
    }

    /// A line along the middle that ends in the cell divides nothing, but no number stands on it.
    #[test]
    fn a_line_that_ends_in_the_cell_is_kept_clear_of() {
        let mut plan = plan();
        keep_clear(&mut plan, &[&scored(&[(0.0, 10.0), (25.0, 10.0)])], 0.2);
        let label = plan.cells[0].label;
        // The circle that touches a long side, the right side and the line's end: (15 − r)² + (10 − r)² = r².
        let r = 25.0 - 300.0_f64.sqrt();
        assert!((label.room_mm - (r - 0.1)).abs() < 0.06, "{label:?}");
        assert!((label.at_mm.x - (40.0 - r)).abs() < 0.2, "{label:?}");
    }
}
