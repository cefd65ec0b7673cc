//! The stretch test: how far a cloth goes in one direction, and how much of it comes back.
//!
//! A strip (or a folded edge) is marked at rest, pulled by hand or by a weight, read, let go and read again after a minute.
//!
//! ```text
//! stretch  S = (pulled - rest) / rest        recovery = (pulled - after) / (pulled - rest)
//! growth     = (after - rest) / rest = S (1 - recovery)
//! ```
//!
//! **Shapes and units.** Lengths in mm between the same two marks; ratios inside. Load in N per cm of strip width.
//! **Source.** Stretch and growth as ASTM D2594 (stretch of knits having low power), recovery and permanent deformation (its
//! name for growth) as EN 14704-1, now ISO 20932-1; scopes, a laboratory's guide and a testing body's table were read, not
//! the standards. The household test with weights is our own; `data/trade/stretch_tests.csv` lists methods and loads.
//! **Limits.** A hand pull differs from person to person and is good for a class of stretch only; D2594 itself warns that
//! laboratories agree poorly. Stretches at different loads are never compared.

use serde::Serialize;
use units::Stretch;

use crate::error::ClothError;
use crate::plan::Load;

/// Stretches a maker may enter, %. Past 200 % it is not a swim cloth but a slip of the pen (own).
pub const STRETCH_RANGE_PERCENT: (f64, f64) = (0.0, 200.0);
/// Marks closer than this read too coarsely: 1 mm of 20 is 5 % of stretch (own).
const REST_RANGE_MM: (f64, f64) = (20.0, 2000.0);
/// A strip that reads this much shorter after the test than before is a reading error and counts as fully recovered (own).
const READING_ERROR_MM: f64 = 1.0;
/// Loads of strip tests: 0.1 N/cm is a hanging clip, 20 N/cm is past what any swim knit is tested at (own).
const LOAD_RANGE_N_PER_CM: (f64, f64) = (0.1, 20.0);
/// Widths of test strips.
const STRIP_RANGE_MM: (f64, f64) = (10.0, 500.0);
/// Standard gravity, m/s^2: what a gram of weight pulls. Source: 3rd General Conference on Weights and Measures, 1901.
const STANDARD_GRAVITY: f64 = 9.806_65;

/// A test in one direction as the maker wrote it down. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DirectionTest {
    /// Three lengths between the same two marks.
    Lengths {
        /// At rest.
        rest_mm: f64,
        /// Pulled.
        pulled_mm: f64,
        /// A minute after letting go, if it was read.
        after_mm: Option<f64>,
    },
    /// Percentages from a label or a laboratory.
    Percent {
        /// Stretch, %.
        stretch: f64,
        /// Recovery, %, if known.
        recovery: Option<f64>,
    },
}

/// What pulled the strip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pull {
    /// A force read off a scale, N.
    Newtons(f64),
    /// A weight hung on it, g.
    Grams(f64),
}

impl Pull {
    /// The force, N.
    pub fn newtons(self) -> f64 {
        match self {
            Pull::Newtons(newtons) => newtons,
            Pull::Grams(grams) => grams / 1000.0 * STANDARD_GRAVITY,
        }
    }
}

/// How a test was loaded, as the maker wrote it down.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum LoadTaken {
    /// By hand.
    #[default]
    Hand,
    /// A known pull on a strip of known width.
    Weighed {
        /// Width of the strip, mm.
        strip_mm: f64,
        /// What pulled it.
        pull: Pull,
    },
    /// A laboratory's load, N/cm.
    NewtonPerCm(f64),
}

/// A tested direction: checked numbers.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Tested {
    /// Stretch at the load.
    pub stretch: Stretch,
    /// Share of the stretch that went back, 0 to 1, if read.
    pub recovery: Option<f64>,
}

impl Tested {
    /// Growth: what stays of the stretch, as a share of the rest length. `None` if recovery was not read.
    pub fn growth(&self) -> Option<f64> {
        self.recovery.map(|r| self.stretch.ratio() * (1.0 - r))
    }
}

/// Collects faults of one cloth and hands back checked numbers.
pub(crate) struct Checker<'a> {
    pub(crate) cloth: &'a str,
    pub(crate) errors: &'a mut Vec<ClothError>,
}

impl Checker<'_> {
    /// Notes a fault unless `value` is a number between `low` and `high`; says whether it is.
    pub(crate) fn within(
        &mut self,
        field: &'static str,
        value: f64,
        (low, high): (f64, f64),
        unit: &'static str,
    ) -> bool {
        if !value.is_finite() {
            self.errors.push(ClothError::NotANumber {
                cloth: self.cloth.to_owned(),
                field,
            });
            return false;
        }
        if value < low || value > high {
            self.errors.push(ClothError::OutOfRange {
                cloth: self.cloth.to_owned(),
                field,
                value,
                low,
                high,
                unit,
            });
            return false;
        }
        true
    }

    /// The checked test, or `None` with its faults noted.
    pub(crate) fn test(&mut self, field: &'static str, test: &DirectionTest) -> Option<Tested> {
        match *test {
            DirectionTest::Percent { stretch, recovery } => {
                let stretch_is_right = self.within(field, stretch, STRETCH_RANGE_PERCENT, "%");
                let recovery_is_right =
                    recovery.is_none_or(|r| self.within(field, r, (0.0, 100.0), "% recovery"));
                (stretch_is_right && recovery_is_right).then(|| Tested {
                    stretch: Stretch::from_percent(stretch),
                    recovery: recovery.map(|r| r / 100.0),
                })
            }
            DirectionTest::Lengths {
                rest_mm,
                pulled_mm,
                after_mm,
            } => self.lengths(field, rest_mm, pulled_mm, after_mm),
        }
    }

    fn lengths(
        &mut self,
        field: &'static str,
        rest_mm: f64,
        pulled_mm: f64,
        after_mm: Option<f64>,
    ) -> Option<Tested> {
        let cloth = || self.cloth.to_owned();
        if ![rest_mm, pulled_mm, after_mm.unwrap_or(0.0)]
            .iter()
            .all(|x| x.is_finite())
        {
            let cloth = cloth();
            self.errors.push(ClothError::NotANumber { cloth, field });
            return None;
        }
        let faults = self.errors.len();
        if pulled_mm < rest_mm {
            let cloth = cloth();
            self.errors.push(ClothError::PulledShorter {
                cloth,
                field,
                rest_mm,
                pulled_mm,
            });
        } else if let Some(after_mm) = after_mm {
            let cloth = cloth();
            if after_mm > pulled_mm {
                self.errors.push(ClothError::AfterLonger {
                    cloth,
                    field,
                    pulled_mm,
                    after_mm,
                });
            } else if after_mm < rest_mm - READING_ERROR_MM {
                self.errors.push(ClothError::AfterShorter {
                    cloth,
                    field,
                    rest_mm,
                    after_mm,
                });
            }
        }
        let stretch = (pulled_mm - rest_mm) / rest_mm;
        if self.within(field, rest_mm, REST_RANGE_MM, "mm at rest") && stretch > 0.0 {
            self.within(field, stretch * 100.0, STRETCH_RANGE_PERCENT, "%");
        }
        (self.errors.len() == faults).then(|| Tested {
            stretch: Stretch::from_ratio(stretch),
            recovery: after_mm
                .filter(|_| pulled_mm > rest_mm)
                .map(|after| ((pulled_mm - after) / (pulled_mm - rest_mm)).min(1.0)),
        })
    }

    /// The checked load, or `None` with its faults noted.
    pub(crate) fn load(&mut self, field: &'static str, load: &LoadTaken) -> Option<Load> {
        let n_per_cm = match *load {
            LoadTaken::Hand => return Some(Load::Hand),
            LoadTaken::NewtonPerCm(n_per_cm) => n_per_cm,
            LoadTaken::Weighed { strip_mm, pull } => {
                if !self.within(field, strip_mm, STRIP_RANGE_MM, "mm of strip width") {
                    return None;
                }
                pull.newtons() / (strip_mm / 10.0)
            }
        };
        self.within(field, n_per_cm, LOAD_RANGE_N_PER_CM, "N/cm")
            .then_some(Load::NewtonPerCm(n_per_cm))
    }
}
