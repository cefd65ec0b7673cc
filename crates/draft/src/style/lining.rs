//! The crotch lining: from a little behind the crotch seam to the front, in one piece without a seam.
//!
//! **Source.** Reach 95 mm to the front and 45 mm behind: common practice, no single source.

use cloth::Layer;
use kurbo::Point;

use super::{Job, Widths};
use crate::block::Half;
use crate::build::{PieceBuilder, placement};
use crate::geometry::Curve;
use crate::piece::{EdgeUse, OpenKind, Piece};
use crate::refusal::Refusal;

const FRONT_REACH: f64 = 95.0;
const BACK_REACH: f64 = 45.0;
/// On a short leg line the lining stops at this share of its height.
const LEG_SHARE: f64 = 0.8;

fn reach(half: &Half, is_front: bool) -> f64 {
    let height = half.leg.end().y - half.leg.start().y;
    wanted_reach(is_front).min(LEG_SHARE * height)
}

const fn wanted_reach(is_front: bool) -> f64 {
    if is_front { FRONT_REACH } else { BACK_REACH }
}

/// Whether a leg line of that height, mm, is too short for the lining's whole reach.
pub(crate) fn is_short(height: f64, is_front: bool) -> bool {
    LEG_SHARE * height < wanted_reach(is_front)
}

/// The leg line from the crotch corner up to the lining's end.
fn leg_part(half: &Half, is_front: bool) -> Curve {
    let y = half.leg.start().y + reach(half, is_front);
    let s = half.leg.length_to_height(y).unwrap_or(0.0);
    half.leg.split_at(s).0
}

/// Draws the crotch lining, crotch seam at y = 0.
///
/// # Errors
/// Any [`Refusal`] of the piece.
pub(super) fn crotch(job: &Job<'_>, front: &Half, back: &Half) -> Result<Piece, Refusal> {
    let w = Widths::lining(job.design);
    let corner = front.leg.start();
    let front_leg = leg_part(front, true).map(|p| Point::new(p.x, p.y - corner.y));
    let behind = back.leg.start().y;
    // Turned over the crotch seam: y mirrored, travel reversed, so that it runs from its back end to the seam.
    let back_leg = leg_part(back, false)
        .map(|p| Point::new(p.x, behind - p.y))
        .reversed();
    let (low, high) = (back_leg.start(), front_leg.end());
    let leg = back_leg.ending_at(front_leg.start()).then(&front_leg);
    PieceBuilder::new("crotch_lining", "Crotch lining", true)
        .edge(
            "back_end",
            EdgeUse::Raw,
            Curve::line(Point::new(0.0, low.y), low),
            0.0,
        )
        .edge("leg", EdgeUse::Open(OpenKind::Leg), leg, w.open)
        .edge(
            "front_end",
            EdgeUse::Raw,
            Curve::line(high, Point::new(0.0, high.y)),
            0.0,
        )
        .edge(
            "fold",
            EdgeUse::Fold,
            Curve::line(Point::new(0.0, high.y), Point::new(0.0, low.y)),
            0.0,
        )
        .mark(placement(
            Point::new(0.0, 0.0),
            Point::new(corner.x, 0.0),
            "crotch seam",
        ))
        .build(&[(Layer::Lining, 1, false)], job.cloth)
}

/// Where the crotch lining ends on the shell.
pub(super) fn end_mark(b: PieceBuilder, half: &Half, is_front: bool) -> PieceBuilder {
    let end = leg_part(half, is_front).end();
    b.mark(placement(Point::new(0.0, end.y), end, "crotch lining ends"))
}
