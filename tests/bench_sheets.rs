//! Count, bench and spare as others see them: pdftotext, page contents, arithmetic on paper, and the spare read back.
#![cfg(feature = "sheets")]

#[path = "support/pdf.rs"]
mod pdf;
#[path = "support/small_shop.rs"]
mod small_shop;

use std::collections::BTreeSet;
use std::path::Path;

use kerfleaf::shape::length_mm;
use kurbo::{BezPath, Shape};
use small_shop::{DRAWING, call, plain, printed, record, shop, write};

/// 72 points to the inch of 25.4 mm.
const PT: f64 = 72.0 / 25.4;

fn words(path: &Path, first: usize, last: usize) -> String {
    pdf::text(path, first, last).split_whitespace().collect::<Vec<_>>().join(" ")
}

fn figures(root: &Path) -> serde_json::Value {
    let (_, json) = call(&["measure", root.to_str().unwrap(), "--json", "--quiet"]);
    let all: serde_json::Value = serde_json::from_str(&json).expect("JSON");
    all["designs"][0].clone()
}

/// 24 rectangles, of which one has an opening and one a round figure inside: 25 pieces.
#[test]
fn the_count_sheet_has_every_piece_on_its_map_and_a_box_in_its_row() {
    let root = plain("count");
    let path = printed(&root, "count", &[]);
    pdf::is_sound(&path);
    assert_eq!(figures(&root)["pieces"]["count"], 25);
    let map = words(&path, 1, 1);
    let on_map: BTreeSet<&str> = map.split(' ').filter(|w| w.parse::<usize>().is_ok()).collect();
    let ticked = words(&path, 2, 2);
    for piece in 1..=25 {
        let piece = piece.to_string();
        assert!(on_map.contains(piece.as_str()), "{piece} is not on the map");
        assert!(ticked.split(' ').any(|w| w == piece), "{piece} has no box");
    }
    assert!(ticked.contains("25 pieces in all"), "{ticked}");
    assert!(ticked.contains(figures(&root)["mark"].as_str().unwrap()));
    // 25 pieces are counted faster than weighed.
    assert!(!words(&path, 1, 9).contains("Weighing instead"));
}

/// The board is 120 × 80 mm and goes on the page as it is.
#[test]
fn the_piece_map_keeps_its_scale() {
    let path = printed(&plain("count-scale"), "count", &[]);
    assert!(words(&path, 1, 1).contains("True to size."));
    let pages = pdf::pages(&path);
    let outline = pages[0].strokes.iter().find(|s| (s.width_pt - 0.3 * PT).abs() < 0.01).expect("the outline");
    let xs = || outline.lines.iter().flatten().map(|p| p.0);
    let wide = xs().fold(f64::MIN, f64::max) - xs().fold(f64::MAX, f64::min);
    assert!((wide - 120.0 * PT).abs() < 0.05, "{} mm", wide / PT);
}

#[test]
fn a_map_of_many_small_pieces_goes_over_pages_and_names_each_piece_once_or_more() {
    let mut drawing = String::from(
        r##"<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="300mm" viewBox="0 0 400 300"><g id="cuts" fill="none" stroke="#000"><rect width="400" height="300"/>"##,
    );
    (1..40).for_each(|i| drawing.push_str(&format!(r#"<path d="M{0} 0V300"/>"#, i * 10)));
    (1..30).for_each(|i| drawing.push_str(&format!(r#"<path d="M0 {0}H400"/>"#, i * 10)));
    drawing.push_str("</g></svg>");
    let record = "title = \"Many\"\nstatus = \"published\"\n[board]\nwood = \"birch-plywood\"\nthickness = \"4 mm\"\n[drawing.layers]\ncut = \"cuts\"\n";
    let root = shop("count-many", &[("low-water", record, &drawing)]);
    let path = printed(&root, "count", &[]);
    let pages = (1..).take_while(|p| words(&path, *p, *p).contains("Reduced to")).count();
    assert!(pages >= 2, "{pages} pages");
    let text = words(&path, 1, pages);
    let found: BTreeSet<&str> = text.split(' ').collect();
    let missing: Vec<usize> = (1..=1200).filter(|n| !found.contains(n.to_string().as_str())).collect();
    assert!(missing.is_empty(), "{missing:?}");
    // 1,200 pieces of 9.8 × 9.8 × 4 mm at 650 kg/m³ weigh 0.25 g each; 20 of them scale by 60, so a step of 0.1 g shows nothing under 6.1 g.
    let all = words(&path, pages + 1, pages + 20);
    assert!(all.contains("Weighing instead") && all.contains("6.1 g 1,200 of 1,200 pieces"), "{all}");
}

#[test]
fn one_buyers_lines_are_taken_in_when_asked_for_and_marked() {
    let root = plain("personal");
    let without = words(&printed(&root, "count", &[]), 1, 9);
    let with = words(&printed(&root, "count", &["--with-personal"]), 1, 9);
    assert!(without.contains("25 pieces in all") && with.contains("26 pieces in all"), "{with}");
    assert!(with.contains("one buyer’s version") && !without.contains("one buyer’s version"));
    let (with, without) = (printed(&root, "bench", &["--with-personal"]), printed(&root, "bench", &[]));
    assert!(words(&with, 1, 1).contains("Never publish it"));
    // The gift is a line of 20 mm.
    assert!(
        words(&without, 1, 1).contains("Cut 1.22 m") && words(&with, 1, 1).contains("Cut 1.24 m"),
        "{}",
        words(&with, 1, 1)
    );
}

/// On paper: outline 400 mm, five cuts of 80 and three of 120 make 760, the opening lies on a piece's inside (32), the figure is a circle of 31.416:
/// 1,223.4 mm in all, less nothing. Scored: 120 + √200 = 134.1 mm.
#[test]
fn the_bench_sheet_prints_the_figures_of_measure() {
    let root = plain("bench");
    let path = printed(&root, "bench", &[]);
    pdf::is_sound(&path);
    let text = words(&path, 1, 1);
    let f = figures(&root);
    let cut = f["lines"]["cut_mm"].as_f64().unwrap();
    assert!((cut - (400.0 + 5.0 * 80.0 + 3.0 * 120.0 + 32.0 + std::f64::consts::TAU * 5.0)).abs() < 0.1, "{cut}");
    let metres = |mm: f64| format!("{:.2} m", mm / 1000.0);
    assert!(text.contains(&format!("Cut {}", metres(cut))), "{text}");
    assert!(text.contains(&format!("Score {}", metres(f["lines"]["score_mm"].as_f64().unwrap()))), "{text}");
    assert!(text.contains(&format!("{:.1} g", f["weight"]["board_g"].as_f64().unwrap())), "{text}");
    assert!(text.contains(f["mark"].as_str().unwrap()));
    // 290 × 190 mm hold boards of 120.2 × 80.2 mm 2 × 2 as drawn, 3 × 1 turned, and five with both ways mixed: three turned over two as drawn need 200.4 mm,
    // so four it is.
    assert!(
        text.replace(" × ", "×").contains("As drawn 2×2 4")
            && text.replace(" × ", "×").contains("Turned by a quarter 3×1 3")
            && text.contains("4 boards at the most"),
        "{text}"
    );
    assert!(text.contains("Counted by the boards’ boxes"));
}

/// The floor of the painted offer from the printed minutes and the rates of shop.toml, in whole cents on paper: wood 6.00 × 1.10 ÷ 4 = 1.65; pack 1.65; extras
/// 1.50; painting 15 min for 100 cm² of 95.36 cm² = 14.3 min; handling 20 min.
#[test]
fn the_price_floor_is_what_it_is_on_paper() {
    let root = plain("floor");
    let path = printed(&root, "bench", &[]);
    let text = words(&path, 2, 2);
    let after = |key: &str, from: &str| -> String {
        let at = from.find(key).unwrap_or_else(|| panic!("{key}: {from}"));
        from[at + key.len()..].split_whitespace().next().unwrap_or_default().to_owned()
    };
    let (painted, blank) = text.split_at(text.find("Blank").expect("two offers"));
    assert!(
        painted.contains("Wood, with waste sheet ÷ 4 €1.65")
            && painted.contains("Pack €1.65")
            && painted.contains("Extras €1.50"),
        "{painted}"
    );
    let f = figures(&root);
    let mm2 = f["pieces"]["board_mm2"].as_f64().unwrap();
    assert!((mm2 - (120.0 * 80.0 - 64.0)).abs() < 1e-6, "{mm2}");
    let painting = 15.0 * mm2 / 1e4;
    let laser: f64 = after("Laser ", painted).parse().unwrap();
    let minutes = laser + painting + 20.0;
    // The laser's minutes are printed to a tenth, so the floor is known to within 0.05 min × 0.40 € ÷ 0.96 and a cent.
    let floor = (1.65 + 1.65 + 1.50 + minutes * 24.0 / 60.0) / 0.96;
    let euro = |text: String| text.trim_start_matches('€').parse::<f64>().unwrap();
    let shown = euro(after("Floor ", painted));
    assert!((shown - floor).abs() < 0.05 * 0.4 / 0.96 + 0.011, "{shown} {floor}");
    assert!((euro(after("The price leaves ", painted)) - (60.0 - shown)).abs() < 1e-9);
    // A scored blank is cut along its outline and opening alone: 400 + 32 mm at 10 mm/s, 134.1 mm at 50, and some travel.
    let laser: f64 = after("Laser ", blank).parse().unwrap();
    assert!((laser - (43.2 + 2.7 + 1.5) / 60.0).abs() < 0.06, "{laser}");
    assert!(!blank.contains("Painting"));
}

#[test]
fn the_bench_sheet_has_the_steps_and_the_cautions() {
    let path = printed(&plain("bench-steps"), "bench", &[]);
    let text = words(&path, 1, 9);
    for step in [
        "Prime",
        "Mask",
        "Score",
        "Unmask",
        "Seal thinly, or wait",
        "Dry through",
        "Oil the back alone",
        "Cut the outline",
        "Pack the kit",
    ] {
        assert!(text.contains(step), "{step}");
    }
    for caution in [
        "Stay with the machine while it cuts",
        "PVC and vinyl",
        "Smoke of wood harms",
        "Wood dust can cause cancer",
        "has not dried through",
        "catch fire by themselves",
        "follow your machine's manual",
    ] {
        assert!(text.contains(&caution.replace('\'', "’")) || text.contains(caution), "{caution}");
    }
    assert!(text.trim_end().contains("follow your local codes and the advice of people licensed to give it"));
}

fn path_data(svg: &str, group: &str) -> Vec<BezPath> {
    let document = roxmltree::Document::parse(svg).expect("XML");
    let group = document.descendants().find(|n| n.attribute("id") == Some(group));
    let paths = group.iter().flat_map(|g| g.children()).filter_map(|n| n.attribute("d").map(str::to_owned));
    paths.map(|d| BezPath::from_svg(&d).expect("a path")).collect()
}

fn spare(root: &Path, more: &[&str]) -> String {
    let to = root.join("spare.svg");
    let mut arguments =
        vec!["print", root.to_str().unwrap(), "low-water", "--sheet", "spare", "--to", to.to_str().unwrap()];
    arguments.extend(more);
    let (code, told) = call(&arguments);
    assert_eq!(code, Some(0), "{told}");
    assert!(told.contains("What cannot be matched"), "{told}");
    std::fs::read_to_string(to).unwrap()
}

/// Piece 1 is the rectangle of 20 × 20 mm at the top left; moved out by 0.1 mm a rectangle gains 0.1 × its outline and a disc of 0.1 mm (Steiner's formula).
#[test]
fn a_spare_runs_on_the_drawn_line_and_snug_moves_it_out() {
    let root = plain("spare");
    let svg = spare(&root, &["--piece", "1"]);
    let cut = path_data(&svg, "cut");
    assert_eq!(cut.len(), 1);
    assert!((cut[0].area().abs() - 400.0).abs() < 1e-6, "{}", cut[0].area());
    assert!(
        svg.contains("width=\"30.0000mm\"") && svg.contains("viewBox=\"0 0 30.0000 30.0000\""),
        "true to size: {svg}"
    );
    assert!(path_data(&svg, "score").is_empty());
    let snug = path_data(&spare(&root, &["--piece", "1", "--snug", "0.1 mm"]), "cut");
    let steiner = 400.0 + 80.0 * 0.1 + std::f64::consts::PI * 0.01;
    assert!((snug[0].area().abs() - steiner).abs() < 0.002, "{} {steiner}", snug[0].area());
}

/// The scored line from (45, 5) to (55, 15) lies in the third piece of the first row.
#[test]
fn score_lines_inside_the_piece_come_along() {
    let root = plain("spare-score");
    let score = path_data(&spare(&root, &["--piece", "3"]), "score");
    assert_eq!(score.len(), 1, "the line that is scored and cut lies on another piece's edge");
    let ends: Vec<_> = score[0].elements().iter().filter_map(|e| e.end_point()).collect();
    assert!((length_mm(ends[0], ends[1]) - 200.0_f64.sqrt()).abs() < 1e-3);
    // The piece's top left corner is (40, 0), and the margin 5 mm.
    assert!((ends[0] - kurbo::Point::new(10.0, 10.0)).hypot() < 1e-3, "{:?}", ends[0]);
}

/// The piece itself is the reference: a shop with the spare for its drawing measures one piece, with the area that the lost one has after the kerf.
#[test]
fn the_spare_read_back_is_the_lost_piece() {
    let root = plain("spare-back");
    let lone = "title = \"Spare\"\nstatus = \"draft\"\n[board]\nwood = \"birch-plywood\"\nthickness = \"4 mm\"\nkerf = \"0.2 mm\"\ndensity = \"650 kg/m3\"\n[drawing.layers]\ncut = \"cut\"\n";
    let read = kerfleaf::shop::read(&root).unwrap();
    let measured = kerfleaf::figures::measure(read.entries[0].design.as_ref().unwrap(), &read.settings).unwrap();
    for (index, piece) in measured.board.pieces.iter().enumerate() {
        let svg = spare(&root, &["--piece", &(index + 1).to_string()]);
        let lone = figures(&shop("spare-back-shop", &[("spare", lone, &svg)]));
        // What lies in a hole of the piece is cut free with it.
        let outer = lone["pieces"]["largest_mm2"].as_f64().unwrap();
        assert!((outer - piece.net_mm2).abs() < 0.01, "piece {}: {outer} {}", index + 1, piece.net_mm2);
        assert_eq!(lone["pieces"]["count"], 1 + piece.face.holes.len(), "piece {}", index + 1);
    }
}

#[test]
fn an_older_drawing_gives_the_older_piece_and_names_its_mark() {
    let root = plain("spare-old");
    let older = DRAWING.replace("M20 0V80", "M22 0V80");
    write(&root, "older.svg", &older);
    let svg = spare(&root, &["--piece", "1", "--drawing", root.join("older.svg").to_str().unwrap()]);
    assert!((path_data(&svg, "cut")[0].area().abs() - 440.0).abs() < 1e-6);
    let now = figures(&root)["mark"].as_str().unwrap().to_owned();
    assert!(svg.contains("drawing mark") && !svg.contains(&now), "the mark of the older drawing");
}

#[test]
fn a_piece_that_is_not_there_is_told_with_the_numbers_that_are() {
    let root = plain("spare-none");
    let (code, told) = call(&["print", root.to_str().unwrap(), "low-water", "--sheet", "spare", "--piece", "26"]);
    assert_eq!(code, Some(1));
    assert!(told.contains("there is no piece 26: the board has pieces 1 to 25"), "{told}");
}

#[test]
fn titles_of_three_hundred_letters_and_from_right_to_left_are_set_on_the_bench() {
    let long = "Heron, reed and ferry ".repeat(14)[..300].to_owned();
    for (name, title) in [("bench-long", long.as_str()), ("bench-hebrew", "מעבורת בשעת שפל")] {
        let root = shop(name, &[("low-water", &record(title, ""), DRAWING)]);
        for sheet in ["count", "bench"] {
            pdf::is_sound(&printed(&root, sheet, &[]));
        }
    }
}
