//! The last look before a draft leaves: seams walked, runs over seams smooth, the torso loop right.
//!
//! Outlines themselves (closed, simple, with area, within their fold) are checked where each piece is built.
//!
//! **Source.** Limits: own; 0.5 mm is below what chalk can show, 2 degrees below what an eye sees in a run.

use kurbo::Vec2;
use units::Level;

use crate::block::{Block, BlockShape};
use crate::factors::FRONT_LENGTH_SHARE;
use crate::geometry::Curve;
use crate::refusal::{InvalidKind, Refusal};
use crate::style::Job;
use crate::suit::{SeamWalk, TrunkLoop};
use crate::trunk;

/// Seams that meet may differ by this much, mm.
pub(crate) const SEAM_TOLERANCE_MM: f64 = 0.5;
const KINK_TOLERANCE_DEG: f64 = 2.0;
const LOOP_TOLERANCE: f64 = 0.005;

/// Walks every seam.
///
/// # Errors
/// [`Refusal::Invalid`] for the first pair of edges that do not match.
pub(crate) fn seams(seams: &[SeamWalk]) -> Result<(), Refusal> {
    for seam in seams {
        let off = seam.error_mm();
        if is_over(off, SEAM_TOLERANCE_MM) {
            return Err(Refusal::Invalid {
                piece: seam.name,
                kind: InvalidKind::SeamMismatch,
                by: off,
            });
        }
    }
    Ok(())
}

/// Measures the drafted torso loop, notes it, and holds it against the body's.
///
/// # Errors
/// [`Refusal::Invalid`] when it is not the measured one.
pub(crate) fn torso_loop(
    job: &Job<'_>,
    block: &Block,
    shape: &BlockShape,
    trunk: &mut TrunkLoop,
) -> Result<(), Refusal> {
    let (f, b) = (&block.front, &block.back);
    let drafted = f.strap_mid.y + b.strap_mid.y - f.crotch.start().y - b.crotch.start().y;
    trunk.drafted_mm = Some(drafted);
    let front = if job.m.is_woman() {
        job.k.y(FRONT_LENGTH_SHARE)
    } else {
        job.k.y(1.0)
    };
    let factors = (job.k.y(1.0), front, job.k.x(Level::UpperChest));
    // A sway back's take-out is the one length the loop lacks on purpose.
    let meant = drafted + block.levels.back_take_out;
    let off = trunk::drafted_error(job.m, trunk, shape.strap.position, meant, factors);
    if is_over(off, LOOP_TOLERANCE) {
        return Err(Refusal::Invalid {
            piece: "torso",
            kind: InvalidKind::Loop,
            by: off,
        });
    }
    Ok(())
}

/// Whether a difference is past its limit; one that is no number is.
fn is_over(off: f64, limit: f64) -> bool {
    off.is_nan() || off.abs() > limit
}

/// Angle between two directions, degrees.
fn angle(a: Vec2, b: Vec2) -> f64 {
    a.cross(b).atan2(a.dot(b)).to_degrees()
}

/// An edge that goes on over a seam must leave it at angles on both pieces that add up to 180 degrees.
///
/// # Errors
/// [`Refusal::Invalid`] for the first that does not.
pub(crate) fn kinks(block: &Block) -> Result<(), Refusal> {
    let (f, b) = (&block.front, &block.back);
    // Interior angle between the end of one edge and the start of the next.
    let interior = |first: &Curve, second: &Curve| 180.0 - angle(first.end_tangent(), second.start_tangent());
    let front_side_end = block.dart.as_ref().map_or(&f.side, |d| &d.side_up);
    let front_side_start = block.dart.as_ref().map_or(&f.side, |d| &d.side_low);
    let pairs: [(&'static str, f64, f64); 5] = [
        (
            "leg over the side seam",
            interior(&f.leg, front_side_start),
            interior(&b.leg, &b.side),
        ),
        (
            "leg over the crotch seam",
            interior(&f.crotch, &f.leg),
            interior(&b.crotch, &b.leg),
        ),
        (
            "armhole over the side seam",
            interior(front_side_end, &f.armhole),
            interior(&b.side, &b.armhole),
        ),
        (
            "armhole over the shoulder",
            interior(&f.armhole, &f.shoulder),
            interior(&b.armhole, &b.shoulder),
        ),
        (
            "neckline over the shoulder",
            interior(&f.shoulder, &f.neck),
            interior(&b.shoulder, &b.neck),
        ),
    ];
    for (piece, one, other) in pairs {
        let kink = one + other - 180.0;
        if is_over(kink, KINK_TOLERANCE_DEG) {
            return Err(Refusal::Invalid {
                piece,
                kind: InvalidKind::Kink,
                by: kink,
            });
        }
    }
    Ok(())
}
