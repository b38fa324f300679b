//! Lengths, masses, densities, speeds and money: reading what owners write, and printing it; exact decimals.

/// An exact amount in the smallest unit of a currency that has `decimals` decimals.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Money {
    /// In the smallest unit, for instance cents.
    pub minor: i64,
    /// How many decimals the currency has.
    pub decimals: u32,
}
