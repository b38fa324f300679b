//! Faces and kerfs held against GEOS (shapely 2.1.2, <https://libgeos.org>): `unary_union`, `polygonize` and `buffer` of the same lines.
//!
//! 300 random drawings a run, their seed printed (`KERFLEAF_SEED` repeats one; `KERFLEAF_LONG=1` makes 3,000), every design of
//! the demo shop, and the open maps where `tests/run` has put them. Needs `target/venv`, which `tests/run` makes.
//! Handbook, figures, items 1, 2 and 5.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use kerfleaf::pieces::{Near, Net, arrange, inset};
use kerfleaf::shape::{Face, Point};
use kerfleaf::{figures, shop};
use serde_json::{Value, json};

/// The interpreter with shapely.
fn python() -> PathBuf {
    let python = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/venv/bin/python");
    assert!(
        python.exists(),
        "{} is not there. `tests/run` makes it; by hand: python3 -m venv target/venv && target/venv/bin/pip install shapely==2.1.2 numpy",
        python.display()
    );
    python
}

fn check(arguments: &[String], input: Option<&str>) -> (bool, String) {
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/geos/check.py");
    let mut child = Command::new(python())
        .arg(script)
        .args(arguments)
        .stdin(if input.is_some() { Stdio::piped() } else { Stdio::null() })
        .stdout(Stdio::piped())
        .spawn()
        .expect("the interpreter starts");
    if let (Some(text), Some(mut pipe)) = (input, child.stdin.take()) {
        pipe.write_all(text.as_bytes()).expect("the interpreter reads");
    }
    let done = child.wait_with_output().expect("the interpreter ends");
    (done.status.success(), String::from_utf8_lossy(&done.stdout).into_owned())
}

fn pairs(points: &[Point]) -> Vec<[f64; 2]> {
    points.iter().map(|p| [p.x, p.y]).collect()
}

/// What the program makes of lines, for `check.py compare`; `kerfs` are half widths taken off faces.
fn made(name: &str, lines: &[(Vec<Point>, bool)], net: &Net, kerfs: impl Iterator<Item = (Face, f64)>) -> String {
    let mut areas: Vec<f64> = (0..net.faces.len()).map(|f| net.face(f).area_mm2()).collect();
    areas.sort_by(f64::total_cmp);
    let length: f64 =
        net.chains.iter().flat_map(|c| net.points(c).windows(2)).map(|w| kerfleaf::shape::length_mm(w[0], w[1])).sum();
    let lines: Vec<Value> = lines.iter().map(|(p, closed)| json!({"points": pairs(p), "closed": closed})).collect();
    let insets: Vec<Value> = kerfs
        .map(|(face, by)| {
            let left: f64 = inset(&face, by).iter().map(Face::area_mm2).sum();
            let holes: Vec<_> = face.holes.iter().map(|h| pairs(h)).collect();
            json!({"outer": pairs(&face.outer), "holes": holes, "by": by, "area": left})
        })
        .collect();
    let euler = net.faces.len() + net.nodes.len() == net.chains.len() + net.parts;
    format!(
        "{}\n",
        json!({"name": name, "lines": lines, "areas": areas, "length": length, "euler": euler, "insets": insets})
    )
}

fn compare(rows: &str) {
    let (same, told) = check(&["compare".to_string()], Some(rows));
    assert!(same, "GEOS has other figures:\n{told}");
}

#[test]
fn random_drawings_have_the_same_faces_and_kerfs() {
    let count = if std::env::var_os("KERFLEAF_LONG").is_some() { 3000 } else { 300 };
    let seed = std::env::var("KERFLEAF_SEED").ok().and_then(|s| s.parse().ok()).unwrap_or_else(|| {
        let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
        since.map_or(1, |d| d.subsec_nanos() % 1_000_000)
    });
    // Past the capture of the test harness, so that every run tells.
    let _ = writeln!(std::io::stderr(), "random drawings: seed {seed}");
    let (drawn, text) = check(&["draw".to_string(), count.to_string(), seed.to_string()], None);
    assert!(drawn, "check.py draws");
    let mut rows = String::new();
    for (i, row) in text.lines().enumerate() {
        let drawing: Value = serde_json::from_str(row).expect("JSON");
        let point = |p: &Value| Point::new(p[0].as_f64().expect("x"), p[1].as_f64().expect("y"));
        let lines: Vec<(Vec<Point>, bool)> = drawing["lines"]
            .as_array()
            .expect("lines")
            .iter()
            .map(|l| {
                (
                    l["points"].as_array().expect("points").iter().map(point).collect(),
                    l["closed"].as_bool() == Some(true),
                )
            })
            .collect();
        let slices: Vec<(&[Point], bool)> = lines.iter().map(|(p, closed)| (p.as_slice(), *closed)).collect();
        let net = arrange(&slices, Near { join_mm: 0.0 }).value;
        let size = drawing["size"].as_f64().expect("size");
        // A few faces of each drawing, from a hair to enough to eat most of them.
        let some = (0..net.faces.len()).step_by(net.faces.len() / 12 + 1).enumerate();
        let kerfs: Vec<(Face, f64)> =
            some.map(|(k, f)| (net.face(f), size * [0.001, 0.004, 0.015][(i + k) % 3])).collect();
        rows += &made(&format!("seed {seed}, drawing {i}"), &lines, &net, kerfs.into_iter());
    }
    compare(&rows);
}

/// Every design of a shop: the joined lines once more through GEOS, and the kerf of every piece.
fn designs(root: &Path) {
    let shop = shop::read(root).expect("a shop");
    let mut rows = String::new();
    for entry in &shop.entries {
        let design = entry.design.as_ref().expect("a sound record");
        let measured = figures::measure(design, &shop.settings).expect("measured");
        let net = &measured.board.net;
        let lines: Vec<(Vec<Point>, bool)> = net.chains.iter().map(|c| (net.points(c).to_vec(), false)).collect();
        let by = design.board.kerf_mm / 2.0;
        let kerfs = measured.board.pieces.iter().filter(|_| by > 0.0).map(|p| (p.face.clone(), by));
        rows += &made(&entry.slug, &lines, net, kerfs);
    }
    compare(&rows);
}

#[test]
fn demo_designs_have_the_same_faces_and_kerfs() {
    designs(&Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-shop"));
}

#[test]
fn maps_have_the_same_faces() {
    let maps = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/maps/shop");
    if maps.exists() {
        designs(&maps);
    } else {
        println!("no maps: tests/reference/maps/check.py puts them into target/maps");
    }
}
