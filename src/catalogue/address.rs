//! Addresses inside the published folder: relative links from page to page, and names that any host takes.
//!
//! In: addresses from the root of the folder, names that owners gave. Out: what stands in `href` and `src`.
//! Rule: handbook, "The published folder": every address inside is relative.

/// The link from one address of the folder to another, percent-encoded.
pub fn relative(from: &str, to: &str) -> String {
    let here: Vec<&str> = from.split('/').collect();
    let there: Vec<&str> = to.split('/').collect();
    let last = here.len().min(there.len()) - 1;
    let shared = (0..last).take_while(|&i| here.get(i) == there.get(i)).count();
    let up = here.len() - 1 - shared;
    let mut parts = vec!["..".to_owned(); up];
    parts.extend(there.iter().skip(shared).map(|part| encoded(part)));
    parts.join("/")
}

/// A path with every part percent-encoded, for addresses behind the shop's own web address.
pub fn path(address: &str) -> String {
    address.split('/').map(encoded).collect::<Vec<_>>().join("/")
}

/// Percent-encoded but for unreserved characters. RFC 3986, 2.3.
pub fn encoded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for byte in text.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
            out.push(char::from(byte));
        } else {
            out.push_str(&format!("%{byte:02X}"));
        }
    }
    out
}

/// A name as an ASCII slug: letters lose their marks, everything else becomes a hyphen; `other` where nothing is left.
pub fn slug(name: &str) -> String {
    let mut out = String::new();
    for c in name.chars().flat_map(char::to_lowercase) {
        match c {
            'a'..='z' | '0'..='9' => out.push(c),
            _ => match plain(c) {
                "" if out.ends_with('-') || out.is_empty() => {}
                "" => out.push('-'),
                letters => out.push_str(letters),
            },
        }
    }
    let out = out.trim_end_matches('-');
    if out.is_empty() { "other".to_owned() } else { out.to_owned() }
}

/// Latin letters without their marks; empty for anything else. After Unicode's decompositions (Latin-1, Latin Extended-A), German umlauts
/// and the ligatures as they are spelt out.
fn plain(c: char) -> &'static str {
    match c {
        'à' | 'á' | 'â' | 'ã' | 'ā' | 'ă' | 'ą' => "a",
        'ä' | 'æ' => "ae",
        'å' => "aa",
        'ç' | 'ć' | 'ĉ' | 'ċ' | 'č' => "c",
        'ď' | 'đ' | 'ð' => "d",
        'è' | 'é' | 'ê' | 'ë' | 'ē' | 'ĕ' | 'ė' | 'ę' | 'ě' => "e",
        'ĝ' | 'ğ' | 'ġ' | 'ģ' => "g",
        'ĥ' | 'ħ' => "h",
        'ì' | 'í' | 'î' | 'ï' | 'ĩ' | 'ī' | 'ĭ' | 'į' | 'ı' => "i",
        'ĵ' => "j",
        'ķ' => "k",
        'ĺ' | 'ļ' | 'ľ' | 'ŀ' | 'ł' => "l",
        'ñ' | 'ń' | 'ņ' | 'ň' => "n",
        'ò' | 'ó' | 'ô' | 'õ' | 'ō' | 'ŏ' | 'ő' => "o",
        'ö' | 'ø' | 'œ' => "oe",
        'ŕ' | 'ŗ' | 'ř' => "r",
        'ś' | 'ŝ' | 'ş' | 'š' => "s",
        'ß' => "ss",
        'ţ' | 'ť' | 'ŧ' => "t",
        'þ' => "th",
        'ù' | 'ú' | 'û' | 'ũ' | 'ū' | 'ŭ' | 'ů' | 'ű' | 'ų' => "u",
        'ü' => "ue",
        'ŵ' => "w",
        'ý' | 'ÿ' | 'ŷ' => "y",
        'ź' | 'ż' | 'ž' => "z",
        _ => "",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn links_are_relative() {
        assert_eq!(relative("index.html", "designs/a/index.html"), "designs/a/index.html");
        assert_eq!(relative("designs/a/index.html", "designs/b/index.html"), "../b/index.html");
        assert_eq!(relative("designs/a/index.html", "index.html"), "../../index.html");
        assert_eq!(relative("designs/a/index.html", "designs/a/picture.jpg"), "picture.jpg");
        assert_eq!(relative("de/index.html", "made/x.css"), "../made/x.css");
        assert_eq!(relative("a/a/index.html", "a/index.html"), "../index.html");
        assert_eq!(relative("index.html", "pages/über uns/index.html"), "pages/%C3%BCber%20uns/index.html");
    }

    #[test]
    fn subjects_become_slugs() {
        assert_eq!(slug("Boats & barges"), "boats-barges");
        assert_eq!(slug("Flüsse"), "fluesse");
        assert_eq!(slug("  Çà et là! "), "ca-et-la");
        assert_eq!(slug("潮"), "other");
        assert_eq!(slug("../etc"), "etc");
    }
}
