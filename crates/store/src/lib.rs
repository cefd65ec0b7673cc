//! The embedded store of the studio: JSON documents with a journal, undo, versions, photos, backups and archives.
//!
//! It knows nothing of suits and wearers; bodies are JSON objects, and a [`Kind`] only sorts them. [`Store`] says what
//! can be done, [`SqliteStore`] does it in one file. Start at [`SqliteStore::open`].
//!
//! Revisions are journal numbers. They grow over all documents together and are never used twice, so an edit that
//! starts from a revision this workroom never had is noticed, even after a backup was restored.

mod archive;
mod backup;
mod change;
mod document;
mod error;
mod event;
mod id;
mod journal;
mod limits;
mod path;
mod photo;
mod session;
mod sqlite;
mod store;
mod timestamp;

pub use archive::{ArchiveFault, ImportMode, Imported};
pub use backup::{Backup, BackupReason, KEPT_BACKUPS};
pub use change::Change;
pub use document::{
    Clash, Document, DocumentEdit, Edit, Edited, Erased, Kind, MAX_BODY, MAX_BODY_DEPTH, MAX_WORDS, Set,
    Version,
};
pub use error::{Cause, StoreError};
pub use event::{Event, Touched};
pub use id::{DocumentId, IdError, IdSource, PhotoId};
pub use journal::{CanGo, Entry, EntryKind, Gone, Part};
pub use path::{MAX_PATH_DEPTH, PathFault};
pub use photo::{MAX_PHOTO, Photo, PhotoInfo};
pub use session::Session;
pub use sqlite::{Options, SqliteStore};
pub use store::Store;
pub use timestamp::{Clock, Timestamp, TimestampError};
