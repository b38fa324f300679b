//! Lays lines together that lie on each other, so that they count and are cut once.
//!
//! In: a flat store of joined lines. Out: the same store, where of two lines that run within `join` of each other over
//! ten times `join` or more the one follows the other exactly; splitting then makes one of them. Every such stretch is a
//! finding. `stretches` tells which do.
//! Rule: handbook, figures, item 1.

use super::Near;
use super::along::{Along, ends_along, vertices_between};
use super::approach::approach_box;
use super::arrange::Index;
use super::exact::{nearest, square};
use super::split::{Contacts, follows_on, room, touch};
use super::strands::{Edits, Strands};
use super::stretches::{Hint, LEAST_JOINS, Stretch, may_run_along, ranked, reach_mm, run_along, stretches};
use crate::findings::{Finding, Kind};
use crate::shape::Point;
use std::collections::BTreeMap;

/// How often lines are looked at again after some have moved.
const MOST_LOOKS: usize = 6;
/// By how much lines may grow, in vertices, before they are no longer looked at: a line laid on another takes its vertices once,
/// but a scribble that runs to and fro on itself would double them each time.
const MOST_GROWTH: usize = 4;
const ROOM_TO_GROW: usize = 100;

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
    let most = MOST_GROWTH * strands.pos.len() + ROOM_TO_GROW;
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
        if hints.is_empty() || looks > MOST_LOOKS || strands.pos.len() > most {
            return (findings.unwrap_or_default(), contacts);
        }
        // In the order of the lines, not in that in which the tree finds them.
        hints.sort_unstable();
        let (edits, found) = edits(strands, hints, reach, &mut keys);
        findings.get_or_insert(found);
        if edits.is_empty() {
            return (findings.unwrap_or_default(), contacts);
        }
        strands.edit(edits);
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
