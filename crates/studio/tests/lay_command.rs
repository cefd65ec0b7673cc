//! `slackwater lay` and the cloth it is asked about: which of several can make the suit, and folds of a depth that is found.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::Value;

fn example(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../examples")
        .join(name)
}

fn slackwater(args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_slackwater"))
        .args(args)
        .output()
        .expect("the program runs")
}

fn err(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

fn json(output: &Output) -> Value {
    serde_json::from_slice(&output.stdout).unwrap_or_else(|e| panic!("{e}: {}", err(output)))
}

/// A second cloth, one of which only the amount is known, and remnants: square, odd, far too small.
const ROOM: &str = r#"format = 1
[[stock]]
item = "cloth"
cloth = "Kelp print"
amount = "1.1 m"
[[stock]]
item = "cloth"
cloth = "Reef stripe"
amount = "0.9 m"
[[stock]]
item = "cloth"
cloth = "Oat lining"
amount = "2 m"
[[stock]]
item = "cloth"
cloth = "Old velvet"
amount = "5 m"
[[remnants]]
cloth = "Kelp print"
width = "40 cm"
length = "30 cm"
words = "left of winter"
[[remnants]]
cloth = "Kelp print"
corners = [["0 cm", "0 cm"], ["90 cm", "0 cm"], ["90 cm", "40 cm"], ["60 cm", "90 cm"], ["0 cm", "90 cm"]]
"#;
const STRIPE: &str = r#"format = 1
[shell]
name = "Reef stripe"
along = { stretch = 40 }
across = { stretch = 95 }
width = "140 cm"
"#;

#[test]
fn every_cloth_in_stock_is_laid_on() {
    let folder = tempfile::tempdir().expect("a folder");
    let (room, stripe) = (folder.path().join("room.toml"), folder.path().join("stripe.toml"));
    fs::write(&room, ROOM).expect("written");
    fs::write(&stripe, STRIPE).expect("written");
    let suit = example("tove-brief.toml");
    let files = [suit.to_str(), room.to_str(), stripe.to_str()].map(|f| f.expect("UTF-8"));
    let args = [
        "--json", "lay", files[0], "--stock", files[1], "--stock", files[2],
    ];
    let output = slackwater(&args);
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
    let told = json(&output);
    let rows = told["can_make"].as_array().expect("rows");
    let shell: Vec<(&str, &str, &str)> = rows
        .iter()
        .filter(|r| r["layer"] == "shell")
        .map(|r| {
            let text = |key: &str| r[key].as_str().unwrap_or_default();
            (text("cloth"), text("from"), text("verdict"))
        })
        .collect();
    assert_eq!(
        shell,
        [
            ("Kelp print", "on the shelf", "enough"),
            ("Kelp print", "left of winter", "short"),
            ("Kelp print", "", "enough"),
            ("Reef stripe", "on the shelf", "enough"),
            ("Old velvet", "", "apart"),
        ],
        "{rows:?}"
    );
    let stripe = rows
        .iter()
        .find(|r| r["cloth"] == "Reef stripe")
        .expect("the stripe");
    assert_eq!(stripe["drafted_anew"], true, "it stretches otherwise");
    let velvet = rows
        .iter()
        .find(|r| r["cloth"] == "Old velvet")
        .expect("the velvet");
    assert!(
        velvet["says"]
            .as_str()
            .expect("text")
            .contains("no stretch test of Old velvet"),
        "{velvet}"
    );
    let lining: Vec<&str> = rows
        .iter()
        .filter(|r| r["layer"] == "lining")
        .map(|r| r["cloth"].as_str().unwrap_or_default())
        .collect();
    assert_eq!(lining, ["Oat lining", "Old velvet"], "outer cloths are no lining");
    // The same stock, the same answers.
    assert_eq!(slackwater(&args).stdout, output.stdout);
    let words = slackwater(&["lay", files[0], "--stock", files[1], "--layer", "shell"]);
    let said = String::from_utf8_lossy(&words.stdout).into_owned();
    assert!(said.contains("(left of winter)"), "{said}");
    assert!(said.contains("Not enough"), "{said}");
}

#[test]
fn stock_that_cannot_be_read_is_told_at_its_line() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("stock.toml");
    let suit = example("tove-brief.toml");
    let (suit, path) = (suit.to_str().expect("UTF-8"), file.to_str().expect("UTF-8"));
    let faults = |text: &str| {
        fs::write(&file, text).expect("written");
        let output = slackwater(&["lay", suit, "--stock", path]);
        assert_eq!(output.status.code(), Some(2), "{}", err(&output));
        err(&output)
    };
    let odd = "format = 1\n[[remnants]]\ncloth = \"Kelp print\"\n";
    let crossed = "corners = [[\"0 cm\", \"0 cm\"], [\"9 cm\", \"9 cm\"], [\"9 cm\", \"0 cm\"], [\"0 cm\", \"9 cm\"]]\n";
    assert!(faults(&format!("{odd}{crossed}")).contains("make no outline"));
    assert!(faults(&format!("{odd}corners = [[\"0 cm\"]]\n")).contains("along and across"));
    assert!(faults(&format!("{odd}width = \"1 m\"\n")).contains("remnants[1].length"));
    assert!(
        faults(
            "format = 1\n[shell]\nname = \"Stripe\"\nalong = { stretch = 900 }\nacross = { stretch = 90 }\n"
        )
        .contains("shell.along")
    );
    let two = slackwater(&["lay", suit, suit, "--stock", path]);
    assert!(err(&two).contains("name one suit file"), "{}", err(&two));
    let nothing = slackwater(&["lay", suit, "--stock", "nowhere.toml"]);
    assert!(err(&nothing).contains("no such file"), "{}", err(&nothing));
}

/// Whatever depth is found, the lay is no longer than at any of some depths written by hand.
#[test]
fn a_fold_is_as_deep_as_is_best() {
    let suit = example("tove-brief.toml");
    let suit = suit.to_str().expect("UTF-8");
    let lay = |fold: &str| {
        let output = slackwater(&[
            "--json",
            "lay",
            suit,
            "--layer",
            "shell",
            "--passes",
            "2",
            "--threads",
            "1",
            "--fold",
            fold,
        ]);
        assert_eq!(output.status.code(), Some(0), "{}", err(&output));
        json(&output)["lays"][0].clone()
    };
    let found = lay("partial");
    assert_eq!(found["fold"], "partial");
    let (depth, length) = (found["fold_at_mm"].as_f64(), found["lay"]["cloth_mm"].as_f64());
    assert!(
        depth.is_some_and(|d| d > 50.0 && d < 750.0 && (d / 5.0).fract() == 0.0),
        "{depth:?}"
    );
    for by_hand in ["25cm", "30cm"] {
        let other = lay(by_hand)["lay"]["cloth_mm"].as_f64();
        assert!(
            length <= other.map(|o| o + 0.1),
            "{length:?} at {depth:?}, {other:?} at {by_hand}"
        );
    }
    let deep = slackwater(&["lay", suit, "--fold", "80cm", "--passes", "1"]);
    assert_eq!(deep.status.code(), Some(2));
    assert!(
        err(&deep).contains("depth of the fold is 800; give 1 to 736"),
        "{}",
        err(&deep)
    );
}
