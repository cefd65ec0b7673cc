//! The booklet as PDF, set by the typesetter: the document goes in as data, never as markup, with our fonts and nothing else.
//!
//! PDF/UA-1 checking is on: the writer refuses a document without language, title, alternatives for drawings or a heading
//! order. There is no date and no machine in the file, so the same document gives the same bytes.
//!
//! **Shapes and units.** Page sizes in mm. The typesetter's types end in this file.
//! **Limits.** A fault here is a fault of ours: a booklet that composes must set.

use std::fmt;

use serde::Serialize;
use sheet::Paper;
use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

use crate::model::Booklet;

const TEMPLATE: &str = include_str!("template.typ");
const MAIN: &str = "/main.typ";
const DATA: &str = "/booklet.json";

/// Why there is no PDF. Each is a fault of this program; please report it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// The document could not be set, or the PDF checks refused it.
    Typesetter {
        /// What the typesetter said, one a line.
        says: String,
    },
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Fault::Typesetter { says } = self;
        write!(
            f,
            "the booklet could not be set: {says}; please report it with the suit file"
        )
    }
}

impl std::error::Error for Fault {}

fn fault(says: impl fmt::Display) -> Fault {
    Fault::Typesetter {
        says: says.to_string(),
    }
}

/// The document with the page it is set on.
#[derive(Serialize)]
struct Data<'a> {
    #[serde(flatten)]
    booklet: &'a Booklet,
    page: Page,
}

#[derive(Serialize)]
struct Page {
    width: f64,
    height: f64,
}

/// The booklet as a PDF on that paper, PDF/UA-1, and how many pages it has.
///
/// # Errors
/// A [`Fault`] when the typesetter or its PDF checks refuse the document; always a fault of ours.
pub fn pdf(booklet: &Booklet, paper: Paper) -> Result<(Vec<u8>, usize), Fault> {
    let (width, height) = paper.size_mm();
    let data = serde_json::to_vec(&Data {
        booklet,
        page: Page { width, height },
    })
    .map_err(fault)?;
    let press = Press::new(data)?;
    let warned = typst::compile::<PagedDocument>(&press);
    let told = |list: &[typst::diag::SourceDiagnostic]| {
        let lines: Vec<String> = list.iter().map(|d| d.message.to_string()).collect();
        fault(lines.join("; "))
    };
    let document = warned.output.map_err(|list| told(&list))?;
    let standards = PdfStandards::new(&[PdfStandard::Ua_1]).map_err(|e| fault(e.message()))?;
    let options = PdfOptions {
        ident: Smart::Custom(format!("{} {}", booklet.running, booklet.language)),
        creator: Smart::Custom(Some("Slackwater".to_owned())),
        standards,
        ..PdfOptions::default()
    };
    let bytes = typst_pdf::pdf(&document, &options).map_err(|list| told(&list))?;
    // Nothing of this document is worth keeping for the next one.
    typst::comemo::evict(0);
    Ok((bytes, document.pages().len()))
}

/// All the typesetter ever sees: the template, the data, the fonts.
struct Press {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
    main: Source,
    data_id: FileId,
    data: Bytes,
}

fn id(path: &str) -> Result<FileId, Fault> {
    let path = VirtualPath::new(path).map_err(|e| fault(format!("{e:?}")))?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

impl Press {
    fn new(data: Vec<u8>) -> Result<Press, Fault> {
        let files = [
            sheet::fonts::BESLEY_500,
            sheet::fonts::BESLEY_600,
            sheet::fonts::LIBRE_FRANKLIN_400,
            sheet::fonts::LIBRE_FRANKLIN_600,
            sheet::fonts::NOTO_SANS_400,
            sheet::fonts::NOTO_SANS_600,
        ];
        let fonts: Vec<Font> = files
            .into_iter()
            .flat_map(|f| Font::iter(Bytes::new(f)))
            .collect();
        Ok(Press {
            library: LazyHash::new(Library::default()),
            book: LazyHash::new(FontBook::from_fonts(&fonts)),
            fonts,
            main: Source::new(id(MAIN)?, TEMPLATE.to_owned()),
            data_id: id(DATA)?,
            data: Bytes::new(data),
        })
    }
}

impl World for Press {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.book
    }

    fn main(&self) -> FileId {
        self.main.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.main.id() {
            Ok(self.main.clone())
        } else {
            Err(FileError::AccessDenied)
        }
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        if id == self.data_id {
            Ok(self.data.clone())
        } else {
            Err(FileError::AccessDenied)
        }
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.fonts.get(index).cloned()
    }

    /// There is no today: a date would make two files of one suit.
    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}
