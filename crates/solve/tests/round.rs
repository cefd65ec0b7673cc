//! Cloth on rigid rounds against closed forms: tubes on a cylinder, with lining and elastic, a cone, a sphere, a disc over a sphere.
//!
//! Sources: Laplace's law with the law's tensions, `data/fit`; the disc by shooting to 1e-12, same place.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use std::collections::BTreeMap;
use std::f64::consts::{PI, TAU};

use cloth::Law;
use common::{cases, close, law, number, sharp, solved};
use serde_json::Value;
use solve::{
    Bar, Cone, Cylinder, Mesh, Solved, Sphere, Tube, bar_tensions, least_principal_stress, pressure,
    triangle_stress, voronoi_areas,
};

const AROUND: usize = 160;
const ROWS: usize = 6;
/// A polygon of so many sides is shorter than its circle by this.
fn polygon() -> f64 {
    (PI / AROUND as f64).sin() / (PI / AROUND as f64)
}

struct Worn {
    mesh: Mesh,
    tube: Tube,
    solved: Solved,
}

/// Layers of (law, hoop stretch) on a cylinder, end rings held in height, started 3 % too wide.
fn tube_on_cylinder(layers: &[(Law, f64)], radius: f64, length_stretch: f64) -> Worn {
    let height = 60.0;
    let tube = |hoop: f64| Tube {
        rest_girth_mm: TAU * radius / hoop,
        rest_height_mm: height / length_stretch,
        around: AROUND,
        rows: ROWS,
    };
    let mut mesh = Mesh::new(tube(1.0).vertex_count());
    for (layer, (law, hoop)) in layers.iter().enumerate() {
        let id = mesh.add_law(law);
        tube(*hoop).add_to(&mut mesh, id, layer).unwrap();
    }
    let tube = tube(layers[0].1);
    for v in tube.ring(0).chain(tube.ring(ROWS)) {
        mesh.hold(v, [false, true, false]);
    }
    // The first vertex keeps the tube from turning.
    mesh.hold(0, [false, false, true]);
    let settings = solve::Settings {
        augmented_passes: 4,
        ..sharp(1e-9)
    };
    let solved = solved(
        &mesh,
        Some(&Cylinder { radius_mm: radius }),
        &tube.placed(1.03 * radius, height),
        &settings,
    );
    Worn { mesh, tube, solved }
}

fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (sum, n) = values.fold((0.0, 0.0), |(s, n), x| (s + x, n + 1.0));
    sum / n
}

#[test]
fn twenty_one_tubes_on_a_cylinder() {
    let cases = cases(include_str!("../../../data/fit/cylinder.json"));
    assert_eq!(cases.len(), 21);
    for case in &cases {
        let law = law(&case["material"]);
        let (radius, hoop, length) = (
            number(&case["R"]) * 1e3,
            number(&case["hoop_stretch"]),
            number(&case["length_stretch"]),
        );
        let worn = tube_on_cylinder(&[(law, hoop)], radius, length);
        let (mesh, x) = (&worn.mesh, &worn.solved.positions);
        let stresses = triangle_stress(mesh, x);
        for s in &stresses {
            assert!(least_principal_stress(s) > -1e-9 * 200.0, "{case}");
        }
        // What the file's numbers become for a polygon: the law at a hoop stretch shorter by its factor.
        let factor = polygon();
        let meant = law.tension(length, hoop * factor);
        let scale = number(&case["hoop_tension_nominal"]).max(1.0);
        let nominal = |axis: usize, l: f64| mean(stresses.iter().map(|s| s.s[axis] * l));
        close(
            &format!("hoop tension of {case}"),
            nominal(1, hoop * factor),
            meant.around,
            1e-4,
            scale,
        );
        let round = law.tension(length, hoop);
        close(
            "the file's tension",
            round.around,
            number(&case["hoop_tension_nominal"]),
            1e-9,
            scale,
        );
        close(
            "the file's axial tension",
            round.lengthwise,
            number(&case["axial_tension_nominal"]),
            1e-9,
            scale,
        );
        let end: f64 = worn.tube.ring(ROWS).map(|v| worn.solved.reactions_n[v][1]).sum();
        let girth = TAU * radius / hoop;
        close("end force", end, meant.lengthwise * girth * 1e-3, 1e-4, 0.0);
        close(
            "the file's end force",
            round.lengthwise * girth * 1e-3,
            number(&case["axial_force_total"]),
            1e-9,
            1.0,
        );
        let p = pressure(mesh, &worn.solved);
        let middle = worn.tube.ring(ROWS / 2);
        let meant_kpa = meant.around / length / radius;
        let found = mean(p[middle.clone()].iter().copied());
        close(&format!("pressure of {case}"), found, meant_kpa, 1e-4, 1e-2);
        close(
            "the file's pressure",
            round.around / length / radius,
            number(&case["pressure"]) * 1e-3,
            1e-9,
            1e-2,
        );
        for v in middle {
            close("one vertex", p[v], found, 1e-3, 1e-2);
        }
    }
}

#[test]
fn shell_and_lining_pull_together() {
    for case in cases(include_str!("../../../data/fit/two_layer.json")) {
        let (shell, lining) = (law(&case["shell"]), law(&case["lining"]));
        let (radius, hoop, length) = (
            number(&case["R"]) * 1e3,
            number(&case["hoop_stretch"]),
            number(&case["length_stretch"]),
        );
        for (cut, answer) in [(1.0, &case), (0.97, &case["with_lining_cut_0p97_around"])] {
            let worn = tube_on_cylinder(&[(shell, hoop), (lining, hoop / cut)], radius, length);
            let stresses = triangle_stress(&worn.mesh, &worn.solved.positions);
            let factor = polygon();
            // Each layer's own stretch times its stress, per worn length.
            let layer_mean = |layer: usize| {
                let of = stresses
                    .iter()
                    .zip(worn.mesh.triangles())
                    .filter(|(_, t)| t.layer == layer);
                mean(of.map(|(s, _)| s.s[1]))
            };
            let found = (layer_mean(0) * hoop + layer_mean(1) * hoop / cut) * factor / length;
            let meant = [(shell, hoop), (lining, hoop / cut)]
                .map(|(law, l)| law.tension(length, l * factor).around / length)
                .iter()
                .sum::<f64>();
            close("tension", found, meant, 1e-6, 0.0);
            close(
                "the file's tension",
                found,
                number(&answer["hoop_tension_worn"]),
                1e-3,
                0.0,
            );
            let p = pressure(&worn.mesh, &worn.solved);
            let found = mean(p[worn.tube.ring(ROWS / 2)].iter().copied());
            close("pressure", found, meant / radius, 1e-5, 0.0);
            close(
                "the file's pressure",
                found,
                number(&answer["pressure"]) * 1e-3,
                1.5e-3,
                0.0,
            );
        }
    }
}

/// A ring of elastic alone on a cylinder: its pull, and the line load it presses with.
#[test]
fn a_ring_of_elastic_presses_by_its_pull() {
    for case in cases(include_str!("../../../data/fit/elastic_ring.json")) {
        let radius = number(&case["R"]) * 1e3;
        let n = 200;
        let flat = TAU * radius / number(&case["cloth_edge_stretch"]) / n as f64;
        let mut mesh = Mesh::new(n);
        for i in 0..n {
            let bar = Bar {
                ends: [i, (i + 1) % n],
                rest_mm: flat * number(&case["ratio"]),
                stiffness_n: number(&case["K"]),
                width_mm: number(&case["width"]) * 1e3,
            };
            mesh.add_bar(bar).unwrap();
            mesh.hold(i, [false, true, false]);
        }
        mesh.hold(0, [false, true, true]);
        let start: Vec<[f64; 3]> = (0..n)
            .map(|i| {
                let (s, c) = (TAU * i as f64 / n as f64).sin_cos();
                [1.02 * radius * c, 0.0, 1.02 * radius * s]
            })
            .collect();
        // An elastic presses harder than cloth: four passes take out what it sinks in.
        let settings = solve::Settings {
            augmented_passes: 4,
            ..sharp(1e-9)
        };
        let solved = solved(&mesh, Some(&Cylinder { radius_mm: radius }), &start, &settings);
        let shorter = (PI / n as f64).sin() / (PI / n as f64);
        let meant = number(&case["K"]) * (number(&case["elastic_stretch"]) * shorter - 1.0);
        for t in bar_tensions(&mesh, &solved.positions) {
            close("pull", t, meant, 1e-5, 0.0);
            close("the file's pull", t, number(&case["T"]), 1e-3, 0.0);
        }
        let load = solved.contact_n.iter().sum::<f64>() / (TAU * radius * shorter) * 1e3;
        close("line load", load, meant / radius * 1e3, 1e-5, 0.0);
        close(
            "the file's pressure",
            load / number(&case["width"]),
            number(&case["pressure"]),
            1e-3,
            0.0,
        );
    }
}

/// A cone-shaped garment cut smaller: tension even, pressure falls with the radius.
#[test]
fn a_cone() {
    let (around, rows) = (120, 30);
    let mut groups: BTreeMap<u64, Vec<Value>> = BTreeMap::new();
    for case in cases(include_str!("../../../data/fit/cone.json")) {
        groups
            .entry(case["half_angle_deg"].as_u64().unwrap())
            .or_default()
            .push(case);
    }
    for (degrees, cases) in groups {
        let law = law(&cases[0]["material"]);
        let stretch = number(&cases[0]["stretch"]);
        let half_angle = (degrees as f64).to_radians();
        let (s, c) = half_angle.sin_cos();
        let radius = |row: usize| 90.0 + 80.0 * row as f64 / rows as f64;
        let mut mesh = Mesh::new(around * (rows + 1));
        let id = mesh.add_law(&law);
        let at = |row: usize, i: usize| around * row + i % around;
        let start: Vec<[f64; 3]> = (0..=rows)
            .flat_map(|row| {
                (0..around).map(move |i| {
                    let (sin, cos) = (TAU * i as f64 / around as f64).sin_cos();
                    [radius(row) * cos, radius(row) * c / s, radius(row) * sin]
                })
            })
            .collect();
        for row in 0..rows {
            for i in 0..around {
                let corners = [(row, i), (row, i + 1), (row + 1, i + 1), (row + 1, i)];
                let halves = if (row + i) % 2 == 0 {
                    [[1, 0, 3], [1, 3, 2]]
                } else {
                    [[1, 0, 2], [0, 3, 2]]
                };
                for t in halves {
                    let t = t.map(|k: usize| corners[k]);
                    let t = t.map(|(r, i)| at(r, i));
                    mesh.add_triangle(t, smaller(t.map(|v| start[v]), stretch), id, 0)
                        .unwrap();
                }
            }
        }
        for i in 0..around {
            mesh.hold(at(0, i), [true; 3]);
            mesh.hold(at(rows, i), [true; 3]);
        }
        // Held edges don't sink in and the rows beside them do, until the passes have taken that out.
        let settings = solve::Settings {
            augmented_passes: 5,
            ..sharp(1e-9)
        };
        let solved = solved(&mesh, Some(&Cone { half_angle }), &start, &settings);
        let p = pressure(&mesh, &solved);
        for case in &cases {
            let tension = number(&case["tension_worn"]);
            // p r / cos(psi) is the tension everywhere: the file's pressure at its r is the same number.
            close(
                "the file's pressure",
                tension * c / number(&case["r"]),
                number(&case["pressure"]),
                1e-9,
                0.0,
            );
            let found: Vec<f64> = (around..around * rows)
                .map(|v| p[v] * solved.positions[v][0].hypot(solved.positions[v][2]) / c)
                .collect();
            close("mean", mean(found.iter().copied()), tension, 1e-4, 0.0);
            for t in found {
                close("worst", t, tension, 5e-3, 0.0);
            }
        }
    }
}

/// A whole sphere of rest triangles each smaller by the stretch.
#[test]
fn a_sphere_all_round() {
    let (points, triangles) = round(3);
    for case in cases(include_str!("../../../data/fit/sphere_uniform.json")) {
        let law = law(&case["material"]);
        let (radius, stretch) = (number(&case["R"]) * 1e3, number(&case["stretch"]));
        let start: Vec<[f64; 3]> = points.iter().map(|p| p.map(|x| x * radius)).collect();
        let mut mesh = Mesh::new(points.len());
        let id = mesh.add_law(&law);
        for t in &triangles {
            mesh.add_triangle(*t, smaller(t.map(|v| start[v]), stretch), id, 0)
                .unwrap();
        }
        // Two vertices on the axes keep it from turning.
        for (v, p) in points.iter().enumerate() {
            if p[2] > 1.0 - 1e-12 {
                mesh.hold(v, [true, true, false]);
            }
            if p[1] > 1.0 - 1e-12 {
                mesh.hold(v, [true, false, false]);
            }
        }
        let solved = solved(&mesh, Some(&Sphere { radius_mm: radius }), &start, &sharp(1e-8));
        let force: f64 = solved.contact_n.iter().sum();
        let area: f64 = voronoi_areas(&mesh, &solved.positions).iter().sum();
        let tension = number(&case["tension_worn"]) * 1e-3;
        // Force balance of a polyhedron in even tension: the force outwards is 2 t area / R.
        close(
            "mean pressure",
            force / area * 1e3,
            number(&case["pressure"]) * 1e-3,
            1e-4,
            0.0,
        );
        close("by the radius", force * radius / (2.0 * area), tension, 1e-4, 0.0);
    }
}

/// A triangle in space laid flat and made smaller by a stretch, (lengthwise, around).
fn smaller(corners: [[f64; 3]; 3], stretch: f64) -> [[f64; 2]; 3] {
    let [a, b, c] = corners.map(|p| p.map(|x| x / stretch));
    let (ab, ac) = ([0, 1, 2].map(|i| b[i] - a[i]), [0, 1, 2].map(|i| c[i] - a[i]));
    let length = ab.iter().map(|x| x * x).sum::<f64>().sqrt();
    let along = (0..3).map(|i| ab[i] * ac[i]).sum::<f64>() / length;
    let up = (ac.iter().map(|x| x * x).sum::<f64>() - along * along).sqrt();
    [[0.0, 0.0], [0.0, length], [up, along]]
}

/// An icosahedron's faces divided in four `times` times, on the unit sphere; counter-clockwise from outside.
fn round(times: usize) -> (Vec<[f64; 3]>, Vec<[usize; 3]>) {
    let g = f64::midpoint(1.0, 5.0_f64.sqrt());
    let unit = |p: [f64; 3]| {
        let n = p.iter().map(|x| x * x).sum::<f64>().sqrt();
        p.map(|x| x / n)
    };
    let mut points: Vec<[f64; 3]> = Vec::new();
    for [a, b] in [[1.0, g], [1.0, -g], [-1.0, g], [-1.0, -g]] {
        points.extend([[0.0, a, b], [a, b, 0.0], [b, 0.0, a]].map(unit));
    }
    let near = |p: [f64; 3], q: [f64; 3]| (0..3).map(|i| p[i] * q[i]).sum::<f64>() > 0.4;
    let mut triangles: Vec<[usize; 3]> = Vec::new();
    for a in 0..12 {
        for b in a + 1..12 {
            for c in b + 1..12 {
                let [p, q, r] = [points[a], points[b], points[c]];
                if near(p, q) && near(q, r) && near(p, r) {
                    let det = p[0] * (q[1] * r[2] - q[2] * r[1]) - p[1] * (q[0] * r[2] - q[2] * r[0])
                        + p[2] * (q[0] * r[1] - q[1] * r[0]);
                    triangles.push(if det > 0.0 { [a, b, c] } else { [a, c, b] });
                }
            }
        }
    }
    assert_eq!(triangles.len(), 20);
    for _ in 0..times {
        let mut middles: BTreeMap<(usize, usize), usize> = BTreeMap::new();
        let mut finer = Vec::new();
        for t in triangles {
            let m = [(0, 1), (1, 2), (2, 0)].map(|(i, j)| {
                let key = (t[i].min(t[j]), t[i].max(t[j]));
                *middles.entry(key).or_insert_with(|| {
                    let (p, q) = (points[key.0], points[key.1]);
                    points.push(unit([0, 1, 2].map(|k| p[k] + q[k])));
                    points.len() - 1
                })
            });
            finer.extend([[t[0], m[0], m[2]], [t[1], m[1], m[0]], [t[2], m[2], m[1]], m]);
        }
        triangles = finer;
    }
    (points, triangles)
}

/// A flat disc pulled over a ball: the energy comes nearer with the square of the mesh, the shape to a few hundredths of a millimetre.
#[test]
fn a_disc_over_a_sphere_converges_with_order_two() {
    for case in cases(include_str!("../../../data/fit/disc_on_sphere.json")) {
        let off: Vec<[f64; 3]> = [4, 8, 16, 32].map(|rings| disc(&case, rings)).to_vec();
        for pair in off.windows(2) {
            let order = (pair[0][0] / pair[1][0]).log2();
            assert!((1.9..2.1).contains(&order), "order {order}: {off:?}");
        }
        let [energy, position, pressure] = off[3];
        assert!(energy.abs() < 1e-3, "{energy}");
        assert!(position < 0.005, "{position}");
        assert!(pressure.abs() < 5e-4, "{pressure}");
    }
}

/// Relative energy error, largest error of the rings' position in mm, relative error of the mean pressure at half the radius.
fn disc(case: &Value, rings: usize) -> [f64; 3] {
    let law = law(&case["material"]);
    let (radius, rest) = (number(&case["R"]) * 1e3, number(&case["R0"]) * 1e3);
    let edge = number(&case["edge_phi"]);
    let table: Vec<(f64, f64, f64)> = case["table"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| {
            (
                number(&row["r"]) * 1e3,
                number(&row["phi"]),
                number(&row["pressure"]),
            )
        })
        .collect();
    // Rings of 6 k points; the first of ring k.
    let first = |k: usize| if k == 0 { 0 } else { 1 + 3 * k * (k - 1) };
    let count = first(rings + 1);
    let mut mesh = Mesh::new(count);
    let id = mesh.add_law(&law);
    let mut flat = vec![[0.0; 2]];
    let mut start = vec![[0.0, radius, 0.0]];
    for k in 1..=rings {
        for i in 0..6 * k {
            let (s, c) = (TAU * i as f64 / (6 * k) as f64).sin_cos();
            let r = rest * k as f64 / rings as f64;
            flat.push([r * c, r * s]);
            let (sin, cos) = (edge * k as f64 / rings as f64).sin_cos();
            // Seen from above (y), x to the right and z towards the eye: the angle runs against z.
            start.push([radius * sin * c, radius * cos, -radius * sin * s]);
        }
    }
    for k in 1..=rings {
        let at = |k: usize, i: usize| first(k) + if k == 0 { 0 } else { i % (6 * k) };
        for sector in 0..6 {
            for i in 0..k {
                let (out, inn) = (sector * k + i, sector * (k - 1) + i);
                let mut add = |t: [usize; 3]| {
                    // (lengthwise, around) = (y, x): counter-clockwise in x, y.
                    mesh.add_triangle(t, t.map(|v| [flat[v][1], flat[v][0]]), id, 0)
                        .unwrap();
                };
                add([at(k, out), at(k, out + 1), at(k - 1, inn)]);
                if i + 1 < k {
                    add([at(k, out + 1), at(k - 1, inn + 1), at(k - 1, inn)]);
                }
            }
        }
    }
    for v in first(rings)..count {
        mesh.hold(v, [true; 3]);
    }
    let settings = solve::Settings {
        augmented_passes: 3,
        ..sharp(1e-8)
    };
    let solved = solved(&mesh, Some(&Sphere { radius_mm: radius }), &start, &settings);
    let energy: f64 = triangle_stress(&mesh, &solved.positions)
        .iter()
        .zip(mesh.triangles())
        .map(|(s, t)| s.energy * t.area_mm2 * 1e-6)
        .sum();
    let p = pressure(&mesh, &solved);
    let (mut position, mut pressure_off) = (0.0, 0.0);
    for (r, phi, kpa) in &table {
        let k = r / rest * rings as f64;
        if (k - k.round()).abs() > 1e-6 || k < 0.5 || k > rings as f64 - 0.5 {
            continue;
        }
        let ring = first(k.round() as usize)..first(k.round() as usize + 1);
        for v in ring.clone() {
            let [x, y, z] = solved.positions[v];
            position = f64::max(position, ((x.hypot(z)).atan2(y) - phi).abs() * radius);
        }
        if (r / rest - 0.5).abs() < 1e-9 {
            pressure_off = mean(p[ring].iter().copied()) / (kpa * 1e-3) - 1.0;
        }
    }
    [
        energy / number(&case["energy_total"]) - 1.0,
        position,
        pressure_off,
    ]
}
