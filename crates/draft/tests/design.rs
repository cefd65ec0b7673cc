//! What a maker asks for is what the piece measures; what can't be had is refused by name.
#![allow(clippy::unwrap_used, reason = "a test")]

use cloth::ClothPlan;
use draft::*;
use fixtures::{body, cloth};
use units::{Level, Mm};

fn soft() -> ClothPlan {
    cloth(85.0, 60.0)
}

fn suit(name: &str, design: &Design) -> Draft {
    draft(&body(name), &soft(), design).unwrap()
}

fn refusal(name: &str, design: &Design) -> Refusal {
    draft(&body(name), &soft(), design).unwrap_err()
}

fn piece<'a>(suit: &'a Draft, key: &str) -> &'a Piece {
    suit.pieces.iter().find(|p| p.key == key).unwrap()
}

#[test]
fn a_leg_given_as_side_seam_makes_that_side_seam() {
    for (style, mm) in [
        (Style::ONE_PIECE, 330.0),
        (Style::ONE_PIECE, 260.0),
        (Style::BRIEF, 90.0),
    ] {
        for name in ["average", "plus", "petite"] {
            let design = Design {
                style,
                leg: LegHeight::SideSeam(Mm::new(mm)),
                ..Design::default()
            };
            let suit = suit(name, &design);
            let seam = suit.seams.iter().find(|s| s.name == "side").unwrap();
            // The plus body eases its front; the finished seam is the back's length.
            assert!(
                (seam.second_mm - mm).abs() < 0.01,
                "{name} {style:?}: {}",
                seam.second_mm
            );
        }
    }
}

#[test]
fn a_neck_depth_on_the_body_is_that_far_below_the_pit() {
    let at = |mm: f64| {
        let design = Design {
            neck_depth: Some(NeckDepth::BelowNeckPit(Mm::new(mm))),
            ..Design::default()
        };
        piece(&suit("average", &design), "front")
            .edge("neck")
            .unwrap()
            .curve
            .end()
            .y
    };
    // Between two depths the piece changes by the difference times the front's length factor, 1 / 1.045 here:
    // 0.10 x 0.75 x 0.60 = 0.045, and 1.00054 for the trunk loop.
    let per_mm = (at(80.0) - at(130.0)) / 50.0;
    assert!((per_mm - 1.000_54 / 1.045).abs() < 1e-4, "{per_mm}");
}

#[test]
fn shrinkage_still_to_come_is_added_once() {
    let shrinking = ClothPlan {
        shrinkage_factor_around: 1.0 / 0.97,
        shrinkage_factor_lengthwise: 1.0 / 0.95,
        ..soft()
    };
    let body = body("average");
    let washed = draft(&body, &soft(), &Design::default()).unwrap();
    let unwashed = draft(&body, &shrinking, &Design::default()).unwrap();
    let width = |d: &Draft| piece(d, "back").edge("side").unwrap().curve.start().x;
    assert!((width(&unwashed) / width(&washed) - 1.0 / 0.97).abs() < 1e-6);
    let loop_mm = |d: &Draft| d.trunk.unwrap().drafted_mm.unwrap();
    // The strap's drop at the shoulder is drawn with the shoulder, at the factor around.
    assert!((loop_mm(&unwashed) / loop_mm(&washed) - 1.0 / 0.95).abs() < 0.002);
    // Judged after the wash, both suits are alike.
    for (a, b) in washed.levels.iter().zip(&unwashed.levels) {
        assert!((a.pattern_mm - b.pattern_mm).abs() < 0.5, "{:?}", a.level);
    }
}

#[test]
fn a_first_fitting_leaves_wide_side_seams() {
    let wide = Allowances {
        side_seam: Allowances::FIRST_FITTING_SIDE,
        ..Allowances::default()
    };
    let plain = suit("average", &Design::default());
    let fitting = suit(
        "average",
        &Design {
            allowances: wide,
            ..Design::default()
        },
    );
    let reach = |d: &Draft| piece(d, "back").cut_line.iter().map(|p| p.x).fold(0.0, f64::max);
    let foot = |d: &Draft| piece(d, "back").cut_line[0].y;
    assert!((reach(&fitting) - reach(&plain) - 8.0).abs() < 1.0);
    assert_eq!(foot(&fitting), foot(&plain));
}

#[test]
fn a_strap_wider_than_the_shoulder_is_refused() {
    let design = Design {
        strap_width: Mm::new(89.0),
        ..Design::default()
    };
    let refused = refusal("child8", &design);
    assert!(
        matches!(
            refused,
            Refusal::Parameter {
                parameter: "strap_width",
                ..
            }
        ),
        "{refused:?}"
    );
    assert_eq!(
        refused.to_string(),
        "strap_width is 89 mm; for this body 12 to 86 mm is possible: a strap no wider than the shoulder, and never over 90 mm"
    );
}

#[test]
fn a_neckline_deeper_than_the_waist_is_refused() {
    let design = Design {
        neck_depth: Some(NeckDepth::BelowNeckPit(Mm::new(420.0))),
        ..Design::default()
    };
    let refused = refusal("average", &design);
    assert!(
        matches!(
            refused,
            Refusal::Parameter {
                parameter: "neck_depth_below_pit",
                ..
            }
        ),
        "{refused:?}"
    );
}

#[test]
fn a_cloth_without_stretch_is_refused() {
    let refused = draft(&body("average"), &cloth(5.0, 5.0), &Design::default()).unwrap_err();
    assert_eq!(refused.field(), Some("around"));
}

#[test]
fn trunk_and_parts_far_apart_are_refused_until_the_maker_chooses() {
    let far = {
        use body::{Dimension, complete};
        let mut wearer = fixtures::woman(fixtures::AVERAGE);
        wearer.taken.set(Dimension::FrontWaistLength, Mm::new(438.0));
        wearer.taken.set(Dimension::TrunkCircumference, Mm::new(1700.0));
        move |trust| {
            let wearer = body::Wearer {
                trust,
                ..wearer.clone()
            };
            complete(&wearer).unwrap().0
        }
    };
    let refused = draft(&far(None), &soft(), &Design::default()).unwrap_err();
    assert!(matches!(refused, Refusal::TrunkDisagrees { .. }), "{refused:?}");
    let trunk = draft(&far(Some(body::Trust::Trunk)), &soft(), &Design::default()).unwrap();
    assert!(trunk.trunk.unwrap().is_capped);
    let parts = draft(&far(Some(body::Trust::Parts)), &soft(), &Design::default()).unwrap();
    assert_eq!(parts.trunk.unwrap().q, 1.0);
}

#[test]
fn men_and_children_get_what_suits_them() {
    let brief = Design {
        style: Style::BRIEF,
        ..Design::default()
    };
    let man = suit("man", &brief);
    assert!((piece(&man, "front").edge("crotch").unwrap().curve.length() - 42.0).abs() < 1e-6);
    assert_eq!(refusal("man", &Design::default()).field(), Some("style"));

    let child = suit("child8", &Design::default());
    assert!(child.levels.iter().all(|l| l.level != Level::Underbust));
    let princess = Design {
        bust_shaping: BustShaping::Princess,
        ..Design::default()
    };
    assert_eq!(refusal("child8", &princess).field(), Some("bust_shaping"));
    let cups = Design {
        cups: Cups::Marks,
        ..Design::default()
    };
    assert_eq!(refusal("child8", &cups).field(), Some("cups"));
}

#[test]
fn linings_are_cut_two_millimetres_inside_at_open_edges() {
    let suit = suit(
        "average",
        &Design {
            lining: LiningCover::Full,
            ..Design::default()
        },
    );
    let (shell, lining) = (piece(&suit, "front"), piece(&suit, "front_lining"));
    for (a, b) in shell.edges.iter().zip(&lining.edges) {
        assert_eq!(a.curve, b.curve);
        let inside = a.allowance_mm - b.allowance_mm;
        assert_eq!(
            inside,
            if matches!(a.role, EdgeUse::Open(_)) {
                2.0
            } else {
                0.0
            },
            "{}",
            a.name
        );
    }
}

#[test]
fn notches_that_meet_have_partners() {
    for name in ["average", "plus", "large_cup"] {
        for bust_shaping in [BustShaping::Auto, BustShaping::Princess] {
            let suit = suit(
                name,
                &Design {
                    bust_shaping,
                    ..Design::default()
                },
            );
            let keys = |is_back: bool| -> std::collections::BTreeSet<&str> {
                let pieces = suit
                    .pieces
                    .iter()
                    .filter(|p| (p.key == "back") == is_back && p.key != "crotch_lining");
                let side = ["waist", "high_hip", "ease_from", "ease_to", "dart"];
                pieces
                    .flat_map(|p| &p.notches)
                    .map(|n| n.key)
                    .filter(|k| side.contains(k))
                    .collect()
            };
            assert_eq!(keys(true), keys(false), "{name} {bust_shaping:?}");
            for notch in suit.pieces.iter().flat_map(|p| &p.notches) {
                let depth = (notch.at - notch.seam_at).hypot();
                assert!(
                    notch.depth_mm <= depth / 2.0 + 1e-9,
                    "{name}: {} is cut too deep",
                    notch.key
                );
            }
        }
    }
}

#[test]
fn a_skirt_hangs_as_far_below_the_crotch_as_asked() {
    for join in [SkirtJoin::Waist, SkirtJoin::Hip] {
        let hem = |cover: f64| {
            let skirt = Some(Skirt {
                kind: SkirtKind::HalfCircle,
                join,
                cover: Mm::new(cover),
            });
            piece(
                &suit(
                    "average",
                    &Design {
                        skirt,
                        ..Design::default()
                    },
                ),
                "skirt",
            )
            .edge("side")
            .unwrap()
            .curve
            .length()
        };
        assert!((hem(70.0) - hem(40.0) - 30.0).abs() < 1e-6);
        if join == SkirtJoin::Waist {
            // rise height 256 mm and 40 mm of cover.
            assert!((hem(40.0) - 296.0).abs() < 1e-6);
        }
    }
}

#[test]
fn a_cup_pocket_stays_clear_of_the_elastic_or_is_refused() {
    let pocketed = |neck_shape, share| Design {
        lining: LiningCover::Full,
        cups: Cups::Pocket,
        neck_shape,
        neck_depth: Some(NeckDepth::Share(share)),
        ..Design::default()
    };
    let mut trimmed = 0;
    for name in ["petite", "average", "plus", "large_cup"] {
        for (shape, share) in [
            (NeckShape::Scoop, 0.30),
            (NeckShape::V, 0.40),
            (NeckShape::Scoop, 0.50),
        ] {
            let suit = match draft(&body(name), &soft(), &pocketed(shape, share)) {
                Ok(suit) => suit,
                Err(refusal) => {
                    assert_eq!(refusal.field(), Some("cups"), "{name}: {refusal}");
                    continue;
                }
            };
            let rim = piece(&suit, "cup_pocket")
                .edge("sewn")
                .unwrap()
                .curve
                .flatten(0.05);
            let front = piece(&suit, "front_lining");
            for edge in ["neck", "armhole"] {
                let line = front.edge(edge).unwrap().curve.flatten(0.01);
                let gap = rim
                    .iter()
                    .flat_map(|p| {
                        line.windows(2).map(|w| {
                            let along = w[1] - w[0];
                            let t = ((*p - w[0]).dot(along) / along.hypot2()).clamp(0.0, 1.0);
                            (*p - (w[0] + along * t)).hypot()
                        })
                    })
                    .fold(f64::INFINITY, f64::min);
                // 12 mm (common practice, no source), less the tolerance of the straight stretches it is kept from.
                assert!(gap >= 11.75, "{name} {shape:?} {share}: {gap} mm from the {edge}");
                trimmed += u32::from(gap < 12.3);
            }
        }
    }
    assert!(
        trimmed > 0,
        "no pocket here was trimmed at all: the test tests nothing"
    );

    // The upright of a deep square neckline passes beside the bust point.
    let deep = pocketed(NeckShape::Square, 0.55);
    assert_eq!(refusal("petite", &deep).field(), Some("cups"));
}
