//! Wood, sawn or peeled from a log that never was: rings, fibres, pores and sheen from the species' group and two tones.
//!
//! In: a [`Wood`], a seed, the board's box. Out: linear light of the bare face for a band of pixels.
//! A flat-sawn board lies off the pith of a cone of rings, so the rings leave cathedrals; a rift board lies far from it and shows lines;
//! a plywood's face is peeled along the rings and shows their contours. Own model, common practice, no source.

use std::ops::Range;

use super::coarse::Coarse;
use super::frame::Frame;
use super::linear::{self, Light, exp, smoothstep};
use super::noise::{Noise, Seed, Shape};
use crate::shape::Extent;
use crate::shop::{Wood, WoodGroup};

/// How the board came out of its log.
#[derive(Clone, Copy, Debug)]
enum Sawing {
    /// Pith across by so much from the middle, so deep, rising by so much per mm of length.
    Board { across_mm: f32, deep_mm: f32, tilt: f32 },
    /// Peeled: depth in the rings wanders by so much, and leans across.
    Peeled { wander_mm: f32, lean: f32 },
}

/// One board's grain.
#[derive(Debug)]
pub struct Timber {
    group: WoodGroup,
    light: Light,
    dark: Light,
    seed: Seed,
    sawing: Sawing,
    ring_mm: f32,
    middle: [f32; 2],
    /// Direction of the grain in the picture.
    grain: [f32; 2],
    pixel_mm: f32,
    warp_across: Noise,
    warp_deep: Noise,
    years: Noise,
    fibres: Noise,
    fine: Noise,
    cloud: Noise,
    sheen: Noise,
    curl: Noise,
}

/// Noises that change slowly, at one place.
struct Slow {
    across: f32,
    deep: f32,
    cloud: f32,
}

/// A kind of short dark mark along the grain: vessels cut open, rays.
#[derive(Clone, Copy, Debug)]
struct Marks {
    name: &'static str,
    every_mm: [f32; 2],
    length_mm: [f32; 2],
    half_width_mm: [f32; 2],
    strength: f32,
    /// Share of places taken in early wood, and in late wood.
    taken: [f32; 2],
}

/// Largest pixel that shows vessels and rays in full, mm; at twice that they are gone.
const MARKS_SHOWN_MM: f32 = 1.0;

impl Timber {
    /// The grain of a board of `wood` around `extent`, for pictures with pixels of this size.
    pub fn new(wood: &Wood, seed: Seed, extent: Extent, reach_mm: f32, pixel_mm: f32) -> Timber {
        let seed = seed.named("timber");
        let (wide, high) = (extent.width_mm() as f32, extent.height_mm() as f32);
        // Boards are cut with the grain along their longer side.
        let turn = 0.03 * seed.signed(0);
        let grain = if high > 1.15 * wide { [turn, 1.0] } else { [1.0, turn] };
        let across = wide.min(high);
        let sawing = if wood.plies() {
            Sawing::Peeled { wander_mm: 6.5 + 3.0 * seed.unit(1), lean: 0.035 * seed.signed(2) }
        } else if seed.unit(3) < 0.62 {
            let tilt = (0.05 + 0.045 * seed.unit(5)) * if seed.unit(6) < 0.5 { 1.0 } else { -1.0 };
            Sawing::Board { across_mm: 0.3 * across * seed.signed(4), deep_mm: 22.0 + 22.0 * seed.unit(7), tilt }
        } else {
            let side = if seed.unit(6) < 0.5 { 1.0 } else { -1.0 };
            Sawing::Board {
                across_mm: side * (130.0 + 120.0 * seed.unit(4)),
                deep_mm: 70.0 + 60.0 * seed.unit(7),
                tilt: 0.03 * seed.signed(5),
            }
        };
        let noise = |name, shape| Noise::new(seed.named(name), shape, reach_mm, pixel_mm);
        Timber {
            group: wood.group,
            light: linear::of(wood.tones[0]),
            dark: linear::of(wood.tones[1]),
            seed,
            sawing,
            ring_mm: match wood.group {
                WoodGroup::Softwood => 2.6,
                WoodGroup::RingPorous => 2.5,
                WoodGroup::DiffusePorous | WoodGroup::Fibreboard => 3.1,
            } * (0.8 + 0.5 * seed.unit(8)),
            middle: [0.5 * (extent.min.x + extent.max.x) as f32, 0.5 * (extent.min.y + extent.max.y) as f32],
            grain,
            pixel_mm,
            warp_across: noise("across", Shape::long(150.0, 30.0, 3)),
            warp_deep: noise("deep", Shape::long(210.0, 60.0, 4)),
            years: noise("years", Shape::round(26.0, 2)),
            fibres: noise("fibres", Shape { along_mm: 34.0, across_mm: 0.9, octaves: 3, gain: 0.72 }),
            fine: noise("fine", Shape { along_mm: 5.0, across_mm: 0.26, octaves: 2, gain: 0.7 }),
            cloud: noise("cloud", Shape::long(90.0, 38.0, 3)),
            sheen: noise("sheen", Shape::long(130.0, 44.0, 2)),
            curl: noise("curl", Shape::long(9.0, 46.0, 2)),
        }
    }

    /// Along and across the grain from the board's middle, mm.
    fn along_across(&self, x: f32, y: f32) -> [f32; 2] {
        let (dx, dy) = (x - self.middle[0], y - self.middle[1]);
        [dx * self.grain[0] + dy * self.grain[1], dy * self.grain[0] - dx * self.grain[1]]
    }

    /// Years from the pith: the whole part counts rings, the rest is the season. Also how far fibres are carried across, mm.
    fn year(&self, u: f32, v: f32) -> (f32, f32) {
        self.year_where(u, v, self.warp_across.at(u, v), self.warp_deep.at(u, v))
    }

    /// The same where both warps are known.
    fn year_where(&self, u: f32, v: f32, across: f32, deep: f32) -> (f32, f32) {
        let carried = 3.4 * across;
        let radius = match self.sawing {
            Sawing::Board { across_mm, deep_mm, tilt } => {
                let across = v - across_mm + carried;
                let below = deep_mm + tilt * u + 2.6 * deep;
                (across * across + below * below).sqrt()
            }
            Sawing::Peeled { wander_mm, lean } => 60.0 + wander_mm * deep + lean * v + 0.25 * carried,
        };
        let uneven = radius + 1.7 * self.years.at(radius, 31.0);
        ((uneven / self.ring_mm).max(0.0), carried)
    }

    /// Darkness within the year, 0 to 1, softened to what a pixel can show.
    fn season(&self, year: f32) -> f32 {
        let whole = year as usize;
        let f = year - whole as f32;
        let back = (1.6 * self.pixel_mm / self.ring_mm).clamp(0.05, 0.3);
        let fall = 1.0 - smoothstep(1.0 - back, 1.0, f);
        let strength = 0.55 + 0.45 * self.seed.unit(1000 + whole);
        let rise = match self.group {
            WoodGroup::Softwood => {
                let s = (f / 0.84).min(1.0);
                s * s * (0.35 + 0.65 * s)
            }
            WoodGroup::RingPorous => {
                0.75 * (1.0 - smoothstep(0.12, 0.36, f)) * smoothstep(0.0, 0.06, f) + 0.38 * smoothstep(0.3, 1.0, f)
            }
            WoodGroup::DiffusePorous | WoodGroup::Fibreboard => {
                let late = smoothstep(0.55, 0.97, f);
                0.30 * f + 0.70 * late * late
            }
        };
        rise * fall * strength
    }

    fn tone(&self, u: f32, v: f32, slow: &Slow) -> f32 {
        if self.group == WoodGroup::Fibreboard {
            return 0.45 + 0.10 * slow.cloud + 0.10 * self.fine.at(v * 1.7, u * 0.6) + 0.08 * self.fine.at(u, v);
        }
        let (year, carried) = self.year_where(u, v, slow.across, slow.deep);
        // Fibres run with the rings, so they bend where the rings bend.
        let w = v + carried;
        let (base, ring) = match self.group {
            WoodGroup::Softwood => (0.10, 0.70),
            WoodGroup::RingPorous => (0.16, 0.52),
            _ => (0.22, 0.54),
        };
        base + ring * self.season(year) + 0.09 * self.fibres.at(u, w) + 0.045 * self.fine.at(u, w) + 0.105 * slow.cloud
    }

    /// Slow tone alone, about 0.35: all that shows faintly through a white ground.
    pub fn slow_tone(&self, x: f32, y: f32) -> f32 {
        let [u, v] = self.along_across(x, y);
        0.36 + 0.16 * self.cloud.at(u, v)
    }

    /// Between the species' two tones.
    pub fn colour(&self, tone: f32) -> Light {
        linear::mix(self.light, self.dark, tone.clamp(-0.15, 1.2))
    }

    /// Bare wood for some rows and columns, row by row.
    pub fn band(&self, frame: &Frame, rows: Range<usize>, columns: Range<usize>) -> Vec<Light> {
        let pores = self.marks(frame, rows.clone(), columns.clone());
        let mut out = Vec::with_capacity(pores.len());
        let deep = linear::times(self.dark, [0.42, 0.36, 0.32]);
        let field = |x: f32, y: f32| {
            let [u, v] = self.along_across(x, y);
            [&self.warp_across, &self.warp_deep, &self.cloud, &self.sheen, &self.curl].map(|n| n.at(u, v))
        };
        let mut coarse = Coarse::over(frame, &rows, &columns);
        for (row, pores) in rows.zip(pores.chunks_exact(columns.len().max(1))) {
            let y = frame.y_mm(row);
            for (column, pore) in columns.clone().zip(pores) {
                let [u, v] = self.along_across(frame.x_mm(column), y);
                let [across, deep_warp, cloud, sheen, curl] = coarse.at(column, row, &field);
                let slow = Slow { across, deep: deep_warp, cloud };
                let face = linear::mix(self.colour(self.tone(u, v, &slow)), deep, *pore);
                let shine = 1.0 + 0.022 * sheen + 0.013 * curl;
                // Heartwood drifts between warmer and cooler.
                out.push([
                    face[0] * shine * (1.0 + 0.012 * sheen),
                    face[1] * shine,
                    face[2] * shine * (1.0 - 0.02 * sheen),
                ]);
            }
        }
        out
    }

    fn kinds(&self) -> Vec<Marks> {
        let brightness = linear::luminance(self.light);
        match self.group {
            WoodGroup::Softwood | WoodGroup::Fibreboard => Vec::new(),
            WoodGroup::RingPorous => vec![
                Marks {
                    name: "vessels",
                    every_mm: [2.3, 0.27],
                    length_mm: [1.6, 6.5],
                    half_width_mm: [0.06, 0.13],
                    strength: 0.62,
                    taken: [0.85, 0.05],
                },
                Marks {
                    name: "rays",
                    every_mm: [9.0, 2.2],
                    length_mm: [3.0, 14.0],
                    half_width_mm: [0.05, 0.12],
                    strength: 0.20,
                    taken: [0.5, 0.5],
                },
            ],
            // Dark woods of this group (walnut) show their vessels, pale ones (maple, lime) hardly do.
            WoodGroup::DiffusePorous if brightness < 0.26 => vec![Marks {
                name: "vessels",
                every_mm: [2.6, 0.6],
                length_mm: [1.2, 6.0],
                half_width_mm: [0.05, 0.10],
                strength: 0.62,
                taken: [0.85, 0.45],
            }],
            WoodGroup::DiffusePorous => vec![
                Marks {
                    name: "vessels",
                    every_mm: [1.3, 0.5],
                    length_mm: [0.5, 2.2],
                    half_width_mm: [0.03, 0.055],
                    strength: 0.30,
                    taken: [0.7, 0.5],
                },
                Marks {
                    name: "rays",
                    every_mm: [2.4, 1.3],
                    length_mm: [0.6, 2.4],
                    half_width_mm: [0.06, 0.11],
                    strength: 0.13,
                    taken: [0.6, 0.6],
                },
            ],
        }
    }

    /// How much of each pixel is vessel or ray.
    fn marks(&self, frame: &Frame, rows: Range<usize>, columns: Range<usize>) -> Vec<f32> {
        let wide = columns.len();
        let mut share = vec![0.0_f32; wide * rows.len()];
        if share.is_empty() {
            return share;
        }
        let corners = [
            (columns.start, rows.start),
            (columns.end, rows.start),
            (columns.start, rows.end),
            (columns.end, rows.end),
        ]
        .map(|(column, row)| self.along_across(frame.x_mm(column), frame.y_mm(row)));
        // What a pixel cannot show is left out, as in noise; else a board as wide as a field would take as long as it is wide.
        let shown = 1.0 - smoothstep(MARKS_SHOWN_MM, 2.0 * MARKS_SHOWN_MM, self.pixel_mm);
        for kind in self.kinds().into_iter().filter(|_| shown > 0.0) {
            let reach = kind.length_mm[1];
            let seed = self.seed.named(kind.name);
            let range = |axis: usize| {
                let least = corners.iter().fold(f32::MAX, |m, c| m.min(c[axis])) - reach;
                let most = corners.iter().fold(f32::MIN, |m, c| m.max(c[axis])) + reach;
                (least / kind.every_mm[axis]).floor() as i32..=(most / kind.every_mm[axis]).floor() as i32
            };
            for j in range(1) {
                let line = seed.numbered((j + 100_000) as usize);
                for i in range(0) {
                    let own = line.numbered((i + 100_000) as usize);
                    let u = (i as f32 + own.unit(1)) * kind.every_mm[0];
                    let v = (j as f32 + own.unit(2)) * kind.every_mm[1];
                    let chance = own.unit(3);
                    if chance >= kind.taken[0].max(kind.taken[1]) {
                        continue;
                    }
                    let (year, carried) = self.year(u, v);
                    let early = 1.0 - smoothstep(0.22, 0.34, year - (year as usize) as f32);
                    if chance >= kind.taken[1] + (kind.taken[0] - kind.taken[1]) * early {
                        continue;
                    }
                    let between = |limits: [f32; 2], t: f32| limits[0] + (limits[1] - limits[0]) * t * t;
                    let half = 0.5 * between(kind.length_mm, own.unit(4));
                    let slope = (carried - 3.4 * self.warp_across.at(u + 2.0, v)) / 2.0 + 0.012 * own.signed(5);
                    let mark = Mark {
                        ends: [[u - half, v - half * slope], [u + half, v + half * slope]],
                        half_width_mm: between(kind.half_width_mm, own.unit(6)),
                        strength: shown * kind.strength * (0.55 + 0.45 * own.unit(7)),
                    };
                    self.lay(mark, frame, &rows, &columns, &mut share);
                }
            }
        }
        share
    }

    fn lay(&self, mark: Mark, frame: &Frame, rows: &Range<usize>, columns: &Range<usize>, share: &mut [f32]) {
        let [a, b] = mark.ends.map(|[u, v]| {
            let x = self.middle[0] + u * self.grain[0] - v * self.grain[1];
            let y = self.middle[1] + u * self.grain[1] + v * self.grain[0];
            frame.to_px(crate::shape::Point::new(f64::from(x), f64::from(y)))
        });
        let half = mark.half_width_mm * frame.px_per_mm as f32;
        // A pixel blurs by about 0.45 of its size; what is thinner keeps its weight, not its blackness.
        let blur2 = half * half + 0.2;
        let peak = mark.strength * half / blur2.sqrt();
        let reach = 2.4 * blur2.sqrt();
        let (top, bottom) = (a[1].min(b[1]) - reach, a[1].max(b[1]) + reach);
        let (left, right) = (a[0].min(b[0]) - reach, a[0].max(b[0]) + reach);
        let d = [b[0] - a[0], b[1] - a[1]];
        let per = 1.0 / (d[0] * d[0] + d[1] * d[1]).max(1e-9);
        for row in rows.clone().skip((top - rows.start as f32).max(0.0) as usize) {
            if row as f32 > bottom {
                break;
            }
            let py = row as f32 + 0.5 - a[1];
            let line = &mut share[(row - rows.start) * columns.len()..][..columns.len()];
            for column in columns.clone().skip((left - columns.start as f32).max(0.0) as usize) {
                if column as f32 > right {
                    break;
                }
                let px = column as f32 + 0.5 - a[0];
                let t = ((px * d[0] + py * d[1]) * per).clamp(0.0, 1.0);
                let (ox, oy) = (px - t * d[0], py - t * d[1]);
                let s = 2.0 * t - 1.0;
                let add = peak * (1.0 - s * s * s * s) * exp(-0.5 * (ox * ox + oy * oy) / blur2);
                let was = &mut line[column - columns.start];
                *was += (1.0 - *was) * add;
            }
        }
    }
}

#[derive(Clone, Copy, Debug)]
struct Mark {
    ends: [[f32; 2]; 2],
    half_width_mm: f32,
    strength: f32,
}
