//! The shop folder on disk. No path leads out of it, through a link or otherwise, and nothing but plain files is read.

use std::fs;
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use super::mistake::{Mistake, Place};
use super::stamp::{Sight, Stamp};

/// Most bytes of shop.toml or a record. Own choice: a thousand times what a long one has.
pub(super) const MOST_TEXT: u64 = 4 << 20;
/// Most bytes of a Markdown file. Own choice: a novel; its tree takes two hundred times as much memory at worst.
pub(super) const MOST_MARKDOWN: u64 = 1 << 20;
/// Most bytes of a drawing. Own choice: ten times that of a board with 20,000 knobbed pieces.
pub(super) const MOST_DRAWING: u64 = 64 << 20;
/// Most bytes of a photograph, a logo or a file of the theme. Own choice: beyond what cameras write as JPEG.
pub(super) const MOST_PICTURE: u64 = 128 << 20;

/// The folder, by its true path.
pub(super) struct Folder {
    /// `None` for one that holds nothing.
    root: Option<PathBuf>,
    /// Every path that was looked at, inside the folder, with what was there just before it was read.
    seen: Mutex<Vec<(String, Sight)>>,
}

/// Why a file of the folder is not read.
#[derive(Debug)]
pub(super) enum Refused {
    /// There is none.
    Absent,
    /// A link leads out of the shop folder.
    LeadsOut,
    /// A folder, a pipe or a device.
    NotAFile,
    /// A file where a folder is due.
    NotAFolder,
    /// A file of more bytes than its kind may have.
    TooLarge(u64),
    /// What the system says.
    Unreadable(io::Error),
}

/// One thing in a folder of the shop.
pub(super) struct Inside {
    /// Its name; what is no Unicode in it is replaced, and then `unicode` is false.
    pub(super) name: String,
    pub(super) unicode: bool,
    /// Path inside the shop folder, with `/`.
    pub(super) path: String,
    /// What it is, through links.
    pub(super) kind: Result<Kind, Refused>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Kind {
    File,
    Folder,
}

impl Folder {
    pub(super) fn open(root: &Path) -> io::Result<Folder> {
        Ok(Folder { root: Some(fs::canonicalize(root)?), seen: Mutex::default() })
    }

    /// A folder that holds nothing and leads nowhere.
    pub(super) fn nowhere() -> Folder {
        Folder { root: None, seen: Mutex::default() }
    }

    fn at(&self, path: &str) -> PathBuf {
        self.root.as_deref().unwrap_or(Path::new("")).join(path)
    }

    /// Every path that was looked at, now or `before`, once, in order. Where the same path changed between two looks it is unclear.
    pub(super) fn into_seen(self, before: impl Iterator<Item = (String, Sight)>) -> Vec<(String, Sight)> {
        let mut seen = self.seen.into_inner().unwrap_or_else(PoisonError::into_inner);
        seen.extend(before);
        seen.sort_by(|a, b| a.0.cmp(&b.0));
        seen.dedup_by(|later, first| {
            let same = later.0 == first.0;
            if same && later.1 != first.1 {
                first.1 = Sight::Unclear;
            }
            same
        });
        seen
    }

    /// The bytes of a file of at most `most` bytes; `path` is inside the shop folder, with `/`.
    pub(super) fn bytes(&self, path: &str, most: u64) -> Result<Vec<u8>, Refused> {
        let (file, _) = self.file(path)?;
        let mut bytes = Vec::new();
        // One byte more than allowed tells; a file may grow while it is read.
        file.take(most + 1).read_to_end(&mut bytes).map_err(Refused::Unreadable)?;
        if bytes.len() as u64 > most { Err(Refused::TooLarge(most)) } else { Ok(bytes) }
    }

    /// A file that is open, and its true path.
    pub(super) fn file(&self, path: &str) -> Result<(fs::File, PathBuf), Refused> {
        let (true_path, kind) = self.look(&self.at(path))?;
        if kind == Kind::Folder {
            return Err(Refused::NotAFile);
        }
        let file = fs::File::open(&true_path).map_err(Refused::Unreadable)?;
        Ok((file, true_path))
    }

    /// What a folder holds, in the order of the names' bytes; nothing if there is no such folder.
    pub(super) fn list(&self, path: &str) -> Result<Vec<Inside>, Refused> {
        let (true_path, kind) = match self.look(&self.at(path)) {
            Err(Refused::Absent) => return Ok(Vec::new()),
            found => found?,
        };
        if kind == Kind::File {
            return Err(Refused::NotAFolder);
        }
        let mut names = fs::read_dir(true_path)
            .and_then(|entries| {
                entries.map(|entry| entry.map(|entry| entry.file_name())).collect::<io::Result<Vec<_>>>()
            })
            .map_err(Refused::Unreadable)?;
        names.sort();
        let within = names.into_iter().map(|name| {
            let kind = self.look(&self.at(path).join(&name)).map(|(_, kind)| kind);
            let unicode = name.to_str().is_some();
            let name = name.to_string_lossy().into_owned();
            Inside { path: format!("{path}/{name}"), name, unicode, kind }
        });
        Ok(within.collect())
    }

    /// Every file below a folder, in the order of their paths. A link back to a folder that holds it is refused.
    pub(super) fn files_below(&self, path: &str) -> Vec<(String, Result<Vec<u8>, Refused>)> {
        let mut found = Vec::new();
        let mut open = vec![];
        self.descend(path, &mut open, &mut found);
        found.sort_by(|a, b| a.0.cmp(&b.0));
        found
    }

    fn descend(&self, path: &str, open: &mut Vec<PathBuf>, found: &mut Vec<(String, Result<Vec<u8>, Refused>)>) {
        let within = self.list(path).and_then(|within| {
            let here = self.look(&self.at(path));
            match here {
                Ok((here, _)) if open.contains(&here) => Err(Refused::NotAFile),
                Ok((here, _)) => {
                    open.push(here);
                    Ok(within)
                }
                Err(Refused::Absent) => Ok(within),
                Err(refused) => Err(refused),
            }
        });
        let within = match within {
            Ok(within) => within,
            Err(refused) => return found.push((path.to_owned(), Err(refused))),
        };
        let depth = open.len();
        for inside in within {
            match inside.kind {
                Ok(Kind::Folder) => self.descend(&inside.path, open, found),
                Ok(Kind::File) => {
                    let bytes = self.bytes(&inside.path, MOST_PICTURE);
                    found.push((inside.path, bytes));
                }
                Err(refused) => found.push((inside.path, Err(refused))),
            }
            open.truncate(depth);
        }
    }

    /// The true path and kind of what a path leads to, if that lies in the shop folder.
    fn look(&self, path: &Path) -> Result<(PathBuf, Kind), Refused> {
        let (found, sight) = self.look_at(path);
        let inside = self.root.as_ref().and_then(|root| path.strip_prefix(root).ok()).unwrap_or(path);
        let (name, sight) = match inside.to_str() {
            Some(name) => (name.to_owned(), sight),
            None => (inside.to_string_lossy().into_owned(), Sight::Unclear),
        };
        self.seen.lock().unwrap_or_else(PoisonError::into_inner).push((name, sight));
        found
    }

    fn look_at(&self, path: &Path) -> (Result<(PathBuf, Kind), Refused>, Sight) {
        let (true_path, about) = match self.resolved(path) {
            Ok(found) => found,
            Err(Refused::Absent) => return (Err(Refused::Absent), Sight::Absent),
            Err(refused) => return (Err(refused), Sight::Unclear),
        };
        let sight = Stamp::of(&about).map_or(Sight::Unclear, Sight::There);
        let kind = if about.is_dir() {
            Ok((true_path, Kind::Folder))
        } else if about.is_file() {
            Ok((true_path, Kind::File))
        } else {
            Err(Refused::NotAFile)
        };
        (kind, sight)
    }

    fn resolved(&self, path: &Path) -> Result<(PathBuf, fs::Metadata), Refused> {
        let absent_or = |error: io::Error| match error.kind() {
            io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => Refused::Absent,
            _ => Refused::Unreadable(error),
        };
        let root = self.root.as_ref().ok_or(Refused::Absent)?;
        let true_path = fs::canonicalize(path).map_err(absent_or)?;
        if !true_path.starts_with(root) {
            return Err(Refused::LeadsOut);
        }
        let about = fs::metadata(&true_path).map_err(absent_or)?;
        Ok((true_path, about))
    }
}

impl Refused {
    /// The mistake that this is, at the place that asked for the file.
    pub(super) fn mistake(&self, at: Place, path: &str) -> Mistake {
        let (message, help) = match self {
            Refused::Absent => (format!("There is no {path}."), None),
            Refused::LeadsOut => {
                (format!("{path} leads out of the shop folder."), Some("Copy what it leads to into the shop folder."))
            }
            Refused::NotAFile => (format!("{path} is not a plain file."), None),
            Refused::NotAFolder => (format!("{path} is not a folder."), None),
            Refused::TooLarge(most) => (
                format!("{path} is larger than {} MiB.", most >> 20),
                Some("Make it smaller; nothing a shop needs is that large."),
            ),
            Refused::Unreadable(error) => (format!("{path} cannot be read: {error}."), None),
        };
        Mistake::new(at, message, help.map(str::to_owned))
    }
}
