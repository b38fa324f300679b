//! The world that typst sees: a handful of virtual files and the fonts that come with it; no disk, no packages, no clock.
//!
//! In: files by virtual path, one of them the main template. Out: PDF bytes, tagged, PDF/UA-1 (and PDF/A-2a where the record gives a date).
//! The same paths serve every guide, because typst keeps a number for each path it has ever seen.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::layout::Abs;
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook, FontInstance, FontVariations};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World, WorldExt};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

use super::{Sheet, SheetError};

/// Fonts and library, made once.
struct Kit {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
}

fn kit() -> &'static Kit {
    static KIT: LazyLock<Kit> = LazyLock::new(|| {
        let fonts: Vec<Font> = typst_assets::fonts().flat_map(|data| Font::iter(Bytes::new(data))).collect();
        Kit { library: LazyHash::new(Library::default()), book: LazyHash::new(FontBook::from_fonts(&fonts)), fonts }
    });
    &KIT
}

/// Whether some font of the sheets' families has a glyph for `character`.
pub fn has_glyph(character: char) -> bool {
    let families = ["Libertinus Serif", "New Computer Modern", "DejaVu Sans Mono"];
    kit()
        .fonts
        .iter()
        .filter(|f| families.contains(&f.info().family.as_str()))
        .any(|f| f.info().coverage.contains(character as u32))
}

/// Lets go of what typst keeps for the next document.
pub fn forget() {
    comemo::evict(0);
}

/// One document to be made.
pub struct Job {
    main: FileId,
    sources: BTreeMap<String, Source>,
    files: BTreeMap<String, Bytes>,
}

impl Job {
    /// Files by virtual path (`/sheets/painting.typ`); `main` is one of them.
    ///
    /// # Errors
    /// A template that is not UTF-8, or a path that cannot be one.
    pub fn new(main: &str, files: BTreeMap<String, Vec<u8>>) -> Result<Job, SheetError> {
        let mut job = Job { main: id(main)?, sources: BTreeMap::new(), files: BTreeMap::new() };
        for (path, bytes) in files {
            if path.ends_with(".typ") {
                let text = String::from_utf8(bytes).map_err(|_| SheetError::Template {
                    file: path.clone(),
                    line: None,
                    message: "not UTF-8".to_owned(),
                })?;
                job.sources.insert(path.clone(), Source::new(id(&path)?, text));
            } else {
                job.files.insert(path, Bytes::new(bytes));
            }
        }
        Ok(job)
    }

    /// Lays the document out and writes it. `ident` names the document and never changes for the same one;
    /// with `archival` it also keeps to PDF/A-2a, which asks the template to set a date.
    ///
    /// # Errors
    /// What typst or the standard found wrong, with file and line where they are known.
    pub fn pdf(&self, ident: &str, archival: bool) -> Result<Sheet, SheetError> {
        let document: PagedDocument = typst::compile(self).output.map_err(|e| self.error(&e))?;
        let standards = if archival { &[PdfStandard::Ua_1, PdfStandard::A_2a][..] } else { &[PdfStandard::Ua_1] };
        let standards = PdfStandards::new(standards).map_err(|e| SheetError::Template {
            file: String::new(),
            line: None,
            message: e.message().to_string(),
        })?;
        let options = PdfOptions {
            ident: Smart::Custom(ident.to_owned()),
            creator: Smart::Custom(Some("kerfleaf".to_owned())),
            timestamp: None,
            standards,
            ..PdfOptions::default()
        };
        let bytes = typst_pdf::pdf(&document, &options).map_err(|e| self.error(&e))?;
        Ok(Sheet { bytes, pages: document.pages().len() })
    }

    fn error(&self, found: &[SourceDiagnostic]) -> SheetError {
        let Some(first) = found.first() else {
            return SheetError::Template { file: String::new(), line: None, message: "unknown".to_owned() };
        };
        let file = first.span.id().map(|i| i.vpath().get_with_slash().to_owned()).unwrap_or_default();
        let line = self.range(first.span).and_then(|range| {
            let text = self.sources.get(&file)?.text();
            Some(text.get(..range.start)?.matches('\n').count() + 1)
        });
        let mut message = first.message.to_string();
        for hint in &first.hints {
            message.push_str("; ");
            message.push_str(&hint.v);
        }
        SheetError::Template { file, line, message }
    }
}

impl World for Job {
    fn library(&self) -> &LazyHash<Library> {
        &kit().library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &kit().book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        let path = id.vpath().get_with_slash();
        in_project(id)?;
        self.sources.get(path).cloned().ok_or_else(|| FileError::NotFound(path.into()))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let path = id.vpath().get_with_slash();
        in_project(id)?;
        if let Some(source) = self.sources.get(path) {
            return Ok(Bytes::from_string(source.clone()));
        }
        self.files.get(path).cloned().ok_or_else(|| FileError::NotFound(path.into()))
    }

    fn font(&self, index: usize) -> Option<Font> {
        kit().fonts.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}

/// Refuses packages: nothing is ever fetched.
fn in_project(id: FileId) -> FileResult<()> {
    match id.root() {
        VirtualRoot::Project => Ok(()),
        VirtualRoot::Package(_) => Err(FileError::AccessDenied),
    }
}

fn id(path: &str) -> Result<FileId, SheetError> {
    let virtual_path = VirtualPath::new(path).map_err(|_| SheetError::Template {
        file: path.to_owned(),
        line: None,
        message: "no path that a template can have".to_owned(),
    })?;
    Ok(RootedPath::new(VirtualRoot::Project, virtual_path).intern())
}

/// Advance and height of the font's digits, in ems: the widest of the ten, and the tallest.
pub fn digit_em() -> (f64, f64) {
    static DIGIT: LazyLock<(f64, f64)> = LazyLock::new(|| {
        let regular = kit().fonts.iter().find(|f| f.info().family == "Libertinus Serif");
        let instance =
            regular.map(|f| f.clone().instantiate(f.info().variant, Abs::pt(10.0), &FontVariations::default()));
        let Some(face) = instance.as_ref().map(FontInstance::ttf) else { return (0.5, 0.7) };
        let em = f64::from(face.units_per_em());
        let glyphs: Vec<_> = ('0'..='9').filter_map(|c| face.glyph_index(c)).collect();
        let width = glyphs.iter().filter_map(|g| face.glyph_hor_advance(*g)).max().unwrap_or(500);
        let height = glyphs.iter().filter_map(|g| Some(face.glyph_bounding_box(*g)?.y_max)).max().unwrap_or(700);
        (f64::from(width) / em, f64::from(height) / em)
    });
    *DIGIT
}

/// Height of the font's lowest capital letter, in ems: where a rule asks for a height of type, it means that of capitals.
pub fn capital_em() -> f64 {
    static CAPITAL: LazyLock<f64> = LazyLock::new(|| {
        let regular = kit().fonts.iter().find(|f| f.info().family == "Libertinus Serif");
        let instance =
            regular.map(|f| f.clone().instantiate(f.info().variant, Abs::pt(10.0), &FontVariations::default()));
        let Some(face) = instance.as_ref().map(FontInstance::ttf) else { return 0.64 };
        let glyphs = ('A'..='Z').filter_map(|c| face.glyph_index(c));
        let lowest = glyphs.filter_map(|g| face.glyph_bounding_box(g).map(|b| b.y_max)).min().unwrap_or(640);
        f64::from(lowest) / f64::from(face.units_per_em())
    });
    *CAPITAL
}
