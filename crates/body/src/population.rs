//! What the survey knows about adult bodies, and which of a wearer's dimensions may be held against it.
//!
//! The survey took everything called waist at the *navel*. A wearer measured at the natural waist therefore shares
//! only the dimensions that don't touch the waist; feeding it her waist girth would make her look centimetres slimmer
//! than she is.
//!
//! **Shapes and units.** Millimetres; body mass in hectograms (0.1 kg), as the survey has it.
//! **Source.** ANSUR II (2012), public data: `data/body/ansur2_stats.json` (1986 women, 4082 men) for estimates,
//! `data/body/ansur2_log_model.json` (logarithms, from the four fifths of the people in `data/body/ansur2_*.csv`;
//! made by `examples/log_model.rs`) for the search for slips.
//! **Limits.** Soldiers of 17 to 58 years; very heavy, old and young bodies are thin on the ground. No children.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use serde::Deserialize;

use crate::dimension::{BodyForm, Dimension};
use crate::measured::{WaistLevel, Wearer};
use crate::normal::Normal;

const STATS: &str = include_str!("../../../data/body/ansur2_stats.json");
const LOG_MODEL: &str = include_str!("../../../data/body/ansur2_log_model.json");

/// The survey's name for body mass.
pub(crate) const MASS: &str = "weight_hectogram";

/// The fourteen dimensions of the search for slips: survey column, and label in the model.
pub const LOG_COLUMNS: [(&str, &str); 14] = [
    ("stature", "stature"),
    ("weight_hectogram", MASS),
    ("chestcircumference", "bust_girth"),
    ("waistcircumference", "waist_girth"),
    ("buttockcircumference", "hip_girth"),
    ("neckcircumferencebase", "neck_base_girth"),
    ("thighcircumference", "thigh_girth"),
    ("verticaltrunkcircumferenceusa", "vertical_trunk_girth"),
    ("crotchlengthomphalion", "crotch_length"),
    ("waistbacklength", "back_waist_length"),
    ("shoulderlength", "shoulder_length"),
    ("waistheightomphalion", "waist_height"),
    ("crotchheight", "crotch_height"),
    ("bicepscircumferenceflexed", "upper_arm_girth"),
];

/// Hectograms in a kilogram.
pub(crate) const HG_PER_KG: f64 = 10.0;

/// How much larger the flexed upper arm of the survey is than the relaxed one we take; women, men.
///
/// Value from memory of studies that took both (about 268 and 278 mm in young women, 303 and 328 mm in young men);
/// 2 per cent either way moves a sleeve by 6 mm.
pub(crate) const fn flexed_per_relaxed(form: BodyForm) -> f64 {
    match form {
        BodyForm::Man => 1.08,
        BodyForm::Woman | BodyForm::Child => 1.04,
    }
}

/// The survey's variable for a dimension, if one may be used for a waist at `level`.
pub(crate) const fn variable(dimension: Dimension, level: WaistLevel) -> Option<&'static str> {
    use Dimension as D;
    let (name, touches_waist) = match dimension {
        D::Stature => ("stature", false),
        D::BustGirth => ("bust_girth", false),
        D::HipGirth => ("hip_girth", false),
        D::NeckBaseGirth => ("neck_base_girth", false),
        D::ThighGirth => ("thigh_girth", false),
        D::ShoulderGirth => ("shoulder_girth", false),
        D::UpperArmGirth => ("upper_arm_girth", false),
        D::TrunkCircumference => ("vertical_trunk_girth", false),
        D::ShoulderLength => ("shoulder_length", false),
        D::AcrossBack => ("across_back_I", false),
        D::CrotchHeight => ("crotch_height", false),
        D::WaistGirth => ("waist_girth", true),
        D::CrotchLength => ("crotch_length", true),
        D::BackWaistLength => ("back_waist_length", true),
        D::SideLength => ("axilla_to_waist_height", true),
        D::WaistToHip => ("waist_to_hip_height", true),
        D::WaistHeight => ("waist_height", true),
        D::RiseHeight => (RISE, true),
        // crotch_length_front is total less back, taken in two stances: too noisy to use.
        D::CrotchLengthFront
        | D::UpperChestGirth
        | D::UnderbustGirth
        | D::HighHipGirth
        | D::ArmscyeGirth
        | D::WristGirth
        | D::FrontWaistLength
        | D::SideNeckToBustPoint
        | D::BustPointDistance
        | D::AcrossFront
        | D::ArmLength => return None,
    };
    match (touches_waist, level) {
        (true, WaistLevel::Natural) => None,
        _ => Some(name),
    }
}

/// Waist height less crotch height; the survey's tables don't have it, its covariances do.
const RISE: &str = "rise_height";

/// A length as the survey has it: only the upper arm differs.
pub(crate) fn to_survey(dimension: Dimension, form: BodyForm, mm: f64) -> f64 {
    match dimension {
        Dimension::UpperArmGirth => mm * flexed_per_relaxed(form),
        _ => mm,
    }
}

/// The reverse of [`to_survey`].
pub(crate) fn from_survey(dimension: Dimension, form: BodyForm, mm: f64) -> f64 {
    match dimension {
        Dimension::UpperArmGirth => mm / flexed_per_relaxed(form),
        _ => mm,
    }
}

/// The wearer's dimensions that `model` knows, and her mass, as (place in the model, value in the survey's units).
pub(crate) fn shared_with(model: &Normal, wearer: &Wearer) -> Vec<(usize, f64)> {
    let lengths = wearer.taken.iter().filter_map(|(d, mm)| {
        let place = model.index(variable(d, wearer.waist_level)?)?;
        Some((place, to_survey(d, wearer.form, mm.get())))
    });
    let mass = wearer
        .mass_kg
        .and_then(|kg| Some((model.index(MASS)?, kg * HG_PER_KG)));
    mass.into_iter().chain(lengths).collect()
}

/// The taken dimensions that estimates by the survey are conditional on, in the order they are taken; none for a child.
pub fn asked_of_survey(wearer: &Wearer) -> Vec<Dimension> {
    let Some(model) = dimensions(wearer.form) else {
        return Vec::new();
    };
    wearer
        .taken
        .iter()
        .map(|(dimension, _)| dimension)
        .filter(|d| variable(*d, wearer.waist_level).is_some_and(|name| model.index(name).is_some()))
        .collect()
}

/// Means and covariances of the survey's dimensions; `None` for a child.
pub(crate) fn dimensions(form: BodyForm) -> Option<&'static Normal> {
    static MODELS: OnceLock<Models> = OnceLock::new();
    MODELS
        .get_or_init(|| Models::read(STATS, Some((RISE, "waist_height", "crotch_height"))))
        .of(form)
}

/// The same of the logarithms of fourteen dimensions; `None` for a child.
pub(crate) fn logarithms(form: BodyForm) -> Option<&'static Normal> {
    static MODELS: OnceLock<Models> = OnceLock::new();
    MODELS.get_or_init(|| Models::read(LOG_MODEL, None)).of(form)
}

struct Models {
    woman: Option<Normal>,
    man: Option<Normal>,
}

#[derive(Deserialize)]
struct File {
    female: Moments,
    male: Moments,
}

#[derive(Deserialize)]
struct Moments {
    labels: Vec<String>,
    mean: BTreeMap<String, f64>,
    cov: Vec<Vec<f64>>,
}

impl Models {
    /// Reads an embedded table. A table that does not read is a fault of this crate, which the tests below would
    /// show; the models are then absent, so that an estimate is refused rather than invented.
    fn read(text: &str, difference: Option<(&str, &str, &str)>) -> Models {
        let file: Option<File> = serde_json::from_str(text).ok();
        debug_assert!(file.is_some(), "embedded survey table does not read");
        let normal = |m: Moments| {
            let mean: Option<Vec<f64>> = m.labels.iter().map(|l| m.mean.get(l).copied()).collect();
            let cov: Vec<f64> = m.cov.into_iter().flatten().collect();
            let plain = Normal::from_moments(m.labels, mean?, &cov).ok()?;
            match difference {
                Some((label, plus, minus)) => plain.with_difference(label, plus, minus),
                None => Some(plain),
            }
        };
        match file {
            Some(f) => Models {
                woman: normal(f.female),
                man: normal(f.male),
            },
            None => Models {
                woman: None,
                man: None,
            },
        }
    }

    fn of(&self, form: BodyForm) -> Option<&Normal> {
        match form {
            BodyForm::Woman => self.woman.as_ref(),
            BodyForm::Man => self.man.as_ref(),
            BodyForm::Child => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every variable name used for a dimension must exist in the survey's table.
    #[test]
    fn every_variable_is_in_the_survey() {
        for form in [BodyForm::Woman, BodyForm::Man] {
            let model = dimensions(form).unwrap();
            assert!(model.index(MASS).is_some());
            for d in Dimension::ALL {
                if let Some(name) = variable(d, WaistLevel::Navel) {
                    assert!(model.index(name).is_some(), "{name}");
                }
            }
            assert_eq!(logarithms(form).unwrap().labels().len(), 14);
        }
        assert!(dimensions(BodyForm::Child).is_none());
    }

    /// Rise as the difference of two heights: mean 980.15 - 782.32 (women's table).
    #[test]
    fn rise_is_waist_less_crotch_height() {
        let model = dimensions(BodyForm::Woman).unwrap();
        let rise = model.mean(model.index(RISE).unwrap()).unwrap();
        assert!((rise - 197.83).abs() < 1e-9);
    }

    #[test]
    fn nothing_at_the_natural_waist_reaches_the_survey() {
        use Dimension as D;
        for d in [
            D::WaistGirth,
            D::CrotchLength,
            D::BackWaistLength,
            D::SideLength,
            D::WaistToHip,
            D::WaistHeight,
            D::RiseHeight,
        ] {
            assert_eq!(variable(d, WaistLevel::Natural), None);
            assert!(variable(d, WaistLevel::Navel).is_some());
        }
    }
}
