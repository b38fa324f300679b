//! Products as wooden objects: from plain values to pixels.
//!
//! In: [`Subject`], the values a picture needs. Out: RGB pixels in memory, and alternative texts' facts; the encoders for WebP and JPEG.
//! Never here: files, pages, text drawn into pictures.
//! Rule: handbook, "Pictures"; privacy limits of section 4 are kept by [`View`]'s largest scale.

use crate::drawing::Line;
use crate::paint::Plan;
use crate::pieces::Board;
use crate::shape::Rgb;
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
