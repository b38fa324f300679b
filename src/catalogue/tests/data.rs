//! What search engines, readers of feeds and programs get.

use super::*;

#[test]
fn data_in_scripts_is_json_of_schema_org() {
    let (mut shop, cards) = sample();
    shop.settings.web_address = Some("https://ternhythe.example.org".into());
    let pages = pages(&shop, &cards).expect("pages");
    let page = text_of(&pages, "designs/ferry/index.html");
    let (_, rest) = page.split_once("<script type=\"application/ld+json\">").expect("data");
    let (data, _) = rest.split_once("</script>").expect("its end");
    let data: serde_json::Value = serde_json::from_str(data).expect("JSON");
    let product = &data["@graph"][0];
    assert_eq!(product["@type"], "Product");
    assert_eq!(product["width"], serde_json::json!({"@type": "QuantitativeValue", "value": 229.8, "unitCode": "MMT"}));
    assert_eq!(product["weight"]["unitCode"], "GRM");
    assert_eq!(product["image"], "https://ternhythe.example.org/designs/ferry/picture.jpg");
    assert_eq!(product["offers"][0]["sku"], "ferry-P");
    assert_eq!(product["offers"][0]["price"], "148.00");
    assert_eq!(product["offers"][0]["priceCurrency"], "EUR");
    assert_eq!(product["offers"][0]["availability"], "https://schema.org/InStock");
    assert_eq!(product["offers"][1]["availability"], "https://schema.org/MadeToOrder");
    assert_eq!(product["offers"][0]["shippingDetails"][0]["shippingRate"]["value"], "3.60");
    assert_eq!(data["@graph"][1]["@type"], "BreadcrumbList");
}

/// RFC 4287, 4.1: the elements a feed and an entry must have, and where they stand.
#[test]
fn the_feed_is_sound_atom() {
    let (mut shop, cards) = sample();
    shop.settings.web_address = Some("https://ternhythe.example.org".into());
    let pages = pages(&shop, &cards).expect("pages");
    let document = roxmltree::Document::parse(text_of(&pages, "feed.xml")).expect("XML");
    let root = document.root_element();
    let atom = "http://www.w3.org/2005/Atom";
    assert!(root.has_tag_name((atom, "feed")));
    let of = |node: roxmltree::Node<'_, '_>, name: &str| -> Vec<String> {
        node.children()
            .filter(|n| n.has_tag_name((atom, name)))
            .map(|n| n.text().unwrap_or_default().to_owned())
            .collect()
    };
    assert_eq!(of(root, "updated"), ["2026-05-02T00:00:00Z"]);
    assert_eq!(of(root, "id").len(), 1);
    assert_eq!(of(root, "title"), ["Tern Hythe Workshop"]);
    let entries: Vec<_> = root.children().filter(|n| n.has_tag_name((atom, "entry"))).collect();
    assert_eq!(entries.len(), 2, "the design without a date is not in the feed");
    for entry in entries {
        for name in ["id", "title", "updated"] {
            assert_eq!(of(entry, name).len(), 1, "{name}");
        }
    }
    let sitemap = roxmltree::Document::parse(text_of(&pages, "sitemap.xml")).expect("XML");
    let locations = sitemap.descendants().filter(|n| n.has_tag_name("loc"));
    assert!(locations.filter_map(|n| n.text()).any(|loc| loc == "https://ternhythe.example.org/designs/ferry/"));
}

#[test]
fn a_card_can_be_kept_and_read_again() {
    let (_, cards) = sample();
    let kept = serde_json::to_string(&cards).expect("JSON");
    assert_eq!(serde_json::from_str::<Vec<Card>>(&kept).expect("read"), cards);
}

#[test]
fn the_same_cards_in_any_order_give_the_same_bytes() {
    let (shop, cards) = sample();
    let mut turned = cards.clone();
    turned.reverse();
    assert_eq!(pages(&shop, &cards).expect("pages"), pages(&shop, &turned).expect("pages"));
}

/// The keywords that catalogue.schema.json uses, after JSON Schema 2020-12.
fn schema_faults(
    schema: &serde_json::Value,
    root: &serde_json::Value,
    value: &serde_json::Value,
    at: &str,
    faults: &mut Vec<String>,
) {
    if let Some(to) = schema["$ref"].as_str() {
        let name = to.strip_prefix("#/$defs/").expect("a local reference");
        return schema_faults(&root["$defs"][name], root, value, at, faults);
    }
    let is = |name: &str| match name {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "number" => value.is_number(),
        "integer" => value.is_u64() || value.is_i64(),
        "boolean" => value.is_boolean(),
        "null" => value.is_null(),
        other => panic!("unknown type {other}"),
    };
    let fits = match &schema["type"] {
        serde_json::Value::String(name) => is(name),
        serde_json::Value::Array(names) => names.iter().filter_map(|n| n.as_str()).any(is),
        _ => true,
    };
    if !fits || schema["enum"].as_array().is_some_and(|all| !all.contains(value)) {
        faults.push(format!("{at}: {value}"));
    }
    if let (Some(map), true) = (value.as_object(), schema["properties"].is_object()) {
        for key in schema["required"].as_array().into_iter().flatten().filter_map(|k| k.as_str()) {
            if !map.contains_key(key) {
                faults.push(format!("{at}: no {key}"));
            }
        }
        for (key, value) in map {
            match schema["properties"].get(key) {
                Some(inner) => schema_faults(inner, root, value, &format!("{at}.{key}"), faults),
                None => faults.push(format!("{at}: {key} is not in the schema")),
            }
        }
    }
    for item in value.as_array().into_iter().flatten() {
        schema_faults(&schema["items"], root, item, &format!("{at}[]"), faults);
    }
}

#[test]
fn the_catalogue_keeps_its_schema() {
    let (shop, mut cards) = sample();
    cards[2].cells = None;
    let pages = pages(&shop, &cards).expect("pages");
    let catalogue: serde_json::Value = serde_json::from_str(text_of(&pages, "catalogue.json")).expect("JSON");
    let schema: serde_json::Value = serde_json::from_str(text_of(&pages, "catalogue.schema.json")).expect("JSON");
    let mut faults = Vec::new();
    schema_faults(&schema, &schema, &catalogue, "", &mut faults);
    assert_eq!(faults, Vec::<String>::new());
    assert_eq!(catalogue["designs"][0]["slug"], "heron", "newest first");
    assert_eq!(catalogue["designs"][1]["offers"][0]["price"], "148.00");
    let mut broken = catalogue.clone();
    broken["designs"][0]["pieces"]["count"] = serde_json::json!("many");
    schema_faults(&schema, &schema, &broken, "", &mut faults);
    assert_eq!(faults.len(), 1, "the check can fail");
}
