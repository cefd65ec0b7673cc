//! Laws every lay must keep, on random pieces and random rules: whatever is asked, the judge finds nothing, and the judge itself is held
//! against cases worked by hand.

use std::f64::consts::PI;

use cloth::Orientation;
use kurbo::Point;
use lay::{
    Direction, Effort, Flaw, Fold, Lay, LayCloth, LayError, LayFault, LayPiece, LayRequest, Placed, bounds,
    changes, changes_at_hand, check, is_simple, lay as lay_pieces, lay_around, try_changes,
};
use proptest::prelude::*;
use units::Silent;

const EFFORT: Effort = Effort {
    seed: 7,
    workers: 2,
    passes: Some(1),
};

fn ring(points: &[(f64, f64)]) -> Vec<Point> {
    points.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

fn piece(key: &str, outline: Vec<Point>) -> LayPiece {
    LayPiece {
        key: key.to_owned(),
        name: key.to_owned(),
        letter: 'A',
        garment: 0,
        outline,
        is_symmetric: false,
        orientation: Orientation::Upright,
        count: 1,
        is_pair: false,
        either_face: false,
        may_lie_crosswise: false,
        bears_grade: 0,
        match_point: None,
        label_at: Point::ZERO,
        grain: (Point::ZERO, Point::new(0.0, 50.0)),
    }
}

/// A brief front of some size: curved leg and waist, symmetric.
fn brief(width: f64, height: f64, hollow: f64) -> Vec<Point> {
    let mut right = vec![Point::new(0.0, -height)];
    right.push(Point::new(0.2 * width, -height));
    for k in 1..8 {
        let t = f64::from(k) / 8.0;
        let bulge = hollow * (PI * t).sin();
        right.push(Point::new(
            (0.2 + 0.8 * t) * width - bulge * 0.5,
            -height * (1.0 - 0.8 * t) + bulge * 0.2,
        ));
    }
    right.push(Point::new(width, 0.0));
    let left: Vec<Point> = right
        .iter()
        .rev()
        .filter(|p| p.x > 0.0)
        .map(|p| Point::new(-p.x, p.y))
        .collect();
    right.extend(left);
    right
}

/// A side panel: no symmetry, a hollow edge.
fn side(width: f64, height: f64, hollow: f64) -> Vec<Point> {
    let mut all = ring(&[(0.0, 0.0), (width, 0.1 * height), (0.8 * width, height)]);
    for k in 1..6 {
        let t = f64::from(k) / 6.0;
        all.push(Point::new(
            0.8 * width * (1.0 - t) * (1.0 - t) + 0.2 * hollow * (PI * t).sin(),
            height - hollow * (PI * t).sin() - 0.1 * height * t,
        ));
    }
    all
}

fn any_piece() -> impl Strategy<Value = LayPiece> {
    let orientation = prop_oneof![3 => Just(Orientation::Upright), 1 => Just(Orientation::Turned)];
    (
        40.0..180.0,
        60.0..300.0,
        0.0..0.3,
        any::<bool>(),
        1_u32..4,
        orientation,
        any::<[bool; 3]>(),
        0_usize..2,
    )
        .prop_map(
            |(
                width,
                height,
                hollow,
                is_symmetric,
                count,
                orientation,
                [is_pair, either_face, crosswise],
                garment,
            )| LayPiece {
                outline: if is_symmetric {
                    brief(width, height, hollow * width)
                } else {
                    side(width, height, hollow * height)
                },
                is_symmetric,
                is_pair: is_pair && !is_symmetric,
                count: if is_pair { 2 * count.div_ceil(2) } else { count },
                orientation,
                either_face,
                may_lie_crosswise: crosswise,
                garment,
                bears_grade: u32::from(either_face),
                match_point: Some(Point::ZERO),
                ..piece("part", Vec::new())
            },
        )
}

fn any_cloth() -> impl Strategy<Value = LayCloth> {
    let direction = prop_oneof![
        Just(Direction::Free),
        Just(Direction::OneWay),
        Just(Direction::PerGarment)
    ];
    let fold = prop_oneof![
        3 => Just(Fold::Single),
        1 => Just(Fold::Half),
        1 => (400.0..500.0).prop_map(|depth_mm| Fold::Partial { depth_mm })
    ];
    let repeat = prop_oneof![3 => Just((None, None)), 1 => (30.0..90.0).prop_map(|r| (Some(r), None)), 1 => (30.0..60.0)
        .prop_map(|r| (Some(r), Some(r * 0.7)))];
    (
        900.0..1600.0,
        direction,
        fold,
        repeat,
        0.0..5.0,
        any::<bool>(),
        0.0..0.03,
        any::<bool>(),
    )
        .prop_map(
            |(width_mm, direction, fold, repeat_mm, gap_mm, has_flaw, tilt, tilts)| LayCloth {
                direction,
                fold: match fold {
                    // Not past the other selvedge.
                    Fold::Partial { depth_mm } => Fold::Partial {
                        depth_mm: depth_mm.min(0.5 * width_mm),
                    },
                    other => other,
                },
                repeat_mm,
                gap_mm,
                tilt: if tilts { tilt } else { 0.0 },
                print_on_its_side: true,
                flaws: if has_flaw {
                    vec![
                        Flaw {
                            outline: ring(&[(100.0, 100.0), (180.0, 110.0), (160.0, 180.0), (90.0, 170.0)]),
                            grade: 0,
                        },
                        Flaw {
                            outline: ring(&[(300.0, 200.0), (360.0, 200.0), (360.0, 260.0)]),
                            grade: 1,
                        },
                    ]
                } else {
                    Vec::new()
                },
                ..LayCloth::of_width("cloth", width_mm)
            },
        )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, ..ProptestConfig::default() })]

    #[test]
    fn whatever_is_asked_the_judge_finds_nothing(pieces in prop::collection::vec(any_piece(), 1..6), cloth in any_cloth()) {
        let request = LayRequest { garments: vec!["one".into(), "two".into()], pieces, cloth };
        match lay_pieces(&request, &EFFORT, None, &Silent, &mut |_| {}) {
            Ok(lay) => {
                prop_assert_eq!(check(&request, &lay.placed), vec![]);
                prop_assert!(lay.usage <= 1.0 + 1e-9);
                prop_assert!(lay.length_mm >= bounds(&request).length_mm - 1e-6);
                if request.cloth.direction == Direction::OneWay && request.cloth.tilt == 0.0 {
                    for p in &lay.placed {
                        let piece = &request.pieces[p.piece];
                        let upright = if piece.orientation == Orientation::Upright { -0.5 * PI } else { 0.0 };
                        let half_round = ((p.angle - upright).rem_euclid(2.0 * PI) - PI).abs() < 1e-3;
                        prop_assert!(!half_round);
                    }
                }
                // A hand moves a piece along: the rest goes around it, or is told why it cannot stay there.
                let moved = [Placed { x: lay.placed[0].x + 250.0, ..lay.placed[0] }];
                let may_stay = check(&request, &moved).iter().all(|f| matches!(f, LayFault::Count { .. }));
                match lay_around(&request, &moved, &EFFORT, Some(&lay.placed), &Silent, &mut |_| {}) {
                    Ok(around) => {
                        prop_assert!(may_stay);
                        prop_assert_eq!(check(&request, &around.placed), vec![]);
                        prop_assert!(around.placed.contains(&moved[0]));
                        prop_assert_eq!(around.placed.len(), lay.placed.len());
                    }
                    Err(errors) => {
                        prop_assert!(!may_stay, "{errors:?}");
                        prop_assert!(matches!(errors[..], [LayError::Pinned { .. }]), "{errors:?}");
                    }
                }
                let again = lay_pieces(&request, &EFFORT, None, &Silent, &mut |_| {});
                prop_assert_eq!(again, Ok(lay));
            }
            // The only things that may stand against it here.
            Err(errors) => {
                for error in errors {
                    prop_assert!(
                        matches!(error, LayError::TooWide { .. } | LayError::RepeatTooLarge { .. }),
                        "{}", error
                    );
                }
            }
        }
    }
}

fn two_squares() -> LayRequest {
    let square = ring(&[(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]);
    LayRequest {
        garments: vec!["one".into()],
        pieces: vec![LayPiece {
            count: 2,
            ..piece("square", square)
        }],
        cloth: LayCloth::of_width("cloth", 1000.0),
    }
}

fn at(x: f64, y: f64, copy: u32) -> Placed {
    Placed {
        piece: 0,
        copy,
        is_reflected: false,
        angle: -0.5 * PI,
        is_half: false,
        layers: 1,
        x,
        y,
    }
}

/// Worked by hand: upright, the square's (x, y) lies at (y, -x) from its origin.
#[test]
fn the_judge_sees_every_fault() {
    let request = two_squares();
    let good = [at(20.0, 110.0, 0), at(123.0, 110.0, 1)];
    assert_eq!(check(&request, &good), vec![]);
    let faults = |second: Placed| check(&request, &[good[0], second]);
    assert!(matches!(
        faults(at(122.0, 110.0, 1))[..],
        [LayFault::Gap { distance_mm, .. }] if (distance_mm - 2.0).abs() < 1e-9
    ));
    assert!(matches!(
        faults(at(119.0, 110.0, 1))[..],
        [LayFault::Overlap { area_mm2, .. }] if (area_mm2 - 100.0).abs() < 1e-3
    ));
    assert!(matches!(
        faults(at(200.0, 105.0, 1))[..],
        [LayFault::Outside { by_mm, .. }] if (by_mm - 5.0).abs() < 1e-9
    ));
    let turned = Placed {
        angle: 0.5 * PI,
        ..at(400.0, 110.0, 1)
    };
    assert!(faults(turned).contains(&LayFault::Direction {
        piece: "square".into()
    }));
    assert!(matches!(
        check(&request, &good[..1])[..],
        [LayFault::Count { there: 1, .. }]
    ));
}

#[test]
fn the_judge_sees_flaws_phases_and_pairs() {
    let mut request = two_squares();
    request.cloth.flaws = vec![Flaw {
        outline: ring(&[(130.0, 50.0), (140.0, 50.0), (140.0, 60.0)]),
        grade: 1,
    }];
    let laid = [at(20.0, 110.0, 0), at(123.0, 110.0, 1)];
    assert_eq!(
        check(&request, &laid),
        vec![LayFault::Flaw {
            piece: "square".into()
        }]
    );
    request.pieces[0].bears_grade = 1;
    assert_eq!(check(&request, &laid), vec![]);
    request.pieces[0].match_point = Some(Point::ZERO);
    request.cloth.repeat_mm = (Some(50.0), None);
    assert_eq!(
        check(&request, &laid).len(),
        2,
        "20 and 123 are both out of phase with 50"
    );
    assert_eq!(
        check(&request, &[at(50.0, 110.0, 0), at(200.0, 110.0, 1)]),
        vec![]
    );
    request.pieces[0].is_pair = true;
    assert_eq!(
        check(&request, &[at(50.0, 110.0, 0), at(200.0, 110.0, 1)]),
        vec![],
        "a left square is a right one"
    );
    request.pieces[0].outline.pop();
    let unpaired = check(&request, &[at(50.0, 110.0, 0), at(200.0, 110.0, 1)]);
    assert!(matches!(unpaired[..], [LayFault::Count { .. }]));
}

/// Two squares of 100 fit side by side across: the lay is as short as one of them, which is its bound.
#[test]
fn a_lay_that_reaches_its_bound_stops() {
    let request = two_squares();
    let effort = Effort {
        passes: Some(10_000),
        ..EFFORT
    };
    let lay = lay_pieces(&request, &effort, None, &Silent, &mut |_| {}).unwrap();
    assert!(lay.length_mm < 100.2, "{}", lay.length_mm);
    assert!(lay.passes < 10_000);
}

/// Rounds in which nothing can be won because the repeat holds the pieces are over like others; each once took longer than the one before.
#[test]
fn a_repeat_that_holds_the_pieces_holds_up_no_round() {
    let mut request = two_squares();
    request.cloth.repeat_mm = (Some(64.0), None);
    request.pieces = ["front", "back"]
        .iter()
        .map(|key| LayPiece {
            match_point: Some(Point::ZERO),
            ..piece(key, brief(180.0, 260.0, 60.0))
        })
        .collect();
    let effort = Effort {
        passes: Some(60),
        ..EFFORT
    };
    let lay = lay_pieces(&request, &effort, None, &Silent, &mut |_| {}).unwrap();
    assert_eq!(lay.passes, 60, "it came to its bound, where nothing is held up");
    assert_eq!(check(&request, &lay.placed), []);
}

#[test]
fn a_lay_goes_on_from_an_earlier_one() {
    let request = two_squares();
    let warm = [at(20.0, 110.0, 0), at(500.0, 110.0, 1)];
    let mut lengths = Vec::new();
    let lay = lay_pieces(&request, &EFFORT, Some(&warm), &Silent, &mut |l: &Lay| {
        lengths.push(l.length_mm)
    })
    .unwrap();
    assert!(lay.length_mm <= lengths[0]);
    assert_eq!(check(&request, &lay.placed), vec![]);
}

/// A remnant in the shape of an L: 400 along and 240 across, but only 130 across in its second half. Two squares of 100 lie side by
/// side in the first half, or one behind the other; never in the corner that is gone.
#[test]
fn nothing_lies_where_a_remnant_has_no_cloth() {
    let mut request = two_squares();
    let corner = [
        (0.0, 0.0),
        (400.0, 0.0),
        (400.0, 130.0),
        (200.0, 130.0),
        (200.0, 240.0),
        (0.0, 240.0),
    ];
    request.cloth = LayCloth {
        length_mm: Some(400.0),
        remnant: Some(ring(&corner)),
        ..LayCloth::of_width("what is left", 240.0)
    };
    let effort = Effort {
        passes: Some(5),
        ..EFFORT
    };
    let lay = lay_pieces(&request, &effort, None, &Silent, &mut |_| {}).unwrap();
    assert_eq!(check(&request, &lay.placed), vec![]);
    assert!(lay.fits, "{} mm", lay.cloth_mm);
    for placed in &lay.placed {
        for p in placed.outline(&request.pieces[0]) {
            assert!(p.x < 200.0 + 1e-6 || p.y < 130.0 + 1e-6, "{p:?} has no cloth");
        }
    }
    // The judge sees it too: a square half over the corner that is gone.
    let astray = [at(20.0, 110.0, 0), at(150.0, 230.0, 1)];
    let faults = check(&request, &astray);
    assert!(matches!(faults[..], [LayFault::Outside { .. }]), "{faults:?}");
}

/// Two squares of 100 side by side need 100 mm; with one held 300 mm along, its end decides.
#[test]
fn what_a_hand_placed_stays() {
    let request = two_squares();
    let held = at(320.0, 110.0, 1);
    let around = |pinned: &[Placed]| lay_around(&request, pinned, &EFFORT, None, &Silent, &mut |_| {});
    let lay = around(&[held]).unwrap();
    assert_eq!(check(&request, &lay.placed), vec![]);
    assert_eq!(lay.placed[1], held);
    assert!((lay.length_mm - 400.0).abs() < 1e-9, "{}", lay.length_mm);
    // All of them: nothing is left to search for.
    let both = [at(20.0, 110.0, 0), held];
    let lay = around(&both).unwrap();
    assert_eq!((&lay.placed[..], lay.length_mm), (&both[..], 400.0));
    assert_eq!(Lay::of(&request, both.to_vec()).length_mm, 400.0);
    // Off the cloth, over each other, turned against it, or one too many.
    let skewed = Placed { angle: 0.3, ..held };
    for wrong in [
        vec![at(20.0, 50.0, 0)],
        vec![at(20.0, 110.0, 0), at(60.0, 150.0, 1)],
        vec![skewed],
        vec![held, held],
    ] {
        let refused = around(&wrong).unwrap_err();
        assert!(matches!(refused[..], [LayError::Pinned { .. }]), "{refused:?}");
    }
}

#[test]
fn a_print_against_the_stretch_is_asked_about() {
    let mut request = two_squares();
    request.pieces[0].orientation = Orientation::Turned;
    assert!(
        lay_pieces(&request, &EFFORT, None, &Silent, &mut |_| {}).is_ok(),
        "a plain knit may be turned"
    );
    request.cloth.has_one_way_print = true;
    let refused = lay_pieces(&request, &EFFORT, None, &Silent, &mut |_| {}).unwrap_err();
    assert!(matches!(refused[..], [LayError::PrintAgainstStretch { .. }]));
    request.cloth.print_on_its_side = true;
    assert!(lay_pieces(&request, &EFFORT, None, &Silent, &mut |_| {}).is_ok());
}

#[test]
fn a_piece_too_wide_is_named() {
    let mut request = two_squares();
    request.cloth.width_mm = 115.0;
    let refused = lay_pieces(&request, &EFFORT, None, &Silent, &mut |_| {}).unwrap_err();
    assert_eq!(
        refused[0].to_string(),
        "square: needs 100 mm across and the cloth has 95 mm; use a wider cloth, allow another direction or divide the piece"
    );
}

/// Two squares of 100 and a band 400 long on 200 mm of cloth: only without the band they fit, and that no lay holds the band is known
/// without a search.
#[test]
fn one_change_that_would_do_is_found() {
    let mut request = two_squares();
    let band = ring(&[(0.0, 0.0), (100.0, 0.0), (100.0, 400.0), (0.0, 400.0)]);
    request.pieces.push(piece("band", band));
    request.cloth.length_mm = Some(200.0);
    let all = changes_at_hand(&request);
    let words: Vec<&str> = all.iter().map(|c| c.words.as_str()).collect();
    assert_eq!(
        words,
        [
            "fold it lengthwise",
            "let tops point either way along the cloth",
            "cut band from a second cloth",
            "cut square from a second cloth",
        ]
    );
    let effort = Effort {
        passes: Some(3),
        ..EFFORT
    };
    let answers = try_changes(&all, &effort, &Silent);
    let fits: Vec<bool> = answers.iter().map(|a| a.fits).collect();
    assert_eq!(fits, [false, false, true, false]);
    assert!(answers.iter().all(|a| a.is_certain), "{answers:?}");
    // The band and both ends.
    assert_eq!(answers[3].cloth_mm.map(f64::round), Some(440.0));
    // Where cloth is bought it may also be wider; opened out it may lie single.
    let wider = changes(&request)
        .into_iter()
        .filter(|c| c.words.contains(" wide"))
        .count();
    assert_eq!(wider, 4);
    request.cloth.fold = Fold::Half;
    assert_eq!(changes_at_hand(&request)[0].words, "open it out, one layer");
}

#[test]
fn a_fold_past_the_other_selvedge_is_refused() {
    let mut request = two_squares();
    for (depth_mm, is_refused) in [(500.0, false), (500.1, true), (0.0, true), (f64::NAN, true)] {
        request.cloth.fold = Fold::Partial { depth_mm };
        let refused = lay_pieces(&request, &EFFORT, None, &Silent, &mut |_| {});
        let out = |e: &Vec<LayError>| {
            matches!(
                e[..],
                [LayError::OutOfRange {
                    what: "depth of the fold",
                    ..
                }]
            )
        };
        assert_eq!(
            refused.as_ref().is_err_and(out),
            is_refused,
            "{depth_mm}: {refused:?}"
        );
    }
}

#[test]
fn an_outline_is_one_that_cloth_can_have() {
    assert!(is_simple(&ring(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0)])));
    assert!(!is_simple(&ring(&[(0.0, 0.0), (10.0, 0.0)])));
    assert!(!is_simple(&ring(&[
        (0.0, 0.0),
        (10.0, 10.0),
        (10.0, 0.0),
        (0.0, 10.0)
    ])));
    assert!(!is_simple(&ring(&[(0.0, 0.0), (10.0, 0.0), (20.0, 0.0)])));
    assert!(!is_simple(&[
        Point::new(f64::NAN, 0.0),
        Point::new(10.0, 0.0),
        Point::new(10.0, 10.0)
    ]));
}
