//! Publishing again: what is kept between runs saves work and changes no byte, whatever has become of it.

#[path = "support/quick_shop.rs"]
mod quick_shop;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use quick_shop::{Random, SLUGS, Shop, tree};

/// One thing that an owner, a mishap or a meddler does to a shop between two publications; what was done, for a failure's report.
fn edit(shop: &Shop, random: &mut Random) -> String {
    let slug = random.pick(&SLUGS).to_owned();
    let number = random.below(90) + 10;
    let record = format!("designs/{slug}/record.toml");
    let change = |path: &str, from: &str, to: &str| {
        shop.edit(path, from, to);
        format!("{path}: {from} to {to}")
    };
    match random.below(28) {
        0 => change(&record, "title = ", &format!("# {number}\ntitle = ")),
        1 => change(&record, "Design", &format!("Design {number}")),
        2 => change(&record, "price = \"", &format!("price = \"{number}")),
        3 => change(&record, "stock = ", &format!("stock = {number}")),
        4 => change(&record, "status = \"published\"", "status = \"draft\""),
        5 => change(&record, "status = \"draft\"", "status = \"published\""),
        6 => change(&record, "thickness = \"4 mm\"", "thickness = \"6 mm\""),
        7 => change(&record, "kerf = \"0.2 mm\"", "kerf = \"0.3 mm\""),
        8 => change(&record, "birch-plywood", "sugar-maple-plywood"),
        9 => change(&record, "colour = \"#3a6ea5\"", "colour = \"#3a6fa5\""),
        10 => change(&record, "name = \"Sea\"", &format!("name = \"Sea {number}\"")),
        11 => change(&format!("designs/{slug}/drawing.svg"), "M20 0", &format!("M2{} 0", number % 10)),
        12 => change("shop.toml", "name = \"Small", &format!("name = \"Small {number}")),
        13 => change("shop.toml", "price = \"5", &format!("price = \"5{number}")),
        14 => change("shop.toml", "hourly_rate = \"28", &format!("hourly_rate = \"28{number}")),
        15 => change("shop.toml", "show_cuts = true", "show_cuts = false"),
        16 => {
            shop.write(&format!("designs/{slug}/story.md"), &format!("A story of {number} words."));
            "a story".into()
        }
        17 => {
            shop.write("pages/visit.md", &format!("# Visit\n\nOpen from {number}."));
            "a page".into()
        }
        18 => {
            shop.write(
                "theme/icon.svg",
                &format!("<svg xmlns='http://www.w3.org/2000/svg'><desc>{number}</desc></svg>"),
            );
            "a theme".into()
        }
        19 => {
            shop.photo(&slug, "01.png", number as u8);
            "a photograph".into()
        }
        20 => {
            let _ = fs::remove_dir_all(shop.root.join(format!("designs/{slug}/photos")));
            "no photographs".into()
        }
        21 => {
            let _ = fs::remove_dir_all(shop.root.join("published"));
            "no published folder".into()
        }
        22 => {
            let tenths = 8 + random.below(8);
            shop.size(&slug, tenths);
            format!("{slug}: {tenths} tenths as large")
        }
        23 => {
            if shop.root.join("designs").join(&slug).exists() {
                fs::remove_dir_all(shop.root.join("designs").join(&slug)).expect("removed");
            } else {
                shop.design(&slug, "published");
            }
            format!("{slug} gone or back")
        }
        24..=26 => meddle(&shop.root.join(".kerfleaf"), random),
        _ => meddle(&shop.root.join("published"), random),
    }
}

/// Does something to one file: a byte turned in place, which reaches every link to it; cut short; gone; another's content.
fn meddle(folder: &Path, random: &mut Random) -> String {
    let files: Vec<PathBuf> = walkdir::WalkDir::new(folder)
        .sort_by_file_name()
        .into_iter()
        .filter_map(Result::ok)
        .filter(|entry| entry.file_type().is_file() && entry.file_name() != "kerfleaf.txt")
        .map(|entry| entry.into_path())
        .collect();
    if files.is_empty() {
        return "nothing to meddle with".into();
    }
    let path = &files[random.below(files.len())];
    let bytes = fs::read(path).expect("readable");
    let what = random.below(4);
    match what {
        0 if !bytes.is_empty() => {
            use std::io::{Seek, SeekFrom, Write};
            let at = random.below(bytes.len());
            let mut file = fs::File::options().write(true).open(path).expect("writable");
            file.seek(SeekFrom::Start(at as u64)).expect("within");
            file.write_all(&[bytes[at] ^ 0x20]).expect("written");
        }
        1 => fs::write(path, &bytes[..bytes.len() / 2]).expect("written"),
        2 => fs::remove_file(path).expect("removed"),
        _ => drop(fs::copy(&files[random.below(files.len())], path).expect("copied")),
    }
    format!("meddled in way {what} with {}", path.display())
}

/// Handbook, "Again, quickly": the kept and the fresh way give the same bytes, after any edit.
#[test]
fn what_is_kept_changes_no_byte_after_any_edit() {
    let edits = if std::env::var_os("KERFLEAF_LONG").is_some() { 400 } else { 12 };
    let seed = std::env::var("KERFLEAF_SEED").ok().and_then(|seed| seed.parse().ok()).unwrap_or(7);
    let shop = Shop::new("again-edits", 4);
    let fresh = shop.root.with_file_name("again-edits-fresh");
    let _ = fs::remove_dir_all(&fresh);
    let mut random = Random(seed);
    let mut done = Vec::new();
    shop.publish(&[]);
    for _ in 0..edits {
        // Several edits between two publications hide one another's traces.
        for _ in 0..=random.below(2) {
            done.push(edit(&shop, &mut random));
        }
        let (code, told) = shop.publish(&[]);
        let (fresh_code, fresh_told) = shop.publish(&["--from-scratch", "--into", fresh.to_str().expect("plain")]);
        assert_eq!(code, fresh_code, "{done:#?}\n{told}\n{fresh_told}");
        if code == Some(0) {
            differ(&tree(&shop.root.join("published")), &tree(&fresh), &done);
        }
    }
}

fn differ(kept: &BTreeMap<String, Vec<u8>>, fresh: &BTreeMap<String, Vec<u8>>, done: &[String]) {
    let all: std::collections::BTreeSet<&String> = kept.keys().chain(fresh.keys()).collect();
    let wrong: Vec<_> = all.into_iter().filter(|address| kept.get(*address) != fresh.get(*address)).collect();
    assert!(wrong.is_empty(), "{wrong:?} after {done:#?}");
}

#[test]
fn a_shop_that_has_not_changed_is_left_as_it_is() {
    let shop = Shop::new("again-same", 2);
    shop.settle();
    let (_, first) = shop.publish(&[]);
    let before = tree(&shop.root.join("published"));
    let (code, told) = shop.publish(&[]);
    assert_eq!(code, Some(0));
    assert!(told.contains("nothing has changed"), "{told}");
    for line in first.lines().filter(|line| line.contains("pieces")) {
        assert!(told.contains(line), "the summary of findings is told again: {told}");
    }
    assert_eq!(tree(&shop.root.join("published")), before);
    let list = shop.root.join("changes.txt");
    shop.publish(&["--changes", list.to_str().expect("plain")]);
    assert_eq!(fs::read(list).expect("written"), b"");
}

/// What a publication notices from the outside of files alone, one by one.
#[test]
fn every_change_of_the_shop_or_of_the_published_folder_is_noticed() {
    let shop = Shop::new("again-noticed", 2);
    shop.settle();
    shop.publish(&[]);
    let unchanged = || shop.publish(&[]).1.contains("nothing has changed");
    assert!(unchanged());
    let changes: [(&str, &dyn Fn()); 9] = [
        ("a stray file", &|| fs::write(shop.root.join("published/designs/stray.txt"), "x").expect("written")),
        ("a file that is gone", &|| fs::remove_file(shop.root.join("published/index.html")).expect("gone")),
        ("the same size and date", &|| {
            let path = shop.root.join("published/index.html");
            let date = fs::metadata(&path).and_then(|about| about.modified()).expect("there");
            let mut bytes = fs::read(&path).expect("there");
            bytes[40] ^= 1;
            fs::write(&path, bytes).expect("written");
            fs::File::options().write(true).open(&path).and_then(|file| file.set_modified(date)).expect("dated");
        }),
        ("a page", &|| shop.write("pages/new.md", "# New")),
        ("a photograph", &|| shop.photo("boat", "02.png", 9)),
        ("a design", &|| shop.design("star", "published")),
        ("an empty folder of a design", &|| fs::create_dir(shop.root.join("designs/empty")).expect("made")),
        ("that folder gone", &|| fs::remove_dir(shop.root.join("designs/empty")).expect("gone")),
        ("a theme", &|| shop.write("theme/icon.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>")),
    ];
    for (what, change) in changes {
        change();
        assert!(!unchanged(), "{what}");
        shop.settle();
        shop.publish(&[]);
        assert!(unchanged(), "after {what}");
    }
    assert!(!shop.root.join("published/designs/stray.txt").exists());
}

/// A change of price is no reason to draw again: pictures keep their inode, and so their date for whoever uploads by dates.
#[cfg(unix)]
#[test]
fn files_that_did_not_change_are_the_same_files() {
    use std::os::unix::fs::MetadataExt;
    let shop = Shop::new("again-price", 2);
    shop.publish(&[]);
    let files = |ending: &str| -> BTreeMap<String, u64> {
        let all = walkdir::WalkDir::new(shop.root.join("published")).into_iter().filter_map(Result::ok);
        let all = all.filter(|e| e.path().to_string_lossy().ends_with(ending));
        all.map(|e| (e.path().display().to_string(), e.metadata().expect("there").ino())).collect()
    };
    let (pictures, pages) = (files(".webp"), files("gull/index.html"));
    shop.edit("designs/boat/record.toml", "price = \"", "price = \"1");
    assert_eq!(shop.publish(&[]).0, Some(0));
    assert!(pictures.len() > 4 && pages.len() == 1);
    assert_eq!((files(".webp"), files("gull/index.html")), (pictures, pages));
}

#[test]
fn what_does_not_hold_is_told_and_made_anew() {
    let shop = Shop::new("again-damaged", 1);
    shop.publish(&[]);
    let good = tree(&shop.root.join("published"));
    for entry in walkdir::WalkDir::new(shop.root.join(".kerfleaf/kept")).into_iter().filter_map(Result::ok) {
        if entry.file_name() == "entry" {
            let mut bytes = fs::read(entry.path()).expect("there");
            let middle = bytes.len() / 2;
            bytes[middle] ^= 1;
            fs::write(entry.path(), bytes).expect("written");
        }
    }
    let (code, told) = shop.publish(&[]);
    // The published folder is as it was, so nothing kept was needed; without its record it is.
    assert_eq!(code, Some(0), "{told}");
    shop.write("pages/new.md", "# New");
    shop.publish(&[]);
    fs::remove_file(shop.root.join("pages/new.md")).expect("gone");
    let (code, told) = shop.publish(&[]);
    assert_eq!(code, Some(0), "{told}");
    assert_eq!(tree(&shop.root.join("published")), good);
}

#[test]
fn a_place_where_nothing_can_be_kept_is_no_reason_to_stop() {
    let shop = Shop::new("again-nowhere", 1);
    fs::write(shop.root.join(".kerfleaf"), "a file").expect("written");
    let (code, told) = shop.publish(&[]);
    assert_eq!(code, Some(0), "{told}");
    assert!(told.contains("nothing can be kept in") && told.contains("for the next time"), "{told}");
    assert!(shop.root.join("published/index.html").exists());
}

/// A design that nobody touched is not read, but what it says still counts.
#[test]
fn a_code_that_an_unread_design_has_is_taken() {
    let shop = Shop::new("again-codes", 3);
    shop.settle();
    shop.publish(&[]);
    for (slug, blamed) in [("boat", "designs/gull/record.toml"), ("moon", "designs/moon/record.toml")] {
        let record = format!("designs/{slug}/record.toml");
        shop.edit(&record, "form = \"painted\"", "form = \"painted\"\ncode = \"gull-painted\"");
        let (code, told) = shop.publish(&[]);
        assert_eq!(code, Some(1), "{told}");
        assert!(told.contains("The code `gull-painted` is taken already") && told.contains(blamed), "{told}");
        shop.edit(&record, "\ncode = \"gull-painted\"", "");
        assert_eq!(shop.publish(&[]).0, Some(0));
        shop.settle();
    }
}

/// One price changed: of the product pages only that one and those that show it as a near relative are written.
#[cfg(unix)]
#[test]
fn pages_that_do_not_change_are_the_same_files() {
    use std::os::unix::fs::MetadataExt;
    let shop = Shop::new("again-pages", 6);
    for (at, slug) in SLUGS.iter().enumerate() {
        shop.size(slug, 10 + 3 * at * at);
    }
    shop.settle();
    shop.publish(&[]);
    let files = || -> BTreeMap<&str, u64> {
        let inode = |slug: &str| {
            let page = shop.root.join(format!("published/designs/{slug}/index.html"));
            fs::metadata(page).expect("there").ino()
        };
        SLUGS.iter().map(|slug| (*slug, inode(slug))).collect()
    };
    let before = files();
    // The largest is no relative of the two smallest, whose three nearest are all smaller than it.
    shop.edit("designs/tide/record.toml", "price = \"", "price = \"1");
    let (code, told) = shop.publish(&[]);
    assert_eq!(code, Some(0), "{told}");
    for slug in &SLUGS {
        assert!(told.contains(&format!("{slug}: ")), "every design is told of: {told}");
    }
    let after = files();
    let same = |slug: &str| before[slug] == after[slug];
    assert_eq!((same("boat"), same("gull"), same("tide")), (true, true, false));
}
