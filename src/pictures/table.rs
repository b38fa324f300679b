//! What things lie on, and the shadows they throw there.
//!
//! In: outlines on the table, mm, and how thick they are. Out: light of the ground at any place.
//! Shadows are the outlines seen by wider and wider lights: a tight one where the thing touches, and soft ones away from the light, which comes
//! from the upper left. They are kept on a coarse grid in mm, so that they are the same at every picture size.

use super::fields::Coverage;
use super::frame::{Frame, Outline};
use super::linear::{self, Light, exp};
use super::noise::{Noise, Seed, Shape};
use crate::shape::{Face, Point, Rgb};

/// The quiet paper colour that all pictures lie on. Own choice.
pub const GROUND: Rgb = Rgb::new(0xef, 0xe9, 0xdd);
/// Where the sides of a thing 1 mm thick end in the picture, mm: it is seen a little from the lower right.
pub const LEAN: [f32; 2] = [0.15, 0.27];

/// Most cells of a shadow's grid: beyond a metre each way the grid grows coarser, so that no board takes more memory for its size.
const MOST_CELLS: f64 = 4e6;

/// The table with its shadows.
#[derive(Debug)]
pub struct Table {
    shadows: [Soft; 3],
    ground: Light,
    fibre: Noise,
    slow: Noise,
    middle: [f32; 2],
    size_mm: f32,
}

/// A blurred outline on a coarse grid.
#[derive(Debug)]
struct Soft {
    grid: Frame,
    values: Vec<f32>,
    shift: [f32; 2],
    strength: f32,
}

impl Table {
    /// The table around `frame` with things of one thickness on it.
    pub fn new(frame: &Frame, things: &[Vec<Face>], thickness_mm: f64, seed: Seed) -> Table {
        let t = thickness_mm as f32;
        let lean = [LEAN[0] * t, LEAN[1] * t];
        let shadows = [
            Soft::new(frame, things, 2.0, 0.55 + 0.04 * t, [lean[0] + 0.25, lean[1] + 0.35], 0.62),
            Soft::new(frame, things, 1.0, 0.8 + 0.36 * t, [lean[0] + 0.24 * t, lean[1] + 0.34 * t], 0.40),
            Soft::new(frame, things, 0.5, 2.5 + 1.35 * t, [lean[0] + 0.6 * t, lean[1] + 0.9 * t], 0.26),
        ];
        let (reach, pixel) = (frame.reach_mm(), frame.pixel_mm());
        let seed = seed.named("table");
        Table {
            shadows,
            ground: linear::of(GROUND),
            fibre: Noise::new(
                seed.named("fibre"),
                Shape { along_mm: 1.1, across_mm: 0.9, octaves: 2, gain: 0.8 },
                reach,
                pixel,
            ),
            slow: Noise::new(seed.named("slow"), Shape::round(70.0, 2), reach, pixel),
            middle: [
                frame.left_mm as f32 + 0.5 * frame.width as f32 * pixel,
                frame.top_mm as f32 + 0.5 * frame.height as f32 * pixel,
            ],
            size_mm: frame.width.max(frame.height) as f32 * pixel,
        }
    }

    /// How much light falls on a place: a little more towards the upper left.
    pub fn lamp(&self, x: f32, y: f32) -> f32 {
        let (u, v) = ((x - self.middle[0]) / self.size_mm, (y - self.middle[1]) / self.size_mm);
        1.0 - 0.055 * (u + 1.25 * v) - 0.05 * (u * u + v * v)
    }

    /// What changes slowly over the ground, for [`Table::at`]: the paper, then the two soft shadows.
    pub fn slow(&self, x: f32, y: f32) -> [f32; 3] {
        [self.slow.at(x, y), self.shadows[1].at(x, y), self.shadows[2].at(x, y)]
    }

    /// Light of the ground at a place, mm; `slow` from [`Table::slow`].
    pub fn at(&self, x: f32, y: f32, slow: &[f32; 3]) -> Light {
        let paper = self.lamp(x, y) * (1.0 + 0.006 * self.fibre.at(x, y) + 0.004 * slow[0]);
        let mut lit = linear::scale(self.ground, paper);
        for (shadow, deep) in self.shadows.iter().zip([self.shadows[0].at(x, y), slow[1], slow[2]]) {
            let s = shadow.strength * deep;
            // Shadows on warm paper stay warm: blue goes first.
            lit = [lit[0] * (1.0 - 0.97 * s), lit[1] * (1.0 - s), lit[2] * (1.0 - 1.02 * s)];
        }
        lit
    }

    /// Which way the nearest edge faces, outwards, about unit length near it.
    pub fn facing(&self, x: f32, y: f32) -> [f32; 2] {
        let soft = &self.shadows[0];
        let (x, y) = (x + soft.shift[0], y + soft.shift[1]);
        let d = 0.4;
        let g = [soft.at(x - d, y) - soft.at(x + d, y), soft.at(x, y - d) - soft.at(x, y + d)];
        let length = (g[0] * g[0] + g[1] * g[1]).sqrt();
        if length < 1e-4 { [0.0, 0.0] } else { [g[0] / length, g[1] / length] }
    }
}

impl Soft {
    fn new(frame: &Frame, things: &[Vec<Face>], per_mm: f64, blur_mm: f32, shift: [f32; 2], strength: f32) -> Soft {
        let margin = f64::from(3.2 * blur_mm + shift[0].max(shift[1]) + 2.0);
        let [wide, high] = [frame.width, frame.height].map(|px| px as f64 / frame.px_per_mm + 2.0 * margin);
        let per_mm = per_mm.min((MOST_CELLS / (wide * high)).sqrt());
        let grid = Frame {
            left_mm: frame.left_mm - margin,
            top_mm: frame.top_mm - margin,
            px_per_mm: per_mm,
            width: ((wide * per_mm) as usize + 1).max(2),
            height: ((high * per_mm) as usize + 1).max(2),
        };
        let mut values = vec![0.0_f32; grid.width * grid.height];
        let mut cover = Coverage::default();
        for faces in things {
            let outline = Outline::new(&grid, faces, |p: Point| p);
            if cover.take(&outline, 0..grid.height, grid.width) {
                cover.each(|column, row, s| {
                    let v = &mut values[row * grid.width + column];
                    *v = (*v + s).min(1.0);
                });
            }
        }
        let values = blurred(&values, grid.width, grid.height, blur_mm * per_mm as f32);
        Soft { grid, values, shift, strength }
    }

    fn at(&self, x: f32, y: f32) -> f32 {
        let per = self.grid.px_per_mm as f32;
        let u = ((x - self.shift[0] - self.grid.left_mm as f32) * per - 0.5).max(0.0);
        let v = ((y - self.shift[1] - self.grid.top_mm as f32) * per - 0.5).max(0.0);
        let (i, j) = ((u as usize).min(self.grid.width - 2), (v as usize).min(self.grid.height - 2));
        let (fu, fv) = ((u - i as f32).min(1.0), (v - j as f32).min(1.0));
        let at = j * self.grid.width + i;
        let line = |at: usize| self.values[at] + (self.values[at + 1] - self.values[at]) * fu;
        let (a, b) = (line(at), line(at + self.grid.width));
        a + (b - a) * fv
    }
}

/// Gaussian blur, rows then columns; `spread` in cells.
fn blurred(values: &[f32], width: usize, height: usize, spread: f32) -> Vec<f32> {
    let half = (3.0 * spread).ceil().max(1.0) as usize;
    let weights: Vec<f32> = (0..=half).map(|k| exp(-0.5 * (k as f32 / spread) * (k as f32 / spread))).collect();
    let all: f32 = weights[0] + 2.0 * weights[1..].iter().sum::<f32>();
    let mut across = vec![0.0_f32; values.len()];
    for row in 0..height {
        let line = &values[row * width..(row + 1) * width];
        for column in 0..width {
            let mut sum = weights[0] * line[column];
            for (k, w) in weights.iter().enumerate().skip(1) {
                let left = if column >= k { line[column - k] } else { 0.0 };
                sum += w * (left + line.get(column + k).copied().unwrap_or(0.0));
            }
            across[row * width + column] = sum / all;
        }
    }
    let mut out = vec![0.0_f32; values.len()];
    for row in 0..height {
        for (k, w) in weights.iter().enumerate() {
            let add = |out: &mut [f32], from: usize| {
                let source = &across[from * width..(from + 1) * width];
                for (o, s) in out[row * width..(row + 1) * width].iter_mut().zip(source) {
                    *o += w / all * s;
                }
            };
            if row >= k {
                add(&mut out, row - k);
            }
            if k > 0 && row + k < height {
                add(&mut out, row + k);
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::Extent;

    #[test]
    fn a_board_of_any_size_has_a_shadow_of_bounded_size() {
        for size_mm in [0.001, 300.0, 10_000.0, 1e6] {
            let at = |x: f64, y: f64| Point::new(x * size_mm, y * size_mm);
            let board = Face { outer: vec![at(0.0, 0.0), at(1.0, 0.0), at(1.0, 1.0), at(0.0, 1.0)], holes: vec![] };
            let margin = 0.06 * size_mm + 4.0;
            let by = kurbo::Vec2::new(margin, margin);
            let frame = Frame::around(Extent { min: at(0.0, 0.0) - by, max: at(1.0, 1.0) + by }, 400);
            let table = Table::new(&frame, &[vec![board]], 4.0, Seed::of_slug("field"));
            for shadow in &table.shadows {
                assert!(shadow.values.len() as f64 <= MOST_CELLS + 8192.0, "{size_mm}: {}", shadow.values.len());
                // Dark under the board's middle, light beyond its corner.
                let (middle, corner) = (0.5 * size_mm as f32, (size_mm + margin) as f32);
                let under = shadow.at(middle + shadow.shift[0], middle + shadow.shift[1]);
                assert!(size_mm < 1.0 || under > 0.95, "{size_mm}: {under}");
                assert!(shadow.at(corner, corner) < 0.3, "{size_mm}");
            }
        }
    }
}
