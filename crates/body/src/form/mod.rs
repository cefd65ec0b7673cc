//! The form: a body as a surface, computed from its dimensions.
//!
//! A [`TorsoForm`] is a mean body with 24 ways to differ from it. [`TorsoForm::fitted`] finds the shape whose girths and
//! lengths are the body's, and closes what is left of the girths; the [`FittedForm`] gives section rings, the heights of
//! the levels and the line of the tape for every dimension that has a place on it.
//!
//! **Shapes and units.** mm; x = wearer's left, y up with 0 at the form's crotch, z forward.
//! **Source.** `data/body/form*`; NOTICE.md.
//! **Limits.** No arms, head or legs below mid thigh; symmetric; one posture; model-based, not scanned.

mod error;
mod fitted;
mod limbs;
mod measure;
mod radial;
mod report;
mod ring;
mod section;
mod solve;
mod surface;
mod tape;
mod torso;

pub use error::FormError;
pub use fitted::{FittedForm, Landmark, TapePath, UNUSUAL_COEFFICIENT};
pub use limbs::{LimbMeasure, Limbs};
pub use measure::FormMeasure;
pub use report::MeasureFit;
pub use ring::{RING_POINTS, Ring, RingPart};
pub use solve::FormTarget;
pub use torso::TorsoForm;
