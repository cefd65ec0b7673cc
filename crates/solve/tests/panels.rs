//! Suits whose front and back are cut in parts: princess seams, side panels, seams round the body, blocks.
//!
//! A seam between parts of one flat piece changes nothing of the cloth: such a suit must sit as the uncut one does, which is the outside
//! reference here. Princess panels are shaped: they are held against the darted front of the same body.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

#[path = "common/bodies.rs"]
mod bodies;

use bodies::{at, average, full_bust, meshed, worn};
use draft::{BustShaping, Design, LiningCover};
use fixtures::with;
use units::Level;

const LEVELS: [Level; 4] = [Level::Bust, Level::Underbust, Level::Waist, Level::HighHip];

fn princess() -> Design {
    Design {
        bust_shaping: BustShaping::Princess,
        ..Design::default()
    }
}

#[test]
fn cloth_cut_in_parts_and_sewn_together_sits_as_the_uncut_cloth() {
    let plain = worn(average(), &Design::default(), false).2;
    for (key, word, parts) in [
        ("seam_at", "waist", 4),
        ("block_lines", "side-panels", 4),
        ("block_lines", "chest-band", 6),
    ] {
        let (draft, mesh, cut) = worn(average(), &with(Design::default(), key, word), false);
        assert_eq!(mesh.pieces.len(), parts, "{word}: {:?}", mesh.pieces);
        let area: f64 = mesh.mesh.triangles().iter().map(|t| t.area_mm2).sum();
        let drawn: f64 = draft
            .pieces
            .iter()
            .filter(|p| mesh.pieces.contains(&p.key))
            .flat_map(|p| p.edges.iter().map(|e| e.curve.signed_area()))
            .sum();
        assert!((area / drawn - 1.0).abs() < 5e-3, "{word}: {area} {drawn}");
        for level in LEVELS {
            let (a, b) = (at(&plain, level), at(&cut, level));
            // Another mesh of the same cloth: level stretch moves by .005 between mesh sizes (fit.md 10).
            assert!(
                (a.around - b.around).abs() < 0.008,
                "{word} {level:?}: {} {}",
                a.around,
                b.around
            );
            let off = (a.lengthwise - b.lengthwise).abs();
            assert!(off < 0.02, "{word} {level:?}: {} {}", a.lengthwise, b.lengthwise);
        }
    }
}

#[test]
fn princess_panels_agree_with_the_dart_on_two_bodies() {
    for on in [average(), full_bust()] {
        let dart = Design {
            bust_shaping: BustShaping::SideDart,
            ..Design::default()
        };
        let (a, b) = (worn(on, &dart, false).2, worn(on, &princess(), false).2);
        for level in LEVELS {
            let (a, b) = (at(&a, level), at(&b, level));
            // A large cup's dart and princess worn: bust 1.155 and 1.149, underbust 1.135 and 1.141, waist 1.144 and 1.147,
            // above the leg 1.144 and 1.144 (own trials, fit.md 10). The bust is where they are shaped otherwise.
            let most = if level == Level::Bust { 0.03 } else { 0.02 };
            assert!(
                (a.around - b.around).abs() < most,
                "{level:?}: {} {}",
                a.around,
                b.around
            );
        }
        let strap = |w: &solve::WornSuit| w.strap.unwrap().stretch;
        assert!(
            (strap(&a) - strap(&b)).abs() < 0.04,
            "{} {}",
            strap(&a),
            strap(&b)
        );
    }
}

#[test]
fn princess_seams_stay_together_and_run_smooth() {
    let (draft, mesh, worn) = worn(full_bust(), &princess(), false);
    let sewn: f64 = draft
        .seams
        .iter()
        .filter(|s| s.name.starts_with("princess"))
        .map(|s| s.first_mm)
        .sum();
    let of = |v: usize, key: &str| {
        let piece = mesh.pieces.iter().position(|p| p == key).unwrap();
        mesh.flat(v, piece).is_some()
    };
    let mut on_seam: Vec<[f64; 3]> = (0..mesh.mesh.vertex_count())
        .filter(|v| of(*v, "centre_front") && of(*v, "side_front"))
        .map(|v| worn.solved.positions[v])
        .collect();
    on_seam.sort_by(|a, b| a[1].total_cmp(&b[1]));
    let expected = sewn / bodies::MESH;
    let count = on_seam.len() as f64;
    assert!(
        (count - expected).abs() < 0.1 * expected + 3.0,
        "{count} {expected}"
    );
    // From point to point the line turns little: a fold or a jump would turn it back.
    for w in on_seam.windows(3) {
        let d = |a: [f64; 3], b: [f64; 3]| [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
        let (u, v) = (d(w[0], w[1]), d(w[1], w[2]));
        let dot = |a: [f64; 3], b: [f64; 3]| a.iter().zip(b).map(|(x, y)| x * y).sum::<f64>();
        let cosine = dot(u, v) / (dot(u, u) * dot(v, v)).sqrt();
        assert!(cosine > 0.7, "{w:?}");
    }
}

#[test]
fn every_part_of_a_princess_suit_with_side_panels_is_meshed_and_lined() {
    let design = Design {
        lining: LiningCover::Full,
        ..princess()
    };
    let (_, mesh) = meshed(full_bust(), &design, true);
    let area = |layer: usize| -> f64 {
        let own = mesh.mesh.triangles().iter().filter(|t| t.layer == layer);
        own.map(|t| t.area_mm2).sum()
    };
    assert!((area(1) / area(0) - 1.0).abs() < 1e-9, "{} {}", area(1), area(0));
    assert!(mesh.left_out.is_empty(), "{:?}", mesh.left_out);
}
