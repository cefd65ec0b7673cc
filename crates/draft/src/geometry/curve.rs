//! A run of cubic Béziers: one edge of a piece, or any line on it.

use kurbo::{BezPath, CubicBez, ParamCurve, ParamCurveArea, ParamCurveDeriv, Point, Vec2};

/// A run of cubics, each starting exactly where the one before ends.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Curve {
    cubics: Vec<CubicBez>,
}

impl Curve {
    /// A run of the given cubics. They must join; checked in debug builds.
    pub fn new(cubics: Vec<CubicBez>) -> Curve {
        debug_assert!(
            cubics.windows(2).all(|w| w[0].p3 == w[1].p0),
            "a curve's cubics must join"
        );
        Curve { cubics }
    }

    /// A straight line.
    pub fn line(from: Point, to: Point) -> Curve {
        let third = (to - from) / 3.0;
        Curve {
            cubics: vec![CubicBez::new(from, from + third, to - third, to)],
        }
    }

    /// The cubics.
    pub fn cubics(&self) -> &[CubicBez] {
        &self.cubics
    }

    /// First point; the origin for an empty run.
    pub fn start(&self) -> Point {
        self.cubics.first().map_or(Point::ZERO, |c| c.p0)
    }

    /// Last point; the origin for an empty run.
    pub fn end(&self) -> Point {
        self.cubics.last().map_or(Point::ZERO, |c| c.p3)
    }

    /// Length along the run, mm. 16-point Gauss-Legendre on four parts of each cubic; better than 1e-6 mm here.
    pub fn length(&self) -> f64 {
        self.cubics.iter().map(|c| cubic_length(c, 0.0, 1.0)).sum()
    }

    /// One cubic from its four control points.
    pub fn cubic(p0: Point, p1: Point, p2: Point, p3: Point) -> Curve {
        Curve {
            cubics: vec![CubicBez::new(p0, p1, p2, p3)],
        }
    }

    /// This run and then another that starts where it ends.
    pub fn then(mut self, other: &Curve) -> Curve {
        debug_assert!(
            (self.end() - other.start()).hypot() < 1e-6,
            "curves to be joined must meet"
        );
        let end = self.end();
        let at = self.cubics.len();
        self.cubics.extend_from_slice(&other.cubics);
        if let Some(c) = self.cubics.get_mut(at) {
            c.p0 = end;
        }
        self
    }

    /// The run with every control point moved by `f`.
    pub fn map(&self, f: impl Fn(Point) -> Point) -> Curve {
        Curve {
            cubics: self
                .cubics
                .iter()
                .map(|c| CubicBez::new(f(c.p0), f(c.p1), f(c.p2), f(c.p3)))
                .collect(),
        }
    }

    /// The run with its last point set exactly, for a neighbour that starts there.
    pub(crate) fn ending_at(mut self, end: Point) -> Curve {
        if let Some(c) = self.cubics.last_mut() {
            c.p3 = end;
        }
        self
    }

    /// The run cut in two at a length along it, mm; an end part is empty when `s` is at or past that end.
    pub fn split_at(&self, s: f64) -> (Curve, Curve) {
        let mut left = s;
        for (i, c) in self.cubics.iter().enumerate() {
            let length = cubic_length(c, 0.0, 1.0);
            if left < length - 1e-9 {
                if left <= 1e-9 {
                    return (
                        Curve {
                            cubics: self.cubics[..i].to_vec(),
                        },
                        Curve {
                            cubics: self.cubics[i..].to_vec(),
                        },
                    );
                }
                let t = parameter_at(c, left, length);
                let (a, mut b) = (c.subsegment(0.0..t), c.subsegment(t..1.0));
                b.p0 = a.p3;
                let mut first = self.cubics[..i].to_vec();
                first.push(a);
                let mut second = vec![b];
                second.extend_from_slice(&self.cubics[i + 1..]);
                return (Curve { cubics: first }, Curve { cubics: second });
            }
            left -= length;
        }
        (self.clone(), Curve::default())
    }

    /// The point and unit tangent at a length along the run, mm, held to its ends.
    pub fn at_length(&self, s: f64) -> (Point, Vec2) {
        let mut left = s.max(0.0);
        for c in &self.cubics {
            let length = cubic_length(c, 0.0, 1.0);
            if left <= length {
                let t = parameter_at(c, left, length);
                let tangent = match t {
                    t if t < 1e-6 => end_tangent([c.p0, c.p1, c.p2, c.p3]),
                    t if t > 1.0 - 1e-6 => -end_tangent([c.p3, c.p2, c.p1, c.p0]),
                    t => super::unit(c.deriv().eval(t).to_vec2()),
                };
                return (c.eval(t), tangent);
            }
            left -= length;
        }
        (self.end(), self.end_tangent())
    }

    /// Length along the run, mm, to where it first reaches the height `y`; `None` if it never does. For runs that rise.
    pub fn length_to_height(&self, y: f64) -> Option<f64> {
        let mut before = 0.0;
        for c in &self.cubics {
            if (c.p0.y <= y && y <= c.p3.y) || (c.p3.y <= y && y <= c.p0.y) {
                let t = super::root(|t| c.eval(t).y - y, 0.0, 1.0)?;
                return Some(before + cubic_length(c, 0.0, t));
            }
            before += cubic_length(c, 0.0, 1.0);
        }
        None
    }

    /// Length times the mean of cos^2 of the angle to the x axis: how much of the run goes around the body.
    pub fn around_length(&self) -> f64 {
        self.cubics
            .iter()
            .map(|c| weighted_length(c, |d| d.x * d.x / (d.x * d.x + d.y * d.y).max(1e-18)))
            .sum()
    }

    /// What the run adds to the signed area of a closed outline, mm^2.
    pub fn signed_area(&self) -> f64 {
        self.cubics.iter().map(ParamCurveArea::signed_area).sum()
    }

    /// The same run the other way.
    pub fn reversed(&self) -> Curve {
        Curve {
            cubics: self
                .cubics
                .iter()
                .rev()
                .map(|c| CubicBez::new(c.p3, c.p2, c.p1, c.p0))
                .collect(),
        }
    }

    /// The run mirrored in x = 0 and reversed, so that a counter-clockwise outline stays so.
    pub fn mirrored(&self) -> Curve {
        let m = |p: Point| Point::new(-p.x, p.y);
        Curve {
            cubics: self
                .cubics
                .iter()
                .rev()
                .map(|c| CubicBez::new(m(c.p3), m(c.p2), m(c.p1), m(c.p0)))
                .collect(),
        }
    }

    /// The run as a path for drawing.
    pub fn to_path(&self) -> BezPath {
        let mut path = BezPath::new();
        path.move_to(self.start());
        for c in &self.cubics {
            path.curve_to(c.p1, c.p2, c.p3);
        }
        path
    }

    /// Points along the run, both ends included, so that chords stay within `tolerance_mm` of the curve.
    pub fn flatten(&self, tolerance_mm: f64) -> Vec<Point> {
        let mut points = vec![self.start()];
        for c in &self.cubics {
            let bend = ((c.p0.to_vec2() - 2.0 * c.p1.to_vec2() + c.p2.to_vec2()).hypot())
                .max((c.p1.to_vec2() - 2.0 * c.p2.to_vec2() + c.p3.to_vec2()).hypot());
            // Chord error of a cubic cut in n equal parts is at most 6 bend / (8 n^2).
            let n = ((0.75 * bend / tolerance_mm).sqrt().ceil() as usize).clamp(1, 400);
            points.extend((1..=n).map(|i| if i == n { c.p3 } else { c.eval(i as f64 / n as f64) }));
        }
        points
    }

    /// Unit tangent at the start.
    pub fn start_tangent(&self) -> Vec2 {
        self.cubics
            .first()
            .map_or(Vec2::ZERO, |c| end_tangent([c.p0, c.p1, c.p2, c.p3]))
    }

    /// Unit tangent at the end, in the direction of travel.
    pub fn end_tangent(&self) -> Vec2 {
        self.cubics
            .last()
            .map_or(Vec2::ZERO, |c| -end_tangent([c.p3, c.p2, c.p1, c.p0]))
    }
}

/// Tangent at the first of four control points, skipping handles of no length.
fn end_tangent(p: [Point; 4]) -> Vec2 {
    p[1..]
        .iter()
        .map(|q| *q - p[0])
        .find(|v| v.hypot() > 1e-9)
        .map_or(Vec2::ZERO, |v| v.normalize())
}

/// 16-point Gauss-Legendre nodes and weights on [-1, 1], positive half. Abramowitz and Stegun, table 25.4.
const GAUSS_16: [(f64, f64); 8] = [
    (0.095_012_509_837_637_44, 0.189_450_610_455_068_5),
    (0.281_603_550_779_258_9, 0.182_603_415_044_923_6),
    (0.458_016_777_657_227_4, 0.169_156_519_395_002_54),
    (0.617_876_244_402_643_7, 0.149_595_988_816_576_73),
    (0.755_404_408_355_003, 0.124_628_971_255_533_87),
    (0.865_631_202_387_831_7, 0.095_158_511_682_492_78),
    (0.944_575_023_073_232_6, 0.062_253_523_938_647_89),
    (0.989_400_934_991_649_9, 0.027_152_459_411_754_095),
];

/// Parts a whole cubic is cut into for the quadrature.
const PARTS: f64 = 4.0;

/// Length of a cubic from parameter `t0` to `t1`.
pub(crate) fn cubic_length(c: &CubicBez, t0: f64, t1: f64) -> f64 {
    integrate(c, t0, t1, |d| d.hypot())
}

/// Integral over a cubic of `weight(derivative)` times its speed.
fn weighted_length(c: &CubicBez, weight: impl Fn(Vec2) -> f64) -> f64 {
    integrate(c, 0.0, 1.0, |d| weight(d) * d.hypot())
}

fn integrate(c: &CubicBez, t0: f64, t1: f64, f: impl Fn(Vec2) -> f64) -> f64 {
    let (a, b, k) = ((c.p1 - c.p0) * 3.0, (c.p2 - c.p1) * 3.0, (c.p3 - c.p2) * 3.0);
    let value = |t: f64| {
        let u = 1.0 - t;
        f(a * (u * u) + b * (2.0 * u * t) + k * (t * t))
    };
    let parts = ((t1 - t0).abs() * PARTS).ceil().max(1.0);
    let h = (t1 - t0) / parts;
    (0..parts as usize)
        .map(|i| {
            let mid = t0 + h * (i as f64 + 0.5);
            GAUSS_16
                .iter()
                .map(|(x, w)| w * (value(mid - 0.5 * h * x) + value(mid + 0.5 * h * x)))
                .sum::<f64>()
        })
        .sum::<f64>()
        * 0.5
        * h
}

/// The parameter at length `s` along a cubic of length `length`: Newton on the length, kept inside a shrinking bracket.
fn parameter_at(c: &CubicBez, s: f64, length: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    let mut t = (s / length.max(1e-12)).clamp(0.0, 1.0);
    for _ in 0..50 {
        let off = cubic_length(c, 0.0, t) - s;
        if off.abs() < 1e-10 {
            break;
        }
        if off > 0.0 {
            high = t;
        } else {
            low = t;
        }
        let speed = c.deriv().eval(t).to_vec2().hypot();
        let next = t - off / speed.max(1e-12);
        t = if next > low && next < high {
            next
        } else {
            0.5 * (low + high)
        };
    }
    t
}

#[cfg(test)]
mod tests {
    use kurbo::ParamCurveNearest;

    use super::*;

    #[test]
    fn a_cubic_of_known_length() {
        // A symmetric cubic whose length is exactly 200 (closed form).
        let c = Curve::cubic(
            (0.0, 0.0).into(),
            (0.0, 100.0).into(),
            (100.0, 100.0).into(),
            (100.0, 0.0).into(),
        );
        assert!((c.length() - 200.0).abs() < 1e-9, "{}", c.length());
    }

    #[test]
    fn a_quarter_circle_is_as_long_as_a_cubic_can_make_it() {
        // Handle (4/3) tan(22.5 deg) r: 157.10167 against pi/2 r = 157.07963, the known 1.4e-4 excess.
        let h = 4.0 / 3.0 * (std::f64::consts::PI / 8.0).tan() * 100.0;
        let c = Curve::cubic(
            (100.0, 0.0).into(),
            (100.0, h).into(),
            (h, 100.0).into(),
            (0.0, 100.0).into(),
        );
        assert!((c.length() - 157.10167).abs() < 1e-4, "{}", c.length());
    }

    #[test]
    fn splitting_keeps_the_length() {
        let c = Curve::cubic(
            (0.0, 0.0).into(),
            (0.0, 100.0).into(),
            (100.0, 100.0).into(),
            (100.0, 0.0).into(),
        )
        .then(&Curve::line((100.0, 0.0).into(), (200.0, 30.0).into()));
        for s in [0.0, 1.0, 100.0, 199.9999, 200.0, 250.0, c.length()] {
            let (a, b) = c.split_at(s);
            assert!((a.length() - s).abs() < 1e-6, "first part at {s}: {}", a.length());
            assert!((a.length() + b.length() - c.length()).abs() < 1e-6);
        }
    }

    #[test]
    fn flattening_stays_within_its_tolerance() {
        let c = Curve::cubic(
            (0.0, 0.0).into(),
            (0.0, 100.0).into(),
            (100.0, 100.0).into(),
            (100.0, 0.0).into(),
        );
        let points = c.flatten(0.01);
        let cubic = c.cubics()[0];
        for w in points.windows(2) {
            let near = cubic.nearest(w[0].midpoint(w[1]), 1e-6);
            assert!(
                near.distance_sq.sqrt() <= 0.01,
                "a chord is {} off",
                near.distance_sq.sqrt()
            );
        }
    }
}
