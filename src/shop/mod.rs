//! From a shop folder to plain records, with every mistake in its place.
//!
//! In: a folder. Out: [`Shop`]: settings, designs, pages, theme files; mistakes are data ([`Mistake`]),
//! all of them in one go, each with file, line and column.
//! The only room that reads the shop folder, and the only one that edits a record. Knows no geometry.
//! Rule: handbook, "The shop folder".

mod begin;
mod currency;
pub mod draft;
mod fields;
mod folder;
pub mod incoming;
mod item;
mod locate;
pub mod mistake;
mod names;
pub mod nearby;
mod nearest;
mod photo;
mod read;
pub mod record;
mod schema;
pub mod settings;
mod stamp;
pub mod stock;
mod toml_file;
mod trace;
pub mod wood;

pub use begin::{FIRST_SLUG, NewFile, begin, name_from};
pub use locate::locate;
pub use mistake::{Mistake, Place, render_all};
pub use names::is_device;
pub use nearest::nearest;
pub use photo::PhotoFile;
pub use read::{Reading, ShopError, Unread, read, read_but};
pub use record::{
    Audience, BlankBoard, Board, Design, DrawingFile, Form, LimitSources, Limits, Offer, Paint, PaintWords, Photo,
    Source, Status, Words,
};
pub use schema::{record_schema, shop_schema};
pub use settings::{
    Currency, Look, Maker, Market, Pack, Pan, Paper, Postage, Settings, ShopWords, Units, Weights, Workshop,
};
pub use stamp::{Sight, Stamp};
pub use wood::{Wood, WoodDensity, WoodGroup};

use std::collections::BTreeMap;

/// A shop folder as read.
#[derive(Clone, Debug)]
pub struct Shop {
    /// shop.toml.
    pub settings: Settings,
    /// Every folder under `designs/`, in slug order.
    pub entries: Vec<Entry>,
    /// The owner's pages, in file-name order.
    pub pages: Vec<OwnerPage>,
    /// The owner's theme files, by path inside `theme/` with `/`.
    pub theme: BTreeMap<String, Vec<u8>>,
    /// Mistakes outside the designs: shop.toml, pages, theme, links out of the shop folder.
    pub mistakes: Vec<Mistake>,
}

/// One folder under `designs/`.
#[derive(Clone, Debug)]
pub struct Entry {
    /// The folder's name.
    pub slug: String,
    /// The record's status, where it could be read even if the rest could not.
    pub status: Option<Status>,
    /// The design, if its record holds no mistake.
    pub design: Option<Design>,
    /// All mistakes of its record and files; not empty where `design` is `None`.
    pub mistakes: Vec<Mistake>,
    /// The folder holds no record.toml: reported, but no design that could be published.
    pub no_record: bool,
}

/// One page of `pages/*.md`.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnerPage {
    /// File name without `.md` (and without a language ending).
    pub name: String,
    /// Language of the file; `None` for the shop's first.
    pub language: Option<String>,
    /// The Markdown.
    pub markdown: String,
}
