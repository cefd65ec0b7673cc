//! Suits that are not alike left and right are meshed whole: the half's answer where both sides are alike, two sides where they are not.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

#[path = "common/bodies.rs"]
mod bodies;

use bodies::{MESH, at, average, drafted, elastic, laws, uneven, worn};
use draft::{BustShaping, Design, LiningCover};
use fixtures::with;
use solve::{Field, Settings, Stop, mesh_whole_suit, wear};
use units::{Level, Silent};

const LEVELS: [Level; 4] = [Level::Bust, Level::Underbust, Level::Waist, Level::HighHip];

#[test]
fn a_plain_suit_meshed_whole_gives_the_halfs_answer() {
    let on = average();
    let design = Design::default();
    let (draft, half_mesh, half) = worn(on, &design, true);
    let mut mesh = mesh_whole_suit(&draft, &laws(true), &elastic, MESH).unwrap();
    assert!(mesh.is_whole && !half_mesh.is_whole);
    let area = |m: &solve::SuitMesh, layer: usize| -> f64 {
        let own = m.mesh.triangles().iter().filter(|t| t.layer == layer);
        own.map(|t| t.area_mm2).sum()
    };
    for layer in [0, 1] {
        let (a, b) = (2.0 * area(&half_mesh, layer), area(&mesh, layer));
        assert!((a / b - 1.0).abs() < 2e-3, "{layer}: {a} {b}");
    }
    let whole = wear(
        &mut mesh,
        &draft,
        &on.form,
        &on.field,
        &Settings::default(),
        &Silent,
    )
    .unwrap();
    assert_eq!(whole.solved.stop, Stop::Converged);
    for level in LEVELS {
        let (a, b) = (at(&half, level), at(&whole, level));
        // Two meshes of one suit: .005 between mesh sizes (fit.md 10), coarser here.
        assert!(
            (a.around - b.around).abs() < 0.008,
            "{level:?}: {} {}",
            a.around,
            b.around
        );
        assert!((a.lengthwise - b.lengthwise).abs() < 0.015, "{level:?}");
        let (p, q) = (a.pressure_kpa, b.pressure_kpa);
        assert!((p - q).abs() < 0.04 + 0.1 * p, "{level:?}: {p} {q}");
    }
    let (a, b) = (half.strap.unwrap(), whole.strap.unwrap());
    assert!((a.stretch - b.stretch).abs() < 0.01, "{a:?} {b:?}");
    assert!(
        (a.rail_n - b.rail_n).abs() < 0.1 * a.rail_n.abs() + 0.05,
        "{a:?} {b:?}"
    );
    let (a, b) = (half.support.unwrap(), whole.support.unwrap());
    // A band 40 mm high is two rows of such a mesh or three.
    assert!((a.band_n / b.band_n - 1.0).abs() < 0.4, "{a:?} {b:?}");
    // Twice the energy of one side, and as much pushed on her right as on her left.
    assert!((whole.solved.energy() / half.solved.energy() / 2.0 - 1.0).abs() < 0.02);
    let pushed = |is_left: bool| -> f64 {
        let all = whole.solved.positions.iter().zip(&whole.solved.contact_n);
        all.filter(|(p, _)| (p[0] > 0.0) == is_left).map(|(_, f)| f).sum()
    };
    let (left, right) = (pushed(true), pushed(false));
    assert!((left / right - 1.0).abs() < 0.05, "{left} {right}");
}

#[test]
fn the_right_of_the_body_is_the_mirror_image_of_the_left() {
    let field = &average().field;
    for p in [[60.0, 300.0, 90.0], [120.0, 200.0, -40.0], [5.0, 100.0, -110.0]] {
        let (l, r) = (field.sample(p), field.sample([-p[0], p[1], p[2]]));
        let h = 1e-3;
        for i in 0..3 {
            let sign = |i: usize| if i == 0 { -1.0 } else { 1.0 };
            assert!((l.gradient[i] - sign(i) * r.gradient[i]).abs() < 1e-12);
            let moved = |by: f64| {
                let mut q = [-p[0], p[1], p[2]];
                q[i] += by;
                field.sample(q)
            };
            let slope = (moved(h).g - moved(-h).g) / (2.0 * h);
            assert!((slope - r.gradient[i]).abs() < 1e-4);
            for j in 0..3 {
                let bend = (moved(h).gradient[j] - moved(-h).gradient[j]) / (2.0 * h);
                assert!((bend - r.hessian[i][j]).abs() < 1e-4, "{i} {j}");
            }
        }
    }
}

#[test]
fn a_diagonal_front_is_sewn_all_round_and_both_straps_stay() {
    let (_, mesh, worn) = worn(
        average(),
        &with(Design::default(), "block_lines", "diagonal"),
        true,
    );
    assert!(mesh.is_whole);
    assert!(mesh.shoulder.len() > 1 && mesh.shoulder.len() == mesh.shoulder_right.len());
    let x = &worn.solved.positions;
    for (l, r) in mesh.shoulder.iter().zip(&mesh.shoulder_right) {
        assert!((x[*l][0] + x[*r][0]).abs() < 1.0, "{:?} {:?}", x[*l], x[*r]);
    }
    // Everything is one suit: from any triangle all others are reached.
    let mut set: Vec<usize> = (0..mesh.mesh.vertex_count()).collect();
    fn root(set: &mut [usize], mut v: usize) -> usize {
        while set[v] != v {
            set[v] = set[set[v]];
            v = set[v];
        }
        v
    }
    for t in mesh.mesh.triangles() {
        for v in &t.corners[1..] {
            let (a, b) = (root(&mut set, t.corners[0]), root(&mut set, *v));
            set[a] = b;
        }
    }
    let first = root(&mut set, 0);
    assert!((0..set.len()).all(|v| root(&mut set, v) == first));
    // The crotch is sewn over its whole width: its open edges end on both sides, not in its middle.
    let lowest = x.iter().map(|p| p[1]).fold(f64::INFINITY, f64::min);
    let legs = mesh.open_lines.iter().filter(|l| l.kind == draft::OpenKind::Leg);
    let ends: Vec<f64> = legs
        .flat_map(|l| [l.vertices[0], *l.vertices.last().unwrap()])
        .filter(|v| x[*v][1] < lowest + 25.0)
        .map(|v| x[v][0])
        .collect();
    assert!(
        !ends.is_empty() && ends.iter().all(|x| x.abs() > 15.0),
        "{ends:?}"
    );
}

#[test]
fn an_uneven_bust_is_put_on_with_both_its_fronts() {
    let design = Design {
        bust_shaping: BustShaping::Princess,
        lining: LiningCover::Full,
        ..Design::default()
    };
    let draft = drafted(uneven(), &design);
    assert!(draft.pieces.iter().any(|p| p.key == "side_front_left"));
    let (_, mesh, worn) = worn(uneven(), &design, true);
    assert!(mesh.is_whole);
    let x = &worn.solved.positions;
    let mean = |key: &str| -> f64 {
        let piece = mesh.pieces.iter().position(|p| p == key).unwrap();
        let own: Vec<f64> = (0..x.len())
            .filter(|v| mesh.flat(*v, piece).is_some())
            .map(|v| x[v][0])
            .collect();
        own.iter().sum::<f64>() / own.len() as f64
    };
    assert!(mean("side_front_left") > 60.0 && mean("side_front_right") < -60.0);
    assert!(mean("back").abs() < 3.0);
}
