//! Tops, bottoms without a plain waist and two-pieces put on: they are solved, press as their bands' closed form says, and what holds them is
//! told.
//!
//! Sources: S. Thomas, "The use of the Laplace equation in the calculation of sub-bandage pressure", World Wide Wounds (2003), first page
//! read, its constant from memory (`data/fit/band_formula.json`); else laws any answer must keep and the direction of changes. Bodies are
//! invented.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

#[path = "common/bodies.rs"]
mod bodies;
mod common;

use std::collections::BTreeSet;
use std::f64::consts::TAU;

use bodies::{Dressed, at, average, drafted, full_bust, laws, worn};
use cloth::{Axis, Law};
use common::{close, file, number, sharp, solved};
use draft::{Design, OpenKind, Style};
use fixtures::with;
use solve::{
    Cylinder, Elastic, Friction, Mesh, OpenPlace, Settings, Stop, Tube, Unmeshed, WornRail, WornSuit,
    mesh_suit, wear,
};
use units::{Level, Silent};

fn of(style: &str) -> Design {
    Design::of(Style::of_key(style).unwrap())
}

/// Put on with friction.
fn gripped(on: &Dressed, design: &Design, friction: f64) -> WornSuit {
    let draft = drafted(on, design);
    let mut mesh = mesh_suit(&draft, &laws(false), &bodies::elastic, bodies::MESH).unwrap();
    let settings = Settings {
        friction: Some(Friction::new(friction)),
        ..Settings::default()
    };
    let worn = wear(&mut mesh, &draft, &on.form, &on.field, &settings, &Silent).unwrap();
    assert_eq!(worn.solved.stop, Stop::Converged);
    worn
}

#[test]
fn tops_and_bottoms_are_solved_on_two_bodies() {
    for on in [average(), full_bust()] {
        for style in [
            "crop-top",
            "sports-top",
            "tankini",
            "bandeau",
            "fold-over",
            "side-tie",
        ] {
            let (_, mesh, worn) = worn(on, &of(style), false);
            let span = |i: usize| {
                let all = worn.solved.positions.iter().map(|p| p[i]);
                all.clone().fold(f64::INFINITY, f64::min)..all.fold(f64::NEG_INFINITY, f64::max)
            };
            // Half of a garment: from the middle to her left, somewhere between crotch and shoulder.
            assert!(
                span(0).start > -0.5 && span(0).end > 100.0,
                "{style}: {:?}",
                span(0)
            );
            assert!(
                span(1).start > -60.0 && span(1).end < 760.0,
                "{style}: {:?}",
                span(1)
            );
            assert_eq!(worn.rails.len(), usize::from(style == "bandeau"));
            assert!(!mesh.assumed.is_empty() || style == "sports-top", "{style}");
        }
    }
}

/// A folded band is two layers of cloth: on a cylinder it presses as the formula's two turns of its pull do.
#[test]
fn two_layers_of_a_band_press_as_two_turns() {
    let exact = number(&file(include_str!("../../../data/fit/band_formula.json"))["exact_constant"]);
    let one = Law::new(160.0, 110.0, 0.35, 0.3).unwrap();
    let two = Law::new(320.0, 220.0, 0.35, 0.3)
        .unwrap()
        .with_shear(2.0 * one.shear())
        .unwrap();
    let (girth, height, stretch) = (780.0, 38.0, 1.25);
    let tube = Tube {
        rest_girth_mm: girth / stretch,
        rest_height_mm: height,
        around: 160,
        rows: 4,
    };
    let mut mesh = Mesh::new(tube.vertex_count());
    let law = mesh.add_law(&two);
    tube.add_to(&mut mesh, law, 0).unwrap();
    // Neither turned nor moved along.
    mesh.hold(0, [false, true, true]);
    let radius = girth / TAU;
    let narrow = one.strip_width_ratio(Axis::Around, stretch).unwrap();
    let solved = solved(
        &mesh,
        Some(&Cylinder { radius_mm: radius }),
        &tube.placed(1.001 * radius, narrow * height),
        &Settings {
            augmented_passes: 4,
            ..sharp(1e-7)
        },
    );
    // The formula's pull is that of one turn, in kgf; its width that of the worn band.
    let pull_kgf = one.strip_tension(Axis::Around, stretch) * height * 1e-3 / 9.806_65;
    let width_cm = narrow * height / 10.0;
    let mmhg = exact * pull_kgf * 2.0 / (girth / 10.0 * width_cm);
    let worn = |row: usize| solved.positions[tube.ring(row).start][1];
    let area = girth * (worn(4) - worn(0)).abs();
    let found = solved.contact_n.iter().sum::<f64>() / area * 1e6 / 133.322_387_415;
    // A polygon of 160 sides lies a little inside its circle.
    close("pressure", found, mmhg, 2e-3, 0.0);
}

#[test]
fn a_bands_top_stays_lower_where_the_skin_grips() {
    let on = full_bust();
    let free = worn(on, &of("crop-top"), false).2.rode_up.unwrap();
    let held = gripped(on, &of("crop-top"), 0.3).rode_up.unwrap();
    assert!(held.back_mm < free.back_mm, "{held:?} {free:?}");
    // Nothing pulls it down: drafted shorter than the body it goes up, but not over the bust.
    assert!((0.0..80.0).contains(&free.front_mm), "{free:?}");
}

fn bandeau(on: &Dressed, stiffness_n: f64, friction: Option<f64>) -> WornRail {
    let draft = drafted(on, &of("bandeau"));
    let elastic = |place: OpenPlace<'_>| {
        (place.kind == OpenKind::Top || place.kind == OpenKind::Underbust).then_some(Elastic {
            stiffness_n,
            ratio: 0.88,
        })
    };
    let mut mesh = mesh_suit(&draft, &laws(false), &elastic, bodies::MESH).unwrap();
    let settings = Settings {
        friction: friction.map(Friction::new),
        ..Settings::default()
    };
    let worn = wear(&mut mesh, &draft, &on.form, &on.field, &settings, &Silent).unwrap();
    assert_eq!(worn.solved.stop, Stop::Converged);
    worn.rails[0]
}

#[test]
fn a_firmer_elastic_gives_a_bandeau_more_grip() {
    for on in [average(), full_bust()] {
        let all: Vec<WornRail> = [2.0, 10.0].map(|k| bandeau(on, k, None)).to_vec();
        for w in all.windows(2) {
            assert!(w[1].contact_n > 1.05 * w[0].contact_n, "{all:?}");
        }
        for rail in all {
            // It wants to go down to the waist, and grip could hold it.
            assert!(rail.slides_n < 0.0, "{rail:?}");
            let needed = rail.slides_n.abs() / rail.contact_n;
            assert!((rail.needed_friction - needed).abs() < 1e-12 && needed < 1.0);
        }
    }
    // What friction carries of it is grip that is needed all the same.
    let (bare, gripped) = (bandeau(average(), 5.0, None), bandeau(average(), 5.0, Some(0.3)));
    close("slide", gripped.slides_n, bare.slides_n, 1e-3, 0.0);
}

/// The parts of a two-piece are two garments: no vertex is of both, and each sits as it does alone.
#[test]
fn a_two_piece_is_two_garments() {
    let on = average();
    let (_, mesh, both) = worn(on, &of("two-piece"), false);
    let of_brief = |piece: usize| mesh.pieces[piece].starts_with("brief_");
    let mut vertices = [BTreeSet::new(), BTreeSet::new()];
    for (t, piece) in mesh.mesh.triangles().iter().zip(&mesh.triangle_piece) {
        vertices[usize::from(of_brief(*piece))].extend(t.corners);
    }
    assert!(vertices.iter().all(|v| v.len() > 100));
    assert!(vertices[0].is_disjoint(&vertices[1]));
    let (top, brief) = (
        worn(on, &of("crop-top"), false).2,
        worn(on, &of("brief"), false).2,
    );
    for (level, alone) in [
        (Level::Bust, &top),
        (Level::Underbust, &top),
        (Level::HighHip, &brief),
    ] {
        let (a, b) = (at(&both, level), at(alone, level));
        // The same meshes from nearly the same start: the least energy is one.
        assert!(
            (a.around - b.around).abs() < 2e-3,
            "{level:?}: {} {}",
            a.around,
            b.around
        );
        assert_eq!(a.closes, b.closes, "{level:?}");
    }
    let other = worn(average(), &with(of("two-piece"), "top", "triangle-top"), false);
    assert_eq!(other.1.pieces, ["front", "brief_front", "brief_back"]);
}

#[test]
fn a_top_hooked_behind_is_closed_there() {
    let (_, mesh, hooked) = worn(average(), &with(of("crop-top"), "back_closure", "hooked"), false);
    assert!(
        mesh.assumed.iter().any(|a| a.contains("hooked")),
        "{:?}",
        mesh.assumed
    );
    let plain = worn(average(), &of("crop-top"), false).2;
    let (a, b) = (at(&hooked, Level::Bust), at(&plain, Level::Bust));
    assert!(
        a.closes && (a.around - b.around).abs() < 0.02,
        "{} {}",
        a.around,
        b.around
    );
}

/// A free front hangs over its band: that is not meshed, and said.
#[test]
fn a_nursing_top_is_refused_by_name() {
    let draft = drafted(
        average(),
        &with(with(of("crop-top"), "nursing", "yes"), "lower_edge", "band"),
    );
    let refused = mesh_suit(&draft, &laws(false), &bodies::elastic, bodies::MESH);
    assert_eq!(refused.unwrap_err(), Unmeshed::Piece("band".into()));
}
