//! How hard a puzzle is, by the shop's own scale.

use serde::Serialize;

use super::counts::Pieces;
use crate::shop::settings::Weights;

/// The shop's own scale, 0 to 100, with its parts.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Difficulty {
    /// size − edges − novelty + alike, clamped to 0–100.
    pub score: f64,
    /// gentle, steady, testing or fiendish.
    pub word: Word,
    /// For the number of pieces.
    pub size: f64,
    /// Off for edge pieces.
    pub edges: f64,
    /// Off for novelty shapes.
    pub novelty: f64,
    /// On for twins.
    pub alike: f64,
}

/// Words of the difficulty scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Word {
    /// Under 40.
    Gentle,
    /// Under 60.
    Steady,
    /// Under 80.
    Testing,
    /// 80 and above.
    Fiendish,
}

impl Word {
    /// The four words with the score each ends at.
    pub const SCALE: [(Word, f64); 4] =
        [(Word::Gentle, 40.0), (Word::Steady, 60.0), (Word::Testing, 80.0), (Word::Fiendish, 100.0)];

    fn of(score: f64) -> Word {
        Word::SCALE.iter().find(|(_, end)| score < *end).map_or(Word::Fiendish, |(word, _)| *word)
    }

    /// As printed.
    pub fn name(self) -> &'static str {
        match self {
            Word::Gentle => "gentle",
            Word::Steady => "steady",
            Word::Testing => "testing",
            Word::Fiendish => "fiendish",
        }
    }
}

/// The shop's own scale. Handbook, figures, item 9. A board without pieces scores 0.
pub fn difficulty(p: &Pieces, w: &Weights) -> Difficulty {
    if p.count == 0 {
        return Difficulty { score: 0.0, word: Word::Gentle, size: 0.0, edges: 0.0, novelty: 0.0, alike: 0.0 };
    }
    let count = p.count as f64;
    let size = w.size * libm::log2(count);
    let edges = w.edges * p.edge_ratio;
    let novelty = w.novelty * (4.0 * p.novelty_shapes as f64 / count).min(1.0);
    let alike = w.alike * p.twins as f64 / count;
    let score = (size - edges - novelty + alike).clamp(0.0, 100.0);
    Difficulty { score, word: Word::of(score), size, edges, novelty, alike }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The example of the handbook, worked on paper: 84 pieces, 30 on the edge, 6 novelty shapes, no twins.
    #[test]
    fn the_handbooks_example_is_steady() {
        let p = Pieces { count: 84, edge: 30, edge_ratio: 30.0 / 84.0, novelty_shapes: 6, ..Pieces::default() };
        let d = difficulty(&p, &Weights::default());
        assert!((d.size - 63.92).abs() < 0.01 && (d.edges - 7.14).abs() < 0.01 && (d.novelty - 2.86).abs() < 0.01);
        assert!((d.score - 53.92).abs() < 0.02 && d.word == Word::Steady, "{d:?}");
    }

    #[test]
    fn limits_belong_to_the_harder_word() {
        assert_eq!(
            [39.99, 40.0, 60.0, 80.0, 100.0].map(Word::of),
            [Word::Gentle, Word::Steady, Word::Testing, Word::Fiendish, Word::Fiendish]
        );
    }
}
