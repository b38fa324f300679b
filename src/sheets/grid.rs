//! Where lines lie: segments in a tree, so that what is near a place is found without looking at all of them.

use rstar::{AABB, RTree, RTreeObject};

use crate::shape::{Extent, Point};

/// One straight piece of a line, mm.
#[derive(Clone, Copy, Debug)]
pub struct Segment {
    /// One end.
    pub a: Point,
    /// The other.
    pub b: Point,
}

impl RTreeObject for Segment {
    type Envelope = AABB<[f64; 2]>;

    fn envelope(&self) -> Self::Envelope {
        AABB::from_corners([self.a.x, self.a.y], [self.b.x, self.b.y])
    }
}

/// Segments by place.
pub struct Grid(RTree<Segment>);

impl Grid {
    /// Files the segments.
    pub fn new(segments: Vec<Segment>) -> Grid {
        Grid(RTree::bulk_load(segments))
    }

    /// Segments whose box meets the given one, in no order that means anything.
    pub fn near(&self, within: Extent) -> impl Iterator<Item = &Segment> {
        let envelope = AABB::from_corners([within.min.x, within.min.y], [within.max.x, within.max.y]);
        self.0.locate_in_envelope_intersecting(envelope)
    }
}

/// The box of two points.
pub fn box_of(a: Point, b: Point) -> Extent {
    Extent { min: Point::new(a.x.min(b.x), a.y.min(b.y)), max: Point::new(a.x.max(b.x), a.y.max(b.y)) }
}

/// A box made larger on all sides by `mm`.
pub fn grown(e: Extent, mm: f64) -> Extent {
    Extent { min: Point::new(e.min.x - mm, e.min.y - mm), max: Point::new(e.max.x + mm, e.max.y + mm) }
}
