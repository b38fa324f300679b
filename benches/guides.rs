//! How long a painting guide of 200 cells takes once the program is warm, and how much memory 500 guides in one run take.
//!
//!     cargo bench --bench guides
//!
//! On one thread. Ends with 1 where a limit of the table in DEVELOPERS.md is passed: 100 ms of processor time a guide, 300 MB, and no growth from the hundredth guide to the last.

#[path = "../tests/support/landscape.rs"]
mod landscape;

use std::collections::BTreeMap;
use std::process::ExitCode;

use kerfleaf::pictures::{Picture, jpeg};
use kerfleaf::sheets::{Order, painting_guide};
use kerfleaf::shop::{BlankBoard, Paper, Units};
use landscape::{Land, design, settings};

const GUIDES: usize = 500;

/// Seconds that this thread has run: proc(5), `schedstat`; by the clock where there is none.
fn seconds(start: std::time::Instant) -> f64 {
    let stat = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    let ran = stat.split(' ').next().and_then(|ns| ns.parse::<f64>().ok());
    ran.map_or_else(|| start.elapsed().as_secs_f64(), |ns| ns * 1e-9)
}

/// A row of /proc/self/status in MB, as in `VmRSS:   64464 kB`: proc(5). Not a number where there is none, which no limit lets pass.
fn memory_mb(row: &str) -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let kb = status.lines().find_map(|l| l.strip_prefix(row)).and_then(|l| l.split_whitespace().next());
    kb.and_then(|kb| kb.parse::<f64>().ok()).map_or(f64::NAN, |kb| kb / 1000.0)
}

fn main() -> ExitCode {
    let settings = settings(Units::Both);
    let grey = Picture { width: 1280, height: 900, rgb: (0..1280 * 900 * 3).map(|i| (i % 251) as u8).collect() };
    let cover = jpeg(&grey, 84).unwrap_or_default();
    let theme = BTreeMap::new();
    let clock = std::time::Instant::now();
    let mut times = Vec::new();
    let (mut early_mb, mut largest) = (0.0, 0);
    for round in 0..GUIDES {
        // Every guide is another design: 200 cells, each time on a board a little larger.
        let land = Land { columns: 8, rows: 25, width_mm: 180.0 + round as f64 * 0.01, ..Land::default() }.measured();
        let mut design = design(&format!("Slack water {round}"), BlankBoard::Scored, false);
        design.slug = format!("slack-water-{round}");
        let paper = if round % 2 == 0 { Paper::A4 } else { Paper::Letter };
        let order = Order {
            design: &design,
            measured: &land,
            settings: &settings,
            paper,
            language: "en",
            cover_jpeg: Some(&cover),
            theme: &theme,
        };
        let start = seconds(clock);
        let sheet = painting_guide(&order);
        times.push(seconds(clock) - start);
        largest = largest.max(sheet.map_or(0, |s| s.bytes.len()));
        if round == 100 {
            early_mb = memory_mb("VmRSS:");
        }
    }
    let late_mb = memory_mb("VmRSS:");
    let first = times.remove(0);
    times.sort_by(f64::total_cmp);
    let (median, slow) = (times[times.len() / 2], times[times.len() * 95 / 100]);
    let peak_mb = memory_mb("VmHWM:");
    println!(
        "guide of 200 cells: first {:.0} ms, then median {:.0} ms, 95 in 100 under {:.0} ms",
        first * 1e3,
        median * 1e3,
        slow * 1e3
    );
    println!(
        "{GUIDES} guides: {early_mb:.0} MB after 100, {late_mb:.0} MB at the end, {peak_mb:.0} MB at the most; largest file {largest} bytes"
    );
    let sound = median < 0.1 && peak_mb < 300.0 && late_mb < early_mb * 1.1 + 5.0 && largest > 0 && largest < 3_000_000;
    ExitCode::from(u8::from(!sound))
}
