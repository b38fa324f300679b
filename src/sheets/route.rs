//! The way of the beam: how long it burns, how far it travels between lines, and in which order it travels less.
//!
//! In: the drawing's lines and the outline of its boards, mm. Out: [`Run`]s: what is burnt, the travel as drawn and as advised.
//! Rules: openings and other closed lines inside the board come first, the lines between pieces next, the outline last, so that nothing moves before it must;
//! within each of these the beam goes to whatever begins nearest. Travel is counted from the top left of the drawing, and not back.
//! Common practice, no source: many machines' programs sort lines in this way by themselves.
//! Never here: acceleration, or time for moving the head up and down: times are lengths over speeds, a little less than the machine takes.

use super::grid::{Grid, Segment, box_of, grown};
use super::lines::to_segment_mm;
use crate::drawing::{Layer, Line};
use crate::shape::{Point, Ring, length_mm, ring_length_mm, ring_sides};

/// How near to the outline a line lies on it, mm.
const ON_MM: f64 = 0.1;
/// Places of a closed line at which the beam may begin.
const BEGINNINGS: usize = 32;

/// When a line's turn is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Turn {
    /// An opening, a figure or another closed line inside the board.
    Inside,
    /// Between pieces.
    Between,
    /// On the board's edge.
    Outline,
}

/// One line as the beam follows it.
#[derive(Clone, Debug, PartialEq)]
pub struct Stroke {
    /// Its points; a closed one does not repeat the first.
    pub points: Vec<Point>,
    /// Its ends are one place.
    pub closed: bool,
    /// When it comes.
    pub turn: Turn,
}

/// Lines in one run of the machine, and the travel between them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Run {
    /// How many lines come first, next and last.
    pub counts: [usize; 3],
    /// Travel in the drawing's own order, mm.
    pub drawn_mm: f64,
    /// Travel in the advised order, mm.
    pub advised_mm: f64,
}

/// The cut lines of a drawing, in its order. `outline` are the outer rings of the boards.
pub fn cuts(lines: &[Line], outline: &[&Ring]) -> Vec<Stroke> {
    let edge = Grid::new(outline.iter().flat_map(|r| sides(r)).collect());
    let stroke = |line: &Line| {
        let turn = match line.layer {
            Layer::Void | Layer::Novelty => Turn::Inside,
            _ if mostly_on(&edge, line) => Turn::Outline,
            _ if line.closed => Turn::Inside,
            _ => Turn::Between,
        };
        Stroke { points: line.points.clone(), closed: line.closed, turn }
    };
    lines.iter().filter(|l| matches!(l.layer, Layer::Cut | Layer::Novelty | Layer::Void)).map(stroke).collect()
}

/// The scored lines of a drawing, in its order.
pub fn scores(lines: &[Line]) -> Vec<Stroke> {
    let scored = lines.iter().filter(|l| l.layer == Layer::Score);
    scored.map(|l| Stroke { points: l.points.clone(), closed: l.closed, turn: Turn::Between }).collect()
}

/// Rings as strokes: what is cut of a board that stays whole.
pub fn rings<'a>(outer: impl Iterator<Item = &'a Ring>, openings: impl Iterator<Item = &'a Ring>) -> Vec<Stroke> {
    let stroke = |turn: Turn| move |ring: &Ring| Stroke { points: ring.clone(), closed: true, turn };
    openings.map(stroke(Turn::Inside)).chain(outer.map(stroke(Turn::Outline))).collect()
}

/// Length of rings, mm.
pub fn rings_mm<'a>(rings: impl Iterator<Item = &'a Ring>) -> f64 {
    rings.map(|r| ring_length_mm(r)).fold(0.0, |sum, l| sum + l)
}

/// Travel over the strokes, as they come and as advised.
pub fn run(strokes: &[Stroke]) -> Run {
    let mut at = Point::ORIGIN;
    let mut drawn_mm = 0.0;
    for s in strokes {
        let Some((first, last)) = s.points.first().zip(s.points.last()) else { continue };
        drawn_mm += length_mm(at, *first);
        at = if s.closed { *first } else { *last };
    }
    let count = |turn: Turn| strokes.iter().filter(|s| s.turn == turn).count();
    let counts = [count(Turn::Inside), count(Turn::Between), count(Turn::Outline)];
    Run { counts, drawn_mm, advised_mm: advised_mm(strokes) }
}

/// Goes from wherever it is to the nearest beginning among the lines whose turn it is.
fn advised_mm(strokes: &[Stroke]) -> f64 {
    let mut at = Point::ORIGIN;
    let mut sum = 0.0;
    for turn in [Turn::Inside, Turn::Between, Turn::Outline] {
        let mut left: Vec<Vec<(Point, Point)>> =
            strokes.iter().filter(|s| s.turn == turn).map(beginnings).filter(|b| !b.is_empty()).collect();
        while !left.is_empty() {
            let nearest = left
                .iter()
                .enumerate()
                .flat_map(|(i, ways)| ways.iter().map(move |(begin, end)| (i, *begin, *end)))
                .map(|(i, begin, end)| ((begin - at).hypot2(), i, end))
                .min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
            let Some((square, i, end)) = nearest else { break };
            sum += square.sqrt();
            at = end;
            left.swap_remove(i);
        }
    }
    sum
}

/// Where a line can be begun, and where the beam is after it: both ends of an open one, some places of a closed one.
fn beginnings(stroke: &Stroke) -> Vec<(Point, Point)> {
    let points = &stroke.points;
    if stroke.closed {
        let step = points.len().div_ceil(BEGINNINGS).max(1);
        return points.iter().step_by(step).map(|p| (*p, *p)).collect();
    }
    points.first().zip(points.last()).map_or_else(Vec::new, |(a, b)| vec![(*a, *b), (*b, *a)])
}

fn sides(ring: &Ring) -> impl Iterator<Item = Segment> {
    ring_sides(ring).map(|(a, b)| Segment { a: *a, b: *b })
}

/// Whether more than half of a line lies on the edge.
fn mostly_on(edge: &Grid, line: &Line) -> bool {
    let close = line.closed.then(|| line.points.first()).flatten();
    let points: Vec<Point> = line.points.iter().chain(close).copied().collect();
    let (mut on, mut all) = (0.0, 0.0);
    for pair in points.windows(2) {
        let (length, middle) = (length_mm(pair[0], pair[1]), pair[0].midpoint(pair[1]));
        all += length;
        let near = grown(box_of(middle, middle), ON_MM);
        if edge.near(near).any(|s| to_segment_mm(middle, s.a, s.b) <= ON_MM) {
            on += length;
        }
    }
    on > all / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(layer: Layer, points: &[(f64, f64)], closed: bool) -> Line {
        Line { layer, points: points.iter().map(|p| Point::new(p.0, p.1)).collect(), closed }
    }

    /// On paper: a board of 100 × 60 with two cuts from edge to edge and a round hole, drawn in an unlucky order.
    #[test]
    fn travel_is_counted_as_on_paper() {
        let edge: Ring = [(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)].map(|p| Point::new(p.0, p.1)).to_vec();
        let lines = [
            line(Layer::Cut, &[(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)], true),
            line(Layer::Cut, &[(70.0, 0.0), (70.0, 60.0)], false),
            line(Layer::Cut, &[(30.0, 0.0), (30.0, 60.0)], false),
            line(Layer::Void, &[(45.0, 30.0), (55.0, 30.0), (55.0, 40.0), (45.0, 40.0)], true),
            line(Layer::Score, &[(1.0, 1.0), (2.0, 2.0)], false),
        ];
        let strokes = cuts(&lines, &[&edge]);
        assert_eq!(strokes.len(), 4);
        let turns: Vec<Turn> = strokes.iter().map(|s| s.turn).collect();
        assert_eq!(turns, [Turn::Outline, Turn::Between, Turn::Between, Turn::Inside]);
        let run = run(&strokes);
        assert_eq!(run.counts, [1, 2, 1]);
        // As drawn: 0, then 70 to the first cut, from (70, 60) to (30, 0), from (30, 60) to (45, 30).
        let drawn = 70.0 + 40.0_f64.hypot(60.0) + 15.0_f64.hypot(30.0);
        assert!((run.drawn_mm - drawn).abs() < 1e-9, "{}", run.drawn_mm);
        // Advised: to the hole at (45, 30), to (30, 60) (33.5; (30, 0) is as far, the lower number and then the first way wins), up, to (70, 0), down, to (100, 60).
        let advised = 45.0_f64.hypot(30.0) + 15.0_f64.hypot(30.0) + 40.0 + 30.0;
        assert!((run.advised_mm - advised).abs() < 1e-9, "{} {advised}", run.advised_mm);
    }

    #[test]
    fn nothing_to_burn_is_no_travel() {
        assert_eq!(run(&[]), Run::default());
    }
}
