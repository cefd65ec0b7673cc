//! Pieces that sleeved suits share: the sleeve, the collar band, the shield behind a zip.
//!
//! **Shapes and units.** mm flat; a sleeve's middle at x = 0, its underarm line at y = 0; strips with their foot at y = 0.
//! **Source.** Collar band of doubled cloth cut shorter than the neckline (0.85 to 0.95), a shield that keeps a zip off the skin: common
//! practice, no single source. Widths: own.

use cloth::Layer;
use kurbo::Point;

use super::open_edges::{around_share, opening};
use super::sleeve::Sleeve;
use super::{Job, Widths};
use crate::build::{PieceBuilder, arc_end, placement};
use crate::geometry::Curve;
use crate::piece::{EdgeUse, OpenKind, Piece};
use crate::refusal::Refusal;
use crate::suit::{FinishedMeasure, Opening, OpeningKind, SeamWalk};

/// A hand with its thumb folded in over the wrist's girth: hand girth is about 1.2 of the wrist's in adults (value from memory), and the
/// thumb a tenth more (own).
const HAND_OVER_WRIST: f64 = 1.32;
/// The collar band over the neckline it is sewn to.
pub(super) const BAND_RATIO: f64 = 0.92;
/// The shield's finished width, and how far it runs on below the zip, mm.
const SHIELD: (f64, f64) = (25.0, 15.0);

/// What a hem or sleeve end is, and its allowance.
pub(super) fn end_use(has_elastic: bool, kind: OpenKind, w: &Widths) -> (EdgeUse, f64) {
    if has_elastic {
        (EdgeUse::Open(kind), w.open)
    } else {
        (EdgeUse::Hem, w.hem)
    }
}

/// The sleeve, cut as a pair; `armholes` are the lengths of the front's and the back's.
pub(super) fn sleeve_piece(
    job: &Job<'_>,
    sleeve: &Sleeve,
    has_elastic: bool,
    (front_mm, back_mm): (f64, f64),
) -> Result<Piece, Refusal> {
    let w = Widths::shell(job.design);
    let (end_use, end_width) = end_use(has_elastic, OpenKind::Wrist, &w);
    let (cap_front, cap_back) = sleeve.cap(front_mm);
    let cap_back_mm = cap_back.length();
    let end = sleeve.half_end.mirrored().then(&sleeve.half_end);
    let mut b = PieceBuilder::new("sleeve", "Sleeve", false)
        .edge("end", end_use, end.clone(), end_width)
        .edge("side_front", EdgeUse::Seam, sleeve.side.clone(), w.seam)
        .edge("cap_front", EdgeUse::Seam, cap_front, w.seam)
        .edge("cap_back", EdgeUse::Seam, cap_back, w.seam)
        .edge("side_back", EdgeUse::Seam, sleeve.side.mirrored(), w.seam)
        .notch("cap_front", 0.5 * front_mm, "armhole_front", false)
        .notch("cap_front", front_mm, "shoulder", false)
        .notch("cap_back", cap_back_mm - 0.5 * back_mm, "armhole_back", true)
        .notch("side_front", 0.5 * sleeve.side.length(), "sleeve_middle", false)
        .notch("side_back", 0.5 * sleeve.side.length(), "sleeve_middle", false);
    if has_elastic {
        b = b.mark(arc_end(&end, 0.0, 'w'));
    }
    b.build(&[(Layer::Shell, 2, true)], job.cloth)
}

/// The collar band of a neckline whose halves are `front_mm` and `back_mm`, doubled along its middle: on the fold at the centre front and
/// joined behind, or, where a zip opens the front, on the fold at the centre back with its ends at the zip.
pub(super) fn band_piece(
    job: &Job<'_>,
    (front_mm, back_mm): (f64, f64),
    finished_height: f64,
    has_zip: bool,
) -> Result<Piece, Refusal> {
    let w = Widths::shell(job.design);
    let (front, back) = (BAND_RATIO * front_mm, BAND_RATIO * back_mm);
    let (length, high) = (front + back, 2.0 * finished_height);
    let (to_shoulder, fold_key, end_key) = if has_zip {
        (back, "centre_back", "centre_front")
    } else {
        (front, "centre_front", "centre_back")
    };
    let p = [(0.0, 0.0), (length, 0.0), (length, high), (0.0, high)].map(Point::from);
    let line = |i: usize| Curve::line(p[i], p[(i + 1) % 4]);
    PieceBuilder::new("collar", "Collar band", true)
        .edge("neck", EdgeUse::Seam, line(0), w.seam)
        .edge("join", EdgeUse::Seam, line(1), w.seam)
        .edge("neck_inside", EdgeUse::Seam, line(2), w.seam)
        .edge("fold", EdgeUse::Fold, line(3), 0.0)
        .notch("neck", 0.0, fold_key, false)
        .notch("neck", to_shoulder, "shoulder", false)
        .notch("neck", length, end_key, false)
        .notch("neck_inside", length - to_shoulder, "shoulder", false)
        .mark(placement(
            Point::new(0.0, 0.5 * high),
            Point::new(length, 0.5 * high),
            "fold",
        ))
        .build(&[(Layer::Shell, 1, false)], job.cloth)
}

/// The seams of sleeve and collar: both halves of the cap in their armholes (front, back), the sleeve's own seam as its piece was cut, and
/// a collar band on a neckline of that length, if there is one.
pub(super) fn sleeve_seams(
    sleeve: &Sleeve,
    piece: &Piece,
    (front_mm, back_mm): (f64, f64),
    collared_neck: Option<f64>,
) -> Vec<SeamWalk> {
    let (cap_front, cap_back) = sleeve.cap(front_mm);
    let side = |name| piece.edge(name).map_or(0.0, |e| e.curve.length());
    let mut walks = vec![
        SeamWalk::of(
            "sleeve, front",
            ("sleeve", "cap_front"),
            ("front", "armhole"),
            (cap_front.length(), front_mm, 0.0),
        ),
        SeamWalk::of(
            "sleeve, back",
            ("sleeve", "cap_back"),
            ("back", "armhole"),
            (cap_back.length(), back_mm, 0.0),
        ),
        SeamWalk::of(
            "sleeve seam",
            ("sleeve", "side_front"),
            ("sleeve", "side_back"),
            (side("side_front"), side("side_back"), 0.0),
        ),
    ];
    walks.extend(collared_neck.map(|neck| {
        SeamWalk::of(
            "collar",
            ("front and back", "neck"),
            ("collar", "neck"),
            (neck, BAND_RATIO * neck, (1.0 - BAND_RATIO) * neck),
        )
    }));
    walks
}

/// A long sleeve's end over the hand.
pub(super) fn wrist_opening(job: &Job<'_>, sleeve: &Sleeve) -> Opening {
    opening(
        job,
        OpeningKind::Wrist,
        2.0 * sleeve.half_end.length(),
        HAND_OVER_WRIST * job.m.arm.wrist_girth,
        around_share(&[&sleeve.half_end]),
    )
}

/// What a sewn sleeve and its armhole measure.
pub(super) fn sleeve_measures(sleeve: &Sleeve, armhole_mm: f64) -> [FinishedMeasure; 4] {
    [
        ("armhole", "armhole, once round", armhole_mm, 6.0),
        (
            "sleeve_width",
            "sleeve at the underarm, once round",
            sleeve.biceps,
            5.0,
        ),
        (
            "sleeve_length",
            "sleeve seam, underarm to end",
            sleeve.side.length(),
            5.0,
        ),
        (
            "sleeve_end",
            "sleeve end, once round",
            2.0 * sleeve.half_end.length(),
            4.0,
        ),
    ]
    .map(FinishedMeasure::new)
}

/// The strip behind a zip that keeps it off the skin, doubled lengthwise.
pub(super) fn shield_piece(job: &Job<'_>, zip: f64) -> Result<Piece, Refusal> {
    let w = Widths::shell(job.design);
    let (width, long) = (2.0 * SHIELD.0 * job.k.shrink_around, zip + SHIELD.1);
    let p = [(0.0, 0.0), (width, 0.0), (width, long), (0.0, long)].map(Point::from);
    let line = |i: usize| Curve::line(p[i], p[(i + 1) % 4]);
    PieceBuilder::new("zip_shield", "Zip shield", false)
        .edge("foot", EdgeUse::Raw, line(0), 0.0)
        .edge("long_right", EdgeUse::Seam, line(1), w.seam)
        .edge("top", EdgeUse::Seam, line(2), w.seam)
        .edge("long_left", EdgeUse::Seam, line(3), w.seam)
        .mark(placement(
            Point::new(0.5 * width, 0.0),
            Point::new(0.5 * width, long),
            "fold",
        ))
        .build(&[(Layer::Shell, 1, false)], job.cloth)
}
