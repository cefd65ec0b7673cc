//! One edit, over one or several documents.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use serde::Serialize;
use store::Document;
use ts_rs::TS;
use utoipa::ToSchema;

use super::problem::{Answer, Body, Problems};
use crate::app::{App, EditRequest};
use crate::view::Stamp;

/// What came of an edit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct Kept {
    /// The documents as they stand now.
    pub documents: Vec<Stamp>,
    /// Whether somebody else's changes stand beside these: read the order again.
    pub merged: bool,
}

impl Kept {
    pub(super) fn of(documents: &[Document], merged: bool) -> Kept {
        Kept {
            documents: documents.iter().map(stamp).collect(),
            merged,
        }
    }
}

pub(super) fn stamp(document: &Document) -> Stamp {
    Stamp {
        id: document.id.as_str().to_owned(),
        kind: document.kind.key().to_owned(),
        revision: document.revision,
    }
}

/// Makes an edit, all of it or nothing.
///
/// Edits of different places made at the same time stand side by side (`merged`); of the same place, the later one is
/// refused with the values in question, for the maker to choose.
#[utoipa::path(post, path = "/api/v1/edits", tag = "documents", request_body = EditRequest,
    responses((status = 200, body = Kept), (status = 404, body = Problems), (status = 409, body = Problems),
        (status = 422, body = Problems)))]
pub(super) async fn edit(
    State(app): State<Arc<App>>,
    Body(request): Body<EditRequest>,
) -> Answer<Json<Kept>> {
    let edited = app.edit(request).await?;
    Ok(Json(Kept::of(&edited.documents, edited.merged)))
}
