//! From split lines to a graph: nodes where lines meet or end, and the chains of points between them.
//!
//! In: [`Split`] lines. Out: nodes and chains, both sorted by place, so that neither the order nor the direction of
//! the lines shows in them. Stretches that occur more than once become one; places where just two stretches meet are no nodes.

use super::Chain;
use super::exact::reading_order;
use super::split::Split;
use crate::shape::Point;
use std::cmp::Ordering;
use std::ops::Range;

/// Nodes and chains.
pub(super) struct Graph {
    pub nodes: Vec<Point>,
    pub chains: Vec<Chain>,
}

/// A stretch of one line between two places where something happens.
#[derive(Clone)]
struct Run {
    from: u32,
    to: u32,
    /// Original vertices strictly between; the second part is for closed lines, past their first vertex.
    between: [Range<u32>; 2],
    /// All lines that lie here.
    lines: Vec<usize>,
}

impl Run {
    fn len(&self) -> usize {
        self.between[0].len() + self.between[1].len()
    }
}

/// One end of a run: which run, and whether it leads away from the node as the run goes.
#[derive(Clone, Copy, PartialEq)]
struct Way {
    run: u32,
    forward: bool,
}

pub(super) fn graph(split: &Split) -> Graph {
    let (places, mut runs) = runs(split);
    merge_doubles(&mut runs);
    let ways = Ways::new(places.len(), &runs);
    let degree = |v: u32| ways.at(v).len();

    let mut used = vec![false; runs.len()];
    let mut chains = Vec::new();
    for v in (0..places.len() as u32).filter(|&v| degree(v) != 2) {
        for &way in ways.at(v) {
            if !used[way.run as usize] {
                chains.push(follow(way, &runs, &ways, &mut used));
            }
        }
    }
    // What is left goes round without a node.
    for run in 0..runs.len() as u32 {
        if !used[run as usize] {
            chains.push(follow(Way { run, forward: true }, &runs, &ways, &mut used));
        }
    }
    let chains: Vec<(Vec<Point>, Vec<usize>)> =
        chains.iter().map(|c| drawn(c, &runs, &places, split, degree)).collect();
    numbered(chains)
}

/// Cuts every line where something happens. The places, in reading order, and the runs between them.
fn runs(split: &Split) -> (Vec<Point>, Vec<Run>) {
    let strands = &split.strands;
    let originals = split.originals as u32;
    let is_node = Marks::new(strands.pos.len(), split.nodes.iter().copied());
    let was_cut =
        Marks::new(strands.pos.len(), split.nodes.iter().filter(|&&v| v >= originals).map(|&v| split.home(v)));

    // For each strand its cuts in order, as vertices, each with the original vertex that comes after it.
    let mut cuts: Vec<(u32, u32)> = Vec::with_capacity(split.nodes.len() + 2 * strands.strands.len());
    let mut of_strand = Vec::with_capacity(strands.strands.len());
    for strand in &strands.strands {
        let begin = cuts.len();
        let mut at = strand.first;
        while let Some(v) = is_node.next_of_either(&was_cut, at, strand.last) {
            if is_node.has(v) || (!strand.closed && (v == strand.first || v == strand.last)) {
                cuts.push((v, v + 1));
            }
            if was_cut.has(v) {
                let mut put = strands.next[v as usize];
                while put != super::strands::NONE && put >= originals {
                    cuts.push((put, v + 1));
                    put = strands.next[put as usize];
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

    let place = |cut: u32| strands.at(cuts[cut as usize].0);
    let mut order: Vec<u32> = (0..cuts.len() as u32).collect();
    order.sort_unstable_by(|&a, &b| reading_order(place(a), place(b)));
    let mut places: Vec<Point> = Vec::new();
    let mut number = vec![0; cuts.len()];
    for cut in order {
        if places.last() != Some(&place(cut)) {
            places.push(place(cut));
        }
        number[cut as usize] = places.len() as u32 - 1;
    }

    let mut runs = Vec::with_capacity(cuts.len());
    for (strand, own) in strands.strands.iter().zip(of_strand) {
        let mut push = |i: usize, j: usize, between: [Range<u32>; 2]| {
            let run = Run { from: number[i], to: number[j], between, lines: vec![strand.line] };
            if run.from != run.to || run.len() > 0 {
                runs.push(run);
            }
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
    (places, runs)
}

/// Makes one of runs that are the same segment. Longer runs cannot be: where lines lie on each other they are cut at every vertex.
fn merge_doubles(runs: &mut Vec<Run>) {
    let key = |r: &Run| (r.from.min(r.to), r.from.max(r.to));
    let short = runs.iter().enumerate().filter(|(_, r)| r.len() == 0);
    let mut short: Vec<((u32, u32), usize)> = short.map(|(i, r)| (key(r), i)).collect();
    short.sort_unstable();
    let mut gone = vec![false; runs.len()];
    for same in short.chunk_by(|a, b| a.0 == b.0) {
        for &(_, other) in &same[1..] {
            let lines = std::mem::take(&mut runs[other].lines);
            runs[same[0].1].lines.extend(lines);
            gone[other] = true;
        }
    }
    let mut gone = gone.iter();
    runs.retain(|_| gone.next() != Some(&true));
}

/// The runs at each place.
struct Ways {
    starts: Vec<u32>,
    ways: Vec<Way>,
}

impl Ways {
    fn new(places: usize, runs: &[Run]) -> Ways {
        let mut starts = vec![0_u32; places + 1];
        for run in runs {
            starts[run.from as usize + 1] += 1;
            starts[run.to as usize + 1] += 1;
        }
        for i in 0..places {
            starts[i + 1] += starts[i];
        }
        let mut fill = starts.clone();
        let mut ways = vec![Way { run: 0, forward: true }; 2 * runs.len()];
        for (i, run) in runs.iter().enumerate() {
            for (v, forward) in [(run.from, true), (run.to, false)] {
                ways[fill[v as usize] as usize] = Way { run: i as u32, forward };
                fill[v as usize] += 1;
            }
        }
        Ways { starts, ways }
    }

    fn at(&self, v: u32) -> &[Way] {
        &self.ways[self.starts[v as usize] as usize..self.starts[v as usize + 1] as usize]
    }
}

/// The runs from one node on to the next, or round to the start.
fn follow(start: Way, runs: &[Run], ways: &Ways, used: &mut [bool]) -> Vec<Way> {
    let mut chain = vec![start];
    used[start.run as usize] = true;
    let mut way = start;
    loop {
        let run = &runs[way.run as usize];
        let v = if way.forward { run.to } else { run.from };
        let [one, two] = ways.at(v) else { return chain };
        let back = Way { run: way.run, forward: !way.forward };
        let on = if *one == back { *two } else { *one };
        if used[on.run as usize] {
            return chain;
        }
        used[on.run as usize] = true;
        chain.push(on);
        way = on;
    }
}

/// The points of a chain in its standing direction, and the lines that lie on it.
fn drawn(
    chain: &[Way],
    runs: &[Run],
    places: &[Point],
    split: &Split,
    degree: impl Fn(u32) -> usize,
) -> (Vec<Point>, Vec<usize>) {
    let count: usize = chain.iter().map(|w| runs[w.run as usize].len() + 1).sum();
    let mut points = Vec::with_capacity(count + 1);
    let mut lines = Vec::new();
    for way in chain {
        let run = &runs[way.run as usize];
        let parts = [&split.strands.pos[to_usize(&run.between[0])], &split.strands.pos[to_usize(&run.between[1])]];
        if way.forward {
            points.push(places[run.from as usize]);
            points.extend_from_slice(parts[0]);
            points.extend_from_slice(parts[1]);
        } else {
            points.push(places[run.to as usize]);
            points.extend(parts[1].iter().rev());
            points.extend(parts[0].iter().rev());
        }
        lines.extend(&run.lines);
    }
    lines.sort_unstable();
    lines.dedup();
    let (Some(first), Some(last)) = (chain.first(), chain.last()) else { return (points, lines) };
    let begin = if first.forward { runs[first.run as usize].from } else { runs[first.run as usize].to };
    let end = if last.forward { runs[last.run as usize].to } else { runs[last.run as usize].from };
    if begin == end && degree(begin) == 2 {
        // A lonely closed line starts at its place that comes first.
        let least = (0..points.len()).min_by(|&a, &b| reading_order(points[a], points[b])).unwrap_or(0);
        points.rotate_left(least);
        points.push(points[0]);
    } else {
        points.push(places[end as usize]);
    }
    let n = points.len();
    let turned = reading_order(points[0], points[n - 1]).then_with(|| reading_order(points[1], points[n - 2]));
    if turned == Ordering::Greater {
        points.reverse();
    }
    (points, lines)
}

fn to_usize(range: &Range<u32>) -> Range<usize> {
    range.start as usize..range.end as usize
}

/// Nodes and chains in reading order.
fn numbered(mut drawn: Vec<(Vec<Point>, Vec<usize>)>) -> Graph {
    let ends = |points: &[Point]| (points[0], points[points.len() - 1]);
    drawn.sort_by(|(a, _), (b, _)| {
        let ((a0, a1), (b0, b1)) = (ends(a), ends(b));
        reading_order(a0, b0)
            .then_with(|| reading_order(a1, b1))
            .then_with(|| reading_order(a[1], b[1]))
            .then_with(|| reading_order(a[a.len() - 2], b[b.len() - 2]))
    });
    let mut nodes: Vec<Point> = drawn.iter().flat_map(|(p, _)| [p[0], p[p.len() - 1]]).collect();
    nodes.sort_unstable_by(|a, b| reading_order(*a, *b));
    nodes.dedup();
    let number = |p: Point| nodes.partition_point(|n| reading_order(*n, p) == Ordering::Less);
    let chains = drawn
        .into_iter()
        .map(|(points, lines)| {
            let (from, to) = ends(&points);
            Chain { from: number(from), to: number(to), points, lines, left: None, right: None }
        })
        .collect();
    Graph { nodes, chains }
}

/// A set of vertices in which the next one is quickly found.
struct Marks(Vec<u64>);

impl Marks {
    fn new(count: usize, marked: impl Iterator<Item = u32>) -> Marks {
        let mut words = vec![0_u64; count / 64 + 1];
        for v in marked {
            words[v as usize / 64] |= 1 << (v % 64);
        }
        Marks(words)
    }

    fn has(&self, v: u32) -> bool {
        self.0[v as usize / 64] >> (v % 64) & 1 == 1
    }

    /// The first vertex from `from` to `to` that is in either set.
    fn next_of_either(&self, other: &Marks, from: u32, to: u32) -> Option<u32> {
        let mut word = from as usize / 64;
        let mut mask = u64::MAX << (from % 64);
        while word <= to as usize / 64 {
            let bits = (self.0[word] | other.0[word]) & mask;
            if bits != 0 {
                let v = word as u32 * 64 + bits.trailing_zeros();
                return (v <= to).then_some(v);
            }
            mask = u64::MAX;
            word += 1;
        }
        None
    }
}
