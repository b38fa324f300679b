//! What must not change a figure: the order, direction and division of the lines, and where the drawing lies.

use super::*;
use crate::shape::Point;
use proptest::prelude::*;

/// What is compared: faces, nodes, chains and parts; areas and the length of all lines.
struct Figures {
    counts: [usize; 4],
    areas: Vec<f64>,
    length_mm: f64,
}

fn figures(lines: &[(Vec<Point>, bool)], near: Near) -> Figures {
    let given: Vec<(&[Point], bool)> = lines.iter().map(|(p, c)| (p.as_slice(), *c)).collect();
    let net = arrange(&given, near).value;
    // Euler's formula for plane graphs: bounded faces = edges − nodes + parts.
    assert_eq!(net.faces.len() + net.nodes.len(), net.chains.len() + net.parts);
    let mut areas: Vec<f64> = (0..net.faces.len()).map(|f| net.face(f).area_mm2()).collect();
    areas.sort_by(f64::total_cmp);
    let length_mm = net
        .chains
        .iter()
        .map(|c| net.points(c).windows(2).map(|w| crate::shape::length_mm(w[0], w[1])).sum::<f64>())
        .sum();
    // Every face lies on the sides of its chains, and islands are cut out: outer boundaries enclose as much as the faces hold.
    let outer: f64 = net
        .chains
        .iter()
        .map(|c| {
            let sweep: f64 = net.points(c).windows(2).map(|w| w[0].to_vec2().cross(w[1].to_vec2()) / 2.0).sum();
            sweep * (f64::from(u8::from(c.left.is_some())) - f64::from(u8::from(c.right.is_some())))
        })
        .sum();
    let sum: f64 = areas.iter().sum();
    let size = lines.iter().flat_map(|l| &l.0).fold(1.0_f64, |m, p| m.max(p.x.abs()).max(p.y.abs()));
    assert!((outer - sum).abs() <= 1e-9 * (sum + size * size), "outline {outer}, faces {sum}");
    Figures { counts: [net.faces.len(), net.nodes.len(), net.chains.len(), net.parts], areas, length_mm }
}

fn same(a: &Figures, b: &Figures, size_mm: f64) -> Result<(), TestCaseError> {
    prop_assert_eq!(a.counts, b.counts);
    let room = 1e-9 * size_mm * (size_mm + a.length_mm);
    for (p, q) in a.areas.iter().zip(&b.areas) {
        prop_assert!((p - q).abs() <= room, "{p} {q}");
    }
    prop_assert!((a.length_mm - b.length_mm).abs() <= 1e-8 * (a.length_mm + size_mm));
    Ok(())
}

fn a_place() -> impl Strategy<Value = Point> {
    (0.0..100.0_f64, 0.0..100.0_f64).prop_map(|(x, y)| Point::new(x, y))
}

/// Lines of any kind, and lines on whole places, which touch, overlap and meet in one point.
fn some_lines() -> impl Strategy<Value = Vec<(Vec<Point>, bool)>> {
    let whole = (0..7_i32, 0..7_i32).prop_map(|(x, y)| Point::new(f64::from(x) * 10.0, f64::from(y) * 10.0));
    let free = proptest::collection::vec((proptest::collection::vec(a_place(), 2..7), any::<bool>()), 1..25);
    let on_grid = proptest::collection::vec((proptest::collection::vec(whole, 2..5), any::<bool>()), 1..25);
    prop_oneof![free, on_grid]
}

fn moved(lines: &[(Vec<Point>, bool)], how: impl Fn(Point) -> Point) -> Vec<(Vec<Point>, bool)> {
    lines.iter().map(|(points, closed)| (points.iter().map(|p| how(*p)).collect(), *closed)).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn order_direction_and_division_of_lines_change_nothing(
        lines in some_lines(),
        shuffle in proptest::collection::vec(any::<u32>(), 25),
    ) {
        // Without joining: shuffled ends would rightly be joined otherwise where they come close.
        let near = Near { join_mm: 0.0 };
        let want = figures(&lines, near);
        let mut other = lines.clone();
        other.iter_mut().for_each(|(points, _)| points.reverse());
        same(&want, &figures(&other, near), 100.0)?;
        let mut keyed: Vec<_> = lines.iter().cloned().zip(shuffle.iter().cycle()).collect();
        keyed.sort_by_key(|k| k.1);
        let other: Vec<_> = keyed.into_iter().map(|k| k.0).collect();
        same(&want, &figures(&other, near), 100.0)?;
        let halved: Vec<_> = lines.iter().flat_map(|(points, closed)| {
            let mut points = points.clone();
            if *closed {
                points.push(points[0]);
            }
            let middle = points.len() / 2;
            [(points[..=middle].to_vec(), false), (points[middle..].to_vec(), false)]
        }).filter(|(points, _)| points.len() > 1).collect();
        same(&want, &figures(&halved, near), 100.0)?;
    }

    #[test]
    fn moving_turning_and_mirroring_change_nothing(
        lines in some_lines(),
        turn in 0.0..7.0_f64,
        to in (-1e3..1e3_f64, -1e3..1e3_f64),
    ) {
        let near = Near { join_mm: 0.0 };
        let want = figures(&lines, near);
        same(&want, &figures(&moved(&lines, |p| Point::new(-p.x, p.y)), near), 1e2)?;
        same(&want, &figures(&moved(&lines, |p| Point::new(p.y, p.x)), near), 1e2)?;
        same(&want, &figures(&moved(&lines, |p| Point::new(p.x + to.0, p.y + to.1)), near), 1e3)?;
        let (c, s) = (libm::cos(turn), libm::sin(turn));
        same(&want, &figures(&moved(&lines, |p| Point::new(c * p.x - s * p.y, s * p.x + c * p.y)), near), 1e2)?;
        // Grown by a power of two: every coordinate stays exact, and so must every count.
        let grown = figures(&moved(&lines, |p| Point::new(p.x * 1024.0, p.y * 1024.0)), near);
        prop_assert_eq!(want.counts, grown.counts);
        for (p, q) in want.areas.iter().zip(&grown.areas) {
            prop_assert!((p * 1024.0 * 1024.0 - q).abs() <= 1e-9 * 1e5 * (1e5 + grown.length_mm), "{p} {q}");
        }
        prop_assert!((want.length_mm * 1024.0 - grown.length_mm).abs() <= 1e-8 * (grown.length_mm + 1e5));
    }

    /// Gaps are closed wherever the lines stand in the drawing and whichever way they run.
    #[test]
    fn gaps_are_closed_in_any_order(
        gaps in proptest::collection::vec((-0.03..0.03_f64, -0.03..0.03_f64), 144),
        shuffle in proptest::collection::vec((any::<u32>(), any::<bool>()), 72),
    ) {
        // A board of six by six squares, every line of it one side of a square, its ends off by up to 0.04 mm.
        let mut gap = gaps.iter().copied();
        let mut off = |x: i32, y: i32| {
            let (dx, dy) = gap.next().unwrap_or((0.0, 0.0));
            Point::new(f64::from(x) * 12.0 + dx, f64::from(y) * 12.0 + dy)
        };
        let mut lines = vec![(vec![Point::new(0.0, 0.0), Point::new(72.0, 0.0), Point::new(72.0, 72.0), Point::new(0.0, 72.0)], true)];
        for i in 1..6 {
            for j in 0..6 {
                lines.push((vec![off(i, j), off(i, j + 1)], false));
                lines.push((vec![off(j, i), off(j + 1, i)], false));
            }
        }
        let near = Near { join_mm: 0.1 };
        let want = figures(&lines, near);
        prop_assert_eq!(want.counts[0], 36);
        let mut keyed: Vec<_> = lines.into_iter().zip(shuffle.iter().cycle()).collect();
        keyed.sort_by_key(|k| k.1.0);
        let other: Vec<_> = keyed.into_iter().map(|((mut points, closed), (_, turned))| {
            if *turned {
                points.reverse();
            }
            (points, closed)
        }).collect();
        same(&want, &figures(&other, near), 100.0)?;
    }
}
