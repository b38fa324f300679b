//! The dear stage design by design: taken from what was kept where that holds, else made and kept.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use blake3::Hash;
use kerfleaf::catalogue::{Card, GoodsError, Guide, Page, Parts, PictureSet, Wants, parts};
use kerfleaf::figures;
use kerfleaf::publish::keep::{Basis, Entry, Found, Keep, KeptFile, Keys, Known};
use kerfleaf::publish::{Beside, PublishError};
use kerfleaf::shop::{Design, Shop, Stamp, Status};
use rayon::prelude::*;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::before::Left;
use super::told::Told;
use super::{Call, counted};
use crate::cli::measure;

/// Where goods come from and where they go.
pub struct Shelf<'a> {
    pub(super) shop: &'a Shop,
    /// The shop's folder as called, for messages.
    pub(super) root: &'a Path,
    pub(super) fresh: &'a Beside,
    pub(super) keep: Option<&'a Keep>,
    pub(super) basis: Option<Basis>,
    pub(super) from_scratch: bool,
    pub(super) left: Option<&'a Left>,
    /// Designs that were left unread, until they are taken.
    unread: Vec<Known>,
    /// What is known of the designs that were taken.
    pub(super) known: Vec<Known>,
    /// How many designs are for sale, whether or not they can be measured.
    #[cfg_attr(not(feature = "sheets"), expect(dead_code, reason = "only the printed catalogue asks for it"))]
    pub(super) published: usize,
    /// Keys of what this publication stands on.
    pub(super) used: BTreeSet<String>,
}

/// A card with the line that is said of its design.
#[derive(Serialize, Deserialize)]
struct Carded {
    card: Card,
    summary: String,
}

/// A part that was kept, with a place to take each of its files from.
pub(super) struct Ready<T> {
    pub(super) value: T,
    pub(super) files: Vec<Placed>,
}

/// A file, where to take it from, and how it looked when it was known to be whole.
pub(super) struct Placed {
    file: KeptFile,
    from: PathBuf,
    stamp: Stamp,
}

/// Addresses of files, each with the hash of its content.
pub(super) type Names = Vec<(String, Hash)>;

impl<T> Ready<T> {
    fn names(&self) -> Names {
        self.files.iter().map(|placed| (placed.file.address.clone(), placed.file.hash)).collect()
    }
}

/// What is known of a design that was taken.
fn known(design: &Design, keys: Keys, files: Names, carded: &Carded) -> Option<Known> {
    let codes = design.offers.iter().map(|offer| offer.code.clone()).collect();
    Some(Known { slug: design.slug.clone(), keys, codes, files, value: serde_json::to_vec(carded).ok()? })
}

/// What is at hand of one design.
struct AtHand {
    keys: Option<Keys>,
    card: Option<Carded>,
    pictures: Option<Ready<Vec<PictureSet>>>,
    guides: Option<Ready<Vec<Guide>>>,
    damaged: bool,
}

impl<'a> Shelf<'a> {
    pub fn new(
        shop: &'a Shop,
        call: &'a Call,
        keep: Option<&'a Keep>,
        fresh: &'a Beside,
        left: Option<&'a Left>,
        unread: Vec<Known>,
    ) -> Shelf<'a> {
        let basis = keep.map(|keep| Basis::of(&keep.program, shop));
        let for_sale =
            |entry: &&kerfleaf::shop::Entry| entry.design.is_some() && entry.status == Some(Status::Published);
        let published = shop.entries.iter().filter(for_sale).count() + unread.len();
        let (from_scratch, used, known) = (call.from_scratch, BTreeSet::new(), Vec::new());
        Shelf { shop, root: &call.shop, fresh, keep, basis, from_scratch, left, unread, known, published, used }
    }

    /// What this publication stands on: keys of what was kept, and what is known of its designs.
    pub fn into_known(self) -> (BTreeSet<String>, Vec<Known>) {
        (self.used, self.known)
    }

    /// Hashes of those files of the old folder that are still as they were left.
    pub fn old_hashes(&self) -> BTreeMap<String, Hash> {
        self.left.map(Left::hashes).unwrap_or_default()
    }

    /// Writes a page; where the old folder has the same, that one stays, with its date.
    pub fn write(&self, page: &Page) -> Result<(), PublishError> {
        let hash = blake3::hash(&page.bytes);
        match self.left.and_then(|left| left.stamp(&page.address, &hash)) {
            Some(stamp) => self.stay(&page.address, hash, &stamp),
            None => self.fresh.write(page),
        }
    }

    /// Takes a file of the old folder over.
    pub(super) fn stay(&self, address: &str, hash: Hash, stamp: &Stamp) -> Result<(), PublishError> {
        self.fresh.link(address, hash, &self.fresh.target().join(address), stamp)
    }

    /// Cards of all these designs that can be measured and of those left unread, by slug, their files in place; and whether some cannot.
    pub fn take(&mut self, sound: &[&Design], told: &mut Told) -> Result<(Vec<Card>, bool), PublishError> {
        let at_hand: Vec<AtHand> = sound.par_iter().map(|design| self.at_hand(design)).collect();
        at_hand.par_iter().try_for_each(|found| {
            found.pictures.iter().try_for_each(|ready| self.place(&ready.files))?;
            found.guides.iter().try_for_each(|ready| self.place(&ready.files))
        })?;
        let unread = std::mem::take(&mut self.unread);
        let as_before: Vec<_> = unread.into_par_iter().map(|known| self.as_before(known)).collect::<Result<_, _>>()?;
        let mut as_before = BTreeMap::from_iter(as_before);
        let (mut cards, mut broken) = (Vec::new(), false);
        // What is made is made one after the other, each on all cores: pictures in the making take a hundred megabytes a design.
        told.under_way("drawing", sound.len());
        for (design, found) in sound.iter().zip(at_hand) {
            let later = as_before.split_off(&design.slug);
            for (slug, (carded, known)) in std::mem::replace(&mut as_before, later) {
                cards.push(self.taken(&slug, carded, Some(known), told));
            }
            if found.damaged {
                told.note(false, format!("kerfleaf: what was kept of {} does not hold; it is made anew", design.slug));
            }
            let keys = found.keys;
            let made = match found {
                AtHand { card: Some(card), pictures: Some(pictures), guides: Some(guides), .. } => {
                    Ok((card, [pictures.names(), guides.names()].concat()))
                }
                found => self.make(design, found)?,
            };
            match made {
                Ok((carded, files)) => {
                    let known = keys.and_then(|keys| known(design, keys, files, &carded));
                    cards.push(self.taken(&design.slug, carded, known, told));
                }
                Err(why) => {
                    told.say(false, why);
                    broken = true;
                }
            }
            told.step();
        }
        for (slug, (carded, known)) in as_before {
            cards.push(self.taken(&slug, carded, Some(known), told));
        }
        told.over();
        Ok((cards, broken))
    }

    /// Tells of a design that is in place, and remembers it for the next time.
    fn taken(&mut self, slug: &str, carded: Carded, known: Option<Known>, told: &mut Told) -> Card {
        told.say(true, format!("{slug}: {}", carded.summary));
        self.used.extend(known.iter().flat_map(|known| known.keys.all()).map(|key| key.to_string()));
        self.known.extend(known);
        carded.card
    }

    /// A design that was left unread, its files in place.
    fn as_before(&self, known: Known) -> Result<(String, (Carded, Known)), PublishError> {
        let wrong = |why: String| PublishError::Disk {
            doing: "cannot use again",
            path: self.fresh.target().to_owned(),
            source: std::io::Error::other(why),
        };
        for (address, hash) in &known.files {
            let stamp = self.left.and_then(|left| left.stamp(address, hash));
            self.stay(address, *hash, &stamp.ok_or_else(|| wrong(format!("{address} has just been changed")))?)?;
        }
        let carded = serde_json::from_slice(&known.value).map_err(|e| wrong(e.to_string()))?;
        Ok((known.slug.clone(), (carded, known)))
    }

    fn at_hand(&self, design: &Design) -> AtHand {
        let keys = self.basis.as_ref().map(|basis| basis.keys(design));
        let mut found = AtHand { keys, card: None, pictures: None, guides: None, damaged: false };
        let Some((keep, keys)) = self.keep.zip(keys).filter(|_| !self.from_scratch) else { return found };
        found.pictures = self.ready(keep, &keys.pictures, &mut found.damaged);
        found.guides = self.ready(keep, &keys.guides, &mut found.damaged);
        found.card = self.ready(keep, &keys.card, &mut found.damaged).map(|card| card.value);
        found
    }

    /// What is kept under a key, if all its files can be had.
    pub(super) fn ready<T: DeserializeOwned>(&self, keep: &Keep, key: &Hash, damaged: &mut bool) -> Option<Ready<T>> {
        let Entry { value, files } = match keep.find(key) {
            Found::There(entry) => entry,
            Found::Absent => return None,
            Found::Damaged => {
                keep.forget(key);
                *damaged = true;
                return None;
            }
        };
        let place = |file: KeptFile| {
            let (from, stamp) = match self.left.and_then(|left| left.stamp(&file.address, &file.hash)) {
                Some(stamp) => (self.fresh.target().join(&file.address), stamp),
                None => keep.source(&file)?,
            };
            Some(Placed { file, from, stamp })
        };
        let files: Option<Vec<Placed>> = files.into_iter().map(place).collect();
        if files.is_none() {
            keep.forget(key);
            *damaged = true;
        }
        files.map(|files| Ready { value, files })
    }

    pub(super) fn place(&self, files: &[Placed]) -> Result<(), PublishError> {
        let one = |Placed { file, from, stamp }: &Placed| self.fresh.link(&file.address, file.hash, from, stamp);
        files.iter().try_for_each(one)
    }

    /// Makes what is not at hand, puts it in place and keeps it, and names its files; `Err` tells why the design cannot be published.
    fn make(&self, design: &Design, found: AtHand) -> Result<Result<(Carded, Names), String>, PublishError> {
        let measured = match figures::measure(design, &self.shop.settings) {
            Ok(measured) => measured,
            Err(why) => return Ok(Err(why.mistake(design).render())),
        };
        let wants = Wants { pictures: found.pictures.is_none(), guides: found.guides.is_none() };
        let made = match parts(self.shop, design, &measured, wants) {
            Ok(made) => made,
            Err(why) => return Ok(Err(broken(self.root, why))),
        };
        let Parts { pictures, guides } = made;
        let (sets, mut files) = self.kept_or(found.pictures, pictures, found.keys.map(|keys| keys.pictures))?;
        let (guides, sheets) = self.kept_or(found.guides, guides, found.keys.map(|keys| keys.guides))?;
        files.extend(sheets);
        let findings = measure::summary(&measured.findings);
        let counts = counted(measured.figures.pieces.count, "piece");
        let summary = if findings.is_empty() { counts } else { format!("{counts}; {}", findings.join(", ")) };
        let card = Card::new(&self.shop.settings, design, &measured, sets, guides);
        let carded = Carded { card, summary };
        if let Some((keep, keys)) = self.keep.zip(found.keys) {
            // A full disk or the like: the next run makes it again.
            let _ = keep.put(&keys.card, &carded, &[], None);
        }
        Ok(Ok((carded, files)))
    }

    /// The value of a part and its files: as kept, or as made; then they are put in place and it is kept.
    pub(super) fn kept_or<T: Serialize + Default>(
        &self,
        kept: Option<Ready<T>>,
        made: Option<(T, Vec<Page>)>,
        key: Option<Hash>,
    ) -> Result<(T, Names), PublishError> {
        if let Some(ready) = kept {
            let names = ready.names();
            return Ok((ready.value, names));
        }
        let (value, pages) = made.unwrap_or_default();
        pages.par_iter().try_for_each(|page| self.write(page))?;
        if let Some((keep, key)) = self.keep.zip(key) {
            let _ = keep.put(&key, &value, &pages, Some(&self.fresh.fresh()));
        }
        let names = pages.iter().map(|page| (page.address.clone(), blake3::hash(&page.bytes))).collect();
        Ok((value, names))
    }
}

/// Why a design's goods could not be made; a guide's words with their place.
#[cfg(feature = "sheets")]
fn broken(root: &Path, why: GoodsError) -> String {
    match why {
        GoodsError::Guide { slug, source } => crate::cli::check::sheet_mistake(root, Some(&slug), &source),
        why => format!("kerfleaf: {why}"),
    }
}

#[cfg(not(feature = "sheets"))]
fn broken(_: &Path, why: GoodsError) -> String {
    format!("kerfleaf: {why}")
}
