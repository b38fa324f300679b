//! The feed and the sitemap of a shop that has a web address.
//!
//! In: cards and addresses. Out: feed.xml (Atom, RFC 4287) and sitemap.xml (sitemaps.org protocol 0.9).
//! Dates are the records' own; a design without one is not in the feed. Never here: a clock.
//! Rule: handbook, "The published folder".

use super::address::path;
use super::views::product_address;
use super::voice::Voice;
use super::{Card, Page};
use crate::shop::Settings;

/// Newest entries that the feed holds.
const ENTRIES: usize = 50;

/// feed.xml; `None` without a web address or a date.
pub fn atom(voice: &Voice<'_>) -> Option<Page> {
    let settings = voice.settings();
    let web = settings.web_address.as_ref()?;
    let dated: Vec<(&String, &Card)> =
        voice.cards().iter().filter_map(|card| Some((card.added.as_ref()?, card))).collect();
    let (newest, _) = dated.iter().max_by_key(|(added, _)| *added)?;
    let author = settings.maker.as_ref().and_then(|maker| maker.name.as_ref()).unwrap_or(&settings.name);
    let mut out = String::from("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n");
    out.push_str(&format!("<feed xmlns=\"http://www.w3.org/2005/Atom\" xml:lang=\"{}\">\n", text(voice.language())));
    out.push_str(&format!("<id>{0}/</id>\n<title>{1}</title>\n", text(web), text(&settings.name)));
    if let Some(tagline) = &settings.tagline {
        out.push_str(&format!("<subtitle>{}</subtitle>\n", text(tagline)));
    }
    out.push_str(&format!("<updated>{}</updated>\n", moment(newest)));
    out.push_str(&format!("<author><name>{}</name></author>\n", text(author)));
    out.push_str(&format!("<link rel=\"self\" type=\"application/atom+xml\" href=\"{}/feed.xml\"/>\n", text(web)));
    out.push_str(&format!("<link rel=\"alternate\" type=\"text/html\" href=\"{}/\"/>\n", text(web)));
    for (added, card) in dated.into_iter().take(ENTRIES) {
        let words = card.words(voice.language());
        let to = voice.absolute(&product_address(&card.slug)).unwrap_or_default();
        out.push_str(&format!("<entry>\n<id>{0}</id>\n<title>{1}</title>\n", text(&to), text(&words.title)));
        out.push_str(&format!("<updated>{0}</updated>\n<published>{0}</published>\n", moment(added)));
        out.push_str(&format!("<link rel=\"alternate\" type=\"text/html\" href=\"{}\"/>\n", text(&to)));
        out.push_str(&format!("<summary>{}</summary>\n", text(words.summary.as_deref().unwrap_or(&words.title))));
        for subject in &card.subjects {
            out.push_str(&format!("<category term=\"{}\"/>\n", text(subject)));
        }
        out.push_str("</entry>\n");
    }
    out.push_str("</feed>\n");
    Some(Page { address: "feed.xml".to_owned(), bytes: out.into_bytes() })
}

/// sitemap.xml with these pages; `None` without a web address.
pub fn sitemap(settings: &Settings, addresses: &[String]) -> Option<Page> {
    let web = settings.web_address.as_ref()?;
    let mut out = String::from("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n");
    out.push_str("<urlset xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\">\n");
    for address in addresses {
        let address = address.strip_suffix("index.html").unwrap_or(address);
        out.push_str(&format!("<url><loc>{}/{}</loc></url>\n", text(web), text(&path(address))));
    }
    out.push_str("</urlset>\n");
    Some(Page { address: "sitemap.xml".to_owned(), bytes: out.into_bytes() })
}

/// A date of a record as RFC 3339 wants it.
fn moment(date: &str) -> String {
    format!("{}T00:00:00Z", text(date))
}

/// Text for XML content and attributes.
fn text(raw: &str) -> String {
    let mut out = String::with_capacity(raw.len());
    for c in super::card::clean(raw).chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&apos;"),
            c => out.push(c),
        }
    }
    out
}
