//! What a maker is told of a worn suit: each finding speaks where it should and is silent where it should be.
//!
//! No published worn suit is at hand: only the direction of each number is checked against the change that should move it, and each
//! limit against its home. Bodies are invented.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

#[path = "common/bodies.rs"]
mod bodies;

use std::sync::OnceLock;

use bodies::{MESH, average, drafted};
use cloth::{Fit, Law, Layer};
use draft::{Design, LegHeight, OpenKind, Style};
use solve::{
    BustLoad, Elastic, Found, FoundLimits, Friction, OpenPlace, RodeUp, SeatCover, Settings, SewnPlace,
    StitchReach, Stitches, Stop, SuitLaws, SuitMesh, WetSeen, WornLine, WornRail, WornSuit, found, mesh_suit,
    readings, told, wear,
};
use units::{Level, Severity, Silent};

const MODEL: &str = include_str!("../../../data/trade/pressure_model.toml");

/// By edge; the waist of a brief is not drawn in more behind.
fn elastic(place: OpenPlace<'_>) -> Option<Elastic> {
    let ratio = match (place.kind, place.piece) {
        (OpenKind::Leg, "back") => 0.87,
        (OpenKind::Leg, _) => 1.0,
        _ => 0.95,
    };
    Some(Elastic {
        stiffness_n: 5.0,
        ratio,
    })
}

struct Worn {
    design: Design,
    mesh: SuitMesh,
    worn: WornSuit,
}

impl Worn {
    fn found(&self, limits: &FoundLimits) -> Vec<Found> {
        found(&self.mesh, &self.worn, &self.design, limits)
    }

    /// The finding of a code, and of a place where there are several, if it is told.
    fn told(&self, limits: &FoundLimits, code: &str, which: &str) -> Option<Found> {
        let is = |f: &Found| f.finding.code == code && f.which.starts_with(which);
        self.found(limits).into_iter().find(is)
    }

    /// What was read for it, told or not.
    fn read(&self, limits: &FoundLimits, code: &str, which: &str) -> Found {
        let all = readings(&self.mesh, &self.worn, &self.design, limits);
        let is = |f: &Found| f.finding.code == code && f.which.starts_with(which);
        all.into_iter().map(|r| r.found).find(is).unwrap()
    }
}

fn worn(design: Design, stiffness: (f64, f64), friction: Option<f64>) -> Worn {
    let on = average();
    let draft = drafted(on, &design);
    let laws = SuitLaws {
        shell: Law::new(stiffness.0, stiffness.1, 0.35, 0.3).unwrap(),
        lining: None,
    };
    let mut mesh = mesh_suit(&draft, &laws, &elastic, MESH).unwrap();
    let settings = Settings {
        friction: friction.map(Friction::new),
        ..Settings::default()
    };
    let worn = wear(&mut mesh, &draft, &on.form, &on.field, &settings, &Silent).unwrap();
    assert_eq!(worn.solved.stop, Stop::Converged);
    Worn { design, mesh, worn }
}

const SOFT: (f64, f64) = (160.0, 110.0);

/// The usual one-piece, soft, on dry skin.
fn usual() -> &'static Worn {
    static WORN: OnceLock<Worn> = OnceLock::new();
    WORN.get_or_init(|| worn(Design::default(), SOFT, Some(0.3)))
}

fn limits() -> FoundLimits {
    FoundLimits {
        hold: 0.03,
        share: (0.45, 0.85),
        panel_kpa: (1.3, 2.0),
        edge_kpa: (2.0, 3.3),
        pressure_source: "test",
        cloth_weighed: false,
        elastic_weighed: false,
        elastic_mm: 8.0,
        elastic_by_edge: Vec::new(),
        layers: vec![(Layer::Shell, 0.85)],
        stitches: Stitches::default(),
        bust: None,
        wet: None,
    }
}

/// A line `key = number` of the table `[worn]`.
fn of_model(key: &str) -> f64 {
    let table = MODEL.split("[worn]").nth(1).unwrap();
    let line = table
        .lines()
        .take_while(|l| !l.starts_with('['))
        .find_map(|l| l.strip_prefix(key)?.trim_start().strip_prefix('='));
    let number = line.unwrap().split('#').next().unwrap().trim();
    number.parse().unwrap()
}

/// Source: `data/trade/pressure_model.toml`, table `worn`.
#[test]
fn limits_stand_in_their_table() {
    for (key, here) in [
        ("on_thigh_mm", solve::ON_THIGH_MM),
        ("rode_mm", solve::RODE_MM),
        ("uncovered", solve::UNCOVERED),
        ("gape_mm", solve::GAPE_WATCH_MM),
        ("folded", solve::FOLDED),
        ("area", solve::AREA_WATCH),
        ("skin_friction", solve::SKIN_FRICTION),
        ("least_cup_mm", solve::LEAST_CUP_MM),
    ] {
        assert!((of_model(key) - here).abs() < 1e-12, "{key} {here}");
    }
}

/// A leg cut low at the side lies further out on the thigh than one cut high, and only what lies out there by no intent is watched.
#[test]
fn a_leg_on_the_thigh_is_told_from_one_on_the_belly() {
    let leg = |leg| {
        worn(
            Design {
                leg,
                ..Design::default()
            },
            SOFT,
            Some(0.3),
        )
    };
    let (high, low) = (leg(LegHeight::High), leg(LegHeight::Share(1.0)));
    let at = |w: &Worn| w.worn.leg.unwrap().towards_belly_mm.unwrap();
    assert!(at(&high) > at(usual()) + 5.0, "{} {}", at(&high), at(usual()));
    assert!(at(usual()) > at(&low) + 5.0, "{} {}", at(usual()), at(&low));
    let told = high.told(&limits(), "worn.leg_line", "leg").unwrap();
    assert_eq!(told.finding.severity, Severity::Good, "{told:?}");
    assert!(told.changes.is_empty());
    // The same lie by a leg that was not cut low on purpose.
    let mut astray = low;
    astray.design.leg = LegHeight::Mid;
    let told = astray.told(&limits(), "worn.leg_line", "leg").unwrap();
    assert_eq!(told.finding.severity, Severity::Watch, "{told:?}");
    assert!(
        told.spot.is_some() && told.finding.message.contains("creeps"),
        "{told:?}"
    );
    let higher = &told.changes[0];
    assert!(higher.key == "leg_share" && higher.to < 0.74, "{higher:?}");
}

/// Without friction the side of a brief sinks by more than 15 mm, with it by less (own trials, design page on fit); a one-piece hangs
/// on its straps.
#[test]
fn an_edge_that_rode_is_told() {
    let brief = |friction| worn(Design::of(Style::BRIEF), SOFT, friction);
    let (free, held) = (brief(None), brief(Some(0.4)));
    let told = free.told(&limits(), "worn.leg_rides", "leg, side").unwrap();
    assert!(
        told.finding.value.unwrap() < -solve::RODE_MM && told.spot.is_some(),
        "{told:?}"
    );
    assert!(told.changes.iter().all(|c| c.to < 0.74), "{told:?}");
    let side = |w: &Worn| w.read(&limits(), "worn.leg_rides", "leg, side");
    assert!(
        side(&held).finding.value > told.finding.value,
        "{:?}",
        side(&held)
    );
    assert!(usual().told(&limits(), "worn.leg_rides", "leg, side").is_none());
    let read = side(usual());
    assert!(
        read.finding.severity == Severity::Good && read.finding.remedy.is_empty(),
        "{read:?}"
    );
}

#[test]
fn a_seat_laid_bare_is_told_with_which_way_it_moved() {
    let seat = usual().worn.seat.unwrap();
    assert!(
        seat.meant > 0.2 && seat.meant < 1.0 && (seat.meant - seat.covered).abs() < 0.08,
        "{seat:?}"
    );
    let good = usual().told(&limits(), "worn.seat", "seat").unwrap();
    assert_eq!(good.finding.severity, Severity::Good);
    assert!(good.finding.message.contains("was meant"), "{good:?}");
    let mut worn = usual().worn.clone();
    worn.seat = Some(SeatCover {
        covered: seat.meant - 0.1,
        ..seat
    });
    let all = found(&usual().mesh, &worn, &usual().design, &limits());
    let bare = all.iter().find(|f| f.finding.code == "worn.seat").unwrap();
    assert_eq!(bare.finding.severity, Severity::Watch);
    assert!(
        bare.changes.iter().any(|c| c.key == "figure.seat" && c.to > 0.0),
        "{bare:?}"
    );
}

/// A seam is held against the very stitch that is planned for it: one that goes nowhere bursts, one that goes far is not spoken of.
#[test]
fn a_seam_past_its_stitch_is_told() {
    let side = usual().worn.seams.iter().find(|s| s.name == "side").unwrap();
    assert!(
        side.most >= side.stretch && side.most > 1.0 && side.most < 1.5,
        "{side:?}"
    );
    for name in ["side", "shoulder", "crotch"] {
        assert!(usual().worn.seams.iter().any(|s| s.name == name), "{name}");
    }
    let with = |stretch: f64| FoundLimits {
        stitches: Stitches {
            reaches: [SewnPlace::Seam("side"), SewnPlace::Edge(OpenKind::Leg)]
                .map(|of| StitchReach {
                    of,
                    stretch,
                    stitch: "straight".into(),
                    source: "test",
                })
                .to_vec(),
            factor: 1.2,
            movement: 0.2,
        },
        ..limits()
    };
    let (worn, whole) = (side.most - 1.0, side.stretch - 1.0);
    assert!(worn < whole + 0.18, "room for a watch: {side:?}");
    let severity = |stretch: f64| {
        let told = usual().told(&with(stretch), "worn.stitch", "side");
        told.map(|f| f.finding.severity)
    };
    assert_eq!(severity(1.1 * worn), Some(Severity::Stop));
    assert_eq!(severity(1.2 * (whole + 0.19)), Some(Severity::Watch));
    assert_eq!(severity(1.2 * (whole + 0.21)), None);
    let stop = usual()
        .told(&with(0.01), "worn.stitch", "leg of the back")
        .unwrap();
    assert!(
        stop.finding.severity == Severity::Stop && stop.spot.is_some(),
        "{stop:?}"
    );
    // Without a plan nothing is judged of stitches.
    assert!(usual().told(&limits(), "worn.stitch", "").is_none());
}

/// A heavy bust in a soft suit is not carried; a small one is no matter; a firmer cloth carries more.
#[test]
fn a_bust_that_is_not_carried_is_told() {
    let with = |bust: f64| FoundLimits {
        bust: Some(BustLoad::of_girths(bust, 780.0)),
        ..limits()
    };
    let heavy = usual().told(&with(1040.0), "worn.support", "bust").unwrap();
    assert_eq!(heavy.finding.severity, Severity::Watch, "{heavy:?}");
    assert!(heavy.finding.message.contains("not weighed"), "{heavy:?}");
    assert!(heavy.changes.iter().any(|c| c.key == "fit_lengthwise"));
    assert!(usual().told(&with(920.0), "worn.support", "bust").is_none());
    let firm = worn(Design::default(), (4.0 * SOFT.0, 4.0 * SOFT.1), Some(0.3));
    let share = |w: &Worn| {
        w.read(&with(1040.0), "worn.support", "bust")
            .finding
            .value
            .unwrap()
    };
    assert!(
        share(&firm) > 1.5 * share(usual()),
        "{} {}",
        share(&firm),
        share(usual())
    );
    // The change that is proposed moves the number the right way.
    let own = heavy.changes.iter().map(|c| c.to).collect::<Vec<_>>();
    let longer = worn(
        Design {
            fit: Fit::Own(cloth::OwnFit::new(own[0], own[1]).unwrap()),
            ..Design::default()
        },
        SOFT,
        Some(0.3),
    );
    assert!(
        share(&longer) > share(usual()),
        "{} {}",
        share(&longer),
        share(usual())
    );
}

#[test]
fn a_wet_test_speaks_before_the_area() {
    let with = |wet| FoundLimits { wet, ..limits() };
    let severity = |wet| {
        usual()
            .told(&with(wet), "worn.drawn_out", "suit")
            .unwrap()
            .finding
            .severity
    };
    assert_eq!(severity(None), Severity::Good);
    assert_eq!(severity(Some(WetSeen::Opaque)), Severity::Good);
    assert_eq!(severity(Some(WetSeen::ShowsStretched)), Severity::Watch);
    assert_eq!(severity(Some(WetSeen::Shows)), Severity::Watch);
    let mut thin = usual().worn.clone();
    for level in &mut thin.levels {
        level.area = 1.6;
    }
    let at = |wet| {
        let all = found(&usual().mesh, &thin, &usual().design, &with(wet));
        let one = all
            .into_iter()
            .find(|f| f.finding.code == "worn.drawn_out")
            .unwrap();
        one.finding.severity
    };
    assert_eq!(at(None), Severity::Watch);
    assert_eq!(at(Some(WetSeen::Opaque)), Severity::Good);
}

/// Where an edge stands off, how deep, and how long the free edge is.
#[test]
fn a_gape_is_told_with_its_place_and_the_edges_girth() {
    let mut worn = usual().worn.clone();
    let edge = worn
        .edges
        .iter_mut()
        .find(|e| e.kind == OpenKind::Neckline)
        .unwrap();
    assert!(edge.girth_mm > 400.0 && edge.girth_mm < 1400.0, "{edge:?}");
    (edge.gape_mm, edge.off_mm) = (9.0, 60.0);
    let piece = edge.piece.clone();
    let all = found(&usual().mesh, &worn, &usual().design, &limits());
    let gape = all.iter().find(|f| f.finding.code == "worn.gapes").unwrap();
    assert!(
        gape.finding.message.contains("9 mm off the body over 6 cm"),
        "{gape:?}"
    );
    assert!(gape.finding.message.contains("once round"), "{gape:?}");
    assert_eq!(gape.spot.as_ref().unwrap().piece, piece);
    let quiet = |w: &WornSuit| {
        let mut w = w.clone();
        w.edges.iter_mut().for_each(|e| e.gape_mm = 1.0);
        found(&usual().mesh, &w, &usual().design, &limits())
    };
    assert!(quiet(&worn).iter().all(|f| f.finding.code != "worn.gapes"));
}

/// A top that only a rail holds, a tie that digs in, a lower edge that rode up: told past their limits, and not within.
#[test]
fn what_slides_digs_or_rode_up_is_told() {
    let with = |needed: f64, kpa: f64| {
        let mut worn = usual().worn.clone();
        worn.rails = vec![WornRail {
            name: "top",
            slides_n: 10.0 * needed,
            contact_n: 10.0,
            needed_friction: needed,
        }];
        worn.lines = vec![WornLine {
            name: "neck tie",
            stretch: 1.05,
            length_mm: 300.0,
            pull_n: 3.0,
            pressure_kpa: kpa,
            gape_mm: 0.0,
        }];
        found(&usual().mesh, &worn, &usual().design, &limits())
    };
    let severity = |all: &[Found], code: &str| {
        let one = all.iter().find(|f| f.finding.code == code);
        one.map(|f| f.finding.severity)
    };
    let bad = with(0.5, 2.5);
    for code in ["worn.grip", "worn.tie_digs"] {
        assert_eq!(severity(&bad, code), Some(Severity::Watch), "{code}");
    }
    let fine = with(0.1, 0.8);
    assert_eq!(severity(&fine, "worn.grip"), Some(Severity::Good));
    assert_eq!(severity(&fine, "worn.tie_digs"), None);
    let rode = |up: f64| {
        let mut worn = usual().worn.clone();
        worn.rails.clear();
        worn.rode_up = Some(RodeUp {
            front_mm: up,
            back_mm: 0.0,
        });
        let all = found(&usual().mesh, &worn, &usual().design, &limits());
        severity(&all, "worn.rides_up")
    };
    assert_eq!(rode(25.0), Some(Severity::Watch));
    assert_eq!(rode(4.0), None);
}

/// Every number keeps its name when it is within its limit, so that it can be told before and after a change.
#[test]
fn what_is_not_told_is_read_all_the_same() {
    let w = usual();
    let all = readings(&w.mesh, &w.worn, &w.design, &limits());
    let told = told(&all);
    assert!(all.len() > told.len());
    let share = w.read(&limits(), "worn.share", Level::Waist.name());
    assert!(share.finding.value.unwrap() > 0.05 && share.finding.severity == Severity::Good);
    assert!(!told.iter().any(|f| f.is_of(&share)));
    for (i, a) in all.iter().enumerate() {
        let twice = all[i + 1..].iter().any(|b| b.found.is_of(&a.found));
        assert!(!twice || a.found.finding.code == "worn.bridges", "{:?}", a.found);
    }
}
