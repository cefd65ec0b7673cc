//! How deep two shapes overlap, for every way one can lie beside the other, on a grid.
//!
//! The place of `b` relative to `a` is two numbers, so the overlap measure can be tabulated once and read thousands of times a
//! second for each pair. Cells that no edge of the *reduced convolution* of the two outlines crosses are wholly apart or wholly
//! overlapping; in the others the two outlines are compared exactly, in double precision. The measure between grid points is
//! linear along both axes.
//!
//! **Shapes and units.** `by`: origin of `b` minus origin of `a`. The measure is an area, larger the deeper the overlap.
//! **Source.** Measure: Gardeyn, Vanden Berghe & Wauters 2025, arXiv 2509.13329, section on overlap; reduced convolution: Behar
//! & Lien 2011 (from memory); the table is own.

use kurbo::{Point, Vec2};

use crate::polygon::{self, edges};
use crate::shape::Shape;

/// Cells along the longer side. Half of it makes the linear reading coarse, double of it pushes fields out of the cache.
const CELLS: f64 = 64.0;

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Cell {
    Apart = 0,
    Overlapping = 1,
    Edge = 2,
}

/// What each cell is takes the lowest bits of the measure at its lower left corner: one look into memory less, and looks into
/// memory are what the search spends its time on.
const CELL_BITS: u32 = 3;

#[derive(Debug)]
pub(crate) struct Field {
    corner: Vec2,
    per_cell: f64,
    columns: u32,
    rows: u32,
    /// At the cells' corners, `columns + 1` in a row: the measure, with the cell to the upper right in its lowest bits.
    nodes: Box<[u32]>,
}

/// A field in the making.
struct Grid {
    corner: Vec2,
    cell: f64,
    columns: usize,
    rows: usize,
    cells: Vec<Cell>,
    loss: Vec<f32>,
}

impl Field {
    pub(crate) fn new(a: &Shape, b: &Shape) -> Field {
        let low = Vec2::new(a.bounds.x0 - b.bounds.x1, a.bounds.y0 - b.bounds.y1);
        let high = Vec2::new(a.bounds.x1 - b.bounds.x0, a.bounds.y1 - b.bounds.y0);
        let size = high - low;
        let cell = size.x.max(size.y) / CELLS;
        let columns = (size.x / cell).ceil().max(1.0) as usize;
        let rows = (size.y / cell).ceil().max(1.0) as usize;
        let mut grid = Grid {
            corner: low,
            cell,
            columns,
            rows,
            cells: vec![Cell::Apart; columns * rows],
            loss: vec![0.0; (columns + 1) * (rows + 1)],
        };
        grid.mark_edges(a, b);
        grid.fill_between(a, b);
        grid.measure(a, b);
        Field {
            corner: low,
            per_cell: 1.0 / cell,
            columns: columns as u32,
            rows: rows as u32,
            nodes: grid.nodes(),
        }
    }

    /// See [`crate::shape::Shapes::loss`].
    #[inline]
    pub(crate) fn loss(&self, a: &Shape, b: &Shape, by: Vec2) -> f32 {
        let at = (by - self.corner) * self.per_cell;
        if !(at.x >= 0.0 && at.y >= 0.0) {
            return 0.0;
        }
        let (column, row) = (at.x as u32, at.y as u32);
        if column >= self.columns || row >= self.rows {
            // On the far edge itself the boxes still touch.
            let is_beyond = column > self.columns || row > self.rows;
            return if is_beyond {
                0.0
            } else {
                Field::worked_out(a, b, by)
            };
        }
        let across = self.columns as usize + 1;
        let i = row as usize * across + column as usize;
        let j = i + across;
        let state = self.nodes[i] & CELL_BITS;
        if state == Cell::Apart as u32
            || (state == Cell::Edge as u32 && !polygon::overlap(&a.ring, &a.bounds, &b.ring, &b.bounds, by))
        {
            return 0.0;
        }
        let (u, v) = ((at.x - f64::from(column)) as f32, (at.y - f64::from(row)) as f32);
        let loss = |k: usize| f32::from_bits(self.nodes[k] & !CELL_BITS);
        let low = loss(i) + u * (loss(i + 1) - loss(i));
        let high = loss(j) + u * (loss(j + 1) - loss(j));
        low + v * (high - low)
    }

    /// The same without a table.
    pub(crate) fn worked_out(a: &Shape, b: &Shape, by: Vec2) -> f32 {
        if polygon::overlap(&a.ring, &a.bounds, &b.ring, &b.bounds, by) {
            Measure::new(a, b).at(by).0
        } else {
            0.0
        }
    }
}

impl Grid {
    fn nodes(&self) -> Box<[u32]> {
        let across = self.columns + 1;
        (0..self.loss.len())
            .map(|i| {
                let (column, row) = (i % across, i / across);
                let state = if column < self.columns && row < self.rows {
                    self.cells[row * self.columns + column]
                } else {
                    Cell::Apart
                };
                (self.loss[i].to_bits() & !CELL_BITS) | state as u32
            })
            .collect()
    }

    /// Marks every cell that an edge of the reduced convolution crosses.
    fn mark_edges(&mut self, a: &Shape, b: &Shape) {
        // b moved by `by` meets a exactly when `by` lies in a + (-b).
        let minus_b: Vec<Point> = b.ring.iter().map(|p| Point::new(-p.x, -p.y)).collect();
        for (of_edges, of_corners) in [(&a.ring, &minus_b), (&minus_b, &a.ring)] {
            let n = of_corners.len();
            for (from, to) in edges(of_edges) {
                let along = to - from;
                for i in 0..n {
                    let corner = of_corners[i];
                    let before = corner - of_corners[(i + n - 1) % n];
                    let after = of_corners[(i + 1) % n] - corner;
                    let scale = 1e-9 * along.hypot();
                    let is_between = before.cross(along) >= -scale * before.hypot()
                        && along.cross(after) >= -scale * after.hypot();
                    if is_between && before.cross(after) > 0.0 {
                        self.mark(from.to_vec2() + corner.to_vec2(), to.to_vec2() + corner.to_vec2());
                    }
                }
            }
        }
    }

    fn mark(&mut self, from: Vec2, to: Vec2) {
        let cell = self.cell;
        const LITTLE: f64 = 1e-6;
        let (p, q) = ((from - self.corner) / cell, (to - self.corner) / cell);
        let (p, q) = if p.x <= q.x { (p, q) } else { (q, p) };
        let column_of = |x: f64| (x.floor().max(0.0) as usize).min(self.columns - 1);
        let row_of = |y: f64| (y.floor().max(0.0) as usize).min(self.rows - 1);
        let (first, last) = (column_of(p.x - LITTLE), column_of(q.x + LITTLE));
        let slope = if q.x - p.x > 1e-12 {
            (q.y - p.y) / (q.x - p.x)
        } else {
            0.0
        };
        for column in first..=last {
            let (y0, y1) = if slope == 0.0 && (q.x - p.x) <= 1e-12 {
                (p.y, q.y)
            } else {
                let left = (column as f64 - LITTLE).max(p.x).min(q.x);
                let right = (column as f64 + 1.0 + LITTLE).min(q.x).max(p.x);
                (p.y + slope * (left - p.x), p.y + slope * (right - p.x))
            };
            for row in row_of(y0.min(y1) - LITTLE)..=row_of(y0.max(y1) + LITTLE) {
                self.cells[row * self.columns + column] = Cell::Edge;
            }
        }
    }

    /// Says apart or overlapping for the cells between, one exact comparison for each run of them.
    fn fill_between(&mut self, a: &Shape, b: &Shape) {
        let cell = self.cell;
        for row in 0..self.rows {
            let mut last: Option<Cell> = None;
            for column in 0..self.columns {
                let i = row * self.columns + column;
                if self.cells[i] == Cell::Edge {
                    last = None;
                    continue;
                }
                let state = last.unwrap_or_else(|| {
                    let middle = self.corner + cell * Vec2::new(column as f64 + 0.5, row as f64 + 0.5);
                    if polygon::overlap(&a.ring, &a.bounds, &b.ring, &b.bounds, middle) {
                        Cell::Overlapping
                    } else {
                        Cell::Apart
                    }
                });
                self.cells[i] = state;
                last = Some(state);
            }
        }
    }

    /// The measure at every corner of a cell that is not apart; edge cells that the circles show to be deep inside are opened.
    fn measure(&mut self, a: &Shape, b: &Shape) {
        let cell = self.cell;
        let measure = Measure::new(a, b);
        let across = self.columns + 1;
        let mut depth = vec![0.0_f32; self.loss.len()];
        for row in 0..=self.rows {
            for column in 0..across {
                let near = |r: usize, c: usize| {
                    r < self.rows && c < self.columns && self.cells[r * self.columns + c] != Cell::Apart
                };
                let (r0, c0) = (row.wrapping_sub(1), column.wrapping_sub(1));
                if near(row, column) || near(r0, column) || near(row, c0) || near(r0, c0) {
                    let by = self.corner + cell * Vec2::new(column as f64, row as f64);
                    let i = row * across + column;
                    (self.loss[i], depth[i]) = measure.at(by);
                }
            }
        }
        // The deepest two circles lose at most the way walked, so a corner deeper than the cell's diagonal proves the cell.
        let proof = (cell * std::f64::consts::SQRT_2 * 1.001) as f32;
        for row in 0..self.rows {
            for column in 0..self.columns {
                let i = row * across + column;
                if depth[i] > proof {
                    self.cells[row * self.columns + column] = Cell::Overlapping;
                }
            }
        }
    }
}

/// The measure of two shapes with what does not change taken out of the loop.
struct Measure<'a> {
    a: &'a Shape,
    b: &'a Shape,
    eps: f32,
    scale: f32,
}

impl<'a> Measure<'a> {
    fn new(a: &'a Shape, b: &'a Shape) -> Measure<'a> {
        Measure {
            a,
            b,
            eps: (0.01 * a.diameter.max(b.diameter)) as f32,
            scale: (a.hull_area * b.hull_area).sqrt().sqrt() as f32,
        }
    }

    /// The measure, and how deep the deepest two circles overlap.
    fn at(&self, by: Vec2) -> (f32, f32) {
        let (mut sum, mut deepest) = (0.0_f32, f32::NEG_INFINITY);
        for p in &self.a.circles {
            let (x, y, r) = ((p.x - by.x) as f32, (p.y - by.y) as f32, p.r as f32);
            for q in &self.b.circles {
                let (dx, dy, other) = (x - q.x as f32, y - q.y as f32, q.r as f32);
                let depth = r + other - (dx * dx + dy * dy).sqrt();
                let decayed = if depth >= self.eps {
                    depth
                } else {
                    self.eps * self.eps / (2.0 * self.eps - depth)
                };
                sum += decayed * r.min(other);
                deepest = deepest.max(depth);
            }
        }
        let proxy = std::f32::consts::PI * sum;
        ((proxy + self.eps * self.eps).sqrt() * self.scale, deepest)
    }
}
