//! Suits with sleeves: sewn into their armholes, round the arm by its girths, closed by a zip that does not stretch.
//!
//! What the sleeve must be stretched to follows from the arm's girth and the sleeve's width alone: geometry, no solve. Bodies are invented.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod people;

use body::TorsoForm;
use draft::{Design, Draft, OpenKind, Setting, Style};
use people::{Dressed, child, drafted, dress, is_closed, man, woman};
use solve::{BodyField, Field, LimbReach, Settings, SuitMesh};
use units::Level;

fn rash_top(sleeve: &'static str) -> Design {
    let mut design = Design::of(Style::RASH_TOP);
    let own = design
        .style
        .spec()
        .own
        .iter()
        .find(|p| p.key == "sleeve")
        .unwrap();
    design.own.set(own, Setting::Word(sleeve));
    design
}

/// The sleeve's width at its underarm line.
fn sleeve_width(draft: &Draft) -> f64 {
    let sleeve = draft.pieces.iter().find(|p| p.key == "sleeve").unwrap();
    let cap = &sleeve.edge("cap_front").unwrap().curve;
    2.0 * cap.start().x.abs().max(cap.end().x.abs())
}

/// Wrist edges, worn.
fn wrist(dressed: &Dressed) -> f64 {
    let edges = &dressed.worn.edges;
    edges.iter().find(|e| e.kind == OpenKind::Wrist).unwrap().girth_mm
}

#[test]
fn long_sleeves_end_at_the_wrist() {
    for (body, design) in [
        (woman(), rash_top("long")),
        (child(128.0), Design::of(Style::SUN_SUIT)),
    ] {
        let draft = drafted(&body, &design);
        let dressed = dress(&body, &draft, &Settings::default(), &|_| {});
        is_closed(&dressed.mesh);
        let limbs = dressed.form.limbs();
        // Its end is narrower than the wrist's girth or lies a little above it: between wrist and elbow.
        let girth = wrist(&dressed);
        assert!(
            girth > 0.98 * limbs.wrist_girth.mm && girth < 0.9 * limbs.elbow_girth.mm,
            "{girth}, wrist {:?}, elbow {:?}",
            limbs.wrist_girth,
            limbs.elbow_girth
        );
        // Without straps there is nothing on the rail, and no level is read off the sleeve.
        assert!(dressed.worn.strap.is_none());
        let waist = dressed
            .worn
            .levels
            .iter()
            .find(|l| l.level == Level::Waist)
            .unwrap();
        assert!(waist.closes && waist.around > 1.0, "{waist:?}");
        let chest = dressed.worn.levels.iter().find(|l| l.level == Level::UpperChest);
        assert!(chest.is_none_or(|l| !l.closes));
    }
}

/// Stretch of a short sleeve's end against the arm where it lies: the ring it makes is the arm's. 4 %: a polygon of a few chords.
#[test]
fn a_short_sleeve_lies_round_the_upper_arm() {
    let body = man();
    let draft = drafted(&body, &rash_top("short"));
    let dressed = dress(&body, &draft, &Settings::default(), &|_| {});
    is_closed(&dressed.mesh);
    let limbs = dressed.form.limbs();
    let girth = wrist(&dressed);
    assert!(
        girth < 1.04 * limbs.upper_arm_girth.mm && girth > 0.96 * limbs.elbow_girth.mm,
        "{girth}, {limbs:?}"
    );
    // Stretched about as the arm is wider than the sleeve.
    let edge = dressed
        .worn
        .edges
        .iter()
        .find(|e| e.kind == OpenKind::Wrist)
        .unwrap();
    let meant = limbs.upper_arm_girth.mm / sleeve_width(&draft);
    assert!(
        (edge.stretch - meant).abs() < 0.08,
        "{} meant {meant}",
        edge.stretch
    );
    // All of it is on the left arm or the left half.
    let x = &dressed.worn.solved.positions;
    assert!(x.iter().all(|p| p[0] > -0.5));
}

#[test]
fn a_zip_does_not_stretch() {
    let body = child(128.0);
    let draft = drafted(&body, &Design::of(Style::SUN_SUIT));
    let zip = draft
        .pieces
        .iter()
        .find(|p| p.key == "zip_shield")
        .unwrap()
        .edge("long_right")
        .unwrap()
        .curve
        .length()
        - 15.0;
    let dressed = dress(&body, &draft, &Settings::default(), &|_| {});
    let x = &dressed.worn.solved.positions;
    let fronts = dressed.mesh.pieces.iter().position(|p| p == "front").unwrap();
    // Down the middle of the front from the neck.
    let mut middle: Vec<(f64, usize)> = (0..x.len())
        .filter_map(|v| Some((dressed.mesh.flat(v, fronts)?, v)))
        .filter(|(flat, _)| flat[0].abs() < 0.5)
        .map(|(flat, v)| (flat[1], v))
        .collect();
    middle.sort_by(|a, b| b.0.total_cmp(&a.0));
    let (mut rest, mut worn) = (0.0, 0.0);
    for w in middle.windows(2) {
        if middle[0].0 - w[1].0 > zip {
            break;
        }
        rest += w[0].0 - w[1].0;
        let (a, b) = (x[w[0].1], x[w[1].1]);
        worn += [0, 1, 2]
            .map(|k| (a[k] - b[k]).powi(2))
            .iter()
            .sum::<f64>()
            .sqrt();
    }
    assert!(rest > 0.8 * zip, "{rest} of {zip}");
    assert!(worn / rest < 1.01, "worn {worn}, rest {rest}");
}

/// The field has an arm where the suit has sleeves: its end is solid where a bare form's is not, and its girth is the upper arm's.
#[test]
fn arms_are_led_on_only_under_sleeves() {
    let body = woman();
    let form = TorsoForm::of(body.form).unwrap().fitted(&body).unwrap();
    let draft = drafted(&body, &rash_top("long"));
    let reach = LimbReach::of(&draft);
    assert!(reach.arm_mm.unwrap() > 400.0 && reach.leg_mm.is_none());
    assert_eq!(
        LimbReach::of(&drafted(&body, &Design::default())),
        LimbReach::default()
    );
    let (bare, with) = (BodyField::of_form(&form), BodyField::for_suit(&form, &draft));
    let inside = |field: &BodyField, far: f64| {
        // Somewhere out there lies the arm.
        let [x, y] = [form.landmarks(), vec![]]
            .concat()
            .iter()
            .find(|m| m.name == "shoulder")
            .map(|m| [m.at[0], m.at[1]])
            .unwrap();
        (0..80).any(|i| field.value([x + far, y - 5.0 * f64::from(i), -40.0]) < -5.0)
    };
    assert!(inside(&with, 200.0) && !inside(&bare, 200.0));
}

/// A fuller sleeve has more cloth in it: it is less stretched.
#[test]
fn a_fuller_sleeve_is_easier() {
    let body = child(128.0);
    let stretch = |fullness: f64| {
        let mut design = rash_top("short");
        let own = design
            .style
            .spec()
            .own
            .iter()
            .find(|p| p.key == "sleeve_fullness")
            .unwrap();
        design.own.set(own, Setting::Number(fullness));
        let dressed = dress(
            &body,
            &drafted(&body, &design),
            &Settings::default(),
            &|_: &mut SuitMesh| {},
        );
        dressed
            .worn
            .edges
            .iter()
            .find(|e| e.kind == OpenKind::Wrist)
            .unwrap()
            .stretch
    };
    let (close, full) = (stretch(1.02), stretch(1.1));
    assert!(close > full + 0.02, "{close} {full}");
}
