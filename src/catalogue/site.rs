//! From cards to every page of the published folder.
//!
//! In: a [`Shop`] and the cards of its published designs. Out: [`Page`]s, each address once.
//! Steps: cards in the order of the catalogue; a [`Voice`] for every language, the first at the root, the others under `<language>/`; then lists,
//! products and pages by voice, and once for all the data, feed, embeds and marks.
//! Never here: how a page looks (`theme`), what a figure says (`views`). Rule: handbook, "The published folder".

use std::collections::{BTreeMap, BTreeSet};

use super::lists::{List, in_order, lists, subject_folders};
use super::theme::{Fixed, Sheet};
use super::voice::Voice;
use super::{Again, Card, Leaf, MARK_ADDRESS, MARK_LINE, Page, data, embed, feed, logo, made, near};
use crate::shop::{OwnerPage, Settings, Shop};

/// What keeps the catalogue from being made.
#[derive(Debug, thiserror::Error)]
pub enum CatalogueError {
    /// A template that cannot be understood, or that asks for what there is not.
    #[error("a template of the theme cannot be used: {0}")]
    Theme(#[from] tera::Error),
    /// A file of the owner's theme that is not UTF-8.
    #[error("theme/{file} is not UTF-8 text")]
    NotText {
        /// Its name.
        file: String,
    },
    /// Two pages at one address, for instance a language named like a folder of the site.
    #[error("two pages have the address {address}")]
    Twice {
        /// The address.
        address: String,
    },
}

/// Near relatives on a product page.
const NEAR: usize = 3;

/// Pages that are always there; an owner's page of the same name stands in.
pub(super) const OWN_PAGES: [&str; 3] = ["difficulty", "care", "cautions"];

/// Every page, list and data file of the catalogue; pictures and guides are in the [`Goods`](super::Goods).
///
/// # Errors
/// [`CatalogueError`]: the owner's theme, or two pages at one address.
pub fn pages(shop: &Shop, cards: &[Card]) -> Result<Vec<Page>, CatalogueError> {
    Ok(leaves(shop, cards, None, None)?.into_iter().filter_map(whole).collect())
}

/// The one of those pages that lies at an address, with as few of the others made as that takes; `None` where there is none.
///
/// # Errors
/// As for [`pages`].
pub fn page(shop: &Shop, cards: &[Card], address: &str) -> Result<Option<Page>, CatalogueError> {
    // Data files tell of all pages.
    let alone = address.ends_with(".html") || address.starts_with("made/");
    let found = leaves(shop, cards, None, alone.then_some(address))?.into_iter().find(|leaf| leaf.address == address);
    Ok(found.and_then(whole))
}

fn whole(leaf: Leaf) -> Option<Page> {
    Some(Page { address: leaf.address, bytes: leaf.bytes? })
}

/// The same as [`Leaf`]s: pages of designs of which nothing has changed are left as they lie. On all cores.
///
/// # Errors
/// As for [`pages`].
pub fn pages_again(shop: &Shop, cards: &[Card], again: &Again<'_>) -> Result<Vec<Leaf>, CatalogueError> {
    leaves(shop, cards, Some(again), None)
}

/// Every page, or with `only` the one at that address and what comes along.
fn leaves(
    shop: &Shop,
    cards: &[Card],
    again: Option<&Again<'_>>,
    only: Option<&str>,
) -> Result<Vec<Leaf>, CatalogueError> {
    let settings = &shop.settings;
    let cards: Vec<Card> = in_order(cards).into_iter().cloned().collect();
    let lists = lists(&cards);
    let sheet = Sheet::new(&shop.theme, &settings.look)?;
    let style = sheet.page();
    let fixed = Fixed::new(&shop.theme);
    let logo = settings.look.logo.as_ref().and_then(|(file, bytes)| logo::png(file, bytes));
    let logo = logo.map(|(png, width, height)| (made("logo", "png", png), width, height));
    let has_feed = settings.web_address.is_some() && cards.iter().any(|card| card.added.is_some());
    let site = Site {
        settings,
        cards: &cards,
        lists: &lists,
        subjects: subject_folders(&cards),
        style: style.address.clone(),
        sheet: &sheet,
        icon: fixed.icon.address.clone(),
        script: fixed.script.address.clone(),
        logo: logo.as_ref().map(|(page, width, height)| (page.address.clone(), *width, *height)),
        has_feed,
        pages: &shop.pages,
        near: near::relatives(&cards, NEAR),
        again,
        only,
    };
    let mut all: Vec<Leaf> = [style, fixed.icon, fixed.script].map(Leaf::from).into();
    all.extend(logo.map(|(page, _, _)| page.into()));
    let mut voices = Vec::new();
    for (at, language) in settings.languages.iter().enumerate() {
        if at > 0 && only.is_some_and(|only| only.ends_with(".html") && !only.starts_with(&format!("{language}/"))) {
            continue;
        }
        voices.push(Voice::new(&site, shop, language, at == 0)?);
    }
    let mut addresses = Vec::new();
    for voice in &voices {
        let made = voice.pages()?;
        addresses.extend(made.iter().filter(|page| page.address.ends_with(".html")).map(|page| page.address.clone()));
        all.extend(made);
    }
    if let Some(first) = voices.first() {
        all.push(first.missing()?.into());
        all.extend(embed::pages(first)?);
        if only.is_none() {
            all.extend(data::pages(&voices).into_iter().map(Leaf::from));
            all.extend(feed::atom(first).map(Leaf::from));
        }
    }
    if only.is_none() {
        all.extend(feed::sitemap(settings, &addresses).map(Leaf::from));
        all.extend([robots(settings), mark()].map(Leaf::from));
    }
    let mut seen = BTreeSet::new();
    match all.iter().find(|leaf| !seen.insert(leaf.address.as_str())) {
        Some(twice) => Err(CatalogueError::Twice { address: twice.address.clone() }),
        None => Ok(all),
    }
}

fn robots(settings: &Settings) -> Page {
    let sitemap =
        settings.web_address.as_ref().map(|web| format!("\nSitemap: {web}/sitemap.xml\n")).unwrap_or_default();
    Page { address: "robots.txt".to_owned(), bytes: format!("User-agent: *\nDisallow:\n{sitemap}").into_bytes() }
}

fn mark() -> Page {
    let version = env!("CARGO_PKG_VERSION");
    let text = format!(
        "{MARK_LINE}\n\nVersion {version}. This folder is replaced as a whole by every `kerfleaf publish`: \
         change the shop's records, not the files here.\n"
    );
    Page { address: MARK_ADDRESS.to_owned(), bytes: text.into_bytes() }
}

/// What all languages share.
pub(super) struct Site<'a> {
    pub settings: &'a Settings,
    pub cards: &'a [Card],
    pub lists: &'a [List],
    /// Folder of each subject, by its name.
    pub subjects: BTreeMap<String, String>,
    pub style: String,
    pub sheet: &'a Sheet,
    pub icon: String,
    pub script: String,
    pub logo: Option<(String, u32, u32)>,
    pub has_feed: bool,
    pub pages: &'a [OwnerPage],
    /// For each card the designs shown beside it.
    pub near: Vec<Vec<usize>>,
    pub again: Option<&'a Again<'a>>,
    /// The one address that is asked for, where the others need not be made.
    pub only: Option<&'a str>,
}

impl Site<'_> {
    /// Whether a language has a page at this address of its part; an owner's page may be written in one language alone.
    pub fn has(&self, address: &str, language: &str) -> bool {
        let Some(name) = address.strip_prefix("pages/").and_then(|rest| rest.strip_suffix("/index.html")) else {
            return address != "404.html" && !address.starts_with("embed/");
        };
        let written =
            |page: &OwnerPage| page.name == name && page.language.as_deref().is_none_or(|own| own == language);
        OWN_PAGES.contains(&name) || self.pages.iter().any(written)
    }
}
