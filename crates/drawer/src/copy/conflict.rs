//! Which measure the others contradict.
//!
//! A wrong measure pulls the fit towards itself, so its own residual says too little: what counts is how much better the rest
//! agree without it. Every doubtful measure is left out in turn and the suit found again.
//!
//! How much better is not all either. Left out, a measure that few others check takes much of the sum of squares with it whether
//! it is wrong or not, and a ring walked round a soft edge is misread more often than a width. So measures are compared by the odds that one
//! of them, alone, is off by an unknown amount: with a gain g of the sum of squares, h the share a measure decides itself, sigma its
//! deviation and tau that of a slip, f = 1 + (1 - h) (tau / sigma)^2,
//!
//! ln odds = g (1 - 1 / f) / 2 - ln f / 2 + 3 ln(usual deviation / 3 mm).
//!
//! The first two terms are the likelihood of the residual with a slip over that without; the last, how often such a measure is
//! misread.
//!
//! **Shapes and units.** Residuals in standard deviations; lengths in mm; odds as natural logarithms.
//! **Source.** Deletion of one observation: common practice of regression (R. D. Cook, S. Weisberg, Residuals and Influence in
//! Regression, 1982, from memory). One observation of greater variance: G. E. P. Box, G. C. Tiao, A Bayesian approach to some outlier problems,
//! Biometrika 55 (1968) 119 (from memory). Limits, the slip and how often it happens: own.
//! **Limits.** Two measures wrong at once can hide behind a third; then no single one brings agreement, which is said.

use draft::Draft;
use serde::Serialize;
use units::Mm;

use super::measure::{FlatMeasure, TakenMeasure};
use super::model::{Model, finished_measure};
use super::solve;
use crate::least_squares::{Solution, Unknown};

/// A slip is so large, one standard deviation, mm (own): an inch, a thumb, the tape laid a hand too high. Half or twice of it
/// moves the limit of a measure by less than a tenth.
const SLIP_MM: f64 = 30.0;
/// Deviation of the measures whose slips count once, mm.
const SURE_MM: f64 = 3.0;
/// How the odds of a slip grow with a measure's deviation: one twice as unsure is misread eight times as often (own). With all
/// measured, slips of a long soft ring are so found about as often as those of a short width; with a lower power rings are missed,
/// with a higher one they are blamed for the faults of others.
const MISREAD_POWER: f64 = 3.0;
/// Odds, as a logarithm, from which a measure is doubted: 45 to 1 (own). Of 2000 honest suits with all measured 4.7 % are (example
/// `recovery`). 0.2 less finds
/// three more slips of the neckline in a hundred, and doubts one more honest suit.
const DOUBTED: f64 = 3.8;
/// From this standardised residual a measure is tried as the one to leave out,
const DOUBTFUL: f64 = 1.5;
/// if its odds promise to come within this of the best: 1 to 1000.
const PROMISE: f64 = 7.0;
/// A measure that decides more than this share of its own residual cannot be blamed by the others: what is left of it is less than
/// the draft's own roundness (own).
const UNCHECKED: f64 = 0.985;

/// Suspects whose odds are within this of the first's cannot be told from it: under 7 to 1 (own).
const TIED: f64 = 2.0;

/// A measure tells two suits apart if theirs differ by more than this many of its deviations (own).
const TELLS: f64 = 3.0;

/// How the other measures check one.
#[derive(Clone, Copy, Debug)]
pub(super) struct Check {
    /// Its residual over what it varies by itself.
    pub(super) standard: f64,
    /// Share of it the others decide, 1 - h.
    share: f64,
    sigma: f64,
    usual: f64,
}

impl Check {
    /// `None` for a measure that no other checks.
    fn of(taken: &TakenMeasure, residual: f64, leverage: f64) -> Option<Check> {
        (leverage < UNCHECKED).then(|| Check {
            standard: residual / (1.0 - leverage).sqrt(),
            share: 1.0 - leverage,
            sigma: taken.sigma(),
            usual: taken.measure.usual_deviation().get(),
        })
    }

    /// Variance of its residual with a slip, over that without.
    fn inflation(&self) -> f64 {
        1.0 + self.share * (SLIP_MM / self.sigma).powi(2)
    }

    /// How much more often than a sure measure such a one is misread, as a logarithm.
    fn misread(&self) -> f64 {
        MISREAD_POWER * (self.usual / SURE_MM).ln()
    }

    /// Odds that it alone is wrong, when leaving it out takes `gain` off the sum of squares.
    fn odds(&self, gain: f64) -> f64 {
        let f = self.inflation();
        0.5 * (gain * (1.0 - 1.0 / f) - f.ln()) + self.misread()
    }

    /// The same, as far as the model is straight.
    fn straight_odds(&self) -> f64 {
        self.odds(self.standard * self.standard)
    }

    /// The standardised residual from which it is doubted.
    pub(super) fn limit(&self) -> f64 {
        let f = self.inflation();
        (2.0 * (DOUBTED - self.misread()) + f.ln()).max(0.0).sqrt() / (1.0 - 1.0 / f).sqrt()
    }

    /// A slip d moves the standardised residual by d sqrt(1 - h) / sigma: the least that is doubted, mm.
    pub(super) fn smallest_slip(&self) -> f64 {
        self.limit() * self.sigma / self.share.sqrt()
    }
}

/// A measure that may be wrong.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Suspect {
    /// Which.
    pub measure: FlatMeasure,
    /// What was measured.
    pub taken: Mm,
    /// What the others say it should be.
    pub would_need: Mm,
    /// Natural logarithm of the odds that it alone is wrong; the greatest is the first suspect.
    pub odds: f64,
    /// The standardised residual, with all measures in, from which such a measure is doubted.
    pub limit: f64,
    /// Sum of squared residuals of the others without it, in deviations.
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
    /// When more than one is as likely: a measure not taken yet that would tell them apart.
    pub would_tell: Option<FlatMeasure>,
}

impl Conflict {
    /// The suspects that are as likely wrong as the first, which is among them: one, if it can be told.
    pub fn as_likely(&self) -> impl Iterator<Item = &Suspect> {
        let best = self.suspects.first().map_or(f64::NEG_INFINITY, |s| s.odds);
        self.suspects.iter().filter(move |s| s.odds >= best - TIED)
    }
}

/// A conflict with the suit found without its first suspect.
pub(super) struct Search {
    pub(super) conflict: Conflict,
    /// Measures kept and the suit they give; `None` when leaving one out does not help.
    pub(super) without: Option<(Vec<TakenMeasure>, Solution)>,
}

/// How each measure is checked by the others, in their order; `None` for one that none checks.
pub(super) fn checks(taken: &[TakenMeasure], found: &Solution) -> Vec<Option<Check>> {
    match found.leverages() {
        None => vec![None; taken.len()],
        Some(leverages) => taken
            .iter()
            .zip(found.residuals.iter().zip(leverages))
            .map(|(t, (&residual, leverage))| Check::of(t, residual, leverage))
            .collect(),
    }
}

/// Whether the measures agree with each other.
pub(super) fn agrees(taken: &[TakenMeasure], found: &Solution) -> bool {
    checks(taken, found)
        .iter()
        .flatten()
        .all(|c| c.standard.abs() <= c.limit())
}

/// Looks for the measure to blame; `None` when all agree.
pub(super) fn search(
    model: &Model<'_>,
    taken: &[TakenMeasure],
    unknowns: &[Unknown],
    with_all: &Solution,
) -> Option<Search> {
    if agrees(taken, with_all) {
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
    let checks = checks(taken, with_all);
    // Leaving a measure out takes the square of its standardised residual off the sum, as far as the model is straight.
    let most = checks
        .iter()
        .flatten()
        .map(Check::straight_odds)
        .fold(f64::NEG_INFINITY, f64::max);
    for (suspect, check) in taken.iter().zip(&checks) {
        let Some(check) = check else { continue };
        if check.standard.abs() < DOUBTFUL || check.straight_odds() < most - PROMISE {
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
                odds: check.odds(with_all.sum_of_squares() - found.sum_of_squares()),
                limit: check.limit(),
                rest: found.sum_of_squares(),
                rest_agrees: agrees(&rest, &found),
            },
            rest,
            found,
        ));
    }
    tried.sort_by(|(a, ..), (b, ..)| b.odds.total_cmp(&a.odds).then(a.measure.cmp(&b.measure)));
    let mut conflict = Conflict {
        suspects: tried.iter().map(|(s, ..)| *s).collect(),
        with_all: taken
            .iter()
            .zip(checks)
            .filter_map(|(t, c)| Some((t.measure, c?.standard)))
            .collect(),
        left_out: None,
        would_tell: None,
    };
    let likely = conflict.as_likely().count();
    let is_told = likely == 1;
    if !is_told {
        let found: Vec<&Solution> = tried.iter().take(likely).map(|(.., found)| found).collect();
        conflict.would_tell = telling(model, taken, &found);
    }
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

/// The measure not taken that the first of these suits, each found without another suspect, and the others differ in most.
///
fn telling(model: &Model<'_>, taken: &[TakenMeasure], found: &[&Solution]) -> Option<FlatMeasure> {
    let suits: Vec<Draft> = found.iter().filter_map(|f| model.suit(&f.values).ok()).collect();
    let (first, others) = suits.split_first()?;
    let apart = |measure: FlatMeasure| {
        let here = finished_measure(first, measure)?;
        let each = others
            .iter()
            .filter_map(|other| finished_measure(other, measure))
            .map(|there| (here - there).abs() / measure.usual_deviation().get());
        Some((measure, each.fold(f64::INFINITY, f64::min)))
    };
    FlatMeasure::ALL
        .into_iter()
        .filter(|m| taken.iter().all(|t| t.measure != *m))
        .filter_map(apart)
        .filter(|(_, apart)| apart.is_finite() && *apart > TELLS)
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(measure, _)| measure)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(measure: FlatMeasure, deviation: Option<f64>, residual: f64, leverage: f64) -> Check {
        let taken = TakenMeasure {
            deviation: deviation.map(Mm::new),
            ..TakenMeasure::new(measure, Mm::new(400.0))
        };
        Check::of(&taken, residual, leverage).unwrap()
    }

    /// ln of the density of a normal deviate at `x`.
    fn log_density(x: f64, variance: f64) -> f64 {
        -0.5 * (x * x / variance + (std::f64::consts::TAU * variance).ln())
    }

    /// Source: the ratio of two normal densities of the raw residual, mm: of variance (1 - h) sigma^2, and, with a slip that reaches it by 1 - h,
    /// of (1 - h) sigma^2 + (1 - h)^2 tau^2.
    #[test]
    fn odds_are_a_ratio_of_two_densities() {
        for (sigma, leverage, residual) in [(3.0, 0.4, 2.2), (6.0, 0.33, 3.1), (5.0, 0.9, 0.4)] {
            let check = check(FlatMeasure::AcrossBust, Some(sigma), residual, leverage);
            let share = 1.0 - leverage;
            let (honest, slipped) = (share * sigma * sigma, share * share * SLIP_MM * SLIP_MM);
            let mm = residual * sigma;
            let expected = log_density(mm, honest + slipped) - log_density(mm, honest);
            // A width is misread once: nothing is added.
            assert!((check.straight_odds() - expected).abs() < 1e-12, "{check:?}");
        }
    }

    #[test]
    fn at_its_limit_a_measure_has_the_odds_of_doubt() {
        for measure in FlatMeasure::ALL {
            for leverage in [0.05, 0.5, 0.95] {
                let check = check(measure, None, 1.0, leverage);
                let limit = check.limit();
                assert!((check.odds(limit * limit) - DOUBTED).abs() < 1e-9, "{measure:?}");
                assert!((2.0..8.0).contains(&limit), "{measure:?} {leverage}: {limit}");
            }
        }
    }

    /// A maker who says she measured badly is not told so for a small residual.
    #[test]
    fn a_deviation_that_is_given_does_not_raise_the_odds() {
        let usual = check(FlatMeasure::Neckline, None, 2.0, 0.3);
        let unsure = check(FlatMeasure::Neckline, Some(40.0), 2.0, 0.3);
        assert!(unsure.limit() > usual.limit());
    }

    #[test]
    fn what_no_other_checks_has_no_odds() {
        let taken = TakenMeasure::new(FlatMeasure::StrapWidth, Mm::new(40.0));
        assert!(Check::of(&taken, 0.01, 0.99).is_none());
    }
}
