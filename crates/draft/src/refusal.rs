//! Why a draft was not made. A refusal gives no paper; it says which value, what is allowed and what to do.

use std::fmt;

use body::Dimension;
use units::Mm;

/// A draft that can't be made.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Refusal {
    /// A dimension the style needs is not there.
    Missing {
        /// Which.
        dimension: Dimension,
    },
    /// A design parameter is outside what can be drafted for this body.
    Parameter {
        /// Its key in the suit file: `strap_width`.
        parameter: &'static str,
        /// The value asked for, in the unit of the range.
        value: f64,
        /// Lowest allowed.
        low: f64,
        /// Highest allowed.
        high: f64,
        /// `mm`, or empty for a share.
        unit: &'static str,
        /// Why the range is what it is.
        why: &'static str,
    },
    /// Two parameters that don't go together.
    Combination {
        /// The key to change.
        parameter: &'static str,
        /// What is wrong and what to do.
        why: &'static str,
    },
    /// Trunk circumference and the sum of its parts are more than 100 mm apart.
    TrunkDisagrees {
        /// Trunk circumference less its parts and bias.
        residual: Mm,
        /// Trunk circumference as taken.
        trunk: Mm,
        /// What the parts make.
        parts: Mm,
    },
    /// The dimensions together give no body a suit can be drawn on.
    Dimensions {
        /// The dimension most likely to blame.
        dimension: Dimension,
        /// What is wrong.
        why: &'static str,
    },
    /// The drafted piece failed a check of the draft itself: nothing is printed.
    Invalid {
        /// Which piece.
        piece: &'static str,
        /// Which check.
        kind: InvalidKind,
        /// By how much, in the check's unit.
        by: f64,
    },
}

/// Which check of a finished draft failed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum InvalidKind {
    /// An outline crosses itself.
    SelfCrossing,
    /// An outline reaches over its fold.
    OverTheFold,
    /// An outline has no area.
    NoArea,
    /// Edges do not meet.
    Gap,
    /// Two edges to be sewn together differ in length (mm).
    SeamMismatch,
    /// An edge has a kink where it runs over a seam (degrees).
    Kink,
    /// The drafted torso loop is not the measured one (ratio).
    Loop,
    /// The cut line could not be drawn round the seam line.
    CutLine,
}

impl InvalidKind {
    /// A short stable name for counting.
    pub const fn key(self) -> &'static str {
        match self {
            InvalidKind::SelfCrossing => "self_crossing",
            InvalidKind::OverTheFold => "over_the_fold",
            InvalidKind::NoArea => "no_area",
            InvalidKind::Gap => "gap",
            InvalidKind::SeamMismatch => "seam_mismatch",
            InvalidKind::Kink => "kink",
            InvalidKind::Loop => "loop",
            InvalidKind::CutLine => "cut_line",
        }
    }
}

impl Refusal {
    /// A short stable name for counting refusals by reason.
    pub fn reason_key(&self) -> &'static str {
        match self {
            Refusal::Missing { .. } => "missing_dimension",
            Refusal::Parameter { .. } => "parameter_out_of_range",
            Refusal::Combination { .. } => "parameters_do_not_combine",
            Refusal::TrunkDisagrees { .. } => "trunk_disagrees",
            Refusal::Dimensions { .. } => "dimensions_disagree",
            Refusal::Invalid { kind, .. } => kind.key(),
        }
    }

    /// Whether this is a fault of the draft itself rather than of what was asked.
    pub fn is_invalid(&self) -> bool {
        matches!(self, Refusal::Invalid { .. })
    }

    /// The field of the suit file to look at, if one is to blame.
    pub fn field(&self) -> Option<&'static str> {
        match self {
            Refusal::Missing { dimension } | Refusal::Dimensions { dimension, .. } => Some(dimension.key()),
            Refusal::Parameter { parameter, .. } | Refusal::Combination { parameter, .. } => Some(parameter),
            Refusal::TrunkDisagrees { .. } => Some(Dimension::TrunkCircumference.key()),
            Refusal::Invalid { .. } => None,
        }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Refusal::Missing { dimension } => {
                write!(
                    f,
                    "{} is missing and this style cannot be drafted without it; take it",
                    dimension.key()
                )
            }
            Refusal::Parameter {
                parameter,
                value,
                low,
                high,
                unit,
                why,
            } => {
                let space = if unit.is_empty() { "" } else { " " };
                let digits = if unit.is_empty() { 2 } else { 0 };
                write!(
                    f,
                    "{parameter} is {value:.digits$}{space}{unit}; for this body {low:.digits$} to \
                     {high:.digits$}{space}{unit} is possible: {why}"
                )
            }
            Refusal::Combination { parameter, why } => write!(f, "{parameter}: {why}"),
            Refusal::TrunkDisagrees {
                residual,
                trunk,
                parts,
            } => write!(
                f,
                "trunk_circumference ({}) and its parts (front and back waist, crotch, neck: {}) are {} apart; take them \
                 again, or say which to believe with `trust = \"trunk\"` or `trust = \"parts\"`",
                trunk.to_cm_text(),
                parts.to_cm_text(),
                residual.abs().to_cm_text()
            ),
            Refusal::Dimensions { dimension, why } => write!(f, "{}: {why}", dimension.key()),
            Refusal::Invalid { piece, kind, by } => write!(
                f,
                "the {piece} failed the check `{}` ({by:.3}); no paper is made from it; check the dimensions, and \
                 please report it if they are right",
                kind.key()
            ),
        }
    }
}

impl std::error::Error for Refusal {}

/// Nothing, or a [`Refusal::Parameter`] when the value lies outside `low..=high` by more than rounding.
pub(crate) fn within(
    parameter: &'static str,
    value: f64,
    (low, high): (f64, f64),
    unit: &'static str,
    why: &'static str,
) -> Result<(), Refusal> {
    if (low - 1e-9..=high + 1e-9).contains(&value) {
        Ok(())
    } else {
        Err(Refusal::Parameter {
            parameter,
            value,
            low,
            high,
            unit,
            why,
        })
    }
}
