//! `publish`: the whole way, from the shop's folder to the catalogue.

mod before;
mod goods;
mod pages;
mod told;

use std::fs::File;
use std::path::{Path, PathBuf};

use clap::Args;
use kerfleaf::catalogue::{self, Card};
use kerfleaf::publish::keep::{FOLDER as KEPT, Keep, Known, Last};
use kerfleaf::publish::{Beside, PublishError, true_path};
use kerfleaf::shop::{Design, Entry, Reading, Shop, Status};

use super::paths::shown;
use super::{Outcome, check};
use before::Before;
use goods::Shelf;
use told::Told;

/// The whole catalogue: pages with figures and pictures, and the painting guides
///
/// Measures every published design, draws it, and writes the catalogue into SHOP/published, which is replaced as a whole or left
/// as it was. A published design that cannot be measured stops it; drafts never do. What has not changed since the last time is
/// not made again.
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
    /// Make everything anew, whatever was kept in SHOP/.kerfleaf
    #[arg(long)]
    from_scratch: bool,
    /// Write the changed addresses with their hashes into this file
    #[arg(long, value_name = "FILE")]
    changes: Option<PathBuf>,
}

impl Call {
    fn target(&self) -> PathBuf {
        self.into.clone().unwrap_or_else(|| self.shop.join("published"))
    }

    /// Why the catalogue, or the list of changes, cannot go where the call wants it.
    fn misplaced(&self) -> Option<String> {
        let (shop, target) = (true_path(&self.shop), true_path(&self.target()));
        let own = ["designs", "pages", "theme", KEPT].into_iter().find(|own| target.starts_with(shop.join(own)));
        if let Some(own) = own {
            return Some(format!("{} lies in the shop's own {own}; choose another folder", shown(&self.target())));
        }
        // The folder is replaced as a whole, and the list with it.
        let changes = self.changes.as_ref().filter(|file| true_path(file).starts_with(&target))?;
        Some(format!("{} lies in the folder that is replaced; choose another place for it", shown(changes)))
    }

    /// What of the call decides what is published.
    fn hash(&self, keep: &Keep) -> blake3::Hash {
        let mut hasher = blake3::Hasher::new_derive_key("kerfleaf publish call 1");
        hasher.update(keep.program.as_bytes());
        hasher.update(&[u8::from(self.leave_out_broken)]);
        hasher.finalize()
    }
}

pub fn run(call: &Call, quiet: bool) -> Outcome {
    let mut told = Told::new(quiet);
    if let Some(why) = call.misplaced() {
        eprintln!("kerfleaf: {why}");
        return Outcome::WrongCall;
    }
    let keep = kept(call, &mut told);
    let before = match keep.as_ref().map(|keep| Before::find(call, keep, &mut told)).transpose() {
        Ok(before) => before.flatten(),
        Err(e) => return lacking(&e),
    };
    if let Some(before) = &before
        && let Some(outcome) = unchanged(call, before, &mut told)
    {
        return outcome;
    }
    let mut known =
        keep.as_ref().zip(before.as_ref()).map(|(keep, before)| before.known(call, keep)).unwrap_or_default();
    let unread = known.iter().map(|(slug, (_, unread))| (slug.clone(), unread.clone())).collect();
    let read = match kerfleaf::shop::read_but(&call.shop, &unread) {
        Ok(read) => read,
        Err(e) => return check::no_shop(&call.shop, &e),
    };
    let shop = &read.shop;
    told.mistakes(&shop.mistakes);
    if !shop.mistakes.is_empty() {
        eprintln!("kerfleaf: nothing was published; mend the above first.");
        return Outcome::Lacking;
    }
    catalogue::look_notes(&shop.settings.look).into_iter().for_each(|note| told.say(true, note));
    known.retain(|slug, _| read.unread.contains(slug));
    let known = known.into_values().map(|(known, _)| known).collect();
    publish(call, &read, known, keep.as_ref(), before, &mut told).unwrap_or_else(|e| lacking(&e))
}

fn lacking(e: &PublishError) -> Outcome {
    eprintln!("kerfleaf: {e}");
    Outcome::Lacking
}

/// What this shop keeps; without a shop, or a place to keep things in, nothing.
fn kept(call: &Call, told: &mut Told) -> Option<Keep> {
    if !call.shop.join("shop.toml").is_file() {
        return None;
    }
    // The file that runs, even where another has taken its name.
    let own = Path::new("/proc/self/exe");
    let program = if own.exists() { own.to_owned() } else { std::env::current_exe().ok()? };
    Keep::open(&call.shop, &program)
        .map_err(|e| {
            told.note(true, format!("nothing can be kept in {} for the next time: {e}", shown(&call.shop.join(KEPT))))
        })
        .ok()
}

/// A publication with nothing to do: shop, program, call and published folder are as the last one left them.
fn unchanged(call: &Call, before: &Before, told: &mut Told) -> Option<Outcome> {
    let last = before.same_call()?;
    if !last.still_reads(&File::open(&call.shop).ok()?) || !before.still_lies() {
        return None;
    }
    if let Some(file) = &call.changes
        && let Err(e) = kerfleaf::publish::write_file(file, b"")
    {
        return Some(lacking(&e));
    }
    for (status, line) in &last.told {
        told.note(*status, line.clone());
    }
    told.note(true, format!("nothing has changed: {} is as it was", call.target().display()));
    Some(if last.done { Outcome::Done } else { Outcome::Lacking })
}

fn publish(
    call: &Call,
    read: &Reading,
    known: Vec<Known>,
    keep: Option<&Keep>,
    before: Option<Before>,
    told: &mut Told,
) -> Result<Outcome, PublishError> {
    let shop = &read.shop;
    let (fresh, last) = match before {
        Some(before) => (before.beside, before.left),
        None => (Beside::new(&call.target())?, None),
    };
    let target = fresh.target().to_str().map(str::to_owned);
    let mut shelf = Shelf::new(shop, call, keep, &fresh, last.as_ref(), known);
    let Some((cards, lacking)) = dear(shop, call, &mut shelf, told)? else { return Ok(Outcome::Lacking) };
    if let Err(why) = shelf.printed(&cards)? {
        eprintln!("{why}");
        return Ok(Outcome::Lacking);
    }
    let prints = match shelf.pages(&cards)? {
        Err(e) => {
            eprintln!("kerfleaf: {e}");
            return Ok(Outcome::Lacking);
        }
        Ok(prints) => prints,
    };
    if call.check || call.changes.is_some() {
        changes(&fresh, &shelf, call)?;
    }
    let (used, made) = shelf.into_known();
    if !call.check {
        if let Some(keep) = keep {
            keep.clear(&used);
        }
        let mut placed = fresh.swap_in()?;
        if let Some((keep, target)) = keep.zip(target) {
            placed.files.iter_mut().for_each(|file| file.of = prints.get(&file.address).copied());
            let last = Last {
                call: call.hash(keep),
                target,
                known: blake3::Hash::from_bytes([0; 32]),
                told: told.kept(),
                done: !lacking,
                seen: keep.settled(read.seen.clone()),
                files: placed.files,
                folders: placed.folders,
            };
            if let Err(e) = keep.record(last, &made) {
                told.note(true, format!("what was done cannot be kept for the next time: {e}"));
            }
        }
        told.note(true, format!("published {} in {}", counted(cards.len(), "design"), call.target().display()));
        drafts(shop, told);
        told.note(true, format!("open {} in a browser to see it", shown(&call.target().join("index.html"))));
    }
    Ok(if lacking { Outcome::Lacking } else { Outcome::Done })
}

/// Prints or writes what changes.
fn changes(fresh: &Beside, shelf: &Shelf<'_>, call: &Call) -> Result<(), PublishError> {
    let changes = fresh.changes(&shelf.old_hashes())?;
    if call.check {
        for change in &changes {
            super::say(&change.to_string());
        }
    }
    match &call.changes {
        Some(file) => {
            let lines: String = changes.iter().map(|c| format!("{c}\n")).collect();
            kerfleaf::publish::write_file(file, lines.as_bytes())
        }
        None => Ok(()),
    }
}

/// Says which designs nobody sees yet, for one who wonders where they are.
fn drafts(shop: &Shop, told: &mut Told) {
    let drafts = shop.entries.iter().filter(|entry| entry.status == Some(Status::Draft));
    let drafts: Vec<&str> = drafts.map(|entry| entry.slug.as_str()).collect();
    if !drafts.is_empty() {
        let whose = if drafts.len() == 1 { "its record says" } else { "their records say" };
        told.note(true, format!("not published: {} ({whose} status = \"draft\")", drafts.join(", ")));
    }
}

fn counted(n: usize, what: &str) -> String {
    if n == 1 { format!("1 {what}") } else { format!("{n} {what}s") }
}

/// Pictures, guides and cards of all published designs, put in place as they are made. Gives the cards and whether anything could
/// not be done; `None` where publishing must stop.
fn dear(
    shop: &Shop,
    call: &Call,
    shelf: &mut Shelf<'_>,
    told: &mut Told,
) -> Result<Option<(Vec<Card>, bool)>, PublishError> {
    let (mut left_out, mut lacking, mut sound): (bool, bool, Vec<&Design>) = (false, false, Vec::new());
    for entry in &shop.entries {
        told.mistakes(&entry.mistakes);
        match (&entry.design, entry.status) {
            (Some(design), _) if design.status == Status::Published => sound.push(design),
            (Some(_), _) | (None, Some(Status::Draft)) => {}
            (None, _) if entry.no_record => lacking = true,
            // A record whose status cannot be read may be one that is on sale.
            (None, _) => left_out = true,
        }
    }
    let (cards, broken) = shelf.take(&sound, told)?;
    left_out |= broken;
    if left_out && !call.leave_out_broken {
        eprintln!(
            "kerfleaf: nothing was published, and the old catalogue is as it was. Mend the above, or publish the rest with --leave-out-broken."
        );
        return Ok(None);
    }
    if left_out {
        let here =
            |e: &&Entry| !cards.iter().any(|c| c.slug == e.slug) && e.status != Some(Status::Draft) && !e.no_record;
        let missing: Vec<&str> = shop.entries.iter().filter(here).map(|e| e.slug.as_str()).collect();
        told.say(false, format!("kerfleaf: left out: {}", missing.join(", ")));
    }
    Ok(Some((cards, left_out || lacking)))
}
