//! Tops cut from the upper block: between the block's own straps, neckline and armholes, and a lower edge of their own.
//!
//! A style says where the top ends, how that edge is finished and what replaces the block's upper edges; the rest is the same for
//! all of them: halves cut and trued, a dart or princess seams for the bust, lining and mesh with the shell's outline, band,
//! pockets, seams, arcs, openings.
//!
//! **Shapes and units.** mm flat, piece frame.
//! **Source.** Construction own. The lower edge of a short top is a cone edge whose rise at the fold is kept to a third, so that
//! the edge dips under the bust: own.
//! **Limits.** A dart and the side seam share the few centimetres between band and underarm; where they do not fit, princess seams do.

pub(crate) mod band;
mod edges;
pub(crate) mod filling;
mod pieces;
pub(crate) mod support;
pub(crate) mod words;

use kurbo::{Point, Vec2};

use super::cone_edge;
use crate::block::Block;
use crate::geometry::{Curve, inward};
use crate::refusal::Refusal;
use crate::style::torso::Torso;
use crate::style::{Drawn, Job};
pub(crate) use words::{Filling, Lower, Mesh};

/// How much of the rise of a cone edge a short top's lower edge gives up at the fold (own).
const DIP: f64 = 0.65;
/// Elastic of the band is worn at this share of the fit (own).
pub(crate) const BAND_SHARE: f64 = 1.4;
/// The side seam of a top is at least this long, mm flat.
const LEAST_SIDE: f64 = 30.0;
/// Neckline or back stay this far above the lower edge at the fold, mm flat.
const LEAST_FOLD: f64 = 25.0;
/// Facing for a hook at the centre back, mm: common practice, no single source.
pub(crate) const HOOK_FACING: f64 = 25.0;
/// Share of the armhole, from the underarm, where a princess seam ends.
const PRINCESS_AT: f64 = 0.55;
/// How far the free front of a nursing top hangs over its band seam at the centre, mm (own).
const OVERLAP: f64 = 20.0;

/// What a style asks for.
#[derive(Clone, Debug)]
pub(crate) struct Wanted {
    /// Height of the lower edge at the side seam, mm flat.
    pub(crate) lower_y: f64,
    pub(crate) lower: Lower,
    pub(crate) front: FrontUpper,
    pub(crate) back: BackUpper,
    pub(crate) is_hooked: bool,
    /// Height of a slit at the lower end of the side seams, mm flat; 0 for none.
    pub(crate) slit: f64,
    pub(crate) mesh: Mesh,
    pub(crate) filling: Filling,
    pub(crate) is_nursing: bool,
    /// Whether this is a lining that ends under the bust inside a longer top.
    pub(crate) is_shelf: bool,
}

/// The upper edges of the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum FrontUpper {
    /// The block's.
    Block,
    /// Drawn together to a strap behind the neck.
    Halter,
}

/// The upper edges of the back.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum BackUpper {
    /// The block's.
    Block,
    /// One edge from underarm to underarm.
    Across,
    /// A low scoop that crossed straps are sewn to.
    Crossed,
}

/// A half of the top with its own edges; the side is whole, darted or not, as it is before the dart is opened.
pub(super) struct Half {
    /// From the fold to the side.
    pub(super) bottom: Curve,
    pub(super) side: Curve,
    /// Upper edges from the underarm to the fold.
    pub(super) upper: Upper,
}

/// Upper edges of a half.
pub(super) enum Upper {
    /// Armhole, strap seam, neckline.
    Strapped {
        armhole: Curve,
        strap: Curve,
        neck: Curve,
    },
    /// One edge.
    Across(Curve),
}

impl Upper {
    pub(super) fn end(&self) -> Point {
        match self {
            Upper::Strapped { neck, .. } => neck.end(),
            Upper::Across(top) => top.end(),
        }
    }
}

/// Both halves.
pub(super) struct Cut {
    pub(super) front: Half,
    /// The free front of a nursing top hangs lower than the front that is sewn to the band.
    pub(super) overlay_bottom: Option<Curve>,
    pub(super) back: Half,
    /// Length of the block's front side below the lower edge.
    pub(super) front_from: f64,
}

impl Cut {
    /// `has_back`: whether a back is cut from it.
    fn of(job: &Job<'_>, block: &Block, wanted: &Wanted, has_back: bool) -> Result<Cut, Refusal> {
        let too_short = Refusal::Combination {
            parameter: "style",
            why: "on this body the lower edge of the top would come within 3 cm of the underarm; take the side length and side neck to bust point again, or choose a longer top",
        };
        let front_from = block
            .front
            .side
            .length_to_height(wanted.lower_y)
            .ok_or_else(|| too_short.clone())?;
        let front_side = block.front.side.split_at(front_from).1;
        let ease = block.ease.map_or(0.0, |e| e.amount);
        let back_length = front_side.length() - ease;
        if back_length < LEAST_SIDE + wanted.slit {
            return Err(too_short);
        }
        if let Some(dart) = &block.dart
            && dart.side_low.length() < front_from + 12.0
        {
            return Err(Refusal::Combination {
                parameter: "bust_shaping",
                why: "the dart would run into the lower edge of this top; take side neck to bust point again, or choose a longer top",
            });
        }
        let back_from = block.back.side.length() - back_length;
        let back_side = block.back.side.split_at(back_from.max(0.0)).1;
        let bottom = |side: &Curve, further: f64| lower_edge(side, wanted.lower, further);
        let front = Half {
            bottom: bottom(&front_side, 0.0),
            upper: front_upper(job, block, wanted.front)?,
            side: front_side.clone(),
        };
        let back = Half {
            bottom: bottom(&back_side, 0.0),
            upper: back_upper(block, &wanted.back),
            side: back_side,
        };
        if front.upper.end().y < front.bottom.start().y + LEAST_FOLD {
            return Err(Refusal::Combination {
                parameter: "neck_depth",
                why: "the neckline would come within 2.5 cm of the lower edge of the top; make it shallower",
            });
        }
        if has_back && back.upper.end().y < back.bottom.start().y + LEAST_FOLD {
            return Err(Refusal::Combination {
                parameter: "back_depth",
                why: "the back would come within 2.5 cm of the lower edge of the top; make it shallower, choose another back or a longer top, or let the lining of a tankini end at the hem",
            });
        }
        Ok(Cut {
            overlay_bottom: wanted.is_nursing.then(|| bottom(&front_side, -OVERLAP)),
            front,
            back,
            front_from,
        })
    }
}

/// From the fold to the side.
fn lower_edge(side: &Curve, lower: Lower, further: f64) -> Curve {
    let (from, t) = (side.start(), side.start_tangent());
    let rise = cone_edge(from, t, 0.0).end().y - from.y;
    let lift = match lower {
        Lower::Hem => 0.0,
        Lower::Band(_) | Lower::Elastic => -DIP * rise,
    };
    cone_edge(from, t, lift + further).reversed()
}

fn front_upper(job: &Job<'_>, block: &Block, wanted: FrontUpper) -> Result<Upper, Refusal> {
    let half = &block.front;
    Ok(match wanted {
        FrontUpper::Block => Upper::Strapped {
            armhole: half.armhole.clone(),
            strap: half.shoulder.clone(),
            neck: half.neck.clone(),
        },
        FrontUpper::Halter => halter(job, block)?,
    })
}

fn back_upper(block: &Block, wanted: &BackUpper) -> Upper {
    let half = &block.back;
    match wanted {
        BackUpper::Block => Upper::Strapped {
            armhole: half.armhole.clone(),
            strap: half.shoulder.clone(),
            neck: half.neck.clone(),
        },
        BackUpper::Across => Upper::Across(cone_edge(half.side.end(), half.side.end_tangent(), 0.0)),
        BackUpper::Crossed => Upper::Across(super::straps::back_top(half)),
    }
}

/// Finished width of a halter's strap, mm flat (own).
pub(crate) const HALTER_STRAP: f64 = 30.0;

/// Armhole, strap end and neckline of a halter front.
fn halter(job: &Job<'_>, block: &Block) -> Result<Upper, Refusal> {
    use crate::design::NeckShape;
    let (l, half) = (&block.levels, &block.front);
    let low = half.neck.end();
    let tangent = block
        .dart
        .as_ref()
        .map_or_else(|| half.side.end_tangent(), |d| d.underarm_tangent);
    let underarm = half.underarm;
    let top = Point::new(l.neck_half_width + 16.0, l.front_neck_y - 6.0);
    let d = crate::geometry::unit(Vec2::new(0.26, -1.0));
    let n = Vec2::new(-d.y, d.x);
    let (arm, neck) = (top + n * (HALTER_STRAP / 2.0), top - n * (HALTER_STRAP / 2.0));
    let armhole = Curve::cubic(
        underarm,
        underarm + inward(tangent) * (0.5 * (underarm.x - arm.x)),
        arm + d * (0.62 * (arm.y - underarm.y)),
        arm,
    );
    let h = neck.y - low.y;
    let wide = neck.x.max(40.0);
    let at_fold = match job.design.neck_shape {
        NeckShape::Scoop | NeckShape::High => low + Vec2::new(0.60 * wide, 0.0),
        NeckShape::V => low + Vec2::new(0.42 * neck.x, 0.336 * h),
        NeckShape::Square => {
            return Err(Refusal::Combination {
                parameter: "neckline",
                why: "a halter's neckline is a scoop or a V; choose \"scoop\", \"high\" or \"v\"",
            });
        }
    };
    Ok(Upper::Strapped {
        armhole,
        strap: Curve::line(arm, neck),
        neck: Curve::cubic(neck, neck + d * (0.45 * h), at_fold, low),
    })
}

/// Draws the top of a block as wanted: pieces, seams, edges, openings, levels, finished measures.
///
/// # Errors
/// Any [`Refusal`] of halves or pieces.
pub(crate) fn draw(job: &Job<'_>, torso: &Torso, wanted: &Wanted, drawn: &mut Drawn) -> Result<(), Refusal> {
    let block = &torso.block;
    crate::check::kinks(block)?;
    let cut = Cut::of(job, block, wanted, true)?;
    pieces::add(job, block, &cut, wanted, None, drawn)?;
    edges::add(job, torso, &cut, wanted, drawn)
}

/// How far below the under-bust a shelf is cut, mm flat: room for its elastic (own).
const SHELF_BELOW: f64 = 10.0;

/// The same with a lining and mesh that end under the bust, on elastic of their own.
///
/// # Errors
/// As [`draw`].
pub(crate) fn draw_with_shelf(
    job: &Job<'_>,
    torso: &Torso,
    wanted: &Wanted,
    is_nursing: bool,
    drawn: &mut Drawn,
) -> Result<(), Refusal> {
    let block = &torso.block;
    crate::check::kinks(block)?;
    let cut = Cut::of(job, block, wanted, true)?;
    let shelf = Wanted {
        is_nursing,
        lower_y: underbust_y(job, block) - SHELF_BELOW,
        lower: Lower::Elastic,
        slit: 0.0,
        is_shelf: true,
        ..wanted.clone()
    };
    let has_back =
        filling::lining(job) == crate::design::LiningCover::Full || wanted.mesh == Mesh::FrontAndWings;
    let shelf_cut = Cut::of(job, block, &shelf, has_back)?;
    pieces::add(job, block, &cut, wanted, Some((&shelf_cut, &shelf)), drawn)?;
    edges::add(job, torso, &cut, wanted, drawn)?;
    edges::add_shelf(job, block, &shelf_cut, &shelf, drawn);
    Ok(())
}

/// Whether the front is cut with princess seams: when asked for, and by itself wherever a dart is needed, because the corner a
/// dart leaves in a short side seam is one no cutter would draw (own).
pub(super) fn is_princess(job: &Job<'_>, block: &Block) -> bool {
    block.dart.is_some() && job.design.bust_shaping != crate::design::BustShaping::SideDart
}

/// Height of the under-bust on the front's fold and side, mm flat: bust point less the way to the under-bust.
pub(crate) fn underbust_y(job: &Job<'_>, block: &Block) -> f64 {
    block.levels.bust_point_y - super::cups::to_underbust(job) * block.levels.k_side
}

/// Body girth at a flat height between under-bust and waist, straight between the two.
pub(crate) fn girth_below_the_bust(job: &Job<'_>, block: &Block, y: f64) -> f64 {
    let m = job.m;
    // Without an under-bust girth (children): as far between chest and waist as the under-bust lies (own).
    let underbust = m.underbust.unwrap_or(m.bust + 0.48 * (m.waist - m.bust));
    let top = underbust_y(job, block).max(1.0);
    underbust + (m.waist - underbust) * ((top - y) / top).clamp(0.0, 1.0)
}
