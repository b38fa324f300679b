//! A photograph, whatever its bytes: a picture no wider than asked for, or why there is none.

use kerfleaf::pictures::{jpeg, photo, webp};

/// Heads and parts of the three kinds.
pub const WORDS: &[&str] = &[
    "\u{89}PNG\r\n\u{1a}\n",
    "IHDR",
    "IDAT",
    "IEND",
    "iCCP",
    "eXIf",
    "tRNS",
    "PLTE",
    "RIFF",
    "WEBP",
    "VP8 ",
    "VP8L",
    "VP8X",
    "ALPH",
    "ANIM",
    "EXIF",
    "Exif\0\0",
    "II*\0",
    "MM\0*",
    "ICC_PROFILE\0",
    "JFIF\0",
    "Adobe\0",
];

/// Read, narrowed and encoded.
pub fn holds(data: &[u8]) {
    if let Ok(picture) = photo::prepare(data, 64) {
        assert!(picture.width > 0 && picture.height > 0 && picture.width <= 64);
        assert_eq!(picture.rgb.len(), picture.width as usize * picture.height as usize * 3);
        for encoded in [jpeg(&picture, 80), webp(&picture, 80)].into_iter().flatten() {
            assert!(!encoded.is_empty());
        }
    }
}
