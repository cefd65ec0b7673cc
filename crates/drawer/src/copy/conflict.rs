//! Which measure the others contradict.
//!
//! A wrong measure pulls the fit towards itself, so its own residual says too little: what counts is how much better the rest
//! agree without it. Every doubtful measure is left out in turn and the suit found again.
//!
//! **Shapes and units.** Residuals in standard deviations; lengths in mm.
//! **Source.** Deletion of one observation: common practice of regression (R. D. Cook, S. Weisberg, Residuals and Influence in
//! Regression, 1982, from memory). Limits own.
//! **Limits.** Two measures wrong at once can hide behind a third; then no single one brings agreement, which is said.

use serde::Serialize;
use units::Mm;

use super::measure::{FlatMeasure, TakenMeasure};
use super::model::{Model, finished_measure};
use super::solve;
use crate::least_squares::{Solution, Unknown};

/// A residual over this many of what it varies by itself is shown (own). That is less than the measure's own deviation, the fewer
/// other measures check it, so that a slip which pulls the fit along is still seen. Measured on 200 honest suits (example `recovery`): 6 % are doubted with ten measures, 18 %
/// with twelve.
pub(super) const SHOWN: f64 = 2.5;
/// From this standardised residual a measure is tried as the one to leave out,
const DOUBTFUL: f64 = 1.5;
/// if without it the sum of squares promises to come within this of the best: others have odds under 1 to 1000.
const PROMISE: f64 = 14.0;
/// A measure that decides more than this share of its own residual cannot be blamed by the others: what is left of it is less than
/// the draft's own roundness (own).
pub(super) const UNCHECKED: f64 = 0.985;

/// Suspects whose rest is within this of the first's cannot be told from it: odds under 7 to 1 (own).
const TIED: f64 = 4.0;

/// A measure that may be wrong.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Suspect {
    /// Which.
    pub measure: FlatMeasure,
    /// What was measured.
    pub taken: Mm,
    /// What the others say it should be.
    pub would_need: Mm,
    /// Sum of squared residuals of the others without it, in deviations; the least is the first suspect.
    pub rest: f64,
    /// Whether the others agree once it is left out.
    pub rest_agrees: bool,
}

impl Suspect {
    /// What would have to be added to what was measured.
    pub fn change(&self) -> Mm {
        self.would_need - self.taken
    }
}

/// The measures do not agree.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Conflict {
    /// Most likely wrong first.
    pub suspects: Vec<Suspect>,
    /// Residuals with all measures in, each in what it varies by: what started the search. In the order of the measures, but
    /// those no other checks.
    pub with_all: Vec<(FlatMeasure, f64)>,
    /// The measure left out of the design: the first suspect, if the others agree without it and no other is as likely.
    pub left_out: Option<FlatMeasure>,
}

impl Conflict {
    /// The suspects that are as likely wrong as the first, which is among them: one, if it can be told.
    pub fn as_likely(&self) -> impl Iterator<Item = &Suspect> {
        let best = self.suspects.first().map_or(f64::INFINITY, |s| s.rest);
        self.suspects.iter().filter(move |s| s.rest <= best + TIED)
    }
}

/// A conflict with the suit found without its first suspect.
pub(super) struct Search {
    pub(super) conflict: Conflict,
    /// Measures kept and the suit they give; `None` when leaving one out does not help.
    pub(super) without: Option<(Vec<TakenMeasure>, Solution)>,
}

/// Residuals over what they vary by themselves; `None` for a measure that no other checks.
pub(super) fn standardised(found: &Solution) -> Vec<Option<f64>> {
    match found.leverages() {
        None => vec![None; found.residuals.len()],
        Some(leverages) => found
            .residuals
            .iter()
            .zip(leverages)
            .map(|(r, h)| (h < UNCHECKED).then(|| r / (1.0 - h).sqrt()))
            .collect(),
    }
}

/// Whether the measures agree with each other.
pub(super) fn agrees(found: &Solution) -> bool {
    standardised(found).iter().flatten().all(|r| r.abs() <= SHOWN)
}

/// Looks for the measure to blame; `None` when all agree.
pub(super) fn search(
    model: &Model<'_>,
    taken: &[TakenMeasure],
    unknowns: &[Unknown],
    with_all: &Solution,
) -> Option<Search> {
    if agrees(with_all) {
        return None;
    }
    let mut tried: Vec<(Suspect, Vec<TakenMeasure>, Solution)> = Vec::new();
    let from = |solution: &Solution| -> Vec<Unknown> {
        unknowns
            .iter()
            .zip(&solution.values)
            .map(|(u, &start)| Unknown { start, ..*u })
            .collect()
    };
    let standards = standardised(with_all);
    // Leaving a measure out takes the square of its standardised residual off the sum, as far as the model is straight.
    let most = standards.iter().flatten().map(|r| r * r).fold(0.0, f64::max);
    for (suspect, standard) in taken.iter().zip(standards) {
        let Some(standard) = standard else { continue };
        if standard.abs() < DOUBTFUL || standard * standard < most - PROMISE {
            continue;
        }
        let rest: Vec<TakenMeasure> = taken
            .iter()
            .filter(|t| t.measure != suspect.measure)
            .copied()
            .collect();
        let Some(found) = solve(model, &rest, &from(with_all)) else {
            continue;
        };
        let Some(would_need) = model
            .suit(&found.values)
            .ok()
            .and_then(|suit| finished_measure(&suit, suspect.measure))
        else {
            continue;
        };
        tried.push((
            Suspect {
                measure: suspect.measure,
                taken: suspect.length,
                would_need: Mm::new(would_need),
                rest: found.sum_of_squares(),
                rest_agrees: agrees(&found),
            },
            rest,
            found,
        ));
    }
    tried.sort_by(|(a, ..), (b, ..)| a.rest.total_cmp(&b.rest).then(a.measure.cmp(&b.measure)));
    let mut conflict = Conflict {
        suspects: tried.iter().map(|(s, ..)| *s).collect(),
        with_all: taken
            .iter()
            .zip(standardised(with_all))
            .filter_map(|(t, r)| Some((t.measure, r?)))
            .collect(),
        left_out: None,
    };
    let is_told = conflict.as_likely().count() == 1;
    let without = tried
        .into_iter()
        .next()
        .filter(|(s, _, found)| is_told && s.rest_agrees && found.covariance().is_some());
    conflict.left_out = without.as_ref().map(|(s, ..)| s.measure);
    Some(Search {
        conflict,
        without: without.map(|(_, rest, found)| (rest, found)),
    })
}
