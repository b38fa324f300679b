//! Colours as CSS writes them.

use std::str::FromStr;

use crate::shape::Rgb;

/// What was read is no opaque colour.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotAColour {
    /// Not a colour of CSS.
    #[error("`{text}` is not a colour")]
    Unknown {
        /// As written.
        text: String,
    },
    /// A colour that lets something through.
    #[error("`{text}` is not opaque")]
    SeeThrough {
        /// As written.
        text: String,
    },
}

/// An opaque sRGB colour from `#rgb`, `#rrggbb`, a CSS name, `rgb(…)` or `hsl(…)`. Source: CSS Color 3.
///
/// # Errors
/// [`NotAColour`]; see its variants.
pub fn colour(written: &str) -> Result<Rgb, NotAColour> {
    let text = written.trim();
    let read = svgtypes::Color::from_str(text).map_err(|_| NotAColour::Unknown { text: text.into() })?;
    if read.alpha < 255 {
        return Err(NotAColour::SeeThrough { text: text.into() });
    }
    Ok(Rgb::new(read.red, read.green, read.blue))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// CSS Color 3, sections 4.2 and 4.3: hexadecimal digits double, `tomato` is 255, 99, 71.
    #[test]
    fn spellings_of_colours() {
        for text in ["#345", "#334455", "rgb(51,68,85)", "rgb(51, 68, 85)", "rgb(20%, 26.6667%, 33.3333%)", " #345 "] {
            assert_eq!(colour(text), Ok(Rgb::new(51, 68, 85)), "{text}");
        }
        assert_eq!(colour("Tomato"), Ok(Rgb::new(255, 99, 71)));
        assert_eq!(colour("#f2c14e").map(|c| c.to_string()), Ok("#f2c14e".into()));
    }

    #[test]
    fn what_is_no_colour_says_why() {
        for text in ["", "#", "#12", "#12345g", "dawn", "none", "currentColor", "url(#a)", "#345 #345"] {
            assert_eq!(colour(text), Err(NotAColour::Unknown { text: text.into() }));
        }
        for text in ["#3456", "transparent", "rgba(1, 2, 3, 0.5)"] {
            assert_eq!(colour(text), Err(NotAColour::SeeThrough { text: text.into() }));
        }
    }
}
