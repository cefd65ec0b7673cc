//! What can be wrong with a swatch or with the cloths of a suit.
//!
//! Every fault of an input is reported at once, so these come in a `Vec`. A cloth that is merely unwise is no error but a
//! finding of the plan.

use thiserror::Error;

use crate::plan::Layer;
use crate::reach::LiningReach;

/// A fault of a swatch, or a reason why no suit can be planned from it.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum ClothError {
    /// The cloth has no name.
    #[error("{layer} cloth: the name is empty: give the cloth a name to find it by", layer = .layer.name())]
    NoName {
        /// Which layer it is meant for.
        layer: Layer,
    },
    /// A number is NaN or infinite.
    #[error("{cloth}: {field} is not a number: give a plain number")]
    NotANumber {
        /// The cloth.
        cloth: String,
        /// Name of the field in the suit file.
        field: &'static str,
    },
    /// A number is outside what any cloth has.
    #[error("{cloth}: {field} is {value:.1} {unit}: give {low} to {high} {unit}")]
    OutOfRange {
        /// The cloth.
        cloth: String,
        /// Name of the field in the suit file.
        field: &'static str,
        /// What was given, in `unit`.
        value: f64,
        /// Least allowed.
        low: f64,
        /// Greatest allowed.
        high: f64,
        /// Unit of the three.
        unit: &'static str,
    },
    /// The pulled length is below the length at rest.
    #[error(
        "{cloth}: {field}: the pulled length {pulled_mm:.1} mm is shorter than the {rest_mm:.1} mm at rest: measure between the same two marks, pulled"
    )]
    PulledShorter {
        /// The cloth.
        cloth: String,
        /// Which test.
        field: &'static str,
        /// Length at rest, mm.
        rest_mm: f64,
        /// Length pulled, mm.
        pulled_mm: f64,
    },
    /// The length after the test is above the pulled length.
    #[error(
        "{cloth}: {field}: the length after the test {after_mm:.1} mm is longer than the {pulled_mm:.1} mm pulled: let go, wait a minute and measure again"
    )]
    AfterLonger {
        /// The cloth.
        cloth: String,
        /// Which test.
        field: &'static str,
        /// Length pulled, mm.
        pulled_mm: f64,
        /// Length after, mm.
        after_mm: f64,
    },
    /// The length after the test is below the length at rest by more than a reading error.
    #[error(
        "{cloth}: {field}: the length after the test {after_mm:.1} mm is shorter than the {rest_mm:.1} mm at rest: measure the rest length again on a relaxed strip"
    )]
    AfterShorter {
        /// The cloth.
        cloth: String,
        /// Which test.
        field: &'static str,
        /// Length at rest, mm.
        rest_mm: f64,
        /// Length after, mm.
        after_mm: f64,
    },
    /// A lining is asked for, but no lining cloth is given.
    #[error(
        "the lining reaches {reach}, but no lining cloth is given: add a lining swatch or line the crotch only",
        reach = .reach.words()
    )]
    NoLining {
        /// How far it should reach.
        reach: LiningReach,
    },
    /// The cloths together hardly stretch around the body.
    #[error(
        "{cloth}: no stretch: {around_percent:.0} % around the body where at least 10 % is needed: nothing here can be drafted from it, choose a knit that stretches"
    )]
    NoStretch {
        /// The cloth, or both.
        cloth: String,
        /// Stretch around of the layers together, %.
        around_percent: f64,
    },
}
