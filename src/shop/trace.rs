//! What the reader asked for while it read a file: which keys of which table, and what each value may be.
//!
//! Off while a shop is read. On, it turns the reader itself into the source of the JSON Schemas (`schema`), so that the two cannot differ.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::ops::Range;

use serde_json::Value;
use toml::de::DeTable;

/// One table as it was asked.
#[derive(Clone, Debug, Default)]
pub(super) struct Asked {
    /// Keys in the order they were first asked for, and whether they have to be there.
    pub(super) keys: Vec<(&'static str, bool)>,
    /// Its keys are the owner's own.
    pub(super) open: bool,
}

/// The record of one reading.
#[derive(Debug, Default)]
pub(super) struct Trace {
    tables: RefCell<BTreeMap<usize, Asked>>,
    values: RefCell<BTreeMap<(usize, usize), Value>>,
}

fn of(table: &DeTable) -> usize {
    std::ptr::from_ref(table).addr()
}

impl Trace {
    pub(super) fn key(&self, table: &DeTable, key: &'static str, needed: bool) {
        let mut tables = self.tables.borrow_mut();
        let asked = tables.entry(of(table)).or_default();
        match asked.keys.iter_mut().find(|(known, _)| *known == key) {
            Some((_, known)) => *known |= needed,
            None => asked.keys.push((key, needed)),
        }
    }

    pub(super) fn open(&self, table: &DeTable) {
        self.tables.borrow_mut().entry(of(table)).or_default().open = true;
    }

    /// What a value may be; the first word on it holds, for readers go from the special to the plain.
    pub(super) fn value(&self, span: Range<usize>, may_be: Value) {
        self.values.borrow_mut().entry((span.start, span.end)).or_insert(may_be);
    }

    pub(super) fn asked(&self, table: &DeTable) -> Option<Asked> {
        self.tables.borrow().get(&of(table)).cloned()
    }

    pub(super) fn may_be(&self, span: Range<usize>) -> Option<Value> {
        self.values.borrow().get(&(span.start, span.end)).cloned()
    }
}
