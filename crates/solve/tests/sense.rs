//! Worn suits behave as a maker expects: longer bodies pull at shoulder and crotch, loose suits hardly hold, cloth cut the wrong way
//! is found, a grown cloth lets go, and what is found carries a parameter to set.
//!
//! No published worn suit is at hand: only the direction of each change is checked. Bodies are invented.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

#[path = "common/bodies.rs"]
mod bodies;

use bodies::{Dressed, MESH, average, dressed, elastic};
use body::Body;
use cloth::{Fit, Law, Layer};
use draft::{Design, Draft, draft};
use solve::{FoundLimits, Settings, Stitches, Stop, SuitLaws, SuitMesh, WornSuit, found, mesh_suit, wear};
use units::{Level, Severity, Silent};

/// The average woman, her trunk longer and her girths smaller by so much, mm.
fn woman(longer: f64, slimmer: f64) -> Dressed {
    let [stature, bust, underbust, waist, hip, crotch, back, trunk] = fixtures::AVERAGE;
    dressed(&fixtures::woman([
        stature,
        bust - slimmer,
        underbust - slimmer,
        waist - slimmer,
        hip - slimmer,
        crotch,
        back + longer / 2.0,
        trunk + longer,
    ]))
}

fn suit(body: &Body, fit: Fit) -> Draft {
    let design = Design {
        fit,
        ..Design::default()
    };
    draft(body, &fixtures::slate(), &design).unwrap()
}

/// A draft in a cloth of these stiffnesses (lengthwise, around), grown by so much, on a wearer.
fn worn_in(draft: &Draft, (k1, k2): (f64, f64), growth: f64, on: &Dressed) -> (SuitMesh, WornSuit) {
    let laws = SuitLaws {
        shell: Law::new(k1, k2, 0.35, 0.3).unwrap(),
        lining: None,
    };
    let mut mesh = mesh_suit(draft, &laws, &elastic, MESH).unwrap();
    mesh.mesh.grow(0, [growth, growth]);
    let worn = wear(
        &mut mesh,
        draft,
        &on.form,
        &on.field,
        &Settings::default(),
        &Silent,
    )
    .unwrap();
    assert_eq!(worn.solved.stop, Stop::Converged);
    (mesh, worn)
}

const SOFT: (f64, f64) = (160.0, 110.0);

fn limits(around: f64, weighed: bool) -> FoundLimits {
    FoundLimits {
        hold: 0.03,
        share: (0.45, 0.85),
        panel_kpa: (1.3, 2.0),
        edge_kpa: (2.0, 3.3),
        pressure_source: "test",
        cloth_weighed: weighed,
        elastic_weighed: weighed,
        elastic_mm: 8.0,
        elastic_by_edge: Vec::new(),
        layers: vec![(Layer::Shell, around)],
        stitches: Stitches::default(),
        bust: None,
        wet: None,
    }
}

fn at(worn: &WornSuit, level: Level) -> solve::WornLevel {
    *worn.levels.iter().find(|l| l.level == level).unwrap()
}

#[test]
fn a_long_body_in_a_short_suit_pulls_at_shoulder_and_crotch() {
    let draft = suit(&average().body, Fit::Regular);
    let (_, own) = worn_in(&draft, SOFT, 0.0, average());
    let (_, long) = worn_in(&draft, SOFT, 0.0, &woman(70.0, 0.0));
    let (a, b) = (own.strap.unwrap().stretch, long.strap.unwrap().stretch);
    assert!(b > a + 0.015, "{a} {b}");
    let crotch = |worn: &WornSuit| at(worn, Level::Crotch).pressure_kpa;
    assert!(
        crotch(&long) > 1.1 * crotch(&own),
        "{} {}",
        crotch(&own),
        crotch(&long)
    );
}

#[test]
fn a_suit_of_a_larger_body_hardly_holds_and_is_told_so() {
    let draft = suit(&average().body, Fit::Relaxed);
    let (mesh, worn) = worn_in(&draft, SOFT, 0.0, &woman(0.0, 80.0));
    let waist = at(&worn, Level::Waist);
    assert!(waist.closes && waist.around < 1.03, "{waist:?}");
    let found = found(&mesh, &worn, &Design::default(), &limits(0.85, false));
    let loose = found
        .iter()
        .find(|f| f.finding.code == "worn.hold" && f.finding.place == "waist")
        .unwrap();
    assert_eq!(loose.finding.severity, Severity::Watch);
    let around = loose.changes.iter().find(|c| c.key == "fit_around").unwrap();
    assert!(around.to > Design::default().fit.around(), "{around:?}");
}

/// Cut with its stiff way around, the same draft squeezes more and uses more of what the cloth has there.
#[test]
fn a_cloth_cut_the_wrong_way_shows() {
    let draft = suit(&average().body, Fit::Firm);
    let (mesh, right) = worn_in(&draft, (400.0, 110.0), 0.0, average());
    let (turned_mesh, turned) = worn_in(&draft, (110.0, 400.0), 0.0, average());
    let squeeze = |worn: &WornSuit| at(worn, Level::HighHip).pressure_kpa;
    assert!(
        squeeze(&turned) > 1.5 * squeeze(&right),
        "{} {}",
        squeeze(&right),
        squeeze(&turned)
    );
    let shares = |mesh: &SuitMesh, worn: &WornSuit, around: f64| {
        let all = found(mesh, worn, &Design::default(), &limits(around, false));
        all.iter().filter(|f| f.finding.code == "worn.share").count()
    };
    assert_eq!(shares(&mesh, &right, 0.85), 0);
    assert!(shares(&turned_mesh, &turned, 0.25) > 0);
}

#[test]
fn a_grown_cloth_lets_go() {
    let draft = suit(&average().body, Fit::Regular);
    let (_, new) = worn_in(&draft, SOFT, 0.0, average());
    let (_, settled) = worn_in(&draft, SOFT, 0.04, average());
    for level in [Level::Bust, Level::Waist, Level::HighHip] {
        let (a, b) = (at(&new, level), at(&settled, level));
        assert!(b.around < a.around - 0.02, "{level:?} {} {}", a.around, b.around);
    }
    let total = |worn: &WornSuit| worn.solved.contact_n.iter().sum::<f64>();
    assert!(total(&settled) < total(&new));
}

#[test]
fn a_pressure_stops_nobody_unless_the_force_was_weighed() {
    let draft = suit(&average().body, Fit::Race);
    let (mesh, worn) = worn_in(&draft, (1600.0, 1600.0), 0.0, average());
    let severity = |weighed: bool| {
        let all = found(&mesh, &worn, &Design::default(), &limits(0.85, weighed));
        let pressure = all
            .into_iter()
            .find(|f| f.finding.code == "worn.pressure")
            .unwrap();
        assert!(pressure.finding.value.unwrap() > 2.0, "{pressure:?}");
        assert!(
            pressure
                .changes
                .iter()
                .any(|c| c.key == "fit_around" && c.to < Fit::Regular.around())
        );
        pressure.finding.severity
    };
    assert_eq!(severity(false), Severity::Watch);
    assert_eq!(severity(true), Severity::Stop);
}

#[test]
fn nothing_is_found_of_a_suit_that_was_not_solved() {
    let draft = suit(&average().body, Fit::Regular);
    let laws = SuitLaws {
        shell: Law::new(160.0, 110.0, 0.35, 0.3).unwrap(),
        lining: None,
    };
    let mut mesh = mesh_suit(&draft, &laws, &elastic, MESH).unwrap();
    let settings = Settings {
        most_steps: 3,
        ..Settings::default()
    };
    let worn = wear(
        &mut mesh,
        &draft,
        &average().form,
        &average().field,
        &settings,
        &Silent,
    )
    .unwrap();
    assert_eq!(worn.solved.stop, Stop::StepsUsedUp);
    assert!(found(&mesh, &worn, &Design::default(), &limits(0.85, true)).is_empty());
}
