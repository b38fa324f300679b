//! The maker's photographs: upright, in sRGB, in the sizes of a page, and without a byte of metadata.
//!
//! In: the bytes of a JPEG, PNG or WebP file. Out: a [`Picture`]; nothing but its pixels is carried over.
//! Steps: decode; colour profile to sRGB, transparency over the paper ground and a first coarse shrinking, a band at a time, so that no
//! second picture of the camera's size is needed; turn by EXIF orientation; resize in linear light.
//! Source: Exif 2.32, tag 0x0112 (orientation); ICC.1 by way of the decoder's profile.

use std::io::Cursor;

use fast_image_resize::pixels::F32x3;
use image::{DynamicImage, ImageDecoder, ImageReader, Limits};
use moxcms::{ColorProfile, Layout, RenderingIntent, TransformOptions};
use thiserror::Error;

use super::studio::scaled;
use super::table::GROUND;
use super::{Picture, linear};

/// Why a photograph cannot be shown.
#[derive(Debug, Error, PartialEq, Eq)]
pub enum PhotoError {
    /// Neither JPEG, PNG nor WebP.
    #[error("it is neither a JPEG, a PNG nor a WebP file")]
    UnknownFormat,
    /// The file is broken, or larger than [`MAX_SIDE`] a side.
    #[error("it cannot be read: {reason}")]
    Unreadable {
        /// The decoder's words.
        reason: String,
    },
}

/// Most pixels a side that are read.
pub const MAX_SIDE: u32 = 20_000;
/// Most memory that decoding may take, bytes.
const MAX_MEMORY: u64 = 1 << 30;

/// A photograph made ready, no wider than `max_width` pixels once upright, never enlarged.
///
/// # Errors
/// [`PhotoError`] where it is of another kind or cannot be read.
pub fn prepare(bytes: &[u8], max_width: u32) -> Result<Picture, PhotoError> {
    let unreadable = |e: image::ImageError| PhotoError::Unreadable { reason: e.to_string() };
    let mut reader =
        ImageReader::new(Cursor::new(bytes)).with_guessed_format().map_err(|_| PhotoError::UnknownFormat)?;
    if !matches!(reader.format(), Some(image::ImageFormat::Jpeg | image::ImageFormat::Png | image::ImageFormat::WebP)) {
        return Err(PhotoError::UnknownFormat);
    }
    let mut limits = Limits::default();
    limits.max_image_width = Some(MAX_SIDE);
    limits.max_image_height = Some(MAX_SIDE);
    limits.max_alloc = Some(MAX_MEMORY);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(unreadable)?;
    let profile = decoder.icc_profile().ok().flatten();
    let image = DynamicImage::from_decoder(decoder).map_err(unreadable)?;
    let orientation = orientation(bytes);
    let across = if orientation >= 5 { image.height() } else { image.width() };
    let shrunk = shrunk(&image, profile.as_deref(), across / max_width.max(1));
    drop(image);
    Ok(no_wider(turned(shrunk, orientation), max_width))
}

/// Widths that a prepared photograph comes in: those of all pictures that it is wide enough for, and its own where that is less than the least.
pub fn narrower(picture: &Picture, width: u32) -> Picture {
    no_wider(picture.clone(), width)
}

/// EXIF orientation, 1 to 8; 1 where there is none or it is no orientation.
fn orientation(bytes: &[u8]) -> u32 {
    let mut reader = exif::Reader::new();
    reader.continue_on_error(true);
    let data = match reader.read_from_container(&mut Cursor::new(bytes)) {
        Ok(data) => Some(data),
        Err(error) => error.distill_partial_result(|_| ()).ok(),
    };
    let value =
        data.and_then(|d| d.get_field(exif::Tag::Orientation, exif::In::PRIMARY).and_then(|f| f.value.get_uint(0)));
    value.filter(|v| (1..=8).contains(v)).unwrap_or(1)
}

/// Rows of a band.
const BAND: u32 = 64;

/// sRGB with transparent places filled with paper, each pixel the mean light of `by` times `by`; what is left over at the right and at
/// the bottom, less than a pixel, is cut off.
fn shrunk(image: &DynamicImage, profile: Option<&[u8]>, by: u32) -> Picture {
    let by = by.clamp(1, image.width().min(image.height()).max(1));
    let (width, height) = (image.width() / by, image.height() / by);
    let mut rgb = Vec::with_capacity(width as usize * height as usize * 3);
    let (band, to_srgb) = (BAND.div_ceil(by), profile.and_then(|profile| conversion(image, profile)));
    for top in (0..height).step_by(band as usize) {
        let rows = band.min(height - top);
        let part = image.crop_imm(0, top * by, image.width(), rows * by);
        let flat = over_paper(&part, to_srgb.as_ref());
        if by == 1 {
            rgb.extend(flat);
        } else {
            means(&flat, image.width() as usize, width as usize, rows as usize, by as usize, &mut rgb);
        }
    }
    Picture { width, height, rgb }
}

/// Mean light of squares of pixels, row by row; `flat` is `full` pixels wide.
fn means(flat: &[u8], full: usize, width: usize, rows: usize, by: usize, to: &mut Vec<u8>) {
    let share = 1.0 / (by * by) as f32;
    for y in 0..rows {
        let mut sums = vec![0.0_f32; width * 3];
        for line in flat.chunks_exact(full * 3).skip(y * by).take(by) {
            for (sum, square) in sums.chunks_exact_mut(3).zip(line.chunks_exact(by * 3)) {
                for pixel in square.chunks_exact(3) {
                    sum.iter_mut().zip(pixel).for_each(|(sum, byte)| *sum += linear::of_byte(*byte));
                }
            }
        }
        to.extend(sums.into_iter().map(|sum| linear::to_byte(sum * share)));
    }
}

/// sRGB bytes, transparent places filled with paper.
fn over_paper(image: &DynamicImage, to_srgb: Option<&Conversion>) -> Vec<u8> {
    let mut bytes = image.to_rgba8().into_raw();
    if let Some(to_srgb) = to_srgb {
        bytes = to_srgb(bytes);
    }
    let paper = linear::of(GROUND);
    let shown = |p: &[u8]| {
        if p[3] == 255 {
            return [p[0], p[1], p[2]];
        }
        let a = f32::from(p[3]) / 255.0;
        std::array::from_fn(|c| linear::to_byte(a * linear::of_byte(p[c]) + (1.0 - a) * paper[c]))
    };
    bytes.chunks_exact(4).flat_map(shown).collect()
}

/// Pixels of four bytes through a profile to sRGB.
type Conversion = Box<dyn Fn(Vec<u8>) -> Vec<u8>>;

/// The way through a profile; what it cannot be used for stays as it is, taken for sRGB.
fn conversion(image: &DynamicImage, profile: &[u8]) -> Option<Conversion> {
    let source = ColorProfile::new_from_slice(profile).ok()?;
    let options =
        TransformOptions { rendering_intent: RenderingIntent::RelativeColorimetric, ..TransformOptions::default() };
    let srgb = ColorProfile::new_srgb();
    let grey = !image.color().has_color();
    let layout = if grey { Layout::GrayAlpha } else { Layout::Rgba };
    let transform = source.create_transform_8bit(layout, &srgb, Layout::Rgba, options).ok()?;
    Some(Box::new(move |bytes| {
        let grey_alpha: Vec<u8> =
            if grey { bytes.chunks_exact(4).flat_map(|p| [p[0], p[3]]).collect() } else { Vec::new() };
        let mut out = vec![0; bytes.len()];
        match transform.transform(if grey { &grey_alpha } else { &bytes }, &mut out) {
            Ok(()) => out,
            Err(_) => bytes,
        }
    }))
}

/// Turned and mirrored so that row 0 is the visual top and column 0 the visual left.
fn turned(picture: Picture, orientation: u32) -> Picture {
    if orientation == 1 {
        return picture;
    }
    let Picture { width, height, rgb } = picture;
    let (w, h) = (width as usize, height as usize);
    let swap = orientation >= 5;
    let (new_w, new_h) = if swap { (h, w) } else { (w, h) };
    let mut out = Vec::with_capacity(rgb.len());
    for y in 0..new_h {
        for x in 0..new_w {
            // Where in the file the pixel stands that is seen at (x, y).
            let (fx, fy) = match orientation {
                2 => (w - 1 - x, y),
                3 => (w - 1 - x, h - 1 - y),
                4 => (x, h - 1 - y),
                5 => (y, x),
                6 => (y, h - 1 - x),
                7 => (w - 1 - y, h - 1 - x),
                _ => (w - 1 - y, x),
            };
            out.extend_from_slice(&rgb[(fy * w + fx) * 3..][..3]);
        }
    }
    Picture { width: new_w as u32, height: new_h as u32, rgb: out }
}

fn no_wider(picture: Picture, max_width: u32) -> Picture {
    let to = max_width.max(1);
    if picture.width <= to {
        return picture;
    }
    let high =
        ((u64::from(picture.height) * u64::from(to) + u64::from(picture.width) / 2) / u64::from(picture.width)).max(1);
    let pixels: Vec<F32x3> =
        picture.rgb.chunks_exact(3).map(|p| F32x3::new([0, 1, 2].map(|c| linear::of_byte(p[c])))).collect();
    scaled(&pixels, picture.width, picture.height, to, high as u32).unwrap_or(picture)
}
