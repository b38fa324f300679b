//! The command `inspect`, called as a maker calls it.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::Value;

const SHOP: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/findings/shop");

struct Told {
    code: Option<i32>,
    out: String,
    err: String,
}

fn inspect(args: &[&str]) -> Told {
    let told = Command::new(env!("CARGO_BIN_EXE_kerfleaf"))
        .args(["inspect", SHOP])
        .args(args)
        .output()
        .expect("the program runs");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("UTF-8");
    Told { code: told.status.code(), out: text(told.stdout), err: text(told.stderr) }
}

fn json(args: &[&str]) -> Value {
    serde_json::from_str(&inspect(args).out).expect("JSON")
}

fn file(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("inspect").join(name);
    let _ = fs::remove_file(&path);
    path
}

#[test]
fn a_finding_has_its_number_place_reason_and_mend() {
    let told = inspect(&["near-miss"]);
    assert_eq!(told.code, Some(1));
    for words in [
        "near-miss: 1 finding, a problem",
        "1  near-miss (problem) at 30.0, 44.6 mm",
        "stops 0.40 mm short",
        "Why: ",
        "Do: Draw it on",
    ] {
        assert!(told.out.contains(words), "{words} in\n{}", told.out);
    }
    assert!(told.err.is_empty(), "{}", told.err);
}

#[test]
fn notes_alone_end_with_0_and_a_broken_call_with_2() {
    assert_eq!(inspect(&["too-large"]).code, Some(0));
    assert_eq!(inspect(&["no-such-design"]).code, Some(2));
    let several = file("several.png");
    let told = inspect(&["near-miss", "twins", "--picture", several.to_str().unwrap()]);
    assert_eq!((told.code, several.exists()), (Some(2), false));
    assert!(told.err.contains("one design"), "{}", told.err);
    let told = inspect(&["near-miss", "--picture", "picture.gif"]);
    assert_eq!(told.code, Some(2));
    assert!(told.err.contains(".png or .html"), "{}", told.err);
}

#[test]
fn limits_tell_who_set_them() {
    // shop.toml turns edge_holds off, the record of this design turns it on; nobody sets the others.
    let told = json(&["slides-apart", "--json"]);
    let limits = told["designs"][0]["limits"].as_array().expect("a list");
    let from = |key: &str| limits.iter().find(|l| l["key"] == key).map(|l| l["from"].as_str().unwrap().to_owned());
    assert_eq!(from("edge_holds").as_deref(), Some("record"));
    assert_eq!(from("neck").as_deref(), Some("default"));
    let told = json(&["loose-end", "--json"]);
    let limits = told["designs"][0]["limits"].as_array().expect("a list");
    let edge = limits.iter().find(|l| l["key"] == "edge_holds").expect("told");
    assert_eq!((edge["from"].as_str(), edge["value"].as_str()), (Some("shop"), Some("false")));
    assert!(limits.iter().all(|l| !l["reason"].as_str().unwrap().is_empty()));
}

#[test]
fn equal_pieces_waists_and_sliding_joints_are_data() {
    let told = json(&["--json"]);
    let design = |slug: &str| {
        let all = told["designs"].as_array().expect("a list");
        all.iter().find(|d| d["slug"] == slug).expect("every design is told").clone()
    };
    assert_eq!(design("twins")["twins"], serde_json::json!([[2, 3]]));
    assert_eq!(design("twins-not")["twins"], serde_json::json!([]));
    let waist = &design("narrow-neck")["waists"][0];
    assert_eq!((waist["piece"].as_u64(), waist["knob"].as_bool()), (Some(1), Some(true)));
    assert!((waist["width_mm"].as_f64().unwrap() - 1.7).abs() < 0.02);
    assert_eq!(design("narrow-neck-waist")["waists"][0]["knob"].as_bool(), Some(false));
    let sliding = &design("slides-apart")["sliding"][0];
    assert_eq!((sliding["pieces"].clone(), sliding["way"].as_str()), (serde_json::json!([1, 2]), Some("to the right")));
    let finding = &design("near-miss")["findings"][0];
    assert_eq!((finding["number"].as_u64(), finding["kind"].as_str()), (Some(1), Some("near-miss")));
    assert!(finding["at_mm"].is_array() && finding["why"].is_string() && finding["mend"].is_string());
}

#[test]
fn a_page_stands_alone_and_its_numbers_lead_to_the_list() {
    let page = file("loose-end.html");
    let told = inspect(&["loose-end", "--picture", page.to_str().unwrap()]);
    assert_eq!(told.code, Some(1));
    let html = fs::read_to_string(&page).expect("the page is written");
    assert!(html.contains("href=\"#f1\"") && html.contains("id=\"f1\"") && html.contains("id=\"m1\""));
    assert!(!html.contains("<script") && !html.contains("url(") && !html.contains(" src="));
    // The one address in it is the name of the SVG namespace, which nothing asks for.
    assert_eq!(html.matches("http").count(), html.matches("http://www.w3.org/2000/svg").count() + 1, "http-equiv");
}

#[test]
fn a_picture_is_the_same_bytes_each_time() {
    let bytes = |name: &str| {
        let picture = file(name);
        inspect(&["narrow-neck", "--quiet", "--picture", picture.to_str().unwrap()]);
        fs::read(picture).expect("the picture is written")
    };
    let one = bytes("one.png");
    assert!(one.starts_with(b"\x89PNG"));
    assert!(one == bytes("two.png"));
}
