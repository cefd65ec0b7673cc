//! Every sentence in every language, with the same variables; and the cautions in the words of their table.
#![allow(
    clippy::disallowed_methods,
    reason = "the test compares the files as they lie in the folder"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use words::{Language, Words};

/// Key (and `key.part` of attributes) to the variables in it, of one language.
fn keys(language: Language) -> BTreeMap<String, BTreeSet<String>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(language.tag());
    let mut found = BTreeMap::new();
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .expect("a folder")
        .map(|f| f.expect("a file").path())
        .collect();
    files.sort();
    for file in files {
        let text = std::fs::read_to_string(&file).expect("text");
        let (mut key, mut attribute) = (String::new(), String::new());
        for line in text.lines().filter(|l| !l.starts_with('#')) {
            if let Some((left, right)) = line.split_once('=').filter(|(l, _)| is_key(l.trim())) {
                if line.starts_with(' ') {
                    attribute = left.trim().trim_start_matches('.').to_owned();
                } else {
                    key = left.trim().to_owned();
                    attribute.clear();
                }
                let full = full(&key, &attribute);
                let variables = variables(right);
                let is_new = found.insert(full.clone(), variables).is_none();
                assert!(is_new, "{}: {full} stands twice", file.display());
            } else if let Some(set) = found.get_mut(&full(&key, &attribute)) {
                set.extend(variables(line));
            }
        }
    }
    found
}

fn full(key: &str, attribute: &str) -> String {
    if attribute.is_empty() {
        key.to_owned()
    } else {
        format!("{key}.{attribute}")
    }
}

/// A message's key, or an attribute's with its dot.
fn is_key(text: &str) -> bool {
    let text = text.trim_start_matches('.');
    !text.is_empty()
        && text
            .chars()
            .all(|c| c.is_ascii_alphanumeric() || c == '-' || c == '_')
}

fn variables(text: &str) -> BTreeSet<String> {
    let after = text.split('$').skip(1);
    after
        .map(|rest| {
            rest.chars()
                .take_while(|c| c.is_ascii_alphanumeric() || *c == '_' || *c == '-')
                .collect()
        })
        .collect()
}

#[test]
fn every_language_says_everything_with_the_same_variables() {
    let first = keys(Language::ALL[0]);
    assert!(first.len() > 300, "{} keys read", first.len());
    for language in Language::ALL {
        let these = keys(language);
        let missing: Vec<_> = first.keys().filter(|k| !these.contains_key(*k)).collect();
        let more: Vec<_> = these.keys().filter(|k| !first.contains_key(*k)).collect();
        assert!(
            missing.is_empty() && more.is_empty(),
            "{}: lacks {missing:?}, has besides {more:?}",
            language.tag()
        );
        for (key, variables) in &first {
            assert_eq!(these.get(key), Some(variables), "{} {key}", language.tag());
        }
    }
}

/// The parser and this test must see the same: each key is found by the program, its text not empty.
#[test]
fn every_key_is_found() {
    for language in Language::ALL {
        let words = Words::new(language);
        for (key, variables) in keys(language) {
            let args: Vec<(&str, words::Value<'_>)> =
                variables.iter().map(|v| (v.as_str(), "x".into())).collect();
            let said = words
                .find(&key, &args)
                .unwrap_or_else(|| panic!("{} {key}", language.tag()));
            assert!(
                !said.trim().is_empty() && !said.contains("{$"),
                "{} {key}: {said}",
                language.tag()
            );
        }
    }
}

/// Source: `data/trade/cautions.csv`, column `say`.
#[test]
fn english_cautions_are_those_of_the_table() {
    let table = include_str!("../../../data/trade/cautions.csv");
    let words = Words::new(Language::English);
    let mut held = 0;
    for line in table.lines().skip(1) {
        let Some((id, rest)) = line.split_once(',') else {
            continue;
        };
        let Some(said) = words.find(&format!("caution-{}", id.replace('_', "-")), &[]) else {
            continue;
        };
        held += 1;
        assert!(rest.contains(&said), "{id}: {said}");
    }
    assert!(held >= 18, "{held} held against the table");
}

/// German is no copy: a sentence of more than four words that reads the same in both languages was forgotten.
#[test]
fn nothing_was_left_untranslated() {
    let (en, de) = (Words::new(Language::English), Words::new(Language::German));
    for (key, variables) in keys(Language::English) {
        let args: Vec<(&str, words::Value<'_>)> =
            variables.iter().map(|v| (v.as_str(), "x".into())).collect();
        let (a, b) = (en.find(&key, &args), de.find(&key, &args));
        let is_long = a.as_ref().is_some_and(|t| t.split_whitespace().count() > 4);
        assert!(!is_long || a != b, "{key}: {a:?}");
    }
}
