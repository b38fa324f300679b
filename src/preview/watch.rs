//! Notices a save by looking: name, size and time of every file of the shop, some twenty times a second.
//!
//! Looking works on every file system, network drives and shared folders of a virtual machine included, and costs one or two per cent of
//! one core; what the program makes itself is not looked at.

#![allow(clippy::disallowed_types, reason = "dates of files tell that something was saved; no result hangs on them")]

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, UNIX_EPOCH};

use super::stock_room::StockRoom;

/// Between two looks.
const PAUSE: Duration = Duration::from_millis(50);
/// Folders that the program makes, and what is no part of the shop.
const LEFT_OUT: [&str; 4] = ["published", "sheets", "sales.csv", "node_modules"];

/// Size and time of each file; the time is only ever compared with itself.
type Seen = BTreeMap<PathBuf, (u64, Option<u128>)>;

/// Every file of the shop as it is now.
fn look(root: &Path) -> Seen {
    let walk = walkdir::WalkDir::new(root).min_depth(1).into_iter().filter_entry(|entry| {
        let name = entry.file_name().to_string_lossy();
        !(name.starts_with('.') || entry.depth() == 1 && LEFT_OUT.contains(&name.as_ref()))
    });
    let files = walk.filter_map(Result::ok).filter(|entry| !entry.file_type().is_dir());
    files
        .filter_map(|entry| {
            // Through a link, as the shop itself reads it.
            let about = std::fs::metadata(entry.path()).ok()?;
            let saved = about.modified().ok().and_then(|time| time.duration_since(UNIX_EPOCH).ok());
            Some((entry.path().to_owned(), (about.len(), saved.map(|time| time.as_nanos()))))
        })
        .collect()
}

/// Reads the shop, then looks for as long as the process lives, and has the room renewed at every change.
pub(super) fn start(root: &Path, room: Arc<StockRoom>) {
    let root = root.to_owned();
    std::thread::spawn(move || {
        let mut before = look(&root);
        room.renew();
        let first = room.now();
        // Beside the looking: cards of a large shop take seconds, and a save in between should be seen at once.
        std::thread::spawn(move || first.lay_out());
        loop {
            std::thread::sleep(PAUSE);
            let now = look(&root);
            if now != before {
                before = now;
                room.renew();
            }
        }
    });
}
