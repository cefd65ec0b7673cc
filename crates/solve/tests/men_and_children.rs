//! Men and children in briefs and one-pieces: their forms, the same laws.
//!
//! No published worn suit is at hand: balance, what the draft meant, and the direction of changes are checked. Bodies are invented.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod people;

use draft::{Design, OpenKind, Style};
use people::{Dressed, child, drafted, dress, is_closed, man};
use solve::{Friction, Settings};
use units::Level;

fn at(dressed: &Dressed, level: Level) -> solve::WornLevel {
    *dressed.worn.levels.iter().find(|l| l.level == level).unwrap()
}

/// With friction a level that closes is stretched as the draft meant it, within 3 % of the girth: the form's hollows and the ease of an edge
/// are in it.
#[test]
fn a_child_s_one_piece_is_stretched_as_meant() {
    let body = child(128.0);
    let draft = drafted(&body, &Design::default());
    let settings = Settings {
        friction: Some(Friction::new(0.3)),
        ..Settings::default()
    };
    let dressed = dress(&body, &draft, &settings, &|_| {});
    is_closed(&dressed.mesh);
    let mut read = 0;
    for drawn in &draft.levels {
        let Some(worn) = dressed
            .worn
            .levels
            .iter()
            .find(|l| l.level == drawn.level && l.closes)
        else {
            continue;
        };
        read += 1;
        let meant = drawn.body_mm / drawn.pattern_mm;
        assert!(
            (worn.around - meant).abs() < 0.03,
            "{:?}: {} meant {meant}",
            drawn.level,
            worn.around
        );
    }
    assert!(read >= 3, "{read} levels");
}

#[test]
fn a_child_who_grew_is_held_tighter() {
    let draft = drafted(&child(122.0), &Design::default());
    let own = dress(&child(122.0), &draft, &Settings::default(), &|_| {});
    let grown = dress(&child(131.0), &draft, &Settings::default(), &|_| {});
    for level in [Level::Bust, Level::Waist] {
        let (a, b) = (at(&own, level), at(&grown, level));
        assert!(b.around > a.around + 0.03, "{level:?} {} {}", a.around, b.around);
    }
    let strap = |d: &Dressed| d.worn.strap.unwrap().stretch;
    assert!(strap(&grown) > strap(&own) + 0.02);
}

#[test]
fn briefs_hold_on_men_and_children() {
    for body in [man(), child(104.0), child(152.0)] {
        let draft = drafted(&body, &Design::of(Style::BRIEF));
        let dressed = dress(&body, &draft, &Settings::default(), &|_| {});
        is_closed(&dressed.mesh);
        for edge in &dressed.worn.edges {
            assert!(matches!(edge.kind, OpenKind::Leg | OpenKind::Waist));
            assert!(edge.elastic_n > 0.3, "{:?} {edge:?}", body.form);
        }
        assert!(dressed.worn.solved.penetration_mm() < 0.6);
        assert!(at(&dressed, Level::Hip).pressure_kpa > 0.02);
    }
}
