//! Newton's method on the whole energy, pass by pass.
//!
//! The cloth's energy is convex in the vertex positions, so its matrix never misleads; only the contact bends it. A step solves (H + mu d) s = -f with
//! d the mean diagonal; mu starts at 0, grows when the factor fails or steps must be shortened, and shrinks when they need not be.
//! Steps are shortened by halving until the energy falls enough (Armijo).
//!
//! Same input, same bytes: sums are in a fixed order, on any number of cores.
//!
//! **Shapes and units.** mm, N.
//! **Source.** Damped Newton with Armijo's rule, from memory; constants from own runs on a torso.

use units::Progress;

use crate::assembly::{self, Element};
use crate::contact::Contact;
use crate::error::MeshError;
use crate::factor::Factor;
use crate::field::{Field, Nowhere};
use crate::mesh::Mesh;
use crate::outcome::{Pass, PassKind, Solved, StateCounts, Step, Stop};
use crate::pattern::Pattern;
use crate::settings::Settings;
use crate::vector::{V3, norm};

/// Share of the expected fall a step must bring.
const ARMIJO: f64 = 1e-4;
/// A step halved more often than this leads nowhere.
const MOST_HALVINGS: usize = 30;
/// First damping after a failed factor.
const FIRST_DAMPING: f64 = 1e-4;
/// First damping after a step that had to be cut short.
const SHORT_STEP_DAMPING: f64 = 1e-5;
/// Damping below this is none.
const NO_DAMPING: f64 = 1e-9;
/// More damping than this and the matrix is hopeless.
const MOST_DAMPING: f64 = 1e3;
/// Rounding in an energy, as a share of it: a step may seem to raise it by so much.
const ROUNDING: f64 = 1e-13;
/// So many steps without a fall of the energy and the solve is as good as it gets.
const MOST_IDLE: usize = 12;
/// Contact forces for friction are settled when none changes by more than this share of the largest.
const SETTLED_GRIP: f64 = 5e-3;

/// Solves a mesh, keeping what stays the same from solve to solve: the matrix's pattern and its symbolic factor.
pub struct Solver {
    pattern: Pattern,
    factor: Factor,
    values: Vec<f64>,
    elements: Vec<Element>,
}

/// What the passes of one solve share.
struct Work<'a> {
    mesh: &'a Mesh,
    settings: &'a Settings,
    progress: &'a dyn Progress,
    steps: usize,
    states: StateCounts,
}

impl Solver {
    /// Finds the pattern of a mesh and factors it symbolically.
    ///
    /// # Errors
    /// [`MeshError::Loose`] for a vertex nothing holds; [`MeshError::Memory`].
    pub fn new(mesh: &Mesh) -> Result<Solver, MeshError> {
        mesh.check()?;
        let pattern = Pattern::new(mesh);
        let factor = Factor::new(&pattern)?;
        Ok(Solver {
            values: vec![0.0; pattern.rows.len()],
            elements: Vec::new(),
            pattern,
            factor,
        })
    }

    /// Numbers in the factor, 8 bytes each: what a solve keeps in memory most of.
    pub fn factor_size(&self) -> usize {
        self.factor.size()
    }

    /// Finds the shape of least energy near `start`.
    ///
    /// `mesh` must join the same vertices as the one the solver was made of; rest shapes, cloths, loads and holdings may
    /// be others. `body`: what it lies on, if anything. With [`Settings::friction`] the grip holds against moves from `start`.
    /// Never panics and never gives a wrong shape for a right one: [`Solved::stop`] says whether it got there.
    ///
    /// # Errors
    /// [`MeshError::Start`] for points that don't fit the mesh.
    pub fn solve(
        &mut self,
        mesh: &Mesh,
        body: Option<&dyn Field>,
        start: &[[f64; 3]],
        settings: &Settings,
        progress: &dyn Progress,
    ) -> Result<Solved, MeshError> {
        let from = (start, &[][..]);
        self.solve_from(mesh, body, start, from, settings, progress)
    }

    /// As [`Solver::solve`], going on from a shape and its contact multipliers ([`Solved::multipliers`], or none): a warm start after a
    /// small change. `placed` is where friction holds against.
    ///
    /// # Errors
    /// [`MeshError::Start`] for points that don't fit the mesh.
    pub fn solve_from(
        &mut self,
        mesh: &Mesh,
        body: Option<&dyn Field>,
        placed: &[[f64; 3]],
        (start, multipliers): (&[[f64; 3]], &[f64]),
        settings: &Settings,
        progress: &dyn Progress,
    ) -> Result<Solved, MeshError> {
        let count = mesh.vertex_count();
        for points in [start, placed] {
            let finite = points.iter().filter(|p| p.iter().all(|x| x.is_finite())).count();
            if finite != count || points.len() != count {
                return Err(MeshError::Start { found: finite, count });
            }
        }
        let is_same = mesh.triangles.len() == self.pattern.triangles.len()
            && mesh.bars.len() == self.pattern.bars.len()
            && 3 * count + 1 == self.pattern.column_starts.len();
        if !is_same {
            *self = Solver::new(mesh)?;
        }
        let areas = if body.is_some() {
            mesh.contact_areas()
        } else {
            vec![0.0; count]
        };
        let mut first_push = multipliers.to_vec();
        first_push.resize(count, 0.0);
        let mut contact = Contact::new(body.unwrap_or(&Nowhere), areas, settings.penalty, first_push);
        contact.home(settings.homing, placed);
        let mut work = Work {
            mesh,
            settings,
            progress,
            steps: 0,
            states: StateCounts::default(),
        };
        let mut x = start.to_vec();
        let mut passes = Vec::new();
        let stop = self.passes(&mut work, &mut contact, placed, &mut x, &mut passes);
        Ok(self.answer(&mut work, &contact, x, passes, stop))
    }

    fn passes(
        &mut self,
        work: &mut Work<'_>,
        contact: &mut Contact<'_>,
        placed: &[V3],
        x: &mut [V3],
        passes: &mut Vec<Pass>,
    ) -> Stop {
        let settings = work.settings;
        let mut stop = self.pass(work, contact, PassKind::First, x, passes);
        let most = settings
            .friction
            .map_or(0, |f| f.passes)
            .max(settings.augmented_passes);
        for number in 1..=most {
            if stop != Stop::Converged {
                return stop;
            }
            // Grips are taken from the contact forces that were just found, before these become multipliers.
            let is_settled = settings.friction.is_none_or(|friction| {
                let (change, largest) = contact.grip(&friction, placed, x);
                change <= SETTLED_GRIP * largest
            });
            let is_closed = number > settings.augmented_passes;
            if is_settled && is_closed {
                break;
            }
            if !is_closed {
                contact.keep_pushes(x);
            }
            let kind = if settings.friction.is_some() {
                PassKind::Friction
            } else {
                PassKind::Augmented
            };
            stop = self.pass(work, contact, kind, x, passes);
        }
        stop
    }

    /// One minimisation.
    fn pass(
        &mut self,
        work: &mut Work<'_>,
        contact: &Contact<'_>,
        kind: PassKind,
        x: &mut [V3],
        passes: &mut Vec<Pass>,
    ) -> Stop {
        let count = x.len();
        let (mesh, settings) = (work.mesh, work.settings);
        let mut gradient = vec![[0.0; 3]; count];
        let mut right = vec![0.0; 3 * count];
        let mut tried = x.to_vec();
        let mut steps = Vec::new();
        let mut damping = 0.0;
        let (mut energy, mut residual_n);
        let (mut least, mut idle) = (f64::INFINITY, 0);
        let stop = loop {
            (energy, work.states) = assembly::assemble(
                mesh,
                &self.pattern,
                settings.slack_pull,
                contact,
                x,
                (&mut gradient, &mut self.values, &mut self.elements),
            );
            residual_n = largest_free_force(mesh, &gradient);
            work.progress.at(
                work.steps as u64,
                settings.most_steps as u64,
                &format!("step {}: largest force {residual_n:.1e} N", work.steps),
            );
            if residual_n < settings.residual_n {
                break Stop::Converged;
            }
            // At the bottom of what doubles can tell apart neither energy nor forces fall any more.
            idle = if energy < least - 10.0 * ROUNDING * energy.abs() {
                0
            } else {
                idle + 1
            };
            least = least.min(energy);
            if idle > MOST_IDLE {
                break Stop::NoDescent;
            }
            if work.steps >= settings.most_steps {
                break Stop::StepsUsedUp;
            }
            if work.progress.should_stop() {
                break Stop::Cancelled;
            }
            let mean = self.hold(mesh);
            let is_factored = loop {
                for (r, g) in right.as_chunks_mut::<3>().0.iter_mut().zip(&gradient) {
                    *r = g.map(|g| -g);
                }
                clear_held(mesh, &mut right);
                if damping > 0.0 {
                    self.add_diagonal(damping * mean);
                }
                if self.factor.solve(&self.pattern, &self.values, &mut right) {
                    break true;
                }
                if damping > 0.0 {
                    self.add_diagonal(-damping * mean);
                }
                damping = f64::max(4.0 * damping, FIRST_DAMPING);
                if damping > MOST_DAMPING {
                    break false;
                }
            };
            if !is_factored {
                break Stop::NoFactor;
            }
            let moves = right.as_chunks::<3>().0;
            let slope: f64 = moves
                .iter()
                .zip(&gradient)
                .map(|(d, g)| crate::vector::dot(*d, *g))
                .sum();
            let longest = moves.iter().map(|d| norm(*d)).fold(0.0, f64::max);
            let cap = (settings.largest_move_mm / longest.max(f64::MIN_POSITIVE)).min(1.0);
            let mut share = cap;
            let mut is_lower = false;
            for _ in 0..MOST_HALVINGS {
                for ((t, p), d) in tried.iter_mut().zip(x.iter()).zip(moves) {
                    *t = [0, 1, 2].map(|i| p[i] + share * d[i]);
                }
                let there = assembly::energy(mesh, settings.slack_pull, contact, &tried);
                if there <= energy + ARMIJO * share * slope + ROUNDING * energy.abs() {
                    is_lower = true;
                    break;
                }
                share /= 2.0;
            }
            if !is_lower {
                if damping < 1.0 {
                    damping = f64::max(10.0 * damping, SHORT_STEP_DAMPING);
                    work.steps += 1;
                    continue;
                }
                break Stop::NoDescent;
            }
            steps.push(Step {
                energy,
                residual_n,
                share,
                damping,
            });
            work.steps += 1;
            x.copy_from_slice(&tried);
            damping = match share / cap {
                s if s > 0.9 => damping * 0.1,
                s if s >= 0.2 => damping * 2.0,
                _ => f64::max(4.0 * damping, SHORT_STEP_DAMPING),
            };
            if damping < NO_DAMPING {
                damping = 0.0;
            }
        };
        passes.push(Pass {
            kind,
            steps,
            energy,
            residual_n,
        });
        stop
    }

    /// Takes held coordinates out of the matrix, leaving the mean diagonal in their place; returns that mean.
    fn hold(&mut self, mesh: &Mesh) -> f64 {
        let starts = &self.pattern.column_starts;
        let size = starts.len() - 1;
        let mean = starts[..size].iter().map(|s| self.values[*s]).sum::<f64>() / size.max(1) as f64;
        if mesh.held.iter().all(|h| *h == [false; 3]) {
            return mean;
        }
        let held = mesh.held.as_flattened();
        for column in 0..size {
            let range = starts[column]..starts[column + 1];
            for (value, row) in self.values[range.clone()]
                .iter_mut()
                .zip(&self.pattern.rows[range])
            {
                if held[column] || held[*row] {
                    *value = if *row == column { mean } else { 0.0 };
                }
            }
        }
        mean
    }

    fn add_diagonal(&mut self, by: f64) {
        let starts = &self.pattern.column_starts;
        for start in &starts[..starts.len() - 1] {
            self.values[*start] += by;
        }
    }

    fn answer(
        &mut self,
        work: &mut Work<'_>,
        contact: &Contact<'_>,
        x: Vec<V3>,
        passes: Vec<Pass>,
        stop: Stop,
    ) -> Solved {
        let mut gradient = vec![[0.0; 3]; x.len()];
        let pull = work.settings.slack_pull;
        let (_, states) = assembly::assemble(
            work.mesh,
            &self.pattern,
            pull,
            contact,
            &x,
            (&mut gradient, &mut self.values, &mut self.elements),
        );
        let reactions_n = gradient
            .iter()
            .zip(&work.mesh.held)
            .map(|(g, held)| [0, 1, 2].map(|i| if held[i] { g[i] } else { 0.0 }))
            .collect();
        Solved {
            stop,
            passes,
            contact_n: x.iter().enumerate().map(|(v, p)| contact.force(v, *p)).collect(),
            multipliers: contact.multipliers().to_vec(),
            gap_mm: x.iter().map(|p| contact.gap(*p)).collect(),
            reactions_n,
            states,
            positions: x,
        }
    }
}

fn largest_free_force(mesh: &Mesh, gradient: &[V3]) -> f64 {
    let mut largest = 0.0;
    for (g, held) in gradient.iter().zip(&mesh.held) {
        let free = [0, 1, 2].map(|i| if held[i] { 0.0 } else { g[i] });
        largest = f64::max(largest, norm(free));
    }
    largest
}

fn clear_held(mesh: &Mesh, right: &mut [f64]) {
    for (r, held) in right.iter_mut().zip(mesh.held.as_flattened()) {
        if *held {
            *r = 0.0;
        }
    }
}
