//! Short tops to the under-bust: the crop top, for women and children, and the sports top with its wider straps and band.
//!
//! **Source.** The lower edge lies 55 + 0.12 d below the bust point along the body, d bust less under-bust: own. A free front that is
//! lifted to nurse, held by the lining beneath it: common practice, no single source; its overlap own.
//! **Limits.** Never sewn. A racer back is drawn nearer to the neck than its strap is worn; the strap creeps inwards by about a centimetre.

use body::BodyForm;
use cloth::Fit;
use units::{Finding, Severity};

use super::top::support::{self, Hold};
use super::top::words::{BELOW_UNDERBUST, NURSING};
use super::top::{self, BackUpper, Filling, FrontUpper, Lower, Wanted, words};
use super::torso::Torso;
use super::{Drawn, Family, Job, Reach, StyleSpec};
use crate::block::{BackTop, Depth};
use crate::design::{BackShape, LiningCover};
use crate::parameter::{Parameter, Shared, Word, count, joined};
use crate::refusal::{Refusal, within};

/// The back of a sports top.
pub(super) const SPORTS_BACK: Parameter = Parameter::choice(
    "sports_back",
    "Back",
    "how the straps run over the back",
    &[
        Word::new(
            "racer",
            "Racer",
            "drawn together between the shoulder blades: straps cannot slip",
        ),
        Word::new(
            "wide-strap",
            "Wide straps",
            "straight over the shoulders: the load is spread, the neck free",
        ),
    ],
);

/// Width of its straps.
pub(super) const SPORTS_STRAP: Parameter = Parameter::length(
    "sports_strap",
    "Strap of the sports top",
    "finished width of the strap on the shoulder",
    (30.0, 50.0, 80.0),
);

/// Depth of a back with wide straps, share of the back waist length: higher than a suit's, for hold (own).
const WIDE_BACK: f64 = 0.34;

/// What a maker may set.
const CROP_OWN: &[&[Parameter]] = &[words::BANDED, words::FILLED, &[NURSING]];

pub(super) const CROP: StyleSpec = StyleSpec {
    key: "crop-top",
    name: "Crop top",
    says: "a top to the under-bust with straps, pulled on",
    family: Family::Top,
    wearers: &[BodyForm::Woman, BodyForm::Child],
    shared: &[
        Shared::Neckline,
        Shared::Back,
        Shared::Strap,
        Shared::BustShaping,
        Shared::Lining,
        Shared::Cups,
    ],
    own: &joined::<{ count(CROP_OWN) }>(CROP_OWN),
    has_trunk_loop: false,
    needs_ties: false,
    usual_fit: Fit::Regular,
    parts: None,
    draw: draw_crop,
};

/// What a maker may set.
const SPORTS_OWN: &[&[Parameter]] = &[&[SPORTS_BACK, SPORTS_STRAP], words::BANDED, words::FILLED];

pub(super) const SPORTS: StyleSpec = StyleSpec {
    key: "sports-top",
    name: "Sports top",
    says: "a firm top with a racer back or wide straps and a high band",
    family: Family::Top,
    wearers: &[BodyForm::Woman, BodyForm::Child],
    shared: &[
        Shared::Neckline,
        Shared::BustShaping,
        Shared::Lining,
        Shared::Cups,
    ],
    own: &joined::<{ count(SPORTS_OWN) }>(SPORTS_OWN),
    has_trunk_loop: false,
    needs_ties: false,
    usual_fit: Fit::Regular,
    parts: None,
    draw: draw_sports,
};

/// Draws the crop top.
///
/// # Errors
/// Any [`Refusal`] of block or pieces.
fn draw_crop(job: &Job<'_>) -> Result<Drawn, Refusal> {
    if job.design.back_shape == BackShape::CrossedStraps {
        return Err(Refusal::Combination {
            parameter: "back",
            why: "crossed straps need a back lower than a crop top reaches; choose a racer, or a tankini",
        });
    }
    let mut drawn = Drawn::default();
    let torso = Torso::draw(job, Reach::Upper, &mut drawn.findings)?;
    let is_nursing = words::is_nursing(job)?;
    let wanted = wanted(job, &torso, is_nursing)?;
    top::draw(job, &torso, &wanted, &mut drawn)?;
    if is_nursing {
        drawn.findings.push(Finding {
            code: "draft.nursing",
            severity: Severity::Good,
            place: "front".into(),
            message: "shell and lining front are sewn together at neckline, armholes and sides; only the lining goes into the \
                      band, and the hemmed front hangs over it"
                .into(),
            value: None,
            limit: None,
            remedy: String::new(),
        });
    }
    let strap = job.design.strap_width.get();
    let hold = hold(
        job,
        &torso,
        &wanted,
        "a crop top",
        220.0,
        strap,
        "choose a sports top with princess seams and power mesh",
    );
    support::judge(job, &hold, &mut drawn)?;
    Ok(drawn)
}

/// Draws the sports top.
///
/// # Errors
/// Any [`Refusal`] of block or pieces.
fn draw_sports(job: &Job<'_>) -> Result<Drawn, Refusal> {
    let mut drawn = Drawn::default();
    let strap = job.number(&SPORTS_STRAP)?;
    let is_racer = job.word(&SPORTS_BACK)? == "racer";
    let shoulder = job.m.shoulder * job.k.x(units::Level::UpperChest);
    let flat = strap * job.k.shrink_around;
    within(
        SPORTS_STRAP.key,
        strap,
        (30.0, shoulder / job.k.shrink_around),
        "mm",
        "a strap no wider than the shoulder",
    )?;
    let torso = Torso::draw_with(job, Reach::Upper, &mut drawn.findings, |shape| {
        let half = 0.5 * flat / shoulder;
        let usual: f64 = if is_racer { 0.30 } else { 0.42 };
        shape.strap.width = flat;
        shape.strap.position = usual.clamp(half.min(0.5), (1.0 - half).max(0.5));
        shape.back_top = if is_racer {
            BackTop::Racer
        } else {
            BackTop::Scoop(Depth::Share(WIDE_BACK))
        };
    })?;
    let wanted = wanted(job, &torso, false)?;
    top::draw(job, &torso, &wanted, &mut drawn)?;
    let hold = hold(
        job,
        &torso,
        &wanted,
        "a sports top",
        280.0,
        strap,
        "wear it over a bra made for her, or have the cups fitted",
    );
    support::judge(job, &hold, &mut drawn)?;
    Ok(drawn)
}

fn wanted(job: &Job<'_>, torso: &Torso, is_nursing: bool) -> Result<Wanted, Refusal> {
    let block = &torso.block;
    let below = job.number(&BELOW_UNDERBUST)? * block.levels.k_side;
    Ok(Wanted {
        lower_y: top::underbust_y(job, block) - below,
        lower: words::lower(job)?,
        front: FrontUpper::Block,
        back: BackUpper::Block,
        is_hooked: words::is_hooked(job)?,
        slit: 0.0,
        mesh: words::mesh(job)?,
        filling: Filling::of(job)?,
        is_nursing,
        is_shelf: false,
    })
}

/// What a top of this family holds with.
pub(super) fn hold(
    job: &Job<'_>,
    torso: &Torso,
    wanted: &Wanted,
    what: &'static str,
    most_mm: f64,
    strap_mm: f64,
    instead: &'static str,
) -> Hold {
    Hold {
        what,
        most_mm,
        strap_mm: Some(strap_mm),
        underbust_room_mm: Some(match wanted.lower {
            Lower::Band(height) => support::room_in_band(height),
            Lower::Elastic => job.design.allowances.elastic_width.get(),
            Lower::Hem => 0.0,
        }),
        lining: match job.design.lining {
            LiningCover::None => LiningCover::None,
            _ => LiningCover::Front,
        },
        mesh: Some(wanted.mesh),
        is_shaped: torso.block.dart.is_some(),
        boned: None,
        instead,
    }
}
