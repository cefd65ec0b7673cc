//! A whole survey of women, drafted and judged: how often each finding appears.
//!
//! Source of the bodies: ANSUR II (2012), public, the random four fifths in `data/body/ansur2_female.csv`, 1589 women.
//! Source of the counts: own notes of another implementation's run over the same women. They say that the formulas agree,
//! not that the limits are right.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use std::collections::BTreeMap;

use body::survey::rows;
use body::{BodyForm, complete};
use cloth::{ClothPlan, Law};
use draft::{Design, draft};
use fit::{ElasticAssumption, judge};
use units::Severity;

const SURVEY: &str = include_str!("../../../data/body/ansur2_female.csv");

#[derive(Debug, Default)]
struct Counts {
    drafted: usize,
    refused: usize,
    /// Findings by code and severity.
    findings: BTreeMap<(&'static str, Severity), usize>,
}

impl Counts {
    fn of(&self, code: &'static str, severity: Severity) -> usize {
        self.findings.get(&(code, severity)).copied().unwrap_or(0)
    }
}

/// Judges every `step`th woman in that cloth.
fn count(cloth: &ClothPlan, step: usize) -> Counts {
    let mut counts = Counts::default();
    for row in rows(SURVEY, BodyForm::Woman).unwrap().iter().step_by(step) {
        let (body, _) = complete(&row.wearer).unwrap();
        let Ok(suit) = draft(&body, cloth, &Design::default()) else {
            counts.refused += 1;
            continue;
        };
        counts.drafted += 1;
        let report = judge(&body, cloth, &suit, &recorded_elastic());
        for finding in &report.findings {
            *counts
                .findings
                .entry((finding.code, finding.severity))
                .or_default() += 1;
        }
    }
    counts
}

fn cloth(name: &str) -> ClothPlan {
    let file = fixtures::check_values();
    let constant = |key: &str| file["materials"][name][key].as_f64().unwrap();
    let law = Law::new(constant("k1"), constant("k2"), 0.35, constant("beta")).unwrap();
    ClothPlan {
        measured_law: Some(law),
        ..fixtures::recorded_cloth(name)
    }
}

/// Elastic of the recorded run: no ratio of its own for the short arcs over seams.
fn recorded_elastic() -> ElasticAssumption {
    let mut elastic = ElasticAssumption::default();
    elastic.arcs.retain(|a| matches!(a.arc, "front" | "back"));
    elastic
}

/// Every woman. Recorded: 1578 drafted, 11 refused; soft: waist watched 10, slack 0; firm: waist watched 448, slack 14.
///
/// DIFFERENCE: the recorded run had no elastic in its way in; with ours one leg is watched in soft cloth. Its torsos below
/// 1.00 were 9 in firm cloth; ours are 11, the torso coming out up to 0.001 shorter (see `recorded_suits.rs`). With the short
/// arcs over crotch and strap cut 1:1, as they really are, they are 36.
#[test]
fn every_woman_of_the_survey() {
    for (name, waist_watch, waist_slack, most_torso_watch) in [("soft", 10, 0, 0), ("firm", 448, 14, 12)] {
        let counts = count(&cloth(name), 1);
        println!("{name} {counts:?}");
        assert_eq!((counts.drafted, counts.refused), (1578, 11));
        assert_eq!(counts.of("way_in.waist", Severity::Watch), waist_watch, "{name}");
        assert_eq!(counts.of("way_in.waist", Severity::Stop), 0, "{name}");
        assert_eq!(counts.of("way_in.neckline", Severity::Good), 1578, "{name}");
        assert_eq!(counts.of("way_in.leg", Severity::Stop), 0, "{name}");
        assert!(counts.of("way_in.leg", Severity::Watch) <= 1, "{name}");
        assert_eq!(
            counts.of("ladder.waist_slack", Severity::Watch),
            waist_slack,
            "{name}"
        );
        assert_eq!(counts.of("loop.strap", Severity::Watch), 0, "{name}");
        assert!(
            counts.of("loop.torso", Severity::Watch) <= most_torso_watch,
            "{name}"
        );
    }
}

/// Every eighth woman in firm cloth: the recorded shares within three standard errors of so small a sample.
#[test]
fn every_eighth_woman_of_the_survey() {
    let counts = count(&cloth("firm"), 8);
    let n = counts.drafted as f64;
    assert!(n > 190.0 && counts.refused <= 6, "{counts:?}");
    let near = |code, severity, recorded: f64| {
        let expected = recorded / 1578.0;
        let found = counts.of(code, severity) as f64 / n;
        let error = 3.0 * (expected * (1.0 - expected) / n).sqrt();
        assert!(
            (found - expected).abs() <= error,
            "{code}: {found} for {expected} +- {error}"
        );
    };
    near("way_in.waist", Severity::Watch, 448.0);
    near("ladder.waist_slack", Severity::Watch, 14.0);
    near("way_in.neckline", Severity::Good, 1578.0);
    // The waist is at the navel in this survey, so the under-bust hold is not judged at all.
    assert!(
        !counts
            .findings
            .keys()
            .any(|(code, _)| *code == "ladder.underbust_hold")
    );
}
