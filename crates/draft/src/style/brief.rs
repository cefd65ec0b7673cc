//! The brief: the block below a waistline between hip and waist, with a level top edge.
//!
//! **Source.** Construction own. The front top is cut 4 mm lower and the back 8 mm higher at the fold, for the seat: common
//! practice, no single source.

use body::BodyForm;
use cloth::{Fit, Layer};
use kurbo::Point;

use super::one_piece::{brief_top, leg_marks, names};
use super::open_edges::{leg_edge, opening};
use super::torso::Torso;
use super::{Drawn, Family, Job, Reach, StyleSpec, Widths, lining, motif, skirt};
use crate::block::{Block, Half};
use crate::build::{PieceBuilder, arc_end, level_line};
use crate::design::{LiningCover, Rise};
use crate::geometry::{Curve, root};
use crate::parameter::Shared;
use crate::piece::{EdgeUse, OpenKind, Piece};
use crate::refusal::{InvalidKind, Refusal};
use crate::suit::{EdgeArc, FinishedMeasure, OpenEdge, Opening, OpeningKind, SeamWalk};

/// The side seam of a brief is at least this long, mm flat.
const LEAST_SIDE: f64 = 30.0;
/// Top and leg stay this far apart everywhere, mm flat.
const LEAST_HEIGHT: f64 = 15.0;
const FRONT_LIFT: f64 = -4.0;
const BACK_LIFT: f64 = 8.0;

/// Height of a brief's top at the side, mm flat.
pub(crate) fn top_height(rise: Rise, waist_to_hip_flat: f64, leg_y: f64) -> f64 {
    let share = match rise {
        Rise::Low => 0.62,
        Rise::Mid => 0.36,
        Rise::High => 0.02,
    };
    (-share * waist_to_hip_flat).max(leg_y + LEAST_SIDE)
}

/// A brief's halves: the block's, cut off at the top.
pub(crate) struct BriefHalves {
    pub(crate) top_y: f64,
    pub(crate) front_side: Curve,
    pub(crate) back_side: Curve,
    pub(crate) front_top: Curve,
    pub(crate) back_top: Curve,
}

impl BriefHalves {
    /// Cuts the block at the rise and makes the two side seams equal.
    ///
    /// # Errors
    /// [`Refusal::Invalid`] when the back side cannot be made as long as the front's.
    pub(crate) fn cut(block: &Block, rise: Rise) -> Result<BriefHalves, Refusal> {
        let l = &block.levels;
        BriefHalves::cut_at(block, top_height(rise, l.waist_to_hip * l.k_side, l.leg_y))
    }

    /// Cuts the block at a height of the side and makes the two side seams equal.
    ///
    /// # Errors
    /// As [`BriefHalves::cut`].
    pub(super) fn cut_at(block: &Block, top_y: f64) -> Result<BriefHalves, Refusal> {
        let l = &block.levels;
        let front_side = block.front.profile.between(l.leg_y, top_y);
        let want = front_side.length();
        let back = |y: f64| block.back.profile.between(l.leg_y, y);
        let back_y = root(
            |y| back(y).length() - want,
            (top_y - 25.0).max(l.leg_y + 1.0),
            top_y + 25.0,
        )
        .ok_or(Refusal::Invalid {
            piece: "brief back",
            kind: InvalidKind::SeamMismatch,
            by: 25.0,
        })?;
        let back_side = back(back_y);
        let front_top = brief_top(&front_side, FRONT_LIFT);
        let back_top = brief_top(&back_side, BACK_LIFT);
        Ok(BriefHalves {
            top_y,
            front_side,
            back_side,
            front_top,
            back_top,
        })
    }
}

pub(super) const STYLE: StyleSpec = StyleSpec {
    key: "brief",
    name: "Brief",
    says: "a bottom with a level waist, stepped into",
    family: Family::Bottom,
    wearers: &[BodyForm::Woman, BodyForm::Man, BodyForm::Child],
    shared: &[
        Shared::Leg,
        Shared::Seat,
        Shared::Rise,
        Shared::Crotch,
        Shared::Lining,
        Shared::Skirt,
    ],
    own: &[skirt::GATHER, motif::MOTIF_REPEAT],
    has_trunk_loop: false,
    needs_ties: false,
    usual_fit: Fit::Regular,
    parts: None,
    draw,
};

/// Draws the brief.
///
/// # Errors
/// Any [`Refusal`] of block or pieces.
fn draw(job: &Job<'_>) -> Result<Drawn, Refusal> {
    let mut drawn = Drawn::default();
    let torso = Torso::draw(job, Reach::Hips, &mut drawn.findings)?;
    let l = &torso.block.levels;
    let top_y = top_height(job.design.rise, l.waist_to_hip * l.k_side, l.leg_y);
    job.branches.note(
        top_y == l.leg_y + LEAST_SIDE,
        "rise_held",
        "has its top held 3 cm above the leg at the side",
    );
    pieces(job, &torso.block, &mut drawn)?;
    torso.finish(job, &mut drawn)?;
    Ok(drawn)
}

fn pieces(job: &Job<'_>, block: &Block, drawn: &mut Drawn) -> Result<(), Refusal> {
    let cut = BriefHalves::cut(block, job.design.rise)?;
    if least_height(&block.front.leg, &cut.front_top).min(least_height(&block.back.leg, &cut.back_top))
        < LEAST_HEIGHT
    {
        return Err(Refusal::Combination {
            parameter: "rise",
            why: "on this body the top edge would come within 1.5 cm of the leg; choose a higher rise or another leg height",
        });
    }
    let shell = Widths::shell(job.design);
    drawn
        .pieces
        .push(piece(job, block, &cut, true, shell, Layer::Shell)?);
    drawn
        .pieces
        .push(piece(job, block, &cut, false, shell, Layer::Shell)?);
    if let Some(wanted) = &job.design.skirt {
        skirt::on_brief(job, block, &cut, wanted, drawn)?;
    }
    linings(job, block, drawn, |is_front, lined| {
        piece(job, block, &cut, is_front, lined, Layer::Lining)
    })?;

    let (f, k) = (&block.front, &block.back);
    drawn.seams.splice(0..0, sides_and_crotch(block, &cut));

    let (top_front, top_back) = (cut.front_top.length(), cut.back_top.length());
    drawn.open_edges.push(leg_edge(job, &f.leg, &k.leg));
    let arc = |name, letter, length_mm| EdgeArc {
        name,
        letter,
        length_mm,
    };
    drawn.open_edges.push(OpenEdge {
        kind: OpenKind::Waist,
        count: 1,
        is_ring: true,
        arcs: vec![
            arc("back", 'm', top_back),
            arc("front", 'n', 2.0 * top_front),
            arc("back", 'n', top_back),
        ],
        around_share: super::open_edges::around_share(&[&cut.front_top, &cut.back_top]),
        worn_radius_mm: girth_at(job, block, cut.top_y) / std::f64::consts::TAU,
    });
    let top = 2.0 * (top_front + top_back);
    drawn.openings = waist_and_leg(job, block, top);
    let list = [
        ("top_edge", "top edge, once round", top, 8.0),
        (
            "across_above_leg",
            "across, 2 cm above the leg at the side",
            f.profile.at(block.levels.leg_y + 20.0) + k.profile.at(block.levels.leg_y + 20.0),
            5.0,
        ),
    ];
    drawn.finished = list
        .map(FinishedMeasure::new)
        .into_iter()
        .chain(measures(block, &cut, "top"))
        .chain(drawn.finished.drain(..))
        .collect();
    Ok(())
}

/// The lining asked for: front, back or both as `piece` cuts them, or the crotch's own.
///
/// # Errors
/// As `piece`.
pub(super) fn linings(
    job: &Job<'_>,
    block: &Block,
    drawn: &mut Drawn,
    piece: impl Fn(bool, Widths) -> Result<Piece, Refusal>,
) -> Result<(), Refusal> {
    let lined = Widths::lining(job.design);
    match job.design.lining {
        LiningCover::None => {}
        LiningCover::Full => {
            for is_front in [true, false] {
                drawn.pieces.push(piece(is_front, lined)?);
            }
        }
        LiningCover::Front => drawn.pieces.push(piece(true, lined)?),
        LiningCover::Crotch => drawn.pieces.push(lining::crotch(job, &block.front, &block.back)?),
    }
    Ok(())
}

/// The side seams and the crotch seam of a brief, walked.
pub(super) fn sides_and_crotch(block: &Block, cut: &BriefHalves) -> [SeamWalk; 2] {
    let (f, k) = (&block.front, &block.back);
    [
        ("side", cut.front_side.length(), cut.back_side.length()),
        ("crotch", 2.0 * f.crotch.length(), 2.0 * k.crotch.length()),
    ]
    .map(|(name, front, back)| SeamWalk::of(name, ("front", name), ("back", name), (front, back, 0.0)))
}

/// What the body passes: the waist, `rest_mm` once round, over the hips, and each leg over its thigh.
pub(super) fn waist_and_leg(job: &Job<'_>, block: &Block, rest_mm: f64) -> Vec<Opening> {
    let (f, k) = (&block.front.leg, &block.back.leg);
    let share = super::open_edges::around_share(&[f, k]);
    vec![
        opening(job, OpeningKind::Waist, rest_mm, job.m.hip, 1.0),
        opening(job, OpeningKind::Leg, f.length() + k.length(), job.m.thigh, share),
    ]
}

/// What a sewn brief measures below its `upper` end: "top" or "band".
pub(super) fn measures(block: &Block, cut: &BriefHalves, upper: &str) -> Vec<FinishedMeasure> {
    let (f, k) = (&block.front, &block.back);
    let of = |key, name: String, value_mm, tolerance_mm| FinishedMeasure {
        key,
        name,
        value_mm,
        tolerance_mm,
    };
    let centre = |top: &Curve, half: &Half| top.end().y - half.crotch.start().y;
    vec![
        of(
            "side_seam",
            format!("side seam, leg to {upper}"),
            cut.front_side.length(),
            3.0,
        ),
        of(
            "centre_front",
            format!("centre front, {upper} to crotch seam"),
            centre(&cut.front_top, f),
            4.0,
        ),
        of(
            "centre_back",
            format!("centre back, {upper} to crotch seam"),
            centre(&cut.back_top, k),
            4.0,
        ),
        of(
            "leg_opening",
            "leg opening, once round".into(),
            f.leg.length() + k.leg.length(),
            8.0,
        ),
        of(
            "crotch_width",
            "crotch, edge to edge at its seam".into(),
            2.0 * f.crotch.length(),
            3.0,
        ),
    ]
}

/// Least height of the top edge above the leg line, mm.
pub(super) fn least_height(leg: &Curve, top: &Curve) -> f64 {
    let top = top.flatten(0.5);
    let top_at = |x: f64| {
        // The top runs from the side to the fold: x falls.
        top.windows(2).find(|w| w[1].x <= x && x <= w[0].x).map(|w| {
            let t = if w[0].x > w[1].x {
                (x - w[1].x) / (w[0].x - w[1].x)
            } else {
                0.0
            };
            w[1].y + (w[0].y - w[1].y) * t
        })
    };
    leg.flatten(0.5)
        .into_iter()
        .filter_map(|p| top_at(p.x).map(|y| y - p.y))
        .fold(f64::INFINITY, f64::min)
}

/// Body girth at a flat height between hip and waist, straight between the levels.
pub(crate) fn girth_at(job: &Job<'_>, block: &Block, y: f64) -> f64 {
    let l = &block.levels;
    let between =
        |y0: f64, g0: f64, y1: f64, g1: f64| g0 + (g1 - g0) * ((y - y0) / (y1 - y0)).clamp(0.0, 1.0);
    if y <= l.high_hip_y {
        between(l.hip_y, job.m.hip, l.high_hip_y, job.m.high_hip)
    } else {
        between(l.high_hip_y, job.m.high_hip, 0.0, job.m.waist)
    }
}

fn piece(
    job: &Job<'_>,
    block: &Block,
    cut: &BriefHalves,
    is_front: bool,
    w: Widths,
    layer: Layer,
) -> Result<Piece, Refusal> {
    let half: &Half = if is_front { &block.front } else { &block.back };
    let (side, top) = if is_front {
        (&cut.front_side, &cut.front_top)
    } else {
        (&cut.back_side, &cut.back_top)
    };
    let (key, name) = if is_front {
        names(layer, ("front", "Front"), ("front_lining", "Front lining"))
    } else {
        names(layer, ("back", "Back"), ("back_lining", "Back lining"))
    };
    let centre = if is_front { "centre_front" } else { "centre_back" };
    let fold = Curve::line(top.end(), half.crotch.start());
    let outline: Vec<Point> = [&half.crotch, &half.leg, side, top, &fold]
        .into_iter()
        .flat_map(|c| c.flatten(0.5))
        .collect();
    let mut b = PieceBuilder::new(key, name, true)
        .edge("crotch", EdgeUse::Seam, half.crotch.clone(), w.crotch)
        .edge("leg", EdgeUse::Open(OpenKind::Leg), half.leg.clone(), w.open)
        .edge("side", EdgeUse::Seam, side.clone(), w.side)
        .edge("top", EdgeUse::Open(OpenKind::Waist), top.clone(), w.open)
        .edge("fold", EdgeUse::Fold, fold, 0.0)
        .notch("top", top.length(), centre, false)
        .notch("side", 0.5 * cut.front_side.length(), "side_middle", false);
    b = leg_marks(b, &half.leg, if is_front { ['a', 'b'] } else { ['d', 'c'] });
    b = b.mark(arc_end(top, 0.0, 'n'));
    if !is_front {
        b = b.mark(arc_end(top, top.length(), 'm'));
    }
    if let Some(mark) = level_line(&outline, block.levels.hip_y, "hip") {
        b = b.mark(mark);
    }
    if layer == Layer::Shell
        && let Some(y) = skirt::brief_join_height(job, block, cut)
    {
        b = b.mark(crate::build::placement(
            Point::new(0.0, y),
            Point::new(half.profile.at(y), y),
            "skirt joins here",
        ));
    }
    if layer == Layer::Shell && job.design.lining == LiningCover::Crotch {
        b = lining::end_mark(b, half, is_front);
    }
    b.build(&[(layer, 1, false)], job.cloth)
}
