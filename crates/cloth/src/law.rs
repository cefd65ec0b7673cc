//! The pull of a stretched cloth: tension from stretch, in one direction or two, and its constants from a test.
//!
//! An orthotropic membrane that stiffens as it is stretched and never pushes: where one direction would be compressed the
//! cloth wrinkles and carries tension along one line only, where both would be it hangs slack. The relaxed energy is found
//! in closed form for a taut cloth and by a search over the direction of the wrinkles otherwise.
//!
//! **Shapes and units.** SI: k, G and tensions in N/m, per width of cloth at rest. A stretch ratio l is worn / rest length
//! (1.15), a strain is E = (l^2 - 1)/2. Axis 1 is lengthwise on the piece, axis 2 around.
//!
//! ```text
//! kb = sqrt(k1 k2)    A = [[kb/k1, -nu, 0], [-nu, kb/k2, 0], [0, 0, kb/G]]    D = A^-1
//! taut      D e has no negative principal value:  N = sqrt(e.D e)
//! wrinkled  otherwise:  N = max over theta of m.e / sqrt(m.A m),  m = (cos^2, sin^2, cos sin)
//! slack     no direction is stretched:  N = 0
//! energy    W = kb (N^2/2 + beta N^4/4)      stress  S = kb (N + beta N^3) dN/de
//! strip     q = sqrt(k/kb)   N = q (l^2 - 1)/2   T = l q kb (N + beta N^3)
//! ```
//!
//! **Source.** Our own closed forms on the idea of the relaxed membrane energy: A. C. Pipkin, "The relaxed energy density for
//! isotropic elastic membranes", IMA J. Appl. Math. 36 (1986), from memory. Checked against `data/fit`.
//! **Limits.** Loading only: no loss on the way back, none with time. The strip formulas hold while nu k/kb (l^2 - 1) < 1.

use serde::Serialize;
use thiserror::Error;

use crate::membrane::Membrane;

/// Stiffening of a cloth nobody weighed (own).
pub const ASSUMED_STIFFENING: f64 = 0.3;
/// Poisson number of a cloth nobody measured (own); lowered for very stretchy cloths, see [`Law::from_stretch`].
pub const ASSUMED_POISSON: f64 = 0.35;
/// What a firm pull by hand is taken for when nothing was weighed, N/m: 10 N on a strip of 50 mm (own, unverified).
pub const ASSUMED_HAND_PULL: f64 = 200.0;
/// A cloth that stretches less is treated as stretching this much when its stiffness is sought, which would else be
/// without bound (own).
pub const LEAST_STRETCH: f64 = 0.02;
/// A strip pulled to its limit keeps at least this share of its width (own).
const LEAST_WIDTH_RATIO: f64 = 0.3;
/// Stiffening is looked for between 0 and this; a swim knit's curve lies far below (own).
const MOST_STIFFENING: f64 = 5.0;

/// Why a law could not be made.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum LawError {
    /// A stiffness was zero, negative or not a number.
    #[error("stiffness {name} is {value} N/m: give a number above 0")]
    Stiffness {
        /// `lengthwise`, `around` or `shear`.
        name: &'static str,
        /// What was given.
        value: f64,
    },
    /// Poisson number outside -1..1, where the cloth would have no least energy.
    #[error("poisson number is {0}: give a number between -1 and 1")]
    Poisson(f64),
    /// Stiffening below 0, where the pull would fall again as the cloth is stretched.
    #[error("stiffening is {0}: give 0 or more")]
    Stiffening(f64),
    /// A reading was without stretch or without force.
    #[error(
        "force reading {number}: {tension_n_per_m} N/m at {stretch_percent} % stretch is no reading of a pulled cloth: give a stretch and a force above 0"
    )]
    Reading {
        /// Which reading, counted from 1.
        number: usize,
        /// Its stretch, %.
        stretch_percent: f64,
        /// Its force per width, N/m.
        tension_n_per_m: f64,
    },
    /// A direction has no reading.
    #[error("no force reading {0}: take at least one in each direction")]
    Missing(&'static str),
}

/// A direction on the body.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Axis {
    /// Up and down the body, axis 1.
    Lengthwise,
    /// Around the body, axis 2.
    Around,
}

/// One point of a cloth's force curve, as it lies on the body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ForcePoint {
    /// Direction of the pull.
    pub axis: Axis,
    /// Stretch, a ratio (0.4).
    pub stretch: f64,
    /// Force per width at rest, N/m.
    pub tension_n_per_m: f64,
}

/// Whether a piece of cloth is taut both ways, wrinkled or slack.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Tautness {
    /// Nothing is stretched; no force.
    Slack,
    /// Tension along one line.
    Wrinkled,
    /// Tension both ways.
    Taut,
}

/// Answer of [`Law::stress`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stress {
    /// State of the cloth.
    pub state: Tautness,
    /// Equivalent strain N.
    pub strain: f64,
    /// Energy per rest area, J/m^2.
    pub energy: f64,
    /// Second Piola-Kirchhoff stress S11 (lengthwise), S22 (around), S12, N/m.
    pub s: [f64; 3],
}

/// Tensions of a stretched cloth, N per metre of width at rest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tension {
    /// Up and down.
    pub lengthwise: f64,
    /// Around.
    pub around: f64,
}

/// The law of one cloth, or of layers that move as one.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Law {
    k_lengthwise: f64,
    k_around: f64,
    poisson: f64,
    stiffening: f64,
    shear: f64,
}

impl Law {
    /// The law with the given stiffnesses in N/m, Poisson number and stiffening beta; shear G = kb / (2 (1 + nu)) (own).
    ///
    /// # Errors
    /// [`LawError::Stiffness`], [`LawError::Poisson`], [`LawError::Stiffening`] for numbers no cloth has.
    pub fn new(k_lengthwise: f64, k_around: f64, poisson: f64, stiffening: f64) -> Result<Law, LawError> {
        for (name, value) in [("lengthwise", k_lengthwise), ("around", k_around)] {
            if !(value.is_finite() && value > 0.0) {
                return Err(LawError::Stiffness { name, value });
            }
        }
        if !(poisson.is_finite() && poisson.abs() < 1.0) {
            return Err(LawError::Poisson(poisson));
        }
        if !(stiffening.is_finite() && stiffening >= 0.0) {
            return Err(LawError::Stiffening(stiffening));
        }
        let shear = (k_lengthwise * k_around).sqrt() / (2.0 * (1.0 + poisson));
        Ok(Law {
            k_lengthwise,
            k_around,
            poisson,
            stiffening,
            shear,
        })
    }

    /// The same law with a measured shear stiffness G, N/m.
    ///
    /// # Errors
    /// [`LawError::Stiffness`] unless it is above 0.
    pub fn with_shear(self, shear: f64) -> Result<Law, LawError> {
        if !(shear.is_finite() && shear > 0.0) {
            return Err(LawError::Stiffness {
                name: "shear",
                value: shear,
            });
        }
        Ok(Law { shear, ..self })
    }

    /// The law that stretches by `lengthwise` and `around` (ratios) under a strip pull of `pull_n_per_m`.
    ///
    /// k is closed for stiffening 0, k = F / (l (l^2 - 1)/2); else two equations T(l) = F by Newton on the logarithms of k,
    /// to 1e-13. Stretches below [`LEAST_STRETCH`] count as that. The Poisson number is [`ASSUMED_POISSON`], or what leaves a
    /// strip pulled to either stretch 0.3 of its width.
    ///
    /// # Errors
    /// [`LawError`] for a pull or stiffening no cloth has.
    ///
    /// # Source
    /// Closed form of the law; worked values in `data/fit/calibration.json`.
    pub fn from_stretch(
        lengthwise: f64,
        around: f64,
        pull_n_per_m: f64,
        stiffening: f64,
    ) -> Result<Law, LawError> {
        let at_least = |s: f64| if s.is_finite() { s.max(LEAST_STRETCH) } else { s };
        let points = [
            ForcePoint {
                axis: Axis::Lengthwise,
                stretch: at_least(lengthwise),
                tension_n_per_m: pull_n_per_m,
            },
            ForcePoint {
                axis: Axis::Around,
                stretch: at_least(around),
                tension_n_per_m: pull_n_per_m,
            },
        ];
        check_points(&points)?;
        if !(stiffening.is_finite() && stiffening >= 0.0) {
            return Err(LawError::Stiffening(stiffening));
        }
        let (k1, k2, _) = fit_stiffness(&points, stiffening);
        Law::new(k1, k2, poisson_that_keeps_width(k1, k2, &points), stiffening)
    }

    /// The law that comes nearest to weighed points, at least one in each direction.
    ///
    /// With two forces in some direction the stiffening is fitted too (least squares on the logarithm of the force, so that
    /// small forces count as much as large ones); with one in each it is [`ASSUMED_STIFFENING`].
    ///
    /// # Errors
    /// [`LawError::Reading`] for a point without stretch or force, [`LawError::Missing`] for a direction without points.
    pub fn from_points(points: &[ForcePoint]) -> Result<Law, LawError> {
        check_points(points)?;
        for (axis, name) in [(Axis::Lengthwise, "lengthwise"), (Axis::Around, "around")] {
            if !points.iter().any(|p| p.axis == axis) {
                return Err(LawError::Missing(name));
            }
        }
        let stiffening = if points.len() > 2 {
            least(0.0, MOST_STIFFENING, |beta| fit_stiffness(points, beta).2)
        } else {
            ASSUMED_STIFFENING
        };
        let (k1, k2, _) = fit_stiffness(points, stiffening);
        Law::new(k1, k2, poisson_that_keeps_width(k1, k2, points), stiffening)
    }

    /// Stiffness lengthwise, k1, N/m.
    pub const fn k_lengthwise(&self) -> f64 {
        self.k_lengthwise
    }

    /// Stiffness around, k2, N/m.
    pub const fn k_around(&self) -> f64 {
        self.k_around
    }

    /// Poisson number nu.
    pub const fn poisson(&self) -> f64 {
        self.poisson
    }

    /// Stiffening beta.
    pub const fn stiffening(&self) -> f64 {
        self.stiffening
    }

    /// Shear stiffness G, N/m.
    pub const fn shear(&self) -> f64 {
        self.shear
    }

    fn k_mean(&self) -> f64 {
        (self.k_lengthwise * self.k_around).sqrt()
    }

    fn k(&self, axis: Axis) -> f64 {
        match axis {
            Axis::Lengthwise => self.k_lengthwise,
            Axis::Around => self.k_around,
        }
    }

    /// kb (N + beta N^3).
    fn pull(&self, n: f64) -> f64 {
        self.k_mean() * (n + self.stiffening * n.powi(3))
    }

    /// Tension of a strip pulled to the stretch ratio `l` along `axis`, sides free; 0 for l below 1. N per metre of rest width.
    pub fn strip_tension(&self, axis: Axis, l: f64) -> f64 {
        let q = (self.k(axis) / self.k_mean()).sqrt();
        let n = q * (l * l - 1.0) / 2.0;
        if n <= 0.0 { 0.0 } else { l * q * self.pull(n) }
    }

    /// Width of that strip, worn / rest; `None` past the stretch where the formula leaves it none.
    pub fn strip_width_ratio(&self, axis: Axis, l: f64) -> Option<f64> {
        let nu = self.poisson * self.k(axis) / self.k_mean();
        let squared = 1.0 - nu * (l * l - 1.0);
        (squared > 0.0).then(|| squared.sqrt())
    }

    /// Tensions of a cloth stretched to `lengthwise` by `around` (stretch ratios), per metre of width at rest.
    pub fn tension(&self, lengthwise: f64, around: f64) -> Tension {
        let e = |l: f64| (l * l - 1.0) / 2.0;
        let [s1, s2, _] = self.stress([e(lengthwise), e(around), 0.0]).s;
        Tension {
            lengthwise: lengthwise * s1,
            around: around * s2,
        }
    }

    /// Stress and energy at a strain e = (E11, E22, 2 E12), E = (C - 1)/2. For many strains of one cloth make a [`Membrane`].
    pub fn stress(&self, e: [f64; 3]) -> Stress {
        Membrane::new(self).stress(e)
    }
}

fn check_points(points: &[ForcePoint]) -> Result<(), LawError> {
    let good = |x: f64| x.is_finite() && x > 0.0;
    match points
        .iter()
        .position(|p| !(good(p.stretch) && good(p.tension_n_per_m)))
    {
        None => Ok(()),
        Some(i) => Err(LawError::Reading {
            number: i + 1,
            stretch_percent: points[i].stretch * 100.0,
            tension_n_per_m: points[i].tension_n_per_m,
        }),
    }
}

/// k1, k2 for a given stiffening by Gauss-Newton on their logarithms, and the sum of squares left. Exact for one point in
/// each direction. Points must be checked and cover both directions.
fn fit_stiffness(points: &[ForcePoint], beta: f64) -> (f64, f64, f64) {
    let strain = |p: &ForcePoint| {
        let l = 1.0 + p.stretch;
        (l, (l * l - 1.0) / 2.0)
    };
    // Start from the closed form of beta 0.
    let start = |axis: Axis| {
        let (sum, n) = points
            .iter()
            .filter(|p| p.axis == axis)
            .fold((0.0, 0.0), |(sum, n), p| {
                let (l, g) = strain(p);
                (sum + (p.tension_n_per_m / (l * g)).ln(), n + 1.0)
            });
        sum / f64::max(n, 1.0)
    };
    let (mut a, mut b) = (start(Axis::Lengthwise), start(Axis::Around));
    // Residual of a point and its derivatives with respect to a = ln k1 and b = ln k2.
    let residual = |p: &ForcePoint, a: f64, b: f64| {
        let (l, g) = strain(p);
        let sign = if p.axis == Axis::Lengthwise { 1.0 } else { -1.0 };
        let ln_q = sign * (a - b) / 4.0;
        let n = ln_q.exp() * g;
        let bn2 = beta * n * n;
        let rise = (1.0 + 3.0 * bn2) / (1.0 + bn2);
        let r = (l * n * (1.0 + bn2)).ln() + ln_q + (a + b) / 2.0 - p.tension_n_per_m.ln();
        let dq = sign * (1.0 + rise) / 4.0;
        (r, 0.5 + dq, 0.5 - dq)
    };
    for _ in 0..100 {
        let mut m = [0.0; 5];
        for p in points {
            let (r, da, db) = residual(p, a, b);
            for (sum, term) in m.iter_mut().zip([da * da, da * db, db * db, da * r, db * r]) {
                *sum += term;
            }
        }
        let det = m[0] * m[2] - m[1] * m[1];
        if det <= 0.0 {
            break;
        }
        let step = [
            (m[2] * m[3] - m[1] * m[4]) / det,
            (m[0] * m[4] - m[1] * m[3]) / det,
        ];
        a -= step[0];
        b -= step[1];
        if step[0].abs().max(step[1].abs()) < 1e-14 {
            break;
        }
    }
    let left = points.iter().map(|p| residual(p, a, b).0.powi(2)).sum();
    (a.exp(), b.exp(), left)
}

fn poisson_that_keeps_width(k1: f64, k2: f64, points: &[ForcePoint]) -> f64 {
    let kb = (k1 * k2).sqrt();
    points
        .iter()
        .map(|p| {
            let k = if p.axis == Axis::Lengthwise { k1 } else { k2 };
            let l = 1.0 + p.stretch;
            (1.0 - LEAST_WIDTH_RATIO * LEAST_WIDTH_RATIO) * kb / (k * (l * l - 1.0))
        })
        .fold(ASSUMED_POISSON, f64::min)
}

/// Where `f` is least between `low` and `high`: golden section after a coarse scan, for a function with one valley.
fn least(low: f64, high: f64, f: impl Fn(f64) -> f64) -> f64 {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    let scan = 50;
    let step = (high - low) / f64::from(scan);
    let mut best = (low, f(low));
    for i in 1..=scan {
        let x = low + f64::from(i) * step;
        let y = f(x);
        if y < best.1 {
            best = (x, y);
        }
    }
    let (mut a, mut b) = ((best.0 - step).max(low), (best.0 + step).min(high));
    while b - a > 1e-9 {
        let (c, d) = (b - GOLDEN * (b - a), a + GOLDEN * (b - a));
        if f(c) < f(d) { b = d } else { a = c }
    }
    (a + b) / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_no_cloth_has_are_refused() {
        assert_eq!(
            Law::new(0.0, 100.0, 0.3, 0.3),
            Err(LawError::Stiffness {
                name: "lengthwise",
                value: 0.0
            })
        );
        assert!(matches!(
            Law::new(100.0, f64::NAN, 0.3, 0.3),
            Err(LawError::Stiffness { name: "around", .. })
        ));
        assert_eq!(Law::new(100.0, 100.0, 1.0, 0.3), Err(LawError::Poisson(1.0)));
        assert_eq!(Law::new(100.0, 100.0, 0.3, -0.1), Err(LawError::Stiffening(-0.1)));
        assert!(Law::from_stretch(0.6, f64::NAN, 200.0, 0.3).is_err());
        assert!(Law::from_stretch(0.6, 0.8, 0.0, 0.3).is_err());
    }

    #[test]
    fn a_direction_without_a_reading_is_named() {
        let points = [ForcePoint {
            axis: Axis::Around,
            stretch: 0.4,
            tension_n_per_m: 100.0,
        }];
        assert_eq!(
            Law::from_points(&points).unwrap_err().to_string(),
            "no force reading lengthwise: take at least one in each direction"
        );
    }

    #[test]
    fn a_fitted_law_returns_the_law_its_points_were_made_with() {
        // Own closed form: points computed from a law must give that law back.
        let law = Law::new(150.0, 95.0, 0.35, 0.42).unwrap();
        let points: Vec<_> = [(Axis::Lengthwise, 0.3), (Axis::Around, 0.25), (Axis::Around, 0.6)]
            .map(|(axis, stretch)| ForcePoint {
                axis,
                stretch,
                tension_n_per_m: law.strip_tension(axis, 1.0 + stretch),
            })
            .to_vec();
        let found = Law::from_points(&points).unwrap();
        assert!((found.k_lengthwise() / 150.0 - 1.0).abs() < 1e-5, "{found:?}");
        assert!((found.k_around() / 95.0 - 1.0).abs() < 1e-5, "{found:?}");
        assert!((found.stiffening() - 0.42).abs() < 1e-4, "{found:?}");
    }

    #[test]
    fn a_strip_with_free_sides_carries_nothing_across() {
        let law = Law::new(160.0, 110.0, 0.35, 0.3).unwrap();
        for l in [1.05, 1.2, 1.5] {
            let width = law.strip_width_ratio(Axis::Around, l).unwrap();
            let t = law.tension(width, l);
            assert!(t.lengthwise.abs() < 1e-9);
            assert!((t.around / law.strip_tension(Axis::Around, l) - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn very_stretchy_cloth_keeps_some_width() {
        let law = Law::from_stretch(2.0, 2.0, 200.0, 0.3).unwrap();
        assert!(law.strip_width_ratio(Axis::Around, 3.0).unwrap() > 0.299);
        assert!(law.poisson() < ASSUMED_POISSON);
    }

    #[test]
    fn a_cloth_without_stretch_still_has_a_finite_law() {
        let law = Law::from_stretch(0.0, 0.5, 200.0, 0.3).unwrap();
        assert!(law.k_lengthwise().is_finite() && law.k_lengthwise() > 10.0 * law.k_around());
    }
}
