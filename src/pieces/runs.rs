//! From split lines to runs: stretches of one line between two places where something happens.
//!
//! In: [`Split`] lines. Out: the places, in reading order, the runs between them, each once however many lines lie there, and
//! which runs end at each place.

use super::buckets::Buckets;
use super::exact::reading_order;
use super::graph::{Look, look};
use super::marks::Marks;
use super::split::Split;
use super::strands::NONE;
use crate::shape::Point;
use std::ops::Range;

/// A stretch of one line between two places where something happens.
#[derive(Clone)]
pub(super) struct Run {
    pub from: u32,
    pub to: u32,
    /// Original vertices strictly between; the second part is for closed lines, past their first vertex.
    pub between: [Range<u32>; 2],
    /// Where it is all of what lies between two vertices in the store.
    pub whole: Option<Whole>,
    /// The line it is a stretch of.
    pub line: usize,
}

impl Run {
    pub fn len(&self) -> usize {
        self.between[0].len() + self.between[1].len()
    }
}

/// What lies between two vertices of the store.
#[derive(Clone)]
pub(super) struct Whole {
    /// The vertices, from the first up to and with the last.
    pub points: Range<u32>,
    /// Which of the looks.
    pub look: u32,
}

/// One end of a run: which run, and whether it leads away from the node as the run goes.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct Way {
    pub run: u32,
    pub forward: bool,
}

/// Runs and what lies at their ends.
pub(super) struct Runs {
    /// Where they begin and end, in reading order.
    pub places: Vec<Point>,
    pub runs: Vec<Run>,
    /// Looks of the runs that are all of what lies between two vertices.
    pub looks: Vec<Look>,
    /// Runs and other lines that lie there too, by run.
    doubles: Vec<(u32, usize)>,
}

/// Cuts every line where something happens.
pub(super) fn runs(split: &Split) -> Runs {
    let strands = &split.strands;
    let originals = split.originals as u32;
    let (is_node, was_cut) = (&split.nodes, Marks::of(split.homes.iter().copied()));

    // For each strand its cuts in order, as vertices, each with the original vertex that comes after it.
    let mut cuts: Vec<(u32, u32)> = Vec::with_capacity(is_node.len() + 2 * strands.strands.len());
    let mut of_strand = Vec::with_capacity(strands.strands.len());
    for strand in &strands.strands {
        let begin = cuts.len();
        let mut at = strand.first;
        while let Some(v) = is_node.next_of_either(&was_cut, at, strand.last) {
            if is_node.has(v) || (!strand.closed && (v == strand.first || v == strand.last)) {
                cuts.push((v, v + 1));
            }
            if was_cut.has(v) {
                let mut put = strands.after(v);
                while put != NONE && put >= originals {
                    cuts.push((put, v + 1));
                    put = strands.after(put);
                }
            }
            at = v + 1;
        }
        if !strand.closed {
            if cuts.get(begin).is_none_or(|c| c.0 != strand.first) {
                cuts.insert(begin, (strand.first, strand.first + 1));
            }
            if cuts.last().is_none_or(|c| c.0 != strand.last) {
                cuts.push((strand.last, strand.last + 1));
            }
        } else if cuts.len() == begin {
            cuts.push((strand.first, strand.first + 1));
        }
        of_strand.push(begin..cuts.len());
    }

    let mut order: Vec<(Point, u32)> = cuts.iter().zip(0..).map(|(cut, i)| (strands.at(cut.0), i)).collect();
    order.sort_unstable_by(|a, b| reading_order(a.0, b.0));
    let mut places: Vec<Point> = Vec::with_capacity(cuts.len());
    let mut number = vec![0; cuts.len()];
    for (place, cut) in order {
        if places.last() != Some(&place) {
            places.push(place);
        }
        number[cut as usize] = places.len() as u32 - 1;
    }

    let (mut runs, mut looks) = (Vec::with_capacity(cuts.len()), Vec::with_capacity(cuts.len()));
    for (strand, own) in strands.strands.iter().zip(of_strand) {
        let mut push = |i: usize, j: usize, between: [Range<u32>; 2]| {
            let (from, to) = (cuts[i].0, cuts[j].0);
            let mut run = Run { from: number[i], to: number[j], between, whole: None, line: strand.line };
            if run.from == run.to && run.len() == 0 {
                return;
            }
            if j == i + 1 && from < originals && to < originals {
                // Line by line, as long as its points are at hand.
                run.whole = Some(Whole { points: from..to + 1, look: looks.len() as u32 });
                looks.push(look(&strands.pos[from as usize..=to as usize]));
            }
            runs.push(run);
        };
        // Between two cuts lie the original vertices after the one up to the one before the other.
        let before = |cut: usize| if cuts[cut].0 < originals { cuts[cut].0 } else { cuts[cut].1 };
        for (i, &(_, after)) in cuts.iter().enumerate().take(own.end - 1).skip(own.start) {
            push(i, i + 1, [after..before(i + 1).max(after), 0..0]);
        }
        if strand.closed {
            let (i, j) = (own.end - 1, own.start);
            let tail = cuts[i].1.min(strand.last + 1)..strand.last + 1;
            push(i, j, [tail, strand.first..before(j)]);
        }
    }
    Runs { places, runs, looks, doubles: Vec::new() }.without_doubles()
}

impl Runs {
    /// Makes one of runs that are the same segment. Longer runs cannot be: where lines lie on each other they are cut at every vertex.
    fn without_doubles(mut self) -> Runs {
        let key = |r: &Run| (r.from.min(r.to), r.from.max(r.to));
        let short = self.runs.iter().enumerate().filter(|(_, r)| r.len() == 0);
        let mut short: Vec<((u32, u32), usize)> = short.map(|(i, r)| (key(r), i)).collect();
        short.sort_unstable();
        let mut stands_for: Vec<(usize, usize)> = Vec::new();
        for same in short.chunk_by(|a, b| a.0 == b.0) {
            stands_for.extend(same[1..].iter().map(|other| (other.1, same[0].1)));
        }
        if stands_for.is_empty() {
            return self;
        }
        stands_for.sort_unstable();
        let stays = |run: usize| run - stands_for.partition_point(|s| s.0 < run);
        self.doubles = stands_for.iter().map(|&(other, one)| (stays(one) as u32, self.runs[other].line)).collect();
        self.doubles.sort_unstable();
        let (mut at, mut gone) = (0.., stands_for.iter().peekable());
        self.runs.retain(|_| at.next().is_some_and(|run| gone.next_if(|s| s.0 == run).is_none()));
        self
    }

    /// All lines that lie where a run does.
    pub fn lines(&self, run: u32) -> impl Iterator<Item = usize> {
        let from = self.doubles.partition_point(|d| d.0 < run);
        let more = self.doubles[from..].iter().take_while(move |d| d.0 == run).map(|d| d.1);
        std::iter::once(self.runs[run as usize].line).chain(more)
    }
}

/// The runs at each place.
pub(super) type Ways = Buckets<Way>;

/// Which runs start and end at each of so many places.
pub(super) fn ways_at(places: usize, runs: &[Run]) -> Ways {
    let both = |(i, run): (usize, &Run)| {
        [
            (run.from as usize, Way { run: i as u32, forward: true }),
            (run.to as usize, Way { run: i as u32, forward: false }),
        ]
    };
    Buckets::new(places, runs.iter().enumerate().flat_map(both))
}
