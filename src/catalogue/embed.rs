//! What an owner puts into a site that is there already: a page for a frame, and custom elements that read catalogue.json.
//!
//! In: the [`Voice`] of the shop's first language. Out: `embed/<slug>.html` for every design, and `embed/kerfleaf.js`.
//! The elements keep their own style sheet in a shadow tree, so that neither page nor catalogue can spoil the other.
//! Never here: a look of the surrounding site. Rule: handbook, "The published folder", `embed/`.

use serde::Serialize;

use super::frame::About;
use super::views::{Entry, product_address};
use super::voice::Voice;
use super::{Card, CatalogueError, Leaf, Page};

/// `<kerf-card design="…">` and `<kerf-shelf subject="…">`.
const ELEMENTS: &str = include_str!("../../themes/default/embed.js");

#[derive(Serialize)]
struct EmbedPage {
    entry: Entry,
    offers: Vec<super::product::Offer>,
}

/// A page for a frame for every design, and the script of the elements.
///
/// # Errors
/// [`CatalogueError::Theme`] for a template that cannot be used.
pub(super) fn pages(voice: &Voice<'_>) -> Result<Vec<Leaf>, CatalogueError> {
    let asked: Vec<&Card> = voice.cards().iter().filter(|card| voice.asked(&address(&card.slug))).collect();
    let mut all = voice.each(&asked, |card| page(voice, card))?;
    all.push(Page { address: "embed/kerfleaf.js".to_owned(), bytes: ELEMENTS.as_bytes().to_vec() }.into());
    Ok(all)
}

fn page(voice: &Voice<'_>, card: &Card) -> Result<Leaf, CatalogueError> {
    let address = address(&card.slug);
    let of = voice.print_of_card("embed", card);
    if let Some(leaf) = voice.as_before(&address, of) {
        return Ok(leaf);
    }
    let entry = voice.entry(card, &address);
    let mut about = About::plain(entry.title.clone());
    about.description = entry.summary.clone();
    about.accent = entry.accent.clone();
    about.body = "embedded";
    about.canonical = voice.absolute(&product_address(&card.slug));
    let offers = card.offers.iter().enumerate().map(|(at, offer)| voice.offer(card, at, offer)).collect();
    let page = voice.page("embed.html", &address, about, &EmbedPage { entry, offers })?;
    Ok(Leaf { of, ..page.into() })
}

/// `embed/<slug>.html`.
pub(super) fn address(slug: &str) -> String {
    format!("embed/{slug}.html")
}
