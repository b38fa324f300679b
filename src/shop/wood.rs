//! Woods: the table that comes with the program, and an owner's own boards.

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

impl Wood {
    /// Whether its sides show plies.
    pub fn plies(&self) -> bool {
        !self.solid && self.group != WoodGroup::Fibreboard
    }
}
