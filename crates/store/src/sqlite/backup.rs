//! Making and restoring backups.
//!
//! A backup is made by `VACUUM INTO` under a passing name, checked, and renamed when it is whole and on the disk.
//! Restoring checks and updates a copy of the backup, then moves all rows over within one transaction: no file is swapped
//! under open connections, and a process killed midway leaves the workroom as it was.

use std::path::{Path, PathBuf};

use sqlx::{Connection, SqliteConnection};

use super::files::{self, Files, connect, judge, remove};
use super::{Inner, open, rows};
use crate::error::Doing;
use crate::{Backup, BackupReason, Entry, EntryKind, Event, Part, StoreError, Timestamp};

/// A file that goes when this does, with what an engine may have put beside it.
pub(super) struct Passing(pub(super) PathBuf);

impl Passing {
    pub(super) fn new(files: &Files, name: &str) -> Result<Self, StoreError> {
        let passing = Self(files.backups.join(format!("{name}.part")));
        remove(&passing.0)?;
        Ok(passing)
    }
}

impl Drop for Passing {
    fn drop(&mut self) {
        // What is left is swept away at the next opening.
        drop(std::fs::remove_file(&self.0));
    }
}

/// Writes a backup. Only for who holds the lock on backups, or is opening.
pub(super) async fn make(files: &Files, at: Timestamp, reason: BackupReason) -> Result<Backup, StoreError> {
    let part = Passing::new(files, "new")?;
    let mut source = connect(files::look(&files.database), &files.database).await?;
    let done = sqlx::query("VACUUM INTO $1")
        .bind(path_text(&part.0)?)
        .execute(&mut source)
        .await
        .map_err(|fault| judge(fault, &files.database, "made a backup"));
    source.close().await.doing("made a backup")?;
    done?;
    check_whole(&part.0).await?;
    let name = files.free_name(at, reason);
    let size = files.settle(&part.0, &name)?;
    files.prune(&name)?;
    Ok(Backup {
        name,
        at,
        size,
        reason,
    })
}

/// SQLite takes names as text.
fn path_text(path: &Path) -> Result<String, StoreError> {
    path.to_str().map(str::to_owned).ok_or_else(|| {
        let fault = std::io::Error::new(
            std::io::ErrorKind::InvalidInput,
            "the folder's name is not Unicode",
        );
        StoreError::file("naming a backup", path, fault)
    })
}

async fn check_whole(file: &Path) -> Result<(), StoreError> {
    let mut db = connect(files::look(file), file).await?;
    let found = open::inspect(&mut db, file).await;
    db.close().await.doing("checked a backup")?;
    match found? {
        Some(_) => Ok(()),
        None => Err(StoreError::Damaged {
            file: file.to_owned(),
            detail: "it is empty".into(),
        }),
    }
}

/// Whether the daily backup of this day (in UTC) is there.
pub(super) fn has_daily(files: &Files, now: Timestamp) -> Result<bool, StoreError> {
    let same = |backup: &Backup| backup.reason == BackupReason::Daily && backup.at.day() == now.day();
    Ok(files.backups()?.iter().any(same))
}

/// A checked copy of a backup, brought to the latest layout. Faults name the backup, not the copy.
pub(super) async fn copied(files: &Files, source: &Path) -> Result<(Passing, SqliteConnection), StoreError> {
    let part = Passing::new(files, "work")?;
    let (from, to) = (source.to_owned(), part.0.clone());
    let done = tokio::task::spawn_blocking(move || std::fs::copy(&from, &to)).await;
    done.unwrap_or_else(|fault| Err(std::io::Error::other(fault)))
        .map_err(|fault| StoreError::file("copying", source, fault))?;
    // A file of another program, or of a later layout, must be told before anything is asked to change it.
    let mut db = connect(files::look(&part.0), source).await?;
    let found = open::inspect(&mut db, source).await;
    db.close().await.doing("checked a backup")?;
    if found?.is_none() {
        return Err(StoreError::Damaged {
            file: source.to_owned(),
            detail: "it is empty".into(),
        });
    }
    let mut db = connect(files::copy(&part.0), source).await?;
    let checked = async {
        open::update(&mut db, source).await?;
        let fault = |fault| judge(fault, source, "checked a backup");
        let whole: String = sqlx::query_scalar("PRAGMA integrity_check(1)")
            .fetch_one(&mut db)
            .await
            .map_err(fault)?;
        let stray = sqlx::query("PRAGMA foreign_key_check")
            .fetch_all(&mut db)
            .await
            .map_err(fault)?;
        if whole != "ok" || !stray.is_empty() {
            let detail = if whole == "ok" {
                "rows without their document".into()
            } else {
                whole
            };
            return Err(StoreError::Damaged {
                file: source.to_owned(),
                detail,
            });
        }
        Ok(())
    };
    match checked.await {
        Ok(()) => Ok((part, db)),
        Err(fault) => {
            drop(db.close().await);
            Err(fault)
        }
    }
}

pub(super) async fn restore(inner: &Inner, name: String) -> Result<Backup, StoreError> {
    let _held = inner.backups.lock().await;
    let source = inner.files.backup(&name)?;
    let (part, db) = copied(&inner.files, &source).await?;
    db.close().await.doing("checked a backup")?;
    // This may let the oldest backup go, even the one being restored: its copy is at hand.
    let rescue = make(&inner.files, inner.now(), BackupReason::BeforeRestore).await?;

    let mut connection = inner.writer.acquire().await.doing("waited to write")?;
    sqlx::query("ATTACH DATABASE $1 AS old")
        .bind(path_text(&part.0)?)
        .execute(&mut *connection)
        .await
        .doing("opened a backup")?;
    let moved = move_over(&mut connection, inner.now(), &name).await;
    let detached = sqlx::query("DETACH DATABASE old")
        .execute(&mut *connection)
        .await
        .doing("closed a backup");
    moved?;
    inner.tell(Event::Reloaded);
    detached?;
    Ok(rescue)
}

/// All rows but those of devices. Both sides have the same layout by now.
async fn move_over(connection: &mut SqliteConnection, at: Timestamp, name: &str) -> Result<(), StoreError> {
    let words = format!("restored from the backup {name}");
    let mut tx = connection
        .begin_with("BEGIN IMMEDIATE")
        .await
        .doing("began to restore")?;
    for statement in [
        // Versions, photos and parts go with their documents.
        "DELETE FROM main.document",
        "DELETE FROM main.entry",
        "DELETE FROM main.setting",
        "INSERT INTO main.document (id, kind, revision, body, created_at, changed_at, deleted_at) \
         SELECT id, kind, revision, body, created_at, changed_at, deleted_at FROM old.document",
        "INSERT INTO main.entry (seq, at, words, kind, target) SELECT seq, at, words, kind, target FROM old.entry",
        "INSERT INTO main.part (document, seq, changes) SELECT document, seq, changes FROM old.part",
        "INSERT INTO main.setting (name, value) SELECT name, value FROM old.setting",
        "INSERT INTO main.version (suit, number, body, text, words, at) \
         SELECT suit, number, body, text, words, at FROM old.version",
        "INSERT INTO main.photo (id, owner, mime, at, bytes) SELECT id, owner, mime, at, bytes FROM old.photo",
        // Numbers given out since the backup was made stay given out.
        "UPDATE main.counter SET value = (SELECT old.counter.value FROM old.counter WHERE old.counter.name = 'seq') \
         WHERE name = 'seq' AND value < (SELECT old.counter.value FROM old.counter WHERE old.counter.name = 'seq')",
    ] {
        sqlx::query(statement)
            .execute(&mut *tx)
            .await
            .doing("restored a backup")?;
    }
    let documents: Vec<String> = sqlx::query_scalar("SELECT id FROM main.document ORDER BY id")
        .fetch_all(&mut *tx)
        .await
        .doing("restored a backup")?;
    if !documents.is_empty() {
        let seq = rows::next_seq(&mut tx).await?;
        sqlx::query("UPDATE main.document SET revision = $1")
            .bind(rows::to_db(seq))
            .execute(&mut *tx)
            .await
            .doing("restored a backup")?;
        let parts = documents
            .iter()
            .map(|id| {
                Ok(Part {
                    document: id.parse()?,
                    changes: Vec::new(),
                })
            })
            .collect::<Result<_, StoreError>>()?;
        let entry = Entry {
            seq,
            at,
            words,
            kind: EntryKind::Restored,
            target: None,
            parts,
        };
        rows::save_entry(&mut tx, &entry).await?;
    }
    tx.commit().await.doing("finished restoring")
}
