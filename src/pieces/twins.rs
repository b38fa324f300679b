//! Pieces that are the same piece again: congruent by turning, never by flipping.
//!
//! Two outlines are compared about their centres of area. First what no turning changes: area, reach and the like. How far
//! an outline reaches in each direction is changed by turning only in where it begins, and by no more than two
//! outlines lie apart: that leaves few turns, mostly none. Each turn left is made better and judged by the
//! farthest that any point of one outline lies from the other.
//! Rule: handbook, figures, item 9.

use kurbo::Vec2;
use rayon::prelude::*;

use super::Piece;
use super::groups::Groups;
use crate::findings::{Finding, Kind};
use crate::inmost::thinned;
use crate::shape::{Face, Point, ring_length_mm, signed_area_mm2};

/// Nowhere may the outlines of twins lie farther apart, mm. Handbook, figures, item 9.
const APART_MM: f64 = 0.2;
/// Samples along the outer ring by which a turn is made better, and along each hole.
const SAMPLES: usize = 128;
const HOLE_SAMPLES: usize = 24;
/// Directions in which the reach is known: one a degree.
const DIRECTIONS: usize = 360;
/// Outlines of more points than this are thinned, and by how much at most, mm.
const MANY: usize = 2000;
const THINNING_MM: f64 = 0.002;
/// Waves of the reaches whose strength is compared.
const WAVES: usize = 9;
/// Pieces of a class that are met one after the other before the search goes on with the next piece.
const MOST_KNOWN: usize = 4096;
/// Turns that are judged: more than a ring of teeth has, so that a hole beside its middle finds its place.
const MOST_TURNS: usize = 48;

/// What is known of a piece before it is turned.
struct Print {
    /// What no turning changes by more than the outlines lie apart, mm: reach, least distance from the centre, mean of the
    /// reaches, and the strength of their first waves.
    fixed: [f64; 3 + WAVES],
    /// The first waves of the reaches.
    waves: [Vec2; WAVES],
    area_mm2: f64,
    length_mm: f64,
    holes: usize,
    /// How far the outer ring reaches in each direction, mm; then the same of all holes together, if there are any.
    reaches: Vec<f32>,
}

/// The outline of a piece about the centre of area of its outer ring; made for those alone that may have a twin.
struct Outline {
    rings: Vec<Vec<Vec2>>,
    /// Points at equal steps along the outer ring, and some on each hole.
    samples: Vec<Vec2>,
}

impl Outline {
    fn of(face: &Face) -> Outline {
        let rings = about_centre(face);
        let mut samples = sampled(&rings[0], SAMPLES);
        rings[1..].iter().for_each(|hole| samples.extend(sampled(hole, HOLE_SAMPLES)));
        Outline { rings, samples }
    }
}

/// All rings about the centre of area of the outer one.
fn about_centre(face: &Face) -> Vec<Vec<Vec2>> {
    let middle = centre(&face.outer);
    let about = |ring: &[Point]| ring.iter().map(|p| *p - middle).collect::<Vec<Vec2>>();
    let thin = |r: &[Point]| if r.len() > MANY { about(&thinned(r, THINNING_MM)) } else { about(r) };
    face.rings().map(|r| thin(r)).collect()
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

/// Unit vectors of all directions.
fn directions() -> Vec<Vec2> {
    (0..DIRECTIONS)
        .map(|i| {
            let (sin, cos) = libm::sincos(i as f64 * std::f64::consts::TAU / DIRECTIONS as f64);
            Vec2::new(cos, sin)
        })
        .collect()
}

/// How far a ring reaches in each direction. Only corners of its convex hull count, and they come in turn.
fn reaches<'a>(ring: impl Iterator<Item = &'a Vec2>, directions: &[Vec2]) -> Vec<f64> {
    let hull = super::small_parts::hull(ring.map(|v| v.to_point()));
    let mut at = 0;
    directions
        .iter()
        .enumerate()
        .map(|(i, d)| {
            if i == 0 {
                at = (0..hull.len()).max_by(|a, b| hull[*a].dot(*d).total_cmp(&hull[*b].dot(*d))).unwrap_or(0);
            }
            // One step on at least gains until the corner that reaches farthest.
            for _ in 0..hull.len() {
                let next = (at + 1) % hull.len();
                if hull[next].dot(*d) < hull[at].dot(*d) {
                    break;
                }
                at = next;
            }
            hull.get(at).map_or(0.0, |v| v.dot(*d))
        })
        .collect()
}

/// A wave in the reaches: its length is its strength, its direction where it begins.
fn wave(reaches: &[f64], directions: &[Vec2], times: usize) -> Vec2 {
    let turned = |i: usize| directions[i * times % DIRECTIONS];
    reaches.iter().enumerate().fold(Vec2::ZERO, |s, (i, r)| s + turned(i) * *r) / DIRECTIONS as f64
}

impl Print {
    fn of(face: &Face, directions: &[Vec2]) -> Print {
        let rings = about_centre(face);
        let reach = rings[0].iter().map(|v| v.hypot2()).fold(0.0, f64::max).sqrt();
        let ends = rings[0].iter().zip(rings[0].iter().cycle().skip(1));
        let least = ends.map(|(a, b)| off_segment_sq(Vec2::ZERO, *a, *b)).fold(f64::INFINITY, f64::min).sqrt();
        let length_mm = ring_length_mm(&face.outer);
        let mut all = reaches(rings[0].iter(), directions);
        let mean = all.iter().sum::<f64>() / DIRECTIONS as f64;
        let mut fixed = [0.0; 3 + WAVES];
        fixed[..3].copy_from_slice(&[reach, least, mean]);
        let mut waves = [Vec2::ZERO; WAVES];
        for (i, wave_i) in waves.iter_mut().enumerate() {
            *wave_i = wave(&all, directions, i + 1);
            fixed[3 + i] = wave_i.hypot2().sqrt();
        }
        if !face.holes.is_empty() {
            all.extend(reaches(rings[1..].iter().flatten(), directions));
        }
        Print {
            fixed,
            waves,
            area_mm2: signed_area_mm2(&face.outer),
            length_mm,
            holes: face.holes.len(),
            reaches: all.into_iter().map(|reach| reach as f32).collect(),
        }
    }

    /// Whether no turning could make the two alike.
    fn differs(&self, other: &Print) -> bool {
        (self.area_mm2 - other.area_mm2).abs() > area_room_mm2(self).max(area_room_mm2(other))
            || self.holes != other.holes
    }

    /// Calls `each` with the turns of `other`, in degrees, after which their strongest wave lies near enough: turning by a
    /// degree shifts a wave by as many degrees as it has crests, and like reaches have like waves.
    fn waves_agree(&self, other: &Print, mut each: impl FnMut(usize)) {
        let strength = |i: usize| self.fixed[3 + i].min(other.fixed[3 + i]);
        let strongest = (0..WAVES).max_by(|a, b| strength(*a).total_cmp(&strength(*b))).unwrap_or(0);
        let (a, b) = (self.waves[strongest], other.waves[strongest]);
        let crests = (strongest + 1) as f64;
        let (a2, b2) = (a.hypot2(), b.hypot2());
        let room = APART_MM + (a2.max(b2)).sqrt() * crests * std::f64::consts::PI / DIRECTIONS as f64 + 1e-3;
        let most = (a2 + b2 - room * room) / (2.0 * (a2 * b2).sqrt());
        if most.is_nan() || most <= -1.0 {
            (0..DIRECTIONS).for_each(each);
            return;
        }
        if most > 1.0 {
            return;
        }
        let per_degree = DIRECTIONS as f64 / std::f64::consts::TAU;
        let lead = libm::atan2(b.cross(a), b.dot(a)) / crests * per_degree;
        let half = libm::acos(most) / crests * per_degree;
        for crest in 0..=strongest {
            let middle = lead + DIRECTIONS as f64 * crest as f64 / crests;
            let (from, to) = ((middle - half).ceil() as i64, (middle + half).floor() as i64);
            (from..=to).for_each(|turn| each(turn.rem_euclid(DIRECTIONS as i64) as usize));
        }
    }

    /// Turns of `other`, in degrees, after which it reaches as far as this one in every direction, best first.
    fn turns(&self, other: &Print) -> Vec<usize> {
        // Between two whole degrees a reach changes by at most half a degree's turn of the farthest point.
        let room = APART_MM + self.fixed[0].max(other.fixed[0]) * (std::f64::consts::PI / DIRECTIONS as f64);
        let room = room as f32;
        let worst = |turn: usize| {
            let mut worst = 0.0_f32;
            // In strides, so that what differs shows soon.
            for i in (0..8).flat_map(|k| (k..DIRECTIONS).step_by(8)) {
                let of_outer = (self.reaches[(i + turn) % DIRECTIONS] - other.reaches[i]).abs();
                let of_holes =
                    match (self.reaches.get(DIRECTIONS + (i + turn) % DIRECTIONS), other.reaches.get(DIRECTIONS + i)) {
                        (Some(a), Some(b)) => (a - b).abs(),
                        _ => 0.0,
                    };
                worst = worst.max(of_outer).max(of_holes);
                if worst > room {
                    return None;
                }
            }
            Some(f64::from(worst))
        };
        let mut all = [f64::INFINITY; DIRECTIONS];
        let mut none = true;
        self.waves_agree(other, |turn| {
            if let Some(worst) = worst(turn) {
                (all[turn], none) = (worst, false);
            }
        });
        if none {
            return Vec::new();
        }
        let at = |i: usize| all[i % DIRECTIONS];
        // Of neighbouring turns the best will do: it is made better anyway.
        let mut found: Vec<(f64, usize)> = (0..DIRECTIONS)
            .filter(|&i| at(i).is_finite() && at(i) <= at(i + 1) && at(i) < at(i + DIRECTIONS - 1))
            .map(|i| (at(i), i))
            .collect();
        if found.is_empty() && at(0).is_finite() {
            // As far in every direction: a round piece.
            found = (0..DIRECTIONS).step_by(DIRECTIONS / MOST_TURNS).map(|i| (at(i), i)).collect();
        }
        found.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        found.into_iter().take(MOST_TURNS).map(|f| f.1).collect()
    }
}

/// By how much the area of a piece may differ from its twin's, mm².
fn area_room_mm2(print: &Print) -> f64 {
    APART_MM * (1.05 * print.length_mm + 1.0)
}

/// Points at equal steps along a ring.
fn sampled(ring: &[Vec2], count: usize) -> Vec<Vec2> {
    let ends = || ring.iter().zip(ring.iter().cycle().skip(1));
    let length_mm: f64 = ends().map(|(a, b)| (*b - *a).hypot2().sqrt()).sum();
    let step = length_mm / count as f64;
    let mut samples = Vec::with_capacity(count);
    let (mut next, mut gone) = (0.0, 0.0);
    for (a, b) in ends() {
        let d = (*b - *a).hypot2().sqrt();
        while samples.len() < count && next <= gone + d && d > 0.0 {
            samples.push(*a + (*b - *a) * ((next - gone) / d));
            next += step;
        }
        gone += d;
    }
    samples
}

/// The turn made better: steps by Gauss and Newton on the distances of the turned samples of `b` from the nearest edge of `a`.
/// Only every `stride`th sample is looked at.
fn refined(a: &Outline, b: &Outline, mut turn: Vec2, stride: usize) -> Vec2 {
    for _ in 0..8 {
        let (mut with, mut against) = (0.0, 0.0);
        for v in b.samples.iter().step_by(stride) {
            let p = turned(*v, turn);
            let foot = nearest_on(&a.rings, p);
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

/// The nearest place on an outline and the direction square to its edge there.
struct Foot {
    at: Vec2,
    normal: Vec2,
}

fn nearest_on(rings: &[Vec<Vec2>], p: Vec2) -> Foot {
    let (mut best, mut foot) = (f64::INFINITY, Foot { at: p, normal: Vec2::ZERO });
    for (a, b) in rings.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1))) {
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

/// Whether points here and there of `b`, turned, lie within `room` mm of an outline of `a`.
fn roughly_covered(a: &Outline, b: &Outline, turn: Vec2, room: f64) -> bool {
    b.samples.iter().step_by(5).all(|v| {
        let p = turned(*v, turn);
        let mut edges = a.rings.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
        edges.any(|(s, e)| off_segment_sq(p, *s, *e) <= room * room)
    })
}

/// Whether a piece is the other one turned, by about one of some turns; `reach_mm` is the other's.
fn alike(a: &Outline, b: &Outline, reach_mm: f64, mut turns: impl Iterator<Item = Vec2>) -> bool {
    // What a turn by whole degrees may be off, and what one made better by a few samples may.
    let degree_mm = reach_mm * (std::f64::consts::TAU / DIRECTIONS as f64);
    turns.any(|turn| {
        roughly_covered(a, b, turn, APART_MM + degree_mm) && {
            let turn = refined(a, b, turn, 7);
            roughly_covered(a, b, turn, APART_MM + 0.3 * degree_mm) && {
                let turn = refined(a, b, turn, 1);
                let back = Vec2::new(turn.x, -turn.y);
                covered(&a.rings, &b.rings, turn) && covered(&b.rings, &a.rings, back)
            }
        }
    })
}

/// Classes of congruent pieces with two members or more: whatever is linked by twins. Members in order, classes by their first.
pub fn classes(pieces: &[Piece]) -> Vec<Vec<usize>> {
    let directions = directions();
    let prints: Vec<Print> = pieces.par_iter().map(|p| Print::of(&p.face, &directions)).collect();
    let mut order: Vec<usize> = (0..pieces.len()).collect();
    order.sort_by(|a, b| prints[*a].fixed[0].total_cmp(&prints[*b].fixed[0]).then(a.cmp(b)));
    // Most pairs are told apart here: the numbers lie side by side.
    let fixed: Vec<[f64; 3 + WAVES]> = order.iter().map(|&i| prints[i].fixed).collect();
    let mut groups = Groups::new(pieces.len());
    // Of pieces as small as this no two can lie farther apart.
    let dust = order.partition_point(|&i| prints[i].fixed[0] <= APART_MM / 2.0);
    order[..dust].windows(2).for_each(|pair| groups.unite(pair[0], pair[1]));
    for (k, &i) in order.iter().enumerate() {
        let near = fixed[k + 1..].iter().take_while(|f| f[0] - fixed[k][0] <= APART_MM);
        let close = |f: &[f64; 3 + WAVES]| f.iter().zip(&fixed[k]).all(|(a, b)| (a - b).abs() <= APART_MM);
        let mut mine: Option<Outline> = None;
        let mut known = 0;
        for (_, &j) in near.zip(&order[k + 1..]).filter(|(f, _)| close(f)) {
            if groups.find(i) == groups.find(j) {
                known += 1;
                // On a board of dust or of one shape all pairs would be looked at; the last of those links to what follows.
                if known > MOST_KNOWN {
                    break;
                }
                continue;
            }
            known = 0;
            if prints[i].differs(&prints[j]) {
                continue;
            }
            let turns = prints[i].turns(&prints[j]);
            if turns.is_empty() {
                continue;
            }
            let (a, b) = (mine.get_or_insert_with(|| Outline::of(&pieces[i].face)), Outline::of(&pieces[j].face));
            if alike(a, &b, prints[j].fixed[0], turns.into_iter().map(|degrees| directions[degrees])) {
                groups.unite(i, j);
            }
        }
    }
    let mut members: Vec<(usize, usize)> = (0..pieces.len()).map(|i| (groups.find(i), i)).collect();
    members.sort_unstable();
    let mut classes: Vec<Vec<usize>> =
        members.chunk_by(|a, b| a.0 == b.0).map(|class| class.iter().map(|m| m.1).collect()).collect();
    classes.retain(|c| c.len() > 1);
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
