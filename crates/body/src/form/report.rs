//! What a fit was asked for and what came of it, measure by measure.
//!
//! **Shapes and units.** mm.
//! **Source.** Spreads of estimates without a standard error: own reasoning.

use serde::Serialize;

use super::measure::FormMeasure;
use super::solve::FormTarget;
use crate::dimension::Dimension;
use crate::measured::{Body, Known, Origin, WaistLevel};

/// Spread of an estimated girth whose rule has no standard error.
const GUESSED_GIRTH_MM: f64 = 30.0;
/// Spread of an estimated length whose rule has no standard error: shares of stature miss a long body by two or three
/// centimetres.
const GUESSED_LENGTH_MM: f64 = 25.0;

/// One dimension the form was fitted to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct MeasureFit {
    /// The dimension of the body.
    pub dimension: Dimension,
    /// What it is on the form.
    pub measure: FormMeasure,
    /// Whether it was taken; estimated otherwise.
    pub taken: bool,
    /// The body's value.
    pub asked_mm: f64,
    /// How far off counted as one.
    pub spread_mm: f64,
    /// The form's value after the fit.
    pub fitted_mm: f64,
    /// The form's value after the girths were closed.
    pub closed_mm: f64,
}

impl MeasureFit {
    /// How much the fitted form is larger than asked, before the girths were closed.
    pub fn residual_mm(&self) -> f64 {
        self.fitted_mm - self.asked_mm
    }

    /// How much the drawn form is larger than asked.
    pub fn residual_closed_mm(&self) -> f64 {
        self.closed_mm - self.asked_mm
    }

    /// By how much closing a girth changed the radius; 0 for lengths.
    pub fn radius_change_mm(&self) -> f64 {
        if self.measure.is_girth() {
            -self.residual_mm() / std::f64::consts::TAU
        } else {
            0.0
        }
    }
}

/// The dimensions of a body the form is fitted to, in the order they are taken.
pub(crate) fn targets(body: &Body) -> Vec<(Dimension, bool, FormTarget)> {
    Dimension::ALL
        .into_iter()
        .filter_map(|dimension| {
            let Known { value, origin } = body.get(dimension)?;
            let measure = FormMeasure::of(dimension, body.waist_level, body.front_taken)?;
            let (taken, spread) = match origin {
                Origin::Taken => (true, measure.spread()),
                Origin::Estimated { se, .. } => {
                    if !estimate_tells(dimension, body.waist_level) {
                        return None;
                    }
                    let guessed = if measure.is_girth() {
                        GUESSED_GIRTH_MM
                    } else {
                        GUESSED_LENGTH_MM
                    };
                    let error = se.map_or(guessed, units::Mm::get);
                    let own = measure.spread();
                    (false, (own * own + error * error).sqrt())
                }
            };
            let target = FormTarget {
                measure,
                value: value.get(),
                spread,
            };
            Some((dimension, taken, target))
        })
        .collect()
}

/// Whether an estimate says more than the form's own shape does.
///
/// Lengths over the bust are estimated from others by plain shares; the form knows them better. The high hip's rule
/// means the natural waist.
const fn estimate_tells(dimension: Dimension, waist: WaistLevel) -> bool {
    use Dimension as D;
    match dimension {
        D::FrontWaistLength | D::SideNeckToBustPoint | D::BustPointDistance => false,
        D::HighHipGirth => matches!(waist, WaistLevel::Natural),
        _ => true,
    }
}
