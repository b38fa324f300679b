//! The count sheet: is everything there after the cut?
//!
//! In: [`Order`]. Out: PDF bytes: the map with a number in every piece, rows to tick off, where to look first, and how to weigh instead of counting.
//! Private: it shows every cut. Rule: handbook, "The sheets".

use serde_json::{Value, json};

use super::frame::{Files, Order, design_sheet};
use super::lines::{Run, clipped};
use super::map::{PieceMap, map};
use super::numbers::Number;
use super::sizes::{area_text, number_text, small_length_text, small_mass_text};
use super::svg::{POINTS_PER_MM, Svg};
use super::tiles::{Tile, name, paper_mm};
use super::weighing::{Weighing, weighing};
use super::world::digit_em;
use super::{Sheet, SheetError};
use crate::shape::{Extent, Point};
use crate::wording::{Value as Filling, Words};

/// Margin of a map page, its head and its foot, mm.
const MARGIN_MM: f64 = 15.0;
const HEAD_MM: f64 = 24.0;
const FOOT_MM: f64 = 8.0;
/// How many of the smallest and of the narrowest pieces are named.
const NAMED: usize = 8;
const INK: &str = "#000000";
const FAINT: &str = "#6b6b6b";

/// Makes the count sheet. `personal` marks figures made anew for one buyer's version.
///
/// # Errors
/// A character that no font has, a template that cannot be laid out, a design without a board.
pub fn count_sheet(order: &Order, personal: bool) -> Result<Sheet, SheetError> {
    let (width, height) = paper_mm(order.paper);
    let size = order.measured.figures.size;
    let across = size.width_mm > size.height_mm;
    let (width, height) = if across { (height, width) } else { (width, height) };
    let map = map(order.measured, (width - 2.0 * MARGIN_MM, height - 2.0 * MARGIN_MM - HEAD_MM - FOOT_MM))?;
    let words = Words::for_language(order.language);
    let mut files = Files::new();
    let shown: Vec<&Tile> = map.tiling.tiles.iter().filter(|t| shows(&map, t.window)).collect();
    let pages: Vec<Value> = shown.iter().map(|t| page(&words, &map, t, shown.len() > 1, &mut files)).collect();
    let data = json!({
        "personal": personal,
        "facts": facts(order, &words),
        "across": across,
        "page": { "margin_mm": MARGIN_MM, "head_mm": HEAD_MM, "foot_mm": FOOT_MM },
        "map": {
            "pages": pages,
            "scale": scale_text(&words, map.scale),
            "leaders": map.numbers.iter().any(|n| n.leader.is_some()),
        },
        "rows": rows(&words, &map),
        "total": words.with("sheet-count-total", &[("count", order.measured.board.pieces.len().into())]),
        "small": words.text("small-pieces"),
        "look": look(order, &words, &map),
        "weighing": weigh(order, &map).map(|w| weighing_data(order, &words, &w)),
    });
    let private = if personal { "sheet-private-personal" } else { "sheet-private" };
    design_sheet(order, "count", "sheet-count", Some(private), data, files)
}

fn facts(order: &Order, words: &Words) -> Vec<Value> {
    let figures = &order.measured.figures;
    let pieces = &figures.pieces;
    [
        ("sheet-pieces", pieces.count.to_string()),
        ("sheet-count-edge", pieces.edge.to_string()),
        ("sheet-count-inside", pieces.interior.to_string()),
        ("sheet-mark", figures.mark.clone()),
    ]
    .into_iter()
    .map(|(key, value)| json!({ "label": words.text(key), "value": value }))
    .collect()
}

fn scale_text(words: &Words, scale: f64) -> String {
    if scale > 0.9995 {
        return words.text("sheet-count-true");
    }
    words.with("sheet-map-scale", &[("percent", number_text(words, scale * 100.0, 0).into())])
}

fn within(window: Extent, taken: Extent) -> bool {
    taken.min.x >= window.min.x
        && taken.max.x <= window.max.x
        && taken.min.y >= window.min.y
        && taken.max.y <= window.max.y
}

fn shows(map: &PieceMap, window: Extent) -> bool {
    map.numbers.iter().any(|n| within(window, n.taken)) || map.lines.iter().any(|l| !clipped(l, window).is_empty())
}

/// One page of the map: its drawing, the numbers on it, the rows' ends.
fn page(words: &Words, map: &PieceMap, tile: &Tile, several: bool, files: &mut Files) -> Value {
    let window = tile.window;
    let part = name(tile.row, tile.column);
    let file = format!("/drawing/{part}.svg");
    let clip = |runs: &[Run]| -> Vec<Run> { runs.iter().flat_map(|run| clipped(run, window)).collect() };
    let ends: Vec<f64> = map.rows.iter().map(|r| r.below_mm).collect();
    let borders: Vec<Run> = ends
        .iter()
        .take(ends.len().saturating_sub(1))
        .map(|y| vec![Point::new(map.board.min.x - 4.0, *y), Point::new(map.board.max.x + 4.0, *y)])
        .collect();
    let leaders: Vec<Run> = map.numbers.iter().filter_map(|n| n.leader.map(|(dot, end, _)| vec![dot, end])).collect();
    let mut svg = Svg::new(window, 1.0);
    svg.lines(&clip(&borders), 0.1, FAINT, Some((1.0, 1.4)));
    svg.lines(&clip(&map.lines), 0.13, INK, None);
    svg.lines(&clip(&map.outline), 0.3, INK, None);
    svg.lines(&clip(&leaders), 0.1, INK, None);
    for (dot, _, radius_mm) in map.numbers.iter().filter_map(|n| n.leader) {
        if within(window, Extent { min: dot, max: dot }) {
            svg.disc(dot, radius_mm, INK, None);
        }
    }
    files.insert(file.clone(), svg.finish());

    let numbers: Vec<&Number> = map.numbers.iter().filter(|n| within(window, n.taken)).collect();
    // A row's label stands half way between its ends, beside the map.
    let left = map.board.min.x - 4.0;
    let starts = std::iter::once(map.board.min.y).chain(ends.iter().copied());
    let labels: Vec<Value> = (1_usize..)
        .zip(starts.zip(&ends))
        .map(|(number, (above, below))| (number, f64::midpoint(above, *below)))
        .filter(|(_, y)| *y > window.min.y && *y < window.max.y)
        .map(|(number, y)| json!([number.to_string(), left.max(window.min.x) - window.min.x, y - window.min.y]))
        .collect();
    json!({
        "name": several.then(|| words.with("sheet-count-part", &[("name", part.as_str().into())])),
        "file": file,
        "alt": words.with("sheet-count-alt", &[("count", Filling::from(numbers.len()))]),
        "size_mm": [window.width_mm(), window.height_mm()],
        "numbers": numbers
            .iter()
            .map(|n| json!([n.text, n.at.x - window.min.x, n.at.y - window.min.y, n.height_mm * POINTS_PER_MM / digit_em().1]))
            .collect::<Vec<_>>(),
        "rows": labels,
    })
}

fn rows(words: &Words, map: &PieceMap) -> Vec<Value> {
    let mut running = 0;
    (1_usize..)
        .zip(&map.rows)
        .map(|(number, row)| {
            running += row.pieces.len();
            json!({
                "name": words.with("sheet-count-row", &[("number", number.into())]),
                "pieces": row.pieces.iter().map(|p| (p + 1).to_string()).collect::<Vec<_>>(),
                "count": row.pieces.len().to_string(),
                "running": running.to_string(),
            })
        })
        .collect()
}

/// Which pieces to look for first: the smallest, the narrowest, those with a weak neck.
fn look(order: &Order, words: &Words, map: &PieceMap) -> Value {
    let units = order.settings.units;
    let pieces = &order.measured.board.pieces;
    let row_of = |piece: usize| map.rows.iter().position(|r| r.pieces.contains(&piece)).map_or(0, |r| r + 1);
    let named = |mut all: Vec<(usize, f64)>, print: &dyn Fn(f64) -> String| -> Vec<Value> {
        // Pieces alike to a thousandth come in the order of their numbers.
        all.sort_by_key(|(piece, value)| ((value * 1000.0).round() as i64, *piece));
        let one = |(piece, value): &(usize, f64)| {
            let row = words.with("sheet-count-row", &[("number", row_of(*piece).into())]);
            json!([(piece + 1).to_string(), print(*value), row])
        };
        all.iter().take(NAMED).map(one).collect()
    };
    let areas = pieces.iter().enumerate().map(|(i, p)| (i, p.net_mm2)).collect();
    let widths = map.inmost.iter().enumerate().map(|(i, m)| (i, 2.0 * m.room_mm)).collect();
    let necks: Vec<String> = order.measured.necks.iter().map(|n| (n.piece + 1).to_string()).collect();
    json!({
        "small": named(areas, &|mm2| area_text(words, mm2, units)),
        "narrow": named(widths, &|mm| small_length_text(words, mm, units)),
        "necks": (!necks.is_empty()).then(|| words.with("sheet-count-necks", &[("pieces", necks.join(", ").into())])),
    })
}

fn weigh(order: &Order, map: &PieceMap) -> Option<Weighing> {
    let figures = &order.measured.figures;
    let areas: Vec<f64> = order.measured.board.pieces.iter().map(|p| p.net_mm2).collect();
    let rows: Vec<Vec<usize>> = map.rows.iter().map(|r| r.pieces.clone()).collect();
    // mm² × mm × kg/m³: 1e-9 m³ and 1e3 g.
    weighing(&areas, &rows, figures.size.thickness_mm * figures.weight.density_kg_m3 * 1e-6)
}

fn weighing_data(order: &Order, words: &Words, w: &Weighing) -> Value {
    let units = order.settings.units;
    let mass = |g: f64| small_mass_text(words, g, units);
    let board_g = order.measured.figures.weight.board_g;
    let sample: Vec<String> = w.sample.iter().map(|p| (p + 1).to_string()).collect();
    let count = order.measured.board.pieces.len();
    let limits: Vec<Value> = w
        .limits
        .iter()
        .map(|l| {
            let lighter = words.with("sheet-weigh-lighter", &[("count", l.lighter.into()), ("all", count.into())]);
            json!([format!("{} g", number_text(words, l.step_g, 2)), mass(l.beyond_g), mass(l.shows_g), lighter])
        })
        .collect();
    json!({
        "why": words.with(
            "sheet-weigh-why",
            &[
                ("board", mass(board_g).into()),
                ("percent", number_text(words, super::weighing::VARIATION * 100.0, 0).into()),
                ("off", mass(super::weighing::VARIATION * board_g).into()),
                ("pieces", number_text(words, w.computed_off, 0).into()),
            ],
        ),
        "sample": sample,
        "steps": [
            words.text("sheet-weigh-1"),
            words.with("sheet-weigh-2", &[("factor", number_text(words, w.factor, 3).into())]),
            words.text("sheet-weigh-3"),
        ],
        "limits": limits,
        "uneven": words.with(
            "sheet-weigh-uneven",
            &[
                ("mass", mass(0.01 * board_g).into()),
                ("pieces", number_text(words, 0.01 * board_g / w.middle_g.max(1e-9), 1).into()),
                ("middle", mass(w.middle_g).into()),
                ("lightest", mass(w.lightest_g).into()),
            ],
        ),
    })
}
