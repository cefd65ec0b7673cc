//! The one place that knows the collision library: outlines grown by half the gap and filled with circles.
//!
//! Its inner circles say how deep two pieces sink into each other, smoothly and cheaply. Whether they touch at all is judged in
//! double precision by [`crate::polygon`], because the library works in single precision and is not symmetric at contact.
//!
//! **Shapes and units.** Rings in, rings out, same unit; circles lie inside the ring.
//! **Limits.** Rings that the library refuses come back as `None`; the caller names the piece.

use jagua_rs::geometry::convex_hull::convex_hull_from_points;
use jagua_rs::geometry::fail_fast::{SPSurrogate, SPSurrogateConfig};
use jagua_rs::geometry::primitives::{Point as EnginePoint, SPolygon};
use jagua_rs::geometry::shape_modification::{ShapeModifyMode, offset_shape};
use kurbo::Point;

/// A circle inside a piece.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Circle {
    pub(crate) x: f64,
    pub(crate) y: f64,
    pub(crate) r: f64,
}

/// An outline as the search uses it.
#[derive(Clone, Debug)]
pub(crate) struct Prepared {
    pub(crate) ring: Vec<Point>,
    pub(crate) circles: Vec<Circle>,
    pub(crate) hull_area: f64,
    pub(crate) diameter: f64,
}

/// Circles until 64, or 16 that cover 80 % of the area, or 8 that cover 90 %: finer circles cost time in every comparison
/// and hardly change which way a piece is pushed. From the published search; not tuned further.
const CIRCLES: SPSurrogateConfig = SPSurrogateConfig {
    n_pole_limits: [(64, 0.0), (16, 0.8), (8, 0.9)],
    ff_pole_area_ratio: 0.0,
    n_ff_piers: 0,
};

fn to_engine(ring: &[Point]) -> Option<SPolygon> {
    SPolygon::new(ring.iter().map(|p| EnginePoint(p.x as f32, p.y as f32)).collect()).ok()
}

fn from_engine(polygon: &SPolygon) -> Vec<Point> {
    polygon
        .edge_iter()
        .map(|e| Point::new(f64::from(e.start.0), f64::from(e.start.1)))
        .collect()
}

/// The outline grown outwards by `grow`, its corners rounded; no less anywhere, at most a hundredth part of `grow` more.
pub(crate) fn grown(ring: &[Point], grow: f64) -> Option<Vec<Point>> {
    // Round joins are chords of at most 0.1 rad: their sagitta is taken back by growing a little more.
    let safe = grow / (0.05_f64).cos() + 1e-3;
    let shape = offset_shape(&to_engine(ring)?, ShapeModifyMode::Inflate, safe as f32).ok()?;
    Some(from_engine(&shape))
}

/// The outline with its inner circles and hull.
pub(crate) fn prepared(ring: Vec<Point>) -> Option<Prepared> {
    let shape = to_engine(&ring)?;
    let surrogate = SPSurrogate::new(&shape, CIRCLES).ok()?;
    let hull = convex_hull_from_points(ring.iter().map(|p| EnginePoint(p.x as f32, p.y as f32)).collect());
    let diameter = hull
        .iter()
        .flat_map(|a| hull.iter().map(move |b| (a.0 - b.0).hypot(a.1 - b.1)))
        .fold(0.0_f32, f32::max);
    Some(Prepared {
        circles: surrogate
            .poles
            .iter()
            .map(|c| Circle {
                x: f64::from(c.center.0),
                y: f64::from(c.center.1),
                r: f64::from(c.radius),
            })
            .collect(),
        hull_area: f64::from(surrogate.convex_hull_area),
        diameter: f64::from(diameter),
        ring,
    })
}
