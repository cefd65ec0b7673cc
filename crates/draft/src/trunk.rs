//! The trunk loop: does the measured trunk circumference agree with its parts, and what is done with the rest.
//!
//! A trunk tape runs over bust point and seat; the sum of the parts runs down the midline. The difference of the two ways
//! (`bias`) is chosen by how the front was taken, never by what makes the residual small. A front that was only estimated
//! is solved from the loop; what is still left stretches or shortens the lengths along both folds, never the side.
//!
//! **Shapes and units.** mm on the body.
//! **Source.** Bias: our least squares on the public ANSUR II file (survey report NATICK/TR-15/007), women 83.9 mm sd 36.3,
//! men 91.3 sd 36.0, at navel level with estimated fronts; children: the adults' share of stature, own. Limits 60, 100 mm
//! and the 6 % cap: own.
//! **Limits.** Soldiers, navel waist. A front truly taken over the bust is longer than the estimate, so part of the bias is
//! real; the same woman drafted both ways differs by some 5 % of the loop.

use body::{BodyForm, FrontTaken, Trust};
use units::{Finding, Limit, Mm, Severity};

use crate::measures::Measures;
use crate::refusal::Refusal;
use crate::suit::TrunkLoop;

/// The back rises by this share of the neck base girth from nape to side neck.
pub(crate) const NAPE_RISE: f64 = 0.055;
/// Slope of the shoulder, degrees below level.
pub(crate) const SHOULDER_SLOPE_DEG: f64 = 20.0;

const GOOD_MM: f64 = 60.0;
const REFUSE_MM: f64 = 100.0;
const Q_CAP: f64 = 0.06;
/// A solved front keeps the bust length difference in this band, so that noise never draws a dart.
const SOLVED_D: (f64, f64) = (-20.0, 45.0);

/// What an estimated or midline front reads short of the trunk tape.
fn bias(m: &Measures) -> f64 {
    match m.front_taken {
        Some(FrontTaken::OverBustPoint) => 0.0,
        Some(FrontTaken::Midline) | None => match m.form {
            BodyForm::Woman => 84.0,
            BodyForm::Man => 91.0,
            BodyForm::Child => 0.052 * m.stature,
        },
    }
}

/// Side neck to waist down the back, mm.
pub(crate) fn back_length(m: &Measures) -> f64 {
    m.back_waist + NAPE_RISE * m.neck_base
}

fn sum_of_parts(m: &Measures, front: f64) -> f64 {
    front + back_length(m) + m.crotch_length - m.centre.shoulder * SHOULDER_SLOPE_DEG.to_radians().sin()
}

/// The loop of a style that is not tied to it: the dimensions as they are.
pub(crate) fn untied(m: &Measures) -> TrunkLoop {
    TrunkLoop {
        measured_mm: m.trunk,
        parts_mm: 0.0,
        bias_mm: 0.0,
        residual_mm: 0.0,
        solved_mm: 0.0,
        front_waist_mm: m.front_waist,
        q: 1.0,
        is_capped: false,
        drafted_mm: None,
    }
}

/// Whether a front that was worked out from the loop stands at the end of what is allowed.
pub(crate) fn is_solved_at_limit(m: &Measures, trunk: &TrunkLoop) -> bool {
    let difference = trunk.front_waist_mm - back_length(m);
    [SOLVED_D.0, SOLVED_D.1]
        .iter()
        .any(|end| (difference - end).abs() < 1e-6)
}

/// Judges the loop and settles the front waist length and the factor q along the folds.
///
/// # Errors
/// [`Refusal::TrunkDisagrees`] when the residual is over 100 mm and the maker has not said which to trust.
pub(crate) fn settle(m: &Measures, findings: &mut Vec<Finding>) -> Result<TrunkLoop, Refusal> {
    let bias = bias(m);
    let parts = sum_of_parts(m, m.front_waist);
    let Some(trunk) = m.trunk else {
        findings.push(watch(
            "trunk.unchecked",
            "torso length unchecked: there is no trunk circumference".into(),
            None,
            "have a helper take the trunk circumference before cutting",
        ));
        return Ok(TrunkLoop {
            measured_mm: None,
            parts_mm: parts,
            bias_mm: bias,
            residual_mm: 0.0,
            solved_mm: 0.0,
            front_waist_mm: m.front_waist,
            q: 1.0,
            is_capped: false,
            drafted_mm: None,
        });
    };
    let residual = trunk - parts - bias;
    let mut rest = residual;
    if residual.abs() > REFUSE_MM {
        match m.trust {
            None => {
                return Err(Refusal::TrunkDisagrees {
                    residual: Mm::new(residual),
                    trunk: Mm::new(trunk),
                    parts: Mm::new(parts + bias),
                });
            }
            Some(Trust::Trunk) => {}
            Some(Trust::Parts) => rest = 0.0,
        }
    }
    judge(m, residual, bias, findings);

    let mut front = m.front_waist;
    let mut solved = 0.0;
    if m.front_taken.is_none() {
        let difference = front - back_length(m);
        solved = rest.clamp(SOLVED_D.0 - difference, SOLVED_D.1 - difference);
        // A front already outside the band is left where it is rather than pushed further.
        if SOLVED_D.0 - difference > 0.0 || SOLVED_D.1 - difference < 0.0 {
            solved = 0.0;
        }
        front += solved;
        rest -= solved;
        let difference = front - back_length(m);
        if m.is_woman() && difference > 20.0 {
            findings.push(watch(
                "trunk.front_solved",
                format!(
                    "the front waist length was worked out from the trunk loop ({})",
                    Mm::new(front).to_cm_text()
                ),
                Some((difference, "20 mm longer than the back")),
                "take the front waist length over the bust point",
            ));
        }
    }
    let parts = sum_of_parts(m, front);
    let wanted = rest / parts;
    let is_capped = wanted.abs() > Q_CAP + 1e-12;
    if is_capped {
        findings.push(watch(
            "trunk.capped",
            format!(
                "the torso was lengthened or shortened by 6 %, the most allowed; {} of the trunk circumference is left over",
                Mm::new(rest - wanted.signum() * Q_CAP * parts).abs().to_cm_text()
            ),
            Some((wanted, "0.06")),
            "take trunk circumference and waist lengths again; sew a toile first",
        ));
    }
    Ok(TrunkLoop {
        measured_mm: Some(trunk),
        parts_mm: parts,
        bias_mm: bias,
        residual_mm: residual,
        solved_mm: solved,
        front_waist_mm: front,
        q: 1.0 + wanted.clamp(-Q_CAP, Q_CAP),
        is_capped,
        drafted_mm: None,
    })
}

fn judge(m: &Measures, residual: f64, bias: f64, findings: &mut Vec<Finding>) {
    let text = Mm::new(residual).abs().to_cm_text();
    let way = if residual > 0.0 { "longer" } else { "shorter" };
    if residual.abs() <= GOOD_MM {
        findings.push(Finding {
            code: "trunk.loop",
            severity: Severity::Good,
            place: "torso".into(),
            message: format!("trunk circumference agrees with its parts, {text} {way}"),
            value: Some(residual),
            limit: Some(Limit {
                text: "60 mm".into(),
                source: "own; 90 % of the survey's women are within it",
            }),
            remedy: String::new(),
        });
    } else {
        findings.push(watch(
            "trunk.loop",
            format!("the trunk circumference is {text} {way} than its parts"),
            Some((residual, "60 mm")),
            "take the trunk circumference, both waist lengths and the crotch length again",
        ));
    }
    if bias == 0.0 && (48.0..=120.0).contains(&residual) && m.is_woman() {
        findings.push(watch(
            "trunk.front_midline",
            "the front waist length reads like one taken down the midline".into(),
            Some((residual, "48 to 120 mm")),
            "take it from the side neck over the bust point, or say front_taken = \"midline\"",
        ));
    }
}

fn watch(code: &'static str, message: String, limit: Option<(f64, &str)>, remedy: &str) -> Finding {
    Finding {
        code,
        severity: Severity::Watch,
        place: "torso".into(),
        message,
        value: limit.map(|l| l.0),
        limit: limit.map(|l| Limit {
            text: l.1.into(),
            source: "own",
        }),
        remedy: remedy.into(),
    }
}

/// How far a drafted loop is from the one wanted: wanted / drafted - 1.
///
/// `drafted_mm` is measured at the strap, whose middle sits at the share `p` of the shoulder. Lengths above the waist in front carry
/// the factor `k_front`, the rest `k_whole`; the drop from side neck to strap is drawn with the shoulder, at `k_shoulder`.
pub(crate) fn drafted_error(
    m: &Measures,
    t: &TrunkLoop,
    p: f64,
    drafted_mm: f64,
    (k_whole, k_front, k_shoulder): (f64, f64, f64),
) -> f64 {
    let drop = m.shoulder * SHOULDER_SLOPE_DEG.to_radians().sin();
    // `parts_mm` has the drop to the middle of both shoulders taken off; put it back, then take off the strap's own.
    let front = t.front_waist_mm;
    let rest = t.parts_mm + m.centre.shoulder * SHOULDER_SLOPE_DEG.to_radians().sin() - front;
    let wanted = t.q * (front * k_front + rest * k_whole) - 2.0 * p * drop * k_shoulder;
    wanted / drafted_mm - 1.0
}
