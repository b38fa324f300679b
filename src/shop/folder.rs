//! The shop folder on disk. No path leads out of it, through a link or otherwise, and nothing but plain files is read.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::mistake::{Mistake, Place};

/// The folder, by its true path.
pub(super) struct Folder {
    /// `None` for one that holds nothing.
    root: Option<PathBuf>,
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
        Ok(Folder { root: Some(fs::canonicalize(root)?) })
    }

    /// A folder that holds nothing and leads nowhere.
    pub(super) fn nowhere() -> Folder {
        Folder { root: None }
    }

    /// The bytes of a file; `path` is inside the shop folder, with `/`.
    pub(super) fn bytes(&self, path: &str) -> Result<Vec<u8>, Refused> {
        let (true_path, kind) = self.look(path)?;
        match kind {
            Kind::File => fs::read(true_path).map_err(Refused::Unreadable),
            Kind::Folder => Err(Refused::NotAFile),
        }
    }

    /// What a folder holds, in the order of the names' bytes; nothing if there is no such folder.
    pub(super) fn list(&self, path: &str) -> Result<Vec<Inside>, Refused> {
        let (true_path, kind) = match self.look(path) {
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
            let kind = self.look_in(Path::new(path).join(&name)).map(|(_, kind)| kind);
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
            let here = self.look(path);
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
                    let bytes = self.bytes(&inside.path);
                    found.push((inside.path, bytes));
                }
                Err(refused) => found.push((inside.path, Err(refused))),
            }
            open.truncate(depth);
        }
    }

    /// The true path and kind of what a path leads to, if that lies in the shop folder.
    fn look(&self, path: &str) -> Result<(PathBuf, Kind), Refused> {
        self.look_in(PathBuf::from(path))
    }

    fn look_in(&self, path: PathBuf) -> Result<(PathBuf, Kind), Refused> {
        let root = self.root.as_ref().ok_or(Refused::Absent)?;
        let true_path = fs::canonicalize(root.join(path)).map_err(|error| match error.kind() {
            io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => Refused::Absent,
            _ => Refused::Unreadable(error),
        })?;
        if !true_path.starts_with(root) {
            return Err(Refused::LeadsOut);
        }
        let about = fs::metadata(&true_path).map_err(Refused::Unreadable)?;
        if about.is_dir() {
            Ok((true_path, Kind::Folder))
        } else if about.is_file() {
            Ok((true_path, Kind::File))
        } else {
            Err(Refused::NotAFile)
        }
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
            Refused::Unreadable(error) => (format!("{path} cannot be read: {error}."), None),
        };
        Mistake::new(at, message, help.map(str::to_owned))
    }
}
