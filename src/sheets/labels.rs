//! Labels of the sheets: short words from `content/wording/<language>-sheets.ftl`, English where a language lacks them.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource};
use unic_langid::LanguageIdentifier;

const ENGLISH: &str = include_str!("../../content/wording/en-sheets.ftl");

struct Words {
    bundle: FluentBundle<FluentResource>,
    keys: Vec<String>,
}

fn english() -> &'static Words {
    static WORDS: LazyLock<Words> = LazyLock::new(|| {
        // A line that is no message would be left out here and found missing by the test below.
        let resource = FluentResource::try_new(ENGLISH.to_owned()).unwrap_or_else(|(part, _)| part);
        let keys = ENGLISH
            .lines()
            .filter_map(|l| l.split_once(" =").map(|(key, _)| key))
            .filter(|key| key.starts_with("sheet-"))
            .map(str::to_owned)
            .collect();
        let language: LanguageIdentifier = unic_langid::langid!("en");
        let mut bundle = FluentBundle::new_concurrent(vec![language]);
        bundle.set_use_isolating(false);
        bundle.add_resource_overriding(resource);
        Words { bundle, keys }
    });
    &WORDS
}

/// One label with its values filled in; the key itself where there is no such label.
pub fn label(key: &str, values: &[(&str, Value)]) -> String {
    let mut args = FluentArgs::new();
    for (name, value) in values {
        match value {
            Value::Text(text) => args.set(*name, text.as_str()),
            Value::Count(count) => args.set(*name, *count as f64),
        }
    }
    let words = english();
    let Some(pattern) = words.bundle.get_message(key).and_then(|m| m.value()) else {
        return key.to_owned();
    };
    words.bundle.format_pattern(pattern, Some(&args), &mut Vec::new()).into_owned()
}

/// A value that a label takes.
pub enum Value {
    /// Text as it is.
    Text(String),
    /// A number that may choose the form of the words.
    Count(usize),
}

impl From<&str> for Value {
    fn from(text: &str) -> Self {
        Value::Text(text.to_owned())
    }
}

impl From<String> for Value {
    fn from(text: String) -> Self {
        Value::Text(text)
    }
}

impl From<usize> for Value {
    fn from(count: usize) -> Self {
        Value::Count(count)
    }
}

/// All labels that take no value, by key without `sheet-`: what a template may print.
pub fn plain() -> &'static BTreeMap<String, String> {
    static PLAIN: LazyLock<BTreeMap<String, String>> = LazyLock::new(|| {
        let words = english();
        let mut plain = BTreeMap::new();
        for key in &words.keys {
            let Some(pattern) = words.bundle.get_message(key).and_then(|m| m.value()) else { continue };
            let mut missing = Vec::new();
            let text = words.bundle.format_pattern(pattern, None, &mut missing).into_owned();
            if missing.is_empty() {
                plain.insert(key.trim_start_matches("sheet-").to_owned(), text);
            }
        }
        plain
    });
    &PLAIN
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_file_is_sound_and_every_message_is_there() {
        assert!(FluentResource::try_new(ENGLISH.to_owned()).is_ok());
        for key in &english().keys {
            assert!(english().bundle.has_message(key), "{key}");
        }
    }

    #[test]
    fn numbers_choose_the_form() {
        assert_eq!(label("sheet-cell-count", &[("count", 1.into())]), "1 cell");
        assert_eq!(label("sheet-cell-count", &[("count", 12.into())]), "12 cells");
    }

    #[test]
    fn labels_without_values_are_offered_to_templates() {
        assert_eq!(plain().get("palette").map(String::as_str), Some("Palette"));
        assert!(!plain().contains_key("tile"), "this one takes a name");
    }
}
