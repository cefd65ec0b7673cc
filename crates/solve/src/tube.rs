//! A tube of cloth about the y axis: the simplest garment, and the one with a closed form.
//!
//! **Shapes and units.** mm. Vertices ring by ring from the bottom, `around` to a ring, the first at z = 0, x > 0.

use std::f64::consts::TAU;

use crate::error::MeshError;
use crate::mesh::{LawId, Mesh};

/// A tube: how large at rest, how fine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tube {
    /// Length once round at rest, mm.
    pub rest_girth_mm: f64,
    /// Height at rest, mm.
    pub rest_height_mm: f64,
    /// Points around, at least 3.
    pub around: usize,
    /// Rows of cells, at least 1.
    pub rows: usize,
}

impl Tube {
    /// How many vertices it has.
    pub const fn vertex_count(&self) -> usize {
        self.around * (self.rows + 1)
    }

    /// The vertices of a ring, 0 at the bottom.
    pub const fn ring(&self, row: usize) -> std::ops::Range<usize> {
        self.around * row..self.around * (row + 1)
    }

    /// Its vertices on a cylinder about the y axis from height 0.
    pub fn placed(&self, radius_mm: f64, height_mm: f64) -> Vec<[f64; 3]> {
        let rows = 0..=self.rows;
        rows.flat_map(|row| {
            let y = height_mm * row as f64 / self.rows.max(1) as f64;
            (0..self.around).map(move |i| {
                let (s, c) = (TAU * i as f64 / self.around as f64).sin_cos();
                [radius_mm * c, y, radius_mm * s]
            })
        })
        .collect()
    }

    /// Adds its triangles, diagonals alternating, to a mesh whose first vertices are the tube's.
    ///
    /// # Errors
    /// [`MeshError`] for a tube without size or a mesh of too few vertices.
    pub fn add_to(&self, mesh: &mut Mesh, law: LawId, layer: usize) -> Result<(), MeshError> {
        let (w, h) = (
            self.rest_girth_mm / self.around.max(1) as f64,
            self.rest_height_mm / self.rows.max(1) as f64,
        );
        for row in 0..self.rows {
            for i in 0..self.around {
                let next = (i + 1) % self.around;
                let at = |r: usize, i: usize| self.around * r + i;
                // Seen from outside x runs to the left as the angle grows: corners go the other way round to stay
                // counter-clockwise from outside, and the cloth's around axis points against the angle.
                let [a, b, c, d] = [at(row, i), at(row, next), at(row + 1, next), at(row + 1, i)];
                let corner = |v: usize| {
                    let around = if v == a || v == d { w } else { 0.0 };
                    let up = if v == c || v == d { h } else { 0.0 };
                    [up, around]
                };
                let halves = if (row + i) % 2 == 0 {
                    [[b, a, d], [b, d, c]]
                } else {
                    [[b, a, c], [a, d, c]]
                };
                for t in halves {
                    mesh.add_triangle(t, t.map(corner), law, layer)?;
                }
            }
        }
        Ok(())
    }
}
