//! `measure`: the figures of designs, as a table for people or as JSON.

use std::path::PathBuf;

use clap::Args;
use kerfleaf::figures::{self, Measured};
use kerfleaf::findings::{Finding, Severity};
use kerfleaf::shop::{Design, Entry, Settings};
use rayon::prelude::*;
use serde::Serialize;

use super::progress::Progress;
use super::{Outcome, check};

/// Figures of the designs: pieces, edge, sizes, difficulty, weight, paint
///
/// Prints a table, or everything with --json. Designs with mistakes are named on standard error; all others are still
/// measured. Ends with 1 if a design could not be measured or a finding is a problem.
#[derive(Args)]
pub struct Call {
    /// The shop's folder
    shop: PathBuf,
    /// Only these designs, by their folders' names
    slug: Vec<String>,
    /// All figures and findings as JSON on standard output
    #[arg(long)]
    json: bool,
}

#[derive(Serialize)]
struct Report<'a> {
    kerfleaf: &'static str,
    designs: Vec<Row<'a>>,
    findings: Vec<Finding>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Row<'a> {
    Sound {
        #[serde(flatten)]
        figures: &'a figures::Figures,
        findings: &'a [Finding],
    },
    Broken {
        slug: &'a str,
        status: Option<kerfleaf::shop::Status>,
        error: &'a str,
    },
}

/// A design measured, or why it could not be.
pub enum Result<'a> {
    /// With its figures.
    Sound(&'a Design, Box<Measured>),
    /// With one line for the data; standard error has been told in full.
    Broken(String),
}

/// Measures entries on all cores and tells mistakes on standard error, in the shop's order.
pub fn measured<'a>(entries: &[&'a Entry], settings: &Settings, quiet: bool) -> Vec<Result<'a>> {
    let progress = Progress::new("measuring", entries.len(), quiet);
    let results: Vec<_> = entries
        .par_iter()
        .map(|entry| {
            let result = check::design(entry).map(|design| (design, figures::measure(design, settings)));
            progress.step();
            result
        })
        .collect();
    drop(progress);
    entries
        .iter()
        .zip(results)
        .map(|(entry, result)| {
            check::report(&entry.mistakes);
            match result {
                Ok((design, Ok(measured))) => Result::Sound(design, Box::new(measured)),
                Ok((design, Err(why))) => {
                    let mistake = why.mistake(design);
                    check::report(std::slice::from_ref(&mistake));
                    Result::Broken(check::one_line(&mistake))
                }
                Err(mistakes) => Result::Broken(mistakes),
            }
        })
        .collect()
}

/// Whether any of the findings is a problem.
pub fn problems(findings: &[Finding]) -> bool {
    findings.iter().any(|f| f.severity == Severity::Problem)
}

pub fn run(call: &Call, quiet: bool) -> Outcome {
    let shop = match check::open(&call.shop) {
        Ok(shop) => shop,
        Err(outcome) => return outcome,
    };
    let entries = match check::chosen(&shop, &call.slug) {
        Ok(entries) => entries,
        Err(outcome) => return outcome,
    };
    let results = measured(&entries, &shop.settings, quiet);
    if call.json {
        print_json(&entries, &results);
    } else {
        print_table(&entries, &results, quiet);
    }
    let sound = results.iter().all(|r| matches!(r, Result::Sound(_, m) if !problems(&m.findings)));
    if sound && shop.mistakes.is_empty() { Outcome::Done } else { Outcome::Lacking }
}

fn print_json(entries: &[&Entry], results: &[Result]) {
    let designs = entries
        .iter()
        .zip(results)
        .map(|(entry, result)| match result {
            Result::Sound(_, m) => Row::Sound { figures: &m.figures, findings: &m.findings },
            Result::Broken(error) => Row::Broken { slug: &entry.slug, status: entry.status, error },
        })
        .collect();
    let report = Report { kerfleaf: env!("CARGO_PKG_VERSION"), designs, findings: Vec::new() };
    match serde_json::to_string_pretty(&report) {
        Ok(json) => super::say(&json),
        Err(e) => eprintln!("kerfleaf: the figures do not go into JSON: {e}"),
    }
}

fn print_table(entries: &[&Entry], results: &[Result], quiet: bool) {
    let head = [
        "design",
        "pieces",
        "edge",
        "hold",
        "novelty",
        "size mm",
        "smallest",
        "median",
        "largest mm²",
        "board g",
        "difficulty",
        "cells",
    ];
    let mut rows: Vec<Vec<String>> = vec![head.map(String::from).to_vec()];
    for (entry, result) in entries.iter().zip(results) {
        rows.push(match result {
            Result::Sound(_, m) => row(&m.figures),
            Result::Broken(_) => vec![entry.slug.clone(), "cannot be measured; see above".into()],
        });
    }
    super::say(&aligned(&rows));
    if quiet {
        return;
    }
    for (entry, result) in entries.iter().zip(results) {
        if let Result::Sound(_, m) = result {
            let told: Vec<String> = summary(&m.findings);
            if !told.is_empty() {
                eprintln!("{}: {}", entry.slug, told.join(", "));
            }
        }
    }
}

/// How many findings of which kind, problems first, for instance `2 loose-end (problem), 1 small-part`.
pub fn summary(findings: &[Finding]) -> Vec<String> {
    let mut counts: Vec<(Severity, &str, usize)> = Vec::new();
    for f in findings {
        match counts.iter_mut().find(|c| c.1 == f.kind.name()) {
            Some(c) => c.2 += 1,
            None => counts.push((f.severity, f.kind.name(), 1)),
        }
    }
    counts.sort_by_key(|c| (c.0 == Severity::Note, c.1));
    let problem = |s: Severity| if s == Severity::Problem { " (problem)" } else { "" };
    counts.into_iter().map(|(s, kind, n)| format!("{n} {kind}{}", problem(s))).collect()
}

fn row(f: &figures::Figures) -> Vec<String> {
    let p = &f.pieces;
    vec![
        f.slug.clone(),
        p.count.to_string(),
        p.edge.to_string(),
        format!("{}/{}", f.joints.edge_hold, f.joints.edge),
        p.novelty_shapes.to_string(),
        format!("{:.1} × {:.1} × {:.1}", f.size.width_mm, f.size.height_mm, f.size.thickness_mm),
        format!("{:.0}", p.smallest_mm2),
        format!("{:.0}", p.median_mm2),
        format!("{:.0}", p.largest_mm2),
        format!("{:.0}", f.weight.board_g),
        format!("{:.0} {}", f.difficulty.score, f.difficulty.word.name()),
        f.paint.as_ref().map_or("–".into(), |p| p.cells.to_string()),
    ]
}

fn aligned(rows: &[Vec<String>]) -> String {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let full = |r: &&Vec<String>| r.len() == columns;
    let width = |c: usize| rows.iter().filter(full).map(|r| r[c].chars().count()).max().unwrap_or(0);
    let slugs = rows.iter().map(|r| r[0].chars().count()).max().unwrap_or(0);
    let widths: Vec<usize> = (0..columns).map(|c| if c == 0 { slugs } else { width(c) }).collect();
    let cell = |(c, text): (usize, &String)| {
        let pad = " ".repeat(widths[c].saturating_sub(text.chars().count()));
        // Names stand left, numbers right.
        if c == 0 { format!("{text}{pad}") } else { format!("{pad}{text}") }
    };
    let line = |r: &Vec<String>| r.iter().enumerate().map(cell).collect::<Vec<_>>().join("  ").trim_end().to_string();
    rows.iter().map(line).collect::<Vec<_>>().join("\n")
}
