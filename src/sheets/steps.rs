//! The order of work: steps, needs and notes from `content/painting.toml`, as they apply to one board.
//!
//! In: the file, built into the program, and what is so about a board (`scored`, `primed`, …). Out: titles and texts in one language.
//! Never here: a second order of work; the bench takes its own from the same rows.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use serde::Deserialize;

/// What is so about a board and its kit: `scored` or `cut`, `primed` or `unprimed`, `plan` or `free`, `contents` or `no-contents`.
pub type Facts = BTreeSet<&'static str>;

/// One row: a step, a need or a note.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// Key.
    pub id: String,
    /// It applies where every one of these is so.
    #[serde(default)]
    pub when: Vec<String>,
    /// Which part of a sheet prints it; notes only.
    #[serde(default)]
    pub place: String,
    /// A few words; needs have none.
    #[serde(default)]
    pub title: String,
    /// What to do.
    pub text: String,
    /// Whose word it is; not printed.
    pub source: String,
    /// Title and text in further languages.
    #[serde(default, rename = "in")]
    pub words: BTreeMap<String, RowWords>,
}

/// The words of a row in a further language.
#[derive(Clone, Debug, Default, Deserialize, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct RowWords {
    title: Option<String>,
    text: Option<String>,
}

impl Row {
    fn applies(&self, facts: &Facts) -> bool {
        self.when.iter().all(|w| facts.contains(w.as_str()))
    }

    /// The title in `language` or its plain language, English where it lacks.
    pub fn title(&self, language: &str) -> &str {
        self.in_language(language).and_then(|w| w.title.as_deref()).unwrap_or(&self.title)
    }

    /// The text in `language` or its plain language, English where it lacks.
    pub fn text(&self, language: &str) -> &str {
        self.in_language(language).and_then(|w| w.text.as_deref()).unwrap_or(&self.text)
    }

    fn in_language(&self, language: &str) -> Option<&RowWords> {
        let plain = language.split('-').next().unwrap_or(language);
        self.words.get(language).or_else(|| self.words.get(plain))
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Order {
    id: String,
    steps: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    order: Vec<Order>,
    step: Vec<Row>,
    need: Vec<Row>,
    note: Vec<Row>,
}

fn file() -> &'static File {
    static FILE: LazyLock<File> = LazyLock::new(|| {
        // The file is part of the program; the tests below read it, so it cannot be wrong in a built one.
        toml::from_str(include_str!("../../content/painting.toml")).expect("content/painting.toml is sound")
    });
    &FILE
}

/// The steps of one order (`painted`, `plain`, `scored`, `cut`) that apply, first to last; none for an order that is not there.
pub fn steps<'a>(order: &str, facts: &'a Facts) -> impl Iterator<Item = &'static Row> + 'a {
    let order = file().order.iter().find(|o| o.id == order);
    let ids = order.map(|o| o.steps.as_slice()).unwrap_or_default();
    ids.iter().filter_map(|id| file().step.iter().find(|s| s.id == *id)).filter(|s| s.applies(facts))
}

/// What a painter needs beside the kit.
pub fn needs(facts: &Facts) -> impl Iterator<Item = &'static Row> + '_ {
    file().need.iter().filter(|n| n.applies(facts))
}

/// Notes for one part of a sheet (`mishaps`, `lost`, `care`).
pub fn notes<'a>(place: &'a str, facts: &'a Facts) -> impl Iterator<Item = &'static Row> + 'a {
    file().note.iter().filter(move |n| n.place == place && n.applies(facts))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ids(order: &str, facts: &[&'static str]) -> Vec<&'static str> {
        steps(order, &facts.iter().copied().collect()).map(|s| s.id.as_str()).collect()
    }

    #[test]
    fn every_step_of_an_order_is_there_and_every_row_has_a_source() {
        for order in &file().order {
            for id in &order.steps {
                assert!(file().step.iter().any(|s| s.id == *id), "{}: {id}", order.id);
            }
        }
        let rows = file().step.iter().chain(&file().need).chain(&file().note);
        for row in rows {
            assert!(!row.source.is_empty() && !row.text.is_empty(), "{}", row.id);
        }
    }

    #[test]
    fn every_row_has_its_words_in_every_language_of_the_sheets() {
        for row in file().step.iter().chain(&file().need).chain(&file().note) {
            for language in ["de", "fr", "es"] {
                let words = row.words.get(language).unwrap_or_else(|| panic!("{}: no {language}", row.id));
                assert!(words.text.as_ref().is_some_and(|t| !t.is_empty() && *t != row.text), "{}", row.id);
                assert_eq!(words.title.is_some(), !row.title.is_empty(), "{}: {language}", row.id);
            }
            assert_eq!(row.words.len(), 3, "{}: a language that no sheet speaks", row.id);
        }
    }

    #[test]
    fn a_region_without_words_of_its_own_speaks_its_plain_language() {
        let row = file().step.iter().find(|s| s.id == "prime").unwrap();
        assert_eq!((row.title("de-AT"), row.title("fr-CA"), row.title("pt")), ("Grundieren", "Apprêter", "Prime"));
    }

    /// The one order of work, handbook, "The sheets".
    #[test]
    fn the_workshop_primes_masks_scores_paints_seals_and_cuts_in_that_order() {
        let painted = ids("painted", &[]);
        let at = |id: &str| painted.iter().position(|s| *s == id).unwrap_or_else(|| panic!("{id}"));
        let order = [
            "ground",
            "mask",
            "score",
            "unmask",
            "wash",
            "wash-dry",
            "seal-early",
            "dry-through",
            "mask-again",
            "laser",
            "lift",
            "count",
            "unmask-pieces",
            "seal-late",
            "sand-back",
            "dust-off",
            "oil-back",
            "oil-dry",
            "pack",
        ];
        assert!(order.windows(2).all(|w| at(w[0]) < at(w[1])), "{painted:?}");
        let plain = ids("plain", &[]);
        assert_eq!(plain.first(), Some(&"mask"));
        assert!(!plain.contains(&"wash") && plain.contains(&"oil-both"));
    }

    /// A board that is cut is primed before that or not at all; a scored one is primed by its buyer unless it is already.
    #[test]
    fn only_a_scored_bare_board_is_primed_by_its_buyer() {
        assert!(ids("scored", &["scored", "unprimed", "plan"]).contains(&"prime"));
        assert!(!ids("scored", &["scored", "primed", "plan"]).contains(&"prime"));
        for ground in ["primed", "unprimed"] {
            assert!(!ids("cut", &["cut", ground, "plan"]).contains(&"prime"));
        }
        assert!(ids("cut", &["cut", "unprimed", "plan"]).contains(&"bare"));
    }

    #[test]
    fn a_cut_board_is_loosened_before_its_last_drying_under_weight() {
        let cut = ids("cut", &["cut", "primed", "plan"]);
        let at = |id: &str| cut.iter().position(|s| *s == id).unwrap_or_else(|| panic!("{id}"));
        assert!(at("seal-cut") < at("loosen") && at("loosen") < at("press-again"));
    }
}
