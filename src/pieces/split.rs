//! Splits lines wherever they meet: at crossings, at touches, and all along where they lie on each other.
//!
//! In: a flat store of joined lines and its spans. Out: the store with a vertex in each of the lines wherever two meet, and
//! the list of those vertices. A crossing that is computed is rounded, and moves the segments that it splits by a hair;
//! these are looked at again, round after round, until nothing new is found.
//! Whether two segments cross is decided exactly; places nearer than [`Strands::same_mm`] are made one place.

use super::approach::approach;
use super::arrange::Index;
use super::boxes::{Extent, Tree};
use super::exact::{crossing, nearest, orient, reading_order, square};
use super::marks::Marks;
use super::spans::Span;
use super::strands::{NONE, Strands};
use crate::shape::Point;
use std::cmp::Ordering;

/// Enough for any drawing that was looked at: two or three are usual. A bound, so that no drawing can hang the program.
const MOST_ROUNDS: usize = 64;

/// What was found between spans.
#[derive(Default)]
pub(super) struct Contacts {
    /// Segments and places where they must be split.
    cuts: Vec<(u32, u32, Point)>,
    /// Vertices that are the same as a place nearby, and that place.
    ties: Vec<(u32, Point)>,
    /// Vertices where lines meet.
    nodes: Marks,
}

impl Contacts {
    fn meet_at(&mut self, vertices: impl IntoIterator<Item = u32>) {
        vertices.into_iter().for_each(|v| self.nodes.add(v));
    }

    fn is_empty(&self) -> bool {
        self.cuts.is_empty() && self.ties.is_empty()
    }
}

/// Lines split wherever they meet.
pub(super) struct Split {
    /// The store, no longer flat: vertices from `originals` on were put in.
    pub strands: Strands,
    /// How many vertices there were before.
    pub originals: usize,
    /// Vertices where lines meet. All that were put in are among them.
    pub nodes: Marks,
    /// For each vertex put in, the original one that starts the segment it was put into.
    pub homes: Vec<u32>,
}

/// Splits all lines at all places where they meet. `found` is what [`touch`] says of all pairs of segments.
pub(super) fn split(strands: Strands, index: &Index, mut found: Contacts) -> Split {
    let originals = strands.pos.len();
    let mut work = Work { home: Vec::new(), originals, strands };
    let mut rounds: Vec<(Vec<Span>, Tree)> = Vec::new();
    while !found.is_empty() && rounds.len() < MOST_ROUNDS {
        let fresh = work.apply(&mut found);
        let slack = 2.0 * work.strands.same_mm;
        let boxes = Tree::new(fresh.iter().map(|s| work.strands.extent(s, slack)).collect());
        let strands = &work.strands;
        boxes.pairs(&mut |a, b| meet(strands, fresh[a as usize], fresh[b as usize], &mut found));
        boxes
            .pairs_with(&index.tree, &mut |a, b| meet(strands, fresh[a as usize], index.spans[b as usize], &mut found));
        for (earlier, tree) in &rounds {
            boxes.pairs_with(tree, &mut |a, b| meet(strands, fresh[a as usize], earlier[b as usize], &mut found));
        }
        rounds.push((fresh, boxes));
    }
    let mut nodes = found.nodes;
    (originals as u32..work.strands.pos.len() as u32).for_each(|v| nodes.add(v));
    Split { strands: work.strands, originals, nodes, homes: work.home }
}

/// The store while it is being split.
struct Work {
    strands: Strands,
    originals: usize,
    /// For each vertex put in, the original one that starts the segment it was put into.
    home: Vec<u32>,
}

impl Work {
    /// Makes the changes found and gives the segments that are new or have moved.
    fn apply(&mut self, found: &mut Contacts) -> Vec<Span> {
        let mut fresh = Vec::new();
        let mut cuts = std::mem::take(&mut found.cuts);
        let along = |s: &Strands, cut: &(u32, u32, Point)| {
            let (a, b) = (s.at(cut.0), s.at(cut.1));
            (b - a).dot(cut.2 - a)
        };
        let strands = &self.strands;
        cuts.sort_by(|l, r| {
            l.0.cmp(&r.0)
                .then_with(|| along(strands, l).total_cmp(&along(strands, r)))
                .then_with(|| reading_order(l.2, r.2))
        });
        let same2 = self.strands.same_mm * self.strands.same_mm;
        for cuts in cuts.chunk_by(|l, r| l.0 == r.0) {
            let (start, end, _) = cuts[0];
            let home =
                if (start as usize) < self.originals { start } else { self.home[start as usize - self.originals] };
            let mut at = start;
            for (_, _, place) in cuts {
                // Two crossings in the same place: one vertex will do, the next round ties the others to it.
                if at != start && square(self.strands.at(at), *place) <= same2 {
                    continue;
                }
                let put = self.strands.put(*place, at, end);
                self.home.push(home);
                fresh.push(Span { a: at, b: put, n: 1 });
                at = put;
            }
            fresh.push(Span { a: at, b: end, n: 1 });
        }
        let mut ties = std::mem::take(&mut found.ties);
        ties.sort_by(|l, r| l.0.cmp(&r.0).then_with(|| reading_order(l.1, r.1)));
        ties.dedup_by_key(|t| t.0);
        for (v, place) in ties {
            self.strands.pos[v as usize] = place;
            found.meet_at([v]);
            if let Some(before) = self.before(v) {
                fresh.push(Span { a: before, b: v, n: 1 });
            }
            let after = self.strands.after(v);
            if after != NONE {
                fresh.push(Span { a: v, b: after, n: 1 });
            }
        }
        fresh.sort_unstable_by_key(|s| (s.a, s.b));
        fresh.dedup_by_key(|s| (s.a, s.b));
        fresh
    }

    /// The vertex that leads to `v`.
    fn before(&self, v: u32) -> Option<u32> {
        let mut at = if (v as usize) >= self.originals {
            self.home[v as usize - self.originals]
        } else {
            let strand = self.strands.strands[self.strands.strand_of(v)];
            match (v == strand.first, strand.closed) {
                (true, false) => return None,
                (true, true) => strand.last,
                (false, _) => v - 1,
            }
        };
        while self.strands.after(at) != v {
            at = self.strands.after(at);
            if at == NONE {
                return None;
            }
        }
        Some(at)
    }
}

/// Finds where two spans meet.
fn meet(strands: &Strands, x: Span, y: Span, found: &mut Contacts) {
    if !follows_on(strands, x, y) {
        approach(strands, x, y, room(strands), &mut |x, y| {
            if strands.is_segment(x) && strands.is_segment(y) {
                touch(strands, x, y, found);
            }
        });
    }
}

/// How near boxes must come: vertices may have been tied to places nearby since, so they get as much more room.
pub(super) fn room(strands: &Strands) -> f64 {
    4.0 * strands.same_mm
}

/// Whether one span goes on where the other ends, in a way that they cannot meet anywhere else.
pub(super) fn follows_on(strands: &Strands, x: Span, y: Span) -> bool {
    let (x, y) = if x.b == y.a { (x, y) } else { (y, x) };
    if x.b != y.a || x.a == y.b {
        return false;
    }
    let (a, v, b) = (strands.at(x.a), strands.at(x.b), strands.at(y.b));
    let (p, q) = (strands.at(x.vertex(x.n - 1)), strands.at(y.vertex(1)));
    let room = 8.0 * strands.same_mm;
    // On one side of the vertex in x: all of the one lies left of it, all of the other right, if they leave it at once.
    let on_in_x = (v.x - a.x) * (b.x - v.x) >= 0.0 && ((v.x - p.x).abs() > room || (q.x - v.x).abs() > room);
    let on_in_y = (v.y - a.y) * (b.y - v.y) >= 0.0 && ((v.y - p.y).abs() > room || (q.y - v.y).abs() > room);
    on_in_x || on_in_y
}

/// Finds where two segments meet.
pub(super) fn touch(strands: &Strands, x: (u32, u32), y: (u32, u32), found: &mut Contacts) {
    if x == y {
        return;
    }
    let (a, b, c, d) = (strands.at(x.0), strands.at(x.1), strands.at(y.0), strands.at(y.1));
    let apart = !Extent::between(a, b, room(strands)).meets(&Extent::between(c, d, 0.0));
    if apart || a == b || c == d {
        return;
    }
    // Neighbours on one line share a vertex; nothing else can happen unless the line turns back on itself there.
    let shared = [x.0, x.1].into_iter().find(|v| *v == y.0 || *v == y.1);
    let mut tied = false;
    for (v, other, ends) in [(y.0, x, (a, b)), (y.1, x, (a, b)), (x.0, y, (c, d)), (x.1, y, (c, d))] {
        tied |= Some(v) != shared && touch_at(strands, v, other, ends, found);
    }
    if tied {
        found.meet_at(shared);
    }
    if tied || shared.is_some() {
        return;
    }
    if orient(a, b, c) * orient(a, b, d) < 0.0 && orient(c, d, a) * orient(c, d, b) < 0.0 {
        let place = crossing(a, b, c, d);
        found.cuts.push((x.0, x.1, place));
        found.cuts.push((y.0, y.1, place));
    }
}

/// Looks at one vertex and a segment of another place; true where they are tied.
fn touch_at(strands: &Strands, v: u32, segment: (u32, u32), (a, b): (Point, Point), found: &mut Contacts) -> bool {
    let p = strands.at(v);
    let same2 = strands.same_mm * strands.same_mm;
    for (end, place) in [(segment.0, a), (segment.1, b)] {
        if p == place {
            found.meet_at([v, end]);
            return true;
        }
        if square(p, place) <= same2 {
            // The place that comes first in reading order stays.
            match reading_order(p, place) {
                Ordering::Less => found.ties.push((end, p)),
                _ => found.ties.push((v, place)),
            }
            found.meet_at([v, end]);
            return true;
        }
    }
    let (q, t) = nearest(a, b, p);
    if t > 0.0 && t < 1.0 && square(p, q) <= same2 {
        found.cuts.push((segment.0, segment.1, p));
        found.meet_at([v]);
        return true;
    }
    false
}
