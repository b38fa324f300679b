//! Paths as they are told to people who will type them again.

use std::path::Path;

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
