//! The program: parse the call, call the library, print; see `cli`.

use std::process::ExitCode;

mod cli;

fn main() -> ExitCode {
    cli::run(std::env::args_os())
}
