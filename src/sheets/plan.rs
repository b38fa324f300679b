//! What is drawn of a design: outline, borders, details, numbers, and which cells touch.
//!
//! In: [`Measured`] and the paints. Out: [`Picture`], in mm, in the drawing's frame.
//! Never here: a cut line: only outline, openings, cell borders and scored lines.

use super::grid::{Grid, Segment, box_of, grown};
use super::lines::{Run, runs, thin, to_segment_mm};
use super::numbers::{Number, OUTSIDE_MM, Wanted, place};
use super::tiles::spare_mm;
use super::{SheetError, world};
use crate::drawing::Layer;
use crate::figures::Measured;
use crate::paint;
use crate::shape::{Extent, Point, Rgb, Ring, length_mm, ring_sides};
use crate::shop::{Paint, Paper};

/// A scored line this near to a border is that border, mm.
const SAME_LINE_MM: f64 = 0.15;

/// Room for the outline's width around the boards, mm.
const EDGE_MM: f64 = 0.3;

/// Everything that a line drawing shows, mm.
pub struct Picture {
    /// Outline of the boards and their openings.
    pub outline: Vec<Run>,
    /// Borders of the cells.
    pub borders: Vec<Run>,
    /// Scored lines that are no border.
    pub details: Vec<Run>,
    /// Numbers and leaders.
    pub numbers: Vec<Number>,
    /// The boards' box.
    pub board: Extent,
    /// The box of all that is drawn, numbers beside the board included.
    pub all: Extent,
    /// Paints (by index) by turn.
    pub turns: Vec<Vec<usize>>,
    /// Some cell has no paint.
    pub cell_without_paint: bool,
}

/// Works the drawing out.
///
/// # Errors
/// [`SheetError::NoBoard`] where nothing was measured.
pub fn picture(measured: &Measured, paints: &[Paint], paper: Paper) -> Result<Picture, SheetError> {
    let rings: Vec<&Ring> = measured.board.parts.iter().flat_map(|p| p.outline.rings()).collect();
    let board = Extent::of(rings.iter().copied().flatten()).ok_or(SheetError::NoBoard)?;
    let cells = measured.plan.as_ref().map(|p| p.cells.as_slice()).unwrap_or_default();

    let all_rings = cells.iter().flat_map(|c| c.face.rings()).chain(rings.iter().copied());
    let lines = Grid::new(all_rings.flat_map(sides).collect());

    let wanted: Vec<Wanted> = cells
        .iter()
        .map(|c| Wanted {
            text: c.paint.and_then(|p| paints.get(p)).map_or_else(|| "?".to_owned(), |p| p.number.to_string()),
            at: c.label.at_mm,
            room_mm: c.label.room_mm,
        })
        .collect();
    // Half the width of the outline and a little more belongs to the drawing.
    let edged = grown(board, EDGE_MM);
    let (beside, above) = spare_mm(edged, paper);
    let (beside, above) = (beside.min(OUTSIDE_MM), above.min(OUTSIDE_MM));
    let allowed = Extent {
        min: Point::new(board.min.x - beside, board.min.y - above),
        max: Point::new(board.max.x + beside, board.max.y + above),
    };
    let numbers = place(&wanted, &lines, allowed, world::digit_em());
    let corners: Vec<Point> =
        numbers.iter().flat_map(|n| [n.taken.min, n.taken.max]).chain([board.min, board.max]).collect();

    let colours: Vec<Rgb> = paints.iter().map(|p| p.colour).collect();

    Ok(Picture {
        outline: runs(rings.iter().copied()),
        borders: inner_borders(cells.iter().flat_map(|c| c.face.rings()), &rings),
        details: details(measured, &lines),
        all: grown(Extent::of(&corners).unwrap_or(board), EDGE_MM),
        turns: measured.plan.as_ref().map(|plan| paint::turns(plan, &colours)).unwrap_or_default(),
        cell_without_paint: cells.iter().any(|c| c.paint.is_none()),
        numbers,
        board,
    })
}

fn sides(ring: &Ring) -> impl Iterator<Item = Segment> {
    ring_sides(ring).map(|(a, b)| Segment { a: *a, b: *b })
}

/// Borders between cells: all of their rings, less the stretches that lie on the outline.
fn inner_borders<'a>(cells: impl Iterator<Item = &'a Ring>, outline: &[&Ring]) -> Vec<Run> {
    let outline = Grid::new(outline.iter().flat_map(|r| sides(r)).collect());
    let on_outline = |a: Point, b: Point| [a, a.lerp(b, 0.5), b].iter().all(|p| lies_on(&outline, *p, 0.03));
    runs(cells).iter().flat_map(|run| kept(run, |a, b| !on_outline(a, b))).collect()
}

/// Scored lines that are neither a border nor the outline: they are on the board, so they are on the sheet.
fn details(measured: &Measured, lines: &Grid) -> Vec<Run> {
    let free =
        |a: Point, b: Point| ![a.lerp(b, 0.25), a.lerp(b, 0.75)].iter().all(|p| lies_on(lines, *p, SAME_LINE_MM));
    let scored = measured.drawing.lines.iter().filter(|l| l.layer == Layer::Score);
    scored
        .flat_map(|line| {
            let mut points = line.points.clone();
            if line.closed {
                points.extend(line.points.first().copied());
            }
            kept(&short_steps(&points), free)
        })
        .map(|run| thin(&run))
        .collect()
}

/// The same line in steps of at most 2 mm, so that it can leave a border half way along.
fn short_steps(points: &[Point]) -> Run {
    let mut steps: Run = points.first().copied().into_iter().collect();
    for pair in points.windows(2) {
        let parts = (length_mm(pair[0], pair[1]) / 2.0).ceil().max(1.0);
        steps.extend((1..=parts as usize).map(|i| pair[0].lerp(pair[1], i as f64 / parts)));
    }
    steps
}

/// The stretches of a run that `wanted` wants.
fn kept(run: &[Point], wanted: impl Fn(Point, Point) -> bool) -> Vec<Run> {
    let mut parts: Vec<Run> = Vec::new();
    let mut open = false;
    for pair in run.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        if !wanted(a, b) {
            open = false;
        } else if open && let Some(part) = parts.last_mut() {
            part.push(b);
        } else {
            parts.push(vec![a, b]);
            open = true;
        }
    }
    parts
}

fn lies_on(lines: &Grid, p: Point, within_mm: f64) -> bool {
    lines.near(grown(box_of(p, p), within_mm)).any(|s| to_segment_mm(p, s.a, s.b) <= within_mm)
}
