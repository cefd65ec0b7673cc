//! A wearer's dimensions held against believable ranges and against each other.
//!
//! A length that cannot be, or two that exclude each other, is an error and no body is made. A pair that is merely unusual is
//! a watch finding: bodies are unusual more often than tables think.
//!
//! **Source.** Limits are own unless the finding says otherwise; the front share of the crotch length is the survey's mean
//! and 3.3 of its spreads either way.
//! **Limits.** Only taken dimensions are judged here, never estimates.

use units::{Finding, Limit, Mm, Severity};

use crate::dimension::{BodyForm, Dimension};
use crate::error::BodyError;
use crate::measured::{Dimensions, FrontTaken, WaistLevel, Wearer};
use crate::need::Need;

const OLDEST_YEARS: f64 = 120.0;
/// From this age a child's form no longer fits, by the form's own range.
const CHILD_TO_YEARS: f64 = 15.0;
const OWN: &str = "own";

/// Bust point and waist must lie this far apart along the front, or the draft has no room between them.
const LEAST_BELOW_BUST_POINT_MM: f64 = 80.0;
/// Below this share of the waist a hip is a slip of the tape: the survey's least is 0.82 (4855 people, navel waist).
const LEAST_HIP_SHARE: f64 = 0.70;
const WATCH_HIP_SHARE: f64 = 0.85;
const CUP_DIFFERENCE_MM: (f64, f64) = (40.0, 330.0);
const THIGH_SHARE: (f64, f64) = (0.50, 0.72);
/// Total crotch length / rise height, natural waist.
const CROTCH_PER_RISE: (f64, f64) = (2.5, 3.2);
/// Waist height less inside leg length against the rise height taken.
const RISE_APART_MM: f64 = 15.0;

/// What is wrong and what is unusual about a wearer.
#[derive(Default)]
pub(crate) struct Judged {
    pub(crate) errors: Vec<BodyError>,
    pub(crate) findings: Vec<Finding>,
}

/// Judges everything taken; errors in the order of [`Dimension::ALL`], then those of pairs.
pub(crate) fn judge(wearer: &Wearer) -> Judged {
    let mut judged = Judged::default();
    let sound = judge_single(wearer, &mut judged.errors);
    judge_person(wearer, &mut judged);
    judge_pairs(wearer, &sound, &mut judged);
    judged
}

/// A watch finding on a place of the body.
pub(crate) fn watch(
    code: &'static str,
    place: impl Into<String>,
    message: String,
    remedy: impl Into<String>,
) -> Finding {
    Finding {
        code,
        severity: Severity::Watch,
        place: place.into(),
        message,
        value: None,
        limit: None,
        remedy: remedy.into(),
    }
}

fn limited(finding: Finding, value: f64, text: String, source: &'static str) -> Finding {
    Finding {
        value: Some(value),
        limit: Some(Limit { text, source }),
        ..finding
    }
}

/// Each dimension by itself. Returns those that can be believed, so that pairs with a wrong one are not blamed twice.
fn judge_single(wearer: &Wearer, errors: &mut Vec<BodyError>) -> Dimensions {
    let form = wearer.form;
    let mut sound = Dimensions::default();
    for dimension in Dimension::ALL {
        let (least, most) = dimension.plausible_range(form);
        match wearer.taken.get(dimension) {
            None if dimension.need(form) == Need::Required => {
                errors.push(BodyError::Missing { dimension, form })
            }
            None => {}
            Some(given) if !given.get().is_finite() => errors.push(BodyError::NotANumber { dimension, form }),
            Some(given) if given <= Mm::ZERO => errors.push(BodyError::NotPositive {
                dimension,
                form,
                given,
            }),
            Some(given) if given < least || given > most => {
                errors.push(BodyError::Absurd {
                    dimension,
                    form,
                    given,
                    least,
                    most,
                });
            }
            Some(given) => sound.set(dimension, given),
        }
    }
    sound
}

fn judge_person(wearer: &Wearer, judged: &mut Judged) {
    if let Some(given) = wearer.age_years
        && !(0.0..=OLDEST_YEARS).contains(&given)
    {
        judged.errors.push(BodyError::Age {
            given,
            most: OLDEST_YEARS,
        });
    }
    let (least, most) = match wearer.form {
        BodyForm::Child => (5.0, 200.0),
        BodyForm::Woman | BodyForm::Man => (25.0, 350.0),
    };
    if let Some(given) = wearer.mass_kg
        && !(least..=most).contains(&given)
    {
        judged.errors.push(BodyError::Mass { given, least, most });
    }
    if wearer.form != BodyForm::Child {
        return;
    }
    match wearer.age_years {
        None => judged.findings.push(watch(
            "body.age",
            "age",
            "the age of a child is not given".to_owned(),
            "give the age: what may be sewn on children's wear depends on it; until then the rules for the young apply",
        )),
        Some(age) if age >= CHILD_TO_YEARS => judged.findings.push(limited(
            watch(
                "body.age",
                "age",
                format!("{age:.0} years is old for a child's form"),
                "take a woman's or man's form: a child's has no bust and a child's shares",
            ),
            age,
            format!("{CHILD_TO_YEARS:.0} years"),
            OWN,
        )),
        Some(_) => {}
    }
}

fn judge_pairs(wearer: &Wearer, sound: &Dimensions, judged: &mut Judged) {
    use Dimension as D;
    let form = wearer.form;
    let get = |d: Dimension| sound.get(d);
    let name = |d: Dimension| d.iso_name(form);
    let Judged { errors, findings } = judged;

    if let (Some(bust), Some(underbust)) = (get(D::BustGirth), get(D::UnderbustGirth)) {
        let cup = (bust - underbust).get();
        let (least, most) = CUP_DIFFERENCE_MM;
        if cup <= 0.0 {
            errors.push(BodyError::UnderbustNotBelowBust { underbust, bust });
        } else if form == BodyForm::Woman && !(least..=most).contains(&cup) {
            findings.push(limited(
                watch(
                    "body.cup_difference",
                    name(D::UnderbustGirth),
                    format!("bust less under-bust is {}", Mm::new(cup).to_cm_text()),
                    "take bust and under-bust again, both level, both at the end of a normal breath",
                ),
                cup,
                format!("{least:.0} to {most:.0} mm"),
                OWN,
            ));
        }
    }

    if let (Some(to_bust_point), Some(front_waist)) = (get(D::SideNeckToBustPoint), get(D::FrontWaistLength))
    {
        let below = (front_waist - to_bust_point).get();
        if below < LEAST_BELOW_BUST_POINT_MM {
            // Down the midline the front is shorter than over the bust, so the two are not parts of one line.
            if wearer.front_taken == FrontTaken::OverBustPoint {
                errors.push(BodyError::BustPointTooLow {
                    to_bust_point,
                    front_waist,
                    least_below: Mm::new(LEAST_BELOW_BUST_POINT_MM),
                });
            } else {
                findings.push(limited(
                    watch(
                        "body.bust_point",
                        name(D::SideNeckToBustPoint),
                        format!(
                            "the bust point lies {} above the waist",
                            Mm::new(below).to_cm_text()
                        ),
                        "take the front waist length over the bust point",
                    ),
                    below,
                    format!("{LEAST_BELOW_BUST_POINT_MM:.0} mm"),
                    OWN,
                ));
            }
        }
    }

    if let (Some(hip), Some(waist)) = (get(D::HipGirth), get(D::WaistGirth)) {
        let share = hip / waist;
        if share < LEAST_HIP_SHARE {
            errors.push(BodyError::HipFarBelowWaist {
                hip,
                waist,
                least_share: LEAST_HIP_SHARE,
            });
        } else if share < WATCH_HIP_SHARE {
            findings.push(limited(
                watch(
                    "body.hip_waist",
                    name(D::HipGirth),
                    format!("hip girth is {share:.2} of waist girth"),
                    "take both again; if right, make a toile: shares of front and back were not tried on such a body",
                ),
                share,
                format!("{WATCH_HIP_SHARE}"),
                OWN,
            ));
        }
    }

    if let (Some(thigh), Some(hip)) = (get(D::ThighGirth), get(D::HipGirth)) {
        let (share, (least, most)) = (thigh / hip, THIGH_SHARE);
        if !(least..=most).contains(&share) {
            findings.push(limited(
                watch(
                    "body.thigh_hip",
                    name(D::ThighGirth),
                    format!("thigh girth is {share:.2} of hip girth"),
                    "take the thigh just under the seat fold, and the hip again",
                ),
                share,
                format!("{least:.2} to {most:.2}"),
                OWN,
            ));
        }
    }

    if let (Some(total), Some(rise), WaistLevel::Natural) =
        (get(D::CrotchLength), get(D::RiseHeight), wearer.waist_level)
    {
        let (ratio, (least, most)) = (total / rise, CROTCH_PER_RISE);
        if !(least..=most).contains(&ratio) {
            findings.push(limited(
                watch(
                    "body.crotch_rise",
                    name(D::CrotchLength),
                    format!("total crotch length is {ratio:.2} times the waist to crotch height"),
                    "take both again from the same waist elastic",
                ),
                ratio,
                format!("{least:.1} to {most:.1}"),
                OWN,
            ));
        }
    }

    if let (Some(front), Some(total)) = (get(D::CrotchLengthFront), get(D::CrotchLength)) {
        let (share, (least, most)) = (front / total, front_share(form));
        if share >= 1.0 {
            errors.push(BodyError::CrotchFrontNotAPart { front, total });
        } else if !(least..=most).contains(&share) {
            findings.push(limited(
                watch(
                    "body.crotch_front",
                    name(D::CrotchLengthFront),
                    format!("the front part is {share:.2} of the total crotch length"),
                    "take it again with the tape in place, pinched at the crotch point",
                ),
                share,
                format!("{least:.2} to {most:.2}"),
                "ANSUR II (2012), mean and 3.3 spreads",
            ));
        }
    }

    if let (Some(waist), Some(crotch), Some(rise)) =
        (get(D::WaistHeight), get(D::CrotchHeight), get(D::RiseHeight))
    {
        let apart = (waist - crotch - rise).get();
        if apart.abs() > RISE_APART_MM {
            findings.push(limited(
                watch(
                    "body.rise_heights",
                    name(D::RiseHeight),
                    format!(
                        "waist height less inside leg length is {}, the waist to crotch height taken is {}",
                        (waist - crotch).to_cm_text(),
                        rise.to_cm_text()
                    ),
                    "take all three again, barefoot, from the same waist elastic",
                ),
                apart,
                format!("{RISE_APART_MM:.0} mm apart"),
                OWN,
            ));
        }
    }
}

/// Survey mean of the front share and 3.3 spreads: 0.449 ± 0.033 women, 0.427 ± 0.037 men; children as women.
const fn front_share(form: BodyForm) -> (f64, f64) {
    match form {
        BodyForm::Woman | BodyForm::Child => (0.34, 0.56),
        BodyForm::Man => (0.30, 0.55),
    }
}
