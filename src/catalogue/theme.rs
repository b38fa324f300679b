//! The theme: templates and the style sheet that come with the program, with the owner's files of the same name in front.
//!
//! In: the owner's files, words, the look. Out: pages set in HTML, the one style sheet, the script, the icon.
//! A template sees `frame` (what every page has) and `page` (its own), and `say(key="…")` for a line of wording; an unknown name is an
//! error. An owner's file may `{% extends "default/base.html" %}`.
//! Never here: text that is not escaped, but for Markdown made by `markdown` and data made by `structured`.
//! Rule: handbook, "The shop folder", `theme/`.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::Serialize;
use sha2::Digest;
use tera::{Context, Kwargs, State, Tera};

use super::contrast::{self, ACCENTS, TEXT_RATIO};
use super::{CatalogueError, Page, made};
use crate::shape::Rgb;
use crate::shop::settings::Look;
use crate::wording::{Value, Words};

/// Templates of the default theme.
const TEMPLATES: &[(&str, &str)] = &[
    ("base.html", include_str!("../../themes/default/base.html")),
    ("parts.html", include_str!("../../themes/default/parts.html")),
    ("list.html", include_str!("../../themes/default/list.html")),
    ("product.html", include_str!("../../themes/default/product.html")),
    ("page.html", include_str!("../../themes/default/page.html")),
    ("difficulty.html", include_str!("../../themes/default/difficulty.html")),
    ("care.html", include_str!("../../themes/default/care.html")),
    ("cautions.html", include_str!("../../themes/default/cautions.html")),
    ("missing.html", include_str!("../../themes/default/missing.html")),
    ("embed.html", include_str!("../../themes/default/embed.html")),
    ("found.html", include_str!("../../themes/default/found.html")),
];

const STYLE: &str = include_str!("../../themes/default/style.css");
/// The script, in the order that its parts need each other; an owner's `script.js` stands in for the whole.
const SCRIPT: &str = concat!(
    "(() => {\n\"use strict\";\n",
    include_str!("../../themes/default/script/tools.js"),
    include_str!("../../themes/default/script/search.js"),
    include_str!("../../themes/default/script/compare.js"),
    include_str!("../../themes/default/script/finder.js"),
    include_str!("../../themes/default/script/viewer.js"),
    "})();\n"
);
const ICON: &str = include_str!("../../themes/default/icon.svg");

/// Paper and ink by day, and by night.
const DAY: (Rgb, Rgb) = (Rgb::new(0xf5, 0xf0, 0xe6), Rgb::new(0x1c, 0x1a, 0x16));
const NIGHT: (Rgb, Rgb) = (Rgb::new(0x17, 0x16, 0x13), Rgb::new(0xea, 0xe4, 0xd8));

/// Templates with the words of one language.
pub struct Theme {
    tera: Tera,
}

impl Theme {
    /// The default templates with the owner's in front.
    ///
    /// # Errors
    /// [`CatalogueError::Theme`] for a template that cannot be understood, [`CatalogueError::NotText`] for one that is no UTF-8.
    pub fn new(own: &BTreeMap<String, Vec<u8>>, words: Arc<Words>) -> Result<Theme, CatalogueError> {
        let mut tera = Tera::new();
        tera.set_fallback_prefixes(["default/"])?;
        tera.register_function("say", move |args: Kwargs, _: &State| say(&words, &args));
        let mut all: Vec<(String, &str)> = Vec::new();
        for (name, text) in TEMPLATES {
            all.push((format!("default/{name}"), text));
            if let Some(bytes) = own.get(*name) {
                let text =
                    std::str::from_utf8(bytes).map_err(|_| CatalogueError::NotText { file: (*name).to_owned() })?;
                all.push(((*name).to_owned(), text));
            }
        }
        tera.add_raw_templates(all)?;
        Ok(Theme { tera })
    }

    /// One page.
    ///
    /// # Errors
    /// [`CatalogueError::Theme`] where a template asks for what there is not.
    pub fn set(
        &self,
        template: &str,
        frame: &impl Serialize,
        page: &impl Serialize,
    ) -> Result<Vec<u8>, CatalogueError> {
        let mut context = Context::new();
        context.insert("frame", frame);
        context.insert("page", page);
        // Control characters of an owner's words may stand in no HTML.
        Ok(super::card::clean(&self.tera.render(template, &context)?).into_bytes())
    }
}

fn say(words: &Words, args: &Kwargs) -> tera::TeraResult<String> {
    let key: String = args.must_get("key")?;
    let mut values = Vec::new();
    for (name, value) in args.iter() {
        let Some(name) = name.as_str().filter(|name| *name != "key") else { continue };
        let value = match (value.as_str(), value.as_f64()) {
            (Some(text), _) => Value::from(text.to_owned()),
            (None, Some(number)) => Value::from(number),
            _ => continue,
        };
        values.push((name, value));
    }
    words
        .find(&key, &values)
        .ok_or_else(|| tera::Error::message(format!("there is no line of wording `{key}` with these values")))
}

/// The one style sheet: the look's colours as custom properties, the ring of accents, then the theme's own rules.
pub struct Sheet {
    text: String,
}

impl Sheet {
    /// The style sheet of a shop.
    ///
    /// # Errors
    /// [`CatalogueError::NotText`] for an owner's style.css that is no UTF-8.
    pub fn new(own: &BTreeMap<String, Vec<u8>>, look: &Look) -> Result<Sheet, CatalogueError> {
        let rules = match own.get("style.css") {
            Some(bytes) => {
                std::str::from_utf8(bytes).map_err(|_| CatalogueError::NotText { file: "style.css".to_owned() })?
            }
            None => STYLE,
        };
        let day_ground = look.ground.unwrap_or(DAY.0);
        let day_ink = contrast::readable(look.ink.unwrap_or(DAY.1), day_ground, INK_RATIO);
        let mut text = String::new();
        text.push_str(&format!(":root{{{}}}\n", colours(day_ground, day_ink, look.accent)));
        text.push_str(&format!(
            "@media (prefers-color-scheme:dark){{:root{{{}}}}}\n",
            colours(NIGHT.0, NIGHT.1, look.accent)
        ));
        if look.accent.is_none() {
            let ring = |ground: Rgb| -> String {
                (0..ACCENTS).map(|i| format!(".a{i}{{--accent:{}}}", contrast::accent(i, ground))).collect()
            };
            text.push_str(&format!("{}\n@media (prefers-color-scheme:dark){{{}}}\n", ring(day_ground), ring(NIGHT.0)));
        }
        text.extend((0..contrast::TINTS).map(|i| format!(".g{i}{{background:{}}}", contrast::tint(i))));
        text.extend((NARROWEST..=WIDEST).map(|r| format!(".r{r}{{--shape:{}}}", f64::from(r) / 20.0)));
        text.push('\n');
        text.push_str(rules);
        // As a browser reads it inside a page: line ends are LF, and nothing may end the element.
        let text = super::card::clean(&text.replace("\r\n", "\n").replace('\r', "\n")).replace("</", "<\\/");
        Ok(Sheet { text })
    }

    /// The file that pages link to.
    pub fn page(&self) -> Page {
        made("style", "css", self.text.clone().into_bytes())
    }

    /// The sheet to stand in a style element, for a page that cannot know where the file lies.
    pub fn inline(&self) -> &str {
        &self.text
    }

    /// The policy of such a page: nothing is loaded, and no style but this one holds, no script but that one, which may ask the host where
    /// the catalogue lies. Content Security Policy Level 3, hash sources.
    pub fn policy(&self, script: Option<&str>) -> String {
        let hash = |text: &str| data_encoding::BASE64.encode(&sha2::Sha256::digest(text.as_bytes()));
        let script = script.map(|script| format!("script-src 'sha256-{}'; connect-src 'self'; ", hash(script)));
        let (style, script) = (hash(&self.text), script.unwrap_or_default());
        format!("default-src 'none'; style-src 'sha256-{style}'; {script}base-uri 'none'; form-action 'none'")
    }
}

/// Contrast wanted of running text, of a shop's own accent. WCAG 2.2, SC 1.4.6 and 1.4.3.
const INK_RATIO: f64 = 7.0;

/// What was wrong with the colours of `[look]`, one sentence each: colours that could not be read are shown darker or lighter than asked for.
pub fn look_notes(look: &Look) -> Vec<String> {
    let mut notes = Vec::new();
    let ground = look.ground.unwrap_or(DAY.0);
    let mut note = |what: &str, colour: Rgb, on: Rgb, wanted: f64| {
        let shown = contrast::readable(colour, on, wanted);
        if shown != colour {
            let ratio = contrast::ratio(colour, on);
            notes.push(format!(
                "[look] {what} {colour} has a contrast of {ratio:.2} on {on}, under {wanted}; pages show {shown} instead."
            ));
        }
    };
    if look.ground.is_some() || look.ink.is_some() {
        note("ink", look.ink.unwrap_or(DAY.1), ground, INK_RATIO);
    }
    if let Some(accent) = look.accent {
        note("accent", accent, ground, TEXT_RATIO);
        note("accent, on dark pages,", accent, NIGHT.0, TEXT_RATIO);
    }
    notes
}

/// Files that are the same for every page.
pub struct Fixed {
    /// The small picture of browser tabs.
    pub icon: Page,
    /// The script of lists and products; their pages are whole without it.
    pub script: Page,
}

impl Fixed {
    /// The owner's files, else the program's.
    pub fn new(own: &BTreeMap<String, Vec<u8>>) -> Fixed {
        let file = |name: &str, default: &str| own.get(name).cloned().unwrap_or_else(|| default.as_bytes().to_vec());
        Fixed {
            icon: made("icon", "svg", file("icon.svg", ICON)),
            script: made("script", "js", file("script.js", SCRIPT)),
        }
    }
}

fn colours(ground: Rgb, ink: Rgb, accent: Option<Rgb>) -> String {
    let muted = contrast::readable(contrast::mixed(ink, ground, 0.34), ground, TEXT_RATIO + 0.4);
    let rule = contrast::mixed(ground, ink, 0.17);
    // Borders of things that are worked with: WCAG 2.2, SC 1.4.11 asks for 3.
    let edge = contrast::readable(contrast::mixed(ground, ink, 0.4), ground, 3.0);
    let tint = contrast::mixed(ground, ink, 0.045);
    let first = contrast::mixed(ink, ground, 0.1);
    let accent = accent.map_or(first, |accent| contrast::readable(accent, ground, TEXT_RATIO));
    format!("--ground:{ground};--ink:{ink};--muted:{muted};--rule:{rule};--edge:{edge};--tint:{tint};--accent:{accent}")
}

/// A placeholder's class: the nearest of a few tints. The page's policy allows no inline style that would be exact, and it is only a hint.
pub fn placeholder_class(colour: Rgb) -> String {
    format!("g{}", contrast::nearest_tint(colour))
}

/// A class for the shape of a picture, width over height in twentieths: lists set pictures of a row to one height.
pub fn shape_class(width: u32, height: u32) -> String {
    let twentieths = libm::round(f64::from(width) * 20.0 / f64::from(height.max(1)));
    format!("r{:.0}", twentieths.clamp(f64::from(NARROWEST), f64::from(WIDEST)))
}

/// Shapes that have a class, in twentieths.
const NARROWEST: u32 = 10;
const WIDEST: u32 = 50;

#[cfg(test)]
mod tests {
    use super::*;

    fn look() -> Look {
        Look { ground: None, ink: None, accent: None, logo: None, show_cuts: true }
    }

    #[test]
    fn the_style_sheet_stays_small() {
        let page = Sheet::new(&BTreeMap::new(), &look()).expect("text").page();
        assert!(page.bytes.len() < 30_000, "{}", page.bytes.len());
        assert!(!String::from_utf8_lossy(&page.bytes).contains("url("), "it fetches nothing");
    }

    #[test]
    fn the_script_stays_small() {
        assert!(SCRIPT.len() < 20_000, "{}", SCRIPT.len());
    }

    #[test]
    fn a_style_inside_a_page_cannot_leave_it() {
        let own = BTreeMap::from([("style.css".to_owned(), b"a::after{content:\"</style><b>\"}\r\n".to_vec())]);
        let sheet = Sheet::new(&own, &look()).expect("text");
        assert!(!sheet.inline().contains("</") && !sheet.inline().contains('\r'));
        assert!(sheet.inline().ends_with("a::after{content:\"<\\/style><b>\"}\n"));
    }

    #[test]
    fn a_look_that_cannot_be_read_is_mended() {
        let grey = Rgb::new(0x80, 0x80, 0x80);
        let look = Look { ground: Some(grey), ink: Some(grey), accent: Some(grey), ..look() };
        let text = Sheet::new(&BTreeMap::new(), &look).expect("text").inline().to_owned();
        let root = text.lines().next().expect("a line");
        let value = |name: &str| {
            let (_, rest) = root.split_once(&format!("--{name}:#")).expect("there");
            let [_, r, g, b] = u32::from_str_radix(&rest[..6], 16).expect("hexadecimal").to_be_bytes();
            Rgb::new(r, g, b)
        };
        for name in ["ink", "muted", "accent"] {
            assert!(contrast::ratio(value(name), value("ground")) >= TEXT_RATIO, "{name}");
        }
    }

    #[test]
    fn a_look_that_is_mended_is_told() {
        assert_eq!(look_notes(&look()), Vec::<String>::new());
        // WCAG 2.2: white on #767676 is 4.54, on #777777 4.48; black on white is 21.
        let white = Some(Rgb::new(255, 255, 255));
        let black = Some(Rgb::new(0, 0, 0));
        let accent = |grey: u8| Look { ground: white, ink: black, accent: Some(Rgb::new(grey, grey, grey)), ..look() };
        assert!(!look_notes(&accent(0x76)).iter().any(|n| n.contains("on #ffffff")));
        let told = look_notes(&accent(0x77));
        assert!(
            told[0].starts_with("[look] accent #777777 has a contrast of 4.48 on #ffffff, under 4.5; pages show #"),
            "{told:?}"
        );
        let grey = Look { ground: white, ink: Some(Rgb::new(0x99, 0x99, 0x99)), ..look() };
        assert!(look_notes(&grey)[0].starts_with("[look] ink #999999 has a contrast of 2.85 on #ffffff, under 7"));
    }

    #[test]
    fn an_owners_file_stands_in_for_one_of_the_theme() {
        let words = Arc::new(Words::for_language("en"));
        let own = BTreeMap::from([("missing.html".to_owned(), b"{{ page.x }} {{ say(key='small-pieces') }}".to_vec())]);
        let theme = Theme::new(&own, words.clone()).expect("sound");
        let page = BTreeMap::from([("x", "<&>")]);
        let set = theme.set("missing.html", &(), &page).expect("set");
        assert_eq!(String::from_utf8_lossy(&set), "&lt;&amp;&gt; Small pieces: keep away from young children.");
        let broken = BTreeMap::from([("missing.html".to_owned(), b"{{ page.y }}".to_vec())]);
        let theme = Theme::new(&broken, words).expect("sound");
        assert!(
            matches!(theme.set("missing.html", &(), &page), Err(CatalogueError::Theme(_))),
            "an unknown name is an error"
        );
    }
}
