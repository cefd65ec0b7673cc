//! How hard to try: the numbers of a solve, with why they are what they are.

/// Stiffness of the contact, N/mm^3: 0.1 mm of penetration at 1 kPa before the augmented passes. A tenth of it moved pressures; ten
/// times took twice the steps.
pub const PENALTY: f64 = 1e-2;
/// The weak pull that makes slack cloth definite, as a share of the cloth's mean stiffness. At 1e-4 it moves the greatest
/// pressure by less than 0.1 %; at 1e-3 by 0.3 %.
pub const SLACK_PULL: f64 = 1e-4;
/// Friction turns from sticking to sliding over this tangential move, mm.
pub const FRICTION_SLIP_MM: f64 = 0.2;

/// Coulomb friction between cloth and skin, from the placed state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Friction {
    /// Its coefficient mu.
    pub coefficient: f64,
    /// At most so many passes, each with the contact forces of the last.
    pub passes: usize,
    /// Tangential move over which it turns from sticking to sliding, mm; see [`FRICTION_SLIP_MM`].
    pub slip_mm: f64,
}

impl Friction {
    /// Friction with the usual slip and eight passes.
    pub const fn new(coefficient: f64) -> Friction {
        Friction {
            coefficient,
            passes: 8,
            slip_mm: FRICTION_SLIP_MM,
        }
    }
}

/// The numbers of a solve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settings {
    /// Newton's method stops when no vertex is pulled by more than this, N.
    pub residual_n: f64,
    /// Steps of all passes together, at most.
    pub most_steps: usize,
    /// Passes that take the penetration out of the contact, after the first.
    pub augmented_passes: usize,
    /// Contact stiffness, N/mm^3; see [`PENALTY`].
    pub penalty: f64,
    /// See [`SLACK_PULL`].
    pub slack_pull: f64,
    /// Pull back to where the suit was put, per area and move, N/mm^3; 0 for none. For suits too loose to know where to lie.
    pub homing: f64,
    /// No vertex moves further than this in a step, mm.
    pub largest_move_mm: f64,
    /// Friction, or none.
    pub friction: Option<Friction>,
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            residual_n: 1e-5,
            most_steps: 300,
            augmented_passes: 2,
            penalty: PENALTY,
            slack_pull: SLACK_PULL,
            homing: 0.0,
            largest_move_mm: 50.0,
            friction: None,
        }
    }
}
