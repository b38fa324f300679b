//! From split lines to a graph: nodes where lines meet or end, and the chains of points between them.
//!
//! In: [`Split`] lines. Out: nodes and chains, both sorted by place, so that the order of the lines does not show in them.
//! Stretches that occur more than once become one; places where just two stretches meet are no nodes. A chain that is a stretch
//! of one line as drawn stays where it lies in the store; all others are written behind it.

use super::Chain;
use super::boxes::Extent;
use super::exact::reading_order;
use super::split::Split;
use crate::shape::Point;
use std::cmp::Ordering;
use std::ops::Range;

/// Nodes and chains.
pub(super) struct Graph {
    pub nodes: Vec<Point>,
    pub chains: Vec<Chain>,
    /// Points of all chains, and others.
    pub points: Vec<Point>,
    /// Lines of all chains.
    pub lines: Vec<usize>,
    /// For each chain what its faces are judged by.
    pub looks: Vec<Look>,
}

/// What is seen of a chain while its points go by.
#[derive(Clone, Copy)]
pub(super) struct Look {
    pub extent: Extent,
    /// Which of its points comes first in reading order, and where it lies.
    pub first: (u32, Point),
    /// The points next to its start and next to its end.
    pub next_to_ends: (Point, Point),
}

/// A stretch of one line between two places where something happens.
#[derive(Clone)]
struct Run {
    from: u32,
    to: u32,
    /// Original vertices strictly between; the second part is for closed lines, past their first vertex.
    between: [Range<u32>; 2],
    /// Where it is all of what lies between two vertices in the store: these.
    whole: Option<(u32, u32)>,
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

pub(super) fn graph(split: Split) -> Graph {
    let (places, mut runs) = runs(&split);
    merge_doubles(&mut runs);
    let ways = Ways::new(places.len(), &runs);
    let degree = |v: u32| ways.at(v).len();

    let mut used = vec![false; runs.len()];
    let stored = split.strands.pos.len() as u32;
    let mut rows = Rows {
        points: split.strands.pos,
        stored,
        lines: Vec::with_capacity(runs.len()),
        drawn: Vec::new(),
        looks: Vec::new(),
    };
    let mut steps = Vec::new();
    // Places are in reading order, so the chains are found nearly in theirs.
    for v in (0..places.len() as u32).filter(|&v| degree(v) != 2) {
        for &way in ways.at(v) {
            if !used[way.run as usize] {
                follow(way, &runs, &ways, &mut used, &mut steps);
                rows.draw(&steps, &runs, &places, false);
            }
        }
    }
    // What is left goes round without a node.
    for run in 0..runs.len() as u32 {
        if !used[run as usize] {
            follow(Way { run, forward: true }, &runs, &ways, &mut used, &mut steps);
            rows.draw(&steps, &runs, &places, true);
        }
    }
    let is_node: Vec<bool> = (0..places.len() as u32).map(|v| degree(v) != 2).collect();
    numbered(rows, &places, &is_node)
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
                let mut put = strands.after(v);
                while put != super::strands::NONE && put >= originals {
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

    let mut runs = Vec::with_capacity(cuts.len());
    for (strand, own) in strands.strands.iter().zip(of_strand) {
        let mut push = |i: usize, j: usize, between: [Range<u32>; 2]| {
            let (from, to) = (cuts[i].0, cuts[j].0);
            let whole = (j == i + 1 && from < originals && to < originals).then_some((from, to));
            let run = Run { from: number[i], to: number[j], between, whole, lines: vec![strand.line] };
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

/// The runs from one node on to the next, or round to the start, into `steps`.
fn follow(start: Way, runs: &[Run], ways: &Ways, used: &mut [bool], steps: &mut Vec<Way>) {
    used[start.run as usize] = true;
    steps.clear();
    steps.push(start);
    let mut way = start;
    loop {
        let run = &runs[way.run as usize];
        let v = if way.forward { run.to } else { run.from };
        let [one, two] = ways.at(v) else { return };
        let back = Way { run: way.run, forward: !way.forward };
        let on = if *one == back { *two } else { *one };
        if used[on.run as usize] {
            return;
        }
        used[on.run as usize] = true;
        steps.push(on);
        way = on;
    }
}

/// What chains are made of.
struct Rows {
    points: Vec<Point>,
    /// How many of them were there before.
    stored: u32,
    lines: Vec<usize>,
    drawn: Vec<Drawn>,
    looks: Vec<Look>,
}

/// A chain before it has its number.
struct Drawn {
    points: Range<u32>,
    lines: Range<u32>,
    /// The places of its start and end; none where it goes round without a node.
    ends: Option<(u32, u32)>,
}

impl Rows {
    /// Adds a chain of runs; one that goes round without a node starts at its place that comes first.
    fn draw(&mut self, chain: &[Way], runs: &[Run], places: &[Point], lonely: bool) {
        let points = match chain {
            [one] if runs[one.run as usize].whole.is_some() && !lonely => {
                let (from, to) = runs[one.run as usize].whole.unwrap_or_default();
                from..to + 1
            }
            _ => self.write(chain, runs, places, lonely),
        };
        let from = self.lines.len();
        chain.iter().for_each(|way| self.lines.extend(&runs[way.run as usize].lines));
        if self.lines.len() > from + 1 {
            let mut own = self.lines.split_off(from);
            own.sort_unstable();
            own.dedup();
            self.lines.extend(own);
        }
        let end = |way: Option<&Way>, start: bool| {
            way.map_or(0, |w| if w.forward == start { runs[w.run as usize].from } else { runs[w.run as usize].to })
        };
        // What stays in the store goes as the run goes.
        let ends = match chain {
            [one] if !self.is_written(&points) => (runs[one.run as usize].from, runs[one.run as usize].to),
            _ => (end(chain.first(), true), end(chain.last(), false)),
        };
        self.looks.push(look(super::net::run(&self.points, &points)));
        let lines = from as u32..self.lines.len() as u32;
        self.drawn.push(Drawn { points, lines, ends: (!lonely).then_some(ends) });
    }

    /// Whether points were written behind those of the store.
    fn is_written(&self, points: &Range<u32>) -> bool {
        points.start >= self.stored
    }

    /// Writes the points of a chain behind all others.
    fn write(&mut self, chain: &[Way], runs: &[Run], places: &[Point], lonely: bool) -> Range<u32> {
        let start = self.points.len();
        let mut end = Point::ZERO;
        for way in chain {
            let run = &runs[way.run as usize];
            let [one, two] = run.between.clone().map(|r| r.start as usize..r.end as usize);
            let (from, to) = (places[run.from as usize], places[run.to as usize]);
            if way.forward {
                self.points.push(from);
                self.points.extend_from_within(one);
                self.points.extend_from_within(two);
                end = to;
            } else {
                self.points.push(to);
                for i in one.chain(two).rev() {
                    self.points.push(self.points[i]);
                }
                end = from;
            }
        }
        if lonely {
            let least = look(&self.points[start..]).first.0 as usize;
            self.points[start..].rotate_left(least);
            end = self.points[start];
        }
        self.points.push(end);
        start as u32..self.points.len() as u32
    }
}

/// What the faces on its sides are judged by.
fn look(points: &[Point]) -> Look {
    let extent = Extent::of(points);
    // Only the topmost points can come first.
    let mut first = 0;
    for (i, p) in points.iter().enumerate() {
        if p.y == extent.y0 && (points[first].y != p.y || p.x < points[first].x) {
            first = i;
        }
    }
    let n = points.len();
    Look {
        extent,
        first: (first as u32, points[first]),
        next_to_ends: (points[1.min(n - 1)], points[n.saturating_sub(2)]),
    }
}

/// Nodes and chains in reading order.
fn numbered(rows: Rows, places: &[Point], is_node: &[bool]) -> Graph {
    let Rows { points, lines, drawn, looks, .. } = rows;
    let start = |d: &Drawn| points[d.points.start as usize];
    let mut nodes: Vec<Point> = places.iter().zip(is_node).filter(|(_, is)| **is).map(|(p, _)| *p).collect();
    let known = nodes.len();
    nodes.extend(drawn.iter().filter(|d| d.ends.is_none()).map(start));
    if nodes.len() > known {
        nodes.sort_unstable_by(|a, b| reading_order(*a, *b));
    }
    let mut number = vec![0_u32; places.len()];
    let mut next = 0;
    for (v, place) in places.iter().enumerate().filter(|(v, _)| is_node[*v]) {
        while nodes[next] != *place {
            next += 1;
        }
        number[v] = next as u32;
    }
    let ends: Vec<(u32, u32)> = drawn
        .iter()
        .map(|d| match d.ends {
            Some((from, to)) => (number[from as usize], number[to as usize]),
            None => {
                let lonely = nodes.partition_point(|n| reading_order(*n, start(d)) == Ordering::Less) as u32;
                (lonely, lonely)
            }
        })
        .collect();
    // By the lesser end, the other one, and the points next to them. Stable, since they are nearly in order.
    let key = |i: u32| {
        let ((from, to), (a, b)) = (ends[i as usize], looks[i as usize].next_to_ends);
        if from.cmp(&to).then_with(|| reading_order(a, b)) == Ordering::Greater {
            (to, from, b, a)
        } else {
            (from, to, a, b)
        }
    };
    let mut order: Vec<u32> = (0..drawn.len() as u32).collect();
    order.sort_by(|&i, &j| {
        let (a, b) = (key(i), key(j));
        (a.0, a.1).cmp(&(b.0, b.1)).then_with(|| reading_order(a.2, b.2)).then_with(|| reading_order(a.3, b.3))
    });
    let chain = |&i: &u32| {
        let (d, (from, to)) = (&drawn[i as usize], ends[i as usize]);
        let (points, lines) = (d.points.clone(), d.lines.clone());
        Chain { from: from as usize, to: to as usize, points, lines, left: None, right: None }
    };
    let chains = order.iter().map(chain).collect();
    let looks = order.iter().map(|&i| looks[i as usize]).collect();
    Graph { nodes, chains, points, lines, looks }
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
