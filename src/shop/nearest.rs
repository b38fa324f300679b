//! The known word that a misspelt one was probably meant to be.

/// The candidate that takes the fewest edits, the first of equals; `None` if all are as good as unrelated, see [`bearable`].
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word = word.to_lowercase();
    candidates
        .into_iter()
        .map(|candidate| (edits(&word, &candidate.to_lowercase()), candidate))
        .filter(|(edits, candidate)| *edits <= bearable(word.chars().count().max(candidate.chars().count())))
        .min_by_key(|(edits, _)| *edits)
        .map(|(_, candidate)| candidate)
}

/// How many edits two words of at most so many letters bear: a third, but two in any, and one in the shortest.
fn bearable(letters: usize) -> usize {
    if letters <= 3 { 1 } else { (letters / 3).max(2) }
}

/// Letters to insert, remove, replace or swap with their neighbour (optimal string alignment).
fn edits(left: &str, right: &str) -> usize {
    let left: Vec<char> = left.chars().collect();
    let right: Vec<char> = right.chars().collect();
    let mut rows: Vec<Vec<usize>> = vec![(0..=right.len()).collect()];
    for i in 1..=left.len() {
        let mut row = vec![i];
        for j in 1..=right.len() {
            let change = usize::from(left[i - 1] != right[j - 1]);
            let mut best = (rows[i - 1][j] + 1).min(row[j - 1] + 1).min(rows[i - 1][j - 1] + change);
            if i > 1 && j > 1 && left[i - 1] == right[j - 2] && left[i - 2] == right[j - 1] {
                best = best.min(rows[i - 2][j - 2] + 1);
            }
            row.push(best);
        }
        rows.push(row);
    }
    rows.last().and_then(|row| row.last()).copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first pair is the usual example for edit distances (Levenshtein 1966; any handbook): 3.
    #[test]
    fn edits_are_counted() {
        for (left, right, count) in [
            ("kitten", "sitting", 3),
            ("", "abc", 3),
            ("thicknes", "thickness", 1),
            ("tiltle", "title", 1),
            ("wood", "wodo", 1),
        ] {
            assert_eq!(edits(left, right), count, "{left} {right}");
            assert_eq!(edits(right, left), count, "{right} {left}");
        }
    }

    #[test]
    fn an_unrelated_word_has_no_nearest() {
        assert_eq!(nearest("thicknes", ["wood", "thickness", "kerf"]), Some("thickness"));
        assert_eq!(nearest("Kerf", ["wood", "kerf"]), Some("kerf"));
        assert_eq!(nearest("fr", ["de", "en"]), None);
        assert_eq!(nearest("moon-cheese", ["balsa", "mahogany-true"]), None);
    }
}
