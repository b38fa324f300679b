//! The handbook: what goes into a shop folder, what every figure means, what comes out.
//!
//! Written for the maker who keeps the folder; the code and its tests hold to it and cite it by section, as in
//! "Handbook, figures, item 5". Where the two differ, one of them is wrong.
//!
//! | section | tells |
//! |---|---|
//! | [`shop_folder`] | what an owner keeps: folder, record.toml, the drawing, shop.toml |
//! | [`figures`] | the meaning of every number, items 1 to 15 |
//! | [`findings`] | what the program notices about a drawing, and how grave it is |
//! | [`commands`] | what can be asked of the program, and the data it answers with |
//! | [`published_folder`] | the catalogue: addresses, privacy, pictures |
//! | [`sheets`] | what is printed, and the one order of work |
//! | [`safety`] | what can hurt somebody |
//! | [`makers_day`] | a walk: from a drawing to the post |
//! | [`theme`] | how to change what pages and sheets look like |
//! | [`embedding`] | how another program uses this library |

#[doc = include_str!("shop_folder.md")]
pub mod shop_folder {}

#[doc = include_str!("figures.md")]
pub mod figures {}

#[doc = include_str!("findings.md")]
pub mod findings {}

#[doc = include_str!("commands.md")]
pub mod commands {}

#[doc = include_str!("published_folder.md")]
pub mod published_folder {}

#[doc = include_str!("sheets.md")]
pub mod sheets {}

#[doc = include_str!("safety.md")]
pub mod safety {}

#[doc = include_str!("makers_day.md")]
pub mod makers_day {}

#[doc = include_str!("theme.md")]
pub mod theme {}

#[doc = include_str!("embedding.md")]
pub mod embedding {}
