//! The computed fit over HTTP: put on by a job, kept until the draft changes, stopped, refused with the reason; a better draft taken and taken back.

#![allow(
    clippy::unwrap_used,
    reason = "a studio without its example must stop the test"
)]

mod served;

use std::time::{Duration, Instant};

use axum::http::StatusCode;
use serde_json::{Value, json};
use served::{Served, example};

const SUIT: &str = "example-14";
const WORN: &str = "/api/v1/suits/example-14/worn";

async fn event(studio: &Served, job: &str) -> Value {
    studio.get(&format!("/api/v1/jobs/{job}")).await.ok()
}

/// Starts a job and waits for its end.
async fn job(studio: &Served, path: &str, body: Value) -> Value {
    let job = studio.post(path, body).await.ok()["job"]
        .as_str()
        .unwrap()
        .to_owned();
    let start = Instant::now();
    loop {
        let event = event(studio, &job).await;
        if event["state"] != "running" {
            return event;
        }
        assert!(start.elapsed() < Duration::from_secs(120), "{event}");
        tokio::time::sleep(Duration::from_millis(20)).await;
    }
}

/// The quickest way to put it on.
fn coarse() -> Value {
    json!({"mesh": "coarse", "friction": false})
}

#[tokio::test(flavor = "multi_thread")]
async fn a_suit_is_put_on_and_grows_old_with_its_draft() {
    let studio = example().await;
    let nothing = studio.get(WORN).await.ok();
    assert!(
        nothing["fit"].is_null() && nothing["cannot"].is_null(),
        "{nothing}"
    );
    let too_early = studio.post(&format!("{WORN}/better"), json!({})).await;
    assert_eq!(too_early.status, StatusCode::UNPROCESSABLE_ENTITY);
    let event = job(&studio, WORN, coarse()).await;
    assert_eq!(event["state"], "done", "{event}");
    let worn = studio.get(WORN).await.ok();
    let fit = &worn["fit"];
    assert!(fit["why_not"].is_null() && fit["is_current"] == true, "{fit}");
    assert!(worn["work"].is_null());
    // Levels from above to below, each on the ladder, and where the draft has one the quick figure beside it.
    let levels = fit["levels"].as_array().unwrap();
    let number = |level: &Value, key: &str| level[key].as_f64().unwrap();
    assert!(levels.len() >= 4);
    assert!(
        levels
            .windows(2)
            .all(|w| number(&w[0], "height") > number(&w[1], "height"))
    );
    assert!(levels.iter().all(|l| (0.0..=1.0).contains(&number(l, "at"))));
    let waist = levels.iter().find(|l| l["level"] == "waist").unwrap();
    let order = studio.get(&format!("/api/v1/suits/{SUIT}")).await.ok();
    let rungs = order["wear"]["rungs"].as_array().unwrap();
    let quick = rungs.iter().find(|r| r["level"] == "waist").unwrap();
    assert_eq!(waist["quick"][0]["main"], quick["worn"]["main"]);
    assert_eq!(waist["cut"]["main"], quick["cut"]["main"]);
    // Every finding says what it was held against; what is changed by a proposal changes.
    for found in fit["found"].as_array().unwrap() {
        let changes = found["changes"].as_array().unwrap();
        assert!(changes.iter().all(|c| c["from"] != c["to"]), "{found}");
    }
    // What is at one place says where, within the form.
    let span = fit["span"].as_array().unwrap();
    let places: Vec<f64> = fit["found"]
        .as_array()
        .unwrap()
        .iter()
        .filter_map(|f| f["at"][1].as_f64())
        .collect();
    assert!(!places.is_empty());
    assert!(
        places
            .iter()
            .all(|y| (span[0].as_f64().unwrap()..span[1].as_f64().unwrap()).contains(y))
    );
    // Its lines, by its id and no other.
    let id = fit["id"].as_str().unwrap();
    let rings = studio.get(&format!("{WORN}/rings?of={id}")).await;
    assert_eq!(rings.status, StatusCode::OK);
    assert!(rings.bytes.starts_with(b"SWR1") && rings.bytes.len() < 120_000);
    let other = studio.get(&format!("{WORN}/rings?of=0")).await;
    assert_eq!(other.status, StatusCode::NOT_FOUND);
    for drawing in fit["drawings"].as_array().unwrap() {
        let name = drawing["key"].as_str().unwrap();
        let svg = studio.get(&format!("{WORN}/drawings/{name}?of={id}")).await;
        assert!(
            svg.status == StatusCode::OK && svg.text().starts_with("<svg"),
            "{name}"
        );
    }
    // Put on again in the same way it is the same.
    job(&studio, WORN, coarse()).await;
    assert_eq!(&studio.get(WORN).await.ok()["fit"], fit);
    // Another draft: shown as old, and nothing is tried on it.
    let base = studio.revision(SUIT).await;
    let edit = studio.edit(SUIT, base, &[("design.fit", json!("relaxed"))]).await;
    assert_eq!(edit.status, StatusCode::OK, "{}", edit.text());
    let old = studio.get(WORN).await.ok();
    assert_eq!(
        (&old["fit"]["is_current"], &old["fit"]["id"]),
        (&json!(false), &fit["id"])
    );
    let refused = studio.post(&format!("{WORN}/better"), json!({})).await;
    assert!(
        refused.status == StatusCode::UNPROCESSABLE_ENTITY && refused.text().contains("Put it on first"),
        "{}",
        refused.text()
    );
    // The change taken back, it is of the draft in force again.
    studio
        .post(&format!("/api/v1/suits/{SUIT}/back"), json!({}))
        .await
        .ok();
    assert_eq!(studio.get(WORN).await.ok()["fit"]["is_current"], true);
}

/// A seam is judged by what sews it: machines of the workroom that change leave a result standing and said to be of another workroom.
#[tokio::test(flavor = "multi_thread")]
async fn a_worn_suit_is_judged_for_the_machines_there_are() {
    let studio = example().await;
    assert_eq!(job(&studio, WORN, coarse()).await["state"], "done");
    let fit = studio.get(WORN).await.ok()["fit"].clone();
    assert!(
        fit["rests_on"].to_string().contains("planned for your machines"),
        "{}",
        fit["rests_on"]
    );
    assert_eq!(fit["is_of_workroom"], true);
    let base = studio.revision("workroom").await;
    studio
        .edit("workroom", base, &[("machines", json!([]))])
        .await
        .ok();
    let older = studio.get(WORN).await.ok()["fit"].clone();
    assert_eq!(
        (&older["is_current"], &older["is_of_workroom"]),
        (&json!(true), &json!(false))
    );
    assert_eq!(job(&studio, WORN, coarse()).await["state"], "done");
    let again = studio.get(WORN).await.ok()["fit"].clone();
    assert_eq!(again["is_of_workroom"], true);
    assert!(
        again["rests_on"]
            .to_string()
            .contains("no machine is written down"),
        "{}",
        again["rests_on"]
    );
    assert_eq!(again["levels"], fit["levels"], "no machine stretches a suit");
}

/// The stitches of the order, each with what is asked of it.
async fn asked(studio: &Served) -> (bool, String, Vec<Value>) {
    let order = studio.get(&format!("/api/v1/suits/{SUIT}")).await.ok();
    let sew = &order["sew"];
    let asked = sew["stitches"].as_array().unwrap().iter();
    (
        sew["is_worn_solved"].as_bool().unwrap(),
        sew["rests_on"].as_str().unwrap().to_owned(),
        asked
            .map(|s| json!([s["job"], s["asked"]["main"], s["need"]]))
            .collect(),
    )
}

/// As `slackwater pack` plans from a solved suit: on the page for as long as the draft is the one that was put on.
#[tokio::test(flavor = "multi_thread")]
async fn stitches_are_chosen_for_how_the_suit_is_worn_and_it_is_said() {
    let studio = example().await;
    let drafted = asked(&studio).await;
    assert!(
        !drafted.0 && drafted.1.contains("the stretches the draft means"),
        "{drafted:?}"
    );
    // Reaching up is a moment: no plan is made from it.
    let reach = json!({"mesh": "coarse", "friction": false, "scene": "reach"});
    assert_eq!(job(&studio, WORN, reach).await["state"], "done");
    assert_eq!(asked(&studio).await, drafted);
    assert_eq!(job(&studio, WORN, coarse()).await["state"], "done");
    let worn = asked(&studio).await;
    assert!(worn.0 && worn.1.contains("as it was solved in Wear"), "{worn:?}");
    assert_ne!(worn.2, drafted.2, "the plan is the draft's still");
    let why = studio
        .get(&format!("/api/v1/suits/{SUIT}/why/sew.need.0"))
        .await
        .ok();
    assert!(why.to_string().contains("solved on the form"), "{why}");
    // What is printed goes by the same plan.
    let booklet = studio
        .get(&format!("/api/v1/suits/{SUIT}/booklet/index.html"))
        .await
        .text();
    assert!(booklet.contains("from the solve on her form"));
    // Another draft has the draft's own until it is put on; taken back, what was solved holds again.
    let base = studio.revision(SUIT).await;
    studio
        .edit(SUIT, base, &[("design.fit", json!("relaxed"))])
        .await
        .ok();
    assert!(!asked(&studio).await.0);
    studio
        .post(&format!("/api/v1/suits/{SUIT}/back"), json!({}))
        .await
        .ok();
    assert_eq!(asked(&studio).await, worn);
    // Put on in another way, the plan stays that of standing.
    let reach = json!({"mesh": "coarse", "friction": false, "scene": "reach"});
    job(&studio, WORN, reach).await;
    assert_eq!(asked(&studio).await, worn);
}

#[tokio::test(flavor = "multi_thread")]
async fn every_number_of_a_worn_suit_answers_why() {
    fn keys(value: &Value, found: &mut Vec<String>) {
        match value {
            Value::Object(map) => {
                found.extend(map.get("why").and_then(Value::as_str).map(str::to_owned));
                map.values().for_each(|v| keys(v, found));
            }
            Value::Array(list) => list.iter().for_each(|v| keys(v, found)),
            _ => {}
        }
    }
    let studio = example().await;
    assert_eq!(job(&studio, WORN, coarse()).await["state"], "done");
    let fit = studio.get(WORN).await.ok()["fit"].clone();
    let mut found = Vec::new();
    keys(&json!([fit["levels"], fit["edges"]]), &mut found);
    let (levels, edges) = (
        fit["levels"].as_array().unwrap().len(),
        fit["edges"].as_array().unwrap().len(),
    );
    assert!(levels > 3 && edges > 3);
    assert_eq!(found.len(), 3 * levels + 3 * edges, "{found:?}");
    for key in found {
        let why = studio.get(&format!("/api/v1/suits/{SUIT}/why/{key}")).await.ok();
        for part in ["question", "answer", "source"] {
            assert!(!why[part].as_str().unwrap().is_empty(), "{key}: {part}");
        }
        assert!(why["inputs"].as_array().unwrap().len() > 1, "{key}");
    }
    // The figure and its reason are one number.
    let waist = fit["levels"]
        .as_array()
        .unwrap()
        .iter()
        .find(|l| l["level"] == "waist")
        .unwrap();
    let why = studio
        .get(&format!("/api/v1/suits/{SUIT}/why/solved.around.waist"))
        .await
        .ok();
    let figure = format!("Why {} % at the waist", waist["around"]["main"].as_str().unwrap());
    assert!(why["question"].as_str().unwrap().starts_with(&figure), "{why}");
    let other = studio
        .get("/api/v1/suits/example-15/why/solved.around.waist")
        .await;
    assert_eq!(other.status, StatusCode::NOT_FOUND, "never put on");
}

#[tokio::test(flavor = "multi_thread")]
async fn what_cannot_be_read_is_refused_and_a_stopped_job_leaves_nothing() {
    let studio = example().await;
    for (request, says) in [
        (json!({"scene": "flying"}), "flying"),
        (json!({"scene": "reach", "by": "long"}), "no length"),
        (json!({"scene": "reach", "by": "60 cm"}), "not between"),
        (json!({"mesh": "finest"}), "finest"),
    ] {
        let reply = studio.post(WORN, request).await;
        assert!(
            reply.status == StatusCode::UNPROCESSABLE_ENTITY && reply.text().contains(says),
            "{}",
            reply.text()
        );
    }
    let fine = json!({"mesh": "fine"});
    let job = studio.post(WORN, fine.clone()).await.ok()["job"]
        .as_str()
        .unwrap()
        .to_owned();
    let work = &studio.get(WORN).await.ok()["work"];
    assert_eq!((&work["job"], &work["kind"]), (&json!(job), &json!("put_on")));
    let second = studio.post(WORN, fine).await;
    assert!(
        second.status == StatusCode::UNPROCESSABLE_ENTITY && second.text().contains("already"),
        "{}",
        second.text()
    );
    studio
        .post(&format!("/api/v1/jobs/{job}/stop"), json!({}))
        .await
        .ok();
    let start = Instant::now();
    while event(&studio, &job).await["state"] == "running" {
        assert!(start.elapsed() < Duration::from_secs(60), "it does not stop");
        tokio::time::sleep(Duration::from_millis(20)).await;
    }
    assert_eq!(event(&studio, &job).await["state"], "stopped");
    let after = studio.get(WORN).await.ok();
    assert!(after["fit"].is_null() && after["work"].is_null(), "{after}");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_guess_is_called_a_guess_and_what_was_measured_is_not() {
    let studio = example().await;
    let rests = |worn: &Value| worn["fit"]["rests_on"][0].as_str().unwrap().to_owned();
    let event = job(
        &studio,
        WORN,
        json!({"mesh": "coarse", "friction": false, "scene": "reach"}),
    )
    .await;
    assert_eq!(event["state"], "done", "{event}");
    let guessed = rests(&studio.get(WORN).await.ok());
    assert!(guessed.contains("a guess, no source"), "{guessed}");
    let measured = json!({"mesh": "coarse", "friction": false, "scene": "reach", "by": "3 cm"});
    job(&studio, WORN, measured).await;
    let measured = rests(&studio.get(WORN).await.ok());
    assert!(
        measured.contains("30 mm") && measured.contains("as measured"),
        "{measured}"
    );
}

#[tokio::test(flavor = "multi_thread")]
async fn a_finding_is_tried_and_what_it_would_do_is_shown() {
    let studio = example().await;
    let event = job(&studio, WORN, coarse()).await;
    assert_eq!(event["state"], "done", "{event}");
    let fit = studio.get(WORN).await.ok()["fit"].clone();
    let found = fit["found"].as_array().unwrap();
    let with_changes = |f: &&Value| !f["changes"].as_array().unwrap().is_empty();
    let tried = found.iter().find(with_changes).unwrap();
    let without = found.iter().find(|f| !with_changes(f)).unwrap();
    let refused = studio
        .post(&format!("{WORN}/try"), json!({"finding": without["key"]}))
        .await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
    let event = job(&studio, &format!("{WORN}/try"), json!({"finding": tried["key"]})).await;
    assert_eq!(event["state"], "done", "{event}");
    let proposed = &studio.get(WORN).await.ok()["proposed"];
    assert_eq!(
        (&proposed["kind"], &proposed["finding"]),
        (&json!("try"), &tried["key"])
    );
    assert_eq!(proposed["changes"], tried["changes"]);
    // What it is now is what was found: the result at hand is as coarse as the trial.
    let level = |levels: &Value, key: &str| {
        let all = levels.as_array().unwrap();
        all.iter().find(|l| l["level"] == key).unwrap().clone()
    };
    for key in ["bust", "waist"] {
        assert_eq!(
            level(&proposed["levels"], key)["around"][0]["main"],
            level(&fit["levels"], key)["around"]["main"],
            "{key}"
        );
    }
    let moved = proposed["levels"]
        .as_array()
        .unwrap()
        .iter()
        .any(|l| l["at"][0] != l["at"][1]);
    assert!(moved, "the change changes nothing: {proposed}");
    assert!(!proposed["numbers"].as_array().unwrap().is_empty());
}

#[tokio::test(flavor = "multi_thread")]
async fn a_better_draft_is_taken_like_any_change_and_taken_back() {
    // A suit that can be bettered: a child's, and quickly put on.
    const SUIT: &str = "example-18";
    const WORN: &str = "/api/v1/suits/example-18/worn";
    let studio = example().await;
    job(&studio, WORN, coarse()).await;
    let event = job(&studio, &format!("{WORN}/better"), json!({})).await;
    assert_eq!(event["state"], "done", "{event}");
    let worn = studio.get(WORN).await.ok();
    let proposed = &worn["proposed"];
    assert_eq!(
        (&proposed["kind"], &proposed["is_current"]),
        (&json!("better"), &json!(true))
    );
    assert!(proposed["why_not"].is_null(), "{proposed}");
    // What is off falls: by the numbers shown, not only by the sentence.
    let number = |q: &Value| q["main"].as_str().unwrap().parse::<f64>().unwrap();
    let off = &proposed["numbers"][0];
    assert!(number(&off["after"]) < number(&off["before"]), "{off}");
    let base = studio.revision(SUIT).await;
    let sets: Vec<(String, Value)> = proposed["sets"]
        .as_array()
        .unwrap()
        .iter()
        .map(|s| (s["path"].as_str().unwrap().to_owned(), s["value"].clone()))
        .collect();
    let changes: Vec<(&str, Value)> = sets.iter().map(|(p, v)| (p.as_str(), v.clone())).collect();
    let edit = studio.edit(SUIT, base, &changes).await;
    assert_eq!(edit.status, StatusCode::OK, "{}", edit.text());
    // Drafted as proposed: the suit file has every value that was shown.
    let taken = studio.get(&format!("/api/v1/suits/{SUIT}")).await.ok();
    assert!(
        !taken["shape"]["pieces"].as_array().unwrap().is_empty(),
        "it is not drafted"
    );
    let document = studio.get(&format!("/api/v1/documents/{SUIT}")).await.ok();
    for (path, value) in sets.iter().filter(|(_, v)| !v.is_null()) {
        let now = path
            .split('.')
            .try_fold(&document["body"], |at, key| at.get(key))
            .unwrap();
        assert_eq!(now, value, "{path}");
    }
    let worn = studio.get(WORN).await.ok();
    assert!(worn["proposed"].is_null() && worn["fit"]["is_current"] == false);
    studio
        .post(&format!("/api/v1/suits/{SUIT}/back"), json!({}))
        .await
        .ok();
    let back = studio.get(WORN).await.ok();
    assert_eq!(back["fit"]["is_current"], true);
    // Back at the draft it was made of, it is there to be taken again, or left.
    assert_eq!(back["proposed"]["kind"], "better");
    studio.post(&format!("{WORN}/leave"), json!({})).await.ok();
    assert!(studio.get(WORN).await.ok()["proposed"].is_null());
}
