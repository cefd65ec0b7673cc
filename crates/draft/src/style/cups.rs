//! Cups: where they sit, and a pocket in the lining to slip them into.
//!
//! The cup's place is a circle about the bust point whose radius grows with the bust difference. The pocket is that circle, kept clear
//! of the edges' elastic, open for 60 mm at the side.
//!
//! **Source.** Radius: own estimate, bust point to under-bust 55 + 0.12 d along the body, and 8 mm more. Opening and clearance: common
//! practice, no single source.
//! **Limits.** Support is not computed; a cup is chosen by trial.

use cloth::Layer;
use kurbo::{Point, Vec2};
use units::Level;

use super::{Job, Widths};
use crate::block::Block;
use crate::build::PieceBuilder;
use crate::geometry::Curve;
use crate::piece::{EdgeUse, Mark, Piece};
use crate::refusal::Refusal;

/// A cup stays this clear of the seam line of open edges, mm: the elastic and its stitches.
const CLEAR: f64 = 12.0;
/// A pocket narrower than this somewhere takes no cup, mm.
const LEAST_RADIUS: f64 = 30.0;
const OPENING: f64 = 60.0;
const RAYS: usize = 120;

/// Radius of the cup on the flat piece, mm.
fn radius(job: &Job<'_>) -> f64 {
    let to_underbust = 55.0 + 0.12 * job.m.cup_difference();
    (to_underbust + 8.0) * job.k.x(Level::Bust)
}

fn bust_point(block: &Block) -> Point {
    Point::new(block.levels.bust_point_x, block.levels.bust_point_y)
}

/// The circle on the front, kept clear of its edges: points counter-clockwise from the side.
fn place(job: &Job<'_>, block: &Block) -> Vec<Point> {
    let centre = bust_point(block);
    let full = radius(job);
    let front = &block.front;
    let fences: Vec<Point> = [&front.armhole, &front.neck]
        .into_iter()
        .flat_map(|c| c.flatten(1.0))
        .collect();
    (0..RAYS)
        .map(|i| {
            let angle = std::f64::consts::TAU * i as f64 / RAYS as f64;
            let ray = Vec2::new(angle.cos(), angle.sin());
            let mut r = full;
            // Clear of neckline and armhole, and of the other cup.
            while r > LEAST_RADIUS
                && ((centre + ray * r).x < 4.0
                    || fences.iter().any(|f| (*f - (centre + ray * r)).hypot() < CLEAR)
                    || crosses(centre, centre + ray * r, &fences))
            {
                r -= 1.0;
            }
            centre + ray * r
        })
        .collect()
}

fn crosses(a: Point, b: Point, fences: &[Point]) -> bool {
    fences.windows(2).any(|w| {
        let side = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
        (w[1] - w[0]).hypot() < 30.0
            && side(a, b, w[0]) * side(a, b, w[1]) < 0.0
            && side(w[0], w[1], a) * side(w[0], w[1], b) < 0.0
    })
}

fn ring(points: &[Point]) -> Curve {
    let n = points.len();
    (0..n).fold(Curve::default(), |run, i| {
        let side = Curve::line(points[i], points[(i + 1) % n]);
        if run.cubics().is_empty() {
            side
        } else {
            run.then(&side)
        }
    })
}

/// Marks the cup's place on a front.
pub(super) fn marks(b: PieceBuilder, job: &Job<'_>, block: &Block) -> PieceBuilder {
    b.mark(Mark::Placement {
        curve: ring(&place(job, block)),
        text: "cup".into(),
    })
}

/// Marks the cup's place on a princess centre front: the part on the fold's side of the seam.
pub(super) fn centre_mark(b: PieceBuilder, job: &Job<'_>, block: &Block) -> PieceBuilder {
    let at = bust_point(block);
    let inner: Vec<Point> = place(job, block).into_iter().filter(|p| p.x <= at.x).collect();
    let run = inner.windows(2).fold(Curve::default(), |run, w| {
        let side = Curve::line(w[0], w[1]);
        if run.cubics().is_empty() {
            side
        } else {
            run.then(&side)
        }
    });
    b.mark(Mark::Placement {
        curve: run,
        text: "cup, centred on the bust point".into(),
    })
}

/// The pocket: a patch of lining sewn on round its edge but for the opening.
///
/// # Errors
/// Any [`Refusal`] of the piece.
pub(super) fn pocket(job: &Job<'_>, block: &Block) -> Result<Piece, Refusal> {
    let points = place(job, block);
    let centre = bust_point(block);
    // The opening: OPENING mm of the rim about the side of the patch.
    let rim = |i: usize| (points[(i + 1) % RAYS] - points[i % RAYS]).hypot();
    let mut half = 0;
    let mut width = 0.0;
    while width < OPENING && half < RAYS / 4 {
        width += rim(half) + rim(RAYS - 1 - half);
        half += 1;
    }
    let order: Vec<Point> = (0..=RAYS).map(|i| points[(i + half) % RAYS]).collect();
    let sewn = RAYS - 2 * half;
    let line = |part: &[Point]| {
        part.windows(2).fold(Curve::default(), |run, w| {
            let side = Curve::line(w[0], w[1]);
            if run.cubics().is_empty() {
                side
            } else {
                run.then(&side)
            }
        })
    };
    let w = Widths::lining(job.design);
    PieceBuilder::new("cup_pocket", "Cup pocket", false)
        .edge("sewn", EdgeUse::Seam, line(&order[..=sewn]), w.crotch)
        .edge("opening", EdgeUse::Hem, line(&order[sewn..]), w.crotch)
        .notch("sewn", 0.0, "pocket_opening", false)
        .notch("opening", 0.0, "pocket_opening", false)
        .mark(Mark::Cross {
            at: centre,
            text: "bust point".into(),
        })
        .build(&[(Layer::Lining, 2, true)], job.cloth)
}
