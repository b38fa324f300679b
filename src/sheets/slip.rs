//! The packing slip: what is in the parcel, and what customs ask, as far as the record knows it.
//!
//! In: [`Order`]. Out: PDF bytes, one page an offer: sender, room for the addressee, contents, net weight, value, a description in words.
//! Origin and tariff number are left to be filled in by hand: no record holds them, and a guessed one would be a false declaration.
//! Rule: handbook, "The sheets".

use serde_json::{Value, json};

use super::frame::{Files, Order, design_sheet};
use super::glyphs::one_line;
use super::label::maker;
use super::sizes::{mass_text, price_text, size_text};
use super::{Sheet, SheetError};
use crate::shop::{BlankBoard, Form, Offer};
use crate::wording::Words;

/// Makes the packing slips of a design, one page for each offer.
///
/// # Errors
/// No offer, a character that no font has, a template that cannot be laid out.
pub fn slip_sheet(order: &Order) -> Result<Sheet, SheetError> {
    if order.design.offers.is_empty() {
        return Err(SheetError::NoOffer);
    }
    let words = Words::for_language(order.language);
    let data = json!({
        "sender": order.settings.maker.as_ref().map(|m| maker(&words, m)).unwrap_or_default(),
        "offers": order.design.offers.iter().map(|o| slip(order, &words, o)).collect::<Vec<_>>(),
        "small": words.text("small-pieces"),
        "lost": words.with("sheet-slip-lost", &[("mark", order.measured.figures.mark.as_str().into())]),
    });
    design_sheet(order, "slip", "sheet-slip", None, data, Files::new())
}

/// What the goods weigh without their pack: board, finish, and what goes along.
fn net_g(order: &Order, offer: &Offer) -> f64 {
    order.measured.figures.weight.board_g + offer.finish_g + offer.extras_g
}

fn slip(order: &Order, words: &Words, offer: &Offer) -> Value {
    let figures = &order.measured.figures;
    let units = order.settings.units;
    let mass = |g: f64| mass_text(words, g, units);
    let packed = figures.weight.offers.iter().find(|o| o.code == offer.code);
    let size = [figures.size.width_mm, figures.size.height_mm, figures.size.thickness_mm];
    let scored = offer.form == Form::Blank && offer.board == BlankBoard::Scored;
    let kind = match offer.form {
        Form::Painted => "sheet-slip-is-painted",
        Form::Plain => "sheet-slip-is-plain",
        Form::Blank if scored => "sheet-slip-is-scored",
        Form::Blank => "sheet-slip-is-blank",
    };
    let own = order.words().and_then(|w| w.contains.as_ref());
    let contains = own.unwrap_or(&offer.contains).iter().map(|item| one_line(item));
    let mut contents = vec![words.with(
        if scored { "sheet-slip-board" } else { "sheet-slip-puzzle" },
        &[("count", figures.pieces.count.into()), ("title", order.title().into())],
    )];
    if offer.form == Form::Blank {
        contents.extend(contains);
    }
    let value = price_text(words, offer.price, order.settings);
    let row = |key: &str, value: Option<String>| json!({ "label": words.text(key), "value": value });
    json!({
        "form": words.text(&format!("form-{}", offer.form.name())),
        "code": one_line(&offer.code),
        "size": size_text(words, size, units),
        "mark": figures.mark,
        "contents": contents,
        "customs": [
            row("sheet-slip-description", Some(words.with(kind, &[("count", figures.pieces.count.into())]))),
            row("sheet-slip-quantity", Some("1".to_owned())),
            row("sheet-slip-net", Some(words.with("sheet-slip-about", &[("mass", mass(net_g(order, offer)).into())]))),
            row("sheet-slip-gross", packed.map(|p| words.with("sheet-slip-about", &[("mass", mass(p.packed_g).into())]))),
            row("sheet-slip-value", Some(format!("{value} ({})", order.settings.currency.code))),
            row("sheet-slip-origin", None),
            row("sheet-slip-tariff", None),
        ],
    })
}
