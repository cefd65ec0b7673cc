//! The leg line: straighter and scooped in front, full over the seat behind.
//!
//! Both halves leave the crotch upright and the side seam square, so the leg opening runs smooth over both seams.
//!
//! **Source.** Handle shares own, tuned by eye; straighter front and curved back are common practice, no single source.
//! **Limits.** A back bulge over +0.01 gives a bell shape and is never asked for.

use kurbo::{Point, Vec2};

use crate::geometry::{Curve, inward, turn, unit};

/// The upright handle at the crotch, share of the leg's chord; and the most it may be of the leg's height.
const UP: f64 = 0.36;
const MOST_UP: f64 = 0.9;

/// Whether a front leg's upright handle is held to its height.
pub(crate) fn is_held(leg: &Curve) -> bool {
    let (corner, low) = (leg.start(), leg.end());
    UP * (corner - low).hypot() > MOST_UP * (low.y - corner.y)
}

/// Front leg from the crotch corner to the side seam's lower end.
pub(super) fn front(corner: Point, low: Point, seam_tangent: Vec2) -> Curve {
    let length = (corner - low).hypot();
    // On a leg cut low over a short crotch the upright handle must not rise past the side.
    let up = (UP * length).min(MOST_UP * (low.y - corner.y));
    Curve::cubic(
        corner,
        corner + Vec2::new(0.0, up),
        low + inward(seam_tangent) * (0.40 * length),
        low,
    )
}

/// Back leg; `seat` is the bulge of its middle point off the chord, as a share of the chord.
pub(super) fn back(corner: Point, low: Point, seam_tangent: Vec2, seat: f64) -> Curve {
    let chord = corner - low;
    let along = unit(chord);
    let outside = turn(along, std::f64::consts::FRAC_PI_2);
    let mid = low + chord * 0.52 + outside * (seat * chord.hypot());
    let (a, b) = ((mid - low).hypot(), (corner - mid).hypot());
    Curve::cubic(
        corner,
        corner + Vec2::new(0.0, 0.44 * b),
        mid + along * (0.40 * b),
        mid,
    )
    .then(&Curve::cubic(
        mid,
        mid - along * (0.40 * a),
        low + inward(seam_tangent) * (0.40 * a),
        low,
    ))
}
