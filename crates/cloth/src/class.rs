//! Stretch classes of the trade and what each takes off a pattern, to hold the draft's own reduction against.
//!
//! **Shapes and units.** Per cent; stretch as pulled by hand around the body.
//! **Source.** `data/trade/stretch_classes.csv`: common practice, no single source. A test keeps this table and that file alike.
//! **Limits.** Bands for shop patterns with one figure for everybody; below 50 % stretch the draft takes more off.

use serde::Serialize;
use units::{Level, Stretch};

use crate::ease::{Fit, length_factor, worn_around};
use crate::plan::ClothPlan;

/// One class of stretch with the reductions the trade goes with it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct StretchClass {
    /// Its name: `very high`.
    pub name: &'static str,
    /// Least stretch of the class, %.
    pub from_percent: f64,
    /// Where the next begins, %.
    pub to_percent: f64,
    /// Taken off the girth, %, least and most.
    pub girth_reduction_percent: (f64, f64),
    /// Taken off the length, %, least and most.
    pub length_reduction_percent: (f64, f64),
}

const fn class(
    name: &'static str,
    (from_percent, to_percent): (f64, f64),
    girth_reduction_percent: (f64, f64),
    length_reduction_percent: (f64, f64),
) -> StretchClass {
    StretchClass {
        name,
        from_percent,
        to_percent,
        girth_reduction_percent,
        length_reduction_percent,
    }
}

/// The classes, rising.
pub const STRETCH_CLASSES: [StretchClass; 6] = [
    class("none", (0.0, 20.0), (0.0, 0.0), (0.0, 0.0)),
    class("low", (20.0, 35.0), (0.0, 3.0), (0.0, 0.0)),
    class("moderate", (35.0, 50.0), (2.0, 5.0), (0.0, 2.0)),
    class("high", (50.0, 75.0), (5.0, 10.0), (2.0, 4.0)),
    class("very high", (75.0, 100.0), (10.0, 15.0), (3.0, 6.0)),
    class("extreme", (100.0, 150.0), (15.0, 20.0), (4.0, 8.0)),
];

/// The class of a stretch around the body. Past the last class it is still the last.
pub fn stretch_class(around: Stretch) -> &'static StretchClass {
    // A stretch that prints as 75 % is of the class that begins there: 0.75 may be a hair less in binary.
    let percent = around.percent() + 1e-9;
    STRETCH_CLASSES
        .iter()
        .rev()
        .find(|c| percent >= c.from_percent)
        .unwrap_or(&STRETCH_CLASSES[0])
}

/// The draft's reduction beside the trade's band.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TradeComparison {
    /// The class.
    pub class: &'static StretchClass,
    /// What the draft takes off the hip, %.
    pub girth_reduction_percent: f64,
    /// What it takes off the length, %; below 0 it adds.
    pub length_reduction_percent: f64,
}

impl TradeComparison {
    /// How the draft's girth reduction lies to the band: `less than`, `within` or `more than`.
    pub fn girth_words(&self) -> &'static str {
        let (low, high) = self.class.girth_reduction_percent;
        match self.girth_reduction_percent {
            r if r < low => "less than",
            r if r > high => "more than",
            _ => "within",
        }
    }
}

/// What the draft takes off in this fit, beside the trade's band for the cloths' class. Shown, not judged.
///
/// ```
/// use cloth::{ClothPlan, Fit, Load, compare_with_trade};
/// use units::Stretch;
/// let cloth = ClothPlan::of_one_cloth("Slate tricot", Stretch::from_percent(40.0), Stretch::from_percent(40.0), Load::Hand);
/// let regular = compare_with_trade(&cloth, Fit::Regular);
/// assert_eq!((regular.class.name, regular.girth_words()), ("moderate", "more than"));
/// assert!((regular.girth_reduction_percent - 6.7).abs() < 0.05);
/// ```
pub fn compare_with_trade(plan: &ClothPlan, fit: Fit) -> TradeComparison {
    TradeComparison {
        class: stretch_class(plan.around),
        girth_reduction_percent: worn_around(Level::Hip, fit, plan.around).reduction() * 100.0,
        length_reduction_percent: (1.0 - length_factor(1.0, fit, plan.lengthwise)) * 100.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn classes_meet_without_gaps() {
        for pair in STRETCH_CLASSES.windows(2) {
            assert_eq!(pair[0].to_percent, pair[1].from_percent);
        }
    }

    #[test]
    fn a_limit_belongs_to_the_class_above() {
        assert_eq!(stretch_class(Stretch::from_percent(19.9)).name, "none");
        assert_eq!(stretch_class(Stretch::from_percent(75.0)).name, "very high");
        assert_eq!(stretch_class(Stretch::from_ratio(0.35)).name, "moderate");
        assert_eq!(stretch_class(Stretch::from_percent(180.0)).name, "extreme");
    }

    /// The fields of a line; commas inside quotes don't split.
    fn fields(line: &str) -> Vec<String> {
        let mut fields = vec![String::new()];
        let mut is_quoted = false;
        for c in line.chars() {
            match c {
                '"' => is_quoted = !is_quoted,
                ',' if !is_quoted => fields.push(String::new()),
                c => fields.iter_mut().next_back().unwrap().push(c),
            }
        }
        fields
    }

    /// Source: `data/trade/stretch_classes.csv`.
    #[test]
    fn the_table_is_the_published_file() {
        let file = include_str!("../../../data/trade/stretch_classes.csv");
        let band = |text: &str| -> Option<(f64, f64)> {
            let text = text.split(" (").next()?;
            match text.split_once('-') {
                Some((low, high)) => Some((low.parse().ok()?, high.parse().ok()?)),
                None => text.parse().ok().map(|x| (x, x)),
            }
        };
        let mut rows = 0;
        for line in file.lines().skip(1) {
            let fields = fields(line);
            let Some(class) = STRETCH_CLASSES.iter().find(|c| c.name == fields[0]) else {
                continue;
            };
            rows += 1;
            assert_eq!(fields[1].parse(), Ok(class.from_percent), "{line}");
            assert_eq!(fields[2].parse(), Ok(class.to_percent), "{line}");
            assert_eq!(band(&fields[4]), Some(class.girth_reduction_percent), "{line}");
            assert_eq!(band(&fields[5]), Some(class.length_reduction_percent), "{line}");
        }
        assert_eq!(rows, STRETCH_CLASSES.len());
    }
}
