//! `inspect`: findings of designs for the maker, as a list, as JSON, or on a marked picture.

use std::path::{Path, PathBuf};

use clap::Args;
use kerfleaf::figures::Measured;
use kerfleaf::findings::Finding;
use kerfleaf::inspect::{self, Inspection};
use kerfleaf::pictures::{Looks, marked};
use kerfleaf::publish::write_file;
use kerfleaf::shop::{Design, Status};
use serde::Serialize;

use super::{Outcome, check, measure};

/// What to mend before cutting: every finding with its place, why it matters, and what to do
///
/// Also tells equal pieces, the narrowest waists, edge joints that slide, and the limits used. Ends with 1 if a design
/// could not be measured or a finding is a problem.
#[derive(Args)]
pub struct Call {
    /// The shop's folder
    shop: PathBuf,
    /// Only these designs, by their folders' names
    slug: Vec<String>,
    /// Everything as JSON on standard output
    #[arg(long)]
    json: bool,
    /// Also a picture of one design with its findings marked: a .png, or a .html page. It shows cut lines: keep it private
    #[arg(long, value_name = "FILE")]
    picture: Option<PathBuf>,
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
    Sound(Inspection<'a>),
    Broken { slug: &'a str, status: Option<Status>, error: &'a str },
}

#[derive(Clone, Copy)]
enum Format {
    Png,
    Html,
}

fn format(file: &Path) -> Option<Format> {
    match file.extension()?.to_str()?.to_ascii_lowercase().as_str() {
        "png" => Some(Format::Png),
        "html" => Some(Format::Html),
        _ => None,
    }
}

pub fn run(call: &Call, quiet: bool) -> Outcome {
    let picture = match call.picture.as_deref().map(|file| (file, format(file))) {
        None => None,
        Some((file, Some(format))) => Some((file, format)),
        Some((file, None)) => {
            eprintln!("kerfleaf: --picture takes a file that ends in .png or .html, not `{}`.", file.display());
            return Outcome::WrongCall;
        }
    };
    let shop = match check::open(&call.shop) {
        Ok(shop) => shop,
        Err(outcome) => return outcome,
    };
    let entries = match check::chosen(&shop, &call.slug) {
        Ok(entries) => entries,
        Err(outcome) => return outcome,
    };
    if picture.is_some() && (call.slug.is_empty() || entries.len() != 1) {
        eprintln!("kerfleaf: --picture shows one design: name one after the shop.");
        return Outcome::WrongCall;
    }
    let results = measure::measured(&entries, &shop.settings, quiet);
    let rows: Vec<Row> = entries
        .iter()
        .zip(&results)
        .map(|(entry, result)| match result {
            measure::Result::Sound(design, measured) => Row::Sound(inspect::inspect(design, measured)),
            measure::Result::Broken(error) => Row::Broken { slug: &entry.slug, status: entry.status, error },
        })
        .collect();
    let mut sound = shop.mistakes.is_empty()
        && rows.iter().all(|row| matches!(row, Row::Sound(inspection) if inspection.problems() == 0));
    if let (Some((file, format)), Some(measure::Result::Sound(design, measured))) = (picture, results.first())
        && let Some(Row::Sound(inspection)) = rows.first()
    {
        match draw(file, format, design, measured, inspection) {
            Ok(()) if quiet => {}
            Ok(()) => told(file, format, inspection),
            Err(why) => {
                eprintln!("kerfleaf: {why}");
                sound = false;
            }
        }
    }
    if call.json {
        print_json(rows)
    } else {
        print_list(&rows)
    }
    if sound { Outcome::Done } else { Outcome::Lacking }
}

fn print_json(designs: Vec<Row>) {
    let report = Report { kerfleaf: env!("CARGO_PKG_VERSION"), designs, findings: Vec::new() };
    match serde_json::to_string_pretty(&report) {
        Ok(json) => super::say(&json),
        Err(e) => eprintln!("kerfleaf: the findings do not go into JSON: {e}"),
    }
}

fn print_list(rows: &[Row]) {
    let texts: Vec<String> = rows
        .iter()
        .map(|row| match row {
            Row::Sound(inspection) => inspect::text(inspection),
            Row::Broken { slug, .. } => format!("{slug}: cannot be measured; see above\n"),
        })
        .collect();
    super::say(texts.join("\n").trim_end());
}

fn draw(
    file: &Path,
    format: Format,
    design: &Design,
    measured: &Measured,
    inspection: &Inspection,
) -> Result<(), String> {
    let looks = Looks::of(design, measured);
    let subject = looks.subject(design, measured, true);
    let bytes = match format {
        Format::Html => inspect::page(inspection, &subject).into_bytes(),
        Format::Png => marked::png(&subject, &inspection.marks()).ok_or("the picture is too large to be drawn")?,
    };
    write_file(file, &bytes).map_err(|e| e.to_string())
}

/// The file, and what is not to be seen in it.
fn told(file: &Path, format: Format, inspection: &Inspection) {
    eprintln!("{}", file.display());
    let marks = inspection.marks().len();
    let nowhere = inspection.findings.len() - marks;
    if nowhere > 0 {
        eprintln!("{nowhere} of the findings have no single place and are not marked in it.");
    }
    if matches!(format, Format::Png) && marks > marked::MOST_CUT_OUTS {
        eprintln!("It shows {} of {marks} places near; a .html page shows more.", marked::MOST_CUT_OUTS);
    }
}
