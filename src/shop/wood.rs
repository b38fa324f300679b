//! Woods: the table that comes with the program, and an owner's own boards.
//!
//! Formulas and specific gravities: Wood Handbook, FPL-GTR-282 (2021), chapters 4 and 5; every row of
//! `content/woods.toml` names its source.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use super::fields::Fields;
use super::toml_file::TomlFile;
use crate::shape::Rgb;

/// How a wood's density is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WoodDensity {
    /// As weighed or as sold, kg/m³.
    Weighed(f64),
    /// Specific gravity, oven-dry mass over volume at 12 % moisture.
    GravityAt12(f64),
    /// Specific gravity, oven-dry mass over green volume.
    GravityGreen(f64),
}

/// How the grain looks, for pictures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WoodGroup {
    /// Maple, birch, lime, cherry.
    DiffusePorous,
    /// Ash, oak.
    RingPorous,
    /// Pine, spruce.
    Softwood,
    /// Pressed fibre.
    Fibreboard,
}

/// One kind of board.
#[derive(Clone, Debug, PartialEq)]
pub struct Wood {
    /// Key in records.
    pub id: String,
    /// As shown.
    pub name: String,
    /// Solid wood; otherwise a panel.
    pub solid: bool,
    /// Density.
    pub density: WoodDensity,
    /// For pictures.
    pub group: WoodGroup,
    /// Light and dark tone, for pictures.
    pub tones: [Rgb; 2],
    /// Where the figure comes from.
    pub source: String,
}

/// Moisture that panels are sold at, percent of the dry mass (common practice, no source).
const PANEL_MOISTURE_PERCENT: f64 = 8.0;

/// Fibre saturation, percent of the dry mass; above it wood shrinks no further. Wood Handbook, Eq. 4-9: 30.
pub const FIBRE_SATURATION_PERCENT: f64 = 30.0;

/// Shrinkage of the volume, green to oven-dry, as a fraction of the specific gravity. Wood Handbook, Eq. 4-12: 26.5 %.
const SHRINKAGE_PER_GRAVITY: f64 = 0.265;

static TABLE: LazyLock<Vec<Wood>> = LazyLock::new(|| {
    let file = TomlFile::new("content/woods.toml", include_str!("../../content/woods.toml").to_owned());
    let table = file.parse();
    let fields = file.fields(table.get_ref(), "the table");
    fields.tables("wood").into_iter().filter_map(read).collect()
});

/// By language, then id.
static NAMES: LazyLock<BTreeMap<String, BTreeMap<String, String>>> = LazyLock::new(|| {
    // The file is part of the program; the tests below read it, so it cannot be wrong in a built one.
    toml::from_str(include_str!("../../content/wood-names.toml")).expect("content/wood-names.toml is sound")
});

impl Wood {
    /// The rows of `content/woods.toml`, in their order.
    pub fn table() -> &'static [Wood] {
        &TABLE
    }

    /// The name of a row of the table in another language; `None` for an owner's wood, and where the language has no names: English stands in.
    pub fn name_in(id: &str, language: &str) -> Option<&'static str> {
        let plain = language.split('-').next().unwrap_or(language);
        NAMES.get(language).or_else(|| NAMES.get(plain))?.get(id).map(String::as_str)
    }

    /// As shown in a language of the program; an owner's wood as written.
    pub fn in_language(&self, language: &str) -> &str {
        Wood::name_in(&self.id, language).unwrap_or(&self.name)
    }

    /// Density, kg/m³, at a moisture in percent of the dry mass, 0 to 30.
    ///
    /// Solid wood by specific gravity: from green volume by Eq. 4-13, from volume at 12 % by the same equation solved
    /// for the green volume first, then Eq. 4-14. A weighed density, and any panel's, stays as it is.
    pub fn density_kg_m3(&self, moisture_percent: f64) -> f64 {
        let moisture = if self.solid { moisture_percent } else { PANEL_MOISTURE_PERCENT };
        let shrinks_to = |percent: f64| SHRINKAGE_PER_GRAVITY * (1.0 - percent / FIBRE_SATURATION_PERCENT);
        let green = match self.density {
            WoodDensity::Weighed(density) => return density,
            WoodDensity::GravityGreen(gravity) => gravity,
            WoodDensity::GravityAt12(gravity) => gravity / (1.0 + shrinks_to(12.0) * gravity),
        };
        let gravity = green / (1.0 - shrinks_to(moisture) * green);
        1000.0 * gravity * (1.0 + moisture / 100.0)
    }

    /// Whether its sides show plies.
    pub fn plies(&self) -> bool {
        !self.solid && self.group != WoodGroup::Fibreboard
    }
}

/// Reads one `[[wood]]`, of the table or of a shop; `None` after a mistake.
pub(super) fn read(fields: Fields) -> Option<Wood> {
    let id = fields.need("id", "\"osk-poplar\"").and_then(|item| {
        let text = item.text()?;
        let plain = text.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-');
        if !plain {
            item.wrong(format!("`{text}` is not an id."), "Write lower-case letters, digits and hyphens alone.");
        }
        plain.then_some(text)
    });
    let name = fields.need("name", "\"poplar from the boatyard\"").and_then(|item| item.text());
    let solid = fields.need("kind", "\"panel\"").and_then(|item| item.word(&[("solid", true), ("panel", false)]));
    let density = read_density(&fields);
    let group = fields.get("group").map_or(Some(WoodGroup::DiffusePorous), |item| {
        item.word(&[
            ("diffuse-porous", WoodGroup::DiffusePorous),
            ("ring-porous", WoodGroup::RingPorous),
            ("softwood", WoodGroup::Softwood),
            ("fibreboard", WoodGroup::Fibreboard),
        ])
    });
    let tones = match fields.get("colour") {
        None => group.map(usual_tones),
        Some(item) => item.items().and_then(|items| match items.as_slice() {
            [light, dark] => light.colour().zip(dark.colour()).map(|(light, dark)| [light, dark]),
            _ => {
                item.wrong(
                    "`colour` should be two colours.",
                    "Write a light and a dark one: `[\"#e9d0a8\", \"#b28452\"]`.",
                );
                None
            }
        }),
    };
    let source = fields.get("source").map_or(Some("own measurement".to_owned()), |item| item.text());
    fields.finish();
    Some(Wood { id: id?, name: name?, solid: solid?, density: density?, group: group?, tones: tones?, source: source? })
}

fn read_density(fields: &Fields) -> Option<WoodDensity> {
    let weighed = fields.get("density");
    let gravity = fields.get("specific_gravity");
    let basis = fields.get("basis");
    match (weighed, gravity) {
        (Some(weighed), None) => {
            if let Some(basis) = basis {
                basis.wrong("`basis` goes with `specific_gravity`, not with `density`.", "Leave it out.");
            }
            weighed.density_kg_m3().map(WoodDensity::Weighed)
        }
        (None, Some(gravity)) => {
            let value = gravity.number(0.01, 2.0);
            let Some(basis) = basis else {
                let help = "Add `basis = \"12\"` (volume at 12 % moisture) or `basis = \"green\"`.";
                gravity.wrong("`specific_gravity` needs a `basis`.", help);
                return None;
            };
            let make = basis
                .word(&[("12", WoodDensity::GravityAt12 as fn(f64) -> _), ("green", WoodDensity::GravityGreen)])?;
            value.map(make)
        }
        (Some(_), Some(gravity)) => {
            gravity.wrong("A wood has a `density` or a `specific_gravity`, not both.", "Keep what was weighed.");
            None
        }
        (None, None) => {
            fields.need("density", "\"640 kg/m3\"");
            None
        }
    }
}

/// Tones of a board whose owner gives none: own choice, those of the commonest wood of the group in the table.
fn usual_tones(group: WoodGroup) -> [Rgb; 2] {
    match group {
        WoodGroup::DiffusePorous => [Rgb::new(0xea, 0xd3, 0xa6), Rgb::new(0xc0, 0x97, 0x63)],
        WoodGroup::RingPorous => [Rgb::new(0xe6, 0xd3, 0xad), Rgb::new(0xb0, 0x8f, 0x61)],
        WoodGroup::Softwood => [Rgb::new(0xf0, 0xdc, 0xae), Rgb::new(0xcb, 0x9d, 0x63)],
        WoodGroup::Fibreboard => [Rgb::new(0xb9, 0x9b, 0x76), Rgb::new(0x97, 0x7a, 0x58)],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(id: &str) -> &'static Wood {
        Wood::table().iter().find(|wood| wood.id == id).unwrap()
    }

    fn gravity(density: WoodDensity) -> Wood {
        Wood { density, ..row("sugar-maple").clone() }
    }

    /// Wood Handbook, FPL-GTR-282 (2021), chapter 5: specific gravities of Tables 5-3 (volume at 12 %) and 5-5 (green
    /// volume); densities by Eq. 4-13 and 4-14, worked out apart from this program, to 0.1 kg/m³.
    #[test]
    fn solid_woods_weigh_what_the_handbook_says() {
        let rows = [
            ("sugar-maple", 705.6, 695.9),
            ("red-maple", 604.8, 594.5),
            ("silver-maple", 526.4, 516.2),
            ("yellow-poplar", 470.4, 460.4),
            ("black-walnut", 616.0, 605.8),
            ("black-cherry", 560.0, 549.7),
            ("yellow-birch", 694.4, 684.6),
            ("paper-birch", 616.0, 605.8),
            ("american-basswood", 414.4, 404.9),
            ("white-ash", 672.0, 662.0),
            ("northern-red-oak", 705.6, 695.9),
            ("white-oak", 761.6, 752.5),
            ("red-alder", 459.2, 449.3),
            ("american-beech", 716.8, 707.2),
            ("american-sycamore", 548.8, 538.5),
            ("eastern-white-pine", 392.0, 382.7),
            ("sitka-spruce", 448.0, 438.2),
            ("douglas-fir-coast", 537.6, 527.3),
            ("western-redcedar", 358.4, 349.6),
            ("balsa", 183.9, 178.3),
            ("mahogany-true", 542.8, 532.6),
            ("dark-red-meranti", 555.9, 545.6),
            ("light-red-meranti", 402.6, 393.2),
            ("teak", 675.0, 665.1),
            ("purpleheart", 839.9, 831.9),
            ("okoume", 390.1, 380.8),
        ];
        assert_eq!(Wood::table().iter().filter(|wood| wood.solid).count(), rows.len());
        for (id, at_12, at_8) in rows {
            assert!((row(id).density_kg_m3(12.0) - at_12).abs() <= 0.0501, "{id} {}", row(id).density_kg_m3(12.0));
            assert!((row(id).density_kg_m3(8.0) - at_8).abs() <= 0.0501, "{id} {}", row(id).density_kg_m3(8.0));
        }
    }

    /// Wood Handbook, Eq. 4-14: specific gravity 0.40 at 12 % is 448 kg/m³; oven-dry density is the oven-dry gravity.
    /// Above fibre saturation volume stays, so at 30 % density is green gravity with 30 % water on top.
    #[test]
    fn the_formula_holds_at_its_ends() {
        assert!((gravity(WoodDensity::GravityAt12(0.40)).density_kg_m3(12.0) - 448.0).abs() < 1e-9);
        assert!((gravity(WoodDensity::GravityGreen(0.50)).density_kg_m3(30.0) - 650.0).abs() < 1e-9);
        // Eq. 4-13 at 0 %: 0.5 / (1 - 0.265 * 0.5).
        assert!((gravity(WoodDensity::GravityGreen(0.50)).density_kg_m3(0.0) - 576.368_876_08).abs() < 1e-6);
    }

    /// Panels are taken as sold; ranges from the sources in `content/woods.toml`.
    #[test]
    fn panels_lie_in_the_ranges_that_their_makers_give() {
        let ranges = [
            ("birch-plywood", 650.0, 710.0),
            ("sugar-maple-plywood", 500.0, 730.0),
            ("basswood-plywood", 400.0, 520.0),
            ("lauan-plywood", 410.0, 580.0),
            ("okoume-plywood", 400.0, 500.0),
            ("cherry-plywood", 480.0, 600.0),
            ("walnut-plywood", 480.0, 640.0),
            ("poplar-plank", 415.0, 510.0),
            ("poplar-plywood", 400.0, 500.0),
            ("mdf", 700.0, 800.0),
            ("mdf-thin", 800.0, 900.0),
            ("hardboard", 800.0, 1010.0),
            ("softwood-plywood", 430.0, 580.0),
        ];
        assert_eq!(Wood::table().iter().filter(|wood| !wood.solid).count(), ranges.len());
        for (id, low, high) in ranges {
            let density = row(id).density_kg_m3(8.0);
            assert!((low..=high).contains(&density), "{id} {density}");
            assert_eq!(row(id).density_kg_m3(14.0), density, "{id}: moisture does not matter");
        }
    }

    #[test]
    fn every_wood_has_a_name_in_every_language_of_the_program() {
        let ids: std::collections::BTreeSet<_> = Wood::table().iter().map(|wood| &wood.id).collect();
        assert_eq!(NAMES.keys().collect::<Vec<_>>(), ["de", "es", "fr"]);
        for (language, names) in NAMES.iter() {
            assert_eq!(names.keys().collect::<std::collections::BTreeSet<_>>(), ids, "{language}");
            assert!(names.values().all(|name| !name.trim().is_empty()), "{language}");
        }
        assert_eq!(Wood::name_in("birch-plywood", "de-CH"), Some("Birkensperrholz"));
        assert_eq!(Wood::name_in("birch-plywood", "en"), None);
        assert_eq!(Wood::name_in("osk-poplar", "de"), None);
    }

    #[test]
    fn the_table_holds_no_mistake_and_each_id_once() {
        let text = include_str!("../../content/woods.toml");
        let file = TomlFile::new("content/woods.toml", text.to_owned());
        let table = file.parse();
        for wood in file.fields(table.get_ref(), "the table").tables("wood") {
            read(wood);
        }
        drop(table);
        assert_eq!(file.into_mistakes(), []);
        assert_eq!(Wood::table().len(), text.matches("\n[[wood]]").count());
        let ids: std::collections::BTreeSet<_> = Wood::table().iter().map(|wood| &wood.id).collect();
        assert_eq!(ids.len(), Wood::table().len());
        for wood in Wood::table() {
            let sum = |c: Rgb| u32::from(c.r) + u32::from(c.g) + u32::from(c.b);
            assert!(sum(wood.tones[0]) > sum(wood.tones[1]), "{}: the first tone is the light one", wood.id);
        }
    }
}
