//! Laws that hold for any body, cloth and design: a draft is a refusal with a reason or a sound pattern, never a panic.

use body::{BodyForm, Dimension, Dimensions, Trust, Wearer, complete};
use cloth::{ClothPlan, Fit, Load};
use draft::geometry::{area_mm2, is_simple};
use draft::*;
use proptest::prelude::*;
use units::{Mm, Stretch};

/// A body near the survey's women, some lengths stretched apart from the rest.
fn wearer() -> impl Strategy<Value = Wearer> {
    let girths = (760.0..1300.0f64, 60.0..260.0f64, -0.35..0.05f64, -0.15..0.35f64);
    let lengths = (
        1450.0..1850.0f64,
        0.9..1.12f64,
        0.9..1.12f64,
        0.85..1.2f64,
        any::<bool>(),
    );
    (girths, lengths).prop_map(
        |((bust, cup, waist, hip), (stature, crotch, back, down, has_front))| {
            let mut taken = Dimensions::default();
            let mut set = |d, mm: f64| taken.set(d, Mm::new(mm));
            set(Dimension::Stature, stature);
            set(Dimension::BustGirth, bust);
            set(Dimension::UnderbustGirth, bust - cup);
            set(Dimension::WaistGirth, bust * (1.0 + waist));
            set(Dimension::HipGirth, bust * (1.0 + hip));
            set(Dimension::CrotchLength, 0.435 * stature * crotch);
            set(Dimension::BackWaistLength, 0.247 * stature * back);
            set(Dimension::WaistToHip, 0.124 * stature * down);
            if has_front {
                set(
                    Dimension::FrontWaistLength,
                    0.27 * stature * back + 0.3 * (cup - 100.0),
                );
            }
            Wearer {
                trust: Some(Trust::Trunk),
                taken,
                ..fixtures::somebody(BodyForm::Woman, &[])
            }
        },
    )
}

fn design() -> impl Strategy<Value = Design> {
    let shapes = (0..4usize, 0..4usize, 0..5usize, 0..3usize, 0..3usize, 0..4usize);
    let more = (
        0.02..0.7f64,
        10.0..95.0f64,
        0.0..1.1f64,
        0..6usize,
        0..4usize,
        0..3usize,
    );
    (shapes, more, any::<bool>()).prop_map(
        |((neck, back, leg, seat, bust, lining), (depth, strap, share, skirt, fit, cups), brief)| {
            let necks = [NeckShape::Scoop, NeckShape::Square, NeckShape::V, NeckShape::High];
            let backs = [
                BackShape::Scoop,
                BackShape::V,
                BackShape::Racer,
                BackShape::CrossedStraps,
            ];
            let legs = [
                LegHeight::Low,
                LegHeight::Mid,
                LegHeight::High,
                LegHeight::ExtraHigh,
                LegHeight::Share(share),
            ];
            let kinds = [
                SkirtKind::FullCircle,
                SkirtKind::HalfCircle,
                SkirtKind::QuarterCircle,
                SkirtKind::FlaredPanel { flare: 0.22 },
            ];
            Design {
                style: if brief { Style::BRIEF } else { Style::ONE_PIECE },
                fit: [Fit::Relaxed, Fit::Regular, Fit::Firm, Fit::Race][fit],
                neck_shape: necks[neck],
                neck_depth: (neck != 3).then_some(NeckDepth::Share(depth)),
                back_shape: backs[back],
                strap_width: Mm::new(strap),
                leg: legs[leg],
                seat: [Seat::Full, Seat::Moderate, Seat::Cheeky][seat],
                rise: [Rise::Low, Rise::Mid, Rise::High][seat],
                bust_shaping: [BustShaping::Auto, BustShaping::SideDart, BustShaping::Princess][bust],
                lining: [
                    LiningCover::None,
                    LiningCover::Full,
                    LiningCover::Front,
                    LiningCover::Crotch,
                ][lining],
                cups: [Cups::None, Cups::Marks, Cups::Pocket][cups],
                skirt: kinds.get(skirt).map(|&kind| Skirt {
                    kind,
                    join: if brief { SkirtJoin::Waist } else { SkirtJoin::Hip },
                    cover: Mm::new(40.0),
                }),
                ..Design::default()
            }
        },
    )
}

fn config(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(20),
        ..ProptestConfig::default()
    }
}

#[test]
fn any_suit_is_sound_or_refused() {
    const CASES: u32 = 1500;
    let drafted = std::cell::Cell::new(0);
    let any = (wearer(), design(), 0.05..2.0f64, 0.05..1.3f64);
    let run =
        proptest::test_runner::TestRunner::new(config(CASES)).run(&any, |(wearer, design, around, ratio)| {
            let Ok((body, _)) = complete(&wearer) else {
                return Ok(());
            };
            let lengthwise = (around * ratio).min(2.0);
            let cloth = ClothPlan::of_one_cloth(
                "any",
                Stretch::from_ratio(around),
                Stretch::from_ratio(lengthwise),
                Load::Hand,
            );
            match draft(&body, &cloth, &design) {
                Err(refusal) => prop_assert!(
                    !refusal.to_string().is_empty() && !refusal.is_invalid(),
                    "{refusal:?}\n{design:?}"
                ),
                Ok(suit) => {
                    drafted.set(drafted.get() + 1);
                    for piece in &suit.pieces {
                        for shape in [piece.as_drafted(), piece.whole()] {
                            prop_assert!(
                                is_simple(&shape.cut_line),
                                "cut line of {} (whole: {})",
                                piece.key,
                                !shape.fold_is_edge
                            );
                            prop_assert!(area_mm2(&shape.cut_line) > 0.0);
                        }
                        let net: f64 = piece.edges.iter().map(|e| e.curve.signed_area()).sum();
                        prop_assert!(
                            area_mm2(&piece.cut_line) >= net - 1.0,
                            "{}: the cut line lies inside the seam line",
                            piece.key
                        );
                        let unfolded = area_mm2(&piece.whole().cut_line);
                        let factor = if piece.on_fold { 2.0 } else { 1.0 };
                        prop_assert!((unfolded - factor * area_mm2(&piece.cut_line)).abs() < 1e-6 * unfolded);
                    }
                    for seam in &suit.seams {
                        prop_assert!(seam.error_mm().abs() <= 0.5, "{seam:?}");
                    }
                    for edge in &suit.open_edges {
                        prop_assert!(edge.arcs.iter().all(|a| a.length_mm > 0.0), "{edge:?}");
                    }
                    let again = draft(&body, &cloth, &design).unwrap();
                    prop_assert_eq!(suit, again);
                }
            }
            Ok(())
        });
    run.unwrap();
    // Many of these bodies and designs are refused, and should be; a good part must be drafted for the laws to mean anything.
    assert!(
        drafted.get() > CASES / 4,
        "only {} of {CASES} were drafted",
        drafted.get()
    );
}

proptest! {
    #![proptest_config(config(300))]

    #[test]
    fn more_stretch_makes_a_smaller_suit(wearer in wearer(), around in 0.3..0.8f64) {
        let Ok((body, _)) = complete(&wearer) else { return Ok(()) };
        let girths = |s: f64| {
            let cloth = ClothPlan::of_one_cloth("any", Stretch::from_ratio(s), Stretch::from_ratio(0.5 * s), Load::Hand);
            draft(&body, &cloth, &Design { style: Style::BRIEF, ..Design::default() })
                .map(|d| d.levels.iter().map(|l| l.pattern_mm).collect::<Vec<_>>())
        };
        if let (Ok(stiff), Ok(soft)) = (girths(around), girths(around * 1.2)) {
            prop_assert!(soft.iter().zip(&stiff).all(|(a, b)| a < b), "{soft:?} {stiff:?}");
        }
    }
}
