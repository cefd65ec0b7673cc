//! Every surveyed body drafts in every style: a sample of the public ANSUR II file, and every child's size, two cloths.
//!
//! Source of the adults: ANSUR II (2012), data/body, public release. The whole file is run by `slackwater survey`. Children have no survey
//! here: girths and stature of data/sizes/sizes_children.csv (steps EN 13402-3, girths from memory, low confidence), crotch length off the
//! child form fitted to them, everything else the body crate's estimates.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "a test reads its data from files, and stops without them"
)]

use std::collections::BTreeMap;

use body::{Body, BodyForm, Dimension, FormMeasure, FormTarget, TorsoForm, complete, survey};
use draft::{BustShaping, Design, Refusal, Shared, Skirt, SkirtJoin, SkirtKind, Style, draft};
use units::Mm;

/// Every how many of the survey's people are drafted here: a prime, so that no order in the file shows.
const EVERY: usize = 37;

fn people(file: &str, form: BodyForm) -> Vec<(usize, Body)> {
    let text =
        std::fs::read_to_string(format!("{}/../../data/body/{file}", env!("CARGO_MANIFEST_DIR"))).unwrap();
    survey::rows(&text, form)
        .unwrap()
        .iter()
        .step_by(EVERY)
        .map(|row| {
            let (body, _) = complete(&row.wearer).unwrap_or_else(|e| panic!("row {}: {e:?}", row.line));
            (row.line, body)
        })
        .collect()
}

/// A child of every size that has waist and hip girths: 86 to 164 cm tall.
fn children() -> Vec<(usize, Body)> {
    let text = include_str!("../../../data/sizes/sizes_children.csv");
    let mut lines = text.lines();
    assert!(
        lines
            .next()
            .unwrap()
            .starts_with("stature_cm,chest_cm,waist_cm,hip_cm,")
    );
    let rows = lines.enumerate().filter_map(|(i, line)| {
        let cm: Vec<Option<f64>> = line.split(',').take(4).map(|t| t.parse().ok()).collect();
        Some((i + 2, [cm[0]?, cm[1]?, cm[2]?, cm[3]?].map(|cm| 10.0 * cm)))
    });
    rows.map(|(line, [stature, chest, waist, hip])| {
        let targets: Vec<FormTarget> = [
            (FormMeasure::BustGirth, chest),
            (FormMeasure::WaistGirth, waist),
            (FormMeasure::HipGirth, hip),
            (FormMeasure::BackWaistLength, 0.247 * stature),
            (FormMeasure::WaistToHip, 0.124 * stature),
        ]
        .into_iter()
        .map(|(measure, value)| FormTarget {
            measure,
            value,
            spread: measure.spread(),
        })
        .collect();
        let form = TorsoForm::of(BodyForm::Child).unwrap();
        let crotch = form.measure(&form.fit(&targets).unwrap(), FormMeasure::CrotchLengthNatural);
        let child = fixtures::somebody(
            BodyForm::Child,
            &[
                (Dimension::Stature, stature),
                (Dimension::BustGirth, chest),
                (Dimension::WaistGirth, waist),
                (Dimension::HipGirth, hip),
                (Dimension::CrotchLength, crotch),
            ],
        );
        (line, fixtures::completed(&child))
    })
    .collect()
}

/// The style as usual, and with what a maker is likely to add.
fn designs(style: Style) -> Vec<Design> {
    let usual = Design::of(style);
    let mut all = vec![usual.clone()];
    if style.has(Shared::Skirt) {
        all.push(Design {
            skirt: Some(Skirt {
                kind: SkirtKind::HalfCircle,
                join: SkirtJoin::Waist,
                cover: Mm::new(40.0),
            }),
            ..usual.clone()
        });
    }
    if style.has(Shared::BustShaping) {
        all.push(Design {
            bust_shaping: BustShaping::Princess,
            ..usual
        });
    }
    all
}

fn sweep(people: &[(usize, Body)], form: BodyForm) {
    let (mut drafted, mut refused) = (0, BTreeMap::new());
    for style in Style::all().iter().filter(|s| s.is_for(form)) {
        let (mut of_style, mut stopped) = (0, 0);
        for design in designs(*style) {
            if form != BodyForm::Woman && design.bust_shaping == BustShaping::Princess {
                continue;
            }
            for (line, body) in people {
                for (around, lengthwise) in [(50.0, 32.0), (85.0, 60.0)] {
                    let cloth = fixtures::cloth(around, lengthwise);
                    match draft(body, &cloth, &design) {
                        Ok(suit) => {
                            let worst = suit.seams.iter().map(|s| s.error_mm().abs()).fold(0.0, f64::max);
                            assert!(worst <= 0.5, "{style:?}, line {line}: a seam is {worst} mm off");
                            of_style += 1;
                        }
                        Err(refusal) => {
                            assert!(!refusal.is_invalid(), "{style:?}, line {line}: {refusal}");
                            if !matches!(refusal, Refusal::TrunkDisagrees { .. }) {
                                stopped += 1;
                            }
                            *refused
                                .entry(format!("{} {}", style.key(), refusal.reason_key()))
                                .or_insert(0) += 1;
                        }
                    }
                }
            }
        }
        // A style that most of its wearers cannot have is not a style for them.
        assert!(
            stopped * 20 <= of_style,
            "{style:?}: {stopped} refused, {of_style} drafted: {refused:?}"
        );
        drafted += of_style;
    }
    assert!(drafted > 100, "only {drafted} drafted: {refused:?}");
}

#[test]
fn sampled_women_in_every_style() {
    sweep(&people("ansur2_female.csv", BodyForm::Woman), BodyForm::Woman);
}

#[test]
fn sampled_men_in_every_style() {
    sweep(&people("ansur2_male.csv", BodyForm::Man), BodyForm::Man);
}

#[test]
fn every_childs_size_in_every_style() {
    let children = children();
    assert_eq!(children.len(), 14, "86 to 164 cm");
    sweep(&children, BodyForm::Child);
}
