//! `compare`: what changed between a design's drawing and an older one.

use std::path::{Path, PathBuf};

use clap::Args;
use kerfleaf::compare::{self, Comparison};
use kerfleaf::figures::{self, Measured};
use kerfleaf::pictures::marked;
use kerfleaf::publish::write_file;
use kerfleaf::shop::{Design, incoming};

use super::{Outcome, check};

/// What changed between a design's drawing and an older one: pieces, sizes, joints, weight, difficulty
///
/// The older drawing is read by the same record: its layers, board and kerf. Pieces are numbered as in `inspect`.
#[derive(Args)]
pub struct Call {
    /// The shop's folder
    shop: PathBuf,
    /// The design, by its folder's name
    slug: String,
    /// The older drawing
    #[arg(long, value_name = "OLD.svg")]
    with: PathBuf,
    /// Also a picture of what stayed, changed, came and went: .png, .svg or .html. It shows cut lines: keep it private
    #[arg(long, value_name = "FILE")]
    picture: Option<PathBuf>,
    /// The comparison as JSON on standard output
    #[arg(long)]
    json: bool,
}

#[derive(Clone, Copy)]
enum Format {
    Png,
    Svg,
    Html,
}

fn format(file: &Path) -> Option<Format> {
    match file.extension()?.to_str()?.to_ascii_lowercase().as_str() {
        "png" => Some(Format::Png),
        "svg" => Some(Format::Svg),
        "html" => Some(Format::Html),
        _ => None,
    }
}

pub fn run(call: &Call, quiet: bool) -> Outcome {
    let picture = match call.picture.as_deref().map(|file| (file, format(file))) {
        Some((file, None)) => {
            eprintln!("kerfleaf: --picture takes a file that ends in .png, .svg or .html, not `{}`.", file.display());
            return Outcome::WrongCall;
        }
        Some((file, Some(format))) => Some((file, format)),
        None => None,
    };
    let shop = match check::open(&call.shop) {
        Ok(shop) => shop,
        Err(outcome) => return outcome,
    };
    let entry = match check::chosen(&shop, std::slice::from_ref(&call.slug)) {
        Ok(entries) => entries.into_iter().next(),
        Err(outcome) => return outcome,
    };
    let Some(entry) = entry else { return Outcome::WrongCall };
    check::report(&entry.mistakes);
    let Some(design) = &entry.design else { return Outcome::Lacking };
    let older = match incoming::drawing(&call.with) {
        Ok(svg) => older(design, &call.with, svg),
        Err(mistake) => {
            check::report(&[*mistake]);
            return Outcome::Lacking;
        }
    };
    let (old, new) = (figures::measure(&older, &shop.settings), figures::measure(design, &shop.settings));
    let (old, new) = match (old, new) {
        (Ok(old), Ok(new)) => (old, new),
        (old, new) => {
            for (failed, design) in [(old.err(), &older), (new.err(), design)] {
                check::report(&failed.map(|why| why.mistake(design)).into_iter().collect::<Vec<_>>());
            }
            return Outcome::Lacking;
        }
    };
    let comparison = compare::compare(&old, &new);
    if let Some((file, format)) = picture {
        match draw(&comparison, &old, &new, format)
            .and_then(|bytes| write_file(file, &bytes).map_err(|e| e.to_string()))
        {
            Ok(()) if quiet => {}
            Ok(()) => eprintln!("{}", file.display()),
            Err(why) => {
                eprintln!("kerfleaf: {why}");
                return Outcome::Lacking;
            }
        }
    }
    if call.json {
        match serde_json::to_string_pretty(&comparison) {
            Ok(json) => super::say(&json),
            Err(e) => eprintln!("kerfleaf: the comparison does not go into JSON: {e}"),
        }
    } else {
        super::say(compare::text(&comparison).trim_end());
    }
    Outcome::Done
}

/// The design as it was with the older drawing.
fn older(design: &Design, path: &Path, svg: String) -> Design {
    let mut older = design.clone();
    older.drawing.svg = svg;
    older.drawing.file = path.display().to_string();
    older
}

fn draw(comparison: &Comparison, old: &Measured, new: &Measured, format: Format) -> Result<Vec<u8>, String> {
    let svg = compare::picture(comparison, old, new);
    match format {
        Format::Svg => Ok(svg.into_bytes()),
        Format::Html => Ok(compare::page(comparison, &svg).into_bytes()),
        Format::Png => marked::rastered(&svg).ok_or_else(|| "the picture is too large to be drawn".to_owned()),
    }
}
