//! What the last publication read and wrote, so that one with nothing to do can be told from the outside of files alone.
//!
//! In: stamps. Out: [`Last`], kept sealed. A stamp that was taken too soon after its file changed is kept as unclear and never holds.

use std::collections::BTreeSet;
use std::fs::File;
use std::path::Path;

use blake3::Hash;
use rayon::prelude::*;

use super::bytes::{Reader, put, sealed};
use crate::shop::{Sight, Stamp};

const KIND: &str = "kerfleaf last publication 2";
/// So many files are looked at by one thread, in about 20 ms: waking another costs some of that, and on a busy machine more than all of it.
const AT_ONCE: usize = 16_384;

/// One file of the published folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// Inside the folder.
    pub address: String,
    /// BLAKE3 of its content.
    pub hash: Hash,
    /// As it was left; `None` where it must be read again to be believed.
    pub stamp: Option<Stamp>,
    /// Fingerprint of all that went into it, of a page that can be left as it lies.
    pub of: Option<Hash>,
}

/// One publication.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Last {
    /// The program, and what the call asked for.
    pub call: Hash,
    /// The published folder's true path.
    pub target: String,
    /// Seal of what is [`Known`](super::Known) of its designs.
    pub known: Hash,
    /// What was said, each with whether it is a status line.
    pub told: Vec<(bool, String)>,
    /// Whether all was done.
    pub done: bool,
    /// Paths of the shop folder that were looked at.
    pub seen: Vec<(String, Sight)>,
    /// Files, in the order of their addresses.
    pub files: Vec<Written>,
    /// Folders of the published folder; the empty one is itself.
    pub folders: Vec<(String, Option<Stamp>)>,
}

impl Last {
    /// Whether reading the shop again would give the same.
    pub fn still_reads(&self, shop: &File) -> bool {
        self.seen.par_iter().with_min_len(AT_ONCE).all(|(path, then)| same(shop, path, then))
    }

    /// Slugs of the designs whose folders are as they were; `None` where anything beside the designs has changed.
    pub fn unchanged(&self, shop: &File) -> Option<BTreeSet<&str>> {
        let changed: Vec<Option<&str>> = self
            .seen
            .par_iter()
            .with_min_len(AT_ONCE)
            // Of the folder of designs itself only a list was read, which is read again.
            .filter(|(path, then)| path != "designs" && !same(shop, path, then))
            .map(|(path, _)| slug(path))
            .collect();
        let changed: BTreeSet<&str> = changed.into_iter().collect::<Option<_>>()?;
        Some(self.seen.iter().filter_map(|(path, _)| slug(path)).filter(|slug| !changed.contains(slug)).collect())
    }

    /// What was seen of one design.
    pub fn seen_of(&self, slug: &str) -> Vec<(String, Sight)> {
        let own = format!("designs/{slug}");
        let below = format!("{own}/");
        let from = self.seen.partition_point(|(path, _)| *path < own);
        // Names with a hyphen or a blank more stand between a folder and what lies in it.
        let rest = self.seen.iter().skip(from).take_while(|(path, _)| path.starts_with(&own));
        rest.filter(|(path, _)| *path == own || path.starts_with(&below)).cloned().collect()
    }

    /// Whether nothing was put into the published folder, taken away or given another name.
    pub fn same_folders(&self, target: &File) -> bool {
        let same = |(path, then): &(String, Option<Stamp>)| {
            let path = if path.is_empty() { "." } else { path };
            then.is_some_and(|then| Stamp::at(target, path, false) == Sight::There(then))
        };
        self.folders.par_iter().with_min_len(AT_ONCE).all(same)
    }

    /// For each file, in their order, its stamp if it is still as it was left.
    pub fn trusted(&self, target: &Path) -> Vec<Option<Stamp>> {
        let Ok(folder) = File::open(target) else { return vec![None; self.files.len()] };
        let same =
            |file: &Written| file.stamp.filter(|then| Stamp::at(&folder, &file.address, false) == Sight::There(*then));
        self.files.par_iter().with_min_len(AT_ONCE).map(same).collect()
    }

    pub(super) fn to_bytes(&self) -> Vec<u8> {
        let Last { call, target, known, told, done, seen, files, folders } = self;
        let mut body = call.as_bytes().to_vec();
        body.extend(known.as_bytes());
        put(&mut body, target.as_bytes());
        body.push(u8::from(*done));
        count(&mut body, told.len());
        for (status, line) in told {
            body.push(u8::from(*status));
            put(&mut body, line.as_bytes());
        }
        count(&mut body, seen.len());
        for (path, sight) in seen {
            put(&mut body, path.as_bytes());
            match sight {
                Sight::Absent => body.push(0),
                Sight::There(stamp) => stamped(&mut body, Some(stamp)),
                Sight::Unclear => stamped(&mut body, None),
            }
        }
        count(&mut body, files.len());
        for Written { address, hash, stamp, of } in files {
            put(&mut body, address.as_bytes());
            body.extend(hash.as_bytes());
            stamped(&mut body, stamp.as_ref());
            body.push(u8::from(of.is_some()));
            body.extend(of.iter().flat_map(|of| *of.as_bytes()));
        }
        count(&mut body, folders.len());
        for (path, stamp) in folders {
            put(&mut body, path.as_bytes());
            stamped(&mut body, stamp.as_ref());
        }
        sealed(KIND, &body)
    }

    pub(super) fn of_bytes(whole: &[u8]) -> Option<Last> {
        let from = &mut Reader::unsealed(KIND, whole)?;
        let (call, known, target) = (from.hash()?, from.hash()?, from.text()?.to_owned());
        let done = from.array::<1>()? == [1];
        let told = list(from, |from| Some((from.array::<1>()? == [1], from.text()?.to_owned())))?;
        let seen = list(from, |from| {
            let path = from.text()?.to_owned();
            let sight = match from.array::<1>()? {
                [0] => Sight::Absent,
                [1] => Sight::There(stamp(from)?),
                _ => Sight::Unclear,
            };
            Some((path, sight))
        })?;
        let files = list(from, |from| {
            let (address, hash, stamp) = (from.text()?.to_owned(), from.hash()?, maybe_stamp(from)?);
            let of = if from.array::<1>()? == [1] { Some(from.hash()?) } else { None };
            Some(Written { address, hash, stamp, of })
        })?;
        let folders = list(from, |from| Some((from.text()?.to_owned(), maybe_stamp(from)?)))?;
        from.is_done().then_some(Last { call, target, known, told, done, seen, files, folders })
    }
}

/// The design whose folder a path leads to or into.
fn slug(path: &str) -> Option<&str> {
    path.strip_prefix("designs/").and_then(|rest| rest.split('/').next())
}

/// Whether what was seen at a path is there still.
fn same(shop: &File, path: &str, then: &Sight) -> bool {
    *then != Sight::Unclear && Stamp::at(shop, path, true) == *then
}

pub(super) fn count(body: &mut Vec<u8>, count: usize) {
    body.extend((count as u64).to_le_bytes());
}

pub(super) fn list<T>(from: &mut Reader<'_>, mut one: impl FnMut(&mut Reader<'_>) -> Option<T>) -> Option<Vec<T>> {
    (0..from.u64()?).map(|_| one(from)).collect()
}

/// 1 and the stamp, or 2.
fn stamped(body: &mut Vec<u8>, stamp: Option<&Stamp>) {
    body.push(if stamp.is_some() { 1 } else { 2 });
    for number in stamp.map(Stamp::numbers).iter().flatten() {
        body.extend(number.to_le_bytes());
    }
}

fn maybe_stamp(from: &mut Reader<'_>) -> Option<Option<Stamp>> {
    match from.array::<1>()? {
        [1] => stamp(from).map(Some),
        _ => Some(None),
    }
}

fn stamp(from: &mut Reader<'_>) -> Option<Stamp> {
    let mut numbers = [0; 7];
    for number in &mut numbers {
        *number = i64::from_le_bytes(from.array()?);
    }
    Some(Stamp::of_numbers(numbers))
}
