//! What search engines read: schema.org in JSON-LD, ready to stand in a script element.
//!
//! In: a [`Card`] and a [`Voice`]. Out: JSON text in which no `<` stands, so that it cannot leave its element.
//! Never here: a figure or price that the page itself does not show.
//! Rule: schema.org, `Product`, `Offer`, `QuantitativeValue`; units by UN/CEFACT Recommendation 20.

use serde_json::{Map, Value, json};

use super::views::product_address;
use super::voice::Voice;
use super::{Card, CardOffer, main_picture_address};
use crate::units::Money;

/// UN/CEFACT Recommendation 20: millimetre, gram.
const MILLIMETRE: &str = "MMT";
const GRAM: &str = "GRM";

/// The shop and who stands behind it, for the front page.
pub fn organization(voice: &Voice<'_>) -> String {
    let mut shop = maker(voice);
    shop.insert("@context".to_owned(), json!("https://schema.org"));
    if let Some(web) = voice.absolute("") {
        shop.insert("url".to_owned(), json!(web));
    }
    script(&Value::Object(shop))
}

/// A design with its offers, and the way to it from the front page.
pub fn product(voice: &Voice<'_>, card: &Card) -> String {
    let words = card.words(voice.language());
    let to = voice.inside(&product_address(&card.slug));
    let quantity =
        |value: f64, code: &str| json!({"@type": "QuantitativeValue", "value": tenth(value), "unitCode": code});
    let property =
        |key: &str, value: Value| json!({"@type": "PropertyValue", "name": voice.words().text(key), "value": value});
    let mut product = Map::new();
    let mut put = |key: &str, value: Value| {
        if !value.is_null() {
            product.insert(key.to_owned(), value);
        }
    };
    put("@type", json!("Product"));
    put("name", json!(words.title));
    put("description", json!(words.summary));
    put("productID", json!(card.slug));
    put("image", json!(voice.absolute(&main_picture_address(&card.slug)).unwrap_or_else(|| "picture.jpg".to_owned())));
    put("url", json!(voice.absolute(&to)));
    put("category", json!(voice.words().text("product-category")));
    put("brand", Value::Object(maker(voice)));
    put("material", json!(voice.wood(card)));
    put("width", quantity(card.width_mm, MILLIMETRE));
    put("height", quantity(card.height_mm, MILLIMETRE));
    put("depth", quantity(card.thickness_mm, MILLIMETRE));
    put("weight", quantity(card.board_g, GRAM));
    put(
        "additionalProperty",
        json!([
            property("label-pieces", json!(card.count)),
            property("label-edge-pieces", json!(card.edge)),
            property("label-difficulty", json!(card.difficulty_word)),
        ]),
    );
    let offers: Vec<Value> = card.offers.iter().map(|o| offer(voice, card, o)).collect();
    put("offers", if offers.is_empty() { Value::Null } else { json!(offers) });
    let crumb = |position: usize, name: &str, to: Option<String>| {
        let mut item = json!({"@type": "ListItem", "position": position, "name": name});
        if let (Some(to), Some(map)) = (to, item.as_object_mut()) {
            map.insert("item".to_owned(), json!(to));
        }
        item
    };
    let home = voice.absolute(&voice.inside("index.html")).unwrap_or_else(|| "../../index.html".to_owned());
    let trail = json!({
        "@type": "BreadcrumbList",
        "itemListElement": [crumb(1, &voice.words().text("nav-all"), Some(home)), crumb(2, &words.title, None)],
    });
    script(&json!({"@context": "https://schema.org", "@graph": [Value::Object(product), trail]}))
}

fn offer(voice: &Voice<'_>, card: &Card, offer: &CardOffer) -> Value {
    let currency = &voice.settings().currency;
    let state = match offer.stock {
        None => "https://schema.org/MadeToOrder",
        Some(0) => "https://schema.org/OutOfStock",
        Some(_) => "https://schema.org/InStock",
    };
    let shipping = |row: &super::CardPostage| {
        let (service, minor) = row.service.as_ref()?;
        let price = Money { minor: *minor, decimals: currency.decimals }.to_string();
        Some(json!({
            "@type": "OfferShippingDetails",
            "name": service,
            "shippingDestination": {"@type": "DefinedRegion", "name": row.zone},
            "shippingRate": {"@type": "MonetaryAmount", "value": price, "currency": currency.code},
        }))
    };
    let shipping: Vec<Value> = offer.postage.iter().filter_map(shipping).collect();
    let name = format!(
        "{}, {}",
        card.words(voice.language()).title,
        voice.words().text(&format!("form-{}-short", offer.form))
    );
    let mut out = json!({
        "@type": "Offer",
        "name": name,
        "sku": offer.code,
        "price": offer.price().to_string(),
        "priceCurrency": currency.code,
        "availability": state,
        "itemCondition": "https://schema.org/NewCondition",
    });
    if let Some(map) = out.as_object_mut() {
        if let Some(web) = voice.absolute(&voice.inside(&product_address(&card.slug))) {
            map.insert("url".to_owned(), json!(web));
        }
        if !shipping.is_empty() {
            map.insert("shippingDetails".to_owned(), json!(shipping));
        }
    }
    out
}

fn maker(voice: &Voice<'_>) -> Map<String, Value> {
    let settings = voice.settings();
    let mut out = Map::new();
    out.insert("@type".to_owned(), json!("Organization"));
    out.insert("name".to_owned(), json!(settings.name));
    if let Some(maker) = &settings.maker {
        let parts = [("legalName", &maker.name), ("address", &maker.address), ("email", &maker.email)];
        for (key, value) in parts {
            if let Some(value) = value {
                out.insert(key.to_owned(), json!(value));
            }
        }
    }
    out
}

fn tenth(value: f64) -> f64 {
    libm::round(value * 10.0) / 10.0
}

/// JSON in which nothing can end the script element or begin a comment in it.
fn script(value: &Value) -> String {
    let text = value.to_string();
    text.replace('<', "\\u003c")
        .replace('>', "\\u003e")
        .replace('&', "\\u0026")
        .replace('\u{2028}', "\\u2028")
        .replace('\u{2029}', "\\u2029")
}
