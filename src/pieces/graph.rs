//! From split lines to a graph: nodes where lines meet or end, and the chains of points between them.
//!
//! In: [`Split`] lines. Out: nodes and chains, both sorted by place, so that the order of the lines does not show in them.
//! Stretches that occur more than once become one; places where just two stretches meet are no nodes. A chain that is a stretch
//! of one line as drawn stays where it lies in the store; all others are written behind it.

use super::Chain;
use super::boxes::Extent;
use super::exact::reading_order;
use super::runs::{Run, Runs, Way, Ways, Whole, runs, ways_at};
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

pub(super) fn graph(split: Split) -> Graph {
    let mut runs = runs(&split);
    let ways = ways_at(runs.places.len(), &runs.runs);
    let degree = |v: u32| ways.of(v as usize).len();

    let mut used = vec![false; runs.runs.len()];
    let looks = std::mem::take(&mut runs.looks);
    let count = runs.runs.len();
    let (lines, drawn) = (Vec::with_capacity(count), Vec::with_capacity(count));
    let mut rows = Rows { points: split.strands.pos, lines, drawn, looks };
    let mut steps = Vec::new();
    // Places are in reading order, so the chains are found nearly in theirs.
    for v in (0..runs.places.len() as u32).filter(|&v| degree(v) != 2) {
        for &way in ways.of(v as usize) {
            if !used[way.run as usize] {
                follow(way, &runs.runs, &ways, &mut used, &mut steps);
                rows.draw(&steps, &runs, false);
            }
        }
    }
    // What is left goes round without a node.
    for run in 0..count as u32 {
        if !used[run as usize] {
            follow(Way { run, forward: true }, &runs.runs, &ways, &mut used, &mut steps);
            rows.draw(&steps, &runs, true);
        }
    }
    let is_node: Vec<bool> = (0..runs.places.len() as u32).map(|v| degree(v) != 2).collect();
    numbered(rows, &runs.places, &is_node)
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
        let [one, two] = ways.of(v as usize) else { return };
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
    /// Which of the looks.
    look: u32,
}

impl Rows {
    /// Adds a chain of runs; one that goes round without a node starts at its place that comes first.
    fn draw(&mut self, chain: &[Way], runs: &Runs, lonely: bool) {
        let run = |way: &Way| &runs.runs[way.run as usize];
        let from = self.lines.len();
        chain.iter().for_each(|way| self.lines.extend(runs.lines(way.run)));
        if self.lines.len() > from + 1 {
            let mut own = self.lines.split_off(from);
            own.sort_unstable();
            own.dedup();
            self.lines.extend(own);
        }
        let lines = from as u32..self.lines.len() as u32;
        if let ([one], false) = (chain, lonely)
            && let Some(Whole { points, look }) = run(one).whole.clone()
        {
            // What stays in the store goes as the run goes.
            let ends = Some((run(one).from, run(one).to));
            self.drawn.push(Drawn { points, lines, ends, look });
            return;
        }
        let points = self.write(chain, &runs.runs, &runs.places, lonely);
        let end = |way: Option<&Way>, start: bool| {
            way.map_or(0, |w| if w.forward == start { run(w).from } else { run(w).to })
        };
        let ends = (!lonely).then_some((end(chain.first(), true), end(chain.last(), false)));
        self.drawn.push(Drawn { points: points.clone(), lines, ends, look: self.looks.len() as u32 });
        self.looks.push(look(super::net::run(&self.points, &points)));
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
pub(super) fn look(points: &[Point]) -> Look {
    let extent = Extent::of(points);
    // Only the topmost points can come first. Few of them are, so they are sought some at a time.
    let mut first = 0;
    for (i, some) in points.chunks(16).enumerate() {
        if some.iter().fold(false, |any, p| any | (p.y == extent.y0)) {
            for (i, p) in (16 * i..).zip(some) {
                if p.y == extent.y0 && (points[first].y != p.y || p.x < points[first].x) {
                    first = i;
                }
            }
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
        let ((from, to), (a, b)) = (ends[i as usize], looks[drawn[i as usize].look as usize].next_to_ends);
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
    let looks = order.iter().map(|&i| looks[drawn[i as usize].look as usize]).collect();
    Graph { nodes, chains, points, lines, looks }
}
