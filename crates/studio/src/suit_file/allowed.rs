//! What may stand in a number of a cloth or an elastic, in words, for those who fill it in on a page.
//!
//! The ranges are the readers' own, so that a page never offers what reading refuses.

use units::LengthUnit;

use super::reader::{LengthRange, NumberRange};
use super::{elastic, show_length, swatch, trimmed};

/// `2 cm to 600 cm`, `0 to 200 %`: what is allowed for a key of a cloth or of the elastic; empty for a key without a range.
pub(crate) fn allowed(key: &str, unit: LengthUnit) -> String {
    let length = |range: LengthRange, unit| {
        format!(
            "{} to {}",
            show_length(range.low, unit),
            show_length(range.high, unit)
        )
    };
    let number = |range: NumberRange| {
        format!(
            "{} to {} {}",
            trimmed(range.low, 2),
            trimmed(range.high, 2),
            range.unit
        )
    };
    match key {
        "rest" | "pulled" | "back_to" => length(swatch::MARKS, unit),
        "width" => length(swatch::WIDTH, unit),
        "gsm" => number(swatch::MASS),
        "stretch" => number(swatch::STRETCH),
        "recovery" => number(swatch::RECOVERY),
        "shrinkage.along" | "shrinkage.across" => number(swatch::SHRINKAGE),
        "elastic.width" => {
            let unit = if unit == LengthUnit::In {
                unit
            } else {
                LengthUnit::Mm
            };
            length(elastic::WIDTH, unit)
        }
        "elastic.force" => number(elastic::FORCE),
        "elastic.working_extension" => number(elastic::EXTENSION),
        _ => String::new(),
    }
}
