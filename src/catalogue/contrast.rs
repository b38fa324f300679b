//! Colours that can be read: luminance contrast, and the accents of the pages.
//!
//! In: sRGB colours. Out: their contrast, and colours moved in lightness until the contrast is enough.
//! Steps: OKLCH keeps the hue while lightness moves; the accents are a fixed ring of hues, so that the one style sheet
//! does not change with every design that is added.
//! Never here: markup. Rule: WCAG 2.2, definitions of relative luminance and contrast ratio, SC 1.4.3.

use std::sync::LazyLock;

use crate::shape::Rgb;

/// WCAG 2.2, SC 1.4.3 (AA): text in its ordinary size.
pub const TEXT_RATIO: f64 = 4.5;

/// Hues of the ring of accents.
const HUES: usize = 24;
/// Chroma (OKLCH) of its two rows, a muted one and a clear one.
const CHROMAS: [f64; 2] = [0.05, 0.105];

/// Relative luminance, 0 to 1. WCAG 2.2.
pub fn luminance(colour: Rgb) -> f64 {
    let [r, g, b] = linear(colour);
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

/// Contrast ratio of two colours, 1 to 21, in either order. WCAG 2.2.
pub fn ratio(a: Rgb, b: Rgb) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// The colour, made darker or lighter in its hue until its contrast on `ground` is at least `wanted`; black or white where no
/// shade of it reaches that.
pub fn readable(colour: Rgb, ground: Rgb, wanted: f64) -> Rgb {
    if ratio(colour, ground) >= wanted {
        return colour;
    }
    let black_first = ratio(Rgb::new(0, 0, 0), ground) >= ratio(Rgb::new(255, 255, 255), ground);
    let [l, c, h] = lch(colour);
    let steps = 200;
    (1..=steps)
        .map(|step| {
            let share = f64::from(step) / f64::from(steps);
            let shade = if black_first { l * (1.0 - share) } else { l + (1.0 - l) * share };
            of_lch(shade, c, h)
        })
        .find(|shade| ratio(*shade, ground) >= wanted)
        .unwrap_or(if black_first { Rgb::new(0, 0, 0) } else { Rgb::new(255, 255, 255) })
}

/// A mixture of two colours in OKLab, `share` of the second.
pub fn mixed(a: Rgb, b: Rgb, share: f64) -> Rgb {
    let ([l1, a1, b1], [l2, a2, b2]) = (lab(a), lab(b));
    let at = |x: f64, y: f64| x + (y - x) * share;
    of_lab(at(l1, l2), at(a1, a2), at(b1, b2))
}

/// How many accents there are.
pub const ACCENTS: usize = HUES * CHROMAS.len();

/// Accent number `index` of the ring on a ground: a shade that can be read on it.
pub fn accent(index: usize, ground: Rgb) -> Rgb {
    let hue = (index % HUES) as f64 * 360.0 / HUES as f64;
    let chroma = CHROMAS.get(index / HUES).copied().unwrap_or(0.0);
    let lightness = if luminance(ground) > 0.3 { 0.47 } else { 0.78 };
    readable(of_lch(lightness, chroma, hue.to_radians()), ground, TEXT_RATIO + 0.3)
}

/// The accent of the ring that is nearest to a paint in hue and strength.
pub fn nearest_accent(paint: Rgb) -> usize {
    let [_, chroma, hue] = lch(paint);
    let step = libm::round(hue.to_degrees().rem_euclid(360.0) / 360.0 * HUES as f64) as usize % HUES;
    let row = usize::from(chroma > (CHROMAS[0] + CHROMAS[1]) / 2.0);
    row * HUES + step
}

/// Lightnesses and hues of the tints.
const TINT_LIGHTNESSES: [f64; 6] = [0.92, 0.84, 0.74, 0.62, 0.48, 0.34];
const TINT_HUES: usize = 8;
/// How many tints there are.
pub const TINTS: usize = TINT_LIGHTNESSES.len() * TINT_HUES;

/// Tint number `index`: a quiet colour for a place where a picture will be.
pub fn tint(index: usize) -> Rgb {
    let lightness = TINT_LIGHTNESSES.get(index / TINT_HUES).copied().unwrap_or(0.5);
    of_lch(lightness, 0.025, (index % TINT_HUES) as f64 * std::f64::consts::TAU / TINT_HUES as f64)
}

/// The tint nearest to a colour in lightness and hue.
pub fn nearest_tint(colour: Rgb) -> usize {
    // Asked for with every picture of every page.
    static TINTS_LAB: LazyLock<[[f64; 3]; TINTS]> = LazyLock::new(|| std::array::from_fn(|index| lab(tint(index))));
    let [lightness, a, b] = lab(colour);
    let far =
        TINTS_LAB.iter().map(|[l, x, y]| (l - lightness) * (l - lightness) + (x - a) * (x - a) + (y - b) * (y - b));
    far.enumerate().min_by(|one, other| one.1.total_cmp(&other.1)).map_or(0, |(index, _)| index)
}

/// How well a paint serves as the one colour of a page: strong and neither pale nor black; 0 to about 0.3.
pub fn strength(paint: Rgb) -> f64 {
    let [lightness, chroma, _] = lch(paint);
    chroma * (1.0 - ((lightness - 0.55) / 0.45).abs().min(1.0) * 0.7)
}

/// One channel to linear light: IEC 61966-2-1, threshold as in WCAG 2.2.
fn linear(colour: Rgb) -> [f64; 3] {
    [colour.r, colour.g, colour.b].map(|channel| {
        let c = f64::from(channel) / 255.0;
        if c <= 0.04045 { c / 12.92 } else { libm::pow((c + 0.055) / 1.055, 2.4) }
    })
}

/// OKLab after B. Ottosson, "A perceptual color space for image processing" (2020).
fn lab(colour: Rgb) -> [f64; 3] {
    let [r, g, b] = linear(colour);
    let l = libm::cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
    let m = libm::cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
    let s = libm::cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
    [
        0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s,
        1.9779984951 * l - 2.4285922050 * m + 0.4505937099 * s,
        0.0259040371 * l + 0.7827717662 * m - 0.8086757660 * s,
    ]
}

/// Lightness 0 to 1, chroma, hue in radians.
fn lch(colour: Rgb) -> [f64; 3] {
    let [l, a, b] = lab(colour);
    [l, (a * a + b * b).sqrt(), libm::atan2(b, a)]
}

/// Linear sRGB of an OKLab colour; channels outside 0 to 1 are outside sRGB.
fn linear_of_lab(lightness: f64, a: f64, b: f64) -> [f64; 3] {
    let cube = |x: f64| x * x * x;
    let l = cube(lightness + 0.3963377774 * a + 0.2158037573 * b);
    let m = cube(lightness - 0.1055613458 * a - 0.0638541728 * b);
    let s = cube(lightness - 0.0894841775 * a - 1.2914855480 * b);
    [
        4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
        -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
        -0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s,
    ]
}

fn of_lab(lightness: f64, a: f64, b: f64) -> Rgb {
    let [r, g, b] = linear_of_lab(lightness, a, b).map(|c| {
        let c = c.clamp(0.0, 1.0);
        let c = if c <= 0.0031308 { 12.92 * c } else { 1.055 * libm::pow(c, 1.0 / 2.4) - 0.055 };
        libm::round(c * 255.0) as u8
    });
    Rgb::new(r, g, b)
}

/// The colour of a lightness, chroma and hue; chroma gives way until sRGB has it.
fn of_lch(lightness: f64, chroma: f64, hue: f64) -> Rgb {
    let (sin, cos) = (libm::sin(hue), libm::cos(hue));
    let held = (0..=40).map(|step| chroma * (1.0 - f64::from(step) / 40.0)).find(|c| {
        linear_of_lab(lightness, c * cos, c * sin).iter().all(|channel| (-0.0005..=1.0005).contains(channel))
    });
    let chroma = held.unwrap_or(0.0);
    of_lab(lightness, chroma * cos, chroma * sin)
}

#[cfg(test)]
mod tests {
    use super::*;

    const WHITE: Rgb = Rgb::new(255, 255, 255);

    /// WCAG 2.2 formula; the greys that just reach and just miss 7, 4.5 and 3 are in many published tables.
    #[test]
    fn contrast_is_that_of_wcag() {
        let pairs = [
            (Rgb::new(0, 0, 0), 21.0),
            (Rgb::new(0x59, 0x59, 0x59), 7.004729),
            (Rgb::new(0x5a, 0x5a, 0x5a), 6.896926),
            (Rgb::new(0x76, 0x76, 0x76), 4.542225),
            (Rgb::new(0x77, 0x77, 0x77), 4.478089),
            (Rgb::new(0x94, 0x94, 0x94), 3.033470),
            (Rgb::new(0x95, 0x95, 0x95), 2.995346),
            (Rgb::new(0x80, 0x80, 0x80), 3.949440),
            (Rgb::new(255, 0, 0), 3.998477),
            (Rgb::new(0, 128, 0), 5.137403),
            (Rgb::new(0, 0, 255), 8.592471),
        ];
        for (colour, wanted) in pairs {
            assert!((ratio(colour, WHITE) - wanted).abs() < 5e-7, "{colour}: {}", ratio(colour, WHITE));
            assert_eq!(ratio(colour, WHITE), ratio(WHITE, colour));
        }
    }

    #[test]
    fn every_accent_can_be_read_on_every_ground() {
        for ground in ["f5f0e6", "17150f", "ffffff", "000000", "808080", "c0a060"] {
            let byte = |i: usize| u8::from_str_radix(&ground[i..i + 2], 16).expect("hexadecimal");
            let ground = Rgb::new(byte(0), byte(2), byte(4));
            for index in 0..ACCENTS {
                let found = ratio(accent(index, ground), ground);
                assert!(found >= TEXT_RATIO, "accent {index} on {ground}: {found}");
            }
        }
    }

    #[test]
    fn a_readable_shade_keeps_its_hue() {
        let yellow = Rgb::new(0xf2, 0xc1, 0x4e);
        let shade = readable(yellow, WHITE, TEXT_RATIO);
        assert!(ratio(shade, WHITE) >= TEXT_RATIO && ratio(shade, WHITE) < TEXT_RATIO + 0.2);
        assert!((lch(shade)[2] - lch(yellow)[2]).abs().to_degrees() < 3.0);
        assert_eq!(readable(Rgb::new(0, 0, 0), WHITE, TEXT_RATIO), Rgb::new(0, 0, 0));
    }

    /// White is L = 1 without chroma; sRGB red is L = 0.628, C = 0.258, h = 29.2° (CSS Color 4, sample code).
    #[test]
    fn oklch_gives_the_published_values() {
        let [l, c, _] = lch(WHITE);
        assert!((l - 1.0).abs() < 1e-4 && c < 1e-4);
        let [l, c, h] = lch(Rgb::new(255, 0, 0));
        assert!((l - 0.628).abs() < 1e-3 && (c - 0.2577).abs() < 1e-3 && (h.to_degrees() - 29.23).abs() < 0.1);
    }

    #[test]
    fn a_blue_paint_gives_a_blue_accent() {
        let blue = Rgb::new(0x1f, 0x4e, 0x79);
        let shown = accent(nearest_accent(blue), WHITE);
        assert!(shown.b > shown.g && shown.g > shown.r, "{shown}");
    }
}
