//! Lines of any kind: the arrangement is a plane graph, its faces are the sides of its chains, and areas add up.

use kerfleaf::pieces::{Near, Net, arrange};
use kerfleaf::shape::Point;

/// Points of one input, so that a run stays short.
const MOST_POINTS: usize = 600;
const JOINS_MM: [f64; 4] = [0.0, 0.1, 0.5, 2.0];
/// Where the drawing lies, mm.
const OFF_MM: [f64; 4] = [0.0, 0.0, 1e4, 1e6];

type Lines = Vec<(Vec<Point>, bool)>;

/// Lines from bytes. The first byte tells join, place and kind of coordinates; then for each line one byte with its count and
/// whether it closes, and its points: two bytes on a grid that makes many touch, or four of any kind.
fn lines(data: &[u8]) -> Option<(Lines, f64)> {
    let (&first, mut rest) = data.split_first()?;
    let (join_mm, off_mm) = (JOINS_MM[usize::from(first & 3)], OFF_MM[usize::from(first >> 2 & 3)]);
    let fine = first & 16 != 0;
    let scale = if first & 32 != 0 { 0.001 } else { 1.0 };
    let mut all = Lines::new();
    let mut points_left = MOST_POINTS;
    while let Some((&head, tail)) = rest.split_first() {
        rest = tail;
        let count = (usize::from(head & 31) + 2).min(points_left);
        let mut points = Vec::with_capacity(count);
        for _ in 0..count {
            let Some((xy, tail)) = rest.split_at_checked(if fine { 4 } else { 2 }) else { break };
            rest = tail;
            let (x, y) = match *xy {
                [x0, x1, y0, y1] => {
                    (f64::from(i16::from_le_bytes([x0, x1])) / 256.0, f64::from(i16::from_le_bytes([y0, y1])) / 256.0)
                }
                [x, y] => (f64::from(x % 24), f64::from(y % 24)),
                _ => break,
            };
            points.push(Point::new(off_mm + x * scale, off_mm * 0.7 + y * scale));
        }
        points_left -= points.len();
        if points.len() > 1 {
            all.push((points, head & 32 != 0));
        }
    }
    Some((all, join_mm * scale))
}

fn net(lines: &Lines, join_mm: f64) -> Net {
    let given: Vec<(&[Point], bool)> = lines.iter().map(|(p, closed)| (p.as_slice(), *closed)).collect();
    arrange(&given, Near { join_mm }).value
}

/// Euler's formula for plane graphs (any handbook of graph theory), and what every net must be.
pub fn holds(data: &[u8]) {
    let Some((lines, join_mm)) = lines(data) else { return };
    let net = net(&lines, join_mm);
    is_sound(&net);
    let size = net.nodes.iter().fold(1.0_f64, |m, p| m.max(p.x.abs()).max(p.y.abs()));
    let sum: f64 = (0..net.faces.len()).map(|f| net.face(f).area_mm2()).sum();
    let swept: f64 = net
        .chains
        .iter()
        .map(|c| {
            let about = net.nodes[0];
            let sweep: f64 = net.points(c).windows(2).map(|w| (w[0] - about).cross(w[1] - about) / 2.0).sum();
            sweep * (f64::from(u8::from(c.left.is_some())) - f64::from(u8::from(c.right.is_some())))
        })
        .sum();
    assert!((sum - swept).abs() <= 1e-9 * (sum + size * size), "faces hold {sum}, their outlines {swept}");
}

fn is_sound(net: &Net) {
    assert_eq!(net.faces.len() + net.nodes.len(), net.chains.len() + net.parts, "Euler's formula");
    for chain in &net.chains {
        let points = net.points(chain);
        assert!(points.len() > 1 && points.iter().all(|p| p.x.is_finite() && p.y.is_finite()));
        assert_eq!((points[0], points[points.len() - 1]), (net.nodes[chain.from], net.nodes[chain.to]));
    }
    let mut sides = vec![None; 2 * net.chains.len()];
    for f in 0..net.faces.len() {
        for ring in net.rings(f) {
            let ring: Vec<(usize, bool)> = ring.collect();
            for (i, &(chain, forward)) in ring.iter().enumerate() {
                let side = &mut sides[2 * chain + usize::from(!forward)];
                assert_eq!(*side, None, "a side of a chain is walked once");
                *side = Some(f);
                let (next, next_forward) = ring[(i + 1) % ring.len()];
                let ends = |c: usize, forward: bool| {
                    let c = &net.chains[c];
                    if forward { (c.from, c.to) } else { (c.to, c.from) }
                };
                assert_eq!(ends(chain, forward).1, ends(next, next_forward).0, "chains of a ring follow each other");
            }
        }
    }
    for (i, side) in sides.iter().enumerate().filter(|(_, s)| s.is_some()) {
        let chain = &net.chains[i / 2];
        assert_eq!(*side, if i % 2 == 0 { chain.left } else { chain.right }, "a chain knows its faces");
    }
}
