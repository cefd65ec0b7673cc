//! What hangs from a suit: it weighs what its cloth weighs, pulls on its join, and hangs as long as it was cut.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

#[path = "common/bodies.rs"]
mod bodies;

use bodies::{Dressed, MESH, average, drafted, elastic, full_bust, laws, meshed, worn};
use draft::{BustShaping, Design, Skirt, SkirtJoin, SkirtKind, Style};
use solve::{ASSUMED_KG_PER_M2, Field, mesh_suit, mesh_whole_suit};
use units::Mm;

/// Standard gravity, N/kg.
const G: f64 = 9.806_65;

fn skirted(kind: SkirtKind, join: SkirtJoin) -> Design {
    Design {
        skirt: Some(Skirt {
            kind,
            join,
            cover: Mm::new(60.0),
        }),
        ..Design::default()
    }
}

/// Pull of the loads, up: 0 where nothing weighs.
fn lifted(on: &Dressed, design: &Design, kg_per_m2: Option<f64>) -> (f64, f64) {
    let (draft, mut mesh) = meshed(on, design, false);
    if let Some(kg) = kg_per_m2 {
        mesh.weigh(kg);
    }
    let skirt = draft.pieces.iter().find(|p| p.key == "skirt").unwrap();
    // Half a piece, front and back, on one side: half the skirt.
    let area: f64 = 2.0 * skirt.edges.iter().map(|e| e.curve.signed_area()).sum::<f64>();
    let weight = area * 1e-6 * mesh.hanging_kg_per_m2 * G;
    let pulled: f64 = mesh.mesh.loads().iter().map(|l| -l[1]).sum();
    (pulled, weight)
}

#[test]
fn a_skirt_pulls_on_its_join_with_its_weight() {
    for kind in [SkirtKind::FullCircle, SkirtKind::QuarterCircle] {
        for join in [SkirtJoin::Hip, SkirtJoin::Waist] {
            let (pulled, weight) = lifted(average(), &skirted(kind, join), None);
            assert!(
                weight > 0.05 && (pulled / weight - 1.0).abs() < 1e-9,
                "{pulled} {weight}"
            );
            let heavy = lifted(average(), &skirted(kind, join), Some(2.0 * ASSUMED_KG_PER_M2)).0;
            assert!((heavy / pulled - 2.0).abs() < 1e-9, "{heavy} {pulled}");
        }
    }
    let brief = Design {
        style: Style::BRIEF,
        ..skirted(SkirtKind::HalfCircle, SkirtJoin::Waist)
    };
    let (pulled, weight) = lifted(average(), &brief, None);
    assert!((pulled / weight - 1.0).abs() < 1e-9, "{pulled} {weight}");
}

#[test]
fn it_hangs_outside_the_body_as_long_as_it_was_cut() {
    let princess = Design {
        bust_shaping: BustShaping::Princess,
        ..skirted(SkirtKind::HalfCircle, SkirtJoin::Hip)
    };
    for (on, design) in [
        (average(), skirted(SkirtKind::FullCircle, SkirtJoin::Waist)),
        (full_bust(), princess),
    ] {
        let (draft, mesh, worn) = worn(on, &design, false);
        let skirt = draft.pieces.iter().find(|p| p.key == "skirt").unwrap();
        let length = skirt.edge("side").unwrap().curve.length();
        assert_eq!(worn.hanging.len(), 2, "front and back of one side");
        for (drape, hanging) in worn.hanging.iter().zip(&mesh.hanging) {
            let columns = drape.hem.len();
            assert_eq!(columns, hanging.join.len());
            for (i, (_, v)) in hanging.join.iter().enumerate() {
                assert_eq!(drape.points[i], worn.solved.positions[*v]);
                let down: Vec<[f64; 3]> = drape.points.iter().skip(i).step_by(columns).copied().collect();
                let long: f64 = down
                    .windows(2)
                    .map(|w| (0..3).map(|k| (w[0][k] - w[1][k]).powi(2)).sum::<f64>().sqrt())
                    .sum();
                // Along the body it is measured in steps, chords of which are a little shorter.
                assert!(long <= length + 1e-6 && long > 0.93 * length, "{long} {length}");
                assert!(down.windows(2).all(|w| w[1][1] < w[0][1]), "it hangs down");
            }
            for p in drape.points.iter().skip(columns) {
                assert!(on.field.value(*p) > -1.0, "{p:?} {}", on.field.value(*p));
            }
            // Its triangles look outwards: away from the body's middle line.
            for t in &drape.triangles {
                let [a, b, c] = t.map(|v| drape.points[v]);
                let d = |p: [f64; 3], q: [f64; 3]| [0, 1, 2].map(|k| q[k] - p[k]);
                let (u, w) = (d(a, b), d(a, c));
                let n = [u[1] * w[2] - u[2] * w[1], 0.0, u[0] * w[1] - u[1] * w[0]];
                let size = (n[0] * n[0] + n[2] * n[2]).sqrt();
                assert!(size < 20.0 || n[0] * a[0] + n[2] * a[2] > 0.0, "{a:?} {n:?}");
            }
        }
        assert!(
            mesh.left_out.iter().any(|l| l.contains("skirt")),
            "{:?}",
            mesh.left_out
        );
    }
}

#[test]
fn a_heavy_skirt_draws_its_join_down() {
    let on = average();
    let (_, light_mesh, light) = worn(on, &skirted(SkirtKind::FullCircle, SkirtJoin::Hip), false);
    let draft = drafted(on, &skirted(SkirtKind::FullCircle, SkirtJoin::Hip));
    let mut mesh = mesh_suit(&draft, &laws(false), &elastic, MESH).unwrap();
    mesh.weigh(5.0 * ASSUMED_KG_PER_M2);
    let heavy = solve::wear(
        &mut mesh,
        &draft,
        &on.form,
        &on.field,
        &solve::Settings::default(),
        &units::Silent,
    )
    .unwrap();
    assert_eq!(heavy.solved.stop, solve::Stop::Converged);
    let height = |mesh: &solve::SuitMesh, w: &solve::WornSuit| -> f64 {
        let join: Vec<usize> = mesh
            .hanging
            .iter()
            .flat_map(|h| h.join.iter().map(|j| j.1))
            .collect();
        join.iter().map(|v| w.solved.positions[*v][1]).sum::<f64>() / join.len() as f64
    };
    let (a, b) = (height(&light_mesh, &light), height(&mesh, &heavy));
    assert!(a - b > 0.2 && a - b < 40.0, "{a} {b}");
}

#[test]
fn of_a_whole_suit_it_hangs_on_both_sides() {
    let draft = drafted(average(), &skirted(SkirtKind::HalfCircle, SkirtJoin::Hip));
    let half = mesh_suit(&draft, &laws(false), &elastic, MESH).unwrap();
    let whole = mesh_whole_suit(&draft, &laws(false), &elastic, MESH).unwrap();
    assert_eq!((half.hanging.len(), whole.hanging.len()), (2, 4));
    let pull = |m: &solve::SuitMesh| m.mesh.loads().iter().map(|l| -l[1]).sum::<f64>();
    assert!((pull(&whole) / pull(&half) / 2.0 - 1.0).abs() < 1e-9);
}
