//! The first page, and the example workroom.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use serde::Serialize;
use ts_rs::TS;
use utoipa::ToSchema;

use super::problem::{Answer, Problems};
use crate::app::App;
use crate::view::HomeView;

/// What was done, in a sentence.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct Done {
    /// The sentence.
    pub says: String,
}

/// Everything of the workroom for the first page.
#[utoipa::path(get, path = "/api/v1/home", tag = "home",
    responses((status = 200, body = HomeView), (status = 500, body = Problems)))]
pub(super) async fn home(State(app): State<Arc<App>>) -> Answer<Json<HomeView>> {
    Ok(Json(app.home().await?))
}

/// Puts the example workroom in.
#[utoipa::path(post, path = "/api/v1/example", tag = "home",
    responses((status = 200, body = Done), (status = 500, body = Problems)))]
pub(super) async fn put_example(State(app): State<Arc<App>>) -> Answer<Json<Done>> {
    app.put_example().await?;
    let says = "The example workroom is in.".to_owned();
    Ok(Json(Done { says }))
}

/// Takes the example workroom out; what the maker's own work uses of it stays.
#[utoipa::path(delete, path = "/api/v1/example", tag = "home",
    responses((status = 200, body = Done), (status = 500, body = Problems)))]
pub(super) async fn remove_example(State(app): State<Arc<App>>) -> Answer<Json<Done>> {
    let says = app.remove_example().await?;
    Ok(Json(Done { says }))
}
