//! How long knobbed boards take: lines to faces against GEOS on the very same points, and `measure` from disk.
//!
//!     cargo bench --bench arrange              1,000, 5,000 and 20,000 pieces
//!     cargo bench --bench arrange -- 1000      one of them
//!     cargo bench --bench arrange -- joints    every joint a line of its own, instead of lines right across
//!     cargo bench --bench arrange -- small     a fifth of the pieces has to be turned in the small-parts cylinder
//!     cargo bench --bench arrange -- alone     without GEOS and the disk
//!     cargo bench --bench arrange -- kept      with one kind of memory
//!
//! GEOS by `target/venv`, which `tests/run` makes. Both sides on one thread; what counts is the time the thread has run,
//! the best of several. Faces come as rings of chains; "outlines" is what writing each out as points takes on top, which GEOS
//! has done. The rows stand in DEVELOPERS.md.
//!
//! Where the memory comes from takes up to a third of the time, and glibc changes its mind about that while it runs. So all is
//! measured twice, for both sides alike, each in a process of its own: with memory that is kept from one call to the next,
//! as in a program that goes on from drawing to drawing, and with all larger memory fresh from the system every time. Other
//! C libraries do as they like.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use kerfleaf::drawing::{self, Layer, Layers, Line, Reading, Selector};
use kerfleaf::pieces::{Near, arrange};
use kerfleaf::shape::Point;

const SIDE_MM: f64 = 20.0;
const WIDER_MM: f64 = 16.0;
const JOIN_MM: f64 = 0.1;
/// The system tells the time a thread has run in steps of some milliseconds: so much of it is measured at once, s.
const AT_ONCE_S: f64 = 0.4;

/// Ways to have memory (glibc manual, "Memory Allocation Tunables"); the second are the values that malloc starts with, held fast.
const MEMORY: [(&str, &str); 2] = [
    ("kept", "glibc.malloc.mmap_threshold=1073741824:glibc.malloc.trim_threshold=4294967296"),
    ("fresh", "glibc.malloc.mmap_threshold=131072:glibc.malloc.trim_threshold=131072"),
];
const TUNABLES: &str = "GLIBC_TUNABLES";

/// Even numbers from 0 to 1 from a seed (Steele, Lea and Flood 2014, SplitMix64).
struct Dice(u64);

impl Dice {
    fn throw(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn within(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.throw()
    }
}

/// Four cubic curves from a to b: a run, a neck, a round head, and back.
fn knob(path: &mut String, a: Point, b: Point, dice: &mut Dice) {
    let side = if dice.throw() < 0.5 { -1.0 } else { 1.0 };
    let (m, h) = (dice.within(0.46, 0.54), dice.within(0.92, 1.04));
    let places = [
        (0.2, 0.03),
        (m - 0.06, 0.06),
        (m - 0.09, -0.03),
        (m - 0.11, -0.07),
        (m - 0.24, -0.24 * h),
        (m, -0.25 * h),
        (m + 0.24, -0.24 * h),
        (m + 0.11, -0.07),
        (m + 0.09, -0.03),
        (m + 0.06, 0.06),
        (0.8, 0.03),
        (1.0, 0.0),
    ];
    let along = b - a;
    path.push('C');
    for (x, y) in places {
        let p = a + along * x + kurbo::Vec2::new(-along.y, along.x) * (y * side);
        let _ = write!(path, "{:.4} {:.4} ", p.x, p.y);
    }
}

/// How the lines are drawn.
#[derive(Clone, Copy)]
struct Kind {
    /// Every joint a line of its own.
    joints: bool,
    /// A fifth of the columns half as wide again, so that their pieces have to be turned in the small-parts cylinder.
    small: bool,
}

/// A board of knobbed pieces as SVG.
fn board(columns: usize, rows: usize, kind: Kind) -> String {
    let mut dice = Dice(7);
    let mut node = |i: usize, j: usize| {
        let inside = 0 < i && i < columns && 0 < j && j < rows;
        let mut off = || if inside { dice.within(-1.0, 1.0) } else { 0.0 };
        // Of every five columns the last is wider.
        let wider = if kind.small { (i / 5) as f64 * WIDER_MM } else { 0.0 };
        Point::new(5.0 + i as f64 * SIDE_MM + wider + off(), 5.0 + j as f64 * SIDE_MM + off())
    };
    let nodes: Vec<Vec<Point>> = (0..=columns).map(|i| (0..=rows).map(|j| node(i, j)).collect()).collect();
    let wider = if kind.small { (columns / 5) as f64 * WIDER_MM } else { 0.0 };
    let (w, h) = (columns as f64 * SIDE_MM + wider, rows as f64 * SIDE_MM);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\"><g id=\"cuts\" fill=\"none\" stroke=\"#111\">\n<path d=\"M5 5h{w}v{h}h-{w}z\"/>\n",
        w + 10.0,
        h + 10.0
    );
    let mut dice = Dice(11);
    let mut line = |stops: Vec<Point>| {
        for part in stops.windows(if kind.joints { 2 } else { stops.len() }) {
            let mut path = format!("M{:.4} {:.4}", part[0].x, part[0].y);
            part.windows(2).for_each(|w| knob(&mut path, w[0], w[1], &mut dice));
            let _ = writeln!(svg, "<path d=\"{}\"/>", path.trim_end());
        }
    };
    (1..rows).for_each(|j| line(nodes.iter().map(|column| column[j]).collect()));
    (1..columns).for_each(|i| line(nodes[i].clone()));
    svg + "</g></svg>\n"
}

/// Seconds that this thread has run: proc(5), `schedstat`; by the clock where there is none.
fn seconds(start: std::time::Instant) -> f64 {
    let stat = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    let ran = stat.split(' ').next().and_then(|ns| ns.parse::<f64>().ok());
    ran.map_or_else(|| start.elapsed().as_secs_f64(), |ns| ns * 1e-9)
}

/// Seconds of this thread for one call, the best of five series.
fn timed(mut call: impl FnMut()) -> f64 {
    let series = || {
        let (clock, mut calls) = (std::time::Instant::now(), 0.0);
        let start = seconds(clock);
        while seconds(clock) - start < AT_ONCE_S {
            call();
            calls += 1.0;
        }
        (seconds(clock) - start) / calls
    };
    std::iter::repeat_with(series).take(5).fold(f64::INFINITY, f64::min)
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// `check.py`, with the memory of this process.
fn check(arguments: &[&str]) -> Command {
    let mut command = Command::new(root().join("target/venv/bin/python"));
    command.arg(root().join("tests/reference/geos/check.py")).args(arguments).stderr(Stdio::inherit());
    command
}

/// What a command prints.
fn told(command: &mut Command) -> String {
    let python = root().join("target/venv/bin/python");
    let done = command.output();
    let done = done.unwrap_or_else(|e| panic!("{}: {e}; `tests/run` makes it", python.display()));
    String::from_utf8_lossy(&done.stdout).trim().to_string()
}

fn write_shop(shop: &Path, svg: &str) -> std::io::Result<()> {
    let design = shop.join("designs/knobs");
    std::fs::create_dir_all(&design)?;
    std::fs::write(
        shop.join("shop.toml"),
        "name = \"Bench\"\ncurrency = \"EUR\"\norder = \"mailto:bench@example.org\"\n",
    )?;
    let record = "title = \"Knobs\"\nstatus = \"published\"\n[board]\nwood = \"birch-plywood\"\nthickness = \"4 mm\"\n[drawing.layers]\ncut = \"cuts\"\n";
    std::fs::write(design.join("record.toml"), record)?;
    std::fs::write(design.join("drawing.svg"), svg)
}

fn main() {
    let wanted: Vec<usize> = std::env::args().skip(1).filter_map(|a| a.parse().ok()).collect();
    let asked = |word: &str| std::env::args().any(|a| a == word);
    let kind = Kind { joints: asked("joints"), small: asked("small") };
    let alone = asked("alone");
    let folder = root().join("target/bench");
    std::fs::create_dir_all(&folder).expect("target/bench");
    let Some(memory) = MEMORY.iter().find(|m| std::env::var(TUNABLES).is_ok_and(|set| set == m.1)).map(|m| m.0) else {
        println!(
            "| memory | pieces | points | lines to faces, ms | outlines, ms | GEOS, ms | times | µs a piece | measure: s, CPU s, MB |"
        );
        println!("|---|---|---|---|---|---|---|---|---|");
        let one = MEMORY.iter().any(|m| asked(m.0));
        for (_, tunables) in MEMORY.iter().filter(|m| !one || asked(m.0)) {
            let mut again = Command::new(std::env::current_exe().expect("this program"));
            let done = again.args(std::env::args_os().skip(1)).env(TUNABLES, tunables).status().expect("this program");
            assert!(done.success());
        }
        return;
    };
    for (columns, rows) in [(40, 25), (100, 50), (200, 100)] {
        let count = columns * rows;
        if !wanted.is_empty() && !wanted.contains(&count) {
            continue;
        }
        let svg = board(columns, rows, kind);
        let layers = Layers(vec![(Layer::Cut, vec![Selector::Name("cuts".to_string())])]);
        let how = Reading { layers: &layers, width_mm: None, join_mm: JOIN_MM, with_personal: false };
        let lines: Vec<Line> = drawing::read(&svg, &how).expect("a sound drawing").value.lines;
        let slices: Vec<(&[Point], bool)> = lines.iter().map(|l| (l.points.as_slice(), l.closed)).collect();
        let points: usize = lines.iter().map(|l| l.points.len()).sum();
        let run = || {
            let net = arrange(&slices, Near { join_mm: JOIN_MM }).value;
            assert_eq!(net.faces.len(), count);
            net
        };
        let best = timed(|| drop(run()));
        let net = run();
        let outlines = timed(|| drop((0..count).map(|f| net.face(f)).collect::<Vec<_>>()));
        drop(net);
        if alone {
            println!(
                "| {memory} | {count} | {points} | {:.1} | {:.1} | | | {:.1} | |",
                best * 1e3,
                outlines * 1e3,
                best * 1e6 / count as f64
            );
            continue;
        }
        let file = folder.join(format!("{count}.json"));
        let rings: Vec<serde_json::Value> = lines
            .iter()
            .map(|l| {
                let numbers: Vec<[f64; 2]> = l.points.iter().map(|p| [p.x, p.y]).collect();
                serde_json::json!({"points": numbers, "closed": l.closed})
            })
            .collect();
        std::fs::write(&file, serde_json::to_string(&rings).expect("JSON")).expect("written");
        let geos = told(&mut check(&["time", &file.to_string_lossy(), &count.to_string()]));
        let geos: f64 = geos.parse().expect("seconds");
        let shop = folder.join(format!("shop-{count}"));
        write_shop(&shop, &svg).expect("written");
        let mut run = check(&["run", env!("CARGO_BIN_EXE_kerfleaf"), &shop.to_string_lossy()]);
        // As the program has it.
        let measured = told(run.env_remove(TUNABLES));
        println!(
            "| {memory} | {count} | {points} | {:.1} | {:.1} | {:.0} | {:.1} | {:.1} | {measured} |",
            best * 1e3,
            outlines * 1e3,
            geos * 1e3,
            geos / best,
            best * 1e6 / count as f64
        );
    }
}
