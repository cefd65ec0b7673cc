//! Straps: sewn, ended at a ring or in ties; and crossed straps.
//!
//! A ring joins front and back strap and takes the place of as much strap as it is wide; each end is turned over it and sewn down after
//! a trial. Ties are strips sewn to both ends and tied on the shoulder; not for children.
//!
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
use crate::parameter::{Parameter, Word};
use crate::piece::{EdgeUse, Mark};
use crate::refusal::{Refusal, within};
use crate::suit::{FinishedMeasure, Opened, OpeningKind, SeamWalk};

/// Cloth at a strap's end that goes round the ring, mm (common practice, no single source: 20 to 25).
pub(super) const RING_TURN: f64 = 25.0;
/// What a ring must be wider than its strap, mm (own).
const RING_ROOM: f64 = 2.0;

/// How straps end, all of it.
pub(super) const ALL: &[Parameter] = &[STRAP_KIND, RING_SIZE, TIE_LENGTH];
pub(super) const STRAP_KIND: Parameter = Parameter::choice(
    "strap_kind",
    "Straps",
    "how front and back strap meet on the shoulder",
    &[
        Word::new("sewn", "Sewn", "one seam on the shoulder"),
        Word::new(
            "ring",
            "Ring",
            "both ends turned over a ring, their length found by trial",
        ),
        Word::new(
            "tie",
            "Tied",
            "ties sewn to both ends and tied on the shoulder; not for children",
        ),
    ],
);
pub(super) const RING_SIZE: Parameter = Parameter::length(
    "ring_size",
    "Ring",
    "inner width of the strap ring; at least as wide as the strap",
    (10.0, 40.0, 90.0),
)
.only_with("strap_kind", &["ring"]);
pub(super) const TIE_LENGTH: Parameter = Parameter::length(
    "tie_length",
    "Tie",
    "finished length of each shoulder tie, from the strap's end",
    (150.0, 260.0, 450.0),
)
.only_with("strap_kind", &["tie"]);

/// How a strap ends that is not sewn to the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum StrapEnd {
    /// At a ring of that inner width, mm.
    Ring { size: f64 },
    /// In a tie of that length, mm.
    Tie { length: f64 },
}

impl StrapEnd {
    /// What the ends add to the neckline's ring, mm flat: half of each ring's edge lies inside it, taken as straight.
    pub(super) fn ring_mm(self, job: &Job<'_>) -> f64 {
        match self {
            StrapEnd::Ring { size } => 2.0 * size * job.k.shrink_lengthwise,
            StrapEnd::Tie { .. } => 0.0,
        }
    }
}

/// What the design's straps end in; `None` for sewn ones.
///
/// # Errors
/// [`Refusal::Combination`] for ties on a child to 14, [`Refusal::Parameter`] for a ring narrower than the strap.
pub(super) fn end_of(job: &Job<'_>) -> Result<Option<StrapEnd>, Refusal> {
    match job.word(&STRAP_KIND)? {
        "ring" => {
            let strap = job.design.strap_width.get();
            let size = if job.design.own.is_set(&RING_SIZE) {
                job.number(&RING_SIZE)?
            } else {
                strap + RING_ROOM
            };
            within(
                "ring_size",
                size,
                (strap, 90.0),
                "mm",
                "the strap must lie in the ring unfolded",
            )?;
            Ok(Some(StrapEnd::Ring { size }))
        }
        "tie" => {
            super::ties::refuse_ties(job, "strap_kind")?;
            Ok(Some(StrapEnd::Tie {
                length: job.number(&TIE_LENGTH)?,
            }))
        }
        _ => Ok(None),
    }
}

/// Takes the ring's width out of both straps, half in front, half behind.
pub(super) fn shorten(block: &mut Block, end: StrapEnd) {
    let StrapEnd::Ring { size } = end else { return };
    for half in [&mut block.front, &mut block.back] {
        let by = 0.5 * size;
        let armhole = half.armhole.split_at((half.armhole.length() - by).max(1.0)).0;
        let neck = half.neck.split_at(by.min(half.neck.length() - 1.0)).1;
        half.shoulder = Curve::line(armhole.end(), neck.start());
        (half.armhole, half.neck) = (armhole, neck);
    }
}

/// Ties or what is to be said of rings; what they do to the way in.
///
/// # Errors
/// Any [`Refusal`] of the piece.
pub(super) fn add_ends(
    job: &Job<'_>,
    block: &Block,
    end: StrapEnd,
    drawn: &mut Drawn,
) -> Result<(), Refusal> {
    match end {
        StrapEnd::Ring { size } => {
            drawn.findings.push(Finding {
                code: "draft.strap_try",
                severity: Severity::Watch,
                place: "straps".into(),
                message: format!(
                    "each strap ends {} from where the shoulder seam would be, {} of cloth to turn over the ring",
                    units::Mm::new(0.5 * size).to_cm_text(),
                    units::Mm::new(RING_TURN).to_cm_text()
                ),
                value: Some(size),
                limit: None,
                remedy: "pin the ends over the rings, try the suit on, and sew them down at the length that holds".into(),
            });
            super::closure::small_part(job, "a strap ring", drawn);
        }
        StrapEnd::Tie { length } => {
            let w = Widths::shell(job.design);
            let width = block.front.shoulder.length();
            let piece = strip(
                "tie",
                "Shoulder tie",
                2.0 * width,
                length * job.k.shrink_lengthwise,
                w.seam,
            )
            .build(&[(Layer::Shell, 4, false)], job.cloth)?;
            let strap_front = drawn
                .pieces
                .iter()
                .find(|p| p.key.contains("front") && p.edge("shoulder").is_some())
                .map_or_else(|| "front".to_owned(), |p| p.key.clone());
            let strap_back = drawn
                .pieces
                .iter()
                .find(|p| p.key.starts_with("back") && p.edge("shoulder").is_some())
                .map_or_else(|| "back".to_owned(), |p| p.key.clone());
            for (name, key, half) in [
                ("front tie", strap_front, &block.front),
                ("back tie", strap_back, &block.back),
            ] {
                drawn.seams.push(SeamWalk {
                    name,
                    first: (key, vec!["shoulder"]),
                    second: ("tie".into(), vec!["end_suit"]),
                    first_mm: half.shoulder.length(),
                    // The strip is folded lengthwise.
                    second_mm: 0.5 * piece.edge("end_suit").map_or(0.0, |e| e.curve.length()),
                    sewn_ease_mm: 0.0,
                });
            }
            drawn.pieces.push(piece);
            drawn.finished.push(FinishedMeasure::new((
                "tie_length",
                "each shoulder tie",
                length,
                8.0,
            )));
            for opening in &mut drawn.openings {
                if opening.kind == OpeningKind::NecklineRing {
                    opening.opened = Opened::Fully;
                }
            }
        }
    }
    Ok(())
}

/// A strip to be folded lengthwise: sewn to the suit at its foot, closed at its head.
pub(super) fn strip(
    key: &'static str,
    name: &'static str,
    width: f64,
    length: f64,
    seam: f64,
) -> PieceBuilder {
    let corners = [(0.0, 0.0), (width, 0.0), (width, length), (0.0, length)].map(Point::from);
    let line = |i: usize| Curve::line(corners[i], corners[(i + 1) % 4]);
    PieceBuilder::new(key, name, false)
        .edge("end_suit", EdgeUse::Seam, line(0), seam)
        .edge("long_right", EdgeUse::Seam, line(1), seam)
        .edge("end_free", EdgeUse::Seam, line(2), seam)
        .edge("long_left", EdgeUse::Seam, line(3), seam)
        .mark(crate::build::placement(
            Point::new(0.5 * width, 0.0),
            Point::new(0.5 * width, length),
            "fold",
        ))
}

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
