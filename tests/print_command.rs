//! The command `print`, called as an owner calls it: options, names of files, what it says, and the same bytes as `publish`.
#![cfg(feature = "sheets")]

#[path = "support/pdf.rs"]
mod pdf;
#[path = "support/small_shop.rs"]
mod small_shop;

use std::fs;

use small_shop::{DRAWING, call, plain, printed, record, shop};

/// One code path: what buyers download is what the owner prints.
#[test]
fn guide_and_catalogue_are_the_same_bytes_from_publish_and_from_print() {
    let root = plain("same-bytes");
    let path = root.to_str().unwrap();
    assert_eq!(call(&["publish", path]).0, Some(0));
    assert_eq!(call(&["print", path, "--sheet", "painting"]).0, Some(0));
    assert_eq!(call(&["print", path, "--sheet", "catalogue"]).0, Some(0));
    for paper in ["a4", "letter"] {
        let of = |published: &str, own: &str| {
            let published = fs::read(root.join("published").join(published)).unwrap();
            let own = fs::read(root.join("sheets").join(own)).unwrap();
            assert!(published == own, "{paper}");
        };
        of(&format!("designs/low-water/painting-guide-{paper}.pdf"), &format!("low-water-painting-{paper}.pdf"));
        of(&format!("catalogue-{paper}.pdf"), &format!("catalogue-{paper}.pdf"));
    }
}

/// Whoever paints a scored board must not see how it will be cut: on the drawing true to size stand outline, cell borders and scored details, and nothing else.
#[test]
fn a_guide_draws_score_lines_and_no_cut() {
    let path = printed(&plain("no-cuts"), "painting", &[]);
    let pt = 72.0 / 25.4;
    let pages = pdf::pages(&path);
    let outline = |page: &pdf::Page| {
        let all = page.strokes.iter().filter(|s| (s.width_pt - 0.35 * pt).abs() < 0.01);
        let points: Vec<(f64, f64)> = all.flat_map(|s| s.lines.iter().flatten().copied()).collect();
        let left = points.iter().map(|p| p.0).fold(f64::MAX, f64::min);
        let top = points.iter().map(|p| p.1).fold(f64::MIN, f64::max);
        let right = points.iter().map(|p| p.0).fold(f64::MIN, f64::max);
        (((right - left) / pt - 120.0).abs() < 0.02).then_some((left, top))
    };
    let (page, (left, top)) = pages.iter().find_map(|p| Some((p, outline(p)?))).expect("the drawing, 120 mm wide");
    let drawn: Vec<[(f64, f64); 2]> = page
        .strokes
        .iter()
        .flat_map(|s| &s.lines)
        .flat_map(|l| l.windows(2).map(|w| [w[0], w[1]].map(|(x, y)| ((x - left) / pt, (top - y) / pt))))
        .collect();
    let off = |x: f64, y: f64| {
        let to = |[(ax, ay), (bx, by)]: &[(f64, f64); 2]| {
            let (dx, dy) = (bx - ax, by - ay);
            let t = (((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy).max(1e-12)).clamp(0.0, 1.0);
            (ax + t * dx - x).hypot(ay + t * dy - y)
        };
        drawn.iter().map(to).fold(f64::MAX, f64::min)
    };
    // Outline, the hole, a border that is cut and scored, a scored detail, the border of the round cell.
    for (x, y) in [(60.0, 0.0), (105.0, 69.0), (5.0, 40.0), (50.0, 10.0), (42.0, 20.0)] {
        assert!(off(x, y) < 0.02, "({x}, {y}) is missing by {} mm", off(x, y));
    }
    // Cuts upright and level, the novelty shape's ring, one buyer's line.
    for (x, y) in
        [(20.0, 70.0), (40.0, 75.0), (60.0, 70.0), (100.0, 10.0), (3.0, 20.0), (20.0, 60.0), (50.0, 35.0), (10.0, 10.0)]
    {
        assert!(off(x, y) > 1.0, "something is drawn at ({x}, {y})");
    }
}

#[test]
fn nothing_private_is_in_the_printed_catalogue() {
    let root = plain("catalogue-private");
    let draft = record("Secret of the weir", "").replace("\"published\"", "\"draft\"").replace("LOW-P/7", "WEIR-P");
    small_shop::write(&root, "designs/weir/record.toml", &draft);
    small_shop::write(&root, "designs/weir/drawing.svg", DRAWING);
    let path = printed(&root, "catalogue", &[]);
    let text = pdf::text(&path, 1, 99);
    for secret in ["Secret of the weir", "WEIR-P", "24.00", "6.00 ", "1.65"] {
        assert!(!text.replace("€60.00", "").contains(secret), "{secret}");
    }
    // No line of it is drawn as a vector in the shape of a cut: the strokes are rules and rulers, none longer than a page is wide.
    for page in pdf::pages(&path) {
        assert!(page.strokes.iter().all(|s| s.lines.iter().all(|l| l.len() <= 5)), "only rules and boxes");
    }
}

#[test]
fn files_are_named_by_design_sheet_and_paper() {
    let root = shop(
        "names",
        &[
            ("low-water", &record("Low water", ""), DRAWING),
            ("two", &record("Two", "").replace("LOW-P/7", "TWO-P"), DRAWING),
        ],
    );
    let path = root.to_str().unwrap();
    assert_eq!(call(&["print", path, "--sheet", "slip"]).0, Some(0));
    assert_eq!(call(&["print", path, "--sheet", "stall", "--paper", "a4"]).0, Some(0));
    assert_eq!(call(&["print", path, "two", "--sheet", "stall", "--paper", "letter"]).0, Some(0));
    assert_eq!(call(&["print", path, "two", "--sheet", "spare", "--piece", "3"]).0, Some(0));
    let mut names: Vec<String> =
        fs::read_dir(root.join("sheets")).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    let expected = [
        "low-water-slip-a4.pdf",
        "low-water-slip-letter.pdf",
        "stall-a4.pdf",
        "two-slip-a4.pdf",
        "two-slip-letter.pdf",
        "two-spare-3.svg",
        "two-stall-letter.pdf",
    ];
    assert_eq!(names, expected);
    // A folder for several, made where it lacks.
    let to = root.join("elsewhere");
    assert_eq!(call(&["print", path, "--sheet", "slip", "--paper", "a4", "--to", to.to_str().unwrap()]).0, Some(0));
    assert!(to.join("two-slip-a4.pdf").is_file());
}

#[test]
fn calls_that_ask_for_what_a_sheet_cannot_give_are_wrong_calls() {
    let root = plain("wrong-calls");
    let path = root.to_str().unwrap();
    for (more, said) in [
        (vec!["low-water", "--sheet", "label", "--with-personal"], "count, bench and spare alone"),
        (vec!["low-water", "--sheet", "painting", "--with-personal"], "count, bench and spare alone"),
        (vec!["low-water", "--sheet", "count", "--piece", "3"], "--piece goes with --sheet spare"),
        (vec!["low-water", "--sheet", "count", "--snug", "0.1 mm"], "--snug goes with --sheet spare"),
        (vec!["low-water", "--sheet", "spare"], "wants one design"),
        (vec!["--sheet", "spare", "--piece", "3"], "wants one design"),
        (vec!["low-water", "--sheet", "spare", "--piece", "3", "--snug", "tight"], "--snug"),
        (vec!["low-water", "--sheet", "catalogue"], "whole shop"),
        (vec!["low-water", "--sheet", "label", "--per-page", "3"], "1, 2, 4, 8"),
        (vec!["low-water", "--sheet", "stall", "--per-page", "1"], "2, 4, 6, 8"),
        (vec!["low-water", "--sheet", "slip", "--per-page", "2"], "label and stall"),
        (vec!["low-water", "--sheet", "slip", "--language", "fr"], "no language `fr`"),
        (vec!["high-water", "--sheet", "slip"], "no design `high-water`"),
    ] {
        let mut arguments = vec!["print", path];
        arguments.extend(&more);
        let (code, told) = call(&arguments);
        assert_eq!(code, Some(2), "{more:?}: {told}");
        assert!(told.contains(said), "{more:?}: {told}");
    }
}

/// The record's own line, with the character marked.
#[test]
fn a_character_that_no_font_has_is_told_with_record_line_and_character() {
    let root = shop("no-glyph", &[("low-water", &record("Low water 霧", ""), DRAWING)]);
    let path = root.to_str().unwrap();
    for sheet in ["painting", "count", "bench", "label", "slip"] {
        let (code, told) = call(&["print", path, "low-water", "--sheet", sheet, "--paper", "a4"]);
        assert_eq!(code, Some(1), "{sheet}: {told}");
        for said in ["designs/low-water/record.toml:1:20", "`霧` (U+9727)", "title = \"Low water 霧\""] {
            assert!(told.contains(said), "{sheet}: {said}: {told}");
        }
    }
    let (code, told) = call(&["publish", path]);
    assert_eq!(code, Some(1), "{told}");
    assert!(told.contains("designs/low-water/record.toml:1:20"), "{told}");
}

#[test]
fn a_broken_design_stops_no_other() {
    let root = shop(
        "one-broken",
        &[
            ("low-water", &record("Low water", ""), DRAWING),
            ("torn", &record("Torn", "").replace("LOW-P/7", "TORN-P"), "<svg"),
        ],
    );
    let (code, told) = call(&["print", root.to_str().unwrap(), "--sheet", "count", "--paper", "a4"]);
    assert_eq!(code, Some(1), "{told}");
    assert!(
        told.contains("designs/torn/drawing.svg") && root.join("sheets/low-water-count-a4.pdf").is_file(),
        "{told}"
    );
    assert!(!root.join("sheets/torn-count-a4.pdf").exists());
}

/// ISO 216: 210 × 297 mm. ANSI/ASME Y14.1 size A: 612 × 792 pt. Either way round.
#[test]
fn every_sheet_is_a4_or_letter_sound_and_the_same_twice() {
    let root = plain("every-sheet");
    let path = root.to_str().unwrap();
    for (paper, short, long) in [("a4", 210.0 / 25.4 * 72.0, 297.0 / 25.4 * 72.0), ("letter", 612.0, 792.0)] {
        for sheet in ["painting", "count", "bench", "label", "slip", "stall", "catalogue"] {
            let files: Vec<Vec<u8>> = ["one.pdf", "two.pdf"]
                .into_iter()
                .map(|name| {
                    let to = root.join(name);
                    let mut arguments =
                        vec!["print", path, "--sheet", sheet, "--paper", paper, "--to", to.to_str().unwrap()];
                    if sheet != "catalogue" {
                        arguments.push("low-water");
                    }
                    let (code, told) = call(&arguments);
                    assert_eq!(code, Some(0), "{sheet}: {told}");
                    pdf::is_sound(&to);
                    fs::read(&to).unwrap()
                })
                .collect();
            assert!(files[0] == files[1], "{sheet}-{paper}");
            assert!(files[0].len() < 3_000_000, "{sheet}-{paper}");
            for page in pdf::pages(&root.join("one.pdf")) {
                let (a, b) = (page.width_pt.min(page.height_pt), page.width_pt.max(page.height_pt));
                assert!((a - short).abs() < 0.01 && (b - long).abs() < 0.01, "{sheet}-{paper}: {a} × {b}");
            }
        }
    }
}
