//! Slow fields taken at every few pixels only, and laid between: what changes over centimetres need not be worked out for every pixel.
//!
//! Nodes stand at whole multiples of the step from the picture's corner, whatever window is asked for, so a pixel's value never depends on its band.
//! A node is worked out when a pixel first needs it.

use std::ops::Range;

use super::frame::Frame;

/// `N` slow fields over a window of a picture.
#[derive(Debug)]
pub struct Coarse<const N: usize> {
    frame: Frame,
    step: usize,
    left: usize,
    top: usize,
    wide: usize,
    values: Vec<Option<[f32; N]>>,
}

/// Farthest that nodes stand apart, mm; features of the fields laid between are several times as wide.
const APART_MM: f64 = 0.8;

impl<const N: usize> Coarse<N> {
    /// Ready for the pixels of a window.
    pub fn over(frame: &Frame, rows: &Range<usize>, columns: &Range<usize>) -> Coarse<N> {
        let step = ((APART_MM * frame.px_per_mm) as usize).clamp(1, 8);
        let (left, top) = (columns.start / step, rows.start / step);
        let wide = columns.end / step + 2 - left;
        let high = rows.end / step + 2 - top;
        Coarse { frame: *frame, step, left, top, wide, values: vec![None; wide * high] }
    }

    /// The fields at a pixel of the window; `field` gives them for a place, mm.
    pub fn at(&mut self, column: usize, row: usize, field: &impl Fn(f32, f32) -> [f32; N]) -> [f32; N] {
        let (i, j) = (column / self.step, row / self.step);
        let per = 1.0 / self.step as f32;
        let (tx, ty) = ((column % self.step) as f32 * per, (row % self.step) as f32 * per);
        let above = self.node(i, j, field);
        if tx == 0.0 && ty == 0.0 {
            return above;
        }
        let right = self.node(i + 1, j, field);
        let below = self.node(i, j + 1, field);
        let across = self.node(i + 1, j + 1, field);
        std::array::from_fn(|n| {
            let a = above[n] + (right[n] - above[n]) * tx;
            let b = below[n] + (across[n] - below[n]) * tx;
            a + (b - a) * ty
        })
    }

    fn node(&mut self, i: usize, j: usize, field: &impl Fn(f32, f32) -> [f32; N]) -> [f32; N] {
        let (x, y) = (self.frame.x_mm(i * self.step), self.frame.y_mm(j * self.step));
        let at = (j - self.top) * self.wide + i - self.left;
        match self.values.get_mut(at) {
            Some(node) => *node.get_or_insert_with(|| field(x, y)),
            None => field(x, y),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pixel_has_the_same_value_in_every_window() {
        let frame = Frame { left_mm: -3.0, top_mm: 2.0, px_per_mm: 5.0, width: 60, height: 50 };
        let field = |x: f32, y: f32| [x * x, x * y];
        let mut whole = Coarse::over(&frame, &(0..50), &(0..60));
        let mut part = Coarse::over(&frame, &(17..31), &(22..41));
        for row in 17..31 {
            for column in 22..41 {
                let (a, b) = (whole.at(column, row, &field), part.at(column, row, &field));
                assert_eq!(a, b);
                let exact = field(frame.x_mm(column), frame.y_mm(row));
                // Between nodes h apart, straight lines miss x² by at most h² ÷ 4; the rest is rounding.
                assert!((a[0] - exact[0]).abs() <= 0.25 * 0.8 * 0.8 + 1e-5, "{a:?} and {exact:?}");
            }
        }
    }
}
