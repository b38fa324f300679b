//! `print`: sheets as PDF, for the buyer and the bench.

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use kerfleaf::catalogue::cover;
use kerfleaf::figures::Measured;
use kerfleaf::publish::write_file;
use kerfleaf::sheets::{PaintingOrder, painting_guide};
use kerfleaf::shop::{Design, Paper, Shop, Status};

use super::{Outcome, check, measure};

/// Printed sheets as PDF: the painting guide that goes with a blank
///
/// Without designs, sheets of all published ones. They go into SHOP/sheets as <design>-<sheet>-<paper>.pdf, or where --to says.
#[derive(Args)]
pub struct Call {
    /// The shop's folder
    shop: PathBuf,
    /// Only these designs, by their folders' names
    slug: Vec<String>,
    /// Which sheet
    #[arg(long, value_enum)]
    sheet: Sheet,
    /// Paper to print on; all of the shop's papers where it is left out
    #[arg(long, value_enum)]
    paper: Option<PaperName>,
    /// A file for one sheet, a folder for several
    #[arg(long, value_name = "PATH")]
    to: Option<PathBuf>,
    /// One of the shop's languages; the first where it is left out
    #[arg(long, value_name = "TAG")]
    language: Option<String>,
}

#[derive(Clone, Copy, ValueEnum)]
enum Sheet {
    /// For the buyer of a blank: picture, palette, numbered drawing true to size, steps
    Painting,
}

#[derive(Clone, Copy, ValueEnum)]
enum PaperName {
    /// 210 × 297 mm
    A4,
    /// 8.5 × 11 in
    Letter,
}

impl From<PaperName> for Paper {
    fn from(name: PaperName) -> Paper {
        match name {
            PaperName::A4 => Paper::A4,
            PaperName::Letter => Paper::Letter,
        }
    }
}

pub fn run(call: &Call, quiet: bool) -> Outcome {
    let shop = match check::open(&call.shop) {
        Ok(shop) => shop,
        Err(outcome) => return outcome,
    };
    let mut entries = match check::chosen(&shop, &call.slug) {
        Ok(entries) => entries,
        Err(outcome) => return outcome,
    };
    let language = match &call.language {
        Some(tag) if !shop.settings.languages.contains(tag) => {
            eprintln!("kerfleaf: the shop has no language `{tag}`. It has: {}.", shop.settings.languages.join(", "));
            return Outcome::WrongCall;
        }
        chosen => chosen.clone().or_else(|| shop.settings.languages.first().cloned()).unwrap_or_else(|| "en".into()),
    };
    if !shop.mistakes.is_empty() {
        return Outcome::Lacking;
    }
    if call.slug.is_empty() {
        entries.retain(|e| e.status != Some(Status::Draft));
    }
    let papers = call.paper.map_or_else(|| shop.settings.paper.clone(), |p| vec![p.into()]);
    let several = entries.len() * papers.len() > 1;
    let run = Run { call, shop: &shop, language: &language, several, quiet };
    let mut outcome = Outcome::Done;
    for result in measure::measured(&entries, &shop.settings, quiet) {
        let measure::Result::Sound(design, measured) = result else {
            outcome = Outcome::Lacking;
            continue;
        };
        for &paper in &papers {
            if let Err(why) = run.painting(design, &measured, paper) {
                eprintln!("kerfleaf: {why}");
                outcome = Outcome::Lacking;
            }
        }
    }
    outcome
}

/// What is the same for every sheet of a run.
struct Run<'a> {
    call: &'a Call,
    shop: &'a Shop,
    language: &'a str,
    several: bool,
    quiet: bool,
}

impl Run<'_> {
    fn painting(&self, design: &Design, measured: &Measured, paper: Paper) -> Result<(), String> {
        let cover = cover(self.shop, design, measured);
        let order = PaintingOrder {
            design,
            measured,
            settings: &self.shop.settings,
            paper,
            language: self.language,
            cover_jpeg: cover.as_deref(),
            theme: &self.shop.theme,
        };
        let sheet = painting_guide(&order).map_err(|e| format!("the painting guide of {}: {e}", design.slug))?;
        let name = format!("{}-painting-{}.pdf", design.slug, paper.name());
        let path = match &self.call.to {
            None => self.call.shop.join("sheets").join(name),
            Some(folder) if self.several || folder.is_dir() => folder.join(name),
            Some(file) => file.clone(),
        };
        write_file(&path, &sheet.bytes).map_err(|e| e.to_string())?;
        if !self.quiet {
            eprintln!("{}", path.display());
        }
        Ok(())
    }
}
