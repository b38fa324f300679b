//! `add`: a drawing becomes a draft, with what its parts are for guessed from their geometry.

use std::io::{BufRead, IsTerminal, Write};
use std::path::{Path, PathBuf};

use clap::Args;
use kerfleaf::drawing::survey::{Survey, survey};
use kerfleaf::drawing::{Layer, Selector};
use kerfleaf::findings::Severity;
use kerfleaf::propose::{Proposal, Told, names, propose};
use kerfleaf::publish::{PublishError, new_folder};
use kerfleaf::shop::draft::{Draft, GUESS, draft, usual_board};
use kerfleaf::shop::{self, NewFile, Shop, incoming, name_from, nearest};
use kerfleaf::{catalogue, figures, units};

use super::paths::{quoted, shown};
use super::{Outcome, check};

/// Takes a drawing in as a new design, as a draft
///
/// Shows what the drawing holds, proposes what is cut, scored and painted, and writes SHOP/designs/<name>/record.toml with every guess
/// marked. The drawing is copied, never moved or changed. Questions come on a terminal alone, and only where the drawing leaves doubt.
#[derive(Args)]
pub struct Call {
    /// The shop's folder
    shop: PathBuf,
    /// The drawing; its name becomes the design's name
    drawing: PathBuf,
    /// What a part of the drawing is for, as LAYER=PART. LAYER: cut, novelty, void, score, colour, marks, personal,
    /// personal_score, or none. PART: the id or label of a group, or stroke=#f00, fill=#f00, class=word
    #[arg(long = "layer", value_name = "LAYER=PART")]
    layers: Vec<String>,
    /// Another name for the design's folder, in lower-case letters, digits and hyphens
    #[arg(long, value_name = "NAME")]
    slug: Option<String>,
}

const LAYERS: [(&str, Option<Layer>); 9] = [
    ("cut", Some(Layer::Cut)),
    ("novelty", Some(Layer::Novelty)),
    ("void", Some(Layer::Void)),
    ("score", Some(Layer::Score)),
    ("colour", Some(Layer::Colour)),
    ("marks", Some(Layer::Marks)),
    ("personal", Some(Layer::Personal)),
    ("personal_score", Some(Layer::PersonalScore)),
    ("none", None),
];

fn layer_names() -> String {
    LAYERS.map(|(name, _)| name).join(", ")
}

fn told(text: &str) -> Result<Told, String> {
    let Some((key, part)) = text.split_once('=') else {
        return Err(format!("--layer takes LAYER=PART, for instance --layer cut=cuts, not `{text}`."));
    };
    let Some((_, layer)) = LAYERS.iter().find(|(name, _)| *name == key) else {
        let near = nearest(key, LAYERS.iter().map(|(name, _)| *name)).map(|near| format!(" Did you mean `{near}`?"));
        return Err(format!("`{key}` is not a layer.{} The layers are {}.", near.unwrap_or_default(), layer_names()));
    };
    let mut all = (None, None, None, None, None);
    let selector = match part.split_once('=') {
        Some((kind @ ("stroke" | "fill"), colour)) => {
            let colour = units::colour(colour).map_err(|e| format!("--layer {text}: {e}."))?;
            *(if kind == "stroke" { &mut all.3 } else { &mut all.4 }) = Some(colour);
            let (id, label, class, stroke, fill) = all;
            Selector::All { id, label, class, stroke, fill }
        }
        Some((kind @ ("id" | "label" | "class"), word)) => {
            *(match kind {
                "id" => &mut all.0,
                "label" => &mut all.1,
                _ => &mut all.2,
            }) = Some(word.to_owned());
            let (id, label, class, stroke, fill) = all;
            Selector::All { id, label, class, stroke, fill }
        }
        _ => Selector::Name(part.to_owned()),
    };
    Ok(Told { selector, layer: *layer })
}

pub fn run(call: &Call, quiet: bool) -> Outcome {
    let shop = match check::open(&call.shop) {
        Ok(shop) => shop,
        Err(outcome) => return outcome,
    };
    let said: Result<Vec<Told>, String> = call.layers.iter().map(|text| told(text)).collect();
    let said = match said {
        Ok(said) => said,
        Err(why) => return wrong_call(&why),
    };
    let stem = call.drawing.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let slug = match (&call.slug, catalogue::slug(&stem)) {
        (Some(own), _) if *own == catalogue::slug(own) => own.clone(),
        (Some(own), _) => {
            return wrong_call(&format!(
                "`{own}` cannot be the name of a design's folder. Write for instance --slug {}.",
                catalogue::slug(own)
            ));
        }
        (None, slug) if slug == "other" => "new-design".to_owned(),
        (None, slug) => slug,
    };
    if std::fs::symlink_metadata(call.shop.join("designs").join(&slug)).is_ok() {
        return taken(call, &slug);
    }
    let svg = match incoming::drawing(&call.drawing) {
        Ok(svg) => svg,
        Err(mistake) => return lacking(&check::rendered(&mistake)),
    };
    let looked = match survey(&svg) {
        Ok(looked) => looked,
        Err(error) => return lacking(&check::rendered(&incoming::mistake(&call.drawing, &svg, &error))),
    };
    for one in &said {
        if !looked.shapes.iter().any(|shape| shape.fits(&one.selector)) {
            show(&call.drawing, &looked, &propose(&looked, &[]));
            return wrong_call(&format!("nothing in the drawing is {}. It has the parts above.", one.selector));
        }
    }
    let mut said = said;
    let mut proposal = propose(&looked, &said);
    if !quiet {
        show(&call.drawing, &looked, &proposal);
        if std::io::stdin().is_terminal() && std::io::stderr().is_terminal() {
            said.extend(asked(&proposal));
            proposal = propose(&looked, &said);
        }
    }
    if !proposal.has(Layer::Cut) {
        let help = "Draw the cuts as lines; or say which part they are: --layer cut=PART.";
        return lacking(&format!("kerfleaf: nothing in {} looks like lines to cut. {help}", call.drawing.display()));
    }
    write(call, &shop, &slug, &stem, &svg, &looked, &proposal, quiet)
}

fn wrong_call(why: &str) -> Outcome {
    eprintln!("kerfleaf: {why}");
    Outcome::WrongCall
}

fn taken(call: &Call, slug: &str) -> Outcome {
    eprintln!("kerfleaf: the shop has a design {slug} already, and `add` never writes over one.");
    eprintln!(
        "Give this one another name: kerfleaf add {} {} --slug {slug}-2",
        shown(&call.shop),
        shown(&call.drawing)
    );
    Outcome::Lacking
}

fn lacking(why: &str) -> Outcome {
    eprintln!("{}", why.trim_end());
    Outcome::Lacking
}

/// The drawing's parts with counts and lengths, and what each is taken for.
fn show(path: &Path, looked: &Survey, proposal: &Proposal) {
    let size = if looked.untrue { "no size stated" } else { "its size" };
    eprintln!("{}: {:.1} × {:.1} mm ({size})\n", path.display(), looked.width_mm, looked.height_mm);
    let mut rows: Vec<[String; 5]> = vec![["part", "shapes", "length mm", "colours", "taken for"].map(str::to_owned)];
    for guess in &proposal.guesses {
        let (fills, strokes) = (guess.part.fills(looked), guess.part.strokes(looked));
        let colours =
            if fills.is_empty() || matches!(guess.layer, Some(layer) if layer.is_lines()) { strokes } else { fills };
        let colours = match colours.as_slice() {
            [] => "–".to_owned(),
            [one] => one.to_string(),
            [one, two] => format!("{one}, {two}"),
            many => format!("{} colours", many.len()),
        };
        let doubt = if guess.sure { "" } else { " (?)" };
        rows.push([
            guess.part.name.replace('`', ""),
            guess.part.shapes.len().to_string(),
            format!("{:.0}", guess.part.length_mm(looked)),
            colours,
            format!("{}{doubt}: {}", guess.layer.map_or("none", Layer::name), guess.because),
        ]);
    }
    let width = |column: usize| rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0);
    let widths: Vec<usize> = (0..4).map(width).collect();
    for row in &rows {
        let cells = row.iter().enumerate().map(|(i, text)| {
            let pad = " ".repeat(widths.get(i).map_or(0, |w| w.saturating_sub(text.chars().count())));
            if i == 1 || i == 2 { format!("{pad}{text}") } else { format!("{text}{pad}") }
        });
        eprintln!("  {}", cells.collect::<Vec<_>>().join("  ").trim_end());
    }
    for (what, count) in &looked.others {
        eprintln!("  {count} × <{what}>: no outline, left out");
    }
    eprintln!();
}

/// Answers from the terminal for what is in doubt; an empty line takes the guess.
fn asked(proposal: &Proposal) -> Vec<Told> {
    let mut answers = Vec::new();
    for guess in proposal.guesses.iter().filter(|guess| !guess.sure && !guess.told) {
        let taken = guess.layer.map_or("none", Layer::name);
        loop {
            eprint!("What is {}? [Enter for {taken}; or {}] ", guess.part.name, layer_names());
            let _ = std::io::stderr().flush();
            let mut answer = String::new();
            match std::io::stdin().lock().read_line(&mut answer) {
                Ok(0) | Err(_) => return answers,
                Ok(_) => {}
            }
            let answer = if answer.trim().is_empty() { taken } else { answer.trim() };
            match LAYERS.iter().find(|(name, _)| *name == answer) {
                Some((_, layer)) => {
                    answers.extend(guess.part.picks.iter().map(|pick| Told { selector: pick.clone(), layer: *layer }));
                    break;
                }
                None => eprintln!("Write one of these words."),
            }
        }
    }
    answers
}

#[allow(clippy::too_many_arguments)]
fn write(
    call: &Call,
    shop: &Shop,
    slug: &str,
    stem: &str,
    svg: &str,
    looked: &Survey,
    proposal: &Proposal,
    quiet: bool,
) -> Outcome {
    let (title, title_from) = match &looked.title {
        Some(title) => (title.clone(), "the drawing's title"),
        None => (name_from(stem), "the file's name"),
    };
    let mut colours = Vec::new();
    for guess in proposal.guesses.iter().filter(|g| matches!(g.layer, Some(Layer::Colour | Layer::Marks))) {
        colours.extend(guess.part.fills(looked).into_iter().filter(|c| !colours.contains(c)).collect::<Vec<_>>());
    }
    let paints: Vec<_> = names::names(&colours).into_iter().zip(colours).collect();
    let layers = proposal.layers(looked);
    let because = |layer| {
        let guesses: Vec<_> = proposal.guesses.iter().filter(|g| g.layer == Some(layer)).collect();
        let guessed = guesses.iter().find(|g| !g.told)?;
        Some(format!("{}{}", guessed.because, if guesses.iter().all(|g| g.sure) { "" } else { "; in doubt" }))
    };
    let source = call.drawing.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let record = draft(&Draft {
        title: &title,
        title_from,
        source: &source,
        board: usual_board(shop),
        layers: &layers,
        because: &because,
        paints: &paints,
        currency: &shop.settings.currency.code,
    });
    let folder = call.shop.join("designs").join(slug);
    let files = [
        NewFile { path: "record.toml".into(), bytes: record.clone().into_bytes() },
        NewFile { path: "drawing.svg".into(), bytes: svg.as_bytes().to_vec() },
    ];
    match new_folder(&folder, &files) {
        Ok(()) => {}
        Err(PublishError::There { .. }) => return taken(call, slug),
        Err(e) => return lacking(&format!("kerfleaf: {e}")),
    }
    if !quiet {
        eprintln!("Wrote {} as a draft, with a copy of the drawing.", shown(&folder.join("record.toml")));
    }
    measured(call, slug, &record, looked, proposal, quiet)
}

/// Measures what was written, by the same way as every other command, and tells what is missing for sale.
fn measured(call: &Call, slug: &str, record: &str, looked: &Survey, proposal: &Proposal, quiet: bool) -> Outcome {
    let Ok(shop) = shop::read(&call.shop) else { return Outcome::Lacking };
    let Some(entry) = shop.entries.iter().find(|entry| entry.slug == slug) else { return Outcome::Lacking };
    check::report(&entry.mistakes);
    let Some(design) = &entry.design else { return Outcome::Lacking };
    let measured = match figures::measure(design, &shop.settings) {
        Ok(measured) => measured,
        Err(why) => {
            check::report(&[why.mistake(design)]);
            return Outcome::Lacking;
        }
    };
    if quiet {
        return Outcome::Done;
    }
    let f = &measured.figures;
    let pieces = f.pieces.count;
    eprintln!(
        "It has {pieces} {}, {:.1} × {:.1} mm, about {:.0} g.\n",
        if pieces == 1 { "piece" } else { "pieces" },
        f.size.width_mm,
        f.size.height_mm,
        f.weight.board_g
    );
    let record_path = shown(&call.shop.join("designs").join(slug).join("record.toml"));
    eprintln!("Missing for sale, all in {record_path}:");
    let guesses = record.matches(GUESS).count();
    eprintln!("  - the lines with GUESS put right and their marks taken away: {guesses}");
    for guess in proposal.astray(looked) {
        eprintln!("  - {}: it cannot be picked by itself; give it a group with an id in the drawing", guess.part.name);
    }
    if design.offers.is_empty() {
        eprintln!("  - an [[offer]] with a price: one is shown at the end of the file");
    }
    eprintln!("  - status = \"published\"");
    let problems = measured.findings.iter().filter(|f| f.severity == Severity::Problem).count();
    if problems > 0 {
        let found = if problems == 1 { "1 problem".to_owned() } else { format!("{problems} problems") };
        eprintln!("  - {found} in the drawing to look at: kerfleaf inspect {} {}", shown(&call.shop), quoted(slug));
    }
    eprintln!("\nTo see it while you work on it: kerfleaf preview {}", shown(&call.shop));
    eprintln!("Then: kerfleaf publish {}", shown(&call.shop));
    Outcome::Done
}
