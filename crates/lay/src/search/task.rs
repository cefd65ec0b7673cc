//! What the search is given: shapes, the ways each piece may lie, and what it must keep clear of.
//!
//! **Shapes and units.** The strip is `0..length` along x and `0..height` across y, already less margins.

use kurbo::Vec2;

use crate::polygon::Bounds;
use crate::shape::{Shape, Shapes};

/// A lay is long when it is so many times its width.
const LONG: f64 = 4.0;

/// One way a piece may lie.
#[derive(Clone, Debug)]
pub(crate) struct Way {
    pub(crate) shape: usize,
    /// Whether its top points against the cloth's direction; only counts for pieces of a garment that keeps one direction.
    pub(crate) is_turned: bool,
    /// The origin must lie at this y (the fold edge).
    pub(crate) fixed_y: Option<f64>,
    /// The piece must lie between these across.
    pub(crate) lane: (f64, f64),
    /// The origin must lie at `start + k * step`, along and across.
    pub(crate) grid: [Option<(f64, f64)>; 2],
}

/// A piece to place.
#[derive(Clone, Debug)]
pub(crate) struct Item {
    pub(crate) ways: Vec<Way>,
    /// The garment whose pieces all point one way, if the rule asks for that.
    pub(crate) garment: Option<usize>,
    /// May lie on flaws of this grade and better ones.
    pub(crate) bears_grade: u32,
}

/// Something in the way.
#[derive(Clone, Debug)]
pub(crate) struct Fixed {
    pub(crate) shape: usize,
    pub(crate) at: Vec2,
    /// 0: nothing may touch it.
    pub(crate) grade: u32,
}

/// The whole task.
#[derive(Debug)]
pub(crate) struct Task {
    pub(crate) shapes: Shapes,
    pub(crate) items: Vec<Item>,
    pub(crate) fixed: Vec<Fixed>,
    /// Across all lanes.
    pub(crate) height: f64,
    pub(crate) garments: usize,
}

/// Where a piece lies: which of its ways, and its origin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Pose {
    pub(crate) way: usize,
    pub(crate) x: f64,
    pub(crate) y: f64,
}

impl Pose {
    pub(crate) fn origin(&self) -> Vec2 {
        Vec2::new(self.x, self.y)
    }
}

impl Task {
    pub(crate) fn way(&self, item: usize, pose: &Pose) -> &Way {
        &self.items[item].ways[pose.way]
    }

    pub(crate) fn shape(&self, item: usize, pose: &Pose) -> &Shape {
        self.shapes.get(self.way(item, pose).shape)
    }

    pub(crate) fn bounds(&self, item: usize, pose: &Pose) -> Bounds {
        self.shape(item, pose).bounds.moved(pose.origin())
    }

    /// How many widths a lay is longer than one that is long; none for all others.
    pub(crate) fn widths_beyond_long(&self, length: f64) -> f64 {
        (length / self.height.max(1e-9) - LONG).max(0.0)
    }

    /// The end of the last piece.
    pub(crate) fn end(&self, poses: &[Pose]) -> f64 {
        poses
            .iter()
            .enumerate()
            .map(|(i, p)| self.bounds(i, p).x1)
            .fold(0.0, f64::max)
    }

    /// The least length every piece alone needs.
    pub(crate) fn least_length(&self) -> f64 {
        let of_item = |item: &Item| {
            item.ways
                .iter()
                .map(|w| self.shapes.get(w.shape).bounds.width())
                .fold(f64::INFINITY, f64::min)
        };
        self.items.iter().map(of_item).fold(0.0, f64::max)
    }

    /// The origin nearest to the wished one at which the piece lies inside the strip and keeps its fold and repeat.
    pub(crate) fn allowed(&self, way: &Way, length: f64, wish: Vec2) -> Vec2 {
        let bounds = &self.shapes.get(way.shape).bounds;
        let within = |wish: f64, low: f64, high: f64, grid: Option<(f64, f64)>| {
            let inside = wish.min(high).max(low);
            match grid {
                None => inside,
                Some((start, step)) => {
                    let mut k = ((inside - start) / step).round();
                    if start + k * step > high + 1e-9 {
                        k -= 1.0;
                    }
                    if start + k * step < low - 1e-9 {
                        k += 1.0;
                    }
                    start + k * step
                }
            }
        };
        Vec2::new(
            within(wish.x, -bounds.x0, length - bounds.x1, way.grid[0]),
            way.fixed_y.unwrap_or_else(|| {
                within(
                    wish.y,
                    way.lane.0 - bounds.y0,
                    way.lane.1 - bounds.y1,
                    way.grid[1],
                )
            }),
        )
    }
}
