//! The upper face of a board before it is cut: oiled or bare wood, white ground, washes and score lines.
//!
//! In: a [`Subject`], a finish and a frame. Out: a [`Face`] texture in linear light on the frame's own pixels, drawn in bands.
//! Never here: cuts, light and shadow: the face may be taken apart afterwards.

use std::ops::Range;

use rayon::prelude::*;

use super::Subject;
use super::coarse::Coarse;
use super::fields::{Coverage, Nearest};
use super::frame::{Frame, Outline, Side, thinned};
use super::linear::{self, Light, exp};
use super::noise::{Noise, Seed, Shape};
use super::wash::{Spot, Wash, Water};
use super::wood::Timber;
use crate::shape::{Extent, Rgb};

/// What was done to the wood.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Finish {
    /// Oiled, no picture.
    Oiled,
    /// As planed, score lines burnt in.
    Bare,
    /// White ground, score lines burnt in.
    Primed,
    /// White ground and the plan's washes.
    Painted,
}

/// Colours of a face, in linear light, on the pixels of its frame.
#[derive(Debug)]
pub struct Texture {
    /// Where it lies.
    pub frame: Frame,
    /// Row by row.
    pub pixels: Vec<Light>,
}

/// Rows drawn at a time.
pub const BAND: usize = 48;
/// Warm white of the ground. Own choice.
const GESSO: Rgb = Rgb::new(0xf9, 0xf6, 0xed);
/// How far from a border a wash still knows of it, mm.
const BORDER_REACH_MM: f32 = 6.0;

/// The white ground: colour by thickness, brush marks and tooth.
struct Ground {
    brush: Noise,
    tooth: Noise,
    thin: Noise,
    turn: [f32; 2],
}

impl Ground {
    fn new(seed: Seed, reach_mm: f32, pixel_mm: f32) -> Ground {
        let seed = seed.named("ground");
        let angle = 0.5 * seed.signed(0);
        Ground {
            brush: Noise::new(
                seed.named("brush"),
                Shape { along_mm: 42.0, across_mm: 1.5, octaves: 3, gain: 0.7 },
                reach_mm * 1.5,
                pixel_mm,
            ),
            tooth: Noise::new(
                seed.named("tooth"),
                Shape { along_mm: 0.46, across_mm: 0.46, octaves: 3, gain: 0.95 },
                reach_mm,
                pixel_mm,
            ),
            thin: Noise::new(seed.named("thin"), Shape::long(30.0, 12.0, 3), reach_mm, pixel_mm),
            turn: [libm::cosf(angle), libm::sinf(angle)],
        }
    }

    /// Height of the dried ground at a place: brush marks, and tooth of unit spread.
    fn relief(&self, x: f32, y: f32) -> [f32; 2] {
        let u = x * self.turn[0] + y * self.turn[1];
        let v = y * self.turn[0] - x * self.turn[1];
        [self.brush.at(u, v), self.tooth.at(x, y)]
    }

    /// Colour and hollowness of some rows and columns, each pixel lit by its slope towards the next.
    fn band(&self, timber: &Timber, frame: &Frame, rows: &Range<usize>, columns: &Range<usize>) -> Vec<(Light, f32)> {
        let wide = columns.len() + 1;
        let relief: Vec<[f32; 2]> = (rows.start..=rows.end)
            .flat_map(|row| {
                (columns.start..=columns.end).map(move |column| self.relief(frame.x_mm(column), frame.y_mm(row)))
            })
            .collect();
        let field = |x: f32, y: f32| [self.thin.at(x, y), timber.slow_tone(x, y)];
        let mut slow = Coarse::over(frame, rows, columns);
        // Slopes are those over 0.16 mm, whatever a pixel measures.
        let per = 0.16 / frame.pixel_mm();
        let mut out = Vec::with_capacity(rows.len() * columns.len());
        for row in rows.clone() {
            for column in columns.clone() {
                let at = (row - rows.start) * wide + column - columns.start;
                let (here, right, below) = (relief[at], relief[at + 1], relief[at + wide]);
                let towards = |k: usize| per * (0.6 * (right[k] - here[k]) + 0.8 * (below[k] - here[k]));
                // Light from the upper left: what rises towards it is brighter.
                let slope = 0.55 * towards(0) + 0.6 * towards(1);
                let [thin, tone] = slow.at(column, row, &field);
                let through = (0.095 + 0.025 * thin).clamp(0.03, 0.2);
                let colour = linear::mix(linear::of(GESSO), timber.colour(tone), through);
                let lit = linear::scale(colour, 1.0 - (0.035 * slope).clamp(-0.05, 0.05));
                out.push((lit, -here[1] - 0.15 * here[0]));
            }
        }
        out
    }
}

/// The face of `subject` on the pixels of `frame`.
pub fn draw(subject: &Subject, finish: Finish, frame: Frame) -> Texture {
    let seed = Seed::of_slug(subject.slug);
    let painter = Painter::new(subject, finish, frame, seed);
    let mut pixels = vec![[0.0; 3]; frame.width * frame.height];
    let filled: Vec<Vec<bool>> = pixels
        .par_chunks_mut(BAND * frame.width)
        .enumerate()
        .map(|(n, band)| {
            let top = n * BAND;
            painter.band(top..(top + BAND).min(frame.height), band)
        })
        .collect();
    let mut texture = Texture { frame, pixels };
    texture.grow(filled.concat());
    texture
}

impl Texture {
    /// Two pixels more all round, in the colour of the nearest, so that sampling near an edge never mixes in what is not board.
    fn grow(&mut self, mut filled: Vec<bool>) {
        let (wide, high) = (self.frame.width, self.frame.height);
        for _ in 0..2 {
            let before = filled.clone();
            for row in 0..high {
                for column in 0..wide {
                    let at = row * wide + column;
                    if before[at] {
                        continue;
                    }
                    let mut sum = [0.0; 3];
                    let mut count = 0.0;
                    for r in row.saturating_sub(1)..(row + 2).min(high) {
                        for c in column.saturating_sub(1)..(column + 2).min(wide) {
                            if before[r * wide + c] {
                                let p = self.pixels[r * wide + c];
                                sum = [sum[0] + p[0], sum[1] + p[1], sum[2] + p[2]];
                                count += 1.0;
                            }
                        }
                    }
                    if count > 0.0 {
                        self.pixels[at] = linear::scale(sum, 1.0 / count);
                        filled[at] = true;
                    }
                }
            }
        }
    }

    /// Colour at a place in px, by the Catmull–Rom cubic; outside, the nearest edge.
    pub fn sample(&self, x: f32, y: f32) -> Light {
        let (u, v) = (x - 0.5, y - 0.5);
        let (i, j) = (u.max(0.0) as usize, v.max(0.0) as usize);
        let (wx, wy) = (cubic((u - i as f32).clamp(0.0, 1.0)), cubic((v - j as f32).clamp(0.0, 1.0)));
        let (right, bottom) = (self.frame.width - 1, self.frame.height - 1);
        let columns: [usize; 4] = std::array::from_fn(|k| (i + k).saturating_sub(1).min(right));
        let mut sum = [0.0; 3];
        for (k, wy) in wy.iter().enumerate() {
            let row = (j + k).saturating_sub(1).min(bottom) * self.frame.width;
            for (column, wx) in columns.iter().zip(wx) {
                let p = self.pixels[row + column];
                let w = wx * wy;
                sum = [sum[0] + w * p[0], sum[1] + w * p[1], sum[2] + w * p[2]];
            }
        }
        sum.map(|v: f32| v.max(0.0))
    }
}

fn cubic(t: f32) -> [f32; 4] {
    let (t2, t3) = (t * t, t * t * t);
    [-0.5 * t3 + t2 - 0.5 * t, 1.5 * t3 - 2.5 * t2 + 1.0, -1.5 * t3 + 2.0 * t2 + 0.5 * t, 0.5 * t3 - 0.5 * t2]
}

/// Columns of a band between the first and the last that the board touches.
fn touched(share: &[f32], wide: usize) -> Range<usize> {
    let any = |column: &usize| share.iter().skip(*column).step_by(wide).any(|s| *s > 0.0);
    let left = (0..wide).find(any).unwrap_or(0);
    left..(left..wide).rev().find(any).map_or(wide, |c| c + 1)
}

/// All that the bands share.
struct Painter {
    finish: Finish,
    frame: Frame,
    timber: Timber,
    ground: Ground,
    water: Water,
    board: Vec<Outline>,
    cells: Vec<(Outline, Option<Wash>)>,
    borders: Vec<Side>,
    score: Vec<Side>,
    burn: Noise,
}

impl Painter {
    fn new(subject: &Subject, finish: Finish, frame: Frame, seed: Seed) -> Painter {
        let board: Vec<Outline> =
            subject.board.parts.iter().map(|part| Outline::new(&frame, [&part.outline], |p| p)).collect();
        let extent =
            subject.extent().unwrap_or(Extent { min: crate::shape::Point::ZERO, max: crate::shape::Point::ZERO });
        let (reach, pixel) = (frame.reach_mm(), frame.pixel_mm());
        let painted = finish == Finish::Painted;
        let ground = linear::of(GESSO);
        let mut cells = Vec::new();
        let mut borders = Vec::new();
        if let Some(plan) = subject.plan {
            for (n, cell) in plan.cells.iter().enumerate() {
                let outline = Outline::new(&frame, [&cell.face], |p| p);
                borders.extend(outline.sides());
                let colour = cell.paint.and_then(|kind| subject.paints.get(kind).map(|c| (kind, linear::of(*c))));
                let wash = colour.map(|(kind, colour)| Wash::new(seed, n, kind, cell, colour, ground));
                cells.push((outline, wash));
            }
        }
        let mut score: Vec<Side> = Vec::new();
        for line in subject.score {
            let thin = thinned(&line.points, line.closed, 0.03 / frame.px_per_mm);
            let ends = if line.closed { thin.len() } else { thin.len().saturating_sub(1) };
            score.extend((0..ends).map(|k| [frame.to_px(thin[k]), frame.to_px(thin[(k + 1) % thin.len()])]));
        }
        if score.is_empty() && matches!(finish, Finish::Bare | Finish::Primed) {
            // A drawing of fills alone: what a buyer fills in are its cells.
            score.clone_from(&borders);
        }
        if finish == Finish::Oiled {
            score.clear();
        }
        if !painted {
            cells.clear();
            borders.clear();
        }
        Painter {
            finish,
            frame,
            timber: Timber::new(subject.wood, seed, extent, reach, pixel),
            ground: Ground::new(seed, reach, pixel),
            water: Water::new(seed, reach, pixel),
            board,
            cells,
            borders,
            score,
            burn: Noise::new(seed.named("burn"), Shape::round(4.0, 2), reach, pixel),
        }
    }

    /// Paints some rows; gives which of their pixels the board touches.
    fn band(&self, rows: Range<usize>, out: &mut [Light]) -> Vec<bool> {
        let wide = self.frame.width;
        let mut share = vec![0.0_f32; out.len()];
        let mut cover = Coverage::default();
        for part in &self.board {
            if cover.take(part, rows.clone(), wide) {
                cover.each(|column, row, s| share[(row - rows.start) * wide + column] += s);
            }
        }
        if share.iter().all(|s| *s <= 0.0) {
            return vec![false; out.len()];
        }
        match self.finish {
            Finish::Oiled | Finish::Bare => self.wood(&rows, &share, out),
            Finish::Primed | Finish::Painted => self.washes(&rows, &share, out),
        }
        self.score(&rows, out);
        share.iter().map(|s| *s > 0.0).collect()
    }

    fn wood(&self, rows: &Range<usize>, share: &[f32], out: &mut [Light]) {
        let wide = self.frame.width;
        let columns = touched(share, wide);
        let band = self.timber.band(&self.frame, rows.clone(), columns.clone());
        for (line, wood) in out.chunks_exact_mut(wide).zip(band.chunks_exact(columns.len().max(1))) {
            for (pixel, wood) in line[columns.clone()].iter_mut().zip(wood) {
                *pixel = match self.finish {
                    // Oil deepens: the darker channels lose most.
                    Finish::Oiled => {
                        [wood[0] * 0.97, wood[1] * (0.90 + 0.06 * wood[1]), wood[2] * (0.80 + 0.15 * wood[2])]
                    }
                    _ => *wood,
                };
            }
        }
    }

    fn washes(&self, rows: &Range<usize>, share: &[f32], out: &mut [Light]) {
        let wide = self.frame.width;
        let columns = touched(share, wide);
        let ground = self.ground.band(&self.timber, &self.frame, rows, &columns);
        let ground_at = |column: usize, row: usize| {
            let column = column.clamp(columns.start, columns.end - 1) - columns.start;
            ground[(row - rows.start) * columns.len() + column]
        };
        let px_mm = self.frame.pixel_mm();
        let near = Nearest::new(&self.borders, rows.clone(), wide, BORDER_REACH_MM / px_mm);
        let mut painted = vec![0.0_f32; out.len()];
        let mut cover = Coverage::default();
        for (outline, wash) in &self.cells {
            let Some(wash) = wash else { continue };
            if !cover.take(outline, rows.clone(), wide) {
                continue;
            }
            let mut slow = Coarse::over(&self.frame, &cover.rows, &cover.columns);
            let field = |x: f32, y: f32| wash.slow(&self.water, x, y);
            cover.each(|column, row, s| {
                let at = (row - rows.start) * wide + column;
                let (ground, hollow) = ground_at(column, row);
                let spot = Spot {
                    place: [self.frame.x_mm(column), self.frame.y_mm(row)],
                    border_mm: near.square[at].sqrt() * px_mm,
                    hollow,
                    slow: slow.at(column, row, &field),
                };
                let colour = wash.reflect(&self.water, ground, &spot);
                let pixel = &mut out[at];
                *pixel = [pixel[0] + s * colour[0], pixel[1] + s * colour[1], pixel[2] + s * colour[2]];
                painted[at] += s;
            });
        }
        for (at, pixel) in out.iter_mut().enumerate() {
            let open = (share[at] - painted[at]).max(0.0);
            let all = painted[at] + open;
            if all > 0.0 {
                let g = ground_at(at % wide, rows.start + at / wide).0;
                *pixel = std::array::from_fn(|c| (pixel[c] + open * g[c]) / all);
            }
        }
    }

    /// A bell of brown along the score lines; the beam does not burn everywhere alike.
    fn score(&self, rows: &Range<usize>, out: &mut [Light]) {
        if self.score.is_empty() {
            return;
        }
        let px_mm = self.frame.pixel_mm();
        // On a bare ground the burnt line is all there is to see; under paint it is the edge of a wash.
        let [half_mm, strong, halo] =
            if self.finish == Finish::Painted { [0.085, 0.62, 0.16] } else { [0.12, 0.86, 0.30] };
        let half = half_mm / px_mm;
        let blur2 = half * half + 0.2;
        let peak = half / blur2.sqrt();
        let reach = 3.2 * blur2.sqrt().max(0.3 / px_mm);
        let near = Nearest::new(&self.score, rows.clone(), self.frame.width, reach);
        for (at, (pixel, square)) in out.iter_mut().zip(&near.square).enumerate() {
            if *square >= reach * reach {
                continue;
            }
            let (x, y) = (self.frame.x_mm(at % self.frame.width), self.frame.y_mm(rows.start + at / self.frame.width));
            let burn = 1.0 + 0.16 * self.burn.at(x, y);
            let warm = exp(-square.sqrt() * px_mm / 0.22) * halo * burn;
            let line = (strong * peak * exp(-0.5 * square / blur2) * burn).clamp(0.0, 0.95);
            let browned = linear::times(*pixel, [1.0 - 0.55 * warm, 1.0 - 0.8 * warm, 1.0 - warm]);
            *pixel = linear::mix(browned, linear::times(browned, [0.16, 0.09, 0.055]), line);
        }
    }
}
