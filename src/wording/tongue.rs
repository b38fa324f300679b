//! How a language writes numbers and money, and in which order it puts words.
//!
//! In: a BCP 47 tag. Out: [`Tongue`]. Numbers and order by CLDR (icu_decimal, icu_collator), money by `content/money.toml`.
//! Never here: rounding, a choice of unit. Rule: handbook, "shop.toml", `languages` and `currency`.

use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::sync::LazyLock;

use icu_collator::CollatorBorrowed;
use icu_decimal::DecimalFormatter;
use icu_decimal::input::Decimal;
use icu_locale_core::Locale;
use serde::Deserialize;

use crate::units::Money;

/// Between a sign of letters and a number. CLDR, currencySpacing, insertBetween.
const SPACE: &str = "\u{a0}";

/// One language's numbers, money and order.
pub struct Tongue {
    numbers: Option<DecimalFormatter>,
    order: Option<CollatorBorrowed<'static>>,
    money: Option<&'static Row>,
}

/// One row of `content/money.toml`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    pattern: String,
    symbols: BTreeMap<String, String>,
}

static ROWS: LazyLock<BTreeMap<String, Row>> = LazyLock::new(|| {
    // The file is part of the program; the tests below read it, so it cannot be wrong in a built one.
    toml::from_str(include_str!("../../content/money.toml")).expect("content/money.toml is sound")
});

impl Tongue {
    /// The tongue of a BCP 47 tag; what the language does not settle is as in English.
    pub fn new(tag: &str) -> Tongue {
        let locale = Locale::try_from_str(tag).or_else(|_| Locale::try_from_str("en")).unwrap_or(Locale::UNKNOWN);
        let plain = tag.split('-').next().unwrap_or(tag);
        Tongue {
            numbers: DecimalFormatter::try_new((&locale).into(), Default::default()).ok(),
            order: CollatorBorrowed::try_new((&locale).into(), Default::default()).ok(),
            money: [tag, plain, "en"].into_iter().find_map(|tag| ROWS.get(tag)),
        }
    }

    /// A number written with ASCII digits and a point, as the language writes it: `1234.5` becomes `1.234,5` in German.
    pub fn number(&self, plain: &str) -> String {
        match (&self.numbers, Decimal::try_from_str(plain)) {
            (Some(numbers), Ok(decimal)) => numbers.format(&decimal).to_string(),
            _ => plain.to_owned(),
        }
    }

    /// An amount with its currency, every digit kept: `€84.00`, `84,00 €`, `CHF 84.00`.
    pub fn price(&self, money: Money, currency: &str) -> String {
        let number = self.number(&money.to_string());
        let Some(row) = self.money else {
            return format!("{currency}{SPACE}{number}");
        };
        let sign = row.symbols.get(currency).map_or(currency, String::as_str);
        let ends = |c: Option<char>| c.is_some_and(char::is_alphabetic);
        let gap = |wanted: bool| if wanted { SPACE } else { "" };
        let (before, after) = (gap(ends(sign.chars().last())), gap(ends(sign.chars().next())));
        row.pattern
            .replace("¤#", &format!("¤{before}#"))
            .replace("#¤", &format!("#{after}¤"))
            .replace('#', &number)
            .replace('¤', sign)
    }

    /// Which of two words stands first in a list.
    pub fn order(&self, a: &str, b: &str) -> Ordering {
        self.order.as_ref().map_or(Ordering::Equal, |order| order.compare(a, b)).then_with(|| a.cmp(b))
    }
}

/// Languages written from right to left: CLDR, characterOrder.
pub fn direction(language: &str) -> &'static str {
    let plain = language.split('-').next().unwrap_or(language);
    if ["ar", "he", "fa", "ur", "yi", "ps", "sd", "ckb", "dv", "ug"].contains(&plain) { "rtl" } else { "ltr" }
}

/// A language's name in itself (CLDR); its tag where it is not in the list.
pub fn language_name(language: &str) -> String {
    let plain = language.split('-').next().unwrap_or(language);
    let name = match plain {
        "en" => "English",
        "de" => "Deutsch",
        "fr" => "français",
        "es" => "español",
        "it" => "italiano",
        "nl" => "Nederlands",
        "pt" => "português",
        "da" => "dansk",
        "sv" => "svenska",
        "nb" => "norsk bokmål",
        "fi" => "suomi",
        "pl" => "polski",
        "cs" => "čeština",
        "ja" => "日本語",
        "ar" => "العربية",
        "he" => "עברית",
        _ => return language.to_owned(),
    };
    name.to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Deserialize)]
    struct Case {
        language: String,
        currency: String,
        amount: String,
        text: String,
    }

    /// Amounts as another implementation of CLDR writes them: `tests/reference/cldr/`, made by `Intl.NumberFormat` of ICU.
    #[test]
    fn money_is_written_as_cldr_says() {
        let cases: Vec<Case> =
            serde_json::from_str(include_str!("../../tests/reference/cldr/amounts.json")).expect("JSON");
        assert!(cases.len() > 1000, "only {} cases found", cases.len());
        let mut wrong = Vec::new();
        for case in &cases {
            let (whole, part) = case.amount.split_once('.').unwrap_or((&case.amount, ""));
            let minor = format!("{whole}{part}").parse().expect("digits");
            let money = Money { minor, decimals: part.len() as u32 };
            let text = Tongue::new(&case.language).price(money, &case.currency);
            if text != case.text {
                wrong.push(format!(
                    "{} {} {}: {text:?}, wanted {:?}",
                    case.language, case.currency, case.amount, case.text
                ));
            }
        }
        assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), cases.len(), wrong.join("\n"));
    }

    /// ISO 4217: two decimals for the euro, none for the yen, three for the dinar.
    #[test]
    fn money_keeps_every_digit() {
        let english = Tongue::new("en");
        let money = |minor, decimals| Money { minor, decimals };
        assert_eq!(english.price(money(5, 2), "USD"), "$0.05");
        assert_eq!(english.price(money(840_000, 0), "JPY"), "¥840,000");
        assert_eq!(english.price(money(1_234_567_890, 3), "KWD"), "KWD\u{a0}1,234,567.890");
        assert_eq!(english.price(money(i64::MAX, 2), "EUR"), "€92,233,720,368,547,758.07");
    }

    /// CLDR root collation, and its tailorings of Swedish and Danish: ä and å are letters of their own behind z.
    #[test]
    fn words_stand_in_the_languages_order() {
        let sorted = |language: &str| {
            let tongue = Tongue::new(language);
            let mut words = ["zebra", "Äpfel", "apple", "Zug", "éte", "eta"];
            words.sort_by(|a, b| tongue.order(a, b));
            words
        };
        assert_eq!(sorted("de"), ["Äpfel", "apple", "eta", "éte", "zebra", "Zug"]);
        assert_eq!(sorted("sv"), ["apple", "eta", "éte", "zebra", "Zug", "Äpfel"]);
    }

    #[test]
    fn a_tag_that_is_none_is_written_as_english() {
        assert_eq!(Tongue::new("no such tag").price(Money { minor: 8400, decimals: 2 }, "EUR"), "€84.00");
    }
}
