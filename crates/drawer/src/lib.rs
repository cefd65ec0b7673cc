//! The drawer: favourite ready-made suits and bought paper patterns, with what was measured on them.
//!
//! [`copy_favourite`] turns the flat measures of a suit that fits into a design that fits the same in another cloth, and says which
//! measure the others contradict. [`adapt_pattern`] turns the net measures of a paper pattern into a change sheet for one body
//! and cloth, and says first whether adapting is worth it.
//!
//! [`Favourite`] and [`PaperPattern`] are what is kept; everything else is worked out from them.
//!
//! **Shapes and units.** mm; stretches and shares as ratios; y up, fold x = 0 in the schematic.
//! **Limits.** Nothing here has been proved by sewing: sew a toile first.

mod copy;
mod error;
mod least_squares;
#[cfg(test)]
mod nist;
mod paper;

pub use copy::{
    Conflict, CopyRequest, EaseOnNewCloth, Favourite, FavouriteCopy, FlatMeasure, FoundParameter,
    HeldParameter, MeasureMet, SeatJudged, SeatOnSuit, SuitParameter, Suspect, TakenMeasure, WornEase,
    WorstEase, copy_favourite, finished_measure,
};
pub use error::{CopyError, PaperError};
pub use paper::{
    AT_THE_SIDE, AdaptRequest, ChangeSheet, ClothAgainstEnvelope, DrawnLine, DrawnPiece, LengthChanges,
    LengthLine, LengthNeed, LineChange, MOST_A_LINE, MOST_A_QUARTER, MOST_APART, MOST_AT_THE_BUST,
    PaperLevel, PaperPattern, PaperSize, PaperWidth, Schematic, SizeNeed, StretchVerdict, TruingStep,
    Verdict, WidthChange, WidthOf, WornUnchanged, adapt_pattern,
};
