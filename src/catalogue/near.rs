//! Near relatives: which designs are like another by their figures.
//!
//! In: cards. Out: indices, nearest first. Rule: difficulty, pieces and size alone; nothing is learnt about a buyer.

use super::Card;

/// Up to `many` designs nearest to `cards[of]`. Ten points of difficulty, a factor of 1.5 in pieces and one of 1.5 in area count alike.
pub fn relatives(cards: &[Card], of: usize, many: usize) -> Vec<usize> {
    let Some(this) = cards.get(of) else {
        return Vec::new();
    };
    let mut all: Vec<(f64, usize)> =
        cards.iter().enumerate().filter(|(at, _)| *at != of).map(|(at, card)| (distance(this, card), at)).collect();
    all.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    all.into_iter().take(many).map(|(_, at)| at).collect()
}

fn distance(a: &Card, b: &Card) -> f64 {
    let ratio = |x: f64, y: f64| libm::log(x.max(1.0) / y.max(1.0)) / libm::log(1.5);
    let difficulty = (a.difficulty - b.difficulty) / 10.0;
    let pieces = ratio(a.count as f64, b.count as f64);
    let area = ratio(a.width_mm * a.height_mm, b.width_mm * b.height_mm);
    difficulty * difficulty + pieces * pieces + area * area
}
