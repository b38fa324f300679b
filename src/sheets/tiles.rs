//! How a drawing larger than the paper is shared out over sheets, true to size.
//!
//! In: the box of the drawing and the paper, mm. Out: windows onto the drawing with names (row letter, column number), and the paper's orientation.
//! Rule: the orientation that needs fewer sheets, upright where both need as many; neighbours overlap by [`OVERLAP_MM`].

use crate::shape::{Extent, Point};
use crate::shop::Paper;

/// How much of the drawing two neighbouring sheets both show, mm.
pub const OVERLAP_MM: f64 = 12.0;
/// Margin of a drawing sheet, mm; most printers leave 3 to 5 mm blank (common practice, no source).
pub const MARGIN_MM: f64 = 5.0;
/// Above the drawing: name and hint, mm.
pub const HEAD_MM: f64 = 9.0;
/// Below the drawing: the rule and the foot, mm.
pub const FOOT_MM: f64 = 10.5;
/// More sheets than this are not printed; the reduced overview stands alone.
pub const MOST: usize = 400;

/// Width and height of a paper, upright, mm.
pub fn paper_mm(paper: Paper) -> (f64, f64) {
    match paper {
        // ISO 216.
        Paper::A4 => (210.0, 297.0),
        // ANSI/ASME Y14.1, size A: 8.5 × 11 in.
        Paper::Letter => (8.5 * 25.4, 11.0 * 25.4),
    }
}

/// One sheet's window onto the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Tile {
    /// From 0, downwards.
    pub row: usize,
    /// From 0, to the right.
    pub column: usize,
    /// What it shows, mm in the drawing's frame.
    pub window: Extent,
}

/// All sheets of one drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Tiling {
    /// The paper lies on its long side.
    pub across: bool,
    /// How many rows.
    pub rows: usize,
    /// How many columns.
    pub columns: usize,
    /// Width and height of a window, mm.
    pub window_mm: (f64, f64),
    /// Row by row.
    pub tiles: Vec<Tile>,
}

/// Shares `drawing` out over sheets of `paper`.
pub fn tiling(drawing: Extent, paper: Paper) -> Tiling {
    let upright = share(drawing, paper_mm(paper), false);
    let (short, long) = paper_mm(paper);
    let across = share(drawing, (long, short), true);
    if across.rows * across.columns < upright.rows * upright.columns { across } else { upright }
}

/// Room beside the drawing, mm to each side and above and below, that costs no further sheet.
pub fn spare_mm(drawing: Extent, paper: Paper) -> (f64, f64) {
    let t = tiling(drawing, paper);
    let spare = |count: usize, window: f64, length: f64| {
        ((count as f64 * (window - OVERLAP_MM) + OVERLAP_MM - length) / 2.0).max(0.0)
    };
    (spare(t.columns, t.window_mm.0, drawing.width_mm()), spare(t.rows, t.window_mm.1, drawing.height_mm()))
}

fn share(drawing: Extent, (width, height): (f64, f64), across: bool) -> Tiling {
    let window_mm = (width - 2.0 * MARGIN_MM, height - 2.0 * MARGIN_MM - HEAD_MM - FOOT_MM);
    Tiling { across, ..windows(drawing, window_mm) }
}

/// Shares a drawing out over windows of one size, upright, neighbours overlapping by [`OVERLAP_MM`].
pub fn windows(drawing: Extent, window_mm: (f64, f64)) -> Tiling {
    let columns = count(drawing.width_mm(), window_mm.0);
    let rows = count(drawing.height_mm(), window_mm.1);
    // Where the last sheet has room to spare, the drawing lies in the middle of all.
    let start = |least: f64, most: f64, count: usize, window: f64| {
        let covered = count as f64 * (window - OVERLAP_MM) + OVERLAP_MM;
        (least + most) / 2.0 - covered / 2.0
    };
    let left = start(drawing.min.x, drawing.max.x, columns, window_mm.0);
    let top = start(drawing.min.y, drawing.max.y, rows, window_mm.1);
    let places = if rows.saturating_mul(columns) > MOST { 0..0 } else { 0..rows * columns };
    let tiles = places.map(|place| {
        let (row, column) = (place / columns, place % columns);
        let x = left + column as f64 * (window_mm.0 - OVERLAP_MM);
        let y = top + row as f64 * (window_mm.1 - OVERLAP_MM);
        let window = Extent { min: Point::new(x, y), max: Point::new(x + window_mm.0, y + window_mm.1) };
        Tile { row, column, window }
    });
    Tiling { across: false, rows, columns, window_mm, tiles: tiles.collect() }
}

fn count(length_mm: f64, window_mm: f64) -> usize {
    // A ten-thousandth of a millimetre is rounding, not a reason for another sheet.
    let length_mm = length_mm - 1e-4;
    if length_mm <= window_mm {
        return 1;
    }
    ((length_mm - OVERLAP_MM) / (window_mm - OVERLAP_MM)).ceil() as usize
}

/// Name of a sheet: its row as letters, its column as a number, `B3`.
pub fn name(row: usize, column: usize) -> String {
    let mut letters = String::new();
    let mut rest = row + 1;
    while rest > 0 {
        let digit = ((rest - 1) % 26) as u8;
        letters.insert(0, char::from(b'A' + digit));
        rest = (rest - 1) / 26;
    }
    format!("{letters}{}", column + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn board(width: f64, height: f64) -> Extent {
        Extent { min: Point::new(5.0, 7.0), max: Point::new(5.0 + width, 7.0 + height) }
    }

    #[test]
    fn a_board_that_fits_one_way_round_comes_on_one_sheet() {
        assert!(!tiling(board(190.0, 250.0), Paper::A4).across);
        let wide = tiling(board(260.0, 160.0), Paper::A4);
        assert_eq!((wide.across, wide.tiles.len()), (true, 1));
    }

    /// Boards of common sizes that just fit; a number beside the board must not cost a second sheet.
    #[test]
    fn what_may_stand_beside_a_board_costs_no_sheet() {
        for (width, height) in [(198.0, 250.0), (190.0, 249.0), (150.0, 100.0), (430.0, 300.0)] {
            for paper in [Paper::A4, Paper::Letter] {
                let plain = tiling(board(width, height), paper);
                let (x, y) = spare_mm(board(width, height), paper);
                let b = board(width, height);
                let with =
                    Extent { min: Point::new(b.min.x - x, b.min.y - y), max: Point::new(b.max.x + x, b.max.y + y) };
                assert_eq!(tiling(with, paper).tiles.len(), plain.tiles.len(), "{width} x {height}");
            }
        }
        assert_eq!(tiling(board(198.0, 249.0), Paper::A4).tiles.len(), 1);
        assert_eq!(tiling(board(198.0, 249.0), Paper::Letter).tiles.len(), 1);
    }

    #[test]
    fn neighbours_overlap_and_all_of_the_board_is_shown() {
        for (width, height) in [(300.0, 200.0), (420.0, 297.0), (2000.0, 1400.0)] {
            for paper in [Paper::A4, Paper::Letter] {
                let t = tiling(board(width, height), paper);
                assert_eq!(t.tiles.len(), t.rows * t.columns);
                let (first, last) = (&t.tiles[0].window, &t.tiles[t.tiles.len() - 1].window);
                assert!(first.min.x <= 5.0 && first.min.y <= 7.0);
                assert!(last.max.x >= 5.0 + width && last.max.y >= 7.0 + height);
                for pair in t.tiles.windows(2).filter(|p| p[0].row == p[1].row) {
                    assert!((pair[0].window.max.x - pair[1].window.min.x - OVERLAP_MM).abs() < 1e-9);
                }
            }
        }
    }

    #[test]
    fn rows_are_lettered_like_columns_of_a_table() {
        assert_eq!([name(0, 0), name(1, 2), name(25, 0), name(26, 9)], ["A1", "B3", "Z1", "AA10"]);
    }
}
