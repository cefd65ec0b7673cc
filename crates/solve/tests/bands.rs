//! A band round a limb by its pull, width and girth, against a published formula; an opening against the girth it must pass.
//!
//! Sources: S. Thomas, "The use of the Laplace equation in the calculation of sub-bandage pressure", World Wide Wounds (2003), first page
//! read, the form with 4620 from memory; own worked values, `data/fit`.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use std::f64::consts::TAU;

use common::{cases, close, number, sharp, solved};
use solve::{Bar, Cylinder, Mesh};

/// The formula gives the pressure that a solved ring of that pull has: n turns are n rings on the same vertices.
#[test]
fn a_band_presses_as_the_formula_says() {
    for case in cases(include_str!("../../../data/fit/band_formula.json")) {
        let (girth, width) = (number(&case["C_cm"]) * 10.0, number(&case["w_cm"]) * 10.0);
        let pull = number(&case["T_kgf"]) * 9.80665;
        let turns = case["n"].as_u64().unwrap();
        let (points, radius) = (240, girth / TAU);
        let chord = 2.0 * radius * (std::f64::consts::PI / points as f64).sin();
        let mut mesh = Mesh::new(points);
        for i in 0..points {
            for _ in 0..turns {
                // Stretched by half it pulls with what was asked.
                let bar = Bar {
                    ends: [i, (i + 1) % points],
                    rest_mm: chord / 1.5,
                    stiffness_n: pull * 2.0,
                    width_mm: width,
                };
                mesh.add_bar(bar).unwrap();
            }
            mesh.hold(i, [false, true, false]);
        }
        mesh.hold(0, [false, true, true]);
        let start: Vec<[f64; 3]> = (0..points)
            .map(|i| {
                let (s, c) = (TAU * i as f64 / points as f64).sin_cos();
                [1.01 * radius * c, 0.0, 1.01 * radius * s]
            })
            .collect();
        let settings = solve::Settings {
            augmented_passes: 6,
            ..sharp(1e-8)
        };
        let solved = solved(&mesh, Some(&Cylinder { radius_mm: radius }), &start, &settings);
        let pascal = solved.contact_n.iter().sum::<f64>() / (chord * points as f64 * width) * 1e6;
        close("pressure", pascal, number(&case["P_Pa_exact"]), 1e-4, 0.0);
        close(
            "in the old units",
            pascal / 133.322_387_415,
            number(&case["P_mmHg_formula"]),
            1e-3,
            0.0,
        );
    }
}

/// What an opening must stretch to pass a girth, met by a ring of just that length on a cylinder of that girth and margin.
#[test]
fn an_opening_stretches_by_what_it_must_pass() {
    for case in cases(include_str!("../../../data/fit/donning.json")) {
        let rest = number(&case["opening_rest"]) * 1e3;
        let girth = number(&case["girth_to_pass"]) * 1e3 * (1.0 + number(&case["margin"]));
        let (points, radius) = (300, girth / TAU);
        let mut mesh = Mesh::new(points);
        for i in 0..points {
            let bar = Bar {
                ends: [i, (i + 1) % points],
                rest_mm: rest / points as f64,
                stiffness_n: 10.0,
                width_mm: 8.0,
            };
            mesh.add_bar(bar).unwrap();
            mesh.hold(i, [false, true, false]);
        }
        mesh.hold(0, [false, true, true]);
        let start: Vec<[f64; 3]> = (0..points)
            .map(|i| {
                let (s, c) = (TAU * i as f64 / points as f64).sin_cos();
                [1.05 * radius * c, 0.0, 1.05 * radius * s]
            })
            .collect();
        let settings = solve::Settings {
            augmented_passes: 6,
            ..sharp(1e-8)
        };
        let solved = solved(&mesh, Some(&Cylinder { radius_mm: radius }), &start, &settings);
        let pulls = solve::bar_tensions(&mesh, &solved.positions);
        let needed = pulls.iter().sum::<f64>() / points as f64 / 10.0;
        close(
            "needed stretch",
            needed,
            number(&case["needed_stretch"]),
            2e-4,
            1.0,
        );
        let passes = needed <= number(&case["stretch_limit"]);
        assert_eq!(passes, case["passes"].as_bool().unwrap(), "{case}");
    }
}
