//! Labels, packing slips, price cards and the printed catalogue as others see them: pdftotext, another reader of QR codes, the height of printed letters.
#![cfg(feature = "sheets")]

#[path = "support/pdf.rs"]
mod pdf;
#[path = "support/raster.rs"]
mod raster;
#[path = "support/small_shop.rs"]
mod small_shop;

use std::path::Path;

use small_shop::{DRAWING, SHOP, call, plain, printed, record, shop, write};

fn words(path: &Path, first: usize, last: usize) -> String {
    pdf::text(path, first, last).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// All QR codes of a page, read by the library `rqrr` from its pixels.
fn codes(path: &Path, page: usize) -> Vec<String> {
    let raster = raster::page(path, page, 300);
    let mut image = rqrr::PreparedImage::prepare_from_greyscale(raster.width, raster.height, |x, y| {
        raster.grey[y * raster.width + x]
    });
    // A picture may hold what looks like the corners of a code; what cannot be decoded is none.
    image.detect_grids().iter().filter_map(|g| Some(g.decode().ok()?.1)).collect()
}

/// The first offer has a code of its own; the second has one that only stands in, and no QR code.
#[test]
fn a_label_has_the_stock_code_as_another_library_reads_it() {
    let root = plain("label-code");
    for (per_page, more) in [(4, vec![]), (1, vec!["--per-page", "1"]), (8, vec!["--per-page", "8"])] {
        let path = printed(&root, "label", &more);
        pdf::is_sound(&path);
        assert_eq!(codes(&path, 1), vec!["LOW-P/7"; per_page], "{per_page} to a page");
        assert_eq!(codes(&path, 2), Vec::<String>::new());
        assert!(words(&path, 2, 2).contains("low-water-blank"));
        assert_eq!(words(&path, 1, 1).matches("Low water").count(), per_page);
    }
}

#[test]
fn a_label_says_what_the_box_holds() {
    let root = shop("label-says", &[("low-water", &record("Low water", "edition = \"12 made\""), DRAWING)]);
    let path = printed(&root, "label", &["--per-page", "1"]);
    let (painted, blank) = (words(&path, 1, 1), words(&path, 2, 2));
    let mark = kerfleaf::shop::read(&root).map(|s| {
        let design = s.entries[0].design.clone().unwrap();
        kerfleaf::figures::measure(&design, &s.settings).unwrap().figures.mark
    });
    assert!(painted.contains("25 pieces"), "{painted}");
    for said in [
        "120 × 80 × 4 mm",
        "birch plywood",
        "12 made",
        "of 100",
        "4 Sluice Lane, Saltmarsh",
        "keep away from young children",
        &mark.unwrap(),
    ] {
        assert!(painted.contains(said), "{said}: {painted}");
        assert!(blank.contains(said), "{said}: {blank}");
    }
    assert!(painted.contains("Painted by hand: yours will differ a little.") && !blank.contains("yours will differ"));
    assert!(blank.contains("25 once it is cut"));
    // No word of a market's statutory warning on a puzzle that is not made for children.
    assert!(!painted.contains("CHOKING HAZARD") && !painted.contains("36 months"), "{painted}");
}

/// 16 CFR 1500.121(c)(2), table 1, its figures from memory: a panel of 136 × 96 mm is 20.2 square inches (the label of a whole page 83), so capitals are at least 1/8 in (5/32), 3/32 (7/64) and
/// 5/64 (3/32) high. Measured on the printed page, 1,200 pixels to the inch.
#[test]
fn warnings_stand_on_puzzles_for_children_in_the_height_that_the_rule_asks() {
    let root = shop("label-children", &[("low-water", &record("Low water", "made_for = \"children\""), DRAWING)]);
    for (per_page, heights) in [("8", [1.0 / 8.0, 3.0 / 32.0, 5.0 / 64.0]), ("1", [5.0 / 32.0, 7.0 / 64.0, 3.0 / 32.0])]
    {
        let path = printed(&root, "label", &["--per-page", per_page]);
        let all = raster::words(&path, 1);
        let text = all.iter().map(|(word, _)| word.as_str()).collect::<Vec<_>>().join(" ");
        for line in [
            "WARNING:",
            "CHOKING HAZARD - Small parts",
            "Not for children under 3 yrs.",
            "Warning. Not suitable for children under 36 months. Small parts. Choking hazard.",
            "Testing and marking are the maker's duty under local law.",
        ] {
            assert!(text.contains(line), "{line}: {text}");
        }
        let page = raster::page(&path, 1, 1200);
        // Of each line one word whose letters neither reach above capitals nor below the line.
        for (word, letters, inches) in
            [("WARNING:", 0.7, heights[0]), ("HAZARD", 1.0, heights[1]), ("Not", 0.45, heights[2])]
        {
            let (_, mut at) = all.iter().find(|(w, _)| w == word).cloned().unwrap_or_else(|| panic!("{word}"));
            at[2] = at[0] + letters * (at[2] - at[0]);
            let found = page.ink_height_mm(at);
            assert!(found >= inches * 25.4 - 0.011, "{word}: {found} mm of {}", inches * 25.4);
            assert!(found < inches * 25.4 * 1.15, "{word}: {found} mm of {}", inches * 25.4);
        }
    }
}

/// Markets decide: without the United States their warning is not there.
#[test]
fn each_market_has_its_own_warning() {
    let root = shop("label-eu", &[("low-water", &record("Low water", "made_for = \"children\""), DRAWING)]);
    write(&root, "shop.toml", &SHOP.replace("[\"eu\", \"uk\", \"us\"]", "[\"uk\"]"));
    let text = words(&printed(&root, "label", &[]), 1, 1);
    assert!(text.contains("Not suitable for children under 36 months") && !text.contains("WARNING:"), "{text}");
}

/// Net weight: board + extras, without the pack of 80 g. On paper: 8.94 × 4 mm × 650 kg/m³ and 20 g; from `measure` to the gram.
#[test]
fn a_packing_slip_has_what_customs_ask_and_guesses_nothing() {
    let root = plain("slip");
    let path = printed(&root, "slip", &[]);
    pdf::is_sound(&path);
    let text = words(&path, 1, 1);
    let shop = kerfleaf::shop::read(&root).unwrap();
    let design = shop.entries[0].design.clone().unwrap();
    let figures = kerfleaf::figures::measure(&design, &shop.settings).unwrap().figures;
    let grams = |g: f64| format!("about {g:.0} g");
    let net = figures.weight.board_g + 20.0;
    assert!(text.contains(&format!("Net weight {}", grams(net))), "{text}");
    assert!(text.contains(&format!("Packed weight {}", grams(net + 80.0))), "{text}");
    for said in ["Wooden jigsaw puzzle, 25 pieces, painted by hand", "Value €60.00 (EUR)", "LOW-P/7", "4 Sluice Lane"]
    {
        assert!(text.contains(said), "{said}: {text}");
    }
    // Whoever sends it writes these; nothing stands behind them.
    assert!(text.contains("Country of origin Tariff number Net weight is computed"), "{text}");
    assert!(
        words(&path, 2, 2).contains("Wooden board with a scored picture") && words(&path, 2, 2).contains("4 half pans")
    );
}

#[test]
fn price_cards_leave_out_what_is_sold_out_and_the_list_does_not() {
    let plain_record = record("Low water", "");
    let other = record("High water", "").replace("LOW-P/7", "HIGH-P");
    let root = shop("stall", &[("low-water", &plain_record, DRAWING), ("high-water", &other, DRAWING)]);
    for (per_page, pages) in [("2", 1), ("4", 1), ("6", 1), ("8", 1)] {
        let path = printed(&root, "stall", &["--per-page", per_page]);
        pdf::is_sound(&path);
        let cards = words(&path, 1, pages);
        assert_eq!(cards.matches("€60.00").count(), 2, "{per_page}: {cards}");
        assert!(!cards.contains("€30.00"), "the blanks are sold out: {cards}");
        let list = words(&path, pages + 1, pages + 1);
        for row in
            ["HIGH-P High water Painted €60.00 2", "LOW-P/7 Low water Painted €60.00 2", "Low water Blank €30.00 0"]
        {
            assert!(list.contains(row), "{row}: {list}");
        }
    }
}

#[test]
fn the_catalogue_has_every_design_its_prices_and_its_pages() {
    let other = record("High water", "subjects = [\"river\"]\nmade_for = \"children\"").replace("LOW-P/7", "HIGH-P");
    let draft = record("Not yet", "").replace("published", "draft").replace("LOW-P/7", "DRAFT-P");
    let low = record("Low water", "subjects = [\"river\", \"mud\"]");
    let root = shop(
        "catalogue",
        &[("low-water", &low, DRAWING), ("high-water", &other, DRAWING), ("not-yet", &draft, DRAWING)],
    );
    let path = printed(&root, "catalogue", &[]);
    pdf::is_sound(&path);
    let count = pdf::pages(&path).len();
    let text = words(&path, 1, count);
    for said in [
        "Low water",
        "High water",
        "€60.00",
        "€30.00",
        "To order: bench@example.org",
        "Sold out",
        "river",
        "mud",
        "HIGH-P",
        "Not suitable for children under 36 months",
    ] {
        assert!(text.contains(said), "{said}: {text}");
    }
    assert!(!text.contains("Not yet") && !text.contains("DRAFT-P"), "drafts are never listed");
    // Two designs stand on the second page, and the index says so.
    assert!(words(&path, 2, 2).contains("Low water") && words(&path, 2, 2).contains("High water"));
    let index = (3..=count).map(|p| words(&path, p, p)).find(|t| t.contains("From the gentlest up")).expect("an index");
    let dots = index.replace('.', " ").split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(dots.contains("Low water gentle") || dots.contains("Low water steady"), "{dots}");
    assert!(std::fs::metadata(&path).unwrap().len() < 3_000_000);
}

#[test]
fn titles_of_three_hundred_letters_and_from_right_to_left_go_on_every_box() {
    let long = "Heron, reed and ferry ".repeat(14)[..300].to_owned();
    for (name, title) in
        [("box-long", long.as_str()), ("box-word", &"w".repeat(300)), ("box-hebrew", "מעבורת בשעת שפל")]
    {
        let root = shop(name, &[("low-water", &record(title, ""), DRAWING)]);
        for sheet in ["slip", "stall", "catalogue"] {
            pdf::is_sound(&printed(&root, sheet, &[]));
        }
        for per_page in ["2", "8"] {
            let path = printed(&root, "label", &["--per-page", per_page]);
            // One page an offer: nothing was pushed over the page's end.
            assert_eq!(pdf::pages(&path).len(), 2, "{name}, {per_page} to a page");
        }
    }
}

#[test]
fn a_design_without_offers_has_no_label_and_says_so() {
    let bare = record("Low water", "");
    let bare = &bare[..bare.find("[[offer]]").unwrap()];
    let root = shop("no-offers", &[("low-water", bare, DRAWING)]);
    for sheet in ["label", "slip"] {
        let (code, told) = call(&["print", root.to_str().unwrap(), "low-water", "--sheet", sheet, "--paper", "a4"]);
        assert_eq!(code, Some(1), "{told}");
        assert!(told.contains("has no offer"), "{told}");
    }
}
