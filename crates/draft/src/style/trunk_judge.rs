//! What trunks are to be checked by, and what is said of their crotch, hem and cord.
//!
//! **Source.** Limits own. Cord length: elastic and half a metre, common practice; cords of children: cautions.csv.

use units::{Finding, Limit, Mm, Severity};

use super::legged::{self, Legs};
use super::trunks::Asked;
use super::{Drawn, Job};
use crate::suit::FinishedMeasure;

/// Elastic in a casing is this much narrower than it, mm.
const CASING_ROOM: f64 = 5.0;
/// Cord beyond the elastic's length, mm: to draw and to tie. Common practice.
const CORD_OVER: f64 = 500.0;
/// A crotch this near the worn stretch meant for it is as long as meant.
const MET_WITHIN: f64 = 0.01;
/// Ratio of the waist elastic: `elastic_cut.csv`, trunks with drawcord.
const WAIST_RATIO: f64 = 0.90;

pub(super) fn measures(legs: &Legs, asked: &Asked, drawn: &mut Drawn) {
    let (f, b) = (&legs.front, &legs.back);
    let (front, back) = (f.top.length(), b.top.length());
    let list = [
        (
            "top_edge",
            "top edge, once round, before its elastic",
            2.0 * (front + back),
            10.0,
        ),
        // The making plan reads its elastic's width off this.
        ("waistband_depth", "waistband, finished depth", asked.casing, 2.0),
        (
            "across_hip",
            "across at the hip",
            f.width_at(legs.hip_y) + b.width_at(legs.hip_y),
            6.0,
        ),
        ("side_seam", "side seam, hem to top", f.side.length(), 4.0),
        ("inseam", "inseam, fork to hem", f.inseam.length(), 4.0),
        ("centre_front", "front seam, top to fork", f.crotch.length(), 4.0),
        ("centre_back", "back seam, top to fork", b.crotch.length(), 4.0),
        ("leg_opening", "leg hem, once round", legs.hem_length(), 8.0),
    ];
    drawn.finished = list.into_iter().map(FinishedMeasure::new).collect();
    if let Some(g) = legs.gusset {
        drawn.finished.push(FinishedMeasure::new((
            "gusset",
            "gusset, front to back",
            g.length,
            3.0,
        )));
    }
    if (legs.waist_widening - 1.0).abs() > 1e-9 {
        drawn.findings.push(Finding {
            code: "draft.waist_widened",
            severity: Severity::Good,
            place: "waist".into(),
            message: format!(
                "the waist is {:.0} % wider than its stretch would have it, so that it passes the hips",
                (legs.waist_widening - 1.0) * 100.0
            ),
            value: Some(legs.waist_widening),
            limit: None,
            remedy: String::new(),
        });
    }
}

/// How long the crotch came out, and what was done about it.
pub(super) fn judge_crotch(job: &Job<'_>, legs: &Legs, asked: &Asked, findings: &mut Vec<Finding>) {
    let worn = legged::crotch_worn(job, legs, asked.shape.top_share);
    let limit = legged::crotch_limit(job);
    let at_bound = legs.let_down >= legged::LET_DOWN.1 - 1e-6;
    // Let down as far as it may be, but as long as meant in the end: fork or gusset did it.
    let meant = job.k.shrink_lengthwise / job.k.y(1.0) - 1.0;
    let is_met = worn <= meant + MET_WITHIN;
    let severity = if worn > limit {
        Severity::Stop
    } else if (at_bound && !is_met) || legs.is_at_top {
        Severity::Watch
    } else {
        Severity::Good
    };
    let mut did = vec![match legs.let_down {
        down if down >= 0.0 => format!("let down {down:.0} mm below the body's"),
        down => format!("raised {:.0} mm above the body's", -down),
    }];
    if legs.fork_added > 0.5 {
        did.push(format!("the fork made {:.0} mm longer", legs.fork_added));
    }
    if let Some(g) = legs.gusset {
        did.push(format!("a gusset of {:.0} mm put in", g.length));
    }
    findings.push(Finding {
        code: "draft.crotch_length",
        severity,
        place: "crotch".into(),
        message: format!(
            "the crotch is worn {:.0} % longer than its seams; it was {}",
            worn * 100.0,
            did.join(", ")
        ),
        value: Some(worn),
        limit: Some(Limit {
            text: format!("{:.0} %", limit * 100.0),
            source: "own",
        }),
        remedy: match (severity, asked.shape.may_ease) {
            (Severity::Good, _) => String::new(),
            (Severity::Stop, false) => "set gusset = \"auto\"".into(),
            (Severity::Stop, true) => {
                "make the inseam longer so that a gusset fits, or choose a cloth that stretches further lengthwise".into()
            }
            (_, _) if legs.is_at_top => "take crotch length and rise height again; sew a toile".into(),
            _ => "sew a toile and look at the crotch; take crotch length and rise height again if it hangs or cuts".into(),
        },
    });
}

/// A hem that a strip between the legs has made loose wants elastic.
pub(super) fn judge_hem(job: &Job<'_>, legs: &Legs, findings: &mut Vec<Finding>) {
    let worn = job.m.thigh / (legs.hem_length() / job.k.shrink_around) - 1.0;
    if worn >= legged::LEAST_THIGH {
        return;
    }
    findings.push(Finding {
        code: "draft.loose_hem",
        severity: Severity::Watch,
        place: "leg".into(),
        message: format!(
            "the leg hem is worn {:.0} % stretched: it stands off the thigh",
            worn * 100.0
        ),
        value: Some(worn),
        limit: Some(Limit {
            text: format!("{:.0} %", legged::LEAST_THIGH * 100.0),
            source: "own",
        }),
        remedy: "turn the hem over narrow elastic cut to 0.95 of it, or choose a longer leg".into(),
    });
}

/// What the drawcord is to be, by whom it is worn.
pub(super) fn judge_cord(legs: &Legs, asked: &Asked, findings: &mut Vec<Finding>) {
    let top = 2.0 * (legs.front.top.length() + legs.back.top.length());
    let message = match asked.cord {
        "cord" => format!(
            "cut the cord {} long: the waist's elastic and half a metre to tie; elastic {:.0} mm wide in a casing of {:.0} mm",
            Mm::new(WAIST_RATIO * top + CORD_OVER).to_cm_text(),
            asked.casing - CASING_ROOM,
            asked.casing
        ),
        "fixed" => "sew the cord down over its whole length and tuck its ends under: to 14 years no free ends at the waist \
                    (EN 14682 as read in a test house's summary of the 2007 edition; check the current one)"
            .to_owned(),
        _ => format!(
            "elastic only, {:.0} mm wide in a casing of {:.0} mm",
            asked.casing - CASING_ROOM,
            asked.casing
        ),
    };
    findings.push(Finding {
        code: "draft.drawcord",
        severity: Severity::Good,
        place: "waist".into(),
        message,
        value: None,
        limit: None,
        remedy: String::new(),
    });
}
