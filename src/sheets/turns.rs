//! In which order to paint: light before dark, and never two wet cells side by side.
//!
//! In: paints with their colours, and which of them touch somewhere. Out: turns of paints. A paint's turn is one after the latest turn of all
//! lighter paints that it touches; so paints of one turn never touch, and where two colours meet the lighter was there first.
//! Our own rule, after common practice in watercolour; no source.

use std::collections::{BTreeMap, BTreeSet};

use crate::colour::luminance;
use crate::shape::Rgb;

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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_darker_paint_waits_for_every_lighter_one_it_touches() {
        let paints = [Rgb::new(20, 20, 20), Rgb::new(250, 250, 200), Rgb::new(120, 120, 120), Rgb::new(30, 30, 30)];
        let meetings = BTreeSet::from([(0, 1), (1, 2), (0, 2)]);
        let turns = turns(&paints, &meetings, &BTreeSet::from([0, 1, 2, 3]));
        // The last paint is dark but touches nothing: it can go first.
        assert_eq!(turns, vec![vec![1, 3], vec![2], vec![0]]);
    }
}
