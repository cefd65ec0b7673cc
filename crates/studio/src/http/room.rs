//! The workroom worked out, a suit's shopping list, and its scraps as samples to begin with.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};

use super::documents::document_id;
use super::problem::{Answer, Problems};
use crate::app::{App, blocking};
use crate::view::{RoomView, ScrapStart, ShoppingView, scrap_start, shopping_view};

/// What the machines, the stock and the samples come to, and what of them cannot be read.
#[utoipa::path(get, path = "/api/v1/room", tag = "workroom", responses((status = 200, body = RoomView)))]
pub(super) async fn room(State(app): State<Arc<App>>) -> Answer<Json<RoomView>> {
    Ok(Json(app.room().await?))
}

/// The workroom file of this workroom: machines, needles, threads, stock, prices, terms and samples, as the command line reads it.
#[utoipa::path(get, path = "/api/v1/room/file", tag = "workroom",
    responses((status = 200, content_type = "application/toml", body = String)))]
pub(super) async fn file(State(app): State<Arc<App>>) -> Answer<impl axum::response::IntoResponse> {
    let text = app.room_text().await?;
    let headers = [
        (axum::http::header::CONTENT_TYPE, "application/toml"),
        (
            axum::http::header::CONTENT_DISPOSITION,
            "attachment; filename=\"workroom.toml\"",
        ),
    ];
    Ok((headers, text))
}

/// What to buy for a suit, and the quote.
#[utoipa::path(get, path = "/api/v1/suits/{id}/shopping", tag = "suits", params(("id" = String, Path)),
    responses((status = 200, body = ShoppingView), (status = 404, body = Problems)))]
pub(super) async fn shopping(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
) -> Answer<Json<ShoppingView>> {
    let worked = app.worked(&document_id(&id)?).await?;
    Ok(Json(blocking(move || shopping_view(&worked)).await))
}

/// A scrap of a suit's plan, by its place there from 0, as the sample it is to become.
#[utoipa::path(get, path = "/api/v1/suits/{id}/scraps/{at}", tag = "suits",
    params(("id" = String, Path), ("at" = usize, Path)),
    responses((status = 200, body = ScrapStart), (status = 404, body = Problems)))]
pub(super) async fn scrap(
    State(app): State<Arc<App>>,
    Path((id, at)): Path<(String, usize)>,
) -> Answer<Json<ScrapStart>> {
    let worked = app.worked(&document_id(&id)?).await?;
    worked
        .plan()
        .and_then(|plan| scrap_start(&worked, &plan, at))
        .map(Json)
        .ok_or_else(|| Problems::not_found("scrap any more"))
}
