//! The workroom carried in one file: there and back, beside what is here, and what is refused.

#![allow(clippy::unwrap_used, reason = "helpers of tests may unwrap as tests do")]

mod common;

use std::io::{Cursor, Read, Write};

use common::{edit, id, open, set, workroom};
use serde_json::{Value, json};
use store::{ArchiveFault, BackupReason, Document, Event, ImportMode, Kind, SqliteStore, Store, StoreError};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

/// A workroom with something of everything.
async fn fill(store: &SqliteStore) -> (Document, Document) {
    let wearer = store
        .create_with_id(id("ines"), Kind::Wearer, json!({"waist": 700.1}), "measure")
        .await
        .unwrap();
    let suit = store
        .create_with_id(
            id("suit"),
            Kind::Suit,
            json!({"wearer": "ines", "note": "ines is here", "ines": 1}),
            "",
        )
        .await
        .unwrap();
    let first = store
        .edit(edit(
            &suit.id,
            suit.revision,
            vec![set("refs.list", json!(["ines", null]))],
            "list",
        ))
        .await;
    store
        .edit(edit(
            &suit.id,
            first.unwrap().entry.unwrap(),
            vec![set("refs.list", json!([]))],
            "none",
        ))
        .await
        .unwrap();
    store.back(std::slice::from_ref(&suit.id), 0).await.unwrap();
    store
        .keep_version(&suit.id, 3, json!({"wearer": "ines"}), "the text", "three")
        .await
        .unwrap();
    store
        .put_photo(&suit.id, "image/png", (0..=255).cycle().take(5_000).collect())
        .await
        .unwrap();
    store.set_setting("units", &json!("cm")).await.unwrap();
    store.add_session("secret-hash", "tablet").await.unwrap();
    let gone = store.create(Kind::Cloth, json!({}), "").await.unwrap();
    store.delete(&gone.id, "away").await.unwrap();
    // A gap in the journal, as erasing leaves it.
    let lost = store.create(Kind::Cloth, json!({}), "").await.unwrap();
    store.erase(&[lost.id]).await.unwrap();
    store
        .edit(edit(
            &wearer.id,
            wearer.revision,
            vec![set("hip", json!(0.1 + 0.2))],
            "hip",
        ))
        .await
        .unwrap();
    (
        store.get(&wearer.id).await.unwrap(),
        store.get(&suit.id).await.unwrap(),
    )
}

#[tokio::test]
async fn there_and_back_is_the_same_to_the_byte() {
    let (_folder, store) = workroom().await;
    let (wearer, suit) = fill(&store).await;
    let bytes = store.export_archive().await.unwrap();
    assert_eq!(
        store.export_archive().await.unwrap(),
        bytes,
        "same content, same bytes"
    );
    assert!(!bytes.windows(11).any(|window| window == b"secret-hash"));

    let (_other_folder, other) = workroom().await;
    let before = other.create(Kind::Suit, json!({"mine": 1}), "").await.unwrap();
    other.add_session("mine", "telephone").await.unwrap();
    let mut events = other.events();
    let imported = other
        .import_archive(bytes.clone(), ImportMode::Replace)
        .await
        .unwrap();
    assert_eq!(events.recv().await.unwrap(), Event::Reloaded);
    assert_eq!(
        (imported.documents, imported.versions, imported.photos),
        (3, 1, 1)
    );
    let rescue = imported.backup.unwrap();
    assert_eq!(rescue.reason, BackupReason::BeforeImport);
    assert!(matches!(
        other.get(&before.id).await,
        Err(StoreError::NotFound(_))
    ));
    assert_eq!(other.export_archive().await.unwrap(), bytes);
    let carried = other.get(&suit.id).await.unwrap();
    assert_eq!((&carried.body, carried.created_at), (&suit.body, suit.created_at));
    assert!(carried.revision > before.revision);
    assert_eq!(
        other.get(&wearer.id).await.unwrap().body["hip"].as_f64(),
        Some(0.1 + 0.2)
    );
    assert_eq!(other.setting("units").await.unwrap(), Some(json!("cm")));
    assert_eq!(other.sessions().await.unwrap()[0].token_hash, "mine");
    assert_eq!(other.bin().await.unwrap().len(), 1);
    // The journal works on.
    let forward = other.forward(std::slice::from_ref(&suit.id), 0).await.unwrap();
    assert_eq!(forward.documents[0].body["refs"]["list"], json!([]));
    other.restore_backup(&rescue.name).await.unwrap();
    assert!(other.get(&before.id).await.is_ok());
}

#[tokio::test]
async fn added_beside_what_is_here_taken_ids_change_and_references_follow() {
    let (_folder, store) = workroom().await;
    fill(&store).await;
    let bytes = store.export_archive().await.unwrap();
    let (_other_folder, other) = workroom().await;
    let mine = other
        .create_with_id(id("ines"), Kind::Wearer, json!({"waist": 1}), "")
        .await
        .unwrap();
    other.set_setting("units", &json!("in")).await.unwrap();
    let imported = other
        .import_archive(bytes.clone(), ImportMode::Add)
        .await
        .unwrap();
    let new = imported.renamed[&mine.id].clone();
    assert_eq!((imported.renamed.len(), imported.backup), (1, None));
    assert_eq!(other.get(&mine.id).await.unwrap(), mine);
    assert_eq!(other.get(&new).await.unwrap().body["waist"], json!(700.1));
    let suit = other.get(&id("suit")).await.unwrap();
    assert_eq!(suit.body["wearer"], json!(new.as_str()));
    assert_eq!(
        suit.body["note"],
        json!("ines is here"),
        "only whole values are references"
    );
    assert_eq!(suit.body["ines"], json!(1), "keys are none");
    assert_eq!(suit.body["refs"]["list"], json!([new.as_str(), null]));
    assert_eq!(
        other.versions(&suit.id).await.unwrap()[0].body,
        json!({"wearer": new.as_str()})
    );
    assert_eq!(other.setting("units").await.unwrap(), Some(json!("in")));
    // The journal was renamed as well: back and forward meet the values they expect.
    other.back(std::slice::from_ref(&suit.id), 0).await.unwrap();
    let again = other.forward(std::slice::from_ref(&suit.id), 0).await.unwrap();
    assert_eq!(
        again.documents[0].body["refs"]["list"],
        json!([new.as_str(), null])
    );
    // Once more: now everything is taken.
    let twice = other.import_archive(bytes, ImportMode::Add).await.unwrap();
    assert_eq!((twice.renamed.len(), twice.photos), (3, 1));
    let copy = &twice.renamed[&suit.id];
    assert_eq!(other.photos(copy).await.unwrap().len(), 1);
    assert_eq!(other.list(Kind::Suit).await.unwrap().len(), 2);
}

fn files(bytes: &[u8]) -> Vec<(String, Vec<u8>)> {
    let mut zip = ZipArchive::new(Cursor::new(bytes)).unwrap();
    (0..zip.len())
        .map(|at| {
            let mut file = zip.by_index(at).unwrap();
            let mut content = Vec::new();
            file.read_to_end(&mut content).unwrap();
            (file.name().unwrap().into_owned(), content)
        })
        .collect()
}

fn zipped(files: &[(String, Vec<u8>)]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, content) in files {
        let options = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
        zip.start_file(name.as_str(), options).unwrap();
        zip.write_all(content).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

/// The archive with its documents changed.
fn altered(bytes: &[u8], change: impl FnOnce(&mut Value)) -> Vec<u8> {
    let mut all = files(bytes);
    let documents = all.iter_mut().find(|(name, _)| name == "documents.json").unwrap();
    let mut sheets: Value = serde_json::from_slice(&documents.1).unwrap();
    change(&mut sheets);
    documents.1 = serde_json::to_vec(&sheets).unwrap();
    zipped(&all)
}

async fn faults(store: &SqliteStore, bytes: Vec<u8>) -> Vec<ArchiveFault> {
    match store.import_archive(bytes, ImportMode::Replace).await {
        Err(StoreError::Archive(faults)) => faults,
        other => panic!("{other:?}"),
    }
}

#[tokio::test]
async fn archives_that_do_not_hang_together() {
    let (_folder, store) = workroom().await;
    fill(&store).await;
    let bytes = store.export_archive().await.unwrap();
    let sheet = |sheets: &Value, list: &str, name: &str| {
        sheets[list]
            .as_array()
            .unwrap()
            .iter()
            .position(|item| item["id"] == name)
            .unwrap()
    };
    type Change = Box<dyn Fn(&mut Value)>;
    let cases: Vec<(&str, &str, Change)> = vec![
        (
            "document suit",
            "does not lead to its body",
            Box::new(move |s| {
                let at = sheet(s, "documents", "suit");
                s["documents"][at]["body"]["refs"]["list"] = json!(["other"]);
            }),
        ),
        (
            "document ines",
            "its revision is not",
            Box::new(move |s| {
                let at = sheet(s, "documents", "ines");
                s["documents"][at]["revision"] = json!(1);
            }),
        ),
        (
            "document ines",
            "must be an object",
            Box::new(move |s| {
                let at = sheet(s, "documents", "ines");
                s["documents"][at]["body"] = json!(3);
            }),
        ),
        (
            "journal entry 2",
            "is numbered 7",
            Box::new(|s| s["journal"][1]["seq"] = json!(7)),
        ),
        (
            "journal entry 1",
            "must be made once, and first",
            Box::new(|s| s["journal"][0]["kind"] = json!("edit")),
        ),
        (
            "journal entry 5",
            "no earlier edit",
            Box::new(|s| s["journal"][4]["target"] = json!(1)),
        ),
        (
            "journal entry 1",
            "touches no document",
            Box::new(|s| s["journal"][0]["parts"] = json!([])),
        ),
        (
            "journal entry 3",
            "500",
            Box::new(|s| s["journal"][2]["words"] = json!("x".repeat(600))),
        ),
        (
            "version 3 of suit nobody",
            "its suit is missing",
            Box::new(|s| s["versions"][0]["suit"] = json!("nobody")),
        ),
        (
            "photo ",
            "its size is not",
            Box::new(|s| s["photos"][0]["size"] = json!(4)),
        ),
        (
            "photo ",
            "is not a photo",
            Box::new(|s| s["photos"][0]["mime"] = json!("picture")),
        ),
        (
            "photo ",
            "its file is missing",
            Box::new(|s| s["photos"][0]["id"] = json!("other")),
        ),
        (
            "setting ",
            "1 to 100 bytes",
            Box::new(|s| s["settings"][0]["name"] = json!("")),
        ),
        (
            "documents.json",
            "unknown variant",
            Box::new(|s| s["documents"][0]["kind"] = json!("hat")),
        ),
        (
            "documents.json",
            "is not an id",
            Box::new(|s| s["photos"][0]["id"] = json!("../../x")),
        ),
        (
            "documents.json",
            "is not a moment",
            Box::new(|s| s["documents"][0]["created_at"] = json!("today")),
        ),
        (
            "documents.json",
            "unknown field",
            Box::new(|s| s["documents"][0]["more"] = json!(1)),
        ),
    ];
    let before = store.export_archive().await.unwrap();
    for (place, what, change) in cases {
        let found = faults(&store, altered(&bytes, change)).await;
        assert!(
            found
                .iter()
                .any(|fault| fault.place.starts_with(place) && fault.what.contains(what)),
            "{place}: {what}: {found:?}"
        );
    }
    assert_eq!(
        store.export_archive().await.unwrap(),
        before,
        "nothing was changed"
    );
    assert_eq!(store.backups().await.unwrap(), [], "not even a backup was made");
}

#[tokio::test]
async fn files_that_are_no_archives() {
    let (_folder, store) = workroom().await;
    fill(&store).await;
    let bytes = store.export_archive().await.unwrap();
    let one = async |bytes: Vec<u8>, place: &str, what: &str| {
        let found = faults(&store, bytes).await;
        assert!(
            found[0].place.contains(place) && found[0].what.contains(what),
            "{place}: {what}: {found:?}"
        );
    };
    one(Vec::new(), "the file", "no whole zip file").await;
    one(b"hello".to_vec(), "the file", "no whole zip file").await;
    one(bytes[..bytes.len() / 2].to_vec(), "the file", "no whole zip file").await;
    one(zipped(&[]), "manifest.json", "missing").await;
    let with = |name: &str, content: &[u8]| {
        let mut all = files(&bytes);
        all.retain(|(other, _)| other != name);
        all.push((name.to_owned(), content.to_vec()));
        zipped(&all)
    };
    one(with("manifest.json", b"{"), "manifest.json", "again").await;
    one(
        with("manifest.json", br#"{"format":"recipes","version":1}"#),
        "manifest.json",
        "no archive of a workroom",
    )
    .await;
    let newer = br#"{"format":"slackwater workroom","version":2,"more":[]}"#;
    one(with("manifest.json", newer), "manifest.json", "update slackwater").await;
    one(with("../evil", b"x"), "evil", "no archive of ours").await;
    one(with("photos/../evil", b"x"), "evil", "no archive of ours").await;
    one(with("photos/unsaid", b"x"), "photo unsaid", "nothing is said").await;
    let mut uncounted = files(&bytes);
    uncounted[0].1 = String::from_utf8(uncounted[0].1.clone())
        .unwrap()
        .replace("\"photos\":1", "\"photos\":2")
        .into();
    one(zipped(&uncounted), "manifest.json", "counts").await;
    // One byte of a stored photo turned over: the sum of the file finds it.
    let mut turned = bytes.clone();
    let run: Vec<u8> = (0..=255).collect();
    let at = turned.windows(256).position(|window| window == run).unwrap();
    turned[at + 7] ^= 1;
    one(turned, "photos/", "can't be read").await;
}

#[tokio::test]
async fn files_that_unpack_to_far_more() {
    let (_folder, store) = workroom().await;
    fill(&store).await;
    let mut all = files(&store.export_archive().await.unwrap());
    all.push(("photos/bomb".into(), vec![0; store::MAX_PHOTO * 4]));
    let bomb = zipped(&all);
    assert!(
        bomb.len() < 200_000,
        "{} bytes that unpack to {}",
        bomb.len(),
        store::MAX_PHOTO * 4
    );
    let found = faults(&store, bomb.clone()).await;
    assert!(found[0].what.contains("unpacks to more than"), "{found:?}");
    // The same with a directory that claims one byte: the claim is not believed.
    let mut lying = bomb;
    let size = u32::try_from(store::MAX_PHOTO * 4).unwrap().to_le_bytes();
    let mut lies = 0;
    for at in 0..lying.len() - 4 {
        if lying[at..at + 4] == size {
            lying[at..at + 4].copy_from_slice(&1_u32.to_le_bytes());
            lies += 1;
        }
    }
    assert!(lies >= 1);
    assert!(!faults(&store, lying).await.is_empty());
    let many: Vec<_> = (0..20_001)
        .map(|n| (format!("photos/p{n}"), Vec::new()))
        .collect();
    let found = faults(&store, zipped(&many)).await;
    assert!(found[0].what.contains("20001 files"), "{found:?}");
}

#[tokio::test]
async fn an_empty_workroom_can_be_carried() {
    let (folder, store) = workroom().await;
    let bytes = store.export_archive().await.unwrap();
    let imported = store
        .import_archive(bytes.clone(), ImportMode::Replace)
        .await
        .unwrap();
    assert_eq!((imported.documents, imported.entries), (0, 0));
    store.close().await;
    drop(store);
    assert_eq!(open(folder.path()).await.export_archive().await.unwrap(), bytes);
}
