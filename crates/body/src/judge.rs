//! A wearer's dimensions held against believable ranges and against each other.
//!
//! A length that cannot be, or two that exclude each other, is an error and no body is made. A pair that is merely
//! unusual is a watch finding: bodies are unusual more often than tables think.
//!
//! **Source.** Limits are own unless the finding says otherwise; the front share of the crotch length is the survey's
//! mean and 3.3 of its spreads either way.
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
    judge_sides(wearer, &sound, &mut judged);
    judged
}

/// Left and right of one body are seldom further apart than this share (own).
const SIDES_APART: f64 = 0.12;

/// Left against right; a right side alone says nothing of the left.
fn judge_sides(wearer: &Wearer, sound: &Dimensions, judged: &mut Judged) {
    for (dimension, right) in wearer.taken.iter_right() {
        let name = dimension.iso_name(wearer.form);
        let Some(left) = sound.get(dimension) else {
            judged.findings.push(watch(
                "body.right_alone",
                name,
                "taken on the right only; the left is estimated".to_owned(),
                "take the left too",
            ));
            continue;
        };
        let apart = (right.get() - left.get()).abs() / left.get();
        if apart > SIDES_APART {
            judged.findings.push(limited(
                watch(
                    "body.sides_apart",
                    name,
                    format!("{} left, {} right", left.to_cm_text(), right.to_cm_text()),
                    "take both sides again",
                ),
                apart,
                format!("{:.0} % apart", SIDES_APART * 100.0),
                OWN,
            ));
        }
    }
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
    for (dimension, given) in wearer.taken.iter_right() {
        let (least, most) = dimension.plausible_range(form);
        if !given.get().is_finite() {
            errors.push(BodyError::NotANumber { dimension, form });
        } else if given < least || given > most {
            errors.push(BodyError::Absurd {
                dimension,
                form,
                given,
                least,
                most,
            });
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
    let pairs = [
        cup,
        bust_point,
        hip_to_waist,
        thigh_to_hip,
        crotch_to_rise,
        front_of_crotch,
        rise_of_heights,
    ];
    for verdict in pairs.into_iter().filter_map(|pair| pair(wearer, sound)) {
        match verdict {
            Verdict::Refused(error) => judged.errors.push(error),
            Verdict::Unusual(finding) => judged.findings.push(finding),
        }
    }
}

/// What is said of two dimensions that don't go together.
enum Verdict {
    Refused(BodyError),
    Unusual(Finding),
}

/// A number outside its usual range, at a dimension.
struct Unusual {
    code: &'static str,
    place: Dimension,
    value: f64,
    limit: String,
    source: &'static str,
}

impl Unusual {
    fn verdict(self, form: BodyForm, message: String, remedy: &str) -> Option<Verdict> {
        let finding = watch(self.code, self.place.iso_name(form), message, remedy);
        Some(Verdict::Unusual(limited(
            finding,
            self.value,
            self.limit,
            self.source,
        )))
    }
}

fn cup(wearer: &Wearer, sound: &Dimensions) -> Option<Verdict> {
    let (bust, underbust) = (
        sound.get(Dimension::BustGirth)?,
        sound.get(Dimension::UnderbustGirth)?,
    );
    let (cup, (least, most)) = ((bust - underbust).get(), CUP_DIFFERENCE_MM);
    if cup <= 0.0 {
        return Some(Verdict::Refused(BodyError::UnderbustNotBelowBust {
            underbust,
            bust,
        }));
    }
    if wearer.form != BodyForm::Woman || (least..=most).contains(&cup) {
        return None;
    }
    let unusual = Unusual {
        code: "body.cup_difference",
        place: Dimension::UnderbustGirth,
        value: cup,
        limit: format!("{least:.0} to {most:.0} mm"),
        source: OWN,
    };
    unusual.verdict(
        wearer.form,
        format!("bust less under-bust is {}", Mm::new(cup).to_cm_text()),
        "take bust and under-bust again, both level, both at the end of a normal breath",
    )
}

fn bust_point(wearer: &Wearer, sound: &Dimensions) -> Option<Verdict> {
    let to_bust_point = sound.get(Dimension::SideNeckToBustPoint)?;
    let front_waist = sound.get(Dimension::FrontWaistLength)?;
    let (below, least_below) = (front_waist - to_bust_point, Mm::new(LEAST_BELOW_BUST_POINT_MM));
    if below >= least_below {
        return None;
    }
    if wearer.front_taken == FrontTaken::OverBustPoint {
        return Some(Verdict::Refused(BodyError::BustPointTooLow {
            to_bust_point,
            front_waist,
            least_below,
        }));
    }
    // Down the midline the front is shorter than over the bust, so the two are not parts of one line.
    let unusual = Unusual {
        code: "body.bust_point",
        place: Dimension::SideNeckToBustPoint,
        value: below.get(),
        limit: format!("{LEAST_BELOW_BUST_POINT_MM:.0} mm"),
        source: OWN,
    };
    unusual.verdict(
        wearer.form,
        format!("the front waist length is only {} longer", below.to_cm_text()),
        "take the front waist length over the bust point",
    )
}

fn hip_to_waist(wearer: &Wearer, sound: &Dimensions) -> Option<Verdict> {
    let (hip, waist) = (sound.get(Dimension::HipGirth)?, sound.get(Dimension::WaistGirth)?);
    let share = hip / waist;
    if share < LEAST_HIP_SHARE {
        return Some(Verdict::Refused(BodyError::HipFarBelowWaist {
            hip,
            waist,
            least_share: LEAST_HIP_SHARE,
        }));
    }
    if share >= WATCH_HIP_SHARE {
        return None;
    }
    let unusual = Unusual {
        code: "body.hip_waist",
        place: Dimension::HipGirth,
        value: share,
        limit: format!("{WATCH_HIP_SHARE}"),
        source: OWN,
    };
    unusual.verdict(
        wearer.form,
        format!("hip girth is {share:.2} of waist girth"),
        "take both again; if right, make a toile: shares of front and back were not tried on such a body",
    )
}

fn thigh_to_hip(wearer: &Wearer, sound: &Dimensions) -> Option<Verdict> {
    let (share, (least, most)) = (
        sound.get(Dimension::ThighGirth)? / sound.get(Dimension::HipGirth)?,
        THIGH_SHARE,
    );
    if (least..=most).contains(&share) {
        return None;
    }
    let unusual = Unusual {
        code: "body.thigh_hip",
        place: Dimension::ThighGirth,
        value: share,
        limit: format!("{least:.2} to {most:.2}"),
        source: OWN,
    };
    unusual.verdict(
        wearer.form,
        format!("thigh girth is {share:.2} of hip girth"),
        "take the thigh just under the seat fold, and the hip again",
    )
}

/// At the natural waist only: at the navel the survey's people run from 2.8 to 3.7.
fn crotch_to_rise(wearer: &Wearer, sound: &Dimensions) -> Option<Verdict> {
    let (ratio, (least, most)) = (
        sound.get(Dimension::CrotchLength)? / sound.get(Dimension::RiseHeight)?,
        CROTCH_PER_RISE,
    );
    if wearer.waist_level == WaistLevel::Navel || (least..=most).contains(&ratio) {
        return None;
    }
    let unusual = Unusual {
        code: "body.crotch_rise",
        place: Dimension::CrotchLength,
        value: ratio,
        limit: format!("{least:.1} to {most:.1}"),
        source: OWN,
    };
    unusual.verdict(
        wearer.form,
        format!("total crotch length is {ratio:.2} times the waist to crotch height"),
        "take both again from the same waist elastic",
    )
}

fn front_of_crotch(wearer: &Wearer, sound: &Dimensions) -> Option<Verdict> {
    let (front, total) = (
        sound.get(Dimension::CrotchLengthFront)?,
        sound.get(Dimension::CrotchLength)?,
    );
    let (share, (least, most)) = (front / total, front_share(wearer.form));
    if share >= 1.0 {
        return Some(Verdict::Refused(BodyError::CrotchFrontNotAPart { front, total }));
    }
    if (least..=most).contains(&share) {
        return None;
    }
    let unusual = Unusual {
        code: "body.crotch_front",
        place: Dimension::CrotchLengthFront,
        value: share,
        limit: format!("{least:.2} to {most:.2}"),
        source: "ANSUR II (2012), mean and 3.3 spreads",
    };
    unusual.verdict(
        wearer.form,
        format!("the front part is {share:.2} of the total crotch length"),
        "take it again with the tape in place, pinched at the crotch point",
    )
}

fn rise_of_heights(wearer: &Wearer, sound: &Dimensions) -> Option<Verdict> {
    let heights = sound.get(Dimension::WaistHeight)? - sound.get(Dimension::CrotchHeight)?;
    let rise = sound.get(Dimension::RiseHeight)?;
    let apart = (heights - rise).get();
    if apart.abs() <= RISE_APART_MM {
        return None;
    }
    let unusual = Unusual {
        code: "body.rise_heights",
        place: Dimension::RiseHeight,
        value: apart,
        limit: format!("{RISE_APART_MM:.0} mm apart"),
        source: OWN,
    };
    unusual.verdict(
        wearer.form,
        format!(
            "waist height less inside leg length is {}, the waist to crotch height taken is {}",
            heights.to_cm_text(),
            rise.to_cm_text()
        ),
        "take all three again, barefoot, from the same waist elastic",
    )
}

/// Survey mean of the front share and 3.3 spreads: 0.449 ± 0.033 women, 0.427 ± 0.037 men; children as women.
const fn front_share(form: BodyForm) -> (f64, f64) {
    match form {
        BodyForm::Woman | BodyForm::Child => (0.34, 0.56),
        BodyForm::Man => (0.30, 0.55),
    }
}
