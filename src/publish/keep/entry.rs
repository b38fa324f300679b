//! What is kept of one design and stage: a value, and files by their hashes.
//!
//! On disk a folder named by the key: `entry`, sealed, and the files as `0`, `1` and so on. It is made aside and put there by one rename. Its
//! files may be shared with the published folder by links, so each is hashed again before it is believed.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use blake3::Hash;
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::bytes::{Reader, put, sealed};
use crate::catalogue::Page;
use crate::shop::Stamp;

const KIND: &str = "kerfleaf kept entry 1";
const ENTRY: &str = "entry";

/// A value that was kept, and the files that belong to it.
#[derive(Clone, Debug)]
pub struct Entry<T> {
    /// What the pages need to know.
    pub value: T,
    /// The files, in the order they were made.
    pub files: Vec<KeptFile>,
}

/// One file that was kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptFile {
    /// Where it goes in the published folder.
    pub address: String,
    /// BLAKE3 of its content.
    pub hash: Hash,
    /// Where it lies.
    pub(super) path: PathBuf,
}

/// What lies under a key.
#[derive(Debug)]
pub enum Found<T> {
    /// Something whole. Its files are not looked at yet.
    There(Entry<T>),
    /// Nothing.
    Absent,
    /// Something that this program did not write so.
    Damaged,
}

/// Reads the entry in `folder`, which is named by its key.
pub(super) fn read<T: DeserializeOwned>(folder: &Path, key: &Hash) -> Found<T> {
    match fs::read(folder.join(ENTRY)) {
        Ok(whole) => parsed(folder, key, &whole).map_or(Found::Damaged, Found::There),
        Err(error) if error.kind() == io::ErrorKind::NotFound && !folder.exists() => Found::Absent,
        Err(_) => Found::Damaged,
    }
}

fn parsed<T: DeserializeOwned>(folder: &Path, key: &Hash, whole: &[u8]) -> Option<Entry<T>> {
    let mut reader = Reader::unsealed(KIND, whole)?;
    if reader.hash()? != *key {
        return None;
    }
    let value = serde_json::from_slice(reader.bytes()?).ok()?;
    let mut files = Vec::new();
    while !reader.is_done() {
        let (address, hash) = (reader.text()?.to_owned(), reader.hash()?);
        files.push(KeptFile { address, hash, path: folder.join(files.len().to_string()) });
    }
    Some(Entry { value, files })
}

/// Writes an entry into `folder`, which must be new; files that lie below `from` are linked.
pub(super) fn write<T: Serialize>(
    folder: &Path,
    key: &Hash,
    value: &T,
    pages: &[Page],
    from: Option<&Path>,
) -> io::Result<()> {
    fs::create_dir(folder)?;
    let mut body = key.as_bytes().to_vec();
    put(&mut body, &serde_json::to_vec(value)?);
    for (at, page) in pages.iter().enumerate() {
        let to = folder.join(at.to_string());
        if from.is_none_or(|from| fs::hard_link(from.join(&page.address), &to).is_err()) {
            fs::write(&to, &page.bytes)?;
        }
        put(&mut body, page.address.as_bytes());
        body.extend(blake3::hash(&page.bytes).as_bytes());
    }
    fs::write(folder.join(ENTRY), sealed(KIND, &body))
}

/// The stamp of a file that holds exactly what it should; `None` for any other.
pub(super) fn sound(file: &KeptFile) -> Option<Stamp> {
    if !fs::symlink_metadata(&file.path).ok()?.is_file() {
        return None;
    }
    let mut open = File::open(&file.path).ok()?;
    let stamp = Stamp::of(&open.metadata().ok()?)?;
    let mut hasher = blake3::Hasher::new();
    let mut part = vec![0; 1 << 16];
    loop {
        match open.read(&mut part).ok()? {
            0 => break,
            read => drop(hasher.update(part.get(..read)?)),
        }
    }
    (hasher.finalize() == file.hash).then_some(stamp)
}

/// Bytes of an entry on disk, as far as they can be counted.
pub(super) fn size(folder: &Path) -> u64 {
    let files = fs::read_dir(folder).into_iter().flatten().filter_map(Result::ok);
    files.filter_map(|file| file.metadata().ok()).map(|about| about.len()).sum()
}
