//! A measured design as something to be drawn.

use super::Subject;
use crate::drawing::{Layer, Line};
use crate::figures::Measured;
use crate::shape::Rgb;
use crate::shop::Design;

/// What a [`Subject`] borrows beside the design and its figures.
pub struct Looks<'a> {
    score: Vec<&'a Line>,
    paints: Vec<Rgb>,
}

impl<'a> Looks<'a> {
    /// Score lines of the drawing and colours of the record.
    pub fn of(design: &Design, measured: &'a Measured) -> Looks<'a> {
        Looks {
            score: measured.drawing.lines.iter().filter(|l| l.layer == Layer::Score).collect(),
            paints: design.paints.iter().map(|p| p.colour).collect(),
        }
    }

    /// The subject of the same design and figures; `show_cuts` says whether its public pictures may show cuts.
    pub fn subject<'b>(&'b self, design: &'b Design, measured: &'b Measured, show_cuts: bool) -> Subject<'b> {
        Subject {
            slug: &design.slug,
            board: &measured.board,
            score: &self.score,
            plan: measured.plan.as_ref(),
            paints: &self.paints,
            wood: &design.board.wood,
            thickness_mm: design.board.thickness_mm,
            show_cuts,
        }
    }
}
