//! Edits, merging, conflicts, and the way back and forward.

mod common;

use common::{edit, id, set, workroom};
use serde_json::json;
use store::{Clash, DocumentEdit, Edit, EntryKind, Kind, PathFault, Set, Store, StoreError};

#[tokio::test]
async fn a_document_is_made_listed_and_read() {
    let (_folder, store) = workroom().await;
    let first = store
        .create(Kind::Wearer, json!({"name": "Ines"}), "measure Ines")
        .await
        .unwrap();
    let second = store
        .create_with_id(id("demo"), Kind::Wearer, json!({}), "")
        .await
        .unwrap();
    store.create(Kind::Suit, json!({}), "").await.unwrap();
    assert_eq!(
        store.list(Kind::Wearer).await.unwrap(),
        [first.clone(), second.clone()]
    );
    assert_eq!(store.get(&first.id).await.unwrap().body, json!({"name": "Ines"}));
    let both = store
        .documents(&[second.id.clone(), first.id.clone()])
        .await
        .unwrap();
    assert_eq!(both, [second.clone(), first]);
    assert!(matches!(
        store.create_with_id(id("demo"), Kind::Suit, json!({}), "").await,
        Err(StoreError::Exists(_))
    ));
    assert!(matches!(
        store.get(&id("nobody")).await,
        Err(StoreError::NotFound(_))
    ));
    assert!(matches!(
        store.create(Kind::Suit, json!([]), "").await,
        Err(StoreError::NotAnObject(Kind::Suit))
    ));
}

#[tokio::test]
async fn what_an_edit_may_not_do() {
    let (_folder, store) = workroom().await;
    let doc = store
        .create(Kind::Suit, json!({"list": [1], "n": 1}), "")
        .await
        .unwrap();
    let refused = |changes| store.edit(edit(&doc.id, doc.revision, changes, "x"));
    for (path, fault) in [
        ("", PathFault::Empty),
        ("a..b", PathFault::Empty),
        ("a.b.c.d.e.f.g.h.i", PathFault::TooDeep),
        ("list.0", PathFault::ThroughValue),
        ("n.x.y", PathFault::ThroughValue),
    ] {
        match refused(vec![set("fine", json!(1)), set(path, json!(1))]).await {
            Err(StoreError::BadPath {
                path: at,
                fault: found,
                ..
            }) => assert_eq!((at.as_str(), found), (path, fault)),
            other => panic!("{path}: {other:?}"),
        }
    }
    let removed = refused(vec![Set {
        path: "list.0".into(),
        value: None,
    }])
    .await;
    assert!(matches!(removed, Err(StoreError::BadPath { .. })));
    let large = refused(vec![set("a", json!("x".repeat(store::MAX_BODY)))]).await;
    assert!(matches!(large, Err(StoreError::TooLarge(_))));
    let mut deep = json!(1);
    for _ in 0..64 {
        deep = json!([deep]);
    }
    assert!(matches!(
        refused(vec![set("a", deep)]).await,
        Err(StoreError::TooNested(65))
    ));
    let wordy = store
        .edit(edit(
            &doc.id,
            doc.revision,
            vec![set("a", json!(1))],
            &"x".repeat(501),
        ))
        .await;
    assert!(matches!(wordy, Err(StoreError::TooManyWords(501))));
    let part = DocumentEdit {
        id: doc.id.clone(),
        base: doc.revision,
        changes: vec![],
    };
    let twice = store
        .edit(Edit {
            parts: vec![part.clone(), part],
            words: String::new(),
        })
        .await;
    assert!(matches!(twice, Err(StoreError::BadEdit(_))));
    assert!(matches!(
        store
            .edit(Edit {
                parts: vec![],
                words: String::new()
            })
            .await,
        Err(StoreError::BadEdit(_))
    ));
    for base in [0, doc.revision + 1] {
        let stale = store
            .edit(edit(&doc.id, base, vec![set("a", json!(1))], ""))
            .await;
        assert!(matches!(stale, Err(StoreError::StaleBase { .. })), "{base}");
    }
    assert_eq!(
        store.get(&doc.id).await.unwrap(),
        doc,
        "nothing of all that was written"
    );
    assert_eq!(
        store
            .history(std::slice::from_ref(&doc.id), 0)
            .await
            .unwrap()
            .len(),
        1
    );
}

#[tokio::test]
async fn an_edit_that_changes_nothing_writes_nothing() {
    let (_folder, store) = workroom().await;
    let doc = store.create(Kind::Suit, json!({"a": 1}), "").await.unwrap();
    let changes = vec![
        set("a", json!(1)),
        Set {
            path: "b.c".into(),
            value: None,
        },
    ];
    let edited = store
        .edit(edit(&doc.id, doc.revision, changes, "same"))
        .await
        .unwrap();
    assert_eq!(
        (edited.entry, edited.merged, edited.documents),
        (None, false, vec![doc])
    );
}

#[tokio::test]
async fn edits_of_different_places_stand_side_by_side() {
    let (_folder, store) = workroom().await;
    let doc = store.create(Kind::Suit, json!({}), "").await.unwrap();
    store
        .edit(edit(
            &doc.id,
            doc.revision,
            vec![set("leg.cut", json!("high"))],
            "theirs",
        ))
        .await
        .unwrap();
    // Both make the object "leg" on the way.
    let mine = store
        .edit(edit(
            &doc.id,
            doc.revision,
            vec![set("leg.ease", json!(3))],
            "mine",
        ))
        .await
        .unwrap();
    assert!(mine.merged);
    assert_eq!(mine.documents[0].body, json!({"leg": {"cut": "high", "ease": 3}}));
}

#[tokio::test]
async fn edits_of_one_place_are_a_conflict_with_three_values() {
    let (_folder, store) = workroom().await;
    let doc = store
        .create(Kind::Suit, json!({"leg": {"ease": 1}, "n": 0}), "")
        .await
        .unwrap();
    let theirs = vec![
        set("leg.ease", json!(2)),
        set("gone", json!({"x": 1})),
        set("n", json!(7)),
    ];
    let now = store
        .edit(edit(&doc.id, doc.revision, theirs, "theirs"))
        .await
        .unwrap()
        .documents
        .remove(0);
    let mine = vec![
        set("leg", json!({})),
        set("leg.ease", json!(3)),
        set("gone.x", json!(1)),
        set("other", json!(1)),
        set("n", json!(7)),
    ];
    let Err(StoreError::Conflict(clashes)) = store.edit(edit(&doc.id, doc.revision, mine, "mine")).await
    else {
        panic!("no conflict")
    };
    let clash = |path: &str, base, theirs, yours| Clash {
        document: doc.id.clone(),
        path: path.into(),
        base: Some(base),
        theirs: Some(theirs),
        yours: Some(yours),
    };
    // "gone.x" and "n" came to the same value on both sides.
    assert_eq!(
        clashes,
        [
            clash("leg", json!({"ease": 1}), json!({"ease": 2}), json!({})),
            clash("leg.ease", json!(1), json!(2), json!(3)),
        ]
    );
    assert_eq!(store.get(&doc.id).await.unwrap(), now);
}

#[tokio::test]
async fn a_change_that_was_taken_back_is_no_conflict() {
    let (_folder, store) = workroom().await;
    let doc = store.create(Kind::Suit, json!({"a": 1}), "").await.unwrap();
    let ids = [doc.id.clone()];
    store
        .edit(edit(&doc.id, doc.revision, vec![set("a", json!(2))], "theirs"))
        .await
        .unwrap();
    store.back(&ids, 0).await.unwrap();
    let mine = store
        .edit(edit(&doc.id, doc.revision, vec![set("a", json!(3))], "mine"))
        .await
        .unwrap();
    assert!(!mine.merged);
    assert_eq!(mine.documents[0].body, json!({"a": 3}));
}

#[tokio::test]
async fn one_action_over_two_documents_happens_and_goes_back_as_one() {
    let (_folder, store) = workroom().await;
    let suit = store
        .create(Kind::Suit, json!({"wearer": null}), "")
        .await
        .unwrap();
    let wearer = store.create(Kind::Wearer, json!({"suits": 0}), "").await.unwrap();
    let both = |suit_base, wearer_base, n: u32| Edit {
        parts: vec![
            DocumentEdit {
                id: suit.id.clone(),
                base: suit_base,
                changes: vec![set("wearer", json!(n))],
            },
            DocumentEdit {
                id: wearer.id.clone(),
                base: wearer_base,
                changes: vec![set("suits", json!(n))],
            },
        ],
        words: format!("choose {n}"),
    };
    let done = store.edit(both(suit.revision, wearer.revision, 1)).await.unwrap();
    let seq = done.entry.unwrap();
    assert!(done.documents.iter().all(|document| document.revision == seq));
    // The second part is stale: the first must not happen either.
    let half = store.edit(both(seq, wearer.revision, 2)).await;
    assert!(matches!(half, Err(StoreError::Conflict(_))));
    assert_eq!(store.get(&suit.id).await.unwrap().body, json!({"wearer": 1}));

    let gone = store.back(std::slice::from_ref(&suit.id), 0).await.unwrap();
    assert_eq!(
        (gone.target, gone.words.as_str(), gone.documents.len()),
        (seq, "choose 1", 2)
    );
    assert_eq!(store.get(&wearer.id).await.unwrap().body, json!({"suits": 0}));
    let entry = store
        .history(std::slice::from_ref(&wearer.id), seq)
        .await
        .unwrap()
        .remove(0);
    assert_eq!(
        (entry.kind, entry.target, entry.parts.len()),
        (EntryKind::Back, Some(seq), 2)
    );
}

#[tokio::test]
async fn back_and_forward_with_words_and_a_floor() {
    let (_folder, store) = workroom().await;
    let doc = store.create(Kind::Suit, json!({"a": 0}), "").await.unwrap();
    let ids = [doc.id.clone()];
    let mut base = doc.revision;
    for n in 1..=3 {
        let edited = store
            .edit(edit(&doc.id, base, vec![set("a", json!(n))], &format!("to {n}")))
            .await
            .unwrap();
        base = edited.documents[0].revision;
    }
    let can = |since| store.can_go(&ids, since);
    assert_eq!(can(0).await.unwrap().back.as_deref(), Some("to 3"));
    assert_eq!(can(base).await.unwrap().back, None, "nothing of this page yet");
    assert!(matches!(
        store.back(&ids, base).await,
        Err(StoreError::NothingBack)
    ));
    store.back(&ids, 0).await.unwrap();
    let at_one = store.back(&ids, 0).await.unwrap();
    assert_eq!(at_one.documents[0].body, json!({"a": 1}));
    let both = can(0).await.unwrap();
    assert_eq!(
        (both.back.as_deref(), both.forward.as_deref()),
        (Some("to 1"), Some("to 2"))
    );
    let at_two = store.forward(&ids, 0).await.unwrap();
    assert_eq!(at_two.documents[0].body, json!({"a": 2}));
    // A new edit ends the way forward.
    store
        .edit(edit(&doc.id, at_two.entry, vec![set("a", json!(9))], "to 9"))
        .await
        .unwrap();
    assert!(matches!(
        store.forward(&ids, 0).await,
        Err(StoreError::NothingForward)
    ));
    // Every state there ever was can be had.
    let values: Vec<_> = [doc.revision, base, at_one.entry, at_two.entry].into();
    let mut found = Vec::new();
    for revision in values {
        found.push(store.body_at(&doc.id, revision).await.unwrap()["a"].clone());
    }
    assert_eq!(found, [json!(0), json!(3), json!(1), json!(2)]);
    assert!(matches!(
        store.body_at(&doc.id, 999).await,
        Err(StoreError::StaleBase { base: 999, .. })
    ));
}

#[tokio::test]
async fn going_back_over_a_value_changed_otherwise_is_a_conflict() {
    let (_folder, store) = workroom().await;
    let a = store.create(Kind::Suit, json!({}), "").await.unwrap();
    let b = store.create(Kind::Wearer, json!({}), "").await.unwrap();
    let both = Edit {
        parts: vec![
            DocumentEdit {
                id: a.id.clone(),
                base: a.revision,
                changes: vec![set("x", json!(1))],
            },
            DocumentEdit {
                id: b.id.clone(),
                base: b.revision,
                changes: vec![set("y.z", json!(1))],
            },
        ],
        words: "both".into(),
    };
    let seq = store.edit(both).await.unwrap().entry.unwrap();
    let later = store
        .edit(edit(&b.id, seq, vec![set("y.z", json!(2))], "b alone"))
        .await
        .unwrap();
    let Err(StoreError::Conflict(clashes)) = store.back(std::slice::from_ref(&a.id), 0).await else {
        panic!("no conflict")
    };
    assert_eq!(
        clashes,
        [Clash {
            document: b.id.clone(),
            path: "y.z".into(),
            base: Some(json!(1)),
            theirs: Some(json!(2)),
            yours: None
        }]
    );
    assert_eq!(
        store.get(&a.id).await.unwrap().body,
        json!({"x": 1}),
        "nothing of it was done"
    );
    // Beside it is no conflict.
    store
        .edit(edit(
            &b.id,
            later.entry.unwrap(),
            vec![set("y.z", json!(1)), set("y.w", json!(5))],
            "",
        ))
        .await
        .unwrap();
    store.back(std::slice::from_ref(&a.id), 0).await.unwrap();
    assert_eq!(store.get(&b.id).await.unwrap().body, json!({"y": {"w": 5}}));
}

#[tokio::test]
async fn the_bin() {
    let (_folder, store) = workroom().await;
    let doc = store.create(Kind::Suit, json!({"a": 1}), "").await.unwrap();
    let gone = store.delete(&doc.id, "away").await.unwrap();
    assert!(gone.deleted_at.is_some() && gone.revision > doc.revision);
    assert_eq!(store.delete(&doc.id, "again").await.unwrap(), gone);
    assert_eq!(store.list(Kind::Suit).await.unwrap(), []);
    assert_eq!(store.bin().await.unwrap(), std::slice::from_ref(&gone));
    let refused = store
        .edit(edit(&doc.id, gone.revision, vec![set("a", json!(2))], ""))
        .await;
    assert!(matches!(refused, Err(StoreError::InBin(_))));
    let back = store.restore(&doc.id, "out").await.unwrap();
    assert_eq!((back.deleted_at, &back.body), (None, &json!({"a": 1})));
    let kinds: Vec<EntryKind> = store
        .history(std::slice::from_ref(&doc.id), 0)
        .await
        .unwrap()
        .iter()
        .map(|entry| entry.kind)
        .collect();
    assert_eq!(kinds, [EntryKind::Made, EntryKind::Deleted, EntryKind::Restored]);
    // An edit from before the bin is still good.
    let edited = store
        .edit(edit(&doc.id, doc.revision, vec![set("a", json!(2))], ""))
        .await
        .unwrap();
    assert_eq!(
        (edited.merged, &edited.documents[0].body),
        (false, &json!({"a": 2}))
    );
}
