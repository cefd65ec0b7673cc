//! The one-piece block: front and back halves of the basic body before a style changes them.
//!
//! Levels set heights and half widths; a smooth profile through them is the side seam; crotch, leg, strap, neck and armhole
//! hang from it. Every edge that goes on over a sewn seam leaves that seam at 90 degrees on both pieces, so runs are smooth
//! without any fitting.
//!
//! **Shapes and units.** mm on relaxed cloth; fold x = 0, waist y = 0, y up; counter-clockwise.
//! **Source.** The construction and its handle shares are our own; common practice where a comment says so.
//! **Limits.** Symmetric bodies. Men's one-pieces are drawn but not offered.

mod bust;
mod leg;
mod levels;
mod neck;

pub(crate) use bust::{Dart, MOST_EASE, MOUTH_BELOW_BUST, SideEase, TAKEN_BY_CLOTH, TAKEN_BY_EASE};
pub(crate) use leg::is_held as is_leg_held;
pub(crate) use levels::{BustRule, HipWidths, Levels, MOST_FLARE, UNDERBUST_WEIGHT};
pub(crate) use neck::{BackTop, Depth, FrontTop, LEAST_ARMHOLE_REACH, Strap};

use body::BodyForm;
use kurbo::{Point, Vec2};

use crate::factors::Factors;
use crate::geometry::{Curve, Profile, root};
use crate::measures::Measures;
use crate::refusal::{InvalidKind, Refusal};
use crate::suit::TrunkLoop;

/// The style parameters the block itself needs, already in the units of the formulas.
#[derive(Clone, Copy, Debug)]
pub(crate) struct BlockShape {
    /// Leg height as a share of waist to hip below the waist.
    pub(crate) leg_share: f64,
    /// Bulge of the back leg, share of its chord: less negative covers more.
    pub(crate) seat: f64,
    /// Half the crotch width, mm flat.
    pub(crate) half_crotch: f64,
    /// How far the armhole is lowered, mm on the body.
    pub(crate) drop: f64,
    pub(crate) front_top: FrontTop,
    pub(crate) back_top: BackTop,
    pub(crate) strap: Strap,
    /// Shaping over the bust; decided before the block is drawn.
    pub(crate) bust: BustWork,
    /// How far the under-bust is drawn in from the straight line bust to waist towards its own girth: [`UNDERBUST_WEIGHT`], or 1
    /// with a seam there.
    pub(crate) underbust_weight: f64,
    /// Whether the waist is widened so that it passes the hips.
    pub(crate) has_way_in_rule: bool,
    /// The girth the waist must pass by that rule where it is not the hips: shoulders, for a top that is pulled on.
    pub(crate) waist_passes: Option<f64>,
}

/// How the front is shaped over the bust.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum BustWork {
    /// Nothing.
    Plain,
    /// Extra length on the front side, eased in: mm flat.
    Ease(f64),
    /// A side dart of this intake, mm flat.
    Dart(f64),
}

/// One half of the block.
#[derive(Clone, Debug)]
pub(crate) struct Half {
    pub(crate) crotch: Curve,
    /// From the crotch to the side.
    pub(crate) leg: Curve,
    /// From the leg up to the underarm; the whole of it, darted or not, before the dart is opened.
    pub(crate) side: Curve,
    pub(crate) armhole: Curve,
    pub(crate) shoulder: Curve,
    pub(crate) neck: Curve,
    pub(crate) fold: Curve,
    /// Underarm point and the seam's tangent there, after a dart has turned them.
    pub(crate) underarm: Point,
    pub(crate) profile: Profile,
    /// Middle of the strap at the shoulder.
    pub(crate) strap_mid: Point,
}

/// Front and back halves with what they were drawn from.
#[derive(Clone, Debug)]
pub(crate) struct Block {
    pub(crate) front: Half,
    pub(crate) back: Half,
    pub(crate) levels: Levels,
    pub(crate) dart: Option<Dart>,
    pub(crate) ease: Option<SideEase>,
    /// Factor on the waist so that it passes the hips; 1 when it does anyway.
    pub(crate) waist_widening: f64,
}

impl Block {
    /// Draws both halves.
    ///
    /// # Errors
    /// [`Refusal::Dimensions`] when the levels of this body do not lie in order, [`Refusal::Parameter`] for a neckline, back
    /// or strap that does not fit on it, [`Refusal::Invalid`] when the back side cannot be made as long as the front's.
    pub(crate) fn draw(
        m: &Measures,
        k: &Factors,
        t: &TrunkLoop,
        shape: &BlockShape,
    ) -> Result<Block, Refusal> {
        let levels = Levels::of(m, k, t, shape)?;
        let ease = match shape.bust {
            BustWork::Ease(mm) => mm,
            _ => 0.0,
        };

        let front_profile = levels.profile(true, levels.underarm_y + ease);
        let front_side = front_profile.between(levels.leg_y, levels.underarm_y + ease);
        let back_profile = levels.profile(false, levels.underarm_y);
        let want = front_side.length() - ease;
        let top = root(
            |y| back_profile.between(levels.leg_y, y).length() - want,
            levels.underarm_y - 25.0,
            levels.underarm_y + 25.0,
        )
        .ok_or(Refusal::Invalid {
            piece: "back",
            kind: InvalidKind::SeamMismatch,
            by: 25.0,
        })?;
        let back_side = back_profile.between(levels.leg_y, top);

        let mut front_side_drawn = front_side.clone();
        let (mut underarm, mut tangent) = (front_side.end(), front_side.end_tangent());
        let dart = match shape.bust {
            BustWork::Dart(intake) => {
                let dart = Dart::open(&levels, &front_profile, &front_side, intake)?;
                (underarm, tangent) = (dart.underarm, dart.underarm_tangent);
                front_side_drawn = front_side;
                Some(dart)
            }
            _ => None,
        };
        let front = half(
            &levels,
            shape,
            true,
            front_profile,
            front_side_drawn,
            underarm,
            tangent,
        )?;
        let (back_end, back_tangent) = (back_side.end(), back_side.end_tangent());
        let back = half(
            &levels,
            shape,
            false,
            back_profile,
            back_side,
            back_end,
            back_tangent,
        )?;
        let ease = (ease > 0.0).then(|| SideEase::new(&levels, &front.side, ease));
        let waist_widening = levels.waist_widening;
        Ok(Block {
            front,
            back,
            levels,
            dart,
            ease,
            waist_widening,
        })
    }
}

/// The leg line from the crotch corner to the lower end of a side whose tangent there, upwards, is `seam_tangent`; `seat` is the
/// bulge of a back leg, `None` for a front.
pub(crate) fn leg_line(corner: Point, low: Point, seam_tangent: Vec2, seat: Option<f64>) -> Curve {
    match seat {
        None => leg::front(corner, low, seam_tangent),
        Some(seat) => leg::back(corner, low, seam_tangent, seat),
    }
}

fn half(
    levels: &Levels,
    shape: &BlockShape,
    is_front: bool,
    profile: Profile,
    side: Curve,
    underarm: Point,
    underarm_tangent: Vec2,
) -> Result<Half, Refusal> {
    let low = side.start();
    let crotch_y = -if is_front {
        levels.front_crotch
    } else {
        levels.back_crotch
    };
    let corner = Point::new(shape.half_crotch, crotch_y);
    if crotch_y > low.y - 20.0 {
        return Err(Refusal::Dimensions {
            dimension: body::Dimension::CrotchLength,
            why: "the crotch would come out above the leg line; take the total crotch length and waist to hip again, or cut the leg higher",
        });
    }
    let seat = (!is_front).then_some(shape.seat);
    let leg = leg_line(corner, low, side.start_tangent(), seat);
    let top = neck::draw(levels, shape, is_front, underarm, underarm_tangent)?;
    let foot = Point::new(0.0, crotch_y);
    let fold = Curve::line(top.neck.end(), foot);
    Ok(Half {
        crotch: Curve::line(foot, corner),
        leg,
        side,
        armhole: top.armhole,
        shoulder: top.shoulder,
        neck: top.neck,
        fold,
        underarm,
        profile,
        strap_mid: top.strap_mid,
    })
}

/// Half the usual crotch width on the flat piece, mm: finished 66 women, 84 men, 54 children (common practice 60 to 75 for
/// women, no single source).
pub(crate) fn usual_half_crotch(form: BodyForm) -> f64 {
    match form {
        BodyForm::Woman => 33.0,
        BodyForm::Man => 42.0,
        BodyForm::Child => 27.0,
    }
}

/// How far the armhole is lowered for a sleeveless suit, mm on the body (own).
pub(crate) fn usual_drop(form: BodyForm) -> f64 {
    match form {
        BodyForm::Woman => 5.0,
        BodyForm::Man | BodyForm::Child => 15.0,
    }
}
