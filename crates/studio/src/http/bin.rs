//! The bin: what lies in it, and deleting one thing of it for good. Putting something in and taking it out goes by its document.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use serde::Serialize;
use ts_rs::TS;
use utoipa::ToSchema;

use super::documents::document_id;
use super::home::Done;
use super::problem::{Answer, Problems};
use crate::app::App;

/// Something in the bin.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct BinView {
    /// Its id.
    pub id: String,
    /// Its kind.
    pub kind: String,
    /// Its name.
    pub name: String,
    /// What it is: `Suit No. 15, for Odile`.
    pub about: String,
    /// Since when it lies there, ISO 8601.
    pub since: String,
}

/// What lies in the bin, the latest first.
#[utoipa::path(get, path = "/api/v1/bin", tag = "documents", responses((status = 200, body = Vec<BinView>)))]
pub(super) async fn show(State(app): State<Arc<App>>) -> Answer<Json<Vec<BinView>>> {
    let bin = app.bin().await?.into_iter().map(|one| BinView {
        id: one.id.as_str().to_owned(),
        kind: one.kind.key().to_owned(),
        name: one.name,
        about: one.about,
        since: one.since,
    });
    Ok(Json(bin.collect()))
}

/// Deletes something of the bin for good, with its history, versions and photos, here and in every backup.
#[utoipa::path(delete, path = "/api/v1/bin/{id}", tag = "documents", params(("id" = String, Path)),
    responses((status = 200, body = Done), (status = 404, body = Problems), (status = 500, body = Problems)))]
pub(super) async fn erase(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<Done>> {
    let says = app.erase_from_bin(&document_id(&id)?).await?;
    Ok(Json(Done { says }))
}
