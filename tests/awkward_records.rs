//! Records and drawings as they should not be but are, through the whole program and on every sheet: huge, tiny, without paint, in letters that no font has.
#![cfg(feature = "sheets")]

#[path = "support/pdf.rs"]
mod pdf;
#[path = "support/small_shop.rs"]
mod small_shop;

use std::path::Path;

use small_shop::{DRAWING, SHOP, call, printed, record, shop, write};

/// Every sheet of one design that is a PDF.
const SHEETS: [&str; 5] = ["painting", "count", "bench", "label", "slip"];

fn words(path: &Path) -> String {
    pdf::text(path, 1, 999).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Straight lines of 100 mm: sheets with a rule.
fn rules(path: &Path) -> usize {
    let rule = |page: &pdf::Page| {
        let lines = page.strokes.iter().flat_map(|s| &s.lines).filter(|l| l.len() == 2);
        lines.into_iter().any(|l| ((l[1].0 - l[0].0).hypot(l[1].1 - l[0].1) - 283.465).abs() <= 0.05)
    };
    pdf::pages(path).iter().filter(|page| rule(page)).count()
}

/// 2,000 × 1,400 mm: twenty by fourteen pieces of 100 mm, four colours.
fn two_metres() -> String {
    let mut svg = String::from(
        r##"<svg xmlns="http://www.w3.org/2000/svg" width="2000mm" height="1400mm" viewBox="0 0 2000 1400"><g id="colours" stroke="none"><rect width="2000" height="1400" fill="#dde7ee"/><rect y="700" width="2000" height="700" fill="#5b86a3"/><circle cx="600" cy="400" r="230" fill="#f4d58a"/><rect x="1200" y="800" width="500" height="300" fill="#8b5a46"/></g><g id="figures" fill="none" stroke="#333"><circle cx="750" cy="450" r="30"/></g><g id="holes" fill="none" stroke="#555"><rect x="1720" y="1120" width="60" height="60"/></g><g id="score" fill="none" stroke="#777"><path d="M0 700H2000"/></g><g id="gift" fill="none" stroke="#999"><path d="M50 0V100"/></g><g id="cuts" fill="none" stroke="#000"><rect width="2000" height="1400"/>"##,
    );
    (1..20).for_each(|i| svg.push_str(&format!(r#"<path d="M{0} 0V1400"/>"#, i * 100)));
    (1..14).for_each(|i| svg.push_str(&format!(r#"<path d="M0 {0}H2000"/>"#, i * 100)));
    svg + "</g></svg>"
}

#[test]
fn a_board_of_two_metres_goes_on_every_sheet() {
    let root = shop("two-metres", &[("low-water", &record("Low water", ""), &two_metres())]);
    for sheet in SHEETS {
        let path = printed(&root, sheet, &[]);
        pdf::is_sound(&path);
        assert!(std::fs::metadata(&path).unwrap().len() < 3_000_000, "{sheet}");
    }
    // A sheet of A4 shows at most 200 × 260 mm of it, less the strips that overlap: no fewer than 54.
    let guide = printed(&root, "painting", &[]);
    let sheets = rules(&guide);
    assert!((54..140).contains(&sheets), "{sheets}");
    let text = words(&guide);
    assert!(text.contains(&format!("it comes on {sheets} sheets")) && text.contains("joins A2"), "the map counts them");
    // The stock sheet of 300 × 200 mm holds no such board, and nobody divides by it.
    let bench = words(&printed(&root, "bench", &[]));
    assert!(bench.contains("The board does not go on this sheet either way."), "{bench}");
    assert!(bench.contains("Not counted, for want of: a sheet that the board goes on"), "{bench}");
}

/// A rectangle of 1 × 0.5 mm in a colour of its own.
#[test]
fn a_cell_of_half_a_square_millimetre_is_counted_numbered_and_in_the_palette() {
    let drawing = DRAWING.replace(
        r##"<rect x="70" y="45" width="30" height="20" fill="#8b5a46"/>"##,
        r##"<rect x="70" y="45" width="1" height="0.5" fill="#8b5a46"/>"##,
    );
    let root = shop("half-millimetre", &[("low-water", &record("Low water", ""), &drawing)]);
    let (_, json) = call(&["measure", root.to_str().unwrap(), "--json", "--quiet"]);
    let all: serde_json::Value = serde_json::from_str(&json).expect("JSON");
    let brick = &all["designs"][0]["paint"]["colours"][3];
    assert_eq!(brick["cells"], 1);
    assert!((brick["area_mm2"].as_f64().unwrap() - 0.5).abs() < 1e-9);
    for sheet in SHEETS {
        pdf::is_sound(&printed(&root, sheet, &[]));
    }
    let guide = printed(&root, "painting", &[]);
    let pages = pdf::pages(&guide).len();
    let drawn =
        (1..=pages).map(|p| pdf::text(&guide, p, p)).find(|t| t.contains("100 mm: measure")).expect("a drawing");
    assert!(drawn.split_whitespace().any(|w| w == "4") && drawn.contains("belongs to the cell at the dot"), "{drawn}");
    let text = words(&guide);
    assert!(text.contains("0.5 mm²") && text.contains("Acrylics: under 1 ml"), "{text}");
}

/// Neither `[[paint]]` nor a layer of colours: an outline, a page to sketch on, and no word of a palette on any sheet.
#[test]
fn without_any_paint_every_sheet_is_still_there() {
    let whole = record("Low water", "");
    let (head, tail) = (whole.find("[[paint]]").unwrap(), whole.find("[[offer]]").unwrap());
    let bare = format!("{}{}", &whole[..head], &whole[tail..]).replace("colour = \"colours\"\n", "");
    let root = shop("no-paint", &[("low-water", &bare, DRAWING)]);
    for sheet in SHEETS {
        pdf::is_sound(&printed(&root, sheet, &[]));
    }
    let text = words(&printed(&root, "painting", &[]));
    for said in ["Sketch page", "The board, true to size", "The order of work", "the picture is yours"] {
        assert!(text.contains(said), "{said}: {text}");
    }
    for unsaid in ["Palette", "Trial page", "In turns", "Cells"] {
        assert!(!text.contains(unsaid), "{unsaid}: {text}");
    }
    assert_eq!(rules(&printed(&root, "painting", &[])), 1);
}

/// Each text that an owner writes, in each file it can stand in: file, line and column of the character come with the sheet's name.
#[test]
fn a_character_that_no_font_has_is_found_wherever_it_was_written() {
    let german = "[in.de]\ntitle = \"Niedrigwasser 霧\"\n[board]";
    for (name, record, shop_toml, language, sheet, place) in [
        (
            "paint",
            record("Low water", "").replace("\"Moon\"", "\"Moon 月\""),
            SHOP.to_owned(),
            "en",
            "painting",
            "designs/low-water/record.toml:27:14",
        ),
        (
            "kit",
            record("Low water", "").replace("4 half pans", "4 𓆛 pans"),
            SHOP.to_owned(),
            "en",
            "slip",
            "designs/low-water/record.toml:46:16",
        ),
        (
            "german",
            record("Low water", "").replace("[board]", german),
            SHOP.replace("[\"en\"]", "[\"en\", \"de\"]"),
            "de",
            "count",
            "designs/low-water/record.toml:6:24",
        ),
        (
            "shop",
            record("Low water", ""),
            SHOP.replace("name = \"Saltmarsh Fretworks\"\ncurrency", "name = \"Saltmarsh 塩\"\ncurrency"),
            "en",
            "label",
            "shop.toml:1:19",
        ),
        (
            "maker",
            record("Low water", ""),
            SHOP.replace("4 Sluice Lane", "4 Sluice Lane ⽔"),
            "en",
            "catalogue",
            "shop.toml:8:26",
        ),
    ] {
        let root = shop(&format!("unprintable-{name}"), &[("low-water", &record, DRAWING)]);
        write(&root, "shop.toml", &shop_toml);
        let mut call_it =
            vec!["print", root.to_str().unwrap(), "--sheet", sheet, "--paper", "a4", "--language", language];
        if sheet != "catalogue" {
            call_it.push("low-water");
        }
        let (code, told) = call(&call_it);
        assert_eq!(code, Some(1), "{name}: {told}");
        assert!(told.contains(place) && told.contains("holds the character"), "{name}: {place}: {told}");
        assert!(!root.join(format!("sheets/low-water-{sheet}-a4.pdf")).exists(), "{name}");
    }
}

/// Hebrew and Arabic can be printed; letters that no font of the sheets has, as those of Tamil, are told, not left out.
#[test]
fn titles_from_right_to_left_are_set_or_told() {
    let hebrew = "מעבורת בשעת שפל";
    let root = shop("right-to-left", &[("low-water", &record(hebrew, ""), DRAWING)]);
    for sheet in SHEETS {
        let path = printed(&root, sheet, &[]);
        pdf::is_sound(&path);
        let text = words(&path);
        // pdftotext gives the words of a line in the order of reading or from left to right.
        assert!(hebrew.split(' ').all(|word| text.contains(word)), "{sheet}: {text}");
    }
    let root = shop("arabic", &[("low-water", &record("عبّارة عند الجزر", ""), DRAWING)]);
    pdf::is_sound(&printed(&root, "painting", &[]));
    let root = shop("tamil", &[("low-water", &record("படகு", ""), DRAWING)]);
    let (code, told) = call(&["print", root.to_str().unwrap(), "low-water", "--sheet", "painting", "--paper", "a4"]);
    assert_eq!(code, Some(1), "{told}");
    assert!(told.contains("designs/low-water/record.toml:1:10") && told.contains("(U+0BAA)"), "{told}");
}
