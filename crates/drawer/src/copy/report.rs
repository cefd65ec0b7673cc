//! What is handed back of a copied suit: design, parameters with their errors, measures with their residuals, findings.

use cloth::{Fit, OwnFit};
use draft::{Design, Refusal, Seat};
use serde::Serialize;
use units::{Finding, Mm};

use super::conflict::{Check, Conflict, checks};
use super::ease::{EaseOnNewCloth, carry_over};
use super::measure::{FlatMeasure, TakenMeasure};
use super::model::{HeldParameter, SuitParameter, finished_measure};
use super::{CopyRequest, Recovered, words};
use crate::error::CopyError;
use crate::least_squares::Ending;

/// A parameter of the suit and how sure it is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct FoundParameter {
    /// Which.
    pub parameter: SuitParameter,
    /// Its value, in its unit.
    pub value: f64,
    /// Its standard error from the deviations of the measures; `None` at a bound.
    pub standard_error: Option<f64>,
    /// Whether it ended at the least or greatest value possible.
    pub is_at_bound: bool,
}

/// How a measure is met by the suit that was found.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct MeasureMet {
    /// Which.
    pub measure: FlatMeasure,
    /// What was measured.
    pub taken: Mm,
    /// How sure it is, one standard deviation.
    pub deviation: Mm,
    /// What the suit that was found has.
    pub drafted: Mm,
    /// Drafted less taken, in standard deviations of the measure.
    pub residual: f64,
    /// The same in what the residual itself varies by, never less. `None` when no other measure checks it, or it was left out.
    pub standardised: Option<f64>,
    /// The standardised residual over which the others contradict it.
    pub limit: Option<f64>,
    /// The smallest slip of this measure alone that the others would show; `None` when no other measure checks it.
    pub smallest_slip: Option<Mm>,
    /// Whether it was left out, being contradicted by the others.
    pub is_left_out: bool,
}

impl MeasureMet {
    /// Whether the others contradict it.
    pub fn is_contradicted(&self) -> bool {
        self.standardised
            .zip(self.limit)
            .is_some_and(|(standard, limit)| standard.abs() > limit)
    }

    /// Whether the other measures check this one: whether they show a slip of it before it reaches eight of its deviations
    /// (own). A measure that was left out was checked.
    pub fn is_checked(&self) -> bool {
        self.is_left_out
            || self
                .smallest_slip
                .is_some_and(|slip| slip <= self.deviation * CHECKED)
    }
}

/// Deviations a slip may reach before the others must show it.
const CHECKED: f64 = 8.0;

/// Whether the cover of the seat was seen on the suit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum SeatOnSuit {
    /// The design says it.
    #[default]
    Seen,
    /// It is to be judged from the measures.
    Judge,
}

/// The seat as the measures say.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SeatJudged {
    /// The seat that fits the measures best.
    pub seat: Seat,
    /// The next best, if another can be drafted.
    pub next: Option<Seat>,
    /// How much worse the next best meets the measures: difference of the sums of squared residuals.
    pub lead: Option<f64>,
}

impl SeatJudged {
    /// A lead over this tells two seats apart: two standard deviations (own).
    pub const CLEAR_LEAD: f64 = 4.0;

    /// From seats with their sums of squares, best first.
    pub(super) fn among(tried: &[(Seat, f64)]) -> Option<SeatJudged> {
        let &(seat, sum) = tried.first()?;
        let next = tried.get(1);
        Some(SeatJudged {
            seat,
            next: next.map(|n| n.0),
            lead: next.map(|n| n.1 - sum),
        })
    }

    /// Whether the measures tell it from the next best.
    pub fn is_clear(&self) -> bool {
        self.lead.is_none_or(|lead| lead > SeatJudged::CLEAR_LEAD)
    }
}

/// A favourite suit as a design for a new cloth.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FavouriteCopy {
    /// The design to draft in the new cloth.
    pub design: Design,
    /// What was found of the suit, in the old cloth.
    pub parameters: Vec<FoundParameter>,
    /// What could not be found and is as usual.
    pub held: Vec<HeldParameter>,
    /// How each measure is met, in the order of [`FlatMeasure::ALL`].
    pub measures: Vec<MeasureMet>,
    /// What the measures say against each other, if they do not agree.
    pub conflict: Option<Conflict>,
    /// The ease, carried over.
    pub ease: EaseOnNewCloth,
    /// The seat, if it was to be judged.
    pub seat: Option<SeatJudged>,
    /// All of it in words.
    pub findings: Vec<Finding>,
}

impl FavouriteCopy {
    /// A parameter that was found.
    pub fn parameter(&self, parameter: SuitParameter) -> Option<&FoundParameter> {
        self.parameters.iter().find(|p| p.parameter == parameter)
    }
}

pub(super) fn report(
    request: &CopyRequest<'_>,
    found: Recovered<'_>,
    seat: Option<SeatJudged>,
) -> Result<FavouriteCopy, Vec<CopyError>> {
    let Recovered {
        model,
        taken,
        with_all,
        conflict,
    } = found;
    let (conflict, without) = conflict.map_or((None, None), |s| (Some(s.conflict), s.without));
    let (kept, solution) = without.unwrap_or_else(|| (taken.clone(), with_all));

    let not_drafted = |refusal: Refusal| vec![CopyError::NotDrafted(refusal)];
    let suit = model.suit(&solution.values).map_err(not_drafted)?;
    let (around, lengthwise) = model.fit_shares(&solution.values);
    let fit = OwnFit::new(around, lengthwise).map_err(|_| {
        not_drafted(Refusal::Combination {
            parameter: "fit",
            why: "the shares of the stretch are outside what a suit can use",
        })
    })?;
    let ease = carry_over(fit, request.old, request.new);

    let covariance = solution.covariance();
    let parameters: Vec<FoundParameter> = model
        .found
        .iter()
        .enumerate()
        .filter_map(|(j, &parameter)| {
            let is_at_bound = *solution.is_at_bound.get(j)?;
            let variance = covariance.as_ref().and_then(|c| c.get(j)?.get(j).copied());
            Some(FoundParameter {
                parameter,
                value: *solution.values.get(j)?,
                standard_error: variance.filter(|_| !is_at_bound).map(f64::sqrt),
                is_at_bound,
            })
        })
        .collect();

    let checks: Vec<(FlatMeasure, Option<Check>)> = kept
        .iter()
        .map(|t| t.measure)
        .zip(checks(&kept, &solution))
        .collect();
    let met = |t: &TakenMeasure| -> Option<MeasureMet> {
        let drafted = finished_measure(&suit, t.measure)?;
        let kept = checks.iter().find(|c| c.0 == t.measure);
        let check = kept.and_then(|c| c.1);
        Some(MeasureMet {
            measure: t.measure,
            taken: t.length,
            deviation: Mm::new(t.sigma()),
            drafted: Mm::new(drafted),
            residual: (drafted - t.length.get()) / t.sigma(),
            standardised: check.map(|c| c.standard),
            limit: check.map(|c| c.limit()),
            smallest_slip: check.map(|c| Mm::new(c.smallest_slip())),
            is_left_out: kept.is_none(),
        })
    };
    let measures: Vec<MeasureMet> = taken.iter().filter_map(met).collect();

    let drafted_with = model
        .design(&solution.values)
        .unwrap_or_else(|| request.shapes.clone());
    let design = Design {
        fit: Fit::Own(fit),
        lining: request.shapes.lining,
        cups: request.shapes.cups,
        // A skirt that was seen but not measured stays as it was set.
        skirt: drafted_with.skirt.or(request.shapes.skirt),
        ..drafted_with
    };
    let mut copy = FavouriteCopy {
        design,
        parameters,
        held: model.held.clone(),
        measures,
        conflict,
        ease,
        seat,
        findings: Vec::new(),
    };
    copy.findings = words::findings(request, &copy, solution.ending == Ending::OutOfRounds);
    Ok(copy)
}
