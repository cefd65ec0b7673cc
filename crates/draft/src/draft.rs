//! The draft itself: body, cloth and design in, a suit's pieces out, or a refusal.
//!
//! Order of work: dimensions as plain numbers, the trunk loop settled, the design's words turned into the block's parameters, the
//! block drawn, the style's pieces cut from it, everything checked. Nothing is given out that failed a check.

use body::Body;
use cloth::ClothPlan;

use crate::branch::Branches;
use crate::check;
use crate::design::Design;
use crate::factors::Factors;
use crate::figure;
use crate::measures::Measures;
use crate::refusal::Refusal;
use crate::resolve;
use crate::sides;
use crate::style::{Family, Job, judge_suit, place_motifs};
use crate::suit::Draft;

/// Stretch around below which nothing is drafted.
const LEAST_STRETCH: f64 = 0.10;

/// Drafts a suit.
///
/// A body that is not alike left and right ([`body::Dimensions::set_right`]) is drafted twice: pieces cut on the fold come out whole, one
/// half from each side, and pairs as a left and a right.
///
/// Deterministic: the same body, cloth and design give the same pieces. The pieces are checked: every outline simple, seams that
/// meet equal within 0.5 mm or by their stated ease, edges smooth over seams, the drafted torso loop the measured one.
///
/// # Errors
/// A [`Refusal`] when the body lacks a dimension, a parameter does not fit this body, trunk loop and parts disagree, the cloth
/// has no stretch, or a check of the draft itself failed.
///
/// # Example
/// ```
/// use body::{BodyForm, Dimension, Dimensions, FrontTaken, WaistLevel, Wearer, complete};
/// use cloth::{ClothPlan, Load};
/// use draft::{Design, draft};
/// use units::{Mm, Stretch};
///
/// let mut taken = Dimensions::default();
/// for (dimension, mm) in [
///     (Dimension::Stature, 1650.0), (Dimension::BustGirth, 920.0), (Dimension::UnderbustGirth, 780.0),
///     (Dimension::WaistGirth, 760.0), (Dimension::HipGirth, 1000.0), (Dimension::CrotchLength, 720.0),
///     (Dimension::BackWaistLength, 408.0), (Dimension::TrunkCircumference, 1620.0),
/// ] {
///     taken.set(dimension, Mm::new(mm));
/// }
/// let wearer = Wearer {
///     name: "Maren".into(),
///     form: BodyForm::Woman,
///     age_years: None,
///     mass_kg: None,
///     waist_level: WaistLevel::Natural,
///     front_taken: FrontTaken::OverBustPoint,
///     trust: None,
///     taken,
/// };
/// let (body, _) = complete(&wearer).expect("a plausible body");
/// let (around, lengthwise) = (Stretch::from_percent(85.0), Stretch::from_percent(60.0));
/// let cloth = ClothPlan::of_one_cloth("Slate tricot", around, lengthwise, Load::Hand);
/// let suit = draft(&body, &cloth, &Design::default()).expect("a beginner's one-piece");
/// assert_eq!(suit.pieces[0].name, "Front");
/// ```
pub fn draft(body: &Body, cloth: &ClothPlan, design: &Design) -> Result<Draft, Refusal> {
    let left_measures = Measures::of(body)?;
    let left = draft_measures(&left_measures, cloth, design)?;
    let Some(right_side) = body.right_side() else {
        return Ok(left);
    };
    if left.seams.iter().any(|s| s.name == "diagonal") {
        return Err(Refusal::Combination {
            parameter: "block_lines",
            why: "a diagonal front is not drafted for a body that is not alike left and right; choose other blocks",
        });
    }
    let mut right = Measures::of(&right_side)?;
    right.centre = left_measures.centre;
    // An estimated bust point moves with a solved front on both sides or on neither.
    right.is_bust_point_taken |= left_measures.is_bust_point_taken;
    sides::joined(left, draft_measures(&right, cloth, design)?)
}

/// The same from dimensions already read.
///
/// # Errors
/// As [`draft`].
pub(crate) fn draft_measures(taken: &Measures, cloth: &ClothPlan, design: &Design) -> Result<Draft, Refusal> {
    if cloth.around.ratio() < LEAST_STRETCH {
        return Err(Refusal::Parameter {
            parameter: "around",
            value: cloth.around.ratio(),
            low: LEAST_STRETCH,
            high: 2.0,
            unit: "",
            why: "a suit smaller than its wearer needs a cloth that stretches around the body",
        });
    }
    let k = Factors::new(cloth, design.fit);
    draft_by(taken, cloth, design, &k.of_style(design.style.spec()))
}

/// The same by given factors: the records of tops (`check_tops`) were drawn as suits are, shortened.
///
/// # Errors
/// As [`draft`].
pub(crate) fn draft_by(
    taken: &Measures,
    cloth: &ClothPlan,
    design: &Design,
    k: &Factors,
) -> Result<Draft, Refusal> {
    resolve::check_combination(taken, design)?;
    let m = &figure::applied(taken, design)?;

    let branches = Branches::default();
    let job = Job {
        m,
        k,
        cloth,
        design,
        branches: &branches,
    };
    let mut drawn = (design.style.spec().draw)(&job)?;
    if matches!(design.style.spec().family, Family::OnePiece | Family::Dress) && drawn.support.is_empty() {
        judge_suit(&job, &mut drawn)?;
    }
    place_motifs(&job, &mut drawn)?;
    for (i, piece) in drawn.pieces.iter_mut().enumerate() {
        piece.letter = char::from(b'A' + u8::try_from(i % 26).unwrap_or(0));
    }
    check::seams(&drawn.seams)?;
    if let Some(trunk) = &mut drawn.trunk {
        // What was drafted has room to grow; what was taken has not.
        trunk.measured_mm = taken.trunk;
        trunk.parts_mm -= design.growth.get();
    }
    drawn.findings.extend(figure::findings(design));
    Ok(Draft {
        style: design.style,
        pieces: drawn.pieces,
        seams: drawn.seams,
        open_edges: drawn.open_edges,
        levels: drawn.levels,
        openings: drawn.openings,
        loop_rungs: drawn.loop_rungs,
        trunk: drawn.trunk,
        finished: drawn.finished,
        support: drawn.support,
        findings: drawn.findings,
        branches: branches.into_list(),
        strap_mid: drawn.strap_mid,
    })
}
