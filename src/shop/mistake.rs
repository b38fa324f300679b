//! A mistake in a record: what is wrong, where, the line itself, and what was probably meant.

/// A place in a file of the shop, for people: counted from 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// Path inside the shop folder, with `/`.
    pub file: String,
    /// Line, from 1; `None` for the file as a whole.
    pub line: Option<usize>,
    /// Column in characters, from 1.
    pub column: usize,
    /// How many characters are meant; at least 1.
    pub width: usize,
    /// The line itself.
    pub text: String,
}

/// One mistake; `Display` makes the sentence, [`Mistake::help`] what to write instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mistake {
    /// Where.
    pub at: Place,
    /// What is wrong, one sentence.
    pub message: String,
    /// What to write instead, if it can be said.
    pub help: Option<String>,
}
