//! Pulls together what the maker meant to touch: ends with ends, then ends with lines.
//!
//! In: a flat store of lines. Out: the same lines with their ends moved by about `join` at most.
//! Ends within `join` of each other form groups, also through others, and each group meets at its mean. What then lies
//! within `join` of a line is moved onto the nearest point of it, and the line gets a vertex there.
//! Only ends move, and where they go does not depend on the order of the lines.
//! Rule: handbook, figures, item 1.

use super::Near;
use super::arrange::Index;
use super::boxes::{Extent, Tree};
use super::exact::{nearest, orient, reading_order, square};
use super::meetings::{End, Meetings, is_short};
use super::spans::Span;
use super::strands::{Edits, Strand, Strands};
use crate::shape::Point;

/// Joins ends with ends; gives all that meet, if nothing had to be moved for it.
pub(super) fn join_ends(strands: &mut Strands, near: Near) -> Option<Meetings> {
    let reach = near.join_mm.max(strands.same_mm);
    let meetings = Meetings::new(strands, reach);
    let mut edits = Edits::default();
    for meeting in 0..meetings.len() {
        let at = meetings.at(meeting);
        for end in meetings.ends(meeting).iter().filter(|e| e.at != at) {
            move_end(strands, &strands.strands[end.strand], end, at, &mut edits, |_, _| false);
        }
    }
    let stays = edits.is_empty();
    if !stays {
        strands.edit(edits);
    }
    let dropped = drop_hairs(strands, near.join_mm);
    (stays && !dropped).then_some(meetings)
}

/// A stroke shorter than `join` that touches nothing has both ends within `join` of each other: it closes to a point.
/// True where one went.
fn drop_hairs(strands: &mut Strands, join_mm: f64) -> bool {
    let hair: Vec<bool> = strands.strands.iter().map(|s| !s.closed && is_short(strands.places(s), join_mm)).collect();
    if !hair.contains(&true) {
        return false;
    }
    let mut alone = hair;
    let meetings = Meetings::new(strands, strands.same_mm);
    for ends in (0..meetings.len()).map(|meeting| meetings.ends(meeting)) {
        if ends.iter().any(|e| e.strand != ends[0].strand) {
            ends.iter().for_each(|e| alone[e.strand] = false);
        }
    }
    let drops: Vec<_> =
        strands.strands.iter().zip(&alone).filter(|(_, alone)| **alone).map(|(s, _)| (s.first, s.last)).collect();
    let any = !drops.is_empty();
    strands.edit(Edits { drops, ..Edits::default() });
    any
}

/// Moves an end to a place, and leaves out the vertices behind it that the move has passed: those nearer to the place
/// than the end was, and those beyond a segment that `crosses` says goes through the line where the end now stops.
fn move_end(
    strands: &Strands,
    strand: &Strand,
    end: &End,
    to: Point,
    edits: &mut Edits,
    crosses: impl Fn(Point, Point) -> bool,
) {
    let count = strand.last - strand.first;
    let vertex = |k: u32| if end.last { strand.last - k } else { strand.first + k };
    let far = square(end.at, to);
    // Never more than half the line, so that its two ends do not get into each other's way.
    let most = (count - 1) / 2;
    let mut passed = 0;
    while passed < most && square(strands.at(vertex(passed + 1)), to) <= far {
        passed += 1;
    }
    // Some way in, while still near: does the line go through what it is to end on?
    for k in 0..=most {
        let (a, b) = (strands.at(vertex(k)), strands.at(vertex(k + 1)));
        if square(a, to) > 16.0 * far {
            break;
        }
        if crosses(a, b) {
            passed = passed.max(k);
        }
    }
    edits.moves.push((vertex(passed), to));
    if passed > 0 {
        let (a, b) = (vertex(0), vertex(passed - 1));
        edits.drops.push((a.min(b), a.max(b)));
    }
}

/// Moves ends onto lines that they nearly touch; true where any moved. `meetings` are those of ends in the same place, if they are known.
pub(super) fn join_lines(strands: &mut Strands, index: &Index, meetings: Option<Meetings>, near: Near) -> bool {
    if near.join_mm <= strands.same_mm {
        return false;
    }
    let meetings = meetings.unwrap_or_else(|| Meetings::new(strands, strands.same_mm));
    let leading = Leading::new(strands, &meetings, near.join_mm);
    let touching = touching(strands, index, &meetings, &leading, near.join_mm);
    let mut edits = Edits::default();
    for touching in touching.chunk_by(|a, b| a.0 == b.0) {
        let meeting = touching[0].0 as usize;
        let p = meetings.at(meeting);
        let touched = touching.iter().filter_map(|&(_, (a, b))| {
            let (q, t) = nearest(strands.at(a), strands.at(b), p);
            let gap = square(p, q);
            (gap <= near.join_mm * near.join_mm).then_some((gap, q, a, t))
        });
        let Some((gap, to, a, t)) = touched.min_by(|l, r| l.0.total_cmp(&r.0).then(reading_order(l.1, r.1))) else {
            continue;
        };
        if gap <= strands.same_mm * strands.same_mm {
            // Already there: splitting gives the line its vertex.
            continue;
        }
        if t > 0.0 && t < 1.0 {
            edits.inserts.push((a, t, to));
        }
        let mut near_by = Vec::new();
        let window = Extent::between(p, p, 4.0 * near.join_mm);
        index.tree.meeting(&window, &mut |span| {
            segments_near(strands, index, span, &window, leading.at(meeting), &mut |segment| near_by.push(segment));
        });
        let crosses = |c: Point, d: Point| {
            near_by.iter().any(|&(a, b)| {
                let (a, b) = (strands.at(a), strands.at(b));
                orient(a, b, c) * orient(a, b, d) < 0.0 && orient(c, d, a) * orient(c, d, b) < 0.0
            })
        };
        for end in meetings.ends(meeting) {
            move_end(strands, &strands.strands[end.strand], end, to, &mut edits, crosses);
        }
    }
    if edits.is_empty() {
        return false;
    }
    strands.edit(edits);
    true
}

/// The parts of lines that lead up to meetings of ends, as runs of vertices from which their segments start: of each
/// line that ends there, or where another line of the meeting goes nearby, all before it has gone further than `join`.
struct Leading {
    runs: Vec<(u32, u32)>,
    /// Where the runs of each meeting stop.
    stops: Vec<u32>,
}

impl Leading {
    fn new(strands: &Strands, meetings: &Meetings, join_mm: f64) -> Leading {
        let mut meeting_of = vec![u32::MAX; 2 * strands.strands.len()];
        for i in 0..meetings.len() {
            meetings.ends(i).iter().for_each(|e| meeting_of[2 * e.strand + usize::from(e.last)] = i as u32);
        }
        let mut all = Leading { runs: Vec::with_capacity(meeting_of.len()), stops: Vec::with_capacity(meetings.len()) };
        let mut seen: Vec<usize> = Vec::new();
        for meeting in 0..meetings.len() {
            let at = meetings.at(meeting);
            let near = |v: &u32| square(strands.at(*v), at) <= join_mm * join_mm;
            seen.clear();
            seen.push(meeting);
            let mut next = 0;
            while let Some(&from) = seen.get(next) {
                next += 1;
                for end in meetings.ends(from) {
                    let strand = &strands.strands[end.strand];
                    let inside = |k: usize| (k as u32).clamp(1, strand.last - strand.first);
                    all.runs.push(if end.last {
                        let count = inside((strand.first..=strand.last).rev().take_while(near).count());
                        (strand.last - count, strand.last)
                    } else {
                        let count = inside((strand.first..=strand.last).take_while(near).count());
                        (strand.first, strand.first + count - 1)
                    });
                    let other = meeting_of[2 * end.strand + usize::from(!end.last)] as usize;
                    if !seen.contains(&other) && square(meetings.at(other), at) <= 4.0 * join_mm * join_mm {
                        seen.push(other);
                    }
                }
            }
            all.stops.push(all.runs.len() as u32);
        }
        all
    }

    /// Those of one meeting.
    fn at(&self, meeting: usize) -> &[(u32, u32)] {
        let from = if meeting == 0 { 0 } else { self.stops[meeting - 1] };
        &self.runs[from as usize..self.stops[meeting] as usize]
    }
}

/// Of each meeting the segments in the square within `reach` of it, but for those that lead up to it; by meeting.
fn touching(
    strands: &Strands,
    index: &Index,
    meetings: &Meetings,
    leading: &Leading,
    reach: f64,
) -> Vec<(u32, (u32, u32))> {
    let mut found = Vec::new();
    let windows = (0..meetings.len()).map(|i| Extent::between(meetings.at(i), meetings.at(i), reach)).collect();
    // All at once: most meetings are of lines that touch no other, and to look for each by itself would take longer.
    let windows = Tree::new(windows);
    windows.pairs_with(&index.tree, &mut |meeting, span| {
        let (window, leading) = (windows.extent(meeting), leading.at(meeting as usize));
        segments_near(strands, index, span, window, leading, &mut |segment| found.push((meeting, segment)));
    });
    found.sort_unstable();
    found
}

/// Calls `each` with the segments of a span in a window, but for those that lead up to it.
fn segments_near(
    strands: &Strands,
    index: &Index,
    span: u32,
    window: &Extent,
    leading: &[(u32, u32)],
    each: &mut impl FnMut((u32, u32)),
) {
    let mut span = index.spans[span as usize];
    // Most are of lines that end there: what is left once that is cut off leaves the window at once and never comes back, since
    // it rises or falls throughout.
    if span.n > 1 {
        for &(from, to) in leading {
            let a = if (from..=to).contains(&span.a) { to + 1 } else { span.a };
            let b = if (from..=to).contains(&(span.b - 1)) { from } else { span.b };
            let leaves =
                |end: u32, at: u32| end != at && window.holds(strands.at(end)) && !window.holds(strands.at(at));
            if a >= b || leaves(span.a, a) || leaves(span.b, b) {
                return;
            }
            span = Span { a, b, n: b - a };
        }
    }
    strands.segments_in(span, window, 0.0, &mut |a, b| {
        if !leading.iter().any(|&(from, to)| (from..=to).contains(&a)) {
            each((a, b));
        }
    });
}
