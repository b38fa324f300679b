//! Reflectance curves: from a colour on the screen to a smooth curve over the visible wavelengths, and back.
//!
//! In and out: linear sRGB, 0 to 1, and [`Curve`]s. A screen colour says nothing of its spectrum; of all curves that give it, the smoothest
//! stands in: least sum of squared steps of z, the reflectance being (tanh z + 1) ÷ 2, so that it never leaves 0 to 1.
//! Source: S. A. Burns: Numerical methods for smoothest reflectance reconstruction, Color Research and Application 45(1), 2020.
//! Never here: paint, a pan, a mix.

use std::sync::LazyLock;

/// Wavelengths of a curve: every 10 nm from 380 to 730.
pub const BANDS: usize = 36;
/// Reflectance at each wavelength, over 0 and under 1.
pub type Curve = [f64; BANDS];
/// Red, green and blue of sRGB in linear light.
pub type Light = [f64; 3];

/// x̄, ȳ, z̄ of the standard observer of 2°. ISO/CIE 11664-1, at the wavelengths of [`BANDS`].
const OBSERVER: [[f64; 3]; BANDS] = [
    [0.001368, 0.000039, 0.006450],
    [0.004243, 0.000120, 0.020050],
    [0.014310, 0.000396, 0.067850],
    [0.043510, 0.001210, 0.207400],
    [0.134380, 0.004000, 0.645600],
    [0.283900, 0.011600, 1.385600],
    [0.348280, 0.023000, 1.747060],
    [0.336200, 0.038000, 1.772110],
    [0.290800, 0.060000, 1.669200],
    [0.195360, 0.090980, 1.287640],
    [0.095640, 0.139020, 0.812950],
    [0.032010, 0.208020, 0.465180],
    [0.004900, 0.323000, 0.272000],
    [0.009300, 0.503000, 0.158200],
    [0.063270, 0.710000, 0.078250],
    [0.165500, 0.862000, 0.042160],
    [0.290400, 0.954000, 0.020300],
    [0.433450, 0.994950, 0.008750],
    [0.594500, 0.995000, 0.003900],
    [0.762100, 0.952000, 0.002100],
    [0.916300, 0.870000, 0.001650],
    [1.026300, 0.757000, 0.001100],
    [1.062200, 0.631000, 0.000800],
    [1.002600, 0.503000, 0.000340],
    [0.854450, 0.381000, 0.000190],
    [0.642400, 0.265000, 0.000050],
    [0.447900, 0.175000, 0.000020],
    [0.283500, 0.107000, 0.000000],
    [0.164900, 0.061000, 0.000000],
    [0.087400, 0.032000, 0.000000],
    [0.046770, 0.017000, 0.000000],
    [0.022700, 0.008210, 0.000000],
    [0.011359, 0.004102, 0.000000],
    [0.005790, 0.002091, 0.000000],
    [0.002899, 0.001047, 0.000000],
    [0.001440, 0.000520, 0.000000],
];

/// Relative power of standard illuminant D65. ISO/CIE 11664-2, at the wavelengths of [`BANDS`].
const DAYLIGHT: [f64; BANDS] = [
    49.9755, 54.6482, 82.7549, 91.4860, 93.4318, 86.6823, 104.865, 117.008, 117.812, 114.861, 115.923, 108.811,
    109.354, 107.802, 104.790, 107.689, 104.405, 104.046, 100.000, 96.3342, 95.7880, 88.6856, 90.0062, 89.5991,
    87.6987, 83.2886, 83.6992, 80.0268, 80.2146, 82.2778, 78.2842, 69.7213, 71.6091, 74.3490, 61.6040, 69.8856,
];

/// XYZ to linear sRGB. IEC 61966-2-1.
const TO_SRGB: [Light; 3] = [
    [3.240_454_2, -1.537_138_5, -0.498_531_4],
    [-0.969_266_0, 1.876_010_8, 0.041_556_0],
    [0.055_643_4, -0.204_025_9, 1.057_225_2],
];

/// Share of each wavelength in red, green and blue; a curve of ones gives exactly white.
static SHARES: LazyLock<[Light; BANDS]> = LazyLock::new(|| {
    let mut shares: [Light; BANDS] = std::array::from_fn(|n| {
        let xyz = OBSERVER[n].map(|v| v * DAYLIGHT[n]);
        TO_SRGB.map(|row| row[0] * xyz[0] + row[1] * xyz[1] + row[2] * xyz[2])
    });
    // The tables' white is the standard's to a tenth of a percent; what is left over is shared out.
    let white = sum(&shares);
    for share in &mut shares {
        *share = std::array::from_fn(|c| share[c] / white[c]);
    }
    shares
});

fn sum(shares: &[Light]) -> Light {
    shares.iter().fold([0.0; 3], |all, s| [all[0] + s[0], all[1] + s[1], all[2] + s[2]])
}

/// Linear sRGB of a curve under daylight; may lie a little outside 0 to 1.
pub fn seen(curve: &Curve) -> Light {
    let lit: Vec<Light> = SHARES.iter().zip(curve).map(|(s, r)| s.map(|s| s * r)).collect();
    sum(&lit)
}

/// No curve is wholly black or white: the nearest that is asked for, in linear light.
const LEAST: f64 = 0.0003;
/// Unknowns: a z for each wavelength, a multiplier for each channel.
const UNKNOWNS: usize = BANDS + 3;
/// Newton's method ends here, far below what a byte can show.
const CLOSE: f64 = 1e-9;

/// The smoothest curve that is seen as `light`.
pub fn curve(light: Light) -> Curve {
    let wanted = light.map(|v| v.clamp(LEAST, 1.0 - LEAST));
    let mut z = [0.0; BANDS];
    let mut multiplier = [0.0; 3];
    for _ in 0..200 {
        let mut rows = equations(&z, &multiplier, &wanted);
        let off = rows.iter().fold(0.0_f64, |most, row| most.max(row[UNKNOWNS].abs()));
        if off < CLOSE {
            break;
        }
        let Some(step) = solved(&mut rows) else { break };
        // Steps of more than 2 in z overshoot where tanh is flat.
        let longest = step[..BANDS].iter().fold(0.0_f64, |most, s| most.max(s.abs()));
        let by = (2.0 / longest.max(1e-12)).min(1.0);
        z.iter_mut().zip(&step).for_each(|(z, s)| *z += by * s);
        multiplier.iter_mut().zip(&step[BANDS..]).for_each(|(m, s)| *m += by * s);
    }
    z.map(|z| 0.5 * (libm::tanh(z) + 1.0))
}

type Row = [f64; UNKNOWNS + 1];

/// Newton's linear equations: the matrix, and in the last column what is still missing.
fn equations(z: &Curve, multiplier: &Light, wanted: &Light) -> Vec<Row> {
    let mut rows = vec![[0.0; UNKNOWNS + 1]; UNKNOWNS];
    let mut got = [0.0; 3];
    for n in 0..BANDS {
        let t = libm::tanh(z[n]);
        let slope = 0.5 * (1.0 - t * t);
        let pull = SHARES[n][0] * multiplier[0] + SHARES[n][1] * multiplier[1] + SHARES[n][2] * multiplier[2];
        let mut bend = 0.0;
        for other in [n.wrapping_sub(1), n + 1].into_iter().filter(|o| *o < BANDS) {
            rows[n][other] -= 2.0;
            rows[n][n] += 2.0;
            bend += 2.0 * (z[n] - z[other]);
        }
        rows[n][n] -= 2.0 * slope * t * pull;
        rows[n][UNKNOWNS] = -(bend + slope * pull);
        for c in 0..3 {
            rows[n][BANDS + c] = slope * SHARES[n][c];
            rows[BANDS + c][n] = slope * SHARES[n][c];
            got[c] += 0.5 * (t + 1.0) * SHARES[n][c];
        }
    }
    for c in 0..3 {
        rows[BANDS + c][UNKNOWNS] = wanted[c] - got[c];
    }
    rows
}

/// Gauss with the largest pivot; `None` where the matrix has no inverse.
fn solved(rows: &mut [Row]) -> Option<[f64; UNKNOWNS]> {
    for k in 0..UNKNOWNS {
        let best = (k..UNKNOWNS).max_by(|a, b| rows[*a][k].abs().total_cmp(&rows[*b][k].abs()))?;
        rows.swap(k, best);
        let (above, below) = rows.split_at_mut(k + 1);
        let pivot = &above[k];
        if pivot[k].abs() < 1e-14 {
            return None;
        }
        for row in below {
            let by = row[k] / pivot[k];
            if by != 0.0 {
                row[k..].iter_mut().zip(&pivot[k..]).for_each(|(v, p)| *v -= by * p);
            }
        }
    }
    let mut out = [0.0; UNKNOWNS];
    for k in (0..UNKNOWNS).rev() {
        let known: f64 = (k + 1..UNKNOWNS).map(|j| rows[k][j] * out[j]).sum();
        out[k] = (rows[k][UNKNOWNS] - known) / rows[k][k];
    }
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::{encoded, linear};
    use crate::shape::Rgb;

    /// IEC 61966-2-1: the white of sRGB is D65 with x 0.3127, y 0.3290, so X 0.9505 and Z 1.0891 for Y 1. Both tables must be right for that.
    #[test]
    fn daylight_on_white_is_the_white_of_the_standard() {
        let mut xyz = [0.0; 3];
        for n in 0..BANDS {
            for c in 0..3 {
                xyz[c] += OBSERVER[n][c] * DAYLIGHT[n];
            }
        }
        assert!((xyz[0] / xyz[1] - 0.9505).abs() < 0.0005, "{}", xyz[0] / xyz[1]);
        assert!((xyz[2] / xyz[1] - 1.0891).abs() < 0.0012, "{}", xyz[2] / xyz[1]);
    }

    /// ISO/CIE 11664-1: the three functions have the same sum (equal energy is white), 21.371 in steps of 5 nm; in steps of 10 nm it is
    /// half of that to a tenth of a percent.
    #[test]
    fn the_observer_has_the_published_sums() {
        for c in 0..3 {
            let sum: f64 = OBSERVER.iter().map(|row| row[c]).sum();
            assert!((sum - 10.6857).abs() < 0.011, "{c}: {sum}");
        }
    }

    #[test]
    fn a_curve_is_seen_as_the_colour_it_came_from() {
        let steps = [0_u8, 1, 40, 96, 128, 200, 254, 255];
        for r in steps {
            for g in steps {
                for b in steps {
                    let colour = Rgb::new(r, g, b);
                    let curve = curve([r, g, b].map(linear));
                    assert!(curve.iter().all(|v| (0.0..=1.0).contains(v)), "{colour}: {curve:?}");
                    let again = seen(&curve).map(encoded);
                    let off = [r, g, b].iter().zip(again).map(|(a, b)| a.abs_diff(b)).max().unwrap_or(255);
                    assert!(off <= 1, "{colour} became {again:?}");
                }
            }
        }
    }

    /// A grey reflects every wavelength alike.
    #[test]
    fn a_grey_has_a_flat_curve() {
        let curve = curve([0.3; 3]);
        assert!(curve.iter().all(|v| (v - 0.3).abs() < 1e-6), "{curve:?}");
    }
}
