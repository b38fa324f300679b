//! A small shop in a folder of its own, for tests that call the program as an owner does.
#![allow(dead_code, reason = "every test file takes what it needs of it")]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// A board of 120 × 80 mm: 6 × 4 pieces by straight cuts, a round figure in one of them, a square opening in another, score lines, four colours, one buyer's line.
pub const DRAWING: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="120mm" height="80mm" viewBox="0 0 120 80">
<g id="colours" stroke="none"><rect width="120" height="80" fill="#dde7ee"/><rect y="40" width="120" height="40" fill="#5b86a3"/><circle cx="30" cy="20" r="12" fill="#f4d58a"/><rect x="70" y="45" width="30" height="20" fill="#8b5a46"/></g>
<g id="cuts" fill="none" stroke="#000"><path d="M0 20H120"/><path d="M0 40H120"/><path d="M0 60H120"/><path d="M20 0V80"/><path d="M40 0V80"/><path d="M60 0V80"/><path d="M80 0V80"/><path d="M100 0V80"/><rect width="120" height="80"/></g>
<g id="figures" fill="none" stroke="#333"><circle cx="50" cy="30" r="5"/></g>
<g id="holes" fill="none" stroke="#555"><rect x="105" y="65" width="8" height="8"/></g>
<g id="score" fill="none" stroke="#777"><path d="M0 40H120"/><path d="M45 5L55 15"/></g>
<g id="gift" fill="none" stroke="#999"><path d="M10 0V20"/></g>
</svg>"##;

/// shop.toml with every rate of the workshop.
pub const SHOP: &str = r#"name = "Saltmarsh Fretworks"
currency = "EUR"
order = "mailto:bench@example.org"
languages = ["en"]
markets = ["eu", "uk", "us"]
[maker]
name = "Saltmarsh Fretworks"
address = "4 Sluice Lane, Saltmarsh"
email = "bench@example.org"
[[pack]]
name = "tin"
inner = ["130 mm", "90 mm", "20 mm"]
outer = ["136 mm", "96 mm", "24 mm"]
weight = "80 g"
price = "1.65"
[workshop]
cut_speed = "10 mm/s"
score_speed = "50 mm/s"
travel_speed = "200 mm/s"
sheet = ["300 mm", "200 mm"]
sheet_margin = "5 mm"
sheet_price = "6.00"
waste_percent = 10
hourly_rate = "24.00"
painting_minutes_per_100_cm2 = 15
handling_minutes = 20
extras_price = "1.50"
fees_percent = 4
"#;

/// The record of a design on [`DRAWING`]; `more` goes in front of its tables.
pub fn record(title: &str, more: &str) -> String {
    format!(
        r##"title = "{title}"
status = "published"
added = 2026-03-14
{more}
[board]
wood = "birch-plywood"
thickness = "4 mm"
kerf = "0.2 mm"
density = "650 kg/m3"
[drawing.layers]
cut = "cuts"
novelty = "figures"
void = "holes"
score = "score"
colour = "colours"
personal = "gift"
[[paint]]
number = 1
name = "Mist"
colour = "#dde7ee"
[[paint]]
number = 2
name = "Evening blue"
colour = "#5b86a3"
[[paint]]
number = 3
name = "Moon"
colour = "#f4d58a"
[[paint]]
number = 4
name = "Brick"
colour = "#8b5a46"
[[offer]]
form = "painted"
price = "60.00"
stock = 2
code = "LOW-P/7"
pack = "tin"
extras = "20 g"
[[offer]]
form = "blank"
price = "30.00"
stock = 0
board = "scored"
primed = true
contains = ["4 half pans"]
"##
    )
}

/// A fresh folder with shop.toml and the designs given as slug, record, drawing.
pub fn shop(name: &str, designs: &[(&str, &str, &str)]) -> PathBuf {
    let root = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&root);
    write(&root, "shop.toml", SHOP);
    for (slug, record, drawing) in designs {
        write(&root, &format!("designs/{slug}/record.toml"), record);
        write(&root, &format!("designs/{slug}/drawing.svg"), drawing);
    }
    root
}

/// A fresh shop with the one design `low-water`.
pub fn plain(name: &str) -> PathBuf {
    shop(name, &[("low-water", &record("Low water", ""), DRAWING)])
}

pub fn write(root: &Path, path: &str, text: &str) {
    let path = root.join(path);
    fs::create_dir_all(path.parent().expect("inside the shop")).expect("a folder can be made");
    fs::write(path, text).expect("a file can be written");
}

/// Calls the program; its status and all it said.
pub fn call(arguments: &[&str]) -> (Option<i32>, String) {
    let run = Command::new(env!("CARGO_BIN_EXE_kerfleaf")).args(arguments).output();
    let Output { status, stdout, stderr } = run.expect("the program runs");
    (status.code(), String::from_utf8_lossy(&stdout).into_owned() + &String::from_utf8_lossy(&stderr))
}

/// Prints a sheet on A4 and gives its path.
pub fn printed(root: &Path, sheet: &str, more: &[&str]) -> PathBuf {
    let to = root.join(format!("{sheet}{}.pdf", more.join("").replace('/', "")));
    let root = root.to_str().expect("a plain path");
    let mut arguments = vec!["print", root];
    if !matches!(sheet, "stall" | "catalogue") {
        arguments.push("low-water");
    }
    arguments.extend(["--sheet", sheet, "--paper", "a4", "--to", to.to_str().expect("a plain path")]);
    arguments.extend(more);
    let (code, told) = call(&arguments);
    assert_eq!(code, Some(0), "{arguments:?}: {told}");
    to
}
