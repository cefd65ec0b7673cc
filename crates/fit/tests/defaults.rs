//! A beginner's suit of every style, on average bodies, in a soft and in a firm cloth: nothing in it must stop her.
//!
//! Source of the bodies: `data/draft/check-values.json`, invented; elastic as the trade cuts it ([`fit::ElasticAssumption`]).
#![allow(clippy::unwrap_used, reason = "a test may panic")]

use draft::{Design, Style, draft};
use units::Severity;

/// Styles that stop on an average body in a cloth, with the reason.
const STOPPED: [(&str, &str, &str, &str); 0] = [];

#[test]
fn nothing_stops_a_beginner() {
    let (mut judged, mut stops) = (0, Vec::new());
    for style in Style::all() {
        for name in ["average", "man", "child8"] {
            let body = fixtures::body_with_arms(name);
            if !style.is_for(body.form) {
                continue;
            }
            // 85/60 and 50/32 %.
            for word in ["soft", "firm"] {
                let cloth = fixtures::recorded_cloth(word);
                let suit = draft(&body, &cloth, &Design::of(*style)).unwrap();
                let report = fit::judge(&body, &cloth, &suit, &fit::ElasticAssumption::default());
                judged += 1;
                for finding in suit.findings.iter().chain(&report.findings) {
                    let known = STOPPED.iter().any(|(key, at, code, _)| {
                        *key == style.key() && *at == word && *code == finding.code
                    });
                    if finding.severity == Severity::Stop && !known {
                        stops.push(format!(
                            "{} {name} {word}: {} {}",
                            style.key(),
                            finding.code,
                            finding.message
                        ));
                    }
                }
            }
        }
    }
    assert!(judged > 40, "{judged}");
    assert!(stops.is_empty(), "{}", stops.join("\n"));
}
