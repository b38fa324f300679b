//! Pieces laid out in rows by size, largest first, as a maker lays them out to count them.
//!
//! In: pieces as polygons after the kerf, mm. Out: a [`Place`] for each; boxes around them do not meet, so neither do they.

use super::loosen::{Place, turned_a_little};
use super::noise::Seed;
use crate::shape::{Extent, Face};

/// Most that a piece is turned, radians (about 4°).
const TURN: f64 = 0.07;

/// Rows about half as wide again as they are high together; `gap_mm` between pieces.
pub fn lay_out(pieces: &[&[Face]], seed: Seed, gap_mm: f64) -> Vec<Place> {
    let seed = seed.named("tray");
    let mut places = turned_a_little(pieces, seed, TURN);
    let boxes: Vec<Option<Extent>> = pieces
        .iter()
        .zip(&places)
        .map(|(faces, place)| Extent::of(place.faces(faces).iter().flat_map(|f| &f.outer)))
        .collect();
    let area = |n: usize| pieces[n].iter().map(Face::area_mm2).sum::<f64>();
    let mut order: Vec<usize> = (0..pieces.len()).filter(|n| boxes[*n].is_some()).collect();
    order.sort_by(|a, b| area(*b).total_cmp(&area(*a)).then(a.cmp(b)));
    let room: f64 = boxes.iter().flatten().map(|e| (e.width_mm() + gap_mm) * (e.height_mm() + gap_mm)).sum();
    let wide = (1.5 * 1.12 * room).sqrt();
    let mut top = 0.0;
    let mut row: Vec<(usize, Extent)> = Vec::new();
    let mut used = 0.0;
    for n in order {
        let Some(own) = boxes[n] else { continue };
        if used + own.width_mm() > wide && !row.is_empty() {
            top += set(&mut places, &row, top, wide, gap_mm) + gap_mm;
            row.clear();
            used = 0.0;
        }
        used += own.width_mm() + gap_mm;
        row.push((n, own));
    }
    if !row.is_empty() {
        set(&mut places, &row, top, wide, gap_mm);
    }
    places
}

/// Sets one row, its slack shared out between the pieces (unless the row is short); gives its height, mm.
fn set(places: &mut [Place], row: &[(usize, Extent)], top: f64, wide: f64, gap: f64) -> f64 {
    let high = row.iter().map(|(_, e)| e.height_mm()).fold(0.0, f64::max);
    let full: f64 = row.iter().map(|(_, e)| e.width_mm()).sum();
    let between = if row.len() > 1 { (wide - full) / (row.len() - 1) as f64 } else { gap };
    let between = if between > 2.5 * gap + 4.0 { gap } else { between.max(gap * 0.5) };
    let mut left = 0.0;
    for (n, own) in row {
        let place = &mut places[*n];
        // The box was taken with the centre at home.
        let by = kurbo::Vec2::new(left - own.min.x, top + 0.5 * (high - own.height_mm()) - own.min.y);
        place.at += by;
        left += own.width_mm() + between;
    }
    high
}
