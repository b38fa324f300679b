//! A folder beside the target, written in peace and then put in its place.
//!
//! Beside `published` stands `.published.kerfleaf` while a run lasts: `lock`, which the run holds, and `fresh`, the new folder.
//! The lock is the system's own (flock), so that it ends with the process that holds it, however that ends; what it left behind
//! is cleared by the next run.
//!
//! Where the file system knows no exchange (renameat2 with `RENAME_EXCHANGE`: most of those on Linux do), the old folder is moved
//! aside and the new one moved in. Between those two renames, some microseconds, there is no target; a run killed
//! just then leaves the old one as `old` in the hidden folder, and the next run moves it back first.

use std::collections::{BTreeMap, BTreeSet};
use std::fs::{self, File, TryLockError};
use std::io::{Read, Seek, Write};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

use blake3::Hash;

use super::keep::Written;
use super::{Addresses, PublishError};
use crate::catalogue::{MARK_ADDRESS, MARK_LINE, Page};
use crate::shop::{Sight, Stamp};

/// A new folder in the making. Dropped before [`Beside::swap_in`], it vanishes and the target stays as it was.
#[derive(Debug)]
pub struct Beside {
    target: PathBuf,
    room: PathBuf,
    /// Held as long as this lives.
    lock: File,
    inside: Mutex<Inside>,
}

/// What lies in the new folder so far.
#[derive(Debug, Default)]
struct Inside {
    taken: Addresses,
    folders: BTreeSet<String>,
    files: BTreeMap<String, (Hash, Option<Stamp>)>,
}

/// A folder that has been put in place, and how it was left.
#[derive(Debug)]
pub struct Placed {
    /// Every file, in the order of their addresses.
    pub files: Vec<Written>,
    /// Every folder, itself as the empty one.
    pub folders: Vec<(String, Option<Stamp>)>,
}

impl Beside {
    /// Takes the lock of `target` and makes an empty folder beside it.
    ///
    /// A target that is a link is followed: the folder it leads to is the one that is replaced.
    ///
    /// # Errors
    /// A target that holds anything without kerfleaf's mark, that is a file, or that another run is writing; the disk.
    pub fn new(target: &Path) -> Result<Beside, PublishError> {
        let target = resolved(target)?;
        let name = target.file_name().ok_or_else(|| PublishError::Refused { target: target.clone() })?;
        let mut hidden = std::ffi::OsString::from(".");
        hidden.push(name);
        hidden.push(".kerfleaf");
        let room = target.with_file_name(hidden);
        let lock = locked(&room, &target)?;
        let beside = Beside { target, room, lock, inside: Mutex::default() };
        beside.clear_up()?;
        check_target(&beside.target)?;
        let fresh = beside.fresh();
        fs::create_dir(&fresh).map_err(PublishError::disk("cannot make the folder", &fresh))?;
        Ok(beside)
    }

    /// The true path of the folder that is to be replaced.
    pub fn target(&self) -> &Path {
        &self.target
    }

    /// Writes one page; from several threads at once if need be.
    ///
    /// # Errors
    /// An address that may not be written or is there already; the disk.
    pub fn write(&self, page: &Page) -> Result<(), PublishError> {
        self.put(&page.address, blake3::hash(&page.bytes), &page.bytes)
    }

    fn put(&self, address: &str, hash: Hash, bytes: &[u8]) -> Result<(), PublishError> {
        let path = self.place_for(address)?;
        let failed = || PublishError::disk("cannot write", &path);
        let mut file = File::create_new(&path).map_err(failed())?;
        file.write_all(bytes).map_err(failed())?;
        let stamp = file.metadata().ok().and_then(|about| Stamp::of(&about));
        self.inside().files.insert(address.to_owned(), (hash, stamp));
        Ok(())
    }

    /// Puts a file there that lies elsewhere with the content of `hash`, by a link where the file system can. `stamp` is that of the
    /// file when it was last known to hold this content.
    ///
    /// # Errors
    /// As for [`Beside::write`]; also where the file has changed since, which the disk says then.
    pub fn link(&self, address: &str, hash: Hash, from: &Path, stamp: &Stamp) -> Result<(), PublishError> {
        let path = self.place_for(address)?;
        if fs::hard_link(from, &path).is_ok() {
            match fs::symlink_metadata(&path).ok().and_then(|about| Stamp::of(&about)) {
                Some(linked) if linked.same_content(stamp) => {
                    self.inside().files.insert(address.to_owned(), (hash, Some(linked)));
                    return Ok(());
                }
                _ => fs::remove_file(&path).map_err(PublishError::disk("cannot clear", &path))?,
            }
        }
        let failed = || PublishError::disk("cannot copy", from);
        let bytes = fs::read(from).map_err(failed())?;
        if blake3::hash(&bytes) != hash {
            return Err(failed()(std::io::Error::other("it has just been changed")));
        }
        self.inside().taken.free(address);
        self.put(address, hash, &bytes)
    }

    /// Takes an address and makes the folders on the way to it.
    fn place_for(&self, address: &str) -> Result<PathBuf, PublishError> {
        let mut inside = self.inside();
        let fault = |fault| PublishError::Address { address: address.to_owned(), fault };
        inside.taken.take(address).map_err(fault)?;
        let folder = address.rsplit_once('/').map_or("", |(folder, _)| folder);
        if inside.folders.contains(folder) {
            return Ok(self.fresh().join(address));
        }
        let ends = folder.match_indices('/').map(|(at, _)| at).chain([folder.len()]);
        inside.folders.extend(ends.map(|end| folder[..end].to_owned()));
        let path = self.fresh().join(folder);
        fs::create_dir_all(&path).map_err(PublishError::disk("cannot make the folder", &path))?;
        Ok(self.fresh().join(address))
    }

    fn inside(&self) -> MutexGuard<'_, Inside> {
        self.inside.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Hash of what lies at an address of the new folder so far.
    pub fn hash_of(&self, address: &str) -> Option<Hash> {
        self.inside().files.get(address).map(|(hash, _)| *hash)
    }

    /// What differs from the target as it is now. `known` has hashes of files of the target that need not be read again.
    ///
    /// # Errors
    /// The disk.
    pub fn changes(&self, known: &BTreeMap<String, Hash>) -> Result<Vec<super::Change>, PublishError> {
        let before = super::changes::hashes(&self.target, known)?;
        let after = self.inside().files.iter().map(|(address, (hash, _))| (address.clone(), *hash)).collect();
        Ok(super::changes::between(&before, &after))
    }

    /// Puts the new folder in place of the target and removes the old one.
    ///
    /// # Errors
    /// The disk. Where the old folder cannot be removed afterwards, the new one is in place and the next run clears the rest.
    pub fn swap_in(self) -> Result<Placed, PublishError> {
        let fresh = self.fresh();
        flush(&fresh)?;
        // Looked at again, so that nothing an owner put there meanwhile is taken away.
        check_target(&self.target)?;
        let failed = || PublishError::disk("cannot put the new folder in place of", &self.target);
        if !self.target.exists() {
            fs::rename(&fresh, &self.target).map_err(failed())?;
        } else if let Err(error) = exchange(&fresh, &self.target) {
            if !no_exchange(&error) {
                return Err(failed()(error));
            }
            let old = self.room.join("old");
            fs::rename(&self.target, &old).map_err(failed())?;
            if let Err(error) = fs::rename(&fresh, &self.target) {
                fs::rename(&old, &self.target).map_err(failed())?;
                return Err(failed()(error));
            }
        }
        if let Some(parent) = self.target.parent() {
            // The rename itself reaches the disk; a file system that cannot be asked for that does it in its own time.
            let _ = File::open(parent).and_then(|folder| folder.sync_all());
        }
        // Links to files that stay go with the old folder, which their stamps tell; so it goes first.
        let _ = fs::remove_dir_all(self.room.join("old"));
        let _ = fs::remove_dir_all(&fresh);
        Ok(self.placed())
    }

    /// Looks at all that was put in place once the file system's clock has moved on, so that any later change is seen.
    fn placed(&self) -> Placed {
        let mut inside = self.inside();
        let Inside { folders, files, .. } = std::mem::take(&mut *inside);
        let folder = File::open(&self.target).ok().filter(|_| self.next_tick());
        let at = |path: &str| match Stamp::at(folder.as_ref()?, path, false) {
            Sight::There(stamp) if stamp.is_fine() => Some(stamp),
            _ => None,
        };
        let files = files.into_iter().map(|(address, (hash, then))| {
            let stamp = at(&address).filter(|now| then.is_some_and(|then| now.same_content(&then)));
            Written { address, hash, stamp, of: None }
        });
        let files = files.collect();
        let folders = folders.into_iter().chain([String::new()]).collect::<BTreeSet<_>>();
        let stamp = |path: String| {
            let stamp = at(if path.is_empty() { "." } else { &path });
            (path, stamp)
        };
        Placed { files, folders: folders.into_iter().map(stamp).collect() }
    }

    /// Waits until the file system's clock has moved on; `false` where it does not within a fifth of a second.
    fn next_tick(&self) -> bool {
        let clock = || {
            let (mut file, path) = (&self.lock, self.room.join("lock"));
            file.rewind().and_then(|()| file.write_all(b"process")).ok()?;
            Stamp::of(&fs::metadata(path).ok()?)
        };
        let Some(first) = clock() else { return false };
        (0..100).any(|_| {
            std::thread::sleep(std::time::Duration::from_millis(2));
            clock().is_some_and(|now| now.after(&first))
        })
    }

    /// The new folder while it is made.
    pub fn fresh(&self) -> PathBuf {
        self.room.join("fresh")
    }

    /// Removes what a run that broke off left behind; puts back an old folder that it had moved aside.
    fn clear_up(&self) -> Result<(), PublishError> {
        let old = self.room.join("old");
        if old.exists() && !self.target.exists() {
            fs::rename(&old, &self.target).map_err(PublishError::disk("cannot put back", &self.target))?;
        }
        for left in [old, self.fresh()] {
            if left.exists() {
                fs::remove_dir_all(&left).map_err(PublishError::disk("cannot clear", &left))?;
            }
        }
        Ok(())
    }
}

impl Drop for Beside {
    fn drop(&mut self) {
        // What cannot be removed now is cleared by the next run.
        let _ = fs::remove_dir_all(self.room.join("old"));
        let _ = fs::remove_dir_all(self.fresh());
        let _ = fs::remove_file(self.room.join("lock"));
        let _ = fs::remove_dir(&self.room);
        let _ = self.lock.unlock();
    }
}

/// Where a path leads, absolute, links followed as far as it is there already.
pub fn true_path(path: &Path) -> PathBuf {
    if let Ok(found) = path.canonicalize() {
        return found;
    }
    let whole = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    match (whole.parent(), whole.file_name()) {
        (Some(parent), Some(name)) => true_path(parent).join(name),
        _ => whole,
    }
}

/// The target as an absolute path without links, its parent made where it is missing.
fn resolved(target: &Path) -> Result<PathBuf, PublishError> {
    let target = true_path(target);
    let (Some(parent), Some(_)) = (target.parent(), target.file_name()) else {
        return Err(PublishError::Refused { target });
    };
    fs::create_dir_all(parent).map_err(PublishError::disk("cannot make the folder", parent))?;
    Ok(target)
}

/// The lock of the hidden folder, made where it is missing.
fn locked(room: &Path, target: &Path) -> Result<File, PublishError> {
    let path = room.join("lock");
    loop {
        let failed = || PublishError::disk("cannot lock", &path);
        fs::create_dir_all(room).map_err(PublishError::disk("cannot make the folder", room))?;
        let opened = File::options().read(true).write(true).create(true).truncate(false).open(&path);
        let mut file = match opened {
            Ok(file) => file,
            // The run that held it has just removed the hidden folder.
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => continue,
            Err(error) => return Err(failed()(error)),
        };
        match file.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => {
                let mut holder = String::new();
                let _ = file.read_to_string(&mut holder);
                return Err(PublishError::Busy { target: target.to_owned(), holder: holder.trim().to_owned() });
            }
            Err(TryLockError::Error(error)) => return Err(failed()(error)),
        }
        if !still_there(&file, &path) {
            continue;
        }
        let holder = format!("process {}\n", std::process::id());
        file.set_len(0).map_err(failed())?;
        file.rewind().map_err(failed())?;
        file.write_all(holder.as_bytes()).map_err(failed())?;
        return Ok(file);
    }
}

/// Whether the open file is the one that has this name, and not one that was removed while its lock was waited for.
#[cfg(unix)]
fn still_there(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let name = |found: fs::Metadata| (found.dev(), found.ino());
    file.metadata().ok().map(name).is_some_and(|open| fs::metadata(path).ok().map(name) == Some(open))
}

/// A file that is open cannot be removed on other systems.
#[cfg(not(unix))]
fn still_there(_: &File, path: &Path) -> bool {
    path.exists()
}

/// A target may be missing, empty, or made by kerfleaf.
fn check_target(target: &Path) -> Result<(), PublishError> {
    if !target.exists() {
        return Ok(());
    }
    if !target.is_dir() {
        return Err(PublishError::NotAFolder { target: target.to_owned() });
    }
    let mut entries = fs::read_dir(target).map_err(PublishError::disk("cannot look into", target))?;
    if entries.next().is_none() {
        return Ok(());
    }
    let mark = target.join(MARK_ADDRESS);
    let text =
        fs::symlink_metadata(&mark).ok().filter(fs::Metadata::is_file).and_then(|_| fs::read_to_string(&mark).ok());
    match text {
        Some(text) if text.lines().next() == Some(MARK_LINE) => Ok(()),
        _ => Err(PublishError::Refused { target: target.to_owned() }),
    }
}

/// One rename that puts each in the other's place.
#[cfg(any(target_os = "linux", target_os = "android"))]
fn exchange(fresh: &Path, target: &Path) -> std::io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    Ok(renameat_with(CWD, fresh, CWD, target, RenameFlags::EXCHANGE)?)
}

#[cfg(not(any(target_os = "linux", target_os = "android")))]
fn exchange(_: &Path, _: &Path) -> std::io::Result<()> {
    Err(std::io::ErrorKind::Unsupported.into())
}

/// Whether the file system or the kernel has no exchange (renameat2(2): EINVAL, ENOSYS).
fn no_exchange(error: &std::io::Error) -> bool {
    use std::io::ErrorKind::{InvalidInput, Unsupported};
    matches!(error.kind(), InvalidInput | Unsupported)
}

/// Everything written so far reaches the disk before the old folder goes.
#[cfg(any(target_os = "linux", target_os = "android"))]
fn flush(fresh: &Path) -> Result<(), PublishError> {
    let failed = || PublishError::disk("cannot write out", fresh);
    let folder = File::open(fresh).map_err(failed())?;
    rustix::fs::syncfs(&folder).map_err(|error| failed()(error.into()))
}

#[cfg(not(any(target_os = "linux", target_os = "android")))]
fn flush(fresh: &Path) -> Result<(), PublishError> {
    for entry in walkdir::WalkDir::new(fresh).into_iter().filter_map(Result::ok).filter(|e| e.file_type().is_file()) {
        let synced = File::open(entry.path()).and_then(|file| file.sync_all());
        synced.map_err(PublishError::disk("cannot write out", entry.path()))?;
    }
    Ok(())
}
