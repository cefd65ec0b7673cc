//! A finding: what was judged, where, by which number and limit, and what to do about it.
//!
//! A finding is not an error. A tight, short or slack place is a value with a severity; paper is still made unless the
//! draft itself is refused.

use serde::Serialize;

/// How a finding is to be taken. Ordered: `Good < Watch < Stop`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// Within its limits.
    Good,
    /// Look at it before cutting.
    Watch,
    /// Don't cut this.
    Stop,
}

impl Severity {
    /// The word shown to the maker.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Good => "good",
            Severity::Watch => "watch",
            Severity::Stop => "stop",
        }
    }
}

/// The limit a number was held against, with where it comes from.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Limit {
    /// The limit as it is shown, with its unit: `0.85`, `1.3 kPa`.
    pub text: String,
    /// Published source, "common practice, no single source", or "own".
    pub source: &'static str,
}

/// One judged place of a suit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Finding {
    /// A stable dotted name for counting and tests: `way_in.neckline`.
    pub code: &'static str,
    /// Good, watch or stop.
    pub severity: Severity,
    /// Where, in the maker's words: `neckline and back opening`.
    pub place: String,
    /// What was found, one short sentence.
    pub message: String,
    /// The number it rests on, in the unit of the limit.
    pub value: Option<f64>,
    /// The limit it was held against.
    pub limit: Option<Limit>,
    /// What to do next; empty when good.
    pub remedy: String,
}

/// The worst severity of the findings; `Good` when there are none.
pub fn worst(findings: &[Finding]) -> Severity {
    findings
        .iter()
        .map(|f| f.severity)
        .max()
        .unwrap_or(Severity::Good)
}
