//! A design's card before its pictures are drawn, for the preview: every picture has its address and size, and is drawn when it is asked for.
//!
//! The same views, sizes and drawers as [`goods`](super::goods); only the moment differs.

use super::make::{QUALITY, WIDEST_JPEG, prepared, views};
use super::{Card, Encoding, PictureSet, Source, main_picture_address};
use crate::figures::Measured;
use crate::pictures::{self, Looks, Studio, jpeg, webp};
use crate::shop::{Design, Shop};

/// The card of a design with pictures that are not drawn yet; `stamp` goes into their addresses and changes with what they show.
pub fn sketch(shop: &Shop, design: &Design, measured: &Measured, stamp: &str) -> Card {
    let looks = Looks::of(design, measured);
    let mut studio = Studio::new(looks.subject(design, measured, shop.settings.look.show_cuts));
    let tone = design.board.wood.tones[0];
    let set = |view, name: &str, alt, sizes: Vec<(u32, u32)>| {
        let all = sizes.iter().flat_map(|(width, height)| {
            let old = (*width <= WIDEST_JPEG.max(sizes[0].0)).then_some(Encoding::Jpeg);
            [Some(Encoding::Webp), old].into_iter().flatten().map(move |kind| (*width, *height, kind))
        });
        let address = |width, kind: Encoding| format!("made/{}-{name}-{width}.{stamp}.{}", design.slug, kind.ending());
        let sources = all.map(|(width, height, kind)| Source { width, height, address: address(width, kind), kind });
        PictureSet { view, alt, placeholder: tone, sources: sources.collect() }
    };
    let mut sets = Vec::new();
    for (i, photo) in design.photos.iter().enumerate() {
        // A photograph that cannot be read is left out here; publishing tells why.
        if let Ok(made) = prepared(photo) {
            sets.push(set(
                super::View::Photo,
                &format!("photo-{}", i + 1),
                photo.alt.clone(),
                vec![(made.width, made.height)],
            ));
        }
    }
    for (view, drawn, name) in views(design, measured.plan.is_some(), shop.settings.look.show_cuts) {
        let sizes: Vec<(u32, u32)> =
            studio.widths(drawn).into_iter().filter_map(|w| Some((w, studio.height(drawn, w)?))).collect();
        if !sizes.is_empty() {
            sets.push(set(view, name, None, sizes));
        }
    }
    Card::new(&shop.settings, design, measured, sets, Vec::new())
}

/// Draws the picture of a sketched card at an address; `None` where the card has none there.
pub fn sketched(shop: &Shop, design: &Design, measured: &Measured, card: &Card, address: &str) -> Option<Vec<u8>> {
    let main = address == main_picture_address(&design.slug);
    let (set, source) = card.pictures.iter().find_map(|set| {
        let mut sources = set.sources.iter();
        let found = if main {
            sources.filter(|s| s.kind == Encoding::Jpeg).max_by_key(|s| s.width)
        } else {
            sources.find(|s| s.address == address)
        };
        found.filter(|_| !main || set.view != super::View::Photo).map(|source| (set, source))
    })?;
    let picture = if set.view == super::View::Photo {
        let number: usize = source.address.split("-photo-").nth(1)?.split('-').next()?.parse().ok()?;
        prepared(design.photos.get(number.checked_sub(1)?)?).ok()?
    } else {
        let (_, drawn, _) = views(design, measured.plan.is_some(), shop.settings.look.show_cuts)
            .into_iter()
            .find(|(view, _, _)| *view == set.view)?;
        let looks = Looks::of(design, measured);
        pictures::draw(&looks.subject(design, measured, shop.settings.look.show_cuts), drawn, source.width)?
    };
    match source.kind {
        Encoding::Webp => webp(&picture, QUALITY),
        Encoding::Jpeg => jpeg(&picture, QUALITY),
    }
}
