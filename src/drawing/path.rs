//! Path data: every command of SVG 2, section 9.3, drawn with a [`Pen`].
//!
//! Never here: a path that goes on after a mistake; reading stops there, and the mistake is told with its place.

use super::arc::{Arc, ByEnds};
use super::error::Bad;
use super::flatten::Pen;
use kurbo::Point;
use svgtypes::{PathParser, PathSegment};

/// The last control point, which smooth curves mirror.
enum Control {
    None,
    Quad(Point),
    Cubic(Point),
}

/// Draws path data. What stands before a mistake has been drawn when the mistake is returned.
pub(super) fn draw(data: &str, pen: &mut Pen) -> Result<(), Bad> {
    if data.trim() == "none" {
        return Ok(());
    }
    let (mut here, mut start) = (Point::ZERO, Point::ZERO);
    let mut control = Control::None;
    let mut after_close = false;
    for segment in PathParser::from(data) {
        let segment = segment.map_err(|e| Bad::from_svgtypes(data, &e))?;
        let base = if segment.is_abs() { Point::ZERO } else { here };
        let at = |x: f64, y: f64| Point::new(base.x + x, base.y + y);
        // After a closed stretch the next one starts where that one did.
        if std::mem::take(&mut after_close)
            && !matches!(segment, PathSegment::MoveTo { .. } | PathSegment::ClosePath { .. })
        {
            pen.move_to(here);
        }
        let previous = std::mem::replace(&mut control, Control::None);
        match segment {
            PathSegment::MoveTo { x, y, .. } => {
                here = at(x, y);
                start = here;
                pen.move_to(here);
            }
            PathSegment::LineTo { x, y, .. } => {
                here = at(x, y);
                pen.line_to(here);
            }
            PathSegment::HorizontalLineTo { x, .. } => {
                here = Point::new(base.x + x, here.y);
                pen.line_to(here);
            }
            PathSegment::VerticalLineTo { y, .. } => {
                here = Point::new(here.x, base.y + y);
                pen.line_to(here);
            }
            PathSegment::CurveTo { x1, y1, x2, y2, x, y, .. } => {
                pen.cubic_to(at(x1, y1), at(x2, y2), at(x, y));
                (here, control) = (at(x, y), Control::Cubic(at(x2, y2)));
            }
            PathSegment::SmoothCurveTo { x2, y2, x, y, .. } => {
                let first = match previous {
                    Control::Cubic(last) => here + (here - last),
                    _ => here,
                };
                pen.cubic_to(first, at(x2, y2), at(x, y));
                (here, control) = (at(x, y), Control::Cubic(at(x2, y2)));
            }
            PathSegment::Quadratic { x1, y1, x, y, .. } => {
                pen.quad_to(at(x1, y1), at(x, y));
                (here, control) = (at(x, y), Control::Quad(at(x1, y1)));
            }
            PathSegment::SmoothQuadratic { x, y, .. } => {
                let mirrored = match previous {
                    Control::Quad(last) => here + (here - last),
                    _ => here,
                };
                pen.quad_to(mirrored, at(x, y));
                (here, control) = (at(x, y), Control::Quad(mirrored));
            }
            PathSegment::EllipticalArc { rx, ry, x_axis_rotation, large_arc, sweep, x, y, .. } => {
                let to = at(x, y);
                let ends = ByEnds { rx, ry, rotation_degrees: x_axis_rotation, large: large_arc, sweep, to };
                match Arc::between(here, &ends) {
                    Some(arc) => pen.arc_to(&arc),
                    None => pen.line_to(to),
                }
                here = to;
            }
            PathSegment::ClosePath { .. } => {
                pen.close();
                here = start;
                after_close = true;
            }
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::flatten::Subpath;
    use crate::shape::{length_mm, ring_length_mm};
    use kurbo::{Affine, BezPath, Shape};

    fn drawn(data: &str) -> Vec<Subpath> {
        let mut pen = Pen::new(Affine::IDENTITY, 0.0005, 1 << 20);
        draw(data, &mut pen).unwrap();
        pen.finish().subpaths
    }

    fn length(subpaths: &[Subpath]) -> f64 {
        let one = |s: &Subpath| match s.closed {
            true => ring_length_mm(&s.points),
            false => s.points.windows(2).map(|w| length_mm(w[0], w[1])).sum(),
        };
        subpaths.iter().map(one).sum()
    }

    /// kurbo reads path data on its own; lengths of the same data agree.
    #[test]
    fn every_command_agrees_with_another_reader() {
        for data in [
            "M10 10 150 10 150 100 10 100Zm45 0c10 15-10 30 0 45s-8 30 0 45",
            "M150 50q-20 20-40 0t-40 0T30 50H10",
            "M75,15h14v9l-7 6-7-6Z",
            "M118 75 A12 8 30 1 1 128 80z",
            "M22 70C30 64 38 64 40 72S36 90 28 88Z",
            "m90,30a9,9 0 1010 10z",
            "M1e1 1E1h1.2e+2v.8e2H10z",
            "M20 20a5 5 0 0110 10zM50 20.5l-.5 19.5 21-.5-.25-19.5z",
            "M0 0L10 0S20 10 30 0Q40 10 50 0t10 5V30T5 5",
        ] {
            let theirs = BezPath::from_svg(data).unwrap().perimeter(1e-6);
            let ours = length(&drawn(data));
            assert!((ours - theirs).abs() < 1e-4 * theirs, "{data}: {ours}, not {theirs}");
        }
    }

    /// SVG 2, section 9.3.4: if a closepath is followed by another command, the next subpath starts at the same point.
    #[test]
    fn what_follows_a_closed_part_starts_where_that_started() {
        let parts = drawn("M5 5h10v10zl-5 0M1 1zm2 2h1");
        let ends: Vec<_> = parts.iter().map(|s| (s.points[0], s.points.len(), s.closed)).collect();
        assert_eq!(
            ends,
            [(Point::new(5.0, 5.0), 3, true), (Point::new(5.0, 5.0), 2, false), (Point::new(3.0, 3.0), 2, false)]
        );
    }

    #[test]
    fn mistakes_are_told_with_their_byte() {
        let mut bytes = Vec::new();
        for data in
            ["M10 10 L 60 ten", "M10 10 L 60", "L 5 5", "M0 0 X 5", "M0 0 A5 5 0 2 0 9 9", "M0 0Z5 5", "é", "M1e999 0"]
        {
            let mut pen = Pen::new(Affine::IDENTITY, 0.01, 100);
            bytes.push(draw(data, &mut pen).unwrap_err().byte);
        }
        assert_eq!(bytes, [12, 11, 0, 5, 12, 5, 0, 1]);
        let mut pen = Pen::new(Affine::IDENTITY, 0.01, 100);
        assert_eq!(draw("", &mut pen), Ok(()));
    }
}
