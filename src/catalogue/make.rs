//! The dear stage: pictures, painting guides and the card of one measured design.
//!
//! In: the shop, a design, what was measured. Out: [`Goods`]. Photographs come first, then what the offers call for.
//! Never here: a page, a figure. Rule: handbook, "The published folder" and "Privacy".

use rayon::prelude::*;

use super::{Card, Encoding, Goods, Guide, Page, PictureSet, Source, View, made, main_picture_address};
use crate::figures::Measured;
use crate::pictures::{self, Looks, Picture, Studio, jpeg, photo, webp};
use crate::shop::{BlankBoard, Design, Form, Offer, Photo, Shop};

/// Quality of JPEG and WebP, 1 to 100. Own choice, by looking.
pub(super) const QUALITY: u8 = 84;
/// JPEG is made up to this width, px. Handbook, "The published folder".
pub(super) const WIDEST_JPEG: u32 = 1280;
/// Width of the cover of a printed sheet, px: 200 to the inch on a page of its own.
const COVER_WIDTH: u32 = 1280;
/// Widest that a photograph is shown, px.
pub(super) const WIDEST_PHOTO: u32 = 1920;

/// What keeps a design's goods from being made.
#[derive(Debug, thiserror::Error)]
pub enum GoodsError {
    /// A picture has no sound size.
    #[error("the picture {name} cannot be encoded")]
    Picture {
        /// Which one.
        name: String,
    },
    /// A photograph cannot be read.
    #[error("designs/{slug}/photos/{file}: {source}")]
    Photo {
        /// The design.
        slug: String,
        /// The file.
        file: String,
        /// Why.
        source: photo::PhotoError,
    },
    /// A guide cannot be set.
    #[cfg(feature = "sheets")]
    #[error("the painting guide of {slug} cannot be made: {source}")]
    Guide {
        /// The design.
        slug: String,
        /// Why.
        source: crate::sheets::SheetError,
    },
}

/// The picture to paint, without its cuts, as JPEG: the cover of printed sheets.
pub fn cover(shop: &Shop, design: &Design, measured: &Measured) -> Option<Vec<u8>> {
    let looks = Looks::of(design, measured);
    cover_of(&mut Studio::new(looks.subject(design, measured, shop.settings.look.show_cuts)))
}

fn cover_of(studio: &mut Studio) -> Option<Vec<u8>> {
    let made = studio.draw(pictures::View::Uncut, &[COVER_WIDTH]);
    jpeg(made.first()?, QUALITY)
}

/// The main picture of a design as JPEG, the same as in its published goods.
pub fn main_picture(shop: &Shop, design: &Design, measured: &Measured) -> Option<Vec<u8>> {
    let looks = Looks::of(design, measured);
    let mut studio = Studio::new(looks.subject(design, measured, shop.settings.look.show_cuts));
    let first = views(design, measured.plan.is_some(), shop.settings.look.show_cuts).into_iter().next()?;
    let (_, set, pages) = drawn_all(&mut studio, design, &[&first]).ok()?.pop()?;
    jpeg_of(&set?, &pages)
}

/// Makes pictures and guides of one design.
///
/// # Errors
/// A photograph that cannot be read, a guide that cannot be set.
pub fn goods(shop: &Shop, design: &Design, measured: &Measured) -> Result<Goods, GoodsError> {
    let Parts { pictures, guides } = parts(shop, design, measured, Wants { pictures: true, guides: true })?;
    let (sets, mut pages) = pictures.unwrap_or_default();
    let (guides, sheets) = guides.unwrap_or_default();
    pages.extend(sheets);
    let card = Card::new(&shop.settings, design, measured, sets, guides);
    Ok(Goods { pages, card })
}

/// Which of the dear parts of a design are to be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wants {
    /// Pictures and photographs.
    pub pictures: bool,
    /// Painting guides.
    pub guides: bool,
}

/// The dear parts, each with its files; `None` for one that was not wanted.
#[derive(Clone, Debug)]
pub struct Parts {
    /// Pictures and photographs.
    pub pictures: Option<(Vec<PictureSet>, Vec<Page>)>,
    /// Painting guides.
    pub guides: Option<(Vec<Guide>, Vec<Page>)>,
}

/// Makes those parts of one design that are wanted.
///
/// # Errors
/// As for [`goods`].
pub fn parts(shop: &Shop, design: &Design, measured: &Measured, wants: Wants) -> Result<Parts, GoodsError> {
    let looks = Looks::of(design, measured);
    let mut studio = Studio::new(looks.subject(design, measured, shop.settings.look.show_cuts));
    let pictures = wants.pictures.then(|| pictured(shop, design, measured, &looks, &mut studio)).transpose()?;
    let guides = wants.guides.then(|| {
        let mut pages = Vec::new();
        guides(shop, design, measured, &mut studio, &mut pages).map(|guides| (guides, pages))
    });
    Ok(Parts { pictures, guides: guides.transpose()? })
}

/// Photographs and views, in the order of the page.
fn pictured(
    shop: &Shop,
    design: &Design,
    measured: &Measured,
    looks: &Looks,
    studio: &mut Studio,
) -> Result<(Vec<PictureSet>, Vec<Page>), GoodsError> {
    let mut pages = Vec::new();
    let mut sets = Vec::new();
    for photo in &design.photos {
        sets.push(photographed(design, photo, &mut pages)?);
    }
    let all = views(design, measured.plan.is_some(), shop.settings.look.show_cuts);
    // Unpainted boards share nothing with the painted face, so they are drawn beside it.
    let bare = |drawn: &pictures::View| matches!(drawn, pictures::View::Blank { .. } | pictures::View::Plain);
    let (beside, painted): (Vec<_>, Vec<_>) = all.iter().partition(|(_, drawn, _)| bare(drawn));
    let (one, other) = rayon::join(
        || drawn_all(studio, design, &painted),
        || drawn_all(&mut Studio::new(looks.subject(design, measured, shop.settings.look.show_cuts)), design, &beside),
    );
    let mut made: Vec<Drawn> = one?;
    made.extend(other?);
    made.sort_by_key(|(view, _, _)| all.iter().position(|(v, _, _)| v == view));
    for (view, set, drawn) in made {
        let Some(set) = set else { continue };
        pages.extend(drawn);
        if all.first().is_some_and(|(first, _, _)| *first == view) {
            let main = jpeg_of(&set, &pages).unwrap_or_default();
            pages.push(Page { address: main_picture_address(&design.slug), bytes: main });
        }
        sets.push(set);
    }
    Ok((sets, pages))
}

/// The views a design is shown in: the whole first, as it is sold (before cutting, where cuts may not be seen), then what else the offers call for.
pub(super) fn views(design: &Design, planned: bool, show_cuts: bool) -> Vec<Wanted> {
    let offered = |form: Form| design.offers.iter().find(|o| o.form == form);
    let mut all = Vec::new();
    all.push(match (show_cuts, planned) {
        (false, _) => (View::Uncut, pictures::View::Uncut, "whole"),
        (true, true) => (View::Painted, pictures::View::Whole, "whole"),
        (true, false) => (View::Plain, pictures::View::Whole, "whole"),
    });
    all.push((View::CloseUp, pictures::View::CloseUp, "close-up"));
    if let Some(Offer { primed, board, .. }) = offered(Form::Blank) {
        let cut = *board == BlankBoard::Cut;
        all.push((View::Blank, pictures::View::Blank { primed: *primed, cut }, "blank"));
    }
    if planned && offered(Form::Plain).is_some() {
        all.push((View::Plain, pictures::View::Plain, "plain"));
    }
    all.push((View::Loosened, pictures::View::Loosened, "loosened"));
    all.push((View::Tray, pictures::View::Tray, "tray"));
    all
}

/// A view of a page, how it is drawn, its name in addresses.
pub(super) type Wanted = (View, pictures::View, &'static str);
/// A view as drawn, with its pages; without a set where it may not be shown.
type Drawn = (View, Option<PictureSet>, Vec<Page>);

/// Several views with one studio, each with its pages.
fn drawn_all(studio: &mut Studio, design: &Design, wanted: &[&Wanted]) -> Result<Vec<Drawn>, GoodsError> {
    let one = |(view, drawn, name): &Wanted| {
        let mut pages = Vec::new();
        let set = shown(studio, design, *view, *drawn, name, &mut pages)?;
        Ok((*view, set, pages))
    };
    wanted.iter().copied().map(one).collect()
}

/// One view in all its sizes; `None` where it may not be shown.
fn shown(
    studio: &mut Studio,
    design: &Design,
    view: View,
    drawn: pictures::View,
    name: &str,
    pages: &mut Vec<Page>,
) -> Result<Option<PictureSet>, GoodsError> {
    let widths = studio.widths(drawn);
    let made = studio.draw(drawn, &widths);
    if made.is_empty() { Ok(None) } else { encoded(&design.slug, name, view, None, &made, pages).map(Some) }
}

/// A photograph in the widest size that is shown; its bytes are held no longer than that takes.
pub(super) fn prepared(photo: &Photo) -> Result<Picture, photo::PhotoError> {
    let bytes = photo.content.bytes().map_err(|e| photo::PhotoError::Unreadable { reason: e.to_string() })?;
    photo::prepare(&bytes, WIDEST_PHOTO)
}

fn photographed(design: &Design, photo: &Photo, pages: &mut Vec<Page>) -> Result<PictureSet, GoodsError> {
    let full = prepared(photo).map_err(|source| GoodsError::Photo {
        slug: design.slug.clone(),
        file: photo.file.clone(),
        source,
    })?;
    let narrower: Vec<u32> = [480, 960].into_iter().filter(|w| *w < full.width).collect();
    let mut all: Vec<Picture> = narrower.into_iter().map(|w| photo::narrower(&full, w)).collect();
    all.push(full);
    let name = format!("photo-{}", design.photos.iter().position(|p| p.file == photo.file).unwrap_or(0) + 1);
    encoded(&design.slug, &name, View::Photo, photo.alt.clone(), &all, pages)
}

/// Pictures of one view as WebP, and as JPEG up to the width that old programs are given.
fn encoded(
    slug: &str,
    name: &str,
    view: View,
    alt: Option<String>,
    pictures: &[Picture],
    pages: &mut Vec<Page>,
) -> Result<PictureSet, GoodsError> {
    let failed = || GoodsError::Picture { name: format!("{slug}-{name}") };
    let narrowest = pictures.iter().map(|p| p.width).min().unwrap_or(0);
    let jobs: Vec<(&Picture, Encoding)> = pictures
        .iter()
        .flat_map(|p| {
            let old = p.width <= WIDEST_JPEG.max(narrowest);
            [(p, Encoding::Webp)].into_iter().chain(old.then_some((p, Encoding::Jpeg)))
        })
        .collect();
    let bytes: Vec<Option<Vec<u8>>> = jobs
        .par_iter()
        .map(|(picture, kind)| match kind {
            Encoding::Webp => webp(picture, QUALITY),
            Encoding::Jpeg => jpeg(picture, QUALITY),
        })
        .collect();
    let mut sources = Vec::new();
    for ((picture, kind), bytes) in jobs.into_iter().zip(bytes) {
        let page = made(&format!("{slug}-{name}-{}", picture.width), kind.ending(), bytes.ok_or_else(failed)?);
        sources.push(Source { width: picture.width, height: picture.height, address: page.address.clone(), kind });
        pages.push(page);
    }
    let placeholder = pictures.first().ok_or_else(failed)?.placeholder();
    Ok(PictureSet { view, alt, placeholder, sources })
}

/// The widest JPEG of a set.
fn jpeg_of(set: &PictureSet, pages: &[Page]) -> Option<Vec<u8>> {
    let address = &set.of(Encoding::Jpeg).last()?.address;
    pages.iter().find(|p| p.address == *address).map(|p| p.bytes.clone())
}

/// Painting guides in every language and on every paper of the shop, for a design that is sold blank.
#[cfg(feature = "sheets")]
fn guides(
    shop: &Shop,
    design: &Design,
    measured: &Measured,
    studio: &mut Studio,
    pages: &mut Vec<Page>,
) -> Result<Vec<Guide>, GoodsError> {
    use crate::sheets::{Order, painting_guide};
    use crate::shop::Paper;
    let mut guides = Vec::new();
    if !design.offers.iter().any(|o| o.form == Form::Blank) {
        return Ok(guides);
    }
    let cover = cover_of(studio);
    let first = shop.settings.languages.first().map_or("en", String::as_str);
    let wanted: Vec<(&String, Paper)> =
        shop.settings.languages.iter().flat_map(|l| shop.settings.paper.iter().map(move |p| (l, *p))).collect();
    let sheets: Vec<_> = wanted
        .par_iter()
        .map(|(language, paper)| {
            painting_guide(&Order {
                design,
                measured,
                settings: &shop.settings,
                paper: *paper,
                language,
                cover_jpeg: cover.as_deref(),
                theme: &shop.theme,
            })
        })
        .collect();
    for ((language, paper), sheet) in wanted.into_iter().zip(sheets) {
        let sheet = sheet.map_err(|source| GoodsError::Guide { slug: design.slug.clone(), source })?;
        let address = super::guide_address(first, language, &design.slug, paper);
        guides.push(Guide {
            language: language.clone(),
            paper,
            pages: sheet.pages,
            bytes: sheet.bytes.len() as u64,
            address: address.clone(),
        });
        pages.push(Page { address, bytes: sheet.bytes });
    }
    Ok(guides)
}

/// Without the feature `sheets` a catalogue has no guides.
#[cfg(not(feature = "sheets"))]
fn guides(_: &Shop, _: &Design, _: &Measured, _: &mut Studio, _: &mut Vec<Page>) -> Result<Vec<Guide>, GoodsError> {
    Ok(Vec::new())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// With `show_cuts = false` the main picture is the board before cutting, and is called so; handbook, "Privacy".
    #[test]
    fn without_leave_to_show_cuts_the_main_picture_says_what_it_is() {
        let shop = crate::shop::read("demo-shop".as_ref()).expect("the demo shop");
        let design = shop.entries.iter().find_map(|entry| entry.design.as_ref()).expect("a design");
        let first =
            |planned, show_cuts| views(design, planned, show_cuts).first().map(|(view, drawn, _)| (*view, *drawn));
        assert_eq!(first(true, false), Some((View::Uncut, pictures::View::Uncut)));
        assert_eq!(first(false, false), Some((View::Uncut, pictures::View::Uncut)));
        assert_eq!(first(true, true), Some((View::Painted, pictures::View::Whole)));
        assert_eq!(first(false, true), Some((View::Plain, pictures::View::Whole)));
    }
}
