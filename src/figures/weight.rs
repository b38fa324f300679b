//! What a puzzle weighs, how it is packed, and the cheapest way to post it.

use serde::Serialize;

use super::counts::Size;
use crate::findings::{Finding, Kind};
use crate::shop::{Board, Design, Form, Offer, Pack, Postage, Settings};

/// Woods of a kind differ by about a tenth, so postage is chosen for a board this much heavier. Handbook, figures, item 8;
/// coefficient of variation 10 %: Wood Handbook FPL-GTR-282 (2021), ch. 4.
const HEAVIER: f64 = 0.1;
/// Room a board needs in its pack, in length and width, mm. Handbook, figures, item 8.
const SPARE_MM: f64 = 5.0;

/// Masses, g.
#[derive(Clone, Debug, Serialize)]
pub struct Weight {
    /// Of the wood at the record's moisture.
    pub density_kg_m3: f64,
    /// All pieces.
    pub board_g: f64,
    /// In the record's order.
    pub offers: Vec<OfferWeight>,
}

/// One offer, packed.
#[derive(Clone, Debug, Serialize)]
pub struct OfferWeight {
    /// Form of the offer.
    pub form: Form,
    /// Stock code.
    pub code: String,
    /// Board + finish + extras + pack, g.
    pub packed_g: f64,
    /// Packed size, longest side first, mm.
    #[serde(skip)]
    pub packed_mm: [f64; 3],
    /// Cheapest service of each zone, in the order zones first appear: zone and index into the shop's postage rows.
    #[serde(skip)]
    pub postage: Vec<(String, Option<usize>)>,
}

/// Density of the board, kg/m³: the owner's measurement, else the wood's row at the record's moisture.
pub fn density_kg_m3(board: &Board) -> f64 {
    board.density_kg_m3.unwrap_or_else(|| board.wood.density_kg_m3(board.moisture_percent))
}

/// Masses of a design whose pieces have `net_mm2` after the cut. Handbook, figures, item 8.
pub fn weight(design: &Design, shop: &Settings, net_mm2: f64, size: &Size) -> Weight {
    let density_kg_m3 = density_kg_m3(&design.board);
    // mm³ to m³ is 1e-9, kg to g is 1e3.
    let board_g = net_mm2 * size.thickness_mm * density_kg_m3 * 1e-6;
    let offers = design.offers.iter().map(|o| packed(o, shop, board_g, size)).collect();
    Weight { density_kg_m3, board_g, offers }
}

fn pack_of<'a>(offer: &Offer, shop: &'a Settings) -> Option<&'a Pack> {
    offer.pack.and_then(|i| shop.packs.get(i))
}

fn packed(offer: &Offer, shop: &Settings, board_g: f64, size: &Size) -> OfferWeight {
    let pack = pack_of(offer, shop);
    let packed_g = board_g + offer.finish_g + offer.extras_g + pack.map_or(0.0, |p| p.weight_g);
    let mut packed_mm = pack.map_or([size.width_mm, size.height_mm, size.thickness_mm], |p| p.outer_mm);
    packed_mm.sort_by(|a, b| b.total_cmp(a));
    let mut zones: Vec<&str> = Vec::new();
    for row in &shop.postage {
        if !zones.contains(&row.zone.as_str()) {
            zones.push(&row.zone);
        }
    }
    let cheapest = |zone: &str| {
        let fits = |row: &&Postage| row.zone == zone && takes(row, packed_g + HEAVIER * board_g, packed_mm);
        let mut best: Option<usize> = None;
        for (i, row) in shop.postage.iter().enumerate().filter(|(_, row)| fits(row)) {
            // At equal prices the first row counts.
            if best.is_none_or(|b| row.price < shop.postage[b].price) {
                best = Some(i);
            }
        }
        best
    };
    let postage = zones.into_iter().map(|z| (z.to_string(), cheapest(z))).collect();
    OfferWeight { form: offer.form, code: offer.code.clone(), packed_g, packed_mm, postage }
}

/// Whether a service takes a parcel; sides longest first.
fn takes(row: &Postage, mass_g: f64, sides_mm: [f64; 3]) -> bool {
    let mut max = row.max_mm.unwrap_or([f64::INFINITY; 3]);
    max.sort_by(|a, b| b.total_cmp(a));
    mass_g <= row.up_to_g
        && sides_mm.iter().zip(max).all(|(side, max)| *side <= max)
        && row.max_sum_mm.is_none_or(|max| sides_mm.iter().sum::<f64>() <= max)
}

/// `pack-too-small` and `no-postage`.
pub fn findings(design: &Design, shop: &Settings, weight: &Weight, size: &Size) -> Vec<Finding> {
    let mut all = Vec::new();
    for (offer, packed) in design.offers.iter().zip(&weight.offers) {
        if let Some(pack) = pack_of(offer, shop)
            && !goes_in(pack, size)
        {
            let [l, w, d] = pack.inner_mm;
            all.push(Finding::new(
                Kind::PackTooSmall,
                None,
                format!(
                    "The board of {:.1} × {:.1} × {:.1} mm does not go into the pack `{}` ({l} × {w} × {d} mm inside) with 5 mm to spare (offer `{}`).",
                    size.width_mm, size.height_mm, size.thickness_mm, pack.name, packed.code
                ),
                "Choose a larger pack for this offer, or correct the pack's inner size in shop.toml.",
            ));
        }
        let without: Vec<&str> = packed.postage.iter().filter(|p| p.1.is_none()).map(|p| p.0.as_str()).collect();
        if !without.is_empty() {
            let [l, w, d] = packed.packed_mm;
            all.push(Finding::new(
                Kind::NoPostage,
                None,
                format!(
                    "No service for {} takes offer `{}`: about {:.0} g, {l:.0} × {w:.0} × {d:.0} mm packed.",
                    without.join(", "),
                    packed.code,
                    packed.packed_g
                ),
                "Add a `[[postage]]` row that takes it, or choose a lighter or smaller pack.",
            ));
        }
    }
    all
}

fn goes_in(pack: &Pack, size: &Size) -> bool {
    let [l, w, d] = pack.inner_mm;
    let fits = |a: f64, b: f64| a + SPARE_MM <= l && b + SPARE_MM <= w;
    size.thickness_mm <= d && (fits(size.width_mm, size.height_mm) || fits(size.height_mm, size.width_mm))
}

#[cfg(test)]
mod tests;
