//! From cards to every page of the published folder.
//!
//! In: a [`Shop`] and the cards of its published designs. Out: [`Page`]s, each address once.
//! Steps: cards in the order of the catalogue; a [`Voice`] for every language, the first at the root, the others under `<language>/`; then lists,
//! products and pages by voice, and once for all the data, feed and marks.
//! Never here: how a page looks (`theme`), what a figure says (`views`). Rule: handbook, "The published folder".

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use serde::Serialize;

use super::address::{path, relative};
use super::lists::{Choice, List, in_order, lists, subject_folders};
use super::theme::{Theme, icon, script, style};
use super::views::{Entry, Link, product_address};
use super::{
    Card, MARK_ADDRESS, MARK_LINE, Page, amounts, data, feed, logo, made, main_picture_address, markdown, structured,
};
use crate::cautions::{self, Caution};
use crate::shop::{OwnerPage, Settings, Shop, Units};
use crate::units::Money;
use crate::wording::{Value, Words};

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
const OWN_PAGES: [&str; 3] = ["difficulty", "care", "cautions"];

/// A policy that the pages keep: nothing but what lies in the folder itself.
const POLICY: &str = "default-src 'none'; img-src 'self'; style-src 'self'; script-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'";

/// Every page, list and data file of the catalogue; pictures and guides are in the [`Goods`](super::Goods).
///
/// # Errors
/// [`CatalogueError`]: the owner's theme, or two pages at one address.
pub fn pages(shop: &Shop, cards: &[Card]) -> Result<Vec<Page>, CatalogueError> {
    let settings = &shop.settings;
    let cards = in_order(cards);
    let lists = lists(&cards);
    let style = style(&shop.theme, &settings.look)?;
    let icon = icon(&shop.theme);
    let script = script(&shop.theme);
    let logo = settings.look.logo.as_ref().and_then(|(file, bytes)| logo::png(file, bytes));
    let logo = logo.map(|(png, width, height)| (made("logo", "png", png), width, height));
    let has_feed = settings.web_address.is_some() && cards.iter().any(|card| card.added.is_some());
    let site = Site {
        settings,
        cards: &cards,
        lists: &lists,
        subjects: subject_folders(&cards),
        style: style.address.clone(),
        icon: icon.address.clone(),
        script: script.as_ref().map(|page| page.address.clone()),
        logo: logo.as_ref().map(|(page, width, height)| (page.address.clone(), *width, *height)),
        has_feed,
        pages: &shop.pages,
    };
    let mut all = vec![style, icon];
    all.extend(script);
    all.extend(logo.map(|(page, _, _)| page));
    let mut addresses = Vec::new();
    for (at, language) in settings.languages.iter().enumerate() {
        let voice = Voice::new(&site, shop, language, at == 0)?;
        let made = voice.pages()?;
        addresses.extend(made.iter().map(|page| page.address.clone()));
        all.extend(made);
        if at == 0 {
            all.push(voice.missing()?);
            all.extend(data::pages(&voice));
            all.extend(feed::atom(&voice));
        }
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
struct Site<'a> {
    settings: &'a Settings,
    cards: &'a [Card],
    lists: &'a [List],
    subjects: BTreeMap<String, String>,
    style: String,
    icon: String,
    script: Option<String>,
    logo: Option<(String, u32, u32)>,
    has_feed: bool,
    pages: &'a [OwnerPage],
}

impl Site<'_> {
    /// Whether a language has a page at this address of its part; an owner's page may be written in one language alone.
    fn has(&self, address: &str, language: &str) -> bool {
        let Some(name) = address.strip_prefix("pages/").and_then(|rest| rest.strip_suffix("/index.html")) else {
            return address != "404.html";
        };
        let written =
            |page: &OwnerPage| page.name == name && page.language.as_deref().is_none_or(|own| own == language);
        OWN_PAGES.contains(&name) || self.pages.iter().any(written)
    }
}

/// The site in one language.
pub struct Voice<'a> {
    site: &'a Site<'a>,
    language: &'a str,
    /// Empty for the first language, else `<language>/`.
    prefix: String,
    words: Arc<Words>,
    theme: Theme,
    /// Name, title and Markdown of the owner's pages, by name.
    own_pages: Vec<(String, String, String)>,
}

#[derive(Serialize)]
struct Frame {
    language: String,
    direction: &'static str,
    title: String,
    description: Option<String>,
    policy: &'static str,
    style: String,
    icon: String,
    script: Option<String>,
    shop: String,
    home: String,
    logo: Option<Logo>,
    nav: Vec<Link>,
    pages: Vec<Link>,
    languages: Vec<Other>,
    maker: Option<Maker>,
    price_note: Option<String>,
    canonical: Option<String>,
    picture: Option<String>,
    kind: &'static str,
    feed: Option<String>,
    /// JSON-LD, ready to stand in a script element.
    data: Option<String>,
    accent: String,
    body: &'static str,
}

#[derive(Serialize)]
struct Logo {
    src: String,
    width: u32,
    height: u32,
}

#[derive(Serialize)]
struct Other {
    language: String,
    name: String,
    href: String,
    here: bool,
}

#[derive(Serialize)]
struct Maker {
    name: Option<String>,
    address: Option<String>,
    email: Option<String>,
    eu_person: Option<String>,
}

/// What a page tells its frame.
struct About {
    title: Option<String>,
    description: Option<String>,
    picture: Option<String>,
    kind: &'static str,
    data: Option<String>,
    accent: String,
    body: &'static str,
}

impl About {
    fn plain(title: String) -> About {
        About {
            title: Some(title),
            description: None,
            picture: None,
            kind: "website",
            data: None,
            accent: String::new(),
            body: "text",
        }
    }
}

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
    number: usize,
    last: usize,
    before: Option<String>,
    after: Option<String>,
}

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

impl<'a> Voice<'a> {
    fn new(site: &'a Site<'a>, shop: &'a Shop, language: &'a str, first: bool) -> Result<Voice<'a>, CatalogueError> {
        let words = Arc::new(Words::for_language(language));
        let names: BTreeSet<&str> = shop.pages.iter().map(|page| page.name.as_str()).collect();
        let own = |name: &&str| {
            let of =
                |wanted: Option<&str>| shop.pages.iter().find(|p| p.name == *name && p.language.as_deref() == wanted);
            let page = of(Some(language)).or_else(|| of(None))?;
            let (title, rest) = markdown::title_and_rest(&page.markdown);
            let title = title.filter(|title| !title.trim().is_empty()).unwrap_or_else(|| page.name.clone());
            Some((page.name.clone(), title, rest))
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
        amounts::price(Money { minor, decimals: currency.decimals }, &currency.code)
    }

    /// An owner's Markdown on the page `from`; a link to `<name>.md` leads to that page.
    pub fn markdown(&self, text: &str, from: &str) -> String {
        markdown::to_html(text, 2, &|to| {
            let (file, fragment) = to.split_once('#').map_or((to, ""), |(file, rest)| (file, rest));
            let name = file.rsplit('/').next().and_then(|file| file.strip_suffix(".md"));
            let known = |name: &&str| OWN_PAGES.contains(name) || self.own_pages.iter().any(|(own, _, _)| own == name);
            let Some(name) = name.filter(known).filter(|_| !file.contains(':')) else {
                return Some(to.to_owned());
            };
            let href = relative(from, &self.inside(&page_address(name)));
            Some(if fragment.is_empty() { href } else { format!("{href}#{fragment}") })
        })
    }

    /// Links to the lists of these subjects.
    pub fn subject_links(&self, subjects: &[String], from: &str) -> Vec<Link> {
        let link = |subject: &String| {
            let to = self.inside(&format!("{}index.html", self.site.subjects.get(subject)?));
            Some(Link { label: subject.clone(), here: to == from, href: relative(from, &to) })
        };
        subjects.iter().filter_map(link).collect()
    }

    fn form_links(&self, from: &str) -> Vec<Link> {
        let link = |list: &List| match &list.choice {
            Choice::Form(form) => {
                let to = self.inside(&list.address(1));
                Some(Link {
                    label: self.words.text(&format!("list-{form}")),
                    here: to == from,
                    href: relative(from, &to),
                })
            }
            _ => None,
        };
        self.site.lists.iter().filter_map(link).collect()
    }

    fn pages(&self) -> Result<Vec<Page>, CatalogueError> {
        let mut all = Vec::new();
        for list in self.site.lists {
            for number in 1..=list.pages() {
                all.push(self.list(list, number)?);
            }
        }
        for at in 0..self.site.cards.len() {
            all.extend(self.product_page(at)?);
        }
        for (name, title, text) in &self.own_pages {
            let from = page_address(name);
            let body = self.markdown(text, &self.inside(&from));
            let page = TextPage { title: title.clone(), body };
            all.push(self.page("page.html", &from, About::plain(title.clone()), &page)?);
        }
        for name in OWN_PAGES.iter().filter(|name| !self.own_pages.iter().any(|(own, _, _)| own == *name)) {
            all.push(self.own_page(name)?);
        }
        Ok(all)
    }

    fn own_page(&self, name: &str) -> Result<Page, CatalogueError> {
        let from = page_address(name);
        let about = About::plain(self.words.text(&format!("{name}-title")));
        match name {
            "difficulty" => self.difficulty_page(&from, about),
            "cautions" => {
                let caution = |caution: &'static Caution| {
                    let (title, text) = caution.in_language(self.language);
                    CautionLine { title, text }
                };
                let page = CautionsPage { cautions: cautions::all().iter().map(caution).collect() };
                self.page("cautions.html", &from, about, &page)
            }
            _ => self.page(&format!("{name}.html"), &from, about, &()),
        }
    }

    fn difficulty_page(&self, from: &str, about: About) -> Result<Page, CatalogueError> {
        let weights = &self.site.settings.difficulty;
        let mut by_score: Vec<&Card> = self.site.cards.iter().collect();
        by_score.sort_by(|a, b| a.difficulty.total_cmp(&b.difficulty).then_with(|| a.slug.cmp(&b.slug)));
        let page = DifficultyPage {
            size: weights.size.to_string(),
            edges: weights.edges.to_string(),
            novelty: weights.novelty.to_string(),
            alike: weights.alike.to_string(),
            examples: by_score.into_iter().map(|card| self.entry(card, &self.inside(from))).collect(),
        };
        self.page("difficulty.html", from, about, &page)
    }

    fn list(&self, list: &List, number: usize) -> Result<Page, CatalogueError> {
        let settings = self.site.settings;
        let from = self.inside(&list.address(number));
        let to_page = |number: usize| relative(&from, &self.inside(&list.address(number)));
        let first = list.address(1);
        let whole = list.choice == Choice::All;
        let words = settings.words.get(self.language);
        let tagline = words.and_then(|w| w.tagline.as_ref()).or(settings.tagline.as_ref());
        let about = words.and_then(|w| w.about.as_ref()).or(settings.about.as_ref());
        let heading = match &list.choice {
            Choice::All => tagline.unwrap_or(&settings.name).clone(),
            Choice::Subject(subject) => subject.clone(),
            Choice::Form(form) => self.words.text(&format!("list-{form}")),
        };
        let subjects: Vec<String> = self.site.subjects.keys().cloned().collect();
        let on_page = list.on_page(number).iter().filter_map(|at| self.site.cards.get(*at));
        let mut entries = on_page.map(|card| self.entry(card, &from));
        let page = ListPage {
            front: whole && number == 1,
            heading: heading.clone(),
            about: about.filter(|_| whole && number == 1).cloned(),
            first: entries.next(),
            rows: rows(entries),
            total: list.cards.len(),
            all: (!whole).then(|| relative(&from, &self.inside("index.html"))),
            forms: self.form_links(&from),
            subjects: self.subject_links(&subjects, &from),
            number,
            last: list.pages(),
            before: (number > 1).then(|| to_page(number - 1)),
            after: (number < list.pages()).then(|| to_page(number + 1)),
        };
        let mut about_page = About::plain(heading);
        about_page.body = "list";
        about_page.title = if whole { tagline.map(|_| page.heading.clone()) } else { about_page.title };
        about_page.description = about.or(tagline).filter(|_| whole).cloned();
        if number > 1 {
            let title = about_page.title.unwrap_or_else(|| settings.name.clone());
            about_page.title =
                Some(self.words.with("title-page", &[("title", title.into()), ("number", number.into())]));
        }
        about_page.data = page.front.then(|| structured::organization(self));
        let address = if number == 1 { first } else { list.address(number) };
        self.page("list.html", &address, about_page, &page)
    }

    fn product_page(&self, at: usize) -> Result<Option<Page>, CatalogueError> {
        let Some(card) = self.site.cards.get(at) else {
            return Ok(None);
        };
        let address = product_address(&card.slug);
        let Some(product) = self.product(at, &self.inside(&address)) else {
            return Ok(None);
        };
        let about = About {
            title: Some(product.title.clone()),
            description: product.summary.clone(),
            picture: self.absolute(&main_picture_address(&card.slug)),
            kind: "product",
            data: Some(structured::product(self, card)),
            accent: product.accent.clone(),
            body: "product",
        };
        self.page("product.html", &address, about, &product).map(Some)
    }

    /// The page for addresses that lead nowhere. A host shows it at any depth, so its way home is absolute where the shop has a web address.
    fn missing(&self) -> Result<Page, CatalogueError> {
        let home = self.absolute("").unwrap_or_else(|| "index.html".to_owned());
        let page = Link { label: self.site.settings.name.clone(), href: home, here: false };
        self.page("missing.html", "404.html", About::plain(self.words.text("missing-title")), &page)
    }

    /// One page at an address of this language's part of the site.
    fn page(&self, template: &str, address: &str, about: About, page: &impl Serialize) -> Result<Page, CatalogueError> {
        let at = self.inside(address);
        let frame = self.frame(address, &at, about);
        Ok(Page { bytes: self.theme.set(template, &frame, page)?, address: at })
    }

    fn frame(&self, address: &str, at: &str, about: About) -> Frame {
        let settings = self.site.settings;
        let link = |to: &str, label: String| {
            let to = self.inside(to);
            Link { label, here: to == at, href: relative(at, &to) }
        };
        let mut pages: Vec<Link> = OWN_PAGES
            .iter()
            .map(|name| {
                let own = self.own_pages.iter().find(|(own, _, _)| own == name).map(|(_, title, _)| title.clone());
                link(&page_address(name), own.unwrap_or_else(|| self.words.text(&format!("{name}-title"))))
            })
            .collect();
        let others = self.own_pages.iter().filter(|(name, _, _)| !OWN_PAGES.contains(&name.as_str()));
        pages.extend(others.map(|(name, title, _)| link(&page_address(name), title.clone())));
        let mut nav = vec![link("index.html", self.words.text("nav-all"))];
        let blank = self.site.lists.iter().find(|list| list.choice == Choice::Form("blank".to_owned()));
        nav.extend(blank.map(|list| link(&list.address(1), self.words.text("list-blank"))));
        nav.push(link(&page_address("difficulty"), self.words.text("nav-difficulty")));
        nav.push(link(&page_address("care"), self.words.text("nav-care")));
        let words = settings.words.get(self.language);
        let languages = settings.languages.iter().enumerate().filter(|(_, language)| self.site.has(address, language));
        let languages = languages.filter(|_| settings.languages.len() > 1).map(|(index, language)| {
            let to = if index == 0 { address.to_owned() } else { format!("{language}/{address}") };
            Other {
                language: language.clone(),
                name: language_name(language),
                href: relative(at, &to),
                here: language == self.language,
            }
        });
        Frame {
            language: self.language.to_owned(),
            direction: direction(self.language),
            title: match about.title {
                Some(title) => {
                    let values = [("title", Value::from(title)), ("shop", Value::from(settings.name.as_str()))];
                    self.words.with("title-shop", &values)
                }
                None => settings.name.clone(),
            },
            description: about.description,
            policy: POLICY,
            style: relative(at, &self.site.style),
            icon: relative(at, &self.site.icon),
            script: self.site.script.as_ref().map(|to| relative(at, to)),
            shop: settings.name.clone(),
            home: relative(at, &self.inside("index.html")),
            logo: self.site.logo.as_ref().map(|(to, width, height)| Logo {
                src: relative(at, to),
                width: width / 2,
                height: height / 2,
            }),
            nav,
            pages,
            languages: languages.collect(),
            maker: settings.maker.as_ref().map(|maker| Maker {
                name: maker.name.clone(),
                address: maker.address.clone(),
                email: maker.email.clone(),
                eu_person: maker.eu_person.clone(),
            }),
            price_note: words.and_then(|w| w.price_note.clone()).or_else(|| settings.price_note.clone()),
            canonical: if address == "404.html" { None } else { self.absolute(at) },
            picture: about.picture,
            kind: about.kind,
            feed: self.site.has_feed.then(|| relative(at, "feed.xml")),
            data: about.data,
            accent: about.accent,
            body: about.body,
        }
    }
}

/// Rows of a list in a rhythm of wide and narrow pictures: a row is full when its pictures, set to one height, are so many heights wide.
fn rows(entries: impl Iterator<Item = Entry>) -> Vec<Vec<Entry>> {
    const FULL: [f64; 2] = [2.3, 3.6];
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

/// `pages/<name>/index.html`.
fn page_address(name: &str) -> String {
    format!("pages/{name}/index.html")
}

/// Languages written from right to left: CLDR, characterOrder.
fn direction(language: &str) -> &'static str {
    let plain = language.split('-').next().unwrap_or(language);
    if ["ar", "he", "fa", "ur", "yi", "ps", "sd", "ckb", "dv", "ug"].contains(&plain) { "rtl" } else { "ltr" }
}

/// A language's name in itself (CLDR); its tag where it is not in the list.
fn language_name(language: &str) -> String {
    let plain = language.split('-').next().unwrap_or(language);
    let name = match plain {
        "en" => "English",
        "de" => "Deutsch",
        "fr" => "français",
        "es" => "español",
        "it" => "italiano",
        "nl" => "Nederlands",
        "pt" => "português",
        "da" => "dansk",
        "sv" => "svenska",
        "nb" => "norsk bokmål",
        "fi" => "suomi",
        "pl" => "polski",
        "cs" => "čeština",
        "ja" => "日本語",
        "ar" => "العربية",
        "he" => "עברית",
        _ => return language.to_owned(),
    };
    name.to_owned()
}
