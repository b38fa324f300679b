//! Printed sheets: from figures, pictures and words to PDF bytes, through typst.
//!
//! In: an [`Order`] for one design, or a [`ShopOrder`]. Out: the bytes of one PDF, tagged, the same for the same input; `spare` alone gives an SVG.
//! Steps: each sheet has one file that puts all it says into one JSON value, and one template that lays it out; `frame` gives all of them paper, words and
//! foot; `world` is all that typst gets to see. `plan` and `drawing` draw what a painter sees, `map` the pieces; `route`, `packing`, `floor` and `weighing`
//! work out the bench's figures.
//! Never here: files; the templates come from the theme, the words from `content/`; an owner's text is handed on as data, never as markup.
//! Rule: handbook, "The sheets".

mod bench;
mod catalogue;
mod count;
mod drawing;
pub mod floor;
mod frame;
mod glyphs;
mod grid;
mod label;
mod labels;
mod lines;
mod map;
mod numbers;
pub mod packing;
mod painting;
mod plan;
mod qr;
pub mod route;
mod sizes;
mod slip;
pub mod spare;
mod stall;
pub mod steps;
mod svg;
mod tiles;
mod warnings;
pub mod weighing;
mod world;

pub use bench::bench_sheet;
pub use catalogue::{Listed, ListedOffer, SHOWN_MOST, catalogue_sheet};
pub use count::count_sheet;
pub use frame::{Order, ShopOrder};
pub use label::{PER_PAGE, label_sheet};
pub use painting::painting_guide;
pub use slip::slip_sheet;
pub use stall::{CARDS_PER_PAGE, Stand, stall_sheet};

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
    /// The record offers nothing that could be labelled or sent.
    #[error("the design has no offer to make this sheet for")]
    NoOffer,
    /// The board has no outline: nothing was measured.
    #[error("the design has no board to draw")]
    NoBoard,
}

/// The templates built into the program, by their place in a theme.
pub const TEMPLATES: &[(&str, &str)] = &[
    ("sheets/bench.typ", include_str!("../../themes/default/sheets/bench.typ")),
    ("sheets/catalogue.typ", include_str!("../../themes/default/sheets/catalogue.typ")),
    ("sheets/common.typ", include_str!("../../themes/default/sheets/common.typ")),
    ("sheets/count.typ", include_str!("../../themes/default/sheets/count.typ")),
    ("sheets/label.typ", include_str!("../../themes/default/sheets/label.typ")),
    ("sheets/painting.typ", include_str!("../../themes/default/sheets/painting.typ")),
    ("sheets/slip.typ", include_str!("../../themes/default/sheets/slip.typ")),
    ("sheets/stall.typ", include_str!("../../themes/default/sheets/stall.typ")),
];

/// Virtual files of a sheet: the program's templates, over them whatever the owner's theme has under `sheets/`.
fn template_files(theme: &BTreeMap<String, Vec<u8>>) -> BTreeMap<String, Vec<u8>> {
    let own = TEMPLATES.iter().map(|(path, text)| (format!("/{path}"), text.as_bytes().to_vec()));
    let owners = theme.iter().filter(|(path, _)| path.starts_with("sheets/"));
    own.chain(owners.map(|(path, bytes)| (format!("/{path}"), bytes.clone()))).collect()
}
