//! The static catalogue: from measured designs to pages as bytes.
//!
//! In two stages, so that a large shop never lies in memory whole: [`Goods`] is all that is dear for one design (pictures,
//! guides) and a small [`Card`] of it; [`pages`] makes every page, list and data file from the cards.
//! Steps of the second: `site` fixes the addresses, `voice` speaks one language, `views` says what a page shows, `theme` sets it; `data`,
//! `structured` and `feed` tell the same to programs, `finder` to the script of the lists, `embed` to other sites.
//! Never here: files; a clock; drafts, the workshop's rates, prices of packs: a card has no place for them.
//! Rule: handbook, "The published folder" and "Privacy".

mod address;
mod again;
mod card;
pub mod contrast;
mod data;
mod embed;
mod feed;
mod finder;
mod frame;
mod goods;
mod list_page;
mod lists;
mod logo;
mod make;
pub mod markdown;
mod near;
mod outline;
#[cfg(feature = "sheets")]
mod printed;
mod product;
mod site;
mod sketch;
mod structured;
mod text_pages;
mod theme;
mod views;
mod voice;

pub use address::slug;
pub use again::{Again, Leaf};
pub use card::{Card, CardOffer, CardPaint, CardPostage, CardWords};
pub use data::SCHEMA;
pub use goods::{Encoding, Goods, Guide, PictureSet, Source, View, guide_address, made, main_picture_address};
pub use lists::newest_first;
pub use make::{GoodsError, Parts, Wants, cover, goods, main_picture, parts};
#[cfg(feature = "sheets")]
pub use printed::{printed, printed_address, printed_designs, printed_pages, printed_picture, printed_width};
pub use site::{CatalogueError, page, pages, pages_again};
pub use sketch::{sketch, sketched};
pub use theme::look_notes;

/// One file of the published folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Page {
    /// Address inside the folder, with `/`, relative.
    pub address: String,
    /// Content.
    pub bytes: Vec<u8>,
}

/// Where the folder says who made it.
pub const MARK_ADDRESS: &str = "kerfleaf.txt";
/// First line of that file; a folder without it is never replaced.
pub const MARK_LINE: &str = "Made by kerfleaf.";

#[cfg(test)]
mod tests;
