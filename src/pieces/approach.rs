//! Where two spans come near each other.
//!
//! In: two spans, each rising or falling throughout in x and in y. Out: the pairs of their segments whose boxes meet, grown
//! by a reach. A span that runs through a box does so in one go: what lies before and beyond it is cut off from both
//! spans in turn, as long as that helps, then the longer one is halved. Most pairs of spans are done after a cut or two.

use super::boxes::Extent;
use super::spans::Span;
use super::strands::Strands;
use crate::shape::Point;

/// Spans of at most this many segments are counted through, without a choice; in longer ones the ends are sought by halving.
const FEW: u32 = 24;

/// Calls `each` with all pairs of segments of `x` and `y` whose boxes, grown by `reach` on all sides together, meet.
pub(super) fn approach(strands: &Strands, x: Span, y: Span, reach: f64, each: &mut impl FnMut((u32, u32), (u32, u32))) {
    approach_box(strands, x, y, &strands.extent(&y, reach), reach, each);
}

/// The same with the box of `y`, grown by `reach`, which may be at hand.
pub(super) fn approach_box(
    strands: &Strands,
    x: Span,
    y: Span,
    box_y: &Extent,
    reach: f64,
    each: &mut impl FnMut((u32, u32), (u32, u32)),
) {
    let Some(x1) = within(strands, x, box_y) else { return };
    let Some(y1) = within(strands, y, &strands.extent(&x1, reach)) else { return };
    if x1.n == 1 && y1.n == 1 {
        each((x1.a, x1.b), (y1.a, y1.b));
    } else if 4 * (x1.n + y1.n) <= 3 * (x.n + y.n) {
        approach(strands, x1, y1, reach, each);
    } else if x1.n >= y1.n {
        let (one, two) = x1.halves();
        approach(strands, one, y1, reach, each);
        approach(strands, two, y1, reach, each);
    } else {
        let (one, two) = y1.halves();
        approach(strands, x1, one, reach, each);
        approach(strands, x1, two, reach, each);
    }
}

/// The part of a span whose segments' boxes meet a window: one run of them, since it rises or falls throughout.
fn within(strands: &Strands, span: Span, window: &Extent) -> Option<Span> {
    let (a, b) = (strands.at(span.a), strands.at(span.b));
    if !Extent::between(a, b, 0.0).meets(window) {
        return None;
    }
    if span.n == 1 {
        return Some(span);
    }
    // In the directions in which it rises a place lies before the window, in it or beyond it.
    let (rises_x, rises_y) = (a.x <= b.x, a.y <= b.y);
    let (from_x, to_x) = if rises_x { (window.x0, window.x1) } else { (-window.x1, -window.x0) };
    let (from_y, to_y) = if rises_y { (window.y0, window.y1) } else { (-window.y1, -window.y0) };
    let (sign_x, sign_y) = (if rises_x { 1.0 } else { -1.0 }, if rises_y { 1.0 } else { -1.0 });
    // A span of more than one segment has its vertices in a row.
    let places = &strands.pos[span.a as usize..=span.b as usize];
    let before = |p: &Point| (p.x * sign_x < from_x) | (p.y * sign_y < from_y);
    let beyond = |p: &Point| (p.x * sign_x > to_x) | (p.y * sign_y > to_y);
    // Of the first segment left the end is not before the window, of the last one the start is not beyond.
    let (ends, starts) = (&places[1..], &places[..places.len() - 1]);
    let (from, to) = if span.n <= FEW {
        let before = ends.iter().map(|p| u32::from(before(p))).sum::<u32>();
        (before, span.n - starts.iter().map(|p| u32::from(beyond(p))).sum::<u32>())
    } else {
        (ends.partition_point(before) as u32, starts.partition_point(|p| !beyond(p)) as u32)
    };
    (from < to).then(|| Span { a: span.a + from, b: span.a + to, n: to - from })
}
