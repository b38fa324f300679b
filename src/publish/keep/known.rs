//! What the last publication knew of each design, so that one whose folder has not changed need not be read, measured or looked up.
//!
//! In: values by their JSON, files by their hashes. Out: [`Known`], kept sealed in one file beside the record of the publication, which
//! names its seal: the two hold together or not at all.

use blake3::Hash;

use super::Keys;
use super::bytes::{Reader, put, sealed};
use super::last::{count, list};

const KIND: &str = "kerfleaf known designs 1";

/// One published design.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Known {
    /// Its folder.
    pub slug: String,
    /// Fingerprints of what was kept of it.
    pub keys: Keys,
    /// Stock codes of its offers.
    pub codes: Vec<String>,
    /// Addresses and hashes of its pictures and guides.
    pub files: Vec<(String, Hash)>,
    /// Its card and what is said of it, as JSON.
    pub value: Vec<u8>,
}

/// All of them as a sealed file; its first 32 bytes are the seal.
pub(super) fn to_bytes(all: &[Known]) -> Vec<u8> {
    let mut body = Vec::new();
    count(&mut body, all.len());
    for Known { slug, keys, codes, files, value } in all {
        put(&mut body, slug.as_bytes());
        body.extend(keys.all().iter().flat_map(|key| *key.as_bytes()));
        count(&mut body, codes.len());
        codes.iter().for_each(|code| put(&mut body, code.as_bytes()));
        count(&mut body, files.len());
        for (address, hash) in files {
            put(&mut body, address.as_bytes());
            body.extend(hash.as_bytes());
        }
        put(&mut body, value);
    }
    sealed(KIND, &body)
}

/// What a sealed file holds; nothing where its seal is another.
pub(super) fn of_bytes(whole: &[u8], seal: &Hash) -> Option<Vec<Known>> {
    let from = &mut Reader::unsealed(KIND, whole).filter(|_| whole.starts_with(seal.as_bytes()))?;
    let all = list(from, |from| {
        let slug = from.text()?.to_owned();
        let keys = Keys { pictures: from.hash()?, guides: from.hash()?, card: from.hash()? };
        let codes = list(from, |from| Some(from.text()?.to_owned()))?;
        let files = list(from, |from| Some((from.text()?.to_owned(), from.hash()?)))?;
        Some(Known { slug, keys, codes, files, value: from.bytes()?.to_vec() })
    })?;
    from.is_done().then_some(all)
}
