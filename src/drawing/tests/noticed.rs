//! What is noticed about a drawing and survived. Handbook, "Findings".

use super::*;

#[test]
fn clips_masks_and_markers_are_told_and_not_applied() {
    for (content, count) in [
        ("<path clip-path='url(#c)' d='M10 20h5'/>", 1),
        ("<path style='mask:url(#m)' d='M10 20h5'/>", 1),
        ("<style>path{marker:url(#m)}</style><path d='M10 20h5'/>", 1),
        ("<g marker-end='url(#m)'><path d='M10 20h5'/></g>", 1),
        ("<g clip-path='url(#c)'><path d='M10 20h2'/><path d='M10 22h3'/></g>", 1),
        ("<path clip-path='url(#c)' d='M10 20h2'/><path clip-path='url(#c)' d='M0 0h3'/>", 2),
        ("<path clip-path='none' mask='none' marker-start='none' d='M10 20h5'/>", 0),
        ("<g marker-end='url(#m)'><path marker-end='none' d='M10 20h5'/></g>", 0),
    ] {
        let checked = inside(&format!("<g id='cuts'>{content}</g>")).unwrap();
        assert_eq!(length_of(&checked.value, Layer::Cut), 5.0, "{content}");
        assert_eq!(kinds(&checked), vec![Kind::Clipped; count], "{content}");
        if count == 1 {
            assert_eq!(checked.findings[0].at_mm, Some((10.0, 20.0).into()));
        }
    }
}

#[test]
fn text_and_images_in_a_cut_layer_are_told_once_each() {
    let content = "<g id='cuts'><path d='M0 0h1'/><text x='20' y='30'>HEL<tspan>LO</tspan><textPath href='#x'>!</textPath></text>\
                   <image x='4' y='5' width='10' height='10' href='photo.png'/><foreignObject width='9' height='9'/>\
                   <use href='other.svg#part'/><use href='#gone'/></g>";
    let checked = inside(content).unwrap();
    assert_eq!(
        kinds(&checked),
        [Kind::NotALine, Kind::NotALine, Kind::NotALine, Kind::NotALine, Kind::TextNotOutlined]
    );
    let text = checked.findings.last().unwrap();
    assert_eq!(text.at_mm, Some((20.0, 30.0).into()));
    assert!(text.message.contains("HELLO!"), "{}", text.message);
}

#[test]
fn a_layer_that_matches_nothing_is_told() {
    let layers =
        by_name(&[(Layer::Cut, "cuts"), (Layer::Score, "score"), (Layer::Colour, "colours"), (Layer::Marks, "marks")]);
    let content =
        "<g id='cuts'><path d='M0 0h1'/></g><g id='score'/><g id='colours'><path fill='none' d='M0 0h9v9'/></g>";
    let checked = read_as(&page(content), &layers).unwrap();
    assert_eq!(kinds(&checked), [Kind::NothingInLayer; 3]);
    assert!(checked.findings.iter().all(|f| f.at_mm.is_none()));
    // In part is fine as long as the layer has something.
    let mut layers = by_name(&[(Layer::Cut, "cuts")]);
    layers.0[0].1.push(Selector::Name("gone".into()));
    assert_eq!(kinds(&read_as(&page(content), &layers).unwrap()), []);
}

#[test]
fn what_no_layer_takes_is_told_by_group() {
    let content = "<g id='cuts'><path d='M0 0h1'/></g>\
                   <g label='Sketch' stroke='red'><path d='M5 6h3'/><g><path d='M7 8h4'/></g><path d='M0 0h2'/></g>\
                   <path stroke='red' d='M1 2h1'/><rect x='3' y='3' width='1' height='1'/>\
                   <path fill='none' d='M0 0h50'/><text>note</text>";
    let checked = inside(content).unwrap();
    let told: Vec<_> = checked.findings.iter().map(|f| (f.kind, f.at_mm.map(|p| (p.x, p.y)))).collect();
    let kind = Kind::OutsideAnyLayer;
    assert_eq!(told, [(kind, Some((1.0, 2.0))), (kind, Some((5.0, 6.0))), (kind, Some((7.0, 8.0)))]);
    let message = &checked.findings[1].message;
    assert!(
        message.contains("2 drawn elements belong to no layer, in the group `Sketch`") && message.contains("5.0 mm"),
        "{message}"
    );
    assert!(checked.findings[0].message.starts_with("3 drawn elements"), "{}", checked.findings[0].message);
}

#[test]
fn a_gradient_in_the_colour_layer_is_no_paint() {
    let layers = by_name(&[(Layer::Colour, "colours")]);
    let content = "<linearGradient id='g'><stop stop-color='red'/><stop stop-color='blue'/></linearGradient>\
                   <g id='colours'><rect x='1' y='2' width='9' height='9' fill='url(#g)'/></g>";
    let checked = read_as(&page(content), &layers).unwrap();
    assert_eq!(kinds(&checked), [Kind::UnnamedPaint]);
    assert_eq!(checked.findings[0].at_mm, Some((1.0, 2.0).into()));
}
