//! What a printer would do with a PDF: its pages' sizes, and every stroked line in points on the page, y up.
//!
//! Reads the page contents that qpdf lays open; knows the operators of paths and the graphics state (ISO 32000-1, 8.4 and 8.5), no more.
#![allow(dead_code, reason = "every test file takes what it needs of it")]

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// One page.
pub struct Page {
    pub width_pt: f64,
    pub height_pt: f64,
    pub strokes: Vec<Stroke>,
}

/// One stroked path.
#[derive(Clone, Debug)]
pub struct Stroke {
    pub width_pt: f64,
    /// Subpaths, in points on the page.
    pub lines: Vec<Vec<(f64, f64)>>,
    /// It is drawn with curves too (discs).
    pub curved: bool,
}

/// Writes the PDF where the build keeps what tests make.
pub fn saved(name: &str, pdf: &[u8]) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::File::create(&path).unwrap().write_all(pdf).unwrap();
    path
}

fn output(program: &str, args: &[&str]) -> Vec<u8> {
    let run = Command::new(program).args(args).stderr(Stdio::piped()).output();
    let run = run.unwrap_or_else(|e| panic!("{program} is needed for this test ({e}); install qpdf and poppler-utils"));
    assert!(run.status.success(), "{program} {args:?}: {}", String::from_utf8_lossy(&run.stderr));
    run.stdout
}

/// Whether qpdf finds nothing wrong; it panics with what it found.
pub fn is_sound(path: &Path) {
    output("qpdf", &["--check", path.to_str().unwrap()]);
}

/// The text of pages `first` to `last`, as a reader would copy it.
pub fn text(path: &Path, first: usize, last: usize) -> String {
    let (first, last) = (first.to_string(), last.to_string());
    let bytes = output("pdftotext", &["-layout", "-f", &first, "-l", &last, path.to_str().unwrap(), "-"]);
    String::from_utf8(bytes).unwrap()
}

/// All pages in order.
pub fn pages(path: &Path) -> Vec<Page> {
    let qdf = output("qpdf", &["--qdf", "--object-streams=disable", path.to_str().unwrap(), "-"]);
    let qdf: String = qdf.iter().map(|b| char::from(*b)).collect();
    let mut pages = Vec::new();
    while let Some(page) = page(&qdf, pages.len() + 1) {
        pages.push(page);
    }
    pages
}

fn page(qdf: &str, number: usize) -> Option<Page> {
    let object = &qdf[qdf.find(&format!("%% Page {number}\n"))?..];
    let sizes = &object[object.find("/MediaBox [")? + 11..];
    let sizes: Vec<f64> = sizes[..sizes.find(']')?].split_whitespace().map(|n| n.parse().unwrap()).collect();
    let contents = &qdf[qdf.find(&format!("%% Contents for page {number}\n"))?..];
    let stream = &contents[contents.find("stream\n")? + 7..];
    Some(Page { width_pt: sizes[2], height_pt: sizes[3], strokes: strokes(&stream[..stream.find("\nendstream")?]) })
}

#[derive(Clone, Copy)]
struct State {
    matrix: [f64; 6],
    width: f64,
}

fn strokes(content: &str) -> Vec<Stroke> {
    let mut state = State { matrix: [1.0, 0.0, 0.0, 1.0, 0.0, 0.0], width: 1.0 };
    let mut saved = Vec::new();
    let mut numbers: Vec<f64> = Vec::new();
    let (mut lines, mut curved): (Vec<Vec<(f64, f64)>>, bool) = (Vec::new(), false);
    let mut strokes = Vec::new();
    for token in tokens(content) {
        if let Ok(number) = token.parse::<f64>() {
            numbers.push(number);
            continue;
        }
        let m = state.matrix;
        let on_page = |x: f64, y: f64| (m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]);
        match (token.as_str(), &numbers[..]) {
            ("q", _) => saved.push(state),
            ("Q", _) => state = saved.pop().expect("as many Q as q"),
            ("w", [width]) => state.width = *width,
            ("cm", [a, b, c, d, e, f]) => {
                let (e, f) = on_page(*e, *f);
                let column = |x: f64, y: f64| (m[0] * x + m[2] * y, m[1] * x + m[3] * y);
                let ((a, b), (c, d)) = (column(*a, *b), column(*c, *d));
                state.matrix = [a, b, c, d, e, f];
            }
            ("m", [x, y]) => lines.push(vec![on_page(*x, *y)]),
            ("l", [x, y]) => lines.last_mut().expect("a path begins with m").push(on_page(*x, *y)),
            ("c", [.., x, y]) => {
                curved = true;
                lines.last_mut().expect("a path begins with m").push(on_page(*x, *y));
            }
            ("re", [x, y, w, h]) => {
                lines.push(
                    [(0.0, 0.0), (*w, 0.0), (*w, *h), (0.0, *h), (0.0, 0.0)]
                        .map(|(u, v)| on_page(x + u, y + v))
                        .to_vec(),
                );
            }
            ("h", _) => {
                let line = lines.last_mut().expect("a path begins with m");
                line.push(line[0]);
            }
            ("S", _) => {
                let scale = (m[0] * m[3] - m[1] * m[2]).abs().sqrt();
                strokes.push(Stroke { width_pt: state.width * scale, lines: std::mem::take(&mut lines), curved });
                curved = false;
            }
            ("n" | "f" | "f*" | "B" | "B*" | "b" | "b*" | "s", _) => {
                lines.clear();
                curved = false;
            }
            _ => {}
        }
        numbers.clear();
    }
    strokes
}

/// Numbers and operators; strings, names, arrays and dictionaries are passed over.
fn tokens(content: &str) -> Vec<String> {
    let mut tokens = Vec::new();
    let mut word = String::new();
    let mut depth = 0_i32;
    for c in content.chars() {
        let end = c.is_whitespace() || "<>[]()/".contains(c);
        if end {
            if depth == 0 && !word.is_empty() && !word.starts_with('/') {
                tokens.push(word.clone());
            }
            word.clear();
        }
        match c {
            '<' | '[' | '(' => depth += 1,
            '>' | ']' | ')' => depth -= 1,
            '/' => word.push('/'),
            _ if !end => word.push(c),
            _ => {}
        }
    }
    if depth == 0 && !word.is_empty() {
        tokens.push(word);
    }
    tokens
}
