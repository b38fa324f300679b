//! Reads the whole shop folder: shop.toml, every record with its files, pages and theme.

mod files;
mod layers;
mod offers;
pub(super) mod record;
pub(super) mod settings;
#[cfg(test)]
mod tests;
mod words;

use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::path::{Path, PathBuf};

use rayon::prelude::*;

use super::folder::{Folder, Inside, Kind, MOST_TEXT, Refused};
use super::mistake::{Mistake, Place};
use super::names::is_device;
use super::stamp::Sight;
use super::toml_file::TomlFile;
use super::{Entry, Shop};

/// Why there is no shop to read; the call was wrong, not a record.
#[derive(Debug, thiserror::Error)]
pub enum ShopError {
    /// Nothing there, or a file.
    #[error("there is no folder {}", .path.display())]
    NotAFolder {
        /// As called.
        path: PathBuf,
    },
    /// A folder without shop.toml.
    #[error("{} is not a shop: it holds no shop.toml", .path.display())]
    NoShopToml {
        /// As called.
        path: PathBuf,
    },
    /// The folder or its shop.toml cannot be read, or is a link that leads out of the folder.
    #[error("{} cannot be read: {reason}", .path.display())]
    Unreadable {
        /// What cannot be read.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
}

/// Reads a shop folder, all mistakes of all its records at once.
///
/// Mistakes in shop.toml stand in [`Shop::mistakes`]; the settings then hold what could be read, and stand-ins
/// elsewhere. Mistakes of a design stand in its [`Entry`], whose design is then `None`.
///
/// # Errors
/// `root` is no folder, or holds no readable shop.toml.
pub fn read(root: &Path) -> Result<Shop, ShopError> {
    read_but(root, &BTreeMap::new()).map(|reading| reading.shop)
}

/// A shop as far as it was read.
#[derive(Debug)]
pub struct Reading {
    /// Without entries for the designs that were left unread.
    pub shop: Shop,
    /// Every path inside the folder that was looked at, once, in order, with what was there. As long as each of them looks the same,
    /// another reading gives the same shop.
    pub seen: Vec<(String, Sight)>,
    /// Slugs of the designs that are there and were left unread.
    pub unread: BTreeSet<String>,
}

/// A design that need not be read, since its folder is known to be as it was.
#[derive(Clone, Debug)]
pub struct Unread {
    /// Stock codes of its offers: no other design may have them.
    pub codes: Vec<String>,
    /// What was seen when it was read.
    pub seen: Vec<(String, Sight)>,
}

/// Reads a shop folder but for some of its designs, by slug. All are read where a code of one is used by another as well.
///
/// # Errors
/// As for [`read`].
pub fn read_but(root: &Path, unread: &BTreeMap<String, Unread>) -> Result<Reading, ShopError> {
    let unreadable = |path: PathBuf, error: io::Error| ShopError::Unreadable { path, reason: error.to_string() };
    if !root.is_dir() {
        return Err(ShopError::NotAFolder { path: root.to_owned() });
    }
    let folder = Folder::open(root).map_err(|error| unreadable(root.to_owned(), error))?;
    let shop_toml = folder.bytes("shop.toml", MOST_TEXT).map_err(|refused| match refused {
        Refused::Absent | Refused::NotAFile | Refused::NotAFolder => ShopError::NoShopToml { path: root.to_owned() },
        Refused::LeadsOut => ShopError::Unreadable {
            path: root.join("shop.toml"),
            reason: "it is a link that leads out of the shop folder".into(),
        },
        refused @ Refused::TooLarge(_) => ShopError::Unreadable {
            path: root.join("shop.toml"),
            reason: refused.mistake(Place::whole("shop.toml"), "shop.toml").message,
        },
        Refused::Unreadable(error) => unreadable(root.join("shop.toml"), error),
    })?;

    let mut mistakes = Vec::new();
    let text = text_of(shop_toml, "shop.toml").unwrap_or_else(|mistake| {
        mistakes.push(*mistake);
        String::new()
    });
    // A file that is no text at all has one mistake, not one for each key that is then missing.
    let no_text = !mistakes.is_empty();
    let ground = settings::read(&folder, TomlFile::new("shop.toml", text));
    if !no_text {
        mistakes.extend(ground.mistakes.iter().cloned());
    }

    let within = folder.list("designs").unwrap_or_else(|refused| {
        mistakes.push(refused.mistake(Place::whole("designs"), "designs"));
        Vec::new()
    });
    let (rest, left): (Vec<&Inside>, Vec<&Inside>) = within
        .iter()
        .partition(|inside| !unread.contains_key(&inside.name) || !matches!(inside.kind, Ok(Kind::Folder)));
    let read = designs(&folder, &ground, &rest);
    let left: BTreeMap<&String, &Unread> =
        left.iter().filter_map(|inside| unread.get_key_value(&inside.name)).collect();
    let theirs: BTreeSet<&String> = left.values().flat_map(|unread| &unread.codes).collect();
    let shared = read.iter().any(|(_, codes)| codes.iter().any(|(code, _)| theirs.contains(code)));
    let (read, left) = if shared {
        (designs(&folder, &ground, &within.iter().collect::<Vec<_>>()), BTreeMap::new())
    } else {
        (read, left)
    };
    let entries = entries(read);
    let pages = files::pages(&folder, &ground, &mut mistakes);
    let theme = files::theme(&folder, &mut mistakes);
    let seen = folder.into_seen(left.values().flat_map(|unread| unread.seen.iter().cloned()));
    let unread = left.into_keys().cloned().collect();
    Ok(Reading { shop: Shop { settings: ground.settings, entries, pages, theme, mistakes }, seen, unread })
}

/// A folder under `designs/` as read, with the codes of its offers.
type Read = (Entry, Vec<(String, Place)>);

/// Folders under `designs/`, in their order.
fn designs(folder: &Folder, ground: &settings::Ground, within: &[&Inside]) -> Vec<Read> {
    let one = |inside: &&Inside| match &inside.kind {
        Ok(Kind::File) => None,
        Ok(Kind::Folder) => Some(record::read(folder, ground, inside)),
        Err(refused) => {
            let mistakes = vec![refused.mistake(Place::whole(&inside.path), &inside.path)];
            let slug = inside.name.clone();
            Some((Entry { slug, status: None, design: None, mistakes, no_record: false }, Vec::new()))
        }
    };
    within.par_iter().filter_map(one).collect()
}

/// All entries; a code that two offers share is a mistake of the later one.
fn entries(read: Vec<Read>) -> Vec<Entry> {
    let mut entries = Vec::new();
    let mut codes: BTreeMap<String, Place> = BTreeMap::new();
    for (mut entry, own_codes) in read {
        for (code, at) in own_codes {
            if let Some(first) = codes.get(&code) {
                let message = format!("The code `{code}` is taken already, at {first}.");
                let help = "Give one of the two offers another `code`; without one it is <slug>-<form>.";
                entry.mistakes.push(Mistake::new(at, message, Some(help.into())));
                entry.design = None;
            } else {
                codes.insert(code, at);
            }
        }
        entries.push(entry);
    }
    entries
}

/// Text from bytes; a mistake where they are no UTF-8.
pub(super) fn text_of(bytes: Vec<u8>, path: &str) -> Result<String, Box<Mistake>> {
    String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        let line = error.as_bytes().iter().take(at).filter(|b| **b == b'\n').count() + 1;
        let message = format!("{path} is not UTF-8 text: line {line} holds other bytes.");
        Box::new(Mistake::new(Place::whole(path), message, Some("Save the file with the encoding UTF-8.".into())))
    })
}

/// Whether every part of a path goes down, so that it stays in the folder it starts from.
fn goes_down(path: &str) -> bool {
    let mut parts = Path::new(path).components().peekable();
    parts.peek().is_some() && parts.all(|part| matches!(part, std::path::Component::Normal(_)))
}

/// What to do about a name that is no slug.
fn slug_help(name: &str, what: &str) -> String {
    if is_device(name) {
        return format!("Some systems keep this name for a device; give the {what} another.");
    }
    format!(
        "Name the {what} in lower-case ASCII letters, digits and hyphens{}.",
        if name.len() > 100 { ", at most 100" } else { "" }
    )
}

/// Whether a name can be part of an address: lower-case ASCII letters, digits and hyphens, and no device of some system.
fn is_slug(name: &str) -> bool {
    (1..=100).contains(&name.len())
        && !is_device(name)
        && name.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-')
}
