//! What the parts of a new drawing are for, guessed from their geometry alone: no name and no colour is taken for granted.
//!
//! In: a [`Survey`]. Out: [`Proposal`]: parts with the layer each is proposed for and the reason, and the selectors to write.
//! Steps: `parts` tells apart what groups and paints tell apart; `fills` finds the picture or its marks; `lines` finds what bounds the
//! board, what cuts it up, what closes within it and what only follows the picture.
//! Never here: the disk, a question to anybody. A guess is a proposal: the record says so, and the maker confirms it.

mod fills;
mod ground;
mod lines;
pub mod names;
mod parts;

pub use parts::{Part, parts};

use crate::drawing::survey::Survey;
use crate::drawing::{Layer, Layers, Selector};

/// A part of the drawing and what it is taken for.
#[derive(Clone, Debug, PartialEq)]
pub struct Guess {
    /// The part.
    pub part: Part,
    /// What it is proposed for; `None` where it belongs to nothing that is cut, scored or painted.
    pub layer: Option<Layer>,
    /// Why, in a few words.
    pub because: String,
    /// Whether the geometry leaves little doubt.
    pub sure: bool,
    /// Said by the maker, not guessed.
    pub told: bool,
}

/// What is proposed for a drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// In the order of the drawing.
    pub guesses: Vec<Guess>,
}

/// What the maker says of a part of the drawing: it is of this layer, or of none.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// Which part.
    pub selector: Selector,
    /// Its layer.
    pub layer: Option<Layer>,
}

/// Proposes a layer for every part of a drawing that nothing has been told of.
pub fn propose(survey: &Survey, told: &[Told]) -> Proposal {
    let mut guesses = Vec::new();
    for part in parts(survey) {
        let mut left = part.shapes.clone();
        for Told { selector, layer } in told {
            let (fits, others): (Vec<usize>, Vec<usize>) = left.iter().partition(|s| survey.shapes[**s].fits(selector));
            left = others;
            if !fits.is_empty() {
                let part = Part { picks: vec![selector.clone()], name: part.name.clone(), shapes: fits };
                guesses.push(Guess { part, layer: *layer, because: "as you said".into(), sure: true, told: true });
            }
        }
        if !left.is_empty() {
            let part = Part { shapes: left, ..part };
            guesses.push(Guess { part, layer: None, because: String::new(), sure: true, told: false });
        }
    }
    fills::guess(survey, &mut guesses);
    lines::guess(survey, &mut guesses);
    Proposal { guesses }
}

/// The order of layers in a record.
const ORDER: [Layer; 8] = [
    Layer::Cut,
    Layer::Novelty,
    Layer::Void,
    Layer::Score,
    Layer::Colour,
    Layer::Marks,
    Layer::Personal,
    Layer::PersonalScore,
];

impl Proposal {
    /// The layers as a record writes them: a group where all of it is of one layer, else its parts.
    pub fn layers(&self, survey: &Survey) -> Layers {
        let mut layer_of: Vec<Option<Layer>> = vec![None; survey.shapes.len()];
        for guess in &self.guesses {
            for shape in &guess.part.shapes {
                layer_of[*shape] = guess.layer;
            }
        }
        let whole = |group: &str, layer: Layer| {
            let mut within = survey.shapes.iter().enumerate().filter(|(_, s)| s.groups.iter().any(|g| g == group));
            within.all(|(i, _)| layer_of[i] == Some(layer))
        };
        let mut layers = Vec::new();
        for layer in ORDER {
            let mut selectors: Vec<Selector> = Vec::new();
            for guess in self.guesses.iter().filter(|guess| guess.layer == Some(layer)) {
                let shape = guess.part.shapes.first().and_then(|shape| survey.shapes.get(*shape));
                let group = shape.and_then(|shape| shape.groups.iter().find(|group| whole(group, layer)));
                let picks = match group.filter(|_| !guess.told) {
                    Some(group) if !guess.part.shapes.iter().any(|s| !survey.shapes[*s].groups.contains(group)) => {
                        vec![Selector::Name(group.clone())]
                    }
                    _ => guess.part.picks.clone(),
                };
                for pick in picks {
                    if !selectors.contains(&pick) {
                        selectors.push(pick);
                    }
                }
            }
            if !selectors.is_empty() {
                layers.push((layer, selectors));
            }
        }
        Layers(layers)
    }

    /// Parts that the written layers do not pick as they should, by reading the drawing's shapes with them: the nearest claim wins, and a
    /// paint is nearer than a group.
    pub fn astray(&self, survey: &Survey) -> Vec<&Guess> {
        let layers = self.layers(survey);
        let picked = |shape: usize| {
            let shape = &survey.shapes[shape];
            let paint =
                |s: &&Selector| matches!(s, Selector::All { stroke, fill, .. } if stroke.is_some() || fill.is_some());
            let nearness = |s: &Selector| match s {
                s if paint(&s) || shape.name.as_ref().is_some_and(|n| *s == Selector::Name(n.clone())) => usize::MAX,
                Selector::Name(name) => shape.groups.iter().position(|g| g == name).unwrap_or(0),
                _ => 0,
            };
            let all = layers.0.iter().flat_map(|(layer, selectors)| selectors.iter().map(move |s| (*layer, s)));
            all.filter(|(_, s)| shape.fits(s)).max_by_key(|(_, s)| nearness(s)).map(|(layer, _)| layer)
        };
        self.guesses.iter().filter(|guess| guess.part.shapes.iter().any(|s| picked(*s) != guess.layer)).collect()
    }

    /// Whether some part is proposed for this layer.
    pub fn has(&self, layer: Layer) -> bool {
        self.guesses.iter().any(|guess| guess.layer == Some(layer))
    }
}
