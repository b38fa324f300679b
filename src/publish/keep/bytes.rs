//! Numbers and texts as bytes, each text behind its length, the whole behind its hash.

/// Reads what [`text`] and [`sealed`] wrote; `None` as soon as anything is amiss.
pub struct Reader<'a>(&'a [u8]);

impl<'a> Reader<'a> {
    /// The content of a sealed file of this kind; `None` where it was written by another version, damaged or edited.
    pub fn unsealed(kind: &str, whole: &'a [u8]) -> Option<Reader<'a>> {
        let (seal, body) = whole.split_at_checked(32)?;
        (hash_of(kind, body).as_bytes() == seal).then_some(Reader(body))
    }

    pub fn array<const N: usize>(&mut self) -> Option<[u8; N]> {
        let (first, rest) = self.0.split_first_chunk::<N>()?;
        self.0 = rest;
        Some(*first)
    }

    pub fn u64(&mut self) -> Option<u64> {
        Some(u64::from_le_bytes(self.array()?))
    }

    pub fn hash(&mut self) -> Option<blake3::Hash> {
        Some(blake3::Hash::from_bytes(self.array()?))
    }

    pub fn bytes(&mut self) -> Option<&'a [u8]> {
        let length = usize::try_from(self.u64()?).ok()?;
        let (text, rest) = self.0.split_at_checked(length)?;
        self.0 = rest;
        Some(text)
    }

    pub fn text(&mut self) -> Option<&'a str> {
        std::str::from_utf8(self.bytes()?).ok()
    }

    /// Whether all has been read.
    pub fn is_done(&self) -> bool {
        self.0.is_empty()
    }
}

/// Appends bytes behind their length.
pub fn put(to: &mut Vec<u8>, bytes: &[u8]) {
    to.extend((bytes.len() as u64).to_le_bytes());
    to.extend(bytes);
}

/// The content of a file of this kind behind its hash.
pub fn sealed(kind: &str, body: &[u8]) -> Vec<u8> {
    let mut whole = hash_of(kind, body).as_bytes().to_vec();
    whole.extend(body);
    whole
}

fn hash_of(kind: &str, body: &[u8]) -> blake3::Hash {
    blake3::Hasher::new_derive_key(kind).update(body).finalize()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_sealed_is_read_and_nothing_else() {
        let mut body = Vec::new();
        put(&mut body, "Fähre".as_bytes());
        body.extend(7u64.to_le_bytes());
        let whole = sealed("kerfleaf test 1", &body);
        let mut reader = Reader::unsealed("kerfleaf test 1", &whole).expect("whole");
        assert_eq!((reader.text(), reader.u64(), reader.is_done()), (Some("Fähre"), Some(7), true));
        assert_eq!(reader.u64(), None);
        assert!(Reader::unsealed("kerfleaf test 2", &whole).is_none(), "another version's");
        for at in 0..whole.len() {
            let mut edited = whole.clone();
            edited[at] ^= 1;
            assert!(Reader::unsealed("kerfleaf test 1", &edited).is_none(), "byte {at}");
            assert!(Reader::unsealed("kerfleaf test 1", &whole[..at]).is_none(), "cut at {at}");
        }
    }
}
