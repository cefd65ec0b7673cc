//! The quantities every stage shares: lengths, stretch, severity, findings, and "how far, stop now?".
//!
//! A small crate that depends on no other of ours, so that a millimetre, a finding or a length typed by hand means the
//! same thing everywhere. Numbers that could be swapped have their own types; a tight loop may use a plain `f64` whose
//! name ends in its unit.
//!
//! **Shapes and units.** Lengths are millimetres. Stretch and ease are ratios inside, per cent on paper.
//! **Limits.** Inches and eighths exist only in [`length`], where people type and read.

mod finding;
pub mod length;
mod level;
mod mm;
mod progress;
mod stretch;

pub use finding::{Finding, Limit, Severity, worst};
pub use length::{LengthError, LengthUnit, parse_length};
pub use level::Level;
pub use mm::Mm;
pub use progress::{Progress, Silent};
pub use stretch::{NewtonPerMetre, Stretch};
