//! What hides what: the nearest surface at each spot of the page, form and cloth together.
//!
//! **Method.** A depth buffer over a coarse raster of the page; what lies further than a hand's breadth of slack behind the nearest surface is
//! hidden.
//! **Limits.** As fine as the raster: a few page units along an outline.

use super::figure::{Seen, seen};
use super::sheet::Place;
use crate::worn::OnForm;

/// Side of a cell, page units.
const CELL: f64 = 3.0;
/// Cloth this far behind the nearest surface is still in sight, mm: it lies on the skin and may be drawn a little into it.
const SLACK_MM: f64 = 14.0;

/// The nearest surface of a figure.
pub(super) struct Depth {
    place: Place,
    columns: usize,
    rows: usize,
    near: Vec<f64>,
    /// Where the cloth is what is seen.
    cloth: Vec<bool>,
}

impl Depth {
    pub(super) fn of(on: &OnForm, place: &Place, height: f64) -> Depth {
        let mut depth = Depth {
            place: *place,
            columns: (super::sheet::WIDTH / CELL) as usize + 1,
            rows: (height / CELL) as usize + 1,
            near: Vec::new(),
            cloth: Vec::new(),
        };
        depth.near = vec![f64::NEG_INFINITY; depth.columns * depth.rows];
        depth.cloth = vec![false; depth.columns * depth.rows];
        let v = on.form.vertices();
        for face in on.form.faces() {
            depth.fill(face.map(|i| v[i]), false);
        }
        for Seen { at, .. } in seen(on, place.side) {
            depth.fill(at, true);
        }
        depth
    }

    fn fill(&mut self, t: [[f64; 3]; 3], is_cloth: bool) {
        let [a, b, c] = t.map(|p| self.place.at(p).map(|q| q / CELL));
        let z = t.map(|p| self.place.side.near(p));
        let whole = (b[1] - c[1]) * (a[0] - c[0]) + (c[0] - b[0]) * (a[1] - c[1]);
        if whole.abs() < 1e-9 {
            return;
        }
        let range = |i: usize, most: usize| {
            let low = a[i].min(b[i]).min(c[i]).floor().max(0.0) as usize;
            let high = a[i].max(b[i]).max(c[i]).ceil().max(0.0) as usize;
            low..(high + 1).min(most)
        };
        for row in range(1, self.rows) {
            for column in range(0, self.columns) {
                let (x, y) = (column as f64 + 0.5, row as f64 + 0.5);
                let p = ((b[1] - c[1]) * (x - c[0]) + (c[0] - b[0]) * (y - c[1])) / whole;
                let q = ((c[1] - a[1]) * (x - c[0]) + (a[0] - c[0]) * (y - c[1])) / whole;
                let r = 1.0 - p - q;
                if p >= 0.0 && q >= 0.0 && r >= 0.0 {
                    let near = p * z[0] + q * z[1] + r * z[2];
                    let cell = row * self.columns + column;
                    // Cloth lies on the skin, or a hair in it.
                    if is_cloth && near > self.near[cell] - SLACK_MM {
                        self.cloth[cell] = true;
                    } else if !is_cloth && near > self.near[cell] + SLACK_MM {
                        self.cloth[cell] = false;
                    }
                    self.near[cell] = self.near[cell].max(near);
                }
            }
        }
    }

    /// Whether a box of the page (left, top, right, bottom) lies all on cloth.
    pub(super) fn is_on_cloth(&self, [left, top, right, bottom]: [f64; 4]) -> bool {
        let spots = [left, (left + right) / 2.0, right];
        let rows = [top, (top + bottom) / 2.0, bottom];
        spots.iter().all(|x| {
            rows.iter().all(|y| {
                let (column, row) = ((x / CELL).max(0.0) as usize, (y / CELL).max(0.0) as usize);
                column < self.columns
                    && self
                        .cloth
                        .get(row * self.columns + column)
                        .copied()
                        .unwrap_or(false)
            })
        })
    }

    /// Whether a point of the cloth is in sight.
    pub(super) fn is_seen(&self, p: [f64; 3]) -> bool {
        let [x, y] = self.place.at(p).map(|q| q / CELL);
        if x < 0.0 || y < 0.0 {
            return true;
        }
        let (column, row) = (x as usize, y as usize);
        if column >= self.columns || row >= self.rows {
            return true;
        }
        self.place.side.near(p) > self.near[row * self.columns + column] - SLACK_MM
    }
}
