//! Places along a line by length.
//!
//! In: a strand of a flat store. Out: where so many millimetres along it lie, and which vertices and ends of lines lie on a part of it.

use super::boxes::Extent;
use super::exact::{nearest, square};
use super::strands::{Strand, Strands};
use crate::shape::Point;

/// Places along a strand by length.
pub(super) struct Along<'a> {
    pub strand: &'a Strand,
    /// Its place among the lines in question; see [`ranked`].
    pub rank: usize,
    pub points: &'a [Point],
    pub at_mm: Vec<f64>,
}

impl<'a> Along<'a> {
    pub fn new(strands: &'a Strands, strand: usize, rank: usize) -> Along<'a> {
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

    pub fn length_mm(&self) -> f64 {
        self.at_mm[self.at_mm.len() - 1]
    }

    /// Ends of the `k`th segment.
    pub fn segment(&self, k: usize) -> (Point, Point) {
        (self.points[k], self.points[(k + 1) % self.points.len()])
    }

    /// The vertices from one place up to another, both included.
    pub fn vertices_in(&self, from_mm: f64, to_mm: f64) -> std::ops::Range<usize> {
        let start = self.at_mm.partition_point(|m| *m < from_mm);
        start..self.at_mm.partition_point(|m| *m <= to_mm).max(start)
    }

    /// The segment that holds a place.
    pub fn segment_at(&self, mm: f64) -> usize {
        self.at_mm.partition_point(|m| *m <= mm).clamp(1, self.at_mm.len() - 1) - 1
    }

    /// The `k`th vertex; after the last of a closed line the first again.
    pub fn vertex(&self, k: usize) -> Point {
        self.points[k % self.points.len()]
    }

    /// Whether the line ends at its `k`th vertex or turns there by more than a flattened curve does.
    pub fn turns_at(&self, k: usize) -> bool {
        let n = self.points.len();
        if !self.strand.closed && (k == 0 || k + 1 >= n) {
            return true;
        }
        let (before, after) = (self.vertex(k) - self.vertex(k + n - 1), self.vertex(k + 1) - self.vertex(k));
        before.cross(after).abs() > 0.47 * before.dot(after)
    }

    /// Whether the segment that a vertex starts is the first and whether it is the last of an open line.
    pub fn ends_at(&self, v: u32) -> (bool, bool) {
        let open = !self.strand.closed;
        (open && v == self.strand.first, open && v + 1 == self.strand.last)
    }

    pub fn at(&self, mm: f64) -> Point {
        let k = self.segment_at(mm);
        let (a, b) = self.segment(k);
        let length = self.at_mm[k + 1] - self.at_mm[k];
        let share = if length > 0.0 { ((mm - self.at_mm[k]) / length).clamp(0.0, 1.0) } else { 0.0 };
        Point::new(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share)
    }

    /// Ends of the segment that a vertex of the strand starts.
    pub fn segment_from(&self, v: u32) -> (Point, Point) {
        self.segment((v - self.strand.first) as usize)
    }
}

/// Vertices of a line strictly between two places along it; on a closed line the shorter way round.
pub(super) fn vertices_between(line: &Along, from_mm: f64, to_mm: f64) -> Vec<Point> {
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
pub(super) fn ends_along(
    strands: &Strands,
    along: &Along,
    from_mm: f64,
    to_mm: f64,
    ends: &[(Point, u32)],
) -> Vec<(Point, u32)> {
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
