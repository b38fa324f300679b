//! Goes through all that is drawn, in painting order, and finds for each element where it sits, how it is painted and
//! to which layer it belongs.
//!
//! Rule: SVG 2, sections 5 (structure, `use`, `symbol`, `switch`) and 8.9. An element brought in by `use` has the `use`
//! for its parent.

use super::colours::{self, Used};
use super::error::{Bad, DrawingError};
use super::length::{Length, Side, Viewport};
use super::select::{self, Seen};
use super::shapes;
use super::size::{Outermost, inner, length_px, positive_px};
use super::style::{Cascade, Inherited};
use super::transform;
use super::tree::{Element, Tree};
use super::{Layer, Layers};
use kurbo::Affine;

/// Elements visited at most, those brought in by `use` counted each time.
const MOST_ELEMENTS: usize = 1_000_000;
/// Elements times style rules at most: each rule is held against each element.
const MOST_MATCHES: usize = 100_000_000;
/// How deep groups may lie in groups.
const MOST_LEVELS: usize = 256;

/// What holds at one place of the walk.
#[derive(Clone, Copy)]
pub(super) struct State<'a> {
    pub to_mm: Affine,
    pub viewport: Viewport,
    pub layer: Option<Layer>,
    pub inherited: Inherited<'a>,
    /// The outermost element around (or this one) with a clip or mask.
    pub clip: Option<Element<'a>>,
    /// Which of the walk's mistakes lies on the way here.
    broken: Option<usize>,
    /// Fill and stroke of the `use` around.
    context: (Used<'a>, Used<'a>),
    level: usize,
}

/// One element that is drawn.
pub(super) struct Item<'a, 'w> {
    pub element: Element<'a>,
    pub own: &'w Cascade<'a>,
    pub state: &'w State<'a>,
    /// Groups around it, the outermost first.
    pub groups: &'w [Element<'a>],
    pub fill: Used<'a>,
    pub stroke: Used<'a>,
    /// A mistake on the way to it: where it really lies is unknown.
    pub broken: Option<&'w DrawingError>,
    /// For a `use` that leads nowhere: what it points to.
    pub lost_link: Option<&'a str>,
}

/// What is done with each drawn element.
pub(super) trait Visitor<'a> {
    /// Takes one element: a shape, text, an image, foreign content, or a `use` that leads nowhere.
    fn drawn(&mut self, item: &Item<'a, '_>) -> Result<(), DrawingError>;
}

/// The walk.
pub(super) struct Walk<'a, 'w, V> {
    tree: &'w Tree<'a>,
    layers: &'w Layers,
    visitor: &'w mut V,
    groups: Vec<Element<'a>>,
    /// Elements that are being brought in by `use`.
    uses: Vec<Element<'a>>,
    mistakes: Vec<DrawingError>,
    visited: usize,
}

impl<'a, 'w, V: Visitor<'a>> Walk<'a, 'w, V> {
    /// A walk that hands what is drawn to `visitor`.
    pub(super) fn new(tree: &'w Tree<'a>, layers: &'w Layers, visitor: &'w mut V) -> Walk<'a, 'w, V> {
        Walk { tree, layers, visitor, groups: Vec::new(), uses: Vec::new(), mistakes: Vec::new(), visited: 0 }
    }

    /// Walks the whole drawing.
    pub(super) fn whole(mut self, size: &Outermost) -> Result<(), DrawingError> {
        let root = self.tree.root;
        let own = Cascade::of(self.tree, root);
        let outside = State {
            to_mm: size.to_mm,
            viewport: size.viewport,
            layer: None,
            inherited: Inherited::INITIAL,
            clip: None,
            broken: None,
            context: (Used::None, Used::None),
            level: 0,
        };
        if own.value("display").is_some_and(|(_, v)| v == "none") {
            return Ok(());
        }
        let mut state = self.style(root, &own, outside);
        if let Some((_, text)) = own.value("transform")
            && transform::read(text) != Ok(Affine::IDENTITY)
        {
            let bad = Bad::new(0, "a transform of the whole drawing leaves its size open; put it on a group within");
            let mistake = DrawingError::BadTransform(self.tree.fault(root, "transform", bad));
            self.mistake(&mut state, mistake);
        }
        state.layer = self.claim(&Seen::group(root))?;
        self.children(root, &state)
    }

    fn children(&mut self, parent: Element<'a>, state: &State<'a>) -> Result<(), DrawingError> {
        parent.children().filter(Element::is_element).try_for_each(|child| self.element(child, state))
    }

    fn element(&mut self, element: Element<'a>, parent: &State<'a>) -> Result<(), DrawingError> {
        let name = element.tag_name().name();
        let known = matches!(name, "g" | "a" | "switch" | "svg" | "use" | "text" | "image" | "foreignObject")
            || shapes::is_shape(name);
        if !known || !self.tree.is_svg(element) || !wanted(element) {
            return Ok(());
        }
        self.visited += 1;
        let most = MOST_ELEMENTS.min(MOST_MATCHES / self.tree.rules.rules.len().max(1));
        if self.visited > most {
            return Err(DrawingError::TooMuch { what: "elements", limit: most });
        }
        if parent.level >= MOST_LEVELS {
            return Err(DrawingError::TooMuch { what: "groups within groups", limit: MOST_LEVELS });
        }
        let own = Cascade::of(self.tree, element);
        if own.value("display").is_some_and(|(_, v)| v == "none") {
            return Ok(());
        }
        let mut state = self.style(element, &own, State { level: parent.level + 1, ..*parent });
        match self.transform(element, &own, &state) {
            Ok(own) => state.to_mm *= own,
            Err(mistake) => self.mistake(&mut state, mistake),
        }
        match name {
            "g" | "a" | "switch" | "svg" => self.group(element, &own, state),
            "use" => self.bring_in(element, &own, state),
            _ => self.draw(element, &own, state, None),
        }
    }

    fn group(&mut self, element: Element<'a>, own: &Cascade<'a>, mut state: State<'a>) -> Result<(), DrawingError> {
        state.layer = self.claim(&Seen::group(element))?.or(state.layer);
        match element.tag_name().name() {
            "svg" => return self.inner_view(element, own, state, [None, None]),
            "switch" => {
                let first = element
                    .children()
                    .find(|c| c.is_element() && self.tree.is_svg(*c) && wanted(*c) && !is_about(c.tag_name().name()));
                return first.map_or(Ok(()), |child| self.element(child, &state));
            }
            "g" => self.groups.push(element),
            _ => return self.children(element, &state),
        }
        let done = self.children(element, &state);
        self.groups.pop();
        done
    }

    /// An inner `svg`, or a `symbol` that a `use` brings in with a `size`.
    fn inner_view(
        &mut self,
        element: Element<'a>,
        own: &Cascade<'a>,
        mut state: State<'a>,
        size: [Option<f64>; 2],
    ) -> Result<(), DrawingError> {
        match inner(self.tree, element, own, size, state.viewport) {
            Ok(None) => return Ok(()),
            Ok(Some((to_outer, viewport))) => {
                state.to_mm *= to_outer;
                state.viewport = viewport;
            }
            Err(mistake) => self.mistake(&mut state, mistake),
        }
        self.children(element, &state)
    }

    fn bring_in(&mut self, element: Element<'a>, own: &Cascade<'a>, mut state: State<'a>) -> Result<(), DrawingError> {
        let link = self.tree.href(element).unwrap_or("");
        let target = link.strip_prefix('#').and_then(|id| self.tree.by_id(id)).filter(|t| self.tree.is_svg(*t));
        let Some(target) = target else {
            return if link.is_empty() { Ok(()) } else { self.draw(element, own, state, Some(link)) };
        };
        state.layer = self.claim(&Seen::group(element))?.or(state.layer);
        if self.uses.contains(&target) {
            let place = self.tree.place(element);
            return Err(DrawingError::UseLoop { place, href: link.trim_start_matches('#').to_owned() });
        }
        let viewport = state.viewport;
        let read = |name, side| length_px(self.tree, element, own, name, side, viewport);
        let size = |name, side| positive_px(self.tree, element, own, name, side, viewport);
        let place = read("x", Side::Width).and_then(|x| Ok((x, read("y", Side::Height)?)));
        let size = size("width", Side::Width).and_then(|w| Ok([w, size("height", Side::Height)?]));
        match place {
            Ok((x, y)) => state.to_mm *= Affine::translate((x.unwrap_or(0.0), y.unwrap_or(0.0))),
            Err(mistake) => self.mistake(&mut state, mistake),
        }
        let size = size.unwrap_or_else(|mistake| {
            self.mistake(&mut state, mistake);
            [None, None]
        });
        state.context = self.paints(&state);
        self.uses.push(target);
        let done = match target.tag_name().name() {
            "symbol" | "svg" => self.view_by_use(target, state, size),
            _ => self.element(target, &state),
        };
        self.uses.pop();
        done
    }

    fn view_by_use(
        &mut self,
        target: Element<'a>,
        state: State<'a>,
        size: [Option<f64>; 2],
    ) -> Result<(), DrawingError> {
        let own = Cascade::of(self.tree, target);
        // A symbol is never drawn by itself, so rules that hide symbols do not hide what `use` makes of them.
        let hidden = own.value("display").is_some_and(|(_, v)| v == "none");
        if (hidden && target.tag_name().name() == "svg") || !wanted(target) {
            return Ok(());
        }
        let mut state = self.style(target, &own, State { level: state.level + 1, ..state });
        match self.transform(target, &own, &state) {
            Ok(own) => state.to_mm *= own,
            Err(mistake) => self.mistake(&mut state, mistake),
        }
        state.layer = self.claim(&Seen::group(target))?.or(state.layer);
        self.inner_view(target, &own, state, size)
    }

    fn draw(
        &mut self,
        element: Element<'a>,
        own: &Cascade<'a>,
        mut state: State<'a>,
        lost_link: Option<&'a str>,
    ) -> Result<(), DrawingError> {
        let (fill, stroke) = self.paints(&state);
        let painted = lost_link.is_none() && !matches!(element.tag_name().name(), "image" | "foreignObject");
        let seen = match painted {
            true => Seen::drawn(element, stroke.plain(), fill.plain()),
            false => Seen::group(element),
        };
        state.layer = self.claim(&seen)?.or(state.layer);
        if state.inherited.hidden {
            return Ok(());
        }
        let broken = state.broken.and_then(|index| self.mistakes.get(index));
        let groups = &self.groups;
        self.visitor.drawn(&Item { element, own, state: &state, groups, fill, stroke, broken, lost_link })
    }

    fn paints(&self, state: &State<'a>) -> (Used<'a>, Used<'a>) {
        let used = |paint| colours::used(self.tree, paint, state.inherited.colour, state.context);
        (used(state.inherited.fill), used(state.inherited.stroke))
    }

    fn claim(&self, seen: &Seen<'a>) -> Result<Option<Layer>, DrawingError> {
        select::claim(self.layers, seen).map_err(|(first, second)| DrawingError::TwoLayers {
            place: self.tree.place(seen.element),
            element: self.tree.name(seen.element),
            first,
            second,
        })
    }

    fn style(&self, element: Element<'a>, own: &Cascade<'a>, mut state: State<'a>) -> State<'a> {
        state.inherited = state.inherited.for_child(own);
        if state.clip.is_none() && (own.has("clip-path") || own.has("mask")) {
            state.clip = Some(element);
        }
        state
    }

    /// Keeps a mistake that only matters if something below turns out to be of a layer.
    fn mistake(&mut self, state: &mut State<'a>, mistake: DrawingError) {
        if state.broken.is_none() {
            state.broken = Some(self.mistakes.len());
            self.mistakes.push(mistake);
        }
    }

    /// The element's own transform about its origin. CSS Transforms 1, sections 6 and 9.
    fn transform(&self, element: Element<'a>, own: &Cascade<'a>, state: &State<'a>) -> Result<Affine, DrawingError> {
        let fault = |name, bad| DrawingError::BadTransform(self.tree.fault(element, name, bad));
        for name in ["translate", "rotate", "scale", "offset-path"] {
            // These are properties only; attributes of the same names mean nothing.
            if own.values(name).any(|(w, v)| w == super::style::Written::Css && v.trim() != "none") {
                return Err(fault(name, Bad::new(0, "this property is not read; write it as a transform")));
            }
        }
        let Some((_, text)) = own.value("transform") else { return Ok(Affine::IDENTITY) };
        let matrix = transform::read(text).map_err(|bad| fault("transform", bad))?;
        let Some((_, text)) = own.value("transform-origin") else { return Ok(matrix) };
        if own.value("transform-box").is_some_and(|(_, b)| !matches!(b, "view-box" | "initial")) {
            return Err(fault("transform-box", Bad::new(0, "only the view is read as the box of transform-origin")));
        }
        let origin = origin(text, state.viewport).map_err(|bad| fault("transform-origin", bad))?;
        Ok(Affine::translate(origin) * matrix * Affine::translate((-origin.0, -origin.1)))
    }
}

/// Two lengths, percentages of the view, or words.
fn origin(text: &str, viewport: Viewport) -> Result<(f64, f64), Bad> {
    let mut words: Vec<&str> = text.split_ascii_whitespace().collect();
    while words.len() < 2 {
        words.push("center");
    }
    if matches!(words[0], "top" | "bottom") || matches!(words[1], "left" | "right") {
        words.swap(0, 1);
    }
    let read = |word: &str, side| {
        let length = match word {
            "left" | "top" => Ok(Length::Percent(0.0)),
            "center" => Ok(Length::Percent(50.0)),
            "right" | "bottom" => Ok(Length::Percent(100.0)),
            _ => Length::read(word),
        };
        length.map(|l| l.in_px(side, viewport)).map_err(|bad| Bad::new(text.find(word).unwrap_or(0), bad.reason))
    };
    Ok((read(words[0], Side::Width)?, read(words[1], Side::Height)?))
}

/// Elements that tell about others and are never drawn.
fn is_about(name: &str) -> bool {
    matches!(name, "title" | "desc" | "metadata" | "defs" | "style" | "script")
}

/// Conditional processing, SVG 2, section 5.8: no extension is known, and English is read.
fn wanted(element: Element) -> bool {
    element.attribute("requiredExtensions").is_none()
        && element.attribute("requiredFeatures").is_none_or(|features| !features.contains("#Extensibility"))
        && element.attribute("systemLanguage").is_none_or(|languages| {
            languages.split(',').any(|l| {
                let language = l.trim().to_ascii_lowercase();
                language == "en" || language.starts_with("en-")
            })
        })
}
