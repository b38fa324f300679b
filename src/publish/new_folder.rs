//! A folder that was not there before, whole or not at all; nothing that is there is ever written over.

use std::fs;
use std::path::{Path, PathBuf};

use super::PublishError;
use crate::shop::NewFile;

/// Makes a folder with files in it; folders on the way to it are made.
///
/// # Errors
/// [`PublishError::There`] where anything has that name already, a link that leads nowhere included; the disk.
pub fn new_folder(target: &Path, files: &[NewFile]) -> Result<(), PublishError> {
    let there = || PublishError::There { target: target.to_owned() };
    if fs::symlink_metadata(target).is_ok() || target.file_name().is_none() {
        return Err(there());
    }
    let parent = match target.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent.to_owned(),
        _ => PathBuf::from("."),
    };
    fs::create_dir_all(&parent).map_err(PublishError::disk("cannot make the folder", &parent))?;
    let room = tempfile::Builder::new().prefix(".kerfleaf-").tempdir_in(&parent);
    let room = room.map_err(PublishError::disk("cannot write into", &parent))?;
    let fresh = room.path().join("fresh");
    for file in files {
        let path = fresh.join(&file.path);
        let folder = path.parent().unwrap_or(&fresh);
        fs::create_dir_all(folder).map_err(PublishError::disk("cannot make the folder", folder))?;
        fs::write(&path, &file.bytes).map_err(PublishError::disk("cannot write", &path))?;
    }
    move_in(&fresh, target).map_err(|error| match error.kind() {
        std::io::ErrorKind::AlreadyExists | std::io::ErrorKind::DirectoryNotEmpty => there(),
        _ => PublishError::disk("cannot make the folder", target)(error),
    })
}

/// A rename that fails where the name is taken.
#[cfg(any(target_os = "linux", target_os = "android"))]
fn move_in(fresh: &Path, target: &Path) -> std::io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    match renameat_with(CWD, fresh, CWD, target, RenameFlags::NOREPLACE) {
        // A file system that does not know the flag: renameat2(2).
        Err(rustix::io::Errno::INVAL | rustix::io::Errno::NOSYS) => fs::rename(fresh, target),
        done => Ok(done?),
    }
}

#[cfg(not(any(target_os = "linux", target_os = "android")))]
fn move_in(fresh: &Path, target: &Path) -> std::io::Result<()> {
    fs::rename(fresh, target)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn files() -> Vec<NewFile> {
        let file = |path: &str| NewFile { path: path.into(), bytes: path.as_bytes().to_vec() };
        vec![file("a.txt"), file("b/c.txt")]
    }

    #[test]
    fn a_new_folder_has_all_its_files_and_nothing_is_left_beside_it() {
        let root = tempfile::tempdir().unwrap();
        let target = root.path().join("deep/down/new");
        new_folder(&target, &files()).unwrap();
        assert_eq!(fs::read(target.join("b/c.txt")).unwrap(), b"b/c.txt");
        let beside: Vec<_> = fs::read_dir(root.path().join("deep/down")).unwrap().collect();
        assert_eq!(beside.len(), 1);
    }

    #[cfg(unix)]
    #[test]
    fn whatever_is_there_stays_as_it_is() {
        let root = tempfile::tempdir().unwrap();
        let [file, folder, link] = ["file", "folder", "link"].map(|name| root.path().join(name));
        fs::write(&file, "mine").unwrap();
        fs::create_dir(&folder).unwrap();
        std::os::unix::fs::symlink("nowhere", &link).unwrap();
        for target in [&file, &folder, &link, &root.path().join("folder/..")] {
            assert!(matches!(new_folder(target, &files()), Err(PublishError::There { .. })), "{target:?}");
        }
        assert_eq!(fs::read(&file).unwrap(), b"mine");
        assert_eq!(fs::read_dir(&folder).unwrap().count(), 0);
        assert_eq!(fs::read_dir(root.path()).unwrap().count(), 3);
        assert!(!root.path().join("nowhere").exists());
    }
}
