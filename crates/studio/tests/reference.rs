//! `docs/suit-file.md` tells of every key and word the parser knows, and of none it does not.

use std::collections::BTreeSet;

use studio::suit_file::reference;

const DOC: &str = include_str!("../../../docs/suit-file.md");

/// The text under a heading, up to the next one.
fn part(heading: &str) -> &'static str {
    let start = ["## ", "### "].iter().find_map(|mark| {
        let line = format!("\n{mark}{heading}\n");
        DOC.find(&line).map(|at| at + line.len())
    });
    let start = start.unwrap_or_else(|| panic!("docs/suit-file.md has no heading {heading}"));
    let end = DOC[start..].find("\n#").map_or(DOC.len(), |at| start + at);
    &DOC[start..end]
}

#[test]
fn every_key_has_its_row_and_every_row_its_key() {
    for section in reference() {
        let rows: BTreeSet<&str> = part(section.heading)
            .lines()
            .filter_map(|l| l.strip_prefix("| `")?.split_once("` |").map(|(key, _)| key))
            .collect();
        let keys: BTreeSet<&str> = section.keys.iter().copied().collect();
        assert_eq!(rows, keys, "under {}", section.heading);
    }
}

#[test]
fn every_word_is_told() {
    for section in reference() {
        for word in section.words {
            assert!(
                part(section.heading).contains(&format!("\"{word}\"")),
                "{word} under {}",
                section.heading
            );
        }
    }
}
