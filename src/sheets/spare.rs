//! A spare: one lost piece, as an SVG true to size that cuts it again.
//!
//! In: the measured board, the piece's number as on the count sheet. Out: SVG text with two groups, `score` and `cut`, and a note of what cannot be matched.
//! Rules: the cut runs on the drawn line, so that the same kerf gives the same piece again; `snug` moves it outwards, openings in the piece inwards. Score lines
//! inside the piece come along. Lengths are millimetres, one unit to the millimetre.
//! Never here: the pieces around it.

use std::fmt::Write;

use super::lines::{Run, clip_to};
use crate::drawing::Layer;
use crate::figures::Measured;
use crate::pieces::outset;
use crate::shape::{Extent, Point};
use crate::units::rounded;
use crate::wording::Words;

/// Room around the piece, mm.
const MARGIN_MM: f64 = 5.0;

/// Why there is no spare.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SpareError {
    /// No piece has the number.
    #[error("there is no piece {number}: the board has pieces 1 to {count}")]
    NoPiece {
        /// As asked for.
        number: usize,
        /// How many there are.
        count: usize,
    },
}

/// What a spare is cut from, and how.
#[derive(Clone, Copy, Debug)]
pub struct Spare<'a> {
    /// Title of the design, for the file's own title.
    pub title: &'a str,
    /// The board.
    pub measured: &'a Measured,
    /// Number of the piece, from 1.
    pub number: usize,
    /// How far the cut is moved out, mm.
    pub snug_mm: f64,
    /// Language of title and note.
    pub language: &'a str,
    /// One buyer's version: said in the note.
    pub personal: bool,
}

/// The note that goes with a spare: what it is, and what cannot be matched.
pub fn note(spare: &Spare) -> Vec<String> {
    let words = Words::for_language(spare.language);
    let figures = &spare.measured.figures;
    let thickness = super::sizes::number_text(&words, figures.size.thickness_mm, 2);
    let kerf = super::sizes::number_text(&words, spare.measured.board.kerf_mm, 3);
    let values = [
        ("number", spare.number.into()),
        ("title", spare.title.into()),
        ("mark", figures.mark.as_str().into()),
        ("thickness", thickness.into()),
        ("kerf", kerf.into()),
        ("snug", super::sizes::number_text(&words, spare.snug_mm, 3).into()),
    ];
    let mut note = vec![words.with("sheet-spare-what", &values)];
    note.push(words.with(if spare.snug_mm > 0.0 { "sheet-spare-snug" } else { "sheet-spare-line" }, &values));
    if spare.personal {
        note.push(words.text("sheet-private-personal"));
    }
    note.push(words.text("sheet-spare-unmatched"));
    note
}

/// Makes the SVG. The same spare gives the same text.
///
/// # Errors
/// [`SpareError::NoPiece`].
pub fn spare(spare: &Spare) -> Result<String, SpareError> {
    let pieces = &spare.measured.board.pieces;
    let piece = spare.number.checked_sub(1).and_then(|i| pieces.get(i));
    let piece = piece.ok_or(SpareError::NoPiece { number: spare.number, count: pieces.len() })?;
    let cut = outset(&piece.face, spare.snug_mm);
    let extent =
        Extent::of(cut.iter().flat_map(|f| &f.outer)).unwrap_or(Extent { min: Point::ORIGIN, max: Point::ORIGIN });
    let from = Point::new(extent.min.x - MARGIN_MM, extent.min.y - MARGIN_MM);
    let (width, height) = (extent.width_mm() + 2.0 * MARGIN_MM, extent.height_mm() + 2.0 * MARGIN_MM);

    let scored = spare.measured.drawing.lines.iter().filter(|l| l.layer == Layer::Score).flat_map(|line| {
        let mut run: Run = line.points.clone();
        run.extend(line.closed.then(|| line.points.first().copied()).flatten());
        clip_to(&run, &piece.face)
    });
    let mut score = String::new();
    for run in scored {
        path(&mut score, &run, false, from);
    }
    let mut lines = String::new();
    // What is cut out of the piece comes first, its outline last.
    for face in &cut {
        for ring in face.holes.iter().chain([&face.outer]) {
            path(&mut lines, ring, true, from);
        }
    }
    let words = Words::for_language(spare.language);
    let title = words.with("sheet-spare-title", &[("number", spare.number.into()), ("title", spare.title.into())]);
    let group = |id: &str, colour: &str, body: &str| {
        format!("  <g id=\"{id}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"0.1\">\n{body}  </g>\n")
    };
    let (w, h) = (rounded(width, 4), rounded(height, 4));
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\">\n  <title>{}</title>\n  <desc>{}</desc>\n",
        escaped(&title),
        escaped(&note(spare).join(" "))
    );
    if !score.is_empty() {
        svg.push_str(&group("score", "#777777", &score));
    }
    svg.push_str(&group("cut", "#111111", &lines));
    svg.push_str("</svg>\n");
    Ok(svg)
}

fn path(to: &mut String, points: &[Point], closed: bool, from: Point) {
    to.push_str("    <path d=\"");
    for (index, p) in points.iter().enumerate() {
        // Writing to a String cannot fail.
        let _ = write!(
            to,
            "{}{} {}",
            if index == 0 { "M" } else { "L" },
            rounded(p.x - from.x, 4),
            rounded(p.y - from.y, 4)
        );
    }
    to.push_str(if closed { "Z\"/>\n" } else { "\"/>\n" });
}

/// Text as it may stand in XML.
fn escaped(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out
}
