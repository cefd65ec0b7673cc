//! Swim skirts: ring sectors that join the suit level and hang to a wanted length at the top of the leg.
//!
//! With J the join length on the suit (after negative ease) and theta the angle of the whole skirt: inner radius r = J / theta,
//! outer R = r + L. Two equal pieces on the fold, so each half piece spans theta / 4.
//!
//! **Source.** Geometry. Circle shares and hem habits: common practice, no single source.
//! **Limits.** The join is assumed to be worn at the suit's own stretch there; stay it with elastic 1:1.

use cloth::Layer;
use kurbo::Point;
use units::{Finding, Severity};

use super::brief::BriefHalves;
use super::one_piece::join_line;
use super::{Drawn, Job, Widths};
use crate::block::Block;
use crate::build::PieceBuilder;
use crate::design::{Skirt, SkirtJoin, SkirtKind};
use crate::geometry::Curve;
use crate::parameter::Parameter;
use crate::piece::{EdgeUse, Piece};
use crate::refusal::Refusal;
use crate::suit::{FinishedMeasure, SeamWalk};

/// A skirt joined at the hip lies this share of waist to hip below the waist.
const HIP_JOIN: f64 = 0.75;
/// and at least this far above the leg's top at the side, mm: the seam must not run into the leg elastic.
const ABOVE_LEG: f64 = 30.0;
const COVER: (f64, f64) = (0.0, 120.0);
const FLARE: (f64, f64) = (0.10, 0.35);

/// How much longer a skirt's top is cut than its join. Swim knits are thick: 1.3 to 1.7 is usual (skirts.toml, common practice).
pub(super) const GATHER: Parameter = Parameter::share(
    "gather",
    "Skirt, gathered",
    "how much longer the skirt's top is cut than the edge it is gathered to: 1 is not gathered",
    (1.0, 1.0, 1.8),
)
.only_with("skirt", &[]);

/// Angle of a half piece in radians: a quarter of the whole skirt's.
fn angle(kind: SkirtKind) -> Result<f64, Refusal> {
    use std::f64::consts::FRAC_PI_2;
    Ok(match kind {
        SkirtKind::FullCircle => FRAC_PI_2,
        SkirtKind::HalfCircle => FRAC_PI_2 / 2.0,
        SkirtKind::QuarterCircle => FRAC_PI_2 / 4.0,
        SkirtKind::FlaredPanel { flare } => {
            if !(FLARE.0..=FLARE.1).contains(&flare) {
                return Err(Refusal::Parameter {
                    parameter: "flare",
                    value: flare,
                    low: FLARE.0,
                    high: FLARE.1,
                    unit: "",
                    why: "radians of each half piece; for more fullness choose a quarter, half or full circle",
                });
            }
            flare
        }
    })
}

/// Height of the join on the flat suit for a skirt on a one-piece; `None` without a skirt.
pub(super) fn join_height(job: &Job<'_>, block: &Block) -> Option<f64> {
    let skirt = job.design.skirt?;
    if !job.design.style.spec().has_trunk_loop {
        return None;
    }
    Some(height(block, skirt.join))
}

fn height(block: &Block, join: SkirtJoin) -> f64 {
    let l = &block.levels;
    match join {
        SkirtJoin::Waist => 0.0,
        SkirtJoin::Underbust => l.underbust_height(),
        SkirtJoin::Hip => (HIP_JOIN * l.hip_y).max(l.leg_y + ABOVE_LEG).min(0.0),
    }
}

/// Height of the join on a brief when it is not the top edge itself.
pub(super) fn brief_join_height(job: &Job<'_>, block: &Block, cut: &BriefHalves) -> Option<f64> {
    let skirt = job.design.skirt?;
    let y = height(block, skirt.join);
    (y < cut.top_y - 10.0).then_some(y)
}

pub(super) fn placement_mark(b: PieceBuilder, job: &Job<'_>, block: &Block, is_front: bool) -> PieceBuilder {
    match join_height(job, block) {
        Some(y) => b.mark(join_line(if is_front { &block.front } else { &block.back }, y)),
        None => b,
    }
}

/// Adds the skirt of a one-piece.
///
/// # Errors
/// [`Refusal::Parameter`] for cover or flare out of range, any [`Refusal`] of the piece.
pub(super) fn on_one_piece(
    job: &Job<'_>,
    block: &Block,
    skirt: &Skirt,
    drawn: &mut Drawn,
) -> Result<(), Refusal> {
    let y = height(block, skirt.join);
    let join = 2.0 * (block.front.profile.at(y) + block.back.profile.at(y));
    add(job, block, skirt, y, join, drawn)
}

/// Adds the skirt of a brief: at its top edge, or on a line below it.
///
/// # Errors
/// As [`on_one_piece`].
pub(super) fn on_brief(
    job: &Job<'_>,
    block: &Block,
    cut: &BriefHalves,
    skirt: &Skirt,
    drawn: &mut Drawn,
) -> Result<(), Refusal> {
    match brief_join_height(job, block, cut) {
        Some(y) => {
            let join = 2.0 * (block.front.profile.at(y) + block.back.profile.at(y));
            add(job, block, skirt, y, join, drawn)
        }
        None => {
            let join = 2.0 * (cut.front_top.length() + cut.back_top.length());
            add(job, block, skirt, cut.top_y, join, drawn)
        }
    }
}

fn add(
    job: &Job<'_>,
    block: &Block,
    skirt: &Skirt,
    y: f64,
    join: f64,
    drawn: &mut Drawn,
) -> Result<(), Refusal> {
    let cover = skirt.cover.get();
    if !(COVER.0..=COVER.1).contains(&cover) {
        return Err(Refusal::Parameter {
            parameter: "cover",
            value: cover,
            low: COVER.0,
            high: COVER.1,
            unit: "mm",
            why: "how far the hem hangs below the crotch level",
        });
    }
    let theta = angle(skirt.kind)?;
    let below_waist = y / block.levels.k_side;
    // The hem hangs: a length of the body, not reduced, but for shrinkage still to come.
    let length = (job.m.rise_height + below_waist + cover) * job.k.shrink_lengthwise;
    if length < 30.0 {
        return Err(Refusal::Parameter {
            parameter: "cover",
            value: cover,
            low: 30.0 - job.m.rise_height - below_waist,
            high: COVER.1,
            unit: "mm",
            why: "the skirt would be shorter than 3 cm; join it higher or let it hang lower",
        });
    }
    let gather = job.number(&GATHER)?;
    let sector = Sector::new(gather * join / 4.0, theta, length);
    let w = Widths::shell(job.design);
    let piece = sector.piece(job, w)?;
    drawn.seams.push(SeamWalk {
        name: "skirt join",
        first: ("skirt".into(), vec!["top"]),
        second: ("front and back".into(), vec!["skirt joins here"]),
        first_mm: 4.0 * sector.top.length(),
        second_mm: join,
        sewn_ease_mm: (gather - 1.0) * join,
    });
    drawn.seams.push(SeamWalk {
        name: "skirt side",
        first: ("skirt".into(), vec!["side"]),
        second: ("skirt".into(), vec!["side"]),
        first_mm: sector.side.length(),
        second_mm: sector.side.length(),
        sewn_ease_mm: 0.0,
    });
    drawn.finished.extend(
        [
            ("skirt_length", "skirt, join to finished hem", length, 6.0),
            (
                "skirt_hem",
                "skirt hem, once round",
                4.0 * sector.hem.length(),
                20.0,
            ),
        ]
        .map(FinishedMeasure::new),
    );
    drawn.findings.push(Finding {
        code: "draft.skirt",
        severity: Severity::Good,
        place: "skirt".into(),
        message: format!(
            "the hem hangs {} below the crotch level; {}stay the join with narrow elastic at its own length",
            units::Mm::new(cover).to_cm_text(),
            if gather > 1.0 {
                "gather the skirt's top evenly between its notches; "
            } else {
                ""
            }
        ),
        value: Some(cover),
        limit: None,
        remedy: String::new(),
    });
    drawn.pieces.push(piece);
    Ok(())
}

/// Half a skirt piece: a ring sector about the origin, fold straight down.
struct Sector {
    hem: Curve,
    side: Curve,
    top: Curve,
}

impl Sector {
    fn new(top_arc: f64, theta: f64, length: f64) -> Sector {
        let r = top_arc / theta;
        let on =
            |radius: f64, from_fold: f64| Point::new(radius * from_fold.sin(), -radius * from_fold.cos());
        let arc = |radius: f64| {
            let handle = 4.0 / 3.0 * (theta / 4.0).tan() * radius;
            let (a, b) = (on(radius, 0.0), on(radius, theta));
            let along = kurbo::Vec2::new(theta.cos(), theta.sin());
            Curve::cubic(a, a + kurbo::Vec2::new(handle, 0.0), b - along * handle, b)
        };
        let (hem, top) = (arc(r + length), arc(r).reversed());
        let side = Curve::line(hem.end(), top.start());
        Sector { hem, side, top }
    }

    fn piece(&self, job: &Job<'_>, w: Widths) -> Result<Piece, Refusal> {
        PieceBuilder::new("skirt", "Skirt, front and back", true)
            .edge("hem", EdgeUse::Hem, self.hem.clone(), w.hem)
            .edge("side", EdgeUse::Seam, self.side.clone(), w.seam)
            .edge("top", EdgeUse::Seam, self.top.clone(), w.seam)
            .edge(
                "fold",
                EdgeUse::Fold,
                Curve::line(self.top.end(), self.hem.start()),
                0.0,
            )
            .notch("top", self.top.length(), "skirt_centre", false)
            .notch("side", 0.5 * self.side.length(), "skirt_side", false)
            .build(&[(Layer::Shell, 2, false)], job.cloth)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_half_circle_on_700_mm_150_deep() {
        // Worked example, geometry: r 222.8, R 372.8, hem 1171 mm.
        let s = Sector::new(700.0 / 4.0, std::f64::consts::FRAC_PI_4, 150.0);
        assert!((s.top.start().to_vec2().hypot() - 222.82).abs() < 0.01);
        assert!((s.hem.end().to_vec2().hypot() - 372.82).abs() < 0.01);
        // A cubic is a hair longer than its arc: 3.6e-6 at 45 degrees.
        assert!(
            (4.0 * s.hem.length() - 1171.24).abs() < 0.02,
            "{}",
            4.0 * s.hem.length()
        );
        assert!((4.0 * s.top.length() - 700.0).abs() < 0.01);
    }
}
