//! Styles: small functions from a block to pieces. Adding one is a file here.

mod brief;
mod cups;
mod lining;
mod one_piece;
mod princess;
mod skirt;
mod straps;

#[cfg(test)]
pub(crate) use brief::BriefHalves;
pub(crate) use brief::{brief, girth_at, top_height as brief_top_height};
pub(crate) use one_piece::one_piece;

use cloth::ClothPlan;
use units::Finding;

use crate::design::Design;
use crate::factors::Factors;
use crate::geometry::{Curve, inward};
use crate::measures::Measures;
use crate::piece::Piece;
use crate::suit::{OpenEdge, Opening, SeamWalk};
use kurbo::{Point, Vec2};

/// What every style is drawn from.
pub(crate) struct Job<'a> {
    pub(crate) m: &'a Measures,
    pub(crate) k: &'a Factors,
    pub(crate) cloth: &'a ClothPlan,
    pub(crate) design: &'a Design,
}

/// What a style gives, before levels, loop and letters are added.
#[derive(Default)]
pub(crate) struct Drawn {
    pub(crate) pieces: Vec<Piece>,
    pub(crate) seams: Vec<SeamWalk>,
    pub(crate) open_edges: Vec<OpenEdge>,
    pub(crate) openings: Vec<Opening>,
    pub(crate) finished: Vec<crate::suit::FinishedMeasure>,
    pub(crate) findings: Vec<Finding>,
}

/// Allowances of the shell and of the lining, mm. The lining is cut 2 mm less at open edges, for the turn of cloth (own;
/// common practice 2 to 3 mm).
#[derive(Clone, Copy)]
pub(crate) struct Widths {
    pub(crate) seam: f64,
    pub(crate) side: f64,
    pub(crate) crotch: f64,
    pub(crate) open: f64,
    pub(crate) hem: f64,
}

/// How much less the lining is cut at open edges, mm.
const LINING_INSIDE: f64 = 2.0;

impl Widths {
    pub(crate) fn shell(design: &Design) -> Widths {
        let a = &design.allowances;
        Widths {
            seam: a.seam.get(),
            side: a.side_seam.get(),
            crotch: a.crotch_seam.get(),
            open: a.elastic_edge().get(),
            hem: a.hem.get(),
        }
    }

    pub(crate) fn lining(design: &Design) -> Widths {
        let shell = Widths::shell(design);
        Widths {
            open: (shell.open - LINING_INSIDE).max(0.0),
            ..shell
        }
    }
}

/// A level-ish edge from the seam point `from` (seam tangent `t` upwards) to the fold: the arc that the flattened cone of the
/// worn suit has there, so that the sewn tube has a level edge. `lift` raises its end at the fold.
pub(crate) fn cone_edge(from: Point, t: Vec2, lift: f64) -> Curve {
    let i = inward(t);
    let tilt = (-i.y).atan2(-i.x);
    let w = from.x;
    let y = from.y - w * (tilt / 2.0).tan() + lift;
    Curve::cubic(
        from,
        from + i * (0.36 * w),
        Point::new(0.36 * w, y),
        Point::new(0.0, y),
    )
}
