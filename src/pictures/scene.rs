//! What each view shows, in millimetres: which things lie where on the table, and which part of it is seen.
//!
//! In: a [`Subject`]. Out: a [`Scene`], one function a view; `None` where the view may not or cannot be shown.
//! Never here: a pixel, light, a colour: `stage` lights a scene, `flat` draws it plainly.
//! Rule: handbook, "Privacy": without leave to show cuts there is no scene of single pieces, and no scene knows of them.

use super::face::Finish;
use super::loosen::{Place, centre, loosen};
use super::noise::Seed;
use super::table::LEAN;
use super::{Subject, View, close_up, tray};
use crate::shape::{Extent, Face, Point};

/// One thing on the table: a piece, or a board in one.
#[derive(Clone, Copy, Debug)]
pub struct Thing<'a> {
    /// Its outlines before it was moved, mm: as drawn where pieces lie together, after the kerf where they lie apart.
    pub faces: &'a [Face],
    /// Where it lies.
    pub place: Place,
}

/// What a view shows.
#[derive(Clone, Debug)]
pub struct Scene<'a> {
    /// Of what.
    pub subject: Subject<'a>,
    /// Which view.
    pub view: View,
    /// Part of the table that is seen, mm.
    pub window: Extent,
    /// What lies there.
    pub things: Vec<Thing<'a>>,
    /// Pieces lie apart; otherwise together, with the kerf between them.
    pub apart: bool,
    /// What was done to the wood.
    pub finish: Finish,
    /// Most pixels to the millimetre; `None` where no cut is seen. Handbook, "Privacy".
    pub most_px_per_mm: Option<f64>,
}

impl<'a> Scene<'a> {
    /// The scene of a view.
    pub fn of(subject: Subject<'a>, view: View) -> Option<Scene<'a>> {
        match view {
            View::Whole => whole(subject),
            View::Uncut => uncut(subject),
            View::Plain => plain(subject),
            View::Blank { primed, cut } => blank(subject, primed, cut),
            View::Loosened => loosened(subject),
            View::Tray => laid_out(subject),
            View::CloseUp => near(subject),
        }
    }

    /// Outlines of the boards that the pieces lie together in.
    pub fn boards(&self) -> Option<Vec<&'a Face>> {
        let parts = &self.subject.board.parts;
        (!self.apart).then(|| parts.iter().map(|part| &part.outline).collect())
    }
}

/// The finished puzzle, its pieces together.
pub fn whole(subject: Subject) -> Option<Scene> {
    together(subject, View::Whole, finished(&subject), true)
}

/// The same without its cuts: the painted plan.
pub fn uncut(subject: Subject) -> Option<Scene> {
    together(subject, View::Uncut, finished(&subject), false)
}

/// Oiled, no picture.
pub fn plain(subject: Subject) -> Option<Scene> {
    together(subject, View::Plain, Finish::Oiled, true)
}

/// An unpainted kit with its score lines.
pub fn blank(subject: Subject, primed: bool, cut: bool) -> Option<Scene> {
    let finish = if primed { Finish::Primed } else { Finish::Bare };
    together(subject, View::Blank { primed, cut }, finish, cut)
}

/// One corner of the whole, near.
pub fn near(subject: Subject) -> Option<Scene> {
    let whole = whole(subject)?;
    let window = close_up::window(&subject)?;
    // The close-up stays what it is, with cuts or without.
    Some(Scene { view: View::CloseUp, window, most_px_per_mm: View::CloseUp.most_px_per_mm(), ..whole })
}

/// The pieces moved apart, none over another.
pub fn loosened(subject: Subject) -> Option<Scene> {
    // What a side hides of the table comes off the gap that is seen.
    let gap_mm = 1.6 + LEAN_LENGTH * subject.thickness_mm;
    apart(subject, View::Loosened, |pieces, seed| loosen(pieces, seed, gap_mm))
}

/// The pieces in rows by size.
pub fn laid_out(subject: Subject) -> Option<Scene> {
    let gap_mm = 2.5 + LEAN_LENGTH * subject.thickness_mm;
    apart(subject, View::Tray, |pieces, seed| tray::lay_out(pieces, seed, gap_mm))
}

/// How far the foot of a thing 1 mm thick is seen beside it, mm.
const LEAN_LENGTH: f64 = 0.31;

fn finished(subject: &Subject) -> Finish {
    if subject.plan.is_some() { Finish::Painted } else { Finish::Oiled }
}

fn together(subject: Subject, view: View, finish: Finish, cut: bool) -> Option<Scene> {
    let board = subject.extent().filter(|e| e.width_mm() > 0.0 && e.height_mm() > 0.0)?;
    let cut = cut && subject.show_cuts;
    let home = |face| {
        let faces = std::slice::from_ref(face);
        Thing { faces, place: Place::home(centre(faces)) }
    };
    let things = if cut {
        subject.board.pieces.iter().map(|piece| home(&piece.face)).collect()
    } else {
        subject.board.parts.iter().map(|part| home(&part.outline)).collect()
    };
    Some(Scene {
        subject,
        view,
        window: with_margin(board, subject.thickness_mm),
        things,
        apart: false,
        finish,
        most_px_per_mm: view.most_px_per_mm().filter(|_| cut),
    })
}

fn apart<'a>(
    subject: Subject<'a>,
    view: View,
    places: impl FnOnce(&[&[Face]], Seed) -> Vec<Place>,
) -> Option<Scene<'a>> {
    if !subject.show_cuts {
        return None;
    }
    let pieces: Vec<&[Face]> = subject.board.pieces.iter().map(|piece| piece.cut.as_slice()).collect();
    let places = places(&pieces, Seed::of_slug(subject.slug));
    let things: Vec<Thing> = pieces.iter().zip(places).map(|(faces, place)| Thing { faces, place }).collect();
    let corners: Vec<Point> =
        things.iter().flat_map(|t| t.faces.iter().flat_map(|f| &f.outer).map(|p| t.place.of(*p))).collect();
    let around = Extent::of(&corners).filter(|e| e.width_mm() > 0.0 && e.height_mm() > 0.0)?;
    Some(Scene {
        subject,
        view,
        window: with_margin(around, subject.thickness_mm),
        things,
        apart: true,
        finish: finished(&subject),
        most_px_per_mm: view.most_px_per_mm(),
    })
}

/// How much of the table a picture of the whole shows round the board's box, mm.
pub fn margin_mm(width_mm: f64, height_mm: f64, thickness_mm: f64) -> f64 {
    0.055 * width_mm.max(height_mm) + thickness_mm
}

/// Room for the shadow and a quiet rim of table.
fn with_margin(extent: Extent, thickness_mm: f64) -> Extent {
    let margin = margin_mm(extent.width_mm(), extent.height_mm(), thickness_mm);
    let by = kurbo::Vec2::new(margin, margin);
    let seen = 0.5 * thickness_mm * kurbo::Vec2::new(f64::from(LEAN[0]), f64::from(LEAN[1]));
    Extent { min: extent.min - by + seen, max: extent.max + by + seen }
}
