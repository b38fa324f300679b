//! The fields of one TOML table, taken one by one; what is left over at the end is unknown and a mistake.

use std::cell::RefCell;
use std::ops::Range;

use toml::Spanned;
use toml::de::{DeString, DeTable, DeValue};

use super::nearest::nearest;
use super::toml_file::TomlFile;

/// A table being read. Every key that is asked for counts as known.
pub(super) struct Fields<'a> {
    file: &'a TomlFile,
    table: &'a DeTable<'a>,
    /// The table's header or braces; `None` for the whole file.
    span: Option<Range<usize>>,
    /// As it stands in a sentence: `[board]`, `a record`.
    what: String,
    known: RefCell<Vec<&'static str>>,
}

/// One value with its key and place.
pub(super) struct Item<'a> {
    pub(super) file: &'a TomlFile,
    pub(super) key: String,
    pub(super) span: Range<usize>,
    pub(super) value: &'a DeValue<'a>,
}

impl<'a> Fields<'a> {
    pub(super) fn new(file: &'a TomlFile, table: &'a DeTable<'a>, span: Option<Range<usize>>, what: String) -> Self {
        Fields { file, table, span, what, known: RefCell::default() }
    }

    /// The value of a key, if there is one.
    pub(super) fn get(&self, key: &'static str) -> Option<Item<'a>> {
        self.known.borrow_mut().push(key);
        if let Some(trace) = self.file.trace() {
            trace.key(self.table, key, false);
        }
        let value = self.table.get(key)?;
        Some(Item { file: self.file, key: key.to_owned(), span: value.span(), value: value.get_ref() })
    }

    /// The value of a key that has to be there; a mistake without it.
    pub(super) fn need(&self, key: &'static str, example: &str) -> Option<Item<'a>> {
        let item = self.get(key);
        if let Some(trace) = self.file.trace() {
            trace.key(self.table, key, true);
        }
        if item.is_none() {
            let message = format!("`{key}` is missing in {}.", self.named());
            self.file.missing(self.span.clone(), message, Some(format!("Add `{key} = {example}`.")));
        }
        item
    }

    /// The table of a key, if there is one.
    pub(super) fn table(&self, key: &'static str, what: &str) -> Option<Fields<'a>> {
        self.get(key)?.table(what)
    }

    /// The tables under a key, as `[[key]]` makes them; none without the key.
    pub(super) fn tables(&self, key: &'static str) -> Vec<Fields<'a>> {
        let what = format!("[[{key}]]");
        let Some(item) = self.get(key) else { return Vec::new() };
        let DeValue::Array(rows) = item.value else {
            item.wrong_kind("a list of tables", &format!("Begin each with a line `{what}`."));
            return Vec::new();
        };
        item.each(rows).filter_map(|row| row.table(&what)).collect()
    }

    /// All keys with their values, in the order of the file, for tables whose keys the owner chooses.
    pub(super) fn open(&self) -> Vec<(Range<usize>, Item<'a>)> {
        if let Some(trace) = self.file.trace() {
            trace.open(self.table);
        }
        let mut all: Vec<_> = self
            .table
            .iter()
            .map(|(key, value)| {
                let item = Item {
                    file: self.file,
                    key: key.get_ref().to_string(),
                    span: value.span(),
                    value: value.get_ref(),
                };
                (key.span(), item)
            })
            .collect();
        all.sort_by_key(|(key, _)| key.start);
        all
    }

    /// The file that the table stands in.
    pub(super) fn file(&self) -> &'a TomlFile {
        self.file
    }

    /// Where the table stands; `None` for the whole file.
    pub(super) fn span(&self) -> Option<Range<usize>> {
        self.span.clone()
    }

    /// Reports every key that nobody asked for.
    pub(super) fn finish(self) {
        let known = self.known.borrow();
        let strangers = self.table.keys().filter(|key| !known.contains(&key.get_ref().as_ref()));
        for key in strangers {
            self.unknown(key, &known);
        }
    }

    /// As it stands in a sentence; what the owner writes so stands in backticks.
    fn named(&self) -> String {
        if self.what.starts_with('[') { format!("`{}`", self.what) } else { self.what.clone() }
    }

    fn unknown(&self, key: &Spanned<DeString<'_>>, known: &[&str]) {
        let written = key.get_ref();
        let help = match nearest(written, known.iter().copied()) {
            Some(near) => format!("Did you mean `{near}`?"),
            None => format!("Its keys are: {}.", known.join(", ")),
        };
        self.file.mistake(key.span(), format!("`{written}` is not a key of {}.", self.named()), Some(help));
    }
}
