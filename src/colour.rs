//! Colours as people see them: CIELAB, the difference of two colours, and how colour-blind people see them.
//!
//! In and out: sRGB colours ([`Rgb`]) and plain numbers. Sources stand beside each formula.

use crate::shape::Rgb;

/// One channel of sRGB, 0 to 255, as linear light, 0 to 1. IEC 61966-2-1.
pub fn linear(channel: u8) -> f64 {
    let c = f64::from(channel) / 255.0;
    if c <= 0.04045 { c / 12.92 } else { libm::pow((c + 0.055) / 1.055, 2.4) }
}

/// Linear light, 0 to 1, as a channel of sRGB; clamped. IEC 61966-2-1.
pub fn encoded(light: f64) -> u8 {
    let c = if light <= 0.003_130_8 { 12.92 * light } else { 1.055 * libm::pow(light, 1.0 / 2.4) - 0.055 };
    (c.clamp(0.0, 1.0) * 255.0).round() as u8
}

/// A colour in CIELAB under D65.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lab {
    /// Lightness, 0 to 100.
    pub l: f64,
    /// Green to red.
    pub a: f64,
    /// Blue to yellow.
    pub b: f64,
}

impl From<Rgb> for Lab {
    /// ISO 11664-4, with the sRGB matrix to seven digits and white 0.95047, 1, 1.08883.
    fn from(colour: Rgb) -> Lab {
        let (r, g, b) = (linear(colour.r), linear(colour.g), linear(colour.b));
        let f = |t: f64| {
            if t > 216.0 / 24389.0 { libm::cbrt(t) } else { (24389.0 / 27.0 * t + 16.0) / 116.0 }
        };
        let x = f((0.412_456_4 * r + 0.357_576_1 * g + 0.180_437_5 * b) / 0.950_47);
        let y = f(0.212_672_9 * r + 0.715_152_2 * g + 0.072_175_0 * b);
        let z = f((0.019_333_9 * r + 0.119_192_0 * g + 0.950_304_1 * b) / 1.088_83);
        Lab { l: 116.0 * y - 16.0, a: 500.0 * (x - y), b: 200.0 * (y - z) }
    }
}

/// Hue angle in degrees, 0 to under 360; 0 where there is none.
fn hue(a: f64, b: f64) -> f64 {
    if a == 0.0 && b == 0.0 {
        return 0.0;
    }
    let h = libm::atan2(b, a).to_degrees();
    if h < 0.0 { h + 360.0 } else { h }
}

/// Difference of two colours by CIEDE2000, all weights 1.
///
/// G. Sharma, W. Wu, E. N. Dalal: The CIEDE2000 color-difference formula, Color Research and Application 30(1), 2005.
pub fn difference(one: Lab, two: Lab) -> f64 {
    let power7 = |c: f64| libm::pow(c, 7.0);
    let chroma = |a: f64, b: f64| (a * a + b * b).sqrt();
    let mean_chroma = (chroma(one.a, one.b) + chroma(two.a, two.b)) / 2.0;
    let g = 0.5 * (1.0 - (power7(mean_chroma) / (power7(mean_chroma) + power7(25.0))).sqrt());
    let (a1, a2) = (one.a * (1.0 + g), two.a * (1.0 + g));
    let (c1, c2) = (chroma(a1, one.b), chroma(a2, two.b));
    let (h1, h2) = (hue(a1, one.b), hue(a2, two.b));
    let grey = c1 * c2 == 0.0;

    let turn = if grey {
        0.0
    } else if (h2 - h1).abs() <= 180.0 {
        h2 - h1
    } else if h2 > h1 {
        h2 - h1 - 360.0
    } else {
        h2 - h1 + 360.0
    };
    let mean_hue = if grey {
        h1 + h2
    } else if (h1 - h2).abs() <= 180.0 {
        (h1 + h2) / 2.0
    } else if h1 + h2 < 360.0 {
        (h1 + h2 + 360.0) / 2.0
    } else {
        (h1 + h2 - 360.0) / 2.0
    };
    let sin = |degrees: f64| libm::sin(degrees.to_radians());
    let cos = |degrees: f64| libm::cos(degrees.to_radians());
    let (dl, dc, dh) = (two.l - one.l, c2 - c1, 2.0 * (c1 * c2).sqrt() * sin(turn / 2.0));
    let (l, c) = ((one.l + two.l) / 2.0, (c1 + c2) / 2.0);
    let t = 1.0 - 0.17 * cos(mean_hue - 30.0) + 0.24 * cos(2.0 * mean_hue) + 0.32 * cos(3.0 * mean_hue + 6.0)
        - 0.20 * cos(4.0 * mean_hue - 63.0);
    let around = (mean_hue - 275.0) / 25.0;
    let rotation = -sin(60.0 * libm::exp(-around * around)) * 2.0 * (power7(c) / (power7(c) + power7(25.0))).sqrt();
    let from_50 = (l - 50.0) * (l - 50.0);
    let sl = 1.0 + 0.015 * from_50 / (20.0 + from_50).sqrt();
    let (tl, tc, th) = (dl / sl, dc / (1.0 + 0.045 * c), dh / (1.0 + 0.015 * c * t));
    (tl * tl + tc * tc + th * th + rotation * tc * th).max(0.0).sqrt()
}

/// The three kinds of colour blindness in their full strength.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Blindness {
    /// No red cones.
    Protan,
    /// No green cones.
    Deutan,
    /// No blue cones.
    Tritan,
}

impl Blindness {
    /// All three.
    pub const ALL: [Blindness; 3] = [Blindness::Protan, Blindness::Deutan, Blindness::Tritan];

    /// Matrix on linear sRGB. G. M. Machado, M. M. Oliveira, L. A. F. Fernandes: A physiologically-based model for
    /// simulation of color vision deficiency, IEEE TVCG 15(6), 2009, severity 1.0.
    fn matrix(self) -> [[f64; 3]; 3] {
        match self {
            Blindness::Protan => {
                [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]]
            }
            Blindness::Deutan => {
                [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]]
            }
            Blindness::Tritan => {
                [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]]
            }
        }
    }

    /// How a colour looks to people with this kind of sight.
    pub fn seen(self, colour: Rgb) -> Rgb {
        let light = [linear(colour.r), linear(colour.g), linear(colour.b)];
        let row = |m: [f64; 3]| encoded(m.iter().zip(light).map(|(m, l)| m * l).sum());
        let [r, g, b] = self.matrix();
        Rgb::new(row(r), row(g), row(b))
    }
}

/// Relative luminance, 0 to 1. WCAG 2.2, definition of relative luminance.
pub fn luminance(colour: Rgb) -> f64 {
    0.2126 * linear(colour.r) + 0.7152 * linear(colour.g) + 0.0722 * linear(colour.b)
}

/// Contrast of two colours, 1 to 21. WCAG 2.2, definition of contrast ratio.
pub fn contrast(one: Rgb, two: Rgb) -> f64 {
    let (a, b) = (luminance(one), luminance(two));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(serde::Deserialize)]
    struct Published {
        pair: Vec<Pair>,
        srgb: Vec<Srgb>,
        contrast_pair: Vec<Contrast>,
    }
    #[derive(serde::Deserialize)]
    struct Pair {
        row: u32,
        lab1: [f64; 3],
        lab2: [f64; 3],
        de: f64,
    }
    #[derive(serde::Deserialize)]
    struct Srgb {
        colour: String,
        lab: [f64; 3],
    }
    #[derive(serde::Deserialize)]
    struct Contrast {
        colour: String,
        on: String,
        ratio: f64,
    }

    fn published() -> Published {
        toml::from_str(include_str!("../tests/reference/colour.toml")).expect("the reference file reads")
    }

    fn rgb(text: &str) -> Rgb {
        let byte = |i: usize| u8::from_str_radix(&text[i..i + 2], 16).expect("two hex digits");
        Rgb::new(byte(1), byte(3), byte(5))
    }

    /// Sharma, Wu, Dalal 2005, Table 1: all 34 pairs to the printed four decimals, both ways round.
    #[test]
    fn differences_are_the_published_ones() {
        let pairs = published().pair;
        assert_eq!(pairs.len(), 34);
        for p in pairs {
            let lab = |v: [f64; 3]| Lab { l: v[0], a: v[1], b: v[2] };
            for (one, two) in [(p.lab1, p.lab2), (p.lab2, p.lab1)] {
                let got = difference(lab(one), lab(two));
                assert!((got - p.de).abs() <= 0.00005, "row {}: {got} for {}", p.row, p.de);
            }
        }
    }

    /// CIELAB of sRGB colours: IEC 61966-2-1 and ISO 11664-4.
    #[test]
    fn lab_values_are_the_published_ones() {
        for s in published().srgb {
            let got = Lab::from(rgb(&s.colour));
            for (g, w) in [got.l, got.a, got.b].into_iter().zip(s.lab) {
                assert!((g - w).abs() < 0.05, "{}: {got:?}", s.colour);
            }
        }
    }

    /// WCAG 2.2, contrast ratio.
    #[test]
    fn contrasts_are_those_of_the_guidelines() {
        for c in published().contrast_pair {
            assert!((contrast(rgb(&c.colour), rgb(&c.on)) - c.ratio).abs() < 1e-5, "{}", c.colour);
        }
    }

    /// Machado, Oliveira, Fernandes 2009: rows add up to 1, so that greys stay grey.
    #[test]
    fn greys_stay_grey_for_everyone() {
        for kind in Blindness::ALL {
            let seen = kind.seen(Rgb::new(128, 128, 128));
            assert!(
                seen.r.abs_diff(128) <= 1 && seen.g.abs_diff(128) <= 1 && seen.b.abs_diff(128) <= 1,
                "{kind:?} {seen}"
            );
        }
    }
}
