//! The static catalogue: from measured designs to pages as bytes.
//!
//! In two stages, so that a large shop never lies in memory whole: [`goods`] makes all that is dear for one design (pictures, guides) and a small
//! card of it; `pages` makes every page from the cards.
//! Never here: files. Rule: handbook, "The published folder".

/// One file of the published folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Page {
    /// Address inside the folder, with `/`, relative.
    pub address: String,
    /// Content.
    pub bytes: Vec<u8>,
}
