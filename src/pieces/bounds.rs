//! Whether lines are more than any board holds, told before they are arranged: what comes after would take hours and all memory.
//!
//! In: lines in mm. Out: nothing, or what there is too much of. Most boards are told by the boxes of their spans in a moment. Where
//! these meet too often to tell, a square around all is quartered until few segments are left in each part; crossings are
//! counted there, each in the part it lies in. Both the crossings and the steps of either search are bounded.
//! Never here: which lines are joined; a crossing counts here whether or not it makes a piece.

use super::approach::approach;
use super::boxes::Tree;
use super::spans::Span;
use super::split::follows_on;
use super::strands::Strands;
use crate::shape::Point;
use std::ops::ControlFlow;

/// Most crossings. Own choice: a puzzle of 20,000 pieces has as many, and this is five times that.
pub const MOST_CROSSINGS: usize = 100_000;
/// Most steps of the search, beside those for each segment: about a second.
const MOST_STEPS: usize = 60_000_000;
/// Segments in one part that are held against each other.
const FEW: usize = 24;
/// Quarterings: a board of a metre down to a tenth of a micrometre.
const MOST_LEVELS: usize = 24;
/// Meetings of spans and of segments for each point up to which the quick look goes on. A board of knobs has about one.
const MOST_MEETINGS: usize = 16;

/// What lines have too much of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TooMuch {
    /// Places where lines cross.
    #[error("lines of one kind cross each other more than {MOST_CROSSINGS} times")]
    Crossings,
    /// Lines through one place, or along one another.
    #[error("thousands of lines run through one place or along one another")]
    Crowded,
}

type Segment = [Point; 2];

/// Looks at chains of points, mm, each closed or not.
///
/// # Errors
/// [`TooMuch`].
pub fn check(lines: &[(&[Point], bool)]) -> Result<(), TooMuch> {
    if plainly_few(lines) {
        return Ok(());
    }
    let mut segments: Vec<Segment> = Vec::new();
    for (points, closed) in lines {
        segments.extend(points.windows(2).filter_map(|w| <Segment>::try_from(w).ok()));
        if let (true, Some(first), Some(last)) = (closed, points.first(), points.last()) {
            segments.push([*last, *first]);
        }
    }
    let fold = |of: fn(f64, f64) -> f64, start| {
        segments.iter().flatten().fold((start, start), |(x, y): (f64, f64), p| (of(x, p.x), of(y, p.y)))
    };
    let ((left, top), (right, bottom)) = (fold(f64::min, f64::INFINITY), fold(f64::max, f64::NEG_INFINITY));
    // A little larger, so that nothing lies on its far sides.
    let side = (right - left).max(bottom - top) * (1.0 + 1e-9) + 1e-9;
    let count = u32::try_from(segments.len()).map_err(|_| TooMuch::Crowded)?;
    let mut search = Search { segments: &segments, crossings: 0, steps: MOST_STEPS + 40 * segments.len() };
    search.part(&(0..count).collect::<Vec<u32>>(), Square { left, top, side }, 0)
}

/// Whether lines cross seldom enough; never a wrong yes, and no where their spans meet too often to tell at once.
fn plainly_few(lines: &[(&[Point], bool)]) -> bool {
    let strands = Strands::new(lines);
    let mut spans: Vec<Span> = Vec::new();
    strands.strands.iter().for_each(|strand| strands.spans(strand, 0.0, &mut spans));
    let tree = Tree::new(spans.iter().map(|s| strands.extent(s, 0.0)).collect());
    let (mut crossings, mut steps) = (0, MOST_MEETINGS * strands.pos.len());
    let told = tree.pairs_until(&mut |x, y| {
        let (x, y) = (spans[x as usize], spans[y as usize]);
        let mut done = 1;
        if !follows_on(&strands, x, y) {
            approach(&strands, x, y, 0.0, &mut |x, y| {
                done += 1;
                let segment = |(a, b): (u32, u32)| [strands.at(a), strands.at(b)];
                crossings += usize::from(crossing(segment(x), segment(y)).is_some());
            });
        }
        match steps.checked_sub(done) {
            Some(left) if crossings <= MOST_CROSSINGS => steps = left,
            _ => return ControlFlow::Break(()),
        }
        ControlFlow::Continue(())
    });
    told.is_continue()
}

#[derive(Clone, Copy)]
struct Square {
    left: f64,
    top: f64,
    side: f64,
}

struct Search<'a> {
    segments: &'a [Segment],
    crossings: usize,
    steps: usize,
}

impl Search<'_> {
    fn step(&mut self, count: usize) -> Result<(), TooMuch> {
        self.steps = self.steps.checked_sub(count).ok_or(TooMuch::Crowded)?;
        Ok(())
    }

    fn part(&mut self, inside: &[u32], square: Square, level: usize) -> Result<(), TooMuch> {
        if inside.len() <= FEW || level == MOST_LEVELS {
            return self.pairs(inside, square);
        }
        let side = square.side / 2.0;
        for (right, down) in [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 1.0)] {
            self.step(inside.len())?;
            let quarter = Square { left: square.left + right * side, top: square.top + down * side, side };
            let within = inside.iter().copied().filter(|at| self.segment(*at).is_some_and(|s| touches(s, quarter)));
            let within: Vec<u32> = within.collect();
            self.part(&within, quarter, level + 1)?;
        }
        Ok(())
    }

    fn segment(&self, at: u32) -> Option<Segment> {
        self.segments.get(at as usize).copied()
    }

    fn pairs(&mut self, inside: &[u32], square: Square) -> Result<(), TooMuch> {
        self.step(inside.len() * inside.len() / 2)?;
        for (at, first) in inside.iter().enumerate() {
            for second in inside.get(at + 1..).unwrap_or_default() {
                let (Some(a), Some(b)) = (self.segment(*first), self.segment(*second)) else { continue };
                self.crossings += usize::from(crossing(a, b).is_some_and(|p| square.holds(p)));
            }
        }
        if self.crossings > MOST_CROSSINGS { Err(TooMuch::Crossings) } else { Ok(()) }
    }
}

impl Square {
    /// Far sides are the neighbours'.
    fn holds(&self, p: Point) -> bool {
        (self.left..self.left + self.side).contains(&p.x) && (self.top..self.top + self.side).contains(&p.y)
    }
}

/// Whether a segment reaches into a square, by separating axes: the sides of the square, and the segment's own direction.
fn touches([a, b]: Segment, square: Square) -> bool {
    let half = square.side / 2.0;
    let (x, y) = (square.left + half, square.top + half);
    let apart = |a: f64, b: f64, middle: f64| a.min(b) > middle + half || a.max(b) < middle - half;
    if apart(a.x, b.x, x) || apart(a.y, b.y, y) {
        return false;
    }
    let d = b - a;
    let across = (x - a.x) * d.y - (y - a.y) * d.x;
    across.abs() <= half * (d.x.abs() + d.y.abs())
}

/// Where the insides of two segments cross.
fn crossing([a, b]: Segment, [c, d]: Segment) -> Option<Point> {
    let side = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    let (ca, cb) = (side(c, d, a), side(c, d, b));
    let (ac, ad) = (side(a, b, c), side(a, b, d));
    let between =
        (ca > 0.0) != (cb > 0.0) && ca != 0.0 && cb != 0.0 && (ac > 0.0) != (ad > 0.0) && ac != 0.0 && ad != 0.0;
    between.then(|| a + (b - a) * (ca / (ca - cb)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(x0: f64, y0: f64, x1: f64, y1: f64) -> Vec<Point> {
        vec![Point::new(x0, y0), Point::new(x1, y1)]
    }

    fn check_all(lines: &[Vec<Point>]) -> Result<(), TooMuch> {
        check(&lines.iter().map(|points| (points.as_slice(), false)).collect::<Vec<_>>())
    }

    /// n lines across m cross n · m times.
    #[test]
    fn crossings_are_counted_once_each() {
        let across = |n: usize, m: usize| -> Vec<Vec<Point>> {
            let columns = (0..n).map(|i| line(i as f64 + 0.3, -1.0, i as f64 + 0.3, m as f64));
            columns.chain((0..m).map(|j| line(-1.0, j as f64 + 0.7, n as f64, j as f64 + 0.7))).collect()
        };
        assert_eq!(check_all(&across(250, 400)), Ok(()), "exactly as many as may be");
        assert_eq!(check_all(&across(251, 400)), Err(TooMuch::Crossings));
        assert_eq!(check_all(&across(20_000, 20_000)), Err(TooMuch::Crossings));
    }

    /// A board with a stray mark a kilometre away is still looked at closely.
    #[test]
    fn detail_far_from_a_stray_mark_is_no_crowd() {
        let mut lines: Vec<Vec<Point>> = (0..20_000)
            .map(|i| {
                let (x, y) = (f64::from(i % 200), f64::from(i / 200));
                line(x, y, x + 0.9, y + 0.4)
            })
            .collect();
        lines.push(line(9e5, 9e5, 9e5 + 1.0, 9e5));
        assert_eq!(check_all(&lines), Ok(()));
    }

    #[test]
    fn a_star_of_too_many_lines_is_a_crowd() {
        let star = |count: u32| -> Vec<Vec<Point>> {
            (0..count).map(|i| line(50.0, 50.0, f64::from(i % 100), f64::from(i) / f64::from(count) * 100.0)).collect()
        };
        assert_eq!(check_all(&star(2_000)), Ok(()));
        assert_eq!(check_all(&star(50_000)), Err(TooMuch::Crowded));
    }
}
