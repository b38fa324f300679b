//! What changed between two drawings of one design.
//!
//! In: two [`Measured`], the older and the newer. Out: [`Comparison`]: which pieces stayed, changed, came and went, and by how much the
//! older drawing has to be moved to lie on the newer one. As text ([`text`]) and as a picture ([`picture`]).
//! Never here: the disk, a figure of its own. Rule: handbook, commands, `compare`.

mod picture;
mod text;

pub use picture::{page, picture};
pub use text::text;

use kurbo::Vec2;
use serde::Serialize;

use crate::figures::{Figures, Measured};
use crate::inmost::distance_sq;
use crate::paint::overlap_mm2;
use crate::shape::{Extent, Face, Point, Ring, ring_sides};

/// Outlines that nowhere lie farther apart than this are the same, mm: above the rounding of a drawing program, far below a kerf.
pub const SAME_MM: f64 = 0.05;
/// Share of the larger of two pieces that they have in common, from which on one has become the other.
const BECAME: f64 = 0.5;

/// Two drawings held against each other. Pieces are numbered from 1, as in `inspect`.
#[derive(Clone, Debug, Serialize)]
pub struct Comparison<'a> {
    /// Figures of the older drawing.
    pub old: &'a Figures,
    /// Figures of the newer one.
    pub new: &'a Figures,
    /// How far the older drawing was moved to lie on the newer, mm.
    pub moved_mm: [f64; 2],
    /// Numbers, older and newer, of pieces with the same outline.
    pub same: Vec<(usize, usize)>,
    /// Numbers, older and newer, of pieces whose outline changed.
    pub changed: Vec<(usize, usize)>,
    /// Numbers in the newer drawing of pieces that the older one has not.
    pub come: Vec<usize>,
    /// Numbers in the older drawing of pieces that the newer one has not.
    pub gone: Vec<usize>,
}

impl Comparison<'_> {
    /// Whether nothing that is cut or scored differs.
    pub fn nothing_changed(&self) -> bool {
        self.old.mark == self.new.mark
    }
}

/// Compares two drawings. Where one lies elsewhere on its sheet, it is moved first.
pub fn compare<'a>(old: &'a Measured, new: &'a Measured) -> Comparison<'a> {
    let (olds, news) = (faces(old), faces(new));
    let corner = |faces: &[&Face]| Extent::of(faces.iter().flat_map(|f| &f.outer)).map(|e| (e.min, e.max));
    let mut ways = vec![Vec2::ZERO];
    if let (Some(from), Some(to)) = (corner(&olds), corner(&news)) {
        ways.extend([to.0 - from.0, to.1 - from.1, to.0.midpoint(to.1) - from.0.midpoint(from.1)]);
    }
    // The way on which most pieces find themselves again, not moving at all before any other.
    let tries = ways.into_iter().map(|way| (way, paired(&olds, &news, way)));
    let best = tries.reduce(|a, b| if b.1.len() > a.1.len() { b } else { a });
    let (way, same) = best.unwrap_or((Vec2::ZERO, Vec::new()));
    let free = |count: usize, taken: &dyn Fn(usize) -> bool| (0..count).filter(|i| !taken(*i)).collect::<Vec<usize>>();
    let old_left = free(olds.len(), &|i| same.iter().any(|(o, _)| *o == i));
    let new_left = free(news.len(), &|i| same.iter().any(|(_, n)| *n == i));
    let mut changed = Vec::new();
    for n in &new_left {
        let became = old_left.iter().find(|o| became(olds[**o], news[*n], way));
        changed.extend(became.map(|o| (*o, *n)));
    }
    let come = new_left.iter().filter(|n| !changed.iter().any(|(_, c)| c == *n)).map(|n| n + 1).collect();
    let gone = old_left.iter().filter(|o| !changed.iter().any(|(c, _)| c == *o)).map(|o| o + 1).collect();
    let number = |pairs: Vec<(usize, usize)>| pairs.into_iter().map(|(o, n)| (o + 1, n + 1)).collect();
    Comparison {
        old: &old.figures,
        new: &new.figures,
        moved_mm: [way.x, way.y],
        same: number(same),
        changed: number(changed),
        come,
        gone,
    }
}

fn faces(measured: &Measured) -> Vec<&Face> {
    measured.board.pieces.iter().map(|piece| &piece.face).collect()
}

fn paired(olds: &[&Face], news: &[&Face], way: Vec2) -> Vec<(usize, usize)> {
    let mut boxes: Vec<(usize, Extent)> =
        olds.iter().enumerate().filter_map(|(i, f)| Some((i, Extent::of(&f.outer)?))).collect();
    boxes.sort_by(|a, b| a.1.min.x.total_cmp(&b.1.min.x));
    let mut pairs = Vec::new();
    for (n, face) in news.iter().enumerate() {
        let Some(extent) = Extent::of(&face.outer) else { continue };
        let least = boxes.partition_point(|(_, e)| e.min.x + way.x < extent.min.x - SAME_MM);
        let near = boxes[least..].iter().take_while(|(_, e)| e.min.x + way.x <= extent.min.x + SAME_MM);
        let near = near.filter(|(_, e)| {
            let apart = [(e.min + way) - extent.min, (e.max + way) - extent.max];
            apart.iter().all(|v| v.x.abs() <= SAME_MM && v.y.abs() <= SAME_MM)
        });
        pairs.extend(near.map(|(o, _)| *o).find(|o| alike(olds[*o], face, way)).map(|o| (o, n)));
    }
    pairs
}

/// Whether two faces are nowhere more than [`SAME_MM`] apart once the first is moved.
fn alike(old: &Face, new: &Face, way: Vec2) -> bool {
    let near = |from: &Ring, to: &Ring, way: Vec2| from.iter().all(|p| close(*p + way, to));
    old.holes.len() == new.holes.len() && old.rings().zip(new.rings()).all(|(a, b)| near(a, b, way) && near(b, a, -way))
}

fn close(at: Point, ring: &[Point]) -> bool {
    ring_sides(ring).any(|(a, b)| distance_sq(at, *a, *b) <= SAME_MM * SAME_MM)
}

fn became(old: &Face, new: &Face, way: Vec2) -> bool {
    let moved = moved(old, way);
    let meets = matches!((Extent::of(&moved.outer), Extent::of(&new.outer)), (Some(a), Some(b)) if a.meets(&b));
    meets && overlap_mm2(&moved, new) > BECAME * old.area_mm2().max(new.area_mm2())
}

fn moved(face: &Face, way: Vec2) -> Face {
    let ring = |ring: &Ring| ring.iter().map(|p| *p + way).collect();
    Face { outer: ring(&face.outer), holes: face.holes.iter().map(ring).collect() }
}

#[cfg(test)]
mod tests;
