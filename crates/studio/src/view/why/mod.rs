//! "Why?": the formula, its inputs and its source behind every computed number of the pages.
//!
//! A key's first part says what kind of number it is, the rest which: `dimension.waist_girth`, `stretch.shell.across`. Each
//! section answers for its own kinds and passes on the others.

mod cloth;
mod sew;
mod shape;
mod wear;
mod wearer;

use serde::Serialize;
use ts_rs::TS;
use utoipa::ToSchema;

use crate::document::Worked;

/// The answer to "why?".
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct Why {
    /// `Why 15 % at the hip?`
    pub question: String,
    /// One sentence.
    pub answer: String,
    /// The sum: `99.0 / 85.9 - 1 = 15.3 %`; empty where there is none.
    pub sum: String,
    /// What went in.
    pub inputs: Vec<WhyInput>,
    /// Where the rule comes from.
    pub source: String,
}

/// One input.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct WhyInput {
    /// Name.
    pub name: String,
    /// Value with its unit.
    pub value: String,
}

/// The answer to "why?" for a key that a quantity or note of these papers carries; `None` for any other.
pub fn why(worked: &Worked, key: &str) -> Option<Why> {
    let (kind, which) = key.split_once('.').unwrap_or((key, ""));
    wearer::answer(worked, kind, which)
        .or_else(|| cloth::answer(worked, kind, which))
        .or_else(|| shape::answer(worked, kind, which))
        .or_else(|| wear::answer(worked, kind, which))
        .or_else(|| sew::answer(worked, kind, which))
}

/// Where a rule comes from that everybody in the trade uses and nobody published.
const PRACTICE: &str = "common practice, no single source";

impl Why {
    /// An answer without a sum or inputs.
    pub(in crate::view) fn of(
        question: impl Into<String>,
        answer: impl Into<String>,
        source: impl Into<String>,
    ) -> Why {
        Why {
            question: question.into(),
            answer: answer.into(),
            sum: String::new(),
            inputs: Vec::new(),
            source: source.into(),
        }
    }

    /// The same with its sum.
    pub(in crate::view) fn sum(mut self, sum: impl Into<String>) -> Why {
        self.sum = sum.into();
        self
    }

    /// The same with one more input.
    pub(in crate::view) fn input(mut self, name: impl Into<String>, value: impl Into<String>) -> Why {
        self.inputs.push(WhyInput {
            name: name.into(),
            value: value.into(),
        });
        self
    }
}

/// "own" in words.
fn source_words(source: &str) -> String {
    match source {
        "own" => "our own rule, from reasoning and trials".to_owned(),
        other => other.to_owned(),
    }
}
