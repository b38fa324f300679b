//! The views of every design of the demo shop, and what other programs say of them: privacy in millimetres, pieces that never overlap, paint
//! cells against GEOS (shapely 2.1.2), the scene's SVG as librsvg draws it.
//!
//! Needs `target/venv` and rsvg-convert, which `tests/run` sees to.

mod scenes;

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use kerfleaf::colour::Lab;
use kerfleaf::drawing::Layer;
use kerfleaf::figures::{self, Measured};
use kerfleaf::paint;
use kerfleaf::pictures::{Looks, Place, Scene, Subject, View, any_overlap, flat};
use kerfleaf::shape::{Face, Point, Rgb};
use kerfleaf::shop::{self, Design, Shop};
use serde_json::json;

const VIEWS: [View; 7] = [
    View::Whole,
    View::Uncut,
    View::Plain,
    View::Blank { primed: false, cut: true },
    View::Loosened,
    View::Tray,
    View::CloseUp,
];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn demo() -> Shop {
    shop::read(&root().join("demo-shop")).expect("the demo shop")
}

fn with_subject<T>(design: &Design, measured: &Measured, show_cuts: bool, then: impl FnOnce(Subject) -> T) -> T {
    let looks = Looks::of(design, measured);
    then(looks.subject(design, measured, show_cuts))
}

fn every_design(mut then: impl FnMut(&Design, &Measured)) {
    let shop = demo();
    let mut count = 0;
    for design in shop.entries.iter().filter_map(|entry| entry.design.as_ref()) {
        then(design, &figures::measure(design, &shop.settings).expect("measured"));
        count += 1;
    }
    assert!(count >= 12, "only {count} designs");
}

/// Handbook, "Privacy": 4 pixels to the millimetre, 12 and a sixth of the board for the close-up, with at most one novelty shape in it.
#[test]
fn scenes_of_the_demo_keep_to_the_limits() {
    every_design(|design, measured| {
        with_subject(design, measured, true, |subject| {
            let slug = &design.slug;
            for view in VIEWS {
                let scene = Scene::of(subject, view).unwrap_or_else(|| panic!("{slug}: no {view:?}"));
                let wanted = match view {
                    View::CloseUp => Some(12.0),
                    View::Uncut => None,
                    _ => Some(4.0),
                };
                assert_eq!(scene.most_px_per_mm, wanted, "{slug} {view:?}");
            }
            let near = Scene::of(subject, View::CloseUp).expect("a close-up").window;
            let board: f64 = measured.board.parts.iter().map(|p| p.outline.area_mm2()).sum();
            let share = near.width_mm() * near.height_mm() / board;
            assert!(share <= 1.0 / 6.0, "{slug}: the close-up shows {share}");
            let seen =
                |ring: &Vec<Point>| ring.iter().any(|p| near.meets(&kerfleaf::shape::Extent { min: *p, max: *p }));
            assert!(measured.board.novelty.iter().filter(|ring| seen(ring)).count() <= 1, "{slug}");
        });
        with_subject(design, measured, false, |subject| {
            for view in [View::Loosened, View::Tray] {
                assert!(Scene::of(subject, view).is_none());
            }
            let whole = Scene::of(subject, View::Whole).expect("a whole");
            assert_eq!(whole.things.len(), measured.board.parts.len(), "boards alone, no piece");
        });
    });
}

/// Exact: orientation predicates on all pairs, no picture asked.
#[test]
fn no_two_pieces_of_the_demo_overlap() {
    every_design(|design, measured| {
        with_subject(design, measured, true, |subject| {
            for view in [View::Loosened, View::Tray] {
                let scene = Scene::of(subject, view).expect("a scene");
                let pieces: Vec<&[Face]> = scene.things.iter().map(|t| t.faces).collect();
                let places: Vec<Place> = scene.things.iter().map(|t| t.place).collect();
                assert_eq!(pieces.len(), measured.board.pieces.len());
                assert!(!any_overlap(&pieces, &places), "{} {view:?}", design.slug);
            }
            // Row by row the tray's pieces get smaller: the first is the largest, the last the smallest.
            let tray = Scene::of(subject, View::Tray).expect("a tray");
            let area = |n: usize| tray.things[n].faces.iter().map(Face::area_mm2).sum::<f64>();
            let order = |n: &usize| (tray.things[*n].place.at.y, tray.things[*n].place.at.x);
            let solid: Vec<usize> = (0..tray.things.len()).filter(|n| area(*n) > 0.0).collect();
            let top = solid.iter().min_by(|a, b| order(a).0.total_cmp(&order(b).0)).expect("a piece");
            let bottom = solid.iter().max_by(|a, b| order(a).0.total_cmp(&order(b).0)).expect("a piece");
            assert!(area(*top) >= area(*bottom), "{}", design.slug);
        });
    });
}

fn pairs(points: &[Point]) -> Vec<[f64; 2]> {
    points.iter().map(|p| [p.x, p.y]).collect()
}

/// Handbook, figures, item 10, by another library: GEOS differences of the very same fills.
#[test]
fn cells_of_the_demo_are_those_of_geos() {
    let mut rows = String::new();
    every_design(|design, measured| {
        let Some(plan) = measured.plan.as_ref().filter(|_| design.drawing.layers.has(Layer::Colour)) else { return };
        let fills = measured.drawing.fills.iter().map(|f| {
            let rings: Vec<_> = f.rings.iter().map(|r| pairs(r)).collect();
            json!({"rings": rings, "even_odd": f.even_odd, "colour": f.colour.to_string()})
        });
        let pieces = measured.board.pieces.iter().map(|p| {
            let holes: Vec<_> = p.face.holes.iter().map(|h| pairs(h)).collect();
            json!({"outer": pairs(&p.face.outer), "holes": holes})
        });
        let colour = |paint: Option<usize>| paint.and_then(|p| design.paints.get(p)).map(|p| p.colour.to_string());
        let cells = plan.cells.iter().map(|c| json!({"colour": colour(c.paint), "area": c.area_mm2}));
        let row = json!({
            "name": design.slug,
            "fills": fills.collect::<Vec<_>>(),
            "pieces": pieces.collect::<Vec<_>>(),
            "cells": cells.collect::<Vec<_>>(),
        });
        rows += &format!("{row}\n");
    });
    assert!(rows.lines().count() >= 6, "only {} designs have fills", rows.lines().count());
    let python = root().join("target/venv/bin/python");
    let mut child = Command::new(&python)
        .arg(root().join("tests/reference/geos/cells.py"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap_or_else(|e| panic!("{}: {e}; `tests/run` makes it", python.display()));
    child.stdin.take().expect("a pipe").write_all(rows.as_bytes()).expect("the interpreter reads");
    let done = child.wait_with_output().expect("the interpreter ends");
    let told = String::from_utf8_lossy(&done.stdout).into_owned();
    assert!(done.status.success(), "GEOS has other cells:\n{told}");
    println!("{told}");
}

/// No two cells of one turn share a border, and a paint never comes before a clearly lighter one that it touches.
#[test]
fn turns_of_the_demo_keep_wet_cells_apart() {
    every_design(|design, measured| {
        let Some(plan) = &measured.plan else { return };
        let colours: Vec<Rgb> = design.paints.iter().map(|p| p.colour).collect();
        let turns = paint::turns(plan, &colours);
        let turn_of = |paint: usize| turns.iter().position(|t| t.contains(&paint)).expect("a turn");
        for (a, b) in paint::touching(plan).into_keys() {
            let (Some(p), Some(q)) = (plan.cells[a].paint, plan.cells[b].paint) else { continue };
            if p != q {
                assert_ne!(turn_of(p), turn_of(q), "{}: paints {p} and {q}", design.slug);
                let lightness = |p: usize| Lab::from(colours[p]).l;
                assert!(
                    lightness(p) < lightness(q) + 25.0 || turn_of(p) < turn_of(q),
                    "{}: {p} before {q}",
                    design.slug
                );
            }
        }
        println!("{}: {} paints in {} turns", design.slug, colours.len(), turns.len());
    });
}

/// librsvg draws the scene's SVG as our own drawers fill the same scene: mean difference under 2 %, and few pixels that differ at all.
#[test]
fn another_program_draws_the_scene_alike() {
    let folder = root().join("target/tests/scenes");
    std::fs::create_dir_all(&folder).expect("a folder");
    let scene = scenes::landscape("svg", "oak", 150.0, 100.0, 7, 5, true);
    scene.with(true, |subject| {
        for view in VIEWS.into_iter().chain([View::Blank { primed: true, cut: false }]) {
            let scene = Scene::of(subject, view).expect("a scene");
            let name = format!("{view:?}").replace([' ', ':', ',', '{', '}'], "");
            let (svg, png) = (folder.join(format!("{name}.svg")), folder.join(format!("{name}.png")));
            std::fs::write(&svg, flat::svg(&scene, 720)).expect("written");
            let done = Command::new("rsvg-convert").arg("-o").args([&png, &svg]).status();
            assert!(done.expect("rsvg-convert is there: `tests/run` installs it").success());
            let theirs = read_png(&png);
            let ours = flat::draw(&scene, 720);
            assert_eq!((ours.width, ours.height), (theirs.width(), theirs.height()));
            let off: Vec<u8> = ours.rgb.iter().zip(theirs.as_raw()).map(|(a, b)| a.abs_diff(*b)).collect();
            let mean = off.iter().map(|d| f64::from(*d)).sum::<f64>() / off.len() as f64 / 255.0;
            let far = off.iter().filter(|d| **d > 48).count() as f64 / off.len() as f64;
            println!("{view:?}: mean {:.3} %, far off {:.3} %", 100.0 * mean, 100.0 * far);
            assert!(mean < 0.02, "{view:?}: mean difference {mean}");
            assert!(far < 0.004, "{view:?}: {far} of all bytes are far off");
            // The check can fail: a scene half a piece aside is told.
            let moved: Vec<u8> = ours.rgb.iter().zip(&theirs.as_raw()[60..]).map(|(a, b)| a.abs_diff(*b)).collect();
            let aside = moved.iter().map(|d| f64::from(*d)).sum::<f64>() / moved.len() as f64 / 255.0;
            assert!(aside > 3.0 * mean, "{view:?}: {aside} moved, {mean} not");
        }
    });
}

fn read_png(path: &Path) -> image::RgbImage {
    image::open(path).expect("a picture").to_rgb8()
}
