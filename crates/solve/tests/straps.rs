//! Straps and ties put on: sewn, on rings, tied, crossed, round the neck, round the ribs.
//!
//! Sources: capstan formula, textbook (`data/fit/capstan.json`); else laws any answer must keep and the direction of changes.
//! Bodies are invented.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

#[path = "common/bodies.rs"]
mod bodies;
mod common;

use bodies::{Dressed, average, drafted, full_bust, laws, worn};
use common::{cases, number};
use draft::{BackShape, Design, Style};
use fixtures::with;
use solve::{Friction, Settings, Stop, SuitMesh, WornSuit, bar_tensions, mesh_suit, wear};
use units::{Level, Silent};

fn of(style: &str) -> Design {
    Design::of(Style::of_key(style).unwrap())
}

fn crossed() -> Design {
    Design {
        back_shape: BackShape::CrossedStraps,
        ..of("one-piece")
    }
}

/// Put on with friction, its ties so firm.
fn tied(on: &Dressed, design: &Design, friction: f64, firm: f64) -> (SuitMesh, WornSuit) {
    let draft = drafted(on, design);
    let mut mesh = mesh_suit(&draft, &laws(false), &bodies::elastic, bodies::MESH).unwrap();
    mesh.tied = firm;
    let settings = Settings {
        friction: (friction > 0.0).then(|| Friction::new(friction)),
        ..Settings::default()
    };
    let worn = wear(&mut mesh, &draft, &on.form, &on.field, &settings, &Silent).unwrap();
    assert_eq!(worn.solved.stop, Stop::Converged);
    (mesh, worn)
}

fn line<'a>(worn: &'a WornSuit, name: &str) -> &'a solve::WornLine {
    worn.lines.iter().find(|l| l.name.starts_with(name)).unwrap()
}

#[test]
fn straps_are_solved_on_two_bodies() {
    for on in [average(), full_bust()] {
        let designs = [
            of("halter-top"),
            of("halter-one-piece"),
            of("triangle-top"),
            crossed(),
            with(of("one-piece"), "strap_kind", "ring"),
        ];
        for design in designs {
            let (_, mesh, worn) = worn(on, &design, false);
            assert!(!mesh.assumed.is_empty(), "{}", design.style.key());
            assert!(mesh.straps.is_empty() == worn.lines.is_empty());
            for l in &worn.lines {
                assert!(l.pull_n > 0.0 && l.stretch > 1.0, "{l:?}");
            }
        }
    }
}

/// A shoulder tie is knotted where the seam would be: such a suit is the sewn one. A ring of the width it takes out of the strap changes little.
#[test]
fn a_tied_shoulder_is_a_sewn_one_and_a_ring_nearly() {
    let sewn = worn(average(), &of("one-piece"), false).2;
    let tied = worn(average(), &with(of("one-piece"), "strap_kind", "tie"), false).2;
    let ring = worn(average(), &with(of("one-piece"), "strap_kind", "ring"), false).2;
    let strap = |w: &WornSuit| w.strap.unwrap();
    assert!((strap(&tied).stretch - strap(&sewn).stretch).abs() < 1e-3);
    assert!((strap(&tied).rail_n - strap(&sewn).rail_n).abs() < 0.02);
    assert!((strap(&ring).stretch - strap(&sewn).stretch).abs() < 0.04);
    assert!((strap(&ring).needed_friction - strap(&sewn).needed_friction).abs() < 0.1);
    for (a, b) in sewn.levels.iter().zip(&ring.levels) {
        assert!(!a.closes || (a.around - b.around).abs() < 0.01, "{a:?} {b:?}");
    }
}

#[test]
fn a_looser_tie_pulls_less() {
    for on in [average(), full_bust()] {
        for tie in ["tie under the bust, behind", "neck tie"] {
            let [firm, loose] =
                [1.6, 1.0].map(|firm| line(&tied(on, &of("triangle-top"), 0.0, firm).1, tie).pull_n);
            assert!(firm > 1.2 * loose && loose > 0.0, "{tie}: {firm} {loose}");
        }
        let sides: Vec<f64> = [1.0, 0.6]
            .map(|firm| line(&tied(on, &of("side-tie"), 0.0, firm).1, "side tie").pull_n)
            .to_vec();
        assert!(sides[0] > sides[1] && sides[1] > 0.0, "{sides:?}");
    }
}

/// Pulls along a strap that lies on skin differ by no more than the capstan formula lets them for the angle it turns through, and not at all
/// without friction.
#[test]
fn pulls_along_a_tie_keep_the_capstan_bounds() {
    let mus: Vec<f64> = cases(include_str!("../../../data/fit/capstan.json"))
        .iter()
        .map(|c| number(&c["mu"]))
        .collect();
    for mu in [0.0, 0.4] {
        assert!(mus.contains(&mu));
        let on = full_bust();
        let (mesh, worn) = tied(on, &of("triangle-top"), mu, 1.0);
        let x = &worn.solved.positions;
        let pulls = bar_tensions(&mesh.mesh, x);
        for strap in mesh.straps.iter().filter(|s| s.width_mm > 0.0 && s.along > 10) {
            let own = &pulls[strap.bars.start..strap.bars.start + strap.along];
            let (most, least) = own.iter().fold((0.0, f64::INFINITY), |(a, b): (f64, f64), p| {
                (a.max(*p), b.min(*p))
            });
            let way: Vec<[f64; 3]> = strap
                .vertices
                .windows(2)
                .map(|w| {
                    let d = [0, 1, 2].map(|i| x[w[1]][i] - x[w[0]][i]);
                    let l = d.iter().map(|d| d * d).sum::<f64>().sqrt();
                    d.map(|d| d / l)
                })
                .collect();
            let turns: f64 = way
                .windows(2)
                .map(|w| {
                    (0..3)
                        .map(|i| w[0][i] * w[1][i])
                        .sum::<f64>()
                        .clamp(-1.0, 1.0)
                        .acos()
                })
                .sum();
            assert!(turns > 0.5, "{}: {turns}", strap.name);
            // A chain gains a little less evenly than a smooth strap, and its turns are the body's, not flat: 2 %.
            let bound = (mu * turns).exp();
            assert!(
                most / least < 1.02 * bound,
                "{} at {mu}: {} over {bound}",
                strap.name,
                most / least
            );
            assert!(
                mu > 0.0 || most / least < 1.01,
                "{}: {}",
                strap.name,
                most / least
            );
        }
    }
}

/// Each crossed strap runs over the shoulder to the middle and from there, as its mirror image, to the back's edge.
#[test]
fn crossed_straps_cross() {
    let (_, mesh, worn) = worn(average(), &crossed(), false);
    let x = &worn.solved.positions;
    for strap in &mesh.straps {
        let at: Vec<f64> = strap.vertices.iter().map(|v| x[*v][0]).collect();
        let middle = (0..at.len()).min_by(|a, b| at[*a].total_cmp(&at[*b])).unwrap();
        assert!(at[middle].abs() < 1e-9, "{at:?}");
        assert!(at[0] > 40.0 && at[at.len() - 1] > 30.0, "{at:?}");
        // It crosses behind, under the shoulder and over the back's edge.
        let (top, cross, low) = (
            x[strap.vertices[0]],
            x[strap.vertices[middle]],
            x[strap.vertices[at.len() - 1]],
        );
        assert!(cross[2] < 0.0 && cross[1] < top[1] && cross[1] > low[1]);
        // On either side of the crossing it runs at the same slope: its mirror image goes straight on.
        let (before, after) = (x[strap.vertices[middle - 2]], x[strap.vertices[middle + 2]]);
        let slope = |p: [f64; 3]| (p[1] - cross[1]).abs() / p[0];
        assert!(
            (slope(before) / slope(after) - 1.0).abs() < 0.5,
            "{} {}",
            slope(before),
            slope(after)
        );
    }
}

/// The neck carries what the strap pulls: the halter's end goes up to the nape, at the neck's height.
#[test]
fn a_halters_strap_lies_round_the_neck() {
    let on = full_bust();
    let (_, mesh, worn) = worn(on, &of("halter-one-piece"), false);
    let strap = mesh.pieces.iter().position(|p| p == "neck_strap").unwrap();
    let x = &worn.solved.positions;
    let own: Vec<[f64; 3]> = mesh
        .mesh
        .triangles()
        .iter()
        .zip(&mesh.triangle_piece)
        .filter(|(_, p)| **p == strap)
        .flat_map(|(t, _)| t.corners.map(|v| x[v]))
        .collect();
    let neck = on.form.level_height(Level::NeckBase);
    let nape = own.iter().min_by(|a, b| a[2].total_cmp(&b[2])).unwrap();
    assert!(
        nape[0] < 60.0 && (nape[1] - neck).abs() < 60.0,
        "{nape:?} at {neck}"
    );
    assert!(own.iter().all(|p| p[0] < 110.0 && p[1] > neck - 120.0));
}
