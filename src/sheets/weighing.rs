//! Weighing instead of counting: what a scale can tell of a missing piece, and what it cannot.
//!
//! In: areas and places of the pieces, density, thickness. Out: [`Weighing`]: which pieces to weigh first, the factor to all, the limits.
//!
//! The computed weight of a board is a mean over boards: within a species specific gravity varies by about 10 %
//! (Wood Handbook FPL-GTR-282, 2021, chapter 4), so it is off by several pieces. A sample of the same board shares its density: let F be the area of all
//! pieces over that of the sample. Each reading is off by at most half a step d of the scale, so F × sample − all is off by at most (F + 1) d ÷ 2. A larger
//! difference means that something is missing; a piece heavier than (F + 1) d always makes one.
//! Never here: that the density is the same all over the board: what unevenness costs is told beside the limits.

/// Pieces of the sample.
pub const SAMPLE: usize = 20;
/// Fewer pieces than twice the sample are counted and not weighed.
pub const LEAST_PIECES: usize = 2 * SAMPLE;
/// Steps of common scales, g.
pub const STEPS_G: [f64; 3] = [1.0, 0.1, 0.01];
/// Coefficient of variation of a species' specific gravity. Wood Handbook FPL-GTR-282 (2021), chapter 4.
pub const VARIATION: f64 = 0.10;

/// What one scale can tell.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// Step of the scale, g.
    pub step_g: f64,
    /// A difference beyond this means that something is missing, g.
    pub beyond_g: f64,
    /// A single missing piece heavier than this shows, g.
    pub shows_g: f64,
    /// How many pieces are lighter than that.
    pub lighter: usize,
}

/// How to weigh the pieces of one board.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighing {
    /// Pieces to weigh first, from 0, in order: spread over the board.
    pub sample: Vec<usize>,
    /// All over sample, by area.
    pub factor: f64,
    /// For each step of [`STEPS_G`].
    pub limits: Vec<Limit>,
    /// Mass of the middle piece, g.
    pub middle_g: f64,
    /// Mass of the lightest piece, g.
    pub lightest_g: f64,
    /// How far the computed weight may be off, in pieces of middle mass: one standard deviation.
    pub computed_off: f64,
}

/// Works the weighing out; `None` for boards that are counted faster than weighed. `rows` are the rows of the piece map, `g_per_mm2` the mass of the board.
pub fn weighing(net_mm2: &[f64], rows: &[Vec<usize>], g_per_mm2: f64) -> Option<Weighing> {
    let count = net_mm2.len();
    let all: f64 = net_mm2.iter().sum();
    if count < LEAST_PIECES || all <= 0.0 || g_per_mm2 <= 0.0 {
        return None;
    }
    let sample = spread(rows);
    let weighed: f64 = sample.iter().filter_map(|i| net_mm2.get(*i)).sum();
    if weighed <= 0.0 {
        return None;
    }
    let factor = all / weighed;
    let mut masses: Vec<f64> = net_mm2.iter().map(|a| a * g_per_mm2).collect();
    masses.sort_by(f64::total_cmp);
    let limit = |step_g: f64| {
        let shows_g = (factor + 1.0) * step_g;
        Limit { step_g, beyond_g: shows_g / 2.0, shows_g, lighter: masses.iter().filter(|m| **m <= shows_g).count() }
    };
    let middle_g = f64::midpoint(masses[(count - 1) / 2], masses[count / 2]);
    Some(Weighing {
        sample,
        factor,
        limits: STEPS_G.map(limit).to_vec(),
        middle_g,
        lightest_g: masses[0],
        computed_off: if middle_g > 0.0 { VARIATION * all * g_per_mm2 / middle_g } else { 0.0 },
    })
}

/// Every so-manieth piece along the rows, first one way and then the other, so that slow changes over the board even out.
fn spread(rows: &[Vec<usize>]) -> Vec<usize> {
    let along: Vec<usize> = rows
        .iter()
        .enumerate()
        .flat_map(|(i, row)| {
            let mut row = row.clone();
            if i % 2 == 1 {
                row.reverse();
            }
            row
        })
        .collect();
    let taken = SAMPLE.min(along.len());
    let mut sample: Vec<usize> =
        (0..taken).filter_map(|k| along.get((2 * k + 1) * along.len() / (2 * taken)).copied()).collect();
    sample.sort_unstable();
    sample
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Numbers that look random and are the same everywhere: a multiplicative generator (Park and Miller 1988).
    struct Chance(u64);

    impl Chance {
        fn unit(&mut self) -> f64 {
            self.0 = self.0 * 48_271 % 2_147_483_647;
            self.0 as f64 / 2_147_483_647.0
        }

        /// Normal, by the sum of twelve (mean 0, deviation 1).
        fn normal(&mut self) -> f64 {
            (0..12).map(|_| self.unit()).sum::<f64>() - 6.0
        }
    }

    fn board(chance: &mut Chance, columns: usize, rows: usize) -> (Vec<f64>, Vec<Vec<usize>>) {
        let areas = (0..columns * rows).map(|_| 500.0 * (1.0 + 0.25 * chance.normal()).max(0.2)).collect();
        (areas, (0..rows).map(|r| (0..columns).map(|c| r * columns + c).collect()).collect())
    }

    fn read(mass_g: f64, step_g: f64) -> f64 {
        (mass_g / step_g).round() * step_g
    }

    /// 3,000 boards whose density varies by the handbook's 10 % from one to the next, each weighed whole and with one piece missing.
    #[test]
    fn a_sample_of_the_same_board_shows_what_the_computed_weight_cannot() {
        let mut chance = Chance(20_260_314);
        let computed = 6.0 * 650.0e-6;
        let (mut shown, mut heavy, mut missed, mut false_alarms) = (0, 0, 0, 0);
        let (mut wrong_by_computing, mut tried) = (0_usize, 0_usize);
        for _ in 0..3000 {
            let (areas, rows) = board(&mut chance, 12, 7);
            let w = weighing(&areas, &rows, computed).expect("84 pieces");
            let true_g_per_mm2 = computed * (1.0 + VARIATION * chance.normal());
            let mass = |i: usize| areas[i] * true_g_per_mm2;
            let all: f64 = (0..84).map(mass).sum();
            let sample: f64 = w.sample.iter().map(|i| mass(*i)).sum();
            let lost = (chance.unit() * 84.0) as usize % 84;
            let limit = &w.limits[1];
            assert_eq!(limit.step_g, 0.1);
            let alarm = |rest: f64| w.factor * read(sample, 0.1) - read(rest, 0.1) > limit.beyond_g + 1e-9;
            false_alarms += usize::from(alarm(all));
            if !w.sample.contains(&lost) {
                let seen = alarm(all - mass(lost));
                shown += usize::from(seen);
                if mass(lost) > limit.shows_g {
                    heavy += 1;
                    missed += usize::from(!seen);
                }
            }
            // The computed weight decides at half of the middle piece.
            let computed_all = areas.iter().sum::<f64>() * computed;
            let says_missing = |rest: f64| computed_all - rest > w.middle_g / 2.0;
            wrong_by_computing += usize::from(says_missing(all)) + usize::from(!says_missing(all - mass(lost)));
            tried += 2;
        }
        assert_eq!(false_alarms, 0);
        assert_eq!(missed, 0, "of {heavy} pieces heavier than the limit");
        assert!(heavy > 2000 && shown >= heavy, "{shown} of {heavy}");
        let share = wrong_by_computing as f64 / tried as f64;
        assert!(share > 0.4, "the computed weight is little better than a coin: wrong in {share:.2}");
    }

    /// On paper: 40 equal pieces of 1 g, 20 of them weighed: F = 2, so on a scale of 0.1 g a difference counts from 0.15 g on and 0.3 g always show.
    #[test]
    fn forty_equal_pieces_have_limits_that_can_be_worked_out_on_paper() {
        let rows: Vec<Vec<usize>> = (0..5).map(|r| (8 * r..8 * r + 8).collect()).collect();
        let w = weighing(&[500.0; 40], &rows, 0.002).unwrap();
        assert_eq!((w.sample.len(), w.factor), (20, 2.0));
        let limit = &w.limits[1];
        assert!((limit.beyond_g - 0.15).abs() < 1e-12 && (limit.shows_g - 0.3).abs() < 1e-12);
        assert_eq!((w.limits[0].lighter, limit.lighter), (40, 0), "1 g steps show nothing: 3 g");
        assert!((w.computed_off - 4.0).abs() < 1e-12, "a tenth of 40 pieces");
        assert_eq!(weighing(&[500.0; 39], &rows, 0.002), None);
    }

    /// A board a tenth denser at one end than at the other: twenty pieces spread over it weigh like the whole, the first twenty do not.
    #[test]
    fn a_sample_spread_over_the_board_evens_out_slow_changes() {
        let (columns, rows) = (12, 7);
        let lines: Vec<Vec<usize>> = (0..rows).map(|r| (0..columns).map(|c| r * columns + c).collect()).collect();
        let w = weighing(&vec![500.0; columns * rows], &lines, 0.004).unwrap();
        for (along, down) in [(0.1, 0.0), (0.0, 0.1), (0.07, 0.07)] {
            let density = |i: &usize| {
                let (x, y) = ((i % columns) as f64, (i / columns) as f64);
                1.0 + along * (x / (columns - 1) as f64 - 0.5) + down * (y / (rows - 1) as f64 - 0.5)
            };
            let mean = |pieces: &[usize]| pieces.iter().map(density).sum::<f64>() / pieces.len() as f64;
            let all: Vec<usize> = (0..columns * rows).collect();
            let (spread, first) = ((mean(&w.sample) - mean(&all)).abs(), (mean(&all[..20]) - mean(&all)).abs());
            assert!(spread < 0.002, "{along} {down}: {spread}");
            assert!(down == 0.0 || first > 10.0 * spread, "{first} {spread}");
        }
    }
}
