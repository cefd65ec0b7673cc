//! Closures: a zip or a clasped slit at the centre of a suit, a hook or ring behind the neck, and what they do to the way in.
//!
//! A slit of length L adds 2 L to the ring it begins at; a zip that runs past the waist leaves the waist no ring. A zip needs a seam, so
//! the piece is cut twice instead of on the fold; a clasp's slit is faced and lies on the fold. A hook or ring ends a neck piece and
//! takes its ring away.
//!
//! **Shapes and units.** Length in mm as sewn, from the edge it begins at.
//! **Source.** Geometry; construction common practice, no single source. Small parts on children's wear: `data/trade/cautions.csv`.
//! **Limits.** A zip does not stretch: that the centre is held along it is said, not computed.

use body::BodyForm;
use cloth::ClothPlan;
use kurbo::Point;
use units::{Finding, Limit, Severity};

use super::cut::Parts;
use super::{Drawn, Job, Widths};
use crate::build::placement;
use crate::design::{Closure, ClosureKind, ClosurePlace};
use crate::piece::EdgeUse;
use crate::refusal::{Refusal, within};
use crate::suit::{Opened, OpeningKind, SeamWalk};

/// The shortest slit that is worth the work, mm (own).
const SHORTEST: f64 = 40.0;
/// Cloth left between the end of a slit and the crotch seam, mm (own): the zip's end must not be sat on.
const ABOVE_CROTCH: f64 = 120.0;
/// A zip that ends this far below the waist lets the hips through, mm (own).
const PAST_WAIST: f64 = 20.0;
/// Under this age no small parts, years: `kids_parts`.
const SMALL_PARTS_FROM: f64 = 3.0;
/// Cloth that stretches less than this lengthwise, and less than the other around, lets nobody step in: own.
const NO_WAY_IN: (f64, f64) = (0.10, 0.35);

/// What a suit with shoulders may have: a zip in front or behind, a clasp behind.
///
/// # Errors
/// [`Refusal::Combination`] for the others.
pub(super) fn check_at_centre(closure: &Closure) -> Result<(), Refusal> {
    let why = match (closure.kind, closure.place) {
        (ClosureKind::Zip, ClosurePlace::Back | ClosurePlace::Front)
        | (ClosureKind::Clasp, ClosurePlace::Back) => return Ok(()),
        (ClosureKind::Zip | ClosureKind::Clasp, ClosurePlace::Neck) => {
            "a zip or a clasp sits at the centre; set place to \"back\", or a zip's to \"front\""
        }
        (ClosureKind::Clasp, ClosurePlace::Front) => {
            "a clasp is sewn at the back here; set place to \"back\", or kind to \"zip\""
        }
        (ClosureKind::Hook | ClosureKind::Ring, _) => {
            "a hook or a ring ends a neck piece, which this style has not; choose a zip or a clasp, or a halter"
        }
    };
    Err(Refusal::Combination {
        parameter: "closure",
        why,
    })
}

/// What a neck piece may end in: a hook, or a ring with a hook.
///
/// # Errors
/// [`Refusal::Combination`] for a zip or a clasp, or another place.
pub(super) fn check_at_neck(closure: &Closure) -> Result<(), Refusal> {
    match (closure.kind, closure.place) {
        (ClosureKind::Hook | ClosureKind::Ring, ClosurePlace::Neck) => Ok(()),
        (ClosureKind::Hook | ClosureKind::Ring, _) => Err(Refusal::Combination {
            parameter: "closure",
            why: "a hook or a ring closes the neck piece behind the neck; set place to \"neck\"",
        }),
        _ => Err(Refusal::Combination {
            parameter: "closure",
            why: "the back of a halter is low and its neck piece opens; leave the closure out for ties, or set kind to \"hook\" or \
                  \"ring\" and place to \"neck\"",
        }),
    }
}

/// Whether a slit from `top_y` down runs past the waist.
pub(super) fn passes_waist(closure: &Closure, top_y: f64) -> bool {
    closure.kind == ClosureKind::Zip && top_y - closure.length.get() <= -PAST_WAIST
}

/// Puts the closure into pieces, seams, openings and findings of a suit with shoulders. `tops` are the heights where neckline and
/// back end on the fold, front then back; `crotches` those of the crotch.
///
/// # Errors
/// [`Refusal::Combination`] for a closure such a suit cannot have, [`Refusal::Parameter`] for a length that does not fit.
pub(super) fn at_centre(
    job: &Job<'_>,
    closure: &Closure,
    tops: [f64; 2],
    crotches: [f64; 2],
    drawn: &mut Drawn,
) -> Result<(), Refusal> {
    check_at_centre(closure)?;
    let i = usize::from(closure.place != ClosurePlace::Front);
    let (top, crotch) = (tops[i], crotches[i]);
    let length = closure.length.get();
    within(
        "closure_length",
        length,
        (SHORTEST, top - crotch - ABOVE_CROTCH),
        "mm",
        "from the neckline down; it must end well above the crotch",
    )?;
    let end = top - length;
    let keys: &[&str] = if i == 0 {
        &["front", "centre_front"]
    } else {
        &["back"]
    };
    let w = Widths::shell(job.design);
    for at in 0..drawn.pieces.len() {
        let piece = &drawn.pieces[at];
        if !piece.on_fold || !keys.iter().any(|k| piece.key.starts_with(k)) {
            continue;
        }
        let Some(fold) = piece.edges.iter().find(|e| e.role == EdgeUse::Fold) else {
            continue;
        };
        // The fold runs down.
        let (upper, lower) = (fold.curve.start().y, fold.curve.end().y);
        if lower >= top - 1e-6 || upper <= end + 1e-6 {
            continue;
        }
        let mut parts = Parts::of(piece);
        if closure.kind == ClosureKind::Zip {
            parts.open_fold(w.seam);
            let centre = upper - lower;
            if end > lower {
                parts.notch("centre", upper - end, "zip_end");
                parts.mark(placement(
                    Point::new(0.0, end),
                    Point::new(w.seam + 6.0, end),
                    "zip ends here",
                ));
            }
            drawn.seams.push(SeamWalk {
                name: if i == 0 { "centre front" } else { "centre back" },
                first: (parts.key.clone(), vec!["centre"]),
                second: (parts.key.clone(), vec!["centre"]),
                first_mm: centre,
                second_mm: centre,
                sewn_ease_mm: 0.0,
            });
        } else {
            parts.mark(placement(
                Point::new(0.0, end.max(lower)),
                Point::new(0.0, upper.min(top)),
                "slit, faced; clasp at its top",
            ));
        }
        drawn.pieces[at] = parts.build(job.cloth)?;
    }
    let through = passes_waist(closure, top);
    for opening in &mut drawn.openings {
        opening.opened = match opening.kind {
            OpeningKind::NecklineRing => Opened::By(2.0 * length / job.k.shrink_lengthwise),
            OpeningKind::Waist if through => Opened::Fully,
            _ => opening.opened,
        };
    }
    drawn.findings.push(said(closure, length));
    hazard(job, closure, drawn);
    Ok(())
}

/// A neck piece that ends in a hook or ring: its ring is open.
///
/// # Errors
/// As [`check_at_neck`].
pub(super) fn at_neck(job: &Job<'_>, closure: &Closure, drawn: &mut Drawn) -> Result<(), Refusal> {
    check_at_neck(closure)?;
    for opening in &mut drawn.openings {
        if opening.kind == OpeningKind::NecklineRing {
            opening.opened = Opened::Fully;
        }
    }
    hazard(job, closure, drawn);
    Ok(())
}

fn said(closure: &Closure, length: f64) -> Finding {
    let (message, remedy) = match closure.kind {
        ClosureKind::Zip => (
            format!(
                "a zip of {} does not stretch: the centre is held along it",
                units::Mm::new(length).to_cm_text()
            ),
            "sew it in with the cloth stretched to the worn length, or choose the relaxed fit; try it on basted",
        ),
        _ => (
            format!(
                "a slit of {}, faced, with a flat clasp at its top",
                units::Mm::new(length).to_cm_text()
            ),
            "face the slit before the neckline's elastic, and stay its lower end",
        ),
    };
    Finding {
        code: "draft.closure",
        severity: if closure.kind == ClosureKind::Zip {
            Severity::Watch
        } else {
            Severity::Good
        },
        place: "closure".into(),
        message,
        value: Some(length),
        limit: None,
        remedy: remedy.into(),
    }
}

/// Small parts on a young child's suit.
pub(super) fn hazard(job: &Job<'_>, closure: &Closure, drawn: &mut Drawn) {
    if job.m.form != BodyForm::Child {
        return;
    }
    let part = match closure.kind {
        ClosureKind::Zip => "the slider of a zip",
        ClosureKind::Clasp => "a clasp",
        ClosureKind::Hook => "a hook",
        ClosureKind::Ring => "a ring",
    };
    small_part(job, part, drawn);
}

/// A small part on a child's suit: stop under three years, watch where the age is not known or the part must be pulled at.
pub(super) fn small_part(job: &Job<'_>, part: &str, drawn: &mut Drawn) {
    if job.m.form != BodyForm::Child {
        return;
    }
    let severity = match job.m.age_years {
        Some(age) if age < SMALL_PARTS_FROM => Severity::Stop,
        _ => Severity::Watch,
    };
    drawn.findings.push(Finding {
        code: "draft.small_parts",
        severity,
        place: "closure".into(),
        message: format!("{part} is a small part, which a child under three may bite off and choke on"),
        value: job.m.age_years,
        limit: Some(Limit {
            text: "3 years".into(),
            source: "common practice (data/trade/cautions.csv, kids_parts)",
        }),
        remedy: if severity == Severity::Stop {
            "leave it out: choose a softer cloth or a deeper neckline, so that the suit goes on without a closure"
        } else {
            "only from three years on; pull hard on every part before each use"
        }
        .into(),
    });
}

/// A cloth nobody steps in with, on a suit without an opening.
pub(super) fn judge_cloth(cloth: &ClothPlan, closure: Option<&Closure>, drawn: &mut Drawn) {
    let (lengthwise, around) = (cloth.lengthwise.ratio(), cloth.around.ratio());
    if lengthwise >= NO_WAY_IN.0 || around >= NO_WAY_IN.1 || closure.is_some() {
        return;
    }
    drawn.findings.push(Finding {
        code: "draft.no_way_in",
        severity: Severity::Stop,
        place: "way in".into(),
        message: format!(
            "a cloth that stretches {} around and hardly at all lengthwise does not pass the hips without an opening",
            units::Stretch::from_ratio(around)
        ),
        value: Some(around),
        limit: Some(Limit {
            text: units::Stretch::from_ratio(NO_WAY_IN.1).to_string(),
            source: "own",
        }),
        remedy: "put in a closure: a zip at the back that runs past the waist, [design.closure] with kind = \"zip\"; or choose a \
                 softer cloth"
            .into(),
    });
}
