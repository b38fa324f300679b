//! Near relatives: which designs are like another by their figures.
//!
//! In: cards. Out: indices, nearest first. Rule: difficulty, pieces and size alone; nothing is learnt about a buyer.

use super::Card;

/// For each card up to `many` designs nearest to it. Ten points of difficulty, a factor of 1.5 in pieces and one of 1.5 in area count alike.
pub fn relatives(cards: &[Card], many: usize) -> Vec<Vec<usize>> {
    // In these measures near is near on paper; every pair is looked at, which for a thousand takes some milliseconds.
    let places: Vec<[f64; 3]> = cards.iter().map(place).collect();
    let nearest = |(of, here): (usize, &[f64; 3])| {
        let mut best: Vec<(f64, usize)> = Vec::with_capacity(many + 1);
        for (at, there) in places.iter().enumerate().filter(|(at, _)| *at != of) {
            let far = distance(here, there);
            // Of two as far the earlier one.
            if best.len() < many || best.last().is_some_and(|(worst, _)| far < *worst) {
                let before = best.iter().take_while(|(known, _)| *known <= far).count();
                best.insert(before, (far, at));
                best.truncate(many);
            }
        }
        best.into_iter().map(|(_, at)| at).collect()
    };
    places.iter().enumerate().map(nearest).collect()
}

fn place(card: &Card) -> [f64; 3] {
    let steps = |value: f64| libm::log(value.max(1.0)) / libm::log(1.5);
    [card.difficulty / 10.0, steps(card.count as f64), steps(card.width_mm * card.height_mm)]
}

fn distance(a: &[f64; 3], b: &[f64; 3]) -> f64 {
    a.iter().zip(b).map(|(a, b)| (a - b) * (a - b)).sum()
}
