//! Cautions: what can hurt somebody who makes, paints or plays, each with the source of its word.
//!
//! In: `content/cautions.toml`, built into the program. Out: [`all`], in the file's order; [`of`] for one place.
//! Never here: a market's statutory wording (it stands with the warnings it belongs to), advice on law.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::Deserialize;

/// One caution.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    /// Key.
    pub id: String,
    /// A few words.
    pub title: String,
    /// One or a few short sentences.
    pub text: String,
    /// Where it belongs: `everywhere`, `paint`, `laser`, `finish`.
    pub when: Vec<String>,
    /// Whose word it is.
    pub source: String,
    /// Title and text in further languages.
    #[serde(default, rename = "in")]
    pub words: BTreeMap<String, CautionWords>,
}

/// The words of a caution in a further language; English stands where one lacks.
#[derive(Clone, Debug, Default, Deserialize, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct CautionWords {
    /// A few words.
    pub title: Option<String>,
    /// One or a few short sentences.
    pub text: Option<String>,
}

impl Caution {
    /// Title and text in `language`, English where they lack.
    pub fn in_language(&self, language: &str) -> (&str, &str) {
        let plain = language.split('-').next().unwrap_or(language);
        let words = self.words.get(language).or_else(|| self.words.get(plain));
        (
            words.and_then(|w| w.title.as_deref()).unwrap_or(&self.title),
            words.and_then(|w| w.text.as_deref()).unwrap_or(&self.text),
        )
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    caution: Vec<Caution>,
}

/// Every caution, in the file's order.
pub fn all() -> &'static [Caution] {
    static ALL: LazyLock<Vec<Caution>> = LazyLock::new(|| {
        // The file is part of the program; the test below reads it, so it cannot be wrong in a built one.
        let table: Table =
            toml::from_str(include_str!("../content/cautions.toml")).expect("content/cautions.toml is sound");
        table.caution
    });
    &ALL
}

/// The cautions that belong to `place` (`everywhere`, `paint`, `laser` or `finish`), in the file's order.
pub fn of(place: &str) -> impl Iterator<Item = &'static Caution> {
    all().iter().filter(move |c| c.when.iter().any(|w| w == place))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_caution_has_its_words_its_place_and_its_source() {
        let places = ["everywhere", "paint", "laser", "finish"];
        for c in all() {
            assert!(!c.title.is_empty() && !c.text.is_empty() && c.source.len() > 10, "{}", c.id);
            assert!(!c.when.is_empty() && c.when.iter().all(|w| places.contains(&w.as_str())), "{}", c.id);
        }
        let mut ids: Vec<_> = all().iter().map(|c| &c.id).collect();
        ids.sort();
        ids.dedup();
        assert_eq!(ids.len(), all().len(), "an id stands twice");
    }

    #[test]
    fn every_caution_is_said_in_every_language_of_the_sheets() {
        for caution in all() {
            for language in ["de", "fr", "es"] {
                let words = caution.words.get(language).unwrap_or_else(|| panic!("{}: no {language}", caution.id));
                assert!(words.title.is_some() && words.text.is_some(), "{}: {language}", caution.id);
            }
        }
    }

    #[test]
    fn every_place_ends_by_deferring_to_local_codes() {
        for place in ["everywhere", "paint", "laser", "finish"] {
            assert_eq!(of(place).last().map(|c| c.id.as_str()), Some("local-rules"), "{place}");
        }
    }

    #[test]
    fn a_guide_speaks_of_fumes_cloths_dust_and_small_pieces() {
        let ids: Vec<_> = of("paint").map(|c| c.id.as_str()).collect();
        for id in ["small-pieces", "sealer-fumes", "oily-cloths", "wood-dust"] {
            assert!(ids.contains(&id), "{id}");
        }
    }
}
