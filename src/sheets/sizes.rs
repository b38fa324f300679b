//! Sizes, areas, masses and times as a sheet prints them, in the shop's units.

use crate::shop::{Settings, Units};
use crate::units::{G_PER_OZ, MM_PER_IN, Money, rounded};
use crate::wording::Words;
use crate::wording::amounts::{self, Amount};

/// A price in the shop's currency, as the pages print it.
pub fn price_text(words: &Words, money: Money, settings: &Settings) -> String {
    words.tongue().price(money, &settings.currency.code)
}

/// A mass to the whole gram or ounce, as the pages print it.
pub fn mass_text(words: &Words, g: f64, units: Units) -> String {
    both(&amounts::mass(units, words.tongue(), g))
}

/// One length or several, as the pages print them.
pub fn lengths_text(words: &Words, mm: &[f64], units: Units) -> String {
    both(&amounts::lengths(units, words.tongue(), mm))
}

fn both(amount: &Amount) -> String {
    amount.other.as_ref().map_or_else(|| amount.short(), |other| format!("{} ({other})", amount.short()))
}

/// A number to so many decimals, without the noughts that end them, as the language writes it.
pub fn number_text(words: &Words, value: f64, decimals: usize) -> String {
    words.tongue().number(&trimmed(value, decimals))
}

/// A number with all its decimals.
fn fixed(words: &Words, value: f64, decimals: usize) -> String {
    words.tongue().number(&rounded(value, decimals))
}

/// Width, height and thickness: whole millimetres and tenths for the thickness, or tenths of an inch and hundredths.
pub fn size_text(words: &Words, mm: [f64; 3], units: Units) -> String {
    let size = |all: [f64; 3], sides: usize, thick: usize, unit: &str| {
        let [w, h] = [all[0], all[1]].map(|v| fixed(words, v, sides));
        // No line ends between the last number and its unit.
        format!("{w} × {h} × {}\u{a0}{unit}", number_text(words, all[2], thick))
    };
    in_units(size(mm, 0, 1, "mm"), size(mm.map(|v| v / MM_PER_IN), 1, 2, "in"), units)
}

/// An area: cm² or square inches, with a decimal below 10; the smallest in mm², or with three decimals of a square inch.
pub fn area_text(words: &Words, mm2: f64, units: Units) -> String {
    let amount = |value: f64| fixed(words, value, usize::from(value < 9.95));
    let in2 = mm2 / (MM_PER_IN * MM_PER_IN);
    let metric =
        if mm2 < 10.0 { format!("{} mm²", fixed(words, mm2, 1)) } else { format!("{} cm²", amount(mm2 / 100.0)) };
    let us = if in2 < 0.095 { fixed(words, in2, 3) } else { amount(in2) };
    in_units(metric, format!("{us} in²"), units)
}

/// A small length: tenths of a millimetre, or hundredths of an inch.
pub fn small_length_text(words: &Words, mm: f64, units: Units) -> String {
    in_units(format!("{} mm", fixed(words, mm, 1)), format!("{} in", fixed(words, mm / MM_PER_IN, 2)), units)
}

/// The length of lines: metres to a hundredth, or feet to a tenth.
pub fn run_text(words: &Words, mm: f64, units: Units) -> String {
    let feet = mm / MM_PER_IN / 12.0;
    in_units(format!("{} m", fixed(words, mm / 1000.0, 2)), format!("{} ft", fixed(words, feet, 1)), units)
}

/// A small mass: grams and ounces with three digits that tell.
pub fn small_mass_text(words: &Words, g: f64, units: Units) -> String {
    let digits = |v: f64| if v < 1.0 { 2 } else { usize::from(v < 99.95) };
    let oz = g / G_PER_OZ;
    in_units(format!("{} g", fixed(words, g, digits(g))), format!("{} oz", fixed(words, oz, digits(oz) + 1)), units)
}

/// Minutes and seconds, or hours and minutes from an hour on.
pub fn time_text(seconds: f64) -> String {
    let whole = seconds.max(0.0).round() as u64;
    match whole {
        0..60 => format!("{whole} s"),
        60..3600 => format!("{} min {:02} s", whole / 60, whole % 60),
        _ => format!("{} h {:02} min", whole / 3600, whole % 3600 / 60),
    }
}

fn in_units(metric: String, us: String, units: Units) -> String {
    match units {
        Units::Metric => metric,
        Units::Us => us,
        Units::Both => format!("{metric} ({us})"),
    }
}

/// A number without the noughts that end its decimals.
fn trimmed(value: f64, decimals: usize) -> String {
    let text = rounded(value, decimals);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_and_areas_are_printed_in_the_shops_units() {
        let (words, size) = (Words::for_language("en"), [299.8, 199.8, 6.0]);
        assert_eq!(size_text(&words, size, Units::Metric), "300 × 200 × 6\u{a0}mm");
        assert_eq!(size_text(&words, size, Units::Us), "11.8 × 7.9 × 0.24\u{a0}in");
        // 1 in² = 645.16 mm², exact: 25.4².
        assert_eq!(area_text(&words, 6451.6, Units::Both), "65 cm² (10 in²)");
        assert_eq!(area_text(&words, 50.0, Units::Metric), "0.5 cm²");
        assert_eq!(area_text(&words, 0.5, Units::Both), "0.5 mm² (0.001 in²)");
    }

    /// 1 ft = 304.8 mm, 1 oz = 28.349523125 g: NIST Handbook 44, appendix C.
    #[test]
    fn runs_masses_and_times_are_printed_so_that_they_can_be_checked() {
        let words = Words::for_language("en");
        assert_eq!(run_text(&words, 3048.0, Units::Both), "3.05 m (10.0 ft)");
        assert_eq!(small_mass_text(&words, 28.349_523_125, Units::Both), "28.3 g (1.00 oz)");
        assert_eq!(small_mass_text(&words, 0.456, Units::Metric), "0.46 g");
        assert_eq!(small_mass_text(&Words::for_language("de"), 0.456, Units::Metric), "0,46 g");
        assert_eq!([time_text(59.4), time_text(61.0), time_text(3720.0)], ["59 s", "1 min 01 s", "1 h 02 min"]);
    }
}
