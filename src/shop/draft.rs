//! A record for a new drawing: a draft in which every guess is marked, so that none is taken for the maker's word.
//!
//! In: what could be guessed. Out: the text of record.toml. Never here: the guessing (`propose`), the disk.

use std::fmt::Write;

use super::{Design, Shop};
use crate::drawing::{Layer, Layers, Selector};
use crate::shape::Rgb;

/// Stands behind every guess.
pub const GUESS: &str = "# GUESS:";

/// What a draft says.
#[derive(Clone)]
pub struct Draft<'a> {
    /// Title.
    pub title: &'a str,
    /// Where it comes from, for people: `the file's name`.
    pub title_from: &'a str,
    /// Name of the drawing that was taken in.
    pub source: &'a str,
    /// Board of most designs of the shop.
    pub board: UsualBoard,
    /// Layers with their selectors.
    pub layers: &'a Layers,
    /// Why each layer was guessed so; the maker's own word where it was not.
    pub because: &'a dyn Fn(Layer) -> Option<String>,
    /// Names and colours, in the order of their numbers.
    pub paints: &'a [(String, Rgb)],
    /// Three letters.
    pub currency: &'a str,
}

/// A board as most designs of a shop have it.
#[derive(Clone, Debug, PartialEq)]
pub struct UsualBoard {
    /// Id of the wood.
    pub wood: String,
    /// As text with its unit.
    pub thickness: String,
    /// As text with its unit.
    pub kerf: String,
    /// For people.
    pub from: &'static str,
}

/// The board that most designs have, the first of equals; birch plywood of 6 mm in a shop without designs.
pub fn usual_board(shop: &Shop) -> UsualBoard {
    let key = |design: &Design| {
        let board = &design.board;
        (board.wood.id.clone(), format!("{} mm", board.thickness_mm), format!("{} mm", board.kerf_mm))
    };
    let mut counts: Vec<((String, String, String), usize)> = Vec::new();
    for board in shop.entries.iter().filter_map(|entry| entry.design.as_ref()).map(key) {
        match counts.iter_mut().find(|(known, _)| *known == board) {
            Some((_, count)) => *count += 1,
            None => counts.push((board, 1)),
        }
    }
    match counts.into_iter().reduce(|a, b| if b.1 > a.1 { b } else { a }) {
        Some(((wood, thickness, kerf), _)) => UsualBoard { wood, thickness, kerf, from: "as in most of your designs" },
        None => UsualBoard {
            wood: "birch-plywood".into(),
            thickness: "6 mm".into(),
            kerf: "0.2 mm".into(),
            from: "a common board",
        },
    }
}

/// The text of record.toml.
pub fn draft(draft: &Draft) -> String {
    let mut out = format!(
        "# Made by `kerfleaf add` from {}. Every line with GUESS was worked out, not known: look at it, put it right, and\n\
         # take the mark away. Nothing of a draft is ever published.\n\n",
        one_line(draft.source)
    );
    let mut line = |text: String, note: String| {
        let pad = " ".repeat(36_usize.saturating_sub(text.chars().count()));
        let _ = if note.is_empty() { writeln!(out, "{text}") } else { writeln!(out, "{text}{pad}  {note}") };
    };
    line(format!("title    = {}", quoted(draft.title)), format!("{GUESS} {}", draft.title_from));
    line("status   = \"draft\"".into(), "# \"published\" once all is right".into());
    line("# summary  = \"One sentence about it.\"".into(), String::new());
    line("# subjects = [\"river\"]".into(), "# the words it is listed under".into());
    line(String::new(), String::new());
    line("[board]".into(), String::new());
    let board = &draft.board;
    line(format!("wood      = {}", quoted(&board.wood)), format!("{GUESS} {}", board.from));
    line(format!("thickness = {}", quoted(&board.thickness)), format!("{GUESS} {}", board.from));
    line(format!("kerf      = {}", quoted(&board.kerf)), format!("{GUESS} {}; measure yours on a scrap", board.from));
    line(String::new(), String::new());
    line("[drawing.layers]".into(), String::new());
    for (layer, selectors) in &draft.layers.0 {
        let note = (draft.because)(*layer).map(|because| format!("{GUESS} {}", one_line(&because)));
        line(format!("{:<7} = {}", layer.name(), written(selectors)), note.unwrap_or_default());
    }
    for (number, (name, colour)) in draft.paints.iter().enumerate() {
        line(String::new(), String::new());
        line("[[paint]]".into(), String::new());
        line(format!("number = {}", number + 1), String::new());
        line(format!("name   = {}", quoted(name)), format!("{GUESS} by its colour"));
        line(format!("colour = \"{colour}\""), String::new());
    }
    let example = format!(
        "\n# How it is sold: take the # away and put in your own price, in {}. One [[offer]] for each form.\n\
         # [[offer]]\n# form  = {}\n# price = \"0.00\"\n# stock = 1{}# without this line: made to order\n",
        draft.currency,
        if draft.paints.is_empty() {
            "\"plain\"                         # or \"painted\", or \"blank\" (a kit)"
        } else {
            "\"painted\"                       # or \"plain\" (oiled), or \"blank\" (a kit)"
        },
        " ".repeat(29),
    );
    out.push_str(&example);
    out
}

/// Text as a TOML string.
fn quoted(text: &str) -> String {
    toml_edit::Value::from(one_line(text)).to_string().trim().to_owned()
}

fn one_line(text: &str) -> String {
    text.split_whitespace()
        .map(|word| word.chars().filter(|c| !c.is_control()).collect::<String>())
        .collect::<Vec<_>>()
        .join(" ")
}

fn written(selectors: &[Selector]) -> String {
    let one = |selector: &Selector| match selector {
        Selector::Name(name) => toml_edit::Value::from(name.as_str()).to_string().trim().to_owned(),
        Selector::All { id, label, class, stroke, fill } => {
            let words = [("id", id), ("label", label), ("class", class)];
            let words = words.into_iter().filter_map(|(key, v)| {
                Some(format!("{key} = {}", toml_edit::Value::from(v.as_deref()?).to_string().trim()))
            });
            let colours = [("stroke", stroke), ("fill", fill)];
            let colours = colours.into_iter().filter_map(|(key, v)| Some(format!("{key} = \"{}\"", v.as_ref()?)));
            format!("{{ {} }}", words.chain(colours).collect::<Vec<_>>().join(", "))
        }
    };
    match selectors {
        [single] => one(single),
        several => format!("[{}]", several.iter().map(one).collect::<Vec<_>>().join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn any_words_make_a_record_that_can_be_read() {
        let layers = Layers(vec![
            (
                Layer::Cut,
                vec![
                    Selector::Name("it \"is\" \\ cut".into()),
                    Selector::All {
                        id: None,
                        label: None,
                        class: Some("a".into()),
                        stroke: Some(Rgb::new(1, 2, 3)),
                        fill: None,
                    },
                ],
            ),
            (Layer::Colour, vec![Selector::Name("ü".into())]),
        ]);
        let paints = [("Reed \"1\"".to_owned(), Rgb::new(9, 8, 7))];
        let board = UsualBoard { wood: "mdf".into(), thickness: "3 mm".into(), kerf: "0.1 mm".into(), from: "x" };
        let because = |layer| (layer == Layer::Cut).then(|| "it\nbounds # the board".to_owned());
        let text = draft(&Draft {
            title: "a\nb = \"c\"",
            title_from: "its title",
            source: "x\n[y].svg",
            board,
            layers: &layers,
            because: &because,
            paints: &paints,
            currency: "EUR",
        });
        let root = tempfile::tempdir().unwrap();
        let at = |name: &str| root.path().join(name);
        std::fs::create_dir_all(at("designs/heron")).unwrap();
        std::fs::write(at("shop.toml"), "name = \"Osk\"\ncurrency = \"EUR\"\norder = \"tel:1\"\n").unwrap();
        std::fs::write(at("designs/heron/record.toml"), &text).unwrap();
        std::fs::write(at("designs/heron/drawing.svg"), "<svg/>").unwrap();
        let shop = crate::shop::read(root.path()).unwrap();
        assert_eq!(shop.entries[0].mistakes, [], "{text}");
        let design = shop.entries[0].design.as_ref().unwrap();
        assert_eq!((design.title.as_str(), design.paints[0].name.as_str()), ("a b = \"c\"", "Reed \"1\""));
        assert_eq!(design.drawing.layers, layers);
        // The offer shown is sound as well, once its # is taken away.
        let offered = text.split("\n# [[offer]]").nth(1).unwrap().replace("\n# ", "\n");
        std::fs::write(at("designs/heron/record.toml"), format!("{text}\n[[offer]]{offered}")).unwrap();
        let shop = crate::shop::read(root.path()).unwrap();
        assert_eq!(shop.entries[0].mistakes, []);
        assert_eq!(shop.entries[0].design.as_ref().unwrap().offers[0].stock, Some(1));
    }
}
