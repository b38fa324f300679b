//! The lines as one store of vertices that can be joined, moved and split.
//!
//! A strand is one line: a run of vertices, each knowing the next. While ends are joined and doubled lines laid
//! together the store stays flat ([`Strands::edited`] makes a new one); splitting only adds vertices behind and links them in.

use super::boxes::Extent;
use crate::shape::Point;
use std::collections::BTreeMap;

/// No vertex.
pub(super) const NONE: u32 = u32::MAX;

/// In a line the next vertex of the store.
const AS_DRAWN: u32 = 0;

/// Farthest coordinate that is taken for a place on a sheet, mm. Lines beyond are left out: their squares overflow.
const FARTHEST_MM: f64 = 1e12;

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

/// A run of segments that only rises or only falls in x and in y, or a single segment.
#[derive(Clone, Copy, Debug)]
pub(super) struct Span {
    /// First vertex.
    pub a: u32,
    /// Last vertex: `a + n` but for single segments, whose ends may have any number.
    pub b: u32,
    /// How many segments.
    pub n: u32,
}

impl Span {
    /// The `k`th vertex, from 0 to `n`.
    pub fn vertex(&self, k: u32) -> u32 {
        if k == self.n { self.b } else { self.a + k }
    }

    /// The first and the second half.
    pub fn halves(&self) -> (Span, Span) {
        let m = self.n / 2;
        (Span { a: self.a, b: self.a + m, n: m }, Span { a: self.a + m, b: self.b, n: self.n - m })
    }
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
        let mut farthest = 0.0_f64;
        let mut sound = Vec::with_capacity(lines.len());
        for (points, _) in lines {
            let far = farthest_of(points).filter(|far| *far <= FARTHEST_MM);
            sound.push(far.is_some());
            farthest = farthest.max(far.unwrap_or(0.0));
        }
        let count: usize = lines.iter().map(|(points, _)| points.len()).sum();
        let mut all = Strands {
            // With room for what is put in later, so that they need not be moved for it.
            pos: Vec::with_capacity(count + count / 16 + 64),
            next: Vec::new(),
            strands: Vec::with_capacity(lines.len()),
            same_mm: farthest / (1_u64 << 44) as f64,
        };
        for (line, (points, closed)) in lines.iter().enumerate() {
            if sound[line] {
                all.push(line, points, *closed);
            }
        }
        all
    }

    fn push(&mut self, line: usize, points: &[Point], closed: bool) {
        let first = self.pos.len();
        let same = self.same_mm;
        let apart = |a: Point, b: Point| (a.x - b.x).abs() > same || (a.y - b.y).abs() > same;
        // Adding zero makes of a negative zero a plain one, so that equal places have equal bits.
        let plain = |p: &Point| Point::new(p.x + 0.0, p.y + 0.0);
        let again: usize = points.windows(2).map(|w| usize::from(!apart(w[0], w[1]))).sum();
        if again == 0 {
            self.pos.extend(points.iter().map(plain));
        } else {
            let mut before = Point::new(f64::INFINITY, f64::INFINITY);
            for p in points {
                if apart(*p, before) {
                    self.pos.push(plain(p));
                    before = *p;
                }
            }
        }
        if let (true, [from, .., to]) = (closed, &self.pos[first..])
            && !apart(*from, *to)
        {
            self.pos.pop();
        }
        let count = self.pos.len() - first;
        if count < 2 {
            self.pos.truncate(first);
            return;
        }
        // A closed line of two points goes there and back on itself: it closes nothing.
        let closed = closed && count > 2;
        let last = self.pos.len() - 1;
        self.strands.push(Strand { first: first as u32, last: last as u32, closed, line });
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
    /// second tells all there is to tell, and every pair of copies would be looked at.
    pub fn drop_copies(&mut self, keep: impl Fn(usize) -> bool) {
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
        let ends =
            |s: &Strand| if s.closed { 0 } else { bits_of(self.at(s.first)).wrapping_add(bits_of(self.at(s.last))) };
        let sum = |s: &Strand| self.places(s).iter().fold(0_u64, |sum, p| sum.wrapping_add(bits_of(*p)));
        let mut order: Vec<_> = self.strands.iter().map(|s| ((s.closed, s.last - s.first, ends(s), 0), *s)).collect();
        order.sort_by_key(|o| (o.0, o.1.line, o.1.first));
        for alike in order.chunk_by_mut(|a, b| a.0 == b.0).filter(|alike| alike.len() > 2) {
            alike.iter_mut().for_each(|(rough, strand)| rough.3 = sum(strand));
            alike.sort_by_key(|o| (o.0, o.1.line, o.1.first));
        }
        let mut drops = Vec::new();
        for alike in order.chunk_by(|a, b| a.0 == b.0).filter(|alike| alike.len() > 2) {
            let mut seen: BTreeMap<Vec<(u64, u64)>, usize> = BTreeMap::new();
            for (_, strand) in alike {
                let times = seen.entry(canonical(strand)).or_default();
                *times += 1;
                if *times > 2 && !keep(strand.line) {
                    drops.push((strand.first, strand.last));
                }
            }
        }
        if !drops.is_empty() {
            *self = self.edited(Edits { drops, ..Edits::default() });
        }
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

    /// A flat store with the changes made.
    pub fn edited(&self, mut edits: Edits) -> Strands {
        let mut pos = self.pos.clone();
        for (v, place) in edits.moves {
            pos[v as usize] = place;
        }
        edits.inserts.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let mut gone = vec![false; pos.len()];
        for (from, to) in edits.drops {
            gone[from as usize..=to as usize].fill(true);
        }
        let mut all = Strands { same_mm: self.same_mm, ..Strands::default() };
        let mut inserts = edits.inserts.iter().peekable();
        let mut points = Vec::new();
        for strand in &self.strands {
            points.clear();
            for v in strand.first..=strand.last {
                if !gone[v as usize] {
                    points.push(pos[v as usize]);
                }
                while let Some((_, _, place)) = inserts.next_if(|i| i.0 <= v) {
                    points.push(*place);
                }
            }
            all.push(strand.line, &points, strand.closed);
        }
        all
    }

    /// Adds the segments of a line of a flat store as spans that rise or fall throughout; `ways` is room to work in.
    pub fn spans(&self, strand: &Strand, ways: &mut Vec<u8>, spans: &mut Vec<Span>) {
        // Which way each segment goes, one bit for each sense of x and of y: all at once, without a choice.
        ways.clear();
        ways.extend(self.places(strand).windows(2).map(|w| {
            let (a, b) = (w[0], w[1]);
            u8::from(a.x < b.x) | u8::from(b.x < a.x) << 1 | u8::from(a.y < b.y) << 2 | u8::from(b.y < a.y) << 3
        }));
        let (mut start, mut all) = (strand.first, 0_u8);
        for (v, way) in (strand.first..).zip(ways.iter()) {
            let both = all | way;
            if both & (both >> 1) & 0b0101 != 0 {
                spans.push(Span { a: start, b: v, n: v - start });
                (start, all) = (v, *way);
            } else {
                all = both;
            }
        }
        spans.push(Span { a: start, b: strand.last, n: strand.last - start });
        if strand.closed {
            spans.push(Span { a: strand.last, b: strand.first, n: 1 });
        }
    }

    /// Box of a span, grown by `by`: it rises or falls throughout, so its ends are its corners.
    pub fn extent(&self, span: &Span, by: f64) -> Extent {
        Extent::between(self.at(span.a), self.at(span.b), by)
    }

    /// Calls `each` with the ends of every segment of the span whose box, grown by `by`, meets `window`.
    pub fn segments_in(&self, span: Span, window: &Extent, by: f64, each: &mut impl FnMut(u32, u32)) {
        if !self.extent(&span, by).meets(window) {
            return;
        }
        if span.n == 1 {
            each(span.a, span.b);
        } else {
            let (one, two) = span.halves();
            self.segments_in(one, window, by, each);
            self.segments_in(two, window, by, each);
        }
    }
}

/// The farthest that any coordinate lies from nought, mm; `None` where one is no number.
fn farthest_of(points: &[Point]) -> Option<f64> {
    // In two lanes of x and y each, which the processor takes together. What is no number makes the sum none.
    let (mut far, mut sum) = ([0.0_f64; 4], [0.0_f64; 4]);
    let mut add = |lane: usize, c: f64| {
        let c = c.abs();
        far[lane] = if c > far[lane] { c } else { far[lane] };
        sum[lane] += c * 0.0;
    };
    let mut pairs = points.chunks_exact(2);
    for pair in &mut pairs {
        add(0, pair[0].x);
        add(1, pair[0].y);
        add(2, pair[1].x);
        add(3, pair[1].y);
    }
    for p in pairs.remainder() {
        add(0, p.x);
        add(1, p.y);
    }
    (sum.iter().sum::<f64>() == 0.0).then(|| far.into_iter().fold(0.0, f64::max))
}
