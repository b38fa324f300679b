//! A page as a printer would lay it down: grey pixels by pdftoppm.
#![allow(dead_code, reason = "every test file takes what it needs of it")]

use std::path::Path;
use std::process::Command;

/// Grey pixels of a page, row by row.
pub struct Raster {
    pub width: usize,
    pub height: usize,
    pub grey: Vec<u8>,
    pub per_mm: f64,
}

/// Page `number` (from 1) at `dpi`.
pub fn page(path: &Path, number: usize, dpi: u32) -> Raster {
    let (dpi_text, number) = (dpi.to_string(), number.to_string());
    let run = Command::new("pdftoppm")
        .args(["-gray", "-r", &dpi_text, "-f", &number, "-l", &number, path.to_str().unwrap()])
        .output()
        .expect("pdftoppm is needed for this test; install poppler-utils");
    assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
    // PGM, binary: "P5\n<width> <height>\n255\n" and the pixels.
    let mut at = 0;
    let mut word = || {
        let start = at + run.stdout[at..].iter().take_while(|b| b.is_ascii_whitespace()).count();
        at = start + run.stdout[start..].iter().take_while(|b| !b.is_ascii_whitespace()).count();
        String::from_utf8_lossy(&run.stdout[start..at]).into_owned()
    };
    assert_eq!(word(), "P5");
    let (width, height): (usize, usize) = (word().parse().unwrap(), word().parse().unwrap());
    assert_eq!(word(), "255");
    let grey = run.stdout[at + 1..].to_vec();
    assert_eq!(grey.len(), width * height);
    Raster { width, height, grey, per_mm: f64::from(dpi) / 25.4 }
}

impl Raster {
    /// Height of the highest unbroken ink in a box given in points from the top left, mm: of one line of letters, where the box reaches into the next.
    pub fn ink_height_mm(&self, [left, top, right, bottom]: [f64; 4]) -> f64 {
        let px = |pt: f64| (pt / 72.0 * 25.4 * self.per_mm) as usize;
        let dark = |y: usize| (px(left)..px(right).min(self.width)).any(|x| self.grey[y * self.width + x] < 128);
        let (mut run, mut highest) = (0_usize, 0_usize);
        for y in px(top)..px(bottom).min(self.height) {
            run = if dark(y) { run + 1 } else { 0 };
            highest = highest.max(run);
        }
        highest as f64 / self.per_mm
    }
}

/// Boxes of the words of a page in points from the top left, by pdftotext.
pub fn words(path: &Path, number: usize) -> Vec<(String, [f64; 4])> {
    let number = number.to_string();
    let run = Command::new("pdftotext")
        .args(["-bbox", "-f", &number, "-l", &number, path.to_str().unwrap(), "-"])
        .output()
        .expect("pdftotext is needed for this test; install poppler-utils");
    let html = String::from_utf8(run.stdout).unwrap();
    let value = |line: &str, key: &str| -> Option<f64> {
        let from = line.find(&format!("{key}=\""))? + key.len() + 2;
        line[from..].split('"').next()?.parse().ok()
    };
    let word = |line: &str| {
        let side = |key| value(line, key);
        let text = line.split('>').nth(1)?.split('<').next()?;
        let text = text
            .replace("&apos;", "'")
            .replace("&quot;", "\"")
            .replace("&lt;", "<")
            .replace("&gt;", ">")
            .replace("&amp;", "&");
        Some((text, [side("xMin")?, side("yMin")?, side("xMax")?, side("yMax")?]))
    };
    html.lines().filter(|l| l.contains("<word ")).filter_map(word).collect()
}
