//! Every key of the files that belong to the booklet is used by it: what nobody says is not kept, and not translated.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test reads its own sources"
)]

use std::collections::BTreeSet;
use std::path::Path;

fn sources(folder: &Path, into: &mut String) {
    let mut entries: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().path())
        .collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            sources(&path, into);
        } else if path.extension().is_some_and(|e| e == "rs") {
            into.push_str(&std::fs::read_to_string(path).unwrap());
        }
    }
}

#[test]
fn every_key_is_used() {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut text = String::new();
    sources(&here.join("src"), &mut text);
    let named: BTreeSet<&str> = text.split('"').skip(1).step_by(2).collect();
    let made_of = |key: &str, start: &str, end: &str| {
        let middle = key.strip_prefix(start).and_then(|k| k.strip_suffix(end));
        middle.is_some_and(|m| named.contains(m))
    };
    let mut unused = Vec::new();
    for file in ["booklet.ftl", "advice.ftl"] {
        let words = std::fs::read_to_string(here.join("../words/en").join(file)).unwrap();
        for line in words
            .lines()
            .filter(|l| l.starts_with(|c: char| c.is_ascii_lowercase()))
        {
            let key = line.split_once('=').unwrap().0.trim();
            // Chapters are named by their id, terms by their word, machines by the name a preset gives them.
            let is_used = named.contains(key)
                || made_of(key, "", "-title")
                || made_of(key, "", "-lead")
                || made_of(key, "term-", "")
                || made_of(key, "means-", "")
                || key.starts_with("workroom-");
            // The plural rules are tested with it, in `words`.
            if !is_used && key != "count-pages" {
                unused.push(key.to_owned());
            }
        }
    }
    assert!(unused.is_empty(), "{unused:?}");
}
