//! In which order to paint: light before dark, and never two wet cells side by side.
//!
//! In: cells with their outlines, paints with their colours. Out: turns of paints. A paint's turn is one after the latest turn of all
//! lighter paints that it touches; so paints of one turn never touch, and where two colours meet the lighter was there first.
//! Our own rule, after common practice in watercolour; no source.

use std::collections::{BTreeMap, BTreeSet};

use super::grid::{Grid, box_of, grown};
use super::lines::to_segment_mm;
use crate::shape::{Rgb, length_mm};

/// How near two borders count as one, mm; cells of one drawing share theirs to rounding.
const SAME_MM: f64 = 0.02;

/// Cells that meet along less than this only touch in a corner, mm.
const CORNER_MM: f64 = 0.1;

/// Pairs of owners of the grid's segments that share a border, lesser index first.
pub fn touching(grid: &Grid) -> BTreeSet<(usize, usize)> {
    let mut shared: BTreeMap<(usize, usize), f64> = BTreeMap::new();
    for segment in grid.segments() {
        let long = length_mm(segment.a, segment.b);
        let parts = (long / 2.0).ceil().max(1.0);
        for part in 0..parts as usize {
            let middle = segment.a.lerp(segment.b, (part as f64 + 0.5) / parts);
            let others: BTreeSet<usize> = grid
                .near(grown(box_of(middle, middle), SAME_MM))
                .filter(|s| s.owner != segment.owner && to_segment_mm(middle, s.a, s.b) <= SAME_MM)
                .map(|s| s.owner)
                .collect();
            for other in others {
                *shared.entry((segment.owner.min(other), segment.owner.max(other))).or_default() += long / parts;
            }
        }
    }
    // Each stretch was met from both sides.
    shared.into_iter().filter(|(_, mm)| *mm / 2.0 > CORNER_MM).map(|(pair, _)| pair).collect()
}

/// Paints by turn. `paints` are the colours; `meetings` are pairs of paints that touch somewhere; `used` says which paints have cells.
pub fn turns(paints: &[Rgb], meetings: &BTreeSet<(usize, usize)>, used: &BTreeSet<usize>) -> Vec<Vec<usize>> {
    let mut order: Vec<usize> = used.iter().copied().filter(|p| *p < paints.len()).collect();
    order.sort_by(|a, b| luminance(paints[*b]).total_cmp(&luminance(paints[*a])).then(a.cmp(b)));
    let mut turn_of: BTreeMap<usize, usize> = BTreeMap::new();
    for paint in order {
        let latest = turn_of.iter().filter(|(other, _)| meetings.contains(&(paint.min(**other), paint.max(**other))));
        let turn = latest.map(|(_, turn)| turn + 1).max().unwrap_or(0);
        turn_of.insert(paint, turn);
    }
    let count = turn_of.values().max().map_or(0, |last| last + 1);
    (0..count).map(|turn| turn_of.iter().filter(|(_, t)| **t == turn).map(|(paint, _)| *paint).collect()).collect()
}

/// Relative luminance of an sRGB colour, IEC 61966-2-1.
fn luminance(c: Rgb) -> f64 {
    let linear = |v: u8| {
        let v = f64::from(v) / 255.0;
        if v <= 0.04045 { v / 12.92 } else { libm::pow((v + 0.055) / 1.055, 2.4) }
    };
    0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b)
}

#[cfg(test)]
mod tests {
    use super::super::grid::Segment;
    use super::*;
    use crate::shape::Point;

    fn ring(owner: usize, points: &[(f64, f64)]) -> Vec<Segment> {
        let p = |i: usize| Point::new(points[i % points.len()].0, points[i % points.len()].1);
        (0..points.len()).map(|i| Segment { a: p(i), b: p(i + 1), owner }).collect()
    }

    #[test]
    fn cells_that_share_a_stretch_touch_and_cells_that_share_a_corner_do_not() {
        let left = ring(0, &[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]);
        // Taller than the left one: the border has a node on one side only.
        let right = ring(1, &[(10.0, 0.0), (30.0, 0.0), (30.0, 14.0), (10.0, 14.0)]);
        let corner = ring(2, &[(30.0, 14.0), (40.0, 14.0), (40.0, 20.0), (30.0, 20.0)]);
        let grid = Grid::new([left, right, corner].concat());
        assert_eq!(touching(&grid), BTreeSet::from([(0, 1)]));
    }

    #[test]
    fn a_darker_paint_waits_for_every_lighter_one_it_touches() {
        let paints = [Rgb::new(20, 20, 20), Rgb::new(250, 250, 200), Rgb::new(120, 120, 120), Rgb::new(30, 30, 30)];
        let meetings = BTreeSet::from([(0, 1), (1, 2), (0, 2)]);
        let turns = turns(&paints, &meetings, &BTreeSet::from([0, 1, 2, 3]));
        // The last paint is dark but touches nothing: it can go first.
        assert_eq!(turns, vec![vec![1, 3], vec![2], vec![0]]);
    }
}
