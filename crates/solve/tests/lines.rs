//! Bars alone against closed forms: a strap pulled over a round with friction, a strap that hangs.
//!
//! Sources: capstan formula and its chain of equal turns, catenary: textbook, worked values in `data/fit`.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use common::{cases, close, file, number, sharp, solved};
use serde_json::Value;
use solve::{Bar, Cylinder, Friction, Mesh, Settings, bar_tensions};

/// A chain of n equal turns round a cylinder, one end loaded, the other pulled until all of it slides.
fn pulled_over(mu: f64, theta: f64, n: usize) -> f64 {
    let radius = 1000.0;
    let turn = theta / n as f64;
    // Vertices 1..=n touch; 0 and n + 1 are the ends, each one turn further.
    let at = |i: usize| {
        let (s, c) = (turn * (i as f64 - 0.5)).sin_cos();
        [radius * c, 0.0, radius * s]
    };
    let mut mesh = Mesh::new(n + 2);
    let mut start: Vec<[f64; 3]> = (0..n + 2).map(at).collect();
    let chord = 2.0 * radius * (turn / 2.0).sin();
    for i in 0..=n {
        let width_mm = if i == 0 || i == n { 0.0 } else { 5.0 };
        mesh.add_bar(Bar {
            ends: [i, i + 1],
            rest_mm: chord,
            stiffness_n: 1e6,
            width_mm,
        })
        .unwrap();
    }
    if n == 1 {
        unreachable!("a single turn has no bar that touches");
    }
    let toward = |a: [f64; 3], b: [f64; 3]| [0, 1, 2].map(|i| (b[i] - a[i]) / chord);
    let pull = toward(at(1), at(0));
    mesh.add_load(0, pull);
    for v in 0..n + 2 {
        mesh.hold(v, [false, true, false]);
    }
    mesh.hold(n + 1, [true; 3]);
    let away = toward(at(n), at(n + 1));
    for (x, d) in start[n + 1].iter_mut().zip(away) {
        *x += 0.3 * d;
    }
    let settings = Settings {
        friction: (mu > 0.0).then_some(Friction {
            coefficient: mu,
            passes: 20,
            slip_mm: 0.01,
        }),
        penalty: 1.0,
        ..sharp(1e-6)
    };
    let solved = solved(&mesh, Some(&Cylinder { radius_mm: radius }), &start, &settings);
    let tensions = bar_tensions(&mesh, &solved.positions);
    tensions[n] / tensions[0]
}

/// The chain's own closed form, which tends to exp(mu theta).
#[test]
fn a_strap_pulled_over_a_round_gains_by_friction() {
    let all = file(include_str!("../../../data/fit/capstan.json"));
    let chain = all["discrete_chain"]["cases"].as_array().unwrap();
    let of = |case: &Value| {
        (
            number(&case["mu"]),
            number(&case["theta_deg"]).to_radians(),
            number(&case["ratio"]),
        )
    };
    for case in chain {
        let (mu, theta, ratio) = of(case);
        let n = case["n"].as_u64().unwrap() as usize;
        close(&format!("{case}"), pulled_over(mu, theta, n), ratio, 1e-3, 0.0);
    }
    for case in all["cases"].as_array().unwrap() {
        let (mu, theta, ratio) = of(case);
        close(&format!("{case}"), pulled_over(mu, theta, 80), ratio, 1e-3, 0.0);
    }
}

#[test]
fn a_hanging_strap_takes_the_catenary() {
    for case in cases(include_str!("../../../data/fit/catenary.json")) {
        let (span, length) = (number(&case["span"]) * 1e3, number(&case["length"]) * 1e3);
        let weight = number(&case["weight_per_length"]) * 1e-3;
        let n = 200;
        let bar = length / n as f64;
        let mut mesh = Mesh::new(n + 1);
        for i in 0..n {
            mesh.add_bar(Bar {
                ends: [i, i + 1],
                rest_mm: bar,
                stiffness_n: 1e7,
                width_mm: 0.0,
            })
            .unwrap();
        }
        for i in 0..=n {
            let share = if i == 0 || i == n { 0.5 } else { 1.0 };
            mesh.add_load(i, [0.0, -share * weight * bar, 0.0]);
            mesh.hold(i, [false, false, true]);
        }
        mesh.hold(0, [true; 3]);
        mesh.hold(n, [true; 3]);
        // Bars this stiff let forces be told apart to some 2e-7 N, not finer.
        // A parabola a little too deep, so that the bars pull from the start.
        let sag = 1.1 * (3.0 * span * (length - span) / 8.0).sqrt();
        let start: Vec<[f64; 3]> = (0..=n)
            .map(|i| {
                let u = 2.0 * i as f64 / n as f64 - 1.0;
                [span / 2.0 * u, sag * (u * u - 1.0), 0.0]
            })
            .collect();
        let settings = Settings {
            most_steps: 2000,
            ..sharp(1e-6)
        };
        let solved = solved(&mesh, None, &start, &settings);
        close(
            "sag",
            -solved.positions[n / 2][1],
            number(&case["sag"]) * 1e3,
            1e-4,
            0.0,
        );
        let [h, v, _] = solved.reactions_n[n];
        close(
            "horizontal pull",
            h,
            number(&case["horizontal_tension"]),
            1e-4,
            0.0,
        );
        // The end's own half bar hangs on the support, not on the strap; both belong to the end's pull.
        close("end pull", h.hypot(v), number(&case["end_tension"]), 1e-4, 0.0);
    }
}
