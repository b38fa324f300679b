//! Lengths, masses, densities, speeds, money and colours: reading what owners write, and printing it.
//!
//! In: text as written in a record. Out: millimetres, grams, kg/m³, mm/s, exact [`Money`], [`crate::shape::Rgb`].
//! Inside the program only these units travel; every other unit is gone once this border is passed.
//! Never here: where the text stands (see `shop`), or words of any language around a figure.

mod colour;
mod money;
mod quantity;

pub use colour::{NotAColour, colour};
pub use money::{Money, NoMoney};
pub use quantity::{
    AREA, DENSITY, LENGTH, MASS, Quantity, SPEED, UnitError, area_mm2, density_kg_m3, length_mm, mass_g, speed_mm_s,
};

/// International inch, exact. 1959 yard and pound agreement, as in NIST SP 811, appendix B.8, and NIST Handbook 44, appendix C.
pub const MM_PER_IN: f64 = 25.4;

/// Avoirdupois pound, exact. 1959 yard and pound agreement, as in NIST SP 811, appendix B.8, and NIST Handbook 44, appendix C.
pub const G_PER_LB: f64 = 453.592_37;

/// Avoirdupois ounce, a sixteenth of the pound, exact. NIST Handbook 44, appendix C.
pub const G_PER_OZ: f64 = 28.349_523_125;

/// A figure with a fixed number of decimals and a point, for instance `229.8`; never `-0.0`.
///
/// The nearest decimal to the binary value is taken, the same on every machine; grouping and the decimal
/// sign of a language are the business of whoever writes in that language.
pub fn rounded(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|b| b == b'0' || b == b'.') => rest.to_owned(),
        _ => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_figure_is_rounded_and_zero_has_no_sign() {
        assert_eq!(rounded(229.8000001, 1), "229.8");
        assert_eq!(rounded(-0.02, 1), "0.0");
        assert_eq!(rounded(-1.25, 2), "-1.25");
        assert_eq!(rounded(172.6, 0), "173");
    }

    /// NIST Handbook 44, appendix C: 1 pound = 16 ounces.
    #[test]
    fn sixteen_ounces_are_a_pound() {
        assert_eq!(G_PER_OZ * 16.0, G_PER_LB);
    }
}
