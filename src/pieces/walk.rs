//! Goes round the faces of a graph.
//!
//! In: nodes and chains that meet in nodes alone. Out: a [`Net`] with every bounded face, and each chain's face on either side.
//! At every node the walk turns as sharply as it can towards the face, so a face that touches itself stays one face and
//! faces that touch in a corner stay apart. Outlines are simple rings: what touches the outer ring in a node is a hole.
//! All sides and turns are decided exactly. Rule: handbook, figures, item 2.

use super::boxes::{Extent, Tree};
use super::exact::{orient, reading_order};
use super::graph::Graph;
use super::groups::Groups;
use super::{Chain, Net, NetFace};
use crate::shape::{Face, Point, Ring, signed_area_mm2};
use std::cmp::Ordering;

/// One side of a chain, walked so that its face lies to the side of positive turning: `2 × chain`, one more where walked backward.
type Side = u32;

const fn chain_of(side: Side) -> usize {
    side as usize / 2
}

const fn forward(side: Side) -> bool {
    side.is_multiple_of(2)
}

/// The sides of all chains and how they follow each other around nodes.
pub(super) struct Turns {
    /// Sides that leave each node, by angle, as a run of `leaving`.
    starts: Vec<u32>,
    leaving: Vec<Side>,
    /// Where each side stands in `leaving`.
    rank: Vec<u32>,
}

impl Turns {
    pub fn new(nodes: &[Point], chains: &[Chain]) -> Turns {
        let mut starts = vec![0_u32; nodes.len() + 1];
        for chain in chains {
            starts[chain.from + 1] += 1;
            starts[chain.to + 1] += 1;
        }
        for i in 0..nodes.len() {
            starts[i + 1] += starts[i];
        }
        let mut fill = starts.clone();
        let mut leaving = vec![0; 2 * chains.len()];
        for (i, chain) in chains.iter().enumerate() {
            for (node, side) in [(chain.from, 2 * i), (chain.to, 2 * i + 1)] {
                leaving[fill[node] as usize] = side as Side;
                fill[node] += 1;
            }
        }
        for (node, &at) in nodes.iter().enumerate() {
            let sides = &mut leaving[starts[node] as usize..starts[node + 1] as usize];
            sides.sort_by(|&a, &b| by_angle(at, second_point(chains, a), second_point(chains, b)).then(a.cmp(&b)));
        }
        let mut rank = vec![0; leaving.len()];
        for (i, &side) in leaving.iter().enumerate() {
            rank[side as usize] = i as u32;
        }
        Turns { starts, leaving, rank }
    }

    /// The side that leaves `node` next, turning from `side` against the sense of positive turning.
    pub fn next_before(&self, node: usize, side: Side) -> Side {
        let rank = self.rank[side as usize];
        let before = if rank == self.starts[node] { self.starts[node + 1] } else { rank };
        self.leaving[before as usize - 1]
    }
}

/// The node where a side starts.
pub(super) fn origin(chains: &[Chain], side: Side) -> usize {
    let chain = &chains[chain_of(side)];
    if forward(side) { chain.from } else { chain.to }
}

fn second_point(chains: &[Chain], side: Side) -> Point {
    let points = &chains[chain_of(side)].points;
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

/// Walks cycles of sides, each split where it comes back to a node into rings that touch themselves nowhere.
///
/// `next` gives the side that follows on another, or none where a side has no cycle. What is given for each cycle: the
/// sides in it, and its rings. A chain walked there and straight back is in no ring.
pub(super) fn cycles(
    chains: &[Chain],
    nodes: usize,
    starts: impl Fn(Side) -> bool,
    next: impl Fn(Side) -> Side,
    mut each: impl FnMut(&[Side], Vec<Vec<Side>>),
) {
    const NOWHERE: u32 = u32::MAX;
    let mut seen = vec![false; 2 * chains.len()];
    let mut at_node = vec![NOWHERE; nodes];
    for first in 0..2 * chains.len() as Side {
        if seen[first as usize] || !starts(first) {
            continue;
        }
        let (mut all, mut rings, mut path) = (Vec::new(), Vec::new(), Vec::<Side>::new());
        let mut side = first;
        while !seen[side as usize] {
            seen[side as usize] = true;
            all.push(side);
            let node = origin(chains, side);
            let depth = at_node[node];
            if depth != NOWHERE {
                take_ring(chains, &mut path, depth as usize, &mut at_node, &mut rings);
            }
            at_node[node] = path.len() as u32;
            path.push(side);
            side = next(side);
        }
        take_ring(chains, &mut path, 0, &mut at_node, &mut rings);
        each(&all, rings);
    }

    fn take_ring(
        chains: &[Chain],
        path: &mut Vec<Side>,
        depth: usize,
        at_node: &mut [u32],
        rings: &mut Vec<Vec<Side>>,
    ) {
        let ring = path.split_off(depth);
        for &side in &ring {
            at_node[origin(chains, side)] = NOWHERE;
        }
        let there_and_back = matches!(ring.as_slice(), [a, b] if chain_of(*a) == chain_of(*b));
        if !ring.is_empty() && !there_and_back {
            rings.push(ring);
        }
    }
}

/// Points of a ring of sides, without the first one repeated.
pub(super) fn ring_points(chains: &[Chain], sides: &[Side]) -> Ring {
    let count = sides.iter().map(|&s| chains[chain_of(s)].points.len() - 1).sum();
    let mut ring = Ring::with_capacity(count);
    for &side in sides {
        let points = &chains[chain_of(side)].points;
        if forward(side) {
            ring.extend_from_slice(&points[..points.len() - 1]);
        } else {
            ring.extend(points[1..].iter().rev());
        }
    }
    ring
}

/// Whether a simple ring turns positively. Decided at its point that comes first in reading order, which is a corner of its hull.
pub(super) fn turns_positively(ring: &[Point]) -> bool {
    let n = ring.len();
    let mut first = 0;
    for (i, p) in ring.iter().enumerate() {
        if p.y < ring[first].y || (p.y == ring[first].y && p.x < ring[first].x) {
            first = i;
        }
    }
    if n < 3 {
        return false;
    }
    let turn = orient(ring[(first + n - 1) % n], ring[first], ring[(first + 1) % n]);
    if turn == 0.0 { signed_area_mm2(ring) > 0.0 } else { turn > 0.0 }
}

/// Outer boundary of a connected part of the lines, whose face is not known from the walk.
struct Contour {
    sides: Vec<Side>,
    rings: Vec<(Ring, Vec<Side>)>,
    part: usize,
}

/// A bounded face before it has its number.
struct Raw {
    face: Face,
    rings: Vec<Vec<Side>>,
    extent: Extent,
    part: usize,
}

/// Finds all bounded faces.
pub(super) fn walk(graph: Graph) -> Net {
    let Graph { nodes, mut chains } = graph;
    let turns = Turns::new(&nodes, &chains);
    let next = |side: Side| turns.next_before(origin(&chains, side ^ 1), side ^ 1);

    let mut groups = Groups::new(nodes.len());
    chains.iter().for_each(|c| groups.unite(c.from, c.to));
    let part_of: Vec<usize> = (0..nodes.len()).map(|v| groups.find(v)).collect();
    let parts = part_of.iter().enumerate().filter(|(v, part)| v == *part).count();

    let mut raw: Vec<Raw> = Vec::new();
    let mut contours: Vec<Contour> = Vec::new();
    let mut face_of: Vec<Option<usize>> = vec![None; 2 * chains.len()];
    cycles(
        &chains,
        nodes.len(),
        |_| true,
        next,
        |sides, rings| {
            let part = part_of[origin(&chains, sides[0])];
            let mut rings: Vec<(Ring, Vec<Side>)> = rings.into_iter().map(|r| (ring_points(&chains, &r), r)).collect();
            match rings.iter().position(|(points, _)| turns_positively(points)) {
                Some(outer) => {
                    rings.swap(0, outer);
                    rings[1..].sort_by(|a, b| by_first_point(&a.0, &b.0));
                    sides.iter().for_each(|&s| face_of[s as usize] = Some(raw.len()));
                    let (mut points, rings): (Vec<Ring>, Vec<Vec<Side>>) = rings.into_iter().unzip();
                    let holes = points.split_off(1);
                    let outer = points.pop().unwrap_or_default();
                    raw.push(Raw { extent: Extent::of(&outer), face: Face { outer, holes }, rings, part });
                }
                None => contours.push(Contour { sides: sides.to_vec(), rings, part }),
            }
        },
    );

    if parts > 1 {
        place_contours(contours, &nodes, &chains, &mut raw, &mut face_of);
    }

    let mut order: Vec<usize> = (0..raw.len()).collect();
    let key = |i: usize| raw[i].extent;
    order.sort_by(|&i, &j| {
        let (a, b) = (key(i), key(j));
        a.y0.total_cmp(&b.y0)
            .then(a.x0.total_cmp(&b.x0))
            .then(a.y1.total_cmp(&b.y1))
            .then(a.x1.total_cmp(&b.x1))
            .then_with(|| by_first_point(&raw[i].face.outer, &raw[j].face.outer))
            .then(i.cmp(&j))
    });
    let mut number = vec![0; raw.len()];
    order.iter().enumerate().for_each(|(new, &old)| number[old] = new);
    for (i, chain) in chains.iter_mut().enumerate() {
        chain.left = face_of[2 * i].map(|f| number[f]);
        chain.right = face_of[2 * i + 1].map(|f| number[f]);
    }
    let mut raw: Vec<Option<Raw>> = raw.into_iter().map(Some).collect();
    let faces = order
        .iter()
        .filter_map(|&old| raw[old].take())
        .map(|r| NetFace {
            face: r.face,
            rings: r.rings.iter().map(|ring| ring.iter().map(|&s| (chain_of(s), forward(s))).collect()).collect(),
        })
        .collect();
    Net { nodes, chains, faces, parts }
}

fn by_first_point(a: &[Point], b: &[Point]) -> Ordering {
    let least = |ring: &[Point]| ring.iter().copied().min_by(|a, b| reading_order(*a, *b));
    match (least(a), least(b)) {
        (Some(a), Some(b)) => reading_order(a, b),
        (a, b) => a.is_some().cmp(&b.is_some()),
    }
}

/// Gives every part of the lines that lies inside a face to that face, as a hole: the smallest face around it.
fn place_contours(
    contours: Vec<Contour>,
    nodes: &[Point],
    chains: &[Chain],
    raw: &mut [Raw],
    face_of: &mut [Option<usize>],
) {
    let tree = Tree::new(raw.iter().map(|r| r.extent).collect());
    let area: Vec<f64> = raw.iter().map(|r| signed_area_mm2(&r.face.outer)).collect();
    for contour in contours {
        let p = nodes[origin(chains, contour.sides[0])];
        let mut around: Option<usize> = None;
        tree.meeting(&Extent::between(p, p, 0.0), &mut |i| {
            let i = i as usize;
            // Parts do not touch: a place of one is strictly inside or outside every face of another.
            if raw[i].part != contour.part
                && around.is_none_or(|a| (area[i], i) < (area[a], a))
                && encloses(&raw[i].face.outer, p)
            {
                around = Some(i);
            }
        });
        if let Some(around) = around {
            contour.sides.iter().for_each(|&s| face_of[s as usize] = Some(around));
            for (points, sides) in contour.rings {
                raw[around].face.holes.push(points);
                raw[around].rings.push(sides);
            }
        }
    }
}

/// Whether a place lies inside a ring; decided exactly but for places on the ring, which count as either.
pub(super) fn encloses(ring: &[Point], p: Point) -> bool {
    winding(ring, p) != 0
}

/// How often a ring goes round a place, positive turns counted up.
pub(super) fn winding(ring: &[Point], p: Point) -> i32 {
    let Some(&last) = ring.last() else { return 0 };
    let mut from = last;
    let mut turns = 0;
    for &to in ring {
        if (from.y <= p.y) != (to.y <= p.y) {
            let side = orient(from, to, p);
            if to.y > p.y && side > 0.0 {
                turns += 1;
            } else if to.y <= p.y && side < 0.0 {
                turns -= 1;
            }
        }
        from = to;
    }
    turns
}
