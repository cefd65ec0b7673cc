//! The pieces of one cloth: outlines with their grain, how many, which are pairs, and what may be done with them.
//!
//! [`pieces_of`] takes them from a draft: the pieces cut from one layer, unfolded, with their pairs mirrored.
//!
//! **Shapes and units.** Piece frame `flat`: y up the body, x around it, mm.

use cloth::{Layer, Orientation};
use draft::{Draft, Shape};
use kurbo::{Point, Vec2};

use crate::polygon::{self, Bounds};

/// A piece whose outline meets its mirror image this well is its own.
const MIRROR_MM: f64 = 0.05;

/// One piece to cut, so many times.
#[derive(Clone, Debug, PartialEq)]
pub struct LayPiece {
    /// Key in the suit: `front`.
    pub key: String,
    /// Name on paper: `Front`.
    pub name: String,
    /// Letter on the page map.
    pub letter: char,
    /// Whose suit it belongs to, as an index into the names of [`crate::LayRequest`].
    pub garment: usize,
    /// The cut line, whole, `flat`.
    pub outline: Vec<Point>,
    /// Symmetric about x = 0: may be cut as a half on a fold, and its mirror image is itself.
    pub is_symmetric: bool,
    /// Which way the cloth lies on it.
    pub orientation: Orientation,
    /// How many to cut.
    pub count: u32,
    /// Half of them mirrored.
    pub is_pair: bool,
    /// Both faces of the cloth will do, so that it may be turned over.
    pub either_face: bool,
    /// May also lie a quarter turned: only where both stretches will do (straps, bindings).
    pub may_lie_crosswise: bool,
    /// Flaws up to this grade do not matter on it; 0 for a piece that shows.
    pub bears_grade: u32,
    /// The point that must hit the same phase of the repeat as the others', `flat`.
    pub match_point: Option<Point>,
    /// Where the label sits best, `flat`.
    pub label_at: Point,
    /// The grain arrow, foot and head, `flat`: its two ends are chalked on the cloth and the paper piece is laid on them.
    pub grain: (Point, Point),
}

impl LayPiece {
    /// Area of one, mm2.
    pub fn area_mm2(&self) -> f64 {
        polygon::signed_area(&self.outline).abs()
    }

    /// Whether a left of it is a right as well: drawn on the fold, or alike about the middle of its box (a strap).
    pub fn is_own_mirror(&self) -> bool {
        if self.is_symmetric {
            return true;
        }
        let bounds = Bounds::of(&self.outline);
        let middle = bounds.x0 + bounds.x1;
        self.outline.iter().all(|p| {
            let image = Point::new(middle - p.x, p.y);
            polygon::edges(&self.outline).any(|edge| polygon::segment_distance(image, edge) < MIRROR_MM)
        })
    }

    /// Whether two layers cut at once give two of it.
    pub(crate) fn comes_in_twos(&self) -> bool {
        self.is_pair || self.is_own_mirror()
    }
}

/// The pieces of a draft that are cut from a layer, as whole outlines.
///
/// With a repeat to match, every piece's point on the waist line at its own middle line is matched: levels of front and back then meet
/// at the side seams (matching is done at the seam line, not the cut line: Textile School).
pub fn pieces_of(draft: &Draft, layer: Layer, garment: usize, matches_repeat: bool) -> Vec<LayPiece> {
    let mut all = Vec::new();
    for piece in &draft.pieces {
        for cut in piece.cuts.iter().filter(|c| c.layer == layer && c.count > 0) {
            let whole = piece.whole();
            all.push(LayPiece {
                key: piece.key.clone(),
                name: piece.name.clone(),
                letter: piece.letter,
                garment,
                outline: whole.cut_line.clone(),
                is_symmetric: piece.on_fold,
                orientation: cut.orientation,
                count: cut.count,
                is_pair: cut.mirrored,
                either_face: false,
                may_lie_crosswise: false,
                bears_grade: u32::from(layer == Layer::Lining),
                match_point: matches_repeat.then_some(Point::ZERO),
                label_at: whole.label_at,
                grain: grain_of(&whole, cut.orientation),
            });
        }
    }
    all
}

/// The printed grain arrow; where this layer's cloth lies the other way, one of the same length through the label.
fn grain_of(shape: &Shape, orientation: Orientation) -> (Point, Point) {
    let (from, to) = (shape.grain.from, shape.grain.to);
    let arrow = to - from;
    let is_upright = arrow.y.abs() >= arrow.x.abs();
    if is_upright == (orientation == Orientation::Upright) {
        return (from, to);
    }
    let half = Vec2::new(arrow.y, arrow.x) * 0.5;
    (shape.label_at - half, shape.label_at + half)
}
