//! How much paint, primer and sealer to have ready: always a range, since the published coverages differ by a factor of three.
//!
//! In: an area, mm². Out: millilitres, least and most. Rows and their sources: `content/paint.toml`.
//! Never here: watercolour from pans, for which no such figure exists; rounding and words.

use std::sync::LazyLock;

use serde::Deserialize;

/// Something that is laid on a board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Laid {
    /// Acrylic colour, until it covers.
    Acrylic,
    /// All coats of the primer.
    Primer,
    /// All coats of the sealer.
    Sealer,
}

impl Laid {
    fn id(self) -> &'static str {
        match self {
            Laid::Acrylic => "acrylic",
            Laid::Primer => "primer",
            Laid::Sealer => "sealer",
        }
    }
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    spread: Vec<Spread>,
}

/// One row of the table.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Spread {
    /// Key.
    pub id: String,
    /// Fewest and most.
    pub coats: [f64; 2],
    /// Square metres that a litre covers in one coat, least and most.
    pub m2_per_litre: [f64; 2],
    /// Whose word it is.
    pub source: String,
}

static SPREADS: LazyLock<Vec<Spread>> = LazyLock::new(|| {
    toml::from_str::<Table>(include_str!("../../content/paint.toml")).map(|t| t.spread).unwrap_or_default()
});

/// The row of what is laid; the table has one for each.
pub fn spread(laid: Laid) -> Option<&'static Spread> {
    SPREADS.iter().find(|row| row.id == laid.id())
}

/// Millilitres for an area in mm², least and most: fewest coats of what goes farthest, most coats of what goes least far.
pub fn millilitres(laid: Laid, area_mm2: f64) -> [f64; 2] {
    let Some(row) = spread(laid) else { return [0.0; 2] };
    let ml = |coats: f64, m2_per_litre: f64| coats * area_mm2 * 1e-6 * 1000.0 / m2_per_litre;
    [ml(row.coats[0], row.m2_per_litre[1]), ml(row.coats[1], row.m2_per_litre[0])]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 100 square feet of 0.09290304 m² take a litre (art materials shop's chart): a coat on a board of 300 × 200 mm takes 6.46 ml.
    #[test]
    fn the_least_is_what_the_chart_says() {
        let [least, most] = millilitres(Laid::Acrylic, 300.0 * 200.0);
        assert!((least - 0.06 / (100.0 * 0.09290304) * 1000.0).abs() < 0.01, "{least}");
        // 2 US fl oz (59.147 ml) cover 2 ft²: 318 ml/m², so 19.1 ml.
        assert!((most - 0.06 * 59.147 / (2.0 * 0.09290304)).abs() < 0.05, "{most}");
    }

    #[test]
    fn every_kind_has_a_row_with_its_source_and_a_real_range() {
        for laid in [Laid::Acrylic, Laid::Primer, Laid::Sealer] {
            let row = spread(laid).expect("a row");
            assert!(row.source.len() > 20 && row.coats[0] <= row.coats[1] && row.m2_per_litre[0] < row.m2_per_litre[1]);
            let [least, most] = millilitres(laid, 1e6);
            assert!(least > 0.0 && least < most, "{laid:?} {least} {most}");
        }
        assert_eq!(SPREADS.len(), 3);
    }
}
