//! What was acknowledged is there after the process is killed, at any moment.
//!
//! Restoring, taking in an archive and erasing happen wholly or not at all, wherever the kill falls.
//!
//! The test starts itself again as a child that edits two documents together, now and then makes a backup, and prints
//! each acknowledged revision. The parent kills it and looks. `STORE_KILLS` sets how often; 20 unless given.

#![allow(clippy::unwrap_used, reason = "helpers of tests may unwrap as tests do")]
#![allow(clippy::print_stdout, reason = "the child speaks to its parent this way")]

mod common;

use std::env;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use common::{id, set};
use serde_json::{Value, json};
use store::{BackupReason, DocumentEdit, Edit, ImportMode, Kind, Options, SqliteStore, Store, StoreError};

const FOLDER: &str = "STORE_KILL_FOLDER";

async fn edit_for_ever(folder: &Path) {
    let store = SqliteStore::open(folder, Options::default()).await.unwrap();
    for name in ["left", "right"] {
        match store
            .create_with_id(id(name), Kind::Suit, json!({"n": 0}), "")
            .await
        {
            Ok(_) | Err(StoreError::Exists(_)) => {}
            Err(other) => panic!("{other:?}"),
        }
    }
    loop {
        let pair = store.documents(&[id("left"), id("right")]).await.unwrap();
        let n = pair[0].body["n"].as_u64().unwrap() + 1;
        let parts = pair
            .iter()
            .map(|document| DocumentEdit {
                id: document.id.clone(),
                base: document.revision,
                changes: vec![set("n", json!(n)), set(&format!("last.m{}", n % 7), json!(n))],
            })
            .collect();
        let edited = store
            .edit(Edit {
                parts,
                words: format!("to {n}"),
            })
            .await
            .unwrap();
        println!("acknowledged {} {n}", edited.entry.unwrap());
        std::io::stdout().flush().unwrap();
        if n % 40 == 0 {
            store.backup(BackupReason::Asked).await.unwrap();
        }
    }
}

/// Restores, imports and erases in turn; two documents always hold the same number.
async fn replace_for_ever(folder: &Path) {
    let store = SqliteStore::open(folder, Options::default()).await.unwrap();
    if store.get(&id("left")).await.is_err() {
        let parts =
            ["left", "right"].map(|name| store.create_with_id(id(name), Kind::Suit, json!({"n": 0}), ""));
        for part in parts {
            part.await.unwrap();
        }
    }
    println!("acknowledged 0 0");
    for n in 1_u64.. {
        let archive = store.export_archive().await.unwrap();
        let backup = store.backup(BackupReason::Asked).await.unwrap();
        let pair = store.documents(&[id("left"), id("right")]).await.unwrap();
        let parts = pair
            .iter()
            .map(|document| DocumentEdit {
                id: document.id.clone(),
                base: document.revision,
                changes: vec![set("n", json!(pair[0].revision))],
            })
            .collect();
        store
            .edit(Edit {
                parts,
                words: String::new(),
            })
            .await
            .unwrap();
        let gone = store
            .create(Kind::Cloth, json!({"gone": true}), "")
            .await
            .unwrap();
        store
            .put_photo(&gone.id, "image/png", vec![7; 100_000])
            .await
            .unwrap();
        match n % 3 {
            0 => drop(store.restore_backup(&backup.name).await.unwrap()),
            1 => drop(store.import_archive(archive, ImportMode::Replace).await.unwrap()),
            _ => drop(store.erase(&[gone.id]).await.unwrap()),
        }
        println!("acknowledged {n} {n}");
    }
}

#[test]
#[ignore = "the child of the last test"]
fn replacing_child() {
    if let Ok(folder) = env::var(FOLDER) {
        let runtime = tokio::runtime::Builder::new_multi_thread()
            .worker_threads(2)
            .enable_all()
            .build()
            .unwrap();
        runtime.block_on(replace_for_ever(Path::new(&folder)));
    }
}

#[test]
#[ignore = "the child of the test below"]
fn child() {
    if let Ok(folder) = env::var(FOLDER) {
        let runtime = tokio::runtime::Builder::new_multi_thread()
            .worker_threads(2)
            .enable_all()
            .build()
            .unwrap();
        runtime.block_on(edit_for_ever(Path::new(&folder)));
    }
}

/// Runs a child for about so long; what it acknowledged, as revision and value.
fn run_and_kill(child: &str, folder: &Path, time: Duration) -> Vec<(u64, u64)> {
    let mut child = Command::new(env::current_exe().unwrap())
        .args(["--exact", child, "--ignored", "--nocapture"])
        .env(FOLDER, folder)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let out = BufReader::new(child.stdout.take().unwrap());
    let reader = std::thread::spawn(move || {
        let mut acknowledged = Vec::new();
        for line in out.lines().map_while(Result::ok) {
            // The first one shares its line with the test runner's own words; a line cut by the kill has no value.
            let Some((_, numbers)) = line.split_once("acknowledged ") else {
                continue;
            };
            let Some((seq, n)) = numbers.split_once(' ') else {
                continue;
            };
            acknowledged.push((seq.parse().unwrap(), n.parse().unwrap()));
        }
        acknowledged
    });
    std::thread::sleep(time);
    child.kill().unwrap();
    child.wait().unwrap();
    // The last line may have lost its end in the pipe: its number is then smaller than the one written.
    let mut acknowledged = reader.join().unwrap();
    acknowledged.pop();
    acknowledged
}

#[test]
fn acknowledged_edits_outlive_kills() {
    let kills: u64 = env::var("STORE_KILLS").map_or(20, |text| text.parse().unwrap());
    let folder = tempfile::tempdir().unwrap();
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(1)
        .enable_all()
        .build()
        .unwrap();
    let mut total = 0;
    let mut delay: u64 = 0x9e37_79b9_7f4a_7c15;
    for round in 0..kills {
        // Some die while opening, most while writing.
        delay = delay
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let acknowledged = run_and_kill(
            "child",
            folder.path(),
            Duration::from_millis(20 + (delay >> 33) % 280),
        );
        total += acknowledged.len();
        runtime.block_on(async {
            let store = SqliteStore::open(folder.path(), Options::default())
                .await
                .unwrap();
            for (seq, n) in &acknowledged {
                for name in ["left", "right"] {
                    let body = store.body_at(&id(name), *seq).await.unwrap();
                    assert_eq!(body["n"], json!(n), "round {round}: {name} at {seq}");
                }
            }
            if let Ok(left) = store.get(&id("left")).await
                && let Ok(right) = store.get(&id("right")).await
            {
                assert_eq!(left.body, right.body, "round {round}: half an action");
                let last = acknowledged.last().map_or(0, |&(_, n)| n);
                assert!(left.body["n"].as_u64().unwrap() >= last);
                let first = store.history(&[id("left")], 0).await.unwrap()[0].seq;
                assert_eq!(store.body_at(&id("left"), first).await.unwrap(), json!({"n": 0}));
            }
            for backup in store.backups().await.unwrap() {
                assert!(backup.size > 0);
            }
            let names: Vec<String> = std::fs::read_dir(folder.path().join("backups"))
                .unwrap()
                .map(|entry| entry.unwrap().file_name().into_string().unwrap())
                .collect();
            assert!(names.iter().all(|name| !name.contains(".part")), "{names:?}");
            store.close().await;
        });
    }
    // Every backup is whole, whenever its maker died.
    runtime.block_on(async {
        let store = SqliteStore::open(folder.path(), Options::default())
            .await
            .unwrap();
        let names: Vec<String> = store
            .backups()
            .await
            .unwrap()
            .into_iter()
            .map(|backup| backup.name)
            .collect();
        for name in names.iter().take(5) {
            store.restore_backup(name).await.unwrap();
            let pair: Vec<Value> = store
                .documents(&[id("left"), id("right")])
                .await
                .unwrap()
                .into_iter()
                .map(|document| document.body)
                .collect();
            assert_eq!(pair[0], pair[1], "{name}");
        }
    });
    assert!(total > 0, "no child lived long enough to acknowledge anything");
    println!("{kills} kills, {total} acknowledged edits, all there");
}

#[test]
fn replacing_and_erasing_are_whole_or_not_at_all() {
    let kills: u64 = env::var("STORE_KILLS").map_or(20, |text| text.parse().unwrap()) / 2;
    let folder = tempfile::tempdir().unwrap();
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(1)
        .enable_all()
        .build()
        .unwrap();
    let mut total = 0;
    for round in 0..kills {
        let time = Duration::from_millis(60 + round * 97 % 400);
        total += run_and_kill("replacing_child", folder.path(), time).len();
        runtime.block_on(async {
            let store = SqliteStore::open(folder.path(), Options::default())
                .await
                .unwrap();
            let (left, right) = (store.get(&id("left")).await, store.get(&id("right")).await);
            match (left, right) {
                (Ok(left), Ok(right)) => assert_eq!(left.body, right.body, "round {round}"),
                // Killed before the first round had made both.
                _ => {
                    assert_eq!(total, 0, "round {round}: a document is missing");
                    let made = store.list(Kind::Suit).await.unwrap();
                    store
                        .erase(&made.into_iter().map(|document| document.id).collect::<Vec<_>>())
                        .await
                        .unwrap();
                }
            }
            // The archive's own check: the journal leads to every body.
            let archive = store.export_archive().await.unwrap();
            store.import_archive(archive, ImportMode::Replace).await.unwrap();
            store.close().await;
        });
    }
    assert!(total > 0, "no child lived long enough to replace anything");
    println!("{kills} kills, {total} rounds of replacing and erasing");
}
