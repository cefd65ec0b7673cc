//! Numbers with their units, as each language writes them.
//!
//! A number stays with its unit: the space between them does not break. English gives the other unit beside the maker's own;
//! German gives metric alone unless the maker measures in inches.
//!
//! **Shapes and units.** mm and ratios in, text out. Inches in eighths, as tapes are read.
//! **Source.** Decimal comma and point, space before the per cent sign: DIN 1333 and DIN 5008 for German, ISO 80000-1 for
//! the space in English; from memory.

use units::{LengthUnit, Mm};

use crate::language::Language;
use crate::say::Words;

/// A quantity as it is printed: in the maker's unit, and in the other one.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Quantity {
    /// The number with its unit.
    pub main: String,
    /// The same in the other unit; empty when there is none.
    pub other: String,
}

impl Quantity {
    /// Both: `53.1 cm (20⅞ in)`.
    pub fn both(&self) -> String {
        if self.other.is_empty() {
            self.main.clone()
        } else {
            format!("{} ({})", self.main, self.other)
        }
    }
}

/// A space that does not break.
const TIE: &str = "\u{a0}";

impl Words {
    /// A number with so many decimals and the decimal sign of the language; no minus zero.
    pub fn number(&self, value: f64, decimals: usize) -> String {
        let text = format!("{value:.decimals$}");
        let is_zero = text.chars().all(|c| matches!(c, '-' | '0' | '.'));
        let text = if is_zero {
            text.trim_start_matches('-')
        } else {
            &text
        };
        let text = text.replace('-', "\u{2212}");
        match self.language() {
            Language::English => text,
            Language::German => text.replace('.', ","),
        }
    }

    /// A number with its unit: `1.4 kPa`.
    pub fn with_unit(&self, value: f64, decimals: usize, unit: &str) -> String {
        format!("{}{TIE}{unit}", self.number(value, decimals))
    }

    /// A length of the body or the suit: `53.1 cm`, and inches with eighths.
    pub fn length(&self, mm: f64, unit: LengthUnit) -> Quantity {
        let metric = match unit {
            LengthUnit::Mm => self.with_unit(mm, 0, "mm"),
            LengthUnit::Cm | LengthUnit::In => self.with_unit(mm / 10.0, 1, "cm"),
        };
        self.in_both(metric, mm, unit)
    }

    /// A small length: an allowance, a width, a stitch: `8 mm`, `6.5 mm`.
    pub fn small(&self, mm: f64, unit: LengthUnit) -> Quantity {
        self.in_both(self.millimetres(mm), mm, unit)
    }

    /// Millimetres to a tenth where that says something: `8 mm`, `6.5 mm`.
    pub fn millimetres(&self, mm: f64) -> String {
        let decimals = usize::from((mm - mm.round()).abs() >= 0.05);
        self.with_unit(mm, decimals, "mm")
    }

    /// A length as it is bought: `1.5 m`.
    pub fn metres(&self, mm: f64, unit: LengthUnit) -> Quantity {
        let metric = self.with_unit(mm / 1000.0, 2, "m");
        let yards = self.with_unit(mm / 914.4, 2, "yd");
        match (unit, self.language()) {
            (LengthUnit::In, _) => Quantity {
                main: yards,
                other: metric,
            },
            (_, Language::English) => Quantity {
                main: metric,
                other: yards,
            },
            (_, Language::German) => Quantity {
                main: metric,
                other: String::new(),
            },
        }
    }

    fn in_both(&self, metric: String, mm: f64, unit: LengthUnit) -> Quantity {
        match (unit, self.language()) {
            (LengthUnit::In, _) => Quantity {
                main: self.inches(mm),
                other: metric,
            },
            (_, Language::English) => Quantity {
                main: metric,
                other: self.inches(mm),
            },
            (_, Language::German) => Quantity {
                main: metric,
                other: String::new(),
            },
        }
    }

    /// Inches to the nearest eighth with a real fraction: `20⅞ in`.
    pub fn inches(&self, mm: f64) -> String {
        const FRACTIONS: [&str; 8] = ["", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"];
        let unit = match self.language() {
            Language::English => "in",
            Language::German => "Zoll",
        };
        let eighths = (Mm::new(mm).to_inches() * 8.0).round();
        let sign = if eighths < 0.0 { "\u{2212}" } else { "" };
        let eighths = eighths.abs() as u64;
        let fraction = FRACTIONS.get((eighths % 8) as usize).copied().unwrap_or("");
        match (eighths / 8, fraction) {
            (whole, "") => format!("{sign}{whole}{TIE}{unit}"),
            (0, fraction) => format!("{sign}{fraction}{TIE}{unit}"),
            (whole, fraction) => format!("{sign}{whole}{fraction}{TIE}{unit}"),
        }
    }

    /// A ratio as per cent: `17 %`.
    pub fn percent(&self, ratio: f64) -> String {
        self.with_unit(100.0 * ratio, 0, "%")
    }

    /// Minutes from and to, in quarters of an hour above one hour: `20–30 min`, `1¼–2 h`.
    pub fn minutes(&self, from: f64, to: f64) -> String {
        let range = |a: String, b: String, unit: &str| {
            if a == b {
                format!("{a}{TIE}{unit}")
            } else {
                format!("{a}\u{2013}{b}{TIE}{unit}")
            }
        };
        if to < 90.0 {
            range(self.number(from, 0), self.number(to, 0), "min")
        } else {
            range(quarters(from / 60.0), quarters(to / 60.0), "h")
        }
    }

    /// A list in a sentence: `a`, `a and b`, `a, b and c`.
    pub fn list<T: AsRef<str>>(&self, items: &[T]) -> String {
        let and = match self.language() {
            Language::English => "and",
            Language::German => "und",
        };
        match items {
            [] => String::new(),
            [one] => one.as_ref().to_owned(),
            [most @ .., last] => {
                let most: Vec<&str> = most.iter().map(AsRef::as_ref).collect();
                format!("{} {and} {}", most.join(", "), last.as_ref())
            }
        }
    }
}

/// Hours to the nearest quarter: `1¼`.
fn quarters(hours: f64) -> String {
    const FRACTIONS: [&str; 4] = ["", "¼", "½", "¾"];
    let quarters = (hours * 4.0).round().max(0.0) as u64;
    let fraction = FRACTIONS.get((quarters % 4) as usize).copied().unwrap_or("");
    match (quarters / 4, fraction) {
        (0, "") => "0".to_owned(),
        (0, fraction) => fraction.to_owned(),
        (whole, fraction) => format!("{whole}{fraction}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_language_writes_its_own_numbers() {
        let (en, de) = (Words::new(Language::English), Words::new(Language::German));
        assert_eq!(
            en.length(531.0, LengthUnit::Cm).both(),
            "53.1\u{a0}cm (20⅞\u{a0}in)"
        );
        assert_eq!(de.length(531.0, LengthUnit::Cm).both(), "53,1\u{a0}cm");
        assert_eq!(
            de.length(531.0, LengthUnit::In).both(),
            "20⅞\u{a0}Zoll (53,1\u{a0}cm)"
        );
        assert_eq!(en.small(6.5, LengthUnit::Cm).main, "6.5\u{a0}mm");
        assert_eq!(de.percent(0.174), "17\u{a0}%");
        assert_eq!(de.number(-0.04, 1), "0,0");
        assert_eq!(en.number(-1.25, 2), "\u{2212}1.25");
        assert_eq!(en.metres(1500.0, LengthUnit::Cm).main, "1.50\u{a0}m");
    }

    #[test]
    fn lists_and_times() {
        let (en, de) = (Words::new(Language::English), Words::new(Language::German));
        assert_eq!(en.list(&["a", "b", "c"]), "a, b and c");
        assert_eq!(de.list(&["a", "b"]), "a und b");
        assert_eq!(en.list::<&str>(&[]), "");
        assert_eq!(en.minutes(20.0, 30.0), "20–30\u{a0}min");
        assert_eq!(de.minutes(75.0, 120.0), "1¼–2\u{a0}h");
    }
}
