//! One value of a record read as what it should be; a mistake and nothing where it is something else.

use std::ops::Range;

use serde_json::json;
use toml::de::{DeArray, DeValue};

use super::fields::{Fields, Item};
use super::mistake::Place;
use super::nearest::nearest;
use super::settings::Currency;
use crate::shape::Rgb;
use crate::units::{self, Money, NoMoney, NotAColour, UnitError};

/// Which quantities make sense.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Least {
    /// Nothing is too little.
    Zero,
    /// There has to be some.
    MoreThanZero,
}

impl<'a> Item<'a> {
    /// Where the value stands.
    pub(super) fn place(&self) -> Place {
        self.file.place(self.span.clone())
    }

    /// Notes a mistake at the value.
    pub(super) fn wrong(&self, message: impl Into<String>, help: impl Into<String>) {
        self.file.mistake(self.span.clone(), message, Some(help.into()));
    }

    /// Notes that the value is of the wrong kind.
    pub(super) fn wrong_kind(&self, due: &str, help: &str) {
        self.wrong(format!("`{}` should be {due}, and is {}.", self.key, kind(self.value)), help);
    }

    /// For a schema: what the value may be, as a JSON Schema.
    pub(super) fn may_be(&self, schema: impl FnOnce() -> serde_json::Value) {
        if let Some(trace) = self.file.trace() {
            trace.value(self.span.clone(), schema());
        }
    }

    /// Text, blank or not.
    pub(super) fn any_text(&self) -> Option<String> {
        self.may_be(|| json!({"type": "string"}));
        match self.value {
            DeValue::String(text) => Some(text.to_string()),
            _ => {
                self.wrong_kind("text", "Put it between quotation marks.");
                None
            }
        }
    }

    /// Text that says something.
    pub(super) fn text(&self) -> Option<String> {
        self.may_be(|| json!({"type": "string", "pattern": "\\S"}));
        let text = self.any_text()?;
        if text.trim().is_empty() {
            self.wrong(format!("`{}` is empty.", self.key), "Write something, or leave the key out.");
            return None;
        }
        Some(text)
    }

    /// One of a few words.
    pub(super) fn word<T: Copy>(&self, words: &[(&str, T)]) -> Option<T> {
        self.may_be(|| json!({"enum": words.iter().map(|(word, _)| *word).collect::<Vec<_>>()}));
        let text = self.any_text()?;
        let found = words.iter().find(|(word, _)| *word == text).map(|(_, value)| *value);
        if found.is_none() {
            let all = either(words.iter().map(|(word, _)| format!("`{word}`")).collect());
            let message = format!("`{}` cannot be `{text}`.", self.key);
            let help = match nearest(&text, words.iter().map(|(word, _)| *word)) {
                Some(near) => format!("Did you mean `{near}`? It can be {all}."),
                None => format!("It can be {all}."),
            };
            self.wrong(message, help);
        }
        found
    }

    /// True or false.
    pub(super) fn flag(&self) -> Option<bool> {
        self.may_be(|| json!({"type": "boolean"}));
        let DeValue::Boolean(flag) = self.value else {
            self.wrong_kind("true or false", "Write `true` or `false`, without quotation marks.");
            return None;
        };
        Some(*flag)
    }

    /// A whole number from `least` on.
    pub(super) fn whole(&self, least: u32) -> Option<u32> {
        self.may_be(|| json!({"type": "integer", "minimum": least, "maximum": u32::MAX}));
        let number = match self.value {
            DeValue::Integer(number) => u32::from_str_radix(number.as_str(), number.radix()).ok(),
            _ => {
                self.wrong_kind("a whole number", "Write digits alone, without quotation marks.");
                return None;
            }
        };
        let found = number.filter(|number| *number >= least);
        if found.is_none() {
            let help = format!("Write a whole number from {least} to {}.", u32::MAX);
            self.wrong(format!("`{}` cannot be `{}`.", self.key, self.written()), help);
        }
        found
    }

    /// A number between two bounds, both allowed.
    pub(super) fn number(&self, least: f64, most: f64) -> Option<f64> {
        self.may_be(|| match most.is_finite() {
            true => json!({"type": "number", "minimum": least, "maximum": most}),
            false => json!({"type": "number", "minimum": least}),
        });
        let number: Option<f64> = match self.value {
            DeValue::Integer(number) if number.radix() == 10 => number.as_str().parse().ok(),
            DeValue::Float(number) => number.as_str().parse().ok(),
            _ => {
                self.wrong_kind("a number", "Write the number alone, without quotation marks or a unit.");
                return None;
            }
        };
        let found = number.filter(|number| number.is_finite() && (least..=most).contains(number));
        if found.is_none() {
            let help = if most.is_finite() {
                format!("Write a number from {least} to {most}.")
            } else {
                format!("Write a number from {least} on.")
            };
            self.wrong(format!("`{}` cannot be `{}`.", self.key, self.written()), help);
        }
        found
    }

    /// A length, mm.
    pub(super) fn length_mm(&self, least: Least) -> Option<f64> {
        self.may_be(|| quantity(&units::LENGTH, least));
        self.quantity(units::length_mm, "a length with its unit", length_like(&self.key), least)
    }

    /// A mass, g.
    pub(super) fn mass_g(&self, least: Least) -> Option<f64> {
        self.may_be(|| quantity(&units::MASS, least));
        self.quantity(units::mass_g, "a weight with its unit", "60 g", least)
    }

    /// A density, kg/m³.
    pub(super) fn density_kg_m3(&self) -> Option<f64> {
        self.may_be(|| quantity(&units::DENSITY, Least::MoreThanZero));
        self.quantity(units::density_kg_m3, "a density with its unit", "610 kg/m3", Least::MoreThanZero)
    }

    /// A speed, mm/s.
    pub(super) fn speed_mm_s(&self) -> Option<f64> {
        self.may_be(|| quantity(&units::SPEED, Least::MoreThanZero));
        self.quantity(units::speed_mm_s, "a speed with its unit", "12 mm/s", Least::MoreThanZero)
    }

    /// An area, mm²; a bare number is one already.
    pub(super) fn area_mm2(&self) -> Option<f64> {
        self.may_be(|| json!({"anyOf": [quantity(&units::AREA, Least::Zero), {"type": "number", "minimum": 0}]}));
        match self.value {
            DeValue::Integer(_) | DeValue::Float(_) => self.number(0.0, f64::INFINITY),
            _ => self.quantity(units::area_mm2, "an area in mm²", "50 mm2", Least::Zero),
        }
    }

    fn quantity(
        &self,
        read: impl Fn(&str) -> Result<f64, UnitError>,
        due: &str,
        example: &str,
        least: Least,
    ) -> Option<f64> {
        let text = match self.value {
            DeValue::String(_) => &self.text()?,
            // A bare 0 is the same in every unit.
            DeValue::Integer(_) | DeValue::Float(_) if read(self.written()) == Ok(0.0) => self.written(),
            _ => {
                self.wrong_kind(due, &format!("Write for instance `{} = \"{example}\"`.", self.key));
                return None;
            }
        };
        match read(text) {
            Ok(value) if value > 0.0 || value == 0.0 && least == Least::Zero => Some(value),
            Ok(_) => {
                let than = if least == Least::Zero { "less than 0" } else { "0 or less" };
                self.wrong(format!("`{}` cannot be {than}.", self.key), format!("Write for instance `\"{example}\"`."));
                None
            }
            Err(error) => {
                self.file.mistake(self.span.clone(), format!("`{}`: {error}.", self.key), error.help());
                None
            }
        }
    }

    /// A list of lengths, mm, exactly as many as asked for.
    pub(super) fn lengths_mm<const N: usize>(&self) -> Option<[f64; N]> {
        self.may_be(|| json!({"type": "array", "minItems": N, "maxItems": N, "items": quantity(&units::LENGTH, Least::MoreThanZero)}));
        let items = self.items()?;
        if items.len() != N {
            let help = format!("Write for instance `[{}]`.", vec!["\"200 mm\""; N].join(", "));
            self.wrong(format!("`{}` should be {N} lengths, and has {}.", self.key, items.len()), help);
            return None;
        }
        let lengths: Vec<f64> = items.iter().filter_map(|item| item.length_mm(Least::MoreThanZero)).collect();
        lengths.try_into().ok()
    }

    /// A price in the shop's currency, exact; as text, or as a bare number taken as it is written.
    pub(super) fn money(&self, currency: &Currency) -> Option<Money> {
        self.may_be(|| json!({"anyOf": [{"type": "string", "pattern": "^\\s*[0-9]+(\\.[0-9]+)?\\s*$"}, {"type": "number", "minimum": 0}]}));
        let text = match self.value {
            DeValue::String(text) => text.to_string(),
            // TOML allows 1_200.00.
            DeValue::Integer(_) | DeValue::Float(_) => self.written().replace('_', ""),
            _ => {
                self.wrong_kind("a price", "Write for instance `\"84.00\"`.");
                return None;
            }
        };
        let decimals = currency.decimals;
        let example = if decimals == 0 { "84" } else { "84.00" };
        match Money::read(&text, decimals) {
            Ok(money) => Some(money),
            Err(error @ NoMoney::TooManyDecimals { .. }) => {
                let help = format!(
                    "A price in {} has at most {decimals} decimals, for instance `\"{example}\"`.",
                    currency.code
                );
                self.wrong(format!("`{}`: {error}.", self.key), help);
                None
            }
            Err(error) => {
                let help = format!(
                    "Write digits with at most one point, for instance `\"{example}\"`, without a currency sign."
                );
                self.wrong(format!("`{}`: {error}.", self.key), help);
                None
            }
        }
    }

    /// An opaque colour.
    pub(super) fn colour(&self) -> Option<Rgb> {
        self.may_be(|| json!({"type": "string", "pattern": "^\\s*(#[0-9a-fA-F]{3}|#[0-9a-fA-F]{6}|[a-zA-Z]+|(rgb|hsl)a?\\(.*\\))\\s*$"}));
        let text = self.any_text()?;
        match units::colour(&text) {
            Ok(colour) => Some(colour),
            Err(error) => {
                let help = match error {
                    NotAColour::Unknown { .. } => {
                        "Write for instance `\"#f2c14e\"`, `\"rgb(242, 193, 78)\"` or a CSS name."
                    }
                    NotAColour::SeeThrough { .. } => "Leave the last part out; a thin wash is told by `wash`.",
                };
                self.wrong(format!("`{}`: {error}.", self.key), help);
                None
            }
        }
    }

    /// A day, as `YYYY-MM-DD`.
    pub(super) fn day(&self) -> Option<String> {
        self.may_be(|| json!({"type": "string", "format": "date", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}));
        if let DeValue::Datetime(moment) = self.value
            && let (Some(date), None, None) = (moment.date, moment.time, moment.offset)
        {
            return Some(date.to_string());
        }
        self.wrong_kind("a date", "Write year, month and day without quotation marks, for instance `2026-03-14`.");
        None
    }

    /// A list of texts, none of them blank.
    pub(super) fn texts(&self) -> Option<Vec<String>> {
        let items = self.items()?;
        let texts: Vec<String> = items.iter().filter_map(Item::text).collect();
        (texts.len() == items.len()).then_some(texts)
    }

    /// The members of a list.
    pub(super) fn items(&self) -> Option<Vec<Item<'a>>> {
        self.may_be(|| json!({"type": "array", "items": null}));
        match self.value {
            DeValue::Array(members) => Some(self.each(members).collect()),
            _ => {
                self.wrong_kind("a list", "Put it between square brackets.");
                None
            }
        }
    }

    /// Each member of a list under the list's key.
    pub(super) fn each(&self, members: &'a DeArray<'a>) -> impl Iterator<Item = Item<'a>> {
        let (file, key) = (self.file, self.key.clone());
        members.iter().map(move |member| Item { file, key: key.clone(), span: member.span(), value: member.get_ref() })
    }

    /// A table.
    pub(super) fn table(&self, what: &str) -> Option<Fields<'a>> {
        match self.value {
            DeValue::Table(table) => Some(Fields::new(self.file, table, Some(self.span.clone()), what.to_owned())),
            _ => {
                self.wrong_kind("a table", &format!("Write it as `{what}`."));
                None
            }
        }
    }

    /// The value as written, without a rounding on the way.
    pub(super) fn written(&self) -> &'a str {
        self.file.written(self.span.clone())
    }

    /// The value's bytes in the file.
    pub(super) fn span(&self) -> Range<usize> {
        self.span.clone()
    }
}

/// For a schema: text with a number and a unit, or a bare 0 where that is allowed.
fn quantity(kind: &units::Quantity, least: Least) -> serde_json::Value {
    let text = json!({"type": "string", "pattern": kind.pattern()});
    if least == Least::Zero { json!({"anyOf": [text, {"const": 0}]}) } else { text }
}

/// Words as a choice: `a`, `b` or `c`.
fn either(mut words: Vec<String>) -> String {
    match (words.pop(), words.is_empty()) {
        (Some(last), false) => format!("{} or {last}", words.join(", ")),
        (last, _) => last.unwrap_or_default(),
    }
}

/// A length that would be right for a key.
fn length_like(key: &str) -> &'static str {
    match key {
        "kerf" => "0.2 mm",
        "join" => "0.1 mm",
        "neck" => "2 mm",
        "brush" => "1.5 mm",
        "thickness" => "6 mm",
        _ => "300 mm",
    }
}

/// What a value is, for people.
fn kind(value: &DeValue) -> &'static str {
    match value {
        DeValue::String(_) => "text",
        DeValue::Integer(_) => "a whole number",
        DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(moment) if moment.time.is_none() => "a date",
        DeValue::Datetime(_) => "a time",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}
