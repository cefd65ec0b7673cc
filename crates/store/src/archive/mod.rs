//! The whole workroom as one file to carry: what is in it, how it is written, read and checked.
//!
//! A zip file with `manifest.json` (format and counts), `documents.json` (documents, journal, versions, settings, what is
//! known of the photos) and `photos/ID` with the bytes. Journal numbers are counted from 1 without gaps and keys are
//! sorted, so the same content gives the same bytes. Devices let in are no content.
//!
//! Everything in this module is pure; the database side is `sqlite::carry`.

mod check;
mod pack;
mod rename;
mod unpack;

use std::collections::BTreeMap;
use std::fmt;

use serde::{Deserialize, Serialize};
use serde_json::Value;

use crate::{Backup, Document, DocumentId, Entry, PhotoId, PhotoInfo, Version};

pub(crate) use pack::pack;
pub(crate) use rename::{Names, renumber};
pub(crate) use unpack::unpack;

/// What the manifest calls the format.
const FORMAT: &str = "slackwater workroom";
/// Its version. Raised when an older program could not read the file rightly.
const FORMAT_VERSION: u32 = 1;
const MANIFEST: &str = "manifest.json";
const DOCUMENTS: &str = "documents.json";
const PHOTOS: &str = "photos/";

/// Most bytes of an archive's content, unpacked. It is held in memory while it is checked.
const MAX_UNPACKED: u64 = 1 << 30;
/// Most bytes of `documents.json`.
const MAX_DOCUMENTS: u64 = 256 << 20;
/// Most bytes of `manifest.json`.
const MAX_MANIFEST: u64 = 64 << 10;
/// Most files in an archive.
const MAX_FILES: usize = 20_000;
/// Faults listed before the rest is left out.
const MAX_FAULTS: usize = 20;

/// What to do with what is here already.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ImportMode {
    /// It all goes, after a backup; settings as well. Devices let in stay.
    Replace,
    /// It stays, with its settings. Documents and photos of the archive whose id is taken get a new one, and every text
    /// value in a body, version or journal entry of the archive that is exactly such an id becomes the new one.
    Add,
}

/// What was taken in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Imported {
    /// Documents, also those in the bin.
    pub documents: usize,
    /// Journal entries.
    pub entries: usize,
    /// Versions.
    pub versions: usize,
    /// Photos.
    pub photos: usize,
    /// Documents that got a new id: the one in the archive, the one here.
    pub renamed: BTreeMap<DocumentId, DocumentId>,
    /// The backup made before, when everything was replaced.
    pub backup: Option<Backup>,
}

/// One thing wrong with an archive.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ArchiveFault {
    /// Which file or item.
    pub place: String,
    /// What is wrong, and what to do.
    pub what: String,
}

impl fmt::Display for ArchiveFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.place, self.what)
    }
}

impl ArchiveFault {
    pub(crate) fn new(place: impl Into<String>, what: impl Into<String>) -> Self {
        Self {
            place: place.into(),
            what: what.into(),
        }
    }
}

/// A setting, as carried.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Setting {
    pub(crate) name: String,
    pub(crate) value: Value,
}

/// What `documents.json` holds. Documents and photos by id, the journal by number, versions by suit and number.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Sheets {
    pub(crate) documents: Vec<Document>,
    pub(crate) journal: Vec<Entry>,
    pub(crate) versions: Vec<Version>,
    pub(crate) photos: Vec<PhotoInfo>,
    pub(crate) settings: Vec<Setting>,
}

/// All of an archive.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Content {
    pub(crate) sheets: Sheets,
    pub(crate) bytes: BTreeMap<PhotoId, Vec<u8>>,
}

#[derive(Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Counts {
    documents: usize,
    entries: usize,
    versions: usize,
    photos: usize,
    settings: usize,
}

impl Counts {
    fn of(sheets: &Sheets) -> Self {
        Self {
            documents: sheets.documents.len(),
            entries: sheets.journal.len(),
            versions: sheets.versions.len(),
            photos: sheets.photos.len(),
            settings: sheets.settings.len(),
        }
    }
}

/// The manifest of our version.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Manifest {
    format: String,
    version: u32,
    counts: Counts,
}
