//! What a new folder changes against the one it replaces, by content.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::fs;
use std::path::Path;

use blake3::Hash;
use walkdir::WalkDir;

use super::PublishError;

/// One address whose content changes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// Inside the published folder, with `/`.
    pub address: String,
    /// BLAKE3 of the old content, hexadecimal; `None` where the address is new.
    pub before: Option<String>,
    /// BLAKE3 of the new content, hexadecimal; `None` where the address goes.
    pub after: Option<String>,
}

impl fmt::Display for Change {
    /// `added`, `changed` or `removed`, the hash of what is there afterwards (a dash for nothing), the address.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let word = match (&self.before, &self.after) {
            (None, _) => "added",
            (_, None) => "removed",
            _ => "changed",
        };
        write!(f, "{word}\t{}\t{}", self.after.as_deref().unwrap_or("-"), self.address)
    }
}

/// Addresses whose content differs, in order.
pub(super) fn between(before: &BTreeMap<String, Hash>, after: &BTreeMap<String, Hash>) -> Vec<Change> {
    let all: BTreeSet<&String> = before.keys().chain(after.keys()).collect();
    let told = |hashes: &BTreeMap<String, Hash>, address: &String| hashes.get(address).map(|hash| hash.to_string());
    let change = |address: &String| Change {
        address: address.clone(),
        before: told(before, address),
        after: told(after, address),
    };
    all.into_iter().map(change).filter(|c| c.before != c.after).collect()
}

/// Hashes of all files of a folder, those `known` taken as they are. A folder that is not there is empty.
///
/// # Errors
/// [`PublishError::Disk`].
pub(super) fn hashes(folder: &Path, known: &BTreeMap<String, Hash>) -> Result<BTreeMap<String, Hash>, PublishError> {
    let mut all = BTreeMap::new();
    if !folder.exists() {
        return Ok(all);
    }
    for entry in WalkDir::new(folder) {
        let entry = entry.map_err(|e| {
            let path = e.path().unwrap_or(folder).to_owned();
            PublishError::Disk { doing: "cannot read", path, source: e.into() }
        })?;
        if entry.file_type().is_dir() {
            continue;
        }
        let parts = entry.path().strip_prefix(folder).unwrap_or(entry.path()).components();
        let parts: Vec<_> = parts.map(|c| c.as_os_str().to_string_lossy()).collect();
        let address = parts.join("/");
        let hash = match known.get(&address) {
            Some(hash) => *hash,
            // A link or a pipe is none of ours: it goes, whatever it holds.
            None if !entry.file_type().is_file() => blake3::hash(b""),
            None => blake3::hash(&fs::read(entry.path()).map_err(PublishError::disk("cannot read", entry.path()))?),
        };
        all.insert(address, hash);
    }
    Ok(all)
}
