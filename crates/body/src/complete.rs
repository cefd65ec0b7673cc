//! A complete body from what the tape found: every dimension the draft needs, each marked as taken or estimated.
//!
//! What was taken is used as given. What is missing is filled in two ways. Where the survey has the dimension, its
//! conditional normal distribution is asked: everything taken at a compatible waist level, and body mass, tells the
//! missing one, with the standard error that remains. For the rest, for children, and for lengths to a natural waist
//! (which the survey didn't take) there are the plain rules of [`crate::rules`]. Regressions on two or three
//! dimensions were tried first and dropped: the conditional distribution is one of them for every set of dimensions,
//! at once and with its error.
//!
//! **Shapes and units.** Millimetres; standard errors in millimetres.
//! **Source.** Survey: ANSUR II (2012), public data, `data/body/ansur2_stats.json`.
//! **Limits.** Trunk circumference is never estimated: its error (23 to 40 mm) is what it is wanted to uncover. An
//! estimate outside the believable range is held at its end, with a watch finding.

use units::{Finding, Mm};

use crate::dimension::{BodyForm, Dimension};
use crate::error::BodyError;
use crate::judge::{Judged, judge, watch};
use crate::measured::{Body, Known, Origin, WaistLevel, Wearer};
use crate::need::Need;
use crate::normal::Given;
use crate::population;
use crate::rules::{self, Estimate};

/// What is estimated, in an order in which each rule finds what it needs.
const ORDER: [Dimension; 20] = [
    Dimension::Stature,
    Dimension::NeckBaseGirth,
    Dimension::ThighGirth,
    Dimension::ShoulderLength,
    Dimension::ShoulderGirth,
    Dimension::UpperArmGirth,
    Dimension::AcrossBack,
    Dimension::UnderbustGirth,
    Dimension::HighHipGirth,
    Dimension::BackWaistLength,
    Dimension::FrontWaistLength,
    Dimension::SideNeckToBustPoint,
    Dimension::BustPointDistance,
    Dimension::SideLength,
    Dimension::WaistToHip,
    Dimension::RiseHeight,
    Dimension::CrotchLengthFront,
    Dimension::AcrossFront,
    Dimension::ArmLength,
    Dimension::WristGirth,
];

/// Lengths whose plain rule means the natural waist.
const TO_NATURAL_WAIST: [Dimension; 4] = [
    Dimension::BackWaistLength,
    Dimension::SideLength,
    Dimension::WaistToHip,
    Dimension::RiseHeight,
];

/// Makes a complete body of a wearer, with the findings on what was taken and what had to be estimated.
///
/// Taken dimensions pass through unchanged, also those nothing needs. After this, every dimension whose
/// [`Dimension::need`] is `Required`, `Asked` or `Estimable` is there, but for trunk circumference when it was not
/// taken. The order of findings is fixed: the taken ones by pair, then the estimated ones in the order they are
/// taken.
///
/// Codes: `body.cup_difference`, `body.bust_point`, `body.hip_waist`, `body.thigh_hip`, `body.crotch_rise`,
/// `body.crotch_front`, `body.rise_heights`, `body.age`, `body.estimated`, `body.estimate_held`, `body.child_navel`.
/// Tape slips are [`doubts`](crate::doubts), not looked for here.
///
/// # Errors
/// All faults at once: a dimension that is not a number, not positive, absurd or required and missing; an under-bust
/// not below the bust; a bust point within 80 mm of the waist; a hip under 0.7 of the waist; a front crotch length
/// that is no part of the total; an absurd age or mass.
///
/// # Example
/// ```
/// use body::{BodyForm, Dimension, Dimensions, FrontTaken, WaistLevel, Wearer, complete};
/// use units::Mm;
/// let mut taken = Dimensions::default();
/// for (dimension, cm) in [
///     (Dimension::BustGirth, 92.0),
///     (Dimension::WaistGirth, 76.0),
///     (Dimension::HipGirth, 100.0),
///     (Dimension::CrotchLength, 72.0),
///     (Dimension::Stature, 165.0),
/// ] {
///     taken.set(dimension, Mm::from_cm(cm));
/// }
/// let maren = Wearer {
///     name: "Maren".into(),
///     form: BodyForm::Woman,
///     age_years: None,
///     mass_kg: None,
///     waist_level: WaistLevel::Natural,
///     front_taken: FrontTaken::OverBustPoint,
///     trust: None,
///     taken,
/// };
/// let (body, findings) = complete(&maren).expect("all required dimensions are there");
/// assert_eq!(body.mm(Dimension::HipGirth), Some(1000.0));
/// assert!(!body.is_taken(Dimension::NeckBaseGirth));
/// assert!(findings.iter().any(|f| f.place == "back waist length"));
/// ```
pub fn complete(wearer: &Wearer) -> Result<(Body, Vec<Finding>), Vec<BodyError>> {
    let Judged { errors, mut findings } = judge(wearer);
    if !errors.is_empty() {
        return Err(errors);
    }
    let mut body = Body {
        form: wearer.form,
        age_years: wearer.age_years,
        waist_level: wearer.waist_level,
        front_taken: wearer.front_taken,
        trust: wearer.trust,
        values: [None; Dimension::ALL.len()],
        right: Dimension::SIDED.map(|d| wearer.taken.right(d)),
    };
    for (dimension, value) in wearer.taken.iter() {
        body.values[dimension as usize] = Some(Known {
            value,
            origin: Origin::Taken,
        });
    }
    let model = population::dimensions(wearer.form);
    let given = model.map(|m| m.given(&population::shared_with(m, wearer)));
    for dimension in ORDER {
        if body.get(dimension).is_some() || dimension.need(wearer.form) == Need::NotUsed {
            continue;
        }
        let by_survey = given.as_ref().and_then(|g| from_survey(dimension, &body, g));
        if let Some(estimate) = by_survey.or_else(|| by_rule(dimension, &body)) {
            body.values[dimension as usize] = Some(held(dimension, wearer.form, estimate, &mut findings));
        }
    }
    findings.extend(Dimension::ALL.into_iter().filter_map(|d| estimated(d, &body)));
    findings.extend(child_at_the_navel(&body));
    Ok((body, findings))
}

fn from_survey(dimension: Dimension, body: &Body, given: &Given<'_>) -> Option<Estimate> {
    let model = population::dimensions(body.form)?;
    let place = model.index(population::variable(dimension, body.waist_level)?)?;
    let told = given.expect(place)?;
    let ours = |mm: f64| population::from_survey(dimension, body.form, mm);
    Some(Estimate {
        mm: ours(told.mean),
        // Two heights that were taken give their difference exactly, but no number is surer than the tape.
        se: Some(ours(told.sd).max(dimension.tolerance().get())),
        rule: "survey: conditional on the dimensions taken",
    })
}

fn by_rule(dimension: Dimension, body: &Body) -> Option<Estimate> {
    use Dimension as D;
    let mm = |d: Dimension| body.mm(d);
    let form = body.form;
    Some(match dimension {
        D::UnderbustGirth => rules::underbust(mm(D::BustGirth)?),
        D::HighHipGirth => rules::high_hip(mm(D::WaistGirth)?, mm(D::HipGirth)?),
        D::BackWaistLength => rules::back_waist(mm(D::Stature)?),
        D::FrontWaistLength => {
            let cup = match form {
                BodyForm::Woman => Some(mm(D::BustGirth)? - mm(D::UnderbustGirth)?),
                BodyForm::Man | BodyForm::Child => None,
            };
            rules::front_waist(mm(D::BackWaistLength)?, mm(D::NeckBaseGirth)?, cup)
        }
        D::SideNeckToBustPoint => rules::side_neck_to_bust_point(mm(D::FrontWaistLength)?),
        D::BustPointDistance => rules::bust_point_distance(mm(D::BustGirth)?),
        D::SideLength => rules::side_length(mm(D::Stature)?),
        D::WaistToHip => rules::waist_to_hip(mm(D::Stature)?),
        D::RiseHeight => rules::rise_height(mm(D::CrotchLength)?),
        D::CrotchLengthFront => rules::crotch_length_front(form, mm(D::CrotchLength)?),
        D::AcrossFront => rules::across_front(mm(D::AcrossBack)?),
        D::ArmLength => rules::arm_length(form, mm(D::Stature)?),
        D::WristGirth => rules::wrist(form, mm(D::Stature)?, mm(D::UpperArmGirth)?),
        D::NeckBaseGirth if form == BodyForm::Child => {
            rules::child::neck_base(mm(D::BustGirth)?, mm(D::Stature)?)
        }
        D::ThighGirth if form == BodyForm::Child => rules::child::thigh(mm(D::HipGirth)?),
        D::ShoulderLength if form == BodyForm::Child => rules::child::shoulder_length(mm(D::Stature)?),
        D::ShoulderGirth if form == BodyForm::Child => rules::child::shoulder_girth(mm(D::BustGirth)?),
        D::UpperArmGirth if form == BodyForm::Child => rules::child::upper_arm(mm(D::BustGirth)?),
        D::AcrossBack if form == BodyForm::Child => rules::child::across_back(mm(D::BustGirth)?),
        _ => return None,
    })
}

/// The estimate as a dimension, held inside the believable range; a finding when that changed it.
fn held(dimension: Dimension, form: BodyForm, estimate: Estimate, findings: &mut Vec<Finding>) -> Known {
    let (least, most) = dimension.plausible_range(form);
    let value = estimate.mm.clamp(least.get(), most.get());
    if value != estimate.mm {
        findings.push(watch(
            "body.estimate_held",
            dimension.iso_name(form),
            format!(
                "the estimate {} by {} is not believable and was held at {}",
                Mm::new(estimate.mm).to_cm_text(),
                estimate.rule,
                Mm::new(value).to_cm_text()
            ),
            format!("take it: {}", dimension.how_to_take()),
        ));
    }
    Known {
        value: Mm::new(value),
        origin: Origin::Estimated {
            se: estimate.se.map(Mm::new),
            rule: estimate.rule,
        },
    }
}

/// The watch finding on a dimension that was asked for and had to be estimated.
fn estimated(dimension: Dimension, body: &Body) -> Option<Finding> {
    if dimension.need(body.form) != Need::Asked {
        return None;
    }
    let Known {
        value,
        origin: Origin::Estimated { se, rule },
    } = body.get(dimension)?
    else {
        return None;
    };
    let error = se.map_or(String::new(), |se| format!(" ± {}", se.to_cm_text()));
    Some(Finding {
        value: Some(value.get()),
        ..watch(
            "body.estimated",
            dimension.iso_name(body.form),
            format!("not taken; estimated at {}{error} by {rule}", value.to_cm_text()),
            format!("take it: {}", dimension.how_to_take()),
        )
    })
}

/// Rules for children mean the natural waist; at the navel they don't hold and no survey replaces them.
fn child_at_the_navel(body: &Body) -> Option<Finding> {
    let estimated: Vec<&str> = TO_NATURAL_WAIST
        .into_iter()
        .filter(|d| !body.is_taken(*d))
        .map(|d| d.iso_name(body.form))
        .collect();
    (body.form == BodyForm::Child && body.waist_level == WaistLevel::Navel && !estimated.is_empty()).then(
        || {
            watch(
                "body.child_navel",
                estimated.join(", "),
                "estimated for a natural waist, but the waist was taken at the navel".to_owned(),
                "take them, or take the waist again at its natural level",
            )
        },
    )
}
