//! Pictures as bytes: JPEG and WebP, none over [`MAX_BYTES`], no metadata.
//!
//! In: a [`Picture`] and the quality wanted. Out: the file's bytes. Where they are too many, quality steps down until they are not.

use super::Picture;

/// Most bytes of a published picture.
pub const MAX_BYTES: usize = 300_000;
/// Quality is not lowered beyond this: what is too large then is for the caller to show smaller.
const LEAST_QUALITY: u8 = 30;

/// A baseline JPEG; quality from 1 to 100, lowered in steps of 6 where the file would pass [`MAX_BYTES`].
///
/// `None` where the picture's sizes do not fit its bytes, or JPEG cannot hold them.
pub fn jpeg(picture: &Picture, quality: u8) -> Option<Vec<u8>> {
    stepping_down(quality, |q| {
        let mut bytes = Vec::new();
        image::codecs::jpeg::JpegEncoder::new_with_quality(&mut bytes, q)
            .encode(&picture.rgb, picture.width, picture.height, image::ExtendedColorType::Rgb8)
            .ok()?;
        Some(bytes)
    })
}

/// A lossy WebP; quality from 1 to 100, lowered in steps of 6 where the file would pass [`MAX_BYTES`].
///
/// `None` where the picture's sizes do not fit its bytes, or WebP cannot hold them (16,383 px a side).
pub fn webp(picture: &Picture, quality: u8) -> Option<Vec<u8>> {
    if picture.rgb.len() != picture.width as usize * picture.height as usize * 3 || picture.rgb.is_empty() {
        return None;
    }
    stepping_down(quality, |q| {
        let mut config = webp::WebPConfig::new().ok()?;
        config.quality = f32::from(q);
        config.method = 4;
        let encoder = webp::Encoder::from_rgb(&picture.rgb, picture.width, picture.height);
        encoder.encode_advanced(&config).ok().map(|bytes| bytes.to_vec())
    })
}

fn stepping_down(quality: u8, encode: impl Fn(u8) -> Option<Vec<u8>>) -> Option<Vec<u8>> {
    let mut quality = quality.clamp(1, 100);
    loop {
        let bytes = encode(quality)?;
        if bytes.len() <= MAX_BYTES || quality <= LEAST_QUALITY {
            return Some(bytes);
        }
        quality = quality.saturating_sub(6).max(LEAST_QUALITY);
    }
}
