//! Whether two neighbours hold against a straight pull.
//!
//! A piece Q moved by t·u meets P exactly if p − q = t·u for a point p of P and a point q of Q. So Q is free in the
//! directions that no difference p − q has. The differences of two edges fill a parallelogram, whose directions are the
//! arc between its outermost corners; the joint holds if the arcs of all pairs of edges cover the full circle.
//! Directions are compared by a pseudo-angle that grows with the angle and needs no trigonometry; arcs of neighbouring
//! edges end in the very same corner, so no gap is made or closed by rounding.
//! Rule: handbook, figures, item 11.

use kurbo::Vec2;
use rayon::prelude::*;

use super::{Board, inset};
use crate::shape::{Extent, Face, Point};

/// What a joint must have to spare on each side beyond the kerf, mm. Handbook, figures, item 11.
const SPARE_MM: f64 = 0.05;
/// Edges looked at together; whole runs whose directions are covered already are passed over.
const BLOCK: usize = 8;
/// Runs of edges this close face each other across the kerf, mm.
const NEAR_MM: f64 = 0.5;

/// Two neighbouring pieces and whether they hold each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// The lesser piece.
    pub a: usize,
    /// The greater piece.
    pub b: usize,
    /// Between two edge pieces.
    pub edge: bool,
    /// Neither can be pulled straight off the other.
    pub holds: bool,
    /// Middle of the widest way out for `b`, degrees clockwise from the right; `None` where it holds or a side is lost.
    pub escape_deg: Option<f64>,
    /// A place on the line between them, mm.
    pub at_mm: Point,
}

/// Joints that are looked at together: the outlines of their pieces are kept in memory for so long.
const TOGETHER: usize = 4000;

/// All joints of a board, by `a`, then `b`.
pub fn joints(board: &Board) -> Vec<Joint> {
    let off_mm = board.kerf_mm / 2.0 + SPARE_MM;
    let shared = shared_chains(board);
    let mut all = Vec::with_capacity(board.neighbours.len());
    for some in board.neighbours.chunks(TOGETHER) {
        let mut pieces: Vec<usize> = some.iter().flat_map(|&(a, b)| [a, b]).collect();
        pieces.sort_unstable();
        pieces.dedup();
        let bodies: Vec<Option<Body>> =
            pieces.par_iter().map(|p| Body::of(&inset(&board.pieces[*p].face, off_mm))).collect();
        let body = |piece: usize| pieces.binary_search(&piece).ok().and_then(|i| bodies[i].as_ref());
        let joint = |&(a, b): &(usize, usize)| {
            let (holds, escape_deg) = match (body(a), body(b)) {
                (Some(p), Some(q)) => {
                    let way = way_out(p, q);
                    (way.is_none(), way)
                }
                _ => (false, None),
            };
            let edge = board.pieces[a].edge && board.pieces[b].edge;
            Joint { a, b, edge, holds, escape_deg, at_mm: place(board, &shared, a, b) }
        };
        all.par_extend(some.par_iter().map(joint));
    }
    all
}

/// Chains between two faces, by the faces (the lesser first), sorted.
fn shared_chains(board: &Board) -> Vec<((usize, usize), usize)> {
    let chains = board.net.chains.iter().enumerate();
    let mut shared: Vec<_> =
        chains.filter_map(|(i, c)| c.left.zip(c.right).map(|(l, r)| ((l.min(r), l.max(r)), i))).collect();
    shared.sort_unstable();
    shared
}

/// The middle of the longest line that the two pieces share, mm.
fn place(board: &Board, shared: &[((usize, usize), usize)], a: usize, b: usize) -> Point {
    let (fa, fb) = (board.pieces[a].net_face, board.pieces[b].net_face);
    let faces = (fa.min(fb), fa.max(fb));
    let ours = &shared[shared.partition_point(|s| s.0 < faces)..];
    let ours = ours.iter().take_while(|s| s.0 == faces).map(|s| &board.net.chains[s.1]);
    let length = |c: &super::Chain| board.net.points(c).windows(2).map(|w| (w[1] - w[0]).hypot2().sqrt()).sum::<f64>();
    let longest = ours.max_by(|x, y| length(x).total_cmp(&length(y)));
    longest.map_or(board.pieces[a].face.outer[0], |c| middle(board.net.points(c), length(c) / 2.0))
}

fn middle(points: &[Point], mut left_mm: f64) -> Point {
    for w in points.windows(2) {
        let step = (w[1] - w[0]).hypot2().sqrt();
        if step >= left_mm && step > 0.0 {
            return w[0].lerp(w[1], left_mm / step);
        }
        left_mm -= step;
    }
    points[points.len() / 2]
}

/// A piece as edges, under a tree of boxes: runs of edges are halved down to blocks.
struct Body {
    /// Each ring with its first point again at its end: an edge leads from each point but that to the next.
    points: Vec<Point>,
    /// The whole comes last.
    nodes: Vec<Node>,
}

/// A run of edges, from one point to another, and its box.
struct Node {
    extent: Extent,
    from: u32,
    to: u32,
    /// Its two halves; `None` for a block.
    halves: Option<(u32, u32)>,
}

impl Body {
    /// `None` where the inset removed or broke up the piece.
    fn of(parts: &[Face]) -> Option<Body> {
        let [one] = parts else { return None };
        let count: usize = one.rings().map(|r| r.len() + 1).sum();
        let nodes = Vec::with_capacity(2 * count.div_ceil(BLOCK) + 2 * one.holes.len());
        let mut body = Body { points: Vec::with_capacity(count), nodes };
        let mut whole = None;
        for ring in one.rings() {
            let from = body.points.len();
            body.points.extend_from_slice(ring);
            body.points.push(*ring.first()?);
            let ring = body.grow(from, body.points.len() - 1)?;
            whole = Some(match whole {
                None => ring,
                Some(before) => body.over(before, ring)?,
            });
        }
        whole.map(|_| body)
    }

    /// Makes the node of a run of edges, and before it those under it.
    fn grow(&mut self, from: usize, to: usize) -> Option<u32> {
        if to - from > BLOCK {
            let middle = (from + to) / 2;
            let halves = (self.grow(from, middle)?, self.grow(middle, to)?);
            return self.over(halves.0, halves.1);
        }
        let extent = Extent::of(self.points.get(from..=to)?)?;
        self.nodes.push(Node { extent, from: from as u32, to: to as u32, halves: None });
        Some(self.nodes.len() as u32 - 1)
    }

    /// Makes the node above two others.
    fn over(&mut self, one: u32, two: u32) -> Option<u32> {
        let (a, b) = (&self.nodes[one as usize], &self.nodes[two as usize]);
        let extent = Extent::of([&a.extent.min, &a.extent.max, &b.extent.min, &b.extent.max])?;
        self.nodes.push(Node { extent, from: a.from, to: b.to, halves: Some((one, two)) });
        Some(self.nodes.len() as u32 - 1)
    }

    /// The points of a block; its edges lead from each to the next.
    fn block(&self, node: &Node) -> &[Point] {
        &self.points[node.from as usize..=node.to as usize]
    }
}

/// Grows with the angle of `d` from 0 (right) through 1 (down), 2 (left) and 3 (up) to under 4.
fn pseudo_angle(d: Vec2) -> f64 {
    let p = d.x / (d.x.abs() + d.y.abs());
    let a = if d.y >= 0.0 { 1.0 - p } else { 3.0 + p };
    if a >= 4.0 { 0.0 } else { a }
}

/// The arc of directions of a convex set without the origin, from its corners: pseudo-angles of its outermost two,
/// in the sense of growing angle. `None` if the corners lie all round the origin.
fn arc(corners: &[Vec2]) -> Option<(f64, f64)> {
    let (mut lo, mut hi) = (corners[0], corners[0]);
    for &c in &corners[1..] {
        if lo.cross(c) < 0.0 {
            lo = c;
        }
        if hi.cross(c) > 0.0 {
            hi = c;
        }
    }
    let within = corners.iter().all(|&c| lo.cross(c) >= 0.0 && c.cross(hi) >= 0.0);
    (within && lo.cross(hi) >= 0.0).then(|| (pseudo_angle(lo), pseudo_angle(hi)))
}

/// The directions not yet covered, as open stretches of pseudo-angle within 0 to 4, in order.
struct Gaps(Vec<(f64, f64)>);

impl Gaps {
    fn meets(&self, (lo, hi): (f64, f64)) -> bool {
        let reached = |from: f64, to: f64| self.0.iter().any(|g| g.0 < to && from < g.1);
        if lo <= hi { reached(lo, hi) } else { reached(lo, 4.0) || reached(0.0, hi) }
    }

    fn cover(&mut self, (lo, hi): (f64, f64)) {
        if lo <= hi {
            self.cut(lo, hi);
        } else {
            self.cut(lo, 4.0);
            self.cut(0.0, hi);
        }
    }

    fn cut(&mut self, from: f64, to: f64) {
        let mut i = 0;
        while i < self.0.len() {
            let (a, b) = self.0[i];
            if from < b && a < to {
                let left = [(a, from.max(a)), (to.min(b), b)].into_iter().filter(|g| g.0 < g.1);
                let count = self.0.len();
                self.0.splice(i..=i, left);
                i += 1 + self.0.len() - count;
            } else {
                i += 1;
            }
        }
    }

    /// The widest gap, joined across the right-hand direction; `None` when all is covered.
    fn widest(&self) -> Option<(f64, f64)> {
        let mut all = self.0.clone();
        if let (Some(&(a, b)), Some(&(c, d))) = (all.first(), all.last())
            && all.len() > 1
            && a == 0.0
            && d == 4.0
        {
            all.pop();
            all[0] = (c, b + 4.0);
        }
        all.into_iter().max_by(|x, y| (x.1 - x.0).total_cmp(&(y.1 - y.0)))
    }
}

fn box_corners(p: &Extent, q: &Extent) -> [Vec2; 4] {
    let (min, max) = (p.min - q.max, p.max - q.min);
    [min, Vec2::new(max.x, min.y), max, Vec2::new(min.x, max.y)]
}

fn overlaps_origin(corners: &[Vec2; 4]) -> bool {
    corners[0].x <= 0.0 && corners[2].x >= 0.0 && corners[0].y <= 0.0 && corners[2].y >= 0.0
}

/// The middle of the widest way out for `q`, degrees clockwise from the right (y runs down); `None` if it is held.
fn way_out(p: &Body, q: &Body) -> Option<f64> {
    let mut gaps = Gaps(vec![(0.0, 4.0)]);
    cover_roughly(&mut gaps, p, q);
    // Blocks that face each other across the kerf span wide arcs: they settle most joints at once.
    let whole = (p.nodes.len() as u32 - 1, q.nodes.len() as u32 - 1);
    cover_nodes(&mut gaps, p, q, whole, NEAR_MM);
    cover_nodes(&mut gaps, p, q, whole, f64::INFINITY);
    gaps.widest().map(|(lo, hi)| degrees((lo + hi) / 2.0))
}

/// Covers directions from single points of `p` to whole runs of edges of `q`, where the two are near each other.
///
/// Along a run the direction to a point outside its box turns steadily or to and fro, but never round the point: between
/// the directions to both ends of the run it takes all. That settles most joints that hold.
fn cover_roughly(gaps: &mut Gaps, p: &Body, q: &Body) {
    let (Some(whole_p), Some(whole_q)) = (p.nodes.last(), q.nodes.last()) else { return };
    let near = |body: &Body, other: &Extent| -> Vec<(Extent, u32, u32)> {
        let around = other.inflate(NEAR_MM);
        let blocks = body.nodes.iter().filter(|n| n.halves.is_none() && n.extent.meets(&around));
        blocks.map(|n| (n.extent, n.from, n.to)).collect()
    };
    let (mine, theirs) = (near(p, &whole_q.extent), near(q, &whole_p.extent));
    for (_, from, _) in &mine {
        let at = p.points[*from as usize];
        for (extent, from, to) in &theirs {
            let inside = extent.meets(&Extent { min: at, max: at });
            if inside {
                continue;
            }
            if let Some(covered) = arc(&[at - q.points[*from as usize], at - q.points[*to as usize]]) {
                gaps.cover(covered);
            }
        }
        if gaps.0.is_empty() {
            return;
        }
    }
}

/// Covers the directions of all pairs of edges under two nodes that are no farther apart than `within_mm` along either axis.
fn cover_nodes(gaps: &mut Gaps, p: &Body, q: &Body, (i, j): (u32, u32), within_mm: f64) {
    let (a, b) = (&p.nodes[i as usize], &q.nodes[j as usize]);
    let corners = box_corners(&a.extent, &b.extent);
    let apart = corners[0].x.max(-corners[2].x).max(corners[0].y).max(-corners[2].y);
    let covered = || !overlaps_origin(&corners) && arc(&corners).is_some_and(|a| !gaps.meets(a));
    if gaps.0.is_empty() || apart > within_mm || covered() {
        return;
    }
    let larger_first = a.to - a.from >= b.to - b.from;
    match (a.halves, b.halves) {
        (Some((one, two)), _) if larger_first || b.halves.is_none() => {
            cover_nodes(gaps, p, q, (one, j), within_mm);
            cover_nodes(gaps, p, q, (two, j), within_mm);
        }
        (_, Some((one, two))) => {
            cover_nodes(gaps, p, q, (i, one), within_mm);
            cover_nodes(gaps, p, q, (i, two), within_mm);
        }
        _ => cover_pairs(gaps, p.block(a), q.block(b)),
    }
}

fn cover_pairs(gaps: &mut Gaps, ps: &[Point], qs: &[Point]) {
    for (p1, p2) in ps.windows(2).map(|w| (w[0], w[1])) {
        for (q1, q2) in qs.windows(2).map(|w| (w[0], w[1])) {
            match arc(&[p1 - q1, p1 - q2, p2 - q2, p2 - q1]) {
                Some(covered) => gaps.cover(covered),
                // Edges that touch: nothing moves either way across them.
                None => gaps.0.clear(),
            }
        }
    }
}

/// The angle of a pseudo-angle, degrees, 0 to under 360.
fn degrees(pseudo: f64) -> f64 {
    let a = pseudo.rem_euclid(4.0);
    let (x, y) = match a {
        a if a < 2.0 => (1.0 - a, 1.0 - (1.0 - a).abs()),
        a => (a - 3.0, (a - 3.0).abs() - 1.0),
    };
    libm::atan2(y, x).to_degrees().rem_euclid(360.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn body(points: &[(f64, f64)]) -> Body {
        let outer = points.iter().map(|p| Point::from(*p)).collect();
        Body::of(&[Face { outer, holes: vec![] }]).expect("one part")
    }

    #[test]
    fn squares_side_by_side_slide_apart() {
        let p = body(&[(0., 0.), (10., 0.), (10., 10.), (0., 10.)]);
        let q = body(&[(10.3, 0.), (20., 0.), (20., 10.), (10.3, 10.)]);
        let way = way_out(&p, &q).expect("free to the right");
        assert!(!(1.0..=359.0).contains(&way), "{way}");
        let back = way_out(&q, &p).expect("free to the left");
        assert!((back - 180.0).abs() < 1.0, "{back}");
    }

    /// A dovetail: wider at its head than at its neck, so no straight line leads out; without the flare it pulls out.
    #[test]
    fn a_dovetail_holds_and_a_plain_tongue_does_not() {
        let socket = |neck: f64, head: f64| {
            body(&[
                (0., -20.),
                (20., -20.),
                (20., 20.),
                (0., 20.),
                (0., neck + 0.3),
                (8., head + 0.3),
                (8., -head - 0.3),
                (0., -neck - 0.3),
            ])
        };
        let tongue = |neck: f64, head: f64| {
            body(&[
                (-0.3, -neck),
                (7.7, -head),
                (7.7, head),
                (-0.3, neck),
                (-0.3, 20.),
                (-20., 20.),
                (-20., -20.),
                (-0.3, -20.),
            ])
        };
        assert_eq!(way_out(&socket(2.0, 5.0), &tongue(2.0, 5.0)), None);
        let way = way_out(&socket(4.0, 4.0), &tongue(4.0, 4.0)).expect("pulls out to the left");
        assert!((way - 180.0).abs() < 5.0, "{way}");
    }

    #[test]
    fn pseudo_angles_turn_back_into_angles() {
        for i in 0..360 {
            let t = f64::from(i).to_radians();
            let back = degrees(pseudo_angle(Vec2::new(libm::cos(t), libm::sin(t))));
            assert!((back - f64::from(i)).abs() < 1e-9, "{i}: {back}");
        }
    }
}
