//! Lays over HTTP: packed and kept, marked as old, moved by hand, refused with the reason, asked whether they fit.

#![allow(
    clippy::unwrap_used,
    reason = "a studio without its example must stop the test"
)]

mod served;

use std::time::{Duration, Instant};

use axum::http::StatusCode;
use serde_json::{Value, json};
use served::{Served, example};

const SUIT: &str = "example-15";

async fn shell(studio: &Served) -> Value {
    let order = studio.get(&format!("/api/v1/suits/{SUIT}")).await.ok();
    let cloths = order["lay"]["cloths"].as_array().unwrap().clone();
    cloths.into_iter().find(|c| c["layer"] == "shell").unwrap()
}

async fn pack(studio: &Served, request: Value) -> Value {
    let path = format!("/api/v1/suits/{SUIT}/lay/shell/pack");
    let job = studio.post(&path, request).await.ok()["job"].clone();
    let start = Instant::now();
    loop {
        let event = studio
            .get(&format!("/api/v1/jobs/{}", job.as_str().unwrap()))
            .await
            .ok();
        if event["state"] != "running" {
            return event;
        }
        assert!(start.elapsed() < Duration::from_secs(60), "{event}");
        tokio::time::sleep(Duration::from_millis(20)).await;
    }
}

fn piece<'a>(cloth: &'a Value, key: &str) -> &'a Value {
    let pieces = cloth["lay"]["drawing"]["pieces"].as_array().unwrap();
    pieces.iter().find(|p| p["piece"] == key).unwrap()
}

#[tokio::test(flavor = "multi_thread")]
async fn a_lay_is_kept_grows_old_and_is_packed_again() {
    let studio = example().await;
    let quick = shell(&studio).await;
    assert_eq!(quick["lay"]["standing"], "quick");
    // The same work gives the same lay.
    assert_eq!(shell(&studio).await, quick);
    let event = pack(&studio, json!({"seconds": 0.4})).await;
    assert_eq!(event["state"], "done", "{event}");
    assert_eq!(event["lay"]["layer"], "shell", "nothing was shown on the way");
    let kept = shell(&studio).await;
    assert_eq!(kept["lay"]["standing"], "kept");
    let mm = |cloth: &Value| cloth["lay"]["drawing"]["end"].as_f64().unwrap();
    assert!(mm(&kept) <= mm(&quick) + 1e-6);
    // Paper goes by it.
    let report = studio
        .get(&format!("/api/v1/suits/{SUIT}/files/report.json"))
        .await
        .ok();
    let laid = report["lays"]
        .as_array()
        .unwrap()
        .iter()
        .find(|l| l["layer"] == "shell")
        .unwrap();
    assert!((laid["lay"]["cloth_mm"].as_f64().unwrap() - mm(&kept)).abs() < 0.01);
    let plan = studio
        .get(&format!("/api/v1/suits/{SUIT}/files/lay-shell.pdf"))
        .await;
    assert!(plan.status == StatusCode::OK && plan.bytes.starts_with(b"%PDF-"));
    // Another shape: the kept lay is marked, and packed again from where it was.
    let base = studio.revision(SUIT).await;
    let edit = studio
        .edit(SUIT, base, &[("lay.rules.gap", json!("12 mm"))])
        .await;
    assert_eq!(edit.status, StatusCode::OK, "{}", edit.text());
    let old = shell(&studio).await;
    assert_eq!(
        old["lay"]["standing"], "spoilt",
        "pieces 3 mm apart are not 12 mm apart"
    );
    pack(&studio, json!({"seconds": 0.3})).await;
    assert_eq!(shell(&studio).await["lay"]["standing"], "kept");
    // "Back one" twice: the packing, then the gap.
    for standing in ["spoilt", "kept"] {
        let back = studio
            .post(&format!("/api/v1/suits/{SUIT}/back"), json!({}))
            .await;
        assert_eq!(back.status, StatusCode::OK, "{}", back.text());
        assert_eq!(shell(&studio).await["lay"]["standing"], standing);
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_hand_moves_a_piece_where_it_may_lie_and_nowhere_else() {
    let studio = example().await;
    let before = shell(&studio).await;
    let pieces = before["lay"]["drawing"]["pieces"].as_array().unwrap();
    let end = |p: &Value| p["frame"]["y"].as_f64().unwrap() + p["frame"]["height"].as_f64().unwrap();
    let last = pieces.iter().max_by(|a, b| end(a).total_cmp(&end(b))).unwrap();
    let key = last["piece"].as_str().unwrap();
    let place = format!("/api/v1/suits/{SUIT}/lay/shell/place");
    let request = |right: f64, down: f64, keep: bool, base: u64| json!({"base": base, "piece": key, "copy": last["copy"], "right": right, "down": down, "keep": keep});
    let base = studio.revision(SUIT).await;
    // Off the cloth: said, drawn where it was put, not kept.
    let off = studio.post(&place, request(-5000.0, 0.0, true, base)).await.ok();
    assert!(
        off["kept"].is_null() && off["faults"][0].as_str().unwrap().contains("past the cloth"),
        "{off}"
    );
    let x = |p: &Value| p["frame"]["x"].as_f64().unwrap();
    assert!((x(&off["piece"]) - x(last) + 5000.0).abs() < 0.02);
    assert_eq!(studio.revision(SUIT).await, base);
    // Tried only.
    let tried = studio.post(&place, request(0.0, 40.0, false, base)).await.ok();
    assert!(tried["kept"].is_null() && tried["faults"] == json!([]), "{tried}");
    assert_eq!(studio.revision(SUIT).await, base);
    let kept = studio.post(&place, request(0.0, 40.0, true, base)).await.ok();
    let revision = studio.revision(SUIT).await;
    assert!(revision > base && kept["kept"]["revision"] == revision, "{kept}");
    let after = shell(&studio).await;
    let moved = piece(&after, key);
    assert!(
        (moved["frame"]["y"].as_f64().unwrap() - last["frame"]["y"].as_f64().unwrap() - 40.0).abs() < 0.02
    );
    assert_eq!(
        (&moved["by_hand"], &after["lay"]["by_hand"]),
        (&json!(true), &json!(1))
    );
    // Another tab still has the old lay: told, not lost.
    let late = studio.post(&place, request(0.0, 10.0, true, base)).await;
    assert_eq!(late.status, StatusCode::CONFLICT, "{}", late.text());
    // The rest is packed around it; afresh it goes too.
    pack(&studio, json!({"seconds": 0.3})).await;
    let around = shell(&studio).await;
    assert_eq!(piece(&around, key)["frame"], moved["frame"]);
    pack(&studio, json!({"seconds": 0.3, "afresh": true})).await;
    assert_eq!(shell(&studio).await["lay"]["by_hand"], 0);
}

#[tokio::test(flavor = "multi_thread")]
async fn flaws_are_avoided_and_cloth_at_hand_is_asked() {
    let studio = example().await;
    let cloth = shell(&studio).await["document"].as_str().unwrap().to_owned();
    let base = studio.revision(&cloth).await;
    let list =
        json!([{"along": "20 cm", "across": "40 cm", "length": "6 cm", "width": "50 mm"}, {"along": "soon"}]);
    studio.edit(&cloth, base, &[("flaws", list)]).await.ok();
    let now = shell(&studio).await;
    assert_eq!(
        now["lay"]["drawing"]["flaws"],
        json!([{"x": 400.0, "y": 200.0, "width": 50.0, "height": 60.0}])
    );
    assert_eq!(
        now["flaws"].as_array().unwrap().len(),
        2,
        "one that cannot be read is shown too"
    );
    // A piece that is long enough, one that never can be, and words no length stands in.
    let base = studio.revision(&cloth).await;
    let at_hand = json!([{"width": "150 cm", "length": "300 cm"}, {"width": "150 cm", "length": "40 cm"}, {"width": "wide"}]);
    studio.edit(&cloth, base, &[("at_hand", at_hand)]).await.ok();
    let fits = studio
        .post(&format!("/api/v1/suits/{SUIT}/lay/shell/fits"), json!({}))
        .await
        .ok();
    let answers: Vec<bool> = fits["pieces"]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| p["fits"] == true)
        .collect();
    assert_eq!(answers, [true, false], "{fits}");
    assert_eq!(fits["changes"], json!([]));
    assert_eq!(shell(&studio).await["at_hand"].as_array().unwrap().len(), 3);
    // Laid on the short one it does not fit, and the section says stop.
    let base = studio.revision(SUIT).await;
    studio
        .edit(
            SUIT,
            base,
            &[("lay.on.shell", json!({"width": "150 cm", "length": "40 cm"}))],
        )
        .await
        .ok();
    let short = shell(&studio).await;
    assert_eq!(
        (&short["lay"]["fits"], &short["on"]),
        (&json!(false), &json!("150 x 40 cm"))
    );
    let order = studio.get(&format!("/api/v1/suits/{SUIT}")).await.ok();
    assert_eq!(order["lay"]["head"]["state"], "stop");
}

#[tokio::test(flavor = "multi_thread")]
async fn what_is_not_there_is_said() {
    let studio = example().await;
    let nothing = studio
        .post(&format!("/api/v1/suits/{SUIT}/lay/velvet/fits"), json!({}))
        .await;
    assert_eq!(nothing.status, StatusCode::UNPROCESSABLE_ENTITY);
    let nobody = studio
        .post("/api/v1/suits/nobody/lay/shell/pack", json!({}))
        .await;
    assert_eq!(nobody.status, StatusCode::NOT_FOUND, "{}", nobody.text());
    let base = studio.revision(SUIT).await;
    let gone = json!({"base": base, "piece": "pocket", "copy": 0, "keep": true});
    let gone = studio
        .post(&format!("/api/v1/suits/{SUIT}/lay/shell/place"), gone)
        .await;
    assert_eq!(gone.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", gone.text());
}
