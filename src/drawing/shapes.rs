//! Outlines of the drawn elements: `path` and the basic shapes.
//!
//! Rule: SVG 2, sections 9 and 10. A size of nought draws nothing; a negative one, or half a pair of points, is a mistake.

use super::arc::{Arc, ByEnds};
use super::error::{Bad, DrawingError};
use super::flatten::Pen;
use super::length::{Side, Viewport};
use super::numbers::Numbers;
use super::path;
use super::size::{length_px, positive_px};
use super::style::{Cascade, Written};
use super::tree::{Element, Tree};
use kurbo::Point;

/// Whether an element of this name is drawn as an outline.
pub(super) fn is_shape(name: &str) -> bool {
    matches!(name, "path" | "rect" | "circle" | "ellipse" | "line" | "polyline" | "polygon")
}

/// Whether markers are set along it. SVG 2, section 13.7, for all that have vertices of their own.
pub(super) fn takes_markers(name: &str) -> bool {
    matches!(name, "path" | "line" | "polyline" | "polygon")
}

/// Draws the outline of one element.
pub(super) fn draw<'a>(
    tree: &Tree<'a>,
    element: Element<'a>,
    own: &Cascade<'a>,
    viewport: Viewport,
    pen: &mut Pen,
) -> Result<(), DrawingError> {
    let name = element.tag_name().name();
    let length = |name, side| Ok(length_px(tree, element, own, name, side, viewport)?.unwrap_or(0.0));
    let radius = |name, side| positive_px(tree, element, own, name, side, viewport);
    match name {
        "path" => path_data(own).map_or(Ok(()), |(data, at)| {
            path::draw(data, pen).map_err(|bad| {
                let bad = Bad { byte: bad.byte + at, ..bad };
                DrawingError::BadPath(tree.fault(element, "d", bad))
            })
        }),
        "polyline" | "polygon" => points(element.attribute("points").unwrap_or(""), name == "polygon", pen)
            .map_err(|bad| DrawingError::BadPoints(tree.fault(element, "points", bad))),
        "line" => {
            pen.move_to(Point::new(length("x1", Side::Width)?, length("y1", Side::Height)?));
            pen.line_to(Point::new(length("x2", Side::Width)?, length("y2", Side::Height)?));
            Ok(())
        }
        "circle" => {
            let centre = Point::new(length("cx", Side::Width)?, length("cy", Side::Height)?);
            let r = radius("r", Side::Both)?.unwrap_or(0.0);
            ellipse(centre, r, r, pen);
            Ok(())
        }
        "ellipse" => {
            let centre = Point::new(length("cx", Side::Width)?, length("cy", Side::Height)?);
            let (rx, ry) = (radius("rx", Side::Width)?, radius("ry", Side::Height)?);
            // Either stands in for the other; without both there is nothing.
            ellipse(centre, rx.or(ry).unwrap_or(0.0), ry.or(rx).unwrap_or(0.0), pen);
            Ok(())
        }
        "rect" => {
            let corner = Point::new(length("x", Side::Width)?, length("y", Side::Height)?);
            let width = radius("width", Side::Width)?.unwrap_or(0.0);
            let height = radius("height", Side::Height)?.unwrap_or(0.0);
            let (rx, ry) = (radius("rx", Side::Width)?, radius("ry", Side::Height)?);
            let rounding = (rx.or(ry).unwrap_or(0.0).min(width / 2.0), ry.or(rx).unwrap_or(0.0).min(height / 2.0));
            if width > 0.0 && height > 0.0 {
                rect(corner, width, height, rounding, pen);
            }
            Ok(())
        }
        _ => Ok(()),
    }
}

/// The path data of an element, and where they start in the value that holds them.
fn path_data<'a>(own: &Cascade<'a>) -> Option<(&'a str, usize)> {
    own.values("d").find_map(|(written, value)| match written {
        Written::Attribute => Some((value, 0)),
        Written::Css => {
            let inside = value.trim().strip_prefix("path(")?.strip_suffix(')')?.trim();
            let quote = inside.chars().next().filter(|c| matches!(c, '"' | '\''))?;
            let data = inside.strip_prefix(quote)?.strip_suffix(quote)?;
            Some((data, value.find(quote)? + 1))
        }
    })
}

fn points(text: &str, closed: bool, pen: &mut Pen) -> Result<(), Bad> {
    let end = text.trim_end().len();
    let mut numbers = Numbers::new(&text[..end]);
    let mut first = true;
    numbers.skip_spaces();
    while numbers.at < end {
        let mut pair = [0.0; 2];
        for number in &mut pair {
            if numbers.at >= end {
                return Err(Bad::new(end, "the last point lacks its second number"));
            }
            *number = numbers.listed()?;
        }
        let point = Point::new(pair[0], pair[1]);
        if std::mem::take(&mut first) { pen.move_to(point) } else { pen.line_to(point) }
    }
    if closed {
        pen.close();
    }
    Ok(())
}

fn ellipse(centre: Point, rx: f64, ry: f64, pen: &mut Pen) {
    if rx > 0.0 && ry > 0.0 {
        pen.move_to(Point::new(centre.x + rx, centre.y));
        pen.arc_to(&Arc::whole(centre, rx, ry));
        pen.close();
    }
}

/// SVG 2, section 10.2, the equivalent path.
fn rect(corner: Point, width: f64, height: f64, (rx, ry): (f64, f64), pen: &mut Pen) {
    let Point { x: left, y: top } = corner;
    let (right, bottom) = (left + width, top + height);
    if rx == 0.0 || ry == 0.0 {
        pen.move_to(corner);
        for (x, y) in [(right, top), (right, bottom), (left, bottom)] {
            pen.line_to(Point::new(x, y));
        }
    } else {
        let corners = [
            ((right - rx, top), (right, top + ry)),
            ((right, bottom - ry), (right - rx, bottom)),
            ((left + rx, bottom), (left, bottom - ry)),
            ((left, top + ry), (left + rx, top)),
        ];
        pen.move_to(Point::new(left + rx, top));
        for (from, to) in corners {
            pen.line_to(from.into());
            let ends = ByEnds { rx, ry, rotation_degrees: 0.0, large: false, sweep: true, to: to.into() };
            if let Some(arc) = Arc::between(from.into(), &ends) {
                pen.arc_to(&arc);
            }
        }
    }
    pen.close();
}
