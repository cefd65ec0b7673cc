//! Back and forward through the journal.

use std::collections::BTreeMap;

use sqlx::SqliteConnection;

use super::edit::told;
use super::{Inner, Outcome, rows};
use crate::change::Misfit;
use crate::journal::{Line, Step};
use crate::limits::check_body;
use crate::{CanGo, Change, Clash, DocumentId, Entry, EntryKind, Gone, Part, StoreError};

/// Which way to go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    Back,
    Forward,
}

/// The entries that touch any of the documents, in order, each once.
async fn steps(db: &mut SqliteConnection, ids: &[DocumentId], since: u64) -> Result<Vec<Step>, StoreError> {
    let mut steps = BTreeMap::new();
    for id in ids {
        for step in rows::steps(db, id, since).await? {
            steps.insert(step.seq, step);
        }
    }
    Ok(steps.into_values().collect())
}

pub(super) async fn history(
    db: &mut SqliteConnection,
    ids: &[DocumentId],
    since: u64,
) -> Result<Vec<Entry>, StoreError> {
    let mut entries = Vec::new();
    for step in steps(db, ids, since).await? {
        entries.push(rows::entry(db, step.seq).await?);
    }
    Ok(entries)
}

pub(super) async fn can_go(
    db: &mut SqliteConnection,
    ids: &[DocumentId],
    since: u64,
) -> Result<CanGo, StoreError> {
    let line = Line::walk(steps(db, ids, since).await?, since);
    let mut can = CanGo::default();
    if let Some(&seq) = line.done.last() {
        can.back = Some(rows::entry(db, seq).await?.words);
    }
    if let Some(&seq) = line.undone.last() {
        can.forward = Some(rows::entry(db, seq).await?.words);
    }
    Ok(can)
}

pub(super) async fn go(
    db: &mut SqliteConnection,
    inner: &Inner,
    ids: Vec<DocumentId>,
    since: u64,
    way: Way,
) -> Outcome<Gone> {
    for id in &ids {
        rows::need_document(db, id).await?;
    }
    let line = Line::walk(steps(db, &ids, since).await?, since);
    let (next, nothing, kind) = match way {
        Way::Back => (line.done.last(), StoreError::NothingBack, EntryKind::Back),
        Way::Forward => (line.undone.last(), StoreError::NothingForward, EntryKind::Forward),
    };
    let Some(&target) = next else { return Err(nothing) };
    let edit = rows::entry(db, target).await?;

    let at = inner.now();
    let seq = rows::next_seq(db).await?;
    let mut clashes = Vec::new();
    let mut parts = Vec::new();
    let mut documents = Vec::new();
    for part in edit.parts {
        let mut document = rows::need_document(db, &part.document).await?;
        let wanted: Vec<Change> = match way {
            Way::Back => part.changes.iter().rev().map(Change::inverse).collect(),
            Way::Forward => part.changes,
        };
        let mut changes = Vec::new();
        for change in wanted {
            match change.apply(&mut document.body) {
                Ok(done) => changes.push(done),
                Err(misfit) => clashes.push(Clash {
                    document: document.id.clone(),
                    path: change.path,
                    base: change.before,
                    theirs: match misfit {
                        Misfit::Other(now) => now,
                        Misfit::Path(_) => None,
                    },
                    yours: change.after,
                }),
            }
        }
        check_body(document.kind, &document.body)?;
        document.revision = seq;
        document.changed_at = at;
        parts.push(Part {
            document: document.id.clone(),
            changes,
        });
        documents.push(document);
    }
    if !clashes.is_empty() {
        return Err(StoreError::Conflict(clashes));
    }
    for document in &documents {
        rows::save(db, document).await?;
    }
    let entry = Entry {
        seq,
        at,
        words: edit.words.clone(),
        kind,
        target: Some(target),
        parts,
    };
    rows::save_entry(db, &entry).await?;
    Ok((
        Gone {
            documents,
            entry: seq,
            target,
            words: edit.words,
        },
        Some(told(&entry)),
    ))
}
