//! The owner's logo as a small PNG: drawn anew, so that nothing of the file but its picture is published.
//!
//! In: SVG, PNG, JPEG or WebP as bytes. Out: PNG bytes and their size. A logo that cannot be read is left out.
//! Never here: files; an SVG cannot make the program read one. Rule: handbook, "Privacy".

use std::io::Cursor;

use resvg::{tiny_skia, usvg};

use crate::drawing::{DrawingError, Layers, contents};

/// Height of the picture, pixels: twice what pages show, for dense screens.
const HEIGHT: u32 = 96;
/// Widest picture, pixels.
const WIDEST: u32 = 960;

/// The logo as PNG with its width and height in pixels; `None` where it is no picture that can be read.
pub fn png(file: &str, bytes: &[u8]) -> Option<(Vec<u8>, u32, u32)> {
    if file.to_ascii_lowercase().ends_with(".svg") {
        return drawn(std::str::from_utf8(bytes).ok()?);
    }
    let picture = image::load_from_memory(bytes).ok()?;
    let small = if picture.height() > HEIGHT || picture.width() > WIDEST {
        picture.resize(WIDEST, HEIGHT, image::imageops::FilterType::Lanczos3)
    } else {
        picture
    };
    let mut out = Cursor::new(Vec::new());
    small.to_rgba8().write_to(&mut out, image::ImageFormat::Png).ok()?;
    Some((out.into_inner(), small.width(), small.height()))
}

fn drawn(svg: &str) -> Option<(Vec<u8>, u32, u32)> {
    // One that unfolds without end by its `use` elements would never be drawn.
    if let Err(DrawingError::TooMuch { .. } | DrawingError::UseLoop { .. }) = contents(svg, &Layers::default()) {
        return None;
    }
    let mut options = usvg::Options::default();
    options.image_href_resolver.resolve_string = Box::new(|_, _| None);
    let tree = usvg::Tree::from_str(svg, &options).ok()?;
    let (width, height) = (tree.size().width(), tree.size().height());
    let scale = (HEIGHT as f32 / height).min(WIDEST as f32 / width);
    let size = |side: f32| ((side * scale).round() as u32).max(1);
    let mut pixels = tiny_skia::Pixmap::new(size(width), size(height))?;
    resvg::render(&tree, tiny_skia::Transform::from_scale(scale, scale), &mut pixels.as_mut());
    Some((pixels.encode_png().ok()?, pixels.width(), pixels.height()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_svg_becomes_a_picture_without_its_words() {
        let svg = r#"<svg xmlns="http://www.w3.org/2000/svg" width="40" height="10"><!-- secret --><title>secret</title>
            <image href="/etc/hostname" width="4" height="4"/><rect width="40" height="10" fill="red"/></svg>"#;
        let (png, width, height) = png("logo.svg", svg.as_bytes()).expect("a picture");
        assert_eq!((width, height), (384, 96));
        assert!(!png.windows(6).any(|w| w == b"secret"));
        assert_eq!(image::load_from_memory(&png).expect("PNG").to_rgba8().get_pixel(200, 50).0, [255, 0, 0, 255]);
    }

    #[test]
    fn what_is_no_picture_is_left_out() {
        assert_eq!(png("logo.png", b"no picture"), None);
        assert_eq!(png("logo.svg", b"<svg"), None);
        let below =
            |level: usize| format!("<g id='u{level}'>{}</g>", format!("<use href='#u{}'/>", level - 1).repeat(10));
        let folded: String = (1..30).map(below).collect();
        let bomb = format!(
            "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'><defs><rect id='u0' width='1' height='1'/>{folded}</defs><use href='#u29'/></svg>"
        );
        assert_eq!(png("logo.svg", bomb.as_bytes()), None, "one that unfolds without end");
    }
}
