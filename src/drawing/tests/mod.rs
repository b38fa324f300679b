//! Whole drawings, each with one property; expected values from the standards named, or from another reader.

mod faults;
mod layers;
mod noticed;
mod outside_reader;
mod sizes;
mod styles;

use super::{Drawing, DrawingError, Layer, Layers, Reading, Selector, read};
use crate::findings::{Checked, Kind};
use crate::shape::{Extent, Rgb, length_mm, ring_length_mm};

/// Layers by name, for instance `[(Layer::Cut, "cuts")]`.
fn by_name(names: &[(Layer, &str)]) -> Layers {
    Layers(names.iter().map(|(layer, name)| (*layer, vec![Selector::Name((*name).into())])).collect())
}

fn by_stroke(strokes: &[(Layer, Rgb)]) -> Layers {
    let all = |stroke| Selector::All { id: None, label: None, class: None, stroke: Some(stroke), fill: None };
    Layers(strokes.iter().map(|(layer, stroke)| (*layer, vec![all(*stroke)])).collect())
}

fn read_as(svg: &str, layers: &Layers) -> Result<Checked<Drawing>, DrawingError> {
    read(svg, &Reading { layers, width_mm: None, join_mm: 0.1, with_personal: false })
}

/// Reads what stands inside a drawing of 100 mm by 100 mm in mm, whose group `cuts` is cut.
fn inside(content: &str) -> Result<Checked<Drawing>, DrawingError> {
    read_as(&page(content), &by_name(&[(Layer::Cut, "cuts")]))
}

fn page(content: &str) -> String {
    format!(
        "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' xmlns:own='urn:own' \
         width='100mm' height='100mm' viewBox='0 0 100 100'>{content}</svg>"
    )
}

fn kinds(of: &Checked<Drawing>) -> Vec<Kind> {
    of.findings.iter().map(|f| f.kind).collect()
}

/// Length of all lines of a layer, mm.
fn length_of(drawing: &Drawing, layer: Layer) -> f64 {
    let lines = drawing.lines.iter().filter(|l| l.layer == layer);
    lines
        .map(|l| match l.closed {
            true => ring_length_mm(&l.points),
            false => l.points.windows(2).map(|w| length_mm(w[0], w[1])).sum(),
        })
        .sum()
}

/// Left, top, right and bottom of all lines, mm.
fn extent(drawing: &Drawing) -> [f64; 4] {
    let e = Extent::of(drawing.lines.iter().flat_map(|l| &l.points)).expect("some line");
    [e.min.x, e.min.y, e.max.x, e.max.y]
}

#[track_caller]
fn assert_near(got: &[f64], expected: &[f64], within: f64) {
    let near = got.len() == expected.len() && got.iter().zip(expected).all(|(a, b)| (a - b).abs() <= within);
    assert!(near, "{got:?}, not {expected:?}");
}
