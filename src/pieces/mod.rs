//! From cut lines to pieces: the bounded faces of the arrangement that the lines make.
//!
//! In: [`Line`](crate::drawing::Line)s in mm, curves already flattened. Out: [`Checked`](crate::findings::Checked)`<`[`Board`]`>`,
//! pieces top to bottom, left to right, with the topology they came from ([`Net`]).
//! Steps: `bounds` refuses what no board holds, `join` pulls ends together, `overlap` makes one of lines that lie on each other, `split` cuts at crossings, `walk` goes round the faces,
//! `boards` sorts them; `inset` takes the kerf off; `joints`, `twins`, `small_parts`, `necks` look at what is left.
//! Never here: SVG, wood, colours, pages, or a tolerance that the caller did not give.
//! Rule: handbook, figures, items 1 to 7, 9, 11 and 14.

mod inset;
pub mod joints;
pub mod necks;
pub mod small_parts;
pub mod twins;

pub use inset::{inset, outset};

use crate::shape::{Face, Ring};

mod along;
mod approach;
mod arrange;
mod boards;
pub mod bounds;
mod boxes;
mod buckets;
mod exact;
mod graph;
mod groups;
mod hull;
mod inside;
mod join;
mod loose;
mod marks;
mod meetings;
mod net;
mod overlap;
mod runs;
mod seen;
mod shift;
mod spans;
mod split;
mod strands;
mod stretches;
mod trim;
mod turns;
mod walk;

pub use arrange::arrange;
pub use boards::board;
pub use net::{Chain, Near, Net, NetFace};

/// One piece of the puzzle.
#[derive(Clone, Debug)]
pub struct Piece {
    /// Outline as drawn, before the kerf, mm.
    pub face: Face,
    /// What is left after half the kerf is taken off all round: usually one part; empty where the kerf eats it whole.
    pub cut: Vec<Face>,
    /// Area as drawn, mm².
    pub drawn_mm2: f64,
    /// Area after the kerf, mm².
    pub net_mm2: f64,
    /// Which face of the net.
    pub net_face: usize,
    /// Which of the boards.
    pub part: usize,
    /// Shares a positive length with the outer ring of its board.
    pub edge: bool,
    /// Which novelty shape it lies in, if any.
    pub novelty: Option<usize>,
}

impl Piece {
    /// A piece drawn as `face` of which `cut` is left, within the board.
    pub fn new(face: Face, cut: Vec<Face>, net_face: usize) -> Piece {
        // Asked for again and again, so once is enough.
        let (drawn_mm2, net_mm2) = (face.area_mm2(), cut.iter().fold(0.0, |sum, part| sum + part.area_mm2()));
        Piece { face, cut, drawn_mm2, net_mm2, net_face, part: 0, edge: false, novelty: None }
    }
}

/// A connected part of the union of all pieces.
#[derive(Clone, Debug)]
pub struct Part {
    /// Its pieces.
    pub pieces: Vec<usize>,
    /// Outer ring and openings, as drawn, mm.
    pub outline: Face,
}

/// All that the cut lines make.
#[derive(Clone, Debug)]
pub struct Board {
    /// The arrangement of the cut lines.
    pub net: Net,
    /// Pieces, in the order of the net's faces, top to bottom, left to right.
    pub pieces: Vec<Piece>,
    /// Boards, largest first.
    pub parts: Vec<Part>,
    /// Outlines of the novelty shapes.
    pub novelty: Vec<Ring>,
    /// Outlines of the openings (void strokes).
    pub voids: Vec<Ring>,
    /// Every distinct cut edge once, openings and dangling ends included, mm.
    pub cut_mm: f64,
    /// Neighbouring pairs that share a positive length, `a < b`, in order.
    pub neighbours: Vec<(usize, usize)>,
    /// Width the beam removes, mm.
    pub kerf_mm: f64,
}

#[cfg(test)]
mod invariance;
#[cfg(test)]
mod tests;
