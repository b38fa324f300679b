//! An inspection as text for a terminal or a printer.

use std::collections::BTreeSet;
use std::fmt::Write;

use super::{Inspection, Numbered, Sliding, Waist};
use crate::findings::Severity;
use crate::shape::Point;
use crate::shop::Source;

/// Columns of the text.
const COLUMNS: usize = 100;

/// The whole inspection of one design, its last line ended.
pub fn text(inspection: &Inspection) -> String {
    let mut out = String::new();
    let _ = writeln!(out, "{}", heading(inspection));
    let digits = inspection.findings.len().to_string().len();
    // What was said of an earlier finding is not said again.
    let (mut told, mut mends) = (BTreeSet::new(), BTreeSet::new());
    for f in &inspection.findings {
        let _ = writeln!(out, "\n{:>digits$}  {}", f.number, title(f));
        let mut line = |words: &str| wrapped(&mut out, digits + 2, words);
        line(&f.finding.message);
        if told.insert(f.finding.kind) {
            line(&format!("Why: {}", f.why));
        }
        if mends.insert(&f.finding.mend) {
            line(&format!("Do: {}", f.finding.mend));
        }
    }
    let mut section = |name: &str, lines: Vec<String>| {
        if !lines.is_empty() {
            let _ = writeln!(out, "\n{name}");
            lines.iter().for_each(|l| wrapped(&mut out, 2, l));
        }
    };
    section("Equal pieces", inspection.twins.iter().map(|class| listed(class)).collect());
    section("Narrowest waists under the limit", inspection.waists.iter().map(waist).collect());
    section("Edge joints that slide", inspection.sliding.iter().map(sliding).collect());
    let limit = |l: &super::LimitUsed| format!("{:<10}  {:<9}  {:<7}  {}", l.key, l.value, l.from.name(), reason(l));
    let _ = writeln!(out, "\nLimits, and who set them");
    inspection.limits.iter().for_each(|l| out.push_str(&format!("  {}\n", limit(l))));
    out
}

/// `heron: 3 findings, 1 of them a problem`.
pub(super) fn heading(inspection: &Inspection) -> String {
    let problems = match inspection.problems() {
        0 => "none of them a problem".to_owned(),
        1 => "1 of them a problem".to_owned(),
        n => format!("{n} of them problems"),
    };
    match inspection.findings.len() {
        0 => format!("{}: nothing to report", inspection.slug),
        1 if inspection.problems() == 1 => format!("{}: 1 finding, a problem", inspection.slug),
        1 => format!("{}: 1 finding, no problem", inspection.slug),
        n => format!("{}: {n} findings, {problems}", inspection.slug),
    }
}

/// `near-miss (problem) at 12.5, 80.1 mm`.
fn title(f: &Numbered) -> String {
    let place = f.finding.at_mm.map_or(String::new(), |at| format!(" at {}", place(at)));
    format!("{} ({}){place}", f.finding.kind.name(), severity(f.finding.severity))
}

pub(super) fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Problem => "problem",
        Severity::Note => "note",
    }
}

/// x and y in the drawing, mm.
pub(super) fn place(at: Point) -> String {
    // Adding zero makes a negative zero a plain one.
    let tenths = |v: f64| (v * 10.0).round() / 10.0 + 0.0;
    format!("{:.1}, {:.1} mm", tenths(at.x), tenths(at.y))
}

/// `3, 17 and 40`.
pub(super) fn listed(pieces: &[usize]) -> String {
    let words: Vec<String> = pieces.iter().map(usize::to_string).collect();
    match words.split_last() {
        Some((last, others)) if !others.is_empty() => format!("{} and {last}", others.join(", ")),
        _ => words.concat(),
    }
}

pub(super) fn waist(w: &Waist) -> String {
    let what = if w.knob { "the neck of a knob" } else { "a waist" };
    format!(
        "piece {}: {what}, {:.2} mm wide, at {}; {:.0} mm² beyond it",
        w.piece,
        w.width_mm,
        place(w.at_mm),
        w.lost_mm2
    )
}

pub(super) fn sliding(s: &Sliding) -> String {
    let [a, b] = s.pieces;
    match &s.way {
        Some(way) => format!("pieces {a} and {b} at {}: piece {b} comes away {way}", place(s.at_mm)),
        None => format!("pieces {a} and {b} at {}: the kerf removes or breaks up one of them", place(s.at_mm)),
    }
}

/// Why the value is so, or would be so without the owner's own.
pub(super) fn reason(l: &super::LimitUsed) -> String {
    match l.from {
        Source::Default => l.reason.to_owned(),
        _ => format!("instead of {}: {}", l.default, l.reason),
    }
}

/// Adds words in lines of at most [`COLUMNS`], all of them indented.
fn wrapped(out: &mut String, indent: usize, words: &str) {
    let mut column = 0;
    for word in words.split_whitespace() {
        let width = word.chars().count();
        if column > 0 && column + 1 + width > COLUMNS {
            out.push('\n');
            column = 0;
        }
        if column == 0 {
            out.push_str(&" ".repeat(indent));
            column = indent;
        } else {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += width;
    }
    out.push('\n');
}
