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
/// A cup trimmed along a neckline still reaches this far past the bust point everywhere, mm (own): less would not cover it.
const LEAST_RADIUS: f64 = 15.0;
const OPENING: f64 = 60.0;
const RAYS: usize = 120;
/// A cup ends this far from the fold, mm: the other cup lies beyond it.
const OFF_FOLD: f64 = 4.0;
/// How far the straight stretches that stand for an edge may lie off it, mm.
const FENCE_TOLERANCE: f64 = 0.2;

/// Radius of the cup on the flat piece, mm.
fn radius(job: &Job<'_>) -> f64 {
    let to_underbust = 55.0 + 0.12 * job.m.cup_difference();
    (to_underbust + 8.0) * job.k.x(Level::Bust)
}

fn bust_point(block: &Block) -> Point {
    Point::new(block.levels.bust_point_x, block.levels.bust_point_y)
}

/// The circle on the front, kept clear of its edges: points counter-clockwise from the side.
///
/// # Errors
/// [`Refusal::Combination`] when an edge comes so near the bust point that no cup fits.
fn place(job: &Job<'_>, block: &Block) -> Result<Vec<Point>, Refusal> {
    let centre = bust_point(block);
    let full = radius(job);
    let front = &block.front;
    let fences: Vec<(Point, Point)> = [&front.armhole, &front.neck]
        .into_iter()
        .flat_map(|c| {
            c.flatten(FENCE_TOLERANCE)
                .windows(2)
                .map(|w| (w[0], w[1]))
                .collect::<Vec<_>>()
        })
        .collect();
    (0..RAYS)
        .map(|i| {
            let angle = std::f64::consts::TAU * i as f64 / RAYS as f64;
            let ray = Vec2::new(angle.cos(), angle.sin());
            let is_clear = |r: f64| {
                let p = centre + ray * r;
                p.x >= OFF_FOLD
                    && fences.iter().all(|&(a, b)| distance(p, a, b) >= CLEAR && !crosses(centre, p, a, b))
            };
            if is_clear(full) {
                return Ok(centre + ray * full);
            }
            if !is_clear(LEAST_RADIUS) {
                return Err(Refusal::Combination {
                    parameter: "cups",
                    why: "an edge comes too near the bust point for a cup; make the neckline shallower or set it to \"none\"",
                });
            }
            let (mut low, mut high) = (LEAST_RADIUS, full);
            for _ in 0..20 {
                let middle = 0.5 * (low + high);
                if is_clear(middle) { low = middle } else { high = middle }
            }
            Ok(centre + ray * low)
        })
        .collect()
}

/// Distance of a point from a straight stretch.
fn distance(p: Point, a: Point, b: Point) -> f64 {
    let along = b - a;
    let t = ((p - a).dot(along) / along.hypot2().max(1e-12)).clamp(0.0, 1.0);
    (p - (a + along * t)).hypot()
}

/// Whether the way from `p` to `q` crosses the stretch from `a` to `b`.
fn crosses(p: Point, q: Point, a: Point, b: Point) -> bool {
    let side = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    side(p, q, a) * side(p, q, b) < 0.0 && side(a, b, p) * side(a, b, q) < 0.0
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
///
/// # Errors
/// As [`place`].
pub(super) fn marks(b: PieceBuilder, job: &Job<'_>, block: &Block) -> Result<PieceBuilder, Refusal> {
    Ok(b.mark(Mark::Placement {
        curve: ring(&place(job, block)?),
        text: "cup".into(),
    }))
}

/// Marks the cup's place on a princess centre front: the part on the fold's side of the seam.
///
/// # Errors
/// As [`place`].
pub(super) fn centre_mark(b: PieceBuilder, job: &Job<'_>, block: &Block) -> Result<PieceBuilder, Refusal> {
    let at = bust_point(block);
    let inner: Vec<Point> = place(job, block)?.into_iter().filter(|p| p.x <= at.x).collect();
    let run = inner.windows(2).fold(Curve::default(), |run, w| {
        let side = Curve::line(w[0], w[1]);
        if run.cubics().is_empty() {
            side
        } else {
            run.then(&side)
        }
    });
    Ok(b.mark(Mark::Placement {
        curve: run,
        text: "cup, centred on the bust point".into(),
    }))
}

/// The pocket: a patch of lining sewn on round its edge but for the opening.
///
/// # Errors
/// As [`place`], or any [`Refusal`] of the piece.
pub(super) fn pocket(job: &Job<'_>, block: &Block) -> Result<Piece, Refusal> {
    let points = place(job, block)?;
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
