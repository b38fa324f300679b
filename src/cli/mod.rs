//! What a call means: one file a command, and what its outcome is for the shell.
//!
//! Standard output carries only what was asked for; everything else goes to standard error.

mod add;
mod begin;
mod check;
mod compare;
mod inspect;
mod measure;
mod paths;
#[cfg(feature = "preview")]
mod preview;
#[cfg(feature = "sheets")]
mod print;
mod progress;
mod publish;
mod schema;
mod stock;

use std::ffi::OsString;
use std::process::ExitCode;

use clap::error::ErrorKind;
use clap::{Parser, Subcommand};

/// How a run ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// All was done.
    Done,
    /// Something could not be done, or has a problem; everything else was done.
    Lacking,
    /// The call itself was wrong.
    WrongCall,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> ExitCode {
        ExitCode::from(match outcome {
            Outcome::Done => 0,
            Outcome::Lacking => 1,
            Outcome::WrongCall => 2,
        })
    }
}

/// From drawing to parcel for a workshop of wooden jigsaw puzzles: counts the pieces, checks that the puzzle holds,
/// weighs it, draws it before it is cut, and makes the shop's catalogue and painting guides from one folder of records.
#[derive(Parser)]
#[command(name = "kerfleaf", version, max_term_width = 100, after_help = AFTER)]
struct Call {
    /// Say nothing but what was asked for and what went wrong
    #[arg(long, global = true)]
    quiet: bool,
    #[command(subcommand)]
    command: Command,
}

const AFTER: &str = "\
SHOP is the folder with shop.toml and designs/ in it.

Exit status: 0 done; 1 something could not be done, or a drawing has a problem to mend (all else was still done); 2 the call was wrong.";

#[derive(Subcommand)]
enum Command {
    Begin(begin::Call),
    Add(add::Call),
    Publish(publish::Call),
    Measure(measure::Call),
    Inspect(inspect::Call),
    #[cfg(feature = "sheets")]
    Print(print::Call),
    #[cfg(feature = "preview")]
    Preview(preview::Call),
    Compare(compare::Call),
    Stock(stock::Call),
    Schema(schema::Call),
}

/// The definition of a call, for completions and manual pages (`examples/completions.rs`).
#[allow(dead_code, reason = "the program itself only parses with it")]
pub fn command() -> clap::Command {
    <Call as clap::CommandFactory>::command()
}

/// Runs one call of the program; the first argument is the program's own name.
pub fn run(args: impl IntoIterator<Item = OsString>) -> ExitCode {
    let call = match Call::try_parse_from(args) {
        Ok(call) => call,
        Err(told) => {
            // Help and version come this way as well, and are no errors.
            let _ = told.print();
            if !told.use_stderr() {
                return ExitCode::SUCCESS;
            }
            if told.kind() == ErrorKind::MissingRequiredArgument {
                example(&told.to_string());
            }
            return Outcome::WrongCall.into();
        }
    };
    let outcome = match call.command {
        Command::Begin(c) => begin::run(&c, call.quiet),
        Command::Add(c) => add::run(&c, call.quiet),
        Command::Publish(c) => publish::run(&c, call.quiet),
        Command::Measure(c) => measure::run(&c, call.quiet),
        Command::Inspect(c) => inspect::run(&c, call.quiet),
        #[cfg(feature = "sheets")]
        Command::Print(c) => print::run(&c, call.quiet),
        #[cfg(feature = "preview")]
        Command::Preview(c) => preview::run(&c, call.quiet),
        Command::Compare(c) => compare::run(&c, call.quiet),
        Command::Stock(c) => stock::run(&c, call.quiet),
        Command::Schema(c) => schema::run(&c),
    };
    outcome.into()
}

/// A whole call to go by, for one that lacks something.
const EXAMPLES: [&str; 10] = [
    "begin my-shop",
    "add my-shop harbour.svg",
    "publish my-shop",
    "measure my-shop",
    "inspect my-shop",
    "print my-shop --sheet painting",
    "preview my-shop",
    "compare my-shop harbour --with older.svg",
    "stock my-shop sold HARBOUR-P",
    "schema record",
];

/// Shows the example of the command that is named in the line on usage.
fn example(told: &str) {
    let usage = told.split("Usage: ").nth(1).unwrap_or_default();
    let of = |call: &&&str| usage.split_whitespace().nth(1) == call.split(' ').next();
    if let Some(call) = EXAMPLES.iter().find(of) {
        eprintln!("\nFor instance: kerfleaf {call}");
    }
}

/// Prints what was asked for. A reader that has gone away, as `head` does, ends the printing and nothing else.
fn say(text: &str) {
    use std::io::Write;
    let _ = writeln!(std::io::stdout().lock(), "{text}");
}
