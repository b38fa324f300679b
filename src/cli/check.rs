//! What every command does first: read the shop, choose designs, and tell all mistakes in one report.

use std::io::IsTerminal;
use std::path::Path;

use kerfleaf::shop::{self, Design, Entry, Mistake, Shop, ShopError};

use super::Outcome;
use super::paths::shown;

/// Reads the shop and reports the mistakes outside its designs.
///
/// `Err` where there is no shop to read.
pub fn open(root: &Path) -> Result<Shop, Outcome> {
    match shop::read(root) {
        Ok(shop) => {
            report(&shop.mistakes);
            Ok(shop)
        }
        Err(e) => Err(no_shop(root, &e)),
    }
}

/// Tells that there is no shop, and what was perhaps meant.
pub fn no_shop(root: &Path, why: &ShopError) -> Outcome {
    eprintln!("kerfleaf: {why}.");
    match why {
        ShopError::Unreadable { .. } => {}
        ShopError::NotAFolder { .. } | ShopError::NoShopToml { .. } => match shop::nearby::shop(root) {
            Some(near) => eprintln!("Did you mean {}? A shop is a folder with shop.toml in it.", shown(&near)),
            None => {
                let new = if root.exists() { root.join("my-shop") } else { root.to_owned() };
                eprintln!(
                    "Name the folder that has shop.toml in it. To make a new shop: kerfleaf begin {}",
                    shown(&new)
                );
            }
        },
    }
    Outcome::WrongCall
}

/// The entries of the given slugs in the shop's order; all of them when none is given.
///
/// `Err` where the shop has no such design.
pub fn chosen<'a>(shop: &'a Shop, slugs: &[String]) -> Result<Vec<&'a Entry>, Outcome> {
    let unknown: Vec<&String> = slugs.iter().filter(|s| !shop.entries.iter().any(|e| e.slug == **s)).collect();
    for slug in &unknown {
        let known: Vec<&str> = shop.entries.iter().map(|e| e.slug.as_str()).collect();
        eprintln!("kerfleaf: the shop has no design `{slug}`. It has: {}.", known.join(", "));
    }
    if !unknown.is_empty() {
        return Err(Outcome::WrongCall);
    }
    Ok(shop.entries.iter().filter(|e| slugs.is_empty() || slugs.contains(&e.slug)).collect())
}

/// Prints mistakes to standard error, each with its line.
pub fn report(mistakes: &[Mistake]) {
    for mistake in mistakes {
        eprintln!("{}", rendered(mistake));
    }
}

/// A mistake as this run tells it: in colours on a terminal, unless `NO_COLOR` (no-color.org) holds anything or the terminal is a dumb one.
pub fn rendered(mistake: &Mistake) -> String {
    let set = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty());
    let dumb = set("TERM").is_some_and(|term| term == "dumb");
    if std::io::stderr().is_terminal() && set("NO_COLOR").is_none() && !dumb {
        mistake.render_in_colour()
    } else {
        mistake.render()
    }
}

/// The design of an entry, or its mistakes in one line for the data.
pub fn design(entry: &Entry) -> Result<&Design, String> {
    entry.design.as_ref().ok_or_else(|| {
        let all: Vec<String> = entry.mistakes.iter().map(one_line).collect();
        all.join("; ")
    })
}

/// A mistake as `file:line:column: message`.
pub fn one_line(mistake: &Mistake) -> String {
    let at = &mistake.at;
    match at.line {
        Some(line) => format!("{}:{line}:{}: {}", at.file, at.column, mistake.message),
        None => format!("{}: {}", at.file, mistake.message),
    }
}

/// Why a sheet could not be made, with the place in the owner's files where a character cannot be printed.
#[cfg(feature = "sheets")]
pub fn sheet_mistake(root: &Path, slug: Option<&str>, why: &kerfleaf::sheets::SheetError) -> String {
    use kerfleaf::sheets::SheetError;
    if let SheetError::NoGlyph { text, character, .. } = why
        && let Some(at) = shop::locate(root, slug, text, *character)
    {
        let help = "Write it with letters of Latin, Greek, Cyrillic, Hebrew or Arabic, or put the sheets' words into another language of the shop.";
        return Mistake::new(at, why.to_string(), Some(help.into())).render();
    }
    let of = slug.map(|slug| format!("{slug}: ")).unwrap_or_default();
    format!("kerfleaf: {of}{why}")
}
