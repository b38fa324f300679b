//! What tells most pieces apart without turning them: how far an outline reaches in each direction, and what no turning
//! changes of that.
//!
//! In: a face. Out: a [`Print`], and for two of them the turns after which one may lie on the other. No answer here says that two
//! pieces are alike; where it says that they are not, they are not.

use kurbo::Vec2;

use super::super::small_parts;
use super::APART_MM;
use super::outline::{about_centre, off_segment_sq, turned};
use crate::shape::{Face, ring_length_mm, ring_sides, signed_area_mm2};

/// Directions in which the reach is known: one a degree.
pub(super) const DIRECTIONS: usize = 360;
/// Waves of the reaches whose strength is compared.
pub(super) const WAVES: usize = 9;
/// How far apart the spectra of twins may be, mm: as far as their outlines, with room for reaches being known by the degree.
pub(super) const SPECTRUM_APART_MM: f64 = APART_MM + 0.005;
/// How many of them, the strongest first, tell which turns are worth a look.
const TOLD_WAVES: usize = 5;
/// Turns that are judged: more than a ring of teeth has, so that a hole beside its middle finds its place.
const MOST_TURNS: usize = 48;

/// What is known of a piece before it is turned.
pub(super) struct Print {
    /// What no turning changes by more than the outlines lie apart, mm: reach, least distance from the centre, mean of the
    /// reaches, and the strength of their first waves.
    fixed: [f64; 3 + WAVES],
    /// The first waves of the reaches.
    waves: [Vec2; WAVES],
    /// Where each of them begins, degrees.
    phases: [f64; WAVES],
    area_mm2: f64,
    length_mm: f64,
    holes: usize,
    /// How far the outer ring reaches in each direction, mm; then the same of all holes together, if there are any.
    reaches: Vec<Reaches>,
}

/// Directions of one row of [`Reaches`].
const ROW: usize = DIRECTIONS / ROWS;
const ROWS: usize = 8;

/// How far something reaches in each direction, mm: every eighth direction in a row, so that a few rows tell about all of the
/// circle, and that a turn only changes the order of the rows and where each begins.
struct Reaches(Vec<[f32; ROW]>);

impl Reaches {
    fn new(reaches: &[f64]) -> Reaches {
        let row = |k: usize| std::array::from_fn(|m| reaches.get(k + ROWS * m).map_or(0.0, |reach| *reach as f32));
        Reaches((0..ROWS).map(row).collect())
    }

    /// The most by which the two differ after the other is turned by whole degrees; `None` where it is over `room`.
    fn most_apart(&self, other: &Reaches, turn: usize, room: f32) -> Option<f32> {
        let mut worst = 0.0_f32;
        for (k, theirs) in other.0.iter().enumerate() {
            let mine = self.0.get((k + turn) % ROWS)?;
            let from = (k + turn) / ROWS % ROW;
            worst =
                worst.max(apart(&mine[from..], &theirs[..ROW - from])).max(apart(&mine[..from], &theirs[ROW - from..]));
            if worst > room {
                return None;
            }
        }
        Some(worst)
    }
}

/// The most by which numbers of two rows differ.
fn apart(a: &[f32], b: &[f32]) -> f32 {
    // In lanes that the processor takes together.
    let mut most = [0.0_f32; 8];
    let mut add = |lane: usize, a: f32, b: f32| {
        let d = (a - b).abs();
        most[lane] = if d > most[lane] { d } else { most[lane] };
    };
    let (mut a, mut b) = (a.chunks_exact(8), b.chunks_exact(8));
    for (a, b) in (&mut a).zip(&mut b) {
        (0..8).for_each(|lane| add(lane, a[lane], b[lane]));
    }
    a.remainder().iter().zip(b.remainder()).enumerate().for_each(|(lane, (a, b))| add(lane, *a, *b));
    most.into_iter().fold(0.0, f32::max)
}

/// Some of all turns by whole degrees, a bit for each.
#[derive(Clone, Copy)]
struct TurnSet([u64; 6]);

impl TurnSet {
    const NONE: TurnSet = TurnSet([0; 6]);
    const ALL: TurnSet = TurnSet([u64::MAX, u64::MAX, u64::MAX, u64::MAX, u64::MAX, (1 << (DIRECTIONS - 320)) - 1]);

    /// Adds all from one up to and with another, round the circle.
    fn add(&mut self, from: i64, to: i64) {
        if to - from + 1 >= DIRECTIONS as i64 {
            *self = TurnSet::ALL;
            return;
        }
        if to < from {
            return;
        }
        let (from, to) = (from.rem_euclid(DIRECTIONS as i64) as usize, to.rem_euclid(DIRECTIONS as i64) as usize);
        if from <= to {
            self.add_run(from, to);
        } else {
            self.add_run(from, DIRECTIONS - 1);
            self.add_run(0, to);
        }
    }

    fn add_run(&mut self, from: usize, to: usize) {
        for word in from / 64..=to / 64 {
            let low = if word == from / 64 { from % 64 } else { 0 };
            let high = if word == to / 64 { to % 64 } else { 63 };
            self.0[word] |= (u64::MAX << low) & (u64::MAX >> (63 - high));
        }
    }

    fn and(&self, other: &TurnSet) -> TurnSet {
        TurnSet(std::array::from_fn(|i| self.0[i] & other.0[i]))
    }

    fn is_empty(&self) -> bool {
        self.0 == [0; 6]
    }

    fn turns(self) -> impl Iterator<Item = usize> {
        self.0.into_iter().enumerate().flat_map(|(word, mut bits)| {
            std::iter::from_fn(move || {
                let bit = (bits != 0).then(|| bits.trailing_zeros() as usize)?;
                bits &= bits - 1;
                Some(64 * word + bit)
            })
        })
    }
}

/// Unit vectors of all directions.
pub(super) fn directions() -> Vec<Vec2> {
    (0..DIRECTIONS)
        .map(|i| {
            let (sin, cos) = libm::sincos(i as f64 * std::f64::consts::TAU / DIRECTIONS as f64);
            Vec2::new(cos, sin)
        })
        .collect()
}

/// How far a ring reaches in each direction. Only corners of its convex hull count, and they come in turn.
fn reaches<'a>(ring: impl Iterator<Item = &'a Vec2>, directions: &[Vec2]) -> Vec<f64> {
    let hull = small_parts::hull(ring.map(|v| v.to_point()));
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
    let (mut sum, mut at) = (Vec2::ZERO, 0);
    for reach in reaches {
        sum += directions[at] * *reach;
        at += times;
        at -= if at >= DIRECTIONS { DIRECTIONS } else { 0 };
    }
    sum / DIRECTIONS as f64
}

impl Print {
    /// Of a face.
    pub fn of(face: &Face, directions: &[Vec2]) -> Print {
        let rings = about_centre(face);
        let reach = rings[0].iter().map(|v| v.hypot2()).fold(0.0, f64::max).sqrt();
        let ends = ring_sides(&rings[0]);
        let least = ends.map(|(a, b)| off_segment_sq(Vec2::ZERO, *a, *b)).fold(f64::INFINITY, f64::min).sqrt();
        let length_mm = ring_length_mm(&face.outer);
        let all = reaches(rings[0].iter(), directions);
        let mean = all.iter().sum::<f64>() / DIRECTIONS as f64;
        let mut fixed = [0.0; 3 + WAVES];
        fixed[..3].copy_from_slice(&[reach, least, mean]);
        let mut waves = [Vec2::ZERO; WAVES];
        for (i, wave_i) in waves.iter_mut().enumerate() {
            *wave_i = wave(&all, directions, i + 1);
            fixed[3 + i] = wave_i.hypot2().sqrt();
        }
        let mut reaches_of = vec![Reaches::new(&all)];
        if !face.holes.is_empty() {
            reaches_of.push(Reaches::new(&reaches(rings[1..].iter().flatten(), directions)));
        }
        Print {
            fixed,
            waves,
            phases: waves.map(|w| libm::atan2(w.y, w.x).to_degrees()),
            area_mm2: signed_area_mm2(&face.outer),
            length_mm,
            holes: face.holes.len(),
            reaches: reaches_of,
        }
    }

    /// Mean and strengths of the waves so that a distance of two spectra is at most the distance of the outlines, however
    /// turned: the mean square of a function is that of its mean and waves, each but the mean twice (Parseval), and is no
    /// more than the square of the most it reaches.
    pub fn spectrum(&self) -> [f64; 1 + WAVES] {
        std::array::from_fn(|i| self.fixed[2 + i] * if i == 0 { 1.0 } else { std::f64::consts::SQRT_2 })
    }

    /// How far the outer ring reaches from its centre, mm.
    pub fn reach_mm(&self) -> f64 {
        self.fixed[0]
    }

    /// Whether what no turning changes is the same, as far as it is for twins.
    pub fn is_like(&self, other: &Print) -> bool {
        self.fixed.iter().zip(&other.fixed).all(|(a, b)| (a - b).abs() <= APART_MM)
    }

    /// Whether no turning could make the two alike.
    pub fn differs(&self, other: &Print) -> bool {
        (self.area_mm2 - other.area_mm2).abs() > area_room_mm2(self).max(area_room_mm2(other))
            || self.holes != other.holes
    }

    /// Whether the waves of the two may lie near enough after any turning: quickly, and never a wrong no.
    ///
    /// Of the turnings that bring their strongest wave near enough only the middles are looked at, and all others given as
    /// much more room as a turning from there can change them.
    pub fn waves_may_agree(&self, other: &Print, directions: &[Vec2]) -> bool {
        let strength = |i: usize| self.fixed[3 + i].min(other.fixed[3 + i]);
        let strongest = (0..WAVES).max_by(|a, b| strength(*a).total_cmp(&strength(*b))).unwrap_or(0);
        let (a, b) = (self.fixed[3 + strongest], other.fixed[3 + strongest]);
        let crests = (strongest + 1) as f64;
        let room = APART_MM + 1e-3;
        let most = (a * a + b * b - room * room) / (2.0 * a * b);
        if most.is_nan() || most <= -1.0 {
            return true;
        }
        if most > 1.0 {
            return false;
        }
        // The sine of half the angle; an angle is at most π/2 times its sine.
        let half_sine = ((1.0 - most) / 2.0).sqrt();
        let half = 2.0 * half_sine * std::f64::consts::FRAC_PI_2 / crests + std::f64::consts::PI / DIRECTIONS as f64;
        let lead = (self.phases[strongest] - other.phases[strongest]) / crests;
        (0..=strongest).any(|crest| {
            let turn = lead + DIRECTIONS as f64 * crest as f64 / crests;
            let turn = (turn + 0.5).floor().rem_euclid(DIRECTIONS as f64) as usize % DIRECTIONS;
            // The mean square of what is left of the difference: see `spectrum`.
            let mut square = (self.fixed[2] - other.fixed[2]) * (self.fixed[2] - other.fixed[2]);
            (0..WAVES).filter(|k| *k != strongest).all(|k| {
                let times = k + 1;
                let apart = self.waves[k] - turned(other.waves[k], directions[turn * times % DIRECTIONS]);
                let left = apart.hypot2().sqrt() - other.fixed[3 + k] * times as f64 * half;
                square += if left > 0.0 { 2.0 * left * left } else { 0.0 };
                square <= SPECTRUM_APART_MM * SPECTRUM_APART_MM
            })
        })
    }

    /// The turns of `other`, in degrees, after which their strongest waves lie near enough: turning by a degree shifts a
    /// wave by as many degrees as it has crests, and like reaches have like waves.
    fn waves_agree(&self, other: &Print) -> TurnSet {
        let strength = |i: usize| self.fixed[3 + i].min(other.fixed[3 + i]);
        let mut order: [usize; WAVES] = std::array::from_fn(|i| i);
        order.sort_by(|a, b| strength(*b).total_cmp(&strength(*a)));
        let mut left = TurnSet::ALL;
        for &wave in order.iter().take(TOLD_WAVES) {
            let (a, b) = (self.waves[wave], other.waves[wave]);
            let crests = (wave + 1) as f64;
            let (a2, b2) = (a.hypot2(), b.hypot2());
            let room = APART_MM + (a2.max(b2)).sqrt() * crests * std::f64::consts::PI / DIRECTIONS as f64 + 1e-3;
            let most = (a2 + b2 - room * room) / (2.0 * (a2 * b2).sqrt());
            if most.is_nan() || most <= -1.0 {
                // So weak a wave rules nothing out, and those that follow are weaker.
                break;
            }
            if most > 1.0 {
                return TurnSet::NONE;
            }
            let per_degree = DIRECTIONS as f64 / std::f64::consts::TAU;
            let lead = libm::atan2(b.cross(a), b.dot(a)) / crests * per_degree;
            let half = libm::acos(most) / crests * per_degree;
            let mut agree = TurnSet::NONE;
            for crest in 0..=wave {
                let middle = lead + DIRECTIONS as f64 * crest as f64 / crests;
                agree.add((middle - half).ceil() as i64, (middle + half).floor() as i64);
            }
            left = left.and(&agree);
            if left.is_empty() {
                break;
            }
        }
        left
    }

    /// Turns of `other`, in degrees, after which it reaches as far as this one in every direction, best first.
    pub fn turns(&self, other: &Print) -> Vec<usize> {
        // Between two whole degrees a reach changes by at most half a degree's turn of the farthest point.
        let room = APART_MM + self.fixed[0].max(other.fixed[0]) * (std::f64::consts::PI / DIRECTIONS as f64);
        let room = room as f32;
        let worst = |turn: usize| {
            let of = self.reaches.iter().zip(&other.reaches).map(|(mine, theirs)| mine.most_apart(theirs, turn, room));
            of.reduce(|a, b| Some(a?.max(b?)))?.map(f64::from)
        };
        let mut all = [f64::INFINITY; DIRECTIONS];
        let mut none = true;
        for turn in self.waves_agree(other).turns() {
            if let Some(worst) = worst(turn) {
                (all[turn], none) = (worst, false);
            }
        }
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
