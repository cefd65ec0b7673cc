//! A studio without a socket: requests in, answers out, in a folder of its own.

#![allow(dead_code, reason = "each test file uses its own part of it")]
#![allow(clippy::unwrap_used, reason = "a fixture fails as a test does")]

use std::sync::Arc;

use axum::Router;
use axum::body::Body;
use axum::http::{Method, Request, StatusCode, header};
use http_body_util::BodyExt as _;
use serde_json::{Value, json};
use store::SqliteStore;
use studio::app::{App, RunOptions};
use tower::ServiceExt as _;

pub(crate) struct Served {
    pub(crate) router: Router,
    pub(crate) app: Arc<App>,
    _folder: tempfile::TempDir,
}

pub(crate) struct Reply {
    pub(crate) status: StatusCode,
    pub(crate) headers: axum::http::HeaderMap,
    pub(crate) bytes: Vec<u8>,
}

impl Reply {
    pub(crate) fn json(&self) -> Value {
        serde_json::from_slice(&self.bytes).unwrap_or_else(|_| panic!("no JSON: {}", self.text()))
    }

    pub(crate) fn text(&self) -> String {
        String::from_utf8_lossy(&self.bytes).into_owned()
    }

    pub(crate) fn ok(self) -> Value {
        assert!(self.status.is_success(), "{}: {}", self.status, self.text());
        if self.bytes.is_empty() {
            Value::Null
        } else {
            self.json()
        }
    }
}

pub(crate) async fn served(lan: bool) -> Served {
    let folder = tempfile::tempdir().unwrap();
    let options = store::Options::default();
    let clock = options.clock.clone();
    let store = SqliteStore::open(folder.path(), options).await.unwrap();
    let run = RunOptions {
        address: "127.0.0.1:8380".parse().unwrap(),
        lan,
        lan_url: lan.then(|| "http://192.0.2.7:8380".to_owned()),
    };
    let app = App::new(store, run, clock);
    Served {
        router: studio::http::router(Arc::clone(&app)),
        app,
        _folder: folder,
    }
}

/// With the example workroom in.
pub(crate) async fn example() -> Served {
    let served = served(false).await;
    assert!(served.app.example_at_first_start().await.unwrap());
    served
}

impl Served {
    pub(crate) async fn send(&self, request: Request<Body>) -> Reply {
        let response = self.router.clone().oneshot(request).await.unwrap();
        let (parts, body) = response.into_parts();
        Reply {
            status: parts.status,
            headers: parts.headers,
            bytes: body.collect().await.unwrap().to_bytes().to_vec(),
        }
    }

    pub(crate) async fn ask(&self, method: Method, path: &str, body: Option<Value>) -> Reply {
        let mut request = Request::builder()
            .method(method)
            .uri(path)
            .header(header::HOST, "127.0.0.1:8380")
            .header("x-slackwater", "1");
        let body = match body {
            Some(body) => {
                request = request.header(header::CONTENT_TYPE, "application/json");
                Body::from(body.to_string())
            }
            None => Body::empty(),
        };
        self.send(request.body(body).unwrap()).await
    }

    pub(crate) async fn get(&self, path: &str) -> Reply {
        self.ask(Method::GET, path, None).await
    }

    pub(crate) async fn post(&self, path: &str, body: Value) -> Reply {
        self.ask(Method::POST, path, Some(body)).await
    }

    /// The revision of a document.
    pub(crate) async fn revision(&self, id: &str) -> u64 {
        let document = self.get(&format!("/api/v1/documents/{id}")).await.ok();
        document["revision"].as_u64().unwrap()
    }

    pub(crate) async fn edit(&self, id: &str, base: u64, changes: &[(&str, Value)]) -> Reply {
        let changes: Vec<Value> = changes
            .iter()
            .map(|(path, value)| json!({"document": id, "path": path, "value": value}))
            .collect();
        self.post(
            "/api/v1/edits",
            json!({"parts": [{"document": id, "base": base}], "changes": changes, "words": ""}),
        )
        .await
    }
}
