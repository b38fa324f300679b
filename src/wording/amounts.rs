//! Lengths and masses as a buyer reads them: metric, US customary or both, in the numbers of a language.
//!
//! In: millimetres, grams. Out: text. Figures are computed once, in mm and g; here they are only printed.
//! Never here: money (`tongue`), a decision on what is shown. Rule: handbook, "shop.toml", `units`.

use crate::shop::Units;
use crate::units::{G_PER_OZ, MM_PER_IN};
use crate::wording::Tongue;

/// U+202F, between a number and its unit or fraction: narrow, and no line breaks there.
const THIN: char = '\u{202f}';

/// A quantity in the shop's first system, and in the second where it shows both.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Amount {
    /// The number, for instance `230 × 200`.
    pub number: String,
    /// Its unit, for instance `mm`.
    pub unit: &'static str,
    /// The same in the other system, unit included.
    pub other: Option<String>,
}

impl Amount {
    /// Number and unit in the first system.
    pub fn short(&self) -> String {
        format!("{}{THIN}{}", self.number, self.unit)
    }

    fn new(units: Units, metric: (String, &'static str), us: (String, &'static str)) -> Amount {
        let (first, other) = match units {
            Units::Metric => (metric, None),
            Units::Us => (us, None),
            Units::Both => (metric, Some(format!("{}{THIN}{}", us.0, us.1))),
        };
        Amount { number: first.0, unit: first.1, other }
    }
}

/// A length or several, as in `230 × 200 mm`: millimetres to the whole, or to a tenth below 20 mm; inches to the sixteenth.
pub fn lengths(units: Units, tongue: &Tongue, all_mm: &[f64]) -> Amount {
    let join = |print: &dyn Fn(f64) -> String| all_mm.iter().map(|mm| print(*mm)).collect::<Vec<_>>().join(" × ");
    Amount::new(units, (join(&|mm| tongue.number(&millimetres(mm))), "mm"), (join(&inches), "in"))
}

/// A mass: grams to the whole; ounces to a tenth, from a pound on pounds and whole ounces.
pub fn mass(units: Units, tongue: &Tongue, mass_g: f64) -> Amount {
    let metric =
        if mass_g < 999.5 { (format!("{mass_g:.0}"), "g") } else { (trimmed(format!("{:.2}", mass_g / 1000.0)), "kg") };
    let metric = (tongue.number(&metric.0), metric.1);
    let ounces = mass_g / G_PER_OZ;
    let us = if ounces < 15.95 {
        (tongue.number(&trimmed(format!("{ounces:.1}"))), "oz")
    } else {
        let whole = libm::round(ounces);
        let (pounds, rest) = (libm::floor(whole / 16.0), whole % 16.0);
        if rest == 0.0 { (format!("{pounds:.0}"), "lb") } else { (format!("{pounds:.0}{THIN}lb {rest:.0}"), "oz") }
    };
    Amount::new(units, metric, us)
}

/// The size of a file: kilobytes to the whole, megabytes to a tenth. SI prefixes.
pub fn file_size(tongue: &Tongue, bytes: u64) -> String {
    let kilo = bytes as f64 / 1000.0;
    let (number, unit) =
        if kilo < 999.5 { (format!("{:.0}", kilo.max(1.0)), "kB") } else { (format!("{:.1}", kilo / 1000.0), "MB") };
    format!("{}\u{a0}{unit}", tongue.number(&number))
}

fn millimetres(mm: f64) -> String {
    if mm < 20.0 { trimmed(format!("{mm:.1}")) } else { format!("{mm:.0}") }
}

/// Inches to the nearest sixteenth, as a proper fraction in lowest terms: `9 ¹⁄₁₆`.
pub fn inches(mm: f64) -> String {
    let sixteenths = libm::round(mm.max(0.0) / MM_PER_IN * 16.0) as u64;
    let (whole, mut top, mut bottom) = (sixteenths / 16, sixteenths % 16, 16);
    while top > 0 && top.is_multiple_of(2) {
        (top, bottom) = (top / 2, bottom / 2);
    }
    match (whole, top) {
        (_, 0) => whole.to_string(),
        (0, _) => fraction(top, bottom),
        _ => format!("{whole}{THIN}{}", fraction(top, bottom)),
    }
}

/// A fraction set small: U+2044 between raised and lowered figures.
fn fraction(top: u64, bottom: u64) -> String {
    let set = |number: u64, zero_to_nine: &str| -> String {
        let digit = |d: char| d.to_digit(10).and_then(|d| zero_to_nine.chars().nth(d as usize));
        number.to_string().chars().filter_map(digit).collect()
    };
    format!("{}\u{2044}{}", set(top, "⁰¹²³⁴⁵⁶⁷⁸⁹"), set(bottom, "₀₁₂₃₄₅₆₇₈₉"))
}

fn trimmed(number: String) -> String {
    if !number.contains('.') {
        return number;
    }
    number.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn en() -> Tongue {
        Tongue::new("en")
    }

    /// NIST Handbook 44: 1 in = 25.4 mm; the fractions by hand.
    #[test]
    fn inches_are_proper_fractions_in_lowest_terms() {
        assert_eq!(inches(25.4), "1");
        assert_eq!(inches(6.35), "¹⁄₄");
        assert_eq!(inches(6.0), "¹⁄₄");
        assert_eq!(inches(4.7625), "³⁄₁₆");
        assert_eq!(inches(229.8), "9\u{202f}¹⁄₁₆");
        assert_eq!(inches(199.8), "7\u{202f}⁷⁄₈");
        assert_eq!(inches(276.0), "10\u{202f}⁷⁄₈");
        assert_eq!(inches(0.0), "0");
    }

    /// NIST Handbook 44: 1 oz = 28.349523125 g, 16 oz to the pound.
    #[test]
    fn ounces_become_pounds() {
        assert_eq!(mass(Units::Us, &en(), 100.0).short(), "3.5\u{202f}oz");
        assert_eq!(mass(Units::Us, &en(), 453.59237).short(), "1\u{202f}lb");
        assert_eq!(mass(Units::Us, &en(), 453.59237 + 3.0 * 28.349523125).short(), "1\u{202f}lb 3\u{202f}oz");
        assert_eq!(mass(Units::Both, &en(), 172.6).number, "173");
        assert_eq!(mass(Units::Both, &en(), 172.6).other.as_deref(), Some("6.1\u{202f}oz"));
        assert_eq!(mass(Units::Metric, &en(), 1250.0).short(), "1.25\u{202f}kg");
    }

    #[test]
    fn lengths_are_shown_in_the_shops_units() {
        let both = lengths(Units::Both, &en(), &[229.8, 199.8]);
        assert_eq!((both.number.as_str(), both.unit), ("230 × 200", "mm"));
        assert_eq!(both.other.as_deref(), Some("9\u{202f}¹⁄₁₆ × 7\u{202f}⁷⁄₈\u{202f}in"));
        assert_eq!(lengths(Units::Metric, &en(), &[6.35]).short(), "6.3\u{202f}mm");
        assert_eq!(lengths(Units::Metric, &en(), &[6.0]).other, None);
    }

    /// CLDR 48: German writes a comma where English writes a point.
    #[test]
    fn numbers_are_written_in_the_language() {
        let german = Tongue::new("de");
        assert_eq!(mass(Units::Metric, &german, 1250.0).short(), "1,25\u{202f}kg");
        assert_eq!(lengths(Units::Metric, &german, &[6.35]).short(), "6,3\u{202f}mm");
        assert_eq!(file_size(&german, 1_234_567), "1,2\u{a0}MB");
    }
}
