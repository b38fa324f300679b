//! The statutory warnings of the shop's markets for puzzles made for children, in their published wording, and how large they must be.
//!
//! In: markets, for whom the design is made, the area that a label or box shows. Out: lines with the height of their capitals.
//! Rules: 16 CFR 1500.19(b)(1), (d) for words and layout, 16 CFR 1500.121(c), table 1, for the height of type by the area of the display panel;
//! Directive 2009/48/EC, Annex V, part B, point 1, for the European words, which stand in the United Kingdom as well.
//! Never here: a warning in our own words; a mark; a promise. Testing and marking are the maker's duty, and the label says so.

use serde_json::{Value, json};

use super::world::capital_em;
use crate::shop::{Audience, Market};
use crate::units::MM_PER_IN;
use crate::wording::Words;

/// Height of capitals by the area of the principal display panel, inches: up to so many square inches, signal word, statement of hazard, other words.
/// 16 CFR 1500.121(c)(2), table 1; the figures from memory, to be read off the rule before anyone relies on them.
const HEIGHTS_IN: [(f64, [f64; 3]); 6] = [
    (2.0, [3.0 / 64.0, 3.0 / 64.0, 1.0 / 32.0]),
    (5.0, [1.0 / 16.0, 3.0 / 64.0, 3.0 / 64.0]),
    (10.0, [3.0 / 32.0, 1.0 / 16.0, 1.0 / 16.0]),
    (15.0, [7.0 / 64.0, 3.0 / 32.0, 1.0 / 16.0]),
    (30.0, [1.0 / 8.0, 3.0 / 32.0, 5.0 / 64.0]),
    (f64::INFINITY, [5.0 / 32.0, 7.0 / 64.0, 3.0 / 32.0]),
];

/// Least heights of capitals, mm, on a panel of this area: signal word, statement of hazard, other words.
pub fn heights_mm(panel_mm2: f64) -> [f64; 3] {
    let square_inches = panel_mm2 / (MM_PER_IN * MM_PER_IN);
    let row = HEIGHTS_IN.iter().find(|(most, _)| square_inches <= *most);
    row.map_or(HEIGHTS_IN[5].1, |(_, heights)| *heights).map(|inches| inches * MM_PER_IN)
}

/// The warnings to print, each a block of lines with the size of their type in points; none but for children.
pub fn warnings(words: &Words, markets: &[Market], made_for: Option<Audience>, panel_mm2: f64) -> Vec<Value> {
    if made_for != Some(Audience::Children) {
        return Vec::new();
    }
    // A hair more than the least, so that rounding on paper keeps it.
    let points = |mm: f64| 1.005 * mm * super::svg::POINTS_PER_MM / capital_em();
    let [signal, hazard, other] = heights_mm(panel_mm2);
    let mut all = Vec::new();
    if markets.contains(&Market::Us) {
        let line =
            |key: &str, height: f64, bold: bool| json!({ "text": words.text(key), "pt": points(height), "bold": bold });
        all.push(json!({
            "market": "us",
            "symbol_mm": signal,
            "symbol_alt": words.text("warning-symbol"),
            "lines": [
                line("warning-us-1", signal, true),
                line("warning-us-2", hazard, true),
                line("warning-us-3", other, false),
            ],
        }));
    }
    if markets.contains(&Market::Eu) || markets.contains(&Market::Uk) {
        // The directive asks for clearly visible, easily legible words and gives no height; the height of the American statement of hazard is kept.
        all.push(json!({
            "market": "eu",
            "symbol_mm": null,
            "symbol_alt": null,
            "lines": [{ "text": words.text("warning-eu"), "pt": points(other), "bold": false }],
        }));
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 16 CFR 1500.121(c)(2), table 1, row by row, in inches; the figures from memory.
    #[test]
    fn type_is_as_high_as_the_table_of_the_rule_asks() {
        let square_inch = MM_PER_IN * MM_PER_IN;
        for (area, signal, hazard, other) in [
            (2.0, 0.046_875, 0.046_875, 0.031_25),
            (2.1, 0.0625, 0.046_875, 0.046_875),
            (10.0, 0.093_75, 0.0625, 0.0625),
            (15.0, 0.109_375, 0.093_75, 0.0625),
            (30.0, 0.125, 0.093_75, 0.078_125),
            (30.1, 0.156_25, 0.109_375, 0.093_75),
            (500.0, 0.156_25, 0.109_375, 0.093_75),
        ] {
            let found = heights_mm(area * square_inch).map(|mm| mm / MM_PER_IN);
            let near = found.iter().zip([signal, hazard, other]).all(|(f, wanted)| (f - wanted).abs() < 1e-12);
            assert!(near, "{area} square inches: {found:?}");
        }
    }

    /// The published lines: 16 CFR 1500.19(b)(1); Directive 2009/48/EC, Annex V, part B, point 1.
    #[test]
    fn warnings_are_the_published_words_and_stand_on_puzzles_for_children_alone() {
        let words = Words::for_language("en");
        let all = [Market::Eu, Market::Uk, Market::Us];
        let panel = 300.0 * 200.0;
        assert_eq!(warnings(&words, &all, Some(Audience::Adults), panel).len(), 0);
        assert_eq!(warnings(&words, &all, None, panel).len(), 0);
        let shown = warnings(&words, &all, Some(Audience::Children), panel);
        let lines: Vec<&str> =
            shown.iter().flat_map(|w| w["lines"].as_array().unwrap()).map(|l| l["text"].as_str().unwrap()).collect();
        assert_eq!(
            lines,
            [
                "WARNING:",
                "CHOKING HAZARD - Small parts",
                "Not for children under 3 yrs.",
                "Warning. Not suitable for children under 36 months. Small parts. Choking hazard.",
            ]
        );
    }
}
