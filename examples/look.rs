//! Draws every view of a shop's designs into a folder, and says how long drawing and encoding took.
//!
//! `cargo run --release --example look -- SHOP FOLDER [slug…]`

use std::path::Path;
use std::time::{Duration, Instant};

use kerfleaf::figures;
use kerfleaf::pictures::{self, Looks, Studio, Subject, View};

const VIEWS: [(&str, View); 8] = [
    ("whole", View::Whole),
    ("loosened", View::Loosened),
    ("tray", View::Tray),
    ("uncut", View::Uncut),
    ("plain", View::Plain),
    ("primed", View::Blank { primed: true, cut: false }),
    ("bare", View::Blank { primed: false, cut: true }),
    ("close-up", View::CloseUp),
];

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let [shop, folder, slugs @ ..] = args.as_slice() else { return Err("SHOP FOLDER [slug…]".into()) };
    let shop = kerfleaf::shop::read(Path::new(shop))?;
    for entry in shop.entries.iter().filter(|e| slugs.is_empty() || slugs.contains(&e.slug)) {
        let Some(design) = &entry.design else { continue };
        let measured = match figures::measure(design, &shop.settings) {
            Ok(measured) => measured,
            Err(why) => {
                eprintln!("{}: {why}", entry.slug);
                continue;
            }
        };
        let looks = Looks::of(design, &measured);
        let subject = looks.subject(design, &measured, true);
        draw_all(subject, Path::new(folder))?;
    }
    Ok(())
}

fn draw_all(subject: Subject, folder: &Path) -> Result<(), Box<dyn std::error::Error>> {
    let mut studio = Studio::new(subject);
    let (mut drawing, mut encoding) = (Duration::ZERO, Duration::ZERO);
    for (name, view) in VIEWS {
        let started = Instant::now();
        let widths = studio.widths(view);
        let drawn = studio.draw(view, &widths);
        drawing += started.elapsed();
        let started = Instant::now();
        for picture in &drawn {
            pictures::webp(picture, 82);
            if picture.width <= 1280 {
                pictures::jpeg(picture, 84);
            }
        }
        encoding += started.elapsed();
        if let Some(p) = drawn.last() {
            let path = folder.join(format!("{}-{name}.png", subject.slug));
            image::save_buffer(path, &p.rgb, p.width, p.height, image::ExtendedColorType::Rgb8)?;
        }
    }
    let pieces = subject.board.pieces.len();
    eprintln!("{}: {pieces} pieces; drawn in {drawing:.2?}, encoded in {encoding:.2?}", subject.slug);
    Ok(())
}
