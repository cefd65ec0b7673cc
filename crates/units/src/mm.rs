//! A length in millimetres, the only unit of length inside.
//!
//! **Source.** 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use serde::{Deserialize, Serialize};

/// A length in millimetres.
///
/// `Display` prints millimetres with one decimal; for a maker's eyes use [`Mm::to_cm_text`] or [`Mm::to_inch_text`].
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Mm(f64);

impl Mm {
    /// No length.
    pub const ZERO: Mm = Mm(0.0);

    /// A length of `mm` millimetres. The caller vouches that it is finite; see [`Mm::checked`] for what people typed.
    pub const fn new(mm: f64) -> Mm {
        Mm(mm)
    }

    /// A length of `mm` millimetres, or `None` for NaN and infinity.
    pub fn checked(mm: f64) -> Option<Mm> {
        mm.is_finite().then_some(Mm(mm))
    }

    /// A length given in centimetres.
    pub const fn from_cm(cm: f64) -> Mm {
        Mm(cm * 10.0)
    }

    /// A length given in inches.
    pub const fn from_inches(inches: f64) -> Mm {
        Mm(inches * 25.4)
    }

    /// The number of millimetres.
    pub const fn get(self) -> f64 {
        self.0
    }

    /// The number of centimetres.
    pub fn to_cm(self) -> f64 {
        self.0 / 10.0
    }

    /// The number of inches.
    pub fn to_inches(self) -> f64 {
        self.0 / 25.4
    }

    /// The length without its sign.
    pub fn abs(self) -> Mm {
        Mm(self.0.abs())
    }

    /// Centimetres to one decimal with the unit: `95.6 cm`.
    pub fn to_cm_text(self) -> String {
        format!("{:.1} cm", self.to_cm())
    }

    /// Inches to the nearest eighth with the unit, as tapes are read: `37 5/8 in`, `1/2 in`, `36 in`.
    ///
    /// The text parses back with [`crate::parse_length`] to within a sixteenth of an inch of the length.
    pub fn to_inch_text(self) -> String {
        let eighths = (self.to_inches() * 8.0).round() as i64;
        let sign = if eighths < 0 { "-" } else { "" };
        let (whole, part) = (eighths.abs() / 8, eighths.abs() % 8);
        let fraction = match part {
            0 => None,
            2 => Some("1/4"),
            4 => Some("1/2"),
            6 => Some("3/4"),
            1 => Some("1/8"),
            3 => Some("3/8"),
            5 => Some("5/8"),
            _ => Some("7/8"),
        };
        match (whole, fraction) {
            (w, None) => format!("{sign}{w} in"),
            (0, Some(f)) => format!("{sign}{f} in"),
            (w, Some(f)) => format!("{sign}{w} {f} in"),
        }
    }
}

impl fmt::Display for Mm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.1} mm", self.0)
    }
}

impl Add for Mm {
    type Output = Mm;
    fn add(self, other: Mm) -> Mm {
        Mm(self.0 + other.0)
    }
}

impl AddAssign for Mm {
    fn add_assign(&mut self, other: Mm) {
        self.0 += other.0;
    }
}

impl Sub for Mm {
    type Output = Mm;
    fn sub(self, other: Mm) -> Mm {
        Mm(self.0 - other.0)
    }
}

impl SubAssign for Mm {
    fn sub_assign(&mut self, other: Mm) {
        self.0 -= other.0;
    }
}

impl Neg for Mm {
    type Output = Mm;
    fn neg(self) -> Mm {
        Mm(-self.0)
    }
}

impl Mul<f64> for Mm {
    type Output = Mm;
    fn mul(self, factor: f64) -> Mm {
        Mm(self.0 * factor)
    }
}

impl Div<f64> for Mm {
    type Output = Mm;
    fn div(self, divisor: f64) -> Mm {
        Mm(self.0 / divisor)
    }
}

/// The ratio of two lengths.
impl Div<Mm> for Mm {
    type Output = f64;
    fn div(self, other: Mm) -> f64 {
        self.0 / other.0
    }
}

impl Sum for Mm {
    fn sum<I: Iterator<Item = Mm>>(iter: I) -> Mm {
        iter.fold(Mm::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inch_text_reads_like_a_tape() {
        assert_eq!(Mm::from_inches(37.625).to_inch_text(), "37 5/8 in");
        assert_eq!(Mm::from_inches(0.5).to_inch_text(), "1/2 in");
        assert_eq!(Mm::from_inches(36.0).to_inch_text(), "36 in");
        assert_eq!(Mm::from_inches(-2.25).to_inch_text(), "-2 1/4 in");
        assert_eq!(Mm::ZERO.to_inch_text(), "0 in");
    }

    #[test]
    fn rounding_up_an_eighth_carries_into_the_whole() {
        assert_eq!(Mm::from_inches(11.97).to_inch_text(), "12 in");
    }

    #[test]
    fn nan_and_infinity_stop_at_construction() {
        assert_eq!(Mm::checked(f64::NAN), None);
        assert_eq!(Mm::checked(f64::INFINITY), None);
        assert_eq!(Mm::checked(12.0), Some(Mm::new(12.0)));
    }
}
