//! A place well inside a face.

use crate::shape::{Extent, Face, Point, ring_sides};

/// A place inside the face: the middle of its widest stretch along one of a few level lines. `None` for a face without area.
pub(super) fn place_inside(face: &Face) -> Option<Point> {
    let extent = Extent::of(&face.outer)?;
    let mut best: Option<(f64, Point)> = None;
    let mut at = Vec::new();
    for share in [0.5, 0.37, 0.63, 0.24, 0.76, 0.11, 0.89] {
        let y = extent.min.y + extent.height_mm() * share;
        at.clear();
        for ring in face.rings() {
            for (a, b) in ring_sides(ring) {
                if (a.y <= y) != (b.y <= y) {
                    at.push(a.x + (b.x - a.x) * ((y - a.y) / (b.y - a.y)));
                }
            }
        }
        at.sort_by(f64::total_cmp);
        for pair in at.chunks_exact(2) {
            let width = pair[1] - pair[0];
            if width > 0.0 && best.is_none_or(|(widest, _)| width > widest) {
                best = Some((width, Point::new(pair[0] + width / 2.0, y)));
            }
        }
    }
    best.map(|(_, place)| place)
}
