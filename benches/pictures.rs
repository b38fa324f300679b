//! How long all pictures of a 200-piece design take to draw, against encoding them: every view of a product page in all its sizes.
//!
//!     cargo bench --bench pictures
//!
//! In one run on one thread; what counts is the time the thread has run, the best of three for each side. The rows stand in DEVELOPERS.md.

#[path = "../tests/scenes/mod.rs"]
mod scenes;

use kerfleaf::pictures::{self, Picture, Studio, Subject, View};
use scenes::landscape;

/// What a product page of a design with all three forms shows.
const VIEWS: [View; 6] =
    [View::Whole, View::CloseUp, View::Blank { primed: true, cut: false }, View::Plain, View::Loosened, View::Tray];
/// As the catalogue encodes.
const QUALITY: u8 = 84;
const WIDEST_JPEG: u32 = 1280;
const ROUNDS: usize = 3;

/// Seconds that this thread has run: proc(5), `schedstat`; by the clock where there is none.
fn seconds(start: std::time::Instant) -> f64 {
    let stat = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    let ran = stat.split(' ').next().and_then(|ns| ns.parse::<f64>().ok());
    ran.map_or_else(|| start.elapsed().as_secs_f64(), |ns| ns * 1e-9)
}

/// What a piece of work gives, and the seconds it took.
fn timed<T>(work: impl FnOnce() -> T) -> (T, f64) {
    let clock = std::time::Instant::now();
    let start = seconds(clock);
    let made = work();
    (made, seconds(clock) - start)
}

fn encode(picture: &Picture) -> usize {
    let webp = pictures::webp(picture, QUALITY).map_or(0, |bytes| bytes.len());
    let old = picture.width <= WIDEST_JPEG;
    webp + if old { pictures::jpeg(picture, QUALITY).map_or(0, |bytes| bytes.len()) } else { 0 }
}

/// Seconds of drawing and of encoding, and how many pictures, for each view in turn.
fn round(subject: Subject) -> Vec<(f64, f64, usize)> {
    let mut studio = Studio::new(subject);
    VIEWS
        .map(|view| {
            let (made, drawing) = timed(|| {
                let widths = studio.widths(view);
                studio.draw(view, &widths)
            });
            let (bytes, encoding) = timed(|| made.iter().map(encode).sum::<usize>());
            assert!(bytes > 0 && !made.is_empty(), "{view:?}");
            (drawing, encoding, made.len())
        })
        .to_vec()
}

fn main() {
    let scene = landscape("bench", "maple-plywood", 300.0, 210.0, 16, 13, true);
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build().expect("a pool of one");
    let rounds: Vec<Vec<(f64, f64, usize)>> = (0..ROUNDS).map(|_| pool.install(|| scene.with(true, round))).collect();
    println!(
        "{} pieces, {} cells, one thread",
        scene.board.pieces.len(),
        scene.plan.as_ref().map_or(0, |p| p.cells.len())
    );
    println!("| view | sizes | drawing, s | encoding, s | times |");
    println!("|---|---|---|---|---|");
    let (mut drawing, mut encoding) = (0.0, 0.0);
    for (n, view) in VIEWS.iter().enumerate() {
        let best = |pick: fn(&(f64, f64, usize)) -> f64| {
            rounds.iter().filter_map(|round| round.get(n)).map(pick).fold(f64::INFINITY, f64::min)
        };
        let (drawn, encoded) = (best(|r| r.0), best(|r| r.1));
        let sizes = rounds[0][n].2;
        println!("| {view:?} | {sizes} | {drawn:.2} | {encoded:.2} | {:.1} |", drawn / encoded);
        drawing += drawn;
        encoding += encoded;
    }
    println!("| all | | {drawing:.2} | {encoding:.2} | {:.2} |", drawing / encoding);
}
