//! Numbers drawn as lines, so that a picture needs no font: ten figures, a point and `mm`, in strokes of one width.
//!
//! Each is drawn in a box 6 wide and 10 high, tabular, and scaled to the height asked for. Own drawing.

use std::fmt::Write;

/// Strokes and advance of a character.
fn strokes(c: char) -> (&'static str, f64) {
    match c {
        '0' => ("M3 0C1.2 0 0 1.8 0 5S1.2 10 3 10S6 8.2 6 5S4.8 0 3 0Z", 8.0),
        '1' => ("M1 2.2L3.6 0V10", 8.0),
        '2' => ("M.2 2.7C.4 1 1.5 0 3 0C4.7 0 5.9 1.1 5.9 2.8C5.9 5 3.2 6.6 .2 10H6", 8.0),
        '3' => (
            "M.3 1.8C.8 .6 1.8 0 3 0C4.6 0 5.7 1 5.7 2.4C5.7 3.9 4.6 4.7 2.4 4.7C4.7 4.7 6 5.7 6 7.3C6 9 4.7 10 3 10C1.6 10 .5 9.3 0 8",
            8.0,
        ),
        '4' => ("M4.6 10V0L0 7H6", 8.0),
        '5' => {
            ("M5.6 0H1.2L.8 4.6C1.5 4 2.2 3.7 3.1 3.7C4.8 3.7 6 5 6 6.8C6 8.7 4.7 10 2.9 10C1.6 10 .6 9.4 0 8.3", 8.0)
        }
        '6' => (
            "M5.2 .9C4.6 .3 3.9 0 3.2 0C1.2 0 0 2 0 5.6C0 8.4 1.2 10 3 10C4.7 10 6 8.7 6 6.8C6 5 4.8 3.8 3.1 3.8C1.6 3.8 .4 4.8 0 6.2",
            8.0,
        ),
        '7' => ("M0 0H6L2 10", 8.0),
        '8' => (
            "M3 4.6C1.4 4.6 .5 3.6 .5 2.3C.5 .9 1.5 0 3 0C4.5 0 5.5 .9 5.5 2.3C5.5 3.6 4.6 4.6 3 4.6C1.2 4.6 0 5.7 0 7.3C0 8.9 1.2 10 3 10C4.8 10 6 8.9 6 7.3C6 5.7 4.8 4.6 3 4.6Z",
            8.0,
        ),
        '9' => (
            "M.8 9.1C1.4 9.7 2.1 10 2.8 10C4.8 10 6 8 6 4.4C6 1.6 4.8 0 3 0C1.3 0 0 1.3 0 3.2C0 5 1.2 6.2 2.9 6.2C4.4 6.2 5.6 5.2 6 3.8",
            8.0,
        ),
        '.' => ("M.5 10H.6", 3.0),
        'm' => (
            "M0 10V4M0 6C.5 4.6 1.3 4 2.2 4C3.3 4 3.9 4.8 3.9 6V10M3.9 6C4.3 4.7 5.1 4 6.1 4C7.2 4 7.8 4.8 7.8 6V10",
            10.0,
        ),
        _ => ("", 4.0),
    }
}

/// How wide a text is at a height, without the space behind its last character.
pub fn width(text: &str, height: f64) -> f64 {
    (text.chars().map(|c| strokes(c).1).sum::<f64>() - 2.0) * height / 10.0
}

/// A text as SVG, its upper left corner at the place given.
pub fn text(text: &str, x: f64, y: f64, height: f64, colour: &str) -> String {
    let mut out = format!(
        "<g transform=\"translate({x:.1} {y:.1}) scale({})\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"1.6\" stroke-linecap=\"round\" stroke-linejoin=\"round\">",
        height / 10.0
    );
    let mut at = 0.0;
    for c in text.chars() {
        let (path, advance) = strokes(c);
        if !path.is_empty() {
            let _ = write!(out, "<path transform=\"translate({at} 0)\" d=\"{path}\"/>");
        }
        at += advance;
    }
    out + "</g>"
}
