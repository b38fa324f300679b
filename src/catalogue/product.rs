//! What a product page shows: figures, offers with their postage, guides, warnings, the board beside things of standard size.
//!
//! In: a [`Card`], a [`Voice`] and the address of the page. Out: [`Product`], every number already worded, every address already relative.
//! Never here: another figure than the card's. Rule: handbook, "The published folder".

use serde::Serialize;

use super::address::{encoded, relative};
use super::views::{Entry, Link, Picture, Ruler, accent_class, main_of};
use super::voice::Voice;
use super::{Card, CardOffer, PictureSet, markdown};
use crate::shop::{Market, Units};
use crate::wording::amounts::{self, Amount};

/// One way to buy.
#[derive(Clone, Debug, Serialize)]
pub struct Offer {
    pub form: String,
    pub label: String,
    pub code: String,
    pub price: String,
    /// What comes, where it is a blank.
    pub note: Option<String>,
    pub contains: Vec<String>,
    pub state: String,
    pub sold_out: bool,
    pub lead_time: Option<String>,
    pub packed: Amount,
    pub packed_size: Amount,
    pub postage: Vec<Postage>,
    pub order: Option<String>,
}

/// Postage to one zone.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Postage {
    pub zone: String,
    pub service: Option<String>,
    pub price: Option<String>,
}

/// One painting guide to take away.
#[derive(Clone, Debug, Serialize)]
pub struct GuideLink {
    pub href: String,
    pub paper: String,
    pub pages: usize,
    pub size: String,
}

/// One paint of the plan.
#[derive(Clone, Debug, Serialize)]
pub struct Paint {
    pub number: u32,
    pub name: String,
    pub colour: String,
}

/// A statutory warning in its published lines.
#[derive(Clone, Debug, Serialize)]
pub struct Warning {
    pub lines: Vec<String>,
    /// Stands under a triangle with an exclamation mark.
    pub symbol: bool,
}

/// The board beside things of standard size, in mm.
#[derive(Clone, Debug, Serialize)]
pub struct Scale {
    pub width: String,
    pub height: String,
    pub board: String,
    pub sheet: [String; 4],
    pub card: [String; 4],
    pub sheet_name: String,
}

/// A product page.
#[derive(Clone, Debug, Serialize)]
pub struct Product {
    pub title: String,
    pub summary: Option<String>,
    pub edition: Option<String>,
    pub main: Option<Picture>,
    pub pictures: Vec<Picture>,
    /// Pictures behind the spoiler cover.
    pub covered: Vec<Picture>,
    pub count: usize,
    pub edge: usize,
    pub novelty: usize,
    pub size: Amount,
    pub thickness: Amount,
    pub ruler: Ruler,
    pub score: String,
    pub weight: Amount,
    pub wood: String,
    pub cells: Option<usize>,
    pub paints: Vec<Paint>,
    pub offers: Vec<Offer>,
    /// The same for every offer, if it is.
    pub postage: Option<Vec<Postage>>,
    pub guides: Vec<GuideLink>,
    pub story: Option<String>,
    pub warnings: Vec<Warning>,
    pub for_children: bool,
    pub subjects: Vec<Link>,
    pub scale: Option<Scale>,
    pub near: Vec<Entry>,
    pub difficulty_href: String,
    pub cautions_href: String,
    pub accent: String,
}

impl Voice<'_> {
    /// A card as its own page.
    pub fn product(&self, at: usize, from: &str) -> Option<Product> {
        let card = self.cards().get(at)?;
        let words = card.words(self.language());
        let units = self.units();
        let (covered, open): (Vec<&PictureSet>, Vec<&PictureSet>) =
            card.pictures.iter().partition(|set| set.view.points_out() && card.novelty_shapes > 0);
        let main = main_of(&card.pictures);
        let rest = open.into_iter().filter(|set| !main.is_some_and(|main| std::ptr::eq(main, *set)));
        let offers: Vec<Offer> = card.offers.iter().enumerate().map(|(i, offer)| self.offer(card, i, offer)).collect();
        let first_postage = offers.first().map(|offer| offer.postage.clone());
        let postage = first_postage.filter(|first| offers.iter().all(|offer| offer.postage == *first));
        let for_children = card.made_for.as_deref() == Some("children");
        Some(Product {
            title: words.title.clone(),
            summary: words.summary.clone(),
            edition: words.edition.clone(),
            main: main.map(|set| self.picture(card, set, from)),
            pictures: rest.map(|set| self.picture(card, set, from)).collect(),
            covered: covered.into_iter().map(|set| self.picture(card, set, from)).collect(),
            count: card.count,
            edge: card.edge,
            novelty: card.novelty_shapes,
            size: amounts::lengths(units, self.tongue(), &[card.width_mm, card.height_mm]),
            thickness: amounts::lengths(units, self.tongue(), &[card.thickness_mm]),
            ruler: self.ruler(card),
            score: format!("{:.0}", card.difficulty),
            weight: amounts::mass(units, self.tongue(), card.board_g),
            wood: self.wood(card).to_owned(),
            cells: card.cells,
            paints: card
                .paints
                .iter()
                .zip(&words.paints)
                .map(|(paint, name)| Paint {
                    number: paint.number,
                    name: name.clone(),
                    colour: paint.colour.to_string(),
                })
                .collect(),
            offers,
            postage,
            guides: self.guides(card, from),
            story: words.story.as_deref().map(|story| self.markdown(story, from)),
            warnings: if for_children { self.warnings() } else { Vec::new() },
            for_children,
            subjects: self.subject_links(&card.subjects, from),
            scale: scale(card, units),
            near: self.near(at).iter().filter_map(|other| Some(self.entry(self.cards().get(*other)?, from))).collect(),
            difficulty_href: relative(from, &self.inside("pages/difficulty/index.html")),
            cautions_href: relative(from, &self.inside("pages/cautions/index.html")),
            accent: accent_class(card),
        })
    }

    pub(super) fn offer(&self, card: &Card, index: usize, offer: &CardOffer) -> Offer {
        let words = card.words(self.language());
        let state = match offer.stock {
            None => self.words().text("stock-made-to-order"),
            Some(0) => self.words().text("stock-sold-out"),
            Some(ready) => self.words().with("stock-ready", &[("count", ready.into())]),
        };
        let blank = offer.form == "blank";
        let note = blank.then(|| {
            let board = if offer.scored { "blank-scored" } else { "blank-cut" };
            let primed = if offer.primed { "blank-primed" } else { "blank-bare" };
            format!("{} {}", self.words().text(board), self.words().text(primed))
        });
        Offer {
            form: offer.form.clone(),
            label: self.words().text(&format!("form-{}", offer.form)),
            code: offer.code.clone(),
            price: self.price(offer.price_minor),
            note,
            contains: if blank { words.contains.clone() } else { Vec::new() },
            state,
            sold_out: !offer.to_be_had(),
            lead_time: words.lead_times.get(index).cloned().flatten(),
            packed: amounts::mass(self.units(), self.tongue(), offer.packed_g),
            packed_size: amounts::lengths(self.units(), self.tongue(), &offer.packed_mm),
            postage: offer
                .postage
                .iter()
                .map(|row| Postage {
                    zone: row.zone.clone(),
                    service: row.service.as_ref().map(|(name, _)| name.clone()),
                    price: row.service.as_ref().map(|(_, price)| self.price(*price)),
                })
                .collect(),
            order: offer.to_be_had().then(|| self.order(offer, &words.title)).filter(|to| markdown::allowed(to)),
        }
    }

    /// The record's own way to order, or the shop's; a letter to the shop's own address names the puzzle in its subject.
    pub fn order(&self, offer: &CardOffer, title: &str) -> String {
        if let Some(own) = &offer.order {
            return own.clone();
        }
        let shop = &self.settings().order;
        if shop.starts_with("mailto:") && !shop.contains('?') {
            return format!("{shop}?subject={}", encoded(&format!("{title} ({})", offer.code)));
        }
        shop.clone()
    }

    fn guides(&self, card: &Card, from: &str) -> Vec<GuideLink> {
        let own: Vec<_> = card.guides.iter().filter(|guide| guide.language == self.language()).collect();
        let all = if own.is_empty() { card.guides.iter().collect() } else { own };
        all.into_iter()
            .map(|guide| GuideLink {
                href: relative(from, &guide.address),
                paper: self.words().text(&format!("guide-{}", guide.paper.name())),
                pages: guide.pages,
                size: amounts::file_size(self.tongue(), guide.bytes),
            })
            .collect()
    }

    /// The statutory warnings of the shop's markets, in their published wording.
    fn warnings(&self) -> Vec<Warning> {
        let mut out = Vec::new();
        let markets = &self.settings().markets;
        if markets.contains(&Market::Us) {
            // 16 CFR 1500.19(b)(1), (d): the lines together, under the safety-alert symbol.
            let lines = ["warning-us-1", "warning-us-2", "warning-us-3"].map(|key| self.words().text(key));
            out.push(Warning { lines: lines.to_vec(), symbol: true });
        }
        if markets.contains(&Market::Eu) || markets.contains(&Market::Uk) {
            // Directive 2009/48/EC, Annex V, part B, point 1; the same words in the United Kingdom.
            out.push(Warning { lines: vec![self.words().text("warning-eu")], symbol: false });
        }
        out
    }
}

/// ISO 216: A4. ANSI/ASME Y14.1: size A. ISO/IEC 7810: ID-1.
const A4_MM: (f64, f64) = (210.0, 297.0);
const LETTER_MM: (f64, f64) = (215.9, 279.4);
const CARD_MM: (f64, f64) = (85.6, 53.98);

/// The board, a sheet and a card on one line, as seen from the front.
fn scale(card: &Card, units: Units) -> Option<Scale> {
    let ring = |ring: &Vec<[f64; 2]>| -> String {
        let points: Vec<String> = ring.iter().map(|[x, y]| format!("{x} {y}")).collect();
        format!("M{}Z", points.join("L"))
    };
    let height_of = |points: &[Vec<[f64; 2]>]| points.iter().flatten().map(|p| p[1]).fold(0.0, f64::max);
    let width_of = |points: &[Vec<[f64; 2]>]| points.iter().flatten().map(|p| p[0]).fold(0.0, f64::max);
    if card.outline_mm.is_empty() {
        return None;
    }
    let (board_width, board_height) = (width_of(&card.outline_mm), height_of(&card.outline_mm));
    let (sheet, sheet_name) = if units == Units::Us { (LETTER_MM, "paper-letter") } else { (A4_MM, "paper-a4") };
    let gap = 24.0;
    let height = board_height.max(sheet.1);
    let number = |mm: f64| format!("{:.1}", mm);
    let shift = height - board_height;
    let moved: Vec<Vec<[f64; 2]>> = card
        .outline_mm
        .iter()
        .map(|ring| ring.iter().map(|[x, y]| [*x, libm::round((y + shift) * 10.0) / 10.0]).collect())
        .collect();
    let (sheet_x, card_x) = (board_width + gap, board_width + sheet.0 + 2.0 * gap);
    Some(Scale {
        width: number(card_x + CARD_MM.0 + 2.0),
        height: number(height + 2.0),
        board: moved.iter().map(ring).collect(),
        sheet: [number(sheet_x), number(height - sheet.1), number(sheet.0), number(sheet.1)],
        card: [number(card_x), number(height - CARD_MM.1), number(CARD_MM.0), number(CARD_MM.1)],
        sheet_name: sheet_name.to_owned(),
    })
}
