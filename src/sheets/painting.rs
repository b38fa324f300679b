//! The painting guide of a blank: cover, order of work, palette, the drawing true to size, trial page, what to do when something goes wrong.
//!
//! In: [`PaintingOrder`]. Out: PDF bytes. All that the template prints is worked out here and handed to it as `/data.json`; drawings are `/drawing/….svg`.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::glyphs::{check, one_line};
use super::labels::plain;
use super::plan::{Picture, picture};
use super::steps::{Facts, Row, needs, notes, steps};
use super::tiles::{FOOT_MM, HEAD_MM, MARGIN_MM, paper_mm, tiling};
use super::world::Job;
use super::{Sheet, SheetError, drawing, template_files};
use crate::cautions;
use crate::figures::Measured;
use crate::shop::{BlankBoard, Design, Form, Offer, Paper, Settings, Units};
use crate::units::{MM_PER_IN, rounded};
use crate::wording::Words;

/// All that a painting guide is made from.
#[derive(Clone, Copy, Debug)]
pub struct PaintingOrder<'a> {
    /// The record.
    pub design: &'a Design,
    /// Its figures and what they came from.
    pub measured: &'a Measured,
    /// The shop.
    pub settings: &'a Settings,
    /// Paper to print on.
    pub paper: Paper,
    /// BCP 47; words that lack in it stand in the record's own language, the program's in English.
    pub language: &'a str,
    /// The cover picture as an encoded JPEG; without one the cover shows the line drawing, reduced.
    pub cover_jpeg: Option<&'a [u8]>,
    /// The owner's theme by path inside `theme/`; whatever lies under `sheets/` stands in for the program's own.
    pub theme: &'a BTreeMap<String, Vec<u8>>,
}

/// Makes the painting guide for the design's blank offer. A design without one gets the guide for a scored board that its painter primes.
///
/// The same order gives the same bytes. 100 mm on the drawing's sheets are 283.465 pt.
///
/// # Errors
/// A character that no font has, a template that cannot be laid out, a design without a board.
pub fn painting_guide(order: &PaintingOrder) -> Result<Sheet, SheetError> {
    let made = make(order);
    // typst keeps what it worked out for the next document; a run over many guides must not grow by it.
    comemo::evict(0);
    made
}

fn make(order: &PaintingOrder) -> Result<Sheet, SheetError> {
    let picture = picture(order.measured, &order.design.paints, order.paper)?;
    let mut files = template_files(order.theme);
    let words = Words::for_language(order.language);
    let drawing = drawing::sheets(order, &words, &picture, &mut files);
    let data = data(order, &words, &picture, drawing);
    check(&data)?;
    if let Some(jpeg) = order.cover_jpeg {
        files.insert("/cover.jpg".to_owned(), jpeg.to_vec());
    }
    files.insert("/data.json".to_owned(), data.to_string().into_bytes());
    let ident =
        format!("{} {} painting {:?} {}", order.design.slug, order.measured.figures.mark, order.paper, order.language);
    Job::new("/sheets/painting.typ", files)?.pdf(&ident, !data["added"].is_null())
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

fn data(order: &PaintingOrder, labels: &Words, picture: &Picture, drawing: Value) -> Value {
    let PaintingOrder { design, settings, language, .. } = order;
    let words = design.words.get(*language);
    let title = one_line(words.and_then(|w| w.title.as_deref()).unwrap_or(&design.title));
    let summary = words.and_then(|w| w.summary.as_deref()).or(design.summary.as_deref()).map(one_line);
    let edition = words.and_then(|w| w.edition.as_deref()).or(design.edition.as_deref()).map(one_line);
    let planned = order.measured.plan.is_some();
    let facts = facts(design, planned);
    let way = if facts.contains("cut") { "cut" } else { "scored" };
    let (width_mm, height_mm) = paper_mm(order.paper);
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
        "language": language,
        "added": design.added.as_deref().and_then(date),
        "paper": { "width_mm": width_mm, "height_mm": height_mm },
        "words": plain(labels),
        "title": title,
        "short_title": short(&title),
        "summary": summary,
        "edition": edition,
        "shop": one_line(&settings.name),
        "mark": order.measured.figures.mark,
        "planned": planned,
        "cover": {
            "has_picture": order.cover_jpeg.is_some(),
            "alt": labels.with("sheet-cover-alt", &[("title", title.as_str().into())]),
            "facts": cover_facts(order, labels, way),
            "kit": kit(order, labels, &facts),
            "needs": needs(&facts).map(|n| n.text(language)).collect::<Vec<_>>(),
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

/// `YYYY-MM-DD` as numbers; nothing for any other text.
fn date(text: &str) -> Option<Value> {
    let numbers: Vec<u32> = text.splitn(3, '-').map(str::parse).collect::<Result<_, _>>().ok()?;
    match numbers[..] {
        [year, month @ 1..=12, day @ 1..=31] => Some(json!({ "year": year, "month": month, "day": day })),
        _ => None,
    }
}

/// The title for the foot of a page: whole words, at most about 60 characters.
fn short(title: &str) -> String {
    if title.chars().count() <= 60 {
        return title.to_owned();
    }
    let mut cut: String = title.chars().take(58).collect();
    if let Some((words, _)) = cut.rsplit_once(' ')
        && words.chars().count() > 30
    {
        cut = words.to_owned();
    }
    cut + "…"
}

fn cover_facts(order: &PaintingOrder, labels: &Words, way: &str) -> Vec<Value> {
    let figures = &order.measured.figures;
    let pieces = figures.pieces.count;
    let pieces =
        if way == "cut" { pieces.to_string() } else { labels.with("sheet-pieces-later", &[("count", pieces.into())]) };
    let size = [figures.size.width_mm, figures.size.height_mm, figures.size.thickness_mm];
    let mut facts = vec![("sheet-pieces", pieces), ("sheet-size", size_text(size, order.settings.units))];
    facts.push(("sheet-board", one_line(&order.design.board.wood.name)));
    if let Some(plan) = &order.measured.plan {
        let used =
            order.design.paints.iter().enumerate().filter(|(i, _)| plan.cells.iter().any(|c| c.paint == Some(*i)));
        facts.push(("sheet-colours", used.count().to_string()));
        facts.push(("sheet-cells", plan.cells.len().to_string()));
    }
    facts.push(("sheet-mark", figures.mark.clone()));
    facts.iter().map(|(key, value)| json!({ "label": labels.text(key), "value": value })).collect()
}

fn kit(order: &PaintingOrder, labels: &Words, facts: &Facts) -> Vec<String> {
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

fn palette(order: &PaintingOrder, labels: &Words) -> Vec<Value> {
    let Some(plan) = &order.measured.plan else { return Vec::new() };
    let language = order.language;
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
            "mix": mix.map(|text| labels.with("sheet-mix", &[("text", text.into())])),
            "wash": wash.map(|text| labels.with("sheet-wash", &[("text", text.into())])),
            "cells": labels.with("sheet-cell-count", &[("count", count.into())]),
            "area": (count > 0).then(|| area_text(area_mm2, order.settings.units)),
        })
    };
    order.design.paints.iter().enumerate().map(entry).collect()
}

fn turns(order: &PaintingOrder, labels: &Words, picture: &Picture) -> Vec<Value> {
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

/// Width, height and thickness in the shop's units: whole millimetres and tenths for the thickness, or tenths of an inch and hundredths.
fn size_text(mm: [f64; 3], units: Units) -> String {
    let metric = format!("{} × {} × {} mm", rounded(mm[0], 0), rounded(mm[1], 0), trimmed(mm[2], 1));
    let inches = mm.map(|v| v / MM_PER_IN);
    let us = format!("{} × {} × {} in", rounded(inches[0], 1), rounded(inches[1], 1), trimmed(inches[2], 2));
    in_units(metric, us, units)
}

/// An area in the shop's units: cm² or square inches, with a decimal below 10.
pub(super) fn area_text(mm2: f64, units: Units) -> String {
    let amount = |value: f64| rounded(value, if value < 9.95 { 1 } else { 0 });
    in_units(format!("{} cm²", amount(mm2 / 100.0)), format!("{} in²", amount(mm2 / (MM_PER_IN * MM_PER_IN))), units)
}

fn in_units(metric: String, us: String, units: Units) -> String {
    match units {
        Units::Metric => metric,
        Units::Us => us,
        Units::Both => format!("{metric} ({us})"),
    }
}

fn trimmed(value: f64, decimals: usize) -> String {
    let text = rounded(value, decimals);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// Shares the drawing out, for the sheets and for the reduced views.
pub(super) fn tiling_of(order: &PaintingOrder, picture: &Picture) -> super::tiles::Tiling {
    tiling(picture.all, order.paper)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_and_areas_are_printed_in_the_shops_units() {
        let size = [299.8, 199.8, 6.0];
        assert_eq!(size_text(size, Units::Metric), "300 × 200 × 6 mm");
        assert_eq!(size_text(size, Units::Us), "11.8 × 7.9 × 0.24 in");
        // 1 in² = 645.16 mm², exact: 25.4².
        assert_eq!(area_text(6451.6, Units::Both), "65 cm² (10 in²)");
        assert_eq!(area_text(50.0, Units::Metric), "0.5 cm²");
    }

    #[test]
    fn a_long_title_is_cut_between_words_for_the_foot() {
        assert_eq!(short("Ferry at half tide"), "Ferry at half tide");
        let long = short(&"herons in the reeds ".repeat(10));
        assert!(long.ends_with("…") && long.chars().count() <= 60, "{long}");
    }

    #[test]
    fn only_a_date_is_a_date() {
        assert_eq!(date("2026-03-14"), Some(json!({ "year": 2026, "month": 3, "day": 14 })));
        assert_eq!((date("soon"), date("2026-13-01")), (None, None));
    }
}
