//! How much of the seat the worn suit covers, against what the draft meant.
//!
//! The seat is the form's skin behind, from the hip down to the fold under it. A spot of it is covered where a line along the skin's
//! normal meets the shell. Meant is the same with the suit where it was placed.
//!
//! **Limits.** Standing, one side for both. The inner fold is counted as the form has it.

use body::FittedForm;
use units::Level;

use super::SeatCover;
use crate::form_lines::seat_fold;
use crate::suit::SuitMesh;
use crate::vector::{V3, cross, dot, norm, sub};

/// A face looks backwards whose normal does by at least this much.
const BACKWARDS: f64 = 0.35;
/// How far under and over the skin the shell is looked for, mm: it may lie a little in it, and bridge the cleft.
const REACH: (f64, f64) = (-8.0, 45.0);
/// Each face of the form is looked at in so many spots squared.
const SPOTS: usize = 3;

pub(super) fn seat_cover(
    suit: &SuitMesh,
    form: &FittedForm,
    placed: &[[f64; 3]],
    worn: &[[f64; 3]],
) -> Option<SeatCover> {
    let (fold, hip) = (seat_fold(form), form.level_height(Level::Hip));
    let v = form.vertices();
    let (mut whole, mut meant, mut covered) = (0.0, 0.0, 0.0);
    let near = |x: &[[f64; 3]]| -> Vec<[V3; 3]> {
        let shell = suit.mesh.triangles().iter().filter(|t| t.layer == 0);
        shell
            .map(|t| t.corners.map(|c| x[c]))
            .filter(|q| {
                q.iter().any(|p| p[2] < REACH.1)
                    && q.iter().any(|p| p[1] > fold - REACH.1)
                    && q.iter().any(|p| p[1] < hip + REACH.1)
            })
            .collect()
    };
    let (placed, worn) = (near(placed), near(worn));
    for face in form.faces() {
        let [a, b, c] = face.map(|i| v[i]);
        let n = cross(sub(b, a), sub(c, a));
        let length = norm(n);
        if length <= 0.0 || n[2] > -BACKWARDS * length {
            continue;
        }
        let n = n.map(|x| x / length);
        let area = length / 2.0 / (SPOTS * SPOTS) as f64;
        for (p, q) in spots() {
            let at = [0, 1, 2].map(|k| a[k] + p * (b[k] - a[k]) + q * (c[k] - a[k]));
            if at[0] <= 0.0 || at[1] < fold || at[1] > hip {
                continue;
            }
            whole += area;
            let is_under = |cloth: &[[V3; 3]]| cloth.iter().any(|t| meets(t, at, n));
            meant += if is_under(&placed) { area } else { 0.0 };
            covered += if is_under(&worn) { area } else { 0.0 };
        }
    }
    // A seat the suit was never meant to cover is not judged.
    (whole > 0.0 && meant > 0.0).then(|| SeatCover {
        meant: meant / whole,
        covered: covered / whole,
    })
}

/// Middles of the small triangles a face is divided into.
fn spots() -> Vec<(f64, f64)> {
    let step = 1.0 / SPOTS as f64;
    let mut all = Vec::with_capacity(SPOTS * SPOTS);
    for i in 0..SPOTS {
        for j in 0..SPOTS - i {
            all.push(((i as f64 + 1.0 / 3.0) * step, (j as f64 + 1.0 / 3.0) * step));
            if i + j + 1 < SPOTS {
                all.push(((i as f64 + 2.0 / 3.0) * step, (j as f64 + 2.0 / 3.0) * step));
            }
        }
    }
    all
}

/// Whether a line from a point along a direction meets a triangle within reach. Moeller and Trumbore's test (from memory).
fn meets([a, b, c]: &[V3; 3], from: V3, along: V3) -> bool {
    let (u, w) = (sub(*b, *a), sub(*c, *a));
    let p = cross(along, w);
    let whole = dot(u, p);
    if whole.abs() < 1e-9 {
        return false;
    }
    let s = sub(from, *a);
    let first = dot(s, p) / whole;
    let q = cross(s, u);
    let second = dot(along, q) / whole;
    if first < 0.0 || second < 0.0 || first + second > 1.0 {
        return false;
    }
    let t = dot(w, q) / whole;
    t >= REACH.0 && t <= REACH.1
}
