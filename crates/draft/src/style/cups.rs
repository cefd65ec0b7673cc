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
pub(super) const OFF_FOLD: f64 = 4.0;
/// How far the straight stretches that stand for an edge may lie off it, mm.
const FENCE_TOLERANCE: f64 = 0.2;

/// From the bust point to the under-bust along the body, mm (own).
pub(super) fn to_underbust(job: &Job<'_>) -> f64 {
    55.0 + 0.12 * job.m.cup_difference()
}

/// Radius of a cup on the body, mm (own).
pub(super) fn radius(job: &Job<'_>) -> f64 {
    to_underbust(job) + 8.0
}

fn bust_point(block: &Block) -> Point {
    Point::new(block.levels.bust_point_x, block.levels.bust_point_y)
}

/// Where a cup goes on a front: a circle about the bust point, kept clear of the edges near it.
pub(super) struct CupPlace {
    /// Nothing of it lies left of this: the fold and a little, mm.
    pub(super) least_x: f64,
    pub(super) centre: Point,
    /// mm flat.
    pub(super) radius: f64,
    /// Edges whose elastic and stitches it must not reach.
    pub(super) fences: Vec<Curve>,
}

/// Where a pocket is left open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum PocketOpening {
    Side,
    Top,
}

impl CupPlace {
    /// Where a cup lies on a front of the whole block, its radius times `share` and `more` mm.
    pub(super) fn of_block(job: &Job<'_>, block: &Block, share: f64, more: f64) -> CupPlace {
        CupPlace {
            least_x: OFF_FOLD,
            centre: bust_point(block),
            radius: (radius(job) * share + more) * job.k.x(Level::Bust),
            fences: vec![block.front.armhole.clone(), block.front.neck.clone()],
        }
    }

    /// The rim: points counter-clockwise from the side.
    ///
    /// # Errors
    /// [`Refusal::Combination`] when an edge comes so near the bust point that no cup fits.
    fn rim(&self) -> Result<Vec<Point>, Refusal> {
        let centre = self.centre;
        let fences: Vec<(Point, Point)> = self
            .fences
            .iter()
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
                    p.x >= self.least_x
                        && fences.iter().all(|&(a, b)| distance(p, a, b) >= CLEAR && !crosses(centre, p, a, b))
                };
                if is_clear(self.radius) {
                    return Ok(centre + ray * self.radius);
                }
                if !is_clear(LEAST_RADIUS) {
                    return Err(Refusal::Combination {
                        parameter: "cups",
                        why: "an edge comes too near the bust point for a cup; make the neckline shallower or set it to \"none\"",
                    });
                }
                let (mut low, mut high) = (LEAST_RADIUS, self.radius);
                for _ in 0..20 {
                    let middle = 0.5 * (low + high);
                    if is_clear(middle) { low = middle } else { high = middle }
                }
                Ok(centre + ray * low)
            })
            .collect()
    }

    /// Marks the place.
    ///
    /// # Errors
    /// As [`CupPlace::rim`].
    pub(super) fn mark(&self, b: PieceBuilder, text: &str) -> Result<PieceBuilder, Refusal> {
        Ok(b.mark(Mark::Placement {
            curve: ring(&self.rim()?),
            text: text.into(),
        }))
    }

    /// The part of the rim on the fold's side of the bust point, for a centre front with princess seams.
    ///
    /// # Errors
    /// As [`CupPlace::rim`].
    pub(super) fn inner_mark(&self, b: PieceBuilder, text: &str) -> Result<PieceBuilder, Refusal> {
        let inner: Vec<Point> = self.rim()?.into_iter().filter(|p| p.x <= self.centre.x).collect();
        Ok(b.mark(Mark::Placement {
            curve: run(&inner),
            text: text.into(),
        }))
    }

    /// A patch of lining sewn on round its edge but for the opening; `count` of them, mirrored when there are two.
    ///
    /// # Errors
    /// As [`CupPlace::rim`], or any [`Refusal`] of the piece.
    pub(super) fn pocket(
        &self,
        job: &Job<'_>,
        (key, name): (&'static str, &'static str),
        count: u32,
        opening: PocketOpening,
    ) -> Result<Piece, Refusal> {
        let points = self.rim()?;
        let middle = match opening {
            PocketOpening::Side => 0,
            PocketOpening::Top => RAYS / 4,
        };
        // The opening: OPENING mm of the rim about its middle.
        let at = |i: usize| points[(i + middle) % RAYS];
        let rim = |i: usize| (at(i + 1) - at(i)).hypot();
        let mut half = 0;
        let mut width = 0.0;
        while width < OPENING && half < RAYS / 4 {
            width += rim(half) + rim(RAYS - 1 - half);
            half += 1;
        }
        let order: Vec<Point> = (0..=RAYS).map(|i| at(i + half)).collect();
        let sewn = RAYS - 2 * half;
        let w = Widths::lining(job.design);
        PieceBuilder::new(key, name, false)
            .edge("sewn", EdgeUse::Seam, run(&order[..=sewn]), w.crotch)
            .edge("opening", EdgeUse::Hem, run(&order[sewn..]), w.crotch)
            .notch("sewn", 0.0, "pocket_opening", false)
            .notch("opening", 0.0, "pocket_opening", false)
            .mark(Mark::Cross {
                at: self.centre,
                text: "bust point".into(),
            })
            .build(&[(Layer::Lining, count, count == 2)], job.cloth)
    }
}

/// Distance of a point from a straight stretch.
pub(super) fn distance(p: Point, a: Point, b: Point) -> f64 {
    let along = b - a;
    let t = ((p - a).dot(along) / along.hypot2().max(1e-12)).clamp(0.0, 1.0);
    (p - (a + along * t)).hypot()
}

/// Whether the way from `p` to `q` crosses the stretch from `a` to `b`.
fn crosses(p: Point, q: Point, a: Point, b: Point) -> bool {
    let side = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    side(p, q, a) * side(p, q, b) < 0.0 && side(a, b, p) * side(a, b, q) < 0.0
}

/// Straight stretches through the points.
fn run(points: &[Point]) -> Curve {
    points.windows(2).fold(Curve::default(), |run, w| {
        let side = Curve::line(w[0], w[1]);
        if run.cubics().is_empty() {
            side
        } else {
            run.then(&side)
        }
    })
}

fn ring(points: &[Point]) -> Curve {
    let closed: Vec<Point> = points.iter().chain(points.first()).copied().collect();
    run(&closed)
}
