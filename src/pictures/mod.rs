//! Products as wooden objects: from plain values to pixels.
//!
//! In: [`Subject`], the values a picture needs. Out: RGB pixels in memory ([`Picture`]), and the encoders for WebP and JPEG.
//! Steps: `scene` says what a view shows, in mm (`loosen`, `tray`, `close_up`), `face` paints the board's upper side (`wood`, `wash`), `stage` lights
//! the scene on the `table`; all of it in linear light, in bands, each pixel a pure function of its place. `photo` takes in the maker's own photographs.
//! Never here: files, pages, text drawn into pictures.
//! Rule: handbook, "Pictures"; privacy limits of section 4 are kept by [`View`]'s largest scale.

mod close_up;
mod coarse;
mod encode;
mod face;
mod fields;
pub mod flat;
mod frame;
mod linear;
mod looks;
mod loosen;
pub mod marked;
mod noise;
pub mod photo;
pub mod scene;
mod stage;
mod studio;
mod table;
mod tray;
mod wash;
mod wood;

pub use encode::{MAX_BYTES, jpeg, webp};
pub use face::Finish;
pub use looks::Looks;
pub use loosen::{Place, any_overlap, overlap};
pub use scene::{Scene, Thing, margin_mm};
pub use studio::{Studio, draw, widths};
pub use table::GROUND;

use crate::drawing::Line;
use crate::paint::Plan;
use crate::pieces::Board;
use crate::shape::{Extent, Rgb};
use crate::shop::Wood;

/// What is shown.
#[derive(Clone, Copy, Debug)]
pub struct Subject<'a> {
    /// Seeds grain and washes.
    pub slug: &'a str,
    /// Pieces and outlines.
    pub board: &'a Board,
    /// Score lines, mm.
    pub score: &'a [&'a Line],
    /// Paint cells, where the design has a plan.
    pub plan: Option<&'a Plan>,
    /// Colours of the record's paints, by the index that cells carry.
    pub paints: &'a [Rgb],
    /// For grain and tone.
    pub wood: &'a Wood,
    /// mm.
    pub thickness_mm: f64,
    /// Whether public pictures may show cuts.
    pub show_cuts: bool,
}

impl Subject<'_> {
    /// Box around all boards, mm; `None` without any.
    pub fn extent(&self) -> Option<Extent> {
        Extent::of(self.board.parts.iter().flat_map(|part| &part.outline.outer))
    }
}

/// What a picture shows of a subject.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum View {
    /// The finished puzzle, its pieces together: painted where there is a plan, else oiled.
    Whole,
    /// The same without its cuts.
    Uncut,
    /// Oiled, no picture, its pieces together.
    Plain,
    /// An unpainted kit with its score lines.
    Blank {
        /// Under a white ground, or bare wood.
        primed: bool,
        /// Pieces cut already, or one board.
        cut: bool,
    },
    /// The pieces of [`View::Whole`] moved apart, none over another.
    Loosened,
    /// The pieces of [`View::Whole`] in rows by size.
    Tray,
    /// One corner of [`View::Whole`], near.
    CloseUp,
}

/// Most pixels to the millimetre in pictures of the whole with its cuts. Handbook, "Privacy".
pub const WHOLE_PX_PER_MM: f64 = 4.0;
/// Most pixels to the millimetre in the close-up. Handbook, "Privacy".
pub const CLOSE_UP_PX_PER_MM: f64 = 12.0;
/// Most of the board's area that the close-up shows. Handbook, "Privacy": a sixth.
pub const CLOSE_UP_SHARE: f64 = 1.0 / 6.0;

impl View {
    /// Most pixels to the millimetre; `None` where no cuts are seen and so no limit holds.
    pub fn most_px_per_mm(self) -> Option<f64> {
        match self {
            View::Uncut | View::Blank { cut: false, .. } => None,
            View::CloseUp => Some(CLOSE_UP_PX_PER_MM),
            _ => Some(WHOLE_PX_PER_MM),
        }
    }
}

/// An opaque sRGB picture in memory.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// Red, green, blue, row by row.
    pub rgb: Vec<u8>,
}

impl Picture {
    /// Mean colour in linear light: what stands in until the picture has come.
    pub fn placeholder(&self) -> Rgb {
        let mut sums = [0.0_f64; 3];
        for pixel in self.rgb.chunks_exact(3) {
            for (sum, byte) in sums.iter_mut().zip(pixel) {
                *sum += f64::from(linear::of_byte(*byte));
            }
        }
        let count = (self.rgb.len() / 3).max(1) as f64;
        linear::to_rgb(sums.map(|s| (s / count) as f32))
    }
}
