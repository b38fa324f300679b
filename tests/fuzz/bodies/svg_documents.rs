//! An SVG document of any kind: read or refused; whatever is read is lines on a sheet, the same each time.

use kerfleaf::drawing::{self, Layer, Layers, Reading, Selector};

/// Tags and attributes.
pub const WORDS: &[&str] = &[
    "<svg xmlns=\"http://www.w3.org/2000/svg\">",
    "</svg>",
    "<g id=\"cuts\">",
    "</g>",
    "<path d=\"M0 0h9v9z\"/>",
    "<rect x=\"1\" y=\"1\" width=\"5\" height=\"5\" rx=\"2\"/>",
    "<circle cx=\"5\" cy=\"5\" r=\"3\"/>",
    "<ellipse rx=\"1\" ry=\"2\"/>",
    "<line x1=\"0\" x2=\"9\"/>",
    "<polyline points=\"0,0 9,9 0 9\"/>",
    "<polygon points=\"0 0 9 0 9 9\"/>",
    "<use href=\"#a\"/>",
    "<symbol id=\"a\" viewBox=\"0 0 9 9\">",
    "</symbol>",
    "<defs>",
    "</defs>",
    "<switch>",
    "</switch>",
    "<style>",
    "</style>",
    "path{stroke:#345}",
    ".a .b{fill:red}",
    " transform=\"rotate(45 1 2) scale(-1)\"",
    " transform=\"matrix(1 0 0 0 0 0)\"",
    " viewBox=\"0 0 0 0\"",
    " viewBox=\"0 0 1e9 1\"",
    " width=\"50%\"",
    " width=\"1e-30mm\"",
    " height=\"9in\"",
    " preserveAspectRatio=\"xMaxYMin slice\"",
    " style=\"display:none\"",
    " class=\"a b\"",
    " id=\"a\"",
    " clip-path=\"url(#a)\"",
    "&#x1F600;",
    "<![CDATA[",
    "]]>",
    "<!--",
    "-->",
    "<!DOCTYPE svg [<!ENTITY a \"b\">]>",
    "&a;",
    "<text>a</text>",
    "<image href=\"x.png\"/>",
];

fn named(layer: Layer, name: &str) -> (Layer, Vec<Selector>) {
    (layer, vec![Selector::Name(name.to_string())])
}

/// With four layers, twice.
pub fn holds(data: &[u8]) {
    let text = String::from_utf8_lossy(data);
    let layers = Layers(vec![
        named(Layer::Cut, "cuts"),
        named(Layer::Void, "holes"),
        named(Layer::Colour, "colours"),
        named(Layer::Marks, "marks"),
    ]);
    let how = Reading { layers: &layers, width_mm: None, join_mm: 0.1, with_personal: false };
    let read = drawing::read(&text, &how);
    let _ = drawing::contents(&text, &layers);
    let Ok(read) = read else { return };
    let drawing = &read.value;
    assert!(
        drawing.width_mm.is_finite()
            && drawing.width_mm > 0.0
            && drawing.height_mm.is_finite()
            && drawing.height_mm > 0.0
    );
    for line in &drawing.lines {
        assert!(line.points.len() > if line.closed { 2 } else { 1 }, "a line has a length");
        assert!(line.points.iter().all(|p| p.x.abs() <= 1e6 && p.y.abs() <= 1e6), "places lie on a sheet");
    }
    for rings in drawing.fills.iter().map(|f| &f.rings) {
        assert!(rings.iter().all(|r| r.len() > 2), "a filled ring has a corner");
    }
    let again = drawing::read(&text, &how).expect("read once, read again");
    assert_eq!(again.value, *drawing, "the same each time");
}
