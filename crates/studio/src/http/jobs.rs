//! Long work: started, told of while it runs, stopped, its result fetched.

use std::convert::Infallible;
use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use futures_util::{Stream, StreamExt as _, stream};
use serde::Serialize;
use ts_rs::TS;
use utoipa::ToSchema;

use super::documents::document_id;
use super::problem::{Answer, Problems};
use super::{KEEP_ALIVE, files};
use crate::app::{App, Job, JobEvent, JobState};
use crate::view::ClassView;

/// A job that was started.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct Started {
    /// Its id.
    pub job: String,
}

pub(super) fn started(job: Result<String, String>) -> Answer<(StatusCode, Json<Started>)> {
    match job {
        Ok(job) => Ok((StatusCode::ACCEPTED, Json(Started { job }))),
        Err(says) => Err(Problems::refused(says, "")),
    }
}

fn found(app: &App, id: &str) -> Answer<Arc<Job>> {
    app.jobs.get(id).ok_or_else(|| Problems::not_found("job"))
}

/// Starts making everything of a suit as one archive.
#[utoipa::path(post, path = "/api/v1/suits/{id}/pack", tag = "jobs", params(("id" = String, Path)),
    responses((status = 202, body = Started), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn pack(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
) -> Answer<(StatusCode, Json<Started>)> {
    started(app.start_pack(&document_id(&id)?).await?)
}

/// Starts making the kits of a class: one folder of paper a wearer.
#[utoipa::path(post, path = "/api/v1/classes/{id}/kits", tag = "jobs", params(("id" = String, Path)),
    responses((status = 202, body = Started), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn kits(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
) -> Answer<(StatusCode, Json<Started>)> {
    started(app.start_kits(&document_id(&id)?).await?)
}

/// Starts laying all kits of a class on their cloths; the result is an archive of the lay plans.
#[utoipa::path(post, path = "/api/v1/classes/{id}/lay", tag = "jobs", params(("id" = String, Path)),
    responses((status = 202, body = Started), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn class_lay(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
) -> Answer<(StatusCode, Json<Started>)> {
    started(app.start_class_lay(&document_id(&id)?).await?)
}

/// A class worked out: who can sew, the room's sessions, what to buy. Refused with what the class still lacks.
#[utoipa::path(get, path = "/api/v1/classes/{id}/plan", tag = "classes", params(("id" = String, Path)),
    responses((status = 200, body = ClassView), (status = 404, body = Problems), (status = 422, body = Problems)))]
pub(super) async fn class_plan(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
) -> Answer<Json<ClassView>> {
    match app.class_view(&document_id(&id)?).await? {
        Ok(view) => Ok(Json(view)),
        Err(says) => Err(Problems::refused(says, "")),
    }
}

/// How a job stands.
#[utoipa::path(get, path = "/api/v1/jobs/{job}", tag = "jobs", params(("job" = String, Path)),
    responses((status = 200, body = JobEvent), (status = 404, body = Problems)))]
pub(super) async fn state(State(app): State<Arc<App>>, Path(job): Path<String>) -> Answer<Json<JobEvent>> {
    let event = found(&app, &job)?.events().borrow().clone();
    Ok(Json(event))
}

/// How a job stands, now and from now on, as server-sent events: `progress` while it runs, then `end`.
#[utoipa::path(get, path = "/api/v1/jobs/{job}/events", tag = "jobs", params(("job" = String, Path)),
    responses((status = 200, content_type = "text/event-stream", body = JobEvent), (status = 404, body = Problems)))]
pub(super) async fn events(
    State(app): State<Arc<App>>,
    Path(job): Path<String>,
) -> Answer<Sse<impl Stream<Item = Result<Event, Infallible>>>> {
    let events = found(&app, &job)?.events();
    // How it stands now comes first; the event of the end is the last one.
    let events = stream::unfold(Some((events, true)), |state| async {
        let (mut events, is_first) = state?;
        if !is_first {
            events.changed().await.ok()?;
        }
        let event = events.borrow_and_update().clone();
        let next = (event.state == JobState::Running).then_some((events, false));
        Some((event, next))
    });
    let events = events.map(|event| {
        let name = if event.state == JobState::Running {
            "progress"
        } else {
            "end"
        };
        let data = serde_json::to_string(&event).unwrap_or_default();
        Ok(Event::default().event(name).data(data))
    });
    Ok(Sse::new(events).keep_alive(KeepAlive::new().interval(KEEP_ALIVE)))
}

/// Asks a job to stop at its next safe place.
#[utoipa::path(post, path = "/api/v1/jobs/{job}/stop", tag = "jobs", params(("job" = String, Path)),
    responses((status = 204), (status = 404, body = Problems)))]
pub(super) async fn stop(State(app): State<Arc<App>>, Path(job): Path<String>) -> Answer<StatusCode> {
    found(&app, &job)?.stop();
    Ok(StatusCode::NO_CONTENT)
}

/// What a job made.
#[utoipa::path(get, path = "/api/v1/jobs/{job}/result", tag = "jobs", params(("job" = String, Path)),
    responses((status = 200, content_type = "application/zip", body = Vec<u8>), (status = 404, body = Problems)))]
pub(super) async fn result(State(app): State<Arc<App>>, Path(job): Path<String>) -> Answer<Response> {
    let made = found(&app, &job)?
        .made()
        .ok_or_else(|| Problems::not_found("result"))?;
    let mut response = ([(header::CONTENT_TYPE, made.mime)], made.bytes.clone()).into_response();
    let plain: String = made.name.chars().filter(char::is_ascii).collect();
    let says = format!(
        "attachment; filename=\"{plain}\"; filename*=UTF-8''{}",
        files::encoded(&made.name)
    );
    if let Ok(value) = HeaderValue::from_str(&says) {
        response.headers_mut().insert(header::CONTENT_DISPOSITION, value);
    }
    Ok(response)
}
