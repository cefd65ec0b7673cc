//! The slips of tape and pen that turn a right number into a wrong one, and what undoing each would give.
//!
//! A slip is only named when the number it would have come from fits the rest of the body; the number itself is never
//! changed. Of several that fit, the one that fits best is named.
//!
//! **Source.** The list: common practice, no single source; 1 in = 2.54 cm, 1 lb = 0.45359237 kg exactly.
//! **Limits.** Digits are looked at in whole centimetres (kilograms); a maker who reads inches and swaps their digits
//! is told "wrong place".

use serde::Serialize;

/// What probably went wrong with a doubtful number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Slip {
    /// A number read in inches was written as centimetres.
    InchesAsCentimetres,
    /// A number read in centimetres was written as inches.
    CentimetresAsInches,
    /// A mass in pounds was written as kilograms.
    PoundsAsKilograms,
    /// A mass in kilograms was written as pounds.
    KilogramsAsPounds,
    /// Two neighbouring digits of the whole centimetres (kilograms) changed places.
    DigitsSwapped,
    /// The tens digit is one too high or too low.
    TensDigit,
    /// No slip of reading explains it: the tape lay in the wrong place, or the body is unusual.
    WrongPlace,
}

/// A slip is named only when undoing it brings the number within this many spreads of what the others say.
pub(crate) const UNDONE_LIMIT: f64 = 2.0;

const CM_PER_INCH: f64 = 2.54;
const KG_PER_POUND: f64 = 0.453_592_37;

/// The slip that fits best, and the number it would have come from. `written` in centimetres (kilograms for mass);
/// `z` tells how many spreads a number lies from what the other dimensions say.
pub(crate) fn likely(written: f64, is_mass: bool, z: impl Fn(f64) -> f64) -> (Slip, Option<f64>) {
    let fits = |x: f64| x > 0.0 && z(x).abs() < UNDONE_LIMIT;
    candidates(written, is_mass)
        .into_iter()
        .filter(|&(_, x)| fits(x))
        .min_by(|a, b| z(a.1).abs().total_cmp(&z(b.1).abs()))
        .map_or((Slip::WrongPlace, None), |(slip, x)| (slip, Some(x)))
}

fn candidates(written: f64, is_mass: bool) -> Vec<(Slip, f64)> {
    let mut all = if is_mass {
        vec![
            (Slip::PoundsAsKilograms, written * KG_PER_POUND),
            (Slip::KilogramsAsPounds, written / KG_PER_POUND),
        ]
    } else {
        vec![
            (Slip::InchesAsCentimetres, written * CM_PER_INCH),
            (Slip::CentimetresAsInches, written / CM_PER_INCH),
        ]
    };
    let (whole, part) = (written.trunc(), written.fract());
    for place in [1.0, 10.0] {
        // Digits at `place` and ten times it; swapping a with b changes the number by (b - a) * 9 * place.
        let (low, high) = (
            (whole / place).trunc() % 10.0,
            (whole / (10.0 * place)).trunc() % 10.0,
        );
        let leading = whole >= 10.0 * place;
        if leading && low != high {
            all.push((Slip::DigitsSwapped, whole + (low - high) * 9.0 * place + part));
        }
    }
    all.push((Slip::TensDigit, written + 10.0));
    all.push((Slip::TensDigit, written - 10.0));
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    fn swaps(written: f64) -> Vec<f64> {
        candidates(written, false)
            .into_iter()
            .filter(|c| c.0 == Slip::DigitsSwapped)
            .map(|c| c.1)
            .collect()
    }

    #[test]
    fn neighbouring_digits_swap_and_the_millimetres_stay() {
        assert_eq!(swaps(94.5), [49.5]);
        assert_eq!(swaps(102.0), [120.0, 12.0]);
        assert_eq!(swaps(88.0), [0.0; 0]);
        assert_eq!(swaps(7.0), [0.0; 0]);
    }

    #[test]
    fn the_best_fit_is_named_and_a_poor_one_is_not() {
        let near = |centre: f64, sd: f64| move |x: f64| (x - centre) / sd;
        assert_eq!(likely(37.0, false, near(94.0, 3.0)).0, Slip::InchesAsCentimetres);
        assert_eq!(likely(240.0, false, near(94.0, 3.0)).0, Slip::CentimetresAsInches);
        assert_eq!(
            likely(49.0, false, near(94.0, 3.0)),
            (Slip::DigitsSwapped, Some(94.0))
        );
        assert_eq!(
            likely(104.0, false, near(94.0, 3.0)),
            (Slip::TensDigit, Some(94.0))
        );
        assert_eq!(likely(115.0, false, near(94.0, 3.0)), (Slip::WrongPlace, None));
        assert_eq!(likely(150.0, true, near(68.0, 3.0)).0, Slip::PoundsAsKilograms);
    }
}
