//! What tells most pieces apart without turning them: how far an outline reaches in each direction, and what no turning
//! changes of that.
//!
//! In: a face. Out: a [`Print`], and for two of them the turns after which one may lie on the other. No answer here says that two
//! pieces are alike; where it says that they are not, they are not.

use kurbo::Vec2;

use super::super::hull::hull;
use super::APART_MM;
use super::outline::{about_centre, off_segment_sq, turned};
use crate::shape::{Face, ring_length_mm, ring_sides, signed_area_mm2};

/// Directions in which the reach is known: one a degree.
pub(super) const DIRECTIONS: usize = 360;
/// Waves of the reaches whose strength is compared.
pub(super) const WAVES: usize = 9;
/// How far apart the spectra of twins may be, mm: as far as their outlines, with room for reaches being known by the degree.
pub(super) const SPECTRUM_APART_MM: f64 = APART_MM + 0.005;
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
    /// How fast all of them together change with a turn, root of the mean square, mm a degree.
    swing_mm: f64,
    area_mm2: f64,
    length_mm: f64,
    holes: usize,
    /// How far the outer ring reaches in each direction, mm; then the same of all holes together, if there are any.
    reaches: Vec<Reaches>,
}

/// How far something reaches in each direction, mm: every eighth direction in a row, so that one row tells about all of the
/// circle, and that a turn only changes the order of the rows and where each begins. Each row is there twice and a little more,
/// so that it can be read in one go from anywhere.
struct Reaches(Vec<[f32; ROW + READ]>);

const ROWS: usize = 8;
const ROW: usize = DIRECTIONS / ROWS;
/// What is read of a row: a little more than all of it, a full load for the processor each time.
const READ: usize = ROW.next_multiple_of(16);

impl Reaches {
    fn new(reaches: &[f64]) -> Reaches {
        let row = |k: usize| std::array::from_fn(|m| reaches.get(k + ROWS * (m % ROW)).map_or(0.0, |r| *r as f32));
        Reaches((0..ROWS).map(row).collect())
    }

    /// The most by which the two differ after the other is turned by whole degrees; `None` where it is over `room`.
    fn most_apart(&self, other: &Reaches, turn: usize, room: f32) -> Option<f32> {
        let mut worst = 0.0_f32;
        for (k, theirs) in other.0.iter().enumerate() {
            let from = (k + turn) / ROWS % ROW;
            let mine = self.0.get((k + turn) % ROWS)?.get(from..from + READ)?;
            let mut lanes = [0.0_f32; 16];
            for (a, b) in mine.chunks_exact(16).zip(theirs[..READ].chunks_exact(16)) {
                for lane in 0..16 {
                    let d = (a[lane] - b[lane]).abs();
                    lanes[lane] = if d > lanes[lane] { d } else { lanes[lane] };
                }
            }
            worst = lanes.into_iter().fold(worst, |most, d| if d > most { d } else { most });
            if worst > room {
                return None;
            }
        }
        Some(worst)
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
    let hull = hull(ring.map(|v| v.to_point()));
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
        let (mut waves, mut swing) = ([Vec2::ZERO; WAVES], 0.0);
        for (i, wave_i) in waves.iter_mut().enumerate() {
            *wave_i = wave(&all, directions, i + 1);
            fixed[3 + i] = wave_i.hypot2().sqrt();
            swing += 2.0 * wave_i.hypot2() * ((i + 1) * (i + 1)) as f64;
        }
        let mut reaches_of = vec![Reaches::new(&all)];
        if !face.holes.is_empty() {
            reaches_of.push(Reaches::new(&reaches(rings[1..].iter().flatten(), directions)));
        }
        Print {
            fixed,
            waves,
            swing_mm: swing.sqrt().to_radians(),
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

    /// Calls `each` with the turns of `other`, in degrees, after which the waves of the two lie near enough: quickly, and never
    /// leaving out one next to which they are alike.
    ///
    /// A turn must bring the strongest wave near enough, which leaves a few stretches of the circle. Along these the mean
    /// square of the difference of all waves (see `spectrum`) changes no faster than the waves swing, so most are passed in strides.
    fn waves_agree(&self, other: &Print, directions: &[Vec2], mut each: impl FnMut(usize)) {
        // Between two whole degrees a wave is turned by half a degree at most.
        let room = SPECTRUM_APART_MM + other.swing_mm / 2.0;
        let mut along = |from: i64, to: i64| {
            let mut turn = from;
            while turn <= to {
                let at = turn.rem_euclid(DIRECTIONS as i64) as usize;
                let over = self.waves_apart(other, at, directions) - room;
                if over <= 0.0 {
                    each(at);
                }
                turn += 1 + (over.max(0.0) / other.swing_mm).min(DIRECTIONS as f64) as i64;
            }
        };
        let strength = |i: usize| self.fixed[3 + i].min(other.fixed[3 + i]);
        let strongest = (0..WAVES).max_by(|a, b| strength(*a).total_cmp(&strength(*b))).unwrap_or(0);
        let (a, b) = (self.fixed[3 + strongest], other.fixed[3 + strongest]);
        // Of a difference each wave is at most one over √2.
        let wave_room = SPECTRUM_APART_MM * std::f64::consts::FRAC_1_SQRT_2 + 1e-3;
        let most = (a * a + b * b - wave_room * wave_room) / (2.0 * a * b);
        if most.is_nan() || most <= -1.0 {
            along(0, DIRECTIONS as i64 - 1);
        } else if most <= 1.0 {
            let crests = (strongest + 1) as f64;
            let lead = (self.phases[strongest] - other.phases[strongest]) / crests;
            let half = libm::acos(most).to_degrees() / crests + 0.5;
            for crest in 0..=strongest {
                let middle = lead + DIRECTIONS as f64 * crest as f64 / crests;
                along((middle - half).ceil() as i64, (middle + half).floor() as i64);
            }
        }
    }

    /// Root of the mean square of the difference that the waves make after a turn by whole degrees, mm.
    fn waves_apart(&self, other: &Print, turn: usize, directions: &[Vec2]) -> f64 {
        let mean = self.fixed[2] - other.fixed[2];
        let (mut square, mut at) = (0.0, 0);
        for (mine, theirs) in self.waves.iter().zip(&other.waves) {
            at += turn;
            at -= if at >= DIRECTIONS { DIRECTIONS } else { 0 };
            square += (*mine - turned(*theirs, directions[at])).hypot2();
        }
        (mean * mean + 2.0 * square).sqrt()
    }

    /// Turns of `other`, in degrees, after which it reaches as far as this one in every direction, best first.
    pub fn turns(&self, other: &Print, directions: &[Vec2]) -> Vec<usize> {
        // Between two whole degrees a reach changes by at most half a degree's turn of the farthest point.
        let room = APART_MM + self.fixed[0].max(other.fixed[0]) * (std::f64::consts::PI / DIRECTIONS as f64);
        let room = room as f32;
        let worst = |turn: usize| {
            let of = self.reaches.iter().zip(&other.reaches).map(|(mine, theirs)| mine.most_apart(theirs, turn, room));
            of.reduce(|a, b| Some(a?.max(b?)))?.map(f64::from)
        };
        let mut all = [f64::INFINITY; DIRECTIONS];
        let mut none = true;
        self.waves_agree(other, directions, |turn| {
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
