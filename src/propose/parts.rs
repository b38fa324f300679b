//! What belongs together in a drawing: by named groups first, by paint within them.

use crate::drawing::Selector;
use crate::drawing::survey::{Painted, Shape, Survey};
use crate::shape::Rgb;

/// A group with more named groups than this within it is no set of layers: some programs name every shape.
const MOST_LAYERS: usize = 12;

/// Shapes that are taken for one thing.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What picks them in a record.
    pub picks: Vec<Selector>,
    /// As people find it: `group \`cuts\``, `lines in #222222`.
    pub name: String,
    /// Indices into the survey, in painting order.
    pub shapes: Vec<usize>,
}

/// How a shape is painted, as far as it tells parts apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Look {
    /// Filled, with a stroke or without.
    Filled,
    /// Stroked alone.
    Line(Painted),
    /// Neither: its outline may be meant all the same.
    Unpainted,
}

fn look(shape: &Shape) -> Look {
    match (shape.fill, shape.stroke) {
        (Painted::Not, Painted::Not) => Look::Unpainted,
        (Painted::Not, stroke) => Look::Line(stroke),
        _ => Look::Filled,
    }
}

/// The parts of a drawing, in the order of their first shapes.
pub fn parts(survey: &Survey) -> Vec<Part> {
    let mut parts = Vec::new();
    divide(survey, (0..survey.shapes.len()).collect(), 0, None, &mut parts);
    parts.sort_by_key(|part| part.shapes.first().copied());
    parts
}

fn divide(survey: &Survey, shapes: Vec<usize>, depth: usize, name: Option<&str>, parts: &mut Vec<Part>) {
    let mut loose: Vec<usize> = Vec::new();
    let mut groups: Vec<(&str, Vec<usize>)> = Vec::new();
    for shape in &shapes {
        match survey.shapes[*shape].groups.get(depth) {
            None => loose.push(*shape),
            Some(group) => match groups.iter_mut().find(|(g, _)| g == group) {
                Some((_, within)) => within.push(*shape),
                None => groups.push((group, vec![*shape])),
            },
        }
    }
    // A group that holds nothing but one other is that other, by the name further out.
    if loose.is_empty() && groups.len() == 1 {
        let only = groups.remove(0);
        return divide(survey, only.1, depth + 1, name.or(Some(only.0)), parts);
    }
    if groups.len() > MOST_LAYERS {
        groups.clear();
        loose = shapes;
    }
    let alone = groups.is_empty();
    for (group, within) in groups {
        divide(survey, within, depth + 1, Some(group), parts);
    }
    let mut looks: Vec<(Look, Vec<usize>)> = Vec::new();
    for shape in loose {
        let look = look(&survey.shapes[shape]);
        match looks.iter_mut().find(|(l, _)| *l == look) {
            Some((_, within)) => within.push(shape),
            None => looks.push((look, vec![shape])),
        }
    }
    let whole = alone && looks.len() == 1;
    for (look, shapes) in looks {
        let part = match name.filter(|_| whole) {
            Some(name) => {
                Part { picks: vec![Selector::Name(name.to_owned())], name: format!("group `{name}`"), shapes }
            }
            None => by_paint(survey, look, name, shapes),
        };
        parts.push(part);
    }
}

fn by_paint(survey: &Survey, look: Look, group: Option<&str>, shapes: Vec<usize>) -> Part {
    let within = group.map(|group| format!(" in the group `{group}`")).unwrap_or_default();
    let paint = |stroke, fill| Selector::All { id: None, label: None, class: None, stroke, fill };
    let (picks, name) = match look {
        Look::Line(Painted::Plain(colour)) => (vec![paint(Some(colour), None)], format!("lines in {colour}{within}")),
        Look::Filled => {
            let mut fills: Vec<Rgb> = Vec::new();
            for shape in &shapes {
                if let Painted::Plain(fill) = survey.shapes[*shape].fill
                    && !fills.contains(&fill)
                {
                    fills.push(fill);
                }
            }
            let name = match fills.as_slice() {
                [one] => format!("shapes filled with {one}{within}"),
                _ => format!("filled shapes{within}"),
            };
            (fills.into_iter().map(|fill| paint(None, Some(fill))).collect(), name)
        }
        Look::Line(_) | Look::Unpainted => {
            let names = shapes.iter().filter_map(|s| survey.shapes[*s].name.clone().map(Selector::Name));
            let what = if look == Look::Unpainted { "shapes without fill or stroke" } else { "lines in a gradient" };
            (names.collect(), format!("{what}{within}"))
        }
    };
    Part { picks, name, shapes }
}

impl Part {
    /// Length of its outlines, mm.
    pub fn length_mm(&self, survey: &Survey) -> f64 {
        self.shapes.iter().map(|s| survey.shapes[*s].length_mm()).sum()
    }

    /// Its different fills, the one with the most shapes first.
    pub fn fills(&self, survey: &Survey) -> Vec<Rgb> {
        counted(self.shapes.iter().map(|s| survey.shapes[*s].fill))
    }

    /// Its different strokes, the one with the most shapes first.
    pub fn strokes(&self, survey: &Survey) -> Vec<Rgb> {
        counted(self.shapes.iter().map(|s| survey.shapes[*s].stroke))
    }
}

fn counted(paints: impl Iterator<Item = Painted>) -> Vec<Rgb> {
    let mut counts: Vec<(Rgb, usize)> = Vec::new();
    for paint in paints {
        let Painted::Plain(colour) = paint else { continue };
        match counts.iter_mut().find(|(c, _)| *c == colour) {
            Some((_, count)) => *count += 1,
            None => counts.push((colour, 1)),
        }
    }
    counts.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
    counts.into_iter().map(|(colour, _)| colour).collect()
}
