//! What of a body lies beyond the form: the leg down to the knee, the arm down to the wrist.
//!
//! The form ends at mid thigh and where the arms begin. A suit with legs or sleeves goes on, so these few girths and lengths are kept with
//! the form: taken ones as they are, the others as shares of what is known.
//!
//! **Shapes and units.** mm.
//! **Source.** Shares: means of `data/body/ansur2_*.csv` (knee 0.205 and 0.203 of stature below the crotch, standard deviation 0.010; lower
//! thigh 0.651 and 0.656 of the thigh, 0.03; elbow 0.573 and 0.565 of the arm, 0.012; women, men); held against the tables by a test. The
//! girth at the elbow is own: the survey has none.
//! **Limits.** No child is in the survey: the same shares are taken.

use serde::Serialize;

use crate::dimension::{BodyForm, Dimension};
use crate::measured::Body;

/// Height of the knee cap's middle below the crotch, share of stature.
const KNEE: f64 = 0.204;
/// Girth just above the knee over that of the thigh.
const LOWER_THIGH: f64 = 0.65;
/// Shoulder point to elbow over shoulder point to wrist.
const ELBOW: f64 = 0.57;
/// Girth at the elbow over that of the upper arm (own).
const ELBOW_GIRTH: f64 = 0.90;
/// Upper arm and wrist over the bust or chest, where neither is known (own).
const ARM_OVER_CHEST: (f64, f64) = (0.30, 0.175);

/// A length of a limb.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LimbMeasure {
    /// mm.
    pub mm: f64,
    /// Whether it was estimated, not taken.
    pub is_estimate: bool,
}

/// Leg and arm beyond the form.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Limbs {
    /// Height of the crotch over the knee.
    pub knee_below_crotch: LimbMeasure,
    /// Girth just above the knee.
    pub lower_thigh_girth: LimbMeasure,
    /// Girth of the relaxed upper arm.
    pub upper_arm_girth: LimbMeasure,
    /// Girth at the elbow.
    pub elbow_girth: LimbMeasure,
    /// Girth of the wrist.
    pub wrist_girth: LimbMeasure,
    /// Shoulder point to elbow.
    pub elbow_from_shoulder: LimbMeasure,
    /// Shoulder point to wrist.
    pub arm_length: LimbMeasure,
}

impl Limbs {
    /// The limbs of a body. `thigh_mm` is the form's own thigh, for a body without.
    pub(super) fn of(body: &Body, thigh_mm: f64) -> Limbs {
        let known = |dimension: Dimension, or_else: f64| LimbMeasure {
            mm: body.mm(dimension).unwrap_or(or_else),
            is_estimate: !body.is_taken(dimension),
        };
        let share = |of: LimbMeasure, share: f64| LimbMeasure {
            mm: of.mm * share,
            is_estimate: true,
        };
        // Bodies are completed before they have a form; the means are for one that was made otherwise.
        let mean = match body.form {
            BodyForm::Woman => (1629.0, 947.0),
            BodyForm::Man => (1756.0, 1059.0),
            BodyForm::Child => (1280.0, 640.0),
        };
        let stature = known(Dimension::Stature, mean.0);
        let chest = known(Dimension::BustGirth, mean.1);
        let upper_arm_girth = known(Dimension::UpperArmGirth, ARM_OVER_CHEST.0 * chest.mm);
        let arm_length = known(Dimension::ArmLength, 0.335 * stature.mm);
        Limbs {
            knee_below_crotch: share(stature, KNEE),
            lower_thigh_girth: share(known(Dimension::ThighGirth, thigh_mm), LOWER_THIGH),
            upper_arm_girth,
            elbow_girth: share(upper_arm_girth, ELBOW_GIRTH),
            wrist_girth: known(Dimension::WristGirth, ARM_OVER_CHEST.1 * chest.mm),
            elbow_from_shoulder: share(arm_length, ELBOW),
            arm_length,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey;

    /// Source: `data/body/ansur2_*.csv`. 0.01 covers both sexes' means.
    #[test]
    fn shares_are_the_survey_s() {
        for table in [
            include_str!("../../../../data/body/ansur2_female.csv"),
            include_str!("../../../../data/body/ansur2_male.csv"),
        ] {
            let mean = |columns: &[&str], share: &dyn Fn(&[f64]) -> f64| {
                let rows = survey::numbers(table, columns).unwrap();
                rows.iter().map(|(_, cells)| share(cells)).sum::<f64>() / rows.len() as f64
            };
            let knee = mean(&["crotchheight", "kneeheightmidpatella", "stature"], &|c| {
                (c[0] - c[1]) / c[2]
            });
            let lower = mean(&["lowerthighcircumference", "thighcircumference"], &|c| {
                c[0] / c[1]
            });
            let elbow = mean(&["acromionradialelength", "sleeveoutseam"], &|c| c[0] / c[1]);
            for (ours, theirs) in [(KNEE, knee), (LOWER_THIGH, lower), (ELBOW, elbow)] {
                assert!((ours - theirs).abs() < 0.01, "{ours}, the survey has {theirs}");
            }
        }
    }
}
