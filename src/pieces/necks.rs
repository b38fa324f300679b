//! Waists that break: pieces that fall apart when a little more is taken off.
//!
//! Rule: handbook, findings, `narrow-neck`.

use rayon::prelude::*;

use super::{Piece, inset};
use crate::findings::{Finding, Kind};
use crate::shape::{Face, Point};

/// Parts smaller than this do not count, mm². Handbook, findings.
const CRUMB_MM2: f64 = 1.0;

/// A waist narrower than the limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Neck {
    /// Which piece, from 0.
    pub piece: usize,
    /// Its middle, mm.
    pub at_mm: Point,
    /// Its width after the kerf, mm.
    pub width_mm: f64,
    /// Area that would break off, after the kerf, roughly, mm².
    pub lost_mm2: f64,
    /// What hangs on it is small beside the rest: the neck of a knob.
    pub knob: bool,
}

/// What hangs on a neck is a knob if it has less than this share of the piece. Own choice.
const KNOB_SHARE: f64 = 1.0 / 3.0;

fn parts(cut: &[Face], by_mm: f64) -> Vec<Face> {
    cut.iter().flat_map(|f| inset(f, by_mm)).filter(|f| f.area_mm2() >= CRUMB_MM2).collect()
}

/// The narrowest waist of each piece that has one under `limit_mm`, after the kerf, in the order of the pieces.
pub fn necks(pieces: &[Piece], limit_mm: f64) -> Vec<Neck> {
    pieces.par_iter().enumerate().filter_map(|(i, piece)| neck(i, piece, limit_mm)).collect()
}

fn neck(number: usize, piece: &Piece, limit_mm: f64) -> Option<Neck> {
    let broken = parts(&piece.cut, limit_mm / 2.0);
    if broken.len() < 2 {
        return None;
    }
    // The width is twice the inset at which the piece first falls apart.
    let (mut whole, mut apart) = (0.0, limit_mm / 2.0);
    for _ in 0..12 {
        let middle = (whole + apart) / 2.0;
        if parts(&piece.cut, middle).len() > 1 { apart = middle } else { whole = middle }
    }
    let torn = parts(&piece.cut, apart);
    let torn = if torn.len() > 1 { torn } else { broken };
    let (at_mm, lost_mm2) = between(&torn);
    let all_mm2: f64 = torn.iter().map(Face::area_mm2).sum();
    let knob = lost_mm2 < KNOB_SHARE * all_mm2;
    Some(Neck { piece: number, at_mm, width_mm: 2.0 * apart, lost_mm2, knob })
}

/// The middle of the shortest way between the smallest part and the others, and the smallest part's area.
fn between(parts: &[Face]) -> (Point, f64) {
    let smallest = (0..parts.len()).min_by(|a, b| parts[*a].area_mm2().total_cmp(&parts[*b].area_mm2())).unwrap_or(0);
    let others = parts.iter().enumerate().filter(|(i, _)| *i != smallest).flat_map(|(_, f)| f.rings().flatten());
    let mine: Vec<Point> = parts[smallest].rings().flatten().copied().collect();
    let nearest = others
        .map(|q| {
            let p = mine.iter().min_by(|a, b| (**a - *q).hypot2().total_cmp(&(**b - *q).hypot2()));
            p.map_or((f64::INFINITY, *q), |p| ((*p - *q).hypot2(), p.midpoint(*q)))
        })
        .min_by(|a, b| a.0.total_cmp(&b.0));
    (nearest.map_or(mine[0], |n| n.1), parts[smallest].area_mm2())
}

/// A `narrow-neck` finding for each; lengths in mm.
pub fn findings(necks: &[Neck], limit_mm: f64, kerf_mm: f64) -> Vec<Finding> {
    let told = |neck: &Neck| {
        let (piece, width_mm, lost_mm2) = (neck.piece + 1, neck.width_mm, neck.lost_mm2);
        let under = format!("{width_mm:.2} mm wide after the cut, under the limit of {limit_mm} mm; {lost_mm2:.0} mm²");
        let (message, what) = if neck.knob {
            (format!("The neck of a knob of piece {piece} is only {under} hang on it."), "neck")
        } else {
            (format!("Piece {piece} has a waist only {under} would break off."), "waist")
        };
        Finding::new(
            Kind::NarrowNeck,
            Some(neck.at_mm),
            message,
            format!("Draw the {what} at least {:.2} mm wide, or lower `neck` under `[limits]`.", limit_mm + kerf_mm),
        )
    };
    necks.iter().map(told).collect()
}
