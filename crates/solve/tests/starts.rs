//! A suit ends in the same place from wherever its solve starts: plainly placed, or from a coarser mesh solved first, or from the
//! shape of the suit before its draft changed.
//!
//! Held against the plain way itself: the same least energy, every point in the same place. The body is invented.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

#[path = "common/bodies.rs"]
mod bodies;

use bodies::{Dressed, drafted, dressed, elastic};
use cloth::Law;
use draft::{Design, Draft, LegHeight};
use solve::{
    BodyField, FlatShape, Friction, PassKind, Settings, Solved, Solver, Stop, SuitLaws, SuitMesh, mesh_suit,
    wear, wear_near,
};
use units::{Mm, Silent};

fn tove() -> Dressed {
    dressed(&fixtures::woman(fixtures::PETITE))
}

fn meshed(draft: &Draft, edge_mm: f64) -> SuitMesh {
    let laws = SuitLaws {
        shell: Law::new(160.0, 110.0, 0.35, 0.3).unwrap(),
        lining: None,
    };
    mesh_suit(draft, &laws, &elastic, edge_mm).unwrap()
}

fn steps_of_first(solved: &Solved) -> usize {
    let first = solved.passes.iter().find(|p| p.kind == PassKind::First).unwrap();
    first.steps.len()
}

/// 1e-7 of the energy and a hundredth of a millimetre: both stop at 1e-5 N, not at nought.
#[track_caller]
fn same(what: &str, a: &Solved, b: &Solved) {
    assert_eq!((a.stop, b.stop), (Stop::Converged, Stop::Converged), "{what}");
    let off = (a.energy() - b.energy()) / b.energy();
    assert!(off.abs() < 1e-7, "{what}: energy off by {off:e}");
    let furthest = a
        .positions
        .iter()
        .zip(&b.positions)
        .flat_map(|(a, b)| (0..3).map(move |i| (a[i] - b[i]).abs()))
        .fold(0.0, f64::max);
    assert!(furthest < 0.01, "{what}: {furthest} mm apart");
}

#[test]
fn a_coarse_start_changes_nothing_but_the_steps() {
    let tove = tove();
    let Dressed { form, field, .. } = &tove;
    let draft = drafted(&tove, &Design::default());
    for friction in [None, Some(Friction::new(0.3))] {
        let settings = Settings {
            friction,
            ..Settings::default()
        };
        let mut mesh = meshed(&draft, 11.0);
        // Settled cloth: the coarse mesh has to settle alike.
        mesh.mesh.grow(0, [0.02, 0.01]);
        let worn = wear(&mut mesh, &draft, form, field, &settings, &Silent).unwrap();
        let plain = Solver::new(&mesh.mesh)
            .unwrap()
            .solve(&mesh.mesh, Some(field), &worn.placed, &settings, &Silent)
            .unwrap();
        same(&format!("friction {friction:?}"), &worn.solved, &plain);
        // And it was of use.
        assert_eq!(worn.solved.passes[0].kind, PassKind::Coarse);
        let (with, without) = (steps_of_first(&worn.solved), steps_of_first(&plain));
        assert!(2 * with < without, "{with} steps against {without}");
    }
}

#[test]
fn a_changed_draft_goes_on_from_the_old_shape_to_the_same_end() {
    let tove = tove();
    let Dressed { form, field, .. } = &tove;
    let settings = Settings::default();
    let old_draft = drafted(&tove, &Design::default());
    let mut old = meshed(&old_draft, 14.0);
    let worn = wear(&mut old, &old_draft, form, field, &settings, &Silent).unwrap();
    let near = FlatShape::new(&old, &worn.solved.positions, field);
    let wider = Design {
        strap_width: Mm::new(50.0),
        ..Design::default()
    };
    let higher = Design {
        leg: LegHeight::High,
        ..Design::default()
    };
    for (what, design) in [("wider straps", wider), ("a higher leg", higher)] {
        let draft = drafted(&tove, &design);
        let mut mesh = meshed(&draft, 14.0);
        let cold = wear(&mut mesh.clone(), &draft, form, field, &settings, &Silent).unwrap();
        let warm = wear_near(&mut mesh, &draft, form, field, &near, &settings, &Silent).unwrap();
        same(what, &warm.solved, &cold.solved);
        let (with, without) = (steps_of_first(&warm.solved), steps_of_first(&cold.solved));
        assert!(with < without, "{what}: {with} steps against {without}");
    }
}

#[test]
fn any_number_of_threads_gives_the_same_bytes() {
    let tove = tove();
    let Dressed { form, field, .. } = &tove;
    let draft = drafted(&tove, &Design::default());
    let solve = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .unwrap();
        pool.install(|| {
            let again = BodyField::of_form(form);
            let worn = wear(
                &mut meshed(&draft, 16.0),
                &draft,
                form,
                &again,
                &Settings::default(),
                &Silent,
            )
            .unwrap();
            (again, worn)
        })
    };
    let (one, three) = (solve(1), solve(3));
    assert!(one.0 == *field && three.0 == *field);
    assert!(one.1 == three.1);
}
