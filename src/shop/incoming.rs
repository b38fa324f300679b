//! A drawing from outside of the shop, about to be taken in or compared.

use std::path::Path;

use super::mistake::{Mistake, Place};
use super::nearby;
use super::read::text_of;
use crate::drawing::DrawingError;

/// Longer files are no drawings of a puzzle.
const MOST_BYTES: u64 = 512 << 20;

/// The text of an SVG file; mistakes name it as the maker did.
///
/// # Errors
/// No such file, no plain file, or no text.
pub fn drawing(path: &Path) -> Result<String, Box<Mistake>> {
    let name = path.display().to_string();
    let wrong =
        |message: String, help: &str| Box::new(Mistake::new(Place::whole(&name), message, Some(help.to_owned())));
    let unreadable = |error: std::io::Error| match error.kind() {
        std::io::ErrorKind::NotFound => {
            let near = nearby::drawings(path);
            let help = match near.as_slice() {
                [] => "Look at the name, or name the drawing with the folder it lies in.".to_owned(),
                [one] => format!("Did you mean {}?", one.display()),
                many => {
                    let names: Vec<String> = many.iter().map(|path| path.display().to_string()).collect();
                    format!("Drawings there: {}.", names.join(", "))
                }
            };
            wrong(format!("There is no file {name}."), &help)
        }
        _ => wrong(format!("{name} cannot be read: {error}."), "Name an SVG file."),
    };
    let about = std::fs::metadata(path).map_err(unreadable)?;
    if !about.is_file() || about.len() > MOST_BYTES {
        return Err(wrong(format!("{name} is not a plain file of a drawing's size."), "Name an SVG file."));
    }
    let bytes = std::fs::read(path).map_err(unreadable)?;
    // RFC 1952, 2.3.1.
    if bytes.starts_with(&[0x1f, 0x8b]) {
        return Err(wrong(format!("{name} is compressed."), "Save it as plain SVG."));
    }
    // An SVG is XML, and XML begins with `<`; a byte order mark and white space may stand before it.
    let first = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(&bytes).iter().find(|b| !b.is_ascii_whitespace());
    let utf16 = bytes.starts_with(b"\xff\xfe") || bytes.starts_with(b"\xfe\xff");
    if first.is_none_or(|first| *first != b'<') && !utf16 {
        return Err(wrong(format!("{name} is no SVG."), "Save or export the drawing as SVG."));
    }
    text_of(bytes, &name)
}

/// A drawing's error as a mistake in that file.
pub fn mistake(path: &Path, svg: &str, error: &DrawingError) -> Mistake {
    let file = path.display().to_string();
    let at = match error.line_column() {
        None => Place::whole(file),
        Some((line, column)) => {
            let text = svg.lines().nth(line.saturating_sub(1)).unwrap_or_default().to_owned();
            Place { file, line: Some(line), column, width: 1, text }
        }
    };
    Mistake::new(
        at,
        error.to_string(),
        Some("Mend it in the drawing and save it again; a drawing is read whole or not at all.".into()),
    )
}
