//! Plane geometry of seam lines: runs of cubics, their lengths and splits, side profiles, polygons, roots.

mod curve;
mod polygon;
mod profile;
mod solve;

pub use curve::Curve;
pub(crate) use curve::cubic_length;
pub use polygon::{area_mm2, is_simple, point_in_polygon, roomiest_place, x_spans};
pub(crate) use profile::Profile;
pub(crate) use solve::root;

use kurbo::{Point, Vec2};

/// `v` turned by `angle` radians counter-clockwise.
pub(crate) fn turn(v: Vec2, angle: f64) -> Vec2 {
    let (sin, cos) = angle.sin_cos();
    Vec2::new(v.x * cos - v.y * sin, v.x * sin + v.y * cos)
}

/// `p` turned by `angle` radians counter-clockwise about `centre`.
pub(crate) fn turn_about(p: Point, centre: Point, angle: f64) -> Point {
    centre + turn(p - centre, angle)
}

/// `t` turned by 90 degrees counter-clockwise: into the piece, for a seam that runs upwards on its right side.
pub(crate) fn inward(t: Vec2) -> Vec2 {
    Vec2::new(-t.y, t.x)
}

/// `v` at length one; zero stays zero.
pub(crate) fn unit(v: Vec2) -> Vec2 {
    let length = v.hypot();
    if length > 0.0 { v / length } else { v }
}
