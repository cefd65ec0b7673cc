//! Crossed straps: a low back without a strap of its own, and two straps that run over the shoulders and cross.
//!
//! Each strap is a strip folded lengthwise, as long as the straight way on the flat back from the shoulder to its place on the other
//! half of the back's top edge. The flat back is already reduced, so the strap is not reduced again.
//!
//! **Source.** Common practice, no single source; the place of attachment is own.
//! **Limits.** Never sewn. Baste, try on and trim, as for any fixed strap.

use cloth::Layer;
use kurbo::{Point, Vec2};
use units::{Finding, Severity};

use super::{Drawn, Job, Widths};
use crate::block::{Block, Half};
use crate::build::PieceBuilder;
use crate::geometry::{Curve, inward};
use crate::piece::{EdgeUse, Mark};
use crate::refusal::Refusal;
use crate::suit::FinishedMeasure;

/// Share of the back's half width at the underarm where a strap is attached, on the other half.
const ATTACHED_AT: f64 = 0.45;
/// Overlap at each end, mm.
const OVERLAP: f64 = 20.0;

/// The back's top edge from the underarm to the fold: a shallow scoop.
pub(super) fn back_top(back: &Half) -> Curve {
    let from = back.side.end();
    let low = back.neck.end();
    let t = back.side.end_tangent();
    Curve::cubic(
        from,
        from + inward(t) * (0.40 * from.x),
        low + Vec2::new(0.45 * from.x, 0.0),
        low,
    )
}

/// Where the strap of the other side is attached.
fn attachment(top: &Curve) -> Point {
    let x = ATTACHED_AT * top.start().x;
    let cubic = top.cubics().first();
    let point = cubic.and_then(|c| {
        use kurbo::ParamCurve;
        crate::geometry::root(|t| c.eval(t).x - x, 0.0, 1.0).map(|t| c.eval(t))
    });
    point.unwrap_or_else(|| top.end())
}

/// Length of the strap's way on the flat back, mm.
pub(super) fn path_length(block: &Block, top: &Curve) -> f64 {
    let place = attachment(top);
    (block.back.strap_mid - Point::new(-place.x, place.y)).hypot()
}

/// Length of the back's top edge between the two straps, mm.
pub(super) fn between_attachments(top: &Curve) -> f64 {
    let place = attachment(top);
    let s = top.reversed();
    // From the fold outwards the edge rises.
    2.0 * s
        .length_to_height(place.y)
        .unwrap_or_else(|| s.length() * ATTACHED_AT)
}

pub(super) fn attachment_mark(b: PieceBuilder, top: &Curve) -> PieceBuilder {
    b.mark(Mark::Cross {
        at: attachment(top),
        text: "strap of the other side".into(),
    })
}

/// Adds the strap piece.
///
/// # Errors
/// Any [`Refusal`] of the piece.
pub(super) fn add(job: &Job<'_>, block: &Block, top: &Curve, drawn: &mut Drawn) -> Result<(), Refusal> {
    let w = Widths::shell(job.design);
    let width = job.design.strap_width.get() * job.k.shrink_around;
    let way = path_length(block, top);
    let length = way + 2.0 * OVERLAP;
    let corners = [
        (0.0, 0.0),
        (2.0 * width, 0.0),
        (2.0 * width, length),
        (0.0, length),
    ]
    .map(Point::from);
    let line = |i: usize| Curve::line(corners[i], corners[(i + 1) % 4]);
    let piece = PieceBuilder::new("strap", "Strap", false)
        .edge("end_back", EdgeUse::Raw, line(0), 0.0)
        .edge("long_right", EdgeUse::Seam, line(1), w.seam)
        .edge("end_front", EdgeUse::Raw, line(2), 0.0)
        .edge("long_left", EdgeUse::Seam, line(3), w.seam)
        .mark(crate::build::placement(
            Point::new(width, 0.0),
            Point::new(width, length),
            "fold",
        ))
        .mark(crate::build::placement(
            Point::new(0.0, OVERLAP),
            Point::new(2.0 * width, OVERLAP),
            "back edge",
        ))
        .mark(crate::build::placement(
            Point::new(0.0, length - OVERLAP),
            Point::new(2.0 * width, length - OVERLAP),
            "front edge",
        ))
        .build(&[(Layer::Shell, 2, false)], job.cloth)?;
    drawn.pieces.push(piece);
    drawn.finished.push(FinishedMeasure {
        key: "strap_length",
        name: "each strap, edge to edge of the suit".into(),
        value_mm: way,
        tolerance_mm: 8.0,
    });
    drawn.findings.push(Finding {
        code: "draft.strap_try",
        severity: Severity::Watch,
        place: "crossed straps".into(),
        message: "the length of crossed straps is a straight measure on the flat back".into(),
        value: Some(way),
        limit: None,
        remedy: "baste them, try the suit on, then trim to length".into(),
    });
    Ok(())
}
