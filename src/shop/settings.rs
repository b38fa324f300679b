//! shop.toml, checked and in millimetres, grams and exact money.

use std::collections::BTreeMap;

use super::record::Limits;
use super::wood::Wood;
use crate::shape::Rgb;
use crate::units::Money;

/// The shop as a whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    /// `name`.
    pub name: String,
    /// `tagline`.
    pub tagline: Option<String>,
    /// `about`.
    pub about: Option<String>,
    /// `currency`.
    pub currency: Currency,
    /// `price_note`, shown with prices as written.
    pub price_note: Option<String>,
    /// BCP 47; the first stands at the root.
    pub languages: Vec<String>,
    /// The shop's words in further languages.
    pub words: BTreeMap<String, ShopWords>,
    /// `units`.
    pub units: Units,
    /// Papers that guides are made for.
    pub paper: Vec<Paper>,
    /// Without a trailing slash.
    pub web_address: Option<String>,
    /// The shop's own way to order: https, mailto or tel.
    pub order: String,
    /// Whose warning texts apply.
    pub markets: Vec<Market>,
    /// `[maker]`.
    pub maker: Option<Maker>,
    /// `[[pack]]`.
    pub packs: Vec<Pack>,
    /// `[[postage]]`.
    pub postage: Vec<Postage>,
    /// `[[wood]]`, own boards.
    pub woods: Vec<Wood>,
    /// `[[pan]]`.
    pub pans: Vec<Pan>,
    /// `[difficulty]`.
    pub difficulty: Weights,
    /// `[limits]` over the defaults.
    pub limits: Limits,
    /// `[look]`.
    pub look: Look,
    /// `[workshop]`, private.
    pub workshop: Workshop,
}

/// The shop's words in one further language.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShopWords {
    /// `tagline`.
    pub tagline: Option<String>,
    /// `about`.
    pub about: Option<String>,
    /// `price_note`.
    pub price_note: Option<String>,
}

/// ISO 4217.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Currency {
    /// Three capital letters.
    pub code: String,
    /// Decimals a price may carry (ISO 4217 minor unit).
    pub decimals: u32,
}

/// Which units figures are shown in; they are computed once, in mm and g.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Units {
    /// Millimetres and grams.
    Metric,
    /// Inches and ounces.
    Us,
    /// Metric first.
    Both,
}

/// A paper for sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Paper {
    /// ISO 216: 210 × 297 mm.
    A4,
    /// ANSI/ASME Y14.1 size A: 8.5 × 11 in.
    Letter,
}

impl Paper {
    /// As in shop.toml and in file names.
    pub fn name(self) -> &'static str {
        match self {
            Paper::A4 => "a4",
            Paper::Letter => "letter",
        }
    }
}

/// Whose statutory warnings are printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Market {
    /// European Union.
    Eu,
    /// United Kingdom.
    Uk,
    /// United States.
    Us,
}

/// Who stands behind the goods.
#[derive(Clone, Debug, PartialEq)]
pub struct Maker {
    /// `name`.
    pub name: Option<String>,
    /// `address`.
    pub address: Option<String>,
    /// `email`.
    pub email: Option<String>,
    /// `eu_person`.
    pub eu_person: Option<String>,
}

/// One kind of box.
#[derive(Clone, Debug, PartialEq)]
pub struct Pack {
    /// `name`.
    pub name: String,
    /// Inner length, width, depth, mm.
    pub inner_mm: [f64; 3],
    /// Outer length, width, depth, mm.
    pub outer_mm: [f64; 3],
    /// Mass, g.
    pub weight_g: f64,
    /// Private.
    pub price: Option<Money>,
}

/// One postal service.
#[derive(Clone, Debug, PartialEq)]
pub struct Postage {
    /// The shop's own zone.
    pub zone: String,
    /// `service`.
    pub service: String,
    /// Heaviest, g.
    pub up_to_g: f64,
    /// Greatest sides, mm, longest first.
    pub max_mm: Option<[f64; 3]>,
    /// Greatest length + width + depth, mm.
    pub max_sum_mm: Option<f64>,
    /// `price`.
    pub price: Money,
}

/// One colour at hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Pan {
    /// `name`.
    pub name: String,
    /// `colour`.
    pub colour: Rgb,
}

/// Weights of the difficulty scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weights {
    /// 10.
    pub size: f64,
    /// 20.
    pub edges: f64,
    /// 10.
    pub novelty: f64,
    /// 10.
    pub alike: f64,
}

impl Default for Weights {
    fn default() -> Self {
        Weights { size: 10.0, edges: 20.0, novelty: 10.0, alike: 10.0 }
    }
}

/// `[look]`.
#[derive(Clone, Debug, PartialEq)]
pub struct Look {
    /// Page ground.
    pub ground: Option<Rgb>,
    /// Page ink.
    pub ink: Option<Rgb>,
    /// One accent for all pages, instead of the designs' own.
    pub accent: Option<Rgb>,
    /// Logo: file name and bytes.
    pub logo: Option<(String, Vec<u8>)>,
    /// Whether public pictures show cuts; true.
    pub show_cuts: bool,
}

/// Private rates of the bench; each `None` where shop.toml is silent.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Workshop {
    /// mm/s.
    pub cut_speed_mm_s: Option<f64>,
    /// mm/s.
    pub score_speed_mm_s: Option<f64>,
    /// mm/s.
    pub travel_speed_mm_s: Option<f64>,
    /// Stock sheet, mm.
    pub sheet_mm: Option<[f64; 2]>,
    /// mm.
    pub sheet_margin_mm: Option<f64>,
    /// `sheet_price`.
    pub sheet_price: Option<Money>,
    /// `waste_percent`.
    pub waste_percent: Option<f64>,
    /// `hourly_rate`.
    pub hourly_rate: Option<Money>,
    /// `painting_minutes_per_100_cm2`.
    pub painting_minutes_per_100_cm2: Option<f64>,
    /// `handling_minutes`.
    pub handling_minutes: Option<f64>,
    /// `extras_price`.
    pub extras_price: Option<Money>,
    /// `fees_percent`.
    pub fees_percent: Option<f64>,
    /// `low_stock`.
    pub low_stock: Option<u32>,
}
