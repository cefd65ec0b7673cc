//! Lengths as people write them: `95.6 cm`, `956 mm`, `37 5/8in`, `37⅝"`, or a bare number in the file's unit.
//!
//! Every refusal names the place in the text (byte offset and length) and what was expected there, so that a suit file
//! can underline it.
//!
//! **Limits.** Decimal comma is refused with a hint, because `95,6` may also be a list; no feet, no yards: nobody
//! writes a hip in feet, and a slip would pass unseen.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use crate::Mm;

/// The unit of a bare number in a file or on a page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum LengthUnit {
    /// Millimetres.
    Mm,
    /// Centimetres.
    #[default]
    Cm,
    /// Inches.
    In,
}

impl LengthUnit {
    /// How many millimetres one of it is.
    pub const fn in_mm(self) -> f64 {
        match self {
            LengthUnit::Mm => 1.0,
            LengthUnit::Cm => 10.0,
            LengthUnit::In => 25.4,
        }
    }

    /// Its short name: `mm`, `cm`, `in`.
    pub const fn symbol(self) -> &'static str {
        match self {
            LengthUnit::Mm => "mm",
            LengthUnit::Cm => "cm",
            LengthUnit::In => "in",
        }
    }
}

impl FromStr for LengthUnit {
    type Err = LengthError;

    fn from_str(text: &str) -> Result<LengthUnit, LengthError> {
        unit_of(text.trim())
            .ok_or_else(|| LengthError::new(0, text.len(), Reason::UnknownUnit(text.trim().to_owned())))
    }
}

/// Why a text is not a length, and where in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LengthError {
    /// Byte offset of the trouble in the text.
    pub at: usize,
    /// How many bytes of the text it covers; at least 1 unless the text is empty.
    pub len: usize,
    /// What is wrong.
    pub reason: Reason,
}

/// What is wrong with a text that should be a length.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Reason {
    /// Nothing there.
    Empty,
    /// No number where one must stand.
    NotANumber(String),
    /// A decimal comma.
    DecimalComma,
    /// A unit that is none of mm, cm, in.
    UnknownUnit(String),
    /// A fraction with a denominator other than 2, 4, 8 or 16, or not below one.
    BadFraction(String),
    /// A fraction with centimetres or millimetres.
    FractionOfMetric,
    /// Not finite, or larger than any body or cloth (100 m).
    OutOfRange,
    /// Something after the unit.
    Trailing(String),
}

impl LengthError {
    fn new(at: usize, len: usize, reason: Reason) -> LengthError {
        LengthError { at, len, reason }
    }
}

impl fmt::Display for LengthError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.reason {
            Reason::Empty => write!(
                f,
                "a length is missing; write one such as `95.6 cm` or `37 5/8in`"
            ),
            Reason::NotANumber(s) => write!(
                f,
                "`{s}` is not a number; write a length such as `95.6 cm` or `37 5/8in`"
            ),
            Reason::DecimalComma => write!(f, "use a point, not a comma: `95.6 cm`"),
            Reason::UnknownUnit(s) => write!(f, "`{s}` is not a unit of length here; use mm, cm or in"),
            Reason::BadFraction(s) => {
                write!(
                    f,
                    "`{s}` is not a fraction a tape shows; use halves, quarters, eighths or sixteenths below one"
                )
            }
            Reason::FractionOfMetric => write!(f, "fractions go with inches; write centimetres as `95.6 cm`"),
            Reason::OutOfRange => write!(f, "the length is out of range; nothing here is longer than 100 m"),
            Reason::Trailing(s) => write!(f, "`{s}` does not belong after the length"),
        }
    }
}

impl std::error::Error for LengthError {}

/// Vulgar fractions with a code point of their own that tapes show.
const VULGAR: [(char, f64); 7] = [
    ('⅛', 0.125),
    ('¼', 0.25),
    ('⅜', 0.375),
    ('½', 0.5),
    ('⅝', 0.625),
    ('¾', 0.75),
    ('⅞', 0.875),
];

/// Nothing in this trade is longer.
const LONGEST_MM: f64 = 100_000.0;

/// Reads a length. A number without a unit is in `bare`.
///
/// Accepted: an optional sign, a decimal number (`95.6`), a whole number and a fraction (`37 5/8`, `37-5/8`, `37⅝`), a
/// fraction alone (`5/8`), then optionally `mm`, `cm`, `in`, `inch`, `inches` or `"`. Negative lengths parse: whether
/// one is allowed is for the field to say.
///
/// # Errors
/// [`LengthError`] with the byte offset in `text` and the [`Reason`].
///
/// # Example
/// ```
/// use units::{LengthUnit, parse_length};
/// assert_eq!(parse_length("37 5/8in", LengthUnit::Cm).unwrap().get(), 955.675);
/// assert_eq!(parse_length("95.6 cm", LengthUnit::In).unwrap().get(), 956.0);
/// assert_eq!(parse_length("95.6", LengthUnit::Cm).unwrap().get(), 956.0);
/// ```
pub fn parse_length(text: &str, bare: LengthUnit) -> Result<Mm, LengthError> {
    let start = text.len() - text.trim_start().len();
    let body = text.trim();
    if body.is_empty() {
        return Err(LengthError::new(0, text.len(), Reason::Empty));
    }
    let (sign, digits_at) = match body.as_bytes().first() {
        Some(b'-') => (-1.0, 1),
        Some(b'+') => (1.0, 1),
        _ => (1.0, 0),
    };
    let rest = &body[digits_at..];
    let unit_at = rest
        .char_indices()
        .find(|&(_, c)| c.is_alphabetic() || c == '"' || c == '″' || c == '\'')
        .map_or(rest.len(), |(i, _)| i);
    let (number, tail) = rest.split_at(unit_at);
    let tail_at = start + digits_at + unit_at;
    if number.trim().is_empty() {
        return Err(LengthError::new(
            start,
            body.len(),
            Reason::NotANumber(body.to_owned()),
        ));
    }
    let unit_len = tail.find(|c: char| c.is_whitespace()).unwrap_or(tail.len());
    let (unit_text, after) = tail.split_at(unit_len);
    let unit = match unit_text {
        "" => bare,
        u => {
            unit_of(u).ok_or_else(|| LengthError::new(tail_at, u.len(), Reason::UnknownUnit(u.to_owned())))?
        }
    };
    if !after.trim().is_empty() {
        let lead = after.len() - after.trim_start().len();
        return Err(LengthError::new(
            tail_at + unit_len + lead,
            after.trim().len(),
            Reason::Trailing(after.trim().to_owned()),
        ));
    }
    let number_at = start + digits_at;
    let (value, has_fraction) = parse_number(number, number_at)?;
    if has_fraction && unit != LengthUnit::In {
        return Err(LengthError::new(
            number_at,
            number.trim_end().len(),
            Reason::FractionOfMetric,
        ));
    }
    let mm = sign * value * unit.in_mm();
    if !mm.is_finite() || mm.abs() > LONGEST_MM {
        return Err(LengthError::new(start, body.len(), Reason::OutOfRange));
    }
    Ok(Mm::new(mm))
}

fn unit_of(text: &str) -> Option<LengthUnit> {
    match text.to_ascii_lowercase().trim_end_matches('.') {
        "mm" => Some(LengthUnit::Mm),
        "cm" => Some(LengthUnit::Cm),
        "in" | "inch" | "inches" | "\"" | "″" => Some(LengthUnit::In),
        _ => None,
    }
}

/// The number part, and whether it held a fraction. `at` is its offset in the whole text.
fn parse_number(number: &str, at: usize) -> Result<(f64, bool), LengthError> {
    let trimmed = number.trim();
    let at = at + (number.len() - number.trim_start().len());
    if let Some(i) = trimmed.find(',') {
        return Err(LengthError::new(at + i, 1, Reason::DecimalComma));
    }
    if let Some((i, c)) = trimmed
        .char_indices()
        .find(|(_, c)| VULGAR.iter().any(|(v, _)| v == c))
    {
        let part = VULGAR.iter().find(|(v, _)| *v == c).map_or(0.0, |(_, x)| *x);
        let (head, tail) = (trimmed[..i].trim(), &trimmed[i + c.len_utf8()..]);
        if !tail.is_empty() {
            return Err(LengthError::new(
                at + i,
                trimmed.len() - i,
                Reason::BadFraction(trimmed[i..].to_owned()),
            ));
        }
        let whole = if head.is_empty() {
            0.0
        } else {
            whole_number(head, at)?
        };
        return Ok((whole + part, true));
    }
    let Some(slash) = trimmed.find('/') else {
        return decimal(trimmed, at).map(|v| (v, false));
    };
    let split = trimmed[..slash].rfind([' ', '-']);
    let (whole, fraction, fraction_at) = match split {
        Some(i) => (
            whole_number(trimmed[..i].trim(), at)?,
            &trimmed[i + 1..],
            at + i + 1,
        ),
        None => (0.0, trimmed, at),
    };
    let bad = || {
        LengthError::new(
            fraction_at,
            fraction.len().max(1),
            Reason::BadFraction(fraction.to_owned()),
        )
    };
    let (above, below) = fraction.split_once('/').ok_or_else(bad)?;
    let above: u32 = above.trim().parse().map_err(|_| bad())?;
    let below: u32 = below.trim().parse().map_err(|_| bad())?;
    if !matches!(below, 2 | 4 | 8 | 16) || above >= below {
        return Err(bad());
    }
    Ok((whole + f64::from(above) / f64::from(below), true))
}

fn whole_number(text: &str, at: usize) -> Result<f64, LengthError> {
    if text.is_empty() || !text.bytes().all(|b| b.is_ascii_digit()) {
        return Err(LengthError::new(
            at,
            text.len().max(1),
            Reason::NotANumber(text.to_owned()),
        ));
    }
    decimal(text, at)
}

fn decimal(text: &str, at: usize) -> Result<f64, LengthError> {
    let plain =
        text.bytes().all(|b| b.is_ascii_digit() || b == b'.') && text.bytes().any(|b| b.is_ascii_digit());
    let value = plain.then(|| text.parse::<f64>().ok()).flatten();
    value.ok_or_else(|| LengthError::new(at, text.len(), Reason::NotANumber(text.to_owned())))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(text: &str) -> f64 {
        parse_length(text, LengthUnit::Cm).unwrap().get()
    }

    #[test]
    fn reads_what_a_maker_writes() {
        assert_eq!(mm("37 5/8in"), 37.625 * 25.4);
        assert_eq!(mm("37-5/8 in"), 37.625 * 25.4);
        assert_eq!(mm("37⅝\""), 37.625 * 25.4);
        assert_eq!(mm("5/8 inches"), 0.625 * 25.4);
        assert_eq!(mm("95.6 cm"), 956.0);
        assert_eq!(mm("956mm"), 956.0);
        assert_eq!(mm(" 95.6 "), 956.0);
        assert_eq!(mm("-2 cm"), -20.0);
        assert_eq!(parse_length("38", LengthUnit::In).unwrap().get(), 38.0 * 25.4);
        assert_eq!(parse_length("38 1/2", LengthUnit::In).unwrap().get(), 38.5 * 25.4);
    }

    #[test]
    fn refuses_with_the_place_and_the_reason() {
        let refused = |text: &str| parse_length(text, LengthUnit::Cm).unwrap_err();
        assert_eq!(
            refused("90 furlong"),
            LengthError::new(3, 7, Reason::UnknownUnit("furlong".into()))
        );
        assert_eq!(refused("  95,6 cm"), LengthError::new(4, 1, Reason::DecimalComma));
        assert_eq!(refused("37 5/7in").reason, Reason::BadFraction("5/7".into()));
        assert_eq!(refused("37 9/8in").reason, Reason::BadFraction("9/8".into()));
        assert_eq!(refused("37 5/8 cm").reason, Reason::FractionOfMetric);
        assert_eq!(refused("").reason, Reason::Empty);
        assert_eq!(refused("abc").reason, Reason::NotANumber("abc".into()));
        assert_eq!(refused("9..5").reason, Reason::NotANumber("9..5".into()));
        assert_eq!(refused("12 in ish").reason, Reason::Trailing("ish".into()));
        assert_eq!(refused("1e9 cm").reason, Reason::UnknownUnit("e9".into()));
        assert_eq!(refused("99999999999 cm").reason, Reason::OutOfRange);
    }

    #[test]
    fn eighths_shown_parse_back_to_the_same_eighth() {
        for eighths in 0..800 {
            let length = Mm::from_inches(f64::from(eighths) / 8.0);
            let back = parse_length(&length.to_inch_text(), LengthUnit::Cm).unwrap();
            assert!(
                (back - length).abs().get() < 1e-9,
                "{eighths} eighths came back as {back}"
            );
        }
    }
}
