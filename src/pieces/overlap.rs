//! Lays lines together that lie on each other, so that they count and are cut once.
//!
//! In: a flat store of joined lines. Out: the same store, where of two lines that run within `join` of each other over
//! ten times `join` or more the one follows the other exactly; splitting then makes one of them. Every such stretch is a
//! finding. Lines that only cross or touch at a small angle are near each other too, but do not lie on each other:
//! their distance grows all the way from the place where they meet. They stay as they are.
//! Rule: handbook, figures, item 1.

use super::Near;
use super::approach::approach_box;
use super::arrange::Index;
use super::boxes::{Extent, Tree};
use super::exact::{nearest, part_within, reading_order, square};
use super::split::{Contacts, follows_on, room, touch};
use super::strands::{Edits, Span, Strand, Strands};
use crate::findings::{Finding, Kind};
use crate::shape::Point;
use std::collections::BTreeMap;

/// Shortest stretch over which lines count as lying on each other, in `join`s. Handbook, figures, item 1.
const LEAST_JOINS: f64 = 10.0;

/// How often lines are looked at again after some have moved.
const MOST_LOOKS: usize = 6;

/// A segment that runs along another: the vertices they start from.
type Hint = (u32, u32);

/// Lays lines together that lie on each other, until none is left to move; what the first look found, and all places
/// where the lines as they then are meet.
pub(super) fn lay_together(strands: &mut Strands, index: &mut Index, near: Near) -> (Vec<Finding>, Contacts) {
    let reach = reach_mm(strands, near);
    // A join as small as the rounding of the coordinates tells nothing: lines that lie on each other to the last bit are
    // made one by splitting, and others are two.
    let tells = near.join_mm > 16.0 * strands.same_mm;
    let apart = if tells { reach.max(room(strands)) } else { room(strands) };
    let mut findings = None;
    let mut looks = 0;
    let mut keys = BTreeMap::new();
    loop {
        // One way over all pairs for both questions: most of the time goes into finding the pairs.
        let (mut hints, mut contacts) = (Vec::new(), Contacts::default());
        index.tree.pairs(&mut |a, b| {
            if b == a + 1 && index.plain[b as usize] {
                return;
            }
            let box_b = index.tree.extent(b).grown(apart - index.room_mm);
            let (a, b) = (index.spans[a as usize], index.spans[b as usize]);
            // Most pairs come near each other nowhere, so what else is to be asked of them waits for the first that does.
            let mut asked = None;
            approach_box(strands, a, b, &box_b, apart, &mut |x, y| {
                let (meets, lies) = *asked
                    .get_or_insert_with(|| (!follows_on(strands, a, b), tells && may_run_along(strands, a, b, reach)));
                if meets {
                    touch(strands, x, y, &mut contacts);
                }
                if lies && run_along(strands, x, y, reach) {
                    hints.push((x.0, y.0));
                }
            });
        });
        // A line that was laid on one that then moved itself needs a second look.
        looks += 1;
        if hints.is_empty() || looks > MOST_LOOKS {
            return (findings.unwrap_or_default(), contacts);
        }
        let (edits, found) = edits(strands, hints, reach, &mut keys);
        findings.get_or_insert(found);
        if edits.is_empty() {
            return (findings.unwrap_or_default(), contacts);
        }
        *strands = strands.edited(edits);
        *index = Index::new(strands, near);
    }
}

/// What to change so that lines that lie on each other do so exactly, and a finding for each such stretch.
fn edits(
    strands: &Strands,
    hints: Vec<Hint>,
    reach: f64,
    keys: &mut BTreeMap<usize, [f64; 9]>,
) -> (Edits, Vec<Finding>) {
    let along = ranked(strands, &hints, keys);
    let mut stretches = stretches(strands, &along, hints, reach);
    stretches.sort_by(|a, b| {
        a.moving.cmp(&b.moving).then(a.from_mm.total_cmp(&b.from_mm)).then(b.to_mm.total_cmp(&a.to_mm))
    });
    let open = strands.strands.iter().filter(|s| !s.closed);
    let mut ends: Vec<(Point, u32)> = open.flat_map(|s| [s.first, s.last]).map(|v| (strands.at(v), v)).collect();
    ends.sort_by(|a, b| a.0.x.total_cmp(&b.0.x).then(a.0.y.total_cmp(&b.0.y)).then(a.1.cmp(&b.1)));

    let (mut laid, mut findings) = (Laid::default(), Vec::new());
    let mut done: Option<(usize, f64)> = None;
    for stretch in &stretches {
        // What already lies on one line is not laid on a second.
        let free_mm = done.filter(|d| d.0 == stretch.moving).map_or(f64::NEG_INFINITY, |d| d.1);
        let from_mm = stretch.from_mm.max(free_mm);
        if stretch.to_mm - from_mm < 0.5 * LEAST_JOINS * reach {
            continue;
        }
        done = Some((stretch.moving, stretch.to_mm));
        let (Some(moving), Some(staying)) = (along.get(&stretch.moving), along.get(&stretch.staying)) else { continue };
        findings.push(finding(moving, stretch));
        lay(strands, moving, staying, stretch, from_mm, &ends, &mut laid);
    }
    (laid.edits(strands), findings)
}

/// Where vertices go. A corner may lie on several lines: it goes to the one of least rank, and the next look does the rest.
#[derive(Default)]
struct Laid {
    moves: BTreeMap<u32, (usize, Point)>,
    inserts: Vec<(u32, f64, Point)>,
}

impl Laid {
    fn put(&mut self, vertex: u32, rank: usize, place: Point) {
        let to = self.moves.entry(vertex).or_insert((rank, place));
        if rank < to.0 {
            *to = (rank, place);
        }
    }

    fn edits(self, strands: &Strands) -> Edits {
        let moves =
            self.moves.into_iter().map(|(v, (_, place))| (v, place)).filter(|(v, p)| strands.at(*v) != *p).collect();
        Edits { moves, inserts: self.inserts, drops: Vec::new() }
    }
}

fn finding(along: &Along, stretch: &Stretch) -> Finding {
    let length_mm = stretch.to_mm - stretch.from_mm;
    Finding::new(
        Kind::DoubledLine,
        Some(along.at((stretch.from_mm + stretch.to_mm) / 2.0)),
        format!("Two lines lie on each other for {length_mm:.1} mm, which would be cut twice; they count once."),
        "Remove one of the two, so that the laser does not char the edge.",
    )
}

/// How near lines lie that lie on each other.
fn reach_mm(strands: &Strands, near: Near) -> f64 {
    near.join_mm.max(4.0 * strands.same_mm)
}

/// Whether two spans may run along each other somewhere.
pub(super) fn may_lie_on(strands: &Strands, a: Span, b: Span, near: Near) -> bool {
    may_run_along(strands, a, b, reach_mm(strands, near))
}

fn may_run_along(strands: &Strands, a: Span, b: Span, reach: f64) -> bool {
    // Spans that follow each other share a corner of their boxes as a rule: nothing runs along anything there.
    let (box_a, box_b) = (strands.extent(&a, reach / 2.0), strands.extent(&b, reach / 2.0));
    let apart = box_a.shared_span(&box_b) < (2.2 * reach).min(box_a.span()).min(box_b.span());
    !apart && !swings_round(strands, a, b, reach)
}

/// Whether one span goes on where the other ends and the line swings round there, too wide for its two sides to lie on each other.
fn swings_round(strands: &Strands, x: Span, y: Span, reach: f64) -> bool {
    let (x, y) = if x.b == y.a { (x, y) } else { (y, x) };
    if x.b != y.a || x.a == y.b {
        return false;
    }
    let turn = strands.at(x.b);
    let (from, to) = (turn - strands.at(x.a), strands.at(y.b) - turn);
    // Places of one side up to where it is more than `reach` away in the direction that both share.
    let leaves = |vertex: &dyn Fn(u32) -> u32, n: u32, in_y: bool| {
        let first_out =
            (1..=n).map(|k| strands.at(vertex(k)) - turn).find(|d| (if in_y { d.y } else { d.x }).abs() > reach);
        first_out.is_some_and(|d| (if in_y { d.x } else { d.y }).abs() < LEAST_JOINS / 2.0 * reach)
    };
    let leaves_soon = |in_y: bool| leaves(&|k| x.vertex(x.n - k), x.n, in_y) && leaves(&|k| y.vertex(k), y.n, in_y);
    (from.x * to.x < 0.0 && from.y * to.y > 0.0 && leaves_soon(true))
        || (from.x * to.x > 0.0 && from.y * to.y < 0.0 && leaves_soon(false))
}

/// Whether two segments run in about the same direction, side by side and near.
fn run_along(strands: &Strands, x: (u32, u32), y: (u32, u32), reach: f64) -> bool {
    let (a, b, c, d) = (strands.at(x.0), strands.at(x.1), strands.at(y.0), strands.at(y.1));
    let (u, v) = (b - a, d - c);
    let (dot, cross) = (u.dot(v), u.cross(v));
    // Chords of one curve, cut differently, turn by up to 25° against each other where it is tightest.
    if cross.abs() > 0.47 * dot.abs() {
        return false;
    }
    // A smooth line goes on beside itself at every vertex.
    let neighbours = x.1 == y.0 || y.1 == x.0;
    if neighbours && dot > 0.0 {
        return false;
    }
    let Some((from, to)) = part_within(a, b, c, d, reach) else { return false };
    // How much of the one lies beside the other, measured along it.
    let (length, other) = (square(a, b).sqrt(), square(c, d).sqrt());
    let (s, e) = ((c - a).dot(u) / length, (d - a).dot(u) / length);
    let beside = (s.max(e).min(to * length) - s.min(e).max(from * length)).max(0.0);
    beside >= 0.2 * length.min(other).min(10.0 * reach)
}

/// A stretch of one line that lies on another.
struct Stretch {
    /// The strand that is to follow, and where, in mm along it.
    moving: usize,
    from_mm: f64,
    to_mm: f64,
    /// The strand that stays, and the vertices that start its segments along the stretch.
    staying: usize,
    segments: Segments,
}

/// Some segments of a line, by the vertices that start them, and a tree of their boxes.
struct Segments {
    starts: Vec<u32>,
    tree: Tree,
    reach: f64,
}

impl Segments {
    fn new(line: &Along, mut starts: Vec<u32>, reach: f64) -> Segments {
        starts.sort_unstable();
        starts.dedup();
        let boxes = starts.iter().map(|&v| line.segment_from(v)).map(|(a, b)| Extent::between(a, b, reach)).collect();
        Segments { starts, tree: Tree::new(boxes), reach }
    }

    /// Distance of a place from the nearest of them, where on it that is, and mm along the line.
    fn gap(&self, line: &Along, p: Point) -> (f64, Point, f64) {
        let mut best = (f64::INFINITY, p, 0.0);
        let look = |best: &mut (f64, Point, f64), i: u32| {
            let v = self.starts[i as usize];
            let (a, b) = line.segment_from(v);
            let (q, t) = nearest(a, b, p);
            let gap2 = square(p, q);
            if gap2 < best.0 {
                let k = (v - line.strand.first) as usize;
                *best = (gap2, q, line.at_mm[k] + t * (line.at_mm[k + 1] - line.at_mm[k]));
            }
        };
        self.tree.meeting(&Extent::between(p, p, 0.1 * self.reach), &mut |i| look(&mut best, i));
        if best.0 == f64::INFINITY {
            (0..self.starts.len() as u32).for_each(|i| look(&mut best, i));
        }
        (best.0.sqrt(), best.1, best.2)
    }
}

/// Places along a strand by length.
struct Along<'a> {
    strand: &'a Strand,
    /// Its place among the lines in question; see [`ranked`].
    rank: usize,
    points: &'a [Point],
    at_mm: Vec<f64>,
}

impl<'a> Along<'a> {
    fn new(strands: &'a Strands, strand: usize, rank: usize) -> Along<'a> {
        let strand = &strands.strands[strand];
        let points = strands.places(strand);
        let mut at_mm = Vec::with_capacity(points.len() + 1);
        let mut sum = 0.0;
        at_mm.push(sum);
        let back = strand.closed.then(|| points[0]);
        for (a, b) in points.iter().zip(points[1..].iter().copied().chain(back)) {
            sum += square(*a, b).sqrt();
            at_mm.push(sum);
        }
        Along { strand, rank, points, at_mm }
    }

    fn length_mm(&self) -> f64 {
        self.at_mm[self.at_mm.len() - 1]
    }

    /// Ends of the `k`th segment.
    fn segment(&self, k: usize) -> (Point, Point) {
        (self.points[k], self.points[(k + 1) % self.points.len()])
    }

    /// The vertices from one place up to another, both included.
    fn vertices_in(&self, from_mm: f64, to_mm: f64) -> std::ops::Range<usize> {
        let start = self.at_mm.partition_point(|m| *m < from_mm);
        start..self.at_mm.partition_point(|m| *m <= to_mm).max(start)
    }

    /// The segment that holds a place.
    fn segment_at(&self, mm: f64) -> usize {
        self.at_mm.partition_point(|m| *m <= mm).clamp(1, self.at_mm.len() - 1) - 1
    }

    /// The `k`th vertex; after the last of a closed line the first again.
    fn vertex(&self, k: usize) -> Point {
        self.points[k % self.points.len()]
    }

    /// Whether the line ends at its `k`th vertex or turns there by more than a flattened curve does.
    fn turns_at(&self, k: usize) -> bool {
        let n = self.points.len();
        if !self.strand.closed && (k == 0 || k + 1 >= n) {
            return true;
        }
        let (before, after) = (self.vertex(k) - self.vertex(k + n - 1), self.vertex(k + 1) - self.vertex(k));
        before.cross(after).abs() > 0.47 * before.dot(after)
    }

    /// Whether the segment that a vertex starts is the first and whether it is the last of an open line.
    fn ends_at(&self, v: u32) -> (bool, bool) {
        let open = !self.strand.closed;
        (open && v == self.strand.first, open && v + 1 == self.strand.last)
    }

    fn at(&self, mm: f64) -> Point {
        let k = self.segment_at(mm);
        let (a, b) = self.segment(k);
        let length = self.at_mm[k + 1] - self.at_mm[k];
        let share = if length > 0.0 { ((mm - self.at_mm[k]) / length).clamp(0.0, 1.0) } else { 0.0 };
        Point::new(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share)
    }

    /// Ends of the segment that a vertex of the strand starts.
    fn segment_from(&self, v: u32) -> (Point, Point) {
        self.segment((v - self.strand.first) as usize)
    }
}

/// What lines are ordered by: where they lie, not where they stand in the drawing.
fn place_key(points: &[Point]) -> [f64; 9] {
    let e = Extent::of(points);
    let (first, last) = (points[0], points[points.len() - 1]);
    let (first, last) = if reading_order(first, last).is_gt() { (last, first) } else { (first, last) };
    [e.y0, e.x0, e.y1, e.x1, points.len() as f64, first.y, first.x, last.y, last.x]
}

/// The lines that hints name, in the order of their places: the earlier one stays where two lie on each other.
///
/// `keys` holds the places of lines as first seen, so that the order stays when they move.
fn ranked<'a>(
    strands: &'a Strands,
    hints: &[Hint],
    keys: &mut BTreeMap<usize, [f64; 9]>,
) -> BTreeMap<usize, Along<'a>> {
    let mut lines: Vec<usize> = hints.iter().flat_map(|&(x, y)| [strands.strand_of(x), strands.strand_of(y)]).collect();
    lines.sort_unstable();
    lines.dedup();
    let mut key = |s: usize| {
        let strand = &strands.strands[s];
        *keys.entry(strand.line).or_insert_with(|| place_key(strands.places(strand)))
    };
    let mut keyed: Vec<([f64; 9], usize)> = lines.into_iter().map(|s| (key(s), s)).collect();
    keyed.sort_by(|(a, i), (b, j)| {
        a.iter().zip(b).map(|(a, b)| a.total_cmp(b)).find(|o| o.is_ne()).unwrap_or_else(|| i.cmp(j))
    });
    keyed.into_iter().enumerate().map(|(rank, (_, s))| (s, Along::new(strands, s, rank))).collect()
}

/// Gathers hints into stretches that are long enough, and leaves out those where lines only cross or touch.
fn stretches(strands: &Strands, along: &BTreeMap<usize, Along>, hints: Vec<Hint>, reach: f64) -> Vec<Stretch> {
    let mut ordered: Vec<(usize, usize, u32, u32)> = Vec::with_capacity(hints.len());
    for (x, y) in hints {
        let (sx, sy) = (strands.strand_of(x), strands.strand_of(y));
        let rank = |s: usize| along.get(&s).map(|a| a.rank);
        let later = if sx == sy { x > y } else { rank(sx) > rank(sy) };
        ordered.push(if later { (sx, sy, x, y) } else { (sy, sx, y, x) });
    }
    ordered.sort_unstable();
    let mut found = Vec::new();
    for pair in ordered.chunk_by(|a, b| (a.0, a.1) == (b.0, b.1)) {
        if let (Some(moving), Some(staying)) = (along.get(&pair[0].0), along.get(&pair[0].1)) {
            stretches_of_pair(moving, staying, pair, reach, &mut found);
        }
    }
    found
}

fn stretches_of_pair(
    along: &Along,
    other: &Along,
    pair: &[(usize, usize, u32, u32)],
    reach: f64,
    found: &mut Vec<Stretch>,
) {
    let mut parts: Vec<(f64, f64, u32)> = Vec::with_capacity(pair.len());
    for &(_, _, x, y) in pair {
        let k = (x - along.strand.first) as usize;
        let ((a, b), (c, d)) = (along.segment(k), other.segment_from(y));
        if let Some((from, to)) = part_beside(a, b, (c, d), other.ends_at(y), reach) {
            let (start, length) = (along.at_mm[k], along.at_mm[k + 1] - along.at_mm[k]);
            parts.push((start + from * length, start + to * length, y));
        }
    }
    parts.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.2.cmp(&b.2)));
    let mut i = 0;
    while i < parts.len() {
        let (from_mm, mut to_mm) = (parts[i].0, parts[i].1);
        let mut j = i + 1;
        while j < parts.len() && parts[j].0 <= to_mm + 0.5 * reach {
            to_mm = to_mm.max(parts[j].1);
            j += 1;
        }
        if to_mm - from_mm >= LEAST_JOINS * reach * (1.0 - 1e-9) {
            // A line that lies on itself: what moves is nothing to lie on.
            let itself = |v: u32| {
                along.rank == other.rank && {
                    let k = (v - along.strand.first) as usize;
                    along.at_mm[k] < to_mm && along.at_mm[k + 1] > from_mm
                }
            };
            let starts: Vec<u32> = parts[i..j].iter().map(|p| p.2).filter(|&v| !itself(v)).collect();
            if !starts.is_empty() {
                let segments = Segments::new(other, starts, reach);
                let stretch = Stretch { moving: pair[0].0, from_mm, to_mm, staying: pair[0].1, segments };
                found.extend(lying_together(along, other, stretch, reach));
            }
        }
        i = j;
    }
}

/// The part of a segment within reach of another and, where that is the first or last of its line, not beyond its end.
fn part_beside(
    a: Point,
    b: Point,
    (c, d): (Point, Point),
    (is_first, is_last): (bool, bool),
    reach: f64,
) -> Option<(f64, f64)> {
    let (mut from, mut to) = part_within(a, b, c, d, reach)?;
    for (end, inward) in [is_first.then_some((c, d - c)), is_last.then_some((d, c - d))].into_iter().flatten() {
        // Where along the segment it passes the end of the other line.
        let (start, step) = ((a - end).dot(inward), (b - a).dot(inward));
        if step > 0.0 {
            from = from.max(-start / step);
        } else if step < 0.0 {
            to = to.min(-start / step);
        } else if start < 0.0 {
            return None;
        }
    }
    (from <= to).then_some((from, to))
}

/// Looks at how far the lines are apart along a stretch; the part of it in which they lie on each other.
fn lying_together(along: &Along, other: &Along, stretch: Stretch, reach: f64) -> Option<Stretch> {
    let length_mm = stretch.to_mm - stretch.from_mm;
    let gap = |mm: f64| stretch.segments.gap(other, along.at(mm)).0;
    let apart = 0.9 * reach;
    let opens = |mm: f64, end_mm: f64| {
        // A stretch that lasts to the end of its line was not left.
        if !along.strand.closed && (mm - end_mm).abs() == 0.0 {
            return false;
        }
        // A last bit of a chord too short to count may hide how far apart the lines are where they leave: then they are
        // going apart for some way already, and are beyond reach soon after.
        let outwards = if mm == stretch.from_mm { -reach } else { reach };
        let on = |reaches: f64| {
            let mm = mm + reaches * outwards;
            gap(if along.strand.closed { mm.rem_euclid(along.length_mm()) } else { mm.clamp(0.0, along.length_mm()) })
        };
        let leaves = || on(2.0) > reach && on(-2.5) - on(-5.0) > 0.05 * reach && on(0.0) - on(-2.5) > 0.05 * reach;
        gap(mm) > apart || (gap(mm) > 0.6 * reach && leaves())
    };
    let (opens_before, opens_after) = (opens(stretch.from_mm, 0.0), opens(stretch.to_mm, along.length_mm()));
    if !opens_before && !opens_after {
        return Some(stretch);
    }
    // Where lines cross or touch, the distance grows from nothing up to the reach: evenly, so that it is under a quarter of it
    // for a quarter of the way, or as the square, for half of it. What is near for longer lies on the other.
    let steps = ((length_mm / reach) as usize * 4).clamp(64, 4096);
    let at = |i: usize| stretch.from_mm + length_mm * i as f64 / steps as f64;
    let gaps: Vec<f64> = (0..=steps).map(|i| gap(at(i))).collect();
    let least = gaps.iter().copied().fold(f64::INFINITY, f64::min);
    let limit = least + 0.25 * (reach - least);
    let first = gaps.iter().position(|g| *g <= limit)?;
    let last = gaps.iter().rposition(|g| *g <= limit)?;
    let (near_mm, leaving_mm) = (at(last) - at(first), length_mm - (at(last) - at(first)));
    if near_mm - 1.15 * leaving_mm < LEAST_JOINS * reach * (1.0 - 1e-9) {
        return None;
    }
    let from_mm = if opens_before { at(first) } else { stretch.from_mm };
    let to_mm = if opens_after { at(last) } else { stretch.to_mm };
    Some(Stretch { from_mm, to_mm, ..stretch })
}

/// Makes the moving line of a stretch follow the staying one vertex by vertex, and takes along all ends that lie on it.
fn lay(
    strands: &Strands,
    along: &Along,
    other: &Along,
    stretch: &Stretch,
    from_mm: f64,
    ends: &[(Point, u32)],
    laid: &mut Laid,
) {
    let on_other = |p: Point| stretch.segments.gap(other, p);
    // A corner goes to a corner.
    let corner_on_other = |p: Point| {
        let (gap, q, mm) = on_other(p);
        let k = other.segment_at(mm);
        let reach2 = stretch.segments.reach * stretch.segments.reach;
        let corners = [k, k + 1].into_iter().filter(|&k| other.turns_at(k)).map(|k| (other.vertex(k), other.at_mm[k]));
        let near = corners.filter(|(c, _)| square(*c, p) <= reach2);
        near.min_by(|a, b| square(a.0, p).total_cmp(&square(b.0, p))).map_or((gap, q, mm), |(c, mm)| (gap, c, mm))
    };
    // Where the moving line comes to lie: its own vertices and the borders of the stretch, each on the staying line.
    let mut stops: Vec<(f64, Option<u32>, Point)> = along
        .vertices_in(from_mm, stretch.to_mm)
        .map(|k| (along.at_mm[k], Some(along.strand.first + (k % along.points.len()) as u32), along.vertex(k)))
        .collect();
    if stops.first().is_none_or(|s| s.0 > from_mm) {
        stops.insert(0, (from_mm, None, along.at(from_mm)));
    }
    if stops.last().is_none_or(|s| s.0 < stretch.to_mm) {
        stops.push((stretch.to_mm, None, along.at(stretch.to_mm)));
    }

    let same2 = strands.same_mm * strands.same_mm;
    let (mut moves, mut inserts, mut stays) = (Vec::new(), Vec::new(), true);
    let mut stop_on_other: Vec<(f64, Point, f64)> = stops
        .iter()
        .map(|&(_, vertex, p)| {
            let smooth = vertex.is_some_and(|v| !along.turns_at((v - along.strand.first) as usize));
            if smooth { on_other(p) } else { corner_on_other(p) }
        })
        .collect();
    stop_on_other.push((0.0, Point::ZERO, 0.0));
    // A sharp corner at the border of a stretch lies near as well, but is no reason to move anything: what counts is
    // what lies between the first and the last vertex, unless that is little of the stretch.
    let own: Vec<usize> = (0..stops.len()).filter(|&i| stops[i].1.is_some()).collect();
    let judged = match (own.first(), own.last()) {
        (Some(&i), Some(&j)) if stops[j].0 - stops[i].0 >= 0.8 * (stretch.to_mm - from_mm) => i..=j,
        _ => 0..=stops.len(),
    };
    for (i, &(mm, vertex, p)) in stops.iter().enumerate() {
        let (_, q, other_mm) = stop_on_other[i];
        let k = along.segment_at(mm);
        let (start, length) = (along.at_mm[k], along.at_mm[k + 1] - along.at_mm[k]);
        let segment = along.strand.first + k as u32;
        let share = |mm: f64| if length > 0.0 { (mm - start) / length } else { 0.0 };
        stays &= square(p, q) <= same2 || !judged.contains(&i);
        match vertex {
            Some(v) => moves.push((v, q)),
            None => inserts.push((segment, share(mm), q)),
        }
        let Some(&(next_mm, _, next)) = stops.get(i + 1) else { continue };
        // On to the next stop by way of every vertex of the staying line between.
        // Where the nearest place jumps far along it, as in a scribble that lies on itself, there is no such way.
        let next_other_mm = stop_on_other[i + 1].2;
        let detour_mm = (next_other_mm - other_mm).abs();
        let detour_mm = if other.strand.closed { detour_mm.min(other.length_mm() - detour_mm) } else { detour_mm };
        let way = if detour_mm <= 3.0 * (next_mm - mm) + 4.0 * stretch.segments.reach {
            vertices_between(other, other_mm, next_other_mm)
        } else {
            Vec::new()
        };
        let count = way.len() as f64 + 1.0;
        for (n, on_way) in way.into_iter().enumerate() {
            let between = judged.contains(&i) && judged.contains(&(i + 1));
            stays &= square(nearest(p, next, on_way).0, on_way) <= same2 || !between;
            inserts.push((segment, share(mm + (next_mm - mm) * (n as f64 + 1.0) / count), on_way));
        }
    }
    // Lines that lie on each other to the last bit need nothing but to be split.
    if !stays {
        moves.into_iter().for_each(|(v, q)| laid.put(v, other.rank, q));
        laid.inserts.extend(inserts);
        let ends = ends_along(strands, along, from_mm, stretch.to_mm, ends);
        ends.into_iter().for_each(|(p, v)| laid.put(v, other.rank, on_other(p).1));
    }
}

/// Vertices of a line strictly between two places along it; on a closed line the shorter way round.
fn vertices_between(line: &Along, from_mm: f64, to_mm: f64) -> Vec<Point> {
    let n = line.points.len();
    let inner = |low: f64, high: f64| {
        let start = line.at_mm[..n].partition_point(|m| *m <= low);
        let end = line.at_mm[..n].partition_point(|m| *m < high);
        start..end.max(start)
    };
    let (low, high) = (from_mm.min(to_mm), from_mm.max(to_mm));
    let round = line.strand.closed && high - low > line.length_mm() / 2.0;
    let mut way: Vec<Point> = if round {
        // From the higher place on over the start to the lower.
        let start = line.at_mm[..n].partition_point(|m| *m <= high);
        let end = line.at_mm[..n].partition_point(|m| *m < low);
        (start..n).chain(0..end).map(|k| line.points[k]).collect()
    } else {
        inner(low, high).map(|k| line.points[k]).collect()
    };
    if (from_mm > to_mm) != round {
        way.reverse();
    }
    way
}

/// The ends of other lines that lie on a stretch.
fn ends_along(strands: &Strands, along: &Along, from_mm: f64, to_mm: f64, ends: &[(Point, u32)]) -> Vec<(Point, u32)> {
    let room = 4.0 * strands.same_mm;
    let mut found = Vec::new();
    let inner = along.vertices_in(from_mm, to_mm);
    for k in inner.start.saturating_sub(1)..inner.end.min(along.at_mm.len() - 1) {
        let (a, b) = along.segment(k);
        let reach = Extent::between(a, b, room);
        let start = ends.partition_point(|e| e.0.x < reach.x0);
        for &(p, v) in ends[start..].iter().take_while(|e| e.0.x <= reach.x1) {
            let own = v >= along.strand.first && v <= along.strand.last;
            let (q, t) = nearest(a, b, p);
            let mm = along.at_mm[k] + t * (along.at_mm[k + 1] - along.at_mm[k]);
            if !own && square(p, q) <= room * room && mm >= from_mm - room && mm <= to_mm + room {
                found.push((p, v));
            }
        }
    }
    found
}
