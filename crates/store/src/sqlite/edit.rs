//! Making, editing and binning documents.
//!
//! Merging goes by places: an edit from an older base is held against every place changed since. Two places meet when one
//! lies within the other; then the values of the outer one, at the base and now, decide. If they are equal nothing is
//! lost (somebody changed it and changed it back); if not it is for the person to choose.

use std::collections::BTreeSet;

use serde_json::Value;
use sqlx::SqliteConnection;

use super::{Inner, Outcome, rows};
use crate::change::rewind;
use crate::limits::{check_body, check_words};
use crate::path::Path;
use crate::{
    Change, Clash, Document, DocumentEdit, DocumentId, Edit, Edited, Entry, EntryKind, Event, Kind, Part,
    StoreError, Touched,
};

/// The event of an entry whose documents all have its number as their revision.
pub(super) fn told(entry: &Entry) -> Event {
    let documents = entry
        .parts
        .iter()
        .map(|part| Touched {
            id: part.document.clone(),
            revision: entry.seq,
        })
        .collect();
    Event::Action {
        seq: entry.seq,
        documents,
    }
}

pub(super) async fn create(
    db: &mut SqliteConnection,
    inner: &Inner,
    id: DocumentId,
    kind: Kind,
    body: Value,
    words: String,
) -> Outcome<Document> {
    check_words(&words)?;
    check_body(kind, &body)?;
    if rows::find_document(db, &id).await?.is_some() {
        return Err(StoreError::Exists(id));
    }
    let at = inner.now();
    let seq = rows::next_seq(db).await?;
    let document = rows::new_document(id.clone(), kind, body, seq, at);
    rows::save(db, &document).await?;
    let parts = vec![Part {
        document: id,
        changes: Vec::new(),
    }];
    let entry = Entry {
        seq,
        at,
        words,
        kind: EntryKind::Made,
        target: None,
        parts,
    };
    rows::save_entry(db, &entry).await?;
    Ok((document, Some(told(&entry))))
}

/// Into the bin or out of it. A document that is there already stays as it is.
pub(super) async fn bin(
    db: &mut SqliteConnection,
    inner: &Inner,
    id: DocumentId,
    words: String,
    into: bool,
) -> Outcome<Document> {
    check_words(&words)?;
    let mut document = rows::need_document(db, &id).await?;
    if document.deleted_at.is_some() == into {
        return Ok((document, None));
    }
    let at = inner.now();
    document.revision = rows::next_seq(db).await?;
    document.changed_at = at;
    document.deleted_at = into.then_some(at);
    rows::save(db, &document).await?;
    let kind = if into {
        EntryKind::Deleted
    } else {
        EntryKind::Restored
    };
    let parts = vec![Part {
        document: id,
        changes: Vec::new(),
    }];
    let entry = Entry {
        seq: document.revision,
        at,
        words,
        kind,
        target: None,
        parts,
    };
    rows::save_entry(db, &entry).await?;
    Ok((document, Some(told(&entry))))
}

/// The body as it was at a revision the document had.
pub(super) async fn body_at(
    db: &mut SqliteConnection,
    document: &Document,
    revision: u64,
) -> Result<Value, StoreError> {
    if !rows::had_revision(db, &document.id, revision).await? {
        return Err(StoreError::StaleBase {
            document: document.id.clone(),
            base: revision,
        });
    }
    let later = rows::changes_after(db, &document.id, revision).await?;
    rewound(document, &later)
}

fn rewound(document: &Document, later: &[Vec<Change>]) -> Result<Value, StoreError> {
    let mut body = document.body.clone();
    for changes in later.iter().rev() {
        rewind(&mut body, changes).ok_or_else(|| {
            StoreError::unreadable(
                format!("document {}", document.id),
                "the journal does not lead to this body",
            )
        })?;
    }
    Ok(body)
}

/// What an edit will do to one document.
struct Plan {
    document: Document,
    changes: Vec<Change>,
    merged: bool,
}

pub(super) async fn edit(db: &mut SqliteConnection, inner: &Inner, edit: Edit) -> Outcome<Edited> {
    check_words(&edit.words)?;
    if edit.parts.is_empty() {
        return Err(StoreError::BadEdit("it names none".into()));
    }
    let mut seen = BTreeSet::new();
    if let Some(twice) = edit.parts.iter().find(|part| !seen.insert(&part.id)) {
        return Err(StoreError::BadEdit(format!("{} stands twice", twice.id)));
    }
    let mut clashes = Vec::new();
    let mut plans = Vec::new();
    for part in &edit.parts {
        plans.push(plan(db, part, &mut clashes).await?);
    }
    if !clashes.is_empty() {
        return Err(StoreError::Conflict(clashes));
    }
    let merged = plans.iter().any(|plan| plan.merged);
    if plans.iter().all(|plan| plan.changes.is_empty()) {
        let documents = plans.into_iter().map(|plan| plan.document).collect();
        return Ok((
            Edited {
                documents,
                merged,
                entry: None,
            },
            None,
        ));
    }

    let at = inner.now();
    let seq = rows::next_seq(db).await?;
    let mut parts = Vec::new();
    let mut documents = Vec::new();
    for Plan {
        mut document,
        changes,
        ..
    } in plans
    {
        if !changes.is_empty() {
            document.revision = seq;
            document.changed_at = at;
            rows::save(db, &document).await?;
            parts.push(Part {
                document: document.id.clone(),
                changes,
            });
        }
        documents.push(document);
    }
    let entry = Entry {
        seq,
        at,
        words: edit.words,
        kind: EntryKind::Edit,
        target: None,
        parts,
    };
    rows::save_entry(db, &entry).await?;
    Ok((
        Edited {
            documents,
            merged,
            entry: Some(seq),
        },
        Some(told(&entry)),
    ))
}

async fn plan(
    db: &mut SqliteConnection,
    edit: &DocumentEdit,
    clashes: &mut Vec<Clash>,
) -> Result<Plan, StoreError> {
    let document = rows::need_document(db, &edit.id).await?;
    if document.deleted_at.is_some() {
        return Err(StoreError::InBin(document.id));
    }
    let since = if edit.base == document.revision {
        Vec::new()
    } else if rows::had_revision(db, &edit.id, edit.base).await? {
        rows::changes_after(db, &edit.id, edit.base).await?
    } else {
        return Err(StoreError::StaleBase {
            document: document.id,
            base: edit.base,
        });
    };
    let base = rewound(&document, &since)?;
    let mut theirs = Vec::new();
    for change in since.iter().flatten() {
        let path = Path::parse(&change.path)
            .map_err(|fault| StoreError::unreadable(format!("document {}", document.id), fault))?;
        theirs.push(path);
    }

    let mut body = document.body.clone();
    let mut changes = Vec::new();
    let clashes_before = clashes.len();
    for set in &edit.changes {
        let bad = |fault| StoreError::BadPath {
            document: edit.id.clone(),
            path: set.path.clone(),
            fault,
        };
        let path = Path::parse(&set.path).map_err(bad)?;
        let now = path.get(&document.body);
        let lost = |other: &Path| {
            other
                .shared_with(&path)
                .is_some_and(|outer| outer.get(&base) != outer.get(&document.body))
        };
        if now != set.value.as_ref() && theirs.iter().any(lost) {
            clashes.push(Clash {
                document: edit.id.clone(),
                path: set.path.clone(),
                base: path.get(&base).cloned(),
                theirs: now.cloned(),
                yours: set.value.clone(),
            });
            continue;
        }
        match Change::make(&mut body, &set.path, set.value.as_ref()) {
            Ok(change) => changes.extend(change),
            // After a clash the way may be missing; the clash is what to report.
            Err(_) if clashes.len() > clashes_before => {}
            Err(fault) => return Err(bad(fault)),
        }
    }
    check_body(document.kind, &body)?;
    let merged = base != document.body;
    Ok(Plan {
        document: Document { body, ..document },
        changes,
        merged,
    })
}
