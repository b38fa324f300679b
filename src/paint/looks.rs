//! What a painter would stumble over: cells too small for the brush, paints too alike side by side, score lines too close.

use std::collections::BTreeMap;

use rstar::{AABB, RTree, RTreeObject};

use super::Plan;
use crate::colour::{Blindness, Lab, difference};
use crate::drawing::Line;
use crate::findings::{Finding, Kind};
use crate::shape::{Extent, Face, Point};
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
    let wide_mm = 2.0 * cell.label.room_mm;
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
        "Join it to a neighbour, draw it larger, or lower `cell` or `brush` under [limits] if your brush reaches it.",
    ))
}

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
    face.rings().flat_map(|r| r.iter().zip(r.iter().cycle().skip(1))).map(move |(a, b)| Edge { a: *a, b: *b, cell })
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
    let (along, to) = (b - a, p - a);
    let t = if along.hypot2() > 0.0 { (to.dot(along) / along.hypot2()).clamp(0.0, 1.0) } else { 0.0 };
    (to - along * t).hypot2().sqrt()
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
    let pair = format!("Paints {} \"{}\" and {} \"{}\" touch", one.number, one.name, two.number, two.name);
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

/// `lines-too-close`: stretches where two score lines (points, closed) run closer than the brush without meeting,
/// one finding for each pair of lines, at their closest place.
pub fn close_lines(score: &[&Line], brush_mm: f64) -> Vec<Finding> {
    let mut all = Vec::new();
    for (i, line) in score.iter().enumerate() {
        let ends = line.points.iter().zip(line.points.iter().skip(1));
        let back = line.points.last().zip(line.points.first()).filter(|_| line.closed);
        all.extend(ends.chain(back).map(|(a, b)| Edge { a: *a, b: *b, cell: i }));
    }
    let boxes: Vec<Option<Extent>> = score.iter().map(|l| Extent::of(&l.points)).collect();
    let tree = RTree::bulk_load(all);
    let mut findings = Vec::new();
    for i in 0..score.len() {
        let mut nearest: BTreeMap<usize, (f64, Point)> = BTreeMap::new();
        for p in &score[i].points {
            let around = AABB::from_corners([p.x - brush_mm, p.y - brush_mm], [p.x + brush_mm, p.y + brush_mm]);
            for other in tree.locate_in_envelope_intersecting(around).filter(|e| e.cell != i) {
                let gap = off_segment_mm(*p, other.a, other.b);
                let best = nearest.entry(other.cell).or_insert((f64::INFINITY, *p));
                if gap < best.0 {
                    *best = (gap, *p);
                }
            }
        }
        // A pair is told once, from the line whose point lies nearest; lines that meet bound cells and may come close.
        for (j, (gap, at)) in nearest {
            let told = j < i && findings_has(&findings, j, i);
            if !told && gap < brush_mm && gap > MEETS_MM && boxes[i].is_some() && boxes[j].is_some() {
                findings.push((i.min(j), i.max(j), gap, at));
            }
        }
    }
    findings
        .into_iter()
        .map(|(_, _, gap, at)| {
            Finding::new(
                Kind::LinesTooClose,
                Some(at),
                format!("Two score lines run {gap:.2} mm apart without meeting; the brush needs {brush_mm} mm."),
                "Let them meet, move them apart, or draw them as one line.",
            )
        })
        .collect()
}

/// Lines nearer than this meet, mm: the default of `join`.
const MEETS_MM: f64 = 0.1;

fn findings_has(all: &[(usize, usize, f64, Point)], a: usize, b: usize) -> bool {
    all.iter().any(|f| (f.0, f.1) == (a.min(b), a.max(b)))
}
