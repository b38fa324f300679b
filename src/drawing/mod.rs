//! From SVG text and a record's layers to lines, fills and marks in millimetres.
//!
//! In: the SVG as text (never a path: a drawing cannot make the program read anything), and [`Layers`].
//! Out: [`Checked`](crate::findings::Checked)`<`[`Drawing`]`>`, curves flattened to within [`CHORD_MM`].
//! Steps: `tree` reads the XML, `size` the true size, `walk` goes through what is drawn and finds each element's style
//! (`style`, `colours`) and layer (`select`); `shapes` and `path` draw outlines with the pen of `flatten`; `gather`
//! keeps what each layer takes.
//! Never here: what a piece is, what a colour means, any other file.
//! Rule: handbook, "The drawing".

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

impl Layer {
    /// Its key in `[drawing.layers]`.
    pub fn name(self) -> &'static str {
        match self {
            Layer::Cut => "cut",
            Layer::Novelty => "novelty",
            Layer::Void => "void",
            Layer::Score => "score",
            Layer::Colour => "colour",
            Layer::Marks => "marks",
            Layer::Personal => "personal",
            Layer::PersonalScore => "personal_score",
        }
    }

    /// Whether it is for one buyer's version.
    pub fn is_personal(self) -> bool {
        matches!(self, Layer::Personal | Layer::PersonalScore)
    }

    /// Whether its outlines are cut or scored.
    pub fn is_lines(self) -> bool {
        !matches!(self, Layer::Colour | Layer::Marks)
    }
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

impl std::fmt::Display for Selector {
    /// For a sentence.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Selector::Name(name) => write!(f, "`{name}`"),
            Selector::All { id, label, class, stroke, fill } => {
                let words = [("id", id), ("label", label), ("class", class)];
                let words = words.into_iter().filter_map(|(key, v)| v.as_ref().map(|v| format!("{key} = \"{v}\"")));
                let colours = [("stroke", stroke), ("fill", fill)];
                let colours = colours.into_iter().filter_map(|(key, v)| v.as_ref().map(|v| format!("{key} = \"{v}\"")));
                write!(f, "`{{ {} }}`", words.chain(colours).collect::<Vec<_>>().join(", "))
            }
        }
    }
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
    /// Cut, Novelty, Void or Score; lines of one buyer's version, when taken in, are Cut and Score like all others.
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
    /// Ends this close touch, mm; from `drawing.join`. Chords stay within it too, so that a line that ends on a curve is not cut off.
    pub join_mm: f64,
    /// Whether the layers of one buyer's version are taken in as cut and score lines.
    pub with_personal: bool,
}

impl Reading<'_> {
    /// Farthest that a chord may lie from its curve, mm: below [`CHORD_MM`] with room for rounding, and under half of `join`.
    pub(crate) fn flat_mm(&self) -> f64 {
        let most = 0.8 * CHORD_MM;
        if self.join_mm > 0.0 { (0.4 * self.join_mm).clamp(1e-5, most) } else { most }
    }
}

/// What is drawn at all, for a record that names no layers.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Contents {
    /// Labels and ids of groups that draw, in document order, each once.
    pub groups: Vec<String>,
    /// Stroke colours in use, in document order, each once.
    pub strokes: Vec<Rgb>,
}

impl std::fmt::Display for Contents {
    /// A sentence that lists them, the first twenty of each.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let list = |what: &str, items: Vec<String>| match items.len() {
            0 => format!("no {what}"),
            n if n > 20 => format!("{what} {} and {} more", items[..20].join(", "), n - 20),
            _ => format!("{what} {}", items.join(", ")),
        };
        let groups = list("groups", self.groups.iter().map(|g| format!("`{g}`")).collect());
        let strokes = list("stroke colours", self.strokes.iter().map(Rgb::to_string).collect());
        write!(f, "The drawing has {groups}; {strokes}.")
    }
}

mod arc;
mod bends;
mod colours;
mod error;
mod flatten;
mod gather;
mod length;
mod numbers;
mod path;
mod read;
mod select;
mod shapes;
mod size;
mod style;
pub mod survey;
mod transform;
mod tree;
mod walk;

#[cfg(test)]
mod tests;

pub use error::{Claim, DrawingError, Fault, Place};
pub use length::MM_PER_PX;
pub use read::{contents, read};
