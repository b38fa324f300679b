//! `print`: sheets as PDF, for the buyer, the bench, the box and the stall; a spare piece as SVG.

use std::collections::BTreeMap;
use std::path::PathBuf;

use clap::{Args, ValueEnum};
use kerfleaf::catalogue::{self, Card, cover};
use kerfleaf::figures::{self, Figures, Measured};
use kerfleaf::publish::write_file;
use kerfleaf::sheets::{self, Order, SHOWN_MOST, Sheet as Printed, ShopOrder, Stand, spare};
use kerfleaf::shop::{Design, Entry, Paper, Shop, Status};
use kerfleaf::units;

use super::{Outcome, check};

/// Printed sheets as PDF: painting guides, count and bench sheets, labels, packing slips, price cards, the catalogue; a lost piece as SVG
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
    /// Take one buyer's lines in, for count, bench and spare; their figures are made anew
    #[arg(long)]
    with_personal: bool,
    /// For spare: the number of the piece, as on the count sheet
    #[arg(long, value_name = "N")]
    piece: Option<usize>,
    /// For spare: move the cut out by so much, as in "0.1 mm"
    #[arg(long, value_name = "LENGTH")]
    snug: Option<String>,
    /// For spare: an older drawing, when the box has an older mark
    #[arg(long, value_name = "OLD.svg")]
    drawing: Option<PathBuf>,
    /// Labels (1, 2, 4 or 8) or price cards (2, 4, 6 or 8) on a page
    #[arg(long, value_name = "N")]
    per_page: Option<usize>,
}

#[derive(Clone, Copy, PartialEq, ValueEnum)]
enum Sheet {
    /// For the buyer of a blank: picture, palette, numbered drawing true to size, steps
    Painting,
    /// For the bench: piece map and count, for after the cut
    Count,
    /// For the bench: laser times, boards from a sheet, price floor, steps
    Bench,
    /// For the box, one label for each offer
    Label,
    /// Price cards, and a list to take stock by
    Stall,
    /// Packing slip, with what customs ask
    Slip,
    /// The whole shop on paper
    Catalogue,
    /// One lost piece, as an SVG that cuts it again
    Spare,
}

impl Sheet {
    fn name(self) -> String {
        self.to_possible_value().map(|v| v.get_name().to_owned()).unwrap_or_default()
    }
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

/// What is wrong with the options taken together, if anything.
fn wrong_call(call: &Call) -> Option<String> {
    let spare = call.sheet == Sheet::Spare;
    let only_spare =
        [("--piece", call.piece.is_some()), ("--snug", call.snug.is_some()), ("--drawing", call.drawing.is_some())];
    if let Some((option, _)) = only_spare.iter().find(|(_, given)| *given && !spare) {
        return Some(format!("{option} goes with --sheet spare."));
    }
    if spare && (call.piece.is_none() || call.slug.len() != 1) {
        return Some("--sheet spare wants one design, and --piece with the number on its count sheet.".to_owned());
    }
    if call.with_personal && !matches!(call.sheet, Sheet::Count | Sheet::Bench | Sheet::Spare) {
        return Some("--with-personal goes with the sheets count, bench and spare alone: all others are for more than one buyer.".to_owned());
    }
    if call.sheet == Sheet::Catalogue && !call.slug.is_empty() {
        return Some("The catalogue is of the whole shop: leave the designs out.".to_owned());
    }
    let may = match call.sheet {
        Sheet::Label => sheets::PER_PAGE,
        Sheet::Stall => sheets::CARDS_PER_PAGE,
        _ if call.per_page.is_some() => return Some("--per-page goes with the sheets label and stall.".to_owned()),
        _ => return None,
    };
    call.per_page.filter(|n| !may.contains(n)).map(|_| {
        let may = may.map(|n| n.to_string()).join(", ");
        format!("--per-page may be one of {may} for --sheet {}.", call.sheet.name())
    })
}

pub fn run(call: &Call, quiet: bool) -> Outcome {
    if let Some(why) = wrong_call(call) {
        eprintln!("kerfleaf: {why}");
        return Outcome::WrongCall;
    }
    let snug_mm = match call.snug.as_deref().map(units::length_mm).transpose() {
        Ok(mm) => mm.unwrap_or(0.0),
        Err(e) => {
            eprintln!("kerfleaf: --snug: {e}");
            return Outcome::WrongCall;
        }
    };
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
    let whole = matches!(call.sheet, Sheet::Stall | Sheet::Catalogue);
    let several =
        if call.sheet == Sheet::Spare { false } else { papers.len() * if whole { 1 } else { entries.len() } > 1 };
    let run = Run { call, shop: &shop, language: &language, several, quiet, snug_mm };
    match call.sheet {
        Sheet::Stall => run.stall(&entries, &papers),
        Sheet::Catalogue => run.catalogue(&entries, &papers),
        _ => run.each(&entries, &papers),
    }
}

/// What is the same for every sheet of a run.
struct Run<'a> {
    call: &'a Call,
    shop: &'a Shop,
    language: &'a str,
    several: bool,
    quiet: bool,
    snug_mm: f64,
}

impl Run<'_> {
    /// Sheets of single designs, one after the other: nothing of a design is kept once its sheets are written.
    fn each(&self, entries: &[&Entry], papers: &[Paper]) -> Outcome {
        let mut outcome = Outcome::Done;
        for entry in entries {
            let done = self.measured(entry).is_some_and(|(design, measured)| {
                if self.call.sheet == Sheet::Spare {
                    return self.told(self.spare(&design, &measured));
                }
                let pictured = matches!(self.call.sheet, Sheet::Painting | Sheet::Label);
                let cover = if pictured { cover(self.shop, &design, &measured) } else { None };
                // All of them, also after one that could not be made.
                let told =
                    papers.iter().map(|paper| self.told(self.sheet(&design, &measured, *paper, cover.as_deref())));
                told.filter(|sound| !sound).count() == 0
            });
            if !done {
                outcome = Outcome::Lacking;
            }
        }
        outcome
    }

    /// The design and its figures, in one buyer's version or from an older drawing where the call says so; `None` once standard error was told why not.
    fn measured(&self, entry: &Entry) -> Option<(Design, Measured)> {
        check::report(&entry.mistakes);
        let mut design = entry.design.clone()?;
        if let Some(path) = &self.call.drawing {
            match std::fs::read_to_string(path) {
                Ok(svg) => design.drawing.svg = svg,
                Err(e) => {
                    eprintln!("kerfleaf: {} cannot be read: {e}", path.display());
                    return None;
                }
            }
            design.drawing.file = path.display().to_string();
        }
        let of = if self.call.with_personal { figures::measure_personal } else { figures::measure };
        match of(&design, &self.shop.settings) {
            Ok(measured) => Some((design, measured)),
            Err(why) => {
                check::report(&[why.mistake(&design)]);
                None
            }
        }
    }

    fn told(&self, done: Result<(), String>) -> bool {
        if let Err(why) = &done {
            eprintln!("{why}");
        }
        done.is_ok()
    }

    fn sheet(&self, design: &Design, measured: &Measured, paper: Paper, cover: Option<&[u8]>) -> Result<(), String> {
        let order = Order {
            design,
            measured,
            settings: &self.shop.settings,
            paper,
            language: self.language,
            cover_jpeg: cover,
            theme: &self.shop.theme,
        };
        let personal = self.call.with_personal;
        let made = match self.call.sheet {
            Sheet::Count => sheets::count_sheet(&order, personal),
            Sheet::Bench => sheets::bench_sheet(&order, personal),
            Sheet::Label => sheets::label_sheet(&order, self.call.per_page.unwrap_or(4)),
            Sheet::Slip => sheets::slip_sheet(&order),
            _ => sheets::painting_guide(&order),
        };
        self.write(Some(&design.slug), &self.name(Some(&design.slug), paper), made)
    }

    fn name(&self, slug: Option<&str>, paper: Paper) -> String {
        let sheet = self.call.sheet.name();
        slug.map_or_else(
            || format!("{sheet}-{}.pdf", paper.name()),
            |slug| format!("{slug}-{sheet}-{}.pdf", paper.name()),
        )
    }

    fn stall(&self, entries: &[&Entry], papers: &[Paper]) -> Outcome {
        let mut outcome = Outcome::Done;
        let mut sound: Vec<(Design, Figures)> = Vec::new();
        for entry in entries {
            match self.measured(entry) {
                Some((design, measured)) => sound.push((design, measured.figures)),
                None => outcome = Outcome::Lacking,
            }
        }
        let stands: Vec<Stand> = sound.iter().map(|(design, figures)| Stand { design, figures }).collect();
        let one = (self.call.slug.len() == 1).then(|| self.call.slug[0].as_str());
        for paper in papers {
            let made = sheets::stall_sheet(&self.order(*paper), &stands, self.call.per_page.unwrap_or(8));
            if !self.told(self.write(one, &self.name(one, *paper), made)) {
                outcome = Outcome::Lacking;
            }
        }
        outcome
    }

    fn order(&self, paper: Paper) -> ShopOrder<'_> {
        ShopOrder { settings: &self.shop.settings, paper, language: self.language, theme: &self.shop.theme }
    }

    /// The same catalogue as in the published folder, from the same cards and pictures.
    fn catalogue(&self, entries: &[&Entry], papers: &[Paper]) -> Outcome {
        let mut outcome = Outcome::Done;
        let mut cards: Vec<Card> = Vec::new();
        let mut pictures: BTreeMap<String, Vec<u8>> = BTreeMap::new();
        let for_sale = |entry: &&Entry| entry.design.is_some() && entry.status == Some(Status::Published);
        let width = catalogue::printed_width(self.shop.entries.iter().filter(for_sale).count());
        // In the order of the catalogue, so that only what it shows is drawn.
        let mut entries = entries.to_vec();
        fn place(entry: &Entry) -> (Option<&str>, &str) {
            (entry.design.as_ref().and_then(|design| design.added.as_deref()), &entry.slug)
        }
        entries.sort_by(|a, b| catalogue::newest_first(place(a), place(b)));
        for entry in entries {
            let Some((design, measured)) = self.measured(entry) else {
                outcome = Outcome::Lacking;
                continue;
            };
            let shown = cards.len() < SHOWN_MOST;
            let main = shown.then(|| catalogue::main_picture(self.shop, &design, &measured)).flatten();
            if let Some(small) = main.and_then(|main| catalogue::printed_picture(&main, width)) {
                pictures.insert(design.slug.clone(), small);
            }
            cards.push(Card::new(&self.shop.settings, &design, &measured, Vec::new(), Vec::new()));
        }
        for paper in papers {
            let made = catalogue::printed(self.shop, &cards, &pictures, self.language, *paper);
            if !self.told(self.write(None, &self.name(None, *paper), made)) {
                outcome = Outcome::Lacking;
            }
        }
        outcome
    }

    fn spare(&self, design: &Design, measured: &Measured) -> Result<(), String> {
        let own = design.words.get(self.language).and_then(|w| w.title.as_deref());
        let wanted = spare::Spare {
            title: own.unwrap_or(&design.title),
            measured,
            number: self.call.piece.unwrap_or(0),
            snug_mm: self.snug_mm,
            language: self.language,
            personal: self.call.with_personal,
        };
        let svg = spare::spare(&wanted).map_err(|e| format!("kerfleaf: {}: {e}", design.slug))?;
        self.put(&format!("{}-spare-{}.svg", design.slug, wanted.number), svg.as_bytes())?;
        if !self.quiet {
            for line in spare::note(&wanted) {
                eprintln!("{line}");
            }
        }
        Ok(())
    }

    fn write(&self, slug: Option<&str>, name: &str, made: Result<Printed, sheets::SheetError>) -> Result<(), String> {
        let sheet = made.map_err(|e| check::sheet_mistake(&self.call.shop, slug, &e))?;
        self.put(name, &sheet.bytes)
    }

    fn put(&self, name: &str, bytes: &[u8]) -> Result<(), String> {
        let path = match &self.call.to {
            None => self.call.shop.join("sheets").join(name),
            Some(folder) if self.several || folder.is_dir() => folder.join(name),
            Some(file) => file.clone(),
        };
        write_file(&path, bytes).map_err(|e| format!("kerfleaf: {e}"))?;
        if !self.quiet {
            eprintln!("{}", path.display());
        }
        Ok(())
    }
}
