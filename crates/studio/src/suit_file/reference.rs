//! The keys and words of the format, section by section, as the parser knows them.
//!
//! For the reference in `docs/suit-file.md`: a test holds the two together, so that neither can grow alone.

use body::Dimension;
use make::ElasticKind;

use super::{design, elastic, suit, swatch, wearer};

/// A section of the format.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SectionReference {
    /// Its heading in the reference: `[wearer]`, or words for what stands in braces.
    pub heading: &'static str,
    /// Its keys.
    pub keys: Vec<&'static str>,
    /// Every word one of its keys takes.
    pub words: Vec<&'static str>,
}

fn words_of<T>(lists: &[(&'static str, T)]) -> Vec<&'static str> {
    lists.iter().map(|(word, _)| *word).collect()
}

/// Every section of the format.
pub fn reference() -> Vec<SectionReference> {
    let section = |heading, keys: &[&'static str], words: Vec<Vec<&'static str>>| SectionReference {
        heading,
        keys: keys.to_vec(),
        words: words.concat(),
    };
    let dimensions: Vec<&str> = Dimension::ALL.iter().map(|d| d.key()).collect();
    let kinds: Vec<&str> = ElasticKind::ALL.iter().map(|k| k.key()).collect();
    vec![
        section("Top of the file", &suit::KEYS, vec![words_of(&suit::UNITS)]),
        section(
            "`[wearer]`",
            &wearer::KEYS,
            vec![
                words_of(&wearer::FORMS),
                words_of(&wearer::WAIST_LEVELS),
                words_of(&wearer::FRONT_TAKEN),
                words_of(&wearer::TRUST),
            ],
        ),
        section("`[wearer.dimensions]`", &dimensions, Vec::new()),
        section("`[wearer.right]`", &wearer::right_keys(), Vec::new()),
        section(
            "`[shell]`, `[lining]`, `[mesh]`, `[contrast]`",
            &swatch::KEYS,
            vec![words_of(&swatch::DIRECTIONS), words_of(&swatch::LAYS)],
        ),
        section("A stretch test", &swatch::TEST_KEYS, Vec::new()),
        section("A load", &swatch::LOAD_KEYS, vec![vec!["hand"]]),
        section(
            "Force readings",
            &swatch::READING_KEYS,
            vec![words_of(&swatch::CLOTH_DIRECTIONS)],
        ),
        section("`[tested_together]`", &swatch::PAIR_KEYS, Vec::new()),
        section(
            "`[design]`",
            &design::KEYS,
            vec![
                words_of(&design::styles()),
                words_of(&design::FITS),
                words_of(&design::NECKLINES),
                words_of(&design::BACKS),
                words_of(&design::LEGS),
                words_of(&design::SEATS),
                words_of(&design::RISES),
                words_of(&design::BUST_SHAPINGS),
                words_of(&design::LININGS),
                words_of(&design::CUPS),
            ],
        ),
        section(
            "`[design.skirt]`",
            &design::SKIRT_KEYS,
            vec![words_of(&design::SKIRT_KINDS), words_of(&design::SKIRT_JOINS)],
        ),
        section(
            "`[design.closure]`",
            &design::CLOSURE_KEYS,
            vec![
                words_of(&design::CLOSURE_KINDS),
                words_of(&design::CLOSURE_PLACES),
            ],
        ),
        section("`[design.figure]`", &design::FIGURE_KEYS, Vec::new()),
        section("`[allowances]`", &design::ALLOWANCE_KEYS, Vec::new()),
        section(
            "`[elastic]`",
            &elastic::KEYS,
            vec![kinds, words_of(&elastic::LATEX)],
        ),
        section("`[printer]`", &suit::PRINTER_KEYS, vec![words_of(&suit::PAPERS)]),
    ]
}
