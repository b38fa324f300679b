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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{Layer, Line};
    use crate::pieces::{Near, board};

    fn line(points: &[(f64, f64)], closed: bool) -> Line {
        Line { layer: Layer::Cut, points: points.iter().map(|p| Point::from(*p)).collect(), closed }
    }

    fn marked(cut: &[Line], score: &[Line], thickness_mm: f64) -> String {
        let net = |lines: &[Line]| board(lines, Near { join_mm: 0.05 }, 0.2).value.net;
        mark(&net(cut), &net(score), thickness_mm, 0.2)
    }

    fn square() -> Line {
        line(&[(10.0, 0.0), (10.0, 10.0), (0.0, 10.0), (0.0, 0.0)], true)
    }

    /// What is hashed, written out by hand: one cut line of five points from its least point the lesser way round, one score line, two lengths.
    #[test]
    fn a_mark_has_six_letters() {
        let numbers: [i64; 20] =
            [1, 5, 0, 0, 0, 10_000, 10_000, 10_000, 10_000, 0, 0, 0, 1, 2, 2_000, 5_000, 8_000, 5_500, 4_000, 200];
        let bytes: Vec<u8> = numbers.iter().flat_map(|n| n.to_le_bytes()).collect();
        let expected = BASE32_NOPAD.encode(&blake3::hash(&bytes).as_bytes()[..5]).to_ascii_lowercase();
        let found = marked(&[square()], &[line(&[(8.0, 5.5), (2.0, 5.0)], false)], 4.0);
        assert_eq!(found, expected[..6]);
        assert!(found.len() == 6 && found.bytes().all(|b| matches!(b, b'a'..=b'z' | b'2'..=b'7')), "{found}");
    }

    #[test]
    fn what_is_cut_decides_the_mark_and_not_how_it_was_drawn() {
        let divided = [
            line(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)], true),
            line(&[(0.0, 4.0), (10.0, 6.0)], false),
        ];
        let own = marked(&divided, &[], 4.0);
        let mut other = divided.clone();
        other.reverse();
        other[0].points.reverse();
        other[1].points.rotate_left(2);
        assert_eq!(marked(&other, &[], 4.0), own);
        assert_ne!(marked(&divided, &[], 4.001), own, "the thickness counts");
        assert_ne!(marked(&divided[..1], &divided[1..], 4.0), own, "cut is not scored");
        other[0].points[0].y += 0.002;
        assert_ne!(marked(&other, &[], 4.0), own, "two micrometres count");
    }
}
