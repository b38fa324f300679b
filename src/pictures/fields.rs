//! Fields over the pixels of a band of rows: how much of each pixel a shape covers, and how far its centre lies from the nearest line.
//!
//! Both are taken from the outlines themselves, not from a raster: coverage is exact area, distance exact Euclidean,
//! so cuts are smooth at every scale. Bands keep memory small; every value is a pure function of its pixel.

use std::ops::Range;

use super::frame::{Outline, Side};

/// Coverage of one shape over a window of a band.
#[derive(Clone, Debug, Default)]
pub struct Coverage {
    /// Columns of the window.
    pub columns: Range<usize>,
    /// Rows of the window.
    pub rows: Range<usize>,
    /// 0 to 1, row by row, `columns.len()` to a row.
    pub values: Vec<f32>,
    sums: Vec<f32>,
}

impl Coverage {
    /// Makes this the coverage of `outline` within some rows of a picture `width` pixels wide; false when it lies outside.
    ///
    /// Holes turn the other way round than what they are in. Signed areas to the left of each side, summed along the row
    /// (the usual accumulation of font rasterisers), give each pixel's exact share.
    pub fn take(&mut self, outline: &Outline, rows: Range<usize>, width: usize) -> bool {
        if outline.rings.is_empty() || outline.max[0] <= 0.0 || outline.max[1] <= 0.0 {
            return false;
        }
        let top = (outline.min[1].max(0.0) as usize).max(rows.start);
        let bottom = (outline.max[1].max(0.0) as usize + 1).min(rows.end);
        let left = outline.min[0].max(0.0) as usize;
        let right = (outline.max[0] as usize + 1).min(width);
        if top >= bottom || left >= right {
            return false;
        }
        self.columns = left..right;
        self.rows = top..bottom;
        let stride = right - left + 2;
        self.sums.clear();
        self.sums.resize(stride * (bottom - top), 0.0);
        for side in outline.sides() {
            self.add(side, stride);
        }
        self.values.clear();
        for row in self.sums.chunks_exact(stride) {
            let mut sum = 0.0;
            self.values.extend(row[..stride - 2].iter().map(|a| {
                sum += a;
                sum.abs().min(1.0)
            }));
        }
        true
    }

    fn add(&mut self, side: Side, stride: usize) {
        let (sign, [from, to]) = if side[0][1] < side[1][1] { (1.0, side) } else { (-1.0, [side[1], side[0]]) };
        let (y0, y1) = (from[1].max(self.rows.start as f32), to[1].min(self.rows.end as f32));
        if y1 <= y0 {
            return;
        }
        let slope = (to[0] - from[0]) / (to[1] - from[1]);
        let x_at = |y: f32| from[0] + (y - from[1]) * slope;
        let wide = (stride - 2) as f32;
        for row in y0 as usize..(y1.ceil() as usize).min(self.rows.end) {
            let (a, b) = (y0.max(row as f32), y1.min(row as f32 + 1.0));
            if b <= a {
                continue;
            }
            let d = sign * (b - a);
            let xa = (x_at(a) - self.columns.start as f32).clamp(0.0, wide);
            let xb = (x_at(b) - self.columns.start as f32).clamp(0.0, wide);
            let (x0, x1) = if xa < xb { (xa, xb) } else { (xb, xa) };
            let line = &mut self.sums[(row - self.rows.start) * stride..][..stride];
            let first = x0 as usize;
            let last = x1.ceil() as usize;
            if last <= first + 1 {
                let inside = d * (0.5 * (x0 + x1) - first as f32);
                line[first] += d - inside;
                line[first + 1] += inside;
            } else {
                // The side crosses several pixels: a triangle, then whole columns, then a triangle.
                let per = 1.0 / (x1 - x0);
                let lead = 1.0 - (x0 - first as f32);
                let a0 = 0.5 * per * lead * lead;
                let tail = x1 - last as f32 + 1.0;
                let am = 0.5 * per * tail * tail;
                line[first] += d * a0;
                if last == first + 2 {
                    line[first + 1] += d * (1.0 - a0 - am);
                } else {
                    let a1 = per * (1.5 - (x0 - first as f32));
                    line[first + 1] += d * (a1 - a0);
                    for cell in &mut line[first + 2..last - 1] {
                        *cell += d * per;
                    }
                    let a2 = a1 + (last - first - 3) as f32 * per;
                    line[last - 1] += d * (1.0 - a2 - am);
                }
                line[last] += d * am;
            }
        }
    }

    /// Every covered pixel: column, row, share.
    pub fn each(&self, mut with: impl FnMut(usize, usize, f32)) {
        let wide = self.columns.len();
        for (row, line) in self.rows.clone().zip(self.values.chunks_exact(wide.max(1))) {
            for (column, share) in self.columns.clone().zip(line) {
                if *share > 0.0 {
                    with(column, row, *share);
                }
            }
        }
    }
}

/// Distance to the nearest of some lines, for a band of rows.
#[derive(Clone, Debug)]
pub struct Nearest {
    /// Squared distance, px²; `reach²` where nothing is as near as that.
    pub square: Vec<f32>,
    /// From the pixel's centre to the nearest place, px; zero where nothing is near.
    pub towards: Vec<[f32; 2]>,
}

impl Nearest {
    /// Exact distances up to `reach` px from the centres of all pixels of some rows.
    pub fn new(sides: &[Side], rows: Range<usize>, width: usize, reach: f32) -> Nearest {
        let mut near =
            Nearest { square: vec![reach * reach; width * rows.len()], towards: vec![[0.0; 2]; width * rows.len()] };
        for [a, b] in sides {
            let top = (a[1].min(b[1]) - reach - 0.5).max(rows.start as f32);
            let bottom = (a[1].max(b[1]) + reach + 0.5).min(rows.end as f32);
            let left = (a[0].min(b[0]) - reach - 0.5).max(0.0);
            let right = (a[0].max(b[0]) + reach + 0.5).min(width as f32);
            if top >= bottom || left >= right {
                continue;
            }
            let d = [b[0] - a[0], b[1] - a[1]];
            let per = 1.0 / (d[0] * d[0] + d[1] * d[1]).max(1e-12);
            for row in top as usize..(bottom.ceil() as usize).min(rows.end) {
                let py = row as f32 + 0.5 - a[1];
                let at = (row - rows.start) * width;
                for column in left as usize..(right.ceil() as usize).min(width) {
                    let px = column as f32 + 0.5 - a[0];
                    let t = ((px * d[0] + py * d[1]) * per).clamp(0.0, 1.0);
                    let (x, y) = (t * d[0] - px, t * d[1] - py);
                    let square = x * x + y * y;
                    if square < near.square[at + column] {
                        near.square[at + column] = square;
                        near.towards[at + column] = [x, y];
                    }
                }
            }
        }
        near
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pictures::frame::Frame;
    use crate::pictures::noise::Seed;
    use crate::shape::{Face, Point};

    fn frame() -> Frame {
        Frame { left_mm: 0.0, top_mm: 0.0, px_per_mm: 1.0, width: 40, height: 30 }
    }

    fn ring(points: &[(f64, f64)]) -> Vec<Point> {
        points.iter().map(|(x, y)| Point::new(*x, *y)).collect()
    }

    #[test]
    fn coverage_adds_up_to_the_area_of_the_polygon() {
        let face = Face {
            outer: ring(&[(2.3, 1.7), (33.1, 4.9), (38.2, 27.7), (11.4, 22.2), (3.3, 28.1)]),
            holes: vec![ring(&[(10.2, 9.1), (13.3, 18.8), (21.4, 12.2)])],
        };
        let outline = Outline::new(&frame(), [&face], |p| p);
        let mut sum = 0.0;
        let mut cover = Coverage::default();
        for rows in [0..7, 7..8, 8..30] {
            assert!(cover.take(&outline, rows, 40));
            cover.each(|_, _, share| sum += f64::from(share));
        }
        assert!((sum - face.area_mm2()).abs() < 0.01, "{sum} and {}", face.area_mm2());
    }

    #[test]
    fn coverage_is_cut_off_at_the_edges_of_the_picture() {
        let face = Face { outer: ring(&[(-10.0, -10.0), (20.5, -10.0), (20.5, 50.0), (-10.0, 50.0)]), holes: vec![] };
        let outline = Outline::new(&frame(), [&face], |p| p);
        let mut cover = Coverage::default();
        assert!(cover.take(&outline, 0..30, 40));
        let mut sum = 0.0;
        cover.each(|_, _, share| sum += f64::from(share));
        assert!((sum - 20.5 * 30.0).abs() < 1e-3, "{sum}");
    }

    /// Against a search through all lines for each pixel, in another order and in double precision.
    #[test]
    fn distances_are_those_of_a_search_through_all_lines() {
        let seed = Seed::of_slug("lines");
        let place = |n: usize| [seed.unit(2 * n) * 44.0 - 2.0, seed.unit(2 * n + 1) * 34.0 - 2.0];
        let sides: Vec<Side> = (0..23).map(|n| [place(2 * n), place(2 * n + 1)]).collect();
        let reach = 6.0;
        for rows in [0..30, 11..17] {
            let near = Nearest::new(&sides, rows.clone(), 40, reach);
            for row in rows.clone() {
                for column in 0..40 {
                    let p = [column as f64 + 0.5, row as f64 + 0.5];
                    let least = sides.iter().map(|s| brute(p, s)).fold(f64::from(reach), f64::min);
                    let got = f64::from(near.square[(row - rows.start) * 40 + column]).sqrt();
                    assert!((got - least).abs() < 1e-3, "at {p:?}: {got} and {least}");
                }
            }
        }
    }

    fn brute(p: [f64; 2], side: &Side) -> f64 {
        let [a, b] = side.map(|e| e.map(f64::from));
        let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
        let t = (((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
        let (x, y) = (a[0] + t * dx - p[0], a[1] + t * dy - p[1]);
        (x * x + y * y).sqrt()
    }
}
