//! What is noticed about a drawing or a record while it is measured: data with a place, never a log line.
//!
//! A [`Finding`] travels beside the value it was noticed on ([`Checked`]); it never replaces it.
//! Lists leave in one fixed order: kind, then y, then x, those without a place first.

use kurbo::Point;
use serde::{Serialize, Serializer};

/// Whether the maker should mend it before cutting, or only know of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// Something that spoils a cut, a sale or a figure; `measure` then exits with 1.
    Problem,
    /// Something worth knowing that may be meant so.
    Note,
}

macro_rules! kinds {
    ($($(#[$doc:meta])* $name:ident = $text:literal, $severity:ident, $why:literal;)*) => {
        /// What kind of thing was noticed. Declared in alphabetical order of the printed names, so that
        /// the derived order is the order of reports.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Kind { $($(#[$doc])* $name,)* }

        impl Kind {
            /// Every kind, in order.
            pub const ALL: &'static [Kind] = &[$(Kind::$name,)*];

            /// The name as printed, for instance `near-miss`.
            pub fn name(self) -> &'static str {
                match self { $(Kind::$name => $text,)* }
            }

            /// How grave findings of this kind are.
            pub fn severity(self) -> Severity {
                match self { $(Kind::$name => Severity::$severity,)* }
            }

            /// Why it matters at the bench, in one sentence. Common practice, no source, but for what the handbook cites.
            pub fn why(self) -> &'static str {
                match self { $(Kind::$name => $why,)* }
            }
        }
    };
}

kinds! {
    /// A paint cell too small or too narrow for the brush.
    CellTooSmall = "cell-too-small", Note,
        "A brush that is wider than the cell carries paint over its border, and a number has no room in the printed guide.";
    /// A clip, mask or marker on a line that is cut or scored; the line is taken whole.
    Clipped = "clipped", Note,
        "The laser follows the whole line, so it would also cut what the screen hides.";
    /// Lines that lie on each other and would be cut twice.
    DoubledLine = "doubled-line", Note,
        "The second pass widens the kerf and chars the edge, and the neighbours sit loose.";
    /// A face that the kerf removes whole.
    EatenAway = "eaten-away", Problem,
        "Nothing of it is left to lift off the bed, though it counts as a piece, so the box would be one short.";
    /// Two paints of touching cells that are hard to tell apart.
    LikePaints = "like-paints", Note,
        "The border between the two cells cannot be seen, neither in the palette nor in the finished picture.";
    /// Score lines that run closer than the brush without meeting.
    LinesTooClose = "lines-too-close", Note,
        "The scored barriers run into one groove, and the strip between them takes no paint.";
    /// A cut line that ends in the open.
    LooseEnd = "loose-end", Problem,
        "The slit parts nothing, but it weakens the piece and breaks the painted face open.";
    /// A piece that breaks at a waist.
    NarrowNeck = "narrow-neck", Problem,
        "The piece snaps there when it is lifted, or in the buyer's hand.";
    /// An end that stops just short of a line.
    NearMiss = "near-miss", Problem,
        "The two pieces stay joined by a bridge and tear when they are pulled apart.";
    /// No postage service takes an offer.
    NoPostage = "no-postage", Problem,
        "The page can show no postage for that zone, so a buyer there cannot be told what the parcel costs.";
    /// The drawing states no size.
    NoTrueSize = "no-true-size", Problem,
        "At the wrong size every kerf, waist and weight is wrong, and so is the board that is cut.";
    /// Raster images and foreign content in a layer that is cut or scored.
    NotALine = "not-a-line", Note,
        "The laser has nothing to follow there, so what it shows would be missing from the board.";
    /// A named layer matches nothing.
    NothingInLayer = "nothing-in-layer", Problem,
        "What the record says is there would be neither cut, scored nor painted.";
    /// A novelty or void stroke that does not close.
    OpenShape = "open-shape", Problem,
        "The figure stays attached to what lies around it, or the opening stays filled.";
    /// Drawn, but in no layer.
    OutsideAnyLayer = "outside-any-layer", Note,
        "It is neither measured nor cut; if it belongs to the puzzle, the count is wrong.";
    /// The board does not go into its pack.
    PackTooSmall = "pack-too-small", Problem,
        "The finished puzzle does not go into its box, or its corners are crushed on the way.";
    /// A joint between edge pieces that comes apart by a straight pull.
    SlidesApart = "slides-apart", Problem,
        "Edge pieces that slide let the whole border creep while the inside is being laid.";
    /// How many pieces fit the small-parts cylinder.
    SmallPart = "small-part", Note,
        "Small children can choke on such pieces, and some markets demand a warning or a test.";
    /// A board of its own beside the largest one.
    StrayPart = "stray-part", Note,
        "Parts of their own fall out of the sheet and belong to no puzzle.";
    /// Text in a layer that is cut or scored.
    TextNotOutlined = "text-not-outlined", Problem,
        "A font is not a line: the laser's program replaces it or leaves it out.";
    /// A piece over the largest wanted area.
    TooLarge = "too-large", Note,
        "One piece that is much larger than the rest gives its place away, and warps more.";
    /// A piece under the smallest wanted area.
    TooSmall = "too-small", Note,
        "It falls through the bed, chars, and is lost first.";
    /// A class of congruent pieces.
    Twins = "twins", Note,
        "Either piece goes into either place, so a picture can come together wrong.";
    /// Two different marks in one paint cell.
    TwoMarks = "two-marks", Problem,
        "Nobody can tell which of the two paints the cell is meant to have.";
    /// A paint cell without a mark.
    UnmarkedCell = "unmarked-cell", Problem,
        "The guide has no number to print there, and the painter no paint.";
    /// A fill that no paint of the record names.
    UnnamedPaint = "unnamed-paint", Problem,
        "The palette lacks a pot for it, so the guide cannot name it.";
}

impl Serialize for Kind {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.name())
    }
}

/// One thing noticed: what is wrong, where, and what to do.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Finding {
    /// What kind of thing.
    pub kind: Kind,
    /// How grave.
    pub severity: Severity,
    /// Where, in mm from the top left of the drawing's viewport, x right, y down; `None` for the design as a whole.
    #[serde(serialize_with = "as_pair")]
    pub at_mm: Option<Point>,
    /// What is wrong, with its number.
    pub message: String,
    /// What to do about it.
    pub mend: String,
}

impl Finding {
    /// A finding of `kind` with the severity that kind has.
    pub fn new(kind: Kind, at_mm: Option<Point>, message: impl Into<String>, mend: impl Into<String>) -> Self {
        Finding { kind, severity: kind.severity(), at_mm, message: message.into(), mend: mend.into() }
    }
}

fn as_pair<S: Serializer>(at: &Option<Point>, to: S) -> Result<S::Ok, S::Error> {
    at.map(|p| [p.x, p.y]).serialize(to)
}

/// Puts findings in the order of reports: kind, y, x; those without a place first.
pub fn sort(findings: &mut [Finding]) {
    let place = |f: &Finding| f.at_mm.map_or((f64::NEG_INFINITY, f64::NEG_INFINITY), |p| (p.y, p.x));
    findings.sort_by(|a, b| {
        let ((ay, ax), (by, bx)) = (place(a), place(b));
        a.kind.cmp(&b.kind).then(ay.total_cmp(&by)).then(ax.total_cmp(&bx)).then_with(|| a.message.cmp(&b.message))
    });
}

/// A value and all that was noticed while making it.
#[must_use]
#[derive(Clone, Debug)]
pub struct Checked<T> {
    /// What was made.
    pub value: T,
    /// What was noticed.
    pub findings: Vec<Finding>,
}

impl<T> Checked<T> {
    /// Hands the findings over to `all` and keeps the value.
    pub fn into_value(self, all: &mut Vec<Finding>) -> T {
        all.extend(self.findings);
        self.value
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_are_declared_in_the_order_of_their_names() {
        assert!(Kind::ALL.windows(2).all(|w| w[0].name() < w[1].name() && w[0] < w[1]));
    }

    #[test]
    fn places_come_by_kind_then_down_then_across() {
        let at = |kind, place: Option<(f64, f64)>| Finding::new(kind, place.map(Point::from), "", "");
        let mut found = [
            at(Kind::Twins, None),
            at(Kind::LooseEnd, Some((1.0, 9.0))),
            at(Kind::LooseEnd, Some((8.0, 2.0))),
            at(Kind::LooseEnd, Some((-3.0, 2.0))),
            at(Kind::LooseEnd, None),
            at(Kind::DoubledLine, Some((50.0, 50.0))),
        ];
        sort(&mut found);
        let order: Vec<_> = found.iter().map(|f| (f.kind, f.at_mm.map(|p| (p.x, p.y)))).collect();
        assert_eq!(
            order,
            [
                (Kind::DoubledLine, Some((50.0, 50.0))),
                (Kind::LooseEnd, None),
                (Kind::LooseEnd, Some((-3.0, 2.0))),
                (Kind::LooseEnd, Some((8.0, 2.0))),
                (Kind::LooseEnd, Some((1.0, 9.0))),
                (Kind::Twins, None),
            ]
        );
    }
}
