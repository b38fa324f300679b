//! Counts, areas and lengths of an arrangement read from a file, for comparing with other programs.
//!
//! Run by `tests/reference/arrangement.py`, which writes the lines and holds the answers of GEOS against these.

use kerfleaf::drawing::{Layer, Line};
use kerfleaf::pieces::{Near, arrange, board};
use kerfleaf::shape::Point;

/// Seconds that this thread has run, so that what else the machine does counts less. Linux: proc(5), `schedstat`.
fn seconds() -> f64 {
    let stat = std::fs::read_to_string("/proc/thread-self/schedstat").expect("Linux");
    stat.split(' ').next().and_then(|ns| ns.parse::<f64>().ok()).expect("a number") * 1e-9
}

/// Reads `{"join": mm, "lines": [{"closed": bool, "points": [x, y, …]}]}` and prints one line of JSON for each file.
#[test]
#[ignore = "needs lines from tests/reference/arrangement.py"]
fn figures_of_given_lines() {
    let files = std::env::var("KERFLEAF_LINES").expect("KERFLEAF_LINES names the files, one a line");
    for file in files.lines() {
        let text = std::fs::read_to_string(file).expect("readable");
        let given: serde_json::Value = serde_json::from_str(&text).expect("JSON");
        let lines: Vec<Line> = given["lines"]
            .as_array()
            .expect("lines")
            .iter()
            .map(|line| {
                let numbers: Vec<f64> =
                    line["points"].as_array().expect("points").iter().map(|n| n.as_f64().expect("number")).collect();
                let points = numbers.chunks(2).map(|p| Point::new(p[0], p[1])).collect();
                Line { layer: Layer::Cut, points, closed: line["closed"].as_bool().expect("closed") }
            })
            .collect();
        let near = Near { join_mm: given["join"].as_f64().expect("join") };
        let slices: Vec<(&[Point], bool)> = lines.iter().map(|l| (l.points.as_slice(), l.closed)).collect();
        let mut best = f64::INFINITY;
        for _ in 0..given["repeat"].as_u64().unwrap_or(1) {
            let start = seconds();
            let net = arrange(&slices, near);
            best = best.min(seconds() - start);
            drop(net);
        }
        let made = if given["kerf"].as_bool() == Some(false) { None } else { Some(board(&lines, near, 0.0)) };
        let net = arrange(&slices, near).value;
        let mut areas: Vec<f64> = net.faces.iter().map(|f| f.face.area_mm2()).collect();
        areas.sort_by(f64::total_cmp);
        let euler = net.faces.len() + net.nodes.len() == net.chains.len() + net.parts;
        let (edge, parts, length, findings) = made.map_or((0, 0, 0.0, Vec::new()), |made| {
            let board = made.value;
            let mut kinds: Vec<&str> = made.findings.iter().map(|f| f.kind.name()).collect();
            kinds.sort_unstable();
            (board.pieces.iter().filter(|p| p.edge).count(), board.parts.len(), board.cut_mm, kinds)
        });
        println!(
            "FIGURES {}",
            serde_json::json!({"file": file, "faces": areas.len(), "areas": if areas.len() <= 15000 { areas } else { vec![areas.iter().sum()] },
                "edge": edge, "parts": parts, "line_parts": net.parts, "length": length, "findings": findings, "euler": euler, "seconds": best})
        );
    }
}
