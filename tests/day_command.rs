//! The maker's day as a maker calls it: begin, add, stock, compare, schema.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::Value;

struct Told {
    code: Option<i32>,
    out: String,
    err: String,
}

fn kerfleaf(args: &[&str]) -> Told {
    // Without a terminal nothing is asked and nothing is coloured.
    let told = Command::new(env!("CARGO_BIN_EXE_kerfleaf"))
        .args(args)
        .stdin(std::process::Stdio::null())
        .output()
        .expect("the program runs");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("UTF-8");
    let told = Told { code: told.status.code(), out: text(told.stdout), err: text(told.stderr) };
    assert!(!told.err.contains('\u{1b}') && !told.out.contains('\u{1b}'), "colour without a terminal: {}", told.err);
    told
}

/// A folder of its own for a test; whatever an earlier run left there is gone.
fn room(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("day").join(name);
    let _ = fs::remove_dir_all(&path);
    fs::create_dir_all(&path).unwrap();
    path
}

fn text(path: &Path) -> &str {
    path.to_str().unwrap()
}

fn begun(name: &str) -> (PathBuf, PathBuf) {
    let room = room(name);
    let shop = room.join("my-shop");
    let told = kerfleaf(&["begin", text(&shop)]);
    assert_eq!((told.code, told.out.as_str()), (Some(0), ""), "{}", told.err);
    (room, shop)
}

fn demo(slug: &str) -> String {
    format!("{}/demo-shop/designs/{slug}/drawing.svg", env!("CARGO_MANIFEST_DIR"))
}

/// From an empty folder to a published product, and to one of the maker's own, by what the program prints and nothing else.
#[test]
fn an_empty_folder_becomes_a_shop_with_a_product_of_ones_own() {
    let (room, shop) = begun("from-nothing");
    let said = kerfleaf(&["begin", text(&room.join("other shop"))]);
    assert!(said.err.contains(&format!("kerfleaf publish '{}'", text(&room.join("other shop")))), "{}", said.err);
    let drawing = room.join("My Heron (final).svg");
    fs::copy(demo("kite-over-the-flats"), &drawing).unwrap();
    let added = kerfleaf(&["add", text(&shop), text(&drawing)]);
    assert_eq!(added.code, Some(0), "{}", added.err);
    for words in [
        "taken for",
        "colour",
        "Missing for sale",
        "status = \"published\"",
        "an [[offer]] with a price",
        "kerfleaf publish",
    ] {
        assert!(added.err.contains(words), "{words} in\n{}", added.err);
    }
    // The drawing is copied as it is, and stays where it was.
    let design = shop.join("designs/my-heron-final");
    assert_eq!(fs::read(&drawing).unwrap(), fs::read(design.join("drawing.svg")).unwrap());
    // A draft is published nowhere.
    let record = fs::read_to_string(design.join("record.toml")).unwrap();
    assert!(record.contains("status   = \"draft\"") && record.matches("# GUESS:").count() > 5, "{record}");
    // What is missing, done as told: status, and the offer that the file shows.
    let done = record
        .replace("status   = \"draft\"", "status   = \"published\"")
        .replace("# [[offer]]", "[[offer]]")
        .replace("# form", "form")
        .replace("# price = \"0.00\"", "price = \"79.00\"");
    fs::write(design.join("record.toml"), done).unwrap();
    let published = kerfleaf(&["publish", text(&shop)]);
    assert_eq!(published.code, Some(0), "{}", published.err);
    assert!(published.err.contains("published 2 designs"), "{}", published.err);
    let page = fs::read_to_string(shop.join("published/designs/my-heron-final/index.html")).unwrap();
    assert!(page.contains("79.00") && page.contains("Kite over the flats"), "{page}");
    assert!(fs::read_to_string(shop.join(".gitignore")).unwrap().contains("/published/"));
}

#[test]
fn begin_writes_over_nothing() {
    let (room, shop) = begun("begin-twice");
    let record = shop.join("shop.toml");
    fs::write(&record, "mine").unwrap();
    fs::create_dir(room.join("empty")).unwrap();
    for there in [shop.clone(), record.clone(), room.join("empty")] {
        let told = kerfleaf(&["begin", text(&there)]);
        assert_eq!((told.code, told.out.as_str()), (Some(1), ""));
        assert!(
            told.err.contains("never writes over anything") && told.err.contains("kerfleaf begin "),
            "{}",
            told.err
        );
    }
    assert_eq!(fs::read_to_string(&record).unwrap(), "mine");
    assert_eq!(fs::read_dir(room.join("empty")).unwrap().count(), 0);
    assert_eq!(kerfleaf(&["--quiet", "begin", text(&room.join("quiet"))]).err, "");
    assert_eq!(kerfleaf(&["begin"]).code, Some(2));
}

#[test]
fn add_says_what_it_cannot_take() {
    let (room, shop) = begun("add-faults");
    let svg = |name: &str, text: &str| {
        let path = room.join(name);
        fs::write(&path, text).unwrap();
        path
    };
    let frame = |inner: &str| {
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"60mm\" height=\"40mm\" viewBox=\"0 0 60 40\">\n{inner}\n</svg>"
        )
    };
    for (drawing, words) in [
        (room.join("nowhere.svg"), vec!["There is no file", "help:"]),
        (svg("broken.svg", &frame("<g>")), vec!["broken.svg:3:", "help:"]),
        (svg("bad-path.svg", &frame("<path stroke=\"red\" d=\"M0 0 L10\"/>")), vec!["bad-path.svg:2:", "help:"]),
        (svg("packed.svg", "%PDF-1.7"), vec!["is no SVG", "help:"]),
        (svg("empty.svg", &frame("")), vec!["nothing in", "--layer cut=PART"]),
    ] {
        let told = kerfleaf(&["add", text(&shop), text(&drawing)]);
        assert_eq!((told.code, told.out.as_str()), (Some(1), ""), "{}", told.err);
        for word in words {
            assert!(told.err.contains(word), "{word} in\n{}", told.err);
        }
    }
    let good = svg(
        "good.svg",
        &frame(
            "<rect id=\"rim\" x=\"1\" y=\"1\" width=\"58\" height=\"38\" fill=\"none\" stroke=\"red\"/><path id=\"middle\" d=\"M30 1V39\" fill=\"none\" stroke=\"blue\"/>",
        ),
    );
    for (layer, words) in [
        ("cutt=rim", "Did you mean `cut`?"),
        ("cut", "LAYER=PART"),
        ("cut=nothing", "It has the parts above"),
        ("cut=stroke=reddish", "reddish"),
    ] {
        let told = kerfleaf(&["add", text(&shop), text(&good), "--layer", layer]);
        assert_eq!(told.code, Some(2), "{layer}: {}", told.err);
        assert!(told.err.contains(words), "{words} in\n{}", told.err);
    }
    assert_eq!(kerfleaf(&["add", text(&room), text(&good)]).code, Some(2), "no shop");
    assert_eq!(kerfleaf(&["add", text(&shop), text(&good), "--slug", "Not A Slug"]).code, Some(2));
    assert!(!shop.join("designs/good").exists());
    // Answered beforehand, by paint and by name.
    let told =
        kerfleaf(&["--quiet", "add", text(&shop), text(&good), "--layer", "cut=stroke=red", "--layer", "score=middle"]);
    assert_eq!((told.code, told.err.as_str()), (Some(0), ""));
    let record = fs::read_to_string(shop.join("designs/good/record.toml")).unwrap();
    assert!(
        record.contains("cut     = { stroke = \"#ff0000\" }\n") && record.contains("score   = \"middle\"\n"),
        "{record}"
    );
    let told = kerfleaf(&["add", text(&shop), text(&good)]);
    assert!(told.code == Some(1) && told.err.contains("--slug good-2"), "{}", told.err);
}

#[test]
fn what_is_not_there_is_told_with_what_was_meant() {
    let (room, shop) = begun("meant");
    fs::write(room.join("harbour at dawn.svg"), "<svg/>").unwrap();
    let near = text(&room.join("my-shopp")).to_owned();
    for (call, status, words) in [
        (vec!["measure", &near], 2, vec!["there is no folder", "Did you mean", "my-shop?"]),
        (vec!["publish", &near], 2, vec!["Did you mean"]),
        (vec!["stock", text(&shop.join("designs"))], 2, vec!["no shop.toml", "Did you mean", "my-shop?"]),
        (vec!["measure", "nowhere/at/all"], 2, vec!["kerfleaf begin nowhere/at/all"]),
        (
            vec!["add", text(&shop), text(&room.join("harbour-at-dawn.svg"))],
            1,
            vec!["Did you mean", "harbour at dawn.svg"],
        ),
        (vec!["begin"], 2, vec!["For instance: kerfleaf begin my-shop"]),
        (vec!["add", "my-shop"], 2, vec!["For instance: kerfleaf add my-shop harbour.svg"]),
        (vec!["compare", "my-shop"], 2, vec!["For instance: kerfleaf compare my-shop harbour --with older.svg"]),
    ] {
        let told = kerfleaf(&call);
        assert_eq!((told.code, told.out.as_str()), (Some(status), ""), "{call:?}: {}", told.err);
        for word in words {
            assert!(told.err.contains(word), "{word} in\n{}", told.err);
        }
    }
    let record = shop.join("designs/pears-on-a-sill/record.toml");
    let draft = fs::read_to_string(&record).unwrap().replacen("\"published\"", "\"draft\"", 1);
    fs::write(&record, draft).unwrap();
    let told = kerfleaf(&["publish", text(&shop)]);
    assert_eq!(told.code, Some(0), "{}", told.err);
    assert!(told.err.contains("not published: pears-on-a-sill") && told.err.contains("index.html"), "{}", told.err);
}

#[test]
fn a_sale_changes_one_number_and_adds_one_line() {
    let (_, shop) = begun("stock");
    let record = shop.join("designs/pears-on-a-sill/record.toml");
    let before = fs::read_to_string(&record).unwrap();
    let told = kerfleaf(&["stock", text(&shop), "sold", "PEARS-P", "--on", "2026-03-14"]);
    assert_eq!((told.code, told.out.as_str()), (Some(0), ""), "{}", told.err);
    assert_eq!(fs::read_to_string(&record).unwrap(), before.replace("stock = 1 ", "stock = 0 "));
    let measured: Value = serde_json::from_str(&kerfleaf(&["measure", text(&shop), "--json"]).out).unwrap();
    let mark = measured["designs"][0]["mark"].as_str().unwrap().to_owned();
    let sales = || fs::read_to_string(shop.join("sales.csv")).unwrap();
    assert_eq!(sales(), format!("date,code,number,price,currency,mark\r\n2026-03-14,PEARS-P,1,58.00,EUR,{mark}\r\n"));
    // What is sold out cannot be sold, and nothing changes.
    let told = kerfleaf(&["stock", text(&shop), "sold", "PEARS-P"]);
    assert!(told.code == Some(1) && told.err.contains("made PEARS-P 1"), "{}", told.err);
    assert_eq!(sales().lines().count(), 2);
    assert_eq!(
        kerfleaf(&["--quiet", "stock", text(&shop), "sold", "PEARS-B", "2", "--price", "30", "--on", "2026-03-15"]).err,
        ""
    );
    assert!(sales().ends_with(&format!("2026-03-15,PEARS-B,2,30.00,EUR,{mark}\r\n")), "{}", sales());
    let told = kerfleaf(&["stock", text(&shop)]);
    let lines: Vec<&str> = told.out.lines().collect();
    assert_eq!((told.code, lines.len()), (Some(0), 2), "{}", told.out);
    assert!(lines[0].starts_with("PEARS-P  sold out") && lines[1].starts_with("PEARS-B    1 left"), "{}", told.out);
    assert_eq!(kerfleaf(&["stock", text(&shop), "made", "PEARS-P", "3"]).code, Some(0));
    assert!(fs::read_to_string(&record).unwrap().contains("stock = 3 "));
    assert_eq!(sales().lines().count(), 3, "what is made is no sale");
}

#[test]
fn stock_says_what_is_wrong_and_what_to_write() {
    let (_, shop) = begun("stock-faults");
    let record = shop.join("designs/pears-on-a-sill/record.toml");
    let text_of = fs::read_to_string(&record).unwrap();
    fs::write(&record, text_of.replace("stock = 3\n", "")).unwrap();
    let before = fs::read_to_string(&record).unwrap();
    for (args, code, words) in [
        (vec!["sold", "PEAR-P"], 2, "Did you mean `PEARS-P`?"),
        (vec!["sold", "XYZ"], 2, "The shop has: PEARS-P, PEARS-B."),
        (vec!["sold", "PEARS-B", "--on", "2026-02-30"], 2, "not a day"),
        (vec!["sold", "PEARS-B", "--price", "1.234"], 2, "3 decimals"),
        (vec!["made", "PEARS-B", "2"], 1, "add `stock = 2`"),
        (vec!["made", "PEARS-P", "0"], 2, "0"),
    ] {
        let told = kerfleaf(&[&["stock", text(&shop)], args.as_slice()].concat());
        assert_eq!(told.code, Some(code), "{args:?}: {}", told.err);
        assert!(told.err.contains(words), "{words} in\n{}", told.err);
        assert!(!shop.join("sales.csv").exists() && fs::read_to_string(&record).unwrap() == before);
    }
    // Made to order: the line alone, with today's date.
    assert_eq!(kerfleaf(&["stock", text(&shop), "sold", "PEARS-B"]).code, Some(0));
    assert_eq!(fs::read_to_string(&record).unwrap(), before);
    let sales = fs::read_to_string(shop.join("sales.csv")).unwrap();
    assert!(kerfleaf::shop::stock::is_day(&sales.lines().nth(1).unwrap()[..10]), "{sales}");
}

#[cfg(unix)]
#[test]
fn sales_are_not_written_through_a_link_out_of_the_shop() {
    let (room, shop) = begun("stock-link");
    fs::write(room.join("elsewhere.csv"), "mine").unwrap();
    std::os::unix::fs::symlink("../elsewhere.csv", shop.join("sales.csv")).unwrap();
    let told = kerfleaf(&["stock", text(&shop), "sold", "PEARS-P"]);
    assert!(told.code == Some(1) && told.err.contains("leads out of the shop folder"), "{}", told.err);
    assert_eq!(fs::read_to_string(room.join("elsewhere.csv")).unwrap(), "mine");
    assert!(fs::read_to_string(shop.join("designs/pears-on-a-sill/record.toml")).unwrap().contains("stock = 1 "));
}

#[test]
fn compare_tells_and_draws_what_changed() {
    let (room, shop) = begun("compare");
    let drawing = fs::read_to_string(shop.join("designs/pears-on-a-sill/drawing.svg")).unwrap();
    // Without the leaf (the second figure) three lines less bound pieces.
    let figures = drawing.find("id=\"figures\"").unwrap();
    let second = figures + drawing[figures..].match_indices("<path").nth(1).unwrap().0;
    let end = second + drawing[second..].find("/>").unwrap() + 2;
    let old = room.join("old.svg");
    fs::write(&old, format!("{}{}", &drawing[..second], &drawing[end..])).unwrap();
    let picture = room.join("what.png");
    let told =
        kerfleaf(&["compare", text(&shop), "pears-on-a-sill", "--with", text(&old), "--picture", text(&picture)]);
    assert_eq!(told.code, Some(0), "{}", told.err);
    assert!(told.out.lines().any(|line| line.starts_with("novelty shapes") && line.ends_with("+1")), "{}", told.out);
    assert!(told.out.contains(" stayed as they were."), "{}", told.out);
    assert!(fs::read(&picture).unwrap().starts_with(b"\x89PNG"));
    for (name, begins) in [("what.svg", "<svg"), ("what.html", "<!doctype html>")] {
        let file = room.join(name);
        assert_eq!(
            kerfleaf(&[
                "--quiet",
                "compare",
                text(&shop),
                "pears-on-a-sill",
                "--with",
                text(&old),
                "--picture",
                text(&file)
            ])
            .err,
            ""
        );
        assert!(fs::read_to_string(&file).unwrap().starts_with(begins));
    }
    let json: Value = serde_json::from_str(
        &kerfleaf(&["compare", text(&shop), "pears-on-a-sill", "--with", text(&old), "--json"]).out,
    )
    .unwrap();
    assert_eq!(json["new"]["pieces"]["novelty_shapes"], 3);
    let same = kerfleaf(&[
        "compare",
        text(&shop),
        "pears-on-a-sill",
        "--with",
        text(&shop.join("designs/pears-on-a-sill/drawing.svg")),
    ]);
    assert!(same.out.contains("Nothing that is cut or scored has changed."), "{}", same.out);
    for (args, code) in [
        (vec!["no-such", "--with", text(&old)], 2),
        (vec!["pears-on-a-sill", "--with", "nowhere.svg"], 1),
        (vec!["pears-on-a-sill", "--with", text(&old), "--picture", "what.gif"], 2),
        (vec!["pears-on-a-sill"], 2),
    ] {
        assert_eq!(kerfleaf(&[&["compare", text(&shop)], args.as_slice()].concat()).code, Some(code), "{args:?}");
    }
}

#[test]
fn schemas_are_printed_as_json() {
    for of in ["record", "shop", "catalogue"] {
        let told = kerfleaf(&["schema", of]);
        assert_eq!((told.code, told.err.as_str()), (Some(0), ""));
        let schema: Value = serde_json::from_str(&told.out).unwrap();
        assert!(schema["$schema"].as_str().unwrap().contains("json-schema.org"), "{of}");
    }
    assert_eq!(kerfleaf(&["schema", "everything"]).code, Some(2));
}

/// Every command is there in the help, in each shell's completions and as a manual page, from one definition.
#[test]
fn every_command_says_what_it_does() {
    let help = kerfleaf(&["--help"]).out;
    for command in ["begin", "add", "measure", "inspect", "publish", "stock", "compare", "schema"] {
        assert!(help.lines().any(|line| line.trim_start().starts_with(command)), "{command} in\n{help}");
        let own = kerfleaf(&[command, "--help"]);
        assert_eq!(own.code, Some(0));
        assert!(own.out.contains("--quiet") && own.out.contains("Usage: kerfleaf"), "{}", own.out);
    }
}
