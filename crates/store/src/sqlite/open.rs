//! Opening a workroom: lock, look, back up, bring the layout up to date.
//!
//! An existing file is looked at through a connection that only reads, before anything may write to it. What is not in
//! order is named and left as it is.

use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use sqlx::SqliteConnection;
use sqlx::migrate::{MigrateError, Migrator};
use sqlx::sqlite::SqlitePoolOptions;
use tokio::sync::{Mutex, broadcast};

use super::files::{self, Files, connect, judge};
use super::{EVENTS, Inner, SqliteStore, backup};
use crate::error::Doing;
use crate::{BackupReason, Clock, IdSource, StoreError, Timestamp, id};

/// The layouts of the database, in order.
pub(super) static MIGRATIONS: Migrator = sqlx::migrate!();

/// Connections that read.
const READERS: u32 = 4;
/// Waiting to write ends here. Clearing the files of a large workroom is the longest that holds the writer.
const PATIENCE: Duration = Duration::from_secs(600);

/// Where a store takes time and chance from.
#[derive(Clone)]
pub struct Options {
    /// The clock.
    pub clock: Clock,
    /// The source of new ids.
    pub ids: IdSource,
}

impl Default for Options {
    /// The machine's clock, random ids.
    fn default() -> Self {
        Self {
            clock: Arc::new(Timestamp::now),
            ids: Arc::new(id::random),
        }
    }
}

impl SqliteStore {
    /// Opens the workroom in a folder, or makes both. Must be called on a tokio runtime with its timer.
    ///
    /// # Errors
    /// [`StoreError::InUse`] when another process has it open, [`StoreError::Newer`] and [`StoreError::Damaged`] when the
    /// database is not one this program can work with; it is then left as it is. [`StoreError::File`] when the folder
    /// can't be made or written.
    pub async fn open(folder: &Path, options: Options) -> Result<Self, StoreError> {
        let files = Files::of(folder);
        let lock = files.lock()?;
        files.sweep()?;
        let now = (options.clock)();
        let layout = look(&files).await?;
        if layout.is_some_and(|layout| layout < known()) {
            backup::make(&files, now, BackupReason::BeforeUpdate).await?;
        }
        let mut first = connect(
            files::live(&files.database).create_if_missing(true),
            &files.database,
        )
        .await?;
        update(&mut first, &files.database).await?;
        sqlx::Connection::close(first)
            .await
            .doing("opened the workroom")?;

        let pool = |options: SqlitePoolOptions| options.test_before_acquire(false).acquire_timeout(PATIENCE);
        let writer = pool(SqlitePoolOptions::new().max_connections(1).min_connections(1))
            .idle_timeout(None)
            .max_lifetime(None)
            .connect_with(files::live(&files.database))
            .await
            .doing("opened the workroom")?;
        let reader = pool(SqlitePoolOptions::new().max_connections(READERS))
            .connect_with(files::live(&files.database).pragma("query_only", "ON"))
            .await
            .doing("opened the workroom")?;
        let (events, _) = broadcast::channel(EVENTS);
        let inner = Inner {
            writer,
            reader,
            backups: Mutex::new(()),
            events,
            clock: options.clock,
            ids: options.ids,
            files,
            _lock: lock,
        };
        Ok(Self {
            inner: Arc::new(inner),
        })
    }
}

/// The latest layout this program knows.
pub(super) fn known() -> i64 {
    MIGRATIONS
        .iter()
        .map(|migration| migration.version)
        .max()
        .unwrap_or(0)
}

/// Looks at the workroom's file without touching it: its layout, or `None` when there is none yet.
async fn look(files: &Files) -> Result<Option<i64>, StoreError> {
    let file = &files.database;
    let damaged = |detail: &str| StoreError::Damaged {
        file: file.clone(),
        detail: detail.into(),
    };
    let size = match std::fs::metadata(file) {
        Ok(about) => Some(about.len()),
        Err(fault) if fault.kind() == std::io::ErrorKind::NotFound => None,
        Err(fault) => return Err(StoreError::file("reading", file, fault)),
    };
    let log = file.with_extension("sqlite-wal");
    match size {
        None if log.exists() => Err(damaged("the file is missing, but its -wal file is there")),
        None => Ok(None),
        // A new file that was never written; with backups beside it, it was more than that.
        Some(0) if files.backups()?.is_empty() => Ok(None),
        Some(0) => Err(damaged("the file is empty")),
        Some(_) => {
            let mut db = connect(files::look(file), file).await?;
            let layout = inspect(&mut db, file).await;
            sqlx::Connection::close(db)
                .await
                .doing("looked at the workroom")?;
            layout
        }
    }
}

/// The layout of a database of ours, after checking it; `None` when it has no tables yet.
pub(super) async fn inspect(db: &mut SqliteConnection, file: &Path) -> Result<Option<i64>, StoreError> {
    let fault = |fault| judge(fault, file, "looked at a database");
    let damaged = |detail: String| StoreError::Damaged {
        file: file.to_owned(),
        detail,
    };
    let check: String = sqlx::query_scalar("PRAGMA quick_check(1)")
        .fetch_one(&mut *db)
        .await
        .map_err(fault)?;
    if check != "ok" {
        return Err(damaged(check));
    }
    let tables: Vec<String> = sqlx::query_scalar("SELECT name FROM sqlite_master WHERE type = 'table'")
        .fetch_all(&mut *db)
        .await
        .map_err(fault)?;
    if tables.is_empty() {
        return Ok(None);
    }
    if !tables.iter().any(|name| name == "_sqlx_migrations") {
        return Err(damaged("it is a database of another program".into()));
    }
    let applied: Vec<(i64, bool)> =
        sqlx::query_as("SELECT version, success FROM _sqlx_migrations ORDER BY version")
            .fetch_all(&mut *db)
            .await
            .map_err(fault)?;
    let Some(&(found, _)) = applied.last() else {
        // Killed between making that table and the first layout.
        return if tables.len() == 1 {
            Ok(None)
        } else {
            Err(damaged("its layout has no number".into()))
        };
    };
    if found > known() {
        return Err(StoreError::Newer {
            file: file.to_owned(),
            found,
            known: known(),
        });
    }
    if applied.iter().any(|&(_, done)| !done) {
        return Err(damaged("a change of its layout was not finished".into()));
    }
    if !["document", "entry", "part", "counter"]
        .iter()
        .all(|name| tables.iter().any(|table| table == name))
    {
        return Err(damaged("tables are missing".into()));
    }
    Ok(Some(found))
}

/// Brings a database to the latest layout.
pub(super) async fn update(db: &mut SqliteConnection, file: &Path) -> Result<(), StoreError> {
    MIGRATIONS
        .run_direct(None, db, false)
        .await
        .map_err(|fault| match fault {
            MigrateError::Execute(inner) | MigrateError::ExecuteMigration(inner, _) => {
                judge(inner, file, "brought the layout up to date")
            }
            other => StoreError::Damaged {
                file: file.to_owned(),
                detail: other.to_string(),
            },
        })
}
