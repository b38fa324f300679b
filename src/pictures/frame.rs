//! From millimetres on the table to pixels, and outlines ready to be drawn there.
//!
//! A picture shows a window of the table at one scale; every length in the looks is a length on the board, so a look is the same at any size.

use crate::shape::{Extent, Face, Point};

/// A window of the table and its scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Left edge, mm.
    pub left_mm: f64,
    /// Upper edge, mm.
    pub top_mm: f64,
    /// Pixels to the millimetre.
    pub px_per_mm: f64,
    /// Pixels across.
    pub width: usize,
    /// Pixels down.
    pub height: usize,
}

impl Frame {
    /// The window around `extent`, `width` pixels wide; the height follows.
    pub fn around(extent: Extent, width: u32) -> Frame {
        let px_per_mm = f64::from(width.max(1)) / extent.width_mm().max(1e-6);
        let height = (extent.height_mm() * px_per_mm).round().clamp(1.0, 16_384.0);
        Frame {
            left_mm: extent.min.x,
            top_mm: extent.min.y,
            px_per_mm,
            width: width.max(1) as usize,
            height: height as usize,
        }
    }

    /// Centre of a column, mm.
    pub fn x_mm(&self, column: usize) -> f32 {
        (self.left_mm + (column as f64 + 0.5) / self.px_per_mm) as f32
    }

    /// Centre of a row, mm.
    pub fn y_mm(&self, row: usize) -> f32 {
        (self.top_mm + (row as f64 + 0.5) / self.px_per_mm) as f32
    }

    /// Size of a pixel, mm.
    pub fn pixel_mm(&self) -> f32 {
        (1.0 / self.px_per_mm) as f32
    }

    /// A place in pixels, the corner of the first pixel being the origin.
    pub fn to_px(self, p: Point) -> [f32; 2] {
        [((p.x - self.left_mm) * self.px_per_mm) as f32, ((p.y - self.top_mm) * self.px_per_mm) as f32]
    }

    /// Farthest place from the drawing's origin, mm: how far noise must reach.
    pub fn reach_mm(&self) -> f32 {
        let right = self.left_mm + self.width as f64 / self.px_per_mm;
        let bottom = self.top_mm + self.height as f64 / self.px_per_mm;
        [self.left_mm, self.top_mm, right, bottom].iter().fold(1.0, |m: f64, v| m.max(v.abs())) as f32
    }
}

/// Closed rings in pixels, with their box.
#[derive(Clone, Debug, Default)]
pub struct Outline {
    /// Rings, first point not repeated.
    pub rings: Vec<Vec<[f32; 2]>>,
    /// Least x and y, px.
    pub min: [f32; 2],
    /// Greatest x and y, px.
    pub max: [f32; 2],
}

/// Farthest that a drawn outline may lie from the true one, px: far below what can be seen.
const CLOSE_PX: f64 = 0.03;

impl Outline {
    /// The rings of some faces, moved by `place` and thinned to what the scale can show.
    pub fn new<'a>(
        frame: &Frame,
        faces: impl IntoIterator<Item = &'a Face>,
        place: impl Fn(Point) -> Point,
    ) -> Outline {
        let mut outline = Outline { rings: Vec::new(), min: [f32::MAX; 2], max: [f32::MIN; 2] };
        for ring in faces.into_iter().flat_map(Face::rings) {
            let moved: Vec<Point> = ring.iter().map(|p| place(*p)).collect();
            let ring: Vec<[f32; 2]> =
                thinned(&moved, true, CLOSE_PX / frame.px_per_mm).iter().map(|p| frame.to_px(*p)).collect();
            for p in &ring {
                outline.min = [outline.min[0].min(p[0]), outline.min[1].min(p[1])];
                outline.max = [outline.max[0].max(p[0]), outline.max[1].max(p[1])];
            }
            outline.rings.push(ring);
        }
        outline
    }

    /// All sides as pairs of ends.
    pub fn sides(&self) -> impl Iterator<Item = Side> + '_ {
        self.rings.iter().flat_map(|ring| (0..ring.len()).map(move |k| [ring[k], ring[(k + 1) % ring.len()]]))
    }
}

/// A straight stretch, px.
pub type Side = [[f32; 2]; 2];

/// The polyline without the points that lie within `close_mm` of the line that is left (Douglas and Peucker 1973).
pub fn thinned(points: &[Point], closed: bool, close_mm: f64) -> Vec<Point> {
    if points.len() < 4 {
        return points.to_vec();
    }
    let last = points.len() - 1;
    let mut keep = vec![false; points.len()];
    keep[0] = true;
    keep[last] = true;
    let mut open = Vec::new();
    if closed {
        // A closed ring is split at the point farthest from its first.
        let far = (1..points.len()).max_by(|a, b| {
            let d = |k: usize| (points[k] - points[0]).hypot2();
            d(*a).total_cmp(&d(*b))
        });
        let far = far.unwrap_or(last);
        keep[far] = true;
        open.push((0, far));
        open.push((far, last));
    } else {
        open.push((0, last));
    }
    while let Some((from, to)) = open.pop() {
        let (a, b) = (points[from], points[to]);
        let chord = b - a;
        let length2 = chord.hypot2().max(1e-12);
        let mut worst = (close_mm * close_mm, None);
        for (k, p) in points.iter().enumerate().take(to).skip(from + 1) {
            let t = ((*p - a).dot(chord) / length2).clamp(0.0, 1.0);
            let off = (*p - (a + chord * t)).hypot2();
            if off > worst.0 {
                worst = (off, Some(k));
            }
        }
        if let Some(k) = worst.1 {
            keep[k] = true;
            open.push((from, k));
            open.push((k, to));
        }
    }
    points.iter().zip(&keep).filter(|(_, k)| **k).map(|(p, _)| *p).collect()
}
