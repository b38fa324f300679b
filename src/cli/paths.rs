//! Paths as they are told to people who will type them again.

use std::path::{Path, PathBuf};

/// Where a path leads, links followed as far as it is there already.
pub fn true_path(path: &Path) -> PathBuf {
    if let Ok(found) = path.canonicalize() {
        return found;
    }
    let whole = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    match (whole.parent(), whole.file_name()) {
        (Some(parent), Some(name)) => true_path(parent).join(name),
        _ => whole,
    }
}

/// The path, in single quotation marks where a shell would take it apart.
pub fn shown(path: &Path) -> String {
    quoted(&path.display().to_string())
}

/// Text as one word of a call.
pub fn quoted(text: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || "/._-+,:=@%".contains(c);
    if !text.is_empty() && text.chars().all(plain) {
        text.to_owned()
    } else {
        format!("'{}'", text.replace('\'', r"'\''"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_there_yet_lies_where_its_folder_truly_is() {
        let here = std::env::temp_dir().canonicalize().expect("a place for files");
        assert_eq!(true_path(&here.join("no-such/folder")), here.join("no-such/folder"));
        assert_eq!(true_path(&here), here);
    }

    /// POSIX, Shell Command Language, 2.2.2: nothing but a single quotation mark ends single quotation marks.
    #[test]
    fn a_path_can_be_typed_again() {
        for (path, typed) in
            [("my-shop", "my-shop"), ("my shop", "'my shop'"), ("it's", r"'it'\''s'"), ("$HOME", "'$HOME'"), ("", "''")]
        {
            assert_eq!(quoted(path), typed);
        }
    }
}
