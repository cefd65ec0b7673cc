//! Rows to values and back: documents, entries, parts, and the counter.

use serde_json::Value;
use sqlx::SqliteConnection;

use crate::error::Doing;
use crate::journal::Step;
use crate::{Change, Document, DocumentId, Entry, EntryKind, Kind, Part, StoreError, Timestamp};

/// Columns of a document, in the order of every query below.
type Row = (String, String, i64, String, String, String, Option<String>);

/// Numbers are stored signed; ours never reach the sign.
pub(super) fn from_db(number: i64) -> Result<u64, StoreError> {
    u64::try_from(number).map_err(|fault| StoreError::unreadable(format!("number {number}"), fault))
}

pub(super) fn to_db(number: u64) -> i64 {
    i64::try_from(number).unwrap_or(i64::MAX)
}

pub(super) fn json<T: serde::de::DeserializeOwned>(text: &str, what: &str) -> Result<T, StoreError> {
    serde_json::from_str(text).map_err(|fault| StoreError::unreadable(what, fault))
}

/// JSON as stored. Every value of ours can be written: no map has keys that are not text.
pub(super) fn text<T: serde::Serialize>(value: &T, what: &str) -> Result<String, StoreError> {
    serde_json::to_string(value).map_err(|fault| StoreError::unreadable(what, fault))
}

fn document(
    (id, kind, revision, body, created_at, changed_at, deleted_at): Row,
) -> Result<Document, StoreError> {
    let what = format!("document {id}");
    Ok(Document {
        kind: Kind::from_key(&kind)
            .ok_or_else(|| StoreError::unreadable(what.clone(), format!("unknown kind {kind}")))?,
        revision: from_db(revision)?,
        body: json(&body, &what)?,
        id: id.parse()?,
        created_at: created_at.parse()?,
        changed_at: changed_at.parse()?,
        deleted_at: deleted_at.as_deref().map(str::parse).transpose()?,
    })
}

pub(super) async fn find_document(
    db: &mut SqliteConnection,
    id: &DocumentId,
) -> Result<Option<Document>, StoreError> {
    let row: Option<Row> = sqlx::query_as(
        "SELECT id, kind, revision, body, created_at, changed_at, deleted_at FROM document WHERE id = $1",
    )
    .bind(id.as_str())
    .fetch_optional(db)
    .await
    .doing("read a document")?;
    row.map(document).transpose()
}

pub(super) async fn need_document(
    db: &mut SqliteConnection,
    id: &DocumentId,
) -> Result<Document, StoreError> {
    find_document(db, id)
        .await?
        .ok_or_else(|| StoreError::NotFound(id.clone()))
}

pub(super) async fn list(db: &mut SqliteConnection, kind: Kind) -> Result<Vec<Document>, StoreError> {
    let rows: Vec<Row> = sqlx::query_as(
        "SELECT id, kind, revision, body, created_at, changed_at, deleted_at FROM document \
         WHERE kind = $1 AND deleted_at IS NULL ORDER BY created_at, id",
    )
    .bind(kind.key())
    .fetch_all(db)
    .await
    .doing("listed documents")?;
    rows.into_iter().map(document).collect()
}

pub(super) async fn bin(db: &mut SqliteConnection) -> Result<Vec<Document>, StoreError> {
    let rows: Vec<Row> = sqlx::query_as(
        "SELECT id, kind, revision, body, created_at, changed_at, deleted_at FROM document \
         WHERE deleted_at IS NOT NULL ORDER BY deleted_at DESC, id",
    )
    .fetch_all(db)
    .await
    .doing("listed the bin")?;
    rows.into_iter().map(document).collect()
}

/// Every document, also of the bin, by id.
pub(super) async fn all_documents(db: &mut SqliteConnection) -> Result<Vec<Document>, StoreError> {
    let rows: Vec<Row> = sqlx::query_as(
        "SELECT id, kind, revision, body, created_at, changed_at, deleted_at FROM document ORDER BY id",
    )
    .fetch_all(db)
    .await
    .doing("read all documents")?;
    rows.into_iter().map(document).collect()
}

/// The ids of all documents.
pub(super) async fn all_ids(db: &mut SqliteConnection) -> Result<Vec<DocumentId>, StoreError> {
    let rows: Vec<String> = sqlx::query_scalar("SELECT id FROM document ORDER BY id")
        .fetch_all(db)
        .await
        .doing("listed documents")?;
    Ok(rows.iter().map(|id| id.parse()).collect::<Result<_, _>>()?)
}

/// Writes a document, new or not.
pub(super) async fn save(db: &mut SqliteConnection, document: &Document) -> Result<(), StoreError> {
    sqlx::query(
        "INSERT INTO document (id, kind, revision, body, created_at, changed_at, deleted_at) \
         VALUES ($1, $2, $3, $4, $5, $6, $7) ON CONFLICT (id) DO UPDATE SET revision = excluded.revision, \
         body = excluded.body, changed_at = excluded.changed_at, deleted_at = excluded.deleted_at",
    )
    .bind(document.id.as_str())
    .bind(document.kind.key())
    .bind(to_db(document.revision))
    .bind(document.body.to_string())
    .bind(document.created_at.to_string())
    .bind(document.changed_at.to_string())
    .bind(document.deleted_at.map(|at| at.to_string()))
    .execute(db)
    .await
    .doing("wrote a document")?;
    Ok(())
}

/// The next journal number.
pub(super) async fn next_seq(db: &mut SqliteConnection) -> Result<u64, StoreError> {
    let seq: i64 =
        sqlx::query_scalar("UPDATE counter SET value = value + 1 WHERE name = 'seq' RETURNING value")
            .fetch_one(db)
            .await
            .doing("numbered an entry")?;
    from_db(seq)
}

/// Writes an entry with its parts. The documents must be there.
pub(super) async fn save_entry(db: &mut SqliteConnection, entry: &Entry) -> Result<(), StoreError> {
    sqlx::query("INSERT INTO entry (seq, at, words, kind, target) VALUES ($1, $2, $3, $4, $5)")
        .bind(to_db(entry.seq))
        .bind(entry.at.to_string())
        .bind(&entry.words)
        .bind(entry.kind.key())
        .bind(entry.target.map(to_db))
        .execute(&mut *db)
        .await
        .doing("wrote the journal")?;
    for part in &entry.parts {
        sqlx::query("INSERT INTO part (document, seq, changes) VALUES ($1, $2, $3)")
            .bind(part.document.as_str())
            .bind(to_db(entry.seq))
            .bind(text(&part.changes, "changes")?)
            .execute(&mut *db)
            .await
            .doing("wrote the journal")?;
    }
    Ok(())
}

fn entry_kind(key: &str, seq: i64) -> Result<EntryKind, StoreError> {
    EntryKind::from_key(key)
        .ok_or_else(|| StoreError::unreadable(format!("journal entry {seq}"), format!("unknown kind {key}")))
}

/// One entry with all its parts, by document.
pub(super) async fn entry(db: &mut SqliteConnection, seq: u64) -> Result<Entry, StoreError> {
    let (at, words, kind, target): (String, String, String, Option<i64>) =
        sqlx::query_as("SELECT at, words, kind, target FROM entry WHERE seq = $1")
            .bind(to_db(seq))
            .fetch_one(&mut *db)
            .await
            .doing("read the journal")?;
    let parts: Vec<(String, String)> =
        sqlx::query_as("SELECT document, changes FROM part WHERE seq = $1 ORDER BY document")
            .bind(to_db(seq))
            .fetch_all(db)
            .await
            .doing("read the journal")?;
    let what = format!("journal entry {seq}");
    Ok(Entry {
        seq,
        at: at.parse()?,
        words,
        kind: entry_kind(&kind, to_db(seq))?,
        target: target.map(from_db).transpose()?,
        parts: parts
            .into_iter()
            .map(|(document, changes)| {
                Ok(Part {
                    document: document.parse()?,
                    changes: json(&changes, &what)?,
                })
            })
            .collect::<Result<_, StoreError>>()?,
    })
}

/// The entries of one document after `since`, in order, without changes.
pub(super) async fn steps(
    db: &mut SqliteConnection,
    id: &DocumentId,
    since: u64,
) -> Result<Vec<Step>, StoreError> {
    let rows: Vec<(i64, String, Option<i64>)> = sqlx::query_as(
        "SELECT entry.seq, entry.kind, entry.target FROM part JOIN entry ON entry.seq = part.seq \
         WHERE part.document = $1 AND part.seq > $2 ORDER BY part.seq",
    )
    .bind(id.as_str())
    .bind(to_db(since))
    .fetch_all(db)
    .await
    .doing("read the journal")?;
    rows.into_iter()
        .map(|(seq, kind, target)| {
            Ok(Step {
                seq: from_db(seq)?,
                kind: entry_kind(&kind, seq)?,
                target: target.map(from_db).transpose()?,
            })
        })
        .collect()
}

/// Whether a document ever had this revision.
pub(super) async fn had_revision(
    db: &mut SqliteConnection,
    id: &DocumentId,
    revision: u64,
) -> Result<bool, StoreError> {
    let found: Option<i64> = sqlx::query_scalar("SELECT seq FROM part WHERE document = $1 AND seq = $2")
        .bind(id.as_str())
        .bind(to_db(revision))
        .fetch_optional(db)
        .await
        .doing("read the journal")?;
    Ok(found.is_some())
}

/// What happened to a document after a revision, in order.
pub(super) async fn changes_after(
    db: &mut SqliteConnection,
    id: &DocumentId,
    revision: u64,
) -> Result<Vec<Vec<Change>>, StoreError> {
    let rows: Vec<String> =
        sqlx::query_scalar("SELECT changes FROM part WHERE document = $1 AND seq > $2 ORDER BY seq")
            .bind(id.as_str())
            .bind(to_db(revision))
            .fetch_all(db)
            .await
            .doing("read the journal")?;
    rows.iter().map(|text| json(text, "the journal")).collect()
}

/// Every entry there is, in order.
pub(super) async fn all_entries(db: &mut SqliteConnection) -> Result<Vec<Entry>, StoreError> {
    let seqs: Vec<i64> = sqlx::query_scalar("SELECT seq FROM entry ORDER BY seq")
        .fetch_all(&mut *db)
        .await
        .doing("read the journal")?;
    let mut entries = Vec::with_capacity(seqs.len());
    for seq in seqs {
        entries.push(entry(db, from_db(seq)?).await?);
    }
    Ok(entries)
}

/// A document that comes into being.
pub(super) fn new_document(id: DocumentId, kind: Kind, body: Value, seq: u64, at: Timestamp) -> Document {
    Document {
        id,
        kind,
        revision: seq,
        body,
        created_at: at,
        changed_at: at,
        deleted_at: None,
    }
}
