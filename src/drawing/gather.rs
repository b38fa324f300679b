//! Keeps what each layer takes of what is drawn, and notices what no layer takes.
//!
//! In: drawn elements, one by one. Out: lines, fills and marks in mm, and findings.
//! Rule: handbook, "The drawing": outlines of cut and score layers count whole, however they are painted or clipped.

use super::colours::Used;
use super::error::DrawingError;
use super::flatten::{Drawn, FARTHEST_MM, Pen, Subpath};
use super::shapes;
use super::tree::{Element, Tree};
use super::walk::{Item, Visitor};
use super::{Fill, Layer, Line, Mark, Reading};
use crate::findings::{Checked, Finding, Kind};
use crate::shape::{Extent, Point, Rgb, length_mm, ring_length_mm};
use kurbo::Affine;
use std::collections::BTreeMap;

/// Tolerance of flattening for marks, whose boxes alone are wanted, mm.
const MARK_FLAT_MM: f64 = 0.0005;
/// Points of all outlines together. Own choice: three times those of a board with 20,000 knobbed pieces.
const MOST_POINTS: usize = 4_000_000;

/// Lines, fills and marks.
pub(super) type Gathered = (Vec<Line>, Vec<Fill>, Vec<Mark>);

/// What has been taken so far.
pub(super) struct Gather<'a, 'w> {
    tree: &'w Tree<'a>,
    how: &'w Reading<'w>,
    gathered: Gathered,
    findings: Vec<Finding>,
    /// Layers that got something.
    served: Vec<Layer>,
    points: usize,
    /// By element, in document order; markers apart from clips.
    clipped: BTreeMap<(usize, &'static str), Clipped<'a>>,
    /// By group, in document order.
    outside: BTreeMap<usize, Outside<'a>>,
}

/// Lines under one clip, mask or marker.
struct Clipped<'a> {
    element: Element<'a>,
    what: &'static str,
    at_mm: Option<Point>,
    count: usize,
}

/// What one group draws that no layer takes.
struct Outside<'a> {
    group: Element<'a>,
    at_mm: Option<Point>,
    count: usize,
    length_mm: f64,
}

impl<'a> Visitor<'a> for Gather<'a, '_> {
    fn drawn(&mut self, item: &Item<'a, '_>) -> Result<(), DrawingError> {
        let layer = match item.state.layer {
            Some(layer) if layer.is_personal() && !self.how.with_personal => {
                self.serve(layer);
                return Ok(());
            }
            Some(layer) => layer,
            None => return self.outside(item),
        };
        if !shapes::is_shape(item.element.tag_name().name()) {
            return match layer.is_lines() {
                true => {
                    self.no_outline(item, layer);
                    Ok(())
                }
                // Only filled shapes can be taken here.
                false => self.outside(item),
            };
        }
        if let Some(broken) = item.broken {
            return Err(broken.clone());
        }
        let tolerance = if layer == Layer::Marks { MARK_FLAT_MM } else { self.how.flat_mm() };
        let subpaths = self.outline(item, tolerance)?;
        if subpaths.is_empty() {
            return Ok(());
        }
        match layer {
            Layer::Colour => self.fill(item, layer, subpaths),
            Layer::Marks => self.mark(item, layer, subpaths),
            _ => self.lines(item, layer, subpaths),
        }
        Ok(())
    }
}

impl<'a, 'w> Gather<'a, 'w> {
    /// Nothing so far.
    pub(super) fn new(tree: &'w Tree<'a>, how: &'w Reading<'w>) -> Gather<'a, 'w> {
        Gather {
            tree,
            how,
            gathered: Gathered::default(),
            findings: Vec::new(),
            served: Vec::new(),
            points: 0,
            clipped: BTreeMap::new(),
            outside: BTreeMap::new(),
        }
    }

    /// Hands over all that was taken, and what was noticed.
    pub(super) fn finish(mut self) -> Checked<Gathered> {
        for c in self.clipped.values() {
            let count = counted(c.count, "line or shape", "lines and shapes");
            self.findings.push(Finding::new(
                Kind::Clipped,
                c.at_mm,
                format!(
                    "{} has a {}; {count} of a layer under it count whole, without it.",
                    self.tree.name(c.element),
                    c.what
                ),
                "Draw the shapes as they are to be cut or painted, and take the clip, mask or marker away.",
            ));
        }
        for o in self.outside.values() {
            let count = counted(o.count, "drawn element belongs", "drawn elements belong");
            self.findings.push(Finding::new(
                Kind::OutsideAnyLayer,
                o.at_mm,
                format!(
                    "{count} to no layer, in {}; their lines are {:.1} mm long.",
                    group_name(self.tree, o.group),
                    o.length_mm
                ),
                "Name them under `[drawing.layers]` if they are part of the puzzle; otherwise they are left out.",
            ));
        }
        for (layer, selectors) in &self.how.layers.0 {
            if !self.served.contains(layer) && !self.findings.iter().any(|f| is_about(f, *layer)) {
                let named: Vec<String> = selectors.iter().map(ToString::to_string).collect();
                self.findings.push(nothing_in(*layer, &named));
            }
        }
        Checked { value: self.gathered, findings: self.findings }
    }

    /// The flattened outline of an element.
    fn outline(&mut self, item: &Item<'a, '_>, tolerance_mm: f64) -> Result<Vec<Subpath>, DrawingError> {
        let mut pen = Pen::new(item.state.to_mm, tolerance_mm, MOST_POINTS - self.points);
        let read = shapes::draw(self.tree, item.element, item.own, item.state.viewport, &mut pen);
        let Drawn { subpaths, too_far, spent } = pen.finish();
        read?;
        if too_far {
            return Err(DrawingError::TooFar {
                place: self.tree.place(item.element),
                element: self.tree.name(item.element),
                limit_mm: FARTHEST_MM,
            });
        }
        if spent {
            return Err(DrawingError::TooMuch { what: "points", limit: MOST_POINTS });
        }
        self.points += subpaths.iter().map(|s| s.points.len()).sum::<usize>();
        Ok(subpaths)
    }

    fn lines(&mut self, item: &Item<'a, '_>, layer: Layer, subpaths: Vec<Subpath>) {
        self.note_clip(item, &subpaths, true);
        self.serve(layer);
        let layer = match layer {
            Layer::Personal => Layer::Cut,
            Layer::PersonalScore => Layer::Score,
            other => other,
        };
        self.gathered.0.extend(subpaths.into_iter().map(|Subpath { points, closed }| Line { layer, points, closed }));
    }

    fn fill(&mut self, item: &Item<'a, '_>, layer: Layer, subpaths: Vec<Subpath>) {
        let Some(colour) = self.plain_fill(item, &subpaths) else { return };
        self.note_clip(item, &subpaths, false);
        let rings: Vec<_> = subpaths.into_iter().filter_map(ring).collect();
        if !rings.is_empty() {
            self.serve(layer);
            self.gathered.1.push(Fill { rings, even_odd: item.state.inherited.even_odd, colour });
        }
    }

    fn mark(&mut self, item: &Item<'a, '_>, layer: Layer, subpaths: Vec<Subpath>) {
        let Some(colour) = self.plain_fill(item, &subpaths) else { return };
        if let Some(extent) = Extent::of(subpaths.iter().flat_map(|s| &s.points)) {
            self.serve(layer);
            self.gathered.2.push(Mark { at_mm: extent.min.midpoint(extent.max), colour });
        }
    }

    /// The fill of a painted shape; none, and a finding, where it is a gradient or pattern.
    fn plain_fill(&mut self, item: &Item<'a, '_>, subpaths: &[Subpath]) -> Option<Rgb> {
        if let Used::Mixed(id) = item.fill {
            self.findings.push(Finding::new(
                Kind::UnnamedPaint,
                first_point(subpaths),
                format!(
                    "{} is filled with the gradient or pattern #{id}, not with one colour.",
                    self.tree.name(item.element)
                ),
                "Give it the plain colour of a paint.",
            ));
        }
        item.fill.plain()
    }

    /// Text, images and the like in a layer that is cut or scored.
    fn no_outline(&mut self, item: &Item<'a, '_>, layer: Layer) {
        let (element, name) = (item.element, self.tree.name(item.element));
        let layer = layer.name();
        self.findings.push(match element.tag_name().name() {
            "text" => {
                let words: String = element.descendants().filter(|n| n.is_text()).filter_map(|n| n.text()).collect();
                let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
                let words: String = words.chars().take(40).collect();
                Finding::new(
                    Kind::TextNotOutlined,
                    corner(item),
                    format!("The text `{words}` in the layer `{layer}` has no outline that could be cut or scored; it is left out."),
                    "Turn the text into paths, or take it out of the layer.",
                )
            }
            "use" => Finding::new(
                Kind::NotALine,
                corner(item),
                format!("{name} in the layer `{layer}` points to {}, which is not in this drawing; it is left out.", item.lost_link.unwrap_or("")),
                "Put what it points to into this drawing, or take it out.",
            ),
            _ => Finding::new(
                Kind::NotALine,
                corner(item),
                format!("{name} in the layer `{layer}` is not a line; it is left out."),
                "Trace it as lines, or take it out of the layer.",
            ),
        });
    }

    fn note_clip(&mut self, item: &Item<'a, '_>, subpaths: &[Subpath], markers: bool) {
        let name = item.element.tag_name().name();
        let marked = markers && shapes::takes_markers(name) && item.state.inherited.marker.contains(&true);
        let (element, what) = match item.state.clip {
            Some(element) => (element, "clip or mask"),
            None if marked => (item.element, "marker"),
            None => return,
        };
        let new = || Clipped { element, what, at_mm: first_point(subpaths), count: 0 };
        self.clipped.entry((element.id().get_usize(), what)).or_insert_with(new).count += 1;
    }

    fn outside(&mut self, item: &Item<'a, '_>) -> Result<(), DrawingError> {
        let shape = shapes::is_shape(item.element.tag_name().name());
        let text = item.element.tag_name().name() == "text";
        // What is neither filled nor stroked shows nothing.
        if item.lost_link.is_some() || ((shape || text) && item.fill == Used::None && item.stroke == Used::None) {
            return Ok(());
        }
        let (mut at_mm, mut length) = (corner(item), 0.0);
        if shape {
            // What cannot be read is no mistake here: its length is that of what can.
            let mut pen = Pen::new(item.state.to_mm, self.how.flat_mm(), MOST_POINTS - self.points);
            let _ = shapes::draw(self.tree, item.element, item.own, item.state.viewport, &mut pen);
            let subpaths = pen.finish().subpaths;
            self.points += subpaths.iter().map(|s| s.points.len()).sum::<usize>();
            if subpaths.is_empty() {
                return Ok(());
            }
            at_mm = first_point(&subpaths);
            length = subpaths.iter().map(length_of).sum();
        }
        let at_mm = at_mm.filter(|_| item.broken.is_none());
        let Some(group) = item.groups.last().copied().or_else(|| item.element.parent_element()) else { return Ok(()) };
        let new = || Outside { group, at_mm, count: 0, length_mm: 0.0 };
        let known = self.outside.entry(group.id().get_usize()).or_insert_with(new);
        known.count += 1;
        known.length_mm += length;
        Ok(())
    }

    fn serve(&mut self, layer: Layer) {
        if !self.served.contains(&layer) {
            self.served.push(layer);
        }
    }
}

fn nothing_in(layer: Layer, named: &[String]) -> Finding {
    let name = layer.name();
    Finding::new(
        Kind::NothingInLayer,
        None,
        format!("The layer `{name}` ({}) takes nothing in the drawing.", named.join(", ")),
        format!("Name a group, label or colour that the drawing has, or take `{name}` out of `[drawing.layers]`."),
    )
}

/// Whether an earlier finding says already why a layer got nothing.
fn is_about(finding: &Finding, layer: Layer) -> bool {
    finding.kind == Kind::UnnamedPaint && matches!(layer, Layer::Colour | Layer::Marks)
}

fn ring(subpath: Subpath) -> Option<Vec<Point>> {
    let mut points = subpath.points;
    if points.first() == points.last() {
        points.pop();
    }
    (points.len() > 2).then_some(points)
}

fn first_point(subpaths: &[Subpath]) -> Option<Point> {
    subpaths.first().and_then(|s| s.points.first()).copied()
}

fn length_of(subpath: &Subpath) -> f64 {
    match subpath.closed {
        true => ring_length_mm(&subpath.points),
        false => subpath.points.windows(2).map(|w| length_mm(w[0], w[1])).sum(),
    }
}

/// Where text or an image starts.
fn corner(item: &Item) -> Option<Point> {
    let number = |name: &'static str| {
        let text = item.own.value(name)?.1;
        let first = text.split([' ', ',']).next()?;
        super::length::Length::read(first).ok()
    };
    use super::length::Side;
    let x = number("x").map_or(0.0, |l| l.in_px(Side::Width, item.state.viewport));
    let y = number("y").map_or(0.0, |l| l.in_px(Side::Height, item.state.viewport));
    let to_mm: Affine = item.state.to_mm;
    let at = to_mm * Point::new(x, y);
    let near = at.x.abs() <= FARTHEST_MM && at.y.abs() <= FARTHEST_MM;
    (near && item.broken.is_none()).then_some(at)
}

fn group_name(tree: &Tree, group: Element) -> String {
    match super::select::labels(group).next() {
        Some(label) => format!("the group `{label}`"),
        None => tree.name(group),
    }
}

fn counted(count: usize, one: &str, many: &str) -> String {
    match count {
        1 => format!("1 {one}"),
        _ => format!("{count} {many}"),
    }
}
