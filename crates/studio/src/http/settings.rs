//! Settings of the workroom's screens and habits.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use serde::Serialize;
use ts_rs::TS;
use utoipa::ToSchema;

use super::problem::{Answer, Body, Problems};
use crate::app::{App, Settings, SettingsChange};

/// Settings, and how this studio is run.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SettingsView {
    /// The settings.
    #[serde(flatten)]
    pub settings: Settings,
    /// Whether other machines of the house may be paired.
    pub lan: bool,
    /// The address to open on a tablet; empty without `--lan`.
    pub address: String,
    /// Version of the program.
    pub version: String,
}

fn view(app: &App, settings: Settings) -> Json<SettingsView> {
    Json(SettingsView {
        settings,
        lan: app.options.lan,
        address: app.options.lan_url.clone().unwrap_or_default(),
        version: env!("CARGO_PKG_VERSION").to_owned(),
    })
}

/// The settings.
#[utoipa::path(get, path = "/api/v1/settings", tag = "workroom", responses((status = 200, body = SettingsView)))]
pub(super) async fn read(State(app): State<Arc<App>>) -> Answer<Json<SettingsView>> {
    let settings = app.settings().await?;
    Ok(view(&app, settings))
}

/// Changes settings; what is left out stays.
#[utoipa::path(patch, path = "/api/v1/settings", tag = "workroom", request_body = SettingsChange,
    responses((status = 200, body = SettingsView), (status = 422, body = Problems)))]
pub(super) async fn change(
    State(app): State<Arc<App>>,
    Body(change): Body<SettingsChange>,
) -> Answer<Json<SettingsView>> {
    match app.change_settings(change).await? {
        Ok(settings) => Ok(view(&app, settings)),
        Err(says) => Err(Problems::refused(says, "")),
    }
}
