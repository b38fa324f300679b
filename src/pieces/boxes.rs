//! Boxes and a packed tree over them: which of many boxes meet.
//!
//! In: boxes in an order where neighbours in the list are mostly neighbours on the board (chains along a line). Out:
//! pairs that meet, or the boxes that meet one. Runs of the list make the leaves, so only the leaves are sorted,
//! along a Hilbert curve; the tree does not care how unevenly a drawing fills its sheet.

use crate::shape::Point;
use std::ops::ControlFlow;

/// A box, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Extent {
    pub x0: f64,
    pub y0: f64,
    pub x1: f64,
    pub y1: f64,
}

impl Extent {
    /// The box that holds nothing.
    pub const NOTHING: Extent =
        Extent { x0: f64::INFINITY, y0: f64::INFINITY, x1: f64::NEG_INFINITY, y1: f64::NEG_INFINITY };

    /// The box between two corners, grown by `by` on every side.
    pub fn between(a: Point, b: Point, by: f64) -> Extent {
        Extent { x0: a.x.min(b.x) - by, y0: a.y.min(b.y) - by, x1: a.x.max(b.x) + by, y1: a.y.max(b.y) + by }
    }

    /// The box of all points.
    pub fn of(points: &[Point]) -> Extent {
        // Two at a time, which the processor takes together.
        let add = |e: &mut Extent, p: &Point| {
            (e.x0, e.y0) = (less(p.x, e.x0), less(p.y, e.y0));
            (e.x1, e.y1) = (more(p.x, e.x1), more(p.y, e.y1));
        };
        let mut all = [Extent::NOTHING; 2];
        let mut pairs = points.chunks_exact(2);
        for pair in &mut pairs {
            add(&mut all[0], &pair[0]);
            add(&mut all[1], &pair[1]);
        }
        pairs.remainder().iter().for_each(|p| add(&mut all[0], p));
        all[0].with(all[1])
    }

    /// The least box around both.
    pub fn with(self, other: Extent) -> Extent {
        Extent {
            x0: self.x0.min(other.x0),
            y0: self.y0.min(other.y0),
            x1: self.x1.max(other.x1),
            y1: self.y1.max(other.y1),
        }
    }

    /// Grown by `by` on every side; smaller where that is negative.
    pub fn grown(&self, by: f64) -> Extent {
        Extent { x0: self.x0 - by, y0: self.y0 - by, x1: self.x1 + by, y1: self.y1 + by }
    }

    /// Whether they share a point.
    pub fn meets(&self, other: &Extent) -> bool {
        // All four at once: which of them fails cannot be foretold.
        (self.x0 <= other.x1) & (other.x0 <= self.x1) & (self.y0 <= other.y1) & (other.y0 <= self.y1)
    }

    /// Whether a point lies in it.
    pub fn holds(&self, p: Point) -> bool {
        (self.x0 <= p.x) & (p.x <= self.x1) & (self.y0 <= p.y) & (p.y <= self.y1)
    }

    /// Width plus height.
    pub fn span(&self) -> f64 {
        (self.x1 - self.x0) + (self.y1 - self.y0)
    }

    /// The farthest that any coordinate lies from nought.
    pub fn farthest(&self) -> f64 {
        [self.x0, self.y0, self.x1, self.y1].into_iter().fold(0.0, |far, c| far.max(c.abs()))
    }

    /// Width plus height of what two boxes share; negative or small where they hardly meet.
    pub fn shared_span(&self, other: &Extent) -> f64 {
        (self.x1.min(other.x1) - self.x0.max(other.x0)) + (self.y1.min(other.y1) - self.y0.max(other.y0))
    }
}

/// The lesser by plain comparison, which the processor does for both coordinates at once; the second where one is no number.
pub(super) fn less(a: f64, b: f64) -> f64 {
    if a < b { a } else { b }
}

/// The greater, in the same way.
pub(super) fn more(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}

/// Boxes of a node; at the lowest level a run of the list of boxes.
#[derive(Clone, Copy)]
struct Branch {
    extent: Extent,
    from: u32,
    to: u32,
}

/// Most boxes in a leaf.
const LEAF: usize = 8;
/// Most branches in a node.
const WIDTH: usize = 8;

/// A packed tree over a list of boxes.
pub(super) struct Tree {
    boxes: Vec<Extent>,
    /// Leaves first, then ever fewer branches up to one.
    levels: Vec<Vec<Branch>>,
}

impl Tree {
    /// A tree over all boxes; they are known by their index from then on.
    pub fn new(boxes: Vec<Extent>) -> Tree {
        let mut leaves = leaves(&boxes);
        let all = leaves.iter().fold(Extent::NOTHING, |all, l| all.with(l.extent));
        let scale = f64::from(u16::MAX) / (all.x1 - all.x0).max(all.y1 - all.y0).max(f64::MIN_POSITIVE);
        let cell = |low: f64, high: f64, least: f64| (((low + high) / 2.0 - least) * scale) as u32;
        let key = |e: &Extent| hilbert(cell(e.x0, e.x1, all.x0), cell(e.y0, e.y1, all.y0));
        leaves.sort_by_cached_key(|l| (key(&l.extent), l.from));
        let mut levels = vec![leaves];
        while let Some(below) = levels.last().filter(|l| l.len() > 1) {
            let above = below
                .chunks(WIDTH)
                .enumerate()
                .map(|(i, part)| Branch {
                    extent: part.iter().fold(Extent::NOTHING, |all, b| all.with(b.extent)),
                    from: (i * WIDTH) as u32,
                    to: (i * WIDTH + part.len()) as u32,
                })
                .collect();
            levels.push(above);
        }
        Tree { boxes, levels }
    }

    /// A box by its index.
    pub fn extent(&self, i: u32) -> &Extent {
        &self.boxes[i as usize]
    }

    /// Calls `each` with every two boxes of the tree that meet, once a pair, the lower index first.
    pub fn pairs(&self, each: &mut impl FnMut(u32, u32)) {
        let _ = self.pairs_until(&mut |x, y| {
            each(x, y);
            ControlFlow::Continue(())
        });
    }

    /// The same until `each` has enough.
    pub fn pairs_until(&self, each: &mut impl FnMut(u32, u32) -> ControlFlow<()>) -> ControlFlow<()> {
        if self.boxes.is_empty() {
            return ControlFlow::Continue(());
        }
        self.pairs_within(self.levels.len() - 1, 0, &mut |x: u32, y: u32| each(x.min(y), x.max(y)))
    }

    fn pairs_within<F: FnMut(u32, u32) -> ControlFlow<()>>(
        &self,
        level: usize,
        i: usize,
        each: &mut F,
    ) -> ControlFlow<()> {
        let node = &self.levels[level][i];
        if level == 0 {
            for a in node.from..node.to {
                for b in a + 1..node.to {
                    if self.boxes[a as usize].meets(&self.boxes[b as usize]) {
                        each(a, b)?;
                    }
                }
            }
            return ControlFlow::Continue(());
        }
        let below = &self.levels[level - 1];
        for a in node.from..node.to {
            self.pairs_within(level - 1, a as usize, each)?;
            let extent = &below[a as usize].extent;
            for b in a + 1..node.to {
                if extent.meets(&below[b as usize].extent) {
                    self.pairs_across(self, (level - 1, a as usize), (level - 1, b as usize), each)?;
                }
            }
        }
        ControlFlow::Continue(())
    }

    /// Calls `each` with every box of this tree and every box of the other that meet.
    pub fn pairs_with(&self, other: &Tree, each: &mut impl FnMut(u32, u32)) {
        if let (Some([mine]), Some([theirs])) =
            (self.levels.last().map(|l| &l[..]), other.levels.last().map(|l| &l[..]))
            && mine.extent.meets(&theirs.extent)
        {
            let (a, b) = ((self.levels.len() - 1, 0), (other.levels.len() - 1, 0));
            let _ = self.pairs_across(other, a, b, &mut |x, y| {
                each(x, y);
                ControlFlow::Continue(())
            });
        }
    }

    /// The same under two nodes whose boxes meet.
    fn pairs_across<F: FnMut(u32, u32) -> ControlFlow<()>>(
        &self,
        other: &Tree,
        a: (usize, usize),
        b: (usize, usize),
        each: &mut F,
    ) -> ControlFlow<()> {
        let (mine, theirs) = (&self.levels[a.0][a.1], &other.levels[b.0][b.1]);
        if a.0 == 0 && b.0 == 0 {
            for x in mine.from..mine.to {
                let box_x = &self.boxes[x as usize];
                if box_x.meets(&theirs.extent) {
                    for y in theirs.from..theirs.to {
                        if box_x.meets(&other.boxes[y as usize]) {
                            each(x, y)?;
                        }
                    }
                }
            }
        } else if a.0 >= b.0 {
            let below = &self.levels[a.0 - 1];
            for x in mine.from..mine.to {
                if below[x as usize].extent.meets(&theirs.extent) {
                    self.pairs_across(other, (a.0 - 1, x as usize), b, each)?;
                }
            }
        } else {
            let below = &other.levels[b.0 - 1];
            for y in theirs.from..theirs.to {
                if below[y as usize].extent.meets(&mine.extent) {
                    self.pairs_across(other, a, (b.0 - 1, y as usize), each)?;
                }
            }
        }
        ControlFlow::Continue(())
    }

    /// Calls `each` with every box that meets `window`.
    pub fn meeting(&self, window: &Extent, each: &mut impl FnMut(u32)) {
        if !self.boxes.is_empty() {
            self.meeting_below(self.levels.len() - 1, 0, window, each);
        }
    }

    fn meeting_below(&self, level: usize, i: usize, window: &Extent, each: &mut impl FnMut(u32)) {
        let node = self.levels[level][i];
        if !node.extent.meets(window) {
            return;
        }
        for at in node.from..node.to {
            if level > 0 {
                self.meeting_below(level - 1, at as usize, window, each);
            } else if self.boxes[at as usize].meets(window) {
                each(at);
            }
        }
    }
}

/// Runs of boxes that lie close together. A box much larger than most stands alone, lest its leaf meet everything.
fn leaves(boxes: &[Extent]) -> Vec<Branch> {
    let usual = boxes.iter().map(Extent::span).sum::<f64>() / boxes.len().max(1) as f64;
    let mut leaves: Vec<Branch> = Vec::with_capacity(boxes.len() / 4 + 1);
    for (i, extent) in boxes.iter().enumerate() {
        let i = i as u32;
        if let Some(last) = leaves.last_mut() {
            let both = last.extent.with(*extent);
            if ((i - last.from) as usize) < LEAF && both.span() <= 5.0 * usual {
                *last = Branch { extent: both, from: last.from, to: i + 1 };
                continue;
            }
        }
        leaves.push(Branch { extent: *extent, from: i, to: i + 1 });
    }
    leaves
}

/// Place along a Hilbert curve of order 16. The usual bit-by-bit rule: turn each quadrant so that its ends meet.
fn hilbert(mut x: u32, mut y: u32) -> u32 {
    let mut place = 0;
    let mut side = 1_u32 << 15;
    while side > 0 {
        let (right, low) = (u32::from(x & side > 0), u32::from(y & side > 0));
        place += side * side * ((3 * right) ^ low);
        if low == 0 {
            if right == 1 {
                x = (side.wrapping_sub(1)).wrapping_sub(x);
                y = (side.wrapping_sub(1)).wrapping_sub(y);
            }
            std::mem::swap(&mut x, &mut y);
        }
        side >>= 1;
    }
    place
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_tree_finds_what_comparing_all_finds(
            corners in proptest::collection::vec((0.0..100.0_f64, 0.0..100.0_f64, 0.0..9.0_f64, 0.0..9.0_f64), 0..200),
        ) {
            let boxes: Vec<Extent> =
                corners.iter().map(|&(x, y, w, h)| Extent { x0: x, y0: y, x1: x + w, y1: y + h }).collect();
            let tree = Tree::new(boxes.clone());
            let mut found = Vec::new();
            tree.pairs(&mut |a, b| found.push((a, b)));
            found.sort_unstable();
            let mut all = Vec::new();
            for a in 0..boxes.len() {
                for b in a + 1..boxes.len() {
                    if boxes[a].meets(&boxes[b]) {
                        all.push((a as u32, b as u32));
                    }
                }
            }
            prop_assert_eq!(found, all);
        }
    }
}
