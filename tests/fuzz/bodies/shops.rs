//! A whole shop of any files: read, measured and set as pages; never a panic, never a page outside its folder, nothing private.

use std::fs;

use kerfleaf::catalogue::{Card, pages};
use kerfleaf::figures;
use kerfleaf::publish::Addresses;
use kerfleaf::shop::{self, Status};

/// Lines that begin a file, and what stands in them.
pub const WORDS: &[&str] = &[
    "\n=== shop.toml\n",
    "\n=== designs/a/record.toml\n",
    "\n=== designs/a/drawing.svg\n",
    "\n=== designs/a/story.md\n",
    "\n=== designs/b/record.toml\n",
    "\n=== pages/about.md\n",
    "\n=== pages/care.de.md\n",
    "\n=== theme/page.html\n",
    "\n=== theme/style.css\n",
    "\n=== designs/a/photos/x.png\n",
    "name = \"A\"\n",
    "currency = \"EUR\"\n",
    "order = \"mailto:a@b.example\"\n",
    "languages = [\"en\", \"de\"]\n",
    "title = \"A\"\n",
    "status = \"published\"\n",
    "subjects = [\"x\"]\n",
    "[board]\nwood = \"birch-plywood\"\nthickness = \"4 mm\"\n",
    "[drawing.layers]\ncut = \"c\"\n",
    "[[offer]]\nform = \"plain\"\nprice = \"1.00\"\n",
    "<svg width='9mm' height='9mm' viewBox='0 0 9 9'><path id='c' d='M0 0h9v9h-9z'/></svg>",
    "[in.de]\n",
    "[workshop]\nhourly_rate = \"4831.77\"\n",
    "{{ page.title }}",
    "{% extends \"default/base.html\" %}",
];

/// Most bytes of a drawing that is measured: how long a large one takes is another target's question.
const MOST_DRAWING: usize = 2000;

/// Files stand one after the other, each behind a line `=== path`.
pub fn holds(data: &[u8]) {
    let folder = tempfile::tempdir().expect("a folder");
    let text = String::from_utf8_lossy(data);
    for part in text.split("\n=== ").skip(1) {
        let Some((path, content)) = part.split_once('\n') else { continue };
        // Only where the published folder could have it as well: this is no test of the system's own names.
        if Addresses::default().take(path).is_err() {
            continue;
        }
        let path = folder.path().join(path);
        let _ = path.parent().map(fs::create_dir_all);
        let _ = fs::write(path, content);
    }
    let Ok(shop) = shop::read(folder.path()) else { return };
    assert!(shop.entries.iter().all(|entry| entry.design.is_some() || !entry.mistakes.is_empty()));
    let sound = shop.entries.iter().filter_map(|entry| entry.design.as_ref());
    let sound = sound.filter(|design| design.status == Status::Published && design.drawing.svg.len() < MOST_DRAWING);
    let mut cards = Vec::new();
    for design in sound {
        if let Ok(measured) = figures::measure(design, &shop.settings) {
            cards.push(Card::new(&shop.settings, design, &measured, Vec::new(), Vec::new()));
        }
    }
    let Ok(made) = pages(&shop, &cards) else { return };
    // A rate is private where it stands as one; what changed the bytes may have put it into a page or the theme instead, or there as well.
    let once = data.windows(7).filter(|w| *w == b"4831.77").count() == 1;
    let secret = once && shop.settings.workshop.hourly_rate.is_some_and(|rate| rate.minor == 483_177);
    let mut taken = Addresses::default();
    for page in &made {
        assert_eq!(taken.take(&page.address), Ok(()), "{}", page.address);
        let text = String::from_utf8_lossy(&page.bytes);
        assert!(!(secret && text.contains("4831.77")), "{} tells a rate", page.address);
    }
}
