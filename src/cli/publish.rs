//! `publish`: the whole way, from the shop's folder to the catalogue.

use std::collections::BTreeMap;
use std::path::PathBuf;

use clap::Args;
use kerfleaf::catalogue::{self, Card, GoodsError};
use kerfleaf::publish::{Beside, PublishError};
use kerfleaf::shop::{Design, Entry, Shop, Status};
use kerfleaf::{catalogue::goods, figures};
use rayon::prelude::*;

use super::progress::Progress;
use super::{Outcome, check, measure};

/// The whole catalogue: pages with figures and pictures, and the painting guides
///
/// Measures every published design, draws it, and writes the catalogue into SHOP/published, which is replaced as a whole or left
/// as it was. A published design that cannot be measured stops it; drafts never do.
#[derive(Args)]
pub struct Call {
    /// The shop's folder
    shop: PathBuf,
    /// Where the catalogue goes, instead of SHOP/published
    #[arg(long, value_name = "DIR")]
    into: Option<PathBuf>,
    /// Publish the rest when a design cannot be measured, and say what is missing
    #[arg(long)]
    leave_out_broken: bool,
    /// Only say what would change
    #[arg(long)]
    check: bool,
    /// Make everything anew; this version keeps nothing between runs, so it always does
    #[arg(long = "from-scratch")]
    _from_scratch: bool,
    /// Write the changed addresses with their hashes into this file
    #[arg(long, value_name = "FILE")]
    changes: Option<PathBuf>,
}

pub fn run(call: &Call, quiet: bool) -> Outcome {
    let shop = match check::open(&call.shop) {
        Ok(shop) => shop,
        Err(outcome) => return outcome,
    };
    if !shop.mistakes.is_empty() {
        eprintln!("kerfleaf: nothing was published; mend the above first.");
        return Outcome::Lacking;
    }
    let target = call.into.clone().unwrap_or_else(|| call.shop.join("published"));
    let fresh = match Beside::new(&target) {
        Ok(fresh) => fresh,
        Err(e) => return failed(&e),
    };
    let Some((cards, pictures, lacking)) = dear(&shop, call, &fresh, quiet) else { return Outcome::Lacking };
    if let Err(e) = printed(&shop, call, &cards, &pictures, &fresh) {
        eprintln!("{e}");
        return Outcome::Lacking;
    }
    match catalogue::pages(&shop, &cards) {
        Err(e) => {
            eprintln!("kerfleaf: {e}");
            return Outcome::Lacking;
        }
        Ok(pages) => {
            if let Err(e) = pages.par_iter().try_for_each(|page| fresh.write(page)) {
                return failed(&e);
            }
        }
    }
    match finish(fresh, call) {
        Err(e) => failed(&e),
        Ok(()) => {
            if !quiet && !call.check {
                eprintln!("published {} in {}", counted(cards.len(), "design"), target.display());
            }
            if lacking { Outcome::Lacking } else { Outcome::Done }
        }
    }
}

/// Small pictures for the printed catalogue, by slug.
type Pictures = BTreeMap<String, Vec<u8>>;

/// The printed catalogue, by the same way as `print` makes it.
#[cfg(feature = "sheets")]
fn printed(shop: &Shop, call: &Call, cards: &[Card], pictures: &Pictures, fresh: &Beside) -> Result<(), String> {
    let pages =
        catalogue::printed_pages(shop, cards, pictures).map_err(|e| check::sheet_mistake(&call.shop, None, &e))?;
    pages.iter().try_for_each(|page| fresh.write(page)).map_err(|e| format!("kerfleaf: {e}"))
}

/// Without the feature `sheets` there is none.
#[cfg(not(feature = "sheets"))]
fn printed(_: &Shop, _: &Call, _: &[Card], _: &Pictures, _: &Beside) -> Result<(), String> {
    Ok(())
}

/// The main picture among a design's pages, as small as the printed catalogue shows it.
#[cfg(feature = "sheets")]
fn small(shop: &Shop, slug: &str, pages: &[catalogue::Page]) -> Option<Vec<u8>> {
    let address = catalogue::main_picture_address(slug);
    catalogue::printed_picture(shop, &pages.iter().find(|p| p.address == address)?.bytes)
}

#[cfg(not(feature = "sheets"))]
fn small(_: &Shop, _: &str, _: &[catalogue::Page]) -> Option<Vec<u8>> {
    None
}

/// Why a design's goods could not be made; a guide's words with their place.
#[cfg(feature = "sheets")]
fn broken(call: &Call, why: GoodsError) -> String {
    match why {
        GoodsError::Guide { slug, source } => check::sheet_mistake(&call.shop, Some(&slug), &source),
        why => format!("kerfleaf: {why}"),
    }
}

#[cfg(not(feature = "sheets"))]
fn broken(_: &Call, why: GoodsError) -> String {
    format!("kerfleaf: {why}")
}

fn failed(e: &PublishError) -> Outcome {
    eprintln!("kerfleaf: {e}");
    Outcome::Lacking
}

fn counted(n: usize, what: &str) -> String {
    if n == 1 { format!("1 {what}") } else { format!("{n} {what}s") }
}

/// Compares, tells the changes if asked, and puts the new folder in place unless only a check was asked for.
fn finish(fresh: Beside, call: &Call) -> Result<(), PublishError> {
    if call.check || call.changes.is_some() {
        let changes = fresh.changes()?;
        if call.check {
            for change in &changes {
                super::say(&change.to_string());
            }
        }
        if let Some(file) = &call.changes {
            let lines: String = changes.iter().map(|c| format!("{c}\n")).collect();
            kerfleaf::publish::write_file(file, lines.as_bytes())?;
        }
    }
    if call.check { Ok(()) } else { fresh.swap_in() }
}

/// Pictures, guides and cards of all published designs, written as they are made. Gives the cards and whether anything could not
/// be done; `None` where publishing must stop.
fn dear(shop: &Shop, call: &Call, fresh: &Beside, quiet: bool) -> Option<(Vec<Card>, Pictures, bool)> {
    let (mut left_out, mut lacking, mut sound): (bool, bool, Vec<&Design>) = (false, false, Vec::new());
    for entry in &shop.entries {
        check::report(&entry.mistakes);
        match (&entry.design, entry.status) {
            (Some(design), _) if design.status == Status::Published => sound.push(design),
            (Some(_), _) | (None, Some(Status::Draft)) => {}
            (None, _) if entry.no_record => lacking = true,
            // A record whose status cannot be read may be one that is on sale.
            (None, _) => left_out = true,
        }
    }
    let (mut cards, mut pictures) = (Vec::new(), Pictures::new());
    // One design after the other, each on all cores: pictures in the making take a hundred megabytes a design.
    let progress = Progress::new("drawing", sound.len(), quiet);
    for design in sound {
        let made = one(shop, call, design, fresh);
        progress.step();
        match made {
            Ok(Made::Card(card, picture, summary)) => {
                if !quiet {
                    progress.say(&format!("{}: {summary}", design.slug));
                }
                pictures.extend(picture.map(|p| (card.slug.clone(), p)));
                cards.push(*card);
            }
            Ok(Made::Broken(why)) => {
                progress.say(&why);
                left_out = true;
            }
            Err(e) => {
                failed(&e);
                return None;
            }
        }
    }
    drop(progress);
    if left_out && !call.leave_out_broken {
        eprintln!(
            "kerfleaf: nothing was published, and the old catalogue is as it was. Mend the above, or publish the rest with --leave-out-broken."
        );
        return None;
    }
    if left_out {
        let here =
            |e: &&Entry| !cards.iter().any(|c| c.slug == e.slug) && e.status != Some(Status::Draft) && !e.no_record;
        let missing: Vec<&str> = shop.entries.iter().filter(here).map(|e| e.slug.as_str()).collect();
        eprintln!("kerfleaf: left out: {}", missing.join(", "));
    }
    Some((cards, pictures, left_out || lacking))
}

enum Made {
    Card(Box<Card>, Option<Vec<u8>>, String),
    Broken(String),
}

/// One design: measured, drawn, written.
fn one(shop: &Shop, call: &Call, design: &Design, fresh: &Beside) -> Result<Made, PublishError> {
    let measured = match figures::measure(design, &shop.settings) {
        Ok(measured) => measured,
        Err(why) => return Ok(Made::Broken(check::rendered(&why.mistake(design)))),
    };
    let made = match goods(shop, design, &measured) {
        Ok(made) => made,
        Err(why) => return Ok(Made::Broken(broken(call, why))),
    };
    for page in &made.pages {
        fresh.write(page)?;
    }
    let findings = measure::summary(&measured.findings);
    let counts = counted(measured.figures.pieces.count, "piece");
    let summary = if findings.is_empty() { counts } else { format!("{counts}; {}", findings.join(", ")) };
    let picture = small(shop, &design.slug, &made.pages);
    Ok(Made::Card(Box::new(made.card), picture, summary))
}
