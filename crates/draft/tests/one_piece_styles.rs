//! Seams, blocks, strap ends, bra and closures of one-piece, halter and dress: what they must keep, and on whom they fail.
//!
//! Bodies: the invented ones of data/draft, and a sample of the public ANSUR II file.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test reads its data from files"
)]

use std::collections::BTreeMap;

use body::{Body, BodyForm, complete, survey};
use cloth::{ClothPlan, Layer, LayerPlan, worn_around};
use draft::geometry::area_mm2;
use draft::*;
use fixtures::{body, cloth};
use units::{Level, Mm, Severity, Stretch};

fn soft() -> ClothPlan {
    cloth(85.0, 60.0)
}

fn with(style: Style, set: &[(&str, &'static str)]) -> Design {
    let mut design = Design::of(style);
    for (key, word) in set {
        let parameter = style.own(key).unwrap();
        let setting = match parameter.kind {
            ParameterKind::Switch { .. } => Setting::Yes(*word == "yes"),
            ParameterKind::Length { .. } => Setting::Length(Mm::new(word.parse().unwrap())),
            ParameterKind::Number { .. } => Setting::Number(word.parse().unwrap()),
            ParameterKind::Choice { .. } => Setting::Word(word),
        };
        design.own.set(parameter, setting);
    }
    design
}

fn closed(kind: ClosureKind, place: ClosurePlace, mm: f64) -> Option<Closure> {
    Some(Closure {
        kind,
        place,
        length: Mm::new(mm),
    })
}

fn suit(name: &str, design: &Design) -> Draft {
    draft(&body(name), &soft(), design).unwrap_or_else(|e| panic!("{name}: {e}"))
}

fn piece<'a>(suit: &'a Draft, key: &str) -> &'a Piece {
    let keys: Vec<_> = suit.pieces.iter().map(|p| &p.key).collect();
    suit.pieces
        .iter()
        .find(|p| p.key == key)
        .unwrap_or_else(|| panic!("no {key} in {keys:?}"))
}

fn finding<'a>(suit: &'a Draft, code: &str) -> Option<&'a units::Finding> {
    suit.findings.iter().find(|f| f.code == code)
}

/// Area within the seam line of what is cut from one layer, both halves, mm^2.
fn area(suit: &Draft, from: &[Layer]) -> f64 {
    suit.pieces
        .iter()
        .filter(|p| p.cuts.iter().any(|c| from.contains(&c.layer)))
        .map(|p| {
            let outline: Vec<_> = p.edges.iter().flat_map(|e| e.curve.flatten(0.01)).collect();
            let times = match (p.on_fold, p.cuts[0].mirrored) {
                (true, _) | (_, true) => 2.0,
                _ => 1.0,
            };
            times * area_mm2(&outline)
        })
        .sum()
}

/// Every design of these styles a maker may choose by a word.
fn variants() -> Vec<(String, Design)> {
    let one = Style::ONE_PIECE;
    let mut all = Vec::new();
    for (key, words) in [
        ("seam_at", &["underbust", "waist"][..]),
        ("block_lines", &["side-panels", "chest-band", "lower", "diagonal"]),
        ("strap_kind", &["ring", "tie"]),
        ("shelf_bra", &["yes"]),
    ] {
        for word in words {
            all.push((format!("{key}={word}"), with(one, &[(key, word)])));
        }
    }
    for (word, bust_shaping) in [
        ("underbust", BustShaping::Princess),
        ("waist", BustShaping::Princess),
    ] {
        all.push((
            format!("princess, seam_at={word}"),
            Design {
                bust_shaping,
                ..with(one, &[("seam_at", word)])
            },
        ));
    }
    all.push((
        "princess, side-panels".into(),
        Design {
            bust_shaping: BustShaping::Princess,
            ..with(one, &[("block_lines", "side-panels")])
        },
    ));
    for (kind, place) in [
        (ClosureKind::Zip, ClosurePlace::Back),
        (ClosureKind::Zip, ClosurePlace::Front),
        (ClosureKind::Clasp, ClosurePlace::Back),
    ] {
        all.push((
            format!("{kind:?} {place:?}"),
            Design {
                closure: closed(kind, place, 140.0),
                ..Design::of(one)
            },
        ));
    }
    all.push((
        "crossed".into(),
        Design {
            back_shape: BackShape::CrossedStraps,
            ..Design::of(one)
        },
    ));
    all.push(("halter".into(), Design::of(Style::HALTER_ONE_PIECE)));
    all.push((
        "halter, seam".into(),
        with(Style::HALTER_ONE_PIECE, &[("seam_at", "waist")]),
    ));
    for join in [SkirtJoin::Underbust, SkirtJoin::Waist, SkirtJoin::Hip] {
        all.push((
            format!("dress {join:?}"),
            Design {
                skirt: Some(Skirt {
                    kind: SkirtKind::HalfCircle,
                    join,
                    cover: Mm::new(60.0),
                }),
                ..Design::of(Style::SWIM_DRESS)
            },
        ));
    }
    all
}

#[test]
fn cutting_takes_nothing_away() {
    let outer = [Layer::Shell, Layer::Contrast];
    for name in ["average", "petite", "plus", "child8"] {
        let plain = area(&suit(name, &Design::default()), &outer);
        for (key, word) in [
            ("block_lines", "side-panels"),
            ("block_lines", "chest-band"),
            ("block_lines", "lower"),
            ("block_lines", "diagonal"),
            ("seam_at", "waist"),
        ] {
            let cut = area(&suit(name, &with(Style::ONE_PIECE, &[(key, word)])), &outer);
            // Flattening at 0.01 mm along some 8 m of edges.
            assert!((cut - plain).abs() < 40.0, "{name} {word}: {cut} for {plain}");
        }
    }
}

#[test]
fn notches_of_a_seam_meet_along_it() {
    for name in ["average", "plus", "large_cup", "child8"] {
        for (what, design) in variants() {
            let Ok(suit) = draft(&body(name), &soft(), &design) else {
                continue;
            };
            for walk in &suit.seams {
                let keys = |(key, edges): &(String, Vec<&'static str>)| -> Option<Vec<&str>> {
                    let piece = suit.pieces.iter().find(|p| p.key == *key)?;
                    let mut keys: Vec<&str> = piece
                        .notches
                        .iter()
                        // The bust point's notch stands at the joint of two edges, on one of them.
                        .filter(|n| edges.contains(&n.edge) && n.key != "princess_bust")
                        .map(|n| n.key)
                        .collect();
                    keys.sort_unstable();
                    keys.dedup();
                    Some(keys)
                };
                let (Some(first), Some(second)) = (keys(&walk.first), keys(&walk.second)) else {
                    continue;
                };
                // The bra is caught in with a whole side; strips and skirts have notches of their own.
                if walk.name.starts_with("shelf bra") || walk.name.contains("skirt") {
                    continue;
                }
                assert_eq!(first, second, "{name}, {what}: {}", walk.name);
                assert!(walk.first_mm > 5.0, "{name}, {what}: {} has no length", walk.name);
            }
        }
    }
}

#[test]
fn every_side_and_crotch_is_still_walked() {
    for (what, design) in variants() {
        let Ok(suit) = draft(&body("average"), &soft(), &design) else {
            continue;
        };
        let total = |suit: &Draft| -> f64 {
            suit.seams
                .iter()
                .filter(|s| s.name.starts_with("side") && !s.name.ends_with("left") && s.name != "side panel")
                .map(|s| s.second_mm)
                .sum()
        };
        let plain = draft(
            &body("average"),
            &soft(),
            &Design {
                bust_shaping: design.bust_shaping,
                ..Design::default()
            },
        )
        .unwrap();
        if what.contains("underbust") {
            // Drawn in under the bust: another side.
            continue;
        }
        assert!(
            (total(&suit) - total(&plain)).abs() < 0.01,
            "{what}: {} {}",
            total(&suit),
            total(&plain)
        );
        assert!(suit.seams.iter().any(|s| s.name == "crotch"), "{what}");
    }
}

/// With a seam there the under-bust is worn as the fit asks; without, straight lines leave it looser.
#[test]
fn an_underbust_seam_draws_in_to_the_ribs() {
    for name in ["average", "large_cup", "plus"] {
        let at = |suit: &Draft| {
            let rung = *suit.levels.iter().find(|l| l.level == Level::Underbust).unwrap();
            (rung.body_mm / rung.pattern_mm - 1.0, rung.meant)
        };
        let (plain, meant) = at(&suit(name, &Design::default()));
        let (seamed, _) = at(&suit(name, &with(Style::ONE_PIECE, &[("seam_at", "underbust")])));
        assert!(plain < seamed, "{name}: {plain} {seamed}");
        // The back's under-bust point is kept where it is narrower than the straight line only.
        assert!((seamed - meant).abs() < 0.03, "{name}: {seamed} for {meant}");
    }
}

#[test]
fn a_block_of_another_cloth_is_as_wide_on_the_body() {
    let second = |percent: f64| {
        let mut plan = soft();
        plan.contrast = Some(LayerPlan {
            layer: Layer::Contrast,
            cloth: "Firm".into(),
            around: Stretch::from_percent(percent),
            ..plan.shell.clone()
        });
        plan
    };
    let band = |plan: &ClothPlan| {
        let design = with(Style::ONE_PIECE, &[("block_lines", "chest-band")]);
        let suit = draft(&body("average"), plan, &design).unwrap();
        let band = piece(&suit, "front_upper_band").clone();
        (band.edge("side").unwrap().curve.start().x, suit)
    };
    let (plain, _) = band(&soft());
    let (alike, _) = band(&second(75.0));
    assert_eq!(plain, alike, "within 15 % the width is kept");
    let (firm, suit) = band(&second(50.0));
    let k = |percent| worn_around(Level::Bust, cloth::Fit::Regular, Stretch::from_percent(percent)).factor();
    // w' = w k' / k.
    assert!(
        (firm / plain - k(50.0) / k(85.0)).abs() < 1e-9,
        "{}",
        firm / plain
    );
    let seam = suit.seams.iter().find(|s| s.name == "lower band seam").unwrap();
    assert!(
        seam.error_mm().abs() < 1e-9 && seam.sewn_ease_mm.abs() > 3.0,
        "{seam:?}"
    );
    assert!(finding(&suit, "draft.block_width").is_some());
    // Legs and crotch cannot be re-reduced so: refused.
    let lower = with(Style::ONE_PIECE, &[("block_lines", "lower")]);
    let refused = draft(&body("average"), &second(50.0), &lower).unwrap_err();
    assert_eq!(refused.field(), Some("block_lines"));
    // Side panels keep the side seam and change towards the middle.
    let panels = with(Style::ONE_PIECE, &[("block_lines", "side-panels")]);
    let suit = draft(&body("average"), &second(50.0), &panels).unwrap();
    let leg = suit.open_edges.iter().find(|e| e.kind == OpenKind::Leg).unwrap();
    let on_pieces: f64 = suit
        .pieces
        .iter()
        .filter(|p| p.key.starts_with("front") || p.key.starts_with("back"))
        .flat_map(|p| &p.edges)
        .filter(|e| e.role == EdgeUse::Open(OpenKind::Leg))
        .map(|e| e.curve.length())
        .sum();
    assert!(
        (leg.length_mm() - on_pieces).abs() < 0.01,
        "{} {on_pieces}",
        leg.length_mm()
    );
}

#[test]
fn a_closure_opens_the_way_in() {
    let opened = |design: &Design, kind| {
        let suit = suit("average", design);
        suit.openings.iter().find(|o| o.kind == kind).unwrap().opened
    };
    let zip = |mm| Design {
        closure: closed(ClosureKind::Zip, ClosurePlace::Back, mm),
        ..Design::default()
    };
    assert_eq!(opened(&zip(100.0), OpeningKind::NecklineRing), Opened::By(200.0));
    assert_eq!(opened(&zip(100.0), OpeningKind::Waist), Opened::Not);
    assert_eq!(opened(&zip(300.0), OpeningKind::Waist), Opened::Fully);
    assert_eq!(opened(&Design::default(), OpeningKind::NecklineRing), Opened::Not);
    assert_eq!(
        opened(&Design::of(Style::HALTER_ONE_PIECE), OpeningKind::NecklineRing),
        Opened::Fully
    );
    let tied = with(Style::ONE_PIECE, &[("strap_kind", "tie")]);
    assert_eq!(opened(&tied, OpeningKind::NecklineRing), Opened::Fully);

    // A zip takes the fold for a seam; a clasp's slit lies on it.
    let back = |design: &Design| piece(&suit("average", design), "back").clone();
    let zipped = back(&zip(150.0));
    assert!(!zipped.on_fold && zipped.cuts[0].count == 2 && zipped.cuts[0].mirrored);
    let centre = zipped.edge("centre").unwrap();
    assert_eq!(centre.role, EdgeUse::Seam);
    let end = zipped.notches.iter().find(|n| n.key == "zip_end").unwrap();
    assert!((centre.curve.start().y - end.seam_at.y - 150.0).abs() < 1e-6);
    let clasped = back(&Design {
        closure: closed(ClosureKind::Clasp, ClosurePlace::Back, 80.0),
        ..Design::default()
    });
    assert!(clasped.on_fold);
    assert!(
        clasped
            .marks
            .iter()
            .any(|m| matches!(m, Mark::Placement { text, .. } if text.contains("clasp")))
    );

    // A waist that opens need not be cut wide for the hips: firm cloth.
    let firm = cloth(50.0, 32.0);
    let waist = |design: &Design| {
        let suit = draft(&body("petite"), &firm, design).unwrap();
        suit.levels
            .iter()
            .find(|l| l.level == Level::Waist)
            .unwrap()
            .pattern_mm
    };
    assert!(waist(&zip(320.0)) < waist(&Design::default()) - 5.0);
}

#[test]
fn a_cloth_nobody_steps_into_needs_a_closure() {
    let stiff = cloth(30.0, 5.0);
    let plain = draft(&body("average"), &stiff, &Design::default()).unwrap();
    let stop = finding(&plain, "draft.no_way_in").unwrap();
    assert_eq!(stop.severity, Severity::Stop);
    assert!(stop.remedy.contains("zip"), "{}", stop.remedy);
    let zipped = Design {
        closure: closed(ClosureKind::Zip, ClosurePlace::Back, 300.0),
        ..Design::default()
    };
    assert!(
        finding(
            &draft(&body("average"), &stiff, &zipped).unwrap(),
            "draft.no_way_in"
        )
        .is_none()
    );
    assert!(finding(&suit("average", &Design::default()), "draft.no_way_in").is_none());
}

/// Source: data/trade/cautions.csv, kids_cord, kids_cord_back, kids_parts.
#[test]
fn a_childs_suit_has_no_ties_and_few_small_parts() {
    let tied = with(Style::ONE_PIECE, &[("strap_kind", "tie")]);
    let refused = draft(&body("child8"), &soft(), &tied).unwrap_err();
    assert_eq!(refused.field(), Some("strap_kind"));
    let halter = draft(&body("child8"), &soft(), &Design::of(Style::HALTER_ONE_PIECE)).unwrap_err();
    assert_eq!(halter.field(), Some("style"));

    let zip = Design {
        closure: closed(ClosureKind::Zip, ClosurePlace::Back, 100.0),
        ..Design::default()
    };
    let at = |age: Option<f64>, design: &Design| {
        let mut young = body("child8");
        young.age_years = age;
        let suit = draft(&young, &soft(), design).unwrap();
        finding(&suit, "draft.small_parts").map(|f| f.severity)
    };
    assert_eq!(at(Some(2.5), &zip), Some(Severity::Stop));
    assert_eq!(at(Some(8.0), &zip), Some(Severity::Watch));
    assert_eq!(at(None, &zip), Some(Severity::Watch));
    assert_eq!(at(Some(2.5), &Design::default()), None);
    let ring = with(Style::ONE_PIECE, &[("strap_kind", "ring")]);
    assert_eq!(at(Some(2.0), &ring), Some(Severity::Stop));
    assert!(finding(&suit("average", &zip), "draft.small_parts").is_none());
}

#[test]
fn what_does_not_go_together_is_refused_by_name() {
    let field = |design: Design| {
        draft(&body("average"), &soft(), &design)
            .unwrap_err()
            .field()
            .unwrap()
            .to_owned()
    };
    let one = |closure| Design {
        closure,
        ..Design::default()
    };
    assert_eq!(
        field(one(closed(ClosureKind::Hook, ClosurePlace::Neck, 1.0))),
        "closure"
    );
    assert_eq!(
        field(one(closed(ClosureKind::Clasp, ClosurePlace::Front, 80.0))),
        "closure"
    );
    assert_eq!(
        field(one(closed(ClosureKind::Zip, ClosurePlace::Back, 690.0))),
        "closure_length"
    );
    assert_eq!(
        field(Design {
            closure: closed(ClosureKind::Zip, ClosurePlace::Back, 150.0),
            ..Design::of(Style::BRIEF)
        }),
        "closure"
    );
    assert_eq!(
        field(Design {
            closure: closed(ClosureKind::Zip, ClosurePlace::Back, 150.0),
            ..Design::of(Style::HALTER_ONE_PIECE)
        }),
        "closure"
    );
    assert_eq!(
        field(with(
            Style::ONE_PIECE,
            &[("seam_at", "waist"), ("block_lines", "diagonal")]
        )),
        "seam_at"
    );
    assert_eq!(
        field(Design {
            back_shape: BackShape::CrossedStraps,
            ..with(Style::ONE_PIECE, &[("strap_kind", "ring")])
        }),
        "strap_kind"
    );
    assert_eq!(
        field(with(
            Style::ONE_PIECE,
            &[("strap_kind", "ring"), ("ring_size", "20")]
        )),
        "ring_size"
    );
    assert_eq!(
        field(Design {
            lining: LiningCover::Front,
            ..with(Style::ONE_PIECE, &[("shelf_bra", "yes")])
        }),
        "shelf_bra"
    );
}

#[test]
fn a_ring_takes_its_width_out_of_the_straps() {
    let plain = suit("average", &Design::default());
    let ringed = suit(
        "average",
        &with(Style::ONE_PIECE, &[("strap_kind", "ring"), ("ring_size", "50")]),
    );
    for key in ["front", "back"] {
        for edge in ["neck", "armhole"] {
            let length = |s: &Draft| piece(s, key).edge(edge).unwrap().curve.length();
            assert!(
                (length(&plain) - length(&ringed) - 25.0).abs() < 1e-6,
                "{key} {edge}"
            );
        }
        assert_eq!(piece(&ringed, key).edge("shoulder").unwrap().role, EdgeUse::Hem);
    }
    assert!(ringed.seams.iter().all(|s| s.name != "shoulder"));
}

/// draft.md's crossed straps, never run before: the strap lies on the back from shoulder to the other side's edge.
#[test]
fn crossed_straps_meet_the_other_side() {
    for name in ["petite", "average", "tall", "plus", "large_cup", "child8"] {
        let suit = suit(
            name,
            &Design {
                back_shape: BackShape::CrossedStraps,
                ..Design::default()
            },
        );
        let strap = piece(&suit, "strap").edge("long_right").unwrap().curve.length() - 40.0;
        let back = piece(&suit, "back");
        let top = &back.edge("top").unwrap().curve;
        let place = back
            .marks
            .iter()
            .find_map(|m| match m {
                Mark::Cross { at, text } if text.contains("strap") => Some(*at),
                _ => None,
            })
            .unwrap();
        assert!((place.x / top.start().x - 0.45).abs() < 1e-6, "{name}");
        // From the shoulder over the middle to the other half: longer than straight down to its own.
        let shoulder = suit.strap_mid.unwrap();
        assert!(strap > shoulder.y * 0.3 && strap < 600.0, "{name}: {strap}");
    }
}

fn people(every: usize) -> Vec<(usize, Body)> {
    let path = format!("{}/../../data/body/ansur2_female.csv", env!("CARGO_MANIFEST_DIR"));
    survey::rows(&std::fs::read_to_string(path).unwrap(), BodyForm::Woman)
        .unwrap()
        .iter()
        .step_by(every)
        .map(|row| (row.line, complete(&row.wearer).unwrap().0))
        .collect()
}

/// Source of the bodies: ANSUR II (2012), public release. Every 41st here; all of them with `EVERY_WOMAN=1`.
#[test]
fn every_variant_on_surveyed_women() {
    let every = if std::env::var_os("EVERY_WOMAN").is_some() {
        1
    } else {
        41
    };
    let people = people(every);
    let mut refused: BTreeMap<String, usize> = BTreeMap::new();
    for (what, design) in variants() {
        let mut drafted = 0;
        for (line, woman) in &people {
            for (around, lengthwise) in [(50.0, 32.0), (85.0, 60.0)] {
                match draft(woman, &cloth(around, lengthwise), &design) {
                    Ok(_) => drafted += 1,
                    Err(Refusal::TrunkDisagrees { .. }) => {}
                    Err(refusal) => {
                        assert!(!refusal.is_invalid(), "{what}, line {line}: {refusal}");
                        *refused.entry(format!("{what}: {refusal}")).or_default() += 1;
                    }
                }
            }
        }
        let stopped: usize = refused
            .iter()
            .filter(|(k, _)| k.starts_with(&format!("{what}: ")))
            .map(|(_, n)| n)
            .sum();
        assert!(stopped * 4 <= drafted, "{what}: {drafted} drafted, {refused:#?}");
        if every == 1 {
            eprintln!("{what}: {drafted} drafted, {stopped} refused");
        }
    }
}
