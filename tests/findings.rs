//! Every kind of finding has a design in `tests/findings/shop` that shows it, and one that nearly does and stays silent.
//!
//! Each design folder has an `expected.toml`: the kind it is about, the findings of that kind with their place (to
//! 0.5 mm) and words of their message, and which other kinds it may not do without. Places and numbers are worked out
//! from the drawing by hand; the severity is that of the handbook's table.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use kerfleaf::figures;
use kerfleaf::findings::{Finding, Kind, Severity};
use kerfleaf::shop::{self, Design, Settings};
use serde::Deserialize;

/// Two for each of the 26 kinds.
const LEAST_CASES: usize = 52;
/// How far a finding may lie from the place meant, mm.
const NEAR_MM: f64 = 0.5;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Expected {
    kind: String,
    /// Every other kind that is found.
    also: BTreeSet<String>,
    #[serde(default)]
    finding: Vec<Meant>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Meant {
    at_mm: Option<[f64; 2]>,
    words: Vec<String>,
}

/// Severity by kind, from the table of the handbook.
fn severities() -> BTreeMap<String, Severity> {
    let rows = include_str!("../src/handbook/findings.md").lines().filter(|l| l.starts_with("| `"));
    rows.map(|row| {
        let cells: Vec<&str> = row.trim_matches('|').split(" | ").map(str::trim).collect();
        let severity = match *cells.last().unwrap() {
            "problem" => Severity::Problem,
            "note" => Severity::Note,
            other => panic!("{row}: {other}"),
        };
        (cells[0].trim_matches('`').to_owned(), severity)
    })
    .collect()
}

fn place(finding: &Finding) -> String {
    finding.at_mm.map_or("no place".to_owned(), |p| format!("{:.2}, {:.2}", p.x, p.y))
}

fn fits(finding: &Finding, meant: &Meant) -> bool {
    let near = match (finding.at_mm, meant.at_mm) {
        (None, None) => true,
        (Some(p), Some([x, y])) => (p.x - x).abs() <= NEAR_MM && (p.y - y).abs() <= NEAR_MM,
        _ => false,
    };
    near && meant.words.iter().all(|word| finding.message.contains(word.as_str()))
}

/// What is not as expected in one design.
fn wrong(design: &Design, settings: &Settings, severities: &BTreeMap<String, Severity>, folder: &Path) -> Vec<String> {
    let text = std::fs::read_to_string(folder.join("expected.toml")).unwrap();
    let expected: Expected = toml::from_str(&text).unwrap_or_else(|e| panic!("{}: {e}", design.slug));
    let found = match figures::measure(design, settings) {
        Ok(measured) => measured.findings,
        Err(why) => return vec![why.to_string()],
    };
    let mut wrong = Vec::new();
    let (about, others): (Vec<&Finding>, Vec<&Finding>) = found.iter().partition(|f| f.kind.name() == expected.kind);
    if about.len() != expected.finding.len() || !about.iter().zip(&expected.finding).all(|(f, m)| fits(f, m)) {
        let told: Vec<String> = about.iter().map(|f| format!("\n    {}: {}", place(f), f.message)).collect();
        wrong.push(format!("{} of {} are as meant or not:{}", about.len(), expected.finding.len(), told.concat()));
    }
    let others_found: BTreeSet<String> = others.iter().map(|f| f.kind.name().to_owned()).collect();
    if others_found != expected.also {
        wrong.push(format!("also {others_found:?}, not {:?}", expected.also));
    }
    for f in &found {
        if severities.get(f.kind.name()) != Some(&f.severity) {
            wrong.push(format!("{} is a {:?}", f.kind.name(), f.severity));
        }
        if f.message.is_empty() || f.mend.is_empty() || f.kind.why().is_empty() || f.message.contains("NaN") {
            wrong.push(format!("{}: words are missing", f.kind.name()));
        }
    }
    wrong
}

#[test]
fn every_kind_is_found_where_it_is_and_nowhere_else() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/findings/shop");
    let shop = shop::read(&root).unwrap();
    let severities = severities();
    assert_eq!(severities.len(), Kind::ALL.len(), "the handbook's table has every kind");
    assert!(shop.entries.len() >= LEAST_CASES, "only {} cases found", shop.entries.len());
    let mut all: Vec<String> = shop.mistakes.iter().map(|m| m.render()).collect();
    for kind in Kind::ALL {
        for slug in [kind.name().to_owned(), format!("{}-not", kind.name())] {
            if !shop.entries.iter().any(|e| e.slug == slug) {
                all.push(format!("there is no case {slug}"));
            }
        }
    }
    for entry in &shop.entries {
        let Some(design) = &entry.design else {
            all.extend(entry.mistakes.iter().map(|m| m.render()));
            continue;
        };
        let folder = root.join("designs").join(&entry.slug);
        all.extend(wrong(design, &shop.settings, &severities, &folder).iter().map(|w| format!("{}: {w}", entry.slug)));
        let svg = &design.drawing.svg;
        if !svg.contains("<title>") {
            all.push(format!("{}: the drawing does not say what it shows", entry.slug));
        }
    }
    assert!(all.is_empty(), "{}", all.join("\n"));
}
