//! What `add` proposes for every demo drawing, its names and colours changed, so that nothing but its geometry is left to go by.

use std::collections::BTreeMap;

use kerfleaf::drawing::survey::survey;
use kerfleaf::drawing::{self, Layer, Layers, Reading, Selector};
use kerfleaf::propose::{Proposal, Told, propose};
use kerfleaf::shop::{self, Design};

/// Fewer than this means that the demo shop was not found whole.
const LEAST_DESIGNS: usize = 12;

/// The drawing with every id, label and class called `part-…`, and every colour another.
fn disguised(svg: &str) -> (String, BTreeMap<String, String>) {
    let mut names = BTreeMap::new();
    let mut out = svg.to_owned();
    for attribute in ["id", "label", "class"] {
        for (at, _) in svg.match_indices(&format!("{attribute}=\"")) {
            let value = &svg[at + attribute.len() + 2..];
            let value = &value[..value.find('"').unwrap()];
            let new = format!("part-{}", names.len() + 1);
            names.entry(value.to_owned()).or_insert(new);
        }
    }
    for (old, new) in &names {
        for attribute in ["id", "label", "class"] {
            out = out.replace(&format!("{attribute}=\"{old}\""), &format!("{attribute}=\"{new}\""));
        }
        for (mark, ends) in [("#", [" ", "\""]), (".", [" ", "{"]), ("g.", [" ", "{"])] {
            for end in ends {
                out = out.replace(&format!("{mark}{old}{end}"), &format!("{mark}{new}{end}"));
            }
        }
    }
    // Colours: three or six hexadecimal digits behind a `#`.
    let mut coloured = String::new();
    let mut rest = out.as_str();
    while let Some(at) = rest.find('#') {
        let digits: String = rest[at + 1..].chars().take_while(char::is_ascii_hexdigit).collect();
        coloured.push_str(&rest[..=at]);
        let full: String =
            if digits.len() == 3 { digits.chars().flat_map(|c| [c, c]).collect() } else { digits.clone() };
        match u32::from_str_radix(&full, 16) {
            Ok(value) if full.len() == 6 => {
                coloured.push_str(&format!("{:06x}", value.rotate_left(5) & 0xff_ffff ^ value >> 19 ^ 0x1b_4c_a7))
            }
            _ => coloured.push_str(&digits),
        }
        rest = &rest[at + 1 + digits.len()..];
    }
    coloured.push_str(rest);
    assert_ne!(coloured, svg);
    (coloured, names)
}

/// Personal layers look like any others: the maker names them.
fn personal(design: &Design, names: &BTreeMap<String, String>) -> Vec<Told> {
    let layers = design.drawing.layers.0.iter().filter(|(layer, _)| layer.is_personal());
    let told = layers.flat_map(|(layer, selectors)| {
        selectors.iter().map(|selector| {
            let name = match selector {
                Selector::Name(name) => name,
                Selector::All { id, label, .. } => id.as_ref().or(label.as_ref()).unwrap(),
            };
            Told { selector: Selector::Name(names[name].clone()), layer: Some(*layer) }
        })
    });
    told.collect()
}

fn read(svg: &str, layers: &Layers, design: &Design) -> drawing::Drawing {
    let reading =
        Reading { layers, width_mm: design.drawing.width_mm, join_mm: design.drawing.join_mm, with_personal: false };
    drawing::read(svg, &reading).unwrap().value
}

fn told_apart(proposal: &Proposal) -> String {
    let line = |g: &kerfleaf::propose::Guess| {
        format!("  {}: {} ({})\n", g.part.name, g.layer.map_or("none", Layer::name), g.because)
    };
    proposal.guesses.iter().map(line).collect()
}

#[test]
fn every_demo_drawing_is_understood_without_its_names_and_colours() {
    let shop = shop::read(concat!(env!("CARGO_MANIFEST_DIR"), "/demo-shop").as_ref()).unwrap();
    let designs: Vec<&Design> = shop.entries.iter().filter_map(|e| e.design.as_ref()).collect();
    assert!(designs.len() >= LEAST_DESIGNS, "only {} designs", designs.len());
    let mut wrong = Vec::new();
    for design in designs {
        let (svg, names) = disguised(&design.drawing.svg);
        let looked = survey(&svg).unwrap();
        let proposal = propose(&looked, &personal(design, &names));
        let wanted = read(&design.drawing.svg, &design.drawing.layers, design);
        let found = read(&svg, &proposal.layers(&looked), design);
        let fills = |d: &drawing::Drawing| d.fills.iter().map(|f| f.rings.clone()).collect::<Vec<_>>();
        let marks = |d: &drawing::Drawing| d.marks.iter().map(|m| m.at_mm).collect::<Vec<_>>();
        if wanted.lines != found.lines || fills(&wanted) != fills(&found) || marks(&wanted) != marks(&found) {
            wrong.push(format!("{}\n{}", design.slug, told_apart(&proposal)));
        }
        assert!(proposal.astray(&looked).is_empty(), "{}", design.slug);
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
