//! `fill` and `stroke`: from their spelling to one plain colour, if they come to one.
//!
//! Rule: SVG 2, section 13.2, and CSS Color 4. Opacity is not looked at, but for a colour that is clear altogether.

use super::style::Cascade;
use super::tree::{Element, Tree};
use crate::shape::Rgb;
use std::str::FromStr;

/// A paint as it is inherited.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Paint<'a> {
    None,
    Colour(Rgb),
    /// `currentColor`: that of the element which uses it.
    Current,
    /// A gradient or pattern, and what stands in where there is none of that id.
    Server {
        id: &'a str,
        instead: Option<Rgb>,
    },
    /// The fill of the `use` around.
    ContextFill,
    /// The stroke of the `use` around.
    ContextStroke,
}

/// What a paint comes to on one element.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Used<'a> {
    None,
    Plain(Rgb),
    /// A gradient or pattern of this id.
    Mixed(&'a str),
}

impl Used<'_> {
    /// The plain colour, if it is one.
    pub(super) fn plain(self) -> Option<Rgb> {
        match self {
            Used::Plain(colour) => Some(colour),
            _ => None,
        }
    }
}

/// A value that could be read.
pub(super) struct Specified<'a>(pub Paint<'a>);

/// Reads a paint; `None` for what is no paint and so leaves weaker values in force.
pub(super) fn read(text: &str) -> Option<Specified<'_>> {
    // SVG 1.1 lets a colour for printers follow the one for screens.
    let text = text.split("icc-color(").next().unwrap_or(text).trim();
    let paint = match text.to_ascii_lowercase().as_str() {
        "none" | "transparent" => Paint::None,
        "currentcolor" => Paint::Current,
        "context-fill" => Paint::ContextFill,
        "context-stroke" => Paint::ContextStroke,
        _ if text.starts_with("url(") => {
            let (link, rest) = text["url(".len()..].split_once(')')?;
            let id = link.trim().trim_matches(['"', '\'']).strip_prefix('#').unwrap_or("");
            let instead = svgtypes::Color::from_str(rest.trim()).ok().map(|c| Rgb::new(c.red, c.green, c.blue));
            Paint::Server { id, instead }
        }
        _ => match svgtypes::Color::from_str(text).ok()? {
            colour if colour.alpha == 0 => Paint::None,
            colour => Paint::Colour(Rgb::new(colour.red, colour.green, colour.blue)),
        },
    };
    Some(Specified(paint))
}

/// What `paint` comes to where `current` is the element's `color` and `context` are fill and stroke of the `use` around.
pub(super) fn used<'a>(tree: &Tree<'a>, paint: Paint<'a>, current: Rgb, context: (Used<'a>, Used<'a>)) -> Used<'a> {
    match paint {
        Paint::None => Used::None,
        Paint::Colour(colour) => Used::Plain(colour),
        Paint::Current => Used::Plain(current),
        Paint::ContextFill => context.0,
        Paint::ContextStroke => context.1,
        Paint::Server { id, instead } => match (tree.by_id(id).filter(|e| is_server(*e)), instead) {
            (Some(server), _) => one_colour(tree, server).map_or(Used::Mixed(id), Used::Plain),
            (None, Some(colour)) => Used::Plain(colour),
            (None, None) => Used::None,
        },
    }
}

fn is_server(element: Element) -> bool {
    matches!(element.tag_name().name(), "linearGradient" | "radialGradient" | "pattern")
}

/// The colour of a gradient all of whose stops have the same: a common way to keep a swatch.
fn one_colour<'a>(tree: &Tree<'a>, gradient: Element<'a>) -> Option<Rgb> {
    let mut holder = gradient;
    // Templates chain; the bound also ends loops.
    for _ in 0..16 {
        if holder.tag_name().name() == "pattern" {
            return None;
        }
        let mut stops = holder.children().filter(|n| n.tag_name().name() == "stop").peekable();
        if stops.peek().is_some() {
            let first = stop_colour(tree, stops.next()?)?;
            return stops.all(|s| stop_colour(tree, s) == Some(first)).then_some(first);
        }
        holder = tree.href(holder)?.strip_prefix('#').and_then(|id| tree.by_id(id))?;
    }
    None
}

fn stop_colour<'a>(tree: &Tree<'a>, stop: Element<'a>) -> Option<Rgb> {
    let own = Cascade::of(tree, stop);
    match own.value("stop-color") {
        None => Some(Rgb::new(0, 0, 0)),
        Some((_, text)) => match read(text)?.0 {
            Paint::Colour(colour) => Some(colour),
            _ => None,
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(text: &str) -> Option<Rgb> {
        match read(text)?.0 {
            Paint::Colour(colour) => Some(colour),
            _ => None,
        }
    }

    /// CSS Color 4, section 6.1: forestgreen is #228B22; sections 5.1 and 7 for the other spellings.
    #[test]
    fn one_colour_has_many_spellings() {
        let forest = Some(Rgb::new(0x22, 0x8b, 0x22));
        for text in [
            "forestgreen",
            "ForestGreen",
            "#228B22",
            "#228b22ff",
            "rgb(34,139,34)",
            "rgb(34 139 34)",
            "rgba(34, 139, 34, 1)",
            "rgb(13.3%, 54.5%, 13.3%)",
            " #228b22 icc-color(press, 1, 2)",
        ] {
            assert_eq!(plain(text), forest, "{text}");
        }
        assert_eq!(plain("#345"), plain("#334455"));
        assert_eq!(plain("hsl(120, 100%, 50%)"), Some(Rgb::new(0, 255, 0)));
        assert_eq!(plain("#228b22"), forest);
    }

    #[test]
    fn what_is_no_plain_colour_is_told_apart() {
        assert_eq!(read("none").unwrap().0, Paint::None);
        assert_eq!(read("rgba(1,2,3,0)").unwrap().0, Paint::None);
        assert_eq!(read("currentColor").unwrap().0, Paint::Current);
        assert_eq!(read("url('#g') red").unwrap().0, Paint::Server { id: "g", instead: Some(Rgb::new(255, 0, 0)) });
        assert!(read("reddish").is_none() && read("#12345").is_none() && read("").is_none());
    }
}
