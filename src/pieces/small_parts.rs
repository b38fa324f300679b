//! Whether a piece fits the small-parts cylinder, as a plate of the board's thickness, in any position.
//!
//! The cavity is convex, so a piece fits if its convex hull does, and only the hull's corners on both faces of the plate
//! matter. Quick rules settle most pieces; the rest are turned through all positions. Doubt counts as "fits": a wrong "too
//! big" is the harmful mistake.
//! Source: 16 CFR 1501.4(a), (b)(1) and figure 1; the rule's inches govern. Handbook, figures, item 14.

use kurbo::Vec2;
use rayon::prelude::*;

use super::Piece;
use crate::shape::{Extent, Point, ring_sides};

/// Inner diameter, mm: 1.25 in.
pub const DIAMETER_MM: f64 = 1.25 * 25.4;
/// Depth at the shallow side, mm: 1 in.
pub const SHALLOW_MM: f64 = 25.4;
/// Depth at the deep side, mm: 2.25 in; the floor between is a slanted plane.
pub const DEEP_MM: f64 = 2.25 * 25.4;
const RADIUS_MM: f64 = DIAMETER_MM / 2.0;
/// Depth in the axis, mm. The slope of the floor is exactly 1.
const AXIS_DEPTH_MM: f64 = (SHALLOW_MM + DEEP_MM) / 2.0;
/// A piece that misses by no more than this is counted, mm.
const DOUBT_MM: f64 = 0.05;
/// Corners of the hull that are kept; dropping corners only makes a piece smaller.
const CORNERS: usize = 40;

/// Corners of the hull that are looked at in pairs.
const MANY: usize = 400;

/// What the cylinder says of a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fit {
    /// Fits entirely.
    Fits,
    /// No position was found, but it lacks so little that it counts as fitting.
    Borderline,
    /// Does not fit.
    TooBig,
}

/// How many pieces count as small parts.
pub fn count(pieces: &[Piece], thickness_mm: f64) -> usize {
    let fits = |p: &Piece| {
        // A piece that the kerf broke up counts by its largest part.
        let part = p.cut.iter().max_by(|a, b| a.area_mm2().total_cmp(&b.area_mm2()));
        part.is_some_and(|part| fit(&part.outer, thickness_mm) != Fit::TooBig)
    };
    pieces.par_iter().filter(|p| fits(p)).count()
}

/// Whether a plate of this outline and thickness, mm, fits the cylinder.
pub fn fit(outline: &[Point], thickness_mm: f64) -> Fit {
    // The box of most pieces goes in on edge, and so do they.
    if let Some(e) = Extent::of(outline) {
        let (long, short) = (e.width_mm().max(e.height_mm()), e.width_mm().min(e.height_mm()));
        if goes_on_edge(short, long, thickness_mm) {
            return Fit::Fits;
        }
    }
    let hull = hull(outline.iter().copied());
    if hull.len() < 3 {
        return Fit::Fits;
    }
    let circle = circle_radius(&hull);
    // With fewer corners a piece only seems smaller.
    let few = hull.len().div_ceil(MANY);
    let hull: Vec<Vec2> = hull.into_iter().step_by(few).collect();
    let (farthest, width) = (farthest(&hull), least_width(&hull));
    let line = (farthest * farthest + thickness_mm * thickness_mm).sqrt();
    let longest = (DIAMETER_MM * DIAMETER_MM + DEEP_MM * DEEP_MM).sqrt();
    if (2.0 * circle <= DIAMETER_MM && thickness_mm <= SHALLOW_MM) || on_edge(&hull, thickness_mm) {
        Fit::Fits
    } else if width > DIAMETER_MM || line > longest {
        Fit::TooBig
    } else {
        let lacking = search(&thinned(hull), thickness_mm);
        match lacking {
            g if g <= 0.0 => Fit::Fits,
            g if g <= DOUBT_MM => Fit::Borderline,
            _ => Fit::TooBig,
        }
    }
}

/// Convex hull (Andrew 1979) as vectors.
pub(super) fn hull(outline: impl IntoIterator<Item = Point>) -> Vec<Vec2> {
    let mut points: Vec<Vec2> = outline.into_iter().map(|p| p.to_vec2()).collect();
    drop_inner(&mut points);
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    points.dedup();
    let half = |points: &mut dyn Iterator<Item = Vec2>| {
        let mut side: Vec<Vec2> = Vec::new();
        for p in points {
            while side.len() > 1 && (side[side.len() - 1] - side[side.len() - 2]).cross(p - side[side.len() - 1]) <= 0.0
            {
                side.pop();
            }
            side.push(p);
        }
        side.pop();
        side
    };
    let mut all = half(&mut points.iter().copied());
    all.extend(half(&mut points.iter().rev().copied()));
    all
}

/// Leaves out points inside the octagon of those that lie farthest in eight directions (Akl and Toussaint 1978).
fn drop_inner(points: &mut Vec<Vec2>) {
    const WAYS: [Vec2; 8] = [
        Vec2::new(1.0, 0.0),
        Vec2::new(1.0, 1.0),
        Vec2::new(0.0, 1.0),
        Vec2::new(-1.0, 1.0),
        Vec2::new(-1.0, 0.0),
        Vec2::new(-1.0, -1.0),
        Vec2::new(0.0, -1.0),
        Vec2::new(1.0, -1.0),
    ];
    let Some(&first) = points.first() else { return };
    let mut farthest = [first; 8];
    for p in points.iter() {
        for (far, way) in farthest.iter_mut().zip(WAYS) {
            if p.dot(way) > far.dot(way) {
                *far = *p;
            }
        }
    }
    let mut sides = [(first, Vec2::ZERO); 8];
    for (i, side) in sides.iter_mut().enumerate() {
        *side = (farthest[i], farthest[(i + 1) % 8] - farthest[i]);
    }
    // A side of no length, where one point is farthest twice, rules nothing in or out.
    points.retain(|p| sides.iter().any(|(from, along)| *along != Vec2::ZERO && along.cross(*p - *from) <= 0.0));
}

/// At most [`CORNERS`] corners of a hull, without those whose loss changes least.
fn thinned(mut all: Vec<Vec2>) -> Vec<Vec2> {
    while all.len() > CORNERS {
        let n = all.len();
        let loss = |i: usize| (all[i] - all[(i + n - 1) % n]).cross(all[(i + 1) % n] - all[i]).abs();
        let least = (0..n).min_by(|a, b| loss(*a).total_cmp(&loss(*b))).unwrap_or(0);
        all.remove(least);
    }
    all
}

fn farthest(hull: &[Vec2]) -> f64 {
    let pairs = hull.iter().enumerate().flat_map(|(i, a)| hull[i + 1..].iter().map(move |b| (*a - *b).hypot2()));
    pairs.fold(0.0, f64::max).sqrt()
}

/// Extent of the hull along a unit direction.
fn extent(hull: &[Vec2], along: Vec2) -> f64 {
    let (lo, hi) =
        hull.iter().map(|v| v.dot(along)).fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), d| (l.min(d), h.max(d)));
    hi - lo
}

fn edge_normals(hull: &[Vec2]) -> impl Iterator<Item = Vec2> + '_ {
    ring_sides(&hull).filter_map(|(a, b)| {
        let d = *b - *a;
        let length = d.hypot2().sqrt();
        (length > 0.0).then(|| Vec2::new(-d.y, d.x) / length)
    })
}

/// The least distance of parallel lines that enclose the hull: reached on one of its edges.
fn least_width(hull: &[Vec2]) -> f64 {
    edge_normals(hull).map(|n| extent(hull, n)).fold(f64::INFINITY, f64::min)
}

/// Radius of the smallest circle round the corners of a hull (Welzl 1991, one corner after the other).
fn circle_radius(points: &[Vec2]) -> f64 {
    // A hair of room, so that the corners which make the circle lie inside it.
    let inside = |c: &(Vec2, f64), p: &Vec2| (*p - c.0).hypot2() <= c.1 * (1.0 + 1e-12);
    let of_two = |a: Vec2, b: Vec2| ((a + b) / 2.0, (a - b).hypot2() / 4.0);
    // Out of their order along the hull, in which each would lie outside the circle of those before.
    let n = points.len();
    let stride = (0..).map(|k| (n * 5 / 8).max(1) + k).find(|s| gcd(*s, n) == 1).unwrap_or(1);
    let points: Vec<Vec2> = (0..n).map(|i| points[i * stride % n]).collect();
    let mut circle = (points[0], 0.0);
    for (i, a) in points.iter().enumerate() {
        if inside(&circle, a) {
            continue;
        }
        circle = (*a, 0.0);
        for (j, b) in points[..i].iter().enumerate() {
            if inside(&circle, b) {
                continue;
            }
            circle = of_two(*a, *b);
            for c in &points[..j] {
                if !inside(&circle, c) {
                    circle = of_three(*a, *b, *c);
                }
            }
        }
    }
    circle.1.sqrt()
}

fn gcd(a: usize, b: usize) -> usize {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// Centre and squared radius of the circle through three points.
fn of_three(a: Vec2, b: Vec2, c: Vec2) -> (Vec2, f64) {
    let (u, v) = (b - a, c - a);
    let twice = 2.0 * u.cross(v);
    if twice == 0.0 {
        return (a, f64::INFINITY);
    }
    let off = Vec2::new(v.y * u.hypot2() - u.y * v.hypot2(), u.x * v.hypot2() - v.x * u.hypot2()) / twice;
    (a + off, off.hypot2())
}

/// The plate on edge, its long side across the slant, pushed to the deep side.
fn on_edge(hull: &[Vec2], thickness_mm: f64) -> bool {
    let turn = |d: u32| f64::from(d).to_radians();
    let way = |t: f64| Vec2::new(libm::cos(t), libm::sin(t));
    // A few turns settle most pieces.
    let few = (0..180).step_by(15).map(turn).map(way);
    let all = (0..180).map(turn).map(way);
    few.chain(edge_normals(hull)).chain(all).any(|across| {
        [across, Vec2::new(-across.y, across.x)].into_iter().any(|n| {
            let (w, l) = (extent(hull, n), extent(hull, Vec2::new(-n.y, n.x)));
            goes_on_edge(w, l, thickness_mm)
        })
    })
}

/// Whether a plate so wide and so long goes in on edge, its width across.
fn goes_on_edge(w: f64, l: f64, thickness_mm: f64) -> bool {
    w * w + thickness_mm * thickness_mm <= DIAMETER_MM * DIAMETER_MM
        && l <= AXIS_DEPTH_MM + (RADIUS_MM * RADIUS_MM - w * w / 4.0).max(0.0).sqrt() - thickness_mm
}

/// A position: three angles and the shift across the axis.
type Pose = [f64; 5];

/// By how much a plate in this position breaks through wall or floor, mm; at most 0 where it fits.
fn lacking(hull: &[Vec2], thickness_mm: f64, pose: &Pose) -> f64 {
    let [alpha, phi, psi, a, b] = *pose;
    let (sa, ca) = (libm::sin(alpha), libm::cos(alpha));
    let (sp, cp) = (libm::sin(phi), libm::cos(phi));
    let (ss, cs) = (libm::sin(psi), libm::cos(psi));
    let (mut top, mut floor, mut wall) = (f64::INFINITY, f64::NEG_INFINITY, 0.0f64);
    for v in hull {
        let (u, w) = (v.x * ca + v.y * sa, -v.x * sa + v.y * ca);
        for n in [0.0, thickness_mm] {
            let (y, z) = (w * cp - n * sp, w * sp + n * cp);
            let (x, y) = (u * cs - y * ss, u * ss + y * cs);
            top = top.min(z);
            floor = floor.max(z - x);
            wall = wall.max((x + a) * (x + a) + (y + b) * (y + b));
        }
    }
    // The plate hangs from the rim: its highest corner at z = 0, and the floor z − x = K below it.
    let least_a = floor - top - AXIS_DEPTH_MM;
    (wall.sqrt() - RADIUS_MM).max((least_a - a) / std::f64::consts::SQRT_2)
}

/// The least that is lacking over all positions, mm: a grid of angles, then descents from the best of it.
fn search(hull: &[Vec2], thickness_mm: f64) -> f64 {
    let middle = hull.iter().fold(Vec2::ZERO, |s, p| s + *p) / hull.len() as f64;
    let hull: Vec<Vec2> = hull.iter().map(|p| *p - middle).collect();
    let mut starts: Vec<(f64, Pose)> = Vec::new();
    let step = std::f64::consts::PI / 12.0;
    let edges = edge_normals(&hull).map(|n| libm::atan2(n.y, n.x)).collect::<Vec<_>>();
    let steep = edges.iter().flat_map(|&alpha| (0..4).map(move |q| (alpha, 6.0 * step, f64::from(q) * 6.0 * step)));
    let grid = (0..24).flat_map(|i| (0..7).flat_map(move |j| (0..24).map(move |k| (i, j, k))));
    let even = grid.map(|(i, j, k)| (f64::from(i) * step, f64::from(j) * step, f64::from(k) * step));
    for (alpha, phi, psi) in steep.chain(even) {
        let pose = placed(&hull, thickness_mm, [alpha, phi, psi, 0.0, 0.0]);
        starts.push((lacking(&hull, thickness_mm, &pose), pose));
    }
    starts.sort_by(|x, y| x.0.total_cmp(&y.0));
    let mut best = f64::INFINITY;
    for (_, pose) in starts.into_iter().take(16) {
        best = best.min(descend(&hull, thickness_mm, pose));
        if best <= 0.0 {
            break;
        }
    }
    best
}

/// A pose with its shift set to the middle of the plate's shadow, then as far down the slant as the floor asks.
fn placed(hull: &[Vec2], thickness_mm: f64, mut pose: Pose) -> Pose {
    let mut step = 8.0;
    let mut best = lacking(hull, thickness_mm, &pose);
    while step > 0.2 {
        let moved = [(step, 0.0), (-step, 0.0), (0.0, step), (0.0, -step)]
            .map(|(a, b)| [pose[0], pose[1], pose[2], pose[3] + a, pose[4] + b])
            .map(|p| (lacking(hull, thickness_mm, &p), p));
        match moved.into_iter().min_by(|x, y| x.0.total_cmp(&y.0)) {
            Some((less, to)) if less < best => (best, pose) = (less, to),
            _ => step /= 2.0,
        }
    }
    pose
}

/// Nelder and Mead's simplex (1965), started anew where it ended until it gains nothing: the measure has edges on which
/// one run may stall.
fn descend(hull: &[Vec2], thickness_mm: f64, start: Pose) -> f64 {
    let measure = |p: &Pose| lacking(hull, thickness_mm, p);
    let (mut from, mut best) = (start, measure(&start));
    for round in 0..8 {
        let size = [0.12, 0.05, 0.2, 0.02][round % 4];
        let (to, less) = simplex(&measure, from, size);
        let gain = best - less;
        if less < best {
            (from, best) = (to, less);
        }
        if best <= 0.0 || (round >= 3 && gain < 1e-4) {
            break;
        }
    }
    best
}

fn simplex(measure: &dyn Fn(&Pose) -> f64, start: Pose, size: f64) -> (Pose, f64) {
    let mut corners: Vec<(f64, Pose)> = (0..6)
        .map(|i| {
            let mut p = start;
            if i > 0 {
                p[i - 1] += if i <= 3 { size } else { size * 10.0 };
            }
            (measure(&p), p)
        })
        .collect();
    let blend = |a: &Pose, b: &Pose, t: f64| -> Pose { std::array::from_fn(|i| a[i] + (b[i] - a[i]) * t) };
    for _ in 0..260 {
        corners.sort_by(|x, y| x.0.total_cmp(&y.0));
        if corners[0].0 <= 0.0 || corners[5].0 - corners[0].0 < 1e-6 {
            break;
        }
        let middle: Pose = std::array::from_fn(|i| corners[..5].iter().map(|c| c.1[i]).sum::<f64>() / 5.0);
        let worst = corners[5];
        let mut to = blend(&worst.1, &middle, 2.0);
        let mut value = measure(&to);
        if value < corners[0].0 {
            let farther = blend(&worst.1, &middle, 3.0);
            let there = measure(&farther);
            if there < value {
                (to, value) = (farther, there);
            }
        } else if value >= corners[4].0 {
            to = blend(&worst.1, &middle, 0.5);
            value = measure(&to);
        }
        if value < worst.0 {
            corners[5] = (value, to);
        } else {
            let first = corners[0].1;
            for c in &mut corners[1..] {
                c.1 = blend(&first, &c.1, 0.5);
                c.0 = measure(&c.1);
            }
        }
    }
    corners.sort_by(|x, y| x.0.total_cmp(&y.0));
    (corners[0].1, corners[0].0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(serde::Deserialize)]
    struct Published {
        piece: Vec<Plate>,
    }
    #[derive(serde::Deserialize)]
    struct Plate {
        shape: String,
        #[serde(default)]
        outline_mm: Vec<[f64; 2]>,
        /// A disc instead of an outline.
        diameter_mm: Option<f64>,
        thickness_mm: f64,
        fits: bool,
    }

    /// 24 plates whose answer was found by another method: a seven-variable constrained optimiser with 20 to 250 random starts.
    #[test]
    fn plates_fit_as_an_independent_search_found() {
        let book: Published =
            toml::from_str(include_str!("../../tests/reference/cylinder.toml")).expect("the reference file reads");
        assert!(book.piece.len() >= 24, "only {} plates", book.piece.len());
        let wrong: Vec<String> = book
            .piece
            .iter()
            .filter(|p| {
                let disc = |d: f64| {
                    (0..720)
                        .map(move |i| f64::from(i).to_radians() / 2.0)
                        .map(move |t| [d / 2.0 * libm::cos(t), d / 2.0 * libm::sin(t)])
                };
                let corners: Vec<[f64; 2]> = p.diameter_mm.map_or(p.outline_mm.clone(), |d| disc(d).collect());
                let outline: Vec<Point> = corners.iter().map(|v| Point::new(v[0], v[1])).collect();
                let turned: Vec<Point> =
                    outline.iter().map(|q| Point::new(q.x * 0.6 - q.y * 0.8 + 500.0, q.x * 0.8 + q.y * 0.6)).collect();
                [outline, turned].iter().any(|o| (fit(o, p.thickness_mm) != Fit::TooBig) != p.fits)
            })
            .map(|p| format!("{} × {} mm", p.shape, p.thickness_mm))
            .collect();
        assert!(wrong.is_empty(), "{wrong:?}");
    }
}
