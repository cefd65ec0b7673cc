//! Drafted suits on fitted forms: they are solved, the same each time and from every start, and answer changes as cloth does.
//!
//! No published worn suit is at hand: what is checked are laws any answer must keep (balance, no compression, one least energy) and the
//! direction of changes. Bodies are invented.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

#[path = "common/bodies.rs"]
mod bodies;
mod common;

use std::cell::Cell;

use bodies::{Dressed, average, drafted, elastic};
use cloth::{Fit, Law};
use draft::{Design, Draft, LiningCover, Style};
use solve::{
    Elastic, Field, Friction, OpenPlace, Settings, Solver, Stop, SuitLaws, SuitMesh, WornSuit,
    least_principal_stress, mesh_suit, place, triangle_stress, wear,
};
use units::{Level, Progress, Silent};

/// Coarse, so that the whole file takes seconds.
const MESH: f64 = 14.0;

fn suit(design: &Design) -> Draft {
    drafted(average(), design)
}

fn shell() -> Law {
    Law::new(160.0, 110.0, 0.35, 0.3).unwrap()
}

fn meshed(draft: &Draft, lining: Option<Law>) -> SuitMesh {
    mesh_suit(
        draft,
        &SuitLaws {
            shell: shell(),
            lining,
        },
        &elastic,
        MESH,
    )
    .unwrap()
}

fn worn(design: &Design, settings: &Settings) -> (SuitMesh, WornSuit) {
    let draft = suit(design);
    let lining = (design.lining == LiningCover::Full).then(|| Law::new(60.0, 45.0, 0.35, 0.3).unwrap());
    let mut mesh = meshed(&draft, lining);
    let worn = wear(
        &mut mesh,
        &draft,
        &average().form,
        &average().field,
        settings,
        &Silent,
    )
    .unwrap();
    (mesh, worn)
}

fn at(worn: &WornSuit, level: Level) -> solve::WornLevel {
    *worn.levels.iter().find(|l| l.level == level).unwrap()
}

#[test]
fn the_field_is_the_forms_skin_and_its_slopes_are_its_own() {
    let Dressed { form, field, .. } = average();
    let crotch = form.level_height(Level::Crotch);
    let shoulder = form.level_height(Level::Shoulder);
    // The slot takes the inner thighs away on purpose; the arms' roots are closed by stubs.
    let mut off: Vec<f64> = form
        .vertices()
        .iter()
        .filter(|p| p[0] > 0.0 && p[1] > crotch + 80.0 && p[1] < shoulder)
        .map(|p| field.value(*p))
        .collect();
    off.sort_by(f64::total_cmp);
    let share = |s: f64| off[((off.len() - 1) as f64 * s) as usize];
    assert!(off.len() > 300);
    assert!(
        share(0.05) > -0.8 && share(0.95) < 0.8,
        "{} {}",
        share(0.05),
        share(0.95)
    );
    let h = 1e-3;
    for p in form.vertices().iter().filter(|p| p[0] > 0.0).step_by(37) {
        let sample = field.sample(*p);
        assert!((sample.g - field.value(*p)).abs() < 1e-9);
        for i in 0..3 {
            let moved = |by: f64| {
                let mut q = *p;
                q[i] += by;
                field.sample(q)
            };
            let (up, down) = (moved(h), moved(-h));
            let slope = (up.g - down.g) / (2.0 * h);
            assert!(
                (slope - sample.gradient[i]).abs() < 1e-4,
                "{slope} {:?}",
                sample.gradient
            );
            for j in 0..3 {
                let bend = (up.gradient[j] - down.gradient[j]) / (2.0 * h);
                assert!(
                    (bend - sample.hessian[i][j]).abs() < 1e-4,
                    "{bend} {:?}",
                    sample.hessian
                );
            }
        }
    }
}

#[test]
fn a_one_piece_is_put_on_and_every_part_of_it_pulls() {
    let (mesh, worn) = worn(&Design::default(), &Settings::default());
    let solved = &worn.solved;
    assert_eq!(solved.stop, Stop::Converged);
    assert!(solved.residual_n() < 1e-5 && solved.penetration_mm() < 0.5);
    assert!(solved.step_count() < 120, "{}", solved.step_count());
    for pass in &solved.passes {
        let energies: Vec<f64> = pass.steps.iter().map(|s| s.energy).collect();
        assert!(
            energies.windows(2).all(|w| w[1] <= w[0] * (1.0 + 1e-12)),
            "{energies:?}"
        );
    }
    for stress in triangle_stress(&mesh.mesh, &solved.positions) {
        assert!(least_principal_stress(&stress) > -1e-7);
    }
    // What the body pushes and what is held is all there is: forces balance, up and forward.
    for i in 1..3 {
        let pushed: f64 = solved
            .positions
            .iter()
            .zip(&solved.contact_n)
            .map(|(p, f)| {
                let n = average().field.sample(*p).gradient;
                f * n[i] / n.iter().map(|x| x * x).sum::<f64>().sqrt()
            })
            .sum();
        let all: f64 = solved.contact_n.iter().sum();
        assert!(pushed.abs() < 2e-3 * all, "{pushed} of {all} N");
    }
    // The draft meant about 0.13 to 0.16 around between hip and bust.
    for level in [Level::Bust, Level::Waist, Level::HighHip] {
        let l = at(&worn, level);
        assert!((1.10..1.22).contains(&l.around), "{l:?}");
        assert!((0.03..1.5).contains(&l.pressure_kpa), "{l:?}");
    }
    let strap = worn.strap.unwrap();
    assert!((1.03..1.3).contains(&strap.stretch), "{strap:?}");
    assert!(strap.needed_friction < 1.0, "{strap:?}");
    // It bridges between the breasts and stands off nowhere else so far.
    assert!((5.0..45.0).contains(&worn.gapes[0].depth_mm), "{:?}", worn.gapes);
    assert!(worn.gapes[0].at[0] < 30.0 && worn.gapes[0].at[2] > 0.0);
}

#[test]
fn sewn_edges_are_divided_alike_and_meet() {
    let draft = suit(&Design::default());
    let mesh = meshed(&draft, None);
    // Side, shoulder and crotch seams: points that lie on both pieces.
    let both: Vec<usize> = (0..mesh.mesh.vertex_count())
        .filter(|v| mesh.flat(*v, 0).is_some() && mesh.flat(*v, 1).is_some())
        .collect();
    let sewn: f64 = draft.seams.iter().map(|s| s.first_mm).sum();
    let expected = sewn / MESH;
    assert!(
        (both.len() as f64 - expected).abs() < 0.2 * expected + 4.0,
        "{} {expected}",
        both.len()
    );
    assert!(mesh.shoulder.len() >= 2);
    for v in &mesh.shoulder {
        assert!(both.contains(v));
    }
    let area: f64 = mesh.mesh.triangles().iter().map(|t| t.area_mm2).sum();
    let drawn: f64 = draft
        .pieces
        .iter()
        .filter(|p| p.key == "front" || p.key == "back")
        .map(|p| p.edges.iter().map(|e| e.curve.signed_area()).sum::<f64>())
        .sum();
    assert!((area / drawn - 1.0).abs() < 5e-3, "{area} {drawn}");
}

#[test]
fn the_same_suit_gives_the_same_numbers_and_every_start_the_same_energy() {
    let draft = suit(&Design::default());
    let Dressed { field, .. } = average();
    let mut mesh = meshed(&draft, None);
    let placed = place(&mesh, &draft, field).unwrap();
    for v in mesh.shoulder.clone() {
        mesh.mesh.hold(v, [true, false, false]);
    }
    let settings = Settings {
        augmented_passes: 0,
        ..Settings::default()
    };
    let solve = |start: &[[f64; 3]]| {
        let mut solver = Solver::new(&mesh.mesh).unwrap();
        solver
            .solve(&mesh.mesh, Some(field), start, &settings, &Silent)
            .unwrap()
    };
    let first = solve(&placed);
    assert_eq!(first, solve(&placed));
    assert_eq!(first.stop, Stop::Converged);
    // Further out; the rail keeps its place, or it would be another problem.
    let out: Vec<[f64; 3]> = placed
        .iter()
        .enumerate()
        .map(|(v, p)| {
            if mesh.mesh.held()[v][0] {
                [p[0], p[1], 1.15 * p[2]]
            } else {
                [1.15 * p[0], p[1], 1.15 * p[2]]
            }
        })
        .collect();
    let other = solve(&out);
    assert_eq!(other.stop, Stop::Converged);
    assert!(
        (other.energy() / first.energy() - 1.0).abs() < 1e-6,
        "{} {}",
        other.energy(),
        first.energy()
    );
    // From the answer itself nothing is left to do.
    let mut solver = Solver::new(&mesh.mesh).unwrap();
    let from = (&first.positions[..], &first.multipliers[..]);
    let again = solver
        .solve_from(&mesh.mesh, Some(field), &placed, from, &settings, &Silent)
        .unwrap();
    assert_eq!(again.step_count(), 0);
}

#[test]
fn a_firmer_suit_and_a_lining_squeeze_more() {
    let regular = worn(&Design::default(), &Settings::default()).1;
    let firm = worn(
        &Design {
            fit: Fit::Firm,
            ..Design::default()
        },
        &Settings::default(),
    )
    .1;
    let lined = worn(
        &Design {
            lining: LiningCover::Full,
            ..Design::default()
        },
        &Settings::default(),
    );
    assert!(
        lined.1.lining.iter().any(Option::is_some),
        "{:?}",
        lined.0.left_out
    );
    for level in [Level::Waist, Level::HighHip] {
        let [a, b, c] = [&regular, &firm, &lined.1].map(|w| at(w, level));
        assert!(b.around > a.around + 0.02, "{a:?} {b:?}");
        assert!(b.pressure_kpa > 1.1 * a.pressure_kpa, "{a:?} {b:?}");
        assert!(c.pressure_kpa > 1.1 * a.pressure_kpa, "{a:?} {c:?}");
    }
}

#[test]
fn friction_keeps_the_cloth_where_it_was_placed() {
    let free = worn(&Design::default(), &Settings::default()).1;
    let held = worn(
        &Design::default(),
        &Settings {
            friction: Some(Friction::new(0.4)),
            ..Settings::default()
        },
    )
    .1;
    assert_eq!(held.solved.stop, Stop::Converged);
    let moved = |w: &WornSuit| {
        let all = w.placed.iter().zip(&w.solved.positions);
        all.map(|(a, b)| (0..3).map(|i| (a[i] - b[i]).powi(2)).sum::<f64>().sqrt())
            .sum::<f64>()
            / w.placed.len() as f64
    };
    assert!(
        moved(&held) < 0.8 * moved(&free),
        "{} {}",
        moved(&held),
        moved(&free)
    );
}

#[test]
fn a_stronger_elastic_goes_on_from_the_last_answer() {
    let draft = suit(&Design::default());
    let Dressed { form, field, .. } = average();
    let settings = Settings::default();
    let mut first = meshed(&draft, None);
    let worn = wear(&mut first, &draft, form, field, &settings, &Silent).unwrap();
    let stronger = |place: OpenPlace<'_>| {
        elastic(place).map(|e| Elastic {
            stiffness_n: 5.5,
            ..e
        })
    };
    let laws = SuitLaws {
        shell: shell(),
        lining: None,
    };
    let mut second = mesh_suit(&draft, &laws, &stronger, MESH).unwrap();
    let cold = wear(&mut second, &draft, form, field, &settings, &Silent).unwrap();
    let from = (&worn.solved.positions[..], &worn.solved.multipliers[..]);
    let mut solver = Solver::new(&second.mesh).unwrap();
    let warm = solver
        .solve_from(&second.mesh, Some(field), &worn.placed, from, &settings, &Silent)
        .unwrap();
    assert_eq!(warm.stop, Stop::Converged);
    let (few, many) = (warm.step_count(), cold.solved.step_count());
    assert!(2 * few < many, "{few} {many}");
    assert!((warm.energy() / cold.solved.energy() - 1.0).abs() < 1e-5);
}

#[test]
fn a_brief_is_put_on() {
    let (_, worn) = worn(
        &Design {
            style: Style::BRIEF,
            ..Design::default()
        },
        &Settings::default(),
    );
    assert_eq!(worn.solved.stop, Stop::Converged);
    assert!(worn.strap.is_none());
    assert!((1.08..1.25).contains(&at(&worn, Level::HighHip).around));
}

#[test]
fn a_mesh_too_fine_says_so() {
    let laws = SuitLaws {
        shell: shell(),
        lining: None,
    };
    let fine = mesh_suit(&suit(&Design::default()), &laws, &elastic, 0.5).unwrap_err();
    assert_eq!(fine.to_string(), "mesh size is 0.5 mm: give 3 to 25");
}

#[test]
fn a_solve_can_be_stopped_and_says_how_far_it_came() {
    struct After(Cell<u64>);
    impl Progress for After {
        fn at(&self, done: u64, of: u64, words: &str) {
            assert!(done <= of && words.contains("largest force"));
            self.0.set(done);
        }
        fn should_stop(&self) -> bool {
            self.0.get() >= 3
        }
    }
    let draft = suit(&Design::default());
    let mut mesh = meshed(&draft, None);
    let Dressed { form, field, .. } = average();
    let stopped = wear(
        &mut mesh,
        &draft,
        form,
        field,
        &Settings::default(),
        &After(Cell::new(0)),
    )
    .unwrap();
    assert_eq!(stopped.solved.stop, Stop::Cancelled);
    assert_eq!(stopped.solved.step_count(), 3);
    let short = Settings {
        most_steps: 5,
        ..Settings::default()
    };
    let mut mesh = meshed(&draft, None);
    let short = wear(&mut mesh, &draft, form, field, &short, &Silent).unwrap();
    assert_eq!(short.solved.stop, Stop::StepsUsedUp);
    assert!(short.solved.stop.words().starts_with("not solved"));
}
