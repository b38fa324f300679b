//! Which lines of the wording a sheet's template may print as they are.

use std::collections::BTreeMap;

use crate::wording::Words;

/// The sheets' English lines, for their keys.
const ENGLISH: &str = include_str!("../../content/wording/en-sheets.ftl");

fn keys() -> impl Iterator<Item = &'static str> {
    ENGLISH.lines().filter_map(|line| line.split_once(" =")).map(|(key, _)| key).filter(|key| key.starts_with("sheet-"))
}

/// All labels that take no value, by key without `sheet-`.
pub fn plain(words: &Words) -> BTreeMap<String, String> {
    keys().filter_map(|key| Some((key.trim_start_matches("sheet-").to_owned(), words.find(key, &[])?))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_without_values_are_offered_to_templates() {
        let plain = plain(&Words::for_language("en"));
        assert_eq!(plain.get("palette").map(String::as_str), Some("Palette"));
        assert!(!plain.contains_key("tile"), "this one takes a name");
        assert!(plain.len() > 30, "{}", plain.len());
    }

    #[test]
    fn numbers_choose_the_form() {
        let words = Words::for_language("en");
        let cells = |count: usize| words.with("sheet-cell-count", &[("count", count.into())]);
        assert_eq!([cells(0), cells(1), cells(12)], ["no cell of its own", "1 cell", "12 cells"]);
    }
}
