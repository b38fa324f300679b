//! Whether a piece fits the small-parts cylinder, as a plate of the board's thickness, in any position.
//!
//! The cavity is convex, so a piece fits if its convex hull does, and only the hull's corners on both faces of the plate
//! matter. Quick rules settle most pieces; the rest are turned through all positions. Doubt counts as "fits": a wrong "too
//! big" is the harmful mistake.
//! Source: 16 CFR 1501.4(a), (b)(1) and figure 1; the rule's inches govern. Handbook, figures, item 14.

use kurbo::Vec2;
use rayon::prelude::*;

use super::Piece;
use super::hull::{circle_radius, edge_normals, extent, farthest, hull, least_width, thinned};
use crate::shape::{Extent, Point};

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
/// Positions of the grid from which the best is sought.
const STARTS: usize = 16;
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
        let lacking = search(&thinned(hull, CORNERS), thickness_mm);
        match lacking {
            g if g <= 0.0 => Fit::Fits,
            g if g <= DOUBT_MM => Fit::Borderline,
            _ => Fit::TooBig,
        }
    }
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

/// A plate turned by three angles, its shadow seen along the axis.
struct Turned {
    /// Corners of both faces.
    shadow: Vec<Vec2>,
    /// How far the plate must be shifted up the slant, mm, for the floor to let it hang from the rim: its highest corner at
    /// z = 0, and the floor z − x = K below it.
    least_a: f64,
}

impl Turned {
    fn new() -> Turned {
        Turned { shadow: Vec::new(), least_a: 0.0 }
    }

    /// Turns the plate to these angles.
    fn turn(&mut self, hull: &[Vec2], thickness_mm: f64, [alpha, phi, psi]: [f64; 3]) {
        let ((sa, ca), (sp, cp), (ss, cs)) = (libm::sincos(alpha), libm::sincos(phi), libm::sincos(psi));
        let (mut top, mut floor) = (f64::INFINITY, f64::NEG_INFINITY);
        self.shadow.clear();
        for v in hull {
            let (u, w) = (v.x * ca + v.y * sa, -v.x * sa + v.y * ca);
            for n in [0.0, thickness_mm] {
                let (y, z) = (w * cp - n * sp, w * sp + n * cp);
                let (x, y) = (u * cs - y * ss, u * ss + y * cs);
                top = top.min(z);
                floor = floor.max(z - x);
                self.shadow.push(Vec2::new(x, y));
            }
        }
        self.least_a = floor - top - AXIS_DEPTH_MM;
    }

    /// By how much the plate, shifted across the axis, breaks through wall or floor, mm; at most 0 where it fits.
    fn lacking(&self, a: f64, b: f64) -> f64 {
        // In lanes that the processor takes together.
        let mut wall = [0.0_f64; 8];
        let square = |p: &Vec2| (p.x + a) * (p.x + a) + (p.y + b) * (p.y + b);
        let mut chunks = self.shadow.chunks_exact(8);
        for chunk in &mut chunks {
            for (most, p) in wall.iter_mut().zip(chunk) {
                let square = square(p);
                *most = if square > *most { square } else { *most };
            }
        }
        let rest = chunks.remainder().iter().map(square);
        let wall = wall.into_iter().chain(rest).fold(0.0, f64::max);
        (wall.sqrt() - RADIUS_MM).max((self.least_a - a) / std::f64::consts::SQRT_2)
    }

    /// No more than what is lacking however the plate is shifted: half its shadow in some directions is too wide.
    fn lacks_at_least(&self) -> f64 {
        let half = |way: Vec2| extent(&self.shadow, way) / 2.0;
        const DIAGONAL: f64 = std::f64::consts::FRAC_1_SQRT_2;
        let ways = [(1.0, 0.0), (0.0, 1.0), (DIAGONAL, DIAGONAL), (DIAGONAL, -DIAGONAL)];
        ways.map(|(x, y)| half(Vec2::new(x, y))).into_iter().fold(0.0, f64::max) - RADIUS_MM - 1e-9
    }
}

/// By how much a plate in this position breaks through wall or floor, mm; at most 0 where it fits.
fn lacking(hull: &[Vec2], thickness_mm: f64, [alpha, phi, psi, a, b]: Pose, room: &mut Turned) -> f64 {
    room.turn(hull, thickness_mm, [alpha, phi, psi]);
    room.lacking(a, b)
}

/// The least that is lacking over all positions, mm: a grid of angles, then descents from the best of it.
fn search(hull: &[Vec2], thickness_mm: f64) -> f64 {
    let middle = hull.iter().fold(Vec2::ZERO, |s, p| s + *p) / hull.len() as f64;
    let hull: Vec<Vec2> = hull.iter().map(|p| *p - middle).collect();
    let step = std::f64::consts::PI / 12.0;
    let edges = edge_normals(&hull).map(|n| libm::atan2(n.y, n.x)).collect::<Vec<_>>();
    let steep = edges.iter().flat_map(|&alpha| (0..4).map(move |q| [alpha, 6.0 * step, f64::from(q) * 6.0 * step]));
    let grid = (0..24).flat_map(|i| (0..7).flat_map(move |j| (0..24).map(move |k| [i, j, k])));
    let even = grid.map(|angles| angles.map(|i| f64::from(i) * step));
    // The best so far, and no more of them than are gone into.
    let mut starts: Vec<(f64, Pose)> = Vec::with_capacity(STARTS + 1);
    let mut turned = Turned::new();
    for angles in steep.chain(even) {
        turned.turn(&hull, thickness_mm, angles);
        let worst = starts.get(STARTS - 1).map_or(f64::INFINITY, |s| s.0);
        if turned.lacks_at_least() <= worst {
            let (less, [a, b]) = shifted(&turned);
            let [alpha, phi, psi] = angles;
            starts.insert(starts.partition_point(|s| s.0 <= less), (less, [alpha, phi, psi, a, b]));
            starts.truncate(STARTS);
        }
    }
    let mut best = f64::INFINITY;
    for (_, pose) in starts {
        best = best.min(descend(&hull, thickness_mm, pose));
        if best <= 0.0 {
            break;
        }
    }
    best
}

/// The shift that lacks least, mm, and what it lacks: from the middle of the plate outwards, by ever smaller steps.
fn shifted(turned: &Turned) -> (f64, [f64; 2]) {
    let (mut step, mut at) = (8.0, [0.0; 2]);
    let mut best = turned.lacking(0.0, 0.0);
    while step > 0.2 {
        let moved = [(step, 0.0), (-step, 0.0), (0.0, step), (0.0, -step)]
            .map(|(a, b)| [at[0] + a, at[1] + b])
            .map(|to| (turned.lacking(to[0], to[1]), to));
        match moved.into_iter().min_by(|x, y| x.0.total_cmp(&y.0)) {
            Some((less, to)) if less < best => (best, at) = (less, to),
            _ => step /= 2.0,
        }
    }
    (best, at)
}

/// Nelder and Mead's simplex (1965), started anew where it ended until it gains nothing: the measure has edges on which
/// one run may stall.
fn descend(hull: &[Vec2], thickness_mm: f64, start: Pose) -> f64 {
    let mut room = Turned::new();
    let mut measure = |p: &Pose| lacking(hull, thickness_mm, *p, &mut room);
    let (mut from, mut best) = (start, measure(&start));
    for round in 0..8 {
        let size = [0.12, 0.05, 0.2, 0.02][round % 4];
        let (to, less) = simplex(&mut measure, from, size);
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

fn simplex(measure: &mut dyn FnMut(&Pose) -> f64, start: Pose, size: f64) -> (Pose, f64) {
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
