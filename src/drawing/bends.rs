//! Where the chords of a cubic curve should end, so that few of them do.
//!
//! A chord over the span h of the parameter strays by h²/8 times the acceleration across the curve (any handbook of
//! numerical analysis, the error of linear interpolation), so chords of equal error share out the integral of its root.

use super::flatten::length;
use kurbo::{CubicBez, ParamCurve, Point, Vec2};

/// Places at which the bend of a curve is looked at.
const PLACES: usize = 16;

/// A cubic and its first derivative, itself a quadratic.
pub(super) struct Curve {
    cubic: CubicBez,
    velocity: [Vec2; 3],
}

/// One end of a chord.
pub(super) struct End {
    pub t: f64,
    pub point: Point,
    pub velocity: Vec2,
}

impl Curve {
    /// The curve of four control points.
    pub(super) fn new(cubic: CubicBez) -> Curve {
        let CubicBez { p0, p1, p2, p3 } = cubic;
        Curve { cubic, velocity: [3.0 * (p1 - p0), 3.0 * (p2 - p1), 3.0 * (p3 - p2)] }
    }

    /// The end of a chord at a parameter; exact at both ends of the curve.
    pub(super) fn end(&self, t: f64) -> End {
        let point = match t {
            0.0 => self.cubic.p0,
            1.0 => self.cubic.p3,
            _ => self.cubic.eval(t),
        };
        End { t, point, velocity: self.velocity(t) }
    }

    fn velocity(&self, t: f64) -> Vec2 {
        let s = 1.0 - t;
        self.velocity[0] * (s * s) + self.velocity[1] * (2.0 * s * t) + self.velocity[2] * (t * t)
    }

    /// For each of equal stretches of the parameter, the root of the acceleration across the curve: chords of error e
    /// number the integral of it over √(8e).
    pub(super) fn bends(&self) -> [f64; PLACES] {
        let step = 1.0 / PLACES as f64;
        let mut bends = [0.0; PLACES];
        let mut before = self.velocity(0.0);
        for (i, bend) in bends.iter_mut().enumerate() {
            let after = self.velocity((i + 1) as f64 * step);
            let acceleration = (after - before) / step;
            let speed = length(before + after) / 2.0;
            let across = if speed > 0.0 { (before + after).cross(acceleration).abs() / 2.0 / speed } else { 0.0 };
            *bend = across.sqrt() * step;
            before = after;
        }
        bends
    }
}

/// Parameters between 0 and 1 that share out the bends into `count` equal parts.
pub(super) fn shares(bends: &[f64; PLACES], count: usize) -> impl Iterator<Item = f64> {
    let share = bends.iter().sum::<f64>() / count as f64;
    let (mut place, mut passed) = (0, 0.0);
    (1..count).map(move |i| {
        let wanted = share * i as f64;
        while place + 1 < PLACES && passed + bends[place] < wanted {
            passed += bends[place];
            place += 1;
        }
        let within = if bends[place] > 0.0 { ((wanted - passed) / bends[place]).clamp(0.0, 1.0) } else { 0.0 };
        (place as f64 + within) / PLACES as f64
    })
}
