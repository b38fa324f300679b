//! `[drawing.layers]`: which parts of the drawing are cut, scored and painted.

use serde_json::{Value, json};
use toml::de::DeValue;

use crate::drawing::{Layer, Layers, Selector};
use crate::shop::fields::{Fields, Item};

const LAYERS: [(&str, Layer); 8] = [
    ("cut", Layer::Cut),
    ("novelty", Layer::Novelty),
    ("void", Layer::Void),
    ("score", Layer::Score),
    ("colour", Layer::Colour),
    ("marks", Layer::Marks),
    ("personal", Layer::Personal),
    ("personal_score", Layer::PersonalScore),
];

/// Reads the layers in the order of the record; what could not be read is left out and noted.
pub(super) fn read(fields: Fields) -> Layers {
    fields.need("cut", "\"cuts\"");
    let mut found = Vec::new();
    for (key, layer) in LAYERS {
        if let Some(item) = fields.get(key) {
            found.push((item.span().start, layer, selectors(&item)));
        }
    }
    if let (Some(_), Some(marks)) = (fields.get("colour"), fields.get("marks")) {
        marks.wrong(
            "A drawing has a `colour` layer or a `marks` layer, and this one names both.",
            "Keep `colour` for filled shapes, or `marks` for dots in cells that score lines make.",
        );
    }
    fields.finish();
    found.sort_by_key(|(at, ..)| *at);
    Layers(found.into_iter().map(|(_, layer, selectors)| (layer, selectors)).collect())
}

/// For a schema: one selector, or a list of them.
fn selectors_schema() -> Value {
    let text = || json!({"type": "string", "pattern": "\\S"});
    let table = json!({
        "type": "object",
        "properties": {"id": text(), "label": text(), "class": text(), "stroke": {"type": "string"}, "fill": {"type": "string"}},
        "additionalProperties": false,
        "minProperties": 1,
    });
    json!({"anyOf": [text(), table, {"type": "array", "minItems": 1, "items": {"anyOf": [text(), table]}}]})
}

fn selectors(item: &Item) -> Vec<Selector> {
    item.may_be(selectors_schema);
    let DeValue::Array(members) = item.value else {
        return selector(item).into_iter().collect();
    };
    if members.is_empty() {
        item.wrong(format!("`{}` is an empty list.", item.key), "Name an id or a label, or leave the layer out.");
    }
    item.each(members).filter_map(|member| selector(&member)).collect()
}

fn selector(item: &Item) -> Option<Selector> {
    match item.value {
        DeValue::String(_) => item.text().map(Selector::Name),
        DeValue::Table(_) => {
            let fields = item.table("a selector")?;
            let text = |key| fields.get(key).map(|item: Item| item.text());
            let colour = |key| fields.get(key).map(|item: Item| item.colour());
            let (id, label, class) = (text("id"), text("label"), text("class"));
            let (stroke, fill) = (colour("stroke"), colour("fill"));
            if id.is_none() && label.is_none() && class.is_none() && stroke.is_none() && fill.is_none() {
                item.wrong("This selector asks for nothing.", "Give it an id, label, class, stroke or fill.");
            }
            fields.finish();
            Some(Selector::All {
                id: id.flatten(),
                label: label.flatten(),
                class: class.flatten(),
                stroke: stroke.flatten(),
                fill: fill.flatten(),
            })
        }
        _ => {
            item.wrong_kind(
                "a selector",
                "Write an id or a label as text, or a table such as `{ stroke = \"#345\" }`, or a list of these.",
            );
            None
        }
    }
}
