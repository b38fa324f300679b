//! Reads a shop of drawn puzzles and works out what the buyer and the laser need to know.
//!
//! `shop` → `drawing` → `pieces`, `paint` → `figures` → `pictures`, `sheets`, `catalogue` → `publish`.
//! Each arrow is a plain value; nothing on the left knows of what lies to its right.
//!
//! Absent on purpose: a clock, a network call, a global; files, but for `shop` (reads) and `publish` (writes).

pub mod catalogue;
pub mod cautions;
pub mod colour;
pub mod drawing;
pub mod figures;
pub mod findings;
pub mod inmost;
pub mod paint;
pub mod pictures;
pub mod pieces;
pub mod publish;
pub mod shape;
#[cfg(feature = "sheets")]
pub mod sheets;
pub mod shop;
pub mod units;
pub mod wording;
