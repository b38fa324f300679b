//! How many boards a stock sheet gives, by their boxes.
//!
//! In: a sheet, its margin, a board's box, the beam's width. Out: [`Yield`]: all upright, all turned, both mixed.
//! Rules: every edge of the sheet keeps its margin; neighbours stand one beam apart, since the beam runs around each. Mixed layouts are found by dividing the
//! sheet in two, or in five blocks around a middle one, again and again (Morabito and Morales 1998), over places that boards laid side by side can reach.
//! Never here: shapes that nest: boards are taken by their boxes, and the sheet says so.

use std::collections::{BTreeMap, BTreeSet};

/// Boards beyond this number in one layout are not worth a search: then only even rows count.
const MOST: usize = 60;
/// Places of a division beyond this number are thinned out to the even rows as well.
const MOST_PLACES: usize = 40;

/// Boards that a sheet gives.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Yield {
    /// As drawn, in even rows: across and down.
    pub upright: (usize, usize),
    /// Turned by a quarter, in even rows.
    pub turned: (usize, usize),
    /// The most, both ways mixed.
    pub most: usize,
    /// Share of the sheet that becomes puzzle, 0 to 1, with the most boards.
    pub share: f64,
}

/// Counts boards of `board_mm` (width and height of the drawn box) on a sheet. `board_mm2` is what one board has of wood.
pub fn yields(sheet_mm: [f64; 2], margin_mm: f64, board_mm: [f64; 2], beam_mm: f64, board_mm2: f64) -> Yield {
    let micrometres = |mm: f64| (mm * 1000.0).round() as i64;
    // The beam runs along the box, half of it outside; so each board takes up a beam more, and the sheet gives one beam back at its end.
    let sheet = sheet_mm.map(|s| micrometres((s - 2.0 * margin_mm).max(0.0)));
    let [w, h] = board_mm.map(|b| micrometres(b + beam_mm).max(1));
    let even = |(a, b): (i64, i64)| ((sheet[0].max(0) / a) as usize, (sheet[1].max(0) / b) as usize);
    let (upright, turned) = (even((w, h)), even((h, w)));
    let even_most = (upright.0 * upright.1).max(turned.0 * turned.1);
    let bound = (sheet[0] / w.min(h)) as i128 * (sheet[1] / w.min(h)) as i128;
    let by_area = (i128::from(sheet[0]) * i128::from(sheet[1]) / (i128::from(w) * i128::from(h))).min(bound);
    let most = if by_area as usize > MOST {
        even_most
    } else {
        Search { w, h, known: BTreeMap::new() }.most(sheet[0], sheet[1]).max(even_most)
    };
    let area = sheet_mm[0] * sheet_mm[1];
    Yield { upright, turned, most, share: if area > 0.0 { most as f64 * board_mm2 / area } else { 0.0 } }
}

struct Search {
    w: i64,
    h: i64,
    known: BTreeMap<(i64, i64), usize>,
}

impl Search {
    fn even(&self, length: i64, width: i64) -> usize {
        let rows = |a: i64, b: i64| (length / a) as usize * (width / b) as usize;
        rows(self.w, self.h).max(rows(self.h, self.w))
    }

    /// Places up to `length` that boards laid end to end reach, each once.
    fn places(&self, length: i64) -> Vec<i64> {
        let mut all = BTreeSet::from([0]);
        for i in 0..=length / self.w {
            for j in 0..=(length - i * self.w) / self.h {
                all.insert(i * self.w + j * self.h);
            }
        }
        let all: Vec<i64> = all.into_iter().collect();
        if all.len() > MOST_PLACES {
            return (0..=length / self.w)
                .map(|i| i * self.w)
                .chain((1..=length / self.h).map(|j| j * self.h))
                .collect();
        }
        all
    }

    /// The most boards on a rectangle.
    fn most(&mut self, length: i64, width: i64) -> usize {
        // Lengths that hold the same boards are one case.
        let reached = |places: &[i64]| places.iter().copied().max().unwrap_or(0);
        let (xs, ys) = (self.places(length), self.places(width));
        let (length, width) = (reached(&xs), reached(&ys));
        let bound = (length as i128 * width as i128 / (self.w as i128 * self.h as i128)) as usize;
        if bound == 0 {
            return 0;
        }
        if let Some(&known) = self.known.get(&(length, width)) {
            return known;
        }
        let mut best = self.even(length, width);
        // Kept at once, so that a division that leads back here ends.
        self.known.insert((length, width), best);
        let inner =
            |all: &[i64], whole: i64| -> Vec<i64> { all.iter().copied().filter(|p| *p > 0 && *p < whole).collect() };
        let (xs, ys) = (inner(&xs, length), inner(&ys, width));
        for &x in &xs {
            if best == bound {
                break;
            }
            best = best.max(self.most(x, width) + self.most(length - x, width));
        }
        for &y in &ys {
            if best == bound {
                break;
            }
            best = best.max(self.most(length, y) + self.most(length, width - y));
        }
        // Five blocks: four around a middle one, like the sails of a mill, both ways round.
        for (i, &x1) in xs.iter().enumerate() {
            for &x2 in &xs[i..] {
                for (k, &y1) in ys.iter().enumerate() {
                    for &y2 in &ys[k..] {
                        if best == bound || (x1 == x2 && y1 == y2) {
                            continue;
                        }
                        let one = self.most(x1, y2)
                            + self.most(length - x1, y1)
                            + self.most(x2 - x1, y2 - y1)
                            + self.most(x2, width - y2)
                            + self.most(length - x2, width - y1);
                        best = best.max(one);
                    }
                }
            }
        }
        self.known.insert((length, width), best);
        best
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The most boards of whole numbers on a grid, by trying every place for every board. Independent of the search above, and slow.
    struct Every {
        length: usize,
        width: usize,
        shapes: [(usize, usize); 2],
        taken: Vec<bool>,
        best: usize,
    }

    impl Every {
        fn most(length: usize, width: usize, a: usize, b: usize) -> usize {
            let mut every =
                Every { length, width, shapes: [(a, b), (b, a)], taken: vec![false; length * width], best: 0 };
            every.from(0, 0, length * width);
            every.best
        }

        fn from(&mut self, cell: usize, laid: usize, free: usize) {
            self.best = self.best.max(laid);
            if cell == self.length * self.width || laid + free / (self.shapes[0].0 * self.shapes[0].1) <= self.best {
                return;
            }
            if self.taken[cell] {
                return self.from(cell + 1, laid, free);
            }
            let (x, y) = (cell % self.length, cell / self.length);
            for (a, b) in self.shapes {
                let cells = || (y..y + b).flat_map(|v| (x..x + a).map(move |u| (u, v)));
                if x + a > self.length || y + b > self.width || cells().any(|(u, v)| self.taken[v * self.length + u]) {
                    continue;
                }
                let places: Vec<usize> = cells().map(|(u, v)| v * self.length + u).collect();
                places.iter().for_each(|p| self.taken[*p] = true);
                self.from(cell + 1, laid + 1, free - a * b);
                places.iter().for_each(|p| self.taken[*p] = false);
            }
            // Or the cell stays empty.
            self.from(cell + 1, laid, free - 1);
        }
    }

    #[test]
    fn small_sheets_give_what_an_exhaustive_search_finds() {
        let mut tried = 0;
        for length in 4..=13 {
            for width in 4..=length.min(10) {
                for (a, b) in [(2, 1), (3, 1), (3, 2), (4, 2), (4, 3), (5, 2), (5, 3), (5, 4)] {
                    if length * width / (a * b) > 14 {
                        continue;
                    }
                    let wanted = Every::most(length, width, a, b);
                    let found = yields([length as f64, width as f64], 0.0, [a as f64, b as f64], 0.0, 1.0);
                    assert_eq!(found.most, wanted, "{a} × {b} on {length} × {width}");
                    tried += 1;
                }
            }
        }
        assert!(tried > 250, "{tried}");
    }

    /// On paper: 600 × 400 mm with 6 mm margin leave 588 × 388; boards of 190 × 120 with a beam of 0.2 take 190.2 × 120.2.
    #[test]
    fn a_sheet_with_margins_is_counted_as_on_paper() {
        let found = yields([600.0, 400.0], 6.0, [190.0, 120.0], 0.2, 20_000.0);
        assert_eq!((found.upright, found.turned), ((3, 3), (4, 2)));
        assert_eq!(found.most, 9);
        assert!((found.share - 9.0 * 20_000.0 / 240_000.0).abs() < 1e-12);
    }

    #[test]
    fn a_board_larger_than_the_sheet_gives_none_and_one_that_fits_turned_gives_one() {
        assert_eq!(yields([600.0, 400.0], 6.0, [590.0, 380.0], 0.2, 1.0).most, 0);
        assert_eq!(yields([600.0, 400.0], 6.0, [380.0, 580.0], 0.2, 1.0).most, 1);
        assert_eq!(yields([0.0, 0.0], 6.0, [10.0, 10.0], 0.2, 1.0).most, 0);
        let many = yields([1200.0, 600.0], 0.0, [20.0, 20.0], 0.0, 400.0);
        assert_eq!(many.most, 1800);
    }
}
