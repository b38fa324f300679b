//! An owner's Markdown, whatever it is: HTML of known elements alone, whose addresses lead nowhere that runs code.

use kerfleaf::catalogue::markdown;

/// What Markdown and those who misuse it are made of.
pub const WORDS: &[&str] = &[
    "# ",
    "\n\n",
    "- ",
    "1. ",
    "> ",
    "```",
    "~~~",
    "`",
    "*",
    "**",
    "_",
    "~~",
    "|",
    "|-|",
    "[x](",
    "![",
    "](",
    ")",
    "<",
    ">",
    "\"",
    "'",
    "&",
    "&#x3c;",
    "\\",
    "<script>",
    "</script>",
    "<!--",
    "-->",
    "<![CDATA[",
    "]]>",
    "<a href=\"",
    "<img src=x onerror=x>",
    "javascript:",
    "data:text/html,",
    "//host",
    "https://example.org",
    "mailto:a@example.org",
    "[1]: ",
    "\u{0}",
    "\u{202e}",
    "\t",
    "    ",
    "<x@example.org>",
    "<javascript:x>",
];

/// Elements that Markdown makes, and their attributes.
const KNOWN: &[(&str, &[&str])] = &[
    ("p", &[]),
    ("em", &[]),
    ("strong", &[]),
    ("del", &[]),
    ("code", &[]),
    ("pre", &[]),
    ("ul", &[]),
    ("ol", &["start"]),
    ("li", &[]),
    ("blockquote", &[]),
    ("h1", &[]),
    ("h2", &[]),
    ("h3", &[]),
    ("h4", &[]),
    ("h5", &[]),
    ("h6", &[]),
    ("hr", &[]),
    ("br", &[]),
    ("table", &[]),
    ("thead", &[]),
    ("tbody", &[]),
    ("tr", &[]),
    ("th", &[]),
    ("td", &[]),
    ("a", &["href", "title"]),
];

/// As a page and as its title.
pub fn holds(data: &[u8]) {
    let Ok(text) = std::str::from_utf8(data) else { return };
    let (_, rest) = markdown::title_and_rest(text);
    for text in [text, &rest] {
        let html = markdown::to_html(text, 2, &|to| Some(to.to_owned()));
        let mut open = Vec::new();
        for piece in html.split('<').skip(1) {
            let (tag, _) = piece.split_once('>').unwrap_or_else(|| panic!("a tag without an end: {piece:?}"));
            if let Some(name) = tag.strip_prefix('/') {
                assert_eq!(open.pop(), Some(name.trim().to_owned()), "{html}");
                continue;
            }
            let name = tag.split([' ', '/']).next().unwrap_or_default().to_owned();
            let Some((_, attributes)) = KNOWN.iter().find(|(known, _)| *known == name) else {
                panic!("<{tag}> in {html}")
            };
            let mut rest = tag[name.len()..].trim_end_matches('/').trim();
            while let Some((key, value)) = rest.split_once("=\"") {
                let (value, after) = value.split_once('"').unwrap_or_else(|| panic!("<{tag}>"));
                assert!(attributes.contains(&key.trim()), "<{tag}>");
                let value = value.replace("&amp;", "&");
                assert!(key.trim() != "href" || markdown::allowed(&value) || value.starts_with("mailto:"), "<{tag}>");
                rest = after.trim();
            }
            assert_eq!(rest, "", "<{tag}>");
            if !["hr", "br"].contains(&name.as_str()) {
                open.push(name);
            }
        }
        assert!(open.is_empty(), "{open:?} is left open: {html}");
    }
}
