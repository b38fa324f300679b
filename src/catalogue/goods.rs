//! What the dear stage gives for one design: pictures and guides as pages, and the card that tells of them.
//!
//! In: encoded pictures and PDFs. Out: [`Goods`]; addresses of pictures carry a hash of their content.
//! Never here: the making of a picture or a sheet. Rule: handbook, "The published folder".

use serde::{Deserialize, Serialize};

use super::{Card, Page};
use crate::shape::Rgb;
use crate::shop::Paper;

/// All of one design that is dear to make, and its card.
#[derive(Clone, Debug)]
pub struct Goods {
    /// Pictures and guides, at their addresses.
    pub pages: Vec<Page>,
    /// What the pages need to know.
    pub card: Card,
}

/// What a picture shows. Declared in the order of the product page, but that the owner's photographs come first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum View {
    /// One of the owner's photographs.
    Photo,
    /// The whole, painted from the plan.
    Painted,
    /// The whole without its cuts, painted where there is a plan.
    Uncut,
    /// The whole, plain and oiled.
    Plain,
    /// The whole, unpainted, with its score lines.
    Blank,
    /// A corner from close by.
    CloseUp,
    /// The pieces moved apart.
    Loosened,
    /// The pieces in rows by size.
    Tray,
}

impl View {
    /// Whether it points novelty shapes out; then it stands behind a spoiler cover. Handbook, "Privacy".
    pub fn points_out(self) -> bool {
        matches!(self, View::Loosened | View::Tray)
    }
}

/// How a picture is encoded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Encoding {
    /// `image/webp`.
    Webp,
    /// `image/jpeg`.
    Jpeg,
}

impl Encoding {
    /// Ending of its files, without a dot.
    pub fn ending(self) -> &'static str {
        match self {
            Encoding::Webp => "webp",
            Encoding::Jpeg => "jpg",
        }
    }

    /// Media type (IANA registry).
    pub fn media_type(self) -> &'static str {
        match self {
            Encoding::Webp => "image/webp",
            Encoding::Jpeg => "image/jpeg",
        }
    }
}

/// One picture at one size.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Source {
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// Where it lies in the published folder.
    pub address: String,
    /// How it is encoded.
    pub kind: Encoding,
}

/// One view in all its sizes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PictureSet {
    /// What it shows.
    pub view: View,
    /// The owner's own alternative text; without it the page words one from the view.
    pub alt: Option<String>,
    /// Mean colour, shown until the picture is there.
    #[serde(with = "super::card::colour")]
    pub placeholder: Rgb,
    /// Every size and encoding, in any order; all of one shape.
    pub sources: Vec<Source>,
}

impl PictureSet {
    /// The sources of one encoding, narrowest first.
    pub fn of(&self, kind: Encoding) -> Vec<&Source> {
        let mut found: Vec<&Source> = self.sources.iter().filter(|source| source.kind == kind).collect();
        found.sort_by(|a, b| (a.width, &a.address).cmp(&(b.width, &b.address)));
        found
    }

    /// The widest picture of any encoding; JPEG before WebP at equal widths.
    pub fn largest(&self) -> Option<&Source> {
        self.sources.iter().max_by_key(|source| (source.width, source.kind))
    }
}

/// One painting guide.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Guide {
    /// Language of its words, one of the shop's.
    pub language: String,
    /// What it is set for.
    #[serde(with = "super::card::paper")]
    pub paper: Paper,
    /// How many pages it has.
    pub pages: usize,
    /// Size of the file.
    pub bytes: u64,
    /// Where it lies in the published folder: [`guide_address`].
    pub address: String,
}

/// A page under `made/` with a name that changes with its content, so that a browser may keep it for good.
///
/// `name` is lower-case ASCII, for instance `ferry-painted-960`; `ending` the file's ending without a dot.
pub fn made(name: &str, ending: &str, bytes: Vec<u8>) -> Page {
    let hash = data_encoding::BASE32_NOPAD.encode(blake3::hash(&bytes).as_bytes().get(..8).unwrap_or_default());
    Page { address: format!("made/{name}.{}.{ending}", hash.to_ascii_lowercase()), bytes }
}

/// `designs/<slug>/picture.jpg`.
pub fn main_picture_address(slug: &str) -> String {
    format!("designs/{slug}/picture.jpg")
}

/// `designs/<slug>/painting-guide-<paper>.pdf`, under `<language>/` for all but the shop's first language.
pub fn guide_address(first_language: &str, language: &str, slug: &str, paper: Paper) -> String {
    let folder = if language == first_language { String::new() } else { format!("{language}/") };
    format!("{folder}designs/{slug}/painting-guide-{}.pdf", paper.name())
}
