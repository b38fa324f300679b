//! What a new folder changes against the one it replaces, by content.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::fs;
use std::path::Path;

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

/// Addresses whose content differs between two folders, in order. A folder that is not there is empty.
///
/// # Errors
/// [`PublishError::Disk`].
pub(super) fn between(old: &Path, new: &Path) -> Result<Vec<Change>, PublishError> {
    let (before, after) = (hashes(old)?, hashes(new)?);
    let all: BTreeSet<&String> = before.keys().chain(after.keys()).collect();
    let change = |address: &String| Change {
        address: address.clone(),
        before: before.get(address).cloned(),
        after: after.get(address).cloned(),
    };
    Ok(all.into_iter().map(change).filter(|c| c.before != c.after).collect())
}

fn hashes(folder: &Path) -> Result<BTreeMap<String, String>, PublishError> {
    let mut all = BTreeMap::new();
    if !folder.exists() {
        return Ok(all);
    }
    for entry in WalkDir::new(folder) {
        let entry = entry.map_err(|e| {
            let path = e.path().unwrap_or(folder).to_owned();
            PublishError::Disk { doing: "cannot read", path, source: e.into() }
        })?;
        if entry.file_type().is_file() {
            let bytes = fs::read(entry.path()).map_err(PublishError::disk("cannot read", entry.path()))?;
            let parts = entry.path().strip_prefix(folder).unwrap_or(entry.path()).components();
            let parts: Vec<_> = parts.map(|c| c.as_os_str().to_string_lossy()).collect();
            all.insert(parts.join("/"), blake3::hash(&bytes).to_hex().to_string());
        }
    }
    Ok(all)
}
