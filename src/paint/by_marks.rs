//! Cells of a picture drawn as score lines with a dot of colour in each: the faces that the score lines and the
//! board's edge make.

use std::collections::BTreeMap;

use super::by_colour::unnamed;
use super::{Cell, DUST_MM2, Plan, finished};
use crate::drawing::{Line, Mark};
use crate::findings::{Checked, Finding, Kind};
use crate::inmost::is_inside;
use crate::pieces::{Near, arrange};
use crate::shape::{Face, Point, Rgb};

/// Cells of the marks layer: score lines and `boards` (outer rings and openings, as drawn) in mm, each face painted as
/// its mark. A face without a mark, with two different ones or with a colour that no paint has is a finding and a cell
/// without a paint. Handbook, figures, item 10.
pub fn cells(score: &[&Line], boards: &[&Face], marks: &[Mark], paints: &[Rgb], near: Near) -> Checked<Plan> {
    let outlines: Vec<(&[Point], bool)> = boards.iter().flat_map(|b| b.rings()).map(|r| (r.as_slice(), true)).collect();
    let lines: Vec<(&[Point], bool)> =
        outlines.into_iter().chain(score.iter().map(|l| (l.points.as_slice(), l.closed))).collect();
    // What joining notices about score lines that lie along the board's edge is no news to the painter.
    let net = arrange(&lines, near).value;

    let mut findings = Vec::new();
    let mut cells = Vec::new();
    let mut strangers: BTreeMap<Rgb, Vec<Cell>> = BTreeMap::new();
    for made in 0..net.faces.len() {
        let cell = Cell::new(None, net.face(made));
        // A place well inside the face tells on which side of the board's edge it lies.
        if cell.area_mm2 < DUST_MM2 || !boards.iter().any(|b| is_inside(cell.label.at_mm, b.rings())) {
            continue;
        }
        let mut colours: Vec<Rgb> =
            marks.iter().filter(|m| is_inside(m.at_mm, cell.face.rings())).map(|m| m.colour).collect();
        colours.sort_unstable();
        colours.dedup();
        match colours.as_slice() {
            [] => {
                findings.push(unmarked(&cell));
                cells.push(cell);
            }
            [one] => match paints.iter().position(|p| p == one) {
                Some(paint) => cells.push(Cell { paint: Some(paint), ..cell }),
                None => strangers.entry(*one).or_default().push(cell),
            },
            several => {
                findings.push(two_marks(&cell, several));
                cells.push(cell);
            }
        }
    }
    for (colour, made) in strangers {
        findings.extend(made.first().map(|first| unnamed(first, colour, made.len())));
        cells.extend(made);
    }
    finished(cells, findings)
}

fn unmarked(cell: &Cell) -> Finding {
    Finding::new(
        Kind::UnmarkedCell,
        Some(cell.label.at_mm),
        format!("This cell of {:.0} mm² has no mark, so nobody can tell its paint.", cell.area_mm2),
        "Put one filled dot of the paint's colour into it, or close the gap to the cell beside it.",
    )
}

fn two_marks(cell: &Cell, colours: &[Rgb]) -> Finding {
    let names: Vec<String> = colours.iter().map(Rgb::to_string).collect();
    Finding::new(
        Kind::TwoMarks,
        Some(cell.label.at_mm),
        format!("This cell of {:.0} mm² has marks of {} colours: {}.", cell.area_mm2, names.len(), names.join(", ")),
        "Leave one mark, or close the score line between them: a line that ends in the open divides nothing.",
    )
}
