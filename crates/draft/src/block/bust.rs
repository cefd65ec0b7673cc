//! Shaping over the bust: ease along the front side, or a side dart.
//!
//! The bust length difference D is how much longer the front is than the back from side neck to waist. Up to 20 mm the
//! cloth takes it; up to 45 mm it is eased into the side seam; above that a dart takes it out.
//!
//! **Source.** Thresholds and intake: own. Dart point 25 mm short of the bust point: common practice, no single source.
//! **Limits.** One dart per side, at most 60 mm; a larger one needs princess seams.

use body::Dimension;
use kurbo::{Point, Vec2};

use super::levels::Levels;
use crate::geometry::{Curve, Profile, turn, turn_about, unit};
use crate::refusal::Refusal;

/// Bust length difference the cloth takes by itself, mm on the body.
pub(crate) const TAKEN_BY_CLOTH: f64 = 20.0;
/// Bust length difference that can be eased, mm on the body.
pub(crate) const TAKEN_BY_EASE: f64 = 45.0;

/// The most that is eased into a front side, mm on the body.
pub(crate) const MOST_EASE: f64 = 12.0;
/// A dart's mouth lies this far below the bust point, mm flat, unless leg or underarm hold it off.
pub(crate) const MOUTH_BELOW_BUST: f64 = 15.0;

/// A side dart in the front half, open on the flat.
#[derive(Clone, Debug)]
pub(crate) struct Dart {
    /// Width of its mouth, mm flat.
    pub(crate) intake: f64,
    /// The bust point it aims at.
    pub(crate) bust_point: Point,
    /// Its point.
    pub(crate) point: Point,
    /// Lower end of its mouth, on the side seam.
    pub(crate) mouth_low: Point,
    /// Side seam from the leg to the mouth.
    pub(crate) side_low: Curve,
    /// Side seam from the mouth to the underarm, turned open.
    pub(crate) side_up: Curve,
    pub(crate) underarm: Point,
    pub(crate) underarm_tangent: Vec2,
}

impl Dart {
    pub(super) fn open(
        levels: &Levels,
        profile: &Profile,
        side: &Curve,
        intake: f64,
    ) -> Result<Dart, Refusal> {
        let underarm = side.end();
        let y = (levels.bust_point_y - MOUTH_BELOW_BUST)
            .max(levels.leg_y + 60.0)
            .min(underarm.y - 55.0);
        let mouth = Point::new(profile.at(y), y);
        let bust_point = Point::new(levels.bust_point_x, levels.bust_point_y);
        if (mouth - bust_point).hypot() < 25.0 + intake {
            return Err(Refusal::Dimensions {
                dimension: Dimension::BustPointDistance,
                why: "the bust points lie too near the side seam for a dart; take the distance again, or use princess seams",
            });
        }
        let point = bust_point + unit(mouth - bust_point) * 25.0;
        let angle = 2.0 * (intake / (2.0 * (mouth - point).hypot())).asin();
        let at = side.length_to_height(y).unwrap_or(0.0);
        let (low, up) = side.split_at(at);
        let side_up = up.map(|p| turn_about(p, point, angle));
        Ok(Dart {
            intake,
            bust_point,
            point,
            mouth_low: low.end(),
            underarm: side_up.end(),
            underarm_tangent: turn(side.end_tangent(), angle),
            side_low: low,
            side_up,
        })
    }
}

/// Where extra length of the front side is eased in.
#[derive(Clone, Copy, Debug)]
pub(crate) struct SideEase {
    /// How much, mm flat.
    pub(crate) amount: f64,
    /// Length along the front side, from the leg, where easing begins and ends.
    pub(crate) from: f64,
    pub(crate) to: f64,
}

impl SideEase {
    /// Between the under-bust and 20 mm below the underarm.
    pub(super) fn new(levels: &Levels, front_side: &Curve, amount: f64) -> SideEase {
        let total = front_side.length();
        let from = levels.underbust_y(true).unwrap_or(0.4 * levels.underarm_y);
        let from = front_side.length_to_height(from).unwrap_or(0.5 * total);
        SideEase {
            amount,
            from,
            to: (total - 20.0).max(from + 20.0).min(total),
        }
    }
}
