//! Plane geometry of seam lines: cubics, runs of cubics, lengths and splits.

mod curve;

pub use curve::Curve;
