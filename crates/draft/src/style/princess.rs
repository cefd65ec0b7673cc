//! Princess seams: the side dart moved into a seam from leg over bust point to armhole.
//!
//! The side panel's upper part is turned about the bust point until the dart is closed. At the bust point both of its curves take
//! the mean of their two directions, and the handles there are solved so that each keeps the length of the centre panel's.
//!
//! **Source.** Construction own; the outward cup adjustment of 0.08 mm per mm of bust difference over 180 is own reasoning,
//! supported by a worn solve of one large bust, and not sewn.
//! **Limits.** Not below a dart intake of 15 mm.

use cloth::Layer;
use kurbo::{Point, Vec2};

use super::one_piece::{names, side_notches};
use super::{Job, Widths, cups, lining, skirt};
use crate::block::{Block, Dart};
use crate::build::{PieceBuilder, arc_end, level_line};
use crate::design::{Cups, LiningCover};
use crate::geometry::{Curve, root, turn_about};
use crate::piece::{EdgeUse, Mark, OpenKind, Piece};
use crate::refusal::{InvalidKind, Refusal};
use crate::suit::SeamWalk;

/// Where the seam leaves the armhole, share of its length from the underarm.
const ARMHOLE_SHARE: f64 = 0.55;
/// Where it leaves the leg, share of its length from the crotch.
const LEG_SHARE: f64 = 0.62;
/// Bust differences above this get the cup adjustment, mm.
const CUP_FROM: f64 = 180.0;
const CUP_PER_MM: f64 = 0.08;
const CUP_MOST: f64 = 10.0;
/// The cup adjustment has died out at this share of the bust point's height above the waist.
const CUP_ENDS_AT: f64 = 0.35;

/// How far each panel's seam is moved out over the bust point, mm.
pub(crate) fn cup_adjust(cup_difference: f64) -> f64 {
    (CUP_PER_MM * (cup_difference - CUP_FROM)).clamp(0.0, CUP_MOST)
}

/// Draws the lower seam from bust point to leg, moved out by `out` over the bust, and the upper from armhole to bust point.
struct Panel {
    low: Curve,
    up: Curve,
}

/// Splits a darted front into centre front and side front.
///
/// # Errors
/// [`Refusal::Invalid`] when the side panel's seam cannot be made as long as the centre's.
pub(super) fn split(
    job: &Job<'_>,
    block: &Block,
    dart: &Dart,
    w: Widths,
    layer: Layer,
) -> Result<(Piece, Piece), Refusal> {
    let front = &block.front;
    let bust = dart.bust_point;
    let (arm_low, arm_up) = front.armhole.split_at(ARMHOLE_SHARE * front.armhole.length());
    let (leg_in, leg_out) = front.leg.split_at(LEG_SHARE * front.leg.length());
    let (k, q) = (arm_low.end(), leg_in.end());
    let adjust = cup_adjust(job.m.cup_difference());

    let centre = centre_panel(bust, k, q, adjust);
    let close = -2.0 * (dart.intake / (2.0 * (dart.mouth_low - bust).hypot())).asin();
    let turned = |c: &Curve| c.map(|p| turn_about(p, bust, close));
    let side = side_panel(bust, turn_about(k, bust, close), q, close, adjust, &centre)?;

    // The upper side seam starts exactly where the lower ends; its first handle moves along.
    let side_up = joined_to(turned(&dart.side_up), dart.mouth_low);
    let side_seam = dart.side_low.clone().then(&side_up);
    let arm_side = turned(&arm_low);

    let (centre_key, centre_name) = names(
        layer,
        ("centre_front", "Centre front"),
        ("centre_front_lining", "Centre front lining"),
    );
    let (side_key, side_name) = names(
        layer,
        ("side_front", "Side front"),
        ("side_front_lining", "Side front lining"),
    );
    let (low_length, up_length) = (centre.low.length(), centre.up.length());
    let low_centre = centre.low.reversed();
    let up_centre = centre.up.reversed();
    let waist_from_leg = low_centre.length_to_height(0.0);

    let mut b = PieceBuilder::new(centre_key, centre_name, true)
        .edge("crotch", EdgeUse::Seam, front.crotch.clone(), w.crotch)
        .edge("leg", EdgeUse::Open(OpenKind::Leg), leg_in.clone(), w.open)
        .edge("princess_low", EdgeUse::Seam, low_centre, w.seam)
        .edge("princess_up", EdgeUse::Seam, up_centre, w.seam)
        .edge(
            "armhole",
            EdgeUse::Open(OpenKind::Armhole),
            arm_up.clone(),
            w.open,
        )
        .edge("shoulder", EdgeUse::Seam, front.shoulder.clone(), w.seam)
        .edge(
            "neck",
            EdgeUse::Open(OpenKind::Neckline),
            front.neck.clone(),
            w.open,
        )
        .edge("fold", EdgeUse::Fold, front.fold.clone(), 0.0)
        .notch("princess_low", low_length, "princess_bust", false)
        .notch("neck", front.neck.length(), "centre_front", false)
        .mark(arc_end(&leg_in, 40.0, 'a'))
        .mark(arc_end(&front.neck, 20.0, 'f'))
        .mark(Mark::Cross {
            at: bust,
            text: "bust point".into(),
        });
    if let Some(s) = waist_from_leg {
        b = b.notch("princess_low", s, "princess_waist", false);
    }
    let outline: Vec<Point> = [&front.crotch, &leg_in]
        .into_iter()
        .cloned()
        .chain([
            centre.low.reversed(),
            centre.up.reversed(),
            arm_up.clone(),
            front.fold.clone(),
        ])
        .flat_map(|c| c.flatten(0.5))
        .collect();
    if let Some(mark) = level_line(&outline, 0.0, "waist") {
        b = b.mark(mark);
    }
    if layer == Layer::Shell && job.design.lining == LiningCover::Crotch {
        b = lining::end_mark(b, front, true);
    }
    let has_lining = matches!(job.design.lining, LiningCover::Full | LiningCover::Front);
    if job.design.cups != Cups::None && (layer == Layer::Lining) == has_lining {
        b = cups::centre_mark(b, job, block);
    }
    if let Some(y) = skirt::join_height(job, block) {
        let right = centre.low.reversed();
        if let Some(s) = right.length_to_height(y) {
            b = b.mark(crate::build::placement(
                Point::new(0.0, y),
                right.at_length(s).0,
                "skirt joins here",
            ));
        }
    }
    let centre_piece = b.build(&[(layer, 1, false)], job.cloth)?;

    let mut b = PieceBuilder::new(side_key, side_name, false)
        .edge("leg", EdgeUse::Open(OpenKind::Leg), leg_out.clone(), w.open)
        .edge("side_low", EdgeUse::Seam, dart.side_low.clone(), w.side)
        .edge("side_up", EdgeUse::Seam, side_up, w.side)
        .edge(
            "armhole",
            EdgeUse::Open(OpenKind::Armhole),
            arm_side.clone(),
            w.open,
        )
        .edge("princess_up", EdgeUse::Seam, side.up.clone(), w.seam)
        .edge("princess_low", EdgeUse::Seam, side.low.clone(), w.seam)
        .notch("princess_up", up_length, "princess_bust", false)
        .mark(arc_end(&leg_out, leg_out.length() - 40.0, 'b'))
        .mark(arc_end(&arm_side, 30.0, 'h'));
    if let Some(s) = waist_from_leg {
        b = b.notch("princess_low", low_length - s, "princess_waist", false);
    }
    b = side_notches(b, block, true);
    if let Some(y) = skirt::join_height(job, block) {
        let left = side.low.reversed();
        if let (Some(s), Some(r)) = (left.length_to_height(y), side_seam.length_to_height(y)) {
            b = b.mark(crate::build::placement(
                left.at_length(s).0,
                side_seam.at_length(r).0,
                "skirt joins here",
            ));
        }
    }
    let side_piece = b.build(&[(layer, 2, true)], job.cloth)?;
    Ok((centre_piece, side_piece))
}

/// The lower seam's two parts when the cup adjustment dies out above the waist; the whole when there is none.
fn lower_parts(low: &Curve, bust: Point, adjust: f64) -> (Curve, Curve) {
    if adjust <= 0.0 {
        return (low.clone(), Curve::default());
    }
    let at = CUP_ENDS_AT * bust.y;
    // The seam falls from the bust point to the leg.
    let s = low
        .reversed()
        .length_to_height(at)
        .map_or(0.0, |up| low.length() - up);
    low.split_at(s)
}

fn centre_panel(bust: Point, k: Point, q: Point, adjust: f64) -> Panel {
    let fall = bust.y - q.y;
    let low = Curve::cubic(
        bust,
        bust - Vec2::new(0.0, 0.30 * fall),
        q + Vec2::new(0.0, 0.28 * fall),
        q,
    );
    let up = Curve::cubic(
        k,
        k - (k - bust) * 0.30,
        bust + Vec2::new(0.0, 0.38 * (k.y - bust.y)),
        bust,
    );
    let (near, far) = lower_parts(&low, bust, adjust);
    let out = Vec2::new(adjust, 0.0);
    let near = with_start(near, bust + out, out);
    Panel {
        low: if far.cubics().is_empty() {
            near
        } else {
            near.then(&far)
        },
        up: with_end(up, bust + out, out),
    }
}

fn side_panel(
    bust: Point,
    k: Point,
    q: Point,
    close: f64,
    adjust: f64,
    centre: &Panel,
) -> Result<Panel, Refusal> {
    let mean = crate::geometry::turn(Vec2::new(0.0, 1.0), close / 2.0);
    let out = Vec2::new(-mean.y, mean.x) * adjust;
    let top = bust + out;
    let fall = bust.y - q.y;
    let plain_low = Curve::cubic(
        bust,
        bust - mean * (0.30 * fall),
        q + Vec2::new(0.0, 0.28 * fall),
        q,
    );
    let (_, far) = lower_parts(&plain_low, bust, adjust);
    let (low_end, low_handle) = match far.cubics().first() {
        Some(c) => {
            let t = far.start_tangent();
            (c.p0, c.p0 - t * (0.3 * (bust - c.p0).hypot()))
        }
        None => (q, q + Vec2::new(0.0, 0.28 * fall)),
    };
    let want_low = centre.low.length() - far.length();
    let low_near = |h: f64| Curve::cubic(top, top - mean * h, low_handle, low_end);
    let up_handle = k - (k - bust) * 0.30;
    let want_up = centre.up.length();
    // The handle at the armhole keeps the centre's direction, turned with the panel.
    let up = |h: f64| Curve::cubic(k, up_handle, top + mean * h, top);
    let invalid = Refusal::Invalid {
        piece: "side front",
        kind: InvalidKind::SeamMismatch,
        by: 1.0,
    };
    let low = solve_handle(low_near, want_low, fall).ok_or_else(|| invalid.clone())?;
    let up = solve_handle(up, want_up, (k - bust).hypot()).ok_or(invalid)?;
    Ok(Panel {
        low: if far.cubics().is_empty() {
            low
        } else {
            low.then(&far)
        },
        up,
    })
}

/// The curve of the wanted length; its length grows with the handle only past its least, so both branches are tried.
fn solve_handle(curve: impl Fn(f64) -> Curve, want: f64, reach: f64) -> Option<Curve> {
    let off = |h: f64| curve(h).length() - want;
    let steps = 24;
    let at = |i: i32| reach * 0.9 * f64::from(i) / f64::from(steps);
    // Nearest crossing to the usual handle of a third.
    let crossings = (0..steps).filter_map(|i| {
        let (a, b) = (at(i), at(i + 1));
        root(off, a, b)
    });
    let best = crossings.min_by(|a, b| (a - 0.3 * reach).abs().total_cmp(&(b - 0.3 * reach).abs()))?;
    Some(curve(best))
}

fn with_start(curve: Curve, start: Point, handle_by: Vec2) -> Curve {
    let mut cubics = curve.cubics().to_vec();
    if let Some(c) = cubics.first_mut() {
        c.p0 = start;
        c.p1 += handle_by;
    }
    Curve::new(cubics)
}

fn with_end(curve: Curve, end: Point, handle_by: Vec2) -> Curve {
    let mut cubics = curve.cubics().to_vec();
    if let Some(c) = cubics.last_mut() {
        c.p3 = end;
        c.p2 += handle_by;
    }
    Curve::new(cubics)
}

fn joined_to(curve: Curve, start: Point) -> Curve {
    let by = start - curve.start();
    with_start(curve, start, by)
}

/// Adds the princess seam's two walks.
pub(super) fn walk(centre: &Piece, side: &Piece, seams: &mut Vec<SeamWalk>) {
    for (name, edge) in [
        ("princess, leg to bust", "princess_low"),
        ("princess, bust to armhole", "princess_up"),
    ] {
        let length = |p: &Piece| p.edge(edge).map_or(0.0, |e| e.curve.length());
        seams.push(SeamWalk {
            name,
            first: (centre.key.clone(), vec![edge]),
            second: (side.key.clone(), vec![edge]),
            first_mm: length(centre),
            second_mm: length(side),
            sewn_ease_mm: 0.0,
        });
    }
}
