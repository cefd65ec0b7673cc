//! Where words fit on a piece: a place is free if it lies inside the cut line and touches no line, arrow or other words.
//!
//! Every box of words and every line is a convex shape; two are apart if some edge direction separates them (separating
//! axis test), with a clearance.
//!
//! **Shapes and units.** mm, y down, any one frame.
//! **Limits.** A place is found on a grid, so a room hardly larger than the words can be missed; callers try smaller words.

use kurbo::{Point, Rect, Vec2};

/// Something words must keep clear of.
#[derive(Clone, Debug)]
pub(crate) struct Obstacle {
    corners: Vec<Point>,
    bounds: Rect,
    /// How far words must stay away, mm.
    clearance: f64,
}

impl Obstacle {
    /// A convex shape of one to many corners.
    pub(crate) fn new(corners: Vec<Point>, clearance: f64) -> Obstacle {
        let first = corners.first().copied().unwrap_or_default();
        let bounds = corners
            .iter()
            .fold(Rect::from_points(first, first), |r, p| r.union_pt(*p));
        Obstacle {
            bounds: bounds.inflate(clearance, clearance),
            corners,
            clearance,
        }
    }

    pub(crate) fn touches(&self, corners: &[Point], bounds: Rect) -> bool {
        let b = self.bounds;
        if b.x1 <= bounds.x0 || bounds.x1 <= b.x0 || b.y1 <= bounds.y0 || bounds.y1 <= b.y0 {
            return false;
        }
        !apart(&self.corners, corners, self.clearance)
    }
}

/// Whether some edge direction of either convex shape separates them by more than `gap`.
fn apart(a: &[Point], b: &[Point], gap: f64) -> bool {
    let axes = |shape: &[Point]| -> Vec<Vec2> {
        (0..shape.len())
            .filter_map(|i| {
                let edge = shape.get((i + 1) % shape.len())?.to_vec2() - shape.get(i)?.to_vec2();
                let length = edge.hypot();
                (length > 1e-9).then(|| Vec2::new(edge.y, -edge.x) / length)
            })
            .collect()
    };
    let span = |shape: &[Point], axis: Vec2| {
        shape
            .iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), p| {
                let v = p.to_vec2().dot(axis);
                (low.min(v), high.max(v))
            })
    };
    let mut all = axes(a);
    all.extend(axes(b));
    // A line has one edge direction; its own direction separates what lies beyond its ends.
    if a.len() <= 2 || b.len() <= 2 {
        let more: Vec<Vec2> = all.iter().map(|v| Vec2::new(-v.y, v.x)).collect();
        all.extend(more);
    }
    all.into_iter().any(|axis| {
        let ((a0, a1), (b0, b1)) = (span(a, axis), span(b, axis));
        a0 - b1 >= gap || b0 - a1 >= gap
    })
}

/// The inside of a piece with what already stands on it.
#[derive(Clone, Debug, Default)]
pub(crate) struct Room {
    outline: Vec<Point>,
    hard: Vec<Obstacle>,
    /// The fold, which can be broken for words.
    fold: Vec<Obstacle>,
    /// Seam lines, which words cross only if nothing else fits.
    seams: Vec<Obstacle>,
}

/// What words may cross.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Crossing {
    Nothing,
    Fold,
    FoldAndSeams,
}

/// Words keep this far from a cut line, mm: a blade that strays takes no letter.
const FROM_CUT: f64 = 2.2;
/// ... and from a seam line or another thin line.
const FROM_LINE: f64 = 1.8;
/// ... and from other words, side by side or stacked.
const FROM_WORDS: f64 = 2.0;

impl Room {
    /// The inside of a closed outline.
    pub(crate) fn new(outline: &[Point]) -> Room {
        let mut room = Room {
            outline: thinned(outline),
            ..Room::default()
        };
        let n = room.outline.len();
        for i in 0..n {
            let (Some(a), Some(b)) = (room.outline.get(i), room.outline.get((i + 1) % n)) else {
                continue;
            };
            room.hard.push(Obstacle::new(vec![*a, *b], FROM_CUT));
        }
        room
    }

    /// Keeps words off a run of straight lines.
    pub(crate) fn keep_off(&mut self, points: &[Point]) {
        self.hard.extend(segments(points, FROM_LINE));
    }

    /// Keeps words off the fold unless they may cross it.
    pub(crate) fn keep_off_fold(&mut self, points: &[Point]) {
        self.fold.extend(segments(points, FROM_LINE));
    }

    /// Keeps words off a seam line unless they may cross it.
    pub(crate) fn keep_off_seam(&mut self, points: &[Point]) {
        self.seams.extend(segments(&thinned(points), FROM_LINE));
    }

    /// Keeps words off a box of words or a filled shape.
    pub(crate) fn take(&mut self, corners: &[Point]) {
        self.hard.push(Obstacle::new(corners.to_vec(), FROM_WORDS));
    }

    /// Whether a box of words may stand here.
    pub(crate) fn is_free(&self, corners: &[Point; 4], crossing: Crossing) -> bool {
        if !self.holds(corners) {
            return false;
        }
        let bounds = corners
            .iter()
            .fold(Rect::from_points(corners[0], corners[2]), |r, p| r.union_pt(*p));
        !self.hard.iter().any(|o| o.touches(corners, bounds))
            && (crossing >= Crossing::Fold || !self.fold.iter().any(|o| o.touches(corners, bounds)))
            && (crossing >= Crossing::FoldAndSeams || !self.seams.iter().any(|o| o.touches(corners, bounds)))
    }

    fn holds(&self, corners: &[Point]) -> bool {
        corners.iter().all(|p| is_inside(&self.outline, *p))
    }
}

fn segments(points: &[Point], clearance: f64) -> Vec<Obstacle> {
    points
        .windows(2)
        .map(|w| Obstacle::new(w.to_vec(), clearance))
        .collect()
}

/// Whether a point lies inside a closed outline: even-odd rule, crossing number to the right.
pub(crate) fn is_inside(outline: &[Point], p: Point) -> bool {
    let mut inside = false;
    let mut last = outline.last().copied().unwrap_or_default();
    for q in outline {
        if (q.y > p.y) != (last.y > p.y) && p.x < (last.x - q.x) * (p.y - q.y) / (last.y - q.y) + q.x {
            inside = !inside;
        }
        last = *q;
    }
    inside
}

/// The run without points that change it by less than 0.1 mm: enough for words, and ten times quicker to test.
pub(crate) fn thinned(points: &[Point]) -> Vec<Point> {
    const SAG: f64 = 0.1;
    let mut out: Vec<Point> = Vec::new();
    let mut skipped: Vec<Point> = Vec::new();
    for p in points {
        let Some(last) = out.last().copied() else {
            out.push(*p);
            continue;
        };
        let strays = skipped.iter().any(|q| distance_to_segment(*q, last, *p) > SAG);
        if strays && let Some(before) = skipped.last().copied() {
            out.push(before);
            skipped.clear();
        }
        skipped.push(*p);
    }
    out.extend(skipped.last().copied());
    out
}

/// Distance of a point from a segment, mm.
pub(crate) fn distance_to_segment(p: Point, a: Point, b: Point) -> f64 {
    let ab = b - a;
    let length2 = ab.hypot2();
    let t = if length2 < 1e-18 {
        0.0
    } else {
        ((p - a).dot(ab) / length2).clamp(0.0, 1.0)
    };
    (p - (a + ab * t)).hypot()
}

/// Offsets from a place in growing distance, on a square grid of `step` mm out to `reach` mm.
pub(crate) fn spiral(step: f64, reach: f64) -> Vec<Vec2> {
    let n = (reach / step).floor().max(0.0) as i64;
    let mut all: Vec<(i64, i64, i64)> = (-n..=n)
        .flat_map(|y| (-n..=n).map(move |x| (x * x + y * y, y, x)))
        .filter(|(d, _, _)| *d <= n * n)
        .collect();
    all.sort_unstable();
    all.into_iter()
        .map(|(_, y, x)| Vec2::new(x as f64 * step, y as f64 * step))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rect(x0: f64, y0: f64, x1: f64, y1: f64) -> [Point; 4] {
        [
            Point::new(x0, y0),
            Point::new(x1, y0),
            Point::new(x1, y1),
            Point::new(x0, y1),
        ]
    }

    #[test]
    fn words_stay_inside_and_clear_of_lines() {
        let mut room = Room::new(&rect(0.0, 0.0, 100.0, 50.0));
        assert!(room.is_free(&rect(10.0, 10.0, 40.0, 20.0), Crossing::Nothing));
        assert!(
            !room.is_free(&rect(1.0, 10.0, 40.0, 20.0), Crossing::Nothing),
            "too near the cut line"
        );
        assert!(
            !room.is_free(&rect(90.0, 10.0, 120.0, 20.0), Crossing::Nothing),
            "outside"
        );
        room.keep_off_seam(&[Point::new(25.0, 0.0), Point::new(25.0, 50.0)]);
        assert!(!room.is_free(&rect(10.0, 10.0, 40.0, 20.0), Crossing::Nothing));
        assert!(room.is_free(&rect(10.0, 10.0, 40.0, 20.0), Crossing::FoldAndSeams));
        room.take(&rect(10.0, 10.0, 12.0, 12.0));
        assert!(
            !room.is_free(&rect(10.0, 12.5, 40.0, 20.0), Crossing::FoldAndSeams),
            "too near other words"
        );
    }

    #[test]
    fn a_notch_in_the_outline_keeps_words_out_though_their_corners_are_inside() {
        let u = [
            Point::new(0.0, 0.0),
            Point::new(40.0, 0.0),
            Point::new(50.0, 40.0),
            Point::new(60.0, 0.0),
            Point::new(100.0, 0.0),
            Point::new(100.0, 60.0),
            Point::new(0.0, 60.0),
        ];
        let room = Room::new(&u);
        assert!(!room.is_free(&rect(10.0, 10.0, 90.0, 30.0), Crossing::FoldAndSeams));
        assert!(room.is_free(&rect(10.0, 45.0, 90.0, 55.0), Crossing::FoldAndSeams));
    }

    #[test]
    fn thinning_keeps_the_shape() {
        let circle: Vec<Point> = (0..400)
            .map(|i| {
                let a = f64::from(i) * std::f64::consts::TAU / 400.0;
                Point::new(100.0 * a.cos(), 100.0 * a.sin())
            })
            .collect();
        let thin = thinned(&circle);
        assert!(thin.len() < 90, "{}", thin.len());
        for p in &circle {
            let near = thin
                .windows(2)
                .map(|w| distance_to_segment(*p, w[0], w[1]))
                .fold(f64::INFINITY, f64::min);
            assert!(near < 0.101, "{near}");
        }
    }
}
