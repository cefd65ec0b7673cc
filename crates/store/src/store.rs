//! What a store of the studio can do, whichever database it lies in.
//!
//! The trait names no database. All times come from the clock and all random ids from the source the store was opened
//! with. Every method that writes does so in one transaction that goes on to its end even when the caller stops waiting;
//! what was acknowledged is on the disk.

use std::future::Future;

use serde_json::Value;
use tokio::sync::broadcast;

use crate::{
    Backup, BackupReason, CanGo, Document, DocumentId, Edit, Edited, Entry, Erased, Event, Gone, ImportMode,
    Imported, Kind, Photo, PhotoId, PhotoInfo, Session, StoreError, Timestamp, Version,
};

/// Shorthand: a future that may move between threads.
macro_rules! may {
    ($value:ty) => { impl Future<Output = Result<$value, StoreError>> + Send };
}

/// Documents, their journal, and what hangs on them.
///
/// # Errors
/// Every method answers with a [`StoreError`]; beside those named, each may fail with [`StoreError::Database`],
/// [`StoreError::Unreadable`] and, when writing, [`StoreError::DiskFull`]. After an error nothing has changed.
pub trait Store: Send + Sync + 'static {
    /// Makes a document under a random id. `words` describe the action.
    ///
    /// Refuses bodies that are no object, too large or too nested, and words too long.
    fn create(&self, kind: Kind, body: Value, words: &str) -> may!(Document);

    /// Makes a document under an id of the caller, for demonstration suits. [`StoreError::Exists`] if it is taken.
    fn create_with_id(&self, id: DocumentId, kind: Kind, body: Value, words: &str) -> may!(Document);

    /// One document, also from the bin (see [`Document::deleted_at`]). [`StoreError::NotFound`] if there is none.
    fn get(&self, id: &DocumentId) -> may!(Document);

    /// All documents of a kind outside the bin, oldest first, then by id.
    fn list(&self, kind: Kind) -> may!(Vec<Document>);

    /// Several documents as they stand at one moment, in the order asked for, also from the bin.
    /// [`StoreError::NotFound`] for the first that is missing.
    fn documents(&self, ids: &[DocumentId]) -> may!(Vec<Document>);

    /// What lies in the bin, latest first.
    fn bin(&self) -> may!(Vec<Document>);

    /// Makes an edit, all of it or nothing, as one journal entry.
    ///
    /// Where a document has moved on since [`base`](crate::DocumentEdit::base), the changed places are compared. Places
    /// of which none lies within another stand side by side (`merged`). Otherwise it is a [`StoreError::Conflict`]
    /// that lists each of your places with three values, unless both came to the same value. Also refuses
    /// [`StoreError::InBin`], [`StoreError::StaleBase`], [`StoreError::BadEdit`], [`StoreError::BadPath`] and bodies
    /// above the limits.
    fn edit(&self, edit: Edit) -> may!(Edited);

    /// Entries after `since` that touch any of these documents, in order, each with all its parts.
    fn history(&self, ids: &[DocumentId], since: u64) -> may!(Vec<Entry>);

    /// Takes back the last standing edit after `since` that touches any of these documents; all of its documents, also
    /// those not named. [`StoreError::NothingBack`], or [`StoreError::Conflict`] where a value was changed otherwise.
    fn back(&self, ids: &[DocumentId], since: u64) -> may!(Gone);

    /// Makes again what was taken back last, unless an edit came after it. [`StoreError::NothingForward`], or
    /// [`StoreError::Conflict`].
    fn forward(&self, ids: &[DocumentId], since: u64) -> may!(Gone);

    /// What [`back`](Self::back) and [`forward`](Self::forward) would do.
    fn can_go(&self, ids: &[DocumentId], since: u64) -> may!(CanGo);

    /// The body as it was at a revision. [`StoreError::StaleBase`] if the document never had it.
    fn body_at(&self, id: &DocumentId, revision: u64) -> may!(Value);

    /// Puts a document into the bin.
    fn delete(&self, id: &DocumentId, words: &str) -> may!(Document);

    /// Takes a document out of the bin. One that is not in it comes back as it is.
    fn restore(&self, id: &DocumentId, words: &str) -> may!(Document);

    /// Removes documents for good: they, their part of the journal, versions and photos, the words of every entry that
    /// touched them, here and in every backup; then clears the bytes from all files. Ids that are nowhere are passed
    /// over, so that it can be done again after [`StoreError::NotCleared`]. What other documents say about them stays.
    fn erase(&self, ids: &[DocumentId]) -> may!(Erased);

    /// Keeps an immutable snapshot of a suit. [`StoreError::VersionExists`] if the number is taken.
    fn keep_version(
        &self,
        suit: &DocumentId,
        number: u32,
        body: Value,
        text: &str,
        words: &str,
    ) -> may!(Version);

    /// All versions of a suit, by number.
    fn versions(&self, suit: &DocumentId) -> may!(Vec<Version>);

    /// Stores a photo of a document.
    fn put_photo(&self, owner: &DocumentId, mime: &str, bytes: Vec<u8>) -> may!(PhotoId);

    /// A photo with its bytes. [`StoreError::NoPhoto`] if there is none.
    fn photo(&self, id: &PhotoId) -> may!(Photo);

    /// The photos of a document without their bytes, oldest first.
    fn photos(&self, owner: &DocumentId) -> may!(Vec<PhotoInfo>);

    /// Removes a photo. Backups made before still hold it; [`erase`](Self::erase) of its document clears those too.
    fn remove_photo(&self, id: &PhotoId) -> may!(());

    /// A setting, if it was ever set.
    fn setting(&self, name: &str) -> may!(Option<Value>);

    /// Sets a setting. Names up to 100 bytes, values up to 64 kB of JSON.
    fn set_setting(&self, name: &str, value: &Value) -> may!(());

    /// Lets a device in, or renames it.
    fn add_session(&self, token_hash: &str, name: &str) -> may!(Session);

    /// The device with this token, if it is let in; notes when it was seen.
    fn check_session(&self, token_hash: &str) -> may!(Option<Session>);

    /// All devices that are let in, oldest first.
    fn sessions(&self) -> may!(Vec<Session>);

    /// Shuts a device out. Says whether it was let in.
    fn remove_session(&self, token_hash: &str) -> may!(bool);

    /// Makes a backup now and lets the oldest beyond [`KEPT_BACKUPS`](crate::KEPT_BACKUPS) go.
    fn backup(&self, reason: BackupReason) -> may!(Backup);

    /// Makes the backup of the day (in UTC) unless there is one.
    fn backup_if_due(&self, now: Timestamp) -> may!(Option<Backup>);

    /// All backups, latest first.
    fn backups(&self) -> may!(Vec<Backup>);

    /// Puts everything back as it was in a backup, after a backup of what is there now; returns that one.
    ///
    /// The file is checked first. Devices let in stay as they are: an old backup must not let in one that was shut out.
    /// Each document gets a new revision, so that no page mistakes old for new. [`StoreError::NoBackup`],
    /// [`StoreError::Damaged`], [`StoreError::Newer`].
    fn restore_backup(&self, name: &str) -> may!(Backup);

    /// The whole workroom as one file: documents, journal, versions, photos, settings. Same content, same bytes.
    fn export_archive(&self) -> may!(Vec<u8>);

    /// Takes an archive in, after checking all of it. [`StoreError::Archive`] lists what is wrong with it.
    fn import_archive(&self, bytes: Vec<u8>, mode: ImportMode) -> may!(Imported);

    /// What is stored from now on. A receiver that lags more than 256 events is told so and should load everything.
    fn events(&self) -> broadcast::Receiver<Event>;

    /// Finishes what is being written and lets go of the files.
    fn close(&self) -> impl Future<Output = ()> + Send;
}
