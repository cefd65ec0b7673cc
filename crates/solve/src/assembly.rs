//! Energy, forces and matrix of the cloth and the bars at a shape.
//!
//! A triangle's deformation gradient has the columns f1 = sum x_a g_a1 and f2 = sum x_a g_a2 (g: gradients of the hat functions by
//! lengthwise and around). Its strain is E11 = (f1.f1 - 1)/2, E22 alike, 2 E12 = f1.f2. The force on corner a is
//! area (S11 f1 g_a1 + S22 f2 g_a2 + S12 (f1 g_a2 + f2 g_a1)); the matrix adds B_a^T (dS/de) B_b and the stress by the
//! gradients. A weak pull, delta/2 |F|^2, is added to S11 and S22: it makes slack cloth definite.
//!
//! **Shapes and units.** N, mm. The law's N/m become N/mm here.

use cloth::{Stress, Tautness};

use crate::mesh::{Mesh, Triangle};
use crate::outcome::StateCounts;
use crate::pattern::Pattern;
use crate::vector::{V3, add_scaled, dot, norm, sub};

/// N/m to N/mm.
pub(crate) const N_PER_MM: f64 = 1e-3;

/// The two columns of a triangle's deformation gradient, and its strain.
pub(crate) fn deformation(t: &Triangle, x: &[V3]) -> (V3, V3, [f64; 3]) {
    let (mut f1, mut f2) = ([0.0; 3], [0.0; 3]);
    for (corner, g) in t.corners.iter().zip(t.gradients) {
        f1 = add_scaled(f1, g[0], x[*corner]);
        f2 = add_scaled(f2, g[1], x[*corner]);
    }
    let e = [(dot(f1, f1) - 1.0) / 2.0, (dot(f2, f2) - 1.0) / 2.0, dot(f1, f2)];
    (f1, f2, e)
}

/// Energy of cloth, bars and loads, N mm.
pub(crate) fn energy(mesh: &Mesh, slack_pull: f64, x: &[V3]) -> f64 {
    let mut sum = 0.0;
    for t in &mesh.triangles {
        let (f1, f2, e) = deformation(t, x);
        let law = &mesh.laws[t.law];
        let pull = slack_pull * law.k_mean() * (dot(f1, f1) + dot(f2, f2)) / 2.0;
        sum += t.area_mm2 * N_PER_MM * (law.stress(e).energy + pull);
    }
    for bar in &mesh.bars {
        let length = norm(sub(x[bar.ends[0]], x[bar.ends[1]]));
        let stretch = (length / bar.rest_mm - 1.0).max(0.0);
        sum += bar.stiffness_n * bar.rest_mm * stretch * stretch / 2.0;
    }
    for (load, p) in mesh.loads.iter().zip(x) {
        sum -= dot(*load, *p);
    }
    sum
}

/// Sets forces (downhill is minus) and matrix of cloth, bars and loads; returns the energy and the states.
pub(crate) fn assemble(
    mesh: &Mesh,
    pattern: &Pattern,
    slack_pull: f64,
    x: &[V3],
    gradient: &mut [V3],
    values: &mut [f64],
) -> (f64, StateCounts) {
    let mut sum = 0.0;
    let mut states = StateCounts::default();
    gradient.fill([0.0; 3]);
    values.fill(0.0);
    for (number, t) in mesh.triangles.iter().enumerate() {
        let (f1, f2, e) = deformation(t, x);
        let law = &mesh.laws[t.law];
        let (stress, tangent) = law.response(e);
        count(&mut states, &stress);
        let scale = t.area_mm2 * N_PER_MM;
        let delta = slack_pull * law.k_mean();
        sum += scale * (stress.energy + delta * (dot(f1, f1) + dot(f2, f2)) / 2.0);
        let s = [
            scale * (stress.s[0] + delta),
            scale * (stress.s[1] + delta),
            scale * stress.s[2],
        ];
        // Force on a corner: P g with P the 3 x 2 matrix of columns p1, p2.
        let p1 = add_scaled(f1.map(|f| f * s[0]), s[2], f2);
        let p2 = add_scaled(f2.map(|f| f * s[1]), s[2], f1);
        // Rows of B_a: g1 f1, g2 f2, g1 f2 + g2 f1. Then T B_a.
        let mut b = [[[0.0; 3]; 3]; 3];
        let mut tb = [[[0.0; 3]; 3]; 3];
        for a in 0..3 {
            let [g1, g2] = t.gradients[a];
            let out = &mut gradient[t.corners[a]];
            for i in 0..3 {
                out[i] += p1[i] * g1 + p2[i] * g2;
                b[a][0][i] = g1 * f1[i];
                b[a][1][i] = g2 * f2[i];
                b[a][2][i] = g1 * f2[i] + g2 * f1[i];
            }
            for r in 0..3 {
                let row = tangent[r].map(|k| k * scale);
                for i in 0..3 {
                    tb[a][r][i] = row[0] * b[a][0][i] + row[1] * b[a][1][i] + row[2] * b[a][2][i];
                }
            }
        }
        let block = |a: usize, c: usize| {
            let ([a1, a2], [c1, c2]) = (t.gradients[a], t.gradients[c]);
            let stiff = s[0] * a1 * c1 + s[1] * a2 * c2 + s[2] * (a1 * c2 + a2 * c1);
            let mut m = [[0.0; 3]; 3];
            for i in 0..3 {
                for j in 0..3 {
                    m[i][j] = b[a][0][i] * tb[c][0][j] + b[a][1][i] * tb[c][1][j] + b[a][2][i] * tb[c][2][j];
                }
                m[i][i] += stiff;
            }
            m
        };
        for a in 0..3 {
            pattern.add_own(values, t.corners[a], &block(a, a));
        }
        let places = &pattern.triangles[number];
        pattern.add_pair(values, places[0], &block(1, 0));
        pattern.add_pair(values, places[1], &block(2, 0));
        pattern.add_pair(values, places[2], &block(2, 1));
    }
    for (bar, place) in mesh.bars.iter().zip(&pattern.bars) {
        let [a, b] = bar.ends;
        let between = sub(x[b], x[a]);
        let length = norm(between);
        let stretch = length / bar.rest_mm - 1.0;
        if stretch <= 0.0 {
            continue;
        }
        let n = between.map(|d| d / length);
        let pull = bar.stiffness_n * stretch;
        sum += bar.stiffness_n * bar.rest_mm * stretch * stretch / 2.0;
        let (along, square) = (bar.stiffness_n / bar.rest_mm, pull / length);
        let mut m = [[0.0; 3]; 3];
        let mut minus = [[0.0; 3]; 3];
        for i in 0..3 {
            gradient[a][i] -= pull * n[i];
            gradient[b][i] += pull * n[i];
            for j in 0..3 {
                m[i][j] = (along - square) * n[i] * n[j];
            }
            m[i][i] += square;
            minus[i] = m[i].map(|k| -k);
        }
        pattern.add_own(values, a, &m);
        pattern.add_own(values, b, &m);
        pattern.add_pair(values, *place, &minus);
    }
    for ((load, p), out) in mesh.loads.iter().zip(x).zip(gradient) {
        sum -= dot(*load, *p);
        *out = sub(*out, *load);
    }
    (sum, states)
}

pub(crate) fn count(states: &mut StateCounts, stress: &Stress) {
    match stress.state {
        Tautness::Slack => states.slack += 1,
        Tautness::Wrinkled => states.wrinkled += 1,
        Tautness::Taut => states.taut += 1,
    }
}
