//! Every number of a design, from the rooms before: counts, sizes, lengths, difficulty, weight, postage, paint.
//!
//! In: a [`Design`](crate::shop::Design) and the shop's [`Settings`](crate::shop::Settings). Out: [`Measured`]: the figures as data
//! and as JSON, the values they came from, and all findings in report order.
//! Never here: a drawing of any kind, a page, the disk.
//! Rule: handbook, figures; one figure, one function, its parts kept in the result.

use serde::Serialize;

use crate::drawing::Drawing;
use crate::findings::Finding;
use crate::paint::Plan;
use crate::pieces::Board;
use crate::shop::{Form, Status};

/// A design with all that was worked out from it.
#[derive(Clone, Debug)]
pub struct Measured {
    /// The drawing as read.
    pub drawing: Drawing,
    /// The arrangement of its cuts.
    pub board: Board,
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

/// Counts and areas of the pieces.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Pieces {
    /// All pieces.
    pub count: usize,
    /// On the outer ring of their board.
    pub edge: usize,
    /// The rest.
    pub interior: usize,
    /// Edge ÷ count.
    pub edge_ratio: f64,
    /// Closed strokes of the novelty layer.
    pub novelty_shapes: usize,
    /// Pieces inside them.
    pub novelty_pieces: usize,
    /// After the kerf.
    pub smallest_mm2: f64,
    /// After the kerf.
    pub median_mm2: f64,
    /// After the kerf.
    pub largest_mm2: f64,
    /// As drawn.
    pub board_mm2: f64,
    /// After the kerf, all pieces.
    pub net_mm2: f64,
    /// Pieces with at least one congruent twin.
    pub twins: usize,
    /// Pieces that fit the small-parts cylinder.
    pub small_parts: usize,
}

/// Joints and how many hold.
#[derive(Clone, Copy, Debug, Default, Serialize)]
pub struct Joints {
    /// Between two edge pieces.
    pub edge: usize,
    /// Of those, holding.
    pub edge_hold: usize,
    /// All.
    pub all: usize,
    /// Of those, holding.
    pub all_hold: usize,
}

/// The board's box after the kerf, mm.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Size {
    /// Across.
    pub width_mm: f64,
    /// Down.
    pub height_mm: f64,
    /// From the record.
    pub thickness_mm: f64,
}

/// Lengths of lines, mm.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Lines {
    /// Every distinct cut edge once.
    pub cut_mm: f64,
    /// Every distinct score edge once.
    pub score_mm: f64,
}

/// The shop's own scale, 0 to 100, with its parts.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Difficulty {
    /// Clamped to 0–100.
    pub score: f64,
    /// gentle, steady, testing or fiendish.
    pub word: Word,
    /// For the number of pieces.
    pub size: f64,
    /// Off for edge pieces.
    pub edges: f64,
    /// Off for novelty shapes.
    pub novelty: f64,
    /// On for twins.
    pub alike: f64,
}

/// Words of the difficulty scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Word {
    /// Under 40.
    Gentle,
    /// Under 60.
    Steady,
    /// Under 80.
    Testing,
    /// 80 and above.
    Fiendish,
}

/// Masses, g.
#[derive(Clone, Debug, Serialize)]
pub struct Weight {
    /// Of the wood at the record's moisture.
    pub density_kg_m3: f64,
    /// All pieces.
    pub board_g: f64,
    /// In the record's order.
    pub offers: Vec<OfferWeight>,
}

/// One offer, packed.
#[derive(Clone, Debug, Serialize)]
pub struct OfferWeight {
    /// Form of the offer.
    pub form: Form,
    /// Stock code.
    pub code: String,
    /// Board + finish + extras + pack, g.
    pub packed_g: f64,
    /// Packed size, longest side first, mm.
    #[serde(skip)]
    pub packed_mm: [f64; 3],
    /// Cheapest service of each zone, in the order zones first appear: zone and index into the shop's postage rows.
    #[serde(skip)]
    pub postage: Vec<(String, Option<usize>)>,
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
