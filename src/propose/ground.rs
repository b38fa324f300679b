//! What lies under the lines: the borders of the picture's colours, and the dots that name a cell's paint.

use std::collections::BTreeMap;

use super::Guess;
use crate::drawing::Layer;
use crate::drawing::survey::{Painted, Stretch, Survey};
use crate::shape::{Face, Point, ring_sides};

/// A line this close to a border follows it, mm.
const NEAR_MM: f64 = 0.2;
/// Distance of places that are looked at, mm.
const STEP_MM: f64 = 1.0;
/// Side of a cell of the lookup, mm.
const CELL_MM: f64 = 4.0;
/// What lies this close inside of a ring belongs to the ring, mm.
const WITHIN_MM: f64 = 0.5;

/// Borders and dots of a drawing.
pub(super) struct Ground {
    borders: BTreeMap<(i64, i64), Vec<(Point, Point)>>,
    outlines: Vec<Stretch>,
    /// Centres of the dots, mm, and their fills.
    pub(super) dots: Vec<(Point, Painted)>,
}

fn cell(at: Point) -> (i64, i64) {
    ((at.x / CELL_MM).floor() as i64, (at.y / CELL_MM).floor() as i64)
}

impl Ground {
    /// The ground of what is proposed for `colour` and `marks`.
    pub(super) fn of(survey: &Survey, guesses: &[Guess]) -> Ground {
        let of = |layer| {
            let parts = guesses.iter().filter(move |g| g.layer == Some(layer));
            parts.flat_map(|g| &g.part.shapes).map(|s| &survey.shapes[*s])
        };
        let outlines: Vec<Stretch> = of(Layer::Colour).flat_map(|shape| shape.outline.clone()).collect();
        let dots =
            of(Layer::Marks).filter_map(|shape| shape.extent().map(|e| (e.min.midpoint(e.max), shape.fill))).collect();
        let mut borders: BTreeMap<_, Vec<(Point, Point)>> = BTreeMap::new();
        for stretch in &outlines {
            let points = &stretch.points;
            for (a, b) in ring_sides(points) {
                let (from, to) =
                    (cell(Point::new(a.x.min(b.x), a.y.min(b.y))), cell(Point::new(a.x.max(b.x), a.y.max(b.y))));
                // A drawing may be a kilometre wide; a border of that length is no border of a picture.
                if (to.0 - from.0).max(to.1 - from.1) > 1000 {
                    continue;
                }
                for x in from.0..=to.0 {
                    for y in from.1..=to.1 {
                        borders.entry((x, y)).or_default().push((*a, *b));
                    }
                }
            }
        }
        Ground { borders, outlines, dots }
    }

    /// Length of all borders, mm.
    pub(super) fn borders_mm(&self) -> f64 {
        self.outlines.iter().map(Stretch::length_mm).sum()
    }

    fn on_border(&self, at: Point) -> bool {
        let (x, y) = cell(at);
        let around = (x - 1..=x + 1).flat_map(|x| (y - 1..=y + 1).map(move |y| (x, y)));
        around.filter_map(|c| self.borders.get(&c)).flatten().any(|(a, b)| distance2(at, *a, *b) <= NEAR_MM * NEAR_MM)
    }

    /// Which share of some lines follows a border.
    pub(super) fn share_on_borders<'a>(&self, lines: impl Iterator<Item = &'a Stretch>) -> f64 {
        if self.borders.is_empty() {
            return 0.0;
        }
        let (mut on, mut all) = (0_usize, 0_usize);
        for place in lines.flat_map(places) {
            all += 1;
            on += usize::from(self.on_border(place));
        }
        on as f64 / all.max(1) as f64
    }

    /// About how much is drawn inside of a face, mm: lines and borders.
    pub(super) fn drawn_inside_mm<'a>(&'a self, face: &Face, lines: impl Iterator<Item = &'a Stretch>) -> f64 {
        let clear = |at: &Point| {
            let ring = ring_sides(&face.outer);
            inside(face, *at) && !ring.into_iter().any(|(a, b)| distance2(*at, *a, *b) <= WITHIN_MM * WITHIN_MM)
        };
        let lines = lines.chain(&self.outlines).flat_map(places).filter(clear).count();
        lines as f64 * STEP_MM
    }
}

/// Places along a stretch, about a millimetre apart.
fn places(stretch: &Stretch) -> Vec<Point> {
    let mut found = Vec::new();
    let mut over = 0.5 * STEP_MM;
    let last = if stretch.closed { stretch.points.first() } else { None };
    let points: Vec<Point> = stretch.points.iter().chain(last).copied().collect();
    for pair in points.windows(2) {
        let length = crate::shape::length_mm(pair[0], pair[1]);
        while over < length && found.len() < 1_000_000 {
            found.push(pair[0].lerp(pair[1], over / length));
            over += STEP_MM;
        }
        over -= length;
    }
    found
}

fn distance2(at: Point, a: Point, b: Point) -> f64 {
    let (way, to) = (b - a, at - a);
    let share = if way.hypot2() > 0.0 { (to.dot(way) / way.hypot2()).clamp(0.0, 1.0) } else { 0.0 };
    (to - way * share).hypot2()
}

/// Whether a place lies in a face, holes left out.
pub(super) fn inside(face: &Face, at: Point) -> bool {
    let crosses = |ring: &[Point]| {
        let sides = ring_sides(ring);
        sides
            .filter(|(a, b)| (a.y > at.y) != (b.y > at.y) && at.x < a.x + (at.y - a.y) / (b.y - a.y) * (b.x - a.x))
            .count()
    };
    face.rings().map(|ring| crosses(ring)).sum::<usize>() % 2 == 1
}
