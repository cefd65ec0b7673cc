//! Lays over HTTP: packed and kept, marked as old, moved by hand, refused with the reason, laid on every cloth there is, folded in part.

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
    job(studio, &format!("/api/v1/suits/{SUIT}/lay/shell/pack"), request).await
}

/// Every piece of every cloth, by the name of the cloth and its size.
async fn can_make(studio: &Served, layer: &str) -> Vec<Value> {
    let event = job(
        studio,
        &format!("/api/v1/suits/{SUIT}/lay/{layer}/fits"),
        json!({}),
    )
    .await;
    assert_eq!(event["state"], "done", "{event}");
    let view = studio.get(event["result"].as_str().unwrap()).await.ok();
    view["rows"].as_array().unwrap().clone()
}

/// Starts a job and waits for its end.
async fn job(studio: &Served, path: &str, request: Value) -> Value {
    let job = studio.post(path, request).await.ok()["job"].clone();
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
    let rows = can_make(&studio, "shell").await;
    let own: Vec<(&str, &str)> = rows
        .iter()
        .filter(|r| r["cloth"] == "Slate tricot")
        .map(|r| (r["piece"].as_str().unwrap(), r["word"].as_str().unwrap()))
        .collect();
    assert_eq!(
        own,
        [
            ("150 x 240 cm", "enough"),
            ("150 x 300 cm", "enough"),
            ("150 x 40 cm", "not enough"),
            ("", "not compared"),
        ],
        "{rows:?}"
    );
    assert!(
        rows[2]["says"].as_str().unwrap().contains("no lay could do"),
        "{}",
        rows[2]
    );
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

/// Every outer cloth of the workroom, the suit's own first; a row is chosen as one edit that is taken back as one.
#[tokio::test(flavor = "multi_thread")]
async fn every_cloth_of_the_workroom_is_asked_and_one_is_chosen() {
    let studio = example().await;
    let before = shell(&studio).await;
    let rows = can_make(&studio, "shell").await;
    let names: Vec<&str> = rows.iter().map(|r| r["cloth"].as_str().unwrap()).collect();
    assert_eq!(
        names,
        ["Slate tricot", "Kelp print"],
        "lining and mesh are no outer cloth"
    );
    // The print stretches otherwise: the suit is drafted anew for the count.
    let kelp = &rows[1];
    assert!(
        kelp["besides"].as_str().unwrap().contains("drafted anew"),
        "{kelp}"
    );
    assert_eq!(rows[0]["besides"], "");
    let choose = kelp["choose"].as_array().unwrap();
    assert_eq!(choose.len(), 2, "{kelp}");
    let base = studio.revision(SUIT).await;
    let changes: Vec<(&str, Value)> = choose
        .iter()
        .map(|set| (set["path"].as_str().unwrap(), set["value"].clone()))
        .collect();
    assert_eq!(changes[0], ("shell", json!("example-kelp")));
    let edit = studio.edit(SUIT, base, &changes).await;
    assert_eq!(edit.status, StatusCode::OK, "{}", edit.text());
    let laid = shell(&studio).await;
    assert_eq!(
        (&laid["name"], &laid["on"]),
        (&json!("Kelp print"), &json!("150 x 110 cm"))
    );
    // What was counted is what is laid.
    let is_enough = kelp["word"] == "enough";
    assert_eq!(laid["lay"]["fits"], json!(is_enough), "{kelp}");
    let back = studio
        .post(&format!("/api/v1/suits/{SUIT}/back"), json!({}))
        .await;
    assert_eq!(back.status, StatusCode::OK, "{}", back.text());
    assert_eq!(shell(&studio).await["name"], before["name"]);
    // The same question has the same answers.
    assert_eq!(can_make(&studio, "shell").await, rows);
    let lining = can_make(&studio, "lining").await;
    assert_eq!(lining[0]["cloth"], "Oat lining");
}

/// A piece too short for the whole suit, and which one change would do; a cloth nobody tested; a cloth with nothing written of it.
#[tokio::test(flavor = "multi_thread")]
async fn what_is_not_enough_says_by_how_much_and_which_change_would_do() {
    let studio = example().await;
    let cloth = "example-slate";
    let all = shell(&studio).await["lay"]["drawing"]["end"].as_f64().unwrap();
    let base = studio.revision(cloth).await;
    // As long as that lay and half as wide: room for the body, none for the skirt.
    let at_hand =
        json!([{"width": "95 cm", "length": format!("{:.0} mm", all + 200.0), "words": "left of winter"}]);
    studio
        .edit(cloth, base, &[("at_hand", at_hand), ("stock", Value::Null)])
        .await
        .ok();
    let untested = json!({"kind": "cloth", "body": {"name": "Grey rest", "role": "shell", "width": "150 cm", "stock": "3 m"}, "words": "grey"});
    let made = studio.post("/api/v1/documents", untested).await;
    assert!(made.status.is_success(), "{}", made.text());
    let kelp = studio.revision("example-kelp").await;
    studio
        .edit("example-kelp", kelp, &[("stock", Value::Null)])
        .await
        .ok();
    let rows = can_make(&studio, "shell").await;
    let of = |name: &str| rows.iter().find(|r| r["cloth"] == name).unwrap();
    let slate = of("Slate tricot");
    assert_eq!(
        (&slate["word"], &slate["from"]),
        (&json!("not enough"), &json!("left of winter"))
    );
    assert!(
        slate["says"].as_str().unwrap().starts_with("Not enough by "),
        "{slate}"
    );
    assert!(
        slate["change"]
            .as_str()
            .unwrap()
            .starts_with("It would do if you leave the skirt off"),
        "{slate}"
    );
    let grey = of("Grey rest");
    assert_eq!(
        (&grey["word"], &grey["choose"]),
        (&json!("not compared"), &json!([]))
    );
    let kelp = of("Kelp print");
    assert!(
        kelp["says"]
            .as_str()
            .unwrap()
            .contains("not written how much of it there is"),
        "{kelp}"
    );
}

/// Folded over in part: the depth is found, or as written; too deep is refused with what is allowed. A flaw of the flat cloth lies where the
/// fold puts it: 80 cm from the selvedge of a cloth folded at 75 it lies 5 cm from the fold.
#[tokio::test(flavor = "multi_thread")]
async fn a_fold_may_be_partial_and_its_depth_found_or_written() {
    let studio = example().await;
    let rule = async |key: &str, value: Value| {
        let base = studio.revision(SUIT).await;
        let edit = studio
            .edit(SUIT, base, &[(&format!("lay.rules.{key}"), value)])
            .await;
        assert_eq!(edit.status, StatusCode::OK, "{}", edit.text());
    };
    rule("fold", json!("partial")).await;
    let found = shell(&studio).await;
    let drawing = &found["lay"]["drawing"];
    assert_eq!(drawing["fold"], "partial");
    let depth = drawing["fold_at"].as_f64().unwrap();
    assert!(depth > 50.0 && depth < 750.0, "{depth}");
    assert!((drawing["frame"]["width"].as_f64().unwrap() - (1500.0 - depth)).abs() < 0.01);
    let order = studio.get(&format!("/api/v1/suits/{SUIT}")).await.ok();
    let field = |order: &Value| {
        let fields = order["lay"]["fields"].as_array().unwrap().clone();
        fields
            .into_iter()
            .find(|f| f["path"] == "lay.rules.depth")
            .unwrap()
    };
    assert!(
        field(&order)["says"].as_str().unwrap().contains("the shell"),
        "{order}"
    );
    // As written.
    rule("depth", json!("42 cm")).await;
    assert_eq!(shell(&studio).await["lay"]["drawing"]["fold_at"], 420.0);
    let plan = studio
        .get(&format!("/api/v1/suits/{SUIT}/files/lay-shell.pdf"))
        .await;
    assert!(plan.status == StatusCode::OK && plan.bytes.starts_with(b"%PDF-"));
    // Words are no depth: the best is found again, and the line says so.
    rule("depth", json!("deep")).await;
    assert_eq!(shell(&studio).await["lay"]["drawing"]["fold_at"], depth);
    let order = studio.get(&format!("/api/v1/suits/{SUIT}")).await.ok();
    assert!(field(&order)["says"].as_str().unwrap().contains("no length"));
    // Past the other selvedge.
    rule("depth", json!("90 cm")).await;
    let refused = shell(&studio).await;
    assert!(
        refused["not_laid"]
            .as_str()
            .unwrap()
            .contains("Depth of the fold"),
        "{refused}"
    );
    // Folded down the middle, with a flaw.
    rule("fold", json!("half")).await;
    let base = studio.revision("example-slate").await;
    let flaws = json!([{"along": "20 cm", "across": "80 cm", "length": "6 cm", "width": "5 cm"}]);
    studio.edit("example-slate", base, &[("flaws", flaws)]).await.ok();
    let folded = shell(&studio).await;
    assert_eq!(
        folded["lay"]["drawing"]["flaws"],
        json!([{"x": 50.0, "y": 200.0, "width": 50.0, "height": 60.0}])
    );
    rule("direction", json!("per-garment")).await;
    assert!(
        shell(&studio).await["lay"]["drawing"]["pieces"]
            .as_array()
            .unwrap()
            .len()
            > 1
    );
}

/// An odd piece by its corners: laid on, drawn in its outline, nothing where it has no cloth; corners that make no outline are said.
#[tokio::test(flavor = "multi_thread")]
async fn an_odd_piece_is_laid_on_inside_its_outline() {
    let studio = example().await;
    let corners = json!([
        ["0 cm", "0 cm"],
        ["200 cm", "0 cm"],
        ["200 cm", "60 cm"],
        ["120 cm", "150 cm"],
        ["0 cm", "150 cm"]
    ]);
    let crossed = json!([
        ["0 cm", "0 cm"],
        ["50 cm", "50 cm"],
        ["50 cm", "0 cm"],
        ["0 cm", "50 cm"]
    ]);
    let base = studio.revision("example-slate").await;
    let list = json!([{"corners": corners, "words": "a corner is gone"}, {"corners": crossed}, {"corners": [["1 cm"]]}]);
    studio
        .edit("example-slate", base, &[("at_hand", list)])
        .await
        .ok();
    let told = shell(&studio).await;
    let words: Vec<&str> = told["at_hand"]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| p["words"].as_str().unwrap())
        .collect();
    assert_eq!(words[0], "odd piece of 150 x 200 cm");
    assert!(
        words[1].contains("cannot be read") && words[2].contains("cannot be read"),
        "{words:?}"
    );
    let rows = can_make(&studio, "shell").await;
    let odd = rows.iter().find(|r| r["from"] == "a corner is gone").unwrap();
    assert_eq!(odd["word"], "enough", "{odd}");
    assert_eq!(
        rows.iter().filter(|r| r["word"] == "not compared").count(),
        2,
        "{rows:?}"
    );
    let base = studio.revision(SUIT).await;
    let changes: Vec<(&str, Value)> = odd["choose"]
        .as_array()
        .unwrap()
        .iter()
        .map(|set| (set["path"].as_str().unwrap(), set["value"].clone()))
        .collect();
    studio.edit(SUIT, base, &changes).await.ok();
    let laid = shell(&studio).await;
    assert_eq!(laid["on"], "an odd piece of 150 x 200 cm, single");
    let drawing = &laid["lay"]["drawing"];
    assert!(drawing["remnant"].as_str().unwrap().starts_with('M'), "{drawing}");
    // Beyond the slanted side (x across, y along) there is no cloth: from 150 across at 120 along to 60 across at 200 along.
    for piece in drawing["pieces"].as_array().unwrap() {
        for (x, y) in points(piece["outline"].as_str().unwrap()) {
            let end = 1500.0 - (y - 1200.0).max(0.0) * 900.0 / 800.0;
            assert!(
                x <= end + 0.2 && y <= 2000.2,
                "{} has no cloth at {x} {y}",
                piece["name"]
            );
        }
    }
    assert_eq!(laid["lay"]["fits"], true);
}

/// The corners of an SVG path of straight lines.
fn points(path: &str) -> Vec<(f64, f64)> {
    let numbers: Vec<f64> = path
        .split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'))
        .filter_map(|n| n.parse().ok())
        .collect();
    numbers.chunks_exact(2).map(|p| (p[0], p[1])).collect()
}

/// Two suits of one cloth on one length: every piece of both, each by its suit; what is not of the same cloth stays out; taken apart again.
#[tokio::test(flavor = "multi_thread")]
async fn several_suits_are_laid_on_one_length() {
    let studio = example().await;
    let before = shell(&studio).await;
    let own = before["lay"]["drawing"]["pieces"].as_array().unwrap().len();
    let order = studio.get(&format!("/api/v1/suits/{SUIT}")).await.ok();
    let with = order["lay"]["with"].as_array().unwrap();
    let of = |name: &str| with.iter().find(|w| w["name"] == name).unwrap()["set"].clone();
    // Maren's is cut from the slate too, Tove's from the print; one that is gone is passed over.
    let maren = of("Maren’s one-piece");
    assert_eq!(
        (&maren["path"], &maren["value"]),
        (&json!("lay.with"), &json!(["example-14"]))
    );
    let base = studio.revision(SUIT).await;
    let list = json!(["example-14", "example-16", "example-99", SUIT]);
    studio.edit(SUIT, base, &[("lay.with", list)]).await.ok();
    let both = shell(&studio).await;
    let pieces = both["lay"]["drawing"]["pieces"].as_array().unwrap();
    let hers = pieces
        .iter()
        .filter(|p| p["piece"].as_str().unwrap().starts_with("example-14/"))
        .count();
    assert!(
        hers > 0 && hers + own == pieces.len(),
        "{hers} {own} {}",
        pieces.len()
    );
    assert!(
        pieces.iter().all(|p| !p["note"].as_str().unwrap().is_empty()),
        "whose each is"
    );
    assert!(
        both["lay"]["buy_says"].as_str().unwrap().contains("for 2 suits"),
        "{both}"
    );
    let order = studio.get(&format!("/api/v1/suits/{SUIT}")).await.ok();
    let told: Vec<(&str, &str)> = order["lay"]["with"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|w| w["is_in"] == true)
        .map(|w| (w["name"].as_str().unwrap(), w["says"].as_str().unwrap()))
        .collect();
    assert_eq!(told.len(), 2, "{told:?}");
    let tove = told.iter().find(|(name, _)| name.starts_with("Tove")).unwrap();
    assert!(
        tove.1.contains("lining"),
        "her lining is the same, her print is not: {}",
        tove.1
    );
    // Packed, kept, and old when the other suit changes.
    pack(&studio, json!({"seconds": 0.3})).await;
    assert_eq!(shell(&studio).await["lay"]["standing"], "kept");
    let base = studio.revision("example-14").await;
    studio
        .edit("example-14", base, &[("design.fit", json!("relaxed"))])
        .await
        .ok();
    assert_ne!(shell(&studio).await["lay"]["standing"], "kept");
    let base = studio.revision(SUIT).await;
    studio.edit(SUIT, base, &[("lay.with", Value::Null)]).await.ok();
    let alone = shell(&studio).await;
    assert_eq!(alone["lay"]["drawing"]["pieces"].as_array().unwrap().len(), own);
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
