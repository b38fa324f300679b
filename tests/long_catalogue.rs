//! The printed catalogue of a shop with more designs than it shows, as pdftotext and qpdf read it.
#![cfg(feature = "sheets")]

#[path = "support/pdf.rs"]
mod pdf;
#[path = "support/small_shop.rs"]
mod small_shop;

use kerfleaf::sheets::{Listed, ListedOffer, SHOWN_MOST, ShopOrder, catalogue_sheet};
use kerfleaf::shop::Paper;
use kerfleaf::units::Money;

/// Number `n` of a long row of designs, every tenth for children.
fn listed(n: usize) -> Listed {
    let offer = |form: &str, price| ListedOffer {
        form: form.to_owned(),
        code: format!("{form}-{n:03}"),
        price: Money { minor: price, decimals: 2 },
        stock: (form == "painted").then_some(0),
    };
    Listed {
        slug: format!("tide-{n:03}"),
        added: Some("2026-03-14".to_owned()),
        title: format!("Tide {n:03}"),
        summary: Some("Low water at the quay.".to_owned()),
        edition: None,
        subjects: vec!["river".to_owned()],
        pieces: 24,
        size_mm: [120.0, 80.0, 4.0],
        wood: "Birch plywood".to_owned(),
        difficulty: 38.0,
        difficulty_word: "steady".to_owned(),
        for_children: n % 10 == 3,
        offers: vec![offer("painted", 6000), offer("blank", 3000)],
        picture_jpeg: None,
    }
}

#[test]
fn of_many_designs_the_newest_are_shown_and_all_are_priced_with_their_warnings() {
    let root = small_shop::plain("long-catalogue");
    let shop = kerfleaf::shop::read(&root).expect("a shop");
    let order = ShopOrder { settings: &shop.settings, paper: Paper::A4, language: "en", theme: &shop.theme };
    let count = SHOWN_MOST + 10;
    let designs: Vec<Listed> = (0..count).map(listed).collect();
    let path = root.join("catalogue.pdf");
    let text = |designs: &[Listed]| {
        std::fs::write(&path, catalogue_sheet(&order, designs).expect("a catalogue").bytes).expect("a place to write");
        pdf::is_sound(&path);
        let words = |page: &str| page.split_whitespace().collect::<Vec<_>>().join(" ");
        pdf::text(&path, 1, 999).split('\x0c').map(words).collect::<Vec<_>>()
    };

    let pages = text(&designs);
    assert!(pages[0].contains("The newest 200 of 210 puzzles are shown. The price list at the end has them all."));
    let prices = pages.iter().position(|page| page.starts_with("Prices")).expect("a price list");
    let index = pages.iter().position(|page| page.starts_with("From the gentlest up")).expect("an index");
    assert_eq!(index, 1 + SHOWN_MOST / 2, "a cover, then two designs to a page");
    let (shown, priced) = (pages[1..prices].join(" "), pages[prices..].join(" "));
    for design in &designs {
        let last_shown = format!("tide-{:03}", SHOWN_MOST - 1);
        assert_eq!(shown.contains(&design.title), design.slug <= last_shown, "{}", design.title);
        for offer in &design.offers {
            assert_eq!(priced.matches(&offer.code).count(), 1, "{}", offer.code);
        }
    }
    assert_eq!((priced.matches("€60.00").count(), priced.matches("€30.00").count()), (count, count));
    // For children: 3, 13, … 203, of which the price list warns each time in the words of both markets.
    assert_eq!(priced.matches("CHOKING HAZARD").count(), count / 10);
    assert_eq!(priced.matches("Not suitable for children under 36 months").count(), count / 10);

    let few = text(&designs[..SHOWN_MOST]);
    assert!(!few[0].contains("newest") && few.iter().any(|page| page.contains("Form Code Stock Price")));
}
