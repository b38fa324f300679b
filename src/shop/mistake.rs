//! A mistake in a record: what is wrong, where, the line itself, and what was probably meant.

use std::fmt;

use miette::{Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteSpanContents, SourceSpan};

/// Columns that the text of a report may fill, beside its indent.
const TEXT_WIDTH: usize = 90;

/// A place in a file of the shop, for people: counted from 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// Path inside the shop folder, with `/`.
    pub file: String,
    /// Line, from 1; `None` for the file as a whole.
    pub line: Option<usize>,
    /// Column in characters, from 1.
    pub column: usize,
    /// How many characters are meant; at least 1.
    pub width: usize,
    /// The line itself.
    pub text: String,
}

impl Place {
    /// A file, or a folder, as a whole.
    pub fn whole(file: impl Into<String>) -> Place {
        Place { file: file.into(), line: None, column: 1, width: 1, text: String::new() }
    }
}

impl fmt::Display for Place {
    /// `designs/ferry/record.toml:12:13`, or the path alone for a file as a whole.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.line {
            Some(line) => write!(f, "{}:{line}:{}", self.file, self.column),
            None => f.write_str(&self.file),
        }
    }
}

/// One mistake; `Display` makes the sentence, [`Mistake::help`] what to write instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mistake {
    /// Where.
    pub at: Place,
    /// What is wrong, one sentence.
    pub message: String,
    /// What to write instead, if it can be said.
    pub help: Option<String>,
}

impl Mistake {
    /// A mistake at a place.
    pub fn new(at: Place, message: impl Into<String>, help: Option<String>) -> Mistake {
        Mistake { at, message: message.into(), help }
    }

    /// The mistake as a report for people: message, place, the line with its mark, and help. Plain text of several
    /// lines without colour, ends with a line break, the same on every terminal.
    pub fn render(&self) -> String {
        self.rendered(GraphicalTheme::unicode_nocolor())
    }

    /// The same in colours, for a terminal that wants them.
    pub fn render_in_colour(&self) -> String {
        self.rendered(GraphicalTheme::unicode())
    }

    fn rendered(&self, theme: GraphicalTheme) -> String {
        let mut text = String::new();
        let handler =
            GraphicalReportHandler::new_themed(theme).with_wrap_lines(false).with_links(false).with_context_lines(0);
        let shown = Shown::of(self);
        match handler.render_report(&mut text, &shown) {
            Ok(()) => text.lines().map(|line| format!("{}\n", line.trim_end())).collect::<String>(),
            Err(_) => format!("{self}\n"),
        }
        .trim_start_matches('\n')
        .to_owned()
    }
}

impl fmt::Display for Mistake {
    /// Place, message and help in one line.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", printable(&self.at.to_string()), printable(&self.message))?;
        match &self.help {
            Some(help) => write!(f, " {}", printable(help)),
            None => Ok(()),
        }
    }
}

impl std::error::Error for Mistake {}

/// All reports one below the other, with an empty line between.
pub fn render_all<'a>(mistakes: impl IntoIterator<Item = &'a Mistake>) -> String {
    mistakes.into_iter().map(Mistake::render).collect::<Vec<_>>().join("\n")
}

/// Control characters of a file must not reach a terminal; a tab stays.
fn printable(text: &str) -> String {
    text.chars().map(|c| if c.is_control() && c != '\t' { '\u{fffd}' } else { c }).collect()
}

/// Text in lines that fit a report, broken at spaces alone: a name with a hyphen must stay whole to be found again.
fn filled(text: &str) -> String {
    let mut lines: Vec<String> = Vec::new();
    for word in printable(text).split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= TEXT_WIDTH => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines.join("\n")
}

/// What the report writer is given: one line of the file that knows its own number.
#[derive(Debug)]
struct Shown {
    message: String,
    help: Option<String>,
    path: String,
    line: Option<LineOfFile>,
}

#[derive(Debug)]
struct LineOfFile {
    path: String,
    number: usize,
    text: String,
    mark: SourceSpan,
}

impl Shown {
    fn of(mistake: &Mistake) -> Shown {
        let Place { file, line, column, width, text } = &mistake.at;
        let path = printable(file);
        let line = line.map(|number| {
            let text = printable(text);
            let bytes = |chars: usize| text.chars().take(chars).map(char::len_utf8).sum::<usize>();
            let from = bytes(column.saturating_sub(1));
            let to = bytes(column.saturating_sub(1) + width);
            LineOfFile { path: path.clone(), number, mark: (from, to - from).into(), text }
        });
        Shown { message: filled(&mistake.message), help: mistake.help.as_deref().map(filled), path, line }
    }
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Shown {}

impl Diagnostic for Shown {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        // With a line the path stands above that line.
        self.line.is_none().then(|| Box::new(&self.path) as Box<dyn fmt::Display>)
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.help.as_ref().map(|help| Box::new(help) as Box<dyn fmt::Display>)
    }

    fn source_code(&self) -> Option<&dyn miette::SourceCode> {
        self.line.as_ref().map(|line| line as &dyn miette::SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let line = self.line.as_ref()?;
        Some(Box::new(std::iter::once(LabeledSpan::new_with_span(None, line.mark))))
    }
}

impl miette::SourceCode for LineOfFile {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        _lines_before: usize,
        _lines_after: usize,
    ) -> Result<Box<dyn miette::SpanContents<'a> + 'a>, miette::MietteError> {
        // The contents are always the one whole line; their column is what the writer prints beside the path.
        let column = self.text.get(..span.offset()).map_or(0, |before| before.chars().count());
        Ok(Box::new(MietteSpanContents::new_named(
            self.path.clone(),
            self.text.as_bytes(),
            (0, self.text.len()).into(),
            self.number.saturating_sub(1),
            column,
            1,
        )))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mistake(text: &str, column: usize, width: usize) -> Mistake {
        let at = Place { file: "designs/a/record.toml".into(), line: Some(12), column, width, text: text.into() };
        Mistake::new(at, "This is wrong.", Some("Mend it.".into()))
    }

    #[test]
    fn the_mark_stands_below_what_is_meant() {
        let report = mistake("title = \"Fähre\" # ok", 9, 7).render();
        let lines: Vec<&str> = report.lines().collect();
        let want = [
            "  × This is wrong.",
            "    ╭─[designs/a/record.toml:12:9]",
            " 12 │ title = \"Fähre\" # ok",
            "    ·         ───────",
            "    ╰────",
            "  help: Mend it.",
        ];
        assert_eq!(lines, want);
    }

    #[test]
    fn colours_change_nothing_but_the_colour() {
        let mistake = mistake("title = \"Fähre\" # ok", 9, 7);
        let coloured = mistake.render_in_colour();
        assert!(coloured.contains('\u{1b}'));
        // ECMA-48, 8.3.117: select graphic rendition is CSI … m.
        let mut plain = String::new();
        let mut parts = coloured.split("\u{1b}[");
        plain.push_str(parts.next().unwrap());
        parts.for_each(|part| plain.push_str(part.split_once('m').unwrap().1));
        assert_eq!(plain.lines().map(str::trim_end).collect::<Vec<_>>(), mistake.render().lines().collect::<Vec<_>>());
    }

    /// A record can hold any character; those that steer a terminal (ECMA-48) must not get there.
    #[test]
    fn control_characters_are_shown_as_replaced() {
        let mut mistake = mistake("title = \"\u{1b}[31mred\"", 9, 9);
        mistake.message = "\u{1b}]0;owned\u{7} is no title.".into();
        mistake.at.file = "designs/\u{1b}c/record.toml".into();
        for shown in [mistake.render(), mistake.to_string()] {
            assert!(!shown.contains(['\u{1b}', '\u{7}']), "{shown:?}");
            assert!(shown.contains('\u{fffd}'));
        }
    }

    #[test]
    fn a_place_past_the_end_of_its_line_is_still_shown() {
        for (column, width) in [(1, 1), (3, 4), (90, 90)] {
            assert!(mistake("ab", column, width).render().contains("12 │ ab"));
            assert!(mistake("", column, width).render().contains("record.toml:12:"));
        }
    }
}
