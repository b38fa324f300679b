//! The site in one language: its words, numbers and addresses, and the pages made with them.
//!
//! In: what all languages share ([`Site`]) and a BCP 47 tag. Out: the pages of that language, and the small answers that `views`, `data`,
//! `structured` and `feed` ask for: an address of this part, a price, an owner's Markdown.
//! Never here: how a page looks. Rule: handbook, "The published folder", `<language>/…`.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::address::{path, relative};
use super::lists::{Choice, List};
use super::site::{OWN_PAGES, Site};
use super::theme::Theme;
use super::views::{Link, product_address};
use super::{Card, CatalogueError, Leaf, finder, markdown};
use crate::shop::{Settings, Shop, Units, Wood};
use crate::units::Money;
use crate::wording::{Tongue, Words};

/// The site in one language.
pub struct Voice<'a> {
    pub(super) site: &'a Site<'a>,
    language: &'a str,
    /// Empty for the first language, else `<language>/`.
    prefix: String,
    words: Arc<Words>,
    pub(super) theme: Theme,
    pub(super) own_pages: Vec<OwnPage>,
}

/// One of the owner's pages, in the voice's language where it is written in it.
pub(super) struct OwnPage {
    /// Name of its file without the ending.
    pub name: String,
    /// Its first heading.
    pub title: String,
    /// The rest of it.
    pub markdown: String,
}

impl<'a> Voice<'a> {
    pub(super) fn new(
        site: &'a Site<'a>,
        shop: &'a Shop,
        language: &'a str,
        first: bool,
    ) -> Result<Voice<'a>, CatalogueError> {
        let words = Arc::new(Words::for_language(language));
        let names: BTreeSet<&str> = shop.pages.iter().map(|page| page.name.as_str()).collect();
        let own = |name: &&str| {
            let of =
                |wanted: Option<&str>| shop.pages.iter().find(|p| p.name == *name && p.language.as_deref() == wanted);
            let page = of(Some(language)).or_else(|| of(None))?;
            let (title, markdown) = markdown::title_and_rest(&page.markdown);
            let title = title.filter(|title| !title.trim().is_empty()).unwrap_or_else(|| page.name.clone());
            Some(OwnPage { name: page.name.clone(), title, markdown })
        };
        Ok(Voice {
            site,
            language,
            prefix: if first { String::new() } else { format!("{language}/") },
            theme: Theme::new(&shop.theme, words.clone())?,
            words,
            own_pages: names.iter().filter_map(own).collect(),
        })
    }

    pub fn settings(&self) -> &Settings {
        self.site.settings
    }

    pub fn cards(&self) -> &[Card] {
        self.site.cards
    }

    pub fn language(&self) -> &str {
        self.language
    }

    pub fn words(&self) -> &Words {
        &self.words
    }

    /// How the language writes numbers and money and puts words in order.
    pub fn tongue(&self) -> &Tongue {
        self.words.tongue()
    }

    pub fn units(&self) -> Units {
        self.site.settings.units
    }

    /// An address of this language's part of the site.
    pub fn inside(&self, address: &str) -> String {
        format!("{}{address}", self.prefix)
    }

    /// The absolute address, where the shop has a web address.
    pub fn absolute(&self, address: &str) -> Option<String> {
        let web = self.site.settings.web_address.as_ref()?;
        let address = address.strip_suffix("index.html").unwrap_or(address);
        Some(format!("{web}/{}", path(address)))
    }

    /// An amount of the shop's currency.
    pub fn price(&self, minor: i64) -> String {
        let currency = &self.site.settings.currency;
        self.tongue().price(Money { minor, decimals: currency.decimals }, &currency.code)
    }

    /// The name of a design's wood: of the program's own woods in this language, of an owner's as written.
    pub fn wood<'c>(&self, card: &'c Card) -> &'c str {
        Wood::name_in(&card.wood, self.language).unwrap_or(&card.wood_name)
    }

    /// An owner's Markdown on the page `from`; a link to `<name>.md` leads to that page.
    pub fn markdown(&self, text: &str, from: &str) -> String {
        markdown::to_html(text, 2, &|to| {
            let (file, fragment) = to.split_once('#').map_or((to, ""), |(file, rest)| (file, rest));
            let name = file.rsplit('/').next().and_then(|file| file.strip_suffix(".md"));
            let known = |name: &&str| OWN_PAGES.contains(name) || self.own_pages.iter().any(|own| own.name == *name);
            let Some(name) = name.filter(known).filter(|_| !file.contains(':')) else {
                return Some(to.to_owned());
            };
            let href = relative(from, &self.inside(&page_address(name)));
            Some(if fragment.is_empty() { href } else { format!("{href}#{fragment}") })
        })
    }

    /// Every subject of the shop, in the language's order.
    pub fn subjects(&self) -> Vec<String> {
        let mut all: Vec<String> = self.site.subjects.keys().cloned().collect();
        all.sort_by(|a, b| self.tongue().order(a, b));
        all
    }

    /// Links to the lists of these subjects.
    pub fn subject_links(&self, subjects: &[String], from: &str) -> Vec<Link> {
        let link = |subject: &String| {
            let to = self.inside(&format!("{}index.html", self.site.subjects.get(subject)?));
            Some(Link { label: subject.clone(), here: to == from, href: relative(from, &to) })
        };
        subjects.iter().filter_map(link).collect()
    }

    /// Links to the lists of the forms that are on sale.
    pub fn form_links(&self, from: &str) -> Vec<Link> {
        let link = |list: &List| match &list.choice {
            Choice::Form(form) => {
                let to = self.inside(&list.address(1));
                let label = self.words.text(&format!("list-{form}"));
                Some(Link { label, here: to == from, href: relative(from, &to) })
            }
            _ => None,
        };
        self.site.lists.iter().filter_map(link).collect()
    }

    /// The designs shown beside a card.
    pub(super) fn near(&self, at: usize) -> &[usize] {
        self.site.near.get(at).map_or(&[], Vec::as_slice)
    }

    /// Whether the page at an address of this language's part is to be made.
    pub(super) fn asked(&self, address: &str) -> bool {
        self.site.only.is_none_or(|only| only.strip_prefix(self.prefix.as_str()) == Some(address))
    }

    /// All pages of this language, and the data of its search; of one that is asked for alone, that one.
    pub(super) fn pages(&self) -> Result<Vec<Leaf>, CatalogueError> {
        let numbered = |list: &'a List| (1..=list.pages()).map(move |number| (list, number));
        let lists: Vec<(&List, usize)> = self.site.lists.iter().flat_map(numbered).collect();
        let lists: Vec<_> = lists.into_iter().filter(|(list, number)| self.asked(&list.address(*number))).collect();
        let mut all = Vec::new();
        if !lists.is_empty() || self.site.only.is_none_or(|only| only.starts_with("made/")) {
            let shelf = finder::shelf(self)?;
            all = self.each(&lists, |(list, number)| self.list(list, *number, &shelf).map(Leaf::from))?;
            all.push(shelf.into());
        }
        let asked = |at: &usize| self.cards().get(*at).is_some_and(|card| self.asked(&product_address(&card.slug)));
        let designs: Vec<usize> = (0..self.cards().len()).filter(asked).collect();
        all.extend(self.each(&designs, |at| self.product_page(*at))?.into_iter().flatten());
        all.extend(self.text_pages()?.into_iter().map(Leaf::from));
        Ok(all)
    }
}

/// `pages/<name>/index.html`.
pub(super) fn page_address(name: &str) -> String {
    format!("pages/{name}/index.html")
}
