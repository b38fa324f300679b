//! Every number of a design, from the rooms before: counts, sizes, lengths, difficulty, weight, postage, paint.
//!
//! In: a [`Design`] and the shop's [`Settings`]. Out: [`Measured`]: the figures as data and as JSON, the values they
//! came from, and all findings in report order. Or [`CannotMeasure`], with the place in the owner's file.
//! Never here: a drawing of any kind, a page, the disk.
//! Rule: handbook, figures; one figure, one function, its parts kept in the result.

mod counts;
mod difficulty;
mod mark;
mod weight;

pub use crate::pieces::bounds::TooMuch;
pub use counts::{Joints, Pieces, Size, direction};
pub use difficulty::{Difficulty, Word};
pub use weight::{OfferWeight, Weight};

use serde::Serialize;

use crate::drawing::{self, Drawing, DrawingError, Layer, Line, Reading};
use crate::findings::{self, Checked, Finding};
use crate::paint::{self, Plan};
use crate::pieces::{self, Board, Near, Net, necks, small_parts, twins};
use crate::shape::{Face, Rgb, length_mm};
use crate::shop::{Design, Mistake, Place, Settings, Status};

/// A design with all that was worked out from it.
#[derive(Clone, Debug)]
pub struct Measured {
    /// The drawing as read.
    pub drawing: Drawing,
    /// The arrangement of its cuts.
    pub board: Board,
    /// Classes of congruent pieces.
    pub twins: Vec<Vec<usize>>,
    /// Pairs of neighbours and whether they hold.
    pub joints: Vec<pieces::joints::Joint>,
    /// Pieces with a waist under the limit, and where.
    pub necks: Vec<necks::Neck>,
    /// Paint cells, where the drawing has a plan.
    pub plan: Option<Plan>,
    /// Every number.
    pub figures: Figures,
    /// In report order.
    pub findings: Vec<Finding>,
}

/// Every number of one design, in the shape of `measure --json`.
#[derive(Clone, Debug, Serialize)]
pub struct Figures {
    /// The design's folder.
    pub slug: String,
    /// Draft or published.
    pub status: Status,
    /// Six letters that name what is cut.
    pub mark: String,
    /// Counts and areas.
    pub pieces: Pieces,
    /// Joints that hold against a straight pull.
    pub joints: Joints,
    /// The board after the kerf.
    pub size: Size,
    /// Lengths of the lines.
    pub lines: Lines,
    /// The shop's own scale.
    pub difficulty: Difficulty,
    /// Masses.
    pub weight: Weight,
    /// The paint plan in numbers.
    pub paint: Option<PaintFigures>,
}

/// Lengths of lines, mm.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Lines {
    /// Every distinct cut edge once.
    pub cut_mm: f64,
    /// Every distinct score edge once.
    pub score_mm: f64,
}

/// The paint plan in numbers.
#[derive(Clone, Debug, Serialize)]
pub struct PaintFigures {
    /// All cells that have a paint.
    pub cells: usize,
    /// By number; paints without cells included.
    pub colours: Vec<PaintColour>,
}

/// One paint's share.
#[derive(Clone, Debug, Serialize)]
pub struct PaintColour {
    /// Its number.
    pub number: u32,
    /// Its name.
    pub name: String,
    /// How many cells.
    pub cells: usize,
    /// Their area, mm².
    pub area_mm2: f64,
}

/// Why a design has no figures.
#[derive(Debug, thiserror::Error)]
pub enum CannotMeasure {
    /// The drawing cannot be read.
    #[error("{0}")]
    Drawing(#[from] DrawingError),
    /// The cut layers hold no line.
    #[error("nothing-in-layer: the layer `cut` matches nothing in the drawing, so there is nothing to measure")]
    NoCut,
    /// More lines than any board holds.
    #[error("the drawing cannot be arranged: {0}")]
    TooMuch(#[from] TooMuch),
    /// The cut lines bound no piece.
    #[error("the cut lines close nowhere: they bound no piece")]
    NothingClosed,
}

impl CannotMeasure {
    /// As a mistake with its place: in the drawing where the drawing is at fault, else in the record.
    pub fn mistake(&self, design: &Design) -> Mistake {
        let file = &design.drawing;
        let in_drawing = |at: Option<(usize, usize)>| match at {
            None => Place::whole(file.file.clone()),
            Some((line, column)) => Place {
                file: file.file.clone(),
                line: Some(line),
                column,
                width: 1,
                text: file.svg.lines().nth(line.saturating_sub(1)).unwrap_or_default().to_string(),
            },
        };
        let (at, help) = match self {
            CannotMeasure::Drawing(DrawingError::NoLayers { .. }) => (
                file.layers_at.clone(),
                "Name at least the cut lines: under `[drawing.layers]` write `cut = \"…\"` with an id or a label, or `cut = { stroke = \"#…\" }`.",
            ),
            CannotMeasure::Drawing(e) => (
                in_drawing(e.line_column()),
                "Mend it in the drawing and save it again; a drawing is read whole or not at all.",
            ),
            CannotMeasure::NoCut => {
                (file.layers_at.clone(), "Write the id, label or stroke colour that the cut lines have in the drawing.")
            }
            CannotMeasure::TooMuch(_) => (
                in_drawing(None),
                "Take away what is hidden, doubled or hatched; if it is meant so, draw the board in several designs.",
            ),
            CannotMeasure::NothingClosed => (
                in_drawing(None),
                "Close the board's outline, or raise `join` under `[drawing]` if its ends stop short of each other.",
            ),
        };
        Mistake::new(at, self.to_string(), Some(help.to_string()))
    }
}

/// Measures one design.
///
/// # Errors
/// The drawing cannot be read, or its cut lines bound no piece.
pub fn measure(design: &Design, shop: &Settings) -> Result<Measured, CannotMeasure> {
    measured(design, shop, false)
}

/// Measures one buyer's version: the personal layers are cut and scored with the rest, and every figure is made anew.
/// For the bench alone; nothing of it is ever published. Handbook, "Privacy".
///
/// # Errors
/// The drawing cannot be read, or its cut lines bound no piece.
pub fn measure_personal(design: &Design, shop: &Settings) -> Result<Measured, CannotMeasure> {
    measured(design, shop, true)
}

fn measured(design: &Design, shop: &Settings, with_personal: bool) -> Result<Measured, CannotMeasure> {
    let file = &design.drawing;
    let reading = Reading { layers: &file.layers, width_mm: file.width_mm, join_mm: file.join_mm, with_personal };
    let mut findings = Vec::new();
    let drawing = drawing::read(&file.svg, &reading)?.into_value(&mut findings);
    let near = Near { join_mm: file.join_mm };
    let is_cut = |l: &Line| matches!(l.layer, Layer::Cut | Layer::Novelty | Layer::Void);
    if !drawing.lines.iter().any(is_cut) {
        return Err(CannotMeasure::NoCut);
    }
    let lines_of = |cut: bool| drawing.lines.iter().filter(move |l| is_cut(l) == cut);
    for cut in [true, false] {
        let lines: Vec<_> = lines_of(cut).map(|l| (l.points.as_slice(), l.closed)).collect();
        pieces::bounds::check(&lines)?;
    }
    let board = pieces::board(&drawing.lines, near, design.board.kerf_mm).into_value(&mut findings);
    if board.pieces.is_empty() {
        return Err(CannotMeasure::NothingClosed);
    }
    let score: Vec<&Line> = drawing.lines.iter().filter(|l| l.layer == Layer::Score).collect();
    let score_net = net_of(&score, near);
    let ((classes, small, joints), painted) =
        rayon::join(|| shapes(&board, design.board.thickness_mm), || plan(&drawing, &board, design, &score, near));
    let plan = painted.map(|painted| painted.into_value(&mut findings));
    if plan.is_some() {
        findings.extend(paint::close_lines(&score_net, design.limits.brush_mm));
    }

    let counted = counts::pieces(&board, classes.iter().map(Vec::len).sum(), small);
    let size = counts::size(&board, design.board.thickness_mm);
    let weight = weight::weight(design, shop, counted.net_mm2, &size);
    findings.extend(counts::findings(&board, &counted, &joints, &design.limits));
    let (necks, mark) = rayon::join(
        || necks::necks(&board.pieces, design.limits.neck_mm),
        || mark::mark(&board.net, &score_net, design.board.thickness_mm, board.kerf_mm),
    );
    findings.extend(necks::findings(&necks, design.limits.neck_mm, board.kerf_mm));
    findings.extend(twins::findings(&board.pieces, &classes));
    findings.extend(weight::findings(design, shop, &weight, &size));
    findings::sort(&mut findings);

    let figures = Figures {
        slug: design.slug.clone(),
        status: design.status,
        mark,
        joints: counts::joints(&joints),
        size,
        lines: Lines { cut_mm: board.cut_mm, score_mm: net_length_mm(&score_net) },
        difficulty: difficulty::difficulty(&counted, &shop.difficulty),
        pieces: counted,
        weight,
        paint: plan.as_ref().map(|plan| paint_figures(plan, design)),
    };
    Ok(Measured { drawing, board, twins: classes, joints, necks, plan, figures, findings })
}

/// The three looks at the shapes of the pieces, side by side.
fn shapes(board: &Board, thickness_mm: f64) -> (Vec<Vec<usize>>, usize, Vec<pieces::joints::Joint>) {
    let (classes, (small, joints)) = rayon::join(
        || twins::classes(&board.pieces),
        || rayon::join(|| small_parts::count(&board.pieces, thickness_mm), || pieces::joints::joints(board)),
    );
    (classes, small, joints)
}

fn net_of(lines: &[&Line], near: Near) -> Net {
    let lines: Vec<_> = lines.iter().map(|l| (l.points.as_slice(), l.closed)).collect();
    // Loose ends and doubled stretches of score lines cost nothing at the bench.
    pieces::arrange(&lines, near).value
}

fn net_length_mm(net: &Net) -> f64 {
    // From a plain nought: an empty sum of floats is a negative one.
    net.chains.iter().flat_map(|c| net.points(c).windows(2)).fold(0.0, |sum, w| sum + length_mm(w[0], w[1]))
}

fn plan(drawing: &Drawing, board: &Board, design: &Design, score: &[&Line], near: Near) -> Option<Checked<Plan>> {
    let layers = &design.drawing.layers;
    let colours: Vec<Rgb> = design.paints.iter().map(|p| p.colour).collect();
    let mut plan = if layers.has(Layer::Colour) {
        let faces: Vec<&Face> = board.pieces.iter().map(|p| &p.face).collect();
        paint::by_colour(&drawing.fills, &faces, &colours)
    } else if layers.has(Layer::Marks) {
        let boards: Vec<&Face> = board.parts.iter().map(|p| &p.outline).collect();
        paint::by_marks(score, &boards, &drawing.marks, &colours, near)
    } else {
        return None;
    };
    plan.findings.extend(paint::findings(&plan.value, &design.paints, &design.limits));
    // The beam that cuts scores as well: a score line is about as wide as the kerf.
    paint::keep_clear(&mut plan.value, score, design.board.kerf_mm);
    Some(plan)
}

fn paint_figures(plan: &Plan, design: &Design) -> PaintFigures {
    let of = |i: usize| plan.cells.iter().filter(move |c| c.paint == Some(i));
    let colours: Vec<PaintColour> = design
        .paints
        .iter()
        .enumerate()
        .map(|(i, p)| PaintColour {
            number: p.number,
            name: p.name.clone(),
            cells: of(i).count(),
            area_mm2: of(i).fold(0.0, |sum, c| sum + c.area_mm2),
        })
        .collect();
    PaintFigures { cells: colours.iter().map(|c| c.cells).sum(), colours }
}
