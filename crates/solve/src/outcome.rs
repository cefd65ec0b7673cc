//! What a solve gives: the shape, how it was reached, and why it stopped.

/// Why a solve stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stop {
    /// Every pass reached the wanted residual.
    Converged,
    /// The steps ran out.
    StepsUsedUp,
    /// Whoever waited asked to stop.
    Cancelled,
    /// No step along the found direction lowered the energy, though the residual is still too large.
    NoDescent,
    /// The matrix could not be factored at any damping tried.
    NoFactor,
}

impl Stop {
    /// The reason in words.
    pub const fn words(self) -> &'static str {
        match self {
            Stop::Converged => "solved",
            Stop::StepsUsedUp => {
                "not solved: the steps ran out; parts of the suit may be too loose to hold their place"
            }
            Stop::Cancelled => "stopped when asked",
            Stop::NoDescent => "not solved: no step lowers the energy any more",
            Stop::NoFactor => "not solved: the matrix could not be factored",
        }
    }
}

/// What a pass was for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassKind {
    /// A coarser mesh of the same suit, solved to start from.
    Coarse,
    /// The first: contact as a penalty.
    First,
    /// Contact forces of the last pass kept, so that less penetration is needed.
    Augmented,
    /// Friction with the contact forces of the last pass; the first of them also take out penetration.
    Friction,
}

/// One step of Newton's method.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// Energy before it, N mm. Falls from step to step within a pass; passes have energies of their own.
    pub energy: f64,
    /// Largest force on a free vertex before it, N.
    pub residual_n: f64,
    /// Share of the step taken.
    pub share: f64,
    /// Damping, as a share of the mean diagonal.
    pub damping: f64,
}

/// One pass.
#[derive(Clone, Debug, PartialEq)]
pub struct Pass {
    /// What for.
    pub kind: PassKind,
    /// Its steps.
    pub steps: Vec<Step>,
    /// Energy at its end, N mm.
    pub energy: f64,
    /// Residual at its end, N.
    pub residual_n: f64,
}

/// How many triangles are slack, wrinkled, taut.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct StateCounts {
    /// No tension.
    pub slack: usize,
    /// Tension along one line.
    pub wrinkled: usize,
    /// Tension both ways.
    pub taut: usize,
}

/// A solved shape.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
    /// Where the vertices lie, mm.
    pub positions: Vec<[f64; 3]>,
    /// Why it stopped. Anything but [`Stop::Converged`] is no answer to show as one.
    pub stop: Stop,
    /// The passes with their steps.
    pub passes: Vec<Pass>,
    /// Contact force on each vertex, N, outwards: what the body pushes it with.
    pub contact_n: Vec<f64>,
    /// Contact multiplier of each vertex, N/mm^2: what a warm start goes on with.
    pub multipliers: Vec<f64>,
    /// The field at each vertex, mm.
    pub gap_mm: Vec<f64>,
    /// Force the holding must give at each vertex, N; 0 in free coordinates.
    pub reactions_n: Vec<[f64; 3]>,
    /// States of the triangles.
    pub states: StateCounts,
}

impl Solved {
    /// Steps of all passes.
    pub fn step_count(&self) -> usize {
        self.passes.iter().map(|p| p.steps.len()).sum()
    }

    /// Residual at the end, N.
    pub fn residual_n(&self) -> f64 {
        self.passes.last().map_or(f64::INFINITY, |p| p.residual_n)
    }

    /// Energy at the end, N mm.
    pub fn energy(&self) -> f64 {
        self.passes.last().map_or(f64::INFINITY, |p| p.energy)
    }

    /// Deepest point inside the body, mm.
    pub fn penetration_mm(&self) -> f64 {
        self.gap_mm.iter().fold(0.0, |deepest, g| f64::max(deepest, -g))
    }
}
