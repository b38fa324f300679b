//! Reads a shop of drawn puzzles and works out what the buyer and the laser need to know.
//!
//! `shop` → `drawing` → `pieces`, `paint` → `figures` → `pictures`, `sheets`, `catalogue` → `publish`.
//! Each arrow is a plain value; nothing on the left knows of what lies to its right.
//!
//! Absent on purpose: a clock, a network call, a global; files, but for `shop` (reads) and `publish` (writes).
//!
//! What figures mean and what a shop folder holds: [`handbook`]. Measuring every design of a shop:
//!
//! ```
//! use kerfleaf::{figures, shop};
//!
//! let shop = shop::read("tests/figures/shop".as_ref())?;
//! for design in shop.entries.iter().filter_map(|entry| entry.design.as_ref()) {
//!     match figures::measure(design, &shop.settings) {
//!         Ok(measured) => println!("{}: {} pieces", design.slug, measured.figures.pieces.count),
//!         Err(why) => println!("{}: {why}", design.slug),
//!     }
//! }
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

// No clock, no hash order, no environment, no mathematics of the system's own: the list is in clippy.toml.
#![cfg_attr(not(test), deny(clippy::disallowed_methods, clippy::disallowed_types))]

pub mod catalogue;
pub mod cautions;
pub mod colour;
pub mod compare;
pub mod drawing;
pub mod figures;
pub mod findings;
pub mod handbook;
pub mod inmost;
pub mod inspect;
pub mod paint;
pub mod pictures;
pub mod pieces;
#[cfg(feature = "preview")]
pub mod preview;
pub mod propose;
pub mod publish;
pub mod shape;
#[cfg(feature = "sheets")]
pub mod sheets;
pub mod shop;
pub mod units;
pub mod wording;

/// Keeps the example of README.md true.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
pub struct Readme;
