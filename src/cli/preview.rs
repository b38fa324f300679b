//! `preview`: the workbench in a browser.

use std::path::PathBuf;

use clap::Args;
use kerfleaf::preview::{Preview, PreviewError};

use super::Outcome;

/// The workbench in a browser, on this machine alone: the catalogue with its drafts, and each design with its findings
///
/// Prints an address to open. Whatever is saved in the shop shows at once. Nobody else on the network or in another window can look,
/// unless you give them the address; nothing is written. Ctrl-C ends it.
#[derive(Args)]
pub struct Call {
    /// The shop's folder
    shop: PathBuf,
    /// The port of 127.0.0.1 to use; any free one where it is left out
    #[arg(long, default_value_t = 0, hide_default_value = true)]
    port: u16,
}

pub fn run(call: &Call, quiet: bool) -> Outcome {
    match Preview::open(&call.shop, call.port) {
        Ok(preview) => {
            super::say(&preview.address());
            if !quiet {
                eprintln!(
                    "Open this address in a browser on this machine. It shows the shop as you save it; Ctrl-C ends it."
                );
            }
            preview.serve();
            Outcome::Done
        }
        Err(e) => {
            eprintln!("kerfleaf: {e}");
            if matches!(e, PreviewError::Shop(_)) { Outcome::WrongCall } else { Outcome::Lacking }
        }
    }
}
