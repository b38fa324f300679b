//! Pieces that are the same piece again: congruent by turning, never by flipping.
//!
//! Two outlines are compared about their centres of area: first what no turning changes (area, reach, length), then the
//! distances from the centre along the outline propose turns, and each proposal is judged by the farthest that
//! any point of one outline lies from the other.
//! Rule: handbook, figures, item 9.

use kurbo::Vec2;
use rayon::prelude::*;

use super::Piece;
use crate::findings::{Finding, Kind};
use crate::shape::{Face, Point, ring_length_mm, signed_area_mm2};

/// Nowhere may the outlines of twins lie farther apart, mm. Handbook, figures, item 9.
const APART_MM: f64 = 0.2;
/// Samples along the outline from which turns are proposed.
const SAMPLES: usize = 128;
/// Proposals that are judged.
const PROPOSALS: usize = 6;

/// What is known of a piece before it is turned.
struct Print {
    area_mm2: f64,
    length_mm: f64,
    reach_mm: f64,
    holes: usize,
    /// All rings about the centre of area of the outer ring.
    rings: Vec<Vec<Vec2>>,
    /// Points at equal steps along the outer ring, about the centre.
    samples: Vec<Vec2>,
}

fn centre(ring: &[Point]) -> Point {
    let origin = ring[0];
    let (mut sum, mut twice) = (Vec2::ZERO, 0.0);
    for (a, b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
        let (a, b) = (*a - origin, *b - origin);
        let cross = a.cross(b);
        sum += (a + b) * cross;
        twice += cross;
    }
    if twice == 0.0 { origin } else { origin + sum / (3.0 * twice) }
}

impl Print {
    fn of(face: &Face) -> Print {
        let middle = centre(&face.outer);
        let rings: Vec<Vec<Vec2>> = face.rings().map(|r| r.iter().map(|p| *p - middle).collect()).collect();
        let reach = rings[0].iter().map(|v| v.hypot2()).fold(0.0, f64::max).sqrt();
        let length_mm = ring_length_mm(&face.outer);
        let samples = sampled(&rings[0], length_mm);
        Print {
            area_mm2: signed_area_mm2(&face.outer),
            length_mm,
            reach_mm: reach,
            holes: face.holes.len(),
            rings,
            samples,
        }
    }

    /// Whether no turning could make the two alike.
    fn differs(&self, other: &Print) -> bool {
        self.holes != other.holes
            || (self.area_mm2 - other.area_mm2).abs() > APART_MM * self.length_mm.max(other.length_mm)
            || (self.reach_mm - other.reach_mm).abs() > 2.0 * APART_MM
            || (self.length_mm - other.length_mm).abs() > 0.05 * self.length_mm + 2.0
    }
}

fn sampled(ring: &[Vec2], length_mm: f64) -> Vec<Vec2> {
    let step = length_mm / SAMPLES as f64;
    let mut samples = Vec::with_capacity(SAMPLES);
    let (mut next, mut gone) = (0.0, 0.0);
    for (a, b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
        let d = (*b - *a).hypot2().sqrt();
        while samples.len() < SAMPLES && next <= gone + d && d > 0.0 {
            samples.push(*a + (*b - *a) * ((next - gone) / d));
            next += step;
        }
        gone += d;
    }
    while samples.len() < SAMPLES {
        samples.push(ring[0]);
    }
    samples
}

/// The turn (cosine, sine) that lays the samples of `b`, `shift` steps on, best onto those of `a`, and how badly.
fn turn_at(a: &Print, b: &Print, shift: usize) -> (Vec2, f64) {
    let pairs = || (0..SAMPLES).map(|i| (a.samples[i], b.samples[(i + shift) % SAMPLES]));
    let (dot, cross) = pairs().fold((0.0, 0.0), |(d, c), (p, q)| (d + q.dot(p), c + q.cross(p)));
    let length = (dot * dot + cross * cross).sqrt();
    let turn = if length > 0.0 { Vec2::new(dot, cross) / length } else { Vec2::new(1.0, 0.0) };
    let badness = pairs().map(|(p, q)| (turned(q, turn) - p).hypot2()).sum();
    (turn, badness)
}

/// The turn made better: steps by Gauss and Newton on the distances of the turned samples of `b` from the nearest edge of `a`.
fn refined(a: &Print, b: &Print, mut turn: Vec2) -> Vec2 {
    for _ in 0..8 {
        let (mut with, mut against) = (0.0, 0.0);
        for v in &b.samples {
            let p = turned(*v, turn);
            let foot = nearest_on(&a.rings[0], p);
            let off = p - foot.at;
            // How a small turn moves the sample across that edge.
            let across = foot.normal.dot(Vec2::new(-p.y, p.x));
            with += foot.normal.dot(off) * across;
            against += across * across;
        }
        if against == 0.0 {
            break;
        }
        let step = -with / against;
        turn = turned(turn, Vec2::new(libm::cos(step), libm::sin(step)));
        if step.abs() < 1e-9 {
            break;
        }
    }
    turn
}

/// The nearest place on a ring and the direction square to its edge there.
struct Foot {
    at: Vec2,
    normal: Vec2,
}

fn nearest_on(ring: &[Vec2], p: Vec2) -> Foot {
    let (mut best, mut foot) = (f64::INFINITY, Foot { at: p, normal: Vec2::ZERO });
    for (a, b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
        let (along, to) = (*b - *a, p - *a);
        let length_sq = along.hypot2();
        if length_sq == 0.0 {
            continue;
        }
        let at = *a + along * (to.dot(along) / length_sq).clamp(0.0, 1.0);
        let off_sq = (p - at).hypot2();
        if off_sq < best {
            (best, foot) = (off_sq, Foot { at, normal: Vec2::new(-along.y, along.x) / length_sq.sqrt() });
        }
    }
    foot
}

fn turned(v: Vec2, turn: Vec2) -> Vec2 {
    Vec2::new(v.x * turn.x - v.y * turn.y, v.x * turn.y + v.y * turn.x)
}

/// Whether every point of `b`, turned, lies within the limit of an outline of `a`.
fn covered(a: &[Vec<Vec2>], b: &[Vec<Vec2>], turn: Vec2) -> bool {
    // Both outlines run the same way, so the nearest edge is sought from the last one on.
    b.iter().all(|ring| {
        let mut last = (0usize, 0usize);
        ring.iter().all(|v| {
            let p = turned(*v, turn);
            let near =
                |r: usize, i: usize| off_segment_sq(p, a[r][i], a[r][(i + 1) % a[r].len()]) <= APART_MM * APART_MM;
            let n = a[last.0].len();
            let onward = (0..n.min(24)).map(|k| (last.0, (last.1 + k) % n)).find(|&(r, i)| near(r, i));
            let found = onward.or_else(|| {
                a.iter()
                    .enumerate()
                    .flat_map(|(r, ring)| (0..ring.len()).map(move |i| (r, i)))
                    .find(|&(r, i)| near(r, i))
            });
            if let Some(place) = found {
                last = place;
            }
            found.is_some()
        })
    })
}

fn off_segment_sq(p: Vec2, a: Vec2, b: Vec2) -> f64 {
    let (along, to) = (b - a, p - a);
    let t = if along.hypot2() > 0.0 { (to.dot(along) / along.hypot2()).clamp(0.0, 1.0) } else { 0.0 };
    (to - along * t).hypot2()
}

fn alike(a: &Print, b: &Print) -> bool {
    if a.differs(b) {
        return false;
    }
    let mut proposals: Vec<(Vec2, f64)> = (0..SAMPLES).map(|shift| turn_at(a, b, shift)).collect();
    proposals.sort_by(|x, y| x.1.total_cmp(&y.1));
    // Steps differ by up to half a sample's length; far worse than that is another shape.
    let step_mm = a.length_mm / SAMPLES as f64;
    let worth = (step_mm + 2.0 * APART_MM) * (step_mm + 2.0 * APART_MM) * SAMPLES as f64;
    proposals.iter().take(PROPOSALS).filter(|p| p.1 <= worth).any(|&(turn, _)| {
        let turn = refined(a, b, turn);
        let back = Vec2::new(turn.x, -turn.y);
        covered(&a.rings, &b.rings, turn) && covered(&b.rings, &a.rings, back)
    })
}

/// Classes of congruent pieces with two members or more: whatever is linked by twins. Members in order, classes by their first.
pub fn classes(pieces: &[Piece]) -> Vec<Vec<usize>> {
    let prints: Vec<Print> = pieces.par_iter().map(|p| Print::of(&p.face)).collect();
    let mut order: Vec<usize> = (0..pieces.len()).collect();
    order.sort_by(|a, b| prints[*a].area_mm2.total_cmp(&prints[*b].area_mm2).then(a.cmp(b)));
    let mut classes: Vec<Vec<usize>> = Vec::new();
    for &i in &order {
        // A class is near if its last member, the largest in area, is; any member may be the link.
        let linked: Vec<usize> = (0..classes.len())
            .rev()
            .take_while(|&c| {
                let largest = classes[c].last().map_or(f64::NEG_INFINITY, |&m| prints[m].area_mm2);
                prints[i].area_mm2 - largest <= APART_MM * prints[i].length_mm * 4.0
            })
            .filter(|&c| classes[c].iter().take(4).any(|&m| alike(&prints[m], &prints[i])))
            .collect();
        match linked.split_first() {
            None => classes.push(vec![i]),
            Some((&into, others)) => {
                classes[into].push(i);
                for &c in others {
                    let members = std::mem::take(&mut classes[c]);
                    classes[into].extend(members);
                }
                let joined = classes.remove(into);
                classes.retain(|c| !c.is_empty());
                classes.push(joined);
            }
        }
    }
    classes.retain(|c| c.len() > 1);
    for c in &mut classes {
        c.sort_unstable();
    }
    classes.sort();
    classes
}

/// One `twins` finding for each class, at its first piece.
pub fn findings(pieces: &[Piece], classes: &[Vec<usize>]) -> Vec<Finding> {
    let told = |class: &Vec<usize>| {
        let first = pieces.get(*class.first()?)?;
        let numbers: Vec<String> = class.iter().take(12).map(|i| (i + 1).to_string()).collect();
        let more = if class.len() > 12 { ", …" } else { "" };
        Some(Finding::new(
            Kind::Twins,
            Some(centre(&first.face.outer)),
            format!("{} pieces have the same outline when turned: {}{more}.", class.len(), numbers.join(", ")),
            "Buyers may lay either in either place. Leave it so if that is meant; else bend one of their lines.",
        ))
    };
    classes.iter().filter_map(told).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn piece(points: Vec<Point>) -> Piece {
        let face = Face { outer: points, holes: vec![] };
        Piece { cut: vec![face.clone()], face, net_face: 0, part: 0, edge: false, novelty: None }
    }

    /// An outline without any symmetry, turned by `degrees`, moved, and begun at another corner.
    fn again(degrees: f64, first: usize, flip: bool, noise_mm: f64) -> Piece {
        let corners =
            [(0., 0.), (31., 2.), (30., 11.), (24., 12.), (23., 19.), (31., 20.), (29., 33.), (8., 30.), (-2., 17.)];
        let (sin, cos) = (libm::sin(degrees.to_radians()), libm::cos(degrees.to_radians()));
        let mut points: Vec<Point> = corners
            .iter()
            .enumerate()
            .map(|(i, &(x, y))| {
                let x = (if flip { -x } else { x }) + noise_mm * if i % 2 == 0 { 1.0 } else { -1.0 };
                Point::new(x * cos - y * sin + 200.0, x * sin + y * cos + 90.0)
            })
            .collect();
        if flip {
            points.reverse();
        }
        points.rotate_left(first);
        piece(points)
    }

    #[test]
    fn turned_pieces_are_twins_and_flipped_ones_are_not() {
        let pieces = [
            again(0.0, 0, false, 0.0),
            again(77.7, 4, false, 0.05),
            again(180.0, 7, false, 0.0),
            again(30.0, 2, true, 0.0),
        ];
        assert_eq!(classes(&pieces), vec![vec![0, 1, 2]]);
    }

    #[test]
    fn pieces_half_a_millimetre_apart_are_no_twins() {
        assert!(classes(&[again(0.0, 0, false, 0.0), again(45.0, 3, false, 0.5)]).is_empty());
    }

    #[test]
    fn long_rectangles_are_twins_wherever_their_outline_begins() {
        let bar = |turn: bool, first: usize| {
            let mut p: Vec<Point> = [(0., 0.), (50., 0.), (50., 20.), (0., 20.)]
                .map(|(x, y)| if turn { Point::new(-y, x) } else { Point::new(x, y) })
                .to_vec();
            p.rotate_left(first);
            piece(p)
        };
        assert_eq!(classes(&[bar(false, 0), bar(true, 1), bar(false, 3)]), vec![vec![0, 1, 2]]);
    }
}
