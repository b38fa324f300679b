//! Which layer an element belongs to: selectors of the record against one element at a time.
//!
//! The nearest claim wins, which is the walk's part; here, two layers that claim the same element are told apart as a mistake.

use super::error::Claim;
use super::tree::Element;
use super::{Layer, Layers, Selector};
use crate::shape::Rgb;

/// What selectors look at in one element.
pub(super) struct Seen<'a> {
    pub element: Element<'a>,
    id: Option<&'a str>,
    class: Option<&'a str>,
    /// Computed stroke and fill; `None` for a group, `Some(None)` for a drawn element without that paint.
    stroke: Option<Option<Rgb>>,
    fill: Option<Option<Rgb>>,
}

impl<'a> Seen<'a> {
    /// A group, which has no paint of its own.
    pub(super) fn group(element: Element<'a>) -> Seen<'a> {
        let (id, class) = (element.attribute("id"), element.attribute("class"));
        Seen { element, id, class, stroke: None, fill: None }
    }

    /// A drawn element with its computed paints.
    pub(super) fn drawn(element: Element<'a>, stroke: Option<Rgb>, fill: Option<Rgb>) -> Seen<'a> {
        Seen { stroke: Some(stroke), fill: Some(fill), ..Seen::group(element) }
    }

    fn has_label(&self, label: &str) -> bool {
        labels(self.element).any(|l| l == label)
    }

    fn fits(&self, selector: &Selector) -> bool {
        match selector {
            Selector::Name(name) => self.id == Some(name) || self.has_label(name),
            Selector::All { id: None, label: None, class: None, stroke: None, fill: None } => false,
            Selector::All { id, label, class, stroke, fill } => {
                id.as_deref().is_none_or(|id| self.id == Some(id))
                    && label.as_deref().is_none_or(|label| self.has_label(label))
                    && class.as_deref().is_none_or(|word| {
                        self.class.is_some_and(|words| words.split_ascii_whitespace().any(|w| w == word))
                    })
                    && stroke.is_none_or(|colour| self.stroke == Some(Some(colour)))
                    && fill.is_none_or(|colour| self.fill == Some(Some(colour)))
            }
        }
    }
}

/// All `label` attributes of an element, whatever their namespace.
pub(super) fn labels<'a>(element: Element<'a>) -> impl Iterator<Item = &'a str> {
    element.attributes().filter(|a| a.name() == "label").map(|a| a.value())
}

/// The layer that claims an element itself, if one does.
///
/// # Errors
/// Two claims of different layers.
pub(super) fn claim(layers: &Layers, seen: &Seen) -> Result<Option<Layer>, (Claim, Claim)> {
    let mut found: Option<(Layer, &Selector)> = None;
    for (layer, selectors) in &layers.0 {
        let Some(selector) = selectors.iter().find(|s| seen.fits(s)) else { continue };
        match found {
            None => found = Some((*layer, selector)),
            Some((first, by)) if first != *layer => {
                let claim = |layer, selector: &Selector| Claim { layer, selector: selector.to_string() };
                return Err((claim(first, by), claim(*layer, selector)));
            }
            Some(_) => {}
        }
    }
    Ok(found.map(|(layer, _)| layer))
}
