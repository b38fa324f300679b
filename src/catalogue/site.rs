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
use super::{Card, MARK_ADDRESS, MARK_LINE, Page, data, embed, feed, logo, made};
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

/// Pages that are always there; an owner's page of the same name stands in.
pub(super) const OWN_PAGES: [&str; 3] = ["difficulty", "care", "cautions"];

/// Every page, list and data file of the catalogue; pictures and guides are in the [`Goods`](super::Goods).
///
/// # Errors
/// [`CatalogueError`]: the owner's theme, or two pages at one address.
pub fn pages(shop: &Shop, cards: &[Card]) -> Result<Vec<Page>, CatalogueError> {
    let settings = &shop.settings;
    let cards = in_order(cards);
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
    };
    let mut all = vec![style, fixed.icon, fixed.script];
    all.extend(logo.map(|(page, _, _)| page));
    let mut voices = Vec::new();
    for (at, language) in settings.languages.iter().enumerate() {
        voices.push(Voice::new(&site, shop, language, at == 0)?);
    }
    let mut addresses = Vec::new();
    for voice in &voices {
        let made = voice.pages()?;
        addresses.extend(made.iter().filter(|page| page.address.ends_with(".html")).map(|page| page.address.clone()));
        all.extend(made);
    }
    if let Some(first) = voices.first() {
        all.push(first.missing()?);
        all.extend(embed::pages(first)?);
        all.extend(data::pages(&voices));
        all.extend(feed::atom(first));
    }
    all.extend(feed::sitemap(settings, &addresses));
    all.push(robots(settings));
    all.push(mark());
    let mut seen = BTreeSet::new();
    match all.iter().find(|page| !seen.insert(page.address.as_str())) {
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
