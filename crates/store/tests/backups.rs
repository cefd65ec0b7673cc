//! Backups, restoring, and files that are not in order.

#![allow(clippy::unwrap_used, reason = "helpers of tests may unwrap as tests do")]

mod common;

use std::path::Path;

use common::{START, edit, id, open, options, set, workroom};
use serde_json::json;
use sqlx::migrate::Migrator;
use sqlx::{ConnectOptions, Connection};
use store::{BackupReason, Event, KEPT_BACKUPS, Kind, SqliteStore, Store, StoreError, Timestamp};

const DAY: i64 = 86_400_000;

fn database(folder: &Path) -> std::path::PathBuf {
    folder.join("workroom.sqlite")
}

async fn raw(file: &Path, statements: &[&'static str]) {
    let mut db = sqlx::sqlite::SqliteConnectOptions::new()
        .filename(file)
        .foreign_keys(false)
        .connect()
        .await
        .unwrap();
    for &statement in statements {
        sqlx::query(statement).execute(&mut db).await.unwrap();
    }
    db.close().await.unwrap();
}

#[tokio::test]
async fn one_a_day_and_fourteen_stay() {
    let (_folder, store) = workroom().await;
    let day = |n: i64| Timestamp::from_millis(START + n * DAY);
    let first = store.backup_if_due(day(0)).await.unwrap().unwrap();
    assert_eq!((first.reason, first.at), (BackupReason::Daily, day(0)));
    assert_eq!(first.name, "20260301T093000000-daily.sqlite");
    let evening = Timestamp::from_millis(START + 14 * 3_600_000);
    assert_eq!(store.backup_if_due(evening).await.unwrap(), None);
    for n in 1..=20 {
        assert!(store.backup_if_due(day(n)).await.unwrap().is_some());
    }
    let found = store.backups().await.unwrap();
    assert_eq!(found.len(), KEPT_BACKUPS);
    assert_eq!((found[0].at, found[13].at), (day(20), day(7)));
    // Two of one millisecond, and one older than all: it is kept, because it was just made.
    assert!(store.backup_if_due(day(-9)).await.unwrap().is_some());
    assert!(
        store
            .backups()
            .await
            .unwrap()
            .iter()
            .any(|backup| backup.at == day(-9))
    );
}

#[tokio::test]
async fn restoring_puts_everything_back_but_devices() {
    let (_folder, store) = workroom().await;
    let suit = store.create(Kind::Suit, json!({"a": 1}), "").await.unwrap();
    let photo = store
        .put_photo(&suit.id, "image/png", vec![1, 2, 3])
        .await
        .unwrap();
    store
        .keep_version(&suit.id, 1, json!({"v": 1}), "t", "")
        .await
        .unwrap();
    store.set_setting("units", &json!("cm")).await.unwrap();
    store.add_session("old", "lost telephone").await.unwrap();
    let then = store
        .edit(edit(&suit.id, suit.revision, vec![set("a", json!(2))], "to 2"))
        .await
        .unwrap();
    let backup = store.backup(BackupReason::Asked).await.unwrap();

    store.remove_session("old").await.unwrap();
    store.add_session("new", "tablet").await.unwrap();
    store.set_setting("units", &json!("in")).await.unwrap();
    store.remove_photo(&photo).await.unwrap();
    let later = store
        .edit(edit(
            &suit.id,
            then.entry.unwrap(),
            vec![set("a", json!(3))],
            "to 3",
        ))
        .await
        .unwrap();
    let extra = store.create(Kind::Suit, json!({}), "").await.unwrap();
    let mut events = store.events();

    let rescue = store.restore_backup(&backup.name).await.unwrap();
    assert_eq!(rescue.reason, BackupReason::BeforeRestore);
    assert_eq!(events.recv().await.unwrap(), Event::Reloaded);
    let now = store.get(&suit.id).await.unwrap();
    assert_eq!(now.body, json!({"a": 2}));
    assert!(
        now.revision > extra.revision,
        "newer than anything any page has seen"
    );
    assert_eq!(store.photo(&photo).await.unwrap().bytes, [1, 2, 3]);
    assert_eq!(store.versions(&suit.id).await.unwrap().len(), 1);
    assert_eq!(store.setting("units").await.unwrap(), Some(json!("cm")));
    assert!(matches!(store.get(&extra.id).await, Err(StoreError::NotFound(_))));
    let devices: Vec<String> = store
        .sessions()
        .await
        .unwrap()
        .into_iter()
        .map(|session| session.token_hash)
        .collect();
    assert_eq!(devices, ["new"]);
    // A page that still shows what came after the backup is told so.
    let stale = store
        .edit(edit(&suit.id, later.entry.unwrap(), vec![set("b", json!(1))], ""))
        .await;
    assert!(matches!(stale, Err(StoreError::StaleBase { .. })));
    // One that shows what was there before may go on, and the way back is there.
    store
        .edit(edit(&suit.id, then.entry.unwrap(), vec![set("b", json!(1))], "b"))
        .await
        .unwrap();
    store.back(std::slice::from_ref(&suit.id), 0).await.unwrap();
    let gone = store.back(std::slice::from_ref(&suit.id), 0).await.unwrap();
    assert_eq!(gone.documents[0].body, json!({"a": 1}));
    // And back to the later state.
    store.restore_backup(&rescue.name).await.unwrap();
    assert_eq!(store.get(&suit.id).await.unwrap().body, json!({"a": 3}));
    assert!(store.get(&extra.id).await.is_ok());
}

#[tokio::test]
async fn names_that_lead_elsewhere() {
    let (folder, store) = workroom().await;
    store
        .create_with_id(id("here"), Kind::Suit, json!({}), "")
        .await
        .unwrap();
    let backup = store.backup(BackupReason::Asked).await.unwrap();
    let outside = folder.path().join("20260301T093000123-daily.sqlite");
    std::fs::copy(database(folder.path()), &outside).unwrap();
    let absolute = folder.path().join("backups").join(&backup.name);
    for name in [
        "",
        ".",
        "..",
        "../workroom.sqlite",
        "../20260301T093000123-daily.sqlite",
        "20260301T093000123-daily.sqlite",
        "workroom.sqlite",
        absolute.to_str().unwrap(),
        &format!("./{}", backup.name),
        &format!("{}\0", backup.name),
    ] {
        assert!(
            matches!(store.restore_backup(name).await, Err(StoreError::NoBackup(_))),
            "{name:?}"
        );
    }
    assert_eq!(
        store.backups().await.unwrap().len(),
        1,
        "a refused name makes no backup either"
    );
}

#[tokio::test]
async fn a_damaged_or_newer_backup_changes_nothing() {
    let (folder, store) = workroom().await;
    let suit = store
        .create(Kind::Suit, json!({"a": "x".repeat(50_000)}), "")
        .await
        .unwrap();
    let backup = store.backup(BackupReason::Asked).await.unwrap();
    let file = folder.path().join("backups").join(&backup.name);
    let whole = std::fs::read(&file).unwrap();

    std::fs::write(&file, &whole[..whole.len() / 2]).unwrap();
    match store.restore_backup(&backup.name).await {
        Err(StoreError::Damaged { file: named, .. }) => assert_eq!(named, file),
        other => panic!("{other:?}"),
    }
    std::fs::write(&file, &whole).unwrap();
    raw(
        &file,
        &["UPDATE _sqlx_migrations SET version = 99 WHERE version = 2"],
    )
    .await;
    let newer = std::fs::read(&file).unwrap();
    assert!(matches!(
        store.restore_backup(&backup.name).await,
        Err(StoreError::Newer { found: 99, .. })
    ));
    assert_eq!(std::fs::read(&file).unwrap(), newer);
    std::fs::write(&file, &whole).unwrap();
    raw(&file, &["DELETE FROM document"]).await;
    assert!(
        matches!(
            store.restore_backup(&backup.name).await,
            Err(StoreError::Damaged { .. })
        ),
        "parts without their document"
    );
    assert_eq!(store.get(&suit.id).await.unwrap(), suit);
    assert_eq!(store.backups().await.unwrap().len(), 1);
}

#[tokio::test]
async fn two_at_one_folder() {
    let (folder, store) = workroom().await;
    match SqliteStore::open(folder.path(), options()).await.map(|_| ()) {
        Err(fault @ StoreError::InUse { .. }) => assert_eq!(
            fault.to_string(),
            format!(
                "another slackwater has this workroom open: close it first, or use another folder ({})",
                folder.path().display()
            )
        ),
        other => panic!("{other:?}"),
    }
    store.close().await;
    drop(store);
    open(folder.path()).await;
}

#[tokio::test]
async fn files_not_in_order_are_named_and_left() {
    for (what, words) in [
        (
            &b"a letter to a friend, long enough to be looked at as a database would be, and then some more"
                [..],
            "not a database",
        ),
        (
            &b"SQLite format 3\0 and then nothing that makes sense, whatever is read from these pages"[..],
            "",
        ),
    ] {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(database(folder.path()), what).unwrap();
        match SqliteStore::open(folder.path(), options()).await.map(|_| ()) {
            Err(fault @ StoreError::Damaged { .. }) => {
                let text = fault.to_string();
                assert!(
                    text.contains(words) && text.contains("workroom.sqlite") && text.contains("backups"),
                    "{text}"
                );
            }
            other => panic!("{other:?}"),
        }
        assert_eq!(std::fs::read(database(folder.path())).unwrap(), what);
    }
}

#[tokio::test]
async fn a_workroom_cut_short_is_not_written_over() {
    let (folder, store) = workroom().await;
    store
        .create(Kind::Suit, json!({"a": "x".repeat(100_000)}), "")
        .await
        .unwrap();
    store.backup(BackupReason::Asked).await.unwrap();
    store.close().await;
    drop(store);
    let file = database(folder.path());
    let whole = std::fs::read(&file).unwrap();
    for length in [0, whole.len() / 2] {
        std::fs::write(&file, &whole[..length]).unwrap();
        let opened = SqliteStore::open(folder.path(), options()).await.map(|_| ());
        assert!(
            matches!(opened, Err(StoreError::Damaged { .. })),
            "{length}: {opened:?}"
        );
        assert_eq!(std::fs::read(&file).unwrap(), &whole[..length]);
    }
    std::fs::remove_file(&file).unwrap();
    std::fs::write(folder.path().join("workroom.sqlite-wal"), b"what is left").unwrap();
    assert!(matches!(
        SqliteStore::open(folder.path(), options()).await.map(|_| ()),
        Err(StoreError::Damaged { .. })
    ));
}

#[tokio::test]
async fn a_newer_workroom_and_one_of_another_program_are_left() {
    let (folder, store) = workroom().await;
    store.close().await;
    drop(store);
    let file = database(folder.path());
    raw(
        &file,
        &["UPDATE _sqlx_migrations SET version = 99 WHERE version = 2"],
    )
    .await;
    let before = std::fs::read(&file).unwrap();
    match SqliteStore::open(folder.path(), options()).await.map(|_| ()) {
        Err(
            fault @ StoreError::Newer {
                found: 99, known: 2, ..
            },
        ) => {
            assert!(fault.to_string().contains("update slackwater"), "{fault}");
        }
        other => panic!("{other:?}"),
    }
    assert_eq!(std::fs::read(&file).unwrap(), before);

    let other = tempfile::tempdir().unwrap();
    let file = database(other.path());
    let mut db = sqlx::sqlite::SqliteConnectOptions::new()
        .filename(&file)
        .create_if_missing(true)
        .connect()
        .await
        .unwrap();
    sqlx::query("CREATE TABLE recipe (name TEXT)")
        .execute(&mut db)
        .await
        .unwrap();
    db.close().await.unwrap();
    let before = std::fs::read(&file).unwrap();
    match SqliteStore::open(other.path(), options()).await.map(|_| ()) {
        Err(StoreError::Damaged { detail, .. }) => assert_eq!(detail, "it is a database of another program"),
        other => panic!("{other:?}"),
    }
    assert_eq!(std::fs::read(&file).unwrap(), before);
}

/// A workroom as the first layout left it.
async fn old_workroom(file: &Path) {
    let migrations = Migrator::new(Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/migrations")))
        .await
        .unwrap();
    let mut db = sqlx::sqlite::SqliteConnectOptions::new()
        .filename(file)
        .create_if_missing(true)
        .connect()
        .await
        .unwrap();
    migrations.run_to(1, &mut db).await.unwrap();
    for statement in [
        "INSERT INTO document VALUES ('old', 'suit', 1, '{\"a\":1}', '2026-01-01T00:00:00.000Z', \
         '2026-01-01T00:00:00.000Z', NULL)",
        "INSERT INTO entry VALUES (1, '2026-01-01T00:00:00.000Z', 'made', 'made', NULL)",
        "INSERT INTO part VALUES ('old', 1, '[]')",
        "UPDATE counter SET value = 1",
    ] {
        sqlx::query(statement).execute(&mut db).await.unwrap();
    }
    db.close().await.unwrap();
}

#[tokio::test]
async fn an_older_workroom_is_backed_up_and_brought_up_to_date() {
    let folder = tempfile::tempdir().unwrap();
    old_workroom(&database(folder.path())).await;
    let store = open(folder.path()).await;
    let found = store.backups().await.unwrap();
    assert_eq!(
        found.iter().map(|backup| backup.reason).collect::<Vec<_>>(),
        [BackupReason::BeforeUpdate]
    );
    assert_eq!(store.get(&id("old")).await.unwrap().body, json!({"a": 1}));
    store.put_photo(&id("old"), "image/png", vec![1]).await.unwrap();
    // The backup has the old layout; it can be restored all the same.
    store.restore_backup(&found[0].name).await.unwrap();
    assert_eq!(store.photos(&id("old")).await.unwrap(), []);
    assert_eq!(store.get(&id("old")).await.unwrap().body, json!({"a": 1}));
    store.close().await;
    drop(store);
    let store = open(folder.path()).await;
    assert_eq!(
        store.backups().await.unwrap().len(),
        2,
        "an up-to-date workroom is not backed up at opening"
    );
}
