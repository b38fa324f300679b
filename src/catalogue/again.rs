//! Pages of designs that need not be set again, since nothing that goes into them has changed.
//!
//! In: fingerprints of cards and of what all pages share. Out: a fingerprint of each product page and each embedded one, and [`Leaf`]s: a page,
//! or the word that the one that lies at its address is it.
//! Every field of [`Site`] is named here and goes in, or is left out for the reason given: a new one does not compile before that.
//! Never here: pages that tell of many designs (lists, data, search), which are always set. Rule: handbook, "Again, quickly".

use std::collections::BTreeMap;
use std::fmt::{Debug, Write};

use blake3::{Hash, Hasher};
use rayon::prelude::*;

use super::lists::Choice;
use super::site::Site;
use super::voice::Voice;
use super::{Card, CatalogueError, Page};

/// What is known of a publication before this one.
pub struct Again<'a> {
    /// Fingerprint of what all pages share: program, theme and settings.
    pub basis: Hash,
    /// Fingerprint of each card, by slug.
    pub cards: &'a BTreeMap<String, Hash>,
    /// Whether a page made of just this lies at an address.
    pub lies: &'a (dyn Fn(&str, &Hash) -> bool + Sync),
}

/// A page, or the word that it is the one that lies there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leaf {
    /// Address inside the folder.
    pub address: String,
    /// Fingerprint of all that goes into it; `None` where none is kept.
    pub of: Option<Hash>,
    /// Its content; `None` where it is as it was.
    pub bytes: Option<Vec<u8>>,
}

impl From<Page> for Leaf {
    fn from(page: Page) -> Leaf {
        Leaf { address: page.address, of: None, bytes: Some(page.bytes) }
    }
}

impl Voice<'_> {
    /// One page for each; on all cores where a catalogue is made again. Elsewhere by the thread that asks, which may hold a lock.
    pub(super) fn each<T: Sync, P: Send>(
        &self,
        all: &[T],
        one: impl Fn(&T) -> Result<P, CatalogueError> + Send + Sync,
    ) -> Result<Vec<P>, CatalogueError> {
        if self.site.again.is_some() { all.par_iter().map(one).collect() } else { all.iter().map(one).collect() }
    }

    /// The leaf of an address where a page of this fingerprint lies.
    pub(super) fn as_before(&self, address: &str, of: Option<Hash>) -> Option<Leaf> {
        let again = self.site.again?;
        of.filter(|of| (again.lies)(address, of)).map(|_| Leaf { address: address.to_owned(), of, bytes: None })
    }

    /// Of a page that tells of one card alone, with the frame that every page has.
    pub(super) fn print_of_card(&self, kind: &str, card: &Card) -> Option<Hash> {
        let mut hasher = self.framed(kind)?;
        self.add(&mut hasher, card)?;
        Some(hasher.finalize())
    }

    /// Of a product page: its card, and those of its near relatives.
    pub(super) fn print_of_product(&self, at: usize) -> Option<Hash> {
        let mut hasher = self.framed("product")?;
        let card = self.cards().get(at)?;
        self.add(&mut hasher, card)?;
        for subject in &card.subjects {
            part(&mut hasher, &self.site.subjects.get(subject));
        }
        for near in self.near(at) {
            self.add(&mut hasher, self.cards().get(*near)?)?;
        }
        Some(hasher.finalize())
    }

    fn add(&self, hasher: &mut Hasher, card: &Card) -> Option<()> {
        hasher.update(self.site.again?.cards.get(&card.slug)?.as_bytes());
        Some(())
    }

    /// What goes into every page of this language that has a frame.
    fn framed(&self, kind: &str) -> Option<Hasher> {
        let Site {
            lists,
            style,
            icon,
            script,
            logo,
            has_feed,
            pages,
            again,
            // In the basis, and what is chosen from them in the fingerprint of the page.
            settings: _,
            cards: _,
            subjects: _,
            near: _,
            // Its address goes in, which changes with it.
            sheet: _,
            // Which pages are made, not what stands on them.
            only: _,
        } = self.site;
        let mut hasher = Hasher::new_derive_key("kerfleaf catalogue page 1");
        hasher.update((*again)?.basis.as_bytes());
        part(&mut hasher, &(kind, self.language(), self.inside("")));
        part(&mut hasher, &(style, icon, script, logo, has_feed));
        // The way to a form's list stands in the head of every page.
        for list in lists.iter().filter(|list| matches!(list.choice, Choice::Form(_))) {
            part(&mut hasher, &(&list.choice, &list.folder));
        }
        // The owner's pages stand at its foot, and stories may lead to them.
        for own in &self.own_pages {
            part(&mut hasher, &(&own.name, &own.title));
        }
        for page in *pages {
            part(&mut hasher, &(&page.name, &page.language));
        }
        Some(hasher)
    }
}

/// Adds a value by its debug text, which quotes every text, and a line end.
fn part(hasher: &mut Hasher, value: &dyn Debug) {
    let mut text = String::new();
    // Writing into a text cannot fail.
    let _ = writeln!(text, "{value:?}");
    hasher.update(text.as_bytes());
}
