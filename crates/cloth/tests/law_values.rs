//! The law against worked values computed elsewhere, to 40 digits, from the same closed forms (`data/fit/README.md`).
//!
//! These guard the arithmetic. That a real swim knit follows the law is not shown by them.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use cloth::{Axis, Law, Membrane, Tautness};
use serde_json::Value;

fn cases(text: &str) -> Vec<Value> {
    let file: Value = serde_json::from_str(text).unwrap();
    let cases = file["cases"].as_array().unwrap().clone();
    assert!(!cases.is_empty(), "a file without cases checks nothing");
    cases
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

fn law(material: &Value) -> Law {
    Law::new(
        number(&material["k1"]),
        number(&material["k2"]),
        number(&material["nu"]),
        number(&material["beta"]),
    )
    .unwrap()
    .with_shear(number(&material["G"]))
    .unwrap()
}

#[track_caller]
fn close(found: f64, expected: f64, relative: f64, scale: f64) {
    assert!(
        (found - expected).abs() <= relative * scale.max(expected.abs()),
        "found {found}, expected {expected}"
    );
}

/// Source: own closed form, `data/fit/law_points.json`. The wrinkled angle there comes from 40-digit root finding; a double
/// keeps about half its digits in the angle of a maximum, but N is flat there and S loses no more than 1e-10 of kb.
#[test]
fn stress_and_energy_at_36_strains() {
    let cases = cases(include_str!("../../../data/fit/law_points.json"));
    assert_eq!(cases.len(), 36);
    for case in &cases {
        let law = law(&case["material"]);
        let e = [0, 1, 2].map(|i| number(&case["e"][i]));
        let stress = law.stress(e);
        let state = match stress.state {
            Tautness::Slack => "slack",
            Tautness::Wrinkled => "wrinkled",
            Tautness::Taut => "taut",
        };
        assert_eq!(state, case["state"].as_str().unwrap(), "{case}");
        let kb = (law.k_lengthwise() * law.k_around()).sqrt();
        close(stress.strain, number(&case["N"]), 1e-10, 0.0);
        close(stress.energy, number(&case["W"]), 1e-10, 0.0);
        for i in 0..3 {
            close(stress.s[i], number(&case["S"][i]), 1e-10, kb);
        }
    }
}

/// The tangent against central differences of the stress, and no direction in which more strain gives less pull: at the 36
/// strains of `data/fit/law_points.json` and at 400 more of seeded random cloths, a quarter of them with a shear stiffness of their own.
#[test]
fn the_tangent_is_the_slope_of_the_stress() {
    let mut points: Vec<(Law, [f64; 3])> = cases(include_str!("../../../data/fit/law_points.json"))
        .iter()
        .map(|case| (law(&case["material"]), [0, 1, 2].map(|i| number(&case["e"][i]))))
        .collect();
    let mut seed = 7_u64;
    let mut random = || {
        seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (seed >> 11) as f64 / (1_u64 << 53) as f64
    };
    for i in 0..400 {
        let mut law = Law::new(
            50.0 + 400.0 * random(),
            50.0 + 400.0 * random(),
            0.5 * random(),
            2.0 * random(),
        )
        .unwrap();
        if i % 4 == 0 {
            law = law.with_shear(30.0 + 200.0 * random()).unwrap();
        }
        points.push((law, [0, 1, 2].map(|_| 1.2 * random() - 0.4)));
    }
    let mut seen = [0; 3];
    for (law, e) in points {
        let membrane = Membrane::new(&law);
        let (stress, tangent) = membrane.response(e);
        seen[stress.state as usize] += 1;
        assert_eq!(stress, membrane.stress(e));
        let h = 1e-6;
        for j in 0..3 {
            let moved = |by: f64| {
                let mut at = e;
                at[j] += by;
                membrane.stress(at)
            };
            let (up, down) = (moved(h), moved(-h));
            if up.state != stress.state || down.state != stress.state {
                continue;
            }
            for (i, row) in tangent.iter().enumerate() {
                let slope = (up.s[i] - down.s[i]) / (2.0 * h);
                let off = (row[j] - slope).abs();
                assert!(
                    off < 1e-6 * membrane.k_mean(),
                    "{law:?} {e:?} {i}{j}: {} {slope}",
                    row[j]
                );
            }
        }
        // Every principal minor of a matrix without negative principal values is at least 0.
        let t = tangent;
        let minor = |a: usize, b: usize| t[a][a] * t[b][b] - t[a][b] * t[b][a];
        let k = membrane.k_mean();
        assert!((0..3).all(|i| t[i][i] >= -1e-10 * k));
        assert!(minor(0, 1).min(minor(0, 2)).min(minor(1, 2)) >= -1e-9 * k * k);
        // No compression: both principal stresses at least 0.
        let [s1, s2, s12] = stress.s;
        let least = (s1 + s2) / 2.0 - ((s1 - s2) / 2.0).hypot(s12);
        assert!(least >= -1e-9 * k, "{law:?} {e:?}: {least}");
    }
    assert!(seen.iter().all(|n| *n > 20), "{seen:?}");
}

/// Source: own closed form, `data/fit/uniaxial_strip.json`.
#[test]
fn a_strip_pulled_with_free_sides() {
    for case in cases(include_str!("../../../data/fit/uniaxial_strip.json")) {
        let law = law(&case["material"]);
        let axis = match case["axis"].as_u64() {
            Some(1) => Axis::Lengthwise,
            _ => Axis::Around,
        };
        let l = number(&case["stretch"]);
        close(
            law.strip_tension(axis, l),
            number(&case["T_per_rest_width"]),
            1e-12,
            0.0,
        );
        match (law.strip_width_ratio(axis, l), case["width_ratio"].as_f64()) {
            (Some(found), Some(expected)) => close(found, expected, 1e-10, 0.0),
            (found, expected) => assert_eq!(found, expected, "{case}"),
        }
    }
}

/// Source: own closed form, `data/fit/calibration.json`. Its first stretch is lengthwise, its second around.
#[test]
fn stiffness_from_two_stretches_read_at_one_force() {
    for case in cases(include_str!("../../../data/fit/calibration.json")) {
        let law = Law::from_stretch(
            number(&case["stretched_ratio_grain"]) - 1.0,
            number(&case["stretched_ratio_cross"]) - 1.0,
            number(&case["force_N"]) / number(&case["strip_width_m"]),
            number(&case["beta"]),
        )
        .unwrap();
        close(law.k_lengthwise(), number(&case["k1"]), 1e-10, 0.0);
        close(law.k_around(), number(&case["k2"]), 1e-10, 0.0);
        close(
            law.strip_tension(Axis::Lengthwise, 1.2),
            number(&case["T_grain_at_1p2"]),
            1e-10,
            0.0,
        );
        close(
            law.strip_tension(Axis::Around, 1.2),
            number(&case["T_cross_at_1p2"]),
            1e-10,
            0.0,
        );
    }
}

/// Source: own closed form, `data/fit/two_layer.json`: worn hoop tensions add; the lining may be cut smaller around.
#[test]
fn shell_and_lining_pull_together() {
    for case in cases(include_str!("../../../data/fit/two_layer.json")) {
        let (shell, lining) = (law(&case["shell"]), law(&case["lining"]));
        let (around, lengthwise) = (number(&case["hoop_stretch"]), number(&case["length_stretch"]));
        // Per worn width: the width of a hoop's cloth is its length along the cylinder.
        let worn = |law: &Law, cut: f64| law.tension(lengthwise, around / cut).around / lengthwise;
        let radius = number(&case["R"]);
        let both = worn(&shell, 1.0) + worn(&lining, 1.0);
        close(both, number(&case["hoop_tension_worn"]), 1e-12, 0.0);
        close(both / radius, number(&case["pressure"]), 1e-12, 0.0);
        let cut = worn(&shell, 1.0) + worn(&lining, 0.97);
        close(
            cut,
            number(&case["with_lining_cut_0p97_around"]["hoop_tension_worn"]),
            1e-12,
            0.0,
        );
    }
}

/// Source: convexity of the relaxed energy (Pipkin 1986, from memory): no strain gives compression, and N is never less
/// than m.e / sqrt(m.A m) of any direction.
#[test]
fn the_cloth_never_pushes() {
    let law = Law::new(160.0, 110.0, 0.35, 0.3).unwrap();
    let mut seen = [0; 3];
    for i in -12..=12 {
        for j in -12..=12 {
            for k in -8..=8 {
                let e = [f64::from(i) * 0.03, f64::from(j) * 0.03, f64::from(k) * 0.05];
                let stress = law.stress(e);
                seen[stress.state as usize] += 1;
                let [s1, s2, s12] = stress.s;
                let least = (s1 + s2) / 2.0 - ((s1 - s2) / 2.0).hypot(s12);
                assert!(least > -1e-9 * 160.0, "{e:?} gives {stress:?}");
            }
        }
    }
    assert!(
        seen.iter().all(|n| *n > 100),
        "all three states must be met: {seen:?}"
    );
}
