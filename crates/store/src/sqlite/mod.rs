//! The store in one SQLite file, `workroom.sqlite`, in a folder of its own.
//!
//! One connection writes, a few others read; with write-ahead logging they don't wait for each other. `synchronous` is
//! FULL, not NORMAL: NORMAL outlives a killed process but may lose the last edits when the power goes, and a person's
//! edits are few enough to wait for the disk each time. Deleted bytes are overwritten (`secure_delete`).
//!
//! Every write runs in a task of its own and so goes to its end even if the one who asked is gone. Events are sent while
//! the writing connection is still held: their order is that of the journal.
//!
//! **Limits.** One process per folder, held by a lock on `workroom.lock`. Only this module and those within it know SQLite;
//! all query texts but the pragmas are plain enough for PostgreSQL.

mod backup;
mod carry;
mod edit;
mod erase;
mod files;
mod go;
mod keep;
mod open;
mod rows;

use std::future::Future;
use std::pin::Pin;
use std::sync::Arc;

use serde_json::Value;
use sqlx::sqlite::{SqlitePool, SqliteTransaction};
use sqlx::{Connection, Sqlite, SqliteConnection, Transaction};
use tokio::sync::{Mutex, broadcast};

use crate::error::Doing;
use crate::{
    Backup, BackupReason, CanGo, Clock, Document, DocumentId, Edit, Edited, Entry, Erased, Event, Gone,
    IdSource, ImportMode, Imported, Kind, Photo, PhotoId, PhotoInfo, Session, Store, StoreError, Timestamp,
    Version,
};

pub use open::Options;

/// Events a slow receiver may lag behind.
const EVENTS: usize = 256;

/// The store in one SQLite file. Cheap to clone; all clones are the same store.
#[derive(Clone)]
pub struct SqliteStore {
    inner: Arc<Inner>,
}

struct Inner {
    /// One connection.
    writer: SqlitePool,
    reader: SqlitePool,
    /// Held by whoever makes, reads or rewrites backup files.
    backups: Mutex<()>,
    events: broadcast::Sender<Event>,
    clock: Clock,
    ids: IdSource,
    files: files::Files,
    /// Held open: the lock goes with it.
    _lock: std::fs::File,
}

/// What a transaction comes to: the answer, and what to tell the pages.
type Outcome<T> = Result<(T, Option<Event>), StoreError>;
type Work<'c, T> = Pin<Box<dyn Future<Output = Outcome<T>> + Send + 'c>>;

impl Inner {
    fn now(&self) -> Timestamp {
        (self.clock)()
    }

    fn new_id<I: std::str::FromStr>(&self) -> Result<I, StoreError>
    where
        StoreError: From<I::Err>,
    {
        Ok((self.ids)().parse()?)
    }

    /// One transaction on the writing connection: committed and told, or nothing.
    async fn write<T>(
        &self,
        work: impl for<'c> FnOnce(&'c mut SqliteConnection, &'c Self) -> Work<'c, T>,
    ) -> Result<T, StoreError> {
        let mut connection = self.writer.acquire().await.doing("waited to write")?;
        let mut tx = connection
            .begin_with("BEGIN IMMEDIATE")
            .await
            .doing("began to write")?;
        let (value, event) = work(&mut tx, self).await?;
        tx.commit().await.doing("finished writing")?;
        if let Some(event) = event {
            self.tell(event);
        }
        Ok(value)
    }

    /// Nobody listening is no fault.
    fn tell(&self, event: Event) {
        drop(self.events.send(event));
    }

    /// A view of one moment for several queries.
    async fn read(&self) -> Result<SqliteTransaction<'static>, StoreError> {
        let tx: Transaction<'static, Sqlite> = self.reader.begin().await.doing("began to read")?;
        Ok(tx)
    }
}

impl SqliteStore {
    /// Runs work in a task of its own, so that it ends even if the caller does not wait.
    async fn apart<T, F>(&self, work: impl FnOnce(Arc<Inner>) -> F) -> Result<T, StoreError>
    where
        T: Send + 'static,
        F: Future<Output = Result<T, StoreError>> + Send + 'static,
    {
        match tokio::spawn(work(Arc::clone(&self.inner))).await {
            Ok(result) => result,
            Err(fault) => match fault.try_into_panic() {
                Ok(panic) => std::panic::resume_unwind(panic),
                Err(stopped) => Err(StoreError::Database {
                    doing: "was stopped while writing",
                    source: Box::new(stopped),
                }),
            },
        }
    }

    async fn write<T: Send + 'static>(
        &self,
        work: impl for<'c> FnOnce(&'c mut SqliteConnection, &'c Inner) -> Work<'c, T> + Send + 'static,
    ) -> Result<T, StoreError> {
        self.apart(|inner| async move { inner.write(work).await }).await
    }
}

impl Store for SqliteStore {
    async fn create(&self, kind: Kind, body: Value, words: &str) -> Result<Document, StoreError> {
        let words = words.to_owned();
        self.write(move |tx, inner| {
            Box::pin(async move { edit::create(tx, inner, inner.new_id()?, kind, body, words).await })
        })
        .await
    }

    async fn create_with_id(
        &self,
        id: DocumentId,
        kind: Kind,
        body: Value,
        words: &str,
    ) -> Result<Document, StoreError> {
        let words = words.to_owned();
        self.write(move |tx, inner| Box::pin(edit::create(tx, inner, id, kind, body, words)))
            .await
    }

    async fn get(&self, id: &DocumentId) -> Result<Document, StoreError> {
        let mut tx = self.inner.read().await?;
        rows::need_document(&mut tx, id).await
    }

    async fn list(&self, kind: Kind) -> Result<Vec<Document>, StoreError> {
        let mut tx = self.inner.read().await?;
        rows::list(&mut tx, kind).await
    }

    async fn documents(&self, ids: &[DocumentId]) -> Result<Vec<Document>, StoreError> {
        let mut tx = self.inner.read().await?;
        let mut documents = Vec::with_capacity(ids.len());
        for id in ids {
            documents.push(rows::need_document(&mut tx, id).await?);
        }
        Ok(documents)
    }

    async fn bin(&self) -> Result<Vec<Document>, StoreError> {
        let mut tx = self.inner.read().await?;
        rows::bin(&mut tx).await
    }

    async fn edit(&self, edit: Edit) -> Result<Edited, StoreError> {
        self.write(move |tx, inner| Box::pin(edit::edit(tx, inner, edit)))
            .await
    }

    async fn history(&self, ids: &[DocumentId], since: u64) -> Result<Vec<Entry>, StoreError> {
        let mut tx = self.inner.read().await?;
        go::history(&mut tx, ids, since).await
    }

    async fn back(&self, ids: &[DocumentId], since: u64) -> Result<Gone, StoreError> {
        let ids = ids.to_vec();
        self.write(move |tx, inner| Box::pin(go::go(tx, inner, ids, since, go::Way::Back)))
            .await
    }

    async fn forward(&self, ids: &[DocumentId], since: u64) -> Result<Gone, StoreError> {
        let ids = ids.to_vec();
        self.write(move |tx, inner| Box::pin(go::go(tx, inner, ids, since, go::Way::Forward)))
            .await
    }

    async fn can_go(&self, ids: &[DocumentId], since: u64) -> Result<CanGo, StoreError> {
        let mut tx = self.inner.read().await?;
        go::can_go(&mut tx, ids, since).await
    }

    async fn body_at(&self, id: &DocumentId, revision: u64) -> Result<Value, StoreError> {
        let mut tx = self.inner.read().await?;
        let document = rows::need_document(&mut tx, id).await?;
        edit::body_at(&mut tx, &document, revision).await
    }

    async fn delete(&self, id: &DocumentId, words: &str) -> Result<Document, StoreError> {
        let (id, words) = (id.clone(), words.to_owned());
        self.write(move |tx, inner| Box::pin(edit::bin(tx, inner, id, words, true)))
            .await
    }

    async fn restore(&self, id: &DocumentId, words: &str) -> Result<Document, StoreError> {
        let (id, words) = (id.clone(), words.to_owned());
        self.write(move |tx, inner| Box::pin(edit::bin(tx, inner, id, words, false)))
            .await
    }

    async fn erase(&self, ids: &[DocumentId]) -> Result<Erased, StoreError> {
        let ids = ids.to_vec();
        self.apart(|inner| async move { erase::erase(&inner, ids).await })
            .await
    }

    async fn keep_version(
        &self,
        suit: &DocumentId,
        number: u32,
        body: Value,
        text: &str,
        words: &str,
    ) -> Result<Version, StoreError> {
        let (suit, text, words) = (suit.clone(), text.to_owned(), words.to_owned());
        self.write(move |tx, inner| {
            let version = Version {
                suit,
                number,
                body,
                text,
                words,
                at: inner.now(),
            };
            Box::pin(keep::keep_version(tx, version))
        })
        .await
    }

    async fn versions(&self, suit: &DocumentId) -> Result<Vec<Version>, StoreError> {
        let mut tx = self.inner.read().await?;
        rows::need_document(&mut tx, suit).await?;
        keep::versions(&mut tx, suit).await
    }

    async fn put_photo(&self, owner: &DocumentId, mime: &str, bytes: Vec<u8>) -> Result<PhotoId, StoreError> {
        let (owner, mime) = (owner.clone(), mime.to_owned());
        self.write(move |tx, inner| Box::pin(keep::put_photo(tx, inner, owner, mime, bytes)))
            .await
    }

    async fn photo(&self, id: &PhotoId) -> Result<Photo, StoreError> {
        let mut tx = self.inner.read().await?;
        keep::photo(&mut tx, id).await
    }

    async fn photos(&self, owner: &DocumentId) -> Result<Vec<PhotoInfo>, StoreError> {
        let mut tx = self.inner.read().await?;
        keep::photos(&mut tx, owner).await
    }

    async fn remove_photo(&self, id: &PhotoId) -> Result<(), StoreError> {
        let id = id.clone();
        self.write(move |tx, _| Box::pin(keep::remove_photo(tx, id)))
            .await
    }

    async fn setting(&self, name: &str) -> Result<Option<Value>, StoreError> {
        let mut tx = self.inner.read().await?;
        keep::setting(&mut tx, name).await
    }

    async fn set_setting(&self, name: &str, value: &Value) -> Result<(), StoreError> {
        let (name, value) = (name.to_owned(), value.clone());
        self.write(move |tx, _| Box::pin(keep::set_setting(tx, name, value)))
            .await
    }

    async fn add_session(&self, token_hash: &str, name: &str) -> Result<Session, StoreError> {
        let (token_hash, name) = (token_hash.to_owned(), name.to_owned());
        self.write(move |tx, inner| {
            let at = inner.now();
            Box::pin(keep::add_session(
                tx,
                Session {
                    token_hash,
                    name,
                    created_at: at,
                    last_seen: at,
                },
            ))
        })
        .await
    }

    async fn check_session(&self, token_hash: &str) -> Result<Option<Session>, StoreError> {
        let found = {
            let mut tx = self.inner.read().await?;
            keep::session(&mut tx, token_hash).await?
        };
        let now = self.inner.now();
        match found {
            Some(session) if keep::is_stale(&session, now) => {
                self.write(move |tx, _| Box::pin(keep::seen(tx, session.token_hash, now)))
                    .await
            }
            other => Ok(other),
        }
    }

    async fn sessions(&self) -> Result<Vec<Session>, StoreError> {
        let mut tx = self.inner.read().await?;
        keep::sessions(&mut tx).await
    }

    async fn remove_session(&self, token_hash: &str) -> Result<bool, StoreError> {
        let token_hash = token_hash.to_owned();
        self.write(move |tx, _| Box::pin(keep::remove_session(tx, token_hash)))
            .await
    }

    async fn backup(&self, reason: BackupReason) -> Result<Backup, StoreError> {
        self.apart(|inner| async move {
            let _held = inner.backups.lock().await;
            backup::make(&inner.files, inner.now(), reason).await
        })
        .await
    }

    async fn backup_if_due(&self, now: Timestamp) -> Result<Option<Backup>, StoreError> {
        self.apart(move |inner| async move {
            let _held = inner.backups.lock().await;
            if backup::has_daily(&inner.files, now)? {
                return Ok(None);
            }
            backup::make(&inner.files, now, BackupReason::Daily)
                .await
                .map(Some)
        })
        .await
    }

    async fn backups(&self) -> Result<Vec<Backup>, StoreError> {
        let _held = self.inner.backups.lock().await;
        self.inner.files.backups()
    }

    async fn restore_backup(&self, name: &str) -> Result<Backup, StoreError> {
        let name = name.to_owned();
        self.apart(|inner| async move { backup::restore(&inner, name).await })
            .await
    }

    async fn export_archive(&self) -> Result<Vec<u8>, StoreError> {
        let content = {
            let mut tx = self.inner.read().await?;
            carry::gather(&mut tx).await?
        };
        carry::pack(content).await
    }

    async fn import_archive(&self, bytes: Vec<u8>, mode: ImportMode) -> Result<Imported, StoreError> {
        self.apart(move |inner| async move { carry::import(&inner, bytes, mode).await })
            .await
    }

    fn events(&self) -> broadcast::Receiver<Event> {
        self.inner.events.subscribe()
    }

    async fn close(&self) {
        self.inner.reader.close().await;
        self.inner.writer.close().await;
    }
}
