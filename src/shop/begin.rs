//! The shop that a new owner begins with: every line of it explained, and one design ready to be published.
//!
//! In: a name. Out: files by their paths in the shop folder. Never here: the disk (`publish`).
//! What they say stands in `content/begin/`; the drawing is made by `demo-drawings/pears_on_a_sill.py`.

/// One file of a new folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewFile {
    /// Path inside the folder, with `/`.
    pub path: String,
    /// Content.
    pub bytes: Vec<u8>,
}

/// The design that a new shop has.
pub const FIRST_SLUG: &str = "pears-on-a-sill";

/// All files of a new shop with this name.
pub fn begin(name: &str) -> Vec<NewFile> {
    let quoted = toml_edit::Value::from(name).to_string();
    let shop = include_str!("../../content/begin/shop.toml").replace("\"{name}\"", quoted.trim());
    let file = |path: &str, text: &str| NewFile { path: path.to_owned(), bytes: text.as_bytes().to_vec() };
    let design = |name: &str| format!("designs/{FIRST_SLUG}/{name}");
    vec![
        file(".gitignore", include_str!("../../content/begin/gitignore")),
        file("shop.toml", &shop),
        file("pages/about.md", include_str!("../../content/begin/pages/about.md")),
        file(&design("record.toml"), include_str!("../../content/begin/designs/pears-on-a-sill/record.toml")),
        file(&design("drawing.svg"), include_str!("../../content/begin/designs/pears-on-a-sill/drawing.svg")),
    ]
}

/// A name for people from the name of a folder or file: `my-shop` is `My shop`.
pub fn name_from(file_name: &str) -> String {
    let words: Vec<&str> = file_name.split(|c: char| c == '-' || c == '_' || c.is_whitespace()).collect();
    let text = words.into_iter().filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ");
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => "Untitled".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn any_name_of_a_folder_makes_a_sound_shop() {
        for name in ["My shop", "a \"quoted\" name", "back\\slash", "Fähre", "#1", "line\nbreak"] {
            let root = tempfile::tempdir().unwrap();
            for file in begin(name) {
                let path = root.path().join(&file.path);
                std::fs::create_dir_all(path.parent().unwrap()).unwrap();
                std::fs::write(path, file.bytes).unwrap();
            }
            let shop = crate::shop::read(root.path()).unwrap();
            assert_eq!(shop.mistakes, [], "{name}");
            assert_eq!(shop.settings.name, name);
            let design = shop.entries[0].design.as_ref().unwrap();
            assert_eq!((design.slug.as_str(), design.offers.len(), design.paints.len()), (FIRST_SLUG, 2, 14));
        }
    }

    /// What is shown with a `#` before it must be right as well, once the `#` is taken away.
    #[test]
    fn lines_left_out_are_sound_when_they_are_taken_in() {
        let root = tempfile::tempdir().unwrap();
        let text = String::from_utf8(begin("Osk").remove(1).bytes).unwrap();
        let is_key = |line: &str| {
            line.split_once('=').is_some_and(|(key, _)| key.trim().bytes().all(|b| b.is_ascii_lowercase() || b == b'_'))
        };
        let mut taken = 0;
        let lines = text.lines().map(|line| match line.strip_prefix("# ") {
            Some(rest) if is_key(rest) || rest.starts_with('[') => {
                taken += 1;
                format!("{rest}\n")
            }
            _ => format!("{line}\n"),
        });
        std::fs::write(root.path().join("shop.toml"), lines.collect::<String>()).unwrap();
        let shop = crate::shop::read(root.path()).unwrap();
        assert_eq!(shop.mistakes, []);
        assert!(taken >= 8, "{taken}");
        assert!(shop.settings.maker.is_some() && shop.settings.web_address.is_some());
    }

    #[test]
    fn names_are_made_from_names_of_folders() {
        for (folder, name) in
            [("my-shop", "My shop"), ("ähren_feld", "Ähren feld"), ("--", "Untitled"), ("Osk  2", "Osk 2")]
        {
            assert_eq!(name_from(folder), name);
        }
    }
}
