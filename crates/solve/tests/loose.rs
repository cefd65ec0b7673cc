//! Loose suits stand off where a maker expects: at waist and leg edges, deeper than snug ones.
//!
//! Cut 12 % wider than the body and without elastic: nothing but friction from where it was put holds it. Without any stiffness slack cloth
//! may lie on the skin or off it; what is read is the slack of the edge's ring. That is geometry: the flat ring less the body's, over 2 pi.
//! The body is invented.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod people;

use draft::{Design, OpenKind, Style};
use people::{Dressed, drafted, dress_with, man};
use solve::{Friction, Settings};
use units::Level;

/// How much wider than the body it is cut.
const WIDER: f64 = 1.12;

fn off(dressed: &Dressed, kind: OpenKind) -> f64 {
    let edges = dressed.worn.edges.iter().filter(|e| e.kind == kind);
    edges.map(|e| e.gape_mm.max(e.slack_mm)).fold(0.0, f64::max)
}

#[test]
fn a_loose_suit_stands_off_at_its_edges() {
    let body = man();
    let draft = drafted(&body, &Design::of(Style::TRUNKS));
    let settings = Settings {
        friction: Some(Friction::new(0.3)),
        ..Settings::default()
    };
    let hip = draft.levels.iter().find(|l| l.level == Level::Hip).unwrap();
    let wider = WIDER * hip.body_mm / hip.pattern_mm - 1.0;
    let worn = |by: f64| {
        dress_with(&body, &draft, &settings, &|_| None, &|mesh| {
            mesh.mesh.grow(0, [0.0, by]);
        })
    };
    let (snug, loose) = (worn(0.0), worn(wider));
    for kind in [OpenKind::Waist, OpenKind::Leg] {
        let (a, b) = (off(&snug, kind), off(&loose, kind));
        assert!(b > a + 1.5, "{kind:?}: {a} snug, {b} loose");
    }
    let slack = |d: &Dressed| d.worn.edges.iter().map(|e| e.slack_mm).fold(0.0, f64::max);
    assert!(slack(&snug) < 0.1, "{}", slack(&snug));
    // It hardly presses, holds nowhere, and is told as what it is.
    let force = |d: &Dressed| d.worn.solved.contact_n.iter().sum::<f64>();
    assert!(
        force(&loose) < 0.1 * force(&snug),
        "{} {}",
        force(&snug),
        force(&loose)
    );
    let around = |d: &Dressed| {
        d.worn
            .levels
            .iter()
            .find(|l| l.level == Level::Hip)
            .unwrap()
            .around
    };
    assert!(around(&snug) > 1.05 && around(&loose) < 1.0);
    assert!(snug.mesh.left_out.iter().all(|l| !l.contains("loose")));
    assert!(loose.mesh.left_out.iter().any(|l| l.contains("loose")));
}
