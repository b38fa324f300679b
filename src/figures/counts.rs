//! Counts, areas and sizes of the pieces, and what they give to notice.

use serde::Serialize;

use crate::findings::{Finding, Kind};
use crate::inmost;
use crate::pieces::{Board, joints::Joint};
use crate::shape::{Extent, Point};
use crate::shop::Limits;

/// Counts and areas of the pieces.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Pieces {
    /// All pieces.
    pub count: usize,
    /// On the outer ring of their board.
    pub edge: usize,
    /// The rest.
    pub interior: usize,
    /// Edge ÷ count.
    pub edge_ratio: f64,
    /// Closed strokes of the novelty layer.
    pub novelty_shapes: usize,
    /// Pieces inside them.
    pub novelty_pieces: usize,
    /// After the kerf.
    pub smallest_mm2: f64,
    /// After the kerf; the mean of the middle two for an even count.
    pub median_mm2: f64,
    /// After the kerf.
    pub largest_mm2: f64,
    /// As drawn.
    pub board_mm2: f64,
    /// After the kerf, all pieces.
    pub net_mm2: f64,
    /// Pieces with at least one congruent twin.
    pub twins: usize,
    /// Pieces that fit the small-parts cylinder.
    pub small_parts: usize,
}

/// Joints and how many hold.
#[derive(Clone, Copy, Debug, Default, Serialize)]
pub struct Joints {
    /// Between two edge pieces.
    pub edge: usize,
    /// Of those, holding.
    pub edge_hold: usize,
    /// All.
    pub all: usize,
    /// Of those, holding.
    pub all_hold: usize,
}

/// The board's box after the kerf, mm.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Size {
    /// Across.
    pub width_mm: f64,
    /// Down.
    pub height_mm: f64,
    /// From the record.
    pub thickness_mm: f64,
}

/// Counts and areas; `twins` and `small_parts` are counted by the rooms that look at shapes. Handbook, figures, items 2 to 5.
pub fn pieces(board: &Board, twins: usize, small_parts: usize) -> Pieces {
    let count = board.pieces.len();
    let edge = board.pieces.iter().filter(|p| p.edge).count();
    let mut areas: Vec<f64> = board.pieces.iter().map(|p| p.net_mm2).collect();
    areas.sort_by(f64::total_cmp);
    let at = |i: usize| areas.get(i).copied().unwrap_or(0.0);
    let median = if count == 0 { 0.0 } else { (at((count - 1) / 2) + at(count / 2)) / 2.0 };
    Pieces {
        count,
        edge,
        interior: count - edge,
        edge_ratio: if count == 0 { 0.0 } else { edge as f64 / count as f64 },
        novelty_shapes: board.novelty.len(),
        novelty_pieces: board.pieces.iter().filter(|p| p.novelty.is_some()).count(),
        smallest_mm2: at(0),
        median_mm2: median,
        largest_mm2: areas.last().copied().unwrap_or(0.0),
        board_mm2: board.pieces.iter().map(|p| p.drawn_mm2).sum(),
        net_mm2: areas.iter().sum(),
        twins,
        small_parts,
    }
}

/// How many joints there are and hold. Handbook, figures, item 11.
pub fn joints(all: &[Joint]) -> Joints {
    let count = |f: &dyn Fn(&Joint) -> bool| all.iter().filter(|j| f(j)).count();
    Joints {
        edge: count(&|j| j.edge),
        edge_hold: count(&|j| j.edge && j.holds),
        all: all.len(),
        all_hold: count(&|j| j.holds),
    }
}

/// The box around all pieces, less half a kerf on each side. Handbook, figures, item 6.
pub fn size(board: &Board, thickness_mm: f64) -> Size {
    let extent = Extent::of(board.pieces.iter().flat_map(|p| &p.face.outer));
    let less = |length: f64| (length - board.kerf_mm).max(0.0);
    let (width_mm, height_mm) = extent.map_or((0.0, 0.0), |e| (less(e.width_mm()), less(e.height_mm())));
    Size { width_mm, height_mm, thickness_mm }
}

/// `too-small`, `too-large`, `small-part` and `slides-apart`.
pub fn findings(board: &Board, pieces: &Pieces, joints: &[Joint], limits: &Limits) -> Vec<Finding> {
    let mut all: Vec<Finding> = Vec::new();
    for (i, piece) in board.pieces.iter().enumerate() {
        let area = piece.net_mm2;
        let at = || Some(inmost::place(&piece.face).at_mm);
        // A piece that the kerf eats whole is told as that.
        if area > 0.0 && area < limits.smallest_mm2 {
            all.push(Finding::new(
                Kind::TooSmall,
                at(),
                format!("Piece {} has {area:.1} mm² after the cut, under the limit of {} mm².", i + 1, limits.smallest_mm2),
                "Small pieces fall through the bed, get lost and burn: join it to a neighbour, or lower `smallest` under `[limits]`.",
            ));
        }
        if area > limits.largest_mm2 {
            all.push(Finding::new(
                Kind::TooLarge,
                at(),
                format!(
                    "Piece {} has {area:.0} mm² after the cut, over the limit of {} mm².",
                    i + 1,
                    limits.largest_mm2
                ),
                "Cut it once more, or raise `largest` under `[limits]`.",
            ));
        }
    }
    if pieces.small_parts > 0 {
        all.push(Finding::new(
            Kind::SmallPart,
            None,
            small_parts(pieces),
            "Keep the caution for small pieces on page and box. A puzzle for small children needs larger pieces, and testing by local law.",
        ));
    }
    if limits.edge_holds {
        all.extend(joints.iter().filter(|j| j.edge && !j.holds).map(slides_apart));
    }
    all
}

fn small_parts(pieces: &Pieces) -> String {
    let what = match (pieces.small_parts, pieces.count) {
        (1, 1) => "The only piece fits".to_owned(),
        (1, all) => format!("1 of {all} pieces fits"),
        (some, all) if some == all => format!("All {all} pieces fit"),
        (some, all) => format!("{some} of {all} pieces fit"),
    };
    format!("{what} the small-parts cylinder of 16 CFR 1501.4.")
}

fn slides_apart(j: &Joint) -> Finding {
    let at: Option<Point> = Some(j.at_mm);
    let (a, b) = (j.a + 1, j.b + 1);
    let message = match j.escape_deg {
        Some(degrees) => {
            format!("Edge pieces {a} and {b} slide apart: piece {b} can be pulled {}.", direction(degrees))
        }
        None => format!("Edge pieces {a} and {b} do not hold: the kerf removes or breaks up one of them."),
    };
    Finding::new(
        Kind::SlidesApart,
        at,
        message,
        "Give their common line a knob whose head is wider than its neck, or set `edge_holds = false` under `[limits]` if the puzzle is meant so.",
    )
}

/// A direction in words as the drawing lies, for degrees clockwise from the right; the degrees where it is none of eight.
pub fn direction(degrees: f64) -> String {
    const WAYS: [&str; 8] = [
        "to the right",
        "down to the right",
        "down",
        "down to the left",
        "to the left",
        "up to the left",
        "up",
        "up to the right",
    ];
    let eighths = degrees.rem_euclid(360.0) / 45.0;
    let nearest = (eighths + 0.5).floor();
    let name = WAYS[nearest as usize % 8];
    if (eighths - nearest).abs() * 45.0 < 0.5 {
        return name.to_owned();
    }
    format!("{name} ({}° clockwise from the right)", degrees.round() as i64 % 360)
}
