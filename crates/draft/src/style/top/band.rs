//! Straight bands: the one under the bust, a strip folded lengthwise round its elastic; waistbands; the strap of a halter.
//!
//! **Source.** Cut at 1.4 of the fit's share of the stretch, because the band holds: own. Both long edges are sewn to the top.

use cloth::Layer;
use kurbo::Point;

use super::HOOK_FACING;
use crate::build::{PieceBuilder, arc_end, placement};
use crate::geometry::Curve;
use crate::piece::{EdgeUse, Piece};
use crate::refusal::Refusal;
use crate::style::{Job, Widths};

/// Half a straight band on the fold, its other end joined: edges `lower`, `join`, `upper` and `fold`, from the fold's foot.
pub(crate) fn on_fold(
    (key, name): (&'static str, &'static str),
    (half, tall): (f64, f64),
    seam: f64,
) -> PieceBuilder {
    let [lower, join, upper, fold] = sides(half, tall);
    PieceBuilder::new(key, name, true)
        .edge("lower", EdgeUse::Seam, lower, seam)
        .edge("join", EdgeUse::Seam, join, seam)
        .edge("upper", EdgeUse::Seam, upper, seam)
        .edge("fold", EdgeUse::Fold, fold, 0.0)
}

/// A rectangle from the origin: right, up, left, down.
fn sides(width: f64, height: f64) -> [Curve; 4] {
    let p = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)].map(Point::from);
    std::array::from_fn(|i| Curve::line(p[i], p[(i + 1) % 4]))
}

/// The band of one half, on the fold at the centre front: `front` and `back` its parts, `height` finished, mm flat.
pub(super) fn piece(
    job: &Job<'_>,
    (front, back): (f64, f64),
    height: f64,
    is_hooked: bool,
    has_quarter: bool,
) -> Result<Piece, Refusal> {
    let w = Widths::shell(job.design);
    let length = front + back;
    let [lower, end, upper, fold] = sides(length, 2.0 * height);
    let (end_use, end_width) = if is_hooked {
        (EdgeUse::Raw, HOOK_FACING)
    } else {
        (EdgeUse::Seam, w.seam)
    };
    let mut b = PieceBuilder::new("band", "Band", true)
        .edge("lower", EdgeUse::Seam, lower.clone(), w.seam)
        .edge("end", end_use, end, end_width)
        .edge("upper", EdgeUse::Seam, upper, w.seam)
        .edge("fold", EdgeUse::Fold, fold, 0.0)
        .notch("lower", 0.0, "band_centre", false)
        .notch("upper", length, "band_centre", false)
        .notch("lower", front, "band_side", false)
        .notch("upper", back, "band_side", false)
        .notch("lower", front + 0.5 * back, "band_back", true)
        .notch("upper", 0.5 * back, "band_back", true)
        .mark(placement(
            Point::new(0.0, height),
            Point::new(length, height),
            "fold",
        ))
        .mark(arc_end(&lower, front, 'o'))
        .mark(arc_end(&lower, length, 'p'));
    if has_quarter {
        b = b.notch("lower", 0.5 * front, "band_front", false).notch(
            "upper",
            back + 0.5 * front,
            "band_front",
            false,
        );
    }
    b.build(&[(Layer::Shell, 1, false)], job.cloth)
}

/// A strip folded lengthwise: finished `width`, `length`, mm flat, two of them. `at` marks a place along it.
pub(crate) fn strip(
    job: &Job<'_>,
    (key, name): (&'static str, &'static str),
    (width, length): (f64, f64),
    at: Option<(f64, &str)>,
    count: u32,
) -> Result<Piece, Refusal> {
    let w = Widths::shell(job.design);
    let [foot, right, head, left] = sides(2.0 * width, length);
    let mut b = PieceBuilder::new(key, name, false)
        .edge("end", EdgeUse::Seam, foot, w.seam)
        .edge("long_right", EdgeUse::Seam, right, w.seam)
        .edge("free_end", EdgeUse::Raw, head, w.seam)
        .edge("long_left", EdgeUse::Seam, left, w.seam)
        .mark(placement(
            Point::new(width, 0.0),
            Point::new(width, length),
            "fold",
        ));
    if let Some((y, text)) = at {
        b = b.mark(placement(Point::new(0.0, y), Point::new(2.0 * width, y), text));
    }
    b.build(&[(Layer::Shell, count, false)], job.cloth)
}
