//! The drawing's sheets: one SVG for each tile, the map of the tiles, and a reduced outline.
//!
//! In: a [`Picture`] and a tiling. Out: SVG files for the template, and where the numbers, names and joins stand on each sheet.

use serde_json::{Value, json};

use super::frame::{Files, Order};
use super::lines::{Run, clipped};
use super::numbers::Number;
use super::plan::Picture;
use super::svg::{POINTS_PER_MM, Svg};
use super::tiles::{OVERLAP_MM, Tile, Tiling, name, tiling};
use super::world::digit_em;
use crate::shape::{Extent, Point};
use crate::shop::Units;
use crate::wording::{Value as Filling, Words};

/// Widths on paper, mm.
const OUTLINE_MM: f64 = 0.35;
const BORDER_MM: f64 = 0.15;
const DETAIL_MM: f64 = 0.12;
const LEADER_MM: f64 = 0.1;
const INK: &str = "#000000";
const FAINT: &str = "#6b6b6b";

/// Greatest size of a reduced drawing, mm.
const REDUCED_MM: (f64, f64) = (150.0, 150.0);

/// Writes the SVG files and tells the template what to put where.
pub fn sheets(order: &Order, labels: &Words, picture: &Picture, files: &mut Files) -> Value {
    let tiling = tiling(picture.all, order.paper);
    let shown: Vec<&Tile> = tiling.tiles.iter().filter(|t| shows_something(picture, t.window)).collect();
    let several = shown.len() > 1;
    let tiles: Vec<Value> = shown
        .iter()
        .map(|tile| {
            let name = name(tile.row, tile.column);
            let file = format!("/drawing/{name}.svg");
            files.insert(file.clone(), tile_svg(picture, &tiling, tile));
            tile_data(labels, picture, &tiling, &shown, tile, &name, &file)
        })
        .collect();
    let reduced = reduced(picture, REDUCED_MM);
    files.insert("/drawing/whole.svg".to_owned(), whole_svg(picture, &reduced, &[]));
    files.insert("/drawing/outline.svg".to_owned(), outline_svg(picture, &reduced));
    let map = several.then(|| {
        files.insert("/drawing/map.svg".to_owned(), whole_svg(picture, &reduced, &seams(&tiling)));
        map_data(labels, &tiling, &shown, &reduced)
    });
    let count = tiling.rows * tiling.columns;
    let percent = format!("{:.0}", reduced.scale * 100.0);
    json!({
        "across": tiling.across,
        "window_mm": [tiling.window_mm.0, tiling.window_mm.1],
        "rule": labels.text(if order.settings.units == Units::Metric { "sheet-rule" } else { "sheet-rule-us" }),
        "leaders": picture.numbers.iter().any(|n| n.leader.is_some()),
        "several": several,
        "tiles": tiles,
        "map": map,
        "whole": {
            "width_mm": reduced.window.width_mm() * reduced.scale,
            "height_mm": reduced.window.height_mm() * reduced.scale,
            "alt": labels.text("sheet-overview-alt"),
            "sketch_alt": labels.text("sheet-sketch-alt"),
        },
        "overview_only": tiling.tiles.is_empty().then(|| labels.with("sheet-overview-only", &[("count", count.into()), ("percent", percent.into())])),
    })
}

/// Whether a sheet has a line, a number or a part of a board on it.
fn shows_something(picture: &Picture, window: Extent) -> bool {
    let lines = picture.outline.iter().chain(&picture.borders).chain(&picture.details);
    lines.into_iter().any(|run| !clipped(run, window).is_empty())
        || picture.numbers.iter().any(|n| holds(window, n.taken))
        || inside(&picture.outline, window.min.midpoint(window.max))
}

/// Even–odd test against closed runs; a sheet without any line lies wholly in or wholly out.
fn inside(outline: &[Run], p: Point) -> bool {
    let crosses =
        |a: Point, b: Point| (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x);
    outline.iter().flat_map(|r| r.windows(2)).filter(|w| crosses(w[0], w[1])).count() % 2 == 1
}

fn holds(window: Extent, taken: Extent) -> bool {
    taken.min.x >= window.min.x
        && taken.max.x <= window.max.x
        && taken.min.y >= window.min.y
        && taken.max.y <= window.max.y
}

fn within(runs: &[Run], window: Extent) -> Vec<Run> {
    runs.iter().flat_map(|run| clipped(run, window)).collect()
}

fn tile_svg(picture: &Picture, tiling: &Tiling, tile: &Tile) -> Vec<u8> {
    let window = tile.window;
    let mut svg = Svg::new(window, 1.0);
    svg.lines(&within(&picture.details, window), DETAIL_MM, INK, None);
    svg.lines(&within(&picture.borders, window), BORDER_MM, INK, None);
    svg.lines(&within(&picture.outline, window), OUTLINE_MM, INK, None);
    let leaders: Vec<Run> =
        picture.numbers.iter().filter_map(|n| n.leader.map(|(dot, end, _)| vec![dot, end])).collect();
    svg.lines(&within(&leaders, window), LEADER_MM, INK, None);
    for (dot, _, radius_mm) in picture.numbers.iter().filter_map(|n| n.leader) {
        if dot.x > window.min.x && dot.x < window.max.x && dot.y > window.min.y && dot.y < window.max.y {
            svg.disc(dot, radius_mm, INK, None);
        }
    }
    register(&mut svg, tiling, tile);
    svg.finish()
}

/// Dashed seams and, on them, crosses towards the sheets beside and rings towards those above and below.
fn register(svg: &mut Svg, tiling: &Tiling, tile: &Tile) {
    let window = tile.window;
    let half = OVERLAP_MM / 2.0;
    let mut seams = Vec::new();
    let mut crosses = Vec::new();
    let mut rings = Vec::new();
    let beside = [(tile.column > 0, window.min.x + half), (tile.column + 1 < tiling.columns, window.max.x - half)];
    for x in beside.into_iter().filter_map(|(there, x)| there.then_some(x)) {
        seams.push(vec![Point::new(x, window.min.y), Point::new(x, window.max.y)]);
        for share in [0.2, 0.8] {
            let y = window.min.y + share * window.height_mm();
            crosses.push(vec![Point::new(x - 3.0, y), Point::new(x + 3.0, y)]);
            crosses.push(vec![Point::new(x, y - 3.0), Point::new(x, y + 3.0)]);
        }
    }
    let above = [(tile.row > 0, window.min.y + half), (tile.row + 1 < tiling.rows, window.max.y - half)];
    for y in above.into_iter().filter_map(|(there, y)| there.then_some(y)) {
        seams.push(vec![Point::new(window.min.x, y), Point::new(window.max.x, y)]);
        rings.extend([0.2, 0.8].map(|share| Point::new(window.min.x + share * window.width_mm(), y)));
    }
    svg.lines(&seams, 0.1, FAINT, Some((1.6, 1.6)));
    svg.lines(&crosses, 0.2, INK, None);
    for ring in rings {
        svg.disc(ring, 2.0, INK, Some(0.2));
    }
}

fn tile_data(
    labels: &Words,
    picture: &Picture,
    tiling: &Tiling,
    shown: &[&Tile],
    tile: &Tile,
    own_name: &str,
    file: &str,
) -> Value {
    let window = tile.window;
    let numbers: Vec<&Number> = picture.numbers.iter().filter(|n| holds(window, n.taken)).collect();
    let several = shown.len() > 1;
    let place_key = match (tiling.rows, tiling.columns) {
        (1, _) => "sheet-tile-column",
        (_, 1) => "sheet-tile-row",
        _ => "sheet-tile-of",
    };
    let place = labels.with(
        place_key,
        &[
            ("row", row_letters(tile.row).into()),
            ("rows", row_letters(tiling.rows - 1).into()),
            ("column", (tile.column + 1).into()),
            ("columns", tiling.columns.into()),
        ],
    );
    let alt = if several {
        labels.with("sheet-tile-alt", &[("name", own_name.into())])
    } else {
        labels.with("sheet-drawing-alt", &[("cells", Filling::from(picture.numbers.len()))])
    };
    json!({
        "name": several.then(|| labels.with("sheet-tile", &[("name", own_name.into())])),
        "place": several.then_some(place),
        "alt": alt,
        "file": file,
        "numbers": numbers
            .iter()
            .map(|n| json!([n.text, n.at.x - window.min.x, n.at.y - window.min.y, n.height_mm * POINTS_PER_MM / digit_em().1]))
            .collect::<Vec<_>>(),
        "joins": joins(labels, shown, tile, &numbers),
    })
}

fn row_letters(row: usize) -> String {
    name(row, 0).trim_end_matches('1').to_owned()
}

/// Names of the neighbours, each in the strip beyond the seam, where no number stands: text, x, y, whether it is turned.
fn joins(labels: &Words, shown: &[&Tile], tile: &Tile, numbers: &[&Number]) -> Vec<Value> {
    let window = tile.window;
    let (width, height) = (window.width_mm(), window.height_mm());
    let quarter = OVERLAP_MM / 4.0;
    let neighbours = [
        (tile.row as isize, tile.column as isize - 1, true, quarter),
        (tile.row as isize, tile.column as isize + 1, true, width - quarter),
        (tile.row as isize - 1, tile.column as isize, false, quarter),
        (tile.row as isize + 1, tile.column as isize, false, height - quarter),
    ];
    let mut joins = Vec::new();
    for (row, column, turned, across) in neighbours {
        let Some(other) = shown.iter().find(|t| (t.row as isize, t.column as isize) == (row, column)) else { continue };
        let spot = |share: f64| if turned { (across, share * height) } else { (share * width, across) };
        let free = |share: &f64| {
            let (x, y) = spot(*share);
            let (reach_x, reach_y) = if turned { (4.0, 12.0) } else { (12.0, 4.0) };
            !numbers
                .iter()
                .any(|n| (n.at.x - window.min.x - x).abs() < reach_x && (n.at.y - window.min.y - y).abs() < reach_y)
        };
        let share = [0.5, 0.4, 0.6, 0.3, 0.7].into_iter().find(free).unwrap_or(0.5);
        let (x, y) = spot(share);
        joins.push(json!([
            labels.with("sheet-joins", &[("name", name(other.row, other.column).into())]),
            x,
            y,
            turned
        ]));
    }
    joins
}

/// A reduced view: the window shown, and its scale.
struct Reduced {
    window: Extent,
    scale: f64,
}

fn reduced(picture: &Picture, most_mm: (f64, f64)) -> Reduced {
    let window = super::grid::grown(picture.board, 0.5);
    let scale = (most_mm.0 / window.width_mm()).min(most_mm.1 / window.height_mm()).min(1.0);
    Reduced { window, scale }
}

fn whole_svg(picture: &Picture, reduced: &Reduced, seams: &[Run]) -> Vec<u8> {
    let mut svg = Svg::new(reduced.window, reduced.scale);
    svg.lines(&picture.details, 0.08, INK, None);
    svg.lines(&picture.borders, 0.1, INK, None);
    svg.lines(&picture.outline, 0.3, INK, None);
    svg.lines(&within(seams, reduced.window), 0.25, FAINT, Some((1.2, 1.0)));
    svg.finish()
}

fn outline_svg(picture: &Picture, reduced: &Reduced) -> Vec<u8> {
    let mut svg = Svg::new(reduced.window, reduced.scale);
    svg.lines(&picture.details, 0.1, FAINT, None);
    svg.lines(&picture.outline, 0.3, INK, None);
    svg.finish()
}

/// The lines along which sheets meet, over the whole drawing.
fn seams(tiling: &Tiling) -> Vec<Run> {
    let half = OVERLAP_MM / 2.0;
    let (Some(first), Some(last)) = (tiling.tiles.first(), tiling.tiles.last()) else { return Vec::new() };
    let (from, to) = (first.window.min, last.window.max);
    let columns = (1..tiling.columns).map(|c| from.x + c as f64 * (tiling.window_mm.0 - OVERLAP_MM) + half);
    let rows = (1..tiling.rows).map(|r| from.y + r as f64 * (tiling.window_mm.1 - OVERLAP_MM) + half);
    let down = columns.map(|x| vec![Point::new(x, from.y), Point::new(x, to.y)]);
    let across = rows.map(|y| vec![Point::new(from.x, y), Point::new(to.x, y)]);
    down.chain(across).collect()
}

fn map_data(labels: &Words, tiling: &Tiling, shown: &[&Tile], reduced: &Reduced) -> Value {
    let half = OVERLAP_MM / 2.0;
    let names: Vec<Value> = shown
        .iter()
        .map(|t| {
            // The middle of what the sheet shows of the board once it is trimmed.
            let left = (t.window.min.x + if t.column > 0 { half } else { 0.0 }).max(reduced.window.min.x);
            let right =
                (t.window.max.x - if t.column + 1 < tiling.columns { half } else { 0.0 }).min(reduced.window.max.x);
            let top = (t.window.min.y + if t.row > 0 { half } else { 0.0 }).max(reduced.window.min.y);
            let bottom = (t.window.max.y - if t.row + 1 < tiling.rows { half } else { 0.0 }).min(reduced.window.max.y);
            let x = ((left + right) / 2.0 - reduced.window.min.x) * reduced.scale;
            let y = ((top + bottom) / 2.0 - reduced.window.min.y) * reduced.scale;
            json!([name(t.row, t.column), x, y])
        })
        .collect();
    let least = (tiling.window_mm.0.min(tiling.window_mm.1) - OVERLAP_MM) * reduced.scale;
    let first = shown.first().map(|t| name(t.row, t.column)).unwrap_or_default();
    let count = [("count", Filling::from(shown.len()))];
    json!({
        "alt": labels.with("sheet-map-alt", &count),
        "lead": labels.with("sheet-map-lead", &count),
        "steps": [labels.text("sheet-map-1"), labels.text("sheet-map-2"), labels.with("sheet-map-3", &[("first", first.into())])],
        "scale": labels.with("sheet-map-scale", &[("percent", format!("{:.0}", reduced.scale * 100.0).into())]),
        "names": names,
        "name_pt": (least * 0.6).clamp(5.0, 16.0),
    })
}
