//! The cloth law ready for many points: stress, energy and, where a solver asks, how the stress changes with the strain.
//!
//! [`Law`](crate::Law) says what the law is; this holds its constants worked out once. Where the shear stiffness is the usual
//! G = kb / (2 (1 + nu)) the law is that of an isotropic cloth in the strains E11 (k1/kb)^1/2, E22 (k2/kb)^1/2, E12, so wrinkles lie
//! along the greatest principal value of that scaled strain and need no search. With a measured G the direction is sought:
//! 24 samples, then halving to the last bit.
//!
//! **Shapes and units.** As [`Law`](crate::Law): N/m, strains e = (E11, E22, 2 E12), axis 1 lengthwise.
//! **Source.** Own closed forms, `data/fit/law_points.json`.

use std::f64::consts::PI;

use crate::law::{Law, Stress, Tautness};

/// How near A33 + 2 A12 must come to 2 for the closed form of the wrinkles.
const USUAL_SHEAR: f64 = 1e-12;

/// A cloth's law with its constants worked out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Membrane {
    kb: f64,
    /// A11 and A22.
    a: [f64; 2],
    /// sqrt(A11), sqrt(A22).
    root: [f64; 2],
    /// A33 + 2 A12: all of A that the wrinkles need besides.
    cross: f64,
    /// D11, D22, D12, D33.
    d: [f64; 4],
    stiffening: f64,
}

/// Where wrinkles lie: dN/de = m / sqrt(m.A m) and the second derivative's `scale * g g^T`.
struct Wrinkle {
    gradient: [f64; 3],
    g: [f64; 3],
    scale: f64,
}

impl Membrane {
    /// The constants of a law.
    pub fn new(law: &Law) -> Membrane {
        let kb = (law.k_lengthwise() * law.k_around()).sqrt();
        let a = [kb / law.k_lengthwise(), kb / law.k_around()];
        let a33 = kb / law.shear();
        let nu = law.poisson();
        // A's upper block has determinant 1 - nu^2, because A11 A22 = 1.
        let det = 1.0 - nu * nu;
        Membrane {
            kb,
            a,
            root: a.map(f64::sqrt),
            cross: a33 - 2.0 * nu,
            d: [a[1] / det, a[0] / det, nu / det, 1.0 / a33],
            stiffening: law.stiffening(),
        }
    }

    /// The mean stiffness sqrt(k1 k2), N/m.
    pub const fn k_mean(&self) -> f64 {
        self.kb
    }

    /// Stress and energy at a strain e = (E11, E22, 2 E12), E = (C - 1)/2. A strain that is not a number counts as slack.
    pub fn stress(&self, e: [f64; 3]) -> Stress {
        let Some(d) = self.taut_gradient(e) else {
            return SLACK;
        };
        match d {
            Ok(d) => {
                let n = dot(e, d).max(0.0).sqrt();
                // Divided out: (N + beta N^3) / N.
                let pull = self.kb * (1.0 + self.stiffening * n * n);
                self.answer(Tautness::Taut, n, d.map(|x| pull * x))
            }
            Err(()) => {
                let wrinkle = self.wrinkle(e);
                let n = dot(e, wrinkle.gradient);
                let pull = self.kb * n * (1.0 + self.stiffening * n * n);
                self.answer(Tautness::Wrinkled, n, wrinkle.gradient.map(|x| pull * x))
            }
        }
    }

    /// Stress as [`Membrane::stress`], and its tangent dS/de, N/m: symmetric, without negative principal values; 0 for slack cloth.
    pub fn response(&self, e: [f64; 3]) -> (Stress, [[f64; 3]; 3]) {
        let mut tangent = [[0.0; 3]; 3];
        let Some(d) = self.taut_gradient(e) else {
            return (SLACK, tangent);
        };
        match d {
            Ok(d) => {
                let n = dot(e, d).max(0.0).sqrt();
                let pull = self.kb * (1.0 + self.stiffening * n * n);
                let along = 2.0 * self.kb * self.stiffening;
                let [d11, d22, d12, d33] = self.d;
                let matrix = [[d11, d12, 0.0], [d12, d22, 0.0], [0.0, 0.0, d33]];
                for i in 0..3 {
                    for j in 0..3 {
                        tangent[i][j] = pull * matrix[i][j] + along * d[i] * d[j];
                    }
                }
                let stress = self.answer(Tautness::Taut, n, d.map(|x| pull * x));
                (stress, tangent)
            }
            Err(()) => {
                let Wrinkle { gradient, g, scale } = self.wrinkle(e);
                let n = dot(e, gradient);
                let pull = self.kb * n * (1.0 + self.stiffening * n * n);
                let along = self.kb * (1.0 + 3.0 * self.stiffening * n * n);
                for i in 0..3 {
                    for j in 0..3 {
                        tangent[i][j] = along * gradient[i] * gradient[j] + pull * scale * g[i] * g[j];
                    }
                }
                let stress = self.answer(Tautness::Wrinkled, n, gradient.map(|x| pull * x));
                (stress, tangent)
            }
        }
    }

    fn answer(&self, state: Tautness, n: f64, s: [f64; 3]) -> Stress {
        Stress {
            state,
            strain: n,
            energy: self.kb * (n * n / 2.0 + self.stiffening * n.powi(4) / 4.0),
            s,
        }
    }

    /// `None` when slack, `Ok(D e)` when taut, `Err` when wrinkled.
    fn taut_gradient(&self, e: [f64; 3]) -> Option<Result<[f64; 3], ()>> {
        let largest = (e[0] + e[1]) / 2.0 + ((e[0] - e[1]) / 2.0).hypot(e[2] / 2.0);
        // NaN counts as slack: the answer is then 0 everywhere instead of spreading.
        if largest.is_nan() || largest <= 0.0 {
            return None;
        }
        let [d11, d22, d12, d33] = self.d;
        let d = [d11 * e[0] + d12 * e[1], d12 * e[0] + d22 * e[1], d33 * e[2]];
        let is_taut = d[0] >= 0.0 && d[1] >= 0.0 && d[0] * d[1] >= d[2] * d[2];
        Some(if is_taut { Ok(d) } else { Err(()) })
    }

    fn wrinkle(&self, e: [f64; 3]) -> Wrinkle {
        if (self.cross - 2.0).abs() < USUAL_SHEAR {
            self.wrinkle_in_closed_form(e)
        } else {
            self.wrinkle_sought(e)
        }
    }

    /// N is the greatest principal value of (E11/sqrt A11, E22/sqrt A22, E12), along (c, s).
    fn wrinkle_in_closed_form(&self, e: [f64; 3]) -> Wrinkle {
        let (half, shear) = ((e[0] / self.root[0] - e[1] / self.root[1]) / 2.0, e[2] / 2.0);
        let radius = half.hypot(shear);
        // cos and sin of twice the angle; along axis 1 where every direction is alike.
        let (c2, s2) = if radius > 0.0 {
            (half / radius, shear / radius)
        } else {
            (1.0, 0.0)
        };
        let (cc, ss, cs) = ((1.0 + c2) / 2.0, (1.0 - c2) / 2.0, s2 / 2.0);
        let gradient = [cc / self.root[0], ss / self.root[1], cs];
        let g = [-cs / self.root[0], cs / self.root[1], c2 / 2.0];
        // 2 / (difference of the principal values), which is twice the radius.
        Wrinkle {
            gradient,
            g,
            scale: 1.0 / radius.max(f64::MIN_POSITIVE),
        }
    }

    fn wrinkle_sought(&self, e: [f64; 3]) -> Wrinkle {
        const SAMPLES: usize = 24;
        let step = PI / SAMPLES as f64;
        let [a11, a22] = self.a;
        // m.e and m.A m with their first derivatives by the angle.
        let at = |theta: f64| {
            let (s, c) = theta.sin_cos();
            let (s2, c2) = (2.0 * s * c, c * c - s * s);
            let m = [c * c, s * s, c * s];
            let v = a11 * m[0] * m[0] + a22 * m[1] * m[1] + self.cross * m[0] * m[1];
            let dm = [-s2, s2, c2];
            let dv = 2.0 * a11 * m[0] * dm[0]
                + 2.0 * a22 * m[1] * dm[1]
                + self.cross * (dm[0] * m[1] + m[0] * dm[1]);
            (m, dm, v, dv)
        };
        let value = |theta: f64| {
            let (m, _, v, _) = at(theta);
            dot(m, e) / v.sqrt()
        };
        let slope = |theta: f64| {
            let (m, dm, v, dv) = at(theta);
            dot(dm, e) * v - dot(m, e) * dv / 2.0
        };
        let mut best = (0.0, value(0.0));
        for i in 1..SAMPLES {
            let theta = i as f64 * step;
            let there = value(theta);
            if there > best.1 {
                best = (theta, there);
            }
        }
        // The greatest sample lies between two lower ones: the top is between them. 60 halvings reach the last bit.
        let (mut low, mut high) = (best.0 - step, best.0 + step);
        for _ in 0..60 {
            let middle = (low + high) / 2.0;
            if slope(middle) > 0.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        let theta = (low + high) / 2.0;
        let (m, dm, v, dv) = at(theta);
        let (s2, c2) = (dm[1], dm[2]);
        let ddm = [-2.0 * c2, 2.0 * c2, -2.0 * s2];
        let ddv = 2.0 * a11 * (dm[0] * dm[0] + m[0] * ddm[0])
            + 2.0 * a22 * (dm[1] * dm[1] + m[1] * ddm[1])
            + self.cross * (ddm[0] * m[1] + 2.0 * dm[0] * dm[1] + m[0] * ddm[1]);
        let root = v.sqrt();
        let gradient = m.map(|x| x / root);
        let (p, q) = (
            -dv / (2.0 * root * v),
            -ddv / (2.0 * root * v) + 3.0 * dv * dv / (4.0 * root * v * v),
        );
        let g = [0, 1, 2].map(|i| dm[i] / root + m[i] * p);
        let second: f64 = (0..3)
            .map(|i| e[i] * (ddm[i] / root + 2.0 * dm[i] * p + m[i] * q))
            .sum();
        let scale = if second < 0.0 { -1.0 / second } else { 0.0 };
        Wrinkle { gradient, g, scale }
    }
}

const SLACK: Stress = Stress {
    state: Tautness::Slack,
    strain: 0.0,
    energy: 0.0,
    s: [0.0; 3],
};

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
