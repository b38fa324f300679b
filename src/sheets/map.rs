//! The map of the pieces: every piece with its number, in rows that can be counted one by one.
//!
//! In: the measured board. Out: [`PieceMap`], in millimetres on paper: lines, numbers, rows, and the windows it is shared out over.
//! Rules: the map is as large as its page allows, never larger than true; where pieces would be smaller than [`LEAST_PIECE_MM`] on one page it goes over several.
//! A piece belongs to the row in which its number stands; rows part where the numbers leave the widest gap.
//! The number of a piece is the one that `inspect` and `print --piece` call it by.
//! Never here: a sheet for others: the map shows every cut.

use super::grid::{Grid, Segment, grown};
use super::lines::{Run, runs};
use super::numbers::{Number, Wanted, place};
use super::tiles::{OVERLAP_MM, Tiling, windows};
use super::{SheetError, world};
use crate::figures::Measured;
use crate::inmost;
use crate::shape::{Extent, Face, Point, Ring, ring_sides};

/// Side of a square as large as the middle piece, below which a map is hard to use, mm on paper. Own choice, by looking.
const LEAST_PIECE_MM: f64 = 8.5;
/// Most pages of one map.
const MOST_PAGES: usize = 24;
/// Room around the board for numbers beside it, mm on paper.
const BESIDE_MM: f64 = 5.0;

/// One row of the map.
#[derive(Clone, Debug, PartialEq)]
pub struct MapRow {
    /// Pieces (from 0) as they lie from left to right.
    pub pieces: Vec<usize>,
    /// Where it ends, mm on paper, downwards.
    pub below_mm: f64,
}

/// The map, mm on paper.
pub struct PieceMap {
    /// Mm on paper for one mm of the board.
    pub scale: f64,
    /// Cuts.
    pub lines: Vec<Run>,
    /// Edge of the boards and their openings.
    pub outline: Vec<Run>,
    /// Numbers and leaders.
    pub numbers: Vec<Number>,
    /// From top to bottom; every piece is in one.
    pub rows: Vec<MapRow>,
    /// How it is shared out.
    pub tiling: Tiling,
    /// The box of the boards.
    pub board: Extent,
    /// For each piece its place and the room around it, mm on the board.
    pub inmost: Vec<inmost::Inmost>,
}

/// Draws the map for a page with `window_mm` of room.
///
/// # Errors
/// [`SheetError::NoBoard`] where nothing was measured.
pub fn map(measured: &Measured, window_mm: (f64, f64)) -> Result<PieceMap, SheetError> {
    let pieces = &measured.board.pieces;
    let rings: Vec<&Ring> = measured.board.parts.iter().flat_map(|p| p.outline.rings()).collect();
    let board = Extent::of(rings.iter().copied().flatten()).ok_or(SheetError::NoBoard)?;
    let room = |length: f64| (length - 2.0 * BESIDE_MM).max(10.0);
    let scale = scale(board, measured.figures.pieces.median_mm2, (room(window_mm.0), room(window_mm.1)));

    let on_paper = |ring: &Ring| -> Ring { ring.iter().map(|p| Point::new(p.x * scale, p.y * scale)).collect() };
    let outline: Vec<Ring> = rings.iter().map(|r| on_paper(r)).collect();
    let faces: Vec<Ring> = pieces.iter().flat_map(|p| p.face.rings()).map(on_paper).collect();
    let lines = Grid::new(faces.iter().flat_map(sides).collect());
    let inmost: Vec<inmost::Inmost> = pieces.iter().map(|p| inmost::place(widest(&p.face, &p.cut))).collect();
    let wanted: Vec<Wanted> = (1..)
        .zip(&inmost)
        .map(|(number, spot): (usize, _)| Wanted {
            text: number.to_string(),
            at: Point::new(spot.at_mm.x * scale, spot.at_mm.y * scale),
            room_mm: spot.room_mm * scale,
        })
        .collect();
    let board = Extent {
        min: Point::new(board.min.x * scale, board.min.y * scale),
        max: Point::new(board.max.x * scale, board.max.y * scale),
    };
    let numbers = place(&wanted, &lines, grown(board, BESIDE_MM - 0.5), world::digit_em());
    Ok(PieceMap {
        scale,
        lines: runs(&faces),
        outline: runs(&outline),
        rows: rows(&wanted.iter().map(|w| w.at).collect::<Vec<_>>(), board),
        tiling: windows(grown(board, BESIDE_MM), window_mm),
        numbers,
        board,
        inmost,
    })
}

/// What is left of a piece after the kerf, where something is, so that a number stands clear of the cut.
fn widest<'a>(face: &'a Face, cut: &'a [Face]) -> &'a Face {
    cut.iter().max_by(|a, b| a.area_mm2().total_cmp(&b.area_mm2())).unwrap_or(face)
}

fn sides(ring: &Ring) -> impl Iterator<Item = Segment> {
    ring_sides(ring).map(|(a, b)| Segment { a: *a, b: *b })
}

fn scale(board: Extent, median_mm2: f64, room_mm: (f64, f64)) -> f64 {
    let (width, height) = (board.width_mm().max(1.0), board.height_mm().max(1.0));
    let whole = (room_mm.0 / width).min(room_mm.1 / height).min(1.0);
    let wanted = (LEAST_PIECE_MM / median_mm2.max(1.0).sqrt()).min(1.0);
    if whole >= wanted {
        return whole;
    }
    // As few pages as show pieces large enough, and then as large as those pages allow.
    let covered = |count: usize, room: f64| {
        let window = room + 2.0 * BESIDE_MM;
        count as f64 * (window - OVERLAP_MM) + OVERLAP_MM - 2.0 * BESIDE_MM
    };
    let shown =
        |columns: usize, rows: usize| (covered(columns, room_mm.0) / width).min(covered(rows, room_mm.1) / height);
    let largest = |pages: usize| {
        let layouts = (1..=pages).filter(|columns| pages.is_multiple_of(*columns));
        layouts.map(|columns| shown(columns, pages / columns)).fold(whole, f64::max)
    };
    let enough = (2..=MOST_PAGES).map(largest).find(|scale| *scale >= wanted);
    enough.unwrap_or_else(|| largest(MOST_PAGES)).min(1.0)
}

/// Rows by where the numbers stand: about as many as there are pieces from top to bottom, parted at the widest gaps.
fn rows(at: &[Point], board: Extent) -> Vec<MapRow> {
    let count = at.len();
    let wanted = (count as f64 * board.height_mm() / board.width_mm().max(1.0)).sqrt().round() as usize;
    let wanted = wanted.clamp(1, count.max(1));
    let mut down: Vec<usize> = (0..count).collect();
    down.sort_by(|a, b| at[*a].y.total_cmp(&at[*b].y).then(a.cmp(b)));
    // Each border may move by up to half a row from where it would part the pieces evenly.
    let reach = count / (2 * wanted);
    let gap = |i: usize| at[down[i]].y - at[down[i - 1]].y;
    let mut borders: Vec<usize> = (1..wanted)
        .map(|row| row * count / wanted)
        .filter_map(|even| {
            let near = even.saturating_sub(reach).max(1)..(even + reach + 1).min(count);
            near.max_by(|a, b| gap(*a).total_cmp(&gap(*b)).then(b.cmp(a)))
        })
        .collect();
    borders.dedup();
    let ends = borders.iter().copied().chain([count]);
    let starts = [0].into_iter().chain(borders.iter().copied());
    starts
        .zip(ends)
        .filter(|(from, to)| from < to)
        .map(|(from, to)| {
            let mut pieces = down[from..to].to_vec();
            pieces.sort_by(|a, b| at[*a].x.total_cmp(&at[*b].x).then(a.cmp(b)));
            let below_mm = if to < count { (at[down[to - 1]].y + at[down[to]].y) / 2.0 } else { board.max.y };
            MapRow { pieces, below_mm }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn extent(width: f64, height: f64) -> Extent {
        Extent { min: Point::new(0.0, 0.0), max: Point::new(width, height) }
    }

    #[test]
    fn a_grid_is_counted_in_its_own_rows() {
        // 7 rows of 9, each number a little off the middle of its piece.
        let at: Vec<Point> = (0..63)
            .map(|i| {
                let (row, column) = (f64::from(i / 9), f64::from(i % 9));
                Point::new(10.0 * column + 5.0, 11.0 * row + 5.0 + 1.5 * libm::sin(f64::from(i) * 2.3))
            })
            .collect();
        let rows = rows(&at, extent(90.0, 77.0));
        assert_eq!(rows.len(), 7);
        for (i, row) in rows.iter().enumerate() {
            assert_eq!(row.pieces, (9 * i..9 * i + 9).collect::<Vec<_>>());
        }
    }

    #[test]
    fn every_piece_is_in_one_row_however_they_lie() {
        let at: Vec<Point> =
            (0..101).map(|i| Point::new(f64::from(i * 37 % 101), f64::from(i * i * 13 % 97))).collect();
        let mut all: Vec<usize> = rows(&at, extent(101.0, 97.0)).into_iter().flat_map(|r| r.pieces).collect();
        all.sort_unstable();
        assert_eq!(all, (0..101).collect::<Vec<_>>());
    }

    #[test]
    fn small_pieces_make_the_map_go_over_pages() {
        let room = (170.0, 220.0);
        assert_eq!(scale(extent(160.0, 100.0), 400.0, room), 1.0, "never larger than true");
        assert_eq!(scale(extent(340.0, 200.0), 400.0, room), 0.5, "10 mm on paper are enough");
        // Two pages side by side show 2 × (180 − 12) + 12 − 10 = 338 mm of the 680.
        assert_eq!(scale(extent(680.0, 400.0), 400.0, room), 338.0 / 680.0);
        assert!(scale(extent(5000.0, 5000.0), 100.0, room) > 0.1, "as large as the most pages allow");
    }
}
