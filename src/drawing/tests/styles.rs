//! Which values hold: CSS Cascade 4 and SVG 2, section 6; what is drawn at all.

use super::*;
use crate::shape::Point;

const RED: Rgb = Rgb::new(204, 0, 0);
const BLUE: Rgb = Rgb::new(0, 102, 204);

/// Lengths of what is stroked red (cut) and blue (score).
fn red_and_blue(content: &str) -> (f64, f64) {
    let layers = by_stroke(&[(Layer::Cut, RED), (Layer::Score, BLUE)]);
    let drawing = read_as(&page(content), &layers).unwrap().value;
    (length_of(&drawing, Layer::Cut), length_of(&drawing, Layer::Score))
}

#[test]
fn stronger_declarations_win() {
    for (content, expected) in [
        // Attribute < rule < style < !important.
        ("<style>.saw{stroke:#c00}</style><path class='saw' stroke='#06c' d='M0 0h10'/>", (10.0, 0.0)),
        ("<style>.saw{stroke:#c00}</style><path class='saw' style='stroke:#06c' d='M0 0h10'/>", (0.0, 10.0)),
        ("<style>.saw{stroke:#c00 !important}</style><path class='saw' style='stroke:#06c' d='M0 0h10'/>", (10.0, 0.0)),
        // Weight of selectors, then order.
        (
            "<style>line.saw{stroke:#c00} g > line{stroke:#06c} line{stroke:#06c}</style><g><line class='saw' x2='10'/></g>",
            (10.0, 0.0),
        ),
        (
            "<style>#b path{stroke:#06c} .saw{stroke:#c00}</style><g id='b'><g><path class='saw' d='M0 0h10'/></g></g>",
            (0.0, 10.0),
        ),
        (
            "<style>g>path{stroke:#06c} .x{fill:none}</style><g><a><path stroke='#c00' d='M0 0h10'/></a></g>",
            (10.0, 0.0),
        ),
        ("<style>path{stroke:#c00}</style><style>path{stroke:#06c}</style><path d='M0 0h10'/>", (0.0, 10.0)),
        ("<style><![CDATA[path{stroke:#c00}]]></style><path d='M0 0h10'/>", (10.0, 0.0)),
        (
            "<style>@media print{path{stroke:#06c}} .a, .b{stroke:#c00}</style><path class='x b' d='M0 0h10'/>",
            (10.0, 0.0),
        ),
        ("<style media='print'>path{stroke:#06c}</style><path stroke='#c00' d='M0 0h10'/>", (10.0, 0.0)),
        // What cannot be read leaves weaker values in force.
        ("<path stroke='#c00' style='stroke:reddish' d='M0 0h10'/>", (10.0, 0.0)),
    ] {
        assert_eq!(red_and_blue(content), expected, "{content}");
    }
}

#[test]
fn values_are_inherited() {
    for (content, expected) in [
        ("<g stroke='#c00'><path d='M0 0h10'/><path stroke='#06c' d='M0 0h10'/></g>", (10.0, 10.0)),
        ("<g stroke='#c00'><g stroke='none'><path stroke='inherit' d='M0 0h10'/></g></g>", (0.0, 0.0)),
        ("<g color='#c00'><path stroke='currentColor' d='M0 0h10'/></g>", (10.0, 0.0)),
        // CSS Color 4, section 9: the keyword itself is inherited.
        ("<g color='#06c' stroke='currentcolor'><path color='#c00' d='M0 0h10'/></g>", (10.0, 0.0)),
        // SVG 2, section 5.5: the use element is the parent.
        ("<defs><g stroke='#06c'><path id='p' d='M0 0h10'/></g></defs><use href='#p' stroke='#c00'/>", (10.0, 0.0)),
        (
            "<defs><path id='p' fill='none' stroke='context-stroke' d='M0 0h10'/></defs><use href='#p' stroke='#c00'/>",
            (10.0, 0.0),
        ),
        // A swatch kept as a gradient of one colour.
        (
            "<linearGradient id='s'><stop stop-color='#c00'/></linearGradient><linearGradient id='t' href='#s'/><path stroke='url(#t)' d='M0 0h10'/>",
            (10.0, 0.0),
        ),
        (
            "<linearGradient id='s'><stop stop-color='#c00'/><stop stop-color='#06c'/></linearGradient><path stroke='url(#s)' d='M0 0h10'/>",
            (0.0, 0.0),
        ),
        ("<path stroke='url(#gone) #c00' d='M0 0h10'/>", (10.0, 0.0)),
    ] {
        assert_eq!(red_and_blue(content), expected, "{content}");
    }
}

/// SVG 2, sections 5 and 11: what is not rendered.
#[test]
fn what_is_not_drawn_is_left_out() {
    for (content, expected) in [
        ("<path display='none' d='M0 0h7'/><g style='display:none'><path d='M0 0h7'/></g><path d='M0 0h1'/>", 1.0),
        ("<style>.gone{display:none}</style><path class='gone' d='M0 0h7'/><path d='M0 0h1'/>", 1.0),
        ("<g visibility='hidden'><path d='M0 0h7'/><path visibility='visible' d='M0 0h1'/></g>", 1.0),
        ("<path visibility='collapse' d='M0 0h7'/><path d='M0 0h1'/>", 1.0),
        (
            "<defs><path d='M0 0h7'/></defs><symbol><path d='M0 0h7'/></symbol><clipPath><path d='M0 0h7'/></clipPath><path d='M0 0h1'/>",
            1.0,
        ),
        (
            "<marker><path d='M0 0h7'/></marker><pattern><path d='M0 0h7'/></pattern><mask><path d='M0 0h7'/></mask><path d='M0 0h1'/>",
            1.0,
        ),
        (
            "<switch><desc/><path systemLanguage='xx' d='M0 0h7'/><path systemLanguage='de, en-GB' d='M0 0h1'/><path d='M0 0h9'/></switch>",
            1.0,
        ),
        ("<own:thing><path d='M0 0h7'/></own:thing><own:path d='M0 0h7'/><path d='M0 0h1'/>", 1.0),
        (
            "<path d=''/><path d='none'/><rect width='5'/><circle r='0'/><polygon points=''/><line x1='3' x2='3'/><path d='M0 0h1'/>",
            1.0,
        ),
        ("<path stroke='none' fill='none' d='M0 0h1'/>", 1.0),
    ] {
        let drawing = inside(&format!("<g id='cuts'>{content}</g>")).unwrap().value;
        assert_eq!(length_of(&drawing, Layer::Cut), expected, "{content}");
    }
}

/// SVG 2: geometry and transforms are properties, and can be set by style.
#[test]
fn geometry_can_be_set_by_style() {
    let read = |content: &str| extent(&inside(&format!("<g id='cuts'>{content}</g>")).unwrap().value);
    assert_near(&read("<style>rect{width:20px;height:5px}</style><rect x='1' y='2'/>"), &[1.0, 2.0, 21.0, 7.0], 1e-9);
    assert_near(&read("<path style='d:path(\"M1 2L3 4\")'/>"), &[1.0, 2.0, 3.0, 4.0], 1e-9);
    assert_near(
        &read("<rect width='4' height='2' style='transform: translate(10px, 5px) rotate(90deg)'/>"),
        &[8.0, 5.0, 10.0, 9.0],
        1e-9,
    );
    assert_near(
        &read("<rect width='4' height='2' transform='rotate(180)' transform-origin='50% 10'/>"),
        &[96.0, 18.0, 100.0, 20.0],
        1e-9,
    );
    assert_near(
        &read("<rect width='4' height='2' transform='scale(2)' style='transform-origin: bottom left'/>"),
        &[0.0, -100.0, 8.0, -96.0],
        1e-9,
    );
}

#[test]
fn fills_keep_their_order_colour_and_rule() {
    let layers = by_name(&[(Layer::Colour, "colours")]);
    let content = "<g id='colours' fill='#123456'><path d='M0 0h9v9zM1 1h2v2'/>\
                   <path fill='red' fill-rule='evenodd' d='M0 0h9v9z'/><path fill='none' d='M0 0h9v9z'/>\
                   <path d='M0 0h9'/><circle r='5'/></g>";
    let drawing = read_as(&page(content), &layers).unwrap().value;
    let seen: Vec<_> = drawing.fills.iter().map(|f| (f.colour, f.even_odd, f.rings.len())).collect();
    let dark = Rgb::new(0x12, 0x34, 0x56);
    assert_eq!(seen, [(dark, false, 2), (Rgb::new(255, 0, 0), true, 1), (dark, false, 1)]);
}

#[test]
fn marks_lie_in_the_middle_of_their_box() {
    let layers = by_name(&[(Layer::Marks, "marks")]);
    // A half disc of radius 10 below its diameter: its box is 20 by 10.
    let content = "<g id='marks' fill='red' transform='translate(30 40)'><path d='M-10 0A10 10 0 0 0 10 0z'/>\
                   <rect x='-2' y='-2' width='4' height='4' transform='rotate(45)'/></g>";
    let drawing = read_as(&page(content), &layers).unwrap().value;
    assert_eq!(drawing.marks.len(), 2);
    for (mark, expected) in drawing.marks.iter().zip([Point::new(30.0, 45.0), Point::new(30.0, 40.0)]) {
        assert!((mark.at_mm - expected).hypot() < 5e-4, "{:?}", mark.at_mm);
        assert_eq!(mark.colour, Rgb::new(255, 0, 0));
    }
}
