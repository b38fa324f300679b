//! From fills, or from score lines and marks, to the cells a painter fills: their paint, area and label place.
//!
//! In: the drawing's fills or marks in mm, the outline of the boards, the record's paints. Out: [`Checked`](crate::findings::Checked)`<`[`Plan`]`>`.
//! Never here: pages, wood, kerf: cells are taken before it.
//! Rule: handbook, figures, item 10.

pub mod amounts;
mod by_colour;
mod by_marks;
mod labels;
mod looks;
pub mod mixing;
mod reflectance;
mod region;
mod turns;

pub use by_colour::cells as by_colour;
pub use by_marks::cells as by_marks;
pub use labels::keep_clear;
pub use looks::{close_lines, findings, touching};
pub use turns::turns;

use crate::findings::{Checked, Finding};
use crate::inmost::{self, Inmost};
use crate::shape::Face;

/// Parts smaller than this are numerical dust and no cells, mm². Handbook, figures, item 10.
const DUST_MM2: f64 = 0.01;

/// All paint cells of a design.
#[derive(Clone, Debug, Default)]
pub struct Plan {
    /// Cells by paint number, then top to bottom, left to right.
    pub cells: Vec<Cell>,
}

/// One connected region of one paint.
#[derive(Clone, Debug)]
pub struct Cell {
    /// Index into the record's paints; `None` where the fill has no paint (a finding).
    pub paint: Option<usize>,
    /// Its outline, mm.
    pub face: Face,
    /// Without its holes, mm².
    pub area_mm2: f64,
    /// Where its number goes.
    pub label: Inmost,
}

impl Cell {
    /// A cell with its area and label place worked out.
    fn new(paint: Option<usize>, face: Face) -> Cell {
        Cell { paint, area_mm2: face.area_mm2(), label: inmost::place(&face), face }
    }
}

/// Cells in their order: by paint, then top to bottom, left to right; those without a paint last.
fn finished(mut cells: Vec<Cell>, findings: Vec<Finding>) -> Checked<Plan> {
    cells.sort_by(|a, b| {
        let paint = |c: &Cell| c.paint.unwrap_or(usize::MAX);
        let (p, q) = (a.label.at_mm, b.label.at_mm);
        paint(a).cmp(&paint(b)).then(p.y.total_cmp(&q.y)).then(p.x.total_cmp(&q.x))
    });
    Checked { value: Plan { cells }, findings }
}

/// What two faces have in common, mm².
pub fn overlap_mm2(one: &crate::shape::Face, other: &crate::shape::Face) -> f64 {
    let common = region::Region::of_faces([one]).within(&region::Region::of_faces([other]));
    common.faces(0.0).iter().map(crate::shape::Face::area_mm2).sum()
}
