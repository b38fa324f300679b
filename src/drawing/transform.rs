//! `transform` lists, as an attribute and as a CSS property.
//!
//! Rule: CSS Transforms 1, sections 8 and 13. Sines come from `libm`, so that every machine gives the same.

use super::error::{Bad, word_at};
use super::length::Length;
use super::numbers::Numbers;
use kurbo::Affine;

/// Reads a whole transform list; `none` and the empty list are the identity.
pub(super) fn read(text: &str) -> Result<Affine, Bad> {
    let mut all = Affine::IDENTITY;
    let mut at = skip_separators(text, 0);
    if text[at..].trim_end() == "none" {
        return Ok(all);
    }
    while at < text.len() {
        let open = text[at..].find('(').map(|n| at + n);
        let Some(open) = open else {
            return Err(Bad::new(at, format!("`{}` is not a transform", word_at(text, at))));
        };
        let Some(close) = text[open..].find(')').map(|n| open + n) else {
            return Err(Bad::new(text.len(), "a closing parenthesis is missing"));
        };
        let arguments = arguments(text, open + 1, close)?;
        all *= function(text[at..open].trim_end(), &arguments).map_err(|reason| Bad::new(at, reason))?;
        at = skip_separators(text, close + 1);
    }
    if all.as_coeffs().iter().all(|c| c.is_finite()) { Ok(all) } else { Err(Bad::new(0, "its numbers are too large")) }
}

/// A turn by degrees, clockwise on a page whose y runs down; exact for quarter turns.
pub(super) fn turn(degrees: f64) -> Affine {
    let (sin, cos) = sin_cos_degrees(degrees);
    Affine::new([cos, sin, -sin, cos, 0.0, 0.0])
}

/// Sine and cosine of an angle in degrees; exact for multiples of 90.
pub(super) fn sin_cos_degrees(degrees: f64) -> (f64, f64) {
    let degrees = degrees % 360.0;
    let quarters = degrees / 90.0;
    if quarters == quarters.trunc() {
        return match quarters.rem_euclid(4.0) as u8 {
            0 => (0.0, 1.0),
            1 => (1.0, 0.0),
            2 => (0.0, -1.0),
            _ => (-1.0, 0.0),
        };
    }
    libm::sincos(degrees.to_radians())
}

/// One argument: a number with whatever unit follows it.
struct Argument<'a> {
    number: f64,
    unit: &'a str,
}

impl Argument<'_> {
    fn plain(&self) -> Result<f64, String> {
        match self.unit {
            "" => Ok(self.number),
            unit => Err(format!("a number without `{unit}` is due")),
        }
    }

    fn length(&self) -> Result<f64, String> {
        match Length::read(&format!("{}{}", self.number, self.unit)) {
            Ok(Length::Absolute { px, .. }) => Ok(px),
            Ok(Length::Percent(_)) => Err("a percentage of a box is not read here; give a length".into()),
            Err(bad) => Err(bad.reason),
        }
    }

    fn degrees(&self) -> Result<f64, String> {
        match self.unit.to_ascii_lowercase().as_str() {
            "" | "deg" => Ok(self.number),
            "rad" => Ok(self.number.to_degrees()),
            "grad" => Ok(self.number * 0.9),
            "turn" => Ok(self.number * 360.0),
            unit => Err(format!("`{unit}` is not a unit of angle")),
        }
    }
}

fn arguments(text: &str, from: usize, to: usize) -> Result<Vec<Argument<'_>>, Bad> {
    let mut found = Vec::new();
    let inside = &text[..to];
    let mut at = from;
    loop {
        at = skip_spaces(inside, at);
        if at >= to {
            return Ok(found);
        }
        if !found.is_empty() && inside[at..].starts_with(',') {
            at = skip_spaces(inside, at + 1);
        }
        let mut numbers = Numbers::new(inside);
        numbers.at = at;
        let number = numbers.number()?;
        let start = numbers.at;
        let length = inside[start..].bytes().take_while(|b| b.is_ascii_alphabetic() || *b == b'%').count();
        found.push(Argument { number, unit: &inside[start..start + length] });
        at = start + length;
    }
}

fn function(name: &str, a: &[Argument]) -> Result<Affine, String> {
    let count = |allowed: &[usize]| {
        if allowed.contains(&a.len()) { Ok(()) } else { Err(format!("{name}() does not take {} numbers", a.len())) }
    };
    let tan = |degrees: f64| {
        let (sin, cos) = sin_cos_degrees(degrees);
        sin / cos
    };
    match name.to_ascii_lowercase().as_str() {
        "matrix" => {
            count(&[6])?;
            let mut c = [0.0; 6];
            for (to, from) in c.iter_mut().zip(a) {
                *to = from.plain()?;
            }
            Ok(Affine::new(c))
        }
        "translate" => {
            count(&[1, 2])?;
            Ok(Affine::translate((a[0].length()?, a.get(1).map_or(Ok(0.0), Argument::length)?)))
        }
        "translatex" => count(&[1]).and_then(|()| Ok(Affine::translate((a[0].length()?, 0.0)))),
        "translatey" => count(&[1]).and_then(|()| Ok(Affine::translate((0.0, a[0].length()?)))),
        "scale" => {
            count(&[1, 2])?;
            let x = a[0].plain()?;
            Ok(Affine::scale_non_uniform(x, a.get(1).map_or(Ok(x), Argument::plain)?))
        }
        "scalex" => count(&[1]).and_then(|()| Ok(Affine::scale_non_uniform(a[0].plain()?, 1.0))),
        "scaley" => count(&[1]).and_then(|()| Ok(Affine::scale_non_uniform(1.0, a[0].plain()?))),
        "rotate" => {
            count(&[1, 3])?;
            let centre = match a {
                [_, x, y] => (x.length()?, y.length()?),
                _ => (0.0, 0.0),
            };
            Ok(Affine::translate(centre) * turn(a[0].degrees()?) * Affine::translate((-centre.0, -centre.1)))
        }
        "skewx" => count(&[1]).and_then(|()| Ok(Affine::skew(tan(a[0].degrees()?), 0.0))),
        "skewy" => count(&[1]).and_then(|()| Ok(Affine::skew(0.0, tan(a[0].degrees()?)))),
        "skew" => {
            count(&[1, 2])?;
            let y = a.get(1).map_or(Ok(0.0), Argument::degrees)?;
            Ok(Affine::skew(tan(a[0].degrees()?), tan(y)))
        }
        _ => Err(format!("{name}() is not a transform in the plane")),
    }
}

fn skip_spaces(text: &str, from: usize) -> usize {
    from + text[from..].bytes().take_while(u8::is_ascii_whitespace).count()
}

fn skip_separators(text: &str, from: usize) -> usize {
    from + text[from..].bytes().take_while(|b| b.is_ascii_whitespace() || *b == b',').count()
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Point;

    fn near(a: Point, b: (f64, f64)) -> bool {
        (a.x - b.0).abs() < 1e-9 && (a.y - b.1).abs() < 1e-9
    }

    /// CSS Transforms 1, section 13: the matrices of each function; lists are multiplied left to right.
    #[test]
    fn lists_are_applied_as_nested_groups_would_be() {
        let p = Point::new(3.0, 4.0);
        assert!(near(read("translate(10 , 20)").unwrap() * p, (13.0, 24.0)));
        assert!(near(read("translate(10)scale(2)").unwrap() * p, (16.0, 8.0)));
        assert!(near(read("rotate(90)").unwrap() * p, (-4.0, 3.0)));
        assert!(near(read("rotate(90 1 1)").unwrap() * p, (-2.0, 3.0)));
        assert!(near(read("matrix(1,.2-.1 1.1,20 5)").unwrap() * p, (3.0 - 0.4 + 20.0, 0.6 + 4.4 + 5.0)));
        assert!(near(read("skewX(45)").unwrap() * p, (7.0, 4.0)));
        assert!(near(read("skewY(45)").unwrap() * p, (3.0, 7.0)));
        assert!(near(read("scale(2 3)").unwrap() * p, (6.0, 12.0)));
    }

    #[test]
    fn css_spellings_give_the_same() {
        let p = Point::new(3.0, 4.0);
        assert!(near(read("rotate(.25turn) translateX(1in)").unwrap() * p, (-4.0, 99.0)));
        assert!(near(read("rotate(100grad)").unwrap() * p, (-4.0, 3.0)));
        assert!(near(read("translate(10px, 25.4mm)").unwrap() * p, (13.0, 100.0)));
        assert_eq!(read(" none ").unwrap(), Affine::IDENTITY);
        assert_eq!(read("").unwrap(), Affine::IDENTITY);
    }

    #[test]
    fn what_cannot_be_read_is_told_with_its_place() {
        for (text, byte) in [
            ("translate(1 2", 13),
            ("scale(2) rotate(ten)", 16),
            ("scale(2) wobble(3)", 9),
            ("scale()", 0),
            ("rotate(1 2)", 0),
            ("rotate3d(1,0,0,45deg)", 0),
            ("scale(2) 5", 9),
            ("scale(,2)", 6),
            ("scale(1e308) scale(1e308)", 0),
        ] {
            assert_eq!(read(text).map_err(|b| b.byte), Err(byte), "{text}");
        }
    }
}
