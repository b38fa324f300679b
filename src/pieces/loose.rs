//! Lines that end in the open: which end, and whether a line lies just ahead.

use super::boxes::{Extent, Tree};
use super::exact::{nearest, square};
use super::{Chain, Near, Net};
use crate::findings::{Finding, Kind};
use crate::shape::{Point, length_mm};

/// Farthest that an end may stop short of a line and still be taken for one that was meant to reach it, mm. Handbook, findings.
pub(super) const NEAR_MISS_MM: f64 = 1.0;

/// A finding for every end that nothing else meets, but for those of the lines that `skip` names.
pub(super) fn loose_ends(net: &Net, near: Near, skip: &[usize]) -> Vec<Finding> {
    let mut degree = vec![0_u32; net.nodes.len()];
    for chain in &net.chains {
        degree[chain.from] += 1;
        degree[chain.to] += 1;
    }
    let loose: Vec<(usize, bool)> = net
        .chains
        .iter()
        .enumerate()
        .filter(|(_, c)| !net.lines(c).iter().any(|l| skip.contains(l)))
        .flat_map(|(i, c)| [(i, false, c.from), (i, true, c.to)])
        .filter(|(_, _, node)| degree[*node] == 1)
        .map(|(i, last, _)| (i, last))
        .collect();
    if loose.is_empty() {
        return Vec::new();
    }
    let tree = Tree::new(net.chains.iter().map(|c| Extent::of(net.points(c))).collect());
    loose.iter().map(|&(chain, last)| finding(net, &tree, chain, last, near)).collect()
}

fn finding(net: &Net, tree: &Tree, own: usize, last: bool, near: Near) -> Finding {
    let points = net.points(&net.chains[own]);
    let end = if last { points[points.len() - 1] } else { points[0] };
    match line_ahead(net, tree, own, last, end) {
        Some(gap_mm) => Finding::new(
            Kind::NearMiss,
            Some(end),
            format!("This cut stops {gap_mm:.2} mm short of the next line, so it parts nothing."),
            format!(
                "Draw it on to the line; or set `join`, now {} mm, to at least {:.2} mm.",
                near.join_mm,
                (gap_mm * 100.0).ceil() / 100.0
            ),
        ),
        None => Finding::new(
            Kind::LooseEnd,
            Some(end),
            format!(
                "This cut ends in the open: {:.1} mm of it part nothing from nothing.",
                points.windows(2).map(|w| length_mm(w[0], w[1])).sum::<f64>()
            ),
            "Draw it on to the next line, or take it back to the last one.",
        ),
    }
}

/// Distance of the nearest line that the end stops short of, if one lies within [`NEAR_MISS_MM`].
fn line_ahead(net: &Net, tree: &Tree, own: usize, last: bool, end: Point) -> Option<f64> {
    let chain = &net.chains[own];
    let points = net.points(chain);
    let n = points.len();
    let inward = |k: usize| if last { points[n - 1 - k] } else { points[k] };
    let reach2 = NEAR_MISS_MM * NEAR_MISS_MM;
    // How many of its own points, from the end inward, lie near because the line leads up to the end.
    let leading = (0..n).take_while(|&k| square(inward(k), end) <= reach2).count();
    let heading = end - inward(1);
    // A short line: what it starts from is near as well, but behind.
    let start = inward(n - 1);
    let short = square(start, end) <= 4.0 * reach2;
    let base = if last { chain.from } else { chain.to };
    let leads_from = |c: &Chain| short && (c.from == base || c.to == base);

    let mut least: Option<f64> = None;
    // Small windows first: where lines crowd, a line of a large one need not be looked at.
    for reach in [NEAR_MISS_MM / 64.0, NEAR_MISS_MM / 8.0, NEAR_MISS_MM] {
        tree.meeting(&Extent::between(end, end, reach), &mut |i| {
            let other = &net.chains[i as usize];
            for (k, pair) in net.points(other).windows(2).enumerate() {
                let from_end = if last { n - 2 - k.min(n - 2) } else { k };
                if i as usize == own && from_end < leading {
                    continue;
                }
                let (q, _) = nearest(pair[0], pair[1], end);
                let gap = square(q, end);
                let ahead = (q - end).dot(heading) > 0.0;
                if gap <= reach2 && (ahead || !leads_from(other)) && least.is_none_or(|l| gap < l) {
                    least = Some(gap);
                }
            }
        });
        if least.is_some_and(|gap| gap <= reach * reach) {
            break;
        }
    }
    least.map(f64::sqrt)
}
