//! What a drawing holds before anybody has said what it is for: every drawn shape with its groups, paints and outline.
//!
//! In: the SVG as text. Out: a [`Survey`], in mm. Never here: a guess at what a shape means (`propose`).

use std::collections::BTreeMap;

use super::colours::Used;
use super::flatten::{Pen, Subpath};
use super::size::outermost;
use super::style::Cascade;
use super::tree::{self, Element, Tree};
use super::walk::{Item, Visitor, Walk};
use super::{DrawingError, Layers, Selector, select, shapes};
use crate::shape::{Extent, Point, Rgb, length_mm};

/// Farthest that a chord may lie from its curve, mm: enough to tell what a shape is for.
const FLAT_MM: f64 = 0.01;
/// Points of all outlines together.
const MOST_POINTS: usize = 5_000_000;

/// A fill or stroke.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Painted {
    /// Not at all.
    Not,
    /// One colour.
    Plain(Rgb),
    /// A gradient or pattern.
    Mixed,
}

/// One stretch of an outline, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// At least two; a closed one does not repeat its first.
    pub points: Vec<Point>,
    /// By the drawing itself, or because its ends lie on one place.
    pub closed: bool,
}

/// One drawn shape.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Names of the groups around it that have one, the outermost first: an id or a label that no other element has.
    pub groups: Vec<String>,
    /// Its own such name.
    pub name: Option<String>,
    /// Every id and label of itself and of the groups around it.
    pub names: Vec<String>,
    /// Words of its own `class`.
    pub classes: Vec<String>,
    /// Computed fill.
    pub fill: Painted,
    /// Computed stroke.
    pub stroke: Painted,
    /// Its outline.
    pub outline: Vec<Stretch>,
}

/// All that is drawn.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Survey {
    /// `title` of the drawing itself.
    pub title: Option<String>,
    /// Width of the viewport, mm.
    pub width_mm: f64,
    /// Height of the viewport, mm.
    pub height_mm: f64,
    /// The drawing states no size.
    pub untrue: bool,
    /// In painting order.
    pub shapes: Vec<Shape>,
    /// What is drawn and is no shape (text, pictures, foreign content): how many of each.
    pub others: BTreeMap<String, usize>,
}

/// Looks a drawing through; shapes that cannot be read are an error, since nobody knows yet whether they matter.
///
/// # Errors
/// As for [`read`](super::read), but for what concerns layers.
pub fn survey(svg: &str) -> Result<Survey, DrawingError> {
    let doc = tree::parse(svg)?;
    let styles = tree::style_text(&doc);
    let tree = Tree::new(&doc, &styles)?;
    let size = outermost(&tree, &Cascade::of(&tree, tree.root), None)?;
    let mut looked = Looking { tree: &tree, names: names(tree.root), survey: Survey::default(), points: 0 };
    Walk::new(&tree, &Layers::default(), &mut looked).whole(&size)?;
    let title = tree.root.children().find(|n| n.tag_name().name() == "title").and_then(|n| n.text());
    let title = title.map(|text| text.split_whitespace().collect::<Vec<_>>().join(" ")).filter(|text| !text.is_empty());
    Ok(Survey { title, width_mm: size.width_mm, height_mm: size.height_mm, untrue: size.untrue, ..looked.survey })
}

/// How many elements carry each id or label.
fn names<'a>(root: Element<'a>) -> BTreeMap<&'a str, usize> {
    let mut names = BTreeMap::new();
    for element in root.descendants().filter(Element::is_element) {
        let mut own: Vec<&str> = own_names(element).collect();
        own.sort_unstable();
        own.dedup();
        for name in own {
            *names.entry(name).or_insert(0) += 1;
        }
    }
    names
}

fn own_names<'a>(element: Element<'a>) -> impl Iterator<Item = &'a str> {
    select::labels(element).chain(element.attribute("id"))
}

struct Looking<'a, 'w> {
    tree: &'w Tree<'a>,
    names: BTreeMap<&'a str, usize>,
    survey: Survey,
    points: usize,
}

impl<'a> Looking<'a, '_> {
    /// A label is what people see; an id is often the drawing program's own.
    fn name(&self, element: Element<'a>) -> Option<String> {
        let mut own = own_names(element);
        own.find(|name| !name.trim().is_empty() && self.names.get(name) == Some(&1)).map(str::to_owned)
    }
}

impl<'a> Visitor<'a> for Looking<'a, '_> {
    fn drawn(&mut self, item: &Item<'a, '_>) -> Result<(), DrawingError> {
        let tag = item.element.tag_name().name();
        if !shapes::is_shape(tag) {
            *self.survey.others.entry(tag.to_owned()).or_insert(0) += 1;
            return Ok(());
        }
        if let Some(broken) = item.broken {
            return Err(broken.clone());
        }
        let left = MOST_POINTS - self.points;
        let mut pen = Pen::new(item.state.to_mm, FLAT_MM, left);
        shapes::draw(self.tree, item.element, item.own, item.state.viewport, &mut pen)?;
        let drawn = pen.finish();
        if drawn.spent {
            return Err(DrawingError::TooMuch { what: "points", limit: MOST_POINTS });
        }
        self.points += drawn.subpaths.iter().map(|s| s.points.len()).sum::<usize>();
        let outline: Vec<Stretch> = drawn.subpaths.into_iter().map(stretch).collect();
        if outline.is_empty() {
            return Ok(());
        }
        let painted = |used| match used {
            Used::None => Painted::Not,
            Used::Plain(colour) => Painted::Plain(colour),
            Used::Mixed(_) => Painted::Mixed,
        };
        self.survey.shapes.push(Shape {
            groups: item.groups.iter().filter_map(|group| self.name(*group)).collect(),
            name: self.name(item.element),
            names: item.groups.iter().copied().chain([item.element]).flat_map(own_names).map(str::to_owned).collect(),
            classes: item
                .element
                .attribute("class")
                .unwrap_or_default()
                .split_ascii_whitespace()
                .map(str::to_owned)
                .collect(),
            fill: painted(item.fill),
            stroke: painted(item.stroke),
            outline,
        });
        Ok(())
    }
}

/// Ends this close are one place, mm.
const SAME_MM: f64 = 0.01;

fn stretch(Subpath { mut points, closed }: Subpath) -> Stretch {
    let meets = matches!((points.first(), points.last()), (Some(a), Some(b)) if points.len() > 3 && length_mm(*a, *b) <= SAME_MM);
    if meets && !closed {
        points.pop();
    }
    Stretch { points, closed: closed || meets }
}

impl Stretch {
    /// Its length, mm.
    pub fn length_mm(&self) -> f64 {
        let open = self.points.windows(2).map(|w| length_mm(w[0], w[1])).sum::<f64>();
        match (self.closed, self.points.first(), self.points.last()) {
            (true, Some(first), Some(last)) => open + length_mm(*first, *last),
            _ => open,
        }
    }
}

impl Shape {
    /// Length of its outline, mm.
    pub fn length_mm(&self) -> f64 {
        self.outline.iter().map(Stretch::length_mm).sum()
    }

    /// Whether a selector of a record picks it, itself or through a group around it.
    pub fn fits(&self, selector: &Selector) -> bool {
        match selector {
            Selector::Name(name) => self.names.contains(name),
            Selector::All { id: None, label: None, class: None, stroke: None, fill: None } => false,
            Selector::All { id, label, class, stroke, fill } => {
                [id, label].into_iter().flatten().all(|name| self.names.contains(name))
                    && class.as_ref().is_none_or(|word| self.classes.contains(word))
                    && stroke.is_none_or(|colour| self.stroke == Painted::Plain(colour))
                    && fill.is_none_or(|colour| self.fill == Painted::Plain(colour))
            }
        }
    }

    /// The box around it, mm.
    pub fn extent(&self) -> Option<Extent> {
        Extent::of(self.outline.iter().flat_map(|s| &s.points))
    }
}
