//! The halter one-piece: a front that runs up into a neck piece, a back cut straight across under the arms.
//!
//! The front keeps the block's side, leg, dart and neckline depth; armhole and neckline run up to a narrow end beside the neck, which
//! is sewn to a strip folded lengthwise: half the back of the neck and then a tie, or cloth for a hook or ring. The back ends in
//! the cone edge from its underarm, so that it lies level.
//!
//! **Shapes and units.** mm flat, piece frame.
//! **Source.** Construction own, after recorded control points (`data/draft`); straight low back: common practice, no single source.
//! **Limits.** For women only: ties at the neck are not for children. The pull on the neck is not computed.

use body::BodyForm;
use cloth::{Fit, Layer};
use kurbo::{Point, Vec2};
use units::{Finding, Severity};

use super::one_piece::{self, Hold};
use super::ties::refuse_ties;
use super::{
    Drawn, Family, Job, StyleSpec, Widths, belly, closure, cone_edge, shelf_bra, stoma, straps, style_seams,
};
use crate::block::{Block, FrontTop};
use crate::build::placement;
use crate::design::ClosureKind;
use crate::geometry::{Curve, inward, unit};
use crate::parameter::{Parameter, Shared, count, joined};
use crate::refusal::Refusal;
use crate::suit::{FinishedMeasure, Opened, OpeningKind, SeamWalk};

/// What a maker may set.
const OWN: &[&[Parameter]] = &[
    &[
        NECK_STRAP,
        NECK_TIE,
        style_seams::SEAM_AT,
        style_seams::BLOCK_LINES,
        style_seams::BLOCK_LEVEL,
    ],
    one_piece::ROOMS,
];

pub(super) const STYLE: StyleSpec = StyleSpec {
    key: "halter-one-piece",
    name: "Halter one-piece",
    says: "a one-piece held by a neck piece that ties or hooks behind the neck, with a low straight back",
    family: Family::OnePiece,
    wearers: &[BodyForm::Woman],
    shared: &[
        Shared::Neckline,
        Shared::BustShaping,
        Shared::Leg,
        Shared::Seat,
        Shared::Crotch,
        Shared::Lining,
        Shared::Cups,
        Shared::Skirt,
        Shared::Closure,
    ],
    own: &joined::<{ count(OWN) }>(OWN),
    has_trunk_loop: true,
    needs_ties: false,
    usual_fit: Fit::Regular,
    parts: None,
    draw,
};

const NECK_STRAP: Parameter = Parameter::length(
    "neck_strap",
    "Neck strap",
    "finished width of the front where it joins the neck piece, and of the neck piece",
    (14.0, 30.0, 60.0),
);
const NECK_TIE: Parameter = Parameter::length(
    "neck_tie",
    "Neck tie",
    "finished length of each tie, from the middle of the back of the neck",
    (200.0, 350.0, 500.0),
);
/// Cloth beyond the back of the neck for a hook, or to turn over a ring, mm.
const FASTENING: f64 = 25.0;
/// Half of the back of the neck, share of the neck base girth.
const BACK_NECK: f64 = 0.35;

/// Draws the suit.
///
/// # Errors
/// Any [`Refusal`] of block or pieces, a closure that is no hook or ring at the neck.
fn draw(job: &Job<'_>) -> Result<Drawn, Refusal> {
    match &job.design.closure {
        Some(wanted) => closure::check_at_neck(wanted)?,
        None => refuse_ties(job, "closure")?,
    }
    let mut drawn = Drawn::default();
    let torso = one_piece::torso(job, &mut drawn)?;
    let mut block = torso.block.clone();
    let width = job.number(&NECK_STRAP)? * job.k.shrink_around;
    reshape(&mut block, torso.shape.front_top, width)?;
    let back = &block.back;
    let top = cone_edge(back.side.end(), back.side.end_tangent(), 0.0);
    let hold = Hold::Neck(top);
    one_piece::pieces(job, &block, &hold, &mut drawn)?;
    style_seams::cut_all(job, &block, &mut drawn)?;
    if job.is_on(&shelf_bra::SHELF_BRA)? {
        shelf_bra::add(job, &block, &hold, &mut drawn)?;
    }
    stoma::add(job, &block, &mut drawn)?;
    neck_piece(job, &block, width, &mut drawn)?;
    match &job.design.closure {
        Some(wanted) => closure::at_neck(job, wanted, &mut drawn)?,
        None => {
            for opening in &mut drawn.openings {
                if opening.kind == OpeningKind::NecklineRing {
                    opening.opened = Opened::Fully;
                }
            }
        }
    }
    torso.finish(job, &mut drawn)?;
    belly::add(job, &block, &mut drawn)?;
    // It does not hang from the shoulders: the loop over them says nothing of it.
    drawn.loop_rungs.clear();
    drawn.strap_mid = None;
    Ok(drawn)
}

/// Armhole, strap end and neckline of a halter front.
///
/// # Errors
/// [`Refusal::Combination`] for a neckline or a strap that leaves no front.
fn reshape(block: &mut Block, shape: FrontTop, width: f64) -> Result<(), Refusal> {
    let l = &block.levels;
    let tip = Point::new(l.neck_half_width + 16.0, l.front_neck_y - 6.0);
    let down = unit(Vec2::new(0.26, -1.0));
    let across = Vec2::new(-down.y, down.x);
    let (outer, inner) = (tip + across * (width / 2.0), tip - across * (width / 2.0));
    let tangent = block
        .dart
        .as_ref()
        .map_or_else(|| block.front.side.end_tangent(), |d| d.underarm_tangent);
    let front = &mut block.front;
    let (u, low) = (front.underarm, front.neck.end());
    if inner.y < low.y + 40.0 || inner.x < 12.0 {
        return Err(Refusal::Combination {
            parameter: "neck_strap",
            why: "the neck strap would lie over the middle of the neckline; make it narrower, or the neckline deeper",
        });
    }
    front.armhole = Curve::cubic(
        u,
        u + inward(tangent) * (0.5 * (u.x - outer.x).max(20.0)),
        outer + down * (0.62 * (outer.y - u.y)),
        outer,
    );
    front.shoulder = Curve::line(outer, inner);
    let h = inner.y - low.y;
    front.neck = match shape {
        FrontTop::Scoop(_) => Curve::cubic(
            inner,
            inner + down * (0.45 * h),
            low + Vec2::new(0.60 * inner.x.max(40.0), 0.0),
            low,
        ),
        FrontTop::V(_) => Curve::cubic(
            inner,
            inner + down * (0.30 * h),
            low + Vec2::new(0.42 * inner.x, 0.336 * h),
            low,
        ),
        FrontTop::Square(_) => {
            return Err(Refusal::Combination {
                parameter: "neckline",
                why: "a halter's straps run to the neck, so that a square neckline has no corners; choose scoop, v or high",
            });
        }
    };
    Ok(())
}

/// The neck piece: the back of the neck and a tie, or cloth for the hook.
fn neck_piece(job: &Job<'_>, block: &Block, width: f64, drawn: &mut Drawn) -> Result<(), Refusal> {
    let w = Widths::shell(job.design);
    let around_neck = BACK_NECK * job.m.neck_base * job.k.y(1.0);
    let (end, says) = match job.design.closure.map(|c| c.kind) {
        None => (job.number(&NECK_TIE)? * job.k.shrink_lengthwise, "tie from here"),
        Some(ClosureKind::Ring) => (FASTENING, "ring or hook: turn over from here"),
        Some(_) => (FASTENING, "hook and eye: turn back from here"),
    };
    let length = around_neck + end;
    let piece = straps::strip("neck_piece", "Neck piece", 2.0 * width, length, w.seam)
        .mark(placement(
            Point::new(0.0, around_neck),
            Point::new(2.0 * width, around_neck),
            says,
        ))
        .build(&[(Layer::Shell, 2, true)], job.cloth)?;
    let strap = drawn
        .pieces
        .iter()
        .find(|p| p.key.contains("front") && p.edge("shoulder").is_some())
        .map_or_else(|| "front".to_owned(), |p| p.key.clone());
    drawn.seams.push(SeamWalk {
        name: "neck piece",
        first: (strap, vec!["shoulder"]),
        second: (piece.key.clone(), vec!["end_suit"]),
        first_mm: block.front.shoulder.length(),
        // The strip is folded lengthwise.
        second_mm: 0.5 * piece.edge("end_suit").map_or(0.0, |e| e.curve.length()),
        sewn_ease_mm: 0.0,
    });
    drawn.finished.push(FinishedMeasure::new((
        "strap_length",
        "neck piece, from the front to the middle of the back of the neck",
        around_neck,
        6.0,
    )));
    drawn.findings.push(Finding {
        code: "draft.strap_try",
        severity: Severity::Watch,
        place: "neck piece".into(),
        message: "the neck piece is reckoned from the neck base girth, not measured".into(),
        value: Some(around_neck),
        limit: None,
        remedy: "baste it, try the suit on, then trim to length".into(),
    });
    drawn.pieces.push(piece);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::block::Depth;
    use crate::check_values::{default_shape, factors, measures};
    use crate::trunk;

    /// Source: own recorded control points, data/draft/control-points.json, 0.2 mm.
    #[test]
    fn the_recorded_halter_front() {
        let (m, k) = (measures("average"), factors("soft"));
        let t = trunk::settle(&m, &mut Vec::new()).unwrap();
        let mut block = Block::draw(&m, &k, &t, &default_shape(&m)).unwrap();
        reshape(&mut block, FrontTop::Scoop(Depth::Share(0.30)), 30.0).unwrap();
        let file: serde_json::Value =
            serde_json::from_str(include_str!("../../../../data/draft/control-points.json")).unwrap();
        let recorded = &file["halter_front_average_soft"];
        for (name, run) in [
            ("armhole", &block.front.armhole),
            ("strap_end", &block.front.shoulder),
            ("neck", &block.front.neck),
        ] {
            let c = run.cubics()[0];
            for (p, q) in [c.p0, c.p1, c.p2, c.p3]
                .iter()
                .zip(recorded[name][0].as_array().unwrap())
            {
                let q = Point::new(q[0].as_f64().unwrap(), q[1].as_f64().unwrap());
                assert!((*p - q).hypot() < 0.2, "{name}: {p:?} for {q:?}");
            }
        }
    }
}
