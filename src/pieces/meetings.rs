//! Ends of lines that meet.
//!
//! In: a flat store of lines. Out: groups of ends within a reach of each other, also through others, each with the mean of its places.
//! Neither the groups nor their means depend on the order of the lines.

use super::buckets::Buckets;
use super::exact::{reading_order, square};
use super::groups::Groups;
use super::strands::Strands;
use crate::shape::Point;

/// One end of an open line.
#[derive(Clone, Copy, Debug)]
pub(super) struct End {
    pub strand: usize,
    /// The end where the line stops, not the one where it starts.
    pub last: bool,
    pub at: Point,
}

/// Ends that meet, group by group, in reading order of their means.
pub(super) struct Meetings {
    ends: Vec<End>,
    /// The mean of each group, and the first of its ends.
    groups: Vec<(Point, u32)>,
}

impl Meetings {
    /// How many there are.
    pub fn len(&self) -> usize {
        self.groups.len()
    }

    /// Where one is.
    pub fn at(&self, meeting: usize) -> Point {
        self.groups[meeting].0
    }

    /// Its ends.
    pub fn ends(&self, meeting: usize) -> &[End] {
        let to = self.groups.get(meeting + 1).map_or(self.ends.len(), |next| next.1 as usize);
        &self.ends[self.groups[meeting].1 as usize..to]
    }

    /// Groups of ends within `reach` of each other.
    ///
    /// Two places that a line shorter than `reach` already connects are not drawn together on that account: a curve
    /// that is drawn as many tiny lines would shrink to a point.
    pub fn new(strands: &Strands, reach: f64) -> Meetings {
        let ends = ends(strands);
        let order = strips(&ends, reach);
        let mut groups = united(strands, &ends, &order, reach);
        // Within a group the ends stay sorted by place, so that their mean does not depend on the order of lines.
        let mut number = vec![u32::MAX; ends.len()];
        let mut count = 0;
        let group_of: Vec<u32> = order
            .iter()
            .map(|o| {
                let group = &mut number[groups.find(o.end as usize)];
                if *group == u32::MAX {
                    *group = count;
                    count += 1;
                }
                *group
            })
            .collect();
        let grouped = order.iter().zip(&group_of).map(|(o, group)| (*group as usize, ends[o.end as usize]));
        let own = Buckets::new(count as usize, grouped);
        let mut means: Vec<(Point, u32)> = (0..count).map(|g| (mean(own.of(g as usize)), g)).collect();
        means.sort_by(|a, b| reading_order(a.0, b.0));
        let mut meetings = Meetings { ends: Vec::with_capacity(ends.len()), groups: means };
        for (_, group) in &mut meetings.groups {
            let from = meetings.ends.len() as u32;
            meetings.ends.extend_from_slice(own.of(*group as usize));
            *group = from;
        }
        meetings
    }
}

fn ends(strands: &Strands) -> Vec<End> {
    let open = strands.strands.iter().enumerate().filter(|(_, s)| !s.closed);
    open.flat_map(|(strand, s)| {
        [End { strand, last: false, at: strands.at(s.first) }, End { strand, last: true, at: strands.at(s.last) }]
    })
    .collect()
}

/// Whether a line is no longer than `reach`.
pub(super) fn is_short(points: &[Point], reach: f64) -> bool {
    let mut length = 0.0;
    points.windows(2).all(|w| {
        length += square(w[0], w[1]).sqrt();
        length <= reach
    })
}

/// An end in a strip of the sheet.
struct InStrip {
    strip: f64,
    at: Point,
    end: u32,
}

/// All ends by upright strips as wide as the reach, in each from top to bottom.
fn strips(ends: &[End], reach: f64) -> Vec<InStrip> {
    let wide = reach.max(f64::MIN_POSITIVE);
    let in_strip = |(e, end): (&End, u32)| InStrip { strip: (e.at.x / wide).floor(), at: e.at, end };
    let mut order: Vec<InStrip> = ends.iter().zip(0..).map(in_strip).collect();
    order.sort_unstable_by(|a, b| {
        a.strip.total_cmp(&b.strip).then_with(|| reading_order(a.at, b.at)).then(a.end.cmp(&b.end))
    });
    order
}

/// Which ends belong together.
fn united(strands: &Strands, ends: &[End], order: &[InStrip], reach: f64) -> Groups {
    let same = strands.same_mm;
    let mut exact = Groups::new(ends.len());
    let mut close = Vec::new();
    // The first end of the next strip that may still be near: it only ever moves on.
    let mut ahead = 0;
    for (i, a) in order.iter().enumerate() {
        let (p, mine) = (a.at, a.strip);
        let mut look = |b: &InStrip| {
            let gap = square(p, b.at);
            if gap <= same * same {
                exact.unite(a.end as usize, b.end as usize);
            } else if gap <= reach * reach {
                close.push((a.end, b.end));
            }
        };
        order[i + 1..].iter().take_while(|b| b.strip == mine && b.at.y - p.y <= reach).for_each(&mut look);
        // A strip further left starts over in y, so the place ahead goes back to where the next strip begins.
        if i == 0 || order[i - 1].strip != mine {
            ahead = i + order[i..].partition_point(|b| b.strip <= mine);
        }
        let behind = |b: &InStrip| b.strip <= mine || (b.strip == mine + 1.0 && b.at.y < p.y - reach);
        while ahead < order.len() && behind(&order[ahead]) {
            ahead += 1;
        }
        order[ahead..].iter().take_while(|b| b.strip == mine + 1.0 && b.at.y - p.y <= reach).for_each(&mut look);
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
    exact
}

/// Mean of the places, taken about the first, so that equal places have exactly themselves for a mean.
fn mean(ends: &[End]) -> Point {
    let (first, count) = (ends[0].at, ends.len() as f64);
    let (x, y) = ends.iter().fold((0.0, 0.0), |(x, y), e| (x + (e.at.x - first.x), y + (e.at.y - first.y)));
    Point::new(first.x + x / count, first.y + y / count)
}
