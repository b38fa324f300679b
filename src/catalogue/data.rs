//! The catalogue as data: catalogue.json with its schema, and catalogue.csv for a spreadsheet.
//!
//! In: cards. Out: three pages. Figures are those of the records and of `measure`, in mm and g, unrounded.
//! Never here: a draft, a rate of the workshop, a price of a pack. Rule: handbook, "The published folder".

use serde_json::{Value, json};

use super::address::path;
use super::views::product_address;
use super::voice::Voice;
use super::{Card, CardOffer, Encoding, Page, PictureSet, main_picture_address};
use crate::units::Money;

/// JSON Schema (2020-12) of catalogue.json.
pub const SCHEMA: &str = include_str!("catalogue.schema.json");

/// catalogue.json, catalogue.schema.json and catalogue.csv, with words of every voice, figures and words of the first.
pub fn pages(voices: &[Voice<'_>]) -> Vec<Page> {
    let Some(voice) = voices.first() else { return Vec::new() };
    let page = |address: &str, bytes: Vec<u8>| Page { address: address.to_owned(), bytes };
    vec![
        page("catalogue.json", json(voice, voices).into_bytes()),
        page("catalogue.schema.json", SCHEMA.as_bytes().to_vec()),
        page("catalogue.csv", csv(voice).into_bytes()),
    ]
}

/// `in-stock`, `sold-out` or `made-to-order`.
pub fn availability(offer: &CardOffer) -> &'static str {
    match offer.stock {
        None => "made-to-order",
        Some(0) => "sold-out",
        Some(_) => "in-stock",
    }
}

/// A design a line, in the order of the catalogue: a changed design is a changed line, and who wants the newest few need not read on.
fn json(voice: &Voice<'_>, voices: &[Voice<'_>]) -> String {
    let settings = voice.settings();
    let shop = json!({
        "name": settings.name,
        "currency": settings.currency.code,
        "languages": settings.languages,
        "web_address": settings.web_address,
    });
    let version = env!("CARGO_PKG_VERSION");
    let mut out =
        format!("{{\"kerfleaf\":\"{version}\",\"schema\":\"catalogue.schema.json\",\n\"shop\":{shop},\n\"designs\":[");
    for (at, card) in voice.cards().iter().enumerate() {
        out.push_str(if at == 0 { "\n" } else { ",\n" });
        out.push_str(&design(voice, voices, card).to_string());
    }
    out.push_str("\n]}\n");
    out
}

/// A design as one language's lists show it, ready to be shown elsewhere.
fn shown(voice: &Voice<'_>, card: &Card) -> Value {
    let address = voice.inside(&product_address(&card.slug));
    let entry = voice.entry(card, "index.html");
    json!({
        "title": entry.title,
        "summary": entry.summary,
        "address": path(&address),
        "pieces": entry.pieces,
        "size": entry.size,
        "difficulty": entry.ruler.label,
        "forms": entry.forms,
        "price": if entry.sold_out { Some(voice.words().text("stock-sold-out")) } else { entry.price },
        "alt": entry.picture.map(|picture| picture.alt),
    })
}

fn design(voice: &Voice<'_>, voices: &[Voice<'_>], card: &Card) -> Value {
    let words = card.words(voice.language());
    let paints = card.paints.iter().zip(&words.paints);
    json!({
        "slug": card.slug,
        "title": words.title,
        "summary": words.summary,
        "address": product_address(&card.slug),
        "picture": main_picture_address(&card.slug),
        "added": card.added,
        "subjects": card.subjects,
        "made_for": card.made_for,
        "edition": words.edition,
        "pieces": {
            "count": card.count, "edge": card.edge, "interior": card.interior,
            "novelty_shapes": card.novelty_shapes, "small_parts": card.small_parts,
        },
        "size": { "width_mm": card.width_mm, "height_mm": card.height_mm, "thickness_mm": card.thickness_mm },
        "difficulty": { "score": card.difficulty, "word": card.difficulty_word },
        "weight": { "board_g": card.board_g },
        "wood": { "id": card.wood, "name": voice.wood(card) },
        "words": voices.iter().map(|v| (v.language().to_owned(), shown(v, card))).collect::<serde_json::Map<_, _>>(),
        "paint": card.cells.map(|cells| json!({
            "cells": cells,
            "colours": paints.map(|(paint, name)| json!({
                "number": paint.number, "name": name, "colour": paint.colour.to_string(), "cells": paint.cells,
            })).collect::<Vec<_>>(),
        })),
        "offers": card.offers.iter().enumerate().map(|(at, o)| offer(voice, card, at, o)).collect::<Vec<_>>(),
        "pictures": card.pictures.iter().map(|set| picture(voice, card, set)).collect::<Vec<_>>(),
        "guides": card.guides.iter().map(|guide| json!({
            "address": path(&guide.address), "language": guide.language, "paper": guide.paper.name(),
            "pages": guide.pages, "bytes": guide.bytes,
        })).collect::<Vec<_>>(),
    })
}

/// A view: its WebP sizes, narrowest first, and one JPEG for programs that read no WebP. Each address holds a hash that no packing makes
/// smaller, so that no size stands here which nobody would miss.
fn picture(voice: &Voice<'_>, card: &Card, set: &PictureSet) -> Value {
    let largest = set.largest();
    json!({
        "view": set.view,
        "alt": voice.picture(card, set, "index.html").alt,
        "placeholder": set.placeholder.to_string(),
        "spoiler": set.view.points_out() && card.novelty_shapes > 0,
        "width": largest.map(|source| source.width),
        "height": largest.map(|source| source.height),
        "jpeg": set.of(Encoding::Jpeg).last().map(|source| path(&source.address)),
        "webp": set.of(Encoding::Webp).iter().map(|source| json!({ "address": path(&source.address), "width": source.width })).collect::<Vec<_>>(),
    })
}

fn offer(voice: &Voice<'_>, card: &Card, at: usize, offer: &CardOffer) -> Value {
    let words = card.words(voice.language());
    let decimals = voice.settings().currency.decimals;
    json!({
        "form": offer.form,
        "code": offer.code,
        "price": offer.price().to_string(),
        "currency": voice.settings().currency.code,
        "availability": availability(offer),
        "stock": offer.stock,
        "lead_time": words.lead_times.get(at).cloned().flatten(),
        "packed_g": offer.packed_g,
        "packed_mm": offer.packed_mm,
        "order": offer.to_be_had().then(|| voice.order(offer, &words.title)),
        "postage": offer.postage.iter().map(|row| json!({
            "zone": row.zone,
            "service": row.service.as_ref().map(|(name, _)| name),
            "price": row.service.as_ref().map(|(_, minor)| Money { minor: *minor, decimals }.to_string()),
        })).collect::<Vec<_>>(),
    })
}

const COLUMNS: [&str; 19] = [
    "code",
    "form",
    "slug",
    "title",
    "pieces",
    "edge_pieces",
    "novelty_shapes",
    "width_mm",
    "height_mm",
    "thickness_mm",
    "difficulty",
    "difficulty_word",
    "board_g",
    "packed_g",
    "wood",
    "price",
    "currency",
    "stock",
    "address",
];

/// One row an offer. RFC 4180: CRLF, a header, quotes doubled.
fn csv(voice: &Voice<'_>) -> String {
    let mut out = row(&COLUMNS.map(str::to_owned));
    for card in voice.cards() {
        for offer in &card.offers {
            let number = |value: f64| format!("{value:.1}");
            out.push_str(&row(&[
                cell(&offer.code),
                offer.form.clone(),
                cell(&card.slug),
                cell(&card.words(voice.language()).title),
                card.count.to_string(),
                card.edge.to_string(),
                card.novelty_shapes.to_string(),
                number(card.width_mm),
                number(card.height_mm),
                format!("{:.2}", card.thickness_mm),
                number(card.difficulty),
                card.difficulty_word.clone(),
                number(card.board_g),
                number(offer.packed_g),
                cell(voice.wood(card)),
                offer.price().to_string(),
                voice.settings().currency.code.clone(),
                offer.stock.map(|stock| stock.to_string()).unwrap_or_default(),
                product_address(&card.slug),
            ]));
        }
    }
    out
}

fn row(cells: &[String]) -> String {
    let quoted = |cell: &String| {
        if cell.contains(['"', ',', '\r', '\n', ';', '\t']) {
            format!("\"{}\"", cell.replace('"', "\"\""))
        } else {
            cell.clone()
        }
    };
    cells.iter().map(quoted).collect::<Vec<_>>().join(",") + "\r\n"
}

/// Text that no spreadsheet takes for a formula: an apostrophe stands before the signs that begin one, also after blanks.
/// Source: OWASP, "CSV Injection".
pub(super) fn cell(text: &str) -> String {
    let begins = |c: char| "=+-@\t\r\n＝＋－＠".contains(c);
    let first = text.chars().find(|c| !c.is_whitespace());
    if text.starts_with(begins) || first.is_some_and(begins) { format!("'{text}") } else { text.to_owned() }
}
