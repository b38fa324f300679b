//! What pages show of a design, as plain values for a template: every number already worded, every address already relative.
//!
//! In: a [`Card`], a [`Voice`] and the address of the page. Out: serializable values: [`Entry`] for lists, [`Picture`], [`Ruler`], [`Link`].
//! Never here: markup, another figure than the card's. Rule: handbook, "The published folder".

use serde::Serialize;

use super::address::relative;
use super::theme::{placeholder_class, shape_class};
use super::voice::Voice;
use super::{Card, CardOffer, Encoding, PictureSet, View, contrast};
use crate::wording::Value;
use crate::wording::amounts;

/// A link with its words.
#[derive(Clone, Debug, Serialize)]
pub struct Link {
    pub label: String,
    pub href: String,
    /// Whether it leads to the page it stands on.
    pub here: bool,
}

/// A picture in all its sizes.
#[derive(Clone, Debug, Serialize)]
pub struct Picture {
    pub alt: String,
    pub caption: String,
    pub width: u32,
    pub height: u32,
    pub src: String,
    pub jpeg: String,
    pub webp: String,
    /// Class with the placeholder's colour.
    pub ground: String,
    /// The largest size, to look into.
    pub large: String,
    pub view: View,
    /// Class with the picture's shape.
    pub shape: String,
    /// Taller than wide.
    pub tall: bool,
}

/// The difficulty as a mark on a ruler.
#[derive(Clone, Debug, Serialize)]
pub struct Ruler {
    /// 0 to 100, to a tenth.
    pub at: String,
    /// Key of the word: gentle, steady, testing or fiendish.
    pub word: String,
    /// The word.
    pub label: String,
}

/// One design on a list.
#[derive(Clone, Debug, Serialize)]
pub struct Entry {
    pub slug: String,
    pub href: String,
    pub title: String,
    pub summary: Option<String>,
    pub picture: Option<Picture>,
    /// A second picture, from close by: only of the first design of a list.
    pub detail: Option<Picture>,
    /// How many, in words: `84 pieces`.
    pub pieces: String,
    /// Number and unit: `230 × 200 mm`.
    pub size: String,
    pub ruler: Ruler,
    pub forms: String,
    pub price: Option<String>,
    /// Nothing of it can be ordered now.
    pub sold_out: bool,
    /// What a buyer should know of its stock before reading on: made to order, where nothing lies ready.
    pub state: Option<String>,
    pub accent: String,
}

impl Voice<'_> {
    /// A card as it stands on a list.
    pub fn entry(&self, card: &Card, from: &str) -> Entry {
        let words = card.words(self.language());
        let cheapest = card.offers.iter().filter(|o| o.to_be_had()).min_by_key(|o| o.price_minor);
        let cheapest = cheapest.or_else(|| card.offers.iter().min_by_key(|o| o.price_minor));
        let several = card.offers.iter().any(|o| Some(o.price_minor) != cheapest.map(|c| c.price_minor));
        let price = cheapest.map(|offer| {
            let price = self.price(offer.price_minor);
            if several { self.words().with("price-from", &[("price", price.into())]) } else { price }
        });
        let mut forms: Vec<&str> = Vec::new();
        for offer in &card.offers {
            if !forms.contains(&offer.form.as_str()) {
                forms.push(&offer.form);
            }
        }
        let mut to_be_had = card.offers.iter().filter(|offer| offer.to_be_had()).peekable();
        let to_order = to_be_had.peek().is_some() && to_be_had.all(|offer| offer.stock.is_none());
        let forms: Vec<String> = forms.iter().map(|form| self.words().text(&format!("form-{form}-short"))).collect();
        Entry {
            slug: card.slug.clone(),
            href: relative(from, &self.inside(&product_address(&card.slug))),
            title: words.title.clone(),
            summary: words.summary.clone(),
            picture: main_of(&card.pictures).map(|set| self.picture(card, set, from)),
            detail: None,
            pieces: self.words().with("count-pieces", &[("count", card.count.into())]),
            size: amounts::lengths(self.units(), self.tongue(), &[card.width_mm, card.height_mm]).short(),
            ruler: self.ruler(card),
            forms: forms.join(" · "),
            price,
            sold_out: !card.offers.is_empty() && !card.offers.iter().any(CardOffer::to_be_had),
            state: to_order.then(|| self.words().text("stock-made-to-order")),
            accent: accent_class(card),
        }
    }

    /// A card's difficulty.
    pub fn ruler(&self, card: &Card) -> Ruler {
        Ruler {
            at: format!("{:.1}", card.difficulty.clamp(0.0, 100.0)),
            word: card.difficulty_word.clone(),
            label: self.words().text(&format!("difficulty-{}", card.difficulty_word)),
        }
    }

    /// A picture with its words.
    pub fn picture(&self, card: &Card, set: &PictureSet, from: &str) -> Picture {
        let title = card.words(self.language()).title.as_str();
        let view = serde_json::to_value(set.view).ok().and_then(|v| v.as_str().map(str::to_owned)).unwrap_or_default();
        let figures = [
            ("title", Value::from(title)),
            ("count", card.count.into()),
            ("wood", self.wood(card).into()),
            ("size", amounts::lengths(self.units(), self.tongue(), &[card.width_mm, card.height_mm]).short().into()),
            ("paints", card.paints.len().into()),
        ];
        let alt = set.alt.clone().unwrap_or_else(|| self.words().with(&format!("alt-{view}"), &figures));
        let jpeg = set.of(Encoding::Jpeg);
        let webp = set.of(Encoding::Webp);
        let srcset = |sources: &[&super::Source]| -> String {
            let one = |source: &&super::Source| format!("{} {}w", relative(from, &source.address), source.width);
            sources.iter().map(one).collect::<Vec<_>>().join(", ")
        };
        let plain = if jpeg.is_empty() { &webp } else { &jpeg };
        // The size nearest to a column of text on a dense screen, for browsers that choose none themselves.
        let src = plain.iter().find(|source| source.width >= 800).or(plain.last());
        let shape = set.largest();
        Picture {
            alt,
            caption: self.words().text(&format!("view-{view}")),
            width: shape.map_or(0, |s| s.width),
            height: shape.map_or(0, |s| s.height),
            src: src.map(|s| relative(from, &s.address)).unwrap_or_default(),
            jpeg: if jpeg.len() > 1 { srcset(&jpeg) } else { String::new() },
            webp: if jpeg.is_empty() && webp.len() < 2 { String::new() } else { srcset(&webp) },
            ground: placeholder_class(set.placeholder),
            large: shape.map(|s| relative(from, &s.address)).unwrap_or_default(),
            view: set.view,
            shape: shape.map(|s| shape_class(s.width, s.height)).unwrap_or_default(),
            tall: shape.is_some_and(|s| s.height > s.width),
        }
    }
}

/// `designs/<slug>/index.html`.
pub fn product_address(slug: &str) -> String {
    format!("designs/{slug}/index.html")
}

/// The picture of the whole that stands for the design: the first photograph, else the painted board, else what there is.
pub fn main_of(pictures: &[PictureSet]) -> Option<&PictureSet> {
    pictures
        .iter()
        .filter(|set| !set.view.points_out() && set.view != View::CloseUp)
        .min_by_key(|set| set.view)
        .or(pictures.first())
}

pub fn accent_class(card: &Card) -> String {
    format!("a{}", contrast::nearest_accent(card.accent))
}
