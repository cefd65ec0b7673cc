//! The halter top: the front drawn up to a strap behind the neck, the back straight from underarm to underarm.
//!
//! **Source.** Strap place, width and the share of the neck girth behind it: own; tie length common practice, no single source.
//! **Limits.** Never sewn. The strap's length is a third of the neck base girth and wants a try-on. Women only: ties at the neck are not
//! drafted for children.

use body::BodyForm;
use cloth::Fit;
use units::{Finding, Severity};

use super::top::support;
use super::top::words::{BELOW_UNDERBUST, NECK_STRAP};
use super::top::{self, BackUpper, Filling, FrontUpper, HALTER_STRAP, Wanted, words};
use super::torso::Torso;
use super::{Drawn, Family, Job, Reach, StyleSpec, crop_top};
use crate::parameter::{Parameter, Shared, count, joined};
use crate::refusal::Refusal;

/// What a maker may set.
const OWN: &[&[Parameter]] = &[&[NECK_STRAP], words::BANDED, words::FILLED];

pub(super) const STYLE: StyleSpec = StyleSpec {
    key: "halter-top",
    name: "Halter top",
    says: "a top held by a strap behind the neck, the shoulders bare",
    family: Family::Top,
    wearers: &[BodyForm::Woman],
    shared: &[
        Shared::Neckline,
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

/// Draws the halter top.
///
/// # Errors
/// Any [`Refusal`] of block or pieces.
fn draw(job: &Job<'_>) -> Result<Drawn, Refusal> {
    let mut drawn = Drawn::default();
    let torso = Torso::draw(job, Reach::Upper, &mut drawn.findings)?;
    let block = &torso.block;
    let wanted = Wanted {
        lower_y: top::underbust_y(job, block) - job.number(&BELOW_UNDERBUST)? * block.levels.k_side,
        lower: words::lower(job)?,
        front: FrontUpper::Halter,
        back: BackUpper::Across,
        is_hooked: words::is_hooked(job)?,
        slit: 0.0,
        mesh: words::mesh(job)?,
        filling: Filling::of(job)?,
        is_nursing: false,
        is_shelf: false,
    };
    top::draw(job, &torso, &wanted, &mut drawn)?;
    drawn.findings.push(Finding {
        code: "draft.strap_try",
        severity: Severity::Watch,
        place: "neck strap".into(),
        message: "the neck strap is cut by a share of the neck girth, and the neck carries the bust".into(),
        value: None,
        limit: None,
        remedy:
            "baste it, try the top on, then set its length; for a long day choose straps over the shoulders"
                .into(),
    });
    let hold = crop_top::hold(
        job,
        &torso,
        &wanted,
        "a halter top",
        200.0,
        HALTER_STRAP,
        "choose a crop top or a sports top: shoulders carry more than a neck",
    );
    support::judge(job, &hold, &mut drawn)?;
    Ok(drawn)
}
