//! Reads one SVG, or only lists what it holds.

use super::gather::Gather;
use super::size::outermost;
use super::style::Cascade;
use super::tree::{self, Tree};
use super::walk::{Visitor, Walk};
use super::{Contents, Drawing, DrawingError, Layers, Reading};
use crate::findings::{self, Checked, Finding, Kind};
use crate::shape::Rgb;
use std::collections::BTreeSet;

/// Reads one SVG; all lengths come out in mm from the top left of its viewport, x right, y down.
///
/// Lines keep the drawing's order; a line of no length is left out. Whatever a drawing survives is a finding.
/// Elements of one buyer's version leave no trace unless `how.with_personal`.
///
/// # Errors
/// What leaves nothing to measure, or would leave out a line in silence: no XML, no layers named
/// ([`DrawingError::NoLayers`] lists what there is), two layers for one element, and values of an element in a layer
/// that cannot be read. The same mistakes in elements of no layer are none.
pub fn read(svg: &str, how: &Reading) -> Result<Checked<Drawing>, DrawingError> {
    if how.layers.0.is_empty() {
        return Err(DrawingError::NoLayers(contents(svg, how.layers)?));
    }
    let doc = tree::parse(svg)?;
    let styles = tree::style_text(&doc);
    let tree = Tree::new(&doc, &styles)?;
    let size = outermost(&tree, &Cascade::of(&tree, tree.root), how.width_mm)?;
    let mut gather = Gather::new(&tree, how);
    Walk::new(&tree, how.layers, &mut gather).whole(&size)?;
    let Checked { value: gathered, mut findings } = gather.finish();
    if size.untrue {
        findings.push(Finding::new(
            Kind::NoTrueSize,
            None,
            format!(
                "The drawing states no size, so one unit was taken as one CSS pixel: {:.2} mm wide, {:.2} mm high.",
                size.width_mm, size.height_mm
            ),
            "Give the svg element a width and height in mm, or set `width` under `[drawing]` in the record.",
        ));
    }
    findings::sort(&mut findings);
    let (lines, fills, marks) = gathered;
    let drawing = Drawing { width_mm: size.width_mm, height_mm: size.height_mm, lines, fills, marks };
    Ok(Checked { value: drawing, findings })
}

/// Lists the groups and stroke colours of a drawing; elements in the personal layers of `layers` are left out.
///
/// # Errors
/// As for [`read`], but for what concerns layers and single values.
pub fn contents(svg: &str, layers: &Layers) -> Result<Contents, DrawingError> {
    let doc = tree::parse(svg)?;
    let styles = tree::style_text(&doc);
    let tree = Tree::new(&doc, &styles)?;
    let size = outermost(&tree, &Cascade::of(&tree, tree.root), None)?;
    let mut list = Listing::default();
    Walk::new(&tree, layers, &mut list).whole(&size)?;
    Ok(list.contents)
}

/// Only takes down names and colours.
#[derive(Default)]
struct Listing {
    contents: Contents,
    groups: BTreeSet<String>,
    strokes: BTreeSet<Rgb>,
}

impl<'a> Visitor<'a> for Listing {
    fn drawn(&mut self, item: &super::walk::Item<'a, '_>) -> Result<(), DrawingError> {
        if item.state.layer.is_some_and(|l| l.is_personal()) {
            return Ok(());
        }
        // Groups are named once something in them draws: empty and hidden ones would mislead.
        for group in item.groups {
            let names = super::select::labels(*group).chain(group.attribute("id"));
            for name in names {
                if self.groups.insert(name.to_owned()) {
                    self.contents.groups.push(name.to_owned());
                }
            }
        }
        if let Some(stroke) = item.stroke.plain().filter(|s| self.strokes.insert(*s)) {
            self.contents.strokes.push(stroke);
        }
        Ok(())
    }
}
