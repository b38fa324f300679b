//! What a publication says, kept so that one with nothing to do says the same.

use kerfleaf::shop::Mistake;

use crate::cli::check;
use crate::cli::progress::Progress;

/// Lines on standard error: status lines, which `--quiet` leaves out, and what went wrong.
pub struct Told {
    quiet: bool,
    progress: Option<Progress>,
    lines: Vec<(bool, String)>,
}

impl Told {
    pub fn new(quiet: bool) -> Told {
        Told { quiet, progress: None, lines: Vec::new() }
    }

    /// Says a line that holds for the shop as it is.
    pub fn say(&mut self, status: bool, line: String) {
        self.note(status, line.clone());
        self.lines.push((status, line));
    }

    /// Says a line that holds for this run alone.
    pub fn note(&mut self, status: bool, line: String) {
        if !(status && self.quiet) {
            self.print(&line);
        }
    }

    fn print(&self, line: &str) {
        match &self.progress {
            Some(progress) => progress.say(line),
            None => eprintln!("{line}"),
        }
    }

    /// Work of so many steps begins; its bar stands below what is said, until [`Told::over`].
    pub fn under_way(&mut self, what: &str, steps: usize) {
        self.progress = Some(Progress::new(what, steps, self.quiet));
    }

    /// One step of it is done.
    pub fn step(&self) {
        self.progress.iter().for_each(Progress::step);
    }

    /// The work is over.
    pub fn over(&mut self) {
        self.progress = None;
    }

    /// Tells mistakes, each with its line.
    pub fn mistakes(&mut self, mistakes: &[Mistake]) {
        for mistake in mistakes {
            self.mistake(mistake);
        }
    }

    /// Tells a mistake, in colours where this run does; it is kept without.
    pub fn mistake(&mut self, mistake: &Mistake) {
        self.print(&check::rendered(mistake));
        self.lines.push((false, mistake.render()));
    }

    /// What holds for the shop as it is.
    pub fn kept(&self) -> Vec<(bool, String)> {
        self.lines.clone()
    }
}
