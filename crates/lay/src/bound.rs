//! The least length any lay could have, so that "no more than so much longer than possible" can be said honestly.
//!
//! Three elementary bounds; the largest counts. It is seldom reached. Gap and end allowances are left out, which keeps every bound
//! valid.
//!
//! **Source.** Own, elementary: area; the longest piece; cores (where one piece takes more than half the width, no other such piece can
//! lie at the same place along).

use std::f64::consts::{FRAC_PI_2, PI};

use cloth::Orientation;
use kurbo::Point;
use serde::Serialize;

use crate::cloth::Direction;
use crate::lay::LayRequest;
use crate::piece::LayPiece;
use crate::polygon::{self, Bounds, edges};

/// A lower bound with its reason.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Bound {
    /// No lay is shorter.
    pub length_mm: f64,
    /// Why.
    pub reason: BoundReason,
}

/// Which bound counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum BoundReason {
    /// The pieces' area over the usable width.
    Area,
    /// One piece alone is this long.
    LongestPiece,
    /// Pieces that take more than half the width, one after the other.
    Cores,
}

/// The largest of the bounds for a request; zero without pieces.
pub fn bounds(request: &LayRequest) -> Bound {
    let cloth = &request.cloth;
    let area = request.area_mm2() / cloth.usable_width_mm().max(1e-9);
    let mut all = vec![(area, BoundReason::Area)];
    // Halves on a fold are shorter across, tilted pieces shorter along: the other bounds hold without them only.
    if cloth.tilt == 0.0 {
        let longest = request
            .pieces
            .iter()
            .filter(|p| p.count > 0)
            .map(|p| least_over_ways(request, p, |ring| Bounds::of(ring).width()))
            .fold(0.0, f64::max);
        all.push((longest, BoundReason::LongestPiece));
        if cloth.fold == crate::Fold::Single {
            let half = 0.5 * cloth.usable_width_mm();
            let cores = request
                .pieces
                .iter()
                .map(|p| f64::from(p.count) * least_over_ways(request, p, |ring| core(ring, half)))
                .sum();
            all.push((cores, BoundReason::Cores));
        }
    }
    let (length_mm, reason) = all
        .into_iter()
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .unwrap_or((0.0, BoundReason::Area));
    Bound { length_mm, reason }
}

fn least_over_ways(request: &LayRequest, piece: &LayPiece, of: impl Fn(&[Point]) -> f64) -> f64 {
    let upright = match piece.orientation {
        Orientation::Upright => -FRAC_PI_2,
        Orientation::Turned => 0.0,
    };
    let mut angles = vec![upright];
    if request.cloth.direction != Direction::OneWay {
        angles.push(upright + PI);
    }
    if piece.may_lie_crosswise {
        angles.push(upright + FRAC_PI_2);
    }
    angles
        .into_iter()
        .map(|angle| of(&polygon::turned(&piece.outline, false, angle)))
        .fold(f64::INFINITY, f64::min)
}

/// How much of its length along x a ring takes more than `half` across. Exact: between corners the cross-section is linear.
fn core(ring: &[Point], half: f64) -> f64 {
    let mut cuts: Vec<f64> = ring.iter().map(|p| p.x).collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup();
    let section = |x: f64| {
        let mut ys: Vec<f64> = edges(ring)
            .filter(|(a, b)| (a.x > x) != (b.x > x))
            .map(|(a, b)| a.y + (x - a.x) / (b.x - a.x) * (b.y - a.y))
            .collect();
        ys.sort_by(f64::total_cmp);
        ys.chunks_exact(2).map(|c| c[1] - c[0]).sum::<f64>()
    };
    cuts.windows(2)
        .map(|w| {
            let (x0, x1) = (w[0], w[1]);
            let width = x1 - x0;
            // Linear inside: two inner samples give the line.
            let (at_third, at_two_thirds) = (section(x0 + width / 3.0), section(x0 + 2.0 * width / 3.0));
            let (left, right) = (2.0 * at_third - at_two_thirds, 2.0 * at_two_thirds - at_third);
            let over = |v: f64| v - half;
            match (over(left) > 0.0, over(right) > 0.0) {
                (true, true) => width,
                (false, false) => 0.0,
                (true, false) => width * over(left) / (left - right),
                (false, true) => width * over(right) / (right - left),
            }
        })
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(points: &[(f64, f64)]) -> Vec<Point> {
        points.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    /// Source: elementary. A triangle 10 long whose width falls from 8 to 0 is wider than 6 for a quarter of it.
    #[test]
    fn core_of_a_triangle() {
        let triangle = ring(&[(0.0, 0.0), (10.0, 4.0), (0.0, 8.0)]);
        assert!((core(&triangle, 6.0) - 2.5).abs() < 1e-9);
        assert_eq!(core(&triangle, 9.0), 0.0);
    }

    /// A ring with two arms: its cross-section is both arms together.
    #[test]
    fn core_counts_all_arms() {
        let fork = ring(&[
            (0.0, 0.0),
            (10.0, 0.0),
            (10.0, 2.0),
            (4.0, 2.0),
            (4.0, 4.0),
            (10.0, 4.0),
            (10.0, 6.0),
            (0.0, 6.0),
        ]);
        assert!((core(&fork, 5.0) - 4.0).abs() < 1e-9);
        assert!((core(&fork, 3.9) - 10.0).abs() < 1e-9);
    }
}
