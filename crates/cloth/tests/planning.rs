//! Plans of the demo's cloths: whose stretch the draft gets, and what is said.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use cloth::{
    ASSUMED_STIFFENING, Axis, ClothDirection, ClothError, ClothPlan, DirectionTest, ForceReading, Law, Layer,
    LiningReach, Load, LoadTaken, Orientation, PairSource, Pull, SuitCloths, Swatch, SwatchRecord,
    TogetherTest, plan,
};
use units::{Finding, Severity};

fn percent(stretch: f64) -> DirectionTest {
    DirectionTest::Percent {
        stretch,
        recovery: Some(95.0),
    }
}

fn record(name: &str, layer: Layer, along: f64, across: f64) -> SwatchRecord {
    SwatchRecord {
        along: percent(along),
        across: percent(across),
        ..SwatchRecord::of_hand_test(name, layer, along, across)
    }
}

fn shell(along: f64, across: f64) -> SuitCloths {
    SuitCloths::of_shell(Swatch::new(record("Slate tricot", Layer::Shell, along, across)).unwrap())
}

fn with_lining(mut cloths: SuitCloths, along: f64, across: f64) -> SuitCloths {
    let lining = Swatch::new(record("Oat lining", Layer::Lining, along, across)).unwrap();
    cloths.lining = Some(lining.into());
    cloths
}

fn found<'a>(plan: &'a ClothPlan, code: &str) -> Vec<&'a Finding> {
    plan.findings.iter().filter(|f| f.code == code).collect()
}

#[track_caller]
fn one<'a>(plan: &'a ClothPlan, code: &str) -> &'a Finding {
    let all = found(plan, code);
    assert_eq!(all.len(), 1, "{code}: {all:#?}");
    all[0]
}

#[test]
fn one_cloth_lies_with_its_greatest_stretch_around() {
    let plan = plan(&shell(85.0, 60.0), LiningReach::None).unwrap();
    assert_eq!(plan.shell.orientation, Orientation::Turned);
    assert_eq!(plan.around.percent(), 85.0);
    assert_eq!(plan.lengthwise.percent(), 60.0);
    assert_eq!(plan.pair, PairSource::Single);
    assert_eq!(plan.measured_tension, None);
    assert_eq!(
        units::worst(&plan.findings),
        Severity::Good,
        "{:#?}",
        plan.findings
    );
    assert_eq!(
        one(&plan, "cloth.class")
            .message
            .split(' ')
            .take(2)
            .collect::<Vec<_>>(),
        ["very", "high"]
    );
}

#[test]
fn a_crotch_lining_leaves_the_shell_alone_and_a_full_one_joins_it() {
    let cloths = with_lining(shell(60.0, 85.0), 60.0, 85.0);
    let crotch = plan(&cloths, LiningReach::CrotchOnly).unwrap();
    assert_eq!((crotch.around.percent(), crotch.pair), (85.0, PairSource::Single));
    assert!(crotch.lining.is_some());

    // .85 + .85 -> .561, .60 + .60 -> .380: own closed form.
    let full = plan(&cloths, LiningReach::Full).unwrap();
    assert!((full.around.ratio() - 0.561).abs() < 5e-4);
    assert!((full.lengthwise.ratio() - 0.380).abs() < 5e-4);
    assert_eq!(full.pair, PairSource::Estimated);
    assert!(one(&full, "cloth.pair").message.contains("estimated"));

    let front = plan(&cloths, LiningReach::FrontOnly).unwrap();
    assert_eq!(front.around, full.around);
    assert_eq!(one(&front, "cloth.front_lining").severity, Severity::Watch);
    assert!(found(&full, "cloth.front_lining").is_empty());

    let bare = plan(&cloths, LiningReach::None).unwrap();
    assert_eq!(bare.lining, None);
}

#[test]
fn a_test_of_both_together_overrides_the_estimate() {
    let mut cloths = with_lining(shell(60.0, 85.0), 60.0, 85.0);
    cloths.tested_together = Some(TogetherTest {
        around: percent(70.0),
        lengthwise: percent(45.0),
        load: LoadTaken::Hand,
    });
    let full = plan(&cloths, LiningReach::Full).unwrap();
    assert_eq!((full.around.percent(), full.lengthwise.percent()), (70.0, 45.0));
    assert_eq!(full.pair, PairSource::TestedTogether);
    assert!(found(&full, "cloth.pair_test").is_empty());

    cloths.tested_together = Some(TogetherTest {
        around: percent(99.0),
        lengthwise: percent(45.0),
        load: LoadTaken::Hand,
    });
    let full = plan(&cloths, LiningReach::Full).unwrap();
    assert_eq!(one(&full, "cloth.pair_test").severity, Severity::Watch);

    cloths.tested_together = Some(TogetherTest {
        around: percent(250.0),
        lengthwise: percent(-1.0),
        load: LoadTaken::Hand,
    });
    let faults = plan(&cloths, LiningReach::Full).unwrap_err();
    assert_eq!(faults.len(), 2);
    assert_eq!(
        faults[0].to_string(),
        "shell and lining together: stretch_around is 250.0 %: give 0 to 200 %"
    );
}

#[test]
fn a_hand_pull_and_a_weight_are_joined_only_with_a_watch() {
    let mut cloths = shell(60.0, 85.0);
    let weighed = SwatchRecord {
        load: LoadTaken::NewtonPerCm(3.0),
        ..record("Oat lining", Layer::Lining, 70.0, 90.0)
    };
    cloths.lining = Some(Swatch::new(weighed).unwrap().into());
    let full = plan(&cloths, LiningReach::Full).unwrap();
    assert!((full.around.ratio() - 0.7 * 0.85).abs() < 1e-12);
    assert!((full.lengthwise.ratio() - 0.7 * 0.60).abs() < 1e-12);
    assert_eq!(full.pair, PairSource::Estimated);
    assert_eq!(one(&full, "cloth.pair").severity, Severity::Watch);
    assert_eq!(one(&full, "cloth.lining_stretch").severity, Severity::Watch);
    assert_eq!(full.measured_law, None);
}

#[test]
fn a_one_way_print_against_the_stretch_asks_the_maker() {
    let kelp = || {
        let record = SwatchRecord {
            is_one_way: true,
            ..record("Kelp print", Layer::Shell, 85.0, 60.0)
        };
        SuitCloths::of_shell(Swatch::new(record).unwrap())
    };
    let asked = plan(&kelp(), LiningReach::None).unwrap();
    let finding = one(&asked, "cloth.one_way_print");
    assert_eq!(finding.severity, Severity::Watch);
    assert!(finding.remedy.contains("upright") && finding.remedy.contains("turned"));

    let mut upright = kelp();
    upright.shell.lies = Some(Orientation::Upright);
    let upright = plan(&upright, LiningReach::None).unwrap();
    assert!(found(&upright, "cloth.one_way_print").is_empty());
    assert_eq!(
        one(&upright, "cloth.lesser_stretch_around").severity,
        Severity::Watch
    );
    assert_eq!(
        (upright.around.percent(), upright.lengthwise.percent()),
        (60.0, 85.0)
    );

    let mut turned = kelp();
    turned.shell.lies = Some(Orientation::Turned);
    let turned = plan(&turned, LiningReach::None).unwrap();
    assert!(
        one(&turned, "cloth.one_way_print")
            .message
            .contains("as you chose")
    );
}

#[test]
fn cloths_nothing_can_be_drafted_from_are_refused() {
    assert_eq!(
        plan(&shell(5.0, 8.0), LiningReach::Full).unwrap_err(),
        [
            ClothError::NoLining {
                reach: LiningReach::Full
            },
            ClothError::NoStretch {
                cloth: "Slate tricot".to_owned(),
                around_percent: 8.0
            },
        ]
    );
    // Each alone would do; sewn together they would not.
    let faults = plan(&with_lining(shell(12.0, 14.0), 12.0, 12.0), LiningReach::Full).unwrap_err();
    assert!(
        faults[0].to_string().starts_with(
            "Slate tricot with Oat lining: no stretch: 7 % around the body where at least 10 % is needed"
        ),
        "{}",
        faults[0]
    );
}

#[test]
fn little_stretch_lengthwise_is_a_watch_and_little_both_ways_a_stop() {
    let long = plan(&shell(6.0, 60.0), LiningReach::None).unwrap();
    assert_eq!(one(&long, "cloth.two_way_stretch").severity, Severity::Watch);
    assert!(found(&long, "cloth.one_piece_opening").is_empty());
    let stiff = plan(&shell(6.0, 34.0), LiningReach::None).unwrap();
    assert_eq!(one(&stiff, "cloth.one_piece_opening").severity, Severity::Stop);
    let both = plan(&shell(10.0, 34.0), LiningReach::None).unwrap();
    assert!(found(&both, "cloth.one_piece_opening").is_empty());
}

#[test]
fn a_lining_that_gives_less_is_a_watch_and_one_that_cannot_follow_a_stop() {
    let good = plan(
        &with_lining(shell(60.0, 85.0), 70.0, 90.0),
        LiningReach::CrotchOnly,
    )
    .unwrap();
    assert_eq!(one(&good, "cloth.lining_stretch").severity, Severity::Good);
    let less = plan(&with_lining(shell(60.0, 85.0), 70.0, 75.0), LiningReach::Full).unwrap();
    assert_eq!(one(&less, "cloth.lining_stretch").severity, Severity::Watch);
    // Relaxed wears .07 x 60 % = 4.2 % lengthwise at the crotch.
    let stop = plan(
        &with_lining(shell(60.0, 85.0), 4.0, 75.0),
        LiningReach::CrotchOnly,
    )
    .unwrap();
    // Its greatest stretch, across, lies around; 4 % lies lengthwise.
    let findings = found(&stop, "cloth.lining_stretch");
    assert_eq!(findings.len(), 2);
    assert_eq!(
        (findings[0].severity, findings[1].severity),
        (Severity::Watch, Severity::Stop)
    );
}

#[test]
fn weighed_loads_are_compared_at_the_shells_load() {
    let mut cloths = SuitCloths::of_shell(
        Swatch::new(SwatchRecord {
            load: LoadTaken::NewtonPerCm(2.0),
            ..record("Slate tricot", Layer::Shell, 60.0, 85.0)
        })
        .unwrap(),
    );
    // 100 % at 4 N/cm is less than 85 % at 2: g(2) = 3, half of it 1.5: l^3 - l = 3, l = 1.6717.
    let lining = SwatchRecord {
        load: LoadTaken::NewtonPerCm(4.0),
        ..record("Oat lining", Layer::Lining, 100.0, 100.0)
    };
    cloths.lining = Some(Swatch::new(lining).unwrap().into());
    let plan = plan(&cloths, LiningReach::Full).unwrap();
    let finding = one(&plan, "cloth.lining_stretch");
    assert_eq!(finding.severity, Severity::Watch);
    assert!((finding.value.unwrap() - 67.17).abs() < 0.01, "{finding:?}");
    assert_eq!(plan.load, Load::NewtonPerCm(2.0));
    assert_eq!(plan.measured_tension, Some(200.0));
    // The law of both is the sum of the two, each calibrated at its own load.
    let law = plan.measured_law.unwrap();
    let shell = Law::from_stretch(0.60, 0.85, 200.0, ASSUMED_STIFFENING).unwrap();
    let lining = Law::from_stretch(1.0, 1.0, 400.0, ASSUMED_STIFFENING).unwrap();
    for l in [1.1, 1.2, 1.3] {
        for axis in [Axis::Around, Axis::Lengthwise] {
            let sum = shell.strip_tension(axis, l) + lining.strip_tension(axis, l);
            let found = law.strip_tension(axis, l);
            assert!(
                (found / sum - 1.0).abs() < 0.01,
                "{axis:?} {l}: {found} for {sum}"
            );
        }
    }
}

#[test]
fn shrinkage_is_allowed_for_once_and_only_when_it_is_still_to_come() {
    let shrinking = |is_washed| {
        Swatch::new(SwatchRecord {
            shrinkage_along_percent: 4.0,
            shrinkage_across_percent: 2.0,
            is_washed,
            ..record("Slate tricot", Layer::Shell, 60.0, 85.0)
        })
        .unwrap()
    };
    let mut cloths = with_lining(SuitCloths::of_shell(shrinking(false)), 70.0, 90.0);
    let plan_of = |cloths: &SuitCloths| plan(cloths, LiningReach::CrotchOnly).unwrap();
    let raw = plan_of(&cloths);
    assert!((raw.shrinkage_factor_around - 1.0 / 0.98).abs() < 1e-12);
    assert!((raw.shrinkage_factor_lengthwise - 1.0 / 0.96).abs() < 1e-12);
    assert_eq!(raw.around.percent(), 85.0);
    assert_eq!(
        one(&raw, "cloth.shrinkage_differs").remedy,
        "wash both before cutting"
    );
    cloths.shell = shrinking(true).into();
    let washed = plan_of(&cloths);
    assert_eq!(
        (washed.shrinkage_factor_around, washed.shrinkage_factor_lengthwise),
        (1.0, 1.0)
    );
    assert!(found(&washed, "cloth.shrinkage_differs").is_empty());
}

#[test]
fn poor_recovery_and_growth_are_watched() {
    let recovered = |recovery| {
        let test = DirectionTest::Percent {
            stretch: 80.0,
            recovery,
        };
        let record = SwatchRecord {
            along: test,
            across: test,
            ..record("Slate tricot", Layer::Shell, 80.0, 80.0)
        };
        plan(
            &SuitCloths::of_shell(Swatch::new(record).unwrap()),
            LiningReach::None,
        )
        .unwrap()
    };
    assert_eq!(
        one(&recovered(Some(95.0)), "cloth.recovery").severity,
        Severity::Good
    );
    // 93 % of 80 % leaves 5.6 % growth: over 5.
    assert_eq!(found(&recovered(Some(93.0)), "cloth.recovery").len(), 2);
    assert_eq!(one(&recovered(None), "cloth.recovery").severity, Severity::Watch);
}

#[test]
fn a_luggage_scale_makes_the_law_measured() {
    let reading = |direction, newtons, stretch_percent| ForceReading {
        direction,
        strip_mm: 50.0,
        pull: Pull::Newtons(newtons),
        stretch_percent,
    };
    let record = SwatchRecord {
        force_readings: vec![
            reading(ClothDirection::Across, 5.0, 35.0),
            reading(ClothDirection::Along, 5.0, 25.0),
        ],
        ..record("Slate tricot", Layer::Shell, 60.0, 85.0)
    };
    let cloths = SuitCloths::of_shell(Swatch::new(record).unwrap());
    let plan = plan(&cloths, LiningReach::None).unwrap();
    let (law, is_assumed) = plan.law().unwrap();
    assert!(!is_assumed);
    assert_eq!(law.stiffening(), ASSUMED_STIFFENING);
    assert!((law.strip_tension(Axis::Around, 1.35) - 100.0).abs() < 1e-9);
    assert!((law.strip_tension(Axis::Lengthwise, 1.25) - 100.0).abs() < 1e-9);
    assert_eq!(plan.measured_tension, Some(law.strip_tension(Axis::Around, 1.85)));

    let by_hand = ClothPlan::of_one_cloth("Slate tricot", plan.around, plan.lengthwise, Load::Hand);
    let (law, is_assumed) = by_hand.law().unwrap();
    assert!(is_assumed);
    assert!((law.strip_tension(Axis::Around, 1.85) - 200.0).abs() < 1e-9);
}
