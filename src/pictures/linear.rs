//! Linear light: where all mixing, shading and resizing of pictures happens, and the way there and back.
//!
//! In: sRGB bytes. Out: linear values, 0 to 1, and bytes again. Source: IEC 61966-2-1 (sRGB), transfer function.
//! Never here: anything that depends on the machine: powers through `libm`, the rest plain arithmetic.

use std::sync::LazyLock;

use crate::shape::Rgb;

/// Red, green and blue in linear light.
pub type Light = [f32; 3];

/// Linear value of each sRGB byte.
static TO_LINEAR: LazyLock<[f32; 256]> = LazyLock::new(|| {
    std::array::from_fn(|byte| {
        let v = byte as f64 / 255.0;
        (if v <= 0.04045 { v / 12.92 } else { libm::pow((v + 0.055) / 1.055, 2.4) }) as f32
    })
});

/// sRGB byte of each linear value in steps of 1/65535.
static TO_BYTE: LazyLock<Vec<u8>> = LazyLock::new(|| {
    (0..=65535_u32)
        .map(|step| {
            let v = f64::from(step) / 65535.0;
            let s = if v <= 0.0031308 { 12.92 * v } else { 1.055 * libm::pow(v, 1.0 / 2.4) - 0.055 };
            (s * 255.0 + 0.5) as u8
        })
        .collect()
});

/// Linear light of one sRGB byte.
pub fn of_byte(byte: u8) -> f32 {
    TO_LINEAR[usize::from(byte)]
}

/// Linear light of an sRGB colour.
pub fn of(colour: Rgb) -> Light {
    [of_byte(colour.r), of_byte(colour.g), of_byte(colour.b)]
}

/// Nearest sRGB byte; values outside 0 to 1 are cut off, and what is no number is black.
pub fn to_byte(value: f32) -> u8 {
    // A float that is no number becomes 0 in the conversion.
    let step = (value.clamp(0.0, 1.0) * 65535.0 + 0.5) as usize;
    TO_BYTE.get(step).copied().unwrap_or(255)
}

/// Nearest sRGB colour.
pub fn to_rgb(light: Light) -> Rgb {
    Rgb::new(to_byte(light[0]), to_byte(light[1]), to_byte(light[2]))
}

/// `a` at 0, `b` at 1.
pub fn mix(a: Light, b: Light, t: f32) -> Light {
    [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t]
}

/// Every channel times the same number.
pub fn scale(a: Light, by: f32) -> Light {
    [a[0] * by, a[1] * by, a[2] * by]
}

/// Channel by channel.
pub fn times(a: Light, b: Light) -> Light {
    [a[0] * b[0], a[1] * b[1], a[2] * b[2]]
}

/// Perceived brightness in linear light (ITU-R BT.709 weights).
pub fn luminance(a: Light) -> f32 {
    0.2126 * a[0] + 0.7152 * a[1] + 0.0722 * a[2]
}

/// e to the x for −80 ≤ x ≤ 80 to about 2 parts in a million; outside, the nearest end.
///
/// Plain arithmetic, and several times quicker than an exact one: millions are taken for each picture.
pub fn exp(x: f32) -> f32 {
    let y = x.clamp(-80.0, 80.0) * std::f32::consts::LOG2_E;
    let shifted = y + 256.0;
    let whole = shifted as i32;
    let f = shifted - whole as f32;
    // Minimax-like polynomial of 2^f on 0..1.
    let p = 1.0
        + f * (std::f32::consts::LN_2
            + f * (0.240_226_5 + f * (0.055_504_1 + f * (0.009_618_13 + f * (0.001_333_355 + f * 0.000_154)))));
    let exponent = (whole - 256 + 127).clamp(1, 254) as u32;
    f32::from_bits(exponent << 23) * p
}

/// 0 below `from`, 1 above `to`, smooth between.
pub fn smoothstep(from: f32, to: f32, x: f32) -> f32 {
    let t = ((x - from) / (to - from)).clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// IEC 61966-2-1: mid grey 188 is about half the light, and bytes survive the way there and back.
    #[test]
    fn bytes_survive_the_way_to_linear_light_and_back() {
        for byte in 0..=255 {
            assert_eq!(to_byte(of_byte(byte)), byte);
        }
        assert!((of_byte(188) - 0.5).abs() < 0.005);
        assert_eq!((to_byte(-1.0), to_byte(2.0), to_byte(f32::NAN)), (0, 255, 0));
    }

    #[test]
    fn the_quick_exponential_follows_the_exact_one() {
        for step in -4000..=400 {
            let x = step as f32 / 100.0;
            let exact = libm::expf(x);
            assert!((exp(x) - exact).abs() <= 2e-5 * exact, "{x}: {} and {exact}", exp(x));
        }
    }
}
