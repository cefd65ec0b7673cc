//! Many tasks at one store.

mod common;

use common::{edit, set, workroom};
use serde_json::json;
use store::{Event, Kind, Store, StoreError};

const TASKS: u64 = 50;
const EACH: u64 = 4;

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn fifty_tasks_at_different_places_of_one_document() {
    let (_folder, store) = workroom().await;
    let doc = store.create(Kind::Class, json!({}), "").await.unwrap();
    let mut events = store.events();
    let mut tasks = Vec::new();
    for task in 0..TASKS {
        let (store, doc) = (store.clone(), doc.clone());
        tasks.push(tokio::spawn(async move {
            for n in 0..EACH {
                // Always from the first revision: everybody else's edits have to be merged.
                let change = set(&format!("seats.s{task}.n{n}"), json!(task * 100 + n));
                store
                    .edit(edit(&doc.id, doc.revision, vec![change], "sit"))
                    .await
                    .unwrap();
            }
        }));
    }
    for task in tasks {
        task.await.unwrap();
    }
    let end = store.get(&doc.id).await.unwrap();
    for task in 0..TASKS {
        for n in 0..EACH {
            assert_eq!(
                end.body["seats"][format!("s{task}")][format!("n{n}")],
                json!(task * 100 + n)
            );
        }
    }
    let mut last = doc.revision;
    for _ in 0..TASKS * EACH {
        let Event::Action { seq, documents } = events.recv().await.unwrap() else {
            panic!("another event")
        };
        assert!(seq > last, "events come in the order of the journal");
        assert_eq!((documents.len(), documents[0].revision), (1, seq));
        last = seq;
    }
    assert_eq!(last, end.revision);
}

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn of_many_at_one_place_one_is_first_and_the_others_are_told() {
    let (_folder, store) = workroom().await;
    let doc = store.create(Kind::Suit, json!({"n": 0}), "").await.unwrap();
    let mut tasks = Vec::new();
    for task in 1..=20 {
        let (store, doc) = (store.clone(), doc.clone());
        tasks.push(tokio::spawn(async move {
            store
                .edit(edit(&doc.id, doc.revision, vec![set("n", json!(task))], "n"))
                .await
        }));
    }
    let (mut kept, mut told) = (0, 0);
    for task in tasks {
        match task.await.unwrap() {
            Ok(_) => kept += 1,
            Err(StoreError::Conflict(_)) => told += 1,
            Err(other) => panic!("{other:?}"),
        }
    }
    assert_eq!((kept, told), (1, 19));
}

#[tokio::test]
async fn a_write_goes_on_when_the_caller_leaves() {
    let (_folder, store) = workroom().await;
    let doc = store.create(Kind::Suit, json!({}), "").await.unwrap();
    let mut events = store.events();
    let change = edit(&doc.id, doc.revision, vec![set("a", json!(1))], "leave");
    {
        let mut leaving = std::pin::pin!(store.edit(change));
        // Asked once, then dropped.
        let once = std::future::poll_fn(|context| std::task::Poll::Ready(leaving.as_mut().poll(context)));
        assert!(once.await.is_pending());
    }
    assert!(matches!(events.recv().await.unwrap(), Event::Action { .. }));
    assert_eq!(store.get(&doc.id).await.unwrap().body, json!({"a": 1}));
}
