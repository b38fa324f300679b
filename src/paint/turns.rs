//! In which order to paint: light before dark, and never two wet cells side by side.
//!
//! In: a plan and the colours of its paints. Out: turns, each with the paints that are laid in it.
//! Rule: of one turn no two paints touch anywhere; a paint comes after every clearly lighter paint that it touches, clearly being [`LIGHTER`] or more
//! in CIELAB lightness; paints nearer than that may come either way round; of all orders of that kind one with the fewest turns is taken, and in it
//! every paint as early as may be. That is the colouring of a graph with directed edges, searched light paint first, cut off by the fewest turns yet.
//! Own rule, after common practice in watercolour; no source.

use std::collections::{BTreeMap, BTreeSet};

use super::{Plan, touching};
use crate::colour::Lab;
use crate::shape::Rgb;

/// A paint that is lighter by so much is laid first, CIELAB L*. Own choice: about from a half wash to a full one of the same pan. Nearer than that, a
/// stray edge of the one over the other hardly shows, and holding to the order would only make more turns to wait for.
pub const LIGHTER: f64 = 25.0;
/// Places tried before the best order so far is taken: enough for any palette that a person mixes, and a bound for all others.
const MOST_TRIES: usize = 200_000;

/// Paints (by index) by turn; paints without a cell are in none.
pub fn turns(plan: &Plan, paints: &[Rgb]) -> Vec<Vec<usize>> {
    let paint_of = |cell: usize| plan.cells.get(cell).and_then(|c| c.paint);
    let meetings: BTreeSet<(usize, usize)> = touching(plan)
        .into_keys()
        .filter_map(|(a, b)| Some((paint_of(a)?, paint_of(b)?)))
        .filter(|(a, b)| a != b)
        .map(|(a, b)| (a.min(b), a.max(b)))
        .collect();
    let used: BTreeSet<usize> = plan.cells.iter().filter_map(|c| c.paint).collect();
    by_meetings(paints, &meetings, &used)
}

/// The same from the pairs of paints that touch somewhere, lesser index first.
fn by_meetings(paints: &[Rgb], meetings: &BTreeSet<(usize, usize)>, used: &BTreeSet<usize>) -> Vec<Vec<usize>> {
    let lightness = |p: usize| paints.get(p).map_or(0.0, |c| Lab::from(*c).l);
    let mut order: Vec<usize> = used.iter().copied().filter(|p| *p < paints.len()).collect();
    order.sort_by(|a, b| lightness(*b).total_cmp(&lightness(*a)).then(a.cmp(b)));
    let meets = |a: usize, b: usize| meetings.contains(&(a.min(b), a.max(b)));
    // For each paint in the order: the touching paints before it, and whether they are clearly lighter.
    let before: Vec<Vec<(usize, bool)>> = (0..order.len())
        .map(|k| {
            let own = order[k];
            let touching = (0..k).filter(|j| meets(order[*j], own));
            touching.map(|j| (j, lightness(order[j]) - lightness(own) >= LIGHTER)).collect()
        })
        .collect();
    let mut search = Search { before: &before, best: None, tries: 0 };
    search.place(&mut Vec::new(), 0);
    let mut by_turn: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (paint, turn) in order.iter().zip(search.best.unwrap_or_default()) {
        by_turn.entry(turn).or_default().push(*paint);
    }
    by_turn
        .into_values()
        .map(|mut paints| {
            paints.sort_unstable();
            paints
        })
        .collect()
}

struct Search<'a> {
    before: &'a [Vec<(usize, bool)>],
    best: Option<Vec<usize>>,
    tries: usize,
}

impl Search<'_> {
    /// Places the next paint in every turn that is open to it, earliest first; `count` turns are taken so far.
    fn place(&mut self, placed: &mut Vec<usize>, count: usize) {
        let Some(before) = self.before.get(placed.len()) else {
            self.best = Some(placed.clone());
            return;
        };
        let first = before.iter().filter(|(_, lighter)| *lighter).map(|(j, _)| placed[*j] + 1).max().unwrap_or(0);
        let fewest =
            |best: &Option<Vec<usize>>| best.as_ref().map_or(usize::MAX, |b| b.iter().max().map_or(0, |last| last + 1));
        for turn in first..=count.max(first) {
            self.tries += 1;
            if turn.max(count.saturating_sub(1)) + 1 >= fewest(&self.best)
                || (self.tries > MOST_TRIES && self.best.is_some())
            {
                return;
            }
            if before.iter().any(|(j, _)| placed[*j] == turn) {
                continue;
            }
            placed.push(turn);
            self.place(placed, count.max(turn + 1));
            placed.pop();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grey(v: u8) -> Rgb {
        Rgb::new(v, v, v)
    }

    #[test]
    fn a_darker_paint_waits_for_every_lighter_one_it_touches() {
        let paints = [grey(20), Rgb::new(250, 250, 200), grey(120), grey(30)];
        let meetings = BTreeSet::from([(0, 1), (1, 2), (0, 2)]);
        let turns = by_meetings(&paints, &meetings, &BTreeSet::from([0, 1, 2, 3]));
        // The last paint is dark but touches nothing: it can go first.
        assert_eq!(turns, vec![vec![1, 3], vec![2], vec![0]]);
    }

    /// Four paints of like lightness in a ring: two turns are enough, where a strict order from light to dark would take four.
    #[test]
    fn paints_of_like_lightness_share_turns() {
        let paints = [grey(120), grey(118), grey(116), grey(114)];
        let ring = BTreeSet::from([(0, 1), (1, 2), (2, 3), (0, 3)]);
        let turns = by_meetings(&paints, &ring, &(0..4).collect());
        assert_eq!(turns, vec![vec![0, 2], vec![1, 3]]);
    }

    /// The graph that takes the plain rule, each paint in the earliest turn open to it, one turn too many: pairs 0-3, 1-2, 2-3 in the order 0, 1, 2, 3
    /// need three turns so (0 and 1 first, 2 second, 3 third); with 0 in the second turn, two do. Brooks 1941: a path has two colours.
    #[test]
    fn the_fewest_turns_are_found() {
        let paints = [grey(120), grey(119), grey(118), grey(117)];
        let path = BTreeSet::from([(0, 3), (1, 2), (2, 3)]);
        let turns = by_meetings(&paints, &path, &(0..4).collect());
        assert_eq!(turns.len(), 2, "{turns:?}");
    }

    /// Every order over random graphs keeps both rules, and a complete graph takes as many turns as it has paints.
    #[test]
    fn no_two_of_a_turn_touch_and_light_comes_first() {
        let mut state = 7_u64;
        let mut dice = || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 33) as u8
        };
        for count in [1, 2, 5, 9, 16, 24] {
            let paints: Vec<Rgb> = (0..count).map(|_| Rgb::new(dice(), dice(), dice())).collect();
            let meetings: BTreeSet<(usize, usize)> =
                (0..count).flat_map(|a| (a + 1..count).map(move |b| (a, b))).filter(|_| dice() < 90).collect();
            let turns = by_meetings(&paints, &meetings, &(0..count).collect());
            let turn_of = |p: usize| turns.iter().position(|t| t.contains(&p)).expect("every paint has a turn");
            for (a, b) in &meetings {
                assert_ne!(turn_of(*a), turn_of(*b));
                let (la, lb) = (Lab::from(paints[*a]).l, Lab::from(paints[*b]).l);
                if (la - lb).abs() >= LIGHTER {
                    assert_eq!(la > lb, turn_of(*a) < turn_of(*b));
                }
            }
            let all: BTreeSet<(usize, usize)> = (0..count).flat_map(|a| (a + 1..count).map(move |b| (a, b))).collect();
            assert_eq!(by_meetings(&paints, &all, &(0..count).collect()).len(), count);
        }
    }
}
