//! Words and what they mean; where the rules come from.

use super::Desk;
use crate::model::{Block, Chapter};

const TERMS: [&str; 16] = [
    "allowance",
    "arc",
    "around",
    "edge",
    "grain",
    "growth",
    "lengthwise",
    "notch",
    "ratio",
    "recovery",
    "share-used",
    "sewn-ease",
    "stretch",
    "toile",
    "way-in",
    "worn-stretch",
];

/// The glossary, in the order of its language.
pub(super) fn glossary(desk: &Desk<'_>) -> Chapter {
    let mut terms: Vec<(String, String)> = TERMS
        .iter()
        .map(|t| (desk.word(&format!("term-{t}")), desk.word(&format!("means-{t}"))))
        .collect();
    terms.sort_by_key(|(word, _)| word.to_lowercase());
    desk.chapter("glossary", false, vec![Block::Terms { terms }])
}

/// What was used, and how far each can be trusted.
pub(super) fn sources(desk: &Desk<'_>) -> Chapter {
    let blocks = vec![desk.list(&[
        "source-body",
        "source-draft",
        "source-stretch",
        "source-pressure",
        "source-elastic",
        "source-stitches",
        "source-heat",
        "source-chlorine",
        "source-children",
        "source-practice",
    ])];
    desk.chapter("sources", false, blocks)
}
