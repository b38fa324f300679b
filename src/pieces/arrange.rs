//! From lines to a net: join, lay together, split, walk.

use super::boxes::Tree;
use super::strands::{Span, Strand, Strands};
use super::{Near, Net, graph, join, loose, overlap, split, walk};
use crate::findings::{Checked, Finding};
use crate::shape::Point;

/// A net, and the lines as they lie after joining.
pub(super) struct Arranged {
    pub net: Net,
    pub joined: Strands,
    /// Doubled lines.
    pub findings: Vec<Finding>,
}

impl Arranged {
    /// The line as joined, where any of it is left.
    pub fn strand(&self, line: usize) -> Option<&Strand> {
        // One line makes one strand at most, in the order of the lines.
        self.joined.strands.binary_search_by_key(&line, |s| s.line).ok().map(|i| &self.joined.strands[i])
    }
}

/// The arrangement of lines, each given by its points in mm and whether it closes: nodes, chains and bounded faces.
///
/// Ends within `join` of each other or of a line are joined; lines that lie on each other count once; lines that cross
/// are split. Findings: `doubled-line`, `loose-end`, `near-miss`, not sorted. Lines of no length, and lines with a
/// coordinate that is no number or over 10¹² mm, are left out. Handbook, figures, items 1 and 2.
pub fn arrange(lines: &[(&[Point], bool)], near: Near) -> Checked<Net> {
    let Arranged { net, mut findings, .. } = arranged(lines, near);
    findings.extend(loose::loose_ends(&net, near, &[]));
    Checked { value: net, findings }
}

/// As [`arrange`], without the findings about ends, and with the joined lines.
pub(super) fn arranged(lines: &[(&[Point], bool)], near: Near) -> Arranged {
    let mut strands = Strands::new(lines);
    join::join_ends(&mut strands, near);
    let (mut spans, mut tree) = indexed(&strands, near);
    if join::join_lines(&mut strands, &spans, &tree, near) {
        (spans, tree) = indexed(&strands, near);
    }
    let findings = overlap::lay_together(&mut strands, &mut spans, &mut tree, near, |s| indexed(s, near));
    let joined = strands.clone();
    let split = split::split(strands, &spans, &tree);
    Arranged { net: walk::walk(graph::graph(&split)), joined, findings }
}

/// Spans and a tree of their boxes, grown so that spans within `join` of each other meet.
fn indexed(strands: &Strands, near: Near) -> (Vec<Span>, Tree) {
    let spans = strands.spans();
    let room = near.join_mm.max(8.0 * strands.same_mm) / 2.0;
    let tree = Tree::new(spans.iter().map(|s| strands.extent(s, room)).collect());
    (spans, tree)
}
