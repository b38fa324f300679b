//! Where the numbers of the cells stand, and how large; a leader line for a cell too narrow for its own.
//!
//! In: cells with the place and room for their number, the borders in a [`Grid`]. Out: [`Number`]s in mm.
//! Rules: a number is at least [`LEAST_MM`] high and touches no line where its cell has room for that. Where it has none, the number stands
//! beside the cell at the end of a leader with a dot in the cell; no leader crosses another leader or a number, no numbers overlap.

use std::collections::BTreeMap;

use super::grid::{Grid, box_of, grown};
use super::lines::clip;
use crate::shape::{Extent, Point, length_mm};

/// Least height of a number in its own cell, mm.
pub const LEAST_MM: f64 = 2.2;
/// Greatest height of a number, mm.
pub const GREATEST_MM: f64 = 3.2;
/// Height of a number at the end of a leader, mm.
const LED_MM: f64 = 2.2;
/// Clear space between a number and a line, mm.
const CLEAR_MM: f64 = 0.35;
/// Longest leader, mm.
const LEADER_MM: f64 = 100.0;
/// How far outside the board a number may stand at most, mm.
pub const OUTSIDE_MM: f64 = 7.0;

/// A cell that wants a number.
#[derive(Clone, Debug)]
pub struct Wanted {
    /// The number as printed.
    pub text: String,
    /// Centre of the largest circle in the cell, mm.
    pub at: Point,
    /// Its radius, mm.
    pub room_mm: f64,
}

/// A number in its place.
#[derive(Clone, Debug)]
pub struct Number {
    /// The number as printed.
    pub text: String,
    /// Centre of its box, mm.
    pub at: Point,
    /// Height of its digits, mm.
    pub height_mm: f64,
    /// The box of its digits, mm.
    pub taken: Extent,
    /// The leader: from the dot in the cell to the number's box, mm; and the dot's radius.
    pub leader: Option<(Point, Point, f64)>,
}

/// Places all numbers. `allowed` is the box they keep within; `digit_em` advance and height of a digit in ems.
pub fn place(wanted: &[Wanted], grid: &Grid, allowed: Extent, digit_em: (f64, f64)) -> Vec<Number> {
    let ratio = digit_em.0 / digit_em.1;
    let mut taken = Taken::default();
    let mut numbers: Vec<Option<Number>> = wanted.iter().map(|w| in_its_cell(w, grid, ratio)).collect();
    for number in numbers.iter().flatten() {
        taken.add_box(number.taken);
    }
    // Cells with the least room have the fewest places to choose from in crowded corners, so the dots are claimed first:
    // no number may cover the dot of another cell.
    for (wanted, number) in wanted.iter().zip(&numbers) {
        if number.is_none() {
            taken.add_box(grown(box_of(wanted.at, wanted.at), 0.4));
        }
    }
    // Then the narrowest first: they can do with the fewest places, and a number that finds none must stay in its cell.
    let mut order: Vec<usize> = (0..wanted.len()).filter(|i| numbers[*i].is_none()).collect();
    order.sort_by(|a, b| wanted[*a].room_mm.total_cmp(&wanted[*b].room_mm).then(a.cmp(b)));
    for index in order {
        let led = with_leader(&wanted[index], grid, allowed, ratio, &taken);
        if let Some((dot, end, _)) = led.leader {
            taken.add_leader(dot, end);
        }
        taken.add_box(led.taken);
        numbers[index] = Some(led);
    }
    numbers.into_iter().flatten().collect()
}

/// Half width and half height of a number of this height, mm.
fn half_mm(text: &str, height_mm: f64, ratio: f64) -> (f64, f64) {
    (text.chars().count() as f64 * ratio * height_mm / 2.0, height_mm / 2.0)
}

fn around(at: Point, half: (f64, f64)) -> Extent {
    Extent { min: Point::new(at.x - half.0, at.y - half.1), max: Point::new(at.x + half.0, at.y + half.1) }
}

fn in_its_cell(wanted: &Wanted, grid: &Grid, ratio: f64) -> Option<Number> {
    let (w, h) = half_mm(&wanted.text, 1.0, ratio);
    let by_circle = (wanted.room_mm - CLEAR_MM) / (w * w + h * h).sqrt();
    let height_mm = if by_circle >= LEAST_MM {
        by_circle.min(GREATEST_MM)
    } else {
        // The circle is too small, but a long cell may still hold the box of the number.
        let taken = around(wanted.at, half_mm(&wanted.text, LEAST_MM, ratio));
        if wanted.room_mm < LEAST_MM / 2.0 || hits(grid, taken) > 0 {
            return None;
        }
        LEAST_MM
    };
    let taken = around(wanted.at, half_mm(&wanted.text, height_mm, ratio));
    Some(Number { text: wanted.text.clone(), at: wanted.at, height_mm, taken, leader: None })
}

/// How many segments come nearer to the box than [`CLEAR_MM`].
fn hits(grid: &Grid, taken: Extent) -> usize {
    let clear = grown(taken, CLEAR_MM);
    grid.near(clear).filter(|s| clip(s.a, s.b, clear).is_some()).count()
}

fn with_leader(wanted: &Wanted, grid: &Grid, allowed: Extent, ratio: f64, taken: &Taken) -> Number {
    let half = half_mm(&wanted.text, LED_MM, ratio);
    let mut best: Option<(f64, Number)> = None;
    let mut reach = half.0.max(half.1) + 2.4;
    while reach < LEADER_MM && best.as_ref().is_none_or(|(cost, _)| *cost > reach) {
        for step in 0..32 {
            let turn = f64::from(step) * std::f64::consts::TAU / 32.0;
            let at = Point::new(wanted.at.x + reach * libm::cos(turn), wanted.at.y + reach * libm::sin(turn));
            let own = around(at, half);
            if own.min.x < allowed.min.x
                || own.max.x > allowed.max.x
                || own.min.y < allowed.min.y
                || own.max.y > allowed.max.y
            {
                continue;
            }
            let end = edge(wanted.at, at, grown(own, 0.3));
            if !taken.leaves_room(own, wanted.at, end) {
                continue;
            }
            let crossed = crossings(grid, wanted.at, end);
            let cost = reach + 25.0 * hits(grid, grown(own, 0.35)) as f64 + crossed as f64;
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                let dot = (wanted.room_mm * 0.8).clamp(0.12, 0.3);
                let number = Number {
                    text: wanted.text.clone(),
                    at,
                    height_mm: LED_MM,
                    taken: own,
                    leader: Some((wanted.at, end, dot)),
                };
                best = Some((cost, number));
            }
        }
        reach += 1.2;
    }
    best.map(|(_, number)| number).unwrap_or_else(|| {
        // No free place within reach: the number stays in its cell, as small as the cell asks, down to 1 mm.
        let (w, h) = half_mm(&wanted.text, 1.0, ratio);
        let height_mm = (wanted.room_mm / (w * w + h * h).sqrt()).clamp(1.0, LEAST_MM);
        let own = around(wanted.at, half_mm(&wanted.text, height_mm, ratio));
        Number { text: wanted.text.clone(), at: wanted.at, height_mm, taken: own, leader: None }
    })
}

/// Where the line from `from` to the centre `at` enters the box.
fn edge(from: Point, at: Point, own: Extent) -> Point {
    clip(from, at, own).map_or(at, |(enter, _)| enter)
}

fn crossings(grid: &Grid, a: Point, b: Point) -> usize {
    // A border of two cells lies in the grid twice; that it then counts double does no harm.
    grid.near(box_of(a, b)).filter(|s| cross(a, b, s.a, s.b)).count()
}

/// Whether two segments cross properly; good enough where only looks depend on it.
fn cross(a: Point, b: Point, c: Point, d: Point) -> bool {
    let side = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

/// Side of the squares in which taken places are filed, mm.
const SQUARE_MM: f64 = 8.0;

/// Places that numbers and leaders have taken.
#[derive(Default)]
struct Taken {
    boxes: BTreeMap<(i64, i64), Vec<Extent>>,
    leaders: BTreeMap<(i64, i64), Vec<(Point, Point)>>,
}

impl Taken {
    fn squares(within: Extent) -> impl Iterator<Item = (i64, i64)> {
        let place = |mm: f64| (mm / SQUARE_MM).floor() as i64;
        let (left, right) = (place(within.min.x), place(within.max.x));
        (place(within.min.y)..=place(within.max.y)).flat_map(move |row| (left..=right).map(move |column| (row, column)))
    }

    fn add_box(&mut self, own: Extent) {
        for square in Taken::squares(own) {
            self.boxes.entry(square).or_default().push(own);
        }
    }

    fn add_leader(&mut self, dot: Point, end: Point) {
        for square in Taken::squares(box_of(dot, end)) {
            self.leaders.entry(square).or_default().push((dot, end));
        }
    }

    /// Whether a number here with its leader to `dot` keeps clear of every number, dot and leader so far.
    fn leaves_room(&self, own: Extent, dot: Point, end: Point) -> bool {
        let clear = grown(own, 0.5);
        let whole = Extent {
            min: Point::new(clear.min.x.min(dot.x), clear.min.y.min(dot.y)),
            max: Point::new(clear.max.x.max(dot.x), clear.max.y.max(dot.y)),
        };
        // The cell's own dot lies at the leader's beginning and is no obstacle.
        let its_own =
            |other: &Extent| other.min.x < dot.x && dot.x < other.max.x && other.min.y < dot.y && dot.y < other.max.y;
        Taken::squares(whole).all(|square| {
            let boxes_clear = self.boxes.get(&square).into_iter().flatten().all(|other| {
                let apart = clear.max.x < other.min.x
                    || other.max.x < clear.min.x
                    || clear.max.y < other.min.y
                    || other.max.y < clear.min.y;
                apart && (its_own(other) || clip(dot, end, grown(*other, 0.25)).is_none())
            });
            let leaders_clear =
                self.leaders.get(&square).into_iter().flatten().all(|(a, b)| {
                    clip(*a, *b, clear).is_none() && !cross(dot, end, *a, *b) && length_mm(end, *b) > 0.5
                });
            boxes_clear && leaders_clear
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::grid::Segment;
    use super::*;

    fn outline(points: &[(f64, f64)]) -> Vec<Segment> {
        let p = |i: usize| Point::new(points[i % points.len()].0, points[i % points.len()].1);
        (0..points.len()).map(|i| Segment { a: p(i), b: p(i + 1) }).collect()
    }

    fn wanted(text: &str, x: f64, y: f64, room_mm: f64) -> Wanted {
        Wanted { text: text.to_owned(), at: Point::new(x, y), room_mm }
    }

    const BOARD: Extent = Extent { min: Point::new(0.0, 0.0), max: Point::new(100.0, 60.0) };

    #[test]
    fn a_wide_cell_holds_its_number_and_a_sliver_gets_a_leader() {
        let sliver = outline(&[(0.0, 30.0), (100.0, 30.0), (100.0, 31.0), (0.0, 31.0)]);
        let grid = Grid::new([outline(&[(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]), sliver].concat());
        let numbers =
            place(&[wanted("7", 50.0, 15.0, 15.0), wanted("12", 50.0, 30.5, 0.5)], &grid, BOARD, (0.465, 0.65));
        assert_eq!((numbers[0].height_mm, numbers[0].leader), (GREATEST_MM, None));
        let (dot, _, radius_mm) = numbers[1].leader.expect("no room for 2.2 mm in 1 mm");
        assert_eq!(dot, Point::new(50.0, 30.5));
        assert!(radius_mm <= 0.5 && numbers[1].height_mm >= LEAST_MM);
        assert_eq!(hits(&grid, numbers[1].taken), 0, "the number stands clear of all lines");
    }

    #[test]
    fn a_long_low_cell_holds_two_digits_without_a_leader() {
        let low = outline(&[(0.0, 10.0), (100.0, 10.0), (100.0, 13.2), (0.0, 13.2)]);
        let numbers = place(&[wanted("12", 50.0, 11.6, 1.6)], &Grid::new(low), BOARD, (0.465, 0.65));
        assert_eq!((numbers[0].height_mm, numbers[0].leader), (LEAST_MM, None));
    }

    #[test]
    fn among_forty_slivers_no_leader_crosses_a_number_or_another_leader() {
        let mut segments = outline(&[(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]);
        let mut cells = Vec::new();
        for i in 0..40 {
            let x = 10.0 + f64::from(i) * 2.0;
            segments.extend(outline(&[(x, 20.0), (x + 0.8, 20.0), (x + 0.8, 32.0), (x, 32.0)]));
            cells.push(wanted(&(i + 1).to_string(), x + 0.4, 26.0, 0.4));
        }
        let numbers = place(&cells, &Grid::new(segments), BOARD, (0.465, 0.65));
        assert_eq!(numbers.len(), 40);
        let led = numbers.iter().filter(|n| n.leader.is_some()).count();
        assert!(led >= 36, "{led} of 40 found a place");
        for (i, one) in numbers.iter().enumerate() {
            for other in &numbers[i + 1..] {
                let (a, b) = (one.taken, other.taken);
                let apart = a.max.x < b.min.x || b.max.x < a.min.x || a.max.y < b.min.y || b.max.y < a.min.y;
                assert!(apart || one.leader.is_none() || other.leader.is_none(), "{} on {}", one.text, other.text);
                if let (Some((a, b, _)), Some((c, d, _))) = (one.leader, other.leader) {
                    assert!(!cross(a, b, c, d), "{} crosses {}", one.text, other.text);
                    assert!(clip(a, b, other.taken).is_none() && clip(c, d, one.taken).is_none());
                }
            }
        }
    }
}
