//! The SVG as a tree: its XML, its style rules, its ids, and the places of things in the file.
//!
//! Never here: what an element means, or any file but the text given. Entities of a document type are read, external ones never.

use super::error::{Bad, DrawingError, Fault, Place};
use roxmltree::{Document, Node, ParsingOptions};
use simplecss::StyleSheet;
use std::collections::BTreeMap;

/// Elements, comments and stretches of text that are read at most.
const MOST_NODES: u32 = 5_000_000;
/// Bytes to which entities may unfold at most.
const MOST_ENTITY_BYTES: usize = 256 << 20;
/// Bytes of all style sheets together.
const MOST_STYLE_BYTES: usize = 1 << 20;
const SVG: &str = "http://www.w3.org/2000/svg";
pub(super) const XLINK: &str = "http://www.w3.org/1999/xlink";

pub(super) type Element<'a> = Node<'a, 'a>;

/// A drawing that has been read as XML, ready to be walked.
pub(super) struct Tree<'a> {
    pub root: Element<'a>,
    pub rules: StyleSheet<'a>,
    ids: BTreeMap<&'a str, Element<'a>>,
}

/// Reads the XML.
pub(super) fn parse(svg: &str) -> Result<Document<'_>, DrawingError> {
    let entities = entity_bytes(svg);
    if entities > MOST_ENTITY_BYTES {
        return Err(DrawingError::TooMuch {
            what: "bytes once its entities are written out",
            limit: MOST_ENTITY_BYTES,
        });
    }
    let options = ParsingOptions { allow_dtd: true, nodes_limit: MOST_NODES, ..ParsingOptions::default() };
    Document::parse_with_options(svg, options).map_err(|error| match error {
        roxmltree::Error::NodesLimitReached => DrawingError::TooMuch { what: "XML nodes", limit: MOST_NODES as usize },
        _ => {
            let at = error.pos();
            let place = match error {
                roxmltree::Error::UnexpectedEndOfStream => end_of(svg),
                _ => Place { line: at.row as usize, column: at.col as usize },
            };
            let message = error.to_string();
            // The parser ends its sentence with the place, which stands at the front already.
            let message = message.rsplit_once(" at ").map_or(message.as_str(), |(what, _)| what).to_owned();
            DrawingError::NotXml { place, message }
        }
    })
}

/// Where a text ends.
fn end_of(text: &str) -> Place {
    let last = text.rfind('\n').map_or(text, |newline| &text[newline + 1..]);
    Place { line: text.matches('\n').count() + 1, column: last.chars().count() + 1 }
}

/// The most that entities could unfold to, a loose bound: each reference at most the whole document type, and
/// 255 times that where entities hold entities (the XML reader refuses more).
fn entity_bytes(svg: &str) -> usize {
    let Some(start) = svg.find("<!DOCTYPE") else { return 0 };
    let Some(last) = svg.rfind("<!ENTITY") else { return 0 };
    let declared = svg.get(start..last).map_or(0, str::len) + svg[last..].find('>').unwrap_or(0);
    let within = svg.get(start..start + declared).unwrap_or("");
    let nested = if within.contains('&') { 255 } else { 1 };
    let references = svg.bytes().filter(|b| *b == b'&').count();
    declared.saturating_mul(nested).saturating_mul(references)
}

/// All style sheets of the document, in order.
pub(super) fn style_text(doc: &Document) -> String {
    let mut all = String::new();
    for style in doc.descendants().filter(|n| n.is_element() && n.tag_name().name() == "style") {
        let css =
            style.attribute("type").is_none_or(|t| t.trim().is_empty() || t.trim().eq_ignore_ascii_case("text/css"));
        let media = style.attribute("media").unwrap_or("all").to_ascii_lowercase();
        if css && (media.trim().is_empty() || media.contains("all") || media.contains("screen")) {
            for text in style.children().filter_map(|n| n.text().filter(|_| n.is_text())) {
                // The old way of hiding rules from readers that know no CSS.
                all.push_str(&text.replace("<!--", "").replace("-->", ""));
            }
            all.push('\n');
        }
    }
    all
}

impl<'a> Tree<'a> {
    /// Takes the document and the text of its style sheets.
    pub(super) fn new(doc: &'a Document<'a>, styles: &'a str) -> Result<Tree<'a>, DrawingError> {
        if styles.len() > MOST_STYLE_BYTES {
            return Err(DrawingError::TooMuch { what: "bytes of style rules", limit: MOST_STYLE_BYTES });
        }
        let root = doc.root_element();
        let mut ids = BTreeMap::new();
        for element in root.descendants().filter(Element::is_element) {
            if let Some(id) = element.attribute("id") {
                ids.entry(id).or_insert(element);
            }
        }
        let tree = Tree { root, rules: StyleSheet::parse(styles), ids };
        if root.tag_name().name() != "svg" || !tree.is_svg(root) {
            return Err(DrawingError::NotSvg { place: tree.place(root), found: root.tag_name().name().to_owned() });
        }
        Ok(tree)
    }

    /// Whether an element is of SVG; drawings without any namespace are taken as SVG whole.
    pub(super) fn is_svg(&self, element: Element) -> bool {
        matches!(element.tag_name().namespace(), Some(SVG) | None)
    }

    /// The element of an id; the first one where an id is there twice.
    pub(super) fn by_id(&self, id: &str) -> Option<Element<'a>> {
        self.ids.get(id).copied()
    }

    /// Where an element starts.
    pub(super) fn place(&self, element: Element) -> Place {
        self.place_of_byte(element.range().start)
    }

    fn place_of_byte(&self, byte: usize) -> Place {
        let at = self.root.document().text_pos_at(byte);
        Place { line: at.row as usize, column: at.col as usize }
    }

    /// The element as a maker would find it again: `<path id="rope">`.
    pub(super) fn name(&self, element: Element) -> String {
        let tag = element.tag_name().name();
        match element.attribute("id") {
            Some(id) => format!("<{tag} id=\"{id}\">"),
            None => format!("<{tag}>"),
        }
    }

    /// A fault of one attribute or property, with its place in the file.
    pub(super) fn fault(&self, element: Element, attribute: &str, bad: Bad) -> Box<Fault> {
        // Within the attribute's value, if that is where the text came from and nothing in it was escaped.
        let written = element
            .attribute_node(attribute)
            .filter(|a| element.attribute("style").is_none() && a.range_value().len() == a.value().len());
        let place = match written {
            Some(attribute) => {
                self.place_of_byte(attribute.range_value().start + bad.byte.min(attribute.value().len()))
            }
            None => self.place(element),
        };
        Box::new(Fault {
            place,
            element: self.name(element),
            attribute: attribute.to_owned(),
            byte: bad.byte,
            reason: bad.reason,
        })
    }

    /// What `href` or the older `xlink:href` says.
    pub(super) fn href(&self, element: Element<'a>) -> Option<&'a str> {
        element.attribute("href").or_else(|| element.attribute((XLINK, "href"))).map(str::trim)
    }
}
