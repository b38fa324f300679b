//! Cells of a picture drawn as filled shapes: what is visible of each, on the pieces, joined by paint.

use std::collections::BTreeMap;

use super::region::Region;
use super::{Cell, DUST_MM2, Plan, finished};
use crate::drawing::Fill;
use crate::findings::{Checked, Finding, Kind};
use crate::shape::{Extent, Face, Rgb};

fn overlaps(a: &Extent, b: &Extent) -> bool {
    a.min.x <= b.max.x && b.min.x <= a.max.x && a.min.y <= b.max.y && b.min.y <= a.max.y
}

/// Cells of the colour layer: `fills` in painting order, clipped to `pieces` (as drawn, before the kerf), in mm;
/// `paints` are the record's colours. A fill that none of them names is a finding and gives cells without a paint.
/// Handbook, figures, item 10.
pub fn cells(fills: &[Fill], pieces: &[&Face], paints: &[Rgb]) -> Checked<Plan> {
    let board = Region::of_faces(pieces.iter().copied());
    let shapes: Vec<(Region, Extent, Rgb)> = fills
        .iter()
        .filter_map(|f| {
            let region = Region::filled(&f.rings, f.even_odd);
            region.extent().map(|extent| (region, extent, f.colour))
        })
        .collect();

    let mut by_paint: BTreeMap<(usize, Rgb), Vec<Region>> = BTreeMap::new();
    for (i, (region, extent, colour)) in shapes.iter().enumerate() {
        // A later shape of the same fill covers without hiding. Left on, it overlaps what it lies on, and the two join in the union below
        // by more than a shared border, which rounding to the grid could part.
        let hides = |(_, e, c): &&(Region, Extent, Rgb)| c != colour && overlaps(extent, e);
        let later: Vec<&Region> = shapes[i + 1..].iter().filter(hides).map(|(r, _, _)| r).collect();
        let paint = paints.iter().position(|p| p == colour).unwrap_or(usize::MAX);
        by_paint.entry((paint, *colour)).or_default().push(region.minus(&later).within(&board));
    }

    let mut findings = Vec::new();
    let mut cells = Vec::new();
    for ((paint, colour), regions) in by_paint {
        let faces = Region::union(&regions.iter().collect::<Vec<_>>()).faces(DUST_MM2);
        let paint = (paint != usize::MAX).then_some(paint);
        let made: Vec<Cell> = faces.into_iter().map(|face| Cell::new(paint, face)).collect();
        if paint.is_none()
            && let Some(first) = made.first()
        {
            findings.push(unnamed(first, colour, made.len()));
        }
        cells.extend(made);
    }
    finished(cells, findings)
}

/// A fill without a paint of its colour.
pub(super) fn unnamed(first: &Cell, colour: Rgb, count: usize) -> Finding {
    let cells = if count == 1 { "1 cell".to_string() } else { format!("{count} cells") };
    Finding::new(
        Kind::UnnamedPaint,
        Some(first.label.at_mm),
        format!("The fill {colour} colours {cells}, but no paint of the record has this colour."),
        format!(
            "Add a `[[paint]]` with `colour = \"{colour}\"`, or give the shape the fill of a paint that the record names."
        ),
    )
}
