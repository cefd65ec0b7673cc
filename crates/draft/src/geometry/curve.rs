//! A run of cubic Béziers: one edge of a piece, or any line on it.

use kurbo::{BezPath, CubicBez, ParamCurve, ParamCurveDeriv, Point, Vec2};

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

    /// Length along the run, mm. 16-point Gauss-Legendre on eight parts of each cubic; better than 1e-6 mm here.
    pub fn length(&self) -> f64 {
        self.cubics.iter().map(|c| cubic_length(c, 0.0, 1.0)).sum()
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

/// Length of a cubic from parameter `t0` to `t1`.
pub(crate) fn cubic_length(c: &CubicBez, t0: f64, t1: f64) -> f64 {
    let d = c.deriv();
    let speed = |t: f64| d.eval(t).to_vec2().hypot();
    // Parts of an eighth of the whole cubic; fewer for a short stretch of it.
    let parts = ((t1 - t0).abs() * 4.0).ceil().max(1.0);
    let h = (t1 - t0) / parts;
    (0..parts as usize)
        .map(|i| {
            let mid = t0 + h * (i as f64 + 0.5);
            GAUSS_16
                .iter()
                .map(|(x, w)| w * (speed(mid - 0.5 * h * x) + speed(mid + 0.5 * h * x)))
                .sum::<f64>()
                * 0.5
                * h
        })
        .sum()
}
