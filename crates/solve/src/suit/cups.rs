//! Cups: where one is sewn or slipped in, the cloth is stiffer.
//!
//! The draft marks a cup's place by a ring. Under the triangles whose middle lies in it comes a layer that makes the cloth there so many times as
//! stiff; the ring is followed to a triangle's width.
//!
//! **Shapes and units.** mm, flat.
//! **Source.** The factor is own: nothing was measured.
//! **Limits.** A cup has a dome of its own, the layer is as flat as the cloth: what it presses with on the bust is overstated. Rings that are
//! cut by a princess seam, and cups of one side only, are left out and said so.

use draft::{Mark, Piece};
use kurbo::Point;

use super::inside::{FLAT_MM, holds};

/// Layer of what stiffens the shell.
pub(super) const STIFFENING_LAYER: usize = 2;
/// How many times as stiff as the shell alone it is with a cup (own, not measured).
pub const CUP_STIFFNESS: f64 = 3.0;
/// Ends of a ring lie this near to each other, mm.
const CLOSED_MM: f64 = 1.0;

/// The rings of the cups that are marked on a piece.
pub(super) fn rings(piece: &Piece) -> Vec<Vec<Point>> {
    piece
        .marks
        .iter()
        .filter_map(|mark| match mark {
            Mark::Placement { curve, text } if text == "cup" => {
                let is_ring = (curve.start() - curve.end()).hypot() < CLOSED_MM;
                is_ring.then(|| curve.flatten(FLAT_MM))
            }
            _ => None,
        })
        .collect()
}

/// Whether a flat point lies in one of the rings.
pub(super) fn lies_in(rings: &[Vec<Point>], [x, y]: [f64; 2]) -> bool {
    rings.iter().any(|ring| holds(ring, Point::new(x, y)))
}
