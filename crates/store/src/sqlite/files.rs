//! The files of a workroom, and how each of them is connected to.
//!
//! `workroom.sqlite` (with `-wal` and `-shm` while it is open), `workroom.lock`, and `backups/`. A file of the folder
//! `backups` that is being written is called `*.part`; what a killed process left of those is swept away.

use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::time::Duration;

use sqlx::sqlite::{SqliteConnectOptions, SqliteJournalMode, SqliteSynchronous};
use sqlx::{ConnectOptions, SqliteConnection};

use crate::backup::{file_name, read_name};
use crate::{Backup, BackupReason, KEPT_BACKUPS, StoreError, Timestamp};

/// How long a statement waits for another connection.
const BUSY: Duration = Duration::from_secs(5);

#[derive(Debug, Clone)]
pub(super) struct Files {
    pub(super) folder: PathBuf,
    pub(super) database: PathBuf,
    pub(super) backups: PathBuf,
}

impl Files {
    pub(super) fn of(folder: &Path) -> Self {
        Self {
            folder: folder.to_owned(),
            database: folder.join("workroom.sqlite"),
            backups: folder.join("backups"),
        }
    }

    /// Makes the folders and takes the lock. The lock goes when the file is dropped or the process ends, however it ends.
    pub(super) fn lock(&self) -> Result<File, StoreError> {
        fs::create_dir_all(&self.backups)
            .map_err(|fault| StoreError::file("making the folder", &self.backups, fault))?;
        let path = self.folder.join("workroom.lock");
        let file = File::options()
            .create(true)
            .truncate(false)
            .write(true)
            .open(&path)
            .map_err(|fault| StoreError::file("opening", &path, fault))?;
        match file.try_lock() {
            Ok(()) => Ok(file),
            Err(fs::TryLockError::WouldBlock) => Err(StoreError::InUse {
                folder: self.folder.clone(),
            }),
            Err(fs::TryLockError::Error(fault)) => Err(StoreError::file("locking", &path, fault)),
        }
    }

    fn entries(&self) -> Result<Vec<(String, fs::DirEntry)>, StoreError> {
        let fault = |fault| StoreError::file("listing", &self.backups, fault);
        let mut found = Vec::new();
        for entry in fs::read_dir(&self.backups).map_err(fault)? {
            let entry = entry.map_err(fault)?;
            if let Ok(name) = entry.file_name().into_string() {
                found.push((name, entry));
            }
        }
        Ok(found)
    }

    /// Removes half-written files, and what an engine put beside them.
    pub(super) fn sweep(&self) -> Result<(), StoreError> {
        for (name, entry) in self.entries()? {
            if name.contains(".part") {
                remove(&entry.path())?;
            }
        }
        Ok(())
    }

    /// All backups, latest first.
    pub(super) fn backups(&self) -> Result<Vec<Backup>, StoreError> {
        let mut found = Vec::new();
        for (name, entry) in self.entries()? {
            let Some((at, reason, number)) = read_name(&name) else {
                continue;
            };
            let about = entry
                .metadata()
                .map_err(|fault| StoreError::file("reading", &entry.path(), fault))?;
            if about.is_file() {
                found.push((
                    at,
                    number,
                    Backup {
                        name,
                        at,
                        size: about.len(),
                        reason,
                    },
                ));
            }
        }
        found.sort_by(|a, b| (b.0, b.1, &b.2.name).cmp(&(a.0, a.1, &a.2.name)));
        Ok(found.into_iter().map(|(_, _, backup)| backup).collect())
    }

    /// The file of a backup in the list; anything else is refused, whatever its name leads to.
    pub(super) fn backup(&self, name: &str) -> Result<PathBuf, StoreError> {
        let known = read_name(name).is_some() && self.backups()?.iter().any(|backup| backup.name == name);
        if known {
            Ok(self.backups.join(name))
        } else {
            Err(StoreError::NoBackup(name.to_owned()))
        }
    }

    /// A name for a backup that is not taken.
    pub(super) fn free_name(&self, at: Timestamp, reason: BackupReason) -> String {
        let mut number = 1;
        loop {
            let name = file_name(at, reason, number);
            if !self.backups.join(&name).exists() {
                return name;
            }
            number += 1;
        }
    }

    /// Puts a file finished under a passing name in its place, for good.
    pub(super) fn settle(&self, part: &Path, name: &str) -> Result<u64, StoreError> {
        let target = self.backups.join(name);
        let size = || -> std::io::Result<u64> {
            let file = File::options().write(true).open(part)?;
            file.sync_all()?;
            let size = file.metadata()?.len();
            fs::rename(part, &target)?;
            // The new name must be on the disk as well; only Unix opens folders.
            if cfg!(unix) {
                File::open(&self.backups)?.sync_all()?;
            }
            Ok(size)
        };
        size().map_err(|fault| StoreError::file("writing", &target, fault))
    }

    /// Lets the oldest backups go, never the one called `but`.
    pub(super) fn prune(&self, but: &str) -> Result<(), StoreError> {
        for backup in self.backups()?.iter().skip(KEPT_BACKUPS) {
            if backup.name != but {
                remove(&self.backups.join(&backup.name))?;
            }
        }
        Ok(())
    }
}

pub(super) fn remove(path: &Path) -> Result<(), StoreError> {
    match fs::remove_file(path) {
        Err(fault) if fault.kind() != std::io::ErrorKind::NotFound => {
            Err(StoreError::file("removing", path, fault))
        }
        _ => Ok(()),
    }
}

/// How the workroom is connected to.
pub(super) fn live(file: &Path) -> SqliteConnectOptions {
    SqliteConnectOptions::new()
        .filename(file)
        .journal_mode(SqliteJournalMode::Wal)
        .synchronous(SqliteSynchronous::Full)
        .foreign_keys(true)
        .busy_timeout(BUSY)
        .pragma("secure_delete", "ON")
        .pragma("trusted_schema", "OFF")
        .disable_statement_logging()
}

/// How a file is looked at that must not change.
pub(super) fn look(file: &Path) -> SqliteConnectOptions {
    SqliteConnectOptions::new()
        .filename(file)
        .read_only(true)
        .busy_timeout(BUSY)
        .pragma("trusted_schema", "OFF")
        .disable_statement_logging()
}

/// How a passing copy is worked on: nothing beside the file itself is written.
pub(super) fn copy(file: &Path) -> SqliteConnectOptions {
    SqliteConnectOptions::new()
        .filename(file)
        .journal_mode(SqliteJournalMode::Memory)
        .synchronous(SqliteSynchronous::Off)
        .foreign_keys(true)
        .busy_timeout(BUSY)
        .pragma("secure_delete", "ON")
        .pragma("trusted_schema", "OFF")
        .disable_statement_logging()
}

/// Connects, telling a file that is no database from other faults.
pub(super) async fn connect(
    options: SqliteConnectOptions,
    file: &Path,
) -> Result<SqliteConnection, StoreError> {
    options
        .connect()
        .await
        .map_err(|fault| judge(fault, file, "opened"))
}

/// SQLite's primary codes for a damaged file and for a file that is none of its own.
const BROKEN: [u32; 2] = [11, 26];

/// Says that the file is damaged when the engine says so.
pub(super) fn judge(fault: sqlx::Error, file: &Path, doing: &'static str) -> StoreError {
    if let sqlx::Error::Database(inner) = &fault {
        let code = inner.code().and_then(|code| code.parse::<u32>().ok());
        if code.is_some_and(|code| BROKEN.contains(&(code & 0xff))) {
            return StoreError::Damaged {
                file: file.to_owned(),
                detail: inner.message().to_owned(),
            };
        }
    }
    StoreError::database(doing, fault)
}
