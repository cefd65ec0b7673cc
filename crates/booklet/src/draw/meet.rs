//! Makes the drafted halves meet in a picture as they do when they are sewn: side seam on side seam, shoulder on shoulder, darts
//! closed, the legs of trunks beside each other.
//!
//! Front and back are drafted apart, each with widths of its own; laid over one another as drafted, one peeps out from behind the
//! other where on a body nothing does.
//!
//! **Shapes and units.** Right halves in flat mm, y up, middle at x = 0.
//! **Source.** Own.
//! **Limits.** Moves lines for a picture; no length is kept.

use draft::{Piece, PieceEdge};
use kurbo::Point;

use super::piece::FLATTEN_MM;

/// Where one side of the suit is joined to the other.
#[derive(Clone, Debug, Default)]
pub(super) struct Joins {
    /// The side seam from below upwards.
    side: Vec<Point>,
    /// Middle of the shoulder seam.
    shoulder: Option<Point>,
}

fn middle(edge: &PieceEdge) -> Point {
    edge.curve.start().midpoint(edge.curve.end())
}

impl Joins {
    /// The joins of some pieces of one side.
    pub(super) fn of<'a>(pieces: impl Iterator<Item = &'a Piece>) -> Joins {
        let mut joins = Joins::default();
        for edge in pieces.flat_map(|p| &p.edges) {
            if edge.name.starts_with("side") && !edge.name.contains("front") && !edge.name.contains("back") {
                joins.side.extend(edge.curve.flatten(FLATTEN_MM));
            } else if edge.name == "shoulder" && joins.shoulder.is_none() {
                joins.shoulder = Some(middle(edge));
            }
        }
        joins.side.sort_by(|a, b| a.y.total_cmp(&b.y));
        joins
    }

    /// A point of this side moved to where the other side has it.
    pub(super) fn onto(&self, other: &Joins, p: Point) -> Point {
        let ends = |line: &[Point]| Some((line.first()?.y, line.last()?.y));
        let (Some((low, high)), Some((to_low, to_high))) = (ends(&self.side), ends(&other.side)) else {
            return p;
        };
        let span = (high - low).max(1.0);
        let at = |p: Point| {
            let t = (p.y - low) / span;
            let (from, to) = (
                x_at(&self.side, p.y.clamp(low, high)),
                x_at(&other.side, to_low + t.clamp(0.0, 1.0) * (to_high - to_low)),
            );
            let y = if t < 0.0 {
                to_low + p.y - low
            } else if t > 1.0 {
                to_high + p.y - high
            } else {
                to_low + t * (to_high - to_low)
            };
            Point::new(if from > 1.0 { p.x * to / from } else { p.x }, y)
        };
        let moved = at(p);
        match (self.shoulder, other.shoulder) {
            (Some(from), Some(to)) if p.y > high => {
                let from = at(from);
                let share = (moved.y - to_high) / (from.y - to_high).max(1.0);
                let wider = 1.0 + share * (to.x / from.x.max(1.0) - 1.0);
                Point::new(moved.x * wider, to_high + share * (to.y - to_high))
            }
            _ => moved,
        }
    }
}

/// x of a line that runs upwards, at a height.
fn x_at(line: &[Point], y: f64) -> f64 {
    let place = line.partition_point(|p| p.y < y);
    let above = line.get(place).or(line.last()).copied().unwrap_or_default();
    let below = line.get(place.wrapping_sub(1)).copied().unwrap_or(above);
    let rise = above.y - below.y;
    if rise <= 0.0 {
        return above.x;
    }
    below.x + (above.x - below.x) * ((y - below.y) / rise).clamp(0.0, 1.0)
}

/// A leg of trunks, so moved that its centre seam lies in the middle and its inseam beside it.
pub(super) fn leg(piece: &Piece) -> impl Fn(Point) -> Point + use<> {
    let line = |test: &dyn Fn(&str) -> bool| -> Vec<Point> {
        let edges = piece.edges.iter().filter(|e| test(e.name));
        let mut points: Vec<Point> = edges.flat_map(|e| e.curve.flatten(FLATTEN_MM)).collect();
        points.sort_by(|a, b| a.y.total_cmp(&b.y));
        points
    };
    let centre = line(&|n| n.starts_with("centre"));
    let side = line(&|n| n.starts_with("side"));
    let crotch = centre.first().map_or(0.0, |p| p.y);
    let foot = side.first().map_or(crotch, |p| p.y);
    /// Between the two legs at their hems, half, mm of cloth.
    const APART: f64 = 7.0;
    move |p| {
        let gap = if p.y < crotch {
            APART * (crotch - p.y) / (crotch - foot).max(1.0)
        } else {
            0.0
        };
        let inner = if p.y > crotch { x_at(&centre, p.y) } else { 0.0 };
        let outer = x_at(&side, p.y);
        // The centre seam leans outwards above: drawn upright. Below it curves to the other side: hidden there.
        let x = if inner > 0.0 && outer > inner {
            (p.x - inner) * outer / (outer - inner)
        } else {
            p.x
        };
        Point::new(x.max(gap), p.y)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_side_seam_lies_on_the_other() {
        let line = |points: &[(f64, f64)]| points.iter().map(|(x, y)| Point::new(*x, *y)).collect();
        let front = Joins {
            side: line(&[(200.0, -140.0), (170.0, 0.0), (220.0, 200.0)]),
            shoulder: Some(Point::new(100.0, 400.0)),
        };
        let back = Joins {
            side: line(&[(210.0, -143.0), (165.0, 0.0), (201.0, 199.0)]),
            shoulder: Some(Point::new(110.0, 384.0)),
        };
        for (from, to) in [
            (Point::new(200.0, -140.0), Point::new(210.0, -143.0)),
            (Point::new(220.0, 200.0), Point::new(201.0, 199.0)),
            (Point::new(100.0, 400.0), Point::new(110.0, 384.0)),
        ] {
            let moved = front.onto(&back, from);
            assert!(moved.distance(to) < 1e-6, "{moved:?} is not {to:?}");
        }
        assert_eq!(
            front.onto(&Joins::default(), Point::new(1.0, 2.0)),
            Point::new(1.0, 2.0)
        );
    }
}
