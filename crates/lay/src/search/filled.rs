//! Where on the cloth something lies already, on a coarse grid: most random places are refused by a look instead of a comparison of
//! outlines.
//!
//! Only cells that lie wholly inside a circle of a piece count as filled, and only points inside the piece that is tried are looked up:
//! what is refused here would have been refused by the outlines too.

use kurbo::Vec2;

use crate::shape::Shape;

/// Cells across the cloth.
const ROWS: f64 = 256.0;
/// So many circles of a tried piece are looked up, the largest first.
const LOOKS: usize = 12;
/// Circles come in single precision.
const SAFE: f64 = 1.0 - 1e-4;

#[derive(Debug)]
pub(crate) struct Filled {
    per_cell: f64,
    rows: usize,
    /// A column of cells after the other, as far as the pieces reach.
    cells: Vec<bool>,
}

impl Filled {
    /// Nothing lies yet on a strip of this height.
    pub(crate) fn new(height: f64) -> Filled {
        Filled {
            per_cell: ROWS / height.max(1e-9),
            rows: ROWS as usize,
            cells: Vec::new(),
        }
    }

    /// A shape comes to lie here.
    pub(crate) fn add(&mut self, shape: &Shape, at: Vec2) {
        for circle in &shape.circles {
            let (x, y) = (
                (circle.x + at.x) * self.per_cell,
                (circle.y + at.y) * self.per_cell,
            );
            let r = circle.r * self.per_cell * SAFE;
            let first = (y - r).ceil().max(0.0) as usize;
            let last = ((y + r).floor().max(0.0) as usize).min(self.rows);
            for row in first..last {
                let off = (y - row as f64).abs().max((row as f64 + 1.0 - y).abs());
                if off >= r {
                    continue;
                }
                let half = (r * r - off * off).sqrt();
                let (from, to) = (
                    (x - half).ceil().max(0.0) as usize,
                    (x + half).floor().max(0.0) as usize,
                );
                if self.cells.len() < to * self.rows {
                    self.cells.resize(to * self.rows, false);
                }
                for column in from..to {
                    self.cells[column * self.rows + row] = true;
                }
            }
        }
    }

    /// Whether the shape would lie on something there for certain.
    pub(crate) fn refuses(&self, shape: &Shape, at: Vec2) -> bool {
        shape.circles.iter().take(LOOKS).any(|circle| {
            let (x, y) = (
                (circle.x + at.x) * self.per_cell,
                (circle.y + at.y) * self.per_cell,
            );
            if !(x >= 0.0 && y >= 0.0) {
                return false;
            }
            let (column, row) = (x as usize, y as usize);
            row < self.rows && self.cells.get(column * self.rows + row).copied().unwrap_or(false)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::Shapes;
    use kurbo::Point;

    fn square(side: f64) -> (Shapes, usize) {
        let h = 0.5 * side;
        let ring = [(-h, -h), (h, -h), (h, h), (-h, h)]
            .map(|(x, y)| Point::new(x, y))
            .to_vec();
        let mut shapes = Shapes::default();
        let key = shapes.prepare(ring).unwrap();
        let shape = shapes.turn(&key, false, 0.0);
        shapes.close();
        (shapes, shape)
    }

    #[test]
    fn refuses_only_what_touches() {
        let (shapes, number) = square(100.0);
        let shape = shapes.get(number);
        let mut filled = Filled::new(1000.0);
        let at = Vec2::new(200.0, 300.0);
        filled.add(shape, at);
        let mut refused = 0;
        for x in (0..500).step_by(7) {
            for y in (0..600).step_by(7) {
                let tried = Vec2::new(f64::from(x), f64::from(y));
                if filled.refuses(shape, tried) {
                    refused += 1;
                    assert!(shapes.touch(number, number, tried - at), "{tried:?} is free");
                }
            }
        }
        // 200 x 200 of places touch; the circles leave the rim to the outlines.
        assert!(refused > 300, "{refused} of some 816 places were refused");
        assert!(
            !filled.refuses(shape, Vec2::new(-80.0, -80.0)),
            "off the cloth is not for the grid to say"
        );
    }
}
