//! Faces found a second way: the cut lines painted on a raster of 0.02 mm, and what is left between them filled.
//!
//! Painted are the lines as drawn, every square that a line goes through; so no fill leaks across one. Where faces are closed by
//! `join` alone, the lines are painted as joined: then it is the walk round the faces that is held against the raster.
//! Handbook, figures, items 2 and 5.

use std::path::Path;

use kerfleaf::drawing::{Layer, Line};
use kerfleaf::figures::{self, Measured};
use kerfleaf::inmost;
use kerfleaf::pieces::{Near, arrange};
use kerfleaf::shape::{Extent, Point, length_mm, ring_length_mm};
use kerfleaf::shop;

/// Side of a square of the raster.
const SQUARE_MM: f64 = 0.02;
/// Fewer squares than this, 0.02 mm², are left over in sharp corners.
const CRUMB: usize = 50;

/// Faces under this are no match for squares of that side.
const SMALL_MM2: f64 = 1.0;

const FREE: u16 = 0;
const LINE: u16 = 1;

struct Raster {
    width: usize,
    height: usize,
    origin: Point,
    squares: Vec<u16>,
}

impl Raster {
    /// Nothing but squares around a box, with room to go round it.
    fn around(extent: &Extent, most: usize) -> Option<Raster> {
        let count = |mm: f64| (mm / SQUARE_MM).ceil() as usize + 9;
        let (width, height) = (count(extent.width_mm()), count(extent.height_mm()));
        let room = kurbo::Vec2::new(4.3, 4.3) * SQUARE_MM;
        (width * height <= most).then(|| Raster {
            width,
            height,
            origin: extent.min - room,
            squares: vec![FREE; width * height],
        })
    }

    /// Column and row as far as they go.
    fn place(&self, p: Point) -> (f64, f64) {
        ((p.x - self.origin.x) / SQUARE_MM, (p.y - self.origin.y) / SQUARE_MM)
    }

    fn at(&mut self, column: f64, row: f64) -> &mut u16 {
        &mut self.squares[row as usize * self.width + column as usize]
    }

    /// What fills the nearest square without a line, where one is near: a place in a face may lie on a line that ends there.
    fn beside(&mut self, p: Point) -> Option<u16> {
        let (column, row) = self.place(p);
        let near = [0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0];
        let places = near.iter().flat_map(|x| near.iter().map(move |y| (column + x, row + y)));
        places.map(|(x, y)| *self.at(x, y)).find(|found| *found != LINE)
    }

    /// Paints every square that a segment goes through: between two crossings of the grid it lies in one.
    fn paint(&mut self, a: Point, b: Point) {
        let ((x0, y0), (x1, y1)) = (self.place(a), self.place(b));
        let mut stops = vec![0.0, 1.0];
        for (from, to) in [(x0, x1), (y0, y1)] {
            let (low, high) = (from.min(to).ceil() as i64, from.max(to).floor() as i64);
            stops.extend((low..=high).map(|line| (line as f64 - from) / (to - from)).filter(|t| *t > 0.0 && *t < 1.0));
        }
        stops.sort_by(f64::total_cmp);
        for pair in stops.windows(2) {
            let t = (pair[0] + pair[1]) / 2.0;
            *self.at(x0 + (x1 - x0) * t, y0 + (y1 - y0) * t) = LINE;
        }
    }

    /// Fills what hangs together with a free square, side by side; how many squares that are.
    fn fill(&mut self, start: usize, with: u16) -> usize {
        let (mut open, mut count) = (vec![start], 0);
        self.squares[start] = with;
        while let Some(at) = open.pop() {
            count += 1;
            let (column, row) = (at % self.width, at / self.width);
            let beside = [
                (column > 0).then(|| at - 1),
                (column + 1 < self.width).then_some(at + 1),
                (row > 0).then(|| at - self.width),
                (row + 1 < self.height).then_some(at + self.width),
            ];
            for next in beside.into_iter().flatten() {
                if self.squares[next] == FREE {
                    self.squares[next] = with;
                    open.push(next);
                }
            }
        }
        count
    }
}

fn is_cut(line: &Line) -> bool {
    matches!(line.layer, Layer::Cut | Layer::Novelty | Layer::Void)
}

/// What differs between a design's faces and its raster; nothing where that has more than `most` squares, or a face is too small
/// to be told from the corners between painted lines.
fn differs(slug: &str, measured: &Measured, most: usize) -> Option<Result<(), String>> {
    let net = &measured.board.net;
    let lines: Vec<&Line> = measured.drawing.lines.iter().filter(|l| is_cut(l)).collect();
    if (0..net.faces.len()).any(|f| net.face(f).area_mm2() < SMALL_MM2) {
        return None;
    }
    let drawn: Vec<(&[Point], bool)> = lines.iter().map(|l| (l.points.as_slice(), l.closed)).collect();
    let joined: Vec<(&[Point], bool)> = net.chains.iter().map(|c| (net.points(c), false)).collect();
    let meet = arrange(&drawn, Near { join_mm: 0.0 }).value.faces.len() == net.faces.len();
    let painted = if meet { drawn } else { joined };
    let mut raster = Raster::around(&Extent::of(painted.iter().flat_map(|(points, _)| *points))?, most)?;
    for (points, closed) in &painted {
        points.windows(2).for_each(|w| raster.paint(w[0], w[1]));
        if let (true, Some(first), Some(last)) = (closed, points.first(), points.last()) {
            raster.paint(*last, *first);
        }
    }
    raster.fill(0, 2);
    let mut areas = vec![0, 0, 0];
    for start in 0..raster.squares.len() {
        if raster.squares[start] == FREE {
            let with = u16::try_from(areas.len()).ok()?;
            areas.push(raster.fill(start, with));
        }
    }
    let found = areas[3..].iter().filter(|a| **a >= CRUMB).count();
    if found != net.faces.len() {
        return Some(Err(format!("{slug}: {} faces, {found} on the raster", net.faces.len())));
    }
    for f in 0..net.faces.len() {
        let face = net.face(f);
        let inside = inmost::place(&face).at_mm;
        let filled = raster.beside(inside).map_or(0, |found| areas[usize::from(found)]) as f64 * SQUARE_MM * SQUARE_MM;
        let around: f64 = face.rings().map(|r| ring_length_mm(r)).sum();
        let dangling = net.chains.iter().filter(|c| c.left == Some(f) && c.right == Some(f));
        let dangling: f64 = dangling.flat_map(|c| net.points(c).windows(2)).map(|w| length_mm(w[0], w[1])).sum();
        // A line is painted one to two squares wide, half of it on either side; one that ends inside, whole.
        if (face.area_mm2() - filled).abs() > (around + 2.0 * dangling) * SQUARE_MM + 0.02 {
            return Some(Err(format!("{slug}, face {f}: {:.2} mm², {filled:.2} on the raster", face.area_mm2())));
        }
    }
    Some(Ok(()))
}

/// How many designs of a shop could be looked at.
fn looked_at(folder: &str, most: usize) -> usize {
    let shop = shop::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)).expect("a shop");
    let mut count = 0;
    let mut wrong = Vec::new();
    for (entry, design) in shop.entries.iter().filter_map(|e| Some((e, e.design.as_ref()?))) {
        let Ok(measured) = figures::measure(design, &shop.settings) else { continue };
        match differs(&entry.slug, &measured, most) {
            Some(Ok(())) => count += 1,
            Some(Err(what)) => wrong.push(what),
            None => {}
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    count
}

#[test]
fn small_drawings_have_the_faces_that_a_raster_has() {
    let count = looked_at("tests/figures/shop", 20_000_000);
    assert!(count >= 100, "only {count} drawings");
}

#[test]
fn the_smallest_demo_design_has_the_faces_that_a_raster_has() {
    let count = looked_at("demo-shop", 70_000_000);
    assert!(count >= 1, "it is too large for a raster");
}
