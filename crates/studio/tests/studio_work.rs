//! The studio at work: edits, conflicts, back and forward, versions, removing, jobs.

mod served;

use axum::http::{Method, StatusCode};
use serde_json::{Value, json};
use served::{example, served};

#[tokio::test]
async fn the_example_is_a_workroom_in_order() {
    let studio = example().await;
    let home = studio.get("/api/v1/home").await.ok();
    let suits = home["suits"].as_array().unwrap();
    assert_eq!(suits.len(), 5);
    for suit in suits {
        assert!(!suit["silhouette"].is_null(), "{} is not drawn", suit["name"]);
    }
    let order = studio.get("/api/v1/suits/example-14").await.ok();
    assert_eq!(order["wearer"]["head"]["state"], "doubtful", "Maren's waist");
    assert_eq!(order["wearer"]["now"], "waist_girth");
    for suit in suits {
        let path = format!("/api/v1/suits/{}", suit["id"].as_str().unwrap());
        let order = studio.get(&path).await.ok();
        assert!(!order["shape"]["pieces"].as_array().unwrap().is_empty());
        assert_ne!(
            order["shape"]["head"]["state"], "stop",
            "{}",
            order["shape"]["head"]
        );
    }
}

/// Every number that can be asked "why?" answers, in every suit of the example.
#[tokio::test]
async fn every_why_is_answered() {
    fn keys(value: &Value, into: &mut Vec<String>) {
        match value {
            Value::Object(map) => {
                for (name, value) in map {
                    if name == "why"
                        && let Some(key) = value.as_str()
                    {
                        into.push(key.to_owned());
                    }
                    keys(value, into);
                }
            }
            Value::Array(list) => list.iter().for_each(|v| keys(v, into)),
            _ => {}
        }
    }
    let studio = example().await;
    let mut asked = 0;
    for id in [
        "example-14",
        "example-15",
        "example-16",
        "example-17",
        "example-18",
    ] {
        let order = studio.get(&format!("/api/v1/suits/{id}")).await.ok();
        let mut all = Vec::new();
        keys(&order, &mut all);
        for key in all {
            let encoded: String = key
                .bytes()
                .map(|b| match b {
                    b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'.' | b'_' | b'-' => char::from(b).to_string(),
                    b => format!("%{b:02X}"),
                })
                .collect();
            let why = studio.get(&format!("/api/v1/suits/{id}/why/{encoded}")).await;
            assert_eq!(why.status, StatusCode::OK, "{id}: {key}");
            let why = why.json();
            assert!(
                why["question"].as_str().unwrap().len() > 5 && why["source"].as_str().unwrap().len() > 2,
                "{why}"
            );
            asked += 1;
        }
    }
    assert!(asked > 200, "only {asked} numbers can be asked why");
}

#[tokio::test]
async fn a_dimension_taken_again_redraws_the_suit() {
    let studio = example().await;
    let before = studio.get("/api/v1/suits/example-14").await.ok();
    let base = studio.revision("example-maren").await;
    let readings = json!({"readings": ["73.0 cm", "72.6 cm"]});
    let kept = studio
        .edit("example-maren", base, &[("dimensions.waist_girth", readings)])
        .await
        .ok();
    assert_eq!(kept["merged"], false);
    let after = studio.get("/api/v1/suits/example-14").await.ok();
    assert_ne!(after["wearer"]["head"]["state"], "doubtful");
    assert_eq!(after["back"], "waist girth 73.0 cm, 70.2 cm to 73.0 cm, 72.6 cm");
    studio.post("/api/v1/suits/example-14/back", json!({})).await.ok();
    let back = studio.get("/api/v1/suits/example-14").await.ok();
    assert_eq!(back["wearer"]["dimensions"], before["wearer"]["dimensions"]);
    assert_eq!(back["forward"], after["back"]);
    studio
        .post("/api/v1/suits/example-14/forward", json!({}))
        .await
        .ok();
    let forward = studio.get("/api/v1/suits/example-14").await.ok();
    assert_eq!(forward["wearer"]["dimensions"], after["wearer"]["dimensions"]);
    let reply = studio.post("/api/v1/suits/example-14/forward", json!({})).await;
    assert_eq!(reply.status, StatusCode::CONFLICT);
}

#[tokio::test]
async fn two_tabs_never_lose_an_edit() {
    let studio = example().await;
    let base = studio.revision("example-14").await;
    studio
        .edit("example-14", base, &[("design.strap_width", json!("4.2 cm"))])
        .await
        .ok();
    // The other tab still looks at the old revision: another place stands beside, the same place is asked about.
    let kept = studio
        .edit("example-14", base, &[("design.seat", json!("moderate"))])
        .await
        .ok();
    assert_eq!(kept["merged"], true);
    let reply = studio
        .edit("example-14", base, &[("design.strap_width", json!("3.0 cm"))])
        .await;
    assert_eq!(reply.status, StatusCode::CONFLICT);
    let clash = &reply.json()["clashes"][0];
    assert_eq!(
        (&clash["theirs"], &clash["yours"]),
        (&json!("4.2 cm"), &json!("3.0 cm"))
    );
    assert_eq!(clash["path"], "design.strap_width");
    let order = studio.get("/api/v1/documents/example-14").await.ok();
    assert_eq!(order["body"]["design"]["strap_width"], "4.2 cm");
    assert_eq!(order["body"]["design"]["seat"], "moderate");
}

#[tokio::test]
async fn a_drag_is_drawn_and_not_kept() {
    let studio = example().await;
    let order = studio.get("/api/v1/suits/example-15").await.ok();
    let handles = order["shape"]["handles"].as_array().unwrap();
    assert!(handles.len() >= 5, "{handles:?}");
    for handle in handles {
        for by in [-9.0, 6.0] {
            let drag = json!({"drag": {"handle": handle["key"], "by_mm": by}, "wear": true});
            let preview = studio.post("/api/v1/suits/example-15/preview", drag).await.ok();
            assert_eq!(preview["changes"].as_array().unwrap().len(), 1);
            let moved = preview["shape"]["handles"]
                .as_array()
                .unwrap()
                .iter()
                .find(|h| h["key"] == handle["key"])
                .unwrap_or_else(|| {
                    panic!(
                        "{} is gone after {by}: {}",
                        handle["key"], preview["shape"]["head"]
                    )
                });
            let at =
                |h: &Value, axis: &str| h["at"][axis].as_f64().unwrap() * h["along"][axis].as_f64().unwrap();
            let went = at(moved, "x") + at(moved, "y") - at(handle, "x") - at(handle, "y");
            // Values are kept to a millimetre; a width moves its handle by half of it or less.
            assert!((went - by).abs() <= 1.5, "{} by {by} went {went}", handle["key"]);
        }
    }
    let again = studio.get("/api/v1/suits/example-15").await.ok();
    assert_eq!(again["shape"], order["shape"]);
}

#[tokio::test]
async fn a_try_on_becomes_version_2() {
    let studio = example().await;
    let made = studio
        .post("/api/v1/suits/example-14/versions", json!({"words": "basted"}))
        .await
        .ok();
    assert_eq!(made, json!({"kept": 1, "number": 2}));
    let base = studio.revision("example-14").await;
    studio
        .edit("example-14", base, &[("design.strap_width", json!("3.4 cm"))])
        .await
        .ok();
    let order = studio.get("/api/v1/suits/example-14").await.ok();
    assert_eq!(order["suit"]["version"], 2);
    let lines = &order["try_on"]["overlay"][0]["lines"];
    assert_eq!(lines.as_array().unwrap().len(), 2, "{lines}");
    assert_ne!(lines[0]["path"], lines[1]["path"]);
}

/// A version kept by a program that ended before the number went on is not in the way of the next.
#[tokio::test]
async fn a_version_kept_but_not_gone_on_from_is_passed() {
    use store::Store as _;
    let studio = example().await;
    let id = "example-14".parse().unwrap();
    studio
        .app
        .store()
        .keep_version(&id, 1, json!({}), "", "")
        .await
        .unwrap();
    let made = studio
        .post("/api/v1/suits/example-14/versions", json!({}))
        .await
        .ok();
    assert_eq!(made, json!({"kept": 2, "number": 3}));
}

#[tokio::test]
async fn removing_a_wearer_says_what_goes_along_and_takes_it() {
    let studio = example().await;
    let says = studio.get("/api/v1/wearers/example-tove/goes-along").await.ok();
    let says: Vec<&str> = says["says"]
        .as_array()
        .unwrap()
        .iter()
        .map(|s| s.as_str().unwrap())
        .collect();
    assert!(says.iter().any(|s| s.contains("Tove’s kelp brief")), "{says:?}");
    assert!(says.iter().any(|s| s.contains("1 kept version")), "{says:?}");
    assert!(
        says.iter().any(|s| s.contains("First suit, Saturdays")),
        "{says:?}"
    );
    let reply = studio
        .ask(Method::DELETE, "/api/v1/documents/example-tove", None)
        .await;
    assert_eq!(reply.status, StatusCode::UNPROCESSABLE_ENTITY, "not into the bin");
    studio
        .ask(Method::DELETE, "/api/v1/wearers/example-tove", None)
        .await
        .ok();
    for path in ["/api/v1/documents/example-tove", "/api/v1/suits/example-16"] {
        assert_eq!(studio.get(path).await.status, StatusCode::NOT_FOUND, "{path}");
    }
    let class = studio.get("/api/v1/documents/example-class").await.ok();
    assert_eq!(
        class["body"]["wearers"],
        json!(["example-maren", "example-odile"])
    );
}

/// A favourite of hers stays in the drawer and forgets whose it was; what a job made of her suit is gone with her.
#[tokio::test]
async fn a_removed_wearer_leaves_no_link_and_nothing_at_hand() {
    let studio = example().await;
    let old = studio
        .post(
            "/api/v1/documents",
            json!({"kind": "drawer", "body": {"name": "Tove’s old suit", "of": "suit", "wearer": "example-tove"}}),
        )
        .await
        .ok();
    let old = format!("/api/v1/documents/{}", old["id"].as_str().unwrap());
    let started = studio.post("/api/v1/suits/example-16/pack", json!({})).await.ok();
    let path = format!("/api/v1/jobs/{}", started["job"].as_str().unwrap());
    let start = std::time::Instant::now();
    while studio.get(&path).await.ok()["state"] == "running" {
        assert!(start.elapsed().as_secs() < 120);
        tokio::time::sleep(std::time::Duration::from_millis(50)).await;
    }
    let result = format!("{path}/result");
    assert_eq!(studio.get(&result).await.status, StatusCode::OK);
    let says = studio.get("/api/v1/wearers/example-tove/goes-along").await.text();
    assert!(
        says.contains("Whose it was, of Tove’s old suit in the drawer"),
        "{says}"
    );
    studio
        .ask(Method::DELETE, "/api/v1/wearers/example-tove", None)
        .await
        .ok();
    let kept = studio.get(&old).await.ok();
    assert!(kept["body"]["wearer"].is_null(), "{kept}");
    assert_eq!(kept["body"]["name"], "Tove’s old suit");
    assert_eq!(
        studio.get(&result).await.status,
        StatusCode::NOT_FOUND,
        "her pattern is still at hand"
    );
}

#[tokio::test]
async fn what_is_taken_out_lies_in_the_bin_until_it_is_put_back_or_deleted_for_good() {
    let studio = example().await;
    assert_eq!(studio.get("/api/v1/bin").await.ok(), json!([]));
    let suit = "/api/v1/documents/example-15";
    let refused = studio.ask(Method::DELETE, "/api/v1/bin/example-15", None).await;
    assert_eq!(
        refused.status,
        StatusCode::NOT_FOUND,
        "it does not lie in the bin"
    );
    assert_eq!(studio.get(suit).await.ok()["in_bin"], false);
    studio.ask(Method::DELETE, suit, None).await.ok();
    let suits = |home: &Value| home["suits"].as_array().unwrap().len();
    assert_eq!(suits(&studio.get("/api/v1/home").await.ok()), 4);
    assert_eq!(
        studio.get("/api/v1/suits/example-15").await.status,
        StatusCode::NOT_FOUND
    );
    let bin = studio.get("/api/v1/bin").await.ok();
    assert_eq!(
        (&bin[0]["id"], &bin[0]["kind"], &bin[0]["about"]),
        (
            &json!("example-15"),
            &json!("suit"),
            &json!("Suit No. 15, for Odile")
        ),
        "{bin}"
    );
    assert!(bin[0]["since"].as_str().unwrap().contains('T'), "{bin}");
    studio.post(&format!("{suit}/restore"), json!({})).await.ok();
    assert_eq!(studio.get("/api/v1/bin").await.ok(), json!([]));
    assert_eq!(suits(&studio.get("/api/v1/home").await.ok()), 5);
    // For good: out of the bin, out of the backups.
    studio.post("/api/v1/backups", json!({})).await.ok();
    studio.ask(Method::DELETE, suit, None).await.ok();
    let done = studio
        .ask(Method::DELETE, "/api/v1/bin/example-15", None)
        .await
        .ok();
    assert!(
        done["says"]
            .as_str()
            .unwrap()
            .ends_with("is deleted, here and in 1 backup."),
        "{done}"
    );
    assert_eq!(studio.get(suit).await.status, StatusCode::NOT_FOUND);
    assert_eq!(studio.get("/api/v1/bin").await.ok(), json!([]));
}

/// Before anything is taken the tape has a body to lie on; every dimension that has a tape on hers has one there too.
#[tokio::test]
async fn a_middling_form_shows_where_the_tape_goes() {
    let studio = example().await;
    let tapes = |form: &Value| -> Vec<String> {
        let all = form["tapes"].as_array().unwrap().iter();
        all.map(|t| t["key"].as_str().unwrap().to_owned()).collect()
    };
    for (sort, wearer) in [
        ("woman", "example-maren"),
        ("man", "example-bastian"),
        ("child", "example-ines"),
    ] {
        let middling = studio.get(&format!("/api/v1/forms/{sort}")).await.ok();
        assert!(
            middling["says"]
                .as_str()
                .unwrap()
                .starts_with("A middling figure")
        );
        assert_eq!(middling["residuals"], json!([]));
        let hers = studio.get(&format!("/api/v1/wearers/{wearer}/form")).await.ok();
        let there = tapes(&middling);
        for key in tapes(&hers) {
            assert!(there.contains(&key), "{sort}: {key} of {wearer} has no tape");
        }
        assert!(there.contains(&"waist_girth".to_owned()));
    }
    assert_eq!(
        studio.get("/api/v1/forms/mermaid").await.status,
        StatusCode::NOT_FOUND
    );
}

/// What the printer leaves white makes the tiles; a width no printer has stops the paper with what to do.
#[tokio::test]
async fn the_white_edge_of_the_printer_makes_the_tiles() {
    let studio = example().await;
    let pages = async |studio: &served::Served| {
        let order = studio.get("/api/v1/suits/example-14").await.ok();
        order["paper"]["map"]["pages"].as_u64()
    };
    let set = async |studio: &served::Served, edge: Value| {
        let base = studio.revision("workroom").await;
        studio.edit("workroom", base, &[("white_edge", edge)]).await.ok();
    };
    let usual = pages(&studio).await.unwrap();
    set(&studio, json!("2 mm")).await;
    let least = pages(&studio).await.unwrap();
    set(&studio, json!("12 mm")).await;
    let most = pages(&studio).await.unwrap();
    assert!(
        least < most && least <= usual,
        "{least} pages with 2 mm, {usual} as usual, {most} with 12 mm"
    );
    let file = studio
        .get("/api/v1/suits/example-14/files/suit.toml")
        .await
        .text();
    assert!(file.contains("white_edge = \"12 mm\""), "{file}");
    set(&studio, json!("30 mm")).await;
    let order = studio.get("/api/v1/suits/example-14").await.ok();
    let notes = order["paper"]["head"]["notes"].to_string();
    assert!(
        notes.contains("white edge of the printer") && notes.contains("12"),
        "{notes}"
    );
}

/// Every path that the page on the API names is one of the API.
#[test]
fn the_page_on_the_api_names_no_path_that_is_not_there() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let page = std::fs::read_to_string(root.join("docs/api.md")).unwrap();
    let api: Value = serde_json::from_str(&studio::http::openapi()).unwrap();
    let steps = |path: &str| -> Vec<String> { path.split('/').map(str::to_owned).collect() };
    let known: Vec<Vec<String>> = api["paths"]
        .as_object()
        .unwrap()
        .keys()
        .map(|p| steps(p))
        .collect();
    let mut named = 0;
    for (at, _) in page.match_indices("/api/v1/") {
        let path: String = page[at..]
            .chars()
            .take_while(|c| c.is_ascii_alphanumeric() || "/_.-".contains(*c))
            .collect();
        let asked = steps(path.trim_end_matches(['.', '/']));
        let is_there = known.iter().any(|path| {
            let pairs = path.iter().zip(&asked);
            path.len() == asked.len()
                && pairs
                    .into_iter()
                    .all(|(known, asked)| known == asked || known.starts_with('{'))
        });
        assert!(is_there, "docs/api.md names {}", asked.join("/"));
        named += 1;
    }
    assert!(named > 20, "only {named} paths are named");
}

#[tokio::test]
async fn the_example_goes_in_one_action_and_leaves_her_own_work() {
    let studio = example().await;
    let wearer = studio
        .post(
            "/api/v1/documents",
            json!({"kind": "wearer", "body": {"name": "Signe", "form": "woman"}}),
        )
        .await
        .ok();
    let suit = studio
        .post("/api/v1/suits", json!({"wearer": wearer["id"]}))
        .await
        .ok();
    let id = suit["id"].as_str().unwrap();
    let base = studio.revision(id).await;
    studio
        .edit(id, base, &[("shell", json!("example-slate"))])
        .await
        .ok();
    let done = studio.ask(Method::DELETE, "/api/v1/example", None).await.ok();
    assert!(
        done["says"]
            .as_str()
            .unwrap()
            .contains("1 thing your own work uses"),
        "{done}"
    );
    let home = studio.get("/api/v1/home").await.ok();
    assert_eq!(home["has_example"], false);
    assert_eq!(home["suits"].as_array().unwrap().len(), 1);
    assert_eq!(home["wearers"].as_array().unwrap().len(), 1);
    assert_eq!(home["cloths"][0]["name"], "Slate tricot");
    assert!(
        !studio.app.example_at_first_start().await.unwrap(),
        "it does not come back by itself"
    );
    studio.post("/api/v1/example", json!({})).await.ok();
    let home = studio.get("/api/v1/home").await.ok();
    assert_eq!(home["suits"].as_array().unwrap().len(), 6);
    assert_eq!(home["cloths"].as_array().unwrap().len(), 4);
}

#[tokio::test]
async fn a_suit_file_goes_in_and_out_unchanged_in_meaning() {
    let studio = served(false).await;
    let text = include_str!("../../../examples/odile-skirted.toml");
    let request = axum::http::Request::post("/api/v1/suits/import")
        .header("host", "127.0.0.1:8380")
        .header("x-slackwater", "1")
        .header("content-type", "text/plain");
    let made = studio
        .send(request.body(axum::body::Body::from(text)).unwrap())
        .await
        .ok();
    let id = made["id"].as_str().unwrap();
    let out = studio.get(&format!("/api/v1/suits/{id}/files/suit.toml")).await;
    let before = studio::suit_file::read_text("a", text).unwrap();
    let after = studio::suit_file::read_text("b", &out.text()).unwrap();
    assert_eq!(
        studio::version::version_id(&before),
        studio::version::version_id(&after)
    );

    let request = axum::http::Request::post("/api/v1/suits/import")
        .header("host", "127.0.0.1:8380")
        .header("x-slackwater", "1");
    let bad = studio
        .send(
            request
                .body(axum::body::Body::from("format = 1\nname = 3\n"))
                .unwrap(),
        )
        .await;
    assert_eq!(bad.status, StatusCode::UNPROCESSABLE_ENTITY);
    let problems = bad.json()["problems"].clone();
    let of_the_name = |p: &&Value| p["field"] == "name" && p["where"] == "the suit file, line 2";
    assert_eq!(
        problems.as_array().unwrap().iter().filter(of_the_name).count(),
        1,
        "{problems}"
    );
    assert_eq!(
        studio.get("/api/v1/home").await.ok()["suits"]
            .as_array()
            .unwrap()
            .len(),
        1,
        "nothing half taken in"
    );
}

#[tokio::test]
async fn kits_of_a_class_are_made_with_progress() {
    let studio = example().await;
    let started = studio
        .post("/api/v1/classes/example-class/kits", json!({}))
        .await
        .ok();
    let path = format!("/api/v1/jobs/{}", started["job"].as_str().unwrap());
    let start = std::time::Instant::now();
    let end = loop {
        let state = studio.get(&path).await.ok();
        if state["state"] != "running" {
            break state;
        }
        assert!(start.elapsed().as_secs() < 300, "{state}");
        tokio::time::sleep(std::time::Duration::from_millis(50)).await;
    };
    assert_eq!(end["state"], "done", "{end}");
    let zip = studio.get(end["result"].as_str().unwrap()).await;
    let archive = zip::ZipArchive::new(std::io::Cursor::new(zip.bytes)).unwrap();
    let names: Vec<String> = archive.file_names().map(|n| n.unwrap().into_owned()).collect();
    for wearer in ["maren", "odile", "tove"] {
        assert!(names.contains(&format!("{wearer}/pattern-a4.pdf")), "{names:?}");
    }
    // The stream of a job that has ended says so and ends too.
    let events = studio.get(&format!("{path}/events")).await.text();
    assert!(events.contains("event: end"), "{events}");
}

#[tokio::test]
async fn the_description_of_the_api_is_the_kept_one() {
    let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/openapi.json");
    let made = studio::http::openapi();
    if std::env::var_os("UPDATE_OPENAPI").is_some() {
        std::fs::write(&file, &made).unwrap();
    }
    let kept = std::fs::read_to_string(&file).unwrap();
    assert!(
        kept == made,
        "the API is another than tests/openapi.json; write it anew with UPDATE_OPENAPI=1 and read the difference"
    );
}
