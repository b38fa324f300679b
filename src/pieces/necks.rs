//! Waists that break: pieces that fall apart when a little more is taken off.
//!
//! Where a piece first falls apart, a circle between two places of its outline that face each other holds nothing of
//! the outline inside it: a waist. Only hollow corners can be such places, facing each other or an edge. Most pieces have no
//! waist as narrow as the limit, and are done. A waist across one ring parts it in two; where both sides plainly keep enough
//! wood, that is the answer. The rest is decided by the inset itself.
//! Rule: handbook, findings, `narrow-neck`.

use kurbo::Vec2;
use rayon::prelude::*;

use super::boxes::{self, Tree};
use super::{Piece, inset};
use crate::findings::{Finding, Kind};
use crate::inmost;
use crate::shape::{Extent, Face, Point, Ring, length_mm, ring_sides};

/// Parts smaller than this do not count, mm². Handbook, findings.
const CRUMB_MM2: f64 = 1.0;
/// Radius of a circle of that area with a little to spare, mm.
const CRUMB_RADIUS_MM: f64 = 0.57;
/// Edges looked at together; runs that are too far off are passed over.
const BLOCK: usize = 8;
/// Outlines of more points than this are thinned, and by how much at most, mm: lines drawn as dust are no finer for it.
const MANY: usize = 2000;
const THINNING_MM: f64 = 0.002;
/// Narrow places of one piece that are looked at, the narrowest first.
const MOST_PLACES: usize = 24;
/// How even the width of a channel is, mm.
const EVEN_MM: f64 = 0.02;
/// Edges at a smaller angle, radians, go the same way: acos √0.1.
const ALONG: f64 = 1.249_045_772_398_254;
/// How far from square a facing place may lie, as a sine: room for rounding.
const SLACK: f64 = 0.02;

/// A waist narrower than the limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Neck {
    /// Which piece, from 0.
    pub piece: usize,
    /// Its middle, mm.
    pub at_mm: Point,
    /// Its width after the kerf, mm.
    pub width_mm: f64,
    /// Area that would break off, after the kerf, roughly, mm².
    pub lost_mm2: f64,
    /// What hangs on it is small beside the rest: the neck of a knob.
    pub knob: bool,
}

/// What hangs on a neck is a knob if it has less than this share of the piece. Own choice.
const KNOB_SHARE: f64 = 1.0 / 3.0;

fn parts(cut: &[Face], by_mm: f64) -> Vec<Face> {
    cut.iter().flat_map(|f| inset(f, by_mm)).filter(|f| f.area_mm2() >= CRUMB_MM2).collect()
}

/// The narrowest waist of each piece that has one under `limit_mm`, after the kerf, in the order of the pieces.
pub fn necks(pieces: &[Piece], limit_mm: f64) -> Vec<Neck> {
    let told = |(piece, all): (usize, &Piece)| {
        let torn = tear(all, limit_mm)?;
        let knob = torn.lost_mm2 < KNOB_SHARE * all.net_mm2;
        Some(Neck { piece, at_mm: torn.at_mm, width_mm: torn.width_mm, lost_mm2: torn.lost_mm2, knob })
    };
    pieces.par_iter().enumerate().filter_map(told).collect()
}

/// Where a piece tears first.
struct Tear {
    at_mm: Point,
    width_mm: f64,
    lost_mm2: f64,
}

fn tear(piece: &Piece, limit_mm: f64) -> Option<Tear> {
    let mut found: Vec<Waist> = Vec::new();
    if let [one] = piece.cut.as_slice() {
        let thin = one.rings().any(|r| r.len() > MANY).then(|| Face {
            outer: inmost::thinned(&one.outer, THINNING_MM),
            holes: one.holes.iter().map(|h| inmost::thinned(h, THINNING_MM)).collect(),
        });
        let one = thin.as_ref().unwrap_or(one);
        found = waists(one, limit_mm);
        if found.is_empty() {
            return None;
        }
        found.sort_by(|a, b| a.width_mm.total_cmp(&b.width_mm));
        let plain = found
            .iter()
            .filter(|_| one.holes.is_empty())
            .take(MOST_PLACES)
            .find_map(|w| plain_tear(&one.outer, w, limit_mm));
        if let Some(torn) = plain {
            return Some(Tear { at_mm: mid_channel(one, &found, &torn), ..torn });
        }
    }
    let broken = parts(&piece.cut, limit_mm / 2.0);
    if broken.len() < 2 {
        return None;
    }
    // Beyond the width of the waist where it first falls apart it does.
    found.dedup_by(|b, a| b.width_mm - a.width_mm < 0.01);
    for waist in found.iter().take(MOST_PLACES) {
        let torn = parts(&piece.cut, waist.width_mm / 2.0 + 0.005);
        if torn.len() > 1 {
            let at_mm = waist.ends.0.midpoint(waist.ends.1);
            return Some(Tear { at_mm, width_mm: waist.width_mm, lost_mm2: between(&torn).1 });
        }
    }
    let (at_mm, lost_mm2) = between(&broken);
    Some(Tear { at_mm, width_mm: if found.is_empty() { 0.0 } else { limit_mm }, lost_mm2 })
}

/// A narrow place: two places of the outline with nothing of it in the circle between them.
#[derive(Clone, Copy, Debug)]
struct Waist {
    /// Ring and edge of the one, which starts with the hollow corner itself.
    from: (usize, usize),
    /// Ring and edge on which the other lies.
    to: (usize, usize),
    ends: (Point, Point),
    width_mm: f64,
}

/// An edge of a face.
#[derive(Clone, Copy)]
struct Edge {
    ring: usize,
    number: usize,
    a: Point,
    b: Point,
}

/// Some edges that follow each other.
struct Block<'a> {
    extent: Extent,
    edges: &'a [Edge],
    /// The way from its first place to its last, and how far an edge leans off it at most, radians; none if there is no way.
    way: Option<(Vec2, f64)>,
}

impl<'a> Block<'a> {
    fn of(edges: &'a [Edge]) -> Option<Block<'a>> {
        let extent = Extent::of(edges.iter().flat_map(|e| [&e.a, &e.b]))?;
        // Of two rings in one block the way is that of none.
        let one_ring = edges.first()?.ring == edges.last()?.ring;
        let way = unit(edges.last()?.b - edges.first()?.a).filter(|_| one_ring).and_then(|way| {
            let mut leans = edges.iter().map(|e| unit(e.b - e.a).map(|d| d.dot(way)));
            let least = leans.try_fold(1.0_f64, |least, lean| Some(least.min(lean?)))?;
            Some((way, libm::acos(least.max(-1.0))))
        });
        Some(Block { extent, edges, way })
    }

    /// Whether every edge of the one goes about the way of every edge of the other, so that no two of them, at smooth
    /// corners, can be the sides of a waist.
    fn goes_along(&self, other: &Block) -> bool {
        let (Some((a, lean_a)), Some((b, lean_b))) = (self.way, other.way) else { return false };
        let left = ALONG - 1e-6 - lean_a - lean_b;
        // A cosine is at most the first three terms of its series.
        left > 0.0 && a.dot(b) > 1.0 - left * left / 2.0 + left * left * left * left / 24.0
    }
}

/// A corner of a ring, with the directions of the edges that lead to it and on.
struct Corner {
    at: Point,
    before: Vec2,
    after: Vec2,
}

impl Corner {
    /// Whether any place of a box lies on the side of the wood, so far as the corner is smooth enough to have one.
    fn may_face(&self, other: &Extent) -> bool {
        let (inward, middle) = (Vec2::new(-self.after.y, self.after.x), other.min.midpoint(other.max));
        let half = (other.max - other.min) / 2.0;
        let farthest = (middle - self.at).dot(inward) + half.x * inward.x.abs() + half.y * inward.y.abs();
        farthest > 0.0 || !self.is_smooth()
    }

    /// Whether the line turns by less than about 14°.
    fn is_smooth(&self) -> bool {
        self.before.dot(self.after) > 0.97
    }
}

/// All waists of a face under the limit.
fn waists(face: &Face, limit_mm: f64) -> Vec<Waist> {
    let mut edges: Vec<Edge> = Vec::new();
    for (ring, points) in face.rings().enumerate() {
        let ends = ring_sides(points).map(|(a, b)| (*a, *b));
        edges.extend(ends.enumerate().map(|(number, (a, b))| Edge { ring, number, a, b }));
    }
    // A tree of the blocks, and the blocks.
    let blocks: Vec<Block> = edges.chunks(BLOCK).filter_map(Block::of).collect();
    let tree = Tree::new(blocks.iter().map(|b| boxes::Extent::between(b.extent.min, b.extent.max, 0.0)).collect());
    let near = |around: Extent, met: &mut Vec<u32>| {
        met.clear();
        tree.meeting(&boxes::Extent::between(around.min, around.max, 0.0), &mut |i| met.push(i));
    };
    let is_free = |middle: Point, radius: f64| {
        let mut met = Vec::new();
        near(Extent { min: middle, max: middle }.inflate(radius), &mut met);
        let mut around = met.iter().flat_map(|i| blocks[*i as usize].edges);
        around.all(|e| inmost::distance_sq(middle, e.a, e.b) >= radius * radius)
    };
    let hollow = |edge: &Edge| {
        let points = face.rings().nth(edge.ring)?;
        let before = unit(edge.a - points[(edge.number + points.len() - 1) % points.len()])?;
        let corner = Corner { at: edge.a, before, after: unit(edge.b - edge.a)? };
        // A corner that is not hollow is touched by no circle inside.
        (before.cross(corner.after) <= SLACK).then_some(corner)
    };
    let mut found = Vec::new();
    let (mut corners, mut met): (Vec<(&Edge, Corner)>, Vec<u32>) = (Vec::new(), Vec::new());
    for block in &blocks {
        corners.clear();
        corners.extend(block.edges.iter().filter_map(|e| hollow(e).map(|c| (e, c))));
        if corners.is_empty() {
            continue;
        }
        let smooth = corners.iter().all(|(_, c)| c.is_smooth());
        near(block.extent.inflate(limit_mm), &mut met);
        for other in met.iter().map(|i| &blocks[*i as usize]).filter(|other| !smooth || !block.goes_along(other)) {
            for (from, corner) in corners.iter().filter(|(_, c)| c.may_face(&other.extent)) {
                for edge in other.edges {
                    let Some((foot, direction, width_mm)) = facing(corner, edge, limit_mm) else { continue };
                    let middle = corner.at + direction * (width_mm / 2.0);
                    if is_free(middle, (width_mm / 2.0) * (1.0 - 1e-3)) {
                        let (from, to) = ((from.ring, from.number), (edge.ring, edge.number));
                        found.push(Waist { from, to, ends: (corner.at, foot), width_mm });
                    }
                }
            }
        }
    }
    found
}

/// Where an edge faces a hollow corner across less than the limit: the place on it, its direction and its distance.
fn facing(corner: &Corner, edge: &Edge, limit_mm: f64) -> Option<(Point, Vec2, f64)> {
    let along = edge.b - edge.a;
    let length_sq = along.hypot2();
    let onward = along.dot(corner.after);
    // Two sides of a waist run in opposite directions: at a smooth corner that rules out all edges beside it.
    if length_sq == 0.0 || (onward > 0.0 && onward * onward > 0.1 * length_sq && corner.is_smooth()) {
        return None;
    }
    let t = ((corner.at - edge.a).dot(along) / length_sq).clamp(0.0, 1.0);
    let foot = edge.a + along * t;
    let across = foot - corner.at;
    let width_mm = across.hypot2().sqrt();
    if width_mm == 0.0 || width_mm >= limit_mm {
        return None;
    }
    let direction = across / width_mm;
    // The wood lies between them: neither edge of the corner leans towards the place, and the place looks back.
    let looks = direction.dot(corner.after) <= SLACK && direction.dot(corner.before) >= -SLACK;
    let back = along.cross(direction) <= 0.0;
    (looks && back && direction.cross(corner.after) <= SLACK).then_some((foot, direction, width_mm))
}

fn unit(v: Vec2) -> Option<Vec2> {
    let length = v.hypot2().sqrt();
    (length > 0.0).then(|| v / length)
}

/// The neck at a waist, if it parts the ring and on either side a circle is left that is larger than a crumb.
fn plain_tear(ring: &Ring, waist: &Waist, limit_mm: f64) -> Option<Tear> {
    if waist.from.0 != 0 || waist.to.0 != 0 {
        return None;
    }
    let n = ring.len();
    let (from, to) = (waist.from.1, waist.to.1);
    let way = |start: usize, count: usize| (0..count).map(move |k| ring[(start + k) % n]);
    // From the corner on to the start of the edge that holds the other place, and from the end of that edge back.
    let onward = (to + n - from) % n + 1;
    let mut one: Ring = way(from, onward).collect();
    one.push(waist.ends.1);
    let mut other: Ring = way(to + 1, n - onward).collect();
    other.extend([waist.ends.0, waist.ends.1]);
    let enough = |side: &Ring| {
        let room =
            if side.len() < 3 { 0.0 } else { inmost::place(&Face { outer: side.clone(), holes: vec![] }).room_mm };
        room >= limit_mm / 2.0 + CRUMB_RADIUS_MM
    };
    let lost = |side: &Ring| crate::shape::signed_area_mm2(side).abs();
    let middle = waist.ends.0.midpoint(waist.ends.1);
    (enough(&one) && enough(&other)).then(|| Tear {
        at_mm: middle,
        width_mm: length_mm(waist.ends.0, waist.ends.1),
        lost_mm2: lost(&one).min(lost(&other)),
    })
}

/// The middle of an even channel: both its ends are found as waists of one width, and the maker looks for it between them.
fn mid_channel(face: &Face, found: &[Waist], torn: &Tear) -> Point {
    let rings: Vec<Ring> = face.rings().cloned().collect();
    let free = |to: Point| {
        (0..=8).all(|i| {
            let at = torn.at_mm.lerp(to, f64::from(i) / 8.0);
            (2.0 * inmost::depth_mm(at, &rings) - torn.width_mm).abs() < EVEN_MM
        })
    };
    let ends = found
        .iter()
        .filter(|w| (w.width_mm - torn.width_mm).abs() < EVEN_MM)
        .map(|w| w.ends.0.midpoint(w.ends.1))
        .filter(|end| free(*end));
    let farthest = ends.max_by(|a, b| (*a - torn.at_mm).hypot2().total_cmp(&(*b - torn.at_mm).hypot2()));
    farthest.map_or(torn.at_mm, |end| end.midpoint(torn.at_mm))
}

/// The middle of the shortest way between the smallest part and the others, and the smallest part's area.
fn between(parts: &[Face]) -> (Point, f64) {
    let smallest = (0..parts.len()).min_by(|a, b| parts[*a].area_mm2().total_cmp(&parts[*b].area_mm2())).unwrap_or(0);
    let others = parts.iter().enumerate().filter(|(i, _)| *i != smallest).flat_map(|(_, f)| f.rings().flatten());
    let mine: Vec<Point> = parts[smallest].rings().flatten().copied().collect();
    let nearest = others
        .map(|q| {
            let p = mine.iter().min_by(|a, b| (**a - *q).hypot2().total_cmp(&(**b - *q).hypot2()));
            p.map_or((f64::INFINITY, *q), |p| ((*p - *q).hypot2(), p.midpoint(*q)))
        })
        .min_by(|a, b| a.0.total_cmp(&b.0));
    (nearest.map_or(mine[0], |n| n.1), parts[smallest].area_mm2())
}

/// A `narrow-neck` finding for each; lengths in mm.
pub fn findings(necks: &[Neck], limit_mm: f64, kerf_mm: f64) -> Vec<Finding> {
    let told = |neck: &Neck| {
        let (piece, width_mm, lost_mm2) = (neck.piece + 1, neck.width_mm, neck.lost_mm2);
        let under = format!("{width_mm:.2} mm wide after the cut, under the limit of {limit_mm} mm; {lost_mm2:.0} mm²");
        let (message, what) = if neck.knob {
            (format!("The neck of a knob of piece {piece} is only {under} hang on it."), "neck")
        } else {
            (format!("Piece {piece} has a waist only {under} would break off."), "waist")
        };
        Finding::new(
            Kind::NarrowNeck,
            Some(neck.at_mm),
            message,
            format!("Draw the {what} at least {:.2} mm wide, or lower `neck` under `[limits]`.", limit_mm + kerf_mm),
        )
    };
    necks.iter().map(told).collect()
}
