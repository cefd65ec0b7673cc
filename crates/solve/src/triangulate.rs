//! A flat outline filled with even triangles: constrained Delaunay refinement that leaves the outline's points as they are.
//!
//! Seams are divided alike on both sides before, so no point may be added on the outline here.
//!
//! **Shapes and units.** mm; outline counter-clockwise, first point not repeated.
//! **Source.** Delaunay refinement (Ruppert 1995), from memory; the engine is `spade`, which goes no further than this file.

use spade::{AngleLimit, ConstrainedDelaunayTriangulation, Point2, RefinementParameters, Triangulation};

/// Largest triangle, as a share of the square of the edge length: an even mesh of edges h then has triangles of about 0.43 h^2.
const LARGEST: f64 = 0.62;
/// Least angle asked for, degrees; sharper corners of the outline stay as they are.
const LEAST_ANGLE: f64 = 27.0;

/// Points (the outline's first, in order) and triangles, counter-clockwise.
pub(crate) struct Filled {
    pub(crate) points: Vec<[f64; 2]>,
    pub(crate) triangles: Vec<[usize; 3]>,
    /// The points of each line inside; empty for a line that could not be kept because it meets the outline or another.
    pub(crate) lines: Vec<Vec<usize>>,
}

/// Fills an outline, with the sides of triangles along the lines inside it. `None` if two of its points coincide or its sides cross.
pub(crate) fn fill(outline: &[[f64; 2]], inside: &[Vec<[f64; 2]>], edge_mm: f64) -> Option<Filled> {
    let mut mesh = ConstrainedDelaunayTriangulation::<Point2<f64>>::new();
    let mut handles = Vec::with_capacity(outline.len());
    for p in outline {
        let handle = mesh.insert(Point2::new(p[0], p[1])).ok()?;
        if handle.index() != handles.len() {
            return None;
        }
        handles.push(handle);
    }
    for (i, from) in handles.iter().enumerate() {
        let to = handles[(i + 1) % handles.len()];
        if !mesh.can_add_constraint(*from, to) {
            return None;
        }
        mesh.add_constraint(*from, to);
    }
    // The lines' points now, their sides after the refinement: it tells inside from outside by counting constraints.
    let mut lines: Vec<Vec<_>> = Vec::with_capacity(inside.len());
    for line in inside {
        let points: Result<Vec<_>, _> = line
            .iter()
            .map(|p| mesh.insert(Point2::new(p[0], p[1])))
            .collect();
        lines.push(points.ok()?);
    }
    // Twice what even triangles need: the engine's own bound, ten times the outline's points, left fine meshes half done.
    let area = area(outline).abs() / (edge_mm * edge_mm);
    let most = (10 * outline.len()).max((4.0 * area) as usize + 1000);
    let parameters = RefinementParameters::<f64>::new()
        .with_max_additional_vertices(most)
        .keep_constraint_edges()
        .exclude_outer_faces(true)
        .with_angle_limit(AngleLimit::from_deg(LEAST_ANGLE))
        .with_min_required_area(0.1 * edge_mm * edge_mm)
        .with_max_allowed_area(LARGEST * edge_mm * edge_mm);
    let refined = mesh.refine(parameters);
    if !refined.refinement_complete {
        return None;
    }
    let mut outer: Vec<usize> = refined.excluded_faces.iter().map(|f| f.index()).collect();
    outer.sort_unstable();
    let lines: Vec<Vec<usize>> = lines
        .iter()
        .map(|line| {
            let sides = || line.windows(2).filter(|w| w[0] != w[1]);
            let is_kept =
                sides().all(|w| mesh.exists_constraint(w[0], w[1]) || mesh.can_add_constraint(w[0], w[1]));
            if !is_kept {
                return Vec::new();
            }
            for w in sides() {
                mesh.add_constraint(w[0], w[1]);
            }
            line.iter().map(|h| h.index()).collect()
        })
        .collect();
    let mut triangles: Vec<[usize; 3]> = mesh
        .inner_faces()
        .filter(|f| outer.binary_search(&f.fix().index()).is_err())
        .map(|f| f.vertices().map(|v| v.fix().index()))
        .collect();
    // Points of a line that leaves the outline are of no triangle.
    let mut number_of = vec![usize::MAX; mesh.num_vertices()];
    for v in (0..outline.len()).chain(triangles.iter().flatten().copied()) {
        number_of[v] = 0;
    }
    let mut points = Vec::with_capacity(number_of.len());
    for (number, v) in number_of.iter_mut().zip(mesh.vertices()) {
        if *number == 0 {
            *number = points.len();
            points.push([v.position().x, v.position().y]);
        }
    }
    for v in triangles.iter_mut().flatten() {
        *v = number_of[*v];
    }
    let lines = lines
        .into_iter()
        .map(|line: Vec<usize>| {
            let line: Vec<usize> = line.into_iter().map(|v| number_of[v]).collect();
            if line.contains(&usize::MAX) {
                Vec::new()
            } else {
                line
            }
        })
        .collect();
    Some(Filled {
        points,
        triangles,
        lines,
    })
}

/// Area within an outline, above 0 for a counter-clockwise one.
fn area(outline: &[[f64; 2]]) -> f64 {
    let sides = outline.iter().zip(outline.iter().cycle().skip(1));
    sides.map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum::<f64>() / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_is_filled_whole_and_its_outline_kept() {
        let side = 10;
        let mut outline = Vec::new();
        for i in 0..4 * side {
            let (k, t) = (i / side, (i % side) as f64 * 10.0);
            outline.push([[t, 0.0], [100.0, t], [100.0 - t, 100.0], [0.0, 100.0 - t]][k]);
        }
        let filled = fill(&outline, &[], 10.0).unwrap();
        assert_eq!(filled.points[..outline.len()], outline[..]);
        let area: f64 = filled
            .triangles
            .iter()
            .map(|t| {
                let [a, b, c] = t.map(|v| filled.points[v]);
                ((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])) / 2.0
            })
            .sum();
        assert!((area - 1e4).abs() < 1e-6, "{area}");
        // No point was added on the outline.
        let on_edge = |p: &[f64; 2]| p.iter().any(|x| *x < 1e-9 || *x > 100.0 - 1e-9);
        assert_eq!(filled.points.iter().filter(|p| on_edge(p)).count(), outline.len());
        assert!(
            (200..330).contains(&filled.triangles.len()),
            "{}",
            filled.triangles.len()
        );
    }

    #[test]
    fn triangles_lie_on_one_side_of_a_line_inside() {
        let outline: Vec<[f64; 2]> = (0..40)
            .map(|i| {
                let (k, t) = (i / 10, (i % 10) as f64 * 10.0);
                [[t, 0.0], [100.0, t], [100.0 - t, 100.0], [0.0, 100.0 - t]][k]
            })
            .collect();
        let line: Vec<[f64; 2]> = (0..=10).map(|i| [f64::from(i) * 10.0, 40.0]).collect();
        let filled = fill(&outline, &[line], 10.0).unwrap();
        assert_eq!(filled.lines[0].len(), 11);
        assert_eq!(filled.lines[0][0], 36, "its end is the outline's own point");
        for t in &filled.triangles {
            let y = t.map(|v| filled.points[v][1] - 40.0);
            assert!(
                y.iter().all(|y| *y <= 1e-9) || y.iter().all(|y| *y >= -1e-9),
                "{y:?}"
            );
        }
    }

    #[test]
    fn a_fine_mesh_is_fine_all_over() {
        let outline: Vec<[f64; 2]> = (0..200)
            .map(|i| {
                let (k, t) = (i / 50, f64::from(i % 50) * 4.0);
                [[t, 0.0], [200.0, t], [200.0 - t, 200.0], [0.0, 200.0 - t]][k as usize]
            })
            .collect();
        let filled = fill(&outline, &[], 4.0).unwrap();
        let largest = filled
            .triangles
            .iter()
            .map(|t| area(&t.map(|v| filled.points[v])))
            .fold(0.0, f64::max);
        assert!(largest <= LARGEST * 16.0, "{largest}");
    }

    #[test]
    fn an_outline_that_crosses_itself_is_refused() {
        let outline = [[0.0, 0.0], [10.0, 10.0], [10.0, 0.0], [0.0, 10.0]];
        assert!(fill(&outline, &[], 5.0).is_none());
    }
}
