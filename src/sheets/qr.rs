//! A stock code as a QR code: ISO/IEC 18004, by the library `qrcodegen`.

use qrcodegen::{QrCode, QrCodeEcc};

/// Light modules around the code that a reader needs. ISO/IEC 18004: four.
const QUIET: i32 = 4;

/// The code as SVG, one unit to the module, quiet zone included, and how many modules it is wide; `None` for a text too long for any code.
pub fn svg(text: &str) -> Option<(Vec<u8>, u32)> {
    let code = QrCode::encode_text(text, QrCodeEcc::Medium).ok()?;
    let size = code.size() + 2 * QUIET;
    let mut path = String::new();
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            let from = x;
            while x < code.size() && code.get_module(x, y) {
                x += 1;
            }
            // One bar for each run, so that no hairline shows between modules.
            if x > from {
                path.push_str(&format!("M{} {}h{}v1h-{}z", from + QUIET, y + QUIET, x - from, x - from));
            }
            x += 1;
        }
    }
    let svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{size}\" height=\"{size}\" viewBox=\"0 0 {size} {size}\"><path fill=\"#000000\" d=\"{path}\"/></svg>"
    );
    Some((svg.into_bytes(), u32::try_from(size).ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO/IEC 18004: version 1 has 21 modules and holds 14 bytes, or 20 letters of its own set, at level M; 2,331 bytes are the most of all.
    #[test]
    fn a_short_code_has_twenty_one_modules_and_a_quiet_zone() {
        let (svg, size) = svg("FERRY-P").unwrap();
        assert_eq!(size, 21 + 8);
        assert!(svg.starts_with(b"<svg") && super::svg(&"x".repeat(2331)).is_some());
        assert_eq!(super::svg(&"x".repeat(2332)), None);
    }
}
