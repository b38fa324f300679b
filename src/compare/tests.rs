//! Drawings whose differences are known because they were made here: tiles in rows.

use super::*;
use crate::drawing::{Layer, Layers, Selector};
use crate::figures;
use crate::shop::{self, Design};

/// Tiles of 20 × 20 mm, from `x` and `y`; `paths` on top of the grid.
fn tiles(across: u32, down: u32, (x, y): (f64, f64), paths: &str) -> String {
    let (w, h) = (f64::from(across) * 20.0, f64::from(down) * 20.0);
    let mut lines = format!("<rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\"/>");
    for i in 1..across {
        lines.push_str(&format!("<path d=\"M{} {y}v{h}\"/>", x + f64::from(i) * 20.0));
    }
    for i in 1..down {
        lines.push_str(&format!("<path d=\"M{x} {}h{w}\"/>", y + f64::from(i) * 20.0));
    }
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"200mm\" height=\"200mm\" viewBox=\"0 0 200 200\"><g id=\"cut\">{lines}{paths}</g></svg>"
    )
}

fn with(design: &Design, svg: String) -> Design {
    let mut design = design.clone();
    design.drawing.svg = svg;
    design.drawing.layers = Layers(vec![(Layer::Cut, vec![Selector::Name("cut".into())])]);
    design
}

fn check(old: String, new: String, found: impl Fn(&Comparison, String)) {
    let shop = shop::read(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/figures/shop").as_ref()).unwrap();
    let design = shop.entries.iter().find_map(|e| e.design.as_ref()).unwrap();
    let measure = |svg| figures::measure(&with(design, svg), &shop.settings).unwrap();
    let (old, new) = (measure(old), measure(new));
    let comparison = compare(&old, &new);
    let picture = picture(&comparison, &old, &new);
    assert_eq!(picture.matches("url(#come)").count(), comparison.come.len());
    assert_eq!(picture.matches("url(#changed)").count(), comparison.changed.len());
    assert_eq!(picture.matches("stroke-dasharray").count(), comparison.gone.len() + comparison.changed.len());
    found(&comparison, text(&comparison));
}

#[test]
fn the_same_drawing_has_not_changed() {
    check(tiles(3, 2, (10.0, 10.0), ""), tiles(3, 2, (10.0, 10.0), ""), |c, text| {
        assert!(
            c.nothing_changed() && c.same.len() == 6 && c.changed.is_empty() && c.come.is_empty() && c.gone.is_empty()
        );
        assert!(text.contains("Nothing that is cut or scored has changed."), "{text}");
    });
}

#[test]
fn a_drawing_that_was_moved_is_found_again() {
    check(tiles(3, 2, (10.0, 10.0), ""), tiles(3, 2, (15.0, 9.0), ""), |c, text| {
        assert_eq!((c.same.len(), c.moved_mm), (6, [5.0, -1.0]));
        assert!(text.contains("+5.00 mm across, -1.00 mm down"), "{text}");
    });
}

/// A column more: two pieces come, six stay where they are.
#[test]
fn new_pieces_are_told() {
    check(tiles(3, 2, (10.0, 10.0), ""), tiles(4, 2, (10.0, 10.0), ""), |c, text| {
        assert_eq!((c.same.len(), c.changed.len(), c.gone.len()), (6, 0, 0));
        assert_eq!(c.come, [4, 8]);
        assert!(text.contains("2 pieces new: 4, 8."), "{text}");
    });
}

/// A strip of 4 × 20 mm is cut off the first tile: what is left of it, 320 of 400 mm², is the changed tile, the strip is new.
#[test]
fn a_piece_cut_in_two_is_one_changed_and_one_new() {
    check(tiles(3, 2, (10.0, 10.0), ""), tiles(3, 2, (10.0, 10.0), "<path d=\"M14 10v20\"/>"), |c, text| {
        assert_eq!((c.same.len(), c.come.len(), c.gone.len()), (5, 1, 0));
        assert_eq!((c.changed.as_slice(), c.come.as_slice()), ([(1, 2)].as_slice(), [1].as_slice()));
        assert!(text.contains("1 piece changed: 2 (was 1)."), "{text}");
        assert!(text.lines().any(|line| line.starts_with("pieces") && line.ends_with("+1")), "{text}");
    });
    check(tiles(3, 2, (10.0, 10.0), "<path d=\"M14 10v20\"/>"), tiles(3, 2, (10.0, 10.0), ""), |c, _| {
        assert_eq!((c.changed.as_slice(), c.gone.as_slice(), c.come.len()), ([(2, 1)].as_slice(), [1].as_slice(), 0));
    });
}
