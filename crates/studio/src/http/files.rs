//! One file of a suit's paper, made when it is asked for.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse, Response};

use super::documents::document_id;
use super::problem::{Answer, Problems};
use crate::app::{App, blocking, file_safe, name_of};
use crate::paper::TakeAway;

/// One file: a PDF, SVG, DXF, JSON or the suit file.
#[utoipa::path(get, path = "/api/v1/suits/{id}/files/{name}", tag = "suits",
    params(("id" = String, Path), ("name" = String, Path, description = "As in the order's paper section: `pattern-a4.pdf`")),
    responses((status = 200, content_type = "application/octet-stream", body = Vec<u8>), (status = 404, body = Problems),
        (status = 422, body = Problems)))]
pub(super) async fn file(
    State(app): State<Arc<App>>,
    Path((id, name)): Path<(String, String)>,
) -> Answer<Response> {
    let worked = app.worked(&document_id(&id)?).await?;
    let suit = file_safe(name_of(&worked.suit.body));
    let wanted = name.clone();
    let made = blocking(move || crate::paper::file(&worked, &wanted)).await;
    let made =
        made.map_err(|says| Problems::refused(says.to_string(), "Look at the notes of the sections above."))?;
    let Some(TakeAway { bytes, mime }) = made else {
        return Err(Problems::not_found("file"));
    };
    // PDFs open beside the page, to be printed; the rest is saved.
    let how = if mime == "application/pdf" {
        "inline"
    } else {
        "attachment"
    };
    let plain: String = suit.chars().filter(char::is_ascii).collect();
    let says = format!(
        "{how}; filename=\"{plain}-{name}\"; filename*=UTF-8''{}-{name}",
        encoded(&suit)
    );
    let mut response = ([(header::CONTENT_TYPE, mime)], bytes).into_response();
    if let Ok(value) = HeaderValue::from_str(&says) {
        response.headers_mut().insert(header::CONTENT_DISPOSITION, value);
    }
    // A drawing opened on its own may use the styles it carries; it runs nothing.
    response.headers_mut().insert(
        header::CONTENT_SECURITY_POLICY,
        HeaderValue::from_static("default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'"),
    );
    Ok(response)
}

/// A name as RFC 5987 wants it in a header.
pub(super) fn encoded(text: &str) -> String {
    text.bytes()
        .map(|b| {
            if b.is_ascii_alphanumeric() || matches!(b, b'-' | b'.' | b'_') {
                char::from(b).to_string()
            } else {
                format!("%{b:02X}")
            }
        })
        .collect()
}
