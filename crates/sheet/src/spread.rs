//! The pieces spread out on a plane without words, for files other programs cut or draw from.
//!
//! **Shapes and units.** mm. Pieces keep their own frame (y up); a place says where the upper left corner of a piece's
//! cut line lies on the plane, y down from the upper left corner of the plane.

use draft::{Piece, Shape};
use kurbo::{Point, Rect, Vec2};

use crate::pack::{self, Item};
use crate::pattern::{Pattern, PieceForm};

/// The plane is laid out this wide unless a piece is wider, mm: a table's width.
const WIDTH: f64 = 1500.0;

/// One piece on the plane.
pub(crate) struct Laid<'a> {
    pub(crate) piece: &'a Piece,
    pub(crate) shape: Shape,
    /// Box of the cut line in the piece frame.
    pub(crate) bounds: Rect,
    /// Where its upper left corner lies, y down.
    pub(crate) at: Vec2,
}

impl Laid<'_> {
    /// From the piece frame to the plane, y down: for SVG.
    pub(crate) fn down(&self, p: Point) -> Point {
        Point::new(p.x - self.bounds.x0 + self.at.x, self.bounds.y1 - p.y + self.at.y)
    }

    /// What is added to a point of the piece frame to put it on a plane `height` mm high, y up: for DXF.
    pub(crate) fn offset_up(&self, height: f64) -> Vec2 {
        Vec2::new(self.at.x - self.bounds.x0, height - self.at.y - self.bounds.y1)
    }
}

/// All pieces in cutting order, and the size of the plane.
pub(crate) struct Spread<'a> {
    pub(crate) laid: Vec<Laid<'a>>,
    pub(crate) size: (f64, f64),
}

pub(crate) fn shape_of(piece: &Piece, form: PieceForm) -> Shape {
    match form {
        PieceForm::Whole => piece.whole(),
        PieceForm::Half => piece.as_drafted(),
    }
}

/// Spreads the pieces out with the usual gap, on the least area.
pub(crate) fn spread<'a>(pattern: &Pattern<'a>, form: PieceForm) -> Spread<'a> {
    let mut laid: Vec<Laid<'a>> = pattern
        .draft
        .pieces
        .iter()
        .map(|piece| {
            let shape = shape_of(piece, form);
            let first = shape.cut_line.first().copied().unwrap_or_default();
            let bounds = shape
                .cut_line
                .iter()
                .fold(Rect::from_points(first, first), |r, p| r.union_pt(*p));
            Laid {
                piece,
                shape,
                bounds,
                at: Vec2::ZERO,
            }
        })
        .collect();
    let items: Vec<Item> = laid
        .iter()
        .map(|l| {
            let outline: Vec<Point> = l.shape.cut_line.iter().map(|p| l.down(*p)).collect();
            Item::new((l.bounds.width(), l.bounds.height()), &[outline])
        })
        .collect();
    let width = items.iter().map(|i| i.size.0).fold(WIDTH, f64::max);
    let best = pack::orders(&items)
        .into_iter()
        .flat_map(|order| pack::WAYS.map(|lay| lay(&items, &order, width)))
        .min_by(|a, b| (a.width * a.height).total_cmp(&(b.width * b.height)));
    let mut size = (0.0, 0.0);
    if let Some(layout) = best {
        size = (layout.width, layout.height);
        for placed in layout.placed {
            if let Some(l) = laid.get_mut(placed.item) {
                l.at = placed.at;
            }
        }
    }
    Spread { laid, size }
}
