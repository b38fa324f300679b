//! The drawing mark: six letters that name what was cut, so that a sold box names its drawing.
//!
//! Never to change between versions of the program: boxes that were sold carry it.

use data_encoding::BASE32_NOPAD;
use rayon::prelude::*;

use crate::pieces::Net;
use crate::shape::Point;

type Micrometres = (i64, i64);

fn whole(p: &Point) -> Micrometres {
    ((p.x * 1000.0).round() as i64, (p.y * 1000.0).round() as i64)
}

/// The line in whole micrometres from its lesser end; a closed one from its least point, the lesser way round.
fn canonical(points: &[Point]) -> Vec<Micrometres> {
    let mut line: Vec<Micrometres> = points.iter().map(whole).collect();
    line.dedup();
    if line.len() > 2 && line.first() == line.last() {
        line.pop();
        let n = line.len();
        let least = (0..n).min_by_key(|i| line[*i]).unwrap_or(0);
        line.rotate_left(least);
        line.push(line[0]);
    }
    if line.iter().rev().lt(line.iter()) {
        line.reverse();
    }
    line
}

/// RFC 4648 base32, lower case, first six letters, of BLAKE3 over the joined cut and score lines in whole micrometres
/// (each from its lesser end, lines sorted), thickness and kerf. Handbook, figures, item 15.
pub fn mark(cut: &Net, score: &Net, thickness_mm: f64, kerf_mm: f64) -> String {
    let mut hash = blake3::Hasher::new();
    for net in [cut, score] {
        let mut lines: Vec<Vec<Micrometres>> = net.chains.par_iter().map(|c| canonical(net.points(c))).collect();
        lines.par_sort();
        hash.update(&(lines.len() as u64).to_le_bytes());
        let mut bytes = Vec::new();
        for line in lines {
            bytes.clear();
            bytes.extend((line.len() as u64).to_le_bytes());
            line.iter().for_each(|(x, y)| bytes.extend([x.to_le_bytes(), y.to_le_bytes()].as_flattened()));
            hash.update(&bytes);
        }
    }
    for length in [thickness_mm, kerf_mm] {
        hash.update(&((length * 1000.0).round() as i64).to_le_bytes());
    }
    let letters = BASE32_NOPAD.encode(hash.finalize().as_bytes()).to_ascii_lowercase();
    letters.chars().take(6).collect()
}
