//! Watercolour: one transparent wash for each paint cell.
//!
//! Reflected light = ground × T^D for each channel: T is what one full layer of the paint lets through and back, D the amount of pigment at a place.
//! D wanders slowly, runs out in one direction as a brush does, gathers along the border where a wash dries last, stands in crinkled
//! back-runs where water pushed it, and settles in the hollows of the ground. No cell has the wash of another. Own model, common practice, no source.

use super::linear::{Light, exp, smoothstep};
use super::loosen::inside;
use super::noise::{Noise, Seed, Shape};
use crate::paint::Cell;
use crate::shape::{Extent, Point};

/// The noises that all washes of a picture draw from, each at places of its own.
#[derive(Debug)]
pub struct Water {
    slow: Noise,
    mid: Noise,
    crinkle: Noise,
    grain: Noise,
    apart: Noise,
    rim: Noise,
}

impl Water {
    /// For pictures that reach so far, with pixels of this size.
    pub fn new(seed: Seed, reach_mm: f32, pixel_mm: f32) -> Water {
        let seed = seed.named("water");
        // Places are turned and moved for each cell, so noise must reach farther than the picture does.
        let noise = |name, shape| Noise::new(seed.named(name), shape, reach_mm * 1.5 + 60.0, pixel_mm);
        Water {
            slow: noise("slow", Shape::round(40.0, 2)),
            mid: noise("mid", Shape { along_mm: 13.0, across_mm: 11.0, octaves: 3, gain: 0.55 }),
            crinkle: noise("crinkle", Shape { along_mm: 9.0, across_mm: 9.0, octaves: 5, gain: 0.62 }),
            grain: noise("grain", Shape { along_mm: 0.38, across_mm: 0.38, octaves: 3, gain: 0.95 }),
            apart: noise("apart", Shape::round(22.0, 2)),
            rim: noise("rim", Shape::round(7.0, 2)),
        }
    }
}

/// Where water ran back into a drying wash.
#[derive(Clone, Copy, Debug)]
struct Bloom {
    at: [f32; 2],
    radius_mm: f32,
    depth: f32,
}

/// One place of a cell.
#[derive(Clone, Copy, Debug)]
pub struct Spot {
    /// On the board, mm.
    pub place: [f32; 2],
    /// From the cell's border, mm.
    pub border_mm: f32,
    /// Positive where the ground lies low.
    pub hollow: f32,
    /// From [`Wash::slow`].
    pub slow: [f32; 3],
}

/// One cell's wash.
#[derive(Debug)]
pub struct Wash {
    /// Logarithm of T for each channel.
    ln_through: Light,
    /// How the two pigments of the mix part, by channel.
    parting: Light,
    centre: [f32; 2],
    turn: [f32; 2],
    shift: [f32; 2],
    fade: [f32; 2],
    full: f32,
    swing: f32,
    granular: f32,
    rim: f32,
    front: f32,
    blooms: Vec<Bloom>,
}

/// Amount of pigment that gives a paint's own colour on average.
const FULL: f32 = 0.90;

/// A place inside a cell: the first of some tried in its box.
fn within(cell: &Cell, seed: Seed) -> Option<[f32; 2]> {
    let around = Extent::of(&cell.face.outer)?;
    (0..12).find_map(|n| {
        let x = around.min.x + around.width_mm() * f64::from(seed.unit(2 * n));
        let y = around.min.y + around.height_mm() * f64::from(seed.unit(2 * n + 1));
        inside(Point::new(x, y), &cell.face).then_some([x as f32, y as f32])
    })
}

impl Wash {
    /// The wash of a cell; `paint` is the paint's colour and `ground` the ground's, `kind` the paint's index.
    pub fn new(seed: Seed, number: usize, kind: usize, cell: &Cell, paint: Light, ground: Light) -> Wash {
        let paint_seed = seed.named("paint").numbered(kind);
        let seed = seed.named("wash").numbered(number);
        let ln_through: Light = std::array::from_fn(|c| libm::logf((paint[c] / ground[c]).clamp(0.035, 0.955)));
        // Pale washes vary more in pigment to be seen to vary at all.
        let weight = -(0.3 * ln_through[0] + 0.5 * ln_through[1] + 0.2 * ln_through[2]);
        let swing =
            (1.35 - 0.40 * weight + 0.9 * (1.0 - 6.0 * weight).max(0.0)).clamp(0.6, 2.2) * (0.8 + 0.4 * seed.unit(1));
        let angle = std::f32::consts::TAU * seed.unit(2);
        let area = (cell.area_mm2 as f32).max(1.0);
        let size = area.sqrt();
        let fade_angle = std::f32::consts::TAU * seed.unit(3);
        let fade = (0.10 + 0.20 * seed.unit(4)) * smoothstep(6.0, 30.0, size) / (0.6 * size);
        let room = cell.label.room_mm as f32;
        let centre = [cell.label.at_mm.x as f32, cell.label.at_mm.y as f32];
        let mut blooms = Vec::new();
        let expected = area / 1500.0 + 0.25;
        let count = (expected * (0.4 + 1.2 * seed.unit(5))) as usize;
        for n in 0..count.min(6) {
            let Some(at) = within(cell, seed.numbered(20 + n)) else { continue };
            let large = seed.unit(40 + n);
            blooms.push(Bloom {
                at,
                radius_mm: (0.25 + 0.75 * large * large) * (room * 1.3).clamp(2.0, 15.0),
                depth: 0.55 + 0.45 * seed.unit(50 + n),
            });
        }
        let parting = 0.05 * (0.4 + 0.6 * paint_seed.unit(1));
        let way = std::f32::consts::TAU * paint_seed.unit(2);
        Wash {
            ln_through,
            parting: [parting * libm::cosf(way), parting * libm::cosf(way + 2.1), parting * libm::cosf(way + 4.2)],
            centre,
            turn: [libm::cosf(angle), libm::sinf(angle)],
            shift: [60.0 * seed.signed(6), 60.0 * seed.signed(7)],
            fade: [fade * libm::cosf(fade_angle), fade * libm::sinf(fade_angle)],
            full: FULL * (0.94 + 0.12 * seed.unit(8)),
            swing,
            granular: 0.024 + 0.050 * paint_seed.unit(3),
            rim: 0.34 + 0.26 * seed.unit(9),
            front: seed.signed(10) * 0.7,
            blooms,
        }
    }

    /// Where a place lies in this cell's own noise.
    fn own(&self, x: f32, y: f32) -> [f32; 2] {
        let (dx, dy) = (x - self.centre[0], y - self.centre[1]);
        [dx * self.turn[0] + dy * self.turn[1] + self.shift[0], dy * self.turn[0] - dx * self.turn[1] + self.shift[1]]
    }

    /// What changes slowly over the cell, for [`Spot::slow`].
    pub fn slow(&self, water: &Water, x: f32, y: f32) -> [f32; 3] {
        let [u, v] = self.own(x, y);
        [water.slow.at(u, v), water.mid.at(u, v), water.apart.at(u, v)]
    }

    /// Amount of pigment at a place.
    fn pigment(&self, water: &Water, spot: &Spot) -> f32 {
        let ([x, y], border_mm) = (spot.place, spot.border_mm);
        let (dx, dy) = (x - self.centre[0], y - self.centre[1]);
        let [u, v] = self.own(x, y);
        let [slow, mid, _] = spot.slow;
        let crinkle = water.crinkle.at(u, v);
        let fade = (dx * self.fade[0] + dy * self.fade[1]).clamp(-0.4, 0.4);
        let mut d = 1.0 + self.swing * (0.20 * slow + 0.085 * mid + 0.02 * crinkle) + fade;
        // A drying front: a soft slope of pigment on the wet side, a crinkled edge towards the dry one.
        let front = slow + 0.30 * crinkle - self.front;
        d += self.swing
            * if front > 0.0 {
                0.24 * exp(-front / 0.16) - 0.07 * exp(-front / 1.2)
            } else {
                0.24 * exp(front / 0.045) - 0.07 * exp(front / 0.06)
            };
        for bloom in &self.blooms {
            let (bx, by) = (x - bloom.at[0], y - bloom.at[1]);
            let far = (bx * bx + by * by).sqrt();
            if far > 2.2 * bloom.radius_mm + 2.0 {
                continue;
            }
            let edge = far - bloom.radius_mm * (1.0 + 0.17 * crinkle + 0.12 * mid);
            let scale = 0.13 * bloom.radius_mm + 0.3;
            // Pale inside, feathered towards a dark edge that ends short outside.
            d += bloom.depth
                * self.swing
                * if edge < 0.0 {
                    0.40 * exp(edge / (0.55 * scale)) - 0.34 * (1.0 - exp(edge / (2.2 * scale))) * (0.8 + 0.25 * mid)
                } else {
                    0.40 * exp(-edge / (0.20 * scale))
                };
        }
        let rim = if border_mm < 4.0 { water.rim.at(v, u) } else { 0.0 };
        let settled = self.rim * (0.75 + 0.45 * rim).max(0.05);
        let slope = (1.0 - border_mm / 6.0).max(0.0);
        d += settled * exp(-border_mm / 0.5) + 0.20 * slope * slope * slope;
        // A little less just inside the dark rim, from where its pigment came.
        let inside = (border_mm - 1.5) / 0.9;
        d -= 0.16 * settled * exp(-inside * inside);
        let grain = water.grain.at(u, v);
        d *= 1.0 + self.granular * (grain + 0.8 * spot.hollow);
        self.full * d.max(0.12)
    }

    /// Light that comes back from the ground through the wash.
    pub fn reflect(&self, water: &Water, ground: Light, spot: &Spot) -> Light {
        let d = self.pigment(water, spot);
        let apart = spot.slow[2];
        std::array::from_fn(|c| ground[c] * exp(self.ln_through[c] * d * (1.0 + self.parting[c] * apart)))
    }
}
