//! The printed catalogue: what the sheet is told of each card, where it lies, and the small pictures in it.
//!
//! In: cards and the main pictures, as published. Out: [`Sheet`]s, the same for `publish` and `print`.
//! Never here: how the sheet is laid out (`sheets`). Rule: handbook, "The published folder".

use std::collections::BTreeMap;

use super::lists::in_order;
use super::{Card, Page};
use crate::pictures::{jpeg, photo};
use crate::sheets::{Listed, ListedOffer, SHOWN_MOST, Sheet, SheetError, ShopOrder, catalogue_sheet};
use crate::shop::{Paper, Shop, Wood};
use crate::units::Money;

/// Width of a picture in a catalogue of few designs, px: 200 to the inch on half a page.
const WIDTH: f64 = 640.0;
/// So many pictures of that width stay well under the size that a catalogue may have; more are made smaller.
const AT_FULL_WIDTH: f64 = 24.0;
/// Narrowest, px.
const LEAST_WIDTH: f64 = 200.0;
const STEP: u32 = 20;
const QUALITY: u8 = 80;

/// `catalogue-<paper>.pdf`, under `<language>/` for all but the shop's first language.
pub fn printed_address(first_language: &str, language: &str, paper: Paper) -> String {
    let folder = if language == first_language { String::new() } else { format!("{language}/") };
    format!("{folder}catalogue-{}.pdf", paper.name())
}

/// Designs that the catalogue shows with their pictures: all, or the newest of many.
pub fn printed_designs(cards: &[Card]) -> Vec<&Card> {
    let mut shown = in_order(cards);
    shown.truncate(SHOWN_MOST);
    shown
}

/// Width of the pictures in a catalogue of a shop with so many designs, px. In steps, so that one design more rarely changes them all.
pub fn printed_width(published: usize) -> u32 {
    let share = (AT_FULL_WIDTH / (published.clamp(1, SHOWN_MOST) as f64)).min(1.0);
    (WIDTH * share.sqrt()).max(LEAST_WIDTH) as u32 / STEP * STEP
}

/// The main picture of a design (a JPEG) in that width; `None` where it cannot be read.
pub fn printed_picture(main_jpeg: &[u8], width: u32) -> Option<Vec<u8>> {
    jpeg(&photo::prepare(main_jpeg, width).ok()?, QUALITY)
}

/// The catalogue in one language and on one paper. `pictures` are JPEGs by slug, of [`printed_designs`].
///
/// # Errors
/// A character that no font has; a template that cannot be laid out.
pub fn printed(
    shop: &Shop,
    cards: &[Card],
    pictures: &BTreeMap<String, Vec<u8>>,
    language: &str,
    paper: Paper,
) -> Result<Sheet, SheetError> {
    let listed: Vec<Listed> = in_order(cards).iter().map(|card| listed(card, pictures, language)).collect();
    let order = ShopOrder { settings: &shop.settings, paper, language, theme: &shop.theme };
    catalogue_sheet(&order, &listed)
}

/// The catalogue in every language and on every paper of the shop.
///
/// # Errors
/// As [`printed`].
pub fn printed_pages(
    shop: &Shop,
    cards: &[Card],
    pictures: &BTreeMap<String, Vec<u8>>,
) -> Result<Vec<Page>, SheetError> {
    let first = shop.settings.languages.first().map_or("en", String::as_str);
    let mut pages = Vec::new();
    for language in &shop.settings.languages {
        for paper in &shop.settings.paper {
            let sheet = printed(shop, cards, pictures, language, *paper)?;
            pages.push(Page { address: printed_address(first, language, *paper), bytes: sheet.bytes });
        }
    }
    Ok(pages)
}

fn listed(card: &Card, pictures: &BTreeMap<String, Vec<u8>>, language: &str) -> Listed {
    let words = card.words(language);
    let one_line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let offer = |o: &super::CardOffer| ListedOffer {
        form: o.form.clone(),
        code: o.code.clone(),
        price: Money { minor: o.price_minor, decimals: o.price_decimals },
        stock: o.stock,
    };
    Listed {
        slug: card.slug.clone(),
        added: card.added.clone(),
        title: one_line(&words.title),
        summary: words.summary.as_deref().map(one_line),
        edition: words.edition.as_deref().map(one_line),
        subjects: card.subjects.clone(),
        pieces: card.count,
        size_mm: [card.width_mm, card.height_mm, card.thickness_mm],
        wood: one_line(Wood::name_in(&card.wood, language).unwrap_or(&card.wood_name)),
        difficulty: card.difficulty,
        difficulty_word: card.difficulty_word.clone(),
        for_children: card.made_for.as_deref() == Some("children"),
        offers: card.offers.iter().map(offer).collect(),
        picture_jpeg: pictures.get(&card.slug).cloned(),
    }
}
