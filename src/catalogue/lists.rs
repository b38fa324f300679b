//! The lists of the catalogue: all designs, those of a subject, those in a form; in pages where there are many.
//!
//! In: cards. Out: [`List`]s with their addresses and the cards on them. Rule: handbook, "The published folder".

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

use super::Card;
use super::address::slug;
use crate::shop::is_device;

/// Designs on one page of a list.
pub const PER_PAGE: usize = 35;

/// What a list holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Choice {
    /// Every published design.
    All,
    /// A subject, as its owner wrote it.
    Subject(String),
    /// `painted`, `plain` or `blank`.
    Form(String),
}

/// One list, not yet cut into pages.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct List {
    /// What it holds.
    pub choice: Choice,
    /// Folder of its first page inside the site, with a trailing `/`; empty for all.
    pub folder: String,
    /// Indices of its cards, in the order of the catalogue.
    pub cards: Vec<usize>,
}

/// Forms in the order of lists and links.
pub const FORMS: [&str; 3] = ["painted", "plain", "blank"];

/// All lists: the whole first, then forms, then subjects by name.
pub fn lists(cards: &[Card]) -> Vec<List> {
    let which = |holds: &dyn Fn(&Card) -> bool| -> Vec<usize> {
        cards.iter().enumerate().filter(|(_, card)| holds(card)).map(|(at, _)| at).collect()
    };
    let mut all = vec![List { choice: Choice::All, folder: String::new(), cards: which(&|_| true) }];
    for form in FORMS {
        let cards = which(&|card| card.offers.iter().any(|offer| offer.form == form));
        if !cards.is_empty() {
            all.push(List { choice: Choice::Form(form.to_owned()), folder: format!("forms/{form}/"), cards });
        }
    }
    for (subject, folder) in subject_folders(cards) {
        let cards = which(&|card| card.subjects.contains(&subject));
        all.push(List { choice: Choice::Subject(subject), folder, cards });
    }
    all
}

/// The folder of every subject; where two names make the same slug, the second in order of name gets `-2`.
pub fn subject_folders(cards: &[Card]) -> BTreeMap<String, String> {
    let names: BTreeSet<&String> = cards.iter().flat_map(|card| &card.subjects).collect();
    let mut taken = BTreeSet::new();
    let mut folders = BTreeMap::new();
    for name in names {
        let slug = slug(name);
        let tries = (1usize..).map(|n| if n == 1 { slug.clone() } else { format!("{slug}-{n}") });
        // Some systems keep a few names for devices, and would have no folder of that name.
        if let Some(free) = tries.into_iter().find(|name| !taken.contains(name) && !is_device(name)) {
            folders.insert(name.clone(), format!("subjects/{free}/"));
            taken.insert(free);
        }
    }
    folders
}

impl List {
    /// How many pages it takes; an empty list has one.
    pub fn pages(&self) -> usize {
        self.cards.len().div_ceil(PER_PAGE).max(1)
    }

    /// Address of its page `number`, from 1.
    pub fn address(&self, number: usize) -> String {
        match number {
            0 | 1 => format!("{}index.html", self.folder),
            _ => format!("{}page/{number}/index.html", self.folder),
        }
    }

    /// The cards on its page `number`, from 1.
    pub fn on_page(&self, number: usize) -> &[usize] {
        self.cards.chunks(PER_PAGE).nth(number.saturating_sub(1)).unwrap_or_default()
    }
}

/// The order of the catalogue, of designs by their dates and slugs: newest first, those without a date last, then by slug.
pub fn newest_first(a: (Option<&str>, &str), b: (Option<&str>, &str)) -> Ordering {
    b.0.cmp(&a.0).then_with(|| a.1.cmp(b.1))
}

/// Puts cards in the order of the catalogue.
pub fn in_order(cards: &[Card]) -> Vec<&Card> {
    let mut cards: Vec<&Card> = cards.iter().collect();
    cards.sort_by(|a, b| newest_first((a.added.as_deref(), &a.slug), (b.added.as_deref(), &b.slug)));
    cards
}
