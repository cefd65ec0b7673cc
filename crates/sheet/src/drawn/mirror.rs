//! The other one of a pair: a shape turned over, for projection on a single layer.

use draft::{Mark, Notch, Shape};
use kurbo::Point;

/// The shape turned over in a mirror beside it.
pub(super) fn mirrored(shape: &Shape) -> Shape {
    let flip = |p: Point| Point::new(-p.x, p.y);
    Shape {
        seam_line: shape
            .seam_line
            .iter()
            .rev()
            .map(|e| draft::PieceEdge {
                curve: e.curve.mirrored(),
                ..e.clone()
            })
            .collect(),
        cut_line: shape.cut_line.iter().rev().map(|p| flip(*p)).collect(),
        fold_line: shape.fold_line.map(|(a, b)| (flip(a), flip(b))),
        fold_is_edge: shape.fold_is_edge,
        notches: shape.notches.iter().map(Notch::mirrored).collect(),
        marks: shape.marks.iter().map(Mark::mirrored).collect(),
        grain: shape.grain.mirrored(),
        stretch: shape.stretch.mirrored(),
        label_at: flip(shape.label_at),
    }
}
