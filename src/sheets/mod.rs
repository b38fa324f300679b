//! Printed sheets: from figures, pictures and words to PDF bytes, through typst.
//!
//! In: [`PaintingOrder`]. Out: the bytes of one PDF, tagged, the same for the same input.
//! Steps: `lines`, `numbers`, `turns` and `tiles` work out what is drawn and where; `steps` and `labels` give the words; `painting` puts all that into
//! one JSON value; the template lays it out; `world` is all that typst gets to see.
//! Never here: files; the templates come from the theme, the words from `content/`; an owner's text is handed on as data, never as markup.
//! Rule: handbook, "The sheets".

mod drawing;
mod glyphs;
mod grid;
mod labels;
mod lines;
mod numbers;
mod painting;
mod plan;
pub mod steps;
mod svg;
mod tiles;
mod turns;
mod world;

pub use painting::{PaintingOrder, painting_guide};

use std::collections::BTreeMap;

/// One printed sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// The PDF.
    pub bytes: Vec<u8>,
    /// How many pages it has.
    pub pages: usize,
}

/// Why a sheet could not be made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SheetError {
    /// A text holds a character that none of the sheets' fonts has.
    #[error("{what} `{text}` holds the character `{character}` (U+{:04X}), which no font of the sheets has", *.character as u32)]
    NoGlyph {
        /// Which text: `title`, `palette 3, name`, …
        what: String,
        /// The text as written.
        text: String,
        /// The first such character in it.
        character: char,
    },
    /// A template could not be laid out, or its page breaks the standard.
    #[error("{file}{}: {message}", .line.map(|l| format!(":{l}")).unwrap_or_default())]
    Template {
        /// Its virtual path, `/sheets/painting.typ`; empty where it is not known.
        file: String,
        /// Line in it, from 1.
        line: Option<usize>,
        /// What typst said.
        message: String,
    },
    /// The board has no outline: nothing was measured.
    #[error("the design has no board to draw")]
    NoBoard,
}

/// The templates built into the program, by their place in a theme.
pub const TEMPLATES: &[(&str, &str)] = &[
    ("sheets/common.typ", include_str!("../../themes/default/sheets/common.typ")),
    ("sheets/painting.typ", include_str!("../../themes/default/sheets/painting.typ")),
];

/// Virtual files of a sheet: the program's templates, over them whatever the owner's theme has under `sheets/`.
fn template_files(theme: &BTreeMap<String, Vec<u8>>) -> BTreeMap<String, Vec<u8>> {
    let own = TEMPLATES.iter().map(|(path, text)| (format!("/{path}"), text.as_bytes().to_vec()));
    let owners = theme.iter().filter(|(path, _)| path.starts_with("sheets/"));
    own.chain(owners.map(|(path, bytes)| (format!("/{path}"), bytes.clone()))).collect()
}
