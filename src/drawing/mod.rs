//! From SVG text and a record's layers to lines, fills and marks in millimetres.
//!
//! In: the SVG as text (never a path: a drawing cannot make the program read anything), and [`Layers`].
//! Out: [`Checked`]`<`[`Drawing`]`>`, curves flattened to within [`CHORD_MM`].
//! Never here: what a piece is, what a colour means, any other file.
//! Rule: handbook, "The drawing".

use crate::findings::Checked;
use crate::shape::{Point, Rgb, Ring};

/// Farthest that a chord may lie from its curve, mm. Handbook, figures: 0.005.
pub const CHORD_MM: f64 = 0.005;

/// One layer of a drawing that has a meaning.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Layer {
    /// Lines the laser cuts through.
    Cut,
    /// Closed strokes that are novelty shapes; also cut.
    Novelty,
    /// Closed strokes that stay empty; also cut.
    Void,
    /// Lines the laser only scores.
    Score,
    /// Filled shapes of the picture, later ones over earlier ones.
    Colour,
    /// Small filled dots that give their fill to a cell.
    Marks,
    /// Cut lines of one buyer's version.
    Personal,
    /// Score lines of one buyer's version.
    PersonalScore,
}

/// Picks elements of a drawing: text alone is an `id` or a label; a table asks for all that it names.
#[derive(Clone, Debug, PartialEq)]
pub enum Selector {
    /// An `id`, or a `label` attribute in any namespace.
    Name(String),
    /// All of the given must hold.
    All {
        /// The `id` attribute.
        id: Option<String>,
        /// The `label` attribute, in any namespace.
        label: Option<String>,
        /// One of the words of `class`.
        class: Option<String>,
        /// Computed stroke of a drawn element.
        stroke: Option<Rgb>,
        /// Computed fill of a drawn element.
        fill: Option<Rgb>,
    },
}

/// Which selectors make which layer, in the order of the record.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Layers(pub Vec<(Layer, Vec<Selector>)>);

impl Layers {
    /// Whether the record names this layer.
    pub fn has(&self, layer: Layer) -> bool {
        self.0.iter().any(|(l, _)| *l == layer)
    }
}

/// One subpath of a line layer, flattened, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Cut, Novelty, Void, Score (or Personal, PersonalScore when they are taken in).
    pub layer: Layer,
    /// At least two points; a closed line does not repeat its first point.
    pub points: Vec<Point>,
    /// Closed by the drawing itself (`Z`, or a shape that closes).
    pub closed: bool,
}

/// A filled shape of the colour layer, in painting order.
#[derive(Clone, Debug, PartialEq)]
pub struct Fill {
    /// All subpaths as rings, of any direction.
    pub rings: Vec<Ring>,
    /// `evenodd`; otherwise `nonzero`.
    pub even_odd: bool,
    /// Computed fill.
    pub colour: Rgb,
}

/// A filled dot of the marks layer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// Centre of its box, mm.
    pub at_mm: Point,
    /// Computed fill.
    pub colour: Rgb,
}

/// What a drawing holds, in its own order.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Width of the viewport, mm.
    pub width_mm: f64,
    /// Height of the viewport, mm.
    pub height_mm: f64,
    /// Cut, novelty, void and score lines.
    pub lines: Vec<Line>,
    /// The colour layer.
    pub fills: Vec<Fill>,
    /// The marks layer.
    pub marks: Vec<Mark>,
}

/// How to read a drawing.
#[derive(Clone, Debug)]
pub struct Reading<'a> {
    /// The record's layers.
    pub layers: &'a Layers,
    /// True width of the viewport, mm, where the record states one; scales both sides.
    pub width_mm: Option<f64>,
    /// Whether the layers of one buyer's version are taken in as cut and score lines.
    pub with_personal: bool,
}

/// What is drawn at all, for a record that names no layers.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Contents {
    /// Ids and labels of groups, in document order.
    pub groups: Vec<String>,
    /// Stroke colours in use.
    pub strokes: Vec<Rgb>,
}

pub use read::{DrawingError, read};
mod read;
