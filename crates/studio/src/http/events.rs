//! What changes, told to every open page.

use std::convert::Infallible;
use std::sync::Arc;

use axum::extract::State;
use axum::response::sse::{Event, KeepAlive, Sse};
use futures_util::{Stream, StreamExt as _};
use serde_json::json;
use store::Store as _;
use tokio_stream::wrappers::BroadcastStream;

use super::KEEP_ALIVE;
use crate::app::App;

/// Changes as server-sent events: `changed` with the documents and their revisions, `reloaded` when everything may be
/// different.
#[utoipa::path(get, path = "/api/v1/events", tag = "documents",
    responses((status = 200, content_type = "text/event-stream", body = String)))]
pub(super) async fn events(
    State(app): State<Arc<App>>,
) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    let events = BroadcastStream::new(app.store.events()).map(|event| {
        let (name, data) = match event {
            Ok(store::Event::Action { documents, .. }) => ("changed", json!({ "documents": documents })),
            Ok(store::Event::Version { suit, .. }) => {
                ("changed", json!({"documents": [{"id": suit, "revision": 0}]}))
            }
            Ok(store::Event::Photos { owner }) => {
                ("changed", json!({"documents": [{"id": owner, "revision": 0}]}))
            }
            // A page that fell behind reads everything again.
            Ok(store::Event::Erased { .. } | store::Event::Reloaded) | Err(_) => ("reloaded", json!({})),
        };
        Ok(Event::default().event(name).data(data.to_string()))
    });
    Sse::new(events).keep_alive(KeepAlive::new().interval(KEEP_ALIVE))
}
