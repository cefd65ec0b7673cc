//! Ranges: what they can be made of, drafting one, its files, and which size for whom.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use range::TableFaults;

use super::files::encoded;
use super::problem::{Answer, Body, Problem, Problems};
use crate::app::{
    App, CoverRequest, RangeRefusal, RangeRequest, RangeStarted, SizeRequest, SizesRequest, file_safe,
};
use crate::view::{CoverView, RangeView, RangesView, SizeChoiceView, SizeTableView, sentence};

impl From<RangeRefusal> for Problems {
    fn from(refusal: RangeRefusal) -> Problems {
        match refusal {
            RangeRefusal::Says(what, next) => Problems::refused(what, next),
            RangeRefusal::Table(faults) => table_problems(&faults),
        }
    }
}

/// Each fault with its line and column.
fn table_problems(faults: &TableFaults) -> Problems {
    let mut all = Problems::refused("the table does not read", "");
    all.problems = faults
        .faults
        .iter()
        .map(|fault| {
            let message = quoted(&fault.message);
            let (what, next) = message.split_once("; ").unwrap_or((&message, ""));
            let column = match (fault.column, fault.head.as_str()) {
                (Some(column), "") => format!(", column {column}"),
                (Some(column), head) => format!(", column {column}, {head}"),
                (None, _) => String::new(),
            };
            Problem {
                kind: "refused".into(),
                what: sentence(what),
                place: format!("Line {}{column}.", fault.line),
                field: None,
                allowed: Vec::new(),
                next: sentence(next),
            }
        })
        .collect();
    all
}

/// Words in backticks as a page quotes them.
fn quoted(text: &str) -> String {
    let mut is_open = false;
    let of = |c| match c {
        '`' => {
            is_open = !is_open;
            if is_open { '“' } else { '”' }
        }
        c => c,
    };
    text.chars().map(of).collect()
}

fn gone() -> Problems {
    Problems::one(
        StatusCode::NOT_FOUND,
        "not_found",
        "this range is no longer at hand",
        "Draft it again.",
    )
}

/// The tables that come with the program, the suits and the wearers.
#[utoipa::path(get, path = "/api/v1/ranges", tag = "ranges", responses((status = 200, body = RangesView)))]
pub(super) async fn show(State(app): State<Arc<App>>) -> Answer<Json<RangesView>> {
    Ok(Json(app.ranges().await?))
}

/// Reads a maker's own table; every fault comes with its line and column.
#[utoipa::path(post, path = "/api/v1/ranges/sizes", tag = "ranges", request_body = SizesRequest,
    responses((status = 200, body = SizeTableView), (status = 422, body = Problems)))]
pub(super) async fn sizes(
    State(app): State<Arc<App>>,
    Body(request): Body<SizesRequest>,
) -> Answer<Json<SizeTableView>> {
    Ok(Json(app.read_sizes(&request).await??))
}

/// Starts drafting a range.
#[utoipa::path(post, path = "/api/v1/ranges", tag = "ranges", request_body = RangeRequest,
    responses((status = 202, body = RangeStarted), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn start(
    State(app): State<Arc<App>>,
    Body(request): Body<RangeRequest>,
) -> Answer<(StatusCode, Json<RangeStarted>)> {
    let started = app.start_range(request).await??;
    Ok((StatusCode::ACCEPTED, Json(started)))
}

/// A drafted range. Kept until the studio ends or others take its place.
#[utoipa::path(get, path = "/api/v1/ranges/{id}", tag = "ranges", params(("id" = String, Path)),
    responses((status = 200, body = RangeView), (status = 404, body = Problems)))]
pub(super) async fn read(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<RangeView>> {
    app.range(&id).await.map(Json).ok_or_else(gone)
}

/// A file of a range: nested PDF, nested SVG, size chart.
#[utoipa::path(get, path = "/api/v1/ranges/{id}/files/{name}", tag = "ranges",
    params(("id" = String, Path), ("name" = String, Path)),
    responses((status = 200, content_type = "application/octet-stream", body = Vec<u8>), (status = 404, body = Problems)))]
pub(super) async fn file(
    State(app): State<Arc<App>>,
    Path((id, name)): Path<(String, String)>,
) -> Answer<Response> {
    let (suit, file) = app.range_file(&id, &name).ok_or_else(gone)?;
    let suit = file_safe(&suit);
    let plain: String = suit.chars().filter(char::is_ascii).collect();
    // PDFs open beside the page, to be printed; the rest is saved.
    let how = if file.mime == "application/pdf" {
        "inline"
    } else {
        "attachment"
    };
    let says = format!(
        "{how}; filename=\"{plain}-{name}\"; filename*=UTF-8''{}-{name}",
        encoded(&suit)
    );
    let mut response = ([(header::CONTENT_TYPE, file.mime)], file.bytes).into_response();
    if let Ok(value) = HeaderValue::from_str(&says) {
        response.headers_mut().insert(header::CONTENT_DISPOSITION, value);
    }
    response.headers_mut().insert(
        header::CONTENT_SECURITY_POLICY,
        HeaderValue::from_static("default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'"),
    );
    Ok(response)
}

/// Which size of a range a wearer takes.
#[utoipa::path(post, path = "/api/v1/ranges/{id}/size", tag = "ranges", params(("id" = String, Path)),
    request_body = SizeRequest,
    responses((status = 200, body = SizeChoiceView), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn size(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
    Body(request): Body<SizeRequest>,
) -> Answer<Json<SizeChoiceView>> {
    let chosen = app.size_for(&id, &request).await?.ok_or_else(gone)?;
    Ok(Json(chosen?))
}

/// The fewest sizes that cover some wearers.
#[utoipa::path(post, path = "/api/v1/ranges/{id}/cover", tag = "ranges", params(("id" = String, Path)),
    request_body = CoverRequest,
    responses((status = 200, body = CoverView), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn cover(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
    Body(request): Body<CoverRequest>,
) -> Answer<Json<CoverView>> {
    let covered = app.cover_of(&id, &request).await?.ok_or_else(gone)?;
    Ok(Json(covered?))
}
