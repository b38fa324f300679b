//! One TOML file of the shop while it is read: its text, its places, and all mistakes found in it.
//!
//! A file that is no sound TOML is read as far as it goes, so that its other mistakes come in the same report.

use std::cell::RefCell;
use std::ops::Range;

use toml::Spanned;
use toml::de::DeTable;

use super::fields::Fields;
use super::mistake::{Mistake, Place};
use super::trace::Trace;

/// The text of a TOML file and what was noticed in it.
pub(super) struct TomlFile {
    /// Path inside the shop folder.
    path: String,
    text: String,
    noticed: RefCell<Noticed>,
    trace: Option<Trace>,
}

#[derive(Default)]
struct Noticed {
    /// Lines that are no TOML, in order.
    broken: Vec<usize>,
    mistakes: Vec<Mistake>,
}

impl TomlFile {
    pub(super) fn new(path: impl Into<String>, text: String) -> TomlFile {
        // A byte order mark is no part of the first line.
        let text = text.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(text);
        TomlFile { path: path.into(), text, noticed: RefCell::default(), trace: None }
    }

    /// The same, with a record of what the reader asks for.
    pub(super) fn traced(path: impl Into<String>, text: String) -> TomlFile {
        TomlFile { trace: Some(Trace::default()), ..TomlFile::new(path, text) }
    }

    pub(super) fn trace(&self) -> Option<&Trace> {
        self.trace.as_ref()
    }

    /// Bytes of the text.
    pub(super) fn len(&self) -> usize {
        self.text.len()
    }

    /// The table that the file is, with a mistake for every place where it is no TOML.
    pub(super) fn parse(&self) -> Spanned<DeTable<'_>> {
        let (table, errors) = DeTable::parse_recoverable(&self.text);
        let mut places: Vec<_> =
            errors.iter().map(|error| (self.place(error.span().unwrap_or(0..0)), error.message())).collect();
        places.sort_by_key(|(place, _)| (place.line, place.column));
        // One slip often upsets several readings of the same line; the first names it best.
        places.dedup_by_key(|(place, _)| place.line);
        let mut noticed = self.noticed.borrow_mut();
        for (place, message) in places {
            noticed.broken.extend(place.line);
            let (message, help) = sentence(message);
            noticed.mistakes.push(Mistake::new(place, message, help));
        }
        table
    }

    /// The fields of the whole file.
    pub(super) fn fields<'a>(&'a self, table: &'a DeTable<'a>, what: &str) -> Fields<'a> {
        Fields::new(self, table, None, what.to_owned())
    }

    /// The text as written between two byte offsets.
    pub(super) fn written(&self, span: Range<usize>) -> &str {
        self.text.get(span).unwrap_or_default()
    }

    /// The place of a byte range; a range over several lines is cut at the end of its first.
    pub(super) fn place(&self, span: Range<usize>) -> Place {
        let mut start = span.start.min(self.text.len());
        while !self.text.is_char_boundary(start) {
            start -= 1;
        }
        let (before, after) = self.text.split_at(start);
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        let head = &before[line_start..];
        let tail = after.lines().next().unwrap_or_default();
        // What lies behind the end of a line is shown at its last character.
        let behind = usize::from(tail.is_empty() && !head.is_empty());
        let meant = self.text.get(start..span.end).unwrap_or_default().lines().next().unwrap_or_default();
        Place {
            file: self.path.clone(),
            line: Some(before.matches('\n').count() + 1),
            column: head.chars().count() + 1 - behind,
            width: meant.chars().count().max(1),
            text: format!("{head}{tail}"),
        }
    }

    /// The file as a whole.
    pub(super) fn whole(&self) -> Place {
        Place::whole(&self.path)
    }

    /// Notes a mistake at a byte range.
    pub(super) fn mistake(&self, span: Range<usize>, message: impl Into<String>, help: Option<String>) {
        self.note(Mistake::new(self.place(span), message, help));
    }

    /// Notes that something is missing: at the table where it should stand, or in the file as a whole.
    pub(super) fn missing(&self, table: Option<Range<usize>>, message: impl Into<String>, help: Option<String>) {
        // It may stand in a line that could not be read.
        if self.noticed.borrow().broken.is_empty() {
            let place = table.map_or_else(|| self.whole(), |span| self.place(span));
            self.note(Mistake::new(place, message, help));
        }
    }

    /// Notes any mistake.
    pub(super) fn note(&self, mistake: Mistake) {
        let mut noticed = self.noticed.borrow_mut();
        let follows = mistake.at.file == self.path
            && noticed.broken.iter().any(|&line| mistake.at.line.is_some_and(|at| follows(&self.text, line, at)));
        if !follows {
            noticed.mistakes.push(mistake);
        }
    }

    /// All mistakes, in the order of their lines, those of the file as a whole first.
    pub(super) fn into_mistakes(self) -> Vec<Mistake> {
        let mut mistakes = self.noticed.into_inner().mistakes;
        mistakes.sort_by(|a, b| (&a.at.file, a.at.line, a.at.column).cmp(&(&b.at.file, b.at.line, b.at.column)));
        mistakes
    }
}

/// Whether a mistake in a line may only follow from a broken one: it is that line, or stands below a broken
/// table header, whose keys then seem to belong to another table.
fn follows(text: &str, broken: usize, at: usize) -> bool {
    let header = text.lines().nth(broken.saturating_sub(1)).is_some_and(|line| line.trim_start().starts_with('['));
    at == broken || header && at > broken
}

/// The parser's words as a sentence of ours, and help with the usual slips.
fn sentence(message: &str) -> (String, Option<String>) {
    let message = message.trim_end_matches('.').replace('\n', ", ");
    let help = if message.starts_with("duplicate key") {
        Some("Each key stands once in a table; leave one of them out.")
    } else if message.contains("quoted") || message.contains("basic string") {
        Some("Text stands between quotation marks, at both ends.")
    } else if message.contains("table") {
        Some("A table begins with its name in square brackets, such as `[board]`, or `[[offer]]`.")
    } else {
        None
    };
    (format!("This line cannot be read as TOML: {message}."), help.map(str::to_owned))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_counts_characters_from_one() {
        let file = TomlFile::new("a.toml", "title = \"Fähre\"\nsummary = 3\r\n".into());
        let at = file.text.find("\"F").unwrap();
        let place = file.place(at..at + 8);
        assert_eq!((place.line, place.column, place.width), (Some(1), 9, 7));
        assert_eq!(place.text, "title = \"Fähre\"");
        let at = file.text.find('3').unwrap();
        let place = file.place(at..at + 1);
        assert_eq!((place.line, place.column, place.text.as_str()), (Some(2), 11, "summary = 3"));
        assert_eq!(file.place(900..901).line, Some(3));
    }

    #[test]
    fn every_broken_line_is_reported_once() {
        let file = TomlFile::new("a.toml", "title = \nstatus = \"draft\"\nadded = 2026-02-30\ntitle = \"x\"\n".into());
        let table = file.parse();
        assert_eq!(table.get_ref().get("status").and_then(|v| v.get_ref().as_str()), Some("draft"));
        drop(table);
        let lines: Vec<_> = file.into_mistakes().iter().map(|m| m.at.line).collect();
        assert_eq!(lines, [Some(1), Some(3), Some(4)]);
    }

    #[test]
    fn keys_below_a_broken_table_header_are_not_blamed() {
        let file = TomlFile::new("a.toml", "edition = 4\n[board\nkerf = 3\n".into());
        file.mistake(10..11, "above", None);
        let table = file.parse();
        drop(table);
        file.mistake(10..11, "above", None);
        file.mistake(26..27, "below", None);
        file.missing(None, "missing", None);
        let lines: Vec<_> = file.into_mistakes().iter().map(|m| m.at.line).collect();
        assert_eq!(lines, [Some(1), Some(1), Some(2)]);
    }
}
