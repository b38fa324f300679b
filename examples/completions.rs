//! Writes completions for shells and the manual pages into a folder, from the very definitions that parse a call:
//! `cargo run --release --example completions -- target/completions`.

use std::path::PathBuf;

#[allow(dead_code)]
#[path = "../src/cli/mod.rs"]
mod cli;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = PathBuf::from(std::env::args_os().nth(1).ok_or("name a folder")?);
    std::fs::create_dir_all(&folder)?;
    let mut command = cli::command();
    for shell in [clap_complete::Shell::Bash, clap_complete::Shell::Zsh, clap_complete::Shell::Fish] {
        clap_complete::generate_to(shell, &mut command, "kerfleaf", &folder)?;
    }
    clap_mangen::generate_to(command, &folder)?;
    Ok(())
}
