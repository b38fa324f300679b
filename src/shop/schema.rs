//! JSON Schemas of record.toml and shop.toml, made by the reader itself.
//!
//! In: nothing; `content/every-key/` is read as any shop is, with the [`Trace`] on. Out: JSON Schema (2020-12) as text.
//! Keys, kinds and choices are those that the reader asked for; the help is that file's. Dates are text here, as JSON has none.
//! Never here: a key or kind written down a second time.

use serde_json::{Map, Value, json};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::folder::Folder;
use super::read::{record, settings};
use super::toml_file::TomlFile;
use super::trace::Trace;

const RECORD: &str = include_str!("../../content/every-key/record.toml");
const SHOP: &str = include_str!("../../content/every-key/shop.toml");

/// JSON Schema of record.toml.
pub fn record_schema() -> Value {
    let folder = Folder::nowhere();
    let ground = settings::read(&folder, TomlFile::new("shop.toml", SHOP.to_owned()));
    let file = TomlFile::traced("record.toml", RECORD.to_owned());
    let table = file.parse();
    record::read_traced(&folder, &ground, file.fields(table.get_ref(), "the record"));
    made("record.toml", "One design of a shop of wooden jigsaw puzzles.", &file, table.get_ref())
}

/// JSON Schema of shop.toml.
pub fn shop_schema() -> Value {
    let folder = Folder::nowhere();
    let file = TomlFile::traced("shop.toml", SHOP.to_owned());
    let table = file.parse();
    settings::read_table(&folder, file.fields(table.get_ref(), "shop.toml"));
    made("shop.toml", "A shop of wooden jigsaw puzzles as a whole.", &file, table.get_ref())
}

fn made(title: &str, what: &str, file: &TomlFile, table: &DeTable) -> Value {
    let Some(trace) = file.trace() else { return Value::Bool(true) };
    let maker = Maker { file, trace };
    let mut schema = Map::new();
    schema.insert("$schema".into(), json!("https://json-schema.org/draft/2020-12/schema"));
    schema.insert("title".into(), json!(title));
    schema.insert("description".into(), json!(what));
    if let Value::Object(rest) = maker.tables(&[table]) {
        schema.extend(rest);
    }
    Value::Object(schema)
}

struct Maker<'a> {
    file: &'a TomlFile,
    trace: &'a Trace,
}

impl Maker<'_> {
    /// The schema that all of some tables of one kind keep: rows of a list, or one table alone.
    fn tables(&self, tables: &[&DeTable]) -> Value {
        let (mut properties, mut needed, mut open) = (Map::new(), Vec::new(), None);
        for table in tables {
            let Some(asked) = self.trace.asked(table) else { continue };
            if asked.open {
                let first = table.iter().min_by_key(|(key, _)| key.span().start);
                open = open.or(first.and_then(|(_, value)| self.value(value)));
            }
            for (key, is_needed) in asked.keys {
                let value = table.get(key).and_then(|value| self.value(value));
                if properties.get(key).is_none_or(Value::is_null) {
                    properties.insert(key.to_owned(), value.unwrap_or(Value::Null));
                }
                if is_needed && !needed.contains(&key) {
                    needed.push(key);
                }
            }
        }
        let mut schema = Map::new();
        schema.insert("type".into(), json!("object"));
        if !properties.is_empty() {
            schema.insert("properties".into(), Value::Object(properties));
        }
        if !needed.is_empty() {
            schema.insert("required".into(), json!(needed));
        }
        schema.insert("additionalProperties".into(), open.unwrap_or(Value::Bool(false)));
        Value::Object(schema)
    }

    /// The schema of a value, `None` where the reader did not look at it.
    fn value(&self, value: &Spanned<DeValue>) -> Option<Value> {
        let mut schema = match (self.trace.may_be(value.span()), value.get_ref()) {
            (Some(may_be), DeValue::Array(rows)) if may_be.get("items") == Some(&Value::Null) => {
                let mut items = may_be.clone();
                let first = rows.iter().find_map(|row| self.value(row));
                items["items"] = first.unwrap_or(Value::Bool(true));
                items
            }
            (Some(may_be), _) => may_be,
            (None, DeValue::Table(table)) if self.trace.asked(table).is_some() => self.tables(&[table]),
            (None, DeValue::Array(rows)) => {
                let tables: Vec<&DeTable> = rows.iter().filter_map(|row| row.get_ref().as_table()).collect();
                if tables.is_empty() || self.trace.asked(tables[0]).is_none() {
                    return None;
                }
                json!({"type": "array", "items": self.tables(&tables)})
            }
            _ => return None,
        };
        if let (Some(help), Value::Object(fields)) = (self.help(value), &mut schema) {
            fields.entry("description").or_insert(json!(help));
        }
        Some(schema)
    }

    /// The note behind a value, or behind the header of its table.
    fn help(&self, value: &Spanned<DeValue>) -> Option<String> {
        let at = match value.get_ref() {
            DeValue::Array(rows) if rows.iter().any(|row| row.get_ref().is_table()) => rows.iter().next()?.span(),
            _ => value.span(),
        };
        let rest = self.file.written(at.start..self.file.len()).lines().next()?;
        let after = match rest.starts_with('[') && value.get_ref().is_table() {
            true => rest,
            false => self.file.written(at.end..self.file.len()).lines().next()?,
        };
        let note = after.rsplit_once(" # ").map(|(_, note)| note.trim())?;
        (!note.is_empty()).then(|| note.to_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Paths of keys whose kind the reader did not show, because `content/every-key` lacks them.
    fn lacking(schema: &Value, path: &str, found: &mut Vec<String>) {
        if let Some(properties) = schema.get("properties").and_then(Value::as_object) {
            for (key, value) in properties {
                let path = format!("{path}.{key}");
                if value.is_null() {
                    found.push(path.clone());
                }
                if value.get("description").is_none() {
                    found.push(format!("{path}: no note"));
                }
                lacking(value, &path, found);
            }
        }
        for within in ["items", "additionalProperties"] {
            if let Some(value) = schema.get(within) {
                lacking(value, &format!("{path}[]"), found);
            }
        }
    }

    #[test]
    fn every_key_that_the_reader_knows_has_its_kind_and_a_note() {
        for schema in [record_schema(), shop_schema()] {
            let mut found = Vec::new();
            lacking(&schema, "", &mut found);
            assert_eq!(found, Vec::<String>::new());
        }
    }

    #[test]
    fn what_is_needed_and_what_may_be_chosen_is_the_readers_own() {
        let schema = record_schema();
        assert_eq!(schema["required"], json!(["title", "status", "board"]));
        assert_eq!(schema["properties"]["status"]["enum"], json!(["draft", "published"]));
        assert_eq!(schema["properties"]["drawing"]["properties"]["layers"]["required"], json!(["cut"]));
        assert_eq!(schema["properties"]["offer"]["items"]["required"], json!(["form", "price"]));
        assert_eq!(schema["additionalProperties"], json!(false));
        let shop = shop_schema();
        assert_eq!(shop["required"], json!(["currency", "name", "order"]));
        assert_eq!(shop["properties"]["wood"]["items"]["properties"]["basis"]["enum"], json!(["12", "green"]));
        assert_eq!(shop["properties"]["pack"]["items"]["properties"]["inner"]["minItems"], json!(3));
    }
}
