//! A photograph of the shop folder: known by its content, read when it is needed.
//!
//! A thousand designs with photographs have some gigabytes of them, so none is held: its hash stands for it, and whoever
//! shows it reads it then, checked against that hash.

use std::fs::File;
use std::io::{self, Read};
use std::path::PathBuf;

use blake3::{Hash, Hasher};

use super::folder::{Folder, MOST_PICTURE, Refused};

/// The content of a photograph.
#[derive(Clone, Debug)]
pub struct PhotoFile {
    /// BLAKE3 of its bytes.
    pub hash: Hash,
    path: PathBuf,
}

/// Wherever it lies, it is its bytes that count.
impl PartialEq for PhotoFile {
    fn eq(&self, other: &PhotoFile) -> bool {
        self.hash == other.hash
    }
}

impl PhotoFile {
    /// Looks through a file once; `None` where it is no JPEG, PNG or WebP.
    pub(super) fn read(folder: &Folder, path: &str) -> Result<Option<PhotoFile>, Refused> {
        let (mut file, path) = folder.file(path)?;
        let (mut hasher, mut size, mut first) = (Hasher::new(), 0, Vec::new());
        let mut part = vec![0; 1 << 16];
        loop {
            let read = file.read(&mut part).map_err(Refused::Unreadable)?;
            let bytes = part.get(..read).unwrap_or_default();
            if bytes.is_empty() {
                break;
            }
            size += bytes.len() as u64;
            if size > MOST_PICTURE {
                return Err(Refused::TooLarge(MOST_PICTURE));
            }
            let lacking = FIRST_BYTES.saturating_sub(first.len()).min(bytes.len());
            first.extend(bytes.iter().take(lacking));
            hasher.update(bytes);
        }
        Ok(is_photograph(&first).then(|| PhotoFile { hash: hasher.finalize(), path }))
    }

    /// Its bytes.
    ///
    /// # Errors
    /// A file that is gone, cannot be read, or has been changed since the record was read.
    pub fn bytes(&self) -> io::Result<Vec<u8>> {
        let mut bytes = Vec::new();
        File::open(&self.path)?.take(MOST_PICTURE + 1).read_to_end(&mut bytes)?;
        if blake3::hash(&bytes) != self.hash {
            return Err(io::Error::other("it has just been changed"));
        }
        Ok(bytes)
    }
}

/// So many bytes tell what a file is.
const FIRST_BYTES: usize = 12;

/// The kinds of picture that a photograph may be, told by their first bytes: JPEG (ITU-T T.81, markers SOI and the next),
/// PNG (W3C PNG, 5.2) and WebP (RFC 9649, 2.4).
fn is_photograph(first: &[u8]) -> bool {
    first.starts_with(b"\xff\xd8\xff")
        || first.starts_with(b"\x89PNG\r\n\x1a\n")
        || first.starts_with(b"RIFF") && first.get(8..12) == Some(b"WEBP")
}
