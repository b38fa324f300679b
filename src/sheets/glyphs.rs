//! Words against fonts: a character that no font has is found before typst sees it, and named.

use serde_json::Value;

use super::SheetError;
use super::world::has_glyph;

/// Looks through every text of a sheet's data. Keys that hold file names or options of the layout are no text.
///
/// # Errors
/// [`SheetError::NoGlyph`] for the first character that cannot be printed.
pub fn check(data: &Value) -> Result<(), SheetError> {
    look(data, "")
}

fn look(value: &Value, what: &str) -> Result<(), SheetError> {
    match value {
        Value::String(text) => match text.chars().find(|c| !printable(*c)) {
            Some(character) => Err(SheetError::NoGlyph { what: what.to_owned(), text: text.clone(), character }),
            None => Ok(()),
        },
        Value::Array(items) => {
            items.iter().enumerate().try_for_each(|(index, item)| look(item, &format!("{what} {}", index + 1)))
        }
        // A title cut short for the foot holds nothing that the title does not.
        Value::Object(fields) => fields.iter().filter(|(key, _)| *key != "short_title").try_for_each(|(key, item)| {
            let place = if what.is_empty() { key.clone() } else { format!("{what}, {key}") };
            look(item, &place)
        }),
        _ => Ok(()),
    }
}

/// Marks that have no glyph of their own (Unicode, Default_Ignorable_Code_Point, those that occur in text) pass;
/// private-use characters do not, since nobody can say what they mean.
fn printable(c: char) -> bool {
    match c {
        '\u{ad}'
        | '\u{200b}'..='\u{200f}'
        | '\u{202a}'..='\u{202e}'
        | '\u{2060}'..='\u{2064}'
        | '\u{fe00}'..='\u{fe0f}' => true,
        '\u{e000}'..='\u{f8ff}' | '\u{f0000}'..='\u{10ffff}' => false,
        _ => has_glyph(c),
    }
}

/// Text on one line without control characters: breaks and tabs become spaces.
pub fn one_line(text: &str) -> String {
    let spaced: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn a_character_without_a_glyph_is_named_with_its_place() {
        let data = json!({ "title": "Fähre", "palette": [{ "name": "Nebel" }, { "name": "霧" }] });
        let error = check(&data).expect_err("no Chinese in the fonts");
        let expected =
            SheetError::NoGlyph { what: "palette 2, name".to_owned(), text: "霧".to_owned(), character: '霧' };
        assert_eq!(error, expected);
    }

    #[test]
    fn latin_greek_cyrillic_and_hebrew_can_be_printed() {
        for text in ["Žluťoučký kůň, Ærø, “½” — £ €", "Πλοίο", "Паром", "מעבורת", "300 × 200 mm²"]
        {
            assert_eq!(check(&json!({ "title": text })), Ok(()), "{text}");
        }
    }
}
