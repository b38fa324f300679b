//! `[[offer]]`: the forms in which a design is sold.

use super::settings::{Ground, way_to_order};
use crate::shop::fields::{Fields, Item};
use crate::shop::item::Least;
use crate::shop::mistake::Place;
use crate::shop::nearest::nearest;
use crate::shop::record::{BlankBoard, Form, Offer, usual_code};

/// Reads one offer, and its code with the place to blame if another has the same.
pub(super) fn read(fields: Fields, slug: &str, ground: &Ground) -> (Option<Offer>, Option<(String, Place)>) {
    let form_item = fields.need("form", "\"painted\"");
    let form = form_item
        .as_ref()
        .and_then(|item| item.word(&[("painted", Form::Painted), ("plain", Form::Plain), ("blank", Form::Blank)]));
    let price = fields.need("price", "\"84.00\"").and_then(|item| item.money(&ground.settings.currency));
    let code_item = fields.get("code");
    let code = match &code_item {
        Some(item) => code(item),
        None => form.map(|form| usual_code(slug, form.name())),
    };
    let code_at = code_item.or(form_item).map(|item| item.place());

    // What stands for a mistake is never used: the design is given up when its record is done.
    let offer = Offer {
        form: form.unwrap_or(Form::Painted),
        price: price.unwrap_or(crate::units::Money { minor: 0, decimals: 0 }),
        stock: fields.get("stock").and_then(|item| item.whole(0)),
        lead_time: fields.get("lead_time").and_then(|item| item.text()),
        code: code.clone().unwrap_or_default(),
        order: fields.get("order").and_then(|item| way_to_order(&item)),
        pack: fields.get("pack").and_then(|item| pack(&item, ground)),
        extras_g: fields.get("extras").and_then(|item| item.mass_g(Least::Zero)).unwrap_or(0.0),
        finish_g: fields.get("finish").and_then(|item| item.mass_g(Least::Zero)).unwrap_or(0.0),
        board: fields
            .get("board")
            .and_then(|item| item.word(&[("cut", BlankBoard::Cut), ("scored", BlankBoard::Scored)]))
            .unwrap_or(BlankBoard::Cut),
        primed: fields.get("primed").and_then(|item| item.flag()).unwrap_or(false),
        contains: fields.get("contains").and_then(|item| item.texts()).unwrap_or_default(),
    };
    if let Some(form) = form.filter(|form| *form != Form::Blank) {
        for item in ["board", "primed", "contains"].iter().filter_map(|key| fields.get(key)) {
            let message = format!("`{}` goes with a blank offer, and this one is {}.", item.key, form.name());
            item.wrong(message, "Leave it out, or move it to the offer with `form = \"blank\"`.");
        }
    }
    fields.finish();
    let sound = form.is_some() && price.is_some() && code.is_some();
    (sound.then_some(offer), code.zip(code_at))
}

/// A stock code: it goes on labels, into lists and into a call of `stock`.
fn code(item: &Item) -> Option<String> {
    let text = item.text()?;
    let plain = text.trim() == text && text.bytes().all(|b| b == b' ' || b.is_ascii_graphic());
    if !plain {
        item.wrong(
            format!("`{}` is not a stock code.", text.escape_debug()),
            "Use ASCII letters, digits and signs, without a space at either end.",
        );
    }
    plain.then_some(text)
}

fn pack(item: &Item, ground: &Ground) -> Option<usize> {
    let name = item.text()?;
    let found = ground.settings.packs.iter().position(|pack| pack.name == name);
    if found.is_none() {
        if ground.broken_packs.contains(&name) {
            item.wrong(format!("The pack `{name}` cannot be used."), "Mend its row in shop.toml.");
            return None;
        }
        let known: Vec<&str> = ground.settings.packs.iter().map(|pack| pack.name.as_str()).collect();
        let help = match nearest(&name, known.iter().copied()) {
            Some(near) => format!("Did you mean `{near}`?"),
            None if known.is_empty() => "Add a `[[pack]]` to shop.toml.".to_owned(),
            None => format!("The shop has {}.", known.join(", ")),
        };
        item.wrong(format!("`{name}` is not a pack of the shop."), help);
    }
    found
}
