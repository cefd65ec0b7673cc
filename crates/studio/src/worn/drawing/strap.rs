//! Straps and ties that run by themselves, as wide as they lie on the body.

use std::fmt::Write;

use super::figure::normal;
use super::sheet::{CLOTH, INK, Place, Sheet};
use crate::worn::OnForm;

/// The form's normal nearest to a point.
pub(in crate::worn) fn outward(on: &OnForm, p: [f64; 3]) -> [f64; 3] {
    let vertices = on.form.vertices();
    let corners = |face: &[usize; 3]| face.map(|v| vertices[v]);
    let off = |face: &&[usize; 3]| -> f64 {
        let q = corners(face);
        (0..3)
            .map(|k| ((q[0][k] + q[1][k] + q[2][k]) / 3.0 - p[k]).powi(2))
            .sum()
    };
    let nearest = on.form.faces().iter().min_by(|a, b| off(a).total_cmp(&off(b)));
    nearest.map_or([0.0; 3], |face| normal(corners(face)))
}

/// Straps and ties, as wide as they lie on the body.
pub(super) fn straps(sheet: &mut Sheet, place: &Place, on: &OnForm) {
    let side = place.side;
    let x = &on.worn.solved.positions;
    for strap in on.mesh.straps.iter().filter(|s| s.width_mm > 0.0) {
        let mut path = String::new();
        for m in side.mirrors(on.mesh.is_whole) {
            let mut is_down = false;
            for w in strap.vertices.windows(2) {
                let ends = [w[0], w[1]].map(|v| [x[v][0] * m, x[v][1], x[v][2]]);
                // It is seen where the body behind it turns to the eye.
                let middle = [0, 1, 2].map(|k| f64::midpoint(ends[0][k], ends[1][k]));
                let n = outward(on, [middle[0] * m, middle[1], middle[2]]);
                let is_seen = side.faces([n[0] * m, n[1], n[2]]);
                if is_seen {
                    if !is_down {
                        let _ = write!(path, "M{}", place.spot(ends[0]));
                    }
                    let _ = write!(path, "L{}", place.spot(ends[1]));
                }
                is_down = is_seen;
            }
        }
        let width = (strap.width_mm * place.scale).max(2.0);
        sheet.put(&format!(
            "<path d=\"{path}\" stroke=\"{INK}\" stroke-width=\"{width:.1}\" stroke-linecap=\"butt\"/>\n<path d=\"{path}\" stroke=\"{CLOTH}\" stroke-width=\"{:.1}\" stroke-linecap=\"butt\"/>",
            (width - 2.0).max(0.5)
        ));
    }
}
