//! Cloth under the shell: linings of another shape lie where they are drawn and carry their share.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

#[path = "common/bodies.rs"]
mod bodies;

use bodies::{average, full_bust, meshed, worn};
use draft::{Design, LiningCover};
use fixtures::with;

fn lined(lining: LiningCover) -> Design {
    Design {
        lining,
        ..Design::default()
    }
}

fn drawn_area(draft: &draft::Draft, key: &str) -> f64 {
    let piece = draft.pieces.iter().find(|p| p.key == key).unwrap();
    piece.edges.iter().map(|e| e.curve.signed_area()).sum()
}

#[test]
fn a_crotch_lining_covers_what_is_drawn_of_it() {
    for on in [average(), full_bust()] {
        let (draft, mesh) = meshed(on, &lined(LiningCover::Crotch), true);
        let under: f64 = mesh
            .mesh
            .triangles()
            .iter()
            .filter(|t| t.layer == 1)
            .map(|t| t.area_mm2)
            .sum();
        let drawn = drawn_area(&draft, "crotch_lining");
        // The mesh is cut along its ends; chords stand for the leg's curve.
        assert!((under / drawn - 1.0).abs() < 0.01, "{under} {drawn}");
        assert!(mesh.left_out.is_empty(), "{:?}", mesh.left_out);
    }
}

#[test]
fn a_lined_crotch_carries_more_pull() {
    for on in [average(), full_bust()] {
        let (_, bare_mesh, bare) = worn(on, &lined(LiningCover::Crotch), false);
        let (_, mesh, lined) = worn(on, &lined(LiningCover::Crotch), true);
        // The crotch seam: points on front and back at the middle, lowest on the body. What passes it is what the cloth on one side pulls with.
        let pull = |mesh: &solve::SuitMesh, w: &solve::WornSuit| -> f64 {
            let x = &w.solved.positions;
            let stress = solve::triangle_stress(&mesh.mesh, x);
            let stretch = solve::worn_stretch(&mesh.mesh, x);
            let lowest = x.iter().map(|p| p[1]).fold(f64::INFINITY, f64::min);
            let near = mesh.mesh.triangles().iter().zip(&stress).zip(&stretch);
            let mut sums = [0.0; 2];
            for ((t, s), l) in near {
                if t.corners.iter().all(|v| x[*v][1] < lowest + 20.0) {
                    sums[0] += s.s[0] * l[0] * t.area_mm2;
                    sums[1] += if t.layer == 0 { t.area_mm2 } else { 0.0 };
                }
            }
            sums[0] / sums[1]
        };
        let (a, b) = (pull(&bare_mesh, &bare), pull(&mesh, &lined));
        assert!(b > 1.08 * a, "{a} {b}");
    }
}

#[test]
fn a_front_lining_lies_under_a_front_cut_in_parts() {
    let design = with(lined(LiningCover::Front), "seam_at", "waist");
    let (draft, mesh) = meshed(average(), &design, true);
    let under: f64 = mesh
        .mesh
        .triangles()
        .iter()
        .filter(|t| t.layer == 1)
        .map(|t| t.area_mm2)
        .sum();
    let drawn: f64 = draft
        .pieces
        .iter()
        .filter(|p| p.key.contains("front") && p.key.contains("lining"))
        .map(|p| p.edges.iter().map(|e| e.curve.signed_area()).sum::<f64>())
        .sum();
    assert!(
        drawn > 0.0 && (under / drawn - 1.0).abs() < 0.01,
        "{under} {drawn}"
    );
}

#[test]
fn a_shelf_bra_lies_to_its_hem_and_pulls_there() {
    let design = with(lined(LiningCover::None), "shelf_bra", "yes");
    let (draft, mesh, worn) = worn(average(), &design, true);
    let drawn = drawn_area(&draft, "shelf_bra");
    let under: f64 = mesh
        .mesh
        .triangles()
        .iter()
        .filter(|t| t.layer == 1)
        .map(|t| t.area_mm2)
        .sum();
    assert!((under / drawn - 1.0).abs() < 0.01, "{under} {drawn}");
    let hem = worn.edges.iter().find(|e| e.piece == "shelf_bra").unwrap();
    // Its elastic is cut to 0.95 of it and lies on cloth that is pulled: longer than at rest.
    assert!(
        hem.elastic_n > 0.2 && (1.05..1.5).contains(&hem.stretch),
        "{hem:?}"
    );
    assert!(
        mesh.left_out.iter().any(|l| l.contains("shelf bra")),
        "{:?}",
        mesh.left_out
    );
}

#[test]
fn a_cup_makes_the_cloth_stiffer_where_it_lies() {
    let bare = lined(LiningCover::None);
    let cups = Design {
        cups: draft::Cups::Marks,
        ..bare.clone()
    };
    let (draft, mesh, with_cups) = worn(average(), &cups, false);
    let ring = draft.pieces.iter().flat_map(|p| &p.marks).find_map(|m| match m {
        draft::Mark::Placement { curve, text } if text == "cup" => Some(curve),
        _ => None,
    });
    let drawn = ring.unwrap().signed_area().abs();
    let own = || {
        mesh.mesh
            .triangles()
            .iter()
            .enumerate()
            .filter(|(_, t)| t.layer == 2)
    };
    let area: f64 = own().map(|(_, t)| t.area_mm2).sum();
    // Triangles are in or out by their middle: half of those on the ring are wrong either way.
    assert!((area / drawn - 1.0).abs() < 0.15, "{area} {drawn}");
    let without = worn(average(), &bare, false).2;
    let stretch = solve::worn_stretch(&mesh.mesh, &with_cups.solved.positions);
    let mean = own().map(|(i, t)| t.area_mm2 * stretch[i][1]).sum::<f64>() / area;
    // The rest of the level gives more instead.
    let level = bodies::at(&without, units::Level::Bust).around;
    assert!(mean > 1.0 && mean < level - 0.02, "{mean} {level}");
    assert!(
        mesh.left_out.iter().any(|l| l.contains("no cup was measured")),
        "{:?}",
        mesh.left_out
    );
}
