//! One subject's pictures: views and sizes, drawn from as few computations as they allow.
//!
//! In: a [`Subject`], views, widths. Out: [`Picture`]s of their [`Scene`]s. Each view is drawn once, at its largest width, and resized in linear light for the others;
//! the painted face is kept for the views that take it apart.

use std::collections::BTreeMap;

use fast_image_resize::images::{TypedImage, TypedImageRef};
use fast_image_resize::pixels::F32x3;
use fast_image_resize::{FilterType, ResizeAlg, ResizeOptions, Resizer};

use super::face::{self, Finish, Texture};
use super::frame::Frame;
use super::linear::{self, Light};
use super::noise::Seed;
use super::scene::Scene;
use super::stage::{Sides, Stage};
use super::{Picture, Subject, View};

/// Widths that pictures come in, px. Handbook, "Pictures": where the scale allows.
const WIDTHS: [u32; 3] = [480, 960, 1920];
/// A last, odd width is offered where it is wider than the one before by this factor.
const WORTH: f64 = 1.15;

/// Widths of a view, least first; empty where the view may not or cannot be shown.
pub fn widths(subject: &Subject, view: View) -> Vec<u32> {
    Studio::new(*subject).widths(view)
}

/// One picture. Widths beyond the view's limit give the widest one allowed; `None` where the view may not or cannot be shown.
pub fn draw(subject: &Subject, view: View, width_px: u32) -> Option<Picture> {
    Studio::new(*subject).draw(view, &[width_px]).pop()
}

/// Draws one subject, and keeps what several views need.
pub struct Studio<'a> {
    subject: Subject<'a>,
    scenes: BTreeMap<View, Option<Scene<'a>>>,
    whole: Option<(Finish, Texture)>,
}

impl<'a> Studio<'a> {
    /// Ready to draw.
    pub fn new(subject: Subject<'a>) -> Studio<'a> {
        Studio { subject, scenes: BTreeMap::new(), whole: None }
    }

    /// What a view shows, worked out once; `None` where it may not or cannot be shown.
    pub fn scene(&mut self, view: View) -> Option<&Scene<'a>> {
        let subject = self.subject;
        self.scenes.entry(view).or_insert_with(|| Scene::of(subject, view)).as_ref()
    }

    /// Widths of a view, least first; empty where the view may not or cannot be shown.
    pub fn widths(&mut self, view: View) -> Vec<u32> {
        let Some(widest) = self.scene(view).map(widest) else { return Vec::new() };
        let mut all: Vec<u32> = WIDTHS.into_iter().filter(|w| *w <= widest).collect();
        let last = all.last().copied().unwrap_or(0);
        if f64::from(widest) >= WORTH * f64::from(last) && last < WIDTHS[2] {
            all.push(widest);
        }
        all
    }

    /// Height of the view at a width, px.
    pub fn height(&mut self, view: View, width: u32) -> Option<u32> {
        let scene = self.scene(view)?;
        let widest = widest(scene);
        let whole = Frame::around(scene.window, widest);
        let (wide, high) = (whole.width as u64, whole.height as u64);
        Some(((high * u64::from(width.min(widest)) + wide / 2) / wide.max(1)).max(1) as u32)
    }

    /// The view at some widths, drawn once; empty where it may not or cannot be shown. Widths beyond the limit become the limit.
    pub fn draw(&mut self, view: View, widths: &[u32]) -> Vec<Picture> {
        let (Some(limit), Some(most)) = (self.scene(view).map(widest), widths.iter().max()) else {
            return Vec::new();
        };
        let width = (*most).clamp(1, limit);
        let Some(scene) = self.scene(view).cloned() else { return Vec::new() };
        let frame = Frame::around(scene.window, width);
        // The same memory under the resizer's name.
        let pixels: Vec<F32x3> = self.light(&scene, frame).into_iter().map(F32x3::new).collect();
        widths.iter().map(|w| resized(&pixels, frame.width as u32, frame.height as u32, (*w).clamp(1, width))).collect()
    }

    fn light(&mut self, scene: &Scene, frame: Frame) -> Vec<Light> {
        let whole = self.scene(View::Whole).map(|whole| (whole.finish, Frame::around(whole.window, widest(whole))));
        let texture_frame = whole.filter(|_| scene.apart).map_or(frame, |(_, frame)| frame);
        let matches = |(f, t): &(Finish, Texture)| *f == scene.finish && t.frame == texture_frame;
        let texture = match self.whole.take_if(|kept| matches(kept)) {
            Some((_, texture)) => texture,
            None => face::draw(&self.subject, scene.finish, texture_frame),
        };
        let light = stage(scene, frame, &texture).draw();
        // Only the finish of the views that take it apart is worth its memory.
        if whole == Some((scene.finish, texture.frame)) {
            self.whole = Some((scene.finish, texture));
        }
        light
    }
}

/// Most pixels of a picture, so that a tall board takes no more memory than a square one. Twice as tall as wide still comes in all widths.
const MOST_PIXELS: f64 = 8e6;
/// Tallest picture, px. WebP has 14 bits for each side (RFC 6386, 9.1).
const TALLEST: f64 = 16_000.0;

/// Widest picture of a scene, px.
fn widest(scene: &Scene) -> u32 {
    let (wide, high) = (scene.window.width_mm(), scene.window.height_mm().max(1e-6));
    let sharp = scene.most_px_per_mm.map_or(f64::INFINITY, |scale| scale * wide);
    let most = sharp.min((MOST_PIXELS * wide / high).sqrt()).min(TALLEST * wide / high);
    most.floor().clamp(1.0, f64::from(WIDTHS[2])) as u32
}

fn stage<'a>(scene: &'a Scene, frame: Frame, texture: &'a Texture) -> Stage<'a> {
    let subject = &scene.subject;
    let wood = subject.wood;
    let tone = linear::mix(linear::of(wood.tones[0]), linear::of(wood.tones[1]), 0.35);
    Stage {
        frame,
        things: &scene.things,
        boards: scene.boards(),
        kerf_mm: subject.board.kerf_mm,
        texture,
        sides: Sides {
            wood: tone,
            plies: plies(wood.plies(), subject.thickness_mm),
            thickness_mm: subject.thickness_mm,
        },
        gloss: match scene.finish {
            Finish::Painted => 0.8,
            Finish::Oiled => 0.5,
            Finish::Bare | Finish::Primed => 0.15,
        },
        seed: Seed::of_slug(subject.slug),
    }
}

/// Plies of about 1.2 mm, an odd number. Common practice, no source.
fn plies(has: bool, thickness_mm: f64) -> u32 {
    if !has {
        return 1;
    }
    let about = (thickness_mm / 1.2).round().clamp(3.0, 13.0) as u32;
    about | 1
}

/// To bytes, by way of a resize in linear light where the width differs.
fn resized(pixels: &[F32x3], width: u32, height: u32, to: u32) -> Picture {
    if to == width {
        let rgb = pixels.iter().flat_map(|p| p.0).map(linear::to_byte).collect();
        return Picture { width, height, rgb };
    }
    let high = ((u64::from(height) * u64::from(to) + u64::from(width) / 2) / u64::from(width)).max(1) as u32;
    scaled(pixels, width, height, to, high).unwrap_or_else(|| Picture {
        width: to,
        height: high,
        rgb: vec![0; (to * high * 3) as usize],
    })
}

/// `None` only where the sizes do not fit the pixels.
pub(super) fn scaled(pixels: &[F32x3], width: u32, height: u32, to: u32, high: u32) -> Option<Picture> {
    let source = TypedImageRef::new(width, height, pixels).ok()?;
    let mut target = TypedImage::<F32x3>::new(to, high);
    let options = ResizeOptions::new().resize_alg(ResizeAlg::Convolution(FilterType::CatmullRom));
    Resizer::new().resize_typed(&source, &mut target, &options).ok()?;
    let rgb = target.pixels().iter().flat_map(|p| p.0).map(linear::to_byte).collect();
    Some(Picture { width: to, height: high, rgb })
}
