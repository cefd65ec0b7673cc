//! Negative ease: how much smaller than the body each level is cut, from the cloth's own stretch.
//!
//! A suit uses a share of the cloth's stretch that grows with the chosen fit and falls where the body is soft, and always
//! leaves more than half of the stretch for movement and the way in.
//!
//! **Shapes and units.** Stretches are ratios; `s` is the stretch of the pair of layers on the body, around or lengthwise.
//! **Source.** Girth reductions of 10 to 20 % with much smaller length reductions: common practice, no single source. The
//! shares `u` and `m` are our own reasoning.
//! **Limits.** The worn stretch is the mean of a level; bust and side differ by some 0.08 of stretch.

use serde::Serialize;
use units::{Level, Stretch};

/// No level is worn past this share of the cloth's stretch: the reserve for movement and the way in (own).
pub const RESERVE_SHARE: f64 = 0.45;
/// No level is worn past this stretch, however far the cloth goes (own).
pub const WORN_CAP: f64 = 0.40;
/// Lengthwise the same two limits are lower, because bending needs length (own).
pub const LENGTH_RESERVE_SHARE: f64 = 0.30;
/// See [`LENGTH_RESERVE_SHARE`].
pub const LENGTH_WORN_CAP: f64 = 0.20;
/// Below this lengthwise stretch the cloth counts as having none.
pub const NO_LENGTH_STRETCH: f64 = 0.10;
/// Length factor for a cloth without lengthwise stretch: 1.5 % extra.
pub const NO_STRETCH_LENGTH_FACTOR: f64 = 1.015;

/// How much of the cloth's stretch a suit uses.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Fit {
    /// Rash tops, children, anyone who dislikes squeeze.
    Relaxed,
    /// The usual suit.
    #[default]
    Regular,
    /// Lap swimming.
    Firm,
    /// Racing.
    Race,
}

impl Fit {
    /// The name in suit files.
    pub const fn key(self) -> &'static str {
        match self {
            Fit::Relaxed => "relaxed",
            Fit::Regular => "regular",
            Fit::Firm => "firm",
            Fit::Race => "race",
        }
    }

    /// Share of the stretch used around.
    pub const fn around(self) -> f64 {
        match self {
            Fit::Relaxed => 0.12,
            Fit::Regular => 0.18,
            Fit::Firm => 0.26,
            Fit::Race => 0.34,
        }
    }

    /// Share of the stretch used lengthwise.
    pub const fn lengthwise(self) -> f64 {
        match self {
            Fit::Relaxed => 0.07,
            Fit::Regular => 0.10,
            Fit::Firm => 0.14,
            Fit::Race => 0.18,
        }
    }
}

/// How much of the fit's share a level takes (own; the bust less, to avoid flattening; the waist must pass the hips).
pub const fn level_share(level: Level) -> f64 {
    match level {
        Level::NeckBase | Level::Shoulder | Level::UpperChest => 0.60,
        Level::Bust => 0.85,
        Level::Waist | Level::Navel => 0.95,
        Level::Underbust | Level::HighHip | Level::Hip | Level::Crotch => 1.00,
        Level::Thigh => 0.50,
    }
}

/// The stretch a level is worn at: min(u m S, 0.45 S, 0.40).
///
/// # Example
/// ```
/// use cloth::{Fit, worn_around};
/// use units::{Level, Stretch};
/// let worn = worn_around(Level::Hip, Fit::Regular, Stretch::from_percent(85.0));
/// assert!((worn.factor() - 0.8673).abs() < 1e-4);
/// ```
pub fn worn_around(level: Level, fit: Fit, s: Stretch) -> Stretch {
    let s = s.ratio();
    Stretch::from_ratio(
        (fit.around() * level_share(level) * s)
            .min(RESERVE_SHARE * s)
            .min(WORN_CAP),
    )
}

/// Pattern length / body length lengthwise, for a place that takes the share `m` of the length ease (1, or 0.75 for a
/// woman's front above the waist). 1.015, a little extra, for a cloth without lengthwise stretch.
pub fn length_factor(m: f64, fit: Fit, s: Stretch) -> f64 {
    let s = s.ratio();
    if s < NO_LENGTH_STRETCH {
        return NO_STRETCH_LENGTH_FACTOR;
    }
    let worn = (fit.lengthwise() * m * s)
        .min(LENGTH_RESERVE_SHARE * s)
        .min(LENGTH_WORN_CAP);
    1.0 / (1.0 + worn)
}
