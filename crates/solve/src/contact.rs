//! The body's push and its friction on every vertex.
//!
//! A vertex of contact area a with multiplier l is pushed out with a y, y = max(0, l - kp g); energy a (y^2 - l^2) / (2 kp). After a
//! pass the multipliers become y, and less penetration is needed for the same push. The field's curvature stays in the
//! matrix: without it a third more steps were needed.
//!
//! Friction is Coulomb's, made smooth: mu F phi(|u|) with F the contact force of the pass before, u the tangential move from the placed
//! state, phi = |u| - eps/2 above eps and u^2 / (2 eps) below.
//!
//! Cloth too loose to know where to lie may be drawn back weakly to where it was put: energy a A |x - placed|^2 / 2.
//!
//! **Shapes and units.** mm, N.
//! **Source.** Augmented Lagrangian (Hestenes, Powell 1969) and lagged regularised friction, from memory.

#![allow(
    clippy::needless_range_loop,
    reason = "entries of 3 x 3 blocks are named by their place"
)]

use crate::field::Field;
use crate::settings::Friction;
use crate::vector::{V3, add_scaled, dot, norm, sub};

/// Friction of one vertex during a pass.
#[derive(Clone, Copy, Debug)]
struct Grip {
    /// mu times the contact force, N.
    force_n: f64,
    normal: V3,
    from: V3,
}

/// Contact of all vertices.
pub(crate) struct Contact<'a> {
    field: &'a dyn Field,
    areas: Vec<f64>,
    penalty: f64,
    multipliers: Vec<f64>,
    grips: Vec<Grip>,
    slip_mm: f64,
    /// Pull back per area and move, N/mm^3, and where to.
    homing: Option<(f64, Vec<V3>)>,
}

impl<'a> Contact<'a> {
    pub(crate) fn new(
        field: &'a dyn Field,
        areas: Vec<f64>,
        penalty: f64,
        multipliers: Vec<f64>,
    ) -> Contact<'a> {
        Contact {
            field,
            areas,
            penalty,
            multipliers,
            grips: Vec::new(),
            slip_mm: 1.0,
            homing: None,
        }
    }

    /// Draws every vertex back to where it was put; 0 for no pull.
    pub(crate) fn home(&mut self, pull: f64, placed: &[V3]) {
        self.homing = (pull > 0.0).then(|| (pull, placed.to_vec()));
    }

    fn push(&self, vertex: usize, g: f64) -> f64 {
        (self.multipliers[vertex] - self.penalty * g).max(0.0)
    }

    /// Energy of one vertex.
    pub(crate) fn energy(&self, vertex: usize, at: V3) -> f64 {
        let mut sum = 0.0;
        if self.areas[vertex] > 0.0 {
            sum += self.push_energy(vertex, self.push(vertex, self.field.value(at)));
        }
        if let Some(grip) = self.grips.get(vertex).filter(|g| g.force_n > 0.0) {
            sum += self.slide_energy(grip, slide(grip, at).1);
        }
        if let Some((stiffness, away)) = self.way_home(vertex, at) {
            sum += 0.5 * stiffness * dot(away, away);
        }
        sum
    }

    /// How stiffly a vertex is drawn back to where it was put, N/mm, and how far it is from there.
    fn way_home(&self, vertex: usize, at: V3) -> Option<(f64, V3)> {
        let (pull, home) = self.homing.as_ref()?;
        Some((pull * self.areas[vertex], sub(at, *home.get(vertex)?)))
    }

    fn push_energy(&self, vertex: usize, y: f64) -> f64 {
        self.areas[vertex] * (y * y - self.multipliers[vertex].powi(2)) / (2.0 * self.penalty)
    }

    fn slide_energy(&self, grip: &Grip, length: f64) -> f64 {
        grip.force_n
            * if length > self.slip_mm {
                length - self.slip_mm / 2.0
            } else {
                length * length / (2.0 * self.slip_mm)
            }
    }

    /// Adds the force on one vertex, and hands on the blocks of the matrix; returns the energy.
    pub(crate) fn assemble(
        &self,
        vertex: usize,
        at: V3,
        gradient: &mut V3,
        mut add: impl FnMut(&[[f64; 3]; 3]),
    ) -> f64 {
        let mut sum = 0.0;
        let area = self.areas[vertex];
        if area > 0.0 {
            let sample = self.field.sample(at);
            let y = self.push(vertex, sample.g);
            sum += self.push_energy(vertex, y);
            if y > 0.0 {
                *gradient = add_scaled(*gradient, -area * y, sample.gradient);
                let mut block = [[0.0; 3]; 3];
                for i in 0..3 {
                    for j in 0..3 {
                        block[i][j] = area
                            * (self.penalty * sample.gradient[i] * sample.gradient[j]
                                - y * sample.hessian[i][j]);
                    }
                }
                add(&block);
            }
        }
        if let Some(grip) = self.grips.get(vertex).filter(|g| g.force_n > 0.0) {
            let (u, length) = slide(grip, at);
            sum += self.slide_energy(grip, length);
            let n = grip.normal;
            // phi'/|u|, and what the matrix takes off along the slide.
            let (across, off) = if length > self.slip_mm {
                (grip.force_n / length, grip.force_n / (length * length * length))
            } else {
                (grip.force_n / self.slip_mm, 0.0)
            };
            *gradient = add_scaled(*gradient, across, u);
            let mut block = [[0.0; 3]; 3];
            for i in 0..3 {
                for j in 0..3 {
                    block[i][j] = -across * n[i] * n[j] - off * u[i] * u[j];
                }
                block[i][i] += across;
            }
            add(&block);
        }
        if let Some((stiffness, away)) = self.way_home(vertex, at) {
            sum += 0.5 * stiffness * dot(away, away);
            *gradient = add_scaled(*gradient, stiffness, away);
            add(&[0, 1, 2].map(|i| [0, 1, 2].map(|j| if i == j { stiffness } else { 0.0 })));
        }
        sum
    }

    /// Takes the pushes at a shape as the next pass's multipliers.
    pub(crate) fn keep_pushes(&mut self, x: &[V3]) {
        for (v, at) in x.iter().enumerate() {
            if self.areas[v] > 0.0 {
                self.multipliers[v] = self.push(v, self.field.value(*at));
            }
        }
    }

    /// Lets every vertex grip with the contact force it has at `x`, against moves from `placed`. Returns the largest change of a
    /// grip and the largest grip, N.
    pub(crate) fn grip(&mut self, friction: &Friction, placed: &[V3], x: &[V3]) -> (f64, f64) {
        self.slip_mm = friction.slip_mm;
        let mut largest = (0.0, 0.0);
        let grips: Vec<Grip> = x
            .iter()
            .zip(placed)
            .enumerate()
            .map(|(v, (at, from))| {
                let sample = self.field.sample(*at);
                let slope = norm(sample.gradient);
                let force_n = friction.coefficient * self.force(v, *at);
                let before = self.grips.get(v).map_or(0.0, |g| g.force_n);
                largest = (
                    f64::max(largest.0, (force_n - before).abs()),
                    f64::max(largest.1, force_n),
                );
                Grip {
                    force_n,
                    normal: sample.gradient.map(|g| g / slope.max(f64::MIN_POSITIVE)),
                    from: *from,
                }
            })
            .collect();
        self.grips = grips;
        largest
    }

    /// Contact force on a vertex, N.
    pub(crate) fn force(&self, vertex: usize, at: V3) -> f64 {
        if self.areas[vertex] <= 0.0 {
            return 0.0;
        }
        let sample = self.field.sample(at);
        self.areas[vertex] * self.push(vertex, sample.g) * norm(sample.gradient)
    }

    pub(crate) fn gap(&self, at: V3) -> f64 {
        self.field.value(at)
    }

    pub(crate) fn multipliers(&self) -> &[f64] {
        &self.multipliers
    }
}

/// The tangential move of a vertex and its length.
fn slide(grip: &Grip, at: V3) -> (V3, f64) {
    let move_all = sub(at, grip.from);
    let u = add_scaled(move_all, -dot(move_all, grip.normal), grip.normal);
    (u, norm(u))
}
