//! Which lines bound and cut the board, which close within it, and which only follow the picture.
//!
//! What bounds the board is cut. Lines on which its loose ends come to rest are cut as well. Of the others, those that follow the
//! borders of the picture, that shut each dot into a cell of its own, or that end in the open are scored; what makes pieces of a
//! sensible size is cut. Closed strokes within are novelty shapes; openings where nothing at all is drawn inside.

use super::Guess;
use super::fills::is_filled;
use crate::drawing::Layer;
use crate::drawing::survey::{Stretch, Survey};
use crate::pieces::{Near, Net, arrange};
use crate::propose::ground::{Ground, inside};
use crate::shape::{Face, Point, signed_area_mm2};

/// Handbook, record: the default of `join`.
const JOIN_MM: f64 = 0.1;
/// Share of the board's outer ring that the parts which bound it make together.
const BOUND: f64 = 0.98;
/// From this share on, lines follow the borders of the picture. Own choice: score lines of drawings come to 0.8 and more, cuts to 0.2.
const FOLLOWS: f64 = 0.5;
/// Share of its ends in the open from which a part is no cut.
const LOOSE: f64 = 0.15;
/// Faces smaller than this are no pieces, mm². Handbook, findings, `smallest`.
const SLIVER_MM2: f64 = 50.0;
/// Share of slivers among the faces that a part adds from which it is no cut.
const SLIVERS: f64 = 0.25;

/// One stretch with the part it belongs to.
struct Strand<'a> {
    part: usize,
    stretch: &'a Stretch,
}

/// All lines, and which of the parts are still open.
struct Lines<'a> {
    survey: &'a Survey,
    strands: Vec<Strand<'a>>,
    ground: Ground,
}

/// Proposes layers for all parts that are lines.
pub(super) fn guess(survey: &Survey, guesses: &mut [Guess]) {
    let is_line = |g: &Guess| {
        if g.told { g.layer.is_some_and(Layer::is_lines) } else { g.because.is_empty() && !is_filled(survey, g) }
    };
    let parts: Vec<usize> = (0..guesses.len()).filter(|i| is_line(&guesses[*i])).collect();
    let strands = parts.iter().flat_map(|part| {
        let shapes = guesses[*part].part.shapes.iter().map(|s| &survey.shapes[*s]);
        shapes.flat_map(|shape| &shape.outline).map(|stretch| Strand { part: *part, stretch }).collect::<Vec<_>>()
    });
    let lines = Lines { survey, strands: strands.collect(), ground: Ground::of(survey, guesses) };
    let open: Vec<usize> = parts.iter().copied().filter(|i| !guesses[*i].told).collect();
    let said = |layers: &[Layer]| -> Vec<usize> {
        parts
            .iter()
            .copied()
            .filter(|i| guesses[*i].told && guesses[*i].layer.is_some_and(|l| layers.contains(&l)))
            .collect()
    };
    let cut_said = said(&[Layer::Cut, Layer::Novelty, Layer::Void]);
    let mut cut = cut_said.clone();
    let mut open = open;
    for (part, because) in lines.bounds(&open, &cut_said) {
        take(guesses, part, Layer::Cut, because, true);
        cut.push(part);
        open.retain(|p| *p != part);
    }
    while let Some((part, held)) = lines.holds_most(&cut, &open) {
        take(guesses, part, Layer::Cut, format!("{} of the cuts end on it", held), true);
        cut.push(part);
        open.retain(|p| *p != part);
    }
    lines.rest(guesses, &mut cut, open);
    lines.closed_within(guesses, &cut);
}

fn take(guesses: &mut [Guess], part: usize, layer: Layer, because: impl Into<String>, sure: bool) {
    if let Some(guess) = guesses.get_mut(part) {
        (guess.layer, guess.because, guess.sure) = (Some(layer), because.into(), sure);
    }
}

impl Lines<'_> {
    fn of(&self, parts: &[usize]) -> std::vec::IntoIter<&Strand<'_>> {
        self.strands.iter().filter(|strand| parts.contains(&strand.part)).collect::<Vec<_>>().into_iter()
    }

    /// The net of some parts, and the part of each of its lines.
    fn net(&self, parts: &[usize]) -> (Net, Vec<usize>) {
        let given: Vec<(&[Point], bool)> =
            self.of(parts).map(|s| (s.stretch.points.as_slice(), s.stretch.closed)).collect();
        (arrange(&given, Near { join_mm: JOIN_MM }).value, self.of(parts).map(|s| s.part).collect())
    }

    /// The parts that make the board's outer ring together, those that make most of it first.
    fn bounds(&self, open: &[usize], said: &[usize]) -> Vec<(usize, String)> {
        let all: Vec<usize> = open.iter().chain(said).copied().collect();
        let (net, part_of) = self.net(&all);
        let outer = net.chains.iter().filter(|c| c.left.is_some() != c.right.is_some());
        let outer: Vec<(f64, Vec<usize>)> = outer
            .map(|c| {
                let mut parts: Vec<usize> = net.lines(c).iter().filter_map(|l| part_of.get(*l)).copied().collect();
                parts.sort_unstable();
                parts.dedup();
                (length_mm(net.points(c)), parts)
            })
            .collect();
        let whole: f64 = outer.iter().map(|(length, _)| length).sum();
        let left = |found: &[usize]| {
            outer.iter().filter(|(_, parts)| !parts.iter().any(|p| found.contains(p))).map(|(l, _)| l).sum::<f64>()
        };
        let mut found: Vec<usize> = said.to_vec();
        let mut bounding = Vec::new();
        while whole > 0.0 && left(&found) > (1.0 - BOUND) * whole {
            let gain = |part: usize| {
                let with: Vec<usize> = found.iter().copied().chain([part]).collect();
                left(&found) - left(&with)
            };
            let Some(best) =
                open.iter().copied().filter(|p| !found.contains(p)).max_by(|a, b| gain(*a).total_cmp(&gain(*b)))
            else {
                break;
            };
            if gain(best) < (1.0 - BOUND) * whole {
                break;
            }
            found.push(best);
            bounding.push((best, "it bounds the board".to_owned()));
        }
        if whole == 0.0 && said.is_empty() {
            // Nothing closes: the longest lines are the best guess there is.
            let longest = open.iter().copied().max_by(|a, b| self.length_mm(*a).total_cmp(&self.length_mm(*b)));
            bounding.extend(longest.map(|part| (part, "the longest lines; they do not close yet".to_owned())));
        }
        bounding
    }

    fn length_mm(&self, part: usize) -> f64 {
        self.of(&[part]).map(|s| s.stretch.length_mm()).sum()
    }

    /// Ends in the open, by part.
    fn loose(&self, net: &Net, part_of: &[usize]) -> Vec<(usize, usize)> {
        let mut degree = vec![0_u32; net.nodes.len()];
        for chain in &net.chains {
            degree[chain.from] += 1;
            degree[chain.to] += 1;
        }
        let mut counts: Vec<(usize, usize)> = Vec::new();
        for chain in &net.chains {
            let ends = [chain.from, chain.to].iter().filter(|node| degree[**node] == 1).count();
            let Some(part) = net.lines(chain).first().and_then(|l| part_of.get(*l)).filter(|_| ends > 0) else { continue };
            match counts.iter_mut().find(|(p, _)| p == part) {
                Some((_, count)) => *count += ends,
                None => counts.push((*part, ends)),
            }
        }
        counts
    }

    fn loose_of(&self, parts: &[usize], of: &[usize]) -> usize {
        let (net, part_of) = self.net(parts);
        self.loose(&net, &part_of).into_iter().filter(|(part, _)| of.contains(part)).map(|(_, count)| count).sum()
    }

    /// The open part on which most loose ends of the cuts come to rest; closed ones before others, for a score line may follow them.
    fn holds_most(&self, cut: &[usize], open: &[usize]) -> Option<(usize, usize)> {
        let loose = self.loose_of(cut, cut);
        if loose == 0 {
            return None;
        }
        let held = open.iter().filter_map(|part| {
            let with: Vec<usize> = cut.iter().copied().chain([*part]).collect();
            let held = loose.saturating_sub(self.loose_of(&with, cut));
            let closed = self.closes(*part);
            (held > 0 && (closed || !self.follows(*part))).then_some((*part, held, closed))
        });
        // The first of equals.
        held.reduce(|a, b| if (b.2, b.1) > (a.2, a.1) { b } else { a }).map(|(part, held, _)| (part, held))
    }

    fn closes(&self, part: usize) -> bool {
        self.of(&[part]).all(|s| s.stretch.closed)
    }

    fn follows(&self, part: usize) -> bool {
        self.ground.share_on_borders(self.of(&[part]).map(|s| s.stretch)) >= FOLLOWS
    }

    /// What is neither on the outside nor holds a cut so far.
    fn rest(&self, guesses: &mut [Guess], cut: &mut Vec<usize>, open: Vec<usize>) {
        // Closed strokes that follow the picture may be figures that other cuts end on: they are looked at last.
        let (mut left, mut figures) = (Vec::new(), Vec::new());
        for part in open {
            if self.shuts_in_dots(cut, part) {
                take(guesses, part, Layer::Score, "its cells have dots of one colour each", true);
            } else if !self.follows(part) {
                left.push(part);
            } else if self.closes(part) {
                figures.push(part);
            } else {
                take(guesses, part, Layer::Score, "it follows the borders of the colours", true);
            }
        }
        let all: Vec<usize> = cut.iter().chain(&left).chain(&figures).copied().collect();
        let (net, part_of) = self.net(&all);
        let loose = self.loose(&net, &part_of);
        for part in left {
            let ends = 2 * self.of(&[part]).filter(|s| !s.stretch.closed).count();
            let in_the_open = loose.iter().find(|(p, _)| *p == part).map_or(0, |(_, count)| *count);
            let (tiny, all) = self.adds(cut, part);
            if ends > 0 && in_the_open as f64 > LOOSE * ends as f64 {
                take(guesses, part, Layer::Score, format!("{in_the_open} of its {ends} ends lie in the open"), true);
            } else if tiny as f64 > SLIVERS * all as f64 {
                take(
                    guesses,
                    part,
                    Layer::Score,
                    format!("as cuts, {tiny} of its {all} pieces would be too small"),
                    false,
                );
            } else {
                take(guesses, part, Layer::Cut, format!("it makes {all} pieces more"), false);
                cut.push(part);
            }
        }
        while let Some((part, held)) = self.holds_most(cut, &figures) {
            take(guesses, part, Layer::Cut, format!("{held} of the cuts end on it"), true);
            cut.push(part);
            figures.retain(|p| *p != part);
        }
        for part in figures {
            take(guesses, part, Layer::Score, "it follows the borders of the colours", true);
        }
    }

    /// Whether the lines of a part, with the board's edge, make cells of which nearly none has dots of two colours.
    fn shuts_in_dots(&self, cut: &[usize], part: usize) -> bool {
        if self.ground.dots.is_empty() {
            return false;
        }
        let (board, _) = self.net(cut);
        let edge = board.chains.iter().filter(|c| c.left.is_some() != c.right.is_some());
        let mut given: Vec<(&[Point], bool)> = edge.map(|c| (board.points(c), false)).collect();
        given.extend(self.of(&[part]).map(|s| (s.stretch.points.as_slice(), s.stretch.closed)));
        let cells = arrange(&given, Near { join_mm: JOIN_MM }).value;
        let mut shut = 0;
        for cell in 0..cells.faces.len() {
            let face = cells.face(cell);
            let dots: Vec<_> = self.ground.dots.iter().filter(|(at, _)| inside(&face, *at)).collect();
            if dots.windows(2).all(|pair| pair[0].1 == pair[1].1) {
                shut += dots.len();
            }
        }
        10 * shut >= 9 * self.ground.dots.len()
    }

    /// How many faces a part adds to the cuts, the slivers among them first.
    fn adds(&self, cut: &[usize], part: usize) -> (usize, usize) {
        let count = |net: &Net| {
            let tiny = (0..net.faces.len()).filter(|&f| net.face(f).area_mm2() < SLIVER_MM2).count();
            (tiny, net.faces.len())
        };
        let with: Vec<usize> = cut.iter().copied().chain([part]).collect();
        let (before, after) = (count(&self.net(cut).0), count(&self.net(&with).0));
        (after.0.saturating_sub(before.0), after.1.saturating_sub(before.1))
    }

    /// Closed strokes among the cuts that do not bound the board: novelty shapes, or openings where nothing is drawn inside.
    fn closed_within(&self, guesses: &mut [Guess], cut: &[usize]) {
        for part in cut {
            let Some(guess) = guesses.get(*part) else { continue };
            if guess.told || guess.because.starts_with("it bounds") || !self.closes(*part) {
                continue;
            }
            let rings: Vec<&[Point]> = self.of(&[*part]).map(|s| s.stretch.points.as_slice()).collect();
            let because = guess.because.clone();
            let others: Vec<&Strand> = self.strands.iter().filter(|s| s.part != *part).collect();
            let (mut drawn, mut area) = (0.0, 0.0);
            for ring in &rings {
                let face = Face { outer: ring.to_vec(), holes: Vec::new() };
                drawn += self.ground.drawn_inside_mm(&face, others.iter().map(|s| s.stretch));
                area += signed_area_mm2(ring).abs();
            }
            // A cell with a dot is painted, and a figure that the picture shows is there to be painted: neither is an opening.
            let dotted = rings.iter().filter(|ring| {
                let face = Face { outer: ring.to_vec(), holes: Vec::new() };
                self.ground.dots.iter().any(|(at, _)| inside(&face, *at))
            });
            let dotted = dotted.count();
            let shown = self.follows(*part);
            let board = self.survey.width_mm * self.survey.height_mm;
            let density =
                (others.iter().map(|s| s.stretch.length_mm()).sum::<f64>() + self.ground.borders_mm()) / board.max(1.0);
            // Where as much is drawn as elsewhere on the sheet, a tenth of it would be seen.
            let empty = drawn < 0.1 * density * area && density * area > 20.0;
            if dotted == 0 && !shown && (empty || !self.ground.dots.is_empty()) {
                take(guesses, *part, Layer::Void, format!("closed; {because}, and nothing is drawn inside"), false);
            } else {
                take(guesses, *part, Layer::Novelty, format!("closed; {because}"), true);
            }
        }
    }
}

fn length_mm(points: &[Point]) -> f64 {
    points.windows(2).map(|w| crate::shape::length_mm(w[0], w[1])).sum()
}
