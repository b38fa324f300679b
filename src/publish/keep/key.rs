//! Fingerprints of everything that goes into what is kept of a design.
//!
//! Every field of a design and of the settings is named here, and goes in or is left out for the reason given. A new field must be
//! decided on: without it this file does not compile.

use std::fmt::{Debug, Write};

use blake3::{Hash, Hasher};

use crate::shop::{Design, DrawingFile, Look, Offer, Paint, Photo, Settings, Shop, Words};

/// Changes when what is kept changes its form.
const VERSION: &str = "kerfleaf kept goods 1";

/// What all designs of a shop share.
pub struct Basis {
    drawn: Hasher,
    set: Hasher,
    told: Hasher,
}

/// The fingerprints of one design.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Keys {
    /// Of pictures and photographs.
    pub pictures: Hash,
    /// Of painting guides.
    pub guides: Hash,
    /// Of the card: figures, words, offers, and both of the above.
    pub card: Hash,
}

impl Keys {
    /// All of them.
    pub fn all(&self) -> [Hash; 3] {
        [self.pictures, self.guides, self.card]
    }
}

impl Basis {
    /// Program, theme and settings.
    pub fn of(program: &Hash, shop: &Shop) -> Basis {
        let Settings {
            name,
            currency,
            languages,
            units,
            paper,
            web_address,
            order,
            markets,
            maker,
            packs,
            postage,
            pans,
            difficulty,
            limits,
            look: Look { ground, ink, accent, show_cuts, logo: _ },
            tagline,
            about,
            price_note,
            words,
            // A design carries its own wood.
            woods: _,
            // Private: nothing of it may change a public byte.
            workshop: _,
        } = &shop.settings;
        let mut drawn = Hasher::new_derive_key(VERSION);
        part(&mut drawn, "program", program);
        let (mut set, mut told) = (drawn.clone(), drawn.clone());
        part(&mut drawn, "look", &(ground, ink, accent, show_cuts));
        part(&mut set, "look", &(ground, ink, accent, show_cuts));
        part(&mut set, "shop", &(name, languages, units, paper, web_address, order, markets, maker, pans));
        part(&mut set, "words", &(tagline, about, price_note, words));
        part(&mut set, "scale", &(difficulty, limits, currency));
        for (file, bytes) in &shop.theme {
            part(&mut set, file, &blake3::hash(bytes));
        }
        part(&mut told, "shop", &(languages, currency, packs, postage, difficulty, limits));
        Basis { drawn, set, told }
    }

    /// Of what all pages of the catalogue share.
    pub fn pages(&self) -> Hash {
        let mut hasher = self.set.clone();
        part(&mut hasher, "told", &self.told.finalize());
        hasher.finalize()
    }

    /// Of the printed catalogue: the fingerprints of its cards, the pictures it shows, and how many designs are for sale, whether or
    /// not they can be measured.
    pub fn printed(&self, cards: &[Hash], pictures: &[Option<Hash>], published: usize) -> Hash {
        let mut hasher = self.set.clone();
        part(&mut hasher, "printed", &(cards, pictures, published));
        hasher.finalize()
    }

    /// Of a main picture as it stands in the printed catalogue.
    pub fn small(&self, main: &Hash, width: u32) -> Hash {
        let mut hasher = self.drawn.clone();
        part(&mut hasher, "small", &(main, width));
        hasher.finalize()
    }

    /// The fingerprints of one design.
    pub fn keys(&self, design: &Design) -> Keys {
        let Design {
            slug,
            title,
            summary,
            added,
            subjects,
            made_for,
            edition,
            story,
            words,
            board,
            drawing: DrawingFile { svg, join_mm, width_mm, layers, file: _, layers_at: _ },
            paints,
            offers,
            limits,
            photos,
            // Only published designs are made.
            status: _,
        } = design;
        let (mut drawn, mut set, mut told) = (self.drawn.clone(), self.set.clone(), self.told.clone());
        let svg = blake3::hash(svg.as_bytes());
        for hasher in [&mut drawn, &mut set, &mut told] {
            part(hasher, "design", &(slug, board, svg, join_mm, width_mm, layers));
        }
        for Paint { number, name, colour, mix, wash } in paints {
            part(&mut drawn, "paint", &(number, colour));
            part(&mut set, "paint", &(number, name, colour, mix, wash));
            part(&mut told, "paint", &(number, name, colour));
        }
        for offer in offers {
            // A picture shows no price; a guide neither, nor how many lie ready and what the parcel weighs.
            let Offer { form, board, primed, contains, .. } = offer;
            part(&mut drawn, "offer", &(form, board, primed));
            part(&mut set, "offer", &(form, board, primed, contains));
            part(&mut told, "offer", offer);
        }
        for Photo { file, alt, content } in photos {
            part(&mut drawn, "photo", &(file, alt, content.hash));
        }
        part(&mut set, "words", &(title, summary, added, made_for, edition, limits));
        for (language, own) in words {
            let Words { title, summary, edition, contains, paints, lead_time: _, story: _ } = own;
            part(&mut set, language, &(title, summary, edition, contains, paints));
        }
        part(&mut told, "words", &(title, summary, added, subjects, made_for, edition, story, words, limits));
        let (pictures, guides) = (drawn.finalize(), set.finalize());
        part(&mut told, "made of", &(pictures, guides));
        Keys { pictures, guides, card: told.finalize() }
    }
}

/// Adds a value by its debug text, which names every field, quotes every text and writes numbers with all their digits.
fn part(hasher: &mut Hasher, name: &str, value: &dyn Debug) {
    // Writing into a hasher cannot fail.
    let _ = writeln!(Into(hasher), "{name:?} {value:?}");
}

struct Into<'a>(&'a mut Hasher);

impl Write for Into<'_> {
    fn write_str(&mut self, text: &str) -> std::fmt::Result {
        self.0.update(text.as_bytes());
        Ok(())
    }
}
