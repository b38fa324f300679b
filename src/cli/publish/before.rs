//! The publication before: its folder, with its lock taken, and what of it still holds.

use std::collections::BTreeMap;
use std::fs::File;

use blake3::Hash;
use kerfleaf::publish::keep::{Keep, Known, Last};
use kerfleaf::publish::{Beside, PublishError};
use kerfleaf::shop::{Stamp, Unread};

use super::Call;
use super::told::Told;

/// A folder that was published before. As long as this lives nobody else writes it.
pub struct Before {
    pub beside: Beside,
    pub left: Option<Left>,
    /// What of this call decides what is published.
    call: Hash,
}

/// The record of the last publication, and which of its files are as it left them.
pub struct Left {
    last: Last,
    trusted: Vec<Option<Stamp>>,
}

impl Before {
    /// The folder that a call publishes to, if it is there and what was kept may be used.
    pub fn find(call: &Call, keep: &Keep, told: &mut Told) -> Result<Option<Before>, PublishError> {
        let Some(target) = call.target().canonicalize().ok().filter(|target| target.is_dir() && !call.from_scratch)
        else {
            return Ok(None);
        };
        let beside = Beside::new(&target)?;
        let damaged = |_| {
            told.note(
                false,
                "kerfleaf: the record of the last publication cannot be read by this program; it is made anew".into(),
            )
        };
        let last = beside.target().to_str().and_then(|target| keep.last(target).map_err(damaged).ok().flatten());
        let left = last.map(|last| Left { trusted: last.trusted(beside.target()), last });
        Ok(Some(Before { beside, left, call: call.hash(keep) }))
    }

    /// The last publication, if it was asked for alike, by the same program.
    pub fn same_call(&self) -> Option<&Last> {
        self.left.as_ref().map(|left| &left.last).filter(|last| last.call == self.call)
    }

    /// Whether the published folder is as it was left.
    pub fn still_lies(&self) -> bool {
        let folder = File::open(self.beside.target()).ok();
        let left = self.left.as_ref().zip(folder);
        left.is_some_and(|(left, folder)| left.trusted.iter().all(Option::is_some) && left.last.same_folders(&folder))
    }

    /// Designs whose folders and published files are as they were, by slug.
    pub fn known(&self, call: &Call, keep: &Keep) -> BTreeMap<String, (Known, Unread)> {
        let find = || {
            let last = self.same_call()?;
            let unchanged = last.unchanged(&File::open(&call.shop).ok()?)?;
            let left = self.left.as_ref()?;
            let whole = |known: &Known| {
                let lies = |(address, hash): &(String, Hash)| left.stamp(address, hash).is_some();
                unchanged.contains(known.slug.as_str()) && known.files.iter().all(lies)
            };
            let with = |known: Known| {
                let unread = Unread { codes: known.codes.clone(), seen: last.seen_of(&known.slug) };
                (known.slug.clone(), (known, unread))
            };
            Some(keep.known(last).into_iter().filter(whole).map(with).collect())
        };
        find().unwrap_or_default()
    }
}

impl Left {
    fn at(&self, address: &str) -> Option<usize> {
        self.last.files.binary_search_by(|file| file.address.as_str().cmp(address)).ok()
    }

    /// The stamp of a file if it still has this content.
    pub fn stamp(&self, address: &str, hash: &Hash) -> Option<Stamp> {
        let at = self.at(address)?;
        self.last.files.get(at).filter(|file| file.hash == *hash).and_then(|_| *self.trusted.get(at)?)
    }

    /// Hash and stamp of a page that is as it was left and was made of just this.
    pub fn made_of(&self, address: &str, of: &Hash) -> Option<(Hash, Stamp)> {
        let at = self.at(address)?;
        let file = self.last.files.get(at).filter(|file| file.of == Some(*of))?;
        Some((file.hash, (*self.trusted.get(at)?)?))
    }

    /// Hashes of the files that are as they were left.
    pub fn hashes(&self) -> BTreeMap<String, Hash> {
        let files = self.last.files.iter().zip(&self.trusted).filter(|(_, stamp)| stamp.is_some());
        files.map(|(file, _)| (file.address.clone(), file.hash)).collect()
    }
}
