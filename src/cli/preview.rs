//! `preview`: the workbench in a browser.

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use clap::Args;
use kerfleaf::preview::{Preview, PreviewError};

use super::{Outcome, check};

/// The workbench in a browser, on this machine alone: the catalogue with its drafts, and each design with its findings
///
/// Prints an address to open. Whatever is saved in the shop shows at once. Nobody else on the network or in another window can look,
/// unless you give them the address; nothing is written. Ctrl-C ends it, with exit status 0.
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
            // Ctrl-C is how it is meant to end, so that is no failure. Without leave to say so it ends as well, with another status.
            let always = Arc::new(AtomicBool::new(true));
            let _ = signal_hook::flag::register_conditional_shutdown(signal_hook::consts::SIGINT, 0, always);
            preview.serve();
            Outcome::Done
        }
        Err(e) => {
            if let PreviewError::Shop(why) = &e {
                return check::no_shop(&call.shop, why);
            }
            eprintln!("kerfleaf: {e}.");
            if call.port != 0 {
                eprintln!("Leave --port out, and a free one is taken.");
            }
            Outcome::Lacking
        }
    }
}
