//! The search of the catalogue: its fields on the page, and the data its script reads.
//!
//! In: a [`Voice`]. Out: [`Finder`] for the template, and one [`Page`] a language: a classic script, so that it loads from a disk too,
//! fetched only when somebody uses the search. Addresses of designs in it start at the language's part, those of pictures at the root.
//! Never here: a figure that the pages do not show. Rule: handbook, "The published folder".

use serde::Serialize;
use serde_json::{Value, json};

use super::address::{path, relative};
use super::theme::{placeholder_class, shape_class};
use super::views::{accent_class, main_of, product_address};
use super::voice::Voice;
use super::{Card, CatalogueError, Encoding, Page, PictureSet, View, made};
use crate::pictures::margin_mm;
use crate::shop::Units;
use crate::units::MM_PER_IN;
use crate::wording::amounts;

/// Words of the difficulty scale, gentlest first.
const WORDS: [&str; 4] = ["gentle", "steady", "testing", "fiendish"];
/// Orders that the search offers.
const ORDERS: [&str; 7] = ["new", "title", "few", "many", "gentle", "fiendish", "price"];
/// Lines of wording that the script shows.
const SAID: [&str; 11] = [
    "finder-found",
    "finder-none",
    "finder-more",
    "compare-pick",
    "compare-chosen",
    "compare-show",
    "compare-title",
    "compare-words",
    "compare-drop",
    "finder-clear",
    "close",
];
/// Widest picture of an answer, px: a row holds two or three.
const WIDEST: u32 = 1000;

/// The fields of the search.
#[derive(Clone, Debug, Serialize)]
pub struct Finder {
    /// Address of the data.
    data: String,
    /// Way from the page to the language's part of the site, and to its root.
    home: String,
    root: String,
    forms: Vec<Pick>,
    words: Vec<Pick>,
    subjects: Vec<String>,
    orders: Vec<Pick>,
    /// Unit of the longest side: mm or in.
    unit: &'static str,
    currency: String,
}

/// One choice of a field.
#[derive(Clone, Debug, Serialize)]
struct Pick {
    key: &'static str,
    label: String,
}

impl Voice<'_> {
    /// The search on the page `from`.
    pub(super) fn finder(&self, from: &str, data: &str) -> Finder {
        let folder = |to: &str| relative(from, to).trim_end_matches("index.html").to_owned();
        let pick = |prefix: &str, suffix: &str, key: &'static str| Pick {
            key,
            label: self.words().text(&format!("{prefix}{key}{suffix}")),
        };
        let offered = |form: &&str| self.cards().iter().any(|card| card.offers.iter().any(|o| o.form == **form));
        Finder {
            data: relative(from, data),
            home: folder(&self.inside("index.html")),
            root: folder("index.html"),
            forms: super::lists::FORMS.into_iter().filter(offered).map(|form| pick("form-", "-short", form)).collect(),
            words: WORDS.map(|word| pick("difficulty-", "", word)).into(),
            subjects: self.subjects(),
            orders: ORDERS.map(|order| pick("sort-", "", order)).into(),
            unit: if self.units() == Units::Us { "in" } else { "mm" },
            currency: self.settings().currency.code.clone(),
        }
    }
}

/// The data of one language's search: `made/shelf-<language>.….js`.
///
/// # Errors
/// [`CatalogueError::Theme`] where the theme's entry cannot be set.
pub(super) fn shelf(voice: &Voice<'_>) -> Result<Page, CatalogueError> {
    let subjects = voice.subjects();
    let said: serde_json::Map<String, Value> =
        SAID.iter().map(|key| ((*key).to_owned(), json!(raw(voice, key)))).collect();
    let facts = ["label-size", "label-pieces", "label-difficulty", "label-weight", "label-wood", "label-price"];
    let shelf = json!({
        "entry": entry(voice)?,
        "language": voice.language(),
        "say": said,
        "facts": facts.map(|key| voice.words().text(key)),
        "perSide": if voice.units() == Units::Us { MM_PER_IN } else { 1.0 },
        "perCoin": 10_u64.pow(voice.settings().currency.decimals),
        "subjects": subjects,
        "designs": voice.cards().iter().map(|card| design(voice, card, &subjects)).collect::<Vec<_>>(),
    });
    let text = format!("self.kerfleafShelf={shelf};\n").replace('\u{2028}', "\\u2028").replace('\u{2029}', "\\u2029");
    Ok(made(&format!("shelf-{}", voice.language().to_ascii_lowercase()), "js", text.into_bytes()))
}

/// A line whose values the script fills in: they stand in it as `{n}`, `{total}` and `{title}`.
fn raw(voice: &Voice<'_>, key: &str) -> String {
    voice.words().with(key, &[("n", "{n}".into()), ("total", "{total}".into()), ("title", "{title}".into())])
}

/// One design of a list as the theme sets it, with names where the script puts values.
fn entry(voice: &Voice<'_>) -> Result<String, CatalogueError> {
    let name = |name: &str| format!("kf-{name}");
    let names = json!({
        "slug": name("slug"), "href": name("href"), "title": name("title"), "summary": null,
        "picture": {
            "alt": name("alt"), "caption": "", "width": name("width"), "height": name("height"), "src": name("src"),
            "jpeg": "", "webp": name("webp"), "ground": name("ground"), "large": "", "view": "painted",
            "shape": name("shape"), "tall": false,
        },
        "detail": null, "pieces": name("pieces"), "size": name("size"),
        "ruler": { "at": name("at"), "word": name("word"), "label": name("label") },
        "forms": name("forms"), "price": name("price"), "sold_out": false, "state": name("state"),
        "accent": name("accent"),
    });
    let set = voice.theme.set("found.html", &json!({}), &json!({ "entry": names }))?;
    Ok(String::from_utf8_lossy(&set).trim().to_owned())
}

fn design(voice: &Voice<'_>, card: &Card, subjects: &[String]) -> Value {
    let words = card.words(voice.language());
    let entry = voice.entry(card, &voice.inside("index.html"));
    let offer = |o: &super::CardOffer| json!([o.form, o.price_minor, o.stock.map_or(-1, i64::from)]);
    let main = main_of(&card.pictures);
    let drawn =
        card.pictures.iter().find(|set| matches!(set.view, View::Painted | View::Plain | View::Uncut | View::Blank));
    let margin = 2.0 * margin_mm(card.width_mm, card.height_mm, card.thickness_mm);
    let round = |mm: f64| libm::round(mm * 10.0) / 10.0;
    json!({
        "slug": card.slug,
        "href": path(&product_address(&card.slug)),
        "title": words.title,
        "more": words.summary,
        "subjects": card.subjects.iter().filter_map(|s| subjects.iter().position(|all| all == s)).collect::<Vec<_>>(),
        "count": card.count,
        "side": round(card.width_mm.max(card.height_mm)),
        "score": round(card.difficulty),
        "word": card.difficulty_word,
        "offers": card.offers.iter().map(offer).collect::<Vec<_>>(),
        "pieces": entry.pieces,
        "size": entry.size,
        "weight": amounts::mass(voice.units(), voice.tongue(), card.board_g).short(),
        "wood": voice.wood(card),
        "label": entry.ruler.label,
        "forms": entry.forms,
        "price": if entry.sold_out { voice.words().text("stock-sold-out") } else { entry.price.unwrap_or_default() },
        "sold": entry.sold_out,
        "state": entry.state,
        "accent": accent_class(card),
        "picture": main.map(|set| picture(voice, card, set)),
        // The drawn picture and how much table it shows, mm, for boards side by side at one scale.
        "scale": drawn.map(|set| json!({
            "picture": if main.is_some_and(|main| std::ptr::eq(main, set)) { Value::Null } else { picture(voice, card, set) },
            "width": round(card.width_mm + margin), "height": round(card.height_mm + margin),
        })),
    })
}

/// A picture's sizes: the shared beginning of their addresses, then width and rest of each.
fn picture(voice: &Voice<'_>, card: &Card, set: &PictureSet) -> Value {
    let all = set.of(Encoding::Webp);
    let all = if all.is_empty() { set.of(Encoding::Jpeg) } else { all };
    let kept: Vec<_> = all.iter().enumerate().filter(|(at, s)| *at == 0 || s.width <= WIDEST).map(|(_, s)| s).collect();
    let first = kept.first().map_or("", |s| s.address.as_str());
    let shared = kept.iter().map(|s| first.bytes().zip(s.address.bytes()).take_while(|(a, b)| a == b).count()).min();
    let stem = first.get(..shared.unwrap_or(0)).unwrap_or_default();
    let largest = set.largest();
    json!({
        "stem": stem,
        "sizes": kept.iter().map(|s| json!([s.width, s.address.get(stem.len()..)])).collect::<Vec<_>>(),
        "width": largest.map(|s| s.width),
        "height": largest.map(|s| s.height),
        "ground": placeholder_class(set.placeholder),
        "shape": largest.map(|s| shape_class(s.width, s.height)),
        "alt": voice.picture(card, set, "index.html").alt,
    })
}
