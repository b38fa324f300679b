//! Pages of words: the owner's, those that are always there, and the one for addresses that lead nowhere.
//!
//! In: a [`Voice`]. Out: [`Page`]s. The owner's page of the same name stands in for difficulty, care and cautions.
//! Rule: handbook, "The published folder", `pages/`.

use serde::Serialize;

use super::frame::About;
use super::site::OWN_PAGES;
use super::views::{Entry, Link, product_address};
use super::voice::{Voice, page_address};
use super::{Card, CatalogueError, Leaf, Page, structured};
use crate::cautions::{self, Caution};

#[derive(Serialize)]
struct TextPage {
    title: String,
    body: String,
}

#[derive(Serialize)]
struct CautionsPage {
    cautions: Vec<CautionLine>,
}

#[derive(Serialize)]
struct CautionLine {
    title: &'static str,
    text: &'static str,
}

#[derive(Serialize)]
struct DifficultyPage {
    size: String,
    edges: String,
    novelty: String,
    alike: String,
    examples: Vec<Entry>,
}

impl Voice<'_> {
    /// The owner's pages and those that are always there.
    pub(super) fn text_pages(&self) -> Result<Vec<Page>, CatalogueError> {
        let mut all = Vec::new();
        for own in self.own_pages.iter().filter(|own| self.asked(&page_address(&own.name))) {
            let from = page_address(&own.name);
            let body = self.markdown(&own.markdown, &self.inside(&from));
            let page = TextPage { title: own.title.clone(), body };
            all.push(self.page("page.html", &from, About::plain(own.title.clone()), &page)?);
        }
        let absent = |name: &&&str| !self.own_pages.iter().any(|own| own.name == **name);
        for name in OWN_PAGES.iter().filter(absent).filter(|name| self.asked(&page_address(name))) {
            all.push(self.own_page(name)?);
        }
        Ok(all)
    }

    fn own_page(&self, name: &str) -> Result<Page, CatalogueError> {
        let from = page_address(name);
        let about = About::plain(self.words().text(&format!("{name}-title")));
        match name {
            "difficulty" => self.difficulty_page(&from, about),
            "cautions" => {
                let caution = |caution: &'static Caution| {
                    let (title, text) = caution.in_language(self.language());
                    CautionLine { title, text }
                };
                let page = CautionsPage { cautions: cautions::all().iter().map(caution).collect() };
                self.page("cautions.html", &from, about, &page)
            }
            _ => self.page(&format!("{name}.html"), &from, about, &()),
        }
    }

    fn difficulty_page(&self, from: &str, about: About) -> Result<Page, CatalogueError> {
        let weights = &self.settings().difficulty;
        let number = |value: f64| self.tongue().number(&value.to_string());
        let mut by_score: Vec<&Card> = self.cards().iter().collect();
        by_score.sort_by(|a, b| a.difficulty.total_cmp(&b.difficulty).then_with(|| a.slug.cmp(&b.slug)));
        let page = DifficultyPage {
            size: number(weights.size),
            edges: number(weights.edges),
            novelty: number(weights.novelty),
            alike: number(weights.alike),
            examples: by_score.into_iter().map(|card| self.entry(card, &self.inside(from))).collect(),
        };
        self.page("difficulty.html", from, about, &page)
    }

    /// One design with all that a buyer asks.
    pub(super) fn product_page(&self, at: usize) -> Result<Option<Leaf>, CatalogueError> {
        let Some(card) = self.cards().get(at) else {
            return Ok(None);
        };
        let address = product_address(&card.slug);
        let of = self.print_of_product(at);
        if let Some(leaf) = self.as_before(&self.inside(&address), of) {
            return Ok(Some(leaf));
        }
        let Some(product) = self.product(at, &self.inside(&address)) else {
            return Ok(None);
        };
        let about = About {
            title: Some(product.title.clone()),
            description: product.summary.clone(),
            picture: self.shared(card),
            kind: "product",
            data: Some(structured::product(self, card)),
            accent: product.accent.clone(),
            body: "product",
            canonical: None,
        };
        let page = self.page("product.html", &address, about, &product)?;
        Ok(Some(Leaf { of, ..page.into() }))
    }

    /// The page for addresses that lead nowhere. A host shows it at any depth, so its way home is absolute where the shop has a web address;
    /// elsewhere it holds at the root, and the page's script finds it from below.
    pub(super) fn missing(&self) -> Result<Page, CatalogueError> {
        let home = self.absolute("").unwrap_or_else(|| "index.html".to_owned());
        let page = Link { label: self.settings().name.clone(), href: home, here: false };
        self.page("missing.html", "404.html", About::plain(self.words().text("missing-title")), &page)
    }
}
