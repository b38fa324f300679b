//! An owner's Markdown to HTML that cannot leave its element: CommonMark with tables.
//!
//! In: Markdown, and the level of its highest headings. Out: HTML. Raw HTML is shown as text, a picture is its alternative text,
//! a link leads to http, https, mailto, tel or a relative address, or is plain text.
//! Never here: a sanitizer, since nothing unsafe is made. Rule: handbook, "The shop folder".

use pulldown_cmark::{CodeBlockKind, CowStr, Event, HeadingLevel, Options, Parser, Tag, TagEnd, html};

/// What becomes of a link's address: the address to write, or `None` for no link.
pub type Follow<'a> = &'a dyn Fn(&str) -> Option<String>;

/// HTML of `markdown`, its highest headings at level `top` and the others below them. `follow` sees only addresses that
/// [`allowed`] lets through.
pub fn to_html(markdown: &str, top: usize, follow: Follow<'_>) -> String {
    let mut out = String::new();
    html::push_html(&mut out, tamed(markdown, top, follow).into_iter());
    out
}

/// The first heading as plain text, and the Markdown without it.
pub fn title_and_rest(markdown: &str) -> (Option<String>, String) {
    let mut title = String::new();
    let mut inside = false;
    for (event, range) in Parser::new_ext(markdown, options()).into_offset_iter() {
        match event {
            Event::Start(Tag::Heading { .. }) => inside = true,
            Event::End(TagEnd::Heading(_)) => {
                let (before, after) = (markdown.get(..range.start), markdown.get(range.end..));
                return (Some(title), format!("{}{}", before.unwrap_or_default(), after.unwrap_or_default()));
            }
            Event::InlineHtml(text) if text.starts_with("<!--") => {}
            Event::Text(text) | Event::Code(text) | Event::InlineHtml(text) if inside => title.push_str(&text),
            Event::SoftBreak | Event::HardBreak if inside => title.push(' '),
            _ => {}
        }
    }
    (None, markdown.to_owned())
}

/// Whether a link may lead there: http, https, mailto, tel, or no scheme and no other host; none with control characters.
pub fn allowed(address: &str) -> bool {
    if address.chars().any(char::is_control) {
        return false;
    }
    // Browsers drop blanks around an address before they look for its scheme.
    let plain: String = address.chars().filter(|c| !c.is_whitespace()).collect();
    if plain.starts_with("//") || plain.contains('\\') {
        return false;
    }
    match plain.find([':', '/', '?', '#']) {
        Some(at) if plain[at..].starts_with(':') => {
            ["http", "https", "mailto", "tel"].iter().any(|scheme| plain[..at].eq_ignore_ascii_case(scheme))
        }
        _ => true,
    }
}

fn options() -> Options {
    Options::ENABLE_TABLES | Options::ENABLE_STRIKETHROUGH
}

fn tamed<'a>(markdown: &'a str, top: usize, follow: Follow<'_>) -> Vec<Event<'a>> {
    let levels = Parser::new_ext(markdown, options()).filter_map(|event| match event {
        Event::Start(Tag::Heading { level, .. }) => Some(level as usize),
        _ => None,
    });
    let highest = levels.min().unwrap_or(1);
    let moved =
        |level: HeadingLevel| HeadingLevel::try_from(level as usize - highest + top).unwrap_or(HeadingLevel::H6);
    let (mut links, mut out, mut block) = (Vec::new(), Vec::new(), String::new());
    for event in Parser::new_ext(markdown, options()) {
        match event {
            Event::InlineHtml(text) if text.starts_with("<!--") => {}
            Event::InlineHtml(text) => out.push(Event::Text(text)),
            Event::Start(Tag::HtmlBlock) => block.clear(),
            Event::Html(text) => block.push_str(&text),
            Event::End(TagEnd::HtmlBlock) => {
                let shown = without_comments(&block);
                if !shown.trim().is_empty() {
                    out.push(Event::Start(Tag::Paragraph));
                    out.push(Event::Text(CowStr::from(shown)));
                    out.push(Event::End(TagEnd::Paragraph));
                }
            }
            Event::Start(Tag::Image { .. }) | Event::End(TagEnd::Image) => {}
            Event::Start(Tag::Link { link_type, dest_url, title, id }) => {
                let to = if allowed(&dest_url) { follow(&dest_url) } else { None };
                links.push(to.is_some());
                if let Some(to) = to {
                    out.push(Event::Start(Tag::Link { link_type, dest_url: CowStr::from(to), title, id }));
                }
            }
            Event::End(TagEnd::Link) => {
                if links.pop() == Some(true) {
                    out.push(Event::End(TagEnd::Link));
                }
            }
            Event::Start(Tag::Heading { level, .. }) => {
                let level = moved(level);
                out.push(Event::Start(Tag::Heading { level, id: None, classes: Vec::new(), attrs: Vec::new() }));
            }
            Event::End(TagEnd::Heading(level)) => out.push(Event::End(TagEnd::Heading(moved(level)))),
            // Alignment would be written as an inline style, which the pages' Content-Security-Policy forbids.
            Event::Start(Tag::Table(columns)) => {
                out.push(Event::Start(Tag::Table(vec![pulldown_cmark::Alignment::None; columns.len()])));
            }
            Event::Start(Tag::CodeBlock(_)) => out.push(Event::Start(Tag::CodeBlock(CodeBlockKind::Indented))),
            other => out.push(other),
        }
    }
    out
}

/// An HTML block without its comments: what an owner wrote for nobody is private. CommonMark 0.31, 4.6: one that is not closed goes on to
/// the end.
fn without_comments(block: &str) -> String {
    let (mut shown, mut rest) = (String::new(), block);
    while let Some(start) = rest.find("<!--") {
        shown.push_str(&rest[..start]);
        // `<!-->` is a whole comment: its end may begin with the signs it starts with.
        rest = rest[start + 2..].split_once("-->").map_or("", |(_, after)| after);
    }
    shown + rest
}

#[cfg(test)]
mod tests {
    use super::*;

    fn html(markdown: &str) -> String {
        to_html(markdown, 2, &|to| Some(to.to_owned()))
    }

    #[test]
    fn raw_html_is_shown_as_text() {
        for hostile in
            ["<script>alert(1)</script>", "a <img src=x onerror=alert(1)> b", "<div>\nx\n</div>", "<svg/onload=x>"]
        {
            let made = html(hostile);
            assert!(made.contains("&lt;") && !made.contains("<s") && !made.contains("<img"), "{made}");
        }
    }

    /// Handbook, "Privacy": comments are for nobody but the owner.
    #[test]
    fn a_comment_is_not_shown() {
        assert_eq!(html("a <!-- secret --> b"), "<p>a  b</p>\n");
        assert_eq!(html("<!-- secret\n\nof two lines -->\n\nb"), "<p>b</p>\n");
        assert_eq!(html("<!--> b"), "<p> b</p>\n");
        assert_eq!(html("<div><!-- secret --> b"), "<p>&lt;div&gt; b</p>\n");
        assert_eq!(html("<!-- secret, never closed"), "");
        assert!(html("`<!-- code -->`").contains("&lt;!-- code --&gt;"), "as code it is shown");
        assert_eq!(title_and_rest("# a<!-- secret -->\n").0.as_deref(), Some("a"));
    }

    /// OWASP, Cross Site Scripting Prevention Cheat Sheet: schemes that run code, hidden by case, blanks and entities.
    #[test]
    fn links_that_run_code_are_plain_text() {
        for to in [
            "javascript:alert(1)",
            "JaVaScRiPt:alert(1)",
            "java&#x09;script:alert(1)",
            "&#106;avascript:alert(1)",
            "%20javascript:alert(1)",
            "data:text/html,x",
            "vbscript:x",
            "file:///etc/passwd",
            "//elsewhere.example",
            "\\\\\\\\elsewhere.example",
        ] {
            let made = html(&format!("[x]({to})"));
            assert!(!made.contains("<a ") || made.contains("href=\"%20javascript"), "{to}: {made}");
        }
        assert!(html("<javascript:alert(1)>").contains("<p>"), "an autolink too");
        assert!(!html("<javascript:alert(1)>").contains("<a "));
    }

    #[test]
    fn good_links_stay() {
        for to in [
            "https://example.org/a?b=c#d",
            "mailto:a@example.org",
            "tel:+4912345",
            "../care/index.html",
            "#top",
            "a:b/c",
        ] {
            assert_eq!(html(&format!("[x]({to})")).contains("<a "), to != "a:b/c", "{to}");
        }
    }

    #[test]
    fn a_picture_is_its_alternative_text() {
        assert_eq!(html("![the *slate* table](https://example.org/t.png)"), "<p>the <em>slate</em> table</p>\n");
    }

    #[test]
    fn the_first_heading_is_the_title() {
        let (title, rest) = title_and_rest("Before.\n\n# The `loft` & river\n\n## Next\n");
        assert_eq!(title.as_deref(), Some("The loft & river"));
        assert_eq!(html(&rest), "<p>Before.</p>\n<h2>Next</h2>\n");
        assert_eq!(title_and_rest("Only words.").0, None);
    }

    #[test]
    fn the_highest_heading_stands_below_the_pages_own() {
        assert_eq!(html("# a\n\n### b"), "<h2>a</h2>\n<h4>b</h4>\n");
        assert_eq!(html("### a\n\n#### b"), "<h2>a</h2>\n<h3>b</h3>\n");
    }

    #[test]
    fn tables_carry_no_inline_style() {
        let made = html("|a|b|\n|:-|-:|\n|1|2|\n");
        assert!(made.contains("<table>") && !made.contains("style"), "{made}");
    }
}
