//! Draws views of a sample landscape into a folder, and says how long each took.
//!
//! `cargo run --release --example look -- FOLDER [wood] [view…]`

#[path = "../tests/scenes/mod.rs"]
mod scenes;

use std::time::Instant;

use kerfleaf::pictures::{self, Studio, View};

fn main() {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let folder = args.first().cloned().unwrap_or_else(|| ".".into());
    let wood = args.get(1).cloned().unwrap_or_else(|| "maple-plywood".into());
    let chosen: Vec<&str> = args.iter().skip(2).map(String::as_str).collect();
    let started = Instant::now();
    let painted = std::env::var_os("UNPAINTED").is_none();
    let scene = scenes::landscape("sample-landscape", &wood, 300.0, 190.0, 16, 12, painted);
    eprintln!(
        "{} pieces, {} cells, made in {:?}",
        scene.board.pieces.len(),
        scene.plan.as_ref().map_or(0, |p| p.cells.len()),
        started.elapsed()
    );
    scene.with(true, |subject| {
        let mut studio = Studio::new(subject);
        let views = [
            ("whole", View::Whole),
            ("loosened", View::Loosened),
            ("tray", View::Tray),
            ("uncut", View::Uncut),
            ("plain", View::Plain),
            ("primed", View::Blank { primed: true, cut: false }),
            ("bare", View::Blank { primed: false, cut: true }),
            ("close-up", View::CloseUp),
        ];
        for (name, view) in views {
            if !chosen.is_empty() && !chosen.contains(&name) {
                continue;
            }
            let started = Instant::now();
            let widths = studio.widths(view);
            let drawn = studio.draw(view, &widths);
            let took = started.elapsed();
            let started = Instant::now();
            let mut sizes = Vec::new();
            for picture in &drawn {
                let webp = pictures::webp(picture, 82).unwrap_or_default();
                let jpeg =
                    if picture.width <= 1280 { pictures::jpeg(picture, 84).unwrap_or_default() } else { Vec::new() };
                sizes.push((picture.width, picture.height, webp.len(), jpeg.len()));
            }
            eprintln!("{name}: drawn in {took:?}, encoded in {:?}; {sizes:?}", started.elapsed());
            for picture in &drawn {
                let path = format!("{folder}/{name}-{}.png", picture.width);
                image::save_buffer(path, &picture.rgb, picture.width, picture.height, image::ExtendedColorType::Rgb8)
                    .unwrap();
            }
        }
    });
}
