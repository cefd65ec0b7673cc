//! Plane polygons in double precision: area, box, turning, and whether two of them touch.
//!
//! The search and the checker stand on these few functions; everything single-precision stays in the engine.
//!
//! **Shapes and units.** Closed rings without the repeated first point, counter-clockwise after [`tidy`]; any unit.
//! **Limits.** Rings must not cross themselves; [`crosses_itself`] says so, nothing repairs it.

use kurbo::{Point, Vec2};

/// An axis-parallel box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Bounds {
    pub(crate) x0: f64,
    pub(crate) y0: f64,
    pub(crate) x1: f64,
    pub(crate) y1: f64,
}

impl Bounds {
    pub(crate) fn of(ring: &[Point]) -> Bounds {
        let empty = Bounds {
            x0: f64::INFINITY,
            y0: f64::INFINITY,
            x1: f64::NEG_INFINITY,
            y1: f64::NEG_INFINITY,
        };
        ring.iter().fold(empty, |b, p| Bounds {
            x0: b.x0.min(p.x),
            y0: b.y0.min(p.y),
            x1: b.x1.max(p.x),
            y1: b.y1.max(p.y),
        })
    }

    pub(crate) fn width(&self) -> f64 {
        self.x1 - self.x0
    }

    pub(crate) fn height(&self) -> f64 {
        self.y1 - self.y0
    }

    pub(crate) fn moved(&self, by: Vec2) -> Bounds {
        Bounds {
            x0: self.x0 + by.x,
            y0: self.y0 + by.y,
            x1: self.x1 + by.x,
            y1: self.y1 + by.y,
        }
    }

    pub(crate) fn touches(&self, other: &Bounds) -> bool {
        self.x0 <= other.x1 && other.x0 <= self.x1 && self.y0 <= other.y1 && other.y0 <= self.y1
    }

    /// Whether the box of a segment comes as near as `room`, along and across.
    fn reaches(&self, p: Point, q: Point, room: f64) -> bool {
        p.x.min(q.x) <= self.x1 + room
            && p.x.max(q.x) >= self.x0 - room
            && p.y.min(q.y) <= self.y1 + room
            && p.y.max(q.y) >= self.y0 - room
    }
}

/// Signed area, positive when counter-clockwise.
pub(crate) fn signed_area(ring: &[Point]) -> f64 {
    let Some(&origin) = ring.first() else {
        return 0.0;
    };
    edges(ring)
        .map(|(a, b)| (a - origin).cross(b - origin))
        .sum::<f64>()
        * 0.5
}

/// The edges of a ring, the closing one last.
pub(crate) fn edges(ring: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    ring.iter().copied().zip(ring.iter().copied().cycle().skip(1))
}

/// The ring without repeated and straight-through points, counter-clockwise.
///
/// A point is dropped when it lies within a billionth of the ring's size from its neighbour or from the line of its neighbours.
pub(crate) fn tidy(ring: &[Point]) -> Vec<Point> {
    let bounds = Bounds::of(ring);
    let small = 1e-9 * (bounds.width() + bounds.height());
    let mut kept: Vec<Point> = Vec::with_capacity(ring.len());
    for &p in ring {
        if kept.last().is_none_or(|&last| (p - last).hypot() > small) {
            kept.push(p);
        }
    }
    while kept.len() > 1 && (kept[0] - kept[kept.len() - 1]).hypot() <= small {
        kept.pop();
    }
    loop {
        let n = kept.len();
        let straight = (0..n).find(|&i| {
            let (a, b, c) = (kept[(i + n - 1) % n], kept[i], kept[(i + 1) % n]);
            let (before, after) = (b - a, c - b);
            before.cross(after).abs() <= small * before.hypot().max(after.hypot()) && before.dot(after) > 0.0
        });
        match straight {
            Some(i) if n > 3 => {
                kept.remove(i);
            }
            _ => break,
        }
    }
    if signed_area(&kept) < 0.0 {
        kept.reverse();
    }
    kept
}

/// Twice the signed area of the triangle.
fn turn(a: Point, b: Point, c: Point) -> f64 {
    (b - a).cross(c - a)
}

/// Whether two closed segments share a point.
pub(crate) fn segments_touch(a: (Point, Point), b: (Point, Point)) -> bool {
    let boxes_apart = a.0.x.max(a.1.x) < b.0.x.min(b.1.x)
        || b.0.x.max(b.1.x) < a.0.x.min(a.1.x)
        || a.0.y.max(a.1.y) < b.0.y.min(b.1.y)
        || b.0.y.max(b.1.y) < a.0.y.min(a.1.y);
    !boxes_apart
        && turn(a.0, a.1, b.0) * turn(a.0, a.1, b.1) <= 0.0
        && turn(b.0, b.1, a.0) * turn(b.0, b.1, a.1) <= 0.0
}

/// Whether a point lies inside a ring (even-odd rule; a point on the outline may go either way).
pub(crate) fn contains(ring: &[Point], p: Point) -> bool {
    edges(ring)
        .filter(|(a, b)| (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x))
        .count()
        % 2
        == 1
}

/// Whether an outline is one that cloth or a piece can have: at least three corners, some area, and no edge over another.
pub fn is_simple(outline: &[Point]) -> bool {
    if !outline.iter().all(|p| p.is_finite()) {
        return false;
    }
    let ring = tidy(outline);
    ring.len() >= 3 && signed_area(&ring).abs() > 1.0 && !crosses_itself(&ring)
}

/// Whether two edges of a ring that are not neighbours share a point.
pub(crate) fn crosses_itself(ring: &[Point]) -> bool {
    let all: Vec<_> = edges(ring).collect();
    let n = all.len();
    (0..n).any(|i| (i + 2..n).any(|j| !(i == 0 && j == n - 1) && segments_touch(all[i], all[j])))
}

/// Whether `b` moved by `by` shares a point with `a`: outlines that touch do.
pub(crate) fn overlap(a: &[Point], a_box: &Bounds, b: &[Point], b_box: &Bounds, by: Vec2) -> bool {
    let b_box = b_box.moved(by);
    if !a_box.touches(&b_box) {
        return false;
    }
    // Only edges that reach into the box both share can meet.
    let shared = Bounds {
        x0: a_box.x0.max(b_box.x0),
        y0: a_box.y0.max(b_box.y0),
        x1: a_box.x1.min(b_box.x1),
        y1: a_box.y1.min(b_box.y1),
    };
    let reaches = |p: Point, q: Point| shared.reaches(p, q, 0.0);
    const ROOM: usize = 64;
    let mut near = [(Point::ZERO, Point::ZERO); ROOM];
    let mut a_edges = edges(a).filter(|&(p, q)| reaches(p, q));
    loop {
        let mut count = 0;
        for edge in a_edges.by_ref().take(ROOM) {
            near[count] = edge;
            count += 1;
        }
        if count == 0 {
            break;
        }
        for (p, q) in edges(b) {
            let edge = (p + by, q + by);
            if reaches(edge.0, edge.1) && near[..count].iter().any(|&other| segments_touch(other, edge)) {
                return true;
            }
        }
        if count < ROOM {
            break;
        }
    }
    // No edges meet: apart, or one lies within the other.
    let b_in_a = b_box.x0 >= a_box.x0 && b_box.x1 <= a_box.x1 && b_box.y0 >= a_box.y0 && b_box.y1 <= a_box.y1;
    let a_in_b = a_box.x0 >= b_box.x0 && a_box.x1 <= b_box.x1 && a_box.y0 >= b_box.y0 && a_box.y1 <= b_box.y1;
    (b_in_a && b.first().is_some_and(|&p| contains(a, p + by)))
        || (a_in_b && a.first().is_some_and(|&p| contains(b, p - by)))
}

/// The ring mirrored left to right if asked, then turned about the origin; quarter turns are exact.
pub(crate) fn turned(ring: &[Point], is_reflected: bool, angle: f64) -> Vec<Point> {
    let (sin, cos) = exact_sin_cos(angle);
    let mut out: Vec<Point> = ring
        .iter()
        .map(|p| {
            let x = if is_reflected { -p.x } else { p.x };
            Point::new(cos * x - sin * p.y, sin * x + cos * p.y)
        })
        .collect();
    if is_reflected {
        out.reverse();
    }
    out
}

/// Sine and cosine; exactly 0 and 1 at quarter turns.
pub(crate) fn exact_sin_cos(angle: f64) -> (f64, f64) {
    let quarters = angle / std::f64::consts::FRAC_PI_2;
    let nearest = quarters.round();
    if (quarters - nearest).abs() > 1e-12 {
        return angle.sin_cos();
    }
    match (nearest as i64).rem_euclid(4) {
        0 => (0.0, 1.0),
        1 => (1.0, 0.0),
        2 => (0.0, -1.0),
        _ => (-1.0, 0.0),
    }
}

/// The ring with points left out that lie no further than `near` from the line between those kept (Douglas & Peucker 1973).
pub(crate) fn thinned(ring: &[Point], near: f64) -> Vec<Point> {
    let n = ring.len();
    if n < 5 {
        return ring.to_vec();
    }
    // Two points that certainly stay: the first, and the one furthest from it.
    let far = (0..n)
        .max_by(|&a, &b| {
            let of = |i: usize| (ring[i] - ring[0]).hypot();
            of(a).total_cmp(&of(b))
        })
        .unwrap_or(n / 2);
    let mut keep = vec![false; n + 1];
    keep[0] = true;
    keep[far] = true;
    let mut todo = vec![(0, far), (far, n)];
    while let Some((from, to)) = todo.pop() {
        let (a, b) = (ring[from], ring[to % n]);
        let distance = |i: usize| segment_distance(ring[i], (a, b));
        let worst = (from + 1..to).max_by(|&i, &j| distance(i).total_cmp(&distance(j)));
        if let Some(worst) = worst
            && distance(worst) > near
        {
            keep[worst] = true;
            todo.push((from, worst));
            todo.push((worst, to));
        }
    }
    (0..n).filter(|&i| keep[i]).map(|i| ring[i]).collect()
}

/// Distance of a point from a segment.
pub(crate) fn segment_distance(p: Point, (a, b): (Point, Point)) -> f64 {
    let along = b - a;
    let length_squared = along.hypot2();
    let t = if length_squared > 0.0 {
        ((p - a).dot(along) / length_squared).clamp(0.0, 1.0)
    } else {
        0.0
    };
    (p - (a + t * along)).hypot()
}

/// The least distance between two outlines that do not cross, if it is less than `limit`.
pub(crate) fn nearer_than(
    limit: f64,
    (a, a_box): (&[Point], &Bounds),
    (b, b_box): (&[Point], &Bounds),
) -> Option<f64> {
    // Most corners and edges lie too far from the other outline's box to matter.
    let one_way = |from: &[Point], from_box: &Bounds, to: &[Point], to_box: &Bounds| {
        let near: Vec<(Point, Point)> = edges(to)
            .filter(|&(p, q)| from_box.reaches(p, q, limit))
            .collect();
        let mut least = limit;
        for &p in from.iter().filter(|&&p| to_box.reaches(p, p, limit)) {
            for &edge in &near {
                let is_beside = p.x < edge.0.x.min(edge.1.x) - least
                    || p.x > edge.0.x.max(edge.1.x) + least
                    || p.y < edge.0.y.min(edge.1.y) - least
                    || p.y > edge.0.y.max(edge.1.y) + least;
                if !is_beside {
                    least = least.min(segment_distance(p, edge));
                }
            }
        }
        least
    };
    let least = one_way(a, a_box, b, b_box).min(one_way(b, b_box, a, a_box));
    (least < limit).then_some(least)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A star of so many points about the origin, its radii drawn from a seed.
    fn star(points: usize, seed: u64) -> Vec<Point> {
        let mut state = seed;
        (0..points)
            .map(|k| {
                state = state
                    .wrapping_mul(6_364_136_223_846_793_005)
                    .wrapping_add(1_442_695_040_888_963_407);
                let radius = 40.0 + 60.0 * ((state >> 33) as f64 / f64::from(1_u32 << 31));
                let (sin, cos) = (std::f64::consts::TAU * k as f64 / points as f64).sin_cos();
                Point::new(radius * cos, radius * sin)
            })
            .collect()
    }

    /// Source: elementary. The least distance of two outlines that do not cross is one of a corner to an edge: all of them are tried here.
    #[test]
    fn leaving_out_what_is_far_changes_no_distance() {
        let mut told = 0;
        for seed in 0..60 {
            let a = star(37, seed);
            let by = Vec2::new(120.0 + 2.0 * seed as f64, 3.0 * seed as f64 - 90.0);
            let b: Vec<Point> = star(29, seed + 1000).iter().map(|&p| p + by).collect();
            let (a_box, b_box) = (Bounds::of(&a), Bounds::of(&b));
            if overlap(&a, &a_box, &b, &b_box, Vec2::ZERO) {
                continue;
            }
            let from_to = |from: &[Point], to: &[Point]| {
                let all = from
                    .iter()
                    .flat_map(|&p| edges(to).map(move |e| segment_distance(p, e)));
                all.fold(f64::INFINITY, f64::min)
            };
            let plain = from_to(&a, &b).min(from_to(&b, &a));
            for limit in [0.0, 0.9 * plain, plain, 1.1 * plain, 30.0, 500.0] {
                let near = nearer_than(limit, (&a, &a_box), (&b, &b_box));
                assert_eq!(
                    near,
                    (plain < limit).then_some(plain),
                    "seed {seed}, limit {limit}"
                );
                told += usize::from(near.is_some());
            }
        }
        assert!(told > 50, "only {told} distances were told");
    }
}
