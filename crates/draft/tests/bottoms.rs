//! Bottoms and trunks over surveyed and invented bodies: crotch lengths solved, seams equal, cords as the rules have them.
//!
//! Source of the bodies: ANSUR II (2012), data/body, public release; data/draft/check-values.json, invented.
#![allow(clippy::unwrap_used, reason = "a test may panic")]
#![allow(clippy::disallowed_methods, reason = "a test reads its data from files")]

use body::{Body, BodyForm, Dimension, Dimensions, Wearer, complete, survey};
use cloth::Layer;
use draft::{
    Design, Draft, EdgeUse, OpenKind, Refusal, Rise, SeamWalk, Setting, Skirt, SkirtJoin, SkirtKind, Style,
    draft,
};
use units::{Level, Mm, Severity};

const CLOTHS: [(f64, f64); 2] = [(85.0, 60.0), (50.0, 32.0)];

fn people(file: &str, form: BodyForm) -> Vec<(usize, Body)> {
    let text =
        std::fs::read_to_string(format!("{}/../../data/body/{file}", env!("CARGO_MANIFEST_DIR"))).unwrap();
    let rows = survey::rows(&text, form).unwrap();
    rows.iter()
        .step_by(41)
        .map(|row| (row.line, complete(&row.wearer).unwrap().0))
        .collect()
}

fn with(style: Style, settings: &[(&str, Setting)]) -> Design {
    let mut design = Design::of(style);
    for (key, value) in settings {
        design
            .own
            .set(style.own(key).unwrap_or_else(|| panic!("no {key}")), *value);
    }
    design
}

fn mm(value: f64) -> Setting {
    Setting::Length(Mm::new(value))
}

fn walk<'a>(suit: &'a Draft, name: &str) -> &'a SeamWalk {
    suit.seams
        .iter()
        .find(|s| s.name == name)
        .unwrap_or_else(|| panic!("no seam {name}"))
}

fn crotch(suit: &Draft) -> (f64, Severity) {
    let finding = suit
        .findings
        .iter()
        .find(|f| f.code == "draft.crotch_length")
        .unwrap();
    (finding.value.unwrap(), finding.severity)
}

/// Shapes and seams of a suit with legs.
fn assert_sound(suit: &Draft, who: &str) {
    for seam in &suit.seams {
        assert!(
            seam.error_mm().abs() < 0.01,
            "{who}: {} is {} off",
            seam.name,
            seam.error_mm()
        );
    }
    for piece in &suit.pieces {
        let shape = piece.whole();
        assert!(
            draft::geometry::is_simple(&shape.cut_line),
            "{who}: cut line of {}",
            piece.key
        );
        assert!(draft::geometry::area_mm2(&shape.cut_line) > 0.0);
        // A cut line lies outside its seam line, by no more than a corner of its widest allowance.
        let widest = piece.edges.iter().map(|e| e.allowance_mm).fold(0.0, f64::max);
        for edge in &shape.seam_line {
            for p in edge.curve.flatten(2.0) {
                let near = shape
                    .cut_line
                    .iter()
                    .map(|q| (*q - p).hypot())
                    .fold(f64::MAX, f64::min);
                let free = matches!(edge.role, EdgeUse::Raw | EdgeUse::Hem) && edge.allowance_mm == 0.0;
                assert!(free || near < 2.6 * widest + 200.0, "{who}: {} {near}", piece.key);
            }
        }
    }
}

#[test]
fn no_crotch_is_left_too_short() {
    for (file, form, styles) in [
        ("ansur2_female.csv", BodyForm::Woman, &[Style::SWIM_SHORTS][..]),
        (
            "ansur2_male.csv",
            BodyForm::Man,
            &[Style::TRUNKS, Style::JAMMER, Style::SQUARE_LEG][..],
        ),
    ] {
        let (mut drafted, mut eased, mut stopped) = (0, 0, 0);
        for (line, body) in people(file, form) {
            for (around, lengthwise) in CLOTHS {
                let cloth = fixtures::cloth(around, lengthwise);
                for &style in styles {
                    let who = format!("{style:?}, line {line}, {around}");
                    let suit = match draft(&body, &cloth, &Design::of(style)) {
                        Ok(suit) => suit,
                        Err(refusal) => {
                            assert!(!refusal.is_invalid(), "{who}: {refusal}");
                            continue;
                        }
                    };
                    assert_sound(&suit, &who);
                    let (worn, severity) = crotch(&suit);
                    drafted += 1;
                    let has_gusset = suit.pieces.iter().any(|p| p.key == "gusset");
                    eased += usize::from(has_gusset);
                    // Over the whole survey 1 % (firm) and 0.1 % (soft) stop: bodies taken at the navel whose crotch length
                    // no trunks reach. They are told so.
                    stopped += usize::from(severity == Severity::Stop);
                    assert!(worn < 0.25, "{who}: worn {worn}");
                }
            }
        }
        assert!(drafted > 60, "only {drafted} drafted");
        assert!(eased > 0, "no {form:?} got a gusset");
        assert!(stopped * 33 <= drafted, "{stopped} of {drafted} stop");
    }
}

#[test]
fn plus_shorts_need_more_than_letting_down() {
    let (body, cloth) = (fixtures::body("plus"), fixtures::cloth(85.0, 60.0));
    let without = draft(
        &body,
        &cloth,
        &with(Style::SWIM_SHORTS, &[("gusset", Setting::Word("none"))]),
    )
    .unwrap();
    let (worn, severity) = crotch(&without);
    assert!(worn > 0.15 && severity == Severity::Stop, "worn {worn}");
    let (worn, severity) = crotch(&draft(&body, &cloth, &Design::of(Style::SWIM_SHORTS)).unwrap());
    assert!(worn <= 0.07 && severity != Severity::Stop, "worn {worn}");
}

#[test]
fn every_choice_of_every_legged_style_draws() {
    for (style, bodies) in [
        (Style::TRUNKS, &["man"][..]),
        (Style::JAMMER, &["man"]),
        (Style::SQUARE_LEG, &["man"]),
        (Style::BOYS_TRUNKS, &["child8"]),
        (Style::CHILDS_JAMMER, &["child8"]),
        (
            Style::SWIM_SHORTS,
            &["petite", "average", "tall", "plus", "large_cup"],
        ),
    ] {
        for name in bodies {
            for (around, lengthwise) in CLOTHS {
                let cloth = fixtures::cloth(around, lengthwise);
                for parameter in style.spec().own {
                    let values: Vec<Setting> = match parameter.kind {
                        draft::ParameterKind::Length { low, high, .. } => vec![mm(low), mm(high)],
                        draft::ParameterKind::Number { low, high, .. } => {
                            vec![Setting::Number(low), Setting::Number(high)]
                        }
                        draft::ParameterKind::Choice { options } => {
                            options.iter().map(|o| Setting::Word(o.key)).collect()
                        }
                        draft::ParameterKind::Switch { .. } => vec![Setting::Yes(true), Setting::Yes(false)],
                    };
                    for value in values {
                        let design = with(style, &[(parameter.key, value)]);
                        let who = format!("{style:?} {name} {around}: {} {value:?}", parameter.key);
                        let suit = draft(&fixtures::body(name), &cloth, &design)
                            .unwrap_or_else(|e| panic!("{who}: {e}"));
                        assert_sound(&suit, &who);
                        let levels: Vec<Level> = suit.levels.iter().map(|l| l.level).collect();
                        assert!(levels.ends_with(&[Level::Hip, Level::Thigh]), "{who}: {levels:?}");
                        assert!(suit.levels.windows(2).all(|w| w[0].y_mm > w[1].y_mm), "{who}");
                    }
                }
            }
        }
    }
}

#[test]
fn a_gusset_takes_the_top_of_the_inseams() {
    let suit = draft(
        &fixtures::body("plus"),
        &fixtures::cloth(85.0, 60.0),
        &Design::of(Style::SWIM_SHORTS),
    )
    .unwrap();
    let inseam = |key: &str| {
        let piece = suit.pieces.iter().find(|p| p.key == key).unwrap();
        piece.edge("inseam").unwrap().curve.length()
    };
    let (seam, gusset) = (walk(&suit, "inseam"), walk(&suit, "gusset, front"));
    assert!((seam.first_mm + gusset.first_mm - inseam("front")).abs() < 1e-6);
    assert!((seam.second_mm + gusset.first_mm - inseam("back")).abs() < 1e-6);
    assert!(suit.pieces.iter().any(|p| p.key == "gusset" && p.on_fold));
}

#[test]
fn children_get_no_loose_cord_and_no_ties() {
    let cloth = fixtures::cloth(85.0, 60.0);
    for style in [Style::BOYS_TRUNKS, Style::CHILDS_JAMMER] {
        let cord = style.own("drawcord").unwrap();
        let mut design = Design::of(style);
        design.own.set(cord, Setting::Word("cord"));
        let refused = draft(&fixtures::body("child8"), &cloth, &design).unwrap_err();
        assert!(
            matches!(
                refused,
                Refusal::Combination {
                    parameter: "drawcord",
                    ..
                }
            ),
            "{refused}"
        );
        let fixed = draft(
            &fixtures::body("child8"),
            &cloth,
            &with(style, &[("drawcord", Setting::Word("fixed"))]),
        )
        .unwrap();
        let says = fixed
            .findings
            .iter()
            .find(|f| f.code == "draft.drawcord")
            .unwrap();
        assert!(says.message.contains("EN 14682"), "{}", says.message);
    }
    assert!(draft(&fixtures::body("child8"), &cloth, &Design::of(Style::SIDE_TIE)).is_err());
    assert!(draft(&fixtures::body("child8"), &cloth, &Design::of(Style::TRUNKS)).is_err());
}

#[test]
fn a_casing_is_the_edge_and_a_band_is_sewn_to_it() {
    let (body, cloth) = (fixtures::body("man"), fixtures::cloth(85.0, 60.0));
    let casing = draft(&body, &cloth, &Design::of(Style::TRUNKS)).unwrap();
    let top = casing.pieces[0].edge("top").unwrap();
    assert_eq!(
        (top.role, top.allowance_mm),
        (EdgeUse::Open(OpenKind::Waist), 35.0)
    );
    let band = draft(
        &body,
        &cloth,
        &with(Style::TRUNKS, &[("waistband", Setting::Word("band"))]),
    )
    .unwrap();
    assert_eq!(band.pieces[0].edge("top").unwrap().role, EdgeUse::Seam);
    let waist = band
        .open_edges
        .iter()
        .find(|e| e.kind == OpenKind::Waist)
        .unwrap();
    let piece = band.pieces.iter().find(|p| p.key == "waistband").unwrap();
    assert!((2.0 * piece.edge("lower").unwrap().curve.length() - waist.length_mm()).abs() < 1e-6);
}

#[test]
fn a_mesh_brief_is_cut_from_mesh() {
    let design = with(Style::TRUNKS, &[("liner", Setting::Word("mesh"))]);
    let suit = draft(&fixtures::body("man"), &fixtures::cloth(85.0, 60.0), &design).unwrap();
    let mesh: Vec<_> = suit
        .pieces
        .iter()
        .filter(|p| p.cuts[0].layer == Layer::Mesh)
        .collect();
    assert_eq!(mesh.len(), 2);
    assert!(walk(&suit, "mesh side").error_mm().abs() < 1e-6);
    assert!(
        suit.open_edges
            .iter()
            .any(|e| e.kind == OpenKind::Leg && e.count == 2)
    );
}

#[test]
fn skirts_on_every_rise_join_and_gather() {
    for name in ["petite", "average", "plus", "large_cup", "tall", "child8"] {
        for rise in [Rise::Low, Rise::Mid, Rise::High] {
            for join in [SkirtJoin::Waist, SkirtJoin::Hip] {
                for gather in [1.0, 1.4, 1.8] {
                    for kind in [SkirtKind::HalfCircle, SkirtKind::FlaredPanel { flare: 0.22 }] {
                        let mut design = with(Style::BRIEF, &[("gather", Setting::Number(gather))]);
                        (design.rise, design.skirt) = (
                            rise,
                            Some(Skirt {
                                kind,
                                join,
                                cover: Mm::new(40.0),
                            }),
                        );
                        let suit =
                            draft(&fixtures::body(name), &fixtures::cloth(85.0, 60.0), &design).unwrap();
                        let seam = walk(&suit, "skirt join");
                        assert!(
                            (seam.first_mm / seam.second_mm - gather).abs() < 1e-4,
                            "{name} {rise:?} {join:?}"
                        );
                        assert!(seam.error_mm().abs() < 0.05);
                        // Top and hem are arcs about one centre: radii differ by the length, arcs by length times angle.
                        let piece = suit.pieces.iter().find(|p| p.key == "skirt").unwrap();
                        let arc = |edge: &str| piece.edge(edge).unwrap().curve.length();
                        let radius = |edge: &str| piece.edge(edge).unwrap().curve.start().to_vec2().hypot();
                        let angle = arc("top") / radius("top");
                        assert!((radius("hem") - radius("top") - arc("side")).abs() < 1e-6);
                        assert!((arc("hem") - arc("top") - angle * arc("side")).abs() < 0.05);
                    }
                }
            }
        }
    }
}

#[test]
fn side_ties_keep_their_gap_and_their_cloth() {
    for name in ["petite", "average", "plus", "large_cup", "tall"] {
        for rise in [Rise::Low, Rise::Mid, Rise::High] {
            for gap in [0.0, 40.0, 120.0] {
                for height in [16.0, 28.0, 70.0] {
                    let mut design = with(
                        Style::SIDE_TIE,
                        &[("side_gap", mm(gap)), ("side_height", mm(height))],
                    );
                    design.rise = rise;
                    let who = format!("{name} {rise:?} gap {gap} height {height}");
                    let suit = match draft(&fixtures::body(name), &fixtures::cloth(85.0, 60.0), &design) {
                        Ok(suit) => suit,
                        Err(refusal) => {
                            assert!(!refusal.is_invalid(), "{who}: {refusal}");
                            continue;
                        }
                    };
                    assert_sound(&suit, &who);
                    assert!(suit.openings.is_empty(), "what ties open has no way in to judge");
                    assert!(suit.pieces.iter().any(|p| p.key == "tie" && p.cuts[0].count == 4));
                    for front in ["front", "back"] {
                        let piece = suit.pieces.iter().find(|p| p.key == front).unwrap();
                        let side = piece.edge("tie_end").unwrap().curve.length();
                        assert!((side - height).abs() < 1e-6, "{who}: {front} side is {side}");
                    }
                }
            }
        }
    }
}

#[test]
fn a_fold_over_band_passes_the_hips_and_holds() {
    for name in ["petite", "average", "plus", "large_cup", "tall", "child8"] {
        let body = fixtures::body(name);
        for (around, lengthwise) in CLOTHS {
            for rise in [Rise::Low, Rise::Mid, Rise::High] {
                let mut design = Design::of(Style::FOLD_OVER);
                design.rise = rise;
                let suit = draft(&body, &fixtures::cloth(around, lengthwise), &design).unwrap();
                let band = walk(&suit, "band");
                assert!(
                    band.sewn_ease_mm >= -1e-9,
                    "{name} {rise:?}: the band is longer than its edge"
                );
                let waist = &suit.openings[0];
                let share = (waist.passes_mm / waist.rest_mm - 1.0) / (around / 100.0);
                assert!(share <= 0.8501, "{name} {around} {rise:?}: way in {share}");
                assert_sound(&suit, name);
            }
        }
    }
}

/// The invented child, smaller and larger by all its dimensions: 4 to about 12 years.
fn children() -> Vec<Body> {
    let child = fixtures::body("child8");
    [(0.78, 4.0), (0.88, 6.0), (1.0, 8.0), (1.1, 10.0), (1.2, 12.0)]
        .into_iter()
        .map(|(scale, years)| {
            let mut taken = Dimensions::default();
            for dimension in Dimension::ALL {
                if let Some(value) = child.mm(dimension).filter(|_| child.is_taken(dimension)) {
                    taken.set(dimension, Mm::new(scale * value));
                }
            }
            fixtures::completed(&Wearer {
                age_years: Some(years),
                taken,
                ..fixtures::recorded("child8")
            })
        })
        .collect()
}

#[test]
fn children_of_four_to_twelve_have_their_bottoms_and_trunks() {
    for (i, body) in children().iter().enumerate() {
        for (around, lengthwise) in CLOTHS {
            for style in [
                Style::BRIEF,
                Style::FOLD_OVER,
                Style::BOYS_TRUNKS,
                Style::CHILDS_JAMMER,
            ] {
                let who = format!("child {i} {style:?} {around}");
                let suit = draft(body, &fixtures::cloth(around, lengthwise), &Design::of(style))
                    .unwrap_or_else(|e| panic!("{who}: {e}"));
                assert_sound(&suit, &who);
                assert!(
                    suit.findings.iter().all(|f| f.severity != Severity::Stop),
                    "{who}: {:?}",
                    suit.findings
                );
            }
        }
    }
}
