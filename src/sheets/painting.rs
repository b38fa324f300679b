//! The painting guide of a blank: cover, order of work, palette, the drawing true to size, trial page, what to do when something goes wrong.
//!
//! In: [`Order`]. Out: PDF bytes. All that the template prints is worked out here and handed to it as `/data.json`; drawings are `/drawing/….svg`.

use serde_json::{Value, json};

use super::frame::{Files, Order, design_sheet};
use super::glyphs::one_line;
use super::plan::{Picture, picture};
use super::sizes::{area_text, size_text};
use super::steps::{Facts, Row, needs, notes, steps};
use super::tiles::{FOOT_MM, HEAD_MM, MARGIN_MM};
use super::{Sheet, SheetError, drawing};
use crate::cautions;
use crate::paint::amounts::{self, Laid};
use crate::paint::mixing;
use crate::shape::Rgb;
use crate::shop::{BlankBoard, Design, Form, Offer};
use crate::wording::Words;

/// Makes the painting guide for the design's blank offer. A design without one gets the guide for a scored board that its painter primes.
///
/// The same order gives the same bytes. 100 mm on the drawing's sheets are 283.465 pt.
///
/// # Errors
/// A character that no font has, a template that cannot be laid out, a design without a board.
pub fn painting_guide(order: &Order) -> Result<Sheet, SheetError> {
    let picture = picture(order.measured, &order.design.paints, order.paper)?;
    let mut files = Files::new();
    let words = Words::for_language(order.language);
    let drawing = drawing::sheets(order, &words, &picture, &mut files);
    let data = data(order, &words, &picture, drawing);
    if let Some(jpeg) = order.cover_jpeg {
        files.insert("/cover.jpg".to_owned(), jpeg.to_vec());
    }
    design_sheet(order, "painting", "sheet-guide", None, data, files)
}

fn blank(design: &Design) -> Option<&Offer> {
    design.offers.iter().find(|o| o.form == Form::Blank)
}

/// What is so about this board and its kit.
fn facts(design: &Design, planned: bool) -> Facts {
    let offer = blank(design);
    let cut = offer.is_some_and(|o| o.board == BlankBoard::Cut);
    Facts::from([
        if cut { "cut" } else { "scored" },
        if offer.is_some_and(|o| o.primed) { "primed" } else { "unprimed" },
        if planned { "plan" } else { "free" },
        if offer.is_some_and(|o| !o.contains.is_empty()) { "contents" } else { "no-contents" },
    ])
}

fn data(order: &Order, labels: &Words, picture: &Picture, drawing: Value) -> Value {
    let Order { design, language, .. } = order;
    let words = order.words();
    let title = order.title();
    let summary = words.and_then(|w| w.summary.as_deref()).or(design.summary.as_deref()).map(one_line);
    let edition = order.edition();
    let planned = order.measured.plan.is_some();
    let facts = facts(design, planned);
    let way = if facts.contains("cut") { "cut" } else { "scored" };
    let rows = |rows: &mut dyn Iterator<Item = &'static Row>| -> Vec<Value> {
        rows.map(|r| json!({ "id": r.id, "title": r.title(language), "text": r.text(language) })).collect()
    };
    let warnings: Vec<Value> = cautions::of("paint")
        // Only a board that somebody will still cut needs to be kept from the laser while it is wet.
        .filter(|c| c.id != "laser-dry-first" || way == "scored")
        .map(|c| c.in_language(language))
        .map(|(title, text)| json!({ "title": title, "text": text }))
        .collect();
    json!({
        "summary": summary,
        "edition": edition,
        "mark": order.measured.figures.mark,
        "planned": planned,
        "cover": {
            "has_picture": order.cover_jpeg.is_some(),
            "alt": labels.with("sheet-cover-alt", &[("title", title.as_str().into())]),
            "facts": cover_facts(order, labels, way),
            "kit": kit(order, labels, &facts),
            "needs": needs(&facts).map(|n| n.text(language).to_owned()).chain(coats(order, labels, &facts)).collect::<Vec<_>>(),
        },
        "work": {
            "lead": labels.text(&format!("sheet-work-lead-{way}")),
            "steps": rows(&mut steps(way, &facts)),
        },
        "cautions": warnings,
        "mishaps": rows(&mut notes("mishaps", &facts)),
        "lost": rows(&mut notes("lost", &facts)),
        "care": rows(&mut notes("care", &facts)),
        "palette": palette(order, labels),
        "turns": turns(order, labels, picture),
        "cell_without_paint": picture.cell_without_paint,
        "drawing": drawing,
        "sheet": { "margin_mm": MARGIN_MM, "head_mm": HEAD_MM, "foot_mm": FOOT_MM },
    })
}

fn cover_facts(order: &Order, labels: &Words, way: &str) -> Vec<Value> {
    let figures = &order.measured.figures;
    let pieces = figures.pieces.count;
    let pieces =
        if way == "cut" { pieces.to_string() } else { labels.with("sheet-pieces-later", &[("count", pieces.into())]) };
    let size = [figures.size.width_mm, figures.size.height_mm, figures.size.thickness_mm];
    let mut facts = vec![("sheet-pieces", pieces), ("sheet-size", size_text(labels, size, order.settings.units))];
    facts.push(("sheet-board", one_line(order.design.board.wood.in_language(order.language))));
    if let Some(plan) = &order.measured.plan {
        let used =
            order.design.paints.iter().enumerate().filter(|(i, _)| plan.cells.iter().any(|c| c.paint == Some(*i)));
        facts.push(("sheet-colours", used.count().to_string()));
        facts.push(("sheet-cells", plan.cells.len().to_string()));
    }
    facts.push(("sheet-mark", figures.mark.clone()));
    facts.iter().map(|(key, value)| json!({ "label": labels.text(key), "value": value })).collect()
}

fn kit(order: &Order, labels: &Words, facts: &Facts) -> Vec<String> {
    let Some(offer) = blank(order.design) else { return Vec::new() };
    let board = labels.text(if facts.contains("cut") { "sheet-board-cut" } else { "sheet-board-scored" });
    let ground = labels.text(if offer.primed { "sheet-primed" } else { "sheet-unprimed" });
    let words = order.design.words.get(order.language).and_then(|w| w.contains.as_ref());
    let mut kit = vec![labels.with("sheet-kit-board", &[("board", board.into()), ("ground", ground.into())])];
    kit.extend(words.unwrap_or(&offer.contains).iter().map(|item| one_line(item)));
    // An owner who lists what the kit holds has listed the guide as well, or means to leave it out.
    if offer.contains.is_empty() {
        kit.push(labels.text("sheet-kit-guide"));
    }
    kit
}

/// How much primer and sealer to have ready for the board, each as a range.
fn coats(order: &Order, labels: &Words, facts: &Facts) -> Vec<String> {
    let board_mm2 = order.measured.figures.pieces.board_mm2;
    let mut all = Vec::new();
    if facts.contains("unprimed") {
        all.push(range(labels, "sheet-amount-primer", amounts::millilitres(Laid::Primer, board_mm2)));
    }
    all.push(range(labels, "sheet-amount-sealer", amounts::millilitres(Laid::Sealer, board_mm2)));
    all
}

/// A range in whole millilitres, rounded outwards. Tubes and bottles are marked in them everywhere, so they are not turned into ounces.
fn range(labels: &Words, key: &str, [least, most]: [f64; 2]) -> String {
    let whole = |ml: f64| ml.max(1.0) as usize;
    labels.with(key, &[("least", whole(libm::floor(least)).into()), ("most", whole(libm::ceil(most)).into())])
}

/// A mix from the shop's pans for each paint of which the record does not say how to mix it; a suggestion to test on scrap.
fn suggested(order: &Order, labels: &Words) -> Vec<Option<String>> {
    let pans = &order.settings.pans;
    let paints = &order.design.paints;
    if pans.is_empty() || paints.iter().all(|p| p.mix.is_some()) {
        return vec![None; paints.len()];
    }
    let colours: Vec<Rgb> = pans.iter().map(|p| p.colour).collect();
    let palette = mixing::Palette::new(&colours);
    let text = |mix: mixing::Mix| {
        let part = |(pan, count): &(usize, u32)| {
            let name = pans.get(*pan).map(|p| one_line(&p.name)).unwrap_or_default();
            labels.with("sheet-mix-part", &[("count", (*count as usize).into()), ("name", name.into())])
        };
        let mut parts: Vec<String> = mix.parts.iter().map(part).collect();
        if mix.water > 0 {
            parts.push(labels.with("sheet-mix-water", &[("count", (mix.water as usize).into())]));
        }
        labels.with("sheet-mix-suggested", &[("text", parts.join(", ").into())])
    };
    paints.iter().map(|p| if p.mix.is_some() { None } else { palette.suggest(p.colour).map(text) }).collect()
}

fn palette(order: &Order, labels: &Words) -> Vec<Value> {
    let Some(plan) = &order.measured.plan else { return Vec::new() };
    let language = order.language;
    let suggested = suggested(order, labels);
    let entry = |(index, paint): (usize, &crate::shop::Paint)| {
        let cells = plan.cells.iter().filter(|c| c.paint == Some(index));
        let (count, area_mm2) = cells.fold((0_usize, 0.0), |(n, area), c| (n + 1, area + c.area_mm2));
        let words = order.design.words.get(language).and_then(|w| w.paints.get(&paint.number));
        let name = words.and_then(|w| w.name.as_deref()).unwrap_or(&paint.name);
        let mix = words.and_then(|w| w.mix.as_deref()).or(paint.mix.as_deref()).map(one_line);
        let wash = words.and_then(|w| w.wash.as_deref()).or(paint.wash.as_deref()).map(one_line);
        json!({
            "number": paint.number,
            "name": one_line(name),
            "colour": paint.colour.to_string(),
            "mix": mix
                .map(|text| labels.with("sheet-mix", &[("text", text.into())]))
                .or_else(|| suggested.get(index).cloned().flatten()),
            "wash": wash.map(|text| labels.with("sheet-wash", &[("text", text.into())])),
            "cells": labels.with("sheet-cell-count", &[("count", count.into())]),
            "area": (count > 0).then(|| area_text(labels, area_mm2, order.settings.units)),
            "amount": (count > 0).then(|| {
                let ml = amounts::millilitres(Laid::Acrylic, area_mm2);
                if ml[1] <= 1.0 { labels.text("sheet-amount-drop") } else { range(labels, "sheet-amount-acrylic", ml) }
            }),
        })
    };
    order.design.paints.iter().enumerate().map(entry).collect()
}

fn turns(order: &Order, labels: &Words, picture: &Picture) -> Vec<Value> {
    let paint = |index: &usize| {
        let paint = order.design.paints.get(*index)?;
        let words = order.design.words.get(order.language).and_then(|w| w.paints.get(&paint.number));
        let name = words.and_then(|w| w.name.as_deref()).unwrap_or(&paint.name);
        Some(json!({ "number": paint.number, "name": one_line(name), "colour": paint.colour.to_string() }))
    };
    let turn = |(index, paints): (usize, &Vec<usize>)| {
        json!({
            "name": labels.with("sheet-turn", &[("number", (index + 1).into())]),
            "paints": paints.iter().filter_map(paint).collect::<Vec<_>>(),
        })
    };
    picture.turns.iter().enumerate().map(turn).collect()
}
