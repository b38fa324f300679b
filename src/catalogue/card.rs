//! The card of a design: everything small that any page, list or data file tells of it, and nothing private.
//!
//! In: settings, a design, what was measured, what was made. Out: [`Card`], which can be kept as JSON and read again.
//! Never here: bytes of pictures, cut lines, drafts, the workshop, prices of packs. Rule: handbook, "Privacy".

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::outline::simple;
use super::{Guide, PictureSet, contrast};
use crate::figures::{Figures, Measured, Word};
use crate::shape::{Face, Rgb};
use crate::shop::{Audience, BlankBoard, Design, Form, Settings};

/// One published design, as far as its pages show it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Card {
    /// The design's folder.
    pub slug: String,
    /// `YYYY-MM-DD`.
    pub added: Option<String>,
    /// As written.
    pub subjects: Vec<String>,
    /// `adults` or `children`.
    pub made_for: Option<String>,
    /// For each language of the shop, complete: where the language lacks a word, the first stands in.
    pub words: BTreeMap<String, CardWords>,
    /// All pieces.
    pub count: usize,
    /// On the outer ring.
    pub edge: usize,
    /// The rest.
    pub interior: usize,
    /// Closed novelty strokes.
    pub novelty_shapes: usize,
    /// Pieces that fit the small-parts cylinder.
    pub small_parts: usize,
    /// After the kerf.
    pub width_mm: f64,
    /// After the kerf.
    pub height_mm: f64,
    /// From the record.
    pub thickness_mm: f64,
    /// 0 to 100.
    pub difficulty: f64,
    /// gentle, steady, testing or fiendish.
    pub difficulty_word: String,
    /// All pieces.
    pub board_g: f64,
    /// The wood's id.
    pub wood: String,
    /// The wood's name.
    pub wood_name: String,
    /// Paint cells, where there is a plan.
    pub cells: Option<usize>,
    /// The plan's paints, by number.
    pub paints: Vec<CardPaint>,
    /// In the record's order.
    pub offers: Vec<CardOffer>,
    /// In the order of the product page.
    pub pictures: Vec<PictureSet>,
    /// Painting guides.
    pub guides: Vec<Guide>,
    /// The paint that gives the page its accent; the wood's dark tone without a plan.
    #[serde(with = "colour")]
    pub accent: Rgb,
    /// Outer rings and openings of the boards, simplified to within 0.3 mm, mm from the top left of their box. Always public.
    pub outline_mm: Vec<Vec<[f64; 2]>>,
}

/// A design's words in one language.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct CardWords {
    /// `title`.
    pub title: String,
    /// `summary`.
    pub summary: Option<String>,
    /// `edition`.
    pub edition: Option<String>,
    /// `story.md`, Markdown.
    pub story: Option<String>,
    /// Lead time of each offer.
    pub lead_times: Vec<Option<String>>,
    /// What the blank kit contains.
    pub contains: Vec<String>,
    /// Names of the paints, in the order of [`Card::paints`].
    pub paints: Vec<String>,
}

/// One paint of the plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CardPaint {
    /// From 1.
    pub number: u32,
    /// The fill.
    #[serde(with = "colour")]
    pub colour: Rgb,
    /// How many cells.
    pub cells: usize,
}

/// One way to buy it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CardOffer {
    /// `painted`, `plain` or `blank`.
    pub form: String,
    /// Stock code.
    pub code: String,
    /// In the smallest unit of the shop's currency.
    pub price_minor: i64,
    /// Decimals of that currency.
    pub price_decimals: u32,
    /// How many lie ready; `None` made to order.
    pub stock: Option<u32>,
    /// The record's own way to order.
    pub order: Option<String>,
    /// Packed, g.
    pub packed_g: f64,
    /// Packed, longest side first, mm.
    pub packed_mm: [f64; 3],
    /// The cheapest service of each zone.
    pub postage: Vec<CardPostage>,
    /// Blank only: comes as one scored board.
    pub scored: bool,
    /// Blank only: comes primed.
    pub primed: bool,
}

/// Postage of an offer to one zone.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CardPostage {
    /// The shop's own zone.
    pub zone: String,
    /// The cheapest service that takes the offer and its price in the smallest unit; `None` where none does.
    pub service: Option<(String, i64)>,
}

impl CardOffer {
    /// Its price.
    pub fn price(&self) -> crate::units::Money {
        crate::units::Money { minor: self.price_minor, decimals: self.price_decimals }
    }

    /// Whether it can be ordered now.
    pub fn to_be_had(&self) -> bool {
        self.stock != Some(0)
    }
}

impl Card {
    /// The card of a measured design with its pictures and guides.
    pub fn new(
        settings: &Settings,
        design: &Design,
        measured: &Measured,
        pictures: Vec<PictureSet>,
        guides: Vec<Guide>,
    ) -> Card {
        let boards: Vec<&Face> = measured.board.parts.iter().map(|part| &part.outline).collect();
        Card::from_figures(settings, design, &measured.figures, &boards, pictures, guides)
    }

    /// The same from the figures and the outlines of the boards alone.
    pub fn from_figures(
        settings: &Settings,
        design: &Design,
        figures: &Figures,
        boards: &[&Face],
        pictures: Vec<PictureSet>,
        guides: Vec<Guide>,
    ) -> Card {
        let paint_figures = figures.paint.as_ref();
        let cells_of = |number: u32| {
            paint_figures.and_then(|plan| plan.colours.iter().find(|c| c.number == number)).map_or(0, |c| c.cells)
        };
        let paints = design.paints.iter().filter(|_| paint_figures.is_some());
        Card {
            slug: design.slug.clone(),
            added: design.added.clone(),
            subjects: design.subjects.iter().map(|s| clean(s)).collect(),
            made_for: design.made_for.map(|audience| audience_name(audience).to_owned()),
            words: settings.languages.iter().map(|l| (l.clone(), words_in(design, l))).collect(),
            count: figures.pieces.count,
            edge: figures.pieces.edge,
            interior: figures.pieces.interior,
            novelty_shapes: figures.pieces.novelty_shapes,
            small_parts: figures.pieces.small_parts,
            width_mm: figures.size.width_mm,
            height_mm: figures.size.height_mm,
            thickness_mm: figures.size.thickness_mm,
            difficulty: figures.difficulty.score,
            difficulty_word: difficulty_name(figures.difficulty.word).to_owned(),
            board_g: figures.weight.board_g,
            wood: design.board.wood.id.clone(),
            wood_name: clean(&design.board.wood.name),
            cells: paint_figures.map(|plan| plan.cells),
            paints: paints
                .map(|p| CardPaint { number: p.number, colour: p.colour, cells: cells_of(p.number) })
                .collect(),
            offers: offers(settings, design, figures),
            pictures,
            guides,
            accent: accent(design, figures),
            outline_mm: simple(boards),
        }
    }

    /// Its words in a language of the shop; the first words there are where that one is unknown.
    pub fn words(&self, language: &str) -> &CardWords {
        static NONE: CardWords = CardWords {
            title: String::new(),
            summary: None,
            edition: None,
            story: None,
            lead_times: Vec::new(),
            contains: Vec::new(),
            paints: Vec::new(),
        };
        self.words.get(language).or_else(|| self.words.values().next()).unwrap_or(&NONE)
    }
}

fn words_in(design: &Design, language: &str) -> CardWords {
    let own = design.words.get(language);
    let text = |own: Option<&String>, first: Option<&String>| own.or(first).map(|text| clean(text));
    let blank = design.offers.iter().find(|offer| offer.form == Form::Blank);
    let contains = own.and_then(|w| w.contains.as_ref()).or(blank.map(|offer| &offer.contains));
    let lead_time = own.and_then(|w| w.lead_time.as_ref());
    let paint_name = |number: u32| own.and_then(|w| w.paints.get(&number)).and_then(|p| p.name.as_ref());
    CardWords {
        title: text(own.and_then(|w| w.title.as_ref()), Some(&design.title)).unwrap_or_default(),
        summary: text(own.and_then(|w| w.summary.as_ref()), design.summary.as_ref()),
        edition: text(own.and_then(|w| w.edition.as_ref()), design.edition.as_ref()),
        story: text(own.and_then(|w| w.story.as_ref()), design.story.as_ref()),
        lead_times: design
            .offers
            .iter()
            .map(|o| o.lead_time.as_ref().map(|first| clean(lead_time.unwrap_or(first))))
            .collect(),
        contains: contains.map(|all| all.iter().map(|item| clean(item)).collect()).unwrap_or_default(),
        paints: design.paints.iter().map(|p| clean(paint_name(p.number).unwrap_or(&p.name))).collect(),
    }
}

fn offers(settings: &Settings, design: &Design, figures: &Figures) -> Vec<CardOffer> {
    let weighed = |code: &str| figures.weight.offers.iter().find(|offer| offer.code == code);
    let service = |row: Option<usize>| {
        let row = settings.postage.get(row?)?;
        Some((clean(&row.service), row.price.minor))
    };
    let card = |offer: &crate::shop::Offer| {
        let weight = weighed(&offer.code);
        let postage = weight.map(|w| w.postage.as_slice()).unwrap_or_default();
        CardOffer {
            form: form_name(offer.form).to_owned(),
            code: clean(&offer.code),
            price_minor: offer.price.minor,
            price_decimals: offer.price.decimals,
            stock: offer.stock,
            order: offer.order.as_deref().map(clean),
            packed_g: weight.map_or(0.0, |w| w.packed_g),
            packed_mm: weight.map_or([0.0; 3], |w| w.packed_mm),
            postage: postage
                .iter()
                .map(|(zone, row)| CardPostage { zone: clean(zone), service: service(*row) })
                .collect(),
            scored: offer.form == Form::Blank && offer.board == BlankBoard::Scored,
            primed: offer.form == Form::Blank && offer.primed,
        }
    };
    design.offers.iter().map(card).collect()
}

/// The paint that is strong and much used; without a plan the wood's dark tone.
fn accent(design: &Design, figures: &Figures) -> Rgb {
    let area = |number: u32| {
        let plan = figures.paint.as_ref()?;
        plan.colours.iter().find(|c| c.number == number).map(|c| c.area_mm2.max(0.0))
    };
    let weight = |paint: &crate::shop::Paint| Some(area(paint.number)?.sqrt() * contrast::strength(paint.colour));
    let weighed = design.paints.iter().filter_map(|paint| Some((weight(paint)?, paint)));
    let best = weighed.fold(None, |best: Option<(f64, &crate::shop::Paint)>, next| match best {
        Some(kept) if kept.0 >= next.0 => Some(kept),
        _ => Some(next),
    });
    best.map_or(design.board.wood.tones[1], |(_, paint)| paint.colour)
}

/// Text without the control characters that no HTML, XML or CSV may hold; line ends and tabs stay.
pub(super) fn clean(text: &str) -> String {
    text.chars().filter(|c| !c.is_control() || matches!(c, '\n' | '\t')).filter(|c| !is_nonchar(*c)).collect()
}

/// XML 1.0, production 2, and Unicode's noncharacters.
fn is_nonchar(c: char) -> bool {
    let point = u32::from(c);
    (0xfdd0..=0xfdef).contains(&point) || point & 0xfffe == 0xfffe
}

pub(super) fn form_name(form: Form) -> &'static str {
    match form {
        Form::Painted => "painted",
        Form::Plain => "plain",
        Form::Blank => "blank",
    }
}

fn audience_name(audience: Audience) -> &'static str {
    match audience {
        Audience::Adults => "adults",
        Audience::Children => "children",
    }
}

pub(super) fn difficulty_name(word: Word) -> &'static str {
    match word {
        Word::Gentle => "gentle",
        Word::Steady => "steady",
        Word::Testing => "testing",
        Word::Fiendish => "fiendish",
    }
}

/// A colour as `#rrggbb`.
pub(super) mod colour {
    use serde::{Deserialize, Deserializer, Serializer, de::Error};

    use crate::shape::Rgb;

    pub fn serialize<S: Serializer>(colour: &Rgb, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(colour)
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Rgb, D::Error> {
        let text = String::deserialize(from)?;
        let number = text.strip_prefix('#').filter(|t| t.len() == 6).and_then(|t| u32::from_str_radix(t, 16).ok());
        let [_, r, g, b] = number.ok_or_else(|| D::Error::custom("not a colour"))?.to_be_bytes();
        Ok(Rgb::new(r, g, b))
    }
}

/// A paper by its name.
pub(super) mod paper {
    use serde::{Deserialize, Deserializer, Serializer, de::Error};

    use crate::shop::Paper;

    pub fn serialize<S: Serializer>(paper: &Paper, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(paper.name())
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Paper, D::Error> {
        let text = String::deserialize(from)?;
        let all = [Paper::A4, Paper::Letter];
        all.into_iter().find(|paper| paper.name() == text).ok_or_else(|| D::Error::custom("not a paper"))
    }
}
