use super::*;
use crate::drawing::{Layer, Line};
use crate::pieces::{self, Near};
use crate::shop::Wood;

fn board() -> pieces::Board {
    let square = [(0., 0.), (40., 0.), (40., 30.), (0., 30.)].map(Point::from).to_vec();
    let lines = [
        Line { layer: Layer::Cut, points: square, closed: true },
        Line { layer: Layer::Cut, points: vec![Point::new(20., 0.), Point::new(20., 29.5)], closed: false },
    ];
    pieces::board(&lines, Near { join_mm: 0.1 }, 0.2).value
}

fn subject(board: &pieces::Board) -> Subject<'_> {
    Subject {
        slug: "two",
        board,
        score: &[],
        plan: None,
        paints: &[],
        wood: &Wood::table()[0],
        thickness_mm: 3.0,
        show_cuts: true,
    }
}

fn mark(number: usize, x: f64, y: f64, problem: bool) -> Mark {
    Mark { number, at_mm: Point::new(x, y), problem, span_mm: 6.0 }
}

/// Red where a problem's ring must be, pixel by pixel: the place is worked out from the drawing's size alone.
#[test]
fn the_ring_of_a_problem_lies_round_its_place() {
    let board = board();
    let png = png(&subject(&board), &[mark(1, 20.0, 29.5, true)]).expect("a picture");
    let picture = image::load_from_memory(&png).expect("PNG").to_rgba8();
    // 40 mm would be 1480 px wide at 37 px/mm, but 12 px/mm is the closest; the picture is centred over the row of cut-outs.
    let left = (picture.width() as f64 - (40.0 * 12.0 + 120.0)) / 2.0;
    let (x, y) = (left + 60.0 + 20.0 * 12.0, 60.0 + 29.5 * 12.0);
    let red = |x: f64, y: f64| {
        let p = picture.get_pixel(x.round() as u32, y.round() as u32).0;
        p[0] > 150 && p[1] < 90 && p[2] < 90
    };
    assert!(red(x - 7.0, y) && red(x, y + 7.0), "the ring");
    assert!(!red(x - 14.0, y) && !red(x, y - 40.0), "and nothing beside it");
}

#[test]
fn every_mark_has_its_number_once_and_no_two_lie_on_each_other() {
    let board = board();
    let marks: Vec<Mark> = (1..=9).map(|n| mark(n, 20.0 + 0.2 * n as f64, 15.0, n % 2 == 0)).collect();
    let whole = overview(&subject(&board), &marks, |m| Some(format!("#f{}", m.number)));
    for n in 1..=9 {
        assert_eq!(whole.svg.matches(&format!("href=\"#f{n}\"")).count(), 1);
    }
    let doc = roxmltree::Document::parse(&whole.svg).expect("XML");
    let number = |n: roxmltree::Node, a: &str| n.attribute(a).and_then(|v| v.parse::<f64>().ok()).expect("a number");
    let badges: Vec<Spot> = doc
        .descendants()
        .filter(|n| n.has_tag_name(("http://www.w3.org/2000/svg", "a")))
        .filter_map(|a| a.children().find(|c| c.tag_name().name() == "rect"))
        .map(|r| Spot { x: number(r, "x"), y: number(r, "y"), width: number(r, "width"), height: number(r, "height") })
        .collect();
    assert_eq!(badges.len(), 9);
    for (i, a) in badges.iter().enumerate() {
        assert!(!badges[i + 1..].iter().any(|b| a.meets(b)));
    }
}

#[test]
fn a_cut_out_shows_only_what_lies_near() {
    let board = board();
    let near = cut_out(&subject(&board), &mark(3, 20.0, 29.5, true));
    let far = cut_out(&subject(&board), &mark(4, 400.0, 400.0, false));
    assert!(near.svg.matches("<path").count() > far.svg.matches("<path").count());
    assert!(near.svg.len() < 4000, "{}", near.svg.len());
}
