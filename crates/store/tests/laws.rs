//! Laws on random edits: going back to the start restores the start, every revision can be had again, and merging loses
//! no write.

#![allow(clippy::unwrap_used, reason = "helpers of tests may unwrap as tests do")]

mod common;

use common::{edit, workroom};
use proptest::prelude::*;
use serde_json::{Value, json};
use store::{Kind, Set, Store, StoreError};

/// What somebody may do next.
#[derive(Debug, Clone)]
enum Act {
    Edit(Vec<Set>),
    Back,
    Forward,
}

fn value() -> impl Strategy<Value = Value> {
    prop_oneof![
        Just(Value::Null),
        any::<f64>()
            .prop_filter("JSON has no NaN", |number| number.is_finite())
            .prop_map(|number| json!(number)),
        any::<i64>().prop_map(|number| json!(number)),
        "[a-c]{0,2}".prop_map(|text| json!(text)),
        Just(json!({})),
        Just(json!({"a": {"b": 1}})),
        Just(json!([1, {"a": 2}])),
    ]
}

/// Few names, so that places meet often.
fn set() -> impl Strategy<Value = Set> {
    (
        prop::collection::vec("[abc]", 1..5),
        prop::option::weighted(0.8, value()),
    )
        .prop_map(|(steps, value)| Set {
            path: steps.join("."),
            value,
        })
}

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        4 => prop::collection::vec(set(), 1..4).prop_map(Act::Edit),
        2 => Just(Act::Back),
        1 => Just(Act::Forward),
    ]
}

fn block_on<T>(work: impl Future<Output = T>) -> T {
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_time()
        .build()
        .unwrap();
    // A failed check drops the store outside; its connections want a runtime even then.
    let _entered = runtime.enter();
    runtime.block_on(work)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn back_to_the_start_is_the_start(acts in prop::collection::vec(act(), 1..25)) {
        block_on(async move {
            let (_folder, store) = workroom().await;
            let start = json!({"a": {"b": 0.1}, "n": null});
            let doc = store.create(Kind::Suit, start.clone(), "").await.unwrap();
            let ids = [doc.id.clone()];
            let mut now = doc.clone();
            let mut seen = vec![(doc.revision, doc.body.clone())];
            // The states as somebody with a pile of copies would keep them.
            let (mut done, mut undone) = (Vec::new(), Vec::new());
            for act in acts {
                match act {
                    Act::Edit(changes) => match store.edit(edit(&doc.id, now.revision, changes, "e")).await {
                        Ok(mut edited) => {
                            let next = edited.documents.remove(0);
                            if edited.entry.is_some() {
                                done.push(now.body.clone());
                                undone.clear();
                            } else {
                                assert_eq!(next, now);
                            }
                            now = next;
                        }
                        Err(StoreError::BadPath { .. }) => {}
                        Err(other) => panic!("{other:?}"),
                    },
                    Act::Back => match (store.back(&ids, 0).await, done.pop()) {
                        (Ok(mut gone), Some(before)) => {
                            undone.push(now.body.clone());
                            now = gone.documents.remove(0);
                            assert_eq!(now.body, before);
                        }
                        (Err(StoreError::NothingBack), None) => {}
                        other => panic!("{other:?}"),
                    },
                    Act::Forward => match (store.forward(&ids, 0).await, undone.pop()) {
                        (Ok(mut gone), Some(after)) => {
                            done.push(now.body.clone());
                            now = gone.documents.remove(0);
                            assert_eq!(now.body, after);
                        }
                        (Err(StoreError::NothingForward), None) => {}
                        other => panic!("{other:?}"),
                    },
                }
                seen.push((now.revision, now.body.clone()));
            }
            for (revision, body) in seen {
                assert_eq!(store.body_at(&doc.id, revision).await.unwrap(), body);
            }
            while let Ok(gone) = store.back(&ids, 0).await {
                now = gone.documents[0].clone();
            }
            assert_eq!(now.body.to_string(), start.to_string());
            // What the journal says is enough to carry the workroom elsewhere.
            let bytes = store.export_archive().await.unwrap();
            store.import_archive(bytes, store::ImportMode::Replace).await.unwrap();
            store.close().await;
        });
    }

    #[test]
    fn two_writers_lose_nothing(
        ours in prop::collection::vec(set(), 1..5),
        theirs in prop::collection::vec(set(), 1..5),
    ) {
        block_on(async move {
            let (_folder, store) = workroom().await;
            let doc = store.create(Kind::Suit, json!({"a": {"a": 1, "b": {}}, "b": 2}), "").await.unwrap();
            let Ok(first) = store.edit(edit(&doc.id, doc.revision, theirs.clone(), "theirs")).await else { return };
            let between = first.documents[0].body.clone();
            match store.edit(edit(&doc.id, doc.revision, ours.clone(), "ours")).await {
                Ok(second) => {
                    let body = &second.documents[0].body;
                    let get = |body: &Value, path: &str| {
                        path.split('.').try_fold(body.clone(), |value, step| value.as_object()?.get(step).cloned())
                    };
                    let within = |outer: &str, inner: &str| inner == outer || inner.starts_with(&format!("{outer}."));
                    let meet = |one: &Set, two: &Set| within(&one.path, &two.path) || within(&two.path, &one.path);
                    for (at, set) in ours.iter().enumerate() {
                        // Unless a later one of ours went over it.
                        if !ours[at + 1..].iter().any(|later| meet(later, set)) {
                            assert_eq!(get(body, &set.path), set.value, "ours at {}", set.path);
                        }
                    }
                    for set in &theirs {
                        // Where ours did something as well, either it had changed nothing or both came to the same.
                        if !ours.iter().any(|our| meet(our, set)) {
                            assert_eq!(get(body, &set.path), get(&between, &set.path), "theirs at {}", set.path);
                        }
                    }
                }
                Err(StoreError::Conflict(clashes)) => {
                    assert!(!clashes.is_empty());
                    for clash in clashes {
                        assert_ne!(clash.theirs, clash.yours);
                        let met = Set { path: clash.path.clone(), value: None };
                        assert!(theirs.iter().any(|set| {
                            let (a, b) = (format!("{}.", set.path), format!("{}.", met.path));
                            a.starts_with(&b) || b.starts_with(&a)
                        }), "{} met nothing of theirs", clash.path);
                    }
                    assert_eq!(store.get(&doc.id).await.unwrap().body, between);
                }
                Err(StoreError::BadPath { .. }) => {}
                Err(other) => panic!("{other:?}"),
            }
            store.close().await;
        });
    }
}
