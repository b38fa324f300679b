//! What tells of many designs: the pages of the catalogue and its printed form. What has not changed is not set again.

use std::collections::BTreeMap;

use blake3::Hash;
use kerfleaf::catalogue::{self, Again, Card, CatalogueError, Leaf, Page};
use kerfleaf::publish::PublishError;
use rayon::prelude::*;

use super::goods::Shelf;

impl Shelf<'_> {
    /// Fingerprints of the cards, by slug.
    fn prints(&self) -> BTreeMap<String, Hash> {
        self.known.iter().map(|known| (known.slug.clone(), known.keys.card)).collect()
    }

    /// Puts all pages in place. Gives the fingerprints of those that have one, by address.
    pub fn pages(&self, cards: &[Card]) -> Result<Result<BTreeMap<String, Hash>, CatalogueError>, PublishError> {
        let (prints, left) = (self.prints(), self.left);
        let lies = |address: &str, of: &Hash| left.is_some_and(|left| left.made_of(address, of).is_some());
        let leaves = match &self.basis {
            Some(basis) => {
                let again = Again { basis: basis.pages(), cards: &prints, lies: &lies };
                catalogue::pages_again(self.shop, cards, &again)
            }
            None => catalogue::pages(self.shop, cards).map(|pages| pages.into_iter().map(Leaf::from).collect()),
        };
        let leaves = match leaves {
            Ok(leaves) => leaves,
            Err(why) => return Ok(Err(why)),
        };
        let of = leaves.iter().filter_map(|leaf| Some((leaf.address.clone(), leaf.of?))).collect();
        leaves.into_par_iter().try_for_each(|leaf| self.put(leaf))?;
        Ok(Ok(of))
    }

    fn put(&self, leaf: Leaf) -> Result<(), PublishError> {
        let Leaf { address, of, bytes } = leaf;
        let lies = || self.left?.made_of(&address, &of?);
        match (bytes, lies()) {
            (Some(bytes), _) => self.write(&Page { address, bytes }),
            (None, Some((hash, stamp))) => self.stay(&address, hash, &stamp),
            // Only what lies there is left out.
            (None, None) => Ok(()),
        }
    }

    /// The printed catalogue, by the same way as `print` makes it; `Err` tells why it cannot be made.
    #[cfg(feature = "sheets")]
    pub fn printed(&mut self, cards: &[Card]) -> Result<Result<(), String>, PublishError> {
        use super::goods::Ready;
        let prints = self.prints();
        let shown = catalogue::printed_designs(cards);
        let mains: Vec<Option<Hash>> =
            shown.iter().map(|card| self.fresh.hash_of(&catalogue::main_picture_address(&card.slug))).collect();
        let told: Option<Vec<Hash>> = cards.iter().map(|card| prints.get(&card.slug).copied()).collect();
        let key = self.basis.as_ref().zip(told).map(|(basis, told)| basis.printed(&told, &mains, self.published));
        if let Some((keep, key)) = self.keep.zip(key) {
            self.used.insert(key.to_string());
            let kept = (!self.from_scratch).then(|| self.ready(keep, &key, &mut false)).flatten();
            if let Some(Ready { value: (), files }) = kept {
                self.used.extend(self.small_keys(&mains));
                return self.place(&files).map(Ok);
            }
        }
        self.used.extend(self.small_keys(&mains));
        let small =
            shown.par_iter().zip(mains).filter_map(|(card, main)| Some((card.slug.clone(), self.small(card, main?)?)));
        match catalogue::printed_pages(self.shop, cards, &small.collect()) {
            Ok(pages) => self.kept_or(None, Some(((), pages)), key).map(|_| Ok(())),
            Err(why) => Ok(Err(crate::cli::check::sheet_mistake(self.root, None, &why))),
        }
    }

    #[cfg(feature = "sheets")]
    fn small_keys(&self, mains: &[Option<Hash>]) -> Vec<String> {
        let width = catalogue::printed_width(self.published);
        let key = |main: &Hash| Some(self.basis.as_ref()?.small(main, width).to_string());
        mains.iter().flatten().filter_map(key).collect()
    }

    /// A main picture as small as the printed catalogue shows it, kept by what it is made from.
    #[cfg(feature = "sheets")]
    fn small(&self, card: &Card, main: Hash) -> Option<Vec<u8>> {
        let width = catalogue::printed_width(self.published);
        let address = catalogue::main_picture_address(&card.slug);
        let make = || catalogue::printed_picture(&std::fs::read(self.fresh.fresh().join(&address)).ok()?, width);
        let Some((keep, key)) = self.keep.zip(self.basis.as_ref().map(|basis| basis.small(&main, width))) else {
            return make();
        };
        if !self.from_scratch
            && let kerfleaf::publish::keep::Found::There(entry) = keep.find::<()>(&key)
            && let Some(bytes) = entry.files.first().and_then(|file| keep.bytes(file))
        {
            return Some(bytes);
        }
        let bytes = make()?;
        // A full disk or the like: the next run makes it again.
        let _ = keep.put(&key, &(), &[Page { address, bytes: bytes.clone() }], None);
        Some(bytes)
    }

    /// Without the feature `sheets` there is none.
    #[cfg(not(feature = "sheets"))]
    pub fn printed(&mut self, _: &[Card]) -> Result<Result<(), String>, PublishError> {
        Ok(Ok(()))
    }
}
