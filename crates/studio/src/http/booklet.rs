//! A suit's booklet in the browser: as pages to read, and as PDF to print where this build can set one.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, Query, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use booklet::{Booklet, Choice, Edition, File};
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use words::Language;

use super::documents::document_id;
use super::files::encoded;
use super::problem::{Answer, Problems};
use crate::app::{App, blocking, file_safe, name_of};
use crate::document::Worked;
use crate::hand_out::{CAN_SET_PDF, booklet_of, pdf, pdf_name};
use crate::paper::paper_of;
use crate::suit_file::PaperChoice;

/// Which booklet is wanted.
#[derive(Clone, Debug, Default, Deserialize, IntoParams)]
pub(super) struct Wanted {
    /// `maker` or `class`; the maker's when it is not said.
    edition: Option<String>,
    /// `en`, `de`; English when it is not said.
    language: Option<String>,
}

/// What booklets of a suit there are.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, ToSchema)]
pub struct BookletView {
    /// The suit's name.
    pub name: String,
    /// Why there is none yet; empty when there is one.
    pub waits: String,
    /// Whether this program can set PDF.
    pub can_set_pdf: bool,
    /// The paper of the workroom: `A4`, `Letter`.
    pub paper: String,
    /// Tag and own name of every language.
    pub languages: Vec<(String, String)>,
    /// What the stitches were chosen for, in words.
    pub machines: String,
    /// Whether no machine is written down in the workroom, and one was assumed.
    pub is_assumed: bool,
}

const WAITS: &str = "there is no booklet before the suit is drafted";

/// The page of the booklet, its style and its fonts run and fetch nothing, and stand in pages of this studio alone.
const POLICY: &str = "default-src 'none'; style-src 'self'; font-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'self'";

fn choice_of(wanted: &Wanted) -> Answer<Choice> {
    let edition = match wanted.edition.as_deref() {
        None | Some("maker") => Edition::Maker,
        Some("class") => Edition::Class,
        Some(other) => {
            return Err(Problems::refused(
                format!("\"{other}\" is no edition"),
                "Choose maker or class.",
            ));
        }
    };
    let language = match wanted.language.as_deref() {
        None => Language::default(),
        Some(tag) => Language::of_tag(tag).ok_or_else(|| {
            let tags: Vec<&str> = Language::ALL.iter().map(|l| l.tag()).collect();
            Problems::refused(
                format!("there is no booklet in \"{tag}\""),
                &format!("Choose one of {}.", tags.join(", ")),
            )
        })?,
    };
    Ok(Choice { edition, language })
}

fn document_of(worked: &Worked, choice: Choice) -> Answer<Booklet> {
    match (&worked.file, &worked.order) {
        (Some(suit), Some(order)) => Ok(booklet_of(
            suit,
            order,
            &worked.room.room,
            &worked.lays_in_force(),
            choice,
        )),
        _ => Err(Problems::refused(
            WAITS,
            "Fill in what its order says is missing.",
        )),
    }
}

/// What booklets of a suit there are.
#[utoipa::path(get, path = "/api/v1/suits/{id}/booklet", tag = "suits", params(("id" = String, Path)),
    responses((status = 200, body = BookletView), (status = 404, body = Problems)))]
pub(super) async fn show(State(app): State<Arc<App>>, Path(id): Path<String>) -> Answer<Json<BookletView>> {
    let worked = app.worked(&document_id(&id)?).await?;
    let room = &worked.room.room;
    let machines: Vec<&str> = room.workroom.machines.iter().map(|m| m.name.as_str()).collect();
    let waits = if worked.order.is_some() {
        ""
    } else {
        "There is no booklet before the suit is drafted. Fill in what its order says is missing."
    };
    Ok(Json(BookletView {
        name: name_of(&worked.suit.body).to_owned(),
        waits: waits.to_owned(),
        can_set_pdf: CAN_SET_PDF,
        paper: match paper_of(&worked) {
            PaperChoice::A4 => "A4",
            PaperChoice::Letter => "Letter",
        }
        .to_owned(),
        languages: Language::ALL
            .map(|l| (l.tag().to_owned(), l.name().to_owned()))
            .to_vec(),
        machines: machines.join(", "),
        is_assumed: room.is_assumed,
    }))
}

/// A file of the booklet: `index.html` and what it names, `a4.pdf`, `letter.pdf`.
#[utoipa::path(get, path = "/api/v1/suits/{id}/booklet/{file}", tag = "suits",
    params(("id" = String, Path), ("file" = String, Path, description = "`index.html`, `a4.pdf`, `letter.pdf`"), Wanted),
    responses((status = 200, content_type = "text/html", body = Vec<u8>), (status = 404, body = Problems),
        (status = 422, body = Problems), (status = 501, body = Problems)))]
pub(super) async fn file(
    State(app): State<Arc<App>>,
    Path((id, file)): Path<(String, String)>,
    Query(wanted): Query<Wanted>,
) -> Answer<Response> {
    let id = document_id(&id)?;
    if let Some(found) = booklet::assets().into_iter().find(|f| f.name == file) {
        return Ok(framed(found));
    }
    let choice = choice_of(&wanted)?;
    let paper = match file.as_str() {
        "index.html" => None,
        "a4.pdf" => Some(PaperChoice::A4),
        "letter.pdf" => Some(PaperChoice::Letter),
        _ => return Err(Problems::not_found("file of the booklet")),
    };
    let worked = app.worked(&id).await?;
    let suit = file_safe(name_of(&worked.suit.body));
    let Some(paper) = paper else {
        let page = blocking(move || document_of(&worked, choice).map(|d| booklet::page(&d)));
        return Ok(framed(page.await?));
    };
    let set = blocking(move || {
        let document = document_of(&worked, choice)?;
        pdf(&document, paper).map_err(|fault| {
            Problems::one(
                StatusCode::NOT_IMPLEMENTED,
                "not_set",
                fault.to_string(),
                fault.help(),
            )
        })
    });
    let (bytes, _) = set.await?;
    let name = pdf_name(choice, paper);
    let plain: String = suit.chars().filter(char::is_ascii).collect();
    let says = format!(
        "inline; filename=\"{plain}-{name}\"; filename*=UTF-8''{}-{name}",
        encoded(&suit)
    );
    let mut response = ([(header::CONTENT_TYPE, "application/pdf")], bytes).into_response();
    if let Ok(value) = HeaderValue::from_str(&says) {
        response.headers_mut().insert(header::CONTENT_DISPOSITION, value);
    }
    Ok(response)
}

/// A file that pages of this studio may show inside themselves.
fn framed(file: File) -> Response {
    let mime = match file.name.rsplit('.').next() {
        Some("html") => "text/html; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        _ => "font/ttf",
    };
    let mut response = ([(header::CONTENT_TYPE, mime)], file.bytes).into_response();
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_SECURITY_POLICY, HeaderValue::from_static(POLICY));
    headers.insert(header::X_FRAME_OPTIONS, HeaderValue::from_static("SAMEORIGIN"));
    response
}
