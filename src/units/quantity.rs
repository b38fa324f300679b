//! A number and a unit, as in `1 1/4 in`, to the one unit that the program works in.
//!
//! A decimal is taken as a fraction of whole numbers and every factor is one too, so that `0.6 cm` and `6 mm` are
//! the same f64 and `1/4 in` is 6.35 to the last digit.

/// What was read cannot be a quantity.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum UnitError {
    /// No number at the start, as in `thick`.
    #[error("`{text}` is not {} {what}", article(.what))]
    NotANumber {
        /// As written.
        text: String,
        /// What was due.
        what: &'static str,
        /// A good one.
        example: &'static str,
    },
    /// A comma where the decimal point belongs.
    #[error("`{text}` has a comma; decimals are written with a point")]
    Comma {
        /// As written.
        text: String,
    },
    /// A number alone.
    #[error("`{text}` has no unit")]
    NoUnit {
        /// As written.
        text: String,
        /// The units known, for people.
        known: &'static str,
    },
    /// A unit that is not known here, as in `3 furlongs`.
    #[error("`{unit}` is not a unit of {what}")]
    UnknownUnit {
        /// As written.
        unit: String,
        /// What was due.
        what: &'static str,
        /// The units known, for people.
        known: &'static str,
    },
    /// So large that it is no number any more.
    #[error("`{text}` is too large")]
    TooLarge {
        /// As written.
        text: String,
    },
}

fn article(noun: &str) -> &'static str {
    if noun.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" }
}

impl UnitError {
    /// What to write instead.
    pub fn help(&self) -> Option<String> {
        match self {
            UnitError::NotANumber { example, .. } => {
                Some(format!("Write a number and a unit, such as `\"{example}\"`."))
            }
            UnitError::Comma { text } => Some(format!("Write `\"{}\"`.", text.replace(',', "."))),
            UnitError::NoUnit { known, .. } | UnitError::UnknownUnit { known, .. } => {
                Some(format!("The units are {known}."))
            }
            UnitError::TooLarge { .. } => None,
        }
    }
}

/// One kind of quantity: its name, an example, and its units as fractions of the unit the program works in.
#[derive(Debug)]
pub struct Quantity {
    /// As it stands in a sentence after "is not a": `length`.
    pub what: &'static str,
    /// One that would be right.
    pub example: &'static str,
    /// The units as a sentence lists them.
    pub known: &'static str,
    /// Spelling, in lower case, and factor as numerator and denominator.
    units: &'static [(&'static str, f64, f64)],
}

/// Lengths. Inch: see [`super::MM_PER_IN`]; 25.4 = 127 ÷ 5.
pub const LENGTH: Quantity = Quantity {
    what: "length",
    example: "6 mm",
    known: "mm, cm, m and in",
    units: &[("mm", 1.0, 1.0), ("cm", 10.0, 1.0), ("m", 1000.0, 1.0), ("in", 127.0, 5.0)],
};

/// Masses. Pound and ounce: see [`super::G_PER_LB`].
pub const MASS: Quantity = Quantity {
    what: "weight",
    example: "60 g",
    known: "g, kg, oz and lb",
    units: &[("g", 1.0, 1.0), ("kg", 1000.0, 1.0), ("oz", 45_359_237.0, 1_600_000.0), ("lb", 45_359_237.0, 100_000.0)],
};

/// Densities. 1 lb/ft³ = 0.45359237 kg ÷ (0.3048 m)³, and 0.3048³ = 0.028316846592. NIST SP 811, appendix B.8.
pub const DENSITY: Quantity = Quantity {
    what: "density",
    example: "610 kg/m3",
    known: "kg/m3, g/cm3 and lb/ft3",
    units: &[("kg/m3", 1.0, 1.0), ("g/cm3", 1000.0, 1.0), ("lb/ft3", 453_592_370_000.0, 28_316_846_592.0)],
};

/// Speeds.
pub const SPEED: Quantity = Quantity {
    what: "speed",
    example: "12 mm/s",
    known: "mm/s, mm/min, cm/s, m/min and in/s",
    units: &[
        ("mm/s", 1.0, 1.0),
        ("mm/min", 1.0, 60.0),
        ("cm/s", 10.0, 1.0),
        ("m/min", 1000.0, 60.0),
        ("in/s", 127.0, 5.0),
    ],
};

/// Areas; 1 in² = (127 ÷ 5)² mm².
pub const AREA: Quantity = Quantity {
    what: "area",
    example: "50 mm2",
    known: "mm2, cm2 and in2",
    units: &[("mm2", 1.0, 1.0), ("cm2", 100.0, 1.0), ("in2", 16_129.0, 25.0)],
};

/// Millimetres from `6 mm`, `0.6 cm`, `0.006 m`, `1/4 in`, `1 1/4 in` or `0.25 in`. A bare `0` needs no unit. May be negative.
///
/// # Errors
/// [`UnitError`]; see its variants.
pub fn length_mm(text: &str) -> Result<f64, UnitError> {
    LENGTH.read(text)
}

/// Grams from `60 g`, `0.06 kg`, `2 oz` or `1/8 lb`.
///
/// # Errors
/// [`UnitError`]; see its variants.
pub fn mass_g(text: &str) -> Result<f64, UnitError> {
    MASS.read(text)
}

/// Kilograms per cubic metre from `610 kg/m3`, `0.61 g/cm3` or `38 lb/ft3`; `³` stands for `3` as well.
///
/// # Errors
/// [`UnitError`]; see its variants.
pub fn density_kg_m3(text: &str) -> Result<f64, UnitError> {
    DENSITY.read(text)
}

/// Millimetres per second from `12 mm/s`, `720 mm/min`, `1.2 cm/s`, `0.72 m/min` or `0.5 in/s`.
///
/// # Errors
/// [`UnitError`]; see its variants.
pub fn speed_mm_s(text: &str) -> Result<f64, UnitError> {
    SPEED.read(text)
}

/// Square millimetres from `50 mm2`, `0.5 cm2` or `0.1 in2`; `²` stands for `2` as well.
///
/// # Errors
/// [`UnitError`]; see its variants.
pub fn area_mm2(text: &str) -> Result<f64, UnitError> {
    AREA.read(text)
}

impl Quantity {
    /// What texts of this kind look like, as a regular expression of ECMA-262: a decimal or a fraction, not negative, and a unit.
    pub fn pattern(&self) -> String {
        let any_case = |unit: &str| -> String {
            let letter = |c: char| match c {
                '2' => "[2²]".to_owned(),
                '3' => "[3³]".to_owned(),
                c if c.is_ascii_alphabetic() => format!("[{c}{}]", c.to_ascii_uppercase()),
                c => c.to_string(),
            };
            unit.chars().map(letter).collect()
        };
        let units: Vec<String> = self.units.iter().map(|(unit, ..)| any_case(unit)).collect();
        format!(
            "^\\s*([0-9]+\\.?[0-9]*|\\.[0-9]+|([0-9]+ +)?[0-9]+ */ *[0-9]+)\\s*({})\\s*$|^\\s*0\\s*$",
            units.join("|")
        )
    }

    fn read(&self, written: &str) -> Result<f64, UnitError> {
        let text = written.trim();
        let split = text.find(|c: char| !is_of_a_number(c)).unwrap_or(text.len());
        let (number, unit) = text.split_at(split);
        let unit = unit.trim();
        if unit.starts_with(',') {
            return Err(UnitError::Comma { text: text.into() });
        }
        let Some((above, below)) = fraction(number) else {
            return Err(UnitError::NotANumber { text: text.into(), what: self.what, example: self.example });
        };
        if unit.is_empty() {
            return if above == 0.0 {
                Ok(0.0)
            } else {
                Err(UnitError::NoUnit { text: text.into(), known: self.known })
            };
        }
        let spelling = unit.to_lowercase().replace('³', "3").replace('²', "2");
        let Some((_, up, down)) = self.units.iter().find(|(name, ..)| *name == spelling) else {
            return Err(UnitError::UnknownUnit { unit: unit.into(), what: self.what, known: self.known });
        };
        let value = (above * up) / (below * down);
        if value.is_finite() { Ok(value) } else { Err(UnitError::TooLarge { text: text.into() }) }
    }
}

fn is_of_a_number(c: char) -> bool {
    c.is_ascii_digit() || matches!(c, '.' | '/' | ' ' | '+' | '-' | '−')
}

/// `12`, `-0.6`, `1/4` or `1 1/4` as numerator and denominator.
fn fraction(text: &str) -> Option<(f64, f64)> {
    let text = text.trim();
    let (sign, text) = match text.strip_prefix(['-', '−']) {
        Some(rest) => (-1.0, rest),
        None => (1.0, text),
    };
    let Some((left, below)) = text.split_once('/') else {
        let (above, below) = decimal(text)?;
        return Some((sign * above, below));
    };
    let below = whole(below.trim())?;
    if below == 0.0 {
        return None;
    }
    let left = left.trim();
    let above = match left.split_once(' ') {
        Some((units, part)) => whole(units)? * below + whole(part.trim())?,
        None => whole(left)?,
    };
    Some((sign * above, below))
}

/// `0.6` as 6 and 10; at most 22 decimals, since 10²² is the last power of ten that an f64 holds exactly.
fn decimal(text: &str) -> Option<(f64, f64)> {
    let (before, after) = text.split_once('.').unwrap_or((text, ""));
    if before.is_empty() && after.is_empty() || after.len() > 22 {
        return None;
    }
    let below = (0..after.len()).fold(1.0, |power, _| power * 10.0);
    Some((whole(&format!("{before}{after}"))?, below))
}

fn whole(text: &str) -> Option<f64> {
    if text.is_empty() || !text.bytes().all(|b| b.is_ascii_digit()) {
        return None;
    }
    text.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// CSS Values and Units 4, absolute lengths: 1 cm = 96 px ÷ 2.54, 1 in = 2.54 cm. NIST SP 811, B.8: inch 25.4 mm exactly.
    #[test]
    fn lengths_in_every_unit_come_out_in_millimetres() {
        for (text, mm) in [
            ("6 mm", 6.0),
            ("6mm", 6.0),
            (" 0.6 cm ", 6.0),
            ("0.006 m", 6.0),
            ("1/4 in", 6.35),
            ("0.25 in", 6.35),
            (".25 IN", 6.35),
            ("1 1/4 in", 31.75),
            ("1/8 in", 3.175),
            ("3/16 in", 4.7625),
            ("2.54 cm", 25.4),
            ("-0.1 mm", -0.1),
            ("0", 0.0),
        ] {
            assert_eq!(length_mm(text), Ok(mm), "{text}");
        }
    }

    /// NIST Handbook 44, appendix C: pound 453.59237 g exactly, ounce a sixteenth of it.
    #[test]
    fn masses_in_every_unit_come_out_in_grams() {
        for (text, g) in [
            ("60 g", 60.0),
            ("0.06 kg", 60.0),
            ("1 lb", 453.59237),
            ("1 oz", 28.349523125),
            ("16 oz", 453.59237),
            ("1/2 lb", 226.796185),
        ] {
            assert_eq!(mass_g(text), Ok(g), "{text}");
        }
    }

    /// NIST SP 811, appendix B.8: pound per cubic foot 1.601 846 E+01 kg/m³.
    #[test]
    fn densities_speeds_and_areas() {
        assert_eq!(density_kg_m3("610 kg/m3"), Ok(610.0));
        assert_eq!(density_kg_m3("610 kg/m³"), Ok(610.0));
        assert_eq!(density_kg_m3("0.61 g/cm3"), Ok(610.0));
        assert!((density_kg_m3("1 lb/ft3").unwrap() - 16.018_46).abs() < 5e-6);
        assert_eq!(speed_mm_s("12 mm/s"), Ok(12.0));
        assert_eq!(speed_mm_s("720 mm/min"), Ok(12.0));
        assert_eq!(speed_mm_s("0.5 in/s"), Ok(12.7));
        assert_eq!(area_mm2("0.5 cm2"), Ok(50.0));
        assert_eq!(area_mm2("1 in²"), Ok(645.16));
    }

    #[test]
    fn what_is_no_quantity_says_why() {
        let kind = |text: &str| match length_mm(text) {
            Err(UnitError::NotANumber { .. }) => "no number",
            Err(UnitError::Comma { .. }) => "comma",
            Err(UnitError::NoUnit { .. }) => "no unit",
            Err(UnitError::UnknownUnit { .. }) => "unknown unit",
            Err(UnitError::TooLarge { .. }) => "too large",
            Ok(_) => "a length",
        };
        for (text, want) in [
            ("thick", "no number"),
            ("", "no number"),
            ("mm", "no number"),
            ("1/0 in", "no number"),
            ("1.2.3 mm", "no number"),
            ("1/2/3 mm", "no number"),
            ("1 1 1/4 in", "no number"),
            ("6", "no unit"),
            ("0,6 cm", "comma"),
            ("3 furlongs", "unknown unit"),
            ("6 g", "unknown unit"),
            ("1e3 mm", "unknown unit"),
        ] {
            assert_eq!(kind(text), want, "{text}");
        }
        assert_eq!(kind(&format!("{} m", "9".repeat(400))), "too large");
    }
}
