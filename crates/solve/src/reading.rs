//! Reading a solved shape: worn stretch, tension, contact pressure.
//!
//! Pressure at a vertex is its contact force over its worn Voronoi area, not over a third of its triangles: on regular meshes
//! with alternating diagonals that is wrong by half at neighbouring vertices, on average by an eighth.
//!
//! **Shapes and units.** mm, N; tension N/m; pressure kPa.
//! **Source.** Mixed areas: M. Meyer et al., "Discrete differential-geometry operators for triangulated 2-manifolds" (2003), from memory.

use cloth::Stress;

use crate::assembly::{N_PER_MM, deformation};
use crate::mesh::Mesh;
use crate::outcome::Solved;
use crate::vector::{V3, add_scaled, cross, dot, norm, sub};

/// N/mm^2 to kPa.
const KPA: f64 = 1e3;

/// Worn over rest length of each triangle, lengthwise and around.
pub fn worn_stretch(mesh: &Mesh, positions: &[[f64; 3]]) -> Vec<[f64; 2]> {
    mesh.triangles
        .iter()
        .map(|t| {
            let (f1, f2, _) = deformation(t, positions);
            [norm(f1), norm(f2)]
        })
        .collect()
}

/// Stress of each triangle as the law gives it, N/m.
pub fn triangle_stress(mesh: &Mesh, positions: &[[f64; 3]]) -> Vec<Stress> {
    mesh.triangles
        .iter()
        .map(|t| mesh.laws[t.law].stress(deformation(t, positions).2))
        .collect()
}

/// The least principal stress of a stress state, N/m: never below 0 but for rounding.
pub fn least_principal_stress(stress: &Stress) -> f64 {
    let [s1, s2, s12] = stress.s;
    (s1 + s2) / 2.0 - ((s1 - s2) / 2.0).hypot(s12)
}

/// Pull of each bar, N.
pub fn bar_tensions(mesh: &Mesh, positions: &[[f64; 3]]) -> Vec<f64> {
    mesh.bars
        .iter()
        .map(|bar| {
            let length = norm(sub(positions[bar.ends[0]], positions[bar.ends[1]]));
            bar.stiffness_n * (length / bar.rest_mm - 1.0).max(0.0)
        })
        .collect()
}

/// Worn stretch of a layer at each vertex, the mean of its triangles by rest area; `None` where the layer isn't.
pub fn vertex_stretch(mesh: &Mesh, positions: &[[f64; 3]], layer: usize) -> Vec<Option<[f64; 2]>> {
    let mut sums = vec![[0.0; 3]; mesh.vertex_count()];
    for (t, l) in mesh.triangles.iter().zip(worn_stretch(mesh, positions)) {
        if t.layer == layer {
            for v in t.corners {
                sums[v][0] += t.area_mm2 * l[0];
                sums[v][1] += t.area_mm2 * l[1];
                sums[v][2] += t.area_mm2;
            }
        }
    }
    sums.into_iter()
        .map(|[a, b, area]| (area > 0.0).then(|| [a / area, b / area]))
        .collect()
}

/// Worn Voronoi (mixed) area of each vertex in the outer layer, mm^2.
pub fn voronoi_areas(mesh: &Mesh, positions: &[[f64; 3]]) -> Vec<f64> {
    let mut areas = vec![0.0; mesh.vertex_count()];
    for t in mesh.triangles.iter().filter(|t| t.layer == 0) {
        let own = mixed_areas(t.corners.map(|v| positions[v]));
        for (v, area) in t.corners.into_iter().zip(own) {
            areas[v] += area;
        }
    }
    areas
}

/// What of a triangle's area belongs to each corner.
pub(crate) fn mixed_areas(p: [V3; 3]) -> [f64; 3] {
    let twice = norm(cross(sub(p[1], p[0]), sub(p[2], p[0])));
    let sides = |i: usize| -> (V3, V3) { (sub(p[(i + 1) % 3], p[i]), sub(p[(i + 2) % 3], p[i])) };
    let cosines = [0, 1, 2].map(|i| {
        let (a, b) = sides(i);
        dot(a, b)
    });
    [0, 1, 2].map(|i| {
        let (j, k) = ((i + 1) % 3, (i + 2) % 3);
        if cosines[i] <= 0.0 {
            twice / 4.0
        } else if cosines[j] <= 0.0 || cosines[k] <= 0.0 {
            twice / 8.0
        } else {
            // The side to j is opposite the angle at k, and the other way round.
            let (a, b) = sides(i);
            (dot(a, a) * cosines[k] + dot(b, b) * cosines[j]) / (8.0 * twice.max(f64::MIN_POSITIVE))
        }
    })
}

/// Contact pressure at each vertex, kPa; 0 where no outer cloth is.
pub fn pressure(mesh: &Mesh, solved: &Solved) -> Vec<f64> {
    voronoi_areas(mesh, &solved.positions)
        .into_iter()
        .zip(&solved.contact_n)
        .map(|(area, force)| if area > 0.0 { force / area * KPA } else { 0.0 })
        .collect()
}

/// What the cloth and elastic on one side of a cut pull on the other with, N: over triangles and bars that lie across it and whose
/// middle is `counted`. Exact for the mesh, by the forces on its vertices.
pub(crate) fn pull_across(
    mesh: &Mesh,
    positions: &[[f64; 3]],
    is_above: &dyn Fn([f64; 3]) -> bool,
    is_counted: &dyn Fn([f64; 3]) -> bool,
) -> f64 {
    let middle = |of: &[usize]| {
        let count = of.len().max(1) as f64;
        [0, 1, 2].map(|k| of.iter().map(|v| positions[*v][k]).sum::<f64>() / count)
    };
    let is_across = |of: &[usize]| {
        let above = of.iter().filter(|v| is_above(positions[**v])).count();
        above > 0 && above < of.len() && is_counted(middle(of))
    };
    let mut sum = [0.0; 3];
    for t in mesh.triangles.iter().filter(|t| is_across(&t.corners)) {
        let (f1, f2, e) = deformation(t, positions);
        let s = mesh.laws[t.law].stress(e).s.map(|s| s * t.area_mm2 * N_PER_MM);
        for (v, [g1, g2]) in t.corners.iter().zip(t.gradients) {
            if is_above(positions[*v]) {
                sum = add_scaled(sum, s[0] * g1 + s[2] * g2, f1);
                sum = add_scaled(sum, s[2] * g1 + s[1] * g2, f2);
            }
        }
    }
    for (bar, pull) in mesh.bars.iter().zip(bar_tensions(mesh, positions)) {
        if is_across(&bar.ends) {
            let [a, b] = bar.ends.map(|v| positions[v]);
            let along = if is_above(a) { sub(a, b) } else { sub(b, a) };
            sum = add_scaled(sum, pull / norm(along).max(f64::MIN_POSITIVE), along);
        }
    }
    norm(sum)
}
