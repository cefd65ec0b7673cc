//! A suit as a work order: shown, previewed, taken back, kept as a version.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use serde::{Deserialize, Serialize};
use store::{DocumentId, Store as _};
use ts_rs::TS;
use utoipa::ToSchema;

use super::edits::Kept;
use super::problem::{Answer, Body, Problems};
use crate::app::{App, NewSuitRequest};
use crate::view::{Drag, OrderView, Preview, Set, StylesView, Why};

/// A new document.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct Made {
    /// Its id.
    pub id: String,
    /// Its first revision.
    pub revision: u64,
}

/// What to preview.
#[derive(Clone, Debug, Default, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields, default)]
pub struct PreviewRequest {
    /// Changes to try.
    pub changes: Vec<Set>,
    /// A handle on its way.
    pub drag: Option<Drag>,
    /// Whether the wear is wanted too.
    pub wear: bool,
}

/// A version to keep.
#[derive(Clone, Debug, Default, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields, default)]
pub struct VersionRequest {
    /// What the maker says about it.
    pub words: String,
}

/// The version in work after keeping one.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct VersionMade {
    /// The version that was kept.
    pub kept: u32,
    /// The one in work now.
    pub number: u32,
}

/// One line of a suit's history.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct HistoryLine {
    /// Its place in the journal.
    pub seq: u64,
    /// When, ISO 8601.
    pub at: String,
    /// What was done.
    pub words: String,
    /// `made`, `edit`, `back`, `forward`, `deleted`, `restored`.
    pub kind: String,
}

fn suit_id(id: &str) -> Answer<DocumentId> {
    id.parse().map_err(|_| Problems::not_found("suit"))
}

/// Begins a suit.
#[utoipa::path(post, path = "/api/v1/suits", tag = "suits", request_body = NewSuitRequest,
    responses((status = 201, body = Made), (status = 404, body = Problems)))]
pub(super) async fn begin(
    State(app): State<Arc<App>>,
    Body(request): Body<NewSuitRequest>,
) -> Answer<(StatusCode, Json<Made>)> {
    let suit = app.new_suit(request).await?;
    let made = Made {
        id: suit.id.as_str().to_owned(),
        revision: suit.revision,
    };
    Ok((StatusCode::CREATED, Json(made)))
}

/// Takes a suit file in: TOML as the command line reads it.
#[utoipa::path(post, path = "/api/v1/suits/import", tag = "suits", request_body(content = String, content_type = "text/plain"),
    responses((status = 201, body = Made), (status = 422, body = Problems)))]
pub(super) async fn import(State(app): State<Arc<App>>, text: String) -> Answer<(StatusCode, Json<Made>)> {
    let id = app
        .import_suit("the suit file", &text)
        .await?
        .map_err(|f| Problems::from(*f))?;
    let made = Made {
        revision: app.store.get(&id).await?.revision,
        id: id.as_str().to_owned(),
    };
    Ok((StatusCode::CREATED, Json(made)))
}

/// The whole work order.
#[utoipa::path(get, path = "/api/v1/suits/{id}", tag = "suits", params(("id" = String, Path)),
    responses((status = 200, body = OrderView), (status = 404, body = Problems)))]
pub(super) async fn order(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<OrderView>> {
    Ok(Json(app.order(&suit_id(&id)?).await?))
}

/// What changes, or a handle on its way, would give. Nothing is kept.
#[utoipa::path(post, path = "/api/v1/suits/{id}/preview", tag = "suits", params(("id" = String, Path)),
    request_body = PreviewRequest,
    responses((status = 200, body = Preview), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn preview(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
    Body(request): Body<PreviewRequest>,
) -> Answer<Json<Preview>> {
    let preview = app
        .preview(&suit_id(&id)?, request.changes, request.drag, request.wear)
        .await?;
    match preview {
        Ok(preview) => Ok(Json(preview)),
        Err(says) => Err(Problems::refused(says, "Load the page again.")),
    }
}

/// Takes the last edit of this work order back.
#[utoipa::path(post, path = "/api/v1/suits/{id}/back", tag = "suits", params(("id" = String, Path)),
    responses((status = 200, body = Kept), (status = 409, body = Problems)))]
pub(super) async fn back(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<Kept>> {
    let worked = app.worked(&suit_id(&id)?).await?;
    let (ids, since) = app.line_of(&worked).await?;
    let gone = app.store.back(&ids, since).await?;
    Ok(Json(Kept::of(&gone.documents, false)))
}

/// Makes again what was taken back last.
#[utoipa::path(post, path = "/api/v1/suits/{id}/forward", tag = "suits", params(("id" = String, Path)),
    responses((status = 200, body = Kept), (status = 409, body = Problems)))]
pub(super) async fn forward(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<Kept>> {
    let worked = app.worked(&suit_id(&id)?).await?;
    let (ids, since) = app.line_of(&worked).await?;
    let gone = app.store.forward(&ids, since).await?;
    Ok(Json(Kept::of(&gone.documents, false)))
}

/// Everything that was done to this work order, the latest first.
#[utoipa::path(get, path = "/api/v1/suits/{id}/history", tag = "suits", params(("id" = String, Path)),
    responses((status = 200, body = Vec<HistoryLine>), (status = 404, body = Problems)))]
pub(super) async fn history(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
) -> Answer<Json<Vec<HistoryLine>>> {
    let worked = app.worked(&suit_id(&id)?).await?;
    let (ids, since) = app.line_of(&worked).await?;
    let entries = app.store.history(&ids, since.saturating_sub(1)).await?;
    let lines = entries.into_iter().rev().map(|entry| HistoryLine {
        seq: entry.seq,
        at: entry.at.to_string(),
        words: entry.words,
        kind: serde_json::to_value(entry.kind)
            .ok()
            .and_then(|k| k.as_str().map(str::to_owned))
            .unwrap_or_default(),
    });
    Ok(Json(lines.collect()))
}

/// Keeps the version in work as it was cut; work goes on as the next.
#[utoipa::path(post, path = "/api/v1/suits/{id}/versions", tag = "suits", params(("id" = String, Path)),
    request_body = VersionRequest,
    responses((status = 201, body = VersionMade), (status = 409, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn keep_version(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
    Body(request): Body<VersionRequest>,
) -> Answer<(StatusCode, Json<VersionMade>)> {
    match app.keep_version(&suit_id(&id)?, &request.words).await? {
        Ok((kept, number)) => Ok((StatusCode::CREATED, Json(VersionMade { kept, number }))),
        Err(says) => Err(Problems::refused(says, "Fill in what is missing first.")),
    }
}

/// Every style this wearer can have, each drawn as her own draft.
#[utoipa::path(get, path = "/api/v1/suits/{id}/styles", tag = "suits", params(("id" = String, Path)),
    responses((status = 200, body = StylesView), (status = 404, body = Problems)))]
pub(super) async fn styles(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<StylesView>> {
    Ok(Json(app.styles(&suit_id(&id)?).await?))
}

/// The reason of a computed number.
#[utoipa::path(get, path = "/api/v1/suits/{id}/why/{key}", tag = "suits",
    params(("id" = String, Path), ("key" = String, Path)),
    responses((status = 200, body = Why), (status = 404, body = Problems)))]
pub(super) async fn why(
    State(app): State<Arc<App>>,
    Path((id, key)): Path<(String, String)>,
) -> Answer<Json<Why>> {
    let id = suit_id(&id)?;
    let worked = app.worked(&id).await?;
    crate::view::why(&worked, &key)
        .or_else(|| app.worn_why(&id, &key))
        .map(Json)
        .ok_or_else(|| Problems::not_found("reason any more"))
}
