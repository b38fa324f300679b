//! What every page has: title, way home, navigation, languages, maker, and what machines read in its head.
//!
//! In: a [`Voice`], the page's address and what the page says of itself ([`About`]). Out: [`Page`] bytes set by the theme.
//! Never here: the page's own contents. Rule: handbook, "The published folder".

use serde::Serialize;

use super::address::relative;
use super::lists::Choice;
use super::site::OWN_PAGES;
use super::views::Link;
use super::voice::{Voice, page_address};
use super::{CatalogueError, Page};
use crate::wording::{Value, direction, language_name};

/// Content-Security-Policy of every page: nothing but what lies in the folder itself, nothing inline. Content Security Policy Level 3.
const POLICY: &str = "default-src 'none'; img-src 'self'; style-src 'self'; script-src 'self'; connect-src 'self'; base-uri 'none'; \
                      form-action 'none'";

/// Finds the folder of the catalogue above a lost address.
const WAY_HOME: &str = include_str!("../../themes/default/way-home.js");

#[derive(Serialize)]
pub(super) struct Frame {
    language: String,
    /// As the Open Graph protocol writes it: `de_DE`, or the language alone.
    locale: String,
    direction: &'static str,
    title: String,
    description: Option<String>,
    policy: String,
    /// Address of the style sheet; none where the page carries it.
    style: Option<String>,
    /// The style sheet itself, for the one page that is shown at any depth.
    inline_style: Option<String>,
    /// The way home, for the same page where it has no absolute address.
    inline_script: Option<&'static str>,
    icon: Option<String>,
    script: Option<String>,
    shop: String,
    home: String,
    logo: Option<Logo>,
    nav: Vec<Link>,
    pages: Vec<Link>,
    languages: Vec<Other>,
    /// Absolute address of the page in the first language that has it.
    first_language: Option<String>,
    maker: Option<Maker>,
    price_note: Option<String>,
    canonical: Option<String>,
    picture: Option<Shared>,
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
    /// From this page.
    href: String,
    /// For search engines, which want it absolute: only where the shop has a web address.
    address: Option<String>,
    here: bool,
}

#[derive(Serialize)]
struct Maker {
    name: Option<String>,
    address: Option<String>,
    email: Option<String>,
    eu_person: Option<String>,
}

/// The picture that stands for a page where it is shared. The Open Graph protocol, `og:image`.
#[derive(Serialize)]
pub(super) struct Shared {
    /// Absolute.
    pub address: String,
    pub width: u32,
    pub height: u32,
    pub alt: String,
}

/// What a page tells its frame.
pub(super) struct About {
    pub title: Option<String>,
    pub description: Option<String>,
    pub picture: Option<Shared>,
    pub kind: &'static str,
    pub data: Option<String>,
    pub accent: String,
    pub body: &'static str,
    /// The absolute address it is known by, where that is another page's.
    pub canonical: Option<String>,
}

impl About {
    pub fn plain(title: String) -> About {
        About {
            title: Some(title),
            description: None,
            picture: None,
            kind: "website",
            data: None,
            accent: String::new(),
            body: "text",
            canonical: None,
        }
    }
}

impl Voice<'_> {
    /// One page at an address of this language's part of the site.
    pub(super) fn page(
        &self,
        template: &str,
        address: &str,
        about: About,
        page: &impl Serialize,
    ) -> Result<Page, CatalogueError> {
        let at = self.inside(address);
        let frame = self.frame(address, &at, about);
        Ok(Page { bytes: self.theme.set(template, &frame, page)?, address: at })
    }

    fn frame(&self, address: &str, at: &str, about: About) -> Frame {
        let settings = self.site.settings;
        let words = settings.words.get(self.language());
        // A host shows the page of lost addresses at any depth, where no relative address holds: without an absolute one a script finds the way.
        let adrift = address == "404.html";
        let lost = adrift && settings.web_address.is_none();
        let href = |to: &str| match self.absolute(to).filter(|_| adrift) {
            Some(absolute) => absolute,
            None => relative(at, to),
        };
        Frame {
            language: self.language().to_owned(),
            locale: self.language().replace('-', "_"),
            direction: direction(self.language()),
            title: match about.title {
                Some(title) => {
                    let values = [("title", Value::from(title)), ("shop", Value::from(settings.name.as_str()))];
                    self.words().with("title-shop", &values)
                }
                None => settings.name.clone(),
            },
            description: about.description,
            policy: if adrift { self.site.sheet.policy(lost.then_some(WAY_HOME)) } else { POLICY.to_owned() },
            style: (!adrift).then(|| relative(at, &self.site.style)),
            inline_style: adrift.then(|| self.site.sheet.inline().to_owned()),
            inline_script: lost.then_some(WAY_HOME),
            icon: (!adrift).then(|| relative(at, &self.site.icon)),
            script: matches!(about.body, "list" | "product").then(|| relative(at, &self.site.script)),
            shop: settings.name.clone(),
            home: href(&self.inside("index.html")),
            logo: self.site.logo.as_ref().filter(|_| !adrift).map(|(to, width, height)| Logo {
                src: relative(at, to),
                width: width / 2,
                height: height / 2,
            }),
            nav: if lost { Vec::new() } else { self.nav(at, &href) },
            pages: if lost { Vec::new() } else { self.foot_links(at, &href) },
            languages: self.languages(address, at),
            first_language: self.languages(address, at).into_iter().next().and_then(|first| first.address),
            maker: settings.maker.as_ref().map(|maker| Maker {
                name: maker.name.clone(),
                address: maker.address.clone(),
                email: maker.email.clone(),
                eu_person: maker.eu_person.clone(),
            }),
            price_note: words.and_then(|w| w.price_note.clone()).or_else(|| settings.price_note.clone()),
            canonical: if adrift { None } else { about.canonical.or_else(|| self.absolute(at)) },
            picture: about.picture,
            kind: about.kind,
            feed: self.site.has_feed.then(|| href("feed.xml")),
            data: about.data,
            accent: about.accent,
            body: about.body,
        }
    }

    /// The few links at the head of every page.
    fn nav(&self, at: &str, href: &dyn Fn(&str) -> String) -> Vec<Link> {
        let link = |to: &str, label: String| {
            let to = self.inside(to);
            Link { label, here: to == at, href: href(&to) }
        };
        let mut nav = vec![link("index.html", self.words().text("nav-all"))];
        let blank = self.site.lists.iter().find(|list| list.choice == Choice::Form("blank".to_owned()));
        nav.extend(blank.map(|list| link(&list.address(1), self.words().text("list-blank"))));
        nav.push(link(&page_address("difficulty"), self.words().text("nav-difficulty")));
        nav.push(link(&page_address("care"), self.words().text("nav-care")));
        nav
    }

    /// Every page of words, at the foot.
    fn foot_links(&self, at: &str, href: &dyn Fn(&str) -> String) -> Vec<Link> {
        let link = |name: &str, label: String| {
            let to = self.inside(&page_address(name));
            Link { label, here: to == at, href: href(&to) }
        };
        let own = |name: &str| self.own_pages.iter().find(|own| own.name == name).map(|own| own.title.clone());
        let fixed = OWN_PAGES
            .iter()
            .map(|name| link(name, own(name).unwrap_or_else(|| self.words().text(&format!("{name}-title")))));
        let others = self.own_pages.iter().filter(|own| !OWN_PAGES.contains(&own.name.as_str()));
        fixed.chain(others.map(|own| link(&own.name, own.title.clone()))).collect()
    }

    /// The same page in every language that has it, this one included; nothing in a shop of one language.
    fn languages(&self, address: &str, at: &str) -> Vec<Other> {
        let all = &self.site.settings.languages;
        if all.len() < 2 {
            return Vec::new();
        }
        let other = |(index, language): (usize, &String)| {
            let to = if index == 0 { address.to_owned() } else { format!("{language}/{address}") };
            Other {
                language: language.clone(),
                name: language_name(language),
                href: relative(at, &to),
                address: self.absolute(&to),
                here: language == self.language(),
            }
        };
        all.iter().enumerate().filter(|(_, language)| self.site.has(address, language)).map(other).collect()
    }
}
