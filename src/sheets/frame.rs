//! What every sheet has in common: from an order and a sheet's own data to PDF bytes.
//!
//! In: an [`Order`] or a [`ShopOrder`], the sheet's own data, its drawings as virtual files. Out: [`Sheet`].
//! A new sheet is one file here for its data and one template `sheets/<name>.typ` in the theme: the frame gives the template paper, words, title,
//! foot and date, looks for characters that no font has, and lays it out.
//! Never here: what a sheet says.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::glyphs::{check, one_line};
use super::labels::plain;
use super::tiles::paper_mm;
use super::world::{self, Job};
use super::{Sheet, SheetError, template_files};
use crate::figures::Measured;
use crate::shop::{Design, Paper, Settings};
use crate::wording::Words;

/// Virtual files of a sheet beside the templates: drawings and pictures by path.
pub type Files = BTreeMap<String, Vec<u8>>;

/// All that a sheet of one design is made from.
#[derive(Clone, Copy, Debug)]
pub struct Order<'a> {
    /// The record.
    pub design: &'a Design,
    /// Its figures and what they came from.
    pub measured: &'a Measured,
    /// The shop.
    pub settings: &'a Settings,
    /// Paper to print on.
    pub paper: Paper,
    /// BCP 47; words that lack in it stand in the record's own language, the program's in English.
    pub language: &'a str,
    /// The picture as an encoded JPEG; without one a line drawing stands in, or nothing.
    pub cover_jpeg: Option<&'a [u8]>,
    /// The owner's theme by path inside `theme/`; whatever lies under `sheets/` stands in for the program's own.
    pub theme: &'a Files,
}

/// All that a sheet of the whole shop is made from, beside what stands on it.
#[derive(Clone, Copy, Debug)]
pub struct ShopOrder<'a> {
    /// The shop.
    pub settings: &'a Settings,
    /// Paper to print on.
    pub paper: Paper,
    /// BCP 47.
    pub language: &'a str,
    /// The owner's theme by path inside `theme/`.
    pub theme: &'a Files,
}

impl<'a> Order<'a> {
    /// The title in the sheet's language, on one line.
    pub(super) fn title(&self) -> String {
        let own = self.words().and_then(|w| w.title.as_deref());
        one_line(own.unwrap_or(&self.design.title))
    }

    /// The design's words in the sheet's language, where it has some.
    pub(super) fn words(&self) -> Option<&'a crate::shop::Words> {
        self.design.words.get(self.language)
    }

    /// The edition as written, in the sheet's language.
    pub(super) fn edition(&self) -> Option<String> {
        let own = self.words().and_then(|w| w.edition.as_deref());
        own.or(self.design.edition.as_deref()).map(one_line)
    }

    /// The same order without the design.
    pub(super) fn shop(&self) -> ShopOrder<'a> {
        ShopOrder { settings: self.settings, paper: self.paper, language: self.language, theme: self.theme }
    }
}

/// What the frame prints around a sheet.
pub struct Framed<'a> {
    /// Name of the sheet and of its template: `painting`, `count`, …
    pub name: &'a str,
    /// What the sheet is called, in its language.
    pub called: String,
    /// Title of the design, or of the shop.
    pub title: String,
    /// `YYYY-MM-DD`; without a date the PDF keeps to PDF/UA-1 alone.
    pub added: Option<&'a str>,
    /// Tells this document from every other.
    pub ident: String,
    /// A word for every foot, where the sheet is not for others.
    pub private: Option<String>,
}

/// Lays a design's sheet out.
///
/// # Errors
/// A character that no font has; a template that cannot be laid out.
pub fn design_sheet(
    order: &Order,
    name: &str,
    called: &str,
    private: Option<&str>,
    data: Value,
    files: Files,
) -> Result<Sheet, SheetError> {
    let words = Words::for_language(order.language);
    let figures = &order.measured.figures;
    let framed = Framed {
        name,
        called: words.text(called),
        title: order.title(),
        added: order.design.added.as_deref(),
        ident: format!(
            "{} {} {name} {:?} {} {}",
            order.design.slug,
            figures.mark,
            order.paper,
            order.language,
            private.unwrap_or_default()
        ),
        private: private.map(|key| words.text(key)),
    };
    laid_out(&order.shop(), &framed, data, files)
}

/// Lays any sheet out: the sheet's own data, with what all templates are given.
///
/// The same order gives the same bytes.
///
/// # Errors
/// A character that no font has; a template that cannot be laid out.
pub fn laid_out(order: &ShopOrder, framed: &Framed, mut data: Value, files: Files) -> Result<Sheet, SheetError> {
    let words = Words::for_language(order.language);
    let (width_mm, height_mm) = paper_mm(order.paper);
    let shared = json!({
        "language": order.language,
        "added": framed.added.and_then(date),
        "paper": { "width_mm": width_mm, "height_mm": height_mm },
        "words": plain(&words),
        "called": framed.called,
        "title": framed.title,
        "short_title": short(&framed.title),
        "shop": one_line(&order.settings.name),
        "private": framed.private,
    });
    if let (Value::Object(own), Value::Object(shared)) = (&mut data, shared) {
        own.extend(shared);
    }
    check(&data)?;
    let dated = !data["added"].is_null();
    let mut all = template_files(order.theme);
    all.extend(files);
    all.insert("/data.json".to_owned(), data.to_string().into_bytes());
    let made = Job::new(&format!("/sheets/{}.typ", framed.name), all).and_then(|job| job.pdf(&framed.ident, dated));
    // What was worked out for this document is of no use to the next; a run over many guides must not grow by it.
    world::forget();
    made
}

/// `YYYY-MM-DD` as numbers; nothing for any other text.
fn date(text: &str) -> Option<Value> {
    let numbers: Vec<u32> = text.splitn(3, '-').map(str::parse).collect::<Result<_, _>>().ok()?;
    match numbers[..] {
        [year, month @ 1..=12, day @ 1..=31] => Some(json!({ "year": year, "month": month, "day": day })),
        _ => None,
    }
}

/// The title for the foot of a page: whole words, at most about 60 characters.
fn short(title: &str) -> String {
    if title.chars().count() <= 60 {
        return title.to_owned();
    }
    let mut cut: String = title.chars().take(58).collect();
    if let Some((words, _)) = cut.rsplit_once(' ')
        && words.chars().count() > 30
    {
        cut = words.to_owned();
    }
    cut + "…"
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_title_is_cut_between_words_for_the_foot() {
        assert_eq!(short("Ferry at half tide"), "Ferry at half tide");
        let long = short(&"herons in the reeds ".repeat(10));
        assert!(long.ends_with("…") && long.chars().count() <= 60, "{long}");
    }

    #[test]
    fn only_a_date_is_a_date() {
        assert_eq!(date("2026-03-14"), Some(json!({ "year": 2026, "month": 3, "day": 14 })));
        assert_eq!((date("soon"), date("2026-13-01")), (None, None));
    }
}
