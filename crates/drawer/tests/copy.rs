//! Copying a favourite: what is found besides the fit, what is said, what is refused.

#![allow(clippy::unwrap_used, reason = "a test's own helpers")]

#[path = "../examples/recovery/suits.rs"]
#[expect(dead_code, reason = "shared with the recovery table, which uses all of it")]
mod suits;

use cloth::{Fit, Load, OwnFit};
use draft::{BackShape, Design, LegHeight, Seat, Skirt, SkirtJoin, SkirtKind, draft};
use drawer::{
    CopyError, CopyRequest, Favourite, FavouriteCopy, FlatMeasure, SeatOnSuit, SuitParameter, TakenMeasure,
    copy_favourite, finished_measure,
};
use suits::{body, cloth};
use units::{Mm, Severity};

fn design() -> Design {
    Design {
        fit: Fit::Own(OwnFit::new(0.22, 0.11).unwrap()),
        leg: LegHeight::Share(0.55),
        ..Design::default()
    }
}

fn exact(design: &Design, measures: &[FlatMeasure]) -> Favourite {
    let suit = draft(&body("average"), &cloth("soft"), design).unwrap();
    Favourite {
        name: "the old one".into(),
        measures: measures
            .iter()
            .map(|&m| TakenMeasure::new(m, Mm::new(finished_measure(&suit, m).unwrap())))
            .collect(),
    }
}

fn copy(favourite: &Favourite, shapes: &Design, seat: SeatOnSuit) -> Result<FavouriteCopy, Vec<CopyError>> {
    copy_favourite(&CopyRequest {
        favourite,
        body: &body("average"),
        old: &cloth("soft"),
        new: &cloth("firm"),
        shapes,
        seat,
    })
}

fn all_but(left: &[FlatMeasure]) -> Vec<FlatMeasure> {
    let mut all = FlatMeasure::ALL.to_vec();
    all.retain(|m| !left.contains(m));
    all
}

#[test]
fn skirt_and_crotch_are_found_and_said_to_be_unchecked() {
    let skirt = Skirt {
        kind: SkirtKind::HalfCircle,
        join: SkirtJoin::Hip,
        cover: Mm::new(55.0),
    };
    let worn = Design {
        skirt: Some(skirt),
        crotch_width: Some(Mm::new(72.0)),
        ..design()
    };
    let shapes = Design {
        skirt: Some(Skirt {
            cover: Mm::new(40.0),
            ..skirt
        }),
        ..Design::default()
    };
    let copy = copy(&exact(&worn, &FlatMeasure::ALL), &shapes, SeatOnSuit::Seen).unwrap();
    assert!((copy.design.skirt.unwrap().cover.get() - 55.0).abs() < 0.5);
    assert!((copy.design.crotch_width.unwrap().get() - 72.0).abs() < 0.1);
    let unchecked: Vec<FlatMeasure> = copy
        .measures
        .iter()
        .filter(|m| !m.is_checked())
        .map(|m| m.measure)
        .collect();
    assert!(unchecked.contains(&FlatMeasure::SkirtLength), "{unchecked:?}");
    assert!(unchecked.contains(&FlatMeasure::StrapWidth), "{unchecked:?}");
    assert!(!unchecked.contains(&FlatMeasure::AcrossWaist), "{unchecked:?}");
    let said = copy
        .findings
        .iter()
        .filter(|f| f.code == "drawer.copy_unchecked")
        .count();
    assert_eq!(said, unchecked.len());
    // A quarter of a strap could be wrong before neckline and armhole would show it; of a skirt, anything.
    let met = |measure| copy.measures.iter().find(|m| m.measure == measure).unwrap();
    assert!(met(FlatMeasure::StrapWidth).smallest_slip.unwrap() > Mm::new(9.0));
    assert_eq!(met(FlatMeasure::SkirtLength).smallest_slip, None);
}

#[test]
fn the_new_cloth_uses_the_same_share() {
    let copy = copy(
        &exact(&design(), &all_but(&[FlatMeasure::SkirtLength])),
        &Design::default(),
        SeatOnSuit::Seen,
    )
    .unwrap();
    let hip = copy.ease.places[3];
    // 0.22 of 85 % is worn at 18.7 %; of 50 % at 11 %.
    assert!((hip.old.ratio() - 0.187).abs() < 2e-3, "{hip:?}");
    assert!((hip.new.ratio() - 0.110).abs() < 2e-3, "{hip:?}");
    let suit = draft(&body("average"), &cloth("firm"), &copy.design).unwrap();
    let widest = suit.levels.last().unwrap();
    assert!((widest.body_mm / widest.pattern_mm - 1.0 - 0.110).abs() < 3e-3);
}

#[test]
fn the_seat_is_judged_from_the_leg_opening() {
    for seat in [Seat::Full, Seat::Cheeky] {
        let worn = Design { seat, ..design() };
        let favourite = exact(&worn, &all_but(&[FlatMeasure::SkirtLength]));
        let copy = copy(&favourite, &Design::default(), SeatOnSuit::Judge).unwrap();
        assert_eq!(copy.seat.unwrap().seat, seat);
        assert_eq!(copy.design.seat, seat);
        assert!(copy.findings.iter().any(|f| f.code == "drawer.copy_seat"));
    }
}

#[test]
fn what_was_not_measured_is_held_and_said() {
    let left = [
        FlatMeasure::SkirtLength,
        FlatMeasure::StrapWidth,
        FlatMeasure::CentreBack,
        FlatMeasure::BackDepth,
        FlatMeasure::NecklineBack,
        FlatMeasure::BackSlant,
    ];
    let shapes = Design {
        strap_width: Mm::new(38.0),
        ..Design::default()
    };
    let copy = copy(&exact(&design(), &all_but(&left)), &shapes, SeatOnSuit::Seen).unwrap();
    let held: Vec<SuitParameter> = copy.held.iter().map(|h| h.parameter).collect();
    assert_eq!(held, [SuitParameter::StrapWidth, SuitParameter::BackDepth]);
    assert_eq!(copy.design.strap_width, Mm::new(38.0));
    assert!(
        copy.findings
            .iter()
            .any(|f| f.message.contains("the strap was not measured"))
    );
}

#[test]
fn a_racer_back_has_no_depth_to_find() {
    let worn = Design {
        back_shape: BackShape::Racer,
        ..design()
    };
    let favourite = exact(&worn, &all_but(&[FlatMeasure::SkirtLength]));
    let shapes = Design {
        back_shape: BackShape::Racer,
        ..Design::default()
    };
    let copy = copy(&favourite, &shapes, SeatOnSuit::Seen).unwrap();
    assert!(copy.parameter(SuitParameter::BackDepth).is_none());
    let around = copy.parameter(SuitParameter::AroundShare).unwrap();
    assert!((around.value - 0.22).abs() < 2e-3, "{around:?}");
}

#[test]
fn cloths_read_at_different_loads_are_not_compared_silently() {
    let weighed = fixtures::cloth_at(60.0, 40.0, Load::NewtonPerCm(3.0));
    let favourite = exact(&design(), &all_but(&[FlatMeasure::SkirtLength]));
    let copy = copy_favourite(&CopyRequest {
        favourite: &favourite,
        body: &body("average"),
        old: &cloth("soft"),
        new: &weighed,
        shapes: &Design::default(),
        seat: SeatOnSuit::Seen,
    })
    .unwrap();
    let found = copy
        .findings
        .iter()
        .find(|f| f.code == "drawer.copy_loads")
        .unwrap();
    assert_eq!(found.severity, Severity::Watch);
    assert!(
        found.message.contains("hand") && found.message.contains("3.0 N/cm"),
        "{}",
        found.message
    );
}

/// A favourite that has been washed no longer shrinks: the shrinkage still to come of its cloth is not taken off again.
#[test]
fn shrinkage_of_the_old_cloth_is_past() {
    let mut raw = cloth("soft");
    raw.shrinkage_factor_around = 1.04;
    raw.shrinkage_factor_lengthwise = 1.05;
    let favourite = exact(&design(), &all_but(&[FlatMeasure::SkirtLength]));
    let copy = copy_favourite(&CopyRequest {
        favourite: &favourite,
        body: &body("average"),
        old: &raw,
        new: &raw,
        shapes: &Design::default(),
        seat: SeatOnSuit::Seen,
    })
    .unwrap();
    assert!(
        (copy.ease.fit.around_share() - 0.22).abs() < 2e-3,
        "{:?}",
        copy.ease.fit
    );
}

fn said(errors: &[CopyError]) -> Vec<String> {
    errors.iter().map(ToString::to_string).collect()
}

#[test]
fn all_faults_are_said_at_once() {
    let mm = |m, mm| TakenMeasure::new(m, Mm::new(mm));
    let favourite = Favourite {
        name: String::new(),
        measures: vec![
            mm(FlatMeasure::StrapWidth, f64::NAN),
            mm(FlatMeasure::Armhole, 520.0),
            mm(FlatMeasure::Armhole, 510.0),
            TakenMeasure {
                deviation: Some(Mm::ZERO),
                ..mm(FlatMeasure::LegOpening, 560.0)
            },
            mm(FlatMeasure::SkirtLength, 300.0),
        ],
    };
    let errors = copy(&favourite, &Design::default(), SeatOnSuit::Seen).unwrap_err();
    assert_eq!(
        said(&errors),
        [
            "strap_width: length is NaN mm: give 5.0 to 3000.0 mm",
            "armhole: given twice: keep the reading you believe, or their mean",
            "leg_opening: deviation is 0.0 mm: give 0.5 to 50.0 mm",
            "nothing tells the width of the suit: measure at least one of width across the bust, width across the waist or width above the leg",
            "nothing tells the length of the suit: measure at least one of side seam, centre front or centre back",
            "skirt_length: a suit of these shapes has none: leave it out, or choose the shapes the suit really has",
        ]
    );
}

#[test]
fn too_few_measures_are_refused_with_what_to_take() {
    let favourite = exact(&design(), &[FlatMeasure::AcrossWaist, FlatMeasure::SideSeam]);
    let errors = copy(&favourite, &Design::default(), SeatOnSuit::Seen).unwrap_err();
    assert!(
        said(&errors)[0]
            .starts_with("2 measures cannot tell 3 things about a suit: measure also width across the bust"),
        "{errors:?}"
    );
}

#[test]
fn a_measure_the_shapes_do_not_have_is_refused() {
    let favourite = exact(&design(), &all_but(&[FlatMeasure::SkirtLength]));
    let shapes = Design {
        back_shape: BackShape::CrossedStraps,
        ..Design::default()
    };
    let errors = copy(&favourite, &shapes, SeatOnSuit::Seen).unwrap_err();
    assert!(matches!(errors[0], CopyError::NotOnThisSuit { .. }), "{errors:?}");
}

#[test]
fn a_body_no_suit_can_be_drafted_for_is_said_with_its_reason() {
    let no_stretch = fixtures::cloth(5.0, 5.0);
    let favourite = exact(&design(), &all_but(&[FlatMeasure::SkirtLength]));
    let request = CopyRequest {
        favourite: &favourite,
        body: &body("average"),
        old: &no_stretch,
        new: &cloth("firm"),
        shapes: &Design::default(),
        seat: SeatOnSuit::Seen,
    };
    let errors = copy_favourite(&request).unwrap_err();
    assert!(
        said(&errors)[0].starts_with(
            "no suit of these shapes can be drafted for this body in the old cloth: around is 0.05"
        ),
        "{errors:?}"
    );
    let errors = copy_favourite(&CopyRequest {
        old: &cloth("soft"),
        new: &no_stretch,
        ..request
    })
    .unwrap_err();
    assert!(
        said(&errors)[0].starts_with("the suit was found, but cannot be drafted in the new cloth"),
        "{errors:?}"
    );
}

/// Exact words of the two sentences a maker acts on.
#[test]
fn a_wrong_waist_is_named_with_what_it_would_need() {
    let mut favourite = exact(&design(), &all_but(&[FlatMeasure::SkirtLength]));
    for taken in &mut favourite.measures {
        // As a tape reads, and the waist 3 cm too much.
        let slip = if taken.measure == FlatMeasure::AcrossWaist {
            30.0
        } else {
            0.0
        };
        taken.length = Mm::new(taken.length.get().round() + slip);
    }
    let copy = copy(&favourite, &Design::default(), SeatOnSuit::Seen).unwrap();
    let first = &copy.findings[0];
    assert_eq!(first.severity, Severity::Watch);
    assert_eq!(
        first.message,
        "most likely mis-measured: 353 mm would need 30 mm less; it was left out, and the others agree"
    );
    assert_eq!(
        first.remedy,
        "measure again: width across the waist (side seam to side seam where the suit is narrowest)"
    );
}
