//! Wearers: one on her own, her computed form, and removing one for good.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use body::BodyForm;
use store::{Kind, Store as _};

use super::documents::document_id;
use super::home::Done;
use super::problem::{Answer, Problems};
use crate::app::{App, GoesAlong, blocking};
use crate::document::Paper;
use crate::suit_file::form_key;
use crate::view::{FormView, WearerView, alone, wearer_view};

/// The document of a wearer.
async fn wearer(app: &App, id: &str) -> Answer<Paper> {
    let document = app.store.get(&document_id(id)?).await?;
    if document.kind != Kind::Wearer {
        return Err(Problems::not_found("wearer"));
    }
    Ok(Paper {
        id: document.id.as_str().to_owned(),
        kind: "wearer",
        revision: document.revision,
        body: document.body,
    })
}

/// A wearer on her own: each dimension with how it stands, and what is doubtful or missing.
#[utoipa::path(get, path = "/api/v1/wearers/{id}", tag = "wearers", params(("id" = String, Path)),
    responses((status = 200, body = WearerView), (status = 404, body = Problems)))]
pub(super) async fn read(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<WearerView>> {
    let paper = wearer(&app, &id).await?;
    let (units, today) = (app.settings().await?.units, app.today());
    Ok(Json(blocking(move || wearer_view(paper, &units, &today)).await))
}

/// The computed body of a wearer, in section rings.
#[utoipa::path(get, path = "/api/v1/wearers/{id}/form", tag = "wearers", params(("id" = String, Path)),
    responses((status = 200, body = FormView), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn form(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<FormView>> {
    let paper = wearer(&app, &id).await?;
    let units = app.settings().await?.units;
    let view = blocking(move || {
        let worked = alone(paper, &units);
        let unit = worked.unit();
        match &worked.body {
            Some((body, _)) => app.form_of(body, unit),
            None => Err("the body is not complete enough for a form yet".into()),
        }
    })
    .await;
    match view {
        Ok(view) => Ok(Json(FormView::clone(&view))),
        Err(says) => Err(Problems::refused(
            says,
            "Take the dimensions the list marks as needed.",
        )),
    }
}

/// A middling form of a sort of body, `woman`, `man` or `child`: where the tape goes, before a wearer's own can be computed.
#[utoipa::path(get, path = "/api/v1/forms/{sort}", tag = "wearers", params(("sort" = String, Path)),
    responses((status = 200, body = FormView), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn middling(
    State(app): State<Arc<App>>,
    Path(sort): Path<String>,
) -> Answer<Json<FormView>> {
    let forms = [BodyForm::Woman, BodyForm::Man, BodyForm::Child];
    let Some(form) = forms.into_iter().find(|form| form_key(*form) == sort) else {
        return Err(Problems::not_found("sort of body"));
    };
    match blocking(move || app.middling_form(form)).await {
        Ok(view) => Ok(Json(FormView::clone(&view))),
        Err(says) => Err(Problems::refused(says, "")),
    }
}

/// What would go along with a wearer.
#[utoipa::path(get, path = "/api/v1/wearers/{id}/goes-along", tag = "wearers", params(("id" = String, Path)),
    responses((status = 200, body = GoesAlong), (status = 404, body = Problems)))]
pub(super) async fn goes_along(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
) -> Answer<Json<GoesAlong>> {
    Ok(Json(app.goes_along(&document_id(&id)?).await?))
}

/// Removes a wearer for good, with every suit, version, photo and backup copy that holds the dimensions.
#[utoipa::path(delete, path = "/api/v1/wearers/{id}", tag = "wearers", params(("id" = String, Path)),
    responses((status = 200, body = Done), (status = 404, body = Problems)))]
pub(super) async fn erase(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<Done>> {
    let says = app.erase_wearer(&document_id(&id)?).await?;
    Ok(Json(Done { says }))
}
