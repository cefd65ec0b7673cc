//! Stretch of a cloth, and tension per width, as types that cannot be taken for a length or for each other.

use std::fmt;

use serde::{Deserialize, Serialize};

/// How far a cloth stretches in one direction: (length under load - rest) / rest. A ratio; 0.6 prints as `60 %`.
///
/// Never the same number as the *reduction* of a pattern, e / (1 + e): see [`Stretch::reduction`].
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Stretch(f64);

impl Stretch {
    /// A stretch given as a ratio (0.6).
    pub const fn from_ratio(ratio: f64) -> Stretch {
        Stretch(ratio)
    }

    /// A stretch given in per cent (60).
    pub const fn from_percent(percent: f64) -> Stretch {
        Stretch(percent / 100.0)
    }

    /// The ratio (0.6).
    pub const fn ratio(self) -> f64 {
        self.0
    }

    /// The per cent (60).
    pub fn percent(self) -> f64 {
        self.0 * 100.0
    }

    /// What comes off the pattern when it is worn stretched this much: e / (1 + e).
    ///
    /// ```
    /// use units::Stretch;
    /// assert!((Stretch::from_percent(15.0).reduction() - 0.130435).abs() < 1e-6);
    /// ```
    pub fn reduction(self) -> f64 {
        self.0 / (1.0 + self.0)
    }

    /// Pattern length / body length: 1 / (1 + e).
    pub fn factor(self) -> f64 {
        1.0 / (1.0 + self.0)
    }
}

impl fmt::Display for Stretch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.0} %", self.percent())
    }
}

/// Cloth tension, force per width. 1 N/cm = 100 N/m.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct NewtonPerMetre(f64);

impl NewtonPerMetre {
    /// A tension in newtons per metre of width.
    pub const fn new(n_per_m: f64) -> NewtonPerMetre {
        NewtonPerMetre(n_per_m)
    }

    /// A tension in newtons per centimetre of width, as strip tests print it.
    pub const fn from_n_per_cm(n_per_cm: f64) -> NewtonPerMetre {
        NewtonPerMetre(n_per_cm * 100.0)
    }

    /// Newtons per metre.
    pub const fn get(self) -> f64 {
        self.0
    }
}
