//! Why a drawing cannot be measured, each reason with its place in the file.

use super::{Contents, Layer};

/// Line and column in the SVG file, both from 1, columns in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// From 1.
    pub line: usize,
    /// From 1.
    pub column: usize,
}

impl std::fmt::Display for Place {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "line {}, column {}", self.line, self.column)
    }
}

/// An attribute (or style property) that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The faulty spot itself; the start of the element where the value comes from a style rule.
    pub place: Place,
    /// The element, for instance `<path id="rope">`.
    pub element: String,
    /// Name of the attribute or property.
    pub attribute: String,
    /// Byte of its value at which reading stopped, from 0.
    pub byte: usize,
    /// What is wrong there.
    pub reason: String,
}

impl std::fmt::Display for Fault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Fault { place, element, attribute, byte, reason } = self;
        write!(f, "{place}: `{attribute}` of {element} cannot be read from byte {byte} on: {reason}")
    }
}

/// Why a drawing cannot be measured.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum DrawingError {
    /// Not well-formed XML, or cut off.
    #[error("{place}: the drawing is not well-formed XML: {message}")]
    NotXml {
        /// Where reading stopped.
        place: Place,
        /// What the XML reader says.
        message: String,
    },
    /// XML, but the outermost element is no `svg`.
    #[error("{place}: the outermost element is <{found}>, where <svg> was due")]
    NotSvg {
        /// Where that element starts.
        place: Place,
        /// Its name.
        found: String,
    },
    /// The record names no layers, so nothing in the drawing has a meaning.
    #[error("no layers are named. {0}")]
    NoLayers(Contents),
    /// Two layers claim one element at the same level.
    #[error("{place}: {element} belongs to two layers at once: {first} and {second}")]
    TwoLayers {
        /// Where the element starts.
        place: Place,
        /// The element.
        element: String,
        /// The layer named first in the record, with the selector that fits.
        first: Claim,
        /// The other one.
        second: Claim,
    },
    /// Path data that cannot be read.
    #[error("{0}")]
    BadPath(Box<Fault>),
    /// `points` of a polygon or polyline that cannot be read.
    #[error("{0}")]
    BadPoints(Box<Fault>),
    /// A transform that cannot be read, or that has no plain meaning in the plane.
    #[error("{0}")]
    BadTransform(Box<Fault>),
    /// A length or number that cannot be read.
    #[error("{0}")]
    BadNumber(Box<Fault>),
    /// The record states a width, but the drawing has neither a `viewBox` nor a width that it could scale.
    #[error(
        "{place}: the record states the drawing's width, but <svg> has neither `viewBox` nor `width` to measure it by"
    )]
    NoViewport {
        /// Where the `svg` element starts.
        place: Place,
    },
    /// Coordinates farther out than any board.
    #[error("{place}: {element} reaches farther than {limit_mm} mm from the corner of the drawing")]
    TooFar {
        /// Where the element starts.
        place: Place,
        /// The element.
        element: String,
        /// The farthest that is read, mm.
        limit_mm: f64,
    },
    /// A `use` element that, directly or by others, draws itself.
    #[error("{place}: <use> of #{href} draws itself again and again")]
    UseLoop {
        /// Where the `use` element starts.
        place: Place,
        /// What it points to.
        href: String,
    },
    /// More than a drawing may hold.
    #[error("the drawing has more than {limit} {what}")]
    TooMuch {
        /// Of what.
        what: &'static str,
        /// How many are read.
        limit: usize,
    },
}

impl DrawingError {
    /// Line and column in the SVG file, from 1, where the mistake has a place.
    pub fn line_column(&self) -> Option<(usize, usize)> {
        use DrawingError::*;
        let place = match self {
            NotXml { place, .. } | NotSvg { place, .. } | TwoLayers { place, .. } => place,
            TooFar { place, .. } | UseLoop { place, .. } | NoViewport { place } => place,
            BadPath(fault) | BadPoints(fault) | BadTransform(fault) | BadNumber(fault) => &fault.place,
            NoLayers(_) | TooMuch { .. } => return None,
        };
        Some((place.line, place.column))
    }
}

/// A layer and the selector by which it claims an element.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Claim {
    /// The layer.
    pub layer: Layer,
    /// Its selector, as written in a record.
    pub selector: String,
}

impl std::fmt::Display for Claim {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "`{}` (by {})", self.layer.name(), self.selector)
    }
}

/// What a parser of one value says: where in the value, and what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Bad {
    pub byte: usize,
    pub reason: String,
}

impl Bad {
    pub(super) fn new(byte: usize, reason: impl Into<String>) -> Bad {
        Bad { byte, reason: reason.into() }
    }

    /// From a fault of the `svgtypes` readers, whose places are characters from 1.
    pub(super) fn from_svgtypes(text: &str, error: &svgtypes::Error) -> Bad {
        use svgtypes::Error::*;
        let at = |character: usize| {
            text.char_indices().nth(character.saturating_sub(1)).map_or(text.len(), |(byte, _)| byte)
        };
        match error {
            UnexpectedEndOfStream => Bad::new(text.len(), "it ends too soon"),
            UnexpectedData(character) => Bad::unexpected(text, at(*character)),
            InvalidNumber(character) => Bad::no_number(text, at(*character)),
            InvalidChar(_, character) | InvalidString(_, character) => Bad::unexpected(text, at(*character)),
            InvalidValue | InvalidIdent => Bad::new(0, "it has no meaning here"),
        }
    }

    fn unexpected(text: &str, byte: usize) -> Bad {
        Bad::new(byte, format!("`{}` is not expected", word_at(text, byte)))
    }
}

/// The word at a byte of a value, shortened, for messages.
pub(super) fn word_at(text: &str, byte: usize) -> &str {
    let rest = text.get(byte..).unwrap_or("");
    let end = rest
        .char_indices()
        .enumerate()
        .find(|(count, (place, c))| *count >= 20 || (*place > 0 && (c.is_whitespace() || matches!(c, ',' | ';' | ')'))))
        .map_or(rest.len(), |(_, (place, _))| place);
    rest[..end].trim()
}
