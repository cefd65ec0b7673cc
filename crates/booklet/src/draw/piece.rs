//! A piece as a small drawing: cut line, seam line, fold and grain, with its letter.
//!
//! **Shapes and units.** The whole piece, unfolded, in flat mm; the drawing in page mm.

use draft::{Piece, Shape};

use super::place::{Place, bounds};
use super::svg::{Anchor, Letters, PAPER, SLATE, Stroke, Svg};
use crate::model::Figure;

/// Curves become lines this near to them, mm of cloth: under a tenth of a millimetre at the size they are drawn.
pub(super) const FLATTEN_MM: f64 = 0.3;
/// Margin inside a drawing, so that no line is cut at its edge, mm.
pub(super) const MARGIN: f64 = 0.6;

pub(super) const CUT: Stroke = Stroke::solid(0.35);
pub(super) const SEAM: Stroke = Stroke::dashed(0.12, &[0.9, 0.6]).in_colour(SLATE);
pub(super) const FOLD: Stroke = Stroke::dashed(0.2, &[2.4, 0.6, 0.4, 0.6]).in_colour(SLATE);
pub(super) const GRAIN: Stroke = Stroke::solid(0.25);

/// A piece, at most so large, with its letter in the middle; `says` is for readers who do not see it.
pub(crate) fn thumbnail(piece: &Piece, size: (f64, f64), says: String) -> Figure {
    let shape = piece.whole();
    let mut svg = Svg::new(size.0, size.1);
    let room = (size.0 - 2.0 * MARGIN, size.1 - 2.0 * MARGIN);
    let place = Place::fitting(bounds(&shape.cut_line), (MARGIN, MARGIN), room, 0.2);
    outline(&mut svg, &shape, place, PAPER);
    let (foot, head) = (place.point(shape.grain.from), place.point(shape.grain.to));
    svg.path(&[foot, head], false, None, Some(GRAIN));
    svg.head(head, head - foot, 1.4, GRAIN);
    let at = place.point(shape.label_at);
    let letters = Letters::voice(9.0);
    svg.circle((at.x, at.y), 2.3, Some(PAPER), None);
    svg.words(
        &piece.letter.to_string(),
        (at.x, at.y + 1.1),
        Anchor::Middle,
        letters,
    );
    svg.finish(says, String::new())
}

/// Cut line filled, seam line dashed, fold.
pub(super) fn outline(svg: &mut Svg, shape: &Shape, place: Place, fill: &str) {
    svg.path(&place.points(&shape.cut_line), true, Some(fill), Some(CUT));
    for edge in &shape.seam_line {
        let line = place.points(&edge.curve.flatten(FLATTEN_MM));
        svg.path(&line, false, None, Some(SEAM));
    }
    if let Some((low, high)) = shape.fold_line.filter(|_| !shape.fold_is_edge) {
        svg.path(&place.points(&[low, high]), false, None, Some(FOLD));
    }
}

/// Short strokes of ink over the middle of a line: the look of stitches.
pub(super) const STITCHES: Stroke = Stroke::dashed(0.9, &[1.6, 0.8]);
