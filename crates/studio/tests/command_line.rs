//! The program as a maker or a script runs it: exit codes, what goes to which stream, what is on the disk afterwards.

mod program;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Stdio;

use program::{code, command, err, example, fed, json, listing, out, slackwater};
use serde_json::Value;

fn examples() -> Vec<PathBuf> {
    let folder = example("");
    let mut found: Vec<PathBuf> = fs::read_dir(folder)
        .expect("examples")
        .map(|e| e.expect("an entry").path())
        .filter(|p| p.extension().is_some_and(|e| e == "toml"))
        .collect();
    found.sort();
    assert!(found.len() >= 6, "{found:?}");
    found
}

#[cfg(feature = "typeset")]
const BOOKLETS: [&str; 2] = ["booklet-a4.pdf", "booklet-letter.pdf"];
#[cfg(not(feature = "typeset"))]
const BOOKLETS: [&str; 0] = [];

const PAPER: [&str; 12] = [
    "lay-lining.pdf",
    "lay-shell.pdf",
    "pattern-a0.pdf",
    "pattern-a4.pdf",
    "pattern-cutter.dxf",
    "pattern-exchange.dxf",
    "pattern-letter.pdf",
    "pattern-projector.pdf",
    "pattern-roll.pdf",
    "pattern.json",
    "pattern.svg",
    "report.json",
];

#[test]
fn every_example_checks_without_a_stop() {
    for path in examples() {
        let output = slackwater(&["check", path.to_str().unwrap()]);
        assert_eq!(
            code(&output),
            0,
            "{}: {}{}",
            path.display(),
            out(&output),
            err(&output)
        );
        let text = out(&output);
        for part in [
            "Cloth\n",
            "Stretch ladder\n",
            "Way in\n",
            "Elastic\n",
            "Findings\n",
            "Cautions\n",
        ] {
            assert!(text.contains(part), "{} lacks {part}: {text}", path.display());
        }
        assert!(!text.contains('\x1b'), "colour in a pipe: {text}");
        assert!(
            text.lines().all(|l| l.trim_end() == l),
            "spaces at a line end: {text}"
        );
    }
}

#[test]
fn the_report_has_the_names_it_promises() {
    let promised = include_str!("../../../docs/report.md");
    for path in examples() {
        let report = json(&slackwater(&["check", "--json", path.to_str().unwrap()]));
        let names = report.as_object().expect("an object");
        for name in names.keys() {
            assert!(
                promised.contains(&format!("`{name}`")),
                "docs/report.md does not tell of `{name}`"
            );
        }
        assert_eq!(report["format"], 1);
        assert!(
            report["ladder"].as_array().is_some_and(|l| l.len() >= 2),
            "{}",
            path.display()
        );
        assert!(report["version"].as_str().is_some_and(|v| v.len() == 8));
        // Every layer that something is cut from is laid, or says why not.
        let layers = |key: &str| {
            let list = report[key].as_array().expect("a list");
            let all: std::collections::BTreeSet<String> = list
                .iter()
                .map(|l| l["layer"].as_str().unwrap_or_default().to_owned())
                .collect();
            all
        };
        let mut told = layers("lays");
        told.extend(layers("not_laid"));
        assert_eq!(told, layers("cut_list"), "{}", path.display());
    }
}

#[test]
fn a_stop_finding_gives_exit_code_1_and_is_said() {
    // A racer back over a high neckline in a firm cloth: nobody gets into it.
    let text = fs::read_to_string(example("maren-one-piece.toml")).unwrap();
    let text = text.replace("neck_depth = 0.45", "neck_depth = 0.05").replace(
        "around = { rest = 10, pulled = 15.6",
        "around = { rest = 10, pulled = 12.5",
    );
    let output = fed(&["check", "-"], &text);
    assert_eq!(code(&output), 1, "{}{}", out(&output), err(&output));
    assert!(out(&output).contains("stop"), "{}", out(&output));
    let report = json(&fed(&["check", "-", "--json"], &text));
    assert_eq!(report["worst"], "stop");
}

#[test]
fn bad_input_gives_exit_code_2_and_faults_in_place() {
    let output = fed(
        &["check", "-"],
        "format = 1\nname = \"x\"\n[wearer]\nform = \"womna\"\n",
    );
    assert_eq!(code(&output), 2);
    assert_eq!(out(&output), "");
    let text = err(&output);
    assert!(
        text.contains("-:4:8: wearer.form does not know \"womna\""),
        "{text}"
    );
    assert!(text.contains("help: did you mean \"woman\"?"), "{text}");
    assert!(text.contains("-: shell is missing"), "{text}");
}

#[test]
fn faults_as_json_go_to_standard_output_with_stable_names() {
    let output = fed(
        &["check", "-", "--json"],
        "format = 1\nname = \"x\"\n[wearer]\nform = \"womna\"\n",
    );
    assert_eq!(code(&output), 2);
    let faults = json(&output);
    let fault = faults["faults"]
        .as_array()
        .unwrap()
        .iter()
        .find(|f| f["field"] == "wearer.form")
        .unwrap();
    assert_eq!(fault["kind"], "not_allowed");
    assert_eq!(
        (
            fault["line"].as_u64(),
            fault["column"].as_u64(),
            fault["length"].as_u64()
        ),
        (Some(4), Some(8), Some(7))
    );
    assert_eq!(fault["allowed"][0], "\"woman\"");
    let missing = json(&slackwater(&["check", "--json", "no-such-file.toml"]));
    assert_eq!(missing["faults"][0]["kind"], "file");
    assert_eq!(missing["faults"][0]["message"], "there is no such file");
}

#[test]
fn a_file_that_cannot_be_read_is_said() {
    let folder = tempfile::tempdir().unwrap();
    let output = slackwater(&["check", folder.path().to_str().unwrap()]);
    assert_eq!(code(&output), 2);
    assert!(
        err(&output).contains("this is a folder, not a file"),
        "{}",
        err(&output)
    );
}

#[test]
fn new_writes_a_file_that_checks_and_never_overwrites_one() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("mine.toml");
    let path = file.to_str().unwrap();
    assert_eq!(code(&slackwater(&["new", path])), 0);
    let first = fs::read_to_string(&file).unwrap();
    let check = slackwater(&["check", path]);
    assert_eq!(code(&check), 2);
    assert!(err(&check).contains("bust girth is missing"), "{}", err(&check));

    let again = slackwater(&["new", path, "--form", "man"]);
    assert_eq!(code(&again), 2);
    assert!(
        err(&again).contains("the file is there already"),
        "{}",
        err(&again)
    );
    assert_eq!(fs::read_to_string(&file).unwrap(), first);

    assert_eq!(code(&slackwater(&["new", path, "--form", "man", "--force"])), 0);
    assert!(fs::read_to_string(&file).unwrap().contains("form = \"man\""));
    assert_eq!(listing(folder.path()), ["mine.toml"]);
}

#[test]
fn new_asks_in_either_unit_and_asks_again_what_it_did_not_understand() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("asked.toml");
    let path = file.to_str().unwrap();
    // Suit, wearer, form (once wrong), unit, age, then stature, bust (a furlong, then too small, then inches), ...
    let answers = "Winter suit\nMaren\nlady\nwoman\ncm\n\n\
                   165\n90 furlong\n9.2\n36 1/4in\n78\n76 cm\n\n1000 mm\n";
    let rest = "\n".repeat(5) + "154.5\n72\n" + &"\n".repeat(40);
    let output = fed(&["new", path, "--ask"], &(answers.to_owned() + &rest));
    assert_eq!(code(&output), 0, "{}", err(&output));
    let said = err(&output);
    assert!(said.contains("write woman, man or child"), "{said}");
    assert!(said.contains("`furlong` is not a unit of length here"), "{said}");
    assert!(said.contains("9.2 cm is outside 60 cm to 200 cm"), "{said}");
    assert!(said.contains("round the fullest part of the bust"), "{said}");
    let text = fs::read_to_string(&file).unwrap();
    assert!(text.contains("\nbust_girth = 92.075\n"), "{text}");
    assert!(text.contains("\nhip_girth = 100\n"), "{text}");
    assert!(text.contains("\n# high_hip_girth = \n"), "{text}");
}

#[test]
fn answers_that_end_early_write_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("asked.toml");
    let output = fed(&["new", file.to_str().unwrap(), "--ask"], "Winter suit\nMaren\n");
    assert_eq!(code(&output), 2);
    assert!(
        err(&output).contains("the answers ended before"),
        "{}",
        err(&output)
    );
    assert!(listing(folder.path()).is_empty());
}

#[test]
fn pack_writes_all_paper_and_the_same_bytes_again() {
    let folder = tempfile::tempdir().unwrap();
    let (one, two) = (folder.path().join("one"), folder.path().join("two"));
    for path in [&one, &two] {
        let output = slackwater(&[
            "pack",
            example("tove-brief.toml").to_str().unwrap(),
            "-o",
            path.to_str().unwrap(),
        ]);
        assert_eq!(code(&output), 0, "{}{}", out(&output), err(&output));
    }
    // This suit's printer takes Letter only.
    let all = BOOKLETS.into_iter().chain(PAPER);
    let mut expected: Vec<&str> = all.filter(|n| !n.ends_with("-a4.pdf")).collect();
    expected.insert(0, ".slackwater");
    assert_eq!(listing(&one), expected);
    for name in listing(&one) {
        let (a, b) = (
            fs::read(one.join(&name)).unwrap(),
            fs::read(two.join(&name)).unwrap(),
        );
        assert!(!a.is_empty() && a == b, "{name} differs between two runs");
    }
    assert_eq!(listing(folder.path()), ["one", "two"]);
}

#[test]
fn a_booklet_as_pages_for_a_class_in_german() {
    let folder = tempfile::tempdir().unwrap();
    for path in examples() {
        let target = folder.path().join("pages");
        let output = slackwater(&[
            "booklet",
            path.to_str().unwrap(),
            "-o",
            target.to_str().unwrap(),
            "--html",
            "--language",
            "de",
            "--edition",
            "class",
        ]);
        assert_eq!(code(&output), 0, "{}", err(&output));
        let page = fs::read_to_string(target.join("index.html")).unwrap();
        assert!(page.contains("<html lang=\"de\">") && page.contains("Arbeitsfolge"));
        for unsaid in ["\u{2039}", "{$", "Maren", "Odile", "Tove", "Ines"] {
            assert!(!page.contains(unsaid), "{}: {unsaid}", path.display());
        }
    }
}

#[test]
fn pack_says_what_it_wrote_as_json() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("paper");
    let suit = example("ines-one-piece.toml");
    let output = slackwater(&[
        "pack",
        suit.to_str().unwrap(),
        "-o",
        path.to_str().unwrap(),
        "--json",
    ]);
    assert_eq!(code(&output), 0, "{}", err(&output));
    let said = json(&output);
    let mut names: Vec<&str> = said["written"]
        .as_array()
        .unwrap()
        .iter()
        .map(|w| w["file"].as_str().unwrap())
        .collect();
    names.sort_unstable();
    let all: Vec<&str> = BOOKLETS.into_iter().chain(PAPER).collect();
    assert_eq!(names, all);
    let report: Value = serde_json::from_slice(&fs::read(path.join("report.json")).unwrap()).unwrap();
    assert_eq!(report["version"], said["version"]);
}

#[test]
fn pack_replaces_its_own_files_but_never_the_makers() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("paper");
    let pack = |suit: &str, extra: &[&str]| {
        let suit = example(suit);
        let mut args = vec!["pack", suit.to_str().unwrap(), "-o", path.to_str().unwrap()];
        args.extend(extra);
        slackwater(&args)
    };
    assert_eq!(code(&pack("ines-one-piece.toml", &[])), 0);
    fs::write(path.join("my notes.txt"), "hers").unwrap();
    let before = fs::read(path.join("pattern-a4.pdf")).unwrap();

    // Another suit, A4 only: replaced, and the Letter tiles of the old one are gone.
    assert_eq!(code(&pack("maren-one-piece.toml", &[])), 0);
    assert_ne!(fs::read(path.join("pattern-a4.pdf")).unwrap(), before);
    assert!(!path.join("pattern-letter.pdf").exists());
    assert_eq!(fs::read_to_string(path.join("my notes.txt")).unwrap(), "hers");

    // She drew on one of ours: nothing is touched.
    fs::write(path.join("pattern-a4.pdf"), "her pencil").unwrap();
    let names = listing(&path);
    let output = pack("ines-one-piece.toml", &[]);
    assert_eq!(code(&output), 2);
    assert!(
        err(&output).contains("pattern-a4.pdf: it was changed since slackwater wrote it"),
        "{}",
        err(&output)
    );
    assert_eq!(listing(&path), names);
    assert_eq!(
        fs::read_to_string(path.join("pattern-a4.pdf")).unwrap(),
        "her pencil"
    );
    assert_eq!(listing(folder.path()), ["paper"]);
}

#[test]
fn pack_refuses_a_folder_of_somebody_elses_files() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("pattern.svg"), "<svg/>").unwrap();
    let suit = example("ines-one-piece.toml");
    let output = slackwater(&[
        "pack",
        suit.to_str().unwrap(),
        "-o",
        folder.path().to_str().unwrap(),
    ]);
    assert_eq!(code(&output), 2);
    assert!(
        err(&output).contains("pattern.svg: it is there already and is not ours"),
        "{}",
        err(&output)
    );
    assert_eq!(listing(folder.path()), ["pattern.svg"]);
}

#[test]
fn unwritable_places_are_said_and_nothing_is_left() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("a-file");
    fs::write(&file, "x").unwrap();
    let suit = example("ines-one-piece.toml");
    let inside = file.join("paper");
    for (target, said) in [
        (file.as_path(), "it is a file, not a folder"),
        (inside.as_path(), "a part of the path is a file, not a folder"),
    ] {
        let output = slackwater(&["pack", suit.to_str().unwrap(), "-o", target.to_str().unwrap()]);
        assert_eq!(code(&output), 2, "{}", target.display());
        assert!(
            err(&output).contains(said),
            "{}: {}",
            target.display(),
            err(&output)
        );
        assert!(err(&output).contains("nothing was written"), "{}", err(&output));
        assert_eq!(listing(folder.path()), ["a-file"]);
    }
}

#[test]
fn folders_above_the_one_asked_for_are_made() {
    let folder = tempfile::tempdir().unwrap();
    let suit = example("ines-one-piece.toml");
    let target = folder.path().join("not/there/yet");
    let output = slackwater(&["pack", suit.to_str().unwrap(), "-o", target.to_str().unwrap()]);
    assert_eq!(code(&output), 0, "{}", err(&output));
    assert!(target.join("pattern-a4.pdf").is_file());
    assert_eq!(listing(&folder.path().join("not/there")), ["yet"]);
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_said() {
    let suit = example("tove-brief.toml");
    let output = slackwater(&["draft", suit.to_str().unwrap(), "-o", "/dev/full"]);
    assert_eq!(code(&output), 2);
    assert!(
        err(&output).contains("/dev/full: could not write it: the disk is full"),
        "{}",
        err(&output)
    );
    // Standard output on a full disk.
    let full = fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let status = command()
        .args(["check", suit.to_str().unwrap()])
        .stdout(full)
        .stderr(Stdio::piped())
        .output()
        .unwrap();
    assert_eq!(code(&status), 2);
    assert!(
        err(&status).contains("could not write the output"),
        "{}",
        err(&status)
    );
}

#[test]
fn draft_writes_data_or_a_drawing() {
    let suit = example("tove-brief.toml");
    let path = suit.to_str().unwrap();
    let data = json(&slackwater(&["draft", path]));
    assert!(data.is_object());
    let drawing = out(&slackwater(&["draft", path, "--format", "svg"]));
    assert!(drawing.contains("<svg"), "{}", &drawing[..drawing.len().min(200)]);
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("brief.svg");
    let target = file.to_str().unwrap();
    assert_eq!(
        code(&slackwater(&["draft", path, "--format", "svg", "-o", target])),
        0
    );
    assert_eq!(fs::read_to_string(&file).unwrap(), drawing);
    let again = slackwater(&["draft", path, "--format", "svg", "-o", target]);
    assert_eq!(code(&again), 2, "an existing file is kept");
}

/// Public survey in `data/body`; the whole of it is drafted by the survey command, a part of it here.
#[test]
fn survey_counts_every_body_of_a_table() {
    let table = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../data/body/ansur2_female.csv");
    let table = table.to_str().unwrap();
    let args = [
        "survey",
        table,
        "--form",
        "woman",
        "--limit",
        "60",
        "--stretch",
        "60/42",
        "--json",
    ];
    let counts = json(&slackwater(&args));
    assert_eq!(counts["bodies"], 60);
    let number = |v: &Value| v.as_u64().unwrap();
    let sum = |name: &str| -> u64 {
        counts[name]
            .as_object()
            .unwrap()
            .values()
            .map(|c| number(&c["bodies"]))
            .sum()
    };
    assert_eq!(number(&counts["drafted"]) + sum("refused") + sum("invalid"), 60);
    assert_eq!(sum("invalid"), 0);
    assert_eq!(counts["crashed"], Value::Null);
    let worst = &counts["worst"];
    assert_eq!(
        number(&worst["good"]) + number(&worst["watch"]) + number(&worst["stop"]),
        number(&counts["drafted"])
    );
    assert!(counts["findings"].get("body.crotch_rise").is_none());
    let text = out(&slackwater(&[
        "survey", table, "--form", "woman", "--limit", "5", "--style", "brief",
    ]));
    assert!(text.contains("5 bodies (woman), brief"), "{text}");
}

/// Sizes: data/sizes/sizes_children.csv, 14 of them with waist and hip girths.
#[test]
fn survey_takes_the_sizes_of_a_table() {
    let counts = slackwater(&[
        "survey",
        "--sizes",
        "children",
        "--style",
        "brief,sun-suit",
        "--json",
    ]);
    assert!(counts.status.success(), "{counts:?}");
    let counts: serde_json::Value = serde_json::from_slice(&counts.stdout).unwrap();
    for of_style in counts.as_array().unwrap() {
        assert_eq!(of_style["form"], "child");
        assert_eq!(of_style["bodies"], 14);
        assert_eq!(of_style["drafted"], 14);
    }
    let other = slackwater(&["survey", "--sizes", "children", "--form", "man"]);
    assert!(!other.status.success());
    assert!(String::from_utf8_lossy(&other.stderr).contains("another form"));
}

#[test]
fn survey_tables_of_another_kind_are_refused_at_their_line() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("table.csv");
    fs::write(&file, "age,stature\n30,1650\n").unwrap();
    let output = slackwater(&["survey", file.to_str().unwrap(), "--form", "woman"]);
    assert_eq!(code(&output), 2);
    assert!(err(&output).contains("table.csv:1:1: column"), "{}", err(&output));
    let without_form = slackwater(&["survey", file.to_str().unwrap()]);
    assert_eq!(code(&without_form), 2);
    assert!(err(&without_form).contains("--form"), "{}", err(&without_form));
}

#[test]
fn dimensions_are_listed_with_how_to_take_them() {
    let woman = out(&slackwater(&["dimensions"]));
    assert!(
        woman.contains("underbust_girth") && woman.contains("how: "),
        "{woman}"
    );
    let man = json(&slackwater(&["dimensions", "--form", "man", "--json"]));
    let keys: Vec<&str> = man["dimensions"]
        .as_array()
        .unwrap()
        .iter()
        .map(|d| d["key"].as_str().unwrap())
        .collect();
    assert!(
        keys.contains(&"hip_girth") && !keys.contains(&"underbust_girth"),
        "{keys:?}"
    );
}

#[test]
fn the_version_id_follows_the_suit_not_its_spelling() {
    let text = fs::read_to_string(example("maren-one-piece.toml")).unwrap();
    let version = |text: &str| {
        json(&fed(&["check", "-", "--json"], text))["version"]
            .as_str()
            .unwrap()
            .to_owned()
    };
    let plain = version(&text);
    assert_eq!(version(&format!("# a remark\n{text}")), plain);
    assert_eq!(
        version(&text.replace("hip_girth = 99\n", "hip_girth = \"990 mm\"\n")),
        plain
    );
    assert_eq!(version(&text.replace("price = 19.5", "price = 21")), plain);
    assert_ne!(
        version(&text.replace("hip_girth = 99\n", "hip_girth = 99.1\n")),
        plain
    );
}

#[test]
fn asking_for_help_is_no_fault() {
    for args in [&["--help"][..], &["--version"], &["pack", "--help"]] {
        let output = slackwater(args);
        assert_eq!(code(&output), 0, "{args:?}");
        assert!(!out(&output).is_empty());
    }
    assert_eq!(code(&slackwater(&["pcak"])), 2);
}

#[test]
fn a_workroom_file_chooses_the_stitches_and_prices_the_list() {
    let suit = example("maren-one-piece.toml");
    let suit = suit.to_str().expect("UTF-8");
    let room = example("workrooms/harbour.toml");
    let room = room.to_str().expect("UTF-8");
    let bare = json(&slackwater(&["--json", "shop", suit]));
    assert_eq!(
        (&bare["is_assumed"], &bare["quote"]),
        (&Value::Bool(true), &Value::Null)
    );
    let priced = json(&slackwater(&["--json", "shop", suit, "--workroom", room]));
    assert_eq!(priced["is_assumed"], false);
    assert!(
        priced["quote"]["total"][0].as_f64().expect("a number") > 50.0,
        "{priced}"
    );
    let places = |told: &Value| {
        let threads = told["shopping"]["threads"].as_array().expect("a list").clone();
        threads.iter().any(|t| t["place"] == "looper")
    };
    assert!(!places(&bare) && places(&priced), "an overlocker has loopers");

    let folder = tempfile::tempdir().expect("a folder");
    let to = folder.path().join("shop");
    let to = to.to_str().expect("UTF-8");
    let told = slackwater(&["shop", suit, "--workroom", room, "-o", to]);
    assert_eq!(code(&told), 0, "{}", err(&told));
    assert!(
        out(&told).contains("EUR") && out(&told).contains("all together"),
        "{}",
        out(&told)
    );
    assert_eq!(
        listing(Path::new(to)),
        [".slackwater", "quote.pdf", "shopping-list.pdf"]
    );

    // A fault is told at its line, and nothing is written.
    let spoilt = fs::read_to_string(room)
        .expect("a file")
        .replace("count = 4", "count = -4")
        .replace("\"overlocker\"", "\"overloker\"");
    let file = folder.path().join("spoilt.toml");
    fs::write(&file, spoilt).expect("written");
    let told = slackwater(&[
        "booklet",
        suit,
        "--data",
        "-o",
        "nowhere",
        "--workroom",
        file.to_str().expect("UTF-8"),
    ]);
    assert_eq!(code(&told), 2);
    let said = err(&told);
    assert!(
        said.contains("machines[2].kind does not know \"overloker\"")
            && said.contains("did you mean \"overlocker\"?"),
        "{said}"
    );
    assert!(said.contains("needles[1].count is -4"), "{said}");
    assert!(!Path::new("nowhere").exists());
}
