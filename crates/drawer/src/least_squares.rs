//! Bounded nonlinear least squares for a handful of unknowns: the values that make a model come closest to what was measured.
//!
//! The Levenberg-Marquardt method: each step solves the linearised problem with a damping that grows until the step really
//! brings the model closer, so that the damping works as a trust region. Unknowns at a bound whose gradient points outside
//! are held there for the step; steps are cut at the bounds. The Jacobian is taken by central differences, because the model
//! is a whole draft; the linear problem is solved by Householder reflections on the stacked matrix [J; sqrt(d) D], never by
//! normal equations, which would lose half of the digits.
//!
//! **Shapes and units.** Residuals come weighted (in standard deviations); unknowns in units of their own, each with the step
//! of its differences.
//! **Source.** K. Levenberg, Quarterly of Applied Mathematics 2 (1944) 164; D. W. Marquardt, SIAM Journal 11 (1963) 431;
//! scaling by the largest column norms so far: J. J. More, Lecture Notes in Mathematics 630 (1978) 105; damping by gain ratio:
//! H. B. Nielsen, report IMM-REP-1999-05, Technical University of Denmark. Titles and numbers from memory. Checked against
//! certified values of NIST in `nist.rs` beside this file.
//! **Limits.** Finds the minimum nearest downhill, not the lowest of several. Made for fewer than some 20 unknowns.

/// One unknown of a model.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Unknown {
    /// Where to start; brought inside the bounds.
    pub(crate) start: f64,
    /// Least value.
    pub(crate) low: f64,
    /// Greatest value.
    pub(crate) high: f64,
    /// Step of its finite differences, over 0.
    pub(crate) step: f64,
}

/// How [`minimise`] ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Ending {
    /// No step brings the model closer by more than rounding.
    Converged,
    /// The rounds ran out first.
    OutOfRounds,
}

/// The closest values found.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Solution {
    /// The unknowns, in order.
    pub(crate) values: Vec<f64>,
    /// Weighted residuals there.
    pub(crate) residuals: Vec<f64>,
    /// Derivatives of the residuals there, one row for each residual.
    pub(crate) jacobian: Vec<Vec<f64>>,
    /// Which unknowns ended at a bound.
    pub(crate) is_at_bound: Vec<bool>,
    /// How it ended.
    pub(crate) ending: Ending,
}

impl Solution {
    /// Sum of the squared weighted residuals.
    pub(crate) fn sum_of_squares(&self) -> f64 {
        sum_of_squares(&self.residuals)
    }

    /// The inverse of J'J over the unknowns that are not at a bound, the covariance when the residuals are in standard
    /// deviations; rows and columns of held unknowns are 0. `None` when the measures do not tell the unknowns apart.
    pub(crate) fn covariance(&self) -> Option<Vec<Vec<f64>>> {
        let free: Vec<usize> = (0..self.values.len()).filter(|&j| !self.is_at_bound[j]).collect();
        let n = free.len();
        let norms = column_norms(&self.jacobian, self.values.len());
        if free.iter().any(|&j| norms[j] == 0.0) || self.jacobian.len() < n {
            return None;
        }
        // Columns of unit length, so that the test for rank means the same for every unknown.
        let scaled = self
            .jacobian
            .iter()
            .map(|row| free.iter().map(|&j| row[j] / norms[j]).collect())
            .collect();
        let (r, _) = triangular(scaled, vec![0.0; self.jacobian.len()], n);
        if (0..n).any(|i| r[i][i].abs() < RANK_TOLERANCE) {
            return None;
        }
        let inverse = invert_upper(&r, n);
        let mut all = vec![vec![0.0; self.values.len()]; self.values.len()];
        for (a, &i) in free.iter().enumerate() {
            for (b, &j) in free.iter().enumerate() {
                let dot: f64 = (a.max(b)..n).map(|k| inverse[a][k] * inverse[b][k]).sum();
                all[i][j] = dot / (norms[i] * norms[j]);
            }
        }
        Some(all)
    }

    /// How far each residual is decided by its own measurement, 0 to 1: the diagonal of J (J'J)^-1 J'. A measurement with
    /// nearly 1 is checked by no other.
    pub(crate) fn leverages(&self) -> Option<Vec<f64>> {
        let covariance = self.covariance()?;
        Some(
            self.jacobian
                .iter()
                .map(|row| {
                    let mut sum = 0.0;
                    for (i, a) in row.iter().enumerate() {
                        for (j, b) in row.iter().enumerate() {
                            sum += a * covariance[i][j] * b;
                        }
                    }
                    sum.clamp(0.0, 1.0)
                })
                .collect(),
        )
    }
}

/// Rounds after which a model is given up; a draft takes 5 to 15.
const MOST_ROUNDS: usize = 200;
/// When a round gains too little to go on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Enough {
    /// Less than this share of the sum of squares,
    pub(crate) share: f64,
    /// or less than this.
    pub(crate) sum: f64,
}

impl Enough {
    /// As close as differences get.
    #[cfg(test)]
    pub(crate) const EXACT: Enough = Enough {
        share: 1e-13,
        sum: 0.0,
    };
    /// For residuals in standard deviations: what is left moves no unknown by a hundredth of its standard error.
    pub(crate) const OF_DEVIATIONS: Enough = Enough {
        share: 1e-6,
        sum: 1e-5,
    };
}

/// So has a step below this share of every unknown.
const STEP_TOLERANCE: f64 = 1e-10;
/// Damping at the start, as a share of the scaled diagonal: nearly a plain Gauss-Newton step.
const FIRST_DAMPING: f64 = 1e-3;
/// Damping at which no step is left that could gain anything.
const MOST_DAMPING: f64 = 1e16;
/// A unit column with less than this of its own, once the columns before it are taken out, is not told apart from them.
const RANK_TOLERANCE: f64 = 1e-7;

/// The values of the unknowns inside their bounds for which the residuals have the least sum of squares.
///
/// `residuals` gives the weighted residuals, the same number each time, or `None` where the model cannot be drawn; such
/// places are stepped around. Deterministic.
///
/// Returns `None` when the model cannot be drawn at the start.
pub(crate) fn minimise(
    unknowns: &[Unknown],
    enough: Enough,
    residuals: impl Fn(&[f64]) -> Option<Vec<f64>>,
) -> Option<Solution> {
    let n = unknowns.len();
    let mut x: Vec<f64> = unknowns.iter().map(|u| u.start.clamp(u.low, u.high)).collect();
    let mut r = residuals(&x)?;
    let mut jacobian = differences(unknowns, &x, &r, &residuals);
    let mut scale = vec![0.0_f64; n];
    let mut damping = FIRST_DAMPING;
    let mut growth = 2.0;
    let mut ending = Ending::OutOfRounds;

    'rounds: for _ in 0..MOST_ROUNDS {
        for (s, norm) in scale.iter_mut().zip(column_norms(&jacobian, n)) {
            *s = s.max(norm);
        }
        let gradient: Vec<f64> = (0..n)
            .map(|j| jacobian.iter().zip(&r).map(|(row, r)| row[j] * r).sum())
            .collect();
        let free: Vec<usize> = (0..n)
            .filter(|&j| {
                let is_held = (x[j] <= unknowns[j].low && gradient[j] > 0.0)
                    || (x[j] >= unknowns[j].high && gradient[j] < 0.0);
                !is_held && scale[j] > 0.0
            })
            .collect();
        let before = sum_of_squares(&r);
        if free.is_empty() || before == 0.0 {
            ending = Ending::Converged;
            break;
        }
        loop {
            let step = damped_step(&jacobian, &r, &free, &scale, damping);
            let mut next = x.clone();
            for (&j, s) in free.iter().zip(&step) {
                next[j] = (x[j] + s).clamp(unknowns[j].low, unknowns[j].high);
            }
            let is_small =
                (0..n).all(|j| (next[j] - x[j]).abs() <= STEP_TOLERANCE * (x[j].abs() + unknowns[j].step));
            if is_small {
                ending = Ending::Converged;
                break 'rounds;
            }
            let predicted = before - predicted_sum(&jacobian, &r, &x, &next);
            let tried = residuals(&next).filter(|r| r.iter().all(|r| r.is_finite()));
            let after = tried.as_deref().map_or(f64::INFINITY, sum_of_squares);
            if let Some(better) = tried.filter(|_| after < before) {
                let gain = if predicted > 0.0 {
                    (before - after) / predicted
                } else {
                    0.0
                };
                damping *= (1.0 - (2.0 * gain - 1.0).powi(3)).clamp(1.0 / 3.0, 2.0);
                growth = 2.0;
                x = next;
                r = better;
                jacobian = differences(unknowns, &x, &r, &residuals);
                if before - after <= enough.share * before + enough.sum {
                    ending = Ending::Converged;
                    break 'rounds;
                }
                break;
            }
            damping *= growth;
            growth *= 2.0;
            if damping > MOST_DAMPING {
                ending = Ending::Converged;
                break 'rounds;
            }
        }
    }
    let is_at_bound = (0..n)
        .map(|j| x[j] <= unknowns[j].low || x[j] >= unknowns[j].high)
        .collect();
    Some(Solution {
        values: x,
        residuals: r,
        jacobian,
        is_at_bound,
        ending,
    })
}

fn sum_of_squares(r: &[f64]) -> f64 {
    r.iter().map(|r| r * r).sum()
}

fn column_norms(jacobian: &[Vec<f64>], n: usize) -> Vec<f64> {
    (0..n)
        .map(|j| jacobian.iter().map(|row| row[j] * row[j]).sum::<f64>().sqrt())
        .collect()
}

/// The sum of squares the linearised model promises at `next`.
fn predicted_sum(jacobian: &[Vec<f64>], r: &[f64], x: &[f64], next: &[f64]) -> f64 {
    jacobian
        .iter()
        .zip(r)
        .map(|(row, r)| {
            let moved: f64 = row
                .iter()
                .zip(next.iter().zip(x))
                .map(|(d, (b, a))| d * (b - a))
                .sum();
            (r + moved).powi(2)
        })
        .sum()
}

/// Central differences, one-sided where the other side is out of bounds or cannot be drawn.
fn differences(
    unknowns: &[Unknown],
    x: &[f64],
    here: &[f64],
    residuals: &impl Fn(&[f64]) -> Option<Vec<f64>>,
) -> Vec<Vec<f64>> {
    let mut jacobian = vec![vec![0.0; x.len()]; here.len()];
    for (j, u) in unknowns.iter().enumerate() {
        let at = |value: f64| {
            let mut moved = x.to_vec();
            moved[j] = value;
            residuals(&moved).filter(|r| r.len() == here.len() && r.iter().all(|r| r.is_finite()))
        };
        let (up, down) = ((x[j] + u.step).min(u.high), (x[j] - u.step).max(u.low));
        let above = (up > x[j]).then(|| at(up)).flatten();
        let below = (down < x[j]).then(|| at(down)).flatten();
        let (a, b, width) = match (&above, &below) {
            (Some(a), Some(b)) => (a.as_slice(), b.as_slice(), up - down),
            (Some(a), None) => (a.as_slice(), here, up - x[j]),
            (None, Some(b)) => (here, b.as_slice(), x[j] - down),
            (None, None) => continue,
        };
        for (row, (a, b)) in jacobian.iter_mut().zip(a.iter().zip(b)) {
            row[j] = (a - b) / width;
        }
    }
    jacobian
}

/// The step of the free unknowns that minimises |r + J s|^2 + damping |D s|^2.
fn damped_step(jacobian: &[Vec<f64>], r: &[f64], free: &[usize], scale: &[f64], damping: f64) -> Vec<f64> {
    let n = free.len();
    // In scaled unknowns D s the damping rows are a plain multiple of the identity.
    let mut rows: Vec<Vec<f64>> = jacobian
        .iter()
        .map(|row| free.iter().map(|&j| row[j] / scale[j]).collect())
        .collect();
    let mut right: Vec<f64> = r.iter().map(|r| -r).collect();
    for i in 0..n {
        let mut row = vec![0.0; n];
        row[i] = damping.sqrt();
        rows.push(row);
        right.push(0.0);
    }
    let (upper, right) = triangular(rows, right, n);
    let mut step = vec![0.0; n];
    for i in (0..n).rev() {
        let known: f64 = (i + 1..n).map(|k| upper[i][k] * step[k]).sum();
        // Never 0: the damping rows alone have full rank.
        step[i] = (right[i] - known) / upper[i][i];
    }
    for (s, &j) in step.iter_mut().zip(free) {
        *s /= scale[j];
    }
    step
}

/// Upper triangle of `a` by Householder reflections, with the right-hand side reflected along.
fn triangular(mut a: Vec<Vec<f64>>, mut b: Vec<f64>, n: usize) -> (Vec<Vec<f64>>, Vec<f64>) {
    let m = a.len();
    for k in 0..n.min(m) {
        let norm = (k..m).map(|i| a[i][k] * a[i][k]).sum::<f64>().sqrt();
        if norm == 0.0 {
            continue;
        }
        let alpha = if a[k][k] > 0.0 { -norm } else { norm };
        let mut v: Vec<f64> = (k..m).map(|i| a[i][k]).collect();
        v[0] -= alpha;
        let vv = sum_of_squares(&v);
        let column = |a: &[Vec<f64>], j: usize| -> f64 { (k..m).map(|i| v[i - k] * a[i][j]).sum() };
        let dots: Vec<f64> = (k..n).map(|j| column(&a, j)).collect();
        for (row, v) in a[k..].iter_mut().zip(&v) {
            for (entry, dot) in row[k..n].iter_mut().zip(&dots) {
                *entry -= 2.0 * dot / vv * v;
            }
        }
        let dot: f64 = (k..m).map(|i| v[i - k] * b[i]).sum();
        for i in k..m {
            b[i] -= 2.0 * dot / vv * v[i - k];
        }
    }
    (a, b)
}

/// Inverse of the upper triangle of order `n`, whose diagonal is not 0.
fn invert_upper(r: &[Vec<f64>], n: usize) -> Vec<Vec<f64>> {
    let mut inverse = vec![vec![0.0; n]; n];
    for j in 0..n {
        inverse[j][j] = 1.0 / r[j][j];
        for i in (0..j).rev() {
            let sum: f64 = (i + 1..=j).map(|k| r[i][k] * inverse[k][j]).sum();
            inverse[i][j] = -sum / r[i][i];
        }
    }
    inverse
}

#[cfg(test)]
mod tests {
    use super::*;

    fn free(start: f64) -> Unknown {
        Unknown {
            start,
            low: f64::NEG_INFINITY,
            high: f64::INFINITY,
            step: 1e-5,
        }
    }

    /// Source: the valley of H. H. Rosenbrock, The Computer Journal 3 (1960) 175; minimum 0 at (1, 1).
    fn valley(x: &[f64]) -> Option<Vec<f64>> {
        Some(vec![10.0 * (x[1] - x[0] * x[0]), 1.0 - x[0]])
    }

    #[test]
    fn finds_the_end_of_a_curved_valley() {
        let found = minimise(&[free(-1.2), free(1.0)], Enough::EXACT, valley).unwrap();
        assert_eq!(found.ending, Ending::Converged);
        assert!(found.values.iter().all(|x| (x - 1.0).abs() < 1e-7), "{found:?}");
    }

    /// With x at most 0.5 the minimum lies on that bound, at y = x squared: closed form.
    #[test]
    fn a_bound_is_kept_and_the_rest_still_minimised() {
        let mut unknowns = [free(-1.2), free(1.0)];
        unknowns[0].high = 0.5;
        let found = minimise(&unknowns, Enough::EXACT, valley).unwrap();
        assert_eq!(found.values[0], 0.5);
        assert!((found.values[1] - 0.25).abs() < 1e-7, "{found:?}");
        assert_eq!(found.is_at_bound, [true, false]);
    }

    #[test]
    fn steps_around_what_cannot_be_drawn() {
        let wall = |x: &[f64]| (x[0] < 1.4).then(|| vec![(x[0] - 1.3) * 4.0 + (x[0] - 1.3).powi(3)]);
        let found = minimise(&[free(0.0)], Enough::EXACT, wall).unwrap();
        assert!((found.values[0] - 1.3).abs() < 1e-6, "{found:?}");
        assert!(minimise(&[free(2.0)], Enough::EXACT, wall).is_none());
    }

    /// A straight line y = a + b t through t = 0, 1, 2, 3 with unit deviations: variances 0.7 and 0.2, covariance -0.3,
    /// leverages 0.7, 0.3, 0.3, 0.7 (textbook formulas of simple regression).
    #[test]
    fn covariance_and_leverage_of_a_straight_line() {
        let y = [1.0, 2.9, 5.2, 6.8];
        let line = |x: &[f64]| {
            Some(
                y.iter()
                    .enumerate()
                    .map(|(t, y)| x[0] + x[1] * t as f64 - y)
                    .collect(),
            )
        };
        let found = minimise(&[free(0.0), free(0.0)], Enough::EXACT, line).unwrap();
        let c = found.covariance().unwrap();
        for (got, want) in [(c[0][0], 0.7), (c[1][1], 0.2), (c[0][1], -0.3), (c[1][0], -0.3)] {
            assert!((got - want).abs() < 1e-8, "{c:?}");
        }
        for (got, want) in found.leverages().unwrap().iter().zip([0.7, 0.3, 0.3, 0.7]) {
            assert!((got - want).abs() < 1e-8);
        }
    }

    #[test]
    fn unknowns_that_are_not_told_apart_have_no_covariance() {
        let sum = |x: &[f64]| Some(vec![x[0] + x[1] - 1.0, 2.0 * (x[0] + x[1]) - 2.1]);
        let found = minimise(&[free(0.0), free(0.0)], Enough::EXACT, sum).unwrap();
        assert!(found.covariance().is_none());
    }
}
