//! What must hold whatever bytes come in: one plain function a target, which panics where it does not.
//!
//! Used twice: by the fuzz targets beside this folder, and by `tests/fuzz_corpora.rs`, which runs them over the kept
//! corpora and over changes of them. A further target is a module here, a row of [`ALL`], a file in `targets`, a
//! `[[bin]]` in `Cargo.toml` and a folder in `corpus`.

pub mod arrangement;
pub mod markdown;
pub mod path_data;
pub mod photos;
pub mod records;
pub mod shops;
pub mod svg_documents;

/// One target.
pub struct Target {
    /// Its name, and that of its corpus.
    pub name: &'static str,
    /// What must hold.
    pub holds: fn(&[u8]),
    /// Words that its input is made of, for changes that get past the first letter.
    pub words: &'static [&'static str],
}

/// Every target.
pub const ALL: &[Target] = &[
    Target { name: "arrangement", holds: arrangement::holds, words: &[] },
    Target { name: "markdown", holds: markdown::holds, words: markdown::WORDS },
    Target { name: "path_data", holds: path_data::holds, words: path_data::WORDS },
    Target { name: "photos", holds: photos::holds, words: photos::WORDS },
    Target { name: "records", holds: records::holds, words: records::WORDS },
    Target { name: "shops", holds: shops::holds, words: shops::WORDS },
    Target { name: "svg_documents", holds: svg_documents::holds, words: svg_documents::WORDS },
];
