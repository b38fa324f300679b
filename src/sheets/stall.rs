//! A market stall: price cards, two to eight a page, and a list to take stock by.
//!
//! In: [`ShopOrder`] and the designs on the table as [`Stand`]s. Out: PDF bytes: cards with title, form, pieces, size, difficulty and price, then the list,
//! one line an offer with its code, price, what should be there, and room for what is.
//! An offer that is sold out has no card, and stands on the list. Rule: handbook, "The sheets".

use serde_json::{Value, json};

use super::frame::{Files, Framed, ShopOrder, laid_out};
use super::glyphs::one_line;
use super::label::difficulty;
use super::sizes::{price_text, size_text};
use super::tiles::paper_mm;
use super::{Sheet, SheetError};
use crate::figures::Figures;
use crate::shop::{Audience, Design};
use crate::wording::Words;

/// Cards that go on a page.
pub const CARDS_PER_PAGE: [usize; 4] = [2, 4, 6, 8];
const MARGIN_MM: f64 = 8.0;

/// One design on the table.
#[derive(Clone, Copy, Debug)]
pub struct Stand<'a> {
    /// The record.
    pub design: &'a Design,
    /// Its figures.
    pub figures: &'a Figures,
}

/// Makes cards and list for all designs on the table, `per_page` (two to eight) cards a page.
///
/// # Errors
/// A character that no font has, a template that cannot be laid out.
pub fn stall_sheet(order: &ShopOrder, stands: &[Stand], per_page: usize) -> Result<Sheet, SheetError> {
    let words = Words::for_language(order.language);
    let (width, height) = paper_mm(order.paper);
    let (columns, rows) = match per_page {
        0..=2 => (1_u32, 2_u32),
        3 | 4 => (2, 2),
        5 | 6 => (2, 3),
        _ => (2, 4),
    };
    let mut cards: Vec<Value> = Vec::new();
    let mut list: Vec<Value> = Vec::new();
    for stand in stands {
        let own = stand.design.words.get(order.language);
        let title = one_line(own.and_then(|w| w.title.as_deref()).unwrap_or(&stand.design.title));
        let edition = own.and_then(|w| w.edition.as_deref()).or(stand.design.edition.as_deref()).map(one_line);
        for offer in &stand.design.offers {
            let price = price_text(&words, offer.price, order.settings);
            let form = words.text(&format!("form-{}", offer.form.name()));
            list.push(json!({
                "code": one_line(&offer.code),
                "title": title,
                "form": words.text(&format!("form-{}-short", offer.form.name())),
                "price": price,
                "stock": offer.stock.map(|s| s.to_string()),
            }));
            if offer.stock != Some(0) {
                let figures = stand.figures;
                let size = [figures.size.width_mm, figures.size.height_mm, figures.size.thickness_mm];
                cards.push(json!({
                    "title": title,
                    "form": form,
                    "pieces": words.with("count-pieces", &[("count", figures.pieces.count.into())]),
                    "size": size_text(&words, size, order.settings.units),
                    "wood": one_line(stand.design.board.wood.in_language(order.language)),
                    "difficulty": difficulty(stand.figures, &words),
                    "edition": edition,
                    "price": price,
                    "code": one_line(&offer.code),
                    "made_to_order": offer.stock.is_none(),
                    "children": stand.design.made_for == Some(Audience::Children),
                }));
            }
        }
    }
    let data = json!({
        "grid": {
            "columns": columns,
            "rows": rows,
            "margin_mm": MARGIN_MM,
            "card_mm": [(width - 2.0 * MARGIN_MM) / f64::from(columns), (height - 2.0 * MARGIN_MM) / f64::from(rows)],
        },
        "cards": cards,
        "list": list,
        "small": words.text("small-pieces"),
    });
    let slugs: Vec<&str> = stands.iter().map(|s| s.design.slug.as_str()).collect();
    let framed = Framed {
        name: "stall",
        called: words.text("sheet-stall"),
        title: one_line(&order.settings.name),
        added: latest(stands),
        ident: format!("stall {:?} {} {per_page} {}", order.paper, order.language, slugs.join(" ")),
        private: None,
    };
    laid_out(order, &framed, data, Files::new())
}

/// The latest date of all records: the sheet's own, since there is no clock.
fn latest<'a>(stands: &[Stand<'a>]) -> Option<&'a str> {
    stands.iter().filter_map(|s| s.design.added.as_deref()).max()
}
