//! The body the cloth lies on: a smooth field that is 0 on the skin, positive outside.
//!
//! It need not be the exact distance. [`Cylinder`], [`Cone`] and [`Sphere`] are exact and serve the checks against closed forms.
//!
//! **Shapes and units.** mm; y up.

use crate::vector::V3;

/// A field at a point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sample {
    /// Its value: below 0 inside, mm.
    pub g: f64,
    /// Its gradient, near length 1.
    pub gradient: [f64; 3],
    /// Its second derivatives, 1/mm, symmetric.
    pub hessian: [[f64; 3]; 3],
}

/// A rigid body. Twice differentiable, or nearly.
pub trait Field: Sync {
    /// The field with its derivatives at a point.
    fn sample(&self, at: [f64; 3]) -> Sample;

    /// The value alone, for those who need no more.
    fn value(&self, at: [f64; 3]) -> f64 {
        self.sample(at).g
    }
}

/// Nothing to lie on: every point is far outside.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Nowhere;

impl Field for Nowhere {
    fn sample(&self, _at: V3) -> Sample {
        Sample {
            g: f64::MAX,
            gradient: [0.0; 3],
            hessian: [[0.0; 3]; 3],
        }
    }
}

/// A cylinder about the y axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cylinder {
    /// Radius, mm.
    pub radius_mm: f64,
}

impl Field for Cylinder {
    fn sample(&self, at: V3) -> Sample {
        let (rho, out, around) = polar(at);
        let mut hessian = [[0.0; 3]; 3];
        add_outer(&mut hessian, 1.0 / rho, around);
        Sample {
            g: rho - self.radius_mm,
            gradient: out,
            hessian,
        }
    }
}

/// A cone about the y axis, its tip at the origin and open upwards.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cone {
    /// Angle between axis and side, radians.
    pub half_angle: f64,
}

impl Field for Cone {
    fn sample(&self, at: V3) -> Sample {
        let (rho, out, around) = polar(at);
        let (s, c) = self.half_angle.sin_cos();
        let mut hessian = [[0.0; 3]; 3];
        add_outer(&mut hessian, c / rho, around);
        Sample {
            g: rho * c - at[1] * s,
            gradient: [out[0] * c, -s, out[2] * c],
            hessian,
        }
    }
}

/// A sphere about the origin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sphere {
    /// Radius, mm.
    pub radius_mm: f64,
}

impl Field for Sphere {
    fn sample(&self, at: V3) -> Sample {
        let r = crate::vector::norm(at).max(f64::MIN_POSITIVE);
        let n = at.map(|x| x / r);
        let mut hessian = [[0.0; 3]; 3];
        for (i, row) in hessian.iter_mut().enumerate() {
            row[i] = 1.0 / r;
        }
        add_outer(&mut hessian, -1.0 / r, n);
        Sample {
            g: r - self.radius_mm,
            gradient: n,
            hessian,
        }
    }
}

/// Distance from the y axis, the unit vector out from it and the one around it.
fn polar(at: V3) -> (f64, V3, V3) {
    let rho = at[0].hypot(at[2]).max(f64::MIN_POSITIVE);
    let (c, s) = (at[0] / rho, at[2] / rho);
    (rho, [c, 0.0, s], [-s, 0.0, c])
}

fn add_outer(matrix: &mut [[f64; 3]; 3], scale: f64, v: V3) {
    for (row, a) in matrix.iter_mut().zip(v) {
        for (x, b) in row.iter_mut().zip(v) {
            *x += scale * a * b;
        }
    }
}
