//! The bench sheet: what a design costs in laser time, wood and work, and what its prices leave.
//!
//! In: [`Order`]. Out: PDF bytes: what is cut first, lengths and times, boards from a stock sheet, the price floor of each offer, the steps to tick, cautions.
//! Private: it holds the workshop's rates and every cut. Rule: handbook, "The sheets".

use serde_json::{Value, json};

use super::floor::{Costs, Floor, Pack, floor};
use super::frame::{Files, Order, design_sheet};
use super::grid::grown;
use super::packing::{Yield, yields};
use super::route::{self, Run, Stroke, Turn};
use super::sizes::{area_text, lengths_text, number_text, price_text, run_text, size_text, small_mass_text, time_text};
use super::steps::{Facts, Row, steps};
use super::svg::Svg;
use super::{Sheet, SheetError};
use crate::cautions;
use crate::findings::Severity;
use crate::shape::{Extent, Point, Ring};
use crate::shop::{BlankBoard, Form, Offer, Workshop};
use crate::units::Money;
use crate::wording::Words;

/// Greatest size of the small drawing, mm.
const DRAWING_MM: (f64, f64) = (160.0, 92.0);

/// Makes the bench sheet. `personal` marks figures made anew for one buyer's version.
///
/// # Errors
/// A character that no font has, a template that cannot be laid out, a design without a board.
pub fn bench_sheet(order: &Order, personal: bool) -> Result<Sheet, SheetError> {
    let words = Words::for_language(order.language);
    let mut files = Files::new();
    let work = Work::of(order);
    let data = json!({
        "personal": personal,
        "facts": facts(order, &words),
        "drawing": drawing(order, &work, &mut files)?,
        "laser": laser(order, &words, &work),
        "stock": stock(order, &words),
        "offers": order.design.offers.iter().map(|o| offer(order, &words, &work, o)).collect::<Vec<_>>(),
        "checks": order.design.offers.iter().map(|o| checklist(order, &words, o)).collect::<Vec<_>>(),
        "cautions": bench_cautions(order.language),
    });
    let private = if personal { "sheet-private-personal" } else { "sheet-private" };
    design_sheet(order, "bench", "sheet-bench", Some(private), data, files)
}

/// What can hurt at the bench, each once; what defers to local rules stands last.
fn bench_cautions(language: &str) -> Vec<Value> {
    let mut all: Vec<&cautions::Caution> = Vec::new();
    for caution in ["everywhere", "laser", "finish"].into_iter().flat_map(cautions::of) {
        all.retain(|known| known.id != caution.id);
        all.push(caution);
    }
    let words = all.into_iter().map(|c| c.in_language(language));
    words.map(|(title, text)| json!({ "title": title, "text": text })).collect()
}

/// What the laser does.
struct Work {
    cuts: Vec<Stroke>,
    cut: Run,
    score: Run,
    /// A board that is scored and leaves whole: its outline and openings alone are cut.
    whole: Run,
    whole_mm: f64,
}

impl Work {
    fn of(order: &Order) -> Work {
        let measured = order.measured;
        let faces = || measured.board.parts.iter().map(|p| &p.outline);
        let outer: Vec<&Ring> = faces().map(|f| &f.outer).collect();
        let openings = || faces().flat_map(|f| &f.holes);
        let cuts = route::cuts(&measured.drawing.lines, &outer);
        Work {
            cut: route::run(&cuts),
            score: route::run(&route::scores(&measured.drawing.lines)),
            whole: route::run(&route::rings(outer.iter().copied(), openings())),
            whole_mm: route::rings_mm(outer.iter().copied().chain(openings())),
            cuts,
        }
    }
}

/// Seconds for a length at a speed.
fn seconds(mm: f64, speed_mm_s: Option<f64>) -> Option<f64> {
    speed_mm_s.filter(|s| *s > 0.0).map(|s| mm / s)
}

/// Minutes under the laser for one offer, in the advised order; `None` where a speed lacks that is needed.
fn laser_minutes(order: &Order, work: &Work, offer: &Offer) -> Option<f64> {
    let Workshop { cut_speed_mm_s, score_speed_mm_s, travel_speed_mm_s, .. } = order.settings.workshop;
    let lines = order.measured.figures.lines;
    let (cut_mm, cut) = if whole(offer) { (work.whole_mm, &work.whole) } else { (lines.cut_mm, &work.cut) };
    let scored = offer.form != Form::Plain && lines.score_mm > 0.0;
    let mut sum = seconds(cut_mm, cut_speed_mm_s)? + seconds(cut.advised_mm, travel_speed_mm_s)?;
    if scored {
        sum += seconds(lines.score_mm, score_speed_mm_s)? + seconds(work.score.advised_mm, travel_speed_mm_s)?;
    }
    Some(sum / 60.0)
}

fn whole(offer: &Offer) -> bool {
    offer.form == Form::Blank && offer.board == BlankBoard::Scored
}

fn facts(order: &Order, words: &Words) -> Vec<Value> {
    let figures = &order.measured.figures;
    let size = [figures.size.width_mm, figures.size.height_mm, figures.size.thickness_mm];
    let units = order.settings.units;
    let problems = order.measured.findings.iter().filter(|f| f.severity == Severity::Problem).count();
    [
        ("sheet-pieces", figures.pieces.count.to_string()),
        ("sheet-size", size_text(words, size, units)),
        ("sheet-board", super::glyphs::one_line(order.design.board.wood.in_language(order.language))),
        ("sheet-bench-weight", small_mass_text(words, figures.weight.board_g, units)),
        ("sheet-mark", figures.mark.clone()),
        ("sheet-bench-problems", words.with("sheet-bench-problems-count", &[("count", problems.into())])),
    ]
    .into_iter()
    .map(|(key, value)| json!({ "label": words.text(key), "value": value }))
    .collect()
}

/// The board with what is cut first drawn thick and what is cut last broken.
fn drawing(order: &Order, work: &Work, files: &mut Files) -> Result<Value, SheetError> {
    let outlines = order.measured.board.parts.iter().map(|p| &p.outline.outer);
    let board = Extent::of(outlines.flatten()).ok_or(SheetError::NoBoard)?;
    let window = grown(board, 1.5);
    let scale = (DRAWING_MM.0 / window.width_mm()).min(DRAWING_MM.1 / window.height_mm()).min(1.0);
    let lines = |turn: Turn| -> Vec<Vec<Point>> {
        let of_turn = work.cuts.iter().filter(|s| s.turn == turn);
        of_turn
            .map(|s| {
                let mut points = s.points.clone();
                points.extend(s.closed.then(|| s.points.first().copied()).flatten());
                super::lines::thin(&points)
            })
            .collect()
    };
    let mut svg = Svg::new(window, scale);
    svg.lines(&lines(Turn::Between), 0.13, "#000000", None);
    svg.lines(&lines(Turn::Inside), 0.5, "#000000", None);
    svg.lines(&lines(Turn::Outline), 0.5, "#000000", Some((2.4, 1.2)));
    files.insert("/drawing/order.svg".to_owned(), svg.finish());
    Ok(json!({ "width_mm": window.width_mm() * scale, "height_mm": window.height_mm() * scale }))
}

fn laser(order: &Order, words: &Words, work: &Work) -> Value {
    let Workshop { cut_speed_mm_s, score_speed_mm_s, travel_speed_mm_s, .. } = order.settings.workshop;
    let lines = order.measured.figures.lines;
    let units = order.settings.units;
    let row = |key: &str, mm: f64, speed: Option<f64>| {
        let time = seconds(mm, speed).map_or_else(|| "–".to_owned(), time_text);
        let speed = speed.map_or_else(|| "–".to_owned(), |s| format!("{} mm/s", number_text(words, s, 1)));
        json!([words.text(key), run_text(words, mm, units), speed, time])
    };
    let scored = lines.score_mm > 0.0;
    let (drawn, advised) = (work.cut.drawn_mm + work.score.drawn_mm, work.cut.advised_mm + work.score.advised_mm);
    let mut rows = vec![row("sheet-bench-cut", lines.cut_mm, cut_speed_mm_s)];
    if scored {
        rows.insert(0, row("sheet-bench-score", lines.score_mm, score_speed_mm_s));
    }
    rows.push(row("sheet-bench-travel-drawn", drawn, travel_speed_mm_s));
    rows.push(row("sheet-bench-travel-advised", advised, travel_speed_mm_s));
    let total = seconds(lines.cut_mm, cut_speed_mm_s)
        .zip(if scored { seconds(lines.score_mm, score_speed_mm_s) } else { Some(0.0) })
        .zip(seconds(advised, travel_speed_mm_s))
        .map(|((cut, score), travel)| cut + score + travel);
    let [inside, between, outline] = work.cut.counts;
    let saved = drawn - advised;
    let values = [
        ("inside", inside.into()),
        ("between", between.into()),
        ("outline", outline.into()),
        ("advised", run_text(words, advised, units).into()),
        ("drawn", run_text(words, drawn, units).into()),
        ("saved", run_text(words, saved.abs(), units).into()),
    ];
    let mut advice = words.with(if inside > 0 { "sheet-bench-advice" } else { "sheet-bench-advice-plain" }, &values);
    advice.push(' ');
    advice.push_str(&words.with(if saved >= 0.0 { "sheet-bench-saves" } else { "sheet-bench-costs" }, &values));
    if let Some(s) = seconds(saved.abs(), travel_speed_mm_s) {
        advice.push(' ');
        let key = if saved >= 0.0 { "sheet-bench-saves-time" } else { "sheet-bench-costs-time" };
        advice.push_str(&words.with(key, &[("time", time_text(s).into())]));
    }
    json!({
        "rows": rows,
        "total": total.map(time_text),
        "advice": advice,
        "inside": inside > 0,
    })
}

fn yield_of(order: &Order) -> Option<(Yield, [f64; 2], f64)> {
    let shop = &order.settings.workshop;
    let sheet_mm = shop.sheet_mm?;
    let margin_mm = shop.sheet_margin_mm.unwrap_or(0.0);
    let size = order.measured.figures.size;
    let kerf_mm = order.measured.board.kerf_mm;
    // Size is what is left after the kerf; the lines lie half a kerf outside on each side.
    let board_mm = [size.width_mm + kerf_mm, size.height_mm + kerf_mm];
    let found = yields(sheet_mm, margin_mm, board_mm, kerf_mm, order.measured.figures.pieces.board_mm2);
    Some((found, sheet_mm, margin_mm))
}

fn stock(order: &Order, words: &Words) -> Value {
    let Some((found, sheet_mm, margin_mm)) = yield_of(order) else {
        return json!({ "lead": words.text("sheet-bench-no-sheet"), "rows": [], "note": null });
    };
    let lengths = |all: &[f64]| lengths_text(words, all, order.settings.units);
    let even = |key: &str, (across, down): (usize, usize)| {
        json!([words.text(key), format!("{across} × {down}"), (across * down).to_string()])
    };
    let even_most = (found.upright.0 * found.upright.1).max(found.turned.0 * found.turned.1);
    let mut rows = vec![even("sheet-bench-upright", found.upright), even("sheet-bench-turned", found.turned)];
    if found.most > even_most {
        rows.push(json!([words.text("sheet-bench-mixed"), "", found.most.to_string()]));
    }
    json!({
        "lead": words.with(
            "sheet-bench-sheet",
            &[("sheet", lengths(&sheet_mm).into()), ("margin", lengths(&[margin_mm]).into())],
        ),
        "rows": rows,
        "note": words.with(
            if found.most == 0 { "sheet-bench-none" } else { "sheet-bench-yield" },
            &[("count", found.most.into()), ("percent", number_text(words, found.share * 100.0, 0).into())],
        ),
    })
}

fn costs(order: &Order, work: &Work, offer: &Offer) -> Costs {
    let shop = &order.settings.workshop;
    let painted = offer.form == Form::Painted;
    let hundreds_cm2 = order.measured.figures.pieces.board_mm2 / 1e4;
    Costs {
        sheet_price: shop.sheet_price,
        waste_percent: shop.waste_percent,
        boards: yield_of(order).map(|(found, _, _)| found.most),
        pack: offer.pack.and_then(|i| order.settings.packs.get(i)).map(|p| Pack { price: p.price }),
        extras: shop.extras_price,
        laser_minutes: laser_minutes(order, work, offer),
        painting_minutes: if painted { shop.painting_minutes_per_100_cm2.map(|m| m * hundreds_cm2) } else { Some(0.0) },
        handling_minutes: shop.handling_minutes,
        hourly_rate: shop.hourly_rate,
        fees_percent: shop.fees_percent,
    }
}

fn offer(order: &Order, words: &Words, work: &Work, offer: &Offer) -> Value {
    let costs = costs(order, work, offer);
    let found: Floor = floor(&costs, offer.price);
    let decimals = offer.price.decimals;
    let price = |m: Money| price_text(words, m, order.settings);
    let money = |minor: f64| price(Money { minor: minor.round() as i64, decimals });
    let minutes = |m: Option<f64>| m.map_or_else(|| "–".to_owned(), |m| format!("{} min", number_text(words, m, 1)));
    let row = |key: &str, amount: String, value: String| json!([words.text(key), amount, value]);
    let boards = costs.boards.map_or_else(|| "–".to_owned(), |b| b.to_string());
    let mut rows = vec![
        row("sheet-floor-wood", words.with("sheet-floor-boards", &[("count", boards.into())]), money(found.wood_minor)),
        row("sheet-floor-pack", String::new(), money(found.pack_minor)),
        row("sheet-floor-extras", String::new(), money(found.extras_minor)),
        row("sheet-floor-laser", minutes(costs.laser_minutes), String::new()),
    ];
    if offer.form == Form::Painted {
        let area = area_text(words, order.measured.figures.pieces.board_mm2, order.settings.units);
        let amount = format!("{}, {area}", minutes(costs.painting_minutes));
        rows.push(row("sheet-floor-painting", amount, String::new()));
    }
    rows.push(row("sheet-floor-handling", minutes(costs.handling_minutes), String::new()));
    let rate = costs.hourly_rate.map_or_else(|| "–".to_owned(), price);
    let time = words
        .with("sheet-floor-rate", &[("minutes", number_text(words, found.minutes, 1).into()), ("rate", rate.into())]);
    rows.push(row("sheet-floor-time", time, money(found.time_minor)));
    let fees = format!("{} %", number_text(words, costs.fees_percent.unwrap_or(0.0), 2));
    rows.push(row("sheet-floor-fees", fees, money(found.fees_minor)));
    let lacking = (!found.lacking.is_empty())
        .then(|| words.with("sheet-floor-lacking", &[("keys", found.lacking.join(", ").into())]));
    json!({
        "form": words.text(&format!("form-{}", offer.form.name())),
        "code": offer.code,
        "rows": rows,
        "floor": found.floor.map_or_else(|| "–".to_owned(), price),
        "price": price(offer.price),
        "above": found.above.map_or_else(|| "–".to_owned(), price),
        "under": found.above.is_some_and(|m| m.minor < 0),
        "lacking": lacking,
    })
}

/// The workshop's own steps for an offer.
fn checklist(order: &Order, words: &Words, offer: &Offer) -> Value {
    let way = match (offer.form, whole(offer)) {
        (Form::Painted, _) => "painted",
        (Form::Plain, _) => "plain",
        (Form::Blank, true) => "bench-scored",
        (Form::Blank, false) => "bench-cut",
    };
    let facts = Facts::from([if offer.primed { "primed" } else { "unprimed" }]);
    let step = |row: &'static Row| json!({ "title": row.title(order.language), "text": row.text(order.language) });
    json!({
        "form": words.text(&format!("form-{}", offer.form.name())),
        "code": offer.code,
        "steps": steps(way, &facts).map(step).collect::<Vec<_>>(),
    })
}
