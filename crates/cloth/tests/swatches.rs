//! What a swatch refuses, in the very words, and what it computes from lengths and weights.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use cloth::{
    ClothDirection, ClothError, DirectionTest, ForceReading, Layer, Load, LoadTaken, Orientation, Pull,
    Swatch, SwatchRecord, greatest_stretch_around,
};

fn slate() -> SwatchRecord {
    SwatchRecord::of_hand_test("Slate tricot", Layer::Shell, 85.0, 60.0)
}

fn faults(record: SwatchRecord) -> Vec<String> {
    Swatch::new(record)
        .unwrap_err()
        .iter()
        .map(ClothError::to_string)
        .collect()
}

/// Source: ASTM D2594 and EN 14704-1 formulas as in `data/trade/stretch_tests.csv`, by hand.
#[test]
fn stretch_recovery_and_growth_from_three_lengths() {
    let swatch = Swatch::new(SwatchRecord {
        across: DirectionTest::Lengths {
            rest_mm: 200.0,
            pulled_mm: 320.0,
            after_mm: Some(206.0),
        },
        ..slate()
    })
    .unwrap();
    let across = swatch.across();
    assert!((across.stretch.percent() - 60.0).abs() < 1e-12);
    assert!((across.recovery.unwrap() - 0.95).abs() < 1e-12);
    assert!((across.growth().unwrap() - 0.03).abs() < 1e-12);
    assert_eq!(swatch.along().recovery, None);
}

/// Source: `data/trade/stretch_tests.csv`, household weight test: 0.5, 1.0, 1.5 kg on 50 mm are 0.98, 1.96, 2.94 N/cm.
#[test]
fn weights_on_a_strip_become_a_load() {
    for (grams, n_per_cm) in [(500.0, 0.98), (1000.0, 1.96), (1500.0, 2.94)] {
        let swatch = Swatch::new(SwatchRecord {
            load: LoadTaken::Weighed {
                strip_mm: 50.0,
                pull: Pull::Grams(grams),
            },
            ..slate()
        })
        .unwrap();
        let Load::NewtonPerCm(found) = swatch.load() else {
            panic!("a weighed load");
        };
        assert!((found - n_per_cm).abs() < 0.005, "{found}");
    }
}

#[test]
fn every_fault_is_reported_at_once_with_name_field_value_and_range() {
    let record = SwatchRecord {
        name: "Kelp print".to_owned(),
        along: DirectionTest::Percent {
            stretch: 240.0,
            recovery: Some(130.0),
        },
        across: DirectionTest::Lengths {
            rest_mm: 100.0,
            pulled_mm: 90.0,
            after_mm: None,
        },
        load: LoadTaken::Weighed {
            strip_mm: 50.0,
            pull: Pull::Newtons(500.0),
        },
        width_mm: Some(f64::NAN),
        mass_g_per_m2: Some(5.0),
        shrinkage_along_percent: 30.0,
        price_per_metre: Some(-1.0),
        ..slate()
    };
    assert_eq!(
        faults(record),
        [
            "Kelp print: stretch_along is 240.0 %: give 0 to 200 %",
            "Kelp print: stretch_along is 130.0 % recovery: give 0 to 100 % recovery",
            "Kelp print: stretch_across: the pulled length 90.0 mm is shorter than the 100.0 mm at rest: measure between the same two marks, pulled",
            "Kelp print: load is 100.0 N/cm: give 0.1 to 20 N/cm",
            "Kelp print: width is not a number: give a plain number",
            "Kelp print: mass is 5.0 g/m2: give 20 to 800 g/m2",
            "Kelp print: shrinkage_along is 30.0 %: give 0 to 20 %",
            "Kelp print: price is -1.0 per metre: give 0 to 100000 per metre",
        ]
    );
}

#[test]
fn lengths_that_contradict_each_other() {
    let with = |rest_mm, pulled_mm, after_mm| SwatchRecord {
        along: DirectionTest::Lengths {
            rest_mm,
            pulled_mm,
            after_mm: Some(after_mm),
        },
        ..slate()
    };
    assert_eq!(
        faults(with(100.0, 160.0, 170.0)),
        [
            "Slate tricot: stretch_along: the length after the test 170.0 mm is longer than the 160.0 mm pulled: let go, wait a minute and measure again"
        ]
    );
    assert_eq!(
        faults(with(100.0, 160.0, 95.0)),
        [
            "Slate tricot: stretch_along: the length after the test 95.0 mm is shorter than the 100.0 mm at rest: measure the rest length again on a relaxed strip"
        ]
    );
    assert_eq!(
        faults(with(100.0, 301.0, 100.0)),
        ["Slate tricot: stretch_along is 201.0 %: give 0 to 200 %"]
    );
    assert_eq!(
        faults(with(0.0, 0.0, 0.0)),
        ["Slate tricot: stretch_along is 0.0 mm at rest: give 20 to 2000 mm at rest"]
    );
    // Half a millimetre short is a reading error: it came back whole.
    let swatch = Swatch::new(with(100.0, 160.0, 99.5)).unwrap();
    assert_eq!(swatch.along().recovery, Some(1.0));
}

#[test]
fn numbers_that_are_none_stop_at_construction() {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let test = DirectionTest::Percent {
            stretch: bad,
            recovery: None,
        };
        assert!(
            Swatch::new(SwatchRecord {
                along: test,
                ..slate()
            })
            .is_err()
        );
        let test = DirectionTest::Lengths {
            rest_mm: 100.0,
            pulled_mm: bad,
            after_mm: None,
        };
        assert!(
            Swatch::new(SwatchRecord {
                across: test,
                ..slate()
            })
            .is_err()
        );
        let load = LoadTaken::NewtonPerCm(bad);
        assert!(Swatch::new(SwatchRecord { load, ..slate() }).is_err());
    }
}

#[test]
fn a_nameless_cloth_is_named_by_its_layer() {
    let record = SwatchRecord {
        name: "  ".to_owned(),
        layer: Layer::Lining,
        mass_g_per_m2: Some(2000.0),
        ..slate()
    };
    assert_eq!(
        faults(record),
        [
            "lining cloth: the name is empty: give the cloth a name to find it by",
            "lining: mass is 2000.0 g/m2: give 20 to 800 g/m2"
        ]
    );
}

#[test]
fn the_greatest_stretch_goes_around_and_a_tie_stays_upright() {
    let lies = |along, across| {
        greatest_stretch_around(
            &Swatch::new(SwatchRecord::of_hand_test("c", Layer::Shell, along, across)).unwrap(),
        )
    };
    assert_eq!(lies(85.0, 60.0), Orientation::Turned);
    assert_eq!(lies(60.0, 85.0), Orientation::Upright);
    assert_eq!(lies(70.0, 70.0), Orientation::Upright);
}

#[test]
fn readings_and_shrinkage_turn_with_the_cloth() {
    let swatch = Swatch::new(SwatchRecord {
        shrinkage_along_percent: 4.0,
        shrinkage_across_percent: 1.0,
        force_readings: vec![ForceReading {
            direction: ClothDirection::Along,
            strip_mm: 50.0,
            pull: Pull::Newtons(5.0),
            stretch_percent: 30.0,
        }],
        ..slate()
    })
    .unwrap();
    assert_eq!(swatch.shrinkage_to_come(Orientation::Upright), (0.01, 0.04));
    assert_eq!(swatch.shrinkage_to_come(Orientation::Turned), (0.04, 0.01));
    let point = swatch.force_points(Orientation::Turned)[0];
    assert_eq!(point.axis, cloth::Axis::Around);
    assert!((point.tension_n_per_m - 100.0).abs() < 1e-12);
    assert_eq!(
        swatch.force_points(Orientation::Upright)[0].axis,
        cloth::Axis::Lengthwise
    );
    let washed = Swatch::new(SwatchRecord {
        is_washed: true,
        ..swatch.record().clone()
    })
    .unwrap();
    assert_eq!(washed.shrinkage_to_come(Orientation::Upright), (0.0, 0.0));
}
