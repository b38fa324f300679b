//! Line drawings as SVG for typst, one unit to the point, so that in the page's content a millimetre is 72 ÷ 25.4 units and nothing is scaled.

use std::fmt::Write;

use super::lines::Run;
use crate::shape::{Extent, Point};

/// One millimetre in points. PDF 32000-1, 8.3.2.3: 72 to the inch.
pub const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// A drawing under way: a window of the design in mm, and what was drawn so far.
pub struct Svg {
    window: Extent,
    scale: f64,
    body: String,
}

impl Svg {
    /// An empty drawing of a window, `scale` to one (1 is true to size).
    pub fn new(window: Extent, scale: f64) -> Svg {
        Svg { window, scale: scale * POINTS_PER_MM, body: String::new() }
    }

    /// Draws runs as one path. `width_mm` is the line's width on paper; `dash_mm` dash and gap.
    pub fn lines(&mut self, runs: &[Run], width_mm: f64, colour: &str, dash_mm: Option<(f64, f64)>) {
        if runs.is_empty() {
            return;
        }
        self.body.push_str("<path d=\"");
        for run in runs {
            let closed = run.len() > 2 && run.first() == run.last();
            let open = if closed { &run[..run.len() - 1] } else { run };
            for (index, p) in open.iter().enumerate() {
                let (x, y) = self.place(*p);
                // Writing to a String cannot fail.
                let _ = write!(self.body, "{}{x:.3} {y:.3}", if index == 0 { 'M' } else { 'L' });
            }
            if closed {
                self.body.push('Z');
            }
        }
        let width = width_mm * POINTS_PER_MM;
        let _ = write!(
            self.body,
            "\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{width:.3}\" stroke-linecap=\"round\" stroke-linejoin=\"round\""
        );
        if let Some((dash, gap)) = dash_mm {
            let _ = write!(self.body, " stroke-dasharray=\"{:.3} {:.3}\"", dash * POINTS_PER_MM, gap * POINTS_PER_MM);
        }
        self.body.push_str("/>");
    }

    /// Draws a disc (filled) or a ring (`width_mm` given); the radius is on paper.
    pub fn disc(&mut self, at: Point, radius_mm: f64, colour: &str, width_mm: Option<f64>) {
        let (x, y) = self.place(at);
        let radius = radius_mm * POINTS_PER_MM;
        let paint = match width_mm {
            None => format!("fill=\"{colour}\""),
            Some(width) => format!("fill=\"none\" stroke=\"{colour}\" stroke-width=\"{:.3}\"", width * POINTS_PER_MM),
        };
        let _ = write!(self.body, "<circle cx=\"{x:.3}\" cy=\"{y:.3}\" r=\"{radius:.3}\" {paint}/>");
    }

    /// The finished SVG.
    pub fn finish(self) -> Vec<u8> {
        let (width, height) = (self.window.width_mm() * self.scale, self.window.height_mm() * self.scale);
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\">{}</svg>",
            self.body
        )
        .into_bytes()
    }

    fn place(&self, p: Point) -> (f64, f64) {
        ((p.x - self.window.min.x) * self.scale, (p.y - self.window.min.y) * self.scale)
    }
}
