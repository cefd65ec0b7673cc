//! The other one of a pair: a shape turned over, for projection on a single layer.

use draft::{Arrow, Mark, Shape};
use kurbo::{Point, Vec2};

/// The shape turned over in a mirror beside it.
pub(super) fn mirrored(shape: &Shape) -> Shape {
    let flip = |p: Point| Point::new(-p.x, p.y);
    let turn = |v: Vec2| Vec2::new(-v.x, v.y);
    let arrow = |a: Arrow| Arrow {
        from: flip(a.from),
        to: flip(a.to),
    };
    let mark = |m: &Mark| match m {
        Mark::Cross { at, text } => Mark::Cross {
            at: flip(*at),
            text: text.clone(),
        },
        Mark::LevelLine { from, to, text } => Mark::LevelLine {
            from: flip(*from),
            to: flip(*to),
            text: text.clone(),
        },
        Mark::Placement { curve, text } => Mark::Placement {
            curve: curve.mirrored(),
            text: text.clone(),
        },
        Mark::ArcEnd { at, inward, letter } => Mark::ArcEnd {
            at: flip(*at),
            inward: turn(*inward),
            letter: *letter,
        },
    };
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
        notches: shape
            .notches
            .iter()
            .map(|n| draft::Notch {
                at: flip(n.at),
                seam_at: flip(n.seam_at),
                inward: turn(n.inward),
                ..n.clone()
            })
            .collect(),
        marks: shape.marks.iter().map(mark).collect(),
        grain: arrow(shape.grain),
        stretch: arrow(shape.stretch),
        label_at: flip(shape.label_at),
    }
}
