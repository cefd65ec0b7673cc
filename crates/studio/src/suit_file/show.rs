//! Lengths printed back in the unit the maker's file uses.
//!
//! A maker who writes inches reads a refusal in inches; a limit that is no eighth is given in decimals rather than
//! rounded to a mark that would be refused again.

use units::{LengthUnit, Mm};

/// A length in `unit`, as short as it can be without hiding more than a hundredth of it: `95.6 cm`, `1.25 cm`, `956 mm`,
/// `37 5/8 in`, `0.47 in`.
pub fn show_length(length: Mm, unit: LengthUnit) -> String {
    match unit {
        LengthUnit::Mm => format!("{} mm", trimmed(length.get(), 1)),
        LengthUnit::Cm => format!("{} cm", trimmed(length.to_cm(), 2)),
        LengthUnit::In => {
            let inches = length.to_inches();
            let eighths = inches * 8.0;
            if (eighths - eighths.round()).abs() < 0.02 {
                length.to_inch_text()
            } else {
                format!("{} in", trimmed(inches, 2))
            }
        }
    }
}

/// Both units side by side, as reports print them: `95.6 cm (37 5/8 in)`.
pub fn show_both(length: Mm) -> String {
    format!("{} ({})", length.to_cm_text(), length.to_inch_text())
}

/// A number with at most `digits` decimals and no zeros at its end.
pub(crate) fn trimmed(value: f64, digits: usize) -> String {
    let text = format!("{value:.digits$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_read_in_the_files_unit() {
        assert_eq!(show_length(Mm::new(956.0), LengthUnit::Cm), "95.6 cm");
        assert_eq!(show_length(Mm::new(12.0), LengthUnit::Cm), "1.2 cm");
        assert_eq!(show_length(Mm::new(900.0), LengthUnit::Cm), "90 cm");
        assert_eq!(show_length(Mm::new(956.0), LengthUnit::Mm), "956 mm");
        assert_eq!(show_length(Mm::from_inches(37.625), LengthUnit::In), "37 5/8 in");
    }

    #[test]
    fn a_limit_between_two_eighths_is_not_rounded_to_one_of_them() {
        assert_eq!(show_length(Mm::new(12.0), LengthUnit::In), "0.47 in");
    }

    #[test]
    fn no_minus_zero() {
        assert_eq!(show_length(Mm::new(-0.001), LengthUnit::Cm), "0 cm");
    }
}
