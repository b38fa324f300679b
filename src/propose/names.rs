//! A name for a paint from its colour, out of our own words.

use std::sync::LazyLock;

use crate::colour::{Lab, difference};
use crate::shape::Rgb;
use crate::units;

#[derive(serde::Deserialize)]
struct Table {
    names: Vec<(String, String)>,
}

static NAMES: LazyLock<Vec<(String, Lab)>> = LazyLock::new(|| {
    // Part of the program and held by the test below, so nothing here hangs on what a user writes.
    let table: Table =
        toml::from_str(include_str!("../../content/colour-words.toml")).unwrap_or(Table { names: Vec::new() });
    let read = |(name, colour): (String, String)| units::colour(&colour).ok().map(|colour| (name, Lab::from(colour)));
    table.names.into_iter().filter_map(read).collect()
});

/// A name for each colour, no name twice: the nearest by ΔE00 that is still free, colours that lie nearest to a name first.
pub fn names(colours: &[Rgb]) -> Vec<String> {
    let mut pairs: Vec<(f64, usize, usize)> = Vec::new();
    for (i, colour) in colours.iter().enumerate() {
        let lab = Lab::from(*colour);
        pairs.extend(NAMES.iter().enumerate().map(|(n, (_, name))| (difference(lab, *name), i, n)));
    }
    pairs.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)).then(a.2.cmp(&b.2)));
    let mut given: Vec<Option<usize>> = vec![None; colours.len()];
    let mut taken = vec![false; NAMES.len()];
    for (_, colour, name) in pairs {
        if given[colour].is_none() && !taken[name] {
            given[colour] = Some(name);
            taken[name] = true;
        }
    }
    let named =
        |(i, name): (usize, Option<usize>)| name.map_or_else(|| format!("Paint {}", i + 1), |n| NAMES[n].0.clone());
    given.into_iter().enumerate().map(named).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_a_name_and_a_colour_and_stands_there_once() {
        let rows = include_str!("../../content/colour-words.toml").matches("[\"").count();
        assert_eq!(NAMES.len(), rows);
        assert!(rows >= 100, "{rows}");
        let names: std::collections::BTreeSet<_> = NAMES.iter().map(|(name, _)| name).collect();
        assert_eq!(names.len(), rows);
    }

    #[test]
    fn near_colours_get_different_names_and_the_nearest_its_own() {
        let colour = |text: &str| units::colour(text).unwrap();
        let named = names(&[colour("#f4f2ea"), colour("#efebdf"), colour("#26486d")]);
        assert_eq!(named[1], "Linen");
        assert_ne!(named[0], named[1]);
        assert!(["Deep channel", "Harbour", "Ink", "Work jacket"].contains(&named[2].as_str()), "{named:?}");
    }

    #[test]
    fn more_colours_than_names_are_numbered() {
        let many: Vec<Rgb> = (0..=255).map(|g| Rgb::new(g, 128, 255 - g)).collect();
        let named = names(&many);
        let different: std::collections::BTreeSet<_> = named.iter().collect();
        assert_eq!((named.len(), different.len()), (256, 256));
        assert!(named.iter().any(|name| name.starts_with("Paint ")));
    }
}
