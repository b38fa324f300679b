//! How large a drawing is, and how one coordinate system sits in another.
//!
//! Rule: SVG 2, sections 8.2 and 8.7, `viewBox` and `preserveAspectRatio`; the sizes that count are the handbook's, "The drawing".

use super::error::{Bad, DrawingError};
use super::flatten::FARTHEST_MM;
use super::length::{Length, MM_PER_PX, Side, Viewport};
use super::numbers::Numbers;
use super::style::Cascade;
use super::tree::{Element, Tree};
use kurbo::Affine;
use std::str::FromStr;
use svgtypes::{Align, AspectRatio, ViewBox};

/// What CSS takes where neither size nor ratio is known: CSS 2.2, section 10.3.2.
const UNKNOWN: Viewport = Viewport { width: 300.0, height: 150.0 };

/// The outermost viewport.
#[derive(Clone, Copy, Debug)]
pub(super) struct Outermost {
    pub width_mm: f64,
    pub height_mm: f64,
    /// From user units to mm.
    pub to_mm: Affine,
    pub viewport: Viewport,
    /// Neither the drawing nor the record states a size.
    pub untrue: bool,
}

/// Size and scale of the drawing. `width_mm` is the record's word, which wins and scales both sides.
pub(super) fn outermost<'a>(
    tree: &Tree<'a>,
    own: &Cascade<'a>,
    width_mm: Option<f64>,
) -> Result<Outermost, DrawingError> {
    let svg = tree.root;
    let view = view_box(tree, svg)?;
    if view.is_some_and(|v| v.w == 0.0 || v.h == 0.0) {
        let bad = Bad::new(0, "a view without width or height shows nothing");
        return Err(DrawingError::BadNumber(tree.fault(svg, "viewBox", bad)));
    }
    let (width, height) = (stated(tree, svg, own, "width")?, stated(tree, svg, own, "height")?);
    let unknown = UNKNOWN.scaled(MM_PER_PX);
    let stated = match (width, height, view) {
        (Some(width), Some(height), _) => Viewport { width, height },
        (Some(width), None, Some(v)) => Viewport { width, height: width * v.h / v.w },
        (None, Some(height), Some(v)) => Viewport { width: height * v.w / v.h, height },
        (None, None, Some(v)) => Viewport { width: v.w, height: v.h }.scaled(MM_PER_PX),
        (_, _, None) => Viewport { width: width.unwrap_or(unknown.width), height: height.unwrap_or(unknown.height) },
    };
    if width_mm.is_some() && width.is_none() && view.is_none() {
        return Err(DrawingError::NoViewport { place: tree.place(svg) });
    }
    let page = width_mm.map_or(stated, |width| Viewport { width, height: stated.height * (width / stated.width) });
    if !(page.width <= FARTHEST_MM && page.height <= FARTHEST_MM) {
        let (place, element) = (tree.place(svg), tree.name(svg));
        return Err(DrawingError::TooFar { place, element, limit_mm: FARTHEST_MM });
    }
    let (to_mm, viewport) = match view {
        Some(view) => (fit(view, aspect(tree, svg)?, page), Viewport { width: view.w, height: view.h }),
        None => (Affine::scale(MM_PER_PX * (page.width / stated.width)), stated.scaled(1.0 / MM_PER_PX)),
    };
    let untrue = width_mm.is_none() && width.is_none() && height.is_none();
    Ok(Outermost { width_mm: page.width, height_mm: page.height, to_mm, viewport, untrue })
}

/// A size the drawing states itself, mm; percentages and `auto` state nothing.
fn stated<'a>(
    tree: &Tree<'a>,
    svg: Element<'a>,
    own: &Cascade<'a>,
    name: &'static str,
) -> Result<Option<f64>, DrawingError> {
    let Some((_, text)) = own.value(name).filter(|(_, text)| !text.eq_ignore_ascii_case("auto")) else {
        return Ok(None);
    };
    let length = Length::read(text).and_then(|length| match length {
        Length::Absolute { mm, .. } if mm <= 0.0 => Err(Bad::new(0, "a drawing needs a size above nought")),
        Length::Absolute { mm, .. } => Ok(Some(mm)),
        Length::Percent(_) => Ok(None),
    });
    length.map_err(|bad| DrawingError::BadNumber(tree.fault(svg, name, bad)))
}

/// The viewport of an inner `svg` or a `symbol`, and the way from its units to those around; `None` where it shows nothing.
/// `size` are width and height of the `use` element that brings it in.
pub(super) fn inner<'a>(
    tree: &Tree<'a>,
    element: Element<'a>,
    own: &Cascade<'a>,
    size: [Option<f64>; 2],
    around: Viewport,
) -> Result<Option<(Affine, Viewport)>, DrawingError> {
    let x = length_px(tree, element, own, "x", Side::Width, around)?.unwrap_or(0.0);
    let y = length_px(tree, element, own, "y", Side::Height, around)?.unwrap_or(0.0);
    let mut px = around;
    for (to, name, side, outer) in
        [(&mut px.width, "width", Side::Width, size[0]), (&mut px.height, "height", Side::Height, size[1])]
    {
        if let Some(length) =
            outer.map_or_else(|| positive_px(tree, element, own, name, side, around), |v| Ok(Some(v)))?
        {
            *to = length;
        }
    }
    let place = Affine::translate((x, y));
    let Some(view) = view_box(tree, element)? else {
        return Ok((px.width > 0.0 && px.height > 0.0).then_some((place, px)));
    };
    if px.width == 0.0 || px.height == 0.0 || view.w == 0.0 || view.h == 0.0 {
        return Ok(None);
    }
    let inner = fit(view, aspect(tree, element)?, px);
    Ok(Some((place * inner, Viewport { width: view.w, height: view.h })))
}

/// A length attribute in user units; `None` where it is absent or `auto`.
pub(super) fn length_px<'a>(
    tree: &Tree<'a>,
    element: Element<'a>,
    own: &Cascade<'a>,
    name: &'static str,
    side: Side,
    viewport: Viewport,
) -> Result<Option<f64>, DrawingError> {
    let Some((_, text)) = own.value(name).filter(|(_, text)| !text.eq_ignore_ascii_case("auto")) else {
        return Ok(None);
    };
    match Length::read(text) {
        Ok(length) => Ok(Some(length.in_px(side, viewport))),
        Err(bad) => Err(DrawingError::BadNumber(tree.fault(element, name, bad))),
    }
}

/// The same for lengths that must not be negative.
pub(super) fn positive_px<'a>(
    tree: &Tree<'a>,
    element: Element<'a>,
    own: &Cascade<'a>,
    name: &'static str,
    side: Side,
    viewport: Viewport,
) -> Result<Option<f64>, DrawingError> {
    match length_px(tree, element, own, name, side, viewport)? {
        Some(px) if px < 0.0 => {
            let bad = Bad::new(0, "it must not be negative");
            Err(DrawingError::BadNumber(tree.fault(element, name, bad)))
        }
        px => Ok(px),
    }
}

fn view_box(tree: &Tree, element: Element) -> Result<Option<ViewBox>, DrawingError> {
    let Some(text) = element.attribute("viewBox").filter(|t| t.trim() != "none") else {
        return Ok(None);
    };
    let read = || {
        let mut numbers = [0.0; 4];
        let mut list = Numbers::new(text);
        for number in &mut numbers {
            *number = list.listed()?;
        }
        let [x, y, width, height] = numbers;
        match (list.rest().is_empty(), width < 0.0 || height < 0.0) {
            (false, _) => Err(Bad::new(list.at, "four numbers are enough")),
            (_, true) => Err(Bad::new(0, "width and height must not be negative")),
            _ => Ok(ViewBox::new(x, y, width, height)),
        }
    };
    read().map(Some).map_err(|bad| DrawingError::BadNumber(tree.fault(element, "viewBox", bad)))
}

fn aspect(tree: &Tree, element: Element) -> Result<AspectRatio, DrawingError> {
    let Some(text) = element.attribute("preserveAspectRatio") else {
        return Ok(AspectRatio::default());
    };
    AspectRatio::from_str(text)
        .map_err(|e| DrawingError::BadNumber(tree.fault(element, "preserveAspectRatio", Bad::from_svgtypes(text, &e))))
}

/// From the units of a view to those of the viewport that shows it. SVG 2, section 8.2.
fn fit(view: ViewBox, aspect: AspectRatio, port: Viewport) -> Affine {
    let (x, y) = (port.width / view.w, port.height / view.h);
    let (x, y) = match (aspect.align, aspect.slice) {
        (Align::None, _) => (x, y),
        (_, false) => (x.min(y), x.min(y)),
        (_, true) => (x.max(y), x.max(y)),
    };
    use Align::*;
    let across = match aspect.align {
        None | XMinYMin | XMinYMid | XMinYMax => 0.0,
        XMidYMin | XMidYMid | XMidYMax => 0.5,
        XMaxYMin | XMaxYMid | XMaxYMax => 1.0,
    };
    let down = match aspect.align {
        None | XMinYMin | XMidYMin | XMaxYMin => 0.0,
        XMinYMid | XMidYMid | XMaxYMid => 0.5,
        XMinYMax | XMidYMax | XMaxYMax => 1.0,
    };
    let left = (port.width - view.w * x) * across - view.x * x;
    let top = (port.height - view.h * y) * down - view.y * y;
    Affine::new([x, 0.0, 0.0, y, left, top])
}
