//! Plane sections of the form and the taut tape over them: cut edges, convex hulls, their lengths.
//!
//! A tape bridges hollows, so a girth is the convex hull of the section and a length over a curve its upper hull. All
//! planes used contain the x axis's or the z axis's direction, so a plane is a line in the x, y view.
//!
//! **Shapes and units.** mm; section points are `[u, z]`: u along the plane's line in x, y; z forward.
//! **Source.** Monotone chain (Andrew 1979), from memory.

use super::surface::Surface;

/// A plane parallel to z: a line in the x, y view.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Plane {
    origin: [f64; 2],
    along: [f64; 2],
}

impl Plane {
    /// The horizontal plane at a height; u is x.
    pub(crate) const fn horizontal(y: f64) -> Plane {
        Plane {
            origin: [0.0, y],
            along: [1.0, 0.0],
        }
    }

    /// The plane through two points and parallel to z; u runs from the first (0) to the second, and its end is given.
    pub(crate) fn through(from: [f64; 3], to: [f64; 3]) -> (Plane, f64) {
        let (dx, dy) = (to[0] - from[0], to[1] - from[1]);
        let length = (dx * dx + dy * dy).sqrt().max(f64::MIN_POSITIVE);
        let plane = Plane {
            origin: [from[0], from[1]],
            along: [dx / length, dy / length],
        };
        (plane, length)
    }

    /// Signed distance of a point from the plane.
    pub(crate) fn distance(&self, p: [f64; 3]) -> f64 {
        self.along[0] * (p[1] - self.origin[1]) - self.along[1] * (p[0] - self.origin[0])
    }

    /// A point of the plane in its own view.
    pub(crate) fn flat(&self, p: [f64; 3]) -> [f64; 2] {
        let u = self.along[0] * (p[0] - self.origin[0]) + self.along[1] * (p[1] - self.origin[1]);
        [u, p[2]]
    }

    /// A point of the view in space.
    pub(crate) fn space(&self, [u, z]: [f64; 2]) -> [f64; 3] {
        [
            self.origin[0] + u * self.along[0],
            self.origin[1] + u * self.along[1],
            z,
        ]
    }
}

/// Where a plane cuts edges, in the order of the edges.
pub(crate) fn cut(plane: &Plane, edges: &[[usize; 2]], vertices: &[[f64; 3]]) -> Vec<[f64; 3]> {
    edges
        .iter()
        .filter_map(|&[a, b]| crossing(plane, vertices[a], vertices[b]))
        .collect()
}

/// Where the plane cuts one edge. A vertex in the plane counts as above it, so chains of edges never fall apart.
pub(crate) fn crossing(plane: &Plane, p: [f64; 3], q: [f64; 3]) -> Option<[f64; 3]> {
    let (dp, dq) = (plane.distance(p), plane.distance(q));
    if (dp >= 0.0) == (dq >= 0.0) {
        return None;
    }
    Some(between(p, q, dp / (dp - dq)))
}

/// The edges the planes can cut while they and the vertices move by less than `margin` against each other.
pub(crate) fn edges_near(
    planes: &[Plane],
    surface: &Surface,
    vertices: &[[f64; 3]],
    margin: f64,
) -> Vec<[usize; 2]> {
    let distances: Vec<Vec<f64>> = planes
        .iter()
        .map(|plane| vertices.iter().map(|p| plane.distance(*p)).collect())
        .collect();
    let near = |d: &Vec<f64>, a: usize, b: usize| d[a].min(d[b]) <= margin && d[a].max(d[b]) >= -margin;
    surface
        .edges
        .iter()
        .copied()
        .filter(|&[a, b]| distances.iter().any(|d| near(d, a, b)))
        .collect()
}

/// The point a share of the way from `p` to `q`.
pub(crate) fn between(p: [f64; 3], q: [f64; 3], share: f64) -> [f64; 3] {
    [0, 1, 2].map(|i| p[i] + (q[i] - p[i]) * share)
}

/// The convex hull, counter-clockwise in the u, z view from its least point; collinear points are left out.
pub(crate) fn hull(mut points: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    points.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    points.dedup();
    if points.len() < 3 {
        return points;
    }
    let mut lower = chain(points.iter().copied());
    let upper = chain(points.iter().rev().copied());
    lower.pop();
    lower.extend(&upper[..upper.len() - 1]);
    lower
}

/// A tape pulled taut over points from the one of least u to the one of greatest u, on the side of greater z.
pub(crate) fn taut(mut points: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    points.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    points.dedup();
    let mut upper = chain(points.iter().rev().copied());
    upper.reverse();
    upper
}

/// The part of the hull on the right hand of travel from the first point to the last.
fn chain(points: impl Iterator<Item = [f64; 2]>) -> Vec<[f64; 2]> {
    let mut kept: Vec<[f64; 2]> = Vec::new();
    for p in points {
        while let [.., a, b] = kept[..] {
            if (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0.0 {
                break;
            }
            kept.pop();
        }
        kept.push(p);
    }
    kept
}

/// Length of an open line.
pub(crate) fn length2(line: &[[f64; 2]]) -> f64 {
    line.windows(2).map(|w| distance2(w[0], w[1])).sum()
}

/// Length of a closed line.
pub(crate) fn perimeter2(ring: &[[f64; 2]]) -> f64 {
    match (ring.first(), ring.last()) {
        (Some(first), Some(last)) => length2(ring) + distance2(*last, *first),
        _ => 0.0,
    }
}

/// Length of an open line in space.
pub(crate) fn length3(line: &[[f64; 3]]) -> f64 {
    line.windows(2).map(|w| distance3(w[0], w[1])).sum()
}

/// Length of a closed line in space.
pub(crate) fn perimeter3(ring: &[[f64; 3]]) -> f64 {
    match (ring.first(), ring.last()) {
        (Some(first), Some(last)) => length3(ring) + distance3(*last, *first),
        _ => 0.0,
    }
}

pub(crate) fn distance2(p: [f64; 2], q: [f64; 2]) -> f64 {
    let (dx, dy) = (q[0] - p[0], q[1] - p[1]);
    (dx * dx + dy * dy).sqrt()
}

pub(crate) fn distance3(p: [f64; 3], q: [f64; 3]) -> f64 {
    let [dx, dy, dz] = [0, 1, 2].map(|i| q[i] - p[i]);
    (dx * dx + dy * dy + dz * dz).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hull_bridges_a_hollow_and_drops_what_lies_inside_or_on_its_sides() {
        let points = vec![
            [0.0, 0.0],
            [4.0, 0.0],
            [4.0, 3.0],
            [0.0, 3.0],
            [2.0, 1.0],
            [2.0, 0.0],
            [0.0, 0.0],
        ];
        let ring = hull(points);
        assert_eq!(ring, [[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [0.0, 3.0]]);
        assert_eq!(perimeter2(&ring), 14.0);
    }

    #[test]
    fn a_taut_tape_goes_over_the_top_only() {
        let tape = taut(vec![[0.0, 0.0], [3.0, 4.0], [6.0, 0.0], [2.0, 1.0], [4.0, -9.0]]);
        assert_eq!(tape, [[0.0, 0.0], [3.0, 4.0], [6.0, 0.0]]);
        assert_eq!(length2(&tape), 10.0);
    }

    #[test]
    fn a_vertex_in_the_plane_is_cut_once() {
        let plane = Plane::horizontal(1.0);
        assert_eq!(crossing(&plane, [0.0, 1.0, 0.0], [0.0, 2.0, 0.0]), None);
        assert_eq!(
            crossing(&plane, [0.0, 1.0, 0.0], [5.0, 0.0, 0.0]),
            Some([0.0, 1.0, 0.0])
        );
    }

    #[test]
    fn a_slanted_plane_finds_its_points_again() {
        let (plane, end) = Plane::through([0.0, 0.0, 7.0], [3.0, 4.0, 1.0]);
        assert!((end - 5.0).abs() < 1e-12);
        let p = [1.5, 2.0, -3.0];
        assert!(plane.distance(p).abs() < 1e-12);
        let back = plane.space(plane.flat(p));
        assert!(distance3(p, back) < 1e-12);
    }
}
