//! The database side of archives: gathering content, and taking it in within one transaction.

use std::collections::{BTreeMap, BTreeSet};

use sqlx::SqliteConnection;

use super::{Inner, Outcome, backup, keep, rows};
use crate::archive::{self, Content, Names, Setting, renumber};
use crate::error::Doing;
use crate::limits::check_body;
use crate::{BackupReason, Event, ImportMode, Imported, PhotoId, StoreError};

/// Everything, as it stands at one moment, numbered from 1.
pub(super) async fn gather(db: &mut SqliteConnection) -> Result<Content, StoreError> {
    let mut content = Content::default();
    let sheets = &mut content.sheets;
    sheets.documents = rows::all_documents(db).await?;
    sheets.journal = rows::all_entries(db).await?;
    for document in &sheets.documents {
        sheets.versions.extend(keep::versions(db, &document.id).await?);
    }
    for id in keep::photo_ids(db).await? {
        let photo = keep::photo(db, &id).await?;
        sheets.photos.push(photo.info);
        content.bytes.insert(id, photo.bytes);
    }
    sheets.settings = keep::settings(db)
        .await?
        .into_iter()
        .map(|(name, value)| Setting { name, value })
        .collect();
    renumber(sheets, 1);
    Ok(content)
}

/// Off the threads that answer requests: compressing takes its time.
async fn aside<T: Send + 'static>(
    work: impl FnOnce() -> Result<T, StoreError> + Send + 'static,
) -> Result<T, StoreError> {
    tokio::task::spawn_blocking(work).await.unwrap_or_else(|fault| {
        Err(StoreError::Database {
            doing: "was stopped while handling an archive",
            source: Box::new(fault),
        })
    })
}

pub(super) async fn pack(content: Content) -> Result<Vec<u8>, StoreError> {
    aside(move || archive::pack(&content)).await
}

pub(super) async fn import(inner: &Inner, bytes: Vec<u8>, mode: ImportMode) -> Result<Imported, StoreError> {
    let content = aside(move || archive::unpack(&bytes)).await?;
    let rescue = match mode {
        ImportMode::Replace => {
            let _held = inner.backups.lock().await;
            Some(backup::make(&inner.files, inner.now(), BackupReason::BeforeImport).await?)
        }
        ImportMode::Add => None,
    };
    let mut imported = inner
        .write(move |tx, inner| Box::pin(take_in(tx, inner, content, mode)))
        .await?;
    imported.backup = rescue;
    Ok(imported)
}

async fn take_in(
    db: &mut SqliteConnection,
    inner: &Inner,
    mut content: Content,
    mode: ImportMode,
) -> Outcome<Imported> {
    let mut renamed = BTreeMap::new();
    match mode {
        ImportMode::Replace => {
            // Versions, photos and parts go with their documents.
            for statement in ["DELETE FROM document", "DELETE FROM entry", "DELETE FROM setting"] {
                sqlx::query(statement)
                    .execute(&mut *db)
                    .await
                    .doing("made room for an archive")?;
            }
            for setting in &content.sheets.settings {
                keep::set_setting(db, setting.name.clone(), setting.value.clone()).await?;
            }
        }
        ImportMode::Add => {
            let names = new_names(db, inner, &content).await?;
            if !names.is_empty() {
                names.apply(&mut content);
                renamed = names.documents;
            }
        }
    }

    let last: i64 =
        sqlx::query_scalar("UPDATE counter SET value = value + $1 WHERE name = 'seq' RETURNING value")
            .bind(rows::to_db(content.sheets.journal.len() as u64))
            .fetch_one(&mut *db)
            .await
            .doing("numbered an archive")?;
    let first = rows::from_db(last)? + 1 - content.sheets.journal.len() as u64;
    renumber(&mut content.sheets, first);

    let sheets = &content.sheets;
    for document in &sheets.documents {
        // A new id may be longer than the old one.
        check_body(document.kind, &document.body)?;
        rows::save(db, document).await?;
    }
    for entry in &sheets.journal {
        rows::save_entry(db, entry).await?;
    }
    for version in &sheets.versions {
        keep::save_version(db, version).await?;
    }
    for info in &sheets.photos {
        let bytes = content
            .bytes
            .get(&info.id)
            .ok_or_else(|| StoreError::NoPhoto(info.id.clone()))?;
        keep::save_photo(db, info, bytes).await?;
    }
    let imported = Imported {
        documents: sheets.documents.len(),
        entries: sheets.journal.len(),
        versions: sheets.versions.len(),
        photos: sheets.photos.len(),
        renamed,
        backup: None,
    };
    Ok((imported, Some(Event::Reloaded)))
}

/// New names for all that is taken here, none of them taken here or in the archive.
async fn new_names(db: &mut SqliteConnection, inner: &Inner, content: &Content) -> Result<Names, StoreError> {
    let mut names = Names::default();
    let here: BTreeSet<_> = rows::all_ids(db).await?.into_iter().collect();
    let mut taken = here.clone();
    taken.extend(
        content
            .sheets
            .documents
            .iter()
            .map(|document| document.id.clone()),
    );
    for document in &content.sheets.documents {
        if here.contains(&document.id) {
            names
                .documents
                .insert(document.id.clone(), fresh(inner, &mut taken)?);
        }
    }
    let here: BTreeSet<PhotoId> = keep::photo_ids(db).await?.into_iter().collect();
    let mut taken = here.clone();
    taken.extend(content.bytes.keys().cloned());
    for id in content.bytes.keys().filter(|id| here.contains(id)) {
        names.photos.insert(id.clone(), fresh(inner, &mut taken)?);
    }
    Ok(names)
}

/// A new id that is not taken; it is from now on.
fn fresh<I: std::str::FromStr<Err = crate::IdError> + Ord + Clone>(
    inner: &Inner,
    taken: &mut BTreeSet<I>,
) -> Result<I, StoreError> {
    loop {
        let id: I = inner.new_id()?;
        if taken.insert(id.clone()) {
            return Ok(id);
        }
    }
}
