//! Where the time of one move of a handle goes: a table of the stages of its preview, measured on this machine.
//!
//! `cargo bench -p slackwater-studio --bench drag`
//!
//! Every handle of the example's one-pieces is moved 30 steps out and back, as `web/test/latency.mjs` does in a browser. A plain
//! program rather than a statistics harness, because the stages are parts of a whole: the last column is the median over
//! that of one bare draft of the same suit, taken in between, so that runs on a busy machine can be compared.
//! `DRAG_SUITS` names other suits of the example, with commas between.

#![allow(clippy::print_stdout, reason = "a bench prints its table")]

use std::hint::black_box;
use std::sync::Arc;
use std::time::Instant;

use axum::Router;
use axum::body::Body;
use axum::http::{Request, header};
use http_body_util::BodyExt as _;
use store::SqliteStore;
use studio::app::{App, RunOptions};
use studio::document::{Worked, compose};
use studio::order::work_out;
use studio::suit_file::read_parts;
use studio::view::{Drag, Set, dragged, shape_view};
use tower::ServiceExt as _;

/// Steps out, and as many back.
const STEPS: u32 = 30;
/// How far the hand goes with each, mm.
const STEP_MM: f64 = 0.6;

/// Microseconds of every run of one stage.
struct Stage {
    name: &'static str,
    taken: Vec<f64>,
}

impl Stage {
    fn under(&self, share: f64) -> f64 {
        let mut sorted = self.taken.clone();
        sorted.sort_by(f64::total_cmp);
        let last = sorted.len().saturating_sub(1);
        sorted
            .get((last as f64 * share).round() as usize)
            .copied()
            .unwrap_or(f64::NAN)
    }
}

/// The stages in the order they were first measured.
#[derive(Default)]
struct Stages(Vec<Stage>);

impl Stages {
    fn time<T>(&mut self, name: &'static str, work: impl FnOnce() -> T) -> T {
        let start = Instant::now();
        let value = black_box(work());
        self.add(name, start);
        value
    }

    fn add(&mut self, name: &'static str, start: Instant) {
        let us = start.elapsed().as_secs_f64() * 1e6;
        match self.0.iter_mut().find(|s| s.name == name) {
            Some(stage) => stage.taken.push(us),
            None => self.0.push(Stage {
                name,
                taken: vec![us],
            }),
        }
    }

    fn of(&self, name: &str) -> f64 {
        self.0
            .iter()
            .find(|s| s.name == name)
            .map_or(f64::NAN, |s| s.under(0.5))
    }
}

const DRAFT: &str = "one bare draft";
const WHOLE: &str = "a move, request to reply";
const PREVIEW: &str = "a move, in the studio";

fn main() {
    // `cargo test` builds and runs benches with `--test`; a measurement is no test.
    if std::env::args().any(|a| a == "--test") {
        return;
    }
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build()
        .expect("a runtime");
    runtime.block_on(run());
}

async fn run() {
    let folder = tempfile::tempdir().expect("a folder");
    let options = store::Options::default();
    let clock = options.clock.clone();
    let kept = SqliteStore::open(folder.path(), options).await.expect("a store");
    let run = RunOptions {
        address: ([127, 0, 0, 1], 8380).into(),
        lan: false,
        lan_url: None,
    };
    let app = App::new(kept, run, clock);
    app.put_example().await.expect("the example");
    let suits = std::env::var("DRAG_SUITS").unwrap_or_else(|_| "example-14,example-15".into());
    for suit in suits.split(',') {
        measure(&app, suit).await;
    }
}

async fn measure(app: &Arc<App>, suit: &str) {
    let id = suit.parse().expect("an id");
    let router = studio::http::router(Arc::clone(app));
    let mut all = Stages::default();
    let mut per_handle: Vec<(String, Stages)> = Vec::new();
    let mut bytes = 0;
    // A copy remembers nothing of what the studio has tried on its own.
    let worked = (*app.worked(&id).await.expect("the suit")).clone();
    let handles = shape_view(&worked).handles;
    for handle in handles {
        let mut own = Stages::default();
        // The way back goes over other places than the way out.
        let out = (1..=STEPS).map(f64::from);
        let steps = out.clone().chain(out.rev().map(|step| step - 0.5));
        for step in steps {
            // A little apart, so that none finds what the one before has tried.
            let by = |more: f64| Drag {
                handle: handle.key.clone(),
                by_mm: step * STEP_MM + more,
            };
            let start = Instant::now();
            bytes = asked(&router, suit, &by(0.0), "gzip, deflate, br").await;
            own.add(WHOLE, start);
            all.add(WHOLE, start);
            let start = Instant::now();
            asked(&router, suit, &by(0.02), "identity").await;
            all.add("the same, asked uncompressed", start);
            let start = Instant::now();
            let seen = app
                .preview(&id, Vec::new(), Some(by(0.04)), false)
                .await
                .expect("the suit")
                .expect("a handle");
            own.add(PREVIEW, start);
            all.add(PREVIEW, start);
            let start = Instant::now();
            black_box(app.worked(&id).await.expect("the suit"));
            all.add("  papers from the store", start);
            all.time("  as JSON", || serde_json::to_vec(&seen).expect("JSON"));
            stages(&worked, &by(0.0), &mut all, &mut own);
        }
        per_handle.push((handle.key, own));
    }
    show(suit, bytes, &all, &per_handle);
}

/// One move as the page asks it, through the router, in the codings it takes. Returns the bytes of the reply.
async fn asked(router: &Router, suit: &str, drag: &Drag, coding: &str) -> usize {
    let body = serde_json::json!({"changes": [], "drag": drag}).to_string();
    let request = Request::post(format!("/api/v1/suits/{suit}/preview"))
        .header("x-slackwater", "1")
        .header(header::HOST, "127.0.0.1:8380")
        .header(header::CONTENT_TYPE, "application/json")
        .header(header::ACCEPT_ENCODING, coding)
        .extension(axum::extract::ConnectInfo(std::net::SocketAddr::from((
            [127, 0, 0, 1],
            50_000,
        ))))
        .body(Body::from(body))
        .expect("a request");
    let reply = router.clone().oneshot(request).await.expect("a reply");
    assert!(reply.status().is_success(), "{}", reply.status());
    let bytes = reply.into_body().collect().await.expect("a body").to_bytes();
    bytes.len()
}

/// The stages one after another, as far as they can be had apart: how a change that is kept is worked out and drawn.
fn stages(worked: &Worked, drag: &Drag, all: &mut Stages, own: &mut Stages) {
    let changes = all
        .time("  the value under the hand", || dragged(worked, drag))
        .expect("a handle");
    let tried = all.time("kept: worked out", || with(worked, &changes[0]));
    all.time("  the suit file written", || compose(&tried.papers()));
    let file = all
        .time("  the suit file read", || {
            let parts = read_parts("this suit", &tried.text).expect("TOML");
            parts.clone().whole("this suit", &tried.text)
        })
        .expect("a good suit");
    let order = all
        .time("  draft, elastic, fit, findings", || work_out(&file))
        .expect("a good suit");
    all.time("kept: section drawn", || shape_view(&tried));
    let forgetful = worked.clone();
    all.time("all of it worked out anew", || {
        let changes = dragged(&forgetful, drag).expect("a handle");
        shape_view(&with(&forgetful, &changes[0]))
    });
    for stages in [&mut *all, own] {
        stages.time(DRAFT, || {
            draft::draft(&order.body, &order.cloth, &file.design).expect("a draft")
        });
    }
}

/// The papers with a change of their design in them, and without what it puts out of force.
fn with(worked: &Worked, change: &Set) -> Worked {
    const ONE_OF: [[&str; 3]; 3] = [
        ["leg", "leg_share", "side_seam_length"],
        ["neck_depth", "neck_depth_below_pit", ""],
        ["back_depth", "back_depth_below_nape", ""],
    ];
    worked.with(|papers| {
        let path = change.path.trim_start_matches("design.");
        let Some(design) = papers[0].body["design"].as_object_mut() else {
            return;
        };
        for other in ONE_OF.iter().filter(|group| group.contains(&path)).flatten() {
            design.remove(*other);
        }
        match path.split_once('.') {
            Some((table, key)) => design[table][key] = change.value.clone(),
            None => drop(design.insert(path.to_owned(), change.value.clone())),
        }
    })
}

fn show(suit: &str, bytes: usize, all: &Stages, per_handle: &[(String, Stages)]) {
    let (whole, draft) = (all.of(PREVIEW), all.of(DRAFT));
    println!(
        "{suit}: {} moves, reply {bytes} bytes",
        2 * STEPS as usize * per_handle.len()
    );
    println!(
        "{:<36}{:>10}{:>10}{:>9}{:>9}",
        "stage", "median us", "95 % us", "of move", "drafts"
    );
    for stage in &all.0 {
        let median = stage.under(0.5);
        println!(
            "{:<36}{median:>10.0}{:>10.0}{:>8.0}%{:>9.2}",
            stage.name,
            stage.under(0.95),
            100.0 * median / whole,
            median / draft
        );
    }
    for (handle, own) in per_handle {
        let median = own.of(WHOLE);
        println!("  {handle:<34}{median:>10.0}{:>28.2}", median / own.of(DRAFT));
    }
    println!();
}
