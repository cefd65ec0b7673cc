//! Documents as they are: made, read, listed, put into the bin and taken out.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, Query, State};
use axum::http::StatusCode;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use store::{Document, DocumentId, Kind, Store as _};
use ts_rs::TS;
use utoipa::{IntoParams, ToSchema};

use super::problem::{Answer, Body, Problems};
use super::suits::Made;
use crate::app::App;

/// A document to make.
#[derive(Clone, Debug, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct NewDocument {
    /// `wearer`, `cloth`, `elastic`, `sample`, `drawer`, `class`; a suit is begun under `/suits`.
    pub kind: String,
    /// Its body; see `docs/api.md`.
    #[ts(type = "unknown")]
    #[schema(value_type = Object)]
    pub body: Value,
    /// What the history calls it.
    #[serde(default)]
    pub words: String,
}

/// A document.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct DocumentView {
    /// Its id.
    pub id: String,
    /// Its kind.
    pub kind: String,
    /// Its revision.
    pub revision: u64,
    /// Its body.
    #[ts(type = "unknown")]
    #[schema(value_type = Object)]
    pub body: Value,
    /// Whether it lies in the bin.
    pub in_bin: bool,
}

/// What was put into the bin.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct Binned {
    /// What was done, in a sentence.
    pub says: String,
    /// Whether it can be taken out again.
    pub back: bool,
}

/// Which documents.
#[derive(Clone, Debug, Deserialize, IntoParams)]
pub(super) struct Which {
    /// Their kind.
    kind: String,
}

pub(super) fn document_id(id: &str) -> Answer<DocumentId> {
    id.parse().map_err(|_| Problems::not_found("document"))
}

fn kind_of(key: &str) -> Answer<Kind> {
    Kind::from_key(key).ok_or_else(|| {
        let kinds: Vec<&str> = Kind::ALL.iter().map(|k| k.key()).collect();
        Problems::refused(
            format!("\"{key}\" is no kind of document"),
            &format!("Choose one of {}.", kinds.join(", ")),
        )
    })
}

fn shown(document: Document) -> DocumentView {
    DocumentView {
        id: document.id.as_str().to_owned(),
        kind: document.kind.key().to_owned(),
        revision: document.revision,
        body: document.body,
        in_bin: document.deleted_at.is_some(),
    }
}

/// Makes a document.
#[utoipa::path(post, path = "/api/v1/documents", tag = "documents", request_body = NewDocument,
    responses((status = 201, body = Made), (status = 422, body = Problems)))]
pub(super) async fn make(
    State(app): State<Arc<App>>,
    Body(new): Body<NewDocument>,
) -> Answer<(StatusCode, Json<Made>)> {
    let kind = kind_of(&new.kind)?;
    if matches!(kind, Kind::Suit | Kind::Workroom) {
        return Err(Problems::refused(
            format!("a {} is not made here", kind.key()),
            "A suit is begun under /api/v1/suits; the workroom is there already.",
        ));
    }
    let words = if new.words.trim().is_empty() {
        let name = new.body.get("name").and_then(Value::as_str).unwrap_or_default();
        format!("added {} {name}", kind.key()).trim_end().to_owned()
    } else {
        new.words
    };
    let document = app.store.create(kind, new.body, &words).await?;
    let made = Made {
        id: document.id.as_str().to_owned(),
        revision: document.revision,
    };
    Ok((StatusCode::CREATED, Json(made)))
}

/// The documents of a kind, the oldest first.
#[utoipa::path(get, path = "/api/v1/documents", tag = "documents", params(Which),
    responses((status = 200, body = Vec<DocumentView>), (status = 422, body = Problems)))]
pub(super) async fn list(
    State(app): State<Arc<App>>,
    Query(which): Query<Which>,
) -> Answer<Json<Vec<DocumentView>>> {
    let list = app.store.list(kind_of(&which.kind)?).await?;
    Ok(Json(list.into_iter().map(shown).collect()))
}

/// One document. The workroom is there even before anything is written in it.
#[utoipa::path(get, path = "/api/v1/documents/{id}", tag = "documents", params(("id" = String, Path)),
    responses((status = 200, body = DocumentView), (status = 404, body = Problems)))]
pub(super) async fn read(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<DocumentView>> {
    let document = if id == "workroom" {
        app.workroom_made().await?
    } else {
        app.store.get(&document_id(&id)?).await?
    };
    Ok(Json(shown(document)))
}

/// Puts a document into the bin. A wearer is removed under `/wearers` instead: really.
#[utoipa::path(delete, path = "/api/v1/documents/{id}", tag = "documents", params(("id" = String, Path)),
    responses((status = 200, body = Binned), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn delete(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<Binned>> {
    let id = document_id(&id)?;
    let document = app.store.get(&id).await?;
    if matches!(document.kind, Kind::Wearer | Kind::Workroom) {
        return Err(Problems::refused(
            format!("a {} does not go into the bin", document.kind.key()),
            "A wearer is removed for good from her own page.",
        ));
    }
    let name = crate::app::name_of(&document.body).to_owned();
    app.store.delete(&id, &format!("put {name} into the bin")).await?;
    Ok(Json(Binned {
        says: format!("{name} is in the bin."),
        back: true,
    }))
}

/// Takes a document out of the bin.
#[utoipa::path(post, path = "/api/v1/documents/{id}/restore", tag = "documents", params(("id" = String, Path)),
    responses((status = 200, body = DocumentView), (status = 404, body = Problems)))]
pub(super) async fn restore(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
) -> Answer<Json<DocumentView>> {
    let document = app
        .store
        .restore(&document_id(&id)?, "took it out of the bin")
        .await?;
    Ok(Json(shown(document)))
}
