//! Swatches: what a cloth's stretch test says, which way it lies, and how much smaller than the body a suit is cut.

mod ease;
mod law;
mod plan;

pub use ease::{
    Fit, LENGTH_RESERVE_SHARE, LENGTH_WORN_CAP, NO_LENGTH_STRETCH, NO_STRETCH_LENGTH_FACTOR, RESERVE_SHARE,
    WORN_CAP, length_factor, level_share, worn_around,
};
pub use law::{
    ASSUMED_HAND_PULL, ASSUMED_POISSON, ASSUMED_STIFFENING, Axis, ForcePoint, LEAST_STRETCH, Law, LawError,
    Stress, Tautness, Tension,
};
pub use plan::{ClothPlan, Layer, LayerPlan, Load, Orientation, PairSource};
