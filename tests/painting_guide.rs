//! The painting guide as others see it: qpdf, pdftotext, and a reader of page contents that knows nothing of how it was made.
#![cfg(feature = "sheets")]

#[path = "support/landscape.rs"]
mod landscape;
#[path = "support/pdf.rs"]
mod pdf;

use std::collections::BTreeMap;
use std::path::PathBuf;

use kerfleaf::drawing::{Layer, Line};
use kerfleaf::figures::Measured;
use kerfleaf::inmost;
use kerfleaf::paint::{Cell, Plan};
use kerfleaf::shape::{Face, Point};
use kerfleaf::sheets::{Order, SheetError, painting_guide};
use kerfleaf::shop::{BlankBoard, Design, Paper, Units};

use landscape::{Land, PAINTS, design, measured, settings};

/// 72 points to the inch of 25.4 mm.
const PT: f64 = 72.0 / 25.4;

fn guide(design: &Design, measured: &Measured, paper: Paper) -> Result<Vec<u8>, SheetError> {
    themed(design, measured, paper, &BTreeMap::new())
}

fn themed(
    design: &Design,
    measured: &Measured,
    paper: Paper,
    theme: &BTreeMap<String, Vec<u8>>,
) -> Result<Vec<u8>, SheetError> {
    let settings = settings(Units::Metric);
    let order = Order { design, measured, settings: &settings, paper, language: "en", cover_jpeg: None, theme };
    painting_guide(&order).map(|sheet| sheet.bytes)
}

fn made(name: &str, design: &Design, measured: &Measured, paper: Paper) -> PathBuf {
    let bytes = guide(design, measured, paper).unwrap_or_else(|e| panic!("{name}: {e}"));
    assert!(bytes.len() < 3_000_000, "{name}: {} bytes", bytes.len());
    let path = pdf::saved(&format!("{name}.pdf"), &bytes);
    pdf::is_sound(&path);
    path
}

fn slack_water() -> Design {
    design("Slack water, full moon", BlankBoard::Scored, false)
}

/// Straight lines of a length on a page.
fn straight(page: &pdf::Page, length_pt: f64, within_pt: f64) -> usize {
    let all = page.strokes.iter().flat_map(|s| &s.lines).filter(|l| l.len() == 2);
    all.filter(|l| ((l[1].0 - l[0].0).hypot(l[1].1 - l[0].1) - length_pt).abs() <= within_pt).count()
}

/// ISO 216: 210 × 297 mm. ANSI/ASME Y14.1 size A: 8.5 × 11 in = 612 × 792 pt.
#[test]
fn pages_are_a4_or_letter() {
    let land = Land { columns: 2, rows: 3, ..Land::default() }.measured();
    for (paper, name, width, height) in
        [(Paper::A4, "a4", 210.0 * PT, 297.0 * PT), (Paper::Letter, "letter", 612.0, 792.0)]
    {
        let pages = pdf::pages(&made(&format!("size-{name}"), &slack_water(), &land, paper));
        assert!(pages.len() >= 6);
        for page in &pages {
            assert!(
                (page.width_pt - width).abs() < 0.01 && (page.height_pt - height).abs() < 0.01,
                "{}",
                page.width_pt
            );
        }
    }
}

#[test]
fn every_palette_name_and_every_number_can_be_found_as_text() {
    let land = Land { columns: 7, rows: 20, ..Land::default() }.measured();
    let path = made("text", &slack_water(), &land, Paper::A4);
    let count = pdf::pages(&path).len();
    let all = pdf::text(&path, 1, count);
    for (name, _, mix) in PAINTS {
        assert!(all.contains(name) && all.contains(mix), "{name}");
    }
    let drawn =
        (1..=count).find(|p| pdf::text(&path, *p, *p).contains("100 mm: measure")).expect("a sheet with the rule");
    let words = pdf::text(&path, drawn, drawn);
    let mut found: BTreeMap<&str, usize> = BTreeMap::new();
    for word in words.split_whitespace() {
        *found.entry(word).or_default() += 1;
    }
    let cells = &land.plan.as_ref().unwrap().cells;
    for number in 1..=PAINTS.len() {
        let wanted = cells.iter().filter(|c| c.paint == Some(number - 1)).count();
        let text = number.to_string();
        let found = found.get(text.as_str()).copied().unwrap_or(0);
        assert!(found >= wanted, "{number} stands {found} times for {wanted} cells");
    }
}

/// The tolerance is 0.05 pt, that is 0.018 mm.
#[test]
fn a_hundred_millimetres_are_283_465_points_on_every_drawing_sheet() {
    let wide = Land { width_mm: 300.0, height_mm: 200.0, ..Land::default() }.measured();
    let pages = pdf::pages(&made("rule", &slack_water(), &wide, Paper::A4));
    let with_rule = pages.iter().filter(|p| straight(p, 283.465, 0.05) > 0).count();
    assert_eq!(with_rule, 2, "300 mm come on two sheets of A4");
}

/// The drawing's own points are the reference: what the page strokes, brought back to millimetres, lies on them.
#[test]
fn outline_and_borders_lie_where_the_drawing_has_them() {
    let (width, height) = (180.0, 230.0);
    let land = Land { width_mm: width, height_mm: height, columns: 3, rows: 8, ..Land::default() }.measured();
    let pages = pdf::pages(&made("exact", &slack_water(), &land, Paper::A4));
    let page = pages.iter().find(|p| straight(p, 283.465, 0.05) > 0).expect("the drawing's sheet");
    let outline = page.strokes.iter().find(|s| (s.width_pt - 0.35 * PT).abs() < 0.01).expect("the outline");
    let xs = || outline.lines.iter().flatten().map(|p| p.0);
    let ys = || outline.lines.iter().flatten().map(|p| p.1);
    let (left, right) = (xs().fold(f64::MAX, f64::min), xs().fold(f64::MIN, f64::max));
    let (low, high) = (ys().fold(f64::MAX, f64::min), ys().fold(f64::MIN, f64::max));
    assert!((right - left - width * PT).abs() < 0.05, "{} mm wide", (right - left) / PT);
    assert!((high - low - height * PT).abs() < 0.05, "{} mm high", (high - low) / PT);

    let borders: Vec<_> = page.strokes.iter().filter(|s| (s.width_pt - 0.15 * PT).abs() < 0.01 && !s.curved).collect();
    let to_mm = |p: &(f64, f64)| Point::new((p.0 - left) / PT, (high - p.1) / PT);
    let drawn: Vec<(Point, Point)> = borders
        .iter()
        .flat_map(|s| &s.lines)
        .flat_map(|l| l.windows(2).map(|w| (to_mm(&w[0]), to_mm(&w[1]))).collect::<Vec<_>>())
        .collect();
    assert!(drawn.len() > 200, "{} stretches", drawn.len());
    let off = |p: Point, segments: &[(Point, Point)]| {
        let distances = segments.iter().map(|(a, b)| {
            let d = *b - *a;
            let t = ((p - *a).dot(d) / d.hypot2().max(1e-12)).clamp(0.0, 1.0);
            (p - (*a + d * t)).hypot()
        });
        distances.fold(f64::MAX, f64::min)
    };
    let cells = &land.plan.as_ref().unwrap().cells;
    let rings = || cells.iter().map(|c| &c.face.outer);
    let wanted: Vec<(Point, Point)> =
        rings().flat_map(|r| r.iter().copied().zip(r.iter().copied().cycle().skip(1))).collect();
    for (a, b) in &drawn {
        let farthest = off(*a, &wanted).max(off(*b, &wanted));
        assert!(farthest < 0.02, "a border at {a:?} lies {farthest} mm off");
    }
    let inside = |p: &&Point| p.x > 0.1 && p.x < width - 0.1 && p.y > 0.1 && p.y < height - 0.1;
    for p in rings().flatten().filter(inside) {
        let distance = off(*p, &drawn);
        assert!(distance < 0.02, "the border through {p:?} is missing by {distance} mm");
    }
}

/// A buyer who paints a scored board must not see how it will be cut.
#[test]
fn cut_lines_are_on_no_page() {
    let mut land = Land { columns: 2, rows: 4, sliver_mm: None, ..Land::default() }.measured();
    let before = guide(&slack_water(), &land, Paper::A4).unwrap();
    let zigzag = (0..40).map(|i| Point::new(3.0 + f64::from(i) * 4.0, if i % 2 == 0 { 20.0 } else { 200.0 })).collect();
    for layer in [Layer::Cut, Layer::Novelty, Layer::Personal, Layer::PersonalScore] {
        land.drawing.lines.push(Line { layer, points: Vec::clone(&zigzag), closed: false });
    }
    assert!(guide(&slack_water(), &land, Paper::A4).unwrap() == before, "the lines changed the guide");
    land.drawing.lines.push(Line { layer: Layer::Score, points: zigzag, closed: false });
    assert!(
        guide(&slack_water(), &land, Paper::A4).unwrap() != before,
        "a scored detail is on the board and on the sheet"
    );
}

#[test]
fn the_same_order_gives_the_same_bytes() {
    let land = Land::default().measured();
    let (one, two) = (guide(&slack_water(), &land, Paper::Letter), guide(&slack_water(), &land, Paper::Letter));
    assert!(one.unwrap() == two.unwrap());
}

#[test]
fn a_character_without_a_glyph_is_named_with_its_text() {
    let land = Land { columns: 1, rows: 2, ..Land::default() }.measured();
    let mut design = slack_water();
    design.paints[2].name = "Abendblau 夕".to_owned();
    let expected =
        SheetError::NoGlyph { what: "palette 3, name".to_owned(), text: "Abendblau 夕".to_owned(), character: '夕' };
    assert_eq!(guide(&design, &land, Paper::A4), Err(expected));
}

#[test]
fn words_of_an_owner_are_never_markup() {
    let land = Land { columns: 1, rows: 2, ..Land::default() }.measured();
    let title = "#read(\"/data.json\") *x* $y$ <z> \\ [a] @b // c \"d\"";
    let path = made("markup", &design(title, BlankBoard::Cut, true), &land, Paper::A4);
    let words = pdf::text(&path, 1, 1).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains(title), "{words}");
}

#[test]
fn titles_of_three_hundred_letters_and_from_right_to_left_are_set() {
    let land = Land { columns: 1, rows: 2, ..Land::default() }.measured();
    let long = "Heron, reed and ferry ".repeat(14);
    let path = made("long-title", &design(&long[..300], BlankBoard::Scored, true), &land, Paper::Letter);
    assert_eq!(pdf::text(&path, 1, 1).matches("Heron,").count(), 14);
    made("one-long-word", &design(&"w".repeat(300), BlankBoard::Scored, true), &land, Paper::A4);
    made("hebrew", &design("מעבורת בשעת שפל", BlankBoard::Scored, true), &land, Paper::A4);
}

#[test]
fn a_board_of_two_metres_comes_on_sheets_that_name_their_neighbours() {
    let land = Land { width_mm: 2000.0, height_mm: 1400.0, columns: 8, rows: 12, ..Land::default() }.measured();
    let path = made("two-metres", &slack_water(), &land, Paper::A4);
    let pages = pdf::pages(&path);
    let sheets = pages.iter().filter(|p| straight(p, 283.465, 0.05) > 0).count();
    let text = pdf::text(&path, 1, pages.len());
    assert!((50..120).contains(&sheets), "{sheets} sheets");
    assert!(text.contains(&format!("it comes on {sheets} sheets")), "the map counts them");
    for name in ["Sheet A1", "Sheet B2", "joins A2", "joins B1"] {
        assert!(text.contains(name), "{name}");
    }
}

/// A cell of 0.5 mm²: no number fits, so it stands beside it.
#[test]
fn a_cell_of_half_a_square_millimetre_has_its_number_beside_it() {
    let square = |x: f64, y: f64, w: f64, h: f64| {
        [(x, y), (x + w, y), (x + w, y + h), (x, y + h)].map(|(x, y)| Point::new(x, y)).to_vec()
    };
    let board = square(0.0, 0.0, 100.0, 80.0);
    let hole = square(50.0, 40.0, 1.0, 0.5);
    let around = Face { outer: board.clone(), holes: vec![hole.iter().rev().copied().collect()] };
    let cell = |paint: usize, face: Face| Cell {
        paint: Some(paint),
        area_mm2: face.area_mm2(),
        label: inmost::place(&face),
        face,
    };
    let small = Face { outer: hole, holes: Vec::new() };
    assert_eq!(small.area_mm2(), 0.5);
    let plan = Plan { cells: vec![cell(0, around), cell(12, small)] };
    let land = measured(board, Some(plan), [100.0, 80.0], 8000.0);
    let path = made("half", &slack_water(), &land, Paper::A4);
    let count = pdf::pages(&path).len();
    let drawn = (1..=count).map(|p| pdf::text(&path, p, p)).find(|t| t.contains("100 mm: measure")).unwrap();
    assert!(drawn.split_whitespace().any(|w| w == "13"), "{drawn}");
    assert!(drawn.contains("belongs to the cell at the dot"), "{drawn}");
}

#[test]
fn without_a_paint_plan_there_is_an_outline_and_a_sketch_page() {
    let land = Land { planned: false, ..Land::default() }.measured();
    let path = made("free", &design("Your own", BlankBoard::Cut, false), &land, Paper::A4);
    let text = pdf::text(&path, 1, 20);
    for words in ["Sketch page", "The board, true to size", "The order of work", "k3v7qd"] {
        assert!(text.contains(words), "{words}");
    }
    assert!(!text.contains("Palette") && !text.contains("Trial page"), "{text}");
}

#[test]
fn the_steps_follow_how_the_board_comes() {
    let land = Land { columns: 1, rows: 2, ..Land::default() }.measured();
    let text = |board, primed, name: &str| {
        let path = made(name, &design("Steps", board, primed), &land, Paper::A4);
        pdf::text(&path, 1, 4).split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let scored = text(BlankBoard::Scored, false, "scored");
    assert!(scored.contains("two to three thin coats of primer") && scored.contains("Have it cut, or keep it whole"));
    let cut = text(BlankBoard::Cut, true, "cut");
    assert!(!cut.contains("coats of primer") && cut.contains("Loosen the pieces") && cut.contains("backing sheet"));
    for said in [&scored, &cut] {
        for words in
            ["Oily cloths", "follow your local codes", "keep away from young children", "dust mask", "Their vapour"]
        {
            assert!(said.contains(words), "{words}");
        }
    }
}

#[test]
fn a_theme_can_replace_the_template_and_its_mistakes_are_told_with_their_line() {
    let land = Land { columns: 1, rows: 2, ..Land::default() }.measured();
    let own = |text: &str| BTreeMap::from([("sheets/painting.typ".to_owned(), text.as_bytes().to_vec())]);
    let plain = "#import \"common.typ\": *\n#show: sheet\n= Ours\n#data.title\n";
    let bytes = themed(&slack_water(), &land, Paper::A4, &own(plain)).unwrap();
    assert!(pdf::text(&pdf::saved("ours.pdf", &bytes), 1, 1).contains("Ours"));

    let wrong =
        themed(&slack_water(), &land, Paper::A4, &own("= Ours\n\n#data.title\n")).expect_err("data is not imported");
    let SheetError::Template { file, line, .. } = &wrong else { panic!("{wrong}") };
    assert_eq!((file.as_str(), *line), ("/sheets/painting.typ", Some(3)), "{wrong}");

    for reaching_out in
        ["#read(\"/etc/passwd\")", "#read(\"../../Cargo.toml\")", "#import \"@preview/example:0.1.0\": *"]
    {
        let refused = themed(&slack_water(), &land, Paper::A4, &own(reaching_out));
        assert!(matches!(refused, Err(SheetError::Template { .. })), "{reaching_out}");
    }
}

#[test]
fn a_record_without_a_date_keeps_to_pdf_ua_alone() {
    let land = Land { columns: 1, rows: 2, ..Land::default() }.measured();
    let mut design = slack_water();
    let conforms = |bytes: &[u8], what: &[u8]| bytes.windows(what.len()).any(|w| w == what);
    let dated = guide(&design, &land, Paper::A4).unwrap();
    assert!(conforms(&dated, b"pdfuaid:part>1<") && conforms(&dated, b"pdfaid:part>2<"));
    design.added = None;
    let undated = guide(&design, &land, Paper::A4).unwrap();
    assert!(conforms(&undated, b"pdfuaid:part>1<") && !conforms(&undated, b"pdfaid:part"));
    assert!(!conforms(&undated, b"/CreationDate"));
}
