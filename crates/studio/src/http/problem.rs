//! What a request is refused with: the same faults as the command line's, one shape for all of them.

use axum::Json;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use serde::Serialize;
use serde_json::Value;
use store::{Clash, StoreError};
use ts_rs::TS;
use utoipa::ToSchema;

use crate::suit_file::Faults;

/// One thing wrong with a request.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct Problem {
    /// What kind: as in `docs/suit-file.md`, "Faults as JSON", and `not_found`, `conflict`, `not_allowed_here`, `store`.
    pub kind: String,
    /// What is wrong, one sentence.
    pub what: String,
    /// Where: field, file and line; empty when it is the request as a whole.
    #[serde(rename = "where")]
    pub place: String,
    /// Dotted path of the field, if it is one.
    pub field: Option<String>,
    /// What may stand there.
    pub allowed: Vec<String>,
    /// What to do.
    pub next: String,
}

/// A value that two people changed.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ClashView {
    /// Id of the document.
    pub document: String,
    /// Dotted path.
    pub path: String,
    /// The value both started from.
    #[ts(type = "unknown")]
    #[schema(value_type = Object)]
    pub base: Value,
    /// The value kept now.
    #[ts(type = "unknown")]
    #[schema(value_type = Object)]
    pub theirs: Value,
    /// The value of this request.
    #[ts(type = "unknown")]
    #[schema(value_type = Object)]
    pub yours: Value,
}

/// A refused request.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct Problems {
    /// At least one.
    pub problems: Vec<Problem>,
    /// For a conflict: every value in question.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub clashes: Vec<ClashView>,
    #[serde(skip)]
    #[ts(skip)]
    #[schema(ignore)]
    status: StatusCode,
}

/// What a handler gives back.
pub(super) type Answer<T> = Result<T, Problems>;

impl Problems {
    /// One problem.
    pub(super) fn one(status: StatusCode, kind: &str, what: impl Into<String>, next: &str) -> Problems {
        Problems {
            problems: vec![Problem {
                kind: kind.to_owned(),
                what: crate::view::sentence(&what.into()),
                place: String::new(),
                field: None,
                allowed: Vec::new(),
                next: next.to_owned(),
            }],
            clashes: Vec::new(),
            status,
        }
    }

    /// There is no such thing.
    pub(super) fn not_found(what: &str) -> Problems {
        Problems::one(
            StatusCode::NOT_FOUND,
            "not_found",
            format!("there is no such {what}"),
            "It may have been removed. Go back to the first page.",
        )
    }

    /// A request that cannot be meant.
    pub(super) fn refused(what: impl Into<String>, next: &str) -> Problems {
        Problems::one(StatusCode::UNPROCESSABLE_ENTITY, "refused", what, next)
    }
}

impl From<Faults> for Problems {
    fn from(faults: Faults) -> Problems {
        let problems = faults
            .list
            .iter()
            .map(|fault| {
                let place = fault.at.as_ref().map(|s| faults.place(s.start));
                Problem {
                    kind: fault.kind.key().to_owned(),
                    what: crate::view::sentence(&fault.message),
                    place: match place {
                        Some(place) => format!("{}, line {}", faults.file, place.line),
                        None => faults.file.clone(),
                    },
                    field: (!fault.field.is_empty()).then(|| fault.field.clone()),
                    allowed: fault.allowed.clone(),
                    next: crate::view::sentence(&fault.help),
                }
            })
            .collect();
        Problems {
            problems,
            clashes: Vec::new(),
            status: StatusCode::UNPROCESSABLE_ENTITY,
        }
    }
}

impl From<StoreError> for Problems {
    fn from(error: StoreError) -> Problems {
        let what = error.to_string();
        let (status, kind) = match &error {
            StoreError::NotFound(_)
            | StoreError::NoPhoto(_)
            | StoreError::NoBackup(_)
            | StoreError::Id(_) => (StatusCode::NOT_FOUND, "not_found"),
            StoreError::Conflict(_)
            | StoreError::StaleBase { .. }
            | StoreError::Exists(_)
            | StoreError::InBin(_)
            | StoreError::NothingBack
            | StoreError::NothingForward
            | StoreError::VersionExists { .. } => (StatusCode::CONFLICT, "conflict"),
            StoreError::Database { .. }
            | StoreError::File { .. }
            | StoreError::Unreadable { .. }
            | StoreError::DiskFull(_)
            | StoreError::NotCleared
            | StoreError::InUse { .. } => (StatusCode::INTERNAL_SERVER_ERROR, "store"),
            StoreError::PhotoTooLarge(_) => (StatusCode::PAYLOAD_TOO_LARGE, "refused"),
            _ => (StatusCode::UNPROCESSABLE_ENTITY, "refused"),
        };
        if status == StatusCode::INTERNAL_SERVER_ERROR {
            // What the engine says goes to the log, not to the page; it holds no dimensions.
            crate::server::log_line(&format!("store: {what}; {}", cause(&error)));
        }
        // The store says what and what to do in one line: "what: what to do".
        let (what, next) = match what.split_once(": ") {
            Some((what, next)) if !next.is_empty() => (what.to_owned(), crate::view::sentence(next)),
            _ => (what, String::new()),
        };
        let clashes = match error {
            StoreError::Conflict(clashes) => clashes.into_iter().map(ClashView::from).collect(),
            _ => Vec::new(),
        };
        Problems {
            clashes,
            ..Problems::one(status, kind, what, &next)
        }
    }
}

fn cause(error: &StoreError) -> String {
    let mut out = String::new();
    let mut at: Option<&(dyn std::error::Error + 'static)> = std::error::Error::source(error);
    while let Some(error) = at {
        out += &error.to_string();
        out += "; ";
        at = error.source();
    }
    out
}

impl From<Clash> for ClashView {
    fn from(clash: Clash) -> ClashView {
        ClashView {
            document: clash.document.as_str().to_owned(),
            path: clash.path,
            base: clash.base.unwrap_or_default(),
            theirs: clash.theirs.unwrap_or_default(),
            yours: clash.yours.unwrap_or_default(),
        }
    }
}

impl IntoResponse for Problems {
    fn into_response(self) -> Response {
        (self.status, Json(&self)).into_response()
    }
}

/// A JSON body; what is wrong with it is told like any other problem.
pub(super) struct Body<T>(pub(super) T);

impl<T, S> axum::extract::FromRequest<S> for Body<T>
where
    T: serde::de::DeserializeOwned,
    S: Send + Sync,
{
    type Rejection = Problems;

    async fn from_request(request: axum::extract::Request, state: &S) -> Result<Self, Problems> {
        match Json::<T>::from_request(request, state).await {
            Ok(Json(value)) => Ok(Body(value)),
            Err(rejection) => Err(Problems::one(
                rejection.status(),
                "refused",
                rejection.body_text(),
                "Send JSON as docs/api.md describes it.",
            )),
        }
    }
}
