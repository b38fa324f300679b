//! A shop of a few small designs that is published within a second, for tests that publish often.
#![allow(dead_code, reason = "each test takes what it needs")]

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// Its folder, made anew for each test.
pub struct Shop {
    pub root: PathBuf,
}

/// Designs of a quick shop.
pub const SLUGS: [&str; 6] = ["boat", "gull", "moon", "reef", "sail", "tide"];

/// Two pieces of 20 × 30 mm, two fields of paint.
const DRAWING: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="30mm" viewBox="0 0 40 30"><g id="paint"><rect width="40" height="12" fill="#f2c14e"/><rect y="12" width="40" height="18" fill="#3a6ea5"/></g><g id="cuts" fill="none" stroke="#000"><rect width="40" height="30"/><path d="M20 0C26 10 14 20 20 30"/></g></svg>"##;

impl Shop {
    /// `designs` of [`SLUGS`], published.
    pub fn new(name: &str, designs: usize) -> Shop {
        let root = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
        let _ = fs::remove_dir_all(&root);
        let shop = Shop { root };
        shop.write(
            "shop.toml",
            "name = \"Small bench\"\ncurrency = \"EUR\"\norder = \"mailto:bench@example.org\"\npaper = [\"a4\"]\n\
             [[postage]]\nzone = \"inland\"\nservice = \"letter\"\nup_to = \"1 kg\"\nprice = \"5.90\"\n\
             [look]\nshow_cuts = true\n[workshop]\nhourly_rate = \"28.00\"\n",
        );
        for slug in SLUGS.iter().take(designs) {
            shop.design(slug, "published");
        }
        shop
    }

    pub fn write(&self, path: &str, text: &str) {
        let path = self.root.join(path);
        fs::create_dir_all(path.parent().expect("inside the shop")).expect("a folder can be made");
        fs::write(path, text).expect("a file can be written");
    }

    pub fn design(&self, slug: &str, status: &str) {
        let record = format!(
            "title = \"Design {slug}\"\nstatus = \"{status}\"\nadded = 2026-03-14\nsubjects = [\"river\"]\n\
             [board]\nwood = \"birch-plywood\"\nthickness = \"4 mm\"\nkerf = \"0.2 mm\"\n\
             [drawing.layers]\ncut = \"cuts\"\ncolour = \"paint\"\n\
             [[paint]]\nnumber = 1\nname = \"Sand\"\ncolour = \"#f2c14e\"\n[[paint]]\nnumber = 2\nname = \"Sea\"\ncolour = \"#3a6ea5\"\n\
             [[offer]]\nform = \"painted\"\nprice = \"84.00\"\nstock = 2\n[[offer]]\nform = \"blank\"\nprice = \"24.00\"\n"
        );
        self.write(&format!("designs/{slug}/record.toml"), &record);
        self.write(&format!("designs/{slug}/drawing.svg"), DRAWING);
    }

    /// Draws a design in another size, tenths of the first.
    pub fn size(&self, slug: &str, tenths: usize) {
        let sides = format!("width=\"{}mm\" height=\"{}mm\" viewBox", 4 * tenths, 3 * tenths);
        let drawing = DRAWING.replacen("width=\"40mm\" height=\"30mm\" viewBox", &sides, 1);
        self.write(&format!("designs/{slug}/drawing.svg"), &drawing);
    }

    /// Replaces the first `from` of a file, if the file and it are there.
    pub fn edit(&self, path: &str, from: &str, to: &str) {
        if let Ok(text) = fs::read_to_string(self.root.join(path)) {
            self.write(path, &text.replacen(from, to, 1));
        }
    }

    /// A photograph of one colour.
    pub fn photo(&self, slug: &str, file: &str, shade: u8) {
        let path = self.root.join(format!("designs/{slug}/photos/{file}"));
        fs::create_dir_all(path.parent().expect("inside the shop")).expect("a folder can be made");
        image::RgbImage::from_pixel(24, 16, image::Rgb([shade, 90, 120])).save(path).expect("a picture can be written");
    }

    /// Waits until files written just now are older than the file system's clock can mistake.
    pub fn settle(&self) {
        std::thread::sleep(std::time::Duration::from_millis(120));
    }

    pub fn publish(&self, more: &[&str]) -> (Option<i32>, String) {
        let Output { status, stdout, stderr } = Command::new(env!("CARGO_BIN_EXE_kerfleaf"))
            .arg("publish")
            .arg(&self.root)
            .args(more)
            .output()
            .expect("the program runs");
        (status.code(), String::from_utf8_lossy(&stdout).into_owned() + &String::from_utf8_lossy(&stderr))
    }
}

/// Every file below a folder with its bytes.
pub fn tree(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    walkdir::WalkDir::new(folder)
        .into_iter()
        .filter_map(Result::ok)
        .filter(|entry| entry.file_type().is_file())
        .map(|entry| {
            let name = entry.path().strip_prefix(folder).expect("inside").to_string_lossy().into_owned();
            (name, fs::read(entry.path()).expect("readable"))
        })
        .collect()
}

/// The same numbers on every run: Knuth's MMIX generator, its upper bits.
pub struct Random(pub u64);

impl Random {
    pub fn below(&mut self, end: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % end
    }

    pub fn pick<'a>(&mut self, from: &[&'a str]) -> &'a str {
        from[self.below(from.len())]
    }
}
