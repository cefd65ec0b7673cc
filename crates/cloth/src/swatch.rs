//! A swatch: one cloth in the hand, with its tests, as the maker keeps it.
//!
//! [`SwatchRecord`] is what she wrote down; [`Swatch::new`] checks all of it at once and is the only way to a [`Swatch`], so
//! that no later stage meets a number no cloth has.
//!
//! **Shapes and units.** Directions are the cloth's own: along the selvedge and across it. mm, g/m2, ratios.
//! **Source.** Ranges are own: wide enough for every cloth of common practice, narrow enough to catch a slip of the pen.

use serde::Serialize;
use units::{Mm, Stretch};

use crate::error::ClothError;
use crate::law::{Axis, ForcePoint};
use crate::plan::{Layer, Load, Orientation};
use crate::stretch_test::{Checker, DirectionTest, LoadTaken, Pull, Tested};

/// Widths between selvedges met in the trade, mm; remnants are narrower.
const WIDTH_RANGE_MM: (f64, f64) = (100.0, 3500.0);
/// Sheer mesh is some 60 g/m2, foam-backed knit some 400.
const MASS_RANGE: (f64, f64) = (20.0, 800.0);
/// Shrinkage in the wash, %. Above 20 % the cloth is spoilt, not shrunk.
const SHRINKAGE_RANGE_PERCENT: (f64, f64) = (0.0, 20.0);
/// Prices per metre; the currency is the maker's.
const PRICE_RANGE: (f64, f64) = (0.0, 100_000.0);
/// One pull of a force reading, N: 0.1 N is 10 g, 200 N is past a luggage scale's use on a strip.
const FORCE_RANGE_N: (f64, f64) = (0.1, 200.0);

/// A direction of the cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum ClothDirection {
    /// Parallel to the selvedge.
    Along,
    /// Selvedge to selvedge.
    Across,
}

/// One point of the cloth's force curve, read with weights or a luggage scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ForceReading {
    /// Which way the strip was cut and pulled.
    pub direction: ClothDirection,
    /// Width of the strip at rest, mm.
    pub strip_mm: f64,
    /// What pulled it.
    pub pull: Pull,
    /// Stretch under that pull, %.
    pub stretch_percent: f64,
}

/// A swatch as the maker wrote it down, not yet checked.
#[derive(Clone, Debug, PartialEq)]
pub struct SwatchRecord {
    /// What the cloth is called.
    pub name: String,
    /// What it is for.
    pub layer: Layer,
    /// Stretch along the selvedge.
    pub along: DirectionTest,
    /// Stretch across.
    pub across: DirectionTest,
    /// How both were loaded.
    pub load: LoadTaken,
    /// Usable width between the selvedges, mm.
    pub width_mm: Option<f64>,
    /// Mass, g/m2.
    pub mass_g_per_m2: Option<f64>,
    /// What it shrinks in the first wash along the selvedge, %.
    pub shrinkage_along_percent: f64,
    /// The same across, %.
    pub shrinkage_across_percent: f64,
    /// Whether it is washed before it is cut, so that this shrinkage is over.
    pub is_washed: bool,
    /// Whether its print or pile must point one way.
    pub is_one_way: bool,
    /// Price of one metre, in the maker's currency.
    pub price_per_metre: Option<f64>,
    /// Points of its force curve; with at least one in each direction pressures are measured, not relative.
    pub force_readings: Vec<ForceReading>,
    /// Anything else.
    pub notes: String,
}

impl SwatchRecord {
    /// A record of the two stretches pulled by hand, %, everything else unknown and unshrunk.
    pub fn of_hand_test(name: &str, layer: Layer, along_percent: f64, across_percent: f64) -> SwatchRecord {
        let test = |stretch| DirectionTest::Percent {
            stretch,
            recovery: None,
        };
        SwatchRecord {
            name: name.to_owned(),
            layer,
            along: test(along_percent),
            across: test(across_percent),
            load: LoadTaken::Hand,
            width_mm: None,
            mass_g_per_m2: None,
            shrinkage_along_percent: 0.0,
            shrinkage_across_percent: 0.0,
            is_washed: false,
            is_one_way: false,
            price_per_metre: None,
            force_readings: Vec::new(),
            notes: String::new(),
        }
    }
}

/// One cloth with its tests, checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Swatch {
    record: SwatchRecord,
    along: Tested,
    across: Tested,
    load: Load,
}

impl Swatch {
    /// The checked swatch.
    ///
    /// # Errors
    /// Every fault of the record at once: [`ClothError::NoName`], [`ClothError::NotANumber`], [`ClothError::OutOfRange`]
    /// (stretch 0 to 200 %, recovery 0 to 100 %, and the ranges of width, mass, shrinkage, price and force), and
    /// [`ClothError::PulledShorter`], [`ClothError::AfterLonger`], [`ClothError::AfterShorter`] for lengths that contradict
    /// each other.
    ///
    /// # Example
    /// ```
    /// use cloth::{DirectionTest, Layer, Swatch, SwatchRecord};
    /// let mut slate = SwatchRecord::of_hand_test("Slate tricot", Layer::Shell, 85.0, 60.0);
    /// slate.along = DirectionTest::Lengths { rest_mm: 100.0, pulled_mm: 185.0, after_mm: Some(103.0) };
    /// let slate = Swatch::new(slate).unwrap();
    /// assert!((slate.along().growth().unwrap() - 0.03).abs() < 1e-12);
    /// ```
    pub fn new(record: SwatchRecord) -> Result<Swatch, Vec<ClothError>> {
        let mut errors = Vec::new();
        let name = record.name.trim().to_owned();
        if name.is_empty() {
            errors.push(ClothError::NoName { layer: record.layer });
        }
        let shown = if name.is_empty() {
            record.layer.name()
        } else {
            &name
        };
        let mut check = Checker {
            cloth: shown,
            errors: &mut errors,
        };
        let along = check.test("stretch_along", &record.along);
        let across = check.test("stretch_across", &record.across);
        let load = check.load("load", &record.load);
        if let Some(width) = record.width_mm {
            check.within("width", width, WIDTH_RANGE_MM, "mm");
        }
        if let Some(mass) = record.mass_g_per_m2 {
            check.within("mass", mass, MASS_RANGE, "g/m2");
        }
        for (field, shrinkage) in [
            ("shrinkage_along", record.shrinkage_along_percent),
            ("shrinkage_across", record.shrinkage_across_percent),
        ] {
            check.within(field, shrinkage, SHRINKAGE_RANGE_PERCENT, "%");
        }
        if let Some(price) = record.price_per_metre {
            check.within("price", price, PRICE_RANGE, "per metre");
        }
        for reading in &record.force_readings {
            check.within(
                "force_readings",
                reading.stretch_percent,
                (1.0, 200.0),
                "% stretch",
            );
            check.within("force_readings", reading.pull.newtons(), FORCE_RANGE_N, "N");
            check.within(
                "force_readings",
                reading.strip_mm,
                (10.0, 500.0),
                "mm of strip width",
            );
        }
        match (along, across, load) {
            (Some(along), Some(across), Some(load)) if errors.is_empty() => Ok(Swatch {
                record: SwatchRecord { name, ..record },
                along,
                across,
                load,
            }),
            _ => Err(errors),
        }
    }

    /// What the cloth is called.
    pub fn name(&self) -> &str {
        &self.record.name
    }

    /// What it is for.
    pub fn layer(&self) -> Layer {
        self.record.layer
    }

    /// The test along the selvedge.
    pub fn along(&self) -> Tested {
        self.along
    }

    /// The test across.
    pub fn across(&self) -> Tested {
        self.across
    }

    /// The load of both tests.
    pub fn load(&self) -> Load {
        self.load
    }

    /// Usable width between the selvedges, if known.
    pub fn width(&self) -> Option<Mm> {
        self.record.width_mm.map(Mm::new)
    }

    /// Mass, g/m2, if known.
    pub fn mass_g_per_m2(&self) -> Option<f64> {
        self.record.mass_g_per_m2
    }

    /// Price of a metre, if known.
    pub fn price_per_metre(&self) -> Option<f64> {
        self.record.price_per_metre
    }

    /// Whether its print or pile must point one way.
    pub fn is_one_way(&self) -> bool {
        self.record.is_one_way
    }

    /// Whether it is washed before it is cut.
    pub fn is_washed(&self) -> bool {
        self.record.is_washed
    }

    /// The maker's notes.
    pub fn notes(&self) -> &str {
        &self.record.notes
    }

    /// The record it was made from, to be stored again.
    pub fn record(&self) -> &SwatchRecord {
        &self.record
    }

    /// The test of the direction that lies around the body.
    pub fn tested_around(&self, lies: Orientation) -> Tested {
        match lies {
            Orientation::Upright => self.across,
            Orientation::Turned => self.along,
        }
    }

    /// The test of the direction that lies up and down.
    pub fn tested_lengthwise(&self, lies: Orientation) -> Tested {
        match lies {
            Orientation::Upright => self.along,
            Orientation::Turned => self.across,
        }
    }

    /// Stretch around the body.
    pub fn around(&self, lies: Orientation) -> Stretch {
        self.tested_around(lies).stretch
    }

    /// Stretch up and down the body.
    pub fn lengthwise(&self, lies: Orientation) -> Stretch {
        self.tested_lengthwise(lies).stretch
    }

    /// Shrinkage still to come around and lengthwise, ratios; nothing when it is washed before cutting.
    pub fn shrinkage_to_come(&self, lies: Orientation) -> (f64, f64) {
        if self.record.is_washed {
            return (0.0, 0.0);
        }
        let along = self.record.shrinkage_along_percent / 100.0;
        let across = self.record.shrinkage_across_percent / 100.0;
        match lies {
            Orientation::Upright => (across, along),
            Orientation::Turned => (along, across),
        }
    }

    /// Its force readings as they lie on the body.
    pub fn force_points(&self, lies: Orientation) -> Vec<ForcePoint> {
        let around = match lies {
            Orientation::Upright => ClothDirection::Across,
            Orientation::Turned => ClothDirection::Along,
        };
        self.record
            .force_readings
            .iter()
            .map(|r| ForcePoint {
                axis: if r.direction == around {
                    Axis::Around
                } else {
                    Axis::Lengthwise
                },
                stretch: r.stretch_percent / 100.0,
                tension_n_per_m: r.pull.newtons() / (r.strip_mm / 1000.0),
            })
            .collect()
    }
}
