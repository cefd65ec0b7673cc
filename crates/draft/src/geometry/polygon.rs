//! Closed polygons: area, whether they cross themselves, where a label has room.
//!
//! A polygon is a list of points, first not repeated.

use kurbo::Point;

/// Signed area in mm^2, positive when counter-clockwise (shoelace).
pub fn area_mm2(polygon: &[Point]) -> f64 {
    let n = polygon.len();
    (0..n)
        .map(|i| {
            let (a, b) = (polygon[i], polygon[(i + 1) % n]);
            a.x * b.y - b.x * a.y
        })
        .sum::<f64>()
        * 0.5
}

/// Whether no two sides of the polygon cross or touch but for neighbours at their shared point.
///
/// Sweep over the sides by their left ends; fast for outlines, whose sides are short.
pub fn is_simple(polygon: &[Point]) -> bool {
    let n = polygon.len();
    if n < 3 || polygon.iter().any(|p| !p.is_finite()) {
        return false;
    }
    let mut sides: Vec<(f64, f64, usize)> = (0..n)
        .map(|i| {
            let (a, b) = (polygon[i], polygon[(i + 1) % n]);
            (a.x.min(b.x), a.x.max(b.x), i)
        })
        .collect();
    sides.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut active: Vec<(f64, usize)> = Vec::new();
    for &(left, right, i) in &sides {
        active.retain(|&(end, _)| end >= left);
        for &(_, j) in &active {
            if !are_neighbours(i, j, n) && sides_meet(polygon, i, j) {
                return false;
            }
        }
        active.push((right, i));
    }
    true
}

fn are_neighbours(i: usize, j: usize, n: usize) -> bool {
    (i + 1) % n == j || (j + 1) % n == i
}

fn sides_meet(polygon: &[Point], i: usize, j: usize) -> bool {
    let n = polygon.len();
    let (a, b, c, d) = (polygon[i], polygon[(i + 1) % n], polygon[j], polygon[(j + 1) % n]);
    if a.y.max(b.y) < c.y.min(d.y) || c.y.max(d.y) < a.y.min(b.y) {
        return false;
    }
    let side = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    let (d1, d2) = (side(c, d, a), side(c, d, b));
    let (d3, d4) = (side(a, b, c), side(a, b, d));
    d1 * d2 <= 0.0 && d3 * d4 <= 0.0 && !(d1 == 0.0 && d2 == 0.0 && !spans_overlap(a, b, c, d))
}

fn spans_overlap(a: Point, b: Point, c: Point, d: Point) -> bool {
    a.x.max(b.x) >= c.x.min(d.x) && c.x.max(d.x) >= a.x.min(b.x)
}

/// Whether the point lies inside the polygon (crossing number).
pub fn point_in_polygon(polygon: &[Point], p: Point) -> bool {
    let n = polygon.len();
    (0..n).fold(false, |inside, i| {
        let (a, b) = (polygon[i], polygon[(i + 1) % n]);
        let crosses = (a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x;
        inside ^ crosses
    })
}

/// The stretches of the level `y` that lie inside the polygon, left to right.
pub fn x_spans(polygon: &[Point], y: f64) -> Vec<(f64, f64)> {
    let n = polygon.len();
    let mut crossings: Vec<f64> = (0..n)
        .filter_map(|i| {
            let (a, b) = (polygon[i], polygon[(i + 1) % n]);
            ((a.y > y) != (b.y > y)).then(|| (b.x - a.x) * (y - a.y) / (b.y - a.y) + a.x)
        })
        .collect();
    crossings.sort_by(f64::total_cmp);
    crossings.chunks_exact(2).map(|c| (c[0], c[1])).collect()
}

/// The level with the most room for words, and its free span: `(y, left, right)`.
///
/// Looks at levels through the height and takes the one whose span, also a little above and below, is widest, kept away
/// from the piece's ends and mildly pulled to the middle of its height.
pub fn roomiest_place(polygon: &[Point]) -> (f64, f64, f64) {
    let low = polygon.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
    let high = polygon.iter().map(|p| p.y).fold(f64::NEG_INFINITY, f64::max);
    let height = high - low;
    const LEVELS: usize = 15;
    let widest = |y: f64| {
        x_spans(polygon, y)
            .into_iter()
            .max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))
            .unwrap_or((0.0, 0.0))
    };
    let mut spans = [(0.0, 0.0, 0.0); LEVELS];
    for (i, span) in spans.iter_mut().enumerate() {
        let y = low + height * (i as f64 + 1.0) / (LEVELS as f64 + 1.0);
        let (left, right) = widest(y);
        *span = (y, left, right);
    }
    let room = |i: usize| {
        let around = [i.saturating_sub(1), i, (i + 1).min(LEVELS - 1)];
        let left = around
            .iter()
            .map(|&k| spans[k].1)
            .fold(f64::NEG_INFINITY, f64::max);
        let right = around.iter().map(|&k| spans[k].2).fold(f64::INFINITY, f64::min);
        let off_centre = (i as f64 - (LEVELS as f64 - 1.0) / 2.0).abs() / LEVELS as f64;
        let to_end = (spans[i].0 - low).min(high - spans[i].0);
        (
            (right - left).min(2.2 * to_end) * (1.0 - 0.3 * off_centre),
            left,
            right,
        )
    };
    let best = (0..LEVELS)
        .max_by(|&a, &b| room(a).0.total_cmp(&room(b).0))
        .unwrap_or(0);
    let (_, left, right) = room(best);
    if right > left {
        (spans[best].0, left, right)
    } else {
        spans[best]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn polygon(points: &[(f64, f64)]) -> Vec<Point> {
        points.iter().map(|&p| p.into()).collect()
    }

    #[test]
    fn square_has_its_area_and_sense() {
        let square = polygon(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]);
        assert_eq!(area_mm2(&square), 100.0);
        assert!(is_simple(&square));
        assert!(point_in_polygon(&square, Point::new(5.0, 5.0)));
        assert!(!point_in_polygon(&square, Point::new(15.0, 5.0)));
        assert_eq!(x_spans(&square, 5.0), vec![(0.0, 10.0)]);
    }

    #[test]
    fn a_bow_tie_crosses_itself() {
        assert!(!is_simple(&polygon(&[
            (0.0, 0.0),
            (10.0, 10.0),
            (10.0, 0.0),
            (0.0, 10.0)
        ])));
    }

    #[test]
    fn an_outline_touching_itself_is_not_simple() {
        assert!(!is_simple(&polygon(&[
            (0.0, 0.0),
            (10.0, 0.0),
            (5.0, 5.0),
            (10.0, 10.0),
            (0.0, 10.0),
            (5.0, 5.0)
        ])));
    }

    #[test]
    fn nan_is_not_simple() {
        assert!(!is_simple(&polygon(&[(0.0, 0.0), (f64::NAN, 0.0), (5.0, 5.0)])));
    }
}
