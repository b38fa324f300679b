//! The printed catalogue: cover, two designs to a page, indexes by difficulty and by subject, prices, how to order.
//! Of many designs the newest are shown, and the price list has them all.
//!
//! In: [`ShopOrder`] and what is said of each design ([`Listed`]): nothing that the published pages do not say as well. Out: PDF bytes.
//! Rule: handbook, "The published folder" and "The sheets".

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::frame::{Files, Framed, ShopOrder, laid_out};
use super::glyphs::one_line;
use super::sizes::{number_text, price_text, size_text};
use super::{Sheet, SheetError};
use crate::shop::Market;
use crate::units::Money;
use crate::wording::Words;

/// So many designs are shown, the first of those given: a hundred pages, which a maker can still print and staple in parts, and
/// which can be laid out in 230 MB.
pub const SHOWN_MOST: usize = 200;

/// One design as the catalogue shows it.
#[derive(Clone, Debug)]
pub struct Listed {
    /// The design's folder.
    pub slug: String,
    /// Date of the record.
    pub added: Option<String>,
    /// Title in the catalogue's language.
    pub title: String,
    /// Summary in the catalogue's language.
    pub summary: Option<String>,
    /// Edition as written.
    pub edition: Option<String>,
    /// Subjects as written.
    pub subjects: Vec<String>,
    /// How many pieces.
    pub pieces: usize,
    /// Width, height, thickness, mm.
    pub size_mm: [f64; 3],
    /// Name of the wood.
    pub wood: String,
    /// 0 to 100.
    pub difficulty: f64,
    /// `gentle`, `steady`, `testing` or `fiendish`.
    pub difficulty_word: String,
    /// For children: the statutory warnings of the markets stand beside it.
    pub for_children: bool,
    /// In the record's order.
    pub offers: Vec<ListedOffer>,
    /// The main picture as an encoded JPEG.
    pub picture_jpeg: Option<Vec<u8>>,
}

/// One offer as the catalogue shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct ListedOffer {
    /// `painted`, `plain` or `blank`.
    pub form: String,
    /// Stock code.
    pub code: String,
    /// In the shop's currency.
    pub price: Money,
    /// 0 is sold out, `None` made to order.
    pub stock: Option<u32>,
}

/// Makes the printed catalogue, designs in the order given. Of more than [`SHOWN_MOST`] the first are shown and indexed; the price
/// list then is a closer one, which says of every design what else a buyer must know.
///
/// # Errors
/// A character that no font has, a template that cannot be laid out.
pub fn catalogue_sheet(order: &ShopOrder, designs: &[Listed]) -> Result<Sheet, SheetError> {
    let words = Words::for_language(order.language);
    let settings = order.settings;
    let own = settings.words.get(order.language);
    let shown = &designs[..designs.len().min(SHOWN_MOST)];
    let mut files = Files::new();
    for listed in shown {
        if let Some(jpeg) = &listed.picture_jpeg {
            files.insert(picture_path(listed), jpeg.clone());
        }
    }
    let text = |own: Option<&String>, first: Option<&String>| own.or(first).map(|t| one_line(t));
    let data = json!({
        "tagline": text(own.and_then(|w| w.tagline.as_ref()), settings.tagline.as_ref()),
        "about": text(own.and_then(|w| w.about.as_ref()), settings.about.as_ref()),
        "price_note": text(own.and_then(|w| w.price_note.as_ref()), settings.price_note.as_ref()),
        "maker": settings.maker.as_ref().map(|m| super::label::maker(&words, m)).unwrap_or_default(),
        "order": order_line(&words, &settings.order),
        // Other addresses are there to be read: what is not ASCII would have to be encoded first.
        "order_link": settings.order.is_ascii().then_some(&settings.order),
        "web": settings.web_address.as_deref().map(one_line),
        "cover": shown.iter().find(|d| d.picture_jpeg.is_some()).map(|d| json!({ "file": picture_path(d), "alt": alt(&words, d) })),
        "designs": shown.iter().map(|d| design(order, &words, d)).collect::<Vec<_>>(),
        "newest": newest(&words, shown.len(), designs.len()),
        "by_difficulty": by_difficulty(&words, shown),
        "by_subject": by_subject(shown),
        "prices": designs.iter().map(|d| prices(order, &words, d)).collect::<Vec<_>>(),
        "small": words.text("small-pieces"),
    });
    let framed = Framed {
        name: "catalogue",
        called: words.text("sheet-catalogue"),
        title: one_line(&settings.name),
        added: designs.iter().filter_map(|d| d.added.as_deref()).max(),
        ident: format!("{} catalogue {:?} {}", one_line(&settings.name), order.paper, order.language),
        private: None,
    };
    laid_out(order, &framed, data, files)
}

fn picture_path(listed: &Listed) -> String {
    format!("/pictures/{}.jpg", listed.slug)
}

fn alt(words: &Words, listed: &Listed) -> String {
    words.with("sheet-cover-alt", &[("title", listed.title.as_str().into())])
}

/// How to order, as an address that can be typed: without the scheme of mail and telephone.
fn order_line(words: &Words, order: &str) -> String {
    let plain = order.strip_prefix("mailto:").or_else(|| order.strip_prefix("tel:")).unwrap_or(order);
    let plain = plain.split('?').next().filter(|_| !order.starts_with("http")).unwrap_or(plain);
    words.with("sheet-catalogue-order", &[("address", one_line(plain).into())])
}

/// Where not all designs are shown: says so, and where the others are.
fn newest(words: &Words, shown: usize, count: usize) -> Option<String> {
    (shown < count).then(|| words.with("sheet-catalogue-newest", &[("shown", shown.into()), ("count", count.into())]))
}

fn offers(order: &ShopOrder, words: &Words, d: &Listed, length: &str) -> Vec<Value> {
    let offer = |o: &ListedOffer| {
        json!({
            "form": words.text(&format!("form-{}{length}", o.form)),
            "code": one_line(&o.code),
            "price": price_text(words, o.price, order.settings),
            "stock": stock(words, o.stock),
        })
    };
    d.offers.iter().map(offer).collect()
}

/// The statutory warnings of a puzzle for children, as their markets word them: lines of each.
fn warnings(order: &ShopOrder, words: &Words, d: &Listed) -> Vec<Vec<String>> {
    let us = order.settings.markets.contains(&Market::Us);
    let eu = order.settings.markets.iter().any(|m| matches!(m, Market::Eu | Market::Uk));
    let mut warnings = Vec::new();
    if d.for_children && us {
        warnings.push(["warning-us-1", "warning-us-2", "warning-us-3"].map(|key| words.text(key)).to_vec());
    }
    if d.for_children && eu {
        warnings.push(vec![words.text("warning-eu")]);
    }
    warnings
}

/// Difficulty in a word and as a number.
fn difficulty(words: &Words, d: &Listed) -> (String, String) {
    (words.text(&format!("difficulty-{}", d.difficulty_word)), number_text(words, d.difficulty, 0))
}

fn design(order: &ShopOrder, words: &Words, d: &Listed) -> Value {
    let (word, score) = difficulty(words, d);
    let warnings = warnings(order, words, d);
    json!({
        "slug": d.slug,
        "picture": d.picture_jpeg.is_some().then(|| picture_path(d)),
        "alt": alt(words, d),
        "title": d.title,
        "summary": d.summary,
        "edition": d.edition,
        "pieces": words.with("count-pieces", &[("count", d.pieces.into())]),
        "size": size_text(words, d.size_mm, order.settings.units),
        "wood": d.wood,
        "difficulty": {
            "at": d.difficulty / 100.0,
            "word": word,
            "alt": words.with("sheet-label-ruler-alt", &[("word", word.as_str().into()), ("score", score.into())]),
        },
        "offers": offers(order, words, d, ""),
        "duty": (!warnings.is_empty()).then(|| words.text("warning-duty")),
        "warnings": warnings,
    })
}

fn stock(words: &Words, stock: Option<u32>) -> String {
    match stock {
        None => words.text("stock-made-to-order"),
        Some(0) => words.text("stock-sold-out"),
        // A printed number would be wrong tomorrow.
        Some(_) => words.text("sheet-catalogue-ready"),
    }
}

fn prices(order: &ShopOrder, words: &Words, d: &Listed) -> Value {
    let (word, score) = difficulty(words, d);
    json!({
        "title": d.title,
        "facts": format!("{} · {word}, {score}", words.with("count-pieces", &[("count", d.pieces.into())])),
        "offers": offers(order, words, d, "-short"),
        "warnings": warnings(order, words, d),
    })
}

/// Titles with the slug that the template links to, from the gentlest up.
fn by_difficulty(words: &Words, designs: &[Listed]) -> Vec<Value> {
    let mut all: Vec<&Listed> = designs.iter().collect();
    all.sort_by(|a, b| a.difficulty.total_cmp(&b.difficulty).then_with(|| a.slug.cmp(&b.slug)));
    let entry = |d: &&Listed| {
        let (word, score) = difficulty(words, d);
        json!({ "title": d.title, "slug": d.slug, "beside": format!("{word}, {score}") })
    };
    all.iter().map(entry).collect()
}

fn by_subject(designs: &[Listed]) -> Vec<Value> {
    let mut subjects: BTreeMap<String, Vec<&Listed>> = BTreeMap::new();
    for d in designs {
        for subject in &d.subjects {
            subjects.entry(one_line(subject)).or_default().push(d);
        }
    }
    let entry = |d: &&Listed| json!({ "title": d.title, "slug": d.slug });
    subjects
        .iter()
        .map(|(subject, all)| json!({ "subject": subject, "designs": all.iter().map(entry).collect::<Vec<_>>() }))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_order_line_is_an_address_to_type() {
        let words = Words::for_language("en");
        for (order, shown) in [
            ("mailto:bench@example.org?subject=Order", "bench@example.org"),
            ("tel:+441234", "+441234"),
            ("https://example.org/order?x=1", "https://example.org/order?x=1"),
        ] {
            assert!(order_line(&words, order).contains(shown), "{order}");
            assert!(!order_line(&words, order).contains("mailto"));
        }
    }
}
