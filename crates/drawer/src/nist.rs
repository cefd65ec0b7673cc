//! The least squares against certified values of two published problems.
//!
//! Source: NIST/ITL Statistical Reference Datasets, Nonlinear Regression: Misra1a (lower difficulty, 14 observations, D. Misra,
//! 1978) and Thurber (higher difficulty, 37 observations, R. Thurber, 1979); <https://www.itl.nist.gov/div898/strd/nls/>. Data and certified
//! values from memory: that the certified sum of squares comes out to eight digits is the check of them.
//!
//! Tolerances: relative 1e-6 of values and 1e-5 of standard deviations, what central differences leave; certified to 11 digits.

use crate::least_squares::{Ending, Enough, Solution, Unknown, minimise};

const MISRA1A: [(f64, f64); 14] = [
    (10.07, 77.6),
    (14.73, 114.9),
    (17.94, 141.1),
    (23.93, 190.8),
    (29.61, 239.9),
    (35.18, 289.0),
    (40.02, 332.8),
    (44.82, 378.4),
    (50.76, 434.8),
    (55.05, 477.3),
    (61.01, 536.8),
    (66.40, 593.1),
    (75.47, 689.1),
    (81.78, 760.0),
];

const THURBER: [(f64, f64); 37] = [
    (80.574, -3.067),
    (84.248, -2.981),
    (87.264, -2.921),
    (87.195, -2.912),
    (89.076, -2.840),
    (89.608, -2.797),
    (89.868, -2.702),
    (90.101, -2.699),
    (92.405, -2.633),
    (95.854, -2.481),
    (100.696, -2.363),
    (101.060, -2.322),
    (401.672, -1.501),
    (390.724, -1.460),
    (567.534, -1.274),
    (635.316, -1.212),
    (733.054, -1.100),
    (759.087, -1.046),
    (894.206, -0.915),
    (990.785, -0.714),
    (1090.109, -0.566),
    (1080.914, -0.545),
    (1122.643, -0.400),
    (1178.351, -0.309),
    (1260.531, -0.109),
    (1273.514, -0.103),
    (1288.339, 0.010),
    (1327.543, 0.119),
    (1353.863, 0.377),
    (1414.509, 0.790),
    (1425.208, 0.963),
    (1421.384, 1.006),
    (1442.962, 1.115),
    (1464.350, 1.572),
    (1468.705, 1.841),
    (1447.894, 2.047),
    (1457.628, 2.200),
];

fn solve(start: &[f64], data: &[(f64, f64)], model: impl Fn(&[f64], f64) -> f64) -> Solution {
    let unknowns: Vec<Unknown> = start
        .iter()
        .map(|&start| Unknown {
            start,
            low: f64::NEG_INFINITY,
            high: f64::INFINITY,
            step: 1e-5 * start,
        })
        .collect();
    let found = minimise(&unknowns, Enough::EXACT, |b| {
        Some(data.iter().map(|&(y, x)| y - model(b, x)).collect())
    })
    .unwrap();
    assert_eq!(found.ending, Ending::Converged);
    found
}

/// Values, their standard deviations, sum of squares. NIST scales by the residual variance, so the test does.
fn assert_certified(found: &Solution, values: &[(f64, f64)], sum: f64) {
    let near = |got: f64, want: f64, tolerance: f64| {
        assert!(
            (got / want - 1.0).abs() < tolerance,
            "{got:e}, certified {want:e}"
        );
    };
    near(found.sum_of_squares(), sum, 1e-8);
    let variance = found.sum_of_squares() / (found.residuals.len() - values.len()) as f64;
    let covariance = found.covariance().unwrap();
    for (j, &(value, deviation)) in values.iter().enumerate() {
        near(found.values[j], value, 1e-6);
        near((covariance[j][j] * variance).sqrt(), deviation, 1e-5);
    }
}

#[test]
fn misra1a_from_both_starts() {
    for start in [[500.0, 0.0001], [250.0, 0.0005]] {
        let found = solve(&start, &MISRA1A, |b, x| b[0] * (1.0 - (-b[1] * x).exp()));
        assert_certified(
            &found,
            &[(2.3894212918e2, 2.7070075241), (5.5015643181e-4, 7.2668688436e-6)],
            1.2455138894e-1,
        );
    }
}

#[test]
fn thurber_from_both_starts() {
    for start in [
        [1000.0, 1000.0, 400.0, 40.0, 0.7, 0.3, 0.03],
        [1300.0, 1500.0, 500.0, 75.0, 1.0, 0.4, 0.05],
    ] {
        let found = solve(&start, &THURBER, |b, x| {
            (b[0] + x * (b[1] + x * (b[2] + x * b[3]))) / (1.0 + x * (b[4] + x * (b[5] + x * b[6])))
        });
        assert_certified(
            &found,
            &[
                (1.2881396800e3, 4.6647963344),
                (1.4910792535e3, 3.9571156086e1),
                (5.8323836877e2, 2.8698696102e1),
                (7.5416644291e1, 5.5675370270),
                (9.6629502864e-1, 3.1333340687e-2),
                (3.9797285797e-1, 1.4984928198e-2),
                (4.9727297349e-2, 6.5842344623e-3),
            ],
            5.6427082397e3,
        );
    }
}
