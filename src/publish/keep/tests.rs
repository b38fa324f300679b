//! What is kept holds, or is noticed.

use std::fs;
use std::path::Path;

use super::*;

fn keep(shop: &Path) -> Keep {
    let program = shop.join("program");
    fs::write(&program, "one").expect("written");
    Keep::open(shop, &program).expect("a place to keep things in")
}

fn pages() -> Vec<Page> {
    vec![
        Page { address: "made/a.webp".into(), bytes: b"first".to_vec() },
        Page { address: "made/b.webp".into(), bytes: b"second".to_vec() },
    ]
}

fn key(name: &str) -> Hash {
    blake3::hash(name.as_bytes())
}

#[test]
fn a_value_comes_back_with_its_files_and_all_its_digits() {
    let shop = tempfile::tempdir().expect("a folder");
    let keep = keep(shop.path());
    // Neighbours of one another: the shortest text that tells them apart has all digits.
    let value = vec![0.1 + 0.2, 0.3, 1.0 / 3.0, 4503599627370497.5, f64::MIN_POSITIVE, 229.79999999999998];
    keep.put(&key("a"), &value, &pages(), None).expect("kept");
    let Found::There(entry) = keep.find::<Vec<f64>>(&key("a")) else { panic!("there") };
    assert_eq!(entry.value, value);
    let addresses: Vec<&str> = entry.files.iter().map(|file| file.address.as_str()).collect();
    assert_eq!(addresses, ["made/a.webp", "made/b.webp"]);
    let (path, _) = keep.source(&entry.files[1]).expect("sound");
    assert_eq!(fs::read(path).expect("there"), b"second");
    assert!(matches!(keep.find::<Vec<f64>>(&key("b")), Found::Absent));
}

#[test]
fn an_edited_cut_off_or_foreign_entry_is_noticed() {
    let shop = tempfile::tempdir().expect("a folder");
    let keep = keep(shop.path());
    keep.put(&key("a"), &1, &pages(), None).expect("kept");
    let path = keep.folder(&key("a")).join("entry");
    let whole = fs::read(&path).expect("there");
    for at in 0..whole.len() {
        let mut edited = whole.clone();
        edited[at] ^= 1;
        fs::write(&path, &edited).expect("written");
        assert!(matches!(keep.find::<u32>(&key("a")), Found::Damaged), "byte {at}");
        fs::write(&path, &whole[..at]).expect("written");
        assert!(matches!(keep.find::<u32>(&key("a")), Found::Damaged), "cut at {at}");
    }
    fs::write(&path, &whole).expect("written");
    assert!(matches!(keep.find::<u32>(&key("a")), Found::There(_)));
    // Under another key, or asked for as something else.
    fs::rename(keep.folder(&key("a")), keep.folder(&key("b"))).expect("moved");
    assert!(matches!(keep.find::<u32>(&key("b")), Found::Damaged));
    fs::rename(keep.folder(&key("b")), keep.folder(&key("a"))).expect("moved");
    assert!(matches!(keep.find::<String>(&key("a")), Found::Damaged));
}

#[cfg(unix)]
#[test]
fn a_file_that_was_edited_through_another_link_or_is_a_link_is_not_believed() {
    let shop = tempfile::tempdir().expect("a folder");
    let keep = keep(shop.path());
    let site = shop.path().join("site");
    fs::create_dir_all(site.join("made")).expect("made");
    for page in pages() {
        fs::write(site.join(&page.address), &page.bytes).expect("written");
    }
    keep.put(&key("a"), &1, &pages(), Some(&site)).expect("kept");
    let Found::There(entry) = keep.find::<u32>(&key("a")) else { panic!("there") };
    assert!(entry.files.iter().all(|file| keep.source(file).is_some()));
    fs::write(site.join("made/a.webp"), "fir5t").expect("edited in place");
    assert_eq!(fs::read(&entry.files[0].path).expect("there"), b"fir5t", "one file with two names");
    assert!(keep.source(&entry.files[0]).is_none());
    fs::remove_file(&entry.files[1].path).expect("gone");
    std::os::unix::fs::symlink(site.join("made/b.webp"), &entry.files[1].path).expect("a link");
    assert!(keep.source(&entry.files[1]).is_none());
}

#[test]
fn the_program_itself_is_told_by_its_content() {
    let shop = tempfile::tempdir().expect("a folder");
    let program = shop.path().join("program");
    let hash = |text: &str| {
        fs::write(&program, text).expect("written");
        std::thread::sleep(std::time::Duration::from_millis(80));
        let first = Keep::open(shop.path(), &program).expect("open").program;
        assert_eq!(Keep::open(shop.path(), &program).expect("open").program, first);
        first
    };
    let first = hash("one");
    assert_ne!(hash("two"), first);
    assert_eq!(hash("one"), first);
}

#[test]
fn what_nobody_uses_goes_beyond_its_bound_and_what_killed_runs_left_goes_at_once() {
    let shop = tempfile::tempdir().expect("a folder");
    let keep = keep(shop.path());
    let large = |name: &str, bytes: u64| {
        keep.put(&key(name), &1, &pages(), None).expect("kept");
        // A hole in a file has its size without its blocks.
        let file = fs::File::options().write(true).open(keep.folder(&key(name)).join("0")).expect("there");
        file.set_len(bytes).expect("a hole");
        std::thread::sleep(std::time::Duration::from_millis(15));
    };
    for name in ["old", "used", "new"] {
        large(name, MOST_SPARE * 2 / 3);
    }
    let left = shop.path().join(FOLDER).join("kept/new-1-0");
    fs::create_dir(&left).expect("made");
    keep.clear(&BTreeSet::from([key("used").to_string()]));
    let there = |name: &str| keep.folder(&key(name)).exists();
    assert_eq!((there("old"), there("used"), there("new"), left.exists()), (false, true, true, false));
}

#[test]
fn a_record_comes_back_whole_or_not_at_all() {
    let shop = tempfile::tempdir().expect("a folder");
    let keep = keep(shop.path());
    let stamp = Stamp::of(&fs::metadata(shop.path()).expect("there"));
    let last = Last {
        call: key("call"),
        target: "/a/b".into(),
        known: key("none yet"),
        told: vec![(true, "12 pieces".into()), (false, "mend this".into())],
        done: true,
        seen: vec![("designs".into(), Sight::Absent), ("pages".into(), Sight::Unclear)],
        files: vec![Written { address: "index.html".into(), hash: key("x"), stamp, of: Some(key("y")) }],
        folders: vec![(String::new(), stamp), ("made".into(), None)],
    };
    assert_eq!(keep.last("/a/b"), Ok(None));
    let design = |slug: &str| Known {
        slug: slug.into(),
        keys: Keys { pictures: key("p"), guides: key("g"), card: key(slug) },
        codes: vec!["A-1".into()],
        files: vec![("made/a.webp".into(), key("a"))],
        value: b"{}".to_vec(),
    };
    let known = [design("boat"), design("gull")];
    keep.record(last.clone(), &known).expect("kept");
    let back = keep.last("/a/b").expect("sound").expect("there");
    assert_eq!(keep.known(&back), known);
    assert_eq!(Last { known: last.known, ..back.clone() }, last);
    // Another publication's record does not believe it.
    assert_eq!(keep.known(&last), []);
    let known_path = keep.path_of("known", "/a/b");
    let mut bytes = fs::read(&known_path).expect("there");
    bytes[90] ^= 1;
    fs::write(&known_path, bytes).expect("written");
    assert_eq!(keep.known(&back), []);
    let path = keep.last_path("/a/b");
    fs::copy(&path, keep.last_path("/a/c")).expect("copied");
    assert_eq!(keep.last("/a/c"), Err(Damaged), "another folder's");
    let mut bytes = fs::read(&path).expect("there");
    bytes[60] ^= 1;
    fs::write(&path, bytes).expect("written");
    assert_eq!(keep.last("/a/b"), Err(Damaged));
}

#[test]
fn a_design_is_unchanged_where_nothing_of_it_and_nothing_beside_the_designs_has_changed() {
    let shop = tempfile::tempdir().expect("a folder");
    let write = |path: &str, text: &str| {
        let path = shop.path().join(path);
        fs::create_dir_all(path.parent().expect("inside")).expect("made");
        fs::write(path, text).expect("written");
    };
    let paths = ["shop.toml", "designs/a/record.toml", "designs/a-b/record.toml", "designs/b/record.toml"];
    paths.iter().for_each(|path| write(path, "one"));
    let folder = fs::File::open(shop.path()).expect("there");
    let folders = ["designs", "designs/a", "designs/a-b", "designs/b"];
    let mut seen: Vec<(String, Sight)> = paths
        .iter()
        .chain(&folders)
        .chain(&["designs/a/photos"])
        .map(|path| ((*path).to_owned(), Stamp::at(&folder, path, true)))
        .collect();
    seen.sort_by(|a, b| a.0.cmp(&b.0));
    let hash = key("x");
    let (told, files, folders) = (Vec::new(), Vec::new(), Vec::new());
    let last = Last { call: hash, target: String::new(), known: hash, told, done: true, seen, files, folders };
    let unchanged = || last.unchanged(&folder).map(|slugs| slugs.into_iter().collect::<Vec<_>>());
    assert_eq!(unchanged(), Some(vec!["a", "a-b", "b"]));
    let of_a: Vec<String> = last.seen_of("a").into_iter().map(|(path, _)| path).collect();
    assert_eq!(of_a, ["designs/a", "designs/a/photos", "designs/a/record.toml"]);
    write("designs/a/photos/new.jpg", "");
    write("designs/c/record.toml", "");
    assert_eq!(unchanged(), Some(vec!["a-b", "b"]));
    write("designs/a-b/record.toml", "another");
    assert_eq!(unchanged(), Some(vec!["b"]));
    write("shop.toml", "another");
    assert_eq!(unchanged(), None);
}
