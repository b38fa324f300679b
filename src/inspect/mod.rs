//! A design looked over before it is cut: numbered findings, equal pieces, waists, joints that slide, and the limits used.
//!
//! In: a [`Design`] and its [`Measured`]. Out: an [`Inspection`], plain data; as text for people ([`text`]), as a page
//! with a marked picture ([`page`]), and as JSON by its `Serialize`.
//! Never here: the disk, a figure of its own, anything for buyers: cut lines and limits are the maker's alone.
//! Rule: handbook, findings; commands, `inspect`.

mod list;
mod page;

pub use list::text;
pub use page::page;

use serde::Serialize;

use crate::figures::{Measured, direction};
use crate::findings::{Finding, Kind, Severity};
use crate::pictures::marked::Mark;
use crate::shape::Point;
use crate::shop::{Design, Limits, Source, Status};

/// All that `inspect` tells of one design. Pieces are numbered from 1, top to bottom, left to right.
#[derive(Clone, Debug, Serialize)]
pub struct Inspection<'a> {
    /// The design's folder.
    pub slug: &'a str,
    /// Draft or published.
    pub status: Status,
    /// In report order, numbered from 1.
    pub findings: Vec<Numbered<'a>>,
    /// Classes of congruent pieces.
    pub twins: Vec<Vec<usize>>,
    /// The narrowest waist of each piece that has one under the limit.
    pub waists: Vec<Waist>,
    /// Joints of two edge pieces that do not hold, whether they are a finding or not.
    pub sliding: Vec<Sliding>,
    /// Limits that the findings were held against.
    pub limits: Vec<LimitUsed>,
}

/// A finding with its number.
#[derive(Clone, Debug, Serialize)]
pub struct Numbered<'a> {
    /// From 1.
    pub number: usize,
    /// What was noticed.
    #[serde(flatten)]
    pub finding: &'a Finding,
    /// Why it matters at the bench.
    pub why: &'static str,
}

/// A waist under the limit.
#[derive(Clone, Debug, Serialize)]
pub struct Waist {
    /// Number of the piece.
    pub piece: usize,
    /// Its middle, mm.
    #[serde(serialize_with = "as_pair")]
    pub at_mm: Point,
    /// After the kerf, mm.
    pub width_mm: f64,
    /// What would break off, roughly, mm².
    pub lost_mm2: f64,
    /// Whether it is the neck of a knob.
    pub knob: bool,
}

/// A joint of two edge pieces that does not hold.
#[derive(Clone, Debug, Serialize)]
pub struct Sliding {
    /// Numbers of the two pieces.
    pub pieces: [usize; 2],
    /// On the line between them, mm.
    #[serde(serialize_with = "as_pair")]
    pub at_mm: Point,
    /// Which way the second piece comes away; `None` where the kerf removes or breaks up one of them.
    pub way: Option<String>,
    /// The same, in degrees clockwise from the right.
    pub degrees: Option<f64>,
}

/// One limit.
#[derive(Clone, Debug, Serialize)]
pub struct LimitUsed {
    /// Key under `[limits]`.
    pub key: &'static str,
    /// Value with its unit.
    pub value: String,
    /// Who set it.
    pub from: Source,
    /// What holds where nobody sets it.
    pub default: String,
    /// Why that is so.
    pub reason: &'static str,
}

fn as_pair<S: serde::Serializer>(at: &Point, to: S) -> Result<S::Ok, S::Error> {
    [at.x, at.y].serialize(to)
}

/// Puts together what was noticed about a design.
pub fn inspect<'a>(design: &'a Design, measured: &'a Measured) -> Inspection<'a> {
    let numbered = |(i, finding): (usize, &'a Finding)| Numbered { number: i + 1, finding, why: finding.kind.why() };
    let sliding = measured.joints.iter().filter(|j| j.edge && !j.holds).map(|j| Sliding {
        pieces: [j.a + 1, j.b + 1],
        at_mm: j.at_mm,
        way: j.escape_deg.map(direction),
        degrees: j.escape_deg,
    });
    let waists = measured.necks.iter().map(|n| Waist {
        piece: n.piece + 1,
        at_mm: n.at_mm,
        width_mm: n.width_mm,
        lost_mm2: n.lost_mm2,
        knob: n.knob,
    });
    Inspection {
        slug: &design.slug,
        status: design.status,
        findings: measured.findings.iter().enumerate().map(numbered).collect(),
        twins: measured.twins.iter().map(|class| class.iter().map(|p| p + 1).collect()).collect(),
        waists: waists.collect(),
        sliding: sliding.collect(),
        limits: limits(&design.limits),
    }
}

impl Inspection<'_> {
    /// How many findings are problems.
    pub fn problems(&self) -> usize {
        self.findings.iter().filter(|f| f.finding.severity == Severity::Problem).count()
    }

    /// The findings that have a place, for a picture.
    pub fn marks(&self) -> Vec<Mark> {
        self.findings
            .iter()
            .filter_map(|f| {
                Some(Mark {
                    number: f.number,
                    at_mm: f.finding.at_mm?,
                    problem: f.finding.severity == Severity::Problem,
                    span_mm: span_mm(f.finding.kind),
                })
            })
            .collect()
    }
}

/// How much of the drawing shows what a finding is about, mm across. Own choice.
fn span_mm(kind: Kind) -> f64 {
    match kind {
        Kind::NearMiss | Kind::EatenAway => 6.0,
        Kind::LooseEnd | Kind::NarrowNeck | Kind::OpenShape | Kind::LinesTooClose => 12.0,
        Kind::CellTooSmall | Kind::DoubledLine | Kind::LikePaints | Kind::TooSmall => 20.0,
        Kind::TooLarge | Kind::StrayPart | Kind::Twins => 80.0,
        _ => 35.0,
    }
}

/// Limits with the reasons of the program's own values. Common practice, no source.
fn limits(l: &Limits) -> Vec<LimitUsed> {
    let (s, usual) = (&l.source, Limits::default());
    let row = |key, from, value: &dyn Fn(&Limits) -> String, reason| LimitUsed {
        key,
        value: value(l),
        from,
        default: value(&usual),
        reason,
    };
    vec![
        row(
            "neck",
            s.neck,
            &|l| format!("{} mm", l.neck_mm),
            "thinner waists of plywood of 3 to 6 mm snap when a piece is lifted by its knob",
        ),
        row(
            "smallest",
            s.smallest,
            &|l| format!("{} mm²", l.smallest_mm2),
            "about 7 × 7 mm: less falls through the bed, chars and gets lost",
        ),
        row(
            "largest",
            s.largest,
            &|l| format!("{} mm²", l.largest_mm2),
            "about 63 × 63 mm: more stands out among pieces of a usual size",
        ),
        row("cell", s.cell, &|l| format!("{} mm²", l.cell_mm2), "about 3.5 × 3.5 mm: less has no room for its number"),
        row("brush", s.brush, &|l| format!("{} mm", l.brush_mm), "about the stroke of a fine round brush"),
        row(
            "edge_holds",
            s.edge_holds,
            &|l| l.edge_holds.to_string(),
            "a border that holds together is laid first and keeps the rest in place",
        ),
    ]
}
