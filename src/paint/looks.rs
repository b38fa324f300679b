//! What a painter would stumble over: cells too small for the brush, paints too alike side by side, score lines too close.

use std::collections::BTreeMap;

use rstar::{AABB, RTree, RTreeObject};

use super::Plan;
use crate::colour::{Blindness, Lab, difference};
use crate::findings::{Finding, Kind};
use crate::inmost;
use crate::pieces::{Chain, Net};
use crate::shape::{Face, Point, ring_sides};
use crate::shop::{Limits, Paint};

/// Paints of touching cells that differ by less look alike. Handbook, findings: ΔE00 5.
const LIKE_DE: f64 = 5.0;
/// Cells whose borders come this close touch, mm: far below any line width, far above rounding.
const TOUCH_MM: f64 = 0.01;

/// Findings about a plan: `cell-too-small` and `like-paints`.
pub fn findings(plan: &Plan, paints: &[Paint], limits: &Limits) -> Vec<Finding> {
    let mut all: Vec<Finding> = plan.cells.iter().filter_map(|c| too_small(c, limits)).collect();
    all.extend(like_paints(plan, paints));
    all
}

fn too_small(cell: &super::Cell, limits: &Limits) -> Option<Finding> {
    // The place of a label is a rough one; where the width decides, it is looked at closely.
    let rough_mm = 2.0 * cell.label.room_mm;
    let wide_mm = if rough_mm < limits.brush_mm + 2.0 * ROUGH_MM {
        2.0 * inmost::place_within(&cell.face, CLOSE_MM).room_mm
    } else {
        rough_mm
    };
    let what = if cell.area_mm2 < limits.cell_mm2 {
        format!("This paint cell has {:.1} mm², under the limit of {} mm².", cell.area_mm2, limits.cell_mm2)
    } else if wide_mm < limits.brush_mm {
        format!("This paint cell is nowhere wider than {wide_mm:.2} mm; the brush needs {} mm.", limits.brush_mm)
    } else {
        return None;
    };
    Some(Finding::new(
        Kind::CellTooSmall,
        Some(cell.label.at_mm),
        what,
        "Join it to a neighbour, draw it larger, or lower `cell` or `brush` under `[limits]` if your brush reaches it.",
    ))
}

/// How far the room of a label may lie below the true one, mm: tolerance and thinning of `inmost::place`.
const ROUGH_MM: f64 = 0.1;
/// How close the width of a narrow cell is taken, mm.
const CLOSE_MM: f64 = 0.002;

struct Edge {
    a: Point,
    b: Point,
    cell: usize,
}

impl RTreeObject for Edge {
    type Envelope = AABB<[f64; 2]>;
    fn envelope(&self) -> Self::Envelope {
        AABB::from_corners([self.a.x, self.a.y], [self.b.x, self.b.y])
    }
}

fn edges(face: &Face, cell: usize) -> impl Iterator<Item = Edge> + '_ {
    face.rings().flat_map(|r| ring_sides(r)).map(move |(a, b)| Edge { a: *a, b: *b, cell })
}

/// Pairs of cells, `a < b`, that share a stretch of border, with a place on it.
pub fn touching(plan: &Plan) -> BTreeMap<(usize, usize), Point> {
    let all: Vec<Edge> = plan.cells.iter().enumerate().flat_map(|(i, c)| edges(&c.face, i)).collect();
    let places: Vec<(Point, Point, usize)> = all.iter().map(|e| (e.a, e.b, e.cell)).collect();
    let tree = RTree::bulk_load(all);
    let mut pairs = BTreeMap::new();
    for (a, b, cell) in places {
        let middle = a.midpoint(b);
        // The middle of an edge, not its ends: cells that share a corner alone do not touch.
        let around =
            AABB::from_corners([middle.x - TOUCH_MM, middle.y - TOUCH_MM], [middle.x + TOUCH_MM, middle.y + TOUCH_MM]);
        for other in tree.locate_in_envelope_intersecting(around) {
            if other.cell != cell && off_segment_mm(middle, other.a, other.b) <= TOUCH_MM {
                pairs.entry((cell.min(other.cell), cell.max(other.cell))).or_insert(middle);
            }
        }
    }
    pairs
}

fn off_segment_mm(p: Point, a: Point, b: Point) -> f64 {
    (p - on_segment(p, a, b)).hypot2().sqrt()
}

/// The point of a segment that lies nearest.
fn on_segment(p: Point, a: Point, b: Point) -> Point {
    let along = b - a;
    let t = if along.hypot2() > 0.0 { ((p - a).dot(along) / along.hypot2()).clamp(0.0, 1.0) } else { 0.0 };
    a.lerp(b, t)
}

fn like_paints(plan: &Plan, paints: &[Paint]) -> Vec<Finding> {
    let mut pairs: BTreeMap<(usize, usize), Point> = BTreeMap::new();
    for ((a, b), at) in touching(plan) {
        let paint = |i: usize| plan.cells.get(i).and_then(|c| c.paint);
        if let (Some(p), Some(q)) = (paint(a), paint(b))
            && p != q
        {
            pairs.entry((p.min(q), p.max(q))).or_insert(at);
        }
    }
    pairs.into_iter().filter_map(|((p, q), at)| alike(paints.get(p)?, paints.get(q)?, at)).collect()
}

fn alike(one: &Paint, two: &Paint, at: Point) -> Option<Finding> {
    let plain = difference(one.colour.into(), two.colour.into());
    let seen = |kind: Blindness| difference(Lab::from(kind.seen(one.colour)), Lab::from(kind.seen(two.colour)));
    let pair = format!("Paints {} `{}` and {} `{}` touch", one.number, one.name, two.number, two.name);
    let message = if plain < LIKE_DE {
        format!("{pair} and differ by only ΔE {plain:.1}; under {LIKE_DE} most people take them for one.")
    } else {
        let (kind, least) = Blindness::ALL.map(|k| (k, seen(k))).into_iter().min_by(|a, b| a.1.total_cmp(&b.1))?;
        if least >= LIKE_DE {
            return None;
        }
        let who = match kind {
            Blindness::Protan => "red-blind",
            Blindness::Deutan => "green-blind",
            Blindness::Tritan => "blue-blind",
        };
        format!("{pair}; to {who} people they differ by only ΔE {least:.1}.")
    };
    Some(Finding::new(
        Kind::LikePaints,
        Some(at),
        message,
        "Make one of them clearly lighter or darker, or keep a third colour between them.",
    ))
}

/// How far two score lines must run side by side to be told, in widths of the brush: shorter ones are corners.
const RUN_BRUSHES: f64 = 2.0;

/// `lines-too-close`: pairs of score lines, as joined, that run closer than the brush without meeting in a node, at the
/// closest place of each. Lines that cross or touch meet.
pub fn close_lines(score: &Net, brush_mm: f64) -> Vec<Finding> {
    if brush_mm <= 0.0 {
        return Vec::new();
    }
    let edges = |(i, c): (usize, &Chain)| {
        score.points(c).windows(2).map(move |w| Edge { a: w[0], b: w[1], cell: i }).collect::<Vec<_>>()
    };
    let tree = RTree::bulk_load(score.chains.iter().enumerate().flat_map(edges).collect());
    let meet = |i: usize, j: usize| {
        let (a, b) = (&score.chains[i], &score.chains[j]);
        [a.from, a.to].iter().any(|n| [b.from, b.to].contains(n))
    };
    let step_mm = brush_mm / 4.0;
    let mut pairs: BTreeMap<(usize, usize), (f64, f64, Point)> = BTreeMap::new();
    for (i, chain) in score.chains.iter().enumerate() {
        for p in along(score.points(chain), step_mm) {
            let around = AABB::from_corners([p.x - brush_mm, p.y - brush_mm], [p.x + brush_mm, p.y + brush_mm]);
            let mut near: BTreeMap<usize, (f64, Point)> = BTreeMap::new();
            for other in tree.locate_in_envelope_intersecting(around).filter(|e| e.cell > i) {
                let nearest = near.entry(other.cell).or_insert((f64::INFINITY, p));
                let on = on_segment(p, other.a, other.b);
                let gap = (p - on).hypot2().sqrt();
                if gap < nearest.0 {
                    *nearest = (gap, on);
                }
            }
            for (j, (gap, on)) in near.into_iter().filter(|n| n.1.0 < brush_mm) {
                // Past the end of the other line the two no longer run side by side.
                if ends(score.points(&score.chains[j])).contains(&on) {
                    continue;
                }
                let (run, least, at) = pairs.entry((i, j)).or_insert((0.0, f64::INFINITY, p));
                *run += step_mm;
                if gap < *least {
                    (*least, *at) = (gap, p);
                }
            }
        }
    }
    pairs
        .into_iter()
        .filter(|((i, j), (run, _, _))| *run >= RUN_BRUSHES * brush_mm && !meet(*i, *j))
        .map(|(_, (run, gap, at))| {
            Finding::new(
                Kind::LinesTooClose,
                Some(at),
                format!("Two score lines run side by side for {run:.0} mm, down to {gap:.2} mm apart; the brush needs {brush_mm} mm."),
                "Move them apart, or draw them as one line.",
            )
        })
        .collect()
}

fn ends(points: &[Point]) -> [Point; 2] {
    let end = |p: Option<&Point>| p.copied().unwrap_or_default();
    [end(points.first()), end(points.last())]
}

/// Points along a line, one every `step_mm`.
fn along(points: &[Point], step_mm: f64) -> Vec<Point> {
    let (mut all, mut left) = (Vec::new(), 0.0);
    for w in points.windows(2) {
        let length = (w[1] - w[0]).hypot2().sqrt();
        let mut at = left;
        while at < length {
            all.push(w[0].lerp(w[1], at / length));
            at += step_mm;
        }
        left = at - length;
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pieces::{Near, arrange};

    fn told(lines: &[&[(f64, f64)]]) -> usize {
        let lines: Vec<Vec<Point>> = lines.iter().map(|l| l.iter().map(|p| Point::from(*p)).collect()).collect();
        let given: Vec<(&[Point], bool)> = lines.iter().map(|l| (l.as_slice(), false)).collect();
        close_lines(&arrange(&given, Near { join_mm: 0.1 }).value, 1.5).len()
    }

    #[test]
    fn lines_a_millimetre_apart_are_told_once() {
        assert_eq!(told(&[&[(0., 0.), (40., 0.)], &[(0., 1.), (40., 1.2)]]), 1);
    }

    #[test]
    fn lines_that_cross_or_meet_or_keep_off_are_not() {
        assert_eq!(told(&[&[(0., 0.), (40., 0.)], &[(0., -2.), (40., 2.)]]), 0);
        assert_eq!(told(&[&[(0., 0.), (40., 0.)], &[(0., 0.), (40., 3.)]]), 0);
        assert_eq!(told(&[&[(0., 0.), (40., 0.)], &[(0., 1.6), (40., 1.6)]]), 0);
    }

    #[test]
    fn a_short_line_on_a_long_one_is_not() {
        // It lies beside the long one for half a millimetre only, however long the other goes on.
        assert_eq!(told(&[&[(0., 0.), (40., 0.)], &[(20., 0.8), (20.5, 0.8)]]), 0);
    }

    #[test]
    fn a_line_that_only_points_at_another_is_not() {
        assert_eq!(told(&[&[(0., 0.), (40., 0.)], &[(20., 1.), (20., 30.)]]), 0);
    }
}
