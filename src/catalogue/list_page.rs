//! A page of a list: the whole catalogue, a subject, a form.
//!
//! In: a [`List`], the number of its page, the address of the search's data. Out: one [`Page`]; its designs in rows of one height.
//! Never here: the search itself (the theme's script), whose answers only stand in for rows that are whole without it.
//! Rule: handbook, "The published folder".

use serde::Serialize;

use super::address::relative;
use super::finder::Finder;
use super::frame::{About, Shared};
use super::lists::{Choice, List};
use super::views::{Entry, Link, main_of};
use super::voice::Voice;
use super::{CatalogueError, Encoding, Page, View, main_picture_address, structured};

#[derive(Serialize)]
struct ListPage {
    /// The whole catalogue, on its first page.
    front: bool,
    heading: String,
    about: Option<String>,
    /// The first design of the page, shown large.
    first: Option<Entry>,
    rows: Vec<Vec<Entry>>,
    total: usize,
    all: Option<String>,
    forms: Vec<Link>,
    subjects: Vec<Link>,
    /// The search, on pages of the whole catalogue.
    finder: Option<Finder>,
    number: usize,
    last: usize,
    before: Option<String>,
    after: Option<String>,
}

impl Voice<'_> {
    pub(super) fn list(&self, list: &List, number: usize, shelf: &Page) -> Result<Page, CatalogueError> {
        let settings = self.settings();
        let from = self.inside(&list.address(number));
        let to_page = |number: usize| relative(&from, &self.inside(&list.address(number)));
        let whole = list.choice == Choice::All;
        let front = whole && number == 1;
        let words = settings.words.get(self.language());
        let tagline = words.and_then(|w| w.tagline.as_ref()).or(settings.tagline.as_ref());
        let about = words.and_then(|w| w.about.as_ref()).or(settings.about.as_ref());
        let heading = match &list.choice {
            Choice::All => tagline.unwrap_or(&settings.name).clone(),
            Choice::Subject(subject) => subject.clone(),
            Choice::Form(form) => self.words().text(&format!("list-{form}")),
        };
        let on_page = list.on_page(number).iter().filter_map(|at| self.cards().get(*at));
        let detail = on_page.clone().next().and_then(|card| {
            let close = card.pictures.iter().find(|set| set.view == View::CloseUp)?;
            Some(self.picture(card, close, &from))
        });
        let mut entries = on_page.map(|card| self.entry(card, &from));
        let page = ListPage {
            front,
            heading: heading.clone(),
            about: about.filter(|_| front).cloned(),
            first: entries.next().map(|entry| Entry { detail, ..entry }),
            rows: rows(entries),
            total: list.cards.len(),
            all: (!whole).then(|| relative(&from, &self.inside("index.html"))),
            forms: self.form_links(&from),
            subjects: self.subject_links(&self.subjects(), &from),
            finder: (whole && list.cards.len() > 1).then(|| self.finder(&from, &shelf.address)),
            number,
            last: list.pages(),
            before: (number > 1).then(|| to_page(number - 1)),
            after: (number < list.pages()).then(|| to_page(number + 1)),
        };
        let mut title = Some(heading).filter(|_| !whole || tagline.is_some());
        if number > 1 {
            let of = title.unwrap_or_else(|| settings.name.clone());
            title = Some(self.words().with("title-page", &[("title", of.into()), ("number", number.into())]));
        }
        let about = About {
            title,
            description: self.described(list, about.or(tagline)),
            picture: self.cover_of(list),
            kind: "website",
            data: front.then(|| structured::organization(self)),
            accent: String::new(),
            body: "list",
            canonical: None,
        };
        self.page("list.html", &list.address(number), about, &page)
    }

    /// One sentence for search engines; lists of one kind say how many they hold.
    fn described(&self, list: &List, shop: Option<&String>) -> Option<String> {
        if list.choice == Choice::All {
            return shop.cloned();
        }
        let count = self.words().with("count-designs", &[("count", list.cards.len().into())]);
        let kind = match &list.choice {
            Choice::Form(form) => self.words().text(&format!("list-{form}")),
            Choice::Subject(subject) => subject.clone(),
            Choice::All => String::new(),
        };
        Some(format!("{kind}: {count}. {}", shop.map_or("", String::as_str)).trim_end().to_owned())
    }

    /// The picture of the first design of a list, for places where the list is shared.
    fn cover_of(&self, list: &List) -> Option<Shared> {
        let card = list.cards.first().and_then(|at| self.cards().get(*at))?;
        self.shared(card)
    }

    /// The picture of a design where its page is shared; only with a web address, since it must be absolute.
    pub(super) fn shared(&self, card: &super::Card) -> Option<Shared> {
        let set = card.pictures.iter().find(|set| set.view != super::View::Photo && !set.view.points_out());
        let set = set.or(main_of(&card.pictures))?;
        // `picture.jpg` is the widest JPEG of the first drawn view.
        let size = set.of(Encoding::Jpeg).last().map(|source| (source.width, source.height))?;
        Some(Shared {
            address: self.absolute(&main_picture_address(&card.slug))?,
            width: size.0,
            height: size.1,
            alt: self.picture(card, set, "index.html").alt,
        })
    }
}

/// Rows of a list in a rhythm of wide and narrow pictures: a row is full when its pictures, set to one height, are so many heights wide.
fn rows(entries: impl Iterator<Item = Entry>) -> Vec<Vec<Entry>> {
    let mut rows: Vec<Vec<Entry>> = Vec::new();
    let mut width = f64::INFINITY;
    for entry in entries {
        let full = FULL.get(rows.len().saturating_sub(1) % FULL.len()).copied().unwrap_or(3.0);
        if width >= full {
            rows.push(Vec::new());
            width = 0.0;
        }
        width += entry.picture.as_ref().map_or(1.0, |p| f64::from(p.width) / f64::from(p.height.max(1)));
        if let Some(row) = rows.last_mut() {
            row.push(entry);
        }
    }
    rows
}

/// How many heights wide the rows are, in turn; the theme's script keeps the same rhythm.
const FULL: [f64; 2] = [2.3, 3.6];
