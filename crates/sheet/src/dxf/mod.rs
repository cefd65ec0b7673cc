//! A pattern as DXF: an exchange file for pattern programs after ASTM D6673, and a plain file for cutters.

mod cutter;
mod exchange;

pub use cutter::cutter;
pub use exchange::exchange;

use draft::Shape;
use kurbo::{Point, Vec2};

/// Curves become lines that stay this close to them, mm: finer than any cutter follows.
const FLATTEN_MM: f64 = 0.05;

/// The seam line as runs of points; a run that ends where it began is closed.
fn seam_runs(shape: &Shape) -> Vec<Vec<Point>> {
    let mut runs: Vec<Vec<Point>> = Vec::new();
    for edge in shape.seam_line.iter().filter(|e| !e.curve.cubics().is_empty()) {
        let points = edge.curve.flatten(FLATTEN_MM);
        match runs.last_mut() {
            Some(run)
                if run
                    .last()
                    .is_some_and(|l| (*l - edge.curve.start()).hypot() < 1e-6) =>
            {
                run.extend(points.into_iter().skip(1));
            }
            _ => runs.push(points),
        }
    }
    runs
}

fn is_closed(run: &[Point]) -> bool {
    matches!((run.first(), run.last()), (Some(a), Some(b)) if run.len() > 2 && (*a - *b).hypot() < 1e-6)
}

/// Across an edge at the end of an elastic arc: from outside the seam line to inside.
fn arc_stroke(at: Point, inward: Vec2) -> (Point, Point) {
    (at - inward * 4.0, at + inward * 4.0)
}
