//! What can go wrong, with the words for the person: what, where, what to do.

use std::path::PathBuf;

use crate::document::{MAX_BODY, MAX_BODY_DEPTH, MAX_WORDS};
use crate::photo::MAX_PHOTO;
use crate::{ArchiveFault, Clash, DocumentId, IdError, Kind, PathFault, PhotoId, TimestampError};

/// A fault of the database engine or the file system, kept for the log.
pub type Cause = Box<dyn std::error::Error + Send + Sync>;

/// Everything a store may refuse or fail at. Nothing is half-written when one of these comes back.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum StoreError {
    /// Text from outside that can't be an id.
    #[error(transparent)]
    Id(#[from] IdError),
    /// Text that is no moment.
    #[error(transparent)]
    Timestamp(#[from] TimestampError),
    /// There is no such document, or it was erased.
    #[error("there is no document {0}: it may have been erased; go back to the list")]
    NotFound(DocumentId),
    /// There is no such photo.
    #[error("there is no photo {0}: it may have been removed; reload the page")]
    NoPhoto(PhotoId),
    /// The document lies in the bin and can't be edited there.
    #[error("document {0} is in the bin: restore it first")]
    InBin(DocumentId),
    /// A document was to be made under an id that is taken.
    #[error("document {0} exists already: choose another id")]
    Exists(DocumentId),
    /// Two people changed the same places.
    #[error("{} changed meanwhile: choose which value stays", places(.0))]
    Conflict(Vec<Clash>),
    /// The base of an edit is not a revision this document ever had here; a backup may have been restored.
    #[error("revision {base} of document {document} is not known here: reload the page and do it again")]
    StaleBase {
        /// The document.
        document: DocumentId,
        /// The revision that was asked for.
        base: u64,
    },
    /// There is nothing to take back.
    #[error("there is nothing to take back")]
    NothingBack,
    /// There is nothing to make again.
    #[error("there is nothing to make again")]
    NothingForward,
    /// An edit without parts, or with one document twice.
    #[error("an edit names each document once, and at least one: {0}")]
    BadEdit(String),
    /// A path that can't be set.
    #[error("path \"{path}\" of document {document} {fault}")]
    BadPath {
        /// The document.
        document: DocumentId,
        /// The path as it came.
        path: String,
        /// What is wrong with it.
        fault: PathFault,
    },
    /// A body that is not an object.
    #[error("the body of a {} must be an object", .0.key())]
    NotAnObject(Kind),
    /// A body above 256 kB of JSON.
    #[error(
        "the body would take {0} bytes, more than {MAX_BODY}: keep pictures as photos and shorten long lists"
    )]
    TooLarge(usize),
    /// A body nested deeper than 64 levels.
    #[error("the body is nested {0} levels deep, more than {MAX_BODY_DEPTH}: flatten it")]
    TooNested(usize),
    /// Words above 500 characters.
    #[error("the description has {0} characters, more than {MAX_WORDS}: shorten it")]
    TooManyWords(usize),
    /// A version under a number that is taken; versions never change.
    #[error("version {number} of suit {suit} is kept already and can't change: use the next number")]
    VersionExists {
        /// The suit.
        suit: DocumentId,
        /// The number.
        number: u32,
    },
    /// A photo above 12 MB.
    #[error("the photo has {0} bytes, more than {MAX_PHOTO}: make it smaller")]
    PhotoTooLarge(usize),
    /// A photo with no bytes, or a type not written like `image/jpeg`.
    #[error("this is not a photo: {0}")]
    BadPhoto(String),
    /// A setting's or session's name or value outside its limits.
    #[error("{what} {limit}")]
    BadSetting {
        /// Which field.
        what: &'static str,
        /// What it must be.
        limit: &'static str,
    },
    /// Another process has this workroom open.
    #[error("another slackwater has this workroom open: close it first, or use another folder ({})", folder.display())]
    InUse {
        /// The data folder.
        folder: PathBuf,
    },
    /// The database was written by a later version.
    #[error(
        "this workroom was written by a newer version of slackwater (layout {found}, this one knows {known}): \
         update slackwater; nothing was changed in {}", file.display()
    )]
    Newer {
        /// The database or backup file.
        file: PathBuf,
        /// Its layout.
        found: i64,
        /// The latest layout this program knows.
        known: i64,
    },
    /// The file is no database of ours, or is damaged.
    #[error(
        "this is not a workroom in order ({detail}): move the file aside, then restore the newest file of the folder \
         \"backups\" beside it; nothing was changed in {}", file.display()
    )]
    Damaged {
        /// The file.
        file: PathBuf,
        /// What was found.
        detail: String,
    },
    /// There is no such backup, or its name is not one of ours.
    #[error("there is no backup {0:?}: choose one from the list of backups")]
    NoBackup(String),
    /// An archive that can't be taken in.
    #[error("the archive was not taken in and nothing was changed: {}", faults(.0))]
    Archive(Vec<ArchiveFault>),
    /// The disk is full.
    #[error("the disk is full: free some space; nothing was changed")]
    DiskFull(#[source] Cause),
    /// Another reader kept the files busy; erased bytes may still lie in a file beside the database.
    #[error(
        "the document is erased, but its bytes could not be cleared from the files yet: erase it once more"
    )]
    NotCleared,
    /// The database engine failed.
    #[error("the store failed while it {doing}: try again; if it stays so, restore a backup")]
    Database {
        /// What was being done.
        doing: &'static str,
        /// The engine's words.
        #[source]
        source: Cause,
    },
    /// A file could not be read or written.
    #[error("{doing} failed for {}: check that the folder exists and may be written to", file.display())]
    File {
        /// What was being done.
        doing: &'static str,
        /// The file.
        file: PathBuf,
        /// The system's words.
        #[source]
        source: std::io::Error,
    },
    /// What is stored does not read as what was written.
    #[error("stored data of {what} can't be read: restore a backup")]
    Unreadable {
        /// Which row.
        what: String,
        /// The reader's words.
        #[source]
        source: Cause,
    },
}

fn places(clashes: &[Clash]) -> String {
    let mut names: Vec<&str> = clashes.iter().map(|clash| clash.path.as_str()).collect();
    names.dedup();
    names.join(", ")
}

fn faults(faults: &[ArchiveFault]) -> String {
    let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
    lines.join("; ")
}

/// SQLite's code for a full disk.
const SQLITE_FULL: &str = "13";

impl StoreError {
    /// Sorts a fault of the engine.
    pub(crate) fn database(doing: &'static str, source: sqlx::Error) -> Self {
        if let sqlx::Error::Database(fault) = &source
            && fault.code().as_deref() == Some(SQLITE_FULL)
        {
            return Self::DiskFull(Box::new(source));
        }
        Self::Database {
            doing,
            source: Box::new(source),
        }
    }

    pub(crate) fn file(doing: &'static str, file: &std::path::Path, source: std::io::Error) -> Self {
        if source.kind() == std::io::ErrorKind::StorageFull {
            return Self::DiskFull(Box::new(source));
        }
        Self::File {
            doing,
            file: file.to_owned(),
            source,
        }
    }

    pub(crate) fn unreadable(what: impl Into<String>, source: impl Into<Cause>) -> Self {
        Self::Unreadable {
            what: what.into(),
            source: source.into(),
        }
    }
}

/// Turns the engine's result into ours.
pub(crate) trait Doing<T> {
    /// `doing` completes "the store failed while it ...".
    fn doing(self, doing: &'static str) -> Result<T, StoreError>;
}

impl<T> Doing<T> for Result<T, sqlx::Error> {
    fn doing(self, doing: &'static str) -> Result<T, StoreError> {
        self.map_err(|source| StoreError::database(doing, source))
    }
}
