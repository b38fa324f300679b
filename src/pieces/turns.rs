//! Sides of chains and how they follow each other around nodes.
//!
//! In: nodes and chains that meet in nodes alone. Out: at every node the order of the sides that leave it, decided exactly.

use super::buckets::Buckets;
use super::exact::orient;
use super::{Chain, Net};
use crate::shape::Point;
use std::cmp::Ordering;

/// One side of a chain, walked so that its face lies to the side of positive turning: `2 × chain`, one more where walked backward.
pub(super) type Side = u32;

/// The chain of a side.
pub(super) const fn chain_of(side: Side) -> usize {
    side as usize / 2
}

/// Whether a side is walked as its chain goes.
pub(super) const fn forward(side: Side) -> bool {
    side.is_multiple_of(2)
}

/// The sides of all chains and how they follow each other around nodes.
pub(super) struct Turns {
    /// Sides that leave each node, by angle.
    leaving: Buckets<Side>,
    /// Where each side stands in `leaving`.
    rank: Vec<u32>,
}

impl Turns {
    /// `second` gives the point of a side that comes after its node.
    pub fn new(nodes: &[Point], chains: &[Chain], second: impl Fn(Side) -> Point) -> Turns {
        let both = |(i, chain): (Side, &Chain)| [(chain.from, 2 * i), (chain.to, 2 * i + 1)];
        let mut leaving = Buckets::new(nodes.len(), (0..).zip(chains).flat_map(both));
        let mut toward: Vec<(Point, Side)> = Vec::new();
        for (node, &at) in nodes.iter().enumerate() {
            let sides = leaving.of_mut(node);
            toward.clear();
            toward.extend(sides.iter().map(|&s| (second(s), s)));
            toward.sort_by(|a, b| by_angle(at, a.0, b.0).then(a.1.cmp(&b.1)));
            sides.iter_mut().zip(&toward).for_each(|(side, (_, sorted))| *side = *sorted);
        }
        let mut rank = vec![0; leaving.all().len()];
        for (i, &side) in leaving.all().iter().enumerate() {
            rank[side as usize] = i as u32;
        }
        Turns { leaving, rank }
    }

    /// The side that leaves `node` next, turning from `side` against the sense of positive turning.
    pub fn next_before(&self, node: usize, side: Side) -> Side {
        let (rank, around) = (self.rank[side as usize] as usize, self.leaving.range(node));
        let before = if rank == around.start { around.end } else { rank };
        self.leaving.all()[before - 1]
    }
}

/// The node where a side starts.
pub(super) fn origin(chains: &[Chain], side: Side) -> usize {
    let chain = &chains[chain_of(side)];
    if forward(side) { chain.from } else { chain.to }
}

/// The point after the node where a side of a net starts.
pub(super) fn second_point(net: &Net, side: Side) -> Point {
    let points = net.points(&net.chains[chain_of(side)]);
    if forward(side) { points[1] } else { points[points.len() - 2] }
}

/// Order of directions around `at` in the sense of positive turning, from the direction of growing x.
fn by_angle(at: Point, a: Point, b: Point) -> Ordering {
    let first_half = |p: Point| p.y > at.y || (p.y == at.y && p.x > at.x);
    match (first_half(a), first_half(b)) {
        (true, false) => Ordering::Less,
        (false, true) => Ordering::Greater,
        _ => orient(at, b, a).partial_cmp(&0.0).unwrap_or(Ordering::Equal),
    }
}
