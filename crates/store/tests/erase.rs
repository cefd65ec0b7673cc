//! Erased bytes are gone from every file.

#![allow(clippy::unwrap_used, reason = "helpers of tests may unwrap as tests do")]

mod common;

use std::path::Path;

use common::{edit, id, set, workroom};
use serde_json::json;
use store::{BackupReason, DocumentEdit, Edit, Erased, Event, Kind, Store, StoreError};

const MARK: &str = "Zebrafinch-7731";

/// Files below a folder that hold the mark.
fn with_mark(folder: &Path) -> Vec<String> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(with_mark(&path));
        } else if std::fs::read(&path)
            .unwrap()
            .windows(MARK.len())
            .any(|window| window == MARK.as_bytes())
        {
            found.push(path.file_name().unwrap().to_str().unwrap().to_owned());
        }
    }
    found
}

#[tokio::test]
async fn nothing_of_an_erased_wearer_is_left_in_any_file() {
    let (folder, store) = workroom().await;
    let wearer = store
        .create(Kind::Wearer, json!({"name": MARK, "waist": 700}), MARK)
        .await
        .unwrap();
    let other = store
        .create(Kind::Suit, json!({"kept": true}), "a suit")
        .await
        .unwrap();
    store.backup(BackupReason::Asked).await.unwrap();
    // In the journal: values before and after, words, a shared action, going back.
    let shared = Edit {
        parts: vec![
            DocumentEdit {
                id: wearer.id.clone(),
                base: wearer.revision,
                changes: vec![set("note", json!(format!("{MARK} {}", "long ".repeat(3_000))))],
            },
            DocumentEdit {
                id: other.id.clone(),
                base: other.revision,
                changes: vec![set("a", json!(1))],
            },
        ],
        words: format!("choose {MARK}"),
    };
    let seq = store.edit(shared).await.unwrap().entry.unwrap();
    store
        .edit(edit(&wearer.id, seq, vec![set("name", json!("other"))], "rename"))
        .await
        .unwrap();
    store.back(std::slice::from_ref(&wearer.id), 0).await.unwrap();
    store
        .keep_version(&wearer.id, 1, json!({"m": MARK}), MARK, MARK)
        .await
        .unwrap();
    let mut picture = vec![0xff; 200_000];
    picture.splice(100_000..100_000, MARK.bytes());
    let photo = store.put_photo(&wearer.id, "image/jpeg", picture).await.unwrap();
    store.backup(BackupReason::Asked).await.unwrap();
    let marked = with_mark(folder.path());
    assert!(
        marked.len() >= 3,
        "the log or the database, and both backups: {marked:?}"
    );

    let mut events = store.events();
    let erased = store.erase(&[wearer.id.clone(), id("nobody")]).await.unwrap();
    assert_eq!(
        erased,
        Erased {
            documents: 1,
            backups: 2
        }
    );
    assert_eq!(with_mark(folder.path()), [""; 0], "while the store is open");
    assert!(
        matches!(events.recv().await.unwrap(), Event::Erased { documents } if documents.contains(&wearer.id))
    );

    assert!(matches!(
        store.get(&wearer.id).await,
        Err(StoreError::NotFound(_))
    ));
    assert!(matches!(store.photo(&photo).await, Err(StoreError::NoPhoto(_))));
    let left = store.history(std::slice::from_ref(&other.id), 0).await.unwrap();
    let words: Vec<(&str, usize)> = left
        .iter()
        .map(|entry| (entry.words.as_str(), entry.parts.len()))
        .collect();
    assert_eq!(
        words,
        [("a suit", 1), ("", 1)],
        "the other document keeps its own part, without the words"
    );
    store.back(std::slice::from_ref(&other.id), 0).await.unwrap();
    assert_eq!(store.get(&other.id).await.unwrap().body, json!({"kept": true}));
    // Numbers are not given out again, and the workroom can still be carried.
    let next = store.create(Kind::Suit, json!({}), "").await.unwrap();
    assert!(next.revision > seq + 2);
    let bytes = store.export_archive().await.unwrap();
    store
        .import_archive(bytes, store::ImportMode::Replace)
        .await
        .unwrap();

    for backup in store.backups().await.unwrap() {
        store.restore_backup(&backup.name).await.unwrap();
        assert!(
            matches!(store.get(&wearer.id).await, Err(StoreError::NotFound(_))),
            "{}",
            backup.name
        );
        assert_eq!(store.get(&other.id).await.unwrap().body["kept"], json!(true));
    }
    store.close().await;
    assert_eq!(with_mark(folder.path()), [""; 0], "after closing");
}

#[tokio::test]
async fn what_lives_in_a_backup_alone_is_erased_there() {
    let (folder, store) = workroom().await;
    let empty = store.backup(BackupReason::Asked).await.unwrap();
    let wearer = store
        .create(Kind::Wearer, json!({"name": MARK}), "")
        .await
        .unwrap();
    store.restore_backup(&empty.name).await.unwrap();
    assert!(matches!(
        store.get(&wearer.id).await,
        Err(StoreError::NotFound(_))
    ));
    assert_eq!(
        store.erase(&[wearer.id]).await.unwrap(),
        Erased {
            documents: 0,
            backups: 1
        }
    );
    assert_eq!(with_mark(folder.path()), [""; 0]);
}

#[tokio::test]
async fn a_backup_that_cannot_be_searched_stops_erasing_before_anything_is_done() {
    let (folder, store) = workroom().await;
    let wearer = store
        .create(Kind::Wearer, json!({"name": MARK}), "")
        .await
        .unwrap();
    let backup = store.backup(BackupReason::Asked).await.unwrap();
    let file = folder.path().join("backups").join(&backup.name);
    std::fs::write(
        &file,
        b"this is no database, but a long enough text to be read as one .........",
    )
    .unwrap();
    match store.erase(std::slice::from_ref(&wearer.id)).await {
        Err(StoreError::Damaged { file: named, .. }) => assert_eq!(named, file),
        other => panic!("{other:?}"),
    }
    assert!(store.get(&wearer.id).await.is_ok());
}
