//! A workroom in a passing folder, with a clock that moves one second at each look and ids that count.

#![allow(dead_code, reason = "each test file takes what it needs")]
#![allow(clippy::unwrap_used, reason = "these are parts of tests")]

use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, AtomicU64, Ordering};

use serde_json::Value;
use store::{DocumentEdit, DocumentId, Edit, Options, Set, SqliteStore, Timestamp};
use tempfile::TempDir;

/// 2026-03-01T09:30:00Z.
pub(crate) const START: i64 = 1_772_357_400_000;

pub(crate) fn options() -> Options {
    let (clock, ids) = (AtomicI64::new(START), AtomicU64::new(1));
    Options {
        clock: Arc::new(move || Timestamp::from_millis(clock.fetch_add(1_000, Ordering::SeqCst))),
        ids: Arc::new(move || format!("id{}", ids.fetch_add(1, Ordering::SeqCst))),
    }
}

pub(crate) async fn open(folder: &Path) -> SqliteStore {
    SqliteStore::open(folder, options()).await.unwrap()
}

pub(crate) async fn workroom() -> (TempDir, SqliteStore) {
    let folder = tempfile::tempdir().unwrap();
    let store = open(folder.path()).await;
    (folder, store)
}

pub(crate) fn set(path: &str, value: Value) -> Set {
    Set {
        path: path.into(),
        value: Some(value),
    }
}

pub(crate) fn edit(id: &DocumentId, base: u64, changes: Vec<Set>, words: &str) -> Edit {
    Edit {
        parts: vec![DocumentEdit {
            id: id.clone(),
            base,
            changes,
        }],
        words: words.into(),
    }
}

pub(crate) fn id(text: &str) -> DocumentId {
    text.parse().unwrap()
}
