//! Swatches: what a cloth's stretch test says, which way it lies, and how much smaller than the body a suit is cut.
//!
//! A maker's notes become a [`Swatch`] or a list of faults; the swatches of a suit become a [`ClothPlan`] by [`plan`]: one
//! stretch around and one lengthwise at one load, which is all the draft ever sees. [`Law`] gives the pull of a stretched
//! cloth to those who judge the fit.

mod class;
mod ease;
mod error;
mod law;
mod membrane;
mod orientation;
mod pair;
mod plan;
mod planning;
mod reach;
mod stretch_test;
mod swatch;
mod verdict;

pub use class::{STRETCH_CLASSES, StretchClass, TradeComparison, compare_with_trade, stretch_class};
pub use ease::{
    Fit, LENGTH_RESERVE_SHARE, LENGTH_WORN_CAP, NO_LENGTH_STRETCH, NO_STRETCH_LENGTH_FACTOR, OWN_AROUND,
    OWN_LENGTHWISE, OwnFit, OwnFitError, RESERVE_SHARE, WORN_CAP, length_factor, level_share, worn_around,
};
pub use error::ClothError;
pub use law::{
    ASSUMED_HAND_PULL, ASSUMED_POISSON, ASSUMED_STIFFENING, Axis, ForcePoint, LEAST_STRETCH, Law, LawError,
    Stress, Tautness, Tension,
};
pub use membrane::Membrane;
pub use orientation::{SuitCloth, greatest_stretch_around};
pub use pair::{BLIND_SHARE, stretch_together};
pub use plan::{ClothPlan, Layer, LayerPlan, Load, Orientation, PairSource};
pub use planning::{LEAST_STRETCH_AROUND, SuitCloths, TogetherTest, plan};
pub use reach::LiningReach;
pub use stretch_test::{DirectionTest, LoadTaken, Pull, STRETCH_RANGE_PERCENT, Tested};
pub use swatch::{ClothDirection, ForceReading, Swatch, SwatchRecord};
pub use verdict::{LEAST_RECOVERY, MOST_GROWTH, MOST_SHRINKAGE_DIFFERENCE, ONE_PIECE_STRETCH};
