//! Styles: each a small function from body, cloth and design to pieces, and what a maker may set on it.
//!
//! Adding one is a file here with a [`StyleSpec`] and a line in [`catalogue::ALL`]; suit file, pages, handbook and the tests over
//! all styles find it there.

mod bandeau;
mod belly;
mod brief;
mod catalogue;
mod closure;
mod crop_top;
mod cups;
mod cut;
mod dress;
mod fold_over;
mod halter;
mod halter_top;
mod legged;
mod lining;
mod motif;
mod one_piece;
mod open_edges;
mod princess;
mod rash_body;
mod rash_top;
mod shelf_bra;
mod side_tie;
mod skirt;
mod sleeve;
mod sleeve_pieces;
mod stoma;
mod straps;
mod style_seams;
mod sun_suit;
mod tankini;
mod ties;
mod top;
mod torso;
mod triangle_top;
mod trunk_judge;
mod trunk_liner;
mod trunk_pieces;
mod trunks;
mod two_piece;

#[cfg(test)]
pub(crate) use brief::BriefHalves;
pub(crate) use brief::{girth_at, top_height as brief_top_height};
pub use catalogue::{Family, Style, StyleSpec};
pub(crate) use lining::is_short as is_crotch_lining_short;
pub(crate) use motif::place as place_motifs;
pub(crate) use ties::refuse_ties;
pub use ties::ties_are_refused;
pub(crate) use top::support::judge_suit;
pub(crate) use torso::Reach;

use cloth::ClothPlan;
use units::Finding;

use crate::branch::Branches;
use crate::design::Design;
use crate::factors::Factors;
use crate::geometry::{Curve, inward};
use crate::measures::Measures;
use crate::parameter::Parameter;
use crate::piece::Piece;
use crate::refusal::Refusal;
use crate::suit::{LevelWidth, LoopRung, OpenEdge, Opening, SeamWalk, TrunkLoop};
use kurbo::{Point, Vec2};

/// What every style is drawn from.
pub(crate) struct Job<'a> {
    pub(crate) m: &'a Measures,
    pub(crate) k: &'a Factors,
    pub(crate) cloth: &'a ClothPlan,
    pub(crate) design: &'a Design,
    /// Where the ways the draft takes are noted.
    pub(crate) branches: &'a Branches,
}

impl Job<'_> {
    /// A length (mm) or number of the style's own, as set or as usual.
    ///
    /// # Errors
    /// [`Refusal::Parameter`] outside its range.
    pub(crate) fn number(&self, parameter: &Parameter) -> Result<f64, Refusal> {
        self.design.own.number(parameter)
    }

    /// The word of a choice of the style's own.
    ///
    /// # Errors
    /// [`Refusal::Combination`] for a word it does not have.
    pub(crate) fn word(&self, parameter: &Parameter) -> Result<&'static str, Refusal> {
        self.design.own.word(parameter)
    }

    /// Whether a switch of the style's own is on.
    ///
    /// # Errors
    /// [`Refusal::Combination`] for a value that is not yes or no.
    pub(crate) fn is_on(&self, parameter: &Parameter) -> Result<bool, Refusal> {
        self.design.own.is_on(parameter)
    }
}

/// What a style gives; letters are added after it.
#[derive(Default)]
pub(crate) struct Drawn {
    pub(crate) pieces: Vec<Piece>,
    pub(crate) seams: Vec<SeamWalk>,
    pub(crate) open_edges: Vec<OpenEdge>,
    pub(crate) openings: Vec<Opening>,
    pub(crate) finished: Vec<crate::suit::FinishedMeasure>,
    pub(crate) support: Vec<crate::suit::SupportNeed>,
    pub(crate) findings: Vec<Finding>,
    /// Widths by level, top to bottom.
    pub(crate) levels: Vec<LevelWidth>,
    /// The torso loop in rungs, for a suit held by shoulders and crotch.
    pub(crate) loop_rungs: Vec<LoopRung>,
    pub(crate) trunk: Option<TrunkLoop>,
    pub(crate) strap_mid: Option<Point>,
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
