//! One design as its record tells it, checked and in millimetres, grams and exact money.

use std::collections::BTreeMap;

use super::photo::PhotoFile;
use super::wood::Wood;
use crate::drawing::Layers;
use crate::shape::Rgb;
use crate::units::Money;

/// Whether a design is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Status {
    /// Never published, listed or linked.
    Draft,
    /// In the catalogue.
    Published,
}

/// Whom a design is made for; decides which warning is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Audience {
    /// `made_for = "adults"`.
    Adults,
    /// `made_for = "children"`.
    Children,
}

/// The words of a design in one language; in further languages what lacks stays `None` or empty.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Words {
    /// `title`.
    pub title: Option<String>,
    /// `summary`.
    pub summary: Option<String>,
    /// `edition`.
    pub edition: Option<String>,
    /// `lead_time`, for all offers.
    pub lead_time: Option<String>,
    /// `contains`, for the blank offer.
    pub contains: Option<Vec<String>>,
    /// Paint names, mixes and washes by number.
    pub paints: BTreeMap<u32, PaintWords>,
    /// `story.<lang>.md`.
    pub story: Option<String>,
}

/// The words of one paint.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PaintWords {
    /// `name`.
    pub name: Option<String>,
    /// `mix`.
    pub mix: Option<String>,
    /// `wash`.
    pub wash: Option<String>,
}

/// A design whose record holds no mistake.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    /// The folder's name.
    pub slug: String,
    /// `title`.
    pub title: String,
    /// `summary`.
    pub summary: Option<String>,
    /// `status`.
    pub status: Status,
    /// `added`, as `YYYY-MM-DD`.
    pub added: Option<String>,
    /// `subjects`, as written.
    pub subjects: Vec<String>,
    /// `made_for`.
    pub made_for: Option<Audience>,
    /// `edition`.
    pub edition: Option<String>,
    /// `story.md`.
    pub story: Option<String>,
    /// `[in.<lang>]`.
    pub words: BTreeMap<String, Words>,
    /// `[board]`.
    pub board: Board,
    /// `[drawing]`.
    pub drawing: DrawingFile,
    /// `[[paint]]`, by number.
    pub paints: Vec<Paint>,
    /// `[[offer]]`, in the record's order.
    pub offers: Vec<Offer>,
    /// `[limits]` over the shop's over the defaults.
    pub limits: Limits,
    /// `photos/*`, in file-name order.
    pub photos: Vec<Photo>,
}

/// The board that is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Board {
    /// The wood's row.
    pub wood: Wood,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Width the beam removes, mm; 0.2 where the record is silent.
    pub kerf_mm: f64,
    /// The owner's own measurement, kg/m³; wins over the table.
    pub density_kg_m3: Option<f64>,
    /// Percent of the dry mass; 8 where the record is silent; solid wood only.
    pub moisture_percent: f64,
}

/// The drawing's text and how it is read.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawingFile {
    /// Path inside the shop folder, for messages.
    pub file: String,
    /// The SVG.
    pub svg: String,
    /// Ends this close to another line count as touching, mm; 0.1 where the record is silent.
    pub join_mm: f64,
    /// True width of the viewport, mm, where stated.
    pub width_mm: Option<f64>,
    /// `[drawing.layers]`; may be empty, which is an error of the drawing that lists what was found.
    pub layers: Layers,
    /// Where `[drawing.layers]` stands (or the record, without it), for that message.
    pub layers_at: super::Place,
}

/// One paint of the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Paint {
    /// From 1, each once.
    pub number: u32,
    /// `name`.
    pub name: String,
    /// The fill used in the drawing.
    pub colour: Rgb,
    /// How to mix it.
    pub mix: Option<String>,
    /// How to lay it.
    pub wash: Option<String>,
}

/// In which form a design is sold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Form {
    /// Painted by the maker.
    Painted,
    /// Oiled, no picture.
    Plain,
    /// Unpainted kit.
    Blank,
}

impl Form {
    /// The word of the record: `painted`, `plain` or `blank`.
    pub fn name(self) -> &'static str {
        match self {
            Form::Painted => "painted",
            Form::Plain => "plain",
            Form::Blank => "blank",
        }
    }
}

/// The stock code of an offer whose record names none.
pub fn usual_code(slug: &str, form: &str) -> String {
    format!("{slug}-{form}")
}

/// How a blank comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BlankBoard {
    /// Cut, lying assembled.
    Cut,
    /// One board, scored only.
    Scored,
}

/// One way to buy a design.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// Painted, plain or blank.
    pub form: Form,
    /// In the shop's currency.
    pub price: Money,
    /// How many lie ready; 0 is sold out, `None` made to order.
    pub stock: Option<u32>,
    /// As written.
    pub lead_time: Option<String>,
    /// Stock code; `<slug>-<form>` where the record is silent.
    pub code: String,
    /// Own way to order; else the shop's.
    pub order: Option<String>,
    /// Index into the shop's packs.
    pub pack: Option<usize>,
    /// Mass of what goes along, g.
    pub extras_g: f64,
    /// Mass of primer, paint, sealer or oil, g.
    pub finish_g: f64,
    /// Blank only: how the board comes; `Cut` where the record is silent.
    pub board: BlankBoard,
    /// Blank only.
    pub primed: bool,
    /// Blank only.
    pub contains: Vec<String>,
}

/// What is too small, too large or too weak. Defaults by handbook, findings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Narrowest waist, mm; 2.
    pub neck_mm: f64,
    /// Smallest piece, mm²; 50.
    pub smallest_mm2: f64,
    /// Largest piece, mm²; 4,000.
    pub largest_mm2: f64,
    /// Smallest paint cell, mm²; 12.
    pub cell_mm2: f64,
    /// Narrowest place a brush reaches, mm; 1.5.
    pub brush_mm: f64,
    /// Whether edge joints must hold; true.
    pub edge_holds: bool,
    /// Whose word each of them is.
    pub source: LimitSources,
}

/// Who set a limit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Source {
    /// Nobody: the program's own value.
    #[default]
    Default,
    /// shop.toml.
    Shop,
    /// The design's record.
    Record,
}

impl Source {
    /// As printed: `default`, `shop` or `record`.
    pub fn name(self) -> &'static str {
        match self {
            Source::Default => "default",
            Source::Shop => "shop",
            Source::Record => "record",
        }
    }
}

/// Who set each of the [`Limits`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct LimitSources {
    /// Of `neck_mm`.
    pub neck: Source,
    /// Of `smallest_mm2`.
    pub smallest: Source,
    /// Of `largest_mm2`.
    pub largest: Source,
    /// Of `cell_mm2`.
    pub cell: Source,
    /// Of `brush_mm`.
    pub brush: Source,
    /// Of `edge_holds`.
    pub edge_holds: Source,
}

impl Default for Limits {
    fn default() -> Self {
        Limits {
            neck_mm: 2.0,
            smallest_mm2: 50.0,
            largest_mm2: 4000.0,
            cell_mm2: 12.0,
            brush_mm: 1.5,
            edge_holds: true,
            source: LimitSources::default(),
        }
    }
}

/// One photograph.
#[derive(Clone, Debug, PartialEq)]
pub struct Photo {
    /// File name.
    pub file: String,
    /// Alternative text from `[photos]`.
    pub alt: Option<String>,
    /// The file as it was when the record was read.
    pub content: PhotoFile,
}
