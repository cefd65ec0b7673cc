//! Reading the worked values, and small meshes.

#![allow(
    dead_code,
    clippy::unwrap_used,
    reason = "shared by several test files, each of which uses a part; a test may panic"
)]

use cloth::Law;
use serde_json::Value;
use solve::{Field, Mesh, Settings, Solved, Solver, Stop};
use units::Silent;

pub(crate) fn file(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

pub(crate) fn cases(text: &str) -> Vec<Value> {
    let cases = file(text)["cases"].as_array().unwrap().clone();
    assert!(!cases.is_empty(), "a file without cases checks nothing");
    cases
}

pub(crate) fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

/// The law of a material; shear as usual where it has none.
pub(crate) fn law(material: &Value) -> Law {
    let law = Law::new(
        number(&material["k1"]),
        number(&material["k2"]),
        number(&material["nu"]),
        number(&material["beta"]),
    )
    .unwrap();
    match material["G"].as_f64() {
        Some(shear) => law.with_shear(shear).unwrap(),
        None => law,
    }
}

#[track_caller]
pub(crate) fn close(what: &str, found: f64, expected: f64, relative: f64, scale: f64) {
    let off = (found - expected).abs();
    assert!(
        off <= relative * scale.max(expected.abs()),
        "{what}: found {found}, expected {expected}, off by {off:e}"
    );
}

/// Sharp settings: no slack pull, the wanted residual.
pub(crate) fn sharp(residual_n: f64) -> Settings {
    Settings {
        residual_n,
        slack_pull: 0.0,
        ..Settings::default()
    }
}

#[track_caller]
pub(crate) fn solved(
    mesh: &Mesh,
    body: Option<&dyn Field>,
    start: &[[f64; 3]],
    settings: &Settings,
) -> Solved {
    let mut solver = Solver::new(mesh).unwrap();
    let solved = solver.solve(mesh, body, start, settings, &Silent).unwrap();
    assert_eq!(
        solved.stop,
        Stop::Converged,
        "residual {:e}, passes {:#?}",
        solved.residual_n(),
        solved.passes
    );
    solved
}

/// A seeded run of numbers in 0..1.
pub(crate) fn random(seed: u64) -> impl FnMut() -> f64 {
    let mut state = seed;
    move || {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (state >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// A flat rectangle in x, y of `nx` by `ny` cells with triangles counter-clockwise, inner points moved at random by up to a quarter cell.
pub(crate) struct Sheet {
    pub(crate) nx: usize,
    pub(crate) ny: usize,
    pub(crate) points: Vec<[f64; 2]>,
    pub(crate) triangles: Vec<[usize; 3]>,
}

impl Sheet {
    pub(crate) fn new(width: f64, height: f64, nx: usize, ny: usize, seed: u64) -> Sheet {
        let mut random = random(seed);
        let (dx, dy) = (width / nx as f64, height / ny as f64);
        let mut points = Vec::new();
        for j in 0..=ny {
            for i in 0..=nx {
                let inner = i > 0 && i < nx && j > 0 && j < ny;
                let mut shift = |d: f64| if inner { (random() - 0.5) * d / 2.0 } else { 0.0 };
                points.push([i as f64 * dx + shift(dx), j as f64 * dy + shift(dy)]);
            }
        }
        let mut triangles = Vec::new();
        let at = |i: usize, j: usize| j * (nx + 1) + i;
        for j in 0..ny {
            for i in 0..nx {
                let [a, b, c, d] = [at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)];
                if (i + j) % 2 == 0 {
                    triangles.extend([[a, b, c], [a, c, d]]);
                } else {
                    triangles.extend([[a, b, d], [b, c, d]]);
                }
            }
        }
        Sheet {
            nx,
            ny,
            points,
            triangles,
        }
    }

    pub(crate) fn is_edge(&self, vertex: usize) -> bool {
        let (i, j) = (vertex % (self.nx + 1), vertex / (self.nx + 1));
        i == 0 || j == 0 || i == self.nx || j == self.ny
    }

    /// A mesh of it whose cloth axis 1 lies along the angle from x; every vertex held in its plane.
    pub(crate) fn mesh(&self, law: &Law, angle: f64) -> Mesh {
        let mut mesh = Mesh::new(self.points.len());
        let id = mesh.add_law(law);
        let (s, c) = angle.sin_cos();
        for t in &self.triangles {
            let rest = t.map(|v| {
                let [x, y] = self.points[v];
                [c * x + s * y, s * x - c * y]
            });
            mesh.add_triangle(*t, rest, id, 0).unwrap();
        }
        for v in 0..self.points.len() {
            mesh.hold(v, [false, false, true]);
        }
        mesh
    }

    /// Positions under a linear map.
    pub(crate) fn moved(&self, f: [[f64; 2]; 2]) -> Vec<[f64; 3]> {
        self.points
            .iter()
            .map(|[x, y]| [f[0][0] * x + f[0][1] * y, f[1][0] * x + f[1][1] * y, 0.0])
            .collect()
    }
}

/// Stress in x, y of a stress in cloth axes turned by `angle`: sum of S_ab d_a d_b.
pub(crate) fn turned(s: [f64; 3], angle: f64) -> [[f64; 2]; 2] {
    let (sin, cos) = angle.sin_cos();
    let (d1, d2) = ([cos, sin], [sin, -cos]);
    let mut out = [[0.0; 2]; 2];
    for i in 0..2 {
        for j in 0..2 {
            out[i][j] = s[0] * d1[i] * d1[j] + s[1] * d2[i] * d2[j] + s[2] * (d1[i] * d2[j] + d2[i] * d1[j]);
        }
    }
    out
}
