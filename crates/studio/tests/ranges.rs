//! Ranges on the command line: what is written, what is refused, and that a refusal leaves nothing behind.

mod program;

use std::fs;

use program::{err, example, out, slackwater};

#[test]
fn a_range_writes_nest_and_chart_the_same_each_time() {
    let place = tempfile::tempdir().unwrap();
    let mut made = Vec::new();
    for name in ["one", "two"] {
        let folder = place.path().join(name);
        let to = folder.to_string_lossy().into_owned();
        let suit = example("maren-one-piece.toml").display().to_string();
        let done = slackwater(&[
            "range",
            &suit,
            "--sizes",
            "women",
            "--only",
            "88,92,96",
            "--stature",
            "168cm",
            "--out",
            &to,
        ]);
        assert_eq!(done.status.code(), Some(0), "{}", err(&done));
        // Where the table comes from is said wherever it is used.
        assert!(out(&done).contains("EN 13402-3"), "{}", out(&done));
        let read = |file: &str| fs::read(folder.join(file)).unwrap();
        made.push((read("nest.pdf"), read("nest.svg"), read("sizes.csv")));
    }
    assert!(made[0] == made[1], "same input, same bytes");
    assert!(made[0].0.starts_with(b"%PDF"));
    let csv = String::from_utf8(made[0].2.clone()).unwrap();
    assert!(
        csv.starts_with("of,measure,unit,88,92,96,estimated in\r\n"),
        "{csv}"
    );
    // The classes of EN 13402-3: bust 92 stands in the table and is no estimate.
    assert!(csv.contains("body,bust girth,cm,88.0,92.0,96.0,\r\n"), "{csv}");
}

#[test]
fn what_is_refused_leaves_nothing_behind() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("out");
    let to = folder.to_string_lossy().into_owned();
    let suit = example("maren-one-piece.toml").display().to_string();
    let table = place.path().join("club.csv");
    fs::write(&table, "size,bust_cm,waste_cm,hip_cm\nS,84,68,92\nM,abc,76,100\n").unwrap();
    let own = table.to_string_lossy().into_owned();
    for (sizes, says) in [
        (
            vec![own.as_str()],
            vec![":1:1: column 3 (waste_cm)", ":3:1: column 2 (bust_cm)"],
        ),
        (vec!["men"], vec!["a man's one-piece is not drafted here"]),
        (
            vec!["women", "--only", "84,85"],
            vec!["there is no size `85` here"],
        ),
        (
            vec!["nowhere.csv"],
            vec!["there is no such file", "women, men or children"],
        ),
    ] {
        let mut args = vec!["range", &suit, "--out", &to, "--sizes"];
        args.extend(&sizes);
        let refused = slackwater(&args);
        assert_eq!(refused.status.code(), Some(2), "{sizes:?}");
        for words in says {
            assert!(err(&refused).contains(words), "{sizes:?}: {}", err(&refused));
        }
        assert!(!folder.exists(), "{sizes:?}");
    }
}

#[test]
fn a_wearer_gets_her_size() {
    let suit = example("maren-one-piece.toml").display().to_string();
    let chosen = slackwater(&["size", &suit, "--sizes", "women", "--stature", "168cm", "--json"]);
    assert_eq!(chosen.status.code(), Some(0), "{}", err(&chosen));
    let choice: serde_json::Value = serde_json::from_slice(&chosen.stdout).unwrap();
    // Bust 90, hip 99: between 88 (88-96) and 92 (92-100), nearer to 92 at the hip.
    assert_eq!(
        (&choice["size"], &choice["advice"]),
        (&"92".into(), &"take".into())
    );
}

/// A club of five in a list, two more as suit files: the fewest rows of a table, and, cut anew, people of the group themselves.
#[test]
fn the_fewest_sizes_for_a_group() {
    let place = tempfile::tempdir().unwrap();
    let list = place.path().join("club.csv");
    fs::write(
        &list,
        "name,bust_cm,waist_cm,hip_cm\nAda,83,67,91\nBo,85,69,93\nCleo,101,85,108\nDot,100,84,107\nEve,84,68,125\n",
    )
    .unwrap();
    let list = list.to_string_lossy().into_owned();
    let covered = slackwater(&["cover", &list, "--sizes", "women", "--json"]);
    assert_eq!(covered.status.code(), Some(0), "{}", err(&covered));
    let view: serde_json::Value = serde_json::from_slice(&covered.stdout).unwrap();
    // EN 13402-3: 84 (68, 92) and 100 (84, 108), each within 4 cm of two, their neighbours of one; nobody's hip is 125 at a bust of 84.
    let sizes: Vec<(&str, usize)> = view["sizes"]
        .as_array()
        .unwrap()
        .iter()
        .map(|s| (s["size"].as_str().unwrap(), s["people"].as_array().unwrap().len()))
        .collect();
    assert_eq!(sizes, [("84", 2), ("100", 2)]);
    assert_eq!(view["left_out"][0]["name"], "Eve");
    let said = out(&slackwater(&["cover", &list, "--sizes", "women"]));
    assert!(said.contains("2 sizes cover 4 of 5"), "{said}");
    assert!(said.contains("EN 13402-3"), "{said}");

    let anew = slackwater(&[
        "cover",
        &list,
        example("maren-one-piece.toml").to_str().unwrap(),
        "--sizes",
        "people",
        "--girth",
        "45cm",
        "--length",
        "45cm",
    ]);
    assert!(out(&anew).contains("One size covers 6 of 6"), "{}", out(&anew));
}

#[test]
fn a_list_of_people_is_refused_at_its_lines() {
    let place = tempfile::tempdir().unwrap();
    let list = place.path().join("club.csv");
    fs::write(&list, "name,bust_cm,hip_cm\nAda,84,9200\nAda,85\n").unwrap();
    let list = list.to_string_lossy().into_owned();
    for (args, says) in [
        (
            vec!["cover", &list, "--sizes", "women"],
            vec![
                ":2:1: column 3 (hip_cm)",
                ":3:1: the line has 2 cells, the head 3",
            ],
        ),
        (
            vec!["cover", &list, "--sizes", "people"],
            vec![
                "whose bodies the list holds is not said",
                "--form woman, man or child",
            ],
        ),
        (
            vec!["cover", "nobody.toml", "--sizes", "women"],
            vec!["there is no such file"],
        ),
    ] {
        let refused = slackwater(&args);
        assert_eq!(refused.status.code(), Some(2), "{args:?}");
        for words in says {
            assert!(err(&refused).contains(words), "{args:?}: {}", err(&refused));
        }
    }
}
