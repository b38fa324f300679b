//! Pulls together what the maker meant to touch: ends with ends, then ends with lines.
//!
//! In: a flat store of lines. Out: the same lines with their ends moved by about `join` at most.
//! Ends within `join` of each other form groups, also through others, and each group meets at its mean. What then lies
//! within `join` of a line is moved onto the nearest point of it, and the line gets a vertex there.
//! Only ends move, and where they go does not depend on the order of the lines.
//! Rule: handbook, figures, item 1.

use super::Near;
use super::arrange::Index;
use super::boxes::Extent;
use super::exact::{nearest, orient, reading_order, square};
use super::groups::Groups;
use super::strands::{Edits, Strand, Strands};
use crate::shape::Point;

/// One end of an open line.
#[derive(Clone, Copy, Debug)]
struct End {
    strand: usize,
    /// The end where the line stops, not the one where it starts.
    last: bool,
    at: Point,
}

/// Ends that meet.
struct Meeting {
    at: Point,
    ends: Vec<End>,
}

/// Joins ends with ends.
pub(super) fn join_ends(strands: &mut Strands, near: Near) {
    let reach = near.join_mm.max(strands.same_mm);
    let ends = ends(strands);
    let groups = grouped(strands, &ends, reach);
    let mut edits = Edits::default();
    for Meeting { at, ends } in &groups {
        for end in ends.iter().filter(|e| e.at != *at) {
            move_end(strands, &strands.strands[end.strand], end, *at, &mut edits, |_, _| false);
        }
    }
    if !edits.is_empty() {
        strands.edit(edits);
    }
    drop_hairs(strands, near.join_mm);
}

/// A stroke shorter than `join` that touches nothing has both ends within `join` of each other: it closes to a point.
fn drop_hairs(strands: &mut Strands, join_mm: f64) {
    let hair: Vec<bool> = strands.strands.iter().map(|s| !s.closed && is_short(strands.places(s), join_mm)).collect();
    if !hair.contains(&true) {
        return;
    }
    let mut alone = hair;
    for meeting in grouped(strands, &ends(strands), strands.same_mm) {
        if meeting.ends.iter().any(|e| e.strand != meeting.ends[0].strand) {
            meeting.ends.iter().for_each(|e| alone[e.strand] = false);
        }
    }
    let drops =
        strands.strands.iter().zip(&alone).filter(|(_, alone)| **alone).map(|(s, _)| (s.first, s.last)).collect();
    strands.edit(Edits { drops, ..Edits::default() });
}

fn ends(strands: &Strands) -> Vec<End> {
    let open = strands.strands.iter().enumerate().filter(|(_, s)| !s.closed);
    open.flat_map(|(strand, s)| {
        [End { strand, last: false, at: strands.at(s.first) }, End { strand, last: true, at: strands.at(s.last) }]
    })
    .collect()
}

/// Whether a line is no longer than `reach`.
fn is_short(points: &[Point], reach: f64) -> bool {
    let mut length = 0.0;
    points.windows(2).all(|w| {
        length += square(w[0], w[1]).sqrt();
        length <= reach
    })
}

/// Groups of ends within `reach` of each other, each with the mean of its places.
///
/// Two places that a line shorter than `reach` already connects are not drawn together on that account: a curve
/// that is drawn as many tiny lines would shrink to a point.
fn grouped(strands: &Strands, ends: &[End], reach: f64) -> Vec<Meeting> {
    let same = strands.same_mm;
    let mut order: Vec<u32> = (0..ends.len() as u32).collect();
    let strips: Vec<f64> = ends.iter().map(|e| (e.at.x / reach.max(f64::MIN_POSITIVE)).floor()).collect();
    let strip = |e: u32| strips[e as usize];
    order.sort_by(|&a, &b| {
        let (p, q) = (ends[a as usize].at, ends[b as usize].at);
        strip(a).total_cmp(&strip(b)).then(p.y.total_cmp(&q.y)).then(p.x.total_cmp(&q.x))
    });
    let mut exact = Groups::new(ends.len());
    let mut close = Vec::new();
    // The first end of the next strip that may still be near: it only ever moves on.
    let mut ahead = 0;
    for (i, &a) in order.iter().enumerate() {
        let p = ends[a as usize].at;
        let mut look = |b: u32| {
            let gap = square(p, ends[b as usize].at);
            if gap <= same * same {
                exact.unite(a as usize, b as usize);
            } else if gap <= reach * reach {
                close.push((a, b));
            }
        };
        let mine = strip(a);
        for &b in order[i + 1..].iter().take_while(|&&b| {
            let q = ends[b as usize].at;
            strip(b) == mine && q.y - p.y <= reach
        }) {
            look(b);
        }
        let behind = |b: u32| {
            let q = ends[b as usize].at;
            strip(b) <= mine || (strip(b) == mine + 1.0 && q.y < p.y - reach)
        };
        // A strip further left starts over in y, so the place ahead goes back to where the next strip begins.
        if i == 0 || strip(order[i - 1]) != mine {
            ahead = i + order[i..].partition_point(|&b| strip(b) <= mine);
        }
        while ahead < order.len() && behind(order[ahead]) {
            ahead += 1;
        }
        for &b in order[ahead..].iter().take_while(|&&b| {
            let q = ends[b as usize].at;
            strip(b) == mine + 1.0 && q.y - p.y <= reach
        }) {
            look(b);
        }
    }
    if !close.is_empty() {
        let mut tiny = exact.clone();
        for pair in ends.chunks(2).enumerate().filter(|(_, pair)| {
            let points = strands.places(&strands.strands[pair[0].strand]);
            square(pair[0].at, pair[1].at) <= reach * reach && is_short(points, reach)
        }) {
            tiny.unite(2 * pair.0, 2 * pair.0 + 1);
        }
        let apart: Vec<_> =
            close.into_iter().filter(|&(a, b)| tiny.find(a as usize) != tiny.find(b as usize)).collect();
        apart.iter().for_each(|&(a, b)| exact.unite(a as usize, b as usize));
    }
    let mut members: Vec<(usize, u32)> = order.iter().map(|&e| (exact.find(e as usize), e)).collect();
    // Stable: within a group the ends stay sorted by place, so that their mean does not depend on the order of lines.
    members.sort_by_key(|m| m.0);
    let meetings = members.chunk_by(|a, b| a.0 == b.0).map(|group| {
        let ends: Vec<End> = group.iter().map(|&(_, e)| ends[e as usize]).collect();
        Meeting { at: mean(&ends), ends }
    });
    let mut meetings: Vec<Meeting> = meetings.collect();
    meetings.sort_by(|a, b| reading_order(a.at, b.at));
    meetings
}

/// Mean of the places, taken about the first, so that equal places have exactly themselves for a mean.
fn mean(ends: &[End]) -> Point {
    let (first, count) = (ends[0].at, ends.len() as f64);
    let (x, y) = ends.iter().fold((0.0, 0.0), |(x, y), e| (x + (e.at.x - first.x), y + (e.at.y - first.y)));
    Point::new(first.x + x / count, first.y + y / count)
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

/// Moves ends onto lines that they nearly touch; true where any moved.
pub(super) fn join_lines(strands: &mut Strands, index: &Index, near: Near) -> bool {
    if near.join_mm <= strands.same_mm {
        return false;
    }
    let mut edits = Edits::default();
    let meetings = grouped(strands, &ends(strands), strands.same_mm);
    let mut meeting_of = vec![usize::MAX; 2 * strands.strands.len()];
    for (i, meeting) in meetings.iter().enumerate() {
        meeting.ends.iter().for_each(|e| meeting_of[2 * e.strand + usize::from(e.last)] = i);
    }
    for (i, meeting) in meetings.iter().enumerate() {
        let leading = leading(strands, &meetings, &meeting_of, i, near.join_mm);
        let touching = near_segments(strands, index, meeting.at, &leading, near.join_mm);
        if touching.is_empty() {
            continue;
        }
        let p = meeting.at;
        let touched = touching.iter().filter_map(|&(a, b)| {
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
        let near_by = near_segments(strands, index, meeting.at, &leading, 4.0 * near.join_mm);
        let crosses = |c: Point, d: Point| {
            near_by.iter().any(|&(a, b)| {
                let (a, b) = (strands.at(a), strands.at(b));
                orient(a, b, c) * orient(a, b, d) < 0.0 && orient(c, d, a) * orient(c, d, b) < 0.0
            })
        };
        for end in &meeting.ends {
            move_end(strands, &strands.strands[end.strand], end, to, &mut edits, crosses);
        }
    }
    if edits.is_empty() {
        return false;
    }
    strands.edit(edits);
    true
}

/// The parts of lines that lead up to a meeting of ends, as runs of vertices from which their segments start: of each
/// line that ends there, or where another line of the meeting goes nearby, all before it has gone further than `join`.
fn leading(
    strands: &Strands,
    meetings: &[Meeting],
    meeting_of: &[usize],
    meeting: usize,
    join_mm: f64,
) -> Vec<(u32, u32)> {
    let at = meetings[meeting].at;
    let near = |v: &u32| square(strands.at(*v), at) <= join_mm * join_mm;
    let mut seen = vec![meeting];
    let mut found: Vec<(u32, u32)> = Vec::new();
    let mut next = 0;
    while let Some(&from) = seen.get(next) {
        next += 1;
        for end in &meetings[from].ends {
            let strand = &strands.strands[end.strand];
            let inside = |k: usize| (k as u32).clamp(1, strand.last - strand.first);
            found.push(if end.last {
                let count = inside((strand.first..=strand.last).rev().take_while(near).count());
                (strand.last - count, strand.last)
            } else {
                let count = inside((strand.first..=strand.last).take_while(near).count());
                (strand.first, strand.first + count - 1)
            });
            let other = meeting_of[2 * end.strand + usize::from(!end.last)];
            if !seen.contains(&other) && square(meetings[other].at, at) <= 4.0 * join_mm * join_mm {
                seen.push(other);
            }
        }
    }
    found
}

/// Segments in the square within `reach` of a place, but for those that lead up to it.
fn near_segments(strands: &Strands, index: &Index, at: Point, leading: &[(u32, u32)], reach: f64) -> Vec<(u32, u32)> {
    let mut found = Vec::new();
    let window = Extent::between(at, at, reach);
    index.tree.meeting(&window, &mut |i| {
        strands.segments_in(index.spans[i as usize], &window, 0.0, &mut |a, b| {
            if !leading.iter().any(|&(from, to)| (from..=to).contains(&a)) {
                found.push((a, b));
            }
        });
    });
    found
}
