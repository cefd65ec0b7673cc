//! Places where the suit stands off the body.

use draft::OpenKind;

use super::{GAPE_MM, Gape};
use crate::outcome::Solved;
use crate::suit::SuitMesh;

/// Connected places that stand off.
pub(super) fn gapes(suit: &SuitMesh, solved: &Solved) -> Vec<Gape> {
    let mesh = &suit.mesh;
    let areas = crate::reading::voronoi_areas(mesh, &solved.positions);
    let count = mesh.vertex_count();
    let is_off = |v: usize| solved.gap_mm[v] > GAPE_MM && solved.contact_n[v] <= 0.0;
    let mut neighbours: Vec<Vec<usize>> = vec![Vec::new(); count];
    for t in mesh.triangles() {
        for (i, v) in t.corners.iter().enumerate() {
            neighbours[*v].push(t.corners[(i + 1) % 3]);
            neighbours[*v].push(t.corners[(i + 2) % 3]);
        }
    }
    let mut on_edge: Vec<Option<OpenKind>> = vec![None; count];
    for line in &suit.open_lines {
        for v in &line.vertices {
            on_edge[*v] = Some(line.kind);
        }
    }
    let mut seen = vec![false; count];
    let mut found = Vec::new();
    for start in 0..count {
        if seen[start] || !is_off(start) {
            continue;
        }
        seen[start] = true;
        let mut todo = vec![start];
        let mut gape = Gape {
            at: solved.positions[start],
            edge: None,
            depth_mm: 0.0,
            area_mm2: 0.0,
        };
        while let Some(v) = todo.pop() {
            gape.area_mm2 += areas[v];
            gape.edge = gape.edge.or(on_edge[v]);
            if solved.gap_mm[v] > gape.depth_mm {
                gape.depth_mm = solved.gap_mm[v];
                gape.at = solved.positions[v];
            }
            for n in &neighbours[v] {
                if !seen[*n] && is_off(*n) {
                    seen[*n] = true;
                    todo.push(*n);
                }
            }
        }
        found.push(gape);
    }
    found.sort_by(|a, b| b.depth_mm.total_cmp(&a.depth_mm));
    found
}
