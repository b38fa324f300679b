//! What is to be known of points before anything is done with them, seen while they go by.

use super::boxes::{Extent, less, more};
use crate::shape::Point;

/// Farthest coordinate that is taken for a place on a sheet, mm. Lines beyond are left out: their squares overflow.
const FARTHEST_MM: f64 = 1e12;

/// What is seen of points while they go by.
#[derive(Clone, Copy)]
pub(super) struct Seen {
    pub extent: Extent,
    /// The least of the greater of the steps in x and in y from one to the next.
    pub least_step: f64,
    /// All are numbers.
    numbers: bool,
}

impl Seen {
    pub const NOTHING: Seen = Seen { extent: Extent::NOTHING, least_step: f64::INFINITY, numbers: true };

    /// Of points that come after another one.
    pub fn of(before: Option<Point>, points: &[Point]) -> Seen {
        let step = |a: Point, b: Point| more((b.x - a.x).abs(), (b.y - a.y).abs());
        let mut least = [before.zip(points.first()).map_or(f64::INFINITY, |(a, b)| step(a, *b)); 2];
        // In two lanes, which the processor takes together.
        let (from, to) = (&points[..points.len().saturating_sub(1)], points.get(1..).unwrap_or_default());
        let (mut from, mut to) = (from.chunks_exact(2), to.chunks_exact(2));
        for (a, b) in (&mut from).zip(&mut to) {
            least[0] = less(step(a[0], b[0]), least[0]);
            least[1] = less(step(a[1], b[1]), least[1]);
        }
        from.remainder().iter().zip(to.remainder()).for_each(|(a, b)| least[0] = less(step(*a, *b), least[0]));
        let numbers = points.iter().fold(true, |all, p| all & !p.x.is_nan() & !p.y.is_nan());
        Seen { extent: Extent::of(points), least_step: least[0].min(least[1]), numbers }
    }

    /// Of both.
    pub fn with(self, other: &Seen) -> Seen {
        Seen {
            extent: self.extent.with(other.extent),
            least_step: self.least_step.min(other.least_step),
            numbers: self.numbers & other.numbers,
        }
    }

    /// Whether all are places on a sheet.
    pub fn is_sound(&self) -> bool {
        self.numbers && self.extent.farthest() <= FARTHEST_MM
    }
}
