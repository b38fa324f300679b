//! Box labels: one for each offer, one, two, four or eight to a page.
//!
//! In: [`Order`]. Out: PDF bytes, one page an offer, its label as often as it goes on the page. All on it comes from the record: title, picture, pieces,
//! size, difficulty, wood, edition, drawing mark, the maker's address, cautions; the statutory warnings by [`super::warnings`].
//! A QR code stands on labels of offers whose record gives a stock code; a code that only stands in for one is printed as text alone.
//! Rule: handbook, "The sheets"; figures, items 14 and 15.

use serde_json::{Value, json};

use super::frame::{Files, Order, design_sheet};
use super::glyphs::one_line;
use super::sizes::{mass_text, size_text};
use super::tiles::paper_mm;
use super::warnings::warnings;
use super::{Sheet, SheetError, qr};
use crate::figures::Figures;
use crate::shop::{BlankBoard, Form, Maker, Offer};
use crate::wording::Words;

/// Labels that go on a page.
pub const PER_PAGE: [usize; 4] = [1, 2, 4, 8];
/// Margin around all labels of a page, mm; most printers leave 3 to 5 mm blank (common practice, no source).
const MARGIN_MM: f64 = 8.0;
/// Side of a module of the QR code, mm. ISO/IEC 18004 leaves it to the printer; a quarter of a millimetre is the least for common scanners (common
/// practice, no source).
const MODULE_MM: f64 = 0.5;

/// Makes the labels of a design, `per_page` (one of [`PER_PAGE`]) to a page.
///
/// # Errors
/// No offer, a character that no font has, a template that cannot be laid out.
pub fn label_sheet(order: &Order, per_page: usize) -> Result<Sheet, SheetError> {
    if order.design.offers.is_empty() {
        return Err(SheetError::NoOffer);
    }
    let words = Words::for_language(order.language);
    let mut files = Files::new();
    if let Some(jpeg) = order.cover_jpeg {
        files.insert("/cover.jpg".to_owned(), jpeg.to_vec());
    }
    let (width, height) = paper_mm(order.paper);
    let (columns, rows) = match per_page {
        0 | 1 => (1, 1),
        2 => (1, 2),
        3 | 4 => (2, 2),
        _ => (2, 4),
    };
    let label_mm = [(width - 2.0 * MARGIN_MM) / f64::from(columns), (height - 2.0 * MARGIN_MM) / f64::from(rows)];
    let offers: Vec<Value> =
        order.design.offers.iter().enumerate().map(|(i, o)| label(order, &words, i, o, label_mm, &mut files)).collect();
    let data = json!({
        "has_picture": order.cover_jpeg.is_some(),
        "alt": words.with("sheet-cover-alt", &[("title", order.title().into())]),
        "grid": { "columns": columns, "rows": rows, "margin_mm": MARGIN_MM, "label_mm": label_mm },
        "offers": offers,
    });
    design_sheet(order, "label", "sheet-label", None, data, files)
}

/// Whether the record gives the code, or the program made it up from folder and form.
pub(super) fn given_code(slug: &str, offer: &Offer) -> bool {
    offer.code != format!("{slug}-{}", offer.form.name())
}

fn label(order: &Order, words: &Words, index: usize, offer: &Offer, label_mm: [f64; 2], files: &mut Files) -> Value {
    let figures = &order.measured.figures;
    let size = [figures.size.width_mm, figures.size.height_mm, figures.size.thickness_mm];
    let code = given_code(&order.design.slug, offer).then(|| qr::svg(&offer.code)).flatten().map(|(svg, modules)| {
        let file = format!("/drawing/code-{index}.svg");
        files.insert(file.clone(), svg);
        json!({
            "file": file,
            "side_mm": f64::from(modules) * MODULE_MM,
            "alt": words.with("sheet-label-code-alt", &[("code", offer.code.as_str().into())]),
        })
    });
    let pack = offer.pack.and_then(|i| order.settings.packs.get(i));
    // The larger of label and box: the display panel is what the buyer sees, and more area asks for larger type.
    let panel_mm2 = pack.map_or(0.0, |p| p.outer_mm[0] * p.outer_mm[1]).max(label_mm[0] * label_mm[1]);
    let statutory = warnings(words, &order.settings.markets, order.design.made_for, panel_mm2);
    let blank = offer.form == Form::Blank;
    let pieces = if blank && offer.board == BlankBoard::Scored {
        words.with("sheet-pieces-later", &[("count", figures.pieces.count.into())])
    } else {
        words.with("count-pieces", &[("count", figures.pieces.count.into())])
    };
    let mut facts = vec![
        ("sheet-pieces", pieces),
        ("sheet-size", size_text(words, size, order.settings.units)),
        ("sheet-label-wood", one_line(order.design.board.wood.in_language(words.language()))),
    ];
    facts.extend(order.edition().map(|e| ("sheet-label-edition", e)));
    facts.push(("sheet-mark", figures.mark.clone()));
    let packed = figures.weight.offers.iter().find(|o| o.code == offer.code);
    facts.extend(packed.map(|o| ("sheet-label-packed", mass_text(words, o.packed_g, order.settings.units))));
    json!({
        "form": words.text(&format!("form-{}", offer.form.name())),
        "code": one_line(&offer.code),
        "qr": code,
        "facts": facts.iter().map(|(key, value)| json!({ "label": words.text(key), "value": value })).collect::<Vec<_>>(),
        "difficulty": difficulty(&order.measured.figures, words),
        "by_hand": (offer.form == Form::Painted).then(|| words.text("sheet-label-by-hand")),
        "care": words.text(if blank { "sheet-label-care-blank" } else { "sheet-label-care" }),
        "small": words.text("small-pieces"),
        "duty": (!statutory.is_empty()).then(|| words.text("warning-duty")),
        "warnings": statutory,
        "maker": order.settings.maker.as_ref().map(|m| maker(words, m)).unwrap_or_default(),
    })
}

/// Place on the ruler from 0 to 1, and what is printed beside it.
pub(super) fn difficulty(figures: &Figures, words: &Words) -> Value {
    let d = &figures.difficulty;
    let word = words.text(&format!("difficulty-{}", d.word.name()));
    let score = super::sizes::number_text(words, d.score, 0);
    json!({
        "at": d.score / 100.0,
        "word": word,
        "score": words.with("difficulty-score", &[("score", score.as_str().into())]),
        "alt": words.with("sheet-label-ruler-alt", &[("word", word.into()), ("score", score.into())]),
    })
}

/// The maker's lines as they stand in shop.toml.
pub(super) fn maker(words: &Words, maker: &Maker) -> Vec<String> {
    let person = maker.eu_person.as_ref().map(|p| words.with("maker-eu-person", &[("person", one_line(p).into())]));
    let lines = [&maker.name, &maker.address, &maker.email];
    lines.into_iter().flatten().map(|l| one_line(l)).chain(person).collect()
}
