//! The tankini: a top that hangs over waist and hips, as tight as a suit above and relaxed below the under-bust.
//!
//! **Source.** Construction own: the block down to a share of waist to hip, its waist and hips no tighter than a relaxed fit, its waist
//! wide enough for the shoulders that must pass it, a cone hem that hangs level.
//! **Limits.** Never sewn. It rides up in water; the slit lets it lie flat on the hips.

use body::BodyForm;
use cloth::Fit;
use units::{Finding, Severity};

use super::top::support;
use super::top::words::{LINING_LENGTH, NURSING};
use super::top::{self, BackUpper, Filling, FrontUpper, Lower, Wanted, words};
use super::torso::Torso;
use super::{Drawn, Family, Job, Reach, StyleSpec, crop_top};
use crate::design::{BackShape, LiningCover};
use crate::parameter::{Parameter, Shared, count, joined};
use crate::refusal::Refusal;

/// Where it ends.
pub(super) const HEM_HEIGHT: Parameter = Parameter::share(
    "hem_height",
    "Hem",
    "where the top ends between waist (0) and hip (1)",
    (0.15, 0.85, 1.00),
);

/// Slits at the sides.
pub(super) const SIDE_SLIT: Parameter = Parameter::length(
    "side_slit",
    "Side slits",
    "open at the lower end of each side seam, so that the hem lies flat over the hips; 0 for none",
    (0.0, 0.0, 90.0),
);

/// What a maker may set.
const OWN: &[&[Parameter]] = &[&[HEM_HEIGHT, SIDE_SLIT, LINING_LENGTH], words::FILLED, &[NURSING]];

pub(super) const STYLE: StyleSpec = StyleSpec {
    key: "tankini",
    name: "Tankini",
    says: "a top down over the hips, relaxed below the bust, worn with a bottom",
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
    own: &joined::<{ count(OWN) }>(OWN),
    has_trunk_loop: false,
    needs_ties: false,
    usual_fit: Fit::Regular,
    parts: None,
    draw,
};

/// Draws the tankini.
///
/// # Errors
/// Any [`Refusal`] of block or pieces.
fn draw(job: &Job<'_>) -> Result<Drawn, Refusal> {
    let relaxed = job.k.relaxed_below_the_bust();
    let job = &Job { k: &relaxed, ..*job };
    let mut drawn = Drawn::default();
    let hem = job.number(&HEM_HEIGHT)?;
    let torso = Torso::draw_with(job, Reach::Upper, &mut drawn.findings, |shape| {
        shape.waist_passes = Some(job.m.over_the_shoulders());
        // The block's leg is not drawn; its place must only lie below the hem.
        shape.leg_share = 1.0;
    })?;
    let block = &torso.block;
    let wanted = Wanted {
        lower_y: hem * block.levels.hip_y,
        lower: Lower::Hem,
        front: FrontUpper::Block,
        back: if job.design.back_shape == BackShape::CrossedStraps {
            BackUpper::Crossed
        } else {
            BackUpper::Block
        },
        is_hooked: false,
        slit: job.number(&SIDE_SLIT)? * block.levels.k_side,
        mesh: words::mesh(job)?,
        filling: Filling::of(job)?,
        is_nursing: false,
        is_shelf: false,
    };
    let has_shelf = job.word(&LINING_LENGTH)? == "shelf";
    let is_nursing = words::is_nursing(job)?;
    if is_nursing && !has_shelf {
        return Err(Refusal::Combination {
            parameter: NURSING.key,
            why: "a tankini is lifted off its shelf to nurse; set lining_length to \"shelf\"",
        });
    }
    if is_nursing {
        drawn.findings.push(Finding {
            code: "draft.nursing",
            severity: Severity::Good,
            place: "front".into(),
            message: "the top is lifted from its hem, and the shelf under it holds; baste the openings and try them sitting before they are cut"
                .into(),
            value: None,
            limit: None,
            remedy: String::new(),
        });
    }
    if has_shelf {
        top::draw_with_shelf(job, &torso, &wanted, is_nursing, &mut drawn)?;
    } else {
        top::draw(job, &torso, &wanted, &mut drawn)?;
    }
    let strap = job.design.strap_width.get();
    let mut hold = crop_top::hold(
        job,
        &torso,
        &wanted,
        "a tankini",
        220.0,
        strap,
        "choose a sports top, or wear one under it",
    );
    // A shelf's elastic is sewn on flat: it may be as wide as the trade's widest.
    let is_held = has_shelf && job.design.lining != LiningCover::None;
    hold.underbust_room_mm = Some(if is_held { 25.0 } else { 0.0 });
    support::judge(job, &hold, &mut drawn)?;
    Ok(drawn)
}
