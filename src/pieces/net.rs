//! The arrangement of lines as data: nodes, the chains between them, and the faces they bound.
//!
//! All is kept in a few long rows: points of chains, chains of rings. Outlines of faces are written out when asked for.

use std::ops::Range;

use crate::shape::{Face, Point, Ring};

/// How near is near.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Near {
    /// Ends this close count as touching, mm. From `drawing.join`; 0.1 where the record is silent.
    pub join_mm: f64,
}

/// A plane graph: nodes, the chains of points between them, and the faces they bound.
///
/// Chains, not single segments, are the edges: all interior points of a chain have degree two.
#[derive(Clone, Debug, Default)]
pub struct Net {
    /// Places where chains meet or end (and one on each lonely closed line), mm.
    pub nodes: Vec<Point>,
    /// Chains between nodes. [`Net::points`] and [`Net::lines`] tell where they lie and what they came from.
    pub chains: Vec<Chain>,
    /// Bounded faces, top to bottom, left to right by the top left of their boxes. [`Net::rings`] gives the chains
    /// around one, [`Net::face`] its outline.
    pub faces: Vec<NetFace>,
    /// Connected parts of the lines.
    pub parts: usize,
    /// Points of all chains, and others between them that no chain has.
    pub(super) points: Vec<Point>,
    /// Lines of all chains.
    pub(super) lines: Vec<usize>,
    /// Rings of all faces, as runs of `sides`.
    pub(super) rings: Vec<Range<u32>>,
    /// Chains of all rings: twice the chain, one more where it is walked backward.
    pub(super) sides: Vec<u32>,
}

/// One edge of the net.
#[derive(Clone, Debug)]
pub struct Chain {
    /// Node where it starts.
    pub from: usize,
    /// Node where it ends; the same one for a closed chain.
    pub to: usize,
    /// Bounded face on the side of positive turning (from x towards y) when walking along, if any; on the screen, with
    /// y down, that is the right-hand side.
    pub left: Option<usize>,
    /// Bounded face on the other side, if any. A line that ends inside a face has it on both.
    pub right: Option<usize>,
    pub(super) points: Range<u32>,
    pub(super) lines: Range<u32>,
}

/// A bounded face.
#[derive(Clone, Debug)]
pub struct NetFace {
    pub(super) rings: Range<u32>,
}

impl Net {
    /// All points of a chain of this net, both nodes included, mm; a closed chain repeats its first point.
    pub fn points(&self, chain: &Chain) -> &[Point] {
        run(&self.points, &chain.points)
    }

    /// Indices of the lines given that lie on a chain of this net; more than one where lines were doubled.
    pub fn lines(&self, chain: &Chain) -> &[usize] {
        run(&self.lines, &chain.lines)
    }

    /// For each ring of a face (the outer one first), its chains in order with `true` where walked forward. Dangling
    /// lines are left out; an island is a hole.
    pub fn rings(&self, face: usize) -> impl Iterator<Item = impl Iterator<Item = (usize, bool)> + '_> + '_ {
        self.rings_of(face).map(|ring| ring.iter().map(|side| (*side as usize / 2, side.is_multiple_of(2))))
    }

    /// The outline of a face as drawn, mm; nothing of a face that there is not.
    pub fn face(&self, face: usize) -> Face {
        let mut rings = self.rings_of(face).map(|ring| ring_points(&self.points, &self.chains, ring));
        Face { outer: rings.next().unwrap_or_default(), holes: rings.collect() }
    }

    fn rings_of(&self, face: usize) -> impl Iterator<Item = &[u32]> {
        let rings = self.faces.get(face).map_or(&[][..], |f| run(&self.rings, &f.rings));
        rings.iter().map(|ring| run(&self.sides, ring))
    }
}

/// Points of a ring of sides, without the first one repeated.
pub(super) fn ring_points(points: &[Point], chains: &[Chain], sides: &[u32]) -> Ring {
    let chain = |side: u32| run(points, &chains[side as usize / 2].points);
    let mut ring = Ring::with_capacity(sides.iter().map(|s| chain(*s).len().saturating_sub(1)).sum());
    for &side in sides {
        match chain(side) {
            [on_way @ .., _] if side.is_multiple_of(2) => ring.extend_from_slice(on_way),
            [_, on_way @ ..] => ring.extend(on_way.iter().rev()),
            [] => {}
        }
    }
    ring
}

/// A run of a row.
pub(super) fn run<'a, T>(row: &'a [T], at: &Range<u32>) -> &'a [T] {
    &row[at.start as usize..at.end as usize]
}
