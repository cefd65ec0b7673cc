//! Princess seams: the side dart moved into a seam from leg over bust point to armhole.
//!
//! The side panel's upper part is turned about the bust point until the dart is closed. At the bust point both of its curves take
//! the mean of their two directions, and the handles there are solved so that each keeps the length of the centre panel's.
//!
//! **Source.** Construction own.
//! **Limits.** Not below a dart intake of 15 mm. Both panels keep the block's width over the bust: a very full bust is worn tighter
//! there than meant, so sew a toile first.

use cloth::Layer;
use kurbo::{Point, Vec2};

use super::one_piece::{self, Hold, names, side_notches};
use super::{Job, Widths, lining, skirt};
use crate::block::{Block, Dart};
use crate::build::{PieceBuilder, arc_end, level_line};
use crate::design::LiningCover;
use crate::geometry::{Curve, root, turn_about};
use crate::piece::{EdgeUse, Mark, OpenKind, Piece};
use crate::refusal::Refusal;
use crate::suit::SeamWalk;

/// Where the seam leaves the armhole, share of its length from the underarm.
const ARMHOLE_SHARE: f64 = 0.55;
/// Where it leaves the leg, share of its length from the crotch.
const LEG_SHARE: f64 = 0.62;
/// A panel's seam: `low` from the bust point to the leg, `up` from the armhole to the bust point.
pub(super) struct Panel {
    pub(super) low: Curve,
    pub(super) up: Curve,
}

/// Splits a darted front into centre front and side front.
///
/// # Errors
/// [`Refusal::Combination`] when the side panel's seam cannot be made as long as the centre's.
pub(super) fn split(
    job: &Job<'_>,
    block: &Block,
    dart: &Dart,
    w: Widths,
    layer: Layer,
    hold: &Hold,
) -> Result<(Piece, Piece), Refusal> {
    let front = &block.front;
    let bust = dart.bust_point;
    let (arm_low, arm_up) = front.armhole.split_at(ARMHOLE_SHARE * front.armhole.length());
    let (leg_in, leg_out) = front.leg.split_at(LEG_SHARE * front.leg.length());
    let (k, q) = (arm_low.end(), leg_in.end());

    let centre = centre_panel(bust, k, q);
    let close = -2.0 * (dart.intake / (2.0 * (dart.mouth_low - bust).hypot())).asin();
    // Turning closes the dart to within a millimetre, because its point lies short of the bust point; a shift does the rest, so that
    // side and armhole keep their lengths.
    let gap = dart.mouth_low - turn_about(dart.side_up.start(), bust, close);
    let closed = |p: Point| turn_about(p, bust, close) + gap;
    let side = side_panel(bust, closed(k), q, close, &centre)?;
    let side_up = starting_at(dart.side_up.map(closed), dart.mouth_low);
    let side_seam = dart.side_low.clone().then(&side_up);
    let arm_side = arm_low.map(closed);

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
    let (end_use, end_width) = hold.strap_end(w);
    let runs_on = hold.runs_on();
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
        .edge("shoulder", end_use, front.shoulder.clone(), end_width)
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
        .mark(arc_end(&front.neck, if runs_on { 20.0 } else { 0.0 }, 'f'))
        .mark(arc_end(&arm_up, arm_up.length(), if runs_on { 'j' } else { 'k' }))
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
    b = one_piece::filling_marks(b, job, block, layer, true)?;
    let join = skirt::join_height(job, block).filter(|_| layer == Layer::Shell);
    if let Some(y) = join {
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
        .notch("side_low", dart.side_low.length(), "dart", false)
        .mark(arc_end(&leg_out, leg_out.length() - 40.0, 'b'))
        .mark(arc_end(&arm_side, 30.0, 'h'));
    if let Some(s) = waist_from_leg {
        b = b.notch("princess_low", low_length - s, "princess_waist", false);
    }
    b = side_notches(b, block, true);
    if let Some(y) = join {
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

pub(super) fn centre_panel(bust: Point, k: Point, q: Point) -> Panel {
    let fall = bust.y - q.y;
    Panel {
        low: Curve::cubic(
            bust,
            bust - Vec2::new(0.0, 0.30 * fall),
            q + Vec2::new(0.0, 0.28 * fall),
            q,
        ),
        up: Curve::cubic(
            k,
            k - (k - bust) * 0.30,
            bust + Vec2::new(0.0, 0.38 * (k.y - bust.y)),
            bust,
        ),
    }
}

pub(super) fn side_panel(
    bust: Point,
    k: Point,
    q: Point,
    close: f64,
    centre: &Panel,
) -> Result<Panel, Refusal> {
    let mean = crate::geometry::turn(Vec2::new(0.0, 1.0), close / 2.0);
    let fall = bust.y - q.y;
    let low = |h: f64, far: f64| Curve::cubic(bust, bust - mean * h, q + Vec2::new(0.0, far * fall), q);
    let up = |h: f64, far: f64| Curve::cubic(k, k - (k - bust) * far, bust + mean * h, bust);
    let refused = Refusal::Combination {
        parameter: "bust_shaping",
        why: "princess seams cannot be made to match on this body; use \"side-dart\", or cut the leg lower",
    };
    Ok(Panel {
        low: solve_handle(low, 0.28, centre.low.length(), fall).ok_or_else(|| refused.clone())?,
        up: solve_handle(up, 0.30, centre.up.length(), (k - bust).hypot()).ok_or(refused)?,
    })
}

/// The curve of the wanted length with the near handle closest to a third of its reach; where none exists, the far handle is
/// changed step by step from its usual share.
fn solve_handle(curve: impl Fn(f64, f64) -> Curve, usual: f64, want: f64, reach: f64) -> Option<Curve> {
    const STEPS: i32 = 24;
    let at = |i: i32| reach * 0.9 * f64::from(i) / f64::from(STEPS);
    [1.0, 0.8, 1.25, 0.6, 1.5, 0.4, 1.75, 0.2]
        .into_iter()
        .find_map(|share| {
            let far = usual * share;
            let crossings =
                (0..STEPS).filter_map(|i| root(|h| curve(h, far).length() - want, at(i), at(i + 1)));
            let best =
                crossings.min_by(|a, b| (a - 0.3 * reach).abs().total_cmp(&(b - 0.3 * reach).abs()))?;
            Some(curve(best, far))
        })
}

/// The run with its first point set exactly.
pub(super) fn starting_at(curve: Curve, start: Point) -> Curve {
    let mut cubics = curve.cubics().to_vec();
    if let Some(c) = cubics.first_mut() {
        c.p0 = start;
    }
    Curve::new(cubics)
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
