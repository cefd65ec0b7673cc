//! Every surveyed body drafts: a sample of the public ANSUR II file, three styles, three cloths.
//!
//! Source of the bodies: ANSUR II (2012), data/body, public release. The whole file is run by `slackwater survey`.
#![allow(clippy::disallowed_methods, reason = "a test reads its data from files")]

use std::collections::BTreeMap;

use body::{BodyForm, complete, survey};
use cloth::{ClothPlan, Load};
use draft::{Design, Refusal, Skirt, SkirtJoin, SkirtKind, Style, draft};
use units::{Mm, Stretch};

/// Every how many of the survey's women are drafted here.
const EVERY: usize = 8;

#[test]
fn sampled_women_in_three_styles_and_three_cloths() {
    let text = std::fs::read_to_string(concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../data/body/ansur2_female.csv"
    ))
    .unwrap();
    let rows = survey::rows(&text, BodyForm::Woman).unwrap();
    let skirt = Some(Skirt {
        kind: SkirtKind::HalfCircle,
        join: SkirtJoin::Waist,
        cover: Mm::new(40.0),
    });
    let styles = [
        Design::default(),
        Design {
            skirt,
            ..Design::default()
        },
        Design {
            style: Style::Brief,
            ..Design::default()
        },
    ];
    let (mut drafted, mut refused) = (0, BTreeMap::new());
    for row in rows.iter().step_by(EVERY) {
        let (body, _) = complete(&row.wearer).unwrap_or_else(|e| panic!("row {}: {e:?}", row.line));
        for (around, lengthwise) in [(40.0, 28.0), (60.0, 42.0), (100.0, 70.0)] {
            let (around, lengthwise) = (Stretch::from_percent(around), Stretch::from_percent(lengthwise));
            let cloth = ClothPlan::of_one_cloth("survey", around, lengthwise, Load::Hand);
            for design in &styles {
                match draft(&body, &cloth, design) {
                    Ok(suit) => {
                        assert!(
                            suit.seams.iter().all(|s| s.error_mm().abs() <= 0.5),
                            "line {}",
                            row.line
                        );
                        drafted += 1;
                    }
                    Err(refusal) => {
                        assert!(!refusal.is_invalid(), "line {}: {refusal}", row.line);
                        assert!(
                            matches!(refusal, Refusal::TrunkDisagrees { .. }),
                            "line {}: {refusal}",
                            row.line
                        );
                        *refused.entry(refusal.reason_key()).or_insert(0) += 1;
                    }
                }
            }
        }
    }
    let refusals: i32 = refused.values().sum();
    assert!(drafted > 1500, "only {drafted} drafted");
    assert!(
        f64::from(refusals) < 0.01 * f64::from(drafted),
        "{refused:?} of {drafted}"
    );
}
