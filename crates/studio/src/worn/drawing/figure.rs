//! The figure: the form in thin rings, the cloth on it as paper, its edges in ink; and what of the cloth faces the eye.

use std::fmt::Write;

use super::Side;
use super::sheet::{CLOTH, INK, Place, RULE, Sheet};
use crate::worn::OnForm;

/// Rings of the form.
const FORM_RINGS: usize = 52;

pub(super) fn form_rings(sheet: &mut Sheet, place: &Place, on: &OnForm) {
    let side = place.side;
    let mut path = String::new();
    for ring in on.form.rings(FORM_RINGS, &[]) {
        if side == Side::Left && ring.part == body::RingPart::Right {
            continue;
        }
        let n = ring.points.len();
        let mut pen_at = None;
        for i in 0..n {
            let (a, b) = (ring.points[i], ring.points[(i + 1) % n]);
            // Rings run from the back over her left to the front: outside is to the right of travel.
            if side.faces([b[2] - a[2], 0.0, a[0] - b[0]]) {
                if pen_at != Some(i) {
                    let _ = write!(path, "M{}", place.spot(a));
                }
                let _ = write!(path, "L{}", place.spot(b));
                pen_at = Some(i + 1);
            }
        }
    }
    sheet.put(&format!(
        "<path d=\"{path}\" stroke=\"{RULE}\" stroke-width=\"0.8\"/>"
    ));
}

/// Normal of a triangle, outwards.
pub(in crate::worn) fn normal(q: [[f64; 3]; 3]) -> [f64; 3] {
    let minus = |a: [f64; 3], b: [f64; 3]| [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
    let (u, w) = (minus(q[1], q[0]), minus(q[2], q[0]));
    [
        u[1] * w[2] - u[2] * w[1],
        u[2] * w[0] - u[0] * w[2],
        u[0] * w[1] - u[1] * w[0],
    ]
}

/// A triangle of the shell that faces the eye.
#[derive(Clone, Copy, Debug)]
pub(super) struct Seen {
    /// Its corners where they lie, mirrored for her right.
    pub(super) at: [[f64; 3]; 3],
    /// Its vertices.
    pub(super) corners: [usize; 3],
    /// Whether it is of her right half.
    pub(super) is_mirrored: bool,
}

/// The shell's triangles that face the eye, as they lie.
pub(super) fn seen(on: &OnForm, side: Side) -> impl Iterator<Item = Seen> {
    let x = &on.worn.solved.positions;
    let shell = on.mesh.mesh.triangles().iter().filter(|t| t.layer == 0);
    shell.flat_map(move |t| {
        let q = t.corners.map(|v| x[v]);
        let n = normal(q);
        side.mirrors(on.mesh.is_whole).iter().filter_map(move |m| {
            let there = side.faces([n[0] * m, n[1], n[2]]);
            there.then(|| Seen {
                at: q.map(|p| [p[0] * m, p[1], p[2]]),
                corners: t.corners,
                is_mirrored: *m < 0.0,
            })
        })
    })
}

/// The cloth itself, so that the form's rings end where it begins.
pub(super) fn cloth(sheet: &mut Sheet, place: &Place, on: &OnForm) {
    let mut path = String::new();
    // Whole units do: the ink of the edges covers what rounding leaves.
    for Seen { at: q, .. } in seen(on, place.side) {
        let [a, b, c] = q.map(|p| place.at(p).map(f64::round));
        let (u, w) = ([b[0] - a[0], b[1] - a[1]], [c[0] - b[0], c[1] - b[1]]);
        let _ = write!(path, "M{} {}l{} {} {} {}z", a[0], a[1], u[0], u[1], w[0], w[1]);
    }
    sheet.put(&format!(
        "<path d=\"{path}\" fill=\"{CLOTH}\" stroke=\"{CLOTH}\" stroke-width=\"0.8\"/>"
    ));
}

/// A value at each vertex as the mean of its own and its neighbours', by area, twice: a single vertex is as sharp as the mesh is fine.
pub(super) fn smoothed(on: &OnForm, values: &[f64]) -> Vec<f64> {
    let triangles = on.mesh.mesh.triangles();
    let areas = solve::voronoi_areas(&on.mesh.mesh, &on.worn.solved.positions);
    let mut p = values.to_vec();
    for _ in 0..2 {
        let mut sums: Vec<[f64; 2]> = areas.iter().zip(&p).map(|(a, p)| [a * p, *a]).collect();
        for t in triangles.iter().filter(|t| t.layer == 0) {
            for (i, v) in t.corners.into_iter().enumerate() {
                // Each inner edge is met twice: once from either side.
                let w = t.corners[(i + 1) % 3];
                for (a, b) in [(v, w), (w, v)] {
                    sums[a][0] += 0.5 * areas[b] * p[b];
                    sums[a][1] += 0.5 * areas[b];
                }
            }
        }
        p = sums
            .into_iter()
            .map(|[f, a]| if a > 0.0 { f / a } else { 0.0 })
            .collect();
    }
    p
}

pub(super) fn open_edges(sheet: &mut Sheet, place: &Place, on: &OnForm) {
    let side = place.side;
    let x = &on.worn.solved.positions;
    // What faces the eye at a vertex: the sum of its triangles' normals.
    let mut normals = vec![[0.0; 3]; x.len()];
    for t in on.mesh.mesh.triangles().iter().filter(|t| t.layer == 0) {
        let n = normal(t.corners.map(|v| x[v]));
        for v in t.corners {
            for k in 0..3 {
                normals[v][k] += n[k];
            }
        }
    }
    let mut path = String::new();
    for line in &on.mesh.open_lines {
        for m in side.mirrors(on.mesh.is_whole) {
            let flip = |q: [f64; 3]| [q[0] * m, q[1], q[2]];
            let mut is_down = false;
            for w in line.vertices.windows(2) {
                // An edge that turns away is still the cloth's outline: one end in sight is enough.
                let is_seen = w.iter().any(|v| side.faces(flip(normals[*v])));
                if is_seen {
                    if !is_down {
                        let _ = write!(path, "M{}", place.spot(flip(x[w[0]])));
                    }
                    let _ = write!(path, "L{}", place.spot(flip(x[w[1]])));
                }
                is_down = is_seen;
            }
        }
    }
    sheet.put(&format!(
        "<path d=\"{path}\" stroke=\"{INK}\" stroke-width=\"2.2\"/>"
    ));
}
