//! Prices, exact: read digit by digit, never through a binary fraction.

/// An exact amount in the smallest unit of a currency that has `decimals` decimals.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Money {
    /// In the smallest unit, for instance cents.
    pub minor: i64,
    /// How many decimals the currency has.
    pub decimals: u32,
}

/// What was read is no price.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoMoney {
    /// Something other than digits with at most one point.
    #[error("`{text}` is not a price")]
    NotAPrice {
        /// As written.
        text: String,
    },
    /// More decimals than the currency has.
    #[error("`{text}` has {has} decimals, more than the {may} that the currency has")]
    TooManyDecimals {
        /// As written.
        text: String,
        /// How many it has.
        has: usize,
        /// How many it may have.
        may: u32,
    },
    /// More than an exact amount can hold.
    #[error("`{text}` is too large")]
    TooLarge {
        /// As written.
        text: String,
    },
}

impl Money {
    /// An amount from text such as `84`, `84.5` or `84.00`, for a currency with `decimals` decimals (ISO 4217, minor unit).
    ///
    /// Missing decimals are zeros. No sign, no grouping, no currency sign, no exponent.
    ///
    /// # Errors
    /// [`NoMoney`]; see its variants.
    pub fn read(written: &str, decimals: u32) -> Result<Money, NoMoney> {
        let text = written.trim();
        let (before, after) = text.split_once('.').unwrap_or((text, "0"));
        let digits = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
        if !digits(before) || !digits(after) {
            return Err(NoMoney::NotAPrice { text: text.into() });
        }
        let after = if text.contains('.') { after } else { "" };
        let missing = match (decimals as usize).checked_sub(after.len()) {
            Some(missing) => missing,
            None => return Err(NoMoney::TooManyDecimals { text: text.into(), has: after.len(), may: decimals }),
        };
        let minor = format!("{before}{after}{}", "0".repeat(missing))
            .parse()
            .map_err(|_| NoMoney::TooLarge { text: text.into() })?;
        Ok(Money { minor, decimals })
    }
}

impl std::fmt::Display for Money {
    /// Digits and a point alone: `84.00`, or `84` in a currency without decimals.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let decimals = self.decimals as usize;
        let digits = format!("{:0>width$}", self.minor.unsigned_abs(), width = decimals + 1);
        let (before, after) = digits.split_at(digits.len() - decimals);
        let sign = if self.minor < 0 { "-" } else { "" };
        if decimals == 0 { write!(f, "{sign}{before}") } else { write!(f, "{sign}{before}.{after}") }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 4217: two decimals for EUR, none for JPY, three for TND.
    #[test]
    fn prices_are_read_to_the_last_digit() {
        for (text, decimals, minor, shown) in [
            ("84.00", 2, 8400, "84.00"),
            ("84", 2, 8400, "84.00"),
            ("84.5", 2, 8450, "84.50"),
            ("0.05", 2, 5, "0.05"),
            ("1200", 0, 1200, "1200"),
            ("1.005", 3, 1005, "1.005"),
            // The nearest f64 to this is 90071992547409.92, a cent away.
            ("90071992547409.93", 2, 9_007_199_254_740_993, "90071992547409.93"),
        ] {
            let money = Money::read(text, decimals).unwrap();
            assert_eq!(money, Money { minor, decimals }, "{text}");
            assert_eq!(money.to_string(), shown);
        }
        assert_eq!(Money { minor: -1205, decimals: 2 }.to_string(), "-12.05");
        assert_eq!(Money { minor: i64::MIN, decimals: 2 }.to_string(), "-92233720368547758.08");
    }

    #[test]
    fn what_is_no_price_says_why() {
        for text in ["24,o0", "", ".", "84.", ".50", "-1", "+1", "1e3", "1,200.00", "€ 4", "٣"] {
            assert_eq!(Money::read(text, 2), Err(NoMoney::NotAPrice { text: text.into() }));
        }
        assert_eq!(Money::read("84.000", 2), Err(NoMoney::TooManyDecimals { text: "84.000".into(), has: 3, may: 2 }));
        assert_eq!(Money::read("84.0", 0), Err(NoMoney::TooManyDecimals { text: "84.0".into(), has: 1, may: 0 }));
        assert!(matches!(Money::read("99999999999999999999", 2), Err(NoMoney::TooLarge { .. })));
    }
}
