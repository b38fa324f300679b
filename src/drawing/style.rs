//! Which value of a property holds for an element: attributes, style rules, `style`, and what is inherited.
//!
//! Rule: CSS Cascade 4, section 6: attributes, then rules by weight and order, then `style`, then what is `!important`.

use super::colours::{self, Paint, Specified};
use super::tree::{Element, Tree};
use crate::shape::Rgb;
use simplecss::{AttributeOperator, DeclarationTokenizer, PseudoClass};

/// Where a value was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Written {
    Attribute,
    Css,
}

/// All values given to one element itself.
pub(super) struct Cascade<'a> {
    element: Element<'a>,
    /// Declarations of style rules and `style`, the strongest first.
    declared: Vec<(&'a str, &'a str)>,
}

impl<'a> Cascade<'a> {
    /// Gathers what holds for `element`.
    pub(super) fn of(tree: &Tree<'a>, element: Element<'a>) -> Cascade<'a> {
        let mut normal = Vec::new();
        let mut important = Vec::new();
        for rule in &tree.rules.rules {
            if rule.selector.matches(&Css(element)) {
                for d in &rule.declarations {
                    if d.important { &mut important } else { &mut normal }.push((d.name, d.value));
                }
            }
        }
        if let Some(style) = element.attribute("style") {
            for d in DeclarationTokenizer::from(style) {
                if d.important { &mut important } else { &mut normal }.push((d.name, d.value));
            }
        }
        normal.append(&mut important);
        normal.reverse();
        Cascade { element, declared: normal }
    }

    /// Values of a property, the strongest first; the attribute of the same name comes last.
    pub(super) fn values(&self, name: &'static str) -> impl Iterator<Item = (Written, &'a str)> {
        let declared = self.declared.iter().filter(move |(n, _)| n.eq_ignore_ascii_case(name));
        let attribute = self.element.attribute(name).filter(|_| name != "marker");
        declared.map(|(_, value)| (Written::Css, *value)).chain(attribute.map(|value| (Written::Attribute, value)))
    }

    /// The strongest value of a property, without spaces around.
    pub(super) fn value(&self, name: &'static str) -> Option<(Written, &'a str)> {
        self.values(name).next().map(|(written, value)| (written, value.trim()))
    }

    /// Whether a property has a value that is not `none`.
    pub(super) fn has(&self, name: &'static str) -> bool {
        self.value(name).is_some_and(|(_, v)| !["none", "initial", "unset", ""].contains(&v))
    }
}

/// Properties that pass from an element to what it holds.
#[derive(Clone, Copy, Debug)]
pub(super) struct Inherited<'a> {
    pub fill: Paint<'a>,
    pub stroke: Paint<'a>,
    pub colour: Rgb,
    pub even_odd: bool,
    pub hidden: bool,
    /// Any of the marker properties is set.
    pub marker: [bool; 3],
}

impl<'a> Inherited<'a> {
    /// The initial values of SVG 2.
    pub(super) const INITIAL: Inherited<'static> = Inherited {
        fill: Paint::Colour(Rgb::new(0, 0, 0)),
        stroke: Paint::None,
        colour: Rgb::new(0, 0, 0),
        even_odd: false,
        hidden: false,
        marker: [false; 3],
    };

    /// The values that hold for an element whose parent has `self`.
    pub(super) fn for_child(self, own: &Cascade<'a>) -> Inherited<'a> {
        let paint = |name, parent: Paint<'a>, initial| {
            own.values(name)
                .find_map(|(_, text)| match text.trim().to_ascii_lowercase().as_str() {
                    "initial" => Some(initial),
                    "inherit" | "unset" => Some(parent),
                    _ => colours::read(text).map(|Specified(paint)| paint),
                })
                .unwrap_or(parent)
        };
        let colour = own.values("color").find_map(|(_, text)| match colours::read(text)?.0 {
            Paint::Colour(colour) => Some(colour),
            Paint::Current => Some(self.colour),
            _ => None,
        });
        let even_odd = own.values("fill-rule").find_map(|(_, text)| match text.trim() {
            "evenodd" => Some(true),
            "nonzero" | "initial" => Some(false),
            "inherit" | "unset" => Some(self.even_odd),
            _ => None,
        });
        let hidden = own.values("visibility").find_map(|(_, text)| match text.trim() {
            "hidden" | "collapse" => Some(true),
            "visible" | "initial" => Some(false),
            "inherit" | "unset" => Some(self.hidden),
            _ => None,
        });
        let mut marker = self.marker;
        for (set, name) in marker.iter_mut().zip(["marker-start", "marker-mid", "marker-end"]) {
            match own.value(name).or_else(|| own.value("marker")) {
                Some((_, "inherit" | "unset")) | None => {}
                Some((_, value)) => *set = !["none", "initial"].contains(&value),
            }
        }
        Inherited {
            fill: paint("fill", self.fill, Inherited::INITIAL.fill),
            stroke: paint("stroke", self.stroke, Paint::None),
            colour: colour.unwrap_or(self.colour),
            even_odd: even_odd.unwrap_or(self.even_odd),
            hidden: hidden.unwrap_or(self.hidden),
            marker,
        }
    }
}

/// An element as the style rules see it.
struct Css<'a>(Element<'a>);

impl simplecss::Element for Css<'_> {
    fn parent_element(&self) -> Option<Self> {
        self.0.parent_element().map(Css)
    }

    fn prev_sibling_element(&self) -> Option<Self> {
        self.0.prev_sibling_element().map(Css)
    }

    fn has_local_name(&self, name: &str) -> bool {
        self.0.tag_name().name() == name
    }

    fn attribute_matches(&self, name: &str, operator: AttributeOperator<'_>) -> bool {
        self.0.attribute(name).is_some_and(|value| operator.matches(value))
    }

    fn pseudo_class_matches(&self, class: PseudoClass<'_>) -> bool {
        class == PseudoClass::FirstChild && self.0.prev_sibling_element().is_none()
    }
}
