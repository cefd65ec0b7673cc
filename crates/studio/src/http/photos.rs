//! Photos of swatches and try-ons. None of a wearer under 18.

use std::sync::Arc;

use axum::Json;
use axum::body::Bytes;
use axum::extract::{DefaultBodyLimit, Path, Query, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::Deserialize;
use serde_json::Value;
use store::{Kind, PhotoId, Store as _};
use utoipa::IntoParams;

use super::documents::document_id;
use super::problem::{Answer, Problems};
use super::suits::Made;
use crate::app::App;

/// Largest photo: what a telephone takes, not a camera's raw file.
const LARGEST: usize = 8 << 20;

/// Whose photo.
#[derive(Clone, Debug, Deserialize, IntoParams)]
pub(super) struct Owner {
    /// Id of the document it belongs to.
    owner: String,
}

/// Keeps a photo: JPEG, PNG or WebP, up to 8 MB. What it is goes by its first bytes, not by what it is called.
#[utoipa::path(post, path = "/api/v1/photos", tag = "photos", params(Owner),
    request_body(content = Vec<u8>, content_type = "image/*"),
    responses((status = 201, body = Made), (status = 413, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn put(
    State(app): State<Arc<App>>,
    Query(owner): Query<Owner>,
    bytes: Bytes,
) -> Answer<(StatusCode, Json<Made>)> {
    let owner = app.store.get(&document_id(&owner.owner)?).await?;
    if !matches!(
        owner.kind,
        Kind::Suit | Kind::Cloth | Kind::Elastic | Kind::Sample | Kind::Drawer
    ) {
        return Err(Problems::refused(
            format!("a {} keeps no photos", owner.kind.key()),
            "Photos belong to swatches, samples, the drawer and try-ons.",
        ));
    }
    if owner.kind == Kind::Suit && app.is_for_a_minor(&owner.body).await? {
        return Err(Problems::refused(
            "no photos are kept of a wearer under 18",
            "Write what you saw, and the carer's name.",
        ));
    }
    let Some(mime) = picture_type(&bytes) else {
        return Err(Problems::refused(
            "this is no JPEG, PNG or WebP picture",
            "Choose a photo as the telephone takes it.",
        ));
    };
    let id = app.store.put_photo(&owner.id, mime, bytes.to_vec()).await?;
    let made = Made {
        id: id.as_str().to_owned(),
        revision: owner.revision,
    };
    Ok((StatusCode::CREATED, Json(made)))
}

/// A layer for [`put`] alone.
pub(super) fn upload_limit() -> DefaultBodyLimit {
    DefaultBodyLimit::max(LARGEST)
}

/// A photo.
#[utoipa::path(get, path = "/api/v1/photos/{id}", tag = "photos", params(("id" = String, Path)),
    responses((status = 200, content_type = "image/*", body = Vec<u8>), (status = 404, body = Problems)))]
pub(super) async fn read(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Response> {
    let photo = app.store.photo(&photo_id(&id)?).await?;
    let mut headers = HeaderMap::new();
    // One of the three types of `picture_type`: nothing a browser would run.
    let mime = picture_type(&photo.bytes).unwrap_or("application/octet-stream");
    headers.insert(header::CONTENT_TYPE, header::HeaderValue::from_static(mime));
    Ok((headers, photo.bytes).into_response())
}

/// Removes a photo.
#[utoipa::path(delete, path = "/api/v1/photos/{id}", tag = "photos", params(("id" = String, Path)),
    responses((status = 204), (status = 404, body = Problems)))]
pub(super) async fn remove(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<StatusCode> {
    app.store.remove_photo(&photo_id(&id)?).await?;
    Ok(StatusCode::NO_CONTENT)
}

fn photo_id(id: &str) -> Answer<PhotoId> {
    id.parse().map_err(|_| Problems::not_found("photo"))
}

/// What the first bytes say. Source: the signatures of the PNG, JPEG and RIFF/WebP specifications.
fn picture_type(bytes: &[u8]) -> Option<&'static str> {
    match bytes {
        [0x89, b'P', b'N', b'G', 0x0d, 0x0a, 0x1a, 0x0a, ..] => Some("image/png"),
        [0xff, 0xd8, 0xff, ..] => Some("image/jpeg"),
        [b'R', b'I', b'F', b'F', _, _, _, _, b'W', b'E', b'B', b'P', ..] => Some("image/webp"),
        _ => None,
    }
}

impl App {
    /// Whether a suit's wearer is under 18: a child's form, or an age that says so.
    pub(crate) async fn is_for_a_minor(&self, suit: &Value) -> Result<bool, store::StoreError> {
        let Some(wearer) = suit.get("wearer").and_then(Value::as_str) else {
            return Ok(false);
        };
        let wearer = self.store.get(&wearer.parse()?).await?;
        Ok(crate::view::is_minor(&wearer.body))
    }
}
