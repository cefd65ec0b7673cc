//! Versions, photos, settings and sessions: rows that are kept but not edited.

use serde_json::Value;
use sqlx::SqliteConnection;

use super::{Inner, Outcome, rows};
use crate::error::Doing;
use crate::limits::{check_body, check_name, check_setting, check_words};
use crate::photo;
use crate::{DocumentId, Event, Kind, Photo, PhotoId, PhotoInfo, Session, StoreError, Timestamp, Version};

/// A device's last visit is written once in this time, not at every request.
const SEEN_EVERY_MS: i64 = 60_000;
pub(super) async fn keep_version(db: &mut SqliteConnection, version: Version) -> Outcome<Version> {
    check_words(&version.words)?;
    check_body(Kind::Suit, &version.body)?;
    if version.text.len() > crate::MAX_BODY {
        return Err(StoreError::TooLarge(version.text.len()));
    }
    rows::need_document(db, &version.suit).await?;
    if !save_version(db, &version).await? {
        return Err(StoreError::VersionExists {
            suit: version.suit,
            number: version.number,
        });
    }
    let event = Event::Version {
        suit: version.suit.clone(),
        number: version.number,
    };
    Ok((version, Some(event)))
}

/// Says whether the number was free.
pub(super) async fn save_version(db: &mut SqliteConnection, version: &Version) -> Result<bool, StoreError> {
    let done = sqlx::query(
        "INSERT INTO version (suit, number, body, text, words, at) VALUES ($1, $2, $3, $4, $5, $6) \
         ON CONFLICT (suit, number) DO NOTHING",
    )
    .bind(version.suit.as_str())
    .bind(i64::from(version.number))
    .bind(version.body.to_string())
    .bind(&version.text)
    .bind(&version.words)
    .bind(version.at.to_string())
    .execute(db)
    .await
    .doing("kept a version")?;
    Ok(done.rows_affected() == 1)
}

pub(super) async fn versions(
    db: &mut SqliteConnection,
    suit: &DocumentId,
) -> Result<Vec<Version>, StoreError> {
    let rows: Vec<(i64, String, String, String, String)> =
        sqlx::query_as("SELECT number, body, text, words, at FROM version WHERE suit = $1 ORDER BY number")
            .bind(suit.as_str())
            .fetch_all(db)
            .await
            .doing("read versions")?;
    rows.into_iter()
        .map(|(number, body, text, words, at)| {
            let what = format!("version {number} of suit {suit}");
            Ok(Version {
                suit: suit.clone(),
                number: u32::try_from(number).map_err(|fault| StoreError::unreadable(what.clone(), fault))?,
                body: rows::json(&body, &what)?,
                text,
                words,
                at: at.parse()?,
            })
        })
        .collect()
}

pub(super) async fn put_photo(
    db: &mut SqliteConnection,
    inner: &Inner,
    owner: DocumentId,
    mime: String,
    bytes: Vec<u8>,
) -> Outcome<PhotoId> {
    photo::check(&mime, bytes.len())?;
    rows::need_document(db, &owner).await?;
    let id: PhotoId = inner.new_id()?;
    let info = PhotoInfo {
        id: id.clone(),
        owner: owner.clone(),
        mime,
        at: inner.now(),
        size: bytes.len() as u64,
    };
    save_photo(db, &info, &bytes).await?;
    Ok((id, Some(Event::Photos { owner })))
}

pub(super) async fn save_photo(
    db: &mut SqliteConnection,
    info: &PhotoInfo,
    bytes: &[u8],
) -> Result<(), StoreError> {
    sqlx::query("INSERT INTO photo (id, owner, mime, at, bytes) VALUES ($1, $2, $3, $4, $5)")
        .bind(info.id.as_str())
        .bind(info.owner.as_str())
        .bind(&info.mime)
        .bind(info.at.to_string())
        .bind(bytes)
        .execute(db)
        .await
        .doing("stored a photo")?;
    Ok(())
}

pub(super) async fn photo(db: &mut SqliteConnection, id: &PhotoId) -> Result<Photo, StoreError> {
    let row: Option<(String, String, String, Vec<u8>)> =
        sqlx::query_as("SELECT owner, mime, at, bytes FROM photo WHERE id = $1")
            .bind(id.as_str())
            .fetch_optional(db)
            .await
            .doing("read a photo")?;
    let (owner, mime, at, bytes) = row.ok_or_else(|| StoreError::NoPhoto(id.clone()))?;
    let info = PhotoInfo {
        id: id.clone(),
        owner: owner.parse()?,
        mime,
        at: at.parse()?,
        size: bytes.len() as u64,
    };
    Ok(Photo { info, bytes })
}

pub(super) async fn photos(
    db: &mut SqliteConnection,
    owner: &DocumentId,
) -> Result<Vec<PhotoInfo>, StoreError> {
    let rows: Vec<(String, String, String, i64)> =
        sqlx::query_as("SELECT id, mime, at, length(bytes) FROM photo WHERE owner = $1 ORDER BY at, id")
            .bind(owner.as_str())
            .fetch_all(db)
            .await
            .doing("listed photos")?;
    rows.into_iter()
        .map(|(id, mime, at, size)| {
            Ok(PhotoInfo {
                id: id.parse()?,
                owner: owner.clone(),
                mime,
                at: at.parse()?,
                size: rows::from_db(size)?,
            })
        })
        .collect()
}

/// The ids of all photos.
pub(super) async fn photo_ids(db: &mut SqliteConnection) -> Result<Vec<PhotoId>, StoreError> {
    let rows: Vec<String> = sqlx::query_scalar("SELECT id FROM photo ORDER BY id")
        .fetch_all(db)
        .await
        .doing("listed photos")?;
    Ok(rows.iter().map(|id| id.parse()).collect::<Result<_, _>>()?)
}

pub(super) async fn remove_photo(db: &mut SqliteConnection, id: PhotoId) -> Outcome<()> {
    let owner: Option<String> = sqlx::query_scalar("DELETE FROM photo WHERE id = $1 RETURNING owner")
        .bind(id.as_str())
        .fetch_optional(db)
        .await
        .doing("removed a photo")?;
    let owner = owner.ok_or(StoreError::NoPhoto(id))?.parse()?;
    Ok(((), Some(Event::Photos { owner })))
}

pub(super) async fn setting(db: &mut SqliteConnection, name: &str) -> Result<Option<Value>, StoreError> {
    let value: Option<String> = sqlx::query_scalar("SELECT value FROM setting WHERE name = $1")
        .bind(name)
        .fetch_optional(db)
        .await
        .doing("read a setting")?;
    value.map(|text| rows::json(&text, name)).transpose()
}

/// All settings, by name.
pub(super) async fn settings(db: &mut SqliteConnection) -> Result<Vec<(String, Value)>, StoreError> {
    let rows: Vec<(String, String)> = sqlx::query_as("SELECT name, value FROM setting ORDER BY name")
        .fetch_all(db)
        .await
        .doing("read the settings")?;
    rows.into_iter()
        .map(|(name, text)| {
            let value = rows::json(&text, &name)?;
            Ok((name, value))
        })
        .collect()
}

pub(super) async fn set_setting(db: &mut SqliteConnection, name: String, value: Value) -> Outcome<()> {
    check_setting(&name, &value)?;
    sqlx::query(
        "INSERT INTO setting (name, value) VALUES ($1, $2) ON CONFLICT (name) DO UPDATE SET value = excluded.value",
    )
    .bind(name)
    .bind(value.to_string())
    .execute(db)
    .await
    .doing("wrote a setting")?;
    Ok(((), None))
}

type SessionRow = (String, String, String, String);

fn to_session((token_hash, name, created_at, last_seen): SessionRow) -> Result<Session, StoreError> {
    Ok(Session {
        token_hash,
        name,
        created_at: created_at.parse()?,
        last_seen: last_seen.parse()?,
    })
}

pub(super) async fn add_session(db: &mut SqliteConnection, session: Session) -> Outcome<Session> {
    check_name("the hash of a device's token", &session.token_hash)?;
    check_name("the name of a device", &session.name)?;
    let row: SessionRow = sqlx::query_as(
        "INSERT INTO session (token_hash, name, created_at, last_seen) VALUES ($1, $2, $3, $4) \
         ON CONFLICT (token_hash) DO UPDATE SET name = excluded.name, last_seen = excluded.last_seen \
         RETURNING token_hash, name, created_at, last_seen",
    )
    .bind(&session.token_hash)
    .bind(&session.name)
    .bind(session.created_at.to_string())
    .bind(session.last_seen.to_string())
    .fetch_one(db)
    .await
    .doing("let a device in")?;
    Ok((to_session(row)?, None))
}

pub(super) async fn session(
    db: &mut SqliteConnection,
    token_hash: &str,
) -> Result<Option<Session>, StoreError> {
    let row: Option<SessionRow> =
        sqlx::query_as("SELECT token_hash, name, created_at, last_seen FROM session WHERE token_hash = $1")
            .bind(token_hash)
            .fetch_optional(db)
            .await
            .doing("looked for a device")?;
    row.map(to_session).transpose()
}

/// Whether its last visit should be written anew. A clock set back counts as well.
pub(super) fn is_stale(session: &Session, now: Timestamp) -> bool {
    (now.millis() - session.last_seen.millis()).abs() >= SEEN_EVERY_MS
}

pub(super) async fn seen(
    db: &mut SqliteConnection,
    token_hash: String,
    now: Timestamp,
) -> Outcome<Option<Session>> {
    let row: Option<SessionRow> = sqlx::query_as(
        "UPDATE session SET last_seen = $2 WHERE token_hash = $1 RETURNING token_hash, name, created_at, last_seen",
    )
    .bind(token_hash)
    .bind(now.to_string())
    .fetch_optional(db)
    .await
    .doing("noted a device")?;
    Ok((row.map(to_session).transpose()?, None))
}

pub(super) async fn sessions(db: &mut SqliteConnection) -> Result<Vec<Session>, StoreError> {
    let rows: Vec<SessionRow> = sqlx::query_as(
        "SELECT token_hash, name, created_at, last_seen FROM session ORDER BY created_at, token_hash",
    )
    .fetch_all(db)
    .await
    .doing("listed the devices")?;
    rows.into_iter().map(to_session).collect()
}

pub(super) async fn remove_session(db: &mut SqliteConnection, token_hash: String) -> Outcome<bool> {
    let done = sqlx::query("DELETE FROM session WHERE token_hash = $1")
        .bind(token_hash)
        .execute(db)
        .await
        .doing("shut a device out")?;
    Ok((done.rows_affected() > 0, None))
}
