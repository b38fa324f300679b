//! What a maker may have meant by a path that leads nowhere: shops and drawings close by.
//!
//! In: a path as it was typed. Out: paths that can be typed in its place. Looks into the folder where the name should be, and up from it;
//! never reads a file, never looks further down. Only for messages.

use std::path::{Path, PathBuf};

use super::nearest;

/// Most names that a message has room for.
const MOST_NAMES: usize = 5;

/// The shop that was most probably meant: one that the path lies in, or one beside it, of a like name or the only one.
pub fn shop(path: &Path) -> Option<PathBuf> {
    let is_shop = |path: &Path| path.join("shop.toml").is_file();
    let around = path.ancestors().skip(1).find(|above| !above.as_os_str().is_empty() && is_shop(above));
    if let Some(around) = around {
        return Some(around.to_owned());
    }
    let mut shops = beside(path, &is_shop);
    // A name under which nothing lies may be meant for a shop in it, as in `shops` for `shops/river`.
    shops.extend(inside(path, &is_shop));
    like(path, shops).into_iter().next()
}

/// Drawings that were most probably meant: the one of a like name, else those that lie there, where they are few.
pub fn drawings(path: &Path) -> Vec<PathBuf> {
    let is_drawing =
        |path: &Path| path.is_file() && path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("svg"));
    like(path, beside(path, &is_drawing))
}

/// The one of a like name; else all, if they are few.
fn like(path: &Path, found: Vec<PathBuf>) -> Vec<PathBuf> {
    let name = |path: &Path| path.file_stem().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let wanted = name(path);
    let names: Vec<String> = found.iter().map(|path| name(path)).collect();
    match nearest(&wanted, names.iter().map(String::as_str)) {
        Some(near) => found.iter().zip(&names).filter(|(_, name)| *name == near).map(|(p, _)| p.clone()).collect(),
        None if found.len() <= MOST_NAMES => found,
        None => Vec::new(),
    }
}

fn beside(path: &Path, is_one: &dyn Fn(&Path) -> bool) -> Vec<PathBuf> {
    match path.parent() {
        Some(folder) => inside(folder, is_one),
        None => Vec::new(),
    }
}

/// What lies in a folder, by name; what cannot be looked at is left out.
fn inside(folder: &Path, is_one: &dyn Fn(&Path) -> bool) -> Vec<PathBuf> {
    let place = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    let names = std::fs::read_dir(place).into_iter().flatten().filter_map(Result::ok).map(|entry| entry.file_name());
    let mut found: Vec<PathBuf> = names.map(|name| folder.join(name)).filter(|path| is_one(path)).collect();
    found.sort();
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_leads_nowhere_is_near_another() {
        let room = tempfile::tempdir().expect("a folder");
        let at = |name: &str| room.path().join(name);
        for name in ["river-shop", "loft"] {
            std::fs::create_dir_all(at(name).join("designs")).expect("a folder");
            std::fs::write(at(name).join("shop.toml"), "").expect("written");
        }
        std::fs::create_dir(at("no-shop")).expect("a folder");
        assert_eq!(shop(&at("rivershop")), Some(at("river-shop")));
        assert_eq!(shop(&at("river-shop/designs")), Some(at("river-shop")), "inside of one");
        assert_eq!(shop(&at("loft/designs/eel")), Some(at("loft")), "inside of one, where nothing is");
        for name in ["eel ring.svg", "tern.SVG", "tern.txt"] {
            std::fs::write(at(name), "").expect("written");
        }
        assert_eq!(drawings(&at("eel-ring.svg")), [at("eel ring.svg")]);
        assert_eq!(drawings(&at("harbour.svg")), [at("eel ring.svg"), at("tern.SVG")]);
        assert_eq!(drawings(&at("no-shop/eel.svg")), [] as [PathBuf; 0]);
    }
}
