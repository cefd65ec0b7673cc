//! What can be wrong with the measures of a suit or a paper pattern.

use draft::Refusal;
use thiserror::Error;

use crate::copy::FlatMeasure;

/// Why a favourite suit cannot be copied from what was measured.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum CopyError {
    /// A length or deviation is no number, or no length of a suit.
    #[error("{}: {what} is {mm:.1} mm: give {low:.1} to {high:.1} mm", .measure.key())]
    OutOfRange {
        /// Which measure.
        measure: FlatMeasure,
        /// `length` or `deviation`.
        what: &'static str,
        /// What was given, mm.
        mm: f64,
        /// Least, mm.
        low: f64,
        /// Greatest, mm.
        high: f64,
    },
    /// A measure is given twice.
    #[error("{}: given twice: keep the reading you believe, or their mean", .measure.key())]
    Twice {
        /// Which measure.
        measure: FlatMeasure,
    },
    /// Nothing tells one side of the fit.
    #[error("nothing tells the {what} of the suit: measure at least one of {}", names(.take))]
    TooFew {
        /// `width` or `length`.
        what: &'static str,
        /// One of these is needed.
        take: Vec<FlatMeasure>,
    },
    /// Fewer measures than there are things to find.
    #[error("{taken} measures cannot tell {unknown} things about a suit: measure also {}", names(.take))]
    FewerThanUnknown {
        /// How many were taken.
        taken: usize,
        /// How many things are to be found.
        unknown: usize,
        /// Not measured yet.
        take: Vec<FlatMeasure>,
    },
    /// A measure the suit, in the shapes given, does not have.
    #[error("{}: a suit of these shapes has none: leave it out, or choose the shapes the suit really has", .measure.key())]
    NotOnThisSuit {
        /// Which measure.
        measure: FlatMeasure,
    },
    /// The measures do not tell the parameters of the suit apart.
    #[error("these measures cannot be told apart into a fit and a cut: measure also {}", names(.take))]
    CannotTell {
        /// Not measured yet.
        take: Vec<FlatMeasure>,
    },
    /// Nothing can be drafted for this body in these shapes, so nothing can be compared.
    #[error("no suit of these shapes can be drafted for this body in the old cloth: {0}")]
    NotDrafted(#[source] Refusal),
    /// The suit was found but cannot be drafted in the new cloth.
    #[error("the suit was found, but cannot be drafted in the new cloth: {0}")]
    NotInNewCloth(#[source] Refusal),
}

fn names(measures: &[FlatMeasure]) -> String {
    let names: Vec<&str> = measures.iter().map(|m| m.name()).collect();
    match names.split_last() {
        None => "nothing else".to_owned(),
        Some((only, [])) => (*only).to_owned(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
    }
}

/// Why a paper pattern cannot be compared with the body.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum PaperError {
    /// A number is no number, or no length of a pattern.
    #[error("{field}: {value:.1} {unit}: give {low:.0} to {high:.0} {unit}")]
    OutOfRange {
        /// Which field.
        field: String,
        /// What was given.
        value: f64,
        /// Least.
        low: f64,
        /// Greatest.
        high: f64,
        /// `mm` or `%`.
        unit: &'static str,
    },
    /// A level is given twice.
    #[error("{field}: given twice: keep one")]
    Twice {
        /// Where.
        field: String,
    },
    /// No widths at all.
    #[error("no width of the pattern is given: measure it at bust, waist and hip, without the allowance")]
    NoWidths,
    /// The body lacks a dimension.
    #[error("{dimension} is missing and the pattern cannot be compared without it; take it")]
    Missing {
        /// Its key in the suit file.
        dimension: &'static str,
    },
    /// The dimension and the pattern are so far apart that one of them must be misread.
    #[error(
        "{field}: the pattern is {pattern_mm:.0} mm and the body {body_mm:.0} mm: a quarter or a half taken for the whole, or inches for centimetres?"
    )]
    NotThisBody {
        /// Which field.
        field: String,
        /// Of the pattern, once round, mm.
        pattern_mm: f64,
        /// Of the body, mm.
        body_mm: f64,
    },
}
