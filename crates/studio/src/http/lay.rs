//! The lay of a suit's cloth: packed, moved by hand, laid on all there is.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use axum::http::StatusCode;

use super::documents::document_id;
use super::jobs::{Started, started};
use super::problem::{Answer, Body, Problems};
use crate::app::{App, PackLayRequest, PlaceAnswer, PlaceRequest};

/// Starts packing a cloth closer, around what a hand placed. The lay is kept with the suit when the job ends or is stopped; while
/// it runs its events carry the lay found so far.
#[utoipa::path(post, path = "/api/v1/suits/{id}/lay/{layer}/pack", tag = "lay",
    params(("id" = String, Path), ("layer" = String, Path)), request_body = PackLayRequest,
    responses((status = 202, body = Started), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn pack(
    State(app): State<Arc<App>>,
    Path((id, layer)): Path<(String, String)>,
    Body(request): Body<PackLayRequest>,
) -> Answer<(StatusCode, Json<Started>)> {
    started(app.start_lay(&document_id(&id)?, &layer, &request).await?)
}

/// Tries a piece somewhere else, or keeps it there. What breaks a rule is told and not kept.
#[utoipa::path(post, path = "/api/v1/suits/{id}/lay/{layer}/place", tag = "lay",
    params(("id" = String, Path), ("layer" = String, Path)), request_body = PlaceRequest,
    responses((status = 200, body = PlaceAnswer), (status = 404, body = Problems), (status = 409, body = Problems),
        (status = 422, body = Problems)))]
pub(super) async fn place(
    State(app): State<Arc<App>>,
    Path((id, layer)): Path<(String, String)>,
    Body(request): Body<PlaceRequest>,
) -> Answer<Json<PlaceAnswer>> {
    match app.place(&document_id(&id)?, &layer, request).await? {
        Ok(answer) => Ok(Json(answer)),
        Err(says) => Err(Problems::refused(says, "Load the page again.")),
    }
}

/// Starts laying it on every cloth of the workroom that may serve and every piece of them at hand. The result is a list: enough, not
/// enough and which single change would do, or why it is not compared.
#[utoipa::path(post, path = "/api/v1/suits/{id}/lay/{layer}/fits", tag = "lay",
    params(("id" = String, Path), ("layer" = String, Path)),
    responses((status = 202, body = Started), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn fits(
    State(app): State<Arc<App>>,
    Path((id, layer)): Path<(String, String)>,
) -> Answer<(StatusCode, Json<Started>)> {
    started(app.start_fits(&document_id(&id)?, &layer).await?)
}
