//! The lines as one store of vertices that can be joined, moved and split.
//!
//! A strand is one line: a run of vertices, each knowing the next. While ends are joined and doubled lines laid
//! together the store stays flat ([`Strands::edit`]); splitting only adds vertices behind and links them in.

use super::seen::Seen;
use crate::shape::Point;
use std::collections::BTreeMap;

/// No vertex.
pub(super) const NONE: u32 = u32::MAX;

/// In a line the next vertex of the store.
const AS_DRAWN: u32 = 0;

/// Points that are copied and looked at together: few enough to stay at hand in between.
const AT_ONCE: usize = 256;

/// One line.
#[derive(Clone, Copy, Debug)]
pub(super) struct Strand {
    /// Its first vertex.
    pub first: u32,
    /// Its last vertex; in a closed line the one before the first again.
    pub last: u32,
    /// The last vertex leads back to the first.
    pub closed: bool,
    /// Index of the line it came from.
    pub line: usize,
}

/// All lines.
#[derive(Clone, Debug, Default)]
pub(super) struct Strands {
    /// Places of the vertices, mm.
    pub pos: Vec<Point>,
    /// The vertex after each, counted from 1, where another was put behind it; [`AS_DRAWN`] elsewhere; empty while the store is flat.
    next: Vec<u32>,
    /// The lines that have any length.
    pub strands: Vec<Strand>,
    /// How near two places are the same place, mm: some hundred times the rounding of the coordinates, far below
    /// anything drawn. It ties vertices together; it never decides on which side of a line something lies.
    pub same_mm: f64,
    /// Width and height of the drawing together, mm.
    pub size_mm: f64,
}

/// What to change about a flat store.
#[derive(Default)]
pub(super) struct Edits {
    /// Vertices and their new places.
    pub moves: Vec<(u32, Point)>,
    /// Places to put into the segment after a vertex, by their share of its length.
    pub inserts: Vec<(u32, f64, Point)>,
    /// Vertices to leave out, from the first up to and with the last.
    pub drops: Vec<(u32, u32)>,
}

impl Edits {
    /// Nothing to do.
    pub fn is_empty(&self) -> bool {
        self.moves.is_empty() && self.inserts.is_empty() && self.drops.is_empty()
    }
}

impl Strands {
    /// A flat store of all lines, given as points and whether they close. Repeated points go, and with them lines of no length.
    pub fn new(lines: &[(&[Point], bool)]) -> Strands {
        let count: usize = lines.iter().map(|(points, _)| points.len()).sum();
        let mut all = Strands {
            // With room for what is put in later, so that they need not be moved for it.
            pos: Vec::with_capacity(count + count / 16 + 64),
            strands: Vec::with_capacity(lines.len()),
            ..Strands::default()
        };
        // How near is the same is known when all have been seen, so repeated points are looked for in what was noted of each line.
        let mut seen = Seen::NOTHING;
        let mut least_steps = Vec::with_capacity(lines.len());
        for (line, (points, closed)) in lines.iter().enumerate() {
            let first = all.pos.len();
            let own = all.copy(points);
            if points.is_empty() || !own.is_sound() {
                all.pos.truncate(first);
                continue;
            }
            all.strands.push(Strand { first: first as u32, last: all.pos.len() as u32 - 1, closed: *closed, line });
            least_steps.push(own.least_step);
            seen = seen.with(&own);
        }
        if all.strands.is_empty() {
            return all;
        }
        all.same_mm = seen.extent.farthest() / (1_u64 << 44) as f64;
        all.size_mm = seen.extent.span();
        all.settle(&least_steps);
        all
    }

    /// Adds points, a few at a time: each goes by but once.
    fn copy(&mut self, points: &[Point]) -> Seen {
        let mut seen = Seen::NOTHING;
        let mut before = None;
        for some in points.chunks(AT_ONCE) {
            // Adding zero makes of a negative zero a plain one, so that equal places have equal bits.
            self.pos.extend(some.iter().map(|p| Point::new(p.x + 0.0, p.y + 0.0)));
            seen = seen.with(&Seen::of(before, some));
            before = some.last().copied();
        }
        seen
    }

    /// Takes out repeated points and lines of no length, where there are any.
    fn settle(&mut self, least_steps: &[f64]) {
        let same = self.same_mm;
        let mut kept = 0;
        let mut strands = std::mem::take(&mut self.strands);
        let mut least_steps = least_steps.iter();
        strands.retain_mut(|strand| {
            let (first, mut end) = (strand.first as usize, strand.last as usize + 1);
            if least_steps.next().is_none_or(|step| *step <= same) {
                let mut to = first;
                for from in first..end {
                    if to == first || apart(self.pos[from], self.pos[to - 1], same) {
                        self.pos[to] = self.pos[from];
                        to += 1;
                    }
                }
                end = to;
            }
            if strand.closed && end - first > 1 && !apart(self.pos[first], self.pos[end - 1], same) {
                end -= 1;
            }
            let count = end - first;
            if count < 2 {
                return false;
            }
            if kept < first {
                self.pos.copy_within(first..end, kept);
            }
            // A closed line of two points goes there and back on itself: it closes nothing.
            let closed = strand.closed && count > 2;
            *strand = Strand { first: kept as u32, last: (kept + count - 1) as u32, closed, line: strand.line };
            kept += count;
            true
        });
        self.pos.truncate(kept);
        self.strands = strands;
    }

    /// The vertex after another; [`NONE`] at the end of an open line.
    pub fn after(&self, v: u32) -> u32 {
        match self.next.get(v as usize) {
            Some(&next) if next != AS_DRAWN => next - 1,
            _ => {
                let strand = &self.strands[self.strand_of(v)];
                match (v == strand.last, strand.closed) {
                    (false, _) => v + 1,
                    (true, true) => strand.first,
                    (true, false) => NONE,
                }
            }
        }
    }

    /// Puts a vertex into the segment from `at` to `end`.
    pub fn put(&mut self, place: Point, at: u32, end: u32) -> u32 {
        let put = self.pos.len() as u32;
        // Memory that is not written to costs nothing: most vertices stay as drawn.
        if self.next.is_empty() {
            self.next = vec![AS_DRAWN; self.pos.len()];
        }
        self.pos.push(place);
        self.next.push(end + 1);
        self.next[at as usize] = put + 1;
        put
    }

    /// Whether a segment of the store is still one: nothing was put into it.
    pub fn is_segment(&self, (a, b): (u32, u32)) -> bool {
        self.next.get(a as usize).is_none_or(|&next| next == AS_DRAWN || next == b + 1)
    }

    /// Leaves out lines that are drawn for the third time and more, point for point, but for those that `keep` names: the
    /// second tells all there is to tell, and every pair of copies would be looked at. True where one went.
    pub fn drop_copies(&mut self, keep: impl Fn(usize) -> bool) -> bool {
        let bits = |p: &Point| (p.y.to_bits(), p.x.to_bits());
        // The points from the least one on, the lesser way round or along.
        let canonical = |s: &Strand| {
            let mut points: Vec<(u64, u64)> = self.places(s).iter().map(bits).collect();
            if s.closed {
                let least = (0..points.len()).min_by_key(|i| points[*i]).unwrap_or(0);
                points.rotate_left(least);
                let mut back = points.clone();
                back[1..].reverse();
                points.min(back)
            } else {
                let back = points.iter().rev().copied().collect();
                points.min(back)
            }
        };
        // The same for copies whichever way they run and wherever they begin; the points of most lines need not be looked at.
        let bits_of = |p: Point| p.x.to_bits().wrapping_add(p.y.to_bits().rotate_left(17));
        let rough = |s: &Strand| {
            let ends = if s.closed { 1 } else { bits_of(self.at(s.first)).wrapping_add(bits_of(self.at(s.last))) };
            ends.wrapping_add(u64::from(s.last - s.first) << 48)
        };
        let sum = |s: &Strand| self.places(s).iter().fold(0_u64, |sum, p| sum.wrapping_add(bits_of(*p)));
        let mut order: Vec<(u64, u32)> = self.strands.iter().zip(0..).map(|(s, i)| (rough(s), i)).collect();
        order.sort_unstable();
        let mut drops = Vec::new();
        for alike in order.chunk_by_mut(|a, b| a.0 == b.0).filter(|alike| alike.len() > 2) {
            // In the order of the lines, as the store is.
            alike.iter_mut().for_each(|(rough, strand)| *rough = sum(&self.strands[*strand as usize]));
            alike.sort_unstable();
            for alike in alike.chunk_by(|a, b| a.0 == b.0).filter(|alike| alike.len() > 2) {
                let mut seen: BTreeMap<(bool, Vec<(u64, u64)>), usize> = BTreeMap::new();
                for strand in alike.iter().map(|o| self.strands[o.1 as usize]) {
                    let times = seen.entry((strand.closed, canonical(&strand))).or_default();
                    *times += 1;
                    if *times > 2 && !keep(strand.line) {
                        drops.push((strand.first, strand.last));
                    }
                }
            }
        }
        let any = !drops.is_empty();
        if any {
            self.edit(Edits { drops, ..Edits::default() });
        }
        any
    }

    /// Place of a vertex.
    pub fn at(&self, v: u32) -> Point {
        self.pos[v as usize]
    }

    /// The strand that holds a vertex of a flat store.
    pub fn strand_of(&self, v: u32) -> usize {
        self.strands.partition_point(|s| s.first <= v).saturating_sub(1)
    }

    /// Places of a strand of a flat store, in order.
    pub fn places(&self, strand: &Strand) -> &[Point] {
        &self.pos[strand.first as usize..=strand.last as usize]
    }

    /// Makes changes to a flat store.
    pub fn edit(&mut self, mut edits: Edits) {
        let drops = edits.drops.iter().flat_map(|(from, to)| [*from, *to]);
        let changed = edits.moves.iter().map(|m| m.0).chain(edits.inserts.iter().map(|i| i.0)).chain(drops);
        let mut changed: Vec<u32> = changed.collect();
        changed.sort_unstable();
        edits.inserts.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        edits.drops.sort_unstable();
        for (v, place) in edits.moves {
            self.pos[v as usize] = place;
        }
        let (mut changed, mut inserts) = (changed.iter().peekable(), edits.inserts.iter().peekable());
        let mut drops = edits.drops.iter().peekable();
        let count = self.pos.len() + inserts.len();
        let mut pos = Vec::with_capacity(count + count / 16 + 64);
        let mut least_steps = Vec::with_capacity(self.strands.len());
        self.strands.retain_mut(|strand| {
            let first = pos.len();
            let is_changed = changed.next_if(|v| **v <= strand.last).is_some();
            if is_changed {
                while changed.next_if(|v| **v <= strand.last).is_some() {}
                for v in strand.first..=strand.last {
                    while drops.next_if(|d| d.1 < v).is_some() {}
                    if drops.peek().is_none_or(|d| d.0 > v) {
                        pos.push(self.pos[v as usize]);
                    }
                    while let Some((_, _, place)) = inserts.next_if(|i| i.0 <= v) {
                        pos.push(*place);
                    }
                }
            } else {
                pos.extend_from_slice(&self.pos[strand.first as usize..=strand.last as usize]);
            }
            let any = pos.len() > first;
            if any {
                (strand.first, strand.last) = (first as u32, pos.len() as u32 - 1);
                // What has not changed has been looked at.
                least_steps.push(if is_changed { 0.0 } else { f64::INFINITY });
            }
            any
        });
        self.pos = pos;
        self.settle(&least_steps);
    }
}

/// Whether two places are not the same.
fn apart(a: Point, b: Point, same_mm: f64) -> bool {
    (a.x - b.x).abs() > same_mm || (a.y - b.y).abs() > same_mm
}
