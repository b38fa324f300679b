//! One subject's pictures: views and sizes, drawn from as few computations as they allow.
//!
//! In: a [`Subject`], views, widths. Out: [`Picture`]s. Each view is drawn once, at its largest width, and resized in linear light for the others;
//! the painted face is kept for the views that take it apart.

use fast_image_resize::images::{TypedImage, TypedImageRef};
use fast_image_resize::pixels::F32x3;
use fast_image_resize::{FilterType, ResizeAlg, ResizeOptions, Resizer};

use super::face::{self, Finish, Texture};
use super::frame::Frame;
use super::linear::{self, Light};
use super::loosen::{Place, centre, loosen};
use super::noise::Seed;
use super::stage::{Sides, Stage, Thing};
use super::{Picture, Subject, View, close_up, tray};
use crate::shape::{Extent, Face, Point};

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
    cut: Vec<&'a [Face]>,
    outlines: Vec<&'a Face>,
    whole: Option<(Finish, Texture)>,
    loosened: Option<Vec<Place>>,
    tray: Option<Vec<Place>>,
}

impl<'a> Studio<'a> {
    /// Ready to draw.
    pub fn new(subject: Subject<'a>) -> Studio<'a> {
        Studio {
            subject,
            cut: subject.board.pieces.iter().map(|p| p.cut.as_slice()).collect(),
            outlines: subject.board.parts.iter().map(|p| &p.outline).collect(),
            whole: None,
            loosened: None,
            tray: None,
        }
    }

    /// Widths of a view, least first; empty where the view may not or cannot be shown.
    pub fn widths(&mut self, view: View) -> Vec<u32> {
        let Some(widest) = self.widest(view) else { return Vec::new() };
        let mut all: Vec<u32> = WIDTHS.into_iter().filter(|w| *w <= widest).collect();
        let last = all.last().copied().unwrap_or(0);
        if f64::from(widest) >= WORTH * f64::from(last) && last < WIDTHS[2] {
            all.push(widest);
        }
        all
    }

    /// Height of the view at a width, px.
    pub fn height(&mut self, view: View, width: u32) -> Option<u32> {
        let widest = self.widest(view)?;
        let whole = Frame::around(self.window(view)?, widest);
        let (wide, high) = (whole.width as u64, whole.height as u64);
        Some(((high * u64::from(width.min(widest)) + wide / 2) / wide.max(1)).max(1) as u32)
    }

    /// The view at some widths, drawn once; empty where it may not or cannot be shown. Widths beyond the limit become the limit.
    pub fn draw(&mut self, view: View, widths: &[u32]) -> Vec<Picture> {
        let (Some(limit), Some(most)) = (self.widest(view), widths.iter().max()) else {
            return Vec::new();
        };
        let width = (*most).clamp(1, limit);
        let Some(window) = self.window(view) else { return Vec::new() };
        let frame = Frame::around(window, width);
        let light = self.light(view, frame);
        widths.iter().map(|w| resized(&light, frame.width as u32, frame.height as u32, (*w).clamp(1, width))).collect()
    }

    /// Where each piece lies in [`View::Loosened`], in the order of the board's pieces.
    pub fn loosened(&mut self) -> &[Place] {
        let (seed, gap) = (Seed::of_slug(self.subject.slug), 1.2 + 0.25 * self.subject.thickness_mm);
        self.loosened.get_or_insert_with(|| loosen(&self.cut, seed, gap))
    }

    fn laid_out(&mut self) -> &[Place] {
        let (seed, gap) = (Seed::of_slug(self.subject.slug), 2.5 + 0.3 * self.subject.thickness_mm);
        self.tray.get_or_insert_with(|| tray::lay_out(&self.cut, seed, gap))
    }

    /// Part of the table that a view shows, mm.
    fn window(&mut self, view: View) -> Option<Extent> {
        if view.needs_cuts() && !self.subject.show_cuts {
            return None;
        }
        let board = self.subject.extent().filter(|e| e.width_mm() > 0.0 && e.height_mm() > 0.0)?;
        match view {
            View::CloseUp => close_up::window(&self.subject),
            View::Loosened | View::Tray => {
                let places = if view == View::Tray { self.laid_out() } else { self.loosened() }.to_vec();
                let corners: Vec<Point> = self
                    .cut
                    .iter()
                    .zip(&places)
                    .flat_map(|(faces, place)| faces.iter().flat_map(|f| &f.outer).map(|p| place.of(*p)))
                    .collect();
                Extent::of(&corners).map(|e| with_margin(e, self.subject.thickness_mm))
            }
            _ => Some(with_margin(board, self.subject.thickness_mm)),
        }
    }

    fn widest(&mut self, view: View) -> Option<u32> {
        let window = self.window(view)?;
        // A view without its cuts has no limit of scale, but for the close-up, which stays what it is.
        let hidden = !self.subject.show_cuts && view != View::CloseUp;
        let most = match view.most_px_per_mm() {
            Some(scale) if !hidden => (scale * window.width_mm()).floor(),
            _ => f64::from(WIDTHS[2]),
        };
        Some(most.clamp(1.0, f64::from(WIDTHS[2])) as u32)
    }

    fn finish(&self, view: View) -> Finish {
        match view {
            View::Plain => Finish::Oiled,
            View::Blank { primed: true, .. } => Finish::Primed,
            View::Blank { primed: false, .. } => Finish::Bare,
            _ if self.subject.plan.is_some() => Finish::Painted,
            _ => Finish::Oiled,
        }
    }

    fn light(&mut self, view: View, frame: Frame) -> Vec<Light> {
        let finish = self.finish(view);
        let apart = view.needs_cuts();
        let texture_frame = if apart { self.whole_frame() } else { Some(frame) }.unwrap_or(frame);
        let matches = |(f, t): &(Finish, Texture)| *f == finish && t.frame == texture_frame;
        let texture = match self.whole.take_if(|kept| matches(kept)) {
            Some((_, texture)) => texture,
            None => face::draw(&self.subject, finish, texture_frame),
        };
        let cuts = view.shows_cuts() && self.subject.show_cuts;
        let places = match view {
            View::Loosened => Some(self.loosened().to_vec()),
            View::Tray => Some(self.laid_out().to_vec()),
            _ => None,
        };
        let stage = self.stage(frame, places, cuts, finish, &texture);
        let light = stage.draw();
        // Only the finish of the views that take it apart is worth its memory.
        if finish == self.finish(View::Whole) && Some(texture.frame) == self.whole_frame() {
            self.whole = Some((finish, texture));
        }
        light
    }

    /// The frame of the whole at its widest.
    fn whole_frame(&mut self) -> Option<Frame> {
        let widest = self.widest(View::Whole)?;
        Some(Frame::around(self.window(View::Whole)?, widest))
    }

    fn stage<'t>(
        &'t self,
        frame: Frame,
        places: Option<Vec<Place>>,
        cuts: bool,
        finish: Finish,
        texture: &'t Texture,
    ) -> Stage<'t> {
        let wood = self.subject.wood;
        let home = |faces: &'t [Face]| Thing { faces, place: Place::home(centre(faces)) };
        let apart = places.is_some();
        let things = match places {
            Some(places) => self.cut.iter().zip(places).map(|(faces, place)| Thing { faces, place }).collect(),
            None if cuts => self.subject.board.pieces.iter().map(|p| home(std::slice::from_ref(&p.face))).collect(),
            None => self.outlines.iter().map(|face| home(std::slice::from_ref(*face))).collect(),
        };
        let tone = linear::mix(linear::of(wood.tones[0]), linear::of(wood.tones[1]), 0.35);
        Stage {
            frame,
            things,
            boards: (!apart).then(|| self.outlines.clone()),
            kerf_mm: self.subject.board.kerf_mm,
            texture,
            sides: Sides {
                wood: tone,
                plies: plies(wood.plies(), self.subject.thickness_mm),
                thickness_mm: self.subject.thickness_mm,
            },
            gloss: match finish {
                Finish::Painted => 0.8,
                Finish::Oiled => 0.5,
                Finish::Bare | Finish::Primed => 0.15,
            },
            seed: Seed::of_slug(self.subject.slug),
        }
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

/// Room for the shadow and a quiet rim of table.
fn with_margin(extent: Extent, thickness_mm: f64) -> Extent {
    let margin = 0.055 * extent.width_mm().max(extent.height_mm()) + thickness_mm;
    let by = kurbo::Vec2::new(margin, margin);
    let seen =
        0.5 * thickness_mm * kurbo::Vec2::new(f64::from(super::table::LEAN[0]), f64::from(super::table::LEAN[1]));
    Extent { min: extent.min - by + seen, max: extent.max + by + seen }
}

/// To bytes, by way of a resize in linear light where the width differs.
fn resized(light: &[Light], width: u32, height: u32, to: u32) -> Picture {
    if to == width {
        let rgb = light.iter().flatten().map(|v| linear::to_byte(*v)).collect();
        return Picture { width, height, rgb };
    }
    let high = ((u64::from(height) * u64::from(to) + u64::from(width) / 2) / u64::from(width)).max(1) as u32;
    let pixels: Vec<F32x3> = light.iter().map(|p| F32x3::new(*p)).collect();
    scaled(&pixels, width, height, to, high).unwrap_or_else(|| Picture {
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
