//! A tube of cloth on a rigid cylinder, meshed and solved: tension, pressure and how it was reached, as JSON.
//!
//! `cargo run --release -p slackwater-fit --example tube -- --radius 150 --height 200 --girth-stretch 1.2 --length-stretch 1.05
//! --k1 160 --k2 110 --nu 0.35 --beta 0.3`: millimetres and N/m; axis 1 lengthwise (k1), 2 around (k2). The ends are held in height, nothing
//! rubs. Laplace's law with the same cloth: pressure = worn hoop tension / radius.

#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "an example reads its arguments, takes the time and prints"
)]

use std::error::Error;
use std::f64::consts::TAU;
use std::time::Instant;

use cloth::Law;
use solve::{Cylinder, Mesh, Settings, Solver, Tube, pressure, triangle_stress};
use units::Silent;

const FLAGS: [(&str, f64); 12] = [
    ("radius", 150.0),
    ("height", 200.0),
    ("girth-stretch", 1.2),
    ("length-stretch", 1.05),
    ("k1", 160.0),
    ("k2", 110.0),
    ("nu", 0.35),
    ("beta", 0.3),
    // Cells around and rows; 0 rows: as many as make the cells square.
    ("around", 160.0),
    ("rows", 0.0),
    ("passes", 3.0),
    ("residual", 1e-8),
];

/// What the flags say, in the order of [`FLAGS`].
fn arguments() -> Result<[f64; 12], String> {
    let mut values = FLAGS.map(|(_, default)| default);
    let mut given = std::env::args().skip(1);
    while let Some(flag) = given.next() {
        let name = flag.strip_prefix("--").unwrap_or(&flag);
        let known = || FLAGS.map(|(name, _)| format!("--{name}")).join(", ");
        let place = FLAGS
            .iter()
            .position(|(known, _)| *known == name)
            .ok_or_else(|| format!("no flag {flag}: give any of {}", known()))?;
        let text = given.next().ok_or_else(|| format!("{flag} needs a number"))?;
        values[place] = text
            .parse::<f64>()
            .ok()
            .filter(|x| x.is_finite() && *x >= 0.0)
            .ok_or_else(|| format!("{flag} is {text}: give a number, 0 or more"))?;
    }
    Ok(values)
}

fn main() -> Result<(), Box<dyn Error>> {
    let [
        radius,
        height,
        girth_stretch,
        length_stretch,
        k1,
        k2,
        nu,
        beta,
        around,
        rows,
        passes,
        residual,
    ] = arguments()?;
    for (name, value) in [
        ("radius", radius),
        ("height", height),
        ("girth-stretch", girth_stretch),
        ("length-stretch", length_stretch),
    ] {
        if value <= 0.0 {
            return Err(format!("--{name} is {value}: give a number above 0").into());
        }
    }
    let around = (around as usize).clamp(8, 4000);
    let rows = match rows as usize {
        0 => ((height / (TAU * radius / around as f64)).round() as usize).clamp(2, 4000),
        rows => rows,
    };
    let law = Law::new(k1, k2, nu, beta)?;
    let tube = Tube {
        rest_girth_mm: TAU * radius / girth_stretch,
        rest_height_mm: height / length_stretch,
        around,
        rows,
    };
    let began = Instant::now();
    let mut mesh = Mesh::new(tube.vertex_count());
    let id = mesh.add_law(&law);
    tube.add_to(&mut mesh, id, 0)?;
    for v in tube.ring(0).chain(tube.ring(rows)) {
        mesh.hold(v, [false, true, false]);
    }
    // One vertex keeps it from turning.
    mesh.hold(0, [false, false, true]);
    let settings = Settings {
        residual_n: residual.max(1e-11),
        augmented_passes: passes as usize,
        // Weaker than usual: a tube has little slack cloth, and the closed form knows of no pull.
        slack_pull: 1e-7,
        ..Settings::default()
    };
    let mut solver = Solver::new(&mesh)?;
    let body = Cylinder { radius_mm: radius };
    let solved = solver.solve(
        &mesh,
        Some(&body),
        &tube.placed(radius * 1.02, height),
        &settings,
        &Silent,
    )?;
    let seconds = began.elapsed().as_secs_f64();

    let stresses = triangle_stress(&mesh, &solved.positions);
    let stretches = solve::worn_stretch(&mesh, &solved.positions);
    let area: f64 = mesh.triangles().iter().map(|t| t.area_mm2).sum();
    // Means by rest area of l S and of the same per worn width.
    let mean = |of: &dyn Fn(usize) -> f64| {
        mesh.triangles()
            .iter()
            .enumerate()
            .map(|(i, t)| t.area_mm2 * of(i))
            .sum::<f64>()
            / area
    };
    let p = pressure(&mesh, &solved);
    let inner = tube.ring(1).start..tube.ring(rows - 1).end;
    let pressure_kpa = p[inner.clone()].iter().sum::<f64>() / inner.len() as f64;
    let end_force: f64 = tube.ring(rows).map(|v| solved.reactions_n[v][1]).sum();
    let answer = serde_json::json!({
        "hoop_tension_nominal_n_per_m": mean(&|i| stretches[i][1] * stresses[i].s[1]),
        "hoop_tension_worn_n_per_m": mean(&|i| stretches[i][1] * stresses[i].s[1] / stretches[i][0]),
        "axial_tension_nominal_n_per_m": mean(&|i| stretches[i][0] * stresses[i].s[0]),
        "axial_tension_worn_n_per_m": mean(&|i| stretches[i][0] * stresses[i].s[0] / stretches[i][1]),
        "end_force_n": end_force,
        "pressure_kpa": pressure_kpa,
        "girth_stretch": mean(&|i| stretches[i][1]),
        "length_stretch": mean(&|i| stretches[i][0]),
        "energy_n_mm": mean(&|i| stresses[i].energy) * area * 1e-3,
        "vertices": mesh.vertex_count(),
        "triangles": mesh.triangles().len(),
        "stop": solved.stop.words(),
        "steps": solved.step_count(),
        "passes": solved.passes.iter().map(|p| p.steps.len()).collect::<Vec<_>>(),
        "residual_n": solved.residual_n(),
        "penetration_mm": solved.penetration_mm(),
        "states": { "slack": solved.states.slack, "wrinkled": solved.states.wrinkled, "taut": solved.states.taut },
        "seconds": seconds,
    });
    println!("{}", serde_json::to_string_pretty(&answer)?);
    Ok(())
}
