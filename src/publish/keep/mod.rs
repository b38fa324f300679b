//! What was made before, kept under `SHOP/.kerfleaf` so that it need not be made again.
//!
//! In: a shop folder and the program's own file. Out: [`Keep`]: values and files by a fingerprint of everything that went into them
//! ([`Basis`]), [`Last`], the outside of all that the last publication read and wrote, and what was [`Known`] of its designs.
//! Nothing here is believed that does not hold: entries are sealed by a hash and name their own key, files are hashed before use or
//! lie untouched since they were written. Nothing here is fatal: without a folder to keep things in everything is made anew.
//! Never here: a choice of what is published. Rule: handbook, "Again, quickly".

mod bytes;
mod entry;
mod key;
mod known;
mod last;
#[cfg(test)]
mod tests;

pub use entry::{Entry, Found, KeptFile};
pub use key::{Basis, Keys};
pub use known::Known;
pub use last::{Last, Written};

use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};

use blake3::Hash;
use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::catalogue::Page;
use crate::shop::{Sight, Stamp};
use bytes::{Reader, sealed};

/// The folder inside a shop.
pub const FOLDER: &str = ".kerfleaf";
/// Most bytes of entries that the shop has no use for now: a design back from a draft, a drawing changed back.
const MOST_SPARE: u64 = 256 << 20;
const ABOUT: &str = "kerfleaf keeps here what it made before, so that publishing again is quick.\n\
    Nothing in this folder is published, and it may be removed at any time.\n";
const PROGRAM: &str = "kerfleaf program 1";

/// A shop's kept things.
#[derive(Debug)]
pub struct Keep {
    room: PathBuf,
    /// Held shared by every run, and whole by one that clears.
    lock: File,
    /// The file system's clock when this was opened.
    started: Stamp,
    /// Fingerprint of the program.
    pub program: Hash,
    fresh: AtomicU64,
}

impl Keep {
    /// Opens or makes the folder in `shop`, for results of the program in the file `program`.
    ///
    /// # Errors
    /// Nothing can be kept there: a folder that cannot be written, a link, a system without inodes.
    pub fn open(shop: &Path, program: &Path) -> io::Result<Keep> {
        let room = shop.join(FOLDER);
        if fs::symlink_metadata(&room).is_ok_and(|about| !about.is_dir()) {
            return Err(io::Error::other("it is not a folder"));
        }
        if !room.exists() {
            fs::create_dir(&room)?;
            fs::write(room.join("about.txt"), ABOUT)?;
        }
        let lock = File::options().read(true).write(true).create(true).truncate(false).open(room.join("lock"))?;
        lock.try_lock_shared().map_err(io::Error::from)?;
        fs::create_dir_all(room.join("kept"))?;
        let started = now(&room)?;
        let program = program_hash(&room, program, &started)?;
        Ok(Keep { room, lock, started, program, fresh: AtomicU64::new(0) })
    }

    fn folder(&self, key: &Hash) -> PathBuf {
        self.room.join("kept").join(key.to_hex().as_str())
    }

    /// What lies under a key.
    pub fn find<T: DeserializeOwned>(&self, key: &Hash) -> Found<T> {
        entry::read(&self.folder(key), key)
    }

    /// Keeps a value with its files under a key, in place of what lay there. Where the same files lie at their addresses below `from`,
    /// they are linked if the file system can.
    ///
    /// # Errors
    /// The disk; what was begun is removed again.
    pub fn put<T: Serialize>(&self, key: &Hash, value: &T, pages: &[Page], from: Option<&Path>) -> io::Result<()> {
        let number = self.fresh.fetch_add(1, Ordering::Relaxed);
        let aside = self.room.join("kept").join(format!("new-{}-{number}", std::process::id()));
        let folder = self.folder(key);
        let put = || {
            entry::write(&aside, key, value, pages, from)?;
            remove(&folder)?;
            fs::rename(&aside, &folder)
        };
        put().inspect_err(|_| drop(fs::remove_dir_all(&aside)))
    }

    /// Where a kept file can be taken from: `None` where it no longer holds what it should.
    pub fn source(&self, file: &KeptFile) -> Option<(PathBuf, Stamp)> {
        entry::sound(file).map(|stamp| (file.path.clone(), stamp))
    }

    /// The bytes of a kept file; `None` where it no longer holds what it should.
    pub fn bytes(&self, file: &KeptFile) -> Option<Vec<u8>> {
        let bytes = fs::read(&file.path).ok()?;
        (blake3::hash(&bytes) == file.hash).then_some(bytes)
    }

    /// Removes what is damaged.
    pub fn forget(&self, key: &Hash) {
        // What stays is found damaged again.
        let _ = remove(&self.folder(key));
    }

    /// Removes what killed runs left, and of the entries whose keys are not `used` the oldest beyond a few hundred megabytes. Left for
    /// another time while another run is on.
    pub fn clear(&self, used: &BTreeSet<String>) {
        if self.lock.try_lock().is_err() {
            return;
        }
        let mut spare = Vec::new();
        for found in fs::read_dir(self.room.join("kept")).into_iter().flatten().filter_map(Result::ok) {
            let name = found.file_name().to_string_lossy().into_owned();
            if used.contains(&name) {
                continue;
            }
            let is_entry = Hash::from_hex(&name).is_ok();
            match found.metadata().ok().and_then(|about| about.modified().ok()).filter(|_| is_entry) {
                Some(made) => spare.push((made, found.path())),
                None => drop(remove(&found.path())),
            }
        }
        spare.sort();
        let mut left = MOST_SPARE;
        for (_, folder) in spare.into_iter().rev() {
            let size = entry::size(&folder);
            match left.checked_sub(size) {
                Some(rest) => left = rest,
                None => drop(remove(&folder)),
            }
        }
        // Shared again, for whoever waits to read.
        let _ = self.lock.try_lock_shared();
    }

    fn last_path(&self, target: &str) -> PathBuf {
        self.path_of("last", target)
    }

    fn path_of(&self, what: &str, target: &str) -> PathBuf {
        let name = blake3::hash(target.as_bytes()).to_hex();
        self.room.join(format!("{what}-{}", &name[..16]))
    }

    /// The last publication into `target`, a true path; `None` where there was none, and a mistake where its record is damaged.
    ///
    /// # Errors
    /// A record that this program did not write so.
    pub fn last(&self, target: &str) -> Result<Option<Last>, Damaged> {
        match fs::read(self.last_path(target)) {
            Ok(whole) => Last::of_bytes(&whole).filter(|last| last.target == target).map(Some).ok_or(Damaged),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(_) => Err(Damaged),
        }
    }

    /// What is known of the designs of a publication; nothing where that does not hold.
    pub fn known(&self, last: &Last) -> Vec<Known> {
        let whole = fs::read(self.path_of("known", &last.target)).unwrap_or_default();
        known::of_bytes(&whole, &last.known).unwrap_or_default()
    }

    /// Keeps the record of a publication and what is known of its designs; the one names the other, so they are believed together.
    ///
    /// # Errors
    /// The disk.
    pub fn record(&self, mut last: Last, known: &[Known]) -> io::Result<()> {
        let whole = known::to_bytes(known);
        let seal = whole.first_chunk().copied().unwrap_or_default();
        last.known = Hash::from_bytes(seal);
        replace(&self.room, &self.path_of("known", &last.target), &whole)?;
        self.put_last(&last)
    }

    fn put_last(&self, last: &Last) -> io::Result<()> {
        replace(&self.room, &self.last_path(&last.target), &last.to_bytes())
    }

    /// What was seen of the shop, as it may be kept: whatever had changed shortly before it was read stays unclear.
    pub fn settled(&self, seen: Vec<(String, Sight)>) -> Vec<(String, Sight)> {
        let settled = |sight: Sight| match sight {
            Sight::There(stamp) if !stamp.settled(&self.started) => Sight::Unclear,
            sight => sight,
        };
        seen.into_iter().map(|(path, sight)| (path, settled(sight))).collect()
    }
}

/// A record that does not hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Damaged;

/// The file system's clock.
fn now(room: &Path) -> io::Result<Stamp> {
    let mut file = File::create(room.join("clock"))?;
    file.write_all(b"-")?;
    Stamp::of(&file.metadata()?).ok_or_else(|| io::Error::other("the file system tells no inodes"))
}

/// The hash of the program's own file; kept with its stamp, since it is large.
fn program_hash(room: &Path, program: &Path, started: &Stamp) -> io::Result<Hash> {
    let mut open = File::open(program)?;
    let stamp = Stamp::of(&open.metadata()?);
    let kept = room.join("program");
    let known = || {
        let whole = fs::read(&kept).ok()?;
        let mut reader = Reader::unsealed(PROGRAM, &whole)?;
        let hash = reader.hash()?;
        let mut numbers = [0; 7];
        for number in &mut numbers {
            *number = i64::from_le_bytes(reader.array()?);
        }
        (reader.is_done() && Some(Stamp::of_numbers(numbers)) == stamp).then_some(hash)
    };
    if let Some(hash) = known() {
        return Ok(hash);
    }
    let mut hasher = blake3::Hasher::new();
    io::copy(&mut open, &mut hasher)?;
    let hash = hasher.finalize();
    if let Some(stamp) = stamp.filter(|stamp| stamp.settled(started)) {
        let mut body = hash.as_bytes().to_vec();
        body.extend(stamp.numbers().iter().flat_map(|number| number.to_le_bytes()));
        replace(room, &kept, &sealed(PROGRAM, &body))?;
    }
    Ok(hash)
}

/// Writes a file whole or not at all.
fn replace(room: &Path, path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = tempfile::Builder::new().prefix("new-").tempfile_in(room)?;
    file.write_all(bytes)?;
    file.persist(path).map(drop).map_err(|error| error.error)
}

fn remove(path: &Path) -> io::Result<()> {
    let gone = match fs::symlink_metadata(path) {
        Ok(about) if about.is_dir() => fs::remove_dir_all(path),
        Ok(_) => fs::remove_file(path),
        Err(error) => Err(error),
    };
    match gone {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(error),
        _ => Ok(()),
    }
}
