//! The files beside the records: stories, photographs, pages, theme.

use std::collections::BTreeMap;

use super::settings::Ground;
use super::{is_slug, text_of};
use crate::shop::OwnerPage;
use crate::shop::folder::{Folder, Inside, Kind, MOST_MARKDOWN};
use crate::shop::mistake::{Mistake, Place};
use crate::shop::photo::PhotoFile;

/// A Markdown file's name in parts: `care.de.md` is `care` in `de`.
fn name_and_language(file: &str) -> Option<(&str, Option<&str>)> {
    let name = file.strip_suffix(".md")?;
    Some(name.split_once('.').map_or((name, None), |(name, language)| (name, Some(language))))
}

/// The text of a Markdown file with the language it is for, `None` for the shop's first.
fn markdown(
    folder: &Folder,
    ground: &Ground,
    inside: &Inside,
    language: Option<&str>,
) -> Result<(Option<String>, String), Box<Mistake>> {
    let at = || Place::whole(&inside.path);
    let further = match language {
        None => None,
        Some(written) => match ground.further_language(written) {
            Some(further) => Some(further),
            None if !ground.languages_known => Some(written.to_owned()),
            None => {
                let message = format!("`{written}` is not a further language of the shop.");
                let help = "Add it to `languages` in shop.toml, or rename the file; the first language's file has no language in its name.";
                return Err(Box::new(Mistake::new(at(), message, Some(help.into()))));
            }
        },
    };
    let bytes =
        folder.bytes(&inside.path, MOST_MARKDOWN).map_err(|refused| Box::new(refused.mistake(at(), &inside.path)))?;
    Ok((further, text_of(bytes, &inside.path)?))
}

/// `story.md` and `story.<language>.md` of a design's folder.
pub(super) fn stories(
    folder: &Folder,
    ground: &Ground,
    within: &[Inside],
    mistakes: &mut Vec<Mistake>,
) -> (Option<String>, BTreeMap<String, String>) {
    let (mut first, mut further) = (None, BTreeMap::new());
    for inside in within {
        let Some(("story", language)) = name_and_language(&inside.name) else { continue };
        match markdown(folder, ground, inside, language) {
            Ok((None, text)) => first = Some(text),
            Ok((Some(language), text)) => drop(further.insert(language, text)),
            Err(mistake) => mistakes.push(*mistake),
        }
    }
    (first, further)
}

/// `photos/*` of a design's folder; hidden files are left alone.
pub(super) fn photos(folder: &Folder, design: &str, mistakes: &mut Vec<Mistake>) -> Vec<(String, PhotoFile)> {
    let path = format!("{design}/photos");
    let within = match folder.list(&path) {
        Ok(within) => within,
        Err(refused) => {
            mistakes.push(refused.mistake(Place::whole(&path), &path));
            return Vec::new();
        }
    };
    let mut photos = Vec::new();
    for inside in within.into_iter().filter(|inside| !inside.name.starts_with('.')) {
        let at = Place::whole(&inside.path);
        match PhotoFile::read(folder, &inside.path) {
            Err(refused) => mistakes.push(refused.mistake(at, &inside.path)),
            Ok(photo) if photo.is_none() || !inside.unicode => {
                let message = format!("{} is not a JPEG, PNG or WebP picture with a readable name.", inside.path);
                mistakes.push(Mistake::new(at, message, Some("Save it as one of these, or move it elsewhere.".into())));
            }
            Ok(photo) => photos.extend(photo.map(|photo| (inside.name, photo))),
        }
    }
    photos
}

/// `pages/*.md`.
pub(super) fn pages(folder: &Folder, ground: &Ground, mistakes: &mut Vec<Mistake>) -> Vec<OwnerPage> {
    let within = folder.list("pages").unwrap_or_else(|refused| {
        mistakes.push(refused.mistake(Place::whole("pages"), "pages"));
        Vec::new()
    });
    let mut pages = Vec::new();
    for inside in &within {
        let Some((name, language)) = name_and_language(&inside.name) else { continue };
        if inside.name.starts_with('.') || inside.kind.as_ref().is_ok_and(|kind| *kind == Kind::Folder) {
            continue;
        }
        if !is_slug(name) {
            let message = format!("`{name}` cannot be the address of a page.");
            let help = super::slug_help(name, "file");
            mistakes.push(Mistake::new(Place::whole(&inside.path), message, Some(help)));
            continue;
        }
        match markdown(folder, ground, inside, language) {
            Ok((language, markdown)) => pages.push(OwnerPage { name: name.to_owned(), language, markdown }),
            Err(mistake) => mistakes.push(*mistake),
        }
    }
    pages
}

/// `theme/**`, by path inside `theme/`; hidden files are left alone.
pub(super) fn theme(folder: &Folder, mistakes: &mut Vec<Mistake>) -> BTreeMap<String, Vec<u8>> {
    let mut theme = BTreeMap::new();
    for (path, bytes) in folder.files_below("theme") {
        let within = path.strip_prefix("theme/").unwrap_or(&path).to_owned();
        if within.split('/').any(|part| part.starts_with('.')) {
            continue;
        }
        match bytes {
            Ok(bytes) => drop(theme.insert(within, bytes)),
            Err(refused) => mistakes.push(refused.mistake(Place::whole(&path), &path)),
        }
    }
    theme
}
