//! Reads numbers off a text, as attributes of SVG hold them.
//!
//! Rule: CSS Syntax 3, section 4.3.12: an `e` belongs to a number only where digits follow, so `1em` is 1 and a unit.

use super::error::{Bad, word_at};

/// A text and how far it has been read.
pub(super) struct Numbers<'a> {
    text: &'a str,
    /// Byte up to which it has been read.
    pub at: usize,
}

impl<'a> Numbers<'a> {
    /// At the start of `text`.
    pub(super) fn new(text: &'a str) -> Numbers<'a> {
        Numbers { text, at: 0 }
    }

    /// What has not been read yet.
    pub(super) fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or("")
    }

    /// Passes over white space.
    pub(super) fn skip_spaces(&mut self) {
        self.at += self.rest().bytes().take_while(u8::is_ascii_whitespace).count();
    }

    /// The next number.
    pub(super) fn number(&mut self) -> Result<f64, Bad> {
        self.skip_spaces();
        let bytes = self.rest().as_bytes();
        let digits = |from: usize| bytes[from.min(bytes.len())..].iter().take_while(|b| b.is_ascii_digit()).count();
        let sign = usize::from(matches!(bytes.first(), Some(b'+' | b'-')));
        let mut length = sign + digits(sign);
        if bytes.get(length) == Some(&b'.') {
            length += 1 + digits(length + 1);
        }
        if matches!(bytes.get(length), Some(b'e' | b'E')) {
            let sign = usize::from(matches!(bytes.get(length + 1), Some(b'+' | b'-')));
            let power = digits(length + 1 + sign);
            if power > 0 {
                length += 1 + sign + power;
            }
        }
        match self.rest()[..length].parse::<f64>() {
            Ok(number) if number.is_finite() => {
                self.at += length;
                Ok(number)
            }
            _ => Err(Bad::no_number(self.text, self.at)),
        }
    }

    /// The next number of a list, with the comma and spaces after it.
    pub(super) fn listed(&mut self) -> Result<f64, Bad> {
        let number = self.number()?;
        self.skip_spaces();
        if self.rest().starts_with(',') {
            self.at += 1;
            self.skip_spaces();
        }
        Ok(number)
    }
}

impl Bad {
    /// Something else, or nothing, where a number is due.
    pub(super) fn no_number(text: &str, byte: usize) -> Bad {
        match word_at(text, byte) {
            "" => Bad::new(byte, "it ends where a number is due"),
            word => Bad::new(byte, format!("`{word}` is not a number")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_end_where_they_end() {
        for (text, number, at) in [
            ("12 3", 12.0, 2),
            ("-.5.5", -0.5, 3),
            ("1e2em", 100.0, 3),
            ("1em", 1.0, 1),
            (" +3.mm", 3.0, 4),
            ("2E-1,", 0.2, 4),
        ] {
            let mut numbers = Numbers::new(text);
            assert_eq!((numbers.number(), numbers.at), (Ok(number), at), "{text}");
        }
        for text in ["", ".", "-", "e5", "1e999", "é", "inf", "NaN"] {
            assert!(Numbers::new(text).number().is_err(), "{text}");
        }
    }
}
