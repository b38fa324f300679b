//! Which stretches of lines lie on each other.
//!
//! In: pairs of segments that run side by side within `join`. Out: stretches of ten times `join` or more over which one line lies
//! on another. Lines that only cross or touch at a small angle are near each other too, but do not lie on each other:
//! their distance grows all the way from the place where they meet.
//! Rule: handbook, figures, item 1.

use super::Near;
use super::along::Along;
use super::boxes::{Extent, Tree};
use super::exact::{nearest, part_within, reading_order, square};
use super::spans::Span;
use super::strands::Strands;
use crate::shape::Point;
use std::collections::BTreeMap;

/// Shortest stretch over which lines count as lying on each other, in `join`s. Handbook, figures, item 1.
pub(super) const LEAST_JOINS: f64 = 10.0;

/// A segment that runs along another: the vertices they start from.
pub(super) type Hint = (u32, u32);

/// How near lines lie that lie on each other.
pub(super) fn reach_mm(strands: &Strands, near: Near) -> f64 {
    near.join_mm.max(4.0 * strands.same_mm)
}

/// Whether two spans may run along each other somewhere.
pub(super) fn may_lie_on(strands: &Strands, a: Span, b: Span, near: Near) -> bool {
    may_run_along(strands, a, b, reach_mm(strands, near))
}

pub(super) fn may_run_along(strands: &Strands, a: Span, b: Span, reach: f64) -> bool {
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
    let leaves_soon = |in_y: bool| {
        leaves(turn, (1..=x.n).map(|k| strands.at(x.vertex(x.n - k))), in_y, reach)
            && leaves(turn, (1..=y.n).map(|k| strands.at(y.vertex(k))), in_y, reach)
    };
    (from.x * to.x < 0.0 && from.y * to.y > 0.0 && leaves_soon(true))
        || (from.x * to.x > 0.0 && from.y * to.y < 0.0 && leaves_soon(false))
}

/// Whether places are more than `reach` away from where a line turns, in y or else in x, before they are far away in the other.
fn leaves(turn: Point, mut places: impl Iterator<Item = Point>, in_y: bool, reach: f64) -> bool {
    let first_out = places.find(|p| (if in_y { p.y - turn.y } else { p.x - turn.x }).abs() > reach);
    first_out.is_some_and(|p| (if in_y { p.x - turn.x } else { p.y - turn.y }).abs() < LEAST_JOINS / 2.0 * reach)
}

/// Whether two segments run in about the same direction, side by side and near.
pub(super) fn run_along(strands: &Strands, x: (u32, u32), y: (u32, u32), reach: f64) -> bool {
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
pub(super) struct Stretch {
    /// The strand that is to follow, and where, in mm along it.
    pub moving: usize,
    pub from_mm: f64,
    pub to_mm: f64,
    /// The strand that stays, and the vertices that start its segments along the stretch.
    pub staying: usize,
    pub segments: Segments,
}

/// Some segments of a line, by the vertices that start them, and a tree of their boxes.
pub(super) struct Segments {
    starts: Vec<u32>,
    tree: Tree,
    pub reach: f64,
}

impl Segments {
    fn new(line: &Along, mut starts: Vec<u32>, reach: f64) -> Segments {
        starts.sort_unstable();
        starts.dedup();
        let boxes = starts.iter().map(|&v| line.segment_from(v)).map(|(a, b)| Extent::between(a, b, reach)).collect();
        Segments { starts, tree: Tree::new(boxes), reach }
    }

    /// Distance of a place from the nearest of them, where on it that is, and mm along the line. Of two as near it is the first.
    pub fn gap(&self, line: &Along, p: Point) -> (f64, Point, f64) {
        let mut best = (f64::INFINITY, p, 0.0, u32::MAX);
        let look = |best: &mut (f64, Point, f64, u32), i: u32| {
            let v = self.starts[i as usize];
            let (a, b) = line.segment_from(v);
            let (q, t) = nearest(a, b, p);
            let gap2 = square(p, q);
            if (gap2, i) < (best.0, best.3) {
                let k = (v - line.strand.first) as usize;
                *best = (gap2, q, line.at_mm[k] + t * (line.at_mm[k + 1] - line.at_mm[k]), i);
            }
        };
        self.tree.meeting(&Extent::between(p, p, 0.1 * self.reach), &mut |i| look(&mut best, i));
        if best.0 == f64::INFINITY {
            (0..self.starts.len() as u32).for_each(|i| look(&mut best, i));
        }
        (best.0.sqrt(), best.1, best.2)
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
pub(super) fn ranked<'a>(
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
pub(super) fn stretches(
    strands: &Strands,
    along: &BTreeMap<usize, Along>,
    hints: Vec<Hint>,
    reach: f64,
) -> Vec<Stretch> {
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
