//! What can be wrong with a task: everything that is found before the search begins.

use thiserror::Error;

/// A lay that cannot be made.
#[derive(Clone, Debug, Error, PartialEq)]
#[non_exhaustive]
pub enum LayError {
    /// A strip file that is not the JSON of an instance.
    #[error("this is no strip instance: {reason}; see data/lay/README.md for the form")]
    UnreadableStrip {
        /// What the reader says, with line and column.
        reason: String,
    },
    /// An outline with fewer than three corners, no area, or edges that cross.
    #[error("{piece}: its outline crosses itself or has no area; draw it as one simple closed line")]
    BadOutline {
        /// Which piece.
        piece: String,
    },
    /// A piece that fits across the cloth in no way it may lie.
    #[error(
        "{piece}: needs {least_mm:.0} mm across and the cloth has {width_mm:.0} mm; \
         use a wider cloth, allow another direction or divide the piece"
    )]
    TooWide {
        /// Which piece.
        piece: String,
        /// Its least extent across, over the ways it may lie.
        least_mm: f64,
        /// What there is.
        width_mm: f64,
    },
    /// A number no cloth has.
    #[error("{what} is {value}; give {least} to {most} mm")]
    OutOfRange {
        /// Which.
        what: &'static str,
        /// What was given.
        value: f64,
        /// The least it may be.
        least: f64,
        /// The most.
        most: f64,
    },
    /// Nothing to lay.
    #[error("there is no piece to lay on this cloth; choose another layer")]
    NoPieces,
    /// A piece that must keep a repeat across, and has no place in phase.
    #[error(
        "{piece}: has no place across the cloth that keeps the repeat; use a wider cloth or match along only"
    )]
    RepeatTooLarge {
        /// Which piece.
        piece: String,
    },
    /// A one-way print along the cloth and a greatest stretch along it too: both cannot be obeyed, and only the maker can choose.
    #[error(
        "{cloth} is one-way, and {piece} must be turned so that its stretch lies around the body: choose to let the print lie on its \
         side, redraft with the pieces upright and the lesser stretch around, or take another cloth"
    )]
    PrintAgainstStretch {
        /// The first such piece.
        piece: String,
        /// The cloth.
        cloth: String,
    },
    /// A piece placed by hand lies where it may not: over another, off the cloth, turned against it, or on a flaw.
    #[error("what was placed by hand does not lie well: {reason}; move it, or let it go")]
    Pinned {
        /// What the check says of it.
        reason: String,
    },
    /// The lay found does not pass its check: a fault of this program.
    #[error(
        "the lay did not pass its check ({reason}); this is a fault of the program, please report it with the suit file"
    )]
    Invalid {
        /// What the check said.
        reason: String,
    },
    /// A length or number that must be more than nothing.
    #[error("{what} is {value}; give a number above 0")]
    NotPositive {
        /// Which.
        what: &'static str,
        /// What was given.
        value: f64,
    },
}
