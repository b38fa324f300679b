//! Pieces that are the same piece again: congruent by turning, never by flipping.
//!
//! Two outlines are compared about their centres of area. First what no turning changes: area, reach and the like. How far
//! an outline reaches in each direction is changed by turning only in where it begins, and by no more than two
//! outlines lie apart: that leaves few turns, mostly none. Each turn left is made better and judged by the
//! farthest that any point of one outline lies from the other.
//! Rule: handbook, figures, item 9.

mod outline;
mod print;

use kurbo::Vec2;
use rayon::prelude::*;

use super::Piece;
use super::groups::Groups;
use crate::findings::{Finding, Kind};
use outline::{Outline, alike, centre};
use print::{Print, SPECTRUM_APART_MM, WAVES, directions};

/// Nowhere may the outlines of twins lie farther apart, mm. Handbook, figures, item 9.
const APART_MM: f64 = 0.2;
/// Pieces of a class that are met one after the other before the search goes on with the next piece.
const MOST_KNOWN: usize = 4096;

/// Pieces in an order in which those that may be twins lie near each other.
struct Search<'a> {
    pieces: &'a [Piece],
    prints: Vec<Print>,
    directions: Vec<Vec2>,
    /// By strips of reach as wide as twins may differ, and in a strip by what tells most of them apart.
    order: Vec<usize>,
    /// In that order: strip, what tells most, and the next two; these lie close together, since most pairs are told apart by them.
    few: Vec<[f64; 4]>,
    spectra: Vec<[f64; 1 + WAVES]>,
}

impl<'a> Search<'a> {
    fn new(pieces: &'a [Piece]) -> Search<'a> {
        let directions = directions();
        let prints: Vec<Print> = pieces.par_iter().map(|p| Print::of(&p.face, &directions)).collect();
        let spectra: Vec<[f64; 1 + WAVES]> = prints.iter().map(Print::spectrum).collect();
        let telling = telling(&spectra);
        let few = |i: usize| {
            let [a, b, c] = telling.map(|t| spectra[i][t]);
            [(prints[i].reach_mm() / APART_MM).floor(), a, b, c]
        };
        let mut order: Vec<usize> = (0..pieces.len()).collect();
        order.sort_by(|&a, &b| {
            let (f, g) = (few(a), few(b));
            f[0].total_cmp(&g[0]).then(f[1].total_cmp(&g[1])).then(a.cmp(&b))
        });
        let (few, spectra) = (order.iter().map(|&i| few(i)).collect(), order.iter().map(|&i| spectra[i]).collect());
        Search { pieces, prints, directions, order, few, spectra }
    }

    /// Places in the order, after one of them, of all that may be its twins.
    fn near(&self, k: usize) -> impl Iterator<Item = usize> + '_ {
        let [strip, most, b, c] = self.few[k];
        let from = |strip: f64, least: f64| {
            self.few.partition_point(|f| f[0].total_cmp(&strip).then(f[1].total_cmp(&least)).is_lt())
        };
        let next = from(strip + 1.0, most - SPECTRUM_APART_MM);
        let square = SPECTRUM_APART_MM * SPECTRUM_APART_MM;
        let in_strip =
            move |strip: f64| move |f: &(usize, &[f64; 4])| f.1[0] == strip && f.1[1] - most <= SPECTRUM_APART_MM;
        let rows = |from: usize| (from..).zip(&self.few[from..]);
        let all = rows(k + 1).take_while(in_strip(strip)).chain(rows(next).take_while(in_strip(strip + 1.0)));
        let (mine, my_spectrum) = (&self.prints[self.order[k]], &self.spectra[k]);
        all.filter(move |(_, f)| square_apart(&[most, b, c], &[f[1], f[2], f[3]]) <= square).map(|(at, _)| at).filter(
            move |at| {
                square_apart(&self.spectra[*at], my_spectrum) <= square && mine.is_like(&self.prints[self.order[*at]])
            },
        )
    }

    /// The twins of a piece that come after it in the order, but for those known to be of its class.
    fn twins(&self, k: usize, groups: &Groups) -> Vec<usize> {
        let i = self.order[k];
        let (mut mine, mut known, mut twins) = (None, 0, Vec::new());
        for j in self.near(k).map(|at| self.order[at]) {
            if groups.root(i) == groups.root(j) {
                known += 1;
                // On a board of dust or of one shape all pairs would be looked at; the last of those links to what follows.
                if known > MOST_KNOWN {
                    break;
                }
                continue;
            }
            known = 0;
            let (a, b) = (&self.prints[i], &self.prints[j]);
            if a.differs(b) {
                continue;
            }
            let turns = a.turns(b, &self.directions);
            if turns.is_empty() {
                continue;
            }
            let mine = mine.get_or_insert_with(|| Outline::of(&self.pieces[i].face));
            let other = &self.pieces[j].face;
            if alike(mine, other, b.reach_mm(), turns.into_iter().map(|degrees| self.directions[degrees])) {
                twins.push(j);
            }
        }
        twins
    }
}

/// Pieces that are looked at side by side; fewer as long as twins are found, since those already known need no second look.
const SIDE_BY_SIDE: usize = 512;

/// Classes of congruent pieces with two members or more: whatever is linked by twins. Members in order, classes by their first.
pub fn classes(pieces: &[Piece]) -> Vec<Vec<usize>> {
    let search = Search::new(pieces);
    let mut groups = Groups::new(pieces.len());
    // Of pieces as small as this no two can lie farther apart.
    let dust: Vec<usize> = (0..pieces.len()).filter(|&i| search.prints[i].reach_mm() <= APART_MM / 2.0).collect();
    dust.windows(2).for_each(|pair| groups.unite(pair[0], pair[1]));
    let (mut k, mut count) = (0, 1);
    while k < pieces.len() {
        let to = (k + count).min(pieces.len());
        let found: Vec<Vec<usize>> = (k..to).into_par_iter().map(|k| search.twins(k, &groups)).collect();
        let none = found.iter().all(Vec::is_empty);
        for (k, twins) in (k..to).zip(found) {
            twins.into_iter().for_each(|j| groups.unite(search.order[k], j));
        }
        k = to;
        count = if none { (2 * count).min(SIDE_BY_SIDE) } else { (count / 2).max(1) };
    }
    let mut members: Vec<(usize, usize)> = (0..pieces.len()).map(|i| (groups.find(i), i)).collect();
    members.sort_unstable();
    let mut classes: Vec<Vec<usize>> =
        members.chunk_by(|a, b| a.0 == b.0).map(|class| class.iter().map(|m| m.1).collect()).collect();
    classes.retain(|c| c.len() > 1);
    classes.sort();
    classes
}

/// Which three of the numbers vary most from piece to piece.
fn telling(spectra: &[[f64; 1 + WAVES]]) -> [usize; 3] {
    let count = spectra.len().max(1) as f64;
    let variance = |i: usize| {
        let mean = spectra.iter().map(|f| f[i]).sum::<f64>() / count;
        spectra.iter().map(|f| (f[i] - mean) * (f[i] - mean)).sum::<f64>()
    };
    let mut all: Vec<(f64, usize)> = (0..=WAVES).map(|i| (variance(i), i)).collect();
    all.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    [all[0].1, all[1].1, all[2].1]
}

fn square_apart<const N: usize>(a: &[f64; N], b: &[f64; N]) -> f64 {
    a.iter().zip(b).map(|(a, b)| (a - b) * (a - b)).sum()
}

/// One `twins` finding for each class, at its first piece.
pub fn findings(pieces: &[Piece], classes: &[Vec<usize>]) -> Vec<Finding> {
    let told = |class: &Vec<usize>| {
        let first = pieces.get(*class.first()?)?;
        let numbers: Vec<String> = class.iter().take(12).map(|i| (i + 1).to_string()).collect();
        let more = if class.len() > 12 { ", …" } else { "" };
        Some(Finding::new(
            Kind::Twins,
            Some(centre(&first.face.outer)),
            format!("{} pieces have the same outline when turned: {}{more}.", class.len(), numbers.join(", ")),
            "Buyers may lay either in either place. Leave it so if that is meant; else bend one of their lines.",
        ))
    };
    classes.iter().filter_map(told).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::{Face, Point};

    fn piece(points: Vec<Point>) -> Piece {
        let face = Face { outer: points, holes: vec![] };
        Piece::new(face.clone(), vec![face], 0)
    }

    /// An outline without any symmetry, turned by `degrees`, moved, and begun at another corner.
    fn again(degrees: f64, first: usize, flip: bool, noise_mm: f64) -> Piece {
        let corners =
            [(0., 0.), (31., 2.), (30., 11.), (24., 12.), (23., 19.), (31., 20.), (29., 33.), (8., 30.), (-2., 17.)];
        let (sin, cos) = (libm::sin(degrees.to_radians()), libm::cos(degrees.to_radians()));
        let mut points: Vec<Point> = corners
            .iter()
            .enumerate()
            .map(|(i, &(x, y))| {
                let x = (if flip { -x } else { x }) + noise_mm * if i % 2 == 0 { 1.0 } else { -1.0 };
                Point::new(x * cos - y * sin + 200.0, x * sin + y * cos + 90.0)
            })
            .collect();
        if flip {
            points.reverse();
        }
        points.rotate_left(first);
        piece(points)
    }

    #[test]
    fn turned_pieces_are_twins_and_flipped_ones_are_not() {
        let pieces = [
            again(0.0, 0, false, 0.0),
            again(77.7, 4, false, 0.05),
            again(180.0, 7, false, 0.0),
            again(30.0, 2, true, 0.0),
        ];
        assert_eq!(classes(&pieces), vec![vec![0, 1, 2]]);
    }

    #[test]
    fn pieces_half_a_millimetre_apart_are_no_twins() {
        assert!(classes(&[again(0.0, 0, false, 0.0), again(45.0, 3, false, 0.5)]).is_empty());
    }

    /// A bar with a tab at one end, moved up by some mm: by least squares hardly worth a turn, since the bar is most of the outline.
    fn tabbed(up_mm: f64) -> Piece {
        let corners = [(0., 0.), (60., 0.), (60., 4. + up_mm), (66., 4. + up_mm), (66., 6. + up_mm), (60., 6. + up_mm)];
        let corners = corners.into_iter().chain([(60., 10.), (0., 10.)]);
        piece(corners.map(|(x, y)| Point::new(x, y)).collect())
    }

    /// Turned by 0.3 / 66 about the middle, the tab is 0.14 mm too high and the far end 0.14 mm too low.
    #[test]
    fn twins_are_judged_at_the_turn_at_which_the_farthest_place_is_nearest() {
        assert_eq!(classes(&[tabbed(0.0), tabbed(0.3)]), vec![vec![0, 1]]);
        assert!(classes(&[tabbed(0.0), tabbed(0.5)]).is_empty());
    }

    #[test]
    fn long_rectangles_are_twins_wherever_their_outline_begins() {
        let bar = |turn: bool, first: usize| {
            let mut p: Vec<Point> = [(0., 0.), (50., 0.), (50., 20.), (0., 20.)]
                .map(|(x, y)| if turn { Point::new(-y, x) } else { Point::new(x, y) })
                .to_vec();
            p.rotate_left(first);
            piece(p)
        };
        assert_eq!(classes(&[bar(false, 0), bar(true, 1), bar(false, 3)]), vec![vec![0, 1, 2]]);
    }
}
