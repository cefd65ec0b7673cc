//! Numbers as the pages show and read them out: both units side by side, eighths as real fractions.
//!
//! **Shapes and units.** Millimetres and ratios in, texts out.
//! **Limits.** Inches are rounded to the nearest eighth, which is 1.6 mm off at most; centimetres to a tenth.

use units::{LengthUnit, Mm};

use super::Quantity;

const EIGHTHS: [(&str, &str); 8] = [
    ("", ""),
    ("⅛", "an eighth"),
    ("¼", "a quarter"),
    ("⅜", "three eighths"),
    ("½", "a half"),
    ("⅝", "five eighths"),
    ("¾", "three quarters"),
    ("⅞", "seven eighths"),
];

/// A length in her unit, the other beside it.
pub fn length(length: Mm, unit: LengthUnit) -> Quantity {
    let inches = inch_text(length);
    let (main, symbol, second) = match unit {
        LengthUnit::Cm => (cm_text(length), "cm", format!("{inches} in")),
        LengthUnit::Mm => (mm_text(length), "mm", format!("{inches} in")),
        LengthUnit::In => (inches, "in", format!("{} cm", cm_text(length))),
    };
    let metric = match unit {
        LengthUnit::Mm => format!("{} millimetres", mm_text(length)),
        _ => format!("{} centimetres", cm_text(length).trim_end_matches(".0")),
    };
    let imperial = inch_spoken(length);
    let spoken = match unit {
        LengthUnit::In => format!("{imperial}, {metric}"),
        _ => format!("{metric}, {imperial}"),
    };
    Quantity {
        main,
        unit: symbol.to_owned(),
        second,
        spoken,
        why: None,
    }
}

/// A small length, as widths of straps and elastic are spoken of: millimetres first for metric makers.
pub fn small_length(small: Mm, unit: LengthUnit) -> Quantity {
    match unit {
        LengthUnit::In => length(small, unit),
        LengthUnit::Cm | LengthUnit::Mm => length(small, LengthUnit::Mm),
    }
}

/// Eighths of an inch in a yard.
const YARD: i64 = 36 * 8;

/// A length of cloth or elastic as it is sold: metres, or her inches, from a yard on in yards and inches.
pub fn as_sold(sold: Mm, unit: LengthUnit) -> Quantity {
    let metres = plain(sold.get() / 1000.0, 2, "m", "metres");
    let yards = in_yards(sold);
    let (first, other) = match unit {
        LengthUnit::In => (yards, metres),
        LengthUnit::Cm | LengthUnit::Mm => (metres, yards),
    };
    Quantity {
        second: other.text(),
        spoken: format!("{}, {}", first.spoken, other.spoken),
        ..first
    }
}

/// `35½ in`, `2 yd`, `6 yd 20¼ in`; the last unit apart, as the pages set it.
fn in_yards(sold: Mm) -> Quantity {
    let (negative, inches, eighth) = eighths(sold);
    let all = inches * 8 + i64::try_from(eighth).unwrap_or(0);
    if negative || all < YARD {
        return Quantity {
            spoken: inch_spoken(sold),
            main: inch_text(sold),
            unit: "in".to_owned(),
            ..Quantity::default()
        };
    }
    let yards = all / YARD;
    let yards_spoken = format!("{yards} yard{}", if yards == 1 { "" } else { "s" });
    let rest = Mm::from_inches((all % YARD) as f64 / 8.0);
    if all % YARD == 0 {
        return Quantity {
            main: yards.to_string(),
            unit: "yd".to_owned(),
            spoken: yards_spoken,
            ..Quantity::default()
        };
    }
    Quantity {
        main: format!("{yards} yd {}", inch_text(rest)),
        unit: "in".to_owned(),
        spoken: format!("{yards_spoken} {}", inch_spoken(rest)),
        ..Quantity::default()
    }
}

/// A ratio as a whole per cent: 0.153 is `15`.
pub fn percent(ratio: f64) -> Quantity {
    let main = whole(ratio * 100.0);
    Quantity {
        spoken: format!("{main} per cent"),
        main,
        unit: "%".into(),
        second: String::new(),
        why: None,
    }
}

/// A number with its unit.
pub fn plain(value: f64, digits: usize, unit: &str, spoken_unit: &str) -> Quantity {
    let main = crate::suit_file::trimmed(value, digits);
    Quantity {
        spoken: format!("{main} {spoken_unit}").trim_end().to_owned(),
        main,
        unit: unit.to_owned(),
        second: String::new(),
        why: None,
    }
}

impl Quantity {
    /// The same, to be asked why under this key.
    pub fn why(mut self, key: impl Into<String>) -> Quantity {
        self.why = Some(key.into());
        self
    }

    /// `73.0 cm`, `85 %`, `0.80`.
    pub fn text(&self) -> String {
        format!("{} {}", self.main, self.unit).trim_end().to_owned()
    }
}

fn whole(value: f64) -> String {
    let text = format!("{value:.0}");
    if text == "-0" { "0".to_owned() } else { text }
}

fn cm_text(length: Mm) -> String {
    let text = format!("{:.1}", length.to_cm());
    if text == "-0.0" { "0.0".to_owned() } else { text }
}

fn mm_text(length: Mm) -> String {
    crate::suit_file::trimmed(length.get(), 1)
}

/// Whole inches and eighths of the nearest eighth.
fn eighths(length: Mm) -> (bool, i64, usize) {
    let all = (length.to_inches() * 8.0).round();
    let count = all.abs() as i64;
    (all < 0.0, count / 8, usize::try_from(count % 8).unwrap_or(0))
}

fn inch_text(length: Mm) -> String {
    let (negative, inches, eighth) = eighths(length);
    let sign = if negative { "-" } else { "" };
    let fraction = EIGHTHS[eighth].0;
    if inches == 0 && !fraction.is_empty() {
        format!("{sign}{fraction}")
    } else {
        format!("{sign}{inches}{fraction}")
    }
}

fn inch_spoken(length: Mm) -> String {
    let (negative, inches, eighth) = eighths(length);
    let sign = if negative { "minus " } else { "" };
    match (inches, eighth) {
        (n, 0) => format!("{sign}{n} inch{}", if n == 1 { "" } else { "es" }),
        (0, e) => format!("{sign}{} of an inch", EIGHTHS[e].1),
        (n, e) => format!("{sign}{n} and {} inches", EIGHTHS[e].1),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_units_stand_side_by_side() {
        let waist = length(Mm::new(730.0), LengthUnit::Cm);
        assert_eq!(
            (waist.main.as_str(), waist.unit.as_str(), waist.second.as_str()),
            ("73.0", "cm", "28¾ in")
        );
        assert_eq!(waist.spoken, "73 centimetres, 28 and three quarters inches");
        let waist = length(Mm::new(730.0), LengthUnit::In);
        assert_eq!((waist.main.as_str(), waist.second.as_str()), ("28¾", "73.0 cm"));
    }

    /// A yard is 36 inches exactly (international yard, 1959).
    #[test]
    fn what_is_sold_by_the_length_is_metres_or_yards() {
        let two = as_sold(Mm::new(2250.0), LengthUnit::Cm);
        assert_eq!(
            (two.text().as_str(), two.second.as_str()),
            ("2.25 m", "2 yd 16⅝ in")
        );
        let six = as_sold(Mm::from_inches(236.25), LengthUnit::In);
        assert_eq!(
            (six.text().as_str(), six.second.as_str(), six.spoken.as_str()),
            ("6 yd 20¼ in", "6 m", "6 yards 20 and a quarter inches, 6 metres")
        );
        let text = |inches| as_sold(Mm::from_inches(inches), LengthUnit::In).text();
        assert_eq!(text(35.875), "35⅞ in");
        assert_eq!(text(35.99), "1 yd", "rounds up to the yard");
        assert_eq!(text(72.0), "2 yd");
        assert_eq!(text(36.125), "1 yd ⅛ in");
    }

    #[test]
    fn small_and_odd_lengths_read_well() {
        let strap = small_length(Mm::new(4.0), LengthUnit::Cm);
        assert_eq!((strap.main.as_str(), strap.second.as_str()), ("4", "⅛ in"));
        assert_eq!(length(Mm::new(0.1), LengthUnit::In).main, "0");
        assert_eq!(
            length(Mm::new(25.4), LengthUnit::In).spoken,
            "1 inch, 2.5 centimetres"
        );
        assert_eq!(length(Mm::new(-3.2), LengthUnit::In).main, "-⅛");
        assert_eq!(percent(-0.001).main, "0");
    }
}
