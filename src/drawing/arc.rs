//! Elliptical arcs: from the two ends that path data give to centre and angles.
//!
//! Rule: SVG 2, appendix B.2.4 and B.2.5. Angles come from `libm`, so that every machine gives the same.

use super::transform::sin_cos_degrees;
use kurbo::{Point, Vec2};
use std::f64::consts::TAU;

/// The curve `centre + u·cos θ + v·sin θ` for θ from `from` over `sweep`, radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Arc {
    pub centre: Point,
    pub u: Vec2,
    pub v: Vec2,
    pub from: f64,
    pub sweep: f64,
    /// Where it ends, as written.
    pub to: Point,
}

/// An arc as path data give it, but for the start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct ByEnds {
    pub rx: f64,
    pub ry: f64,
    pub rotation_degrees: f64,
    pub large: bool,
    pub sweep: bool,
    pub to: Point,
}

impl Arc {
    /// A whole ellipse, from three o'clock by six.
    pub(super) fn whole(centre: Point, rx: f64, ry: f64) -> Arc {
        let to = Point::new(centre.x + rx, centre.y);
        Arc { centre, u: Vec2::new(rx, 0.0), v: Vec2::new(0.0, ry), from: 0.0, sweep: TAU, to }
    }

    /// The arc between two ends; `None` where it is a straight line, or nothing at all.
    pub(super) fn between(start: Point, arc: &ByEnds) -> Option<Arc> {
        let (mut rx, mut ry) = (arc.rx.abs(), arc.ry.abs());
        if rx == 0.0 || ry == 0.0 || start == arc.to {
            return None;
        }
        let (sin, cos) = sin_cos_degrees(arc.rotation_degrees);
        // Half the chord in the frame of the ellipse: B.2.4, step 1.
        let half = (start - arc.to) / 2.0;
        let half = Vec2::new(cos * half.x + sin * half.y, cos * half.y - sin * half.x);
        // Radii too small to reach are scaled up: B.2.5, step 3.
        let reach = (half.x / rx) * (half.x / rx) + (half.y / ry) * (half.y / ry);
        let stretched = reach > 1.0;
        if stretched {
            rx *= reach.sqrt();
            ry *= reach.sqrt();
        }
        // On the unit circle: the middle of the chord lies `height` from the centre: step 2.
        let unit = Vec2::new(half.x / rx, half.y / ry);
        let squared = unit.hypot2();
        let height = if stretched { 0.0 } else { ((1.0 - squared).max(0.0) / squared).sqrt() };
        let height = if arc.large == arc.sweep { -height } else { height };
        let middle = Vec2::new(height * unit.y, -height * unit.x);
        let (u, v) = (Vec2::new(cos, sin) * rx, Vec2::new(-sin, cos) * ry);
        let centre = start.midpoint(arc.to) + u * middle.x + v * middle.y;
        // Steps 4 to 6.
        let (first, last) = (unit - middle, -unit - middle);
        let from = libm::atan2(first.y, first.x);
        let mut sweep = libm::atan2(last.y, last.x) - from;
        if arc.sweep && sweep < 0.0 {
            sweep += TAU;
        } else if !arc.sweep && sweep > 0.0 {
            sweep -= TAU;
        }
        let arc = Arc { centre, u, v, from, sweep, to: arc.to };
        (sweep != 0.0 && centre.is_finite() && u.is_finite() && v.is_finite()).then_some(arc)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ends(rx: f64, ry: f64, rotation_degrees: f64, large: bool, sweep: bool, to: (f64, f64)) -> ByEnds {
        ByEnds { rx, ry, rotation_degrees, large, sweep, to: to.into() }
    }

    /// kurbo's own conversion, an independent reading of the same appendix; it takes a root of a rounding error where
    /// radii are too small to reach, hence no closer than a millionth.
    #[test]
    fn arcs_agree_with_another_reading_of_the_appendix() {
        let start = Point::new(118.0, 75.0);
        for (rx, ry, turn) in [(12.0, 8.0, 30.0), (40.0, 8.0, -75.0), (3.0, 1.0, 10.0), (9.0, 9.0, 0.0)] {
            for (large, sweep) in [(false, false), (false, true), (true, false), (true, true)] {
                let ours = Arc::between(start, &ends(rx, ry, turn, large, sweep, (128.0, 80.0))).unwrap();
                let theirs = kurbo::Arc::from_svg_arc(&kurbo::SvgArc {
                    from: start,
                    to: Point::new(128.0, 80.0),
                    radii: Vec2::new(rx, ry),
                    x_rotation: turn.to_radians(),
                    large_arc: large,
                    sweep,
                })
                .unwrap();
                assert!((ours.centre - theirs.center).hypot() < 1e-6, "{rx} {ry} {turn} {large} {sweep}");
                assert!((ours.sweep - theirs.sweep_angle).abs() < 1e-6);
            }
        }
    }

    /// Through both ends, whatever the flags.
    #[test]
    fn arcs_start_and_end_where_they_are_told() {
        let arc = Arc::between(Point::new(1.0, 2.0), &ends(5.0, 3.0, 20.0, true, false, (4.0, -1.0))).unwrap();
        let at = |t: f64| arc.centre + arc.u * t.cos() + arc.v * t.sin();
        assert!((at(arc.from) - Point::new(1.0, 2.0)).hypot() < 1e-12);
        assert!((at(arc.from + arc.sweep) - arc.to).hypot() < 1e-12);
    }

    #[test]
    fn radii_of_nought_and_equal_ends_make_no_arc() {
        assert_eq!(Arc::between(Point::ZERO, &ends(0.0, 3.0, 0.0, true, true, (4.0, 0.0))), None);
        assert_eq!(Arc::between(Point::ZERO, &ends(5.0, 3.0, 0.0, true, true, (0.0, 0.0))), None);
    }
}
