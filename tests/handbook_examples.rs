//! The handbook's examples, done as they stand: every call of the maker's day, every file of the theme guide.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use kerfleaf::{catalogue, figures, publish, shop};

fn room(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("handbook").join(name);
    let _ = fs::remove_dir_all(&path);
    fs::create_dir_all(&path).unwrap();
    path
}

/// Blocks of a page with what stands behind their three backticks.
fn blocks(page: &str) -> Vec<(String, String)> {
    let text = fs::read_to_string(format!("{}/src/handbook/{page}.md", env!("CARGO_MANIFEST_DIR"))).unwrap();
    let mut found = Vec::new();
    let mut parts = text.split("```");
    parts.next();
    while let (Some(block), Some(_)) = (parts.next(), parts.next()) {
        let (head, body) = block.split_once('\n').unwrap();
        found.push((head.trim().to_owned(), body.to_owned()));
    }
    found
}

#[test]
fn the_makers_day_can_be_typed_as_it_stands() {
    let room = room("day");
    let drawing = format!("{}/content/begin/designs/pears-on-a-sill/drawing.svg", env!("CARGO_MANIFEST_DIR"));
    fs::copy(&drawing, room.join("harbour.svg")).unwrap();
    fs::copy(&drawing, room.join("older.svg")).unwrap();
    let mut calls = 0;
    for (head, body) in blocks("makers_day") {
        if head == "sh" {
            for line in body.lines() {
                let words: Vec<&str> = line.split_whitespace().collect();
                let (program, args) = words.split_first().unwrap();
                assert_eq!(*program, "kerfleaf", "{line}");
                if args[0] == "print" && cfg!(not(feature = "sheets")) {
                    continue;
                }
                let told = Command::new(env!("CARGO_BIN_EXE_kerfleaf")).args(args).current_dir(&room).output().unwrap();
                assert_eq!(told.status.code(), Some(0), "{line}\n{}", String::from_utf8_lossy(&told.stderr));
                calls += 1;
            }
        } else if let Some(slug) = head.strip_prefix("toml ") {
            // What the page says to write into the record.
            let record = room.join(format!("my-shop/designs/{slug}/record.toml"));
            let (status, offer) = body.split_once("\n\n").unwrap();
            let text = fs::read_to_string(&record).unwrap().replace("status   = \"draft\"", status);
            fs::write(&record, format!("{text}\n{offer}")).unwrap();
        }
    }
    assert!(calls >= 10, "{calls}");
    assert!(fs::read_to_string(room.join("my-shop/published/designs/harbour/index.html")).unwrap().contains("64.00"));
    assert!(fs::read_to_string(room.join("my-shop/sales.csv")).unwrap().contains("2026-03-14,HARBOUR-P,1,64.00,EUR,"));
    assert!(room.join("changes.html").exists() && room.join("harbour.html").exists());
}

#[test]
fn every_file_of_the_theme_guide_makes_a_catalogue() {
    let root = room("theme").join("shop");
    publish::new_folder(&root, &shop::begin("Osk bench")).unwrap();
    let mut files = 0;
    for (head, body) in blocks("theme") {
        let Some(path) = head.split(' ').nth(1) else { continue };
        let path = root.join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, body).unwrap();
        files += 1;
    }
    assert!(files >= 3, "{files}");
    let shop = shop::read(&root).unwrap();
    assert_eq!(shop.theme.len(), files);
    let design = shop.entries[0].design.as_ref().unwrap();
    let measured = figures::measure(design, &shop.settings).unwrap();
    let pages = catalogue::pages(&shop, &[catalogue::sketch(&shop, design, &measured, "x")]).unwrap();
    let page = |address: &str| {
        pages.iter().find(|page| page.address == address).map(|page| String::from_utf8_lossy(&page.bytes).into_owned())
    };
    assert!(page("pages/about/index.html").unwrap().contains("<article>"));
    assert!(page("404.html").unwrap().contains("<h1>"));
    assert!(pages.iter().any(|p| p.address.ends_with(".css") && String::from_utf8_lossy(&p.bytes).contains("60rem")));
}
