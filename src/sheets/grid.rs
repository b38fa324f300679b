//! Where lines lie: segments in a grid of squares, so that what is near a place is found without looking at all of them.

use crate::shape::{Extent, Point, length_mm};

/// One straight piece of a line, and whose it is.
#[derive(Clone, Copy, Debug)]
pub struct Segment {
    /// One end, mm.
    pub a: Point,
    /// The other, mm.
    pub b: Point,
    /// Index of the cell (or whatever else was handed in) it belongs to.
    pub owner: usize,
}

/// Segments by the squares they pass.
pub struct Grid {
    segments: Vec<Segment>,
    squares: Vec<Vec<u32>>,
    origin: Point,
    side_mm: f64,
    columns: usize,
    rows: usize,
}

impl Grid {
    /// Files the segments. Squares are 3 mm, larger on boards that would have more than a quarter million of them.
    pub fn new(segments: Vec<Segment>) -> Grid {
        let extent = Extent::of(segments.iter().flat_map(|s| [&s.a, &s.b]))
            .unwrap_or(Extent { min: Point::ZERO, max: Point::ZERO });
        let side_mm = (extent.width_mm() * extent.height_mm() / 250_000.0).sqrt().max(3.0);
        let columns = (extent.width_mm() / side_mm) as usize + 1;
        let rows = (extent.height_mm() / side_mm) as usize + 1;
        let squares = vec![Vec::new(); columns.saturating_mul(rows).min(1_000_000)];
        let mut grid = Grid { segments, squares, origin: extent.min, side_mm, columns, rows };
        for number in 0..grid.segments.len() {
            let Segment { a, b, .. } = grid.segments[number];
            // A long segment is filed in short parts, else its box would claim squares far from it.
            let parts = (length_mm(a, b) / side_mm).ceil().max(1.0);
            for part in 0..parts as usize {
                let from = a.lerp(b, part as f64 / parts);
                let to = a.lerp(b, (part + 1) as f64 / parts);
                for square in grid.squares_in(box_of(from, to)) {
                    if let Some(list) = grid.squares.get_mut(square)
                        && list.last() != Some(&(number as u32))
                    {
                        list.push(number as u32);
                    }
                }
            }
        }
        grid
    }

    /// Segments that may pass through the box; one that passes several squares comes several times.
    pub fn near(&self, within: Extent) -> impl Iterator<Item = &Segment> {
        self.squares_in(within)
            .filter_map(|s| self.squares.get(s))
            .flatten()
            .filter_map(|n| self.segments.get(*n as usize))
    }

    /// All segments.
    pub fn segments(&self) -> &[Segment] {
        &self.segments
    }

    fn squares_in(&self, within: Extent) -> impl Iterator<Item = usize> + use<> {
        let place = |mm: f64, least: f64, count: usize| (((mm - least) / self.side_mm).max(0.0) as usize).min(count - 1);
        let columns = place(within.min.x, self.origin.x, self.columns)..=place(within.max.x, self.origin.x, self.columns);
        let rows = place(within.min.y, self.origin.y, self.rows)..=place(within.max.y, self.origin.y, self.rows);
        let width = self.columns;
        rows.flat_map(move |row| columns.clone().map(move |column| row * width + column))
    }
}

/// The box of two points.
pub fn box_of(a: Point, b: Point) -> Extent {
    Extent { min: Point::new(a.x.min(b.x), a.y.min(b.y)), max: Point::new(a.x.max(b.x), a.y.max(b.y)) }
}

/// A box made larger on all sides by `mm`.
pub fn grown(e: Extent, mm: f64) -> Extent {
    Extent { min: Point::new(e.min.x - mm, e.min.y - mm), max: Point::new(e.max.x + mm, e.max.y + mm) }
}
