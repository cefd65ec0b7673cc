//! A suit on its form: put on by a job, its lines and drawings fetched, changes of the draft tried on it.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, Query, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::Deserialize;
use utoipa::IntoParams;

use super::documents::document_id;
use super::jobs::{Started, started};
use super::problem::{Answer, Body, Problems};
use crate::app::App;
use crate::view::{PutOnRequest, TryRequest, WornView};

/// The computed fit as it is known: the last result, what is at work, what is proposed.
#[utoipa::path(get, path = "/api/v1/suits/{id}/worn", tag = "worn", params(("id" = String, Path)),
    responses((status = 200, body = WornView), (status = 404, body = Problems)))]
pub(super) async fn show(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<WornView>> {
    Ok(Json(app.worn(&document_id(&id)?).await?))
}

/// Starts putting the suit on its form. One job at a time for a suit; the result is kept at hand while the studio runs.
#[utoipa::path(post, path = "/api/v1/suits/{id}/worn", tag = "worn", params(("id" = String, Path)),
    request_body = PutOnRequest,
    responses((status = 202, body = Started), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn put_on(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
    Body(request): Body<PutOnRequest>,
) -> Answer<(StatusCode, Json<Started>)> {
    started(app.start_put_on(&document_id(&id)?, request).await?)
}

/// Starts looking for a better draft. What it proposes is shown and not taken: taking it is an edit of the suit.
#[utoipa::path(post, path = "/api/v1/suits/{id}/worn/better", tag = "worn", params(("id" = String, Path)),
    responses((status = 202, body = Started), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn better(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
) -> Answer<(StatusCode, Json<Started>)> {
    started(app.start_better(&document_id(&id)?).await?)
}

/// Starts trying the changes of one finding. What they would do is shown and not taken.
#[utoipa::path(post, path = "/api/v1/suits/{id}/worn/try", tag = "worn", params(("id" = String, Path)),
    request_body = TryRequest,
    responses((status = 202, body = Started), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn try_on(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
    Body(request): Body<TryRequest>,
) -> Answer<(StatusCode, Json<Started>)> {
    started(app.start_try(&document_id(&id)?, &request.finding).await?)
}

/// Drops what was proposed.
#[utoipa::path(post, path = "/api/v1/suits/{id}/worn/leave", tag = "worn", params(("id" = String, Path)),
    responses((status = 204), (status = 404, body = Problems)))]
pub(super) async fn leave(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<StatusCode> {
    app.leave_proposed(&document_id(&id)?);
    Ok(StatusCode::NO_CONTENT)
}

/// Which result is meant.
#[derive(Debug, Deserialize, IntoParams)]
pub(super) struct OfResult {
    /// Id of the result.
    of: String,
}

/// The form and the suit on it as lines to be turned: section rings with the squeeze, and open edges. The bytes are told in docs/api.md.
#[utoipa::path(get, path = "/api/v1/suits/{id}/worn/rings", tag = "worn", params(("id" = String, Path), OfResult),
    responses((status = 200, content_type = "application/octet-stream", body = Vec<u8>), (status = 404, body = Problems)))]
pub(super) async fn rings(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
    Query(result): Query<OfResult>,
) -> Answer<Response> {
    let bytes = app
        .worn_rings(&document_id(&id)?, &result.of)
        .ok_or_else(|| Problems::not_found("result"))?;
    Ok(([(header::CONTENT_TYPE, "application/octet-stream")], bytes).into_response())
}

/// A drawing of the worn suit, SVG.
#[utoipa::path(get, path = "/api/v1/suits/{id}/worn/drawings/{name}", tag = "worn",
    params(("id" = String, Path), ("name" = String, Path, description = "As in the result: `front`"), OfResult),
    responses((status = 200, content_type = "image/svg+xml", body = Vec<u8>), (status = 404, body = Problems)))]
pub(super) async fn drawing(
    State(app): State<Arc<App>>,
    Path((id, name)): Path<(String, String)>,
    Query(result): Query<OfResult>,
) -> Answer<Response> {
    let svg = app
        .worn_drawing(&document_id(&id)?, &result.of, &name)
        .ok_or_else(|| Problems::not_found("drawing"))?;
    let mut response = ([(header::CONTENT_TYPE, "image/svg+xml")], svg).into_response();
    response.headers_mut().insert(
        header::CONTENT_SECURITY_POLICY,
        HeaderValue::from_static("default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'"),
    );
    Ok(response)
}
