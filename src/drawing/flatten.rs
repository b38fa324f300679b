//! From lines and curves in a drawing's own units to chains of points in millimetres.
//!
//! A [`Pen`] takes the parts of an outline, carries their control points into the frame of the board, and only then
//! flattens, so that the tolerance holds in mm whatever the transforms. Every point lies on its curve.
//! Bounds: a cubic stays within 3/4 of the farther control point's distance from its chord (the greatest value of
//! 3t(1 − t)² + 3t²(1 − t)); an arc within the sagitta, 1 − cos(h/2) of its longer half axis.

use super::arc::Arc;
use super::bends::{Curve, End, shares};
use kurbo::{Affine, CubicBez, Point, QuadBez, Vec2};
use std::f64::consts::{FRAC_PI_2, TAU};

/// Points nearer than this are one point, mm: a tenth of a nanometre, far above the rounding of doubles at such sizes.
const SAME_MM: f64 = 1e-7;
/// Farthest from the corner of the drawing that is read, mm: a kilometre.
pub(super) const FARTHEST_MM: f64 = 1e6;

/// Share of the tolerance that chords are laid out for before they are checked.
const AIM: f64 = 0.85;

/// One stretch of an outline without a gap, mm.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Subpath {
    /// At least two; a closed one does not repeat its first.
    pub points: Vec<Point>,
    pub closed: bool,
}

/// Draws an outline, flattening as it goes.
pub(super) struct Pen {
    to_mm: Affine,
    tolerance_mm: f64,
    subpaths: Vec<Subpath>,
    points: Vec<Point>,
    /// How many points may still be made.
    budget: usize,
    too_far: bool,
    spent: bool,
}

/// What was drawn.
#[derive(Debug)]
pub(super) struct Drawn {
    pub subpaths: Vec<Subpath>,
    /// Some point lies beyond [`FARTHEST_MM`]; it is left out.
    pub too_far: bool,
    /// More points than allowed; the rest is left out.
    pub spent: bool,
}

impl Pen {
    /// A pen for an outline in units that `to_mm` carries to mm, chords within `tolerance_mm`, at most `budget` points.
    pub(super) fn new(to_mm: Affine, tolerance_mm: f64, budget: usize) -> Pen {
        Pen { to_mm, tolerance_mm, subpaths: Vec::new(), points: Vec::new(), budget, too_far: false, spent: false }
    }

    /// Ends the stretch so far and starts another.
    pub(super) fn move_to(&mut self, to: Point) {
        self.end(false);
        let to = self.to_mm * to;
        self.push(to);
    }

    /// Ends the stretch by going back to its start.
    pub(super) fn close(&mut self) {
        self.end(true);
    }

    pub(super) fn line_to(&mut self, to: Point) {
        let to = self.to_mm * to;
        self.push(to);
    }

    pub(super) fn quad_to(&mut self, control: Point, to: Point) {
        let Some(from) = self.points.last().copied() else { return };
        let (control, to) = (self.to_mm * control, self.to_mm * to);
        if self.near_enough([control, to, to]) {
            self.cubic(QuadBez::new(from, control, to).raise());
        }
    }

    pub(super) fn cubic_to(&mut self, first: Point, second: Point, to: Point) {
        let Some(from) = self.points.last().copied() else { return };
        let (first, second, to) = (self.to_mm * first, self.to_mm * second, self.to_mm * to);
        if self.near_enough([first, second, to]) {
            self.cubic(CubicBez::new(from, first, second, to));
        }
    }

    pub(super) fn arc_to(&mut self, arc: &Arc) {
        let [a, b, c, d, ..] = self.to_mm.as_coeffs();
        let turn = |v: Vec2| Vec2::new(a * v.x + c * v.y, b * v.x + d * v.y);
        let (centre, u, v) = (self.to_mm * arc.centre, turn(arc.u), turn(arc.v));
        let to = self.to_mm * arc.to;
        if ![centre.x, centre.y, u.x, u.y, v.x, v.y].iter().all(|n| n.is_finite()) {
            self.too_far = true;
            return;
        }
        // The longer half axis of the ellipse: the greater singular value of the matrix (u v).
        let (sum, area) = (u.hypot2() + v.hypot2(), u.cross(v));
        let radius = ((sum + (sum * sum - 4.0 * area * area).max(0.0).sqrt()) / 2.0).sqrt();
        let quarters = (arc.sweep.abs() / FRAC_PI_2 - 1e-9).ceil().max(1.0);
        let count = if radius > self.tolerance_mm {
            let step = 2.0 * libm::acos(1.0 - self.tolerance_mm / radius);
            if step > 0.0 { (arc.sweep.abs() / step).ceil().max(quarters) } else { quarters }
        } else {
            quarters
        };
        // A whole turn gets its four outermost points.
        let whole = (arc.sweep.abs() - TAU).abs() < 1e-12;
        let count = if whole { (count / 4.0).ceil() * 4.0 } else { count } as usize;
        self.sample(count, to, |t| {
            let (sin, cos) = libm::sincos(arc.from + arc.sweep * t);
            centre + u * cos + v * sin
        });
    }

    /// Hands over all that was drawn; stretches of no length are left out.
    pub(super) fn finish(mut self) -> Drawn {
        self.end(false);
        Drawn { subpaths: self.subpaths, too_far: self.too_far, spent: self.spent }
    }

    /// Chords end where the integral of the bend that they have to follow is shared out evenly; each is then held
    /// against the tolerance, and halved where the integral, taken from a few places only, was too low.
    fn cubic(&mut self, curve: CubicBez) {
        let curve = Curve::new(curve);
        let (start, end) = (curve.end(0.0), curve.end(1.0));
        if self.is_flat(&start, &end) {
            self.push(end.point);
            return;
        }
        let bends = curve.bends();
        // A little more than needed on average, so that few chords have to be halved.
        let total = bends.iter().sum::<f64>() / (8.0 * AIM * self.tolerance_mm).sqrt();
        let count = total.ceil().max(1.0);
        if count > self.budget as f64 {
            self.spent = true;
            return;
        }
        self.points.reserve(count as usize);
        let mut from = start;
        for t in shares(&bends, count as usize).chain([1.0]) {
            let to = curve.end(t);
            self.chord(&curve, &from, &to, 0);
            from = to;
        }
    }

    fn chord(&mut self, curve: &Curve, from: &End, to: &End, depth: usize) {
        if depth >= 24 || self.is_flat(from, to) {
            self.push(to.point);
        } else if !self.spent {
            let middle = curve.end((from.t + to.t) / 2.0);
            self.chord(curve, from, &middle, depth + 1);
            self.chord(curve, &middle, to, depth + 1);
        }
    }

    /// Whether a stretch of a cubic stays by its chord: it is within 3/4 of the farther of its two control points.
    fn is_flat(&self, from: &End, to: &End) -> bool {
        let third = (to.t - from.t) / 3.0;
        let (a, b) = (from.point, to.point);
        [a + from.velocity * third, b - to.velocity * third]
            .iter()
            .all(|p| along(a, b, *p, self.tolerance_mm) && off(a, b, *p) * 0.75 <= self.tolerance_mm)
    }

    fn sample(&mut self, count: usize, last: Point, at: impl Fn(f64) -> Point) {
        if count > self.budget {
            self.spent = true;
            return;
        }
        self.points.reserve(count);
        for i in 1..count {
            self.push(at(i as f64 / count as f64));
        }
        self.push(last);
    }

    fn push(&mut self, point: Point) {
        if !(point.x.abs() <= FARTHEST_MM && point.y.abs() <= FARTHEST_MM) {
            self.too_far = true;
        } else if self.budget == 0 {
            self.spent = true;
        } else if self.points.last().is_none_or(|last| !same(*last, point)) {
            self.budget -= 1;
            self.points.push(point);
        }
    }

    fn near_enough(&mut self, controls: [Point; 3]) -> bool {
        // Control points may lie far out where the curve does not, but not beyond all measure.
        let near = controls.iter().all(|p| p.x.abs() <= 100.0 * FARTHEST_MM && p.y.abs() <= 100.0 * FARTHEST_MM);
        self.too_far |= !near;
        near
    }

    fn end(&mut self, closed: bool) {
        let mut points = std::mem::take(&mut self.points);
        if closed {
            while points.len() > 1 && same(points[0], points[points.len() - 1]) {
                points.pop();
            }
        }
        if points.len() > 1 {
            // There and back is no closed line but one that is drawn twice.
            let closed = closed && points.len() > 2;
            self.subpaths.push(Subpath { points, closed });
        }
    }
}

fn same(a: Point, b: Point) -> bool {
    (a - b).hypot2() < SAME_MM * SAME_MM
}

pub(super) fn length(v: Vec2) -> f64 {
    v.hypot2().sqrt()
}

/// How far `p` lies off the line from `a` to `b`; off `a` where they are one point.
fn off(a: Point, b: Point, p: Point) -> f64 {
    let (chord, to) = (b - a, p - a);
    match length(chord) {
        0.0 => length(to),
        chord_length => chord.cross(to).abs() / chord_length,
    }
}

/// Whether `p` lies between `a` and `b` as seen along their line, or beyond by no more than `slack`.
fn along(a: Point, b: Point, p: Point, slack: f64) -> bool {
    let chord = b - a;
    let place = chord.dot(p - a);
    let slack = slack * length(chord);
    (-slack..=chord.hypot2() + slack).contains(&place)
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{ParamCurve, ParamCurveNearest, PathEl};

    const TOLERANCE_MM: f64 = 0.004;

    fn draw(draw: impl FnOnce(&mut Pen), to_mm: Affine) -> Vec<Subpath> {
        let mut pen = Pen::new(to_mm, TOLERANCE_MM, 1 << 20);
        draw(&mut pen);
        let drawn = pen.finish();
        assert!(!drawn.too_far && !drawn.spent);
        drawn.subpaths
    }

    /// Farthest that the true curve strays from the chain, by sampling it densely.
    fn stray(points: &[Point], curve: impl Fn(f64) -> Point) -> f64 {
        let chain: Vec<kurbo::Line> = points.windows(2).map(|w| kurbo::Line::new(w[0], w[1])).collect();
        (0..=2000)
            .map(|i| {
                let p = curve(f64::from(i) / 2000.0);
                let near = chain.iter().map(|l| l.nearest(p, 1e-9).distance_sq).fold(f64::INFINITY, f64::min);
                near.sqrt()
            })
            .fold(0.0, f64::max)
    }

    #[test]
    fn cubics_stay_within_the_tolerance_and_take_few_points() {
        let shapes = [
            CubicBez::new((0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)),
            CubicBez::new((0.0, 0.0), (100.0, 0.0), (-50.0, 1.0), (20.0, 3.0)),
            CubicBez::new((0.0, 0.0), (40.0, 40.0), (-20.0, 40.0), (20.0, 0.0)),
            CubicBez::new((0.0, 0.0), (10.0, 0.0), (10.0, 0.0), (10.0, 10.0)),
            CubicBez::new((0.0, 0.0), (0.01, 0.0), (150.0, 2.0), (300.0, 200.0)),
        ];
        for c in shapes {
            let to_mm = Affine::new([0.6, 0.1, -0.3, 0.9, 4.0, -7.0]);
            let drawn = draw(
                |pen| {
                    pen.move_to(c.p0);
                    pen.cubic_to(c.p1, c.p2, c.p3);
                },
                to_mm,
            );
            let points = &drawn[0].points;
            let stray = stray(points, |t| to_mm * c.eval(t));
            assert!(stray <= TOLERANCE_MM * 1.0001, "{c:?} strays {stray} mm");
            // kurbo's own flattening, made for few points, as the measure of thrift.
            let mut thrifty = 0;
            let path = kurbo::BezPath::from_vec(vec![PathEl::MoveTo(c.p0), PathEl::CurveTo(c.p1, c.p2, c.p3)]);
            kurbo::flatten(to_mm * path, TOLERANCE_MM, |_| thrifty += 1);
            assert!(4 * points.len() <= 5 * thrifty + 8, "{} points where {thrifty} would do", points.len());
        }
    }

    #[test]
    fn quads_stay_within_the_tolerance() {
        let q = QuadBez::new((0.0, 0.0), (50.0, 10.0), (5.0, 30.0));
        let drawn = draw(
            |pen| {
                pen.move_to(q.p0);
                pen.quad_to(q.p1, q.p2);
            },
            Affine::scale(2.0),
        );
        assert!(stray(&drawn[0].points, |t| Affine::scale(2.0) * q.eval(t)) <= TOLERANCE_MM * 1.0001);
    }

    #[test]
    fn straight_curves_are_one_chord() {
        let drawn = draw(
            |pen| {
                pen.move_to(Point::ZERO);
                pen.cubic_to(Point::new(1.0, 1.0), Point::new(90.0, 90.0), Point::new(100.0, 100.0));
            },
            Affine::IDENTITY,
        );
        assert_eq!(drawn[0].points.len(), 2);
    }

    /// An ellipse by its equation; its area is π·a·b.
    #[test]
    fn ellipses_lie_on_their_curve_and_touch_their_box() {
        let drawn = draw(
            |pen| {
                pen.move_to(Point::new(14.0, 0.0));
                pen.arc_to(&Arc::whole(Point::ZERO, 14.0, 9.0));
                pen.close();
            },
            Affine::IDENTITY,
        );
        let ring = &drawn[0].points;
        assert!(drawn[0].closed);
        assert!(ring.iter().all(|p| ((p.x / 14.0).powi(2) + (p.y / 9.0).powi(2) - 1.0).abs() < 1e-12));
        let area = crate::shape::signed_area_mm2(ring).abs();
        let true_area = std::f64::consts::PI * 14.0 * 9.0;
        assert!(area < true_area && area > true_area - 74.0 * TOLERANCE_MM, "{area}, not {true_area}");
        let extent = crate::shape::Extent::of(ring).unwrap();
        assert!((extent.width_mm() - 28.0).abs() < 1e-12 && (extent.height_mm() - 18.0).abs() < 1e-12);
    }

    #[test]
    fn what_has_no_length_is_left_out_and_what_is_beyond_measure_is_told() {
        let none = draw(
            |pen| {
                pen.move_to(Point::ZERO);
                pen.line_to(Point::ZERO);
                pen.close();
                pen.move_to(Point::new(1.0, 1.0));
            },
            Affine::IDENTITY,
        );
        assert!(none.is_empty());
        let mut pen = Pen::new(Affine::IDENTITY, TOLERANCE_MM, 100);
        pen.move_to(Point::ZERO);
        pen.cubic_to(Point::new(1e300, 0.0), Point::new(f64::NAN, 0.0), Point::new(1.0, 1.0));
        assert!(pen.finish().too_far);
        let mut pen = Pen::new(Affine::IDENTITY, TOLERANCE_MM, 100);
        pen.move_to(Point::ZERO);
        pen.cubic_to(Point::new(1e6, 0.0), Point::new(0.0, 1e6), Point::new(1.0, 1.0));
        assert!(pen.finish().spent);
    }
}
