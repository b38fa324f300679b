//! Smooth noise over the board, in mm: cubic B-splines over random lattices.
//!
//! In: a [`Seed`] from the slug, feature sizes in mm. Out: values of zero mean and about unit spread.
//! A B-spline over white noise is nearly a Gaussian filter: no axis shows, so no weave does, and it is smooth to the second derivative.
//! Lattices repeat after at least 256 nodes or the whole board, whichever is less: no texture comes twice in a picture.

/// Where randomness comes from: the slug, and a name for each use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Seed(u64);

impl Seed {
    /// First 64 bits of BLAKE3 of the slug.
    pub fn of_slug(slug: &str) -> Seed {
        let hash = blake3::hash(slug.as_bytes());
        let mut first = [0; 8];
        first.copy_from_slice(&hash.as_bytes()[..8]);
        Seed(u64::from_le_bytes(first))
    }

    /// An independent seed for one use (FNV-1a of its name, mixed in).
    pub fn named(self, name: &str) -> Seed {
        let hash =
            name.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |h, b| (h ^ u64::from(b)).wrapping_mul(0x100_0000_01b3));
        Seed(mix(self.0 ^ hash))
    }

    /// An independent seed for the `n`th of a kind.
    pub fn numbered(self, n: usize) -> Seed {
        Seed(mix(self.0.wrapping_add((n as u64 + 1).wrapping_mul(0x9e37_79b9_7f4a_7c15))))
    }

    /// The `n`th random number of this seed, 0 to 1.
    pub fn unit(self, n: usize) -> f32 {
        (self.numbered(n).0 >> 40) as f32 / (1_u64 << 24) as f32
    }

    /// The `n`th random number of this seed, −1 to 1.
    pub fn signed(self, n: usize) -> f32 {
        2.0 * self.unit(n) - 1.0
    }
}

/// The finaliser of SplitMix64 (Steele, Lea and Flood 2014).
fn mix(mut x: u64) -> u64 {
    x = (x ^ (x >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    x = (x ^ (x >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    x ^ (x >> 31)
}

/// What a noise looks like.
#[derive(Clone, Copy, Debug)]
pub struct Shape {
    /// Feature size along x, mm.
    pub along_mm: f32,
    /// Feature size along y, mm.
    pub across_mm: f32,
    /// Each octave has half the feature size of the one before.
    pub octaves: usize,
    /// Weight of an octave against the one before.
    pub gain: f32,
}

impl Shape {
    /// The same size both ways, half the weight for each octave.
    pub const fn round(size_mm: f32, octaves: usize) -> Shape {
        Shape { along_mm: size_mm, across_mm: size_mm, octaves, gain: 0.5 }
    }

    /// Stretched along x, half the weight for each octave.
    pub const fn long(along_mm: f32, across_mm: f32, octaves: usize) -> Shape {
        Shape { along_mm, across_mm, octaves, gain: 0.5 }
    }
}

/// Noise with zero mean and about unit spread.
#[derive(Clone, Debug)]
pub struct Noise {
    octaves: Vec<Octave>,
}

#[derive(Clone, Debug)]
struct Octave {
    per_along: f32,
    per_across: f32,
    shift: [f32; 2],
    mask_x: u32,
    mask_y: u32,
    stride: usize,
    /// The lattice, its first three columns and rows repeated at its ends, so that four neighbours always lie together.
    values: Vec<f32>,
}

/// Spread of a B-spline over lattice values of unit spread, between its values on and between the nodes.
const SPLINE_SPREAD: f32 = 0.48;
/// Keeps lattice coordinates positive for places up to this many nodes to the left or above.
const FAR: f32 = 2048.0;

impl Noise {
    /// Noise for places within about `reach_mm` of the origin; octaves too fine for `pixel_mm` are left out.
    ///
    /// What a pixel cannot show would only glitter: an octave counts less as its features near the size of a pixel.
    pub fn new(seed: Seed, shape: Shape, reach_mm: f32, pixel_mm: f32) -> Noise {
        let mut octaves = Vec::with_capacity(shape.octaves);
        let (mut size, mut weight, mut power) = (1.0_f32, 1.0_f32, 0.0_f32);
        for n in 0..shape.octaves {
            let along = shape.along_mm * size;
            let across = shape.across_mm * size;
            power += weight * weight;
            let shown = super::linear::smoothstep(0.5, 1.6, along.min(across) / pixel_mm);
            if shown > 0.0 {
                octaves.push(Octave::new(seed.numbered(n), along, across, weight * shown, reach_mm));
            }
            size *= 0.5;
            weight *= shape.gain;
        }
        let unit = 1.0 / (SPLINE_SPREAD * power.sqrt());
        for octave in &mut octaves {
            for v in &mut octave.values {
                *v *= unit;
            }
        }
        Noise { octaves }
    }

    /// Value at a place, mm.
    pub fn at(&self, x: f32, y: f32) -> f32 {
        self.octaves.iter().map(|o| o.at(x, y)).sum()
    }
}

impl Octave {
    fn new(seed: Seed, along: f32, across: f32, weight: f32, reach_mm: f32) -> Octave {
        // Two nodes to a feature: one up, one down.
        let per_along = 2.0 / along;
        let per_across = 2.0 / across;
        let nodes = |per: f32| ((2.0 * reach_mm * per) as usize + 4).clamp(8, 512).next_power_of_two();
        let (wide, high) = (nodes(per_along), nodes(per_across));
        let sqrt3 = 1.732_050_8 * weight;
        let mut state = seed.0;
        let nodes: Vec<f32> = (0..wide * high)
            .map(|_| {
                state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
                ((mix(state) >> 40) as f32 / (1_u64 << 23) as f32 - 1.0) * sqrt3
            })
            .collect();
        let stride = wide + 3;
        let values = (0..(high + 3) * stride).map(|n| nodes[(n / stride) % high * wide + n % stride % wide]).collect();
        Octave {
            per_along,
            per_across,
            shift: [FAR + 97.0 * seed.unit(1), FAR + 97.0 * seed.unit(2)],
            mask_x: wide as u32 - 1,
            mask_y: high as u32 - 1,
            stride,
            values,
        }
    }

    #[inline]
    fn at(&self, x: f32, y: f32) -> f32 {
        let u = (x * self.per_along + self.shift[0]).max(0.0);
        let v = (y * self.per_across + self.shift[1]).max(0.0);
        let (i, j) = (u as i32, v as i32);
        let wu = weights(u - i as f32);
        let wv = weights(v - j as f32);
        let first = (j as u32 & self.mask_y) as usize * self.stride + (i as u32 & self.mask_x) as usize;
        let Some(block) = self.values.get(first..first + 3 * self.stride + 4) else { return 0.0 };
        let mut sums = [0.0_f32; 4];
        for (k, w) in wv.iter().enumerate() {
            let row = &block[k * self.stride..][..4];
            for lane in 0..4 {
                sums[lane] += w * row[lane];
            }
        }
        (sums[0] * wu[0] + sums[1] * wu[1]) + (sums[2] * wu[2] + sums[3] * wu[3])
    }
}

/// Weights of the uniform cubic B-spline.
#[inline]
fn weights(t: f32) -> [f32; 4] {
    let s = 1.0 - t;
    let (t2, s2) = (t * t, s * s);
    let w0 = s2 * s * (1.0 / 6.0);
    let w3 = t2 * t * (1.0 / 6.0);
    let w1 = (2.0 / 3.0) - t2 + 0.5 * t2 * t;
    [w0, w1, 1.0 - w0 - w1 - w3, w3]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn noise_has_no_mean_and_about_unit_spread() {
        let noise = Noise::new(Seed::of_slug("spread"), Shape::round(3.0, 3), 200.0, 0.1);
        let values: Vec<f64> =
            (0..40_000).map(|k| f64::from(noise.at((k % 200) as f32 * 0.97, (k / 200) as f32 * 1.01))).collect();
        let mean = values.iter().sum::<f64>() / values.len() as f64;
        let spread = (values.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / values.len() as f64).sqrt();
        assert!(mean.abs() < 0.1, "mean {mean}");
        assert!((spread - 1.0).abs() < 0.15, "spread {spread}");
    }

    #[test]
    fn two_slugs_never_share_their_noise() {
        let a = Noise::new(Seed::of_slug("a"), Shape::round(3.0, 1), 50.0, 0.1);
        let b = Noise::new(Seed::of_slug("b"), Shape::round(3.0, 1), 50.0, 0.1);
        assert!((0..50).any(|k| (a.at(k as f32, 1.0) - b.at(k as f32, 1.0)).abs() > 0.5));
    }

    #[test]
    fn what_a_pixel_cannot_show_is_left_out() {
        let noise = Noise::new(Seed::of_slug("fine"), Shape::round(0.1, 2), 50.0, 0.5);
        assert!(noise.octaves.is_empty());
        assert_eq!(noise.at(1.0, 2.0), 0.0);
    }
}
