//! When the tape lied: which of a wearer's dimensions the others contradict, by how much, and what slip would explain
//! it.
//!
//! Model: means and covariances of the logarithms of fourteen survey dimensions. With P the inverse covariance of
//! those that were taken, z_i = \[P (y - mean)\]_i / sqrt(P_ii) is how many spreads dimension i lies from what the
//! others say. A wrong dimension drags its neighbours along, so only the one with the greatest |z| is blamed; the
//! rest are tested again without it.
//!
//! **Shapes and units.** Millimetres (kilograms for mass) in and out.
//! **Source.** ANSUR II (2012), public data; textbook conditional normal. Detection rates are checked in
//! `tests/tape_slips.rs`.
//! **Limits.** A slip of 10 cm on bust or waist alone is caught in under half of women: a second reading does better
//! ([`second_reading`](crate::second_reading)). At the natural waist only the dimensions that don't touch the waist
//! are tested; children never are. Bodies much heavier or older than soldiers are flagged too often.

use units::{Finding, Limit, Mm};

use crate::dimension::{BodyForm, Dimension};
use crate::judge::watch;
use crate::measured::Wearer;
use crate::normal::Normal;
use crate::population;
use crate::slip::{Slip, likely};

/// How many spreads a dimension may lie from what the others say.
///
/// At 3.3, one or two honest dimensions in a thousand and one honest person in 40 to 60 are doubted; at 4, hardly
/// anyone, but a 10 cm slip on the trunk loop is then found in 39 instead of 68 of 100 women.
pub const SLIP_LIMIT: f64 = 3.3;

/// With fewer others than this, the test only says that a body is large or small, which is no slip.
const LEAST_OTHERS: usize = 2;

/// The expected range shown is this many spreads either way: 95 of 100 bodies.
const RANGE_SPREADS: f64 = 2.0;

/// Numbers outside this (millimetres, hectograms) are no slip but nonsense; they are left to
/// [`complete`](crate::complete), and would only blur the rest.
const READABLE: std::ops::RangeInclusive<f64> = 1.0..=10_000.0;

const MM_PER_CM: f64 = 10.0;

/// What was doubted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// A dimension, in millimetres.
    Dimension(Dimension),
    /// Body mass, in kilograms.
    BodyMass,
}

impl Measure {
    /// Its name on paper.
    pub const fn name(self, form: BodyForm) -> &'static str {
        match self {
            Measure::Dimension(d) => d.iso_name(form),
            Measure::BodyMass => "body mass",
        }
    }

    /// A value of it as a maker reads it: `94.0 cm`, `68.0 kg`.
    pub fn text(self, value: f64) -> String {
        match self {
            Measure::Dimension(_) => Mm::new(value).to_cm_text(),
            Measure::BodyMass => format!("{value:.1} kg"),
        }
    }
}

/// A taken dimension (or body mass) that the others contradict. Values in millimetres; kilograms for mass.
#[derive(Clone, Debug, PartialEq)]
pub struct Doubt {
    /// Whose body.
    pub form: BodyForm,
    /// What is doubted.
    pub measure: Measure,
    /// What was written.
    pub given: f64,
    /// What the others expect.
    pub expected: f64,
    /// Lower end of the range that holds 95 of 100 bodies with these other dimensions.
    pub low: f64,
    /// Upper end of that range.
    pub high: f64,
    /// Spreads between given and expected, on logarithms; positive when given is large.
    pub z: f64,
    /// What probably went wrong.
    pub slip: Slip,
    /// The number it would have been without the slip; `None` for [`Slip::WrongPlace`].
    pub without_slip: Option<f64>,
}

impl Doubt {
    /// The doubt as a watch finding, code `body.doubtful`.
    pub fn finding(&self) -> Finding {
        let text = |x: f64| self.measure.text(x);
        let how = match self.measure {
            Measure::Dimension(d) => d.how_to_take(),
            Measure::BodyMass => "weigh again",
        };
        Finding {
            value: Some(self.z),
            limit: Some(Limit {
                text: format!("{SLIP_LIMIT} spreads"),
                source: "own, from false alarms among the people of ANSUR II (2012)",
            }),
            ..watch(
                "body.doubtful",
                self.measure.name(self.form),
                format!(
                    "{} does not go with the other dimensions, which expect {} ({} to {}){}",
                    text(self.given),
                    text(self.expected),
                    text(self.low),
                    text(self.high),
                    self.slip_text()
                ),
                format!("take it again: {how}"),
            )
        }
    }

    fn slip_text(&self) -> String {
        let words = match self.slip {
            Slip::InchesAsCentimetres => "inches written as centimetres",
            Slip::CentimetresAsInches => "centimetres written as inches",
            Slip::PoundsAsKilograms => "pounds written as kilograms",
            Slip::KilogramsAsPounds => "kilograms written as pounds",
            Slip::DigitsSwapped => "two digits swapped",
            Slip::TensDigit => "the tens misread",
            Slip::WrongPlace => return "; perhaps the tape lay in the wrong place".to_owned(),
        };
        let right = self
            .without_slip
            .map_or(String::new(), |x| format!(", {}", self.measure.text(x)));
        format!("; perhaps {words}{right}")
    }
}

/// The taken dimensions that the others contradict, the worst first; each later one is judged without the earlier
/// ones.
///
/// Empty for children and when fewer than three dimensions can be compared. Deterministic; nothing of the wearer is
/// changed. Numbers no body could have (under 1 mm, over 10 m, not finite) are passed over:
/// [`complete`](crate::complete) refuses them.
pub fn doubts(wearer: &Wearer) -> Vec<Doubt> {
    let Some(model) = population::logarithms(wearer.form) else {
        return Vec::new();
    };
    let mut left: Vec<(usize, f64)> = population::shared_with(model, wearer)
        .into_iter()
        .filter(|(_, value)| READABLE.contains(value))
        .map(|(place, value)| (place, value.ln()))
        .collect();
    let mut found = Vec::new();
    while left.len() > LEAST_OTHERS {
        let given = model.given(&left);
        let Some(worst) = given
            .left_out()
            .into_iter()
            .max_by(|a, b| a.z.abs().total_cmp(&b.z.abs()))
        else {
            break;
        };
        if worst.z.abs() <= SLIP_LIMIT {
            break;
        }
        let Some((measure, written)) = measure(model, worst.variable, wearer) else {
            break;
        };
        let ours = |ln_survey: f64| from_survey(measure, wearer.form, ln_survey.exp());
        let (mean, sd) = (worst.expected.mean, worst.expected.sd);
        let z =
            |written: f64| (to_survey(measure, wearer.form, from_written(measure, written)).ln() - mean) / sd;
        let (slip, without_slip) = likely(to_written(measure, written), measure == Measure::BodyMass, z);
        found.push(Doubt {
            form: wearer.form,
            measure,
            given: written,
            expected: ours(mean),
            low: ours(mean - RANGE_SPREADS * sd),
            high: ours(mean + RANGE_SPREADS * sd),
            z: worst.z,
            slip,
            without_slip: without_slip.map(|w| from_written(measure, w)),
        });
        left.retain(|(place, _)| *place != worst.variable);
    }
    found
}

/// Which measure a place of the model is, and what the wearer has there.
fn measure(model: &Normal, place: usize, wearer: &Wearer) -> Option<(Measure, f64)> {
    let label = model.labels().get(place)?;
    if label == population::MASS {
        return Some((Measure::BodyMass, wearer.mass_kg?));
    }
    let dimension = Dimension::ALL
        .into_iter()
        .find(|d| population::variable(*d, wearer.waist_level) == Some(label.as_str()))?;
    Some((Measure::Dimension(dimension), wearer.taken.get(dimension)?.get()))
}

fn from_survey(measure: Measure, form: BodyForm, value: f64) -> f64 {
    match measure {
        Measure::Dimension(d) => population::from_survey(d, form, value),
        Measure::BodyMass => value / population::HG_PER_KG,
    }
}

fn to_survey(measure: Measure, form: BodyForm, value: f64) -> f64 {
    match measure {
        Measure::Dimension(d) => population::to_survey(d, form, value),
        Measure::BodyMass => value * population::HG_PER_KG,
    }
}

/// Millimetres to the centimetres (kilograms stay) in which digits are read.
fn to_written(measure: Measure, value: f64) -> f64 {
    match measure {
        Measure::Dimension(_) => value / MM_PER_CM,
        Measure::BodyMass => value,
    }
}

fn from_written(measure: Measure, written: f64) -> f64 {
    match measure {
        Measure::Dimension(_) => written * MM_PER_CM,
        Measure::BodyMass => written,
    }
}
