//! The dear stage design by design: taken from what was kept where that holds, else made and kept.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use blake3::Hash;
use kerfleaf::catalogue::{Card, GoodsError, Guide, Page, Parts, PictureSet, Wants, parts};
use kerfleaf::figures;
use kerfleaf::publish::keep::{Basis, Entry, Found, Keep, KeptFile, Keys, Last};
use kerfleaf::publish::{Beside, PublishError};
use kerfleaf::shop::{Design, Shop, Stamp};
use rayon::prelude::*;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::told::Told;
use super::{Call, counted};
use crate::cli::measure;

/// Where goods come from and where they go.
pub struct Shelf<'a> {
    shop: &'a Shop,
    /// The shop's folder as called, for messages.
    root: &'a Path,
    fresh: &'a Beside,
    keep: Option<&'a Keep>,
    basis: Option<Basis>,
    from_scratch: bool,
    /// The last publication to this folder, and which of its files are still as it left them.
    last: Option<(Last, Vec<Option<Stamp>>)>,
    used: BTreeSet<String>,
}

/// A card with the line that is said of its design.
#[derive(Serialize, Deserialize)]
struct Carded {
    card: Card,
    summary: String,
}

/// A part that was kept, with a place to take each of its files from.
struct Ready<T> {
    value: T,
    files: Vec<Placed>,
}

/// A file, where to take it from, and how it looked when it was known to be whole.
struct Placed {
    file: KeptFile,
    from: PathBuf,
    stamp: Stamp,
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
        told: &mut Told,
    ) -> Shelf<'a> {
        let from_scratch = call.from_scratch;
        let last = keep.zip(fresh.target().to_str()).filter(|_| !from_scratch).and_then(|(keep, target)| {
            let damaged =
                |_| told.note(false, "kerfleaf: the record of the last publication is damaged; it is made anew".into());
            keep.last(target).map_err(damaged).ok().flatten()
        });
        let last = last.map(|last| {
            let trusted = last.trusted(fresh.target());
            (last, trusted)
        });
        let basis = keep.map(|keep| Basis::of(&keep.program, shop));
        Shelf { shop, root: &call.shop, fresh, keep, basis, from_scratch, last, used: BTreeSet::new() }
    }

    /// Keys of what this publication stands on.
    pub fn used(&self) -> BTreeSet<String> {
        self.used.clone()
    }

    /// Hashes of those files of the old folder that are still as they were left.
    pub fn known(&self) -> BTreeMap<String, Hash> {
        let files = self.last.iter().flat_map(|(last, trusted)| last.files.iter().zip(trusted));
        files.filter(|(_, stamp)| stamp.is_some()).map(|(file, _)| (file.address.clone(), file.hash)).collect()
    }

    /// The stamp of a file of the old folder if it still has this content.
    fn in_old(&self, address: &str, hash: &Hash) -> Option<Stamp> {
        let (last, trusted) = self.last.as_ref()?;
        let at = last.files.binary_search_by(|file| file.address.as_str().cmp(address)).ok()?;
        last.files.get(at).filter(|file| file.hash == *hash).and_then(|_| *trusted.get(at)?)
    }

    /// Writes a page; where the old folder has the same, that one stays, with its date.
    pub fn write(&self, page: &Page) -> Result<(), PublishError> {
        let hash = blake3::hash(&page.bytes);
        match self.in_old(&page.address, &hash) {
            Some(stamp) => self.fresh.link(&page.address, hash, &self.fresh.target().join(&page.address), &stamp),
            None => self.fresh.write(page),
        }
    }

    /// Cards of all these designs that can be measured, their files in place; and whether some cannot.
    pub fn take(&mut self, sound: &[&Design], told: &mut Told) -> Result<(Vec<Card>, bool), PublishError> {
        let at_hand: Vec<AtHand> = sound.par_iter().map(|design| self.at_hand(design)).collect();
        at_hand.par_iter().try_for_each(|found| {
            found.pictures.iter().try_for_each(|ready| self.place(&ready.files))?;
            found.guides.iter().try_for_each(|ready| self.place(&ready.files))
        })?;
        let (mut cards, mut broken) = (Vec::new(), false);
        // What is made is made one after the other, each on all cores: pictures in the making take a hundred megabytes a design.
        told.under_way("drawing", sound.len());
        for (design, found) in sound.iter().zip(at_hand) {
            if found.damaged {
                told.note(false, format!("kerfleaf: what was kept of {} does not hold; it is made anew", design.slug));
            }
            self.used.extend(found.keys.iter().flat_map(|keys| keys.all()).map(|key| key.to_string()));
            let carded = match found {
                AtHand { card: Some(card), pictures: Some(_), guides: Some(_), .. } => Ok(card),
                found => self.make(design, found)?,
            };
            match carded {
                Ok(Carded { card, summary }) => {
                    told.say(true, format!("{}: {summary}", design.slug));
                    cards.push(card);
                }
                Err(why) => {
                    told.say(false, why);
                    broken = true;
                }
            }
            told.step();
        }
        told.over();
        Ok((cards, broken))
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
    fn ready<T: DeserializeOwned>(&self, keep: &Keep, key: &Hash, damaged: &mut bool) -> Option<Ready<T>> {
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
            let (from, stamp) = match self.in_old(&file.address, &file.hash) {
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

    /// The printed catalogue, by the same way as `print` makes it; `Err` tells why it cannot be made.
    #[cfg(feature = "sheets")]
    pub fn printed(&mut self, cards: &[Card]) -> Result<Result<(), String>, PublishError> {
        use kerfleaf::catalogue::{main_picture_address, printed_pages, printed_picture};
        let picture = |card: &Card| std::fs::read(self.fresh.fresh().join(main_picture_address(&card.slug))).ok();
        let pictures: Vec<Option<Vec<u8>>> = cards.par_iter().map(picture).collect();
        let hashes = pictures.iter().map(|bytes| bytes.as_deref().map(blake3::hash));
        let key = self.basis.as_ref().map(|basis| basis.printed(cards, &hashes.collect::<Vec<_>>()));
        let mut damaged = false;
        if let Some((keep, key)) = self.keep.zip(key) {
            self.used.insert(key.to_string());
            if let Some(Ready { value: (), files }) =
                (!self.from_scratch).then(|| self.ready(keep, &key, &mut damaged)).flatten()
            {
                return self.place(&files).map(Ok);
            }
        }
        let small =
            |(card, bytes): (&Card, Option<Vec<u8>>)| Some((card.slug.clone(), printed_picture(self.shop, &bytes?)?));
        let small = cards.par_iter().zip(pictures).filter_map(small).collect();
        match printed_pages(self.shop, cards, &small) {
            Ok(pages) => self.kept_or(None, Some(((), pages)), key).map(Ok),
            Err(why) => Ok(Err(crate::cli::check::sheet_mistake(self.root, None, &why))),
        }
    }

    /// Without the feature `sheets` there is none.
    #[cfg(not(feature = "sheets"))]
    pub fn printed(&mut self, _: &[Card]) -> Result<Result<(), String>, PublishError> {
        Ok(Ok(()))
    }

    fn place(&self, files: &[Placed]) -> Result<(), PublishError> {
        let one = |Placed { file, from, stamp }: &Placed| self.fresh.link(&file.address, file.hash, from, stamp);
        files.iter().try_for_each(one)
    }

    /// Makes what is not at hand, puts it in place and keeps it; `Err` tells why the design cannot be published.
    fn make(&self, design: &Design, found: AtHand) -> Result<Result<Carded, String>, PublishError> {
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
        let sets = self.kept_or(found.pictures, pictures, found.keys.map(|keys| keys.pictures))?;
        let guides = self.kept_or(found.guides, guides, found.keys.map(|keys| keys.guides))?;
        let findings = measure::summary(&measured.findings);
        let counts = counted(measured.figures.pieces.count, "piece");
        let summary = if findings.is_empty() { counts } else { format!("{counts}; {}", findings.join(", ")) };
        let card = Card::new(&self.shop.settings, design, &measured, sets, guides);
        let carded = Carded { card, summary };
        if let Some((keep, keys)) = self.keep.zip(found.keys) {
            // A full disk or the like: the next run makes it again.
            let _ = keep.put(&keys.card, &carded, &[], None);
        }
        Ok(Ok(carded))
    }

    /// The value of a part: as kept, or as made; then its files are put in place and it is kept.
    fn kept_or<T: Serialize + Default>(
        &self,
        kept: Option<Ready<T>>,
        made: Option<(T, Vec<Page>)>,
        key: Option<Hash>,
    ) -> Result<T, PublishError> {
        if let Some(ready) = kept {
            return Ok(ready.value);
        }
        let (value, pages) = made.unwrap_or_default();
        pages.par_iter().try_for_each(|page| self.write(page))?;
        if let Some((keep, key)) = self.keep.zip(key) {
            let _ = keep.put(&key, &value, &pages, Some(&self.fresh.fresh()));
        }
        Ok(value)
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
