//! The command `publish`, called as an owner calls it: what stops it, what does not, and what it leaves behind.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// A fresh shop with one sound published design `sound` and whatever else a test puts in.
fn shop(name: &str) -> PathBuf {
    let root = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&root);
    write(&root, "shop.toml", "name = \"Test bench\"\ncurrency = \"EUR\"\norder = \"mailto:bench@example.org\"\n");
    design(&root, "sound", "published", DRAWING);
    root
}

/// Two pieces of 40 × 60 mm that interlock by nothing: small enough to be drawn quickly.
const DRAWING: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="60mm" viewBox="0 0 80 60"><g id="cuts" fill="none" stroke="#000"><rect width="80" height="60"/><path d="M40 0V60"/></g></svg>"##;

fn write(root: &Path, path: &str, text: &str) {
    let path = root.join(path);
    fs::create_dir_all(path.parent().expect("inside the shop")).expect("a folder can be made");
    fs::write(path, text).expect("a file can be written");
}

fn design(root: &Path, slug: &str, status: &str, drawing: &str) {
    let record = format!(
        "title = \"Design {slug}\"\nstatus = \"{status}\"\n[board]\nwood = \"birch-plywood\"\nthickness = \"4 mm\"\n[drawing.layers]\ncut = \"cuts\"\n"
    );
    write(root, &format!("designs/{slug}/record.toml"), &record);
    write(root, &format!("designs/{slug}/drawing.svg"), drawing);
}

fn publish(root: &Path, more: &[&str]) -> (Option<i32>, String) {
    let Output { status, stdout, stderr } = Command::new(env!("CARGO_BIN_EXE_kerfleaf"))
        .arg("publish")
        .arg(root)
        .args(more)
        .output()
        .expect("the program runs");
    (status.code(), String::from_utf8_lossy(&stdout).into_owned() + &String::from_utf8_lossy(&stderr))
}

fn has(root: &Path, address: &str) -> bool {
    root.join("published").join(address).exists()
}

#[test]
fn a_broken_draft_or_a_folder_without_a_record_stops_nothing() {
    let root = shop("publish-drafts");
    design(&root, "torn-draft", "draft", "<svg");
    fs::create_dir_all(root.join("designs/scraps")).expect("a folder can be made");
    let (code, told) = publish(&root, &[]);
    assert_eq!(code, Some(1), "the folder without a record is something that could not be done: {told}");
    assert!(told.contains("designs/scraps") && has(&root, "designs/sound/index.html"), "{told}");
    assert!(!has(&root, "designs/torn-draft"));
}

#[test]
fn a_broken_published_design_leaves_the_old_catalogue_as_it_was() {
    let root = shop("publish-broken");
    assert_eq!(publish(&root, &[]).0, Some(0));
    let before = fs::read(root.join("published/index.html")).expect("published");
    design(&root, "torn", "published", "<svg xmlns='http://www.w3.org/2000/svg'><path d='M0");
    let (code, told) = publish(&root, &[]);
    assert_eq!(code, Some(1), "{told}");
    assert!(told.contains("designs/torn/drawing.svg") && told.contains("nothing was published"), "{told}");
    assert_eq!(fs::read(root.join("published/index.html")).expect("still there"), before);

    let (code, told) = publish(&root, &["--leave-out-broken"]);
    assert_eq!(code, Some(1), "{told}");
    assert!(
        told.contains("left out: torn") && has(&root, "designs/sound/index.html") && !has(&root, "designs/torn"),
        "{told}"
    );
}

#[test]
fn a_folder_that_is_not_ours_is_refused() {
    let root = shop("publish-refused");
    write(&root, "published/letter.txt", "mine");
    let (code, told) = publish(&root, &[]);
    assert_eq!(code, Some(1), "{told}");
    assert_eq!(fs::read_to_string(root.join("published/letter.txt")).expect("untouched"), "mine");
}

#[test]
fn check_says_what_would_change_and_changes_nothing() {
    let root = shop("publish-check");
    let (code, told) = publish(&root, &["--check"]);
    assert_eq!(code, Some(0), "{told}");
    assert!(told.lines().any(|l| l.starts_with("added\t") && l.ends_with("\tindex.html")), "{told}");
    assert!(!root.join("published").exists());

    assert_eq!(publish(&root, &[]).0, Some(0));
    let list = root.join("changes.txt");
    design(&root, "sound", "draft", DRAWING);
    assert_eq!(publish(&root, &["--changes", list.to_str().expect("plain path")]).0, Some(0));
    let changes = fs::read_to_string(list).expect("written");
    assert!(changes.contains("removed\t-\tdesigns/sound/index.html"), "{changes}");
    assert!(changes.lines().any(|l| l.starts_with("changed\t") && l.ends_with("\tindex.html")), "{changes}");
}

#[test]
fn wrong_calls_and_mistakes_end_as_the_handbook_says() {
    let root = shop("publish-calls");
    assert_eq!(publish(&root.join("nowhere"), &[]).0, Some(2));
    assert_eq!(publish(&root, &["--no-such-option"]).0, Some(2));
    for (more, why) in [
        (["--into", "designs/sound/site"], "lies in the shop's own designs"),
        (["--into", ".kerfleaf/site"], "lies in the shop's own .kerfleaf"),
        (["--changes", "published/changes.txt"], "lies in the folder that is replaced"),
    ] {
        let place = root.join(more[1]);
        let (code, told) = publish(&root, &[more[0], place.to_str().expect("a path in UTF-8")]);
        assert_eq!(code, Some(2), "{told}");
        assert!(told.contains(why) && !place.exists() && !root.join("published").exists(), "{told}");
    }
    write(&root, "shop.toml", "name = \"Test bench\"\ncurrency = \"EURO\"\norder = \"mailto:bench@example.org\"\n");
    let (code, told) = publish(&root, &[]);
    assert_eq!(code, Some(1), "{told}");
    assert!(told.contains("shop.toml") && !root.join("published").exists(), "{told}");
}
