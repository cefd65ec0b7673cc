//! A body's dimensions: what each is, what was taken, what is missing or doubtful.
//!
//! A [`Wearer`] is what the tape found. [`complete`] makes a [`Body`] of it, every dimension the draft needs, each
//! marked as taken or estimated; [`doubts`] says which of her dimensions the others contradict; [`second_reading`]
//! judges two readings of one. [`survey`] turns the published survey into wearers.

mod complete;
mod dimension;
mod doubt;
mod error;
mod form;
mod guide;
mod judge;
mod measured;
mod need;
mod normal;
mod population;
mod reading;
mod rules;
mod slip;
pub mod survey;

pub use complete::complete;
pub use dimension::{BodyForm, Dimension};
pub use doubt::{Doubt, Measure, SLIP_LIMIT, doubts};
pub use error::BodyError;
pub use form::{
    FittedForm, FormError, FormMeasure, FormTarget, Landmark, LimbMeasure, Limbs, MeasureFit, RING_POINTS,
    Ring, RingPart, TapePath, TorsoForm, UNUSUAL_COEFFICIENT,
};
pub use guide::TakenAlone;
pub use measured::{Body, Dimensions, FrontTaken, Known, Origin, Trust, WaistLevel, Wearer};
pub use need::Need;
pub use normal::{Conditional, Given, LeftOut, Normal, NormalError};
pub use population::{LOG_COLUMNS, asked_of_survey};
pub use reading::second_reading;
pub use slip::Slip;
