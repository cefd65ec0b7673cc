//! The pages: their files under [`pages::MOUNT`], and the one document at every other address.

use axum::http::{HeaderMap, Method, StatusCode, Uri, header};
use axum::response::{Html, IntoResponse, Response};

use super::problem::Problems;

/// Answers what is no API.
pub(super) async fn page(method: Method, uri: Uri, headers: HeaderMap) -> Response {
    let path = uri.path();
    if path.starts_with("/api/") {
        return Problems::not_found("address in the API").into_response();
    }
    if !matches!(method, Method::GET | Method::HEAD) {
        return StatusCode::METHOD_NOT_ALLOWED.into_response();
    }
    let Some(name) = path.strip_prefix(pages::MOUNT) else {
        return ([(header::CACHE_CONTROL, "no-cache")], Html(pages::index_html())).into_response();
    };
    let Some(asset) = pages::asset(name) else {
        return StatusCode::NOT_FOUND.into_response();
    };
    let known = headers
        .get_all(header::IF_NONE_MATCH)
        .iter()
        .filter_map(|h| h.to_str().ok())
        .any(|tags| tags.split(',').any(|t| t.trim() == asset.etag));
    // Asked again each time, answered with 304: a new version of the program is never mixed with files of the old one.
    let cache = [(header::ETAG, asset.etag), (header::CACHE_CONTROL, "no-cache")];
    if known {
        return (StatusCode::NOT_MODIFIED, cache).into_response();
    }
    (cache, [(header::CONTENT_TYPE, asset.mime)], asset.bytes).into_response()
}
