//! Puts geometry of the flat pattern onto the page: scaled, turned over, moved.
//!
//! **Shapes and units.** `flat` mm, y up, to `page` mm, y down.

use kurbo::{Point, Rect};

/// From the flat pattern to the page.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Place {
    scale: f64,
    /// Page position of flat (0, 0).
    origin: Point,
}

impl Place {
    /// The place that fits `bounds` (flat) into a box of the page, centred, at most `most` page mm per flat mm.
    pub(crate) fn fitting(bounds: Rect, at: (f64, f64), size: (f64, f64), most: f64) -> Place {
        let (w, h) = (bounds.width().max(1e-6), bounds.height().max(1e-6));
        let scale = (size.0 / w).min(size.1 / h).min(most);
        let centre = bounds.center();
        let middle = Point::new(at.0 + 0.5 * size.0, at.1 + 0.5 * size.1);
        Place {
            scale,
            origin: Point::new(middle.x - scale * centre.x, middle.y + scale * centre.y),
        }
    }

    pub(crate) fn point(self, p: Point) -> Point {
        Point::new(self.origin.x + self.scale * p.x, self.origin.y - self.scale * p.y)
    }

    pub(crate) fn points(self, points: &[Point]) -> Vec<Point> {
        points.iter().map(|p| self.point(*p)).collect()
    }
}

/// The box of the points; empty at the origin when there are none.
pub(crate) fn bounds<'a>(points: impl IntoIterator<Item = &'a Point>) -> Rect {
    let mut points = points.into_iter();
    let Some(first) = points.next() else {
        return Rect::ZERO;
    };
    points.fold(Rect::from_points(*first, *first), |r, p| r.union_pt(*p))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_up_on_the_pattern_is_up_on_the_page() {
        let place = Place::fitting(
            Rect::new(-100.0, 0.0, 100.0, 300.0),
            (10.0, 20.0),
            (50.0, 60.0),
            1.0,
        );
        assert!((place.scale - 0.2).abs() < 1e-12);
        let (top, foot) = (
            place.point(Point::new(0.0, 300.0)),
            place.point(Point::new(0.0, 0.0)),
        );
        assert!((top.y - 20.0).abs() < 1e-9 && (foot.y - 80.0).abs() < 1e-9);
        assert!((top.x - 35.0).abs() < 1e-9);
    }
}
