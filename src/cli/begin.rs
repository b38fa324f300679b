//! `begin`: a small shop that can be published at once.

use std::path::{Path, PathBuf};

use clap::Args;
use kerfleaf::publish::{PublishError, new_folder};
use kerfleaf::shop::{FIRST_SLUG, begin, name_from};

use super::{Outcome, paths::shown};

/// A new shop that can be published at once: every line explained, and one design to start from
///
/// Makes the folder DIR with shop.toml, one design and a page. Nothing is asked, and nothing that is there is ever written over.
#[derive(Args)]
pub struct Call {
    /// The folder to make; its name becomes the shop's name
    dir: PathBuf,
}

pub fn run(call: &Call, quiet: bool) -> Outcome {
    let dir = call.dir.as_path();
    let name = dir.file_name().map(|name| name_from(&name.to_string_lossy())).unwrap_or_default();
    match new_folder(dir, &begin(&name)) {
        Ok(()) => {
            if !quiet {
                told(dir);
            }
            Outcome::Done
        }
        Err(PublishError::There { target }) => {
            eprintln!("kerfleaf: {} is there already, and `begin` never writes over anything.", target.display());
            eprintln!("Give the new shop another name: kerfleaf begin {}", shown(&free(dir)));
            Outcome::Lacking
        }
        Err(e) => {
            eprintln!("kerfleaf: {e}");
            Outcome::Lacking
        }
    }
}

/// The first name of the kind `my-shop-2` that nothing has.
fn free(dir: &Path) -> PathBuf {
    let name = dir.file_name().map_or_else(|| "my-shop".into(), |name| name.to_string_lossy().into_owned());
    let numbered = (2..1000).map(|n| dir.with_file_name(format!("{name}-{n}")));
    numbered.into_iter().find(|path| std::fs::symlink_metadata(path).is_err()).unwrap_or_else(|| "my-shop".into())
}

fn told(dir: &Path) {
    let dir = shown(dir);
    eprintln!(
        "{dir} is a shop now. In it:
  shop.toml                    name, money, boxes, postage: put in your own
  designs/{FIRST_SLUG}/     one design to start from: record.toml and drawing.svg
  pages/about.md               a page of your own

What comes next:
  kerfleaf publish {dir}               makes the catalogue; open {dir}/published/index.html in a browser
  kerfleaf add {dir} DRAWING.svg       takes a drawing of yours in as a new design
  kerfleaf preview {dir}               shows all of it in a browser while you work on it"
    );
}
