//! The drawer: favourite suits and bought patterns, asked for step by step; the copy, the change sheet, a suit made of them.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use axum::http::StatusCode;

use super::documents::document_id;
use super::edits::Kept;
use super::problem::{Answer, Problems};
use super::suits::Made;
use crate::app::App;
use crate::view::{CopyView, DrawerView, SheetView};

/// One thing of the drawer: what it is, its measures, its cloths, and what is asked next.
#[utoipa::path(get, path = "/api/v1/drawer/{id}", tag = "drawer", params(("id" = String, Path)),
    responses((status = 200, body = DrawerView), (status = 404, body = Problems)))]
pub(super) async fn read(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<DrawerView>> {
    Ok(Json(app.drawer(&document_id(&id)?).await?))
}

/// A favourite suit found from its measures and carried over to the new cloth. Takes a second or so.
#[utoipa::path(get, path = "/api/v1/drawer/{id}/copy", tag = "drawer", params(("id" = String, Path)),
    responses((status = 200, body = CopyView), (status = 404, body = Problems)))]
pub(super) async fn copy(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<Arc<CopyView>>> {
    Ok(Json(app.copy_of(&document_id(&id)?).await?))
}

/// The change sheet of a bought pattern.
#[utoipa::path(get, path = "/api/v1/drawer/{id}/sheet", tag = "drawer", params(("id" = String, Path)),
    responses((status = 200, body = SheetView), (status = 404, body = Problems)))]
pub(super) async fn sheet(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<SheetView>> {
    Ok(Json(app.change_sheet(&document_id(&id)?).await?))
}

/// Makes a suit of the copy, or drafts one in place of the pattern.
#[utoipa::path(post, path = "/api/v1/drawer/{id}/suit", tag = "drawer", params(("id" = String, Path)),
    responses((status = 201, body = Made), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn make(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
) -> Answer<(StatusCode, Json<Made>)> {
    match app.make_of_drawer(&document_id(&id)?).await? {
        Ok(suit) => {
            let made = Made {
                id: suit.id.as_str().to_owned(),
                revision: suit.revision,
            };
            Ok((StatusCode::CREATED, Json(made)))
        }
        Err(notes) => {
            let first = notes.into_iter().next();
            let (says, next) = first.map_or_else(
                || ("the suit cannot be made yet".to_owned(), String::new()),
                |n| (n.says, n.next),
            );
            Err(Problems::refused(says, &next))
        }
    }
}

/// Takes the last edit of it back.
#[utoipa::path(post, path = "/api/v1/drawer/{id}/back", tag = "drawer", params(("id" = String, Path)),
    responses((status = 200, body = Kept), (status = 409, body = Problems)))]
pub(super) async fn back(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<Kept>> {
    let gone = app.drawer_back(&document_id(&id)?).await?;
    Ok(Json(Kept::of(&gone.documents, false)))
}

/// Makes again what was taken back last.
#[utoipa::path(post, path = "/api/v1/drawer/{id}/forward", tag = "drawer", params(("id" = String, Path)),
    responses((status = 200, body = Kept), (status = 409, body = Problems)))]
pub(super) async fn forward(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<Kept>> {
    let gone = app.drawer_forward(&document_id(&id)?).await?;
    Ok(Json(Kept::of(&gone.documents, false)))
}
