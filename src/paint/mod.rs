//! From fills, or from score lines and marks, to the cells a painter fills: their paint, area and label place.
//!
//! In: the drawing's fills or marks in mm, the outline of the boards, the record's paints. Out: [`Checked`](crate::findings::Checked)`<`[`Plan`]`>`.
//! Never here: pages, wood, kerf: cells are taken before it.
//! Rule: handbook, figures, item 10.

use crate::shape::{Face, Point};

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
    pub label: Label,
}

/// Place of a cell's number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Label {
    /// Centre of the largest circle that fits into the cell (pole of inaccessibility), mm.
    pub at_mm: Point,
    /// Radius of that circle, mm: the room a number has.
    pub room_mm: f64,
}
