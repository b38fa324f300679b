//! Where a text of a design stands in the owner's files: for a mistake that shows only when it is printed.

use std::path::Path;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::folder::{Folder, MOST_TEXT};
use super::mistake::Place;
use super::toml_file::TomlFile;

/// The place of the first text that holds `character` and is part of `printed` (or holds all of it), in the design's record, else in shop.toml.
/// Without a design only shop.toml is searched. `None` where neither has it.
pub fn locate(root: &Path, slug: Option<&str>, printed: &str, character: char) -> Option<Place> {
    let folder = Folder::open(root).ok()?;
    let record = slug.map(|slug| format!("designs/{slug}/record.toml"));
    record.into_iter().chain(["shop.toml".to_owned()]).find_map(|path| {
        let text = String::from_utf8(folder.bytes(&path, MOST_TEXT).ok()?).ok()?;
        let file = TomlFile::new(path, text);
        let table = file.parse();
        in_table(&file, table.get_ref(), printed, character)
    })
}

/// As printed: breaks and tabs are spaces.
fn plain(text: &str) -> String {
    let spaced: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn in_table(file: &TomlFile, table: &DeTable, printed: &str, character: char) -> Option<Place> {
    // By place in the file, so that the first line is told.
    let mut found: Vec<Place> =
        table.iter().filter_map(|(_, value)| in_value(file, value, printed, character)).collect();
    found.sort_by_key(|place| (place.line, place.column));
    found.into_iter().next()
}

fn in_value(file: &TomlFile, value: &Spanned<DeValue>, printed: &str, character: char) -> Option<Place> {
    match value.get_ref() {
        DeValue::String(text) => {
            let text = plain(text);
            let same = text.contains(character) && (printed.contains(&text) || text.contains(printed));
            same.then(|| {
                let span = value.span();
                let within = file.written(span.clone()).find(character);
                let at = within.map_or(span.clone(), |at| span.start + at..span.start + at + character.len_utf8());
                file.place(at)
            })
        }
        DeValue::Array(items) => items.iter().find_map(|item| in_value(file, item, printed, character)),
        DeValue::Table(table) => in_table(file, table, printed, character),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_found_with_its_line_and_character() {
        let dir = tempfile::tempdir().expect("a folder");
        let design = dir.path().join("designs/ferry");
        std::fs::create_dir_all(&design).expect("a folder");
        std::fs::write(dir.path().join("shop.toml"), "name = \"Köln 港\"\n").expect("a file");
        let record = "title = \"Ferry\"\n\n[[paint]]\nnumber = 1\nname = \"Mist 霧\"\n\n[in.de]\ntitle = \"Fähre\"\n";
        std::fs::write(design.join("record.toml"), record).expect("a file");
        let place = locate(dir.path(), Some("ferry"), "Mist 霧", '霧').expect("it is there");
        assert_eq!(
            (place.to_string().as_str(), place.text.as_str()),
            ("designs/ferry/record.toml:5:14", "name = \"Mist 霧\"")
        );
        let place = locate(dir.path(), Some("ferry"), "Köln 港 · Ferry", '港').expect("it is there");
        assert_eq!(place.to_string(), "shop.toml:1:14");
        assert_eq!(locate(dir.path(), Some("ferry"), "Mist", 'x'), None);
        assert_eq!(locate(dir.path(), None, "Mist 霧", '霧'), None);
    }
}
