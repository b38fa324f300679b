//! From lines to a net: join, lay together, split, walk.

use super::boxes::Tree;
use super::strands::{Span, Strands};
use super::{Near, Net, graph, join, loose, overlap, split, walk};
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
    join::join_ends(&mut strands, near);
    strands.drop_copies(&keep);
    let (mut spans, mut tree) = indexed(&strands, near);
    if join::join_lines(&mut strands, &spans, &tree, near) {
        (spans, tree) = indexed(&strands, near);
    }
    let (findings, contacts) = overlap::lay_together(&mut strands, &mut spans, &mut tree, near, |s| indexed(s, near));
    let kept = strands.strands.iter().filter(|s| keep(s.line));
    let joined = kept.map(|s| (s.line, strands.places(s).to_vec(), s.closed)).collect();
    let split = split::split(strands, &spans, &tree, contacts);
    Arranged { net: walk::walk(graph::graph(&split)), joined, findings }
}

/// Spans and a tree of their boxes, grown so that spans within `join` of each other meet.
fn indexed(strands: &Strands, near: Near) -> (Vec<Span>, Tree) {
    let spans = strands.spans();
    let room = near.join_mm.max(8.0 * strands.same_mm) / 2.0;
    let tree = Tree::new(spans.iter().map(|s| strands.extent(s, room)).collect());
    (spans, tree)
}
