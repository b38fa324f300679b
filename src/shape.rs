//! The plain shapes that travel between the rooms: points, rings and faces in millimetres, and colours.
//!
//! x runs right, y runs down, from the top left of the drawing's viewport. A ring does not repeat its first
//! point. The outer ring of a [`Face`] has positive signed area by the shoelace formula, holes have negative.

pub use kurbo::Point;

/// A closed polygon without its repeated first point, mm.
pub type Ring = Vec<Point>;

/// The ends of each side of a closed ring, the one from the last point back to the first at the end.
pub fn ring_sides<T>(ring: &[T]) -> impl Iterator<Item = (&T, &T)> + Clone {
    ring.windows(2).map(|side| (&side[0], &side[1])).chain(ring.last().zip(ring.first()))
}

/// Signed area by the shoelace formula, mm²; positive for outer rings.
pub fn signed_area_mm2(ring: &[Point]) -> f64 {
    let Some(&origin) = ring.first() else {
        return 0.0;
    };
    // Taken about the first point, so that drawings far from the origin lose no digits.
    let twice: f64 = ring_sides(ring).map(|(a, b)| (*a - origin).cross(*b - origin)).sum();
    twice / 2.0
}

/// Length of the closed ring, mm.
pub fn ring_length_mm(ring: &[Point]) -> f64 {
    ring_sides(ring).map(|(a, b)| length_mm(*a, *b)).sum()
}

/// Distance of two points, mm; the same on every machine.
pub fn length_mm(a: Point, b: Point) -> f64 {
    let d = b - a;
    (d.x * d.x + d.y * d.y).sqrt()
}

/// A region with one outer ring and any number of holes, mm.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Face {
    /// Outer ring, positive signed area.
    pub outer: Ring,
    /// Holes, negative signed area each.
    pub holes: Vec<Ring>,
}

impl Face {
    /// Area without the holes, mm².
    pub fn area_mm2(&self) -> f64 {
        signed_area_mm2(&self.outer) + self.holes.iter().map(|h| signed_area_mm2(h)).sum::<f64>()
    }

    /// All rings, the outer one first.
    pub fn rings(&self) -> impl Iterator<Item = &Ring> {
        std::iter::once(&self.outer).chain(&self.holes)
    }
}

/// Box around points, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Least x and y.
    pub min: Point,
    /// Greatest x and y.
    pub max: Point,
}

impl Extent {
    /// The box around all points; `None` without any.
    pub fn of<'a>(points: impl IntoIterator<Item = &'a Point>) -> Option<Extent> {
        points.into_iter().fold(None, |all: Option<Extent>, p| {
            Some(all.map_or(Extent { min: *p, max: *p }, |e| Extent {
                min: Point::new(e.min.x.min(p.x), e.min.y.min(p.y)),
                max: Point::new(e.max.x.max(p.x), e.max.y.max(p.y)),
            }))
        })
    }

    /// The box grown by so many mm on every side.
    pub fn inflate(&self, by_mm: f64) -> Extent {
        let by = kurbo::Vec2::new(by_mm, by_mm);
        Extent { min: self.min - by, max: self.max + by }
    }

    /// Whether two boxes share a place.
    pub fn meets(&self, other: &Extent) -> bool {
        self.min.x <= other.max.x && other.min.x <= self.max.x && self.min.y <= other.max.y && other.min.y <= self.max.y
    }

    /// Width, mm.
    pub fn width_mm(&self) -> f64 {
        self.max.x - self.min.x
    }

    /// Height, mm.
    pub fn height_mm(&self) -> f64 {
        self.max.y - self.min.y
    }
}

/// An opaque sRGB colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Rgb {
    /// Red, 0 to 255.
    pub r: u8,
    /// Green, 0 to 255.
    pub g: u8,
    /// Blue, 0 to 255.
    pub b: u8,
}

impl Rgb {
    /// From three bytes.
    pub const fn new(r: u8, g: u8, b: u8) -> Rgb {
        Rgb { r, g, b }
    }
}

impl std::fmt::Display for Rgb {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "#{:02x}{:02x}{:02x}", self.r, self.g, self.b)
    }
}
