//! Pieces on the table: kerf, scorch, rounded edges, sides and shadows under one light from the upper left.
//!
//! In: where each piece lies, the face texture, the table. Out: a whole picture in linear light, drawn in bands.
//! Two passes: faces and their silhouette first, then whatever the silhouette leaves open: sides below edges, and the shaded ground.

use std::ops::Range;

use rayon::prelude::*;

use super::coarse::Coarse;
use super::face::{BAND, Texture};
use super::fields::{Coverage, Nearest};
use super::frame::{Frame, Outline, Side};
use super::linear::{self, Light, exp};
use super::noise::{Noise, Seed, Shape};
use super::scene::Thing;
use super::table::{LEAN, Table};
use crate::shape::{Face, Point};

/// How its sides look.
#[derive(Clone, Copy, Debug)]
pub struct Sides {
    /// Colour of the wood, linear.
    pub wood: Light,
    /// Number of plies; 1 for solid wood.
    pub plies: u32,
    /// mm.
    pub thickness_mm: f64,
}

/// All that a picture shows.
#[derive(Debug)]
pub struct Stage<'a> {
    /// Window and scale.
    pub frame: Frame,
    /// What lies there.
    pub things: &'a [Thing<'a>],
    /// Outlines of the boards where the pieces lie together: what they leave open inside is kerf.
    pub boards: Option<Vec<&'a Face>>,
    /// Width of the kerf, mm.
    pub kerf_mm: f64,
    /// Colours of the face.
    pub texture: &'a Texture,
    /// Looks of the sides.
    pub sides: Sides,
    /// How much the rounded edges shine, 0 to 1.
    pub gloss: f32,
    /// Seeds what differs from piece to piece.
    pub seed: Seed,
}

/// Inside of a kerf: char in the dark.
const KERF: Light = [0.017, 0.0105, 0.0065];
/// How far from an edge it still shows on the face, mm.
const EDGE_REACH_MM: f32 = 1.7;
/// Towards the light, in the plane of the table.
const LIGHT: [f32; 2] = [-0.6, -0.8];

impl Stage<'_> {
    /// The picture, row by row, in linear light.
    pub fn draw(&self) -> Vec<Light> {
        let frame = &self.frame;
        let outlines: Vec<Outline> =
            self.things.par_iter().map(|t| Outline::new(frame, t.faces, |p| t.place.of(p))).collect();
        let boards: Vec<Outline> =
            self.boards.iter().flatten().map(|face| Outline::new(frame, [*face], |p| p)).collect();
        let lying: Vec<Vec<Face>> = match &self.boards {
            Some(boards) => boards.iter().map(|b| vec![(*b).clone()]).collect(),
            None => self.things.iter().map(|t| t.place.faces(t.faces)).collect(),
        };
        let table = Table::new(frame, &lying, self.sides.thickness_mm, self.seed);
        let burn = Noise::new(self.seed.named("scorch"), Shape::round(3.4, 3), frame.reach_mm(), frame.pixel_mm());
        let mut picture = vec![[0.0; 3]; frame.width * frame.height];
        let mut silhouette = vec![0_u8; picture.len()];
        let first = First { stage: self, outlines: &outlines, boards: &boards, table: &table, burn: &burn };
        picture
            .par_chunks_mut(BAND * frame.width)
            .zip(silhouette.par_chunks_mut(BAND * frame.width))
            .enumerate()
            .for_each(|(n, (band, shape))| {
                let top = n * BAND;
                first.band(top..(top + BAND).min(frame.height), band, shape);
            });
        let grain = Noise::new(
            self.seed.named("side"),
            Shape { along_mm: 0.9, across_mm: 0.9, octaves: 3, gain: 0.8 },
            frame.reach_mm(),
            frame.pixel_mm(),
        );
        picture.par_chunks_mut(BAND * frame.width).enumerate().for_each(|(n, band)| {
            let top = n * BAND;
            self.ground(top..(top + BAND).min(frame.height), band, &silhouette, &table, &grain);
        });
        picture
    }

    /// Puts sides and ground where the silhouette leaves a pixel open.
    fn ground(&self, rows: Range<usize>, band: &mut [Light], silhouette: &[u8], table: &Table, grain: &Noise) {
        let frame = &self.frame;
        let thick = (self.sides.thickness_mm * frame.px_per_mm) as f32;
        let lean = LEAN.map(|l| l * thick);
        let length = (lean[0] * lean[0] + lean[1] * lean[1]).sqrt();
        let steps = (length * 1.5).ceil().max(2.0) as usize;
        let mut slow = Coarse::over(frame, &rows, &(0..frame.width));
        let field = |x: f32, y: f32| table.slow(x, y);
        for (line, row) in band.chunks_exact_mut(frame.width).zip(rows) {
            let y = frame.y_mm(row);
            for (column, pixel) in line.iter_mut().enumerate() {
                let own = f32::from(silhouette[row * frame.width + column]) / 255.0;
                if own >= 0.999 {
                    continue;
                }
                let x = frame.x_mm(column);
                let slow = slow.at(column, row, &field);
                let mut seen = own;
                // Sides are seen only where their thing's own shade falls.
                if slow[1] > 0.002 && on_the_way(silhouette, frame, [column, row], lean, length) {
                    let facing = table.facing(x, y);
                    for step in 1..=steps {
                        let depth = step as f32 / steps as f32;
                        let share =
                            sampled(silhouette, frame, column as f32 - depth * lean[0], row as f32 - depth * lean[1]);
                        if share > seen {
                            let side = linear::scale(self.side(depth, x, y, facing, grain, table), share - seen);
                            *pixel = [pixel[0] + side[0], pixel[1] + side[1], pixel[2] + side[2]];
                            seen = share;
                        }
                        if seen >= 0.999 {
                            break;
                        }
                    }
                }
                if seen < 0.999 {
                    let ground = linear::scale(table.at(x, y, &slow), 1.0 - seen);
                    *pixel = [pixel[0] + ground[0], pixel[1] + ground[1], pixel[2] + ground[2]];
                }
            }
        }
    }

    /// A side at a depth, 0 at the face and 1 on the table: browned by the beam, its plies or end grain still to be seen.
    fn side(&self, depth: f32, x: f32, y: f32, facing: [f32; 2], grain: &Noise, table: &Table) -> Light {
        let along = x * -facing[1] + y * facing[0];
        let streak = grain.at(along * 1.6, depth * 0.6);
        let mut tone = 0.52 + 0.06 * streak;
        if self.sides.plies > 1 {
            let at = depth * self.sides.plies as f32;
            let within = at - at.floor();
            // Every other ply shows its end grain, which chars darker; glue lines are darkest.
            let end = (at as u32) % 2 == 1;
            tone *= if end { 0.46 } else { 1.25 };
            let glue = within.min(1.0 - within);
            tone *= 1.0 - 0.35 * exp(-glue * glue / 0.006);
        } else {
            tone *= 1.0 + 0.16 * grain.at(along * 0.5, 40.0) - 0.12 * (depth - 0.4);
        }
        // Away from the lamp; what faces right sees a little more of the room, and the foot sees less.
        let lit = 0.72 + 0.22 * (facing[0] * LIGHT[0] + facing[1] * LIGHT[1]) + 0.10 * facing[0];
        let lit = lit * (1.0 - 0.42 * depth * depth) * table.lamp(x, y);
        linear::scale(linear::times(self.sides.wood, [0.80, 0.60, 0.42]), (tone * lit).max(0.02))
    }
}

/// Whether anything of the silhouette lies between a pixel and where its own foot would stand.
fn on_the_way(silhouette: &[u8], frame: &Frame, [column, row]: [usize; 2], lean: [f32; 2], length: f32) -> bool {
    let steps = length.ceil().max(1.0) as usize;
    (0..=steps).any(|step| {
        let depth = step as f32 / steps as f32;
        let i = (column as f32 - depth * lean[0]).max(0.0) as usize;
        let j = (row as f32 - depth * lean[1]).max(0.0) as usize;
        let at = j * frame.width + i;
        let pair =
            |at: usize| silhouette.get(at..(at + 2).min(silhouette.len())).is_some_and(|p| p.iter().any(|s| *s > 0));
        pair(at) || pair(at + frame.width)
    })
}

/// Silhouette between pixels.
fn sampled(silhouette: &[u8], frame: &Frame, x: f32, y: f32) -> f32 {
    let (x, y) = (x.max(0.0), y.max(0.0));
    let (i, j) = ((x as usize).min(frame.width - 1), (y as usize).min(frame.height - 1));
    let (fx, fy) = ((x - i as f32).min(1.0), (y - j as f32).min(1.0));
    let right = (i + 1).min(frame.width - 1);
    let below = (j + 1).min(frame.height - 1);
    let at = |c: usize, r: usize| f32::from(silhouette[r * frame.width + c]) / 255.0;
    let a = at(i, j) + (at(right, j) - at(i, j)) * fx;
    let b = at(i, below) + (at(right, below) - at(i, below)) * fx;
    a + (b - a) * fy
}

/// The first pass.
struct First<'a> {
    stage: &'a Stage<'a>,
    outlines: &'a [Outline],
    boards: &'a [Outline],
    table: &'a Table,
    burn: &'a Noise,
}

impl First<'_> {
    fn band(&self, rows: Range<usize>, out: &mut [Light], silhouette: &mut [u8]) {
        let wide = self.stage.frame.width;
        let mut solid = vec![0.0_f32; out.len()];
        let mut cover = Coverage::default();
        for (n, (outline, thing)) in self.outlines.iter().zip(self.stage.things).enumerate() {
            if cover.take(outline, rows.clone(), wide) {
                self.thing(n, thing, &cover, rows.start, out, &mut solid);
            }
        }
        if !self.boards.is_empty() {
            self.close(&rows, out, &mut solid);
        }
        self.edges(&rows, out, &solid);
        for (shape, share) in silhouette.iter_mut().zip(&solid) {
            *shape = (share.min(1.0) * 255.0 + 0.5) as u8;
        }
    }

    /// Pieces that lie together leave no pixel open inside their board, whatever their outlines' thinning did.
    fn close(&self, rows: &Range<usize>, out: &mut [Light], solid: &mut [f32]) {
        let wide = self.stage.frame.width;
        let mut inside = vec![0.0_f32; out.len()];
        let mut cover = Coverage::default();
        for board in self.boards {
            if cover.take(board, rows.clone(), wide) {
                cover.each(|column, row, share| inside[(row - rows.start) * wide + column] += share);
            }
        }
        for ((pixel, share), inside) in out.iter_mut().zip(solid).zip(inside) {
            if *share > 0.0 {
                *pixel = linear::scale(*pixel, inside.min(1.0) / *share);
                *share = inside.min(1.0);
            }
        }
    }

    /// Lays one piece's face down; pieces differ a little in brightness and lie a little unevenly.
    fn thing(&self, n: usize, thing: &Thing, cover: &Coverage, first_row: usize, out: &mut [Light], solid: &mut [f32]) {
        let frame = &self.stage.frame;
        let texture = self.stage.texture;
        let seed = self.stage.seed.named("piece").numbered(n);
        let alone = self.stage.things.len() < 2 * self.boards.len().max(1);
        let own = if alone { 1.0 } else { 1.0 + 0.015 * seed.signed(0) };
        let tilt = if alone { [0.0; 2] } else { [0.0009 * seed.signed(1), 0.0009 * seed.signed(2)] };
        let centre = [thing.place.at.x as f32, thing.place.at.y as f32];
        let at_home = texture.frame == *frame && thing.place.at == thing.place.centre && thing.place.turn == [1.0, 0.0];
        cover.each(|column, row, share| {
            let at = (row - first_row) * frame.width + column;
            let (x, y) = (frame.x_mm(column), frame.y_mm(row));
            let face = if at_home {
                texture.pixels[row * frame.width + column]
            } else {
                let home = thing.place.back(Point::new(f64::from(x), f64::from(y)));
                let [px, py] = texture.frame.to_px(home);
                texture.sample(px, py)
            };
            let lit = share
                * self.table.lamp(x, y)
                * (own + (tilt[0] * (x - centre[0]) + tilt[1] * (y - centre[1])).clamp(-0.02, 0.02));
            let pixel = &mut out[at];
            *pixel = [pixel[0] + lit * face[0], pixel[1] + lit * face[1], pixel[2] + lit * face[2]];
            solid[at] += share;
        });
    }

    /// Kerf, scorch and rounding along every edge.
    fn edges(&self, rows: &Range<usize>, out: &mut [Light], solid: &[f32]) {
        let frame = &self.stage.frame;
        let px_mm = frame.pixel_mm();
        let reach = EDGE_REACH_MM / px_mm;
        let near = Nearest::new(&sides_near(self.outlines, rows, reach), rows.clone(), frame.width, reach);
        let rim = (!self.boards.is_empty())
            .then(|| Nearest::new(&sides_near(self.boards, rows, reach), rows.clone(), frame.width, reach));
        // Together, pieces are drawn to their shared line and the kerf is laid over it; apart, they end where the kerf did.
        let half = if self.boards.is_empty() { 0.0 } else { (0.5 * self.stage.kerf_mm) as f32 };
        for (at, pixel) in out.iter_mut().enumerate() {
            if solid[at] <= 0.0 || near.square[at] >= reach * reach {
                continue;
            }
            let length = near.square[at].sqrt();
            let place = [frame.x_mm(at % frame.width), frame.y_mm(rows.start + at / frame.width)];
            // Where the nearest edge is the rim of the board, there is no kerf beside it.
            let cut = rim.as_ref().map_or(0.0, |rim| linear::smoothstep(0.2, 1.4, rim.square[at].sqrt() - length));
            let facing = if length > 1e-3 {
                let towards = near.towards[at];
                (towards[0] * LIGHT[0] + towards[1] * LIGHT[1]) / length * linear::smoothstep(0.0, 0.7, length)
            } else {
                0.0
            };
            let d = (length * px_mm - half * cut).max(0.2 * px_mm);
            let even = if rim.is_some() { 1.0 - cut } else { 0.0 };
            self.edge(pixel, place, d, facing, even, solid[at]);
            if cut > 0.0 && half > 0.0 {
                // A slot seen through pixels: its width blurred by theirs. The rounded rims fall into its shade.
                let wide = (half + 0.045) / px_mm;
                let share = cut * (rises((length + wide) / 0.55) - rises((length - wide) / 0.55));
                // Seen from the lower right, the upper left wall of the slot shows before the dark does.
                let wall = (facing.max(0.0) * exp(-(half - length * px_mm).max(0.0) / 0.05) * 0.06).min(0.1);
                let kerf = linear::mix(KERF, self.stage.sides.wood, wall);
                let kerf = linear::scale(kerf, solid[at]);
                *pixel = linear::mix(*pixel, kerf, share);
            }
        }
    }

    /// One pixel of a face at a distance from its edge, which faces the light by so much; along the rim the burn is `even`.
    fn edge(&self, pixel: &mut Light, place: [f32; 2], d: f32, facing: f32, even: f32, solid: f32) {
        // The beam lingers here and hurries there: the brown along a cut is never one line.
        let linger = (0.62 + 0.34 * (1.0 - 0.75 * even) * self.burn.at(place[0], place[1])).clamp(0.10, 1.3);
        let scorch = (linger * ((0.50 + 0.35 * even) * exp(-d / 0.22) + 0.12 * exp(-d / 0.7))).min(0.9);
        let s = (1.0 - d / 0.55).max(0.0);
        let slope = s * s;
        let bent = 1.0 + slope * if facing > 0.0 { (0.32 - 0.16 * even) * facing } else { 0.44 * facing };
        let glint = 0.16 * self.stage.gloss * slope * facing.max(0.0) * facing.max(0.0) * solid;
        let light = [bent * (1.0 - 0.50 * scorch), bent * (1.0 - 0.68 * scorch), bent * (1.0 - 0.80 * scorch)];
        *pixel = std::array::from_fn(|c| pixel[c] * light[c] + glint);
    }
}

fn sides_near(outlines: &[Outline], rows: &Range<usize>, reach: f32) -> Vec<Side> {
    outlines
        .iter()
        .filter(|o| o.max[1] + reach >= rows.start as f32 && o.min[1] - reach <= rows.end as f32)
        .flat_map(Outline::sides)
        .collect()
}

/// About the normal distribution's integral (logistic, within 0.01).
fn rises(z: f32) -> f32 {
    1.0 / (1.0 + exp(-1.702 * z))
}
