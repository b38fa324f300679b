//! Pieces and boards: which faces are wood, what hangs together, and which pieces lie on the outer edge.
//!
//! In: cut, novelty and void lines. Out: a [`Board`], with the findings about its lines and its parts.
//! A face inside a void is no piece. Pieces that share a stretch of positive length, or of which one fills a hole of the
//! other, are one board; its outer ring is the one that all of it lies within.
//! Rule: handbook, figures, items 2, 3, 4 and 7.

use super::arrange::{Arranged, arranged};
use super::exact::square;
use super::groups::Groups;
use super::inset::inset;
use super::inside::place_inside;
use super::net::ring_points;
use super::turns::{Turns, origin, second_point};
use super::walk::{cycles, turns_positively, winding};
use super::{Board, Near, Net, Part, Piece, loose};
use crate::drawing::{Layer, Line};
use crate::findings::{Checked, Finding, Kind};
use crate::shape::{Face, Point, Ring, length_mm, ring_length_mm, signed_area_mm2};
use rayon::prelude::*;

/// Pieces, boards and figures of the cut lines (cut, novelty and void; other layers are passed over), kerf in mm.
///
/// Without a bounded face there are no pieces; what that means is for the caller to say. Findings, not sorted:
/// `doubled-line`, `loose-end`, `near-miss`, `open-shape`, `stray-part`, `eaten-away`.
pub fn board(lines: &[Line], near: Near, kerf_mm: f64) -> Checked<Board> {
    let cut: Vec<&Line> =
        lines.iter().filter(|l| matches!(l.layer, Layer::Cut | Layer::Novelty | Layer::Void)).collect();
    let given: Vec<(&[Point], bool)> = cut.iter().map(|l| (l.points.as_slice(), l.closed)).collect();
    let arranged = arranged(&given, near, |i| cut[i].layer != Layer::Cut);

    let novelty = shapes(&cut, Layer::Novelty, &arranged, near);
    let voids = shapes(&cut, Layer::Void, &arranged, near);
    let Arranged { net, mut findings, .. } = arranged;
    let open: Vec<usize> = novelty.open.iter().chain(&voids.open).copied().collect();
    findings.extend(open.iter().map(|&line| open_shape(cut[line])));
    findings.extend(loose::loose_ends(&net, near, &open));

    let in_void = inside_of(&net, &voids);
    let in_novelty = inside_of(&net, &novelty);
    let wood: Vec<usize> = (0..net.faces.len()).filter(|&f| in_void[f].is_none()).collect();
    let mut piece_of = vec![None; net.faces.len()];
    wood.iter().enumerate().for_each(|(piece, &face)| piece_of[face] = Some(piece));

    let neighbours = neighbours(&net, &piece_of);
    let (part_of, part_count) = parts(wood.len(), &neighbours);
    let (parts, edge, part_number) = outlines(&net, &piece_of, &part_of, part_count);
    // The kerf is by far the dearest step, and each piece stands alone; the order of the result is that of the faces.
    let pieces: Vec<Piece> = wood
        .par_iter()
        .enumerate()
        .map(|(i, &net_face)| {
            let face = net.face(net_face);
            let cut = inset(&face, kerf_mm / 2.0);
            let (part, edge, novelty) = (part_number[part_of[i]], edge[i], in_novelty[net_face]);
            Piece { part, edge, novelty, ..Piece::new(face, cut, net_face) }
        })
        .collect();
    findings.extend(pieces.iter().filter(|p| p.cut.is_empty()).map(|p| eaten_away(p, kerf_mm)));
    findings.extend(stray_parts(&parts, &pieces));

    let cut_mm = net.chains.iter().map(|c| net.points(c).windows(2).map(|w| length_mm(w[0], w[1])).sum::<f64>()).sum();
    let board = Board { net, pieces, parts, novelty: novelty.rings, voids: voids.rings, cut_mm, neighbours, kerf_mm };
    Checked { value: board, findings }
}

/// The strokes of one layer.
struct Shapes {
    /// Outlines of those that close, with positive area.
    rings: Vec<Ring>,
    /// Which of the cut lines they are.
    lines: Vec<usize>,
    /// The cut lines that do not close.
    open: Vec<usize>,
}

fn shapes(cut: &[&Line], layer: Layer, arranged: &Arranged, near: Near) -> Shapes {
    let mut shapes = Shapes { rings: Vec::new(), lines: Vec::new(), open: Vec::new() };
    for (i, line) in cut.iter().enumerate().filter(|(_, l)| l.layer == layer) {
        let Some((points, closes)) = arranged.line(i) else { continue };
        let mut ring = points.to_vec();
        let own_ends_meet = match (line.points.first(), line.points.last()) {
            (Some(a), Some(b)) => square(*a, *b) <= near.join_mm * near.join_mm,
            _ => false,
        };
        if !closes && (!own_ends_meet || ring.len() < 4) {
            shapes.open.push(i);
            continue;
        }
        if !closes {
            ring.pop();
        }
        if signed_area_mm2(&ring) < 0.0 {
            ring.reverse();
        }
        shapes.rings.push(ring);
        shapes.lines.push(i);
    }
    shapes
}

fn open_shape(line: &Line) -> Finding {
    let what = if line.layer == Layer::Void { "opening" } else { "novelty shape" };
    let (first, last) = (line.points.first().copied(), line.points.last().copied());
    let gap_mm = first.zip(last).map_or(0.0, |(a, b)| length_mm(a, b));
    Finding::new(
        Kind::OpenShape,
        last,
        format!("This {what} does not close: {gap_mm:.2} mm are missing, so it counts as a plain cut."),
        "Close the stroke, so that its two ends meet.",
    )
}

/// For each face the smallest shape that it lies inside of, if any.
///
/// Only a chain of a shape's own line can part its inside from its outside, so faces are taken together across all
/// other chains, and one good place in each such region tells for all of it.
fn inside_of(net: &Net, shapes: &Shapes) -> Vec<Option<usize>> {
    if shapes.rings.is_empty() {
        return vec![None; net.faces.len()];
    }
    let outside = net.faces.len();
    let mut regions = Groups::new(outside + 1);
    for chain in &net.chains {
        if !net.lines(chain).iter().any(|l| shapes.lines.binary_search(l).is_ok()) {
            regions.unite(chain.left.unwrap_or(outside), chain.right.unwrap_or(outside));
        }
    }
    // The largest face of a region has the safest place inside.
    let mut largest: Vec<Option<(f64, usize)>> = vec![None; outside + 1];
    for f in 0..net.faces.len() {
        let area = net.face(f).area_mm2();
        let region = regions.find(f);
        if largest[region].is_none_or(|(most, _)| area > most) {
            largest[region] = Some((area, f));
        }
    }
    let area: Vec<f64> = shapes.rings.iter().map(|r| signed_area_mm2(r).abs()).collect();
    let boxes: Vec<super::boxes::Extent> = shapes.rings.iter().map(|r| super::boxes::Extent::of(r)).collect();
    let tree = super::boxes::Tree::new(boxes);
    let open = regions.find(outside);
    let of_region: Vec<Option<usize>> = largest
        .iter()
        .enumerate()
        .map(|(region, face)| {
            let (_, f) = face.filter(|_| region != open)?;
            let place = place_inside(&net.face(f))?;
            let mut least: Option<usize> = None;
            tree.meeting(&super::boxes::Extent::between(place, place, 0.0), &mut |s| {
                let s = s as usize;
                if winding(&shapes.rings[s], place) != 0 && least.is_none_or(|l| (area[s], s) < (area[l], l)) {
                    least = Some(s);
                }
            });
            least
        })
        .collect();
    (0..outside).map(|f| of_region[regions.find(f)]).collect()
}

/// Pairs of pieces with a chain between them, each once, in order.
fn neighbours(net: &Net, piece_of: &[Option<usize>]) -> Vec<(usize, usize)> {
    let piece = |face: Option<usize>| face.and_then(|f| piece_of[f]);
    let mut pairs: Vec<(usize, usize)> = net
        .chains
        .iter()
        .filter_map(|c| piece(c.left).zip(piece(c.right)))
        .filter(|(a, b)| a != b)
        .map(|(a, b)| (a.min(b), a.max(b)))
        .collect();
    pairs.sort_unstable();
    pairs.dedup();
    pairs
}

/// For each piece the number of its board, in the order of their first pieces, and how many there are.
///
/// A line that closes inside a piece has that piece on its outer side, so islands need no rule of their own.
fn parts(pieces: usize, neighbours: &[(usize, usize)]) -> (Vec<usize>, usize) {
    let mut groups = Groups::new(pieces);
    neighbours.iter().for_each(|&(a, b)| groups.unite(a, b));
    let mut number = vec![0; pieces];
    let mut count = 0;
    for piece in 0..pieces {
        let first = groups.find(piece);
        if first == piece {
            number[piece] = count;
            count += 1;
        } else {
            number[piece] = number[first];
        }
    }
    (number, count)
}

/// The boards, largest first; which pieces have a share in an outer ring; and the place of each part in the new order.
fn outlines(
    net: &Net,
    piece_of: &[Option<usize>],
    part_of: &[usize],
    count: usize,
) -> (Vec<Part>, Vec<bool>, Vec<usize>) {
    let chains = &net.chains;
    let piece_at = |side: u32| {
        let chain = &chains[side as usize / 2];
        (if side.is_multiple_of(2) { chain.left } else { chain.right }).and_then(|f| piece_of[f])
    };
    let part_at = |side: u32| piece_at(side).map(|p| part_of[p]);
    // Sides with a board on the one hand and something else on the other: its rim.
    let rim = |side: u32| part_at(side).is_some() && part_at(side) != part_at(side ^ 1);
    let turns = Turns::new(&net.nodes, chains, |side| second_point(net, side));
    let next = |side: u32| {
        // Round the node through the wood of the same board up to its next rim.
        let node = origin(chains, side ^ 1);
        let mut on = turns.next_before(node, side ^ 1);
        while !rim(on) && on != side ^ 1 {
            on = turns.next_before(node, on);
        }
        on
    };

    let mut outlines: Vec<Face> = vec![Face::default(); count];
    let mut edge = vec![false; part_of.len()];
    cycles(chains, net.nodes.len(), rim, next, |_, rings| {
        for sides in rings.iter() {
            let Some(part) = sides.first().and_then(|&s| part_at(s)) else { continue };
            let ring = ring_points(&net.points, chains, sides);
            if turns_positively(&ring) {
                sides.iter().filter_map(|&s| piece_at(s)).for_each(|p| edge[p] = true);
                outlines[part].outer = ring;
            } else {
                outlines[part].holes.push(ring);
            }
        }
    });

    let mut parts: Vec<(usize, Part)> =
        outlines.into_iter().map(|outline| Part { pieces: Vec::new(), outline }).enumerate().collect();
    for (piece, &part) in part_of.iter().enumerate() {
        parts[part].1.pieces.push(piece);
    }
    parts.sort_by(|(i, a), (j, b)| b.outline.area_mm2().total_cmp(&a.outline.area_mm2()).then(i.cmp(j)));
    let mut number = vec![0; count];
    parts.iter().enumerate().for_each(|(new, (old, _))| number[*old] = new);
    (parts.into_iter().map(|(_, part)| part).collect(), edge, number)
}

fn eaten_away(piece: &Piece, kerf_mm: f64) -> Finding {
    let around: f64 = piece.face.rings().map(|r| ring_length_mm(r)).sum();
    let width_mm = if around > 0.0 { 2.0 * piece.drawn_mm2 / around } else { 0.0 };
    Finding::new(
        Kind::EatenAway,
        place_inside(&piece.face).or_else(|| piece.face.outer.first().copied()),
        format!("The kerf of {kerf_mm} mm removes this face whole: it is about {width_mm:.2} mm wide."),
        "Move the lines around it apart, or make one line of them.",
    )
}

fn stray_parts<'a>(parts: &'a [Part], pieces: &'a [Piece]) -> impl Iterator<Item = Finding> + 'a {
    let largest_mm2 = parts.first().map_or(0.0, |p| p.outline.area_mm2());
    parts.iter().skip(1).map(move |part| {
        let most = part.pieces.iter().copied().max_by(|&a, &b| pieces[a].drawn_mm2.total_cmp(&pieces[b].drawn_mm2));
        let count = part.pieces.len();
        Finding::new(
            Kind::StrayPart,
            most.and_then(|p| place_inside(&pieces[p].face)),
            format!(
                "A board of its own: {count} {} and {:.0} mm² that hang together with nothing of the largest board ({largest_mm2:.0} mm²).",
                if count == 1 { "piece" } else { "pieces" },
                part.outline.area_mm2()
            ),
            "Leave it if it is meant so; else remove the stray lines, or join it to the board.",
        )
    })
}
