//! A side profile: half width as a smooth function of height through the body's levels.
//!
//! A natural cubic spline draws what a cutter's curve would, but swings out where girths jump; a monotone one never
//! swings but has flats. The profile is the natural one, pulled towards the monotone one only as far as needed to stay
//! within [`SWING_MM`] of the levels' own widths, so it is continuous in its inputs.
//!
//! **Shapes and units.** mm, piece frame. Each interval is exactly a cubic Bézier whose handles lie at thirds of its height.
//! **Source.** Fritsch and Butland, A method for constructing local monotone piecewise cubic interpolants, SIAM J. Sci.
//! Stat. Comput. 5(2), 1984; natural spline: any textbook. The blend is our own.
//! **Limits.** Beyond the end levels it goes on straight with the end slope.

use kurbo::{CubicBez, ParamCurve, Point};

use super::Curve;

/// How far the profile may leave the band between the widths of two neighbouring levels, mm.
const SWING_MM: f64 = 5.0;

#[derive(Clone, Debug)]
pub(crate) struct Profile {
    /// (height, half width), heights rising.
    nodes: Vec<(f64, f64)>,
    /// d(width)/d(height) at each node.
    slopes: Vec<f64>,
    /// Whether the natural curve had to be drawn in to stay near its levels.
    is_drawn_in: bool,
}

impl Profile {
    /// A profile through `(height, half width)` nodes, heights strictly rising, at least two.
    pub(crate) fn new(nodes: Vec<(f64, f64)>) -> Profile {
        let natural = natural_slopes(&nodes, false);
        let monotone = monotone_slopes(&nodes);
        Profile::blended(nodes, natural, &monotone)
    }

    /// The same, but upright at its lowest node, for a side that goes straight down from there.
    pub(crate) fn with_upright_foot(nodes: Vec<(f64, f64)>) -> Profile {
        let natural = natural_slopes(&nodes, true);
        let mut monotone = monotone_slopes(&nodes);
        if let Some(foot) = monotone.first_mut() {
            *foot = 0.0;
        }
        Profile::blended(nodes, natural, &monotone)
    }

    fn blended(nodes: Vec<(f64, f64)>, natural: Vec<f64>, monotone: &[f64]) -> Profile {
        debug_assert!(nodes.len() >= 2 && nodes.windows(2).all(|w| w[0].0 < w[1].0));
        if swing(&nodes, &natural) <= SWING_MM {
            return Profile {
                nodes,
                slopes: natural,
                is_drawn_in: false,
            };
        }
        let blend = |t: f64| -> Vec<f64> {
            natural
                .iter()
                .zip(monotone)
                .map(|(n, m)| t * m + (1.0 - t) * n)
                .collect()
        };
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..30 {
            let mid = 0.5 * (low + high);
            if swing(&nodes, &blend(mid)) <= SWING_MM {
                high = mid;
            } else {
                low = mid;
            }
        }
        let slopes = blend(high);
        Profile {
            nodes,
            slopes,
            is_drawn_in: true,
        }
    }

    /// Whether the curve was drawn in because the natural one left the band of its levels.
    pub(crate) fn is_drawn_in(&self) -> bool {
        self.is_drawn_in
    }

    /// Half width at a height.
    pub(crate) fn at(&self, y: f64) -> f64 {
        let (first, last) = (self.nodes[0], self.nodes[self.nodes.len() - 1]);
        if y <= first.0 {
            return first.1 + self.slopes[0] * (y - first.0);
        }
        if y >= last.0 {
            return last.1 + self.slopes[self.slopes.len() - 1] * (y - last.0);
        }
        let i = self.interval(y);
        let c = self.cubic(i);
        c.eval((y - c.p0.y) / (c.p3.y - c.p0.y)).x
    }

    /// The profile from one height up to another as a curve.
    pub(crate) fn between(&self, low: f64, high: f64) -> Curve {
        let mut cubics = Vec::new();
        let (first, last) = (self.nodes[0].0, self.nodes[self.nodes.len() - 1].0);
        if low < first {
            let to = high.min(first);
            cubics.push(straight(
                Point::new(self.at(low), low),
                Point::new(self.at(to), to),
            ));
        }
        for i in 0..self.nodes.len() - 1 {
            let (y0, y1) = (self.nodes[i].0, self.nodes[i + 1].0);
            let (from, to) = (low.max(y0), high.min(y1));
            if to - from > 1e-9 {
                let c = self.cubic(i);
                let t = |y: f64| (y - y0) / (y1 - y0);
                cubics.push(if from > y0 || to < y1 {
                    c.subsegment(t(from)..t(to))
                } else {
                    c
                });
            }
        }
        if high > last {
            let from = low.max(last);
            cubics.push(straight(
                Point::new(self.at(from), from),
                Point::new(self.at(high), high),
            ));
        }
        // Neighbouring parts share their point exactly.
        for i in 1..cubics.len() {
            cubics[i].p0 = cubics[i - 1].p3;
        }
        Curve::new(cubics)
    }

    fn interval(&self, y: f64) -> usize {
        self.nodes
            .partition_point(|n| n.0 <= y)
            .clamp(1, self.nodes.len() - 1)
            - 1
    }

    fn cubic(&self, i: usize) -> CubicBez {
        segment(
            self.nodes[i],
            self.nodes[i + 1],
            self.slopes[i],
            self.slopes[i + 1],
        )
    }
}

fn straight(a: Point, b: Point) -> CubicBez {
    let third = (b - a) / 3.0;
    CubicBez::new(a, a + third, b - third, b)
}

fn segment(a: (f64, f64), b: (f64, f64), slope_a: f64, slope_b: f64) -> CubicBez {
    let h = b.0 - a.0;
    CubicBez::new(
        Point::new(a.1, a.0),
        Point::new(a.1 + slope_a * h / 3.0, a.0 + h / 3.0),
        Point::new(b.1 - slope_b * h / 3.0, b.0 - h / 3.0),
        Point::new(b.1, b.0),
    )
}

/// How far the curve leaves the band of an interval's two end widths, at most, mm.
fn swing(nodes: &[(f64, f64)], slopes: &[f64]) -> f64 {
    let mut most: f64 = 0.0;
    for i in 0..nodes.len() - 1 {
        let c = segment(nodes[i], nodes[i + 1], slopes[i], slopes[i + 1]);
        let (low, high) = (c.p0.x.min(c.p3.x), c.p0.x.max(c.p3.x));
        // Extremes of x(t): roots of its quadratic derivative.
        let (d0, d1, d2) = (c.p1.x - c.p0.x, c.p2.x - c.p1.x, c.p3.x - c.p2.x);
        let (a, b, k) = (d0 - 2.0 * d1 + d2, 2.0 * (d1 - d0), d0);
        for t in kurbo::common::solve_quadratic(k, b, a) {
            if (0.0..=1.0).contains(&t) {
                let x = c.eval(t).x;
                most = most.max(low - x).max(x - high);
            }
        }
    }
    most
}

/// Height and slope of each interval's chord.
fn chords(nodes: &[(f64, f64)]) -> (Vec<f64>, Vec<f64>) {
    let h: Vec<f64> = nodes.windows(2).map(|w| w[1].0 - w[0].0).collect();
    let d: Vec<f64> = nodes
        .windows(2)
        .zip(&h)
        .map(|(w, h)| (w[1].1 - w[0].1) / h)
        .collect();
    (h, d)
}

/// Node slopes of the C2 natural cubic spline (second derivative zero at both ends; or slope zero at the first).
fn natural_slopes(nodes: &[(f64, f64)], is_upright_at_foot: bool) -> Vec<f64> {
    let n = nodes.len();
    let (h, d) = chords(nodes);
    // Tridiagonal system for the slopes, Thomas algorithm.
    let (mut diagonal, mut upper, mut right) = (vec![2.0; n], vec![0.0; n], vec![0.0; n]);
    let mut lower = vec![0.0; n];
    upper[0] = 1.0;
    right[0] = 3.0 * d[0];
    if is_upright_at_foot {
        (upper[0], right[0]) = (0.0, 0.0);
    }
    for i in 1..n - 1 {
        lower[i] = h[i];
        diagonal[i] = 2.0 * (h[i - 1] + h[i]);
        upper[i] = h[i - 1];
        right[i] = 3.0 * (h[i] * d[i - 1] + h[i - 1] * d[i]);
    }
    lower[n - 1] = 1.0;
    right[n - 1] = 3.0 * d[n - 2];
    for i in 1..n {
        let w = lower[i] / diagonal[i - 1];
        diagonal[i] -= w * upper[i - 1];
        right[i] -= w * right[i - 1];
    }
    let mut slopes = vec![0.0; n];
    slopes[n - 1] = right[n - 1] / diagonal[n - 1];
    for i in (0..n - 1).rev() {
        slopes[i] = (right[i] - upper[i] * slopes[i + 1]) / diagonal[i];
    }
    slopes
}

/// Node slopes of the monotone interpolant: weighted harmonic means inside, three-point formula at the ends.
fn monotone_slopes(nodes: &[(f64, f64)]) -> Vec<f64> {
    let n = nodes.len();
    let (h, d) = chords(nodes);
    if n == 2 {
        return vec![d[0]; 2];
    }
    let end = |h0: f64, h1: f64, d0: f64, d1: f64| {
        let m = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
        if m * d0 <= 0.0 {
            0.0
        } else if d0 * d1 <= 0.0 && m.abs() > 3.0 * d0.abs() {
            3.0 * d0
        } else {
            m
        }
    };
    let mut slopes = vec![0.0; n];
    slopes[0] = end(h[0], h[1], d[0], d[1]);
    slopes[n - 1] = end(h[n - 2], h[n - 3], d[n - 2], d[n - 3]);
    for i in 1..n - 1 {
        if d[i - 1] * d[i] > 0.0 {
            let (w1, w2) = (2.0 * h[i] + h[i - 1], h[i] + 2.0 * h[i - 1]);
            slopes[i] = (w1 + w2) / (w1 / d[i - 1] + w2 / d[i]);
        }
    }
    slopes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn goes_through_its_nodes_and_straight_beyond() {
        let p = Profile::new(vec![
            (-200.0, 214.0),
            (-100.0, 200.0),
            (0.0, 167.0),
            (150.0, 211.0),
        ]);
        assert!((p.at(0.0) - 167.0).abs() < 1e-12);
        assert!((p.at(-100.0) - 200.0).abs() < 1e-12);
        let beyond = p.at(170.0) - p.at(160.0);
        assert!((p.at(180.0) - p.at(170.0) - beyond).abs() < 1e-12);
    }

    #[test]
    fn a_jump_does_not_swing_out_of_its_band() {
        let p = Profile::new(vec![(0.0, 100.0), (10.0, 100.0), (20.0, 300.0), (200.0, 300.0)]);
        let most = (0..2000).map(|i| p.at(f64::from(i) * 0.1)).fold(0.0, f64::max);
        assert!(most <= 300.0 + SWING_MM + 1e-6, "swings to {most}");
    }

    #[test]
    fn between_is_the_same_curve_cut() {
        let p = Profile::new(vec![
            (-200.0, 214.0),
            (-100.0, 200.0),
            (0.0, 167.0),
            (150.0, 211.0),
        ]);
        let c = p.between(-150.0, 170.0);
        assert!((c.start().x - p.at(-150.0)).abs() < 1e-9);
        assert!((c.end().x - p.at(170.0)).abs() < 1e-9);
        assert_eq!(c.cubics().len(), 4);
    }
}
