//! Adapting a paper pattern: the worked example, the rules of verdict and change, the drawing.

#[path = "../examples/recovery/suits.rs"]
#[expect(dead_code, reason = "shared with the recovery table, which uses all of it")]
mod suits;

use body::Dimension;
use cloth::{ClothPlan, Fit, Load};
use drawer::*;
use kurbo::{CubicBez, ParamCurve};
use suits::{body, cloth};
use units::{Mm, Severity, Stretch};

fn widths(list: &[(PaperLevel, f64)]) -> Vec<PaperWidth> {
    list.iter()
        .map(|&(level, mm)| PaperWidth {
            level,
            width: Mm::new(mm),
            of: WidthOf::Whole,
        })
        .collect()
}

fn pattern(bust: f64, waist: f64, hip: f64) -> PaperPattern {
    PaperPattern {
        name: "from the market".into(),
        size: Some("12".into()),
        widths: widths(&[
            (PaperLevel::Bust, bust),
            (PaperLevel::Waist, waist),
            (PaperLevel::Hip, hip),
        ]),
        trunk_loop: Some(Mm::new(1440.0)),
        asked_stretch: Some(Stretch::from_percent(75.0)),
        ..PaperPattern::default()
    }
}

fn adapt(pattern: &PaperPattern, cloth: &ClothPlan) -> Result<ChangeSheet, Vec<PaperError>> {
    adapt_pattern(&AdaptRequest {
        pattern,
        body: &body("average"),
        cloth,
        fit: Fit::Regular,
    })
}

/// Source: own worked example, to the hundredth of a millimetre: soft cloth, regular fit, widths 780/640/850, loop 1440,
/// average body.
#[test]
fn the_worked_example() {
    let sheet = adapt(&pattern(780.0, 640.0, 850.0), &cloth("soft")).unwrap();
    let quarters: Vec<f64> = sheet.widths.iter().map(|w| w.quarter.get()).collect();
    for (got, want) in quarters.iter().zip([8.53, 5.89, 4.33]) {
        assert!((got - want).abs() < 0.005, "{quarters:?}");
    }
    let change = sheet.lengths.trunk_loop.unwrap().change();
    assert!((change.get() - 17.55).abs() < 0.005, "{change}");
    // A quarter of it on each line, half of that on each piece.
    for line in &sheet.lengths.lines {
        assert!((line.in_loop().get() - 17.55 / 4.0).abs() < 0.005);
        assert_eq!(line.front, line.back);
    }
    // Over 6 mm the rest goes in at the slash.
    assert_eq!(sheet.widths[0].at_side, Mm::new(6.0));
    assert!((sheet.widths[0].at_slash.get() - 2.53).abs() < 0.005);
    assert_eq!(sheet.widths[1].at_slash, Mm::ZERO);
    assert_eq!(sheet.verdict, Verdict::Adapt);
}

#[test]
fn single_lengths_move_the_change_to_where_they_disagree() {
    let mut paper = pattern(780.0, 640.0, 850.0);
    // The body's crotch length, reduced as drafted: nothing is wanted below the waist.
    paper.crotch_length = Some(Mm::new(720.0 / 1.06));
    let sheet = adapt(&paper, &cloth("soft")).unwrap();
    let lines = &sheet.lengths.lines;
    assert!(lines[2].in_loop().abs().get() < 1e-9 && lines[3].in_loop().abs().get() < 1e-9);
    assert!((lines[0].in_loop().get() + lines[1].in_loop().get() - 17.55).abs() < 0.005);
}

#[test]
fn too_large_a_change_asks_for_another_size() {
    // Bust 13.5 a quarter: over 12, though under 15.
    let sheet = adapt(&pattern(760.0, 640.0, 830.0), &cloth("soft")).unwrap();
    assert_eq!(
        sheet.verdict,
        Verdict::ChooseSize {
            name: None,
            is_larger: true
        }
    );
    assert_eq!(
        (sheet.findings[0].severity, sheet.findings[0].message.as_str()),
        (
            Severity::Stop,
            "this size is too far off: a larger one comes first"
        )
    );
    let mut paper = pattern(760.0, 640.0, 830.0);
    let size = |name: &str, widths| PaperSize {
        name: name.into(),
        widths,
    };
    let three = |bust, waist, hip| {
        widths(&[
            (PaperLevel::Bust, bust),
            (PaperLevel::Waist, waist),
            (PaperLevel::Hip, hip),
        ])
    };
    paper.sizes = vec![
        size("10", three(720.0, 600.0, 790.0)),
        size("14", three(805.0, 680.0, 870.0)),
        size("16", three(850.0, 720.0, 910.0)),
    ];
    let sheet = adapt(&paper, &cloth("soft")).unwrap();
    assert_eq!(
        sheet.verdict,
        Verdict::ChooseSize {
            name: Some("14".into()),
            is_larger: true
        }
    );
    paper.sizes.truncate(1);
    assert!(matches!(
        adapt(&paper, &cloth("soft")).unwrap().verdict,
        Verdict::Redraft { .. }
    ));
}

#[test]
fn levels_that_pull_apart_ask_for_a_draft() {
    // Bust +8.5, hip -8.2 a quarter: each within its limit.
    let sheet = adapt(&pattern(780.0, 660.0, 900.0), &cloth("soft")).unwrap();
    assert!(sheet.widths.iter().all(|w| !w.is_over()));
    assert!(
        matches!(sheet.verdict, Verdict::Redraft { .. }),
        "{:?}",
        sheet.verdict
    );
}

#[test]
fn a_loop_far_too_short_asks_for_a_draft() {
    let mut paper = pattern(780.0, 640.0, 850.0);
    paper.trunk_loop = Some(Mm::new(1340.0));
    assert!(matches!(
        adapt(&paper, &cloth("soft")).unwrap().verdict,
        Verdict::Redraft { .. }
    ));
}

/// Worn unchanged: 1000 / 850 - 1 = 17.6 % at the hip and 18.75 % at the waist, in a cloth of 50 % where 75 % was asked.
#[test]
fn a_cloth_that_stretches_less_than_asked_is_said_in_numbers() {
    let sheet = adapt(&pattern(780.0, 640.0, 850.0), &cloth("firm")).unwrap();
    let stretch = sheet.stretch.unwrap();
    assert_eq!(stretch.against, ClothAgainstEnvelope::Less);
    let hip = stretch.levels[2];
    assert!((hip.worn.ratio() - (1000.0 / 850.0 - 1.0)).abs() < 1e-12);
    assert!((hip.share - 0.17647 / 0.5).abs() < 1e-4 && (hip.share_asked - 0.17647 / 0.75).abs() < 1e-4);
    // The same share in the firm cloth: worn at 17.6 % * 50 / 75.
    assert!(
        (hip.quarter_for_same_share.get() - (1000.0 / (1.0 + 0.176_470_6 * 2.0 / 3.0) - 850.0) / 4.0).abs()
            < 1e-3
    );
    let finding = sheet
        .findings
        .iter()
        .find(|f| f.code == "drawer.paper_stretch")
        .unwrap();
    assert_eq!(
        finding.message,
        "the pattern asks 75 % and the cloth has 50 %: unchanged it would be tight, 38 % of the stretch used at the waist instead of 25 %"
    );
}

#[test]
fn a_paper_that_would_not_go_on_is_a_stop() {
    let stiff = fixtures::cloth(15.0, 12.0);
    let sheet = adapt(&pattern(780.0, 640.0, 850.0), &stiff).unwrap();
    let finding = sheet
        .findings
        .iter()
        .find(|f| f.code == "drawer.paper_stretch")
        .unwrap();
    assert_eq!(finding.severity, Severity::Stop);
    assert!(
        finding.message.contains("it will not go on"),
        "{}",
        finding.message
    );
    // In such a cloth the waist is kept wide enough for the hips.
    let waist = sheet.widths[1];
    assert!(waist.is_widened_for_way_in);
    assert!((waist.wanted.get() - 1000.0 / (1.0 + 0.85 * 0.15)).abs() < 1e-9);
}

#[test]
fn a_weighed_cloth_is_not_compared_with_an_envelope_silently() {
    let weighed = fixtures::cloth_at(70.0, 40.0, Load::NewtonPerCm(3.0));
    let sheet = adapt(&pattern(780.0, 640.0, 850.0), &weighed).unwrap();
    assert!(sheet.findings.iter().any(|f| f.code == "drawer.paper_load"));
}

#[test]
fn faults_of_the_paper_are_said_at_once() {
    let mut paper = pattern(780.0, 640.0, 850.0);
    paper.widths.push(paper.widths[0]);
    paper.crotch_width = Some(Mm::new(6.0));
    paper.asked_stretch = Some(Stretch::from_percent(f64::NAN));
    let said: Vec<String> = adapt(&paper, &cloth("soft"))
        .unwrap_err()
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(
        said,
        [
            "crotch width: 6.0 mm: give 30 to 150 mm",
            "stretch the envelope asks: NaN %: give 5 to 300 %",
            "width at the bust: given twice: keep one",
        ]
    );
    let half = pattern(390.0, 320.0, 425.0);
    let said = adapt(&half, &cloth("soft")).unwrap_err()[0].to_string();
    assert_eq!(
        said,
        "width at the bust: the pattern is 390 mm and the body 920 mm: a quarter or a half taken for the whole, or inches for centimetres?"
    );
    assert_eq!(
        adapt(&PaperPattern::default(), &cloth("soft")).unwrap_err(),
        [PaperError::NoWidths]
    );
}

#[test]
fn a_loop_without_a_trunk_circumference_is_refused() {
    let mut wearer = fixtures::woman(fixtures::AVERAGE);
    wearer.taken.remove(Dimension::TrunkCircumference);
    let errors = adapt_pattern(&AdaptRequest {
        pattern: &pattern(780.0, 640.0, 850.0),
        body: &fixtures::completed(&wearer),
        cloth: &cloth("soft"),
        fit: Fit::Regular,
    })
    .unwrap_err();
    assert_eq!(
        errors[0].to_string(),
        "trunk_circumference is missing and the pattern cannot be compared without it; take it"
    );
}

fn assert_closed_and_simple(outline: &[CubicBez], name: &str) {
    for (a, b) in outline.iter().zip(outline.iter().cycle().skip(1)) {
        assert!((a.p3 - b.p0).hypot() < 1e-9, "{name}: {a:?} then {b:?}");
    }
    let flat: Vec<kurbo::Point> = outline
        .iter()
        .flat_map(|c| (0..16).map(|i| c.eval(f64::from(i) / 16.0)))
        .collect();
    assert!(draft::geometry::is_simple(&flat), "{name}");
    assert!(
        draft::geometry::area_mm2(&flat) > 0.0,
        "{name} is not counter-clockwise"
    );
}

/// Every body has a drawing: closed, simple, counter-clockwise, its widths those of the paper, its lines inside it.
#[test]
fn the_drawing_has_the_papers_widths_and_every_line() {
    for name in ["petite", "average", "tall", "plus", "large_cup", "child8"] {
        let body = body(name);
        let girth = |d| body.mm(d).unwrap();
        let paper = PaperPattern {
            widths: widths(&[
                (PaperLevel::Bust, 0.86 * girth(Dimension::BustGirth)),
                (PaperLevel::Waist, 0.84 * girth(Dimension::WaistGirth)),
                (PaperLevel::Hip, 0.85 * girth(Dimension::HipGirth)),
            ]),
            trunk_loop: Some(Mm::new(0.93 * girth(Dimension::TrunkCircumference))),
            ..PaperPattern::default()
        };
        let sheet = adapt_pattern(&AdaptRequest {
            pattern: &paper,
            body: &body,
            cloth: &cloth("soft"),
            fit: Fit::Regular,
        })
        .unwrap();
        for piece in [&sheet.schematic.front, &sheet.schematic.back] {
            assert_closed_and_simple(&piece.outline, &format!("{name} {}", piece.name));
            let keys: Vec<&str> = piece.lengths.iter().map(|l| l.key.as_str()).collect();
            assert_eq!(keys, ["L1", "L2", "L3", "L4"], "{name} {}", piece.name);
            for pair in piece.lengths.windows(2) {
                assert!(pair[0].from.y > pair[1].from.y, "{name}: top to bottom");
            }
            assert_eq!(piece.sides.len(), 3);
            let waist = &piece.sides[1];
            assert_eq!(waist.from.y, 0.0);
            assert!((waist.from.x - 0.21 * girth(Dimension::WaistGirth)).abs() < 1e-9);
            let moved = waist.to.x - waist.from.x;
            assert!((moved - sheet.widths[1].quarter.get()).abs() < 1e-9);
            // The side seam runs through the paper's width at the waist.
            let on_side = piece.outline.iter().any(|c| (c.p0 - waist.from).hypot() < 1e-9);
            assert!(on_side, "{name}");
        }
    }
}

#[test]
fn nothing_to_change_needs_no_truing() {
    let first = adapt(&pattern(780.0, 640.0, 850.0), &cloth("soft")).unwrap();
    let places: Vec<&str> = first.truing.iter().map(|s| s.place).collect();
    assert_eq!(
        places,
        [
            "fold",
            "slash",
            "side seam",
            "leg",
            "crotch",
            "armhole",
            "neckline",
            "lining",
            "edges"
        ]
    );
    let wanted: Vec<f64> = first.widths.iter().map(|w| w.wanted.get()).collect();
    let mut fits = pattern(wanted[0], wanted[1], wanted[2]);
    fits.trunk_loop = Some(first.lengths.trunk_loop.unwrap().wanted);
    let sheet = adapt(&fits, &cloth("soft")).unwrap();
    assert!(sheet.truing.is_empty(), "{:?}", sheet.truing);
    assert_eq!(sheet.verdict, Verdict::Adapt);
}
