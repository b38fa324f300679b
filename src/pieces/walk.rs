//! Goes round the faces of a graph.
//!
//! In: nodes and chains that meet in nodes alone. Out: a [`Net`] with every bounded face, and each chain's face on either side.
//! At every node the walk turns as sharply as it can towards the face, so a face that touches itself stays one face and
//! faces that touch in a corner stay apart. Outlines are simple rings: what touches the outer ring in a node is a hole.
//! All sides and turns are decided exactly. Rule: handbook, figures, item 2.

use super::boxes::{Extent, Tree};
use super::exact::{orient, reading_order};
use super::graph::{Graph, Look};
use super::groups::Groups;
use super::net::{ring_points, run};
use super::turns::{Side, Turns, chain_of, forward, origin};
use super::{Chain, Net, NetFace};
use crate::shape::{Point, Ring, signed_area_mm2};
use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::ops::Range;

/// Rings of sides, one after the other.
#[derive(Default)]
pub(super) struct Rings {
    sides: Vec<Side>,
    ends: Vec<u32>,
}

impl Rings {
    /// How many there are.
    pub fn len(&self) -> usize {
        self.ends.len()
    }

    /// The sides of one.
    pub fn at(&self, ring: usize) -> &[Side] {
        let from = if ring == 0 { 0 } else { self.ends[ring - 1] };
        &self.sides[from as usize..self.ends[ring] as usize]
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = &[Side]> {
        (0..self.len()).map(|ring| self.at(ring))
    }

    fn push(&mut self, sides: &[Side]) {
        self.sides.extend_from_slice(sides);
        self.ends.push(self.sides.len() as u32);
    }

    fn clear(&mut self) {
        self.sides.clear();
        self.ends.clear();
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
    mut each: impl FnMut(&[Side], &Rings),
) {
    const NOWHERE: u32 = u32::MAX;
    let mut seen = vec![false; 2 * chains.len()];
    let mut at_node = vec![NOWHERE; nodes];
    let (mut all, mut path, mut rings) = (Vec::new(), Vec::<Side>::new(), Rings::default());
    for first in 0..2 * chains.len() as Side {
        if seen[first as usize] || !starts(first) {
            continue;
        }
        all.clear();
        rings.clear();
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
        each(&all, &rings);
    }

    fn take_ring(chains: &[Chain], path: &mut Vec<Side>, depth: usize, at_node: &mut [u32], rings: &mut Rings) {
        let ring = &path[depth..];
        for &side in ring {
            at_node[origin(chains, side)] = NOWHERE;
        }
        let there_and_back = matches!(ring, [a, b] if chain_of(*a) == chain_of(*b));
        if !ring.is_empty() && !there_and_back {
            rings.push(ring);
        }
        path.truncate(depth);
    }
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

/// Chains and what is known of each: rings of their sides are judged without being written out.
struct Judge<'a> {
    points: &'a [Point],
    chains: &'a [Chain],
    looks: &'a [Look],
}

impl Judge<'_> {
    /// Box of a ring.
    fn extent(&self, ring: &[Side]) -> Extent {
        ring.iter().fold(Extent::NOTHING, |all, &s| all.with(self.looks[chain_of(s)].extent))
    }

    /// Of a ring the side on which the point lies that comes first in reading order, and that point.
    fn first(&self, ring: &[Side]) -> Option<(usize, Point)> {
        let places = ring.iter().enumerate().map(|(i, &s)| (i, self.looks[chain_of(s)].first.1));
        places.min_by(|a, b| reading_order(a.1, b.1))
    }

    /// As [`turns_positively`], for the points of a ring of sides.
    fn turns_positively(&self, ring: &[Side]) -> bool {
        let Some((i, corner)) = self.first(ring) else { return false };
        let n = ring.len();
        let side = ring[i];
        let points = run(self.points, &self.chains[chain_of(side)].points);
        let (last, at) = (points.len() - 1, self.looks[chain_of(side)].first.0 as usize);
        // On the way along the side, whichever way that is.
        let k = if forward(side) { at } else { last - at };
        let on_way = |k: usize| if forward(side) { points[k] } else { points[last - k] };
        let before = if k > 0 { on_way(k - 1) } else { self.second(ring[(i + n - 1) % n] ^ 1) };
        let after = if k < last { on_way(k + 1) } else { self.second(ring[(i + 1) % n]) };
        let turn = orient(before, corner, after);
        if turn == 0.0 { signed_area_mm2(&ring_points(self.points, self.chains, ring)) > 0.0 } else { turn > 0.0 }
    }

    /// The point after the node where a side starts.
    fn second(&self, side: Side) -> Point {
        let (from_start, from_end) = self.looks[chain_of(side)].next_to_ends;
        if forward(side) { from_start } else { from_end }
    }
}

/// Outer boundary of a connected part of the lines, whose face is not known from the walk.
struct Contour {
    sides: Vec<Side>,
    rings: Range<u32>,
    part: u32,
}

/// A bounded face before it has its number.
struct Raw {
    /// Of all rings found; islands come on top.
    rings: Range<u32>,
    extent: Extent,
    part: u32,
}

/// On a side of which no face is known.
const NO_FACE: u32 = u32::MAX;

/// Finds all bounded faces.
pub(super) fn walk(graph: Graph) -> Net {
    let Graph { nodes, mut chains, points, lines, looks } = graph;
    let judge = Judge { points: &points, chains: &chains, looks: &looks };
    let turns = Turns::new(&nodes, &chains, |side| judge.second(side));
    let next = |side: Side| turns.next_before(origin(&chains, side ^ 1), side ^ 1);

    let mut groups = Groups::new(nodes.len());
    chains.iter().for_each(|c| groups.unite(c.from, c.to));
    let part_of: Vec<u32> = (0..nodes.len()).map(|v| groups.find(v) as u32).collect();
    let parts = part_of.iter().enumerate().filter(|(v, part)| *v == **part as usize).count();

    let mut found = Rings::default();
    let mut raw: Vec<Raw> = Vec::with_capacity((chains.len() + parts).saturating_sub(nodes.len()));
    let mut contours: Vec<Contour> = Vec::new();
    let mut face_of: Vec<u32> = vec![NO_FACE; 2 * chains.len()];
    let mut order: Vec<usize> = Vec::new();
    cycles(
        &chains,
        nodes.len(),
        |_| true,
        next,
        |sides, rings| {
            let part = part_of[origin(&chains, sides[0])];
            let from = found.len() as u32;
            match rings.iter().position(|ring| judge.turns_positively(ring)) {
                Some(outer) => {
                    // The outer ring, then all others in their order.
                    found.push(rings.at(outer));
                    order.clear();
                    order.extend((0..rings.len()).filter(|r| *r != outer));
                    let place = |ring: &usize| judge.first(rings.at(*ring)).map(|f| f.1);
                    order.sort_by(|a, b| by_place(place(a), place(b)));
                    order.iter().for_each(|ring| found.push(rings.at(*ring)));
                    sides.iter().for_each(|&s| face_of[s as usize] = raw.len() as u32);
                    raw.push(Raw { rings: from..found.len() as u32, extent: judge.extent(rings.at(outer)), part });
                }
                None => {
                    rings.iter().for_each(|ring| found.push(ring));
                    contours.push(Contour { sides: sides.to_vec(), rings: from..found.len() as u32, part });
                }
            }
        },
    );
    let islands =
        if parts > 1 { place_contours(&judge, contours, &nodes, &raw, &found, &mut face_of) } else { Vec::new() };

    let key = |r: &Raw| [r.extent.y0, r.extent.x0, r.extent.y1, r.extent.x1];
    let mut order: Vec<([f64; 4], u32)> = raw.iter().zip(0..).map(|(r, i)| (key(r), i)).collect();
    order.sort_unstable_by(|(a, i), (b, j)| {
        let place = |r: u32| judge.first(found.at(raw[r as usize].rings.start as usize)).map(|f| f.1);
        let by_box = a.iter().zip(b).map(|(a, b)| a.total_cmp(b)).find(|o| o.is_ne());
        by_box.unwrap_or_else(|| by_place(place(*i), place(*j)).then(i.cmp(j)))
    });
    let mut number = vec![0; raw.len()];
    order.iter().enumerate().for_each(|(new, old)| number[old.1 as usize] = new);

    let mut net = Net { nodes, parts, lines, ..Net::default() };
    (net.faces, net.sides) = (Vec::with_capacity(raw.len()), Vec::with_capacity(found.sides.len()));
    for (_, old) in &order {
        let from = net.rings.len() as u32;
        let of_islands = &islands[islands.partition_point(|i| i.0 < *old)..];
        let of_islands = of_islands.iter().take_while(|i| i.0 == *old).map(|i| i.1.clone());
        for ring in std::iter::once(raw[*old as usize].rings.clone()).chain(of_islands).flatten() {
            let start = net.sides.len() as u32;
            net.sides.extend_from_slice(found.at(ring as usize));
            net.rings.push(start..net.sides.len() as u32);
        }
        net.faces.push(NetFace { rings: from..net.rings.len() as u32 });
    }
    let known = |side: usize| (face_of[side] != NO_FACE).then(|| number[face_of[side] as usize]);
    for (i, chain) in chains.iter_mut().enumerate() {
        (chain.left, chain.right) = (known(2 * i), known(2 * i + 1));
    }
    (net.chains, net.points) = (chains, points);
    net
}

fn by_place(a: Option<Point>, b: Option<Point>) -> Ordering {
    match (a, b) {
        (Some(a), Some(b)) => reading_order(a, b),
        (a, b) => a.is_some().cmp(&b.is_some()),
    }
}

/// Gives every part of the lines that lies inside a face to that face, as holes: the smallest face around it. What comes
/// back are faces and the rings that they have got, by face.
fn place_contours(
    judge: &Judge,
    contours: Vec<Contour>,
    nodes: &[Point],
    raw: &[Raw],
    found: &Rings,
    face_of: &mut [u32],
) -> Vec<(u32, Range<u32>)> {
    let tree = Tree::new(raw.iter().map(|r| r.extent).collect());
    let mut outlines: BTreeMap<usize, (f64, Ring)> = BTreeMap::new();
    let mut islands = Vec::new();
    for contour in contours {
        let p = nodes[origin(judge.chains, contour.sides[0])];
        let mut around: Option<(f64, usize)> = None;
        tree.meeting(&Extent::between(p, p, 0.0), &mut |i| {
            let i = i as usize;
            // Parts do not touch: a place of one is strictly inside or outside every face of another.
            if raw[i].part == contour.part {
                return;
            }
            let (area, outer) = outlines.entry(i).or_insert_with(|| {
                let outer = ring_points(judge.points, judge.chains, found.at(raw[i].rings.start as usize));
                (signed_area_mm2(&outer), outer)
            });
            if around.is_none_or(|a| (*area, i) < a) && encloses(outer, p) {
                around = Some((*area, i));
            }
        });
        if let Some((_, around)) = around {
            contour.sides.iter().for_each(|&s| face_of[s as usize] = around as u32);
            islands.push((around as u32, contour.rings));
        }
    }
    islands.sort_by_key(|i| i.0);
    islands
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
