//! Currencies and the decimals a price in them may carry. Source: ISO 4217, see `content/currencies.toml`.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use super::fields::Item;
use super::nearest::nearest;
use super::settings::Currency;

#[derive(serde::Deserialize)]
struct Table {
    #[allow(dead_code, reason = "told to readers of the file")]
    source: String,
    decimals: BTreeMap<String, Vec<String>>,
}

static CURRENCIES: LazyLock<BTreeMap<String, u32>> = LazyLock::new(|| {
    // Part of the program and held by the tests below, so nothing here hangs on what a user writes.
    let table: Table = toml::from_str(include_str!("../../content/currencies.toml")).expect("the table of currencies");
    let mut all = BTreeMap::new();
    for (decimals, codes) in table.decimals {
        let decimals = decimals.parse().expect("a number of decimals");
        all.extend(codes.into_iter().map(|code| (code, decimals)));
    }
    all
});

impl Currency {
    /// The currency of a code of three capital letters; `None` if ISO 4217 does not list it.
    pub fn of(code: &str) -> Option<Currency> {
        CURRENCIES.get(code).map(|decimals| Currency { code: code.to_owned(), decimals: *decimals })
    }
}

/// Reads `currency`.
pub(super) fn read(item: &Item) -> Option<Currency> {
    let code = item.text()?;
    let found = Currency::of(&code);
    if found.is_none() {
        let help = match nearest(&code, CURRENCIES.keys().map(String::as_str)) {
            Some(near) if near.eq_ignore_ascii_case(&code) => format!("Did you mean `{near}`?"),
            _ => "Write the three capital letters of ISO 4217, for instance `EUR`, `GBP` or `USD`.".to_owned(),
        };
        item.wrong(format!("`{code}` is not a currency."), help);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 4217, list one, minor units.
    #[test]
    fn decimals_are_those_of_the_standard() {
        for (code, decimals) in
            [("EUR", 2), ("USD", 2), ("GBP", 2), ("JPY", 0), ("ISK", 0), ("TND", 3), ("KWD", 3), ("CHF", 2)]
        {
            assert_eq!(Currency::of(code).map(|c| c.decimals), Some(decimals), "{code}");
        }
        assert_eq!(Currency::of("eur"), None);
        assert_eq!(Currency::of("DEM"), None);
        assert!(CURRENCIES.len() > 150);
        assert!(CURRENCIES.keys().all(|code| code.len() == 3 && code.bytes().all(|b| b.is_ascii_uppercase())));
    }
}
