//! Which addresses may be written: relative, plain, and different from each other on every file system.
//!
//! In: addresses, one by one. Out: nothing, or an [`AddressFault`].
//! Never here: the disk. Rule: handbook, "The published folder".

use std::collections::BTreeMap;

/// Why an address may not be written.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum AddressFault {
    /// Nothing at all.
    #[error("it is empty")]
    Empty,
    /// A leading `/`, or an empty, `.` or `..` part.
    #[error("it does not lead straight down into the folder")]
    NotDown,
    /// Control characters, `\`, or one of `< > : " | ? *`, which not every file system takes.
    #[error("it holds the character {0:?}")]
    Character(char),
    /// A part that ends in a dot or a blank, or that some systems keep for devices.
    #[error("not every system can have a file named {0:?}")]
    Reserved(String),
    /// A part of more than 255 bytes.
    #[error("a part of it is longer than 255 bytes")]
    Long,
    /// The same but for case as one already there.
    #[error("it differs only in case from {0:?}")]
    Case(String),
    /// Already there, or a file where a folder is.
    #[error("it stands in the way of {0:?}")]
    Taken(String),
}

/// Device names of Windows, which no file may have, with or without an ending.
/// Source: Microsoft, "Naming Files, Paths, and Namespaces".
const RESERVED: [&str; 22] = [
    "con", "prn", "aux", "nul", "com1", "com2", "com3", "com4", "com5", "com6", "com7", "com8", "com9", "lpt1", "lpt2",
    "lpt3", "lpt4", "lpt5", "lpt6", "lpt7", "lpt8", "lpt9",
];

/// The addresses taken so far.
#[derive(Clone, Debug, Default)]
pub struct Addresses {
    /// By lower case: as written, and whether it is a file.
    taken: BTreeMap<String, (String, bool)>,
}

impl Addresses {
    /// Takes one more address.
    ///
    /// # Errors
    /// The first fault found; the address is then not taken.
    pub fn take(&mut self, address: &str) -> Result<(), AddressFault> {
        check(address)?;
        let ends: Vec<usize> = address.match_indices('/').map(|(at, _)| at).chain([address.len()]).collect();
        for &end in &ends {
            let (part, is_file) = (&address[..end], end == address.len());
            match self.taken.get(&part.to_lowercase()) {
                Some((known, _)) if known != part => return Err(AddressFault::Case(known.clone())),
                Some((known, known_file)) if *known_file || is_file => return Err(AddressFault::Taken(known.clone())),
                _ => {}
            }
        }
        for &end in &ends {
            let part = &address[..end];
            self.taken.insert(part.to_lowercase(), (part.to_owned(), end == address.len()));
        }
        Ok(())
    }

    /// Gives one address back; the folders on the way to it stay taken.
    pub fn free(&mut self, address: &str) {
        self.taken.remove(&address.to_lowercase());
    }
}

fn check(address: &str) -> Result<(), AddressFault> {
    if address.is_empty() {
        return Err(AddressFault::Empty);
    }
    if let Some(bad) = address.chars().find(|c| c.is_control() || "\\<>:\"|?*".contains(*c)) {
        return Err(AddressFault::Character(bad));
    }
    for part in address.split('/') {
        if matches!(part, "" | "." | "..") {
            return Err(AddressFault::NotDown);
        }
        if part.len() > 255 {
            return Err(AddressFault::Long);
        }
        let stem = part.split('.').next().unwrap_or(part).to_lowercase();
        if part.ends_with(['.', ' ']) || RESERVED.contains(&stem.as_str()) {
            return Err(AddressFault::Reserved(part.to_owned()));
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_addresses_that_lead_down_are_taken() {
        for (address, fault) in [
            ("", AddressFault::Empty),
            ("/etc/passwd", AddressFault::NotDown),
            ("../x", AddressFault::NotDown),
            ("a/../../x", AddressFault::NotDown),
            ("a//b", AddressFault::NotDown),
            ("a/./b", AddressFault::NotDown),
            ("a/", AddressFault::NotDown),
            ("a\\b", AddressFault::Character('\\')),
            ("C:/x", AddressFault::Character(':')),
            ("a\0b", AddressFault::Character('\0')),
            ("a/NUL.txt", AddressFault::Reserved("NUL.txt".into())),
            ("a./b", AddressFault::Reserved("a.".into())),
        ] {
            assert_eq!(Addresses::default().take(address), Err(fault), "{address:?}");
        }
        assert_eq!(Addresses::default().take(&"x".repeat(256)), Err(AddressFault::Long));
        assert_eq!(Addresses::default().take("designs/fähre/index.html"), Ok(()));
    }

    #[test]
    fn names_that_differ_in_case_only_are_refused() {
        let mut all = Addresses::default();
        assert_eq!(all.take("designs/ferry/a.html"), Ok(()));
        assert_eq!(all.take("designs/ferry/b.html"), Ok(()));
        assert_eq!(all.take("designs/Ferry/c.html"), Err(AddressFault::Case("designs/ferry".into())));
        assert_eq!(all.take("designs/ferry/A.html"), Err(AddressFault::Case("designs/ferry/a.html".into())));
        assert_eq!(all.take("designs/ferry/a.html"), Err(AddressFault::Taken("designs/ferry/a.html".into())));
        assert_eq!(all.take("designs/ferry"), Err(AddressFault::Taken("designs/ferry".into())));
        assert_eq!(all.take("designs/ferry/a.html/x"), Err(AddressFault::Taken("designs/ferry/a.html".into())));
    }
}
