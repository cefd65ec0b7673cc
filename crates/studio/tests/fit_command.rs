//! `slackwater fit` as a maker or a script runs it: what is written, what is said, what is refused.

mod program;

use std::fs;
use std::path::{Path, PathBuf};

use program::{code, err, example, json, listing, out, slackwater};
use serde_json::Value;

/// What a suit on its form gives: numbers and three drawings, the same bytes each time.
#[test]
fn a_suit_is_put_on_its_form_twice_alike() {
    let folder = tempfile::tempdir().expect("a folder");
    let suit = example("maren-one-piece.toml");
    let put = |name: &str| {
        let to = folder.path().join(name);
        let args = [
            "fit",
            suit.to_str().unwrap(),
            "--mesh",
            "16mm",
            "-o",
            to.to_str().unwrap(),
        ];
        let output = slackwater(&args);
        assert_eq!(code(&output), 0, "{}{}", out(&output), err(&output));
        (to, out(&output))
    };
    let (first, text) = put("first");
    let (second, _) = put("second");
    for part in [
        "The form against the body\n",
        "Worn stretch and squeeze\n",
        "Edges\n",
        "Found\n",
        "Not judged\n",
    ] {
        assert!(text.contains(part), "{text}");
    }
    let names = listing(&first);
    assert_eq!(
        names,
        [
            ".slackwater",
            "fit-back-squeeze.svg",
            "fit-back-stretch.svg",
            "fit-back.svg",
            "fit-front-squeeze.svg",
            "fit-front-stretch.svg",
            "fit-front.svg",
            "fit-side-squeeze.svg",
            "fit-side-stretch.svg",
            "fit-side.svg",
            "fit.json"
        ]
    );
    for name in &names {
        let bytes = |folder: &Path| fs::read(folder.join(name)).expect("a file");
        assert_eq!(bytes(&first), bytes(&second), "{name}");
    }
    let report: Value =
        serde_json::from_slice(&fs::read(first.join("fit.json")).expect("a file")).expect("JSON");
    assert_eq!(report["convergence"]["solved"], true);
    assert!(report["convergence"]["residual_n"].as_f64().unwrap() < 1e-5);
    let levels = report["levels"].as_array().expect("levels");
    let waist = levels.iter().find(|l| l["level"] == "waist").expect("a waist");
    assert!(
        waist["closes"] == true && waist["around_percent"].as_f64().unwrap() > 3.0,
        "{waist}"
    );
    assert!(report["form"].as_array().expect("residuals").len() > 5);
    let found = report["found"].as_array().expect("findings");
    assert!(
        found.iter().all(|f| f["severity"] != "stop"),
        "no force was weighed: {found:?}"
    );
    let code_of = |f: &Value| f["code"].as_str().unwrap_or_default().to_owned();
    for code in [
        "way_in.waist",
        "way_in.leg",
        "worn.leg_line",
        "worn.seat",
        "worn.pressure",
    ] {
        assert!(
            found.iter().any(|f| code_of(f) == code),
            "{code}: one list has everything"
        );
    }
    let seams = report["seams"].as_array().expect("seams");
    assert!(
        seams
            .iter()
            .any(|s| s["seam"] == "side" && s["most_percent"].as_f64().unwrap() > 0.0)
    );
    let cautions = report["cautions"].as_array().expect("cautions");
    assert!(cautions.iter().any(|c| c["id"] == "pressure") && text.contains("Take the garment off at once"));
    let svg = fs::read_to_string(first.join("fit-front.svg")).expect("text");
    assert!(svg.contains("3 % holds") && svg.contains("Waist") && !svg.contains("NaN"));
    // A sheet takes the width of its column.
    let opening = svg.split('>').next().expect("an element");
    assert!(
        opening.contains("viewBox=") && !opening.contains(" width="),
        "{opening}"
    );
    let stretch = fs::read_to_string(first.join("fit-front-stretch.svg")).expect("text");
    for part in ["around, %", "lengthwise, %", "viridis", "paint-order=\"stroke\""] {
        assert!(stretch.contains(part) && !stretch.contains("NaN"), "{part}");
    }
}

#[test]
fn a_worn_suit_answers_what_she_does_in_it() {
    let suit = example("maren-one-piece.toml");
    let worn = |more: &[&str]| {
        let mut args = vec!["--json", "fit", suit.to_str().unwrap(), "--mesh", "18mm"];
        args.extend(more);
        let report = json(&slackwater(&args));
        assert_eq!(report["convergence"]["solved"], true, "{more:?}");
        let levels = report["levels"].as_array().expect("levels").clone();
        let at = |level: &str| {
            levels
                .iter()
                .find(|l| l["level"] == level)
                .cloned()
                .expect("a level")
        };
        let number = |value: &Value| value.as_f64().expect("a number");
        (
            number(&at("bust")["around_percent"]),
            number(&report["strap"]["stretch_percent"]),
        )
    };
    let standing = worn(&[]);
    let breathing = worn(&["--scene", "breathe", "--by", "40mm"]);
    let reaching = worn(&["--scene", "reach", "--by", "50mm"]);
    let settled = worn(&["--settled"]);
    assert!(breathing.0 > standing.0 + 2.0, "{breathing:?} {standing:?}");
    assert!(reaching.1 > standing.1 + 1.0, "{reaching:?} {standing:?}");
    assert!(settled.0 < standing.0 - 0.5, "{settled:?} {standing:?}");
}

/// A suit with sleeves for a body that is not alike left and right, of which no half can be put on.
fn uneven(folder: &Path) -> PathBuf {
    let text = fs::read_to_string(example("ines-sun-suit.toml")).expect("the example");
    let text = text.replacen("\n[shell]", "\n[wearer.right]\nside_length = 152\n\n[shell]", 1);
    let path = folder.join("uneven.toml");
    fs::write(&path, text).expect("a file");
    path
}

#[test]
fn what_cannot_be_put_on_says_why() {
    let folder = tempfile::tempdir().expect("a folder");
    let uneven = uneven(folder.path());
    let output = slackwater(&["fit", uneven.to_str().unwrap()]);
    assert_eq!(code(&output), 2);
    assert!(
        err(&output).contains("it can't be put on the form: the sleeve, left is not put on"),
        "{}",
        err(&output)
    );
    let suit = example("maren-one-piece.toml");
    for (args, says) in [
        (["--mesh", "1mm"], "give 3 to 25 mm"),
        (["--friction", "2"], "give 0 to 1"),
        (["--by", "30mm"], "standing changes no length of the body"),
    ] {
        let output = slackwater(&["fit", suit.to_str().unwrap(), args[0], args[1]]);
        assert_eq!(code(&output), 2, "{args:?}");
        assert!(err(&output).contains(says), "{}", err(&output));
    }
}

#[test]
fn a_correction_is_written_beside_and_never_over() {
    let folder = tempfile::tempdir().expect("a folder");
    let suit = folder.path().join("ines.toml");
    fs::copy(example("ines-one-piece.toml"), &suit).expect("a copy");
    let args = [
        "--json",
        "fit",
        suit.to_str().unwrap(),
        "--correct",
        "--mesh",
        "20mm",
        "--friction",
        "0",
    ];
    let output = slackwater(&args);
    assert_eq!(code(&output), 0, "{}", err(&output));
    let correction = json(&output)["correction"].clone();
    assert!(correction["gain"].as_f64().unwrap() > 0.1, "{correction}");
    let beside = folder.path().join("ines.corrected.toml");
    let text = fs::read_to_string(&beside).expect("the corrected suit");
    assert!(
        text.contains("fit_around = ") && text.contains("# Ines is 8"),
        "{text}"
    );
    // It is a suit like any other.
    assert_eq!(code(&slackwater(&["check", beside.to_str().unwrap()])), 0);
    let again = slackwater(&args);
    assert_eq!(code(&again), 2);
    assert!(
        out(&again).contains("is there already and is not overwritten"),
        "{}",
        out(&again)
    );
    assert_eq!(fs::read_to_string(&beside).expect("still there"), text);
}

#[test]
fn check_and_pack_solve_when_asked() {
    let folder = tempfile::tempdir().expect("a folder");
    let (suit, uneven) = (example("ines-one-piece.toml"), uneven(folder.path()));
    let checked = json(&slackwater(&[
        "--json",
        "check",
        "--solve",
        suit.to_str().unwrap(),
    ]));
    assert_eq!(checked["worn"]["solved"]["convergence"]["solved"], true);
    assert!(checked["findings"].is_array(), "the report stays what it was");
    let plain = json(&slackwater(&["--json", "check", suit.to_str().unwrap()]));
    assert!(plain.get("worn").is_none());
    let room = example("workrooms/harbour.toml");
    let with_room = ["--workroom", room.to_str().unwrap(), suit.to_str().unwrap()];
    let planned = |checked: &Value| {
        let words = checked["worn"]["solved"]["stitches_planned"].as_str();
        words.expect("a plan").to_owned()
    };
    let in_room = json(&slackwater(
        &[&["--json", "check", "--solve"][..], &with_room].concat(),
    ));
    assert_ne!(planned(&in_room), planned(&checked), "the club's own machines");
    let unasked = slackwater(&[&["check"][..], &with_room].concat());
    assert!(
        code(&unasked) == 2 && err(&unasked).contains("--solve"),
        "nothing is planned without: {}",
        err(&unasked)
    );
    let text = out(&slackwater(&["check", "--solve", uneven.to_str().unwrap()]));
    assert!(
        text.contains("Worn, solved\n  it can't be put on the form: the sleeve, left"),
        "{text}"
    );
    let folder = tempfile::tempdir().expect("a folder");
    let to = folder.path().join("paper");
    let args = [
        "--json",
        "pack",
        "--solve",
        "--paper",
        "a4",
        suit.to_str().unwrap(),
        "-o",
        to.to_str().unwrap(),
    ];
    let packed = json(&slackwater(&args));
    let written = packed["written"].as_array().expect("files");
    for name in ["fit.json", "fit-front.svg", "fit-back.svg", "fit-side.svg"] {
        assert!(
            written.iter().any(|w| w["file"] == name) && to.join(name).exists(),
            "{name}"
        );
    }
}

/// What a finding proposes is tried on: its number before and after, every level, what comes and what goes.
#[test]
fn a_proposal_is_tried_on() {
    let suit = example("maren-one-piece.toml");
    let args = [
        "--json",
        "fit",
        suit.to_str().unwrap(),
        "--try",
        "--mesh",
        "18mm",
        "--friction",
        "0",
    ];
    let output = slackwater(&args);
    assert_eq!(code(&output), 0, "{}", err(&output));
    let report = json(&output);
    let tried = report["tried"].as_array().expect("tries");
    assert!(!tried.is_empty() && tried.len() <= 3);
    for one in tried {
        let numbers = one["numbers"].as_array().expect("numbers");
        let own = numbers
            .iter()
            .find(|n| n["code"] == one["code"] && n["which"] == one["which"])
            .expect("the finding's own number");
        assert!(
            own["value"][0].is_number() && own["value"][1].is_number(),
            "{own}"
        );
        assert!(one["levels"].as_array().expect("levels").len() > 3);
        assert!(one["appears"].is_array() && one["goes"].is_array());
    }
    // A looser fit presses less.
    let of = |code: &str| tried.iter().find(|t| t["code"] == code);
    let pressure = of("worn.pressure").expect("a firm suit presses");
    let numbers = pressure["numbers"].as_array().unwrap();
    let kpa = numbers.iter().find(|n| n["code"] == "worn.pressure").unwrap();
    assert!(kpa["value"][1].as_f64() < kpa["value"][0].as_f64(), "{kpa}");
}

/// The plan is made from the solved stretches when they are there, and says so.
#[test]
fn the_making_plan_takes_the_solved_stretches() {
    let folder = tempfile::tempdir().expect("a folder");
    let suit = example("maren-one-piece.toml");
    let made = |more: &[&str]| {
        let to = folder
            .path()
            .join(if more.is_empty() { "quick" } else { "solved" });
        let mut args = vec![
            "booklet",
            suit.to_str().unwrap(),
            "--data",
            "-o",
            to.to_str().unwrap(),
        ];
        args.extend(more);
        let output = slackwater(&args);
        assert_eq!(code(&output), 0, "{}", err(&output));
        fs::read_to_string(to.join("booklet.json")).expect("a document")
    };
    let says = "from the solve on her form";
    let (quick, solved) = (made(&[]), made(&["--solve"]));
    assert!(!quick.contains(says) && solved.contains(says));
    let fit = json(&slackwater(&[
        "--json",
        "fit",
        suit.to_str().unwrap(),
        "--mesh",
        "18mm",
    ]));
    let planned = fit["stitches_planned"].as_str().unwrap();
    assert!(planned.starts_with("from the solved stretches"), "{planned}");
}
