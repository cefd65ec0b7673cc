//! Flat cloth against closed forms: any mesh of a square pulled two ways, a strip pulled one way along, across and between, a strip sheared.
//!
//! Sources: own closed forms in `data/fit`, each with its formula there.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use common::{Sheet, cases, close, law, number, random, sharp, solved, turned};
use solve::{triangle_stress, worn_stretch};

/// Every triangle of a random mesh carries the same stress, inner vertices come to rest from a disturbed start.
#[test]
fn a_patch_pulled_two_ways_is_even_in_24_cases() {
    let cases = cases(include_str!("../../../data/fit/biaxial_patch.json"));
    assert_eq!(cases.len(), 24);
    let mut disturb = random(11);
    let mut most_steps = 0;
    for case in &cases {
        let law = law(&case["material"]);
        let (lx, ly) = (number(&case["stretch_x"]), number(&case["stretch_y"]));
        let angle = number(&case["grain_angle_deg"]).to_radians();
        let sheet = Sheet::new(100.0, 100.0, 8, 8, 5);
        let mut mesh = sheet.mesh(&law, angle);
        let mut start = sheet.moved([[lx, 0.0], [0.0, ly]]);
        for (v, at) in start.iter_mut().enumerate() {
            if sheet.is_edge(v) {
                mesh.hold(v, [true; 3]);
            } else {
                at[0] += 4.0 * (disturb() - 0.5);
                at[1] += 4.0 * (disturb() - 0.5);
            }
        }
        let solved = solved(&mesh, None, &start, &sharp(1e-12));
        most_steps = most_steps.max(solved.step_count());
        let kb = (law.k_lengthwise() * law.k_around()).sqrt();
        for (stress, t) in triangle_stress(&mesh, &solved.positions)
            .iter()
            .zip(mesh.triangles())
        {
            close("energy", stress.energy, number(&case["W"]), 1e-9, kb * 1e-3);
            let s = turned(stress.s, angle);
            for (key, found) in [
                ("P_xx", lx * s[0][0]),
                ("P_yy", ly * s[1][1]),
                ("P_xy", lx * s[0][1]),
                ("P_yx", ly * s[1][0]),
            ] {
                close(&format!("{key} of {t:?}"), found, number(&case[key]), 1e-9, kb);
            }
        }
    }
    assert!(most_steps <= 15, "{most_steps} steps");
}

/// A strip whose ends may narrow: force and width. Its cloth lies just between taut and wrinkled, where the width is no longer held, so
/// the width is checked less sharply than the force.
#[test]
fn a_strip_pulled_along_or_across() {
    for case in cases(include_str!("../../../data/fit/uniaxial_strip.json")) {
        let law = law(&case["material"]);
        let stretch = number(&case["stretch"]);
        // The strip runs along y; axis 1 along it, or across it.
        let angle = if case["axis"] == 1 { 90.0_f64 } else { 0.0 };
        if case["width_ratio"].is_null() {
            // Nothing of the width would be left: the formula's strip is none, and the mesh's is stiffer.
            assert!(
                law.poisson() * (stretch * stretch - 1.0) * 300.0 / 150.0 > 1.0,
                "{case}"
            );
            continue;
        }
        let (force, width) = pulled_strip(&law, angle, stretch, 1e-9);
        close(
            &format!("force of {case}"),
            force,
            number(&case["T_per_rest_width"]),
            1e-8,
            0.0,
        );
        close(
            &format!("width of {case}"),
            width,
            number(&case["width_ratio"]),
            1e-6,
            0.0,
        );
    }
}

/// A strip cut between the grains, stretched by a hundred-thousandth, so that the small-strain stiffness is met within that much.
#[test]
fn a_strip_cut_on_the_bias() {
    for case in cases(include_str!("../../../data/fit/bias_strip.json")) {
        let law = law(&case["material"]);
        let strain = 1e-5;
        // The strip runs along y at `theta` from axis 1.
        let (force, _) = pulled_strip(&law, 90.0 - number(&case["theta_deg"]), 1.0 + strain, 1e-10);
        close(&format!("{case}"), force / strain, number(&case["Y"]), 1e-4, 0.0);
    }
}

/// Force per rest width, N/m, and width ratio of a strip 50 x 100 along y whose axis 1 lies `angle` degrees from x.
fn pulled_strip(law: &cloth::Law, angle: f64, stretch: f64, residual_n: f64) -> (f64, f64) {
    let sheet = Sheet::new(50.0, 100.0, 5, 10, 3);
    let mut mesh = sheet.mesh(law, angle.to_radians());
    let count = sheet.points.len();
    for v in (0..=sheet.nx).chain(count - 1 - sheet.nx..count) {
        mesh.hold(v, [false, true, false]);
    }
    mesh.hold(0, [true, true, true]);
    let start = sheet.moved([[1.0, 0.0], [0.0, stretch]]);
    let solved = solved(&mesh, None, &start, &sharp(residual_n));
    let pull: f64 = solved.reactions_n[count - 1 - sheet.nx..]
        .iter()
        .map(|r| r[1])
        .sum();
    let bottom = solved.positions[sheet.nx][0] - solved.positions[0][0];
    (pull / 50.0 * 1e3, bottom / 50.0)
}

/// Sheared between clamps the cloth wrinkles along one line everywhere and is nowhere compressed.
#[test]
fn a_strip_sheared_between_clamps() {
    for case in cases(include_str!("../../../data/fit/shear_strip.json")) {
        let law = law(&case["material"]);
        let gamma = number(&case["gamma"]);
        let sheet = Sheet::new(60.0, 40.0, 9, 6, 8);
        // Axis 1 along x, axis 2 along y: turned over, 2 E12 changes sign.
        let mut mesh = sheet.mesh(&law, 0.0);
        let mut start = sheet.moved([[1.0, gamma], [0.0, 1.0]]);
        let mut disturb = random(2);
        for (v, at) in start.iter_mut().enumerate() {
            if sheet.is_edge(v) {
                mesh.hold(v, [true; 3]);
            } else {
                at[0] += 0.5 * (disturb() - 0.5);
                at[1] += 0.5 * (disturb() - 0.5);
            }
        }
        let solved = solved(&mesh, None, &start, &sharp(1e-11));
        let stresses = triangle_stress(&mesh, &solved.positions);
        let area: f64 = mesh.triangles().iter().map(|t| t.area_mm2).sum();
        let energy: f64 = stresses
            .iter()
            .zip(mesh.triangles())
            .map(|(s, t)| s.energy * t.area_mm2)
            .sum();
        close("energy", energy / area, number(&case["W"]), 1e-8, 0.0);
        assert!(
            worn_stretch(&mesh, &solved.positions)
                .iter()
                .all(|l| l[0].is_finite())
        );
        for stress in &stresses {
            assert_eq!(stress.state, cloth::Tautness::Wrinkled);
            for i in 0..3 {
                let expected = number(&case["S"][i]) * if i == 2 { -1.0 } else { 1.0 };
                close("stress", stress.s[i], expected, 1e-6, 0.0);
            }
            assert!(solve::least_principal_stress(stress) > -1e-9 * 100.0);
        }
    }
}
