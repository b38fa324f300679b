//! A large catalogue for measuring: the designs of a shop again and again under other names, until there are so many.
//!
//! `cargo run --release --example thousand -- SHOP FOLDER [HOW-MANY]`
//!
//! Pictures are drawn once and shared; figures, titles and dates differ from copy to copy, so that searching has something to do.

use std::path::Path;

use kerfleaf::catalogue::{self, Card};
use kerfleaf::{figures, publish, shop};

const FIRST: [&str; 20] = [
    "Amber", "Brackish", "Cobble", "Drifting", "Early", "Flint", "Gull", "Hollow", "Ivory", "Jetty", "Kelp", "Leeward",
    "Misty", "North", "Oyster", "Pilot", "Quiet", "Rushing", "Salt", "Tarred",
];

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let [folder, into, rest @ ..] = args.as_slice() else { return Err("SHOP FOLDER [HOW-MANY]".into()) };
    let many: usize = rest.first().map_or(Ok(1000), |many| many.parse())?;
    let shop = shop::read(Path::new(folder))?;
    let mut pages = Vec::new();
    let mut made: Vec<Card> = Vec::new();
    for design in shop.entries.iter().filter_map(|entry| entry.design.as_ref()) {
        if design.status == shop::Status::Published {
            let measured = figures::measure(design, &shop.settings).map_err(|why| why.to_string())?;
            let goods = catalogue::goods(&shop, design, &measured)?;
            pages.extend(goods.pages);
            made.push(goods.card);
        }
    }
    let mut cards = made.clone();
    for at in made.len()..many {
        let (card, round) = (&made[at % made.len()], at / made.len());
        let mut copy = card.clone();
        copy.slug = format!("{}-{round}", card.slug);
        copy.added = Some(format!("20{:02}-{:02}-{:02}", 10 + round % 16, 1 + at % 12, 1 + at % 28));
        copy.count += round;
        copy.difficulty = (card.difficulty + round as f64 * 0.37) % 100.0;
        for words in copy.words.values_mut() {
            words.title = format!("{} {} {round}", FIRST[(at * 7) % FIRST.len()], words.title.to_lowercase());
        }
        for (number, offer) in copy.offers.iter_mut().enumerate() {
            offer.code = format!("{}-{round}-{number}", offer.code);
            offer.price_minor += (round as i64) * 50;
            offer.stock = Some((at % 4) as u32);
        }
        let picture = catalogue::main_picture_address(&card.slug);
        let bytes = pages.iter().find(|page| page.address == picture).map(|page| page.bytes.clone());
        pages
            .extend(bytes.map(|bytes| catalogue::Page { address: catalogue::main_picture_address(&copy.slug), bytes }));
        cards.push(copy);
    }
    pages.extend(catalogue::pages(&shop, &cards)?);
    publish::put(pages, Path::new(into))?;
    eprintln!("{} designs in {into}", cards.len());
    Ok(())
}
