//! Many hands at once: clients that edit, drag and read over a real socket, with nothing lost.
//!
//! `cargo bench -p slackwater-studio --bench load` runs 50 clients for 60 seconds against a studio of its own on loopback,
//! then counts: every acknowledged edit must be in its document and in the history. `LOAD_CLIENTS` and `LOAD_SECONDS`
//! change the size. Prints a table; ends with an error when a request failed or a write is missing.

#![allow(clippy::print_stdout, reason = "a bench prints its table")]

use std::sync::Arc;
use std::time::{Duration, Instant};

use http_body_util::{BodyExt as _, Full};
use hyper::body::Bytes;
use hyper::{Method, Request, StatusCode, header};
use hyper_util::client::legacy::Client;
use hyper_util::client::legacy::connect::HttpConnector;
use hyper_util::rt::TokioExecutor;
use serde_json::{Value, json};
use store::{SqliteStore, Store as _};
use studio::app::{App, RunOptions};

type Http = Client<HttpConnector, Full<Bytes>>;

/// Suits the clients share: five of them on each, as a class at five tables.
const SUITS: usize = 10;

#[derive(Default)]
struct Told {
    drags: Vec<f64>,
    edits: Vec<f64>,
    reads: Vec<f64>,
    faults: Vec<String>,
    /// The last value of this client's own place that was acknowledged.
    last: u64,
}

fn number(name: &str, usual: u64) -> u64 {
    std::env::var(name)
        .ok()
        .and_then(|v| v.parse().ok())
        .unwrap_or(usual)
}

async fn send(
    http: &Http,
    base: &str,
    method: Method,
    path: &str,
    body: Option<Value>,
) -> Result<(StatusCode, Value), String> {
    let request = Request::builder()
        .method(method)
        .uri(format!("{base}{path}"))
        .header("x-slackwater", "1")
        .header(header::CONTENT_TYPE, "application/json")
        .body(Full::new(Bytes::from(
            body.map(|b| b.to_string()).unwrap_or_default(),
        )))
        .map_err(|e| e.to_string())?;
    let reply = http.request(request).await.map_err(|e| e.to_string())?;
    let status = reply.status();
    let bytes = reply
        .into_body()
        .collect()
        .await
        .map_err(|e| e.to_string())?
        .to_bytes();
    let value = serde_json::from_slice(&bytes).unwrap_or(Value::Null);
    Ok((status, value))
}

async fn client(http: Http, base: String, n: usize, suit: String, until: Instant) -> Told {
    let mut told = Told::default();
    // A small generator of our own, so that a run can be repeated: same clients, same order of work.
    let mut state = 0x9e37_79b9_7f4a_7c15_u64 ^ (n as u64 + 1).wrapping_mul(0x2545_f491_4f6c_dd1d);
    let mut next = move || {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        state
    };
    let own = format!("load.client_{n}");
    let mut revision = 0;
    while Instant::now() < until {
        let start = Instant::now();
        let (kind, result) = match next() % 10 {
            0..=5 => {
                let handle =
                    ["strap_width", "neck_depth_below_pit", "side_seam_length"][(next() % 3) as usize];
                let by = (next() % 40) as f64 / 2.0 - 10.0;
                let body = json!({"drag": {"handle": handle, "by_mm": by}});
                let path = format!("/api/v1/suits/{suit}/preview");
                ("drag", send(&http, &base, Method::POST, &path, Some(body)).await)
            }
            6..=8 => {
                if revision == 0 {
                    let path = format!("/api/v1/documents/{suit}");
                    if let Ok((_, document)) = send(&http, &base, Method::GET, &path, None).await {
                        revision = document["revision"].as_u64().unwrap_or(0);
                    }
                }
                let value = told.last + 1;
                let body = json!({"parts": [{"document": suit, "base": revision}],
                    "changes": [{"document": suit, "path": own, "value": value}], "words": format!("load {n} {value}")});
                let result = send(&http, &base, Method::POST, "/api/v1/edits", Some(body)).await;
                if let Ok((status, kept)) = &result
                    && status.is_success()
                {
                    told.last = value;
                    revision = kept["documents"][0]["revision"].as_u64().unwrap_or(0);
                }
                ("edit", result)
            }
            _ => {
                let path = format!("/api/v1/suits/{suit}");
                ("read", send(&http, &base, Method::GET, &path, None).await)
            }
        };
        let ms = start.elapsed().as_secs_f64() * 1e3;
        match result {
            Ok((status, _)) if status.is_success() => match kind {
                "drag" => told.drags.push(ms),
                "edit" => told.edits.push(ms),
                _ => told.reads.push(ms),
            },
            Ok((status, value)) => told.faults.push(format!("{kind}: {status} {value}")),
            Err(error) => told.faults.push(format!("{kind}: {error}")),
        }
    }
    told
}

fn row(name: &str, mut ms: Vec<f64>, seconds: f64) {
    ms.sort_by(f64::total_cmp);
    let at = |share: f64| {
        ms.get(((ms.len() as f64 * share) as usize).min(ms.len().saturating_sub(1)))
            .copied()
            .unwrap_or(0.0)
    };
    println!(
        "{name:<6} {:>8} {:>9.1} {:>9.1} {:>9.1} {:>9.1}",
        ms.len(),
        ms.len() as f64 / seconds,
        at(0.5),
        at(0.95),
        at(1.0)
    );
}

fn main() {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .build()
        .expect("a runtime");
    if !runtime.block_on(run()) {
        std::process::exit(1);
    }
}

async fn run() -> bool {
    let (clients, seconds) = (number("LOAD_CLIENTS", 50) as usize, number("LOAD_SECONDS", 60));
    let folder = tempfile::tempdir().expect("a folder");
    let options = store::Options::default();
    let clock = options.clock.clone();
    let kept = SqliteStore::open(folder.path(), options).await.expect("a store");
    let listener = tokio::net::TcpListener::bind("127.0.0.1:0")
        .await
        .expect("a port");
    let address = listener.local_addr().expect("an address");
    let run = RunOptions {
        address,
        lan: false,
        lan_url: None,
    };
    let app = App::new(kept, run, clock);
    app.put_example().await.expect("the example");
    let router = studio::http::router(Arc::clone(&app));
    let service = router.into_make_service_with_connect_info::<std::net::SocketAddr>();
    tokio::spawn(async move { axum::serve(listener, service).await });

    let base = format!("http://{address}");
    let http: Http = Client::builder(TokioExecutor::new()).build_http();
    let mut suits = Vec::new();
    for _ in 0..SUITS {
        let body = json!({"like": "example-14", "name": "Load"});
        let (_, made) = send(&http, &base, Method::POST, "/api/v1/suits", Some(body))
            .await
            .expect("a suit");
        suits.push(made["id"].as_str().expect("an id").to_owned());
    }
    let start = Instant::now();
    let until = start + Duration::from_secs(seconds);
    let tasks: Vec<_> = (0..clients)
        .map(|n| {
            tokio::spawn(client(
                http.clone(),
                base.clone(),
                n,
                suits[n % SUITS].clone(),
                until,
            ))
        })
        .collect();
    let mut all = Told::default();
    let mut lost = 0;
    let mut acknowledged = 0;
    for (n, task) in tasks.into_iter().enumerate() {
        let told = task.await.expect("a client");
        let id = suits[n % SUITS].parse().expect("an id");
        let document = app.store().get(&id).await.expect("the suit");
        let there = document.body["load"][format!("client_{n}")].as_u64().unwrap_or(0);
        if there != told.last {
            lost += 1;
            println!("client {n}: acknowledged {} but {there} is kept", told.last);
        }
        acknowledged += told.last;
        all.drags.extend(told.drags);
        all.edits.extend(told.edits);
        all.reads.extend(told.reads);
        all.faults.extend(told.faults);
    }
    let seconds = start.elapsed().as_secs_f64();
    let mut journal = 0;
    for suit in &suits {
        let id = suit.parse().expect("an id");
        let entries = app.store().history(&[id], 0).await.expect("the history");
        journal += entries.iter().filter(|e| e.words.starts_with("load ")).count() as u64;
    }
    println!("{clients} clients, {seconds:.0} s, {SUITS} suits");
    println!(
        "{:<6} {:>8} {:>9} {:>9} {:>9} {:>9}",
        "what", "count", "per s", "median", "95 %", "most ms"
    );
    row("drag", all.drags, seconds);
    row("edit", all.edits, seconds);
    row("read", all.reads, seconds);
    println!(
        "failed requests {}, edits acknowledged {acknowledged}, in the history {journal}, lost {lost}",
        all.faults.len()
    );
    for fault in all.faults.iter().take(5) {
        println!("  {fault}");
    }
    all.faults.is_empty() && lost == 0 && journal == acknowledged
}
