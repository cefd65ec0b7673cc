//! The whole workroom as one archive, and its backups.

use std::sync::Arc;

use axum::Json;
use axum::body::Bytes;
use axum::extract::{DefaultBodyLimit, Path, Query, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::{Deserialize, Serialize};
use store::{Backup, BackupReason, ImportMode, Store as _};
use ts_rs::TS;
use utoipa::{IntoParams, ToSchema};

use super::home::Done;
use super::problem::{Answer, Problems};
use crate::app::{App, count};

/// Largest archive that is taken in.
const LARGEST: usize = 512 << 20;

/// How an archive is taken in.
#[derive(Clone, Debug, Deserialize, IntoParams)]
pub(super) struct How {
    /// `add` puts it beside what is there, `replace` in its place.
    mode: String,
}

/// A backup.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct BackupView {
    /// Its name.
    pub name: String,
    /// When, ISO 8601.
    pub at: String,
    /// Why, and how large: `every day, 0.3 MB`.
    pub says: String,
}

fn shown(backup: Backup) -> BackupView {
    let why = match backup.reason {
        BackupReason::Daily => "of the day",
        BackupReason::Asked => "made by hand",
        BackupReason::BeforeUpdate => "before an update",
        BackupReason::BeforeRestore => "before a restore",
        BackupReason::BeforeImport => "before an archive was taken in",
    };
    BackupView {
        says: format!("{why}, {:.1} MB", backup.size as f64 / 1e6),
        at: backup.at.to_string(),
        name: backup.name,
    }
}

/// The whole workroom as one archive.
#[utoipa::path(get, path = "/api/v1/archive", tag = "workroom",
    responses((status = 200, content_type = "application/zip", body = Vec<u8>), (status = 500, body = Problems)))]
pub(super) async fn export(State(app): State<Arc<App>>) -> Answer<Response> {
    let bytes = app.store.export_archive().await?;
    let mut response = ([(header::CONTENT_TYPE, "application/zip")], bytes).into_response();
    let says = format!("attachment; filename=\"slackwater-workroom-{}.zip\"", app.today());
    if let Ok(value) = HeaderValue::from_str(&says) {
        response.headers_mut().insert(header::CONTENT_DISPOSITION, value);
    }
    Ok(response)
}

/// A layer for [`import`] alone.
pub(super) fn upload_limit() -> DefaultBodyLimit {
    DefaultBodyLimit::max(LARGEST)
}

/// Takes an archive in. All of it is checked before anything is written. Added to a workroom, what is here already is left
/// alone, and what differs from a thing here of the same id is kept beside it as a second.
#[utoipa::path(post, path = "/api/v1/archive", tag = "workroom", params(How),
    request_body(content = Vec<u8>, content_type = "application/zip"),
    responses((status = 200, body = Done), (status = 422, body = Problems)))]
pub(super) async fn import(
    State(app): State<Arc<App>>,
    Query(how): Query<How>,
    bytes: Bytes,
) -> Answer<Json<Done>> {
    let says = match how.mode.as_str() {
        "add" => app.add_archive(bytes.to_vec()).await?.says(),
        "replace" => {
            let imported = app
                .store
                .import_archive(bytes.to_vec(), ImportMode::Replace)
                .await?;
            app.forget();
            format!(
                "Took in {} and {}.",
                count(imported.documents, "document"),
                count(imported.photos, "photo")
            )
        }
        other => {
            return Err(Problems::refused(
                format!("\"{other}\" is no way to take an archive in"),
                "Choose add or replace.",
            ));
        }
    };
    Ok(Json(Done { says }))
}

/// The backups, the latest first.
#[utoipa::path(get, path = "/api/v1/backups", tag = "workroom", responses((status = 200, body = Vec<BackupView>)))]
pub(super) async fn backups(State(app): State<Arc<App>>) -> Answer<Json<Vec<BackupView>>> {
    Ok(Json(app.store.backups().await?.into_iter().map(shown).collect()))
}

/// Makes a backup now.
#[utoipa::path(post, path = "/api/v1/backups", tag = "workroom",
    responses((status = 201, body = BackupView), (status = 500, body = Problems)))]
pub(super) async fn back_up(State(app): State<Arc<App>>) -> Answer<(StatusCode, Json<BackupView>)> {
    let backup = app.store.backup(BackupReason::Asked).await?;
    Ok((StatusCode::CREATED, Json(shown(backup))))
}

/// What came of putting a backup back.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct Restored {
    /// What was done.
    pub says: String,
    /// The backup made of what was there before.
    pub before: BackupView,
}

/// Puts everything back as it was in a backup, after a backup of what is there now.
#[utoipa::path(post, path = "/api/v1/backups/{name}/restore", tag = "workroom", params(("name" = String, Path)),
    responses((status = 200, body = Restored), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn restore(State(app): State<Arc<App>>, Path(name): Path<String>) -> Answer<Json<Restored>> {
    let before = app.store.restore_backup(&name).await?;
    app.forget();
    Ok(Json(Restored {
        says: "Everything is as it was then.".to_owned(),
        before: shown(before),
    }))
}
