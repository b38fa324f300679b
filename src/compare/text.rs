//! A comparison as a table for people.

use super::Comparison;
use crate::figures::Figures;

type Row = (&'static str, fn(&Figures) -> f64, usize);

const ROWS: [Row; 14] = [
    ("pieces", |f| f.pieces.count as f64, 0),
    ("edge pieces", |f| f.pieces.edge as f64, 0),
    ("novelty shapes", |f| f.pieces.novelty_shapes as f64, 0),
    ("edge joints that hold", |f| f.joints.edge_hold as f64, 0),
    ("edge joints", |f| f.joints.edge as f64, 0),
    ("width, mm", |f| f.size.width_mm, 1),
    ("height, mm", |f| f.size.height_mm, 1),
    ("smallest piece, mm²", |f| f.pieces.smallest_mm2, 0),
    ("largest piece, mm²", |f| f.pieces.largest_mm2, 0),
    ("cuts, mm", |f| f.lines.cut_mm, 0),
    ("scores, mm", |f| f.lines.score_mm, 0),
    ("board, g", |f| f.weight.board_g, 0),
    ("difficulty", |f| f.difficulty.score, 0),
    ("paint cells", |f| f.paint.as_ref().map_or(0.0, |p| p.cells as f64), 0),
];

/// The comparison as text; ends with a line break.
pub fn text(c: &Comparison) -> String {
    let mut rows = vec![["".to_owned(), "old".to_owned(), "new".to_owned(), "".to_owned()]];
    rows.push(["drawing mark".to_owned(), c.old.mark.clone(), c.new.mark.clone(), String::new()]);
    for (name, figure, decimals) in ROWS {
        let (old, new) =
            (crate::units::rounded(figure(c.old), decimals), crate::units::rounded(figure(c.new), decimals));
        let change = crate::units::rounded(figure(c.new) - figure(c.old), decimals);
        let change = match (old == new, change.starts_with('-')) {
            (true, _) => String::new(),
            (false, true) => change,
            (false, false) => format!("+{change}"),
        };
        rows.push([name.to_owned(), old, new, change]);
    }
    let width = |column: usize| rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0);
    let widths = [width(0), width(1), width(2), width(3)];
    let mut out = String::new();
    for row in &rows {
        let cells = row.iter().zip(widths).enumerate().map(|(i, (text, width))| {
            let pad = " ".repeat(width - text.chars().count());
            if i == 0 { format!("{text}{pad}") } else { format!("{pad}{text}") }
        });
        out.push_str(cells.collect::<Vec<_>>().join("  ").trim_end());
        out.push('\n');
    }
    out.push('\n');
    let [x, y] = c.moved_mm;
    if x != 0.0 || y != 0.0 {
        out.push_str(&format!("The drawing lies elsewhere on its sheet: {x:+.2} mm across, {y:+.2} mm down.\n"));
    }
    if c.nothing_changed() {
        out.push_str("Nothing that is cut or scored has changed.\n");
        return out;
    }
    out.push_str(&format!("{} stayed as they were.\n", pieces(c.same.len())));
    if !c.changed.is_empty() {
        let changed =
            c.changed.iter().map(|(old, new)| if old == new { new.to_string() } else { format!("{new} (was {old})") });
        out.push_str(&format!("{} changed: {}.\n", pieces(c.changed.len()), listed(changed)));
    }
    if !c.come.is_empty() {
        out.push_str(&format!("{} new: {}.\n", pieces(c.come.len()), listed(c.come.iter().map(usize::to_string))));
    }
    if !c.gone.is_empty() {
        let numbers = listed(c.gone.iter().map(usize::to_string));
        out.push_str(&format!("{} gone, by the old numbers: {numbers}.\n", pieces(c.gone.len())));
    }
    out
}

/// Longer lists are cut: the picture shows them all.
const MOST: usize = 40;

fn listed(numbers: impl ExactSizeIterator<Item = String>) -> String {
    let more = numbers.len().saturating_sub(MOST);
    let shown = numbers.take(MOST).collect::<Vec<_>>().join(", ");
    if more > 0 { format!("{shown} and {more} more") } else { shown }
}

fn pieces(n: usize) -> String {
    if n == 1 { "1 piece".to_owned() } else { format!("{n} pieces") }
}
