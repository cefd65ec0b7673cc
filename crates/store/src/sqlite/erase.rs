//! Erasing: documents and all that was said about them, from the database, its log and every backup.
//!
//! Backups go first: if the process dies midway, the documents are still here to be erased again. A backup is rewritten
//! as a copy and renamed into its place, so that it is whole at any moment. The freed pages of the database are
//! overwritten (`secure_delete`), the file is written anew (`VACUUM`), and the log is emptied.
//!
//! **Limits.** What a disk keeps of a deleted file is beyond this; so are archives that were carried away.

use std::collections::BTreeSet;
use std::time::Duration;

use sqlx::{Connection, SqliteConnection};

use super::files::judge;
use super::{Inner, backup, open};
use crate::error::Doing;
use crate::{DocumentId, Erased, Event, StoreError};

/// How often emptying the log is tried while readers are busy, and the wait between.
const TRIES: u32 = 20;
const PAUSE: Duration = Duration::from_millis(100);

pub(super) async fn erase(inner: &Inner, ids: Vec<DocumentId>) -> Result<Erased, StoreError> {
    let ids: Vec<DocumentId> = ids.into_iter().collect::<BTreeSet<_>>().into_iter().collect();
    let _held = inner.backups.lock().await;
    inner.files.sweep()?;
    let mut erased = Erased {
        documents: 0,
        backups: 0,
    };
    for found in inner.files.backups()? {
        let file = inner.files.backups.join(&found.name);
        let (part, mut db) = backup::copied(&inner.files, &file).await?;
        let gone = in_backup(&mut db, &ids).await;
        db.close().await.doing("rewrote a backup")?;
        if gone? > 0 {
            let mut copy = super::files::connect(super::files::look(&part.0), &file).await?;
            let whole = open::inspect(&mut copy, &file).await;
            copy.close().await.doing("checked a backup")?;
            whole?;
            inner.files.settle(&part.0, &found.name)?;
            erased.backups += 1;
        }
    }

    let mut connection = inner.writer.acquire().await.doing("waited to write")?;
    let mut tx = connection
        .begin_with("BEGIN IMMEDIATE")
        .await
        .doing("began to erase")?;
    erased.documents = rows_of(&mut tx, &ids).await?;
    tx.commit().await.doing("erased documents")?;
    if erased.documents > 0 {
        inner.tell(Event::Erased { documents: ids });
    }
    sqlx::query("VACUUM")
        .execute(&mut *connection)
        .await
        .map_err(|fault| judge(fault, &inner.files.database, "wrote the database anew"))?;
    empty_log(&mut connection).await?;
    Ok(erased)
}

async fn in_backup(db: &mut SqliteConnection, ids: &[DocumentId]) -> Result<usize, StoreError> {
    let mut tx = db.begin().await.doing("rewrote a backup")?;
    let gone = rows_of(&mut tx, ids).await?;
    tx.commit().await.doing("rewrote a backup")?;
    if gone > 0 {
        sqlx::query("VACUUM")
            .execute(&mut *db)
            .await
            .doing("rewrote a backup")?;
    }
    Ok(gone)
}

/// Deletes the rows. Entries lose their words when one of their documents goes, and go with the last one.
async fn rows_of(db: &mut SqliteConnection, ids: &[DocumentId]) -> Result<usize, StoreError> {
    let mut gone = 0;
    for id in ids {
        sqlx::query("UPDATE entry SET words = '' WHERE seq IN (SELECT seq FROM part WHERE document = $1)")
            .bind(id.as_str())
            .execute(&mut *db)
            .await
            .doing("erased documents")?;
        let done = sqlx::query("DELETE FROM document WHERE id = $1")
            .bind(id.as_str())
            .execute(&mut *db)
            .await
            .doing("erased documents")?;
        gone += usize::from(done.rows_affected() > 0);
    }
    sqlx::query("DELETE FROM entry WHERE NOT EXISTS (SELECT 1 FROM part WHERE part.seq = entry.seq)")
        .execute(&mut *db)
        .await
        .doing("erased documents")?;
    Ok(gone)
}

/// Moves the log into the file and cuts it to nothing; waits for readers.
async fn empty_log(connection: &mut SqliteConnection) -> Result<(), StoreError> {
    for _ in 0..TRIES {
        let (busy, _, _): (i64, i64, i64) = sqlx::query_as("PRAGMA wal_checkpoint(TRUNCATE)")
            .fetch_one(&mut *connection)
            .await
            .doing("emptied the log")?;
        if busy == 0 {
            return Ok(());
        }
        tokio::time::sleep(PAUSE).await;
    }
    Err(StoreError::NotCleared)
}
