//! Which pans to mix for a colour: a suggestion to test on scrap, never a promise.
//!
//! In: the colours at hand, a colour wanted. Out: one [`Mix`] of up to three pans with the water to it.
//! Each pan's reflectance is rebuilt from its colour (`reflectance`), turned into absorption over scattering, mixed by parts, and turned back:
//! P. Kubelka, F. Munk: Ein Beitrag zur Optik der Farbanstriche, 1931; mixing with one constant after D. R. Duncan, 1940. Real pans differ in
//! strength and scatter, which no screen colour tells: hence the test on scrap.
//! Never here: words.

use super::reflectance::{self, BANDS, Curve};
use crate::colour::{Lab, difference, encoded, linear};
use crate::shape::Rgb;

/// A suggested mix.
#[derive(Clone, Debug, PartialEq)]
pub struct Mix {
    /// Pans, by their index, and how many parts of each; most first.
    pub parts: Vec<(usize, u32)>,
    /// Parts of water to one part of the mix; 0 for full strength.
    pub water: u32,
    /// What it should look like on a white ground.
    pub colour: Rgb,
    /// How far that is from the colour wanted, ΔE00.
    pub difference: f64,
}

/// A mix farther off than this is none, ΔE00. Own choice: beyond it a painter would not take one for the other.
const FARTHEST: f64 = 10.0;
/// A further pan must bring the mix nearer by so much, ΔE00. Own choice: fewer pans are mixed again more easily.
const WORTH: f64 = 0.8;
/// Reflectance of the white ground that thin paint lets through. Own choice.
const GROUND: f64 = 0.95;
/// Parts of water that are tried.
const WATER: [u32; 10] = [0, 1, 2, 3, 5, 8, 12, 18, 28, 40];
/// Parts of two pans that are tried.
const TWO: [[u32; 2]; 7] = [[1, 1], [2, 1], [1, 2], [3, 1], [1, 3], [5, 1], [1, 5]];
/// Parts of three pans that are tried.
const THREE: [[u32; 3]; 10] =
    [[1, 1, 1], [2, 1, 1], [1, 2, 1], [1, 1, 2], [3, 1, 1], [1, 3, 1], [1, 1, 3], [2, 2, 1], [2, 1, 2], [1, 2, 2]];
/// Pairs that a third pan is added to: the best so many.
const PAIRS: usize = 24;

/// Absorption over scattering of an opaque layer that reflects so much. Kubelka and Munk 1931.
fn absorbed(reflected: f64) -> f64 {
    (1.0 - reflected) * (1.0 - reflected) / (2.0 * reflected)
}

/// The way back.
fn reflected(absorbed: f64) -> f64 {
    1.0 + absorbed - (absorbed * absorbed + 2.0 * absorbed).sqrt()
}

/// The colours at hand.
#[derive(Clone, Debug)]
pub struct Palette {
    pans: Vec<Curve>,
}

impl Palette {
    /// Ready to mix from pans of these colours.
    pub fn new(pans: &[Rgb]) -> Palette {
        let curve = |colour: &Rgb| reflectance::curve([colour.r, colour.g, colour.b].map(linear)).map(absorbed);
        Palette { pans: pans.iter().map(curve).collect() }
    }

    /// Absorption over scattering of pans mixed by parts.
    fn mixed(&self, parts: &[(usize, u32)]) -> Curve {
        let all: u32 = parts.iter().map(|(_, n)| n).sum();
        let mut sum = [0.0; BANDS];
        for (pan, n) in parts {
            let share = f64::from(*n) / f64::from(all.max(1));
            if let Some(curve) = self.pans.get(*pan) {
                sum.iter_mut().zip(curve).for_each(|(s, k)| *s += share * k);
            }
        }
        sum
    }

    /// What pans mixed by parts, with so much water, look like on a white ground.
    pub fn colour(&self, parts: &[(usize, u32)], water: u32) -> Rgb {
        thinned(&self.mixed(parts), water)
    }

    /// The mix nearest to a colour; `None` where the pans give nothing like it, or it is the ground's own white.
    pub fn suggest(&self, wanted: Rgb) -> Option<Mix> {
        let wanted = Lab::from(wanted);
        let white = encoded(GROUND);
        if difference(Lab::from(Rgb::new(white, white, white)), wanted) < 2.0 {
            return None;
        }
        let best_of = |all: &[Mix]| all.iter().min_by(|a, b| a.difference.total_cmp(&b.difference)).cloned();
        let one: Vec<Mix> = (0..self.pans.len()).map(|a| self.thinned_best(vec![(a, 1)], wanted)).collect();
        let mut two: Vec<Mix> = Vec::new();
        for a in 0..self.pans.len() {
            for b in a + 1..self.pans.len() {
                let tried: Vec<Mix> =
                    TWO.iter().map(|p| self.thinned_best(vec![(a, p[0]), (b, p[1])], wanted)).collect();
                two.extend(best_of(&tried));
            }
        }
        two.sort_by(|a, b| a.difference.total_cmp(&b.difference).then_with(|| a.parts.cmp(&b.parts)));
        let mut three: Vec<Mix> = Vec::new();
        for pair in two.iter().take(PAIRS) {
            let [(a, _), (b, _)] = pair.parts[..] else { continue };
            for c in (0..self.pans.len()).filter(|c| *c != a && *c != b) {
                three.extend(THREE.iter().map(|p| self.thinned_best(vec![(a, p[0]), (b, p[1]), (c, p[2])], wanted)));
            }
        }
        let mut best: Option<Mix> = None;
        for next in [best_of(&one), best_of(&two), best_of(&three)].into_iter().flatten() {
            if best.as_ref().is_none_or(|b| next.difference < b.difference - WORTH) {
                best = Some(next);
            }
        }
        let mut best = best.filter(|b| b.difference <= FARTHEST)?;
        best.parts.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(&b.0)));
        Some(best)
    }

    /// These parts with the water that suits best.
    fn thinned_best(&self, parts: Vec<(usize, u32)>, wanted: Lab) -> Mix {
        let mixed = self.mixed(&parts);
        let mut best = Mix { parts, water: 0, colour: Rgb::new(0, 0, 0), difference: f64::INFINITY };
        for water in WATER {
            let colour = thinned(&mixed, water);
            let off = difference(Lab::from(colour), wanted);
            if off < best.difference {
                best = Mix { water, colour, difference: off, ..best };
            }
        }
        best
    }
}

fn thinned(absorption: &Curve, water: u32) -> Rgb {
    let strength = 1.0 / (1.0 + f64::from(water));
    let ground = absorbed(GROUND);
    let curve = absorption.map(|k| reflected(strength * k + (1.0 - strength) * ground));
    let [r, g, b] = reflectance::seen(&curve).map(encoded);
    Rgb::new(r, g, b)
}

#[cfg(test)]
mod tests {
    use super::*;

    const YELLOW: Rgb = Rgb::new(0xf5, 0xe0, 0x4a);
    const BLUE: Rgb = Rgb::new(0x1d, 0x3f, 0x9c);
    const RED: Rgb = Rgb::new(0xb5, 0x24, 0x3c);

    fn hue(colour: Rgb) -> f64 {
        let lab = Lab::from(colour);
        libm::atan2(lab.b, lab.a).to_degrees().rem_euclid(360.0)
    }

    /// Kubelka and Munk's formula: a layer that reflects half has K over S of 1/4, one that reflects a tenth 4.05.
    #[test]
    fn absorption_follows_the_published_formula_and_back() {
        assert!((absorbed(0.5) - 0.25).abs() < 1e-12 && (absorbed(0.1) - 4.05).abs() < 1e-12);
        for step in 1..100 {
            let r = f64::from(step) / 100.0;
            assert!((reflected(absorbed(r)) - r).abs() < 1e-9);
        }
    }

    /// What every painter's primer says, and what mixing of light would get wrong: yellow and blue give green (CIELAB hue between 100° and 200°),
    /// yellow and red an orange between the two, red and blue a violet darker than the red.
    #[test]
    fn pans_mix_as_paint_does() {
        let palette = Palette::new(&[YELLOW, BLUE, RED]);
        let green = palette.colour(&[(0, 3), (1, 1)], 0);
        assert!((100.0..200.0).contains(&hue(green)), "{green} {}", hue(green));
        let light = |a: u8, b: u8| encoded((3.0 * linear(a) + linear(b)) / 4.0);
        let by_light = Rgb::new(light(YELLOW.r, BLUE.r), light(YELLOW.g, BLUE.g), light(YELLOW.b, BLUE.b));
        assert!(Lab::from(green).a < Lab::from(by_light).a - 10.0, "{green}, and as light {by_light}");
        let orange = palette.colour(&[(0, 3), (2, 1)], 0);
        assert!(hue(RED) + 3.0 < hue(orange) && hue(orange) < hue(YELLOW) - 3.0, "{orange} {}", hue(orange));
        let violet = palette.colour(&[(1, 1), (2, 1)], 0);
        assert!((280.0..360.0).contains(&hue(violet)), "{violet} {}", hue(violet));
        let lightness = |c: Rgb| Lab::from(c).l;
        assert!(lightness(violet) < lightness(RED));
    }

    #[test]
    fn a_pan_alone_is_itself_and_water_makes_it_paler() {
        let palette = Palette::new(&[YELLOW, BLUE]);
        let alone = palette.suggest(BLUE).expect("the pan itself");
        assert_eq!((alone.parts.as_slice(), alone.water), ([(1, 1)].as_slice(), 0));
        assert!(alone.difference < 0.5, "{alone:?}");
        let lightness: Vec<f64> = WATER.iter().map(|w| Lab::from(palette.colour(&[(1, 1)], *w)).l).collect();
        assert!(lightness.windows(2).all(|w| w[0] < w[1]), "{lightness:?}");
    }

    /// A colour made by the model is found again, or one just as near.
    #[test]
    fn a_mix_is_found_again() {
        let palette = Palette::new(&[YELLOW, BLUE, RED, Rgb::new(0x6f, 0x56, 0x3a)]);
        for (parts, water) in [(vec![(0, 3), (1, 1)], 1), (vec![(1, 1), (2, 1)], 3), (vec![(0, 2), (2, 1), (3, 1)], 0)]
        {
            let made = palette.colour(&parts, water);
            let found = palette.suggest(made).expect("a mix");
            assert!(found.difference < 1.7, "{parts:?} with {water}: {found:?}");
        }
    }

    #[test]
    fn what_pans_cannot_give_is_not_suggested() {
        assert_eq!(Palette::new(&[YELLOW]).suggest(BLUE), None);
        assert_eq!(Palette::new(&[]).suggest(BLUE), None);
        // White is the ground left bare.
        assert_eq!(Palette::new(&[YELLOW, BLUE]).suggest(Rgb::new(0xfb, 0xfa, 0xf7)), None);
    }
}
