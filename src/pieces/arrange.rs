//! From lines to a net: join, lay together, split, walk.

use super::boxes::Tree;
use super::spans::Span;
use super::strands::Strands;
use super::{Near, Net, graph, join, loose, overlap, split, stretches, walk};
use crate::findings::{Checked, Finding};
use crate::shape::Point;

/// A net, and some of the lines as they lie after joining.
pub(super) struct Arranged {
    pub net: Net,
    /// The lines asked for, in order: index, points, and whether they close by themselves.
    pub joined: Vec<(usize, Vec<Point>, bool)>,
    /// Doubled lines.
    pub findings: Vec<Finding>,
}

impl Arranged {
    /// The line as joined, if it was asked for and any of it is left.
    pub fn line(&self, line: usize) -> Option<(&[Point], bool)> {
        let i = self.joined.binary_search_by_key(&line, |j| j.0).ok()?;
        Some((&self.joined[i].1, self.joined[i].2))
    }
}

/// The arrangement of lines, each given by its points in mm and whether it closes: nodes, chains and bounded faces.
///
/// Ends within `join` of each other or of a line are joined; lines that lie on each other count once; lines that cross
/// are split. Findings: `doubled-line`, `loose-end`, `near-miss`, not sorted. Lines of no length, and lines with a
/// coordinate that is no number or over 10¹² mm, are left out. Handbook, figures, items 1 and 2.
pub fn arrange(lines: &[(&[Point], bool)], near: Near) -> Checked<Net> {
    let Arranged { net, mut findings, .. } = arranged(lines, near, |_| false);
    findings.extend(loose::loose_ends(&net, near, &[]));
    Checked { value: net, findings }
}

/// As [`arrange`], without the findings about ends, and with the joined lines that `keep` names.
pub(super) fn arranged(lines: &[(&[Point], bool)], near: Near, keep: impl Fn(usize) -> bool) -> Arranged {
    let mut strands = Strands::new(lines);
    let meetings = join::join_ends(&mut strands, near);
    let dropped = strands.drop_copies(&keep);
    let meetings = meetings.filter(|_| !dropped);
    let mut index = Index::new(&strands, near);
    if join::join_lines(&mut strands, &index, meetings, near) {
        index = Index::new(&strands, near);
    }
    let (findings, contacts) = overlap::lay_together(&mut strands, &mut index, near);
    let kept = strands.strands.iter().filter(|s| keep(s.line));
    let joined = kept.map(|s| (s.line, strands.places(s).to_vec(), s.closed)).collect();
    let split = split::split(strands, &index, contacts);
    Arranged { net: walk::walk(graph::graph(split)), joined, findings }
}

/// All segments of a flat store as spans, and a tree of their boxes.
pub(super) struct Index {
    /// Spans along each line.
    pub spans: Vec<Span>,
    /// Their boxes, grown by `room_mm`, so that spans within `join` of each other meet.
    pub tree: Tree,
    pub room_mm: f64,
    /// Spans that do no more than go on where the one before them ends: those two need not be looked at.
    pub plain: Vec<bool>,
}

impl Index {
    /// Of the lines as they are.
    pub fn new(strands: &Strands, near: Near) -> Index {
        let room_mm = near.join_mm.max(8.0 * strands.same_mm) / 2.0;
        let count = strands.pos.len() / 6 + strands.strands.len();
        let mut spans: Vec<Span> = Vec::with_capacity(count);
        let (mut boxes, mut plain) = (Vec::with_capacity(count), Vec::with_capacity(count));
        // Line by line, as long as its points are at hand.
        for strand in &strands.strands {
            let from = spans.len();
            strands.spans(strand, near.join_mm, &mut spans);
            boxes.extend(spans[from..].iter().map(|s| strands.extent(s, room_mm)));
            plain.push(false);
            plain.extend(spans[from..].windows(2).map(|w| goes_on(strands, w[0], w[1], near)));
        }
        Index { spans, tree: Tree::new(boxes), room_mm, plain }
    }
}

/// Whether a span goes on where another ends, meets it nowhere else and does not lie on it.
fn goes_on(strands: &Strands, x: Span, y: Span, near: Near) -> bool {
    split::follows_on(strands, x, y) && !stretches::may_lie_on(strands, x, y, near)
}
