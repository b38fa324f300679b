//! Every folder of `tests/records` is a shop that an owner could have written; its `expected.txt` is the whole report.

use std::fs;
use std::path::{Path, PathBuf};

use kerfleaf::shop::{self, Entry};

/// Fewer cases than this means that the folder was not found whole.
const LEAST_CASES: usize = 9;

fn cases() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/records");
    let mut cases: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    cases.sort();
    cases
}

/// What each design became, then every mistake.
fn report(case: &Path) -> String {
    let shop = shop::read(case).unwrap();
    let line = |entry: &Entry| {
        let status = entry.status.map_or("no status".to_owned(), |status| format!("{status:?}").to_lowercase());
        let outcome = if entry.design.is_some() { "sound" } else { "not to be measured" };
        format!("{} ({status}): {outcome}, {} mistakes\n", entry.slug, entry.mistakes.len())
    };
    let outcomes: String = shop.entries.iter().map(line).collect();
    let mistakes = shop.mistakes.iter().chain(shop.entries.iter().flat_map(|entry| &entry.mistakes));
    format!("shop: {} mistakes\n{outcomes}\n{}", shop.mistakes.len(), shop::render_all(mistakes))
}

#[test]
fn every_case_gives_its_expected_report() {
    let cases = cases();
    assert!(cases.len() >= LEAST_CASES, "only {} cases found", cases.len());
    let wrong: Vec<String> = cases
        .iter()
        .filter_map(|case| {
            let expected = fs::read_to_string(case.join("expected.txt")).unwrap_or_default();
            let found = report(case);
            (found != expected).then(|| format!("=== {}\n{found}", case.display()))
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
