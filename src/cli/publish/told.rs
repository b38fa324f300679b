//! What a publication says, kept so that one with nothing to do says the same.

use kerfleaf::shop::Mistake;

/// Lines on standard error: status lines, which `--quiet` leaves out, and what went wrong.
pub struct Told {
    quiet: bool,
    lines: Vec<(bool, String)>,
}

impl Told {
    pub fn new(quiet: bool) -> Told {
        Told { quiet, lines: Vec::new() }
    }

    /// Says a line that holds for the shop as it is.
    pub fn say(&mut self, status: bool, line: String) {
        self.note(status, line.clone());
        self.lines.push((status, line));
    }

    /// Says a line that holds for this run alone.
    pub fn note(&mut self, status: bool, line: String) {
        if !(status && self.quiet) {
            eprintln!("{line}");
        }
    }

    /// Tells mistakes, each with its line.
    pub fn mistakes(&mut self, mistakes: &[Mistake]) {
        for mistake in mistakes {
            self.say(false, mistake.render());
        }
    }

    /// What holds for the shop as it is.
    pub fn kept(&self) -> Vec<(bool, String)> {
        self.lines.clone()
    }
}
