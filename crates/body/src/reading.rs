//! Two readings of one dimension: near enough, or to be taken again.
//!
//! **Source.** `data/trade/measure_errors.csv`: take girths more than once; a spread over 15 mm (trunk circumference
//! 25 mm) means repeat; common practice.

use units::{Finding, Limit, Mm};

use crate::dimension::{BodyForm, Dimension};
use crate::judge::watch;

/// A watch finding when two readings lie further apart than [`Dimension::reading_spread`]; `None` when they agree.
///
/// Which reading counts is for the maker: nothing is averaged here. Code `body.second_reading`.
pub fn second_reading(dimension: Dimension, form: BodyForm, first: Mm, second: Mm) -> Option<Finding> {
    let (spread, limit) = ((first - second).abs(), dimension.reading_spread());
    // A spread that is not a number never passes as agreement.
    if spread <= limit {
        return None;
    }
    Some(Finding {
        value: Some(spread.get()),
        limit: Some(Limit {
            text: limit.to_string(),
            source: "common practice, no single source",
        }),
        ..watch(
            "body.second_reading",
            dimension.iso_name(form),
            format!(
                "two readings, {} and {}, lie {} apart",
                first.to_cm_text(),
                second.to_cm_text(),
                spread.to_cm_text()
            ),
            format!(
                "take it a third time and use the middle one: {}",
                dimension.how_to_take()
            ),
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: measure_errors.csv, self-measured girth 15 mm, torso girth 25 mm.
    #[test]
    fn spreads_of_the_table_are_the_limits() {
        let read = |d, a, b| second_reading(d, BodyForm::Woman, Mm::new(a), Mm::new(b));
        assert!(read(Dimension::BustGirth, 920.0, 935.0).is_none());
        assert!(read(Dimension::BustGirth, 920.0, 935.1).is_some());
        assert!(read(Dimension::TrunkCircumference, 1545.0, 1570.0).is_none());
        let finding = read(Dimension::TrunkCircumference, 1570.1, 1545.0).unwrap();
        assert_eq!(
            finding.message,
            "two readings, 157.0 cm and 154.5 cm, lie 2.5 cm apart"
        );
        assert!(read(Dimension::HipGirth, f64::NAN, 1000.0).is_some());
    }
}
