//! The folder on disk: whole, refused, or as it was.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use super::*;
use crate::catalogue::{MARK_ADDRESS, MARK_LINE};

fn page(address: &str, text: &str) -> Page {
    Page { address: address.to_owned(), bytes: text.as_bytes().to_vec() }
}

fn site(text: &str) -> Vec<Page> {
    vec![page(MARK_ADDRESS, &format!("{MARK_LINE}\n")), page("index.html", text), page("designs/a/index.html", text)]
}

fn files(folder: &Path) -> BTreeMap<String, String> {
    walkdir::WalkDir::new(folder)
        .into_iter()
        .filter_map(Result::ok)
        .filter(|entry| entry.file_type().is_file())
        .map(|entry| {
            let name = entry.path().strip_prefix(folder).expect("inside").to_string_lossy().into_owned();
            (name, fs::read_to_string(entry.path()).expect("text"))
        })
        .collect()
}

#[test]
fn a_folder_is_made_and_replaced_whole() {
    let shop = tempfile::tempdir().expect("a folder");
    let target = shop.path().join("published");
    put(site("old"), &target).expect("first");
    let mut more = site("old");
    more.push(page("designs/gone/index.html", "x"));
    put(more, &target).expect("second");
    put(site("new"), &target).expect("third");
    let found = files(shop.path());
    assert_eq!(found.len(), 3, "nothing is left over: {found:?}");
    assert_eq!(found["published/index.html"], "new");
    assert_eq!(found["published/designs/a/index.html"], "new");
}

#[test]
fn a_folder_of_somebody_elses_is_refused_and_untouched() {
    for (name, text) in [("thesis.txt", "ten years"), (MARK_ADDRESS, "not the mark\n")] {
        let shop = tempfile::tempdir().expect("a folder");
        let target = shop.path().join("published");
        fs::create_dir(&target).expect("made");
        fs::write(target.join(name), text).expect("written");
        assert!(matches!(put(site("new"), &target), Err(PublishError::Refused { .. })));
        assert_eq!(files(shop.path()), BTreeMap::from([(format!("published/{name}"), text.to_owned())]));
    }
    let shop = tempfile::tempdir().expect("a folder");
    let target = shop.path().join("published");
    fs::write(&target, "a file").expect("written");
    assert!(matches!(put(site("new"), &target), Err(PublishError::NotAFolder { .. })));
}

#[test]
fn an_empty_folder_is_taken() {
    let shop = tempfile::tempdir().expect("a folder");
    put(site("new"), shop.path()).expect("an empty folder");
    assert_eq!(files(shop.path()).len(), 3);
}

#[test]
fn a_run_that_breaks_off_leaves_the_old_folder() {
    let shop = tempfile::tempdir().expect("a folder");
    let target = shop.path().join("published");
    put(site("old"), &target).expect("first");
    let before = files(shop.path());
    let mut broken = site("new");
    broken.push(page("../escaped.html", "x"));
    assert!(matches!(put(broken, &target), Err(PublishError::Address { .. })));
    assert_eq!(files(shop.path()), before);
}

#[test]
fn two_runs_at_once_are_kept_apart() {
    let shop = tempfile::tempdir().expect("a folder");
    let target = shop.path().join("published");
    let first = Beside::new(&target).expect("first");
    let Err(PublishError::Busy { holder, .. }) = Beside::new(&target) else { panic!("the second must wait") };
    assert_eq!(holder, format!("process {}", std::process::id()));
    drop(first);
    put(site("new"), &target).expect("the lock is free again");
    assert_eq!(files(shop.path()).len(), 3);
}

#[test]
fn what_a_killed_run_left_is_cleared() {
    let shop = tempfile::tempdir().expect("a folder");
    let target = shop.path().join("published");
    let room = shop.path().join(".published.kerfleaf");
    // As between the two renames of a file system without exchange: no target, the old one moved aside.
    put(site("old"), &room.join("old")).expect("made");
    fs::create_dir_all(room.join("fresh/made")).expect("made");
    fs::write(room.join("fresh/made/half.webp"), "half").expect("written");
    fs::write(room.join("lock"), "process 1\n").expect("written");
    drop(Beside::new(&target).expect("cleared"));
    assert_eq!(files(shop.path()).len(), 3);
    assert_eq!(files(&target)["index.html"], "old");
}

#[cfg(unix)]
#[test]
fn a_link_is_followed_and_stays_a_link() {
    let shop = tempfile::tempdir().expect("a folder");
    let (real, link) = (shop.path().join("www"), shop.path().join("published"));
    put(site("old"), &real).expect("first");
    std::os::unix::fs::symlink(&real, &link).expect("a link");
    put(site("new"), &link).expect("through the link");
    assert!(fs::symlink_metadata(&link).expect("there").is_symlink());
    assert_eq!(files(&real)["index.html"], "new");
}

#[cfg(unix)]
#[test]
fn published_files_can_be_read_by_a_web_server() {
    use std::os::unix::fs::PermissionsExt;
    let shop = tempfile::tempdir().expect("a folder");
    let target = shop.path().join("published");
    put(site("new"), &target).expect("put");
    write_file(&shop.path().join("sheets/a.pdf"), b"x").expect("written");
    // What the process's own umask leaves of rw-rw-rw-.
    fs::write(shop.path().join("plain"), "x").expect("written");
    let mode = |path: &str| fs::metadata(shop.path().join(path)).expect("there").permissions().mode() & 0o777;
    assert_eq!(mode("published/index.html"), mode("plain"));
    assert_eq!(mode("sheets/a.pdf"), mode("plain"));
    assert_ne!(mode("published") & 0o500, 0);
}

#[test]
fn a_single_file_is_written_whole() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("new/sheet.pdf");
    write_file(&path, b"one").expect("written");
    write_file(&path, b"two").expect("written again");
    assert_eq!(files(folder.path()), BTreeMap::from([("new/sheet.pdf".to_owned(), "two".to_owned())]));
    assert!(matches!(write_file(folder.path(), b"x"), Err(PublishError::Disk { .. })));
}

#[test]
fn what_is_not_there_yet_lies_where_its_folder_truly_is() {
    let here = std::env::temp_dir().canonicalize().expect("a place for files");
    assert_eq!(true_path(&here.join("no-such/folder")), here.join("no-such/folder"));
    assert_eq!(true_path(&here), here);
}
