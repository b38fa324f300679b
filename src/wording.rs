//! What the program says to buyers and makers, by language: Fluent messages with their plural rules.
//!
//! In: a language tag and a key. Out: text; where a language lacks a line, English stands in.
//! Never here: markup, an owner's words, a decision on what is shown.
//! `amounts` prints lengths and masses, `tongue` numbers, money and order.
//! Rule: handbook, "shop.toml", `languages`. The lines stand in `content/wording/`.

pub mod amounts;
mod tongue;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource};
use intl_memoizer::Memoizable;
use intl_memoizer::concurrent::IntlLangMemoizer;
use unic_langid::LanguageIdentifier;

pub use tongue::{Tongue, direction, language_name};

/// A value that a line takes in: text, or a number for plural forms.
pub use fluent_bundle::FluentValue as Value;

/// The files of each language; English first, and complete.
const FILES: &[(&str, &[&str])] = &[
    ("en", &[include_str!("../content/wording/en.ftl"), include_str!("../content/wording/en-sheets.ftl")]),
    ("de", &[include_str!("../content/wording/de.ftl"), include_str!("../content/wording/de-sheets.ftl")]),
    ("fr", &[include_str!("../content/wording/fr.ftl"), include_str!("../content/wording/fr-sheets.ftl")]),
    ("es", &[include_str!("../content/wording/es.ftl"), include_str!("../content/wording/es-sheets.ftl")]),
];

/// The lines of one language, with English behind them.
pub struct Words {
    language: String,
    tongue: Tongue,
    own: Option<FluentBundle<FluentResource>>,
    english: FluentBundle<FluentResource>,
}

impl Words {
    /// The words of a BCP 47 tag; of its plain language where the region has none of its own, else English.
    pub fn for_language(language: &str) -> Words {
        let plain = language.split('-').next().unwrap_or(language);
        let own = [language, plain].into_iter().find_map(|tag| {
            let (tag, files) = FILES.iter().skip(1).find(|(known, _)| known.eq_ignore_ascii_case(tag))?;
            Some(bundle(tag, files))
        });
        let english = FILES.first().map_or_else(|| bundle("en", &[]), |(tag, files)| bundle(tag, files));
        Words { language: language.to_owned(), tongue: Tongue::new(language), own, english }
    }

    /// The tag asked for.
    pub fn language(&self) -> &str {
        &self.language
    }

    /// How the language writes numbers and money.
    pub fn tongue(&self) -> &Tongue {
        &self.tongue
    }

    /// A line without values; a key that no file has comes back as it is.
    pub fn text(&self, key: &str) -> String {
        self.with(key, &[])
    }

    /// A line with values; a key that no file has comes back as it is.
    pub fn with(&self, key: &str, values: &[(&str, Value<'_>)]) -> String {
        self.find(key, values).unwrap_or_else(|| key.to_owned())
    }

    /// A line with values, or `None` where neither the language nor English has it whole.
    pub fn find(&self, key: &str, values: &[(&str, Value<'_>)]) -> Option<String> {
        let args: FluentArgs<'_> = values.iter().map(|(name, value)| (*name, value.clone())).collect();
        self.own.iter().chain([&self.english]).find_map(|bundle| {
            let pattern = bundle.get_message(key)?.value()?;
            let mut errors = Vec::new();
            let text = bundle.format_pattern(pattern, Some(&args), &mut errors).into_owned();
            errors.is_empty().then_some(text)
        })
    }
}

fn bundle(tag: &str, files: &[&str]) -> FluentBundle<FluentResource> {
    let mut bundle = FluentBundle::new_concurrent(vec![tag.parse::<LanguageIdentifier>().unwrap_or_default()]);
    // The marks that keep a value's direction apart would stand in titles and addresses too.
    bundle.set_use_isolating(false);
    bundle.set_formatter(Some(number));
    for file in files {
        let resource = match FluentResource::try_new((*file).to_owned()) {
            Ok(resource) | Err((resource, _)) => resource,
        };
        bundle.add_resource_overriding(resource);
    }
    bundle
}

/// Numbers in lines, as the language writes them.
struct Numbers(Tongue);

impl Memoizable for Numbers {
    type Args = ();
    type Error = ();
    fn construct(language: LanguageIdentifier, (): ()) -> Result<Numbers, ()> {
        Ok(Numbers(Tongue::new(&language.to_string())))
    }
}

fn number(value: &Value<'_>, memo: &IntlLangMemoizer) -> Option<String> {
    let Value::Number(number) = value else { return None };
    memo.with_try_get::<Numbers, _, _>((), |numbers| numbers.0.number(&number.as_string())).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_is_sound_and_names_no_line_twice() {
        for (tag, files) in FILES {
            let mut bundle = FluentBundle::new_concurrent(vec![tag.parse::<LanguageIdentifier>().expect("a tag")]);
            for file in *files {
                let resource = FluentResource::try_new((*file).to_owned()).map_err(|(_, errors)| errors);
                bundle.add_resource(resource.expect("sound Fluent")).expect("no line twice");
            }
        }
    }

    /// The lines of a file with the values each takes in.
    fn lines(file: &str) -> Vec<(String, std::collections::BTreeSet<String>)> {
        let mut all: Vec<(String, std::collections::BTreeSet<String>)> = Vec::new();
        for line in file.lines() {
            if let Some((key, _)) =
                line.split_once(" =").filter(|(key, _)| key.starts_with(|c: char| c.is_ascii_lowercase()))
            {
                all.push((key.to_owned(), Default::default()));
            }
            let values =
                line.split('$').skip(1).map(|rest| rest.chars().take_while(|c| c.is_ascii_lowercase()).collect());
            if let Some((_, kept)) = all.last_mut() {
                kept.extend(values);
            }
        }
        all.sort();
        all
    }

    /// The first file of a language holds the catalogue's words, the second those of the sheets.
    #[test]
    fn every_language_says_all_that_catalogue_and_sheets_say() {
        for (file, least) in [(0, 100), (1, 200)] {
            let english = lines(FILES[0].1[file]);
            assert!(english.len() > least, "{}", english.len());
            for (tag, files) in &FILES[1..] {
                assert_eq!(lines(files[file]), english, "{tag}");
            }
        }
    }

    /// Imprimerie nationale, Lexique des règles typographiques: a space that does not break stands before : ; ? ! % and inside « ».
    #[test]
    fn no_line_of_a_french_sheet_can_begin_with_a_sign() {
        let file = FILES.iter().find(|(tag, _)| *tag == "fr").expect("French").1[1];
        for line in file.lines().filter(|line| !line.starts_with('#')) {
            for pair in [" :", " ;", " ?", " !", " %", " »", "« "] {
                assert!(!line.contains(pair), "{line}");
            }
        }
    }

    /// CLDR plural rules: French counts 0 and 1 alike. CLDR grouping: German groups thousands by a point.
    #[test]
    fn plural_forms_and_numbers_are_the_languages_own() {
        let count = |language: &str, n: u32| Words::for_language(language).with("count-pieces", &[("count", n.into())]);
        assert_eq!([count("fr", 0), count("fr", 1), count("fr", 2)], ["0 pièce", "1 pièce", "2 pièces"]);
        assert_eq!([count("de", 1), count("de", 1000), count("en", 1000)], ["1 Teil", "1.000 Teile", "1,000 pieces"]);
    }

    #[derive(serde::Deserialize)]
    struct Spoken {
        language: String,
        plurals: Vec<(u32, String)>,
        numbers: Vec<(String, String)>,
        order: Vec<String>,
    }

    /// Plural forms, numbers and order of words as another implementation of CLDR has them: `tests/reference/cldr/`, made by ICU's `Intl`.
    #[test]
    fn each_language_of_the_program_counts_writes_and_sorts_as_cldr_says() {
        let all: Vec<Spoken> =
            serde_json::from_str(include_str!("../tests/reference/cldr/languages.json")).expect("JSON");
        assert_eq!(
            all.iter().map(|s| s.language.as_str()).collect::<Vec<_>>(),
            FILES.iter().map(|(tag, _)| *tag).collect::<Vec<_>>()
        );
        let forms =
            "form = { $n ->\n [zero] zero\n [one] one\n [two] two\n [few] few\n [many] many\n *[other] other\n }\n";
        for Spoken { language, plurals, numbers, order } in all {
            let tongue = Tongue::new(&language);
            let bundle = bundle(&language, &[forms]);
            let pattern = bundle.get_message("form").and_then(|m| m.value()).expect("a line");
            for (count, form) in &plurals {
                let args: FluentArgs<'_> = [("n", Value::from(*count))].into_iter().collect();
                let found = bundle.format_pattern(pattern, Some(&args), &mut Vec::new()).into_owned();
                assert_eq!(&found, form, "{language}, {count}");
            }
            for (plain, written) in &numbers {
                assert_eq!(&tongue.number(plain), written, "{language}, {plain}");
            }
            let mut sorted = order.clone();
            sorted.sort();
            sorted.sort_by(|a, b| tongue.order(a, b));
            assert_eq!(sorted, order, "{language}");
            assert!(plurals.len() > 200 && numbers.len() > 10 && order.len() > 40);
        }
    }

    /// CLDR plural rules, English: one for 1, other for all else.
    #[test]
    fn english_tells_one_from_many() {
        let words = Words::for_language("en");
        assert_eq!(words.with("count-pieces", &[("count", 1.into())]), "1 piece");
        assert_eq!(words.with("count-pieces", &[("count", 84.into())]), "84 pieces");
        assert_eq!(words.with("count-pieces", &[("count", 0.into())]), "0 pieces");
    }

    #[test]
    fn a_language_without_words_speaks_english() {
        assert_eq!(Words::for_language("tlh").text("small-pieces"), "Small pieces: keep away from young children.");
        assert_eq!(Words::for_language("en-GB").text("small-pieces"), "Small pieces: keep away from young children.");
    }

    #[test]
    fn a_line_that_lacks_a_value_is_not_shown_with_a_gap() {
        assert_eq!(Words::for_language("en").find("count-pieces", &[]), None);
    }
}
