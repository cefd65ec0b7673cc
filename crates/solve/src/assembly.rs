//! Energy, forces and matrix at a shape: cloth, bars, loads, contact.
//!
//! A triangle's deformation gradient has the columns f1 = sum x_a g_a1 and f2 = sum x_a g_a2 (g: gradients of the hat functions by
//! lengthwise and around). Its strain is E11 = (f1.f1 - 1)/2, E22 alike, 2 E12 = f1.f2. The force on corner a is
//! area (S11 f1 g_a1 + S22 f2 g_a2 + S12 (f1 g_a2 + f2 g_a1)); the matrix adds B_a^T (dS/de) B_b and the stress by the
//! gradients. A weak pull, delta/2 |F|^2, is added to S11 and S22: it makes slack cloth definite.
//!
//! **Shapes and units.** N, mm. The law's N/m become N/mm here.

#![allow(
    clippy::needless_range_loop,
    reason = "entries of 3 x 3 blocks are named by their place"
)]

use cloth::{Stress, Tautness};

use crate::contact::Contact;
use crate::mesh::{Bar, Mesh, Triangle};
use crate::outcome::StateCounts;
use crate::parallel;
use crate::pattern::{Pattern, Place};
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

/// Triangles and vertices worked at a time.
const RUN: usize = 256;

/// Energy of cloth, bars, loads and contact, N mm.
pub(crate) fn energy(mesh: &Mesh, slack_pull: f64, contact: &Contact<'_>, x: &[V3]) -> f64 {
    let cloth = parallel::runs(&mesh.triangles, RUN, |_, triangles| {
        let mut sum = 0.0;
        for t in triangles {
            let (f1, f2, e) = deformation(t, x);
            let law = &mesh.laws[t.law];
            let pull = slack_pull * law.k_mean() * (dot(f1, f1) + dot(f2, f2)) / 2.0;
            sum += t.area_mm2 * N_PER_MM * (law.stress(e).energy + pull);
        }
        sum
    });
    let touching = parallel::runs(x, RUN, |first, run| {
        let points = run.iter().enumerate();
        points.map(|(i, at)| contact.energy(first + i, *at)).sum::<f64>()
    });
    let mut sum: f64 = cloth.into_iter().chain(touching).sum();
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

/// What a triangle or a bar adds: forces on its corners, their own blocks, and those of its pairs, (1, 0), (2, 0), (2, 1).
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Element {
    forces: [V3; 3],
    /// Lower triangles by columns.
    own: [[f64; 6]; 3],
    pairs: [[[f64; 3]; 3]; 3],
}

/// Sets forces (downhill is minus) and matrix of cloth, bars, loads and contact; returns the energy and the states.
///
/// First every triangle by itself, then every vertex gathers what its triangles add to its columns, in their order: the same bytes however
/// the work is shared. `elements` is room for the triangles.
pub(crate) fn assemble(
    mesh: &Mesh,
    pattern: &Pattern,
    slack_pull: f64,
    contact: &Contact<'_>,
    x: &[V3],
    (gradient, values, elements): (&mut [V3], &mut [f64], &mut Vec<Element>),
) -> (f64, StateCounts) {
    elements.resize(mesh.triangles.len(), Element::default());
    let cloth = parallel::fill(elements, RUN, |first, run| {
        let mut sum = 0.0;
        let mut states = StateCounts::default();
        for (element, t) in run.iter_mut().zip(&mesh.triangles[first..]) {
            sum += of_triangle(mesh, t, slack_pull, x, element, &mut states);
        }
        (sum, states)
    });
    let mut sum = 0.0;
    let mut states = StateCounts::default();
    for (energy, s) in cloth {
        sum += energy;
        states.slack += s.slack;
        states.wrinkled += s.wrinkled;
        states.taut += s.taut;
    }
    let mut bars = vec![Element::default(); mesh.bars.len()];
    for (bar, element) in mesh.bars.iter().zip(&mut bars) {
        sum += of_bar(bar, x, element);
    }
    // Every run of vertices has its own columns.
    let mut parts = Vec::with_capacity(x.len() / RUN + 1);
    let (mut values_left, mut gradient_left) = (values, gradient);
    for first in (0..x.len()).step_by(RUN) {
        let last = (first + RUN).min(x.len());
        let size = pattern.column_starts[3 * last] - pattern.column_starts[3 * first];
        let (own_values, next_values) = values_left.split_at_mut(size);
        let (own_gradient, next_gradient) = gradient_left.split_at_mut(last - first);
        parts.push((first, own_values, own_gradient));
        (values_left, gradient_left) = (next_values, next_gradient);
    }
    let elements = &elements[..];
    let touching = parallel::map(parts, |(first, values, gradient)| {
        values.fill(0.0);
        let mut columns = Columns {
            pattern,
            offset: pattern.column_starts[3 * first],
            values,
        };
        let mut sum = 0.0;
        for (i, out) in gradient.iter_mut().enumerate() {
            let v = first + i;
            *out = [0.0; 3];
            for (number, corner) in pattern.around(v) {
                columns.add(v, &elements[number], corner, &pattern.triangles[number], out);
            }
            for (number, end) in pattern.bars_around(v) {
                columns.add(v, &bars[number], end, &pattern.bars[number..=number], out);
            }
            *out = sub(*out, mesh.loads[v]);
            sum += contact.assemble(v, x[v], out, |block| columns.add_own(v, &lower(block)));
        }
        sum
    });
    sum += touching.into_iter().sum::<f64>();
    for (load, p) in mesh.loads.iter().zip(x) {
        sum -= dot(*load, *p);
    }
    (sum, states)
}

/// The columns of a run of vertices.
struct Columns<'a> {
    pattern: &'a Pattern,
    /// Where they begin in the whole matrix.
    offset: usize,
    values: &'a mut [f64],
}

impl Columns<'_> {
    /// Adds what an element adds to the columns of its corner `v`.
    fn add(&mut self, v: usize, element: &Element, corner: usize, places: &[Place], out: &mut V3) {
        for (o, f) in out.iter_mut().zip(element.forces[corner]) {
            *o += f;
        }
        self.add_own(v, &element.own[corner]);
        for (place, block) in places.iter().zip(&element.pairs) {
            if place.low as usize == v {
                self.add_pair(*place, block);
            }
        }
    }

    fn add_own(&mut self, v: usize, block: &[f64; 6]) {
        let mut next = 0;
        for j in 0..3 {
            let start = self.pattern.column_starts[3 * v + j] - self.offset;
            for value in &mut self.values[start..start + 3 - j] {
                *value += block[next];
                next += 1;
            }
        }
    }

    /// Adds the block of a pair: `block[i][j]` is by coordinate i of the first vertex and j of the second.
    fn add_pair(&mut self, place: Place, block: &[[f64; 3]; 3]) {
        for j in 0..3 {
            let start = self.pattern.column_starts[3 * place.low as usize + j] - self.offset;
            let start = start + 3 - j + 3 * place.slot as usize;
            for (i, value) in self.values[start..start + 3].iter_mut().enumerate() {
                *value += if place.is_lower { block[i][j] } else { block[j][i] };
            }
        }
    }
}

/// The lower triangle of a block, by columns.
fn lower(m: &[[f64; 3]; 3]) -> [f64; 6] {
    [m[0][0], m[1][0], m[2][0], m[1][1], m[2][1], m[2][2]]
}

fn of_triangle(
    mesh: &Mesh,
    t: &Triangle,
    slack_pull: f64,
    x: &[V3],
    element: &mut Element,
    states: &mut StateCounts,
) -> f64 {
    let (f1, f2, e) = deformation(t, x);
    let law = &mesh.laws[t.law];
    let (stress, tangent) = law.response(e);
    count(states, &stress);
    let scale = t.area_mm2 * N_PER_MM;
    let delta = slack_pull * law.k_mean();
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
        for i in 0..3 {
            element.forces[a][i] = p1[i] * g1 + p2[i] * g2;
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
    element.own = [0, 1, 2].map(|a| lower(&block(a, a)));
    element.pairs = [block(1, 0), block(2, 0), block(2, 1)];
    scale * (stress.energy + delta * (dot(f1, f1) + dot(f2, f2)) / 2.0)
}

fn of_bar(bar: &Bar, x: &[V3], element: &mut Element) -> f64 {
    let [a, b] = bar.ends;
    let between = sub(x[b], x[a]);
    let length = norm(between);
    let stretch = length / bar.rest_mm - 1.0;
    if stretch <= 0.0 {
        return 0.0;
    }
    let n = between.map(|d| d / length);
    let pull = bar.stiffness_n * stretch;
    let (along, square) = (bar.stiffness_n / bar.rest_mm, pull / length);
    let mut m = [[0.0; 3]; 3];
    for i in 0..3 {
        element.forces[0][i] = -pull * n[i];
        element.forces[1][i] = pull * n[i];
        for j in 0..3 {
            m[i][j] = (along - square) * n[i] * n[j];
        }
        m[i][i] += square;
        element.pairs[0][i] = m[i].map(|k| -k);
    }
    element.own[0] = lower(&m);
    element.own[1] = lower(&m);
    bar.stiffness_n * bar.rest_mm * stretch * stretch / 2.0
}

pub(crate) fn count(states: &mut StateCounts, stress: &Stress) {
    match stress.state {
        Tautness::Slack => states.slack += 1,
        Tautness::Wrinkled => states.wrinkled += 1,
        Tautness::Taut => states.taut += 1,
    }
}
