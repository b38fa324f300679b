//! Lengths as CSS writes them, turned into user units (CSS pixels).
//!
//! Rule: CSS Values and Units 4, section 6.2, absolute lengths; SVG 2, section 8.9, percentages.

use super::error::{Bad, word_at};
use super::numbers::Numbers;

/// One CSS pixel, mm. CSS Values and Units 4, absolute lengths: 96 px = 1 in = 25.4 mm.
pub const MM_PER_PX: f64 = 25.4 / 96.0;

/// A length as written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Length {
    /// In user units, and in mm.
    Absolute { px: f64, mm: f64 },
    /// Percent of something.
    Percent(f64),
}

/// What a percentage is taken of. SVG 2, section 8.9.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    Width,
    Height,
    /// The diagonal divided by √2.
    Both,
}

/// Width and height of a viewport: of the nearest one in its own user units, of the outermost one in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Viewport {
    pub width: f64,
    pub height: f64,
}

impl Viewport {
    /// Both sides times `factor`.
    pub(super) fn scaled(self, factor: f64) -> Viewport {
        Viewport { width: self.width * factor, height: self.height * factor }
    }
}

impl Length {
    /// Reads `12`, `12mm`, `-1.2e1 %`; nothing may follow.
    pub(super) fn read(text: &str) -> Result<Length, Bad> {
        let mut numbers = Numbers::new(text);
        let number = numbers.number()?;
        let at = numbers.at;
        let unit = numbers.rest().trim_end();
        if unit == "%" {
            return Ok(Length::Percent(number));
        }
        match unit_of(unit) {
            Some((px, mm)) => Ok(Length::Absolute { px: number * px, mm: number * mm }),
            None if is_font_unit(unit) => {
                Err(Bad::new(at, format!("`{unit}` depends on a font or a screen; use mm, cm, in, pt or px")))
            }
            None => Err(Bad::new(at, format!("`{}` is not a unit of length", word_at(text, at)))),
        }
    }

    /// In user units, percentages taken of `viewport`.
    pub(super) fn in_px(self, side: Side, viewport: Viewport) -> f64 {
        match self {
            Length::Absolute { px, .. } => px,
            Length::Percent(percent) => {
                let Viewport { width, height } = viewport;
                let whole = match side {
                    Side::Width => width,
                    Side::Height => height,
                    Side::Both => ((width * width + height * height) / 2.0).sqrt(),
                };
                percent / 100.0 * whole
            }
        }
    }
}

/// Pixels and mm in one of a unit; units are written in any case.
fn unit_of(unit: &str) -> Option<(f64, f64)> {
    const UNITS: [(&str, f64, f64); 8] = [
        ("", 1.0, MM_PER_PX),
        ("px", 1.0, MM_PER_PX),
        ("mm", 96.0 / 25.4, 1.0),
        ("cm", 96.0 / 2.54, 10.0),
        ("in", 96.0, 25.4),
        ("pt", 96.0 / 72.0, 25.4 / 72.0),
        ("pc", 16.0, 25.4 / 6.0),
        ("q", 96.0 / 101.6, 0.25),
    ];
    UNITS.iter().find(|(name, ..)| name.eq_ignore_ascii_case(unit)).map(|(_, px, mm)| (*px, *mm))
}

fn is_font_unit(unit: &str) -> bool {
    let known = ["em", "ex", "ch", "rem", "lh", "vw", "vh", "vmin", "vmax"];
    known.iter().any(|name| name.eq_ignore_ascii_case(unit))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// CSS Values and Units 4, section 6.2, table of absolute lengths: 1cm = 96px/2.54, 1mm = 1/10 cm,
    /// 1Q = 1/40 cm, 1in = 2.54 cm = 96px, 1pc = 1/6 in, 1pt = 1/72 in.
    #[test]
    fn absolute_units_are_those_of_css() {
        let cm = 96.0 / 2.54;
        let inch = 96.0;
        let table = [
            ("1cm", cm),
            ("1mm", cm / 10.0),
            ("1Q", cm / 40.0),
            ("1in", inch),
            ("1pc", inch / 6.0),
            ("1pt", inch / 72.0),
            ("1px", 1.0),
            ("1", 1.0),
            ("1IN", inch),
            (" 2.5e1mm ", 2.5 * cm),
            ("-.5in", -48.0),
        ];
        for (text, px) in table {
            let Ok(Length::Absolute { px: got, mm }) = Length::read(text) else { panic!("{text} is not read") };
            assert!((got - px).abs() < 1e-12, "{text}: {got}, not {px}");
            assert!((mm - px * 25.4 / 96.0).abs() < 1e-12, "{text}: {mm} mm");
        }
        assert!((MM_PER_PX * 96.0 - 25.4).abs() < 1e-12);
    }

    /// SVG 2, section 8.9: other percentages are of sqrt((width² + height²) / 2).
    #[test]
    fn percentages_are_of_the_viewport() {
        let viewport = Viewport { width: 30.0, height: 40.0 };
        let half = Length::read("50%").unwrap();
        assert_eq!(half.in_px(Side::Width, viewport), 15.0);
        assert_eq!(half.in_px(Side::Height, viewport), 20.0);
        assert!((half.in_px(Side::Both, viewport) - 0.5 * (2500.0f64 / 2.0).sqrt()).abs() < 1e-12);
    }

    #[test]
    fn what_is_no_length_is_told_with_its_place() {
        assert_eq!(Length::read("12parsec").unwrap_err().byte, 2);
        assert_eq!(Length::read("ten").unwrap_err().byte, 0);
        assert!(Length::read("2em").unwrap_err().reason.contains("font"));
        assert!(Length::read("").is_err() && Length::read("3 4").is_err() && Length::read("1e999").is_err());
    }
}
