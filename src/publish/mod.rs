//! The only room that writes: the published folder, whole or untouched, and every other file that the program gives out.
//!
//! In: [`Page`]s and a target folder, or one path and its bytes. Out: the files on disk.
//! Steps: [`Beside`] takes a lock and writes into a folder beside the target; `swap_in` exchanges the two by one rename
//! and removes the old one. A run that is killed leaves the target as it was, or wholly new, and a hidden folder beside it
//! that the next run clears.
//! Never here: a figure, a page, a decision on what is published. Rule: handbook, "The published folder".

mod address;
mod beside;
mod changes;
pub mod keep;
mod new_folder;

pub use address::{AddressFault, Addresses};
pub use beside::{Beside, Placed, true_path};
pub use changes::Change;
pub use new_folder::new_folder;

use std::io::Write;
use std::path::{Path, PathBuf};

use crate::catalogue::Page;

/// What keeps something from being written.
#[derive(Debug, thiserror::Error)]
pub enum PublishError {
    /// The target holds files that this program did not put there.
    #[error("{} holds files that were not made by kerfleaf; it is left as it is", .target.display())]
    Refused {
        /// The target folder.
        target: PathBuf,
    },
    /// The target is a file.
    #[error("{} is not a folder", .target.display())]
    NotAFolder {
        /// The target.
        target: PathBuf,
    },
    /// Another run is writing the same target.
    #[error("another run is publishing to {} ({holder})", .target.display())]
    Busy {
        /// The target folder.
        target: PathBuf,
        /// Who holds the lock, as that run wrote it.
        holder: String,
    },
    /// Something has the name that a new folder should get.
    #[error("{} is there already; it is left as it is", .target.display())]
    There {
        /// The folder wanted.
        target: PathBuf,
    },
    /// An address that may not be written.
    #[error("the address {address:?} cannot be published: {fault}")]
    Address {
        /// As given.
        address: String,
        /// Why not.
        fault: AddressFault,
    },
    /// The file system says no.
    #[error("{} {}: {source}", .doing, .path.display())]
    Disk {
        /// What was being done, for instance "cannot write".
        doing: &'static str,
        /// On which file or folder.
        path: PathBuf,
        /// Its own words.
        source: std::io::Error,
    },
}

impl PublishError {
    fn disk(doing: &'static str, path: &Path) -> impl FnOnce(std::io::Error) -> PublishError {
        let path = path.to_owned();
        move |source| PublishError::Disk { doing, path, source }
    }
}

/// Puts all pages in place of `target` as a whole; a run that breaks off leaves the old folder as it was.
///
/// # Errors
/// Any [`PublishError`]; the target is then untouched.
pub fn put(pages: impl IntoIterator<Item = Page>, target: &Path) -> Result<(), PublishError> {
    let fresh = Beside::new(target)?;
    for page in pages {
        fresh.write(&page)?;
    }
    fresh.swap_in().map(drop)
}

/// Writes one file whole or not at all; folders on the way to it are made.
///
/// # Errors
/// [`PublishError::Disk`]; an older file of that name is then untouched.
pub fn write_file(path: &Path, bytes: &[u8]) -> Result<(), PublishError> {
    let folder = match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    std::fs::create_dir_all(folder).map_err(PublishError::disk("cannot make the folder", folder))?;
    let mut builder = tempfile::Builder::new();
    builder.prefix(".kerfleaf-");
    #[cfg(unix)]
    {
        // Readable by all but for what the owner's umask takes off, as any file that a program writes.
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let failed = || PublishError::disk("cannot write", path);
    let mut file = builder.tempfile_in(folder).map_err(failed())?;
    file.write_all(bytes).map_err(failed())?;
    file.as_file().sync_all().map_err(failed())?;
    file.persist(path).map_err(|error| failed()(error.error))?;
    Ok(())
}

#[cfg(test)]
mod tests;
