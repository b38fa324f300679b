//! Line work for print: each border once, thinned to what a printer can show, clipped to a window.
//!
//! In: rings in mm, as cells, boards and score lines have them. Out: open runs of points in mm ([`Run`]); clipped runs for one window.
//! Steps: `runs` takes every stretch once, however many cells share it; `thin` drops points that lie within [`THIN_MM`] of the line without them.
//! Never here: a cut line that is no cell border, outline or opening: nobody hands one in.

use std::collections::{BTreeMap, BTreeSet};

use crate::shape::{Extent, Face, Point, Ring, length_mm, ring_sides};

/// A run of points, mm; closed ones repeat their first point.
pub type Run = Vec<Point>;

/// How far a printed line may lie from the drawing's, mm; a tenth of the finest line printed.
pub const THIN_MM: f64 = 0.01;

/// Every stretch of the rings once, as runs between the places where they meet, thinned.
pub fn runs<'a>(rings: impl IntoIterator<Item = &'a Ring>) -> Vec<Run> {
    let mut net = Stretches::default();
    for ring in rings {
        for (a, b) in ring_sides(ring) {
            net.add(*a, *b);
        }
    }
    net.walk().into_iter().map(|run| thin(&run)).collect()
}

/// Straight stretches between points taken to the whole micrometre.
#[derive(Default)]
struct Stretches {
    numbers: BTreeMap<(i64, i64), usize>,
    points: Vec<Point>,
    ends: Vec<Vec<(usize, usize)>>,
    seen: BTreeSet<(usize, usize)>,
}

impl Stretches {
    fn node(&mut self, p: Point) -> usize {
        let key = ((p.x * 1000.0).round() as i64, (p.y * 1000.0).round() as i64);
        *self.numbers.entry(key).or_insert_with(|| {
            self.points.push(p);
            self.ends.push(Vec::new());
            self.points.len() - 1
        })
    }

    fn add(&mut self, a: Point, b: Point) {
        let (a, b) = (self.node(a), self.node(b));
        if a == b || !self.seen.insert((a.min(b), a.max(b))) {
            return;
        }
        let number = self.seen.len() - 1;
        self.ends[a].push((b, number));
        self.ends[b].push((a, number));
    }

    /// Runs from node to node where the degree is not two, then the loops that are left.
    fn walk(&self) -> Vec<Run> {
        let mut used = vec![false; self.seen.len()];
        let starts = (0..self.points.len()).filter(|n| self.ends[*n].len() != 2);
        let mut runs = Vec::new();
        for start in starts.chain(0..self.points.len()) {
            for &(next, number) in &self.ends[start] {
                if !used[number] {
                    runs.push(self.follow(start, next, number, &mut used));
                }
            }
        }
        runs
    }

    fn follow(&self, start: usize, next: usize, number: usize, used: &mut [bool]) -> Run {
        let mut run = vec![self.points[start], self.points[next]];
        used[number] = true;
        let mut at = next;
        while at != start && self.ends[at].len() == 2 {
            let Some(&(next, number)) = self.ends[at].iter().find(|(_, number)| !used[*number]) else { break };
            used[number] = true;
            run.push(self.points[next]);
            at = next;
        }
        run
    }
}

/// Drops points that lie within [`THIN_MM`] of the run without them (Douglas and Peucker, 1973).
pub fn thin(run: &[Point]) -> Run {
    if run.len() < 3 {
        return run.to_vec();
    }
    let mut keep = vec![false; run.len()];
    keep[0] = true;
    keep[run.len() - 1] = true;
    let mut spans = vec![(0, run.len() - 1)];
    while let Some((from, to)) = spans.pop() {
        let far = (from + 1..to)
            .map(|i| (i, to_segment_mm(run[i], run[from], run[to])))
            .max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)));
        if let Some((at, distance)) = far
            && distance > THIN_MM
        {
            keep[at] = true;
            spans.push((from, at));
            spans.push((at, to));
        }
    }
    run.iter().zip(keep).filter_map(|(p, kept)| kept.then_some(*p)).collect()
}

/// Distance from a point to a segment, mm.
pub fn to_segment_mm(p: Point, a: Point, b: Point) -> f64 {
    let along = b - a;
    let square = along.hypot2();
    let t = if square > 0.0 { ((p - a).dot(along) / square).clamp(0.0, 1.0) } else { 0.0 };
    length_mm(p, a + along * t)
}

/// The parts of a run inside a window.
pub fn clipped(run: &[Point], window: Extent) -> Vec<Run> {
    let mut parts: Vec<Run> = Vec::new();
    let Some(extent) = Extent::of(run) else { return parts };
    if extent.max.x < window.min.x
        || extent.min.x > window.max.x
        || extent.max.y < window.min.y
        || extent.min.y > window.max.y
    {
        return parts;
    }
    for pair in run.windows(2) {
        let Some((a, b)) = clip(pair[0], pair[1], window) else { continue };
        match parts.last_mut() {
            Some(part) if part.last() == Some(&a) => part.push(b),
            _ => parts.push(vec![a, b]),
        }
    }
    parts
}

/// The parts of a run inside a face, mm; parts that run along its edge count as inside.
pub fn clip_to(run: &[Point], face: &Face) -> Vec<Run> {
    let rings: Vec<&Ring> = face.rings().collect();
    let sides = || rings.iter().flat_map(|r| ring_sides(r));
    let mut parts: Vec<Run> = Vec::new();
    for pair in run.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let along = b - a;
        // Where the segment meets the edge, as shares of its length.
        let mut shares: Vec<f64> = sides()
            .filter_map(|(c, d)| {
                let side = *d - *c;
                let across = along.cross(side);
                let (t, u) = ((*c - a).cross(side) / across, (*c - a).cross(along) / across);
                (across != 0.0 && (0.0..=1.0).contains(&t) && (0.0..=1.0).contains(&u)).then_some(t)
            })
            .chain([0.0, 1.0])
            .collect();
        shares.sort_by(f64::total_cmp);
        for share in shares.windows(2).filter(|s| s[1] > s[0]) {
            if !within(&rings, a.lerp(b, f64::midpoint(share[0], share[1]))) {
                continue;
            }
            // Ends stay exactly what they were, so that parts join up again.
            let at = |share: f64| {
                if share <= 0.0 {
                    a
                } else if share >= 1.0 {
                    b
                } else {
                    a.lerp(b, share)
                }
            };
            let (from, to) = (at(share[0]), at(share[1]));
            match parts.last_mut() {
                Some(part) if part.last() == Some(&from) => part.push(to),
                _ => parts.push(vec![from, to]),
            }
        }
    }
    parts
}

/// Even–odd: whether a place lies inside the rings.
fn within(rings: &[&Ring], p: Point) -> bool {
    let crosses =
        |a: Point, b: Point| (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x);
    rings.iter().flat_map(|r| ring_sides(r)).filter(|(a, b)| crosses(**a, **b)).count() % 2 == 1
}

/// The part of a segment inside a window (Liang and Barsky, 1984).
pub fn clip(a: Point, b: Point, window: Extent) -> Option<(Point, Point)> {
    let d = b - a;
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    let sides =
        [(-d.x, a.x - window.min.x), (d.x, window.max.x - a.x), (-d.y, a.y - window.min.y), (d.y, window.max.y - a.y)];
    for (towards, room) in sides {
        if towards == 0.0 {
            if room < 0.0 {
                return None;
            }
        } else if towards < 0.0 {
            enter = enter.max(room / towards);
        } else {
            leave = leave.min(room / towards);
        }
    }
    // Ends that are inside stay exactly what they were, so that parts join up again.
    let start = if enter > 0.0 { a + d * enter } else { a };
    let end = if leave < 1.0 { a + d * leave } else { b };
    (enter < leave).then_some((start, end))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64) -> Ring {
        [(x, y), (x + 10.0, y), (x + 10.0, y + 10.0), (x, y + 10.0)].map(|(x, y)| Point::new(x, y)).to_vec()
    }

    fn total_mm(runs: &[Run]) -> f64 {
        runs.iter().flat_map(|r| r.windows(2)).map(|w| length_mm(w[0], w[1])).sum()
    }

    #[test]
    fn a_border_that_two_cells_share_is_drawn_once() {
        let rings = [square(0.0, 0.0), square(10.0, 0.0)];
        let runs = runs(&rings);
        assert_eq!(total_mm(&runs), 70.0, "two squares of 40 mm share 10 mm");
        assert_eq!(runs.len(), 3, "left, shared, right");
    }

    #[test]
    fn thinning_keeps_within_its_distance() {
        let circle: Run = (0..=720)
            .map(|i| f64::from(i) * std::f64::consts::TAU / 720.0)
            .map(|t| Point::new(20.0 * libm::cos(t), 20.0 * libm::sin(t)))
            .collect();
        let thinned = thin(&circle);
        assert!(thinned.len() < 200, "{}", thinned.len());
        for p in &circle {
            let off = thinned.windows(2).map(|w| to_segment_mm(*p, w[0], w[1])).fold(f64::INFINITY, f64::min);
            assert!(off <= THIN_MM + 1e-12, "{off}");
        }
    }

    /// A line of 40 mm through a square of 20 mm with a square hole of 10 mm: 5 mm on each side of the hole.
    #[test]
    fn a_run_is_clipped_to_a_face_with_a_hole() {
        let hole = [(5.0, 5.0), (5.0, 15.0), (15.0, 15.0), (15.0, 5.0)].map(|p| Point::new(p.0, p.1)).to_vec();
        let outer = [(0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0)].map(|p| Point::new(p.0, p.1)).to_vec();
        let face = Face { outer, holes: vec![hole] };
        let through = [Point::new(-10.0, 10.0), Point::new(10.0, 10.0), Point::new(30.0, 10.0)];
        let parts = clip_to(&through, &face);
        assert_eq!(parts.len(), 2);
        assert!((total_mm(&parts) - 10.0).abs() < 1e-9, "{parts:?}");
        assert!(clip_to(&[Point::new(-5.0, 30.0), Point::new(30.0, 30.0)], &face).is_empty());
    }

    #[test]
    fn windows_side_by_side_share_out_a_run() {
        let run: Run =
            (0..=100).map(|i| Point::new(f64::from(i), 30.0 + 20.0 * libm::sin(f64::from(i) / 9.0))).collect();
        let window = |x0: f64, x1: f64| Extent { min: Point::new(x0, 0.0), max: Point::new(x1, 60.0) };
        let whole = total_mm(std::slice::from_ref(&run));
        let parts = total_mm(&clipped(&run, window(0.0, 41.3))) + total_mm(&clipped(&run, window(41.3, 100.0)));
        assert!((whole - parts).abs() < 1e-9, "{whole} {parts}");
        assert!(clipped(&run, window(200.0, 300.0)).is_empty());
    }
}
