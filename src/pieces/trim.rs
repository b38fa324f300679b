//! Corners of a moved outline where edges are used up: what runs backwards is cut off where the outline crosses itself.
//!
//! In: an outline. Out: the outline with all edges moved inwards, without the loops that used up edges lie in; the caller sees whether it is
//! simple. Then it is the whole answer, since here it is found of each loop that nothing in it is as far as the width from the edges beside
//! it, and that what is left keeps its distance from the edges that were cut off. `None` wherever this cannot be told near by.
//! Rule: handbook, figures, item 5.

use kurbo::Vec2;

use super::shift::{inward, turn_corner};
use crate::inmost::distance_sq;
use crate::shape::{Point, Ring};

/// How many segments before and after one that runs backwards are looked at for a crossing. A corner uses up few.
const WINDOW: usize = 64;
/// Share of the width by which what is left may come nearer to what was cut off: chords of round corners do.
const CHORDS: f64 = 1e-3;

/// Moves `ring`, whose edges have the directions `ways`, inwards by `by_mm`, corners rounded in steps of at most `step` radians.
pub(super) fn trimmed(ring: &[Point], ways: &[Vec2], by_mm: f64, step: f64) -> Option<Ring> {
    let n = ring.len();
    let first = Outline::moved(ring, ways, &vec![false; n], by_mm, step)?;
    // Corners at the ends of used up edges are opened: how far the edges beside them reach is seen only then.
    let mut opened = vec![false; n];
    for (at, _) in first.backwards.iter().enumerate().filter(|(_, backwards)| **backwards) {
        let edge = first.corner[at];
        [edge, (edge + 1) % n].into_iter().for_each(|end| opened[end] = true);
    }
    let outline = Outline::moved(ring, ways, &opened, by_mm, step)?.begun_within_its_longest()?;
    let cuts = outline.cuts()?;
    let sound = |cut: &Cut| outline.winds_back(cut, ring, by_mm) && outline.keeps_clear(cut, ring, ways, by_mm);
    cuts.iter().all(sound).then(|| outline.without(&cuts))
}

/// Where an outline crosses itself: on segment `from` and again on segment `to`.
struct Cut {
    from: usize,
    to: usize,
    at: Point,
    /// The first segment between them that runs backwards.
    first: usize,
}

/// A moved outline. Segments have the numbers of their first points.
struct Outline {
    points: Ring,
    /// Segments that run against their edge, or lead across an opened corner.
    backwards: Vec<bool>,
    /// The point of the outline before it was moved that each point comes from.
    corner: Vec<usize>,
}

impl Outline {
    fn moved(ring: &[Point], ways: &[Vec2], opened: &[bool], by_mm: f64, step: f64) -> Option<Outline> {
        let room = ring.len() + ring.len() / 2 + 64;
        let mut made =
            Outline { points: Vec::with_capacity(room), backwards: Vec::new(), corner: Vec::with_capacity(room) };
        let mut before = *ways.last()?;
        for (i, (corner, after)) in ring.iter().zip(ways).enumerate() {
            if opened[i] && before.cross(*after) > 0.0 {
                made.backwards.resize(made.points.len(), false);
                made.backwards.push(true);
                made.points.extend([*corner + inward(before) * by_mm, *corner + inward(*after) * by_mm]);
            } else if !turn_corner(&mut made.points, *corner, before, *after, by_mm, step) {
                return None;
            }
            made.corner.resize(made.points.len(), i);
            before = *after;
        }
        let n = made.points.len();
        made.backwards.resize(n, false);
        for at in 0..n {
            let (from, to) = (made.corner[at], made.corner[(at + 1) % n]);
            if from != to && made.along(at).dot(ways[from]) <= 0.0 {
                made.backwards[at] = true;
            }
        }
        Some(made)
    }

    /// The same, begun in the middle of its longest segment, which no cut near by reaches.
    fn begun_within_its_longest(mut self) -> Option<Outline> {
        let length = |at: &usize| self.along(*at).hypot2();
        let forward = (0..self.points.len()).filter(|at| !self.backwards[*at]);
        let longest = forward.max_by(|a, b| length(a).total_cmp(&length(b)))?;
        let middle = self.points[longest].midpoint(self.end(longest));
        let first = (longest + 1) % self.points.len();
        self.points.rotate_left(first);
        self.backwards.rotate_left(first);
        self.corner.rotate_left(first);
        self.points.insert(0, middle);
        self.backwards.insert(0, false);
        self.corner.insert(0, *self.corner.last()?);
        Some(self)
    }

    fn end(&self, segment: usize) -> Point {
        self.points[(segment + 1) % self.points.len()]
    }

    fn along(&self, segment: usize) -> Vec2 {
        self.end(segment) - self.points[segment]
    }

    /// Cuts that take away every segment that runs backwards, one after the other along the outline.
    fn cuts(&self) -> Option<Vec<Cut>> {
        let mut cuts: Vec<Cut> = Vec::new();
        for at in (0..self.points.len()).filter(|at| self.backwards[*at]) {
            if cuts.last().is_some_and(|cut| at < cut.to) {
                continue;
            }
            let mut first = at;
            let cut = loop {
                if let Some(cut) = self.cut(first, at, cuts.last()) {
                    break cut;
                }
                // What is used up there may be so together with what was cut off before it.
                first = cuts.pop()?.first;
            };
            cuts.push(cut);
        }
        Some(cuts)
    }

    /// The outline without what is cut off.
    fn without(&self, cuts: &[Cut]) -> Ring {
        let mut left: Ring = Vec::with_capacity(self.points.len());
        let mut from = 0;
        for cut in cuts {
            left.extend(self.points.get(from..=cut.from).unwrap_or_default());
            left.push(cut.at);
            from = cut.to + 1;
        }
        left.extend(self.points.get(from..).unwrap_or_default());
        // It began in the middle of a segment.
        left.remove(0);
        left
    }

    /// The crossing nearest to segments `first` to `last`, by the number of segments cut off, that lies behind the cut before.
    fn cut(&self, first: usize, last: usize, before: Option<&Cut>) -> Option<Cut> {
        let low = before.map_or(0, |cut| cut.to);
        for apart in 0..2 * WINDOW {
            for back in apart.saturating_sub(WINDOW)..=apart.min(WINDOW) {
                let (Some(from), to) = (first.checked_sub(back + 1), last + 1 + apart - back) else { continue };
                if from < low || to >= self.points.len() || self.backwards[from] || self.backwards[to] {
                    continue;
                }
                let Some(at) = self.crossing(from, to) else { continue };
                let behind = |cut: &Cut| cut.to < from || (at - cut.at).dot(self.along(from)) > 0.0;
                if before.is_none_or(behind) {
                    return Some(Cut { from, to, at, first });
                }
            }
        }
        None
    }

    /// Where segment `to` crosses segment `from` from its right to its left.
    fn crossing(&self, from: usize, to: usize) -> Option<Point> {
        let (a, b) = (self.along(from), self.along(to));
        let turn = a.cross(b);
        if turn <= 0.0 {
            return None;
        }
        let between = self.points[to] - self.points[from];
        let (s, t) = (between.cross(b) / turn, between.cross(a) / turn);
        ((0.0..=1.0).contains(&s) && (0.0..=1.0).contains(&t)).then(|| self.points[from] + a * s)
    }

    /// The edge or point of the outline before it was moved that a segment comes from.
    fn source(&self, segment: usize, ring: &[Point]) -> [Point; 2] {
        let (of, next) = (self.corner[segment], self.corner[(segment + 1) % self.points.len()]);
        // Part of a round corner comes from its point alone.
        [ring[of], ring[next]]
    }

    /// Whether a loop winds round no place but the other way, places aside that are nearer than `by_mm` to an edge.
    ///
    /// It winds round a place as often as triangles to its segments do, from wherever they start: from its crossing, or from a used up corner.
    fn winds_back(&self, cut: &Cut, ring: &[Point], by_mm: f64) -> bool {
        let most = (by_mm * (1.0 + 1e-9)).powi(2);
        let sources = [cut.from, cut.to].map(|segment| self.source(segment, ring));
        let ends = |segment: usize| {
            let start = if segment == cut.from { cut.at } else { self.points[segment] };
            [start, if segment == cut.to { cut.at } else { self.end(segment) }]
        };
        [cut.at, ring[self.corner[cut.first]]].iter().any(|&tip| {
            (cut.from..=cut.to).all(|segment| {
                let [start, end] = ends(segment);
                let near = |[a, b]: &[Point; 2]| [tip, start, end].iter().all(|p| distance_sq(*p, *a, *b) <= most);
                // All that lies so near to an edge is convex.
                (start - tip).cross(end - tip) <= 0.0 || near(&self.source(segment, ring)) || sources.iter().any(near)
            })
        })
    }

    /// Whether all that lies to the left of both crossing segments is at least `by_mm` away from every edge that was cut off.
    fn keeps_clear(&self, cut: &Cut, ring: &[Point], ways: &[Vec2], by_mm: f64) -> bool {
        let unit = |v: Vec2| v / v.hypot2().sqrt();
        let (first, last) = (unit(self.along(cut.from)), unit(self.along(cut.to)));
        let least = by_mm * (1.0 - CHORDS);
        // What stands beside a segment's line, on its right, is as far from all that lies on its left.
        let right_of = |line: Vec2, p: Point| (p - cut.at).cross(line) >= least;
        (cut.from + 1..cut.to).all(|segment| {
            let of = self.corner[segment];
            if self.corner[(segment + 1) % self.points.len()] == of {
                // Part of a round or an opened corner: its point ends the edges beside it.
                return true;
            }
            let (start, end) = (ring[of], ring[(of + 1) % ring.len()]);
            let edge = ways[of];
            let beyond = edge.cross(cut.at - start) >= least && first.cross(edge) >= -1e-9 && edge.cross(last) >= -1e-9;
            beyond || [first, last].iter().any(|line| right_of(*line, start) && right_of(*line, end))
        })
    }
}

#[cfg(test)]
mod tests {
    use crate::pieces::inset::general;
    use crate::pieces::shift::shifted;
    use crate::shape::{Face, Point, Ring};

    /// A square of 10 mm whose corners are cut off, with by how much.
    fn blunt(off: f64) -> Face {
        let corners = [
            (off, 0.),
            (10. - off, 0.),
            (10., off),
            (10., 10. - off),
            (10. - off, 10.),
            (off, 10.),
            (0., 10. - off),
            (0., off),
        ];
        Face { outer: corners.map(Point::from).to_vec(), holes: vec![] }
    }

    #[test]
    fn a_corner_that_is_cut_off_by_less_than_the_width_comes_out_sharp() {
        // A face at 45° that lies `off` from both corners is used up where off < (2 − √2) · width.
        for (off, by) in [(0.02, 0.1), (0.05, 0.1), (0.0585, 0.1), (0.5, 1.0)] {
            let left = shifted(&blunt(off), by, 0.07).unwrap_or_else(|| panic!("{off} and {by}"));
            assert_eq!(left.outer.len(), 4, "{off}");
            let side = 10.0 - 2.0 * by;
            assert!((left.area_mm2() - side * side).abs() < 1e-9, "{off}: {}", left.area_mm2());
        }
        let left = shifted(&blunt(0.06), 0.1, 0.07).expect("no edge is used up");
        assert_eq!(left.outer.len(), 8);
    }

    /// Where a line runs into a bay: the corner's edges on the bay are shorter than the width. The point that is left lies so far from
    /// the line and so far from the bay.
    #[test]
    fn a_corner_between_a_line_and_a_bay_keeps_its_distance_from_both() {
        let (r, by) = (3.0, 0.15);
        let bay = (0..=180).map(|k| {
            let t = std::f64::consts::PI * f64::from(k) / 180.0;
            Point::new(5.0 + r * libm::cos(t), r * libm::sin(t))
        });
        let mut outer: Ring = vec![Point::new(0.0, 0.0)];
        outer.extend(bay.collect::<Vec<_>>().into_iter().rev());
        outer.extend([Point::new(10.0, 0.0), Point::new(10.0, 10.0), Point::new(0.0, 10.0)]);
        let left = shifted(&Face { outer, holes: vec![] }, by, 0.07).expect("cut off near by");
        // On the line y = by at the distance r + by from the middle of the bay: Pythagoras.
        let x = ((r + by) * (r + by) - by * by).sqrt();
        for corner in [Point::new(5.0 - x, by), Point::new(5.0 + x, by)] {
            let nearest = left.outer.iter().map(|p| (*p - corner).hypot2().sqrt()).fold(f64::INFINITY, f64::min);
            assert!(nearest < 1e-3, "{corner:?} is missed by {nearest}");
        }
    }

    /// Corners of every angle, each of a few points close together, against the general method.
    #[test]
    fn areas_are_those_of_the_general_method() {
        let mut state = 1_u64;
        let mut unit = || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 40) as f64 / (1_u64 << 24) as f64
        };
        let (mut quick, mut general_alone, mut cut) = (0, 0, 0);
        for round in 0..1500 {
            // Seen from the middle the points follow each other, so no two sides cross.
            let corners = 3 + (unit() * 9.0) as usize;
            let mut outer: Ring = Vec::new();
            for k in 0..corners {
                let turn = (k as f64 + 0.6 * unit()) * std::f64::consts::TAU / corners as f64;
                let out = 6.0 + 8.0 * unit();
                for close in 0..1 + (unit() * 6.0) as usize {
                    let (turn, out) = (turn + (close as f64 + 0.8 * unit()) * 0.006, out + 0.12 * unit());
                    outer.push(Point::new(out * libm::cos(turn), out * libm::sin(turn)));
                }
            }
            let face = Face { outer, holes: vec![] };
            if face.area_mm2() < 20.0 {
                continue;
            }
            let by = 0.05 + 0.25 * unit();
            let Some(found) = shifted(&face, by, 0.07) else {
                general_alone += 1;
                continue;
            };
            quick += 1;
            cut += usize::from(found.outer.len() < face.outer.len());
            let slow: f64 = general(&face, by).iter().map(Face::area_mm2).sum();
            let off = (found.area_mm2() - slow).abs();
            assert!(off < 2e-5 * slow, "{round}: {} and {slow}: {face:?} by {by}", found.area_mm2());
        }
        assert!(quick > 3 * general_alone && cut > 50, "{quick} {general_alone} {cut}");
    }
}
