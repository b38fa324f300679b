//! What stops a reading: never a shorter line, never a crash, never a wait.

use super::*;

#[test]
fn a_value_that_cannot_be_read_is_told_with_its_place() {
    let svg = "<svg xmlns='http://www.w3.org/2000/svg' width='9mm' height='9mm' viewBox='0 0 9 9'>\n<g id='cuts'>\n  <path id=\"rope\" d=\"M10 10 L 60 ten\"/>\n</g></svg>";
    let error = read_as(svg, &by_name(&[(Layer::Cut, "cuts")])).unwrap_err();
    let DrawingError::BadPath(fault) = &error else { panic!("{error}") };
    assert_eq!((fault.byte, fault.element.as_str()), (12, "<path id=\"rope\">"));
    // Line 3: 21 characters stand before the value, twelve of the value before the fault.
    assert_eq!(error.line_column(), Some((3, 34)));
    assert_eq!(
        error.to_string(),
        "line 3, column 34: `d` of <path id=\"rope\"> cannot be read from byte 12 on: `ten` is not a number"
    );
}

#[test]
fn every_kind_of_value_is_minded_in_a_layer_and_in_no_other() {
    for content in [
        "<path d='M0 0L5'/>",
        "<path d='0 0 5 5'/>",
        "<polygon points='0 0 5 5 9'/>",
        "<polyline points='0 0 5 x'/>",
        "<rect width='5' height='5xx'/>",
        "<rect width='-5' height='5'/>",
        "<circle r='-1'/>",
        "<line x2='NaN'/>",
        "<path transform='rotate(ten)' d='M0 0h1'/>",
        "<g transform='scale(2'><path d='M0 0h1'/></g>",
        "<g style='rotate: 20deg'><path d='M0 0h1'/></g>",
        "<svg viewBox='0 0 x'><path d='M0 0h1'/></svg>",
        "<symbol id='s'><path d='M0 0h1'/></symbol><use href='#s' x='left'/>",
        "<path d='M1e300 0L-1e300 1e308'/>",
        "<path d='M0 0C1e200 0 1e200 5 5 5'/>",
        "<path d='M0 0A1e308 1e308 0 0 1 1e9 5'/>",
        "<g transform='scale(1e200)'><g transform='scale(1e200)'><path d='M0 0h1'/></g></g>",
    ] {
        let error = inside(&format!("<g id='cuts'>{content}</g>")).map(|_| content).unwrap_err();
        assert!(error.line_column().is_some(), "{content}: {error}");
        assert!(inside(&format!("<g id='other'>{content}</g>")).is_ok(), "{content}");
    }
}

#[test]
fn what_is_no_drawing_is_told() {
    let layers = by_name(&[(Layer::Cut, "cuts")]);
    let cut_off = "<svg xmlns='http://www.w3.org/2000/svg' width='1mm'>\n<path d=\"M5 5 L105 ";
    for (svg, place) in [(cut_off, (2, 18)), ("", (1, 1)), ("<svg>&nobody;</svg>", (1, 6))] {
        let error = read_as(svg, &layers).unwrap_err();
        assert!(matches!(error, DrawingError::NotXml { .. }), "{error}");
        assert!(error.line_column().is_some_and(|at| at >= place), "{error}");
    }
    assert!(matches!(read_as("<html/>", &layers), Err(DrawingError::NotSvg { .. })));
    assert!(matches!(read_as("<svg xmlns='urn:other'/>", &layers), Err(DrawingError::NotSvg { .. })));
}

#[test]
fn uses_that_draw_themselves_end_in_an_error() {
    for content in [
        "<g id='a'><use href='#a'/></g>",
        "<defs><g id='a'><use href='#b'/></g><g id='b'><use href='#a'/></g></defs><use href='#a'/>",
        "<use id='a' href='#a'/>",
        "<symbol id='s'><use href='#s'/></symbol><use href='#s'/>",
    ] {
        assert!(matches!(inside(content), Err(DrawingError::UseLoop { .. })), "{content}");
    }
}

#[test]
fn drawings_that_unfold_without_end_are_refused() {
    let mut folded = String::from("<defs><path id='u0' d='M0 0h1'/>");
    for level in 1..40 {
        let below = format!("<use href='#u{}'/>", level - 1).repeat(10);
        folded.push_str(&format!("<g id='u{level}'>{below}</g>"));
    }
    folded.push_str("</defs><g id='cuts'><use href='#u39'/></g>");
    assert!(matches!(inside(&folded), Err(DrawingError::TooMuch { what: "elements", .. })));

    let deep = format!("{}<path d='M0 0h1'/>{}", "<g>".repeat(50_000), "</g>".repeat(50_000));
    assert!(matches!(inside(&deep), Err(DrawingError::TooMuch { what: "groups within groups", .. })));

    let fat = format!(
        "<!DOCTYPE svg [<!ENTITY a \"{}\">]><svg xmlns='http://www.w3.org/2000/svg'><title>{}</title></svg>",
        "x".repeat(100_000),
        "&a;".repeat(100_000)
    );
    assert!(matches!(read_as(&fat, &by_name(&[(Layer::Cut, "cuts")])), Err(DrawingError::TooMuch { .. })));
}

#[test]
fn entities_of_the_document_type_are_read() {
    let svg = "<?xml version='1.0'?><!DOCTYPE svg PUBLIC '-//W3C//DTD SVG 1.1//EN' \
               'http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd' [<!ENTITY ns 'http://www.w3.org/2000/svg'><!ENTITY c '#cc0000'>]>\
               <svg xmlns='&ns;' width='10mm' height='10mm' viewBox='0 0 10 10'><path stroke='&c;' d='M0 0h1'/></svg>";
    let drawing = read_as(svg, &by_stroke(&[(Layer::Cut, Rgb::new(204, 0, 0))])).unwrap().value;
    assert_eq!(length_of(&drawing, Layer::Cut), 1.0);
}

mod made_up {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Whatever stands in a value, reading ends, and what comes out is finite.
        #[test]
        fn any_text_is_survived(
            d in "[MmLlHhVvCcSsQqTtAaZz0-9 .,eE+-]{0,40}",
            points in "[0-9 .,eE+-]{0,20}",
            transform in "[a-zA-Z0-9 .,()%+-]{0,30}",
            style in "[a-z:;#{}()!.,0-9 \"'@*/-]{0,30}",
            css in "[a-z:;#{}()!.,>+~0-9 \"'@*/\\[\\]=-]{0,40}",
        ) {
            let escape = |s: &str| s.replace('&', "&amp;").replace('<', "&lt;").replace('\'', "&apos;");
            let (style, css) = (escape(&style), escape(&css));
            let content = format!(
                "<style>{css}</style><g id='cuts'><path class='a' d='{d}' style='{style}'/><g transform='{transform}'>\
                 <polyline points='{points}'/></g></g>"
            );
            if let Ok(checked) = inside(&content) {
                prop_assert!(checked.value.lines.iter().flat_map(|l| &l.points).all(|p| p.is_finite()));
                prop_assert!(checked.value.lines.iter().all(|l| l.points.len() > 1));
            }
        }
    }
}
