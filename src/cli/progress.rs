//! How far a long run has come: on a terminal alone, and only once it has taken a second.

use std::io::IsTerminal;
use std::sync::Mutex;
use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

/// What is done sooner needs no telling.
const PATIENCE: Duration = Duration::from_secs(1);

/// A bar for work of so many steps.
pub struct Progress {
    started: Instant,
    bar: ProgressBar,
    /// Whether it may ever be shown, and whether it is by now.
    shown: Mutex<(bool, bool)>,
}

impl Progress {
    /// A bar; `what` is said before the count, as in `measuring`.
    pub fn new(what: &str, steps: usize, quiet: bool) -> Progress {
        let bar = ProgressBar::with_draw_target(Some(steps as u64), ProgressDrawTarget::hidden());
        // A template of our own that holds no mistake; the usual one stands in where it should all the same.
        if let Ok(style) = ProgressStyle::with_template("{msg} {bar:24} {pos} of {len}") {
            bar.set_style(style.progress_chars("━╸─"));
        }
        bar.set_message(what.to_owned());
        let may = !quiet
            && steps > 1
            && std::io::stderr().is_terminal()
            && std::env::var_os("TERM").is_none_or(|t| t != "dumb");
        Progress { started: Instant::now(), bar, shown: Mutex::new((may, false)) }
    }

    /// One step more is done.
    pub fn step(&self) {
        self.bar.inc(1);
        let mut shown = self.shown.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        if shown.0 && !shown.1 && self.started.elapsed() >= PATIENCE {
            shown.1 = true;
            self.bar.set_draw_target(ProgressDrawTarget::stderr());
        }
    }

    /// Says a line without tearing the bar.
    pub fn say(&self, line: &str) {
        self.bar.suspend(|| eprintln!("{line}"));
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.bar.finish_and_clear();
    }
}
