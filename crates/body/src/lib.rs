//! A body's dimensions: what each is, what was taken, what is missing or doubtful.

mod dimension;
mod measured;

pub use dimension::{BodyForm, Dimension};
pub use measured::{Body, Dimensions, FrontTaken, Known, Origin, Trust, WaistLevel, Wearer};
