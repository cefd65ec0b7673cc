//! Versions, photos, settings, devices.

mod common;

use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};

use common::{START, id, workroom};
use serde_json::json;
use store::{Event, Kind, Options, SqliteStore, Store, StoreError, Timestamp};

#[tokio::test]
async fn versions_never_change() {
    let (_folder, store) = workroom().await;
    let suit = store.create(Kind::Suit, json!({"a": 1}), "").await.unwrap();
    let mut events = store.events();
    let second = store
        .keep_version(&suit.id, 2, json!({"a": 2}), "text 2", "after the try-on")
        .await
        .unwrap();
    let first = store
        .keep_version(&suit.id, 1, json!({"a": 1}), "text 1", "")
        .await
        .unwrap();
    let again = store
        .keep_version(&suit.id, 1, json!({"a": 9}), "other", "")
        .await;
    assert!(matches!(again, Err(StoreError::VersionExists { number: 1, .. })));
    assert_eq!(store.versions(&suit.id).await.unwrap(), [first, second]);
    assert_eq!(
        events.recv().await.unwrap(),
        Event::Version {
            suit: suit.id,
            number: 2
        }
    );
    assert!(matches!(
        store.versions(&id("no")).await,
        Err(StoreError::NotFound(_))
    ));
    let lost = store.keep_version(&id("no"), 1, json!({}), "", "").await;
    assert!(matches!(lost, Err(StoreError::NotFound(_))));
}

#[tokio::test]
async fn photos_come_back_byte_by_byte() {
    let (_folder, store) = workroom().await;
    let suit = store.create(Kind::Suit, json!({}), "").await.unwrap();
    let bytes: Vec<u8> = (0..=255).cycle().take(300_000).collect();
    let one = store
        .put_photo(&suit.id, "image/jpeg", bytes.clone())
        .await
        .unwrap();
    let two = store.put_photo(&suit.id, "image/png", vec![0]).await.unwrap();
    let photo = store.photo(&one).await.unwrap();
    assert_eq!((photo.bytes, photo.info.mime.as_str()), (bytes, "image/jpeg"));
    let sizes: Vec<_> = store
        .photos(&suit.id)
        .await
        .unwrap()
        .into_iter()
        .map(|info| (info.id, info.size))
        .collect();
    assert_eq!(sizes, [(one.clone(), 300_000), (two, 1)]);
    store.remove_photo(&one).await.unwrap();
    assert!(matches!(store.photo(&one).await, Err(StoreError::NoPhoto(_))));
    assert!(matches!(
        store.remove_photo(&one).await,
        Err(StoreError::NoPhoto(_))
    ));
    assert_eq!(store.photos(&suit.id).await.unwrap().len(), 1);
    let lost = store.put_photo(&id("no"), "image/png", vec![0]).await;
    assert!(matches!(lost, Err(StoreError::NotFound(_))));
}

#[tokio::test]
async fn settings() {
    let (folder, store) = workroom().await;
    assert_eq!(store.setting("units").await.unwrap(), None);
    store.set_setting("units", &json!("cm")).await.unwrap();
    store
        .set_setting("units", &json!({"length": "in"}))
        .await
        .unwrap();
    assert!(matches!(
        store.set_setting("", &json!(1)).await,
        Err(StoreError::BadSetting { .. })
    ));
    let large = json!("x".repeat(70_000));
    assert!(matches!(
        store.set_setting("a", &large).await,
        Err(StoreError::BadSetting { .. })
    ));
    store.close().await;
    drop(store);
    let store = common::open(folder.path()).await;
    assert_eq!(
        store.setting("units").await.unwrap(),
        Some(json!({"length": "in"}))
    );
}

#[tokio::test]
async fn devices() {
    let folder = tempfile::tempdir().unwrap();
    let now = Arc::new(AtomicI64::new(START));
    let clock = Arc::clone(&now);
    let options = Options {
        clock: Arc::new(move || Timestamp::from_millis(clock.load(Ordering::SeqCst))),
        ..Options::default()
    };
    let store = SqliteStore::open(folder.path(), options).await.unwrap();
    let tablet = store.add_session("hash", "tablet").await.unwrap();
    assert_eq!(store.check_session("other").await.unwrap(), None);
    now.store(START + 59_000, Ordering::SeqCst);
    assert_eq!(
        store.check_session("hash").await.unwrap(),
        Some(tablet.clone()),
        "not written within a minute"
    );
    now.store(START + 60_000, Ordering::SeqCst);
    let seen = store.check_session("hash").await.unwrap().unwrap();
    assert_eq!(seen.last_seen.millis(), START + 60_000);
    let renamed = store.add_session("hash", "the tablet").await.unwrap();
    assert_eq!(
        (renamed.name.as_str(), renamed.created_at),
        ("the tablet", tablet.created_at)
    );
    assert_eq!(store.sessions().await.unwrap(), [renamed]);
    assert!(store.remove_session("hash").await.unwrap());
    assert!(!store.remove_session("hash").await.unwrap());
    assert_eq!(store.check_session("hash").await.unwrap(), None);
}
