//! What hangs from the suit lies over it as tracing paper does: ruled level, its hem an ink line.

use std::fmt::Write;

use super::figure::normal;
use super::sheet::{CLOTH, INK, Place, SLATE, Sheet};
use crate::worn::OnForm;

pub(super) fn drapes(sheet: &mut Sheet, place: &Place, on: &OnForm) {
    let side = place.side;
    let (mut cloth, mut rows, mut hem) = (String::new(), String::new(), String::new());
    for drape in &on.worn.hanging {
        let columns = drape.hem.len();
        let mut normals = vec![[0.0; 3]; drape.points.len()];
        for t in &drape.triangles {
            let n = normal(t.map(|v| drape.points[v]));
            for v in t {
                for k in 0..3 {
                    normals[*v][k] += n[k];
                }
            }
        }
        for m in side.mirrors(on.mesh.is_whole) {
            let flip = |q: [f64; 3]| [q[0] * m, q[1], q[2]];
            for t in &drape.triangles {
                let q = t.map(|v| drape.points[v]);
                if side.faces(flip(normal(q))) {
                    let [a, b, c] = q.map(|p| place.spot(flip(p)));
                    let _ = write!(cloth, "M{a}L{b}L{c}Z");
                }
            }
            // Every second row, and the last with more ink.
            for (row, line) in (0..drape.points.len())
                .collect::<Vec<_>>()
                .chunks(columns.max(1))
                .enumerate()
            {
                let path = if line == drape.hem { &mut hem } else { &mut rows };
                if row % 2 == 1 && line != drape.hem {
                    continue;
                }
                for w in line.windows(2) {
                    if w.iter().any(|v| side.faces(flip(normals[*v]))) {
                        let [a, b] = [w[0], w[1]].map(|v| place.spot(flip(drape.points[v])));
                        let _ = write!(path, "M{a}L{b}");
                    }
                }
            }
        }
    }
    if cloth.is_empty() {
        return;
    }
    sheet.put(&format!(
        "<g opacity=\"0.86\"><path d=\"{cloth}\" fill=\"{CLOTH}\" stroke=\"{CLOTH}\" stroke-width=\"0.8\"/></g>\n<path d=\"{rows}\" stroke=\"{SLATE}\" stroke-width=\"0.8\"/>\n<path d=\"{hem}\" stroke=\"{INK}\" stroke-width=\"2.2\"/>"
    ));
}
