//! Lines as spans: runs of segments that only rise or only fall, the ends of which are the corners of their boxes.

use super::boxes::Extent;
use super::strands::{Strand, Strands};
use crate::shape::Point;

/// A span is large whose box is wider and higher than one part in so many of the drawing's width and height together, and so
/// many times wider and higher than what counts as near.
const LARGE: f64 = 128.0;

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

impl Strands {
    /// Adds the segments of a line of a flat store as spans that rise or fall throughout. What is much longer than `reach` may
    /// be cut in parts.
    pub fn spans(&self, strand: &Strand, reach: f64, spans: &mut Vec<Span>) {
        let large_mm = (self.size_mm / LARGE).max(LARGE * reach);
        let places = self.places(strand);
        let (mut start, mut before) = (strand.first, strand.first);
        while before + 1 < strand.last {
            let some = &places[(before - strand.first) as usize..];
            let some = &some[..some.len().min(66)];
            let mut turns = turns(some);
            while turns != 0 {
                let at = before + 1 + turns.trailing_zeros();
                self.add_span(Span { a: start, b: at, n: at - start }, large_mm, spans);
                start = at;
                turns &= turns - 1;
            }
            before += some.len() as u32 - 2;
        }
        self.add_span(Span { a: start, b: strand.last, n: strand.last - start }, large_mm, spans);
        if strand.closed {
            spans.push(Span { a: strand.last, b: strand.first, n: 1 });
        }
    }

    /// Adds a span, in parts where it is large: the two sides at a corner of a board are one span, and all that lies on the board is in its box.
    fn add_span(&self, span: Span, large_mm: f64, spans: &mut Vec<Span>) {
        let across = self.at(span.b) - self.at(span.a);
        if span.n > 1 && across.x.abs().min(across.y.abs()) > large_mm {
            let (one, two) = span.halves();
            self.add_span(one, large_mm, spans);
            self.add_span(two, large_mm, spans);
        } else {
            spans.push(span);
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

/// Of up to 66 places a bit for each but the first and the last where a line turns back in x or in y.
fn turns(places: &[Point]) -> u64 {
    // By the signs of the steps, for all alike: a choice at every place would take longer than all else.
    let sign = |step: f64| step.to_bits() >> 63;
    places.windows(3).enumerate().fold(0, |turns, (i, w)| {
        let (to, on) = (w[1] - w[0], w[2] - w[1]);
        turns | ((sign(to.x) ^ sign(on.x)) | (sign(to.y) ^ sign(on.y))) << i
    })
}
