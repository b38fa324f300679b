//! Path data of any kind: read or refused with a place; what is read can be measured.

use kerfleaf::drawing::{self, Layer, Layers, Reading, Selector};
use kerfleaf::pieces::{self, Near};

/// Letters and numbers of path data.
pub const WORDS: &[&str] = &[
    "M0 0",
    "m5 5",
    "L30 0",
    "l-3 4",
    "H40",
    "h-7",
    "V12",
    "v9",
    "C0 9 9 9 9 0",
    "c3 0 3 3 0 3",
    "S20 10 30 0",
    "s1 1 2 0",
    "Q10 20 20 0",
    "q1 1 2 0",
    "T30 0",
    "t5 5",
    "A5 5 0 0 1 9 9",
    "a5 3 45 1 0 2 2",
    "a9,9 0 1010 10",
    "Z",
    "z",
    "-",
    ".5",
    "1e3",
    "1e-9",
    "e",
    " ",
    ",",
    "none",
    "1e999",
    "0 0",
];

/// Points beyond which a board is not made: what is read is still checked.
const MOST_POINTS: usize = 3000;

/// As a path of the cut layer.
pub fn holds(data: &[u8]) {
    let text = String::from_utf8_lossy(data);
    let quoted = text.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;");
    // Control characters are no XML.
    let quoted: String = quoted.chars().filter(|c| !c.is_control() || c.is_ascii_whitespace()).collect();
    let svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"100mm\" height=\"100mm\" viewBox=\"0 0 100 100\"><path id=\"cuts\" d=\"{quoted}\"/></svg>"
    );
    let layers = Layers(vec![(Layer::Cut, vec![Selector::Name("cuts".to_string())])]);
    let how = Reading { layers: &layers, width_mm: None, join_mm: 0.1, with_personal: false };
    let Ok(read) = drawing::read(&svg, &how) else { return };
    let lines = read.value.lines;
    for line in &lines {
        assert!(line.points.len() > 1, "a line has two points");
        assert!(line.points.iter().all(|p| p.x.abs() <= 1e6 && p.y.abs() <= 1e6), "places lie on a sheet");
    }
    if lines.iter().map(|l| l.points.len()).sum::<usize>() > MOST_POINTS {
        return;
    }
    let board = pieces::board(&lines, Near { join_mm: 0.1 }, 0.2).value;
    for piece in &board.pieces {
        let (drawn, left) = (piece.drawn_mm2, piece.net_mm2);
        assert!(drawn >= 0.0 && left >= 0.0 && left <= drawn * (1.0 + 1e-9), "{left} mm² left of {drawn}");
    }
    assert!(board.cut_mm.is_finite() && board.cut_mm >= 0.0);
}
