//! The picture that is painted: filled shapes, or small dots that give a cell its paint.

use super::Guess;
use crate::drawing::Layer;
use crate::drawing::survey::{Painted, Survey};
use crate::shape::{Extent, Rgb};

/// A dot is at most so large, mm. Own choice: a mark that is larger can no longer stand in a small cell.
const MOST_DOT_MM: f64 = 8.0;
/// Fewer dots than this are no plan.
const LEAST_DOTS: usize = 3;
/// Share of its viewport that a background covers.
const COVERS: f64 = 0.95;

/// Whether a part is filled shapes rather than lines.
pub(super) fn is_filled(survey: &Survey, guess: &Guess) -> bool {
    let shapes = || guess.part.shapes.iter().map(|s| &survey.shapes[*s]);
    let filled = shapes().filter(|s| s.fill != Painted::Not).count();
    if 2 * filled < guess.part.shapes.len().max(1) {
        return false;
    }
    // Shapes of one fill with a stroke around each are lines whose inside somebody left white, or black.
    let colours = guess.part.fills(survey).len();
    let stroked = shapes().all(|s| s.stroke != Painted::Not);
    let open = shapes().flat_map(|s| &s.outline).filter(|stretch| !stretch.closed).count();
    let all = shapes().map(|s| s.outline.len()).sum::<usize>();
    colours > 1 || (!stroked && 2 * open < all.max(1)) || shapes().any(|s| s.fill == Painted::Mixed)
}

/// Proposes `colour` and `marks`.
pub(super) fn guess(survey: &Survey, guesses: &mut [Guess]) {
    let said = |guesses: &[Guess], layer| guesses.iter().any(|g| g.told && g.layer == Some(layer));
    let (colour_said, marks_said) = (said(guesses, Layer::Colour), said(guesses, Layer::Marks));
    let filled: Vec<usize> =
        (0..guesses.len()).filter(|i| !guesses[*i].told && is_filled(survey, &guesses[*i])).collect();
    let mut dots = Vec::new();
    for i in filled {
        let extents: Vec<Extent> = guesses[i].part.shapes.iter().filter_map(|s| survey.shapes[*s].extent()).collect();
        let small = extents.iter().filter(|e| e.width_mm().max(e.height_mm()) <= MOST_DOT_MM).count();
        let colours = guesses[i].part.fills(survey);
        let guess = &mut guesses[i];
        if background(survey, &extents, &colours) {
            guess.because = "one white shape behind everything".into();
        } else if extents.len() >= LEAST_DOTS && 10 * small >= 9 * extents.len() {
            guess.layer = Some(Layer::Marks);
            guess.because = format!("small dots in {}", counted(colours.len(), "colour"));
            dots.push(i);
        } else {
            guess.layer = Some(Layer::Colour);
            guess.because = format!("filled shapes in {}", counted(colours.len(), "colour"));
            guess.sure = colours.len() > 1;
        }
    }
    // A drawing has one or the other.
    let coloured = colour_said || guesses.iter().any(|g| g.layer == Some(Layer::Colour));
    if coloured || marks_said {
        for i in dots {
            let marks = marks_said && !coloured;
            guesses[i].layer = (!marks).then_some(Layer::Colour).filter(|_| !marks_said);
            guesses[i].because = "small filled shapes of the picture".into();
            guesses[i].sure = false;
        }
    }
}

fn background(survey: &Survey, extents: &[Extent], colours: &[Rgb]) -> bool {
    let (&[extent], &[colour]) = (extents, colours) else { return false };
    let white = colour.r.min(colour.g).min(colour.b) >= 0xf0;
    white && extent.width_mm() >= COVERS * survey.width_mm && extent.height_mm() >= COVERS * survey.height_mm
}

fn counted(n: usize, what: &str) -> String {
    if n == 1 { format!("1 {what}") } else { format!("{n} {what}s") }
}
