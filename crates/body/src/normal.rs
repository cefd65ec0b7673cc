//! A many-dimensional normal distribution: what the rest of a body says about one of its dimensions.
//!
//! Two questions are asked of it. *Expectation*: given some of the variables, what is another one, and how surely?
//! *Left-out scores*: given all of them, how far does each lie from what the others say? Both come from one Cholesky
//! factor of the correlations among the given variables, so a body costs microseconds. Working on correlations, not
//! covariances, keeps millimetres and kilograms on one scale.
//!
//! **Shapes and units.** Variables carry whatever unit they were sampled in, logarithms included; the caller knows.
//! **Source.** Conditional distribution of a multivariate normal; textbook, e.g. T. W. Anderson, An Introduction to
//! Multivariate Statistical Analysis, theorem 2.5.1 (number from memory).
//! **Limits.** A given variable that the others determine (a sum of them) adds nothing and is passed over; see
//! [`REDUNDANT`].

/// A given variable is passed over when the variables before it leave less than this share of its variance open.
///
/// The most predictable honest dimension of the survey (hip girth from all others) leaves 0.02 open; a dimension that
/// is the difference of two others leaves the rounding of the published covariances, about 1e-5. Larger would drop
/// real dimensions, smaller would divide by rounding noise.
const REDUNDANT: f64 = 1e-3;

/// Mean and covariance of named variables.
#[derive(Clone, Debug, PartialEq)]
pub struct Normal {
    labels: Vec<String>,
    mean: Vec<f64>,
    sd: Vec<f64>,
    /// Correlations, row-major, `labels.len()` squared.
    corr: Vec<f64>,
}

/// Why samples or moments do not make a [`Normal`].
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum NormalError {
    /// Fewer than two samples: there is no spread to learn.
    #[error("{0} samples are too few to learn a spread from; give at least two")]
    TooFew(usize),
    /// A sample or table whose length is not the number of labels (or its square).
    #[error("row {row} has {found} numbers where {expected} are needed")]
    Shape {
        /// Index of the row, from 0.
        row: usize,
        /// Numbers found.
        found: usize,
        /// Numbers needed.
        expected: usize,
    },
    /// A variable that is not finite or does not vary.
    #[error("variable `{0}` is not finite or does not vary")]
    Flat(String),
}

/// What the given variables say about another one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditional {
    /// Expected value.
    pub mean: f64,
    /// Standard deviation that remains.
    pub sd: f64,
}

/// One given variable held against what all other given ones say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeftOut {
    /// Index of the variable.
    pub variable: usize,
    /// What the others say.
    pub expected: Conditional,
    /// (given - expected mean) / expected sd.
    pub z: f64,
}

impl Normal {
    /// Learns mean and covariance (divisor n - 1) from samples, one row each, columns in the order of `labels`.
    ///
    /// # Errors
    /// [`NormalError::TooFew`], [`NormalError::Shape`] for a row of the wrong length, [`NormalError::Flat`] for a
    /// variable without spread.
    pub fn from_samples<R: AsRef<[f64]>>(labels: &[&str], samples: &[R]) -> Result<Normal, NormalError> {
        let n = labels.len();
        if samples.len() < 2 {
            return Err(NormalError::TooFew(samples.len()));
        }
        let mut mean = vec![0.0; n];
        for (row, sample) in samples.iter().enumerate() {
            let sample = sample.as_ref();
            if sample.len() != n {
                return Err(NormalError::Shape {
                    row,
                    found: sample.len(),
                    expected: n,
                });
            }
            mean.iter_mut().zip(sample).for_each(|(m, x)| *m += x);
        }
        let count = samples.len() as f64;
        mean.iter_mut().for_each(|m| *m /= count);
        let mut cov = vec![0.0; n * n];
        let mut centred = vec![0.0; n];
        for sample in samples {
            for ((c, x), m) in centred.iter_mut().zip(sample.as_ref()).zip(&mean) {
                *c = x - m;
            }
            for (line, ci) in cov.chunks_exact_mut(n).zip(&centred) {
                line.iter_mut().zip(&centred).for_each(|(v, cj)| *v += ci * cj);
            }
        }
        cov.iter_mut().for_each(|v| *v /= count - 1.0);
        Normal::from_moments(labels.iter().map(|&l| l.to_owned()).collect(), mean, &cov)
    }

    /// Takes mean and covariance (row-major) as published.
    ///
    /// # Errors
    /// [`NormalError::Shape`] when the sizes differ, [`NormalError::Flat`] for a variable without spread.
    pub fn from_moments(labels: Vec<String>, mean: Vec<f64>, cov: &[f64]) -> Result<Normal, NormalError> {
        let n = labels.len();
        if mean.len() != n {
            return Err(NormalError::Shape {
                row: 0,
                found: mean.len(),
                expected: n,
            });
        }
        if cov.len() != n * n {
            return Err(NormalError::Shape {
                row: 0,
                found: cov.len(),
                expected: n * n,
            });
        }
        let sd: Vec<f64> = (0..n).map(|i| cov[i * n + i].sqrt()).collect();
        for ((label, s), m) in labels.iter().zip(&sd).zip(&mean) {
            if !(s.is_finite() && *s > 0.0 && m.is_finite()) {
                return Err(NormalError::Flat(label.clone()));
            }
        }
        let corr = (0..n * n).map(|k| cov[k] / (sd[k / n] * sd[k % n])).collect();
        Ok(Normal {
            labels,
            mean,
            sd,
            corr,
        })
    }

    /// The same distribution with one more variable, the difference of two that are there (`label` = `plus` -
    /// `minus`); `None` when either is missing.
    pub(crate) fn with_difference(&self, label: &str, plus: &str, minus: &str) -> Option<Normal> {
        let (p, m, n) = (self.index(plus)?, self.index(minus)?, self.labels.len());
        let cov = |i: usize, j: usize| self.corr[i * n + j] * self.sd[i] * self.sd[j];
        let with = |i: usize| cov(p, i) - cov(m, i);
        let mut larger = Vec::with_capacity((n + 1) * (n + 1));
        for i in 0..n {
            larger.extend((0..n).map(|j| cov(i, j)));
            larger.push(with(i));
        }
        larger.extend((0..n).map(with));
        larger.push(with(p) - with(m));
        let labels = self.labels.iter().cloned().chain([label.to_owned()]).collect();
        let mean = self
            .mean
            .iter()
            .copied()
            .chain([self.mean[p] - self.mean[m]])
            .collect();
        Normal::from_moments(labels, mean, &larger).ok()
    }

    /// The names of the variables, in order.
    pub fn labels(&self) -> &[String] {
        &self.labels
    }

    /// The place of a variable.
    pub fn index(&self, label: &str) -> Option<usize> {
        self.labels.iter().position(|l| l == label)
    }

    /// Mean of a variable; `None` outside [`Normal::labels`].
    pub fn mean(&self, variable: usize) -> Option<f64> {
        self.mean.get(variable).copied()
    }

    /// Covariance of two variables; `None` outside [`Normal::labels`].
    pub fn covariance(&self, a: usize, b: usize) -> Option<f64> {
        let n = self.labels.len();
        (a < n && b < n).then(|| self.corr[a * n + b] * self.sd[a] * self.sd[b])
    }

    /// Fixes some variables at their values. Variables outside [`Normal::labels`], repeated ones and those the
    /// earlier ones determine are passed over.
    pub fn given(&self, values: &[(usize, f64)]) -> Given<'_> {
        let mut given = Given {
            normal: self,
            kept: Vec::new(),
            values: Vec::new(),
            factor: Vec::new(),
            weights: Vec::new(),
        };
        for &(variable, value) in values {
            if variable < self.labels.len() {
                given.push(variable, value);
            }
        }
        given.solve();
        given
    }
}

/// A [`Normal`] with some of its variables fixed.
#[derive(Clone, Debug)]
pub struct Given<'a> {
    normal: &'a Normal,
    kept: Vec<usize>,
    /// Standardised values of `kept`.
    values: Vec<f64>,
    /// Rows of the lower Cholesky factor of the correlations among `kept`, row i holding i + 1 numbers.
    factor: Vec<Vec<f64>>,
    /// Inverse correlations times `values`.
    weights: Vec<f64>,
}

impl Given<'_> {
    /// Which variables are fixed, after redundant ones were passed over.
    pub fn variables(&self) -> &[usize] {
        &self.kept
    }

    /// What the fixed variables say about `target`; the prior when none is fixed, `None` outside the labels.
    pub fn expect(&self, target: usize) -> Option<Conditional> {
        let (&mean, &sd) = (self.normal.mean.get(target)?, self.normal.sd.get(target)?);
        let column = self.column(target);
        let shift: f64 = column.iter().zip(&self.weights).map(|(c, w)| c * w).sum();
        let told: f64 = self.forward(&column).iter().map(|x| x * x).sum();
        Some(Conditional {
            mean: mean + sd * shift,
            sd: sd * (1.0 - told).max(0.0).sqrt(),
        })
    }

    /// Each fixed variable against what the others say, in the order of [`Given::variables`].
    ///
    /// With P the inverse correlations and d the standardised values, z_i = (P d)_i / sqrt(P_ii), and the others
    /// leave a standard deviation of 1 / sqrt(P_ii).
    pub fn left_out(&self) -> Vec<LeftOut> {
        (0..self.kept.len())
            .map(|i| {
                let variable = self.kept[i];
                // P_ii = |L^-1 e_i|^2.
                let mut unit = vec![0.0; self.kept.len()];
                unit[i] = 1.0;
                let precision: f64 = self.forward(&unit).iter().map(|x| x * x).sum();
                let (mean, sd) = (self.normal.mean[variable], self.normal.sd[variable]);
                let expected = Conditional {
                    mean: mean + sd * (self.values[i] - self.weights[i] / precision),
                    sd: sd / precision.sqrt(),
                };
                LeftOut {
                    variable,
                    expected,
                    z: self.weights[i] / precision.sqrt(),
                }
            })
            .collect()
    }

    fn column(&self, target: usize) -> Vec<f64> {
        let n = self.normal.labels.len();
        self.kept
            .iter()
            .map(|&k| self.normal.corr[target * n + k])
            .collect()
    }

    fn push(&mut self, variable: usize, value: f64) {
        let mut row = self.forward(&self.column(variable));
        let open = 1.0 - row.iter().map(|x| x * x).sum::<f64>();
        if open < REDUNDANT {
            return;
        }
        row.push(open.sqrt());
        self.factor.push(row);
        self.kept.push(variable);
        self.values
            .push((value - self.normal.mean[variable]) / self.normal.sd[variable]);
    }

    /// L^-1 b.
    fn forward(&self, b: &[f64]) -> Vec<f64> {
        let mut x: Vec<f64> = Vec::with_capacity(b.len() + 1);
        for (row, &bi) in self.factor.iter().zip(b) {
            let (known, diagonal) = row.split_at(x.len());
            let sum: f64 = known.iter().zip(&x).map(|(l, v)| l * v).sum();
            x.push((bi - sum) / diagonal[0]);
        }
        x
    }

    /// weights = L^-T L^-1 values.
    fn solve(&mut self) {
        let mut x = self.forward(&self.values);
        for i in (0..x.len()).rev() {
            x[i] /= self.factor[i][i];
            let (solved, xi) = (&self.factor[i][..i], x[i]);
            x[..i].iter_mut().zip(solved).for_each(|(v, l)| *v -= l * xi);
        }
        self.weights = x;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two variables with correlation 0.6: expectation and spread are known in closed form.
    #[test]
    fn two_variables_follow_the_textbook() {
        let n = Normal::from_moments(
            vec!["a".into(), "b".into()],
            vec![10.0, 100.0],
            &[4.0, 6.0, 6.0, 25.0],
        )
        .unwrap();
        let given = n.given(&[(0, 14.0)]);
        let b = given.expect(1).unwrap();
        // mean = 100 + 6/4 * 4, variance = 25 - 36/4.
        assert!((b.mean - 106.0).abs() < 1e-12 && (b.sd - 4.0).abs() < 1e-12);
        let both = n.given(&[(0, 14.0), (1, 110.0)]).left_out();
        assert!((both[1].z - 1.0).abs() < 1e-12);
        assert!((both[1].expected.mean - 106.0).abs() < 1e-12);
    }

    /// Leaving a variable out by the inverse must equal asking for it from the others.
    #[test]
    fn left_out_equals_expectation_from_the_others() {
        let cov = [4.0, 1.0, 0.5, 1.0, 9.0, -2.0, 0.5, -2.0, 16.0];
        let n = Normal::from_moments(vec!["a".into(), "b".into(), "c".into()], vec![0.0; 3], &cov).unwrap();
        let values = [(0, 1.0), (1, -2.0), (2, 3.0)];
        for (i, left) in n.given(&values).left_out().iter().enumerate() {
            let others: Vec<_> = values.iter().copied().filter(|v| v.0 != i).collect();
            let direct = n.given(&others).expect(i).unwrap();
            assert!((left.expected.mean - direct.mean).abs() < 1e-12);
            assert!((left.expected.sd - direct.sd).abs() < 1e-12);
        }
    }

    #[test]
    fn a_sum_of_others_is_passed_over() {
        let n = Normal::from_moments(
            vec!["a".into(), "b".into()],
            vec![5.0, 2.0],
            &[4.0, 1.0, 1.0, 1.0],
        )
        .unwrap()
        .with_difference("c", "a", "b")
        .unwrap();
        let given = n.given(&[(0, 6.0), (1, 2.5), (2, 99.0), (0, 7.0)]);
        assert_eq!(given.variables(), [0, 1]);
        let c = given.expect(2).unwrap();
        assert!((c.mean - 3.5).abs() < 1e-9 && c.sd < 1e-6);
    }

    #[test]
    fn flat_and_misshapen_samples_are_refused() {
        assert_eq!(
            Normal::from_samples(&["a"], &[[1.0]]),
            Err(NormalError::TooFew(1))
        );
        assert_eq!(
            Normal::from_samples(&["a"], &[[1.0], [1.0]]),
            Err(NormalError::Flat("a".into()))
        );
        let ragged = [vec![1.0, 2.0], vec![1.0]];
        assert_eq!(
            Normal::from_samples(&["a", "b"], &ragged),
            Err(NormalError::Shape {
                row: 1,
                found: 1,
                expected: 2
            })
        );
    }
}
