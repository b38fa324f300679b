//! `[in.<language>]`: the words of a record or of the shop in a further language.

use std::collections::BTreeMap;

use serde_json::json;
use toml::de::DeValue;

use super::settings::Ground;
use crate::shop::fields::{Fields, Item};
use crate::shop::nearest::nearest;
use crate::shop::record::{PaintWords, Words};
use crate::shop::settings::ShopWords;

/// Reads `[in]` with `one` for each language; a language that the shop does not have is a mistake.
fn languages<T>(fields: &Fields, ground: &Ground, one: impl Fn(Fields) -> T) -> BTreeMap<String, T> {
    let mut all = BTreeMap::new();
    let Some(within) = fields.table("in", "[in.<language>]") else {
        return all;
    };
    for (key, item) in within.open() {
        let what = format!("[in.{}]", item.key);
        let language = ground.further_language(&item.key);
        if language.is_none() && ground.languages_known {
            let (first, further) = ground.settings.languages.split_first().map_or(("en", &[][..]), |(f, r)| (f, r));
            let (message, help) = if item.key.eq_ignore_ascii_case(first) {
                let message = format!("`{}` is the first language of the shop.", item.key);
                (message, "Its words stand outside of `[in]`.".to_owned())
            } else {
                let help = match nearest(&item.key, further.iter().map(String::as_str)) {
                    Some(near) => format!("Did you mean `{near}`?"),
                    None => "Add it to `languages` in shop.toml, or leave the table out.".to_owned(),
                };
                (format!("`{}` is not a further language of the shop.", item.key), help)
            };
            item.file.mistake(key, message, Some(help));
        }
        if let Some(table) = item.table(&what) {
            let words = one(table);
            all.insert(language.unwrap_or(item.key), words);
        }
    }
    all
}

/// The words of a shop.
pub(super) fn of_shop(fields: &Fields, ground: &Ground) -> BTreeMap<String, ShopWords> {
    languages(fields, ground, |fields| {
        let words = ShopWords {
            tagline: fields.get("tagline").and_then(|item| item.text()),
            about: fields.get("about").and_then(|item| item.text()),
            price_note: fields.get("price_note").and_then(|item| item.text()),
        };
        fields.finish();
        words
    })
}

/// The words of a record; `numbers` are those of its paints.
pub(super) fn of_record(fields: &Fields, ground: &Ground, numbers: &[u32]) -> BTreeMap<String, Words> {
    languages(fields, ground, |fields| {
        let text = |key| fields.get(key).and_then(|item: Item| item.text());
        let words = Words {
            title: text("title"),
            summary: text("summary"),
            edition: text("edition"),
            lead_time: text("lead_time"),
            contains: fields.get("contains").and_then(|item| item.texts()),
            paints: fields.get("paint").map(|item| paints(&item, numbers)).unwrap_or_default(),
            story: None,
        };
        fields.finish();
        words
    })
}

/// Words of paints by number: `paint.3 = "Name"`, `[in.de.paint.3]`, or `[[in.de.paint]]` rows with `number`.
fn paints(item: &Item, numbers: &[u32]) -> BTreeMap<u32, PaintWords> {
    item.may_be(|| {
        let text = || json!({"type": "string", "pattern": "\\S"});
        let words = || json!({"name": text(), "mix": text(), "wash": text()});
        let mut row = words();
        row["number"] = json!({"type": "integer", "minimum": 1});
        json!({"anyOf": [
            {"type": "object", "patternProperties": {"^[0-9]+$": {"anyOf": [text(), {"type": "object", "properties": words(), "additionalProperties": false}]}}, "additionalProperties": false},
            {"type": "array", "items": {"type": "object", "properties": row, "required": ["number"], "additionalProperties": false}},
        ]})
    });
    let mut all = BTreeMap::new();
    let mut add = |number: Option<u32>, item: &Item, words: Option<PaintWords>| {
        let Some(number) = number else { return };
        if !numbers.contains(&number) {
            item.wrong(format!("There is no paint {number}."), "Use the number of a `[[paint]]` of this record.");
        } else if all.insert(number, words.unwrap_or_default()).is_some() {
            item.wrong(format!("Paint {number} has its words already."), "Leave one of the two out.");
        }
    };
    match item.value {
        DeValue::Array(rows) => {
            for row in item.each(rows) {
                let Some(fields) = row.table("[[paint]]") else { continue };
                let number = fields.need("number", "1").and_then(|item| item.whole(1));
                add(number, &row, Some(paint(fields)));
            }
        }
        DeValue::Table(_) => {
            for (key, row) in item.table("[paint]").iter().flat_map(Fields::open) {
                let number = row.key.parse().ok();
                if number.is_none() {
                    let help = "Paints are named by number here, for instance `1 = \"Morgengelb\"`.";
                    row.file.mistake(key, format!("`{}` is not the number of a paint.", row.key), Some(help.into()));
                }
                let words = match row.value {
                    DeValue::Table(_) => row.table("the words of a paint").map(paint),
                    _ => row.text().map(|name| PaintWords { name: Some(name), ..PaintWords::default() }),
                };
                add(number, &row, words);
            }
        }
        _ => item.wrong_kind("a table of paints by number", "Write for instance `paint.1 = \"Morgengelb\"`."),
    }
    all
}

fn paint(fields: Fields) -> PaintWords {
    let text = |key| fields.get(key).and_then(|item: Item| item.text());
    let words = PaintWords { name: text("name"), mix: text("mix"), wash: text("wash") };
    fields.finish();
    words
}
